//! The working: every step with the user's own numbers, and where its formula comes from.

use crate::question_screen::View;
use maud::{Markup, html};
use rigging_core::quantity::Units;
use rigging_core::working::{Given, Source, Step};

/// The steps, folded away until asked for.
pub fn steps(view: &View) -> Markup {
    let steps = view.found().map(|answer| answer.working.as_slice()).unwrap_or_default();
    let formulas = view.found().map(|answer| answer.formulas.as_slice()).unwrap_or_default();
    html! {
        h2 { "Working" }
        details #formulas {
            summary { "Show the working, with these numbers" }
            p { "At the end of the ranges that gives the big number. Three figures, to be checked by hand." }
            ol.steps {
                @for step in steps {
                    li {
                        p { strong { (step.what) } }
                        p.formula { (step.formula) }
                        p { @for (place, given) in step.given.iter().enumerate() { @if place > 0 { ", " } (value(given, view.units)) } }
                        p { "→ " strong { (value(&step.result, view.units)) } }
                        p.known { (said(&step.source)) }
                    }
                }
            }
            h3 { "The other numbers" }
            p { "The same steps at other ends of the ranges, and these. Each limit has its source beside it." }
            ul.steps {
                @for formula in formulas {
                    li {
                        p { strong { (formula.what) } }
                        p.formula { (formula.formula) }
                        p.known { (said(&formula.source)) }
                    }
                }
            }
        }
    }
}

/// The way from a number to its formula and source.
pub fn way_to_formulas() -> Markup {
    html! { button.formulas type="button" data-opens="formulas" { "Formulas and sources" } }
}

/// A step in one paragraph, for paper.
pub fn in_short(step: &Step, units: Units) -> Markup {
    html! {
        strong { (step.what) } ": " (step.formula) "; "
        @for (place, given) in step.given.iter().enumerate() { @if place > 0 { ", " } (value(given, units)) }
        " → " strong { (value(&step.result, units)) } " (" (said(&step.source)) ")"
    }
}

fn value(given: &Given, units: Units) -> String {
    let show = |si| units.worked(si, given.kind);
    if given.band.is_exact() {
        format!("{} = {}", given.symbol, show(given.band.typical()))
    } else {
        format!("{} = {} to {}", given.symbol, show(given.band.low()), show(given.band.high()))
    }
}

/// How a formula is known, and from where.
pub fn said(source: &Source) -> String {
    if source.place.is_empty() {
        source.known.word().to_owned()
    } else {
        format!("{}: {}", source.known.word(), source.place)
    }
}
