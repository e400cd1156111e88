//! What is told of the legs: remarks, working, scene, cautions.

use super::super::answer::{Caution, Gravity};
use super::super::scene::{Arc, Arrow, Dimension, Person, Place, Pose, Role, Scene, Strand, size};
use super::case::{Case, plus, times, toward};
use super::{AnchorLegs, Rig};
use crate::law::OutOfDomain;
use crate::quantity::{Kind, decimal};
use crate::working::{Given, Source, Step};
use std::f64::consts::FRAC_PI_2;

impl AnchorLegs {
    pub(super) fn remarks(&self, case: &Case) -> Result<Vec<String>, OutOfDomain> {
        let mut remarks = Vec::new();
        let legs = [toward(case.left, case.point).1, toward(case.right, case.point).1];
        if self.out.value == 0.0 && self.right_higher.value == 0.0 && self.rig == Rig::Fixed {
            let [leg, _] = legs;
            remarks.push(format!(
                "Rule for the hand, legs of equal length: anchors apart ÷ length of a leg = {}. At 1.0 the included angle is 60°, at 1.4 90°, at 1.7 120°.",
                decimal(toward(case.left, case.right).1 / leg, 1)
            ));
        }
        if self.rig == Rig::Fixed {
            let (right, left) = self.slack_beyond()?;
            if self.swing_right.value >= right || self.swing_left.value >= left {
                remarks.push(
                    "Within the swing entered one leg can hang slack: a single anchor carries the whole load."
                        .to_owned(),
                );
            }
            let whole = |angle: f64| decimal(angle.to_degrees().max(0.0).floor(), 0);
            remarks.push(format!(
                "From the fall line: beyond {}° to the right the right leg is slack, beyond {}° to the left the left one; then one anchor holds alone.",
                whole(right),
                whole(left)
            ));
        }
        if self.rig == Rig::SelfEqualising {
            remarks.push(
                "If one anchor fails the whole sling runs through: the load drops by up to the length of a leg."
                    .to_owned(),
            );
        }
        if self.rig == Rig::Triangle {
            remarks.push("The strand between the anchors pulls each of them inward, sideways to the load.".to_owned());
        }
        Ok(remarks)
    }

    pub(super) fn working(&self, &[body, kit, at, ..]: &[f64; 7], case: &Case) -> Vec<Step> {
        let load = size(case.load);
        let mut steps = vec![self.people.step(body, kit), self.people.load_step(self.state, body, kit, at, load)];
        let angle = Given::exact("θ", case.included, Kind::Angle);
        let load = Given::exact("F", load, Kind::Force);
        let heavier = case.tension_left.max(case.tension_right);
        let (what, formula, given, source) = match self.rig {
            Rig::Fixed => {
                let (a, b) = case.from_load;
                let (near, far) = if case.tension_left >= case.tension_right { (a, b) } else { (b, a) };
                (
                    "Tension of the leg that carries more; its angle from the load line is a, the other's b",
                    if a < 0.0 || b < 0.0 {
                        "T = F, the other leg slack: both anchors lie on one side of the load line"
                    } else {
                        "T = F sin b / sin(a + b)"
                    },
                    vec![load, Given::exact("a", near, Kind::Angle), Given::exact("b", far, Kind::Angle)],
                    Source::published("triangle of forces; OpenStax College Physics, Newton's laws"),
                )
            }
            Rig::SelfEqualising => (
                "Tension of the part that carries more; r from the friction of the ring",
                "T = F r / √(1 + r² + 2 r cos θ)",
                vec![load, angle, Given::exact("r", heavier / case.tension_left.min(case.tension_right), Kind::Ratio)],
                Source::derived("capstan equation and triangle of forces"),
            ),
            Rig::Triangle => (
                "Tension of the loop; friction not counted",
                "T = F / (2 cos(θ/2))",
                vec![load, angle],
                Source::published("Spellman & Whiting, Mathematics and Statistics for the Environment, example 11.3"),
            ),
        };
        steps.push(Step {
            what: what.to_owned(),
            formula,
            given,
            result: Given::exact("T", heavier, Kind::Force),
            source,
        });
        if self.rig == Rig::Triangle {
            let worst = if size(case.on_left) >= size(case.on_right) {
                (case.left, case.right)
            } else {
                (case.right, case.left)
            };
            let (strand, other) = (toward(worst.0, case.point).0, toward(worst.0, worst.1).0);
            let between = (strand[0] * other[0] + strand[1] * other[1]).clamp(-1.0, 1.0).acos();
            steps.push(Step {
                what: "Force on the anchor; γ is the angle between its two strands".into(),
                formula: "2 T cos(γ/2)",
                given: vec![Given::exact("T", heavier, Kind::Force), Given::exact("γ", between, Kind::Angle)],
                result: Given::exact("on the anchor", size(case.on_left).max(size(case.on_right)), Kind::Force),
                source: Source::derived("sum of two equal forces"),
            });
        }
        steps
    }

    pub(super) fn scene(&self, case: &Case, &[.., swing, _]: &[f64; 7]) -> Scene {
        let strand = |from, to, tension| Strand { from, to, tension };
        let mut lines =
            vec![strand(case.left, case.point, case.tension_left), strand(case.right, case.point, case.tension_right)];
        if self.rig == Rig::Triangle {
            lines.push(strand(case.left, case.right, case.tension_left));
        }
        let (direction, reach) = (times(1.0 / size(case.load), case.load), toward(case.left, case.right).1 * 0.9);
        let person = plus(case.point, times(reach, direction));
        lines.push(strand(case.point, person, size(case.load)));
        let up = |anchor: Place| {
            let [x, y] = toward(case.point, anchor).0;
            y.atan2(x)
        };
        let middle = times(0.5, plus(case.left, case.right));
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };
        let [wide_left, wide_right] = [case.left[0] - reach, case.right[0] + reach];
        Scene {
            case: format!(
                "Drawn: the case of the big number, {}, the heaviest with most kit{}.",
                self.state.words(),
                match swing.to_degrees().round() {
                    0.0 => String::new(),
                    side =>
                        format!(", swung {}° {}", decimal(side.abs(), 0), if side < 0.0 { "left" } else { "right" }),
                }
            ),
            rock: vec![vec![[wide_right, case.right[1]], case.right, case.left, [wide_left, case.left[1]]]],
            anchors: vec![case.left, case.right],
            lines,
            people: vec![Person { at: person, pose: Pose::Hanging }],
            forces: vec![
                arrow(case.point, case.load, Role::Load, "load"),
                arrow(case.left, case.on_left, Role::OnAnchor, "left anchor"),
                arrow(case.right, case.on_right, Role::OnAnchor, "right anchor"),
            ],
            polygon: vec![
                arrow(case.point, case.load, Role::Load, "load"),
                arrow(case.left, times(-1.0, case.on_left), Role::OnAnchor, "left holds"),
                arrow(case.right, times(-1.0, case.on_right), Role::OnAnchor, "right holds"),
            ],
            angles: {
                let included = Arc { at: case.point, from: up(case.right), to: up(case.left), name: "included angle" };
                let (from, to) = (-FRAC_PI_2 + swing.min(0.0), -FRAC_PI_2 + swing.max(0.0));
                let swung = Arc { at: case.point, from, to, name: "swing from the fall line" };
                if swing == 0.0 { vec![included] } else { vec![included, swung] }
            },
            lengths: vec![
                Dimension { from: case.left, to: case.right, name: "apart" },
                Dimension { from: middle, to: [middle[0], case.point[1]], name: "down" },
            ],
            ..Scene::default()
        }
    }
}

pub(super) const CAUTIONS: [Caution; 4] = [
    Caution::new(
        Gravity::Danger,
        "An anchor that fails",
        "The other takes the whole load at once, after a drop, and everyone on it falls.",
        "Look at and test each anchor by itself before anyone hangs; two poor anchors are not one good one.",
    ),
    Caution::new(
        Gravity::Warning,
        "A wide angle between the legs",
        "Beyond 120° each leg carries more than the whole load; near 180° far more.",
        "Lengthen the legs or bring the master point lower; keep the included angle under 60° where you can.",
    ),
    Caution::new(
        Gravity::Warning,
        "Legs of fixed length and a load that moves sideways",
        "One leg goes slack and a single anchor holds everything.",
        "Set the legs for the direction of the load at its worst moment, not for the moment of rigging.",
    ),
    Caution::OF_EVERY_NUMBER,
];

pub(super) const NOT_IN: [&str; 6] = [
    "the strength of the rock, the bolt or what holds it",
    "what happens when one anchor fails: drop, swing and the catch",
    "stretch of the legs, and that a leg tied a little short carries more",
    "knots, wear and water in slings and rope",
    "pull out of the plane of the picture",
    "friction of a closed loop at its bends",
];
