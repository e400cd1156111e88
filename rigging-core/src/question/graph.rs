//! How one quantity moves another: a curve with the present point on it.

use crate::band::Band;
use crate::quantity::Kind;

/// A quantity along one side of a graph.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Axis {
    /// Its name.
    pub name: &'static str,
    /// What it measures.
    pub kind: Kind,
}

/// One place of a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// The value it is looked at, SI.
    pub across: f64,
    /// The range of what is found there, SI; its high end hurts.
    pub up: Band,
}

/// A curve: what is found at each value of one input, the others being what they are.
#[derive(Debug, Clone, PartialEq)]
pub struct Graph {
    /// What it shows.
    pub title: String,
    /// The input that is moved.
    pub across: Axis,
    /// What is found.
    pub up: Axis,
    /// The curve, from the least value of the input to the most.
    pub curve: Vec<Mark>,
    /// The present point.
    pub here: Option<Mark>,
}
