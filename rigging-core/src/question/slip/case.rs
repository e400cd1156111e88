//! One solved slip, and the sweep over all of them.

use super::super::people;
use super::{InTheWay, Slip, SlipEvent, SlipsAt};
use crate::band::{Band, Spread, sweep};
use crate::law::{OutOfDomain, bend, fall, gravity, leg_failure, swing};
use crate::quantity::{Angle, Force, Length, Mass, Ratio, Velocity, kilogram, metre, newton, ratio};
use crate::working::Source;

/// Values of the uncertain inputs, SI, in the order of [`INPUTS`].
pub(super) type Inputs = [f64; 7];

/// The uncertain inputs as the page calls them.
pub(super) const INPUTS: [&str; 7] = [
    people::LABELS[0],
    people::LABELS[1],
    "stiffness of what catches",
    "stiffness of the leg that is left",
    "friction of the edge",
    "force at which the device slips",
    "how much the rope bears when it begins",
];

/// One solved slip, forces N, lengths m.
#[derive(Debug, Clone, Copy)]
pub(super) struct Case {
    /// Weight of all who fall together.
    pub(super) weight: f64,
    /// What rope and anchor give under it.
    pub(super) gives: f64,
    /// Largest pull, the edge not counted.
    pub(super) peak: f64,
    /// The same behind the edge, and before it, its friction counted.
    pub(super) behind: f64,
    pub(super) before: f64,
    /// Stretch of rope and anchor at the peak.
    pub(super) stretch: f64,
    /// Rope that ran through the device.
    pub(super) travel: f64,
    /// The same where the rope behind an edge does not stretch: more runs through then.
    pub(super) through: f64,
    /// From where it began to the lowest point.
    pub(super) fallen: f64,
    /// Largest pull to the side.
    pub(super) sideways: f64,
}

/// The same over all the values.
pub(super) struct Spreads {
    pub(super) peak: Spread<7>,
    pub(super) behind: Spread<7>,
    pub(super) before: Spread<7>,
    pub(super) stretch: Spread<7>,
    pub(super) travel: Spread<7>,
    pub(super) fallen: Spread<7>,
    pub(super) sideways: Spread<7>,
}

/// Angle from plumb (rad) beyond which a swing may pull harder when it comes back than on its first swing.
pub(super) const STEEP: f64 = std::f64::consts::FRAC_PI_6;

/// Mass of the person whose weight tells what the anchor gives, kg.
const ONE_PERSON: f64 = 95.0;

fn newtons(force: f64) -> Force {
    Force::new::<newton>(force)
}

impl Slip {
    /// Stiffness of what catches, N, for each who has a tail of their own or for all on one rope.
    pub(super) fn stiffness(&self) -> (Band, Source) {
        match self.event {
            SlipEvent::Tail => self.made.stiffness(),
            _ => self
                .catcher
                .stiffness()
                .unwrap_or_else(|| (self.own_stiffness.map(|stiffness| stiffness.value), Source::YOURS)),
        }
    }

    /// How many strands like that catch side by side.
    pub(super) fn strands(&self) -> f64 {
        if self.event == SlipEvent::Tail { f64::from(self.people.count) } else { 1.0 }
    }

    /// What catches, from the anchor to the person.
    pub(super) fn length(&self) -> Length {
        if self.event == SlipEvent::Tail { self.sling } else { self.rope }
    }

    /// Free fall until that comes tight.
    pub(super) fn free_fall(&self) -> Length {
        match self.event {
            SlipEvent::Slack | SlipEvent::Slips => self.slack,
            SlipEvent::Tail => self.sling + self.above,
            SlipEvent::Fails => self.drop,
            SlipEvent::Stopped | SlipEvent::Swing => Length::new::<metre>(0.0),
        }
    }

    /// What the anchor gives under a weight (N).
    pub(super) fn anchor_gives(&self, weight: f64) -> Length {
        self.anchor_gives * (weight / gravity::weight(Mass::new::<kilogram>(ONE_PERSON)).value)
    }

    /// Angle of the rope from plumb where a swing begins.
    pub(super) fn begins(&self) -> Result<Angle, OutOfDomain> {
        swing::from_plumb(self.out, self.rope)
    }

    /// Angle of the rope from plumb where a swing meets the wall, or turns.
    pub(super) fn ends(&self) -> Result<Angle, OutOfDomain> {
        match self.obstacle {
            InTheWay::Wall => swing::from_plumb(self.wall_out, self.rope),
            InTheWay::None => Ok(-self.begins()?),
        }
    }

    pub(super) fn inputs(&self) -> [Band; 7] {
        let [body, kit] = self.people.inputs();
        let none = Band::exact(0.0);
        let legs = if self.event == SlipEvent::Fails { self.made.stiffness().0 } else { Band::exact(1.0) };
        let friction = if self.event.has_edge() { self.edge.friction(true).0 } else { none };
        let slips = if self.event == SlipEvent::Slips { self.slips_at.map(|force| force.value) } else { none };
        let share = match self.event {
            SlipEvent::Fails | SlipEvent::Swing => Band::of(0.0, 0.0, 1.0),
            _ => none,
        };
        [body, kit, self.stiffness().0, legs, friction, slips, share]
    }

    pub(super) fn case(&self, point: &Inputs) -> Result<Case, OutOfDomain> {
        let &[body, kit, stiffness, legs, friction, slips, share] = point;
        let weight = self.people.weight_of_all(body, kit);
        let force = newtons(weight);
        let (stiffness, length, fall) = (stiffness * self.strands(), self.length(), self.free_fall());
        let anchor_gives = self.anchor_gives(weight);
        let give = fall::gives(force, newtons(stiffness), length, anchor_gives)?;
        let of = |peak: f64| peak / weight * give.value;
        let case = |peak: f64, fallen: f64| Case {
            weight,
            gives: give.value,
            peak,
            behind: peak,
            before: peak,
            stretch: of(peak),
            travel: 0.0,
            through: 0.0,
            fallen,
            sideways: 0.0,
        };
        match self.event {
            SlipEvent::Fails => {
                let leg = fall::gives(force, newtons(legs), self.sling, anchor_gives)?;
                let rope = fall::gives(force, newtons(stiffness), self.rope, Length::default())?;
                let caught = leg_failure::peak(force, self.drop, leg, rope)?;
                let (computed, most) = (caught.computed.value, caught.most.value);
                let peak = computed + share * (most - computed);
                let stretch = peak / weight * (leg + rope).value;
                // Before it the rope was stretched by the weight; at the most it is counted as loose.
                let fallen = fall.value - (1.0 - share) * rope.value + stretch;
                Ok(Case { gives: (leg + rope).value, stretch, ..case(peak, fallen) })
            }
            SlipEvent::Swing => {
                let begins = self.begins()?;
                let [rigid, aside] = [swing::peak(force, begins)?, swing::sideways(force, begins)?.pull];
                let elastic = swing::on_elastic(force, newtons(stiffness), begins)?;
                let between = |low: Force, high: Force| (low + (high - low) * share).value;
                let peak = between(rigid, elastic.peak);
                let stretch = peak / stiffness * self.rope.value;
                let fallen = swing::equal_fall(self.rope, begins, Angle::default())?.value + stretch;
                Ok(Case { stretch, sideways: between(aside, elastic.sideways), ..case(peak, fallen) })
            }
            SlipEvent::Slack | SlipEvent::Tail | SlipEvent::Slips | SlipEvent::Stopped => {
                // Rope and anchor behind the edge bear e^(μφ) times less, and give as much less.
                let edge = bend::tight_to_slack(Ratio::new::<ratio>(friction), self.edge_turn)?.value;
                let elastic = |less: f64| match self.event {
                    SlipEvent::Stopped => fall::stopped(force, give / less, self.speed),
                    _ => fall::caught(force, give / less, fall, Velocity::default()),
                };
                let (mut peak, mut before) = (elastic(1.0)?.value, elastic(edge)?.value);
                let (mut travel, mut through) = (0.0, 0.0);
                if self.event == SlipEvent::Slips {
                    let braked = fall::braked(force, give, fall, newtons(slips))?;
                    (peak, travel) = (braked.peak.value, braked.travel.value);
                    // Rope that the edge keeps from stretching comes through the device instead.
                    let stiffer = fall::braked(force, give / edge, fall, newtons(slips))?;
                    through = stiffer.travel.value.max(travel);
                    // A device at the anchor has the friction of the edge to help it.
                    before = before.min(if self.slipping == SlipsAt::Anchor { slips * edge } else { slips });
                }
                let hung = if self.event == SlipEvent::Stopped { give.value } else { 0.0 };
                let fallen = fall.value + of(peak) - hung + travel;
                Ok(Case { behind: before / edge, before, travel, through, ..case(peak, fallen) })
            }
        }
    }

    pub(super) fn spread(&self) -> Result<Spreads, OutOfDomain> {
        let [peak, behind, before, stretch, travel, fallen, sideways] = sweep(self.inputs(), |point| {
            let case = self.case(point)?;
            Ok::<_, OutOfDomain>([
                case.peak,
                case.behind,
                case.before,
                case.stretch,
                case.through,
                case.fallen,
                case.sideways,
            ])
        })?;
        Ok(Spreads { peak, behind, before, stretch, travel, fallen, sideways })
    }
}
