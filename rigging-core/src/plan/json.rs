//! JSON that may be damaged: what can be read is read, and what cannot is named with its line.
//!
//! Written here because a reader that stops at the first fault cannot open a damaged file, and one that
//! knows no lines cannot say where the fault is.

use crate::quantity::{decimal, number};
use serde::de::{MapAccess, SeqAccess, Visitor};
use serde::ser::{SerializeMap, SerializeSeq};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::fmt;

/// A value of JSON.
#[derive(Debug, Clone, PartialEq)]
pub enum Json {
    /// A number.
    Number(f64),
    /// A text.
    Text(String),
    /// A list.
    List(Vec<Node>),
    /// Names with their values, in the order of the file.
    Object(Vec<(String, Node)>),
    /// `true`, `false` or `null`: nothing in a plan is one of them.
    Other,
}

/// A value, and the line on which it begins; 0 if it was not read from a file.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// The line, from 1.
    pub line: usize,
    /// The value.
    pub json: Json,
}

impl From<Json> for Node {
    fn from(json: Json) -> Self {
        Node { line: 0, json }
    }
}

/// A fault of the text: its line, and what is wrong.
pub type Fault = (usize, String);

/// How deep lists and objects may stand in each other.
const DEEPEST: usize = 16;

/// More faults than anybody reads.
const MOST_FAULTS: usize = 200;

/// Reads a text as far as it can be read.
pub fn read(text: &str) -> (Option<Node>, Vec<Fault>) {
    let mut reader = Reader { rest: text.strip_prefix('\u{feff}').unwrap_or(text), line: 1, faults: Vec::new() };
    let node = reader.value(0);
    reader.space();
    if node.is_some() && !reader.rest.is_empty() {
        reader.fault("there is more after the end of the plan");
    }
    (node, reader.faults)
}

struct Reader<'a> {
    rest: &'a str,
    line: usize,
    faults: Vec<Fault>,
}

impl<'a> Reader<'a> {
    fn fault(&mut self, what: impl Into<String>) {
        if self.faults.len() < MOST_FAULTS {
            self.faults.push((self.line, what.into()));
        }
    }

    fn peek(&self) -> Option<char> {
        self.rest.chars().next()
    }

    fn step(&mut self) -> Option<char> {
        let mut chars = self.rest.chars();
        let next = chars.next()?;
        self.rest = chars.as_str();
        if next == '\n' {
            self.line += 1;
        }
        Some(next)
    }

    fn eat(&mut self, expected: char) -> bool {
        let is = self.peek() == Some(expected);
        if is {
            self.step();
        }
        is
    }

    fn space(&mut self) {
        while self.peek().is_some_and(|next| matches!(next, ' ' | '\t' | '\n' | '\r')) {
            self.step();
        }
    }

    /// Goes on to the next comma or closing bracket of the list or object that it stands in.
    fn skip(&mut self) {
        let mut depth = 0_usize;
        while let Some(next) = self.peek() {
            match next {
                ',' | '}' | ']' if depth == 0 => return,
                '[' | '{' => depth += 1,
                ']' | '}' => depth -= 1,
                '"' => {
                    self.text();
                    continue;
                }
                _ => {}
            }
            self.step();
        }
    }

    /// A value, or none and a fault.
    fn value(&mut self, depth: usize) -> Option<Node> {
        self.space();
        let line = self.line;
        let json = match self.peek() {
            Some('{') if depth < DEEPEST => self.object(depth),
            Some('[') if depth < DEEPEST => self.list(depth),
            Some('{' | '[') => {
                self.fault("lists and objects stand too deep in each other");
                return None;
            }
            Some('"') => Json::Text(self.text()?),
            Some('-' | '0'..='9') => Json::Number(self.number()?),
            Some('a'..='z') => {
                let word = self.word(|next| next.is_ascii_alphabetic());
                if !matches!(word, "true" | "false" | "null") {
                    self.fault(format!("\"{word}\" is no value: texts stand between quotation marks"));
                    return None;
                }
                Json::Other
            }
            Some(_) => {
                self.fault("a value is expected here");
                return None;
            }
            None => {
                self.fault("the text ends where a value is expected");
                return None;
            }
        };
        Some(Node { line, json })
    }

    /// What follows as long as it is of a kind.
    fn word(&mut self, is: impl Fn(char) -> bool) -> &'a str {
        let end = self.rest.find(|next| !is(next)).unwrap_or(self.rest.len());
        let (word, rest) = self.rest.split_at_checked(end).unwrap_or((self.rest, ""));
        self.rest = rest;
        word
    }

    fn number(&mut self) -> Option<f64> {
        let word = self.word(|next| next.is_ascii_alphanumeric() || matches!(next, '.' | '+' | '-'));
        let value = number(word).filter(|value| value.is_finite());
        if value.is_none() {
            let shown: String = word.chars().take(20).collect();
            self.fault(format!("\"{shown}\" is no number"));
        }
        value
    }

    /// A text between quotation marks; it ends on the line on which it begins.
    fn text(&mut self) -> Option<String> {
        self.step();
        let mut text = String::new();
        loop {
            match self.peek() {
                None | Some('\n') => {
                    self.fault("a text has no end on its line");
                    return None;
                }
                Some('"') => {
                    self.step();
                    return Some(text);
                }
                Some('\\') => {
                    self.step();
                    text.push(self.escaped());
                }
                Some(next) => {
                    self.step();
                    text.push(next);
                }
            }
        }
    }

    fn escaped(&mut self) -> char {
        match self.peek() {
            // The text has no end: said where it is looked for.
            None | Some('\n') => return char::REPLACEMENT_CHARACTER,
            Some('u') => {}
            Some(other) => {
                self.step();
                return match other {
                    'n' => '\n',
                    't' => '\t',
                    'r' => '\r',
                    'b' => '\u{8}',
                    'f' => '\u{c}',
                    other => other,
                };
            }
        }
        let first = self.unit();
        let code = match first {
            // Half of a pair: the other half follows.
            0xd800..=0xdbff => match self.rest.strip_prefix('\\') {
                Some(rest) if rest.starts_with('u') => {
                    self.rest = rest;
                    let second = self.unit();
                    0x10000 + ((first - 0xd800) << 10) + second.wrapping_sub(0xdc00)
                }
                _ => first,
            },
            code => code,
        };
        char::from_u32(code).unwrap_or(char::REPLACEMENT_CHARACTER)
    }

    /// The four digits after `u`.
    fn unit(&mut self) -> u32 {
        self.step();
        let mut code = 0;
        for _ in 0..4 {
            let Some(digit) = self.peek().and_then(|next| next.to_digit(16)) else {
                return u32::from(char::REPLACEMENT_CHARACTER);
            };
            self.step();
            code = 16 * code + digit;
        }
        code
    }

    /// What stands between the members of a list or object; true where it ends.
    fn ends(&mut self, close: char, other: char) -> bool {
        self.space();
        match self.peek() {
            Some(next) if next == close => {
                self.step();
                true
            }
            Some(',') => {
                self.step();
                self.space();
                let ended = self.peek() == Some(close);
                if ended {
                    self.fault("nothing follows a comma: something may be missing here");
                    self.step();
                }
                ended
            }
            Some(next) if next == other => {
                self.fault(format!("\"{close}\" is missing before this"));
                true
            }
            None => {
                self.fault(format!("the text ends before \"{close}\""));
                true
            }
            // A comma is missing: what follows is read as if it were there.
            Some(_) => {
                self.fault("a comma is missing before this");
                false
            }
        }
    }

    fn list(&mut self, depth: usize) -> Json {
        self.step();
        let mut list = Vec::new();
        self.space();
        if self.eat(']') {
            return Json::List(list);
        }
        loop {
            match self.value(depth + 1) {
                Some(node) => list.push(node),
                None => self.skip(),
            }
            if self.ends(']', '}') {
                return Json::List(list);
            }
        }
    }

    fn object(&mut self, depth: usize) -> Json {
        self.step();
        let mut object = Vec::new();
        self.space();
        if self.eat('}') {
            return Json::Object(object);
        }
        loop {
            match self.member(depth) {
                Some(member) => object.push(member),
                None => self.skip(),
            }
            if self.ends('}', ']') {
                return Json::Object(object);
            }
        }
    }

    fn member(&mut self, depth: usize) -> Option<(String, Node)> {
        self.space();
        if self.peek() != Some('"') {
            self.fault(if self.peek().is_none() {
                "the text ends where a name is expected"
            } else {
                "a name is expected here"
            });
            return None;
        }
        let name = self.text()?;
        self.space();
        if !self.eat(':') {
            self.fault(format!("a colon is missing after \"{name}\""));
            return None;
        }
        let value = self.value(depth + 1)?;
        Some((name, value))
    }
}

/// A number with at most fifteen figures: as many as come back the same from every text.
pub fn digits(value: f64) -> String {
    let mut whole = value.abs();
    let mut places = 14;
    while whole >= 10.0 && places > 0 {
        whole /= 10.0;
        places -= 1;
    }
    while whole < 1.0 && whole > 0.0 && places < 22 {
        whole *= 10.0;
        places += 1;
    }
    let text = decimal(value, places);
    match text.split_once('.') {
        Some((_, _)) => text.trim_end_matches('0').trim_end_matches('.').to_owned(),
        None => text,
    }
}

impl Node {
    /// The text of the value, each member of an object on a line of its own.
    pub fn write(&self) -> String {
        let mut text = String::new();
        self.write_to(&mut text, 0);
        text.push('\n');
        text
    }

    fn write_to(&self, text: &mut String, depth: usize) {
        let next = |text: &mut String, depth: usize| {
            text.push('\n');
            for _ in 0..depth {
                text.push(' ');
            }
        };
        match &self.json {
            Json::Number(value) => text.push_str(&digits(*value)),
            Json::Text(words) => quote(words, text),
            Json::Other => text.push_str("null"),
            Json::List(list) => {
                let flat = list.iter().all(|node| matches!(node.json, Json::Number(_)));
                text.push('[');
                for (place, node) in list.iter().enumerate() {
                    if place > 0 {
                        text.push_str(if flat { ", " } else { "," });
                    }
                    if !flat {
                        next(text, depth + 1);
                    }
                    node.write_to(text, depth + 1);
                }
                if !flat {
                    next(text, depth);
                }
                text.push(']');
            }
            Json::Object(members) => {
                text.push('{');
                for (place, (name, node)) in members.iter().enumerate() {
                    if place > 0 {
                        text.push(',');
                    }
                    next(text, depth + 1);
                    quote(name, text);
                    text.push_str(": ");
                    node.write_to(text, depth + 1);
                }
                next(text, depth);
                text.push('}');
            }
        }
    }
}

fn quote(words: &str, text: &mut String) {
    text.push('"');
    for next in words.chars() {
        match next {
            '"' | '\\' => {
                text.push('\\');
                text.push(next);
            }
            '\n' => text.push_str("\\n"),
            '\r' => text.push_str("\\r"),
            '\t' => text.push_str("\\t"),
            control if control < ' ' => {
                text.push_str("\\u00");
                for half in [control as u32 >> 4, control as u32 & 15] {
                    text.push(char::from_digit(half, 16).unwrap_or('0'));
                }
            }
            other => text.push(other),
        }
    }
    text.push('"');
}

impl Serialize for Node {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match &self.json {
            Json::Number(value) => serializer.serialize_f64(*value),
            Json::Text(words) => serializer.serialize_str(words),
            Json::Other => serializer.serialize_unit(),
            Json::List(list) => {
                let mut sequence = serializer.serialize_seq(Some(list.len()))?;
                for node in list {
                    sequence.serialize_element(node)?;
                }
                sequence.end()
            }
            Json::Object(members) => {
                let mut map = serializer.serialize_map(Some(members.len()))?;
                for (name, node) in members {
                    map.serialize_entry(name, node)?;
                }
                map.end()
            }
        }
    }
}

impl<'de> Deserialize<'de> for Node {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Any;
        impl<'de> Visitor<'de> for Any {
            type Value = Node;
            fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
                write!(f, "a value of a rigging plan")
            }
            fn visit_bool<E>(self, _: bool) -> Result<Node, E> {
                Ok(Json::Other.into())
            }
            fn visit_unit<E>(self) -> Result<Node, E> {
                Ok(Json::Other.into())
            }
            fn visit_f64<E>(self, value: f64) -> Result<Node, E> {
                Ok(Json::Number(value).into())
            }
            fn visit_u64<E>(self, value: u64) -> Result<Node, E> {
                Ok(Json::Number(value as f64).into())
            }
            fn visit_i64<E>(self, value: i64) -> Result<Node, E> {
                Ok(Json::Number(value as f64).into())
            }
            fn visit_str<E>(self, words: &str) -> Result<Node, E> {
                Ok(Json::Text(words.to_owned()).into())
            }
            fn visit_seq<A: SeqAccess<'de>>(self, mut access: A) -> Result<Node, A::Error> {
                let mut list = Vec::new();
                while let Some(node) = access.next_element()? {
                    list.push(node);
                }
                Ok(Json::List(list).into())
            }
            fn visit_map<A: MapAccess<'de>>(self, mut access: A) -> Result<Node, A::Error> {
                let mut members = Vec::new();
                while let Some(member) = access.next_entry()? {
                    members.push(member);
                }
                Ok(Json::Object(members).into())
            }
        }
        deserializer.deserialize_any(Any)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn faults(text: &str) -> (String, Vec<Fault>) {
        let (node, faults) = read(text);
        (node.map_or(String::new(), |node| serde_json::to_string(&node).unwrap()), faults)
    }

    #[test]
    fn what_is_whole_reads_as_another_reader_reads_it() {
        for text in [
            r#"{"a": 1, "b": [1, 2.5, -3e2], "c": {"d": "e\n\"\\\u00e9\ud83d\ude00"}, "f": null, "g": [], "h": {}}"#,
            "[\n]",
            "\"text\"",
            " 7 ",
        ] {
            let (read, faults) = faults(text);
            assert_eq!(faults, [], "{text}");
            let other: serde_json::Value = serde_json::from_str(text).unwrap();
            let ours: serde_json::Value = serde_json::from_str(&read).unwrap();
            // Whole numbers are floats here.
            assert_eq!(format!("{ours:?}").replace(".0", ""), format!("{other:?}").replace(".0", ""), "{text}");
        }
    }

    #[test]
    fn what_is_broken_is_named_with_its_line_and_the_rest_is_read() {
        for (text, left, line, words) in [
            ("{\"a\": 1,\n \"b\": x,\n \"c\": 3}", r#"{"a":1.0,"c":3.0}"#, 2, "\"x\" is no value"),
            ("{\"a\": 1\n \"b\": 2}", r#"{"a":1.0,"b":2.0}"#, 2, "comma is missing"),
            ("{\"a\": 1,\n\"b\": [1, 2", r#"{"a":1.0,"b":[1.0,2.0]}"#, 2, "the text ends before \"]\""),
            ("{\"a\": \"open\n, \"b\": 2}", r#"{"b":2.0}"#, 1, "no end on its line"),
            ("{\"a\": 1..2, \"b\": 2}", r#"{"b":2.0}"#, 1, "is no number"),
            ("{\"a\" 1, \"b\": 2}", r#"{"b":2.0}"#, 1, "colon is missing"),
            ("{a: 1, \"b\": 2}", r#"{"b":2.0}"#, 1, "a name is expected"),
            ("[1, 2}", "[1.0,2.0]", 1, "\"]\" is missing"),
            ("[1] [2]", "[1.0]", 1, "more after the end"),
            ("{\"a\": {\"b\": [1, {\"c\": ?}], \"d\": 4}", r#"{"a":{"b":[1.0,{}],"d":4.0}}"#, 1, "a value is expected"),
            ("", "", 1, "ends where a value is expected"),
        ] {
            let (read, faults) = faults(text);
            assert_eq!(read, left, "{text}");
            let first = faults.first().unwrap();
            assert!(first.0 == line && first.1.contains(words), "{text}: {faults:?}");
        }
    }

    #[test]
    fn depth_has_an_end() {
        let (_, faults) = read(&"[".repeat(100_000));
        assert!(faults.iter().any(|(_, what)| what.contains("too deep")), "{faults:?}");
    }

    #[test]
    fn numbers_of_up_to_fifteen_figures_come_back_the_same() {
        for value in [0.0, 1.0, -0.5, 0.1, 123.456, 0.009, 1e6, 41_000.0, 0.593_411_945_678_072, 1e-7, 86_400.0] {
            assert_eq!(number(&digits(value)), Some(value), "{}", digits(value));
        }
        assert_eq!(digits(58.0), "58");
        assert_eq!(digits(100.0), "100");
    }
}
