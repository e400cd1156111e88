//! Asks a question: its JSON on standard input, the answer on standard output.
//!
//! ```text
//! ask < question.json     answers it; what is wrong goes to standard error, exit status 1
//! ask --list              every question with its fields, units, defaults and ranges
//! ```
//!
//! A field that the page would not ask, the other fields being what they are, is read and does not count.

use rigging_core::question::{Answer, Asked, Entry, Held, Question, Takes};
use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};
use std::error::Error;
use std::io::{Read, Write};
use std::process::ExitCode;

/// More than any question needs (bytes); what is longer is refused, and not read to its end.
const LONGEST: u64 = 1_000_000;

/// What is printed. Fields that were not given are named: their values are an example, not the user's.
#[derive(Serialize)]
struct Said<'a> {
    question: Told<'a>,
    taken_from_the_example: Vec<&'a str>,
    answer: &'a Answer,
}

/// The question as a person wrote it or would have: what was made from millimetres is 0.009 and not 0.009000000000000001.
/// The JSON of the library itself keeps the last bit.
struct Told<'a>(&'a Question);

impl Serialize for Told<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("question", self.0.name())?;
        for Asked { about, entry, .. } in self.0.fields() {
            match entry {
                Entry::One(number) => map.serialize_entry(about.name, &meant(number))?,
                Entry::Range(band) if band.is_exact() => map.serialize_entry(about.name, &meant(band.typical()))?,
                Entry::Range(band) => {
                    map.serialize_entry(about.name, &[band.low(), band.typical(), band.high()].map(meant))?;
                }
                Entry::Choice(name) => map.serialize_entry(about.name, name)?,
            }
        }
        map.end()
    }
}

/// The number of twelve figures and as many decimals at most that is within four of its last bits; itself if there is
/// none. A whole number below 2⁵³ over a power of ten up to 10²² is the float nearest to it.
fn meant(number: f64) -> f64 {
    let mut scale = 1.0;
    for _ in 0..=12 {
        let whole = (number * scale).round();
        let rounded = whole / scale;
        if whole.abs() < 1e12 && (rounded - number).abs() <= 2.0 * f64::EPSILON * number.abs() {
            return rounded;
        }
        scale *= 10.0;
    }
    number
}

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let outcome = match arguments.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        [] => answer(),
        ["--list"] => say(&list()),
        _ => Err("usage: ask < question.json, or ask --list".into()),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("ask: {error}");
            ExitCode::FAILURE
        }
    }
}

fn answer() -> Result<(), Box<dyn Error>> {
    let mut bytes = Vec::new();
    std::io::stdin().take(LONGEST + 1).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > LONGEST {
        return Err(format!("the input is longer than {LONGEST} bytes, which no question is").into());
    }
    let text = String::from_utf8(bytes).map_err(|error| format!("the input is no text in UTF-8: {error}"))?;
    if text.trim().is_empty() {
        return Err(
            "nothing came in: give a question as JSON, for example {\"question\": \"line\", \"span_m\": 8}".into()
        );
    }
    let Held { question, missing } = serde_json::from_str(&text)?;
    let answer = question.answer()?;
    let said = Said { question: Told(&question), taken_from_the_example: missing, answer: &answer };
    say(&(serde_json::to_string_pretty(&said)? + "\n"))
}

/// Who reads may stop reading.
fn say(text: &str) -> Result<(), Box<dyn Error>> {
    Ok(std::io::stdout().write_all(text.as_bytes())?)
}

fn list() -> String {
    let mut text = String::from(
        "Numbers are SI; the name of a field ends in its unit. A range is a number or [low, typical, high].\n\
         A field that is not given keeps its default, which is an example and not yours.\n",
    );
    for question in Question::all() {
        text += &format!("\n\"question\": \"{}\"  {}\n", question.name(), question.words());
        for Asked { about, entry, .. } in question.fields() {
            let default = match entry {
                Entry::One(number) => short(number),
                Entry::Range(band) => {
                    format!("[{}, {}, {}]", short(band.low()), short(band.typical()), short(band.high()))
                }
                Entry::Choice(name) => format!("\"{name}\""),
            };
            let takes = match about.takes {
                Takes::One { least, most } => format!("{} to {}", end(least, 1.0), end(most, -1.0)),
                Takes::Range { least, most } => format!("range within {} to {}", end(least, 1.0), end(most, -1.0)),
                Takes::Choice(choices) => {
                    choices.iter().map(|choice| format!("\"{}\"", choice.name)).collect::<Vec<_>>().join(" | ")
                }
            };
            text += &format!("  \"{}\": {default}\n      {} ({}); {takes}", about.name, about.label, about.note);
            if about.source.place.is_empty() {
                text += "\n";
            } else {
                text += &format!("; default {}: {}\n", about.source.known.word(), about.source.place);
            }
        }
    }
    text
}

/// An end of what a field takes, rounded the way that is inside it: what is told is taken.
fn end(number: f64, inward: f64) -> String {
    let told = short(number);
    let outside = told.parse::<f64>().is_ok_and(|told| (told - number) * inward < 0.0);
    if outside { short(number + inward * 0.5e-4) } else { told }
}

fn short(number: f64) -> String {
    let text = format!("{number:.4}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
