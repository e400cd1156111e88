//! One drop on a screen of its own: how it stands, its questions, its entries.

use super::paper::tag;
use super::rows::entries;
use super::{List, PlanView, name_of, said, screen};
use crate::question_screen::unit_choices;
use crate::result;
use crate::standing;
use crate::way;
use maud::{Markup, html};
use rigging_core::plan::{About, AskedToday, Row};
use rigging_core::question::{Answer, Question};

/// The whole screen of the drop at a place.
pub fn page(view: &PlanView, place: usize) -> Markup {
    let (Some(drop), Some(key)) = (view.plan.drops.get(place), view.keys_of(List::Drops).get(place)) else {
        return html! {};
    };
    let id = format!("drop-{key}");
    html! {
        header.top {
            a.home href="#plan" { "The whole plan" }
            (way::buttons(view.way))
            (unit_choices(view.units))
        }
        main.plan {
            h1 { "Drop " (name_of(view.plan, place)) }
            div #plan-offer tabindex="-1" { (screen::refused(view.turned_away)) }
            section #plan-drop aria-label="How it stands" tabindex="-1" { (found(view, place)) }
            div #undo-place { (screen::undo(view)) }
            section #entries aria-label="This drop" {
                (entries(drop as &dyn Row, &view.boxes(&format!("{id}.")), &[]))
                (screen::buttons(view, &id))
            }
        }
        footer {
            p.do {
                @if place > 0 { a.go href={ "#plan/" (place) } { "Drop " (name_of(view.plan, place - 1)) } }
                @if place + 1 < view.plan.drops.len() { a.go href={ "#plan/" (place + 2) } { "Drop " (name_of(view.plan, place + 1)) } }
                a.go href="#plan" { "The whole plan" }
                button id="add:drop" type="button" { "Add a drop" }
            }
        }
    }
}

/// How the drop stands, and what its questions say.
pub(super) fn found(view: &PlanView, place: usize) -> Markup {
    let Some(found) = view.checked.drops.get(place) else { return html! {} };
    let mine = matches!(view.whose, crate::page::Whose::Mine(_));
    html! {
        div class={ "box " @if mine { "mine" } @else { "example" } } {
            (said::unusable(view))
            @if !mine { p.tag { strong { (tag(view)) } } }
            p { (standing::alone(found.standing)) @if !mine { " Not confirmed as yours." } }
            @for reason in &found.reasons {
                p.said { (reason.why.words()) ": " (reason.what) }
                @if !reason.change.is_empty() { p.said-on { "what would change it: " (reason.change) } }
            }
            @for part in view.about(About::Drop(place)) { (said::facts(part)) }
        }
        h2 { "Its questions" }
        @for (number, (asked, answered)) in found.asked.iter().zip(&found.answers).enumerate() {
            (question(asked, answered.as_ref().as_ref().ok(), (view, mine, place, number)))
        }
        details #ask-part {
            summary { "Ask something of this drop" }
            ul.asks { @for question in Question::all() { li { a href={ "#plan/" (place + 1) "/" (question.key()) } { (question.words()) } } } }
        }
    }
}

fn question(asked: &AskedToday, answer: Option<&Answer>, at: (&PlanView, bool, usize, usize)) -> Markup {
    let (view, mine, place, number) = at;
    let units = view.units;
    let key = view.keys_of(List::Drops).get(place).copied().unwrap_or_default();
    html! {
        @let checked = mine && asked.missing.is_empty();
        div.held {
            h3 { (asked.question.words()) }
            @match answer.and_then(|answer| answer.findings.first().map(|first| (answer, first))) {
                Some((answer, first)) => {
                    @if !mine { p.tag { strong { (tag(view)) } } }
                    @else if !checked { p.tag { strong { "EXAMPLE, in part" } } }
                    p.big { (result::end_word(first)) " " strong { (units.adverse(first)) } }
                    p.what { (result::told(first)) ". Other end: " (units.friendly(first)) "." }
                    @if let Some(comparison) = standing::gravest(&answer.comparisons, checked) {
                        (standing::compared(comparison, checked, &answer.not_in, units))
                    }
                }
                None => p.big { "—" },
            }
            p.do {
                a.go href={ "#plan/" (place + 1) "/" (number + 1) } { "Open it" }
                button id={ "unput:drop-" (key) "." (number) } type="button" { "Take it out" }
            }
        }
    }
}
