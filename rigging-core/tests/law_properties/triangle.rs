use crate::by_hand::Plane;
use crate::numbers::{any, at_least, close, counts, degrees, factor, force, is_lawful, newtons, often, radians};
use proptest::prelude::*;
use rigging_core::law::triangle::{anchor_force, strands_at_anchor};
use rigging_core::law::two_legs::equal;
use std::f64::consts::{FRAC_PI_2, PI};

fn anchor(load: f64, included: f64) -> f64 {
    anchor_force(newtons(load), radians(included)).unwrap().value
}

proptest! {
    #[test]
    fn the_pulls_of_a_loop_on_three_corners_add_up_to_nothing(load in force(), included in degrees(0.5, 179.5)) {
        // Corners of the loop: two level anchors and the load below; one tension all round.
        let (left, right) = (Plane(-1.0, 0.0), Plane(1.0, 0.0));
        let master = Plane(0.0, -1.0 / (included / 2.0).tan());
        let to_left = left.minus(master).unit();
        let to_right = right.minus(master).unit();
        let tension = load / to_left.plus(to_right).1;
        let on_left = right.minus(left).unit().minus(to_left).times(tension);
        let on_right = left.minus(right).unit().minus(to_right).times(tension);
        prop_assert!(close(on_left.size(), anchor(load, included), 1e-12, 0.0));
        let Plane(across, up) = on_left.plus(on_right);
        prop_assert!(across.abs() <= 1e-14 * tension && close(up, -load, 1e-12, 1e-14 * tension));
    }

    #[test]
    fn two_strands_pull_as_their_sum(tension in force(), between in degrees(0.0, 180.0), turn in degrees(-180.0, 180.0)) {
        let sum = Plane::at(turn).plus(Plane::at(turn + between)).times(tension).size();
        let law = strands_at_anchor(newtons(tension), radians(between)).unwrap().value;
        prop_assert!(close(sum, law, 0.0, 1e-14 * tension));
    }

    #[test]
    fn anchors_of_a_loop_grow_with_the_load(load in force(), times in factor(), included in degrees(0.0, 179.0)) {
        prop_assert!(close(anchor(load, included) * times, anchor(load * times, included), 1e-15, 0.0));
    }

    #[test]
    fn a_wider_loop_loads_its_anchors_more(load in force(), one in degrees(0.0, 179.9), other in degrees(0.0, 179.9)) {
        prop_assert!(at_least(anchor(load, one.max(other)), anchor(load, one.min(other))));
    }

    #[test]
    fn near_a_straight_line_a_loop_loads_each_anchor_twice_a_leg(load in force(), power in -12.0..-4.0_f64) {
        let included = PI - 10_f64.powf(power);
        let leg = equal(newtons(load), radians(included)).unwrap().value;
        prop_assert!(close(anchor(load, included), 2.0 * leg, 1e-8, 0.0));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_loop_gives_an_error_or_a_number_whatever_comes_in(load in any(), angle in any()) {
        let answer = anchor_force(newtons(load), radians(angle)).map(|force| force.value);
        let within = load >= 0.0 && (0.0..PI).contains(&angle);
        prop_assert!(is_lawful(answer, &[load, angle], within, |force| {
            counts(force) && at_least(force, load / 2_f64.sqrt())
        }), "{answer:?}");
        let answer = strands_at_anchor(newtons(load), radians(angle)).map(|force| force.value);
        let within = load >= 0.0 && (0.0..=PI).contains(&angle);
        prop_assert!(is_lawful(answer, &[load, angle], within, |force| {
            counts(force) && at_least(load, force / 2.0)
        }), "{answer:?}");
    }
}

#[test]
fn at_the_limits_a_loop_is_what_anyone_can_see() {
    assert!(close(anchor(1.0, 0.0), FRAC_PI_2.sin() / 2_f64.sqrt(), 1e-15, 0.0));
    assert_eq!(anchor(0.0, 1.0), 0.0);
    assert_eq!(strands_at_anchor(newtons(3.0), radians(0.0)).unwrap().value, 6.0);
    assert!(strands_at_anchor(newtons(3.0), radians(PI)).unwrap().value < 1e-15);
    assert!(strands_at_anchor(newtons(f64::MAX), radians(0.0)).is_err(), "more than a number can tell");
}
