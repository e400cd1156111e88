//! The rigging plan as a whole: its file, what moves through it, what heads it, and its text.
//!
//! `UPDATE_PLANS=1 cargo test -p rigging-core --test plan` writes the pinned text of the example anew. The files of
//! old versions are never written anew.
#![cfg(not(target_arch = "wasm32"))]
#![expect(clippy::indexing_slicing, clippy::unwrap_used, reason = "a check that cannot go on has failed")]

mod decided;
mod file;
mod open;
mod rope;
mod time;
mod whole;

use rigging_core::band::Band;
use rigging_core::plan::{
    Answers, CarriedRope, Checked, DropAnchor, Person, Plan, PlannedDrop, RopeSkill, Row, WaterSkill, WaterToday,
};
use rigging_core::quantity::{Length, Mass, Units, kilogram, metre};
use rigging_core::question::{Bottom, Entry, Held, Question};
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/plans")
}

fn check(plan: &Plan) -> Checked {
    plan.check(&mut Answers::default(), Units::default())
}

/// Words that no result may be called by.
const NEVER: [&str; 11] =
    ["safe", "secure", "okay", " ok", "passes", "passed", "fine", "approved", "certified", "guarantee", "bombproof"];

fn holds_to_its_words(text: &str) {
    let small = text.to_lowercase();
    for word in NEVER {
        assert!(!small.contains(word), "{word} in\n{text}");
    }
}

/// The example of a question with some fields of one's own.
fn asked(name: &str, fields: &[(&str, Entry)]) -> Held {
    let mut question = Question::named(name).unwrap();
    for (field, entry) in fields {
        question.set(field, entry).unwrap();
    }
    Held::new(question)
}

/// A drop of 10 m of which nothing is open but its questions: seen, entered, on bolts, and its rope long enough.
fn decided(mut questions: Vec<Held>) -> PlannedDrop {
    questions.push(asked("rope", &[("let_out_m", Entry::One(16.0))]));
    PlannedDrop {
        height: Band::exact(Length::new::<metre>(10.0)),
        set_back: Length::new::<metre>(3.0),
        bottom: Bottom::Still,
        anchor: DropAnchor::Known,
        questions,
        ..PlannedDrop::default()
    }
}

/// A group as practice knows it: six people of whom two rig and nobody is new to ropes, with two ropes.
fn six(drops: Vec<PlannedDrop>) -> Plan {
    let person =
        |rope| Person { body: Mass::new::<kilogram>(75.0), rope, water: WaterSkill::Still, ..Person::default() };
    let group =
        [RopeSkill::Rigs, RopeSkill::Rigs, RopeSkill::Alone, RopeSkill::Alone, RopeSkill::Alone, RopeSkill::Alone];
    let rope = CarriedRope { length: Length::new::<metre>(40.0), ..CarriedRope::default() };
    let mut plan =
        Plan { group: group.map(person).to_vec(), ropes: vec![rope.clone(), rope], drops, ..Plan::default() };
    plan.day.water = WaterToday::AsEntered;
    plan
}

#[test]
fn counts_beyond_all_sense_end_in_an_answer() {
    let most = u32::MAX;
    let questions = Question::all().iter().cloned().map(Held::example).collect();
    let drop = PlannedDrop { links: most, connectors: most, slings: most, questions, ..PlannedDrop::default() };
    let plan = six(vec![drop.clone(), drop]);
    assert_eq!(plan.longest_after(usize::MAX), None);
    let parts = check(&plan).parts;
    assert_eq!((parts.links_left, parts.connectors.0, parts.slings.0), (most, most, most));
}

#[test]
fn a_mass_that_no_question_takes_is_refused_and_not_taken_for_one_that_was_not_entered() {
    let mut person = Person::default();
    for (mass, taken) in [(0.0, true), (9.0, false), (29.9, false), (30.0, true), (160.0, true), (161.0, false)] {
        let set = person.set("body_kg", &Entry::One(mass));
        assert_eq!(set.is_ok(), taken, "{mass}");
        assert!(taken || person.body.value < mass || mass > 160.0, "{mass} was taken");
    }
}
