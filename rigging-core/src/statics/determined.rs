//! Which points have only one place to be.
//!
//! Tensions at rest are unique, places need not be: a point on slack lines, or a ring on a
//! straight line, can move without any line noticing. Such motions are the null space of the
//! stiffness `H`. With `S = diag(H)^(-1/2)` and a small `δ`, `δ (S H S + δ I)⁻¹ b` is the part of `b`
//! in that null space, up to order `δ`.

use super::Vector;
use super::energy::State;
use super::model::Model;

/// Pivots above this share of their diagonal leave no doubt.
const CLEAR: f64 = 1e-7;
/// What holds a step back does not show in such pivots if it is at most this share of the least stiffness.
const HELD_BACK: f64 = 1e-9;
/// Share of the stiffness in its own direction below which a motion meets no resistance.
const FREE: f64 = 1e-12;

/// The nodes whose place is not unique, in order.
#[expect(clippy::indexing_slicing, reason = "indices come from the model")]
pub(super) fn undetermined(model: &mut Model, state: &mut State) -> Vec<u32> {
    let count = model.free_nodes.len();
    // If every line pulls, none has left since the last step: its factors show enough, unless what held that step back
    // may be what they show.
    let all_pull = state.tensions.iter().all(|&tension| tension > 0.0);
    let bare = model.together <= HELD_BACK * model.matrix.least();
    if all_pull && bare && model.matrix.smallest_pivot() > CLEAR {
        return Vec::new();
    }
    state.assemble(model, 0.0);
    if model.matrix.factorise(0.0, 0.0) && model.matrix.smallest_pivot() > CLEAR {
        return Vec::new();
    }
    let slots: Vec<usize> = (0..count as u32).map(|point| model.matrix.diagonal_slot(point) as usize).collect();
    let scale: Vec<Vector> = slots
        .iter()
        .map(|&slot| {
            let block = &model.matrix.diagonal[slot];
            Vector::new(block.m11, block.m22, block.m33)
        })
        .collect();
    if !model.matrix.factorise(f64::MIN_POSITIVE, FREE) {
        return model.free_nodes.clone();
    }
    let mut free_to_move = vec![false; count];
    // A fixed sequence without pattern: no motion of a rig is at right angles to all of them.
    let mut seed = 0.5_f64;
    for _ in 0..3 {
        let mut right = Vec::with_capacity(count);
        for own in &scale {
            right.push(own.map(|entry| {
                seed = (seed + 0.618_033_988_749_895).fract();
                (0.5 + seed) * entry.sqrt() * FREE
            }));
        }
        model.matrix.solve(&mut right);
        for ((moved, own), free) in right.iter().zip(&scale).zip(&mut free_to_move) {
            let share = moved.component_mul(&own.map(f64::sqrt)).amax();
            *free |= own.min() <= 0.0 || !(share < 1e-3);
        }
    }
    model.free_nodes.iter().zip(free_to_move).filter(|(_, free)| *free).map(|(&node, _)| node).collect()
}

#[cfg(test)]
mod tests {
    use crate::statics::{PointId, Rig, Settings, Vector, solve};

    /// Whether a point of a rig has only one place to be.
    fn is_determined(rig: &Rig, point: PointId) -> bool {
        let solution = solve(rig, &Settings::default());
        solution.balanced().unwrap().point(point).unwrap().determined
    }

    /// A master point that hangs on two legs and can be nowhere else.
    fn master_point() -> (Rig, PointId) {
        let mut rig = Rig::new();
        let left = rig.add_held("left", [-1.0, 0.2, 0.0]).unwrap();
        let right = rig.add_held("right", [1.0, 0.0, 0.1]).unwrap();
        let back = rig.add_held("back", [0.1, 2.0, 0.0]).unwrap();
        let master = rig.add_free("master", [0.0, 0.5, -1.0], [0.0, 0.0, -800.0]).unwrap();
        for (name, anchor) in [("left leg", left), ("right leg", right), ("back leg", back)] {
            rig.add_line(name, &[anchor, master], 1.5, 3e4).unwrap();
        }
        (rig, master)
    }

    /// A line set straight, with this tension (N), through a ring that nothing pulls.
    fn add_ring(rig: &mut Rig, tension: f64, stiffness: f64) -> PointId {
        let (near, far) = ([3.0, 0.0, 0.0], [7.0, 2.0, 4.0]);
        let near_id = rig.add_held("near", near).unwrap();
        let far_id = rig.add_held("far", far).unwrap();
        let ring = rig.add_free("ring", [4.2, 0.6, 1.2], [0.0, 0.0, 0.0]).unwrap();
        let length = 6.0 / (1.0 + tension / stiffness);
        rig.add_line("straight", &[near_id, ring, far_id], length, stiffness).unwrap();
        ring
    }

    #[test]
    fn a_ring_slides_along_a_straight_line_while_a_master_point_stays() {
        let (mut rig, master) = master_point();
        assert!(is_determined(&rig, master));
        // Every line pulls, and yet the ring is free.
        let ring = add_ring(&mut rig, 500.0, 3e4);
        assert!(!is_determined(&rig, ring));
        assert!(is_determined(&rig, master));
        // A tail holds it where it is, on a line that bends.
        let tail_end = rig.add_held("tail end", [4.2, 0.6, 0.0]).unwrap();
        rig.add_line("tail", &[tail_end, ring], 0.8, 3e4).unwrap();
        assert!(is_determined(&rig, ring));
    }

    /// Rounding makes next to nothing of a stiffness along the line that is none, in some directions more than 0.
    #[test]
    fn a_ring_slides_along_a_straight_line_in_whatever_direction_it_runs() {
        for number in 0..12 {
            let (turn, slope) = (0.4 + 0.5 * f64::from(number), 0.1 * f64::from(number) - 0.5);
            let far = Vector::new(6.0 * turn.cos(), 6.0 * turn.sin(), 6.0 * slope);
            for (share, tension) in [(0.25, 500.0), (0.4, 1.0)] {
                let mut rig = Rig::new();
                let near_id = rig.add_held("near", [0.0; 3]).unwrap();
                let far_id = rig.add_held("far", far).unwrap();
                let ring = rig.add_free("ring", far * share, [0.0; 3]).unwrap();
                let length = far.norm() / (1.0 + tension / 3e4);
                rig.add_line("straight", &[near_id, ring, far_id], length, 3e4).unwrap();
                assert!(!is_determined(&rig, ring), "{far} {share}");
            }
        }
    }

    /// One step brings a load on a plumb line to rest from anywhere above: that step was held back, and so was the ring.
    #[test]
    fn what_holds_a_step_back_holds_no_ring() {
        let (near, far) = ([0.0; 3], [6.0, -6.0, 0.0]);
        let mut rig = Rig::new();
        let bolt = rig.add_held("bolt", [9.0, 0.0, 0.0]).unwrap();
        let load = rig.add_free("load", [9.0, 0.0, -1.0], [0.0, 0.0, -100.0]).unwrap();
        rig.add_line("rope", &[bolt, load], 1.0, 3e4).unwrap();
        let (near, far) = (rig.add_held("near", near).unwrap(), rig.add_held("far", far).unwrap());
        let ring = rig.add_free("ring", [2.0, -2.0, 0.0], [0.0; 3]).unwrap();
        rig.add_line("straight", &[near, ring, far], 72_f64.sqrt() / (1.0 + 500.0 / 3e4), 3e4).unwrap();
        assert!(!is_determined(&rig, ring));
        assert!(is_determined(&rig, load));
    }

    /// What the points are pushed with may not fade from point to point: at right angles to this line that is no push at
    /// all.
    #[test]
    fn a_ring_slides_along_a_straight_line_however_many_points_come_before_it() {
        let mut rig = Rig::new();
        for number in 0..6 {
            let at = 10.0 + f64::from(number);
            let anchor = rig.add_held(format!("anchor {number}"), [at, 0.0, 0.0]).unwrap();
            let load = rig.add_free(format!("load {number}"), [at, 0.0, -1.0], [0.0, 0.0, -100.0]).unwrap();
            rig.add_line(format!("rope {number}"), &[anchor, load], 1.0 / (1.0 + 100.0 / 3e4), 3e4).unwrap();
        }
        let near = rig.add_held("near", [0.0; 3]).unwrap();
        let far = rig.add_held("far", [6.0, -6.0, 0.0]).unwrap();
        let ring = rig.add_free("ring", [2.0, -2.0, 0.0], [0.0; 3]).unwrap();
        rig.add_line("straight", &[near, ring, far], 72_f64.sqrt() / (1.0 + 500.0 / 3e4), 3e4).unwrap();
        assert!(!is_determined(&rig, ring));
        assert!(is_determined(&rig, rig.point_named("load 0").unwrap()));
    }

    #[test]
    fn what_hangs_on_a_slack_line_could_be_elsewhere() {
        let (mut rig, master) = master_point();
        let end = rig.add_free("end", [0.0, 0.5, -1.2], [0.0, 0.0, 0.0]).unwrap();
        let beyond = rig.add_free("beyond", [0.0, 0.7, -1.2], [0.0, 0.0, 0.0]).unwrap();
        rig.add_line("slack", &[master, end], 2.0, 3e4).unwrap();
        rig.add_line("slack too", &[end, beyond], 2.0, 3e4).unwrap();
        assert!(!is_determined(&rig, end));
        assert!(!is_determined(&rig, beyond));
        assert!(is_determined(&rig, master));
        // The first of them is held from elsewhere, the second is not.
        let (below, aside) = ([0.3, 0.5, -3.0], [2.0, 1.0, -2.0]);
        for (name, at) in [("below", below), ("aside", aside)] {
            let anchor = rig.add_held(name, at).unwrap();
            rig.add_line(format!("{name} end"), &[anchor, end], 0.5, 3e4).unwrap();
        }
        let behind = rig.add_held("behind", [-2.0, -1.0, -1.5]).unwrap();
        rig.add_line("behind end", &[behind, end], 0.5, 3e4).unwrap();
        assert!(is_determined(&rig, end));
        assert!(!is_determined(&rig, beyond));
    }

    /// Ten million times as stiff along the line as across it, and still nowhere else to be.
    #[test]
    fn what_is_held_weakly_is_held() {
        let mut rig = Rig::new();
        let left = rig.add_held("left", [0.0, 0.0, 0.0]).unwrap();
        let right = rig.add_held("right", [2.0, 0.0, 0.0]).unwrap();
        let knot = rig.add_free("knot", [1.0, 0.0, 0.0], [0.0, 0.0, 0.0]).unwrap();
        let stiffness = 1e7;
        for (name, anchor) in [("left part", left), ("right part", right)] {
            rig.add_line(name, &[anchor, knot], 1.0 / (1.0 + 1.0 / stiffness), stiffness).unwrap();
        }
        assert!(is_determined(&rig, knot));
        // A ring on such a line is not held along it.
        let ring = add_ring(&mut rig, 1.0, stiffness);
        assert!(!is_determined(&rig, ring));
        assert!(is_determined(&rig, knot));
    }
}
