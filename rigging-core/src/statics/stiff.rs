//! Very stiff lines: stiffness approached in stages.
//!
//! A line thousands of times as stiff as a rope leaves a valley too narrow for rounded numbers.
//! Each stage softens it with a spring `κ` in series and shortens it by what the tension `t` of the
//! last stage stretches that spring: `1/k' = 1/k + 1/κ`, `L' = L − t/κ`. Where the tension no longer
//! changes, `t = k' (ℓ − L')` is `t = k (ℓ − L)` exactly, read without the cancellation of `ℓ − L`.
//!
//! # References
//! Augmented Lagrangian (method of multipliers): Nocedal & Wright, *Numerical Optimization*,
//! 2nd ed. 2006, section 17.3 (from memory).

use super::Vector;
use super::energy::State;
use super::model::Model;
use super::newton::{Limits, Run, descend};

/// Stages, and steps in each.
const STAGES: usize = 40;
const STEPS: usize = 120;
/// Stretch of the soft spring of a stage, as a share of the line, that is still rope-like.
const SOFT: f64 = 1e-2;
/// The same where the last digits of the spring's own stretch begin to matter.
const HARD: f64 = 1e-5;
/// Change of tension in the last stage, as a share of the largest, that counts as none.
const SETTLED: f64 = 1e-10;

/// Brings the model to rest: directly, or in stages if the direct way fails.
pub(super) fn settle(model: &mut Model, state: &mut State, limits: Limits) -> Run {
    let direct = descend(model, state, limits);
    if direct.balanced {
        return direct;
    }
    let staged = in_stages(model, state, limits);
    Run { balanced: staged.balanced, iterations: direct.iterations + staged.iterations }
}

/// What a line remembers from stage to stage.
struct Memory {
    length: f64,
    /// The soft spring `κ` (N/m).
    series: f64,
    /// Tension of a cord, along x; tension in the middle of a line with weight (N).
    tension: Vector,
}

impl Memory {
    /// Learns the tension of a stage, hardens the spring for the next, and returns the change.
    fn learn(&mut self, tension: Vector) -> f64 {
        let change = (tension - self.tension).norm();
        self.tension = tension;
        let size = tension.norm() / self.length;
        self.series = (10.0 * self.series).max(size / SOFT);
        if size > 0.0 {
            self.series = self.series.min(size / HARD);
        }
        change
    }
}

fn in_stages(model: &mut Model, state: &mut State, limits: Limits) -> Run {
    state.at.clone_from(&model.start);
    state.pulls.fill(None);
    let least = least_load(model);
    let cords = model.cords.iter().map(|cord| cord.length);
    let heavy = model.hanging.iter().map(|line| line.catenary.length);
    let mut memories: Vec<Memory> = cords
        .chain(heavy)
        .map(|length| Memory { length, series: least / SOFT / length, tension: Vector::zeros() })
        .collect();
    let limits = Limits { iterations: limits.iterations.min(STEPS), ..limits };
    let mut iterations = 0;
    for _ in 0..STAGES {
        let (cords, heavy) = memories.split_at_mut(model.cords.len());
        for (cord, memory) in model.cords.iter_mut().zip(cords.iter()) {
            cord.spring_now = 1.0 / (1.0 / cord.spring + 1.0 / memory.series);
            cord.length_now = cord.length - memory.tension.x / memory.series;
        }
        for (line, memory) in model.hanging.iter_mut().zip(heavy.iter()) {
            line.softening = 1.0 / memory.series;
            line.shift = memory.tension / memory.series;
        }
        let run = descend(model, state, limits);
        iterations += run.iterations;
        let mut change: f64 = 0.0;
        for (memory, &tension) in cords.iter_mut().zip(&state.tensions) {
            change = change.max(memory.learn(Vector::new(tension, 0.0, 0.0)));
        }
        for (memory, pull) in heavy.iter_mut().zip(&state.pulls) {
            let force = pull.as_ref().map_or_else(Vector::zeros, |pull| pull.force);
            change = change.max(memory.learn(force));
        }
        if run.balanced && change <= SETTLED * state.scale(model) {
            return Run { balanced: true, iterations };
        }
    }
    // Tensions that fade from stage to stage never settle, and yet the rig may be at rest: the lines as they are
    // decide, from the place that the stages came to.
    for cord in &mut model.cords {
        (cord.spring_now, cord.length_now) = (cord.spring, cord.length);
    }
    for line in &mut model.hanging {
        (line.softening, line.shift) = (0.0, Vector::zeros());
    }
    let run = descend(model, state, limits);
    Run { balanced: run.balanced, iterations: iterations + run.iterations }
}

/// The smallest load on any free node (N).
#[expect(clippy::indexing_slicing, reason = "free nodes are nodes of the model")]
fn least_load(model: &Model) -> f64 {
    let loads = model.free_nodes.iter().map(|&node| model.load[node as usize].norm());
    let least = loads.filter(|&load| load > 1e-12 * model.largest_load).fold(f64::INFINITY, f64::min);
    if least.is_finite() { least } else { 1.0 }
}

#[cfg(test)]
mod tests {
    use crate::statics::{Rig, Settings, solve};

    /// A ring on a line set just straight, on a cow's tail that has gone slack: nothing holds the ring but what the
    /// line would resist if it were pushed aside, and tensions fade without end.
    #[test]
    fn a_ring_that_nothing_pulls_comes_to_rest_on_a_line_set_just_straight() {
        let mut rig = Rig::new();
        let (top, bottom) = ([-5.0, 0.0, 2.068724267593808], [0.5228087931958764, 0.0, -96.52112752647633]);
        let [anchor, top, bottom] =
            [("anchor", [0.0; 3]), ("top", top), ("bottom", bottom)].map(|(name, at)| rig.add_held(name, at).unwrap());
        let ring = rig.add_free("ring", [-0.18166283694013186, 0.0, -75.86975179551227], [0.0; 3]).unwrap();
        let load = [0.0, 0.0, -294.1995];
        let person = rig.add_free("person", [-0.13172015052478714, 0.0, -75.86735663108408], load).unwrap();
        let stiffness = 292605.25021596364;
        let rope = rig.add_line("rope", &[anchor, person], 88.08269353094337, stiffness).unwrap();
        let guide = rig.add_line("guide", &[top, ring, bottom], 98.74441905111861, stiffness).unwrap();
        rig.add_line("tail", &[person, ring], 0.05, stiffness).unwrap();
        let solution = solve(&rig, &Settings::default());
        let rest = solution.balanced().expect("it hangs on the rope");
        assert!((rest.line(rope).unwrap().tension() - 294.1995).abs() < 1e-3);
        assert!(rest.line(guide).unwrap().tension() < 0.1);
    }
}
