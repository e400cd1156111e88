//! One line between two anchors with loads tied onto it: solved whole, without points between.
//!
//! The tension vector along the line is `T(s) = F + w s e_z − Σ (loads passed)`, so the one unknown is
//! `F`, the tension at the first end. It is the minimum of the convex complementary energy
//! `Ψ(F) = ∫ (|T| + |T|²/(2 EA)) ds − F·span`; each stretch between two loads is a catenary.
//! The same rig built from points and lines has the same answer; this takes a tenth of the time.

use super::catenary::{Catenary, shallow_tension};
use super::rig_error::{Owner, RigError};
use super::search::{Search, slope_search};
use super::space::{add, add_scaled, between, image, inverse, scaled};
use super::{Matrix, Vector};

/// Largest gap left at the far end, as a share of line and span, that counts as closed.
const CLOSED: f64 = 1e-12;
/// The same where the last digits of the tension move the end further than that.
const NEARLY: f64 = 1e-9;
/// The same where it is rounding.
const ROUNDING: f64 = 1e-15;
const STEPS: usize = 100;

/// A load on a line.
/// ```
/// use rigging_core::statics::{LoadOnLine, LoadedLine, Vector};
///
/// // 100 N at a quarter of a level line of next to no weight. By the lever: 75 N on the near anchor, 25 on the far.
/// let load = LoadOnLine { along: 2.5, force: Vector::new(0.0, 0.0, -100.0) };
/// let line = LoadedLine::new(Vector::new(10.0, 0.0, 0.0), 10.0, 1e6, 1e-3, vec![load])?;
/// let rest = line.at_rest().ok_or("no balance")?;
/// assert!((rest.first.z + 75.0).abs() < 0.1 && (rest.last.z - 25.0).abs() < 0.1);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LoadOnLine {
    /// Unstretched length from the first end (m), from 0 to the length of the line.
    pub along: f64,
    /// The load (N).
    pub force: Vector,
}

/// A line with weight between two anchors, with loads on it.
/// ```
/// use rigging_core::statics::{LoadedLine, Vector};
///
/// // Printed in a public-domain suite of overhead lines: level span 1000, weight 0.5 a metre, level pull 1000: length
/// // 1010.45, pull at the ends 1031.41.
/// let line = LoadedLine::new(Vector::new(1000.0, 0.0, 0.0), 1010.45, 1e12, 0.5, Vec::new())?;
/// let rest = line.at_rest().ok_or("no balance")?;
/// assert!((rest.first.x - 1000.0).abs() < 0.5 && (rest.first.norm() - 1031.41).abs() < 0.5);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct LoadedLine {
    span: Vector,
    length: f64,
    compliance: f64,
    weight: f64,
    loads: Vec<LoadOnLine>,
}

/// A loaded line at rest.
/// ```
/// use rigging_core::statics::{LoadOnLine, LoadedLine, Vector};
///
/// // A load in the middle of a level line: each anchor gets half of it and half of the line.
/// let load = LoadOnLine { along: 5.1, force: Vector::new(0.0, 0.0, -1000.0) };
/// let line = LoadedLine::new(Vector::new(10.0, 0.0, 0.0), 10.2, 30e3, 0.5, vec![load])?;
/// let rest = line.at_rest().ok_or("no balance")?;
/// let half = -(1000.0 + 0.5 * 10.2) / 2.0;
/// assert!((rest.first.z - half).abs() < 1e-6 && (-rest.last.z - half).abs() < 1e-6);
/// // Level they pull against each other.
/// assert!((rest.first.x - rest.last.x).abs() < 1e-6);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct LineAtWork {
    /// Tension vector at the first end (N): the force on the first anchor.
    pub first: Vector,
    /// Tension vector at the last end (N): minus the force on the last anchor.
    pub last: Vector,
    /// Gap left at the last end (m): 0 but for rounding, up to 10⁻⁹ of line and span.
    pub gap: f64,
    /// Steps taken.
    pub iterations: usize,
}

impl LoadedLine {
    /// A line from one anchor to another `span` away (m): unstretched length (m), stiffness EA (N)
    /// and weight per unstretched metre (N/m), all above 0, and its loads in any order.
    ///
    /// # Errors
    /// [`RigError`] if a number is not finite or outside its domain, or a load hangs beyond an end of the line.
    /// ```
    /// use rigging_core::statics::{LoadOnLine, LoadedLine, RigError, Vector};
    ///
    /// // A load hangs on the line, not beyond its end.
    /// let load = LoadOnLine { along: 11.0, force: Vector::new(0.0, 0.0, -1000.0) };
    /// let wrong = LoadedLine::new(Vector::new(9.0, 0.0, 0.0), 10.0, 30e3, 0.5, vec![load]);
    /// assert_eq!(wrong, Err(RigError::LoadOffLine { along: 11.0, length: 10.0 }));
    /// ```
    pub fn new(
        span: Vector,
        length: f64,
        stiffness: f64,
        weight: f64,
        loads: Vec<LoadOnLine>,
    ) -> Result<Self, RigError> {
        let name = || "loaded line".to_owned();
        let fields = [("length_m", length), ("stiffness_n", stiffness), ("weight_n_per_m", weight)];
        let vectors = loads.iter().flat_map(|load| load.force.iter().copied());
        let not_finite = |field, value| RigError::NotFinite { owner: Owner::Line(name()), field, value };
        if let Some(&value) = span.iter().find(|number| !number.is_finite()) {
            return Err(not_finite("span_m", value));
        }
        for (field, value) in fields {
            if !value.is_finite() {
                return Err(not_finite(field, value));
            }
            if value <= 0.0 {
                return Err(RigError::NotPositive { line: name(), field, value });
            }
        }
        if let Some(value) = vectors.into_iter().find(|number| !number.is_finite()) {
            return Err(not_finite("load_n", value));
        }
        if let Some(load) = loads.iter().find(|load| !(load.along >= 0.0 && load.along <= length)) {
            return Err(RigError::LoadOffLine { along: load.along, length });
        }
        // A few at most: each is put where it belongs, and no sort of the standard library is carried along.
        let mut in_order: Vec<LoadOnLine> = Vec::with_capacity(loads.len());
        for load in loads {
            let place = in_order.partition_point(|other| other.along <= load.along);
            in_order.insert(place, load);
        }
        Ok(LoadedLine { span, length, compliance: length / stiffness, weight, loads: in_order })
    }

    /// The line at rest. None only where the whole line weighs less than a millionth of its loads and a stretch of it hangs
    /// slack: there the last digits of the tension may move the last end by more than 10⁻⁹ of line and span.
    /// ```
    /// use rigging_core::statics::{LoadedLine, Vector};
    ///
    /// // Plumb below its anchor a line carries at the top what it carries below, and itself: 20 m of 0.5 N.
    /// let line = LoadedLine::new(Vector::new(0.0, 0.0, -20.5), 20.0, 30e3, 0.5, Vec::new())?;
    /// let rest = line.at_rest().ok_or("no balance")?;
    /// assert!((rest.first.norm() - rest.last.norm() - 10.0).abs() < 1e-6);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn at_rest(&self) -> Option<LineAtWork> {
        let size = self.length + self.span.norm();
        let weighs = self.weight * self.length;
        let pull = self.loads.iter().fold(weighs, |pull, load| pull + load.force.norm());
        // Beside loads of 1000 N a tension is known to 1e-13 N, and a slack stretch may give metres for a newton.
        let closed = |miss: f64, soft: &Matrix| {
            let rounding = f64::EPSILON * pull * (soft.m11 + soft.m22 + soft.m33);
            miss <= rounding.max(CLOSED * size).min(NEARLY * size)
        };
        let mut first = self.first_guess();
        let (mut end, mut softness) = self.end(first);
        let mut miss = between(&self.span, &end).amax();
        let mut iterations = 0;
        while iterations < STEPS && miss > ROUNDING * size {
            let gap = between(&self.span, &end);
            let Some((stiffness, _)) = inverse(&softness, &softness, 0.0) else {
                break;
            };
            let step = scaled(&image(&stiffness, &gap), -1.0);
            iterations += 1;
            let (whole_end, whole_softness) = self.end(first + step);
            let whole_miss = between(&self.span, &whole_end).amax();
            if whole_miss < 0.5 * miss {
                first += step;
                (end, softness, miss) = (whole_end, whole_softness, whole_miss);
                continue;
            }
            if closed(miss, &softness) {
                break;
            }
            let start = first;
            let found = slope_search(gap.dot(&step), |along| {
                first = start + step * along;
                (end, softness) = self.end(first);
                (end - self.span).dot(&step)
            });
            miss = (end - self.span).amax();
            if found == Search::Stuck {
                break;
            }
        }
        let loads: Vector = self.loads.iter().map(|load| load.force).sum();
        closed(miss, &softness).then(|| LineAtWork {
            first,
            last: first + Vector::new(0.0, 0.0, weighs) - loads,
            gap: miss,
            iterations,
        })
    }

    /// Where the loads hang, from the first end (m), in order along the line.
    /// ```
    /// use rigging_core::statics::{LoadOnLine, LoadedLine, Vector};
    ///
    /// // The load in the middle of a level line hangs half way; 5 m of line and half of 8 m level make it 3 m deep
    /// // (3, 4, 5).
    /// let load = LoadOnLine { along: 5.0, force: Vector::new(0.0, 0.0, -1000.0) };
    /// let line = LoadedLine::new(Vector::new(8.0, 0.0, 0.0), 10.0, 1e9, 1e-3, vec![load])?;
    /// let place = line.places(&line.at_rest().ok_or("no balance")?)[0];
    /// assert!((place.x - 4.0).abs() < 1e-4 && (place.z + 3.0).abs() < 1e-4);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn places(&self, at_rest: &LineAtWork) -> Vec<Vector> {
        let mut at = Vector::zeros();
        let mut places = Vec::with_capacity(self.loads.len());
        let mut stretches = Stretches::new(self, at_rest.first);
        for _ in &self.loads {
            if let Some((catenary, tension)) = stretches.next() {
                at += catenary.map_or_else(Vector::zeros, |line| line.reach(tension).span);
            }
            places.push(at);
        }
        places
    }

    /// Where the last end comes to lie under a tension at the first, and how that changes.
    fn end(&self, first: Vector) -> (Vector, Matrix) {
        let mut end = Vector::zeros();
        let mut softness = Matrix::zeros();
        for (catenary, tension) in Stretches::new(self, first) {
            if let Some(catenary) = catenary {
                let reach = catenary.reach(tension);
                add_scaled(&mut end, &reach.span, 1.0);
                add(&mut softness, &reach.softness);
            }
        }
        (end, softness)
    }

    /// Start from the chord: `T² (T − strain tension) = EA B/(2 L)`, where `B` is the integral of the
    /// square of the tension's part across the chord, about its mean.
    fn first_guess(&self) -> Vector {
        let chord = self.span.norm();
        let along = if chord > 0.0 { self.span / chord } else { Vector::x() };
        let mut mean = Vector::zeros();
        for (catenary, tension) in Stretches::new(self, Vector::zeros()) {
            mean += tension * (catenary.map_or(0.0, |line| line.length) / self.length);
        }
        let mut spread = 0.0;
        for (catenary, tension) in Stretches::new(self, Vector::zeros()) {
            if let Some(line) = catenary {
                let across = |vector: Vector| vector - along * along.dot(&vector);
                let slope = across(Vector::new(0.0, 0.0, line.weight * line.length)).norm_squared() / 12.0;
                spread += line.length * (across(tension - mean).norm_squared() + slope);
            }
        }
        let stretched = (chord - self.length) / self.compliance;
        let cube = 0.5 * spread / self.compliance;
        along * shallow_tension(stretched, cube) - mean
    }
}

/// The stretches of a line between its loads, each with the tension in its middle; none where two
/// loads hang at one place.
struct Stretches<'a> {
    line: &'a LoadedLine,
    loads: std::slice::Iter<'a, LoadOnLine>,
    tension: Vector,
    along: f64,
    ended: bool,
}

impl<'a> Stretches<'a> {
    fn new(line: &'a LoadedLine, first: Vector) -> Self {
        Stretches { line, loads: line.loads.iter(), tension: first, along: 0.0, ended: false }
    }
}

impl Iterator for Stretches<'_> {
    type Item = (Option<Catenary>, Vector);

    fn next(&mut self) -> Option<Self::Item> {
        if self.ended {
            return None;
        }
        let load = self.loads.next();
        self.ended = load.is_none();
        let length = load.map_or(self.line.length, |load| load.along) - self.along;
        self.along += length;
        let weight = self.line.weight * length;
        let mut middle = self.tension;
        middle.z += 0.5 * weight;
        self.tension.z += weight;
        if let Some(load) = load {
            add_scaled(&mut self.tension, &load.force, -1.0);
        }
        let catenary = (length > 0.0).then(|| Catenary {
            length,
            compliance: self.line.compliance * (length / self.line.length),
            weight: self.line.weight,
        });
        Some((catenary, middle))
    }
}

#[cfg(test)]
mod tests;
