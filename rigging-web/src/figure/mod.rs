//! The picture: the rig as it stands, forces to scale where they act, and the polygon that they close.

mod knobs;
mod parts;
mod polygon;
mod stage;
mod words;

pub use knobs::read;
pub use stage::Stage;
pub use words::sentence_case;

use crate::both::both;
use crate::graph;
use crate::labels::Labels;
use crate::question_screen::View;
use crate::way::Way;
use crate::working::way_to_formulas;
use maud::{Markup, html};
use parts::ARC;
use rigging_core::quantity::{Units, decimal};
use rigging_core::question::Answer;
use rigging_core::question::scene::{Role, Scene};

const WIDTH: f64 = 360.0;
const HEIGHT: f64 = 330.0;

/// The picture of a view; nothing but a dash while there is no answer.
pub fn picture(view: &View) -> Markup {
    match view.found() {
        Some(answer) => html! {
            @for (number, scene) in scenes(answer).enumerate() { (of_view(scene, number, view)) }
            @for graph in &answer.graphs { (graph::drawn(graph, view.units)) }
            (way_to_formulas())
        },
        None => html! { p.big { "—" } },
    }
}

/// The scenes of an answer, in the order of their pictures.
pub fn scenes(answer: &Answer) -> impl Iterator<Item = &Scene> {
    std::iter::once(&answer.scene).chain(&answer.aside)
}

/// A place in the picture.
pub type Point = (f64, f64);

/// Least and most of some values.
pub fn ends(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), value| (least.min(value), most.max(value)))
}

/// One scene of a view, with its polygon and the words for the case; `number` is its place among the pictures.
pub fn of_view(scene: &Scene, number: usize, view: &View) -> Markup {
    let ghost = view.ghost.filter(|_| number == 0);
    let stage = match view.stages.get(number) {
        Some(stage) => stage.kept_for(scene),
        None => Stage::beside(scene, ghost),
    };
    // At the lip a drop of water must not set anything off.
    let moves = view.way != Way::Lip && !scene.handles.is_empty();
    let knobs = moves.then(|| knobs::drawn(scene, &stage, number, view));
    on_stage(scene, ghost, &stage, knobs.as_ref(), view.units)
}

/// Draws a scene, and faint behind it the lines of another to the same scale.
pub fn drawn(scene: &Scene, ghost: Option<&Scene>, units: Units) -> Markup {
    on_stage(scene, ghost, &Stage::beside(scene, ghost), None, units)
}

fn on_stage(scene: &Scene, ghost: Option<&Scene>, stage: &Stage, knobs: Option<&Markup>, units: Units) -> Markup {
    let mut labels = Labels::new(WIDTH, HEIGHT, strokes(scene, stage));
    if knobs.is_some() {
        for knob in knobs::places(scene, stage) {
            labels.keep_off(knob, knobs::SEEN);
        }
    }
    let heads: Vec<Point> = scene.forces.iter().map(|arrow| stage.tip(stage.at(arrow.at), arrow.pull)).collect();
    let away = |from: &Point, to: &Point| (from.0 - to.0).hypot(from.1 - to.1);
    // Where an arrow reaches another anchor than its own, each force is told beside its anchor.
    let astray = scene.forces.iter().zip(&heads).any(|(arrow, tip)| {
        let own = away(&stage.at(arrow.at), tip);
        arrow.role == Role::OnAnchor && scene.anchors.iter().any(|anchor| away(&stage.at(*anchor), tip) < 0.6 * own)
    });
    for (arrow, tip) in scene.forces.iter().zip(&heads) {
        let from = stage.at(arrow.at);
        // At the head, yet not where two heads meet.
        let meets = heads.iter().filter(|head| away(head, tip) < 24.0).count() > 1;
        let share = match arrow.role {
            Role::OnAnchor if astray => 0.3,
            _ if meets => 0.7,
            _ => 1.0,
        };
        let near = (from.0 + share * (tip.0 - from.0), from.1 + share * (tip.1 - from.1));
        labels.put(words::force(arrow, units), parts::class(arrow.role), near);
    }
    for length in &scene.lengths {
        let (from, to) = (stage.at(length.from), stage.at(length.to));
        labels.put(words::length(length, units), "measure", ((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0));
    }
    for arc in &scene.angles {
        let (x, y) = stage.at(arc.at);
        let middle = (arc.from + arc.to) / 2.0;
        labels.put(words::angle(arc), "measure", (x + ARC * middle.cos(), y - ARC * middle.sin()));
    }
    for [from, to] in &scene.flows {
        let (from, to) = (stage.at(*from), stage.at(*to));
        labels.put(words::CURRENT.to_owned(), "measure", ((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0));
    }
    html! {
        svg.scene viewBox={ "0 0 " (n(WIDTH)) " " (n(HEIGHT)) } role="group" aria-label="Picture" {
            g role="img" aria-label=(words::described(scene, ghost, units)) {
                (parts::heads())
                @for run in &scene.rock { (parts::rock(&run.iter().map(|place| stage.at(*place)).collect::<Vec<_>>())) }
                @for [from, to] in &scene.water { (parts::water(stage.at(*from), stage.at(*to))) }
                @for [from, to] in &scene.flows { (parts::flow(stage.at(*from), stage.at(*to))) }
                @for trace in &scene.traces {
                    path.trace d=(path(&trace.iter().map(|place| stage.at(*place)).collect::<Vec<_>>())) {}
                }
                @for line in ghost.iter().flat_map(|ghost| &ghost.lines) { (parts::faint(stage.at(line.from), stage.at(line.to))) }
                @for length in &scene.lengths { (parts::dimension(stage.at(length.from), stage.at(length.to))) }
                @for line in &scene.lines { (parts::strand(stage.at(line.from), stage.at(line.to), line.tension)) }
                @for arc in &scene.angles { (parts::angle(stage.at(arc.at), arc.from, arc.to)) }
                @for person in &scene.people { (parts::figure_of(person.pose, stage.at(person.at))) }
                @for anchor in &scene.anchors {
                    @let (x, y) = stage.at(*anchor);
                    circle.anchor cx=(n(x)) cy=(n(y)) r="5" {}
                }
                @for (arrow, tip) in scene.forces.iter().zip(&heads) {
                    (parts::force(stage.at(arrow.at), *tip, arrow.role))
                }
                @for label in labels.done() { (parts::text(&label)) }
            }
            @if let Some(knobs) = knobs { (knobs) }
        }
        @if !scene.polygon.is_empty() { (polygon::drawn(scene, stage, units)) }
        figcaption { (both(&scene.case, units)) }
    }
}

/// What words should keep off.
fn strokes(scene: &Scene, stage: &Stage) -> Vec<(Point, Point)> {
    let rock = scene.rock.iter().flat_map(|run| run.iter().zip(run.iter().skip(1)).map(|(from, to)| [*from, *to]));
    scene
        .lines
        .iter()
        .map(|line| [line.from, line.to])
        .chain(scene.lengths.iter().map(|length| [length.from, length.to]))
        .chain(scene.flows.iter().copied())
        .chain(rock)
        .map(|[from, to]| (stage.at(from), stage.at(to)))
        .chain(scene.forces.iter().map(|arrow| {
            let from = stage.at(arrow.at);
            (from, stage.tip(from, arrow.pull))
        }))
        .collect()
}

/// A number of the picture, short.
pub fn n(value: f64) -> String {
    decimal(value, 1)
}

/// A run of straight pieces.
pub fn path(run: &[Point]) -> String {
    run.iter()
        .enumerate()
        .map(|(place, (x, y))| format!("{}{} {}", if place == 0 { "M" } else { " L" }, n(*x), n(*y)))
        .collect()
}
