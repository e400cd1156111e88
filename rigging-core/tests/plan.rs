//! The rigging plan as a whole: its file, what moves through it, what heads it, and its text.
//!
//! `UPDATE_PLANS=1 cargo test -p rigging-core --test plan` writes the pinned text of the example anew. The files of
//! old versions are never written anew.
#![cfg(not(target_arch = "wasm32"))]
#![expect(clippy::indexing_slicing, clippy::unwrap_used, reason = "a check that cannot go on has failed")]

use proptest::prelude::*;
use rigging_core::band::Band;
use rigging_core::plan::{
    Answers, CarriedRope, Checked, DropAnchor, Held, Person, Plan, PlannedDrop, Record, RopeSkill, Row, Said,
    TEACHINGS, WaterSkill, WaterToday, Why,
};
use rigging_core::quantity::{Kind, Length, Mass, Time, Unit, Units, kilogram, metre, second};
use rigging_core::question::{Asked, Bottom, Entry, Question, Takes};
use std::fs;
use std::path::{Path, PathBuf};
use std::time::Instant;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/plans")
}

fn check(plan: &Plan) -> Checked {
    plan.check(&mut Answers::default(), Units::default())
}

/// As a person types it: a few figures.
fn typed(value: f64) -> f64 {
    (value * 1e4).round() / 1e4
}

/// An entry for a field, from two shares of its range and a choice.
fn entry(field: &Asked, one: f64, other: f64, choice: usize) -> Entry {
    let at = |share: f64, least: f64, most: f64| typed(least + share * (most - least)).clamp(least, most);
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
        row.set(field.about.name, &entry(field, *one, *other, *choice)).unwrap();
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
        })
}

/// Words that no result may be called by.
const NEVER: [&str; 11] =
    ["safe", "secure", "okay", " ok", "passes", "passed", "fine", "approved", "certified", "guarantee", "bombproof"];

fn holds_to_its_words(text: &str) {
    let small = text.to_lowercase();
    for word in NEVER {
        assert!(!small.contains(word), "{word} in\n{text}");
    }
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
fn the_text_of_the_example_is_the_one_on_file() {
    let plan = Plan::example();
    let now = plan.text(&check(&plan));
    holds_to_its_words(&now);
    let file = folder().join("example.txt");
    if std::env::var_os("UPDATE_PLANS").is_some() {
        fs::write(&file, &now).unwrap();
    }
    let then = fs::read_to_string(&file).unwrap_or_default();
    assert!(then == now, "{then}\nis now\n{now}");
}

#[test]
fn the_example_shows_every_part_of_a_plan_and_is_marked_as_made_up() {
    let plan = Plan::example();
    let text = plan.text(&check(&plan));
    assert!(text.starts_with("EXAMPLE") && text.contains("no such place"));
    let asked: Vec<&str> =
        plan.drops.iter().flat_map(|drop| &drop.questions).map(|held| held.question.name()).collect();
    for name in ["natural anchor", "anchor legs", "rope", "abseil", "in the current", "human anchor", "pull-down"] {
        assert!(asked.contains(&name), "{name}");
    }
    assert_eq!(asked.len(), 11, "a field of the example has another name or bound: {asked:?}");
    for part in [
        "LATE",
        "OPEN DECISIONS",
        "RESERVE ROPE",
        "LOOK AT THESE DROPS FIRST",
        "TIME AND LIGHT",
        "ORDER OF THE GROUP",
        "BRING",
    ] {
        assert!(text.contains(part), "{part}");
    }
    assert!(text.contains("DICTATES THE ROPE") && text.contains("Turn-round") && text.contains("not valid"));
}

#[test]
fn the_plan_is_told_in_feet_and_pounds_with_the_same_care() {
    let plan = Plan::example();
    let units = Units { force: Unit::PoundForce, length: Unit::Foot };
    let text = plan.text(&plan.check(&mut Answers::default(), units));
    // 60 m of rope are 196.85 ft (NIST Special Publication 811, appendix B.8: 0.3048 m to the foot): what is there is
    // rounded down, what is needed outward.
    let reserve = "121 ft to 165 ft needed, 196 ft there, at least 32.7 ft left";
    assert!(text.replace('\u{a0}', " ").contains(reserve), "{text}");
    for unit in ["kN", "N", "m", "kg", "mm"] {
        let told = format!("\u{a0}{unit}");
        let alone = |at: usize| !text[at + told.len()..].starts_with(char::is_alphabetic);
        assert!(!text.match_indices(&told).any(|(at, _)| alone(at)), "{unit} in {text}");
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
        ("\"girth_m\": [", "\"girth_m\": [true, ", "drop 1, natural anchor", "girth_m is something else"),
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
fn a_field_of_a_question_that_nobody_gave_is_never_compared_and_stays_missing_in_the_file() {
    let text = r#"{"format": "rigging plan", "version": 1, "drops": [{"name": "one", "anchor": "known", "questions": [
        {"question": "anchor legs", "anchor": "known", "limit": "own", "own_limit_n": 100000}]}]}"#;
    let plan = Plan::read(text).unwrap().plan;
    let checked = check(&plan);
    assert_eq!(checked.drops[0].standing.words(), "not checked");
    assert!(
        checked.open.iter().any(|open| open.what.contains("example") && open.what.contains("apart_m")),
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
    assert_eq!(check(&mine).drops[0].standing.words(), "below limit");
}

#[test]
fn one_mass_and_one_step_of_water_move_through_the_whole_plan() {
    let mut plan = Plan::example();
    plan.day.water = WaterToday::AsEntered;
    let before = check(&plan);
    let mut heavier = plan.clone();
    heavier.group[2].body = Mass::new::<kilogram>(120.0);
    let after = check(&heavier);
    for (before, after) in before.drops.iter().zip(&after.drops) {
        for (was, is) in before.asked.iter().zip(&after.asked) {
            let moves = was.question.fields().iter().any(|field| field.about.name == "body_kg");
            assert_eq!(was.question != is.question, moves, "{}", is.question.name());
            assert!(!moves || is.given.contains(&"body_kg"));
        }
    }
    plan.day.water = WaterToday::MuchHigher;
    let higher = check(&plan);
    let value = |checked: &Checked, drop: usize, question: usize, name: &str| {
        let fields = checked.drops[drop].asked[question].question.fields();
        fields.into_iter().find(|field| field.about.name == name).unwrap().entry
    };
    // Two words up, and no farther than the last.
    assert_eq!(value(&before, 2, 0, "flow"), Entry::Choice("stroll"));
    assert_eq!(value(&higher, 2, 0, "flow"), Entry::Choice("jog"));
    assert_eq!(value(&higher, 2, 0, "depth"), Entry::Choice("waist"));
    assert_eq!(value(&before, 1, 2, "falling_water"), Entry::Choice("shower"));
    assert_eq!(value(&higher, 1, 2, "falling_water"), Entry::Choice("full pipe"));
    let pull = |checked: &Checked| checked.drops[2].answers[0].as_ref().as_ref().unwrap().findings[0].band.high();
    assert!(pull(&higher) > pull(&before));
}

#[test]
fn a_question_put_to_a_drop_gives_it_what_it_does_not_say_yet_and_no_set_back_is_lost() {
    let rope = Held::new(Question::named("rope").unwrap());
    let mut drop = PlannedDrop { height: Band::exact(Length::new::<metre>(19.0)), ..PlannedDrop::default() };
    drop.put(rope.clone());
    assert_eq!((drop.height.high().value, drop.set_back.value, drop.bottom), (19.0, 3.0, Bottom::Still));
    let mut empty = PlannedDrop::default();
    empty.put(rope);
    assert_eq!(empty.height.map(|height| height.value), Band::of(18.0, 20.0, 23.0));
    // A drop from a file that says nothing of its set-back leaves that of its question.
    empty.set_back = Length::new::<metre>(0.0);
    let asked = &Plan { drops: vec![empty], ..Plan::default() }.asked_today(0)[0];
    let set_back = asked.fields.iter().find(|field| field.about.name == "set_back_m").unwrap();
    assert_eq!(set_back.entry, Entry::One(3.0));
}

#[test]
fn nothing_is_below_a_limit_while_a_mass_or_the_water_it_hangs_on_is_not_known() {
    let mut legs = Question::named("anchor legs").unwrap();
    let mut abseil = Question::named("abseil").unwrap();
    for question in [&mut legs, &mut abseil] {
        question.set("anchor", &Entry::Choice("known")).unwrap();
        question.set("limit", &Entry::Choice("own")).unwrap();
        question.set("own_limit_n", &Entry::One(100_000.0)).unwrap();
    }
    let mut plan = six(vec![PlannedDrop { anchor: DropAnchor::Known, ..PlannedDrop::default() }]);
    plan.drops[0].questions = vec![Held::new(legs)];
    assert_eq!(check(&plan).drops[0].standing.words(), "below limit");
    plan.day.water = WaterToday::NotSeen;
    assert_eq!(check(&plan).drops[0].standing.words(), "below limit", "no water moves it");
    plan.group[3].body = Mass::new::<kilogram>(0.0);
    assert_eq!(check(&plan).drops[0].standing.words(), "not checked");
    abseil.set("falling_water", &Entry::Choice("trickle")).unwrap();
    plan.drops[0].questions = vec![Held::new(abseil)];
    assert!(plan.asked_today(0)[0].moves_with_water);
}

#[test]
fn each_answer_is_the_one_of_the_question_on_its_own_screen() {
    let plan = Plan::example();
    for drop in &check(&plan).drops {
        for (asked, answer) in drop.asked.iter().zip(&drop.answers) {
            assert_eq!(answer.as_ref(), &asked.question.answer(), "{}", asked.question.name());
            // Its JSON is that of the one door.
            let json = serde_json::to_string(&asked.question).unwrap();
            assert_eq!(serde_json::from_str::<Question>(&json).unwrap(), asked.question);
        }
    }
}

#[test]
fn drops_that_cross_a_limit_come_first_then_those_that_rest_on_what_nobody_knows() {
    let plan = Plan::example();
    let checked = check(&plan);
    let class = |place: &usize| match checked.drops[*place].reasons[0].why {
        Why::Above => 0,
        Why::Crosses => 1,
        Why::NoAnswer | Why::NotConfirmed => 2,
        Why::RestsOn(_) => 3,
    };
    let classes: Vec<_> = checked.first.iter().map(|place| (class(place), *place)).collect();
    assert!(classes.is_sorted(), "{classes:?}");
    assert!(classes.iter().map(|(class, _)| *class).collect::<Vec<_>>().contains(&3));
    for place in &checked.first {
        assert!(
            checked.drops[*place].reasons.iter().all(|reason| !reason.what.is_empty() && !reason.change.is_empty())
        );
    }
}

#[test]
fn the_group_is_never_sorted_and_both_teachings_stand_beside_a_blank() {
    let mut plan = Plan::example();
    for turn in 0..plan.group.len() {
        plan.group.rotate_left(1);
        let text = plan.text(&check(&plan));
        let order = &text[text.find("ORDER OF THE GROUP").unwrap()..];
        let places: Vec<_> =
            plan.group.iter().map(|person| order.find(&format!("- {}: ", person.name)).unwrap()).collect();
        assert!(places.is_sorted(), "turn {turn}");
        assert!(TEACHINGS.iter().all(|teaching| order.contains(teaching.first) && order.contains(teaching.last)));
        assert!(order.contains("The leader's order: ____"));
    }
}

/// A group as practice knows it: six people of whom two rig, with two ropes.
fn six(drops: Vec<PlannedDrop>) -> Plan {
    let person =
        |rope| Person { body: Mass::new::<kilogram>(75.0), rope, water: WaterSkill::Still, ..Person::default() };
    let group =
        [RopeSkill::Rigs, RopeSkill::Rigs, RopeSkill::Alone, RopeSkill::Alone, RopeSkill::Alone, RopeSkill::New];
    let rope = CarriedRope { length: Length::new::<metre>(40.0), ..CarriedRope::default() };
    let mut plan =
        Plan { group: group.map(person).to_vec(), ropes: vec![rope.clone(), rope], drops, ..Plan::default() };
    plan.day.water = WaterToday::AsEntered;
    plan
}

/// Fifteen drops of 3 to 14 m.
fn fifteen() -> Vec<PlannedDrop> {
    let drop = |place: u32| PlannedDrop {
        height: Band::exact(Length::new::<metre>(3.0 + 11.0 * f64::from(place) / 14.0)),
        bottom: Bottom::Stand,
        anchor: DropAnchor::Known,
        ..PlannedDrop::default()
    };
    (0..15).map(drop).collect()
}

#[test]
fn the_usual_times_of_practice_lie_within_what_the_defaults_give() {
    // Common practice, no source: about six people on fifteen drops of 3 to 14 m take 3 to 6 h at ordinary water …
    const HOUR: f64 = 3600.0;
    let mut plan = six(fifteen());
    let ordinary = plan.times().descent;
    assert!(ordinary.low() <= 3.0 * HOUR && ordinary.high() >= 6.0 * HOUR, "{ordinary:?}");
    assert!((3.0 * HOUR..=6.0 * HOUR).contains(&ordinary.typical()), "{ordinary:?}");
    // … and close to 8 h in high flow, with hand-lines and people sent ahead to look.
    plan.day.water = WaterToday::Higher;
    let high = plan.times().descent;
    assert!(high.low() <= 8.0 * HOUR && high.high() >= 8.0 * HOUR, "{high:?}");
    assert!((7.0 * HOUR..=9.0 * HOUR).contains(&high.typical()), "{high:?}");
}

#[test]
fn the_time_of_one_drop_is_that_of_its_formula() {
    // By hand: one person, one rope, 9 m at 0.3 m/s = 30 s; rig 5, check 2, off 0.5, signal 1, pull 3 min.
    let mut plan = six(fifteen()[..1].to_vec());
    plan.group.truncate(1);
    plan.drops[0].height = Band::exact(Length::new::<metre>(9.0));
    let times = plan.times();
    assert_eq!(times.descent.typical(), 60.0 * (5.0 + 2.0 + 0.5 + 1.0 + 3.0) + 30.0);
    // With six of them all but rigging and pulling six times over: nothing is rigged ahead of one drop.
    let all = six(plan.drops.clone()).times();
    assert_eq!(all.descent.typical(), 60.0 * (5.0 + 6.0 * 3.5 + 3.0) + 180.0);
    // Turn-round: last light less the slow time left less an hour.
    let mut late = six(plan.drops);
    late.day.light_by = rigging_core::plan::LightBy::Own;
    late.day.own_last_light = Time::new::<second>(18.0 * 3600.0);
    let times = late.times();
    assert_eq!(times.drops[0].not_after.unwrap()[0], 17.0 * 3600.0 - times.descent.high());
}

#[test]
fn a_second_rope_saves_time_only_with_two_who_can_rig_and_never_more_than_the_longest_drop_takes() {
    let plan = six(fifteen());
    let both = plan.times();
    assert!(both.second_rope.is_ok());
    let mut one = plan.clone();
    one.ropes.truncate(1);
    assert!(one.times().descent.typical() > both.descent.typical());
    let mut alone = plan.clone();
    alone.group[1].rope = RopeSkill::Alone;
    assert_eq!(alone.times().descent, one.times().descent);
    let mut uneven = plan;
    uneven.drops.truncate(2);
    uneven.drops[0].extra = Band::exact(Time::new::<second>(36_000.0));
    assert!(uneven.times().descent.low() > 36_000.0);
}

#[test]
fn what_runs_past_last_light_heads_the_plan() {
    let mut plan = Plan::example();
    plan.day.water = WaterToday::AsEntered;
    plan.day.start = Time::new::<second>(17.0 * 3600.0);
    let checked = check(&plan);
    let text = plan.text(&checked);
    assert!(text.find("LATE").unwrap() < text.find("OPEN DECISIONS").unwrap());
    assert!(text.contains("past last light") && text.contains("past the end of twilight"));
    plan.day.start = Time::new::<second>(0.0);
    for drop in &mut plan.drops {
        drop.extra = Band::exact(Time::new::<second>(0.0));
    }
    assert!(!plan.text(&check(&plan)).contains("LATE"));
}

#[test]
fn the_rope_that_dictates_is_marked_and_spare_rope_must_reach_down_the_longest_drop_below() {
    let plan = Plan::example();
    let checked = check(&plan);
    let ropes = &checked.ropes;
    let most = ropes.needs.iter().map(|need| need.needed.high()).fold(0.0, f64::max);
    assert_eq!(ropes.needs[ropes.dictated_by.unwrap()].needed.high(), most);
    let spare = ropes.spare.unwrap();
    // As the pull-down asks for it: a metre of knots, and 6 % of shrinkage.
    assert!((spare.needed - 26.0 / 0.94).abs() < 1e-9 && spare.below == 25.0 && spare.there == 25.0);
    // A longer second rope leaves enough.
    let mut longer = plan.clone();
    longer.ropes[1].length = Length::new::<metre>(40.0);
    let spare = check(&longer).ropes.spare.unwrap();
    assert!(spare.there > spare.needed);
    // A rope too short for a drop puts it first.
    let mut short = plan;
    short.ropes.truncate(1);
    short.ropes[0].length = Length::new::<metre>(30.0);
    let checked = check(&short);
    assert!(
        checked.first.contains(&3) && matches!(checked.drops[3].reasons[0].why, Why::Above),
        "{:?}",
        checked.drops[3].reasons
    );
}

#[test]
fn two_hundred_drops_and_twelve_people_ask_each_question_once() {
    let example = Plan::example();
    let mut plan = example.clone();
    let guided = Held::new(Question::named("guided abseil").unwrap());
    plan.drops = (0..200).map(|place| example.drops[place % example.drops.len()].clone()).collect();
    for drop in &mut plan.drops {
        drop.questions.push(guided.clone());
    }
    plan.group = (0..12).map(|place| example.group[place % example.group.len()].clone()).collect();
    let mut answers = Answers::default();
    let begun = Instant::now();
    let checked = plan.check(&mut answers, Units::default());
    let first = begun.elapsed();
    assert_eq!(checked.drops.len(), 200);
    let worked_out = answers.worked_out();
    // Eleven questions and the guided abseil; a pull-down differs with what is still below it.
    assert!(worked_out <= 13, "{worked_out}");
    let begun = Instant::now();
    plan.check(&mut answers, Units::default());
    println!("200 drops, 12 people: {first:?} at first, {:?} again", begun.elapsed());
    assert_eq!(answers.worked_out(), worked_out, "what did not change is not asked again");
    // Another mass asks all of them again, and what nobody asks for is forgotten.
    plan.group[0].body = Mass::new::<kilogram>(130.0);
    plan.check(&mut answers, Units::default());
    assert!(answers.worked_out() > worked_out);
}
