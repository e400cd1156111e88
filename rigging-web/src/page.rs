//! The open page: what it shows, and what a person's hand changes.

mod class;
mod drag;
mod hands;
mod kept;
mod plan;
mod sheet;
mod typed;

use crate::class::demo::Place;
use crate::home;
use crate::link::{Broken, Link};
use crate::units;
use crate::way::Way;
use drag::Held;
pub use hands::{Asking, slide_id, step};
use plan::PlanSheet;
use rigging_core::quantity::{Units, number};
use rigging_core::question::Question;
use serde::Serialize;
pub use sheet::{Kept, Typed, Wrong};
use sheet::{Masses, OF_THE_GROUP, Sheet, place};

/// What the shell has to put in place.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Update {
    /// Inner HTML by the id of its place.
    pub put: Vec<(String, String)>,
    /// Text of entries, by id.
    pub values: Vec<(String, String)>,
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
    /// The name of the way the page is used now; empty to leave it.
    pub way: &'static str,
    /// What the browser is to keep for the next time.
    pub kept: String,
    /// The text of a file to save; empty for none.
    pub save: String,
    /// Whether what is in the place `paper` is to be printed now.
    pub print: bool,
}

impl Update {
    /// With the keyboard put there.
    fn focused(mut self, id: &str) -> Update {
        id.clone_into(&mut self.focus);
        self
    }
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

impl Whose {
    /// What the browser keeps of it beside the address.
    fn memory(&self) -> String {
        match self {
            Whose::Mine(touched) | Whose::Earlier(touched) => touched.clone(),
            Whose::Example => sheet::EXAMPLE.to_owned(),
            Whose::Link => String::new(),
        }
    }
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

/// What follows what the browser keeps beside an address when what another window kept of the question counts, not the
/// address.
const OTHER: &str = "*";

/// The open page.
#[derive(Debug, Default)]
pub struct Page {
    sheet: Option<Sheet>,
    /// Sheets put aside while another is open: nothing typed is lost.
    aside: Vec<Sheet>,
    units: Units,
    way: Way,
    /// The group's masses, once they were entered: asked once, used everywhere.
    group: Option<Masses>,
    /// Whether the first notice was read.
    read: bool,
    /// The rigging plan, once it was looked at.
    plan: Option<PlanSheet>,
    /// Whether the plan is on the screen.
    planning: bool,
    /// The hand that drags in the picture.
    held: Option<Held>,
    lesson: class::Lesson,
    /// Where the page lies, for links on paper; empty if no network knows it.
    address: String,
}

impl Page {
    /// A page that lies at this address, without its `#`; see [`Page::paper`].
    pub fn at(address: &str) -> Page {
        Page { address: address.to_owned(), ..Page::default() }
    }

    /// The question on paper, in the place `paper`; nothing there while no question is open.
    pub fn paper(&mut self, now: &str) -> Update {
        let planned = self.planned().map(|plan| plan.paper(now));
        let html = match &mut self.sheet {
            _ if planned.is_some() => planned.unwrap_or_default(),
            Some(sheet) => {
                sheet.age(now);
                sheet.on_paper(&self.address, now)
            }
            None => String::new(),
        };
        Update { put: vec![("paper".to_owned(), html)], ..Update::default() }
    }

    /// Goes to where the address says. `memory` is what the browser kept with that address, `now` the
    /// local date and time as `YYYY-MM-DD hh:mm`.
    pub fn go(&mut self, fragment: &str, memory: &str, now: &str) -> Update {
        let said = self.plan.as_mut().zip(self.sheet.as_ref()).map(|(plan, sheet)| plan.take_back(sheet, now));
        let mut update = self.gone(fragment, memory, now);
        if let Some(said) = said.flatten() {
            update.said = said;
        }
        let first = if self.read { String::new() } else { home::first().into_string() };
        update.put.push(("first".to_owned(), first));
        update
    }

    fn gone(&mut self, fragment: &str, memory: &str, now: &str) -> Update {
        self.take_back();
        // The links that a sheet of mine offers lead to numbers that are not a stranger's.
        let mut offered = Vec::new();
        if let Some(mut sheet) = self.sheet.take() {
            // It was taken back: so it stands there now.
            if let (Some(plan), Some(_)) = (&self.plan, sheet.side.at) {
                sheet.side.was.clear();
                plan.side(&mut sheet.side);
            }
            self.units = sheet.units;
            if sheet.whose != Whose::Link {
                offered = sheet.offers();
            }
            // A copy of my own stays mine.
            sheet.side.of_drop &= !self.aside.iter().any(|other| other.link() == sheet.link() && !other.side.of_drop);
            self.aside.retain(|other| other.link() != sheet.link());
            self.aside.push(sheet);
        }
        for sheet in &mut self.aside {
            sheet.age(now);
        }
        let fragment = fragment.trim_start_matches('#');
        self.planning = false;
        if let Some((place, units)) = Place::read(fragment) {
            return self.demonstrate(place, units);
        }
        self.lesson.leave();
        if let Some(update) = self.show_plan(fragment, now) {
            return update;
        }
        let (memory, of_another) = memory.strip_suffix(OTHER).map_or((memory, false), |memory| (memory, true));
        let link = match Link::read(fragment) {
            Ok(link) => link,
            Err(_) if fragment.is_empty() => return self.home(None),
            Err(broken) => return self.home(Some(broken)),
        };
        let kept = self.aside.iter().rposition(|sheet| {
            sheet.link().write() == fragment
                || of_another
                    && sheet.whose != Whose::Link
                    && sheet.side.of.is_none()
                    && sheet.question.key() == link.question.key()
        });
        let kept = kept.map(|place| self.aside.swap_remove(place));
        let mut sheet = kept.unwrap_or_else(|| {
            let whose = if offered.iter().any(|offered| offered == fragment) {
                Whose::Example
            } else {
                Whose::remembered(&link, memory)
            };
            // An example opened from home is shown in the units last chosen.
            let units =
                if link.question.is_example() && link.units == Units::default() { self.units } else { link.units };
            let mut sheet = Sheet::opened(Link { units, ..link }, whose);
            sheet.age(now);
            sheet
        });
        if sheet.side.of.is_some() || self.plan.is_some() {
            self.plan_or_example().stands(&mut sheet);
        }
        self.share_masses(&mut sheet);
        self.show(sheet)
    }

    fn show(&mut self, mut sheet: Sheet) -> Update {
        sheet.way = self.way;
        sheet.side.said.clear();
        let update = sheet.whole();
        self.sheet = Some(sheet);
        update
    }

    /// Goes to the plan, to one of its drops, or to a question of one; nothing if the address leads elsewhere.
    fn show_plan(&mut self, fragment: &str, now: &str) -> Option<Update> {
        let linked = fragment.starts_with(crate::plan::link::START);
        let mut parts = fragment.split('/');
        if !linked && parts.next() != Some("plan") {
            return None;
        }
        let (way, units) = (self.way, self.units);
        let plan = self.plan_or_example();
        plan.way = way;
        plan.take_units(units);
        plan.age(now);
        let drop = parts.next().filter(|_| !linked).and_then(|number| number.parse::<usize>().ok()?.checked_sub(1));
        if let Some(sheet) = drop.zip(parts.next()).and_then(|(drop, question)| plan.question(drop, question)) {
            return Some(self.show(sheet));
        }
        self.planning = true;
        let plan = self.plan_or_example();
        Some(if linked { plan.linked(fragment) } else { plan.go(drop) })
    }

    /// The plan; what is not kept of one is the example, untouched.
    fn plan_or_example(&mut self) -> &mut PlanSheet {
        self.plan.get_or_insert_with(PlanSheet::example)
    }

    /// The plan on the screen.
    fn planned(&mut self) -> Option<&mut PlanSheet> {
        self.plan.as_mut().filter(|_| self.planning)
    }

    /// Puts the question on the screen into the plan.
    fn with_plan(&mut self, id: &str, value: &str, now: &str) -> Option<Update> {
        let sheet = self.sheet.as_mut()?;
        match id {
            "into-drop" => sheet.side.chosen = Some(value.parse().unwrap_or(usize::MAX)),
            "into-plan" => {
                let plan = self.plan.get_or_insert_with(|| PlanSheet::empty(now));
                plan.age(now);
                match plan.put_in(sheet, now) {
                    Ok(side) => sheet.side = side,
                    Err(why) => why.clone_into(&mut sheet.side.said),
                }
            }
            _ => return None,
        }
        Some(Update { said: sheet.side.said.clone(), ..sheet.whole() })
    }

    /// The masses of the group go into every sheet but a stranger's; the first that has some of its own gives them.
    fn share_masses(&mut self, sheet: &mut Sheet) {
        if sheet.whose == Whose::Link || sheet.side.at.is_some() {
            return;
        }
        match &self.group {
            Some(group) => sheet.take_masses(group),
            None => self.group = sheet.masses().filter(|_| sheet.has_own_masses()),
        }
    }

    fn home(&mut self, broken: Option<Broken>) -> Update {
        // The last sheet of a question, the user's own before one of a drop, and that before one that came with a link.
        let kept = |question: &Question| {
            let sheets = self.aside.iter().filter(|sheet| sheet.question.key() == question.key());
            let last = sheets.max_by_key(|sheet| (sheet.whose != Whose::Link, !sheet.side.of_drop));
            last.map(|sheet| sheet.link().write())
        };
        let last = self.aside.iter().rev().find(|sheet| sheet.whose != Whose::Link && sheet.is_worth_keeping());
        let last = last.map(Sheet::link);
        Update {
            put: vec![("app".to_owned(), home::page(kept, last.as_ref(), broken.as_ref(), self.way).into_string())],
            way: self.way.name(),
            title: "Rigging loads".to_owned(),
            ..Update::default()
        }
    }

    /// The page is looked at again: numbers of an earlier day are no longer taken for today's.
    pub fn wake(&mut self, now: &str) -> Update {
        if let Some(plan) = self.planned() {
            return if plan.age(now) { plan.whole() } else { Update::default() };
        }
        let Some(sheet) = &mut self.sheet else { return Update::default() };
        if sheet.age(now) { sheet.whole() } else { Update::default() }
    }

    fn take_way(&mut self, way: Way) -> Update {
        self.way = way;
        if let Some(plan) = self.planned() {
            plan.way = way;
            return plan.whole();
        }
        match &mut self.sheet {
            Some(sheet) => {
                sheet.way = way;
                sheet.whole()
            }
            None => self.home(None),
        }
    }

    /// Something happens to the part with this id.
    pub fn event(&mut self, event: Event, id: &str, value: &str, now: &str) -> Update {
        if let Some(update) = self.class_event(event, id, value, now) {
            return update;
        }
        if let (Event::Press, Some(way)) = (event, id.strip_prefix("way-").and_then(Way::named)) {
            return self.take_way(way).focused(id);
        }
        if (event, id) == (Event::Press, "read") {
            self.read = true;
            let put = vec![("first".to_owned(), String::new())];
            return Update { put, focus: "app".to_owned(), ..Update::default() };
        }
        if self.planning && (event, id) == (Event::Press, "print") {
            return Update { print: true, ..self.paper(now) };
        }
        let units = &mut self.units;
        if let Some(plan) = self.plan.as_mut().filter(|_| self.planning) {
            if let (Event::Input, "force-unit" | "length-unit") = (event, id) {
                *units = units::with(*units, value);
                plan.take_units(*units);
                return plan.whole().focused(id);
            }
            return plan.event(event, id, value, now);
        }
        if let Some(update) = self.with_plan(id, value, now) {
            return update;
        }
        let Some(sheet) = &mut self.sheet else { return Update::default() };
        let aged = sheet.age(now);
        match (event, id) {
            (Event::Leave, _) if aged => sheet.whole(),
            (Event::Press, "print") => Update { print: true, ..self.paper(now) },
            // At the lip one drop of water must not do it.
            (Event::Press, "mine") if sheet.way == Way::Lip => sheet.ask(Asking::Mine),
            (Event::Press, "mine" | "mine-sure") => {
                sheet.confirm(now);
                self.group = sheet.masses().or(self.group.take());
                sheet.whole().focused("answer")
            }
            (Event::Press, "reset") => sheet.ask(Asking::Reset),
            (Event::Press, "reset-sure") => {
                self.group = None;
                sheet.reset().focused("undo")
            }
            (Event::Press, "not-sure") => sheet.ask(Asking::Nothing),
            (Event::Press, "undo") => {
                let update = sheet.undo();
                self.group = self.group.take().and(sheet.masses());
                update.focused(if sheet.before.is_empty() { "answer" } else { "undo" })
            }
            (Event::Press, id) => {
                let (by, input) = match id.split_once(':') {
                    Some(("less", input)) => (-1.0, input),
                    Some(("more", input)) => (1.0, input),
                    _ => return Update::default(),
                };
                self.changed(input, &|sheet| sheet.step(input, by, now))
            }
            (Event::Input, "force-unit" | "length-unit") => {
                let update = sheet.change_unit(id, value);
                self.units = sheet.units;
                if let Some(plan) = &mut self.plan {
                    plan.take_units(self.units);
                }
                if sheet.whose != Whose::Link {
                    self.group = self.group.take().and(sheet.masses());
                }
                update
            }
            (Event::Input, id) => match id.strip_prefix("slide:") {
                Some(name) => self.slid(name, value, now),
                None => self.changed(id, &|sheet| sheet.enter(id, value, now)),
            },
            (Event::Leave, id) => sheet.leave(id),
        }
    }

    /// Changes the sheet by an input; the masses of the group go along.
    fn changed(&mut self, input: &str, change: &dyn Fn(&mut Sheet) -> Update) -> Update {
        let Some(sheet) = &mut self.sheet else { return Update::default() };
        let update = change(sheet);
        if sheet.whose != Whose::Link && OF_THE_GROUP.contains(&place(input).0) {
            self.group = sheet.masses();
        }
        update
    }

    /// A slider is moved: its value stands in the units of the page.
    fn slid(&mut self, name: &str, value: &str, now: &str) -> Update {
        self.changed(name, &|sheet| {
            let Some(field) = sheet.field(name) else { return Update::default() };
            let unit = sheet.units.of(field.about.kind);
            let Some(value) = number(value) else { return Update::default() };
            let step = step(&field.about, sheet.units);
            sheet.mark(name, true);
            sheet.shift_to(name, (unit.to_si(value) / step).round() * step, now)
        })
    }
}

#[cfg(test)]
mod tests;
