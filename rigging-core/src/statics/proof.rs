//! How far an answer can be from the truth.
//!
//! A state whose forces do not quite balance, by `r` at each free point, is the exact equilibrium of
//! loads `f − r`. Convexity of the energy then gives, for the true state `*`,
//! `Σ (T − T*)²/k ≤ r·(x* − x) ≤ D Σ |r|`, with `k = EA/L0` and `D` the farthest a free point can be
//! from its true place: there and back along its lines to a held point.

use super::Vector;
use super::energy::State;
use super::model::Model;

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::statics::energy::begun;
    use crate::statics::newton::{Limits, descend};
    use crate::statics::numbers::Numbers;
    use crate::statics::{Rig, Settings, solve};

    /// Two free points on five lines, one of which runs through a point and one of which is heavy.
    fn rig(numbers: &mut Numbers) -> Rig {
        let mut rig = Rig::new();
        let anchors: Vec<_> =
            (0..3).map(|number| rig.add_held(format!("anchor {number}"), numbers.place()).unwrap()).collect();
        let load = numbers.place() * 2000.0;
        let upper = rig.add_free("upper", numbers.place(), load).unwrap();
        let load = numbers.place() * 1000.0;
        let lower = rig.add_free("lower", numbers.place(), load).unwrap();
        let paths = [
            vec![anchors[0], upper],
            vec![anchors[1], upper, anchors[2]],
            vec![upper, lower],
            vec![anchors[2], lower],
            vec![anchors[0], lower],
        ];
        for (number, path) in paths.iter().enumerate() {
            let weight = if number == 4 { 5.0 } else { 0.0 };
            let (length, stiffness) = (0.5 + numbers.next(), 1e4 + 1e5 * numbers.next());
            rig.add_heavy_line(format!("line {number}"), path, length, stiffness, weight).unwrap();
        }
        rig
    }

    #[test]
    fn the_bound_holds_on_every_iterate_of_random_rigs() {
        let mut numbers = Numbers(0.3);
        let mut iterates = 0;
        let mut closest = f64::INFINITY;
        for _ in 0..200 {
            let rig = rig(&mut numbers);
            let solution = solve(&rig, &Settings::default());
            let Some(rest) = solution.balanced() else {
                continue;
            };
            if rest.lines.iter().any(|line| !line.end_stops.is_empty()) {
                continue;
            }
            for iterations in 0..30 {
                let (mut model, mut state) = begun(&rig);
                let limits = Limits { balance: 1e-9, iterations, work: u64::MAX, rounding: 0.0, shortest: 0.0 };
                let run = descend(&mut model, &mut state, limits);
                if run.balanced {
                    break;
                }
                let mut error = 0.0;
                for (cord, tension) in model.cords.iter().zip(&state.tensions) {
                    let true_tension = rest.lines[cord.line].tension_first;
                    error += (tension - true_tension).powi(2) / cord.spring;
                }
                let bound = energy_bound(&model, &state);
                assert!(error <= bound, "{error} above the bound {bound} after {iterations} steps");
                closest = closest.min(bound / error);
                iterates += 1;
            }
        }
        assert!(iterates > 1000, "only {iterates} iterates");
        // A bound that is never near is no check of the bound.
        assert!(closest < 1e3, "closest {closest}");
    }

    /// The bound `E` is the one number with `E = (2 reach + give √E) left`, each of these added up here by hand.
    #[test]
    fn the_bound_is_where_its_own_inequality_is_an_equation() {
        let mut rig = Rig::new();
        let bolt = rig.add_held("bolt", [0.0, 0.0, 0.0]).unwrap();
        let other = rig.add_held("other", [6.0, 0.0, 0.0]).unwrap();
        let one = rig.add_free("one", [0.0, 0.0, -5.0], [0.0, 0.0, -30.0]).unwrap();
        let two = rig.add_free("two", [6.0, 0.0, -2.0], [3.0, 0.0, 0.0]).unwrap();
        rig.add_line("taut", &[bolt, one], 4.0, 1600.0).unwrap();
        rig.add_line("slack", &[other, two], 7.0, 700.0).unwrap();
        let (mut model, mut state) = begun(&rig);
        state.evaluate(&model, 0.0);
        // 400 N/m stretched by 1 m pull up with 400 N: 370 N are left over there, and 3 N at the other point. The lines
        // are 5 m and 7 m; 400 N/m and 100 N/m give 1/20 + 1/10.
        let equation =
            |bound: f64, reach: f64, give: f64, left: f64| (2.0 * reach + give * bound.sqrt()) * left - bound;
        let bound = energy_bound(&model, &state);
        assert!(equation(bound, 12.0, 0.15, 373.0).abs() < 1e-9 * bound, "{bound}");
        assert!((imbalance(&model, &state) - 370.0 / 400.0).abs() < 1e-12);

        // A line with weight is as long as it is stretched, and gives the root of L/EA.
        rig.add_heavy_line("heavy", &[bolt, other], 8.0, 200.0, 0.5).unwrap();
        (model, state) = begun(&rig);
        state.evaluate(&model, 0.0);
        let pull = state.pulls[0].as_ref().unwrap();
        let heavy = model.hanging[0].catenary.stretched(pull.middle);
        assert!(heavy > 8.0);
        let bound = energy_bound(&model, &state);
        assert!(equation(bound, 12.0 + heavy, 0.15 + 0.2, 373.0).abs() < 1e-9 * bound, "{bound}");
    }

    #[test]
    fn a_state_with_one_number_that_is_none_is_not_finite() {
        let mut numbers = Numbers(0.3);
        let (model, mut state) = begun(&rig(&mut numbers));
        state.evaluate(&model, 0.0);
        assert!(is_finite(&state));
        let spoilt: [fn(&mut State, f64); 5] = [
            |state, value| state.at[3].y = value,
            |state, value| state.force[4].z = value,
            |state, value| state.force[0].x = value,
            |state, value| state.tensions[1] = value,
            |state, value| state.reaches[0] = value,
        ];
        for (number, spoil) in spoilt.into_iter().enumerate() {
            for value in [f64::NAN, f64::INFINITY] {
                let mut state = state.clone();
                spoil(&mut state, value);
                assert!(!is_finite(&state), "{number} {value}");
            }
        }
    }
}
