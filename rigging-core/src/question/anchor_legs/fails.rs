//! If an anchor fails: where the master point goes, and what the others carry then.

use super::super::answer::{Finding, Outcome};
use super::super::carried::larger;
use super::super::input::BadInput;
use super::super::people::{ROPE_OUT, SLACK, State};
use super::super::slip::Catcher;
use super::rigged::{Case, NAMES, Point, Rigged, There};
use super::worst::{LENGTHS, put};
use super::{AnchorLegs, called};
use crate::band::Band;
use crate::law::{fall, leg_failure};
use crate::quantity::{Force, Kind, Length, Ratio, metre, newton, ratio};
use crate::statics::Vector;

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
    /// How much longer than meant all legs are tied but the one that fails, which is as much shorter (m).
    long: f64,
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
        let (each, long) = (self.legs.people.count, self.legs.tied_long());
        let typical = End { of: Band::typical, legs: Band::typical, ropes: each, long: 0.0, least: false, most: false };
        let light = End { of: Band::low, legs: Band::low, ropes: 1, long: -long, least: true, most: false };
        let heavy = End { of: Band::high, legs: Band::high, long, most: true, ..typical };
        let [least_drop, most_drop] =
            [End { legs: Band::high, ..light }, End { legs: Band::low, most: false, ..heavy }];
        self.look(typical, ranges.map(|range| range.typical()))?;
        for end in [light, heavy, least_drop, most_drop] {
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

    fn look_either_way(&mut self, end: End, place: Place) -> Result<(), BadInput> {
        self.look(End { long: 0.0, ..end }, place)?;
        if end.long != 0.0 {
            self.look(end, place)?;
        }
        Ok(())
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

    fn before(
        &mut self,
        End { of, legs: stiff, ropes, long, least, most }: End,
        [apart, down]: Place,
    ) -> Result<Before, BadInput> {
        let [body, kit, _, legs, ..] = self.legs.bands(self.legs.state);
        // As stiff as in the slip before, and as in the hardest fall that was measured.
        let mut rope = State::Slip.uncertain().0;
        if let Some((stiffness, _)) = Catcher::Canyon.stiffness() {
            rope = larger(rope, stiffness);
        }
        let weight = self.legs.people.weight_of_all(of(&body), of(&kit));
        let meant = [of(&body), of(&kit), 0.0, stiff(&legs), apart, down, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0];
        let point = self.legs.tied(meant, self.failed, long);
        let hung = self.all.under(plumb(weight), &point)?.point;
        let gives = |metres: f64| weight * metres / (of(&rope) * f64::from(ropes));
        let rope_gives = gives(self.legs.rope.value);
        let peak = |state, at| self.legs.people.load_of_all(state, of(&body), of(&kit), at);
        let times = of(&State::Jerky.uncertain().0);
        let jerk = Moves::Jerk { alone: peak(State::Jerky, times)?, times };
        let moves = match self.legs.state {
            State::Slip => {
                // Nobody slips farther than the rope is long, nor onto more of it than there is.
                let long = self.legs.rope.value.min(ROPE_OUT);
                let alone = peak(State::Slip, of(&State::Slip.uncertain().0))?;
                [Some(Moves::Slip { alone, slack: long.min(SLACK), rope_gives: gives(long) }), Some(jerk)]
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

    /// The same in every way in which few may carry it all.
    fn look(&mut self, end: End, place: Place) -> Result<(), BadInput> {
        let before = self.before(end, place)?;
        let ([drop, aside, mut still, mut caught, mut moved], [peak, moving]) = self.shared(&before)?;
        if before.most {
            let Before { point, weight, .. } = before;
            let (legs, there, long) = (self.legs, self.left.there, self.legs.tied_long());
            let left = std::iter::once(&mut self.left);
            for few in left.chain(self.pairs.iter_mut().filter(|pair| pair.there.within(there))) {
                for short in 0..legs.count() {
                    // All alike, the short one having failed; or one of them short, that takes what it can of the rest.
                    if !there.leg(short) || long > 0.0 && few.there.leg(short) {
                        let way = legs.tied(point, short, long);
                        still = still.max(few.under(plumb(weight), &way)?.most().1);
                        caught = caught.max(few.under(plumb(peak), &way)?.most().1);
                        if moving > 0.0 {
                            moved = moved.max(few.under(plumb(moving), &way)?.most().1);
                        }
                    }
                }
            }
        }
        self.take_in([drop, aside, still, caught, moved]);
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
    /// The same place with one leg tied short and the others long by as much.
    fn tied(&self, mut point: Point, short: usize, long: f64) -> Point {
        for leg in 0..self.count() {
            put(&mut point, LENGTHS + leg, if leg == short { -long } else { long });
        }
        point
    }

    /// More than two legs that are left could leave it all to two of them: every pair, if there can be so many.
    fn pairs_left(&self) -> Result<Vec<Rigged<'_>>, BadInput> {
        let mut pairs = Vec::new();
        for one in 0..self.count() {
            for other in (one + 1..self.count()).filter(|_| self.count() > 3) {
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
