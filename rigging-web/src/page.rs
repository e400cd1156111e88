//! The open page: what it shows, and what a person's hand changes.

mod sheet;

use crate::home;
use crate::link::{Broken, Link};
use crate::units::Units;
use crate::way::Way;
use rigging_core::question::Question;
use serde::Serialize;
pub use sheet::{Kept, Typed, Wrong};
use sheet::{Masses, OF_THE_GROUP, Sheet, place};

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
    /// The name of the way the page is used now; empty to leave it.
    pub way: &'static str,
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
}

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
            let way = self.way;
            let mut sheet =
                Sheet { question, units, way, from, whose, typed: Typed::default(), wrong: Wrong::default() };
            sheet.age(now);
            sheet
        });
        self.share_masses(&mut sheet);
        sheet.way = self.way;
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
            put: vec![("app".to_owned(), home::page(kept, broken.as_ref(), self.way).into_string())],
            way: self.way.name(),
            title: "Rigging loads".to_owned(),
            ..Update::default()
        }
    }

    /// The page is looked at again: numbers of an earlier day are no longer taken for today's.
    pub fn wake(&mut self, now: &str) -> Update {
        let Some(sheet) = &mut self.sheet else { return Update::default() };
        if sheet.age(now) { sheet.whole() } else { Update::default() }
    }

    fn take_way(&mut self, way: Way) -> Update {
        self.way = way;
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
        if let (Event::Press, Some(way)) = (event, id.strip_prefix("way-").and_then(Way::named)) {
            return Update { focus: id.to_owned(), ..self.take_way(way) };
        }
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

#[cfg(test)]
mod tests;
