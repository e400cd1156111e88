//! What the legs are: how they are tied, of what, and where further anchors are.

use super::super::field::choices;
use crate::band::Band;
use crate::quantity::Length;

/// How the legs are tied.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Rig {
    /// Legs of fixed length.
    #[default]
    Fixed,
    /// One sling that slides through the ring.
    SelfEqualising,
    /// One closed loop through both anchors and the ring.
    Triangle,
}
choices!(Rig {
    Fixed = "fixed", "separate legs of fixed length";
    SelfEqualising = "self-equalising", "one sling that slides through the ring, two anchors";
    Triangle = "triangle", "one closed loop through both anchors (triangle rig)";
});

/// What the legs are made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LegMaterial {
    /// A sewn loop of HMPE tape.
    #[default]
    HmpeLoop,
    /// A sewn loop of nylon tape.
    NylonLoop,
    /// Cord of 6 mm, one strand.
    SixMillimetreCord,
    /// Cord of 7 mm, one strand.
    SevenMillimetreCord,
}
choices!(LegMaterial {
    HmpeLoop = "hmpe loop", "HMPE sling, two strands a leg";
    NylonLoop = "nylon loop", "nylon sling, two strands a leg";
    SixMillimetreCord = "6 mm cord", "cord of 6 mm, a single strand";
    SevenMillimetreCord = "7 mm cord", "cord of 7 mm, a single strand";
});

impl LegMaterial {
    /// Stiffness EA of a leg, N.
    pub(super) fn stiffness(self) -> Band {
        match self {
            LegMaterial::HmpeLoop => Band::of(130e3, 160e3, 250e3),
            LegMaterial::NylonLoop => Band::of(40e3, 70e3, 110e3),
            LegMaterial::SixMillimetreCord => Band::of(10e3, 15e3, 20e3),
            LegMaterial::SevenMillimetreCord => Band::of(14e3, 20e3, 28e3),
        }
    }

    pub(super) fn is_loop(self) -> bool {
        matches!(self, LegMaterial::HmpeLoop | LegMaterial::NylonLoop)
    }
}

/// Whether a self-equalising sling has limiter knots.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Knots {
    /// None: the sling can run through.
    #[default]
    None,
    /// One on each side of the ring.
    Limiter,
}
choices!(Knots {
    None = "none", "no limiter knots";
    Limiter = "limiter", "a limiter knot on each side of the ring";
});

/// Where a further anchor is, from the left one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// To the right.
    pub right: Length,
    /// Above.
    pub above: Length,
    /// Out from the rock.
    pub depth: Length,
}
