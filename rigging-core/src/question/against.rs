//! What a load is compared with: the limit the user chose, and whose it is.

use super::answer::{ChosenLimit, Comparison};
use super::field::{Choice, Enters, Entry, Field, choices, put};
use crate::band::Band;
use crate::limit::Standing;
use crate::quantity::{Force, Kind, Ratio, kilonewton, ratio};
use crate::strength::{STRENGTHS, Strength};
use crate::working::{Given, Source, Step};

/// What the anchor is, as far as a limit can speak of it.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::limit::Standing;
/// use rigging_core::question::{Against, Holds, LimitChoice};
///
/// // 1 kN beside a limit of 6 kN of one's own: how it stands is told of a known bolt, of the others why it is not.
/// let stands = |holds| {
///     let against = Against { holds, limit: LimitChoice::Own, ..Against::default() };
///     against.compare("on the anchor", Band::exact(1000.0)).standing
/// };
/// assert_eq!(stands(Holds::KnownBolt), Standing::BelowLimit);
/// for (holds, reason) in [(Holds::FoundInPlace, "found"), (Holds::Natural, "natural"), (Holds::Unseen, "not seen")] {
///     assert!(matches!(stands(holds), Standing::NotChecked(why) if why.contains(reason)));
/// }
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Holds {
    /// A bolt whose standard and placing are known.
    KnownBolt,
    /// Hardware or slings found in place.
    #[default]
    FoundInPlace,
    /// A tree, log, block or chockstone.
    Natural,
    /// Not seen yet.
    Unseen,
}
choices!(Holds {
    KnownBolt = "known", "bolts whose standard and placing I know";
    FoundInPlace = "found", "found in place";
    Natural = "natural", "tree, log, block or chockstone";
    Unseen = "unseen", "not seen yet";
});

impl Holds {
    /// Why no limit holds for it, if none does.
    pub(super) fn unknown(self) -> Option<&'static str> {
        match self {
            Holds::KnownBolt => None,
            Holds::FoundInPlace => Some("anchor found in place: nobody knows its strength"),
            Holds::Natural => Some("natural anchor: no published strength holds for it"),
            Holds::Unseen => Some("anchor not seen yet"),
        }
    }
}

/// The limit a load is compared with.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::limit::Standing;
/// use rigging_core::quantity::{Force, kilonewton};
/// use rigging_core::question::{Against, Holds, LimitChoice};
///
/// // A limit of one's own is compared as it is. Only a bolt that is known can be below it.
/// let own = Against { limit: LimitChoice::Own, own: Force::new::<kilonewton>(6.0), ..Against::default() };
/// let known = Against { holds: Holds::KnownBolt, ..own };
/// let stands = |against: &Against, load| against.compare("on the anchor", Band::exact(load)).standing;
/// assert_eq!(stands(&known, 5900.0), Standing::BelowLimit);
/// assert!(matches!(stands(&own, 5900.0), Standing::NotChecked(why) if why.contains("found in place")));
/// // What is too much is too much for either.
/// assert_eq!((stands(&known, 6100.0), stands(&own, 6100.0)), (Standing::AboveLimit, Standing::AboveLimit));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Against {
    /// What holds the load.
    pub holds: Holds,
    /// Whose limit.
    pub limit: LimitChoice,
    /// The user's own limit, used if `limit` says so.
    pub own: Force,
    /// Design factor: the figure is divided by it.
    pub factor: Ratio,
}

impl Default for Against {
    fn default() -> Self {
        Against {
            holds: Holds::default(),
            limit: LimitChoice::None,
            own: Force::new::<kilonewton>(6.0),
            factor: Ratio::new::<ratio>(5.0),
        }
    }
}

/// Which figure is the limit.
/// ```
/// use rigging_core::question::{Enters, Entry, LimitChoice};
///
/// // By its name in JSON.
/// assert_eq!(LimitChoice::from_entry(&Entry::Choice("own")), Some(LimitChoice::Own));
/// let bolt = LimitChoice::from_entry(&Entry::Choice("bolt axial"));
/// assert!(matches!(bolt, Some(LimitChoice::Published(bolt)) if bolt.force().value == 15_000.0));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum LimitChoice {
    /// None is chosen yet.
    None,
    /// A force the user gives.
    Own,
    /// A published figure.
    Published(&'static Strength),
}

#[expect(clippy::indexing_slicing, reason = "runs in the compiler, which refuses a place out of bounds")]
const LIMIT_CHOICES: &[Choice] = &{
    let mut choices = [Choice { name: "none", words: "none chosen yet" }; STRENGTHS.len() + 2];
    choices[1] = Choice { name: "own", words: "a limit of my own" };
    let mut place = 0;
    while place < STRENGTHS.len() {
        choices[place + 2] = Choice { name: STRENGTHS[place].name, words: STRENGTHS[place].part };
        place += 1;
    }
    choices
};

impl Enters for LimitChoice {
    fn to_entry(&self) -> Entry {
        Entry::Choice(match self {
            LimitChoice::None => "none",
            LimitChoice::Own => "own",
            LimitChoice::Published(strength) => strength.name,
        })
    }
    fn from_entry(entry: &Entry) -> Option<Self> {
        match entry {
            Entry::Choice("none") => Some(LimitChoice::None),
            Entry::Choice("own") => Some(LimitChoice::Own),
            Entry::Choice(name) => Strength::named(name).map(LimitChoice::Published),
            _ => None,
        }
    }
}

impl Against {
    /// Compares a load band (N) on an anchor with the chosen limit.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::limit::Standing;
    /// use rigging_core::question::{Against, Holds, LimitChoice};
    /// use rigging_core::strength::Strength;
    ///
    /// // 15 kN over the design factor of 5 is 3 kN, which the range touches.
    /// let limit = Strength::named("bolt axial").map(LimitChoice::Published).ok_or("no such figure")?;
    /// let against = Against { holds: Holds::KnownBolt, limit, ..Against::default() };
    /// assert_eq!(against.compare("on the anchor", Band::of(1000.0, 2000.0, 3000.0)).standing, Standing::RangeCrosses);
    /// assert_eq!(against.compare("on the anchor", Band::of(1000.0, 2000.0, 2900.0)).standing, Standing::BelowLimit);
    /// # Ok::<(), &str>(())
    /// ```
    pub fn compare(&self, what: impl Into<String>, load: Band) -> Comparison {
        let limit = self.limit();
        let standing = match &limit {
            None => Standing::NotChecked("no limit chosen"),
            Some(limit) => {
                let standing = Standing::of(load, limit.band);
                let unknown = self.holds.unknown().or(self.without_knot());
                unknown.map_or(standing, |reason| standing.of_unknown_part(reason))
            }
        };
        Comparison { what: what.into(), load, limit, standing }
    }

    /// The same where it is not known which way the rock faces: nothing is below the limit of a bolt pulled along it.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::limit::Standing;
    /// use rigging_core::question::{Against, Holds, LimitChoice};
    /// use rigging_core::strength::Strength;
    ///
    /// // 25 kN along the rock over 5 is 5 kN: nothing is below it, but 6 kN are above.
    /// let limit = Strength::named("bolt radial").map(LimitChoice::Published).ok_or("no such figure")?;
    /// let against = Against { holds: Holds::KnownBolt, limit, ..Against::default() };
    /// let stands = |load| against.compare_any_way("on the anchor", Band::exact(load)).standing;
    /// assert!(matches!(stands(1000.0), Standing::NotChecked(_)));
    /// assert_eq!(stands(6000.0), Standing::AboveLimit);
    /// # Ok::<(), &str>(())
    /// ```
    pub fn compare_any_way(&self, what: impl Into<String>, load: Band) -> Comparison {
        let compared = self.compare(what, load);
        if self.is_along_the_rock() {
            compared.of_unknown_part("the pull may come out of the rock: compare with a bolt pulled straight out")
        } else {
            compared
        }
    }

    /// The same for a force in a rope, a line or a loop: no figure of an anchor is one of it.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::limit::Standing;
    /// use rigging_core::question::{Against, Holds, LimitChoice};
    /// use rigging_core::strength::Strength;
    ///
    /// // A figure of a bolt says nothing of a rope.
    /// let limit = Strength::named("bolt axial").map(LimitChoice::Published).ok_or("no such figure")?;
    /// let against = Against { holds: Holds::KnownBolt, limit, ..Against::default() };
    /// assert!(matches!(against.compare_rope("in the rope", Band::exact(1000.0)).standing, Standing::NotChecked(_)));
    /// assert_eq!(against.compare("on the anchor", Band::exact(1000.0)).standing, Standing::BelowLimit);
    /// # Ok::<(), &str>(())
    /// ```
    pub fn compare_rope(&self, what: impl Into<String>, load: Band) -> Comparison {
        let compared = self.compare(what, load);
        if self.is_of_anchor() {
            compared.of_unknown_part("the figure chosen is one of an anchor, not of what runs to it")
        } else {
            compared
        }
    }

    /// The design factor in use: one that is not asked for does not count.
    /// ```
    /// use rigging_core::quantity::{Ratio, ratio};
    /// use rigging_core::question::{Against, LimitChoice};
    /// use rigging_core::strength::Strength;
    ///
    /// // A factor counts with a published figure, which is divided by it; elsewhere the usual one stands.
    /// let ten = Against { factor: Ratio::new::<ratio>(10.0), ..Against::default() };
    /// let limit = Strength::named("bolt axial").map(LimitChoice::Published).ok_or("no such figure")?;
    /// assert_eq!(Against { limit, ..ten }.factor_in_use(), 10.0);
    /// assert_eq!(ten.factor_in_use(), Against::default().factor.value);
    /// # Ok::<(), &str>(())
    /// ```
    pub fn factor_in_use(&self) -> f64 {
        match self.limit {
            LimitChoice::Published(_) => self.factor.value,
            LimitChoice::None | LimitChoice::Own => Against::default().factor.value,
        }
    }

    fn limit(&self) -> Option<ChosenLimit> {
        let (figure, factor, part, source) = match self.limit {
            LimitChoice::None => return None,
            LimitChoice::Own => (self.own.value, 1.0, "a limit of your own".to_owned(), Source::YOURS),
            LimitChoice::Published(_) => {
                let strength = self.figure()?;
                (strength.force().value, self.factor.value, strength.part.to_owned(), strength.source)
            }
        };
        Some(ChosenLimit { band: Band::exact(figure / factor), figure, factor, part, source })
    }
}

impl Comparison {
    /// The same for a part of which this is unknown: too much stays too much, but nothing is below a limit.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::limit::Standing;
    /// use rigging_core::question::{Against, Holds, LimitChoice};
    ///
    /// // 6 kN of one's own: less is not told any more, more still is.
    /// let against = Against { holds: Holds::KnownBolt, limit: LimitChoice::Own, ..Against::default() };
    /// let compare = |load| against.compare("on the anchor", Band::exact(load));
    /// let stands = |load| compare(load).of_unknown_part("its bolt is hidden").standing;
    /// assert_eq!(stands(5000.0), Standing::NotChecked("its bolt is hidden"));
    /// assert_eq!(stands(7000.0), Standing::AboveLimit);
    /// ```
    pub fn of_unknown_part(self, reason: &'static str) -> Self {
        Comparison { standing: self.standing.of_unknown_part(reason), ..self }
    }

    /// The same if there is such a reason.
    pub(super) fn unless(self, reason: Option<&'static str>) -> Self {
        match reason {
            Some(reason) => self.of_unknown_part(reason),
            None => self,
        }
    }
}

impl ChosenLimit {
    /// The step of a working that finds the limit.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::question::{Against, LimitChoice};
    /// use rigging_core::strength::Strength;
    ///
    /// let limit = Strength::named("bolt axial").map(LimitChoice::Published).ok_or("no such figure")?;
    /// let compared = Against { limit, ..Against::default() }.compare("on the anchor", Band::exact(2000.0));
    /// let step = compared.limit.ok_or("no limit")?.step();
    /// // 15 kN / 5 = 3 kN.
    /// assert_eq!((step.formula, step.result.band.typical()), ("limit = figure / design factor", 3000.0));
    /// # Ok::<(), &str>(())
    /// ```
    pub fn step(&self) -> Step {
        Step {
            what: format!("Limit: {}", self.part),
            formula: "limit = figure / design factor",
            given: vec![
                Given::exact("figure", self.figure, Kind::Force),
                Given::exact("design factor", self.factor, Kind::Ratio),
            ],
            result: Given::new("limit", self.band, Kind::Force),
            source: self.source,
        }
    }
}

/// A question whose load is compared with a limit.
pub trait HasLimit {
    /// What it is compared with.
    fn against(&self) -> &Against;
    /// What it is compared with, to be changed.
    fn against_mut(&mut self) -> &mut Against;
}

/// Lets a question with a field `against` ask for the limit.
macro_rules! asks_limit {
    ($question:ty) => {
        impl $crate::question::against::HasLimit for $question {
            fn against(&self) -> &Against {
                &self.against
            }
            fn against_mut(&mut self) -> &mut Against {
                &mut self.against
            }
        }
    };
}
pub(crate) use asks_limit;

/// The fields of the comparison. They keep their letters in the link in every question.
pub fn fields<Q: HasLimit>() -> [Field<Q>; 4] {
    const {
        [
            Field::choice(
                'q',
                "anchor",
                Holds::CHOICES,
                (
                    |question: &Q| question.against().holds.to_entry(),
                    |question, entry| put(&mut question.against_mut().holds, entry),
                ),
            )
            .says("What the anchors are", "only a bolt whose standard and placing you know can be below a limit"),
            Field::choice(
                'l',
                "limit",
                LIMIT_CHOICES,
                (
                    |question: &Q| question.against().limit.to_entry(),
                    |question, entry| put(&mut question.against_mut().limit, entry),
                ),
            )
            .says("Compare with", "a published figure for a new, dry specimen, or a limit of your own"),
            Field::one(
                'o',
                "own_limit_n",
                Kind::Force,
                10.0..=100_000.0,
                (
                    |question: &Q| question.against().own.to_entry(),
                    |question, entry| put(&mut question.against_mut().own, entry),
                ),
            )
            .says("My own limit", "taken as it is, without a design factor")
            .asked_if(|question| question.against().limit == LimitChoice::Own),
            Field::one(
                'y',
                "design_factor",
                Kind::Ratio,
                1.0..=20.0,
                (
                    |question: &Q| question.against().factor.to_entry(),
                    |question, entry| put(&mut question.against_mut().factor, entry),
                ),
            )
            .says("Design factor", "the published strength is divided by it; 5 to 12 is usual for fibre rope")
            .from(Source::published("5 to 12 for fibre rope, Cordage Institute"))
            .asked_if(|question| matches!(question.against().limit, LimitChoice::Published(_))),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_published_figure_is_divided_and_only_a_known_bolt_can_be_below_it() {
        let mut against =
            Against { limit: LimitChoice::Published(Strength::named("bolt axial").unwrap()), ..Against::default() };
        let load = Band::of(1000.0, 2000.0, 2999.0);
        assert_eq!(against.compare("", load).standing.words(), "not checked");
        against.holds = Holds::KnownBolt;
        assert_eq!(against.compare("", load).standing, Standing::BelowLimit);
        assert_eq!(against.compare("", Band::of(1000.0, 2000.0, 3000.0)).standing, Standing::RangeCrosses);
        against.holds = Holds::Natural;
        assert_eq!(against.compare("", Band::of(3001.0, 4000.0, 5000.0)).standing, Standing::AboveLimit);
    }

    #[test]
    fn a_figure_that_only_bears_the_name_of_a_published_one_is_not_believed() {
        let bolt = Strength::named("bolt axial").unwrap();
        let compared = |figure: Strength| {
            let limit = LimitChoice::Published(Box::leak(Box::new(figure)));
            Against { holds: Holds::KnownBolt, limit, ..Against::default() }.compare("", Band::exact(5000.0))
        };
        let stronger = Strength { printed: 1000.0 * bolt.printed, ..*bolt };
        assert_eq!(compared(stronger), compared(*bolt));
        let unknown = Strength { name: "a bolt of nobody's", ..stronger };
        assert_eq!(compared(unknown).standing, Standing::NotChecked("no limit chosen"));
    }

    #[test]
    fn every_published_figure_is_one_of_an_anchor_of_something_soft_or_of_metal() {
        let metal = ["screw link", "connector", "connector open", "connector minor"];
        for figure in STRENGTHS {
            let against = Against { limit: LimitChoice::Published(figure), ..Against::default() };
            let kinds = [against.is_of_anchor(), against.is_soft(), metal.contains(&figure.name)];
            assert_eq!(kinds.into_iter().filter(|is| *is).count(), 1, "{}: say what it is one of", figure.name);
        }
    }

    #[test]
    fn without_a_limit_nothing_is_checked() {
        let against = Against { holds: Holds::KnownBolt, ..Against::default() };
        assert_eq!(against.compare("", Band::exact(1.0)).standing, Standing::NotChecked("no limit chosen"));
    }

    #[test]
    fn a_figure_of_an_anchor_is_none_of_rope_and_cord_ends_in_a_knot() {
        let against = |name: &str| {
            let limit = LimitChoice::Published(Strength::named(name).unwrap());
            Against { holds: Holds::KnownBolt, limit, ..Against::default() }
        };
        let light = Band::exact(10.0);
        for name in ["bolt radial", "bolt axial", "work anchor", "cord 6 mm", "cord 7 mm"] {
            assert_eq!(against(name).compare_rope("", light).standing.words(), "not checked", "{name}");
        }
        assert_eq!(against("cord 7 mm").compare("", light).standing.words(), "not checked");
        assert_eq!(against("rope B tied").compare_rope("", light).standing, Standing::BelowLimit);
    }
}
