//! A demonstration as data: a question with its values, and the one quantity that moves from stop to stop.

use super::ten::TEN;
use crate::entry::shown;
use crate::link::Link;
use crate::units;
use rigging_core::band::Band;
use rigging_core::quantity::Units;
use rigging_core::question::scene::Scene;
use rigging_core::question::{Answer, Entry, Finding, Question, Takes};

/// One demonstration.
#[derive(Debug)]
pub struct Demo {
    /// What it shows, in plain words.
    pub title: &'static str,
    /// What the class is asked to guess.
    pub asks: &'static str,
    /// The name of the question that answers.
    pub question: &'static str,
    /// Values that stay, where they are not those of the example.
    pub set: &'static [(&'static str, Set)],
    /// Its parts; in each one quantity moves.
    pub runs: &'static [Run],
    /// Where the hand-out finds its formulas: how the names of steps or formulas of the answer begin.
    pub formulas: &'static [&'static str],
}

/// A part of a demonstration, in which one field moves.
#[derive(Debug)]
pub struct Run {
    /// What is peculiar to this part; empty where there is only one.
    pub words: &'static str,
    /// Values that stay in this part.
    pub set: &'static [(&'static str, Set)],
    /// The name of the field that moves.
    pub moves: &'static str,
    /// What moves, in words.
    pub moved: &'static str,
    /// Where it stops.
    pub stops: &'static [Stop],
    /// How the name of the finding that is asked for begins or goes on; empty for the first finding.
    pub shows: &'static str,
    /// Which picture goes with the number.
    pub drawn: Drawn,
    /// Why the number moves so: told after the guess only.
    pub why: &'static str,
}

/// Which picture of an answer goes with the number that is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Drawn {
    /// Its scene.
    Scene,
    /// The person hanging still.
    Still,
    /// Its scene without forces: they are of another moment.
    Lines,
}

/// A value of the field that moves.
#[derive(Debug)]
pub struct Stop {
    /// What it is called; empty for the value with its unit.
    pub words: &'static str,
    /// The value.
    pub to: Set,
}

/// A value to set a field to: SI, or the name of a choice.
#[derive(Debug, Clone, Copy)]
pub enum Set {
    /// A number, exactly known also where the field takes a range.
    To(f64),
    /// A choice.
    Choose(&'static str),
}

/// The person who hangs in every demonstration, 102 kg with all that is wet: one kilonewton, to be multiplied by heart.
const PERSON: [(&str, Set); 4] =
    [("people", Set::To(1.0)), ("body_kg", Set::To(85.0)), ("kit_kg", Set::To(12.0)), ("suit_water_kg", Set::To(4.9))];

/// Where a class is: which demonstration, and which of its stops.
#[derive(Debug, Clone, Copy)]
pub struct Place {
    /// The number of the demonstration, from 1.
    pub number: usize,
    /// The number of the stop, from 1, counted through all parts.
    pub at: usize,
    /// The demonstration.
    pub demo: &'static Demo,
    /// The part.
    pub run: &'static Run,
    /// The stop.
    pub stop: &'static Stop,
}

impl PartialEq for Place {
    fn eq(&self, other: &Self) -> bool {
        (self.number, self.at) == (other.number, other.at)
    }
}

impl Place {
    /// The place with these numbers, counted from 1.
    pub fn of(number: usize, at: usize) -> Option<Place> {
        let demo = TEN.get(number.checked_sub(1)?)?;
        let mut stops = demo.runs.iter().flat_map(|run| run.stops.iter().map(move |stop| (run, stop)));
        let (run, stop) = stops.nth(at.checked_sub(1)?)?;
        Some(Place { number, at, demo, run, stop })
    }

    /// The first stop of every demonstration, in their order.
    pub fn firsts() -> impl Iterator<Item = Place> {
        (1..=TEN.len()).filter_map(|number| Place::of(number, 1))
    }

    /// Every stop of this demonstration.
    pub fn all(self) -> impl Iterator<Item = Place> {
        (1..).map_while(move |at| Place::of(self.number, at))
    }

    /// Reads an address, `demo/3/2`, with the letters of the units behind it if they are not kN and m.
    pub fn read(address: &str) -> Option<(Place, Units)> {
        let mut parts = address.strip_prefix("demo/")?.split('/');
        let number = parts.next()?.parse().ok()?;
        let at = parts.next().map_or(Some(1), |part| part.parse().ok())?;
        let units = match parts.next() {
            Some(part) => units::from_letters(part.strip_prefix('U')?)?,
            None => Units::default(),
        };
        let none_left = parts.next().is_none();
        Place::of(number, at).filter(|_| none_left).map(|place| (place, units))
    }

    /// The address of this place, without `#`.
    pub fn write(self, units: Units) -> String {
        let letters = units::letters(units);
        let units = if letters.is_empty() { letters } else { ["/U", &letters].concat() };
        ["demo/", &self.number.to_string(), "/", &self.at.to_string(), &units].concat()
    }

    /// The stop after this one: in the next demonstration after the last.
    pub fn next(self) -> Option<Place> {
        Place::of(self.number, self.at + 1).or_else(|| Place::of(self.number + 1, 1))
    }

    /// The stop before this one.
    pub fn previous(self) -> Option<Place> {
        Place::of(self.number, self.at - 1).or_else(|| Place::of(self.number - 1, 1)?.all().last())
    }

    /// Whether this is a stop of the same part.
    pub fn same_run(self, other: Place) -> bool {
        self.number == other.number && std::ptr::eq(self.run, other.run)
    }

    /// The question as it stands at this stop.
    pub fn question(self) -> Option<Question> {
        let mut question = Question::named(self.demo.question).ok()?;
        let here = [(self.run.moves, self.stop.to)];
        for (name, to) in PERSON.iter().chain(self.demo.set).chain(self.run.set).chain(&here) {
            let field = question.fields().into_iter().find(|field| field.about.name == *name)?;
            let entry = match (to, field.about.takes) {
                (Set::To(value), Takes::Range { .. }) => Entry::Range(Band::exact(*value)),
                (Set::To(value), _) => Entry::One(*value),
                (Set::Choose(name), _) => Entry::Choice(name),
            };
            question.set(name, &entry).ok()?;
        }
        Some(question)
    }

    /// The question of this stop as a link, to change more of it than one quantity.
    pub fn link(self, units: Units) -> Option<Link> {
        Some(Link { question: self.question()?, units, from: None })
    }

    /// What the class guesses, of the answer at this stop.
    pub fn found(self, answer: &Answer) -> Option<&Finding> {
        let all = answer.findings.iter().chain(answer.outcomes.iter().flat_map(|outcome| &outcome.findings));
        all.into_iter().find(|finding| finding.what.contains(self.run.shows))
    }

    /// The name of the stop, in the chosen units.
    pub fn words(self, units: Units) -> String {
        match (self.stop.words, self.stop.to) {
            ("", _) => self
                .question()
                .and_then(|question| question.fields().into_iter().find(|field| field.about.name == self.run.moves))
                .map(|field| shown(&field, units))
                .unwrap_or_default(),
            (words, _) => words.to_owned(),
        }
    }
}

impl Place {
    /// The picture of an answer at this stop.
    pub fn scene(self, answer: &Answer) -> Scene {
        let still = answer.still.as_ref().filter(|_| self.run.drawn == Drawn::Still);
        still.unwrap_or(&answer.scene).clone()
    }
}

/// What stays the same in a demonstration, line by line: every value of ours that is not the usual example's.
pub fn given(place: Place, units: Units) -> Vec<String> {
    let Some(question) = place.question() else { return Vec::new() };
    let set = PERSON.iter().chain(place.demo.set).chain(place.run.set);
    let names: Vec<&str> = set.map(|(name, _)| *name).filter(|name| *name != place.run.moves).collect();
    let fields = question.fields();
    let fields = fields.iter().filter(|field| field.matters && names.contains(&field.about.name));
    fields.map(|field| [field.about.label, ": ", &shown(field, units)].concat()).collect()
}
