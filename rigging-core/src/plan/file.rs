//! The file of a plan: JSON of our own, with a version.
//!
//! ```json
//! {"format": "rigging plan", "version": 1,
//!  "day": {"name": "…", "date": "2031-06-14", "water": "not seen", "start_s": 32400, …},
//!  "pace": {"rig_s": 300, "check_s": [60, 120, 240], …},
//!  "group": [{"name": "…", "body_kg": 74, "rope_skill": "rigs", "water_skill": "moving water"}],
//!  "ropes": [{"name": "…", "length_m": 60, "diameter_m": 0.009, "kind": "rope"}],
//!  "drops": [{"name": "…", "height_m": [9, 10, 12], …, "questions": [{"question": "abseil", …}]}]}
//! ```
//!
//! Numbers are SI and the name of a field ends in its unit; a range is a number or `[low, typical, high]`;
//! a question is written as [`Question`] writes itself. A field of a row that is not given keeps its
//! default. A field of a question that is not given keeps the value of the example, and is remembered as
//! missing, so that nothing is compared with it; it stays away when the plan is written again.
//!
//! Numbers are written with up to fifteen figures, and come back the same if they have no more.
//!
//! # Versions
//! A reader reads its own version and every older one: `UPGRADES` turns the names of one version into those
//! of the next, one step at a time. A newer file is read as far as its names are known; the rest is refused by
//! name, as anything unknown is.

use super::json::{self, Json, Node};
use super::record::{Record, Row, unknown};
use super::{CarriedRope, Person, Plan, PlannedDrop};
use crate::quantity::digits;
use crate::question::wire::{Wire, entry};
use crate::question::{Asked, BadInput, Entry, Held, Question};
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::fmt;

/// What the file says it is.
/// ```
/// use rigging_core::plan::{FORMAT, Plan};
///
/// // What stands in files of any version stays; a file that says something else is no plan.
/// assert!(Plan::default().write().contains(r#""format": "rigging plan""#));
/// assert!(Plan::read(&format!(r#"{{"format": "{FORMAT}", "version": 1}}"#)).is_ok());
/// assert!(Plan::read(&format!(r#"{{"format": "{FORMAT} of another kind", "version": 1}}"#)).is_err());
/// ```
pub const FORMAT: &str = "rigging plan";

/// The version that is written.
/// ```
/// use rigging_core::plan::{Plan, VERSION};
///
/// // A file of the next version is read as far as it goes, and told to be newer.
/// let read = |version| Plan::read(&format!(r#"{{"format": "rigging plan", "version": {version}}}"#));
/// assert!(read(VERSION)?.refused.is_empty());
/// assert!(read(VERSION + 1)?.refused[0].what.starts_with("the plan was written by a newer program"));
/// # Ok::<(), rigging_core::plan::NoPlan>(())
/// ```
pub const VERSION: u32 = 1;

/// The most rows a plan may have: drops, people or ropes; questions of one drop; questions in all. Five hundred
/// take seconds the first time if all of them are different; of the slowest kind, six legs to anchors, a minute and more.
/// ```
/// use rigging_core::plan::{MOST, Person, Plan};
///
/// // One person too many is left out, and told.
/// let plan = Plan { group: vec![Person::default(); MOST[0] + 1], ..Plan::default() };
/// let reading = Plan::read(&plan.write())?;
/// assert_eq!((reading.plan.group.len(), reading.refused.len()), (MOST[0], 1));
/// # Ok::<(), rigging_core::plan::NoPlan>(())
/// ```
pub const MOST: [usize; 3] = [400, 20, 500];

/// Something in a file that could not be read.
/// ```
/// use rigging_core::plan::Plan;
///
/// let text = "{\"format\": \"rigging plan\", \"version\": 1,\n\"ropes\": 3}";
/// let refused = &Plan::read(text)?.refused[0];
/// assert_eq!((refused.line, refused.place.as_str()), (2, "rope"));
/// assert!(refused.to_string().starts_with("line 2: rope: "));
/// # Ok::<(), rigging_core::plan::NoPlan>(())
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Refused {
    /// The line of the file, from 1; 0 if it is not known.
    pub line: usize,
    /// Where in the plan, such as `drop 3, abseil`; empty for the file as a whole.
    pub place: String,
    /// What is wrong with it, and what it must be.
    pub what: String,
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.line > 0 {
            write!(f, "line {}: ", self.line)?;
        }
        if !self.place.is_empty() {
            write!(f, "{}: ", self.place)?;
        }
        write!(f, "{}", self.what)
    }
}

/// A text that holds nothing of a plan.
/// ```
/// use rigging_core::plan::Plan;
///
/// // A list is no plan, and another file is none.
/// let none = Plan::read("[1, 2]").unwrap_err();
/// assert!(none.to_string().starts_with("this is no rigging plan"));
/// assert!(Plan::read(r#"{"format": "something else"}"#).is_err());
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct NoPlan {
    /// What is wrong with it.
    pub refused: Vec<Refused>,
}

impl fmt::Display for NoPlan {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "this is no rigging plan: it must be an object with \"format\": \"{FORMAT}\"")?;
        self.refused.iter().take(3).try_for_each(|refused| write!(f, "; {refused}"))
    }
}

impl std::error::Error for NoPlan {}

/// A plan as far as it could be read, and what could not.
/// ```
/// use rigging_core::plan::Plan;
///
/// // A file of which one line is damaged, the third, opens with the rest.
/// let reading = Plan::read(
///     r#"{"format": "rigging plan", "version": 1,
///         "day": {"name": "Invented gorge",
///                 "start_s": "nine"}}"#,
/// )?;
/// assert_eq!(reading.plan.day.name, "Invented gorge");
/// assert_eq!((reading.refused.len(), reading.refused[0].line, reading.refused[0].place.as_str()), (1, 3, "day"));
/// # Ok::<(), rigging_core::plan::NoPlan>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// What was read.
    pub plan: Plan,
    /// What was refused, in the order of the file; of very many not all.
    pub refused: Vec<Refused>,
}

impl Plan {
    /// How many questions its drops hold.
    /// ```
    /// use rigging_core::plan::{Plan, PlannedDrop};
    /// use rigging_core::question::{Held, Question};
    ///
    /// let drop = PlannedDrop { questions: vec![Held::new(Question::named("line")?)], ..PlannedDrop::default() };
    /// assert_eq!(Plan { drops: vec![drop.clone(), drop], ..Plan::default() }.questions(), 2);
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub fn questions(&self) -> usize {
        self.drops.iter().map(|drop| drop.questions.len()).sum()
    }

    /// Reads the text of a file as far as it can be read; whatever is refused is listed with its line.
    ///
    /// # Errors
    /// [`NoPlan`] if nothing in it is a plan.
    /// ```
    /// use rigging_core::plan::Plan;
    ///
    /// // A field that is not given keeps its default, one that is unknown is refused by its name.
    /// let reading = Plan::read(
    ///     r#"{"format": "rigging plan", "version": 1, "group": [{"name": "A", "body_kg": 74, "age": 9}]}"#,
    /// )?;
    /// assert_eq!((reading.plan.group[0].body.value, &reading.plan.day), (74.0, &Plan::default().day));
    /// assert!(reading.refused[0].what.contains("\"age\" is not a field of"));
    /// # Ok::<(), rigging_core::plan::NoPlan>(())
    /// ```
    pub fn read(text: &str) -> Result<Reading, NoPlan> {
        let (node, faults) = json::read(text);
        let refused = faults.into_iter().map(|(line, what)| Refused { line, place: String::new(), what }).collect();
        let mut reader = Reader { refused, questions: 0 };
        let plan = node.and_then(|node| reader.plan(node));
        let mut refused = reader.refused;
        in_order(&mut refused);
        match plan {
            Some(mut plan) => {
                plan.unread = refused.iter().map(Refused::to_string).collect();
                Ok(Reading { plan, refused })
            }
            None => Err(NoPlan { refused }),
        }
    }

    /// The text of a file that holds this plan, its numbers in fifteen figures: one of more, as an angle or a length in
    /// another unit may be, comes back nearly the same, and is written the same again.
    /// ```
    /// use rigging_core::plan::{FORMAT, Plan, VERSION};
    ///
    /// // What was written, read and written again is the same text, which says what it is.
    /// let text = Plan::example().write();
    /// assert_eq!(Plan::read(&text)?.plan.write(), text);
    /// let json: serde_json::Value = serde_json::from_str(&text)?;
    /// assert_eq!((json["format"].as_str(), json["version"].as_f64()), (Some(FORMAT), Some(f64::from(VERSION))));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn write(&self) -> String {
        self.to_node().write()
    }

    fn to_node(&self) -> Node {
        let list = |rows: Vec<Node>| Node::from(Json::List(rows));
        let drops = self.drops.iter().map(|drop| {
            let mut members = members(drop);
            members.push(("questions".to_owned(), list(drop.questions.iter().map(held).collect())));
            Json::Object(members).into()
        });
        let member = |name: &str, node: Node| (name.to_owned(), node);
        Json::Object(vec![
            member("format", Json::Text(FORMAT.to_owned()).into()),
            member("version", Json::Number(f64::from(VERSION)).into()),
            member("day", Json::Object(members(&self.day)).into()),
            member("pace", Json::Object(members(&self.pace)).into()),
            member("group", list(self.group.iter().map(|person| Json::Object(members(person)).into()).collect())),
            member("ropes", list(self.ropes.iter().map(|rope| Json::Object(members(rope)).into()).collect())),
            member("drops", list(drops.collect())),
        ])
        .into()
    }
}

/// Lines in rising order; what has no line goes first. The list is short, and a sort is 10 kB of the module.
fn in_order(refused: &mut [Refused]) {
    for end in (1..refused.len()).rev() {
        for place in 0..end {
            let is_later = matches!(refused.get(place..place + 2), Some([one, next]) if one.line > next.line);
            if is_later {
                refused.swap(place, place + 1);
            }
        }
    }
}

fn value(entry: &Entry) -> Json {
    match entry {
        Entry::One(number) => Json::Number(*number),
        Entry::Range(band) => {
            let ends = [band.low(), band.typical(), band.high()];
            // Ends that are written alike are read as one number: they are written as one at once.
            let [low, typical, high] = ends.map(digits);
            if low == typical && typical == high {
                Json::Number(band.typical())
            } else {
                Json::List(ends.map(|number| Json::Number(number).into()).to_vec())
            }
        }
        Entry::Choice(name) => Json::Text((*name).to_owned()),
    }
}

fn members(row: &dyn Row) -> Vec<(String, Node)> {
    let texts = row.words().into_iter().map(|text| (text.name.to_owned(), Json::Text(text.words).into()));
    let mut members: Vec<(String, Node)> = texts.collect();
    members.extend(row.asked().iter().map(|field| (field.about.name.to_owned(), value(&field.entry).into())));
    members
}

fn held(held: &Held) -> Node {
    let mut members = vec![("question".to_owned(), Json::Text(held.question.name().to_owned()).into())];
    for Asked { about, entry, .. } in held.question.fields() {
        if !held.missing.contains(&about.name) {
            members.push((about.name.to_owned(), value(&entry).into()));
        }
    }
    Json::Object(members).into()
}

/// The members of the file as a whole.
type Members = Vec<(String, Node)>;

/// What turns the members of each version into those of the next: renamed fields, moved rows; the least change of the
/// tree that makes an old file one of the next version. The first is that of version 1. There is one version so far;
/// its file stands in `tests/plans/`.
const UPGRADES: [fn(Members) -> Members; VERSION as usize - 1] = [];

fn upgrade(members: Members, version: u32) -> Members {
    let done = (version as usize).saturating_sub(1);
    UPGRADES.iter().skip(done).fold(members, |members, upgrade| upgrade(members))
}

/// A row as it is named: its place counts from 1.
fn numbered(name: &str, place: usize) -> String {
    [name, " ", &(place + 1).to_string()].concat()
}

/// No row has so many members, and nobody reads so many refusals: what comes after them is not looked at, so that a
/// spoilt file takes no longer than a good one.
const MOST_TOLD: usize = 500;

#[derive(Default)]
struct Reader {
    refused: Vec<Refused>,
    /// How many were read so far, of all drops.
    questions: usize,
}

impl Reader {
    fn refuse(&mut self, line: usize, place: &str, what: impl Into<String>) {
        if self.refused.len() < MOST_TOLD {
            self.refused.push(Refused { line, place: place.to_owned(), what: what.into() });
        }
    }

    fn object(&mut self, node: Node, place: &str) -> Option<Vec<(String, Node)>> {
        let Json::Object(members) = node.json else {
            self.refuse(node.line, place, "it must be an object, {…}");
            return None;
        };
        let mut seen: Vec<(String, Node)> = Vec::new();
        for (name, node) in members.into_iter().take(MOST_TOLD) {
            if seen.iter().any(|(other, _)| *other == name) {
                self.refuse(node.line, place, BadInput::Repeated { name }.words());
            } else {
                seen.push((name, node));
            }
        }
        Some(seen)
    }

    fn list(&mut self, node: Node, place: &str, most: usize) -> Vec<Node> {
        let Json::List(mut list) = node.json else {
            self.refuse(node.line, place, "it must be a list, […]");
            return Vec::new();
        };
        if let Some(first) = list.get(most) {
            self.refuse(first.line, place, format!("there may be {most} at most: the rest is left out"));
            list.truncate(most);
        }
        list
    }

    fn plan(&mut self, node: Node) -> Option<Plan> {
        const SECTIONS: [&str; 5] = ["day", "pace", "group", "ropes", "drops"];
        let top = node.line;
        let members = self.object(node, "")?;
        let named = |wanted: &str| members.iter().find(|(name, _)| name == wanted).map(|(_, node)| node);
        match named("format") {
            Some(Node { json: Json::Text(format), .. }) if format == FORMAT => {}
            Some(_) => return None,
            // The line that said so may be what was damaged.
            None if members.iter().any(|(name, _)| SECTIONS.contains(&name.as_str())) => {
                self.refuse(top, "", format!("\"format\": \"{FORMAT}\" is missing"));
            }
            None => return None,
        }
        let version = match named("version") {
            Some(Node { json: Json::Number(version), .. }) if *version >= 1.0 && version.fract() == 0.0 => {
                if *version > f64::from(VERSION) {
                    let line = named("version").map_or(0, |node| node.line);
                    let what = format!(
                        "the plan was written by a newer program, as version {}: what it says beyond version {VERSION} is left out",
                        digits(*version)
                    );
                    self.refuse(line, "", what);
                }
                version.min(f64::from(u32::MAX)) as u32
            }
            other => {
                let line = other.map_or(top, |node| node.line);
                self.refuse(line, "", format!("\"version\" must be a whole number: it is read as {VERSION}"));
                VERSION
            }
        };
        let mut plan = Plan::default();
        for (name, node) in upgrade(members, version) {
            match name.as_str() {
                "format" | "version" => {}
                "day" => self.row(node, "day", &mut plan.day, &mut |_, _, _| false),
                "pace" => self.row(node, "pace", &mut plan.pace, &mut |_, _, _| false),
                "group" => plan.group = self.rows::<Person>(node, "person"),
                "ropes" => plan.ropes = self.rows::<CarriedRope>(node, "rope"),
                "drops" => {
                    for (place, node) in self.list(node, "drops", MOST[0]).into_iter().enumerate() {
                        let place = numbered("drop", place);
                        plan.drops.push(self.drop(node, &place));
                    }
                }
                _ => self.refuse(
                    node.line,
                    "",
                    format!("\"{name}\" is not a part of a plan; its parts are {}", SECTIONS.join(", ")),
                ),
            }
        }
        Some(plan)
    }

    fn rows<R: Record>(&mut self, node: Node, name: &str) -> Vec<R> {
        let mut rows = Vec::new();
        for (place, node) in self.list(node, name, MOST[0]).into_iter().enumerate() {
            // One that is none keeps its place: others are counted by theirs.
            let mut row = R::default();
            self.row(node, &numbered(name, place), &mut row, &mut |_, _, _| false);
            rows.push(row);
        }
        rows
    }

    /// Reads a row; `other` takes what is neither a text nor a field of it.
    fn row(
        &mut self,
        node: Node,
        place: &str,
        row: &mut dyn Row,
        other: &mut dyn FnMut(&mut Self, &str, &Node) -> bool,
    ) {
        let Some(members) = self.object(node, place) else { return };
        let (texts, fields) = (row.words(), row.asked());
        for (name, node) in members {
            let taken = if texts.iter().any(|text| text.name == name) {
                match &node.json {
                    Json::Text(words) => row.say(&name, words),
                    _ => Err(BadInput::Refused { what: "a text", why: "it must stand between quotation marks" }),
                }
            } else if let Some(field) = fields.iter().find(|field| field.about.name == name) {
                entry(&field.about, wire(&node.json)).and_then(|entry| row.set(&name, &entry))
            } else if other(self, &name, &node) {
                Ok(())
            } else {
                Err(unknown(row, &name))
            };
            if let Err(error) = taken {
                self.refuse(node.line, place, error.words());
            }
        }
    }

    fn drop(&mut self, node: Node, place: &str) -> PlannedDrop {
        let (mut drop, mut questions) = (PlannedDrop::default(), Vec::new());
        self.row(node, place, &mut drop, &mut |reader, name, node| {
            if name == "questions" {
                let mut list = reader.list(node.clone(), place, MOST[1]);
                let left = MOST[2] - reader.questions;
                if list.len() > left {
                    let what = format!("a plan may hold {} questions in all: the rest is left out", MOST[2]);
                    reader.refuse(node.line, place, what);
                    list.truncate(left);
                }
                for node in list {
                    questions.extend(reader.question(node, place));
                }
                reader.questions += questions.len();
            }
            name == "questions"
        });
        PlannedDrop { questions, ..drop }
    }

    fn question(&mut self, node: Node, place: &str) -> Option<Held> {
        let whole = node.line;
        let members = self.object(node, place)?;
        let (line, name) = match members.iter().find(|(name, _)| name == "question") {
            Some((_, Node { line, json: Json::Text(name) })) => (*line, name.as_str()),
            _ => (whole, ""),
        };
        let mut question = match Question::named(name) {
            Ok(question) => question,
            Err(error) => {
                self.refuse(line, place, error.words());
                return None;
            }
        };
        let place = format!("{place}, {name}");
        let fields = question.fields();
        let mut given = Vec::new();
        for (name, node) in members.iter().filter(|(name, _)| name != "question") {
            let taken = match fields.iter().find(|field| field.about.name == name) {
                Some(field) => entry(&field.about, wire(&node.json)).and_then(|entry| question.set(name, &entry)),
                // Refused by name.
                None => question.set(name, &Entry::One(0.0)),
            };
            match taken {
                Ok(()) => given.push(name.as_str()),
                Err(error) => self.refuse(node.line, &place, error.words()),
            }
        }
        Some(Held::given(question, &given))
    }
}

fn wire(json: &Json) -> Wire {
    match json {
        Json::Number(number) => Wire::One(*number),
        Json::Text(words) => Wire::Text(words.clone()),
        Json::List(list) => Wire::list(&list.iter().take(4).map(|node| wire(&node.json)).collect::<Vec<_>>()),
        Json::Object(_) => Wire::OBJECT,
        Json::Other => Wire::CONSTANT,
    }
}

impl Serialize for Plan {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.to_node().serialize(serializer)
    }
}

/// Strict: what [`Plan::read`] lists as refused is an error here.
impl<'de> Deserialize<'de> for Plan {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let node = Node::deserialize(deserializer)?;
        let mut reader = Reader::default();
        let plan = reader.plan(node);
        match (reader.refused.first(), plan) {
            (None, Some(plan)) => Ok(plan),
            (Some(refused), _) => Err(D::Error::custom(refused)),
            (None, None) => Err(D::Error::custom(NoPlan { refused: Vec::new() })),
        }
    }
}
