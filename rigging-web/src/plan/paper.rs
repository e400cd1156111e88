//! The plan on paper: a cover with what is said first, then four drops to a page.

use super::{PlanView, name_of, said};
use crate::home::notice;
use crate::page::Whose;
use crate::standing;
use maud::{Markup, html};
use rigging_core::plan::About;

/// All of the sheets. `now` is the local date and time.
pub fn sheets(view: &PlanView, now: &str) -> Markup {
    let places: Vec<usize> = (0..view.plan.drops.len()).collect();
    html! {
        div.plan-cover {
            h1 { "Rigging plan: " @if view.plan.day.name.is_empty() { "no name" } @else { (view.plan.day.name) } }
            p.printed { strong { (tag(view)) } " · Printed " (now) " · Version " (env!("CARGO_PKG_VERSION")) }
            p.fill {
                @for what in ["Date", "Water at the mark", "Seen by"] { span { (what) ":" span.blank {} } }
                strong { "Blank means: not valid." }
            }
            (notice())
            (said::unusable(view))
            @for part in view.about(About::Title) { p { @for line in part.lines.iter().filter(|line| line.starts_with("Date:") || line.starts_with("Water:")) { (line) ". " } } }
            div.flow {
                @for about in [About::Late, About::Open, About::Reserve, About::First, About::Light, About::Order, About::Bring, About::Notes] {
                    @for part in view.about(about) { (said::section(part)) @if on_a_second_sheet(about) { (tagged(view)) } }
                }
                @for part in view.about(About::End) { p { (part.head) } }
            }
        }
        @for four in places.chunks(4) {
            div.plan-four {
                @for place in four {
                    @if let Some(found) = view.checked.drops.get(*place) {
                        div.plan-drop {
                            h2 { "Drop " (name_of(view.plan, *place)) }
                            (tagged(view))
                            p { (standing::alone(found.standing)) }
                            @for reason in &found.reasons { p.said { (reason.why.words()) ": " (reason.what) } }
                            @for part in view.about(About::Drop(*place)) { (said::facts(part)) }
                            p.fill { span { "Water:" span.blank {} } span { "Rigged by:" span.blank {} } span { "At:" span.blank {} } }
                        }
                    }
                }
            }
        }
    }
}

/// Whose numbers these are, again away from the head of the sheets, unless they are simply those of who holds them.
fn tagged(view: &PlanView) -> Markup {
    let tag = tag(view);
    html! { @if tag != MINE { p { strong { (tag) } } } }
}

const MINE: &str = "MINE";

/// What may come to stand on the cover's second sheet.
fn on_a_second_sheet(about: About) -> bool {
    matches!(about, About::First | About::Light | About::Order | About::Bring | About::Notes)
}

pub(super) fn tag(view: &PlanView) -> String {
    let invented = view.plan.day.invented == rigging_core::question::Whether::Yes;
    let whose = match view.whose {
        Whose::Example => "EXAMPLE, not your numbers",
        Whose::Link => "FROM ELSEWHERE, not yours",
        Whose::Earlier(_) => "MINE, FROM AN EARLIER DAY, not confirmed",
        Whose::Mine(_) => MINE,
    };
    let typed = if view.wrong.is_empty() { "" } else { "; NOT ALL OF WHAT WAS TYPED" };
    [whose, typed, if invented { "; EVERYTHING IN IT IS INVENTED" } else { "" }].concat()
}
