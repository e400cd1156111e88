//! What a part resists: its figure × knot × condition × the way it is loaded, each a range.

use super::Strength;
use super::condition::Condition;
use super::item::{Figure, Form, Item};
use super::knot::{Kept, Knot, NO_KNOT};
use crate::band::Band;
use crate::law::{OutOfDomain, bolt};
use crate::quantity::{Angle, Force, Kind, newton, radian};
use crate::working::{Given, Source, Step};
use std::fmt;

/// How a part is loaded.
/// ```
/// use rigging_core::strength::resistance::{LOADINGS, Way};
/// use rigging_core::working::Known;
///
/// // Over an edge there is no factor, only padding.
/// let edge = LOADINGS.iter().find(|row| row.name == "edge").ok_or("no such loading")?;
/// assert!(matches!(edge.way, Way::NotMeasured(_)));
/// assert_eq!(edge.source.known, Known::Practice);
/// # Ok::<(), &'static str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Loading {
    /// Its name in JSON.
    pub name: &'static str,
    /// What it says on the page.
    pub words: &'static str,
    /// What it means.
    pub way: Way,
    /// How its share is known.
    pub source: Source,
}

/// What a way of loading does.
/// ```
/// use rigging_core::strength::resistance::{LOADINGS, Way};
///
/// let basket = LOADINGS.iter().find(|row| row.name == "basket 60").ok_or("no such loading")?;
/// let Way::Share(low, _, high) = basket.way else { return Err("no share") };
/// // ASME B30.9 (from memory): 2 cos 30° = 1.732 at 60° between its parts, 2 cos 0° = 2 side by side.
/// assert!((low - 2.0 * 30_f64.to_radians().cos()).abs() < 0.001 && high == 2.0);
/// # Ok::<(), &'static str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Way {
    /// As its figure was found: one strand, a sewn loop end to end, a closed connector along.
    Plain,
    /// A share of the figure that holds for soft parts: low, typical, high.
    Share(f64, f64, f64),
    /// Two strands side by side, tied to a loop or doubled; not for a sewn sling, whose figure is of its loop.
    TwoStrands,
    /// A connector with its gate open.
    GateOpen,
    /// A connector across.
    Across,
    /// No figure: the reason.
    NotMeasured(&'static str),
}

const BASKET: Source = Source::memory("ASME B30.9: 2 cos(half the included angle) of one leg");

/// The ways there are, by their places in a link: only ever added to at the end.
/// ```
/// use rigging_core::strength::resistance::{LOADINGS, Way};
///
/// let way = |name| LOADINGS.iter().find(|row| row.name == name).map(|row| row.way);
/// // ASME B30.9, from memory: choked at most 0.8. 120° between its parts, by hand: 2 cos 60° = 1.
/// assert!(matches!(way("choked"), Some(Way::Share(.., high)) if high == 0.8));
/// assert!(matches!(way("basket 120"), Some(Way::Share(low, ..)) if low == 1.0));
/// ```
pub const LOADINGS: &[Loading] = &[
    Loading {
        name: "straight",
        words: "straight; a connector along, gate closed",
        way: Way::Plain,
        source: Source::derived("as tested"),
    },
    Loading {
        name: "two strands",
        words: "two strands: a tied loop, or doubled",
        way: Way::TwoStrands,
        source: Source::derived("two equal strands, each with the knot"),
    },
    Loading {
        name: "choked",
        words: "choked around something",
        way: Way::Share(0.45, 0.75, 0.8),
        source: Source::memory("ASME B30.9: at most 0.8; low end: the weakest girth hitch measured"),
    },
    Loading {
        name: "basket 60",
        words: "basket, up to 60° between its parts",
        way: Way::Share(1.732, 1.732, 2.0),
        source: BASKET,
    },
    Loading {
        name: "basket 90",
        words: "basket, 60 to 90° between its parts",
        way: Way::Share(1.414, 1.414, 1.732),
        source: BASKET,
    },
    Loading {
        name: "basket 120",
        words: "basket, 90 to 120° between its parts",
        way: Way::Share(1.0, 1.0, 1.414),
        source: BASKET,
    },
    Loading {
        name: "edge",
        words: "over an edge that is not padded",
        way: Way::NotMeasured("over a sharp edge no factor is known: pad it or move it"),
        source: Source::practice("an edge is excluded by padding, never multiplied"),
    },
    Loading {
        name: "gate open",
        words: "connector with its gate open",
        way: Way::GateOpen,
        source: Source::derived("as tested"),
    },
    Loading {
        name: "across",
        words: "connector loaded across",
        way: Way::Across,
        source: Source::derived("as tested"),
    },
];

/// A part as it is rigged.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::strength::resistance::{LOADINGS, Part};
/// use rigging_core::strength::{condition::CONDITIONS, item::ITEMS, knot::KNOTS};
///
/// let item = ITEMS.iter().find(|item| item.name == "cord 6 mm").ok_or("no such part")?;
/// let knot = KNOTS.iter().find(|knot| knot.name == "double fisherman").ok_or("no such knot")?;
/// let loading = LOADINGS.iter().find(|loading| loading.name == "two strands").ok_or("no such loading")?;
/// let condition = CONDITIONS.iter().find(|condition| condition.name == "new").ok_or("no such condition")?;
/// let tied_loop = Part { item, knot, loading, condition, pull: Band::exact(0.0), stated: 0.0 };
/// // EN 564 and published pull tests, by hand: two strands of 7.2 kN, each at 65 to 70 %, hold 9.36 to 10.08 kN.
/// let band = tied_loop.resistance()?.band.ok_or("unknown")?;
/// assert!((band.low() - 9360.0).abs() < 1e-6 && (band.high() - 10_080.0).abs() < 1e-6);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// What it is.
    pub item: &'static Item,
    /// The knot in it.
    pub knot: &'static Knot,
    /// How it is loaded.
    pub loading: &'static Loading,
    /// Its condition.
    pub condition: &'static Condition,
    /// For a bolt, the angle of the pull from straight out of the rock, rad.
    pub pull: Band,
    /// The figure printed on it, N, above 0, if it is a part with one; of no meaning for the others.
    pub stated: f64,
}

/// What a part resists.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::strength::resistance::{LOADINGS, Part};
/// use rigging_core::strength::{condition::CONDITIONS, item::ITEMS, knot::NO_KNOT};
///
/// let condition = CONDITIONS.iter().find(|condition| condition.name == "new").ok_or("no such condition")?;
/// let loading = LOADINGS.iter().find(|loading| loading.name == "straight").ok_or("no such loading")?;
/// let item = ITEMS.iter().find(|item| item.name == "natural").ok_or("no such part")?;
/// let tree = Part { item, knot: &NO_KNOT, loading, condition, pull: Band::exact(0.0), stated: 0.0 };
/// // No number, but the reason; no step of working leads to it.
/// let resists = tree.resistance()?;
/// assert!(resists.band.is_none() && resists.steps.is_empty());
/// assert_eq!(resists.unknown, "natural anchor: no published strength holds for it");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Resistance {
    /// N; none if nobody knows.
    pub band: Option<Band>,
    /// Why nobody knows; empty if it is known.
    pub unknown: &'static str,
    /// The figure it starts from, as printed; none if nobody knows.
    pub figure: Option<Strength>,
    /// The steps that lead to it, each with its source.
    pub steps: Vec<Step>,
}

/// A combination that the trade excludes.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::strength::resistance::{LOADINGS, Part};
/// use rigging_core::strength::{condition::CONDITIONS, item::ITEMS, knot::KNOTS};
///
/// let item = ITEMS.iter().find(|item| item.name == "sling HMPE").ok_or("no such part")?;
/// let knot = KNOTS.iter().find(|knot| knot.name == "water").ok_or("no such knot")?;
/// let loading = LOADINGS.iter().find(|loading| loading.name == "straight").ok_or("no such loading")?;
/// let condition = CONDITIONS.iter().find(|condition| condition.name == "new").ok_or("no such condition")?;
/// let tied = Part { item, knot, loading, condition, pull: Band::exact(0.0), stated: 0.0 };
/// assert!(tied.resistance().is_err_and(|refused| refused.why.starts_with("a water knot slips in HMPE")));
/// # Ok::<(), &'static str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Refused {
    /// The reason.
    pub why: &'static str,
}

impl fmt::Display for Refused {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.why)
    }
}

impl std::error::Error for Refused {}

impl Part {
    /// What it resists.
    ///
    /// # Formula
    /// `R = figure × knot × condition × loading`, two strands being a loading of 2; each a range, all low ends together
    /// and all high ends together; for a bolt the figure is that of [`bolt::share_of_limit`] in the direction of the
    /// pull, N.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::strength::condition::CONDITIONS;
    /// use rigging_core::strength::item::ITEMS;
    /// use rigging_core::strength::knot::NO_KNOT;
    /// use rigging_core::strength::resistance::{LOADINGS, Part};
    ///
    /// let sling = ITEMS.iter().find(|item| item.name == "sling nylon").ok_or("a sewn sling")?;
    /// let choked = LOADINGS.iter().find(|loading| loading.name == "choked").ok_or("a way of loading")?;
    /// let new = CONDITIONS.iter().find(|condition| condition.name == "new").ok_or("a condition")?;
    /// let part =
    ///     Part { item: sling, knot: &NO_KNOT, loading: choked, condition: new, pull: Band::exact(0.0), stated: 0.0 };
    ///
    /// // EN 566: 22 kN for the loop; choked at most 0.8 of it (ASME B30.9, from memory): by hand 17.6 kN.
    /// let held = part.resistance()?;
    /// let band = held.band.ok_or(held.unknown)?;
    /// assert!((band.high() - 17_600.0).abs() < 1e-6 && band.low() < band.high());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    /// # Errors
    /// [`Refused`] if the trade excludes the combination, or no figure can mean it; also if a bolt is pulled outside of 0 to
    /// 180°, or the figure printed on a part is not a number above 0.
    /// # References
    /// Those of the figure, the knot, the condition and the loading.
    pub fn resistance(&self) -> Result<Resistance, Refused> {
        let Some(figure) = self.item.figure else { return Ok(Resistance::unknown("nothing is here")) };
        let (strength, made) = match figure {
            Figure::Unknown(why) => return Ok(Resistance::unknown(why)),
            Figure::Excluded(why) => return Err(Refused { why }),
            Figure::Soft(strength, made) => (strength, Some(made)),
            Figure::Connector { along, open, across } => {
                let strength = match self.loading.way {
                    Way::Plain => Ok(along),
                    Way::GateOpen => open,
                    Way::Across => across,
                    _ => Err("a connector is loaded along, with its gate open, or across"),
                };
                (strength.map_err(|why| Refused { why })?, None)
            }
            Figure::Plain(strength) | Figure::Bolt(strength, _) => (strength, None),
            Figure::Stated if self.stated > 0.0 && self.stated.is_finite() => {
                (Strength { printed: self.stated, ..STATED }, None)
            }
            Figure::Stated => return Err(Refused { why: "a figure printed on a part is a force above 0" }),
        };
        if made.is_none() {
            return self.hard(figure, strength);
        }
        self.soft(strength)
    }

    /// A part of metal, or a harness: a figure without knot.
    fn hard(&self, figure: Figure, strength: Strength) -> Result<Resistance, Refused> {
        if self.knot.name != NO_KNOT.name {
            return Err(Refused { why: "a knot is tied in rope, cord, tape or a sling, not in this part" });
        }
        if let Err(why) = self.condition.kept {
            return Ok(Resistance::unknown(why));
        }
        if self.condition.of.is_some() {
            return Err(Refused { why: "this condition was measured on rope, cord or tape, not on this part" });
        }
        if !matches!(figure, Figure::Connector { .. }) && self.loading.way != Way::Plain {
            return Ok(Resistance::unknown("no figure is known of this part loaded so"));
        }
        let (band, formula, given) = match figure {
            Figure::Bolt(out, along) => {
                let band = in_direction(self.pull, out, along)
                    .map_err(|_| Refused { why: "a bolt is pulled 0 to 180° from straight out" })?;
                let given = vec![
                    Given::exact("N_r", out.force().value, Kind::Force),
                    Given::exact("V_r", along.force().value, Kind::Force),
                    Given::new("α", self.pull, Kind::Angle),
                ];
                (band, "R = [(cos α/N_r)^(5/3) + (sin α/V_r)^(5/3)]^(−3/5)", given)
            }
            _ => {
                let force = strength.force().value;
                (Band::exact(force), "R = figure", vec![Given::exact("figure", force, Kind::Force)])
            }
        };
        let source = match figure {
            Figure::Bolt(..) => Source::memory("EN 959:2018; tension and shear together: ACI 318, commentary"),
            _ => strength.source,
        };
        Ok(Resistance::known(self.item.words, Some(strength), band, formula, given, source))
    }

    /// Rope, cord, tape or a sling.
    fn soft(&self, strength: Strength) -> Result<Resistance, Refused> {
        let Some(made) = self.item.made() else { return Ok(Resistance::unknown("not known")) };
        // What is excluded comes before what is not known.
        let knot = self.knot.kept(made);
        if let Kept::Refused(why) = knot {
            return Err(Refused { why });
        }
        let loading = match self.loading.way {
            Way::Plain | Way::NotMeasured(_) => Band::exact(1.0),
            Way::Share(low, typical, high) => Band::of(low, typical, high),
            Way::TwoStrands if made.form == Form::Sling => {
                return Err(Refused { why: "the figure of a sewn sling is that of its loop: choose straight" });
            }
            Way::TwoStrands => Band::exact(2.0),
            Way::GateOpen | Way::Across => return Err(Refused { why: "this way of loading is one of connectors" }),
        };
        if !self.condition.fits(made) {
            return Err(Refused { why: "this condition was measured on another material or form" });
        }
        let (condition, knot) = match (self.condition.kept, self.loading.way, knot) {
            (Err(why), ..) | (_, Way::NotMeasured(why), _) | (.., Kept::NotMeasured(why) | Kept::Refused(why)) => {
                return Ok(Resistance::unknown(why));
            }
            (Ok((low, typical, high)), _, Kept::Share(a, b, c)) => (Band::of(low, typical, high), Band::of(a, b, c)),
        };
        let figure = strength.force().value;
        let at = |end: fn(&Band) -> f64| figure * end(&knot) * end(&condition) * end(&loading);
        let band = Band::of(at(Band::low), at(Band::typical), at(Band::high));
        let given = vec![
            Given::exact("figure", figure, Kind::Force),
            Given::new("knot", knot, Kind::Ratio),
            Given::new("condition", condition, Kind::Ratio),
            Given::new("loading", loading, Kind::Ratio),
        ];
        let formula = "R = figure × knot × condition × loading";
        let mut known = Resistance::known(self.item.words, Some(strength), band, formula, given, strength.source);
        let shares = [
            (self.knot.words, "knot", knot, self.knot.source),
            (self.condition.words, "condition", condition, self.condition.source),
            (self.loading.words, "loading", loading, self.loading.source),
        ];
        for (words, symbol, share, source) in shares {
            if share != Band::exact(1.0) {
                let result = Given::new(symbol, share, Kind::Ratio);
                let what = format!("Share kept: {words}");
                known.steps.insert(0, Step { what, formula: "as tested", given: Vec::new(), result, source });
            }
        }
        Ok(known)
    }
}

/// A figure that the user reads off the part: what is printed is filled in.
const STATED: Strength = Strength {
    name: "stated",
    part: "figure printed on the part",
    bound: super::Bound::AtLeast,
    printed: 0.0,
    unit: crate::quantity::Unit::Newton,
    source: Source::YOURS,
};

impl Resistance {
    fn unknown(why: &'static str) -> Self {
        Resistance { band: None, unknown: why, figure: None, steps: Vec::new() }
    }

    fn known(
        what: &str,
        figure: Option<Strength>,
        band: Band,
        formula: &'static str,
        given: Vec<Given>,
        source: Source,
    ) -> Self {
        let result = Given::new("R", band, Kind::Force);
        let step = Step { what: format!("Resistance: {what}"), formula, given, result, source };
        Resistance { band: Some(band), unknown: "", figure, steps: vec![step] }
    }
}

/// The pull that a bolt resists within a range of directions, N.
///
/// It falls to where the slope of the interaction is none, `(sin α)^(−1/3) V_r^(−5/3) = (cos α)^(−1/3) N_r^(−5/3)`, so
/// `tan α = (N_r/V_r)^5`, and rises from there on: least there or at an end, largest at an end.
fn in_direction(pull: Band, out: Strength, along: Strength) -> Result<Band, OutOfDomain> {
    let at = |angle: f64| -> Result<f64, OutOfDomain> {
        let unit = bolt::parts(Force::new::<newton>(1.0), Angle::new::<radian>(angle))?;
        Ok(1.0 / bolt::share_of_limit(unit, out.force(), along.force())?.value)
    };
    let weakest = (out.force().value / along.force().value).powi(5).atan();
    let (low, typical, high) = (at(pull.low())?, at(pull.typical())?, at(pull.high())?);
    let least = at(weakest.max(pull.low()).min(pull.high()))?;
    Ok(Band::of(least, typical, low.max(high)))
}
