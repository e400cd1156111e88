//! The link that holds the state: `1/ln/a7.5_8.5/h0.3/Upf`.
//!
//! A version, the letters of the question, then each field that differs from the example: its letter
//! and its value in the chosen units (a choice by its place in the list, counted from 0; a range as two
//! ends, or three values if the typical one is not the middle), then `Z` and the letters of the question
//! whose forces were taken over, if any were, at last `U` and the letters of the units. The same fields as the JSON of the question, short enough to send.

use crate::number::short;
use crate::units;
use rigging_core::band::Band;
use rigging_core::quantity::{self, Units};
use rigging_core::question::{Asked, Entry, Question, Takes, settled};

const VERSION: &str = "1";
/// The letter before the units; the letters of fields are small.
const UNITS: char = 'U';
/// The letter before the question that forces were taken from; no field has it.
const FROM: char = 'Z';

/// A question and the units it is shown in.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
    /// The question with its values.
    pub question: Question,
    /// The units chosen.
    pub units: Units,
    /// The letters of the question that its forces were taken from.
    pub from: Option<&'static str>,
}

/// The question with these letters.
pub fn with_key(key: &str) -> Option<Question> {
    Question::all().into_iter().find(|question| question.key() == key)
}

/// Why a link cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Broken {
    /// It was made by another version of the page.
    Version,
    /// The question is not known here.
    Question,
    /// This part of it cannot be read, or breaks the rule of its field.
    Part(String),
}

impl Link {
    /// The link as it stands in the address, without `#`.
    pub fn write(&self) -> String {
        let mut parts = vec![VERSION.to_owned(), self.question.key().to_owned()];
        let example = Question::named(self.question.name()).map(|example| example.fields()).unwrap_or_default();
        for (field, usual) in self.question.fields().iter().zip(&example) {
            // What a file brought back may differ where no link does.
            let said = value(field, self.units);
            if said != value(usual, self.units) {
                parts.push(format!("{}{said}", field.about.key));
            }
        }
        if let Some(key) = self.from {
            parts.push(format!("{FROM}{key}"));
        }
        let letters = units::letters(self.units);
        if !letters.is_empty() {
            parts.push(format!("{UNITS}{letters}"));
        }
        parts.join("/")
    }

    /// Reads a link.
    ///
    /// # Errors
    /// [`Broken`] if any part of it cannot be read: a link is taken whole or not at all.
    pub fn read(text: &str) -> Result<Link, Broken> {
        let mut parts = text.split('/');
        if parts.next() != Some(VERSION) {
            return Err(Broken::Version);
        }
        let key = parts.next().unwrap_or_default();
        let mut question = with_key(key).ok_or(Broken::Question)?;
        let mut values: Vec<&str> = parts.collect();
        let mut units = Units::default();
        if let Some(letters) = values.last().and_then(|part| part.strip_prefix(UNITS)) {
            units = units::from_letters(letters).ok_or_else(|| Broken::Part(format!("{UNITS}{letters}")))?;
            values.pop();
        }
        let mut from = None;
        if let Some(key) = values.last().and_then(|part| part.strip_prefix(FROM)) {
            from = Some(with_key(key).ok_or_else(|| Broken::Part(format!("{FROM}{key}")))?.key());
            values.pop();
        }
        for (place, part) in values.iter().enumerate() {
            let broken = || Broken::Part((*part).to_owned());
            let key = part.chars().next().ok_or_else(broken)?;
            // Of two values for one field nobody knows which was meant.
            if values.iter().take(place).any(|other| other.starts_with(key)) {
                return Err(broken());
            }
            let text = part.get(key.len_utf8()..).unwrap_or_default();
            let field = question.fields().into_iter().find(|field| field.about.key == key).ok_or_else(broken)?;
            let entry = entry(&field, text, units).ok_or_else(broken)?;
            question.set(field.about.name, &entry).map_err(|_| broken())?;
        }
        Ok(Link { question, units, from })
    }
}

/// Figures of a number in a link: two more than a box shows, so that a box shows the same after it, in whatever unit.
const FIGURES: i32 = 8;

/// What a value becomes when it has been through a link: eight figures in the chosen units.
pub fn as_linked(field: &Asked, units: Units) -> Entry {
    settled(&field.about, &entry(field, &value(field, units), units).unwrap_or(field.entry))
}

/// The value of a field as it stands in a link.
pub fn value(field: &Asked, units: Units) -> String {
    let unit = units.of(field.about.kind);
    let short = |si: f64| short(unit.from_si(si), FIGURES);
    match field.entry {
        Entry::One(si) => short(si),
        Entry::Range(band) if is_middle(&band) => format!("{}_{}", short(band.low()), short(band.high())),
        Entry::Range(band) => {
            format!("{}_{}_{}", short(band.low()), short(band.typical()), short(band.high()))
        }
        Entry::Choice(name) => match field.about.takes {
            Takes::Choice(choices) => {
                choices.iter().position(|choice| choice.name == name).unwrap_or_default().to_string()
            }
            _ => String::new(),
        },
    }
}

fn is_middle(band: &Band) -> bool {
    let middle = (band.low() + band.high()) / 2.0;
    (band.typical() - middle).abs() <= 1e-5 * (band.high() - band.low())
}

/// The entry that a value in a link says.
pub fn entry(field: &Asked, text: &str, units: Units) -> Option<Entry> {
    let unit = units.of(field.about.kind);
    // No link ends a number with its point: one that does was cut.
    let whole = |text: &&str| !text.ends_with('.');
    let number = |text: &str| {
        let value = Some(text).filter(whole).and_then(quantity::number).filter(|value| value.is_finite());
        value.map(|value| unit.to_si(value))
    };
    match field.about.takes {
        Takes::One { .. } => number(text).map(Entry::One),
        Takes::Range { .. } => {
            let ends: Vec<f64> = text.split('_').map(number).collect::<Option<_>>()?;
            match *ends.as_slice() {
                [low, high] if low <= high => Some(Entry::Range(Band::of(low, (low + high) / 2.0, high))),
                [low, typical, high] if low <= typical && typical <= high => {
                    Some(Entry::Range(Band::of(low, typical, high)))
                }
                _ => None,
            }
        }
        Takes::Choice(choices) => choices.get(text.parse::<usize>().ok()?).map(|choice| Entry::Choice(choice.name)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::number::plain;
    use rigging_core::plan::{CarriedRope, Day, Pace, Person, PlannedDrop, Row};
    use rigging_core::quantity::{Toward, Unit, figures};

    fn link(text: &str) -> Link {
        Link::read(text).unwrap_or_else(|error| panic!("{text}: {error:?}"))
    }

    #[test]
    fn the_example_is_a_link_of_two_parts() {
        for question in Question::all() {
            let link = Link { question, units: Units::default(), from: None };
            assert_eq!(link.write().split('/').count(), 2);
            assert_eq!(Link::read(&link.write()), Ok(link));
        }
    }

    #[test]
    fn a_question_with_every_field_changed_fits_in_300_characters_and_comes_back() {
        for units in [Units::default(), Units { force: Unit::PoundForce, length: Unit::Foot }] {
            for mut question in Question::all() {
                for field in question.fields() {
                    let entry = match field.about.takes {
                        Takes::One { most, .. } if field.about.kind == rigging_core::quantity::Kind::Count => {
                            Entry::One(most)
                        }
                        Takes::One { least, most } => {
                            let unit = units.of(field.about.kind);
                            let value = unit.from_si(least + 0.3125 * (most - least));
                            Entry::One(unit.to_si(format!("{value:.2e}").parse().unwrap()))
                        }
                        Takes::Range { least, most } => {
                            let at = |share: f64| {
                                let unit = units.of(field.about.kind);
                                let typed = figures(unit.from_si(least + share * (most - least)), 2, Toward::Nearest);
                                unit.to_si(typed.replace('\u{2212}', "-").parse().unwrap())
                            };
                            Entry::Range(Band::of(at(0.2), (at(0.2) + at(0.4)) / 2.0, at(0.4)))
                        }
                        Takes::Choice(choices) => Entry::Choice(choices.last().unwrap().name),
                    };
                    let linked = as_linked(&field.with(entry), units);
                    question.set(field.about.name, &linked).unwrap();
                }
                let link = Link { question, units, from: None };
                let text = link.write();
                assert!(text.len() <= 300, "{} characters: {text}", text.len());
                assert_eq!(Link::read(&text), Ok(link), "{text}");
            }
        }
    }

    #[test]
    fn every_bound_survives_a_link_in_every_unit() {
        for units in [
            Units::default(),
            Units { force: Unit::PoundForce, length: Unit::Foot },
            Units { force: Unit::KilogramForce, length: Unit::Foot },
        ] {
            for example in Question::all() {
                for field in example.fields() {
                    let (Takes::One { least, most } | Takes::Range { least, most }) = field.about.takes else {
                        continue;
                    };
                    for bound in [least, most] {
                        let entry = match field.about.takes {
                            Takes::One { .. } => Entry::One(bound),
                            _ => Entry::Range(Band::exact(bound)),
                        };
                        let mut question = example.clone();
                        let linked = as_linked(&field.with(entry), units);
                        question.set(field.about.name, &linked).unwrap();
                        let text = Link { question: question.clone(), units, from: None }.write();
                        assert_eq!(Link::read(&text), Ok(Link { question, units, from: None }), "{text}");
                    }
                }
            }
        }
    }

    #[test]
    fn old_links_are_still_read() {
        let line = link("1/ln/a7.5_8.5/h0.25/t1/p90_180/Upf");
        assert_eq!(line.units, Units { force: Unit::PoundForce, length: Unit::Foot });
        let line = link("1/ln/a6_9/h0.25/t1/p0.4_0.8");
        let json = serde_json::to_value(&line.question).unwrap();
        assert_eq!(json["span_m"], serde_json::json!([6.0, 7.5, 9.0]));
        assert_eq!(json["setting"], "pre-tension");
        let low = json["pre_tension_n"][0].as_f64().unwrap();
        assert!((low - 400.0).abs() < 1e-9);
        assert_eq!(link("1/ab/u80/d4/s1").question.name(), "abseil");
        assert_eq!(link("1/ab/t2/x3/g1/p2").question.name(), "abseil");
        assert_eq!(link("1/ha/a3/s0/g1/f-0.1").question.name(), "human anchor");
        let people = link("1/ha/a3/A2/B90/C0.2/D0.1/E1/t0.1/u1/v-0.2/r3/x0/p1/i0.5_0.9/j1_3");
        let json = serde_json::to_value(&people.question).unwrap();
        assert_eq!([&json["stance_2"], &json["stance_3"]], ["seated", "seated braced"]);
        assert_eq!([&json["released"], &json["by_water"], &json["forces"]], ["both", "yes", "taken"]);
        assert_eq!([&json["holder_2_kg"], &json["to_side_m"]], [90.0, 1.0]);
        assert_eq!(link("1/bd/c2/a2/z1/x60/d4/i2/A3/B6/t1/u-90/p1/r1_2").question.name(), "bend");
        assert_eq!(link("1/wp/F1/a100_200/Zln/Upf").from, Some("ln"));
        assert_eq!(link("1/al/r2/a1.2_1.3_1.5/s10/t10").question.name(), "anchor legs");
    }

    /// What a link means, a line for each field: question or row of a plan, letter, name, choices in their places.
    fn places() -> String {
        let mut all: Vec<(&str, Vec<Asked>)> = vec![
            ("day", Day::default().asked()),
            ("pace", Pace::default().asked()),
            ("person", Person::default().asked()),
            ("rope", CarriedRope::default().asked()),
            ("drop", PlannedDrop::default().asked()),
        ];
        let questions = Question::all();
        all.extend(questions.iter().map(|question| (question.key(), question.fields())));
        let mut text = String::new();
        for (of, field) in all.iter().flat_map(|(of, fields)| fields.iter().map(move |field| (of, field))) {
            text += &[*of, &field.about.key.to_string(), field.about.name].join(" ");
            if let Takes::Choice(choices) = field.about.takes {
                text.extend(choices.iter().flat_map(|choice| ["; ", choice.name]));
            }
            text.push('\n');
        }
        text
    }

    #[test]
    fn letters_and_places_of_choices_are_never_reused() {
        let (file, now) = ("src/link/places.txt", places());
        let pinned = std::fs::read_to_string(file).unwrap();
        for line in pinned.lines() {
            // More may follow: another choice after the last, another field anywhere.
            let kept = |now: &str| now.strip_prefix(line).is_some_and(|more| more.is_empty() || more.starts_with("; "));
            assert!(now.lines().any(kept), "links that are out there say: {line}");
        }
        // What is new is pinned too, before a link of it is out there.
        if std::env::var_os("UPDATE_LINKS").is_some() {
            std::fs::write(file, &now).unwrap();
        } else {
            assert!(pinned == now, "UPDATE_LINKS=1 adds what is new to {file}");
        }
    }

    #[test]
    fn a_link_is_taken_whole_or_not_at_all() {
        assert_eq!(Link::read("2/ln"), Err(Broken::Version));
        assert_eq!(Link::read(""), Err(Broken::Version));
        assert_eq!(Link::read("1/zz"), Err(Broken::Question));
        for part in
            ["a", "a5_3", "a1_2_3_4", "aNaN", "h1e999", "h-999", "t9", "t-1", "Ux", "!5", "", "q", "n1.5", "äö", "Zzz"]
        {
            let text = format!("1/ln/{part}");
            assert_eq!(Link::read(&text), Err(Broken::Part(part.to_owned())), "{text}");
        }
        // Of two values nobody knows which was meant.
        assert_eq!(Link::read("1/ln/a6_9/h0.25/a6_9"), Err(Broken::Part("a6_9".to_owned())));
    }

    #[test]
    fn a_box_shows_the_same_after_a_link_in_other_units() {
        let (metric, other) = (Units::default(), Units { force: Unit::PoundForce, length: Unit::Foot });
        for units in [(metric, other), (other, metric)] {
            for field in Question::all().iter().flat_map(Question::fields) {
                let (Takes::One { least, most } | Takes::Range { least, most }) = field.about.takes else { continue };
                let (typed_in, linked_in) = (units.0.of(field.about.kind), units.1);
                for tenths in 1..200_u32 {
                    let typed = f64::from(tenths) / 2.0;
                    let si = typed_in.to_si(typed);
                    if !(least..=most).contains(&si) {
                        continue;
                    }
                    let entry = match field.about.takes {
                        Takes::Range { .. } => Entry::Range(Band::exact(si)),
                        _ => Entry::One(si),
                    };
                    let back = as_linked(&field.with(entry), linked_in).middle();
                    assert_eq!(plain(typed_in.from_si(back)), plain(typed), "{} {typed}", field.about.name);
                }
            }
        }
    }
}
