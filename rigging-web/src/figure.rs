//! The picture: the rig as it stands, forces to scale where they act, and the polygon that they close.

use crate::graph;
use crate::labels::{Label, Labels};
use crate::number::Toward;
use crate::question_screen::View;
use crate::units::Units;
use crate::working::way_to_formulas;
use maud::{Markup, html};
use rigging_core::quantity::{Kind, decimal};
use rigging_core::question::scene::{Arc, Arrow, Place, Pose, Role, Scene, size};

const WIDTH: f64 = 360.0;
const HEIGHT: f64 = 330.0;
const POLYGON_HEIGHT: f64 = 210.0;
/// What things and arrows may take of it; the rest is for words.
const ROOM: (f64, f64) = (WIDTH - 110.0, HEIGHT - 60.0);
/// Length of the longest force in the picture.
const LONGEST: f64 = 105.0;

/// The picture of a view; nothing but a dash while there is no answer.
pub fn picture(view: &View) -> Markup {
    match view.found() {
        Some(answer) => html! {
            (drawn(&answer.scene, view.units))
            @if let Some(aside) = &answer.aside { (drawn(aside, view.units)) }
            @for graph in &answer.graphs { (graph::drawn(graph, view.units)) }
            (way_to_formulas())
        },
        None => html! { p.big { "—" } },
    }
}

/// A place in the picture.
pub type Point = (f64, f64);

/// From metres to the picture.
struct Scale {
    metre: f64,
    origin: Point,
    newton: f64,
}

/// Least and most of some values.
pub fn ends(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), value| (least.min(value), most.max(value)))
}

impl Scale {
    /// The largest scale at which things, arrows and some room for words stay in the picture.
    fn of(scene: &Scene) -> Self {
        let mut places: Vec<Place> = scene.anchors.clone();
        places.extend(scene.lines.iter().flat_map(|line| [line.from, line.to]));
        places.extend(scene.people.iter().map(|person| person.at));
        places.extend(scene.traces.iter().flatten().chain(scene.water.iter().flatten()));
        places.extend(scene.lengths.iter().flat_map(|length| [length.from, length.to]));
        let (x, y) = (ends(places.iter().map(|[x, _]| *x)), ends(places.iter().map(|[_, y]| *y)));
        let largest = scene.forces.iter().chain(&scene.polygon).map(|arrow| size(arrow.pull)).fold(0.0, f64::max);
        let fit = (ROOM.0 / (x.1 - x.0).max(1e-6)).min(ROOM.1 / (y.1 - y.0).max(1e-6));
        let mut scale = Scale { metre: fit, origin: (0.0, 0.0), newton: LONGEST / largest.max(1e-9) };
        for _ in 0..12 {
            let points: Vec<Point> = places
                .iter()
                .map(|place| scale.at(*place))
                .chain(scene.forces.iter().map(|arrow| scale.tip(scale.at(arrow.at), arrow.pull)))
                .collect();
            let (x, y) = (ends(points.iter().map(|point| point.0)), ends(points.iter().map(|point| point.1)));
            scale.origin.0 += WIDTH / 2.0 - (x.0 + x.1) / 2.0;
            scale.origin.1 += HEIGHT / 2.0 - (y.0 + y.1) / 2.0;
            if x.1 - x.0 <= ROOM.0 && y.1 - y.0 <= ROOM.1 {
                break;
            }
            scale.metre *= 0.9;
        }
        scale
    }

    fn at(&self, [x, y]: Place) -> Point {
        (self.origin.0 + x * self.metre, self.origin.1 - y * self.metre)
    }

    fn tip(&self, (x, y): Point, [u, v]: Place) -> Point {
        (x + u * self.newton, y - v * self.newton)
    }
}

fn drawn(scene: &Scene, units: Units) -> Markup {
    let scale = Scale::of(scene);
    let words = description(scene, units);
    let strokes = scene
        .lines
        .iter()
        .map(|line| (scale.at(line.from), scale.at(line.to)))
        .chain(scene.lengths.iter().map(|length| (scale.at(length.from), scale.at(length.to))))
        .chain(
            scene
                .rock
                .iter()
                .flat_map(|run| run.iter().zip(run.iter().skip(1)))
                .map(|(from, to)| (scale.at(*from), scale.at(*to))),
        )
        .chain(scene.forces.iter().map(|arrow| {
            let from = scale.at(arrow.at);
            (from, scale.tip(from, arrow.pull))
        }))
        .collect();
    let mut labels = Labels::new(WIDTH, HEIGHT, strokes);
    for arrow in &scene.forces {
        let from = scale.at(arrow.at);
        let tip = scale.tip(from, arrow.pull);
        // Nearer to the head than to the foot, yet not where two heads meet.
        let near = (from.0 + 0.7 * (tip.0 - from.0), from.1 + 0.7 * (tip.1 - from.1));
        labels.put(named(arrow, units), class(arrow.role), near);
    }
    for length in &scene.lengths {
        let (from, to) = (scale.at(length.from), scale.at(length.to));
        let metres = (length.from[0] - length.to[0]).hypot(length.from[1] - length.to[1]);
        let text = format!("{} {}", length.name, units.show(metres, Kind::Length, Toward::Nearest));
        labels.put(text, "measure", ((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0));
    }
    for arc in &scene.angles {
        let (x, y) = scale.at(arc.at);
        let middle = (arc.from + arc.to) / 2.0;
        let text = format!("{} {}°", arc.name, degrees(arc));
        labels.put(text, "measure", (x + ARC * middle.cos(), y - ARC * middle.sin()));
    }
    html! {
        svg.scene viewBox={ "0 0 " (n(WIDTH)) " " (n(HEIGHT)) } role="img" aria-label=(words) {
            (heads())
            @for run in &scene.rock { (rock(&run.iter().map(|place| scale.at(*place)).collect::<Vec<_>>())) }
            @for [from, to] in &scene.water { (water(scale.at(*from), scale.at(*to))) }
            @for trace in &scene.traces {
                path.trace d=(path(&trace.iter().map(|place| scale.at(*place)).collect::<Vec<_>>())) {}
            }
            @for length in &scene.lengths { (dimension(scale.at(length.from), scale.at(length.to))) }
            @for line in &scene.lines { (strand(scale.at(line.from), scale.at(line.to), line.tension)) }
            @for arc in &scene.angles { (angle(scale.at(arc.at), arc.from, arc.to)) }
            @for person in &scene.people { (figure_of(person.pose, scale.at(person.at))) }
            @for anchor in &scene.anchors {
                @let (x, y) = scale.at(*anchor);
                circle.anchor cx=(n(x)) cy=(n(y)) r="5" {}
            }
            @for arrow in &scene.forces {
                @let from = scale.at(arrow.at);
                (force(from, scale.tip(from, arrow.pull), arrow.role))
            }
            @for label in labels.done() { (text(&label)) }
        }
        (polygon(scene, &scale, units))
        figcaption { (scene.case) }
    }
}

const ARC: f64 = 30.0;

/// A number of the picture, short.
pub fn n(value: f64) -> String {
    decimal(value, 1)
}

fn degrees(arc: &Arc) -> String {
    decimal((arc.to - arc.from).abs().to_degrees(), 0)
}

fn class(role: Role) -> &'static str {
    match role {
        Role::Load | Role::Held => "load",
        Role::OnAnchor => "on-anchor",
    }
}

fn named(arrow: &Arrow, units: Units) -> String {
    let toward = if arrow.role == Role::Held { Toward::Less } else { Toward::More };
    format!("{} {}", arrow.name, units.show(size(arrow.pull), Kind::Force, toward))
}

fn heads() -> Markup {
    html! {
        defs {
            marker #head-load viewBox="0 0 10 10" refX="9" refY="5" markerWidth="5" markerHeight="5" orient="auto-start-reverse" {
                path.load-head d="M0 0 L10 5 L0 10 Z" {}
            }
            marker #head-on-anchor viewBox="0 0 10 10" refX="9" refY="5" markerWidth="5" markerHeight="5" orient="auto-start-reverse" {
                path.on-anchor-head d="M0 0 L10 5 L0 10" {}
            }
        }
    }
}

fn force(from: Point, to: Point, role: Role) -> Markup {
    let class = class(role);
    // A short arrow is drawn thin, or its head would be longer than itself.
    let short = (to.0 - from.0).hypot(to.1 - from.1) < 24.0;
    html! {
        line class={ "force " (class) @if short { " short" } } x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) marker-end={ "url(#head-" (class) ")" } {}
    }
}

fn strand(from: Point, to: Point, tension: f64) -> Markup {
    if tension > 0.0 {
        return html! { line.rope x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) {} };
    }
    // Slack: dashed, and sagging unless it hangs plumb.
    let level = (to.0 - from.0).abs();
    let (x, y) = ((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0 + 0.4 * level);
    html! {
        path.rope.slack d={ "M" (n(from.0)) " " (n(from.1)) " Q" (n(x)) " " (n(y)) " " (n(to.0)) " " (n(to.1)) } {}
    }
}

/// A run of straight pieces.
pub fn path(run: &[Point]) -> String {
    run.iter()
        .enumerate()
        .map(|(place, (x, y))| format!("{}{} {}", if place == 0 { "M" } else { " L" }, n(*x), n(*y)))
        .collect()
}

/// Waves of 12 along a level surface.
fn water(from: Point, to: Point) -> Markup {
    let waves = ((to.0 - from.0) / 12.0).clamp(1.0, 100.0) as u32;
    let waves = "q3 -4 6 0 t6 0 ".repeat(waves as usize);
    html! { path.water d={ "M" (n(from.0)) " " (n(from.1)) " " (waves) } {} }
}

/// A run cut off at the sides of the picture: WebKit counts what is drawn beyond as width of the page.
fn cut(run: &[Point]) -> Vec<Point> {
    let mut kept = Vec::new();
    for (from, to) in run.iter().zip(run.iter().skip(1)) {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let (left, right) = if dx == 0.0 {
            let inside = if (0.0..=WIDTH).contains(&from.0) { 1.0 } else { -1.0 };
            (0.0, inside)
        } else {
            let (one, other) = (-from.0 / dx, (WIDTH - from.0) / dx);
            (one.min(other).max(0.0), one.max(other).min(1.0))
        };
        if left < right {
            kept.extend([left, right].map(|share| (from.0 + share * dx, from.1 + share * dy)));
        }
    }
    kept.dedup();
    kept
}

fn rock(run: &[Point]) -> Markup {
    let run = &cut(run);
    html! {
        path.rock d=(path(run)) {}
        path.hatch d=(hatching(run)) {}
    }
}

/// Short strokes on the solid side of a surface: to the right of the way it runs (y points down here).
fn hatching(run: &[Point]) -> String {
    let mut strokes = String::new();
    for (from, to) in run.iter().zip(run.iter().skip(1)) {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let length = dx.hypot(dy);
        let steps = (length.min(2000.0) / 11.0) as u32;
        for step in 0..steps {
            let along = 11.0 * f64::from(step) + 5.0;
            let (x, y) = (from.0 + dx * along / length, from.1 + dy * along / length);
            let (u, v) = (x - 8.0 * (dy + 0.6 * dx) / length, y + 8.0 * (dx - 0.6 * dy) / length);
            strokes += &format!("M{} {} L{} {} ", n(x), n(y), n(u), n(v));
        }
    }
    strokes
}

fn dimension(from: Point, to: Point) -> Markup {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = dx.hypot(dy).max(1e-9);
    let (u, v) = (-5.0 * dy / length, 5.0 * dx / length);
    html! {
        line.length x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) {}
        @for (x, y) in [from, to] {
            line.length x1=(n(x - u)) y1=(n(y - v)) x2=(n(x + u)) y2=(n(y + v)) {}
        }
    }
}

fn angle((x, y): Point, from: f64, to: f64) -> Markup {
    let at = |angle: f64| (x + ARC * angle.cos(), y - ARC * angle.sin());
    let (start, end) = (at(from), at(to));
    let wide = u8::from((to - from).abs() > std::f64::consts::PI);
    html! {
        path.angle d={ "M" (n(start.0)) " " (n(start.1)) " A" (n(ARC)) " " (n(ARC)) " 0 " (wide) " 0 " (n(end.0)) " " (n(end.1)) } {}
    }
}

/// A person drawn in a few strokes; the rope meets the person at the given place.
fn figure_of(pose: Pose, (x, y): Point) -> Markup {
    let path = match pose {
        Pose::Hanging => "M0 0 L-3 -13 M0 0 L8 6 L4 17 M0 0 L9 2 L10 14 M-2 -9 L2 0 L3 -8",
        Pose::Seated => "M0 0 L-6 6 L-9 -12 M-6 6 L5 2 L14 8 M-8 -6 L0 0",
        Pose::Standing => "M0 0 L-3 -14 M0 0 L5 14 L6 28 M0 0 L-5 14 L-9 28 M-2 -9 L4 -1",
    };
    let head = match pose {
        Pose::Hanging => (-4.0, -18.0),
        Pose::Seated => (-10.0, -17.0),
        Pose::Standing => (-3.0, -19.0),
    };
    html! {
        g.person transform={ "translate(" (n(x)) " " (n(y)) ")" } {
            path d=(path) {}
            circle cx=(n(head.0)) cy=(n(head.1)) r="5" {}
        }
    }
}

fn text(label: &Label) -> Markup {
    html! {
        text class={ "words " (label.class) } x=(n(label.at.0)) y=(n(label.at.1 + 5.0)) text-anchor="middle" { (label.text) }
    }
}

/// The forces that keep one body at rest, head to tail, to the scale of the picture.
fn polygon(scene: &Scene, scale: &Scale, units: Units) -> Markup {
    let mut corners = vec![(0.0, 0.0)];
    let mut at = (0.0, 0.0);
    for arrow in &scene.polygon {
        at = scale.tip(at, arrow.pull);
        corners.push(at);
    }
    let (x, y) = (ends(corners.iter().map(|point| point.0)), ends(corners.iter().map(|point| point.1)));
    // Forces along one line would lie on each other: set each beside the one before.
    let flat = x.1 - x.0 < 4.0 || y.1 - y.0 < 4.0;
    let shift = (WIDTH / 2.0 - (x.0 + x.1) / 2.0, POLYGON_HEIGHT / 2.0 - 12.0 - (y.0 + y.1) / 2.0);
    let place = |(x, y): Point, number: usize| {
        let aside = if flat { 14.0 * number as f64 } else { 0.0 };
        (x + shift.0 + aside, y + shift.1)
    };
    let sides: Vec<_> = scene
        .polygon
        .iter()
        .zip(corners.iter().zip(corners.iter().skip(1)))
        .enumerate()
        .map(|(number, (arrow, (from, to)))| (arrow, place(*from, number), place(*to, number)))
        .collect();
    let mut labels =
        Labels::new(WIDTH, POLYGON_HEIGHT - 26.0, sides.iter().map(|(_, from, to)| (*from, *to)).collect());
    for (arrow, from, to) in &sides {
        labels.put(named(arrow, units), class(arrow.role), ((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0));
    }
    let (mark, newtons) = mark(scale.newton, units);
    let names: Vec<&str> = scene.polygon.iter().map(|arrow| arrow.name).collect();
    let words = format!("Force polygon, closed, to the same scale: {}.", names.join(", "));
    html! {
        svg.polygon viewBox={ "0 0 " (n(WIDTH)) " " (n(POLYGON_HEIGHT)) } role="img" aria-label=(words) {
            @for (arrow, from, to) in &sides { (force(*from, *to, arrow.role)) }
            @for label in labels.done() { (text(&label)) }
            line.mark x1="12" y1=(n(POLYGON_HEIGHT - 10.0)) x2=(n(12.0 + mark)) y2=(n(POLYGON_HEIGHT - 10.0)) {}
            text.words x=(n(20.0 + mark)) y=(n(POLYGON_HEIGHT - 5.0)) {
                (units.show(newtons, Kind::Force, Toward::Nearest)) " in both pictures"
            }
        }
    }
}

/// A round force for the scale mark: its length in the picture and its size in newtons.
fn mark(newton: f64, units: Units) -> (f64, f64) {
    let unit = units.of(Kind::Force);
    let most = unit.from_si(80.0 / newton);
    let decade = 10_f64.powi(most.log10().floor() as i32);
    let round = [5.0, 2.0, 1.0].into_iter().map(|step| step * decade).find(|round| *round <= most).unwrap_or(decade);
    let newtons = unit.to_si(round);
    (newtons * newton, newtons)
}

/// The picture in sentences.
fn description(scene: &Scene, units: Units) -> String {
    let mut words = scene.case.clone();
    for arrow in &scene.forces {
        words += &format!(" {}.", sentence_case(&named(arrow, units)));
    }
    for arc in &scene.angles {
        words += &format!(" {} {}°.", sentence_case(arc.name), degrees(arc));
    }
    words
}

/// The same with a capital in front.
pub fn sentence_case(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| std::iter::once(first.to_ascii_uppercase()).chain(letters).collect()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rock_is_cut_at_the_sides_of_the_picture() {
        let run = [(-60.0, 10.0), (60.0, 10.0), (60.0, 500.0), (480.0, 80.0)];
        assert_eq!(cut(&run), [(0.0, 10.0), (60.0, 10.0), (60.0, 500.0), (360.0, 200.0)]);
        assert_eq!(cut(&[(-5.0, 0.0), (-5.0, 9.0)]), []);
    }
}
