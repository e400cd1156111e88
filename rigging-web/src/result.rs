//! The answer: the adverse end big, its other end small, how it stands, and what else was found.

use crate::both::both;
use crate::class::guess;
use crate::glance::tag;
use crate::link::{Link, with_key};
use crate::page::Whose;
use crate::question_screen::View;
use crate::standing::{compared, gravest, rows};
use crate::way::Way;
use crate::working::way_to_formulas;
use maud::{Markup, html};
use rigging_core::band::Band;
use rigging_core::quantity::{Kind, Toward, Unit, Units, decimal};
use rigging_core::question::{
    Answer, BadInput, Bend, Edge, End, Finding, HeldBy, HumanAnchor, Question, WeakestPart, Whether, as_people,
};

/// The answer box.
pub fn answer(view: &View) -> Markup {
    html! {
        div class=(boxed(view)) {
            (whose(view))
            @if let Some(question) = view.from.and_then(with_key) {
                p.tag { "Forces taken from: " (question.words()) " As they stood there." }
            }
            @match view.found() {
                Some(answer) => (found(answer, view)),
                _ => (nothing(&why_not(view))),
            }
        }
    }
}

/// The frame of a box with numbers: another one around those that are not the user's own.
fn boxed(view: &View) -> &'static str {
    if matches!(view.whose, Whose::Mine(_)) { "box mine" } else { "box example" }
}

/// Why there is no answer.
pub fn why_not(view: &View) -> String {
    match view.answer {
        Some(Err(error)) => both(&together(error), view.units),
        _ => {
            let fields = view.question.fields();
            let wrong = fields.iter().find(|field| field.matters && view.wrong.get(field.about.name).is_some());
            let label = wrong.map_or("see the message beside it", |field| field.about.label);
            format!("An entry cannot be used: {label}.")
        }
    }
}

/// A dash in the place of a number, and why.
pub fn nothing(why: &str) -> Markup {
    html! {
        p.big { "—" }
        p.message { (why) }
    }
}

fn together(error: &BadInput) -> String {
    match error {
        BadInput::Together(error) => {
            format!("These numbers do not fit together: {} must be {}.", error.what, error.must)
        }
        BadInput::Refused { what, why } => format!("Refused {what}: {why}."),
        BadInput::Unheld(points) => format!("Nothing holds the load at {}.", points.join(", ")),
        BadInput::Rig(_) | BadInput::NoBalance => {
            "No balance was found for these numbers, so none is shown. Take lengths, slack and stiffness less far apart."
                .to_owned()
        }
        error => error.words(),
    }
}

fn whose(view: &View) -> Markup {
    let confirm = |words: &str| html! { button #mine type="button" { (words) } };
    html! {
        @match view.whose {
            Whose::Example if view.question.is_example() => {
                p.tag { strong { "EXAMPLE" } " " (both(view.question.example(), view.units)) }
                p.tag-do { "Enter your own numbers below. " (confirm("These are my numbers")) }
            }
            Whose::Example => {
                p.tag { strong { "EXAMPLE, CHANGED" } " Some of these numbers are still ours." }
                p.tag-do { "Go through all of them first. " (confirm("All of these are my numbers")) }
            }
            Whose::Link => {
                p.tag { strong { "FROM A LINK, NOT YOURS" } " These numbers were not entered on this screen. If the link was cut short, its last number may be wrong, and our example stands in place of what is missing." }
                p.tag-do { "Go through all of them first. " (confirm("All of these are my numbers")) }
            }
            Whose::Earlier(touched) => {
                p.tag { strong { "MINE, FROM " (touched) "." } " Masses, water and anchors change from day to day." }
                p.tag-do { "Go through all of them first. " (confirm("They hold today")) }
            }
            Whose::Mine(touched) => p.tag { strong { "MINE" } " Last touched " (touched) "." }
        }
    }
}

/// The adverse end with its word, as the big number.
pub fn big(first: &Finding, units: Units) -> Markup {
    html! { (end_word(first)) " " strong { (units.adverse(first)) } }
}

/// What the big number is, its other end, and the same as people.
pub fn beside(first: &Finding, units: Units) -> Markup {
    html! {
        p.what { (told(first)) "." }
        p.small {
            "Other end of the range: " (units.friendly(first)) ". "
            (as_hanging(first))
            @if let Some(input) = first.moved_most_by { "Most of the range comes from: " (input) "." }
        }
    }
}

fn found(answer: &Answer, view: &View) -> Markup {
    let units = view.units;
    let checked = matches!(view.whose, Whose::Mine(_));
    html! {
        @if let (Some(board), Some(wanted)) = (view.board, view.wanted) { (guess::asked(board, wanted, view.ghost.is_some(), units)) }
        @if let Some(first) = answer.findings.first() {
            p.big id=[(view.way != Way::Lip).then_some("headline")] { (big(first, units)) }
            (beside(first, units))
            @if first.kind == Kind::Force { (bar(first, units)) p.scale { "Bar: 0 to " (full_scale(units)) } }
            @if let Some(guess) = view.board.filter(|_| view.wanted.is_none()).and_then(|board| board.guess) { (guess::told(guess, first, units)) }
        }
        @for finding in together_with_the_first(answer) {
            p.small { (end_word(finding)) " " strong { (units.adverse(finding)) } " " (told(finding)) "." }
        }
        @if let Some(worst) = gravest(&answer.comparisons, checked) {
            (compared(worst, checked, answer.not_in.as_slice(), units))
            (rows(&answer.comparisons, Some(worst), checked, units))
        }
        (choose_limit(view))
        p.on {
            (way_to_formulas())
            @for link in ways_on(answer, view.question, units) {
                " " a href={ "#" (link.write()) } { "Take these forces to: " (link.question.words()) }
            }
        }
        @if !answer.states.is_empty() {
            p.caption { "In each state of the load, from 0 to " (full_scale(units)) }
            ul.states {
                @for state in &answer.states {
                    li {
                        span { (state.what) }
                        span { "up to " strong { (units.adverse(state)) } }
                        (bar(state, units))
                    }
                }
            }
        }
    }
}

/// In class nothing is compared before a limit is chosen aloud.
fn choose_limit(view: &View) -> Markup {
    let has_limit = || view.question.fields().iter().any(|field| field.about.name == "limit");
    let unasked = view.board.is_some_and(|board| !board.limit);
    html! { @if unasked && has_limit() { p { button #choose-limit type="button" { "Choose a limit with the class" } } } }
}

/// What else was found, and remarks on it.
pub fn more(view: &View) -> Markup {
    let Some(answer) = view.found() else { return html! {} };
    html! {
        // At the lip the few lines of the answer stand alone, and the rest of it here.
        @if view.way == Way::Lip { div class=(boxed(view)) { p.tag { strong { (tag(view)) } } (found(answer, view)) } }
        @let others = answer.findings.get(1 + together_with_the_first(answer).len()..).unwrap_or_default();
        @if !others.is_empty() { (table("Also found", others, view.units)) }
        @if !answer.usual.is_empty() {
            div.usual {
                p.caption { "Against published figures for new, dry parts" }
                (rows(&answer.usual, None, matches!(view.whose, Whose::Mine(_)), view.units))
            }
        }
        @for outcome in &answer.outcomes { (table(&outcome.case, &outcome.findings, view.units)) }
        (way_to_formulas())
        @for remark in answer.remarks.iter().chain(&answer.stands) { p.remark { (both(remark, view.units)) } }
    }
}

fn table(caption: &str, findings: &[Finding], units: Units) -> Markup {
    html! {
        table.findings {
            caption { (both(caption, units)) }
            tbody {
                @for finding in findings {
                    tr {
                        th scope="row" { (both(&told(finding), units)) }
                        td {
                            (end_word(finding)) " " strong { (units.adverse(finding)) }
                            @if !finding.band.is_exact() { br; span.other { "other end " (units.friendly(finding)) } }
                        }
                    }
                }
            }
        }
    }
}

/// What is told beside the first finding: where nothing is compared, the next two.
fn together_with_the_first(answer: &Answer) -> &[Finding] {
    let count = if answer.comparisons.is_empty() { 2 } else { 0 };
    answer.findings.get(1..=count).unwrap_or_default()
}

/// "up to" or "at least", whichever end of the range hurts.
pub fn end_word(finding: &Finding) -> &'static str {
    match finding.end {
        End::High => "up to",
        End::Low if finding.at_most => "at most",
        End::Low => "at least",
    }
}

/// The adverse end with its word and unit: "up to 2.7 kN".
pub fn end_words(finding: &Finding, units: Units) -> String {
    format!("{} {}", end_word(finding), units.adverse(finding))
}

/// What loads, as people hanging still. Beside what a part takes they would read as people whom it holds.
pub fn as_hanging(finding: &Finding) -> String {
    if finding.kind != Kind::Force || finding.end == End::Low {
        return String::new();
    }
    match as_people(finding.adverse(), finding.end) {
        None => "Less than 1 person hanging still. ".to_owned(),
        Some(1) => "About 1 person hanging still. ".to_owned(),
        Some(people) => format!("About {people} people hanging still. "),
    }
}

/// What was found, which way it pulls, and how the case stands against it.
pub fn told(finding: &Finding) -> String {
    let stands = finding.stands.map_or(String::new(), |stands| [": ", stands].concat());
    [finding.what.as_str(), &pulling(finding), &stands].concat()
}

/// Which way it pulls at the end that hurts, if that is known.
pub fn pulling(finding: &Finding) -> String {
    let Some(pull) = finding.pull else { return String::new() };
    let degrees = pull.to_degrees();
    let side = if degrees > 0.0 { "right" } else { "left" };
    match degrees.abs() {
        size if size < 0.5 => ", pulling straight down".to_owned(),
        size => {
            let way = match size.round() {
                90.0 => "level",
                whole if whole < 90.0 => "down",
                _ => "up",
            };
            format!(", pulling {way} and {side}, {}° from plumb", decimal(size, 0))
        }
    }
}

/// A range on a scale of fixed length, 0 to 25 kN, so that a slip of the decimal point shows.
pub fn bar(finding: &Finding, units: Units) -> Markup {
    let words = format!(
        "{} on a scale from 0 to {}.",
        units.range(&finding.band, Kind::Force, finding.end.toward()),
        full_scale(units)
    );
    // What holds is drawn as what is compared with, not as a load.
    scale(&words, 16, &[(if finding.end == End::High { "range" } else { "limit" }, &finding.band, 8)])
}

/// Bands on a scale from 0 to 25 kN.
pub fn scale(words: &str, height: u32, bands: &[(&str, &Band, u32)]) -> Markup {
    const FULL: f64 = 25_000.0;
    let place = |force: f64| 200.0 * (force / FULL).clamp(0.0, 1.0);
    html! {
        svg.bar viewBox={ "0 0 204 " (height) } preserveAspectRatio="none" role="img" aria-label=(words) {
            @for (class, band, y) in bands {
                @let (from, to) = (place(band.low()), place(band.high()));
                line.track x1="0" y1=(y) x2="200" y2=(y) {}
                line class=(class) x1=(decimal(from, 1)) y1=(y) x2=(decimal(to.max(from + 2.0), 1)) y2=(y) {}
                @if band.high() > FULL { path.tick d={ "M194 " (y - 6) " L203 " (y) " L194 " (y + 6) } {} }
            }
            line.tick x1="200" y1="2" x2="200" y2=(height - 2) {}
        }
    }
}

/// The end of that scale.
pub fn full_scale(units: Units) -> String {
    units.with_figures(25_000.0, Kind::Force, if units.force == Unit::Kilonewton { 2 } else { 3 }, Toward::Nearest)
}

/// The ways on to other questions, with the forces found here.
pub fn ways_on(answer: &Answer, here: &Question, units: Units) -> Vec<Link> {
    let from = Some(here.key());
    let link = |question| Link { units, question, from };
    let Some(carried) = &answer.carried else { return Vec::new() };
    let mut ways = vec![link(Question::WeakestPart(WeakestPart::carrying(carried)))];
    if matches!(here, Question::Abseil(_) | Question::GuidedAbseil(_)) {
        ways.push(link(Question::Bend(Bend::carrying(carried))));
    }
    // People hold what reaches the rope at rest, and in the worst that was found.
    if let (Question::Abseil(_), [still, ..]) = (here, answer.states.as_slice()) {
        ways.push(link(Question::HumanAnchor(HumanAnchor::carrying(still.band, carried.rope))));
    }
    // Beside a current, what is to be held afterwards, if a catch came first.
    if let (Question::InTheCurrent(current), HeldBy::People) = (here, carried.held) {
        let still = if let [_, after, ..] = answer.comparisons.as_slice() { after.load } else { carried.rope };
        let people = HumanAnchor::carrying(still, carried.rope);
        ways.push(link(Question::HumanAnchor(HumanAnchor {
            holders: 1,
            stance: current.stance,
            seat: current.seat,
            edge: Edge::Free,
            by_water: Whether::Yes,
            ..people
        })));
    }
    ways
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_loads_is_told_as_people() {
        // 0.93 kN for a person: 1.4 kN is one and a half.
        let told = |finding: Finding| beside(&finding, Units::default()).into_string();
        assert!(told(Finding::load("a bolt", Band::exact(1400.0))).contains("About 2 people hanging still"));
        assert!(!told(Finding::at_most("a tree", Band::exact(1400.0))).contains("hanging"));
        assert!(!told(Finding::strength("a sling", Band::exact(1400.0))).contains("hanging"));
    }

    #[test]
    fn people_beside_a_current_are_offered_what_they_must_hold() {
        let ways = |json: &str| {
            let current: Question = serde_json::from_str(json).unwrap();
            let answer = current.answer().unwrap();
            let ways = ways_on(&answer, &current, Units::default());
            let people = ways.into_iter().find(|link| link.question.name() == "human anchor");
            people.map(|people| (answer, people))
        };
        for (json, after) in [
            (
                r#"{"question": "in the current", "tool": "throw line", "stance": "seated braced"}"#,
                Some("held afterwards"),
            ),
            (r#"{"question": "in the current", "tool": "diagonal", "ends_on": "people"}"#, None),
        ] {
            let (answer, people) = ways(json).unwrap();
            let rope = answer.carried.as_ref().unwrap().rope;
            let load = |what: &str| answer.comparisons.iter().find(|row| row.what.contains(what)).unwrap().load;
            let held = people.question.answer().unwrap();
            let found = |what: &str| held.findings.iter().find(|row| row.what.contains(what)).unwrap().band;
            assert_eq!(found("at rest").high(), after.map_or(rope, load).high(), "{json}");
            assert_eq!(found("slip or catch").high(), rope.high(), "{json}");
            assert!(held.remarks.iter().any(|remark| remark.contains("moving water")));
            assert!(Link::read(&people.write()).is_ok_and(|link| link.question.name() == "human anchor"));
        }
        assert!(ways(r#"{"question": "in the current", "tool": "tether", "ends_on": "anchors"}"#).is_none());
    }

    #[test]
    fn the_forces_of_an_abseil_can_be_taken_to_people_who_hold() {
        let abseil = Question::named("abseil").unwrap();
        let answer = abseil.answer().unwrap();
        let ways = ways_on(&answer, &abseil, Units::default());
        let people = ways.iter().find(|link| link.question.name() == "human anchor").unwrap();
        assert_eq!(people.from, Some("ab"));
        let held = people.question.answer().unwrap();
        let found = |what: &str| held.findings.iter().find(|finding| finding.what.contains(what)).unwrap().band;
        assert_eq!(found("at rest"), answer.states.first().unwrap().band);
        // Not less than reaches the anchor.
        assert!(found("at a slip or catch").high() >= answer.carried.unwrap().anchor.high());
        assert!(Link::read(&people.write()).is_ok_and(|link| link.question.name() == "human anchor"));
    }
}
