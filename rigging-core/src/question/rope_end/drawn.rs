//! The picture of the rope, and where its end is against the rope let out.

use super::super::graph::{Axis, Graph, Mark};
use super::super::scene::{Arrow, Dimension, Grip, Handle, Person, Place, Pose, Role, Scene, Strand};
use super::case::{Inputs, Spreads};
use super::{Bottom, RopeEnd};
use crate::law::OutOfDomain;
use crate::quantity::Kind;

/// Depth below the bottom to which an end is drawn, as a share of the drop.
const DEPTH: f64 = 0.15;

impl RopeEnd {
    pub(super) fn scene(&self, point: &Inputs) -> Result<Scene, OutOfDomain> {
        let [height, ..] = *point;
        let set_back = self.set_back.value;
        let case = self.case(self.hung, Some(self.strand(self.hung)), point)?;
        let weight = case.load * self.hung.strands();
        let at_station = (case.load + case.weight) * self.hung.strands();
        let [free, end] = case.end;
        let depth = DEPTH * height;
        let drawn = |end: f64| end.max(-depth) - height;
        let (station, lip): (Place, Place) = ([-set_back, 0.0], [0.0, 0.0]);
        // Whoever hangs on a rope that is too long comes to the bottom before its end.
        let person = [0.0, end.max(0.0) - height];
        let strand = |from, to, tension| Strand { from, to, tension };
        let mut lines = vec![strand(station, lip, at_station), strand(lip, person, weight)];
        if end < 0.0 {
            let lies = self.bottom == Bottom::Stand;
            let tip = if lies { [(-end).min(2.0 * depth), -height] } else { [0.0, drawn(end)] };
            lines.push(strand(person, tip, 0.0));
        }
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };
        let beside = 0.08 * height;
        let mut lengths = vec![Dimension { from: [4.0 * beside, 0.0], to: [4.0 * beside, -height], name: "down" }];
        if set_back > 0.0 {
            lengths.push(Dimension { from: [-set_back, beside], to: [0.0, beside], name: "set-back" });
        }
        if end.abs() > 0.02 * height && end > -depth {
            let name = if end > 0.0 { "end above" } else { "end below" };
            lengths.push(Dimension { from: [2.5 * beside, -height], to: [2.5 * beside, end - height], name });
        }
        let water = self.bottom != Bottom::Stand;
        let floor = if water { -height - 1.2 * depth } else { -height };
        let (left, right) = (-0.5 * beside, 6.0 * beside);
        let mut handles = vec![
            Handle::new([4.0 * beside, -height], "bottom", [Grip::along("height_m", [0.0, -1.0])]),
            Handle::new(station, "station", [Grip::along("set_back_m", [-1.0, 0.0])]),
        ];
        if self.hung.is_let_out() {
            let tip = [0.0, drawn(end)];
            handles.push(Handle::new(tip, "end of the rope", [Grip::along("let_out_m", [0.0, -1.0])]));
        }
        Ok(Scene {
            case: format!(
                "Drawn: the end where it hurts most, {} hanging at it. Dotted beside it: the same rope unloaded.",
                if self.adverse_is_short() { "the lightest" } else { "the heaviest" }
            ),
            rock: vec![vec![[-set_back - 2.0 * beside, 0.0], lip, [left, -beside], [left, floor], [right, floor]]],
            anchors: vec![station],
            lines,
            traces: vec![vec![[beside, 0.0], [beside, drawn(free)]]],
            water: if water { vec![[[left, -height], [right, -height]]] } else { Vec::new() },
            people: vec![Person { at: person, pose: Pose::Hanging }],
            forces: vec![
                arrow(person, [0.0, -weight], Role::Load, "person"),
                arrow(station, [at_station, 0.0], Role::OnAnchor, "station"),
            ],
            polygon: vec![
                arrow(person, [0.0, -weight], Role::Load, "weight"),
                arrow(person, [0.0, weight], Role::OnAnchor, "rope holds"),
            ],
            lengths,
            handles,
            ..Scene::default()
        })
    }

    /// Where the end is with someone on it, against the rope that hangs.
    pub(super) fn graph(&self, spreads: &Spreads) -> Result<Graph, OutOfDomain> {
        let short = self.adverse_is_short();
        let sided = |band: crate::band::Band| if short { band } else { band.map(|end| -end) };
        let strand = self.strand(self.hung);
        let here = Mark { across: strand, up: sided(spreads.end.band) };
        let needed = spreads.needed.band;
        let least = self.set_back.value / (1.0 - self.most_shrinkage());
        let from = (0.9 * needed.low()).max(least).min(strand);
        let to = (1.1 * needed.high()).max(strand);
        let mut curve = Vec::new();
        for step in 0..=12 {
            let across = from + (to - from) * f64::from(step) / 12.0;
            curve.push(Mark { across, up: sided(self.spread(self.hung, Some(across), &self.people)?.end.band) });
        }
        let side = if short { "above" } else { "below" };
        Ok(Graph {
            title: format!(
                "how far {side} {} the rope ends with someone on it; a minus is the other side",
                self.surface()
            ),
            across: Axis {
                name: if self.hung.is_let_out() { "rope let out" } else { "length of each strand" },
                kind: Kind::Length,
            },
            up: Axis { name: if short { "end above the bottom" } else { "end below the level" }, kind: Kind::Length },
            curve,
            here: Some(here),
        })
    }
}
