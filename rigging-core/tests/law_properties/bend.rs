use crate::by_hand::{Plane, round_a_bend};
use crate::numbers::{any, at_least, close, counts, degrees, factor, force, is_lawful, newtons, often, plain, radians};
use proptest::prelude::*;
use rigging_core::law::bend::{friction_from_pair, resultant, slack_side, tight_side, tight_to_slack};
use std::f64::consts::PI;

fn gain(friction: f64, angle: f64) -> f64 {
    tight_to_slack(plain(friction), radians(angle)).unwrap().value
}
fn tight(slack: f64, friction: f64, angle: f64) -> f64 {
    tight_side(newtons(slack), plain(friction), radians(angle)).unwrap().value
}
fn slack(tight: f64, friction: f64, angle: f64) -> f64 {
    slack_side(newtons(tight), plain(friction), radians(angle)).unwrap().value
}
fn on_bend(one: f64, other: f64, angle: f64) -> f64 {
    resultant(newtons(one), newtons(other), radians(angle)).unwrap().value
}

proptest! {
    #[test]
    fn friction_walked_round_a_bend_gives_the_same(pull in force(), friction in 0.0..1.2_f64, angle in degrees(0.0, 540.0)) {
        let walked = round_a_bend(pull, friction, angle);
        prop_assert!(close(tight(pull, friction, angle), walked, 1e-11, 0.0));
        prop_assert!(close(slack(walked, friction, angle), pull, 1e-11, 0.0));
        prop_assert!(close(gain(friction, angle), walked / pull, 1e-11, 0.0));
    }

    #[test]
    fn bends_in_a_row_add_their_angles(friction in 0.0..1.0_f64, one in degrees(0.0, 360.0), other in degrees(0.0, 360.0)) {
        let row = gain(friction, one) * gain(friction, other);
        prop_assert!(close(row, gain(friction, one + other), 1e-13, 0.0));
    }

    #[test]
    fn a_load_raised_and_lowered_tells_its_friction(load in force(), friction in 0.01..1.2_f64, angle in degrees(10.0, 400.0)) {
        let (up, down) = (round_a_bend(load, friction, angle), load * load / round_a_bend(load, friction, angle));
        let told = friction_from_pair(newtons(up), newtons(down), radians(angle)).unwrap().value;
        prop_assert!(close(told, friction, 1e-10, 0.0));
    }

    #[test]
    fn the_force_on_a_bend_is_the_sum_of_both_pulls(
        one in force(), other in force(), angle in degrees(0.0, 180.0), turn in degrees(-180.0, 180.0),
    ) {
        // The rope leaves backward along the way it came, and forward turned by the angle.
        let back = Plane::at(turn + PI).times(one);
        let on = Plane::at(turn + angle).times(other);
        prop_assert!(close(back.plus(on).size(), on_bend(one, other, angle), 0.0, 2e-15 * one.max(other)));
    }

    #[test]
    fn a_rope_that_turns_little_loads_its_bend_by_tension_times_angle(pull in force(), power in -14.0..-3.0_f64) {
        let angle = 10_f64.powf(power);
        prop_assert!(close(on_bend(pull, pull, angle), pull * angle, 1e-6, 0.0));
    }

    #[test]
    fn a_bend_seen_from_the_other_side_is_the_same(one in force(), other in force(), angle in degrees(0.0, 180.0)) {
        prop_assert_eq!(on_bend(one, other, angle), on_bend(other, one, angle));
    }

    #[test]
    fn tensions_at_a_bend_grow_together(
        pull in force(), other in force(), times in factor(), friction in 0.0..1.0_f64, angle in degrees(0.0, 180.0),
    ) {
        prop_assert!(close(tight(pull, friction, angle) * times, tight(pull * times, friction, angle), 1e-15, 0.0));
        prop_assert!(close(slack(pull, friction, angle) * times, slack(pull * times, friction, angle), 1e-15, 0.0));
        let (once, more) = (on_bend(pull, other, angle), on_bend(pull * times, other * times, angle));
        prop_assert!(close(once * times, more, 1e-14, 0.0));
        let told = |by: f64| {
            let (up, down) = (newtons(by * pull.max(other)), newtons(by * pull.min(other)));
            friction_from_pair(up, down, radians(angle + 0.1)).unwrap().value
        };
        prop_assert_eq!(told(1.0), told(8.0));
    }

    #[test]
    fn more_friction_or_more_turning_holds_more(
        pull in force(), one in 0.0..1.0_f64, other in 0.0..1.0_f64, less in degrees(0.0, 300.0), more in degrees(0.0, 300.0),
    ) {
        let ((least, most), (short, long)) = ((one.min(other), one.max(other)), (less.min(more), less.max(more)));
        prop_assert!(tight(pull, least, long) <= tight(pull, most, long));
        prop_assert!(tight(pull, most, short) <= tight(pull, most, long));
        prop_assert!(slack(pull, least, long) >= slack(pull, most, long));
        prop_assert!(slack(pull, most, short) >= slack(pull, most, long));
        let (short, long) = (short / 2.0, long / 2.0);
        prop_assert!(at_least(on_bend(pull, one * pull, long), on_bend(pull, one * pull, short)));
    }

    #[test]
    fn the_force_on_a_bend_is_right_however_large_or_small_the_pull(power in -290.0..300.0_f64, angle in degrees(1.0, 180.0)) {
        let pull = 10_f64.powf(power);
        prop_assert!(close(on_bend(pull, pull, angle) / pull, on_bend(1.0, 1.0, angle), 1e-14, 0.0));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_bend_gives_an_error_or_a_number_whatever_comes_in(one in any(), other in any(), angle in any()) {
        let lawful = |answer: Result<f64, _>, within: bool, in_range: &dyn Fn(f64) -> bool| {
            is_lawful(answer, &[one, other, angle], within, in_range)
        };
        let turns = angle >= 0.0;
        let answer = tight_side(newtons(one), plain(other), radians(angle)).map(|force| force.value);
        prop_assert!(lawful(answer, one >= 0.0 && other >= 0.0 && turns, &|tight| counts(tight) && tight >= one), "{answer:?}");
        let answer = slack_side(newtons(one), plain(other), radians(angle)).map(|force| force.value);
        prop_assert!(lawful(answer, one >= 0.0 && other >= 0.0 && turns, &|slack| counts(slack) && slack <= one), "{answer:?}");
        let answer = friction_from_pair(newtons(one), newtons(other), radians(angle)).map(|friction| friction.value);
        prop_assert!(lawful(answer, other > 0.0 && one >= other && angle > 0.0, &counts), "{answer:?}");
        let answer = tight_to_slack(plain(other), radians(angle)).map(|gain| gain.value);
        let within = other >= 0.0 && turns;
        prop_assert!(is_lawful(answer, &[other, angle], within, |gain| gain.is_finite() && gain >= 1.0), "{answer:?}");
        let answer = resultant(newtons(one), newtons(other), radians(angle)).map(|force| force.value);
        let within = one >= 0.0 && other >= 0.0 && (0.0..=PI).contains(&angle);
        prop_assert!(lawful(answer, within, &|force| {
            let (least, most) = ((one - other).abs(), one / 2.0 + other / 2.0);
            counts(force) && at_least(force, least) && at_least(most, force / 2.0)
        }), "{answer:?}");
    }
}

#[test]
fn at_the_limits_a_bend_is_what_anyone_can_see() {
    assert_eq!((tight(700.0, 0.4, 0.0), slack(700.0, 0.4, 0.0)), (700.0, 700.0), "no bend");
    assert_eq!((tight(700.0, 0.0, 3.0), slack(700.0, 0.0, 3.0)), (700.0, 700.0), "no friction");
    assert_eq!((tight(0.0, 0.4, 3.0), on_bend(0.0, 0.0, 2.0)), (0.0, 0.0), "no pull");
    assert_eq!((on_bend(700.0, 700.0, 0.0), on_bend(700.0, 200.0, 0.0)), (0.0, 500.0), "straight on");
    assert!(close(on_bend(700.0, 200.0, PI), 900.0, 1e-15, 0.0), "straight back");
    assert_eq!(friction_from_pair(newtons(5.0), newtons(5.0), radians(1.0)).unwrap().value, 0.0);
}

#[test]
fn an_edge_that_does_not_turn_the_rope_tells_nothing_of_friction() {
    let refused = friction_from_pair(newtons(2000.0), newtons(1000.0), radians(0.0)).unwrap_err();
    assert_eq!((refused.what, refused.must), ("turning angle", "above 0°"));
}
