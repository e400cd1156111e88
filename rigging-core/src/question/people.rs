//! The load that people make, asked the same way everywhere.

use super::field::{Enters, Field, choices, put};
use crate::band::Band;
use crate::law::gravity::weight;
use crate::quantity::{Kind, Mass, kilogram, newton};
use crate::working::{Given, Source, Step};

/// Who hangs: the group's lightest and heaviest, with what they carry.
#[derive(Debug, Clone, PartialEq)]
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
    pub fn inputs(&self) -> [Band; 2] {
        [self.body.map(|mass| mass.value), self.kit.map(|mass| mass.value)]
    }

    /// Weight of one person of a body mass with some kit (kg), N.
    pub fn weight_of_one(&self, body: f64, kit: f64) -> f64 {
        weight(Mass::new::<kilogram>(body + kit) + self.water).get::<newton>()
    }

    /// Weight of all who hang, N.
    pub fn weight_of_all(&self, body: f64, kit: f64) -> f64 {
        f64::from(self.count) * self.weight_of_one(body, kit)
    }

    /// The step of a working that finds the weight.
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

/// A question in which people hang.
pub trait HasPeople {
    /// Who hangs.
    fn people(&self) -> &People;
    /// Who hangs, to be changed.
    fn people_mut(&mut self) -> &mut People;
}

/// The fields of the load. They keep their letters in the link in every question.
pub fn fields<Q: HasPeople>() -> [Field<Q>; 4] {
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
        .from(Source::assumed("5 to 20 kg")),
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
        .from(Source::assumed("5 kg")),
    ]
}

/// What the person on the rope is doing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
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
    /// All four, from the mildest to the gravest.
    pub const ALL: [State; 4] = [State::Still, State::Descending, State::Jerky, State::Slip];

    /// How many times the weight reaches the rig, and how that is known.
    pub fn factor(self) -> (Band, Source) {
        match self {
            State::Still => (Band::exact(1.0), Source::derived("weight alone")),
            State::Descending => {
                (Band::of(1.0, 1.2, 1.5), Source::published("caving federation tests 2014; HSE CRR 364/2001"))
            }
            State::Jerky => {
                (Band::of(2.0, 2.5, 3.2), Source::published("HSE CRR 364/2001; caving federation tests 2014"))
            }
            State::Slip => (
                Band::of(3.0, 4.0, 5.0),
                Source::derived("lip slip of 0.5 m on 3 m of rope, EA 20 to 41 kN: 3.9 to 5 times; rounded outward"),
            ),
        }
    }

    /// The state in words.
    pub fn words(self) -> &'static str {
        match self {
            State::Still => "hanging still",
            State::Descending => "descending steadily",
            State::Jerky => "descending in jerks",
            State::Slip => "a slip onto slack rope",
        }
    }
}
