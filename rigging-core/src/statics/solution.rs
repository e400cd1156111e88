//! What the engine answers: a status, and numbers only where there is balance.

use super::Vector;
use super::rig_parts::{LineId, PointId};

/// How exact an answer must be and how long to look for it.
/// ```
/// use rigging_core::statics::{Rig, Settings, Status, solve};
///
/// // A point that is not where it rests takes steps: with none allowed there are no numbers.
/// let mut rig = Rig::new();
/// let bolt = rig.add_held("bolt", [0.0; 3])?;
/// let load = rig.add_free("load", [3.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
/// rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
/// let none = Settings { iterations: 0, ..Settings::default() };
/// assert_eq!(solve(&rig, &none).status, Status::NotConverged);
/// assert!(solve(&rig, &Settings::default()).balanced().is_some());
/// # Ok::<(), rigging_core::statics::RigError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settings {
    /// Largest force left over at any free point, as a share of the largest load or tension
    /// (no unit). Default 1e-9. More than 1e-3 is taken for 1e-3: what misses by more is no balance, whatever is asked for.
    /// Below 1e-11 a rig at rest may end as [`Status::NotConverged`]: a line that carries less
    /// than that share of it is taken for slack, and its pull is left over.
    pub balance: f64,
    /// Steps allowed in each stage of the search (a count). Default 400.
    pub iterations: usize,
    /// Work allowed in each of two searches, that for rings at their stops and the other: products of two 3 × 3 blocks,
    /// some ten nanoseconds each (a count). A net of a thousand points takes a tenth of the default, 1e8; a rig
    /// that would search on for minutes ends as [`Status::NotConverged`].
    pub work: u64,
}

impl Default for Settings {
    fn default() -> Self {
        Settings { balance: 1e-9, iterations: 400, work: 100_000_000 }
    }
}

/// The most that may be left over of a rig told as balanced, as a share.
const LOOSEST: f64 = 1e-3;

impl Settings {
    /// The same, with a balance that may be called one; what is no number stays so, and nothing balances.
    pub(super) fn honest(self) -> Settings {
        Settings { balance: self.balance.clamp(0.0, LOOSEST), ..self }
    }
}

/// The outcome of a solve.
/// ```
/// use rigging_core::statics::{Rig, Settings, solve};
///
/// let mut rig = Rig::new();
/// let bolt = rig.add_held("bolt", [0.0; 3])?;
/// let load = rig.add_free("load", [3.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
/// rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
/// let solution = solve(&rig, &Settings::default());
/// // At rest what is left over is no more than was asked for.
/// assert!(solution.balanced().is_some() && solution.imbalance <= Settings::default().balance);
/// # Ok::<(), rigging_core::statics::RigError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Solution {
    /// What came out.
    pub status: Status,
    /// Largest force left over at any free point divided by the largest load or tension, whichever
    /// is larger (no unit); 0 if there is neither, 1 if a load is held by nothing or a force is too large for a number.
    pub imbalance: f64,
    /// Steps taken, all stages together.
    pub iterations: usize,
}

/// Whether there is an answer.
/// ```
/// use rigging_core::statics::{Rig, Settings, Status, solve};
///
/// // No line leads from the load to an anchor: it is named.
/// let mut rig = Rig::new();
/// rig.add_held("bolt", [0.0; 3])?;
/// rig.add_free("load", [0.0, 0.0, -1.0], [0.0, 0.0, -900.0])?;
/// let solution = solve(&rig, &Settings::default());
/// assert_eq!(solution.status, Status::Unheld(vec!["load".to_owned()]));
/// assert!(solution.balanced().is_none());
/// # Ok::<(), rigging_core::statics::RigError>(())
/// ```
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
    /// ```
    /// use rigging_core::statics::{Rig, Settings, solve};
    ///
    /// // There are numbers only once a line leads from the load to the bolt.
    /// let mut rig = Rig::new();
    /// let bolt = rig.add_held("bolt", [0.0; 3])?;
    /// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
    /// assert!(solve(&rig, &Settings::default()).balanced().is_none());
    /// rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
    /// assert!(solve(&rig, &Settings::default()).balanced().is_some());
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn balanced(&self) -> Option<&Equilibrium> {
        match &self.status {
            Status::Balanced(equilibrium) => Some(equilibrium),
            Status::NotConverged | Status::Unheld(_) => None,
        }
    }
}

/// A rig at rest: points and lines in the order of the rig.
/// ```
/// use rigging_core::statics::{Rig, Settings, solve};
///
/// // Everything that hangs ends at the anchors: the reaction is the load.
/// let mut rig = Rig::new();
/// let bolt = rig.add_held("bolt", [0.0; 3])?;
/// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
/// let rope = rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
/// let solution = solve(&rig, &Settings::default());
/// let rest = solution.balanced().ok_or("no balance")?;
/// let on_bolt = rest.point(bolt).and_then(|bolt| bolt.reaction);
/// let in_rope = rest.line(rope).map(|rope| rope.tension());
/// assert!(on_bolt.is_some_and(|force| (force.z + 900.0).abs() < 1e-6));
/// assert!(in_rope.is_some_and(|tension| (tension - 900.0).abs() < 1e-6));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
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
    /// Whether every number that it tells is one.
    pub(super) fn is_finite(&self) -> bool {
        let line = |line: &LineAtRest| {
            [line.tension_first, line.tension_last, line.length, line.tension_bound]
                .iter()
                .all(|number| number.is_finite())
        };
        let point = |point: &PointAtRest| {
            point.at.iter().chain(point.reaction.iter().flatten()).all(|number| number.is_finite())
        };
        self.energy_bound.is_finite() && self.lines.iter().all(line) && self.points.iter().all(point)
    }

    /// A point of the rig that was solved.
    /// ```
    /// use rigging_core::statics::{Rig, Settings, solve};
    ///
    /// let mut rig = Rig::new();
    /// let bolt = rig.add_held("bolt", [0.0; 3])?;
    /// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -1000.0])?;
    /// rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
    /// let solution = solve(&rig, &Settings::default());
    /// let rest = solution.balanced().ok_or("no balance")?;
    /// // By hand: 10 · (1 + 1000/20 000) m below the bolt.
    /// assert!(rest.point(load).is_some_and(|load| (load.at.z + 10.5).abs() < 1e-6));
    /// // A point added later was not solved.
    /// let later = rig.add_held("later", [1.0, 0.0, 0.0])?;
    /// assert_eq!(rest.point(later), None);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn point(&self, id: PointId) -> Option<&PointAtRest> {
        self.points.get(id.0)
    }

    /// A line of the rig that was solved.
    /// ```
    /// use rigging_core::statics::{Rig, Settings, solve};
    ///
    /// // Legs of 3 and 4 m from bolts 5 m apart stand at a right angle. By hand: 4/5 of 1000 N in the short one,
    /// // 3/5 in the long one.
    /// let mut rig = Rig::new();
    /// let (left, right) = (rig.add_held("left", [0.0; 3])?, rig.add_held("right", [5.0, 0.0, 0.0])?);
    /// let ring = rig.add_free("ring", [2.0, 0.0, -2.0], [0.0, 0.0, -1000.0])?;
    /// let short = rig.add_line("short", &[left, ring], 3.0, 1e9)?;
    /// let long = rig.add_line("long", &[right, ring], 4.0, 1e9)?;
    /// let solution = solve(&rig, &Settings::default());
    /// let tension = |leg| solution.balanced().and_then(|rest| rest.line(leg)).map(|leg| leg.tension());
    /// assert!(tension(short).is_some_and(|newton| (newton - 800.0).abs() < 0.01));
    /// assert!(tension(long).is_some_and(|newton| (newton - 600.0).abs() < 0.01));
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn line(&self, id: LineId) -> Option<&LineAtRest> {
        self.lines.get(id.0)
    }
}

/// A point at rest.
/// ```
/// use rigging_core::statics::{Rig, Settings, solve};
///
/// // 10 m of rope between bolts 8 m apart, a ring on it: it rests in the middle, 3 m below (3, 4, 5), a little lower
/// // for the stretch. It is a free point, so no anchor holds it.
/// let mut rig = Rig::new();
/// let (left, right) = (rig.add_held("left", [0.0; 3])?, rig.add_held("right", [8.0, 0.0, 0.0])?);
/// let ring = rig.add_free("ring", [1.0, 0.0, -1.0], [0.0, 0.0, -600.0])?;
/// rig.add_line("rope", &[left, ring, right], 10.0, 1e9)?;
/// let solution = solve(&rig, &Settings::default());
/// let ring = solution.balanced().and_then(|rest| rest.point(ring)).ok_or("no balance")?;
/// assert!((ring.at.x - 4.0).abs() < 1e-4 && (ring.at.z + 3.0).abs() < 1e-4);
/// assert!(ring.reaction.is_none() && ring.determined);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct PointAtRest {
    /// Where it is (m).
    pub at: Vector,
    /// Force on the anchor (N): of the rig, and of a load put on the anchor itself; none for a free point.
    pub reaction: Option<Vector>,
    /// Whether this is the only place it can be.
    pub determined: bool,
}

/// A line at rest.
/// ```
/// use rigging_core::statics::{Rig, Settings, solve};
///
/// // The longer of two ropes to one load hangs slack and carries nothing.
/// let mut rig = Rig::new();
/// let bolt = rig.add_held("bolt", [0.0; 3])?;
/// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
/// let short = rig.add_line("short", &[bolt, load], 10.0, 30e3)?;
/// let long = rig.add_line("long", &[bolt, load], 12.0, 30e3)?;
/// let solution = solve(&rig, &Settings::default());
/// let rest = solution.balanced().ok_or("no balance")?;
/// assert!(rest.line(long).is_some_and(|line| line.slack && line.tension() == 0.0));
/// // 900/30 000 of 10 m is the stretch of the other.
/// assert!(rest.line(short).is_some_and(|line| !line.slack && (line.length - 10.3).abs() < 1e-6));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
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
    /// ```
    /// use rigging_core::statics::{Rig, Settings, solve};
    ///
    /// // 50 m of rope of 0.5 N a metre, 100 N at its lower end: 125 N at the bolt, whichever end is its first.
    /// for bolt_first in [true, false] {
    ///     let mut rig = Rig::new();
    ///     let bolt = rig.add_held("bolt", [0.0; 3])?;
    ///     let end = rig.add_free("end", [0.0, 0.0, -50.0], [0.0, 0.0, -100.0])?;
    ///     let through = if bolt_first { [bolt, end] } else { [end, bolt] };
    ///     let rope = rig.add_heavy_line("rope", &through, 50.0, 20e3, 0.5)?;
    ///     let solution = solve(&rig, &Settings::default());
    ///     let tension = solution.balanced().and_then(|rest| rest.line(rope)).map(|rope| rope.tension());
    ///     assert!(tension.is_some_and(|newton| (newton - 125.0).abs() < 1e-6));
    /// }
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn tension(&self) -> f64 {
        self.tension_first.max(self.tension_last)
    }
}
