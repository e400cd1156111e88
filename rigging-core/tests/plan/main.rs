//! The rigging plan as a whole: its file, what moves through it, what heads it, and its text.
//!
//! `UPDATE_PLANS=1 cargo test -p rigging-core --test plan` writes the pinned text of the example anew. The files of
//! old versions are never written anew.
#![cfg(not(target_arch = "wasm32"))]
#![expect(clippy::indexing_slicing, clippy::unwrap_used, reason = "a check that cannot go on has failed")]

mod file;
mod time;
mod whole;

use rigging_core::plan::{Answers, CarriedRope, Checked, Person, Plan, PlannedDrop, RopeSkill, WaterSkill, WaterToday};
use rigging_core::quantity::{Length, Mass, Units, kilogram, metre};
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

/// A group as practice knows it: six people of whom two rig, with two ropes.
fn six(drops: Vec<PlannedDrop>) -> Plan {
    let person =
        |rope| Person { body: Mass::new::<kilogram>(75.0), rope, water: WaterSkill::Still, ..Person::default() };
    let group =
        [RopeSkill::Rigs, RopeSkill::Rigs, RopeSkill::Alone, RopeSkill::Alone, RopeSkill::Alone, RopeSkill::New];
    let rope = CarriedRope { length: Length::new::<metre>(40.0), ..CarriedRope::default() };
    let mut plan =
        Plan { group: group.map(person).to_vec(), ropes: vec![rope.clone(), rope], drops, ..Plan::default() };
    plan.day.water = WaterToday::AsEntered;
    plan
}

#[test]
fn counts_beyond_all_sense_end_in_an_answer() {
    let drop = PlannedDrop { links: u32::MAX, ..PlannedDrop::default() };
    let plan = six(vec![drop.clone(), drop]);
    assert_eq!(plan.highest_after(usize::MAX), 0.0);
    assert_eq!(check(&plan).parts.links_left, u32::MAX);
}
