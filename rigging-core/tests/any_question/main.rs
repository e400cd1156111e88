//! Whatever is asked within the bounds of the fields: an answer in numbers, or a reason; never a panic.
#![cfg(not(target_arch = "wasm32"))]
#![expect(
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a check that cannot go on has failed"
)]

mod what_if;

use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::TestRunner;
use rigging_core::band::Band;
use rigging_core::limit::Standing;
use rigging_core::quantity::Kind;
use rigging_core::question::scene::size;
use rigging_core::question::{Answer, BadInput, Comparison, End, Entry, Finding, Question, State, Takes};
use std::cell::Cell;

/// A question with every field set to some place between its bounds.
fn any_question() -> impl Strategy<Value = Question> {
    any_of(Question::all())
}

/// One of some questions, with every field set to some place between its bounds.
fn any_of(questions: Vec<Question>) -> impl Strategy<Value = Question> {
    (select(questions), prop::collection::vec((0.0..=1.0, 0.0..=1.0, 0_usize..64), 64)).prop_map(
        |(mut question, shares)| {
            for (field, (one, other, choice)) in question.fields().into_iter().zip(shares) {
                let at = |share: f64, least: f64, most: f64| {
                    // Half of the time near the low end, where things go wrong.
                    let share = if choice % 2 == 0 { share } else { share.powi(6) };
                    least + share * (most - least)
                };
                let entry = match field.about.takes {
                    Takes::One { least, most } => {
                        let value = at(one, least, most);
                        Entry::One(if field.about.kind == Kind::Count { value.round() } else { value })
                    }
                    Takes::Range { least, most } => {
                        let (a, b): (f64, f64) = (at(one, least, most), at(other, least, most));
                        Entry::Range(Band::of(a, f64::midpoint(a, b), b))
                    }
                    Takes::Choice(choices) => Entry::Choice(choices[choice % choices.len()].name),
                };
                question.set(field.about.name, &entry).unwrap();
            }
            question
        },
    )
}

fn is_whole(answer: &Answer) -> Result<(), String> {
    let bands = answer.findings.iter().chain(&answer.states).map(|finding| (finding.what.as_str(), finding.band));
    for (what, band) in bands.chain(answer.comparisons.iter().map(|compared| (compared.what.as_str(), compared.load))) {
        let ordered = band.low() <= band.typical() && band.typical() <= band.high();
        if !ordered || !band.low().is_finite() || !band.high().is_finite() {
            return Err(format!("{what}: {band:?}"));
        }
    }
    // The same words may not stand beside two ranges.
    for (told, compared) in
        answer.findings.iter().flat_map(|told| answer.comparisons.iter().map(move |one| (told, one)))
    {
        let near = |one: f64, other: f64| (one - other).abs() <= 1e-9 * one.abs().max(1.0);
        let same = near(told.band.low(), compared.load.low()) && near(told.band.high(), compared.load.high());
        if told.what == compared.what && !same {
            return Err(format!("{}: {:?} beside {:?}", told.what, told.band, compared.load));
        }
    }
    for step in &answer.working {
        let mut numbers = step.given.iter().chain([&step.result]);
        if let Some(given) = numbers.find(|given| !given.band.high().is_finite()) {
            return Err(format!("{}: {given:?}", step.what));
        }
    }
    let polygon = &answer.scene.polygon;
    let largest = polygon.iter().map(|arrow| size(arrow.pull)).fold(0.0, f64::max);
    let sum = polygon.iter().fold([0.0, 0.0], |[x, y], arrow| [x + arrow.pull[0], y + arrow.pull[1]]);
    if size(sum) > 1e-6 * largest {
        return Err(format!("the polygon does not close: {sum:?} of {largest}"));
    }
    let places = answer.scene.lines.iter().flat_map(|line| [line.from, line.to]);
    let mut places = places.chain(answer.scene.forces.iter().flat_map(|arrow| [arrow.at, arrow.pull]));
    match places.find(|[x, y]| !x.is_finite() || !y.is_finite()) {
        Some(place) => Err(format!("the scene has a place {place:?}")),
        None => Ok(()),
    }
}

/// A question as people ask it: ranges about the example's values, at most half to one and a half times them, and
/// the same question with narrower ranges inside.
fn any_pair() -> impl Strategy<Value = (Question, Question)> {
    let count = Question::all().len();
    let numbers = prop::collection::vec((0.5..1.5_f64, 0.5..1.5_f64, 0.0..=1.0, 0.0..=1.0, 0_usize..64), 64);
    (0..count, numbers).prop_map(|(which, numbers)| {
        let mut wide = Question::all()[which].clone();
        let mut narrow = wide.clone();
        for (field, (one, other, from, to, choice)) in wide.fields().into_iter().zip(numbers) {
            let (outer, inner) = match (field.about.takes, field.entry) {
                (Takes::Range { least, most }, Entry::Range(band)) => {
                    let at = |times: f64| (times * band.typical()).clamp(least, most);
                    let (low, high) = (at(one.min(other)), at(one.max(other)));
                    let within = |share: f64| low + share * (high - low);
                    let (a, b) = (within(f64::min(from, to)), within(f64::max(from, to)));
                    let range = |a: f64, b: f64| Entry::Range(Band::of(a, f64::midpoint(a, b), b));
                    (range(low, high), range(a, b))
                }
                // How far a load may swing is a range too.
                (Takes::One { most, .. }, Entry::One(_)) if field.about.name.starts_with("swing") => {
                    let wide = (other - 0.5) * most;
                    (Entry::One(wide), Entry::One(from * wide))
                }
                (Takes::Choice(choices), _) => {
                    let same = Entry::Choice(choices[choice % choices.len()].name);
                    (same, same)
                }
                (Takes::One { least, most }, Entry::One(_)) if field.about.kind == Kind::Count => {
                    let same = Entry::One((least + (choice % 6) as f64).min(most));
                    (same, same)
                }
                (Takes::One { least, most }, Entry::One(usual)) => {
                    let same = Entry::One((usual * (choice as f64 - 8.0) / 8.0).clamp(least, most));
                    (same, same)
                }
                (_, same) => (same, same),
            };
            wide.set(field.about.name, &outer).unwrap();
            narrow.set(field.about.name, &inner).unwrap();
        }
        (wide, narrow)
    })
}

/// As many random cases as each check here gets.
fn config() -> ProptestConfig {
    ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() }
}

/// Puts random cases to a check, which tells of each whether there was anything to look at: in so great a share of them
/// there must be, for a check that looks at nothing holds of anything.
fn holds<S: Strategy>(cases: S, least: f64, check: impl Fn(S::Value) -> Result<bool, TestCaseError>) {
    let looked = Cell::new(0_u32);
    let outcome = TestRunner::new(config()).run(&cases, |case| {
        looked.set(looked.get() + u32::from(check(case)?));
        Ok(())
    });
    if let Err(error) = outcome {
        panic!("{error}");
    }
    let share = f64::from(looked.get()) / f64::from(config().cases);
    println!("{share:.3} of all cases had something to look at; {least} must");
    assert!(share >= least, "only {share:.3} of all cases had anything to look at");
}

#[test]
fn has_an_answer_in_numbers_or_a_reason() {
    holds(any_question(), 0.3, |question| {
        match question.answer() {
            Ok(answer) => {
                let whole = is_whole(&answer);
                prop_assert!(whole.is_ok(), "{:?} of {}", whole, serde_json::to_string(&question).unwrap());
                return Ok(true);
            }
            // Of what was entered, not of a search that ran out or of a number that came of none.
            Err(BadInput::Together(reason)) => {
                let own = reason.must != "a finite number" && !reason.what.starts_with("steps");
                prop_assert!(!reason.what.is_empty() && own, "{reason} {}", serde_json::to_string(&question).unwrap());
            }
            Err(BadInput::Refused { what, why }) => prop_assert!(!what.is_empty() && !why.is_empty()),
            Err(other) => prop_assert!(false, "{other}"),
        }
        Ok(false)
    });
}

#[test]
fn has_no_worse_case_inside_its_ranges() {
    holds(any_pair(), 0.5, |(wide, narrow)| {
        let (Ok(wide_answer), Ok(narrow_answer)) = (wide.answer(), narrow.answer()) else { return Ok(false) };
        let all = |answer: &Answer| [answer.findings.clone(), answer.states.clone()].concat();
        let mut compared = false;
        for inner in all(&narrow_answer) {
            let Some(outer) = all(&wide_answer).into_iter().find(|finding| finding.what == inner.what) else {
                continue;
            };
            compared = true;
            // Five centimetres are little on a way of metres.
            let least = if inner.kind == Kind::Length { 0.05 } else { 1e-9 };
            let share = may_be_worse_by(&wide, &inner);
            let holds = match inner.end {
                End::High => inner.band.high() <= outer.band.high() * (1.0 + share) + least,
                End::Low => inner.band.low() >= outer.band.low() * (1.0 - share) - least,
            };
            let json = |question| serde_json::to_string(question).unwrap();
            prop_assert!(
                holds,
                "{}: {:?} in {:?}\n{}\n{}",
                inner.what,
                inner.band,
                outer.band,
                json(&narrow),
                json(&wide)
            );
        }
        Ok(compared)
    });
}

/// Of each of three anchors or more the worst is searched for, as the answer says; with several on a guide the other states
/// are looked at in few places.
fn may_be_worse_by(question: &Question, finding: &Finding) -> f64 {
    let counted = |name: &str, least: f64| {
        question.fields().iter().any(|field| field.about.name == name && field.entry.middle() >= least)
    };
    let bare = State::ALL.iter().any(|state| finding.what.ends_with(state.words()));
    match question.name() {
        "anchor legs" if counted("anchors", 3.0) => 0.1,
        "guided abseil" if counted("people", 2.0) && bare => 0.03,
        _ => 0.005,
    }
}

/// With a limit of one's own somewhere about the range of the first row.
#[test]
fn no_row_below_its_limit_crosses_it_inside_its_ranges() {
    holds((any_pair(), 0.0..1.05_f64), 0.05, |((mut wide, mut narrow), share)| {
        let own = |question: &mut Question, limit: f64| {
            let set = |(name, entry): (&str, Entry)| question.set(name, &entry);
            let (known, own) = (Entry::Choice("known"), Entry::Choice("own"));
            let one = Entry::One(1.0);
            [("anchor", known), ("limit", own), ("own_limit_n", Entry::One(limit)), ("design_factor", one)]
                .into_iter()
                .try_for_each(set)
                .is_ok()
        };
        if !own(&mut wide, 1000.0) {
            return Ok(false);
        }
        let Ok(Some(first)) = wide.answer().map(|answer| answer.comparisons.into_iter().next()) else {
            return Ok(false);
        };
        let limit = first.load.low() + share * (first.load.high() - first.load.low());
        if !own(&mut wide, limit) || !own(&mut narrow, limit) {
            return Ok(false);
        }
        let (Ok(wide), Ok(narrow)) = (wide.answer(), narrow.answer()) else { return Ok(false) };
        let mut compared = false;
        for outer in wide.comparisons.iter().filter(|row| is_below(row)) {
            for inner in narrow.comparisons.iter().filter(|inner| inner.what == outer.what) {
                compared = true;
                // A search that is some per cent off may cross it by as much.
                prop_assert!(is_below(inner) || inner.load.high() < 1.1 * limit, "{inner:?}\n{outer:?}");
            }
        }
        Ok(compared)
    });
}

fn is_below(row: &Comparison) -> bool {
    row.standing == Standing::BelowLimit
}

#[test]
fn neither_water_nor_people_nor_what_grows_is_ever_below_a_limit() {
    let three = ["in the current", "human anchor", "natural anchor"].map(|name| Question::named(name).unwrap());
    holds(any_of(three.to_vec()), 0.3, |question| {
        let Ok(answer) = question.answer() else { return Ok(false) };
        for row in answer.comparisons.iter().chain(&answer.usual) {
            prop_assert_ne!(row.standing, Standing::BelowLimit, "{:?}", row);
        }
        for row in &answer.comparisons {
            let Some(limit) = &row.limit else { continue };
            // Surely too much only where the least load is more than the most that may be held.
            prop_assert!(row.standing != Standing::AboveLimit || row.load.low() > limit.band.high(), "{row:?}");
            // And where it may be more than the least, that is not left unsaid.
            prop_assert!(row.load.high() <= limit.band.low() || row.standing.words() != "not checked", "{row:?}");
        }
        let natural = question.name() == "natural anchor";
        prop_assert!(!natural || answer.findings.iter().all(|found| found.end == End::High || found.at_most));
        Ok(answer.comparisons.iter().any(|row| row.limit.is_some()))
    });
}

#[test]
fn says_what_each_state_is_of_unless_it_is_of_the_number_above() {
    // As people ask, but with any counts: few of the states have no name but that of the state.
    holds(any_pair().prop_map(|(wide, _)| wide), 0.05, |question| {
        let Ok(answer) = question.answer() else { return Ok(false) };
        let bare = |what: &str| State::ALL.iter().any(|state| what == state.words());
        let [first, ..] = answer.findings.as_slice() else { return Ok(false) };
        let asked = answer.states.iter().any(|found| bare(&found.what));
        if asked {
            let of_it = answer.states.iter().any(|found| (found.band.high() / first.band.high() - 1.0).abs() < 1e-9);
            prop_assert!(of_it, "{}: {:?} under {:?}", question.name(), answer.states, first);
        }
        Ok(asked)
    });
}

/// Other cases than the one that was asked: they are set beside it, and neither compared nor carried on.
const OTHER_CASES: [&str; 5] = [
    // A slip on other rope, or otherwise begun.
    "The same ",
    "From as far out on ",
    "A slip with 0.5 m of slack",
    "At that speed, but not hanging",
    // A line set otherwise.
    "Pulled tight",
];

/// The forces on an anchor, or on a deviation, of the case that was asked.
fn on_anchors(answer: &Answer) -> impl Iterator<Item = &Finding> {
    let is_other = |case: &str| OTHER_CASES.iter().any(|other| case.starts_with(other));
    // Whoever raises, lowers or rests is told that another way pulls harder.
    let told =
        |way: &str| answer.remarks.iter().any(|remark| remark.starts_with(way) && remark.contains("pulls harder"));
    let told = [("Raising", "while raising"), ("Lowering", "while lowering"), ("At rest", "at rest, friction holding")]
        .map(|(way, words)| (told(way), words));
    let beside = answer.outcomes.iter().filter(move |outcome| !is_other(&outcome.case));
    answer.findings.iter().chain(beside.flat_map(|outcome| &outcome.findings)).filter(move |found| {
        let on = ["on the anchor", "on the deviation"].iter().any(|words| found.what.contains(words));
        on && found.kind == Kind::Force && !told.iter().any(|(told, words)| *told && found.what.contains(words))
    })
}

#[test]
fn compares_and_carries_on_the_most_that_any_anchor_gets() {
    // Figures of what may be at an anchor, and no bolt's, which tells tension and shear as one pull.
    let limits = ["own", "connector", "connector open", "screw link"].to_vec();
    let asks_limit = |asked: &Question| asked.fields().iter().any(|field| field.about.name == "limit");
    let asked = any_of(Question::all().into_iter().filter(asks_limit).collect());
    let cases = prop_oneof![asked, any_pair().prop_map(|(wide, _)| wide)];
    holds((cases, select(limits)), 0.1, |(mut question, limit)| {
        let chosen = question.set("limit", &Entry::Choice(limit)).is_ok();
        let Ok(answer) = question.answer() else { return Ok(false) };
        let near = 1.0 + 1e-9;
        let compared = answer.comparisons.iter().map(|row| row.load.high()).fold(0.0, f64::max);
        for found in on_anchors(&answer) {
            let (what, high) = (&found.what, found.band.high());
            let json = serde_json::to_string(&question).unwrap();
            if let Some(carried) = &answer.carried {
                prop_assert!(
                    high <= carried.anchor.high() * near,
                    "{what}: {high} and not {carried:?} goes on: {json}"
                );
            }
            prop_assert!(!chosen || high <= compared * near, "{what}: {high}, compared is {compared}: {json}");
        }
        Ok(chosen && on_anchors(&answer).next().is_some())
    });
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn keeps_its_meaning_through_json(question in any_question()) {
        let json = serde_json::to_string(&question).unwrap();
        let back: Question = serde_json::from_str(&json).unwrap();
        prop_assert_eq!(&serde_json::to_string(&back).unwrap(), &json);
    }

    #[test]
    fn no_text_makes_the_reader_panic(text in ".{0,200}") {
        let _ = serde_json::from_str::<Question>(&text);
        let _ = serde_json::from_str::<Question>(&format!("{{\"question\":\"line\",\"span_m\":{text}}}"));
    }
}
