//! When a drop is below a limit as a whole, and what keeps it from that.

use super::{asked, check, decided, six};
use rigging_core::band::Band;
use rigging_core::plan::{Answers, CarriedRope, Plan, RopeKind, Unknown, WaterSkill, WaterToday, Why};
use rigging_core::quantity::{Length, Mass, Time, Unit, Units, kilogram, metre, second};
use rigging_core::question::{Bottom, Entry, Held};

const KNOWN: (&str, Entry) = ("anchor", Entry::Choice("known"));
const OWN: (&str, Entry) = ("limit", Entry::Choice("own"));

pub(super) fn legs() -> Held {
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
