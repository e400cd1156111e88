use crate::by_hand::{Plane, last_true};
use crate::numbers::{any, at_least, close, counts, degrees, factor, force, is_lawful, newtons, often, radians};
use proptest::prelude::*;
use rigging_core::law::bolt::{Parts, parts, share_of_limit};
use std::f64::consts::PI;

fn split(pull: f64, angle: f64) -> (f64, f64) {
    let parts = parts(newtons(pull), radians(angle)).unwrap();
    (parts.out.value, parts.along.value)
}
fn share(out: f64, along: f64, limit_out: f64, limit_along: f64) -> f64 {
    let parts = Parts { out: newtons(out), along: newtons(along) };
    share_of_limit(parts, newtons(limit_out), newtons(limit_along)).unwrap().value
}
/// How far a pull can grow, found by trying: the sum of the two powers reaches 1.
fn grown_to_the_limit(out: f64, along: f64, limit_out: f64, limit_along: f64) -> f64 {
    let sum = |times: f64| (times * out / limit_out).powf(5.0 / 3.0) + (times * along / limit_along).powf(5.0 / 3.0);
    let most = (limit_out / out).min(limit_along / along);
    last_true(0.0, 2.0 * most, |times| sum(times) <= 1.0)
}

proptest! {
    #[test]
    fn the_parts_of_a_pull_are_its_shadows_out_of_the_rock_and_along_it(
        pull in force(), angle in degrees(0.0, 180.0), turn in degrees(-180.0, 180.0),
    ) {
        let (normal, pulled) = (Plane::at(turn), Plane::at(turn + angle).times(pull));
        let outward = pulled.dot(normal);
        let rest = pulled.minus(normal.times(outward)).size();
        let (out, along) = split(pull, angle);
        prop_assert!(close(out, outward.max(0.0), 0.0, 1e-14 * pull));
        prop_assert!(close(along, rest, 0.0, 1e-14 * pull));
    }

    #[test]
    fn a_pull_grown_by_what_is_left_reaches_the_limit(
        out in force(), along in force(), limit_out in force(), limit_along in force(),
    ) {
        let left = grown_to_the_limit(out, along, limit_out, limit_along);
        prop_assert!(close(share(out, along, limit_out, limit_along) * left, 1.0, 1e-9, 0.0));
    }

    #[test]
    fn together_they_use_more_than_either_and_no_more_than_both(
        out in force(), along in force(), limit_out in force(), limit_along in force(),
    ) {
        let (alone_out, alone_along) = (out / limit_out, along / limit_along);
        let both = share(out, along, limit_out, limit_along);
        prop_assert!(at_least(both, alone_out.max(alone_along)) && at_least(alone_out + alone_along, both));
        // Never kinder than the straight line would be by more than the curve bulges: 2^{2/5} where both are equal.
        prop_assert!(at_least(both * 2_f64.powf(0.4), alone_out + alone_along));
    }

    #[test]
    fn pulls_and_limits_scale_and_change_places(
        out in force(), along in force(), limit_out in force(), limit_along in force(), times in factor(),
    ) {
        let here = share(out, along, limit_out, limit_along);
        prop_assert!(close(share(out * times, along * times, limit_out, limit_along), here * times, 1e-14, 0.0));
        prop_assert!(close(share(out, along, limit_out * times, limit_along * times), here / times, 1e-14, 0.0));
        prop_assert_eq!(share(along, out, limit_along, limit_out), here);
        let more = 1.0 + times;
        prop_assert!(at_least(share(out * more, along, limit_out, limit_along), here));
        prop_assert!(at_least(share(out, along * more, limit_out, limit_along), here));
        prop_assert!(at_least(here, share(out, along, limit_out * more, limit_along)));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_bolt_gives_an_error_or_a_number_whatever_comes_in(one in any(), other in any(), third in any(), fourth in any()) {
        let answer = parts(newtons(one), radians(other)).map(|parts| (parts.out.value, parts.along.value));
        let within = one >= 0.0 && (0.0..=PI).contains(&other);
        prop_assert!(is_lawful(answer, &[one, other], within, |(out, along)| {
            counts(out) && counts(along) && out <= one && along <= one
        }), "{answer:?}");
        let pulled = Parts { out: newtons(one), along: newtons(other) };
        let answer = share_of_limit(pulled, newtons(third), newtons(fourth)).map(|share| share.value);
        let within = one >= 0.0 && other >= 0.0 && third > 0.0 && fourth > 0.0;
        prop_assert!(is_lawful(answer, &[one, other, third, fourth], within, |share| {
            counts(share) && share >= one / third && share >= other / fourth
        }), "{answer:?}");
    }
}

#[test]
fn at_the_limits_a_bolt_is_what_anyone_can_see() {
    assert_eq!(split(900.0, 0.0), (900.0, 0.0), "straight out");
    assert!(close(split(900.0, PI / 2.0).1, 900.0, 1e-15, 0.0), "along the rock");
    assert_eq!(split(900.0, PI).0, 0.0, "into the rock");
    assert_eq!(share(0.0, 0.0, 15e3, 25e3), 0.0, "no pull");
    assert_eq!((share(15e3, 0.0, 15e3, 25e3), share(0.0, 25e3, 15e3, 25e3)), (1.0, 1.0), "one part at its limit");
}
