//! The picture of the part from the side: what holds, the sling, the pull, and what the ground has to hold.

use super::super::scene::{Arc, Arrow, Dimension, Grip, Handle, Person, Place, Pose, Role, Scene, Strand};
use super::case::{Check, Inputs};
use super::{Natural, NaturalAnchor, Seating};
use crate::law::{OutOfDomain, gravity};
use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, PI};

/// A part as it is drawn, about its own origin.
#[derive(Default)]
struct Part {
    /// Its outlines and the ground beyond its rear, the solid side to the right.
    rock: Vec<Vec<Place>>,
    /// The ground before it, up to where the lip begins.
    before: Vec<Place>,
    traces: Vec<Vec<Place>>,
    /// Where the sling pulls, and where the weight does.
    sling: Place,
    centre: Place,
    weight: f64,
    lengths: Vec<Dimension>,
    /// Level of the water, if some of it is under water.
    water: Option<f64>,
}

impl NaturalAnchor {
    pub(super) fn scene(&self, check: &Check, point: &Inputs, slip: f64) -> Result<Scene, OutOfDomain> {
        let part = match self.kind {
            Natural::Tree => self.drawn_tree(matches!(check, Check::Figure(_)), point)?,
            Natural::Block => self.drawn_block(point)?,
            Natural::Log => self.drawn_log(point)?,
            Natural::Chockstone => self.drawn_chockstone(),
            Natural::Buried => self.drawn_buried(point),
        };
        let [x, y] = part.sling;
        let lip = [x + self.out.value, y - self.down.value];
        let hangs = self.down.value >= 0.0;
        let drop = 0.8 * self.out.value.max(1.5);
        let mut rock = part.rock;
        if !part.before.is_empty() {
            let mut ground = part.before;
            if hangs {
                ground.extend([lip, [lip[0], lip[1] - 1.7 * drop]]);
            } else {
                let level = ground.last().map_or(0.0, |[_, level]| *level);
                ground.push([lip[0], level]);
            }
            rock.push(ground);
        }
        let mut lines = vec![Strand { from: part.sling, to: lip, tension: slip }];
        let mut people = Vec::new();
        if hangs {
            let at = [lip[0] + 0.03 * drop, lip[1] - drop];
            lines.push(Strand { from: lip, to: at, tension: slip });
            people.push(Person { at, pose: Pose::Hanging });
        }
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };
        let pull = self.along(slip);
        let ground = [-pull[0], part.weight - pull[1]];
        let mut forces = vec![arrow(part.sling, pull, Role::Load, "slip")];
        let mut polygon = vec![arrow(part.sling, pull, Role::Load, "slip")];
        if part.weight > 0.0 {
            let weight = arrow(part.centre, [0.0, -part.weight], Role::Held, "weight");
            forces.push(weight.clone());
            polygon.push(weight);
        }
        polygon.push(arrow(part.centre, ground, Role::OnAnchor, "what it rests on has to hold"));
        let mut lengths = part.lengths;
        let below = y.min(lip[1]) - 0.12;
        lengths.push(Dimension { from: [x, below], to: [lip[0], below], name: "out" });
        let rises = self.rises();
        let name = if hangs { "pull below level" } else { "pull above level" };
        let angles = if rises.abs() > 0.02 { vec![Arc { at: part.sling, from: rises, to: 0.0, name }] } else { vec![] };
        let case = match check {
            Check::Figure(_) => {
                "Drawn: the hardest slip on the part at the end of the ranges at which it can do least."
            }
            _ => "Drawn: the hardest slip on the part; what it can do is not known.",
        };
        let mut scene = Scene {
            case: case.to_owned(),
            rock,
            anchors: vec![part.sling],
            lines,
            water: part.water.map(|level| [[x - 1.5, level], [x + 0.8, level]]).into_iter().collect(),
            people,
            forces,
            polygon,
            angles,
            lengths,
            ..Scene::default()
        };
        scene.traces = part.traces;
        let lip = Handle::new(
            lip,
            "where the rope bends or hangs",
            [Grip::along("out_m", [1.0, 0.0]), Grip::along("down_m", [0.0, -1.0])],
        );
        scene.handles.push(lip);
        if self.is(&[Natural::Tree, Natural::Block]) {
            let slope = if self.kind == Natural::Block { self.directions().slope.value } else { 0.0 };
            let grip = Grip::along("sling_m", [slope.sin(), slope.cos()]);
            scene.handles.push(Handle::new(part.sling, "sling", [grip]));
        }
        Ok(scene)
    }

    fn drawn_tree(&self, is_known: bool, &point: &Inputs) -> Result<Part, OutOfDomain> {
        let [girth, ..] = point;
        let (radius, sling) = ((girth / (2.0 * PI)).max(0.04), self.sling.value);
        let top = 2.0_f64.max(sling + 1.0);
        let weight = if is_known { gravity::weight(self.stem(&point)?).value } else { 0.0 };
        let root = |to: f64, deep: f64| vec![[0.0, -0.05], [0.5 * to, -0.6 * deep], [to, -deep]];
        Ok(Part {
            rock: vec![
                vec![[-1.5, 0.0], [-radius, 0.0]],
                vec![[-radius, 0.0], [-radius, top], [radius, top], [radius, 0.0]],
            ],
            before: vec![[radius, 0.0], [radius + 0.3, 0.0]],
            traces: vec![
                root(-1.1, 0.25),
                root(-0.6, 0.4),
                root(0.8, 0.3),
                vec![[-0.8, top], [0.0, top + 1.0], [0.8, top], [-0.8, top]],
            ],
            sling: [radius, sling],
            centre: [0.0, top],
            weight,
            lengths: vec![Dimension { from: [-radius - 0.1, 0.0], to: [-radius - 0.1, sling], name: "sling" }],
            water: None,
        })
    }

    fn drawn_block(&self, &point: &Inputs) -> Result<Part, OutOfDomain> {
        let [_, _, _, _, _, _, under_water, ..] = point;
        let (sine, cosine) = self.directions().slope.value.sin_cos();
        let (long, high) = (self.long.value, self.high.value);
        // From the lower edge toward the load: along the ground, and square to it.
        let place = |along: f64, square: f64| [along * cosine + square * sine, square * cosine - along * sine];
        let near = 0.2 * long;
        Ok(Part {
            rock: vec![
                vec![place(-1.6 * long, 0.0), place(-long, 0.0)],
                vec![place(-long, 0.0), place(-long, high), place(0.0, high), place(0.0, 0.0)],
            ],
            before: vec![place(-long, 0.0), place(0.0, 0.0), place(near, 0.0)],
            traces: Vec::new(),
            sling: place(0.0, self.sling.value),
            centre: place(-0.5 * long, 0.5 * high),
            weight: self.weight(&point)?.value,
            lengths: vec![
                Dimension { from: place(-long, high + 0.1), to: place(0.0, high + 0.1), name: "length" },
                Dimension { from: place(-long - 0.1, 0.0), to: place(-long - 0.1, high), name: "height" },
            ],
            water: (under_water > 0.0).then_some(under_water * high),
        })
    }

    fn drawn_log(&self, &point: &Inputs) -> Result<Part, OutOfDomain> {
        let [girth, _, _, _, _, _, under_water, ..] = point;
        let radius = girth / (2.0 * PI);
        let mut before = vec![[-6.0 * radius, -radius], [radius, -radius]];
        if self.lies() {
            before.push([2.0 * radius, -radius]);
        } else {
            before.extend([[radius, 0.3 * radius], [2.0 * radius, 0.3 * radius]]);
        }
        Ok(Part {
            rock: vec![round(radius)],
            before,
            traces: Vec::new(),
            sling: [0.0, radius],
            centre: [0.0, 0.0],
            weight: if self.lies() { self.weight(&point)?.value } else { 0.0 },
            lengths: vec![Dimension { from: [-radius, -1.3 * radius], to: [radius, -1.3 * radius], name: "thick" }],
            water: (under_water > 0.0).then_some((2.0 * under_water - 1.0) * radius),
        })
    }

    fn drawn_chockstone(&self) -> Part {
        let closes = match self.seating {
            Seating::Into => 0.3,
            Seating::Along => 0.0,
            Seating::Out => -0.3,
        };
        let radius = 0.3;
        let wall = |x: f64| radius - closes * x;
        Part {
            rock: vec![
                vec![[-0.6, -wall(-0.6)], [0.7, -wall(0.7)]],
                vec![[0.7, wall(0.7)], [-0.6, wall(-0.6)]],
                round(0.95 * radius),
            ],
            sling: [0.95 * radius, 0.0],
            ..Part::default()
        }
    }

    fn drawn_buried(&self, &point: &Inputs) -> Part {
        let [girth, _, _, _, _, _, _, _, _, angle, ..] = point;
        let (deep, thick) = (self.high.value, girth / PI);
        let top = (thick - deep).min(0.0);
        let reach = deep * (FRAC_PI_4 + angle / 2.0).min(FRAC_PI_2 - 0.05).tan();
        Part {
            rock: vec![vec![[-thick, -deep], [-thick, top], [0.0, top], [0.0, -deep]]],
            before: vec![[-1.5 * deep, 0.0], [self.out.value - 0.01, 0.0]],
            traces: vec![vec![[0.0, -deep], [reach, 0.0]]],
            sling: [0.0, f64::midpoint(top, -deep)],
            lengths: vec![Dimension { from: [-thick - 0.1, -deep], to: [-thick - 0.1, 0.0], name: "deep" }],
            ..Part::default()
        }
    }
}

/// Something round about the origin, its solid side inside.
fn round(radius: f64) -> Vec<Place> {
    (0..=12)
        .map(|step| {
            let (sine, cosine) = (-f64::from(step) * PI / 6.0).sin_cos();
            [radius * cosine, radius * sine]
        })
        .collect()
}
