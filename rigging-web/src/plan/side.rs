//! A question beside the plan: put into it, or on its way back into the drop that it came from.

use crate::way::Way;
use maud::{Markup, html};

/// Where the sheet of a question stands beside the plan.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Side {
    /// The drops of the plan, as they are called.
    pub drops: Vec<String>,
    /// The drop chosen to put it in, past the last for a new one; none while nobody chose.
    pub chosen: Option<usize>,
    /// The drop and the question among its questions that it came from: the number of the drop's row, and the place.
    pub of: Option<(u32, usize)>,
    /// Where that drop stands in the plan; none while another question, or none, stands where it came from.
    pub at: Option<usize>,
    /// What of it stood there; empty while it is what stands there.
    pub was: String,
    /// What the plan says itself of that question, by its labels.
    pub given: Vec<&'static str>,
    /// Whether it was opened from a drop.
    pub of_drop: bool,
    /// What became of the last try.
    pub said: String,
}

/// The drop that a sheet came from, and the way back to it.
pub fn origin(side: &Side) -> Markup {
    html! {
        @if let Some(at) = side.at {
            p {
                "It stands in drop " (side.drops.get(at).map(String::as_str).unwrap_or_default()) ", with the water of today. What you change here goes there when you leave"
                @if side.given.is_empty() { "." } @else { ", but not what the plan says itself, to be changed there: " strong { (side.given.join("; ")) } "." }
            }
            p.do {
                a.go href={ "#plan/" (at + 1) } { "Back to the drop" }
            }
        } @else if side.of.is_none() && side.of_drop {
            p.do {
                strong { "Not yet in " @match side.drops.get(side.chosen.unwrap_or(0)) { Some(name) => { "drop " (name) } None => "the plan" } "." }
                button type="button" data-opens="plan-fold" { "Put this in the rigging plan" }
            }
        } @else if side.of.is_some() {
            p { strong { "In the plan with other numbers, or no longer: what you change here does not go there." } }
        }
    }
}

/// What stands on the screen of a question.
pub fn side(side: &Side, way: Way) -> Markup {
    let chosen = side.chosen.unwrap_or(0);
    html! {
        @if way != Way::Class {
            details #plan-fold open[side.chosen.is_some()] {
                summary { "Put this in the rigging plan" }
                // Also here: what has just been put in is told where that was done.
                @if side.at.is_some() { (origin(side)) }
                p.do {
                    select #into-drop aria-label="Put it in" {
                        @for (place, name) in side.drops.iter().enumerate() {
                            option value=(place) selected[place == chosen] { "drop " (name) }
                        }
                        option value=(side.drops.len()) selected[chosen >= side.drops.len()] { "a new drop" }
                    }
                    button #into-plan type="button" { "Put this in the plan" }
                }
                p.note { "Numbers count there only once you said here that they are yours." }
            }
            p role="alert" { strong { (side.said) } }
        }
    }
}
