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
/// ```
/// use rigging_core::question::{Ask, PullDown};
///
/// // From the first metre of a rope that is pulled down to the last of 18 m; it is looked at where the pull begins.
/// let answer = PullDown::default().solve()?;
/// let graph = &answer.graphs[0];
/// let (first, last) = (graph.curve[0], graph.curve[graph.curve.len() - 1]);
/// assert_eq!((graph.across.name, first.across, last.across), ("rope pulled", 0.0, 18.0));
/// assert_eq!(graph.here, Some(first));
/// assert!((first.up.high() - answer.findings[0].adverse()).abs() < 1e-9);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
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
