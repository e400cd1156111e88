//! When a drop is below a limit as a whole, and what keeps it from that.

use super::{asked, check, decided, six};
use rigging_core::band::Band;
use rigging_core::limit::Standing;
use rigging_core::plan::{
    Answers, CarriedRope, DropAnchor, Plan, PlannedDrop, RopeKind, Unknown, WaterSkill, WaterToday, Why,
};
use rigging_core::quantity::{Length, Mass, Time, Unit, Units, kilogram, metre, second};
use rigging_core::question::{Bottom, Entry, Held};

const KNOWN: (&str, Entry) = ("anchor", Entry::Choice("known"));
const OWN: (&str, Entry) = ("limit", Entry::Choice("own"));

fn legs() -> Held {
    asked("anchor legs", &[KNOWN, OWN, ("own_limit_n", Entry::One(40_000.0))])
}

fn rope(length: f64, kind: RopeKind) -> CarriedRope {
    CarriedRope { length: Length::new::<metre>(length), kind, ..CarriedRope::default() }
}

/// How its first drop stands, and the reasons.
fn first(plan: &Plan) -> (&'static str, Vec<String>) {
    let checked = check(plan);
    let drop = &checked.drops[0];
    (drop.standing.words(), drop.reasons.iter().map(|reason| reason.what.clone()).collect())
}

/// The rope question of a decided drop, changed.
fn with_rope(plan: &mut Plan, fields: &[(&str, Entry)]) {
    let held = plan.drops[0].questions.last_mut().unwrap();
    fields.iter().for_each(|(field, entry)| held.set(field, entry).unwrap());
}

#[test]
fn what_is_open_about_a_drop_keeps_it_from_being_below_a_limit() {
    let plan = six(vec![decided(vec![legs()])]);
    assert_eq!(first(&plan), ("below limit", Vec::new()));
    let mut unseen = plan.clone();
    unseen.drops[0].bottom = Bottom::NotSeen;
    let mut unmeasured = plan.clone();
    unmeasured.drops[0].height = Band::exact(Length::new::<metre>(0.0));
    let mut unasked = plan.clone();
    unasked.drops[0].questions.truncate(1);
    for open in [unseen, unmeasured, unasked] {
        assert_ne!(first(&open).0, "below limit", "{:?}", check(&open).open);
    }
}

#[test]
fn a_rope_that_two_questions_of_a_drop_rig_differently_is_open() {
    let told = |rigged, strands, release| {
        let choice = |field, name| (field, Entry::Choice(name));
        let abseil = asked("abseil", &[KNOWN, choice("strands", strands), choice("release", release)]);
        let mut plan = six(vec![decided(vec![abseil])]);
        with_rope(&mut plan, &[choice("rigged", rigged)]);
        check(&plan).open.iter().any(|open| open.drop == Some(0) && open.what.ends_with("rigged anew in between"))
    };
    for (rigged, strands, release, differs) in [
        ("releasable", "one", "tube", false),
        ("releasable", "one", "fixed", true),
        ("releasable", "two", "tube", true),
        ("doubled", "two", "fixed", false),
        ("doubled", "one", "fixed", true),
        ("doubled", "two", "tube", true),
        ("fixed", "one", "fixed", false),
        ("fixed", "one", "tube", true),
        ("pull cord", "one", "fixed", false),
        ("pull cord", "one", "tube", true),
    ] {
        assert_eq!(told(rigged, strands, release), differs, "{rigged}, {strands}, {release}");
    }
}

#[test]
fn every_drop_whose_rope_is_short_stands_beside_the_one_that_dictates() {
    let mut plan = Plan::example();
    let told = |plan: &Plan| plan.text(&check(plan)).lines().filter(|line| line.contains(" too: ")).count();
    assert_eq!(told(&plan), 0);
    for rope in plan.ropes.iter_mut().filter(|rope| rope.kind == RopeKind::Rope) {
        rope.length = Length::new::<metre>(25.0);
    }
    let short = check(&plan).ropes.needs.iter().filter(|need| need.there < need.needed.high()).count();
    assert!(short > 1 && told(&plan) == short - 1, "{short}: {}", plan.text(&check(&plan)));
    // Each drop says which rope it is.
    assert!(plan.text(&check(&plan)).contains("; rope 1. orange\n"));
}

/// Fields are public, and no rule keeps a caller from a number that no file would hold.
#[test]
fn a_number_set_by_hand_beyond_its_bounds_is_told_and_nothing_rests_on_it() {
    let plan = six(vec![decided(vec![legs()])]);
    type Set = fn(&mut Plan);
    let set: [(Set, &str, Option<usize>); 6] = [
        (|plan| plan.day.start = Time::new::<second>(f64::NAN), "start_s", None),
        (|plan| plan.pace.in_hand = Time::new::<second>(-60.0), "in_hand_s", None),
        (|plan| plan.group[1].body = Mass::new::<kilogram>(f64::INFINITY), "person 2: body_kg", None),
        (|plan| plan.ropes[0].length = Length::new::<metre>(f64::NAN), "rope carried 1: length_m", None),
        (|plan| plan.drops[0].height = Band::exact(Length::new::<metre>(-9.0)), "height_m", Some(0)),
        (|plan| plan.drops[0].slings = 1_000_000, "slings", Some(0)),
    ];
    for (set, field, drop) in set {
        let mut beyond = plan.clone();
        set(&mut beyond);
        let checked = check(&beyond);
        assert!(checked.open[0].what.contains(field), "{field}: {:?}", checked.open);
        assert_eq!(checked.open[0].drop, drop);
        assert_ne!(checked.drops[0].standing.words(), "below limit", "{field}");
    }
}

#[test]
fn a_rope_that_ends_where_it_is_not_wanted_is_a_reason() {
    let end = |bottom: Bottom, let_out: f64| {
        let mut plan = six(vec![decided(vec![legs()])]);
        plan.drops[0].bottom = bottom;
        with_rope(&mut plan, &[("let_out_m", Entry::One(let_out))]);
        let reasons = check(&plan).drops[0].reasons.clone();
        reasons.first().map(|reason| (reason.why, reason.what.split(": ").nth(1).unwrap().to_owned()))
    };
    // 10 m down, 3 m behind the lip: 6 m hang too high whatever the rope does, 12.9 m perhaps, 16 m not.
    for (let_out, told) in [
        (6.0, Some((Why::Above, "it ends too high"))),
        (12.9, Some((Why::Crosses, "it may end too high"))),
        (16.0, None),
    ] {
        let told = told.map(|(why, words)| (why, words.to_owned()));
        assert_eq!(end(Bottom::Stand, let_out), told, "{let_out}");
        assert_eq!(end(Bottom::Still, let_out), told, "{let_out}");
    }
    // Above moving water both are a danger: it holds whoever hangs on too much, and takes whoever drops into it.
    let told = |why, words: &str| Some((why, words.to_owned()));
    assert_eq!(end(Bottom::Moving, 9.0), told(Why::Above, "it ends too high"));
    assert_eq!(end(Bottom::Moving, 20.0), told(Why::Above, "it ends too low"));
    assert_eq!(end(Bottom::Moving, 12.9), told(Why::Crosses, "it may end too high or too low"));
    // What nobody has seen may be moving water.
    assert_eq!(end(Bottom::NotSeen, 9.0), told(Why::Above, "it ends too high"));
    assert_eq!(end(Bottom::NotSeen, 12.9), told(Why::Crosses, "it may end too high or too low"));
    assert_eq!(end(Bottom::NotSeen, 20.0), told(Why::Crosses, "it may end too low"));
    // A strand of a doubled rope is as long as the rope makes it: no more or less is let out.
    let mut doubled = six(vec![decided(vec![legs()])]);
    doubled.drops[0].bottom = Bottom::Moving;
    with_rope(&mut doubled, &[("rigged", Entry::Choice("doubled")), ("second_m", Entry::One(0.0))]);
    let reason = &check(&doubled).drops[0].reasons[0];
    assert!(reason.what.ends_with("in each strand") && !reason.change.contains("let out"), "{reason:?}");
}

#[test]
fn what_is_missing_at_the_station_for_the_rope_let_out_is_a_reason_and_missing_in_the_reserve() {
    let plan = |let_out: f64| {
        let mut plan = six(vec![decided(vec![legs()])]);
        with_rope(&mut plan, &[("let_out_m", Entry::One(let_out)), ("water", Entry::Choice("dry"))]);
        plan
    };
    assert_eq!(first(&plan(20.0)), ("below limit", Vec::new()));
    // Of 40 m 30 m are let out and 1 m is in knots: 9 m are left, and 3 m to the lip, 10 m down and 1 m are needed.
    let short = plan(30.0);
    let (standing, reasons) = first(&short);
    assert_eq!(standing, "above limit");
    assert!(reasons[0].starts_with("rope, with 30\u{a0}m let out"), "{reasons:?}");
    let answer = &check(&short).drops[0].answers[1];
    let missing = answer.as_ref().as_ref().unwrap().findings.iter().find(|found| found.what.contains("missing at"));
    let reserve = check(&short).ropes.reserve.unwrap();
    assert!((reserve.low() + missing.unwrap().adverse()).abs() < 1e-9 && reserve.high() <= -5.0, "{reserve:?}");
    assert!(short.text(&check(&short)).contains("too short\n"));
}

#[test]
fn a_usual_part_that_carries_more_than_its_standard_lets_it_is_a_reason() {
    let falls = |slack: f64| {
        let fall = [("rope_m", Entry::One(4.0)), ("slack_m", Entry::One(slack))];
        let fields = [&[KNOWN, OWN, ("own_limit_n", Entry::One(40_000.0))], fall.as_slice()].concat();
        six(vec![decided(vec![asked("slip", &fields)])])
    };
    let slip = |slack: f64| first(&falls(slack));
    assert_eq!(slip(0.1), ("below limit", Vec::new()));
    // What it gets at the most is more, whatever factor is chosen for strengths.
    let (standing, reasons) = slip(1.0);
    assert_eq!(standing, "range crosses limit");
    assert!(reasons.iter().any(|reason| reason.contains("on the harness of one person")), "{reasons:?}");
    // A fall of the rope's own length: 75 kg with 5 kg of kit and 5 kg of water pull W (1 + √(1 + 2 EA/W)) at the least, 6.6 kN of the
    // softest rope; the harness of a fall arrest is tested to 6 kN at the most.
    let (standing, reasons) = slip(4.0);
    assert_eq!(standing, "above limit");
    assert!(reasons.iter().any(|reason| reason.contains("on the harness of one person")), "{reasons:?}");
}

#[test]
fn the_figure_of_a_usual_part_is_told_no_higher_than_it_is() {
    let fall = [("rope_m", Entry::One(4.0)), ("slack_m", Entry::One(4.0))];
    let plan = six(vec![decided(vec![asked("slip", &[&[KNOWN, OWN], fall.as_slice()].concat())])]);
    // 6 kN are 1348.9 lbf.
    let feet = Units { force: Unit::PoundForce, length: Unit::Foot };
    let checked = plan.check(&mut Answers::default(), feet);
    let harness = checked.drops[0].reasons.iter().find(|reason| reason.what.contains("on the harness")).unwrap();
    assert!(harness.what.contains(" against 1300\u{a0}lbf"), "{}", harness.what);
}

#[test]
fn forces_taken_from_another_question_do_not_follow_the_plan_and_are_an_open_decision() {
    let parts = |forces: &str| {
        let forces = if forces == "taken" { Entry::Choice("taken") } else { Entry::Choice("people") };
        let fields = [
            ("forces", forces),
            ("anchor_1", Entry::Choice("bolt")),
            ("whose_factor", Entry::Choice("own")),
            ("design_factor", Entry::One(1.0)),
        ];
        six(vec![decided(vec![asked("weakest part", &fields)])])
    };
    assert_eq!(first(&parts("people")).0, "below limit");
    let taken = parts("taken");
    assert_eq!(first(&taken).0, "not checked");
    assert!(check(&taken).open.iter().any(|open| open.what.contains("its forces were taken over")));
    // The masses of the group go into what asks for them, and are said to be given only there.
    let given = |plan: &Plan| plan.asked_today(0)[0].given.contains(&"body_kg");
    assert!(given(&parts("people")) && !given(&taken));
}

#[test]
fn only_the_ropes_carried_are_counted_and_what_hangs_at_a_drop_is_not_to_spare() {
    let doubled = |ropes: &[f64]| {
        let mut plan = six(vec![decided(vec![legs()]), decided(vec![legs()])]);
        plan.ropes = ropes.iter().map(|length| rope(*length, RopeKind::Rope)).collect();
        plan.drops[0].height = Band::exact(Length::new::<metre>(45.0));
        with_rope(&mut plan, &[("rigged", Entry::Choice("doubled")), ("second_m", Entry::One(60.0))]);
        plan
    };
    // One rope of 60 m: no second one of 60 m is there, whatever the question says.
    let one = check(&doubled(&[60.0]));
    assert_eq!(one.ropes.needs[0].there, 60.0);
    assert_ne!(one.drops[0].standing.words(), "below limit");
    // Two hang, and both are lost: nothing is left for the drop below.
    let two = check(&doubled(&[60.0, 50.0]));
    // Of each as much as of the shorter.
    assert_eq!(two.ropes.needs[0].there, 100.0);
    assert_eq!(two.ropes.spare.unwrap().there, 0.0);
    // 45 m and the way to the lip want 46 m and a metre for a hand: 46.5 m hold whoever hangs there, and nobody pulls them.
    let short = check(&doubled(&[46.5, 80.0]));
    let reasons = &short.drops[0].reasons;
    assert!(reasons.iter().any(|reason| reason.what.starts_with("strand to pull: up to ")), "{reasons:?}");
    assert_ne!(short.drops[0].standing.words(), "below limit");
    let three = check(&doubled(&[60.0, 50.0, 30.0]));
    assert_eq!(three.ropes.spare.unwrap().there, 30.0);
    // A pull cord that nobody carries.
    let cord = |ropes: Vec<CarriedRope>| {
        let mut plan = six(vec![decided(vec![legs()])]);
        plan.ropes = ropes;
        with_rope(&mut plan, &[("rigged", Entry::Choice("pull cord")), ("cord_m", Entry::One(60.0))]);
        check(&plan).ropes.needs[0].cord.unwrap().1
    };
    assert_eq!(cord(vec![rope(60.0, RopeKind::Rope)]), 0.0);
    assert_eq!(cord(vec![rope(60.0, RopeKind::Rope), rope(25.0, RopeKind::PullCord)]), 25.0);
    // A rope pulls only where no cord is there, however long it is.
    assert_eq!(
        cord(vec![rope(60.0, RopeKind::Rope), rope(25.0, RopeKind::PullCord), rope(30.0, RopeKind::Rope)]),
        25.0
    );
    // The rope that pulls is not to spare either: if both stick, nothing is left. One that a cord leaves free is.
    let mut pulled = six(vec![decided(vec![legs()]), decided(vec![legs()])]);
    pulled.ropes = vec![rope(60.0, RopeKind::Rope), rope(60.0, RopeKind::Rope), rope(60.0, RopeKind::PullCord)];
    with_rope(&mut pulled, &[("rigged", Entry::Choice("pull cord"))]);
    let there = |plan: &Plan| {
        let ropes = check(plan).ropes;
        (ropes.needs[0].cord.unwrap().1, ropes.spare.unwrap().there)
    };
    assert_eq!(there(&pulled), (60.0, 60.0));
    pulled.ropes.truncate(2);
    assert_eq!(there(&pulled), (60.0, 0.0));
    // A cord alone is there, whatever they hang on; and each of two questions gets its own.
    assert_eq!(cord(vec![rope(30.0, RopeKind::PullCord)]), 30.0);
    let mut both = doubled(&[60.0, 50.0]);
    both.ropes.push(rope(55.0, RopeKind::PullCord));
    let pulled =
        [("rigged", Entry::Choice("pull cord")), ("let_out_m", Entry::One(50.0)), ("cord_m", Entry::One(60.0))];
    both.drops[0].questions.push(asked("rope", &pulled));
    let needs = check(&both).ropes.needs;
    assert_eq!((needs[0].there, needs[1].cord.unwrap().1), (100.0, 55.0));
    // With no rope entered the question's own stand.
    assert_eq!(cord(Vec::new()), 60.0);
}

#[test]
fn a_second_rope_hides_no_cord_that_is_too_short_and_what_pulls_is_named() {
    let mut plan = six(vec![decided(vec![legs()])]);
    plan.ropes = [60.0, 60.0].map(|length| rope(length, RopeKind::Rope)).to_vec();
    plan.ropes.push(rope(10.0, RopeKind::PullCord));
    with_rope(&mut plan, &[("rigged", Entry::Choice("pull cord")), ("cord_m", Entry::One(10.0))]);
    let text = |plan: &Plan| plan.text(&check(plan)).replace('\u{a0}', " ");
    // 3 m to the lip, 10 m down and 1 m to a hand, of cord that may shrink by 6 %.
    let (standing, reasons) = first(&plan);
    assert_eq!(standing, "above limit");
    assert!(reasons[0].starts_with("pull cord"), "{reasons:?}");
    assert!(text(&plan).contains("; pulled with 3. no name: 14 m to 14.9 m needed, 10 m there"), "{}", text(&plan));
    plan.ropes.pop();
    assert_eq!(first(&plan), ("below limit", Vec::new()));
    assert!(text(&plan).contains("; pulled with 2. no name: 14 m to 14.9 m needed, 60 m there"), "{}", text(&plan));
}

#[test]
fn a_bend_on_a_sling_a_tree_or_a_block_rests_on_it() {
    let on = |bolt: &'static str| {
        let plan = six(vec![decided(vec![asked("bend", &[KNOWN, ("bolt", Entry::Choice(bolt))])])]);
        check(&plan).drops[0].reasons.iter().any(|reason| reason.why == Why::RestsOn(Unknown::Natural))
    };
    assert!(on("none") && !on("flat"));
}

#[test]
fn a_drop_rests_on_every_kind_of_part_that_nobody_knows() {
    let on = |item: &'static str| {
        let plan = six(vec![decided(vec![asked("weakest part", &[("anchor_1", Entry::Choice(item))])])]);
        check(&plan).drops[0].reasons.iter().map(|reason| reason.why).find(|why| matches!(why, Why::RestsOn(_)))
    };
    for (item, unknown) in [
        ("bolt", None),
        ("bolt found", Some(Unknown::Found)),
        ("soft found", Some(Unknown::Found)),
        ("natural", Some(Unknown::Natural)),
        ("people", Some(Unknown::People)),
        ("unseen", Some(Unknown::Unseen)),
    ] {
        assert_eq!(on(item), unknown.map(Why::RestsOn), "{item}");
    }
}

#[test]
fn a_drop_is_held_back_by_kit_of_the_day_bottoms_in_higher_water_ropes_that_are_not_there_and_ropes_nobody_uses() {
    let plan = six(vec![decided(vec![legs()])]);
    let open = |plan: &Plan, words: &str| {
        let checked = check(plan);
        let told = checked.open.iter().any(|open| open.drop == Some(0) && open.what.contains(words));
        assert!(!told || checked.drops[0].standing.words() != "below limit", "{words}");
        told
    };
    for words in ["higher water", "nobody goes down a rope", "no rope of the list", "rigged ahead"] {
        assert!(!open(&plan, words), "{words}");
    }
    let mut higher = plan.clone();
    higher.day.water = rigging_core::plan::WaterToday::Higher;
    assert!(open(&higher, "higher water"));
    let mut jumped = plan.clone();
    jumped.drops[0].anchor = rigging_core::plan::DropAnchor::NoRope;
    assert!(open(&jumped, "nobody goes down a rope"));
    let mut cords = plan.clone();
    cords.ropes = vec![rope(50.0, RopeKind::PullCord)];
    assert!(open(&cords, "no rope of the list"));
    // Kit that was entered counts, whether or not a group was.
    let mut alone = plan;
    alone.group.clear();
    let most = |plan: &Plan| check(plan).drops[0].answers[0].as_ref().as_ref().unwrap().findings[0].band.high();
    let usual = most(&alone);
    alone.day.kit = Band::of(40.0, 50.0, 60.0).map(Mass::new::<kilogram>);
    assert!(most(&alone) > 1.1 * usual, "{} and {usual}", most(&alone));
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
    plan.drops[0].name = "A\nDROP 9: below limit\r\n- none".to_owned();
    let text = plan.text(&check(&plan));
    assert!(text.contains("DROP 1 A / DROP 9: below limit / - none: ") && !text.contains("\nDROP 9"), "{text}");
}

#[test]
fn moving_water_and_what_hangs_dry_in_higher_water_are_open() {
    let dry = asked("abseil", &[("falling_water", Entry::Choice("none"))]);
    let mut plan = six(vec![decided(vec![dry])]);
    let open = |plan: &Plan, words: &str| check(plan).open.iter().any(|open| open.what.contains(words));
    let (swims, dry) = ("are not entered as swimming it", "and yet it hangs dry as entered");
    for person in &mut plan.group {
        person.water = WaterSkill::Still;
    }
    assert!(!open(&plan, swims) && !open(&plan, dry));
    plan.drops[0].bottom = Bottom::Moving;
    assert!(open(&plan, "moving water: 6 of 6 are not entered as swimming it"));
    for person in &mut plan.group {
        person.water = WaterSkill::Moving;
    }
    assert!(!open(&plan, swims));
    plan.day.water = WaterToday::Higher;
    assert!(open(&plan, dry));
}
