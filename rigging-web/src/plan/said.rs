//! What a check found, in the words of the core, with its shapes.

use super::{List, PlanView, name_of, row_of};
use crate::page::Whose;
use maud::{Markup, html};
use rigging_core::plan::{About, Section};

/// The lines of a section: one that begins with a space goes on with the one before, one that begins with neither
/// heads those that follow.
pub fn lines(section: &Section) -> Markup {
    html! {
        @for line in &section.lines {
            @match line.strip_prefix("- ") {
                Some(line) => p.said { (line) },
                None if line.starts_with(' ') => p.said-on { (line.trim()) },
                None => p.heads { (line) },
            }
        }
    }
}

/// What is known of a drop, apart from what would change how it stands.
pub fn facts(section: &Section) -> Markup {
    html! { div.facts { (lines(section)) } }
}

/// A section with its head.
pub fn section(section: &Section) -> Markup {
    html! { h2 { (sentence_case(&section.head)) } (lines(section)) }
}

/// A head of the text, in capitals there, as a sentence.
pub fn sentence_case(head: &str) -> String {
    let (capitals, rest) = head
        .split_once(" (")
        .map_or((head, ""), |(capitals, _)| (capitals, head.get(capitals.len()..).unwrap_or_default()));
    let mut small = capitals.to_ascii_lowercase();
    if let Some(first) = small.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    small + rest
}

/// What is said first: late, open decisions, reserve rope, the drops to look at first.
pub fn head(view: &PlanView) -> Markup {
    let mine = matches!(view.whose, Whose::Mine(_));
    html! {
        div class={ "box " @if mine { "mine" } @else { "example" } } {
            (whose(view))
            (unusable(view))
            @for about in [About::Late, About::Open, About::Reserve, About::First] {
                @for part in view.about(about) { (section(part)) }
            }
        }
    }
}

/// Nothing is compared while an entry cannot be used.
pub fn unusable(view: &PlanView) -> Markup {
    html! {
        @if !view.wrong.is_empty() {
            p.message {
                "An entry cannot be used. " @for (at, wrong) in view.wrong.each() { (named(view, at).unwrap_or_default()) (wrong) " " }
                "Nothing is compared, and what follows is from the entry before it."
            }
        }
    }
}

/// The row of an entry, before what is said of it; the day and the pace are one each.
fn named(view: &PlanView, at: &str) -> Option<String> {
    let (list, key) = row_of(at.split('.').next()?)?;
    let place = view.keys_of(list).iter().position(|other| *other == key)?;
    let name = if list == List::Drops { name_of(view.plan, place) } else { (place + 1).to_string() };
    Some(["In ", list.row(), " ", &name, ": "].concat())
}

fn whose(view: &PlanView) -> Markup {
    let confirm = |first: &str, words: &str| {
        html! {
            p.tag-do {
                (first)
                " Until then nothing is compared with a limit. "
                @if view.asking == "plan-mine" {
                    strong { "Did you look at every drop, mass and rope, and are they of today?" }
                    (crate::question_screen::sure("plan-mine-sure", words))
                } @else {
                    button #plan-mine type="button" { (words) }
                }
            }
        }
    };
    let invented = view.plan.day.invented == rigging_core::question::Whether::Yes;
    html! {
        @match view.whose {
            Whose::Example => {
                p.tag { strong { @if invented { "EXAMPLE, INVENTED" } @else { "EXAMPLE, CHANGED" } } " There is no such place; some of these numbers are ours." }
                p { button #plan-new type="button" { "Begin an empty plan" } }
                (confirm("Or put your own in the place of these.", "All of these are my numbers"))
            }
            Whose::Link => {
                p.tag { strong { "FROM ELSEWHERE, NOT YOURS" } " These numbers were not entered on this screen." }
                (confirm("Go through all of them first.", "All of these are my numbers"))
            }
            Whose::Earlier(touched) => {
                p.tag { strong { "MINE, FROM " (touched) "." } " Masses, water and anchors change from day to day." }
                (confirm("Go through all of them first.", "They hold today"))
            }
            Whose::Mine(touched) => p.tag { strong { "MINE" } " Last touched " (touched) "." }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heads_are_told_as_sentences() {
        assert_eq!(sentence_case("LATE"), "Late");
        assert_eq!(sentence_case("ORDER OF THE GROUP (no Source)"), "Order of the group (no Source)");
        assert_eq!(sentence_case(""), "");
    }
}
