use crate::numbers::{any, close, counts, is_lawful, metres, often, plain};
use proptest::prelude::*;
use rigging_core::law::flood::{Class, Danger, class, debris, hazard_rating};
use rigging_core::quantity::{Velocity, metre_per_second};

fn speed(value: f64) -> Velocity {
    Velocity::new::<metre_per_second>(value)
}

proptest! {
    #[test]
    fn deeper_or_faster_water_is_never_of_a_lesser_class(
        depth in 0.0..5.0_f64, at in 0.0..5.0_f64, more in 0.0..2.0_f64,
    ) {
        let here = class(metres(depth), speed(at)).unwrap();
        prop_assert!(class(metres(depth + more), speed(at)).unwrap() >= here);
        prop_assert!(class(metres(depth), speed(at + more)).unwrap() >= here);
    }

    #[test]
    fn each_class_keeps_within_what_is_printed_for_it(depth in 0.0..5.0_f64, at in 0.0..5.0_f64) {
        // NSW FB03, 2023, as it prints the classes: depth × speed, depth and speed each up to.
        let (product, deepest, fastest) = match class(metres(depth), speed(at)).unwrap() {
            Class::H1 => (0.3, 0.3, 2.0),
            Class::H2 => (0.6, 0.5, 2.0),
            Class::H3 => (0.6, 1.2, 2.0),
            Class::H4 => (1.0, 2.0, 2.0),
            Class::H5 => (4.0, 4.0, 4.0),
            Class::H6 => (f64::INFINITY, f64::INFINITY, f64::INFINITY),
        };
        prop_assert!(depth * at <= product && depth <= deepest && at <= fastest);
    }

    #[test]
    fn the_rating_is_a_straight_line_in_speed_and_in_depth(
        depth in 0.01..3.0_f64, at in 0.0..5.0_f64, dirt in 0.0..1.0_f64, more in 0.01..2.0_f64,
    ) {
        let rating = |depth, at, dirt| hazard_rating(metres(depth), speed(at), plain(dirt)).unwrap().value;
        let here = rating(depth, at, dirt);
        prop_assert!(close(rating(depth, at + more, dirt) - here, depth * more, 1e-9, 1e-12));
        prop_assert!(close(rating(depth + more, at, dirt) - here, more * (at + 0.5), 1e-9, 1e-12));
        prop_assert!(Danger::of(plain(here + more)) >= Danger::of(plain(here)));
        prop_assert!(debris(metres(depth + more), speed(at)).unwrap() >= debris(metres(depth), speed(at)).unwrap());
        prop_assert!(debris(metres(depth), speed(at + more)).unwrap() >= debris(metres(depth), speed(at)).unwrap());
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn floods_are_an_error_or_a_class_whatever_comes_in(a in any(), b in any(), c in any()) {
        let within = a >= 0.0 && b >= 0.0;
        prop_assert!(is_lawful(class(metres(a), speed(b)), &[a, b], within, |_| true));
        prop_assert!(is_lawful(debris(metres(a), speed(b)).map(|f| f.value), &[a, b], within, counts));
        let answer = hazard_rating(metres(a), speed(b), plain(c)).map(|rating| rating.value);
        prop_assert!(is_lawful(answer, &[a, b, c], within && c >= 0.0, counts));
    }
}
