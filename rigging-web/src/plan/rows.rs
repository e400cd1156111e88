//! The rows of a plan: their texts and fields as entries.

use crate::entry::{Boxes, entry, message_id};
use maud::{Markup, html};
use rigging_core::plan::Record;
use rigging_core::question::{Asked, BadInput, Entry};

/// A text of a row as it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Words {
    /// Its name in ids.
    pub name: &'static str,
    /// Its name on the page.
    pub label: &'static str,
    /// What belongs there.
    pub note: &'static str,
    /// The most letters it may have.
    pub most: usize,
    /// What stands there.
    pub words: String,
}

/// A row, whichever it is.
pub trait Row {
    /// Its fields as they stand.
    fn asked(&self) -> Vec<Asked>;
    /// Its texts as they stand.
    fn words(&self) -> Vec<Words>;
    /// Gives a field a value.
    ///
    /// # Errors
    /// As [`Record::set`].
    fn set(&mut self, name: &str, entry: &Entry) -> Result<(), BadInput>;
    /// Gives a text its words.
    ///
    /// # Errors
    /// As [`Record::say`].
    fn say(&mut self, name: &str, words: &str) -> Result<(), BadInput>;
}

impl<R: Record> Row for R {
    fn asked(&self) -> Vec<Asked> {
        Record::asked(self)
    }

    fn words(&self) -> Vec<Words> {
        let texts = R::texts().into_iter();
        texts
            .map(|text| Words {
                name: text.name,
                label: text.label,
                note: text.note,
                most: text.most,
                words: (text.get)(self).clone(),
            })
            .collect()
    }

    fn set(&mut self, name: &str, entry: &Entry) -> Result<(), BadInput> {
        Record::set(self, name, entry)
    }

    fn say(&mut self, name: &str, words: &str) -> Result<(), BadInput> {
        Record::say(self, name, words)
    }
}

/// From so many letters on, a text has room for several lines.
const LINE: usize = 200;

/// All entries of a row, but those that stand elsewhere.
pub fn entries(row: &dyn Row, boxes: &Boxes, but: &[&str]) -> Markup {
    html! {
        @for text in row.words() { (words(&text, boxes)) }
        @for field in row.asked().iter().filter(|field| !but.contains(&field.about.name)) { (entry(field, boxes, |_| html! {})) }
    }
}

fn words(text: &Words, boxes: &Boxes) -> Markup {
    let id = boxes.id(text.name);
    let note = format!("{id}-note");
    let message = message_id(&id);
    let described = format!("{note} {message}");
    let wrong = boxes.wrong.get(&id);
    let shown = boxes.typed.get(&id).unwrap_or(&text.words);
    let invalid = wrong.map(|_| "true");
    html! {
        div.entry {
            label for=(id) { (text.label) }
            @if text.most > LINE {
                textarea id=(id) rows="3" maxlength=(text.most) aria-describedby=(described) aria-invalid=[invalid] { (shown) }
            } @else {
                input.words-in id=(id) type="text" autocomplete="off" maxlength=(text.most) value=(shown)
                    aria-describedby=(described) aria-invalid=[invalid];
            }
            p.note id=(note) { (text.note) "." }
            p.message id=(message) role="alert" { @if let Some(wrong) = wrong { (wrong) } }
        }
    }
}
