use crate::numbers::{any, close, counts, factor, is_lawful, often, plain};
use proptest::prelude::*;
use rigging_core::law::drag::drag;
use rigging_core::quantity::{Area, MassDensity, Velocity, kilogram_per_cubic_metre, metre_per_second, square_metre};

fn dragged([density, coefficient, area, speed]: [f64; 4]) -> Result<f64, rigging_core::law::OutOfDomain> {
    drag(
        MassDensity::new::<kilogram_per_cubic_metre>(density),
        plain(coefficient),
        Area::new::<square_metre>(area),
        Velocity::new::<metre_per_second>(speed),
    )
    .map(|force| force.value)
}

proptest! {
    #[test]
    fn drag_is_half_of_what_a_jet_of_that_size_brings(
        density in 900.0..1200.0_f64, coefficient in 0.1..2.0_f64, area in 0.01..2.0_f64, speed in 0.1..8.0_f64,
    ) {
        // Momentum that passes the area in a second: mass ρ A v, each kilogram with v.
        let jet = density * area * speed * speed;
        prop_assert!(close(dragged([density, coefficient, area, speed]).unwrap(), coefficient * jet / 2.0, 1e-14, 0.0));
    }

    #[test]
    fn drag_grows_with_water_shape_and_size_and_with_the_square_of_speed(
        coefficient in 0.1..2.0_f64, area in 0.01..2.0_f64, speed in 0.1..8.0_f64, times in factor(),
    ) {
        let here = dragged([1000.0, coefficient, area, speed]).unwrap();
        for more in [
            dragged([1000.0 * times, coefficient, area, speed]),
            dragged([1000.0, coefficient * times, area, speed]),
            dragged([1000.0, coefficient, area * times, speed]),
        ] {
            prop_assert!(close(more.unwrap(), times * here, 1e-14, 0.0));
        }
        let faster = dragged([1000.0, coefficient, area, speed * times]).unwrap();
        prop_assert!(close(faster, times * times * here, 1e-14, 0.0));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn drag_is_an_error_or_a_number_whatever_comes_in(a in any(), b in any(), c in any(), d in any()) {
        let within = a > 0.0 && b >= 0.0 && c >= 0.0 && d >= 0.0;
        prop_assert!(is_lawful(dragged([a, b, c, d]), &[a, b, c, d], within, counts));
    }
}
