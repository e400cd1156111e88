//! How fast the engine is, with the crate Clarabel on the same rigs in the same run.
//!
//! Times are the best of several repeats; the ratios are what to read. Both sides start from the rig
//! and end with the tensions; Clarabel is asked for its default tolerance of 1e-8.
#![expect(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::unwrap_used,
    reason = "a check that cannot go on has failed"
)]

#[path = "../statics/conic.rs"]
mod conic;

use std::hint::black_box;
use std::path::Path;
use std::time::{Duration, Instant};

use rigging_core::statics::{LineId, LoadOnLine, LoadedLine, PointId, Rig, Settings, Solver, Vector, solve};

/// Seconds of one call, the best of five batches.
fn seconds(mut work: impl FnMut()) -> f64 {
    work();
    let mut count = 1_u32;
    let mut best = f64::INFINITY;
    let mut batches = 0;
    while batches < 5 {
        let start = Instant::now();
        for _ in 0..count {
            work();
        }
        let spent = start.elapsed();
        if spent < Duration::from_millis(20) {
            count *= 4;
            continue;
        }
        best = best.min(spent.as_secs_f64() / f64::from(count));
        batches += 1;
    }
    best
}

/// With the memory of the solve before, as a question asks; and from nothing.
fn ours(rig: &Rig) -> (f64, f64) {
    let mut solver = Solver::default();
    assert!(solver.solve(rig, &Settings::default()).balanced().is_some());
    (
        seconds(|| drop(black_box(solver.solve(black_box(rig), &Settings::default())))),
        seconds(|| drop(black_box(solve(black_box(rig), &Settings::default())))),
    )
}

fn theirs(rig: &Rig) -> f64 {
    assert!(conic::Program::new(rig).tensions(1e-8).is_some());
    seconds(|| drop(black_box(conic::Program::new(black_box(rig)).tensions(1e-8))))
}

/// A line of the table; `goal` is how many times as fast as the other crate it is to be.
fn row(name: &str, goal: f64, (kept, anew): (f64, f64), theirs: f64) {
    println!(
        "{name:26} {:11.2} µs {:11.2} µs {:11.1} µs {:8.1} × {:8.1} ×   goal {goal} ×, ratio {:.2}",
        kept * 1e6,
        anew * 1e6,
        theirs * 1e6,
        theirs / kept,
        theirs / anew,
        theirs / kept / goal
    );
}

/// A time by itself, beside its goal if there is one, in microseconds.
fn alone(name: &str, goal: Option<f64>, time: f64) {
    let goal = goal.map(|goal| format!("   goal {goal} µs, ratio {:.2}", time * 1e6 / goal)).unwrap_or_default();
    println!("{name:40} {:11.2} µs{goal}", time * 1e6);
}

fn given(name: &str) -> Rig {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("rigs").join(format!("{name}.rig.json"));
    serde_json::from_slice(&std::fs::read(path).unwrap()).unwrap()
}

/// A row of points between two anchors, each with a load.
fn chain(points: usize) -> Rig {
    let mut rig = Rig::new();
    let near = rig.add_held("near", [0.0, 0.0, 0.0]).unwrap();
    let far = rig.add_held("far", [points as f64 + 1.0, 0.0, 0.0]).unwrap();
    let mut last = near;
    for number in 0..=points {
        let next = if number == points {
            far
        } else {
            let at = [number as f64 + 1.0, 0.0, 0.0];
            rig.add_free(format!("point {number}"), at, [0.0, 0.0, -10.0]).unwrap()
        };
        rig.add_line(format!("line {number}"), &[last, next], 1.02, 30_000.0).unwrap();
        last = next;
    }
    rig
}

/// A square net held at its rim, each knot with a load.
fn net(points: usize) -> Rig {
    let side = (points as f64).sqrt().round() as usize;
    let mut rig = Rig::new();
    let mut ids: Vec<Vec<PointId>> = Vec::new();
    for i in 0..side + 2 {
        let mut row = Vec::new();
        for j in 0..side + 2 {
            let name = format!("{i} {j}");
            let at = [i as f64, j as f64, 0.0];
            row.push(if i == 0 || j == 0 || i == side + 1 || j == side + 1 {
                rig.add_held(name, at).unwrap()
            } else {
                rig.add_free(name, at, [0.0, 0.0, -10.0]).unwrap()
            });
        }
        ids.push(row);
    }
    for i in 1..=side + 1 {
        for j in 1..=side + 1 {
            let (here, before, beside) = (ids[i][j], ids[i - 1][j], ids[i][j - 1]);
            if j <= side {
                rig.add_line(format!("along {i} {j}"), &[before, here], 1.02, 30_000.0).unwrap();
            }
            if i <= side {
                rig.add_line(format!("across {i} {j}"), &[beside, here], 1.02, 30_000.0).unwrap();
            }
        }
    }
    rig
}

/// A hundred free points three times as fast, more of them faster at all, a rig of a question thirty times.
fn goal(free: usize) -> f64 {
    match free {
        0..50 => 30.0,
        50..500 => 3.0,
        _ => 1.0,
    }
}

fn growth(name: &str, build: fn(usize) -> Rig) {
    println!("\n{name}: engine with its memory kept, anew, Clarabel, ratios; exponent of growth from row to row");
    let mut last: Option<(f64, f64)> = None;
    for points in [10, 30, 100, 300, 1000, 3000] {
        let rig = build(points);
        let free = rig.points().iter().filter(|point| !point.is_held()).count();
        let time = ours(&rig);
        row(&format!("{free} free points"), goal(free), time, theirs(&rig));
        if let Some((before, time_before)) = last {
            println!("{:>26} n^{:.2}", "", (time.0 / time_before).ln() / (free as f64 / before).ln());
        }
        last = Some((free as f64, time.0));
    }
}

fn main() {
    println!("{:26} {:>14} {:>14} {:>14} {:>10} {:>10}", "rig", "memory kept", "anew", "Clarabel", "kept", "anew");
    for name in [
        "two-legs-020",
        "two-legs-120",
        "two-legs-170",
        "three-legs-flat-030",
        "four-legs-03",
        "sliding-sling-00",
        "guide-line-00",
        "guide-line-04",
        "network-n0010-s0",
        "network-sliding-n0010-s0",
        "network-n0100-s0",
        "network-sliding-n0100-s0",
        "network-n1000-s0",
    ] {
        let rig = given(name);
        let free = rig.points().iter().filter(|point| !point.is_held()).count();
        row(name, goal(free), ours(&rig), theirs(&rig));
    }
    for name in ["hand-line-pre-5", "hand-line-slack-1"] {
        alone(&format!("{name}, as points and lines"), None, ours(&given(name)).0);
    }
    for slack in [0.967_741_935, 1.05] {
        let load = LoadOnLine { along: 10.0 * slack, force: Vector::new(0.0, 800.0, 0.0) };
        let span = Vector::new(20.0, 0.0, 0.0);
        let line = LoadedLine::new(span, 20.0 * slack, 30_000.0, 0.637, vec![load]).unwrap();
        let time = seconds(|| {
            let _ = black_box(black_box(&line).at_rest().unwrap());
        });
        alone(&format!("line with weight and load, × {slack:.2}"), Some(1.0), time);
    }
    let mut rig = given("four-legs-03");
    let legs: Vec<LineId> =
        ["line 0", "line 1", "line 2", "line 3"].iter().map(|name| rig.line_named(name).unwrap()).collect();
    let mut solver = Solver::default();
    let time = seconds(|| {
        for sample in 0..1000 {
            let length = 1.4 + 1e-5 * f64::from(sample);
            rig.set_length(legs[sample as usize % 4], length).unwrap();
            drop(black_box(solver.solve(&rig, &Settings::default())));
        }
    });
    alone("1000 samples of four legs", Some(4000.0), time);
    growth("chains", chain);
    growth("nets", net);
}
