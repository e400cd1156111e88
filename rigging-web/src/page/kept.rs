//! What the browser keeps for the next time, as a convenience: it may forget it, or mix it up with another file's.

use super::plan::PlanSheet;
use super::sheet::Sheet;
use super::{Page, Whose};
use crate::link::Link;
use crate::units;
use crate::way::Way;

/// First line of what is kept; another one is not read.
const VERSION: &str = "1";
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
        let sheets: Vec<&Sheet> =
            self.aside.iter().chain(&self.sheet).filter(|sheet| sheet.is_worth_keeping()).collect();
        for sheet in sheets.iter().skip(sheets.len().saturating_sub(SHEETS)) {
            let typed = sheet.typed.unusable(&sheet.wrong);
            // Where it stands in the plan is kept as if it had been typed.
            let tie = |(key, place)| format!("\tdrop-{key}.{place}\t{}", sheet.side.was);
            let tie = sheet.side.of.map(tie).unwrap_or_default();
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
    /// True unless it is an example that nobody touched, and of no plan.
    pub(super) fn is_worth_keeping(&self) -> bool {
        let is_ours = self.whose == Whose::Example && self.question.is_example();
        !(is_ours && self.wrong.is_empty() && self.side.of.is_none())
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
