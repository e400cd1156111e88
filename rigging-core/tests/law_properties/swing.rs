use crate::numbers::{any, close, counts, degrees, force, is_lawful, newtons, often, radians};
use proptest::prelude::*;
use rigging_core::law::swing::peak;
use std::f64::consts::FRAC_PI_2;

proptest! {
    #[test]
    fn a_swing_walked_down_to_its_bottom_pulls_as_the_law_says(weight in force(), start in degrees(1.0, 90.0)) {
        // θ″ = −(g/L) sin θ with g/L = 1, in small steps; the rope bears the weight and turns the body.
        let (mut angle, mut turning) = (start, 0.0_f64);
        let step = 1e-4;
        while angle > 0.0 {
            let half = turning - angle.sin() * step / 2.0;
            angle += half * step;
            turning = half - angle.sin() * step / 2.0;
        }
        let pull = weight * (angle.cos() + turning * turning);
        prop_assert!(close(pull, peak(newtons(weight), radians(start)).unwrap().value, 1e-4, 0.0));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_swing_gives_an_error_or_a_number_whatever_comes_in(one in any(), other in any()) {
        let answer = peak(newtons(one), radians(other)).map(|pull| pull.value);
        let within = one >= 0.0 && (0.0..=FRAC_PI_2).contains(&other);
        prop_assert!(is_lawful(answer, &[one, other], within, |pull| counts(pull) && pull >= one), "{answer:?}");
    }
}
