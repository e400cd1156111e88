//! What a rig is made of: points, held or free, and lines between them.

use super::Vector;

/// A place in the rig, held by an anchor or free to move.
/// ```
/// use rigging_core::statics::{Rig, Vector};
///
/// let mut rig = Rig::new();
/// rig.add_held("bolt", [0.0, 0.0, 2.0])?;
/// rig.add_free("load", [0.0, 0.0, 0.0], [0.0, 0.0, -900.0])?;
/// let [bolt, load] = rig.points() else { unreachable!() };
/// assert_eq!((bolt.name(), bolt.at(), bolt.is_held()), ("bolt", Vector::new(0.0, 0.0, 2.0), true));
/// assert_eq!((load.name(), load.load(), load.is_held()), ("load", Vector::new(0.0, 0.0, -900.0), false));
/// # Ok::<(), rigging_core::statics::RigError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    pub(super) name: String,
    pub(super) at: Vector,
    pub(super) load: Vector,
    pub(super) held: bool,
}

impl Point {
    /// What the point is called; unique among the points of a rig.
    /// ```
    /// use rigging_core::statics::Rig;
    ///
    /// let mut rig = Rig::new();
    /// rig.add_held("bolt", [0.0; 3])?;
    /// rig.add_free("ring", [0.0, 0.0, -1.0], [0.0; 3])?;
    /// let names: Vec<&str> = rig.points().iter().map(|point| point.name()).collect();
    /// assert_eq!(names, ["bolt", "ring"]);
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Where an anchor is, or the first guess for a free point (m).
    /// ```
    /// use rigging_core::statics::{Rig, Settings, solve};
    ///
    /// let mut rig = Rig::new();
    /// let bolt = rig.add_held("bolt", [0.0; 3])?;
    /// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -1000.0])?;
    /// rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
    /// // A guess stays what it was; the solution has the load, by hand, 10 · (1 + 1000/20 000) m below the bolt.
    /// let solution = solve(&rig, &Settings::default());
    /// let rest = solution.balanced().and_then(|rest| rest.point(load)).map(|load| load.at.z);
    /// assert!(rest.is_some_and(|z| (z + 10.5).abs() < 1e-6));
    /// assert_eq!(rig.points()[1].at().z, -9.0);
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn at(&self) -> Vector {
        self.at
    }

    /// The load on the point (N). One on an anchor goes into its reaction and nowhere else.
    /// ```
    /// use rigging_core::statics::{Rig, Vector};
    ///
    /// // All that hangs in a rig; an anchor is added without a load of its own.
    /// let mut rig = Rig::new();
    /// rig.add_held("bolt", [0.0; 3])?;
    /// rig.add_free("first", [0.0, 0.0, -1.0], [0.0, 0.0, -900.0])?;
    /// rig.add_free("second", [0.0, 0.0, -2.0], [50.0, 0.0, -700.0])?;
    /// let all: Vector = rig.points().iter().map(|point| point.load()).sum();
    /// assert_eq!(all, Vector::new(50.0, 0.0, -1600.0));
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn load(&self) -> Vector {
        self.load
    }

    /// Whether an anchor holds the point.
    /// ```
    /// use rigging_core::statics::Rig;
    ///
    /// let mut rig = Rig::new();
    /// rig.add_held("bolt", [0.0; 3])?;
    /// rig.add_free("ring", [0.0, 0.0, -1.0], [0.0; 3])?;
    /// // Only the bolt is in the rock.
    /// let anchors = rig.points().iter().filter(|point| point.is_held()).map(|point| point.name());
    /// assert_eq!(anchors.collect::<Vec<_>>(), ["bolt"]);
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn is_held(&self) -> bool {
        self.held
    }
}

/// A rope, sling or cord. It pulls and never pushes.
///
/// Its two ends are tied; through every point between them it runs freely.
/// ```
/// use rigging_core::statics::Rig;
///
/// let mut rig = Rig::new();
/// let (left, right) = (rig.add_held("left", [0.0, 0.0, 0.0])?, rig.add_held("right", [2.0, 0.0, 0.0])?);
/// let ring = rig.add_free("ring", [1.0, 0.0, -1.0], [0.0, 0.0, -900.0])?;
/// rig.add_line("sling", &[left, ring, right], 3.0, 40e3)?;
/// // What went in is told again; it is tied at both ends and runs through the ring.
/// let sling = &rig.lines()[0];
/// assert_eq!((sling.name(), sling.length(), sling.stiffness(), sling.weight()), ("sling", 3.0, 40e3, 0.0));
/// assert!(sling.through().eq([left, ring, right]));
/// # Ok::<(), rigging_core::statics::RigError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    pub(super) name: String,
    pub(super) through: Vec<usize>,
    pub(super) length: f64,
    pub(super) stiffness: f64,
    pub(super) weight: f64,
}

impl Line {
    /// What the line is called; unique among the lines of a rig.
    /// ```
    /// use rigging_core::statics::Rig;
    ///
    /// let mut rig = Rig::new();
    /// let (bolt, load) = (rig.add_held("bolt", [0.0; 3])?, rig.add_free("load", [0.0, 0.0, -9.0], [0.0; 3])?);
    /// rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
    /// rig.add_line("backup", &[bolt, load], 10.5, 20e3)?;
    /// let names: Vec<&str> = rig.lines().iter().map(|line| line.name()).collect();
    /// assert_eq!(names, ["rope", "backup"]);
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The points it runs through, first end first.
    /// ```
    /// use rigging_core::statics::Rig;
    ///
    /// let mut rig = Rig::new();
    /// let (left, right) = (rig.add_held("left", [0.0; 3])?, rig.add_held("right", [2.0, 0.0, 0.0])?);
    /// let ring = rig.add_free("ring", [1.0, 0.0, -1.0], [0.0, 0.0, -900.0])?;
    /// // Led from the right, it has its first end there; the ring is what it runs through.
    /// rig.add_line("sling", &[right, ring, left], 3.0, 40e3)?;
    /// let mut through = rig.lines()[0].through();
    /// assert_eq!((through.next(), through.next(), through.next()), (Some(right), Some(ring), Some(left)));
    /// assert_eq!(through.next(), None);
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn through(&self) -> impl Iterator<Item = PointId> + '_ {
        self.through.iter().map(|&index| PointId(index))
    }

    /// Unstretched length L0 (m), above 0.
    /// ```
    /// use rigging_core::statics::{Rig, Settings, solve};
    ///
    /// let mut rig = Rig::new();
    /// let bolt = rig.add_held("bolt", [0.0; 3])?;
    /// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -1000.0])?;
    /// let rope = rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
    /// // Half a metre of stretch, by hand 1000/20 000 of 10 m, is no part of it.
    /// let solution = solve(&rig, &Settings::default());
    /// let stretched = solution.balanced().and_then(|rest| rest.line(rope)).map(|rope| rope.length);
    /// assert!(stretched.is_some_and(|length| (length - rig.lines()[0].length() - 0.5).abs() < 1e-6));
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn length(&self) -> f64 {
        self.length
    }

    /// Stiffness EA (N), above 0: tension per unit of relative stretch.
    /// ```
    /// use rigging_core::statics::Rig;
    ///
    /// let mut rig = Rig::new();
    /// let (bolt, load) = (rig.add_held("bolt", [0.0; 3])?, rig.add_free("load", [0.0, 0.0, -9.0], [0.0; 3])?);
    /// rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
    /// // What stretches 10 m of it by 0.3 m, by hand: 20 000 · 0.3/10 = 600 N.
    /// let rope = &rig.lines()[0];
    /// assert!((rope.stiffness() * 0.3 / rope.length() - 600.0).abs() < 1e-9);
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn stiffness(&self) -> f64 {
        self.stiffness
    }

    /// Weight per unstretched metre (N/m), 0 or more.
    /// ```
    /// use rigging_core::statics::Rig;
    ///
    /// let mut rig = Rig::new();
    /// let (bolt, load) = (rig.add_held("bolt", [0.0; 3])?, rig.add_free("load", [0.0, 0.0, -50.0], [0.0; 3])?);
    /// rig.add_heavy_line("rope", &[bolt, load], 50.0, 20e3, 0.5)?;
    /// rig.add_line("cord", &[bolt, load], 50.0, 5e3)?;
    /// // 50 m of 0.5 N weigh 25 N; the cord was added as one without weight.
    /// let weights: Vec<f64> = rig.lines().iter().map(|line| line.weight() * line.length()).collect();
    /// assert_eq!(weights, [25.0, 0.0]);
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn weight(&self) -> f64 {
        self.weight
    }

    pub(super) fn stops(&self) -> &[usize] {
        &self.through
    }
}

/// Which point of a rig: handed out when the point is added. It is the place in the order in which points were added,
/// and does not know its rig: in another it is the point that was added there in that place.
/// ```
/// use rigging_core::statics::Rig;
///
/// let mut rig = Rig::new();
/// let (left, right) = (rig.add_held("left", [0.0, 0.0, 0.0])?, rig.add_held("right", [2.0, 0.0, 0.0])?);
/// // In the order in which they were added; by its name a point is found again.
/// assert!(left < right);
/// assert_eq!((rig.point_named("right"), rig.point_named("middle")), (Some(right), None));
/// # Ok::<(), rigging_core::statics::RigError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct PointId(pub(super) usize);

/// Which line of a rig: handed out when the line is added.
/// ```
/// use rigging_core::statics::Rig;
///
/// let mut rig = Rig::new();
/// let bolt = rig.add_held("bolt", [0.0; 3])?;
/// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
/// let rope = rig.add_line("rope", &[bolt, load], 10.0, 30e3)?;
/// assert_eq!((rig.line_named("rope"), rig.line_named("cord")), (Some(rope), None));
/// # Ok::<(), rigging_core::statics::RigError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct LineId(pub(super) usize);
