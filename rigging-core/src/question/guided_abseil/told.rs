//! What is told of the guided abseil: remarks, outcomes, graphs, working, scene, cautions.

use super::super::answer::{Caution, Finding, Gravity, Outcome};
use super::super::graph::{Axis, Graph, Mark};
use super::super::input::BadInput;
use super::super::people::State;
use super::super::scene::{Arc, Arrow, Dimension, Grip, Handle, Person, Pose, Role, Scene, Strand, front};
use super::case::{Case, Found, Inputs, Load, On, SLACK, Step as Place, WAIST};
use super::{Guide, GuidedAbseil};
use crate::band::{Band, Spread};
use crate::quantity::{Kind, decimal};
use crate::statics::Vector;
use crate::working::{Formula, Given, Source, Step};
use std::f64::consts::PI;

const FORCE: Axis = Axis { name: "force", kind: Kind::Force };
/// Places of the curve against how the guide is set.
const CURVE: u32 = 10;

impl GuidedAbseil {
    pub(super) fn remarks(&self, found: &Found, case: &Case) -> Result<Vec<String>, BadInput> {
        let mut remarks = Vec::new();
        let bottom = self.closely(&found.on(On::Bottom).at_high, On::Bottom)?.hardest(On::Bottom).on(On::Bottom);
        if bottom.z > 0.0 {
            remarks.push(
                "The bottom anchor is pulled up and back toward the wall: a boulder can be lifted or rolled, a sling can slip off, a person is pulled off their feet."
                    .to_owned(),
            );
        }
        let [.., above, never] = &found.way;
        if never.band.high() > 0.0 {
            let everywhere = never.band.low() > 0.0;
            remarks.push(
                if everywhere {
                    "The guide does not bring the person out of the falling water at all."
                } else {
                    "At one end of the ranges the guide does not bring the person out of the falling water at all."
                }
                .to_owned(),
            );
        }
        if above.band.high() > 0.0 || case.above > 0.0 {
            remarks.push(format!(
                "{} the rope goes slack before the person is down: the guide line alone holds them near its bottom anchor.",
                if above.band.low() > 0.0 { "Everywhere in the ranges" } else { "Somewhere in the ranges" }
            ));
        }
        if self.guide == Guide::PreTension {
            remarks.push(
                "A tighter guide carries farther out and pulls harder on both of its anchors; see the curve before pulling more."
                    .to_owned(),
            );
        }
        let first = case.way.first().map_or(0.0, |step| step.paid_out);
        remarks.push(format!(
            "The forces hold from {} m of rope paid out on, in the case drawn. With less, the abseil rope has up to all of the load; and whoever has to pull the guide in to the stance to clip in pulls harder on all three anchors. A slip counts half a metre of slack with 3 m out: nearer to the stance it pulls harder.",
            decimal(first, 1)
        ));
        remarks.push(format!(
            "The way ends where the waist is {} m above the ground or water. Before it does, the person must be able to come off the guide under load, and someone must be able to let the guide go from one end.",
            decimal(WAIST, 0)
        ));
        Ok(remarks)
    }

    /// The last person, for whom nobody holds the guide.
    pub(super) fn unguided(&self, load: Band) -> Outcome {
        let mut findings = vec![Finding::load(format!("on the abseil anchor, {}", self.state.words()), load)];
        for (reach, what) in [
            (self.fall_out, "inside the falling water, all the way"),
            (self.pool_to, "short of the far edge of the pool, at the foot"),
        ] {
            if reach.value > 0.0 {
                findings.push(Finding::load(what, Band::exact(reach.value)).measured_as(Kind::Length));
            }
        }
        Outcome { case: "The last person, without a guide: plumb below the abseil anchor".into(), findings }
    }

    /// Force on one anchor against rope paid out.
    pub(super) fn on_the_way(&self, on: On, worst: &Spread<4>) -> Result<Graph, BadInput> {
        let (most, least) = (self.closely(&worst.at_high, on)?, self.case(&worst.at_low)?);
        let force = |step: &Place| step.on(on).norm();
        let mut curve = Vec::new();
        for step in &most.way {
            // The least at as much rope paid out.
            let after = least.way.iter().position(|other| other.paid_out >= step.paid_out);
            let low = match after.map(|after| (least.way.get(after.saturating_sub(1)), least.way.get(after))) {
                Some((Some(before), Some(after))) => {
                    let share = (step.paid_out - before.paid_out) / (after.paid_out - before.paid_out).max(1e-9);
                    force(before) + share.clamp(0.0, 1.0) * (force(after) - force(before))
                }
                _ => least.way.last().map_or(0.0, force),
            };
            let (low, high) = (low.min(force(step)), force(step));
            curve.push(Mark { across: step.paid_out, up: Band::of(low, f64::midpoint(low, high), high) });
        }
        let here = curve.iter().copied().reduce(|most, mark| if mark.up.high() > most.up.high() { mark } else { most });
        Ok(Graph {
            title: format!("{} on the way down, {}", on.words(), self.state.words()),
            across: Axis { name: "rope paid out", kind: Kind::Length },
            up: FORCE,
            curve,
            here,
        })
    }

    /// Force on one anchor against how tight the guide is set.
    pub(super) fn against_set(&self, on: On, worst: &Spread<4>) -> Result<Graph, BadInput> {
        let set = self.set();
        let (name, kind, most) = match self.guide {
            Guide::PreTension => ("tension beforehand", Kind::Force, (2.0 * set.high()).max(2000.0)),
            Guide::Slack => ("slack, share of the straight distance", Kind::Ratio, (1.5 * set.high()).max(0.05)),
        };
        let at = |across: f64| -> Result<Mark, BadInput> {
            let force = |[load, out, _, stiffness]: Inputs| -> Result<f64, BadInput> {
                Ok(self.case(&[load, out, across, stiffness])?.hardest(on).on(on).norm())
            };
            let (high, low) = (force(worst.at_high)?, force(worst.at_low)?);
            Ok(Mark { across, up: Band::of(low, f64::midpoint(low, high), high) })
        };
        let curve =
            (0..=CURVE).map(|place| at(most * f64::from(place) / f64::from(CURVE))).collect::<Result<_, _>>()?;
        let [_, _, here, _] = worst.at_high;
        Ok(Graph {
            title: format!("{}, {}, against how tight the guide is set", on.words(), self.state.words()),
            across: Axis { name, kind },
            up: FORCE,
            curve,
            here: Some(Mark { across: here, up: worst.band }),
        })
    }

    pub(super) fn working(&self, point: &Inputs, load: &Load, case: &Case, on: On) -> Vec<Step> {
        let [_, _, set, stiffness] = *point;
        let [body, kit, at] = load.at_high;
        let place = case.hardest(on);
        let force = |symbol, value| Given::exact(symbol, value, Kind::Force);
        let length = |symbol, value| Given::exact(symbol, value, Kind::Length);
        let (formula, given) = match self.guide {
            Guide::PreTension => ("L₀ = c / (1 + T₀/EA)", vec![force("T₀", set), force("EA", stiffness)]),
            Guide::Slack => ("L₀ = c (1 + slack)", vec![Given::exact("slack", set, Kind::Ratio)]),
        };
        let mut load = self.people.load_step(self.state, body, kit, at, case.load);
        if self.state == State::Slip {
            load.source = Source::assumed("0.5 m of slack on 3 m of this rope; energy of a linear spring");
        }
        let mut steps = vec![
            self.people.step(body, kit),
            load,
            Step {
                what: "Length of the guide line without tension; c is the straight distance of its anchors".into(),
                formula,
                given: [length("c", (case.bottom - case.top).norm())].into_iter().chain(given).collect(),
                result: length("L₀", case.guide),
                source: Source::derived("definition of stiffness"),
            },
        ];
        let angle = |symbol, value| Given::exact(symbol, value, Kind::Angle);
        if let Some((a, b)) = at_the_person(&place) {
            steps.push(Step {
                what: "At the person, where the anchor is pulled hardest: the rope is a from the fall line, the cow's tail b on its other side".into(),
                formula: "T = F sin b / sin(a + b)",
                given: vec![force("F", case.load), angle("a", a), angle("b", b)],
                result: force("T", place.rope),
                source: Source::published("triangle of forces; OpenStax College Physics, Newton's laws"),
            });
        }
        // Where it hangs slack it is the guide that pulls for itself.
        let pulls = place.tail > SLACK * case.load;
        steps.extend(pulls.then(|| Step {
            what: "At the ring: both parts of the guide pull alike, θ between them, against the cow's tail C".into(),
            formula: "T = C / (2 cos(θ/2))",
            given: vec![force("C", place.tail), angle("θ", included(case, &place))],
            result: force("T", place.guide),
            source: Source::published(
                "Spellman & Whiting, Mathematics and Statistics for the Environment, example 11.3",
            ),
        }));
        steps.push(Step {
            what: format!("Sum of the pulls {}", on.words()),
            formula: "force on the anchor",
            given: vec![length("rope paid out", place.paid_out)],
            result: force("on the anchor", place.on(on).norm()),
            source: Source::derived("balance of forces where everything is at rest"),
        });
        steps
    }

    /// Where an anchor is pulled hardest, which may be at the stance, and halfway down.
    pub(super) fn scenes(&self, case: &Case, on: On) -> (Scene, Option<Scene>) {
        let words =
            format!("Drawn: {}, without friction of the ring, where the anchor is pulled hardest", self.state.words());
        let half = case.way.get(case.way.len() / 2).map(|place| self.scene(case, place, "The same case halfway down"));
        (self.scene(case, &case.hardest(on), &words), half)
    }

    fn scene(&self, case: &Case, place: &Place, words: &str) -> Scene {
        let (person, ring) = (front(&place.person), front(&place.ring));
        let (abseil, top, bottom) = ([0.0, 0.0], front(&case.top), front(&case.bottom));
        let (foot, height) = (-self.height.value, self.height.value);
        let strand = |from, to, tension| Strand { from, to, tension };
        let load = [0.0, -case.load];
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };
        let held = |on: On| front(&-place.on(on));
        let pool = self.pool_to.value;
        let shore = pool.max(self.fall_out.value).max(bottom[0]) + 0.15 * height;
        let wall = top[0].min(0.0) - 0.02 * height;
        let deep = foot - 0.06 * height;
        let bed = if pool > 0.0 {
            vec![[wall, 0.0], [wall, deep], [pool, deep], [pool, foot], [shore, foot]]
        } else {
            vec![[wall, 0.0], [wall, foot], [shore, foot]]
        };
        let direction = |from: &Vector, to: &Vector| {
            let d = to - from;
            d.z.atan2(d.x)
        };
        let mut lengths = vec![Dimension { from: [0.0, foot], to: [bottom[0], foot], name: "out" }];
        if self.fall_out.value > 0.0 {
            let half = 0.5 * foot;
            lengths.push(Dimension { from: [0.0, half], to: [self.fall_out.value, half], name: "falling water" });
        }
        Scene {
            case: format!("{words}: {} m of rope paid out. Dotted: the way of the person.", decimal(place.paid_out, 1)),
            rock: vec![[[wall - 0.12 * height, 0.0]].into_iter().chain(bed).collect()],
            anchors: vec![abseil, top, bottom],
            lines: vec![
                strand(abseil, person, place.rope),
                strand(top, ring, place.guide),
                strand(ring, bottom, place.guide),
                strand(ring, person, place.tail),
            ],
            traces: vec![case.way.iter().map(|step| front(&step.person)).collect()],
            water: if pool > 0.0 { vec![[[wall, foot], [pool, foot]]] } else { Vec::new() },
            flows: Vec::new(),
            people: vec![Person { at: person, pose: Pose::Hanging }],
            forces: vec![
                arrow(person, load, Role::Load, "load"),
                arrow(abseil, front(&place.on(On::Abseil)), Role::OnAnchor, "abseil anchor"),
                arrow(top, front(&place.on(On::Top)), Role::OnAnchor, "guide top"),
                arrow(bottom, front(&place.on(On::Bottom)), Role::OnAnchor, "guide bottom"),
            ],
            polygon: vec![
                arrow(person, load, Role::Load, "load"),
                arrow(bottom, held(On::Bottom), Role::OnAnchor, "bottom holds"),
                arrow(top, held(On::Top), Role::OnAnchor, "top holds"),
                arrow(abseil, held(On::Abseil), Role::OnAnchor, "abseil holds"),
            ],
            angles: vec![Arc {
                at: ring,
                from: direction(&place.ring, &case.bottom),
                to: direction(&place.ring, &case.top),
                name: "between the guide's parts",
            }],
            lengths,
            handles: vec![
                Handle::new(
                    top,
                    "top anchor of the guide",
                    [Grip::along("top_out_m", [1.0, 0.0]), Grip::along("top_up_m", [0.0, 1.0])],
                ),
                Handle::new(
                    bottom,
                    "bottom anchor of the guide",
                    [Grip::along("bottom_out_m", [1.0, 0.0]), Grip::along("bottom_up_m", [0.0, 1.0])],
                ),
            ],
        }
    }
}

/// Angle between the two parts of the guide at the ring; straight on where one of them has no length left.
pub(super) fn included(case: &Case, place: &Place) -> f64 {
    let (up, down) = (case.top - place.ring, case.bottom - place.ring);
    let lengths = up.norm() * down.norm();
    if lengths < 1e-6 { PI } else { (up.dot(&down) / lengths).clamp(-1.0, 1.0).acos() }
}

/// Angles of rope and cow's tail from the fall line, to its two sides, where both pull.
pub(super) fn at_the_person(place: &Place) -> Option<(f64, f64)> {
    let (rope, tail) = (-place.person, place.ring - place.person);
    let lean = |part: Vector| part.x.atan2(part.z);
    let (a, b) = (-lean(rope), lean(tail));
    (place.rope > 0.0 && place.tail > 0.0 && a + b > 1e-6 && a + b < PI - 1e-6).then_some((a, b))
}

pub(super) const FORMULAS: [Formula; 4] = [
    Formula::new(
        "every force and place on the way: ropes pull by their stretch, and where everything rests the energy is least",
        "T = EA (ℓ − L₀)/L₀; Σ EA (ℓ − L₀)²/(2 L₀) − F · x is least",
        Source::derived("convex energy of elastic lines; forces balanced to one part in 10⁹"),
    ),
    Formula::new(
        "on the guide's top anchor, friction of the ring counted; φ the guide's turn there, wet μ up to 0.39, a pulley less",
        "T/r, or F/√(1 + r² − 2 r cos φ) if that is less, r = e^(−μ φ)",
        Source::assumed("the guide below the ring pulls as without friction, until both parts hold F, the load, alone"),
    ),
    Formula::new(
        "how deep the way is inside the falling water, where it ends and how high above the foot",
        "places at rest of someone who hangs still, rope paid out until the waist is down or the rope slack",
        Source::derived("the same rest"),
    ),
    Formula::new(
        "the last person, without a guide",
        "F in plumb below the anchor",
        Source::derived("nothing else pulls"),
    ),
];

pub(super) const CAUTIONS: [Caution; 5] = [
    Caution::new(
        Gravity::Danger,
        "A person who hangs between rope and guide line and cannot come off",
        "In falling or moving water they drown where they hang.",
        "Rig rope and guide so that each can be let go under load, from the top or the foot, and agree who does it.",
    ),
    Caution::new(
        Gravity::Warning,
        "The bottom anchor",
        "It is pulled toward the person on the guide, up and back to the wall where it lies low; a person who holds it is pulled off their feet into the water.",
        "Choose it for that direction, stand clear of the line, and never tie anyone to it without a release.",
    ),
    Caution::new(
        Gravity::Warning,
        "A guide that fails or is let go while someone is on it",
        "The person swings back to the fall line, into the wall and the falling water.",
        "Look at what lies there first, and keep the guide until the person is off it.",
    ),
    Caution::new(
        Gravity::Warning,
        "The last person",
        "Nobody holds the guide for them: they hang plumb below the anchor unless the guide stays rigged.",
        "Let the one who can manage the fall and the pool come last, or rig the guide so that it is pulled down from below.",
    ),
    Caution::OF_EVERY_NUMBER,
];

pub(super) const NOT_IN: [&str; 7] = [
    "the weight of the ropes, and the water that pulls on them and on the person",
    "friction of the ring on the guide, but where it is said: it also holds the person back",
    "a swing across the picture, and a guide that does not lie in one plane with the abseil rope",
    "the edge at the lip, and what it takes off the abseil anchor",
    "the strength of the anchors, of the rock or boulder, and of the knots",
    "what follows if the guide or one of its anchors fails",
    "the push of the feet against the wall",
];
