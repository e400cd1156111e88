//! What the people hold in one case, and the sweep over all of them.

use super::super::people::State;
use super::{HumanAnchor, Stance, TRIAL_MASS, TRIAL_POUNDS};
use crate::band::{Band, Spread, sweep};
use crate::law::ground::{self, Directions};
use crate::law::{OutOfDomain, bend, gravity};
use crate::quantity::{Angle, Force, Length, Mass, Ratio, kilogram, metre, newton, pound_force, radian, ratio};
use std::f64::consts::FRAC_PI_2;

/// How a person gives way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    Dragged,
    Topples,
    Lifted,
    BeyondModel,
}

/// What one person holds, and how that person gives way first.
pub(super) struct Hold {
    pub(super) force: f64,
    pub(super) way: Way,
    pub(super) weight: f64,
    pub(super) push: f64,
    pub(super) slides: Option<Force>,
    pub(super) topples: Option<Force>,
    pub(super) lifts: Option<Force>,
}

impl HumanAnchor {
    pub(super) fn directions(&self) -> Directions {
        Directions {
            slope: Angle::new::<radian>(self.floor_falls.value.atan()),
            rope: Angle::new::<radian>(-(self.above_lip / self.to_lip).value.atan()),
        }
    }

    pub(super) fn spread(&self) -> Result<[Spread<8>; 7], OutOfDomain> {
        let [body, kit] = self.people.inputs();
        let slip = State::Slip.factor().0;
        let holder = self.holder.map(|mass| mass.value);
        let push = if self.stance == Stance::SeatedBraced { Band::of(0.25, 0.38, 0.50) } else { Band::exact(0.0) };
        let further = if self.holders > 1 { Band::of(0.0, 0.5, 0.8) } else { Band::exact(0.0) };
        let edge = self.edge.friction(true).0;
        let inputs = [body, kit, slip, holder, self.seat.friction().0, push, further, edge];
        let turn = Angle::new::<radian>((FRAC_PI_2 + self.directions().rope.value).max(0.0));
        sweep(inputs, |point| {
            let &[body, kit, factor, _, _, _, further, edge] = point;
            let alone = self.hold(point)?.force;
            let all = alone * (1.0 + f64::from(self.holders - 1) * further);
            let counted = bend::tight_side(Force::new::<newton>(all), Ratio::new::<ratio>(edge), turn)?.value;
            let still = self.people.weight_of_all(body, kit);
            Ok([all, alone, still, factor * still, all / still, all / (factor * still), counted])
        })
    }

    /// What the first person holds at one point of the ranges.
    pub(super) fn hold(&self, &[_, _, _, mass, friction, share, _, _]: &[f64; 8]) -> Result<Hold, OutOfDomain> {
        let weight = gravity::weight(Mass::new::<kilogram>(mass));
        let directions = self.directions();
        let trial = Force::new::<pound_force>(TRIAL_POUNDS) * (mass / TRIAL_MASS);
        let push =
            ground::push_of_feet(trial * share, weight, self.seat.friction().0.map(Ratio::new::<ratio>).typical())?;
        let geometry = self.stance.geometry();
        let metres = Length::new::<metre>;
        let slides = ground::slides_at(weight, Ratio::new::<ratio>(friction), push, directions)?;
        let topples = ground::person_topples_at(
            weight,
            metres(geometry.weight_behind_feet),
            metres(geometry.rope_above_feet),
            metres(geometry.rope_behind_feet),
            directions,
        )?;
        let lifts = ground::lifts_at(weight, directions)?;
        let ways = [(slides, Way::Dragged), (topples, Way::Topples), (lifts, Way::Lifted)];
        // Where nothing in the model gives way the trial value stands, for a person has other limits.
        let beyond = trial.value * share.max(0.25);
        let (mut force, mut way) = (f64::INFINITY, Way::BeyondModel);
        for (limit, how) in ways {
            if let Some(limit) = limit.filter(|limit| limit.value < force) {
                (force, way) = (limit.value, how);
            }
        }
        if slides.is_none() && beyond < force {
            (force, way) = (beyond, Way::BeyondModel);
        }
        Ok(Hold { force, way, weight: weight.value, push: push.value, slides, topples, lifts })
    }
}
