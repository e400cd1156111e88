//! How far an answer can be from the truth.
//!
//! A state whose forces do not quite balance, by `r` at each free point, is the exact equilibrium of
//! loads `f − r`. Convexity of the energy then gives, for the true state `*`,
//! `Σ (T − T*)²/k ≤ r·(x* − x) ≤ D Σ |r|`, with `k = EA/L0` and `D` the farthest a free point can be
//! from its true place: there and back along its lines to a held point.

use super::energy::State;
use super::model::Model;
use super::Vector;

/// Bound `E` (J) on `Σ (T − T*)²/k`.
#[expect(clippy::indexing_slicing, reason = "indices come from the model")]
pub(super) fn energy_bound(model: &Model, state: &State) -> f64 {
    let left: f64 = model.free_nodes.iter().map(|&node| state.force[node as usize].norm()).sum();
    // No way to a held point is longer than all lines together, each stretched as it is and then by
    // what its own error in tension may add: (T* − T)/k ≤ √(E/k).
    let (mut reach, mut give) = (0.0, 0.0);
    for (cord, &length) in model.cords.iter().zip(&state.reaches) {
        reach += length.max(cord.length);
        give += 1.0 / cord.spring.sqrt();
    }
    for (line, pull) in model.hanging.iter().zip(&state.pulls) {
        reach += match pull {
            Some(pull) => line.catenary.stretched(pull.middle),
            None => line.catenary.length,
        };
        give += line.catenary.compliance.sqrt();
    }
    // D ≤ 2 reach + give √E and E ≤ D left: a quadratic in √D.
    let slope = give * left.sqrt();
    let root = 0.5 * (slope + (slope * slope + 8.0 * reach).sqrt());
    root * root * left
}

/// Largest force left over as a share of the largest load or tension; 0 if there is neither.
pub(super) fn imbalance(model: &Model, state: &State) -> f64 {
    let (residual, scale): (f64, f64) = (state.residual(model), state.scale(model));
    if residual == 0.0 {
        return 0.0;
    }
    residual / scale
}

/// Whether every number of a state is finite.
pub(super) fn is_finite(state: &State) -> bool {
    let vectors = |list: &[Vector]| list.iter().all(|vector| vector.iter().all(|entry| entry.is_finite()));
    vectors(&state.at)
        && vectors(&state.force)
        && state.tensions.iter().chain(&state.reaches).all(|entry| entry.is_finite())
}
