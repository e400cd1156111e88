//! What do my hands need, and what does each anchor get?

mod case;
mod drawn;
mod jam;
mod list;
#[cfg(test)]
mod tests;
mod told;

use case::{Way, Worst};
use told::{CAUTIONS, FORMULAS, NOT_IN};

use super::against::{self, Against, asks_limit};
use super::answer::{Answer, Comparison, Finding, Outcome};
use super::bend::Over;
use super::field::{Field, choices, place, table};
use super::input::BadInput;
use super::people::{self, People, State, asks_people};
use super::pullers::{HARD, PullFrom, SUSTAINED};
use super::scene::from_plumb;
use super::{Ask, HandState, Solve, Whether};
use crate::band::Band;
use crate::law::pullers;
use crate::quantity::{Angle, Force, Kind, degree, newton};
use crate::working::Source;
use std::f64::consts::PI;
use std::ops::RangeInclusive;

/// Where the rope's end is.
/// ```
/// use rigging_core::question::{Ask, EndAt, Listed, Moves, Over, RaiseLower};
///
/// // A pulley on the load pulls twice with the rope's end on an anchor; with the end on the load as well, no fixed
/// // bend lies between, and it is refused.
/// let first = Listed { moves: Moves::WithLoad, over: Over::BallBearing, ..Listed::default() };
/// let haul = |rope_end| RaiseLower { rope_end, bends: 1, first, ..RaiseLower::default() }.answer();
/// let through = haul(EndAt::Anchor)?.findings.into_iter().find(|finding| finding.what.starts_with("times the way"));
/// assert_eq!(through.map(|finding| finding.adverse()), Some(2.0));
/// assert!(haul(EndAt::Load).is_err());
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum EndAt {
    /// Tied to the load.
    #[default]
    Load,
    /// Tied to an anchor.
    Anchor,
}
choices!(EndAt { Load = "load", "tied to the load"; Anchor = "anchor", "tied to an anchor"; });

/// Where the end of a second rope is, which pulls the hand's end of the first.
/// ```
/// use rigging_core::question::{Ask, RaiseLower, SecondEnd};
///
/// // Beyond the edge a second rope over a pulley takes over. Two strands of it pull the first rope, and a third if
/// // its end is clamped there too: so many times the way of the load run through the hands.
/// let through = |second_end| {
///     let haul = RaiseLower { takes_over: 1, second_end, ..RaiseLower::default() };
///     let found = haul.answer().ok()?.findings;
///     found.iter().find(|finding| finding.what.starts_with("times the way")).map(|finding| finding.adverse())
/// };
/// assert_eq!((through(SecondEnd::FirstRope), through(SecondEnd::Anchor)), (Some(3.0), Some(2.0)));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum SecondEnd {
    /// Clamped or tied to the first rope.
    #[default]
    FirstRope,
    /// Tied to an anchor.
    Anchor,
}
choices!(SecondEnd {
    FirstRope = "first rope", "clamped or tied to the first rope";
    Anchor = "anchor", "tied to an anchor";
});

/// What a bend does while the load moves.
/// ```
/// use rigging_core::question::{Ask, Listed, Moves, RaiseLower};
///
/// // Of the example the last bend is a pulley clamped to the rope: three strands pull. Were it fixed, one would.
/// let through = |moves| {
///     let haul = RaiseLower::default();
///     let found = RaiseLower { third: Listed { moves, ..haul.third }, ..haul }.answer().ok()?.findings;
///     found.iter().find(|finding| finding.what.starts_with("times the way")).map(|finding| finding.adverse())
/// };
/// assert_eq!((through(Moves::WithClamp), through(Moves::Stays)), (Some(3.0), Some(1.0)));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Moves {
    /// It stays where it is.
    #[default]
    Stays,
    /// It travels with the load.
    WithLoad,
    /// It travels with a clamp on the rope that it pulls.
    WithClamp,
}
choices!(Moves {
    Stays = "stays", "stays: on an anchor, or rock";
    WithLoad = "with load", "travels: on the load itself";
    WithClamp = "with clamp", "travels: clamped to the load's rope";
});

/// What the fixed bends and rope ends are tied to.
/// ```
/// use rigging_core::question::{Ask, RaiseLower, Shared};
///
/// // Two fixed bends that turn the rope straight back: one anchor for both gets more than the harder pulled of two.
/// let hardest = |shared| {
///     let found = RaiseLower { bends: 4, shared, ..RaiseLower::default() }.answer().ok()?.findings;
///     found.iter().find(|finding| finding.what.starts_with("on ")).map(|finding| finding.adverse())
/// };
/// let (one, each) = hardest(Shared::One).zip(hardest(Shared::Each)).ok_or("no anchor")?;
/// assert!(one > each);
/// # Ok::<(), &str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Shared {
    /// All to one.
    #[default]
    One,
    /// Each to its own.
    Each,
}
choices!(Shared { One = "one", "all on one anchor point"; Each = "each", "each on an anchor of its own"; });

/// A bend of the list.
/// ```
/// use rigging_core::question::{Ask, Listed, Moves, RaiseLower};
///
/// // Of the list only as many count as there are: without any the hand holds the whole load.
/// let haul = RaiseLower { bends: 0, ..RaiseLower::default() };
/// let other = RaiseLower { first: Listed { moves: Moves::WithLoad, ..haul.first }, ..haul.clone() };
/// assert_eq!(haul.answer()?.findings, other.answer()?.findings);
/// // The heaviest: 92 + 20 + 5 kg.
/// assert!((haul.answer()?.findings[0].adverse() - 117.0 * 9.806_65).abs() < 1e-6);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Listed {
    /// What it does while the load moves.
    pub moves: Moves,
    /// What the rope runs over.
    pub over: Over,
    /// How far the rope turns, on the way from the load to the hand: to the right above 0.
    pub turn: Angle,
}

/// A load raised, held and lowered by a rope over a list of bends.
/// ```
/// use rigging_core::question::Question;
///
/// // One end on an anchor, a pulley on the load, 95 kg. Its efficiency is 0.86 to 0.95, so that the hand raises
/// // W/1.95 to W/1.86.
/// let haul: Question = serde_json::from_str(
///     r#"{"question": "raise and lower", "rope_end": "anchor", "bends": 1, "bend_1": "with load",
///         "over_1": "ball bearing", "body_kg": 75, "kit_kg": 15, "suit_water_kg": 5}"#,
/// )?;
/// let found = haul.answer()?.findings;
/// let raising = found.iter().find(|finding| finding.what.contains("for the hand while raising")).ok_or("not found")?;
/// assert!((raising.band.low() - 95.0 * 9.806_65 / 1.95).abs() < 1e-6);
/// assert!((raising.band.high() - 95.0 * 9.806_65 / 1.86).abs() < 1e-6);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RaiseLower {
    /// Where the rope's end is.
    pub rope_end: EndAt,
    /// How many bends there are between the load and the hand.
    pub bends: u32,
    /// The bend nearest to the load's end.
    pub first: Listed,
    /// The next one.
    pub second: Listed,
    /// The next one.
    pub third: Listed,
    /// The next one.
    pub fourth: Listed,
    /// The next one.
    pub fifth: Listed,
    /// The one farthest from the load's end.
    pub sixth: Listed,
    /// Beyond which bend a second rope takes over; 0 for none.
    pub takes_over: u32,
    /// Where the second rope's end is.
    pub second_end: SecondEnd,
    /// What the fixed bends and rope ends are tied to.
    pub shared: Shared,
    /// Whether rope and bends are wet.
    pub wet: Whether,
    /// The hand that lets down.
    pub hand: HandState,
    /// How many pull.
    pub pullers: u32,
    /// Where they pull from.
    pub pull_from: PullFrom,
    /// Pull of each when everybody pulls hard.
    pub hard: Force,
    /// Who hangs.
    pub people: People,
    /// What they are doing, for the force on the anchors.
    pub state: State,
    /// What the forces on the anchors are compared with.
    pub against: Against,
}

impl Default for RaiseLower {
    fn default() -> Self {
        let entry = |moves, over, degrees| Listed { moves, over, turn: Angle::new::<degree>(degrees) };
        let pulley = entry(Moves::WithClamp, Over::BallBearing, 180.0);
        let fixed = entry(Moves::Stays, Over::Connector, 180.0);
        RaiseLower {
            rope_end: EndAt::Load,
            bends: 3,
            first: entry(Moves::Stays, Over::PolishedRock, -90.0),
            second: fixed,
            third: pulley,
            fourth: fixed,
            fifth: pulley,
            sixth: fixed,
            takes_over: 0,
            second_end: SecondEnd::FirstRope,
            shared: Shared::One,
            wet: Whether::Yes,
            hand: HandState::Tired,
            pullers: 3,
            pull_from: PullFrom::Standing,
            hard: Force::new::<newton>(HARD),
            people: People::default(),
            state: State::Slip,
            against: Against::default(),
        }
    }
}

asks_people!(RaiseLower);
asks_limit!(RaiseLower);

const TURNS: RangeInclusive<f64> = -PI..=PI;
const OVER: &str = "friction there is known only within a range; rock does not travel";
const MOVES: &str =
    "a clamp grabs the rope where it runs into the fixed bend that turns it back, beyond edges that come before";
const TURN: &str = "0 is straight on, 180° straight back; right above 0, left below. Before a bend that travels it is what brings the rope back";

/// The three fields of a bend.
macro_rules! bend {
    ($slot:ident, $next:ident, $number:literal, $moves:literal $over:literal $turn:literal) => {
        table![
            Field::choice($moves, concat!("bend_", $number), Moves::CHOICES, place!($slot.moves))
                .says(concat!("Bend ", $number), MOVES)
                .asked_if(|haul: &RaiseLower| haul.bends >= $number),
            Field::choice($over, concat!("over_", $number), Over::CHOICES, place!($slot.over))
                .says(concat!("Bend ", $number, " runs over"), OVER)
                .asked_if(|haul: &RaiseLower| haul.bends >= $number),
            Field::one($turn, concat!("turn_", $number, "_rad"), Kind::Angle, TURNS, place!($slot.turn))
                .says(concat!("Turning angle at bend ", $number), TURN)
                .asked_if(|haul: &RaiseLower| haul.turn_is_asked($number, haul.$slot.moves, haul.$next.moves)),
        ]
    };
}

impl RaiseLower {
    /// A bend that travels runs back; a fixed one before it brings the rope back to it, on the same rope.
    fn turn_is_asked(&self, number: u32, moves: Moves, next: Moves) -> bool {
        let brings_back = number < self.bends && next != Moves::Stays && self.takes_over != number;
        number <= self.bends && moves == Moves::Stays && !brings_back
    }
}

impl Ask for RaiseLower {
    const NAME: &'static str = "raise and lower";
    const WORDS: &'static str = "What do my hands need, and what does each anchor get?";
    const ABOUT: &'static str = "Lowering, holding and raising over any list of bends, and a load that jams";
    const EXAMPLE: &'static str = "One person is stuck below a wet lip; three people stand ready to let down or to haul, over a connector and a pulley clamped to the rope.";

    fn fields() -> Vec<Field<Self>> {
        let mut fields = table![
            Field::choice('a', "rope_end", EndAt::CHOICES, place!(rope_end))
                .says("The rope's end is", "the end away from the hand"),
            Field::one('b', "bends", Kind::Count, 0.0..=6.0, place!(bends))
                .says("Bends between that end and the hand", "in the order in which the rope meets them, 0 to 6"),
        ];
        fields.extend(bend!(first, second, 1, 'A' 'B' 'C'));
        fields.extend(bend!(second, third, 2, 'D' 'E' 'F'));
        fields.extend(bend!(third, fourth, 3, 'G' 'H' 'I'));
        fields.extend(bend!(fourth, fifth, 4, 'J' 'K' 'L'));
        fields.extend(bend!(fifth, sixth, 5, 'M' 'N' 'O'));
        fields.extend(bend!(sixth, sixth, 6, 'P' 'Q' 'R'));
        fields.extend(table![
            Field::one('c', "takes_over", Kind::Count, 0.0..=6.0, place!(takes_over))
                .says("A second rope takes over beyond bend", "it hauls the hand's end of the first; 0 for none")
                .asked_if(|haul: &RaiseLower| haul.bends > 0),
            Field::choice('d', "second_end", SecondEnd::CHOICES, place!(second_end))
                .says("The second rope's end is", "the end away from the hand")
                .asked_if(|haul: &RaiseLower| haul.bends > 0 && haul.takes_over > 0),
            Field::choice('e', "fixed_on", Shared::CHOICES, place!(shared))
                .says("Fixed bends and rope ends are", "edges of rock hold themselves"),
            Field::choice('v', "wet", Whether::CHOICES, place!(wet))
                .says("Wet", "sources disagree whether water adds or takes friction: the range widens"),
            Field::choice('h', "hand", HandState::CHOICES, place!(hand))
                .says("The hand that lets down", "wet, cold or tired hands hold far less"),
            Field::one('r', "pullers", Kind::Count, 1.0..=12.0, place!(pullers))
                .says("People who can pull", "all of them, in case the load jams and they pull hard"),
            Field::choice('f', "pull_from", PullFrom::CHOICES, place!(pull_from))
                .says("They pull", "for as long as it takes, not for one heave")
                .from(SUSTAINED),
            Field::one('i', "hard_pull_n", Kind::Force, 50.0..=2000.0, place!(hard))
                .says("Pull of each, all pulling hard", "one heave against a load that is stuck")
                .from(Source::assumed("above published two-handed pulls of 400 N")),
        ]);
        fields.extend(people::fields());
        fields.push(const { people::judged_state(place!(state)) });
        fields.extend(against::fields());
        fields
    }
}

impl Solve for RaiseLower {
    const KEY: &'static str = "rl";

    fn solve(&self) -> Result<Answer, BadInput> {
        let list = self.list()?;
        let ways = self.ways(&list)?;
        let held = self.held(&list);

        let mut findings = Vec::new();
        for way in [Way::LoweringBare, Way::Lowering, Way::Rest, Way::Raising] {
            if let Some(found) = ways.get(way) {
                findings.push(self.loaded(found, 0, State::Still)?.finding(self.hand_words(way)));
            }
        }
        let hand = self.hand.holds().0;
        findings.push(Finding::strength(format!("held by {}", self.hand.words()), hand));

        // Anchors before edges, the one pulled hardest first.
        let mut worst: Vec<Worst> = Vec::new();
        for one in &held {
            let one = self.worst_judged(&ways, one)?;
            let harder = |other: &Worst| (!one.held.edge, one.high()) > (!other.held.edge, other.high());
            let at = worst.iter().position(harder).unwrap_or(worst.len());
            worst.insert(at, one);
        }
        for one in &worst {
            let on = self.case_of(&list, one)?.on(one.held.slot);
            findings.push(Finding { pull: from_plumb(on), ..one.loaded.finding(self.on_words(one)) });
        }

        let hitch = self.on_a_hitch(&ways, &held)?;
        findings.extend(hitch.clone());
        let raising = self.hand_at(&ways, Way::Raising)?;
        let pull = self.pull_from.of_one().0;
        let needed = |force, each| pullers::needed(Force::new::<newton>(force), Force::new::<newton>(each));
        let few = needed(raising.low(), pull.high())?;
        let usual = needed(raising.typical(), pull.typical())?;
        let many = needed(raising.high(), pull.low())?;
        if let (Some(few), Some(usual), Some(many)) = (few, usual, many) {
            let people = Band::of(few, usual, many).map(f64::from);
            findings.push(Finding::load("people needed to raise the load", people).measured_as(Kind::Count));
        }
        let rope = Band::exact(self.rope_per_load(&list)?);
        let through = "times the way of the load: rope through the hands, hauling in or paying out";
        findings.push(Finding::load(through, rope).measured_as(Kind::Ratio));

        let mut states = Vec::new();
        if let Some(first) = worst.first() {
            for state in State::ALL {
                let band = self.worst(&ways, &first.held, state)?.loaded.band;
                states.push(Finding::load(state.of(&self.held_words(&first.held)), band));
            }
        }

        let jam = self.jam(&ways, &held)?;
        let carried = self.carried(&ways, &worst, hitch.as_ref(), &jam)?;
        let mut comparisons: Vec<Comparison> = Vec::new();
        for one in &worst {
            comparisons.push(self.compare(&one.held, self.on_words(one), one.loaded.band));
        }
        // What all hang on stands there once where nothing else comes nearer to its limit with either end: beside it a row
        // that is less would read as if it held.
        let points = worst.iter().filter(|one| self.shared == Shared::One && !one.held.edge);
        let on_all: Vec<Band> = points.map(|one| one.loaded.band).collect();
        let adds = |band: &Band| on_all.iter().all(|all| band.low() > all.low() || band.high() > all.high());
        for hitch in hitch.iter().chain(&jam.hitch).filter(|hitch| adds(&hitch.band)) {
            comparisons.push(self.against.compare_any_way(hitch.what.clone(), hitch.band));
        }
        for (one, finding) in jam.held.iter().filter(|(one, finding)| one.edge || adds(&finding.band)) {
            comparisons.push(self.compare(one, finding.what.clone(), finding.band));
        }
        let mut comparisons = self.against.of_the_rope(comparisons, "in the rope where it carries most", carried.rope);
        comparisons.extend(findings.first().map(|hand| self.hand.compare(hand.what.clone(), hand.band)));

        let lowering = self.drawn_case(&list, &ways, Way::LoweringBare)?;
        let raised = self.drawn_case(&list, &ways, Way::Raising)?;
        let mut working = self.working(&lowering, &raised, raising.high(), many);
        if let Some(one) = worst.first() {
            working.push(self.anchor_step(one, &self.case_of(&list, one)?));
        }
        working.extend(comparisons.first().and_then(|compared| compared.limit.as_ref()).map(|limit| limit.step()));
        let hardest = worst.first().map(|one| one.held);
        Ok(Answer {
            remarks: self.remarks(&list, &ways, many)?,
            scene: self.scene(&lowering, hardest),
            aside: Some(self.scene(&raised, hardest)),
            findings,
            states,
            outcomes: vec![Outcome {
                case: "If the load is stuck and everybody pulls hard".into(),
                findings: jam.findings(),
            }],
            comparisons,
            usual: carried.compare(&self.against),
            carried: Some(carried),
            working,
            formulas: [FORMULAS.as_slice(), &people::FORMULAS].concat(),
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
            ..Answer::default()
        })
    }
}
