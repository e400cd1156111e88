use crate::by_hand::Plane;
use crate::numbers::{any, at_least, close, counts, degrees, factor, force, is_lawful, newtons, often, radians};
use proptest::prelude::*;
use rigging_core::law::two_legs::{equal, tensions};
use std::f64::consts::{FRAC_PI_2, PI};

fn leg(load: f64, included: f64) -> f64 {
    equal(newtons(load), radians(included)).unwrap().value
}
fn legs(load: f64, a: f64, b: f64) -> (f64, f64) {
    let both = tensions(newtons(load), radians(a), radians(b)).unwrap();
    (both.a.value, both.b.value)
}

/// Pull of the two legs on the point that bears the load, leg a to the left, leg b to the right.
fn sum(a: f64, b: f64, tension_a: f64, tension_b: f64) -> Plane {
    Plane::at(FRAC_PI_2 + a).times(tension_a).plus(Plane::at(FRAC_PI_2 - b).times(tension_b))
}

/// Tensions by Cramer's rule, with the load and both legs turned by an angle in the picture.
fn solved(load: f64, a: f64, b: f64, turn: f64) -> (f64, f64) {
    let (left, right) = (Plane::at(FRAC_PI_2 + a + turn), Plane::at(FRAC_PI_2 - b + turn));
    let up = Plane::at(FRAC_PI_2 + turn).times(load);
    let whole = left.moment(right);
    (up.moment(right) / whole, left.moment(up) / whole)
}

/// Angles of two legs, on both sides of the load line or both on one.
fn either_side() -> impl Strategy<Value = (f64, f64)> {
    (degrees(0.1, 119.0), -0.5..1.5_f64).prop_map(|(apart, share)| (share * apart, (1.0 - share) * apart))
}

proptest! {
    #[test]
    fn two_equal_legs_hold_the_load_as_vectors(load in force(), included in degrees(0.0, 179.9)) {
        let tension = leg(load, included);
        let Plane(across, up) = sum(included / 2.0, included / 2.0, tension, tension);
        prop_assert!(close(up, load, 0.0, 1e-14 * tension) && across.abs() <= 1e-14 * tension);
    }

    #[test]
    fn any_two_legs_hold_the_load_as_vectors(load in force(), a in degrees(0.0, 179.9), share in 0.0..0.999_f64) {
        let b = (PI - a) * share;
        let (tension_a, tension_b) = legs(load, a, b);
        prop_assert!(tension_a >= 0.0 && tension_b >= 0.0);
        let Plane(across, up) = sum(a, b, tension_a, tension_b);
        // One last digit of the angle between the legs is worth more the nearer they are to a line.
        let digits = 1e-14 * tension_a.max(tension_b) + 1e-15 * load / (PI - a - b);
        prop_assert!(close(up, load, 0.0, digits) && across.abs() <= digits, "{across} {up}");
    }

    #[test]
    fn turning_the_whole_picture_changes_no_leg(
        load in force(), a in degrees(1.0, 85.0), b in degrees(1.0, 85.0), turn in degrees(-180.0, 180.0),
    ) {
        let (here, turned) = (legs(load, a, b), solved(load, a, b, turn));
        prop_assert!(close(here.0, turned.0, 1e-12, 0.0) && close(here.1, turned.1, 1e-12, 0.0));
    }

    #[test]
    fn in_the_mirror_the_legs_swap(load in force(), (a, b) in either_side()) {
        let (seen, mirrored) = (legs(load, a, b), legs(load, b, a));
        prop_assert_eq!(seen, (mirrored.1, mirrored.0));
    }

    #[test]
    fn legs_grow_with_the_load(load in force(), times in factor(), (a, b) in either_side()) {
        let (once, more) = (legs(load, a, b), legs(load * times, a, b));
        prop_assert!(close(once.0 * times, more.0, 1e-15, 0.0) && close(once.1 * times, more.1, 1e-15, 0.0));
        prop_assert_eq!(leg(4.0 * load, a.abs()), 4.0 * leg(load, a.abs()));
    }

    #[test]
    fn a_wider_angle_never_loads_a_leg_less(load in force(), one in degrees(0.0, 179.99), other in degrees(0.0, 179.99)) {
        prop_assert!(leg(load, one.min(other)) <= leg(load, one.max(other)));
    }

    #[test]
    fn a_leg_carries_more_as_the_other_leans_away(
        load in force(), a in degrees(0.0, 89.0), one in degrees(0.0, 90.0), other in degrees(0.0, 90.0),
    ) {
        let (steep, leaning) = (legs(load, a, one.min(other)).0, legs(load, a, one.max(other)).0);
        prop_assert!(at_least(leaning, steep), "{steep} {leaning}");
    }

    #[test]
    fn with_both_anchors_on_one_side_the_nearer_leg_carries_all(
        load in force(), crossed in degrees(0.01, 80.0), farther in degrees(0.01, 80.0),
    ) {
        prop_assert_eq!(legs(load, -crossed, crossed + farther), (load, 0.0));
        prop_assert_eq!(legs(load, crossed + farther, -crossed), (0.0, load));
    }

    #[test]
    fn near_a_straight_line_the_tension_is_the_load_over_the_gap(load in force(), power in -12.0..-4.0_f64) {
        let gap = 10_f64.powf(power);
        prop_assert!(close(leg(load, PI - gap) * gap, load, 4e-16 / gap + gap, 0.0));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn legs_give_an_error_or_numbers_whatever_comes_in(load in any(), a in any(), b in any()) {
        let within = load >= 0.0 && (0.0..PI).contains(&a);
        let answer = equal(newtons(load), radians(a)).map(|force| force.value);
        prop_assert!(is_lawful(answer, &[load, a], within, |tension| {
            counts(tension) && at_least(tension, load / 2.0)
        }), "{answer:?}");
        let within = load >= 0.0 && a.abs() < PI && b.abs() < PI && (0.0..PI).contains(&(a + b));
        let answer = tensions(newtons(load), radians(a), radians(b));
        prop_assert!(is_lawful(answer, &[load, a, b, a + b], within, |both| {
            let (left, right) = (both.a.value, both.b.value);
            // At least one leg pulls, and together they pull at least as hard as the load.
            counts(left) && counts(right) && at_least(left / 2.0 + right / 2.0, load / 2.0)
        }), "{answer:?}");
    }
}

#[test]
fn at_the_limits_legs_are_what_anyone_can_see() {
    assert_eq!(leg(1000.0, 0.0), 500.0);
    assert_eq!(legs(1000.0, 0.0, 0.0), (500.0, 500.0));
    assert_eq!(legs(1000.0, 0.3, -0.3), (500.0, 500.0), "side by side they share");
    assert_eq!(legs(1000.0, 0.0, 0.5), (1000.0, 0.0), "in line with the load it needs no other");
    assert_eq!((leg(0.0, 3.0), legs(0.0, 1.0, 2.0)), (0.0, (0.0, 0.0)));
    assert!(equal(newtons(1.0), radians(PI)).is_err());
}
