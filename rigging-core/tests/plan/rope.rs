//! Rope over the whole descent: what is rigged ahead, what dictates, what has to be spare.

use super::time::fifteen;
use super::{check, decided, six};
use rigging_core::band::Band;
use rigging_core::plan::{DropAnchor, Plan, PlannedDrop, RopeSkill, Said, Why};
use rigging_core::quantity::{Length, Time, metre, second};
use rigging_core::question::{Entry, Held, Question};

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
fn a_second_rope_is_rigged_ahead_only_where_it_reaches_down() {
    let mut plan = six(fifteen());
    let with_second = |plan: &mut Plan, metres: f64| {
        plan.ropes[1].length = Length::new::<metre>(metres);
        plan.times()
    };
    // Twice 9 m of drop, a metre of knots and 6 % of shrinkage: (2 · 9 + 1)/0.94 = 20.2 m of rope.
    for (place, drop) in plan.drops.iter_mut().enumerate() {
        let metres = if place == 3 { 9.0 } else { 17.0 };
        drop.height = Band::exact(Length::new::<metre>(metres));
    }
    let one = Plan { ropes: plan.ropes[..1].to_vec(), ..plan.clone() }.times().descent;
    let short = with_second(&mut plan, 20.1);
    assert!(short.second_rope.is_err());
    let two = with_second(&mut plan, 20.3);
    // While it hangs there the first is free for the next.
    assert_eq!(two.second_rope, Ok(vec![3, 4]));
    let text = plan.text(&check(&plan));
    assert!(text.contains("- A second rope is rigged ahead at drops 4, 5\n"), "{text}");
    assert!(
        text.contains("- drop 4: rigged ahead with rope 2: enter it here") && !text.contains("drop 5: rigged ahead")
    );
    let mut behind = plan.clone();
    behind.drops[3].set_back = Length::new::<metre>(1.0);
    assert!(behind.times().second_rope.is_err());
    // People hold one rope at a time, and what nobody has seen may have to be found first.
    for anchor in [DropAnchor::People, DropAnchor::Unseen] {
        let mut people = plan.clone();
        people.drops[3].anchor = anchor;
        assert!(people.times().second_rope.is_err());
    }
    // Pulled by a cord it takes one strand: (9 + 1)/0.94 = 10.64 m.
    let mut by_cord = plan.clone();
    let mut rope = Held::new(Question::named("rope").unwrap());
    rope.set("rigged", &Entry::Choice("pull cord")).unwrap();
    rope.set("set_back_m", &Entry::One(0.0)).unwrap();
    by_cord.drops[3].questions.push(rope);
    assert!(with_second(&mut by_cord, 10.6).second_rope.is_err());
    // The first is the only one that can pull it, and hangs there until it does: it is not free for the next.
    assert_eq!(with_second(&mut by_cord, 10.7).second_rope, Ok(vec![3]));
    by_cord.ropes.push(by_cord.ropes[0].clone());
    by_cord.ropes[2].kind = rigging_core::plan::RopeKind::PullCord;
    assert_eq!(with_second(&mut by_cord, 10.7).second_rope, Ok(vec![3, 4]));
    // The rope chosen for a drop hangs at the one above: it is not rigged ahead.
    let mut same = plan.clone();
    same.drops[3].rope = 1;
    assert!(same.times().second_rope.is_err());
    let all = with_second(&mut plan, 40.0);
    assert_eq!(all.second_rope.as_ref().map(Vec::len), Ok(plan.drops.len() - 1), "all but the first");
    // Two ropes in turn: the third drop waits for the rope of the first, however short the second is.
    let mut three = plan.clone();
    three.drops.truncate(3);
    for (drop, minutes) in three.drops.iter_mut().zip([60.0, 0.0, 30.0]) {
        drop.extra = Band::exact(Time::new::<second>(60.0 * minutes));
    }
    let times = three.times();
    let [first, _, third] = [0, 1, 2].map(|place| times.drops[place].spent.typical());
    assert!(times.descent.typical() >= first + third - 1e-9, "{:?}", times.descent);
    let typical = [&one, &short.descent, &two.descent, &all.descent].map(Band::typical);
    assert!(typical[0] == typical[1] && typical[1] > typical[2] && typical[2] > typical[3], "{typical:?}");
}

#[test]
fn a_line_takes_a_rope_that_no_question_counts() {
    let mut plan = six(fifteen()[..2].to_vec());
    let first = |plan: &Plan, held: Option<Held>| {
        let mut plan = plan.clone();
        plan.drops[0].questions.extend(held);
        let open = check(&plan).open;
        let told =
            open.iter().any(|open| open.drop == Some(0) && open.what.ends_with("takes a rope that is not counted"));
        (told, plan.times().second_rope.is_ok())
    };
    let tool = |tool: &'static str| super::asked("in the current", &[("tool", Entry::Choice(tool))]);
    assert_eq!(first(&plan, None), (false, true));
    // The other rope may hang there: it is open, and not free to be rigged ahead.
    for held in [super::asked("guided abseil", &[]), super::asked("line", &[]), tool("tether"), tool("hand-line")] {
        assert_eq!(first(&plan, Some(held.clone())), (true, false), "{}", held.question.name());
    }
    // A throw line comes in a bag of its own.
    assert_eq!(first(&plan, Some(tool("throw line"))), (false, true));
    // What a group wades along between the two is not free either.
    let wade = PlannedDrop { anchor: DropAnchor::NoRope, questions: vec![tool("hand-line")], ..PlannedDrop::default() };
    plan.drops.insert(1, wade);
    assert_eq!(first(&plan, None), (false, false));
}

#[test]
fn a_short_rope_at_a_lower_drop_dictates_before_a_long_one_at_the_highest() {
    let mut plan = Plan::example();
    let needs = check(&plan).ropes.needs;
    let highest = needs.iter().max_by(|one, other| one.needed.high().total_cmp(&other.needed.high())).unwrap().drop;
    let lower = needs.iter().find(|need| need.drop != highest).unwrap();
    let mut longest = plan.ropes[0].clone();
    longest.length = Length::new::<metre>(150.0);
    plan.ropes[0].length = Length::new::<metre>(lower.needed.high() - 1.0);
    plan.ropes.push(longest);
    for (place, drop) in plan.drops.iter_mut().enumerate() {
        drop.rope = if place == lower.drop { 1 } else { plan.ropes.len() as u32 };
    }
    let ropes = check(&plan).ropes;
    assert_eq!(ropes.needs[ropes.dictated_by.unwrap()].drop, lower.drop);
    assert!(ropes.reserve.unwrap().low() < 0.0);
}

#[test]
fn the_rope_that_dictates_is_marked_and_spare_rope_must_reach_down_the_longest_drop_below() {
    let plan = Plan::example();
    let checked = check(&plan);
    let ropes = &checked.ropes;
    let least = ropes.needs.iter().map(|need| need.there - need.needed.high()).fold(f64::INFINITY, f64::min);
    assert_eq!(ropes.reserve.unwrap().low(), least);
    let spare = ropes.spare.unwrap();
    // As the pull-down asks for it: a metre of knots, and 6 % of shrinkage; from the station, 2.5 m behind the lip.
    assert!((spare.needed - 28.5 / 0.94).abs() < 1e-9 && spare.below == 27.5 && spare.there == 25.0);
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
fn the_spare_rope_reaches_from_the_station_of_the_drop_that_takes_most() {
    let mut plan = six(fifteen()[..3].to_vec());
    for (rope, length) in plan.ropes.iter_mut().zip([145.0, 45.0]) {
        rope.length = Length::new::<metre>(length);
    }
    for (drop, [height, set_back]) in plan.drops.iter_mut().zip([[10.0, 0.0], [40.0, 3.0], [35.0, 30.0]]) {
        drop.height = Band::exact(Length::new::<metre>(height));
        drop.set_back = Length::new::<metre>(set_back);
    }
    let is_short = |plan: &Plan, way: f64, told: &str| {
        let checked = check(plan);
        let spare = checked.ropes.spare.unwrap();
        // A metre of knots, and 6 % of shrinkage.
        assert!((spare.below - way).abs() < 1e-9, "{spare:?}");
        assert!((spare.needed - (way + 1.0) / 0.94).abs() < 1e-9 && spare.there == 45.0, "{spare:?}");
        let text = plan.text(&checked).replace('\u{a0}', " ");
        assert!(text.contains(told) && text.contains("as a single strand"), "{text}");
    };
    // Not the highest: 30 m to the lip of the last make its way the longest.
    is_short(&plan, 65.0, "needed in one piece for drop 3 still below, 65 m with its set-back, 45 m there");
    // A set-back that the drop leaves to its question counts as well, but not one of an example.
    plan.drops[2].set_back = Length::default();
    let mut rope = Held::new(Question::named("rope").unwrap());
    rope.set("set_back_m", &Entry::One(30.0)).unwrap();
    plan.drops[2].questions.push(rope);
    is_short(&plan, 65.0, "for drop 3 still below");
    plan.drops[2].questions[0].missing = vec!["set_back_m"];
    is_short(&plan, 43.0, "for drop 2 still below");
    // The pull-down is asked for the same way, and a rope rigged ahead has to reach as far.
    plan.drops[0].questions.push(Held::new(Question::named("pull-down").unwrap()));
    let asked = &plan.asked_today(0)[0];
    let next = asked.fields.iter().find(|field| field.about.name == "next_drop_m").unwrap();
    assert_eq!((next.entry, asked.refused.len()), (Entry::One(43.0), 0));
    plan.ropes[1].length = Length::new::<metre>(76.0);
    assert_eq!(plan.times().second_rope, Ok(vec![2]));
    plan.drops[2].questions[0].missing.clear();
    assert!(plan.times().second_rope.is_err());
    // The longest there may be is still asked for.
    plan.drops[2].height = Band::exact(Length::new::<metre>(200.0));
    plan.drops[2].set_back = Length::new::<metre>(50.0);
    assert!(plan.asked_today(0)[0].refused.is_empty());
}

#[test]
fn what_is_rigged_ahead_takes_slings_while_the_drop_above_still_does() {
    let legs = || super::asked("anchor legs", &[]);
    let mut plan = six(fifteen()[..3].to_vec());
    for drop in &mut plan.drops {
        drop.questions.push(legs());
    }
    assert_eq!(plan.times().second_rope, Ok(vec![1, 2]));
    // Two at each: never three drops at once.
    assert_eq!(check(&plan).parts.slings, (4, 1));
    plan.ropes.truncate(1);
    assert_eq!(check(&plan).parts.slings, (2, 0));
}

#[test]
fn a_pull_down_is_asked_for_the_highest_that_its_drop_may_be_and_keeps_how_the_strands_differ() {
    let pull = super::asked("pull-down", &[("height_m", Entry::One(5.0)), ("rising_m", Entry::One(3.0))]);
    let mut plan = six(fifteen()[..1].to_vec());
    plan.drops[0].height = Band::of(38.0, 40.0, 42.0).map(Length::new::<metre>);
    plan.drops[0].questions.push(pull);
    let entry = |plan: &Plan, name: &str| {
        let asked = &plan.asked_today(0)[0];
        asked.fields.iter().find(|field| field.about.name == name).unwrap().entry
    };
    assert_eq!((entry(&plan, "height_m"), entry(&plan, "rising_m")), (Entry::One(42.0), Entry::One(40.0)));
    // Of a slab the question tells how far down it goes from its foot.
    plan.drops[0].questions[0].set("slab_on", &Entry::Choice("both")).unwrap();
    assert_eq!((entry(&plan, "height_m"), entry(&plan, "rising_m")), (Entry::One(5.0), Entry::One(3.0)));
}

/// Whatever the rigging, a strand goes from the station to the bottom.
#[test]
fn a_drop_higher_than_its_rope_is_long_is_named_whatever_was_asked_of_it() {
    let metres = |metres: f64| Length::new::<metre>(metres);
    for questions in [vec![], vec!["abseil"], vec!["anchor legs"]] {
        let asked = |name: &&str| super::asked(name, &[]);
        let deep = PlannedDrop { questions: questions.iter().map(asked).collect(), ..decided(vec![]) };
        let mut plan = six(vec![decided(vec![]), deep]);
        let first = |plan: &Plan| {
            let checked = check(plan);
            let text = plan.text(&checked).replace('\u{a0}', " ");
            let reserve = text.split("RESERVE ROPE\n").nth(1).unwrap().split("\n\n").next().unwrap().to_owned();
            let json = serde_json::to_value(Said { plan, checked: &checked }).unwrap();
            assert_eq!(json["ropes"]["drops_without_an_answer"], serde_json::json!([2.0]));
            let why = checked.drops[1].reasons.iter().find(|reason| reason.what.starts_with("rope")).cloned();
            (reserve, why.map(|why| (why.why, why.what.replace('\u{a0}', " "))))
        };
        // Nobody asked how much it needs: what is left at the other is not all that has to be.
        let (reserve, why) = first(&plan);
        assert!(
            reserve.starts_with("- Of those with an answer, drop 1 dictates") && why.is_none(),
            "{reserve} {why:?}"
        );
        // Down 80 m, 3 m behind the lip, on a rope of 40 m: with a metre for knots, wet, 84 m are 89.4 m.
        plan.drops[1].height = Band::exact(metres(80.0));
        let (reserve, why) = first(&plan);
        let told =
            "- Drop 2 even in a single strand, doubled twice as much: 83 m to 89.4 m needed, 40 m there, up to 49.4 m";
        assert!(
            reserve.starts_with("- Of those with an answer, drop 1 dictates") && reserve.contains(told),
            "{reserve}"
        );
        let what = "rope, in a single strand: 83 m to 89.4 m needed, 40 m there".to_owned();
        assert_eq!(why, Some((Why::Above, what)));
        assert_eq!(check(&plan).first[0], 1);
        // It reaches, but not with what the water takes off it.
        plan.drops[1].height = Band::exact(metres(36.0));
        assert_eq!(first(&plan).1.map(|(why, _)| why), Some(Why::Crosses));
    }
}

#[test]
fn what_stays_where_a_rope_is_pulled_is_counted_whether_or_not_its_rope_is_asked_about() {
    let parts = |names: &[&str]| {
        let questions: Vec<_> = names.iter().map(|name| super::asked(name, &[])).collect();
        let plan = six(vec![PlannedDrop { questions, ..decided(vec![]) }; 5]);
        let checked = check(&plan);
        (checked.parts.links_left, checked.parts.slings_left, plan.text(&checked))
    };
    for names in [&["natural anchor"][..], &["natural anchor", "abseil"], &["natural anchor", "abseil", "rope"]] {
        let (links, slings, text) = parts(names);
        assert_eq!((links, slings), (5, 5), "{names:?}");
        assert!(text.contains("- no slings counted besides what is left behind\n"), "{text}");
    }
    // What nobody counts is not said to be counted.
    let (links, _, text) = parts(&["raise and lower", "bend"]);
    assert!(links == 5 && text.contains("; not what other questions use, legs that stay with their link"), "{text}");
}
