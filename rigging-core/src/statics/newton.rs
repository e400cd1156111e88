//! Damped Newton steps on the convex energy, with a regularisation that fades with the residual.

use super::Vector;
use super::energy::State;
use super::model::Model;
use super::search::{Search, slope_search};

/// How one run of steps ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Run {
    /// The largest force left over is at most the asked share of the scale.
    pub balanced: bool,
    pub iterations: usize,
}

/// When to stop.
#[derive(Clone, Copy, Debug)]
pub(super) struct Limits {
    /// Largest force left over, as a share of the largest load or tension.
    pub balance: f64,
    pub iterations: usize,
    /// Rounding of lines that run through points, as a share of their length.
    pub rounding: f64,
}

/// Resistance to moving alone, as a share of that to moving apart from one's neighbours: a slack
/// chain then takes its shape at once instead of being pulled taut link by link from its ends.
const ALONE: f64 = 1e-3;

/// `c` at the start: small, because most first guesses already stretch something.
const FIRST_DAMPING: f64 = 0.1;

/// Rounding of lengths taken for none, as a multiple of the finest, where nothing else helps.
const COARSE: f64 = 64.0;

/// Steps until balance: `(H + μ R) d = force`, then a search along `d`.
///
/// Points without stiffness keep `H` singular, so `μ = c |force|∞ / mean length` holds the step
/// back there: each part of a line resists its ends moving apart by `μ`, each point moving at all by
/// a thousandth of it. It fades with the force, so the last steps stay quadratic.
pub(super) fn descend(model: &mut Model, state: &mut State, limits: Limits) -> Run {
    model.grain = model.finest_grain;
    state.evaluate(model, limits.rounding);
    let mut residual = state.residual(model);
    let mut damping = FIRST_DAMPING;
    let mut polished = false;
    let mut step: Vec<Vector> = vec![Vector::zeros(); model.free_nodes.len()];
    let mut from: Vec<Vector> = step.clone();
    let mut stuck = 0;
    let mut coarse = false;
    for iteration in 0..limits.iterations {
        let scale = state.scale(model);
        let balanced = residual <= limits.balance * scale;
        // One step beyond balance squares what is left.
        if residual == 0.0 || !residual.is_finite() || (balanced && polished) {
            return Run { balanced: balanced && residual.is_finite(), iterations: iteration };
        }
        polished = balanced;
        let mut shift = damping * residual / model.mean_length;
        state.assemble(model, shift);
        shift *= ALONE;
        let largest = model.matrix.largest();
        while !model.matrix.factorise(shift + f64::MIN_POSITIVE, 1e-14) {
            shift = (shift * 10.0).max(1e-15 * largest).max(1e-15 * scale / model.mean_length);
            if !shift.is_finite() {
                return Run { balanced, iterations: iteration };
            }
        }
        load_forces(model, state, &mut step, &mut from);
        model.matrix.solve(&mut step);
        let first = -inner(model, state, &step);
        let before = (residual, balanced);
        let found = if balanced {
            // Too close for slopes to mean anything: the whole step, kept if it helps.
            Search::Stuck
        } else {
            slope_search(first, |along| {
                move_to(model, state, &from, &step, along);
                state.evaluate(model, limits.rounding);
                -inner(model, state, &step)
            })
        };
        match found {
            Search::Step(along) => {
                residual = state.residual(model);
                damping = if along < 0.3 { (damping * 4.0).min(1e6) } else { (damping * 0.2).max(1e-8) };
                stuck = 0;
            }
            Search::Stuck => {
                // Rounding decides: take the whole step if it helps, else stay and damp more.
                move_to(model, state, &from, &step, 1.0);
                state.evaluate(model, limits.rounding);
                residual = state.residual(model);
                if !(residual < before.0) {
                    move_to(model, state, &from, &step, 0.0);
                    state.evaluate(model, limits.rounding);
                    residual = state.residual(model);
                    stuck += 1;
                    damping = damping * 100.0 + 1e-6;
                }
            }
        }
        if before.1 && residual > before.0 {
            // The extra step only stirred the rounding.
            move_to(model, state, &from, &step, 0.0);
            state.evaluate(model, limits.rounding);
            return ended(model, state, limits, iteration + 1);
        }
        if stuck > 3 {
            if coarse || before.1 {
                return ended(model, state, limits, iteration + 1);
            }
            // Tensions of a rig without load fade until they are rounding: take them for none.
            coarse = true;
            model.grain = COARSE * model.finest_grain;
            state.evaluate(model, limits.rounding);
            residual = state.residual(model);
            stuck = 0;
        }
    }
    ended(model, state, limits, limits.iterations)
}

fn ended(model: &Model, state: &State, limits: Limits, iterations: usize) -> Run {
    Run { balanced: state.residual(model) <= limits.balance * state.scale(model), iterations }
}

#[expect(clippy::indexing_slicing, reason = "free nodes are nodes of the model")]
fn load_forces(model: &Model, state: &State, step: &mut [Vector], from: &mut [Vector]) {
    for ((step, from), &node) in step.iter_mut().zip(from).zip(&model.free_nodes) {
        *step = state.force[node as usize];
        *from = state.at[node as usize];
    }
}

#[expect(clippy::indexing_slicing, reason = "free nodes are nodes of the model")]
fn move_to(model: &Model, state: &mut State, from: &[Vector], step: &[Vector], along: f64) {
    for ((step, from), &node) in step.iter().zip(from).zip(&model.free_nodes) {
        state.at[node as usize] = from + step * along;
    }
}

#[expect(clippy::indexing_slicing, reason = "free nodes are nodes of the model")]
fn inner(model: &Model, state: &State, step: &[Vector]) -> f64 {
    step.iter().zip(&model.free_nodes).map(|(step, &node)| step.dot(&state.force[node as usize])).sum()
}
