//! JSON that may be damaged: what can be read is read, and what cannot is named with its line.
//!
//! Written here because a reader that stops at the first fault cannot open a damaged file, and one that
//! knows no lines cannot say where the fault is.

mod read;
mod shared;
mod write;

pub use read::read;

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

#[cfg(test)]
mod tests {
    use super::read::Fault;
    use super::*;
    use crate::quantity::{digits, number};

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
            ("{\"a\": 0., \"b\": 2}", r#"{"b":2.0}"#, 1, "is no number"),
            ("{\"a\": 1.e5, \"b\": 2}", r#"{"b":2.0}"#, 1, "is no number"),
            ("{\"a\": -0100, \"b\": 2}", r#"{"b":2.0}"#, 1, "is no number"),
            ("{\"a\" 1, \"b\": 2}", r#"{"b":2.0}"#, 1, "colon is missing"),
            (r#"{"a": "b\ c"}"#, "{\"a\":\"b\u{fffd}c\"}", 1, "backslash"),
            (r#"{"a": "\u00", "b": 2}"#, "{\"a\":\"\u{fffd}\",\"b\":2.0}", 1, "backslash"),
            (r#"["\udc00", "\ud83d", "\ud83d\u0041"]"#, "[\"\u{fffd}\",\"\u{fffd}\",\"\u{fffd}\"]", 1, "backslash"),
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
    fn what_is_no_value_is_told_by_the_name_of_its_member() {
        for value in ["1e400", "8O", "NaN", "x"] {
            let (_, faults) = faults(&format!("{{\"day\": {{\"a\": 1, \"set_back_m\": {value}}}}}"));
            assert!(faults.len() == 1 && faults[0].1.starts_with("\"set_back_m\": "), "{faults:?}");
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
