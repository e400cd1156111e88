//! What a rope runs over between the anchor and the load.

use super::field::choices;
use crate::band::Band;
use crate::working::Source;

/// What the edge is made of.
/// ```
/// use rigging_core::quantity::{Length, metre};
/// use rigging_core::question::{Ask, Edge, HumanAnchor};
/// use std::f64::consts::FRAC_PI_2;
///
/// // A level rope that turns plumb over wet rough rock: its friction, at least 0.21, helps those who hold.
/// let (above_lip, counted) = (Length::new::<metre>(0.0), "friction of the edge counted");
/// let line = HumanAnchor { edge: Edge::RoughRock, above_lip, ..HumanAnchor::default() };
/// let found = line.answer()?.findings;
/// let helped = found.iter().find(|finding| finding.what.ends_with(counted)).ok_or("not found")?;
/// assert!((helped.adverse() / found[0].adverse() - (0.21 * FRAC_PI_2).exp()).abs() < 1e-9);
/// // Without an edge nothing of it is told.
/// let free = HumanAnchor { edge: Edge::Free, ..line }.answer()?.findings;
/// assert!(free.iter().all(|finding| !finding.what.ends_with(counted)));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Edge {
    /// The rope hangs free from the anchor.
    Free,
    /// Rock polished by water.
    #[default]
    PolishedRock,
    /// Rough rock.
    RoughRock,
    /// An edge roller or a smooth metal protector.
    Roller,
    /// Timber or bark.
    Timber,
}
choices!(Edge {
    Free = "free", "no edge: the rope hangs free";
    PolishedRock = "polished rock", "rock polished by water";
    RoughRock = "rough rock", "rough rock";
    Roller = "roller", "edge roller or smooth metal protector";
    Timber = "timber", "timber or bark";
});

impl Edge {
    /// Coefficient of friction of a rope on it, and how it is known.
    ///
    /// Values for dry surfaces are widened when wet; polished rock is already told wet.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::question::Edge;
    ///
    /// // Water takes 30 % off the low end of rough rock and adds 30 % to the high one: 0.30 to 0.75 become 0.21 to
    /// // 0.975.
    /// let (dry, wet) = (Edge::RoughRock.friction(false).0, Edge::RoughRock.friction(true).0);
    /// assert!((wet.low() - 0.21).abs() < 1e-12 && (wet.high() - 0.975).abs() < 1e-12);
    /// assert_eq!(wet.typical(), dry.typical());
    /// // Where there is no edge there is no friction.
    /// assert_eq!(Edge::Free.friction(true).0, Band::exact(0.0));
    /// ```
    pub fn friction(self, wet: bool) -> (Band, Source) {
        let source =
            Source::assumed("range around published edge tests: Delaney, Physics for Roping Technicians, 2020");
        let dry = match self {
            Edge::Free => return (Band::exact(0.0), Source::derived("no edge")),
            Edge::PolishedRock => return (Band::of(0.15, 0.25, 0.40), source),
            Edge::RoughRock => Band::of(0.30, 0.45, 0.75),
            Edge::Roller => Band::of(0.05, 0.10, 0.20),
            Edge::Timber => Band::of(0.20, 0.36, 0.50),
        };
        (wetted(dry, wet), source)
    }
}

/// Friction told for a dry surface, widened if it is wet: sources disagree whether water helps or hurts.
pub fn wetted(dry: Band, wet: bool) -> Band {
    if wet { Band::of(0.7 * dry.low(), dry.typical(), 1.3 * dry.high()) } else { dry }
}
