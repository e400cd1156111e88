//! How fast the engine is where the page runs it: in WebAssembly.
//!
//! The clock belongs to the crate that measures; the engine has none. Every row is a mean, beside its goal. Built
//! natively there is nothing here: `cargo bench --package checks` measures that.
#![cfg(target_arch = "wasm32")]
#![expect(clippy::unwrap_used, reason = "a check that cannot go on has failed")]

mod goal;

use std::hint::black_box;

use goal::timed;
use rigging_core::statics::{LoadOnLine, LoadedLine, Rig, Settings, Solver, Vector, solve};
use wasm_bindgen_test::{Criterion, wasm_bindgen_bench};

/// Rigs that the native bench measures too.
const RIGS: [(&str, &str); 5] = [
    ("two legs", include_str!("../../tests/rigs/two-legs-120.rig.json")),
    ("four legs", include_str!("../../tests/rigs/four-legs-03.rig.json")),
    ("sliding sling", include_str!("../../tests/rigs/sliding-sling-00.rig.json")),
    ("guide line", include_str!("../../tests/rigs/guide-line-00.rig.json")),
    ("ring near its end stop", include_str!("../../tests/rigs/guide-line-04.rig.json")),
];

/// Goals of a thousand solves, and of a line with weight and a load, in milliseconds.
const SAMPLES_MS: f64 = 4.0;
const LINE_MS: f64 = 0.0015;

fn line_with_weight_and_load(slack: f64) -> LoadedLine {
    let load = LoadOnLine { along: 10.0 * slack, force: Vector::new(0.0, 800.0, 0.0) };
    LoadedLine::new(Vector::new(20.0, 0.0, 0.0), 20.0 * slack, 30_000.0, 0.637, vec![load]).unwrap()
}

/// A thousand solves as a question with ranges asks them: the first line from 1 % shorter to 1 %
/// longer, meanwhile the loads from 10 % less to 10 % more.
fn thousand_samples(rig: &Rig) {
    let mut sampled = rig.clone();
    let mut solver = Solver::default();
    let first = rig.lines().first().unwrap();
    let line = rig.line_named(first.name()).unwrap();
    let loads: Vec<_> =
        rig.points().iter().map(|point| (rig.point_named(point.name()).unwrap(), point.load())).collect();
    for sample in 0..1000 {
        let share = f64::from(sample) / 500.0 - 1.0;
        sampled.set_length(line, first.length() * (1.0 + 0.01 * share)).unwrap();
        for &(point, load) in &loads {
            sampled.set_load(point, load * (1.0 + 0.1 * share)).unwrap();
        }
        assert!(black_box(solver.solve(&sampled, &Settings::default())).balanced().is_some());
    }
}

#[wasm_bindgen_bench]
fn rigs(criterion: &mut Criterion) {
    for (name, json) in RIGS {
        let mut rig: Rig = serde_json::from_str(json).unwrap();
        timed(criterion, &format!("1000 samples of {name}"), SAMPLES_MS, || thousand_samples(&rig));
        let nominal = solve(&rig, &Settings::default());
        rig.start_from(nominal.balanced().unwrap());
        timed(criterion, &format!("1000 samples of {name}, from its rest"), SAMPLES_MS, || thousand_samples(&rig));
    }
}

#[wasm_bindgen_bench]
fn lines_with_weight(criterion: &mut Criterion) {
    for slack in [0.967_741_935, 1.05] {
        let line = line_with_weight_and_load(slack);
        let name = format!("line with weight and load, × {slack:.2}");
        timed(criterion, &name, LINE_MS, || black_box(&line).at_rest().unwrap());
    }
}
