//! What a load that is stuck makes, what a hitch gets that the load is set down on, and what of both goes on into other
//! questions.

use super::super::answer::Finding;
use super::super::carried::{Carried, HeldBy, larger};
use super::case::{Held, LOAD, ROPE, SLOT, Way, Ways, Worst};
use super::{RaiseLower, Shared};
use crate::band::Band;
use crate::law::OutOfDomain;

/// What is pulled when the load is stuck and everybody pulls hard.
pub(super) struct Jam {
    load: Finding,
    rope: Finding,
    /// On each that holds.
    pub(super) held: Vec<(Held, Finding)>,
    /// The hitch, should hands let go then.
    pub(super) hitch: Option<Finding>,
}

impl Jam {
    pub(super) fn findings(self) -> Vec<Finding> {
        let held = self.held.into_iter().map(|(_, finding)| finding);
        [self.load, self.rope].into_iter().chain(held).chain(self.hitch).collect()
    }
}

impl RaiseLower {
    pub(super) fn jam(&self, ways: &Ways, held: &[Held]) -> Result<Jam, OutOfDomain> {
        let total = f64::from(self.pullers) * self.hard.value;
        let (_, shape) = ways.one(Way::Jam)?;
        let part = |part: usize, what: String| {
            let band = shape.get(part).map_or(Band::exact(f64::NAN), |spread| spread.band);
            Finding::load(what, band.map(|times| times * total))
        };
        let on = |one: &Held| (*one, part(SLOT + one.slot, format!("on {}, jammed", one.name)));
        let (hung, anchor) = self.hitch();
        Ok(Jam {
            load: part(LOAD, "on the load, jammed".into()),
            rope: part(ROPE, "in the rope where it is pulled hardest, jammed".into()),
            held: held.iter().map(on).collect(),
            hitch: holds_a_hitch(held).then(|| part(hung, [anchor, ", jammed"].concat())),
        })
    }

    /// What an anchor gets when the load is set down on a hitch or clamp there, as it is whenever hands are changed or the
    /// haul is set anew, friction not counted: all of it if all is on one point, else the strand that pulls hardest.
    pub(super) fn on_a_hitch(&self, ways: &Ways, held: &[Held]) -> Result<Option<Finding>, OutOfDomain> {
        let (part, anchor) = self.hitch();
        let band = self.judged(ways, |way| way == Way::Bare, part)?;
        Ok(holds_a_hitch(held).then(|| Finding::load(self.state.of(anchor), band)))
    }

    /// What a hitch gets that the load is set down on, and what it is on.
    fn hitch(&self) -> (usize, &'static str) {
        match self.shared {
            Shared::One => (LOAD, "on the one anchor point, the load set down on a hitch there"),
            Shared::Each => (ROPE, "on the anchor of a hitch that the load is set down on"),
        }
    }

    /// Jammed, rope, anchors and whoever is stuck may get more than the load ever makes.
    pub(super) fn carried(
        &self,
        ways: &Ways,
        worst: &[Worst],
        hitch: Option<&Finding>,
        jam: &Jam,
    ) -> Result<Carried, OutOfDomain> {
        let load = self.people.spread(self.state)?.band;
        // Of several who hang one may be the one who is stuck.
        let stuck = jam.load.band.map(|force| force * f64::from(self.people.count));
        let rope = larger(self.judged(ways, |way| way != Way::Jam, ROPE)?, jam.rope.band);
        let hardest = worst.first();
        let jammed = jam.held.iter().filter(|(one, _)| !one.edge).map(|(_, finding)| finding);
        let others = jammed.chain(hitch).chain(&jam.hitch).map(|finding| finding.band);
        let anchor = others.fold(hardest.map_or(load, |one| one.loaded.band), larger);
        let by = match hardest {
            Some(one) if one.held.edge => HeldBy::Edge,
            _ => HeldBy::Said(self.against.holds),
        };
        let hung = larger(load, stuck);
        Ok(Carried { rope, point: anchor, anchor, ..Carried::by_rope(hung, self.people.count, by) })
    }
}

/// Edges of rock alone hold none.
fn holds_a_hitch(held: &[Held]) -> bool {
    held.iter().any(|one| !one.edge)
}
