//! The way of the rope piece by piece, and the sweep over all cases of it.

use super::super::Over;
use super::super::pullers::HARD;
use super::{Met, PullDown, PulledBy};
use crate::band::{Band, Spread, sweep_corners};
use crate::law::pull_down::{Piece, beyond, pull};
use crate::law::{OutOfDomain, bend, gravity, rope};
use crate::quantity::{Angle, Force, Length, Ratio, metre, newton, radian, ratio};
use std::f64::consts::{FRAC_PI_2, PI};

/// What is uncertain: friction at the ring, at edge 1, at edge 2 and on the slab; how much water makes the rope heavier.
pub(super) type Inputs = [f64; 5];

/// A piece of the way of the rope, and what is told and drawn of it.
pub(super) struct Part {
    pub(super) name: &'static str,
    pub(super) piece: Piece,
    /// Length of rope on it, m; 0 for a bend.
    pub(super) length: f64,
    /// What it bends over or lies on.
    pub(super) over: Option<Over>,
}

/// Both strands from the ring down, and the ring between them.
pub(super) struct Way {
    pub(super) rising: Vec<Part>,
    pub(super) ring: Part,
    pub(super) pulled: Vec<Part>,
}

impl Way {
    /// In the order in which the rope runs: from its free end to the hand.
    pub(super) fn parts(&self) -> impl Iterator<Item = &Part> {
        self.rising.iter().rev().chain([&self.ring]).chain(&self.pulled)
    }

    fn pieces(&self) -> Vec<Piece> {
        self.parts().map(|part| part.piece).collect()
    }

    /// Tension of the rope before and after the ring, N.
    pub(super) fn at_ring(&self) -> Result<[f64; 2], OutOfDomain> {
        let rising: Vec<Piece> = self.rising.iter().rev().map(|part| part.piece).collect();
        let before = pull(&rising)?;
        Ok([before.value, beyond(before, &self.ring.piece)?.value])
    }

    /// Weight that the strand which is pulled puts on the ring by itself, friction not counted, N.
    fn pulled_weight(&self) -> f64 {
        self.pulled.iter().fold(0.0, |sum, part| match part.piece {
            Piece::Straight { weight, rises, .. } => sum - weight.value * rises.value.sin(),
            Piece::Bend { .. } => sum,
        })
    }
}

/// Which of the two strands.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Rising,
    Pulled,
}

impl Met {
    /// True if the strand on this side meets it.
    pub(super) fn by(self, side: Side) -> bool {
        match self {
            Met::Neither => false,
            Met::Pulled => side == Side::Pulled,
            Met::Rising => side == Side::Rising,
            Met::Both => true,
        }
    }
}

impl PullDown {
    /// Rope on the slab, m.
    fn lies(&self, side: Side) -> f64 {
        if self.slab.met.by(side) { self.slab.length.value } else { 0.0 }
    }

    /// Length of a strand from the ring to its end or to the hand, m.
    pub(super) fn long(&self, side: Side) -> f64 {
        let hangs = if side == Side::Pulled { self.height } else { self.rising };
        self.lies(side) + hangs.value
    }

    /// Weight of a metre of rope, or of the cord that pulls it, N.
    pub(super) fn of_a_metre(&self, cord: bool, soaked: f64) -> Result<f64, OutOfDomain> {
        let diameter = if cord { self.cord } else { self.diameter };
        Ok(gravity::weight(rope::mass(diameter, Length::new::<metre>(1.0))?).value * soaked)
    }

    /// A strand from the ring down to `end`; on it rope gives way to cord at `seam`.
    fn strand(&self, side: Side, end: f64, seam: f64, point: &Inputs) -> Result<Vec<Part>, OutOfDomain> {
        let &[_, one, two, slab, soaked] = point;
        let (rope, cord) = (self.of_a_metre(false, soaked)?, self.of_a_metre(true, soaked)?);
        let (lies, falls) = (self.lies(side), self.slab.falls.value);
        let bend = |over, friction, turn| Part {
            name: "",
            piece: Piece::Bend { friction: Ratio::new::<ratio>(friction), turning_angle: Angle::new::<radian>(turn) },
            length: 0.0,
            over: Some(over),
        };
        let mut parts = Vec::new();
        let mut at = 0.0;
        loop {
            if lies > 0.0 && at == lies && at < end {
                parts.push(Part { name: "the lip of the slab", ..bend(self.slab.over, slab, FRAC_PI_2 - falls) });
            }
            for (edge, friction, name) in [(&self.first, one, "edge 1"), (&self.second, two, "edge 2")] {
                if edge.met.by(side) && edge.down.value == at && at < end {
                    parts.push(Part { name, ..bend(edge.over, friction, edge.turn.value) });
                }
            }
            let mut next = end;
            for stop in [lies, self.first.down.value, self.second.down.value, seam] {
                if stop > at && stop < next {
                    next = stop;
                }
            }
            if next <= at {
                return Ok(parts);
            }
            let (lying, length) = (at < lies, next - at);
            let falls = if lying { falls } else { FRAC_PI_2 };
            parts.push(Part {
                name: match (side, lying) {
                    (Side::Rising, false) => "the rope that hangs and rises",
                    (Side::Rising, true) => "the rope that is drawn up the slab",
                    (Side::Pulled, false) => "the rope that hangs and comes down",
                    (Side::Pulled, true) => "the rope that comes down the slab",
                },
                piece: Piece::Straight {
                    weight: Force::new::<newton>(length * if at < seam { rope } else { cord }),
                    rises: Angle::new::<radian>(if side == Side::Rising { falls } else { -falls }),
                    friction: Ratio::new::<ratio>(slab),
                },
                length,
                over: lying.then_some(self.slab.over),
            });
            at = next;
        }
    }

    /// The way of the rope once so many metres of it are pulled, at one point of the ranges.
    pub(super) fn way(&self, out: f64, point: &Inputs) -> Result<Way, OutOfDomain> {
        let (rises, long) = ((self.long(Side::Rising) - out).max(0.0), self.long(Side::Pulled));
        // The knot or block comes down with the cord; above it there is rope.
        let seam = if self.pulled_by == PulledBy::Cord { out } else { long };
        let &[friction, ..] = point;
        Ok(Way {
            rising: self.strand(Side::Rising, rises, rises, point)?,
            ring: Part {
                name: "the ring",
                piece: Piece::Bend { friction: Ratio::new::<ratio>(friction), turning_angle: Angle::new::<radian>(PI) },
                length: 0.0,
                over: Some(self.ring),
            },
            pulled: self.strand(Side::Pulled, long, seam, point)?,
        })
    }

    pub(super) fn inputs(&self) -> [Band; 5] {
        let wet = self.is_wet();
        let friction = |over: Over, met: Met| if met == Met::Neither { Band::exact(0.0) } else { over.friction(wet).0 };
        [
            self.ring.friction(wet).0,
            friction(self.first.over, self.first.met),
            friction(self.second.over, self.second.met),
            friction(self.slab.over, self.slab.met),
            if wet { Band::of(1.0, 1.2, 1.5) } else { Band::exact(1.0) },
        ]
    }

    /// Pull needed and force on the anchor once a share of the rising strand is pulled.
    ///
    /// More friction and more water never make either of them less: the ends lie at the corners.
    pub(super) fn spread(&self, share: f64) -> Result<[Spread<5>; 2], OutOfDomain> {
        let out = share * self.long(Side::Rising);
        sweep_corners(self.inputs(), |point| {
            let way = self.way(out, point)?;
            let [before, after] = way.at_ring()?;
            Ok([pull(&way.pieces())?.value, before + after])
        })
    }

    /// Pull needed once so many metres are pulled: the same without what moves it most.
    pub(super) fn pull_at(&self, out: f64) -> Result<Band, OutOfDomain> {
        let inputs = self.inputs();
        let at = |end: fn(&Band) -> f64| {
            let point = inputs.map(|input| end(&input));
            pull(&self.way(out, &point)?.pieces()).map(|pull| pull.value)
        };
        Ok(Band::of(at(Band::low)?, at(Band::typical)?, at(Band::high)?))
    }

    /// Force on the anchor if the rope sticks and all who pull, pull hard: from a knot that jams at the ring to a rope
    /// that is held beyond it, at the start or at the end. Edges are not counted.
    pub(super) fn stuck(&self) -> Result<Band, OutOfDomain> {
        let inputs = self.inputs();
        let hard = HARD * f64::from(self.pullers);
        // On a cord the pulled strand grows heavier as the rope follows.
        let on_ring = |end: fn(&Band) -> f64, worse: fn(f64, f64) -> f64| {
            let weight = |out| Ok::<_, OutOfDomain>(self.way(out, &inputs.map(|input| end(&input)))?.pulled_weight());
            Ok::<_, OutOfDomain>(hard + worse(weight(0.0)?, weight(self.long(Side::Rising))?))
        };
        let [ring, ..] = inputs;
        let (tight, friction) = (on_ring(Band::typical, f64::max)?, Ratio::new::<ratio>(ring.typical()));
        let slack = bend::slack_side(Force::new::<newton>(tight), friction, Angle::new::<radian>(PI))?.value;
        Ok(Band::of(on_ring(Band::low, f64::min)?, tight + slack, 2.0 * on_ring(Band::high, f64::max)?))
    }
}
