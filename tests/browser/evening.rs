//! The evening before a descent: a whole plan from nothing, on a phone, by touches and letters that are counted.

use std::cell::Cell;

use crate::browser::Browser;
use crate::engine::Engine;
use crate::paper::{PAPERS, Printed};
use crate::{Outcome, same, wait};

/// Keystroke-level model (Card, Moran, Newell, *Communications of the ACM* 23(7), 1980, 396–410, from memory), s: to
/// point, to press, to think before each thing that is entered. A letter takes twice what a typist at a keyboard of
/// no great skill needs (0.28 s): thumbs on glass (assumed).
const POINT: f64 = 1.10;
const PRESS: f64 = 0.20;
const THINK: f64 = 1.35;
const LETTER: f64 = 0.56;

/// A hand that counts what it does.
struct Hand<'a> {
    browser: &'a Browser,
    touches: Cell<u32>,
    letters: Cell<u32>,
    thoughts: Cell<u32>,
}

fn named(css: &str, outcome: Outcome) -> Outcome {
    outcome.map_err(|error| format!("{css}: {}", error.message().unwrap_or_default()).into())
}

impl Hand<'_> {
    fn touch(&self, css: &str) -> Outcome {
        self.touches.set(self.touches.get() + 1);
        self.thoughts.set(self.thoughts.get() + 1);
        named(css, self.browser.click(css))
    }

    fn write(&self, css: &str, text: &str) -> Outcome {
        self.touches.set(self.touches.get() + 1);
        self.thoughts.set(self.thoughts.get() + 1);
        self.letters.set(self.letters.get() + text.chars().count() as u32);
        named(css, self.browser.type_into(css, text))
    }

    /// A list is opened, and one of it is touched.
    fn choose(&self, css: &str, value: &str) -> Outcome {
        self.touches.set(self.touches.get() + 2);
        self.thoughts.set(self.thoughts.get() + 1);
        named(css, self.browser.choose(css, value))
    }

    fn seconds(&self) -> f64 {
        let [touches, letters, thoughts] =
            [&self.touches, &self.letters, &self.thoughts].map(|count| f64::from(count.get()));
        touches * (POINT + PRESS) + letters * LETTER + thoughts * THINK
    }
}

/// Name, lowest and highest height, bottom, anchor: invented.
const DROPS: [[&str; 5]; 6] = [
    ["log", "4", "5", "stand", "natural"],
    ["chute", "6", "8", "swim in still water", "known"],
    ["hall", "12", "14", "swim in still water", "known"],
    ["jump", "3", "3", "swim in still water", "no rope"],
    ["dark", "9", "11", "not seen", "unseen"],
    ["exit", "15", "17", "stand", "known"],
];

/// A plan with a group of five, two ropes, six drops and four questions takes less than ten minutes by the counts, and
/// a cover of one page holds what is said first.
pub(crate) fn fits(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    browser.window(412, 915)?;
    let hand =
        Hand { browser: &browser, touches: Cell::default(), letters: Cell::default(), thoughts: Cell::default() };
    hand.touch("#read")?;
    hand.touch("a[href='#plan']")?;
    hand.touch("#plan-new")?;
    hand.touch("#day-part summary")?;
    hand.write("[id='day.name']", "Sunday")?;
    hand.write("[id='day.date']", "2027-06-20")?;
    hand.choose("[id='day.light_by']", "own")?;
    hand.write("[id='day.own_last_light_s']", "20:30")?;
    hand.write("[id='day.start_s']", "9:30")?;
    hand.touch("#group-part summary")?;
    for (number, (name, mass)) in
        [("A", "62"), ("B", "71"), ("C", "78"), ("D", "84"), ("E", "95")].into_iter().enumerate()
    {
        let id = format!("person-{}", number + 1);
        hand.touch("[id='add:person']")?;
        hand.write(&format!("[id='{id}.name']"), name)?;
        hand.write(&format!("[id='{id}.body_kg']"), mass)?;
        hand.choose(&format!("[id='{id}.rope_skill']"), if number < 2 { "rigs" } else { "alone" })?;
        hand.choose(&format!("[id='{id}.water_skill']"), if number < 2 { "moving water" } else { "still water" })?;
    }
    hand.touch("#ropes-part summary")?;
    for (number, (name, length)) in [("red", "50"), ("blue", "30")].into_iter().enumerate() {
        let id = format!("rope-{}", number + 1);
        hand.touch("[id='add:rope']")?;
        hand.write(&format!("[id='{id}.name']"), name)?;
        hand.write(&format!("[id='{id}.length_m']"), length)?;
    }
    let asked = [("rp", 1), ("rp", 2), ("ab", 2), ("rp", 5)];
    for (place, [name, low, high, bottom, anchor]) in DROPS.into_iter().enumerate() {
        let id = format!("drop-{}", place + 1);
        hand.touch("[id='add:drop']")?;
        hand.write(&format!("[id='{id}.name']"), name)?;
        hand.write(&format!("[id='{id}.height_m-high']"), high)?;
        hand.write(&format!("[id='{id}.height_m-low']"), low)?;
        hand.choose(&format!("[id='{id}.bottom']"), bottom)?;
        hand.choose(&format!("[id='{id}.anchor']"), anchor)?;
        for (key, _) in asked.iter().filter(|(_, at)| *at == place) {
            hand.touch("#ask-part summary")?;
            hand.touch(&format!("a[href='#plan/{}/{key}']", place + 1))?;
            wait::until("the question is open", || {
                Ok((browser.run("return document.getElementById('mine') !== null;", &[])? == true).then_some(()))
            })?;
            hand.touch("#mine")?;
            hand.touch("#into-plan")?;
            hand.touch(&format!("#plan-side a[href='#plan/{}']", place + 1))?;
            wait::until("the drop is back", || {
                Ok((browser.run("return document.getElementById('ask-part') !== null;", &[])? == true).then_some(()))
            })?;
        }
    }
    hand.touch("a[href='#plan']")?;
    wait::until("the plan is back", || {
        Ok((browser.run("return document.getElementById('plan-rest') !== null;", &[])? == true).then_some(()))
    })?;
    let seconds = hand.seconds();
    println!(
        "{}: an evening's plan: {} touches, {} letters, {seconds:.0} s by the keystroke-level model",
        engine.name(),
        hand.touches.get(),
        hand.letters.get()
    );
    same("it fits in ten minutes", seconds < 600.0, true)?;
    browser.run("window.dispatchEvent(new Event('beforeprint'));", &[])?;
    for paper in PAPERS {
        let printed = Printed::new(&browser, engine, "evening", paper)?;
        // A cover, and six drops, four to a page.
        same("pages", printed.pages()?, 3)?;
    }
    same("errors", browser.errors()?, vec![])
}
