//! How fast the engine is where the page runs it: in WebAssembly.
//!
//! The clock belongs to the crate that measures; the engine has none. Every row is a mean. Built
//! natively there is nothing here: `cargo bench --package checks` measures that.
#![cfg(target_arch = "wasm32")]
#![expect(clippy::unwrap_used, reason = "a check that cannot go on has failed")]

use std::hint::black_box;

use rigging_core::statics::{LineId, LoadOnLine, LoadedLine, Rig, Settings, Solver, Vector};
use wasm_bindgen_test::{Criterion, wasm_bindgen_bench};

/// Rigs that the native bench measures too.
const RIGS: [(&str, &str); 5] = [
    ("two legs", include_str!("../../tests/rigs/two-legs-120.rig.json")),
    ("four legs", include_str!("../../tests/rigs/four-legs-03.rig.json")),
    ("sliding sling", include_str!("../../tests/rigs/sliding-sling-00.rig.json")),
    ("guide line", include_str!("../../tests/rigs/guide-line-00.rig.json")),
    ("ring at its end stop", include_str!("../../tests/rigs/guide-line-04.rig.json")),
];

fn line_with_weight_and_load(slack: f64) -> LoadedLine {
    let load = LoadOnLine { along: 10.0 * slack, force: Vector::new(0.0, 800.0, 0.0) };
    LoadedLine::new(Vector::new(20.0, 0.0, 0.0), 20.0 * slack, 30_000.0, 0.637, vec![load]).unwrap()
}

/// A thousand solves, each with another length of the first line, as a question with ranges asks.
fn thousand_samples(rig: &mut Rig, line: LineId, length: f64) {
    let mut solver = Solver::default();
    for sample in 0..1000 {
        rig.set_length(line, length * (1.0 + 1e-6 * f64::from(sample))).unwrap();
        assert!(black_box(solver.solve(rig, &Settings::default())).balanced().is_some());
    }
}

#[wasm_bindgen_bench]
fn rigs(criterion: &mut Criterion) {
    for (name, json) in RIGS {
        let mut rig: Rig = serde_json::from_str(json).unwrap();
        let first = rig.lines().first().unwrap();
        let (line, length) = (rig.line_named(first.name()).unwrap(), first.length());
        criterion.bench_function(&format!("1000 samples of {name}"), |bencher| {
            bencher.iter(|| thousand_samples(&mut rig, line, length));
        });
    }
}

#[wasm_bindgen_bench]
fn lines_with_weight(criterion: &mut Criterion) {
    for slack in [0.967_741_935, 1.05] {
        let line = line_with_weight_and_load(slack);
        criterion.bench_function(&format!("line with weight and load, × {slack:.2}"), |bencher| {
            bencher.iter(|| black_box(&line).at_rest().unwrap());
        });
    }
}
