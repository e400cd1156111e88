//! Damped Newton steps on the convex energy, with a regularisation that fades with the residual.

use super::Vector;
use super::energy::State;
use super::model::Model;
use super::search::{Search, slope_search};
use super::space::{add_scaled, dot};

/// How one run of steps ended.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
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
    /// As in [`Settings`](super::Settings).
    pub work: u64,
    /// Rounding of lines that run through points, as a share of their length.
    pub rounding: f64,
    /// Give up where a part of a taut line that runs through points is shorter than this share of the
    /// line: a ring may be at its stop.
    pub shortest: f64,
}

/// Resistance to moving alone, as a share of that to moving apart from one's neighbours: a slack
/// chain then takes its shape at once instead of being pulled taut link by link from its ends.
const ALONE: f64 = 1e-3;

/// Force left over, as a share of the scale, that one more step cannot halve: it is rounding.
const FINE: f64 = 1e-12;

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
    let mut stuck = 0;
    let mut coarse = false;
    for iteration in 0..limits.iterations {
        let scale = state.scale(model);
        let balanced = residual.is_finite() && residual <= limits.balance * scale;
        // One step beyond balance squares what is left.
        if residual <= FINE * scale || !residual.is_finite() || (balanced && polished) {
            return Run { balanced, iterations: iteration };
        }
        if model.work + model.matrix.cost > limits.work {
            return Run { balanced, iterations: iteration };
        }
        polished = balanced;
        let mut shift = damping * residual / model.mean_length;
        state.assemble(model, shift);
        shift *= ALONE;
        let largest = model.matrix.largest();
        model.work += model.matrix.cost;
        while !model.matrix.factorise(shift + f64::MIN_POSITIVE, 1e-14) {
            shift = (shift * 10.0).max(1e-15 * largest).max(1e-15 * scale / model.mean_length);
            model.work += model.matrix.cost;
            if !shift.is_finite() || model.work > limits.work {
                return Run { balanced, iterations: iteration };
            }
        }
        state.face(model);
        model.matrix.solve(&mut state.step);
        let first = state.slope(model);
        let before = residual;
        let found = if balanced {
            // Too close for slopes to mean anything: the whole step, kept if it helps.
            Search::Stuck
        } else {
            slope_search(first, |along| {
                state.go(model, along, limits.rounding);
                state.slope(model)
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
                state.go(model, 1.0, limits.rounding);
                residual = state.residual(model);
                if !(residual < before) {
                    state.go(model, 0.0, limits.rounding);
                    residual = state.residual(model);
                    stuck += 1;
                    damping = damping * 100.0 + 1e-6;
                }
            }
        }
        if limits.shortest > 0.0 && !(residual <= limits.balance * scale) && state.at_stop(model, limits.shortest) {
            return Run { balanced: false, iterations: iteration + 1 };
        }
        if stuck > 3 {
            // Nothing has moved since this step began.
            if coarse || balanced {
                return Run { balanced, iterations: iteration + 1 };
            }
            // Tensions of a rig without load fade until they are rounding: take them for none.
            coarse = true;
            model.grain = COARSE * model.finest_grain;
            state.evaluate(model, limits.rounding);
            residual = state.residual(model);
            stuck = 0;
        }
    }
    Run { balanced: residual <= limits.balance * state.scale(model), iterations: limits.iterations }
}

#[expect(clippy::indexing_slicing, reason = "free nodes are nodes of the model")]
impl State {
    /// Starts a step from here; its right-hand side is the force left over.
    fn face(&mut self, model: &Model) {
        for ((step, from), &node) in self.step.iter_mut().zip(&mut self.from).zip(&model.free_nodes) {
            *step = self.force[node as usize];
            *from = self.at[node as usize];
        }
    }

    /// Goes a share of the step.
    fn go(&mut self, model: &Model, along: f64, rounding: f64) {
        for ((step, from), &node) in self.step.iter().zip(&self.from).zip(&model.free_nodes) {
            self.at[node as usize] = *from;
            add_scaled(&mut self.at[node as usize], step, along);
        }
        self.evaluate(model, rounding);
    }

    /// Slope of the energy along the step (J).
    fn slope(&self, model: &Model) -> f64 {
        let work = |(step, &node): (&Vector, &u32)| dot(step, &self.force[node as usize]);
        -self.step.iter().zip(&model.free_nodes).map(work).sum::<f64>()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::statics::Rig;
    use crate::statics::energy::begun;

    #[test]
    fn steps_end_where_they_balance_or_are_used_up() {
        let mut rig = Rig::new();
        let left = rig.add_held("left", [-1.0, 0.0, 0.0]).unwrap();
        let right = rig.add_held("right", [1.0, 0.0, 0.0]).unwrap();
        let master = rig.add_free("master", [0.3, 0.2, -0.1], [0.0, 0.0, -800.0]).unwrap();
        rig.add_line("left leg", &[left, master], 1.2, 3e4).unwrap();
        rig.add_line("right leg", &[right, master], 1.3, 3e4).unwrap();
        let run = |iterations| {
            let (mut model, mut state) = begun(&rig);
            let run = descend(
                &mut model,
                &mut state,
                Limits { balance: 1e-4, iterations, work: u64::MAX, rounding: 0.0, shortest: 0.0 },
            );
            (run, state.residual(&model) / state.scale(&model))
        };
        let (whole, left) = run(400);
        assert!(whole.balanced && left <= 1e-7, "{left}");
        for iterations in 0..=whole.iterations {
            let (run, left) = run(iterations);
            assert_eq!(run, Run { balanced: left <= 1e-4, iterations }, "{left}");
        }
        // The one before was near enough; the last squared what was left.
        assert!(run(whole.iterations - 1).0.balanced);
        assert!(!run(whole.iterations - 2).0.balanced);
    }
}
