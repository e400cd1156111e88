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
    /// Gap left at the last end (m): 0 but for rounding.
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

    /// The line at rest; none if the search did not close the gap.
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
            if miss < CLOSED * size {
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
        (miss <= CLOSED * size).then(|| LineAtWork {
            first,
            last: first + Vector::new(0.0, 0.0, self.weight * self.length) - loads,
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
mod tests {
    use super::*;
    use crate::statics::numbers::Numbers;
    use crate::statics::{Rig, Settings, solve};

    #[test]
    fn a_loaded_line_agrees_with_the_same_rig_of_points() {
        let mut numbers = Numbers(0.3);
        let mut next = || numbers.next();
        let mut steps = 0;
        for _ in 0..500 {
            let span = Vector::new(1.0 + 20.0 * next(), 4.0 * next(), 10.0 * next() - 5.0);
            let length = span.norm() * (0.97 + 0.3 * next());
            let (stiffness, weight) = (1e4 + 1e5 * next(), 0.1 + next());
            let along = length * (0.05 + 0.9 * next());
            let force = Vector::new(200.0 * next(), 500.0 * next(), -1000.0 * next());
            let line = LoadedLine::new(span, length, stiffness, weight, vec![LoadOnLine { along, force }]).unwrap();
            let work = line.at_rest().unwrap();
            steps += work.iterations;
            assert!(work.gap <= 1e-12 * (length + span.norm()));
            let mut rig = Rig::new();
            let near = rig.add_held("near", [0.0, 0.0, 0.0]).unwrap();
            let far = rig.add_held("far", span).unwrap();
            let person = rig.add_free("person", span * (along / length), force).unwrap();
            rig.add_heavy_line("near part", &[near, person], along, stiffness, weight).unwrap();
            rig.add_heavy_line("far part", &[person, far], length - along, stiffness, weight).unwrap();
            let solution = solve(&rig, &Settings::default());
            let rest = solution.balanced().unwrap();
            let reaction = rest.point(near).unwrap().reaction.unwrap();
            assert!((work.first - reaction).norm() <= 1e-8 * (1.0 + reaction.norm()), "{} {reaction}", work.first);
            let reaction = rest.point(far).unwrap().reaction.unwrap();
            assert!((work.last + reaction).norm() <= 1e-8 * (1.0 + reaction.norm()));
            let place = line.places(&work)[0];
            assert!((place - rest.point(person).unwrap().at).norm() <= 1e-8 * length);
        }
        // An engine that finds the same with more of them is worse.
        assert!((500..=2570).contains(&steps), "{steps} steps");
    }

    #[test]
    fn a_load_at_an_end_of_the_line_goes_to_the_anchor() {
        let span = Vector::new(10.0, 0.0, 0.0);
        let bare = LoadedLine::new(span, 10.2, 3e4, 0.6, Vec::new()).unwrap().at_rest().unwrap();
        let force = Vector::new(0.0, 0.0, -800.0);
        for along in [0.0, 10.2] {
            let line = LoadedLine::new(span, 10.2, 3e4, 0.6, vec![LoadOnLine { along, force }]).unwrap();
            let work = line.at_rest().unwrap();
            let (first, last) = if along == 0.0 { (force, bare.last) } else { (Vector::zeros(), bare.last - force) };
            assert!((work.first - bare.first - first).norm() < 1e-6);
            assert!((work.last - last).norm() < 1e-6);
        }
        for along in [10.3, -0.1, f64::NAN] {
            let refused = LoadedLine::new(span, 10.2, 3e4, 0.6, vec![LoadOnLine { along, force }]).unwrap_err();
            assert!(refused.to_string().ends_with("it must be from 0 to the length of the line, 10.2"), "{refused}");
        }
    }

    #[test]
    fn a_line_with_both_ends_in_one_place_hangs_folded() {
        let folded = |loads| LoadedLine::new(Vector::zeros(), 10.0, 3e4, 0.5, loads).unwrap().at_rest().unwrap();
        // By hand: 10 m of 0.5 N are 5 N, half of them on either end.
        let bare = folded(Vec::new());
        assert!((bare.first - Vector::new(0.0, 0.0, -2.5)).norm() < 1e-9, "{}", bare.first);
        // By hand: 100 N stretch 3 m by 0.01 m. Of the 7 m beyond, (7 − 3.01)/2 = 1.995 m hang on the load, and with the
        // 3 m and the load on the first end: 100 + 0.5 · 4.995 N.
        let loaded = folded(vec![LoadOnLine { along: 3.0, force: Vector::new(0.0, 0.0, -100.0) }]);
        assert!((loaded.first - Vector::new(0.0, 0.0, -102.4975)).norm() < 1e-6, "{}", loaded.first);
        assert!((loaded.last - Vector::new(0.0, 0.0, 2.5025)).norm() < 1e-6, "{}", loaded.last);
    }

    /// Beyond the load the line bears next to nothing, 1e-14 of what it bears before: too little to find. It ended 3.5 cm
    /// from its anchor.
    #[test]
    fn a_line_that_does_not_reach_its_anchor_is_not_told_as_one_at_rest() {
        let load = LoadOnLine { along: 0.0591, force: Vector::new(-35.74, 0.0, -9179.3) };
        let line = LoadedLine::new(Vector::new(0.0205, 0.0, -1.0524), 2.10527, 49350.0, 9.03e-11, vec![load]).unwrap();
        if let Some(work) = line.at_rest() {
            let (end, _) = line.end(work.first);
            assert!((end - line.span).norm() < 1e-11, "{end}");
        }
    }
}
