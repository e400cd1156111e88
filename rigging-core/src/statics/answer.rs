//! The answer of a rig, written as JSON or any other format of serde.

use serde::ser::{Serialize, SerializeMap, SerializeSeq, Serializer};

use super::rig::Rig;
use super::rig_parts::PointId;
use super::{LineAtRest, PointAtRest, Solution, Status, Vector};

/// A solution with the names of its rig, ready to be written.
/// ```
/// use rigging_core::statics::{Answer, Rig, Settings, solve};
///
/// let mut rig = Rig::new();
/// let bolt = rig.add_held("bolt", [0.0; 3])?;
/// let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -900.0])?;
/// rig.add_line("rope", &[bolt, load], 10.0, 20e3)?;
/// let solution = solve(&rig, &Settings::default());
/// let json = serde_json::to_value(Answer::new(&rig, &solution))?;
/// assert_eq!((&json["status"], &json["points"][0]["name"]), (&"balanced".into(), &"bolt".into()));
/// // The rope pulls with what hangs on it.
/// assert!(json["lines"][0]["tension_n"][0].as_f64().is_some_and(|tension| (tension - 900.0).abs() < 1e-6));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug)]
pub struct Answer<'a> {
    rig: &'a Rig,
    solution: &'a Solution,
}

impl<'a> Answer<'a> {
    /// The answer for the rig that was solved.
    /// ```
    /// use rigging_core::statics::{Answer, Rig, Settings, solve};
    ///
    /// // What nothing holds is named from the rig; there are no numbers of points and lines.
    /// let mut rig = Rig::new();
    /// rig.add_free("load", [0.0; 3], [0.0, 0.0, -900.0])?;
    /// let json = serde_json::to_string(&Answer::new(&rig, &solve(&rig, &Settings::default())))?;
    /// assert_eq!(json, r#"{"status":"unheld","imbalance":1.0,"iterations":0,"unheld":["load"]}"#);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn new(rig: &'a Rig, solution: &'a Solution) -> Self {
        Answer { rig, solution }
    }
}

impl Serialize for Answer<'_> {
    fn serialize<S: Serializer>(&self, target: S) -> Result<S::Ok, S::Error> {
        let mut map = target.serialize_map(None)?;
        let status = match &self.solution.status {
            Status::Balanced(_) => "balanced",
            Status::NotConverged => "not converged",
            Status::Unheld(_) => "unheld",
        };
        map.serialize_entry("status", status)?;
        map.serialize_entry("imbalance", &self.solution.imbalance)?;
        map.serialize_entry("iterations", &self.solution.iterations)?;
        match &self.solution.status {
            Status::NotConverged => {}
            Status::Unheld(points) => map.serialize_entry("unheld", points)?,
            Status::Balanced(rest) => {
                let points = self.rig.points().iter().map(|point| point.name()).zip(&rest.points);
                map.serialize_entry("points", &Rows(points.map(|(name, point)| PointRow { name, point })))?;
                let lines = self.rig.lines().iter().zip(&rest.lines);
                map.serialize_entry(
                    "lines",
                    &Rows(lines.map(|(line, at_rest)| LineRow {
                        rig: self.rig,
                        name: line.name(),
                        heavy: line.weight() > 0.0,
                        at_rest,
                    })),
                )?;
            }
        }
        map.end()
    }
}

/// Rows of a list, made one after the other.
pub(super) struct Rows<I>(pub I);

impl<I: Iterator<Item: Serialize> + Clone> Serialize for Rows<I> {
    fn serialize<S: Serializer>(&self, target: S) -> Result<S::Ok, S::Error> {
        let mut list = target.serialize_seq(None)?;
        for row in self.0.clone() {
            list.serialize_element(&row)?;
        }
        list.end()
    }
}

struct PointRow<'a> {
    name: &'a str,
    point: &'a PointAtRest,
}

impl Serialize for PointRow<'_> {
    fn serialize<S: Serializer>(&self, target: S) -> Result<S::Ok, S::Error> {
        let mut map = target.serialize_map(None)?;
        map.serialize_entry("name", self.name)?;
        map.serialize_entry("at_m", &numbers(self.point.at))?;
        if let Some(reaction) = self.point.reaction {
            map.serialize_entry("reaction_n", &numbers(reaction))?;
        }
        if !self.point.determined {
            map.serialize_entry("determined", &false)?;
        }
        map.end()
    }
}

struct LineRow<'a> {
    rig: &'a Rig,
    name: &'a str,
    heavy: bool,
    at_rest: &'a LineAtRest,
}

impl Serialize for LineRow<'_> {
    fn serialize<S: Serializer>(&self, target: S) -> Result<S::Ok, S::Error> {
        let mut map = target.serialize_map(None)?;
        let (first, last) = (self.at_rest.tension_first, self.at_rest.tension_last);
        map.serialize_entry("name", self.name)?;
        if self.heavy {
            map.serialize_entry("tension_n", &[first, last])?;
        } else {
            map.serialize_entry("tension_n", &[first])?;
        }
        map.serialize_entry("length_m", &self.at_rest.length)?;
        map.serialize_entry("slack", &self.at_rest.slack)?;
        if !self.at_rest.end_stops.is_empty() {
            let name = |id: &PointId| self.rig.points().get(id.0).map(|point| point.name());
            let names: Vec<&str> = self.at_rest.end_stops.iter().filter_map(name).collect();
            map.serialize_entry("end_stops", &names)?;
        }
        map.end()
    }
}

/// A vector as three numbers, without negative zeros.
pub(super) fn numbers(vector: Vector) -> [f64; 3] {
    [vector.x + 0.0, vector.y + 0.0, vector.z + 0.0]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_as_they_are_and_a_zero_has_no_sign() {
        assert_eq!(numbers(Vector::new(1.5, -2.5, 1e-9)), [1.5, -2.5, 1e-9]);
        assert!(numbers(Vector::repeat(-0.0)).iter().all(|zero| zero.is_sign_positive()));
    }
}
