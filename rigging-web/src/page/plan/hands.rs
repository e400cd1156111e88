//! What buttons do to a plan: rows added, copied, moved, removed; undo; another plan in its place.

use super::{PlanSheet, place, row_of};
use crate::page::sheet::place as end_of;
use crate::page::{Typed, Update, Whose, Wrong};
use crate::plan::{List, question_at};
use crate::way::Way;
use rigging_core::plan::{CarriedRope, MOST, Person, Plan, PlannedDrop};
use rigging_core::question::Whether;
use std::cell::OnceCell;

/// A plan as it was before a change.
#[derive(Debug)]
pub(super) struct Before {
    plan: Plan,
    whose: Whose,
    keys: [Vec<u32>; 3],
    pub(super) typed: Typed,
    pub(super) wrong: Wrong,
    /// The part that was changed next.
    by: String,
    /// The label of the entry that was changed, if it was one.
    label: &'static str,
}

/// So many changes can be taken back.
const KEPT: usize = 20;

impl PlanSheet {
    /// Keeps how things stand before `by` changes them; the letters of one entry are one change.
    pub(super) fn mark(&mut self, by: &str, typing: bool) {
        let same = typing && self.typing && self.before.last().is_some_and(|before| before.by == by);
        self.typing = typing;
        if same {
            return;
        }
        if self.before.len() >= KEPT {
            self.before.remove(0);
        }
        let (plan, whose, keys) = (self.plan.clone(), self.whose.clone(), self.keys.clone());
        let (typed, wrong) = (self.typed.clone(), self.wrong.clone());
        let label = self.label(by).unwrap_or_default();
        self.before.push(Before { plan, whose, keys, typed, wrong, by: by.to_owned(), label });
    }

    /// What an entry is called.
    fn label(&mut self, id: &str) -> Option<&'static str> {
        let (row, rest) = place(id)?;
        self.text(row, rest).map(|text| text.label).or_else(|| Some(self.field(row, end_of(rest).0)?.about.label))
    }

    /// What stands is as it was before the entry with this id was typed: half a number counts no longer than it is one.
    pub(super) fn as_before(&mut self, id: &str) {
        if let Some(before) = self.before.last().filter(|before| before.by == id) {
            self.plan = before.plan.clone();
        }
    }

    /// What undoing would bring back, in words.
    pub(super) fn undoes(&self) -> Option<String> {
        let Before { by, label, .. } = self.before.last()?;
        Some(match by.split_once(':') {
            Some(("remove-sure" | "remove", id)) => {
                format!("{} back", row_of(id).map_or("the row", |(list, _)| list.row()))
            }
            Some(("plan", _)) => "the plan before it".to_owned(),
            Some(_) => "the last change".to_owned(),
            None => {
                let row = by.split_once('.').map_or(by.as_str(), |(row, _)| row);
                format!("the last change of {}, {label}", row.replace('-', " "))
            }
        })
    }

    fn undo(&mut self) -> Update {
        if let Some(Before { plan, whose, keys, typed, wrong, .. }) = self.before.pop() {
            (self.plan, self.whose, self.keys) = (plan, whose, keys);
            (self.typed, self.wrong, self.turned_away) = (typed, wrong, None);
            self.left.clear();
        }
        (self.typing, self.written) = (false, OnceCell::new());
        self.whole()
    }

    /// Puts another plan in the place of this one; undo brings it back.
    pub(super) fn replace(&mut self, plan: Plan, whose: Whose) {
        self.mark("plan:", false);
        let PlanSheet { plan, whose, keys, .. } = PlanSheet::new(plan, whose);
        (self.plan, self.whose, self.keys) = (plan, whose, keys);
        (self.typed, self.wrong) = (Typed::default(), Wrong::default());
        (self.at, self.written) = (None, OnceCell::new());
        self.left.clear();
        self.offer_nothing();
    }

    pub(super) fn press(&mut self, id: &str, now: &str) -> Update {
        if let Some(update) = self.press_keep(id, now) {
            return update;
        }
        let asked = std::mem::take(&mut self.asking);
        match id {
            "undo" => {
                let update = self.undo();
                return update.focused(if self.before.is_empty() { "plan-offer" } else { "undo" });
            }
            "not-sure" => return self.whole().focused(&asked),
            // At the lip one drop of water must not do it.
            "plan-mine" if self.way == Way::Lip => return self.ask(id),
            "plan-mine" | "plan-mine-sure" => {
                self.mark("plan:", false);
                self.whose = Whose::Mine(now.to_owned());
                self.plan.day.invented = Whether::No;
                self.written = OnceCell::new();
                return self.whole().focused("plan-head");
            }
            _ => {}
        }
        let Some((what, rest)) = id.split_once(':') else { return Update::default() };
        match what {
            "less" => self.step(rest, -1.0, now),
            "more" => self.step(rest, 1.0, now),
            "remove" if self.way == Way::Lip => self.ask(id),
            _ => self.changed(id, what, rest, now),
        }
    }

    fn ask(&mut self, id: &str) -> Update {
        id.clone_into(&mut self.asking);
        self.whole().focused("not-sure")
    }

    /// Changes the rows, if it can be done; the change says where the keyboard is put.
    fn changed(&mut self, by: &str, what: &str, row: &str, now: &str) -> Update {
        self.mark(by, false);
        let ropes = self.keys_of(List::Ropes).to_vec();
        let focus = match what {
            "add" => self.add(row),
            "copy" => self.copy(row),
            "remove" | "remove-sure" => self.remove(row),
            "up" => self.shift(row, false),
            "down" => self.shift(row, true),
            "unput" => self.unput(row),
            _ => None,
        };
        match focus {
            Some(focus) => {
                self.follow(&ropes);
                self.touched(now);
                self.whole().focused(&focus)
            }
            None => {
                self.before.pop();
                if !matches!(what, "add" | "copy") {
                    return Update::default();
                }
                self.turn_away("the plan holds as many rows and questions as it can".to_owned())
            }
        }
    }

    /// Each drop stays on its rope, whose place among those carried was that of its number in `ropes`; of one that is
    /// left behind on a number that no rope has, which is open.
    fn follow(&mut self, ropes: &[u32]) {
        let [_, now, _] = &self.keys;
        for drop in &mut self.plan.drops {
            if let Some(key) = ropes.get((drop.rope as usize).wrapping_sub(1)) {
                drop.rope = now.iter().position(|other| other == key).unwrap_or(now.len()) as u32 + 1;
            }
        }
        // The number of a rope in its box is the one it has now.
        self.typed.forget_usable(&self.wrong);
    }

    pub(super) fn new_key(&self, list: List) -> u32 {
        self.keys_of(list).iter().fold(0, |most, key| most.max(*key)) + 1
    }

    /// Puts a row at a place; where the keyboard goes then.
    fn insert(&mut self, list: List, at: usize, row: NewRow) -> Option<String> {
        let key = self.new_key(list);
        let keys = self.keys.get_mut(list as usize)?;
        let questions = if let NewRow::Drop(row) = &row { row.questions.len() } else { 0 };
        if keys.len() >= MOST[0] || self.plan.questions() + questions > MOST[2] {
            return None;
        }
        keys.insert(at, key);
        match row {
            NewRow::Person(row) => self.plan.group.insert(at, row),
            NewRow::Rope(row) => self.plan.ropes.insert(at, row),
            NewRow::Drop(row) => {
                self.plan.drops.insert(at, *row);
                self.at = Some(key);
            }
        }
        Some(format!("{}-{key}.name", list.row()))
    }

    fn add(&mut self, name: &str) -> Option<String> {
        let list = List::ALL.into_iter().find(|list| list.row() == name)?;
        let row = match list {
            List::Group => NewRow::Person(Person::default()),
            List::Ropes => NewRow::Rope(CarriedRope::default()),
            List::Drops => NewRow::Drop(Box::default()),
        };
        self.insert(list, self.keys_of(list).len(), row)
    }

    fn copy(&mut self, id: &str) -> Option<String> {
        let (list, key) = row_of(id)?;
        let place = self.place_of(list, key)?;
        let row = match list {
            List::Group => NewRow::Person(self.plan.group.get(place)?.clone()),
            List::Ropes => NewRow::Rope(self.plan.ropes.get(place)?.clone()),
            List::Drops => NewRow::Drop(Box::new(self.plan.drops.get(place)?.clone())),
        };
        self.insert(list, place + 1, row)
    }

    fn remove(&mut self, id: &str) -> Option<String> {
        let (list, key) = row_of(id)?;
        let place = self.place_of(list, key)?;
        self.keys.get_mut(list as usize)?.remove(place);
        match list {
            List::Group => drop(self.plan.group.remove(place)),
            List::Ropes => drop(self.plan.ropes.remove(place)),
            List::Drops => drop(self.plan.drops.remove(place)),
        }
        // What cannot be used in it no longer counts.
        let prefix = format!("{id}.");
        self.typed.forget_all(&prefix);
        self.wrong.forget_all(&prefix);
        if list == List::Drops {
            self.at = None;
        }
        Some("undo".to_owned())
    }

    fn shift(&mut self, id: &str, down: bool) -> Option<String> {
        let (list, key) = row_of(id)?;
        let place = self.place_of(list, key)?;
        let other = if down { place + 1 } else { place.checked_sub(1)? };
        let keys = self.keys.get_mut(list as usize)?;
        if other >= keys.len() {
            return None;
        }
        keys.swap(place, other);
        match list {
            List::Group => self.plan.group.swap(place, other),
            List::Ropes => self.plan.ropes.swap(place, other),
            List::Drops => self.plan.drops.swap(place, other),
        }
        Some(format!("{}:{id}", if down { "down" } else { "up" }))
    }

    /// Takes a question out of a drop: `drop-3.0`.
    fn unput(&mut self, id: &str) -> Option<String> {
        let (key, place) = question_at(id)?;
        let at = self.place_of(List::Drops, key)?;
        let questions = &mut self.plan.drops.get_mut(at)?.questions;
        (place < questions.len()).then(|| questions.remove(place))?;
        self.left.retain(|left| left.of.0 != key);
        Some("undo".to_owned())
    }
}

/// A row that is put in.
enum NewRow {
    Person(Person),
    Rope(CarriedRope),
    Drop(Box<PlannedDrop>),
}
