//! Published strengths and limits, each with its standard and how it is known.
//!
//! These are figures for new, dry, conditioned specimens, one standard beside the other; they are not
//! what hangs in a canyon. A choice of limit names one of them.

use crate::quantity::{Force, Unit, newton};
use crate::working::Source;

/// Which side of the figure the standard speaks of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// The part holds at least this.
    AtLeast,
    /// The force may be at most this.
    AtMost,
}

/// One published figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strength {
    /// Short name, as it stands in JSON.
    pub name: &'static str,
    /// The part and how it is loaded.
    pub part: &'static str,
    /// The figure as it is printed.
    pub printed: f64,
    /// The unit in which it is printed.
    pub unit: Unit,
    /// Whether it is a least strength or a largest force.
    pub bound: Bound,
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
    Strength { name, part, printed: kilonewtons, unit: Unit::Kilonewton, bound: Bound::AtLeast, source }
}

/// Every figure the questions can be compared with.
pub const STRENGTHS: &[Strength] = &[
    at_least("bolt radial", "rock anchor, pulled along the rock", 25.0, "EN 959:2018"),
    at_least("bolt axial", "rock anchor, pulled straight out", 15.0, "EN 959:2018"),
    at_least("screw link", "screw link (type Q), along, closed", 25.0, "EN 12275:2013"),
    at_least("connector", "connector (type B), along, gate closed", 20.0, "EN 12275:2013"),
    at_least("connector open", "connector (type B), along, gate open", 7.0, "EN 12275:2013"),
    at_least("sewn sling", "sewn sling", 22.0, "EN 566"),
    at_least("cord 6 mm", "cord 6 mm, one strand, no knot", 7.2, "EN 564"),
    at_least("cord 7 mm", "cord 7 mm, one strand, no knot", 9.8, "EN 564"),
    at_least("rope A tied", "low-stretch rope type A with figure-eight loops", 15.0, "EN 1891"),
    at_least("rope B tied", "low-stretch rope type B with figure-eight loops", 12.0, "EN 1891"),
    at_least("work anchor", "anchor device for one person at work", 12.0, "EN 795:2012"),
    Strength {
        name: "arrest force US",
        part: "force on a person caught in a harness",
        printed: 1800.0,
        unit: Unit::PoundForce,
        bound: Bound::AtMost,
        source: Source::published("OSHA 1910.140: 1,800 lbf"),
    },
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
    fn a_figure_printed_in_pounds_is_8_007_kilonewtons() {
        // Row U1 of the check values: 1,800 lbf.
        let limit = Strength::named("arrest force US").unwrap().force();
        approx::assert_relative_eq!(limit.value, 8007.0, epsilon = 0.5);
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
