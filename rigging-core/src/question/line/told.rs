//! What is told of the line: working, scene, remarks, cautions.

use super::super::answer::{Caution, Gravity};
use super::super::people::State;
use super::super::scene::{Arc, Arrow, Dimension, Person, Pose, Role, Scene, Strand};
use super::case::Case;
use super::{Line, Setting};
use crate::law::taut_line::{self, Hung};
use crate::quantity::{Force, Kind, Length, decimal};
use crate::working::{Given, Source, Step};
use std::f64::consts::PI;

impl Line {
    pub(super) fn working(&self, &[body, kit, _, set, stiffness, factor]: &[f64; 6], case: &Case) -> Vec<Step> {
        let length = |symbol, length: Length| Given::exact(symbol, length.value, Kind::Length);
        let force = |symbol, force: Force| Given::exact(symbol, force.value, Kind::Force);
        let straight = taut_line::chord(case.line.span, case.line.rise);
        let standing = Given::exact("W", self.people.weight_of_all(body, kit), Kind::Force);
        let (formula, given) = match self.setting {
            Setting::Sag => (
                "T = W / (sin δ₁ + sin δ₂), L₀ = ℓ / (1 + T/EA)",
                vec![standing.clone(), length("sag", case.line.span * set)],
            ),
            Setting::PreTension => {
                ("L₀ = c / (1 + T₀/EA)", vec![length("c", straight), Given::exact("T₀", set, Kind::Force)])
            }
            Setting::Slack => {
                ("L₀ = c (1 + slack)", vec![length("c", straight), Given::exact("slack", set, Kind::Ratio)])
            }
        };
        let stiffness = Given::exact("EA", stiffness, Kind::Force);
        let mut steps = vec![
            self.people.step(body, kit),
            Step {
                what: "Length of the line without tension".into(),
                formula,
                given: given.into_iter().chain([stiffness.clone()]).collect(),
                result: length("L₀", case.line.unstretched),
                source: Source::derived("definition of stiffness; balance of vertical forces"),
            },
        ];
        if factor != 1.0 {
            steps.push(Step {
                what: "Load moving in jerks".into(),
                formula: "F = factor · W",
                given: vec![Given::exact("factor", factor, Kind::Ratio), standing],
                result: force("F", case.weight),
                source: State::Jerky.uncertain().1,
            });
        }
        steps.push(Step {
            what: "Tension at rest under this load, at the solved sag".into(),
            formula: "T (sin δ₁ + sin δ₂) = F, T = EA (ℓ − L₀)/L₀",
            given: vec![
                force("F", case.weight),
                length("sag", case.rest.sag),
                Given::exact("δ₁", case.rest.near_below_level.value, Kind::Angle),
                Given::exact("δ₂", case.rest.far_below_level.value, Kind::Angle),
            ],
            result: force("T", case.rest.tension),
            source: Source::published("balance of vertical forces; OpenStax University Physics, walker on a wire"),
        });
        if factor == 1.0 {
            steps.push(Step {
                what: "Tension at the lowest point of a slip: what the weight gives, the line stores".into(),
                formula: "EA/(2L₀) (⟨ℓ − L₀⟩² − ⟨ℓ₀ − L₀⟩²) = W (sag + h), T = EA (ℓ − L₀)/L₀",
                given: vec![
                    force("W", case.weight),
                    length("h", self.drop),
                    length("L₀", case.line.unstretched),
                    stiffness,
                    length("sag", case.slip.sag),
                ],
                result: force("T", case.slip.tension),
                source: Source::derived("conservation of energy, nothing lost: an upper bound for this stiffness"),
            });
        }
        steps
    }

    pub(super) fn scene(&self, case: &Case, hung: &Hung, what: &str) -> Scene {
        let (span, rise) = (case.line.span.value, case.line.rise.value);
        let at = case.line.at.value;
        let chord = rise * at / span;
        let person = [at, chord - hung.sag.value];
        let (near, far) = ([0.0, 0.0], [span, rise]);
        let tension = hung.tension.value;
        let along = |angle: f64| [tension * angle.cos(), -tension * angle.sin()];
        let on_near = along(hung.near_below_level.value);
        let on_far = {
            let [x, y] = along(hung.far_below_level.value);
            [-x, y]
        };
        let load = [on_near[0] + on_far[0], on_near[1] + on_far[1]];
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };
        let back = |[x, y]: [f64; 2]| [-x, -y];
        let ledge = 0.12 * span;
        Scene {
            case: format!("Drawn: the case of the big number, {what}."),
            rock: vec![
                vec![[-ledge, 2.0 * ledge], [0.0, 2.0 * ledge], [0.0, -3.0 * ledge]],
                vec![[span, rise - 3.0 * ledge], [span, rise + 2.0 * ledge], [span + ledge, rise + 2.0 * ledge]],
            ],
            anchors: vec![near, far],
            lines: vec![Strand { from: near, to: person, tension }, Strand { from: person, to: far, tension }],
            people: vec![Person { at: person, pose: Pose::Hanging }],
            forces: vec![
                arrow(person, load, Role::Load, "load"),
                arrow(near, on_near, Role::OnAnchor, "near anchor"),
                arrow(far, on_far, Role::OnAnchor, "far anchor"),
            ],
            polygon: vec![
                arrow(person, load, Role::Load, "load"),
                arrow(far, back(on_far), Role::OnAnchor, "far holds"),
                arrow(near, back(on_near), Role::OnAnchor, "near holds"),
            ],
            angles: vec![
                Arc { at: near, from: -hung.near_below_level.value, to: 0.0, name: "δ₁ below level" },
                Arc { at: far, from: PI, to: PI + hung.far_below_level.value, name: "δ₂ below level" },
            ],
            lengths: vec![
                Dimension { from: near, to: [span, 0.0], name: "span" },
                Dimension { from: [at, chord], to: person, name: "sag" },
            ],
            ..Scene::default()
        }
    }
}

pub(super) fn remarks(sag_share: f64) -> Vec<String> {
    let mut remarks = Vec::new();
    if sag_share < 0.05 {
        remarks.push(format!(
            "At the tight end of the range the line sags only {} % of its span. Below 5 % a little less sag costs a lot more tension.",
            decimal(100.0 * sag_share, 1)
        ));
    }
    remarks
        .push("Hanging still, half the sag means about twice the tension. More slack means a harder slip.".to_owned());
    remarks
}

pub(super) const CAUTIONS: [Caution; 4] = [
    Caution::new(
        Gravity::Danger,
        "A taut line across moving water",
        "Someone swept onto it is held under and cannot get off.",
        "Slant it downstream, keep it loose or releasable, and never tie anyone to it without a release.",
    ),
    Caution::new(
        Gravity::Warning,
        "A line pulled tight",
        "The flatter it is, the harder it pulls on its anchors: many times the weight that hangs on it.",
        "Leave sag; a tenth of the span is usual. Think twice before pulling with a mechanical advantage.",
    ),
    Caution::new(
        Gravity::Warning,
        "A slip onto the line",
        "The peak is far above the tension hanging still, most of all with slack in line or cow's tail.",
        "Stay below the line, short-clipped, and judge the anchors on the slip.",
    ),
    Caution::OF_EVERY_NUMBER,
];

pub(super) const NOT_IN: [&str; 7] = [
    "the sideways force that holds a person where the line would carry them on",
    "the strength of the anchors and of the knots in the line",
    "the weight of the line, and the water that pulls on it",
    "friction where the connector runs on the line",
    "anchors between the ends, and a connector that is tied to one place",
    "slip of the knots and give of the anchors, which soften a slip",
    "being swung along the line toward its lowest point",
];
