//! What a picture shows: where things stand and how they pull, in metres and newtons.
//!
//! x runs to the right, y up. There are no pixels here; whoever draws chooses the scale.

use crate::statics::Vector;

/// A place, m.
pub type Place = [f64; 2];

/// A force, N.
pub type Pull = [f64; 2];

/// One solved case, drawn to scale.
#[derive(Debug, Clone, Default, PartialEq)]
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
}

/// A straight piece of rope or sling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strand {
    /// One end.
    pub from: Place,
    /// The other end.
    pub to: Place,
    /// Its tension, N; 0 if it hangs slack.
    pub tension: f64,
}

/// A person, where and how.
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
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Person {
    /// Where the rope meets the person.
    pub at: Place,
    /// How the person holds or hangs.
    pub pose: Pose,
}

/// What a force does.
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
#[derive(Debug, Clone, PartialEq)]
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
#[derive(Debug, Clone, Copy, PartialEq)]
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
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dimension {
    /// One end.
    pub from: Place,
    /// The other end.
    pub to: Place,
    /// Its name.
    pub name: &'static str,
}

/// A place (m) or a force (N) of the engine seen from the front.
pub fn front(vector: &Vector) -> [f64; 2] {
    [vector.x, vector.z]
}

/// The same seen from the left side: what is in front of the rock lies to the right.
pub fn side(vector: &Vector) -> [f64; 2] {
    [-vector.y, vector.z]
}

/// Size of a force, N.
pub fn size(pull: Pull) -> f64 {
    let [x, y] = pull;
    x.hypot(y)
}

/// Angle of a force from plumb, to the right above 0 (radians); none for no force.
pub fn from_plumb(pull: Pull) -> Option<f64> {
    let [x, y] = pull;
    (x != 0.0 || y != 0.0).then(|| x.atan2(-y))
}
