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

/// Above this ratio of EA to the largest force, stages are tried.
const STIFF: f64 = 3e3;
const STAGES: usize = 24;
/// Change of tension from one stage to the next, as a share of the largest, that ends the stages.
const SETTLED: f64 = 1e-11;

/// Brings the model to rest: directly, or in stages if it is stiff and the direct way fails.
pub(super) fn settle(model: &mut Model, state: &mut State, limits: Limits) -> Run {
    let direct = descend(model, state, limits);
    if direct.balanced || !is_stiff(model) {
        return direct;
    }
    let staged = in_stages(model, state, limits);
    Run {
        balanced: staged.balanced,
        iterations: direct.iterations + staged.iterations,
    }
}

fn is_stiff(model: &Model) -> bool {
    let stiffest = model
        .cords
        .iter()
        .map(|cord| cord.spring * cord.length)
        .chain(model.hanging.iter().map(|line| line.catenary.length / line.catenary.compliance))
        .fold(0.0, f64::max);
    stiffest > STIFF * model.largest_load
}

fn in_stages(model: &mut Model, state: &mut State, limits: Limits) -> Run {
    state.at.clone_from(&model.start);
    for pull in &mut state.pulls {
        *pull = None;
    }
    let mut tensions = vec![0.0; model.cords.len()];
    let mut forces = vec![Vector::zeros(); model.hanging.len()];
    let mut series = 100.0 * model.largest_load.max(f64::MIN_POSITIVE) / model.mean_length;
    let mut iterations = 0;
    for _ in 0..STAGES {
        for (cord, &tension) in model.cords.iter_mut().zip(&tensions) {
            cord.spring_now = 1.0 / (1.0 / cord.spring + 1.0 / series);
            cord.length_now = cord.length - tension / series;
        }
        for (line, force) in model.hanging.iter_mut().zip(&forces) {
            line.softening = 1.0 / series;
            line.shift = force / series;
        }
        let run = descend(model, state, limits);
        iterations += run.iterations;
        let largest = state.scale(model);
        let mut change: f64 = 0.0;
        for (kept, &tension) in tensions.iter_mut().zip(&state.tensions) {
            change = change.max((tension - *kept).abs());
            *kept = tension;
        }
        for (kept, pull) in forces.iter_mut().zip(&state.pulls) {
            if let Some(pull) = pull {
                change = change.max((pull.force - *kept).amax());
                *kept = pull.force;
            }
        }
        if run.balanced && change <= SETTLED * largest {
            return Run { balanced: true, iterations };
        }
        if series < 1e4 * largest / model.mean_length {
            series *= 10.0;
        }
    }
    Run { balanced: false, iterations }
}
