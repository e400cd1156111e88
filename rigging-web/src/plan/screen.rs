//! The whole plan on one screen.

use super::rows::entries;
use super::{List, PlanView, name_of, said};
use crate::entry::{entry, shown};
use crate::home::notice;
use crate::page::Whose;
use crate::question_screen::{sure, unit_choices};
use crate::standing;
use crate::way;
use maud::{Markup, html};
use rigging_core::plan::{About, Row};
use rigging_core::question::Asked;

/// The whole screen.
pub fn page(view: &PlanView) -> Markup {
    html! {
        header.top {
            a.home href="#" { "All questions" }
            (way::buttons(view.way))
            (unit_choices(view.units))
        }
        main.plan {
            h1 { "The rigging plan" }
            p.about { "A whole descent: its drops, group, ropes, time and light. A unit typed with a number is understood." }
            div #plan-offer tabindex="-1" { (offer(view)) }
            section #plan-head aria-label="Said first" tabindex="-1" { (said::head(view)) }
            div #undo-place { (undo(view)) }
            section #entries aria-label="Your plan" {
                (water(view))
                (folded("day", "Day, water and light", &day(view), entries(&view.plan.day, &view.boxes("day."), &["water", "invented"])))
                (folded("pace", "Pace", "minutes for each thing that is done", html! {
                    p.note { "None of it was measured: each is assumed, and yours to change." }
                    (entries(&view.plan.pace, &view.boxes("pace."), &[]))
                }))
                (folded("group", "Group", &count(view.plan.group.len(), "person", "people"), list(view, List::Group)))
                (folded("ropes", "Ropes", &count(view.plan.ropes.len(), "rope", "ropes"), list(view, List::Ropes)))
                h2 { "Drops" }
                div #plan-drops { (drops(view)) }
                (add(List::Drops, "Add a drop"))
            }
            section #plan-rest aria-label="Time, order, what to bring" { (rest(view)) }
            section #plan-keep aria-label="Keep and send" { (keep(view)) }
            (notice())
        }
        footer {
            p { a href="#" { "All questions" } }
            p { "Version " (env!("CARGO_PKG_VERSION")) ". A load is worked out here, never a permission. It does not replace qualified instruction, local rules, or looking at the anchor." }
        }
    }
}

/// The parts that follow from what is entered, by the id of their place.
pub fn parts(view: &PlanView, at: Option<usize>) -> Vec<(String, Markup)> {
    if let Some(place) = at {
        return vec![
            ("plan-offer".to_owned(), refused(view.turned_away)),
            ("plan-drop".to_owned(), super::drop::found(view, place)),
            ("undo-place".to_owned(), undo(view)),
        ];
    }
    let mut parts = vec![
        ("plan-offer".to_owned(), offer(view)),
        ("plan-head".to_owned(), said::head(view)),
        ("undo-place".to_owned(), undo(view)),
        ("plan-drops".to_owned(), drops(view)),
        ("plan-rest".to_owned(), rest(view)),
        ("plan-sent".to_owned(), html! {}),
        ("day-sum".to_owned(), html! { (day(view)) }),
    ];
    for list in [List::Group, List::Ropes] {
        for (key, row) in view.keys_of(list).iter().zip(rows_of(view, list)) {
            parts.push((format!("{}-{key}-sum", list.row()), html! { (summary(view, row)) }));
        }
    }
    parts
}

fn count(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

fn day(view: &PlanView) -> String {
    let day = &view.plan.day;
    let parts = [&day.name, &day.date].map(String::as_str).into_iter().filter(|part| !part.is_empty());
    let said = parts.collect::<Vec<_>>().join(", ");
    if said.is_empty() { "no name, no date".to_owned() } else { said }
}

/// The one change that moves through the whole plan is in sight.
fn water(view: &PlanView) -> Markup {
    let asked = Row::asked(&view.plan.day);
    html! {
        @for field in asked.iter().filter(|field| field.about.name == "water") { (entry(field, &view.boxes("day."), &|_| html! {})) }
    }
}

fn folded(id: &str, title: &str, sum: &str, body: Markup) -> Markup {
    html! {
        details.part id={ (id) "-part" } {
            summary { strong { (title) } span id={ (id) "-sum" } { (sum) } }
            (body)
        }
    }
}

fn rows_of<'a>(view: &PlanView<'a>, list: List) -> Vec<&'a dyn Row> {
    fn rows<R: Row>(rows: &[R]) -> Vec<&dyn Row> {
        rows.iter().map(|row| row as &dyn Row).collect()
    }
    match list {
        List::Group => rows(&view.plan.group),
        List::Ropes => rows(&view.plan.ropes),
        List::Drops => rows(&view.plan.drops),
    }
}

/// A row in a few words: its name and what was entered first.
fn summary(view: &PlanView, row: &dyn Row) -> String {
    let name = row.words().into_iter().next().map(|text| text.words).filter(|name| !name.is_empty());
    let shown = |field: &Asked| shown(field, view.units);
    let first = row.asked().iter().take(3).map(shown).collect::<Vec<_>>().join(", ");
    format!("{}: {first}", name.as_deref().unwrap_or("no name"))
}

fn list(view: &PlanView, list: List) -> Markup {
    html! {
        @for (place, (key, row)) in view.keys_of(list).iter().zip(rows_of(view, list)).enumerate() {
            @let id = format!("{}-{key}", list.row());
            @let prefix = format!("{id}.");
            details.row id={ (id) "-row" } {
                summary { (place + 1) ". " span id={ (id) "-sum" } { (summary(view, row)) } }
                (entries(row, &view.boxes(&prefix), &[]))
                (buttons(view, &id))
            }
        }
        (add(list, if list == List::Group { "Add a person" } else { "Add a rope" }))
    }
}

fn add(list: List, words: &str) -> Markup {
    html! { p.do { button id={ "add:" (list.row()) } type="button" { (words) } } }
}

/// What can be done with a row.
pub(super) fn buttons(view: &PlanView, id: &str) -> Markup {
    let remove = format!("remove:{id}");
    html! {
        @if view.asking == remove {
            p { strong { "Remove it? Undo brings it back." } }
            (sure(&format!("remove-sure:{id}"), "Yes, remove"))
        } @else {
            p.do {
                @for (what, words) in [("up", "Up"), ("down", "Down"), ("copy", "Copy"), ("remove", "Remove")] {
                    button id={ (what) ":" (id) } type="button" { (words) }
                }
            }
        }
    }
}

fn drops(view: &PlanView) -> Markup {
    html! {
        @for (place, key) in view.keys_of(List::Drops).iter().enumerate() {
            @if let (Some(drop), Some(found)) = (view.plan.drops.get(place), view.checked.drops.get(place)) {
                @let height = Row::asked(drop).first().map(|field| shown(field, view.units)).unwrap_or_default();
                details.row id={ "drop-" (key) "-row" } {
                    summary { span.name { (name_of(view.plan, place)) ", " (height) } (standing::alone(found.standing)) }
                    @for part in view.about(About::Drop(place)) { (said::facts(part)) }
                    p { a.go href={ "#plan/" (place + 1) } { "Change drop " (place + 1) " and its questions" } }
                    (buttons(view, &format!("drop-{key}")))
                }
            }
        }
        @if view.plan.drops.is_empty() { p { "None yet." } }
    }
}

pub(super) fn undo(view: &PlanView) -> Markup {
    html! { @if let Some(undoes) = view.undoes { button #undo type="button" { "Undo: " (undoes) } } }
}

fn rest(view: &PlanView) -> Markup {
    html! {
        @for about in [About::Light, About::Order, About::Bring] {
            @for part in view.about(about) { (said::section(part)) }
        }
    }
}

/// A plan that is offered in the place of this one, and what of a file was not taken.
fn offer(view: &PlanView) -> Markup {
    html! {
        @if let Some(offer) = view.offer {
            div.standing {
                div {
                    p { strong { (offer.from) } ". " (count(offer.plan.drops.len(), "drop", "drops")) ", " (count(offer.plan.group.len(), "person", "people")) "." }
                    (refused(&offer.plan.unread))
                    p { "What is on the screen stays until you say so. Save it first if you want both." }
                    p.sure {
                        button #plan-leave type="button" { "Keep what is here" }
                        button #plan-take type="button" { "Put it in the place of this" }
                    }
                }
            }
        }
        (refused(&view.plan.unread))
        @if !view.plan.unread.is_empty() {
            p.do { button #plan-entered type="button" { "I have entered what was not taken" } }
        }
        (refused(view.turned_away))
    }
}

/// What was not taken, and why.
pub(super) fn refused(lines: &[String]) -> Markup {
    html! {
        @if !lines.is_empty() {
            p.message role="alert" { "Not taken:" }
            ul.refused { @for line in lines { li { (line) } } }
        }
    }
}

fn keep(view: &PlanView) -> Markup {
    html! {
        h2 { "Keep and send" }
        p.do {
            button #plan-save type="button" { "Save to a file" }
            label.file for="plan-file" { "Open a file: " input #plan-file type="file" accept=".json,application/json"; }
            button #print type="button" { "Print" }
            button #plan-send type="button" { "As text and as a link" }
            @if !matches!(view.whose, Whose::Example) {
                button #plan-new type="button" { "Begin an empty plan" }
                button #plan-example type="button" { "Look at the example" }
            }
        }
        div #plan-sent {}
    }
}
