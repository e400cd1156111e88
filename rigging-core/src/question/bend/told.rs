//! What is told of the bends: remarks, working, scene, cautions.

use super::super::answer::{Caution, Finding, Gravity};
use super::super::people::{SLIP_OR_RAISED, State};
use super::super::scene::{Arc, Arrow, Grip, Handle, Person, Place, Pose, Pull, Role, Scene, Strand};
use super::case::{Bent, Failed, Judged, Row, along, nth, share_of_limit};
use super::{Bend, Bolt, Pulls, Runs, Told};
use crate::band::Band;
use crate::law::OutOfDomain;
use crate::quantity::{Kind, decimal};
use crate::strength::hardware::{BOLT_AXIAL, BOLT_RADIAL};
use crate::working::{Formula, Given, Source, Step};
use std::f64::consts::FRAC_PI_2;

fn row_words(runs: Option<Runs>) -> &'static str {
    match runs {
        None => "friction not counted",
        Some(Runs::Rest) => "at rest, friction holding either way",
        Some(Runs::Lowering) => "while lowering, friction counted",
        Some(Runs::Raising) => "while raising, friction counted",
    }
}

pub(super) fn hand_words(runs: Option<Runs>) -> String {
    format!("for the hand beyond the last bend, {}", row_words(runs))
}

/// Of another way for the rope to run than the one that is judged.
pub(super) fn pulls_harder(runs: Runs) -> String {
    let runs = match runs {
        Runs::Raising => "Raising",
        Runs::Lowering => "Lowering",
        Runs::Rest => "At rest it",
    };
    [runs, " pulls harder than what is compared here: choose it to compare that too."].concat()
}

/// The rope on the hand's side of each bend.
const BEYOND: [&str; 3] = ["rope beyond bend 1", "rope beyond bend 2", "rope beyond bend 3"];
const NAMES: [&str; 3] = ["bend 1", "bend 2", "bend 3"];

pub(super) fn name(place: usize) -> &'static str {
    NAMES.get(place).copied().unwrap_or_default()
}

impl Bend {
    pub(super) fn on_words(&self, place: usize, runs: Option<Runs>) -> String {
        self.told_of(place, row_words(runs))
    }

    /// The words for the range that a bend is compared with: over both of its rows.
    pub(super) fn compared_words(&self, judged: &Judged) -> String {
        match judged.worst() {
            Some(Runs::Rest) => self.on_words(judged.place, Some(Runs::Rest)),
            _ => self.told_of(judged.place, "friction counted or not"),
        }
    }

    /// Of a rope that is not raised the pull while raising is told, but not compared.
    pub(super) fn in_rope_words(&self) -> &'static str {
        match self.runs {
            Runs::Lowering => "in the rope where it carries most, lowering or at rest",
            Runs::Rest => "in the rope where it carries most, at rest",
            Runs::Raising => "in the rope where it carries most",
        }
    }

    fn told_of(&self, place: usize, friction: &str) -> String {
        let anchored = self.turns().get(place).is_some_and(|turn| turn.over.has_anchor());
        let part = if anchored { "anchor of" } else { "edge at" };
        format!("on the {part} {}, {friction}", name(place))
    }

    /// The state stands beside each force: one judged hanging still must not be taken for one of a slip.
    pub(super) fn with_state(&self, what: String, runs: Option<Runs>) -> String {
        match self.pulls {
            Pulls::People => match (runs, self.state_while(runs, None)) {
                (Some(Runs::Raising), State::Jerky) => format!("{what}, in jerks"),
                (_, state) => format!("{what}, {}", state.words()),
            },
            Pulls::Own => what,
        }
    }

    /// The same of a range over both of the rows that a bend is judged on.
    pub(super) fn with_states(&self, what: String, worst: Option<Runs>) -> String {
        let raised = self.runs == Runs::Raising && self.state.while_raised().is_some();
        if raised && self.pulls == Pulls::People && worst != Some(Runs::Rest) {
            return what + SLIP_OR_RAISED;
        }
        self.with_state(what, worst)
    }

    pub(super) fn remarks(&self, bends: &[Bent; 3], judged: &Judged, rows: &[Row]) -> Result<Vec<String>, OutOfDomain> {
        let mut multiples = format!("Times the force in the rope, {} gets", name(judged.place));
        for (number, (runs, [force, ..])) in rows.iter().enumerate() {
            let times = |force| decimal(force, 2);
            let (low, high) = (times(force.band.low()), times(force.band.high()));
            multiples += if number == 0 { " " } else { "; " };
            if low != high {
                multiples += &(low + " to ");
            }
            multiples += &(high + " " + row_words(*runs));
        }
        let mut remarks = vec![multiples + "."];
        if self.is_passed() {
            let [first, ..] = bends;
            remarks.push(format!(
                "On the way past bend 1, {} gets most when the rope has turned there by {}°.",
                name(judged.place),
                decimal(first.turn.abs().to_degrees(), 0)
            ));
        }
        if self.can_fail() {
            remarks.push(
                "If bend 1 fails the rope runs straight to what holds it beyond, if that holds: the person drops, swings to the side and back past plumb, and is no longer kept away from the water or the edge."
                    .to_owned(),
            );
        }
        if judged.anchored && self.bolt != Bolt::None {
            if nth(bends, judged.place).on_bolt(self.wall)?.out.value == 0.0 {
                remarks.push(
                    "Drawn, the pull does not come out of the rock: look again at which way the rock faces.".to_owned(),
                );
            }
            if self.bolt == Bolt::Proud {
                remarks.push(
                    "A bolt that stands proud is bent: an arm of 10 mm leaves an M10 about a quarter of its strength (from memory). Not computed here."
                        .to_owned(),
                );
            }
        }
        Ok(remarks)
    }

    pub(super) fn working(
        &self,
        &[body, kit, at, ..]: &[f64; 7],
        bends: &[Bent; 3],
        judged: &Judged,
        failed: Option<&Failed>,
    ) -> Result<Vec<Step>, OutOfDomain> {
        let force = |symbol, force: f64| Given::exact(symbol, force, Kind::Force);
        let plain = |symbol, number: f64| Given::exact(symbol, number, Kind::Ratio);
        let mut steps = Vec::new();
        if self.pulls == Pulls::People {
            steps.push(self.people.step(body, kit));
            let state = self.state_while(judged.worst(), None);
            steps.push(self.people.load_step(state, body, kit, at, nth(bends, 0).tension_in));
        }
        for (bent, name) in bends.iter().zip(NAMES).take(judged.place + 1).filter(|(bent, _)| bent.friction != 0.0) {
            let (band, source) = bent.over.friction(self.is_wet());
            if let Some(efficiency) = bent.over.efficiency() {
                steps.push(Step {
                    what: format!("Loss at {name}, as friction of a bend; η over 180°"),
                    formula: "μ = −ln(η) / π, so that η^(φ/180°) = e^(−μφ)",
                    given: vec![Given::new("η", efficiency, Kind::Ratio)],
                    result: Given::new("μ", band, Kind::Ratio),
                    source: Source::derived("the two ways to tell a loss"),
                });
            }
            steps.push(Step {
                what: format!("Force in the rope beyond {name}; μ {}: {}", source.known.word(), source.place),
                formula: if bent.friction > 0.0 { "T₂ = T₁ e^(μφ)" } else { "T₂ = T₁ e^(−μφ)" },
                given: vec![
                    force("T₁", bent.tension_in),
                    plain("μ", bent.friction.abs()),
                    Given::exact("φ", bent.turn.abs(), Kind::Angle),
                ],
                result: force("T₂", bent.tension_out),
                source: Source::published("Euler–Eytelwein; Baker & Haynes, Engineering Statics, chapter 9"),
            });
        }
        let bent = nth(bends, judged.place);
        let resultant = bent.resultant()?.value;
        steps.push(Step {
            what: format!("Force on {}, φ the turning angle", name(judged.place)),
            formula: "R = √(T₁² + T₂² − 2 T₁ T₂ cos φ)",
            given: vec![
                force("T₁", bent.tension_in),
                force("T₂", bent.tension_out),
                Given::exact("φ", bent.turn.abs(), Kind::Angle),
            ],
            result: force("R", resultant),
            source: Source::published("sum of two forces; printed block-angle tables"),
        });
        if judged.anchored && self.bolt == Bolt::Flat {
            let parts = bent.on_bolt(self.wall)?;
            let (out, along) = (parts.out.value, parts.along.value);
            steps.push(Step {
                what: "Tension of the bolt; its shear is V".into(),
                formula: "N = √(R² − V²), 0 where the pull presses into the rock",
                given: vec![force("R", resultant), force("V", along)],
                result: force("N", out),
                source: Source::derived("components of the pull, straight out of the rock and along it"),
            });
            let share = share_of_limit(parts)?;
            if share > 0.0 && self.limit_of_bolt(judged.anchored).is_some() {
                steps.push(Step {
                    what: "How many times as large the pull reaches the published limits of a new bolt".into(),
                    formula: "λ = [(N/N_r)^(5/3) + (V/V_r)^(5/3)]^(−3/5)",
                    given: vec![
                        force("N", out),
                        force("V", along),
                        force("N_r", BOLT_AXIAL.force().value),
                        force("V_r", BOLT_RADIAL.force().value),
                    ],
                    result: plain("λ", 1.0 / share),
                    source: Source::memory(
                        "ACI 318, commentary; limits EN 959:2018, in concrete, before any design factor",
                    ),
                });
            }
        }
        if let Some(failed) = failed {
            let [weight, stiffness, above, below, begins] = failed.at_most;
            steps.push(Step {
                what:
                    "If bend 1 fails, at most: all of the drop and of a slip or a jerk, or what is left of the pull before, stopped by stretch of the rope"
                        .into(),
                formula: "F = W + √(W² + 2 W EA (L₀ − y)/L₀ + T²), L₀ = L₁/(1 + T₁/EA) + L₂/(1 + T₂/EA), T = EA (d − L₀)/L₀ or 0",
                given: vec![
                    force("W", weight),
                    force("EA", stiffness),
                    force("T₁", above),
                    force("T₂", below),
                    Given::exact("L₁", self.rope_above.value, Kind::Length),
                    Given::exact("L₂", self.rope_below.value, Kind::Length),
                    Given::exact("y", begins, Kind::Length),
                    Given::exact("d", failed.straight, Kind::Length),
                ],
                result: force("F", failed.pull.high()),
                source: Source::derived("conservation of energy, nothing lost; used canyon rope, EA 20 to 49 kN"),
            });
        }
        Ok(steps)
    }

    pub(super) fn scene(&self, bends: &[Bent; 3], judged: &Judged) -> Scene {
        let mut scene = Scene {
            case: format!("Drawn: the case of the big number, {}.", row_words(judged.worst())),
            ..Scene::default()
        };
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };
        let [first, .., last] = bends;
        let mut at = step([0.0, 0.0], first.heading_in, -1.0);
        scene.forces.push(arrow(at, along(first.heading_in, -first.tension_in), Role::Load, "load"));
        let around = |field, centre, turn| Grip::Around { field, centre, turn };
        let load = around("load_runs_rad", [0.0, 0.0], 1.0);
        scene.handles.push(Handle::new(at, "rope to the load", [load]));
        let [_, up] = along(first.heading_in, 1.0);
        if self.pulls == Pulls::People && up > 0.5 {
            scene.people.push(Person { at, pose: Pose::Hanging });
        }
        for (((place, bent), name), beyond) in bends.iter().enumerate().zip(NAMES).zip(BEYOND).take(self.bends as usize)
        {
            // Round a sheave: its centre lies on the side to which the rope turns.
            let side = if bent.turn < 0.0 { FRAC_PI_2 } else { -FRAC_PI_2 };
            let enters = step(at, bent.heading_in, APART);
            scene.lines.push(Strand { from: at, to: enters, tension: bent.tension_in });
            let centre = step(enters, bent.heading_in + side, RADIUS);
            let mut arc = vec![enters];
            for part in 1..=4 {
                let heading = bent.heading_in - bent.turn * f64::from(part) / 4.0;
                let next = step(centre, heading - side, RADIUS);
                scene.lines.push(Strand { from: at_last(&arc), to: next, tension: bent.tension_out });
                arc.push(next);
            }
            at = at_last(&arc);
            // A turning angle is to the right above 0: clockwise.
            let grip = match (place, self.told) {
                (0, Told::Directions) => around("hand_runs_rad", centre, 1.0),
                (0, Told::Turn) => around("turn_1_rad", centre, -1.0),
                (1, _) => around("turn_2_rad", centre, -1.0),
                _ => around("turn_3_rad", centre, -1.0),
            };
            scene.handles.push(Handle::new(step(at, bent.heading_out, APART), beyond, [grip]));
            let pull = bent.on();
            let [x, y] = pull;
            if bent.over.has_anchor() {
                let anchor = step(centre, y.atan2(x), -SLING);
                scene.lines.push(Strand { from: anchor, to: centre, tension: x.hypot(y) });
                scene.anchors.push(anchor);
                scene.forces.push(arrow(anchor, pull, Role::OnAnchor, name));
                if place == judged.place && self.bolt != Bolt::None {
                    // The rock lies to the right of its surface, straight out of it to the left.
                    let surface = self.wall.value - 2.0 * FRAC_PI_2;
                    scene.rock.push(vec![step(anchor, surface, -SLING), step(anchor, surface, SLING)]);
                }
            } else {
                scene.forces.push(arrow(centre, pull, Role::OnAnchor, name));
                arc.insert(0, step(enters, bent.heading_in, -SLING));
                arc.push(step(at, bent.heading_out, SLING));
                if bent.turn < 0.0 {
                    arc.reverse();
                }
                scene.rock.push(arc);
            }
            if place == judged.place {
                let (before, after) = (bent.heading_in, bent.heading_out);
                let (from, to) = (before.min(after), before.max(after));
                scene.angles.push(Arc { at: centre, from, to, name: "turning angle" });
                scene.polygon = vec![
                    arrow(centre, along(bent.heading_in, -bent.tension_in), Role::Load, "load's side"),
                    arrow(centre, along(bent.heading_out, bent.tension_out), Role::Load, "hand's side"),
                    arrow(
                        centre,
                        [-x, -y],
                        Role::OnAnchor,
                        if bent.over.has_anchor() { "anchor holds" } else { "edge holds" },
                    ),
                ];
            }
        }
        let hand = step(at, last.heading_out, APART);
        scene.lines.push(Strand { from: at, to: hand, tension: last.tension_out });
        scene.forces.push(arrow(hand, along(last.heading_out, last.tension_out), Role::Load, "hand"));
        scene
    }
}

/// What is found if bend 1 lets go under the person.
pub(super) fn failed(failed: &Failed) -> [Finding; 3] {
    let length = |what: &str, metres| Finding::load(what, Band::exact(metres)).measured_as(Kind::Length);
    [
        length("down for the person if bend 1 fails, stretch of the rope not counted", failed.drop),
        length("to the side of plumb for the person then: the swing begins there", failed.aside),
        Finding::load("in the rope then, from a swing without a fall to a fall without a swing", failed.pull),
    ]
}

/// Lengths of the picture, m: rope between bends, radius of a bend, sling of an anchor.
const APART: f64 = 1.0;
const RADIUS: f64 = 0.1;
const SLING: f64 = 0.35;

/// The place so far away along a heading.
fn step([x, y]: Place, heading: f64, far: f64) -> Place {
    let [u, v]: Pull = along(heading, far);
    [x + u, y + v]
}

fn at_last(run: &[Place]) -> Place {
    run.last().copied().unwrap_or_default()
}

pub(super) const FORMULAS: [Formula; 5] = [
    Formula::new(
        "force in the rope beyond a bend, φ its turning angle: with + while raising, with − while lowering, either while at rest",
        "T₂ = T₁ e^(± μ φ)",
        Source::published("Euler–Eytelwein; Baker & Haynes, Engineering Statics, chapter 9"),
    ),
    Formula::new(
        "force on whatever bends it",
        "R = √(T₁² + T₂² − 2 T₁ T₂ cos φ)",
        Source::published("sum of two forces; printed block-angle tables"),
    ),
    Formula::new(
        "tension and shear of a bolt, α from straight out of the rock",
        "N = R cos α, not below 0; V = R sin α",
        Source::derived("components of a force"),
    ),
    Formula::new(
        "tension and shear told as one pull",
        "limit × [(N/N_r)^(5/3) + (V/V_r)^(5/3)]^(3/5)",
        Source::memory("ACI 318, commentary; limits EN 959:2018"),
    ),
    Formula::new(
        "if bend 1 fails: down and aside from the two lengths of rope; in the rope from a swing to a fall with what is left of the pull before, T, or as far as a slip or a jerk begins higher; L₀ the rope unstretched, y below what holds it",
        "W (3 − 2 cos θ) to W + √(W² + 2 W EA (L₀ − y)/L₀ + T²)",
        Source::derived("conservation of energy"),
    ),
];

pub(super) const CAUTIONS: [Caution; 5] = [
    Caution::new(
        Gravity::Danger,
        "A deviation or redirect that fails",
        "The person drops and swings, into the wall or back under the fall, and the rope lands on an edge.",
        "Rig it as an anchor in its own right, or so that its loss leaves the rope and the person in a place they can bear.",
    ),
    Caution::new(
        Gravity::Danger,
        "Standing inside the angle of a loaded rope",
        "If the bend gives way the rope whips across the angle and throws whoever stands there.",
        "Stand outside the angle, tied in, and keep hands away from the bend.",
    ),
    Caution::new(
        Gravity::Warning,
        "A load held from below through a ring",
        "The ring carries both sides of the rope: about twice the load, and more while raising.",
        "Judge the anchor on both sides together, not on the weight of the person.",
    ),
    Caution::new(
        Gravity::Warning,
        "Raising over edges",
        "Friction multiplies: hand, rope and every bend on the way get more than the load, and a stuck load far more.",
        "Pad or roll the edge, stop when it sticks, and look before more people pull.",
    ),
    Caution::OF_EVERY_NUMBER,
];

pub(super) const NOT_IN: [&str; 8] = [
    "the strength of the rock, the ring, the sling and the rope",
    "the wall, ledge or edge that a person or the rope hits when a bend fails, and whether the anchor beyond all bends then holds",
    "another bend that fails than bend 1, which frees the rope behind it: the person drops by up to twice the way out to it",
    "a bolt that is bent or levered, worn, or set in soft rock",
    "rope cut, worn or weakened by a sharp bend; slings that melt under a moving rope",
    "a turning angle that differs from the one entered, and pull out of the plane of the picture",
    "the rope's own weight, and water that pushes on it",
    "a load that sticks or jams",
];
