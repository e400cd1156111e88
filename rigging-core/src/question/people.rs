//! The load that people make, asked the same way everywhere.

use super::field::{Enters, Field, Place, choices, put};
use crate::band::{Band, Spread, sweep};
use crate::law::gravity::weight;
use crate::law::{OutOfDomain, fall};
use crate::quantity::{Force, Kind, Length, Mass, kilogram, metre, newton};
use crate::working::{Formula, Given, Source, Step};

/// Who hangs: the group's lightest and heaviest, with what they carry.
/// ```
/// use rigging_core::quantity::{Mass, kilogram};
/// use rigging_core::question::People;
///
/// // Two people of 80 kg with 15 kg of kit and 5 kg of water: 980.665 N each.
/// let two = People { count: 2, water: Mass::new::<kilogram>(5.0), ..People::default() };
/// assert!((two.weight_of_one(80.0, 15.0) - 980.665).abs() < 1e-9);
/// assert!((two.weight_of_all(80.0, 15.0) - 1961.33).abs() < 1e-9);
/// // Who hangs may be anyone from the lightest to the heaviest.
/// let [body, kit] = two.inputs();
/// assert_eq!((body.low(), body.high(), kit.high()), (58.0, 92.0, 20.0));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct People {
    /// How many hang at once.
    pub count: u32,
    /// Body mass from the lightest to the heaviest of the group.
    pub body: Band<Mass>,
    /// Kit that each carries.
    pub kit: Band<Mass>,
    /// Water held by the suit of each.
    pub water: Mass,
}

impl Default for People {
    fn default() -> Self {
        let kilograms = |low, typical, high| Band::of(low, typical, high).map(Mass::new::<kilogram>);
        People {
            count: 1,
            body: kilograms(58.0, 75.0, 92.0),
            kit: kilograms(5.0, 10.0, 20.0),
            water: Mass::new::<kilogram>(5.0),
        }
    }
}

/// Labels of the load's uncertain inputs, in the order in which sweeps take them.
pub const LABELS: [&str; 2] = ["body mass", "kit"];

impl People {
    /// The uncertain inputs: body mass and kit, kg.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::quantity::{Mass, kilogram};
    /// use rigging_core::question::People;
    ///
    /// // Body first, then kit; water in the suit is one number.
    /// let kit = Band::of(6.0, 9.0, 14.0);
    /// let [body, found] = People { kit: kit.map(Mass::new::<kilogram>), ..People::default() }.inputs();
    /// assert!(found == kit && body.low() > kit.high());
    /// ```
    pub fn inputs(&self) -> [Band; 2] {
        [self.body.map(|mass| mass.value), self.kit.map(|mass| mass.value)]
    }

    /// One of several alone: a rope gives less under one, and one alone may be who slips.
    pub(super) fn alone(&self) -> Option<People> {
        (self.count > 1).then_some(People { count: 1, ..*self })
    }

    /// Weight of one person of a body mass with some kit (kg), N.
    /// ```
    /// use rigging_core::question::People;
    ///
    /// // With the 5 kg of water of the example 70 + 10 kg weigh 85 kg · g, however many hang.
    /// let three = People { count: 3, ..People::default() };
    /// assert!((three.weight_of_one(70.0, 10.0) - 85.0 * 9.806_65).abs() < 1e-9);
    /// ```
    pub fn weight_of_one(&self, body: f64, kit: f64) -> f64 {
        weight(Mass::new::<kilogram>(body + kit) + self.water).get::<newton>()
    }

    /// Weight of all who hang, N.
    /// ```
    /// use rigging_core::question::People;
    ///
    /// // Each brings kit and water: three times 85 kg · g.
    /// let three = People { count: 3, ..People::default() };
    /// assert!((three.weight_of_all(70.0, 10.0) - 255.0 * 9.806_65).abs() < 1e-9);
    /// ```
    pub fn weight_of_all(&self, body: f64, kit: f64) -> f64 {
        f64::from(self.count) * self.weight_of_one(body, kit)
    }

    /// Load of all who hang, each in the same state, N.
    ///
    /// # Errors
    /// As [`State::load`].
    /// ```
    /// use rigging_core::question::{People, State};
    ///
    /// // Two who hang still pull their weight, in jerks of 3.2 times the weight so much more.
    /// let two = People { count: 2, ..People::default() };
    /// let still = two.load_of_all(State::Still, 80.0, 15.0, 1.0)?;
    /// assert_eq!(still, two.weight_of_all(80.0, 15.0));
    /// assert!((two.load_of_all(State::Jerky, 80.0, 15.0, 3.2)? / still - 3.2).abs() < 1e-12);
    /// # Ok::<(), rigging_core::law::OutOfDomain>(())
    /// ```
    pub fn load_of_all(&self, state: State, body: f64, kit: f64, at: f64) -> Result<f64, OutOfDomain> {
        Ok(f64::from(self.count) * state.load(self.weight_of_one(body, kit), at)?)
    }

    /// Load of all who hang, over body mass, kit and what is uncertain about the state, N.
    ///
    /// # Errors
    /// As [`State::load`].
    /// ```
    /// use rigging_core::question::{People, State};
    ///
    /// // Hanging still: from the lightest, 58 + 5 + 5 kg, to the heaviest, 92 + 20 + 5 kg.
    /// let load = People::default().spread(State::Still)?.band;
    /// assert!((load.low() - 68.0 * 9.806_65).abs() < 1e-9 && (load.high() - 117.0 * 9.806_65).abs() < 1e-9);
    /// # Ok::<(), rigging_core::law::OutOfDomain>(())
    /// ```
    pub fn spread(&self, state: State) -> Result<Spread<3>, OutOfDomain> {
        self.spread_over(state, state.uncertain().0)
    }

    /// The same over what is known here of what is uncertain about the state.
    pub(super) fn spread_over(&self, state: State, uncertain: Band) -> Result<Spread<3>, OutOfDomain> {
        let [body, kit] = self.inputs();
        let [load] = sweep([body, kit, uncertain], |&[body, kit, at]| {
            Ok::<_, OutOfDomain>([self.load_of_all(state, body, kit, at)?])
        })?;
        Ok(load)
    }

    /// The step of a working that finds the load in a state.
    /// ```
    /// use rigging_core::question::{People, State};
    ///
    /// let people = People::default();
    /// let weight = people.weight_of_all(80.0, 10.0);
    /// let step = people.load_step(State::Jerky, 80.0, 10.0, 2.5, 2.5 * weight);
    /// // The factor times the weight is the result.
    /// assert_eq!(step.formula, "F = factor · W");
    /// let product: f64 = step.given.iter().map(|given| given.band.typical()).product();
    /// assert_eq!(product, step.result.band.typical());
    /// ```
    pub fn load_step(&self, state: State, body: f64, kit: f64, at: f64, load: f64) -> Step {
        self.load_step_on(state, body, kit, at, SLACK / ROPE_OUT, load)
    }

    /// The same with a slip of another fall factor.
    pub(super) fn load_step_on(&self, state: State, body: f64, kit: f64, at: f64, factor: f64, load: f64) -> Step {
        let weight = Given::exact("W", self.weight_of_all(body, kit), Kind::Force);
        let (formula, given) = match state {
            State::Slip => (
                "F = n [W₁ + √(W₁² + 2 W₁ EA f)], f = slack / rope",
                vec![
                    Given::exact("n", f64::from(self.count), Kind::Count),
                    Given::exact("W₁", self.weight_of_one(body, kit), Kind::Force),
                    Given::exact("EA", at, Kind::Force),
                    Given::exact("f", factor, Kind::Ratio),
                ],
            ),
            _ => ("F = factor · W", vec![Given::exact("factor", at, Kind::Ratio), weight]),
        };
        Step {
            what: format!("Load: {}", state.words()),
            formula,
            given,
            result: Given::exact("F", load, Kind::Force),
            source: state.uncertain().1,
        }
    }

    /// The step of a working that finds the weight.
    /// ```
    /// use rigging_core::question::People;
    ///
    /// // 80 + 15 kg and 5 kg of water weigh 980.665 N.
    /// let step = People::default().step(80.0, 15.0);
    /// assert_eq!(step.formula, "W = n (m + kit + water) g");
    /// assert!((step.result.band.typical() - 980.665).abs() < 1e-9);
    /// ```
    pub fn step(&self, body: f64, kit: f64) -> Step {
        Step {
            what: "Weight of those who hang, with kit and water".into(),
            formula: "W = n (m + kit + water) g",
            given: vec![
                Given::exact("n", f64::from(self.count), Kind::Count),
                Given::exact("m", body, Kind::Mass),
                Given::exact("kit", kit, Kind::Mass),
                Given::exact("water", self.water.value, Kind::Mass),
            ],
            result: Given::exact("W", self.weight_of_all(body, kit), Kind::Force),
            source: Source::published("standard gravity 9.80665 m/s², 3rd General Conference on Weights and Measures"),
        }
    }
}

/// What a rig makes of 1 N, under a load: forces grow with it. The inputs of the load come first.
pub fn under(shape: &Spread<4>, load: &Spread<3>) -> Spread<7> {
    let (typical, force) = (shape.band.typical(), load.band.typical());
    let both = |[a, b, c]: [f64; 3], [d, e, f, g]: [f64; 4]| [a, b, c, d, e, f, g];
    let (low, high) = (shape.band.low() * load.band.low(), shape.band.high() * load.band.high());
    Spread {
        band: Band::of(low, typical * force, high),
        moves: both(load.moves.map(|moves| moves * typical), shape.moves.map(|moves| moves * force)),
        at_low: both(load.at_low, shape.at_low),
        at_high: both(load.at_high, shape.at_high),
    }
}

/// A question in which people hang.
pub trait HasPeople {
    /// Who hangs.
    fn people(&self) -> &People;
    /// Who hangs, to be changed.
    fn people_mut(&mut self) -> &mut People;
}

/// Lets a question with a field `people` ask for the load.
macro_rules! asks_people {
    ($question:ty) => {
        impl $crate::question::people::HasPeople for $question {
            fn people(&self) -> &People {
                &self.people
            }
            fn people_mut(&mut self) -> &mut People {
                &mut self.people
            }
        }
    };
}
pub(crate) use asks_people;

/// The fields of the load. They keep their letters in the link in every question.
pub fn fields<Q: HasPeople>() -> [Field<Q>; 4] {
    const {
        [
            Field::one(
                'n',
                "people",
                Kind::Count,
                1.0..=12.0,
                (
                    |question: &Q| question.people().count.to_entry(),
                    |question, entry| put(&mut question.people_mut().count, entry),
                ),
            )
            .says("People hanging at once", "one, two on one rope, or all who are clipped to the station"),
            Field::range(
                'm',
                "body_kg",
                Kind::Mass,
                30.0..=160.0,
                (
                    |question: &Q| question.people().body.to_entry(),
                    |question, entry| put(&mut question.people_mut().body, entry),
                ),
            )
            .says("Body mass, lightest to heaviest", "the lightest and the heaviest of the group, without kit"),
            Field::range(
                'k',
                "kit_kg",
                Kind::Mass,
                0.0..=60.0,
                (
                    |question: &Q| question.people().kit.to_entry(),
                    |question, entry| put(&mut question.people_mut().kit, entry),
                ),
            )
            .says("Kit each person carries", "harness, helmet, suit, pack and rope")
            .from(Source::assumed("light kit to a full pack with rope")),
            Field::one(
                'w',
                "suit_water_kg",
                Kind::Mass,
                0.0..=30.0,
                (
                    |question: &Q| question.people().water.to_entry(),
                    |question, entry| put(&mut question.people_mut().water, entry),
                ),
            )
            .says("Water in the suit", "what a wet suit and boots hold; 0 for a dry descent")
            .from(Source::assumed("a wet suit and boots")),
        ]
    }
}

/// The field of the state that anchors are judged on; its letter is the same in every question too.
pub(super) const fn judged_state<Q>(place: Place<Q>) -> Field<Q> {
    Field::choice('j', "state", State::CHOICES, place)
        .says("Judge the anchors on", "anchors are judged on a slip unless you say otherwise")
        .from(Source::practice("anchors are judged on the worst of the four states"))
}

/// Slack at the lip and rope to the anchor in a slip, m (assumed; the abseil asks for them).
pub(super) const SLACK: f64 = 0.5;
pub(super) const ROPE_OUT: f64 = 3.0;

/// The words of a range that both make.
pub(super) const SLIP_OR_RAISED: &str = ", on a slip or raised in jerks, whichever pulls harder";

/// How the states of the load are found, wherever people hang.
pub const FORMULAS: [Formula; 3] = [
    Formula::new(
        "descending steadily: the weight, and half as much again at most",
        "F = 1.0 to 1.5 W",
        Source::published("caving federation tests 2014; HSE CRR 364/2001"),
    ),
    Formula::new(
        "descending in jerks",
        "F = 2.0 to 3.2 W",
        Source::published("HSE CRR 364/2001; caving federation tests 2014"),
    ),
    Formula::new(
        "a slip onto slack rope, n people of weight W₁: f is slack ÷ rope, EA its stiffness",
        "F = n [W₁ + √(W₁² + 2 W₁ EA f)]",
        Source::published("energy of a linear spring; OpenStax University Physics, worked example"),
    ),
];

/// What the person on the rope is doing.
/// ```
/// use rigging_core::question::State;
///
/// // From the mildest to the gravest. Hanging still is the weight alone, in jerks it is up to 3.2 times that.
/// assert_eq!((State::ALL[0], State::ALL[3]), (State::Still, State::Slip));
/// assert_eq!(State::Still.load(980.665, 1.0)?, 980.665);
/// assert_eq!(State::Jerky.uncertain().0.high(), 3.2);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum State {
    /// Hanging still.
    Still,
    /// Descending steadily.
    Descending,
    /// Descending in jerks.
    Jerky,
    /// Slipping onto slack rope.
    #[default]
    Slip,
}
choices!(State {
    Still = "still", "hanging still";
    Descending = "descending", "descending steadily";
    Jerky = "jerky", "descending in jerks";
    Slip = "slip", "a slip onto slack rope";
});

impl State {
    /// What is judged with it where people are raised: a slip stands for the worst of the four, and what is raised does not
    /// slip but may be jerked.
    pub(super) fn while_raised(self) -> Option<State> {
        (self == State::Slip).then_some(State::Jerky)
    }

    /// Something in this state, in words.
    pub(super) fn of(self, what: &str) -> String {
        [what, ", ", self.words()].concat()
    }

    /// All four, from the mildest to the gravest.
    /// ```
    /// use rigging_core::question::{People, State};
    ///
    /// // Each may pull harder than the one before.
    /// let mut before = 0.0;
    /// for state in State::ALL {
    ///     let most = People::default().spread(state)?.band.high();
    ///     assert!(most > before);
    ///     before = most;
    /// }
    /// # Ok::<(), rigging_core::law::OutOfDomain>(())
    /// ```
    pub const ALL: [State; 4] = [State::Still, State::Descending, State::Jerky, State::Slip];

    /// What is uncertain about it, and how that is known: how many times the weight reaches the rig, but for
    /// a slip the stiffness EA of the rope (N).
    /// ```
    /// use rigging_core::question::State;
    /// use rigging_core::working::Known;
    ///
    /// // Published: up to 1.5 times the weight on a steady way down. Of a slip it is EA, 20 to 41 kN, assumed.
    /// let ((times, steady), (stiffness, slip)) = (State::Descending.uncertain(), State::Slip.uncertain());
    /// assert_eq!((times.high(), steady.known), (1.5, Known::Published));
    /// assert_eq!((stiffness.low(), stiffness.high(), slip.known), (20e3, 41e3, Known::Assumed));
    /// ```
    pub fn uncertain(self) -> (Band, Source) {
        match self {
            State::Still => (Band::exact(1.0), Source::derived("weight alone")),
            State::Descending => {
                (Band::of(1.0, 1.2, 1.5), Source::published("caving federation tests 2014; HSE CRR 364/2001"))
            }
            State::Jerky => {
                (Band::of(2.0, 2.5, 3.2), Source::published("HSE CRR 364/2001; caving federation tests 2014"))
            }
            State::Slip => (
                Band::of(20_000.0, 30_000.0, 41_000.0),
                Source::assumed(
                    "0.5 m of slack on 3 m of used canyon rope, EA 20 to 41 kN (EN 1891: 6 kN at fall factor 0.3); energy of a linear spring",
                ),
            ),
        }
    }

    /// Force of one person of some weight (N) in this state, at a value of what is uncertain about it, N.
    ///
    /// # Errors
    /// [`OutOfDomain`] if the weight, or what is uncertain, is negative or no number, the stiffness of a slip not above 0, or
    /// the force too large for a number.
    /// ```
    /// use rigging_core::question::State;
    ///
    /// // A slip of half a metre on 3 m of rope, by hand: W [1 + √(1 + 2 EA f/W)] with f = 0.5/3.
    /// let (weight, stiffness) = (1000.0_f64, 30_000.0);
    /// let peak = weight * (1.0 + (1.0 + 2.0 * stiffness * (0.5 / 3.0) / weight).sqrt());
    /// assert!((State::Slip.load(weight, stiffness)? - peak).abs() < 1e-6);
    /// # Ok::<(), rigging_core::law::OutOfDomain>(())
    /// ```
    pub fn load(self, weight: f64, at: f64) -> Result<f64, OutOfDomain> {
        match self {
            State::Slip => {
                let (slack, rope) = (Length::new::<metre>(SLACK), Length::new::<metre>(ROPE_OUT));
                Ok(fall::peak(Force::new::<newton>(weight), Force::new::<newton>(at), slack, rope)?.value)
            }
            State::Still | State::Descending | State::Jerky => {
                let force = at * weight;
                let value = if weight < 0.0 { weight } else { force };
                if !(0.0..=f64::MAX).contains(&value) {
                    return Err(OutOfDomain { what: "load", value, must: "a finite number, 0 or more" });
                }
                Ok(force)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_is_computed_and_hits_the_light_harder_for_their_weight() {
        // Row D10 of the check values: 95 kg, 3 m of rope, 0.5 m of slack, EA 20 and 41 kN.
        let slip = |mass: f64, stiffness| State::Slip.load(mass * 9.80665, stiffness).unwrap();
        assert!((slip(95.0, 20e3) - 3600.0).abs() < 100.0 && (slip(95.0, 41e3) - 4600.0).abs() < 100.0);
        assert!(slip(55.0, 41e3) / 55.0 > slip(95.0, 41e3) / 95.0);
    }

    #[test]
    fn no_load_is_told_of_what_is_none_whatever_the_state() {
        for state in [State::Still, State::Descending, State::Jerky, State::Slip] {
            assert_eq!(state.load(0.0, 2.0), Ok(0.0), "{state:?}");
            for (weight, at) in [(-800.0, 1.5), (800.0, -1.5), (-800.0, -1.5), (f64::NAN, 2.0), (800.0, f64::NAN)]
                .into_iter()
                .chain([(1e308, 1e308), (f64::INFINITY, 1.0), (0.0, f64::INFINITY)])
            {
                assert!(state.load(weight, at).is_err(), "{state:?} {weight} {at}");
            }
        }
        let refused = State::Still.load(-800.0, 1.0).unwrap_err().to_string();
        assert_eq!(refused, "load is −800: it must be a finite number, 0 or more");
    }
}
