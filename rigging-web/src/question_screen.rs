//! The screen of one question: answer, picture, entries, working, cautions.

use crate::class::{Board, Wanted};
use crate::entry::Boxes;
use crate::figure::Stage;
use crate::page::{Asking, Typed, Whose, Wrong};
use crate::units::{FORCES, LENGTHS};
use crate::way::{self, Way};
use crate::{entry, figure, glance, plan, result, working};
use maud::{Markup, html};
use rigging_core::quantity::{Unit, Units};
use rigging_core::question::scene::Scene;
use rigging_core::question::{Answer, BadInput, Gravity, Question};

/// What a screen is made from.
#[derive(Debug, Clone)]
pub struct View<'a> {
    /// The question with its values.
    pub question: &'a Question,
    /// The units chosen.
    pub units: Units,
    /// Where the page is used.
    pub way: Way,
    /// The letters of the question that its forces were taken from.
    pub from: Option<&'static str>,
    /// Whose numbers these are.
    pub whose: &'a Whose,
    /// What stands in the boxes as typed, by their ids.
    pub typed: &'a Typed,
    /// What is wrong, by the name of the field.
    pub wrong: &'a Wrong,
    /// What undoing would bring back, in words; nothing if nothing was changed.
    pub undoes: Option<String>,
    /// Where it stands beside the plan.
    pub side: &'a plan::Side,
    /// What was asked for once and wants to be asked for again.
    pub asking: Asking,
    /// How the pictures stand while a hand drags; nothing otherwise.
    pub stages: &'a [Stage],
    /// The answer; nothing while an entry is unusable.
    pub answer: Option<&'a Result<Answer, BadInput>>,
    /// What stands on the board, in class.
    pub board: Option<&'a Board>,
    /// What the class is to guess; its numbers are not in the answer then.
    pub wanted: Option<&'a Wanted>,
    /// The picture before the last change, in class.
    pub ghost: Option<&'a Scene>,
}

impl<'a> View<'a> {
    /// Its entries.
    pub fn boxes(&self) -> Boxes<'a> {
        Boxes { prefix: "", units: self.units, way: self.way, typed: self.typed, wrong: self.wrong }
    }

    /// The answer, if there is one.
    pub fn found(&self) -> Option<&'a Answer> {
        self.answer.and_then(|answer| answer.as_ref().ok())
    }
}

/// The whole screen.
pub fn page(view: &View) -> Markup {
    let question = view.question;
    html! {
        @if view.way == Way::Lip {
            // One drop of water opens it at most.
            header {
                details.top {
                    summary { "At the lip: all questions, other ways, units" }
                    (ways_out(view))
                }
            }
        } @else {
            header.top { (ways_out(view)) }
        }
        main {
            h1 { (question.words()) }
            p.about { (question.about()) "." }
            @if view.way != Way::Class { (plan::origin(view.side)) }
            div.desk {
                section #answer aria-label="Answer" tabindex="-1" { (answer(view)) }
                // At the lip what is changed comes next to what it changes.
                @if view.way == Way::Lip { (yours(view)) }
                figure #picture { (figure::picture(view)) }
                @if view.way != Way::Lip { (yours(view)) }
                section #more aria-label="Also found" { (result::more(view)) }
            }
            section #plan-side aria-label="The rigging plan" { (plan::side(view.side, view.way)) }
            div.below {
                section #working { (working::steps(view)) }
                section #cautions aria-label="Cautions" { (cautions(view.found())) }
                section #not-in { (not_in(view.found())) }
            }
        }
        footer { (foot(view)) }
    }
}

fn strip(view: &View) -> Markup {
    html! {
        @match view.found().and_then(|answer| answer.findings.first()) {
            Some(first) => { (glance::tag(view)) " – " (result::end_word(first)) " " strong { (view.units.adverse(first)) } " " (first.what) }
            None if view.wanted.is_some() => strong { "?" },
            None => strong { "—" },
        }
    }
}

fn answer(view: &View) -> Markup {
    if view.way == Way::Lip { glance::answer(view) } else { result::answer(view) }
}

fn confirm(view: &View) -> Markup {
    if view.way == Way::Lip {
        glance::confirm(view)
    } else {
        html! {}
    }
}

/// What is entered, with the ways back.
fn yours(view: &View) -> Markup {
    html! {
        section #entries aria-label="Your numbers" {
            // The answer stays in sight of what changes it; those who listen are told by the status.
            @if view.way != Way::Lip { p #strip aria-hidden="true" { (strip(view)) } }
            div #undo-place { (undo(view)) }
            (entry::entries(view))
            div #confirm-place { (confirm(view)) }
            (back(view))
        }
    }
}

fn ways_out(view: &View) -> Markup {
    html! {
        a.home href="#" { "All questions" }
        (way::buttons(view.way))
        (unit_choices(view.units))
    }
}

/// The parts that follow from the numbers, by the id of their place.
pub fn results(view: &View) -> Vec<(&'static str, Markup)> {
    vec![
        ("answer", answer(view)),
        ("strip", strip(view)),
        ("undo-place", undo(view)),
        ("confirm-place", confirm(view)),
        ("picture", figure::picture(view)),
        ("more", result::more(view)),
        ("working", working::steps(view)),
        ("cautions", cautions(view.found())),
        ("not-in", not_in(view.found())),
    ]
}

/// The answer in one sentence, for those who listen.
pub fn sentence(view: &View) -> String {
    if view.wanted.is_some() {
        return "Guess first: the number is hidden.".to_owned();
    }
    match view.found().and_then(|answer| answer.findings.first()) {
        Some(finding) => format!("{} {}", result::end_words(finding, view.units), finding.what),
        None => "No answer: an entry cannot be used.".to_owned(),
    }
}

/// The lists of units to choose from.
pub fn unit_choices(units: Units) -> Markup {
    html! {
        (unit_choice("force-unit", "Forces in", &FORCES, units.force))
        (unit_choice("length-unit", "Lengths in", &LENGTHS, units.length))
    }
}

fn unit_choice(id: &str, label: &str, units: &[Unit], chosen: Unit) -> Markup {
    html! {
        label.unit for=(id) {
            span { (label) }
            select id=(id) {
                @for unit in units {
                    option value=(unit.symbol()) selected[*unit == chosen] { (unit.symbol()) }
                }
            }
        }
    }
}

/// The way back from the last change.
fn undo(view: &View) -> Markup {
    html! {
        @if let Some(undoes) = &view.undoes {
            button #undo type="button" { "Undo: " (undoes) }
        }
    }
}

/// The way back to the example, asked for twice.
fn back(view: &View) -> Markup {
    html! {
        div #reset-place {
            @if view.asking == Asking::Reset {
                p { strong { "Back to our example? Your numbers here go; undo brings them back." } }
                (sure("reset-sure", "Yes, back to the example"))
            } @else {
                button #reset type="button" { "Back to the example" }
            }
        }
    }
}

/// The second of two touches, away from the first: the other stands where the first was.
pub fn sure(id: &str, words: &str) -> Markup {
    html! {
        p.sure {
            button #not-sure type="button" { "No" }
            button id=(id) type="button" { (words) }
        }
    }
}

/// The class and the published word of a caution.
pub fn word(gravity: Gravity) -> (&'static str, &'static str) {
    match gravity {
        Gravity::Danger => ("danger", "DANGER"),
        Gravity::Warning => ("warning", "WARNING"),
        Gravity::Caution => ("caution", "CAUTION"),
    }
}

/// The cautions of an answer.
pub fn cautions(answer: Option<&Answer>) -> Markup {
    html! {
        h2 { "Cautions" }
        @for caution in answer.map(|answer| answer.cautions.as_slice()).unwrap_or_default() {
            @let (class, word) = word(caution.gravity);
            div class={ "notice " (class) } {
                p.word { strong { (word) } }
                p { strong { (caution.hazard) ". " } (caution.consequence) " " em { (caution.avoidance) } }
            }
        }
    }
}

/// What is not in an answer.
pub fn not_in(answer: Option<&Answer>) -> Markup {
    html! {
        h2 { "What is not in these numbers" }
        ul { @for missing in answer.map(|answer| answer.not_in.as_slice()).unwrap_or_default() { li { (missing) } } }
    }
}

fn foot(view: &View) -> Markup {
    let question = view.question;
    let all = Question::all();
    let next = all.iter().skip_while(|other| other.key() != question.key()).nth(1);
    html! {
        @if let Some(next) = next {
            p { "Next on the walk: " a href={ "#1/" (next.key()) } { (next.words()) } }
        }
        p { a href="#" { "All questions" } }
        // Nobody prints at the lip, and a drop of water must not.
        @if view.way != Way::Lip { p { button #print type="button" { "Print this on paper" } } }
        p { "Version " (env!("CARGO_PKG_VERSION")) ". A load is worked out here, never a permission. It does not replace qualified instruction, local rules, or looking at the anchor." }
    }
}
