//! What is printed of strengths, typed in again beside its source, and what the library makes of it.
#![expect(clippy::panic, clippy::unwrap_used, reason = "a row that is missing stops the run")]

mod printed;
mod resistance;
mod shares;

use rigging_core::strength::item::{ITEMS, Item};

fn found<T>(rows: &'static [T], name: &str, of: fn(&T) -> &'static str) -> &'static T {
    rows.iter().find(|row| of(row) == name).unwrap_or_else(|| panic!("{name}"))
}

fn item(name: &str) -> &'static Item {
    found(ITEMS, name, |item| item.name)
}
