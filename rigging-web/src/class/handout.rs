//! Hand-outs: a demonstration on one sheet of paper, with blanks or with answers.

use super::bare;
use super::demo::{Place, given};
use crate::figure;
use crate::result::{end_words, pulling};
use crate::working::said;
use maud::{Markup, html};
use rigging_core::quantity::Units;
use rigging_core::question::Answer;
use rigging_core::working::Source;

/// The sheet of the demonstration at a place; `None` if it has no answer.
pub fn sheet(place: Place, answers: bool, units: Units) -> Option<Markup> {
    let stops: Vec<(Place, Answer)> =
        place.all().filter_map(|stop| Some((stop, stop.question()?.answer().ok()?))).collect();
    let ((first, _), (middle, drawn), (last, end)) = (stops.first()?, stops.get(stops.len() / 2)?, stops.last()?);
    let kind = middle.found(drawn)?.kind;
    let mut scene = bare(middle.scene(drawn), kind);
    scene.lengths.clear();
    scene.angles.clear();
    Some(html! {
        div.handout {
            p.tag { strong { "EXAMPLE" } " A teaching picture with example numbers. It says nothing about your anchor, rock, water or people." }
            h1 { (place.demo.title) }
            p.ask { (place.demo.asks) }
            div.hand-picture { (figure::drawn(&scene, None, units)) }
            ul.given { @for line in given(*first, units) { li { (line) } } }
            table {
                thead { tr { th scope="col" { "What moves" } th scope="col" { "My guess" } th scope="col" { "Computed" } } }
                tbody {
                    @for (stop, answer) in &stops {
                        @if begins(*stop) {
                            tr { th.part scope="colgroup" colspan="3" { @if !stop.run.words.is_empty() { (stop.run.words) ". " } (stop.run.moved) ":" } }
                        }
                        tr {
                            th scope="row" { (stop.words(units)) }
                            td {}
                            td { @if answers { @if let Some(finding) = stop.found(answer) {
                                (end_words(finding, units)) (pulling(finding))
                                @if !finding.band.is_exact() { span.other { " (other end " (units.friendly(finding)) ")" } }
                            } } }
                        }
                    }
                }
            }
            @if answers {
                @for part in stops.iter().map(|(stop, _)| *stop).filter(|stop| begins(*stop)) {
                    p { strong { "Why? " } @if !part.run.words.is_empty() { (part.run.words) ": " } (part.run.why) }
                }
                @for (what, formula, source) in formulas(*last, end) {
                    p.formula-line { (what) ": " strong { (formula) } " (" (said(source)) ")" }
                }
                p.known { strong { "Not in it: " } (end.not_in.join("; ")) "." }
            } @else {
                @for part in stops.iter().map(|(stop, _)| *stop).filter(|stop| begins(*stop)) {
                    p.write { strong { "Why?" } @if !part.run.words.is_empty() { " " (part.run.words) } }
                }
                p.write { strong { "What is not in this picture?" } }
            }
            p.known { "Up to, at least: the end of the range that hurts. Rigging loads, version " (env!("CARGO_PKG_VERSION")) ". Rig only what you were taught by qualified people, follow local rules, and test what you hang on." }
        }
    })
}

/// Whether a part begins here.
fn begins(stop: Place) -> bool {
    Place::of(stop.number, stop.at - 1).is_none_or(|before| !before.same_run(stop))
}

/// The formulas of a demonstration with their sources, from the answer at a stop.
pub fn formulas(place: Place, answer: &Answer) -> Vec<(&str, &str, &Source)> {
    let steps = answer.working.iter().map(|step| (step.what.as_str(), step.formula, &step.source));
    let all: Vec<(&str, &str, &Source)> =
        steps.chain(answer.formulas.iter().map(|formula| (formula.what, formula.formula, &formula.source))).collect();
    let named = |name: &&str| all.iter().find(|(what, ..)| what.starts_with(*name)).copied();
    place.demo.formulas.iter().filter_map(named).collect()
}
