//! Rings that run to the end of their line.
//!
//! Where a part of a taut line shrinks to nothing the energy has a kink, and no gradient method
//! comes to rest on it. So, if the direct way fails: round every part to `√(d² + ε²)` and shrink
//! `ε`; join each ring to the stop it has reached; solve what is left exactly; and accept the stop
//! only if the force it takes does not exceed the tension of the line.

use super::energy::State;
use super::held::Groups;
use super::model::{Cord, FIXED, Model};
use super::newton::{Limits, Run, descend};
use super::sparse::BlockMatrix;
use super::stiff::settle;
use super::{Matrix, Rig, Settings, Vector};

/// Radius of a ring as a share of the length of its line, stage by stage.
const ROUNDINGS: [f64; 6] = [1e-2, 1e-3, 1e-4, 1e-5, 1e-6, 1e-7];
/// Steps before a kink is suspected.
const FIRST_STEPS: usize = 60;
const ATTEMPTS: usize = 6;

/// Share of its line below which a part may be a stop.
const SHORTEST: f64 = 1e-4;

/// Where the rig came to rest, or as near as it got.
#[derive(Clone, Debug, Default)]
pub(super) struct Rest {
    pub model: Model,
    pub state: State,
    pub run: Run,
}

/// A part of a line without length: its line, its two points, and the share of the tension it
/// carries.
struct Stop {
    cord: usize,
    from: usize,
    to: usize,
    share: Vector,
}

/// Brings a rig to rest; `joined` is room for the same rig with its rings joined to their stops.
pub(super) fn come_to_rest(rig: &Rig, settings: &Settings, rest: &mut Rest, joined: &mut Rest) {
    let Rest { model, state, run } = rest;
    model.build(rig, |point| point);
    state.begin(model);
    (model.work, joined.model.work) = (0, 0);
    let Settings { balance, iterations, work } = *settings;
    let mut limits = Limits { balance, iterations, work, rounding: 0.0, shortest: 0.0 };
    if !model.cords.iter().any(|cord| cord.parts.len() > 1) {
        *run = settle(model, state, limits);
        return;
    }
    // Stiffness in stages costs much, and a kink looks like stiffness.
    limits.iterations = settings.iterations.min(FIRST_STEPS);
    limits.shortest = SHORTEST;
    *run = descend(model, state, limits);
    if run.balanced {
        return;
    }
    limits.shortest = 0.0;
    let mut iterations = run.iterations;
    if state.at_stop(model, SHORTEST) {
        // A stop that bears is a proof, however it was guessed.
        let stops = parts_without_length(rig, model, state);
        if join_and_check(rig, (model, state), stops, limits, joined) {
            joined.run.iterations += iterations;
            std::mem::swap(rest, joined);
            return;
        }
        iterations += joined.run.iterations;
        let more = descend(model, state, limits);
        iterations += more.iterations;
        if more.balanced {
            *run = Run { balanced: true, iterations };
            return;
        }
    }
    limits.iterations = settings.iterations;
    state.begin(model);
    let mut before = state.clone();
    for rounding in ROUNDINGS {
        limits.rounding = rounding;
        before.at.clone_from(&state.at);
        // Whether a rounded state balances to the last digit does not matter; only the first, which
        // starts from anywhere, may need stages.
        let run = if rounding == ROUNDINGS[0] { settle(model, state, limits) } else { descend(model, state, limits) };
        iterations += run.iterations;
    }
    limits.rounding = 0.0;
    let stops = short_parts(rig, model, &before, state);
    if join_and_check(rig, (model, state), stops, limits, joined) {
        joined.run.iterations += iterations;
        std::mem::swap(rest, joined);
        return;
    }
    iterations += joined.run.iterations;
    // Whatever is left is slow rather than impossible: the whole allowance, from where it stands.
    model.build(rig, |point| point);
    *run = settle(model, state, limits);
    run.iterations += iterations;
}

/// Joins rings to the stops they have come near and solves the rest exactly; false if it does not
/// balance, or a stop does not bear.
#[expect(clippy::indexing_slicing, reason = "indices come from the rig and its own model")]
fn join_and_check(
    rig: &Rig,
    (apart, near): (&Model, &State),
    mut stops: Vec<Stop>,
    limits: Limits,
    Rest { model, state, run }: &mut Rest,
) -> bool {
    let mut iterations = 0;
    for _ in 0..ATTEMPTS {
        let mut groups = Groups::default();
        groups.part(rig.points().len());
        let held: Vec<bool> = rig.points().iter().map(|point| point.is_held()).collect();
        for stop in &stops {
            let (from, to) = (groups.of(stop.from), groups.of(stop.to));
            if from != to && !(held[from] && held[to]) {
                let (into, other) = if held[to] { (to, from) } else { (from, to) };
                groups.join(into, other);
            }
        }
        let joined: Vec<usize> = (0..rig.points().len()).map(|point| groups.of(point)).collect();
        model.build(rig, |point| joined[point]);
        for (point, &into) in joined.iter().enumerate() {
            if point == into && !rig.points()[point].is_held() {
                model.start[model.node_of[point] as usize] = near.at[apart.node_of[point] as usize];
            }
        }
        state.begin(model);
        *run = settle(model, state, limits);
        iterations += run.iterations;
        run.iterations = iterations;
        let asked = stops.len();
        if run.balanced {
            keep_bearing(rig, model, state, &mut stops);
        }
        if stops.len() == asked {
            return run.balanced;
        }
    }
    false
}

/// Parts of taut lines that are shorter than a share of their line: nothing is known yet of what they
/// take.
fn parts_without_length(rig: &Rig, model: &Model, state: &State) -> Vec<Stop> {
    parts_that(rig, model, state, |cord, apart, _| (apart.norm() < SHORTEST * cord.length).then_some(Vector::zeros()))
}

/// Parts of taut lines that are about as short as their rounding or shrink along with it.
#[expect(clippy::indexing_slicing, reason = "both states are of the same model")]
fn short_parts(rig: &Rig, model: &Model, before: &State, state: &State) -> Vec<Stop> {
    let radius = ROUNDINGS[ROUNDINGS.len() - 1];
    parts_that(rig, model, state, |cord, apart, (from, to)| {
        let apart_before = before.at[to as usize] - before.at[from as usize];
        let limit = radius * cord.length;
        let shrinks = apart.norm() < (0.5 * apart_before.norm()).min(1e-2 * cord.length);
        (shrinks || apart.norm() < 10.0 * limit).then(|| apart / (apart.norm_squared() + limit * limit).sqrt())
    })
}

/// Parts of taut lines, run through by a ring, for which `share_of` says what they carry.
#[expect(clippy::indexing_slicing, reason = "indices come from the rig and its own model")]
fn parts_that(
    rig: &Rig,
    model: &Model,
    state: &State,
    share_of: impl Fn(&Cord, Vector, (u32, u32)) -> Option<Vector>,
) -> Vec<Stop> {
    let mut stops = Vec::new();
    for (index, cord) in model.cords.iter().enumerate() {
        if !(state.tensions[index] > 0.0) {
            continue;
        }
        for pair in rig.lines()[cord.line].stops().windows(2) {
            let (from, to) = (model.node_of[pair[0]], model.node_of[pair[1]]);
            let free = model.free[from as usize] != FIXED || model.free[to as usize] != FIXED;
            let apart = state.at[to as usize] - state.at[from as usize];
            if from != to
                && free
                && let Some(share) = share_of(cord, apart, (from, to))
            {
                stops.push(Stop { cord: index, from: pair[0], to: pair[1], share });
            }
        }
    }
    stops
}

/// Drops every stop that would have to take more than the tension of its line.
///
/// What each stop takes starts from the rounded state, and is corrected by the least change that
/// balances every point of a group by itself.
#[expect(clippy::indexing_slicing, reason = "indices come from the rig and its own model")]
fn keep_bearing(rig: &Rig, model: &Model, state: &State, stops: &mut Vec<Stop>) {
    let points = rig.points();
    let mut left = forces_on_points(rig, model, state);
    let tension = |stop: &Stop| state.tensions[stop.cord];
    for stop in stops.iter() {
        left[stop.from] += stop.share * tension(stop);
        left[stop.to] -= stop.share * tension(stop);
    }
    // One point of every group carries what is left of the whole group.
    let mut number = vec![FIXED; points.len()];
    let mut rooted = vec![false; model.free.len()];
    let mut count = 0;
    for (index, point) in points.iter().enumerate() {
        let node = model.node_of[index] as usize;
        let root = if model.free[node] == FIXED { point.is_held() } else { !rooted[node] };
        if root {
            rooted[node] = true;
        } else {
            number[index] = count;
            count += 1;
        }
    }
    let mut pairs: Vec<(u32, u32)> = stops
        .iter()
        .map(|stop| (number[stop.from], number[stop.to]))
        .filter(|&(from, to)| from != FIXED && to != FIXED && from != to)
        .collect();
    let mut matrix = BlockMatrix::default();
    matrix.lay_out(count as usize, &mut pairs);
    for stop in stops.iter() {
        let weight = Matrix::identity() * tension(stop);
        let (from, to) = (number[stop.from], number[stop.to]);
        for end in [from, to].into_iter().filter(|&end| end != FIXED) {
            let own = matrix.diagonal_slot(end) as usize;
            matrix.diagonal[own] += weight;
        }
        if from != FIXED && to != FIXED && from != to {
            let between = matrix.slot(from, to).index as usize;
            matrix.lower[between] -= weight;
        }
    }
    let mut potential: Vec<Vector> =
        (0..points.len()).filter(|&point| number[point] != FIXED).map(|point| left[point]).collect();
    if !matrix.factorise(f64::MIN_POSITIVE, 1e-15) {
        stops.clear();
        return;
    }
    matrix.solve(&mut potential);
    let level = |point: usize| match number[point] {
        FIXED => Vector::zeros(),
        number => potential[number as usize],
    };
    stops.retain(|stop| {
        let share = stop.share + level(stop.to) - level(stop.from);
        share.norm() <= 1.0 + 1e-9
    });
}

/// Load and pull on every point, apart from parts without length (N).
#[expect(clippy::indexing_slicing, reason = "indices come from the rig and its own model")]
fn forces_on_points(rig: &Rig, model: &Model, state: &State) -> Vec<Vector> {
    let mut forces: Vec<Vector> = rig.points().iter().map(|point| point.load()).collect();
    for (index, cord) in model.cords.iter().enumerate() {
        let mut parts = cord.parts.clone();
        for pair in rig.lines()[cord.line].stops().windows(2) {
            if model.node_of[pair[0]] != model.node_of[pair[1]]
                && let Some(part) = parts.next()
            {
                let pull = state.directions[part] * state.tensions[index];
                forces[pair[0]] += pull;
                forces[pair[1]] -= pull;
            }
        }
    }
    for (hanging, pull) in model.hanging.iter().zip(&state.pulls) {
        let (Some(pull), &[from, to]) = (pull, rig.lines()[hanging.line].stops()) else {
            continue;
        };
        let half = Vector::new(0.0, 0.0, -0.5 * hanging.catenary.weight * hanging.catenary.length);
        forces[from] += half + pull.force;
        forces[to] += half - pull.force;
    }
    forces
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::statics::{PointId, solve};

    /// A line of 9 m with a tension of 1111 N, 10 m straight along x through a ring that is so far along (m).
    fn over_a_ring(ring_at: f64) -> (Rig, [PointId; 3]) {
        let mut rig = Rig::new();
        let at = |x: f64| [x, 0.0, 0.0];
        let ring = rig.add_free("ring", at(ring_at), [0.0; 3]).unwrap();
        let near = rig.add_held("near", at(0.0)).unwrap();
        let far = rig.add_held("far", at(10.0)).unwrap();
        rig.add_line("line", &[near, ring, far], 9.0, 1e4).unwrap();
        (rig, [near, ring, far])
    }

    fn evaluated(rig: &Rig, joined: impl Fn(usize) -> usize) -> (Model, State) {
        let (mut model, mut state) = (Model::default(), State::default());
        model.build(rig, joined);
        state.begin(&model);
        state.evaluate(&model, 0.0);
        (model, state)
    }

    fn ends(stops: &[Stop]) -> Vec<(usize, usize)> {
        stops.iter().map(|stop| (stop.from, stop.to)).collect()
    }

    #[test]
    fn only_a_part_between_two_points_of_which_one_is_free_may_be_a_stop() {
        let (mut rig, [near, ring, far]) = over_a_ring(0.0);
        let beside = rig.add_held("beside", [0.0; 3]).unwrap();
        // Twice through the same ring, as nothing forbids.
        rig.add_line("other", &[near, beside, ring, ring, far], 9.0, 1e4).unwrap();
        let (model, state) = evaluated(&rig, |point| point);
        let expected = [(near.0, ring.0), (beside.0, ring.0)];
        assert_eq!(ends(&parts_without_length(&rig, &model, &state)), expected);
    }

    #[test]
    fn a_part_is_short_once_it_shrinks_to_less_than_half_of_itself_and_a_hundredth_of_its_line() {
        let short = |before: f64, now: f64| {
            let ((rig, _), (start, _)) = (over_a_ring(now), over_a_ring(before));
            let (model, state) = evaluated(&rig, |point| point);
            !short_parts(&rig, &model, &evaluated(&start, |point| point).1, &state).is_empty()
        };
        // A hundredth of this line is 0.09 m.
        assert!(short(0.25, 0.08) && !short(0.25, 0.1));
        assert!(short(0.126, 0.0625) && !short(0.125, 0.0625));
    }

    /// Which of these stops are kept, each ring joined to the end of its group; whatever share was guessed for them.
    fn kept(rig: &Rig, joined: &[(PointId, PointId)]) -> Vec<(usize, usize)> {
        let (apart, near) = evaluated(rig, |point| point);
        let end = |point| joined.iter().find(|(ring, _)| ring.0 == point).map_or(point, |(_, end)| end.0);
        let (model, state) = evaluated(rig, end);
        let after = |guess: f64| {
            let mut stops = parts_without_length(rig, &apart, &near);
            assert_eq!(stops.len(), joined.len());
            stops.iter_mut().for_each(|stop| stop.share = guess * Vector::x());
            keep_bearing(rig, &model, &state, &mut stops);
            ends(&stops)
        };
        assert!(after(0.4) == after(0.0) && after(-0.7) == after(0.0));
        after(0.0)
    }

    /// A ring that is pulled along its line with so much, at a far anchor, which a guy pulls harder than the line.
    fn bears_at_an_anchor(load: f64) -> bool {
        let (mut rig, [_, ring, far]) = over_a_ring(10.0);
        rig.set_load(ring, [load, 0.0, 0.0]).unwrap();
        let guy = rig.add_held("guy", [20.0, 0.0, 0.0]).unwrap();
        rig.add_line("guy", &[far, guy], 5.0, 1e4).unwrap();
        !kept(&rig, &[(ring, far)]).is_empty()
    }

    /// The same at a knot that a tail holds, all but for a thousandth of a newton.
    fn bears_at_a_knot(load: f64) -> bool {
        let mut rig = Rig::new();
        let knot = rig.add_free("knot", [0.0; 3], [load + 1e-3, 0.0, 0.0]).unwrap();
        let ring = rig.add_free("ring", [0.0; 3], [-load, 0.0, 0.0]).unwrap();
        let [left, right] = [-1.0, 1.0].map(|x| rig.add_held(format!("{x}"), [x, 0.0, 0.0]).unwrap());
        rig.add_line("tail", &[left, knot], 0.9, 1e4).unwrap();
        rig.add_line("line", &[knot, ring, right], 0.9, 1e4).unwrap();
        !kept(&rig, &[(ring, knot)]).is_empty()
    }

    #[test]
    fn a_stop_bears_what_does_not_exceed_the_tension_of_the_line() {
        // Pulled onto its stop the ring is held by 1011 N; pulled off it, it would have to be by 1211 N; and so on to
        // the last newton on the other side.
        for (load, bears) in [(100.0, true), (-100.0, false), (2222.0, true), (2223.0, false)] {
            assert_eq!((bears_at_an_anchor(load), bears_at_a_knot(load)), (bears, bears), "{load} N");
        }
    }

    #[test]
    fn of_two_rings_the_last_stop_takes_what_both_leave() {
        let two = |first: f64, second: f64| {
            let mut rig = Rig::new();
            let near = rig.add_held("near", [0.0; 3]).unwrap();
            let [one, two] = [("one", first), ("two", second)]
                .map(|(name, load)| rig.add_free(name, [1.0, 0.0, 0.0], [load, 0.0, 0.0]).unwrap());
            let far = rig.add_held("far", [1.0, 0.0, 0.0]).unwrap();
            rig.add_line("line", &[near, one, two, far], 0.9, 1e4).unwrap();
            let stops = kept(&rig, &[(one, far), (two, far)]);
            [(one.0, two.0), (two.0, far.0)].map(|stop| stops.contains(&stop))
        };
        // Of 1111 N the first takes what its ring does not, and the second what both do not.
        assert_eq!(two(100.0, 100.0), [true, true]);
        assert_eq!(two(-100.0, 150.0), [false, true]);
        assert_eq!(two(100.0, -250.0), [true, false]);
        assert_eq!(two(2000.0, 500.0), [true, false]);
    }

    /// A ring between two anchors at the same place is at a stop from either side; they stay two, and each tells what it
    /// bears by itself.
    #[test]
    fn two_anchors_at_one_place_do_not_become_one_with_a_ring_between_them() {
        let mut rig = Rig::new();
        let [first, second] = ["first", "second"].map(|name| rig.add_held(name, [0.0; 3]).unwrap());
        let ring = rig.add_free("ring", [0.1, 0.0, -0.1], [0.0, 0.0, -10.0]).unwrap();
        let load = rig.add_free("load", [0.0, 0.0, -4.0], [0.0, 0.0, -800.0]).unwrap();
        let line = rig.add_line("line", &[first, ring, second, load], 4.0, 1e5).unwrap();
        let solution = solve(&rig, &Settings::default());
        let rest = solution.balanced().unwrap();
        assert!((rest.line(line).unwrap().tension() - 800.0).abs() < 1e-6);
        let borne = [first, second].map(|anchor| rest.point(anchor).unwrap().reaction.unwrap());
        // The ring hangs on the one, the load on the other.
        for (borne, hangs) in borne.into_iter().zip([10.0, 800.0]) {
            assert!((borne - Vector::new(0.0, 0.0, -hangs)).norm() < 1e-6, "{borne}");
        }
    }

    #[test]
    fn a_point_at_rest_gets_from_its_lines_what_is_told_of_it() {
        let mut rig = Rig::new();
        let [left, right] =
            [("left", [0.0; 3]), ("right", [8.0, 1.0, 3.0])].map(|(n, at)| rig.add_held(n, at).unwrap());
        let master = rig.add_free("master", [4.0, 0.0, -2.0], [20.0, 50.0, -700.0]).unwrap();
        let ring = rig.add_free("ring", [5.0, 0.5, 0.0], [0.0, 0.0, -300.0]).unwrap();
        rig.add_line("light", &[left, master], 4.0, 2e4).unwrap();
        rig.add_line("over", &[left, ring, right], 9.0, 3e4).unwrap();
        rig.add_heavy_line("heavy", &[right, master], 7.0, 2e4, 3.0).unwrap();
        let (mut rest, mut joined) = (Rest::default(), Rest::default());
        come_to_rest(&rig, &Settings::default(), &mut rest, &mut joined);
        let forces = forces_on_points(&rig, &rest.model, &rest.state);
        let solution = solve(&rig, &Settings::default());
        let solution = solution.balanced().unwrap();
        for point in [left, right, master, ring] {
            let held = solution.point(point).unwrap().reaction.unwrap_or_default();
            assert!((forces[point.0] - held).norm() < 1e-4, "{point:?}: {:?} {held:?}", forces[point.0]);
        }
        assert!(forces[right.0].norm() > 100.0);
    }
}
