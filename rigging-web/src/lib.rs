//! Screens of the rigging load page.
use wasm_bindgen::prelude::*;
/// One open page.
#[wasm_bindgen]
#[derive(Debug, Default)]
pub struct Page;
#[wasm_bindgen]
impl Page {
    /// Opens the page.
    #[wasm_bindgen(constructor)]
    pub fn new(_fragment: &str) -> Page {
        Page
    }
}
