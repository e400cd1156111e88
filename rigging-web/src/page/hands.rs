//! What hands do to a sheet without typing: one step less or more, a slide, undo, back to the example.

use super::sheet::{Sheet, Typed, Wrong, place};
use super::{Update, Whose};
use crate::entry;
use crate::link::as_linked;
use crate::number::plain;
use crate::written::{Written, written};
use rigging_core::band::Band;
use rigging_core::quantity::{Kind, Unit, Units};
use rigging_core::question::{About, Asked, Entry, Question};

/// A sheet as it was before a change.
#[derive(Debug, Clone)]
pub(super) struct Before {
    question: Question,
    units: Units,
    from: Option<&'static str>,
    typed: Typed,
    wrong: Wrong,
    /// The input that was changed next.
    by: String,
}

impl Before {
    /// The entry of a field as it then was.
    pub(super) fn entry(&self, name: &str) -> Option<Entry> {
        self.question.fields().into_iter().find(|field| field.about.name == name).map(|field| field.entry)
    }
}

/// So many changes can be taken back.
const KEPT: usize = 50;

/// Whether something that cannot be set off by one touch was asked for once.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Asking {
    /// Nothing was.
    #[default]
    Nothing,
    /// Back to the example.
    Reset,
    /// That the numbers are one's own, at the lip.
    Mine,
}

/// A natural step of a field in the chosen units, in SI: a finer one where its bounds are narrow.
pub fn step(about: &About, units: Units) -> f64 {
    match written(about, units) {
        Written::Minutes => return 60.0,
        Written::Clock => return 900.0,
        Written::In(_) => {}
    }
    let unit = units.of(about.kind);
    let step = unit.to_si(match (about.kind, unit) {
        (Kind::Force, Unit::Kilonewton) | (Kind::Speed, _) => 0.1,
        (Kind::Force, _) => 20.0,
        (Kind::Length, Unit::Foot) => 0.5,
        (Kind::Length, _) => 0.1,
        (Kind::Thickness, Unit::Inch) => 0.05,
        (Kind::Angle, _) => 5.0,
        (Kind::Ratio, _) => 0.01,
        _ => 1.0,
    });
    let (least, most) = about.takes.bounds();
    if most - least < 10.0 * step && step < 1.0 { step / 10.0 } else { step }
}

/// The next whole step from a value, `by` steps on; a value between two steps goes to the nearer one first.
fn stepped(si: f64, step: f64, by: f64) -> f64 {
    let at = si / step;
    let whole = if by < 0.0 { (at - 1e-6).ceil() } else { (at + 1e-6).floor() };
    (whole + by) * step
}

impl Sheet {
    /// Keeps how things stand before the input `by` changes them; the letters of one entry are one change.
    pub(super) fn mark(&mut self, by: &str, typing: bool) {
        let same = typing && self.before.last().is_some_and(|before| before.by == by) && self.typing;
        self.typing = typing;
        if !same {
            self.mark_from(&self.clone(), by);
        }
    }

    /// Keeps how a sheet stood before the input `by` changed it.
    pub(super) fn mark_from(&mut self, was: &Sheet, by: &str) {
        if self.before.len() >= KEPT {
            self.before.remove(0);
        }
        let Sheet { question, units, from, typed, wrong, .. } = was.clone();
        self.before.push(Before { question, units, from, typed, wrong, by: by.to_owned() });
    }

    /// Takes the last change back.
    pub(super) fn undo(&mut self) -> Update {
        if let Some(Before { question, units, from, typed, wrong, .. }) = self.before.pop() {
            (self.question, self.units, self.from) = (question, units, from);
            (self.typed, self.wrong) = (typed, wrong);
        }
        self.typing = false;
        self.whole()
    }

    /// What undoing would bring back, in words; nothing if nothing was changed.
    pub(super) fn undoes(&self) -> Option<String> {
        let before = self.before.last()?;
        let name = place(&before.by).0;
        let was = before.question.fields().into_iter().find(|field| field.about.name == name);
        Some(match was {
            Some(was) => format!("{} back to {}", was.about.label, entry::shown(&was, before.units)),
            None => "the last change".to_owned(),
        })
    }

    /// Asks whether something is meant, or no longer.
    pub(super) fn ask(&mut self, asking: Asking) -> Update {
        self.asking = asking;
        let focus = match asking {
            Asking::Nothing => "answer",
            Asking::Reset | Asking::Mine => "not-sure",
        };
        self.whole().focused(focus)
    }

    /// Back to the example's numbers.
    pub(super) fn reset(&mut self) -> Update {
        self.mark("", false);
        if let Ok(example) = Question::named(self.question.name()) {
            self.question = example;
        }
        (self.typed, self.wrong, self.from) = (Typed::default(), Wrong::default(), None);
        self.whose = Whose::Example;
        self.asking = Asking::Nothing;
        self.whole()
    }

    /// Moves the number of an input by whole steps, within its bounds; an end that meets the other takes it along.
    pub(super) fn step(&mut self, input: &str, by: f64, now: &str) -> Update {
        let (name, end) = place(input);
        let Some(field) = self.field(name) else { return Update::default() };
        let entry = one_step(&field, end, by, self.units);
        self.mark(input, false);
        if self.take(&field, entry, now) { self.results_of_entry(name) } else { Update::default() }
    }

    /// Moves a field to a value (SI); a range goes along with its middle and keeps its width. Within the bounds.
    pub(super) fn shift_to(&mut self, name: &str, si: f64, now: &str) -> Update {
        if self.shift(name, si, now) { self.results_of_entry(name) } else { Update::default() }
    }

    /// The same without what follows from it.
    pub(super) fn shift(&mut self, name: &str, si: f64, now: &str) -> bool {
        let Some(field) = self.field(name) else { return false };
        let (least, most) = field.about.takes.bounds();
        let entry = match field.entry {
            Entry::Range(band) => {
                let half = (band.high() - band.low()) / 2.0;
                let at = si.max(least + half).min(most - half);
                Entry::Range(middle(at - half, at + half))
            }
            Entry::One(_) => Entry::One(si.max(least).min(most)),
            entry => entry,
        };
        self.take(&field, entry, now)
    }

    /// Gives a field an entry as if it had been typed; false if it is refused.
    fn take(&mut self, field: &Asked, entry: Entry, now: &str) -> bool {
        let name = field.about.name;
        let linked = as_linked(&field.with(entry), self.units);
        if self.question.set(name, &linked).is_err() {
            return false;
        }
        self.wrong.forget(name);
        self.typed.forget_field(name);
        if field.about.kind == Kind::Force {
            self.from = None;
        }
        self.touched(now);
        true
    }

    /// What stands in the boxes of a field, by their ids.
    pub(super) fn boxed(&self, name: &str) -> Vec<(String, String)> {
        let Some(field) = self.field(name) else { return Vec::new() };
        let unit = self.units.of(field.about.kind);
        let text = |id: String, si: f64| {
            let text = self.typed.get(&id).cloned().unwrap_or_else(|| plain(unit.from_si(si)));
            (id, text)
        };
        match field.entry {
            Entry::One(si) => vec![text(name.to_owned(), si), text(slide_id(name), si)],
            Entry::Range(band) => vec![
                text(format!("{name}-low"), band.low()),
                text(format!("{name}-high"), band.high()),
                text(slide_id(name), field.entry.middle()),
            ],
            Entry::Choice(chosen) => vec![(name.to_owned(), chosen.to_owned())],
        }
    }
}

/// An entry one step on, within its bounds; an end that meets the other takes it along.
pub(super) fn one_step(field: &Asked, end: Option<&str>, by: f64, units: Units) -> Entry {
    let (least, most) = field.about.takes.bounds();
    let step = step(&field.about, units);
    let next = |si: f64| stepped(si, step, by).max(least).min(most);
    match (field.entry, end) {
        (Entry::Range(band), Some("low")) => {
            let low = next(band.low());
            Entry::Range(middle(low, band.high().max(low)))
        }
        (Entry::Range(band), _) => {
            let high = next(band.high());
            Entry::Range(middle(band.low().min(high), high))
        }
        (Entry::One(si), _) => Entry::One(next(si)),
        (entry, _) => entry,
    }
}

/// The id of the slider of a field.
pub fn slide_id(name: &str) -> String {
    format!("slide:{name}")
}

fn middle(low: f64, high: f64) -> Band {
    Band::of(low, (low + high) / 2.0, high)
}
