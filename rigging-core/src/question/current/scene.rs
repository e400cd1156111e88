//! The picture: the stream from above, its current down the page.

use super::super::scene::{Arc, Arrow, Dimension, Grip, Handle, Person, Place, Pose, Pull, Role, Scene, Strand};
use super::case::{Bending, Bent};
use super::{Downstream, InTheCurrent, Tool};
use crate::band::Spread;
use crate::law::OutOfDomain;

fn add([x, y]: Place, [u, v]: Place, times: f64) -> Place {
    [x + times * u, y + times * v]
}

/// Points of an arc about a place, from straight across to straight down.
fn arc(centre: Place, radius: f64, side: f64) -> Vec<Place> {
    (0..=8)
        .map(|step| {
            let (sine, cosine) = (f64::from(step) * std::f64::consts::FRAC_PI_2 / 8.0).sin_cos();
            add(centre, [side * cosine, -sine], radius)
        })
        .collect()
}

/// The way the current flows, up to a place.
fn flows(tip: Place, way: Pull, wide: f64) -> [Place; 2] {
    [add(tip, way, -0.3 * wide), tip]
}

impl InTheCurrent {
    /// Both banks of a stream of some width, down to what lies downstream if that is near enough to be drawn.
    fn banks(&self, scene: &mut Scene, wide: f64, down: f64) {
        let way = self.to_hazard.value;
        // What lies far away would make all else too small.
        let near = self.downstream.has_place() && way > 0.0 && way < 2.5 * (down + wide);
        let (above, below) = (0.3 * wide, if near { -way.max(down) } else { -down - 0.3 * wide });
        scene.rock = vec![vec![[0.0, above], [0.0, below]], vec![[wide, below], [wide, above]]];
        if near {
            let name = match self.downstream {
                Downstream::Lip => "to the lip",
                Downstream::Boulders => "to the boulders",
                Downstream::Strainer => "to the strainer",
                _ => "to the undercut",
            };
            let beside = -0.08 * wide;
            scene.lengths.push(Dimension { from: [beside, 0.0], to: [beside, -way], name });
            scene.traces.push(vec![[0.0, -way], [wide, -way]]);
            let grip = Grip::along("to_hazard_m", [0.0, -1.0]);
            scene.handles.push(Handle::new([wide, -way], "what lies downstream", [grip]));
        }
    }

    pub(super) fn scene_of_bend(&self, bent: &Bent, point: &Bending, at_rest: bool) -> Scene {
        let &[drag, ..] = point;
        let (wide, down) = (self.across.value, self.down.value);
        let (near, far) = ([0.0, 0.0], [wide, -down]);
        let current = bent.direction(0.0);
        let [first, _] = bent.angles;
        // One end slack: the person hangs straight below the other.
        let hangs = !at_rest && bent.middle[1] == 0.0;
        let half = bent.span * (1.0 + bent.slack) / 2.0;
        let (heading, length, tension) = match (at_rest, hangs) {
            (true, _) => (bent.direction(first), bent.parts[0], bent.tensions[0]),
            (_, true) => (current, half, drag),
            _ => (bent.direction(bent.to_current - bent.dip), half, bent.middle[0]),
        };
        let person = add(near, heading, length);
        let scaled = |[x, y]: Pull, times: f64| [times * x, times * y];
        let (push, pull) = (scaled(current, drag), scaled(heading, -tension));
        let rest = [-push[0] - pull[0], -push[1] - pull[1]];
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };
        let far_tension = if at_rest { bent.tensions[1] } else { bent.middle[1] };
        let mut lengths = Vec::new();
        if at_rest {
            lengths.push(Dimension { from: person, to: [wide, person[1]], name: "left" });
        }
        lengths.push(Dimension { from: [0.0, 0.2 * wide], to: [wide, 0.2 * wide], name: "across" });
        let case = match self.tool {
            Tool::Diagonal => {
                "Seen from above, the current down the page. Drawn: where the current leaves the person, farthest from the far bank; on their way there the ends may get more, see the findings."
            }
            _ => {
                "Seen from above, the current down the page. Drawn: one who lost their feet in the middle of the line, where its near end gets most; elsewhere, or in another case, an end may get more, see the findings. Dotted: the swings about either end."
            }
        };
        let down_page = -std::f64::consts::FRAC_PI_2 + bent.drift;
        let line_at = (far[1] - near[1]).atan2(far[0] - near[0]);
        let mut forces =
            vec![arrow(person, push, Role::Load, "water"), arrow(near, scaled(pull, -1.0), Role::OnAnchor, "near end")];
        if far_tension > 0.0 {
            forces.push(arrow(far, scaled(rest, -1.0), Role::OnAnchor, "far end"));
        }
        let mut scene = Scene {
            case: case.to_owned(),
            anchors: vec![near, far],
            lines: vec![
                Strand { from: near, to: person, tension },
                Strand { from: person, to: far, tension: far_tension },
            ],
            traces: vec![vec![near, far]],
            flows: vec![flows([0.5 * wide, 0.0], current, wide)],
            people: vec![Person { at: person, pose: Pose::Hanging }],
            forces,
            polygon: vec![
                arrow(person, push, Role::Load, "water"),
                arrow(person, pull, Role::OnAnchor, "near part"),
                arrow(person, rest, Role::OnAnchor, "far part"),
            ],
            angles: vec![Arc { at: near, from: down_page, to: line_at, name: "to the current" }],
            lengths,
            handles: vec![Handle::new(
                far,
                "far end of the line",
                [Grip::along("across_m", [1.0, 0.0]), Grip::along("down_m", [0.0, -1.0])],
            )],
            ..Scene::default()
        };
        // An end let go runs out through what one slides on: no swing is drawn then.
        if !at_rest {
            scene.traces.extend([arc(near, length, 1.0), arc(far, half, -1.0)]);
        }
        self.banks(&mut scene, wide, down);
        scene
    }

    pub(super) fn scene_of_catch(&self, peak: &Spread<6>, reach: &Spread<6>) -> Result<Scene, OutOfDomain> {
        let [drag, ..] = peak.at_high;
        let ([_, force], far) = (self.caught(&peak.at_high)?, reach.band.high());
        let (wide, line) = (self.across.value, self.line.value);
        // Where the line comes tight: the person drifts down their way.
        let along = (line * line - wide * wide).max(0.0).sqrt();
        let (upper, person) = ([0.0, 0.0], [wide, -along]);
        let heading = [wide / line, -along / line];
        let push = [0.0, -drag];
        let pull = [-force * heading[0], -force * heading[1]];
        let rest = [-push[0] - pull[0], -push[1] - pull[1]];
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };
        // A thrown line ends in a hand: how far the feet get is known only if that holds.
        let (end, feet) =
            if self.tool == Tool::ThrowLine { ("thrower", "feet, if held") } else { ("upper end", "feet at most") };
        let lengths = vec![Dimension { from: [0.12 * wide, 0.0], to: [0.12 * wide, -far], name: feet }];
        let mut scene = Scene {
            case: "Seen from above, the current down the page. Drawn: the line coming tight at its largest force; dotted the swing to the bank, of the line and of feet at the end of its stretch. What slows the body closes the polygon.".to_owned(),
            anchors: vec![upper],
            lines: vec![Strand { from: upper, to: person, tension: force }],
            traces: vec![arc(upper, line, 1.0), arc(upper, far, 1.0)],
            flows: vec![flows([wide, 0.0], [0.0, -1.0], wide)],
            people: vec![Person { at: person, pose: Pose::Hanging }],
            forces: vec![
                arrow(person, push, Role::Load, "water"),
                arrow(upper, [force * heading[0], force * heading[1]], Role::OnAnchor, end),
            ],
            polygon: vec![
                arrow(person, push, Role::Load, "water"),
                arrow(person, pull, Role::OnAnchor, "line"),
                arrow(person, rest, Role::Load, "body slowed"),
            ],
            lengths,
            handles: vec![Handle::new(person, "person on the line", [
                Grip::along("across_m", [1.0, 0.0]),
                Grip::along("line_m", heading),
            ])],
            ..Scene::default()
        };
        self.banks(&mut scene, 1.3 * wide, reach.band.high());
        Ok(scene)
    }
}
