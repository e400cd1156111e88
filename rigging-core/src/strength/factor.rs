//! Design factors that people use: choices, each with whose it is.

use super::Strength;
use super::hardware::{ARREST_EN, ARREST_US};
use crate::working::Source;

/// What a factor multiplies.
/// ```
/// use rigging_core::quantity::Unit;
/// use rigging_core::strength::factor::{FACTORS, Of};
///
/// let fire = FACTORS.iter().find(|row| row.name == "15 fire").ok_or("no such factor")?;
/// assert_eq!(fire.of, Of::Weight);
/// // NFPA 1983: rope for technical use carries one person, 15 × 300 lbf. By hand: 4500 · 4.448222 = 20 017 N.
/// assert!((fire.factor * Unit::PoundForce.to_si(300.0) - 20_017.0).abs() < 0.5);
/// # Ok::<(), &'static str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Of {
    /// The load of this rig, whatever it is.
    Load,
    /// The weight of those who hang, hanging still.
    Weight,
    /// A load that the rule itself names, for each person.
    Named(Strength),
}

/// A design factor and whose it is.
/// ```
/// use rigging_core::strength::factor::{FACTORS, Of};
///
/// let access = FACTORS.iter().find(|row| row.name == "2.5 rope access").ok_or("no such factor")?;
/// let Of::Named(each) = access.of else { return Err("a rule with a load of its own") };
/// // BS 7985, IRATA: 2.5 × 6 kN = 15 kN for each person, whatever hangs there.
/// assert_eq!(access.factor * each.force().value, 15_000.0);
/// # Ok::<(), &'static str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Factor {
    /// Its name in JSON.
    pub name: &'static str,
    /// What it says on the page.
    pub words: &'static str,
    /// The factor.
    pub factor: f64,
    /// What it multiplies: rules for people at work hold only with their own load.
    pub of: Of,
    /// The parts that the rule speaks of.
    pub on: On,
    /// How it is known.
    pub source: Source,
}

/// The parts that a rule speaks of.
/// ```
/// use rigging_core::strength::factor::{FACTORS, On};
///
/// // Rules of work at height speak of the anchor alone; that of mooring lines of nothing that people hang on.
/// let on = |name| FACTORS.iter().find(|factor| factor.name == name).map(|factor| factor.on);
/// assert_eq!(on("2 designed"), Some(On::Anchor));
/// assert_eq!(on("15 fire"), Some(On::Rope));
/// assert_eq!(on("3 mooring"), Some(On::Nobody));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum On {
    /// Any.
    Every,
    /// Only what holds the rope to the rock.
    Anchor,
    /// Only the rope.
    Rope,
    /// Nothing that people hang on.
    Nobody,
}

/// The factors there are, by their places in a link: only ever added to at the end.
/// ```
/// use rigging_core::strength::factor::FACTORS;
///
/// // A lifting sling for 2 kN, from memory: 5 times that by ASME B30.9, 7 times by EN 1492. Each rule keeps its own.
/// let asked = |name| FACTORS.iter().find(|row| row.name == name).map(|row| row.factor * 2000.0);
/// assert_eq!((asked("5 slings"), asked("7 slings")), (Some(10_000.0), Some(14_000.0)));
/// ```
pub const FACTORS: &[Factor] = &[
    Factor {
        name: "5 fibre rope",
        words: "5: fibre rope, low end of 5 to 12",
        factor: 5.0,
        of: Of::Load,
        on: On::Every,
        source: Source::published("Cordage Institute, 5 to 12"),
    },
    Factor {
        name: "12 fibre rope",
        words: "12: fibre rope, high end of 5 to 12",
        factor: 12.0,
        of: Of::Load,
        on: On::Every,
        source: Source::published("Cordage Institute, 5 to 12"),
    },
    Factor {
        name: "10 system",
        words: "10: static system in rope rescue",
        factor: 10.0,
        of: Of::Weight,
        on: On::Every,
        source: Source::practice("rope rescue, not a standard: on the weight hanging still"),
    },
    Factor {
        name: "15 fire",
        words: "15: fire service rope until 1995",
        factor: 15.0,
        of: Of::Weight,
        on: On::Rope,
        source: Source::published("NFPA 1983 to 1995: 15 times the weight of the people"),
    },
    Factor {
        name: "5 slings",
        words: "5: lifting slings, US",
        factor: 5.0,
        of: Of::Load,
        on: On::Every,
        source: Source::memory("ASME B30.9"),
    },
    Factor {
        name: "7 slings",
        words: "7: textile lifting slings, Europe",
        factor: 7.0,
        of: Of::Load,
        on: On::Every,
        source: Source::memory("EN 1492"),
    },
    Factor {
        name: "3 mooring",
        words: "3: mooring lines; not meant for people",
        factor: 3.0,
        of: Of::Load,
        on: On::Nobody,
        source: Source::published("UFC 4-159-03"),
    },
    Factor {
        name: "5 rescue",
        words: "5: rescue anchors, US",
        factor: 5.0,
        of: Of::Load,
        on: On::Anchor,
        source: Source::published("ANSI Z359.4: 3,100 lbf or 5:1; of the load applied"),
    },
    Factor {
        name: "2.5 rope access",
        words: "2.5: rope access anchors, on their own 6 kN each",
        factor: 2.5,
        of: Of::Named(ARREST_EN),
        on: On::Anchor,
        source: Source::published("BS 7985, IRATA: 2.5 × 6 kN"),
    },
    Factor {
        name: "2 designed",
        words: "2: designed anchors, US, on 1,800 lbf each",
        factor: 2.0,
        of: Of::Named(ARREST_US),
        on: On::Anchor,
        source: Source::published("OSHA 1910.140(c)(13)"),
    },
];
