//! What a rope bends over, and how far.

use super::super::edge::{Edge, wetted};
use super::super::field::choices;
use crate::band::Band;
use crate::law::pulley;
use crate::quantity::{Angle, Ratio, ratio};
use crate::working::Source;

/// What the rope bends over.
/// ```
/// use rigging_core::law::bend;
/// use rigging_core::quantity::{Angle, Force, Ratio, degree, newton, ratio};
/// use rigging_core::question::Over;
///
/// // To raise 100 N over a right angle, at the most friction: over polished rock 100 e^(0.40 · π/2) = 187.4 N, over a
/// // pulley that passes on 0.86 in a half turn 100 / √0.86 = 107.8 N.
/// for (over, pull) in [(Over::PolishedRock, 187.4), (Over::BallBearing, 107.8)] {
///     let friction = Ratio::new::<ratio>(over.friction(true).0.high());
///     let raised = bend::tight_side(Force::new::<newton>(100.0), friction, Angle::new::<degree>(90.0))?;
///     assert!((raised.value - pull).abs() < 0.1);
/// }
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Over {
    /// A steel ring or quick link.
    #[default]
    Ring,
    /// A connector.
    Connector,
    /// A pulley with a ball bearing.
    BallBearing,
    /// A pulley with a plain bush.
    PlainBush,
    /// Rock polished by water.
    PolishedRock,
    /// Rough rock.
    RoughRock,
    /// An edge roller or a smooth metal protector.
    Roller,
    /// Timber or bark.
    Timber,
}
choices!(Over {
    Ring = "ring", "steel ring or quick link";
    Connector = "connector", "connector";
    BallBearing = "ball bearing", "pulley with ball bearing";
    PlainBush = "plain bush", "pulley with plain bush";
    PolishedRock = "polished rock", "edge of rock polished by water";
    RoughRock = "rough rock", "edge of rough rock";
    Roller = "roller", "edge roller or smooth metal protector";
    Timber = "timber", "timber or bark";
});

impl Over {
    /// True if it hangs on an anchor; an edge is held by what it is part of.
    /// ```
    /// use rigging_core::question::Over;
    ///
    /// assert!(Over::Ring.has_anchor() && !Over::PolishedRock.has_anchor());
    /// ```
    pub fn has_anchor(self) -> bool {
        matches!(self, Over::Ring | Over::Connector | Over::BallBearing | Over::PlainBush)
    }

    /// Efficiency over a half turn, if it is a pulley.
    /// ```
    /// use rigging_core::question::Over;
    ///
    /// // Teaching texts: 0.86 to 0.95 with a ball bearing; a ring is no pulley.
    /// let bearing = Over::BallBearing.efficiency().map(|share| (share.low(), share.high()));
    /// assert_eq!((bearing, Over::Ring.efficiency()), (Some((0.86, 0.95)), None));
    /// ```
    pub fn efficiency(self) -> Option<Band> {
        match self {
            Over::BallBearing => Some(Band::of(0.86, 0.90, 0.95)),
            Over::PlainBush => Some(Band::of(0.70, 0.75, 0.80)),
            _ => None,
        }
    }

    /// Coefficient of friction of a rope on it, and how it is known.
    ///
    /// A pulley has the friction of a bend that takes as much from the rope, wet or dry.
    /// ```
    /// use rigging_core::question::Over;
    /// use std::f64::consts::PI;
    ///
    /// // A pulley that passes on 0.86 to 0.95 over a half turn: e^(−μπ) is its efficiency. The better it is, the
    /// // less μ.
    /// let (friction, _) = Over::BallBearing.friction(false);
    /// assert!(((-friction.high() * PI).exp() - 0.86).abs() < 1e-12);
    /// assert!(((-friction.low() * PI).exp() - 0.95).abs() < 1e-12);
    /// ```
    pub fn friction(self, wet: bool) -> (Band, Source) {
        if let Some(efficiency) = self.efficiency() {
            // No law goes on with what is not a number.
            let friction =
                |efficiency| pulley::friction(Ratio::new::<ratio>(efficiency)).map_or(f64::NAN, |mu| mu.value);
            let source = "efficiency over 180° in teaching texts; Delaney, Physics for Roping Technicians, 2020";
            return (efficiency.map(friction), Source::published(source));
        }
        let (dry, source) = match self {
            Over::PolishedRock => return Edge::PolishedRock.friction(wet),
            Over::RoughRock => return Edge::RoughRock.friction(wet),
            Over::Roller => return Edge::Roller.friction(wet),
            Over::Timber => return Edge::Timber.friction(wet),
            Over::Connector => (Band::of(0.13, 0.18, 0.29), "0.66 to 0.40 efficiency over 180°"),
            _ => (
                Band::of(0.19, 0.24, 0.30),
                "range around published tests on steel: Delaney, Physics for Roping Technicians, 2020",
            ),
        };
        (wetted(dry, wet), Source::assumed(source))
    }
}

/// One bend of the rope.
/// ```
/// use rigging_core::question::{Ask, Bend, Over, Turn};
///
/// // A rope that runs straight on pulls at nothing.
/// let straight = Turn { over: Over::Ring, ..Turn::default() };
/// let answer = Bend { first: straight, ..Bend::default() }.answer()?;
/// assert!(answer.findings[0].what.starts_with("on the") && answer.findings[0].adverse() < 1e-9);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Turn {
    /// What the rope bends over.
    pub over: Over,
    /// How far it turns, on the way from the load to the hand: to the right above 0.
    pub angle: Angle,
}

#[cfg(test)]
mod tests {
    use super::super::super::field::{Enters, Entry};
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn everything_has_a_friction_of_its_own_and_water_widens_only_what_was_told_dry() {
        let mut seen = Vec::new();
        for choice in Over::CHOICES {
            let over = Over::from_entry(&Entry::Choice(choice.name)).unwrap();
            let ((dry, _), (wet, _)) = (over.friction(false), over.friction(true));
            assert!(dry.low() > 0.0 && dry.high() < 1.0 && !seen.contains(&dry), "{}", choice.name);
            seen.push(dry);
            let fixed = over.efficiency().is_some() || over == Over::PolishedRock;
            assert_eq!(wet == dry, fixed, "{}", choice.name);
            if !fixed {
                assert_relative_eq!(wet.high(), 1.3 * dry.high(), max_relative = 1e-15);
                assert_relative_eq!(wet.low(), 0.7 * dry.low(), max_relative = 1e-15);
            }
        }
    }
}
