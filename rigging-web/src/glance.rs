//! The answer at the lip: what a cold hand has to know, small enough to stay in sight while entries change.

use crate::page::{Asking, Whose};
use crate::question_screen::{View, sure};
use crate::result::{as_hanging, end_word, nothing, why_not};
use crate::standing::{gravest, shape, standing, up_to};
use maud::{Markup, html};

/// The answer in a few lines.
pub fn answer(view: &View) -> Markup {
    let mine = matches!(view.whose, Whose::Mine(_));
    html! {
        div class={ "box glance " @if mine { "mine" } @else { "example" } } {
            p.tag { strong { (tag(view)) } }
            @match view.found() {
                Some(answer) => {
                    @if let Some(first) = answer.findings.first() {
                        p.big #headline { (end_word(first)) " " strong { (view.units.adverse(first)) } }
                        p.what {
                            (first.what) ". " (as_hanging(first)) "Other end: " (view.units.friendly(first)) "."
                        }
                    }
                    @if let Some(comparison) = gravest(&answer.comparisons, mine) {
                        @let (standing, class, reason) = standing(comparison, mine);
                        @let [load, limit] = view.units.compared(comparison);
                        p class={ "stands " (class) } {
                            (shape(class))
                            span {
                                strong { (standing.words()) } @if !reason.is_empty() { " (" (reason) ")" }
                                @if mine { ": up to " (up_to(&load)) " " (comparison.what) ". Limit: " (limit) }
                            }
                        }
                    }
                }
                None => (nothing(&why_not(view))),
            }
        }
    }
}

/// Whose numbers these are, in capitals.
pub fn tag(view: &View) -> String {
    match view.whose {
        Whose::Example if view.question.is_example() => "EXAMPLE, not your rig".to_owned(),
        Whose::Example => "EXAMPLE, CHANGED: some numbers are still ours".to_owned(),
        Whose::Link => "FROM A LINK, NOT YOURS".to_owned(),
        Whose::Earlier(touched) => format!("MINE, FROM {touched}: do they hold today?"),
        Whose::Mine(touched) => format!("MINE, last touched {touched}"),
    }
}

/// The way to make the numbers one's own: below all of them, and in two touches that are apart.
pub fn confirm(view: &View) -> Markup {
    let words = match view.whose {
        Whose::Mine(_) => return html! {},
        Whose::Earlier(_) => "They hold today",
        Whose::Example | Whose::Link => "All of these are my numbers",
    };
    html! {
        @if view.asking == Asking::Mine {
            p { strong { "Did you look at every number above, and are they of today?" } }
            (sure("mine-sure", words))
        } @else {
            p { "Until you have gone through all of them, nothing is compared with a limit." }
            button #mine type="button" { (words) }
        }
    }
}
