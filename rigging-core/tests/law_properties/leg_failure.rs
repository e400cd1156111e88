use crate::by_hand::lowest_point;
use crate::numbers::{any, close, is_lawful, metres, newtons, often};
use proptest::prelude::*;
use rigging_core::law::leg_failure::{Catch, peak};

const GRAVITY: f64 = 9.81;

/// Legs and rope told as stiffness, N/m.
fn caught(mass: f64, drop: f64, legs: f64, rope: f64) -> Catch {
    let weight = mass * GRAVITY;
    peak(newtons(weight), metres(drop), metres(weight / legs), metres(weight / rope)).unwrap()
}

proptest! {
    #[test]
    fn a_person_followed_step_by_step_is_caught_as_the_law_says(
        mass in 40.0..200.0_f64, drop in 0.0..1.5_f64, legs in 1e4..1e6_f64, rope in 1e3..1e5_f64,
    ) {
        // Where the rope hung stretched the point lets go; legs and rope pull again when both are straight.
        let both = 1.0 / (1.0 / legs + 1.0 / rope);
        let hung = mass * GRAVITY / rope;
        let pull = |gone: f64| both * (gone + hung - drop).max(0.0);
        let step = (mass / both).sqrt() / 4000.0;
        let lowest = lowest_point(0.0, step, |gone| GRAVITY - pull(gone) / mass);
        let law = caught(mass, drop, legs, rope);
        // What already hangs in balance does not move.
        prop_assert!(close(pull(lowest), law.computed.value, 2e-3, 1.0), "{} {law:?}", pull(lowest));
        prop_assert!(law.most >= law.computed);
    }

    #[test]
    fn a_longer_drop_never_pulls_less(
        mass in 40.0..200.0_f64, drop in 0.0..1.5_f64, legs in 1e4..1e6_f64, rope in 1e3..1e5_f64, more in 1.0..3.0_f64,
    ) {
        let (one, other) = (caught(mass, drop, legs, rope), caught(mass, drop * more, legs, rope));
        prop_assert!(other.computed >= one.computed && other.most >= one.most);
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_catch_gives_an_error_or_a_number_whatever_comes_in(one in any(), two in any(), three in any(), four in any()) {
        let answer = peak(newtons(one), metres(two), metres(three), metres(four));
        let within = one > 0.0 && two >= 0.0 && three >= 0.0 && four >= 0.0;
        let numbers = |caught: Catch| caught.most.value.is_finite() && caught.computed <= caught.most;
        // The sum of two gives may be no number although each is one.
        prop_assert!(is_lawful(answer, &[one, two, three, four, three + four], within, numbers), "{answer:?}");
    }
}

#[test]
fn a_light_point_between_two_springs_ends_near_the_law() {
    // Row D9 of the check values, with a point of 0.2 kg between legs and rope, both pulling only.
    let (mass, point, drop, legs, rope) = (80.0, 0.2, 0.05, 33e3, 4.8e3);
    let gravity = 9.80665;
    let (mut x, mut v, mut y, mut u) = (mass * gravity / rope, 0.0, 0.0, 0.0);
    let (step, mut most) = (1e-6, 0.0_f64);
    for _ in 0..400_000 {
        let in_rope = rope * f64::max(x - y, 0.0);
        let in_legs = legs * f64::max(y - drop, 0.0);
        v += (gravity - in_rope / mass) * step;
        // What the light point rings at is lost soon.
        u += (gravity + (in_rope - in_legs - 20.0 * u) / point) * step;
        x += v * step;
        y += u * step;
        most = most.max(in_rope);
    }
    assert!((most - 1090.0).abs() < 40.0, "{most}");
}
