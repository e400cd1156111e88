//! What a picture shows: where things stand and how they pull, in metres and newtons.
//!
//! x runs to the right, y up. There are no pixels here; whoever draws chooses the scale.

use crate::statics::Vector;

/// A place, m.
/// ```
/// use rigging_core::quantity::{Length, metre};
/// use rigging_core::question::{Ask, RopeEnd, scene::Place};
///
/// // Seen from the lip, a station 4 m behind it.
/// let rope = RopeEnd { set_back: Length::new::<metre>(4.0), ..RopeEnd::default() };
/// let stations: Vec<Place> = rope.answer()?.scene.anchors;
/// assert_eq!(stations, [[-4.0, 0.0]]);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
pub type Place = [f64; 2];

/// A force, N.
/// ```
/// use rigging_core::question::scene::{Pull, from_plumb, size};
///
/// // 300 N to the right and 400 N down: 500 N, tan⁻¹ 3/4 to the right of plumb.
/// let pull: Pull = [300.0, -400.0];
/// assert_eq!((size(pull), from_plumb(pull)), (500.0, Some(0.75_f64.atan())));
/// ```
pub type Pull = [f64; 2];

/// One solved case, drawn to scale.
/// ```
/// use rigging_core::question::Question;
/// use rigging_core::question::scene::size;
///
/// let scene = Question::named("anchor legs")?.answer()?.scene;
/// // A leg from each of two anchors, and what ties in who hangs there. At rest the forces end where they began.
/// assert_eq!((scene.anchors.len(), scene.lines.len(), scene.people.len()), (2, 3, 1));
/// let sum = scene.polygon.iter().fold([0.0, 0.0], |[x, y], force| [x + force.pull[0], y + force.pull[1]]);
/// assert!(scene.polygon.iter().all(|force| size(sum) < 1e-6 * size(force.pull)));
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Default, PartialEq)]
#[non_exhaustive]
pub struct Scene {
    /// Which case is drawn, in words.
    pub case: String,
    /// Surfaces of rock or ground, each a run of places; the solid side lies to its right.
    pub rock: Vec<Vec<Place>>,
    /// Places of anchors on the rock.
    pub anchors: Vec<Place>,
    /// Ropes and slings.
    pub lines: Vec<Strand>,
    /// Where something goes or would go: runs of places, drawn dotted.
    pub traces: Vec<Vec<Place>>,
    /// Level surfaces of water, from their left to their right end.
    pub water: Vec<[Place; 2]>,
    /// Which way water flows: from here to there.
    pub flows: Vec<[Place; 2]>,
    /// People.
    pub people: Vec<Person>,
    /// Forces where they act.
    pub forces: Vec<Arrow>,
    /// Forces that keep one body at rest, head to tail: they end where they began.
    pub polygon: Vec<Arrow>,
    /// Named angles.
    pub angles: Vec<Arc>,
    /// Named lengths.
    pub lengths: Vec<Dimension>,
    /// What can be moved by hand.
    pub handles: Vec<Handle>,
}

/// Something that can be moved by hand: which fields follow it, and how.
/// ```
/// use rigging_core::question::scene::{Grip, Handle};
///
/// // A master point that is moved down and to the side.
/// let grips = [Grip::along("down_m", [0.0, -1.0]), Grip::along("out_m", [1.0, 0.0])];
/// let point = Handle::new([0.4, -0.6], "master point", grips);
/// assert!(point.moves("down_m") && point.moves("out_m") && !point.moves("apart_m"));
/// assert_eq!(point.of, point.at);
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Handle {
    /// Where it is taken hold of.
    pub at: Place,
    /// What is moved, where it is drawn: mostly the same place.
    pub of: Place,
    /// What is moved.
    pub name: &'static str,
    /// One for a movement along a line or round a point, two for a movement all over the picture.
    pub grips: Vec<Grip>,
}

impl Handle {
    /// A handle with the grips of it that there are.
    /// ```
    /// use rigging_core::question::scene::{Grip, Handle};
    ///
    /// // One of the two fields is not asked for here: it has no grip.
    /// let down = Grip::along("down_m", [0.0, -1.0]);
    /// let point = Handle::new([0.4, -0.6], "master point", [Some(down), None].into_iter().flatten());
    /// assert_eq!(point.grips, [down]);
    /// ```
    pub fn new(at: Place, name: &'static str, grips: impl IntoIterator<Item = Grip>) -> Self {
        Handle { at, of: at, name, grips: grips.into_iter().collect() }
    }

    /// Whether a field follows it.
    /// ```
    /// use rigging_core::question::scene::{Grip, Handle};
    ///
    /// let turn = Grip::Around { field: "turn_rad", centre: [0.0, 0.0], turn: 1.0 };
    /// let hand = Handle::new([1.0, 0.0], "hand", [turn]);
    /// assert!(hand.moves("turn_rad") && !hand.moves("down_m"));
    /// ```
    pub fn moves(&self, field: &str) -> bool {
        self.grips.iter().any(|grip| grip.field() == field)
    }
}

/// A field that follows a movement: the middle of it, if it is a range.
/// ```
/// use rigging_core::question::scene::Grip;
///
/// // A metre up takes a metre off how far it hangs down; to the side changes nothing.
/// let down = Grip::along("down_m", [0.0, -1.0]);
/// assert_eq!((down.field(), down.moved([3.0, 1.0], [5.0, 1.0])), ("down_m", -1.0));
/// // From right of a place to above it is a quarter turn.
/// let round = Grip::Around { field: "turn_rad", centre: [1.0, 1.0], turn: 1.0 };
/// assert!((round.moved([3.0, 1.0], [-2.0, 2.0]).to_degrees() - 90.0).abs() < 1e-9);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Grip {
    /// It grows by this much (SI) for each metre to the right and for each metre up.
    Along {
        /// Name of the field.
        field: &'static str,
        /// Growth for a metre.
        way: [f64; 2],
    },
    /// An angle that grows as the handle goes round a place.
    Around {
        /// Name of the field.
        field: &'static str,
        /// What it goes round.
        centre: Place,
        /// 1 if it grows anticlockwise, −1 if clockwise.
        turn: f64,
    },
}

impl Grip {
    /// A field that follows a movement along a line.
    /// ```
    /// use rigging_core::question::scene::Grip;
    ///
    /// // A middle that is moved by 1 m to the right widens the whole by 2 m.
    /// let wide = Grip::along("wide_m", [2.0, 0.0]);
    /// assert_eq!(wide.moved([0.0, 0.0], [1.0, 5.0]), 2.0);
    /// ```
    pub fn along(field: &'static str, way: [f64; 2]) -> Self {
        Grip::Along { field, way }
    }

    /// Name of the field that follows.
    /// ```
    /// use rigging_core::question::scene::Grip;
    ///
    /// let round = Grip::Around { field: "turn_rad", centre: [0.0, 0.0], turn: -1.0 };
    /// assert_eq!((round.field(), Grip::along("out_m", [1.0, 0.0]).field()), ("turn_rad", "out_m"));
    /// ```
    pub fn field(&self) -> &'static str {
        match self {
            Grip::Along { field, .. } | Grip::Around { field, .. } => field,
        }
    }

    /// How much the field grows (SI) for each metre to the right and for each metre up, from a place on.
    /// ```
    /// use rigging_core::question::scene::Grip;
    ///
    /// // 2 m right of its centre an angle grows by half a radian for each metre up, and not at all for one outward.
    /// let round = Grip::Around { field: "turn_rad", centre: [1.0, 1.0], turn: 1.0 };
    /// assert_eq!(round.growth([3.0, 1.0]), [0.0, 0.5]);
    /// ```
    pub fn growth(&self, [x, y]: Place) -> [f64; 2] {
        match *self {
            Grip::Along { way, .. } => way,
            Grip::Around { centre: [u, v], turn, .. } => {
                let round = ((x - u).powi(2) + (y - v).powi(2)).max(1e-9);
                [-turn * (y - v) / round, turn * (x - u) / round]
            }
        }
    }

    /// How much the field grows (SI) when its handle is moved from a place by some way, m.
    /// ```
    /// use rigging_core::question::scene::Grip;
    ///
    /// // Past the half turn it goes the short way round: from 170° on to 190° and not back to −170°.
    /// let round = Grip::Around { field: "turn_rad", centre: [0.0, 0.0], turn: 1.0 };
    /// let up = 10_f64.to_radians().sin();
    /// let moved = round.moved([-10_f64.to_radians().cos(), up], [0.0, -2.0 * up]);
    /// assert!((moved.to_degrees() - 20.0).abs() < 1e-9);
    /// ```
    pub fn moved(&self, [x, y]: Place, [right, up]: Place) -> f64 {
        match *self {
            Grip::Along { way: [u, v], .. } => u * right + v * up,
            Grip::Around { centre: [u, v], turn, .. } => {
                let (from, to) = ((y - v).atan2(x - u), (y + up - v).atan2(x + right - u));
                // The short way round.
                turn * (to - from).sin().atan2((to - from).cos())
            }
        }
    }
}

/// A straight piece of rope or sling.
/// ```
/// use rigging_core::question::{Ask, HumanAnchor};
///
/// // Of people who hold a rope the first is about to be dragged: what leads from them to the next hangs slack.
/// let [rope, between, ..] = HumanAnchor::default().answer()?.scene.lines[..] else { return Err("no ropes".into()) };
/// assert_eq!(rope.from, between.to);
/// assert!(rope.tension > 0.0 && between.tension == 0.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Strand {
    /// One end.
    pub from: Place,
    /// The other end.
    pub to: Place,
    /// Its tension, N; 0 if it hangs slack.
    pub tension: f64,
}

/// A person, where and how.
/// ```
/// use rigging_core::question::{Ask, HumanAnchor, scene::Pose};
///
/// // Two sit and hold whoever hangs.
/// let poses: Vec<_> = HumanAnchor::default().answer()?.scene.people.iter().map(|person| person.pose).collect();
/// assert_eq!(poses, [Pose::Seated, Pose::Seated, Pose::Hanging]);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pose {
    /// Hanging on a rope from the waist.
    Hanging,
    /// Seated on the ground, facing right, the feet against something if braced.
    Seated,
    /// Standing, facing right.
    Standing,
}

/// A person in the picture.
/// ```
/// use rigging_core::question::{Ask, Line, scene::size};
///
/// // Whoever hangs on a line is drawn a cow's tail of 0.6 m away from it.
/// let scene = Line::default().answer()?.scene;
/// let (person, tail) = (scene.people[0], scene.lines[0]);
/// assert_eq!(person.at, tail.to);
/// let [long, high] = [tail.from[0] - person.at[0], tail.from[1] - person.at[1]];
/// assert!((size([long, high]) - 0.6).abs() < 1e-9);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Person {
    /// Where the rope meets the person.
    pub at: Place,
    /// How the person holds or hangs.
    pub pose: Pose,
}

/// What a force does.
/// ```
/// use rigging_core::question::scene::{Arrow, Role};
/// use rigging_core::question::{Ask, HumanAnchor, Line};
///
/// // A line pulls at both of its anchors; people who hold a rope put a most on it.
/// let of = |forces: Vec<Arrow>| -> Vec<Role> { forces.iter().map(|force| force.role).collect() };
/// assert_eq!(of(Line::default().answer()?.scene.forces), [Role::Load, Role::OnAnchor, Role::OnAnchor]);
/// assert_eq!(of(HumanAnchor::default().answer()?.scene.forces).first(), Some(&Role::Held));
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// It loads the rig.
    Load,
    /// The rig puts it on an anchor.
    OnAnchor,
    /// The most that holds: rounded down like any strength.
    Held,
}

/// A force.
/// ```
/// use rigging_core::question::{Ask, RopeEnd};
///
/// // The lightest, 58 + 5 + 5 kg, pulls straight down where the rope ends.
/// let scene = RopeEnd::default().answer()?.scene;
/// let person = scene.forces.iter().find(|force| force.name == "person").ok_or("nobody")?;
/// assert_eq!(person.at, scene.people[0].at);
/// assert!(person.pull[0] == 0.0 && (person.pull[1] + 68.0 * 9.806_65).abs() < 1e-9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Arrow {
    /// Where it acts.
    pub at: Place,
    /// The force.
    pub pull: Pull,
    /// What it does.
    pub role: Role,
    /// Its name.
    pub name: &'static str,
}

/// A named angle at a place, from one direction to another (radians from the x axis).
/// ```
/// use rigging_core::question::Question;
///
/// // Two legs to bolts 1 m apart, √3/2 m above the point they meet in: 60° between them, and a little less once they
/// // stretch.
/// let question: Question = serde_json::from_str(
///     r#"{"question": "anchor legs", "apart_m": 1, "down_m": 0.8660254, "right_higher_m": 0, "length_scatter_m": 0,
///         "swing_left_rad": 0, "swing_right_rad": 0}"#,
/// )?;
/// let scene = question.answer()?.scene;
/// let included = scene.angles.iter().find(|arc| arc.name == "included angle").ok_or("no such angle")?;
/// let between = (included.to - included.from).to_degrees();
/// assert!(between < 60.0 && between > 59.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Arc {
    /// Its apex.
    pub at: Place,
    /// Direction where it begins.
    pub from: f64,
    /// Direction where it ends.
    pub to: f64,
    /// Its name.
    pub name: &'static str,
}

/// A named length between two places.
/// ```
/// use rigging_core::question::Question;
///
/// // The span that was asked for is drawn and named.
/// let line: Question = serde_json::from_str(r#"{"question": "line", "span_m": 12}"#)?;
/// let lengths = line.answer()?.scene.lengths;
/// let span = lengths.iter().find(|length| length.name == "span").ok_or("not drawn")?;
/// assert_eq!(span.to[0] - span.from[0], 12.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Dimension {
    /// One end.
    pub from: Place,
    /// The other end.
    pub to: Place,
    /// Its name.
    pub name: &'static str,
}

/// A place (m) or a force (N) of the engine seen from the front.
/// ```
/// use rigging_core::question::scene::front;
/// use rigging_core::statics::Vector;
///
/// // Right stays right, up stays up; what lies behind is not seen.
/// assert_eq!(front(&Vector::new(1.0, 2.0, 3.0)), [1.0, 3.0]);
/// ```
pub fn front(vector: &Vector) -> [f64; 2] {
    [vector.x, vector.z]
}

/// The same seen from the left side: what is in front of the rock lies to the right.
/// ```
/// use rigging_core::question::scene::side;
/// use rigging_core::statics::Vector;
///
/// // 2 m in front of the rock (y is into it) is 2 m to the right.
/// assert_eq!(side(&Vector::new(1.0, -2.0, 3.0)), [2.0, 3.0]);
/// ```
pub fn side(vector: &Vector) -> [f64; 2] {
    [-vector.y, vector.z]
}

/// Size of a force, N.
/// ```
/// use rigging_core::question::scene::size;
///
/// assert_eq!(size([3.0, -4.0]), 5.0);
/// ```
pub fn size(pull: Pull) -> f64 {
    let [x, y] = pull;
    x.hypot(y)
}

/// Angle of a force from plumb, to the right above 0 (radians); none for no force.
/// ```
/// use rigging_core::question::scene::from_plumb;
///
/// // Straight down, level to the right, and no force at all.
/// assert_eq!(from_plumb([0.0, -1.0]), Some(0.0));
/// assert_eq!(from_plumb([1.0, 0.0]), Some(std::f64::consts::FRAC_PI_2));
/// assert_eq!(from_plumb([0.0, 0.0]), None);
/// ```
pub fn from_plumb(pull: Pull) -> Option<f64> {
    let [x, y] = pull;
    (x != 0.0 || y != 0.0).then(|| x.atan2(-y))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::FRAC_PI_2;

    #[test]
    fn a_field_follows_a_movement_along_a_line_or_round_a_place() {
        let along = Grip::along("down_m", [0.0, -2.0]);
        assert_eq!(along.moved([3.0, 1.0], [5.0, -0.25]), 0.5);
        let around = Grip::Around { field: "turn_rad", centre: [1.0, 1.0], turn: -1.0 };
        // A quarter turn anticlockwise, from the right of the centre to above it.
        assert!((around.moved([3.0, 1.0], [-2.0, 2.0]) + FRAC_PI_2).abs() < 1e-12);
        // Past the half turn the short way round.
        let back = around.moved([-1.0, 1.1], [0.0, -0.2]);
        assert!(back < 0.0 && back > -0.2, "{back}");
        // A small movement grows it by its growth.
        let [_, up] = around.growth([3.0, 1.0]);
        assert!((around.moved([3.0, 1.0], [0.0, 1e-6]) / 1e-6 - up).abs() < 1e-6);
    }
}
