//! The JSON of a question, `{"question": "line", "span_m": 12, …}`, and of its answer.
//!
//! A range is a number, or `[low, typical, high]`. A field that is not given keeps the value of the
//! example; a field that the question does not have is refused; one that the page would not ask, the other
//! fields being what they are, is read and does not count. Numbers are SI, and the name of a field ends in its
//! unit.

use super::answer::{Answer, Caution, Comparison, End, Finding, Gravity, Outcome};
use super::field::{About, Entry, Takes};
use super::graph::{Graph, Mark};
use super::input::{BadInput, Rule, Said, shape};
use super::{Asked, Held, Question};
use crate::band::Band;
use crate::limit::Standing;
use crate::quantity::Kind;
use crate::working::{Formula, Given, Step};
use serde::de::{Error, IgnoredAny, MapAccess, SeqAccess, Visitor};
use serde::ser::SerializeMap;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::fmt;

impl Serialize for Question {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        written(self, self.fields(), serializer)
    }
}

fn written<S: Serializer>(question: &Question, fields: Vec<Asked>, serializer: S) -> Result<S::Ok, S::Error> {
    let mut map = serializer.serialize_map(Some(fields.len() + 1))?;
    map.serialize_entry("question", question.name())?;
    for Asked { about, entry, .. } in fields {
        match entry {
            Entry::One(number) => map.serialize_entry(about.name, &number)?,
            Entry::Range(band) if band.is_exact() => map.serialize_entry(about.name, &band.typical())?,
            Entry::Range(band) => map.serialize_entry(about.name, &ends(&band))?,
            Entry::Choice(name) => map.serialize_entry(about.name, name)?,
        }
    }
    map.end()
}

/// What matters and was given; read again, it misses the same.
impl Serialize for Held {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let fields = self.question.fields().into_iter();
        let given = fields.filter(|field| field.matters && !self.missing.contains(&field.about.name));
        written(&self.question, given.collect(), serializer)
    }
}

impl<'de> Deserialize<'de> for Question {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Ok(Held::deserialize(deserializer)?.question)
    }
}

impl<'de> Deserialize<'de> for Held {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(QuestionVisitor)
    }
}

/// A value as it comes in, before the field says what it must be.
#[derive(Debug, Clone, PartialEq)]
pub enum Wire {
    /// A number.
    One(f64),
    /// Three numbers.
    Range([f64; 3]),
    /// A text.
    Text(String),
    /// Anything else, in words.
    Other(&'static str),
}

impl Wire {
    /// What is neither a value nor a list.
    pub const OBJECT: Wire = Wire::Other("an object");
    /// What nothing in a question is.
    pub const CONSTANT: Wire = Wire::Other("true, false or null");

    /// A list by its first four values.
    pub fn list(values: &[Wire]) -> Wire {
        match *values {
            [Wire::One(low), Wire::One(typical), Wire::One(high)] => Wire::Range([low, typical, high]),
            _ if values.iter().all(|value| matches!(value, Wire::One(_))) => Wire::Other("a list, but not of three"),
            _ => Wire::Other("a list, but not of numbers"),
        }
    }
}

impl<'de> Deserialize<'de> for Wire {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(WireVisitor)
    }
}

struct WireVisitor;

impl<'de> Visitor<'de> for WireVisitor {
    type Value = Wire;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "a number, three numbers or a text")
    }

    fn visit_f64<E: Error>(self, number: f64) -> Result<Wire, E> {
        Ok(Wire::One(number))
    }

    fn visit_i64<E: Error>(self, number: i64) -> Result<Wire, E> {
        Ok(Wire::One(number as f64))
    }

    fn visit_u64<E: Error>(self, number: u64) -> Result<Wire, E> {
        Ok(Wire::One(number as f64))
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Wire, E> {
        Ok(Wire::Text(text.to_owned()))
    }

    fn visit_bool<E: Error>(self, _: bool) -> Result<Wire, E> {
        Ok(Wire::CONSTANT)
    }

    fn visit_unit<E: Error>(self) -> Result<Wire, E> {
        Ok(Wire::CONSTANT)
    }

    fn visit_none<E: Error>(self) -> Result<Wire, E> {
        self.visit_unit()
    }

    fn visit_some<D: Deserializer<'de>>(self, deserializer: D) -> Result<Wire, D::Error> {
        Wire::deserialize(deserializer)
    }

    fn visit_seq<S: SeqAccess<'de>>(self, mut list: S) -> Result<Wire, S::Error> {
        // What follows a fourth is not kept.
        let mut values = Vec::new();
        while values.len() < 4 {
            let Some(value) = list.next_element()? else { break };
            values.push(value);
        }
        if values.len() == 4 {
            while list.next_element::<IgnoredAny>()?.is_some() {}
        }
        Ok(Wire::list(&values))
    }

    fn visit_map<M: MapAccess<'de>>(self, mut map: M) -> Result<Wire, M::Error> {
        while map.next_entry::<IgnoredAny, IgnoredAny>()?.is_some() {}
        Ok(Wire::OBJECT)
    }
}

/// More fields than any question has.
const MOST_FIELDS: usize = 500;

struct QuestionVisitor;

impl<'de> Visitor<'de> for QuestionVisitor {
    type Value = Held;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "an object with the field \"question\"")
    }

    fn visit_map<M: MapAccess<'de>>(self, mut map: M) -> Result<Held, M::Error> {
        let mut name = None;
        let mut given: Vec<(String, Wire)> = Vec::new();
        while let Some((key, value)) = map.next_entry::<String, Wire>()? {
            // No question has so many fields.
            if given.len() > MOST_FIELDS {
                return Err(M::Error::invalid_length(given.len(), &self));
            }
            let again = given.iter().any(|(other, _)| *other == key) || (key == "question" && name.is_some());
            if again {
                return Err(M::Error::custom(BadInput::Repeated { name: key }));
            }
            match value {
                Wire::Text(text) if key == "question" => name = Some(text),
                other if key == "question" => return Err(M::Error::custom(not_a_name(other))),
                value => given.push((key, value)),
            }
        }
        let mut question = Question::named(&name.unwrap_or_default()).map_err(M::Error::custom)?;
        let fields = question.fields();
        for (key, value) in &given {
            let entry = match fields.iter().find(|field| field.about.name == key) {
                Some(field) => entry(&field.about, value.clone()).map_err(M::Error::custom)?,
                // Refused by name when it is set.
                None => Entry::One(0.0),
            };
            question.set(key, &entry).map_err(M::Error::custom)?;
        }
        let given: Vec<&str> = given.iter().map(|(name, _)| name.as_str()).collect();
        Ok(Held::given(question, &given))
    }
}

/// What is wrong with something that stands where the name of a question should.
fn not_a_name(value: Wire) -> String {
    let names: Vec<_> = Question::all().iter().map(Question::name).collect();
    ["question is ", &Said::from(value).words(), ": it must be one of \"", &names.join("\", \""), "\""].concat()
}

impl From<Wire> for Said {
    fn from(value: Wire) -> Self {
        match value {
            Wire::One(number) => Said::Number(number),
            Wire::Range(numbers) => Said::Three(numbers),
            Wire::Text(text) => Said::Text(text),
            Wire::Other(words) => Said::Other(words),
        }
    }
}

/// What a value means for a field.
///
/// # Errors
/// [`BadInput::Field`] if it has not the shape that the field takes.
pub fn entry(about: &About, value: Wire) -> Result<Entry, BadInput> {
    let broken = |value, rule| Err(BadInput::Field { about: Box::new(*about), value, rule });
    match value {
        Wire::One(number) if matches!(about.takes, Takes::Range { .. }) => Ok(Entry::Range(Band::exact(number))),
        Wire::One(number) => Ok(Entry::One(number)),
        Wire::Range([low, typical, high]) if low <= typical && typical <= high => {
            Ok(Entry::Range(Band::of(low, typical, high)))
        }
        Wire::Range([low, typical, high]) => broken(Said::Three([low, typical, high]), Rule::InOrder),
        Wire::Text(text) => match about.takes {
            Takes::Choice(choices) => match choices.iter().find(|choice| choice.name == text) {
                Some(choice) => Ok(Entry::Choice(choice.name)),
                None => broken(Said::Text(text), shape(about)),
            },
            _ => broken(Said::Text(text), shape(about)),
        },
        Wire::Other(words) => broken(Said::Other(words), shape(about)),
    }
}

impl Serialize for Answer {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("findings", &self.findings)?;
        map.serialize_entry("states", &self.states)?;
        map.serialize_entry("outcomes", &self.outcomes)?;
        map.serialize_entry("comparisons", &self.comparisons)?;
        map.serialize_entry("usual", &self.usual)?;
        map.serialize_entry("remarks", &self.remarks)?;
        if !self.stands.is_empty() {
            map.serialize_entry("stands", &self.stands)?;
        }
        map.serialize_entry("graphs", &self.graphs)?;
        map.serialize_entry("working", &self.working)?;
        map.serialize_entry("formulas", &self.formulas)?;
        map.serialize_entry("cautions", &self.cautions)?;
        map.serialize_entry("not_in", &self.not_in)?;
        map.end()
    }
}

fn named(name: &str, kind: Kind) -> String {
    format!("{name}{}", kind.suffix())
}

fn ends(band: &Band) -> [f64; 3] {
    [band.low(), band.typical(), band.high()]
}

impl Serialize for Finding {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("what", &self.what)?;
        let adverse = match self.end {
            End::High => "up_to",
            End::Low if self.at_most => "at_most",
            End::Low => "at_least",
        };
        map.serialize_entry(&named(adverse, self.kind), &self.adverse())?;
        map.serialize_entry(&named("range", self.kind), &ends(&self.band))?;
        if let Some(pull) = self.pull {
            map.serialize_entry("pull_from_plumb_rad", &pull)?;
        }
        if let Some(stands) = self.stands {
            map.serialize_entry("stands", stands)?;
        }
        if let Some(input) = self.moved_most_by {
            map.serialize_entry("moved_most_by", input)?;
        }
        map.end()
    }
}

impl Serialize for Outcome {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(2))?;
        map.serialize_entry("case", &self.case)?;
        map.serialize_entry("findings", &self.findings)?;
        map.end()
    }
}

impl Serialize for Graph {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let place = |mark: &Mark| (mark.across, ends(&mark.up));
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("title", &self.title)?;
        map.serialize_entry("across", &named(self.across.name, self.across.kind))?;
        map.serialize_entry("up", &named(self.up.name, self.up.kind))?;
        map.serialize_entry("curve", &self.curve.iter().map(place).collect::<Vec<_>>())?;
        if let Some(here) = &self.here {
            map.serialize_entry("here", &place(here))?;
        }
        map.end()
    }
}

impl Serialize for Comparison {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("what", &self.what)?;
        map.serialize_entry("range_n", &ends(&self.load))?;
        if let Some(limit) = &self.limit {
            map.serialize_entry("limit_n", &ends(&limit.band))?;
            map.serialize_entry("limit", &limit.part)?;
            map.serialize_entry("whose", &limit.source.told())?;
            map.serialize_entry("design_factor", &limit.factor)?;
        }
        map.serialize_entry("standing", self.standing.words())?;
        if let Standing::NotChecked(reason) = self.standing {
            map.serialize_entry("reason", reason)?;
        }
        map.end()
    }
}

impl Serialize for Step {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("what", &self.what)?;
        map.serialize_entry("formula", self.formula)?;
        map.serialize_entry("given", &self.given)?;
        map.serialize_entry("result", &self.result)?;
        map.serialize_entry("source", &self.source.told())?;
        map.end()
    }
}

impl Serialize for Formula {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(3))?;
        map.serialize_entry("what", self.what)?;
        map.serialize_entry("formula", self.formula)?;
        map.serialize_entry("source", &self.source.told())?;
        map.end()
    }
}

impl Serialize for Given {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(1))?;
        let name = named(self.symbol, self.kind);
        if self.band.is_exact() {
            map.serialize_entry(&name, &self.band.typical())?;
        } else {
            map.serialize_entry(&name, &ends(&self.band))?;
        }
        map.end()
    }
}

impl Serialize for Caution {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(4))?;
        let gravity = match self.gravity {
            Gravity::Danger => "danger",
            Gravity::Warning => "warning",
            Gravity::Caution => "caution",
        };
        map.serialize_entry("gravity", gravity)?;
        map.serialize_entry("hazard", self.hazard)?;
        map.serialize_entry("consequence", self.consequence)?;
        map.serialize_entry("avoidance", self.avoidance)?;
        map.end()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(json: &str) -> Result<Question, String> {
        serde_json::from_str(json).map_err(|error| error.to_string())
    }

    #[test]
    fn every_question_survives_its_json() {
        for question in Question::all() {
            let json = serde_json::to_string(&question).unwrap();
            assert_eq!(read(&json).unwrap(), question, "{json}");
        }
    }

    #[test]
    fn what_is_wrong_is_named() {
        for (json, words) in [
            ("{}", "question is missing: it must be one of \"anchor legs\""),
            (r#"{"question":"soup"}"#, "question is \"soup\""),
            (r#"{"question":"line","colour":1}"#, "\"colour\" is not a field of \"line\""),
            (r#"{"question":"line","span_m":"long"}"#, "span_m is \"long\": it must be a number"),
            (r#"{"question":"line","span_m":-3}"#, "span_m is -3: it must be from"),
            (r#"{"question":"line","span_m":[3,2,1]}"#, "span_m is [3, 2, 1]: it must be low, typical and high"),
            (r#"{"question":3}"#, "question is 3: it must be one of \"anchor legs\""),
            (r#"{"question":["line"]}"#, "question is a list, but not of numbers: it must be one of"),
            (r#"{"question":null,"span_m":3}"#, "question is true, false or null: it must be one of"),
            (r#"{"question":"line","span_m":null}"#, "span_m is true, false or null: it must be a number"),
            (
                r#"{"question":"line","span_m":true}"#,
                "span_m is true, false or null: it must be a number, or low, typical and high",
            ),
            (
                r#"{"question":"line","span_m":[3,4]}"#,
                "span_m is a list, but not of three: it must be a number, or low,",
            ),
            (r#"{"question":"line","span_m":[]}"#, "span_m is a list, but not of three: it must be"),
            (r#"{"question":"line","span_m":[1,2,3,4,5,6]}"#, "span_m is a list, but not of three: it must be"),
            (r#"{"question":"line","span_m":[1,"2",3]}"#, "span_m is a list, but not of numbers: it must be"),
            (r#"{"question":"line","span_m":{"low":3}}"#, "span_m is an object: it must be"),
            (
                r#"{"question":"line","people":[1,2,3]}"#,
                "people is [1, 2, 3]: it must be a whole number, for example 2",
            ),
            (r#"{"question":"line","people":"two"}"#, "people is \"two\": it must be a whole number"),
            (r#"{"question":"line","setting":[1]}"#, "setting is a list, but not of three: it must be one of"),
            (r#"{"question":"line","span_m":3,"span_m":4}"#, "\"span_m\" is given twice"),
            (r#"{"question":"","question":"line"}"#, "\"question\" is given twice"),
            (r#"{"question":"line","people":1.5}"#, "people is 1.5: it must be a whole number"),
            (r#"{"question":"line","setting":"loose"}"#, "setting is \"loose\": it must be one of"),
            ("[1]", "an object with the field \"question\""),
        ] {
            let error = read(json).unwrap_err();
            assert!(error.contains(words), "{json}: {error}");
        }
    }
}
