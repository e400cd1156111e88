//! What a rig cannot be, in data and in words.

use std::fmt;

/// Whose number is wrong.
/// ```
/// use rigging_core::statics::Owner;
///
/// assert_eq!(Owner::Point("left bolt".to_owned()).to_string(), "point \"left bolt\"");
/// assert_eq!(Owner::Line("left leg".to_owned()).to_string(), "line \"left leg\"");
/// ```
#[derive(Clone, Debug, PartialEq)]
pub enum Owner {
    /// The point of this name.
    Point(String),
    /// The line of this name.
    Line(String),
}

impl fmt::Display for Owner {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Owner::Point(name) => write!(out, "point {name:?}"),
            Owner::Line(name) => write!(out, "line {name:?}"),
        }
    }
}

/// A rig that cannot be: which part, which value, which rule.
/// ```
/// use rigging_core::statics::{Rig, RigError};
///
/// let mut rig = Rig::new();
/// let bolt = rig.add_held("bolt", [0.0; 3])?;
/// let load = rig.add_free("load", [0.0, 0.0, -1.0], [0.0; 3])?;
/// // The part, the value, the rule.
/// let refused = rig.add_line("leg", &[bolt, load], -1.0, 30e3).unwrap_err();
/// assert_eq!(refused, RigError::NotPositive { line: "leg".to_owned(), field: "length_m", value: -1.0 });
/// assert_eq!(refused.to_string(), "line \"leg\": \"length_m\" is -1; it must be above 0");
/// # Ok::<(), rigging_core::statics::RigError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum RigError {
    /// There is not a single point.
    Empty,
    /// The point has no name; `number` counts from 1.
    PointWithoutName {
        /// Its place in the list, from 1.
        number: usize,
    },
    /// Two points have one name.
    PointRepeated {
        /// The name.
        point: String,
    },
    /// The line has no name; `number` counts from 1.
    LineWithoutName {
        /// Its place in the list, from 1.
        number: usize,
    },
    /// Two lines have one name.
    LineRepeated {
        /// The name.
        line: String,
    },
    /// A line runs through a point the rig does not have.
    UnknownPoint {
        /// The line.
        line: String,
        /// What it asks for.
        point: String,
    },
    /// A line needs two ends.
    TooFewPoints {
        /// The line.
        line: String,
        /// How many points it names.
        count: usize,
    },
    /// A line runs through more points than any rope does.
    TooManyPoints {
        /// The line.
        line: String,
        /// How many points it names.
        count: usize,
        /// How many it may.
        most: usize,
    },
    /// All lines through more than two points together couple more pairs of points than can be brought to rest.
    TooManyCouplings {
        /// The line that is one too many.
        line: String,
        /// How many pairs there may be.
        most: usize,
    },
    /// What is to be changed is no point and no line of this rig, but of another.
    OfAnotherRig,
    /// A number is infinite or not a number.
    NotFinite {
        /// Whose.
        owner: Owner,
        /// Which, as the rig file calls it.
        field: &'static str,
        /// The value.
        value: f64,
    },
    /// A load hangs beyond an end of its line.
    LoadOffLine {
        /// Where, from the first end (m).
        along: f64,
        /// How long the line is (m).
        length: f64,
    },
    /// A length (m) or a stiffness (N) is 0 or less.
    NotPositive {
        /// The line.
        line: String,
        /// Which, as the rig file calls it.
        field: &'static str,
        /// The value.
        value: f64,
    },
    /// A weight (N/m) is below 0 or not finite.
    WeightNegative {
        /// The line.
        line: String,
        /// The value.
        value: f64,
    },
    /// A line with weight runs through more than two points.
    WeightThroughPoints {
        /// The line.
        line: String,
        /// How many points it names.
        count: usize,
    },
}

impl fmt::Display for RigError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            RigError::Empty => write!(out, "the rig has no points: it needs at least one"),
            RigError::PointWithoutName { number } => {
                write!(out, "point number {number}: \"name\" is empty; every point needs a name")
            }
            RigError::PointRepeated { point } => {
                write!(out, "point {point:?}: this name is repeated; give every point its own")
            }
            RigError::LineWithoutName { number } => {
                write!(out, "line number {number}: \"name\" is empty; every line needs a name")
            }
            RigError::LineRepeated { line } => {
                write!(out, "line {line:?}: this name is repeated; give every line its own")
            }
            RigError::UnknownPoint { line, point } => write!(
                out,
                "line {line:?}: runs through {point:?}, which is no point of the rig; add the point or correct the name"
            ),
            RigError::TooFewPoints { line, count } => {
                write!(out, "line {line:?}: runs through {count} points; a line needs at least two")
            }
            RigError::TooManyPoints { line, count, most } => {
                write!(out, "line {line:?}: runs through {count} points; at most {most} are taken: divide it")
            }
            RigError::TooManyCouplings { line, most } => {
                write!(
                    out,
                    "line {line:?}: with it lines couple more than {most} pairs of points: lead it through fewer"
                )
            }
            RigError::OfAnotherRig => {
                write!(out, "this rig has no such point or line")
            }
            RigError::NotFinite { owner, field, value } => {
                write!(out, "{owner}: \"{field}\" is {value}; it must be a finite number")
            }
            RigError::NotPositive { line, field, value } => {
                write!(out, "line {line:?}: \"{field}\" is {value}; it must be above 0")
            }
            RigError::LoadOffLine { along, length } => {
                write!(out, "load at {along} m: it must be from 0 to the length of the line, {length}")
            }
            RigError::WeightNegative { line, value } => {
                write!(out, "line {line:?}: \"weight_n_per_m\" is {value}; it must be a finite number, 0 or more")
            }
            RigError::WeightThroughPoints { line, count } => write!(
                out,
                "line {line:?}: has weight and runs through {count} points; a line with weight runs between exactly two: divide it, or put the weight on the points"
            ),
        }
    }
}

impl std::error::Error for RigError {}
