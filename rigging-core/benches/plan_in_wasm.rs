//! How fast a long plan is checked where the page runs it: in WebAssembly.
//!
//! `cargo bench --package rigging-core --target wasm32-unknown-unknown --bench plan_in_wasm`; with
//! `--profile release` as the page ships it. Built natively there is nothing here.
#![cfg(target_arch = "wasm32")]
#![expect(clippy::indexing_slicing, reason = "a check that cannot go on has failed")]

use rigging_core::plan::{Answers, Plan, WaterToday};
use rigging_core::quantity::{Mass, Units, kilogram};
use std::hint::black_box;
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

#[wasm_bindgen_bench]
fn plans(criterion: &mut Criterion) {
    let plan = long();
    criterion.bench_function("200 drops, nothing answered before", |bencher| {
        bencher.iter(|| black_box(plan.check(&mut Answers::default(), Units::default())));
    });
    let mut answers = Answers::default();
    criterion.bench_function("200 drops, nothing changed", |bencher| {
        bencher.iter(|| black_box(plan.check(&mut answers, Units::default())));
    });
    let (mut heavier, mut body) = (plan.clone(), 100.0);
    criterion.bench_function("200 drops, another mass each time", |bencher| {
        bencher.iter(|| {
            body = if body > 130.0 { 100.0 } else { body + 0.01 };
            heavier.group[0].body = Mass::new::<kilogram>(body);
            black_box(heavier.check(&mut answers, Units::default()))
        });
    });
    let text = plan.write();
    criterion.bench_function("200 drops read from their file", |bencher| {
        bencher.iter(|| black_box(Plan::read(&text)));
    });
}
