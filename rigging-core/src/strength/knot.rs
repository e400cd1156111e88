//! What a knot leaves of the strength of what it is tied in.

use super::item::{Form, Made, Material};
use crate::band::Band;
use crate::working::Source;

/// What is left, or why there is no telling.
/// ```
/// use rigging_core::strength::item::Material;
/// use rigging_core::strength::knot::{KNOTS, Kept};
///
/// let in_nylon = |name| KNOTS.iter().find(|knot| knot.name == name).map(|knot| knot.measured(Material::Nylon));
/// // Published pull tests: a double fisherman's join keeps 65 to 70 %. A munter hitch is friction, not a termination.
/// assert_eq!(in_nylon("double fisherman"), Some(Kept::Share(0.65, 0.675, 0.70)));
/// assert!(matches!(in_nylon("munter"), Some(Kept::Refused(_))));
/// assert!(matches!(in_nylon("offset overhand"), Some(Kept::NotMeasured(_))));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kept {
    /// A share of the unknotted strength: low, typical, high.
    Share(f64, f64, f64),
    /// Nobody has measured it: the reason.
    NotMeasured(&'static str),
    /// The trade does not tie it for this: the reason.
    Refused(&'static str),
}

/// A knot, and what it keeps.
/// ```
/// use rigging_core::strength::knot::KNOTS;
///
/// // What joins two ropes makes no loop to hang by.
/// let joins = |name| KNOTS.iter().find(|knot| knot.name == name).map(|knot| knot.joins);
/// assert_eq!((joins("double fisherman"), joins("water")), (Some(true), Some(true)));
/// assert_eq!((joins("figure-eight"), joins("bowline")), (Some(false), Some(false)));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Knot {
    /// Its name in JSON.
    pub name: &'static str,
    /// Its name on the page.
    pub words: &'static str,
    /// What it keeps of nylon and polyester.
    nylon: Kept,
    /// What it keeps of HMPE.
    hmpe: Kept,
    /// What it was measured in.
    on: &'static [Form],
    /// Whether it joins two ends, and makes no loop.
    pub joins: bool,
    /// How that is known.
    pub source: Source,
}

impl Knot {
    /// What it keeps of a material, in the form in which it was measured.
    /// ```
    /// use rigging_core::strength::item::Material;
    /// use rigging_core::strength::knot::{KNOTS, Kept};
    ///
    /// // A girth hitch on a 10 mm pin, published pull tests: nylon keeps 67 %, HMPE 74 to 88 %.
    /// let girth = KNOTS.iter().find(|row| row.name == "girth pin").ok_or("no such knot")?;
    /// assert_eq!(girth.measured(Material::Nylon), Kept::Share(0.57, 0.67, 0.67));
    /// assert_eq!(girth.measured(Material::Hmpe), Kept::Share(0.74, 0.81, 0.88));
    /// # Ok::<(), &'static str>(())
    /// ```
    pub const fn measured(&self, material: Material) -> Kept {
        match material {
            Material::Nylon | Material::Polyester => self.nylon,
            Material::Hmpe => self.hmpe,
        }
    }

    /// What it keeps of a part made so: nothing is said of a form in which it was not measured.
    /// ```
    /// use rigging_core::strength::item::{Form, Made, Material};
    /// use rigging_core::strength::knot::{KNOTS, Kept};
    ///
    /// // Pull tests of a water knot are of tape: of rope it says nothing.
    /// let water = KNOTS.iter().find(|row| row.name == "water").ok_or("no such knot")?;
    /// let kept = |form| water.kept(Made { material: Material::Nylon, form });
    /// assert_eq!(kept(Form::Tape), Kept::Share(0.60, 0.65, 0.70));
    /// assert!(matches!(kept(Form::Rope), Kept::NotMeasured(_)));
    /// # Ok::<(), &'static str>(())
    /// ```
    pub fn kept(&self, made: Made) -> Kept {
        match self.measured(made.material) {
            Kept::Share(..) if self.name == NO_KNOT.name && !self.on.contains(&made.form) => {
                Kept::NotMeasured("how it ends: without its knot no figure holds; choose the knot it is tied with")
            }
            Kept::Share(..) if !self.on.contains(&made.form) => {
                Kept::NotMeasured("this knot was not measured in such a part")
            }
            kept => kept,
        }
    }
}

const CORDAGE: &[Form] = &[Form::Rope, Form::Cord];

impl Kept {
    /// The share as a band.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::strength::knot::Kept;
    ///
    /// assert_eq!(Kept::Share(0.60, 0.65, 0.70).share(), Some(Band::of(0.60, 0.65, 0.70)));
    /// // No number is made of a reason.
    /// assert_eq!(Kept::NotMeasured("not measured in such a part").share(), None);
    /// assert_eq!(Kept::Refused("it slips").share(), None);
    /// ```
    pub fn share(self) -> Option<Band> {
        match self {
            Kept::Share(low, typical, high) => Some(Band::of(low, typical, high)),
            _ => None,
        }
    }
}

const SLIPPERY: Kept =
    Kept::NotMeasured("a knot in HMPE: none but girth hitch and overhand were measured, and it slips");
const WEB: &str = "published pull tests";
const SINGLE: &str = "published pull tests, one figure for nylon; 10 % below it assumed";

const fn knot(name: &'static str, words: &'static str, nylon: Kept, source: Source) -> Knot {
    Knot { name, words, nylon, hmpe: SLIPPERY, on: CORDAGE, joins: false, source }
}
const fn kept(percent_low: f64, percent_high: f64) -> Kept {
    Kept::Share(percent_low / 100.0, (percent_low + percent_high) / 200.0, percent_high / 100.0)
}

/// Where one figure is published, others of the kind lie up to this far below it: the knots with several are as wide.
const BELOW: f64 = 10.0;
const fn one_figure(percent: f64) -> Kept {
    Kept::Share((percent - BELOW) / 100.0, percent / 100.0, percent / 100.0)
}

/// Nothing is tied.
/// ```
/// use rigging_core::strength::item::{Form, Made, Material};
/// use rigging_core::strength::knot::{Kept, NO_KNOT};
///
/// // A sewn sling keeps all; a rope ends in some knot, and without it nothing is said.
/// let kept = |form| NO_KNOT.kept(Made { material: Material::Nylon, form });
/// assert_eq!(kept(Form::Sling), Kept::Share(1.0, 1.0, 1.0));
/// assert!(matches!(kept(Form::Rope), Kept::NotMeasured(why) if why.starts_with("how it ends")));
/// ```
pub const NO_KNOT: Knot = Knot {
    hmpe: Kept::Share(1.0, 1.0, 1.0),
    on: &[Form::Sling],
    ..knot("none", "no knot: a sewn sling", Kept::Share(1.0, 1.0, 1.0), Source::derived("no knot"))
};

/// The knots there are, by their places in a link: only ever added to at the end.
/// ```
/// use rigging_core::strength::item::{Form, Made, Material};
/// use rigging_core::strength::knot::{KNOTS, Kept};
///
/// let rope = Made { material: Material::Nylon, form: Form::Rope };
/// let kept = |name| KNOTS.iter().find(|row| row.name == name).map(|row| row.kept(rope));
/// // Published pull tests: a clove hitch keeps 60 to 65 %.
/// assert_eq!(kept("clove"), Some(Kept::Share(0.60, 0.625, 0.65)));
/// // Accident reports: an offset figure-eight rolls off its tails.
/// assert!(matches!(kept("offset eight"), Some(Kept::Refused(_))));
/// ```
pub const KNOTS: &[Knot] = &[
    NO_KNOT,
    knot(
        "figure-eight",
        "figure-eight loop",
        Kept::Share(0.66, 0.73, 0.80),
        Source::memory("low end; published: ENSA/DPMC 2011–12 75 %, another 10 mm rope 70.8 %"),
    ),
    knot("figure-nine", "figure-nine loop", kept(68.0, 84.0), Source::memory("pull tests")),
    knot("bowline", "bowline", kept(55.0, 75.0), Source::memory("low end; upper end of published pull tests")),
    knot("overhand", "overhand loop", kept(58.0, 68.0), Source::memory("pull tests, partly published")),
    knot(
        "barrel",
        "double overhand noose (barrel)",
        Kept::Share(0.60, 0.618, 0.77),
        Source::memory("upper end; published: Sáez et al. 2024, Symmetry 16:167, mean 61.8 %"),
    ),
    knot("butterfly", "alpine butterfly", kept(61.0, 75.0), Source::memory("pull tests, partly published")),
    Knot {
        joins: true,
        ..knot("double fisherman", "double fisherman's join", kept(65.0, 70.0), Source::published(WEB))
    },
    Knot {
        hmpe: Kept::Refused("a water knot slips in HMPE: use a sewn sling"),
        on: &[Form::Tape],
        joins: true,
        ..knot("water", "water (tape) knot", kept(60.0, 70.0), Source::published(WEB))
    },
    knot("clove", "clove hitch", kept(60.0, 65.0), Source::published(WEB)),
    knot("round turn", "round turn and two half hitches", kept(60.0, 75.0), Source::published(WEB)),
    Knot {
        hmpe: kept(45.0, 65.0),
        on: &[Form::Sling],
        ..knot(
            "girth sling",
            "girth hitch, sling to sling",
            one_figure(79.0),
            Source::published(
                "pull tests, one figure each: nylon 16 mm (10 % below it assumed); HMPE 8 mm 65 %, 11 mm 48 %, another 45 %",
            ),
        )
    },
    Knot {
        hmpe: kept(74.0, 88.0),
        on: &[Form::Sling],
        ..knot("girth pin", "girth hitch on a 10 mm pin", one_figure(67.0), Source::published(SINGLE))
    },
    Knot {
        hmpe: kept(46.0, 57.0),
        on: &[Form::Sling],
        ..knot("overhand sling", "overhand knot in a sewn sling", one_figure(64.0), Source::published(SINGLE))
    },
    knot(
        "tensionless",
        "tensionless hitch: the wraps hold",
        kept(100.0, 100.0),
        Source::published("published pull tests: wraps around a smooth round post"),
    ),
    Knot { hmpe: MUNTER, ..knot("munter", "italian (munter) hitch", MUNTER, Source::practice("a friction hitch")) },
    Knot {
        hmpe: OFFSET_OVERHAND,
        joins: true,
        ..knot(
            "offset overhand",
            "offset overhand bend, joining ropes",
            OFFSET_OVERHAND,
            Source::published("ENSA 2021: joining knots failed only at 3 to 4 times the worst abseil forces"),
        )
    },
    Knot {
        hmpe: OFFSET_EIGHT,
        joins: true,
        ..knot(
            "offset eight",
            "offset figure-eight, joining ropes",
            OFFSET_EIGHT,
            Source::published("accident reports"),
        )
    },
];
const MUNTER: Kept = Kept::Refused("an italian (munter) hitch is friction, not a termination: tie it off");
const OFFSET_OVERHAND: Kept = Kept::NotMeasured(
    "no percentage is known; joining knots failed only at 3 to 4 times the worst abseil forces (ENSA 2021); tails of 30 cm or more, dressed and set",
);
const OFFSET_EIGHT: Kept = Kept::Refused("an offset figure-eight capsizes and rolls off the tails: people died of it");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_knot_keeps_what_was_measured_in_such_a_part_only() {
        let knot = |name: &str| KNOTS.iter().find(|knot| knot.name == name).unwrap();
        let kept = |name: &str, material, form| knot(name).kept(Made { material, form });
        assert!(matches!(kept("figure-eight", Material::Nylon, Form::Rope), Kept::Share(..)));
        assert!(matches!(kept("figure-eight", Material::Nylon, Form::Cord), Kept::Share(..)));
        let elsewhere = Kept::NotMeasured("this knot was not measured in such a part");
        assert_eq!(kept("figure-eight", Material::Nylon, Form::Tape), elsewhere);
        assert_eq!(kept("water", Material::Nylon, Form::Rope), elsewhere);
        assert!(matches!(kept("water", Material::Nylon, Form::Tape), Kept::Share(..)));
        assert!(matches!(kept("water", Material::Hmpe, Form::Tape), Kept::Refused(_)));
        assert!(matches!(kept("figure-eight", Material::Hmpe, Form::Rope), Kept::NotMeasured(_)));
        // A sewn sling needs no knot; a rope without one does not end.
        assert!(matches!(kept("none", Material::Nylon, Form::Sling), Kept::Share(..)));
        assert!(
            matches!(kept("none", Material::Nylon, Form::Rope), Kept::NotMeasured(why) if why.contains("how it ends"))
        );
    }
}
