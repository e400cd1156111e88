//! Loads that nothing holds: a group of connected points that bears load needs an anchor in it.

use super::Rig;

/// The points that bear load in groups without a held point.
#[expect(clippy::indexing_slicing, reason = "a rig only hands out indices of its own points")]
pub(super) fn unheld_points(rig: &Rig, groups: &mut Groups) -> Vec<usize> {
    let points = rig.points();
    groups.part(points.len());
    for line in rig.lines() {
        for pair in line.stops().windows(2) {
            groups.join(pair[0], pair[1]);
        }
    }
    // All anchors are one group: the ground.
    let ground = points.iter().position(|point| point.is_held());
    if let Some(ground) = ground {
        for (index, _) in points.iter().enumerate().filter(|(_, point)| point.is_held()) {
            groups.join(ground, index);
        }
    }
    let alone = |groups: &mut Groups, index| match ground {
        Some(ground) => groups.of(index) != groups.of(ground),
        None => true,
    };
    let mut loaded: Vec<bool> = points.iter().map(|point| point.load().amax() > 0.0).collect();
    for line in rig.lines().iter().filter(|line| line.weight() > 0.0) {
        for &end in line.stops() {
            loaded[end] = true;
        }
    }
    (0..points.len()).filter(|&index| loaded[index] && alone(groups, index)).collect()
}

/// Groups of indices that have been joined.
#[derive(Clone, Debug, Default)]
pub(super) struct Groups {
    parent: Vec<usize>,
}

#[expect(clippy::indexing_slicing, reason = "callers pass indices below the size given to `part`")]
impl Groups {
    /// `count` groups of one.
    pub(super) fn part(&mut self, count: usize) {
        self.parent.clear();
        self.parent.extend(0..count);
    }

    /// The index that stands for the group.
    pub(super) fn of(&mut self, mut index: usize) -> usize {
        while self.parent[index] != index {
            self.parent[index] = self.parent[self.parent[index]];
            index = self.parent[index];
        }
        index
    }

    /// Joins two groups; the one that stands for `into` goes on standing for both.
    pub(super) fn join(&mut self, into: usize, other: usize) {
        let (into, other) = (self.of(into), self.of(other));
        self.parent[other] = into;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_bears_load_or_weight_needs_an_anchor() {
        let mut rig = Rig::new();
        let mut groups = Groups::default();
        let low = rig.add_free("low", [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]).unwrap();
        let high = rig.add_free("high", [0.0, 0.0, 2.0], [0.0, 0.0, 0.0]).unwrap();
        let other = rig.add_free("other", [1.0, 0.0, 2.0], [0.0, 0.0, 0.0]).unwrap();
        // Nothing pulls anywhere.
        rig.add_line("light", &[high, other], 1.0, 1e4).unwrap();
        assert_eq!(unheld_points(&rig, &mut groups), [0_usize; 0]);
        // Both ends bear the weight of a line.
        rig.add_heavy_line("heavy", &[low, high], 2.0, 1e4, 0.5).unwrap();
        assert_eq!(unheld_points(&rig, &mut groups), [low.0, high.0]);
        // A load in any direction.
        rig.set_load(other, [0.0, -1.0, 0.0]).unwrap();
        assert_eq!(unheld_points(&rig, &mut groups), [low.0, high.0, other.0]);
        // An anchor that no line leads to holds nothing; one that a line leads to holds all that is joined.
        let bolt = rig.add_held("bolt", [0.0, 0.0, 3.0]).unwrap();
        let spare = rig.add_held("spare", [2.0, 0.0, 3.0]).unwrap();
        rig.add_line("between bolts", &[bolt, spare], 2.5, 1e4).unwrap();
        assert_eq!(unheld_points(&rig, &mut groups), [low.0, high.0, other.0]);
        rig.add_line("leg", &[spare, other], 1.0, 1e4).unwrap();
        assert_eq!(unheld_points(&rig, &mut groups), [0_usize; 0]);
    }
}
