use crate::numbers::{any, close, counts, factor, is_lawful, kilograms, metres, newtons, often, plain};
use proptest::prelude::*;
use rigging_core::law::gravity::weight;
use rigging_core::law::rope;
use std::f64::consts::PI;

fn rope_mass(diameter: f64, length: f64) -> f64 {
    rope::mass(metres(diameter), metres(length)).unwrap().value
}

proptest! {
    #[test]
    fn a_rope_is_a_cylinder_of_fibre_and_air(diameter in 0.006..0.014_f64, length in 0.0..200.0_f64) {
        // Nylon weighs 1140 kg/m³ (handbook value, from memory); a braid is 60 to 80 % fibre.
        let cylinder = PI / 4.0 * diameter * diameter * length * 1140.0;
        let mass = rope_mass(diameter, length);
        prop_assert!((0.6 * cylinder..=0.8 * cylinder).contains(&mass));
    }

    #[test]
    fn a_rope_scales_with_its_length_and_its_thickness_squared(
        diameter in 0.006..0.014_f64, length in 0.1..200.0_f64, times in factor(),
    ) {
        prop_assert!(close(rope_mass(diameter, length) * times, rope_mass(diameter, length * times), 1e-14, 0.0));
        prop_assert!(close(rope_mass(diameter, length) * times * times, rope_mass(diameter * times, length), 1e-14, 0.0));
    }

    #[test]
    fn a_rope_stretches_by_its_elongation_under_the_load_that_told_its_stiffness(
        load in 10.0..5000.0_f64, elongation in 0.005..0.5_f64, length in 0.1..200.0_f64, times in factor(),
    ) {
        let stiffness = rope::stiffness_from_elongation(newtons(load), plain(elongation)).unwrap();
        let stretch = |load: f64, length: f64| rope::stretch(newtons(load), metres(length), stiffness).unwrap().value;
        prop_assert!(close(stretch(load, length), elongation * length, 1e-14, 0.0));
        prop_assert!(close(stretch(times * load, length), times * stretch(load, length), 1e-14, 0.0));
        // Two ropes one below the other stretch as one of both lengths.
        prop_assert!(close(stretch(load, 0.3 * length) + stretch(load, 0.7 * length), stretch(load, length), 1e-14, 0.0));
    }

    #[test]
    fn weights_add_up(one in 0.0..500.0_f64, other in 0.0..500.0_f64) {
        let apart = weight(kilograms(one)).value + weight(kilograms(other)).value;
        prop_assert!(close(apart, weight(kilograms(one + other)).value, 1e-15, 0.0));
    }

    #[test]
    fn a_body_that_falls_freely_for_a_second_gains_its_weight_in_momentum(mass in 0.1..500.0_f64) {
        // 9.80665 m/s after one second: the definition of the standard.
        prop_assert!(close(weight(kilograms(mass)).value, mass * 9.806_65, 1e-15, 0.0));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_rope_stretches_or_there_is_an_error_whatever_comes_in(load in any(), length in any(), stiffness in any()) {
        let answer = rope::stretch(newtons(load), metres(length), newtons(stiffness)).map(|stretch| stretch.value);
        let lawful = load >= 0.0 && length >= 0.0 && stiffness > 0.0;
        prop_assert!(is_lawful(answer, &[load, length, stiffness], lawful, counts), "{answer:?}");
        let answer = rope::stiffness_from_elongation(newtons(load), plain(length)).map(|stiffness| stiffness.value);
        prop_assert!(is_lawful(answer, &[load, length], load >= 0.0 && length > 0.0, counts), "{answer:?}");
    }

    #[test]
    fn a_rope_has_a_mass_or_an_error_whatever_comes_in(diameter in any(), length in any()) {
        let answer = rope::mass(metres(diameter), metres(length)).map(|mass| mass.value);
        prop_assert!(is_lawful(answer, &[diameter, length], diameter > 0.0 && length >= 0.0, counts), "{answer:?}");
    }
}

#[test]
fn at_the_limits_nothing_weighs_nothing() {
    assert_eq!((rope_mass(0.01, 0.0), weight(kilograms(0.0)).value), (0.0, 0.0));
    assert!(rope::mass(metres(0.0), metres(1.0)).is_err());
}
