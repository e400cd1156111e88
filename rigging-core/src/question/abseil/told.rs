//! What is told of the abseil: remarks, working, scene, cautions.

use super::super::answer::{Caution, ChosenLimit, Comparison, Gravity};
use super::super::edge::Edge;
use super::super::people::State;
use super::super::scene::{Arc, Arrow, Dimension, Person, Pose, Role, Scene, Strand};
use super::{Abseil, Tail};
use crate::band::{Band, Spread};
use crate::law::{OutOfDomain, fall};
use crate::limit::Standing;
use crate::quantity::{Kind, decimal};
use crate::working::{Formula, Given, Source, Step};
use std::f64::consts::FRAC_PI_2;

impl Abseil {
    pub(super) fn compare_hand(&self, needed: Band) -> Comparison {
        let (holds, source) = self.hand.holds();
        let part = self.hand.words().to_owned();
        let limit = ChosenLimit { band: holds, figure: holds.low(), factor: 1.0, part, source };
        let standing = Standing::of(needed, holds).of_unknown_part("a hand is a person, not a rated part");
        Comparison { what: "for the brake hand".into(), load: needed, limit: Some(limit), standing }
    }

    pub(super) fn remarks(&self, needed: Band, held_back: &Spread<8>) -> Vec<String> {
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

    pub(super) fn working(&self, hand: &Spread<8>, worst: &Spread<8>, jerks: bool) -> Result<Vec<Step>, OutOfDomain> {
        let [body, kit, held, ..] = hand.at_high;
        let [worst_body, worst_kit, _, soaked, stiffness, _, factor, _] = worst.at_high;
        let weight = Given::exact("W", self.people.weight_of_all(worst_body, worst_kit), Kind::Force);
        let rope = Given::exact("w", self.rope_weight(self.height, soaked)?, Kind::Force);
        let (baseline, _) = self.descender.baseline();
        let anchor = if jerks {
            Step {
                what: "At the anchor in jerks near the bottom, edge not counted; w is the rope above the person".into(),
                formula: "F = factor W + w",
                given: vec![Given::exact("factor", factor, Kind::Ratio), weight, rope],
                result: Given::exact("F", worst.band.high(), Kind::Force),
                source: State::Jerky.uncertain().1,
            }
        } else {
            let fall_factor = fall::fall_factor(self.slack, self.rope_out)?;
            let tail = if self.tail == Tail::Free { rope } else { Given::exact("w", 0.0, Kind::Force) };
            Step {
                what: "Peak at the anchor on a slip at the lip, edge not counted; w is the rope that hangs free".into(),
                formula: "F = W + √(W² + 2 W EA f) + w, f = slack / rope",
                given: vec![
                    weight,
                    Given::exact("EA", stiffness * self.strand_count(), Kind::Force),
                    Given::exact("f", fall_factor.value, Kind::Ratio),
                    tail,
                ],
                result: Given::exact("F", worst.band.high(), Kind::Force),
                source: Source::published("energy of a linear spring; OpenStax University Physics, worked example"),
            }
        };
        Ok(vec![
            self.people.step(body, kit),
            Step {
                what: "Friction ratio of the device on this rope: the baseline with its corrections for a thin rope \
                       (from memory), two strands, an extra carabiner (from memory) and wet"
                    .into(),
                formula: "R = baseline × corrections",
                given: vec![Given::new("baseline", baseline, Kind::Ratio)],
                result: Given::new("R", self.ratio()?, Kind::Ratio),
                source: Source::assumed("baselines of teaching ranges; two strands and wet assumed"),
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
            anchor,
        ])
    }

    pub(super) fn scene(&self, slip: f64, what: &str) -> Scene {
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
            case: format!("Drawn: the force of the {what} that loads the anchor most, edge not counted."),
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
            angles: if turn > 0.0 {
                vec![Arc { at: lip, from: FRAC_PI_2, to: FRAC_PI_2 + turn, name: "turning angle" }]
            } else {
                Vec::new()
            },
            lengths: vec![Dimension { from: [0.25 * height, 0.0], to: [0.25 * height, -height], name: "down" }],
            ..Scene::default()
        }
    }
}

pub(super) fn two_figures(number: f64) -> String {
    decimal(number, if number < 9.95 { 1 } else { 0 })
}

pub(super) const FORMULAS: [Formula; 5] = [
    Formula::new(
        "friction ratio of the device: low × low, typical × mean, high × high",
        "R = baseline × thin rope × strands × extra carabiner × wet",
        Source::assumed("baselines of teaching ranges; thin rope and carabiner from memory, strands and wet assumed"),
    ),
    Formula::new(
        "brake hand, w h the rope that hangs free below",
        "hand = (W + w h)/R − w h, not below 0",
        Source::derived("definition of R"),
    ),
    Formula::new("whether the lightest moves", "w h − (W + w h)/R above 0: held", Source::derived("definition of R")),
    Formula::new(
        "behind an edge that turns the rope by φ",
        "F e^(−μ φ), the least μ",
        Source::published("Euler–Eytelwein; friction of edges: Delaney 2020, range assumed"),
    ),
    Formula::new(
        "what a hand holds",
        "50 to 400 N dry and rested; 50 to 150 N tired or wet",
        Source::published("over 1000 trials; tired and wet assumed"),
    ),
];

pub(super) const CAUTIONS: [Caution; 5] = [
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
    Caution::OF_EVERY_NUMBER,
];

pub(super) const NOT_IN: [&str; 9] = [
    "that friction at the edge makes a slip harder on the person's side of it",
    "the pull of a hand that has to stop someone already moving",
    "the strength of the anchor, the rope and its knots",
    "falling water that pushes on the person or drags the rope",
    "the rope cut or worn at the edge",
    "heat of the device",
    "hands or back-ups that fail",
    "a slip farther from the lip, a swing, or a second person who grabs the rope",
    "give of the body, the knots and the anchor, which soften a slip",
];
