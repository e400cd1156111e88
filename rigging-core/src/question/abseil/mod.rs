//! Can the brake hand hold, and what reaches the anchor?

mod case;
mod choice;
#[cfg(test)]
mod tests;
mod told;

pub use choice::{BackUp, FallingWater, HandState, Release, Strands, Tail, Whether};

use told::{CAUTIONS, FORMULAS, NOT_IN};

use super::against::{self, Against, asks_limit};
use super::answer::{Answer, Finding};
use super::carried::{Carried, HeldBy, larger};
use super::edge::Edge;
use super::field::{Field, place, table};
use super::figure_of::Through;
use super::input::BadInput;
use super::people::{self, People, State, asks_people};
use super::{Ask, Solve};
use crate::band::{Band, Spread};
use crate::law::OutOfDomain;
use crate::law::descender::Descender;
use crate::quantity::{Angle, Force, Kind, Length, degree, kilonewton, metre, millimetre};
use crate::working::Source;

/// Someone goes down a rope on a friction device.
/// ```
/// use rigging_core::question::{Abseil, Ask};
///
/// // The example, near the bottom: the heaviest weighs 92 + 20 + 5 kg. On wet rope of 9 mm a figure-eight holds at
/// // least 4.2 newtons for each of the hand.
/// let hand = &Abseil::default().answer()?.findings[0];
/// assert!(hand.what.starts_with("for the brake hand"));
/// assert!((hand.adverse() - 117.0 * 9.806_65 / 4.2).abs() < 1e-6);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Abseil {
    /// Height from the lip to the bottom.
    pub height: Length,
    /// The friction device.
    pub descender: Descender,
    /// Diameter of the rope.
    pub diameter: Length,
    /// Strands through the device.
    pub strands: Strands,
    /// Whether a further carabiner adds friction.
    pub extra_carabiner: Whether,
    /// Whether rope and device are wet.
    pub wet: Whether,
    /// Where the rope below the person is.
    pub tail: Tail,
    /// How much water falls on the person, and on a tail that hangs there.
    pub water: FallingWater,
    /// The hand that brakes.
    pub hand: HandState,
    /// Whether the rope can be let out from the station.
    pub release: Release,
    /// What catches someone whose hand lets go.
    pub back_up: BackUp,
    /// What the rope runs over behind the lip.
    pub edge: Edge,
    /// How far the rope turns there.
    pub edge_turn: Angle,
    /// Slack in the rope when someone slips at the lip.
    pub slack: Length,
    /// Rope between the anchor and the person then.
    pub rope_out: Length,
    /// Stiffness of one strand: tension for a strain of 1.
    pub stiffness: Band<Force>,
    /// Who hangs.
    pub people: People,
    /// What the force at the anchor is compared with.
    pub against: Against,
}

impl Default for Abseil {
    fn default() -> Self {
        Abseil {
            height: Length::new::<metre>(12.0),
            descender: Descender::FigureEight,
            diameter: Length::new::<millimetre>(9.0),
            strands: Strands::One,
            extra_carabiner: Whether::No,
            wet: Whether::Yes,
            tail: Tail::Free,
            water: FallingWater::None,
            hand: HandState::Tired,
            release: Release::Fixed,
            back_up: BackUp::None,
            edge: Edge::PolishedRock,
            edge_turn: Angle::new::<degree>(70.0),
            slack: Length::new::<metre>(0.5),
            rope_out: Length::new::<metre>(3.0),
            stiffness: Band::of(20.0, 30.0, 41.0).map(Force::new::<kilonewton>),
            people: People::default(),
            against: Against::default(),
        }
    }
}

asks_people!(Abseil);
asks_limit!(Abseil);

const INPUTS: [&str; 11] = [
    people::LABELS[0],
    people::LABELS[1],
    "friction of the descender",
    "water in the rope",
    "stiffness of the rope",
    "how steadily the person descends",
    "how hard the jerks are",
    "friction of the edge",
    "how much of the falling water hits",
    "drag of the falling water on the rope",
    "friction of the device at the station",
];

impl Ask for Abseil {
    const NAME: &'static str = "abseil";
    const WORDS: &'static str = "Can the brake hand hold, and what reaches the anchor?";
    const ABOUT: &'static str =
        "Brake-hand force, whether the lightest moves, and the anchor from hanging still to a slip";
    const EXAMPLE: &'static str =
        "A 12 m drop on one wet 9 mm strand through a figure-eight, a bolt found in place behind a polished lip.";

    fn fields() -> Vec<Field<Self>> {
        let mut fields = table![
            Field::one('a', "height_m", Kind::Length, 1.0..=200.0, place!(height))
                .says("Down: lip to the bottom", "straight down; the rope hangs that long"),
            Field::choice('d', "descender", Descender::CHOICES, place!(descender))
                .says("Descender", "its friction is known only within a wide range")
                .from(Source::published("teaching ranges of rope rescue courses; some from memory")),
            Field::one('i', "diameter_m", Kind::Thickness, 0.006..=0.016, place!(diameter))
                .says("Rope diameter", "as declared; a thin rope brakes less"),
            Field::choice('s', "strands", Strands::CHOICES, place!(strands))
                .says("Strands through the device", "both strands of a doubled rope, or one"),
            Field::choice('c', "extra_carabiner", Whether::CHOICES, place!(extra_carabiner))
                .says("One more carabiner for friction", "the rope runs through a further carabiner below the device"),
            Field::choice('v', "wet", Whether::CHOICES, place!(wet))
                .says("Wet", "sources disagree whether water adds or takes friction: the range widens"),
            Field::choice('t', "tail", Tail::CHOICES, place!(tail))
                .says("Rope below the person", "a tail that hangs brakes by its weight, and more in falling water"),
            Field::choice('x', "falling_water", FallingWater::CHOICES, place!(water))
                .says("Falling water", "as it looks; it presses on the person, and drags at a rope that hangs in it",),
            Field::choice('b', "hand", HandState::CHOICES, place!(hand))
                .says("The hand that brakes", "what a hand holds differs eightfold between people"),
            Field::choice('g', "release", Release::CHOICES, place!(release))
                .says("Rope at the station", "whether somebody there can let the rope out while a person hangs on it",),
            Field::choice('p', "back_up", BackUp::CHOICES, place!(back_up))
                .says("Back-up", "what catches a person whose hand lets go"),
            Field::choice('e', "edge", Edge::CHOICES, place!(edge)).says(
                "Edge between anchor and person",
                "friction there takes load off the anchor; counted only second",
            ),
            Field::one('u', "edge_turn_rad", Kind::Angle, 0.0..=std::f64::consts::PI, place!(edge_turn))
                .says("Turning angle at the edge", "how far the rope changes direction there; 0 is straight on")
                .asked_if(|abseil: &Abseil| abseil.edge != Edge::Free),
            Field::one('z', "slack_m", Kind::Length, 0.0..=5.0, place!(slack))
                .says("Slack at the lip", "how far someone falls before the rope comes tight")
                .from(Source::assumed("an arm of slack at the lip")),
            Field::one('r', "rope_out_m", Kind::Length, 0.3..=100.0, place!(rope_out))
                .says("Rope from the anchor to that person", "short rope catches harder")
                .from(Source::assumed("an anchor a few steps behind the lip")),
            Field::range('f', "stiffness_n", Kind::Force, 1000.0..=1_000_000.0, place!(stiffness))
                .says(
                    "Stiffness of one strand (EA)",
                    "tension that would double its length; the range shown first is for a used canyon rope",
                )
                .from(Source::assumed("used canyon rope; EN 1891 type A lies at its low end")),
        ];
        fields.extend(people::fields());
        fields.extend(against::fields());
        fields
    }
}

impl Solve for Abseil {
    const KEY: &'static str = "ab";

    fn solve(&self) -> Result<Answer, BadInput> {
        if self.slack > self.rope_out * 2.0 {
            let must = "not more than twice the rope from the anchor: nobody can fall farther";
            return Err(OutOfDomain { what: "slack at the lip", value: self.slack.value, must }.into());
        }
        if self.tail == Tail::InFall && self.water == FallingWater::None {
            return Err(BadInput::Refused {
                what: "a rope that hangs in falling water where none falls",
                why: "choose how much water falls, or where else the rope below the person is",
            });
        }
        if self.wet == Whether::No && self.water != FallingWater::None {
            return Err(BadInput::Refused {
                what: "a dry rope and device where water falls",
                why: "choose wet, or no falling water",
            });
        }
        let spreads = self.spread()?;
        let [
            hand_below,
            hand_above,
            held_back,
            start,
            still,
            descending,
            jerky,
            lowered @ ..,
            slip,
            jerky_edge,
            slip_edge,
            before_edge,
            drawn,
        ] = &spreads;
        let load = |what: &str, spread: &Spread<11>| Finding::load(what, spread.band).moved_by(spread, &INPUTS);
        // With little slack or much rope out, jerks pull harder than a slip.
        let jerks = jerky.band.high() > slip.band.high();
        // Both happen: none is milder than the milder end of either.
        let both = |jerky: &Spread<11>, slip: &Spread<11>| Spread {
            band: larger(jerky.band, slip.band),
            ..if jerks { *jerky } else { *slip }
        };
        let (worst, worst_edge) = (&both(jerky, slip), &both(jerky_edge, slip_edge));
        let (on_anchor, behind_edge) = if worst.band == jerky.band {
            ("at the anchor, descending in jerks, edge not counted", "at the anchor in the same jerks, edge counted")
        } else if worst.band == slip.band {
            ("at the anchor on a slip at the lip, edge not counted", "at the anchor on the same slip, edge counted")
        } else {
            (
                "at the anchor, on a slip at the lip or in jerks, whichever pulls harder, edge not counted",
                "at the anchor on the same slip or in the same jerks, edge counted",
            )
        };
        let mut findings = vec![
            load("for the brake hand of the heaviest, to slide steadily near the bottom", hand_below),
            load(on_anchor, worst),
        ];
        if self.edge != Edge::Free {
            findings.push(load(behind_edge, worst_edge));
            findings.push(load(
                "in the rope before the edge on a slip, whose friction makes the rope stiffer",
                before_edge,
            ));
        }
        if self.tail.surely_hangs() {
            findings.push(load("for the brake hand at the start, with the rope's weight below", hand_above));
        }
        let missing = self.missing(hand_below.band);
        if missing.high() > 1.0 {
            let what = "times as much friction as there is, for the weakest hand to hold the heaviest";
            findings.push(Finding::load(what, missing).measured_as(Kind::Ratio));
        }
        if self.tail.may_hang() {
            let what = "ratio for the lightest to start: pull above the device ÷ what the tail holds; below 1 nobody so \
                        light moves";
            findings.push(Finding::strength(what, start.band).measured_as(Kind::Ratio).moved_by(start, &INPUTS));
        }
        for (what, band) in [
            (
                "pressed on the person by the falling water near the bottom, should all of it hit and none be thrown back",
                self.pressed()?,
            ),
            ("dragged at all of the rope by the falling water, should it hang there", self.dragged()?),
        ] {
            if band.high() > 0.0 {
                findings.push(Finding::load(what, band));
            }
        }
        let states =
            [(State::Still, still), (State::Descending, descending), (State::Jerky, jerky), (State::Slip, slip)]
                .map(|(state, spread)| Finding::load(state.of("at the anchor"), spread.band))
                .to_vec();

        let in_rope = Abseil::in_rope(&spreads);
        let alone = match self.people.alone() {
            Some(people) => Some(Abseil::in_rope(&Abseil { people, ..*self }.spread()?)),
            None => None,
        };
        let chosen = if self.against.is_of_rope() {
            self.against.compare_rope("in the rope where it carries most", in_rope)
        } else {
            self.against.compare_any_way(on_anchor, worst.band)
        };
        let chosen = chosen.unless(self.against.not_of(Through::rope(self.diameter)));
        let held = HeldBy::Said(self.against.holds);
        let carried =
            Carried { point: worst.band, anchor: worst.band, ..Carried::by_rope(in_rope, self.people.count, held) };
        let carried = carried.or_one_alone(alone);
        let mut working = self.working(hand_below, worst, jerks)?;
        let mut outcomes = Vec::new();
        if missing.high() > 1.0 {
            outcomes.extend(Some(self.supplies(hand_below.band)?).filter(|supplies| !supplies.findings.is_empty()));
        }
        let limit = chosen.limit.as_ref().map(|limit| limit.step());
        let mut comparisons = vec![chosen, self.hand.compare("for the brake hand".to_owned(), hand_below.band)];
        if self.release != Release::Fixed {
            let [bare, _] = lowered;
            comparisons.push(self.hand.compare("for the hand at the station".to_owned(), bare.band));
            outcomes.push(self.lowering(lowered, drawn));
            working.push(self.lowering_step(bare)?);
        }
        working.push(self.heat()?);
        let [smooth, in_jerks, _] = people::FORMULAS;
        working.extend(limit);
        Ok(Answer {
            remarks: self.remarks(missing, held_back.band, drawn.band),
            scene: self.scene(worst.band.high(), if jerks { "jerks" } else { "slip" }),
            findings,
            states,
            comparisons,
            outcomes,
            usual: carried.compare(&self.against),
            carried: Some(carried),
            working,
            formulas: [FORMULAS.as_slice(), &[smooth, in_jerks]].concat(),
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
            ..Answer::default()
        })
    }
}
