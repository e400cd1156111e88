//! What is told of the abseil: remarks, working, scene, cautions.

use super::super::answer::{Caution, Finding, Gravity, Outcome};
use super::super::edge::Edge;
use super::super::people::State;
use super::super::scene::{Arc, Arrow, Dimension, Grip, Handle, Person, Pose, Role, Scene, Strand};
use super::case::skin_friction;
use super::{Abseil, FallingWater, HandState, INPUTS, Release, Strands, Tail, Whether};
use crate::band::{Band, Spread};
use crate::law::descender::{self, Descender};
use crate::law::{OutOfDomain, fall, falling_water};
use crate::quantity::{Force, Kind, Length, Ratio, decimal, millimetre, newton, ratio};
use crate::working::{Formula, Given, Source, Step};
use std::f64::consts::FRAC_PI_2;

impl Abseil {
    /// Friction needed over the friction there is, from the strongest hand that holds the lightest to the opposite.
    pub(super) fn missing(&self, needed: Band) -> Band {
        let (holds, _) = self.hand.holds();
        Band::of(needed.low() / holds.high(), needed.typical() / holds.typical(), needed.high() / holds.low())
    }

    /// The device listed that has more friction than this one even at its least, if there is one.
    pub(super) fn stronger_device(&self) -> Option<Descender> {
        let least = |device: &Descender| device.baseline().0.low();
        let most = |one: Descender, other: Descender| if least(&other) > least(&one) { other } else { one };
        let best = Descender::ALL.into_iter().fold(self.descender, most);
        (best != self.descender).then_some(best)
    }

    /// What supplies friction, each change alone, with the brake hand it leaves.
    pub(super) fn supplies(&self, needed: Band) -> Result<Outcome, OutOfDomain> {
        let now = self.ratio()?;
        let mut changes = Vec::new();
        if self.extra_carabiner == Whether::No {
            changes.push(("with one more carabiner", self.ratio_of(self.descender, self.strands, Whether::Yes)?));
        }
        if self.strands == Strands::One {
            let two = self.ratio_of(self.descender, Strands::Two, self.extra_carabiner)?;
            changes.push(("with a second strand through the device", two));
        }
        if let Some(device) = self.stronger_device() {
            changes.push((device.words(), self.ratio_of(device, self.strands, self.extra_carabiner)?));
        }
        let at = |hand: f64, now: f64, then: f64| hand * now.max(1.0) / then.max(1.0);
        let mut findings = Vec::new();
        for (what, then) in changes {
            let band = Band::of(
                at(needed.low(), now.high(), then.high()),
                at(needed.typical(), now.typical(), then.typical()),
                at(needed.high(), now.low(), then.low()),
            );
            findings.push(Finding::load(what, band));
        }
        if self.hand != HandState::BothTired {
            let (holds, _) = self.hand.holds();
            findings.push(Finding::strength("held by two such hands", holds.map(|hand| BOTH_HANDS * hand)));
        }
        Ok(Outcome { case: "More friction, one change at a time, for the brake hand of the heaviest".into(), findings })
    }

    /// What the hand at the station has to hold, and what the lightest leaves it.
    pub(super) fn lowering(&self, [bare, counted]: &[Spread<11>; 2], drawn: &Spread<11>) -> Outcome {
        let most = "for the hand at the station to lower the heaviest, edge not counted";
        let least = "pulled at that hand by the lightest at the lip, with the most friction: what draws the rope through the device";
        let moved = |finding: Finding, spread| finding.moved_by(spread, &INPUTS);
        let mut findings = vec![moved(Finding::load(most, bare.band), bare)];
        if self.edge != Edge::Free {
            findings.push(moved(Finding::load("for the same hand, edge counted", counted.band), counted));
        }
        findings.push(moved(Finding::strength(least, drawn.band), drawn));
        Outcome { case: "If they are lowered from the station instead".into(), findings }
    }

    pub(super) fn remarks(&self, missing: Band, back: Band, drawn: Band) -> Vec<String> {
        let mut remarks = Vec::new();
        if missing.high() > 1.0 {
            let stronger = self.stronger_device().is_some();
            let devices = if stronger { "" } else { " No other device listed has more friction at its least." };
            // What is there already supplies nothing.
            let supplies = [
                (self.extra_carabiner == Whether::No, "one more carabiner, "),
                (self.strands == Strands::One, "a second strand, "),
                (self.diameter < Length::new::<millimetre>(10.5), "a thicker rope, "),
                (stronger, "a device with more friction, "),
                (self.hand != HandState::BothTired, "both hands, "),
            ];
            let supplies: String = supplies.into_iter().filter(|(is, _)| *is).map(|(_, what)| what).collect();
            remarks.push(format!(
                "For the heaviest and the weakest hand the friction could be short by a factor of {}. What supplies it: {supplies}someone who brakes from below, or lowering from above.{devices}",
                two_figures(missing.high())
            ));
        }
        if self.diameter < Length::new::<millimetre>(9.0) {
            remarks.push(
                "On rope thinner than 9 mm the hand needs more than is told here: friction is counted as on 9 mm."
                    .to_owned(),
            );
        }
        if self.tail.may_hang() {
            remarks.push(if back.low() > 0.0 && self.tail.surely_hangs() {
                "With all of the rope hanging below, nobody of this group moves at the start.".to_owned()
            } else if back.high() > 0.0 {
                "With all of the rope hanging below, the lightest may not move at the start. In the flow of a fall that can hold a person under water.".to_owned()
            } else if self.tail == Tail::InFall {
                "Even the lightest moves at the start, as far as the rope's weight and this water's drag go.".to_owned()
            } else {
                "Even the lightest moves at the start, as far as the rope's weight goes; rope that is dragged by falling water brakes more.".to_owned()
            });
        }
        remarks.push(match self.release {
            Release::Fixed => "The rope is tied off: nobody at the station can let it out. Whoever is stuck on it stays there until they free themselves or somebody reaches them.".to_owned(),
            _ if drawn.low() < DRAWS => "Let out from the station, the lightest may still not move: friction of edge and device may leave less pull than it takes to draw rope through (10 N, assumed). Then it has to be fed by hand.".to_owned(),
            _ => "Let out from the station, even the lightest draws the rope through the device there, as far as friction of edge and device goes; a rope jammed in a crack or at a knot does not move.".to_owned(),
        });
        remarks.push(self.back_up.remark().to_owned());
        if self.water != FallingWater::None {
            remarks.push(
                "Common practice, no source: first down is whoever is most capable in rope and water; a hat with a peak under the helmet leaves room to breathe under falling water."
                    .to_owned(),
            );
        }
        remarks
    }

    pub(super) fn working(&self, hand: &Spread<11>, worst: &Spread<11>, jerks: bool) -> Result<Vec<Step>, OutOfDomain> {
        let [body, kit, held, .., pressed, _, _] = hand.at_high;
        let [worst_body, worst_kit, _, soaked, stiffness, _, factor, _, worst_pressed, dragged, _] = worst.at_high;
        let force = |symbol, value| Given::exact(symbol, value, Kind::Force);
        let weight = force("W", self.people.weight_of_all(worst_body, worst_kit));
        let rope = force("w", self.rope_weight(self.height, soaked)?);
        let (baseline, _) = self.descender.baseline();
        let falls = self.water != FallingWater::None;
        let in_fall = self.tail == Tail::InFall;
        // Without falling water neither P nor D is told.
        let told = |given: &[Given], wet, of_water: &[Given]| [given, if wet { of_water } else { &[] }].concat();
        let anchor = if jerks {
            Step {
                what: "At the anchor in jerks near the bottom, edge not counted; w is the rope above the person".into(),
                formula: if falls { "F = factor W + w + P + D" } else { "F = factor W + w" },
                given: told(
                    &[Given::exact("factor", factor, Kind::Ratio), weight, rope],
                    falls,
                    &[force("P", worst_pressed), force("D", dragged)],
                ),
                result: force("F", worst.band.high()),
                source: State::Jerky.uncertain().1,
            }
        } else {
            let fall_factor = fall::fall_factor(self.slack, self.rope_out)?;
            let tail = if self.tail.may_hang() { rope } else { force("w", 0.0) };
            Step {
                what: "Peak at the anchor on a slip at the lip, edge not counted; w is the rope that hangs free".into(),
                formula: if in_fall {
                    "F = V + √(V² + 2 V EA f) + D, V = W + w, f = slack / rope"
                } else {
                    "F = V + √(V² + 2 V EA f), V = W + w, f = slack / rope"
                },
                given: told(
                    &[
                        weight,
                        force("EA", stiffness * self.strand_count()),
                        Given::exact("f", fall_factor.value, Kind::Ratio),
                        tail,
                    ],
                    in_fall,
                    &[force("D", dragged)],
                ),
                result: force("F", worst.band.high()),
                source: Source::published("energy of a linear spring; OpenStax University Physics, worked example"),
            }
        };
        let mut steps = vec![
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
        ];
        if falls {
            steps.extend(self.falling_steps()?);
        }
        let all = self.people.weight_of_all(body, kit);
        steps.push(Step {
            what: "Brake hand near the bottom, where no rope hangs below".into(),
            formula: if falls { "hand = (W + P) / R" } else { "hand = W / R" },
            given: told(
                &[force("W", all), Given::exact("R", held.max(1.0), Kind::Ratio)],
                falls,
                &[force("P", pressed)],
            ),
            result: force("hand", hand.band.high()),
            source: Source::derived("definition of R"),
        });
        steps.push(anchor);
        Ok(steps)
    }

    /// How the falling water presses and drags, at the most.
    fn falling_steps(&self) -> Result<Vec<Step>, OutOfDomain> {
        let flow = self.water.flow().high();
        let length = |symbol, value| Given::exact(symbol, value, Kind::Length);
        let plain = |symbol, value| Given::exact(symbol, value, Kind::Ratio);
        let speed = falling_water::speed_after(self.height)?.value;
        let (skin, around) = (skin_friction().high(), self.diameter * self.strand_count());
        let along = falling_water::speed_along(flow, around, self.height, Ratio::new::<ratio>(skin))?;
        Ok(vec![
            Step {
                what: "Falling water on the person near the bottom, all of the flow Q and no loss of speed".into(),
                formula: "P = ρ Q v, v = √(2 g h)",
                given: vec![plain("Q in m³/s", flow.value), length("h", self.height.value), plain("v in m/s", speed)],
                result: Given::exact("P", self.pressed()?.high(), Kind::Force),
                source: Source::derived("momentum of a stream, free fall; thrown back, up to twice as much"),
            },
            Step {
                what:
                    "Falling water along all of the rope; d is the diameter of all strands, v free fall, or the speed \
                       at which the rope holds the water's weight, whichever is less"
                        .into(),
                formula: "D = ½ ρ c_f π d h v², v = least of √(g h) and ∛(2 g Q/(c_f π d))",
                given: vec![
                    plain("c_f", skin),
                    Given::exact("d", around.value, Kind::Thickness),
                    length("h", self.height.value),
                    plain("v in m/s", along.value),
                ],
                result: Given::exact("D", self.dragged()?.high(), Kind::Force),
                source: Source::assumed("skin friction c_f 0.005 to 0.02, water all around the rope"),
            },
        ])
    }

    pub(super) fn lowering_step(&self, bare: &Spread<11>) -> Result<Step, OutOfDomain> {
        let [body, kit, _, soaked, .., pressed, dragged, held] = bare.at_high;
        let force = |symbol, value| Given::exact(symbol, value, Kind::Force);
        Ok(Step {
            what: "Hand at the station that lowers the heaviest near the bottom, edge not counted; R is that of the \
                   device there"
                .into(),
            formula: "hand = (W + w + P + D) / R, P and D of falling water",
            given: vec![
                force("W", self.people.weight_of_all(body, kit)),
                force("w", self.rope_weight(self.height, soaked)?),
                force("P", pressed),
                force("D", dragged),
                Given::exact("R", held.max(1.0), Kind::Ratio),
            ],
            result: force("hand", bare.band.high()),
            source: Source::derived("definition of R"),
        })
    }

    /// How warm the device becomes if nothing cools it: told, but compared with nothing.
    pub(super) fn heat(&self) -> Result<Step, OutOfDomain> {
        let (mass, metal, source) = self.descender.metal();
        let share = Band::of(0.2, 0.35, 0.5);
        let weight = self.people.weight_of_all(self.people.body.high().value, self.people.kit.high().value);
        let work = Force::new::<newton>(weight) * self.height;
        let all = descender::warming(work, Ratio::new::<ratio>(1.0), mass, metal)?.value;
        let rise = share.map(|share| share * all);
        Ok(Step {
            what:
                "Heat of the descent in the device, if nothing cools it; m is its mass, c the heat its metal takes, η \
                   the share that goes into it. Nylon turns sticky at 121 °C (published)"
                    .into(),
            formula: "ΔT = η W h/(m c)",
            given: vec![
                Given::new("η", share, Kind::Ratio),
                Given::exact("W", weight, Kind::Force),
                Given::exact("h", self.height.value, Kind::Length),
                Given::exact("m", mass.value, Kind::Mass),
                Given::exact("c in J/(kg K)", metal.value, Kind::Ratio),
            ],
            result: Given::new("ΔT in K", rise, Kind::Ratio),
            source,
        })
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
        let bottom = Grip::along("height_m", [0.0, -1.0]);
        let mut handles = vec![Handle::new([0.25 * height, -height], "bottom", [bottom])];
        if self.edge != Edge::Free {
            let turn = Grip::Around { field: "edge_turn_rad", centre: lip, turn: 1.0 };
            handles.push(Handle::new(anchor, "turn at the edge", [turn]));
        }
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
            handles,
            ..Scene::default()
        }
    }
}

/// What two hands hold for each newton of one (assumed).
const BOTH_HANDS: f64 = 1.6;

/// The least pull that draws rope out of a bag and through a device, N (assumed).
const DRAWS: f64 = 10.0;

pub(super) fn two_figures(number: f64) -> String {
    let tenth = if number < 9.9 { 10.0 } else { 1.0 };
    decimal((number * tenth - 1e-9).ceil() / tenth, if tenth > 1.0 { 1 } else { 0 })
}

pub(super) const FORMULAS: [Formula; 10] = [
    Formula::new(
        "friction ratio of the device: low × low, typical × mean, high × high",
        "R = baseline × thin rope × strands × extra carabiner × wet",
        Source::assumed("baselines of teaching ranges; thin rope and carabiner from memory, strands and wet assumed"),
    ),
    Formula::new(
        "brake hand, w h the rope that hangs free below; near the bottom none, but P of falling water",
        "hand = (W + w h)/R − w h, not below 0; (W + P)/R",
        Source::derived("definition of R"),
    ),
    Formula::new(
        "whether the lightest moves, D the drag of falling water on a tail that hangs in it",
        "w h + D − (W + w h + D)/R above 0: held",
        Source::derived("definition of R"),
    ),
    Formula::new(
        "hand at the station that lowers, w L the rope out, none at the lip, R of the device there; edge not counted: μ = 0",
        "hand = (W + w L + P + D) e^(−μ φ)/R",
        Source::derived("definition of R"),
    ),
    Formula::new(
        "at the anchor: the load of a state, and the rope above or below the device",
        "F = factor W + w h + P + D; on a slip F = V + √(V² + 2 V EA f), V = W + w h, with D of a tail in the fall; W of all on the rope",
        Source::published("energy of a linear spring; OpenStax University Physics, worked example"),
    ),
    Formula::new(
        "falling water on a person: flow Q times its speed after the whole height, from none of it to all",
        "P = ρ Q √(2 g h)",
        Source::derived("momentum of a stream; how much hits assumed"),
    ),
    Formula::new(
        "falling water along all of the rope, none if it hangs beside it: v at most free fall, and at most what leaves the rope the water's weight",
        "D = ½ ρ c_f π d h v², v = least of √(g h) and ∛(2 g Q/(c_f π d))",
        Source::assumed("c_f 0.005 to 0.02"),
    ),
    Formula::new(
        "behind an edge that turns the rope by φ",
        "F e^(−μ φ), the least μ",
        Source::published("Euler–Eytelwein; friction of edges: Delaney 2020, range assumed"),
    ),
    Formula::new(
        "what a hand holds",
        "50 to 400 N dry and rested; 50 to 150 N tired or wet; two hands × 1.6",
        Source::published("over 1000 trials; tired, wet and two hands assumed"),
    ),
    Formula::new(
        "friction that is missing: friction needed over what there is",
        "hand ÷ what the hand holds",
        Source::derived("definition of R"),
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

pub(super) const NOT_IN: [&str; 10] = [
    "worse slips than entered: 3 times the weight was measured on dynamic and 5 times on low-stretch rope (ENSA 2021)",
    "the pull of a hand that has to stop someone already moving",
    "the strength of the anchor, the rope and its knots",
    "falling water that swings, chills or chokes, and stones in it",
    "a current that pulls a rope that floats",
    "the rope cut or worn at the edge",
    "what the heat of the device does to the rope: it is only worked out",
    "hands or back-ups that fail",
    "a slip farther from the lip, a swing, or a second person who grabs the rope",
    "give of the body, the knots and the anchor, which soften a slip",
];
