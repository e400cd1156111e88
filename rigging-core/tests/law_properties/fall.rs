use crate::by_hand::lowest_point;
use crate::numbers::{any, close, factor, force, is_lawful, metres, newtons, often, plain};
use proptest::prelude::*;
use rigging_core::law::fall::{
    Braked, braked, caught as caught_at, fall_factor, gives, in_a_jerk, let_go, peak, stiffness_from_peak, stopped,
};
use rigging_core::quantity::{Velocity, metre_per_second};

fn caught(weight: f64, stiffness: f64, fall: f64, rope: f64) -> f64 {
    peak(newtons(weight), newtons(stiffness), metres(fall), metres(rope)).unwrap().value
}
fn speed(value: f64) -> Velocity {
    Velocity::new::<metre_per_second>(value)
}
const GRAVITY: f64 = 9.80665;
fn stiffness() -> impl Strategy<Value = f64> {
    (3.0..6.0_f64).prop_map(|power| 10_f64.powf(power))
}

fn bent(weight: f64, stiffness: f64, rope: [[f64; 2]; 2], [straight, down]: [f64; 2]) -> f64 {
    let rope = rope.map(|[length, pull]| (metres(length), newtons(pull)));
    let_go(newtons(weight), newtons(stiffness), rope, metres(straight), metres(down)).unwrap().value
}

proptest! {
    /// What the rope stores at the lowest is what it stored at once and what the body lost; it may hang there at rest.
    #[test]
    fn a_bend_that_lets_go_leaves_its_stretch_and_the_way_down(
        weight in 100.0..5000.0_f64, stiffness in 5e3..1e5_f64, one in 0.3..30.0_f64, other in 0.3..30.0_f64,
        pull in 0.0..9000.0_f64, times in 1.0..4.0_f64, share in 0.2..1.0_f64, plumb in -1.0..1.0_f64,
    ) {
        let straight = share * (one + other);
        let force = bent(weight, stiffness, [[one, times * pull], [other, pull]], [straight, plumb * straight]);
        let unstretched = one / (1.0 + times * pull / stiffness) + other / (1.0 + pull / stiffness);
        let stored = |length: f64| stiffness / unstretched * (length - unstretched).max(0.0).powi(2) / 2.0;
        let lowest = unstretched * (1.0 + force / stiffness);
        let gained = stored(straight) + weight * (lowest - plumb * straight);
        prop_assert!(close(stored(lowest), gained, 1e-9, 1e-9 * weight), "{force}");
        prop_assert!(force >= weight);
        // Without any pull before it is a fall.
        let loose = bent(weight, stiffness, [[one, 0.0], [other, 0.0]], [straight, plumb * straight]);
        let fall = caught(weight, stiffness, one + other - plumb * straight, one + other);
        prop_assert!(close(loose, fall, 1e-12, 0.0), "{loose} {fall}");
    }

    /// What is stored at the lowest is what the bounce had and what the drop adds: nothing is lost.
    #[test]
    fn what_drops_in_the_middle_of_a_jerk_keeps_the_energy_of_the_jerk(
        weight in 100.0..5000.0_f64, times in 1.0..5.0_f64, give in 0.01..2.0_f64, drop in 0.0..3.0_f64,
    ) {
        let peak = |times, drop| {
            in_a_jerk(newtons(weight), plain(times), metres(give), metres(drop)).unwrap().value
        };
        let spring = weight / give;
        // Above the place at rest, at the end of the jerk before: no speed in either.
        let stored = |force: f64| force * force / spring / 2.0 - weight * force / spring;
        prop_assert!(close(stored(peak(times, drop)), stored(peak(times, 0.0)) + weight * drop, 1e-9, 1e-9 * weight));
        prop_assert!(close(peak(times, 0.0), times * weight, 1e-12, 0.0));
        // Let go: the fall of the drop on that rope, as stiff as gives so.
        let fallen = caught(weight, spring, drop, 1.0);
        prop_assert!(close(peak(2.0, drop), fallen, 1e-12, 0.0), "{fallen}");
        prop_assert!(peak(times, drop) <= peak(times + 0.1, drop) && peak(times, drop) <= peak(times, drop + 0.1));
    }

    #[test]
    fn a_drop_in_a_jerk_is_an_error_or_a_number_whatever_comes_in(
        weight in any(), times in any(), give in any(), drop in any(),
    ) {
        let within = weight >= 0.0 && times >= 1.0 && give > 0.0 && drop >= 0.0;
        match in_a_jerk(newtons(weight), plain(times), metres(give), metres(drop)) {
            Ok(force) => prop_assert!(within && force.value.is_finite() && force.value >= 0.0, "{force:?}"),
            Err(_) => prop_assert!(!within || ![weight, times, give, drop]
                .iter().all(|input| (1e-3..1e6).contains(&input.abs()) || *input == 0.0)),
        }
    }

    #[test]
    fn a_bend_that_lets_go_is_an_error_or_a_number_whatever_comes_in(
        [weight, stiffness, one, other, over, under] in [any(), any(), any(), any(), any(), any()],
        straight in any(), down in any(),
    ) {
        let rope = [(metres(one), newtons(over)), (metres(other), newtons(under))];
        let within = weight >= 0.0 && stiffness > 0.0 && one > 0.0 && other > 0.0 && over >= 0.0 && under >= 0.0
            && straight >= 0.0 && down.abs() <= straight;
        let answer = let_go(newtons(weight), newtons(stiffness), rope, metres(straight), metres(down));
        match answer {
            Ok(force) => prop_assert!(within && force.value.is_finite() && force.value >= 0.0, "{force:?}"),
            // Numbers of everyday are never refused.
            Err(_) => prop_assert!(!within || ![weight, stiffness, one, other, over, under, straight, down]
                .iter().all(|input| (1e-3..1e6).contains(&input.abs()) || *input == 0.0)),
        }
    }

    #[test]
    fn the_rope_takes_up_just_what_the_body_lost(
        weight in 1.0..3000.0_f64, stiffness in stiffness(), fall in 0.0..20.0_f64, rope in 0.1..60.0_f64,
    ) {
        let force = caught(weight, stiffness, fall, rope);
        let stretch = force * rope / stiffness;
        let stored = force * stretch / 2.0;
        prop_assert!(close(stored, weight * (fall + stretch), 1e-13, 0.0));
        prop_assert!(force >= 2.0 * weight);
    }

    #[test]
    fn the_body_followed_step_by_step_stretches_the_rope_as_far(
        mass in 30.0..200.0_f64, stiffness in 5e3..1e5_f64, fall in 0.0..4.0_f64, rope in 1.0..30.0_f64,
    ) {
        let gravity = 9.81;
        let spring = stiffness / rope;
        let step = (mass / spring).sqrt() / 2000.0;
        let stretch = lowest_point((2.0 * gravity * fall).sqrt(), step, |x| gravity - spring * x / mass);
        prop_assert!(close(caught(mass * gravity, stiffness, fall, rope), spring * stretch, 1e-6, 0.0));
    }

    #[test]
    fn only_the_ratio_of_fall_to_rope_counts(
        weight in force(), stiffness in stiffness(), fall in 0.0..20.0_f64, rope in 0.1..60.0_f64, times in factor(),
    ) {
        let (once, larger) = (caught(weight, stiffness, fall, rope), caught(weight, stiffness, fall * times, rope * times));
        prop_assert!(close(once, larger, 1e-14, 0.0));
    }

    #[test]
    fn peak_weight_and_stiffness_grow_together(
        weight in force(), stiffness in stiffness(), fall in 0.0..20.0_f64, rope in 0.1..60.0_f64, times in factor(),
    ) {
        let (once, more) = (caught(weight, stiffness, fall, rope), caught(weight * times, stiffness * times, fall, rope));
        prop_assert!(close(once * times, more, 1e-14, 0.0));
    }

    #[test]
    fn weight_stiffness_and_fall_raise_the_peak_and_rope_lowers_it(
        weight in force(), stiffness in stiffness(), fall in 0.01..20.0_f64, rope in 0.1..60.0_f64, more in 1.001..5.0_f64,
    ) {
        let here = caught(weight, stiffness, fall, rope);
        prop_assert!(caught(weight * more, stiffness, fall, rope) > here);
        prop_assert!(caught(weight, stiffness * more, fall, rope) >= here);
        prop_assert!(caught(weight, stiffness, fall * more, rope) >= here);
        prop_assert!(caught(weight, stiffness, fall, rope * more) <= here);
    }

    #[test]
    fn a_drop_test_turned_round_gives_back_the_rope(
        weight in 10.0..3000.0_f64, stiffness in stiffness(), factor in 0.1..2.0_f64,
    ) {
        let force = caught(weight, stiffness, factor, 1.0);
        let back = stiffness_from_peak(newtons(force), newtons(weight), plain(factor)).unwrap().value;
        // The rope's share of the peak may be small beside the weight's.
        prop_assert!(close(back, stiffness, 1e-14 * (force / (force - 2.0 * weight)), 0.0));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_fall_gives_an_error_or_a_number_whatever_comes_in(one in any(), other in any(), third in any(), fourth in any()) {
        let answer = peak(newtons(one), newtons(other), metres(third), metres(fourth)).map(|force| force.value);
        let within = one >= 0.0 && other > 0.0 && third >= 0.0 && fourth > 0.0;
        prop_assert!(is_lawful(answer, &[one, other, third, fourth], within, |force| {
            force.is_finite() && force / 2.0 >= one
        }), "{answer:?}");
        let answer = fall_factor(metres(one), metres(other)).map(|factor| factor.value);
        prop_assert!(is_lawful(answer, &[one, other], one >= 0.0 && other > 0.0, |factor| {
            factor.is_finite() && factor >= 0.0
        }), "{answer:?}");
        let answer = stiffness_from_peak(newtons(one), newtons(other), plain(third)).map(|force| force.value);
        let within = other > 0.0 && third > 0.0 && one > 2.0 * other;
        prop_assert!(is_lawful(answer, &[one, other, third], within, |stiffness| {
            stiffness.is_finite() && stiffness > 0.0
        }), "{answer:?}");
    }
}

#[test]
fn at_the_limits_a_fall_is_what_anyone_can_see() {
    assert_eq!(caught(800.0, 2e4, 0.0, 3.0), 1600.0, "let go on a rope just straight");
    assert_eq!(caught(0.0, 2e4, 5.0, 3.0), 0.0, "nobody falls");
    assert!(close(caught(800.0, 1e-6, 5.0, 3.0), 1600.0, 1e-6, 0.0), "a rope that does not resist");
    let (stiff, stiffer) = (caught(800.0, 1e12, 1.0, 1.0), caught(800.0, 4e12, 1.0, 1.0));
    assert!(close(stiffer / stiff, 2.0, 1e-4, 0.0), "a rope that does not give: as the root of its stiffness");
}

proptest! {
    #[test]
    fn springs_in_a_row_give_as_much_as_each_alone(
        weight in force(), stiffness in stiffness(), rope in 0.1..60.0_f64, anchor in 0.0..1.0_f64,
    ) {
        let both = gives(newtons(weight), newtons(stiffness), metres(rope), metres(anchor)).unwrap().value;
        let (one, other) = (stiffness / rope, weight / anchor);
        prop_assert!(close(weight / both, 1.0 / (1.0 / one + 1.0 / other), 1e-13, 0.0));
    }

    #[test]
    fn who_falls_with_a_speed_is_followed_step_by_step(
        mass in 30.0..200.0_f64, give in 0.005..1.0_f64, fall in 0.0..4.0_f64, fast in 0.0..12.0_f64,
    ) {
        let spring = mass * GRAVITY / give;
        let step = (mass / spring).sqrt() / 2000.0;
        // From the rope's end on, with the speed of fall and start together; and from where it hung already.
        let at_end = (fast * fast + 2.0 * GRAVITY * fall).sqrt();
        let loose = spring * lowest_point(at_end, step, |x| GRAVITY - spring * x / mass);
        let weight = newtons(mass * GRAVITY);
        let law = caught_at(weight, metres(give), metres(fall), speed(fast)).unwrap().value;
        prop_assert!(close(law, loose, 1e-6, 0.0), "{law} {loose}");
        let hung = spring * (give + lowest_point(fast, step, |x| -spring * x / mass));
        let law = stopped(weight, metres(give), speed(fast)).unwrap().value;
        prop_assert!(close(law, hung, 1e-6, 1e-6), "{law} {hung}");
    }

    #[test]
    fn a_device_that_slips_is_followed_step_by_step(
        mass in 30.0..200.0_f64, give in 0.01..1.0_f64, fall in 0.0..4.0_f64, times in 1.2..10.0_f64,
    ) {
        let (weight, spring) = (mass * GRAVITY, mass * GRAVITY / give);
        let slips = times * weight;
        // The rope pulls as a spring up to the force at which it runs, and with that force from there on.
        let pull = |x: f64| f64::min(spring * x, slips);
        let step = (mass / spring).sqrt() / 4000.0;
        let lowest = lowest_point((2.0 * GRAVITY * fall).sqrt(), step, |x| GRAVITY - pull(x) / mass);
        let law = braked(newtons(weight), metres(give), metres(fall), newtons(slips)).unwrap();
        prop_assert!(close(law.peak.value, pull(lowest), 1e-5, 0.0), "{law:?} {}", pull(lowest));
        let travel = (lowest - slips / spring).max(0.0);
        prop_assert!(close(law.travel.value, travel, 1e-4, 1e-5 * (lowest + give)), "{law:?} {travel}");
    }

    #[test]
    fn more_force_at_the_device_is_less_way_and_never_less_pull(
        weight in 300.0..3000.0_f64, give in 0.01..1.0_f64, fall in 0.0..4.0_f64, times in 1.05..10.0_f64, more in 1.0..3.0_f64,
    ) {
        let at = |times: f64| braked(newtons(weight), metres(give), metres(fall), newtons(weight * times)).unwrap();
        let (one, other) = (at(times), at(times * more));
        prop_assert!(other.travel <= one.travel && other.peak >= one.peak);
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn catches_give_an_error_or_a_number_whatever_comes_in(one in any(), two in any(), three in any(), four in any()) {
        let given = [one, two, three, four];
        let answer = gives(newtons(one), newtons(two), metres(three), metres(four)).map(|give| give.value);
        let within = one >= 0.0 && two > 0.0 && three > 0.0 && four >= 0.0;
        prop_assert!(is_lawful(answer, &given, within, |give| give.is_finite() && give >= 0.0), "{answer:?}");
        let answer = caught_at(newtons(one), metres(two), metres(three), speed(four)).map(|force| force.value);
        prop_assert!(is_lawful(answer, &given, within_catch(one, two, three, four), |force| {
            force.is_finite() && force / 2.0 >= one
        }), "{answer:?}");
        let answer = stopped(newtons(one), metres(two), speed(three)).map(|force| force.value);
        let within = one >= 0.0 && two > 0.0 && three >= 0.0;
        prop_assert!(is_lawful(answer, &[one, two, three], within, |force| force.is_finite() && force >= one), "{answer:?}");
        let answer = braked(newtons(one), metres(two), metres(three), newtons(four));
        let within = one > 0.0 && two > 0.0 && three >= 0.0 && four > one;
        let numbers = |braked: Braked| braked.peak.value.is_finite() && braked.travel.value >= 0.0;
        prop_assert!(is_lawful(answer, &given, within, numbers), "{answer:?}");
    }
}

fn within_catch(weight: f64, give: f64, fall: f64, speed: f64) -> bool {
    weight >= 0.0 && give > 0.0 && fall >= 0.0 && speed >= 0.0
}
