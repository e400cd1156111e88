//! The picture of the line: seen from the front while it hangs, from above while it is pulled sideways.

use super::super::input::BadInput;
use super::super::scene::{Arc, Arrow, Dimension, Grip, Handle, Person, Place, Pose, Role, Scene, Strand};
use super::case::Case;
use super::rigged::{Hung, Rigged};
use super::{Line, OnLine, Setting, Way};
use crate::statics::Vector;

/// Sag of a bay's own weight, as a share of its length, from which on it is drawn.
const SEEN: f64 = 0.01;

/// Least force that is drawn, as a share of the largest.
const DRAWN: f64 = 0.01;

const ANCHORS: [&str; 3] = ["anchor 1", "anchor 2", "anchor 3"];

impl Line {
    pub(super) fn scene(&self, case: &Case, shown: &Hung, state: &str) -> Result<Scene, BadInput> {
        let rigged = &case.rigged;
        let hanging = self.way == Way::Down;
        let along = (rigged.anchors.last().copied().unwrap_or_default()).normalize();
        // From above, square to the line: lengths and forces along a sloping line keep their size.
        let seen = |vector: &Vector| if hanging { [vector.x, vector.z] } else { [vector.dot(&along), vector.y] };
        let back = |[x, y]: [f64; 2]| [-x, -y];
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };
        let anchors: Vec<Place> = rigged.anchors.iter().map(seen).collect();
        let (near, far) = ([0.0, 0.0], anchors.last().copied().unwrap_or_default());
        let [span, rise] = far;
        let (at, person) = (seen(&shown.at), seen(&self.person(rigged, shown)));
        let [to_near, to_far] = shown.pulls.map(|pull| seen(&pull));
        let load = back([to_near[0] + to_far[0], to_near[1] + to_far[1]]);
        let ledge = 0.12 * span;
        let mut forces = vec![arrow(person, load, Role::Load, "load")];
        for (number, force) in shown.on.iter().enumerate() {
            let name = match number {
                0 => "near anchor",
                _ if number + 1 == shown.on.len() => "far anchor",
                _ => ANCHORS.get(number - 1).copied().unwrap_or_default(),
            };
            // What only the weight of the line pulls is too short to be drawn.
            if force.norm() > DRAWN * shown.hardest() {
                let place = anchors.get(number).copied().unwrap_or_default();
                forces.push(arrow(place, seen(force), Role::OnAnchor, name));
            }
        }
        let from = self.on_straight_line(rigged, shown);
        let mut lengths = vec![Dimension { from: seen(&from), to: at, name: if hanging { "sag" } else { "out" } }];
        if hanging {
            lengths.push(Dimension { from: near, to: [span, 0.0], name: "span" });
        }
        let other = if (shown.load - case.slip.load).abs() > 1e-9 * shown.load { &case.slip } else { &case.rest };
        let other_state =
            if std::ptr::eq(other, &case.slip) { "at the lowest point of a slip" } else { "hanging still" };
        let more = std::ptr::eq(other, &case.rest) && case.caught.hardest() > 1.001 * shown.hardest();
        let bay = [anchors.get(rigged.bay), anchors.get(rigged.bay + 1)].map(|end| end.copied().unwrap_or_default());
        let [bay_near, bay_far] = bay;
        Ok(Scene {
            case: format!(
                "Drawn{}: the case of the big number, {state}{}.{} Dotted: the line {other_state}.{}",
                if hanging { "" } else { " from above" },
                if hanging { "; a softer line sags farther" } else { "" },
                if more { " On the way one anchor gets more." } else { "" },
                if anchors.len() > 2 { " The polygon is that of the place where the load is." } else { "" }
            ),
            rock: vec![
                vec![[-ledge, 2.0 * ledge], [0.0, 2.0 * ledge], [0.0, -3.0 * ledge]],
                vec![[span, rise - 3.0 * ledge], [span, rise + 2.0 * ledge], [span + ledge, rise + 2.0 * ledge]],
            ],
            lines: self.strands(rigged, shown, &seen)?,
            traces: vec![vec![bay_near, seen(&other.at), bay_far]],
            people: vec![Person { at: person, pose: Pose::Hanging }],
            forces,
            polygon: vec![
                arrow(at, load, Role::Load, "load"),
                arrow(at, to_far, Role::OnAnchor, "far part holds"),
                arrow(at, to_near, Role::OnAnchor, "near part holds"),
            ],
            angles: if hanging { arcs(bay, at) } else { Vec::new() },
            lengths,
            handles: self.handles(&anchors, person, seen(&rigged.toward), bay),
            anchors,
            ..Scene::default()
        })
    }

    /// What can be moved: the person along the line and, where the sag is entered, down with it; every anchor but the
    /// near one.
    fn handles(&self, anchors: &[Place], person: Place, [u, v]: Place, [from, to]: [Place; 2]) -> Vec<Handle> {
        const BETWEEN: [[&str; 2]; 3] =
            [["first_at", "first_above_m"], ["second_at", "second_above_m"], ["third_at", "third_above_m"]];
        let Some((&far, between)) = anchors.split_last() else { return Vec::new() };
        let (span, bay) = (far[0].max(1e-9), (to[0] - from[0]).max(1e-9));
        let mut grips = Vec::new();
        // Running freely they slide to the lowest place, wherever they are put.
        if self.held == OnLine::Clipped {
            grips.push(Grip::along("place", [1.0 / span, 0.0]));
        }
        if self.setting == Setting::Sag {
            grips.push(Grip::along("sag", [u / bay, v / bay]));
        }
        let mut handles = vec![Handle::new(person, "person on the line", grips)];
        let hanging = self.way == Way::Down;
        for ((anchor, name), [at, above]) in between.iter().skip(1).zip(ANCHORS).zip(BETWEEN) {
            let above = hanging.then_some(Grip::along(above, [0.0, 1.0]));
            handles.push(Handle::new(
                *anchor,
                name,
                [Some(Grip::along(at, [1.0 / span, 0.0])), above].into_iter().flatten(),
            ));
        }
        let higher = hanging.then_some(Grip::along("far_higher_m", [0.0, 1.0]));
        let span = Some(Grip::along("span_m", [1.0, 0.0]));
        handles.push(Handle::new(far, "far anchor", [span, higher].into_iter().flatten()));
        handles.retain(|handle| !handle.grips.is_empty());
        handles
    }

    fn on_straight_line(&self, rigged: &Rigged, hung: &Hung) -> Vector {
        hung.at - rigged.toward * rigged.sag(&hung.at)
    }

    /// The line as it lies: the loaded bay in two parts and the cow's tail, every other bay with its own sag.
    fn strands(&self, rigged: &Rigged, hung: &Hung, seen: &dyn Fn(&Vector) -> Place) -> Result<Vec<Strand>, BadInput> {
        let at = seen(&hung.at);
        let mut strands = vec![Strand { from: at, to: seen(&self.person(rigged, hung)), tension: hung.load }];
        let [near, far] = hung.pulls.map(|pull| pull.norm());
        // What is left over from rounding is no tension.
        let taut = |tension: f64| if tension > 1e-6 * hung.load { tension } else { 0.0 };
        for (bay, (from, to)) in rigged.anchors.iter().zip(rigged.anchors.iter().skip(1)).enumerate() {
            if bay == rigged.bay {
                strands.push(Strand { from: seen(from), to: at, tension: taut(near) });
                strands.push(Strand { from: at, to: seen(to), tension: taut(far) });
            } else if rigged.tied {
                let run = rigged.hanging(bay)?;
                let sags = run
                    .iter()
                    .any(|place| (place - from).cross(&(to - from)).norm() > SEEN * (to - from).norm_squared());
                let run: Vec<Place> = if sags { run.iter().map(seen).collect() } else { vec![seen(from), seen(to)] };
                let tension = (rigged.stiffness * (1.0 / rigged.length - 1.0)).max(rigged.weight);
                strands.extend(run.iter().zip(run.iter().skip(1)).map(|(from, to)| Strand {
                    from: *from,
                    to: *to,
                    tension,
                }));
            } else {
                let tension = if bay < rigged.bay { near } else { far };
                strands.push(Strand { from: seen(from), to: seen(to), tension: taut(tension) });
            }
        }
        Ok(strands)
    }
}

/// The angles of both parts below level.
fn arcs([near, far]: [Place; 2], at: Place) -> Vec<Arc> {
    let below = |from: Place, out: f64| (from[1] - at[1]).atan2(out * (at[0] - from[0]));
    let (first, second) = (below(near, 1.0), below(far, -1.0));
    vec![
        Arc { at: near, from: -first, to: 0.0, name: "δ₁ below level" },
        Arc { at: far, from: std::f64::consts::PI, to: std::f64::consts::PI + second, name: "δ₂ below level" },
    ]
}
