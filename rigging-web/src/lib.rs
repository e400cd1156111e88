//! Screens of the rigging load page: entry of numbers, pictures, panels and the link that holds the
//! state. There is no physics here; every number comes from [`rigging_core`].
//!
//! The shell makes one [`Module`], tells it what happens, and puts the strings of each [`page::Update`]
//! in place. Everything here runs natively too, and is tested that way.

mod both;
pub mod class;
pub mod entry;
pub mod figure;
mod glance;
mod graph;
pub mod home;
pub mod labels;
pub mod link;
pub mod number;
pub mod page;
pub mod paper;
pub mod plan;
pub mod qr;
pub mod question_screen;
pub mod result;
mod standing;
pub mod tables;
pub mod units;
pub mod way;
pub mod working;
pub mod written;

pub use home::still_page;
pub use tables::{Notice, still_tables};

use page::{Event, Page, Update};
use wasm_bindgen::prelude::*;

/// The page as the shell sees it.
#[wasm_bindgen]
#[derive(Debug, Default)]
pub struct Module {
    page: Page,
}

#[wasm_bindgen]
impl Module {
    /// A page that shows nothing yet; `address` is where it lies, or empty: see [`Page::at`].
    #[wasm_bindgen(constructor)]
    pub fn new(address: &str) -> Module {
        Module { page: Page::at(address) }
    }

    /// The page is about to be printed; see [`Page::paper`].
    pub fn paper(&mut self, now: &str) -> JsValue {
        let update = self.page.paper(now);
        self.told(update)
    }

    /// Takes up what the browser kept; see [`Page::recall`].
    pub fn recall(&mut self, kept: &str) {
        self.page.recall(kept);
    }

    /// Goes where the address says; see [`Page::go`].
    pub fn go(&mut self, fragment: &str, memory: &str, now: &str) -> JsValue {
        let update = self.page.go(fragment, memory, now);
        self.told(update)
    }

    /// The page is looked at again; see [`Page::wake`].
    pub fn wake(&mut self, now: &str) -> JsValue {
        let update = self.page.wake(now);
        self.told(update)
    }

    /// Something is typed or chosen; see [`Page::event`].
    pub fn input(&mut self, id: &str, value: &str, now: &str) -> JsValue {
        self.event(Event::Input, id, value, now)
    }

    /// A field is left.
    pub fn leave(&mut self, id: &str, value: &str, now: &str) -> JsValue {
        self.event(Event::Leave, id, value, now)
    }

    /// A hand takes hold of the picture; see [`Page::grip`].
    pub fn grip(&mut self, id: &str, x: f64, y: f64) {
        self.page.grip(id, x, y);
    }

    /// It moves; see [`Page::pull`].
    pub fn pull(&mut self, x: f64, y: f64, now: &str) -> JsValue {
        // Kept once, when it lets go.
        shown(&self.page.pull(x, y, now))
    }

    /// It lets go; see [`Page::let_go`].
    pub fn let_go(&mut self) -> JsValue {
        let update = self.page.let_go();
        self.told(update)
    }

    /// What it did is taken back; see [`Page::take_back`].
    pub fn take_back(&mut self) -> JsValue {
        let update = self.page.take_back();
        self.told(update)
    }

    /// An arrow key moves a handle; see [`Page::nudge`].
    pub fn nudge(&mut self, id: &str, key: &str, now: &str) -> JsValue {
        let update = self.page.nudge(id, key, now);
        self.told(update)
    }

    /// A button is pressed.
    pub fn press(&mut self, id: &str, now: &str) -> JsValue {
        self.event(Event::Press, id, "", now)
    }

    fn event(&mut self, event: Event, id: &str, value: &str, now: &str) -> JsValue {
        let update = self.page.event(event, id, value, now);
        self.told(update)
    }

    /// The update with what the browser is to keep.
    fn told(&self, update: Update) -> JsValue {
        shown(&Update { kept: self.page.kept(), ..update })
    }
}

/// The update as an object of the browser; nothing to do if it cannot be told.
fn shown(update: &Update) -> JsValue {
    serde_wasm_bindgen::to_value(update).unwrap_or(JsValue::NULL)
}
