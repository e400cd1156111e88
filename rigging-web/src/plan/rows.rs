//! The rows of a plan: their texts and fields as entries.

use crate::entry::{Boxes, entry, message_id};
use maud::{Markup, html};
use rigging_core::plan::{Row, Words};

/// From so many letters on, a text has room for several lines.
const LINE: usize = 200;

/// All entries of a row, but those that stand elsewhere.
pub fn entries(row: &dyn Row, boxes: &Boxes, but: &[&str]) -> Markup {
    html! {
        @for text in row.words() { (words(&text, boxes)) }
        @for field in row.asked().iter().filter(|field| !but.contains(&field.about.name)) { (entry(field, boxes, &|_| html! {})) }
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
