use crate::numbers::{any, at_least, close, counts, factor, force, is_lawful, kilograms, metres, newtons, often};
use proptest::prelude::*;
use rigging_core::law::line_catch::peak;
use rigging_core::quantity::{Velocity, metre_per_second};

fn caught([drag, stiffness, line, mass, speed]: [f64; 5]) -> Result<f64, rigging_core::law::OutOfDomain> {
    let speed = Velocity::new::<metre_per_second>(speed);
    peak(newtons(drag), newtons(stiffness), metres(line), kilograms(mass), speed).map(|force| force.value)
}

proptest! {
    #[test]
    fn the_line_stores_what_speed_and_drag_bring(
        drag in force(), stiffness in 5e3..1e5_f64, line in 0.5..60.0_f64, mass in 20.0..300.0_f64, speed in 0.0..8.0_f64,
    ) {
        let peak = caught([drag, stiffness, line, mass, speed]).unwrap();
        let stretch = peak / (stiffness / line);
        let stored = peak * stretch / 2.0;
        prop_assert!(close(stored, mass * speed * speed / 2.0 + drag * stretch, 1e-12, 0.0));
        prop_assert!(peak >= 2.0 * drag);
    }

    #[test]
    fn faster_heavier_stiffer_and_shorter_never_pull_less(
        drag in force(), stiffness in 5e3..1e5_f64, line in 0.5..60.0_f64, mass in 20.0..300.0_f64, speed in 0.0..8.0_f64,
        times in 1.0..5.0_f64,
    ) {
        let here = caught([drag, stiffness, line, mass, speed]).unwrap();
        for more in [
            [drag * times, stiffness, line, mass, speed],
            [drag, stiffness * times, line, mass, speed],
            [drag, stiffness, line / times, mass, speed],
            [drag, stiffness, line, mass * times, speed],
            [drag, stiffness, line, mass, speed * times],
        ] {
            prop_assert!(at_least(caught(more).unwrap(), here * (1.0 - 1e-14)));
        }
    }

    #[test]
    fn forces_and_masses_scale_together(
        drag in force(), stiffness in 5e3..1e5_f64, line in 0.5..60.0_f64, mass in 20.0..300.0_f64, speed in 0.0..8.0_f64,
        times in factor(),
    ) {
        let here = caught([drag, stiffness, line, mass, speed]).unwrap();
        let larger = caught([drag * times, stiffness * times, line, mass * times, speed]).unwrap();
        prop_assert!(close(larger, here * times, 1e-13, 0.0));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_catch_is_an_error_or_a_number_whatever_comes_in(a in any(), b in any(), c in any(), d in any(), e in any()) {
        let within = a >= 0.0 && b > 0.0 && c > 0.0 && d >= 0.0 && e >= 0.0;
        let answer = caught([a, b, c, d, e]);
        prop_assert!(is_lawful(answer, &[a, b, c, d, e], within, |peak| counts(peak) && peak >= a), "{answer:?}");
    }
}
