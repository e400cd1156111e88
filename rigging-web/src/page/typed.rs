//! What stands in the boxes of a field, read: the entry it is, or what is wrong with it.

use super::sheet::place;
use crate::entry::{Boxes, must_be};
use crate::number::Unread;
use crate::written::written;
use rigging_core::band::Band;
use rigging_core::question::{Asked, Entry, Takes, check, settled};

/// The name in an id that begins with `prefix`, and which end of a range it is.
pub(super) fn place_in<'a>(id: &'a str, prefix: &str) -> (&'a str, Option<&'a str>) {
    place(id.strip_prefix(prefix).unwrap_or(id))
}

/// The entry of a field from what stands in its boxes.
///
/// # Errors
/// What is wrong with it, and what it must be.
pub(super) fn entry(field: &Asked, boxes: &Boxes) -> Result<Entry, String> {
    let about = &field.about;
    let entry = match about.takes {
        Takes::Choice(choices) => {
            let typed = boxes.typed.get(&boxes.id(about.name)).map(String::as_str).unwrap_or_default();
            let choice = choices.iter().find(|choice| choice.name == typed);
            choice.map(|choice| Entry::Choice(choice.name)).ok_or_else(|| "Choose one of the list.".to_owned())?
        }
        Takes::One { .. } => Entry::One(number(field, boxes, None)?),
        Takes::Range { .. } => {
            let (low, high) = (number(field, boxes, Some("low"))?, number(field, boxes, Some("high"))?);
            for end in [low, high] {
                check(about, &settled(about, &Entry::One(end)))
                    .map_err(|_| rule(field, boxes, &in_boxes(field, boxes)))?;
            }
            if low > high {
                let [low, high] = [low, high].map(|end| written(about, boxes.units).text(end));
                return Err(format!(
                    "{}: the first number must not be above the second: {low} to {high}.",
                    about.label
                ));
            }
            Entry::Range(Band::of(low, (low + high) / 2.0, high))
        }
    };
    let entry = settled(about, &entry);
    check(about, &entry).map_err(|_| rule(field, boxes, &in_boxes(field, boxes)))?;
    Ok(entry)
}

fn in_boxes(field: &Asked, boxes: &Boxes) -> String {
    let name = boxes.id(field.about.name);
    let ids = [name.clone(), format!("{name}-low"), format!("{name}-high")];
    ids.into_iter().filter_map(|id| boxes.typed.get(&id).cloned()).collect::<Vec<_>>().join(" to ")
}

fn number(field: &Asked, boxes: &Boxes, end: Option<&str>) -> Result<f64, String> {
    let about = &field.about;
    let name = boxes.id(about.name);
    let id = end.map_or_else(|| name.clone(), |end| format!("{name}-{end}"));
    let Some(text) = boxes.typed.get(&id) else {
        return Ok(match (field.entry, end) {
            (Entry::One(si), _) => si,
            (Entry::Range(band), Some("low")) => band.low(),
            (Entry::Range(band), _) => band.high(),
            (Entry::Choice(_), _) => f64::NAN,
        });
    };
    match written(about, boxes.units).read(text, about.kind) {
        Ok((si, _)) => Ok(si),
        Err(Unread::TwoReadings(point, whole)) => {
            Err(format!("{}: “{}” can be read in two ways. Write {point} or {whole}.", about.label, text.trim()))
        }
        Err(Unread::WrongUnit(unit)) => {
            let (text, must) = (text.trim(), must_be(about, boxes.units));
            Err(format!("{}: “{text}” cannot be used: “{unit}” does not measure this. {must}", about.label))
        }
        Err(_) => Err(rule(field, boxes, text)),
    }
}

fn rule(field: &Asked, boxes: &Boxes, text: &str) -> String {
    let about = &field.about;
    let must = must_be(about, boxes.units);
    if text.trim().is_empty() {
        format!("{}: nothing is entered. {must}", about.label)
    } else {
        format!("{}: “{}” cannot be used. {must}", about.label, text.trim())
    }
}
