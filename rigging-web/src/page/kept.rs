//! What the browser keeps for the next time, as a convenience: it may forget it, or mix it up with another file's.

use super::plan::PlanSheet;
use super::sheet::Sheet;
use super::{Page, Whose};
use crate::link::Link;
use crate::units;
use crate::way::Way;

/// First line of what is kept; another one is not read.
const VERSION: &str = "1";
/// What the place of a sheet in the plan is kept as, like a text typed into a box of that name: there is none.
const TIE: &str = "plan";
/// So many sheets are kept.
const SHEETS: usize = 26;

impl Page {
    /// What the browser is to keep: how the page is used, the units last chosen, that the first notice was read, and the sheets
    /// worked on, with what is typed in them and cannot be used.
    pub fn kept(&self) -> String {
        let mut lines = vec![
            VERSION.to_owned(),
            format!("way\t{}", self.way.name()),
            format!("units\t{}", units::letters(self.units)),
        ];
        if self.read {
            lines.push("read".to_owned());
        }
        let sheets: Vec<&Sheet> = self
            .aside
            .iter()
            .chain(&self.sheet)
            .filter(|sheet| sheet.side.of.is_some() || sheet.is_worth_keeping())
            .collect();
        for sheet in sheets.iter().skip(sheets.len().saturating_sub(SHEETS)) {
            let typed = sheet.typed.unusable(&sheet.wrong);
            let tie = sheet.side.of.map(|(key, place)| format!("\t{TIE}\t{key}.{place}.{}", sheet.side.was));
            let tie = tie.unwrap_or_default();
            lines.push(format!("sheet\t{}\t{}{tie}{typed}", sheet.whose.memory(), sheet.link().write()));
        }
        // The plan is last: its file has lines of its own.
        lines.extend(self.plan.as_ref().and_then(PlanSheet::kept).map(|plan| ["plan\t", &plan].concat()));
        lines.join("\n")
    }

    /// Takes up what the browser kept. What cannot be read is left out.
    pub fn recall(&mut self, kept: &str) {
        let (kept, plan) = kept.split_once("\nplan\t").unwrap_or((kept, ""));
        let mut lines = kept.lines();
        if lines.next() != Some(VERSION) {
            return;
        }
        let mut known = false;
        for line in lines {
            let mut parts = line.split('\t');
            match (parts.next(), parts.next(), parts.next()) {
                (Some("way"), Some(name), None) => self.way = Way::named(name).unwrap_or_default(),
                (Some("units"), Some(letters), None) => self.units = units::from_letters(letters).unwrap_or_default(),
                (Some("read"), None, None) => self.read = true,
                (Some("sheet"), Some(memory), Some(fragment)) => {
                    let Ok(link) = Link::read(fragment) else { continue };
                    let whose = Whose::remembered(&link, memory);
                    let mut sheet = Sheet::opened(link, whose);
                    sheet.take_up(parts);
                    sheet.tie_again();
                    // Of an example only if none are mine: it may be one of the plan's, which nobody entered.
                    let mine = matches!(sheet.whose, Whose::Mine(_) | Whose::Earlier(_));
                    if (mine || !known && sheet.whose != Whose::Link) && sheet.has_own_masses() {
                        self.group = sheet.masses();
                        known = mine;
                    }
                    self.aside.push(sheet);
                }
                _ => {}
            }
        }
        self.plan = PlanSheet::recalled(plan, self.units);
    }
}

impl Sheet {
    /// Takes up where it stands in the plan.
    fn tie_again(&mut self) {
        let tie = self.typed.get(TIE).cloned().unwrap_or_default();
        self.typed.forget(TIE);
        if let Some((key, (place, was))) =
            tie.split_once('.').and_then(|(key, rest)| Some((key, rest.split_once('.')?)))
        {
            self.side.of = key.parse().ok().zip(place.parse().ok());
            was.clone_into(&mut self.side.was);
        }
    }

    /// True unless it is an example that nobody touched.
    pub(super) fn is_worth_keeping(&self) -> bool {
        !(self.whose == Whose::Example && self.question.is_example() && self.wrong.is_empty())
    }
}

impl Whose {
    /// Whose the numbers of a link are, by what the browser kept beside it.
    pub(super) fn remembered(link: &Link, memory: &str) -> Whose {
        if link.question.is_example() || memory == super::sheet::EXAMPLE {
            Whose::Example
        } else if memory.contains(' ') {
            Whose::Mine(memory.to_owned())
        } else {
            Whose::Link
        }
    }
}
