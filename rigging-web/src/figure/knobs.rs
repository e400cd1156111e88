//! What a hand or a key can take hold of in the picture.

use super::{HEIGHT, Point, Stage, WIDTH, n, path};
use crate::question_screen::View;
use maud::{Markup, html};
use rigging_core::quantity::Toward;
use rigging_core::question::Asked;
use rigging_core::question::scene::{Grip, Handle, Scene};

/// Half of what a finger needs: 48 px where the page is 320 px wide, a scroll bar included.
const REACH: f64 = 29.0;
/// Two knobs nearer than this would be taken for each other: 8 px between both at 320 px.
const APART: f64 = 2.0 * REACH + 9.0;
/// What is seen of a knob, with its pointers.
pub const SEEN: f64 = 17.0;

/// The id of a handle: the picture it is in, and its place there.
pub fn id(picture: usize, handle: usize) -> String {
    format!("handle-{picture}-{handle}")
}

/// Picture and place of a handle from its id.
pub fn read(id: &str) -> Option<(usize, usize)> {
    let (picture, handle) = id.strip_prefix("handle-")?.split_once('-')?;
    Some((picture.parse().ok()?, handle.parse().ok()?))
}

/// For each handle how far its knob is put from what it moves, so that no two are taken for each other.
pub fn apart(scene: &Scene, stage: &Stage) -> Vec<Point> {
    let mut knobs: Vec<Point> = Vec::new();
    let mut offsets = Vec::new();
    for handle in &scene.handles {
        let (x, y) = stage.at(handle.at);
        let mut best = ((0.0, 0.0), f64::INFINITY);
        for ring in 0..4 {
            for turn in 0..16 {
                let (sine, cosine) = (f64::from(turn) * std::f64::consts::TAU / 16.0).sin_cos();
                let far = 34.0 * f64::from(ring);
                let offset = (far * cosine, far * sine);
                let (u, v) = (x + offset.0, y + offset.1);
                let near = knobs.iter().map(|(s, t)| (APART - (u - s).hypot(v - t)).max(0.0)).sum::<f64>();
                let out = (REACH - u).max(0.0) + (u - WIDTH + REACH).max(0.0);
                let out = out + (REACH - v).max(0.0) + (v - HEIGHT + REACH).max(0.0);
                let cost = 100.0 * (near + out) + far;
                if cost < best.1 - 1e-9 {
                    best = (offset, cost);
                }
            }
        }
        knobs.push((x + best.0.0, y + best.0.1));
        offsets.push(best.0);
    }
    offsets
}

/// Where the knobs are.
pub fn places(scene: &Scene, stage: &Stage) -> Vec<Point> {
    let at = |(handle, (x, y)): (&Handle, &Point)| {
        let place = stage.at(handle.at);
        (place.0 + x, place.1 + y)
    };
    scene.handles.iter().zip(&stage.knobs).map(at).collect()
}

/// The handles of a picture.
pub fn drawn(scene: &Scene, stage: &Stage, picture: usize, view: &View) -> Markup {
    let fields = view.question.fields();
    html! {
        @for (number, (handle, at)) in scene.handles.iter().zip(places(scene, stage)).enumerate() {
            (knob(handle, stage.at(handle.of), at, &id(picture, number), &fields, view))
        }
    }
}

fn knob(handle: &Handle, from: Point, (x, y): Point, id: &str, fields: &[Asked], view: &View) -> Markup {
    let followed: Vec<&Asked> =
        handle.grips.iter().filter_map(|grip| fields.iter().find(|field| field.about.name == grip.field())).collect();
    let value = |field: &Asked| view.units.with_figures(field.entry.middle(), field.about.kind, 3, Toward::Nearest);
    let words: Vec<String> = followed.iter().map(|field| format!("{}: {}", field.about.label, value(field))).collect();
    let shown = |field: &Asked, si: f64| n_of(view.units.of(field.about.kind).from_si(si));
    let (least, most) = followed.first().map_or((0.0, 0.0), |field| field.about.takes.bounds());
    let now = followed.first().map_or(0.0, |field| field.entry.middle());
    let first = followed.first();
    html! {
        g.handle id=(id) tabindex="0" role="slider" aria-label={ "Move: " (handle.name) } aria-valuetext=(words.join(", "))
            aria-valuemin=[first.map(|field| shown(field, least))] aria-valuemax=[first.map(|field| shown(field, most))]
            aria-valuenow=[first.map(|field| shown(field, now))] {
            @if (from.0 - x).hypot(from.1 - y) > 1.0 { line.lead x1=(n(from.0)) y1=(n(from.1)) x2=(n(x)) y2=(n(y)) {} }
            circle.reach cx=(n(x)) cy=(n(y)) r=(n(REACH)) {}
            circle.knob cx=(n(x)) cy=(n(y)) r="8" {}
            @for grip in &handle.grips { path.pointers d=(pointers(grip, handle, (x, y))) {} }
        }
    }
}

/// Two pointers on a knob: the ways it can go.
fn pointers(grip: &Grip, handle: &Handle, (x, y): Point) -> String {
    let [u, v] = grip.growth(handle.at);
    let long = u.hypot(v).max(1e-12);
    let (u, v) = (u / long, -v / long);
    [1.0, -1.0]
        .map(|side| {
            let at = |far: f64, wide: f64| (x + side * (far * u - wide * v), y + side * (far * v + wide * u));
            path(&[at(10.5, 4.5), at(16.5, 0.0), at(10.5, -4.5)]) + " Z "
        })
        .concat()
}

fn n_of(value: f64) -> String {
    rigging_core::quantity::decimal(value, 3)
}
