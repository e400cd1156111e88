//! The plan being worked on: its rows, what stands in their boxes as typed, and whose numbers these are.

mod hands;
mod keep;
mod question;

use super::hands::one_step;
use super::sheet::place as end_of;
use super::{Event, Typed, Update, Whose, Wrong, typed};
use crate::entry::{self, Boxes};
use crate::link::as_linked;
use crate::plan::{self, List, Offer, PlanView, row_of};
use crate::way::Way;
use hands::Before;
use rigging_core::plan::{Answers, Checked, Plan, Row, Words};
use rigging_core::quantity::Units;
use rigging_core::question::{Asked, BadInput, Entry, Takes};
use std::cell::OnceCell;

/// The plan being worked on.
#[derive(Debug)]
pub(super) struct PlanSheet {
    plan: Plan,
    pub(super) whose: Whose,
    /// Numbers that stay with their rows while these move, so that what is typed stays with them.
    keys: [Vec<u32>; 3],
    typed: Typed,
    wrong: Wrong,
    before: Vec<Before>,
    /// What undoing would bring back.
    typing: bool,
    /// The button that wants to be pressed again.
    asking: String,
    offer: Option<Offer>,
    /// Why something was not taken: a file or a link, one more row, what a question says and the plan says itself.
    turned_away: Option<String>,
    /// What was typed into questions of drops and cannot be used: it stands there again.
    left: Vec<Left>,
    /// The drop on the screen, by the number of its row; none for the whole plan.
    at: Option<u32>,
    pub(super) way: Way,
    pub(super) units: Units,
    answers: Answers,
    /// The text of its file, as far as it is known to be the same.
    written: OnceCell<String>,
}

/// What was typed into the question of a drop and cannot be used.
#[derive(Debug)]
struct Left {
    /// The row of the drop, and the place of the question in it.
    of: (u32, usize),
    typed: Typed,
    wrong: Wrong,
    why: String,
}

/// A name in an id: the row it belongs to, and the field or text.
fn place(id: &str) -> Option<(&str, &str)> {
    id.split_once('.')
}

impl PlanSheet {
    pub(super) fn new(plan: Plan, whose: Whose) -> PlanSheet {
        let keys = [plan.group.len(), plan.ropes.len(), plan.drops.len()].map(|count| (1..=count as u32).collect());
        PlanSheet {
            plan,
            whose,
            keys,
            typed: Typed::default(),
            wrong: Wrong::default(),
            before: Vec::new(),
            typing: false,
            asking: String::new(),
            offer: None,
            turned_away: None,
            left: Vec::new(),
            at: None,
            way: Way::default(),
            units: Units::default(),
            answers: Answers::default(),
            written: OnceCell::new(),
        }
    }

    fn keys_of(&self, list: List) -> &[u32] {
        self.keys.get(list as usize).map_or(&[], Vec::as_slice)
    }

    fn place_of(&self, list: List, key: u32) -> Option<usize> {
        self.keys_of(list).iter().position(|other| *other == key)
    }

    fn row(&mut self, id: &str) -> Option<&mut dyn Row> {
        match id {
            "day" => return Some(&mut self.plan.day),
            "pace" => return Some(&mut self.plan.pace),
            _ => {}
        }
        let (list, key) = row_of(id)?;
        let place = self.place_of(list, key)?;
        Some(match list {
            List::Group => self.plan.group.get_mut(place)?,
            List::Ropes => self.plan.ropes.get_mut(place)?,
            List::Drops => self.plan.drops.get_mut(place)?,
        })
    }

    fn boxes<'a>(&'a self, prefix: &'a str) -> Boxes<'a> {
        Boxes { prefix, units: self.units, way: self.way, typed: &self.typed, wrong: &self.wrong }
    }

    /// The check as it may be shown: nothing is compared unless the numbers are mine and every entry can be used.
    fn checked(&mut self) -> Checked {
        let checked = self.plan.check(&mut self.answers, self.units);
        if matches!(self.whose, Whose::Mine(_)) && self.wrong.is_empty() { checked } else { checked.not_confirmed() }
    }

    /// Works the screens out of what stands here; one copy for all of them.
    fn shown<T: Default>(&mut self, work: &dyn Fn(&PlanView, Option<usize>) -> T) -> T {
        let mut shown = T::default();
        self.view(&mut |view, at| shown = work(view, at));
        shown
    }

    fn view(&mut self, work: &mut dyn FnMut(&PlanView, Option<usize>)) {
        let checked = self.checked();
        let sections = self.plan.sections(&checked);
        let undoes = self.undoes();
        let away: Vec<_> = self.turned_away.iter().chain(self.left.iter().map(|left| &left.why)).cloned().collect();
        let view = PlanView {
            plan: &self.plan,
            checked: &checked,
            sections: &sections,
            whose: &self.whose,
            keys: &self.keys,
            typed: &self.typed,
            wrong: &self.wrong,
            way: self.way,
            units: self.units,
            undoes: undoes.as_deref(),
            asking: &self.asking,
            offer: self.offer.as_ref(),
            turned_away: &away,
        };
        work(&view, self.at.and_then(|key| self.place_of(List::Drops, key)));
    }

    fn update(&self) -> Update {
        let place = self.at.and_then(|key| self.place_of(List::Drops, key));
        Update {
            fragment: place.map_or("plan".to_owned(), |place| format!("plan/{}", place + 1)),
            memory: self.whose.memory(),
            way: self.way.name(),
            title: "The rigging plan · Rigging loads".to_owned(),
            ..Update::default()
        }
    }

    pub(super) fn whole(&mut self) -> Update {
        let html = self.shown(&|view, at| match at {
            Some(place) => plan::drop_page(view, place).into_string(),
            None => plan::page(view).into_string(),
        });
        Update { put: vec![("app".to_owned(), html)], ..self.update() }
    }

    /// Everything that follows from what is entered, the entries left as they are.
    fn results(&mut self) -> Update {
        let (parts, said) = self.shown(&|view, at| {
            let parts = plan::parts(view, at);
            let first = view.checked.first.len();
            (parts, format!("{first} drops to look at first, {} open decisions.", view.checked.open.len()))
        });
        let put = parts.into_iter().map(|(id, html)| (id, html.into_string())).collect();
        Update { put, said, ..self.update() }
    }

    /// Goes to the drop at a place, or to the whole plan.
    pub(super) fn go(&mut self, place: Option<usize>) -> Update {
        self.at = place.and_then(|place| self.keys_of(List::Drops).get(place)).copied();
        self.asking.clear();
        self.whole()
    }

    /// Numbers that were mine on an earlier day are asked about; true if they just became so.
    pub(super) fn age(&mut self, now: &str) -> bool {
        self.whose.age(now)
    }

    fn touched(&mut self, now: &str) {
        self.written = OnceCell::new();
        self.offer_nothing();
        if matches!(self.whose, Whose::Mine(_)) {
            self.whose = Whose::Mine(now.to_owned());
        }
    }

    /// Something happens to the part with this id.
    pub(super) fn event(&mut self, event: Event, id: &str, value: &str, now: &str) -> Update {
        let aged = self.age(now);
        match event {
            Event::Leave if aged => self.whole(),
            Event::Press => self.press(id, now),
            // The text of a file.
            Event::Input if id == "plan-opened" => self.open(value),
            Event::Input => self.enter(id, value, now),
            Event::Leave => self.leave(id),
        }
    }

    /// Tells and reads everything in other units. What is unusable stays what it was, in the unit that stood beside it.
    pub(super) fn take_units(&mut self, units: Units) {
        if units == self.units {
            return;
        }
        let before = std::mem::replace(&mut self.units, units);
        let (mut typed, wrong) = (std::mem::take(&mut self.typed), self.wrong.clone());
        self.with_units(&mut typed, &wrong, before);
        self.typed = typed;
        for (at, _) in wrong.each() {
            let Some((row, name)) = place(at) else { continue };
            let Some(field) = self.field(row, name) else { continue };
            // What it must be is told in those chosen.
            if let Err(wrong) = self.read(row, &field) {
                self.wrong.keep(at.clone(), wrong);
            }
        }
        // What undoing brings back is not told as it was typed in other units.
        let mut steps = std::mem::take(&mut self.before);
        for step in &mut steps {
            self.with_units(&mut step.typed, &step.wrong, before);
        }
        self.before = steps;
    }

    /// What cannot be used of what was typed, in the units that stood beside it.
    fn with_units(&mut self, typed: &mut Typed, wrong: &Wrong, units: Units) {
        typed.forget_usable(wrong);
        for (at, _) in wrong.each() {
            let about = place(at).and_then(|(row, name)| self.field(row, name)).map(|field| field.about);
            typed.keep_all(&about.map(|about| typed.of_field(at, &about, units)).unwrap_or_default());
        }
    }

    fn field(&mut self, row: &str, name: &str) -> Option<Asked> {
        self.row(row)?.asked().into_iter().find(|field| field.about.name == name)
    }

    fn text(&mut self, row: &str, name: &str) -> Option<Words> {
        self.row(row)?.words().into_iter().find(|text| text.name == name)
    }

    /// Takes in what is typed; what is wrong is said when the field is left.
    fn enter(&mut self, id: &str, value: &str, now: &str) -> Update {
        let Some((row, at, takes)) = self.named(id) else { return Update::default() };
        self.mark(id, !matches!(takes, Some(Takes::Choice(_))));
        self.typed.keep(id.to_owned(), value.to_owned());
        match self.take_in(id) {
            Ok(()) => {
                self.wrong.forget(&at);
                self.touched(now);
                let mut update = self.results();
                update.put.push((entry::message_id(&at), String::new()));
                update.hidden = self.hidden(&row);
                update
            }
            Err(wrong) => {
                self.as_before(id);
                self.written = OnceCell::new();
                self.wrong.keep(at, wrong);
                self.results()
            }
        }
    }

    /// What an id names: the row, the entry in it by its id, and what a field of it takes; none for a text.
    fn named(&mut self, id: &str) -> Option<(String, String, Option<Takes>)> {
        let (row, rest) = place(id)?;
        if self.text(row, rest).is_some() {
            return Some((row.to_owned(), id.to_owned(), None));
        }
        let at = end_of(id).0;
        let field = self.field(row, place(at)?.1)?;
        Some((row.to_owned(), at.to_owned(), Some(field.about.takes)))
    }

    /// Takes in what stands in the boxes of an entry.
    fn take_in(&mut self, id: &str) -> Result<(), String> {
        let Some((row, rest)) = place(id) else { return Ok(()) };
        if let Some(text) = self.text(row, rest) {
            let words = self.typed.get(id).cloned().unwrap_or_default();
            let said = self.row(row).map(|row| row.say(text.name, &words));
            return said.unwrap_or(Ok(())).map_err(|error| refused(text.label, &error));
        }
        let Some(field) = self.field(row, end_of(rest).0) else { return Ok(()) };
        let entry = self.read(row, &field)?;
        self.give(row, &field, entry)
    }

    fn read(&self, row: &str, field: &Asked) -> Result<Entry, String> {
        typed::entry(field, &self.boxes(&[row, "."].concat()))
    }

    fn give(&mut self, row: &str, field: &Asked, entry: Entry) -> Result<(), String> {
        let linked = as_linked(&field.with(entry), self.units);
        let set = self.row(row).map(|row| row.set(field.about.name, &linked));
        set.unwrap_or(Ok(())).map_err(|error| refused(field.about.label, &error))
    }

    /// Which entries of a row matter.
    fn hidden(&mut self, id: &str) -> Vec<(String, bool)> {
        let asked = self.row(id).map(|row| row.asked()).unwrap_or_default();
        asked.iter().map(|field| (entry::entry_id(&[id, ".", field.about.name].concat()), !field.matters)).collect()
    }

    fn leave(&mut self, id: &str) -> Update {
        self.typing = false;
        let Some((row, rest)) = place(id) else { return Update::default() };
        let prefix = format!("{row}.");
        let (name, _) = typed::place_in(id, &prefix);
        let at = [&prefix, name].concat();
        let message = match (self.wrong.get(&at).cloned(), self.field(row, name)) {
            (Some(wrong), _) => entry::message(&wrong),
            (None, Some(field)) => entry::echo(&field, &self.boxes(&prefix)),
            (None, None) if self.text(row, rest).is_some() => entry::message(""),
            (None, None) => return Update::default(),
        };
        Update { put: vec![(entry::message_id(&at), message.into_string())], ..Update::default() }
    }

    /// One step less or more of a number.
    fn step(&mut self, id: &str, by: f64, now: &str) -> Update {
        let Some((row, _)) = place(id) else { return Update::default() };
        let prefix = format!("{row}.");
        let (name, end) = typed::place_in(id, &prefix);
        let Some(mut field) = self.field(row, name) else { return Update::default() };
        self.mark(id, false);
        // Over what is refused between two steps: nobody weighs more than nothing and less than 30 kg.
        let given = (0..99).any(|_| {
            field.entry = one_step(&field, end, by, self.units);
            self.give(row, &field, field.entry).is_ok()
        });
        if !given {
            self.before.pop();
            return Update::default();
        }
        let at = [&prefix, name].concat();
        self.wrong.forget(&at);
        self.typed.forget_field(&at);
        self.touched(now);
        let mut update = self.results();
        update.values = self.field(row, name).map(|field| self.boxed(&at, &field)).unwrap_or_default();
        update.put.push((entry::message_id(&at), String::new()));
        update
    }

    fn boxed(&self, id: &str, field: &Asked) -> Vec<(String, String)> {
        let written = crate::written::written(&field.about, self.units);
        match field.entry {
            Entry::One(si) => vec![(id.to_owned(), written.text(si))],
            Entry::Range(band) => {
                vec![(format!("{id}-low"), written.text(band.low())), (format!("{id}-high"), written.text(band.high()))]
            }
            Entry::Choice(_) => Vec::new(),
        }
    }
}

/// What is wrong with a text or an entry, the field named as on the page.
fn refused(label: &str, error: &BadInput) -> String {
    match error {
        BadInput::Refused { why, .. } => format!("{label}: {why}."),
        error => format!("{label}: {}.", error.words()),
    }
}
