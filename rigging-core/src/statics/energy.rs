//! The energy of a rig: its gradient (the forces left over) and its curvature (the stiffness).

use super::catenary::Pull;
use super::model::{FIXED, Model};
use super::space::{add, add_scaled, between, dot, outer, scaled};
use super::sparse::{BlockMatrix, Slot, renew};
use super::{Matrix, Vector};

/// Places of the nodes, and everything that follows from them.
#[derive(Clone, Debug, Default)]
pub(super) struct State {
    /// Relative to the model's origin (m).
    pub at: Vec<Vector>,
    /// Load plus pull of all lines (N): zero on a free node at rest, the reaction on a fixed one.
    pub force: Vec<Vector>,
    /// Direction and length of each part; the direction is shorter than 1 where a part is rounded.
    pub directions: Vec<Vector>,
    pub lengths: Vec<f64>,
    /// Tension (N) and length (m) of each cord.
    pub tensions: Vec<f64>,
    pub reaches: Vec<f64>,
    /// Of each line with weight.
    pub pulls: Vec<Option<Pull>>,
    bends: Vec<Vector>,
    /// Of the search: the step of every free node, and where it was taken from.
    pub step: Vec<Vector>,
    pub from: Vec<Vector>,
}

#[expect(clippy::indexing_slicing, reason = "model and state are built for the same rig")]
impl State {
    /// Goes to the start of a model.
    pub(super) fn begin(&mut self, model: &Model) {
        let most = model.cords.iter().map(|cord| cord.touched.len()).max().unwrap_or(0);
        self.at.clone_from(&model.start);
        for list in [&mut self.step, &mut self.from] {
            renew(list, model.free_nodes.len(), Vector::zeros());
        }
        renew(&mut self.force, model.start.len(), Vector::zeros());
        renew(&mut self.directions, model.parts.len(), Vector::zeros());
        renew(&mut self.lengths, model.parts.len(), 0.0);
        renew(&mut self.tensions, model.cords.len(), 0.0);
        renew(&mut self.reaches, model.cords.len(), 0.0);
        renew(&mut self.pulls, model.hanging.len(), None);
        renew(&mut self.bends, most, Vector::zeros());
    }

    /// Forces at the places `self.at`; parts of lines that run through points are rounded to
    /// `√(d² + ε²)` with `ε = rounding · L0`.
    pub(super) fn evaluate(&mut self, model: &Model, rounding: f64) {
        self.force.copy_from_slice(&model.load);
        for (index, cord) in model.cords.iter().enumerate() {
            let runs = cord.parts.len() > 1;
            let radius = if runs { rounding * cord.length } else { 0.0 };
            let mut reach = 0.0;
            for part in cord.parts.clone() {
                let ends = model.parts[part];
                let apart = between(&self.at[ends.from as usize], &self.at[ends.to as usize]);
                let length = (dot(&apart, &apart) + radius * radius).sqrt();
                self.directions[part] = if length > 0.0 { scaled(&apart, 1.0 / length) } else { Vector::zeros() };
                self.lengths[part] = length;
                reach += length;
            }
            self.reaches[index] = reach;
            let tension = cord.spring_now * (reach - cord.length_now - model.grain).max(0.0);
            self.tensions[index] = tension;
            if tension > 0.0 {
                for part in cord.parts.clone() {
                    let ends = model.parts[part];
                    add_scaled(&mut self.force[ends.from as usize], &self.directions[part], tension);
                    add_scaled(&mut self.force[ends.to as usize], &self.directions[part], -tension);
                }
            }
        }
        for (index, hanging) in model.hanging.iter().enumerate() {
            let span = self.at[hanging.to as usize] - self.at[hanging.from as usize] + hanging.shift;
            let mut catenary = hanging.catenary;
            catenary.compliance += hanging.softening;
            let near = self.pulls[index].as_ref().map(|pull| pull.middle);
            let pull = catenary.pull(span, near);
            self.force[hanging.from as usize] += pull.force;
            self.force[hanging.to as usize] -= pull.force;
            self.pulls[index] = Some(pull);
        }
    }

    /// Takes tensions up to a share of the scale for none.
    pub(super) fn silence(&mut self, model: &Model, share: f64) {
        let limit = share * self.scale(model);
        for (index, cord) in model.cords.iter().enumerate() {
            let tension = self.tensions[index];
            if tension > 0.0 && tension <= limit {
                self.tensions[index] = 0.0;
                for part in cord.parts.clone() {
                    let ends = model.parts[part];
                    let pull = self.directions[part] * tension;
                    self.force[ends.from as usize] -= pull;
                    self.force[ends.to as usize] += pull;
                }
            }
        }
    }

    /// Whether a taut line that runs through points has a part shorter than a share of its length.
    pub(super) fn at_stop(&self, model: &Model, share: f64) -> bool {
        model.cords.iter().zip(&self.tensions).any(|(cord, &tension)| {
            let runs = cord.parts.len() > 1 && tension > 0.0;
            runs && self.lengths[cord.parts.clone()].iter().any(|&length| length < share * cord.length)
        })
    }

    /// Largest force left over on a free node (N).
    pub(super) fn residual(&self, model: &Model) -> f64 {
        let mut largest: f64 = 0.0;
        for &node in &model.free_nodes {
            // A NaN must not be lost in the maximum.
            let force = &self.force[node as usize];
            let force = dot(force, force).sqrt();
            if !force.is_finite() {
                return f64::INFINITY;
            }
            largest = largest.max(force);
        }
        largest
    }

    /// What a force left over is measured against: the largest load or tension (N).
    pub(super) fn scale(&self, model: &Model) -> f64 {
        let mut largest = model.largest_load;
        for &tension in &self.tensions {
            largest = largest.max(tension);
        }
        for (hanging, pull) in model.hanging.iter().zip(&self.pulls) {
            if let Some(pull) = pull {
                let (first, last) = hanging.catenary.ends(pull.middle);
                largest = largest.max(first).max(last);
            }
        }
        largest
    }

    /// Fills the model's matrix with the curvature of the energy at the state last evaluated.
    ///
    /// A taut line adds `k A Aᵀ + t Σ (I − u uᵀ)/|d|`; a slack one adds nothing. Besides, each part
    /// resists any change of its ends' difference by `together` (N/m).
    pub(super) fn assemble(&mut self, model: &mut Model, together: f64) {
        model.together = together;
        let Model { parts, touched, cords, hanging, slots, diagonal, matrix, .. } = model;
        matrix.clear();
        let mut target = Target { matrix, slots, diagonal };
        let mut slot = 0;
        for (index, cord) in cords.iter().enumerate() {
            let nodes = &touched[cord.touched.clone()];
            let couplings = nodes.len() * nodes.len().saturating_sub(1) / 2;
            let tension = self.tensions[index];
            let single = cord.parts.len() == 1;
            for part in cord.parts.clone() {
                let (ends, length, u) = (parts[part], self.lengths[part], self.directions[part]);
                let across = if length > 0.0 { tension / length } else { 0.0 };
                let along = if single && tension > 0.0 { cord.spring_now - across } else { -across };
                let mut block = outer(&u, &scaled(&u, along));
                block.m11 += across + together;
                block.m22 += across + together;
                block.m33 += across + together;
                target.add_between(ends.from, ends.to, slot + ends.between(), &block);
            }
            if single || !(tension > 0.0) {
                slot += couplings;
                continue;
            }
            let bends = &mut self.bends[..nodes.len()];
            bends.fill(Vector::zeros());
            for part in cord.parts.clone() {
                let (ends, u) = (parts[part], self.directions[part]);
                add_scaled(&mut bends[ends.local_from as usize], &u, -1.0);
                add_scaled(&mut bends[ends.local_to as usize], &u, 1.0);
            }
            for (place, &a) in nodes.iter().enumerate() {
                let bend = scaled(&bends[place], cord.spring_now);
                let own = target.diagonal[a as usize];
                if own == FIXED {
                    continue;
                }
                add(&mut target.matrix.diagonal[own as usize], &outer(&bend, &bends[place]));
                for (other, other_bend) in bends[..place].iter().enumerate() {
                    let coupling = target.slots[slot + place * (place.max(1) - 1) / 2 + other];
                    if coupling.index != FIXED {
                        let block = if coupling.turned { outer(other_bend, &bend) } else { outer(&bend, other_bend) };
                        add(&mut target.matrix.lower[coupling.index as usize], &block);
                    }
                }
            }
            slot += couplings;
        }
        for (index, line) in hanging.iter().enumerate() {
            if let Some(pull) = &self.pulls[index]
                && line.from != line.to
            {
                target.add_between(line.from, line.to, slot + index, &pull.stiffness);
            }
        }
    }
}

/// Where blocks go.
struct Target<'a> {
    matrix: &'a mut BlockMatrix,
    slots: &'a [Slot],
    diagonal: &'a [u32],
}

impl Target<'_> {
    /// Adds a symmetric block that resists the two nodes moving apart.
    #[expect(clippy::indexing_slicing, reason = "nodes and slots come from the model")]
    #[inline]
    fn add_between(&mut self, from: u32, to: u32, slot: usize, block: &Matrix) {
        let (from, to) = (self.diagonal[from as usize], self.diagonal[to as usize]);
        if from != FIXED {
            add(&mut self.matrix.diagonal[from as usize], block);
        }
        if to != FIXED {
            add(&mut self.matrix.diagonal[to as usize], block);
            if from != FIXED {
                self.matrix.lower[self.slots[slot].index as usize] -= block;
            }
        }
    }
}

/// A rig as the solver sees it, at its start.
#[cfg(test)]
pub(super) fn begun(rig: &super::Rig) -> (Model, State) {
    let (mut model, mut state) = (Model::default(), State::default());
    model.build(rig, |point| point);
    state.begin(&model);
    (model, state)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::statics::Rig;

    #[test]
    fn a_line_that_is_silenced_pulls_nowhere_any_more() {
        let mut rig = Rig::new();
        let bolt = rig.add_held("bolt", [0.0, 0.0, 2.0]).unwrap();
        let other = rig.add_held("other", [1.0, 1.0, 2.0]).unwrap();
        let person = rig.add_free("person", [0.3, 0.4, 0.0], [5.0, 0.0, -800.0]).unwrap();
        rig.add_line("rope", &[bolt, person], 1.0, 1000.0).unwrap();
        rig.add_line("thread", &[other, person, bolt], 4.0, 1.0).unwrap();
        let (model, mut state) = begun(&rig);
        state.evaluate(&model, 0.0);
        let (rope, thread) = (state.tensions[0], state.tensions[1]);
        assert!(rope > 1000.0 && thread > 0.0 && thread < 1e-3 * rope, "{rope} {thread}");
        let before = state.clone();
        state.silence(&model, 1e-6);
        assert_eq!((&state.tensions, &state.force), (&before.tensions, &before.force));
        state.silence(&model, 1e-3);
        assert_eq!(state.tensions, [rope, 0.0]);
        // Without the thread there is only the rope; its pull on every point is that of a rig without it.
        let along = state.directions[0] * rope;
        let expected = [along, Vector::zeros(), Vector::new(5.0, 0.0, -800.0) - along];
        for (force, expected) in state.force.iter().zip(expected) {
            assert!((force - expected).norm() < 1e-12 * rope, "{force} {expected}");
        }
        // What is at the limit is taken for none too.
        state.silence(&model, 1.0);
        assert_eq!(state.tensions, [0.0, 0.0]);
    }
}
