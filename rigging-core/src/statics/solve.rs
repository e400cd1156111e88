//! From a rig to its solution.

use super::determined::undetermined;
use super::energy::State;
use super::held::{Groups, unheld_points};
use super::model::Model;
use super::proof::{energy_bound, imbalance, is_finite};
use super::rig::PointId;
use super::stops::{Rest, come_to_rest};
use super::{Equilibrium, LineAtRest, PointAtRest, Rig, Settings, Solution, Status, Vector};

/// Tension, as a share of the largest, that is what the search has left over in a slack line.
const SILENT: f64 = 1e-11;

/// Brings a rig to rest.
///
/// Never fails and never panics: an outcome that is not a solution is a [`Status`]. To solve many,
/// keep a [`Solver`].
pub fn solve(rig: &Rig, settings: &Settings) -> Solution {
    Solver::default().solve(rig, settings)
}

/// Brings one rig after another to rest in the same memory, which for small rigs halves the time.
///
/// It remembers nothing else: an answer does not depend on what was solved before.
/// ```
/// use rigging_core::statics::{Rig, Settings, Solver};
///
/// let mut rig = Rig::new();
/// let bolt = rig.add_held("bolt", [0.0, 0.0, 0.0])?;
/// let person = rig.add_free("person", [0.0, 0.0, -10.0], [0.0, 0.0, 0.0])?;
/// let rope = rig.add_line("rope", &[bolt, person], 10.0, 20_000.0)?;
///
/// let mut solver = Solver::default();
/// for weight in [400.0, 800.0] {
///     rig.set_load(person, [0.0, 0.0, -weight])?;
///     let solution = solver.solve(&rig, &Settings::default());
///     let rest = solution.balanced().and_then(|rest| rest.line(rope)).map(|rope| (rope.tension(), rope.length));
///     // Hooke, by hand: the rope carries the weight and stretches by W L0 / EA.
///     let stretched = 10.0 * (1.0 + weight / 20_000.0);
///     assert!(rest.is_some_and(|(t, l)| (t - weight).abs() < 1e-6 && (l - stretched).abs() < 1e-9));
/// }
/// # Ok::<(), rigging_core::statics::RigError>(())
/// ```
#[derive(Clone, Debug, Default)]
pub struct Solver {
    groups: Groups,
    rest: Rest,
    joined: Rest,
}

impl Solver {
    /// The same as [`solve`].
    pub fn solve(&mut self, rig: &Rig, settings: &Settings) -> Solution {
        let Solver { groups, rest, joined } = self;
        let unheld = unheld_points(rig, groups);
        if !unheld.is_empty() {
            let points = unheld.iter().filter_map(|&index| rig.points().get(index));
            return Solution {
                status: Status::Unheld(points.map(|point| point.name().to_owned()).collect()),
                imbalance: 1.0,
                iterations: 0,
            };
        }
        come_to_rest(rig, settings, rest, joined);
        let Rest { model, state, run } = rest;
        state.silence(model, SILENT);
        let imbalance = imbalance(model, state);
        let balanced = run.balanced && imbalance <= settings.balance && is_finite(state);
        let status = if balanced { Status::Balanced(read(rig, model, state)) } else { Status::NotConverged };
        Solution { status, imbalance, iterations: run.iterations }
    }
}

#[expect(clippy::indexing_slicing, reason = "indices come from the rig and its own model")]
fn read(rig: &Rig, model: &mut Model, state: &mut State) -> Equilibrium {
    let energy_bound = energy_bound(model, state);
    let bound = |spring: f64| (spring * energy_bound).sqrt();
    let none = LineAtRest {
        tension_first: 0.0,
        tension_last: 0.0,
        length: 0.0,
        slack: true,
        tension_bound: 0.0,
        end_stops: Vec::new(),
    };
    let mut lines = vec![none; rig.lines().len()];
    for (index, cord) in model.cords.iter().enumerate() {
        let tension = state.tensions[index];
        lines[cord.line] = LineAtRest {
            tension_first: tension,
            tension_last: tension,
            length: state.reaches[index],
            slack: !(tension > 0.0),
            tension_bound: bound(cord.spring),
            end_stops: if tension > 0.0 && rig.lines()[cord.line].stops().len() > 2 {
                end_stops(rig, model, state, cord.line)
            } else {
                Vec::new()
            },
        };
    }
    for (hanging, pull) in model.hanging.iter().zip(&state.pulls) {
        if let Some(pull) = pull {
            let (first, last) = hanging.catenary.ends(pull.middle);
            lines[hanging.line] = LineAtRest {
                tension_first: first,
                tension_last: last,
                length: hanging.catenary.stretched(pull.middle),
                slack: false,
                tension_bound: bound(1.0 / hanging.catenary.compliance),
                end_stops: Vec::new(),
            };
        }
    }
    let unsure = undetermined(model, state);
    let points = rig
        .points()
        .iter()
        .zip(&model.node_of)
        .map(|(point, &node)| {
            let place = node as usize;
            PointAtRest {
                at: if point.is_held() { point.at() } else { state.at[place] + model.origin },
                reaction: point.is_held().then(|| state.force[place]),
                determined: unsure.binary_search(&node).is_err(),
            }
        })
        .collect();
    Equilibrium { points, lines, energy_bound }
}

/// Rings on a taut line that have no line left to one side of them.
#[expect(clippy::indexing_slicing, reason = "indices come from the rig and its own model")]
fn end_stops(rig: &Rig, model: &Model, state: &State, line: usize) -> Vec<PointId> {
    let stops = rig.lines()[line].stops();
    let place = |point: usize| state.at[model.node_of[point] as usize];
    let mut rings = Vec::new();
    for (position, pair) in stops.windows(2).enumerate() {
        let gap: Vector = place(pair[1]) - place(pair[0]);
        if pair[0] == pair[1] || gap.norm() > model.grain {
            continue;
        }
        for (point, inside) in [(pair[0], position > 0), (pair[1], position + 2 < stops.len())] {
            if inside && !rig.points()[point].is_held() && !rings.contains(&PointId(point)) {
                rings.push(PointId(point));
            }
        }
    }
    rings
}
