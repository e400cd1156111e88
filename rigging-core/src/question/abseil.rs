//! Can the brake hand hold, and what reaches the anchor?

use super::Ask;
use super::against::{self, Against, HasLimit};
use super::answer::{Answer, Caution, ChosenLimit, Comparison, Finding, Gravity};
use super::edge::Edge;
use super::field::{Field, choices, place};
use super::people::{self, HasPeople, People, State};
use super::scene::{Arrow, Dimension, Person, Pose, Role, Scene, Strand};
use crate::band::{Band, Spread, sweep};
use crate::law::descender::{self, Descender, Use};
use crate::law::{OutOfDomain, bend, fall, gravity, rope};
use crate::limit::Standing;
use crate::quantity::{
    Angle, Force, Kind, Length, Ratio, decimal, degree, kilonewton, metre, millimetre, newton, ratio,
};
use crate::working::{Given, Source, Step};

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

impl HasPeople for Abseil {
    fn people(&self) -> &People {
        &self.people
    }
    fn people_mut(&mut self) -> &mut People {
        &mut self.people
    }
}

impl HasLimit for Abseil {
    fn against(&self) -> &Against {
        &self.against
    }
    fn against_mut(&mut self) -> &mut Against {
        &mut self.against
    }
}

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
        let mut fields = vec![
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
                .from(Source::assumed("0.5 m")),
            Field::one('r', "rope_out_m", Kind::Length, 0.3..=100.0, place!(rope_out))
                .says("Rope from the anchor to that person", "short rope catches harder")
                .from(Source::assumed("3 m")),
            Field::range('f', "stiffness_n", Kind::Force, 1000.0..=1_000_000.0, place!(stiffness))
                .says("Stiffness of one strand (EA)", "20 to 41 kN for a used canyon rope")
                .from(Source::assumed("used canyon rope; EN 1891 type A is 19.6 kN or more")),
        ];
        fields.extend(people::fields());
        fields.extend(against::fields());
        fields
    }

    fn solve(&self) -> Result<Answer, OutOfDomain> {
        let spreads = self.spread()?;
        let [hand_below, hand_above, held_back, still, descending, jerky, slip, slip_edge] = &spreads;
        let load = |what: &str, spread: &Spread<8>| Finding::load(what, spread.band).moved_by(spread, &INPUTS);
        let on_anchor = "at the anchor on a slip at the lip, edge not counted";
        let mut findings =
            vec![load("for the brake hand of the heaviest, near the bottom", hand_below), load(on_anchor, slip)];
        if self.edge != Edge::Free {
            findings.push(load("at the anchor on the same slip, edge counted", slip_edge));
        }
        if self.tail == Tail::Free {
            findings.push(load("for the brake hand at the start, with the rope's weight below", hand_above));
        }
        let states =
            [(State::Still, still), (State::Descending, descending), (State::Jerky, jerky), (State::Slip, slip)]
                .map(|(state, spread)| Finding::load(state.words(), spread.band))
                .to_vec();

        let chosen = self.against.compare(on_anchor, slip.band);
        let hand = self.compare_hand(hand_below.band);
        let mut working = self.working(&hand_below.at_high, &slip.at_high, hand_below, slip)?;
        working.extend(chosen.limit.as_ref().map(|limit| limit.step()));
        Ok(Answer {
            remarks: self.remarks(hand_below.band, held_back),
            scene: self.scene(slip.band.high()),
            findings,
            states,
            comparisons: vec![chosen, hand],
            working,
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
        })
    }
}

impl Abseil {
    fn strand_count(&self) -> f64 {
        if self.strands == Strands::Two { 2.0 } else { 1.0 }
    }

    fn ratio(&self) -> Result<Band, OutOfDomain> {
        descender::friction_ratio(
            self.descender,
            &Use {
                diameter: self.diameter,
                two_strands: self.strands == Strands::Two,
                extra_carabiner: self.extra_carabiner == Whether::Yes,
                wet: self.wet == Whether::Yes,
            },
        )
    }

    /// Weight of a length of all strands, dry or soaked, N.
    fn rope_weight(&self, length: Length, soaked: f64) -> Result<f64, OutOfDomain> {
        let dry = gravity::weight(rope::mass(self.diameter, length)?).value;
        Ok(self.strand_count() * dry * soaked)
    }

    fn spread(&self) -> Result<[Spread<8>; 8], OutOfDomain> {
        let [body, kit] = self.people.inputs();
        let soaked = if self.wet == Whether::Yes { Band::of(1.0, 1.2, 1.5) } else { Band::exact(1.0) };
        let stiffness = self.stiffness.map(|stiffness| stiffness.value);
        let descending = State::Descending.factor().0;
        let jerky = State::Jerky.factor().0;
        let (friction, _) = self.edge.friction(self.wet == Whether::Yes);
        let inputs = [body, kit, self.ratio()?, soaked, stiffness, descending, jerky, friction];
        sweep(inputs, |&[body, kit, ratio_held, soaked, stiffness, smooth, jerks, friction]| {
            let weight = self.people.weight_of_all(body, kit);
            let force = Force::new::<newton>(weight);
            let device = Ratio::new::<ratio>(ratio_held.max(1.0));
            let rope = self.rope_weight(self.height, soaked)?;
            let none = Force::new::<newton>(0.0);
            let tail = if self.tail == Tail::Free { Force::new::<newton>(rope) } else { none };
            let slip =
                fall::peak(force, Force::new::<newton>(stiffness * self.strand_count()), self.slack, self.rope_out)?;
            let behind_edge = bend::slack_side(slip, Ratio::new::<ratio>(friction), self.edge_turn)?;
            Ok([
                descender::hand_force(force, none, device)?.value,
                descender::hand_force(force, tail, device)?.value,
                descender::held_back_by(force, tail, device)?.value,
                weight + rope,
                weight * smooth + rope,
                weight * jerks + rope,
                slip.value,
                behind_edge.value,
            ])
        })
    }

    fn compare_hand(&self, needed: Band) -> Comparison {
        let (holds, source) = self.hand.holds();
        let part = self.hand_words().to_owned();
        let limit = ChosenLimit { band: holds, figure: holds.low(), factor: 1.0, part, source };
        let standing = Standing::of(needed, holds).of_unknown_part("a hand is a person, not a rated part");
        Comparison { what: "for the brake hand".into(), load: needed, limit: Some(limit), standing }
    }

    fn hand_words(&self) -> &'static str {
        let name = self.hand;
        HandState::CHOICES
            .iter()
            .zip([HandState::Rested, HandState::Tired, HandState::BothTired])
            .find(|(_, state)| *state == name)
            .map_or("", |(choice, _)| choice.words)
    }

    fn remarks(&self, needed: Band, held_back: &Spread<8>) -> Vec<String> {
        let mut remarks = Vec::new();
        let (holds, _) = self.hand.holds();
        let short = needed.high() / holds.low();
        if short > 1.0 {
            remarks.push(format!(
                "For the heaviest and the weakest hand the friction could be short by a factor of {}. What supplies it: one more carabiner, a thicker or second strand, a device with more friction, or someone who brakes from below.",
                two_figures(short)
            ));
        }
        let back = held_back.band;
        if self.tail == Tail::Free {
            remarks.push(if back.low() > 0.0 {
                "With all of the rope hanging below, nobody of this group moves at the start.".to_owned()
            } else if back.high() > 0.0 {
                "With all of the rope hanging below, the lightest may not move at the start. In the flow of a fall that can hold a person under water.".to_owned()
            } else {
                "Even the lightest moves at the start, as far as the rope's weight goes; rope that is dragged by falling water brakes more.".to_owned()
            });
        }
        remarks
    }

    fn working(
        &self,
        &[body, kit, held, ..]: &[f64; 8],
        &[slip_body, slip_kit, _, _, stiffness, ..]: &[f64; 8],
        hand: &Spread<8>,
        slip: &Spread<8>,
    ) -> Result<Vec<Step>, OutOfDomain> {
        let weight = self.people.weight_of_all(slip_body, slip_kit);
        let (baseline, source) = self.descender.baseline();
        let factor = fall::fall_factor(self.slack, self.rope_out)?;
        Ok(vec![
            self.people.step(body, kit),
            Step {
                what: "Friction ratio of the device on this rope".into(),
                formula: "R = baseline × rope × strands × extra carabiner × wet",
                given: vec![Given::new("baseline", baseline, Kind::Ratio)],
                result: Given::new("R", self.ratio()?, Kind::Ratio),
                source,
            },
            Step {
                what: "Brake hand near the bottom, where no rope hangs below".into(),
                formula: "hand = W / R",
                given: vec![
                    Given::exact("W", self.people.weight_of_all(body, kit), Kind::Force),
                    Given::exact("R", held, Kind::Ratio),
                ],
                result: Given::exact("hand", hand.band.high(), Kind::Force),
                source: Source::derived("definition of R"),
            },
            Step {
                what: "Peak at the anchor on a slip at the lip, edge not counted".into(),
                formula: "F = W + √(W² + 2 W EA f), f = slack / rope",
                given: vec![
                    Given::exact("W", weight, Kind::Force),
                    Given::exact("EA", stiffness * self.strand_count(), Kind::Force),
                    Given::exact("f", factor.value, Kind::Ratio),
                ],
                result: Given::exact("F", slip.band.high(), Kind::Force),
                source: Source::published("energy of a linear spring; OpenStax University Physics, worked example"),
            },
        ])
    }

    fn scene(&self, slip: f64) -> Scene {
        let height = self.height.value;
        let set_back = (0.25 * height).clamp(0.5, 6.0);
        let turn = if self.edge == Edge::Free { 0.0 } else { self.edge_turn.value };
        let lip = [0.0, 0.0];
        // Behind the lip the rope runs on at the turning angle from plumb.
        let anchor = [-set_back * turn.sin(), set_back * turn.cos()];
        let person = [0.0, -0.55 * height];
        let at_anchor = [slip * turn.sin(), -slip * turn.cos()];
        let load = [0.0, -slip];
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };
        let mut polygon = vec![
            arrow(lip, load, Role::Load, "pull of the person"),
            arrow(anchor, [-at_anchor[0], -at_anchor[1]], Role::OnAnchor, "anchor holds"),
        ];
        if turn > 0.0 {
            let on_edge = [at_anchor[0] - load[0], at_anchor[1] - load[1]];
            polygon.push(arrow(lip, on_edge, Role::OnAnchor, "edge pushes"));
        }
        let strand = |from, to, tension| Strand { from, to, tension };
        Scene {
            case: "Drawn: the slip that gives the big force at the anchor, edge not counted.".to_owned(),
            rock: vec![vec![
                [1.6 * anchor[0].min(-0.3), anchor[1] - 0.05 * height],
                [0.0, -0.02 * height],
                [-0.06 * height, -height],
                [0.35 * height, -height],
            ]],
            anchors: vec![anchor],
            lines: vec![strand(anchor, lip, slip), strand(lip, person, slip), strand(person, [0.0, -height], 0.0)],
            people: vec![Person { at: person, pose: Pose::Hanging }],
            forces: vec![arrow(person, load, Role::Load, "person"), arrow(anchor, at_anchor, Role::OnAnchor, "anchor")],
            polygon,
            angles: Vec::new(),
            lengths: vec![Dimension { from: [0.25 * height, 0.0], to: [0.25 * height, -height], name: "down" }],
        }
    }
}

fn two_figures(number: f64) -> String {
    decimal(number, if number < 9.95 { 1 } else { 0 })
}

const CAUTIONS: [Caution; 5] = [
    Caution::new(
        Gravity::Danger,
        "Hanging in falling water and stuck",
        "Someone held in the flow by a jammed device, a friction hitch or a firm hand from below can drown within minutes.",
        "Rig so that the rope can be let out from above under load, with enough of it at the station.",
    ),
    Caution::new(
        Gravity::Danger,
        "Too little friction",
        "The rope runs through the hand and does not stop.",
        "Set the friction for the heaviest with a cold hand, and try it before weighting the lip.",
    ),
    Caution::new(
        Gravity::Warning,
        "A slip with slack at the lip",
        "The anchor gets several times the weight, however gently everybody meant to start.",
        "Take the slack out, weight the rope while still clipped to the station.",
    ),
    Caution::new(
        Gravity::Warning,
        "A back-up that locks",
        "In flow a friction hitch, or a pull from below, holds a person where the water falls.",
        "Choose the back-up for the water at hand, with qualified instruction.",
    ),
    Caution::new(
        Gravity::Caution,
        "A number from a page",
        "It knows nothing of the rock, the anchor, wear, or the edge that saws.",
        "Let qualified instruction, local rules and your own eyes decide.",
    ),
];

const NOT_IN: [&str; 7] = [
    "the strength of the anchor, the rope and its knots",
    "falling water that pushes on the person or drags the rope",
    "the rope cut or worn at the edge",
    "heat of the device",
    "hands or back-ups that fail",
    "a slip farther from the lip, a swing, or a second person who grabs the rope",
    "give of the body, the knots and the anchor, which soften a slip",
];

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn the_hand_needs_the_weight_of_the_heaviest_over_the_least_friction() {
        let [hand, ..] = Abseil::default().spread().unwrap();
        // Row F11 of the check values: 4.2 is the low friction of a figure-eight on wet 9 mm.
        assert_relative_eq!(hand.band.high(), (92.0 + 20.0 + 5.0) * 9.80665 / 4.2, max_relative = 1e-9);
    }

    #[test]
    fn an_edge_can_only_take_load_off_the_anchor() {
        let [.., slip, behind] = Abseil::default().spread().unwrap();
        assert!(behind.band.high() < slip.band.high());
        let free = Abseil { edge: Edge::Free, ..Abseil::default() };
        let [.., slip, behind] = free.spread().unwrap();
        assert_eq!(slip.band, behind.band);
    }

    #[test]
    fn a_brake_hand_is_never_below_a_limit() {
        let strong = Abseil { descender: Descender::BarRack, hand: HandState::Rested, ..Abseil::default() };
        let answer = strong.solve().unwrap();
        assert_ne!(answer.comparisons[1].standing, Standing::BelowLimit);
    }
}
