//! The forces that keep one body at rest, head to tail.

use super::{Point, Stage, WIDTH, ends, n, parts, words};
use crate::labels::Labels;
use maud::{Markup, html};
use rigging_core::quantity::{Kind, Toward, Units};
use rigging_core::question::scene::{Scene, size};

const HEIGHT: f64 = 210.0;
/// A polygon thinner than this is set apart, side beside side.
const THIN: f64 = 5.0;
const BESIDE: f64 = 14.0;

/// The forces that keep one body at rest, head to tail, to the scale of the picture.
pub fn drawn(scene: &Scene, stage: &Stage, units: Units) -> Markup {
    let mut corners = vec![(0.0, 0.0)];
    let mut at = (0.0, 0.0);
    for arrow in &scene.polygon {
        at = stage.tip(at, arrow.pull);
        corners.push(at);
    }
    let (x, y) = (ends(corners.iter().map(|point| point.0)), ends(corners.iter().map(|point| point.1)));
    // Forces along one line would lie on each other: set each beside the one before.
    let longest = scene
        .polygon
        .iter()
        .map(|arrow| arrow.pull)
        .fold([0.0, 0.0], |most, pull| if size(pull) > size(most) { pull } else { most });
    let [u, v] = longest.map(|part| part / size(longest).max(f64::MIN_POSITIVE));
    let square = |(x, y): &Point| x * v + y * u;
    let (least, most) = ends(corners.iter().map(square));
    let beside = if most - least < THIN { BESIDE } else { 0.0 };
    let shift = (WIDTH / 2.0 - (x.0 + x.1) / 2.0, HEIGHT / 2.0 - 12.0 - (y.0 + y.1) / 2.0);
    let place = |(x, y): Point, number: usize| {
        let aside = beside * number as f64;
        (x + shift.0 + aside * v.abs(), y + shift.1 + aside * u * v.signum())
    };
    let sides: Vec<_> = scene
        .polygon
        .iter()
        .zip(corners.iter().zip(corners.iter().skip(1)))
        .enumerate()
        .map(|(number, (arrow, (from, to)))| (arrow, place(*from, number), place(*to, number)))
        .collect();
    let mut labels = Labels::new(WIDTH, HEIGHT - 26.0, sides.iter().map(|(_, from, to)| (*from, *to)).collect());
    for (arrow, from, to) in &sides {
        labels.put(
            words::force(arrow, units),
            parts::class(arrow.role),
            ((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0),
        );
    }
    let (mark, newtons) = mark(stage.newton, units);
    html! {
        svg.polygon viewBox={ "0 0 " (n(WIDTH)) " " (n(HEIGHT)) } role="img" aria-label=(words::polygon(scene, units)) {
            @for (arrow, from, to) in &sides { (parts::force(*from, *to, arrow.role)) }
            @for label in labels.done() { (parts::text(&label)) }
            line.mark x1="12" y1=(n(HEIGHT - 10.0)) x2=(n(12.0 + mark)) y2=(n(HEIGHT - 10.0)) {}
            text.words x=(n(20.0 + mark)) y=(n(HEIGHT - 5.0)) {
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
