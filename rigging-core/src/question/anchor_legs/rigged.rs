//! The legs as the engine takes them, and one solved case.

use super::super::input::BadInput;
use super::super::rest::at_rest_again;
use super::{AnchorLegs, Knots, Rig, Spot, State};
use crate::law::{OutOfDomain, sling};
use crate::quantity::{Angle, Force, Length, Ratio, metre, newton, radian, ratio};
use crate::statics::{self, LineId, PointId, Solver, Vector};

/// How many anchors there can be.
pub(super) const MOST: usize = 6;

/// Names of the anchors, in their order.
pub(super) const NAMES: [&str; MOST] = ["left anchor", "right anchor", "anchor 3", "anchor 4", "anchor 5", "anchor 6"];

/// One place within the ranges: body, kit, what is uncertain about the state, EA of a leg, apart, down, swing,
/// signed friction, and for each leg how far it is tied too long (m).
pub(super) type Point = [f64; 8 + MOST];

/// One solved case: where things are and what pulls. Lists are in the order of the anchors.
#[derive(Debug, Clone)]
pub(super) struct Case {
    pub(super) anchors: Vec<Vector>,
    /// Where the master point comes to rest.
    pub(super) point: Vector,
    pub(super) load: Vector,
    /// Tension of the leg to each anchor; 0 where it is slack or not there.
    pub(super) tensions: Vec<f64>,
    /// Force on each anchor.
    pub(super) on: Vec<Vector>,
    /// The widest angle between two legs that are there.
    pub(super) included: f64,
}

/// Which legs are there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum There {
    All,
    Pair(usize, usize),
    Without(usize),
}

impl There {
    pub(super) fn leg(self, number: usize) -> bool {
        match self {
            There::All => true,
            There::Pair(one, other) => number == one || number == other,
            There::Without(failed) => number != failed,
        }
    }

    /// Whether all its legs are among others.
    pub(super) fn within(self, others: There) -> bool {
        (0..MOST).all(|number| !self.leg(number) || others.leg(number))
    }
}

/// A rig of the legs that is built once; its numbers are changed for every case.
pub(super) struct Rigged<'a> {
    pub(super) legs: &'a AnchorLegs,
    pub(super) there: There,
    tied: Rig,
    rig: statics::Rig,
    anchors: Vec<PointId>,
    point: PointId,
    lines: Vec<(usize, LineId)>,
    solver: Solver,
    /// Whether the next search starts from where the last one came to rest.
    started: bool,
}

impl<'a> Rigged<'a> {
    pub(super) fn new(legs: &'a AnchorLegs, there: There) -> Result<Self, BadInput> {
        // What is left of a sling or loop after a failure is one leg.
        let tied = if there == There::All { legs.rig } else { Rig::Fixed };
        Rigged::tied(legs, there, tied)
    }

    fn tied(legs: &'a AnchorLegs, there: There, tied: Rig) -> Result<Self, BadInput> {
        let nowhere = Vector::zeros();
        let mut rig = statics::Rig::new();
        let point = rig.add_free("master point", nowhere, nowhere)?;
        let mut anchors = Vec::new();
        for name in NAMES.iter().take(legs.count()) {
            anchors.push(rig.add_held(*name, nowhere)?);
        }
        let mut lines = Vec::new();
        match (tied, anchors.as_slice()) {
            (Rig::SelfEqualising, &[left, right, ..]) => {
                lines.push((0, rig.add_line("sling", &[left, point, right], 1.0, 1.0)?));
            }
            (Rig::Triangle, &[left, right, ..]) => {
                lines.push((0, rig.add_line("loop", &[left, point, right, left], 1.0, 1.0)?));
            }
            _ => {
                for (number, (anchor, name)) in anchors.iter().zip(NAMES).enumerate() {
                    if there.leg(number) {
                        lines.push((number, rig.add_line(name, &[*anchor, point], 1.0, 1.0)?));
                    }
                }
            }
        }
        Ok(Rigged { legs, there, tied, rig, anchors, point, lines, solver: Solver::default(), started: false })
    }

    /// The case at a place within the ranges, in a state.
    pub(super) fn at(&mut self, state: State, point: &Point) -> Result<Case, BadInput> {
        let [body, kit, at, _, _, _, swing, ..] = *point;
        let load = self.legs.people.load_of_all(state, body, kit, at)?;
        let (sine, cosine) = swing.sin_cos();
        self.under(Vector::new(sine, 0.0, -cosine) * load, point)
    }

    /// The case at a place within the ranges, but under some load.
    pub(super) fn under(&mut self, load: Vector, point: &Point) -> Result<Case, BadInput> {
        let [_, _, _, stiffness, apart, down, _, friction, ..] = *point;
        let long = point.iter().skip(8);
        let (anchors, hung) = self.legs.places(apart, down)?;
        let drawn: Vec<f64> = anchors.iter().map(|anchor| (anchor - hung).norm()).collect();
        let mut lengths = Vec::new();
        for (drawn, long) in drawn.iter().zip(long) {
            let must = "more than 1 mm, and more than twice its length scatter: move the anchor or the master point";
            let tied = drawn + if self.legs.rig == Rig::Fixed { *long } else { 0.0 };
            if *drawn <= 0.001 || *drawn <= 2.0 * self.legs.scatter.value {
                return Err(OutOfDomain { what: "length of a leg", value: *drawn, must }.into());
            }
            lengths.push(tied);
        }
        let both: f64 = lengths.iter().sum();
        let chord = match anchors.as_slice() {
            [left, right, ..] => right - left,
            _ => Vector::zeros(),
        };
        if self.tied == Rig::Fixed && self.legs.rig != Rig::Fixed {
            lengths = self.after_failure(&lengths, both, chord.norm())?;
        }
        self.settle(&anchors, hung, load, &lengths, stiffness, chord.norm())?;
        let mut case = self.read(anchors, load, &lengths)?;
        if self.tied != Rig::Fixed && friction != 0.0 {
            self.hold_back(&mut case, friction)?;
        }
        if self.tied == Rig::SelfEqualising
            && let Some(stopped) = self.stopped(&case, &drawn, point)?
        {
            return Ok(stopped);
        }
        Ok(case)
    }

    /// Lengths of what is left of a sling or loop.
    fn after_failure(&self, drawn: &[f64], both: f64, chord: f64) -> Result<Vec<f64>, BadInput> {
        Ok(match (self.legs.rig, self.legs.knots) {
            (Rig::Triangle, _) => vec![(both + chord) / 2.0; drawn.len()],
            (_, Knots::None) => vec![both; drawn.len()],
            (_, Knots::Limiter) => drawn.iter().map(|leg| leg + self.legs.knot.value).collect(),
        })
    }

    fn settle(
        &mut self,
        anchors: &[Vector],
        hung: Vector,
        load: Vector,
        lengths: &[f64],
        stiffness: f64,
        chord: f64,
    ) -> Result<(), BadInput> {
        for (id, at) in self.anchors.iter().zip(anchors) {
            self.rig.set_at(*id, *at)?;
        }
        if !self.started {
            self.rig.set_at(self.point, hung)?;
            self.started = true;
        }
        self.rig.set_load(self.point, load)?;
        let both: f64 = lengths.iter().sum();
        for (number, line) in &self.lines {
            let length = match self.tied {
                Rig::Fixed => lengths.get(*number).copied().unwrap_or(both),
                Rig::SelfEqualising => both,
                Rig::Triangle => both + chord,
            };
            self.rig.set_length(*line, length)?;
            // A side of a closed loop is one strand: half of a loop sling, which has two between two points. What is
            // left of the closed loop after a failure has two again.
            let strands = match (self.legs.rig, self.tied, self.legs.material.is_loop()) {
                (Rig::Triangle, Rig::Triangle, true) => 0.5,
                (Rig::Triangle, Rig::Fixed, false) => 2.0,
                _ => 1.0,
            };
            self.rig.set_stiffness(*line, strands * stiffness)?;
        }
        Ok(())
    }

    fn read(&mut self, anchors: Vec<Vector>, load: Vector, lengths: &[f64]) -> Result<Case, BadInput> {
        let rest = at_rest_again(&mut self.solver, &self.rig)?;
        self.rig.start_from(&rest);
        let point = rest.point(self.point).map_or(Vector::zeros(), |point| point.at);
        let reaction = |id: &PointId| rest.point(*id).and_then(|point| point.reaction).unwrap_or_default();
        let on: Vec<Vector> = self.anchors.iter().map(reaction).collect();
        let mut tensions = vec![0.0; anchors.len()];
        for (number, line) in &self.lines {
            let tension = rest.line(*line).map_or(0.0, statics::LineAtRest::tension);
            for (leg, held) in tensions.iter_mut().enumerate() {
                if self.tied != Rig::Fixed || leg == *number {
                    *held = tension;
                }
            }
        }
        let mut case = Case { anchors, point, load, tensions, on, included: 0.0 };
        case.included = case.widest(self.there, lengths);
        Ok(case)
    }

    /// Puts the ring where friction can hold it back, on the length that the sling or loop has when stretched.
    fn hold_back(&self, case: &mut Case, friction: f64) -> Result<(), BadInput> {
        let ([left, right, ..], [on_left, on_right, ..], [first, second, ..]) =
            (case.anchors.as_slice(), case.on.as_mut_slice(), case.tensions.as_mut_slice())
        else {
            return Ok(());
        };
        let apart = (right - left).norm();
        let (chord, direction) = ((right - left) / apart, case.load.normalize());
        let square = direction - chord * chord.dot(&direction);
        let across = square.norm();
        let both = (case.point - left).norm() + (case.point - right).norm();
        let held = sling::ring_held_back(
            Length::new::<metre>(apart),
            Length::new::<metre>(both),
            Angle::new::<radian>(across.atan2(chord.dot(&direction))),
            Force::new::<newton>(case.load.norm()),
            Ratio::new::<ratio>(friction),
        )?;
        if across <= 1e-9 {
            return Ok(());
        }
        let middle = (left + right) / 2.0;
        case.point = middle + chord * held.ring.along.value + square * (held.ring.across.value / across);
        (*first, *second) = (held.first.value, held.second.value);
        // The strand of a loop between the anchors may carry as much as the harder pulled of the other two.
        let between = if self.tied == Rig::Triangle { chord * first.max(*second) } else { Vector::zeros() };
        *on_left = (case.point - left).normalize() * *first + between;
        *on_right = (case.point - right).normalize() * *second - between;
        case.included = held.ring.included_angle.value;
        Ok(())
    }

    /// The case in which a limiter knot has stopped the ring, if one has.
    fn stopped(&self, case: &Case, drawn: &[f64], point: &Point) -> Result<Option<Case>, BadInput> {
        let (Knots::Limiter, [left, right, ..], &[to_left, to_right, ..]) =
            (self.legs.knots, case.anchors.as_slice(), drawn)
        else {
            return Ok(None);
        };
        let knot = self.legs.knot.value;
        if knot >= to_left.min(to_right) {
            let must = "less than the length of either leg";
            return Err(OutOfDomain { what: "distance of a knot from the ring", value: knot, must }.into());
        }
        let (one, other) = ((case.point - left).norm(), (case.point - right).norm());
        let slid = one * (to_left + to_right) / (one + other) - to_left;
        if slid.abs() <= knot {
            return Ok(None);
        }
        let slid = knot.copysign(slid);
        let mut legs = Rigged::tied(self.legs, There::All, Rig::Fixed)?;
        let chord = (right - left).norm();
        let lengths = [to_left + slid, to_right - slid];
        let [_, _, _, stiffness, ..] = *point;
        legs.settle(&case.anchors, case.point, case.load, &lengths, stiffness, chord)?;
        legs.read(case.anchors.clone(), case.load, &lengths).map(Some)
    }
}

impl Case {
    /// A slack leg counts as if it were straight: so the angle does not jump as a leg goes slack.
    fn widest(&self, there: There, lengths: &[f64]) -> f64 {
        let legs: Vec<(Vector, f64, bool)> = self
            .anchors
            .iter()
            .zip(lengths)
            .zip(&self.tensions)
            .enumerate()
            .filter(|(number, _)| there.leg(*number))
            .map(|(_, ((anchor, length), tension))| (anchor - self.point, *length, *tension > 0.0))
            .collect();
        let between = |(one, ..): &(Vector, f64, bool), (other, length, pulls): &(Vector, f64, bool)| {
            if *pulls {
                return one.cross(other).norm().atan2(one.dot(other));
            }
            let (taut, apart) = (one.norm(), (one - other).norm());
            ((taut * taut + length * length - apart * apart) / (2.0 * taut * length)).clamp(-1.0, 1.0).acos()
        };
        let pairs = legs.iter().enumerate().flat_map(|(number, one)| {
            legs.iter().skip(number + 1).map(move |other| {
                // The taut one first.
                if one.2 { between(one, other) } else { between(other, one) }
            })
        });
        pairs.fold(0.0, f64::max)
    }

    /// The anchor that is loaded most, and by how much (N).
    pub(super) fn most(&self) -> (usize, f64) {
        let mut most = (0, 0.0);
        for (number, on) in self.on.iter().enumerate() {
            if on.norm() > most.1 {
                most = (number, on.norm());
            }
        }
        most
    }

    /// Angles of a leg and of another from the load line, above 0 on either side of it.
    pub(super) fn off_load(&self, one: usize, other: usize) -> (f64, f64) {
        let up = -self.load.normalize();
        let leg = |number: usize| self.anchors.get(number).map_or(up, |anchor| anchor - self.point);
        let (one, other) = (leg(one), leg(other));
        let from_up = |leg: &Vector| leg.cross(&up).norm().atan2(leg.dot(&up));
        (from_up(&one), from_up(&other))
    }
}

impl AnchorLegs {
    /// How many anchors there are.
    pub(super) fn count(&self) -> usize {
        (self.anchors as usize).clamp(2, MOST)
    }

    /// Where the anchors and the drawn master point are, from the middle between the left and the right anchor.
    pub(super) fn places(&self, apart: f64, down: f64) -> Result<(Vec<Vector>, Vector), OutOfDomain> {
        let (higher, depth) = (self.right_higher.value, self.right_depth.value);
        let off = higher.hypot(depth);
        let across = ((apart - off) * (apart + off)).sqrt();
        if across.is_nan() || across <= 0.0 {
            let must = "less, with its depth, than the anchors are apart";
            return Err(OutOfDomain { what: "height of one anchor above the other", value: off, must });
        }
        let left = Vector::new(-across / 2.0, 0.0, -higher / 2.0);
        let mut anchors = vec![left, Vector::new(across / 2.0, -depth, higher / 2.0)];
        for Spot { right, above, depth } in [self.third, self.fourth, self.fifth, self.sixth] {
            anchors.push(left + Vector::new(right.value, -depth.value, above.value));
        }
        anchors.truncate(self.count());
        Ok((anchors, Vector::new(self.out.value, -self.point_depth.value, -down)))
    }
}
