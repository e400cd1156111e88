//! The line at one point of the ranges, and the engine asked for its rest.

use super::super::input::BadInput;
use super::super::rest::at_rest;
use crate::statics::{LineId, LoadOnLine, LoadedLine, PointId, Rig, Vector};

/// Names of the anchors on the way.
const NAMES: [&str; 5] = ["anchor 0", "anchor 1", "anchor 2", "anchor 3", "anchor 4"];

/// A line between its anchors with one load on it. Near anchor at the origin, x along the span, z up.
#[derive(Debug, Clone)]
pub(super) struct Rigged {
    /// Near anchor, intermediates, far anchor, m.
    pub(super) anchors: Vec<Vector>,
    /// Which bay bears the load: from this anchor to the next.
    pub(super) bay: usize,
    /// Where in this bay, as a share of it.
    pub(super) share: f64,
    /// Tied at each intermediate anchor; or runs through them.
    pub(super) tied: bool,
    /// The load is tied to the line; or runs along it.
    pub(super) clipped: bool,
    /// Direction of the load.
    pub(super) toward: Vector,
    /// EA, N.
    pub(super) stiffness: f64,
    /// Weight of a metre of line, N/m.
    pub(super) weight: f64,
    /// Length without tension, as a share of the straight distance; the same in every bay.
    pub(super) length: f64,
}

/// The line at rest under a load.
#[derive(Debug, Clone)]
pub(super) struct Hung {
    /// The load, N.
    pub(super) load: f64,
    /// Where it is tied to the line, m.
    pub(super) at: Vector,
    /// Force of the line on each anchor, N.
    pub(super) on: Vec<Vector>,
    /// Pull of the part to the near anchor and of the part to the far anchor where the load is, N.
    pub(super) pulls: [Vector; 2],
    /// Energy stored in the parts that the load stretches, J; only of a line without weight between points.
    pub(super) stored: f64,
}

impl Hung {
    /// Force on the anchor that is pulled hardest, N.
    pub(super) fn hardest(&self) -> f64 {
        self.on.iter().map(|force| force.norm()).fold(0.0, f64::max)
    }

    /// Tension of the line beside the load, the larger of both sides, N.
    pub(super) fn tension(&self) -> f64 {
        self.pulls.iter().map(|pull| pull.norm()).fold(0.0, f64::max)
    }
}

impl Rigged {
    /// Where an anchor is.
    pub(super) fn anchor(&self, place: usize) -> Vector {
        self.anchors.get(place).copied().unwrap_or_default()
    }

    /// The straight line from an anchor to the next.
    pub(super) fn chord(&self, bay: usize) -> Vector {
        self.anchor(bay + 1) - self.anchor(bay)
    }

    /// The anchors at which the line with the load ends: of its bay where it is tied, else the first and the last.
    pub(super) fn ends(&self) -> (usize, usize) {
        if self.tied { (self.bay, self.bay + 1) } else { (0, self.anchors.len().saturating_sub(1)) }
    }

    /// Where on the straight line the load is before it bears on the line.
    pub(super) fn start(&self) -> Vector {
        self.anchor(self.bay) + self.chord(self.bay) * self.share
    }

    /// How far a place is from the straight line of the loaded bay, the way the load pulls.
    pub(super) fn sag(&self, at: &Vector) -> f64 {
        let chord = self.chord(self.bay);
        let from = self.anchor(self.bay);
        (at - from - chord * ((at.x - from.x) / chord.x)).dot(&self.toward)
    }

    /// Weight of the line in a bay, N.
    fn weighs(&self, bay: usize) -> f64 {
        self.weight * self.length * self.chord(bay).norm()
    }

    fn bays(&self) -> std::ops::Range<usize> {
        0..self.anchors.len().saturating_sub(1)
    }

    /// The loaded bay as a line that hangs between its anchors by itself, if it is one.
    fn hangs(&self) -> bool {
        self.tied && self.clipped && self.weight > 0.0
    }

    /// The loaded bay at rest between its anchors: nothing put on the others.
    fn bay_at_rest(&self, load: f64) -> Result<Hung, BadInput> {
        let along = self.length * self.chord(self.bay).norm() * self.share;
        let force = self.toward * load;
        let line = self.alone(self.bay, vec![LoadOnLine { along, force }])?;
        let work = line.at_rest().ok_or(BadInput::NoBalance)?;
        let at = line.places(&work).first().copied().unwrap_or_default();
        let near = Vector::new(0.0, 0.0, self.weight * along) + work.first;
        let mut on = vec![Vector::zeros(); self.anchors.len()];
        add(&mut on, self.bay, work.first);
        add(&mut on, self.bay + 1, -work.last);
        let at = at + self.anchor(self.bay);
        Ok(Hung { load, at, on, pulls: [-near, near - force], stored: 0.0 })
    }

    /// What the bays without a load pull on the anchors, where the line is tied to each.
    fn idle(&self) -> Result<Vec<Vector>, BadInput> {
        let mut on = vec![Vector::zeros(); self.anchors.len()];
        if self.tied && self.weight > 0.0 {
            for bay in self.bays().filter(|bay| *bay != self.bay) {
                let work = self.alone(bay, Vec::new())?.at_rest().ok_or(BadInput::NoBalance)?;
                add(&mut on, bay, work.first);
                add(&mut on, bay + 1, -work.last);
            }
        }
        Ok(on)
    }

    fn alone(&self, bay: usize, loads: Vec<LoadOnLine>) -> Result<LoadedLine, BadInput> {
        let chord = self.chord(bay);
        Ok(LoadedLine::new(chord, self.length * chord.norm(), self.stiffness, self.weight, loads)?)
    }

    /// How a bay without a load hangs: nine places along it.
    pub(super) fn hanging(&self, bay: usize) -> Result<Vec<Vector>, BadInput> {
        let step = self.length * self.chord(bay).norm() / 8.0;
        let marks = (0..=8).map(|mark| LoadOnLine { along: step * f64::from(mark), force: Vector::zeros() });
        let line = self.alone(bay, marks.collect())?;
        let work = line.at_rest().ok_or(BadInput::NoBalance)?;
        let from = self.anchor(bay);
        Ok(line.places(&work).iter().map(|place| from + place).collect())
    }

    /// The line as the engine takes it where it runs through points or slips: without weight between points, each
    /// part's weight put on its two ends.
    pub(super) fn on_points(&self) -> Result<OnPoints, BadInput> {
        let mut rig = Rig::new();
        let (first, last) = self.ends();
        let mut held = Vec::new();
        for (name, at) in NAMES.iter().zip(&self.anchors).take(last + 1).skip(first) {
            held.push(rig.add_held(*name, *at)?);
        }
        let guess = self.start() + self.toward * (0.1 * self.chord(self.bay).norm());
        let person = rig.add_free("person", guess, Vector::zeros())?;
        let place = self.bay - first;
        let (near, far) = held.split_at((place + 1).min(held.len()));
        let straight = |bays: std::ops::Range<usize>| bays.map(|bay| self.chord(bay).norm()).sum::<f64>();
        let before = straight(first..self.bay) + self.share * self.chord(self.bay).norm();
        let whole = straight(first..last);
        let mut lines = Vec::new();
        let mut add_line = |name: &str, through: Vec<PointId>, straight: f64| -> Result<(), BadInput> {
            lines.push((rig.add_line(name, &through, self.length * straight, self.stiffness)?, straight));
            Ok(())
        };
        if self.clipped {
            add_line("near part", [near, &[person]].concat(), before)?;
            add_line("far part", [&[person], far].concat(), whole - before)?;
        } else {
            add_line("line", [near, &[person], far].concat(), whole)?;
        }
        Ok(OnPoints { rig, held, first, place, person, lines, stiffness: self.stiffness })
    }

    /// What the weight of the parts that run through points puts on the anchors.
    fn put_on_anchors(&self) -> Vec<Vector> {
        let mut on = vec![Vector::zeros(); self.anchors.len()];
        for bay in self.bays().filter(|bay| !self.tied || *bay == self.bay) {
            let half = 0.5 * self.weighs(bay);
            let (near, far) = if bay == self.bay { (self.share, 1.0 - self.share) } else { (1.0, 1.0) };
            add(&mut on, bay, Vector::new(0.0, 0.0, -half * near));
            add(&mut on, bay + 1, Vector::new(0.0, 0.0, -half * far));
        }
        on
    }

    /// Half the weight of the loaded bay: what its parts put where the load is, N.
    pub(super) fn lump(&self) -> f64 {
        0.5 * self.weighs(self.bay)
    }

    /// The line with everything ready to be asked under one load after another.
    pub(super) fn ready(self) -> Result<Ready, BadInput> {
        let idle = self.idle()?;
        Ok(Ready { points: self.on_points()?, put: self.put_on_anchors(), rigged: self, idle })
    }
}

/// A line that is set, ready to be loaded.
pub(super) struct Ready {
    pub(super) rigged: Rigged,
    points: OnPoints,
    /// On each anchor, of the bays without the load.
    pub(super) idle: Vec<Vector>,
    /// And of the weight of the parts.
    pub(super) put: Vec<Vector>,
}

impl Ready {
    /// At rest, with the weight of the line: hanging between the places where it is tied, put on points where it runs
    /// through some.
    pub(super) fn at_rest(&mut self, load: f64) -> Result<Hung, BadInput> {
        if !self.rigged.hangs() {
            return self.on_points(load);
        }
        let mut hung = self.rigged.bay_at_rest(load)?;
        hung.on.iter_mut().zip(&self.idle).for_each(|(on, idle)| *on += idle);
        Ok(hung)
    }

    /// At rest with straight parts, their weight put on their ends.
    pub(super) fn on_points(&mut self, load: f64) -> Result<Hung, BadInput> {
        let mut hung = self.points.at_rest(&self.rigged, load)?;
        let besides = self.idle.iter().zip(&self.put);
        hung.on.iter_mut().zip(besides).for_each(|(on, (idle, put))| *on += idle + put);
        Ok(hung)
    }

    /// The sag under a load of the same line set to another length.
    pub(super) fn sag_at(&mut self, length: f64, load: f64) -> Result<f64, BadInput> {
        self.rigged.length = length;
        let hung = if self.rigged.hangs() {
            self.rigged.bay_at_rest(load)?
        } else {
            self.points.set_length(length)?;
            self.points.at_rest(&self.rigged, load)?
        };
        Ok(self.rigged.sag(&hung.at))
    }
}

fn add(on: &mut [Vector], place: usize, force: Vector) {
    if let Some(sum) = on.get_mut(place) {
        *sum += force;
    }
}

/// The line as a rig of points.
pub(super) struct OnPoints {
    rig: Rig,
    held: Vec<PointId>,
    /// Which anchor the first of the held points is.
    first: usize,
    /// Which of the held points is the nearer end of the loaded bay.
    place: usize,
    person: PointId,
    /// Each line with the straight distance it is set by.
    lines: Vec<(LineId, f64)>,
    stiffness: f64,
}

impl OnPoints {
    fn set_length(&mut self, length: f64) -> Result<(), BadInput> {
        for (line, straight) in &self.lines {
            self.rig.set_length(*line, length * straight)?;
        }
        Ok(())
    }

    fn at_rest(&mut self, rigged: &Rigged, load: f64) -> Result<Hung, BadInput> {
        let force = rigged.toward * load + Vector::new(0.0, 0.0, -rigged.lump());
        self.rig.set_load(self.person, force)?;
        let rest = at_rest(&self.rig)?;
        let place = |id: PointId| rest.point(id).map_or_else(Vector::zeros, |point| point.at);
        let at = place(self.person);
        // The next load is mostly near this one.
        self.rig.set_at(self.person, at)?;
        let mut on = vec![Vector::zeros(); rigged.anchors.len()];
        for (number, id) in self.held.iter().enumerate() {
            let reaction = rest.point(*id).and_then(|point| point.reaction).unwrap_or_default();
            add(&mut on, self.first + number, reaction);
        }
        let tension = |(line, _): &(LineId, f64)| rest.line(*line).map_or(0.0, |line| line.tension_first);
        let stretched = |line: &(LineId, f64)| tension(line).powi(2) * rigged.length * line.1 / (2.0 * self.stiffness);
        let stored = self.lines.iter().map(stretched).sum();
        let to = |end: Option<&PointId>| end.map_or_else(Vector::zeros, |id| place(*id) - at);
        let (near, far) = (to(self.held.get(self.place)), to(self.held.get(self.place + 1)));
        let pull = |way: Vector, line: Option<&(LineId, f64)>| {
            way / way.norm().max(f64::MIN_POSITIVE) * line.map_or(0.0, tension)
        };
        // The direction of the longer part is the surer one; the other part holds what is left of the load.
        let pulls = if near.norm() > far.norm() {
            let pull = pull(near, self.lines.first());
            [pull, -force - pull]
        } else {
            let pull = pull(far, self.lines.last());
            [-force - pull, pull]
        };
        Ok(Hung { load, at, on, pulls, stored })
    }
}
