//! Published strengths and limits, each with its standard and how it is known.
//!
//! These are figures for new, dry, conditioned specimens, one standard beside the other; they are not
//! what hangs in a canyon. A choice of limit names one of them. All are strengths of parts that a load
//! goes through; a limit of the force on a person is not among them, since it must not be compared with the
//! force on an anchor.

use crate::quantity::{Force, Unit, newton};
use crate::working::Source;

/// One published figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strength {
    /// Short name, as it stands in JSON.
    pub name: &'static str,
    /// The part and how it is loaded.
    pub part: &'static str,
    /// The least strength as it is printed.
    pub printed: f64,
    /// The unit in which it is printed.
    pub unit: Unit,
    /// The standard with its edition and how it is known.
    pub source: Source,
}

impl Strength {
    /// The figure as a force.
    pub fn force(&self) -> Force {
        Force::new::<newton>(self.unit.to_si(self.printed))
    }

    /// The figure with this name.
    pub fn named(name: &str) -> Option<&'static Strength> {
        STRENGTHS.iter().find(|strength| strength.name == name)
    }
}

const fn at_least(name: &'static str, part: &'static str, kilonewtons: f64, standard: &'static str) -> Strength {
    let source = Source::published(standard);
    Strength { name, part, printed: kilonewtons, unit: Unit::Kilonewton, source }
}

/// A bolt in shear.
pub const BOLT_RADIAL: Strength = at_least("bolt radial", "rock anchor, pulled along the rock", 25.0, "EN 959:2018");
/// A bolt in tension.
pub const BOLT_AXIAL: Strength = at_least("bolt axial", "rock anchor, pulled straight out", 15.0, "EN 959:2018");

/// Every figure the questions can be compared with.
pub const STRENGTHS: &[Strength] = &[
    BOLT_RADIAL,
    BOLT_AXIAL,
    at_least("screw link", "screw link (type Q), along, closed", 25.0, "EN 12275:2013"),
    at_least("connector", "connector (type B), along, gate closed", 20.0, "EN 12275:2013"),
    at_least("connector open", "connector (type B), along, gate open", 7.0, "EN 12275:2013"),
    at_least("sewn sling", "sewn sling", 22.0, "EN 566"),
    at_least("cord 6 mm", "cord 6 mm, one strand, no knot", 7.2, "EN 564"),
    at_least("cord 7 mm", "cord 7 mm, one strand, no knot", 9.8, "EN 564"),
    at_least("rope A tied", "low-stretch rope type A with figure-eight loops", 15.0, "EN 1891"),
    at_least("rope B tied", "low-stretch rope type B with figure-eight loops", 12.0, "EN 1891"),
    at_least("work anchor", "anchor device for one person at work", 12.0, "EN 795:2012"),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_figure_has_a_source_and_a_name_of_its_own() {
        for (place, strength) in STRENGTHS.iter().enumerate() {
            assert!(!strength.source.place.is_empty() && strength.printed > 0.0, "{}", strength.name);
            assert!(STRENGTHS.iter().skip(place + 1).all(|other| other.name != strength.name), "{}", strength.name);
        }
    }

    #[test]
    fn cord_follows_the_rule_of_its_standard() {
        // EN 564: strength in kN = 0.2 d², d in mm.
        for (name, millimetres) in [("cord 6 mm", 6.0_f64), ("cord 7 mm", 7.0)] {
            let printed = Strength::named(name).unwrap().printed;
            approx::assert_relative_eq!(printed, 0.2 * millimetres.powi(2), epsilon = 1e-9);
        }
    }
}
