//! What moves through a plan, what heads it, and its text.

use super::{check, decided, folder, holds_to_its_words, six};
use rigging_core::band::Band;
use rigging_core::plan::{Answers, Checked, Plan, PlannedDrop, Said, TEACHINGS, WaterToday, Why};
use rigging_core::quantity::{Length, Mass, Unit, Units, kilogram, metre};
use rigging_core::question::{Bottom, Entry, Flow, Held, Question};
use std::fs;

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
    let reserve = "143 ft to 169 ft needed, 196 ft there, at least 28.1 ft left";
    assert!(text.replace('\u{a0}', " ").contains(reserve), "{text}");
    for unit in ["kN", "N", "m", "kg", "mm"] {
        let told = format!("\u{a0}{unit}");
        let alone = |at: usize| !text[at + told.len()..].starts_with(char::is_alphabetic);
        assert!(!text.match_indices(&told).any(|(at, _)| alone(at)), "{unit} in {text}");
    }
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
fn a_step_of_water_moves_a_timed_float_as_it_moves_the_word_for_the_same_speed() {
    let words = [Flow::AlmostStill, Flow::Stroll, Flow::Walk, Flow::Jog, Flow::Run, Flow::Faster];
    for [word, next] in words.windows(2).map(|two| [two[0].speed().typical(), two[1].speed().typical()]) {
        let mut question = Question::named("in the current").unwrap();
        question.set("speed_by", &Entry::Choice("float")).unwrap();
        question.set("float_m", &Entry::One(10.0)).unwrap();
        question.set("float_s", &Entry::One(10.0 / word)).unwrap();
        let mut plan = super::six(vec![PlannedDrop { questions: vec![Held::new(question)], ..PlannedDrop::default() }]);
        plan.day.water = WaterToday::Higher;
        let fields = &plan.asked_today(0)[0].fields;
        let time = fields.iter().find(|field| field.about.name == "float_s").unwrap().entry;
        let Entry::One(time) = time else { panic!("{time:?}") };
        assert!((10.0 / time / next - 1.0).abs() < 1e-9, "{word} m/s becomes {} and not {next}", 10.0 / time);
    }
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
fn a_kit_that_the_day_only_assumes_takes_nothing_off_what_a_question_says() {
    let asked = |kit: [f64; 3], water: f64, change: &dyn Fn(&mut Plan)| {
        let [low, typical, high] = kit;
        let fields = [("kit_kg", Entry::Range(Band::of(low, typical, high))), ("suit_water_kg", Entry::One(water))];
        let mut plan = six(vec![decided(vec![super::asked("anchor legs", &fields)])]);
        change(&mut plan);
        let fields = &plan.asked_today(0)[0].fields;
        let of = |name: &str| fields.iter().find(|field| field.about.name == name).unwrap().entry;
        let Entry::Range(kit) = of("kit_kg") else { panic!("{fields:?}") };
        (kit.low(), kit.high(), of("suit_water_kg"))
    };
    let as_it_is = |_: &mut Plan| {};
    // 5 to 20 kg of kit and 5 kg of water are assumed: both ranges count, from the least to the most.
    assert_eq!(asked([30.0, 40.0, 50.0], 20.0, &as_it_is), (5.0, 50.0, Entry::One(20.0)));
    assert_eq!(asked([2.0, 2.0, 2.0], 0.0, &as_it_is), (2.0, 20.0, Entry::One(5.0)));
    // What was entered for the day is that of everybody.
    let entered = |plan: &mut Plan| {
        plan.day.kit = Band::exact(Mass::new::<kilogram>(8.0));
        plan.day.suit_water = Mass::new::<kilogram>(3.0);
    };
    assert_eq!(asked([30.0, 40.0, 50.0], 20.0, &entered), (8.0, 8.0, Entry::One(3.0)));
}

#[test]
fn whose_mass_is_not_entered_may_be_as_light_or_as_heavy_as_the_question_says() {
    let body = |masses: [f64; 2]| {
        let fields = [("body_kg", Entry::Range(Band::of(58.0, 75.0, 110.0)))];
        let mut plan = six(vec![decided(vec![super::asked("anchor legs", &fields)])]);
        plan.group.truncate(2);
        for (person, mass) in plan.group.iter_mut().zip(masses) {
            person.body = Mass::new::<kilogram>(mass);
        }
        let fields = &plan.asked_today(0)[0].fields;
        let Some(Entry::Range(body)) =
            fields.iter().find(|field| field.about.name == "body_kg").map(|field| field.entry)
        else {
            panic!("{fields:?}")
        };
        [body.low(), body.high()]
    };
    assert_eq!(body([60.0, 0.0]), [58.0, 110.0]);
    assert_eq!(body([50.0, 0.0]), [50.0, 110.0]);
    assert_eq!(body([0.0, 0.0]), [58.0, 110.0]);
    assert_eq!(body([60.0, 70.0]), [60.0, 70.0]);
}

#[test]
fn nothing_is_below_a_limit_while_a_mass_or_the_water_it_hangs_on_is_not_known() {
    let mut legs = Question::named("anchor legs").unwrap();
    let mut abseil = Question::named("abseil").unwrap();
    // Near each other: if one fails, it is little of a drop.
    legs.set("apart_m", &Entry::Range(Band::exact(0.3))).unwrap();
    for question in [&mut legs, &mut abseil] {
        question.set("anchor", &Entry::Choice("known")).unwrap();
        question.set("limit", &Entry::Choice("own")).unwrap();
        question.set("own_limit_n", &Entry::One(100_000.0)).unwrap();
    }
    let mut plan = six(vec![decided(vec![Held::new(legs)])]);
    assert_eq!(check(&plan).drops[0].standing.words(), "below limit");
    plan.day.water = WaterToday::NotSeen;
    assert_eq!(check(&plan).drops[0].standing.words(), "not checked", "its bottom may move");
    plan.day.water = WaterToday::AsEntered;
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
        other => panic!("{other:?} has no rank here"),
    };
    let classes: Vec<_> = checked.first.iter().map(|place| (class(place), *place)).collect();
    assert!(classes.is_sorted(), "{classes:?}");
    assert!(classes.iter().map(|(class, _)| *class).collect::<Vec<_>>().contains(&3));
    for place in &checked.first {
        let reasons = &checked.drops[*place].reasons;
        assert!(reasons.iter().all(|reason| !reason.what.is_empty()));
        assert!(reasons.iter().any(|reason| !reason.change.is_empty()), "nothing would change drop {place}");
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

#[test]
fn what_the_plan_only_assumes_is_not_said_to_be_given() {
    let abseil = super::asked("abseil", &[]);
    let mut plan = six(vec![decided(vec![abseil])]);
    let said = |plan: &Plan| {
        let checked = check(plan);
        let json = serde_json::to_value(Said { plan, checked: &checked }).unwrap();
        let of = |name: &str| json["drops"][0]["questions"][0][name].to_string();
        let assumed = plan.text(&checked).matches(" (assumed if not entered)").count();
        (of("given_by_the_plan"), of("assumed_by_the_plan_if_not_entered"), assumed)
    };
    let (given, assumed) = (r#"["body_kg","height_m"]"#, r#"["kit_kg","suit_water_kg","diameter_m"]"#);
    // Kit, water in the suit, and two ropes.
    assert_eq!(said(&plan), (given.to_owned(), assumed.to_owned(), 4));
    assert_eq!(said(&Plan::read(&plan.write()).unwrap().plan), said(&plan));
    plan.day.suit_water = Mass::new::<kilogram>(4.0);
    plan.ropes[0].diameter = Length::new::<metre>(0.01);
    let given = r#"["body_kg","suit_water_kg","height_m","diameter_m"]"#;
    assert_eq!(said(&plan), (given.to_owned(), r#"["kit_kg"]"#.to_owned(), 2));
}
