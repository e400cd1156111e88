//! Who comes along: masses and skills, and the two teachings about the order in which they go down.

use super::record::{Record, Text, text};
use crate::band::Band;
use crate::quantity::{Kind, Mass, kilogram};
use crate::question::field::{Entry, Field, choices, place, table};

/// What a person can do on ropes.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::plan::{CarriedRope, DropAnchor, Person, Plan, PlannedDrop, RopeSkill};
/// use rigging_core::quantity::{Length, metre};
///
/// // A second rope is rigged ahead only where two can rig.
/// let ahead = |skills: [RopeSkill; 2]| {
///     let rope = CarriedRope { length: Length::new::<metre>(40.0), ..CarriedRope::default() };
///     let group = skills.map(|rope| Person { rope, ..Person::default() }).to_vec();
///     let (height, anchor) = (Band::exact(Length::new::<metre>(10.0)), DropAnchor::Known);
///     let drop = PlannedDrop { height, anchor, ..PlannedDrop::default() };
///     let drops = vec![drop.clone(), drop];
///     Plan { group, drops, ropes: vec![rope.clone(), rope], ..Plan::default() }.times().second_rope.is_ok()
/// };
/// assert!(ahead([RopeSkill::Rigs, RopeSkill::Rigs]) && !ahead([RopeSkill::Rigs, RopeSkill::Alone]));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum RopeSkill {
    /// Nobody said.
    #[default]
    Unknown,
    /// Needs to be checked and held from below or above.
    New,
    /// Goes down alone.
    Alone,
    /// Rigs, releases and pulls.
    Rigs,
}
choices!(RopeSkill {
    Unknown = "not entered", "not entered";
    New = "new", "new to ropes: checked each time";
    Alone = "alone", "goes down alone";
    Rigs = "rigs", "rigs, releases and pulls";
});

/// What a person can do in water.
/// ```
/// use rigging_core::plan::{Answers, Person, Plan, RopeSkill, WaterSkill};
/// use rigging_core::quantity::Units;
///
/// // Until somebody said it, it is an open decision. No time is made of it.
/// let plan = |water| {
///     Plan { group: vec![Person { rope: RopeSkill::Rigs, water, ..Person::default() }], ..Plan::default() }
/// };
/// let open = |water| plan(water).check(&mut Answers::default(), Units::default()).open;
/// let is_open = |water| open(water).iter().any(|open| open.what == "skills not entered for 1 of 1");
/// assert!(is_open(WaterSkill::Unknown) && !is_open(WaterSkill::New));
/// assert_eq!(plan(WaterSkill::New).times(), plan(WaterSkill::Moving).times());
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum WaterSkill {
    /// Nobody said.
    #[default]
    Unknown,
    /// Does not swim, or is new to it.
    New,
    /// Swims in still water.
    Still,
    /// Reads and swims moving water.
    Moving,
}
choices!(WaterSkill {
    Unknown = "not entered", "not entered";
    New = "new", "new to water";
    Still = "still water", "swims in still water";
    Moving = "moving water", "reads and swims moving water";
});

/// One of the group.
/// ```
/// use rigging_core::plan::{Person, Row};
/// use rigging_core::question::Entry;
///
/// // A mass that was not entered is 0 and no mass.
/// let mut person = Person::default();
/// assert_eq!(person.mass(), None);
/// person.set("body_kg", &Entry::One(74.0))?;
/// assert_eq!(person.mass().map(|mass| mass.value), Some(74.0));
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Person {
    /// The name.
    pub name: String,
    /// Body mass without kit; 0 if it was not entered.
    pub body: Mass,
    /// On ropes.
    pub rope: RopeSkill,
    /// In water.
    pub water: WaterSkill,
}

/// The least body mass that counts as entered, kg: the least that the questions take.
const LEAST: f64 = 30.0;

impl Record for Person {
    const NAME: &'static str = "person";

    fn texts() -> Vec<Text<Self>> {
        vec![text!(name, 60, "Name", "as the group calls them")]
    }

    fn fields() -> Vec<Field<Self>> {
        table![
            Field::one('m', "body_kg", Kind::Mass, 0.0..=160.0, place!(body))
                .says("Body mass", "without kit; 0 if not entered, 30 kg at least if it is"),
            Field::choice('r', "rope_skill", RopeSkill::CHOICES, place!(rope))
                .says("On ropes", "alone and when it is wet and loud"),
            Field::choice('w', "water_skill", WaterSkill::CHOICES, place!(water))
                .says("In water", "with a pack, in cold water"),
        ]
    }

    fn refuses(name: &str, entry: &Entry) -> Option<&'static str> {
        let light = matches!(*entry, Entry::One(mass) if name == "body_kg" && mass > 0.0 && mass < LEAST);
        light.then_some("it must be 0 if not entered, or 30 kg at least")
    }
}

impl Person {
    /// The mass, if it was entered.
    /// ```
    /// use rigging_core::plan::Person;
    /// use rigging_core::quantity::{Mass, kilogram};
    ///
    /// // From 30 kg on: no question takes less.
    /// let mass = |body| Person { body: Mass::new::<kilogram>(body), ..Person::default() }.mass();
    /// assert_eq!((mass(29.9), mass(30.0)), (None, Some(Mass::new::<kilogram>(30.0))));
    /// ```
    pub fn mass(&self) -> Option<Mass> {
        (self.body.value >= LEAST).then_some(self.body)
    }
}

/// Body mass of the lightest, of the mean, and of the heaviest; `None` if nobody's was entered.
pub fn masses(group: &[Person]) -> Option<Band<Mass>> {
    let known = || group.iter().filter_map(|person| person.mass().map(|mass| mass.value));
    let count = known().count();
    let (low, high) = (known().fold(f64::INFINITY, f64::min), known().fold(0.0, f64::max));
    let mean = known().sum::<f64>() / count as f64;
    // A sum may round past the ends.
    (count > 0).then(|| Band::of(low, mean.max(low).min(high), high).map(Mass::new::<kilogram>))
}

/// How many can rig, release and pull.
pub fn riggers(group: &[Person]) -> usize {
    group.iter().filter(|person| person.rope == RopeSkill::Rigs).count()
}

/// Share of the group who are new to ropes, or of whom nobody said: all while nobody was entered.
pub fn new_to_ropes(group: &[Person]) -> f64 {
    let new = group.iter().filter(|person| matches!(person.rope, RopeSkill::New | RopeSkill::Unknown)).count();
    if group.is_empty() { 1.0 } else { new as f64 / group.len() as f64 }
}

/// A teaching about the order of the group, with its reasons. Both are printed; the leader chooses.
/// ```
/// use rigging_core::plan::TEACHINGS;
///
/// // Both are told, each with its price.
/// assert_eq!(TEACHINGS.map(|teaching| teaching.name), ["By skill", "By mass"]);
/// assert!(TEACHINGS.iter().all(|teaching| !teaching.price.is_empty()));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Teaching {
    /// The teaching in a few words.
    pub name: &'static str,
    /// Who goes down first, and why.
    pub first: &'static str,
    /// Who goes down last, and why.
    pub last: &'static str,
    /// What it pays for that.
    pub price: &'static str,
}

/// The two teachings, common practice of the trade without a source. Nobody is sorted by them.
/// ```
/// use rigging_core::plan::{Answers, Plan, TEACHINGS};
/// use rigging_core::quantity::Units;
///
/// // The text of any plan has all of both, and a blank for what the leader chooses.
/// let plan = Plan::default();
/// let text = plan.text(&plan.check(&mut Answers::default(), Units::default()));
/// for teaching in TEACHINGS {
///     assert!([teaching.first, teaching.last, teaching.price].iter().all(|words| text.contains(words)));
/// }
/// assert!(text.contains("The leader's order: ____"));
/// ```
pub const TEACHINGS: [Teaching; 2] = [
    Teaching {
        name: "By skill",
        first: "The most capable in rope and water: nobody has tried the landing yet, and whoever is there \
                first swims, signals, brakes from below and rigs the next drop.",
        last: "Able to rig, release and pull alone: nobody above can help, and the rope comes down or stays by \
               what that person does.",
        price: "The anchor meets its heaviest load only later, perhaps when its back-up is gone.",
    },
    Teaching {
        name: "By mass",
        first: "The heaviest, while the back-up of the anchor is on and looked at: what was not seen shows \
                while something else still holds.",
        last: "The lightest who can rig, release and pull: that person hangs on the anchor without the \
               back-up.",
        price: "Whoever is heaviest may not be the one to try unseen water.",
    },
];

#[cfg(test)]
mod tests {
    use super::*;

    fn person(body: f64) -> Person {
        Person { body: Mass::new::<kilogram>(body), ..Person::default() }
    }

    #[test]
    fn lightest_mean_and_heaviest_are_those_of_whose_mass_is_known() {
        let band = masses(&[person(80.0), person(0.0), person(60.0), person(100.0)]).unwrap().map(|mass| mass.value);
        assert_eq!([band.low(), band.typical(), band.high()], [60.0, 80.0, 100.0]);
        assert_eq!(masses(&[person(0.0), person(12.0)]), None);
        assert_eq!(masses(&[]), None);
    }
}
