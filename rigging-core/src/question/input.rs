//! What can be wrong with an input, said so that it can be put right.

use super::field::{About, Choice, Entry, Takes};
use crate::law::OutOfDomain;
use crate::quantity::{Kind, digits};
use crate::statics::RigError;
use std::fmt;

/// An input that cannot be used.
/// ```
/// use rigging_core::quantity::Kind;
/// use rigging_core::question::{BadInput, Entry, Question, Rule, Said};
///
/// // The field, what was given and what it must be.
/// let mut line = Question::named("line")?;
/// let refused = line.set("span_m", &Entry::One(-3.0)).unwrap_err();
/// let within = Rule::Within { least: 0.5, most: 200.0, kind: Kind::Length };
/// assert!(matches!(&refused, BadInput::Field { value: Said::Number(-3.0), rule, .. } if *rule == within));
/// // A wrong name is told with those there are.
/// let unknown = line.set("spam_m", &Entry::One(3.0)).unwrap_err();
/// assert!(matches!(&unknown, BadInput::UnknownField { fields, .. } if fields.contains(&"span_m")));
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum BadInput {
    /// A value of a field breaks a rule.
    Field {
        /// The field.
        about: Box<About>,
        /// What was given.
        value: Said,
        /// What it must be.
        rule: Rule,
    },
    /// There is no field of this name in the question.
    UnknownField {
        /// The name given.
        name: String,
        /// The question.
        question: &'static str,
        /// The fields it has.
        fields: Vec<&'static str>,
    },
    /// A field is given twice.
    Repeated {
        /// The name given.
        name: String,
    },
    /// There is no question of this name.
    UnknownQuestion {
        /// The name given; empty if none was.
        name: String,
        /// The questions there are.
        questions: Vec<&'static str>,
    },
    /// Each value may stand alone, but together they describe nothing that can be rigged.
    Together(OutOfDomain),
    /// They describe a part as the trade does not rig it.
    Refused {
        /// The part.
        what: &'static str,
        /// The reason.
        why: &'static str,
    },
    /// They describe a rig that cannot be.
    Rig(Box<RigError>),
    /// They describe a rig in which no line leads from a load to an anchor: the loads by name.
    Unheld(Vec<String>),
    /// The forces of the rig they describe were not brought into balance: there is no number to show.
    NoBalance,
}

/// A value as it was given.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::question::{BadInput, Entry, Question, Said, check};
///
/// let span = Question::named("line")?.fields()[0].about;
/// let said = |entry| match check(&span, &entry) {
///     Err(BadInput::Field { value, .. }) => Some(value),
///     _ => None,
/// };
/// // Of a range it is the number that breaks the rule, of a wrong shape all of it.
/// assert_eq!(said(Entry::Range(Band::of(1.0, 2.0, 300.0))), Some(Said::Number(300.0)));
/// assert_eq!(said(Entry::Choice("wide")), Some(Said::Entry(Entry::Choice("wide"))));
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Said {
    /// An entry.
    Entry(Entry),
    /// One number of an entry.
    Number(f64),
    /// Three numbers that are no range.
    Three([f64; 3]),
    /// A text.
    Text(String),
    /// Something that is neither a number nor a text, in words: "true", "an object".
    Other(&'static str),
}

/// What a value must be.
/// ```
/// use rigging_core::question::{BadInput, Entry, Question, Rule};
///
/// // A name that is none of the choices is refused with those there are.
/// let mut line = Question::named("line")?;
/// let Err(BadInput::Field { rule: Rule::OneOf(choices), .. }) = line.set("setting", &Entry::Choice("tight")) else {
///     return Err("not refused".into());
/// };
/// assert!(choices.iter().any(|choice| choice.name == "slack"));
/// // Every rule is told in words.
/// let unordered = serde_json::from_str::<Question>(r#"{"question": "line", "span_m": [9, 8, 7]}"#).unwrap_err();
/// assert!(unordered.to_string().starts_with("span_m is [9, 8, 7]: it must be low, typical and high in rising order"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Rule {
    /// A number.
    Number,
    /// A number, or three numbers: low, typical, high.
    NumberOrRange,
    /// Within bounds, in SI.
    Within {
        /// The least it may be.
        least: f64,
        /// The most it may be.
        most: f64,
        /// What it measures.
        kind: Kind,
    },
    /// A whole number.
    Whole,
    /// Low, typical and high in this order.
    InOrder,
    /// One of these.
    OneOf(&'static [Choice]),
}

impl From<OutOfDomain> for BadInput {
    fn from(error: OutOfDomain) -> Self {
        BadInput::Together(error)
    }
}

impl fmt::Display for BadInput {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            BadInput::Rig(error) => write!(f, "these values do not fit together: {error}"),
            BadInput::Together(error) => write!(f, "these values do not fit together: {error}"),
            other => f.write_str(&other.words()),
        }
    }
}

impl std::error::Error for BadInput {}

impl BadInput {
    /// What is wrong, in words, without a value of which nobody knows in which unit it was entered; of a rig that cannot be,
    /// which no field of a question can describe, only that it has no balance: as an error it tells both, in SI.
    /// ```
    /// use rigging_core::question::BadInput;
    ///
    /// let twice = BadInput::Repeated { name: "span_m".to_owned() };
    /// assert_eq!(twice.words(), "\"span_m\" is given twice: give it once");
    /// // As an error it says the same, but for a rig and for what does not fit together.
    /// assert_eq!(twice.to_string(), twice.words());
    /// ```
    pub fn words(&self) -> String {
        match self {
            BadInput::Field { about, value, rule } => {
                [about.name, " is ", &value.words(), ": it must be ", &rule.words()].concat()
            }
            BadInput::UnknownField { name, question, fields } => {
                ["\"", name, "\" is not a field of \"", question, "\"; its fields are ", &fields.join(", ")].concat()
            }
            BadInput::Repeated { name } => ["\"", name, "\" is given twice: give it once"].concat(),
            BadInput::UnknownQuestion { name, questions } => {
                let said = if name.is_empty() { "missing".to_owned() } else { ["\"", name, "\""].concat() };
                ["question is ", &said, ": it must be one of \"", &questions.join("\", \""), "\""].concat()
            }
            BadInput::Together(error) => {
                ["these values do not fit together: ", error.what, " must be ", error.must].concat()
            }
            BadInput::Refused { what, why } => ["refused ", what, ": ", why].concat(),
            BadInput::Unheld(points) => ["nothing holds the load at ", &points.join(", ")].concat(),
            BadInput::Rig(_) | BadInput::NoBalance => "no balance was found for these values, so no number is given: \
                                                       take lengths and stiffness less far apart"
                .to_owned(),
        }
    }
}

impl Said {
    pub(super) fn words(&self) -> String {
        let three = |[low, typical, high]: [f64; 3]| {
            ["[", &digits(low), ", ", &digits(typical), ", ", &digits(high), "]"].concat()
        };
        match self {
            Said::Entry(Entry::One(number)) | Said::Number(number) => digits(*number),
            Said::Entry(Entry::Range(band)) => three([band.low(), band.typical(), band.high()]),
            Said::Entry(Entry::Choice(name)) => ["\"", name, "\""].concat(),
            Said::Three(numbers) => three(*numbers),
            Said::Text(text) => ["\"", text, "\""].concat(),
            Said::Other(words) => (*words).to_owned(),
        }
    }
}

impl Rule {
    fn words(&self) -> String {
        match self {
            Rule::Number => "a number, for example 1.5".to_owned(),
            Rule::NumberOrRange => "a number, or low, typical and high, for example 1.5 or [1.2, 1.5, 1.8]".to_owned(),
            Rule::Within { least, most, kind } => {
                let unit = kind.si();
                let space = if unit.is_empty() { "" } else { " " };
                ["from ", &digits(*least), " to ", &digits(*most), space, unit].concat()
            }
            Rule::Whole => "a whole number, for example 2".to_owned(),
            Rule::InOrder => "low, typical and high in rising order, for example [1.2, 1.5, 1.8]".to_owned(),
            Rule::OneOf(choices) => {
                let names: Vec<_> = choices.iter().map(|choice| choice.name).collect();
                ["one of \"", &names.join("\", \""), "\""].concat()
            }
        }
    }
}

/// The entry, with a number that lies past a bound by no more than the last of six figures put on the bound: what
/// a person reads of a bound in other units, and types, is the bound.
/// ```
/// use rigging_core::question::{Entry, Question, settled};
///
/// // 200 m are the most, 656.168 ft as they are read: typed so they are 200.0000064 m.
/// let span = Question::named("line")?.fields()[0].about;
/// assert_eq!(settled(&span, &Entry::One(656.168 * 0.3048)), Entry::One(200.0));
/// // What lies farther out stays, and is refused.
/// assert_eq!(settled(&span, &Entry::One(201.0)), Entry::One(201.0));
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
pub fn settled(about: &About, entry: &Entry) -> Entry {
    let (Takes::One { least, most } | Takes::Range { least, most }) = about.takes else { return *entry };
    let settle = |number: f64| {
        let near = |bound: f64| (number - bound).abs() <= 1e-5 * bound.abs();
        if number < least && near(least) {
            least
        } else if number > most && near(most) {
            most
        } else {
            number
        }
    };
    match entry {
        Entry::One(number) => Entry::One(settle(*number)),
        Entry::Range(band) => Entry::Range(band.map(settle)),
        Entry::Choice(name) => Entry::Choice(name),
    }
}

/// Checks an entry against what its field takes.
///
/// # Errors
/// [`BadInput::Field`] with the rule that is broken.
/// ```
/// use rigging_core::question::{BadInput, Entry, Question, Rule, check};
///
/// let fields = Question::named("line")?.fields();
/// let people = fields.iter().find(|field| field.about.name == "people").ok_or("no such field")?.about;
/// assert_eq!(check(&people, &Entry::One(2.0)), Ok(()));
/// // Nobody is half a person, and a name is no number.
/// assert!(matches!(check(&people, &Entry::One(2.5)), Err(BadInput::Field { rule: Rule::Whole, .. })));
/// assert!(matches!(check(&people, &Entry::Choice("two")), Err(BadInput::Field { rule: Rule::Whole, .. })));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn check(about: &About, entry: &Entry) -> Result<(), BadInput> {
    let broken = |value, rule| Err(BadInput::Field { about: Box::new(*about), value, rule });
    match (about.takes, entry) {
        (Takes::One { least, most }, Entry::One(number)) => {
            if !(least..=most).contains(number) {
                return broken(Said::Number(*number), Rule::Within { least, most, kind: about.kind });
            }
            if about.kind == Kind::Count && number.fract() != 0.0 {
                return broken(Said::Number(*number), Rule::Whole);
            }
            Ok(())
        }
        (Takes::Range { least, most }, Entry::Range(band)) => {
            let ends = [band.low(), band.typical(), band.high()];
            match ends.iter().find(|end| !(least..=most).contains(*end)) {
                Some(end) => broken(Said::Number(*end), Rule::Within { least, most, kind: about.kind }),
                None => Ok(()),
            }
        }
        (Takes::Range { .. }, Entry::One(number)) => check(about, &Entry::Range(crate::band::Band::exact(*number))),
        (Takes::Choice(choices), Entry::Choice(name)) if choices.iter().any(|choice| choice.name == *name) => Ok(()),
        (_, entry) => broken(Said::Entry(*entry), shape(about)),
    }
}

/// What a field takes, before its bounds.
pub(super) const fn shape(about: &About) -> Rule {
    match about.takes {
        Takes::One { .. } if matches!(about.kind, Kind::Count) => Rule::Whole,
        Takes::One { .. } => Rule::Number,
        Takes::Range { .. } => Rule::NumberOrRange,
        Takes::Choice(choices) => Rule::OneOf(choices),
    }
}
