//! Which points have only one place to be.
//!
//! Tensions at rest are unique, places need not be: a point on slack lines, or a ring on a
//! straight line, can move without any line noticing. Such motions are the null space of the
//! stiffness `H`. With `S = diag(H)^(-1/2)` and a small `δ`, `δ (S H S + δ I)⁻¹ b` is the part of `b`
//! in that null space, up to order `δ`.

use super::Vector;
use super::energy::State;
use super::model::Model;

/// Pivots above this share of their diagonal leave no doubt.
const CLEAR: f64 = 1e-7;
/// Share of the stiffness in its own direction below which a motion meets no resistance.
const FREE: f64 = 1e-12;

/// The nodes whose place is not unique, in order.
#[expect(clippy::indexing_slicing, reason = "indices come from the model")]
pub(super) fn undetermined(model: &mut Model, state: &mut State) -> Vec<u32> {
    let count = model.free_nodes.len();
    // If every line pulls, none has left since the last step: its factors show enough.
    let all_pull = state.tensions.iter().all(|&tension| tension > 0.0);
    if all_pull && model.matrix.smallest_pivot() > CLEAR {
        return Vec::new();
    }
    state.assemble(model, 0.0);
    if model.matrix.factorise(0.0, 0.0) && model.matrix.smallest_pivot() > CLEAR {
        return Vec::new();
    }
    let slots: Vec<usize> = (0..count as u32).map(|point| model.matrix.diagonal_slot(point) as usize).collect();
    let scale: Vec<Vector> = slots
        .iter()
        .map(|&slot| {
            let block = &model.matrix.diagonal[slot];
            Vector::new(block.m11, block.m22, block.m33)
        })
        .collect();
    if !model.matrix.factorise(f64::MIN_POSITIVE, FREE) {
        return model.free_nodes.clone();
    }
    let mut free_to_move = vec![false; count];
    // A fixed sequence without pattern: no motion of a rig is at right angles to all of them.
    let mut seed = 0.5_f64;
    for _ in 0..3 {
        let mut right = Vec::with_capacity(count);
        for own in &scale {
            right.push(own.map(|entry| {
                seed = (seed + 0.618_033_988_749_895).fract();
                (0.5 + seed) * entry.sqrt() * FREE
            }));
        }
        model.matrix.solve(&mut right);
        for ((moved, own), free) in right.iter().zip(&scale).zip(&mut free_to_move) {
            let share = moved.component_mul(&own.map(f64::sqrt)).amax();
            *free |= own.min() <= 0.0 || !(share < 1e-3);
        }
    }
    model.free_nodes.iter().zip(free_to_move).filter(|(_, free)| *free).map(|(&node, _)| node).collect()
}
