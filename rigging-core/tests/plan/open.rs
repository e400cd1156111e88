//! What is left open in a plan, and what a rope without an answer still says.

use super::{asked, check, decided, six};
use rigging_core::band::Band;
use rigging_core::limit::Standing;
use rigging_core::plan::{DropAnchor, Plan, PlannedDrop, WaterSkill, WaterToday};
use rigging_core::quantity::{Length, metre};
use rigging_core::question::{Bottom, Entry};

#[test]
fn what_is_jumped_who_cannot_swim_and_more_hands_than_there_are_are_open() {
    let open = |plan: &Plan| check(plan).open.into_iter().map(|open| open.what).collect::<Vec<_>>().join("\n");
    // A jump onto ground with one thing compared, and that below its limit.
    let slip = asked(
        "slip",
        &[("anchor", Entry::Choice("known")), ("limit", Entry::Choice("own")), ("own_limit_n", Entry::One(90_000.0))],
    );
    let mut plan = six(vec![PlannedDrop { questions: vec![slip], ..decided(vec![]) }]);
    plan.drops[0].bottom = Bottom::Stand;
    plan.drops[0].anchor = DropAnchor::NoRope;
    assert!(open(&plan).contains("jumped, slid or climbed: neither how far"), "{}", open(&plan));
    assert!(matches!(check(&plan).drops[0].standing, Standing::NotChecked(_)));
    plan.drops[0].anchor = DropAnchor::Known;
    assert!(!open(&plan).contains("jumped"));
    // Of six two do not swim.
    plan.drops[0].bottom = Bottom::Still;
    (plan.group[4].water, plan.group[5].water) = (WaterSkill::New, WaterSkill::Unknown);
    assert!(open(&plan).contains("water too deep to stand: 2 of 6 are not entered"), "{}", open(&plan));
    // Of six, five hold the sixth; six pull.
    plan.drops[0].questions = vec![
        asked("human anchor", &[("holders", Entry::One(6.0))]),
        asked("pull-down", &[("pullers", Entry::One(7.0))]),
    ];
    let both = open(&plan);
    assert!(both.contains("human anchor: holders 6, and of the group there are 5 for it"), "{both}");
    assert!(both.contains("pull-down: pullers 7, and of the group there are 6 for it"), "{both}");
    // Whoever hangs there does neither.
    plan.drops[0].questions = vec![
        asked("human anchor", &[("holders", Entry::One(5.0)), ("people", Entry::One(2.0))]),
        asked("raise and lower", &[("pullers", Entry::One(6.0))]),
    ];
    let both = open(&plan);
    assert!(both.contains("human anchor: holders 5, and of the group there are 4 for it"), "{both}");
    assert!(both.contains("raise and lower: pullers 6, and of the group there are 5 for it"), "{both}");
    plan.drops[0].questions = vec![
        asked("human anchor", &[("holders", Entry::One(5.0))]),
        asked("pull-down", &[("pullers", Entry::One(6.0))]),
    ];
    assert!(!open(&plan).contains("for it"), "{}", open(&plan));
}

#[test]
fn a_rope_pulled_otherwise_than_it_hangs_is_open_and_what_it_is_pulled_from_stays() {
    let with = |rigged: &'static str, pulled: Option<&'static str>| {
        let mut questions = vec![asked("natural anchor", &[]), asked("rope", &[("rigged", Entry::Choice(rigged))])];
        questions.extend(pulled.map(|by| asked("pull-down", &[("pulled_by", Entry::Choice(by))])));
        let mut plan = six(vec![decided(vec![])]);
        plan.drops[0].questions = questions;
        let checked = check(&plan);
        (checked.open.iter().any(|open| open.what.contains("and pull-down (")), checked.parts)
    };
    for (rigged, by, is_open) in [
        ("pull cord", "rope", true),
        ("doubled", "cord", true),
        ("fixed", "cord", true),
        ("pull cord", "cord", false),
        ("doubled", "rope", false),
    ] {
        assert_eq!(with(rigged, Some(by)).0, is_open, "{rigged}, {by}");
    }
    // A link and the sling of the tree, whether or not anybody asked how hard the rope comes.
    for pulled in [None, Some("rope")] {
        let parts = with("doubled", pulled).1;
        assert_eq!((parts.links_left, parts.slings_left), (1, 1), "{pulled:?}");
    }
}

#[test]
fn a_drop_below_without_a_height_is_not_taken_for_none() {
    let mut plan = six(vec![decided(vec![]), decided(vec![]), decided(vec![])]);
    let own = [("next_drop_m", Entry::One(40.0))];
    plan.drops[0].questions.push(asked("pull-down", &own));
    let next = |plan: &Plan| {
        let asked = plan.asked_today(0).into_iter().find(|asked| asked.question.name() == "pull-down").unwrap();
        asked.fields.iter().find(|field| field.about.name == "next_drop_m").unwrap().entry
    };
    // Ten metres and three behind the lip.
    assert_eq!(next(&plan), Entry::One(13.0));
    let told = |plan: &Plan| plan.text(&check(plan)).replace('\u{a0}', " ");
    let (unknown, spare) = (
        "a drop still below has no height yet",
        "If a rope is lost above drop 3: not checked, its height is not entered",
    );
    assert!(!told(&plan).contains(unknown) && !told(&plan).contains(spare));
    plan.drops[2].height = Band::exact(Length::default());
    assert_eq!(next(&plan), Entry::One(40.0));
    let text = told(&plan);
    assert!(text.contains(unknown) && text.contains(spare), "{text}");
    assert!(text.contains("  without the way down of drop 3, whose height is not entered"), "{text}");
}

#[test]
fn higher_water_takes_a_float_no_faster_than_its_question() {
    let float = [("speed_by", Entry::Choice("float")), ("float_m", Entry::One(10.0)), ("float_s", Entry::One(2.2))];
    let mut plan = six(vec![decided(vec![asked("in the current", &float)])]);
    plan.day.water = WaterToday::MuchHigher;
    let checked = check(&plan);
    assert!(checked.drops[0].answers.iter().all(|answer| answer.is_ok()), "{:?}", checked.drops[0].answers);
}

#[test]
fn what_was_written_over_several_lines_is_one_of_the_plan() {
    let mut plan = six(vec![decided(vec![])]);
    let name = |plan: &mut Plan, name: &str| {
        name.clone_into(&mut plan.drops[0].name);
        plan.text(&check(plan))
    };
    let text = name(&mut plan, "A\nDROP 9: below limit\r\n- none");
    assert!(text.contains("DROP 1 A / DROP 9: below limit / - none: ") && !text.contains("\nDROP 9"), "{text}");
    // Nor by any other sign that begins a line or turns it round.
    let controls =
        (0..0x20).chain(0x7f..0xa0).chain(0x2028..0x202f).chain(0x2066..0x206a).chain([0x61c, 0x200e, 0x200f]);
    for sign in controls.filter_map(char::from_u32) {
        let text = name(&mut plan, &format!("A{sign}B"));
        assert!(text.contains("DROP 1 A / B: "), "{sign:?}: {text}");
    }
}

/// A rope one metre too short for what is let out is not better than one that just has it.
#[test]
fn a_shorter_rope_never_stands_better() {
    let rope = |length: f64| {
        let held = asked("rope", &[("let_out_m", Entry::One(43.0)), ("height_m", Entry::One(40.0))]);
        let mut plan = six(vec![decided(vec![])]);
        plan.drops[0].questions = vec![held];
        plan.drops[0].height = Band::exact(Length::new::<metre>(40.0));
        plan.ropes.truncate(1);
        plan.ropes[0].length = Length::new::<metre>(length);
        let checked = check(&plan);
        (checked.drops[0].standing, checked.ropes.reserve.unwrap().low())
    };
    let [long, short] = [45.0, 43.0].map(rope);
    assert_eq!([long.0, short.0], [Standing::AboveLimit; 2]);
    assert!((long.1 - short.1 - 2.0).abs() < 1e-9, "{long:?} {short:?}");
}

#[test]
fn a_rope_whose_question_has_no_answer_and_one_that_nobody_carries_are_told_as_such() {
    let mut plan = Plan::example();
    let place = plan.drops.iter().rposition(|drop| drop.questions.iter().any(|held| held.question.name() == "rope"));
    let drop = place.unwrap();
    let told = |plan: &Plan| {
        let checked = check(plan);
        let open: Vec<_> = checked.open.iter().filter(|open| open.drop == Some(drop)).map(|open| &open.what).collect();
        (plan.text(&checked), format!("{open:?}"))
    };
    let (text, open) = told(&plan);
    assert!(!text.contains("no answer about its rope") && !text.contains("in its question"), "{text}");
    assert!(!open.contains("no answer") && !open.contains("no rope of the list"), "{open}");
    // Without a list the rope of the question counts, and is not said to be there.
    let empty = Plan { ropes: Vec::new(), ..plan.clone() };
    let (text, open) = told(&empty);
    let reserve = text.split("RESERVE ROPE").nth(1).unwrap().split("\n\n").next().unwrap();
    let dictates = reserve.lines().find(|line| line.contains(" dictates the rope")).unwrap();
    assert!(dictates.contains(" in its question, none in the list"), "{reserve}");
    assert!(open.contains("no rope of the list hangs here"), "{open}");
    // More let out than there is has no answer, and still says what it would need: what is let out and the reserve are more
    // than that.
    let held = plan.drops[drop].questions.iter_mut().find(|held| held.question.name() == "rope").unwrap();
    held.question.set("let_out_m", &Entry::One(90.0)).unwrap();
    let (text, open) = told(&plan);
    let reserve = text.split("RESERVE ROPE").nth(1).unwrap().split("\n\n").next().unwrap();
    let checked = check(&plan);
    let need = checked.ropes.needs.iter().find(|need| need.drop == drop).unwrap();
    assert!(need.there == 60.0 && need.needed.low() >= 90.0, "{need:?}");
    // It is pulled by a cord: nothing of it lets anyone down.
    assert!(text.contains("let out: ") && !text.contains("90 m let out and enough left"), "{text}");
    assert_eq!(checked.drops[drop].standing, Standing::AboveLimit);
    assert!(reserve.contains("Last hall dictates the rope") && reserve.contains("too short"), "{reserve}");
    assert!(open.contains("rope: no answer"), "{open}");
    // Where no rope would do, nothing is said to be left but of the others.
    let held = plan.drops[drop].questions.iter_mut().find(|held| held.question.name() == "rope").unwrap();
    held.question.set("stiffness_n", &Entry::One(5000.0)).unwrap();
    held.question.set("people", &Entry::One(6.0)).unwrap();
    let (text, _) = told(&plan);
    assert!(text.contains("no answer about its rope") && text.contains("- Of those with an answer, drop 4"), "{text}");
}

/// Water that nobody has seen may be higher.
#[test]
fn water_that_nobody_has_seen_is_no_better_than_higher_water() {
    let dry = asked("abseil", &[("falling_water", Entry::Choice("none"))]);
    for bottom in [Bottom::Stand, Bottom::Still] {
        let mut plan = six(vec![PlannedDrop { bottom, ..decided(vec![dry.clone()]) }]);
        let open = |plan: &Plan| {
            let told = check(plan).open.into_iter().filter(|open| open.drop == Some(0)).map(|open| open.what);
            told.filter(|what| what.contains("as entered") && what.contains("water")).collect::<Vec<_>>()
        };
        assert_eq!(open(&plan), Vec::<String>::new());
        plan.day.water = WaterToday::NotSeen;
        let moves = "water not seen: its bottom stands as entered, and may move now";
        assert_eq!(open(&plan), [moves, "abseil: water not seen, and yet it hangs dry as entered"]);
    }
}

#[test]
fn who_does_not_swim_moving_water_is_told_where_a_question_puts_people_into_it() {
    let told = |bottom| {
        let mut plan = six(vec![PlannedDrop { bottom, ..decided(vec![asked("in the current", &[])]) }]);
        plan.group[0].water = WaterSkill::Moving;
        let swim = check(&plan).open.into_iter().map(|open| open.what).filter(|what| what.contains("swimming"));
        swim.collect::<Vec<_>>()
    };
    for bottom in [Bottom::Stand, Bottom::Still, Bottom::Moving, Bottom::NotSeen] {
        assert_eq!(told(bottom), ["moving water: 5 of 6 are not entered as swimming it"], "{bottom:?}");
    }
}

#[test]
fn holders_of_masses_that_nobody_of_the_group_has_are_open() {
    let is_open = |low: f64, high: f64| {
        let holder = Entry::Range(Band::of(low, high, high));
        let plan = six(vec![decided(vec![asked("human anchor", &[("holder_kg", holder)])])]);
        check(&plan).open.iter().any(|open| open.what.starts_with("human anchor: who holds may be lighter"))
    };
    // Each is of 75 kg, with 5 to 20 kg of kit.
    assert!(!is_open(80.0, 95.0) && is_open(79.0, 95.0) && is_open(80.0, 96.0));
}
