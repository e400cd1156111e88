//! The screen of a demonstration: its picture, the one quantity that moves, and a number to be guessed.

use super::demo::{Drawn, Place, given};
use super::{Board, Wanted, bare, guess};
use crate::figure;
use crate::question_screen::{cautions, not_in, unit_choices};
use crate::result::{bar, end_word, told};
use crate::way::{self, Way};
use maud::{Markup, html};
use rigging_core::quantity::{Kind, Units};
use rigging_core::question::{Answer, Finding};

/// The demonstrations on the first screen.
pub fn list() -> Markup {
    html! {
        h2 { "Ten demonstrations" }
        nav aria-label="Demonstrations" {
            ol.demos {
                @for place in Place::firsts() {
                    li { a href={ "#" (place.write(Units::default())) } { (place.demo.title) } }
                }
            }
        }
        h2 { "All questions" }
    }
}

/// What a demonstration shows now.
#[derive(Debug)]
pub struct Stage<'a> {
    /// Where the class is.
    pub place: Place,
    /// What stands on the board.
    pub board: &'a Board,
    /// The units chosen.
    pub units: Units,
    /// The answer at this stop.
    pub answer: &'a Answer,
}

impl Stage<'_> {
    fn finding(&self) -> Option<&Finding> {
        self.place.found(self.answer)
    }

    /// What is to be guessed.
    pub fn wanted(&self) -> Option<Wanted> {
        self.finding().map(|finding| Wanted { what: finding.what.clone(), kind: finding.kind })
    }

    /// What is said when the class comes here, or when the number is shown.
    pub fn said(&self) -> String {
        let stop = [self.place.run.moved, ": ", &self.place.words(self.units), ". "].concat();
        match (self.board.guess, self.finding()) {
            (Some(_), Some(finding)) => {
                [&stop, end_word(finding), " ", &self.units.adverse(finding), " ", &finding.what].concat()
            }
            _ => stop + "Guess first: the number is hidden.",
        }
    }
}

/// The whole screen.
pub fn page(stage: &Stage) -> Markup {
    let Stage { place, board, units, answer } = stage;
    let shown = board.guess.is_some();
    html! {
        header.top {
            a.home href="#" { "All demonstrations" }
            (way::buttons(Way::Class))
            (unit_choices(*units))
        }
        main.lesson {
            h1 { (place.number) ". " (place.demo.title) }
            (steps_on(*place, *units))
            figure #picture { (picture(stage)) }
            section #answer aria-label="What is guessed" tabindex="-1" {
                div.box.example {
                    p.tag { strong { "EXAMPLE" } " A teaching picture with example numbers, nobody's rig." }
                    (stops(stage))
                    p.ask { (place.demo.asks) }
                    (number(stage))
                }
            }
        }
        div.below {
            @if shown {
                section { (not_in(Some(answer))) (slipping(answer, *units)) }
            } @else {
                section { h2 { "What stays the same" } ul { @for line in given(*place, *units) { li { (line) } } } }
            }
            section #cautions aria-label="Cautions" { (cautions(Some(answer))) }
            section.on {
                h2 { "Hand-outs" }
                p { "One page each, with these numbers, in the units chosen above." }
                button #handout-blank type="button" { "Print with blanks" }
                " "
                button #handout-answers type="button" { "Print with answers" }
                @if let Some(link) = place.link(*units) {
                    p { a href={ "#" (link.write()) } { "Change more than one thing: open it as a question" } }
                }
                p.note { "Keys: → or Page Down for the next stop, ← or Page Up for the one before; B or a full stop shows the number. A presenter's remote sends these." }
            }
        }
    }
}

/// The parts, and the stops of this part.
fn stops(stage: &Stage) -> Markup {
    let Stage { place, units, .. } = stage;
    let go = |place: Place| ["#", &place.write(*units)].concat();
    let parts: Vec<Place> =
        place.demo.runs.iter().filter_map(|run| place.all().find(|at| std::ptr::eq(at.run, run))).collect();
    let here = |same: bool, what: &'static str| same.then_some(what);
    html! {
        @if parts.len() > 1 {
            nav.parts aria-label="Parts" {
                @for part in parts {
                    a href=(go(part)) aria-current=[here(part.same_run(*place), "true")] { (part.run.words) }
                }
            }
        }
        p.moved #stop tabindex="-1" { (place.run.moved) ": " strong { (place.words(*units)) } }
        nav.stops aria-label="Stops" {
            @for stop in place.all().filter(|stop| stop.same_run(*place)) {
                a href=(go(stop)) aria-current=[here(stop == *place, "step")] { (stop.words(*units)) }
            }
        }
    }
}

/// The ways to the stop before and the stop after.
fn steps_on(place: Place, units: Units) -> Markup {
    let go = |place: Place| ["#", &place.write(units)].concat();
    html! {
        div.steps-on {
            @match place.previous() {
                Some(previous) => a #previous-stop href=(go(previous)) { "← Back" },
                None => a #previous-stop href="#" { "← All" },
            }
            @match place.next() {
                Some(next) if next.number == place.number => a #next-stop href=(go(next)) { "Next →" },
                Some(next) => a #next-stop href=(go(next)) { "Next demonstration →" },
                None => a #next-stop href="#" { "All demonstrations →" },
            }
        }
    }
}

/// The number, or the place to guess it.
fn number(stage: &Stage) -> Markup {
    let Stage { place, board, units, .. } = stage;
    html! {
        @match (board.guess, stage.finding()) {
            (Some(guess), Some(finding)) => {
                p.big #headline { (end_word(finding)) " " strong { (units.adverse(finding)) } }
                p.what { (told(finding)) @if !finding.band.is_exact() { "; other end " (units.friendly(finding)) } "." }
                (guess::told(guess, finding, *units))
                p.why { strong { "Why: " } (place.run.why) }
            }
            (None, Some(finding)) => {
                @let wanted = Wanted { what: finding.what.clone(), kind: finding.kind };
                (guess::asked(board, &wanted, board.ghost.is_some(), *units))
            }
            _ => p.big { "—" },
        }
    }
}

fn picture(stage: &Stage) -> Markup {
    let Stage { place, board, units, answer } = stage;
    let scene = place.scene(answer);
    let kind = stage.finding().map_or(Kind::Force, |finding| finding.kind);
    let shown = board.guess.is_some();
    let lines = place.run.drawn == Drawn::Lines;
    let scene = match shown {
        false => bare(scene, kind),
        true if lines => bare(scene, Kind::Force),
        true => scene,
    };
    html! {
        (figure::drawn(&scene, board.ghost.as_ref(), *units))
        @if board.ghost.is_some() { p.scale { "Faint: the position before." } }
        @if shown && lines { p.scale { "Forces are left out: the number is not that of the moment drawn." } }
    }
}

/// Rest and slip side by side, where a person hangs.
fn slipping(answer: &Answer, units: Units) -> Markup {
    html! {
        @if !answer.states.is_empty() {
            h2 { "At rest it is least" }
            p.scale { "The load on the whole in each state; all bars to the same scale." }
            ul.states {
                @for state in &answer.states {
                    li { span { (state.what) } span { "up to " strong { (units.adverse(state)) } } (bar(state, units)) }
                }
            }
        }
    }
}
