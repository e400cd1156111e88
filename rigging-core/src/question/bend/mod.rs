//! What does the redirect, ring or edge carry?

mod case;
mod over;
#[cfg(test)]
mod tests;
mod told;

pub(super) use case::along;
pub use over::{Over, Turn};

use case::{Judged, Row, Shape, nth};
use told::{CAUTIONS, FORMULAS, NOT_IN};

use super::against::{self, Against, Holds, asks_limit};
use super::answer::{Answer, Finding};
use super::carried::{Carried, HeldBy, larger};
use super::field::{Field, choices, place, table};
use super::input::BadInput;
use super::people::{self, People, State, asks_people};
use super::scene::from_plumb;
use super::{Ask, Solve, Whether};
use crate::band::{Band, Spread};
use crate::law::OutOfDomain;
use crate::quantity::{Angle, Force, Kind, Length, degree, kilonewton, metre, newton};
use std::f64::consts::PI;
use std::ops::RangeInclusive;

/// What pulls on the rope.
/// ```
/// use rigging_core::question::{Ask, Bend, Pulls};
///
/// // People hang, descend and slip; a force is what it is.
/// let states = |pulls| Bend { pulls, ..Bend::default() }.answer().map(|answer| answer.states.len());
/// assert_eq!((states(Pulls::People)?, states(Pulls::Own)?), (4, 0));
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Pulls {
    /// People who hang on it.
    #[default]
    People,
    /// A force of the user's own.
    Own,
}
choices!(Pulls { People = "people", "people who hang on it"; Own = "own", "a force of my own"; });

/// What the rope does over the bends: it decides which way friction works.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::quantity::{Angle, Force, degree, newton};
/// use rigging_core::question::{Ask, BadInput, Bend, Over, Pulls, Runs, Turn, Whether};
///
/// // 1000 N on a rope that turns straight back through a dry ring, μ up to 0.30. Raised, the ring gets
/// // 1000 (1 + e^(0.30 π)) N; lowered, friction takes from that, and at most the ring gets twice the load.
/// let first = Turn { over: Over::Ring, angle: Angle::new::<degree>(180.0) };
/// let rope_force = Band::exact(Force::new::<newton>(1000.0));
/// let on_ring = |runs| {
///     let bend = Bend { runs, first, rope_force, wet: Whether::No, pulls: Pulls::Own, ..Bend::default() };
///     Ok::<_, BadInput>(bend.answer()?.findings[0].adverse())
/// };
/// assert!((on_ring(Runs::Raising)? - 3566.3).abs() < 0.1);
/// assert!((on_ring(Runs::Lowering)? - 2000.0).abs() < 1e-6);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Runs {
    /// It lies still, whichever way it moved before.
    Rest,
    /// The load goes down.
    #[default]
    Lowering,
    /// The load is pulled up.
    Raising,
}
choices!(Runs {
    Rest = "rest", "lies still, whichever way it moved before";
    Lowering = "lowering", "runs toward the load: lowering";
    Raising = "raising", "runs away from the load: raising";
});

/// How the first bend is told.
/// ```
/// use rigging_core::quantity::{Angle, degree};
/// use rigging_core::question::{Ask, BadInput, Bend, Told};
///
/// // From the load that hangs plumb to a hand 30° from plumb, the rope turns by all but 30° of a half turn.
/// let degrees = Angle::new::<degree>;
/// let (load_runs, hand_runs) = (degrees(0.0), degrees(30.0));
/// let seen = Bend { told: Told::Directions, load_runs, hand_runs, ..Bend::default() };
/// let mut measured = Bend { told: Told::Turn, ..Bend::default() };
/// measured.first.angle = degrees(150.0);
/// let on_anchor = |bend: &Bend| Ok::<_, BadInput>(bend.answer()?.findings[0].adverse());
/// assert!((on_anchor(&seen)? / on_anchor(&measured)? - 1.0).abs() < 1e-12);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Told {
    /// By the turning angle.
    #[default]
    Turn,
    /// By the directions of both parts of the rope.
    Directions,
}
choices!(Told { Turn = "turn", "the turning angle"; Directions = "directions", "the directions of both parts of the rope"; });

/// How the bend hangs on the rock.
/// ```
/// use rigging_core::limit::Standing;
/// use rigging_core::quantity::{Force, kilonewton};
/// use rigging_core::question::{Against, Ask, Bend, Bolt, Holds, LimitChoice};
///
/// // Beside a limit of 20 kN of one's own: how the load stands is told of a known bolt, not of one that stands proud.
/// let own = Force::new::<kilonewton>(20.0);
/// let against = Against { holds: Holds::KnownBolt, limit: LimitChoice::Own, own, ..Against::default() };
/// let bend = |bolt| Bend { bolt, against, ..Bend::default() };
/// let stands = |bolt| bend(bolt).answer().map(|answer| answer.comparisons[0].standing);
/// assert_eq!(stands(Bolt::Flat)?, Standing::BelowLimit);
/// assert_eq!(stands(Bolt::Proud)?, Standing::NotChecked("a bolt that stands proud bends"));
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Bolt {
    /// On a bolt whose hanger lies flat on the rock.
    #[default]
    Flat,
    /// On a bolt that stands proud of the rock.
    Proud,
    /// On something else.
    None,
}
choices!(Bolt {
    Flat = "flat", "a bolt, its hanger flat on the rock";
    Proud = "proud", "a bolt that stands proud of the rock";
    None = "none", "no bolt: a sling, a tree, a block";
});

/// A rope that bends over something up to three times between the load and the hand.
/// ```
/// use rigging_core::question::Question;
///
/// // A rope that turns by 60° has 120° between its parts: friction not counted, a redirect there gets the force in the
/// // rope, as every printed table of such angles has it.
/// let bend: Question = serde_json::from_str(
///     r#"{"question": "bend", "over_1": "ball bearing", "turn_1_rad": 1.047197551, "pulls": "own",
///         "rope_force_n": 1000}"#,
/// )?;
/// let found = bend.answer()?.findings;
/// let not_counted = found.iter().find(|finding| finding.what.contains("not counted")).ok_or("not found")?;
/// assert!((not_counted.band.high() - 1000.0).abs() < 1e-3);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bend {
    /// How many bends there are.
    pub bends: u32,
    /// The bend nearest to the load.
    pub first: Turn,
    /// The next one.
    pub second: Turn,
    /// The one farthest from the load.
    pub third: Turn,
    /// How the first bend is told.
    pub told: Told,
    /// Direction of the rope from the first bend to the load: from plumb, to the right above 0.
    pub load_runs: Angle,
    /// Direction of the rope from the first bend toward the hand, if it is told so.
    pub hand_runs: Angle,
    /// Rope from the first bend to what holds it beyond.
    pub rope_above: Length,
    /// Rope from the first bend to the person.
    pub rope_below: Length,
    /// What the rope does.
    pub runs: Runs,
    /// Whether rope and bends are wet.
    pub wet: Whether,
    /// Whether the person on the rope passes the first bend.
    pub passed: Whether,
    /// How the bend hangs on the rock.
    pub bolt: Bolt,
    /// Direction straight out of the rock: from plumb, to the right above 0.
    pub wall: Angle,
    /// What pulls.
    pub pulls: Pulls,
    /// The force in the rope, if not people pull.
    pub rope_force: Band<Force>,
    /// Who hangs.
    pub people: People,
    /// What they are doing, for the number that is shown big.
    pub state: State,
    /// What the force on the anchor is compared with.
    pub against: Against,
}

impl Default for Bend {
    fn default() -> Self {
        let turn = |over, degrees| Turn { over, angle: Angle::new::<degree>(degrees) };
        Bend {
            bends: 1,
            first: turn(Over::Ring, 120.0),
            second: turn(Over::PolishedRock, 30.0),
            third: turn(Over::Connector, 30.0),
            told: Told::Turn,
            load_runs: Angle::new::<degree>(0.0),
            hand_runs: Angle::new::<degree>(60.0),
            rope_above: Length::new::<metre>(3.0),
            rope_below: Length::new::<metre>(6.0),
            runs: Runs::Lowering,
            wet: Whether::Yes,
            passed: Whether::No,
            bolt: Bolt::Flat,
            wall: Angle::new::<degree>(90.0),
            pulls: Pulls::People,
            rope_force: Band::of(1.0, 1.5, 2.0).map(Force::new::<kilonewton>),
            people: People::default(),
            state: State::Slip,
            against: Against::default(),
        }
    }
}

asks_people!(Bend);
asks_limit!(Bend);

const INPUTS: [&str; 7] = [
    people::LABELS[0],
    people::LABELS[1],
    "what pulls on the rope",
    "friction of bend 1",
    "friction of bend 2",
    "friction of bend 3",
    "way past bend 1",
];

/// Any direction.
const TURNS: RangeInclusive<f64> = -PI..=PI;

const OVER: &str = "friction there is known only within a range; a pulley has little";
const TURN: &str = "how far the rope changes direction on its way from the load to the hand: 0 is straight on, 180° straight back; right above 0, left below";

impl Bend {
    /// The example under the force that another question found in the rope.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::question::{Bend, Carried, HeldBy, Holds, Pulls};
    ///
    /// // What was found elsewhere goes in unchanged.
    /// let found = Carried::by_rope(Band::of(900.0, 2000.0, 4000.0), 1, HeldBy::Said(Holds::KnownBolt));
    /// let bend = Bend::carrying(&found);
    /// assert_eq!((bend.pulls, bend.rope_force.map(|force| force.value)), (Pulls::Own, found.rope));
    /// ```
    pub fn carrying(carried: &Carried) -> Bend {
        let rope_force = carried.rope.map(|newtons| Force::new::<newton>(newtons.max(10.0)));
        Bend { pulls: Pulls::Own, rope_force, ..Bend::default() }
    }

    fn is_wet(&self) -> bool {
        self.wet == Whether::Yes
    }

    fn is_passed(&self) -> bool {
        self.passed == Whether::Yes
    }

    /// True if a person hangs on a bend that can give way.
    fn can_fail(&self) -> bool {
        self.pulls == Pulls::People && self.first.over.has_anchor()
    }
}

impl Ask for Bend {
    const NAME: &'static str = "bend";
    const WORDS: &'static str = "What does the redirect, ring or edge carry?";
    const ABOUT: &'static str =
        "Force on whatever bends the rope, resting, lowering and raising, and what the hand needs";
    const EXAMPLE: &'static str =
        "One person is lowered through a ring on a bolt found in place; the rope turns by 120° to those who hold it.";

    fn fields() -> Vec<Field<Self>> {
        let mut fields = table![
            Field::one('c', "bends", Kind::Count, 1.0..=3.0, place!(bends))
                .says("Bends between the load and the hand", "counted from the load"),
            Field::choice('a', "over_1", Over::CHOICES, place!(first.over)).says("Bend 1 runs over", OVER),
            Field::choice('z', "told", Told::CHOICES, place!(told))
                .says("Bend 1 is told by", "whichever you can see or measure"),
            Field::one('b', "turn_1_rad", Kind::Angle, TURNS, place!(first.angle))
                .says("Turning angle at bend 1", TURN)
                .asked_if(|bend: &Bend| bend.told == Told::Turn),
            Field::one('h', "load_runs_rad", Kind::Angle, TURNS, place!(load_runs))
                .says("Rope from bend 1 to the load, from plumb", "0 is straight down; right above 0, left below"),
            Field::one('x', "hand_runs_rad", Kind::Angle, TURNS, place!(hand_runs))
                .says("Rope from bend 1 toward the hand, from plumb", "0 is straight down, 90° level right, 180° up")
                .asked_if(|bend: &Bend| bend.told == Told::Directions),
            Field::choice('d', "over_2", Over::CHOICES, place!(second.over))
                .says("Bend 2 runs over", OVER)
                .asked_if(|bend: &Bend| bend.bends > 1),
            Field::one('e', "turn_2_rad", Kind::Angle, TURNS, place!(second.angle))
                .says("Turning angle at bend 2", TURN)
                .asked_if(|bend: &Bend| bend.bends > 1),
            Field::choice('f', "over_3", Over::CHOICES, place!(third.over))
                .says("Bend 3 runs over", OVER)
                .asked_if(|bend: &Bend| bend.bends > 2),
            Field::one('g', "turn_3_rad", Kind::Angle, TURNS, place!(third.angle))
                .says("Turning angle at bend 3", TURN)
                .asked_if(|bend: &Bend| bend.bends > 2),
            Field::choice('i', "runs", Runs::CHOICES, place!(runs)).says(
                "What the rope does",
                "friction helps whoever lowers and hinders whoever raises; a rope at rest may hold either way",
            ),
            Field::choice('v', "wet", Whether::CHOICES, place!(wet))
                .says("Wet", "sources disagree whether water adds or takes friction: the range widens"),
            Field::choice('s', "passed", Whether::CHOICES, place!(passed)).says(
                "The person gets past bend 1",
                "a deviation: the rope runs straight until the person is past it, then turns little by little",
            ),
            Field::one('A', "rope_above_m", Kind::Length, 0.3..=200.0, place!(rope_above))
                .says(
                    "Rope from bend 1 to what holds it beyond",
                    "the next bend, the anchor or the hand: if bend 1 fails",
                )
                .asked_if(Bend::can_fail),
            Field::one('B', "rope_below_m", Kind::Length, 0.3..=200.0, place!(rope_below))
                .says("Rope from bend 1 to the person", "where the person hangs when bend 1 fails")
                .asked_if(Bend::can_fail),
            Field::choice('t', "bolt", Bolt::CHOICES, place!(bolt))
                .says("What the bend hangs on", "a bolt that stands proud is bent, and is not checked"),
            Field::one('u', "wall_rad", Kind::Angle, TURNS, place!(wall))
                .says(
                    "Straight out of the rock, from plumb",
                    "90° is an upright wall that faces right, −90° one that faces left; 0 a roof, 180° a floor; the same for each bolt",
                )
                .asked_if(|bend: &Bend| bend.bolt != Bolt::None),
            Field::choice('p', "pulls", Pulls::CHOICES, place!(pulls))
                .says("What pulls on the rope", "at the end that hangs on the first bend"),
            Field::range('r', "rope_force_n", Kind::Force, 10.0..=1_000_000.0, place!(rope_force))
                .says("Force in the rope, on the load's side", "before it bends")
                .asked_if(|bend: &Bend| bend.pulls == Pulls::Own),
        ];
        let state = const {
            people::judged_state(place!(state))
                .says("Judge the anchor on", "anchors are judged on a slip unless you say otherwise")
        };
        for field in people::fields().into_iter().chain([state]) {
            fields.push(field.asked_if(|bend: &Bend| bend.pulls == Pulls::People));
        }
        fields.extend(against::fields());
        fields
    }
}

impl Solve for Bend {
    const KEY: &'static str = "bd";

    fn solve(&self) -> Result<Answer, BadInput> {
        let mut judged = self.judge(0)?;
        let mut others = Vec::new();
        for place in 1..self.bends as usize {
            let mut other = self.judge(place)?;
            if self.rank(&other)? > self.rank(&judged)? {
                std::mem::swap(&mut other, &mut judged);
            }
            others.push(other);
        }
        let mut rows: Vec<Row> = judged.rows.to_vec();
        for runs in [Runs::Lowering, Runs::Rest, Runs::Raising].into_iter().filter(|runs| *runs != self.runs) {
            rows.push((Some(runs), self.shape(judged.place, Some(runs))?));
        }

        let find = |what: String, runs, spread: &Spread<7>| {
            Finding::load(self.with_state(what, runs), spread.band).moved_by(spread, &INPUTS)
        };
        let on = |place: usize, runs, shape: &Spread<4>| -> Result<Finding, OutOfDomain> {
            let spread = self.loaded(runs, shape, None)?;
            let pull = from_plumb(nth(&self.case(runs, &spread.at_high)?, place).on());
            Ok(Finding { pull, ..find(self.on_words(place, runs), runs, &spread) })
        };
        let mut findings = Vec::new();
        for (runs, [force, ..]) in &rows {
            findings.push(on(judged.place, *runs, force)?);
        }
        for Judged { place, rows: [(runs, [force, ..]), _], .. } in &others {
            findings.push(on(*place, *runs, force)?);
        }
        let at_rest = self.at_rest(&judged, &others)?;
        for Judged { place, rows: [(runs, [force, ..]), _], .. } in at_rest.iter().skip(1) {
            findings.push(on(*place, *runs, force)?);
        }
        let bolts = [&judged].into_iter().chain(&others).filter(|held| held.anchored && self.bolt != Bolt::None);
        for held in bolts {
            let name = told::name(held.place);
            let mut bolt = |way, part: fn(&Shape) -> &Spread<4>| {
                let mut spread = self.either(held, part, None)?;
                if let Some(stopped) = at_rest.iter().find(|stopped| stopped.place == held.place) {
                    spread.take_wider(&self.either(stopped, part, None)?);
                }
                let what = self.with_states(format!("on the bolt of {name}, {way}"), None);
                findings.push(Finding::load(what, spread.band).moved_by(&spread, &INPUTS));
                Ok::<_, OutOfDomain>(())
            };
            bolt("straight out of the rock (tension)", |[_, out, ..]| out)?;
            bolt("along the rock (shear)", |[_, _, along, ..]| along)?;
        }
        for (runs, [.., hand]) in &rows {
            findings.push(find(told::hand_words(*runs), *runs, &self.loaded(*runs, hand, None)?));
        }
        let failed = if self.can_fail() { Some(self.failed()?) } else { None };
        findings.extend(failed.iter().flat_map(told::failed));
        let mut comparisons = self.compare(&judged, &others, &at_rest)?;
        // What the rope pulls once bend 1 has let go is carried by all that is left.
        let mut after = Band::exact(0.0);
        if let Some(failed) = &failed {
            let (left, judged) = self.left(failed)?;
            for held in judged {
                let pull = left.either(&held, |[force, ..]| force, None)?.band;
                let mut compared = left.compare_one(&held)?;
                compared.what += ", once bend 1 has let go";
                findings.push(Finding::load(left.compared_words(&held) + ", once bend 1 has let go", pull));
                if held.anchored {
                    after = larger(after, pull);
                    comparisons.push(compared);
                }
            }
        }

        let mut states = Vec::new();
        if self.pulls == Pulls::People {
            for state in State::ALL {
                states.push(Finding::load(
                    state.of(&["on ", told::name(judged.place)].concat()),
                    self.either(&judged, |[force, ..]| force, Some(state))?.band,
                ));
            }
        }
        let [(runs, [worst, ..]), _] = &judged.rows;
        let worst = self.loaded(*runs, worst, None)?;
        let case = self.case(*runs, &worst.at_high)?;
        let hung = self.load(self.state)?.band;
        let mut hand = self.either(&judged, |[.., hand]| hand, None)?.band;
        let mut anchor = worst.band;
        for held in &at_rest {
            anchor = larger(anchor, self.either(held, |[force, ..]| force, None)?.band);
            hand = larger(hand, self.either(held, |[.., hand]| hand, None)?.band);
        }
        let held = match self.bolt {
            _ if !judged.anchored => HeldBy::Edge,
            Bolt::Proud => HeldBy::Proud,
            Bolt::None => HeldBy::Said(Holds::Natural),
            Bolt::Flat => HeldBy::Said(self.against.holds),
        };
        let hung = failed.as_ref().map_or(hung, |failed| larger(hung, failed.pull));
        let rope = larger(hung, hand);
        let comparisons = self.against.of_the_rope(comparisons, self.in_rope_words(), rope);
        let mut remarks = self.remarks(&case, &judged, &rows)?;
        // Whoever is raised does not go down the rope, which pulls harder than hanging still.
        for (runs, [force, .., hand]) in rows.iter().skip(2) {
            let most = |part| Ok::<_, OutOfDomain>(self.loaded(*runs, part, None)?.band.high());
            if let Some(runs) = runs
                && (most(hand)? > rope.high() || most(force)? > anchor.high())
            {
                remarks.push(told::pulls_harder(*runs));
            }
        }
        // Somewhere beyond the bends the rope itself ends at an anchor, or in hands.
        anchor = larger(larger(anchor, after), rope);
        let point = anchor;
        let alone = match self.people.alone() {
            Some(people) if failed.is_some() => Some(Bend { people, ..*self }.failed()?.pull),
            _ => None,
        };
        let carried = Carried { rope, point, anchor, ..Carried::by_rope(hung, self.people.count, held) };
        let carried = carried.or_one_alone(alone);
        let mut working = self.working(&worst.at_high, &case, &judged, failed.as_ref())?;
        working.extend(comparisons.first().and_then(|compared| compared.limit.as_ref()).map(|limit| limit.step()));
        Ok(Answer {
            remarks,
            scene: self.scene(&case, &judged),
            findings,
            states,
            comparisons,
            usual: if self.pulls == Pulls::People { carried.compare(&self.against) } else { Vec::new() },
            carried: Some(carried),
            working,
            formulas: [FORMULAS.as_slice(), &people::FORMULAS].concat(),
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
            ..Answer::default()
        })
    }
}
