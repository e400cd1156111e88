//! The working of every example, as text: what is found, formula, numbers, result, source.
//!
//! A working that changes is seen here first. `UPDATE_WORKINGS=1 cargo test --test workings` writes the files anew.

use rigging_core::quantity::decimal;
use rigging_core::question::{Answer, Question};
use rigging_core::working::Given;
use std::fs;
use std::path::Path;

fn told(given: &Given) -> String {
    let unit = [" ", given.kind.si()].concat();
    let unit = unit.trim_end();
    // Four figures: what a change of method moves, and no machine does.
    let figures = |value: f64| {
        let places = if value == 0.0 { 0 } else { (3 - value.abs().log10().floor() as i32).max(0) };
        decimal(value, places as u32)
    };
    let (low, high) = (figures(given.band.low()), figures(given.band.high()));
    if low == high {
        format!("{} = {low}{unit}", given.symbol)
    } else {
        format!("{} = {low} to {high}{unit}", given.symbol)
    }
}

fn text(answer: &Answer) -> String {
    let mut text = String::new();
    for step in &answer.working {
        let given: Vec<String> = step.given.iter().map(told).collect();
        text += &format!(
            "{}\n  {}\n  {}\n  -> {}\n  {}: {}\n",
            step.what,
            step.formula,
            given.join(", "),
            told(&step.result),
            step.source.known.word(),
            step.source.place
        );
    }
    text
}

#[test]
fn the_workings_of_the_examples_are_those_on_file() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/workings");
    let update = std::env::var_os("UPDATE_WORKINGS").is_some();
    for question in Question::all() {
        let file = folder.join(format!("{}.txt", question.name().replace(' ', "-")));
        let now = text(&question.answer().unwrap());
        assert!(now.lines().count() >= 10, "{}", question.name());
        if update {
            fs::create_dir_all(&folder).unwrap();
            fs::write(&file, &now).unwrap();
        }
        let then = fs::read_to_string(&file).unwrap_or_default();
        assert!(then == now, "{}:\n{then}\nis now\n{now}", question.name());
    }
}
