//! The question on paper: one sheet in black and white, inputs first, that says when it stops being valid.

use crate::both::both;
use crate::entry::shown;
use crate::home::notice;
use crate::page::Whose;
use crate::question_screen::{View, word};
use crate::result::{self, end_words, told};
use crate::standing::{gravest, load_and_limit, others, shape, standing};
use crate::way::Way;
use crate::{figure, qr, working};
use maud::{Markup, PreEscaped, html};
use rigging_core::question::{Answer, Asked, Comparison, Finding};

/// A sheet with more than so many bytes of words is set smaller, so that it stays on two pages.
const LONG: usize = 13_000;

/// The sheet of a view. `address` is where the page lies, or nothing if no network knows it; `fragment` its state;
/// `now` the local date and time.
pub fn sheet(view: &View, address: &str, fragment: &str, now: &str) -> Markup {
    let frame = if matches!(view.whose, Whose::Mine(_)) { "mine" } else { "example" };
    let told = html! {
        div class={ "box " (frame) } {
            p.tag { (whose(view)) }
            @match view.found() {
                Some(answer) => (answered(answer, view)),
                None => (result::nothing(&result::why_not(view))),
            }
        }
        @if let Some(answer) = view.found() { (beside(answer, view)) }
    };
    // Whoever holds a sheet without an answer is warned all the same.
    let more = view.found().map_or_else(notice, |answer| more(answer, view));
    let long = told.0.len() + more.0.len() > LONG;
    html! {
        h1 { (view.question.words()) }
        p.printed { strong { (tag(view.whose)) } " · Printed " (now) " · Version " (env!("CARGO_PKG_VERSION")) " · " (view.question.about()) "." }
        p.fill {
            @for what in ["Date", "Water at the mark", "Seen by"] { span { (what) ":" span.blank {} } }
            strong { "Blank means: not valid." }
        }
        (inputs(view))
        div.long[long] {
            div.front {
                figure { (picture(view)) }
                (told)
            }
            div.flow {
                (more)
                (end(view, address, fragment))
            }
        }
    }
}

/// Whose numbers these are, in a word.
fn tag(whose: &Whose) -> &'static str {
    match whose {
        Whose::Example => "EXAMPLE, not your numbers",
        Whose::Link => "FROM A LINK, not yours",
        Whose::Earlier(_) => "MINE, FROM AN EARLIER DAY, not confirmed",
        Whose::Mine(_) => "MINE",
    }
}

fn whose(view: &View) -> Markup {
    html! {
        strong { (tag(view.whose)) } ". "
        @match view.whose {
            Whose::Example if view.question.is_example() => (both(view.question.example(), view.units)),
            Whose::Example => "Changed, but some of these numbers may still be ours.",
            Whose::Link => "These numbers were not entered on the device that printed them.",
            Whose::Earlier(touched) | Whose::Mine(touched) => { "Last touched " (touched) "." }
        }
    }
}

/// What matters of the entries, in two columns.
fn inputs(view: &View) -> Markup {
    html! {
        dl {
            @for field in view.question.fields().iter().filter(|field| field.matters) {
                div { dt { (field.about.label) } dd { (value(field, view)) } }
            }
        }
    }
}

fn value(field: &Asked, view: &View) -> Markup {
    html! {
        @match view.wrong.get(field.about.name) {
            Some(wrong) => { "— " span.wrong { (wrong) } }
            None => (shown(field, view.units)),
        }
    }
}

/// The picture, with arrow heads of its own: those of a picture that is not shown are not drawn.
fn picture(view: &View) -> Markup {
    let Some(answer) = view.found() else { return html! { p.big { "—" } } };
    // As at the lip: without what a hand takes hold of.
    let drawn = figure::of_view(&answer.scene, 0, &View { way: Way::Lip, undoes: None, ..*view }).into_string();
    PreEscaped(drawn.replace("#head-", "#paper-head-").replace("id=\"head-", "id=\"paper-head-"))
}

/// The big number and how it stands.
fn answered(answer: &Answer, view: &View) -> Markup {
    let units = view.units;
    html! {
        @if let Some(first) = answer.findings.first() {
            p.big { (result::big(first, units)) }
            (result::beside(first, units))
        }
        // In class a standing is taken only against a limit that was chosen aloud.
        @if view.way != Way::Class {
            @if let (Some(comparison), [first, rest @ ..]) = (gravest_of(answer, view), answer.not_in.as_slice()) {
                (stands(comparison, view, true))
                p { "Not in it: " (first) ", and " (rest.len()) " more things listed below." }
            }
        }
    }
}

fn gravest_of<'a>(answer: &'a Answer, view: &View) -> Option<&'a Comparison> {
    gravest(&answer.comparisons, matches!(view.whose, Whose::Mine(_)))
}

/// One comparison; why none of them is made for numbers that are not the user's own is said at the `first`.
fn stands(comparison: &Comparison, view: &View, first: bool) -> Markup {
    let mine = matches!(view.whose, Whose::Mine(_));
    let (standing, class, reason) = standing(comparison, mine);
    let (load, limit) = load_and_limit(comparison, view.units);
    html! {
        div.stands {
            (shape(class))
            p {
                strong { (standing.words()) } @if !reason.is_empty() && (mine || first) { ": " (reason) } ". "
                (load) " " (comparison.what) ". Limit: " (limit) "."
            }
        }
    }
}

/// What belongs to the big number and stands beside the picture with it.
fn beside(answer: &Answer, view: &View) -> Markup {
    html! {
        @if view.way != Way::Class {
            @for comparison in others(&answer.comparisons, gravest_of(answer, view)) { (stands(comparison, view, false)) }
        }
        @let also = answer.findings.get(1..).unwrap_or_default();
        @if !also.is_empty() {
            h2 { "Also found" }
            ul { @for finding in also { li { (found(finding, view)) } } }
        }
        (in_a_row("In each state of the load", &answer.states, view))
        @for outcome in &answer.outcomes { (in_a_row(&outcome.case, &outcome.findings, view)) }
    }
}

/// All that follows, in two columns of small print.
fn more(answer: &Answer, view: &View) -> Markup {
    html! {
        @if view.way != Way::Class && !answer.usual.is_empty() {
            h2 { "Against published figures for new, dry parts" }
            @for comparison in &answer.usual { (stands(comparison, view, false)) }
        }
        @if !(answer.remarks.is_empty() && answer.stands.is_empty()) {
            h2 { "Remarks" }
            @for remark in answer.remarks.iter().chain(&answer.stands) { p { (both(remark, view.units)) } }
        }
        h2 { "Working, at the end of the ranges that gives the big number" }
        @for step in &answer.working { p.worked { (working::in_short(step, view.units)) } }
        @if !answer.formulas.is_empty() { p { "The formulas of the other numbers, with their sources, are on the page itself." } }
        h2 { "What is not in these numbers" }
        ul { @for missing in &answer.not_in { li { (missing) } } }
        h2 { "Cautions" }
        p {
            "DANGER: will end in death or grave injury if it is not avoided. WARNING: could end in death or grave injury. "
            "CAUTION: could end in slight or moderate injury."
        }
        @for caution in &answer.cautions {
            @let (class, word) = word(caution.gravity);
            p class={ "hazard " (class) } {
                strong { (word) ": " (caution.hazard) ". " } (caution.consequence) " " em { (caution.avoidance) }
            }
        }
    }
}

fn found(finding: &Finding, view: &View) -> Markup {
    html! {
        strong { (end_words(finding, view.units)) } " " (both(&told(finding), view.units))
        @if !finding.band.is_exact() { " (other end " (view.units.friendly(finding)) ")" }
    }
}

/// Findings of one case in one paragraph.
fn in_a_row(case: &str, findings: &[Finding], view: &View) -> Markup {
    html! {
        @if !findings.is_empty() {
            p.case {
                strong { (both(case, view.units)) ": " }
                @for (place, finding) in findings.iter().enumerate() { @if place > 0 { "; " } (found(finding, view)) }
                "."
            }
        }
    }
}

/// Room for what is written by hand, and the way back to these numbers on a screen. While an entry is unusable the
/// state holds the number before it, which is not on the sheet: then there is none.
fn end(view: &View, address: &str, fragment: &str) -> Markup {
    let link = [address, "#", fragment].concat();
    let code = if view.answer.is_some() { qr::code(&link) } else { None };
    html! {
        div.end {
            // On a second sheet too.
            p.printed { strong { (tag(view.whose)) } }
            div.notes { (code.unwrap_or_default()) "Notes" @for _ in 0..4 { div.line {} } }
            p {
                @if view.answer.is_none() { "No code and no link: an entry cannot be used." }
                @else {
                    @if address.is_empty() { "The code is the end of a link: put it after the address or the file name of the page. " }
                    @else { "The code, for these numbers on a screen: " }
                    span.address { (link) }
                }
            }
        }
    }
}
