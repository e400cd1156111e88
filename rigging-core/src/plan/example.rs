//! A descent of our own invention that shows what a plan is. There is no such place.

use super::day::{minutes, seconds};
use super::{
    CarriedRope, Day, DropAnchor, LightBy, Person, Plan, PlannedDrop, RopeKind, RopeSkill, WaterSkill, WaterToday,
};
use crate::band::Band;
use crate::quantity::{Angle, Length, Mass, degree, kilogram, metre, millimetre};
use crate::question::{Bottom, Entry, Held, Question, Whether};

/// A question by its name with some fields set; every number in it is invented on purpose.
fn asked(name: &str, with: &[(&str, Entry)]) -> Option<Held> {
    let mut question = Question::named(name).ok()?;
    for (field, entry) in with {
        // The fields and their bounds are held by a test.
        question.set(field, entry).ok()?;
    }
    Some(Held::new(question))
}

fn one(value: f64) -> Entry {
    Entry::One(value)
}

fn choice(name: &'static str) -> Entry {
    Entry::Choice(name)
}

fn range(low: f64, typical: f64, high: f64) -> Entry {
    Entry::Range(Band::of(low, typical, high))
}

fn person(name: &str, body: f64, rope: RopeSkill, water: WaterSkill) -> Person {
    Person { name: name.to_owned(), body: Mass::new::<kilogram>(body), rope, water }
}

fn rope(name: &str, length: f64, diameter: f64, kind: RopeKind) -> CarriedRope {
    let (length, diameter) = (Length::new::<metre>(length), Length::new::<millimetre>(diameter));
    CarriedRope { name: name.to_owned(), length, diameter, kind }
}

fn drop(name: &str, height: [f64; 3], set_back: f64, bottom: Bottom, anchor: DropAnchor) -> PlannedDrop {
    let [low, typical, high] = height;
    PlannedDrop {
        name: name.to_owned(),
        height: Band::of(low, typical, high).map(Length::new::<metre>),
        set_back: Length::new::<metre>(set_back),
        bottom,
        anchor,
        ..PlannedDrop::default()
    }
}

/// Bolts whose standard is known, against the figure for a pull straight out.
const BOLTS: [(&str, Entry); 3] =
    [("anchor", Entry::Choice("known")), ("limit", Entry::Choice("bolt axial")), ("design_factor", Entry::One(2.0))];

fn drops() -> Vec<PlannedDrop> {
    let mut chute = drop("Entry chute", [5.0, 6.0, 7.0], 2.0, Bottom::Stand, DropAnchor::Natural);
    chute.notes = "The log is looked at again after each person.".to_owned();
    chute.questions.extend(asked(
        "natural anchor",
        &[
            ("kind", choice("log")),
            ("girth_m", range(0.55, 0.6, 0.65)),
            ("long_m", one(3.5)),
            ("wide_m", one(1.6)),
            ("out_m", one(2.0)),
            ("down_m", one(0.5)),
            ("seating", choice("into")),
        ],
    ));
    chute.questions.extend(asked("rope", &[("let_out_m", one(10.0)), ("rigged", choice("releasable"))]));

    let mut pillar = drop("Fall behind the pillar", [11.0, 12.0, 13.0], 3.0, Bottom::Still, DropAnchor::Known);
    pillar.questions.extend(asked(
        "anchor legs",
        &[BOLTS[0], BOLTS[1], BOLTS[2], ("apart_m", range(0.5, 0.55, 0.6)), ("down_m", range(0.55, 0.6, 0.65))],
    ));
    pillar.questions.extend(asked("rope", &[("let_out_m", one(16.0)), ("rigged", choice("releasable"))]));
    pillar.questions.extend(asked(
        "abseil",
        &[
            BOLTS[0],
            BOLTS[1],
            BOLTS[2],
            ("falling_water", choice("shower")),
            ("tail", choice("in the fall")),
            ("release", choice("figure-eight")),
        ],
    ));

    let mut narrows = drop("Narrows", [3.0, 3.0, 4.0], 0.0, Bottom::Moving, DropAnchor::NoRope);
    narrows.extra = minutes(10.0, 15.0, 30.0);
    narrows.notes = "One goes ahead and looks before anyone follows.".to_owned();
    narrows.questions.extend(asked(
        "in the current",
        &[
            ("tool", choice("hand-line")),
            ("depth", choice("knee")),
            ("flow", choice("stroll")),
            ("downstream", choice("lip")),
            ("to_hazard_m", one(15.0)),
        ],
    ));

    let mut ledge = drop("Blind ledge", [16.0, 18.0, 21.0], 1.5, Bottom::NotSeen, DropAnchor::Unseen);
    ledge.way_out = Whether::Yes;
    ledge.questions.extend(asked("rope", &[("let_out_m", one(24.0)), ("rigged", choice("releasable"))]));
    ledge.questions.extend(asked(
        "abseil",
        &[("anchor", choice("unseen")), ("falling_water", choice("trickle")), ("release", choice("italian hitch"))],
    ));

    let mut gallery = drop("Gallery step", [3.0, 4.0, 5.0], 4.0, Bottom::Stand, DropAnchor::People);
    gallery.questions.extend(asked(
        "human anchor",
        &[
            ("holders", one(2.0)),
            ("stance", choice("seated braced")),
            ("released", choice("both")),
            ("to_lip_m", one(4.0)),
        ],
    ));

    let mut hall = drop("Last hall", [21.0, 23.0, 25.0], 2.5, Bottom::Still, DropAnchor::Found);
    hall.links = 1;
    hall.questions
        .extend(asked("rope", &[("let_out_m", one(28.0)), ("rigged", choice("pull cord")), ("cord_m", one(30.0))]));
    hall.questions.extend(asked(
        "pull-down",
        &[
            ("pulled_by", choice("cord")),
            ("height_m", one(23.0)),
            ("rising_m", one(23.0)),
            ("edge_1_on", choice("neither")),
            ("pullers", one(2.0)),
        ],
    ));
    vec![chute, pillar, narrows, ledge, gallery, hall]
}

impl Plan {
    /// A complete descent of our own invention, marked as such: it shows each part of a plan. No real place.
    /// ```
    /// use rigging_core::plan::{Answers, Plan};
    /// use rigging_core::quantity::Units;
    /// use rigging_core::question::Whether;
    ///
    /// // It is marked, in its rows and in the first line of its text.
    /// let plan = Plan::example();
    /// assert_eq!(plan.day.invented, Whether::Yes);
    /// let text = plan.text(&plan.check(&mut Answers::default(), Units::default()));
    /// assert!(text.starts_with("EXAMPLE: everything in this plan is made up."));
    /// ```
    pub fn example() -> Plan {
        let degrees = Angle::new::<degree>;
        let day = Day {
            name: "Example gorge (invented)".to_owned(),
            date: "2031-09-20".to_owned(),
            water_mark: "painted ring at the footbridge, two hands above the water".to_owned(),
            notes: "Someone at home knows the plan and calls for help at 22:00. All of it is made up.".to_owned(),
            invented: Whether::Yes,
            water: WaterToday::Higher,
            light_by: LightBy::Place,
            latitude: degrees(45.0),
            longitude: degrees(3.0),
            ahead_of_utc: seconds(2.0 * 3600.0),
            rim: Band::of(30.0, 35.0, 40.0).map(degrees),
            start: seconds(10.0 * 3600.0),
            walk_in: minutes(40.0, 50.0, 70.0),
            walk_out: minutes(20.0, 25.0, 40.0),
            ..Day::default()
        };
        Plan {
            day,
            group: vec![
                person("A", 82.0, RopeSkill::Rigs, WaterSkill::Moving),
                person("B", 61.0, RopeSkill::Rigs, WaterSkill::Moving),
                person("C", 95.0, RopeSkill::Alone, WaterSkill::Still),
                person("D", 54.0, RopeSkill::Alone, WaterSkill::Still),
                person("E", 73.0, RopeSkill::New, WaterSkill::Still),
            ],
            ropes: vec![
                rope("orange", 60.0, 9.0, RopeKind::Rope),
                rope("blue", 25.0, 9.0, RopeKind::Rope),
                rope("white cord", 30.0, 6.0, RopeKind::PullCord),
            ],
            drops: drops(),
            ..Plan::default()
        }
    }
}
