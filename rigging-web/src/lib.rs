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
/// What the page shows without scripts.
pub fn still_page() -> String {
    "<p>This page works out loads by a script, and scripts are off here.</p>".to_owned()
}
