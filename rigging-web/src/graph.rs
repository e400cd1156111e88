//! A graph: how an input moves a result, the end that hurts as a full line, and the present point on it.

use crate::figure::{Point, ends, n, path, sentence_case};
use crate::labels::{Frame, Labels};
use maud::{Markup, html};
use rigging_core::quantity::{Kind, Toward, Units, decimal, figures, with_unit};
use rigging_core::question::graph::{Axis, Graph, Mark};

const WIDTH: f64 = 360.0;
const HEIGHT: f64 = 230.0;
/// Where the curve may run: left, top, right, bottom.
const ROOM: (f64, f64, f64, f64) = (52.0, 16.0, 344.0, 178.0);
/// How many values are marked along a side, at most.
const TICKS: f64 = 5.0;

/// One side of the graph: the least and most of its values, and the pixels they lie at.
struct Side {
    values: (f64, f64),
    pixels: (f64, f64),
}

impl Side {
    fn at(&self, value: f64) -> f64 {
        let ((least, most), (from, to)) = (self.values, self.pixels);
        from + (to - from) * (value - least) / (most - least).max(f64::MIN_POSITIVE)
    }
}

/// Draws a graph.
pub fn drawn(graph: &Graph, units: Units) -> Markup {
    let across_most = ends(graph.curve.iter().chain(&graph.here).map(|mark| mark.across));
    let up_most = ends(graph.curve.iter().chain(&graph.here).map(|mark| mark.up.high())).1;
    let up_least = ends(graph.curve.iter().chain(&graph.here).map(|mark| mark.up.low())).0.min(0.0);
    let across = Side { values: across_most, pixels: (ROOM.0, ROOM.2) };
    let up = Side { values: (up_least, up_most), pixels: (ROOM.3, ROOM.1) };
    let line = |end: fn(&Mark) -> f64| -> Vec<Point> {
        graph.curve.iter().map(|mark| (across.at(mark.across), up.at(end(mark)))).collect()
    };
    let (high, low) = (line(|mark| mark.up.high()), line(|mark| mark.up.low()));
    let between: Vec<Point> = high.iter().chain(low.iter().rev()).copied().collect();
    let ranged = graph.curve.iter().any(|mark| !mark.up.is_exact());
    let strokes = high.iter().zip(high.iter().skip(1)).map(|(from, to)| (*from, *to)).collect();
    let mut labels = Labels::within(Frame { left: ROOM.0, top: 2.0, right: WIDTH - 2.0, bottom: ROOM.3 }, strokes);
    if let Some(here) = &graph.here {
        let place = (across.at(here.across), up.at(here.up.high()));
        labels.put(format!("here {}", value(here.up.high(), graph.up.kind, units)), "load", place);
    }
    html! {
        svg.graph viewBox={ "0 0 " (n(WIDTH)) " " (n(HEIGHT)) } role="img" aria-label=(description(graph, units)) {
            @if ranged { path.spread d={ (path(&between)) " Z" } {} }
            @for (at, words) in ticks(graph.up, &up, units) {
                line.axis x1=(n(ROOM.0)) y1=(n(at)) x2=(n(ROOM.2)) y2=(n(at)) {}
                text.words.measure x=(n(ROOM.0 - 6.0)) y=(n(at + 4.0)) text-anchor="end" { (words) }
            }
            @for (at, words) in ticks(graph.across, &across, units) {
                line.axis x1=(n(at)) y1=(n(ROOM.3)) x2=(n(at)) y2=(n(ROOM.3 + 5.0)) {}
                text.words.measure x=(n(at)) y=(n(ROOM.3 + 19.0)) text-anchor="middle" { (words) }
            }
            @if ranged { path.friendly d=(path(&low)) {} }
            path.adverse d=(path(&high)) {}
            @if let Some(here) = &graph.here {
                circle.here cx=(n(across.at(here.across))) cy=(n(up.at(here.up.high()))) r="6" {}
            }
            @for label in labels.done() {
                text class={ "words " (label.class) } x=(n(label.at.0)) y=(n(label.at.1 + 5.0)) text-anchor="middle" { (label.text) }
            }
            text.words x=(n(WIDTH / 2.0)) y=(n(HEIGHT - 12.0)) text-anchor="middle" { (named(graph.across, units)) }
        }
        p.about { (sentence_case(&graph.title)) ", " (named(graph.up, units)) @if ranged { ": full line the end that hurts, broken line the other end" } "." }
    }
}

fn named(axis: Axis, units: Units) -> String {
    match axis.kind {
        Kind::Ratio | Kind::Count => axis.name.to_owned(),
        kind => format!("{} ({})", axis.name, units.of(kind).symbol()),
    }
}

fn value(si: f64, kind: Kind, units: Units) -> String {
    units.show(si, kind, Toward::More)
}

/// Round values along a side, with their places.
fn ticks(axis: Axis, side: &Side, units: Units) -> Vec<(f64, String)> {
    let unit = units.of(axis.kind);
    let (least, most) = (unit.from_si(side.values.0), unit.from_si(side.values.1));
    let rough = (most - least) / TICKS;
    if rough.is_nan() || rough <= 0.0 {
        return Vec::new();
    }
    let decade = 10_f64.powi(rough.log10().floor() as i32);
    let step = [1.0, 2.0, 5.0, 10.0].into_iter().map(|step| step * decade).find(|step| *step >= rough).unwrap_or(rough);
    let digits = (-step.log10().floor()).max(0.0) as u32;
    let first = (least / step).ceil() as i64;
    let last = (most / step + 1e-9).floor() as i64;
    (first..=last.min(first + 20))
        .map(|number| {
            let value = number as f64 * step;
            (side.at(unit.to_si(value)), decimal(value, digits))
        })
        .collect()
}

/// The graph in sentences: its ends, its middle and the present point.
fn description(graph: &Graph, units: Units) -> String {
    let at = |mark: &Mark| {
        let unit = units.of(graph.across.kind);
        let across = with_unit(&figures(unit.from_si(mark.across), 2, Toward::Nearest), unit);
        format!("at {across} up to {}", value(mark.up.high(), graph.up.kind, units))
    };
    let marks = [graph.curve.first(), graph.curve.get(graph.curve.len() / 2), graph.curve.last()];
    let told: Vec<String> = marks.into_iter().flatten().map(at).collect();
    let here = graph.here.as_ref().map(|here| format!("; here, {}", at(here))).unwrap_or_default();
    format!(
        "{}, {} against {}: {}{here}.",
        sentence_case(&graph.title),
        graph.up.name,
        graph.across.name,
        told.join(", ")
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use rigging_core::band::Band;
    use rigging_core::question::Question;

    /// One of an answer, with other numbers on it.
    fn graph(curve: &[(f64, f64)]) -> Graph {
        let mut graph = Question::named("line").unwrap().answer().unwrap().graphs.remove(0);
        let any = graph.curve[0];
        let mark = |&(across, up): &(f64, f64)| {
            let mut mark = any;
            (mark.across, mark.up) = (across, Band::of(0.5 * up, up, up));
            mark
        };
        (graph.across.name, graph.across.kind) = ("swing", Kind::Length);
        (graph.up.name, graph.up.kind) = ("force", Kind::Force);
        (graph.curve, graph.here) = (curve.iter().map(mark).collect(), curve.first().map(mark));
        graph
    }

    #[test]
    fn a_graph_says_its_values_to_those_who_cannot_see_it() {
        let html = drawn(&graph(&[(0.0, 1000.0), (1.0, 2000.0), (2.0, 4000.0)]), Units::default())
            .into_string()
            .replace('\u{a0}', " ");
        for words in
            ["at 0 m up to 1.0 kN", "at 1.0 m up to 2.0 kN", "at 2.0 m up to 4.0 kN", "here, at 0 m up to 1.0 kN"]
        {
            assert!(html.contains(words), "{words}: {html}");
        }
    }

    #[test]
    fn round_values_stand_where_they_belong() {
        let axis = graph(&[]).up;
        let side = Side { values: (0.0, 4300.0), pixels: (178.0, 16.0) };
        let ticks = ticks(axis, &side, Units::default());
        let words: Vec<_> = ticks.iter().map(|(_, words)| words.as_str()).collect();
        assert_eq!(words, ["0", "1", "2", "3", "4"]);
        assert!((ticks[4].0 - (178.0 - 162.0 * 4000.0 / 4300.0)).abs() < 1e-9);
    }

    #[test]
    fn a_graph_of_one_place_or_none_is_drawn_without_numbers_that_are_not() {
        for curve in [&[][..], &[(1.0, 0.0)][..]] {
            let html = drawn(&graph(curve), Units::default()).into_string();
            assert!(!html.contains("NaN") && !html.contains("inf"), "{html}");
        }
    }
}
