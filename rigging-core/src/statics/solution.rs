//! What the engine answers: a status, and numbers only where there is balance.

use super::Vector;
use super::rig::{LineId, PointId};

/// How exact an answer must be and how long to look for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settings {
    /// Largest force left over at any free point, as a share of the largest load or tension
    /// (no unit). Default 1e-9.
    pub balance: f64,
    /// Steps allowed in each stage of the search (a count). Default 400.
    pub iterations: usize,
}

impl Default for Settings {
    fn default() -> Self {
        Settings { balance: 1e-9, iterations: 400 }
    }
}

/// The outcome of a solve.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Solution {
    /// What came out.
    pub status: Status,
    /// Largest force left over at any free point divided by the largest load or tension, whichever
    /// is larger (no unit); 0 if there is neither.
    pub imbalance: f64,
    /// Steps taken, all stages together.
    pub iterations: usize,
}

/// Whether there is an answer.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Status {
    /// The rig is at rest; here is how.
    Balanced(Equilibrium),
    /// The search ended before the forces balanced: there are no numbers to show.
    NotConverged,
    /// These points bear load, and no line leads from them to an anchor.
    Unheld(Vec<String>),
}

impl Solution {
    /// The rig at rest, if it was found.
    pub fn balanced(&self) -> Option<&Equilibrium> {
        match &self.status {
            Status::Balanced(equilibrium) => Some(equilibrium),
            Status::NotConverged | Status::Unheld(_) => None,
        }
    }
}

/// A rig at rest: points and lines in the order of the rig.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Equilibrium {
    /// Every point.
    pub points: Vec<PointAtRest>,
    /// Every line.
    pub lines: Vec<LineAtRest>,
    /// Bound `E` (J) on `Σ (T − T*)²/k` over all lines, `T*` the true tension and `k = EA/L0`:
    /// so no tension is farther from the truth than `√(k E)`.
    pub energy_bound: f64,
}

impl Equilibrium {
    /// A point of the rig that was solved.
    pub fn point(&self, id: PointId) -> Option<&PointAtRest> {
        self.points.get(id.0)
    }

    /// A line of the rig that was solved.
    pub fn line(&self, id: LineId) -> Option<&LineAtRest> {
        self.lines.get(id.0)
    }
}

/// A point at rest.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct PointAtRest {
    /// Where it is (m).
    pub at: Vector,
    /// Force of the rig on the anchor (N); none for a free point.
    pub reaction: Option<Vector>,
    /// Whether this is the only place it can be.
    pub determined: bool,
}

/// A line at rest.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct LineAtRest {
    /// Tension at its first point (N).
    pub tension_first: f64,
    /// Tension at its last point (N): the same unless the line has weight.
    pub tension_last: f64,
    /// Stretched length (m), or the length of its path if slack.
    pub length: f64,
    /// Whether it carries nothing; never so for a line with weight.
    pub slack: bool,
    /// Bound on the error of its tension (N), rounding of its length apart.
    pub tension_bound: f64,
    /// Rings that have run to the end of their part of the line.
    pub end_stops: Vec<PointId>,
}

impl LineAtRest {
    /// The larger of the tensions at its ends (N).
    pub fn tension(&self) -> f64 {
        self.tension_first.max(self.tension_last)
    }
}
