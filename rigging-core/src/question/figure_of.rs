//! What a chosen figure is one of: an anchor, a rope, a sling, a cord; it says nothing of anything else.

use super::against::{Against, LimitChoice};
use super::answer::{Answer, ChosenLimit, Comparison};
use crate::band::Band;
use crate::quantity::Length;
use crate::strength::hardware::{BOLT_AXIAL, BOLT_RADIAL};
use crate::strength::rope::{CORDS, LOW_STRETCH_ROPES, SEWN_SLING};
use crate::strength::{Strength, row};

/// Of what a rope is tied to.
const ANCHORS: [&str; 3] = [BOLT_RADIAL.name, BOLT_AXIAL.name, "work anchor"];
const ROPES: [Strength; 2] = [row(LOW_STRETCH_ROPES, "rope A tied"), row(LOW_STRETCH_ROPES, "rope B tied")];
const CORD: [Strength; 2] = [row(CORDS, "cord 6 mm"), row(CORDS, "cord 7 mm")];
const SLINGS: [Strength; 1] = [SEWN_SLING];

/// What a force runs through, as far as a figure may be one of something else.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Through {
    /// Low-stretch rope, or rope of which nothing more is known.
    Rope,
    /// Rope too thin to be low-stretch rope.
    ThinRope,
    /// Dynamic rope.
    DynamicRope,
    /// A sewn sling.
    Sling,
    /// Cord or rope tied to a leg or a cow's tail.
    Tied,
}

impl Through {
    /// Rope of a declared diameter.
    pub(super) fn rope(diameter: Length) -> Self {
        if diameter.value < THINNEST { Through::ThinRope } else { Through::Rope }
    }
}

/// Diameter at which low-stretch rope begins, m (EN 1891).
const THINNEST: f64 = 0.0085;

/// Design factor below which the Cordage Institute's range for fibre rope begins.
pub(super) const LEAST_FACTOR: f64 = 5.0;
pub(super) const LITTLE_FACTOR: &str = "A design factor below 5 is little for rope, cord, tape or slings.";

/// Says so beside a figure of something soft that was divided by less.
pub(super) fn remark_on_factor(answer: &mut Answer) {
    let soft = |limit: &ChosenLimit| ROPES.iter().chain(&CORD).chain(&SLINGS).any(|soft| soft.part == limit.part);
    let little = |limit: &ChosenLimit| limit.factor < LEAST_FACTOR && soft(limit);
    if answer.comparisons.iter().any(|row| row.limit.as_ref().is_some_and(little)) {
        answer.remarks.push(LITTLE_FACTOR.to_owned());
    }
}

impl Against {
    /// A figure of rope stands beside the rope alone.
    pub(super) fn of_the_rope(&self, rows: Vec<Comparison>, what: &str, rope: Band) -> Vec<Comparison> {
        if self.is_of_low_stretch_rope() { vec![self.compare_rope(what, rope)] } else { rows }
    }

    /// Whether the chosen figure is that of a rope.
    pub(super) fn is_of_low_stretch_rope(&self) -> bool {
        self.is_one_of(&ROPES)
    }

    /// Whether the chosen figure is that of rope, cord or a sling: a link or a connector may be at the anchor.
    pub(super) fn is_soft(&self) -> bool {
        self.is_of_low_stretch_rope() || self.is_one_of(&CORD) || self.is_of_sling()
    }

    /// Why the chosen figure says nothing of what the force runs through, if it does not.
    pub(super) fn not_of(&self, through: Through) -> Option<&'static str> {
        let (of_rope, of_sling) = (self.is_of_low_stretch_rope(), self.is_of_sling());
        match through {
            Through::Rope if of_rope => None,
            Through::Sling if of_sling => None,
            Through::ThinRope if of_rope => Some("EN 1891 begins at 8.5 mm: the figure chosen is of thicker rope"),
            _ if of_rope => Some("the figure chosen is of low-stretch rope, and what is there is not"),
            _ if of_sling => Some("the figure chosen is of a sewn sling, and what is there is not"),
            _ => None,
        }
    }

    /// Whether the chosen figure is that of a sewn sling.
    pub(super) fn is_of_sling(&self) -> bool {
        self.is_one_of(&SLINGS)
    }

    /// Whether the chosen figure is one of a rope, a sling or a connector.
    pub(super) fn is_of_rope(&self) -> bool {
        self.figure().is_some() && !self.is_of_anchor()
    }

    /// Whether the chosen figure is one of an anchor.
    pub(super) fn is_of_anchor(&self) -> bool {
        self.figure().is_some_and(|figure| ANCHORS.contains(&figure.name))
    }

    /// Whether the chosen figure is that of a bolt pulled along the rock.
    pub(super) fn is_along_the_rock(&self) -> bool {
        self.figure().is_some_and(|figure| figure.name == BOLT_RADIAL.name)
    }

    pub(super) fn without_knot(&self) -> Option<&'static str> {
        let cord = self.is_one_of(&CORD);
        cord.then_some("cord ends in a knot, and its figure is without one: ask whether every part holds")
    }

    /// The chosen figure as it is published: another that bears its name is none.
    pub(super) fn figure(&self) -> Option<&'static Strength> {
        if let LimitChoice::Published(figure) = self.limit { Strength::named(figure.name) } else { None }
    }

    fn is_one_of(&self, figures: &[Strength]) -> bool {
        self.figure().is_some_and(|chosen| figures.iter().any(|figure| figure.name == chosen.name))
    }
}
