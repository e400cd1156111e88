//! What the people hold in one case, and the sweep over all of them.

use super::super::people::{self, State};
use super::list::{MOST, Person, Placed};
use super::{HumanAnchor, Stance, TRIAL_MASS};
use crate::band::{Band, Spread, sweep};
use crate::law::{OutOfDomain, bend, gravity, ground, side_slope};
use crate::quantity::{Angle, Force, Length, Mass, Ratio, kilogram, metre, newton, pound_force, radian, ratio};

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
    /// Where the rope pulls.
    pub(super) placed: Placed,
    pub(super) force: f64,
    pub(super) way: Way,
    pub(super) weight: f64,
    pub(super) push: f64,
    pub(super) trial: f64,
    pub(super) friction: f64,
    pub(super) slides: Option<Force>,
    pub(super) topples: Option<Force>,
    pub(super) lifts: Option<Force>,
    /// The least that drags, topples and lifts them, however the rope runs; infinite if nothing does.
    pub(super) ways: [f64; 3],
    /// Levers of toppling: of the weight, and height and distance of the rope, m.
    pub(super) levers: [f64; 3],
    /// What someone who slides without any rope pulls.
    pub(super) pulls: f64,
}

/// The uncertain inputs, in the order in which sweeps take them: the load's three first, then those of the holders.
pub(super) type Inputs = [f64; 8];

/// What is found of the whole line.
pub(super) struct Found {
    pub(super) all: Spread<8>,
    pub(super) alone: Spread<8>,
    pub(super) still: Spread<8>,
    pub(super) slip: Spread<8>,
    pub(super) ratio_still: Spread<8>,
    pub(super) ratio_slip: Spread<8>,
    pub(super) counted: Spread<8>,
}

/// The place in the range of friction, the same under everybody.
pub(super) fn friction() -> Band {
    Band::of(-1.0, 0.0, 1.0)
}

/// What is left of the trial for the minutes of a descent.
pub(super) fn minutes() -> Band {
    Band::of(0.25, 0.38, 0.50)
}

impl HumanAnchor {
    /// What reaches the rope at rest and in a slip, N.
    fn loads(&self, &[one, other, slip, ..]: &Inputs) -> Result<[f64; 2], OutOfDomain> {
        Ok(if self.is_hung() {
            [self.people.weight_of_all(one, other), self.people.load_of_all(State::Slip, one, other, slip)?]
        } else {
            [one, slip.max(one)]
        })
    }

    pub(super) fn found(&self) -> Result<Found, OutOfDomain> {
        let feet = self.stance.geometry().rope_behind_feet;
        if self.to_lip.value < feet {
            let must = "at least 0.65 m seated, 0.35 m with one foot forward, or the feet are beyond the lip";
            return Err(OutOfDomain { what: "way from the first person to the lip", value: self.to_lip.value, must });
        }
        let [one, other, slip] = if self.is_hung() {
            let [body, kit] = self.people.inputs();
            [body, kit, State::Slip.uncertain().0]
        } else {
            [self.still.map(|force| force.value), Band::exact(0.0), self.caught.map(|force| force.value)]
        };
        let further = if self.holders > 1 { Band::of(0.0, 0.5, 0.8) } else { Band::exact(0.0) };
        let holder = self.holder.map(|mass| mass.value);
        let edge = self.edge.friction(true).0;
        let inputs = [one, other, slip, holder, friction(), minutes(), further, edge];
        let (line, turn) = (self.line(), self.turn());
        let [all, alone, still, slip, ratio_still, ratio_slip, counted] = sweep(inputs, |point| {
            let &[_, _, _, _, _, _, _, edge] = point;
            let (alone, all) = self.together(&line, point)?;
            let counted = bend::tight_side(Force::new::<newton>(all), Ratio::new::<ratio>(edge), turn)?.value;
            let [still, slip] = self.loads(point)?;
            Ok::<_, OutOfDomain>([all, alone, still, slip, all / still, all / slip, counted])
        })?;
        Ok(Found { all, alone, still, slip, ratio_still, ratio_slip, counted })
    }

    /// What the first holds alone, and all together: the first until moved, each further one a share, less what
    /// those pull who slide without any rope.
    fn together(
        &self,
        line: &[Person],
        &[_, _, _, mass, place, share, further, _]: &Inputs,
    ) -> Result<(f64, f64), OutOfDomain> {
        let (mut alone, mut all) = (0.0, 0.0);
        for (number, placed) in line.iter().take(MOST).enumerate() {
            let hold = self.hold(placed, mass, place, share)?;
            if number == 0 {
                alone = hold.force;
            }
            all += hold.force * if number == 0 { 1.0 } else { further } - hold.pulls;
        }
        Ok((alone, all.max(0.0)))
    }

    /// What one person holds: the mass of the first, the place in the range of friction, the share of the trial.
    pub(super) fn hold(&self, person: &Person, mass: f64, place: f64, share: f64) -> Result<Hold, OutOfDomain> {
        let [as_pulled, straight] = person;
        let mut hold = self.held(as_pulled, mass, place, share)?;
        if as_pulled.aside > 0.0 || as_pulled.across > 0.0 {
            let straight = self.held(straight, mass, place, share)?;
            let pulls = hold.pulls.max(straight.pulls);
            let ([a, b, c], [x, y, z]) = (hold.ways, straight.ways);
            let ways = [a.min(x), b.min(y), c.min(z)];
            hold = Hold { pulls, ways, ..if straight.force < hold.force { straight } else { hold } };
        }
        Ok(hold)
    }

    fn held(&self, placed: &Placed, mass: f64, place: f64, share: f64) -> Result<Hold, OutOfDomain> {
        let mass = placed.mass.unwrap_or(mass);
        let weight = gravity::weight(Mass::new::<kilogram>(mass));
        let (directions, side) = (placed.directions(), placed.side_slope());
        let seat = self.seat.under(placed.stance);
        // The rope outside the feet, or someone pulled sideways: half, as in the trials.
        let share = if placed.is_straight() { share } else { share / 2.0 };
        let trial = Force::new::<pound_force>(placed.stance.trial()) * (mass / TRIAL_MASS) * share;
        let push = if placed.stance == Stance::SeatedBraced {
            ground::push_of_feet(trial, weight, Ratio::new::<ratio>(seat.trial_friction()))?
        } else {
            Force::new::<newton>(0.0)
        };
        let friction = seat.friction_at(place);
        let aside = Angle::new::<radian>(placed.aside);
        let must = "between −90° and 90°: set the height above the lip or the fall of the floor smaller";
        let slides = side_slope::slides_at(weight, Ratio::new::<ratio>(friction), push, aside, directions, side)
            .map_err(|error| OutOfDomain { must, ..error })?;
        let rubs = Ratio::new::<ratio>(friction);
        let pulls = side_slope::pulls_by_itself(weight, rubs, push, aside, directions, side)?.value;

        let tips = |[behind, height, back]: [f64; 3]| {
            let metres = Length::new::<metre>;
            ground::person_topples_at(weight, metres(behind), metres(height), metres(back), directions)
        };
        let geometry = placed.stance.geometry();
        // Feet on a floor that falls are lower than the rest of the body.
        let height = placed.lever + geometry.rope_behind_feet * placed.along.max(0.0);
        let mut levers = [geometry.weight_behind_feet, height, geometry.rope_behind_feet];
        let mut topples = tips(levers)?;
        let to_one_side = [geometry.to_side, placed.lever * placed.aside.sin(), geometry.to_side];
        if let Some(force) = tips(to_one_side)?.filter(|force| topples.is_none_or(|other| *force < other)) {
            (topples, levers) = (Some(force), to_one_side);
        }
        let lifts = ground::lifts_at(weight * side.value.cos(), directions)?;

        let ways = [(slides, Way::Dragged), (topples, Way::Topples), (lifts, Way::Lifted)];
        // However the rope runs, nobody holds more than people held in the trials.
        let (mut force, mut way) = (trial.value, Way::Tires);
        for (limit, how) in ways {
            if let Some(limit) = limit.filter(|limit| limit.value < force) {
                (force, way) = (limit.value, how);
            }
        }
        let ways = ways.map(|(limit, _)| limit.map_or(f64::INFINITY, |limit| limit.value));
        let (weight, push, trial) = (weight.value, push.value, trial.value);
        let placed = *placed;
        Ok(Hold { placed, force, way, weight, push, trial, friction, slides, topples, lifts, ways, levers, pulls })
    }

    /// What the inputs of the sweep are called.
    pub(super) fn labels(&self) -> [&'static str; 8] {
        let [one, other, slip] = if self.is_hung() {
            [people::LABELS[0], people::LABELS[1], "how hard the slip is"]
        } else {
            ["force at rest", "", "force at the catch"]
        };
        [
            one,
            other,
            slip,
            "mass of those who hold",
            "friction of the seat",
            "strength over the minutes",
            "what each further person adds",
            "friction of the edge",
        ]
    }
}
