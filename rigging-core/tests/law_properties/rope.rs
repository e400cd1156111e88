use crate::numbers::{any, close, counts, factor, is_lawful, kilograms, metres, newtons, often, plain};
use proptest::prelude::*;
use rigging_core::law::rope;

fn stretch(load: f64, weight: f64, length: f64, stiffness: f64) -> f64 {
    rope::hanging_stretch(newtons(load), newtons(weight), metres(length), newtons(stiffness)).unwrap().value
}

fn reaches(distance: f64, load: f64, weight: f64, stiffness: f64) -> f64 {
    rope::hanging_length(metres(distance), newtons(load), newtons(weight), newtons(stiffness)).unwrap().value
}

proptest! {
    #[test]
    fn a_rope_hung_below_a_rope_stretches_with_it_as_one(
        load in 0.0..5000.0_f64, weight in 0.0..2.0_f64, length in 0.1..200.0_f64, share in 0.0..1.0_f64,
        stiffness in 5e3..1e6_f64,
    ) {
        // The upper piece bears the load and the weight of the lower one.
        let (upper, lower) = (share * length, (1.0 - share) * length);
        let apart = stretch(load, weight * lower, lower, stiffness)
            + stretch(load + weight * lower, weight * upper, upper, stiffness);
        prop_assert!(close(apart, stretch(load, weight * length, length, stiffness), 1e-12, 1e-15));
    }

    #[test]
    fn a_hanging_rope_stretches_in_proportion(
        load in 0.0..5000.0_f64, weight in 0.0..200.0_f64, length in 0.1..200.0_f64, times in factor(),
    ) {
        let one = stretch(load, weight, length, 3e4);
        prop_assert!(close(stretch(times * load, times * weight, length, 3e4), times * one, 1e-13, 0.0));
        prop_assert!(close(stretch(load, weight, times * length, times * 3e4), one, 1e-13, 0.0));
        prop_assert!(stretch(load + 1.0, weight, length, 3e4) > one && stretch(load, weight + 1.0, length, 3e4) > one);
    }

    #[test]
    fn the_length_that_reaches_ends_there_once_it_is_stretched(
        distance in 0.0..300.0_f64, load in 0.0..5000.0_f64, weight in 0.0..2.0_f64, stiffness in 5e3..1e6_f64,
    ) {
        let length = reaches(distance, load, weight, stiffness);
        prop_assert!(close(length + stretch(load, weight * length, length, stiffness), distance, 1e-13, 0.0));
        prop_assert!(length <= distance && reaches(distance + 1.0, load, weight, stiffness) > length);
    }

    #[test]
    fn rope_at_the_station_is_the_sum_of_what_it_is_for(
        below in 0.0..200.0_f64, set_back in 0.0..50.0_f64, give in 0.0..20.0_f64,
    ) {
        let reserve = rope::reserve(metres(below), metres(set_back), metres(give)).unwrap().value;
        prop_assert!(close(reserve, 1.0 + give + set_back + below, 1e-14, 0.0));
    }

    #[test]
    fn a_rope_that_shrinks_in_two_steps_shrinks_by_both(length in 0.0..300.0_f64, one in 0.0..0.5_f64, other in 0.0..0.5_f64) {
        let shrunk = |length: f64, share: f64| rope::shrunk(metres(length), plain(share)).unwrap().value;
        prop_assert!(close(shrunk(shrunk(length, one), other), length * (1.0 - one - other + one * other), 1e-13, 0.0));
        prop_assert!(shrunk(length, one) <= length);
    }

    #[test]
    fn water_adds_its_own_mass(dry in 0.0..50.0_f64, share in 0.0..2.0_f64) {
        let wet = rope::wet_mass(kilograms(dry), plain(share)).unwrap().value;
        prop_assert!(close(wet - dry, share * dry, 1e-12, 1e-12));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_hanging_rope_has_a_length_or_an_error_whatever_comes_in(a in any(), b in any(), c in any(), d in any()) {
        let lawful = a >= 0.0 && b >= 0.0 && c >= 0.0 && d > 0.0;
        let answer = rope::hanging_stretch(newtons(a), newtons(b), metres(c), newtons(d)).map(|length| length.value);
        prop_assert!(is_lawful(answer, &[a, b, c, d], lawful, counts), "{answer:?}");
        let answer = rope::hanging_length(metres(a), newtons(b), newtons(c), newtons(d)).map(|length| length.value);
        prop_assert!(is_lawful(answer, &[a, b, c, d], lawful, |length| (0.0..=a).contains(&length)), "{answer:?}");
    }

    #[test]
    fn water_and_reserve_are_counted_or_an_error_whatever_comes_in(a in any(), b in any(), c in any()) {
        let answer = rope::reserve(metres(a), metres(b), metres(c)).map(|length| length.value);
        prop_assert!(is_lawful(answer, &[a, b, c], a >= 0.0 && b >= 0.0 && c >= 0.0, counts), "{answer:?}");
        let answer = rope::shrunk(metres(a), plain(b)).map(|length| length.value);
        prop_assert!(is_lawful(answer, &[a, b], a >= 0.0 && (0.0..1.0).contains(&b), counts), "{answer:?}");
        let answer = rope::wet_mass(kilograms(a), plain(b)).map(|mass| mass.value);
        prop_assert!(is_lawful(answer, &[a, b], a >= 0.0 && b >= 0.0, counts), "{answer:?}");
    }
}
