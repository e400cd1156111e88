//! One solved case of the line, and the sweep over all of them.

use super::super::input::BadInput;
use super::super::people::State;
use super::rigged::{Hung, Rigged};
use super::slip::Caught;
use super::{Line, Meets, OnLine, Setting, Way};
use crate::band::{Band, Spread, sweep};
use crate::law::OutOfDomain;
use crate::law::gravity;
use crate::law::rope;
use crate::quantity::{Length, metre};
use crate::statics::Vector;

/// The line, the load on it in newtons, hanging still and at the lowest point of a slip.
#[derive(Debug, Clone)]
pub(super) struct Case {
    pub(super) rigged: Rigged,
    pub(super) rest: Hung,
    /// Moving in the hardest jerks.
    pub(super) jerks: Hung,
    pub(super) slip: Hung,
    /// The most of that slip.
    pub(super) caught: Caught,
}

/// What is uncertain: weight of all who hang (N), span (m), how the line is set, stiffness (N).
pub(super) type Inputs = [f64; 4];

/// Where each result of the sweep stands. The first four are of the anchor that is pulled hardest: on a slip, hanging
/// still, moving steadily at the most, moving in jerks at the most.
pub(super) mod found {
    pub const NEAR_SLIP: usize = 4;
    pub const FAR_SLIP: usize = 5;
    pub const NEAR: usize = 6;
    pub const FAR: usize = 7;
    pub const SAG_SLIP: usize = 8;
    pub const SAG: usize = 9;
    pub const BELOW: usize = 10;
    pub const ALONG: usize = 11;
    /// Of the intermediate anchors, on a slip.
    pub const BETWEEN_SLIP: usize = 12;
    /// And hanging still.
    pub const BETWEEN: usize = 15;
    /// In the line beside the load, in the hardest of the states.
    pub const LINE: usize = 18;
    /// On the cow's tail, on a slip or in jerks.
    pub const TAIL: usize = 19;
    pub const COUNT: usize = 20;
}

/// How much more a wet line weighs, at most.
pub(super) const WET: f64 = 1.5;

impl Line {
    /// The uncertain inputs.
    pub(super) fn inputs(&self) -> [Band; 4] {
        let [body, kit] = self.people.inputs();
        let weight = |end: fn(&Band) -> f64| self.people.weight_of_all(end(&body), end(&kit));
        let set = match self.setting {
            Setting::Sag => self.sag.map(|sag| sag.value),
            Setting::PreTension => self.pre_tension.map(|tension| tension.value),
            Setting::Slack => self.slack.map(|slack| slack.value),
        };
        [
            Band::of(weight(Band::low), weight(Band::typical), weight(Band::high)),
            self.span.map(|span| span.value),
            set,
            self.stiffness.map(|stiffness| stiffness.value),
        ]
    }

    /// Body mass and kit of one person (kg) that make a weight of all.
    pub(super) fn body_and_kit(&self, weight: f64) -> (f64, f64) {
        let [body, kit] = self.people.inputs();
        let least = self.people.weight_of_all(body.low(), kit.low());
        let most = self.people.weight_of_all(body.high(), kit.high());
        let share = (weight - least) / (most - least).max(f64::MIN_POSITIVE);
        let at = |band: Band| band.low() + share * (band.high() - band.low());
        (at(body), at(kit))
    }

    /// Every result over the ranges, in the order of [`found`].
    pub(super) fn spread(&self) -> Result<[Spread<4>; found::COUNT], BadInput> {
        let moving = State::Descending.uncertain().0.high();
        let jerks = State::Jerky.uncertain().0;
        sweep(self.inputs(), |point| {
            let mut ready = self.rigged(point)?.ready()?;
            let [weight, ..] = *point;
            let rest = ready.at_rest(weight)?;
            let (moving, jerks) = (ready.at_rest(moving * weight)?, ready.at_rest(jerks.high() * weight)?);
            let slip = ready.slip(weight, self.falls())?;
            let caught = ready.caught(&slip, weight, self.falls())?;
            let (rest, slip, rigged) = (&rest, &slip, &ready.rigged);
            let on = |hung: &Hung, place: usize| hung.on.get(place).map_or(0.0, |force| force.norm());
            let last = rigged.anchors.len() - 1;
            let ends = self.person(rigged, rest);
            let between = |hung: &Hung, place: usize| if place < last { on(hung, place) } else { 0.0 };
            let caught_on = |place: usize| caught.on.get(place).copied().unwrap_or_default();
            let caught_between = |place: usize| if place < last { caught_on(place) } else { 0.0 };
            Ok::<_, BadInput>([
                caught.hardest(),
                rest.hardest(),
                moving.hardest(),
                jerks.hardest(),
                caught_on(0),
                caught_on(last),
                on(rest, 0),
                on(rest, last),
                rigged.sag(&slip.at),
                rigged.sag(&rest.at),
                ends.dot(&rigged.toward),
                ends.x,
                caught_between(1),
                caught_between(2),
                caught_between(3),
                between(rest, 1),
                between(rest, 2),
                between(rest, 3),
                caught.tension.max(jerks.tension()),
                caught.load.max(jerks.load),
            ])
        })
    }

    /// How far the harness falls in a slip before the cow's tail is tight and the line still straight, m.
    pub(super) fn falls(&self) -> f64 {
        (self.drop.value + self.tail.value).max(0.0)
    }

    /// Where the person is: a cow's tail away from the line, the way the load pulls.
    pub(super) fn person(&self, rigged: &Rigged, hung: &Hung) -> Vector {
        hung.at + rigged.toward * self.tail.value
    }

    /// The line at one point of the ranges.
    pub(super) fn case(&self, point: &Inputs) -> Result<Case, BadInput> {
        self.solved(self.rigged(point)?, point)
    }

    /// A line that is set, hanging still and on a slip.
    pub(super) fn solved(&self, rigged: Rigged, &[weight, ..]: &Inputs) -> Result<Case, BadInput> {
        let mut ready = rigged.ready()?;
        let rest = ready.at_rest(weight)?;
        let jerks = ready.at_rest(State::Jerky.uncertain().0.high() * weight)?;
        let slip = ready.slip(weight, self.falls())?;
        let caught = ready.caught(&slip, weight, self.falls())?;
        Ok(Case { rest, jerks, slip, caught, rigged: ready.rigged })
    }

    /// The line as it is set at one point of the ranges.
    pub(super) fn rigged(&self, &[weight, span, set, stiffness]: &Inputs) -> Result<Rigged, BadInput> {
        let mut rigged = self.straight(span, stiffness)?;
        match self.setting {
            Setting::Sag => rigged.set_by_sag(weight, set * rigged.chord(rigged.bay).x)?,
            Setting::PreTension => rigged.length = 1.0 / (1.0 + set / stiffness),
            Setting::Slack => rigged.length = 1.0 + set,
        }
        Ok(rigged)
    }

    /// The anchors, and a line straight between them without tension.
    pub(super) fn straight(&self, span: f64, stiffness: f64) -> Result<Rigged, BadInput> {
        let rise = self.far_higher.value;
        let stops = self.stops();
        let anchors = stops.iter().map(|(at, above)| Vector::new(at * span, 0.0, at * rise + above));
        let mut rigged = Rigged {
            anchors: anchors.collect(),
            bay: 0,
            share: 0.5,
            tied: self.meets == Meets::Tied,
            clipped: self.held == OnLine::Clipped,
            toward: match self.way {
                Way::Down => Vector::new(0.0, 0.0, -1.0),
                Way::Sideways => Vector::new(0.0, -1.0, 0.0),
            },
            stiffness,
            weight: self.weight_of_metre()?,
            length: 1.0,
        };
        rigged.load_at(self.place.value);
        Ok(rigged)
    }

    /// Where the anchors are: share of the span, and height above the straight line of the ends.
    pub(super) fn stops(&self) -> Vec<(f64, f64)> {
        let between = [&self.first, &self.second, &self.third];
        let count = (self.intermediates as usize).min(between.len());
        let between = between.into_iter().take(count).map(|stop| (stop.at.value, stop.above.value));
        [(0.0, 0.0)].into_iter().chain(between).chain([(1.0, 0.0)]).collect()
    }

    /// Weight of a metre of the line, N.
    pub(super) fn weight_of_metre(&self) -> Result<f64, OutOfDomain> {
        let mass = rope::mass(self.diameter, Length::new::<metre>(1.0))?;
        Ok(gravity::weight(mass).value * if self.wet == super::Whether::Yes { WET } else { 1.0 })
    }

    /// What cannot be rigged, or is not this question.
    pub(super) fn check(&self) -> Result<(), OutOfDomain> {
        let stops = self.stops();
        let (span, rise) = (self.span.low().value, self.far_higher.value);
        let bays = stops.iter().zip(stops.iter().skip(1));
        const AFTER: [[&str; 2]; 4] = [
            ["place of the anchor after the near end", "height of the anchor after the near end above it"],
            ["place of what follows anchor 1", "height of what follows anchor 1 above it"],
            ["place of what follows anchor 2", "height of what follows anchor 2 above it"],
            ["place of the far end after anchor 3", "height of the far end above anchor 3"],
        ];
        for (((from, below), (to, above)), [place, height]) in bays.zip(AFTER) {
            if to - from < 0.02 {
                let must = "rising from near to far and 0.02 of the span apart";
                return Err(OutOfDomain { what: place, value: *to, must });
            }
            let rise = (to - from) * rise + above - below;
            if rise.abs() > (to - from) * span {
                let must = "not more than their distance: a steeper line is not this question";
                return Err(OutOfDomain { what: height, value: rise, must });
            }
        }
        let place = self.place.value;
        if stops.iter().any(|(at, _)| (place - at).abs() < 0.01) {
            let must = "0.01 of the span or more away from every intermediate anchor";
            return Err(OutOfDomain { what: "where the person is", value: place, must });
        }
        Ok(())
    }
}

impl Rigged {
    /// Puts the load at a share of the whole span.
    pub(super) fn load_at(&mut self, place: f64) {
        let at = place * self.anchors.last().map_or(0.0, |far| far.x);
        let from = |bay: usize| self.anchors.get(bay).map_or(0.0, |anchor| anchor.x);
        let bays = self.anchors.len().saturating_sub(1);
        self.bay = (1..bays).rev().find(|bay| at > from(*bay)).unwrap_or(0);
        self.share = (at - from(self.bay)) / (from(self.bay + 1) - from(self.bay));
    }
}
