//! To a text that any reader reads.

use super::{Json, Node};
use crate::quantity::digits;

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
