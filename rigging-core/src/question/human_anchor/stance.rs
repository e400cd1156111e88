//! How a person holds, and on what.

use super::super::field::choices;
use super::super::scene::Pose;
use crate::band::Band;
use crate::working::Source;

/// How each person holds.
/// ```
/// use rigging_core::question::{Ask, BadInput, HumanAnchor, Stance};
///
/// // 350 lbf were held braced in the stance trials, for several seconds only; without a foothold nobody was tried.
/// let for_seconds = |stance| {
///     let outcomes = HumanAnchor { stance, ..HumanAnchor::default() }.answer()?.outcomes;
///     let told = outcomes.iter().find(|outcome| outcome.case.starts_with("For several seconds only"));
///     Ok::<_, BadInput>(told.map(|outcome| outcome.findings[0].adverse()))
/// };
/// let braced = for_seconds(Stance::SeatedBraced)?.ok_or("not told")?;
/// assert!((braced - 350.0 * 4.448_221_615).abs() < 1e-3);
/// assert_eq!(for_seconds(Stance::Seated)?, None);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Stance {
    /// Seated, both feet against a real edge, the rope between them.
    SeatedBraced,
    /// Seated, nothing for the feet to push against.
    #[default]
    Seated,
    /// Standing, one foot well forward.
    FootForward,
    /// Standing, feet together.
    FeetTogether,
}
choices!(Stance {
    SeatedBraced = "seated braced", "seated, feet against a real edge";
    Seated = "seated", "seated, nothing to push against";
    FootForward = "foot forward", "standing, one foot well forward";
    FeetTogether = "feet together", "standing, feet together";
});

const TRIALS: Source = Source::published(
    "stance trials told in a mountaineering handbook: 350 lbf braced, 200 standing, for several seconds",
);

/// What a stance is in numbers: where the weight is, and where the rope leaves the body, m.
pub(super) struct Geometry {
    pub(super) weight_behind_feet: f64,
    pub(super) rope_above_feet: f64,
    pub(super) rope_behind_feet: f64,
    /// From the middle of the body to the edge of what bears it, to one side.
    pub(super) to_side: f64,
}

impl Stance {
    pub(super) fn geometry(self) -> Geometry {
        let (weight_behind_feet, rope_above_feet, rope_behind_feet, to_side) = match self {
            Stance::SeatedBraced | Stance::Seated => (0.65, 0.20, 0.65, 0.20),
            Stance::FootForward => (0.35, 1.0, 0.35, 0.15),
            Stance::FeetTogether => (0.12, 1.0, 0.12, 0.12),
        };
        Geometry { weight_behind_feet, rope_above_feet, rope_behind_feet, to_side }
    }

    /// Rope force an average person held for several seconds in the stance trials, lbf; half of it where not tried, or
    /// where "less than half" was told.
    pub(super) fn trial(self) -> f64 {
        match self {
            Stance::SeatedBraced => 350.0,
            Stance::Seated => 350.0 / 2.0,
            Stance::FootForward => 200.0,
            Stance::FeetTogether => 200.0 / 2.0,
        }
    }

    /// Whether people held so in the trials; half of it is assumed for the others.
    pub(super) fn was_tried(self) -> bool {
        matches!(self, Stance::SeatedBraced | Stance::FootForward)
    }

    /// How that force is known.
    pub(super) fn trial_source(self) -> Source {
        if self.was_tried() { TRIALS } else { Source::assumed("half of what the stance trials held with a foothold") }
    }

    pub(super) fn is_seated(self) -> bool {
        self.pose() == Pose::Seated
    }

    pub(super) fn pose(self) -> Pose {
        match self {
            Stance::SeatedBraced | Stance::Seated => Pose::Seated,
            Stance::FootForward | Stance::FeetTogether => Pose::Standing,
        }
    }
}

/// What they sit or stand on.
/// ```
/// use rigging_core::question::{Ask, BadInput, HumanAnchor, Seat, Stance};
///
/// // A wet suit is sat on, soles are stood on: anything else is refused.
/// let on_soles = HumanAnchor { seat: Seat::SolesWetRock, ..HumanAnchor::default() };
/// let sits = HumanAnchor { stance: Stance::Seated, ..on_soles.clone() };
/// assert!(matches!(sits.answer(), Err(BadInput::Refused { .. })));
/// assert!(HumanAnchor { stance: Stance::FootForward, ..on_soles }.answer().is_ok());
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Seat {
    /// Wet neoprene on clean wet rock.
    #[default]
    CleanWetRock,
    /// Wet neoprene on green, silty or polished rock.
    SlipperyRock,
    /// Rubber soles on clean wet rock.
    SolesWetRock,
    /// Rubber soles on dry rock.
    SolesDryRock,
    /// On gravel.
    Gravel,
    /// On mud.
    Mud,
    /// Rubber soles on green, silty or polished rock.
    SolesSlipperyRock,
}
choices!(Seat {
    CleanWetRock = "clean wet rock", "wet suit on clean wet rock";
    SlipperyRock = "slippery rock", "wet suit on green, silty or polished rock";
    SolesWetRock = "soles on wet rock", "rubber soles on clean wet rock";
    SolesDryRock = "soles on dry rock", "rubber soles on dry rock";
    Gravel = "gravel", "gravel";
    Mud = "mud", "mud";
    SolesSlipperyRock = "soles on slippery rock", "rubber soles on green or polished rock";
});

impl Seat {
    /// Whether someone in this stance can be on it: a wet suit is sat on, soles are stood on.
    pub(super) fn fits(self, stance: Stance) -> bool {
        self.under(stance) == self
    }

    /// The same ground under someone in this stance. Nothing is known of a wet suit on dry rock: it counts as wet.
    pub(super) fn under(self, stance: Stance) -> Seat {
        match (self, stance.is_seated()) {
            (Seat::SolesWetRock | Seat::SolesDryRock, true) => Seat::CleanWetRock,
            (Seat::SolesSlipperyRock, true) => Seat::SlipperyRock,
            (Seat::CleanWetRock, false) => Seat::SolesWetRock,
            (Seat::SlipperyRock, false) => Seat::SolesSlipperyRock,
            _ => self,
        }
    }

    /// The same ground, clean.
    pub(super) fn cleaned(self) -> Seat {
        match self {
            Seat::SlipperyRock | Seat::Mud => Seat::CleanWetRock,
            Seat::SolesSlipperyRock => Seat::SolesWetRock,
            _ => self,
        }
    }

    /// Coefficient of friction, and how it is known.
    /// ```
    /// use rigging_core::question::Seat;
    ///
    /// // The example of a person of 80 kg who is dragged at 0.35 of the weight sits on clean wet rock.
    /// assert_eq!(Seat::CleanWetRock.friction().0.typical(), 0.35);
    /// // What is slippery holds less, sat on or stood on.
    /// assert!(Seat::SlipperyRock.friction().0.low() < Seat::CleanWetRock.friction().0.low());
    /// assert!(Seat::SolesSlipperyRock.friction().0.low() < Seat::SolesWetRock.friction().0.low());
    /// ```
    pub fn friction(self) -> (Band, Source) {
        const RECALLED: Source = Source::memory("soles and loose ground");
        const ASSUMED: Source = Source::assumed("no test of a wet suit on rock is known");
        match self {
            Seat::CleanWetRock => (Band::of(0.20, 0.35, 0.50), ASSUMED),
            Seat::SlipperyRock => (Band::of(0.10, 0.25, 0.45), ASSUMED),
            Seat::SolesWetRock => (Band::of(0.4, 0.55, 0.7), RECALLED),
            Seat::SolesDryRock => (Band::of(0.7, 0.85, 1.0), RECALLED),
            Seat::Gravel => (Band::of(0.4, 0.5, 0.6), RECALLED),
            Seat::Mud => (Band::of(0.15, 0.25, 0.35), RECALLED),
            Seat::SolesSlipperyRock => (Band::of(0.10, 0.20, 0.30), RECALLED),
        }
    }

    /// The friction taken off the hold of the trials: one for all of them, typical of clean wet rock, and no less than is
    /// typical of this ground, so that a slipperier one leaves no more to the feet.
    pub(super) fn trial_friction(self) -> f64 {
        let typical = |seat: Seat| seat.friction().0.typical();
        typical(Seat::CleanWetRock).max(typical(self))
    }

    /// Its friction at a place in the range: −1 for the least, 0 typical, 1 for the most.
    pub(super) fn friction_at(self, place: f64) -> f64 {
        let (band, _) = self.friction();
        let end = if place < 0.0 { band.low() } else { band.high() };
        band.typical() + place.abs() * (end - band.typical())
    }
}
