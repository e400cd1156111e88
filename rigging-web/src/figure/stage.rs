//! From metres and newtons to the picture.

use super::{HEIGHT, Point, WIDTH, ends, knobs};
use rigging_core::question::scene::{Place, Pull, Scene, size};

/// What things and arrows may take of the picture; the rest is for words.
const ROOM: Point = (WIDTH - 110.0, HEIGHT - 60.0);
/// Length of the longest force.
const LONGEST: f64 = 105.0;
/// What the closed polygon of forces may take.
const POLYGON: Point = (WIDTH - 130.0, 130.0);
/// How much longer forces may get while a hand drags.
const GROWN: f64 = 1.5;

/// Where things stand in the picture. While a hand drags it is kept: a picture that made itself fit anew would
/// run away under the hand.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage {
    /// Length of a metre.
    pub metre: f64,
    /// Where the scene's origin is.
    origin: Point,
    /// Length of a newton.
    pub newton: f64,
    /// For each handle, how far its knob is from what it moves.
    pub knobs: Vec<Point>,
}

impl Stage {
    /// The largest scale at which things, arrows and some room for words stay in the picture.
    pub fn of(scene: &Scene) -> Stage {
        Stage::beside(scene, None)
    }

    /// The same, with room for the lines of another scene.
    pub fn beside(scene: &Scene, ghost: Option<&Scene>) -> Stage {
        let mut places: Vec<Place> = scene.anchors.clone();
        let faint = ghost.iter().flat_map(|ghost| &ghost.lines);
        places.extend(scene.lines.iter().chain(faint).flat_map(|line| [line.from, line.to]));
        places.extend(scene.people.iter().map(|person| person.at));
        places.extend(scene.traces.iter().flatten().chain(scene.water.iter().chain(&scene.flows).flatten()));
        places.extend(scene.lengths.iter().flat_map(|length| [length.from, length.to]));
        places.extend(scene.handles.iter().flat_map(|handle| [handle.at, handle.of]));
        let (x, y) = (ends(places.iter().map(|[x, _]| *x)), ends(places.iter().map(|[_, y]| *y)));
        let fit = (ROOM.0 / (x.1 - x.0).max(1e-6)).min(ROOM.1 / (y.1 - y.0).max(1e-6));
        let mut stage = Stage { metre: fit, origin: (0.0, 0.0), newton: longest_newton(scene, 1.0), knobs: Vec::new() };
        for _ in 0..12 {
            let points: Vec<Point> = places
                .iter()
                .map(|place| stage.at(*place))
                .chain(scene.forces.iter().map(|arrow| stage.tip(stage.at(arrow.at), arrow.pull)))
                .collect();
            let (x, y) = (ends(points.iter().map(|point| point.0)), ends(points.iter().map(|point| point.1)));
            stage.origin.0 += WIDTH / 2.0 - (x.0 + x.1) / 2.0;
            stage.origin.1 += HEIGHT / 2.0 - (y.0 + y.1) / 2.0;
            if x.1 - x.0 <= ROOM.0 && y.1 - y.0 <= ROOM.1 {
                break;
            }
            stage.metre *= 0.9;
        }
        stage.knobs = knobs::apart(scene, &stage);
        stage
    }

    /// The same for what has been moved: only forces that would get too long are drawn to another scale.
    pub fn kept_for(&self, scene: &Scene) -> Stage {
        Stage { newton: self.newton.min(longest_newton(scene, GROWN)), ..self.clone() }
    }

    /// A place in the picture.
    pub fn at(&self, [x, y]: Place) -> Point {
        (self.origin.0 + x * self.metre, self.origin.1 - y * self.metre)
    }

    /// The head of a force that acts at a point.
    pub fn tip(&self, (x, y): Point, [u, v]: Pull) -> Point {
        (x + u * self.newton, y - v * self.newton)
    }
}

/// The scale at which neither a force nor the polygon gets too long.
fn longest_newton(scene: &Scene, grown: f64) -> f64 {
    let largest = scene.forces.iter().chain(&scene.polygon).map(|arrow| size(arrow.pull)).fold(0.0, f64::max);
    let mut corners = vec![[0.0, 0.0]];
    let mut at = [0.0, 0.0];
    for arrow in &scene.polygon {
        at = [at[0] + arrow.pull[0], at[1] + arrow.pull[1]];
        corners.push(at);
    }
    let (x, y) = (ends(corners.iter().map(|[x, _]| *x)), ends(corners.iter().map(|[_, y]| *y)));
    (grown * LONGEST / largest.max(1e-9))
        .min(POLYGON.0 / (x.1 - x.0).max(1e-9))
        .min(grown * POLYGON.1 / (y.1 - y.0).max(1e-9))
}
