//! From a text, as far as it can be read.

use super::{Json, Node};
use crate::quantity::number;

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
        // JSON asks for a digit on both sides of a point, and for none after a leading zero: else it was cut or joined.
        let digits = word.strip_prefix('-').unwrap_or(word);
        let joined = digits.strip_prefix('0').is_some_and(|more| more.starts_with(|next: char| next.is_ascii_digit()));
        let torn = joined || digits.split(['.', 'e', 'E']).any(str::is_empty);
        let value = number(word).filter(|value| value.is_finite() && !torn);
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

    /// What stands after a backslash; a sign that stands for none is a fault, and the text goes on.
    fn escaped(&mut self) -> char {
        let read = match self.peek() {
            // The text has no end: said where it is looked for.
            None | Some('\n') => return char::REPLACEMENT_CHARACTER,
            Some('u') => self.unit().and_then(|unit| self.paired(unit)),
            Some(other) => {
                self.step();
                match other {
                    'n' => Some('\n'),
                    't' => Some('\t'),
                    'r' => Some('\r'),
                    'b' => Some('\u{8}'),
                    'f' => Some('\u{c}'),
                    '"' | '\\' | '/' => Some(other),
                    _ => None,
                }
            }
        };
        read.unwrap_or_else(|| {
            self.fault("a backslash stands where none belongs: something may be missing in this text");
            char::REPLACEMENT_CHARACTER
        })
    }

    /// The sign of a unit, with the other half that follows the first half of a pair.
    fn paired(&mut self, first: u32) -> Option<char> {
        if !(0xd800..0xdc00).contains(&first) {
            return char::from_u32(first);
        }
        self.rest = self.rest.strip_prefix('\\').filter(|rest| rest.starts_with('u'))?;
        let second = self.unit().filter(|second| (0xdc00..0xe000).contains(second))?;
        char::from_u32(0x10000 + ((first - 0xd800) << 10) + (second - 0xdc00))
    }

    /// The four digits after `u`.
    fn unit(&mut self) -> Option<u32> {
        self.step();
        let mut code = 0;
        for _ in 0..4 {
            code = 16 * code + self.peek().and_then(|next| next.to_digit(16))?;
            self.step();
        }
        Some(code)
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
        let told = self.faults.len();
        let value = self.value(depth + 1);
        // What is no value is told by its name.
        if let (None, Some((_, what))) = (&value, self.faults.get_mut(told)) {
            *what = ["\"", &name, "\": ", what].concat();
        }
        Some((name, value?))
    }
}
