//! What use, water and weather leave of the strength of a rope, cord, tape or sling.

use super::item::{Form, Made, Material};
use crate::band::Band;
use crate::working::Source;

/// A condition, and what it leaves.
/// ```
/// use rigging_core::strength::condition::CONDITIONS;
///
/// // UFC 4-159-03: wet nylon loses 15 %, others say 5 to 25 %.
/// let wet = CONDITIONS.iter().find(|row| row.name == "wet nylon").ok_or("no such condition")?;
/// assert_eq!(wet.kept, Ok((1.0 - 0.25, 1.0 - 0.15, 1.0 - 0.05)));
/// # Ok::<(), &'static str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Condition {
    /// Its name in JSON.
    pub name: &'static str,
    /// What it says on the page.
    pub words: &'static str,
    /// Share kept: low, typical, high; none if nobody knows: the reason.
    pub kept: Result<(f64, f64, f64), &'static str>,
    /// What the figure was found on; any if none.
    pub of: Option<Made>,
    /// How it is known.
    pub source: Source,
}

impl Condition {
    /// The share kept, as a band.
    /// ```
    /// use rigging_core::strength::condition::CONDITIONS;
    ///
    /// let share = |name| CONDITIONS.iter().find(|row| row.name == name).and_then(|row| row.share());
    /// // Worn and wet together, by hand: 0.55 · 0.75 = 0.4125.
    /// let both = share("worn wet rope").ok_or("no share")?;
    /// assert!((both.low() - 0.4125).abs() < 1e-12);
    /// // Of what was found in place nobody knows.
    /// assert_eq!(share("found"), None);
    /// # Ok::<(), &'static str>(())
    /// ```
    pub fn share(&self) -> Option<Band> {
        self.kept.ok().map(|(low, typical, high)| Band::of(low, typical, high))
    }

    /// Whether the figure was found on what a part is made of.
    /// ```
    /// use rigging_core::strength::condition::CONDITIONS;
    /// use rigging_core::strength::item::{Form, Made, Material};
    ///
    /// let outdoors = CONDITIONS.iter().find(|row| row.name == "outdoors 6 months").ok_or("no such condition")?;
    /// // Measured on nylon tape: it fits a sling sewn of it, not a rope.
    /// let fits = |form| outdoors.fits(Made { material: Material::Nylon, form });
    /// assert!(fits(Form::Tape) && fits(Form::Sling) && !fits(Form::Rope));
    /// # Ok::<(), &'static str>(())
    /// ```
    pub fn fits(&self, made: Made) -> bool {
        self.of.is_none_or(|of| {
            of.material == made.material
                && (of.form == made.form || of.form == Form::Any || of.form == Form::Tape && made.form == Form::Sling)
        })
    }
}

const fn any(material: Material, form: Form) -> Option<Made> {
    Some(Made { material, form })
}

/// The conditions there are, by their places in a link: only ever added to at the end.
/// ```
/// use rigging_core::strength::condition::CONDITIONS;
///
/// // Each leaves at most what was there; of what was found in place and of what is frozen there is no number.
/// assert!(CONDITIONS.iter().filter_map(|row| row.share()).all(|share| share.low() > 0.0 && share.high() <= 1.0));
/// let unknown: Vec<_> = CONDITIONS.iter().filter(|row| row.share().is_none()).map(|row| row.name).collect();
/// assert_eq!(unknown, ["found", "frozen"]);
/// ```
pub const CONDITIONS: &[Condition] = &[
    Condition {
        name: "new",
        words: "new and dry",
        kept: Ok((1.0, 1.0, 1.0)),
        of: None,
        source: Source::derived("as tested"),
    },
    Condition {
        name: "wet nylon",
        words: "like new, wet (nylon)",
        kept: Ok((0.75, 0.85, 0.95)),
        of: any(Material::Nylon, Form::Any),
        source: Source::published("UFC 4-159-03: −15 %; others −5 to −25 %"),
    },
    Condition {
        name: "wet polyester",
        words: "like new, wet (polyester)",
        kept: Ok((1.0, 1.0, 1.0)),
        of: any(Material::Polyester, Form::Any),
        source: Source::published("UFC 4-159-03"),
    },
    Condition {
        name: "worn rope",
        words: "worn by about 400 abseils (nylon rope)",
        kept: Ok((0.55, 0.69, 0.88)),
        of: any(Material::Nylon, Form::Rope),
        source: Source::published("10 mm rope, knotted worn ÷ knotted new: the knot takes its share as well"),
    },
    Condition {
        name: "used polyester rope",
        words: "used canyon rope (polyester)",
        kept: Ok((0.57, 0.67, 0.67)),
        of: any(Material::Polyester, Form::Rope),
        source: Source::published("pull tests of used canyon rope, one figure; 10 % below it assumed"),
    },
    Condition {
        name: "outdoors 6 months",
        words: "6 months outdoors (nylon tape)",
        kept: Ok((0.70, 0.75, 0.80)),
        of: any(Material::Nylon, Form::Tape),
        source: Source::published("weathering of nylon webbing"),
    },
    Condition {
        name: "outdoors 36 months",
        words: "3 years outdoors (nylon tape)",
        kept: Ok((0.40, 0.45, 0.50)),
        of: any(Material::Nylon, Form::Tape),
        source: Source::published("weathering of nylon webbing"),
    },
    Condition {
        name: "found",
        words: "found in place, or not known",
        kept: Err(
            "found in place: four slings tested held 3.8 to 6.3 kN, weaker ones exist; cut it away, use your own",
        ),
        of: None,
        source: Source::published("slings found in place and tested: 3.8, 4.02, 6.05, 6.3 kN"),
    },
    Condition {
        name: "frozen",
        words: "frozen",
        kept: Err("frozen: performance almost halved, a warning and not a factor"),
        of: None,
        source: Source::published("UIAA: frozen ropes"),
    },
    Condition {
        name: "worn wet rope",
        words: "worn by about 400 abseils, and wet (nylon rope)",
        kept: Ok((0.55 * 0.75, 0.69 * 0.85, 0.88 * 0.95)),
        of: any(Material::Nylon, Form::Rope),
        source: Source::derived("worn × wet; no test of both together is known"),
    },
];

#[cfg(test)]
mod tests {
    use super::*;

    fn fits(name: &str, material: Material, form: Form) -> bool {
        CONDITIONS.iter().find(|condition| condition.name == name).unwrap().fits(Made { material, form })
    }

    #[test]
    fn a_condition_fits_what_it_was_measured_on() {
        // A sling is sewn of tape, and weathers as tape does.
        for form in [Form::Tape, Form::Sling] {
            assert!(fits("outdoors 6 months", Material::Nylon, form));
            assert!(!fits("outdoors 6 months", Material::Polyester, form));
        }
        for form in [Form::Rope, Form::Cord] {
            assert!(!fits("outdoors 6 months", Material::Nylon, form));
            assert!(fits("wet nylon", Material::Nylon, form) && !fits("wet nylon", Material::Hmpe, form));
        }
        assert!(fits("worn rope", Material::Nylon, Form::Rope));
        for form in [Form::Cord, Form::Tape, Form::Sling] {
            assert!(!fits("worn rope", Material::Nylon, form));
        }
        assert!(fits("new", Material::Hmpe, Form::Sling) && fits("found", Material::Polyester, Form::Rope));
    }
}
