//! The picture of a solved case, from the front or from the side.

use super::super::scene::{
    Arc, Arrow, Dimension, Grip, Handle, Person, Place, Pose, Pull, Role, Scene, Strand, front, side, size,
};
use super::rigged::{Case, MOST, NAMES, Point, There};
use super::{AnchorLegs, Rig, called};
use crate::quantity::decimal;
use crate::statics::Vector;
use std::f64::consts::FRAC_PI_2;

const HOLDS: [&str; MOST] =
    ["left holds", "right holds", "anchor 3 holds", "anchor 4 holds", "anchor 5 holds", "anchor 6 holds"];
/// Of a force that does not lie in the view only a part is seen.
const IN_VIEW: [&str; MOST] = [
    "left, part in view",
    "right, part in view",
    "3, part in view",
    "4, part in view",
    "5, part in view",
    "6, part in view",
];

impl AnchorLegs {
    /// A case, the ghost of the same without the anchor that `ghost` leaves out, and which legs are there.
    pub(super) fn scene(&self, case: &Case, ghost: &Case, there: There, point: &Point, from_side: bool) -> Scene {
        let [_, _, _, _, _, down, swing, ..] = *point;
        let seen = if from_side { side } else { front };
        let deep = self.is_deep();
        let anchors: Vec<Place> = case.anchors.iter().map(seen).collect();
        let (at, new) = (seen(&case.point), seen(&ghost.point));
        let strand = |from, to, tension| Strand { from, to, tension };
        let mut lines: Vec<Strand> =
            anchors.iter().zip(&case.tensions).map(|(anchor, tension)| strand(*anchor, at, *tension)).collect();
        if let (Rig::Triangle, [left, right, ..]) = (self.rig, anchors.as_slice()) {
            lines.push(strand(*left, *right, case.tensions.iter().copied().fold(0.0, f64::max)));
        }
        let [x, y] = extent(&anchors, at);
        let reach = 0.7 * x.hypot(y);
        let [u, v] = seen(&case.load.normalize());
        let person = [at[0] + reach * u, at[1] + reach * v];
        lines.push(strand(at, person, case.load.norm()));

        let name = if from_side { "load, part in view" } else { "load" };
        let load = Arrow { at, pull: seen(&case.load), role: Role::Load, name };
        let names = if deep { IN_VIEW } else { NAMES };
        let least = 1e-9 * case.load.norm();
        let on = |names: [&'static str; MOST], sign: f64| {
            let arrows = anchors.iter().zip(&case.on).zip(names).map(move |((at, on), name)| Arrow {
                at: *at,
                pull: seen(&(on * sign)),
                role: Role::OnAnchor,
                name,
            });
            arrows.filter(|arrow| size(arrow.pull) > least).collect::<Vec<_>>()
        };
        let mut traces: Vec<Vec<Place>> = ghost
            .anchors
            .iter()
            .zip(&ghost.tensions)
            .filter(|(_, tension)| **tension > 0.0)
            .map(|(anchor, _)| vec![seen(anchor), new])
            .collect();
        traces.push(vec![at, new]);
        Scene {
            case: self.words_of(case, there, swing, from_side),
            rock: vec![rock(&anchors, reach, from_side)],
            lines,
            traces,
            people: vec![Person { at: person, pose: Pose::Hanging }],
            forces: [vec![load.clone()], on(names, 1.0)].concat(),
            polygon: [vec![load], on(if deep { IN_VIEW } else { HOLDS }, -1.0)].concat(),
            angles: if deep { Vec::new() } else { arcs(case, there, at, swing) },
            lengths: self.lengths(&anchors, at, from_side),
            handles: self.handles(&anchors, down, at, (!from_side).then_some((person, swing))),
            anchors,
            ..Scene::default()
        }
    }

    fn words_of(&self, case: &Case, there: There, swing: f64, from_side: bool) -> String {
        let alone = match there {
            There::Pair(one, other) => {
                let name = |number: usize| NAMES.get(number).map_or(String::new(), |name| called(name));
                format!(" Counted: only {} and {}; the other legs are drawn slack.", name(one), name(other))
            }
            There::All | There::Without(_) => String::new(),
        };
        let swung = match swing.to_degrees().round() {
            0.0 => String::new(),
            way => format!(", swung {}° {}", decimal(way.abs(), 0), if way < 0.0 { "left" } else { "right" }),
        };
        let failed = NAMES.get(case.most().0).map_or(String::new(), |name| called(name));
        format!(
            "Drawn{}: the case of the big number, {}, the heaviest with most kit{swung}.{alone} Dotted: where the master point comes to rest under this load, plumb, if {failed} fails.",
            match (self.is_deep(), from_side) {
                (false, _) => "",
                (true, false) => " from the front",
                (true, true) => " from the side, the rock to the left",
            },
            self.state.words(),
        )
    }

    /// What can be moved, seen from the side or, if it is told where the person hangs and how far they swung, from
    /// the front. The master point is taken where it is before anyone hangs.
    fn handles(&self, anchors: &[Place], down: f64, at: Place, person: Option<(Place, f64)>) -> Vec<Handle> {
        const FURTHER: [[&str; 3]; MOST - 2] = [
            ["anchor_3_right_m", "anchor_3_above_m", "anchor_3_depth_m"],
            ["anchor_4_right_m", "anchor_4_above_m", "anchor_4_depth_m"],
            ["anchor_5_right_m", "anchor_5_above_m", "anchor_5_depth_m"],
            ["anchor_6_right_m", "anchor_6_above_m", "anchor_6_depth_m"],
        ];
        let along = |field, way| Grip::along(field, way);
        let mut handles = Vec::new();
        if let [_, right, ..] = anchors {
            let [x, y] = *right;
            let out = x.hypot(y).max(1e-9);
            // The middle between both anchors stays where it is: both move, by half.
            let grips = match person {
                Some(_) => vec![along("apart_m", [2.0 * x / out, 2.0 * y / out]), along("right_higher_m", [0.0, 2.0])],
                None => vec![along("right_depth_m", [1.0, 0.0])],
            };
            handles.push(Handle::new(*right, NAMES[1], grips));
        }
        for ((anchor, name), [right, above, depth]) in anchors.iter().zip(NAMES).skip(2).zip(FURTHER) {
            let grips = match person {
                Some(_) => vec![along(right, [1.0, 0.0]), along(above, [0.0, 1.0])],
                None => vec![along(depth, [1.0, 0.0])],
            };
            handles.push(Handle::new(*anchor, name, grips));
        }
        let (place, grips) = match person {
            Some(_) => ([self.out.value, -down], vec![along("out_m", [1.0, 0.0]), along("down_m", [0.0, -1.0])]),
            None => ([self.point_depth.value, -down], vec![along("point_depth_m", [1.0, 0.0])]),
        };
        // It comes to rest elsewhere where a leg is slack.
        handles.push(Handle { of: at, ..Handle::new(place, "master point", grips) });
        if let Some((person, swing)) = person {
            let (field, turn) = if swing < 0.0 { ("swing_left_rad", -1.0) } else { ("swing_right_rad", 1.0) };
            handles.push(Handle::new(person, "swing of the load", [Grip::Around { field, centre: at, turn }]));
        }
        handles
    }

    fn lengths(&self, anchors: &[Place], at: Place, from_side: bool) -> Vec<Dimension> {
        let &[left, right, ..] = anchors else { return Vec::new() };
        if from_side {
            let far = Dimension { from: [left[0], at[1]], to: at, name: "out from the left anchor" };
            return if (left[0] - at[0]).abs() > 1e-3 { vec![far] } else { Vec::new() };
        }
        let middle = [(left[0] + right[0]) / 2.0, (left[1] + right[1]) / 2.0];
        let mut lengths = vec![Dimension { from: middle, to: [middle[0], at[1]], name: "down" }];
        if self.right_depth.value == 0.0 {
            lengths.insert(0, Dimension { from: left, to: right, name: "apart" });
        }
        lengths
    }
}

/// How far everything reaches across and up.
fn extent(anchors: &[Place], at: Place) -> Pull {
    let (mut least, mut most) = (at, at);
    for [x, y] in anchors {
        least = [least[0].min(*x), least[1].min(*y)];
        most = [most[0].max(*x), most[1].max(*y)];
    }
    [most[0] - least[0], most[1] - least[1]]
}

/// The rock through the anchors: from right to left, or from the top down when seen from the side.
fn rock(anchors: &[Place], reach: f64, from_side: bool) -> Vec<Place> {
    let along = if from_side { 1 } else { 0 };
    let of = |place: &Place| place.get(along).copied().unwrap_or_default();
    let mut run: Vec<Place> = Vec::new();
    for place in anchors {
        let before = run.iter().take_while(|other| of(other) >= of(place)).count();
        run.insert(before, *place);
    }
    let off = if from_side { [0.0, reach] } else { [reach, 0.0] };
    if let (Some(&first), Some(&last)) = (run.first(), run.last()) {
        run.insert(0, [first[0] + off[0], first[1] + off[1]]);
        run.push([last[0] - off[0], last[1] - off[1]]);
    }
    run
}

fn arcs(case: &Case, there: There, at: Place, swing: f64) -> Vec<Arc> {
    let mut legs = case.anchors.iter().enumerate().filter(|(number, _)| there.leg(*number));
    let up = |anchor: &Vector| {
        let [x, y] = front(&(anchor - case.point));
        y.atan2(x)
    };
    let mut arcs = Vec::new();
    if let (Some((_, one)), Some((_, other)), None) = (legs.next(), legs.next(), legs.next()) {
        let (mut from, mut to) = (up(one).min(up(other)), up(one).max(up(other)));
        if to - from > std::f64::consts::PI {
            (from, to) = (to - std::f64::consts::TAU, from);
        }
        arcs.push(Arc { at, from, to, name: "included angle" });
    }
    if swing != 0.0 {
        let (from, to) = (-FRAC_PI_2 + swing.min(0.0), -FRAC_PI_2 + swing.max(0.0));
        arcs.push(Arc { at, from, to, name: "swing from the fall line" });
    }
    arcs
}
