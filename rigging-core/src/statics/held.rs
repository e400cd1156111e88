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
