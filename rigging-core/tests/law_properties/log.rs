use crate::numbers::{any, close, counts, factor, is_lawful, kilograms, metres, often};
use proptest::prelude::*;
use rigging_core::law::log::{breaks_at, diameter, mass};
use rigging_core::quantity::{Pressure, pascal};
use std::f64::consts::PI;

fn breaks(thick: f64, gap: f64, strength: f64) -> f64 {
    breaks_at(metres(thick), metres(gap), Pressure::new::<pascal>(strength)).unwrap().value
}

/// Largest moment along a beam on two supports under a force in its middle: the shear is integrated from the left end,
/// where the support pushes with what moments about the right end leave for it.
fn largest_moment(force: f64, gap: f64) -> f64 {
    const STEPS: usize = 2000;
    let support = force * (gap / 2.0) / gap;
    let step = gap / STEPS as f64;
    let (mut moment, mut largest) = (0.0, 0.0_f64);
    for number in 0..STEPS {
        let at = (number as f64 + 0.5) * step;
        let shear = if at < gap / 2.0 { support } else { support - force };
        moment += shear * step;
        largest = largest.max(moment.abs());
    }
    assert!(moment.abs() < 1e-9 * largest, "no moment at the free end");
    largest
}

/// Moment at which the outermost fibre of a round section reaches a strength: stress grows evenly from the middle, and
/// its moment is summed over thin strips.
fn moment_of_section(thick: f64, strength: f64) -> f64 {
    const STRIPS: usize = 40_000;
    let radius = thick / 2.0;
    let strip = thick / STRIPS as f64;
    (0..STRIPS)
        .map(|number| {
            let up = -radius + (number as f64 + 0.5) * strip;
            let wide = 2.0 * (radius * radius - up * up).sqrt();
            strength * up / radius * up * wide * strip
        })
        .sum()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn a_log_breaks_where_its_outermost_fibre_does(
        thick in 0.05..0.6_f64, gap in 0.5..8.0_f64, strength in 5e6..60e6_f64,
    ) {
        let force = breaks(thick, gap, strength);
        prop_assert!(close(largest_moment(force, gap), moment_of_section(thick, strength), 1e-5, 0.0));
    }
}

proptest! {
    #[test]
    fn a_larger_log_of_the_same_shape_carries_as_its_section_grows(
        thick in 0.05..0.6_f64, gap in 0.5..8.0_f64, strength in 5e6..60e6_f64, times in factor(),
    ) {
        let larger = breaks(thick * times, gap * times, strength);
        prop_assert!(close(larger, times * times * breaks(thick, gap, strength), 1e-12, 0.0));
    }

    #[test]
    fn a_log_weighs_what_slices_across_it_weigh(girth in 0.1..3.0_f64, long in 0.5..12.0_f64, density in 300.0..1200.0_f64) {
        // A polygon of many sides with the same girth, triangle by triangle about the middle.
        const SIDES: usize = 4000;
        let side = girth / SIDES as f64;
        let section = SIDES as f64 * side * side / (4.0 * (PI / SIDES as f64).tan());
        let by_law = mass(diameter(metres(girth)).unwrap(), metres(long), kilograms(density)).unwrap().value;
        prop_assert!(close(by_law, section * long * density, 1e-6, 0.0));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_log_gives_an_error_or_a_number_whatever_comes_in(one in any(), two in any(), three in any()) {
        let answer = diameter(metres(one)).map(|length| length.value);
        prop_assert!(is_lawful(answer, &[one], one >= 0.0, counts), "{answer:?}");
        let answer = breaks_at(metres(one), metres(two), Pressure::new::<pascal>(three)).map(|force| force.value);
        let within = one >= 0.0 && two > 0.0 && three >= 0.0;
        prop_assert!(is_lawful(answer, &[one, two, three], within, counts), "{answer:?}");
        let answer = mass(metres(one), metres(two), kilograms(three)).map(|mass| mass.value);
        let within = one >= 0.0 && two >= 0.0 && three >= 0.0;
        prop_assert!(is_lawful(answer, &[one, two, three], within, counts), "{answer:?}");
    }
}
