//! The steps of an answer, so that each number can be followed to a formula and a source.

use crate::band::Band;
use crate::quantity::Kind;
use serde::Deserialize;

/// How a value or a formula is known.
/// ```
/// use rigging_core::working::Known;
///
/// // In a table of values the name, on the page the word: what is only recalled says so.
/// let known: Known = serde_json::from_str(r#""memory""#)?;
/// assert_eq!((known, known.word()), (Known::Memory, "from memory"));
/// # Ok::<(), serde_json::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
#[non_exhaustive]
pub enum Known {
    /// Read in a summary or a copy of the named source.
    Published,
    /// Recalled, not checked against the source; the word is shown to the user.
    Memory,
    /// Common practice of the trade, no source.
    Practice,
    /// This project's own choice; the user may change it.
    Assumed,
    /// Worked out here from others.
    Derived,
    /// Typed or measured by the user.
    Yours,
}

impl Known {
    /// The word shown beside the value.
    /// ```
    /// use rigging_core::working::Known;
    ///
    /// // Nothing without a source is shown as if it had one.
    /// assert_eq!(Known::Practice.word(), "common practice, no source");
    /// ```
    pub const fn word(self) -> &'static str {
        match self {
            Known::Published => "published",
            Known::Memory => "from memory",
            Known::Practice => "common practice, no source",
            Known::Assumed => "assumed",
            Known::Derived => "derived",
            Known::Yours => "yours",
        }
    }
}

/// Where a value or a formula comes from.
/// ```
/// use rigging_core::working::{Known, Source};
///
/// // How a value is known is said by the way its source is made.
/// assert_eq!(Source::published("a printed table").known, Known::Published);
/// assert_eq!(Source::memory("a course").known, Known::Memory);
/// assert_eq!(Source::assumed("no trial is known").known, Known::Assumed);
/// assert_eq!(Source::derived("balance of forces").known, Known::Derived);
/// assert_eq!(Source::practice("among riggers").known, Known::Practice);
/// // The user's own number needs no place.
/// assert_eq!((Source::YOURS.known, Source::YOURS.place), (Known::Yours, ""));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Source {
    /// How it is known.
    pub known: Known,
    /// The work it was read in, or what it was worked out from; may be empty.
    pub place: &'static str,
}

impl Source {
    /// Read in `place`.
    /// ```
    /// use rigging_core::strength::rope::SEWN_SLING;
    /// use rigging_core::working::Source;
    ///
    /// // As a standard is cited.
    /// let standard = Source::published("EN 566");
    /// assert_eq!((standard, standard.known.word()), (SEWN_SLING.source, "published"));
    /// ```
    pub const fn published(place: &'static str) -> Self {
        Source { known: Known::Published, place }
    }
    /// Recalled from `place`.
    /// ```
    /// use rigging_core::working::Source;
    ///
    /// // The place is a standard, but nobody looked: the word tells the user.
    /// let recalled = Source::memory("EN 1492");
    /// assert_eq!((recalled.known.word(), recalled.place), ("from memory", "EN 1492"));
    /// assert_ne!(recalled, Source::published("EN 1492"));
    /// ```
    pub const fn memory(place: &'static str) -> Self {
        Source { known: Known::Memory, place }
    }
    /// This project's choice, for the reason in `place`.
    /// ```
    /// use rigging_core::working::Source;
    ///
    /// // A choice of this project is not told as a practice of the trade.
    /// let chosen = Source::assumed("no trial is known");
    /// assert_eq!((chosen.known.word(), chosen.place), ("assumed", "no trial is known"));
    /// ```
    pub const fn assumed(place: &'static str) -> Self {
        Source { known: Known::Assumed, place }
    }
    /// Worked out from `place`.
    /// ```
    /// use rigging_core::strength::condition::CONDITIONS;
    /// use rigging_core::working::{Known, Source};
    ///
    /// // Worn and wet at once was never tested: its share is a product.
    /// let both = CONDITIONS.iter().find(|row| row.name == "worn wet rope").ok_or("no such condition")?;
    /// assert_eq!(both.source, Source::derived("worn × wet; no test of both together is known"));
    /// assert_eq!(both.source.known, Known::Derived);
    /// # Ok::<(), &'static str>(())
    /// ```
    pub const fn derived(place: &'static str) -> Self {
        Source { known: Known::Derived, place }
    }
    /// Common practice; `place` says among whom.
    /// ```
    /// use rigging_core::working::Source;
    ///
    /// // Who does so is told, and that there is no source.
    /// let trade = Source::practice("rope rescue");
    /// assert_eq!((trade.known.word(), trade.place), ("common practice, no source", "rope rescue"));
    /// ```
    pub const fn practice(place: &'static str) -> Self {
        Source { known: Known::Practice, place }
    }
    /// The user's own number.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::strength::resistance::{LOADINGS, Part};
    /// use rigging_core::strength::{condition::CONDITIONS, item::ITEMS, knot::NO_KNOT};
    /// use rigging_core::working::Source;
    ///
    /// let item = ITEMS.iter().find(|row| row.name == "stated").ok_or("no such part")?;
    /// let loading = LOADINGS.iter().find(|row| row.name == "straight").ok_or("no such loading")?;
    /// let condition = CONDITIONS.iter().find(|row| row.name == "new").ok_or("no such condition")?;
    /// // A figure that the user reads off the part is the user's own.
    /// let part = Part { item, knot: &NO_KNOT, loading, condition, pull: Band::exact(0.0), stated: 18_000.0 };
    /// let sources: Vec<Source> = part.resistance()?.steps.iter().map(|step| step.source).collect();
    /// assert_eq!((sources, Source::YOURS.known.word()), (vec![Source::YOURS], "yours"));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub const YOURS: Source = Source { known: Known::Yours, place: "" };

    /// Where it was read, and how it is known.
    /// ```
    /// use rigging_core::working::Source;
    ///
    /// // Who has nowhere to name says only how.
    /// assert_eq!(Source::memory("EN 1492").told(), "EN 1492 (from memory)");
    /// assert_eq!(Source::YOURS.told(), "yours");
    /// ```
    pub fn told(&self) -> String {
        if self.place.is_empty() {
            self.known.word().to_owned()
        } else {
            format!("{} ({})", self.place, self.known.word())
        }
    }
}

/// A named value inside a working.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::quantity::Kind;
/// use rigging_core::working::Given;
///
/// // A number without doubt is a range of no width.
/// let load = Given::exact("F", 800.0, Kind::Force);
/// assert_eq!(load, Given::new("F", Band::of(800.0, 800.0, 800.0), Kind::Force));
/// assert!(load.band.is_exact() && !Given::new("μ", Band::of(0.2, 0.3, 0.5), Kind::Ratio).band.is_exact());
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Given {
    /// The symbol as it stands in the formula.
    pub symbol: &'static str,
    /// Its value, a range where it is one.
    pub band: Band,
    /// What it measures.
    pub kind: Kind,
}

impl Given {
    /// `symbol` stands for `band`, a `kind`.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::quantity::{Kind, Toward, Units};
    /// use rigging_core::working::Given;
    ///
    /// // What it measures decides the unit in which it is told.
    /// let told = |given: Given| Units::default().range(&given.band, given.kind, Toward::More);
    /// let band = Band::of(2400.0, 2500.0, 2900.0);
    /// assert_eq!(told(Given::new("F", band, Kind::Force)), "2.4\u{a0}kN to 2.9\u{a0}kN");
    /// assert_eq!(told(Given::new("L", band, Kind::Length)), "2400\u{a0}m to 2900\u{a0}m");
    /// ```
    // One copy: workings are long, and a copy in each place is large.
    #[inline(never)]
    pub fn new(symbol: &'static str, band: Band, kind: Kind) -> Self {
        Given { symbol, band, kind }
    }
    /// `symbol` stands for one value.
    /// ```
    /// use rigging_core::quantity::{Kind, Toward, Units};
    /// use rigging_core::working::Given;
    ///
    /// // An angle goes in as radians, and is told in degrees without a range.
    /// let angle = Given::exact("α", 30_f64.to_radians(), Kind::Angle);
    /// assert_eq!(Units::default().range(&angle.band, angle.kind, Toward::Nearest), "30°");
    /// ```
    pub fn exact(symbol: &'static str, si: f64, kind: Kind) -> Self {
        Given::new(symbol, Band::exact(si), kind)
    }
}

/// A formula that the other numbers of an answer rest on, told without numbers.
/// ```
/// use rigging_core::working::{Formula, Known, Source};
///
/// const WEIGHT: Formula = Formula::new("weight of a mass", "W = m g", Source::derived("definition"));
/// // Its parts stay as they were given.
/// let Formula { what, formula, source, .. } = WEIGHT;
/// assert_eq!((what, formula, source.known), ("weight of a mass", "W = m g", Known::Derived));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Formula {
    /// What it finds, in words.
    pub what: &'static str,
    /// The formula; its symbols are told in `what` or in the steps.
    pub formula: &'static str,
    /// Where it comes from.
    pub source: Source,
}

impl Formula {
    /// `what` is found by `formula`, known from `source`.
    /// ```
    /// use rigging_core::working::{Formula, Source};
    ///
    /// // Made while compiling; told as what it finds, how, and how that is known.
    /// const LEG: Formula = Formula::new("leg of two, α between", "T = W / (2 cos α/2)", Source::derived("balance"));
    /// let told = format!("{}: {} ({})", LEG.what, LEG.formula, LEG.source.known.word());
    /// assert_eq!(told, "leg of two, α between: T = W / (2 cos α/2) (derived)");
    /// ```
    pub const fn new(what: &'static str, formula: &'static str, source: Source) -> Self {
        Formula { what, formula, source }
    }
}

/// One step of the working: what, formula, the numbers in it, the result, the source.
/// ```
/// use rigging_core::question::Question;
///
/// let question: Question = serde_json::from_str(
///     r#"{"question": "anchor legs", "people": 2, "body_kg": 80, "kit_kg": 10, "suit_water_kg": 0}"#,
/// )?;
/// let answer = question.answer()?;
/// // The first step is the weight of who hangs there. By hand: 2 · (80 + 10) · 9.80665 = 1765.2 N.
/// let step = answer.working.first().ok_or("there is a step")?;
/// assert!(step.given.iter().any(|given| given.symbol == "m" && given.band.typical() == 80.0));
/// assert!((step.result.band.typical() - 1765.2).abs() < 0.05);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Step {
    /// What the step finds, in words.
    pub what: String,
    /// The formula, in the symbols of `given`.
    pub formula: &'static str,
    /// The numbers that go in.
    pub given: Vec<Given>,
    /// What comes out.
    pub result: Given,
    /// Where the formula comes from.
    pub source: Source,
}
