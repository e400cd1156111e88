//! How one quantity moves another: a curve with the present point on it.

use crate::band::Band;
use crate::quantity::Kind;

/// A quantity along one side of a graph.
/// ```
/// use rigging_core::quantity::{Kind, Toward, Units};
/// use rigging_core::question::{Ask, PullDown};
///
/// // The kind of a side says in which unit its values are shown: the last mark is that of all 18 m of the rope.
/// let answer = PullDown::default().answer()?;
/// let graph = answer.graphs.first().ok_or("no graph")?;
/// let last = graph.curve.last().ok_or("no curve")?;
/// assert_eq!(Units::default().show(last.across, graph.across.kind, Toward::Less), "18\u{a0}m");
/// assert_eq!((graph.up.name, graph.up.kind), ("pull", Kind::Force));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Axis {
    /// Its name.
    pub name: &'static str,
    /// What it measures.
    pub kind: Kind,
}

/// One place of a curve.
/// ```
/// use rigging_core::question::{Ask, PullDown, graph::Mark};
///
/// // The less rope is left to pull down, the less pull it takes, at the adverse end as at the other.
/// let answer = PullDown::default().answer()?;
/// let curve: &[Mark] = &answer.graphs.first().ok_or("no graph")?.curve;
/// assert!(curve.is_sorted_by(|one, next| one.across < next.across && one.up.high() >= next.up.high()));
/// assert!(curve.is_sorted_by(|one, next| one.up.low() >= next.up.low()));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
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
/// let answer = PullDown::default().answer()?;
/// let graph = &answer.graphs[0];
/// let (first, last) = (graph.curve[0], graph.curve[graph.curve.len() - 1]);
/// assert_eq!((graph.across.name, first.across, last.across), ("rope pulled", 0.0, 18.0));
/// assert_eq!(graph.here, Some(first));
/// assert!((first.up.high() - answer.findings[0].adverse()).abs() < 1e-9);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
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
