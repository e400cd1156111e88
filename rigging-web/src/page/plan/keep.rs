//! What comes into a plan from elsewhere and goes out of it: files, links, text, and what the browser keeps.

use super::PlanSheet;
use crate::page::sheet::EXAMPLE;
use crate::page::{Update, Whose};
use crate::plan::{Offer, link, paper};
use maud::html;
use rigging_core::plan::Plan;
use rigging_core::quantity::Units;

/// The example, as its link: a third of what the rows take that it is made of in the core, and the same plan.
fn example() -> Plan {
    link::read(include_str!("example.txt").trim_end()).unwrap_or_default()
}

impl PlanSheet {
    /// The example, as it is opened the first time.
    pub(in crate::page) fn example() -> PlanSheet {
        PlanSheet::new(example(), Whose::Example)
    }

    /// An empty plan of one's own.
    pub(in crate::page) fn empty(now: &str) -> PlanSheet {
        PlanSheet::new(Plan::default(), Whose::Mine(now.to_owned()))
    }

    /// True unless it is the example, untouched, or an empty plan, and nothing typed in it cannot be used.
    fn is_worth_keeping(&self) -> bool {
        let is_ours = self.whose == Whose::Example && self.plan == example();
        !is_ours && self.plan != Plan::default() || !self.wrong.is_empty()
    }

    pub(super) fn offer_nothing(&mut self) {
        self.offer = None;
        self.turned_away = None;
    }

    /// Takes another plan, after asking if one would be lost.
    fn take(&mut self, offer: Offer) -> Update {
        self.at = None;
        self.offer_nothing();
        if self.is_worth_keeping() {
            self.offer = Some(offer);
            return self.whole().focused("plan-leave");
        }
        self.put(offer)
    }

    fn put(&mut self, Offer { plan, whose, .. }: Offer) -> Update {
        self.replace(plan, whose);
        self.whole().focused("plan-head")
    }

    /// Says why something was not taken, where it is seen.
    pub(super) fn turn_away(&mut self, why: String) -> Update {
        self.turned_away = Some(why);
        self.asking.clear();
        self.whole().focused("plan-offer")
    }

    /// The text of a file that was opened.
    pub(in crate::page) fn open(&mut self, text: &str) -> Update {
        match Plan::read(text) {
            Ok(reading) => self.take(Offer { plan: reading.plan, from: "A plan from a file", whose: Whose::Link }),
            Err(error) => {
                self.offer = None;
                self.turn_away(error.to_string())
            }
        }
    }

    /// A plan that came with a link.
    pub(in crate::page) fn linked(&mut self, fragment: &str) -> Update {
        match link::read(fragment) {
            // A link that was made here leads to what is here.
            Some(plan) if link::write(&plan) == link::write(&self.plan) => self.go(None),
            Some(plan) => self.take(Offer { plan, from: "A plan from a link", whose: Whose::Link }),
            None => {
                self.at = None;
                self.turn_away("the link of a plan was cut short or made by another version".to_owned())
            }
        }
    }

    /// The buttons that keep, send and replace.
    pub(super) fn press_keep(&mut self, id: &str, now: &str) -> Option<Update> {
        let ours = |plan, from, whose| Offer { plan, from, whose };
        Some(match id {
            "plan-new" => self.take(ours(Plan::default(), "An empty plan", Whose::Mine(now.to_owned()))),
            "plan-example" => self.take(ours(example(), "The example", Whose::Example)),
            "plan-take" => match self.offer.take() {
                Some(offer) => self.put(offer),
                None => Update::default(),
            },
            "plan-leave" => {
                self.offer_nothing();
                self.whole().focused("plan-head")
            }
            "plan-save" => {
                let left_out = if self.is_whole() { "" } else { ", without what cannot be used" };
                Update { save: self.file(), said: ["Saved to a file", left_out, "."].concat(), ..self.update() }
            }
            "plan-entered" => {
                self.mark("plan:", false);
                self.plan.unread.clear();
                self.whole().focused("plan-head")
            }
            "plan-send" => {
                let put = vec![("plan-sent".to_owned(), self.sent())];
                Update { put, focus: "plan-copy".to_owned(), ..self.update() }
            }
            _ => return None,
        })
    }

    /// The text of its file.
    pub(super) fn file(&self) -> String {
        self.written.get_or_init(|| self.plan.write()).clone()
    }

    /// Whether all that was typed counts, here and in the questions of drops.
    fn is_usable(&self) -> bool {
        self.wrong.is_empty() && self.left.is_empty()
    }

    /// Whether its file and its link say all that there is to say.
    fn is_whole(&self) -> bool {
        self.is_usable() && self.plan.unread.is_empty()
    }

    /// As plain text and as a link.
    fn sent(&mut self) -> String {
        let checked = self.checked();
        let whose = match self.whose {
            Whose::Mine(_) => "",
            Whose::Example => "EXAMPLE, NOT CONFIRMED AS ANYBODY'S: nothing is compared with a limit.\n",
            Whose::Link | Whose::Earlier(_) => "NOT CONFIRMED BY WHO SENT IT: nothing is compared with a limit.\n",
        };
        let unusable =
            if self.is_usable() { "" } else { "SOME ENTRIES COULD NOT BE USED; the values before them stand.\n" };
        let text = [whose, unusable, &self.plan.text(&checked)].concat();
        let link = link::write(&self.plan);
        html! {
            p.do {
                button #plan-copy type="button" { "Copy the text" }
            }
            textarea #plan-text readonly rows="12" aria-label="The plan as text" { (text) }
            @if !self.is_whole() {
                p { "No link: not all of it can be used." }
            } @else if link.len() <= link::MOST {
                p { "As a link, after the address of the page (" (link.len()) " letters):" }
                p.do { button #plan-copy-link type="button" { "Copy the link" } }
                textarea #plan-link readonly rows="4" aria-label="The plan as a link" { "#" (link) }
                p.note { "Opened elsewhere it reads: not yours." }
            } @else {
                p { "As a link it would have " (link.len()) " letters, and messages cut what is longer than " (link::MOST) ". Send the file instead." }
            }
        }
        .into_string()
    }

    /// The sheets for the printer.
    pub(in crate::page) fn paper(&mut self, now: &str) -> String {
        self.age(now);
        self.shown(&|view, _| paper::sheets(view, now).into_string())
    }

    /// What the browser is to keep: whose it is, the numbers of its rows, what could not be read, what cannot be used; its
    /// file.
    pub(in crate::page) fn kept(&self) -> Option<String> {
        if !self.is_worth_keeping() {
            return None;
        }
        let keys = self.keys.iter().map(|keys| keys.iter().map(u32::to_string).collect::<Vec<_>>().join(","));
        let mut lists: Vec<String> = keys.collect();
        // As if of one more list each.
        for line in &self.plan.unread {
            lists.push(line.replace(char::is_control, " ").replace(';', ","));
        }
        let typed = self.typed.unusable(&self.wrong);
        Some([&self.whose.memory(), "\t", &lists.join(";"), &typed, "\n", &self.file()].concat())
    }

    /// Takes up what could not be used when the page was left.
    fn take_up<'a>(&mut self, kept: impl Iterator<Item = &'a str>) {
        for at in self.typed.take_up(kept) {
            let plan = self.plan.clone();
            match self.take_in(at) {
                Err(wrong) => self.wrong.keep(at.to_owned(), wrong),
                // What could be used now, perhaps because units were changed after it was typed, is not taken unasked.
                Ok(()) => {
                    self.plan = plan;
                    self.typed.forget_field(at);
                }
            }
        }
    }

    /// Takes up what the browser kept, as far as it can be read; what was typed was typed in these units.
    pub(in crate::page) fn recalled(kept: &str, units: Units) -> Option<PlanSheet> {
        let (head, text) = kept.split_once('\n')?;
        let mut head = head.split('\t');
        let (memory, keys) = (head.next()?, head.next()?);
        let plan = Plan::read(text).ok()?.plan;
        let whose = match memory {
            EXAMPLE => Whose::Example,
            time if time.contains(' ') => Whose::Mine(time.to_owned()),
            _ => Whose::Link,
        };
        let mut sheet = PlanSheet { units, ..PlanSheet::new(plan, whose) };
        let lists =
            keys.split(';').map(|keys| keys.split(',').filter_map(|key| key.parse().ok()).collect::<Vec<u32>>());
        for (mine, kept) in sheet.keys.iter_mut().zip(lists) {
            let is_once = (1..kept.len())
                .all(|end| kept.get(..end).is_none_or(|some| !some.contains(&kept.get(end).copied().unwrap_or(0))));
            if kept.len() == mine.len() && is_once {
                *mine = kept;
            }
        }
        sheet.plan.unread.extend(keys.split(';').skip(sheet.keys.len()).map(str::to_owned));
        sheet.take_up(head);
        Some(sheet)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rigging_core::plan::Answers;

    #[test]
    fn the_example_is_the_one_of_the_core() {
        if std::env::var_os("UPDATE_PLANS").is_some() {
            let file = concat!(env!("CARGO_MANIFEST_DIR"), "/src/page/plan/example.txt");
            std::fs::write(file, link::write(&Plan::example()) + "\n").unwrap();
        }
        // But for the last digit of a typical value, which a link leaves to its ends.
        assert_eq!(link::write(&example()), link::write(&Plan::example()));
        let text = |plan: &Plan| plan.text(&plan.check(&mut Answers::default(), Units::default()));
        assert_eq!(text(&example()), text(&Plan::example()));
    }
}
