//! Packs the page.
fn main() {}
