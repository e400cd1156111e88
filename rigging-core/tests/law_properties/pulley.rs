use crate::by_hand::round_a_bend;
use crate::numbers::{any, close, counts, is_lawful, often, plain};
use proptest::prelude::*;
use rigging_core::law::pulley::friction;
use std::f64::consts::PI;

fn as_bend(efficiency: f64) -> f64 {
    friction(plain(efficiency)).unwrap().value
}

proptest! {
    #[test]
    fn a_rope_walked_round_half_a_turn_loses_what_the_pulley_takes(efficiency in 0.05..1.0_f64) {
        // Raised: the pull on the far side is the load over the efficiency.
        prop_assert!(close(round_a_bend(1.0, as_bend(efficiency), PI), 1.0 / efficiency, 1e-11, 0.0));
    }

    #[test]
    fn a_better_pulley_has_less_friction_and_pulleys_in_a_row_add_theirs(one in 0.01..1.0_f64, other in 0.01..1.0_f64) {
        prop_assert!((one < other) == (as_bend(one) > as_bend(other)));
        prop_assert!(close(as_bend(one * other), as_bend(one) + as_bend(other), 1e-13, 1e-15));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_pulley_gives_an_error_or_a_number_whatever_comes_in(efficiency in any()) {
        let answer = friction(plain(efficiency)).map(|friction| friction.value);
        prop_assert!(is_lawful(answer, &[efficiency], efficiency > 0.0 && efficiency <= 1.0, counts), "{answer:?}");
    }
}

#[test]
fn at_the_limits_a_pulley_is_what_anyone_can_see() {
    assert_eq!(as_bend(1.0).to_bits(), 0.0_f64.to_bits(), "nothing lost");
    assert!(friction(plain(0.0)).is_err(), "a pulley that lets nothing through is a knot");
    assert!(friction(plain(1.001)).is_err(), "a pulley that gives");
}
