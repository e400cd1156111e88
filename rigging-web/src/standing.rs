//! How something stands against a limit: a word, a shape, what was computed, whose limit, and both on one scale.

use crate::number::plain;
use crate::result::{full_scale, scale};
use maud::{Markup, html};
use rigging_core::limit::Standing;
use rigging_core::quantity::{Kind, Toward, Units};
use rigging_core::question::{Answer, Comparison};
use rigging_core::working::Known;

/// The standing as shown, its class and the reason if nothing is checked.
pub fn standing(comparison: &Comparison, checked: bool) -> (Standing, &'static str, &'static str) {
    let standing = if checked { comparison.standing } else { Standing::NotChecked("not confirmed as yours") };
    let reason = if let Standing::NotChecked(reason) = standing { reason } else { "" };
    (standing, class_of(standing), reason)
}

/// The class of a standing in the style sheet.
fn class_of(standing: Standing) -> &'static str {
    match standing {
        Standing::BelowLimit => "below",
        Standing::RangeCrosses => "crosses",
        Standing::AboveLimit => "above",
        Standing::NotChecked(_) => "unchecked",
    }
}

/// A standing by itself: its shape and its word.
pub fn alone(standing: Standing) -> Markup {
    let class = class_of(standing);
    html! { span class={ "stands " (class) } { (shape(class)) strong { (standing.words()) } } }
}

/// The comparison that matters most: a limit is never set beside another load than its own, and
/// *below limit* hides no other. Of numbers that are nobody's own none does.
pub fn gravest(comparisons: &[Comparison], mine: bool) -> Option<&Comparison> {
    comparisons.iter().min_by_key(|comparison| match comparison.standing {
        _ if !mine => 0,
        Standing::AboveLimit => 0,
        Standing::RangeCrosses => 1,
        Standing::NotChecked(_) => 2,
        Standing::BelowLimit => 3,
    })
}

/// The comparison that the answer is about, in its own frame.
pub fn compared(comparison: &Comparison, checked: bool, not_in: &[&str], units: Units) -> Markup {
    let (standing, class, reason) = standing(comparison, checked);
    let (load, limit) = load_and_limit(comparison, units);
    html! {
        div class={ "standing " (class) } {
            (shape(class))
            div {
                p { strong { (standing.words()) } @if !reason.is_empty() { ": " (reason) } "." }
                p { "Computed: " (load) " " (comparison.what) "." }
                p { "Limit: " (limit) "." }
                @if let [first, rest @ ..] = not_in {
                    p { "Not in it: " (first) ", and " (rest.len()) " more things." }
                }
            }
        }
    }
}

/// All comparisons but one, one under the other: what, how it stands, load and limit on one scale, whose limit.
pub fn rows(comparisons: &[Comparison], but: Option<&Comparison>, checked: bool, units: Units) -> Markup {
    let comparisons = others(comparisons, but);
    html! {
        @if !comparisons.is_empty() {
            @if comparisons.iter().any(|comparison| comparison.limit.is_some()) {
                p.scale { "Upper bar: the load. Lower bar: its limit. 0 to " (full_scale(units)) "." }
            }
            ul.against {
                @for comparison in comparisons {
                    @let (standing, class, reason) = standing(comparison, checked);
                    @let (load, limit) = load_and_limit(comparison, units);
                    li {
                        (shape(class))
                        div {
                            p {
                                strong { (standing.words()) } @if checked && !reason.is_empty() { " (" (reason) ")" }
                                ": up to " strong { (up_to(&load)) } " " (comparison.what)
                            }
                            @if comparison.limit.is_some() { (both(comparison, units)) }
                            p.other { "Limit: " (limit) }
                        }
                    }
                }
            }
        }
    }
}

/// Takes out of an answer how the case stands against published limits.
pub fn unstood(answer: &mut Answer) {
    answer.stands.clear();
    for finding in answer.outcomes.iter_mut().flat_map(|outcome| &mut outcome.findings) {
        finding.stands = None;
    }
}

/// All comparisons but one.
pub fn others<'a>(comparisons: &'a [Comparison], but: Option<&Comparison>) -> Vec<&'a Comparison> {
    comparisons.iter().filter(|one| !but.is_some_and(|but| std::ptr::eq(*one, but))).collect()
}

/// The load, and its limit with how it was made and whose it is.
pub fn load_and_limit(comparison: &Comparison, units: Units) -> (String, String) {
    let [load, mut words] = units.compared(comparison);
    if let Some(limit) = &comparison.limit {
        words += ": ";
        words += &limit.part;
        if limit.factor != 1.0 {
            let figure = units.show(limit.figure, Kind::Force, Toward::Less);
            words += &[", ", &figure, " ÷ design factor ", &plain(limit.factor)].concat();
        }
        if limit.source.known != Known::Yours {
            words += &[" (", limit.source.place, ", ", limit.source.known.word(), ")"].concat();
        }
    }
    (load, words)
}

/// The high end of a range as told.
pub fn up_to(range: &str) -> &str {
    range.split_once(" to ").map_or(range, |(_, high)| high)
}

/// A load above its limit on the same scale.
fn both(comparison: &Comparison, units: Units) -> Markup {
    let [load, limit] = units.compared(comparison);
    let words = format!("Load {load}, limit {limit}, on a scale from 0 to {}.", full_scale(units));
    let limit = comparison.limit.as_ref().map_or(&comparison.load, |limit| &limit.band);
    scale(&words, 22, &[("range", &comparison.load, 6), ("limit", limit, 15)])
}

/// The shape of a standing.
pub fn shape(class: &str) -> Markup {
    html! {
        svg.shape viewBox="0 0 24 24" aria-hidden="true" {
            @match class {
                "below" => rect x="3" y="8" width="18" height="8" {},
                "crosses" => { rect x="3" y="8" width="18" height="8" {} line x1="12" y1="2" x2="12" y2="22" {} },
                "above" => polygon points="12,3 22,21 2,21" {},
                _ => { rect.dashed x="3" y="3" width="18" height="18" {} text x="12" y="17" text-anchor="middle" { "?" } }
            }
        }
    }
}
