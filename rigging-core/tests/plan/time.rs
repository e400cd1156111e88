//! Time and light over the whole descent, and how long the check takes.

use super::{check, six};
use rigging_core::band::Band;
use rigging_core::plan::{Answers, DropAnchor, Plan, PlannedDrop, RopeSkill, WaterToday};
use rigging_core::quantity::{Angle, Length, Mass, Time, Units, degree, kilogram, metre, second};
use rigging_core::question::{Bottom, Held, Question};
use std::time::Instant;

/// Fifteen drops of 3 to 14 m.
pub(super) fn fifteen() -> Vec<PlannedDrop> {
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
    // told in whole hours, so to half of one.
    assert!(ordinary.low() <= 3.5 * HOUR && ordinary.high() >= 6.0 * HOUR, "{ordinary:?}");
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
fn a_first_drop_before_sunrise_is_told() {
    let told = |set_off: f64, walk: f64| {
        let mut plan = Plan::example();
        plan.day.start = Time::new::<second>(set_off);
        plan.day.walk_in = Band::of(walk, 2.0 * walk, 3.0 * walk).map(Time::new::<second>);
        let checked = check(&plan);
        let sunrise = checked.times.sun.unwrap().sunrise.unwrap().value;
        (checked.open.iter().any(|open| open.what.contains("before sunrise")), sunrise)
    };
    let (_, sunrise) = told(43_200.0, 1800.0);
    // Who is quickest gets there half an hour after setting off.
    assert!(told(sunrise - 1801.0, 1800.0).0 && !told(sunrise - 1799.0, 1800.0).0);
    let mut polar = Plan::example();
    polar.day.latitude = Angle::new::<degree>(80.0);
    polar.day.date = "2031-06-21".to_owned();
    polar.day.start = Time::new::<second>(0.0);
    // In summer the sun does not set there, so it does not rise.
    assert!(!check(&polar).open.iter().any(|open| open.what.contains("before sunrise")));
}

#[test]
fn a_start_in_the_night_by_a_last_light_of_ones_own_is_told() {
    let told = |start: f64, own: bool| {
        let mut plan = six(fifteen()[..1].to_vec());
        plan.day.light_by =
            if own { rigging_core::plan::LightBy::Own } else { rigging_core::plan::LightBy::NotEntered };
        plan.day.start = Time::new::<second>(3600.0 * start);
        check(&plan).open.iter().any(|open| open.what.contains("whether it is light by then is not known"))
    };
    assert!(told(2.0, true) && told(6.9, true) && !told(7.0, true) && !told(2.0, false));
}

#[test]
fn one_more_who_goes_down_alone_makes_nobody_quicker() {
    let mut plan = six(fifteen());
    plan.ropes.truncate(1);
    plan.group.truncate(4);
    plan.group[2].rope = RopeSkill::New;
    plan.group[3].rope = RopeSkill::New;
    // What does not grow with the people takes no less with more of them.
    for drop in &mut plan.drops {
        drop.extra = Band::exact(Time::new::<second>(1800.0));
        drop.to_next = Band::exact(Time::new::<second>(3600.0));
    }
    let mut last = plan.times();
    // By hand: half of four are new, so all takes as long as the pace says; two of seven: 4/7 of what is more than once.
    assert_eq!(last.hard, Some("people new to ropes, or skills not entered"));
    assert!(plan.text(&check(&plan)).replace('\u{a0}', " ").contains("skills not entered: 1.0 to 2.5 times"));
    for _ in 0..6 {
        let alone = plan.group[1].clone();
        plan.group.push(rigging_core::plan::Person { rope: RopeSkill::Alone, ..alone });
        let now = plan.times();
        for end in [Band::low, Band::typical, Band::high] {
            assert!(end(&now.descent) >= end(&last.descent), "{:?} after {:?}", now.descent, last.descent);
        }
        last = now;
        if plan.group.len() == 7 {
            let text = plan.text(&check(&plan)).replace('\u{a0}', " ");
            let told = "skills not entered: 1.0 to 2.5 times, 1.0 to 1.9 what each person takes";
            assert!(text.contains(told), "{text}");
        }
    }
    // Somebody new makes nobody quicker either where the water is not seen.
    plan.day.water = WaterToday::NotSeen;
    let with = plan.times();
    plan.group.iter_mut().for_each(|person| person.rope = RopeSkill::Rigs);
    let without = plan.times();
    for end in [Band::low, Band::typical, Band::high] {
        assert!(end(&with.descent) >= end(&without.descent), "{:?} {:?}", with.descent, without.descent);
    }
    assert_eq!(with.hard, Some("water not seen yet, and people new to ropes or skills not entered"));
}

#[test]
fn a_place_that_nobody_entered_has_no_sunset() {
    let mut plan = Plan::example();
    assert!(check(&plan).times.last_light.is_some());
    (plan.day.latitude, plan.day.longitude) = Default::default();
    let checked = check(&plan);
    assert_eq!(checked.times.last_light, None);
    assert!(plan.text(&checked).contains("place not entered: no sunset is worked out"));
    // Half a place would be one of Greenwich, or of the equator.
    for half in [0, 1] {
        let mut plan = Plan::example();
        *[&mut plan.day.latitude, &mut plan.day.longitude][half] = Default::default();
        assert_eq!(check(&plan).times.last_light, None);
    }
}

#[test]
fn whoever_jumps_waits_for_the_one_before_to_swim_clear() {
    let mut plan = six(fifteen()[..1].to_vec());
    plan.drops[0].anchor = DropAnchor::NoRope;
    plan.drops[0].bottom = Bottom::Still;
    plan.drops[0].height = Band::exact(Length::new::<metre>(0.0));
    let pace = &plan.pace;
    // By hand: six times off the water and the signal.
    let each = pace.off_water.typical().value + pace.signal.typical().value;
    assert_eq!(plan.times().descent.typical(), 6.0 * each);
}

#[test]
fn what_is_rigged_ahead_saves_no_more_than_the_quickest_time_at_the_drop_above() {
    let mut plan = six(fifteen()[..2].to_vec());
    plan.drops[0].extra = Band::of(0.0, 0.0, 14_400.0).map(Time::new::<second>);
    plan.drops[1].extra = Band::exact(Time::new::<second>(14_400.0));
    plan.day.light_by = rigging_core::plan::LightBy::Own;
    plan.day.own_last_light = Time::new::<second>(20.0 * 3600.0);
    let times = plan.times();
    assert_eq!(times.second_rope, Ok(vec![1]));
    let [slow, typical] = times.drops[1].not_after.unwrap();
    // All of the second drop at its slowest, less what is surely done ahead of it, for which the first gives no more than
    // its quickest time.
    let (above, drop) = (times.drops[0].spent.low(), times.drops[1].spent.high());
    let ahead = (1.0 - plan.pace.second_rope.high().value) * drop;
    assert!(above < ahead && ahead < times.drops[0].spent.high(), "{above} {ahead}");
    assert!((slow - (19.0 * 3600.0 - (drop - above))).abs() < 1e-6 && slow < typical, "{slow}, {typical}");
}

#[test]
fn a_sun_that_never_sets_is_not_one_that_never_rises() {
    let at = |date: &str| {
        let mut plan = Plan::example();
        plan.day.latitude = Angle::new::<degree>(78.0);
        plan.day.date = date.to_owned();
        plan.text(&check(&plan))
    };
    assert!(at("2031-06-21").contains("Sunrise none, the sun stays up"), "{}", at("2031-06-21"));
    assert!(at("2031-12-21").contains("Sunrise none, the sun stays down"), "{}", at("2031-12-21"));
}

#[test]
fn a_clock_that_nobody_keeps_at_the_place_makes_no_sunset() {
    let at = |longitude: f64, hours: f64| {
        let mut plan = Plan::example();
        plan.day.longitude = Angle::new::<degree>(longitude);
        plan.day.ahead_of_utc = Time::new::<second>(3600.0 * hours);
        let checked = check(&plan);
        let text = plan.text(&checked);
        let odd = text.split("would stand highest at ").nth(1).map(|rest| rest.chars().take(5).collect::<String>());
        assert_eq!(odd.is_none(), checked.times.last_light.is_some() && checked.times.sun.is_some(), "{longitude}");
        odd
    };
    // Left at 0 west of the Atlantic: by hand, 60/15 = 4 and 110/15 = 7.33 hours late.
    assert_eq!((at(-60.0, 0.0), at(-110.0, 0.0)), (Some("16:00".to_owned()), Some("19:20".to_owned())));
    // And in the Alps.
    assert_eq!(at(10.0, 0.0), Some("11:20".to_owned()));
    // The wrong sign; half a day off.
    assert_eq!((at(10.0, -4.0), at(-71.0, 7.5)), (Some("07:20".to_owned()), Some("00:14".to_owned())));
    // Clocks that are kept: summer time in Galicia and on the Azores, Iceland, the west of China, the Aleutians, Samoa,
    // Argentina, Togo (tz database, from memory).
    for (longitude, hours) in [
        (-9.0, 2.0),
        (-24.0, 0.0),
        (75.0, 8.0),
        (-179.0, -9.0),
        (-172.0, 13.0),
        (-70.0, -3.0),
        (-60.0, -3.0),
        (-31.2, 0.0),
        (1.5, 0.0),
    ] {
        assert_eq!(at(longitude, hours), None, "{longitude}, {hours}");
    }
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

#[test]
fn what_was_itself_rigged_ahead_leaves_less_time_to_rig_ahead() {
    // Three ropes, three drops: the second is rigged while the first is gone down, the third while the second is.
    let mut plan = six(fifteen()[..3].to_vec());
    plan.ropes.push(plan.ropes[0].clone());
    plan.ropes.push(plan.ropes[0].clone());
    plan.drops[2].extra = Band::exact(Time::new::<second>(14_400.0));
    plan.day.light_by = rigging_core::plan::LightBy::Own;
    plan.day.own_last_light = Time::new::<second>(20.0 * 3600.0);
    let times = plan.times();
    assert_eq!(times.second_rope, Ok(vec![1, 2]));
    let [highest, middle, lowest] = [0, 1, 2].map(|place| times.drops[place].spent);
    let share = plan.pace.second_rope.map(|share| share.value);
    // The second at its quickest, as much of it done before as can be.
    let quick = middle.low() - ((1.0 - share.low()) * middle.low()).min(highest.low());
    let ahead = (1.0 - share.high()) * lowest.high();
    assert!(quick < ahead && quick < middle.low(), "{quick} {ahead}");
    let [slow, _] = times.drops[2].not_after.unwrap();
    assert!((slow - (19.0 * 3600.0 - (lowest.high() - quick))).abs() < 1e-6, "{slow}");
}

#[test]
fn a_start_in_the_dark_and_a_turn_round_that_comes_too_late_are_told() {
    let mut plan = Plan::example();
    let (dark, late) = ("at the slow end that is in the dark", "at the slow end that is before anybody is there");
    let text = plan.text(&check(&plan));
    assert!(text.contains(dark) && text.contains(late), "{text}");
    // Nor at the typical time, for who sets off at night.
    plan.day.start = Time::new::<second>(23.0 * 3600.0);
    let text = plan.text(&check(&plan));
    assert!(
        text.contains("\n  that is before anybody is there") && text.contains("\n  that is before the start"),
        "{text}"
    );
    plan.day.water = WaterToday::AsEntered;
    for drop in &mut plan.drops {
        drop.extra = Band::exact(Time::new::<second>(0.0));
    }
    plan.day.start = Time::new::<second>(8.0 * 3600.0);
    let text = plan.text(&check(&plan));
    assert!(!text.contains(dark) && !text.contains(late), "{text}");
}

#[test]
fn a_day_on_which_the_sun_does_not_come_up_is_late_from_the_start() {
    for (latitude, is_dark) in [(60.0, false), (67.5, true), (70.0, true), (72.0, true), (78.0, true)] {
        let mut plan = Plan::example();
        (plan.day.latitude, plan.day.longitude) = (Angle::new::<degree>(latitude), Angle::new::<degree>(15.0));
        plan.day.date = "2031-12-21".to_owned();
        plan.day.start = Time::new::<second>(5.0 * 3600.0);
        let text = plan.text(&check(&plan));
        let late = text.split("\n\nLATE\n").nth(1).and_then(|late| late.lines().next()).unwrap();
        let dark = late.starts_with("- Runs past all daylight: no sun all day, twilight at most (05:00): out ");
        assert_eq!(dark, is_dark, "{latitude}: {text}");
        assert_eq!(text.contains("- the sun does not come up: enter a last light of your own"), is_dark, "{text}");
        assert!(!is_dark || !text.contains("no sunset can be worked out"), "{text}");
    }
}

#[test]
fn what_moves_the_end_most_may_be_the_walk_in_or_out() {
    let walk = Band::of(1200.0, 3000.0, 36_000.0).map(Time::new::<second>);
    let moved = |walks: [Option<Band<Time>>; 2]| {
        let mut plan = six(fifteen());
        let [walk_in, walk_out] = walks;
        plan.day.walk_in = walk_in.unwrap_or(plan.day.walk_in);
        plan.day.walk_out = walk_out.unwrap_or(plan.day.walk_out);
        plan.times().moved_most_by
    };
    assert_eq!(moved([Some(walk), None]), Some("the walk in"));
    assert_eq!(moved([None, Some(walk)]), Some("the walk out"));
    assert!(moved([None; 2]).is_some_and(|moved| !moved.contains("walk")));
}
