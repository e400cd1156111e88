//! The rig as the solver sees it: nodes, free or fixed, and what acts between them.
//!
//! A node is a point, or several points that have been joined because a ring sits on its stop.

use super::Vector;
use super::catenary::Catenary;
use super::rig::Rig;
use super::sparse::{BlockMatrix, Slot, renew};

/// Marks a node that does not move, and a coupling that has no block.
pub(super) const FIXED: u32 = u32::MAX;

/// A stretch of a line between two neighbouring nodes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Part {
    pub from: u32,
    pub to: u32,
    /// Places of both nodes in the list of nodes its line touches.
    pub local_from: u32,
    pub local_to: u32,
}

impl Part {
    /// Place of the coupling of both nodes among those of the line.
    pub(super) fn between(self) -> usize {
        let (low, high) = (self.local_from.min(self.local_to), self.local_from.max(self.local_to));
        (high * high.saturating_sub(1) / 2 + low) as usize
    }
}

/// A weightless line.
#[derive(Clone, Debug)]
pub(super) struct Cord {
    pub line: usize,
    pub parts: std::ops::Range<usize>,
    /// Range in `Model::touched`; empty for a line with a single part.
    pub touched: std::ops::Range<usize>,
    /// Unstretched length L0 (m).
    pub length: f64,
    /// EA/L0 (N/m).
    pub spring: f64,
    /// What the stiffness in use and the length in use are, while stiffness is approached in
    /// stages; otherwise as above.
    pub spring_now: f64,
    pub length_now: f64,
}

/// A line with weight between two nodes.
#[derive(Clone, Debug)]
pub(super) struct Hanging {
    pub line: usize,
    pub from: u32,
    pub to: u32,
    pub catenary: Catenary,
    /// Added to the span (m) and to the compliance (m/N), while stiffness is approached in stages.
    pub shift: Vector,
    pub softening: f64,
}

/// A first guess farther out than this many times the size of the rig is drawn in: any guess will do, but beside one
/// of 10¹⁵ m a float no longer sees the rig.
const FARTHEST: f64 = 1e6;

/// Nodes, what acts on them, and the matrix their couplings need.
#[derive(Clone, Debug, Default)]
pub(super) struct Model {
    /// Node of every point of the rig.
    pub node_of: Vec<u32>,
    /// For every node its number among the free ones, or `FIXED`.
    pub free: Vec<u32>,
    pub free_nodes: Vec<u32>,
    /// Load and weight of lines (N).
    pub load: Vec<Vector>,
    pub start: Vec<Vector>,
    /// Subtracted from every place before solving, so that rounding follows the size of the rig
    /// and not its distance from the origin (m).
    pub origin: Vector,
    pub parts: Vec<Part>,
    pub touched: Vec<u32>,
    pub cords: Vec<Cord>,
    pub hanging: Vec<Hanging>,
    /// Blocks of the couplings, in the order in which they are assembled.
    pub slots: Vec<Slot>,
    pub diagonal: Vec<u32>,
    pub matrix: BlockMatrix,
    /// What each part resists its ends moving apart by in the matrix, besides what the lines do (N/m).
    pub together: f64,
    /// Work done on this rig so far, as [`Settings::work`](super::Settings::work) counts it.
    pub work: u64,
    pairs: Vec<(u32, u32)>,
    pub mean_length: f64,
    pub largest_load: f64,
    /// Stretch below this is rounding (m): as it is used, and as small as it can be.
    pub grain: f64,
    pub finest_grain: f64,
}

#[expect(
    clippy::indexing_slicing,
    reason = "a rig only hands out indices of its own points, and nodes are numbered here"
)]
impl Model {
    /// Becomes the model of a rig in which each point stands for `joined(point)`: itself, or the point
    /// it has been joined to.
    pub(super) fn build(&mut self, rig: &Rig, joined: impl Fn(usize) -> usize) {
        let points = rig.points();
        self.origin = Vector::zeros();
        let held = points.iter().filter(|point| point.is_held()).count();
        for point in points.iter().filter(|point| point.is_held()) {
            self.origin += point.at() / held as f64;
        }
        renew(&mut self.node_of, points.len(), 0);
        for list in [&mut self.free, &mut self.free_nodes, &mut self.touched] {
            list.clear();
        }
        self.load.clear();
        self.start.clear();
        self.parts.clear();
        self.cords.clear();
        self.hanging.clear();
        for (index, point) in points.iter().enumerate().filter(|&(index, _)| joined(index) == index) {
            let node = self.free.len() as u32;
            self.node_of[index] = node;
            if point.is_held() {
                self.free.push(FIXED);
            } else {
                self.free.push(self.free_nodes.len() as u32);
                self.free_nodes.push(node);
            }
            self.load.push(point.load());
            self.start.push(point.at() - self.origin);
        }
        for (index, point) in points.iter().enumerate().filter(|&(index, _)| joined(index) != index) {
            self.node_of[index] = self.node_of[joined(index)];
            self.load[self.node_of[index] as usize] += point.load();
        }
        for (index, line) in rig.lines().iter().enumerate() {
            if line.weight() > 0.0 {
                self.add_hanging(index, line);
            } else {
                self.add_cord(index, line);
            }
        }
        self.measure(rig);
        self.lay_out_matrix();
    }

    fn add_hanging(&mut self, index: usize, line: &super::Line) {
        let (from, to) = (self.node_of[line.stops()[0]], self.node_of[line.stops()[1]]);
        let half = Vector::new(0.0, 0.0, -0.5 * line.weight() * line.length());
        self.load[from as usize] += half;
        self.load[to as usize] += half;
        self.hanging.push(Hanging {
            line: index,
            from,
            to,
            catenary: Catenary {
                length: line.length(),
                compliance: line.length() / line.stiffness(),
                weight: line.weight(),
            },
            shift: Vector::zeros(),
            softening: 0.0,
        });
    }

    fn add_cord(&mut self, index: usize, line: &super::Line) {
        let first_part = self.parts.len();
        let first_touched = self.touched.len();
        for pair in line.stops().windows(2) {
            let (from, to) = (self.node_of[pair[0]], self.node_of[pair[1]]);
            if from != to {
                let local_from = local(&mut self.touched, first_touched, from);
                let local_to = local(&mut self.touched, first_touched, to);
                self.parts.push(Part { from, to, local_from, local_to });
            }
        }
        let spring = line.stiffness() / line.length();
        self.cords.push(Cord {
            line: index,
            parts: first_part..self.parts.len(),
            touched: first_touched..self.touched.len(),
            length: line.length(),
            spring,
            spring_now: spring,
            length_now: line.length(),
        });
    }

    fn measure(&mut self, rig: &Rig) {
        self.largest_load = 0.0;
        let mut size: f64 = 0.0;
        let mut total = 0.0;
        for line in rig.lines() {
            total += line.length();
            size = size.max(line.length());
        }
        for (node, &free) in self.free.iter().enumerate() {
            if free == FIXED {
                size = size.max(self.start[node].amax());
            } else {
                self.largest_load = self.largest_load.max(self.load[node].norm());
            }
        }
        let far = FARTHEST * (size + total);
        for (start, _) in self.start.iter_mut().zip(&self.free).filter(|&(_, &free)| free != FIXED) {
            *start = start.map(|number| number.max(-far).min(far));
        }
        self.mean_length = total / rig.lines().len().max(1) as f64;
        self.finest_grain = 2.0 * f64::EPSILON * size;
        self.grain = self.finest_grain;
    }

    fn lay_out_matrix(&mut self) {
        let Model { free, touched, cords, hanging, pairs, slots, diagonal, matrix, .. } = self;
        let number = |node: u32| free[node as usize];
        pairs.clear();
        for_each_coupling(touched, cords, hanging, |a, b| {
            let (a, b) = (number(a), number(b));
            if a != b && a != FIXED && b != FIXED {
                pairs.push((a, b));
            }
        });
        matrix.lay_out(self.free_nodes.len(), pairs);
        slots.clear();
        for_each_coupling(touched, cords, hanging, |a, b| {
            let (a, b) = (number(a), number(b));
            let none = a == b || a == FIXED || b == FIXED;
            slots.push(if none { Slot { index: FIXED, turned: false } } else { matrix.slot(a, b) });
        });
        diagonal.clear();
        diagonal.extend(free.iter().map(|&free| if free == FIXED { FIXED } else { matrix.diagonal_slot(free) }));
    }
}

/// Every two nodes a cord touches, then both ends of every line with weight.
#[expect(clippy::indexing_slicing, reason = "ranges of the model's own lists")]
fn for_each_coupling(touched: &[u32], cords: &[Cord], hanging: &[Hanging], mut visit: impl FnMut(u32, u32)) {
    for cord in cords {
        let touched = &touched[cord.touched.clone()];
        for (place, &a) in touched.iter().enumerate() {
            for &b in &touched[..place] {
                visit(a, b);
            }
        }
    }
    for line in hanging {
        visit(line.from, line.to);
    }
}

/// Place of a node in the list of the line's own nodes, added if it is new.
fn local(touched: &mut Vec<u32>, first: usize, node: u32) -> u32 {
    let own = touched.get(first..).unwrap_or_default();
    match own.iter().position(|&other| other == node) {
        Some(place) => place as u32,
        None => {
            touched.push(node);
            (touched.len() - first - 1) as u32
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rig_is_measured() {
        let mut rig = Rig::new();
        let near = rig.add_held("near", [1.0, 2.0, 3.0]).unwrap();
        let far = rig.add_held("far", [3.0, 2.0, 41.0]).unwrap();
        let master = rig.add_free("master", [2.0, 1.0, 0.0], [3.0, 0.0, -4.0]).unwrap();
        let lost = rig.add_free("lost", [1e15, -1e15, 5.0], [0.0, 0.0, -2.0]).unwrap();
        rig.add_line("one", &[near, master], 4.0, 1e4).unwrap();
        rig.add_line("two", &[far, lost, master], 10.0, 1e4).unwrap();
        rig.add_heavy_line("heavy", &[master, lost], 13.0, 1e4, 0.5).unwrap();
        let mut model = Model::default();
        model.build(&rig, |point| point);
        // Between the anchors, the farthest of which is 19 m from there; lines of 27 m in all, 9 m on average.
        assert_eq!(model.origin, Vector::new(2.0, 2.0, 22.0));
        assert_eq!((model.mean_length, model.finest_grain), (9.0, 2.0 * f64::EPSILON * 19.0));
        // Half of the weight of a line hangs at each of its ends: 3.25 N, so 3 N and 7.25 N.
        assert_eq!(model.largest_load, Vector::new(3.0, 0.0, -7.25).norm());
        // What starts beyond a million times the size of the rig is drawn in to there, and nothing else is.
        let edge = 1e6 * (19.0 + 27.0);
        assert_eq!(model.start[3], Vector::new(edge, -edge, -17.0));
        assert_eq!(model.start[2], Vector::new(0.0, -1.0, -22.0));
        assert_eq!(model.start[1], Vector::new(1.0, 0.0, 19.0));
    }
}
