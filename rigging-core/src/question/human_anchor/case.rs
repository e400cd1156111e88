//! What the people hold in one case, and the sweep over all of them.

use super::super::people::State;
use super::{HumanAnchor, Stance, TRIAL_MASS};
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
    Tires,
}

/// What one person holds, and how that person gives way first.
pub(super) struct Hold {
    pub(super) force: f64,
    pub(super) way: Way,
    pub(super) weight: f64,
    pub(super) push: f64,
    pub(super) trial: f64,
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
        let slip = State::Slip.uncertain().0;
        let holder = self.holder.map(|mass| mass.value);
        let share = Band::of(0.25, 0.38, 0.50);
        let further = if self.holders > 1 { Band::of(0.0, 0.5, 0.8) } else { Band::exact(0.0) };
        let edge = self.edge.friction(true).0;
        let inputs = [body, kit, slip, holder, self.seat.friction().0, share, further, edge];
        let turn = Angle::new::<radian>((FRAC_PI_2 + self.directions().rope.value).max(0.0));
        sweep(inputs, |point| {
            let &[body, kit, stiffness, _, _, _, further, edge] = point;
            let alone = self.hold(point)?.force;
            let all = alone * (1.0 + f64::from(self.holders.saturating_sub(1)) * further);
            let counted = bend::tight_side(Force::new::<newton>(all), Ratio::new::<ratio>(edge), turn)?.value;
            let still = self.people.weight_of_all(body, kit);
            let slip = self.people.load_of_all(State::Slip, body, kit, stiffness)?;
            Ok([all, alone, still, slip, all / still, all / slip, counted])
        })
    }

    /// What the first person holds at one point of the ranges.
    pub(super) fn hold(&self, &[_, _, _, mass, friction, share, _, _]: &[f64; 8]) -> Result<Hold, OutOfDomain> {
        let weight = gravity::weight(Mass::new::<kilogram>(mass));
        let directions = self.directions();
        let trial = Force::new::<pound_force>(self.stance.trial()) * (mass / TRIAL_MASS) * share;
        let push = if self.stance == Stance::SeatedBraced {
            ground::push_of_feet(trial, weight, self.seat.friction().0.map(Ratio::new::<ratio>).typical())?
        } else {
            Force::new::<newton>(0.0)
        };
        let geometry = self.stance.geometry();
        let metres = Length::new::<metre>;
        let must = "between −90° and 90°: set the height above the lip or the fall of the floor smaller";
        let slides = ground::slides_at(weight, Ratio::new::<ratio>(friction), push, directions)
            .map_err(|error| OutOfDomain { must, ..error })?;
        let topples = ground::person_topples_at(
            weight,
            metres(geometry.weight_behind_feet),
            metres(geometry.rope_above_feet),
            metres(geometry.rope_behind_feet),
            directions,
        )?;
        let lifts = ground::lifts_at(weight, directions)?;
        let ways = [(slides, Way::Dragged), (topples, Way::Topples), (lifts, Way::Lifted)];
        // However the rope runs, nobody holds more than people held in the trials.
        let (mut force, mut way) = (trial.value, Way::Tires);
        for (limit, how) in ways {
            if let Some(limit) = limit.filter(|limit| limit.value < force) {
                (force, way) = (limit.value, how);
            }
        }
        Ok(Hold { force, way, weight: weight.value, push: push.value, trial: trial.value, slides, topples, lifts })
    }
}
