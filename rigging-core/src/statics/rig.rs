//! What a rig is: its parts, added and changed with every number checked.

use super::rig_error::{Owner, RigError};
use super::rig_parts::{Line, LineId, Point, PointId};
use super::{Equilibrium, Vector};

/// Points one line may run through. Each pair of them is a coupling, so the work grows with the
/// square; no rope is led through more.
const MOST_POINTS: usize = 256;

/// Couplings of all lines through more than two points together: six such lines. To put more in order takes minutes.
const MOST_COUPLINGS: usize = 200_000;

/// A rig whose every number has been checked.
/// ```
/// use rigging_core::statics::{Rig, Settings, solve};
///
/// // 1000 N on 10 m of rope, EA 20 kN: by hand it is longer by 1000/20 000 of itself, half a metre.
/// let mut rig = Rig::new();
/// let bolt = rig.add_held("bolt", [0.0, 0.0, 0.0])?;
/// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -1000.0])?;
/// rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
/// let solution = solve(&rig, &Settings::default());
/// let place = solution.balanced().and_then(|rest| rest.point(load)).map(|load| load.at);
/// assert!(place.is_some_and(|at| (at.z + 10.5).abs() < 1e-6));
/// # Ok::<(), rigging_core::statics::RigError>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rig {
    points: Vec<Point>,
    lines: Vec<Line>,
    /// The points in the order of their names, as places in `points`; so the lines.
    points_by_name: Vec<usize>,
    lines_by_name: Vec<usize>,
    couplings: usize,
}

impl Rig {
    /// A rig with nothing in it yet.
    /// ```
    /// use rigging_core::statics::{Rig, Settings, solve};
    ///
    /// // Where nothing is, nothing is out of balance.
    /// let rig = Rig::new();
    /// assert!(rig.points().is_empty() && rig.lines().is_empty());
    /// let solution = solve(&rig, &Settings::default());
    /// assert!(solution.balanced().is_some_and(|rest| rest.points.is_empty() && rest.lines.is_empty()));
    /// ```
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds an anchor at a place (m).
    ///
    /// # Errors
    /// [`RigError`] if the name is empty or taken, or a coordinate is not finite.
    /// ```
    /// use rigging_core::statics::{Rig, RigError};
    ///
    /// let mut rig = Rig::new();
    /// let bolt = rig.add_held("bolt", [0.0, 0.0, 2.0])?;
    /// assert_eq!(rig.point_named("bolt"), Some(bolt));
    /// // A name is given once.
    /// assert_eq!(rig.add_held("bolt", [1.0, 0.0, 2.0]), Err(RigError::PointRepeated { point: "bolt".to_owned() }));
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn add_held(&mut self, name: impl Into<String>, at: impl Into<Vector>) -> Result<PointId, RigError> {
        self.add_point(name.into(), at.into(), Vector::zeros(), true)
    }

    /// Adds a free point: a first guess of its place (m) and the load on it (N).
    ///
    /// # Errors
    /// [`RigError`] if the name is empty or taken, or a number is not finite.
    /// ```
    /// use rigging_core::statics::{Rig, RigError};
    ///
    /// let mut rig = Rig::new();
    /// rig.add_free("load", [0.0, 0.0, -1.0], [0.0, 0.0, -900.0])?;
    /// assert_eq!(rig.points()[0].load().z, -900.0);
    /// // Every number must be one.
    /// let wrong = rig.add_free("other", [0.0, 0.0, f64::NAN], [0.0; 3]);
    /// assert!(matches!(wrong, Err(RigError::NotFinite { field: "at_m", .. })));
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn add_free(
        &mut self,
        name: impl Into<String>,
        first_guess: impl Into<Vector>,
        load: impl Into<Vector>,
    ) -> Result<PointId, RigError> {
        self.add_point(name.into(), first_guess.into(), load.into(), false)
    }

    pub(super) fn add_point(
        &mut self,
        name: String,
        at: Vector,
        load: Vector,
        held: bool,
    ) -> Result<PointId, RigError> {
        if name.is_empty() {
            let number = self.points.len() + 1;
            return Err(RigError::PointWithoutName { number });
        }
        let Err(among) = self.among_points(&name) else {
            return Err(RigError::PointRepeated { point: name });
        };
        finite(|| Owner::Point(name.clone()), "at_m", at)?;
        finite(|| Owner::Point(name.clone()), "load_n", load)?;
        let index = self.points.len();
        self.points_by_name.insert(among, index);
        self.points.push(Point { name, at, load, held });
        Ok(PointId(index))
    }

    /// Adds a line without weight: the points it runs through, its unstretched length (m) and
    /// its stiffness EA (N).
    ///
    /// # Errors
    /// [`RigError`] if the name is empty or taken, there are fewer than two points or more than 256, all lines
    /// through more than two couple more than 200 000 pairs of points, there is no point with such a number in this rig,
    /// or a number is outside its domain. A [`PointId`] is a number in the order of adding: one from another rig that is
    /// low enough is taken for the point of this number here.
    /// ```
    /// use rigging_core::statics::{Rig, RigError};
    ///
    /// let mut rig = Rig::new();
    /// let bolt = rig.add_held("bolt", [0.0; 3])?;
    /// // A line has two ends, and a length.
    /// assert!(matches!(rig.add_line("rope", &[bolt], 10.0, 20e3), Err(RigError::TooFewPoints { count: 1, .. })));
    /// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
    /// let wrong = rig.add_line("rope", &[bolt, load], 0.0, 20e3);
    /// assert!(matches!(wrong, Err(RigError::NotPositive { field: "length_m", .. })));
    /// // What was refused is not there: the name is free.
    /// rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
    /// assert_eq!(rig.lines().len(), 1);
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn add_line(
        &mut self,
        name: impl Into<String>,
        through: &[PointId],
        length: f64,
        stiffness: f64,
    ) -> Result<LineId, RigError> {
        self.add_heavy_line(name, through, length, stiffness, 0.0)
    }

    /// Adds a line that also weighs `weight` per unstretched metre (N/m).
    ///
    /// # Errors
    /// As [`Rig::add_line`]; also if the weight is negative, or is not 0 on a line through more
    /// than two points: the energy of such a line is not convex.
    /// ```
    /// use rigging_core::statics::{Rig, Settings, solve};
    ///
    /// // 50 m of rope of 0.5 N a metre below a bolt, 100 N at its end: by hand 100 N below and 125 N above.
    /// let mut rig = Rig::new();
    /// let bolt = rig.add_held("bolt", [0.0, 0.0, 0.0])?;
    /// let end = rig.add_free("end", [0.0, 0.0, -50.0], [0.0, 0.0, -100.0])?;
    /// let rope = rig.add_heavy_line("rope", &[bolt, end], 50.0, 20e3, 0.5)?;
    /// let solution = solve(&rig, &Settings::default());
    /// let rope = solution.balanced().and_then(|rest| rest.line(rope));
    /// assert!(rope.is_some_and(|rope| (rope.tension_first - 125.0).abs() < 1e-6));
    /// assert!(rope.is_some_and(|rope| (rope.tension_last - 100.0).abs() < 1e-6));
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn add_heavy_line(
        &mut self,
        name: impl Into<String>,
        through: &[PointId],
        length: f64,
        stiffness: f64,
        weight: f64,
    ) -> Result<LineId, RigError> {
        let name = name.into();
        if name.is_empty() {
            let number = self.lines.len() + 1;
            return Err(RigError::LineWithoutName { number });
        }
        let Err(among) = self.among_lines(&name) else {
            return Err(RigError::LineRepeated { line: name });
        };
        if through.len() < 2 {
            return Err(RigError::TooFewPoints { line: name, count: through.len() });
        }
        if through.len() > MOST_POINTS {
            return Err(RigError::TooManyPoints { line: name, count: through.len(), most: MOST_POINTS });
        }
        if let Some(stranger) = through.iter().find(|id| id.0 >= self.points.len()) {
            return Err(RigError::UnknownPoint { line: name, point: format!("number {}", stranger.0 + 1) });
        }
        positive(&name, "length_m", length)?;
        positive(&name, "stiffness_n", stiffness)?;
        if !weight.is_finite() || weight < 0.0 {
            return Err(RigError::WeightNegative { line: name, value: weight });
        }
        if weight > 0.0 && through.len() > 2 {
            return Err(RigError::WeightThroughPoints { line: name, count: through.len() });
        }
        let couplings = if through.len() > 2 { through.len() * (through.len() - 1) / 2 } else { 0 };
        if self.couplings + couplings > MOST_COUPLINGS {
            return Err(RigError::TooManyCouplings { line: name, most: MOST_COUPLINGS });
        }
        self.couplings += couplings;
        let index = self.lines.len();
        self.lines_by_name.insert(among, index);
        self.lines.push(Line { name, through: through.iter().map(|id| id.0).collect(), length, stiffness, weight });
        Ok(LineId(index))
    }

    /// Changes the load on a point (N). On an anchor it goes into its reaction and nowhere else.
    ///
    /// # Errors
    /// [`RigError::NotFinite`], or [`RigError::OfAnotherRig`] if this rig has no such point.
    /// ```
    /// use rigging_core::statics::{Rig, Settings, solve};
    ///
    /// let mut rig = Rig::new();
    /// let bolt = rig.add_held("bolt", [0.0; 3])?;
    /// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
    /// let rope = rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
    /// // Plumb below its anchor a rope carries what hangs on it.
    /// rig.set_load(load, [0.0, 0.0, -700.0])?;
    /// let solution = solve(&rig, &Settings::default());
    /// let rope = solution.balanced().and_then(|rest| rest.line(rope));
    /// assert!(rope.is_some_and(|rope| (rope.tension() - 700.0).abs() < 1e-6));
    /// // 50 N on the bolt itself are borne by it, and by no rope.
    /// rig.set_load(bolt, [0.0, 0.0, -50.0])?;
    /// let solution = solve(&rig, &Settings::default());
    /// let reaction = solution.balanced().and_then(|rest| rest.point(bolt)).and_then(|bolt| bolt.reaction);
    /// assert!(reaction.is_some_and(|force| (force.z + 750.0).abs() < 1e-6));
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn set_load(&mut self, point: PointId, load: impl Into<Vector>) -> Result<(), RigError> {
        let load = load.into();
        let point = self.points.get_mut(point.0).ok_or(RigError::OfAnotherRig)?;
        finite(|| Owner::Point(point.name.clone()), "load_n", load)?;
        point.load = load;
        Ok(())
    }

    /// Moves an anchor, or the first guess of a free point (m).
    ///
    /// # Errors
    /// [`RigError::NotFinite`], or [`RigError::OfAnotherRig`] if this rig has no such point.
    /// ```
    /// use rigging_core::statics::{Rig, Settings, solve};
    ///
    /// let mut rig = Rig::new();
    /// let bolt = rig.add_held("bolt", [0.0; 3])?;
    /// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
    /// rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
    /// // The load comes to rest plumb below, wherever the bolt is put.
    /// rig.set_at(bolt, [3.0, 1.0, 0.0])?;
    /// let solution = solve(&rig, &Settings::default());
    /// let place = solution.balanced().and_then(|rest| rest.point(load)).map(|load| load.at);
    /// assert!(place.is_some_and(|at| (at.x - 3.0).abs() < 1e-6 && (at.y - 1.0).abs() < 1e-6));
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn set_at(&mut self, point: PointId, at: impl Into<Vector>) -> Result<(), RigError> {
        let at = at.into();
        let point = self.points.get_mut(point.0).ok_or(RigError::OfAnotherRig)?;
        finite(|| Owner::Point(point.name.clone()), "at_m", at)?;
        point.at = at;
        Ok(())
    }

    /// Takes the places of a rig at rest for first guesses: where numbers change little from solve to
    /// solve, each then takes a fraction of the steps.
    /// ```
    /// use rigging_core::statics::{Rig, Settings, solve};
    ///
    /// let mut rig = Rig::new();
    /// let bolt = rig.add_held("bolt", [0.0; 3])?;
    /// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
    /// rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
    /// let solution = solve(&rig, &Settings::default());
    /// let rest = solution.balanced().ok_or("no balance")?;
    /// rig.start_from(rest);
    /// // The first guess is now where the load came to rest; the anchor is where it was.
    /// assert_eq!(rest.point(load).map(|load| load.at), Some(rig.points()[1].at()));
    /// assert_eq!(rig.points()[0].at().z, 0.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn start_from(&mut self, rest: &Equilibrium) {
        for (point, rest) in self.points.iter_mut().zip(&rest.points) {
            if !point.held && rest.at.iter().all(|number| number.is_finite()) {
                point.at = rest.at;
            }
        }
    }

    /// Changes the unstretched length of a line (m).
    ///
    /// # Errors
    /// [`RigError::NotPositive`], or [`RigError::OfAnotherRig`] if this rig has no such line.
    /// ```
    /// use rigging_core::statics::{Rig, RigError};
    ///
    /// let mut rig = Rig::new();
    /// let bolt = rig.add_held("bolt", [0.0; 3])?;
    /// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
    /// let rope = rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
    /// rig.set_length(rope, 12.0)?;
    /// // What cannot be is refused and changes nothing.
    /// assert!(matches!(rig.set_length(rope, -1.0), Err(RigError::NotPositive { field: "length_m", .. })));
    /// assert_eq!(rig.lines()[0].length(), 12.0);
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn set_length(&mut self, line: LineId, length: f64) -> Result<(), RigError> {
        let line = self.lines.get_mut(line.0).ok_or(RigError::OfAnotherRig)?;
        positive(&line.name, "length_m", length)?;
        line.length = length;
        Ok(())
    }

    /// Changes the stiffness EA of a line (N).
    ///
    /// # Errors
    /// [`RigError::NotPositive`], or [`RigError::OfAnotherRig`] if this rig has no such line.
    /// ```
    /// use rigging_core::statics::{Rig, Settings, solve};
    ///
    /// let mut rig = Rig::new();
    /// let bolt = rig.add_held("bolt", [0.0; 3])?;
    /// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -1000.0])?;
    /// let rope = rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
    /// // Half as stiff it stretches twice as far: 1000/10 000 of 10 m.
    /// rig.set_stiffness(rope, 10e3)?;
    /// let solution = solve(&rig, &Settings::default());
    /// let rope = solution.balanced().and_then(|rest| rest.line(rope));
    /// assert!(rope.is_some_and(|rope| (rope.length - 11.0).abs() < 1e-6));
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn set_stiffness(&mut self, line: LineId, stiffness: f64) -> Result<(), RigError> {
        let line = self.lines.get_mut(line.0).ok_or(RigError::OfAnotherRig)?;
        positive(&line.name, "stiffness_n", stiffness)?;
        line.stiffness = stiffness;
        Ok(())
    }

    /// The points, in the order they were added.
    /// ```
    /// use rigging_core::statics::{Rig, Settings, solve};
    ///
    /// let mut rig = Rig::new();
    /// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
    /// let bolt = rig.add_held("bolt", [0.0; 3])?;
    /// rig.add_line("rope", &[load, bolt], 10.0, 20e3)?;
    /// let solution = solve(&rig, &Settings::default());
    /// // Those of the rig at rest are in the same order: the anchor, added last, has the reaction.
    /// let rest = solution.balanced().map(|rest| rest.points.as_slice()).unwrap_or_default();
    /// let pulled = rig.points().iter().zip(rest).filter(|(_, rest)| rest.reaction.is_some());
    /// assert_eq!(pulled.map(|(point, _)| point.name()).collect::<Vec<_>>(), ["bolt"]);
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// The lines, in the order they were added.
    /// ```
    /// use rigging_core::statics::{Rig, Settings, solve};
    ///
    /// let mut rig = Rig::new();
    /// let bolt = rig.add_held("bolt", [0.0; 3])?;
    /// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
    /// rig.add_line("long", &[bolt, load], 12.0, 30e3)?;
    /// rig.add_line("short", &[bolt, load], 10.0, 30e3)?;
    /// let solution = solve(&rig, &Settings::default());
    /// // Those of the rig at rest are in the same order: the longer one is slack.
    /// let rest = solution.balanced().map(|rest| rest.lines.as_slice()).unwrap_or_default();
    /// let slack = rig.lines().iter().zip(rest).filter(|(_, rest)| rest.slack);
    /// assert_eq!(slack.map(|(line, _)| line.name()).collect::<Vec<_>>(), ["long"]);
    /// # Ok::<(), rigging_core::statics::RigError>(())
    /// ```
    pub fn lines(&self) -> &[Line] {
        &self.lines
    }

    /// The point of a name.
    /// ```
    /// use rigging_core::statics::{Rig, Vector};
    ///
    /// // A rig that was read hands out no ids: a point is changed by its name.
    /// let mut rig: Rig = serde_json::from_str(
    ///     r#"{"points": [{"name": "bolt", "at_m": [0, 0, 0], "held": true}, {"name": "load", "at_m": [0, 0, -9]}],
    ///         "lines": [{"name": "rope", "through": ["bolt", "load"], "length_m": 10, "stiffness_n": 20000}]}"#,
    /// )?;
    /// let load = rig.point_named("load").ok_or("no such point")?;
    /// rig.set_load(load, [0.0, 0.0, -900.0])?;
    /// assert_eq!(rig.points()[1].load(), Vector::new(0.0, 0.0, -900.0));
    /// // A line is no point.
    /// assert_eq!(rig.point_named("rope"), None);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn point_named(&self, name: &str) -> Option<PointId> {
        let among = self.among_points(name).ok()?;
        self.points_by_name.get(among).map(|&index| PointId(index))
    }

    /// The line of a name.
    /// ```
    /// use rigging_core::statics::Rig;
    ///
    /// // A rig that was read hands out no ids: a line is changed by its name.
    /// let mut rig: Rig = serde_json::from_str(
    ///     r#"{"points": [{"name": "bolt", "at_m": [0, 0, 0], "held": true}, {"name": "load", "at_m": [0, 0, -9]}],
    ///         "lines": [{"name": "rope", "through": ["bolt", "load"], "length_m": 10, "stiffness_n": 20000}]}"#,
    /// )?;
    /// let rope = rig.line_named("rope").ok_or("no such line")?;
    /// rig.set_length(rope, 12.0)?;
    /// assert_eq!(rig.lines()[0].length(), 12.0);
    /// // A point is no line.
    /// assert_eq!(rig.line_named("load"), None);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn line_named(&self, name: &str) -> Option<LineId> {
        let among = self.among_lines(name).ok()?;
        self.lines_by_name.get(among).map(|&index| LineId(index))
    }

    /// Where a name is in the order of the names of points, or where it would be.
    fn among_points(&self, name: &str) -> Result<usize, usize> {
        self.points_by_name.binary_search_by(|&index| self.points.get(index).map(Point::name).cmp(&Some(name)))
    }

    /// The same of lines.
    fn among_lines(&self, name: &str) -> Result<usize, usize> {
        self.lines_by_name.binary_search_by(|&index| self.lines.get(index).map(Line::name).cmp(&Some(name)))
    }
}

fn finite(owner: impl FnOnce() -> Owner, field: &'static str, value: Vector) -> Result<(), RigError> {
    match value.iter().find(|number| !number.is_finite()) {
        None => Ok(()),
        Some(&value) => Err(RigError::NotFinite { owner: owner(), field, value }),
    }
}

fn positive(line: &str, field: &'static str, value: f64) -> Result<(), RigError> {
    if !value.is_finite() {
        return Err(RigError::NotFinite { owner: Owner::Line(line.to_owned()), field, value });
    }
    if value <= 0.0 {
        return Err(RigError::NotPositive { line: line.to_owned(), field, value });
    }
    Ok(())
}

#[cfg(test)]
mod tests;
