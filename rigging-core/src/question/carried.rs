//! What a rig makes the usual parts carry, and how that stands against the figures of their standards.

use super::against::{Against, Holds};
use super::answer::{ChosenLimit, Comparison};
use crate::band::Band;
use crate::limit::Standing;
use crate::strength::hardware::{ARREST_EN, ARREST_US, BOLT_AXIAL, CONNECTOR, CONNECTOR_OPEN};
use crate::strength::rope::{ROPE_A_PEAK, ROPE_B_TIED, SEWN_SLING, SINGLE_PEAK};
use crate::strength::{Bound, Strength};

/// Forces that reach the parts which every rig has, N.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::question::{Carried, HangOn, HeldBy};
///
/// // Two people on one rope that lies over an edge: the rope, the point and the edge get one force.
/// let force = Band::of(2000.0, 3000.0, 5000.0);
/// let carried = Carried::by_rope(force, 2, HeldBy::Edge);
/// assert_eq!((carried.people, carried.on), (2, HangOn::Rope));
/// assert_eq!((carried.rope, carried.point, carried.anchor), (force, force, force));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Carried {
    /// From those who hang, on what they hang on.
    pub hung: Band,
    /// How many hang on it.
    pub people: u32,
    /// On the harness of one of them: an even share, or what one alone would get if that is more.
    pub one: Band,
    /// What it is.
    pub on: HangOn,
    /// In the rope or the line where it carries most.
    pub rope: Band,
    /// On the point that the anchors hold.
    pub point: Band,
    /// On the anchor that is pulled hardest.
    pub anchor: Band,
    /// What that anchor is.
    pub held: HeldBy,
}

/// What people hang on.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::question::{Against, Carried, HangOn, HeldBy};
///
/// // On a line hangs a cow's tail, whose connector is asked too; on the anchor it is the tail instead of a rope.
/// let asks = |on, part: &str| {
///     let mut carried = Carried::by_rope(Band::exact(2000.0), 1, HeldBy::Edge);
///     carried.on = on;
///     carried.compare(&Against::default()).iter().any(|row| row.what == part)
/// };
/// let (connector, rope) = ("on a connector of the cow's tail", "on a connector in the rope");
/// assert!(asks(HangOn::Line, connector) && asks(HangOn::Tail, connector) && !asks(HangOn::Rope, connector));
/// assert!(asks(HangOn::Rope, rope) && !asks(HangOn::Tail, rope));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum HangOn {
    /// The rope itself.
    Rope,
    /// A cow's tail on a line.
    Line,
    /// A cow's tail on the anchor.
    Tail,
}

/// What the anchor that is pulled hardest is.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::limit::Standing;
/// use rigging_core::question::{Against, Carried, HeldBy};
///
/// // Whatever is no sound bolt says so beside the figure of one; beside people no such figure stands.
/// let anchor = |held| {
///     let rows = Carried::by_rope(Band::exact(2000.0), 1, held).compare(&Against::default());
///     rows.into_iter().find(|row| row.what.contains("anchor")).map(|row| row.standing)
/// };
/// assert_eq!(anchor(HeldBy::Proud), Some(Standing::NotChecked("a bolt that stands proud bends")));
/// assert_eq!(anchor(HeldBy::Edge), Some(Standing::NotChecked("an edge has no published strength")));
/// assert_eq!(anchor(HeldBy::People), None);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum HeldBy {
    /// What was said of it.
    Said(Holds),
    /// A bolt that stands proud of the rock.
    Proud,
    /// No anchor: the rope lies over an edge.
    Edge,
    /// People.
    People,
}

impl HeldBy {
    /// Why no figure of a bolt holds for it, if none does.
    fn unknown(self) -> Option<&'static str> {
        match self {
            HeldBy::Said(holds) => holds.unknown(),
            HeldBy::Proud => Some("a bolt that stands proud bends"),
            HeldBy::Edge => Some("an edge has no published strength"),
            HeldBy::People => Some("people hold: no limit holds for them"),
        }
    }

    /// What the question for the weakest part calls it.
    pub(super) fn item(self) -> &'static str {
        match self {
            HeldBy::Said(Holds::KnownBolt) => "bolt",
            HeldBy::Said(Holds::Natural) | HeldBy::Edge => "natural",
            HeldBy::Said(Holds::FoundInPlace) | HeldBy::Proud => "bolt found",
            HeldBy::Said(Holds::Unseen) => "unseen",
            HeldBy::People => "people",
        }
    }
}

pub(super) const USUAL: &str =
    "a figure of usual parts, new and dry: yours, their knots and their wear are not known here";
const TEST_FALL: &str = "the most that its test fall may pull, not a strength";

/// The larger low end, typical value and high end.
pub(super) fn larger(one: Band, other: Band) -> Band {
    Band::of(one.low().max(other.low()), one.typical().max(other.typical()), one.high().max(other.high()))
}

/// A load beside the figure of a usual part: nobody said that this is the part which is there, nor its knot, nor its
/// wear.
pub(super) fn usual_row(what: &str, load: Band, figure: Strength, factor: f64, unknown: &'static str) -> Comparison {
    let force = figure.force().value;
    let factor = if figure.bound == Bound::AtLeast { factor } else { 1.0 };
    let band = Band::exact(force / factor);
    let limit = ChosenLimit { band, figure: force, factor, part: figure.part.to_owned(), source: figure.source };
    let standing = Standing::of(load, band).of_unknown_part(unknown);
    Comparison { what: what.to_owned(), load, limit: Some(limit), standing }
}

impl Carried {
    /// A rope that people hang on, and its anchor, under one and the same force.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::question::{Against, Carried, HeldBy, Holds};
    ///
    /// // Two on one rope: the harness of each gets half of what the anchor gets.
    /// let two = Carried::by_rope(Band::exact(5000.0), 2, HeldBy::Said(Holds::KnownBolt));
    /// let on = |part| two.compare(&Against::default()).iter().find(|row| row.what == part).map(|row| row.load);
    /// assert_eq!(on("on the harness of one person"), Some(Band::exact(2500.0)));
    /// assert_eq!(on("on the anchor that is pulled hardest"), Some(Band::exact(5000.0)));
    /// ```
    pub fn by_rope(force: Band, people: u32, held: HeldBy) -> Self {
        let one = force.map(|force| force / f64::from(people.max(1)));
        Carried { hung: force, people, one, on: HangOn::Rope, rope: force, point: force, anchor: force, held }
    }

    /// The same where one of several, if there are, would alone get so much.
    pub(super) fn or_one_alone(self, alone: Option<Band>) -> Self {
        Carried { one: alone.map_or(self.one, |alone| larger(self.one, alone)), ..self }
    }

    /// Each of them against published figures for new, dry parts, whatever else was chosen to compare with: strengths
    /// over the design factor, most forces as they are. It can be said to be too much for them, but never to be below
    /// a limit: that takes the parts that are there.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::limit::Standing;
    /// use rigging_core::question::{Against, Carried, HeldBy, Holds};
    ///
    /// // A connector of 20 kN over the design factor of 5 is 4 kN: 4.1 kN are too much for it, 3.9 kN are not told
    /// // to be little.
    /// let stands = |force| {
    ///     let carried = Carried::by_rope(Band::exact(force), 1, HeldBy::Said(Holds::KnownBolt));
    ///     let rows = carried.compare(&Against::default());
    ///     rows.into_iter().find(|row| row.what == "on a connector in the rope").map(|row| row.standing)
    /// };
    /// assert_eq!(stands(4100.0), Some(Standing::AboveLimit));
    /// assert!(matches!(stands(3900.0), Some(Standing::NotChecked(_))));
    /// ```
    pub fn compare(&self, against: &Against) -> Vec<Comparison> {
        let factor = against.factor_in_use();
        let row = |what: &str, load, figure, unknown: Option<&'static str>| {
            usual_row(what, load, figure, factor, unknown.unwrap_or(USUAL))
        };
        let (rope, knot, connector, open) = match self.on {
            HangOn::Rope => (
                "in the rope where it carries most",
                "in the rope where it carries most, with its knot",
                "on a connector in the rope",
                "on a connector in the rope, should its gate open",
            ),
            HangOn::Line => (
                "in the line where it carries most",
                "in the line where it carries most, with its knot",
                "on a connector in the line",
                "on a connector in the line, should its gate open",
            ),
            HangOn::Tail => (
                "in the cow's tail",
                "in the cow's tail, if it is a sewn sling",
                "on a connector of the cow's tail",
                "on a connector of the cow's tail, should its gate open",
            ),
        };
        let mut rows = vec![
            row("on the harness of one person", self.one, ARREST_EN, None),
            row("on the harness of one person", self.one, ARREST_US, None),
        ];
        if self.on == HangOn::Tail {
            rows.push(row(knot, self.rope, SEWN_SLING, None));
        } else {
            rows.push(row(rope, self.rope, ROPE_A_PEAK, Some(TEST_FALL)));
            rows.push(row(rope, self.rope, SINGLE_PEAK, Some(TEST_FALL)));
            rows.push(row(knot, self.rope, ROPE_B_TIED, None));
        }
        rows.push(row(connector, self.rope, CONNECTOR, None));
        rows.push(row(open, self.rope, CONNECTOR_OPEN, None));
        if self.on == HangOn::Line {
            rows.push(row("on a connector of the cow's tail", self.hung, CONNECTOR, None));
            rows.push(row("on a connector of the cow's tail, should its gate open", self.hung, CONNECTOR_OPEN, None));
        }
        // No figure of a bolt is set beside people.
        if self.held != HeldBy::People {
            rows.push(row("on the anchor that is pulled hardest", self.anchor, BOLT_AXIAL, self.held.unknown()));
        }
        rows
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Answer, Entry, LimitChoice, Question};
    use super::*;
    use crate::quantity::Ratio;

    fn carried() -> Carried {
        let held = HeldBy::Said(Holds::KnownBolt);
        let anchor = Band::exact(2900.0);
        Carried { point: anchor, anchor, ..Carried::by_rope(Band::of(2000.0, 3000.0, 5000.0), 2, held) }
    }

    fn stand(carried: &Carried, against: &Against) -> Vec<&'static str> {
        carried.compare(against).iter().map(|row| row.standing.words()).collect()
    }

    #[test]
    fn strengths_are_divided_by_the_design_factor_and_most_forces_are_not() {
        let mut against = Against::default();
        let (crosses, above, not) = ("range crosses limit", "above limit", "not checked");
        // By hand, factor 5: 2.5 kN each of 6 and 8 kN; of 12/5 = 2.4; 20/5 = 4; 7/5 = 1.4; 2.9 of 15/5.
        assert_eq!(stand(&carried(), &against), [not, not, not, not, crosses, crosses, above, not]);
        against.factor = Ratio::new::<crate::quantity::ratio>(10.0);
        // A factor that is not asked for does not count.
        assert_eq!(stand(&carried(), &against), [not, not, not, not, crosses, crosses, above, not]);
        against.limit = LimitChoice::Published(&BOLT_AXIAL);
        assert_eq!(stand(&carried(), &against), [not, not, not, not, above, crosses, above, above]);
        let hard = Carried { rope: Band::exact(12_500.0), ..carried() };
        assert_eq!(stand(&hard, &against)[2..4], [above, above]);
    }

    #[test]
    fn nothing_usual_is_below_a_limit_and_the_reason_names_what_holds() {
        let light = Band::exact(10.0);
        for (held, reason) in [
            (HeldBy::Said(Holds::KnownBolt), "usual parts"),
            (HeldBy::Said(Holds::FoundInPlace), "found in place"),
            (HeldBy::Said(Holds::Natural), "natural"),
            (HeldBy::Said(Holds::Unseen), "not seen"),
            (HeldBy::Proud, "stands proud"),
            (HeldBy::Edge, "edge"),
        ] {
            let rows = Carried { held, anchor: light, ..carried() }.compare(&Against::default());
            let last = rows.last().unwrap();
            assert!(matches!(last.standing, Standing::NotChecked(why) if why.contains(reason)), "{held:?}");
        }
        let people = Carried { held: HeldBy::People, ..carried() }.compare(&Against::default());
        assert!(people.iter().all(|row| !row.what.contains("anchor")), "no figure of a bolt beside people");
    }

    #[test]
    fn on_a_line_the_harness_gets_the_load_and_the_knot_the_tension() {
        let one = carried().hung;
        let line = Carried { on: HangOn::Line, rope: Band::exact(9000.0), people: 1, one, ..carried() };
        for row in line.compare(&Against::default()) {
            let expected = if row.what.contains("anchor") {
                line.anchor
            } else if row.what.contains("harness") || row.what.contains("tail") {
                line.hung
            } else {
                line.rope
            };
            assert_eq!(row.load, expected, "{}", row.what);
        }
    }

    fn answers(question: &str, with: &[(&str, Entry)]) -> Answer {
        let mut asked = Question::named(question).unwrap();
        for (field, entry) in with {
            asked.set(field, entry).unwrap();
        }
        asked.answer().unwrap()
    }

    #[test]
    fn the_anchor_carries_the_worst_that_the_question_found() {
        let judged = |question| (question, vec![("anchor", Entry::Choice("known"))]);
        let mut asked: Vec<_> =
            ["anchor legs", "line", "bend", "abseil", "guided abseil", "raise and lower"].map(judged).into();
        // Judged hanging still, a catch after a failure is the hardest of all.
        asked.push(("anchor legs", vec![("state", Entry::Choice("still")), ("rope_m", Entry::One(0.5))]));
        for (question, with) in asked {
            let answer = answers(question, &with);
            let carried = answer.carried.unwrap();
            for compared in answer.comparisons.iter().filter(|compared| compared.what.contains("anchor")) {
                assert!(carried.anchor.high() >= compared.load.high(), "{question}: {}", compared.what);
            }
            for compared in answer.comparisons.iter().filter(|compared| compared.what.contains("in the line")) {
                assert!(carried.rope.high() >= compared.load.high(), "{question}: {}", compared.what);
            }
        }
    }

    #[test]
    fn a_raised_rope_carries_more_than_its_load_and_a_ring_more_than_its_rope() {
        let bend = |with: &[(&str, Entry)]| answers("bend", with);
        let raised = bend(&[("runs", Entry::Choice("raising")), ("state", Entry::Choice("still"))]);
        let carried = raised.carried.unwrap();
        let hand =
            raised.findings.iter().find(|finding| finding.what.contains("hand") && finding.what.contains("rais"));
        let load = raised.states[0].band.high();
        assert!(carried.rope.high() > load && carried.rope.high() >= hand.unwrap().band.high());
        assert!(carried.point.high() >= raised.findings[0].band.high());
        let held = |with| bend(&[with]).carried.unwrap().held;
        assert_eq!(held(("anchor", Entry::Choice("known"))), HeldBy::Said(Holds::KnownBolt));
        assert_eq!(held(("bolt", Entry::Choice("proud"))), HeldBy::Proud);
        assert_eq!(held(("bolt", Entry::Choice("none"))), HeldBy::Said(Holds::Natural));
        assert_eq!(held(("over_1", Entry::Choice("polished rock"))), HeldBy::Edge);
    }

    #[test]
    fn no_question_has_a_usual_row_below_a_limit() {
        for question in Question::all() {
            let usual = question.answer().unwrap().usual;
            assert!(usual.iter().all(|row| row.standing != Standing::BelowLimit), "{}", question.name());
        }
    }

    #[test]
    fn a_crossing_that_may_be_set_in_many_ways_and_the_foot_of_a_guide_are_not_checked() {
        let limit = [
            ("anchor", Entry::Choice("known")),
            ("limit", Entry::Choice("own")),
            ("own_limit_n", Entry::One(100_000.0)),
        ];
        for (question, place) in [("line", "worst place of the crossing"), ("guided abseil", "bottom anchor")] {
            let answer = answers(question, &limit);
            let compared = answer.comparisons.iter().find(|compared| compared.what.contains(place)).unwrap();
            assert!(matches!(compared.standing, Standing::NotChecked(_)), "{question}: {:?}", compared.standing);
        }
    }
}
