//! What comes back from a question.

use super::carried::Carried;
use super::graph::Graph;
use super::scene::Scene;
use crate::band::{Band, Spread};
use crate::law::gravity;
use crate::limit::Standing;
use crate::quantity::{Kind, Mass, Toward, Units, kilogram};
use crate::working::{Formula, Known, Source, Step};

/// The answer to a question.
/// ```
/// use rigging_core::question::{Entry, Question};
///
/// let mut anchor = Question::named("natural anchor")?;
/// for (name, mass) in [("body_kg", 80.0), ("kit_kg", 15.0), ("suit_water_kg", 5.0)] {
///     anchor.set(name, &Entry::One(mass))?;
/// }
/// let answer = anchor.answer()?;
/// // The states stand side by side, first hanging still: 100 kg weigh 980.665 N.
/// assert!((answer.states[0].adverse() - 980.665).abs() < 1e-9 && answer.states[3].adverse() > 980.665);
/// // Every number comes with what is not in it.
/// assert!(!answer.cautions.is_empty() && !answer.not_in.is_empty());
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Default, PartialEq)]
#[non_exhaustive]
pub struct Answer {
    /// What was found, the most important first.
    pub findings: Vec<Finding>,
    /// The states of the load side by side, from hanging still to a slip.
    pub states: Vec<Finding>,
    /// What else can happen, case by case.
    pub outcomes: Vec<Outcome>,
    /// How what was found stands against limits; first against the limit the user chose, if one can be.
    pub comparisons: Vec<Comparison>,
    /// What reaches the usual parts, for the question that asks for the weakest; none where nobody hangs.
    pub carried: Option<Carried>,
    /// How that stands against published figures for new, dry parts, whatever the user chose.
    pub usual: Vec<Comparison>,
    /// Remarks on what was found, in whole sentences.
    pub remarks: Vec<String>,
    /// How what was found stands against what others found, in whole sentences.
    pub stands: Vec<String>,
    /// What stands where and pulls how, for a picture: at the adverse end of the first finding.
    pub scene: Scene,
    /// The same seen from the side, where it does not lie in one plane, or at another moment.
    pub aside: Option<Scene>,
    /// The person hanging still, at the adverse end of that, where the scene is of a harder state.
    pub still: Option<Scene>,
    /// How the first finding moves with an input.
    pub graphs: Vec<Graph>,
    /// How the first finding came about, at its adverse end.
    pub working: Vec<Step>,
    /// What the numbers rest on that are not in the working.
    pub formulas: Vec<Formula>,
    /// Hazards, their consequence and how to avoid them.
    pub cautions: Vec<Caution>,
    /// What is not in the numbers.
    pub not_in: Vec<&'static str>,
}

/// Which end of a range hurts.
/// ```
/// use rigging_core::question::{Ask, End, HumanAnchor};
///
/// // What people hold hurts where it is least, what pulls at them at rest and in a slip where it is most.
/// let answer = HumanAnchor::default().answer()?;
/// let ends: Vec<End> = answer.findings.iter().take(3).map(|finding| finding.end).collect();
/// assert_eq!(ends, [End::Low, End::High, End::High]);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The high end: a load, shown as "up to".
    High,
    /// The low end: a strength, shown as "at least".
    Low,
}

impl End {
    /// How the end that hurts is rounded.
    /// ```
    /// use rigging_core::quantity::{Kind, Units};
    /// use rigging_core::question::End;
    ///
    /// // 4612 N: a load is shown no smaller, a strength no larger.
    /// let shown = |end: End| Units::default().show(4612.0, Kind::Force, end.toward());
    /// assert_eq!((shown(End::High), shown(End::Low)), ("4.7\u{a0}kN".into(), "4.6\u{a0}kN".into()));
    /// ```
    pub const fn toward(self) -> Toward {
        match self {
            End::High => Toward::More,
            End::Low => Toward::Less,
        }
    }
}

/// One value that was found.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::quantity::Kind;
/// use rigging_core::question::{End, Finding};
///
/// // Of a load the high end hurts, of a strength the low one.
/// let band = Band::of(1000.0, 2000.0, 4000.0);
/// let (load, strength) = (Finding::load("on the anchor", band), Finding::strength("of the knot", band));
/// assert_eq!((load.end, load.adverse(), load.friendly()), (End::High, 4000.0, 1000.0));
/// assert_eq!((strength.end, strength.adverse(), strength.friendly()), (End::Low, 1000.0, 4000.0));
/// // What something can do at the very most is no strength.
/// assert!(Finding::at_most("from this block", band).at_most && !strength.at_most);
/// assert_eq!(load.measured_as(Kind::Length).kind, Kind::Length);
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Finding {
    /// What it is, as it ends the sentence "up to 2 kN …": "on the left anchor".
    pub what: String,
    /// The range it lies in, SI.
    pub band: Band,
    /// What it measures.
    pub kind: Kind,
    /// Which end of the range hurts.
    pub end: End,
    /// True of what something can do at the very most: its low end hurts, but it is no strength.
    pub at_most: bool,
    /// Direction of the pull at the adverse end: angle from plumb, to the right above 0.
    pub pull: Option<f64>,
    /// How the case stands against it, where it is a limit that others found.
    pub stands: Option<&'static str>,
    /// The input that moves it most, in a few words of the question's own: no name of a field, and no label of one.
    pub moved_most_by: Option<&'static str>,
}

impl Finding {
    /// A load: its high end hurts.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::quantity::{Kind, Units};
    /// use rigging_core::question::Finding;
    ///
    /// let load = Finding::load("on the left anchor", Band::of(930.0, 2000.0, 4612.0));
    /// assert_eq!((load.kind, load.at_most), (Kind::Force, false));
    /// assert_eq!(Units::default().adverse(&load) + " " + &load.what, "4.7\u{a0}kN on the left anchor");
    /// ```
    pub fn load(what: impl Into<String>, band: Band) -> Self {
        let (kind, end) = (Kind::Force, End::High);
        Finding { what: what.into(), band, kind, end, at_most: false, pull: None, stands: None, moved_most_by: None }
    }

    /// A strength: its low end hurts.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::question::{Finding, as_people};
    ///
    /// // At least 4 kN, which are four people of 95 kg and a part of one who does not count.
    /// let knot = Finding::strength("of the knot", Band::of(4000.0, 6000.0, 8000.0));
    /// assert_eq!(as_people(knot.adverse(), knot.end), Some(4));
    /// ```
    pub fn strength(what: impl Into<String>, band: Band) -> Self {
        Finding { end: End::Low, ..Finding::load(what, band) }
    }

    /// What something can do at the very most, by a check that can only say no: its low end hurts.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::question::{End, Finding};
    ///
    /// let block = Finding::at_most("from this block", Band::of(1000.0, 2000.0, 4000.0));
    /// assert_eq!((block.at_most, block.end, block.adverse()), (true, End::Low, 1000.0));
    /// ```
    pub fn at_most(what: impl Into<String>, band: Band) -> Self {
        Finding { at_most: true, ..Finding::strength(what, band) }
    }

    /// The finding of a spread, and which of its named inputs moves it most.
    /// ```
    /// use rigging_core::band::{Band, sweep};
    /// use rigging_core::question::Finding;
    ///
    /// // The mass may double, the water adds a tenth at most: the mass moves the load most.
    /// let (mass, wet) = (Band::of(50.0, 75.0, 100.0), Band::of(1.0, 1.0, 1.1));
    /// let [load] = sweep([mass, wet], |[mass, wet]| Ok::<_, ()>([mass * wet * 9.8]))?;
    /// let found = Finding::load("in the rope", load.band).moved_by(&load, &["body mass", "water"]);
    /// assert_eq!(found.moved_most_by, Some("body mass"));
    /// # Ok::<(), ()>(())
    /// ```
    pub fn moved_by<const N: usize>(mut self, spread: &Spread<N>, inputs: &[&'static str; N]) -> Self {
        self.moved_most_by = spread.moved_most_by().and_then(|place| inputs.get(place).copied());
        self
    }

    /// The same finding of another kind of quantity.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::quantity::{Kind, Units};
    /// use rigging_core::question::Finding;
    ///
    /// let way = Finding::strength("from the first person to the lip", Band::exact(2.5)).measured_as(Kind::Length);
    /// assert_eq!(Units::default().adverse(&way), "2.5\u{a0}m");
    /// ```
    pub fn measured_as(self, kind: Kind) -> Self {
        Finding { kind, ..self }
    }

    /// The end of the range that hurts.
    /// ```
    /// use rigging_core::question::{Ask, HumanAnchor};
    ///
    /// // Of people who hold a rope: the least that they may hold over the most that may pull in a slip.
    /// let found = HumanAnchor::default().answer()?.findings;
    /// let ratio = found.iter().find(|finding| finding.what.starts_with("ratio at a slip")).ok_or("not found")?;
    /// assert!((ratio.adverse() - found[0].adverse() / found[2].adverse()).abs() < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn adverse(&self) -> f64 {
        match self.end {
            End::High => self.band.high(),
            End::Low => self.band.low(),
        }
    }

    /// The other end.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::question::Finding;
    ///
    /// let band = Band::of(1000.0, 2000.0, 4000.0);
    /// assert_eq!(Finding::load("on the anchor", band).friendly(), 1000.0);
    /// assert_eq!(Finding::strength("of the knot", band).friendly(), 4000.0);
    /// ```
    pub fn friendly(&self) -> f64 {
        match self.end {
            End::High => self.band.low(),
            End::Low => self.band.high(),
        }
    }
}

impl Units {
    /// The end of a finding that hurts, as it is shown big.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::quantity::Units;
    /// use rigging_core::question::Finding;
    ///
    /// let load = Finding::load("on the left anchor", Band::of(930.0, 2000.0, 4612.0));
    /// let units = Units::default();
    /// assert_eq!((units.adverse(&load), units.friendly(&load)), ("4.7\u{a0}kN".into(), "0.93\u{a0}kN".into()));
    /// ```
    pub fn adverse(self, finding: &Finding) -> String {
        self.show(finding.adverse(), finding.kind, finding.end.toward())
    }

    /// The other end of a finding: rounded away from the adverse end, so that the range shown holds all
    /// of the range found.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::quantity::Units;
    /// use rigging_core::question::Finding;
    ///
    /// // Of a load it is the low end, rounded down; of a strength the high one, rounded up.
    /// let (band, units) = (Band::of(939.0, 2000.0, 4612.0), Units::default());
    /// assert_eq!(units.friendly(&Finding::load("on the anchor", band)), "0.93\u{a0}kN");
    /// assert_eq!(units.friendly(&Finding::strength("of the knot", band)), "4.7\u{a0}kN");
    /// ```
    pub fn friendly(self, finding: &Finding) -> String {
        let away = match finding.end {
            End::High => Toward::Less,
            End::Low => Toward::More,
        };
        self.show(finding.friendly(), finding.kind, away)
    }
}

/// What was found in one case, such as that an anchor fails.
/// ```
/// use rigging_core::question::{AnchorLegs, Ask};
///
/// // Either of two anchors may fail.
/// let outcomes = AnchorLegs::default().answer()?.outcomes;
/// let cases: Vec<&str> = outcomes.iter().map(|outcome| outcome.case.as_str()).collect();
/// assert_eq!(cases, ["If the left anchor fails", "If the right anchor fails"]);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Outcome {
    /// The case, as a heading: "If the left anchor fails".
    pub case: String,
    /// What was found in it.
    pub findings: Vec<Finding>,
}

/// A force told as people who hang still, 95 kg each with kit and water.
///
/// A load is rounded up to whole people, a strength down; `None` for less than one person and for what is no number. More
/// than can be counted are as many as can.
///
/// # References
/// Common practice, no source: 95 kg, 0.93 kN, for a person with wet kit.
/// ```
/// use rigging_core::question::{End, as_people};
///
/// assert_eq!((as_people(2700.0, End::High), as_people(2700.0, End::Low)), (Some(3), Some(2)));
/// // As many as there are, whatever the last digit of a product says.
/// let weigh = |people: u32| f64::from(people * 95) * 9.80665;
/// assert!((1..=12).all(|people| as_people(weigh(people), End::High) == Some(people)));
/// ```
pub fn as_people(force: f64, end: End) -> Option<u32> {
    let people = force / gravity::weight(Mass::new::<kilogram>(ONE_PERSON)).value;
    // The last digits of a product make no person more or less.
    let [fewer, more] = [1.0 - 1e-9, 1.0 + 1e-9].map(|times| people * times);
    match end {
        _ if people.is_nan() || more < 1.0 => None,
        End::High => Some(fewer.ceil() as u32),
        End::Low => Some(more.floor() as u32),
    }
}

const ONE_PERSON: f64 = 95.0;

/// A load beside the limit it was compared with.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::limit::Standing;
/// use rigging_core::question::Against;
///
/// // Until a limit is chosen nothing is compared, however little the load is.
/// let compared = Against::default().compare("on the anchor", Band::exact(1.0));
/// assert!(compared.limit.is_none() && matches!(compared.standing, Standing::NotChecked(_)));
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Comparison {
    /// What was compared, as in a finding.
    pub what: String,
    /// The range that was compared, SI.
    pub load: Band,
    /// The limit, if one was chosen.
    pub limit: Option<ChosenLimit>,
    /// How the two stand.
    pub standing: Standing,
}

impl Units {
    /// A load and its limit as they stand beside each other: in two figures, a limit of one's own in three as it was
    /// entered, or in as
    /// many as it takes for a load below its limit to read so.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::quantity::Units;
    /// use rigging_core::question::{Against, LimitChoice};
    /// use rigging_core::strength::Strength;
    ///
    /// // 15 kN over 5 are 3 kN. Up to 2.91 is told as 3.0 elsewhere.
    /// let limit = Strength::named("bolt axial").map(LimitChoice::Published).ok_or("no such figure")?;
    /// let against = Against { limit, ..Against::default() };
    /// let told = |load| Units::default().compared(&against.compare("on the anchor", Band::exact(load)));
    /// assert_eq!(told(2710.0), ["2.8\u{a0}kN", "3.0\u{a0}kN"]);
    /// assert_eq!(told(2910.0), ["2.91\u{a0}kN", "3.00\u{a0}kN"]);
    /// # Ok::<(), &str>(())
    /// ```
    pub fn compared(self, comparison: &Comparison) -> [String; 2] {
        let load = &comparison.load;
        let told = |band: &Band, digits, exact| self.range_in(band, Kind::Force, digits, exact);
        let Some(limit) = &comparison.limit else { return [told(load, 2, Toward::More), "none".to_owned()] };
        let digits = self.figures_beside(load.high(), limit.band.low());
        let told_limit = if digits == 2 && limit.factor == 1.0 && limit.source.known == Known::Yours {
            self.measured(limit.band.low(), Kind::Force, Toward::Less)
        } else {
            told(&limit.band, digits, Toward::Less)
        };
        [told(load, digits, Toward::More), told_limit]
    }
}

/// A limit and whose it is.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::question::{Against, LimitChoice};
/// use rigging_core::strength::Strength;
///
/// // A rock anchor pulled straight out: 15 kN by its standard, over the design factor of 5.
/// let limit = Strength::named("bolt axial").map(LimitChoice::Published).ok_or("no such figure")?;
/// let compared = Against { limit, ..Against::default() }.compare("on the anchor", Band::exact(2000.0));
/// let limit = compared.limit.ok_or("no limit")?;
/// assert_eq!((limit.figure, limit.factor, limit.band), (15_000.0, 5.0, Band::exact(3000.0)));
/// # Ok::<(), &str>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct ChosenLimit {
    /// The limit as compared, after the design factor, N.
    pub band: Band,
    /// The figure before the design factor, N.
    pub figure: f64,
    /// The design factor it was divided by.
    pub factor: f64,
    /// What the figure is.
    pub part: String,
    /// Whose it is.
    pub source: Source,
}

/// How grave a caution is, by the published meanings of ANSI Z535.4.
/// ```
/// use rigging_core::question::{Gravity, Question};
///
/// // The cautions of every answer begin with what is gravest, and no question is without a danger.
/// for question in Question::all() {
///     let cautions = question.answer()?.cautions;
///     assert!(cautions.is_sorted_by_key(|caution| caution.gravity));
///     assert_eq!(cautions[0].gravity, Gravity::Danger);
/// }
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Gravity {
    /// Will end in death or grave injury if it is not avoided.
    Danger,
    /// Could end in death or grave injury.
    Warning,
    /// Could end in slight or moderate injury.
    Caution,
}

/// A hazard, what it does and how to avoid it.
/// ```
/// use rigging_core::question::{Caution, Gravity};
///
/// // The gravest come first in order.
/// assert!(Gravity::Danger < Gravity::Warning && Gravity::Warning < Gravity::Caution);
/// let cold = Caution::new(Gravity::Warning, "Cold water", "It takes the strength of hands.", "Wear gloves.");
/// assert!(cold.gravity < Caution::OF_EVERY_NUMBER.gravity);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Caution {
    /// How grave it is.
    pub gravity: Gravity,
    /// What threatens.
    pub hazard: &'static str,
    /// What then happens.
    pub consequence: &'static str,
    /// How to avoid it.
    pub avoidance: &'static str,
}

impl Caution {
    /// What holds of every number here; where people are the anchor, another stands in its place.
    /// ```
    /// use rigging_core::question::{Ask, Caution, Line};
    ///
    /// // It ends what is told of a line, whatever else threatens there.
    /// let cautions = Line::default().answer()?.cautions;
    /// assert!(cautions.len() > 1 && cautions.last() == Some(&Caution::OF_EVERY_NUMBER));
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub const OF_EVERY_NUMBER: Caution = Caution::new(
        Gravity::Caution,
        "A number from a page",
        "It knows nothing of the rock, the anchor, rust, wear, or how the knot was tied.",
        "Let qualified instruction, local rules and your own eyes decide.",
    );

    /// A caution of some gravity.
    /// ```
    /// use rigging_core::question::{Caution, Gravity};
    ///
    /// // The hazard, what it does, how to avoid it: in this order they are read.
    /// const COLD: Caution =
    ///     Caution::new(Gravity::Warning, "Cold water", "It takes the strength of hands.", "Wear gloves.");
    /// let read = [COLD.hazard, COLD.consequence, COLD.avoidance].join(" / ");
    /// assert_eq!(read, "Cold water / It takes the strength of hands. / Wear gloves.");
    /// ```
    pub const fn new(
        gravity: Gravity,
        hazard: &'static str,
        consequence: &'static str,
        avoidance: &'static str,
    ) -> Self {
        Caution { gravity, hazard, consequence, avoidance }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn loads_are_rounded_up_to_people_and_strengths_down() {
        assert_eq!(as_people(2700.0, End::High), Some(3));
        assert_eq!(as_people(2700.0, End::Low), Some(2));
        assert_eq!(as_people(200.0, End::High), None);
        assert_eq!(as_people(f64::NAN, End::High), None);
        assert_eq!(as_people(f64::INFINITY, End::High), Some(u32::MAX));
    }

    #[test]
    fn the_range_shown_holds_the_range_found() {
        let finding = Finding::load("", Band::of(933.7, 2048.8, 4612.5));
        assert_eq!(
            (Units::default().adverse(&finding), Units::default().friendly(&finding)),
            ("4.7\u{a0}kN".into(), "0.93\u{a0}kN".into())
        );
        let strength = Finding::strength("", Band::of(933.7, 2048.8, 4612.5));
        assert_eq!(
            (Units::default().adverse(&strength), Units::default().friendly(&strength)),
            ("0.93\u{a0}kN".into(), "4.7\u{a0}kN".into())
        );
    }
}
