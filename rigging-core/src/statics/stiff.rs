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
/// Change of tension in the last stage, as a share of the largest, that counts as none; and of what the soft spring
/// stretches, as a share of the line, for a line may be too long by it.
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
    /// Learns the tension of a stage, hardens the spring for the next, and returns by how much it changed and whether
    /// the line is as long as its law has it.
    fn learn(&mut self, tension: Vector) -> (f64, bool) {
        let (change, before) = ((tension - self.tension).norm(), self.series);
        self.tension = tension;
        let size = tension.norm() / self.length;
        self.series = (10.0 * before).max(size / SOFT);
        if size > 0.0 {
            // A spring does not soften again where a tension fades.
            self.series = self.series.min((size / HARD).max(before));
        }
        (change, change <= SETTLED * before * self.length)
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
        let cords = cords.iter_mut().zip(state.tensions.iter().map(|&tension| Vector::new(tension, 0.0, 0.0)));
        let pulls = state.pulls.iter().map(|pull| pull.as_ref().map_or_else(Vector::zeros, |pull| pull.force));
        let (mut change, mut lawful) = (0.0_f64, true);
        for (memory, tension) in cords.chain(heavy.iter_mut().zip(pulls)) {
            let (by, as_long) = memory.learn(tension);
            (change, lawful) = (change.max(by), lawful && as_long);
        }
        if run.balanced && lawful && change <= SETTLED * state.scale(model) {
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

    /// Stiff lines beside soft ones: where the tension of one fades from stage to stage, its soft spring may not let it
    /// grow longer than it is and be told as slack.
    #[test]
    fn a_line_that_is_told_slack_is_no_longer_than_it_is() {
        let mut rig = Rig::new();
        let [first, second] = [
            [2.6092767008516744, 0.3239812413433669, 0.8806050164622925],
            [2.427513917277028, 1.4032461463175891, -0.0021780783612843635],
        ]
        .map(|at| rig.add_held(format!("{at:?}"), at).unwrap());
        let load = [0.012269480833313522, 0.01762689816783505, -0.13146774284682833];
        let [a, b, c] = [
            ([-0.9661999062163933, 0.38990424130926904, 0.3313620417502665], [0.0; 3]),
            ([-2.806580106789438, 0.9223786765366377, -0.021857144641336035], [0.0; 3]),
            ([1.8899221248658318, -0.8047121071393879, 0.11004499493947772], load),
        ]
        .map(|(at, load)| rig.add_free(format!("{at:?}"), at, load).unwrap());
        for (through, length, stiffness) in [
            ([b, a, b, b, second].as_slice(), 3.4085927566970873, 3276053.8133559),
            (&[b, c], 2.1281595958639756, 5089.5244242380295),
            (&[a, second], 5.354145865444812, 862.793048926007),
            (&[first, c], 1.4323491436771028, 64.11191413102459),
            (&[c, a, first, first, second], 1.6294146234941067, 1453993.2727037875),
            (&[b, second], 3.7300241475006257, 2797.515673399981),
        ] {
            rig.add_line(format!("{length}"), through, length, stiffness).unwrap();
        }
        let solution = solve(&rig, &Settings::default());
        for (line, at) in rig.lines().iter().zip(&solution.balanced().expect("it rests").lines) {
            assert!(!at.slack || at.length <= line.length() + 1e-9, "{} is {} long", line.name(), at.length);
        }
    }

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
