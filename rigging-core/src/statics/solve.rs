//! From a rig to its solution.

use super::determined::undetermined;
use super::energy::State;
use super::held::{Groups, unheld_points};
use super::model::Model;
use super::proof::{energy_bound, imbalance, is_finite};
use super::rig_parts::PointId;
use super::stops::{Rest, come_to_rest};
use super::{Equilibrium, LineAtRest, PointAtRest, Rig, Settings, Solution, Status, Vector};

/// Tension, as a share of the largest, that is what the search has left over in a slack line.
const SILENT: f64 = 1e-11;

/// Brings a rig to rest.
///
/// Never fails and never panics: an outcome that is not a solution is a [`Status`]. To solve many,
/// keep a [`Solver`].
/// ```
/// use rigging_core::statics::{Rig, Settings, solve};
///
/// // A ring on two legs of 5 m from bolts 8 m apart rests 3 m below (3, 4, 5). By hand: 600/2 · 5/3 = 500 N in each.
/// let mut rig = Rig::new();
/// let (left, right) = (rig.add_held("left", [0.0; 3])?, rig.add_held("right", [8.0, 0.0, 0.0])?);
/// let ring = rig.add_free("ring", [1.0, 0.0, -1.0], [0.0, 0.0, -600.0])?;
/// rig.add_line("left leg", &[left, ring], 5.0, 1e9)?;
/// rig.add_line("right leg", &[right, ring], 5.0, 1e9)?;
/// let solution = solve(&rig, &Settings::default());
/// let legs = &solution.balanced().ok_or("no balance")?.lines;
/// assert!(legs.iter().all(|leg| (leg.tension() - 500.0).abs() < 0.01));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
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
#[derive(Clone, Debug)]
pub struct Solver {
    groups: Groups,
    rest: Rest,
    joined: Rest,
}

impl Default for Solver {
    /// Not written out wherever one is made: it would be a kilobyte each time.
    #[inline(never)]
    fn default() -> Self {
        Solver { groups: Groups::default(), rest: Rest::default(), joined: Rest::default() }
    }
}

impl Solver {
    /// The same as [`solve`].
    /// ```
    /// use rigging_core::statics::{Rig, Settings, Solver, solve};
    ///
    /// let mut rig = Rig::new();
    /// let bolt = rig.add_held("bolt", [0.0; 3])?;
    /// let load = rig.add_free("load", [3.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
    /// rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
    /// let mut bare = Rig::new();
    /// bare.add_free("load", [1.0, 0.0, 0.0], [0.0, 0.0, -50.0])?;
    /// // Another rig before it leaves no trace, not even one that nothing holds.
    /// let mut solver = Solver::default();
    /// assert!(solver.solve(&bare, &Settings::default()).balanced().is_none());
    /// assert_eq!(solver.solve(&rig, &Settings::default()), solve(&rig, &Settings::default()));
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn solve(&mut self, rig: &Rig, settings: &Settings) -> Solution {
        let Solver { groups, rest, joined } = self;
        let settings = &settings.honest();
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
        let rest = balanced.then(|| read(rig, model, state)).filter(Equilibrium::is_finite);
        let status = rest.map_or(Status::NotConverged, Status::Balanced);
        Solution { status, imbalance: if imbalance.is_finite() { imbalance } else { 1.0 }, iterations: run.iterations }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_balance_is_told_in_numbers_or_not_at_all() {
        let said = [0.0, -1.0, 1e-160, 0.5, 4.0, 1e3, 1e10, 1e100, 1e154, 1.7e308];
        let mut place = 0_u64;
        let mut next = || {
            place = place.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            said[(place >> 33) as usize % said.len()]
        };
        let (mut balanced, mut absurd) = (0, 0);
        for _ in 0..4000 {
            let mut rig = Rig::new();
            let near = rig.add_held("near", [next(), next(), next()]).unwrap();
            let far = rig.add_held("far", [next(), next(), next()]).unwrap();
            let load = rig.add_free("load", [next(), next(), next()], [next(), next(), next()]).unwrap();
            // What a rig refuses is not in it.
            let _ = rig.add_line("line", &[near, load, far], next(), next());
            let _ = rig.add_heavy_line("rope", &[near, load], next(), next(), next());
            let solution = solve(&rig, &Settings::default());
            assert!(solution.imbalance.is_finite(), "{rig:?}");
            match solution.status {
                Status::Balanced(rest) => {
                    balanced += 1;
                    let told = format!("{rest:?}");
                    assert!(!told.contains("NaN") && !told.contains("inf"), "{rig:?}: {told}");
                }
                Status::NotConverged => absurd += 1,
                Status::Unheld(_) => {}
            }
        }
        assert!(balanced > 50 && absurd > 50, "{balanced} {absurd}");
    }

    /// A line set straight between two anchors 1 m apart, tension 1111 N, through these rings, each with its load along
    /// it (N) and where it starts (m), and then through an eye at the last anchor. The names of those at a stop.
    fn at_stop(rings: &[(&str, f64, f64)], length: f64) -> Vec<String> {
        let mut rig = Rig::new();
        let mut stops = vec![rig.add_held("first", [0.0; 3]).unwrap()];
        for &(name, load, at) in rings {
            stops.push(rig.add_free(name, [at, 0.0, 0.0], [load, 0.0, 0.0]).unwrap());
        }
        stops.push(rig.add_held("eye", [1.0, 0.0, 0.0]).unwrap());
        stops.push(rig.add_held("last", [1.0, 0.0, 0.0]).unwrap());
        let line = rig.add_line("line", &stops, length, 1e4).unwrap();
        let solution = solve(&rig, &Settings::default());
        let rest = solution.balanced().unwrap().line(line).unwrap();
        rest.end_stops.iter().map(|ring| rig.points()[ring.0].name().to_owned()).collect()
    }

    #[test]
    fn rings_at_the_end_of_their_line_are_named_once() {
        assert_eq!(at_stop(&[("ring", 100.0, 0.5)], 0.9), ["ring"]);
        assert_eq!(at_stop(&[("ring", -100.0, 0.5)], 0.9), ["ring"]);
        assert_eq!(at_stop(&[("one", 100.0, 0.3), ("two", 100.0, 0.6)], 0.9), ["one", "two"]);
        assert_eq!(at_stop(&[("one", -100.0, 0.3), ("two", 100.0, 0.6)], 0.9), ["one", "two"]);
        // One that nothing pulls, and one on a slack line that lies at an anchor, are at no stop.
        assert!(at_stop(&[("ring", 0.0, 0.5)], 0.9).is_empty());
        assert!(at_stop(&[("ring", 0.0, 1.0)], 1.1).is_empty());
    }

    #[test]
    fn a_knot_at_the_end_of_a_line_is_no_ring_on_it() {
        for far in [false, true] {
            let mut rig = Rig::new();
            let anchor = rig.add_held("anchor", [-1.0, 0.0, 0.0]).unwrap();
            let knot = rig.add_free("knot", [0.0; 3], [0.0; 3]).unwrap();
            let ring = rig.add_free("ring", [0.5, 0.0, 0.0], [-100.0, 0.0, 0.0]).unwrap();
            let last = rig.add_held("last", [1.0, 0.0, 0.0]).unwrap();
            rig.add_line("tail", &[anchor, knot], 0.9, 1e4).unwrap();
            let through = if far { [last, ring, knot] } else { [knot, ring, last] };
            let line = rig.add_line("line", &through, 0.9, 1e4).unwrap();
            let solution = solve(&rig, &Settings::default());
            assert_eq!(solution.balanced().unwrap().line(line).unwrap().end_stops, [ring]);
        }
    }

    /// A slack line through 254 rings that slide together: what would take minutes ends, and says that it is no answer.
    #[test]
    fn a_search_ends_when_its_work_is_done() {
        let mut rig = Rig::new();
        let mut through = vec![rig.add_held("first", [0.0; 3]).unwrap()];
        for number in 1..255 {
            let (name, at) = (format!("ring {number}"), [f64::from(number), 0.0, f64::from(number * 7 % 10) / 10.0]);
            through.push(rig.add_free(name, at, [0.0, 0.0, -100.0]).unwrap());
        }
        through.push(rig.add_held("last", [255.0, 0.0, 0.5]).unwrap());
        rig.add_line("line", &through, 281.0, 2e4).unwrap();
        // Every step factors a full matrix of 254 rings, column by column, and fills it: 2.97 million products of blocks.
        let eliminated: u64 = (0..254_u64).map(|left| left * left / 2).sum();
        let step = eliminated + 8 * (254 + 254 * 253 / 2);
        for allowed in [0, 1, 2, 13] {
            // Enough for so many steps, and a product less than for one more.
            for work in [allowed * step, (allowed + 1) * step - 1] {
                let mut solver = Solver::default();
                let solution = solver.solve(&rig, &Settings { work, ..Settings::default() });
                assert_eq!(solution.status, Status::NotConverged);
                assert_eq!(solver.rest.model.work, allowed * step);
                assert!(solver.joined.model.work <= work);
            }
        }
    }

    /// One free point costs eight products a step, so that the work says how many there were, whatever way each was
    /// tried: straight on, with the ring at its stop, rounded, in stages, and given up.
    #[test]
    fn steps_are_counted_on_every_way_that_is_tried() {
        let mut ended = [0, 0];
        for (start, length, pull) in
            [([0.5, 0.0, -0.3], 0.9, 100.0), ([0.2, 0.1, -0.8], 1.3, 100.0), ([0.3, 0.0, -2.0], 0.9, 2000.0)]
        {
            let mut rig = Rig::new();
            let first = rig.add_held("first", [0.0; 3]).unwrap();
            let ring = rig.add_free("ring", start, [pull, 0.0, -50.0]).unwrap();
            let last = rig.add_held("last", [1.0, 0.0, 0.0]).unwrap();
            rig.add_line("line", &[first, ring, last], length, 1e4).unwrap();
            for iterations in 1..15 {
                for steps in [1, 2, 3, 5, 8, 13, 1000] {
                    let mut solver = Solver::default();
                    let settings = Settings { iterations, work: 8 * steps, ..Settings::default() };
                    let solution = solver.solve(&rig, &settings);
                    let work = solver.rest.model.work + solver.joined.model.work;
                    assert_eq!(8 * solution.iterations as u64, work, "{iterations} {steps}");
                    ended[usize::from(solution.balanced().is_some())] += 1;
                }
            }
        }
        assert!(ended.iter().all(|&times| times > 50), "{ended:?}");
    }

    /// How many steps it takes to bring a ring with this load, on a line between two anchors, to rest, and the work by the
    /// price of one step.
    fn counted([near, at, far]: [[f64; 3]; 3], load: f64, (length, stiffness): (f64, f64)) -> [u64; 2] {
        let mut rig = Rig::new();
        let (near, far) = (rig.add_held("near", near).unwrap(), rig.add_held("far", far).unwrap());
        let ring = rig.add_free("ring", at, [0.0, 0.0, -load]).unwrap();
        rig.add_line("line", &[near, ring, far], length, stiffness).unwrap();
        let mut solver = Solver::default();
        let solution = solver.solve(&rig, &Settings::default());
        assert!(solution.balanced().is_some());
        [solution.iterations as u64, (solver.rest.model.work + solver.joined.model.work) / 8]
    }

    /// Hardly a load, and half as much line as from anchor to anchor: first a stop that does not bear, then steps that
    /// move nothing any more, then stages, and the lines as they are after the last.
    #[test]
    fn steps_are_counted_where_nothing_helps_any_more() {
        let [steps, work] = counted([[0.0, 0.0, 0.8], [0.7, 0.0, 0.8], [-0.8, 0.0, 0.0]], 1.9, (0.5, 1e6));
        assert!(steps == work && steps > 200, "{steps} {work}");
    }

    /// A line that carries 5e-12 of the other is taken for slack, and what it carried is left over: too much for a
    /// thousandth of the usual balance.
    #[test]
    fn what_is_balanced_is_so_to_what_was_asked_for_however_little() {
        let mut rig = Rig::new();
        let bolt = rig.add_held("bolt", [0.0; 3]).unwrap();
        let load = rig.add_free("load", [0.0, 0.0, -1.0], [0.0, 0.0, -1000.0]).unwrap();
        rig.add_line("rope", &[bolt, load], 1.0, 1e5).unwrap();
        // By hand: 1000/1e5 of its length longer, it carries 5e-7 · 0.01 = 5e-9 N.
        rig.add_line("thread", &[bolt, load], 1.0, 5e-7).unwrap();
        let mut outcomes = Vec::new();
        for balance in [1e-9, 1e-11, 1e-12] {
            let solution = solve(&rig, &Settings { balance, ..Settings::default() });
            assert!((solution.imbalance - 5e-12).abs() < 1e-13, "{}", solution.imbalance);
            outcomes.push(solution.balanced().is_some());
        }
        assert_eq!(outcomes, [true, true, false]);
    }

    /// Whatever is asked for, a rig that misses balance by more than a thousandth has no numbers.
    #[test]
    fn nothing_far_from_rest_is_called_balanced() {
        let mut rig = Rig::new();
        let bolt = rig.add_held("bolt", [0.0; 3]).unwrap();
        let load = rig.add_free("load", [0.0, 0.0, -1.0], [0.0, 0.0, -1000.0]).unwrap();
        rig.add_line("rope", &[bolt, load], 1.0, 1e5).unwrap();
        // Where the load starts, the rope, 0.01 too short to carry it, lacks this share of it.
        let misses_by = |rig: &mut Rig, share: f64, balance: f64| {
            rig.set_at(load, [0.0, 0.0, -1.01 + 0.01 * share]).unwrap();
            solve(rig, &Settings { balance, iterations: 0, ..Settings::default() }).balanced().is_some()
        };
        for balance in [1.0, 1e300, f64::INFINITY, 2e-3] {
            assert!(!misses_by(&mut rig, 1.0, balance) && !misses_by(&mut rig, 1.1e-3, balance), "{balance}");
            assert!(misses_by(&mut rig, 0.9e-3, balance), "{balance}");
        }
        for balance in [f64::NAN, -1.0] {
            assert!(!misses_by(&mut rig, 0.9e-3, balance), "{balance}");
        }
    }

    /// The error that the energy left over allows each line: `√(k E)`, `k = EA/L0`.
    #[test]
    fn no_tension_is_farther_from_the_truth_than_its_bound() {
        let mut rig = Rig::new();
        let left = rig.add_held("left", [-1.0, 0.0, 0.0]).unwrap();
        let right = rig.add_held("right", [1.0, 0.5, 0.0]).unwrap();
        let master = rig.add_free("master", [0.1, 0.0, -1.0], [10.0, -20.0, -800.0]).unwrap();
        let soft = rig.add_line("soft", &[left, master], 1.2, 3e3).unwrap();
        let stiff = rig.add_line("stiff", &[right, master], 1.3, 3e5).unwrap();
        let heavy = rig.add_heavy_line("heavy", &[left, right], 2.5, 5e4, 0.7).unwrap();
        // Stopped early, so that the bound is far above rounding.
        let settings = Settings { balance: 1e-3, ..Settings::default() };
        let (rough, exact) = (solve(&rig, &settings), solve(&rig, &Settings::default()));
        let (rough, exact) = (rough.balanced().unwrap(), exact.balanced().unwrap());
        for (line, spring) in [(soft, 3e3 / 1.2), (stiff, 3e5 / 1.3), (heavy, 5e4 / 2.5)] {
            let (rest, truth) = (rough.line(line).unwrap(), exact.line(line).unwrap());
            let bound = (spring * rough.energy_bound).sqrt();
            assert!((rest.tension_bound - bound).abs() <= 1e-12 * bound, "{} {bound}", rest.tension_bound);
            assert!((rest.tension_first - truth.tension_first).abs() <= rest.tension_bound);
            assert!(exact.energy_bound < rough.energy_bound);
        }
    }
}
