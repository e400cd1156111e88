//! If an anchor fails: where the master point goes, and what the others carry then.

use super::super::answer::{Finding, Outcome};
use super::super::input::BadInput;
use super::super::people::State;
use super::rigged::{Case, NAMES, Point, Rigged, There};
use super::worst::{LENGTHS, put};
use super::{AnchorLegs, called};
use crate::band::Band;
use crate::law::leg_failure;
use crate::quantity::{Force, Kind, Length, metre, newton};
use crate::statics::Vector;

/// One place within the ranges, and how everybody hangs there while all anchors hold.
struct Before {
    point: Point,
    weight: f64,
    /// What the rope gives under the weight (m).
    rope_gives: f64,
    /// Whether the catch is counted as the free fall that it is at most.
    most: bool,
    hung: Vector,
}

/// One end of what is uncertain.
#[derive(Clone, Copy)]
struct End {
    of: fn(&Band) -> f64,
    ropes: u32,
    /// How much longer than meant all legs are tied but the one that fails, which is as much shorter (m).
    long: f64,
    most: bool,
}

/// What is found at one place after an anchor failed: drop, way to the side, force at rest, force at the catch.
type After = [f64; 4];

impl AnchorLegs {
    /// What happens if each anchor fails in turn, everybody hanging still in the fall line.
    pub(super) fn fails(&self) -> Result<Vec<Outcome>, BadInput> {
        let mut pairs = self.pairs_left()?;
        let mut outcomes = Vec::new();
        for (failed, name) in NAMES.iter().take(self.count()).enumerate() {
            let mut left = Rigged::new(self, There::Without(failed))?;
            let mut found: Option<[(f64, f64, f64); 4]> = None;
            for before in self.before(failed)? {
                let after = self.after(&mut left, &mut pairs, &before)?;
                let found = found.get_or_insert(after.map(|value| (value, value, value)));
                for (reach, value) in found.iter_mut().zip(after) {
                    *reach = (reach.0.min(value), reach.1, reach.2.max(value));
                }
            }
            let Some(found) = found else { continue };
            let [drop, aside, rest, catch] = found.map(|(low, typical, high)| Band::of(low, typical, high));
            let length = |what, band| Finding::load(what, band).measured_as(Kind::Length);
            outcomes.push(Outcome {
                case: format!("If {} fails", called(name)),
                findings: vec![
                    Finding::load("on the worst anchor left, at the catch", catch),
                    Finding::load("on the worst anchor left, hanging still afterwards", rest),
                    length("drop of the master point", drop),
                    length("swing of the master point to the side", aside),
                ],
            });
        }
        Ok(outcomes)
    }

    /// The typical place first, then the lightest on the softest legs and the heaviest on the stiffest, at every
    /// corner of the distances: tied as meant, and so that the leg that fails carried nothing, or all that it can.
    fn before(&self, failed: usize) -> Result<Vec<Before>, BadInput> {
        let [body, kit, _, legs, apart, down, ..] = self.bands(self.state);
        let rope = State::Slip.uncertain().0;
        let mut all = Rigged::new(self, There::All)?;
        // Several hang on one rope where that is milder, else on one each.
        let each = self.people.count;
        let typical = End { of: Band::typical, ropes: each, long: 0.0, most: false };
        let light = End { of: Band::low, ropes: 1, long: -self.tied_long(), most: false };
        let heavy = End { of: Band::high, long: self.tied_long(), most: true, ..typical };
        let mut places = vec![(typical, apart.typical(), down.typical())];
        for end in [light, heavy] {
            for apart in ends(apart) {
                for down in ends(down) {
                    places.push((End { long: 0.0, ..end }, apart, down));
                    if end.long != 0.0 {
                        places.push((end, apart, down));
                    }
                }
            }
        }
        let mut before = Vec::new();
        for (End { of, ropes, long, most }, apart, down) in places {
            let weight = self.people.weight_of_all(of(&body), of(&kit));
            let meant = [of(&body), of(&kit), 0.0, of(&legs), apart, down, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0];
            let point = self.tied(meant, failed, long);
            let hung = all.under(plumb(weight), &point)?.point;
            let rope_gives = weight * self.rope.value / (of(&rope) * f64::from(ropes));
            before.push(Before { point, weight, rope_gives, most, hung });
        }
        Ok(before)
    }

    fn after<'a>(&self, left: &mut Rigged<'a>, pairs: &mut [Rigged<'a>], before: &Before) -> Result<After, BadInput> {
        let Before { point, weight, .. } = before;
        let rest = left.under(plumb(*weight), point)?;
        let twice = left.under(plumb(2.0 * weight), point)?;
        let gone = rest.point - before.hung;
        let metres = Length::new::<metre>;
        let catch = leg_failure::peak(
            Force::new::<newton>(*weight),
            metres((-gone.z).max(0.0)),
            metres((rest.point.z - twice.point.z).max(0.0)),
            metres(before.rope_gives),
        )?;
        let peak = if before.most { catch.most } else { catch.computed };
        let caught = left.under(plumb(peak.value), point)?;
        let (mut still, mut caught) = (rest.most().1, caught.most().1);
        if before.most {
            let (there, long) = (left.there, self.tied_long());
            for few in [left].into_iter().chain(pairs.iter_mut().filter(|pair| pair.there.within(there))) {
                for short in 0..self.count() {
                    // All alike, the short one having failed; or one of them short, that takes what it can of the rest.
                    if !there.leg(short) || long > 0.0 && few.there.leg(short) {
                        let way = self.tied(*point, short, long);
                        still = still.max(few.under(plumb(*weight), &way)?.most().1);
                        caught = caught.max(few.under(plumb(peak.value), &way)?.most().1);
                    }
                }
            }
        }
        Ok([(-gone.z).max(0.0), gone.x.hypot(gone.y), still, caught])
    }

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

fn ends(band: Band) -> Vec<f64> {
    if band.is_exact() { vec![band.typical()] } else { vec![band.low(), band.high()] }
}

fn plumb(weight: f64) -> Vector {
    Vector::new(0.0, 0.0, -weight)
}
