//! If an anchor fails: where the master point goes, and what the others carry then.

use super::super::answer::{Finding, Outcome};
use super::super::carried::larger;
use super::super::input::BadInput;
use super::super::people::State;
use super::super::slip::Catcher;
use super::rigged::{Case, NAMES, Point, Rigged, There};
use super::worst::{LENGTHS, put};
use super::{AnchorLegs, called};
use crate::band::Band;
use crate::law::{fall, leg_failure};
use crate::quantity::{Force, Kind, Length, Ratio, metre, newton, ratio};
use crate::statics::Vector;

#[cfg(test)]
mod tests;

/// One place within the ranges, and how everybody hangs there while all anchors hold.
struct Before {
    point: Point,
    weight: f64,
    /// What the rope gives under the weight (m).
    rope_gives: f64,
    /// How they may slip or move in jerks as it fails: who may slip may do either.
    moves: [Option<Moves>; 2],
    /// Whether the failure is the mildest looked at.
    least: bool,
    /// Whether the catch is counted as the free fall that it is at most.
    most: bool,
    hung: Vector,
}

/// What they do as it fails, and what that pulls on an anchor that gives nothing (N).
#[derive(Clone, Copy)]
enum Moves {
    /// They slip so far onto rope that gives so much under the weight (m).
    Slip { alone: f64, slack: f64, rope_gives: f64 },
    /// They move in jerks of so many times the weight.
    Jerk { alone: f64, times: f64 },
}

/// One end of what is uncertain.
#[derive(Clone, Copy)]
struct End {
    of: fn(&Band) -> f64,
    /// The same of how stiff the legs are.
    legs: fn(&Band) -> f64,
    ropes: u32,
    /// How much longer than meant legs are tied (m).
    long: f64,
    /// Those that are as much shorter, a bit for each leg.
    short: u32,
    least: bool,
    most: bool,
}

/// What is found at one place after an anchor failed: drop, way to the side, force at rest, force at the catch, force if it
/// failed in the middle of a slip or a jerk (0 if none is judged).
type After = [f64; 5];
const STILL: usize = 2;
const CATCH: usize = 3;
const MOVED: usize = 4;

const AT_THE_CATCH: &str = "on the worst anchor left, at the catch, hanging still before";
const IN_A_JERK: &str = "on the worst anchor left, at the catch, in the middle of a jerk";
const IN_A_SLIP: &str = "on the worst anchor left, at the catch, in the middle of a slip or a jerk";

/// The share of the weight under which the point is about where it hangs loose.
const NOBODY: f64 = 1e-3;

/// How far apart and how far down.
type Place = [f64; 2];

/// Steps of the grid over a range, and how often the distance of its places is halved to close in on the worst.
const GRID: u32 = 4;
const HALVINGS: u32 = 5;
const AROUND: [Place; 8] =
    [[1.0, 0.0], [-1.0, 0.0], [0.0, 1.0], [0.0, -1.0], [1.0, 1.0], [1.0, -1.0], [-1.0, 1.0], [-1.0, -1.0]];

impl AnchorLegs {
    /// How many findings of a failure tell what it does to the anchors that are left at its hardest: they come first.
    pub(super) fn catches(&self) -> usize {
        if matches!(self.state, State::Slip | State::Jerky) { 2 } else { 1 }
    }

    /// What happens if each anchor fails in turn, everybody in the fall line: hanging still, or in a slip or jerks if these are judged.
    pub(super) fn fails(&self) -> Result<Vec<Outcome>, BadInput> {
        let mut pairs = self.pairs_left()?;
        let mut outcomes = Vec::new();
        for (failed, name) in NAMES.iter().take(self.count()).enumerate() {
            let [drop, aside, rest, catch, moved] = self.fail(failed, &mut pairs)?;
            let length = |what, band| Finding::load(what, band).measured_as(Kind::Length);
            let mut findings = vec![
                Finding::load(AT_THE_CATCH, catch),
                Finding::load("on the worst anchor left, hanging still afterwards", rest),
                length("drop of the master point", drop),
                length("swing of the master point to the side", aside),
            ];
            if self.catches() > 1 {
                let what = if self.state == State::Slip { IN_A_SLIP } else { IN_A_JERK };
                findings.insert(0, Finding::load(what, moved));
            }
            outcomes.push(Outcome { case: format!("If {} fails", called(name)), findings });
        }
        Ok(outcomes)
    }

    /// What is found if one anchor fails.
    fn fail<'a>(&'a self, failed: usize, pairs: &mut [Rigged<'a>]) -> Result<[Band; 5], BadInput> {
        let (all, left) = (Rigged::new(self, There::All)?, Rigged::new(self, There::Without(failed))?);
        let mut failing = Failing { legs: self, failed, all, left, pairs, found: None };
        failing.look_everywhere()?;
        Ok(failing.found.unwrap_or_default().map(|(low, typical, high)| Band::of(low, typical, high)))
    }

    /// The catch of the same failure, in the middle of a slip or a jerk too if that is judged.
    pub(super) fn catch(&self, failed: usize) -> Result<Band, BadInput> {
        let [.., catch, moved] = self.fail(failed, &mut self.pairs_left()?)?;
        Ok(larger(catch, moved))
    }
}

/// One anchor failing, over all places within the ranges.
struct Failing<'a, 'b> {
    legs: &'a AnchorLegs,
    failed: usize,
    all: Rigged<'a>,
    left: Rigged<'a>,
    /// Those to which all could be left.
    pairs: &'b mut [Rigged<'a>],
    /// Low, typical, high.
    found: Option<[(f64, f64, f64); 5]>,
}

impl Failing<'_, '_> {
    /// The typical place first, then the lightest and the heaviest on the softest legs and on the stiffest, which drop
    /// least and pull most, at every corner of the distances: tied as meant, and so that the leg that fails carried
    /// nothing, or all that it can.
    fn look_everywhere(&mut self) -> Result<(), BadInput> {
        let ranges = self.ranges();
        // Several hang on one rope where that is milder, else on one each.
        let (each, long, short) = (self.legs.people.count, self.legs.tied_long(), 1 << self.failed);
        let typical =
            End { of: Band::typical, legs: Band::typical, ropes: each, long: 0.0, short, least: false, most: false };
        let light = End { of: Band::low, legs: Band::low, ropes: 1, long: -long, least: true, ..typical };
        let heavy = End { of: Band::high, legs: Band::high, long, most: true, ..typical };
        let least_drop = End { legs: Band::high, ..light };
        let soft = End { legs: Band::low, most: false, ..heavy };
        // Flat legs hang lower under the heavy before than under the light: these may drop farther.
        let stiff = End { of: Band::low, legs: Band::high, ..soft };
        self.look(typical, ranges.map(|range| range.typical()))?;
        for end in [light, heavy, least_drop, soft, stiff] {
            for place in places(ranges, 1) {
                self.look_either_way(end, place)?;
            }
        }
        for end in [light, heavy] {
            // What is left of two legs drops most at a corner; a shape of more may do so anywhere between.
            if self.legs.count() > 2 && ranges.iter().any(|range| !range.is_exact()) {
                self.search(end, ranges)?;
            }
        }
        Ok(())
    }

    fn ranges(&self) -> [Band; 2] {
        let [_, _, _, _, apart, down, ..] = self.legs.bands(self.legs.state);
        [apart, down]
    }

    /// As meant, and as far off as legs may be tied: with each of those that are left long or short where that may pull or
    /// drop more, and with a pair of them carrying it all.
    fn look_either_way(&mut self, end: End, place: Place) -> Result<(), BadInput> {
        let [mut peak, mut moving] = self.look(End { long: 0.0, ..end }, place)?;
        if end.long != 0.0 {
            for others in 0..if end.long > 0.0 { 1 << self.legs.count() } else { 1 } {
                if others & end.short == 0 {
                    let [one, other] = self.look(End { short: end.short | others, ..end }, place)?;
                    (peak, moving) = (peak.max(one), moving.max(other));
                }
            }
        }
        if end.most { self.look_at_pairs(end, place, [peak, moving]) } else { Ok(()) }
    }

    /// On a grid all that is left shares, which takes few solves; where the worst was closed in on every way of it is
    /// looked at.
    fn search(&mut self, end: End, ranges: [Band; 2]) -> Result<(), BadInput> {
        let sign = if end.most { 1.0 } else { -1.0 };
        let mut met = Vec::new();
        for place in places(ranges, GRID) {
            met.push((place, self.glance(end, place)?.map(|found| sign * found)));
        }
        for which in [CATCH, STILL, MOVED].into_iter().take(1 + self.legs.catches()) {
            let of = |after: &After| after.get(which).copied().unwrap_or_default();
            let mut best = (ranges.map(|range| range.typical()), f64::NEG_INFINITY);
            for (place, after) in &met {
                if of(after) > best.1 {
                    best = (*place, of(after));
                }
            }
            let mut steps = ranges.map(|range| (range.high() - range.low()) / f64::from(GRID));
            for _ in 0..HALVINGS {
                steps = steps.map(|step| step / 2.0);
                let from = best.0;
                for way in AROUND {
                    let place = beside(ranges, from, steps, way);
                    if place != from {
                        let value = sign * of(&self.glance(end, place)?);
                        if value > best.1 {
                            best = (place, value);
                        }
                    }
                }
            }
            self.look_either_way(end, best.0)?;
        }
        Ok(())
    }

    fn before(&mut self, end: End, place: Place) -> Result<Before, BadInput> {
        let End { of, ropes, least, most, .. } = end;
        let [body, kit, ..] = self.legs.bands(self.legs.state);
        // As stiff as in the slip before, and as in the hardest fall that was measured.
        let mut rope = State::Slip.uncertain().0;
        if let Some((stiffness, _)) = Catcher::Canyon.stiffness() {
            rope = larger(rope, stiffness);
        }
        let (point, weight) = self.legs.point(end, place);
        let hung = self.all.under(plumb(weight), &point)?.point;
        let gives = |metres: f64| weight * metres / (of(&rope) * f64::from(ropes));
        let rope_gives = gives(self.legs.rope.value);
        let peak = |state, at| self.legs.people.load_of_all(state, of(&body), of(&kit), at);
        let times = of(&State::Jerky.uncertain().0);
        let jerk = Moves::Jerk { alone: peak(State::Jerky, times)?, times };
        let moves = match self.legs.state {
            State::Slip => {
                let [slack, long] = self.legs.slip();
                let alone = peak(State::Slip, of(&self.legs.uncertain(State::Slip)))?;
                [Some(Moves::Slip { alone, slack, rope_gives: gives(long) }), Some(jerk)]
            }
            State::Jerky => [Some(jerk), None],
            State::Still | State::Descending => [None; 2],
        };
        Ok(Before { point, weight, rope_gives, moves, least, most, hung })
    }

    /// What all that is left carries, shared as it is tied.
    fn glance(&mut self, end: End, place: Place) -> Result<After, BadInput> {
        let before = self.before(end, place)?;
        let (after, _) = self.shared(&before)?;
        self.take_in(after);
        Ok(after)
    }

    /// The same, looked at closely; the pulls of the catch from rest and in the middle of a slip or a jerk.
    fn look(&mut self, end: End, place: Place) -> Result<[f64; 2], BadInput> {
        let before = self.before(end, place)?;
        let (after, pulls) = self.shared(&before)?;
        self.take_in(after);
        Ok(pulls)
    }

    /// What each pair of those that are left carries if it carries it all.
    fn look_at_pairs(&mut self, end: End, place: Place, [peak, moving]: [f64; 2]) -> Result<(), BadInput> {
        let (legs, left) = (self.legs, self.left.there);
        let (point, weight) = legs.point(end, place);
        let mut most = [0.0_f64; 3];
        for pair in self.pairs.iter_mut().filter(|pair| pair.there.within(left)) {
            let There::Pair(one, other) = pair.there else { continue };
            // Short: neither, one, the other, both.
            for short in 0..if end.long > 0.0 { 4 } else { 1 } {
                let short = (short & 1) << one | (short >> 1) << other;
                let way = legs.tied(point, short, end.long);
                for (most, load) in most.iter_mut().zip([weight, peak, moving]) {
                    if load > 0.0 {
                        *most = most.max(pair.under(plumb(load), &way)?.most().1);
                    }
                }
            }
        }
        let found = self.found.iter_mut().flat_map(|found| found.iter_mut().skip(STILL));
        for (reach, most) in found.zip(most) {
            reach.2 = reach.2.max(most);
        }
        Ok(())
    }

    /// What is found as it is tied, and the pulls of the catch from rest and in the middle of a slip or a jerk.
    fn shared(&mut self, before: &Before) -> Result<(After, [f64; 2]), BadInput> {
        let Before { point, weight, .. } = before;
        let left = &mut self.left;
        let rest = left.under(plumb(*weight), point)?;
        let twice = left.under(plumb(2.0 * weight), point)?;
        let gone = rest.point - before.hung;
        let metres = Length::new::<metre>;
        let (drop, legs_give) = ((-gone.z).max(0.0), metres((rest.point.z - twice.point.z).max(0.0)));
        let caught = |drop: f64, rope: f64| {
            leg_failure::peak(Force::new::<newton>(*weight), metres(drop), legs_give, metres(rope))
        };
        let catch = caught(drop, before.rope_gives)?;
        let peak = if before.most { catch.most } else { catch.computed }.value;
        let moves = before.moves.into_iter().flatten();
        let mut fallen = drop;
        if before.most && self.legs.catches() > 1 {
            // Before a slip or a jerk begins to pull nobody hangs there: from where the loose point is to where it would be.
            let nobody = plumb(NOBODY * weight);
            if let (Ok(from), Ok(to)) = (self.all.under(nobody, point), left.under(nobody, point)) {
                fallen = drop.max(from.point.z - to.point.z);
            }
        }
        // It fails as the slip or the jerk begins to pull, and all of it and the drop are one. Later the point goes after the
        // rope and takes what it had caught: no more is sure than what hangs there afterwards.
        let mut moving = 0.0_f64;
        for one in moves {
            moving = moving.max(match one {
                _ if before.least => *weight,
                Moves::Slip { alone, slack, rope_gives } if before.most => {
                    alone.max(peak).max(caught(fallen + slack, rope_gives)?.most.value)
                }
                Moves::Jerk { alone, times } if before.most => {
                    let times = Ratio::new::<ratio>(times);
                    let gives = legs_give + metres(before.rope_gives);
                    let jerk = fall::in_a_jerk(Force::new::<newton>(*weight), times, gives, metres(fallen))?;
                    alone.max(peak).max(jerk.value)
                }
                Moves::Slip { alone, .. } | Moves::Jerk { alone, .. } => alone,
            });
        }
        let caught = left.under(plumb(peak), point)?.most().1;
        let moved = if moving > 0.0 { left.under(plumb(moving), point)?.most().1 } else { 0.0 };
        Ok(([drop, gone.x.hypot(gone.y), rest.most().1, caught, moved], [peak, moving]))
    }

    fn take_in(&mut self, after: After) {
        let found = self.found.get_or_insert(after.map(|value| (value, value, value)));
        for (reach, value) in found.iter_mut().zip(after) {
            *reach = (reach.0.min(value), reach.1, reach.2.max(value));
        }
    }
}

/// Places spread evenly over both ranges, the corners among them.
fn places([apart, down]: [Band; 2], of: u32) -> Vec<Place> {
    let spread = |band: Band| -> Vec<f64> {
        let steps = if band.is_exact() { 0 } else { of };
        (0..=steps).map(|number| band.across(number, steps)).collect()
    };
    spread(apart).into_iter().flat_map(|apart| spread(down).into_iter().map(move |down| [apart, down])).collect()
}

/// The place some steps away, within the ranges.
fn beside([apart, down]: [Band; 2], from: Place, steps: Place, way: Place) -> Place {
    let ([a, d], [step_apart, step_down], [x, y]) = (from, steps, way);
    let within = |band: Band, value: f64| value.max(band.low()).min(band.high());
    [within(apart, a + x * step_apart), within(down, d + y * step_down)]
}

impl AnchorLegs {
    /// The inputs at an end of what is uncertain, everybody in the fall line, and the weight of all.
    fn point(&self, End { of, legs: stiff, long, short, .. }: End, [apart, down]: Place) -> (Point, f64) {
        let [body, kit, _, legs, ..] = self.bands(self.state);
        let meant = [of(&body), of(&kit), 0.0, stiff(&legs), apart, down, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0];
        (self.tied(meant, short, long), self.people.weight_of_all(of(&body), of(&kit)))
    }

    /// The same place with some legs, a bit for each, tied short and the others long by as much.
    fn tied(&self, mut point: Point, short: u32, long: f64) -> Point {
        for leg in 0..self.count() {
            put(&mut point, LENGTHS + leg, if short >> leg & 1 == 1 { -long } else { long });
        }
        point
    }

    /// What is left could leave it all to two legs: every pair. Where two are left they are all, and some way of tying
    /// between short and long has nearly the drop of the one and the pull of the other.
    fn pairs_left(&self) -> Result<Vec<Rigged<'_>>, BadInput> {
        let mut pairs = Vec::new();
        for one in 0..self.count() {
            for other in (one + 1..self.count()).filter(|_| self.count() > 2) {
                pairs.push(Rigged::new(self, There::Pair(one, other))?);
            }
        }
        Ok(pairs)
    }

    /// Where everybody would hang without the anchor that a case loads most: that anchor, and the rig.
    pub(super) fn ghost(&self, case: &Case, point: &Point, failed: usize) -> Result<Case, BadInput> {
        let mut left = Rigged::new(self, There::Without(failed))?;
        left.under(plumb(case.load.norm()), point)
    }
}

fn plumb(weight: f64) -> Vector {
    Vector::new(0.0, 0.0, -weight)
}
