//! The picture of a slip: where it begins and where it ends.

use super::super::bend::along;
use super::super::scene::{Arc, Arrow, Dimension, Grip, Handle, Person, Place, Pose, Role, Scene, Strand};
use super::case::{Case, Inputs};
use super::{InTheWay, Slip, SlipEvent};
use crate::law::{OutOfDomain, swing};
use crate::quantity::{Force, newton};
use std::f64::consts::FRAC_PI_2;

fn arrow(at: Place, pull: Place, role: Role, name: &'static str) -> Arrow {
    Arrow { at, pull, role, name }
}

impl Slip {
    /// The picture at one point of the ranges: where the peak is highest.
    pub(super) fn scene(&self, point: &Inputs) -> Result<Scene, OutOfDomain> {
        let case = self.case(point)?;
        let mut scene = if self.event == SlipEvent::Swing { self.swing(&case)? } else { self.fall(&case) };
        if self.clear.value > 0.0
            && let Some(start) = scene.people.first().map(|person| person.at)
        {
            let (level, [x, _]) = (start[1] - self.clear.value, start);
            let wide = 0.4 * self.length().value.max(1.0);
            scene.rock.push(vec![[x - 0.3 * wide, level], [x + wide, level]]);
        }
        Ok(scene)
    }

    /// Straight down below the anchor, or below an edge before it.
    fn fall(&self, case: &Case) -> Scene {
        let (length, peak) = (self.length().value, case.peak);
        let turn = if self.crosses_edge() { self.edge_turn.value } else { 0.0 };
        let set_back = if turn > 0.0 { (0.3 * length).min(3.0) } else { 0.0 };
        let edge = [0.0, 0.0];
        let anchor = [-set_back * turn.sin(), set_back * turn.cos()];
        // Below the edge, m: where it begins, and the lowest point.
        let hangs = length - set_back;
        let ends = match self.event {
            SlipEvent::Fails => hangs + self.sling.value + case.stretch,
            _ => hangs + case.stretch + case.travel,
        };
        let begins = ends - case.fallen;
        let (start, end) = ([0.0, -begins], [0.0, -ends]);
        let load = [0.0, -peak];
        let on_anchor = [peak * turn.sin(), -peak * turn.cos()];
        let mut polygon = vec![
            arrow(end, load, Role::Load, "pull of those who fall"),
            arrow(anchor, [-on_anchor[0], -on_anchor[1]], Role::OnAnchor, "anchor holds"),
        ];
        let mut lines = Vec::new();
        if turn > 0.0 {
            polygon.push(arrow(edge, [on_anchor[0], peak + on_anchor[1]], Role::OnAnchor, "edge pushes"));
            lines.push(Strand { from: anchor, to: edge, tension: peak });
        }
        lines.push(Strand { from: edge, to: end, tension: peak });
        // The slack hangs beside, from above to the person before.
        let aside = 0.06 * ends.abs().max(0.5);
        lines.push(Strand { from: edge, to: [aside, start[1]], tension: 0.0 });
        let depth = 1.25 * ends.max(0.5);
        let face = if turn > 0.0 { -0.02 * depth } else { -0.25 * depth };
        let top = [(1.6 * anchor[0]).min(-0.3 * depth), anchor[1].max(0.0) + 0.05 * depth];
        let mut handles = Vec::new();
        if self.has_slack() {
            let grip = Grip::along("slack_m", [0.0, 1.0]);
            handles.push(Handle::new([aside, start[1]], "where the fall begins", [grip]));
        }
        if self.is_roped() {
            handles.push(Handle::new(end, "length of the rope", [Grip::along("rope_m", [0.0, -1.0])]));
        }
        if self.crosses_edge() {
            let grip = Grip::Around { field: "edge_turn_rad", centre: edge, turn: 1.0 };
            handles.push(Handle::new(anchor, "turn at the edge", [grip]));
        }
        Scene {
            case: "Drawn: before and at the lowest point, the pull highest, friction of an edge not counted; softer rope lets them fall farther."
                .to_owned(),
            rock: vec![vec![top, [face, -0.02 * depth], [face - 0.04 * depth, -depth]]],
            anchors: vec![anchor],
            lines,
            traces: vec![vec![[aside, start[1]], [aside, end[1]]]],
            people: vec![
                Person { at: [aside, start[1]], pose: Pose::Standing },
                Person { at: end, pose: Pose::Hanging },
            ],
            forces: vec![
                arrow(end, load, Role::Load, "those who fall"),
                arrow(anchor, on_anchor, Role::OnAnchor, "anchor"),
            ],
            polygon,
            angles: if turn > 0.0 {
                vec![Arc { at: edge, from: FRAC_PI_2, to: FRAC_PI_2 + turn, name: "turning angle" }]
            } else {
                Vec::new()
            },
            lengths: vec![Dimension {
                from: [4.0 * aside, start[1]],
                to: [4.0 * aside, end[1]],
                name: "fallen in all",
            }],
            handles,
            ..Scene::default()
        }
    }

    /// The arc, what is in its way, and the anchor where it is pulled to the side most.
    fn swing(&self, case: &Case) -> Result<Scene, OutOfDomain> {
        let rope = self.rope.value;
        let (begins, ends) = (self.begins()?.value, self.ends()?.value);
        let weight = Force::new::<newton>(case.weight);
        let most = swing::sideways(weight, self.begins()?)?;
        // Drawn as steep as the rigid rope has it, at the adverse size.
        let at = most.at.value.max(ends);
        let place = |angle: f64, long: f64| along(angle - FRAC_PI_2, long);
        let anchor = [0.0, 0.0];
        let size = if at > 0.0 { (case.sideways / at.sin()).min(case.peak) } else { case.peak };
        let pull = place(at, size);
        let [aside, down] = pull;
        let way = |from: f64, to: f64| -> Vec<Place> {
            (0..=16).map(|step| place(from + (to - from) * f64::from(step) / 16.0, rope)).collect()
        };
        let (start, end) = (place(begins, rope), place(ends, rope));
        let wide = rope.max(1.0);
        let mut rock = vec![vec![[-0.25 * wide, 0.12 * wide], [0.25 * wide, 0.12 * wide]]];
        if self.obstacle == InTheWay::Wall {
            let [x, y] = end;
            rock.push(vec![[x, y + 0.25 * wide], [x, y - 0.25 * wide]]);
        }
        if self.lip.value > 0.0 {
            let lip = -self.lip.value;
            rock.push(vec![[-0.2 * wide, lip], [0.2 * wide, lip]]);
        }
        Ok(Scene {
            case: "Drawn: where it begins and ends; the anchor when it is pulled to the side most, at the adverse end."
                .to_owned(),
            rock,
            anchors: vec![anchor],
            lines: vec![
                Strand { from: anchor, to: start, tension: 0.0 },
                Strand { from: anchor, to: place(at, rope), tension: size },
            ],
            traces: vec![way(begins, ends), vec![anchor, place(0.0, rope + case.stretch)]],
            people: vec![Person { at: start, pose: Pose::Hanging }, Person { at: end, pose: Pose::Hanging }],
            forces: vec![
                arrow(anchor, pull, Role::OnAnchor, "rope on the anchor"),
                arrow(anchor, [aside, 0.0], Role::OnAnchor, "sideways"),
            ],
            polygon: vec![
                arrow(anchor, pull, Role::Load, "rope"),
                arrow(anchor, [0.0, -down], Role::OnAnchor, "held up"),
                arrow(anchor, [-aside, 0.0], Role::OnAnchor, "held to the side"),
            ],
            angles: vec![Arc { at: anchor, from: -FRAC_PI_2, to: begins - FRAC_PI_2, name: "rope from plumb" }],
            lengths: vec![Dimension { from: [0.0, start[1]], to: start, name: "out" }],
            handles: vec![Handle::new(start, "where the swing begins", [Grip::along("out_m", [1.0, 0.0])])],
            ..Scene::default()
        })
    }
}
