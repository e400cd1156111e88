//! The open page: what it shows, and what a person's hand changes.

use crate::home;
use crate::link::{Broken, Link, as_linked};
use crate::number::{self, Unread};
use crate::question_screen::{self as screen, View};
use crate::result;
use crate::units::{FORCES, LENGTHS, Units};
use rigging_core::band::Band;
use rigging_core::quantity::{Kind, Unit};
use rigging_core::question::{Answer, Asked, BadInput, Entry, Question, Takes, check, settled};
use serde::Serialize;

/// What the shell has to put in place.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Update {
    /// Inner HTML by the id of its place.
    pub put: Vec<(String, String)>,
    /// Parts to hide (true) or show (false), by id.
    pub hidden: Vec<(String, bool)>,
    /// What the address holds now, without `#`.
    pub fragment: String,
    /// What the browser is to remember beside the address: when the numbers were last the user's own.
    pub memory: String,
    /// Title of the window.
    pub title: String,
    /// A sentence for those who listen instead of looking; empty for none.
    pub said: String,
    /// Where the keyboard is to be put; empty to leave it.
    pub focus: String,
}

/// Whose numbers these are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Whose {
    /// An example of this page, untouched or changed but not yet confirmed.
    Example,
    /// They came with a link.
    Link,
    /// The user's own, last touched today; date and time.
    Mine(String),
    /// The user's own, from an earlier day: to be confirmed; date and time.
    Earlier(String),
}

/// What happens on the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Event {
    /// Something is being typed or chosen.
    Input,
    /// A field is left.
    Leave,
    /// A button is pressed.
    Press,
}

/// A question being worked on.
#[derive(Debug, Clone)]
struct Sheet {
    question: Question,
    units: Units,
    /// The letters of the question that its forces were taken from.
    from: Option<&'static str>,
    whose: Whose,
    /// What stands in a box as typed, by the id of the box, while it differs from the value.
    typed: Typed,
    /// What is wrong, by the name of the field.
    wrong: Wrong,
}

/// Words kept by name: a handful, so that a list serves.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kept<K>(Vec<(K, String)>);

/// What stands in boxes as typed, by their ids.
pub type Typed = Kept<String>;
/// What is wrong with entries, by the names of their fields.
pub type Wrong = Kept<&'static str>;

impl<K> Default for Kept<K> {
    fn default() -> Self {
        Kept(Vec::new())
    }
}

impl<K: AsRef<str>> Kept<K> {
    /// The words kept under a name.
    pub fn get(&self, name: &str) -> Option<&String> {
        self.0.iter().find(|(kept, _)| kept.as_ref() == name).map(|(_, words)| words)
    }

    fn keep(&mut self, name: K, words: String) {
        self.forget(name.as_ref());
        self.0.push((name, words));
    }

    fn forget(&mut self, name: &str) {
        self.0.retain(|(kept, _)| kept.as_ref() != name);
    }
}

/// The open page.
#[derive(Debug, Default)]
pub struct Page {
    sheet: Option<Sheet>,
    /// Sheets put aside while another is open: nothing typed is lost.
    aside: Vec<Sheet>,
    units: Units,
    /// The group's masses, once they were entered: asked once, used everywhere.
    group: Option<Masses>,
}

/// Entries of the fields that are the same in every question, in the order of [`OF_THE_GROUP`].
type Masses = Vec<Entry>;
/// Names of these fields.
const OF_THE_GROUP: [&str; 3] = ["body_kg", "kit_kg", "suit_water_kg"];

impl Page {
    /// Goes to where the address says. `memory` is what the browser kept with that address, `now` the
    /// local date and time as `YYYY-MM-DD hh:mm`.
    pub fn go(&mut self, fragment: &str, memory: &str, now: &str) -> Update {
        // The links that a sheet of mine offers lead to numbers that are not a stranger's.
        let mut offered = Vec::new();
        if let Some(sheet) = self.sheet.take() {
            self.units = sheet.units;
            if sheet.whose != Whose::Link {
                offered = sheet.offers();
            }
            self.aside.retain(|other| other.link() != sheet.link());
            self.aside.push(sheet);
        }
        for sheet in &mut self.aside {
            sheet.age(now);
        }
        let fragment = fragment.trim_start_matches('#');
        let link = match Link::read(fragment) {
            Ok(link) => link,
            Err(_) if fragment.is_empty() => return self.home(None),
            Err(broken) => return self.home(Some(broken)),
        };
        let kept = self.aside.iter().position(|sheet| sheet.link().write() == fragment);
        let kept = kept.map(|place| self.aside.swap_remove(place));
        let mut sheet = kept.unwrap_or_else(|| {
            let whose = if link.question.is_example() || offered.iter().any(|offered| offered == fragment) {
                Whose::Example
            } else {
                match memory.split_once(' ') {
                    None => Whose::Link,
                    Some(_) => Whose::Mine(memory.to_owned()),
                }
            };
            // An example opened from home is shown in the units last chosen.
            let units =
                if link.question.is_example() && link.units == Units::default() { self.units } else { link.units };
            let (question, from) = (link.question, link.from);
            let mut sheet = Sheet { question, units, from, whose, typed: Typed::default(), wrong: Wrong::default() };
            sheet.age(now);
            sheet
        });
        self.share_masses(&mut sheet);
        let update = sheet.whole();
        self.sheet = Some(sheet);
        update
    }

    /// The masses of the group go into every sheet but a stranger's; the first that has some of its own gives them.
    fn share_masses(&mut self, sheet: &mut Sheet) {
        if sheet.whose == Whose::Link {
            return;
        }
        match &self.group {
            Some(group) => sheet.take_masses(group),
            None => self.group = sheet.masses().filter(|_| sheet.has_own_masses()),
        }
    }

    fn home(&mut self, broken: Option<Broken>) -> Update {
        // The last sheet of a question, the user's own before one that came with a link.
        let kept = |question: &Question| {
            let mut sheets = self.aside.iter().rev().filter(|sheet| sheet.question.key() == question.key());
            let last = sheets.clone().next();
            sheets.find(|sheet| sheet.whose != Whose::Link).or(last).map(|sheet| sheet.link().write())
        };
        Update {
            put: vec![("app".to_owned(), home::page(kept, broken.as_ref()).into_string())],
            title: "Rigging loads".to_owned(),
            ..Update::default()
        }
    }

    /// The page is looked at again: numbers of an earlier day are no longer taken for today's.
    pub fn wake(&mut self, now: &str) -> Update {
        let Some(sheet) = &mut self.sheet else { return Update::default() };
        if sheet.age(now) { sheet.whole() } else { Update::default() }
    }

    /// Something happens to the part with this id.
    pub fn event(&mut self, event: Event, id: &str, value: &str, now: &str) -> Update {
        let Some(sheet) = &mut self.sheet else { return Update::default() };
        let aged = sheet.age(now);
        match (event, id) {
            (Event::Leave, _) if aged => sheet.whole(),
            (Event::Press, "mine") => {
                sheet.confirm(now);
                self.group = sheet.masses().or(self.group.take());
                Update { focus: "answer".to_owned(), ..sheet.whole() }
            }
            (Event::Input, "force-unit") => sheet.change_unit(id, value, |units, unit| units.force = unit),
            (Event::Input, "length-unit") => sheet.change_unit(id, value, |units, unit| units.length = unit),
            (Event::Input, id) => {
                let update = sheet.enter(id, value, now);
                if sheet.whose != Whose::Link && OF_THE_GROUP.contains(&place(id).0) {
                    self.group = sheet.masses();
                }
                update
            }
            (Event::Leave, id) => sheet.leave(id),
            _ => Update::default(),
        }
    }
}

/// The name of the field an input belongs to, and which end of a range it is.
fn place(id: &str) -> (&str, Option<&str>) {
    match id.rsplit_once('-') {
        Some((name, end @ ("low" | "high"))) => (name, Some(end)),
        _ => (id, None),
    }
}

impl Sheet {
    fn link(&self) -> Link {
        Link { question: self.question.clone(), units: self.units, from: self.from }
    }

    /// The links to other questions that its answer offers, without `#`.
    fn offers(&self) -> Vec<String> {
        let Some(Ok(answer)) = self.answer() else { return Vec::new() };
        result::ways_on(&answer, &self.question, self.units).iter().map(Link::write).collect()
    }

    /// The masses of the group as they stand, if people hang here.
    fn masses(&self) -> Option<Masses> {
        OF_THE_GROUP.into_iter().map(|name| Some(self.field(name)?.entry)).collect()
    }

    fn has_own_masses(&self) -> bool {
        let example = Question::named(self.question.name()).map(|example| example.fields()).unwrap_or_default();
        let fields = self.question.fields();
        fields.iter().zip(&example).any(|(field, usual)| OF_THE_GROUP.contains(&field.about.name) && field != usual)
    }

    fn take_masses(&mut self, group: &Masses) {
        for (name, entry) in OF_THE_GROUP.into_iter().zip(group) {
            if self.wrong.get(name).is_none() {
                // A question that asks for none has no such field.
                let _ = self.question.set(name, entry);
                self.typed.0.retain(|(id, _)| place(id).0 != name);
            }
        }
    }

    fn field(&self, name: &str) -> Option<Asked> {
        self.question.fields().into_iter().find(|field| field.about.name == name)
    }

    /// The answer, or nothing while an entry that matters is unusable.
    fn answer(&self) -> Option<Result<Answer, BadInput>> {
        let unusable =
            self.question.fields().iter().any(|field| field.matters && self.wrong.get(field.about.name).is_some());
        (!unusable).then(|| self.question.answer())
    }

    fn view<'a>(&'a self, answer: &'a Option<Result<Answer, BadInput>>) -> View<'a> {
        View {
            question: &self.question,
            units: self.units,
            from: self.from,
            whose: &self.whose,
            typed: &self.typed,
            wrong: &self.wrong,
            answer: answer.as_ref(),
        }
    }

    fn update(&self) -> Update {
        let memory = match &self.whose {
            Whose::Mine(touched) | Whose::Earlier(touched) => touched.clone(),
            Whose::Example | Whose::Link => String::new(),
        };
        Update {
            fragment: self.link().write(),
            memory,
            title: format!("{} · Rigging loads", self.question.words()),
            ..Update::default()
        }
    }

    fn whole(&self) -> Update {
        let answer = self.answer();
        let html = screen::page(&self.view(&answer)).into_string();
        Update { put: vec![("app".to_owned(), html)], ..self.update() }
    }

    /// Everything that follows from the numbers, the entries left as they are.
    fn results(&self) -> Update {
        let answer = self.answer();
        let view = self.view(&answer);
        let hidden =
            self.question.fields().iter().map(|field| (screen::entry_id(field.about.name), !field.matters)).collect();
        let put = screen::results(&view).into_iter().map(|(id, html)| (id.to_owned(), html.into_string())).collect();
        Update { put, hidden, said: screen::sentence(&view), ..self.update() }
    }

    fn confirm(&mut self, now: &str) {
        self.whose = Whose::Mine(now.to_owned());
    }

    /// Numbers that were mine on an earlier day are asked about; true if they just became so.
    fn age(&mut self, now: &str) -> bool {
        let day = |time: &str| time.split_once(' ').map(|(day, _)| day.to_owned());
        match &self.whose {
            Whose::Mine(touched) if day(touched) != day(now) => {
                self.whose = Whose::Earlier(touched.clone());
                true
            }
            _ => false,
        }
    }

    fn touched(&mut self, now: &str) {
        if matches!(self.whose, Whose::Mine(_)) {
            self.confirm(now);
        }
    }

    fn change_unit(&mut self, id: &str, value: &str, change: fn(&mut Units, Unit)) -> Update {
        let units = FORCES.iter().chain(&LENGTHS);
        if let Some(unit) = units.copied().find(|unit| unit.symbol() == value) {
            // What is unusable stays as typed; all else is told in the new unit.
            let wrong = &self.wrong;
            self.typed.0.retain(|(id, _)| wrong.get(place(id).0).is_some());
            change(&mut self.units, unit);
            let example = Question::named(self.question.name());
            let usual = example.map(|example| example.fields()).unwrap_or_default();
            for (field, usual) in self.question.fields().iter().zip(&usual) {
                if field.entry != usual.entry {
                    let _ = self.question.set(field.about.name, &as_linked(field, self.units));
                }
            }
        }
        Update { focus: id.to_owned(), ..self.whole() }
    }

    /// Takes in what is typed; the numbers change at once, what is wrong is said when the field is left.
    fn enter(&mut self, id: &str, value: &str, now: &str) -> Update {
        let (name, _) = place(id);
        let Some(field) = self.field(name) else { return Update::default() };
        self.typed.keep(id.to_owned(), value.to_owned());
        match self.entry(&field) {
            Ok(entry) => {
                self.wrong.forget(field.about.name);
                let linked = as_linked(&Asked { entry, ..field.clone() }, self.units);
                // What is on the screen is what its link says; six figures of a value within bounds settle there.
                let _ = self.question.set(field.about.name, &linked);
                if field.about.kind == Kind::Force {
                    // What is typed was not taken from another question.
                    self.from = None;
                }
                self.touched(now);
                let mut update = self.results();
                update.put.push((screen::message_id(name), String::new()));
                update
            }
            Err(wrong) => {
                self.wrong.keep(field.about.name, wrong);
                self.results()
            }
        }
    }

    fn leave(&mut self, id: &str) -> Update {
        let (name, _) = place(id);
        let Some(field) = self.field(name) else { return Update::default() };
        let message = match self.wrong.get(name) {
            Some(wrong) => screen::message(wrong),
            None => screen::echo(&field, self.units, &self.typed),
        };
        Update { put: vec![(screen::message_id(name), message.into_string())], ..Update::default() }
    }

    /// The entry of a field from what stands in its boxes, or what is wrong with it.
    fn entry(&self, field: &Asked) -> Result<Entry, String> {
        let about = &field.about;
        let entry = match about.takes {
            Takes::Choice(choices) => {
                let typed = self.typed.get(about.name).map(String::as_str).unwrap_or_default();
                let choice = choices.iter().find(|choice| choice.name == typed);
                choice.map(|choice| Entry::Choice(choice.name)).ok_or_else(|| "Choose one of the list.".to_owned())?
            }
            Takes::One { .. } => Entry::One(self.number(field, None)?),
            Takes::Range { .. } => {
                let (low, high) = (self.number(field, Some("low"))?, self.number(field, Some("high"))?);
                for end in [low, high] {
                    check(about, &settled(about, &Entry::One(end)))
                        .map_err(|_| self.rule(field, &self.boxes(field)))?;
                }
                if low > high {
                    return Err(format!("{}: the first number must not be above the second.", about.label));
                }
                Entry::Range(Band::of(low, (low + high) / 2.0, high))
            }
        };
        let entry = settled(about, &entry);
        check(about, &entry).map_err(|_| self.rule(field, &self.boxes(field)))?;
        Ok(entry)
    }

    fn boxes(&self, field: &Asked) -> String {
        let typed = |id: String| self.typed.get(&id).cloned();
        let boxes =
            [field.about.name.to_owned(), format!("{}-low", field.about.name), format!("{}-high", field.about.name)];
        boxes.into_iter().filter_map(typed).collect::<Vec<_>>().join(" to ")
    }

    fn number(&self, field: &Asked, end: Option<&str>) -> Result<f64, String> {
        let about = &field.about;
        let id = end.map_or_else(|| about.name.to_owned(), |end| format!("{}-{end}", about.name));
        let Some(text) = self.typed.get(&id) else {
            return Ok(match (field.entry, end) {
                (Entry::One(si), _) => si,
                (Entry::Range(band), Some("low")) => band.low(),
                (Entry::Range(band), _) => band.high(),
                (Entry::Choice(_), _) => f64::NAN,
            });
        };
        let unit = self.units.of(about.kind);
        match number::read(text, about.kind, unit) {
            Ok(typed) => Ok(typed.si),
            Err(Unread::TwoReadings(point, whole)) => {
                Err(format!("{}: “{}” can be read in two ways. Write {point} or {whole}.", about.label, text.trim()))
            }
            Err(Unread::WrongUnit(unit)) => {
                Err(format!("{}: “{unit}” does not measure this. {}", about.label, screen::must_be(about, self.units)))
            }
            Err(_) => Err(self.rule(field, text)),
        }
    }

    fn rule(&self, field: &Asked, text: &str) -> String {
        let about = &field.about;
        let must = screen::must_be(about, self.units);
        if text.trim().is_empty() {
            format!("{}: nothing is entered. {must}", about.label)
        } else {
            format!("{}: “{}” cannot be used. {must}", about.label, text.trim())
        }
    }
}

#[cfg(test)]
mod tests;
