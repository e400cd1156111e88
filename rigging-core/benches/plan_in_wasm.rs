//! How fast a long plan is checked where the page runs it: in WebAssembly.
//!
//! `cargo bench --package rigging-core --target wasm32-unknown-unknown --bench plan_in_wasm`; with
//! `--profile release` as the page ships it. Built natively there is nothing here.
#![cfg(target_arch = "wasm32")]
#![expect(clippy::indexing_slicing, reason = "a check that cannot go on has failed")]

mod goal;

use goal::timed;
use rigging_core::plan::{Answers, Plan, WaterToday};
use rigging_core::quantity::{Mass, Units, kilogram};
use wasm_bindgen_test::{Criterion, wasm_bindgen_bench};

/// 200 drops like those of the example, and 12 people.
fn long() -> Plan {
    let example = Plan::example();
    let mut plan = example.clone();
    plan.drops = (0..200).map(|place| example.drops[place % example.drops.len()].clone()).collect();
    plan.group = (0..12).map(|place| example.group[place % example.group.len()].clone()).collect();
    plan.day.water = WaterToday::AsEntered;
    plan
}

/// Goal of whatever is done to such a plan, in milliseconds.
const GOAL_MS: f64 = 100.0;

#[wasm_bindgen_bench]
fn plans(criterion: &mut Criterion) {
    let plan = long();
    timed(criterion, "200 drops, nothing answered before", GOAL_MS, || {
        plan.check(&mut Answers::default(), Units::default())
    });
    let mut answers = Answers::default();
    timed(criterion, "200 drops, nothing changed", GOAL_MS, || plan.check(&mut answers, Units::default()));
    let (mut heavier, mut body) = (plan.clone(), 100.0);
    timed(criterion, "200 drops, another mass each time", GOAL_MS, || {
        body = if body > 130.0 { 100.0 } else { body + 0.01 };
        heavier.group[0].body = Mass::new::<kilogram>(body);
        heavier.check(&mut answers, Units::default())
    });
    let text = plan.write();
    timed(criterion, "200 drops read from their file", GOAL_MS, || Plan::read(&text));
}
