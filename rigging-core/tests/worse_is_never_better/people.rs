//! Those who hang: more of them, heavier ones, and one of them alone.

use crate::{answer, gravest, rank, up_to};
use rigging_core::limit::Standing;

#[test]
fn a_heavier_group_does_not_clear_the_people_who_hold_the_line() {
    let held = |most: f64| {
        format!(
            r#"{{"question": "in the current", "ends_on": "people", "tool": "diagonal", "flow": "walk",
                "body_kg": [46, 60, {most}]}}"#
        )
    };
    // The heavier they are the more one of them holds too: the range may cross, but it is not cleared.
    for most in [62.0, 72.0, 85.0, 98.0, 120.0] {
        assert!(gravest(&held(most)) >= rank(Standing::RangeCrosses), "{most}");
    }
}

#[test]
fn more_people_on_one_rope_are_no_better() {
    let grave = |people: u32| {
        gravest(&format!(
            r#"{{"question": "abseil", "falling_water": "trickle", "back_up": "top rope", "people": {people},
                "anchor": "known", "limit": "own", "own_limit_n": 6000}}"#
        ))
    };
    assert!((1..12).all(|people| grave(people + 1) >= grave(people)));
}

#[test]
fn one_of_several_may_be_the_one_who_is_stuck() {
    let stuck = |people: u32| {
        let json = format!(
            r#"{{"question": "raise and lower", "bends": 1, "bend_1": "stays", "over_1": "connector",
                "turn_1_rad": 3.141592653589793, "pullers": 12, "hard_pull_n": 800, "people": {people}}}"#
        );
        let answer = answer(&json);
        answer.usual.iter().find(|row| row.what == "on the harness of one person").unwrap().load.high()
    };
    // Twelve who pull 800 N each: 9.6 kN, and more where friction helps none of them.
    assert!((1..4).all(|people| stuck(people + 1) >= stuck(people)) && stuck(1) >= 9600.0, "{}", stuck(1));
}

#[test]
fn one_of_several_may_slip_alone() {
    let tails = |people: u32| {
        format!(
            r#"{{"question": "slip", "what": "cow's tail", "sling": "nylon", "anchor_gives_m": 0.1, "people": {people},
                "anchor": "known", "limit": "sewn sling", "clear_m": 0}}"#
        )
    };
    assert_eq!(gravest(&tails(1)), rank(Standing::RangeCrosses));
    assert!((1..6).all(|people| gravest(&tails(people)) >= gravest(&tails(1))));
    assert!(up_to(&tails(2), "harness of one who falls alone") > up_to(&tails(2), "shared alike"));
    // On a rope, too, each may be caught alone.
    for question in [
        r#""abseil", "#,
        r#""slip", "what": "slack rope", "#,
        r#""slip", "what": "anchor fails", "#,
        r#""bend", "bends": 2, "over_1": "connector", "over_2": "connector", "#,
        r#""anchor legs", "state": "still", "rope_m": 1, "#,
        r#""natural anchor", "#,
        r#""guided abseil", "#,
    ] {
        let on_one = |people: u32| {
            let answer = answer(&format!(r#"{{"question": {question}"people": {people}}}"#));
            answer.usual.iter().find(|row| row.what == "on the harness of one person").unwrap().load.high()
        };
        let one = on_one(1);
        assert!((2..5).all(|people| on_one(people) >= one * (1.0 - 1e-9)), "{question} {one} {}", on_one(2));
    }
}
