//! The first screen, and what the page shows where no script runs.

use crate::class;
use crate::link::{Broken, Link};
use crate::way::{self, Way};
use maud::{Markup, html};
use rigging_core::law::{triangle, two_legs};
use rigging_core::quantity::{Angle, Force, Toward, degree, figures, newton};
use rigging_core::question::{Gravity, Question};

/// The first screen; `kept` gives the link to a question already worked on, `last` is the one worked on last.
pub fn page(
    kept: impl Fn(&Question) -> Option<String>,
    last: Option<&Link>,
    broken: Option<&Broken>,
    way: Way,
) -> Markup {
    html! {
        main.start {
            h1 { "Rigging loads" }
            p.about { "What the anchor, the line and the people holding them get, before someone hangs on them." }
            (way::buttons(way))
            @if let Some(broken) = broken {
                p.message role="alert" { (broken_words(broken)) }
            }
            @if let Some(last) = last {
                p.go-on { a href={ "#" (last.write()) } { "Go on with: " (last.question.words()) } }
            }
            @if way == Way::Class { (class::screen::list()) }
            nav aria-label="Questions" {
                ol.questions {
                    @for question in Question::all() {
                        @let link = kept(&question);
                        li {
                            a href={ "#" (link.clone().unwrap_or_else(|| format!("1/{}", question.key()))) } {
                                strong { (question.words()) }
                                span { (question.about()) "." @if link.is_some() { " Your numbers are kept." } }
                            }
                        }
                    }
                    li { a href="#plan" { strong { "The rigging plan: a whole descent" } span { "Drops, group, ropes, time and light; saved to a file, printed, sent as text." } } }
                }
            }
            (notice())
        }
        footer {
            p { button #keep type="button" { "Keep this page as a file" } }
            p { "Version " (env!("CARGO_PKG_VERSION")) ". Works without a network: keep this file on your phone." }
        }
    }
}

fn broken_words(broken: &Broken) -> String {
    match broken {
        Broken::Version => "This link was made by another version of the page, or was cut short. Choose a question and enter the numbers again.".to_owned(),
        Broken::Question => "This link asks a question that is not known here. Choose one below.".to_owned(),
        Broken::Part(part) => format!("The part “{part}” of this link cannot be read, so nothing of it was taken. Choose a question and enter the numbers again."),
    }
}

/// What this page is not: shown once, before anything else.
pub fn first() -> Markup {
    html! {
        section aria-label="Before the first use" {
            (notice())
            button #read type="button" { "I have read this" }
        }
    }
}

/// What a screen or a sheet without a question of its own has to say before anything else.
pub fn notice() -> Markup {
    html! {
        div.notice.danger {
            p.word { strong { "DANGER" } }
            p {
                strong { "People die on ropes that were worked out and not looked at. " }
                "This page works out loads from what you enter. It does not know your anchor, your rock or your water, and it never says that a rig holds. "
                em { "Rig only what you were taught by qualified people, follow local rules, and test what you hang on." }
            }
        }
    }
}

/// The content for browsers where no script runs: the angle table, the cautions, how to open the file.
pub fn still_page() -> String {
    let angles = [0, 20, 30, 45, 60, 75, 90, 100, 110, 120, 130, 140, 150, 160, 170];
    html! {
        main.start {
            h1 { "Rigging loads" }
            p {
                "The calculator is not running. It needs scripts, and many phones only preview a file. "
                "Open it in a browser (share or “open with”, then choose the browser), or switch scripts on. No network is needed. "
                "The tables below work without it."
            }
            h2 { "Load on each anchor of two, for each 100 % of load" }
            table {
                caption { "Two equal legs, the load hanging straight down between level anchors; friction not counted; rounded up" }
                thead { tr { th scope="col" { "Included angle between the legs" } th scope="col" { "Two separate legs" } th scope="col" { "One closed loop (triangle)" } } }
                tbody {
                    @for angle in angles {
                        @let load = Force::new::<newton>(100.0);
                        @let included = Angle::new::<degree>(f64::from(angle));
                        @let legs = two_legs::equal(load, included).map_or(f64::NAN, |force| force.value);
                        @let closed = triangle::anchor_force(load, included).map_or(f64::NAN, |force| force.value);
                        tr {
                            th scope="row" { (angle) "°" }
                            td { (figures(legs, 3, Toward::More)) " %" }
                            td { (figures(closed, 3, Toward::More)) " %" }
                        }
                    }
                }
            }
            p { "Anchors apart ÷ length of a leg: 1.0 is 60°, 1.4 is 90°, 1.7 is 120°. A slip onto slack rope can load an anchor with three to five times the weight that hangs on it." }
            h2 { "Cautions" }
            (notice())
            @for question in Question::all() {
                @if let Ok(answer) = question.answer() {
                    @for caution in answer.cautions.iter().filter(|caution| caution.gravity != Gravity::Caution) {
                        p { strong { (caution.hazard) ". " } (caution.consequence) " " em { (caution.avoidance) } }
                    }
                }
            }
        }
    }
    .into_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_still_page_holds_the_angle_table_and_every_danger() {
        let page = still_page();
        // Share per leg at 120° is the whole load, printed in any sling-angle table.
        assert!(page.contains("120°</th><td>100 %</td><td>194 %</td>"), "{page}");
        for question in Question::all() {
            for caution in question.answer().unwrap().cautions {
                assert_eq!(page.contains(caution.hazard), caution.gravity != Gravity::Caution, "{}", caution.hazard);
            }
        }
    }
}
