//! What the legs are: how they are tied, of what, and where further anchors are.

use super::super::field::choices;
use super::super::figure_of::Through;
use crate::band::Band;
use crate::quantity::Length;
use crate::strength::rope::{CORDS, SEWN_SLING};
use crate::strength::{Strength, row};

/// How the legs are tied.
/// ```
/// use rigging_core::question::{AnchorLegs, Ask, BadInput, People, Rig, State};
///
/// // A closed loop through both anchors pulls them together too: one of them gets more than all that hangs.
/// let hangs = People::default().spread(State::Slip)?.band.high();
/// let on_worst = |rig| {
///     let answer = AnchorLegs { rig, state: State::Slip, ..AnchorLegs::default() }.answer()?;
///     Ok::<_, BadInput>(answer.findings[0].adverse())
/// };
/// assert!(on_worst(Rig::Fixed)? < hangs && on_worst(Rig::Triangle)? > hangs);
/// // One sling that slides is no rig for three anchors.
/// assert!(AnchorLegs { rig: Rig::SelfEqualising, anchors: 3, ..AnchorLegs::default() }.answer().is_err());
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
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
/// ```
/// use rigging_core::question::{AnchorLegs, Ask, BadInput, LegMaterial};
///
/// // Each of three legs may be tied 15 mm long or short. Stiff tape then may leave one of them nothing to carry; thin
/// // cord gives enough for all to take a part.
/// let least = |material| {
///     let findings = AnchorLegs { material, anchors: 3, ..AnchorLegs::default() }.answer()?.findings;
///     let shared = findings.iter().filter(|finding| finding.what.contains("all legs sharing"));
///     Ok::<_, BadInput>(shared.map(|finding| finding.friendly()).fold(f64::INFINITY, f64::min))
/// };
/// assert_eq!(least(LegMaterial::HmpeLoop)?, 0.0);
/// assert!(least(LegMaterial::SixMillimetreCord)? > 100.0);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
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

    /// What it is for the figure chosen, and its own figure, new and without a knot.
    pub(super) fn figure(self) -> (Through, Strength) {
        match self {
            LegMaterial::HmpeLoop | LegMaterial::NylonLoop => (Through::Sling, SEWN_SLING),
            LegMaterial::SixMillimetreCord => (Through::Tied, const { row(CORDS, "cord 6 mm") }),
            LegMaterial::SevenMillimetreCord => (Through::Tied, const { row(CORDS, "cord 7 mm") }),
        }
    }

    pub(super) fn is_loop(self) -> bool {
        matches!(self, LegMaterial::HmpeLoop | LegMaterial::NylonLoop)
    }
}

/// Whether a self-equalising sling has limiter knots.
/// ```
/// use rigging_core::question::{AnchorLegs, Ask, BadInput, Knots, Rig};
///
/// // If an anchor fails, knots 0.1 m from the ring stop the sling before it has run through.
/// let drop = |knots| {
///     let outcomes = AnchorLegs { rig: Rig::SelfEqualising, knots, ..AnchorLegs::default() }.answer()?.outcomes;
///     let found = outcomes.iter().flat_map(|outcome| &outcome.findings);
///     let drops = found.filter(|finding| finding.what == "drop of the master point").map(|finding| finding.adverse());
///     Ok::<_, BadInput>(drops.fold(0.0, f64::max))
/// };
/// assert!(drop(Knots::Limiter)? < 0.5 * drop(Knots::None)?);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
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
/// ```
/// use rigging_core::quantity::{Length, metre};
/// use rigging_core::question::{AnchorLegs, Ask, Spot};
///
/// // A third anchor between the two and a little higher, all in the plane of the rock.
/// let metres = Length::new::<metre>;
/// let third = Spot { right: metres(0.4), above: metres(0.15), depth: metres(0.0) };
/// let flat = AnchorLegs { anchors: 3, third, ..AnchorLegs::default() }.answer()?;
/// assert!(flat.outcomes.iter().any(|outcome| outcome.case == "If anchor 3 fails") && flat.aside.is_none());
/// // One that stands out from the rock is also drawn from the side.
/// let third = Spot { depth: metres(0.3), ..third };
/// assert!(AnchorLegs { anchors: 3, third, ..AnchorLegs::default() }.answer()?.aside.is_some());
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// To the right.
    pub right: Length,
    /// Above.
    pub above: Length,
    /// Out from the rock.
    pub depth: Length,
}
