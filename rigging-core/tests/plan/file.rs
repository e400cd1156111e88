//! Files of plans: any plan there is, damaged ones, old ones.

use super::decided::legs;
use super::{check, decided, folder, six};
use proptest::prelude::*;
use rigging_core::band::Band;
use rigging_core::plan::{DropAnchor, Plan, PlannedDrop, Record, Row, Said, WaterToday};
use rigging_core::quantity::{Kind, Time, second};
use rigging_core::question::{Asked, Entry, Held, Question, Takes};
use std::fs;

/// As a person types it: a few figures.
fn typed(value: f64) -> f64 {
    (value * 1e4).round() / 1e4
}

/// An entry for a field, from two shares of its range and a choice.
fn entry(field: &Asked, one: f64, other: f64, choice: usize) -> Entry {
    // An end that has more figures than a person types, as half a turn, is not typed to its last one.
    let at = |share: f64, least: f64, most: f64| {
        let value = typed(least + share * (most - least));
        typed(value + 1e-4 * (f64::from(value < least) - f64::from(value > most)))
    };
    match field.about.takes {
        Takes::One { least, most } => {
            let value = at(one, least, most);
            Entry::One(if field.about.kind == Kind::Count { value.round() } else { value })
        }
        Takes::Range { least, most } => {
            let (a, b) = (at(one, least, most), at(other, least, most));
            Entry::Range(Band::of(a, typed(f64::midpoint(a, b)), b))
        }
        Takes::Choice(choices) => Entry::Choice(choices[choice % choices.len()].name),
    }
}

type Shares = Vec<(f64, f64, usize)>;

fn shares() -> impl Strategy<Value = Shares> {
    prop::collection::vec((0.0..=1.0, 0.0..=1.0, 0_usize..64), 80)
}

fn filled<R: Record>(shares: &Shares, words: &str) -> R {
    let mut row = R::default();
    for (field, (one, other, choice)) in row.asked().iter().zip(shares) {
        let entry = entry(field, *one, *other, *choice);
        // A mass within its bounds that no question takes.
        if R::refuses(field.about.name, &entry).is_none() {
            row.set(field.about.name, &entry).unwrap();
        }
    }
    for text in R::texts() {
        let _ = row.say(text.name, if text.name == "date" { "2031-09-20" } else { words });
    }
    row
}

fn question(place: usize, shares: &Shares) -> Held {
    let all = Question::all();
    let mut question = all[place % all.len()].clone();
    for (field, (one, other, choice)) in question.clone().fields().iter().zip(shares) {
        question.set(field.about.name, &entry(field, *one, *other, *choice)).unwrap();
    }
    Held::new(question)
}

fn any_plan() -> impl Strategy<Value = Plan> {
    let words = "[a-zA-Z0-9 \"\\\\\n\t{}\u{e9}\u{1f9d7}-]{0,12}";
    (
        (shares(), shares(), words),
        prop::collection::vec(shares(), 0..6),
        prop::collection::vec(shares(), 0..4),
        prop::collection::vec((shares(), prop::collection::vec((0_usize..64, shares()), 0..3)), 0..4),
    )
        .prop_map(|((day, pace, words), group, ropes, drops)| Plan {
            day: filled(&day, &words),
            pace: filled(&pace, &words),
            group: group.iter().map(|shares| filled(shares, &words)).collect(),
            ropes: ropes.iter().map(|shares| filled(shares, &words)).collect(),
            drops: drops
                .iter()
                .map(|(shares, questions)| PlannedDrop {
                    questions: questions.iter().map(|(place, shares)| question(*place, shares)).collect(),
                    ..filled(shares, &words)
                })
                .collect(),
            unread: Vec::new(),
        })
}

/// What was refused is told on the paper and as JSON, and no drop is below a limit without it.
#[test]
fn no_drop_of_a_file_that_could_not_all_be_read_is_below_a_limit() {
    let file = six(vec![decided(vec![legs()])]).write();
    let stands = |text: &str| {
        let plan = Plan::read(text).unwrap().plan;
        let checked = check(&plan);
        let json = serde_json::to_value(Said { plan: &plan, checked: &checked }).unwrap();
        let open = json["open"].to_string().matches("could not be read: line ").count();
        assert_eq!(open, plan.text(&checked).matches("\n- could not be read: line ").count());
        // The file that is written of it is whole.
        assert_eq!(Plan::read(&plan.write()).unwrap().plan.unread, Vec::<String>::new());
        (checked.drops[0].standing.words(), open)
    };
    assert_eq!(stands(&file), ("below limit", 0));
    for (whole, damaged) in [
        ("\"set_back_m\": 3", "\"set_back_m\": \"30\""),
        ("\"set_back_m\": 3", "\"set_back_m\": 3, \"height_m\": 30"),
        ("\"questions\": [", "\"questions\": [{\"question\": \"abseill\"},"),
        ("\"start_s\": 32400", "\"start_s\": 8O"),
    ] {
        assert!(file.contains(whole), "{file}");
        assert_eq!(stands(&file.replacen(whole, damaged, 1)), ("not checked", 1), "{damaged}");
    }
}

#[test]
fn a_row_that_cannot_be_read_keeps_its_place() {
    let example = Plan::example();
    let mut file = serde_json::to_value(&example).unwrap();
    for list in ["ropes", "drops", "group"] {
        file[list][0] = serde_json::json!("x");
    }
    let reading = Plan::read(&file.to_string()).unwrap();
    assert_eq!(reading.refused.len(), 3);
    let plan = reading.plan;
    // What hangs on the second rope still does; the first is none that anybody hangs on.
    assert_eq!((plan.ropes.len(), &plan.ropes[1]), (example.ropes.len(), &example.ropes[1]));
    assert_eq!((plan.drops.len(), &plan.drops[1]), (example.drops.len(), &example.drops[1]));
    assert_eq!((plan.group.len(), &plan.group[1]), (example.group.len(), &example.group[1]));
    assert_eq!(plan.ropes[0].length.value, 0.0);
}

/// Found by inputs that nobody would type: such a range was written as `[0, 0, 0]` and read as one number.
#[test]
fn a_range_whose_ends_are_written_alike_is_written_as_one_number() {
    let seconds = Time::new::<second>;
    let mut plan = Plan { drops: vec![PlannedDrop::default()], ..Plan::default() };
    plan.drops[0].to_next = Band::of(0.0, 1e-300, 1e-299).map(seconds);
    let again = Plan::read(&plan.write()).unwrap();
    assert_eq!((again.plan.write(), again.refused), (plan.write(), vec![]));
    assert_eq!(again.plan.drops[0].to_next, Band::exact(seconds(0.0)));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn a_plan_comes_back_from_its_file_as_it_was(plan in any_plan()) {
        let text = plan.write();
        let reading = Plan::read(&text).unwrap();
        prop_assert_eq!(&reading.refused, &vec![]);
        prop_assert_eq!(&reading.plan, &plan);
        prop_assert_eq!(reading.plan.write(), text);
    }

    #[test]
    fn a_plan_comes_back_from_any_other_reader_of_json(plan in any_plan()) {
        // Numbers of few figures: the same from every writer.
        let text = serde_json::to_string(&plan).unwrap();
        prop_assert_eq!(&serde_json::from_str::<Plan>(&text).unwrap(), &plan);
        prop_assert_eq!(&Plan::read(&text).unwrap().plan, &plan);
    }

    #[test]
    fn a_file_cut_or_torn_anywhere_opens_as_far_as_it_goes_or_says_that_it_is_none(
        from in 0.0..1.0_f64, length in 0_usize..400, put in "[ -~\n]{0,6}",
    ) {
        let text = Plan::example().write();
        let start = (from * text.len() as f64) as usize;
        let end = (start + length).min(text.len());
        let torn = [&text[..start], &put, &text[end..]].concat();
        if let Ok(reading) = Plan::read(&torn) {
            let lines = torn.lines().count() + 1;
            prop_assert!(reading.refused.iter().all(|refused| refused.line <= lines && !refused.what.is_empty()));
            if torn != text && reading.plan != Plan::example() {
                let spoken = reading.refused.len() + usize::from(serde_json::from_str::<serde_json::Value>(&torn).is_ok());
                prop_assert!(spoken > 0, "lost without a word:\n{}", torn);
            }
            let _ = reading.plan.text(&check(&reading.plan));
        }
    }

    #[test]
    fn nonsense_is_no_plan_and_no_panic(text in "\\PC{0,60}|[\\[\\]{}\",:0-9a-z\\\\ \n.eE+-]{0,60}") {
        let _ = Plan::read(&text);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn any_plan_is_checked_without_a_panic_and_never_called_more_than_below_a_limit(plan in any_plan()) {
        let checked = check(&plan);
        prop_assert_eq!(checked.drops.len(), plan.drops.len());
        let _ = serde_json::to_string(&Said { plan: &plan, checked: &checked }).unwrap();
        let standings = ["below limit", "range crosses limit", "above limit", "not checked"];
        prop_assert!(checked.drops.iter().all(|drop| standings.contains(&drop.standing.words())));
        for (place, drop) in plan.drops.iter().enumerate() {
            let unknown = !matches!(drop.anchor, DropAnchor::Known | DropAnchor::NoRope);
            prop_assert!(!unknown || checked.first.contains(&place), "{:?}", drop.anchor);
            prop_assert!(!unknown || checked.drops[place].standing.words() != "below limit");
            prop_assert!(!checked.first.contains(&place) || !checked.drops[place].reasons.is_empty());
        }
    }
}

#[test]
fn files_of_every_version_are_still_read() {
    // Written by the program that had the version, and never again.
    let text = fs::read_to_string(folder().join("version-1.json")).unwrap();
    let reading = Plan::read(&text).unwrap();
    assert_eq!(reading.refused, []);
    let plan = reading.plan;
    assert_eq!((plan.drops.len(), plan.group.len(), plan.ropes.len()), (6, 5, 3));
    assert_eq!(plan.drops[3].height.map(|height| height.value), Band::of(16.0, 18.0, 21.0));
    assert_eq!(plan.drops[1].questions.len(), 3);
    assert!(plan.drops.iter().flat_map(|drop| &drop.questions).all(|held| held.missing.is_empty()));
    assert_eq!(plan.day.date, "2031-09-20");
}

#[test]
fn what_is_refused_of_a_file_is_named_with_its_line_and_the_rest_is_read() {
    let example = Plan::example().write();
    let line_of = |text: &str, part: &str| text.lines().position(|line| line.contains(part)).unwrap() + 1;
    for (from, to, place, words) in [
        ("\"height_m\": [", "\"hight_m\": [", "drop 1", "\"hight_m\" is not a field of \"drop\"; its fields are"),
        ("\"bottom\": \"stand\"", "\"bottom\": \"soup\"", "drop 1", "bottom is \"soup\": it must be one of"),
        ("\"body_kg\": 82", "\"body_kg\": -82", "person 1", "body_kg is -82: it must be from 0 to 160 kg"),
        ("\"body_kg\": 82", "\"body_kg\": \"heavy\"", "person 1", "it must be a number"),
        ("\"date\": \"2031-09-20\"", "\"date\": \"2031-02-30\"", "day", "refused date: it is no day"),
        (
            "\"girth_m\": [",
            "\"girth_m\": [true, ",
            "drop 1, natural anchor",
            "girth_m is a list, but not of numbers: it must be a number, or low",
        ),
        ("\"question\": \"abseil\"", "\"question\": \"leap\"", "drop 2", "question is \"leap\": it must be one of"),
        ("\"pace\": {", "\"pacing\": {", "", "\"pacing\" is not a part of a plan"),
        ("\"version\": 1", "\"version\": 99", "", "newer program"),
        ("\"version\": 1", "\"version\": \"one\"", "", "must be a whole number"),
    ] {
        let damaged = example.replacen(from, to, 1);
        assert_ne!(damaged, example, "{from}");
        let reading = Plan::read(&damaged).unwrap();
        let refused: Vec<String> = reading.refused.iter().map(ToString::to_string).collect();
        let line = line_of(&damaged, to.split_once('[').map_or(to, |(to, _)| to));
        let head = if place.is_empty() { format!("line {line}: ") } else { format!("line {line}: {place}: ") };
        assert!(refused.len() == 1 && refused[0].starts_with(&head) && refused[0].contains(words), "{to}: {refused:?}");
        assert_eq!((reading.plan.drops.len(), reading.plan.group.len()), (6, 5), "{to}");
        // The strict reader stops at it.
        assert!(serde_json::from_str::<Plan>(&damaged).is_err(), "{to}");
    }
    for none in ["", "[]", "{}", "7", "{\"format\": \"rig\"}", "{\"points\": []}", "no plan at all"] {
        assert!(Plan::read(none).unwrap_err().to_string().contains("no rigging plan"), "{none}");
    }
    let cut = &example[..example.find("Blind ledge").unwrap()];
    let reading = Plan::read(cut).unwrap();
    assert_eq!(reading.plan.drops.len(), 4, "the fourth as far as it goes");
    assert_eq!(reading.plan.drops[2], Plan::example().drops[2]);
    assert!(reading.refused.iter().any(|refused| refused.line == cut.lines().count()), "{:?}", reading.refused);
}

#[test]
fn what_is_no_value_is_refused_in_the_words_of_a_question_alone() {
    for value in [
        "[]",
        "[1, 2]",
        "[1, 2, 3, 4, 5]",
        "[1, true, 3]",
        "[1, 2, 3, {}]",
        "[3, 2, 1]",
        "{}",
        "null",
        "true",
        "\"wide\"",
    ] {
        let question = format!(r#"{{"question": "line", "span_m": {value}}}"#);
        let alone = serde_json::from_str::<Question>(&question).unwrap_err().to_string();
        let plan = format!(r#"{{"format": "rigging plan", "version": 1, "drops": [{{"questions": [{question}]}}]}}"#);
        let refused = Plan::read(&plan).unwrap().refused;
        assert!(refused.len() == 1 && alone.contains("span_m is "), "{refused:?}, {alone}");
        assert!(alone.starts_with(&refused[0].what), "{refused:?}, {alone}");
    }
}

#[test]
fn a_field_of_a_question_that_nobody_gave_is_never_compared_and_stays_missing_in_the_file() {
    let text = r#"{"format": "rigging plan", "version": 1, "drops": [{"name": "one", "anchor": "known", "questions": [
        {"question": "anchor legs", "anchor": "known", "limit": "own", "own_limit_n": 100000}]}]}"#;
    let plan = Plan::read(text).unwrap().plan;
    let checked = check(&plan);
    assert_eq!(checked.drops[0].standing.words(), "not checked");
    // By the label of its box.
    let fields = plan.drops[0].questions[0].question.fields();
    let apart = fields.iter().find(|field| field.about.name == "apart_m").unwrap().about.label;
    assert!(
        checked.open.iter().any(|open| open.what.contains("example") && open.what.contains(apart)),
        "{:?}",
        checked.open
    );
    let again = Plan::read(&plan.write()).unwrap().plan;
    assert_eq!(again, plan);
    assert!(!plan.write().contains("apart_m"));
    let mut mine = plan;
    for name in mine.drops[0].questions[0].missing.clone() {
        let held = &mut mine.drops[0].questions[0];
        let now = held.question.fields().into_iter().find(|field| field.about.name == name).unwrap().entry;
        held.set(name, &now).unwrap();
    }
    // Near each other: if one fails, it is little of a drop.
    mine.drops[0].questions[0].set("apart_m", &Entry::Range(Band::exact(0.3))).unwrap();
    mine.drops = vec![decided(mine.drops[0].questions.clone())];
    mine.ropes = Plan::example().ropes;
    mine.day.water = WaterToday::AsEntered;
    assert_eq!(check(&mine).drops[0].standing.words(), "below limit");
}

#[test]
fn a_spoilt_file_ends_in_no_more_words_than_anybody_reads() {
    let unknown: Vec<String> = (0..20_000).map(|number| format!("\"x{number}\": 1")).collect();
    let text = format!("{{\"format\": \"rigging plan\", \"version\": 1, \"day\": {{{}}}}}", unknown.join(", "));
    assert_eq!(Plan::read(&text).unwrap().refused.len(), 500);
    let question = format!("{{\"question\": \"line\", {}}}", unknown.join(", "));
    let refused = serde_json::from_str::<Question>(&question).unwrap_err().to_string();
    assert!(refused.starts_with("invalid length 501"), "{refused}");
}
