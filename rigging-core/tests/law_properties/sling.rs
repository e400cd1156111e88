use crate::by_hand::{Plane, least, round_a_bend};
use crate::numbers::{
    any, at_least, close, counts, degrees, factor, force, is_lawful, metres, newtons, often, plain, radians,
};
use proptest::prelude::*;
use rigging_core::law::sling::{HeldRing, Ring, parts, ring_at_rest, ring_held_back};
use std::f64::consts::{FRAC_PI_2, PI};

fn tensions(load: f64, included: f64, friction: f64) -> (f64, f64) {
    let both = parts(newtons(load), radians(included), plain(friction)).unwrap();
    (both.heavy.value, both.light.value)
}
fn held(apart: f64, both_parts: f64, pull: f64, load: f64, friction: f64) -> HeldRing {
    ring_held_back(metres(apart), metres(both_parts), radians(pull), newtons(load), plain(friction)).unwrap()
}
fn ring(apart: f64, both_parts: f64, pull: f64) -> (Plane, f64) {
    let Ring { along, across, included_angle } =
        ring_at_rest(metres(apart), metres(both_parts), radians(pull)).unwrap();
    (Plane(along.value, across.value), included_angle.value)
}

proptest! {
    #[test]
    fn the_two_parts_hold_the_load_as_vectors(
        load in force(), included in degrees(0.0, 179.0), friction in 0.0..1.0_f64, turn in degrees(-180.0, 180.0),
    ) {
        let (heavy, light) = tensions(load, included, friction);
        let sum = Plane::at(turn).times(heavy).plus(Plane::at(turn + included).times(light));
        prop_assert!(close(sum.size(), load, 1e-13, 1e-14 * heavy));
        // The sling turns over the ring by what is missing to half a circle.
        prop_assert!(close(round_a_bend(light, friction, PI - included), heavy, 1e-12, 0.0));
    }

    #[test]
    fn the_parts_grow_with_the_load(load in force(), times in factor(), included in degrees(0.0, 179.0), friction in 0.0..1.0_f64) {
        let (once, more) = (tensions(load, included, friction), tensions(load * times, included, friction));
        prop_assert!(close(once.0 * times, more.0, 1e-15, 0.0) && close(once.1 * times, more.1, 1e-15, 0.0));
    }

    #[test]
    fn friction_parts_the_two_tensions_more_and_more(
        load in force(), included in degrees(0.0, 179.0), one in 0.0..1.0_f64, other in 0.0..1.0_f64,
    ) {
        let (smooth, rough) = (tensions(load, included, one.min(other)), tensions(load, included, one.max(other)));
        prop_assert!(at_least(smooth.1 / smooth.0, rough.1 / rough.0));
        prop_assert!(at_least(smooth.1, rough.1));
    }

    #[test]
    fn near_a_straight_line_the_parts_go_with_the_load_over_the_gap(load in force(), power in -9.0..-4.0_f64, friction in 0.0..1.0_f64) {
        // For a small gap g the two terms under the root are (μg)² and g², to the first order in g.
        let gap = 10_f64.powf(power);
        let heavy = tensions(load, PI - gap, friction).0;
        prop_assert!(close(heavy * gap * friction.hypot(1.0), load, gap + 1e-15 / gap, 0.0));
    }

    #[test]
    fn the_ring_rests_where_the_load_is_lowest(
        apart in 0.1..5.0_f64, longer in 1.001..4.0_f64, pull in degrees(0.0, 180.0),
    ) {
        let both_parts = apart * longer;
        let (place, _) = ring(apart, both_parts, pull);
        let (left, right) = (Plane(-apart / 2.0, 0.0), Plane(apart / 2.0, 0.0));
        prop_assert!(close(place.minus(left).size() + place.minus(right).size(), both_parts, 1e-13, 0.0));
        // The ring tried all round: at each angle about the left anchor, as far out as the sling lets it.
        let at = |angle: f64| {
            let reach = (both_parts * both_parts - apart * apart) / (2.0 * (both_parts - apart * angle.cos()));
            left.plus(Plane::at(angle).times(reach))
        };
        let lowest = at(least(0.0, PI, |angle| -at(angle).dot(Plane::at(pull))));
        let depth = |place: Plane| place.dot(Plane::at(pull));
        prop_assert!(close(depth(place), depth(lowest), 1e-12, 1e-14 * both_parts), "{place:?} {lowest:?}");
    }

    #[test]
    fn the_load_halves_the_angle_at_the_ring(
        apart in 0.1..5.0_f64, longer in 1.01..4.0_f64, pull in degrees(1.0, 179.0),
    ) {
        let (place, included) = ring(apart, apart * longer, pull);
        let to_left = Plane(-apart / 2.0, 0.0).minus(place).unit();
        let to_right = Plane(apart / 2.0, 0.0).minus(place).unit();
        prop_assert!(Plane::at(pull).moment(to_left.plus(to_right)).abs() < 1e-13);
        prop_assert!(close(to_right.moment(to_left).abs(), included.sin(), 0.0, 1e-13));
        prop_assert!(close(to_right.dot(to_left), included.cos(), 0.0, 1e-13));
    }

    #[test]
    fn a_pull_to_the_other_side_mirrors_the_ring(apart in 0.1..5.0_f64, longer in 1.001..4.0_f64, pull in degrees(0.0, 180.0)) {
        let ((seen, angle), (mirrored, same)) = (ring(apart, apart * longer, pull), ring(apart, apart * longer, PI - pull));
        let digits = 1e-13 * apart * longer;
        prop_assert!(close(seen.0, -mirrored.0, 0.0, digits) && close(seen.1, mirrored.1, 0.0, digits));
        prop_assert!(close(angle, same, 0.0, 1e-11));
    }

    #[test]
    fn a_larger_rig_has_its_ring_in_the_same_place(
        apart in 0.1..5.0_f64, longer in 1.001..4.0_f64, pull in degrees(0.0, 180.0), times in factor(),
    ) {
        let (once, angle) = ring(apart, apart * longer, pull);
        let (larger, same) = ring(apart * times, apart * times * longer, pull);
        prop_assert!(once.times(times).minus(larger).size() <= 1e-12 * apart * longer * times);
        prop_assert!(close(angle, same, 0.0, 1e-11));
    }

    #[test]
    fn a_longer_sling_makes_a_smaller_angle(apart in 0.1..5.0_f64, one in 1.001..6.0_f64, other in 1.001..6.0_f64) {
        let at = |longer: f64| ring(apart, apart * longer, FRAC_PI_2).1;
        prop_assert!(at_least(at(one.min(other)), at(one.max(other)) - 1e-15));
    }

    #[test]
    fn a_ring_held_back_is_on_the_sling_and_in_balance_with_the_load(
        apart in 0.1..5.0_f64, longer in 1.01..4.0_f64, pull in degrees(0.0, 180.0), load in force(), friction in -0.6..0.6_f64,
    ) {
        let HeldRing { ring, first, second } = held(apart, apart * longer, pull, load, friction);
        let place = Plane(ring.along.value, ring.across.value);
        let (to_first, to_second) = (Plane(-apart / 2.0, 0.0).minus(place), Plane(apart / 2.0, 0.0).minus(place));
        prop_assert!(close(to_first.size() + to_second.size(), apart * longer, 1e-13, 0.0));
        let sum = to_first.unit().times(first.value).plus(to_second.unit().times(second.value));
        let left_over = sum.plus(Plane::at(pull).times(load)).size();
        prop_assert!(left_over <= 1e-9 * first.value.max(second.value), "{left_over}");
        // Walked round the ring from the slacker to the tighter part.
        let included = to_first.unit().dot(to_second.unit()).clamp(-1.0, 1.0).acos();
        let walked = round_a_bend(second.value, friction, PI - included);
        prop_assert!(close(walked, first.value, 1e-6, 0.0), "{walked} {first:?}");
    }

    #[test]
    fn a_ring_held_back_mirrors_and_grows_with_the_load(
        apart in 0.1..5.0_f64, longer in 1.1..4.0_f64, pull in degrees(40.0, 140.0), load in force(), friction in -0.5..0.5_f64,
        times in factor(),
    ) {
        let seen = held(apart, apart * longer, pull, load, friction);
        let mirrored = held(apart, apart * longer, PI - pull, load, -friction);
        prop_assert!(close(seen.first.value, mirrored.second.value, 1e-9, 0.0));
        prop_assert!(close(seen.second.value, mirrored.first.value, 1e-9, 0.0));
        prop_assert!(close(seen.ring.along.value, -mirrored.ring.along.value, 0.0, 1e-9 * apart * longer));
        let more = held(apart, apart * longer, pull, load * times, friction);
        prop_assert!(close(seen.first.value * times, more.first.value, 1e-14, 0.0) && seen.ring == more.ring);
        let larger = held(apart * times, apart * times * longer, pull, load, friction);
        prop_assert!(close(seen.first.value, larger.first.value, 1e-9, 0.0));
        prop_assert!(close(seen.ring.along.value * times, larger.ring.along.value, 0.0, 1e-9 * apart * longer * times));
    }

    #[test]
    fn a_ring_without_friction_is_not_held_back(
        apart in 0.1..5.0_f64, longer in 1.01..4.0_f64, pull in degrees(0.0, 180.0), load in force(),
    ) {
        let free = held(apart, apart * longer, pull, load, 0.0);
        prop_assert_eq!(free.first, free.second);
        prop_assert_eq!(Plane(free.ring.along.value, free.ring.across.value), ring(apart, apart * longer, pull).0);
    }

    #[test]
    fn the_ring_is_in_place_however_large_or_small_the_rig(power in -290.0..300.0_f64, pull in degrees(0.0, 180.0)) {
        let size = 10_f64.powf(power);
        let (place, same) = (ring(size, 1.5 * size, pull).0.times(1.0 / size), ring(1.0, 1.5, pull).0);
        prop_assert!(place.minus(same).size() < 1e-13);
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_ring_held_back_gives_an_error_or_numbers_whatever_comes_in(
        apart in any(), longer in any(), sling in any(), pull in any(), load in any(), friction in any(),
    ) {
        let both_parts = if longer > 1.0 { apart * longer } else { sling };
        let answer =
            ring_held_back(metres(apart), metres(both_parts), radians(pull), newtons(load), plain(friction));
        let within = apart > 0.0 && both_parts > apart && (0.0..=PI).contains(&pull) && load >= 0.0;
        prop_assert!(is_lawful(answer, &[apart, both_parts, pull, load, friction, friction.abs()], within, |held| {
            let (heavy, light) = if friction >= 0.0 { (held.first, held.second) } else { (held.second, held.first) };
            counts(heavy.value) && counts(light.value) && light <= heavy && at_least(heavy.value, load / 2.0)
        }), "{answer:?}");
    }

    #[test]
    fn a_sling_gives_an_error_or_numbers_whatever_comes_in(one in any(), other in any(), third in any()) {
        let within = one >= 0.0 && (0.0..PI).contains(&other) && third >= 0.0;
        let answer = parts(newtons(one), radians(other), plain(third));
        prop_assert!(is_lawful(answer, &[one, other, third], within, |both| {
            let (heavy, light) = (both.heavy.value, both.light.value);
            counts(heavy) && counts(light) && light <= heavy && at_least(heavy, one / 2.0)
        }), "{answer:?}");
        let within = one > 0.0 && other > one && (0.0..=PI).contains(&third);
        let answer = ring_at_rest(metres(one), metres(other), radians(third));
        prop_assert!(is_lawful(answer, &[one, other, third], within, |ring| {
            let (along, across) = (ring.along.value, ring.across.value);
            at_least(other / 2.0, along.abs()) && counts(across) && at_least(other / 2.0, across)
                && (0.0..=PI).contains(&ring.included_angle.value)
        }), "{answer:?}");
    }
}

#[test]
fn at_the_limits_a_sling_is_what_anyone_can_see() {
    assert_eq!(tensions(1000.0, 0.0, 0.0), (500.0, 500.0));
    assert_eq!(tensions(0.0, 1.0, 0.3), (0.0, 0.0));
    let stuck = tensions(1000.0, 1.0, 1e6);
    assert_eq!(stuck, (1000.0, 0.0), "a ring that cannot slide hangs on one part");
    let (place, included) = ring(1.0, 2.0, FRAC_PI_2);
    assert!(close(place.1, 0.75_f64.sqrt(), 1e-15, 0.0) && close(included, PI / 3.0, 1e-15, 0.0));
    let (beyond, folded) = ring(1.0, 2.0, 0.0);
    assert!(beyond == Plane(1.0, 0.0) && folded == 0.0, "pulled along the line the ring runs past an anchor");
    assert!(ring_at_rest(metres(2.0), metres(2.0), radians(1.0)).is_err(), "a sling too short");
    let flat = ring_held_back(metres(1.0), metres(1.001), radians(FRAC_PI_2), newtons(f64::MAX), plain(0.1));
    assert!(flat.is_err(), "more than a number can tell");
}
