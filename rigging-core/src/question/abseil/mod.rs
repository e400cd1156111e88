//! Can the brake hand hold, and what reaches the anchor?

mod case;
mod told;

use told::{CAUTIONS, FORMULAS, NOT_IN};

use super::Ask;
use super::against::{self, Against, asks_limit};
use super::answer::{Answer, Finding};
use super::carried::{Carried, HeldBy};
use super::edge::Edge;
use super::field::{Field, choices, place, table};
use super::input::BadInput;
use super::people::{self, People, State, asks_people};
use crate::band::{Band, Spread};
use crate::law::OutOfDomain;
use crate::law::descender::Descender;
use crate::quantity::{Angle, Force, Kind, Length, degree, kilonewton, metre, millimetre};
use crate::working::Source;

choices!(Descender {
    FigureEight = "figure-eight", "figure-eight descender";
    RescueEight = "rescue eight", "rescue eight";
    BarRack = "bar rack", "rack of brake bars";
    ItalianHitch = "italian hitch", "italian (munter) hitch";
    Tube = "tube", "tube or plate";
    CarabinerBrake = "carabiner brake", "brake of crossed carabiners";
});

/// What brakes below the device.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Tail {
    /// The rope hangs free below the person.
    #[default]
    Free,
    /// It floats, lies on the ground or is carried in a bag.
    Carried,
}
choices!(Tail {
    Free = "free", "hangs free to the bottom";
    Carried = "carried", "floats, lies on a ledge, or is in a bag";
});

/// The hand that brakes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum HandState {
    /// One dry, rested hand.
    Rested,
    /// One wet, cold or tired hand.
    #[default]
    Tired,
    /// Two wet, cold or tired hands.
    BothTired,
}
choices!(HandState {
    Rested = "rested", "one gloved hand, dry and rested";
    Tired = "tired", "one hand, wet, cold or tired";
    BothTired = "both tired", "two hands, wet, cold or tired";
});

impl HandState {
    /// What the hand can hold, N, and how it is known.
    pub fn holds(self) -> (Band, Source) {
        match self {
            HandState::Rested => (
                Band::of(50.0, 200.0, 400.0),
                Source::published("50 to 400 N over a thousand grip trials, one gloved hand"),
            ),
            HandState::Tired => (Band::of(50.0, 100.0, 150.0), Source::assumed("wet, cold or tired")),
            HandState::BothTired => (Band::of(80.0, 160.0, 240.0), Source::assumed("1.6 times one tired hand")),
        }
    }
}

/// Yes or no.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Whether {
    /// Yes.
    Yes,
    /// No.
    No,
}
choices!(Whether { Yes = "yes", "yes"; No = "no", "no"; });

/// How many strands run through the device.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Strands {
    /// One.
    One,
    /// Two, side by side.
    Two,
}
choices!(Strands { One = "one", "one strand"; Two = "two", "two strands"; });

/// Someone goes down a rope on a friction device.
#[derive(Debug, Clone, PartialEq)]
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
    /// The hand that brakes.
    pub hand: HandState,
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
            hand: HandState::Tired,
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

const INPUTS: [&str; 8] = [
    people::LABELS[0],
    people::LABELS[1],
    "friction of the descender",
    "water in the rope",
    "stiffness of the rope",
    "how steadily the person descends",
    "how hard the jerks are",
    "friction of the edge",
];

impl Ask for Abseil {
    const NAME: &'static str = "abseil";
    const KEY: &'static str = "ab";
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
                .says("Rope below the person", "a tail that hangs free brakes by its weight"),
            Field::choice('b', "hand", HandState::CHOICES, place!(hand))
                .says("The hand that brakes", "what a hand holds differs eightfold between people"),
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

    fn solve(&self) -> Result<Answer, BadInput> {
        if self.slack > self.rope_out * 2.0 {
            let must = "not more than twice the rope from the anchor: nobody can fall farther";
            return Err(OutOfDomain { what: "slack at the lip", value: self.slack.value, must }.into());
        }
        let spreads = self.spread()?;
        let [hand_below, hand_above, held_back, still, descending, jerky, slip, jerky_edge, slip_edge] = &spreads;
        let load = |what: &str, spread: &Spread<8>| Finding::load(what, spread.band).moved_by(spread, &INPUTS);
        // With little slack or much rope out, jerks pull harder than a slip.
        let jerks = jerky.band.high() > slip.band.high();
        let (worst, worst_edge, on_anchor, behind_edge) = if jerks {
            (
                jerky,
                jerky_edge,
                "at the anchor, descending in jerks, edge not counted",
                "at the anchor in the same jerks, edge counted",
            )
        } else {
            (
                slip,
                slip_edge,
                "at the anchor on a slip at the lip, edge not counted",
                "at the anchor on the same slip, edge counted",
            )
        };
        let mut findings = vec![
            load("for the brake hand of the heaviest, to slide steadily near the bottom", hand_below),
            load(on_anchor, worst),
        ];
        if self.edge != Edge::Free {
            findings.push(load(behind_edge, worst_edge));
        }
        if self.tail == Tail::Free {
            findings.push(load("for the brake hand at the start, with the rope's weight below", hand_above));
        }
        let states =
            [(State::Still, still), (State::Descending, descending), (State::Jerky, jerky), (State::Slip, slip)]
                .map(|(state, spread)| Finding::load(state.words(), spread.band))
                .to_vec();

        let chosen = self.against.compare(on_anchor, worst.band);
        let carried = Carried::by_rope(worst.band, self.people.count, HeldBy::Said(self.against.holds));
        let hand = self.compare_hand(hand_below.band);
        let mut working = self.working(hand_below, worst, jerks)?;
        working.extend(chosen.limit.as_ref().map(|limit| limit.step()));
        Ok(Answer {
            remarks: self.remarks(hand_below.band, held_back),
            scene: self.scene(worst.band.high(), if jerks { "jerks" } else { "slip" }),
            findings,
            states,
            comparisons: vec![chosen, hand],
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::limit::Standing;
    use approx::assert_relative_eq;

    #[test]
    fn the_hand_needs_the_weight_of_the_heaviest_over_the_least_friction() {
        let [hand, ..] = Abseil::default().spread().unwrap();
        // Row F11 of the check values: 4.2 is the low friction of a figure-eight on wet 9 mm.
        assert_relative_eq!(hand.band.high(), (92.0 + 20.0 + 5.0) * 9.80665 / 4.2, max_relative = 1e-9);
    }

    #[test]
    fn an_edge_can_only_take_load_off_the_anchor() {
        let [.., slip, _, behind] = Abseil::default().spread().unwrap();
        assert!(behind.band.high() < slip.band.high());
        let free = Abseil { edge: Edge::Free, ..Abseil::default() };
        let [.., slip, _, behind] = free.spread().unwrap();
        assert_eq!(slip.band, behind.band);
    }

    #[test]
    fn without_slack_the_anchor_is_judged_on_the_jerks() {
        let mut abseil = Abseil { slack: Length::new::<metre>(0.0), ..Abseil::default() };
        abseil.against.holds = super::super::Holds::KnownBolt;
        abseil.against.limit = super::super::LimitChoice::Own;
        abseil.against.own = Force::new::<kilonewton>(3.0);
        let answer = abseil.solve().unwrap();
        let worst = answer.states.iter().map(|state| state.band.high()).fold(0.0, f64::max);
        assert_eq!(answer.findings[1].band.high(), worst);
        assert_ne!(answer.comparisons[0].standing, Standing::BelowLimit);
    }

    #[test]
    fn a_brake_hand_is_never_below_a_limit() {
        let strong = Abseil { descender: Descender::BarRack, hand: HandState::Rested, ..Abseil::default() };
        let answer = strong.solve().unwrap();
        assert_ne!(answer.comparisons[1].standing, Standing::BelowLimit);
    }
}
