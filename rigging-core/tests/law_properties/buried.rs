use crate::numbers::{any, close, counts, degrees, factor, is_lawful, metres, newtons, often, plain, radians};
use proptest::prelude::*;
use rigging_core::law::buried::{table, wedge};
use std::f64::consts::FRAC_PI_2;

fn holds(deep: f64, wide: f64, cubic_metre: f64, angle: f64) -> f64 {
    wedge(metres(deep), metres(wide), newtons(cubic_metre), radians(angle)).unwrap().value
}

/// Level force that pushes a wedge up a plane which rises at an angle from the lower edge of the face: weight, push and
/// what the plane gives back, tilted by friction against the motion, add up to nothing.
fn pushes_up(deep: f64, wide: f64, cubic_metre: f64, friction: f64, plane: f64) -> f64 {
    let weight = 0.5 * cubic_metre * deep * (deep / plane.tan()) * wide;
    // The reaction lies `friction` beyond the normal; its upright part carries the weight, its level part is the push.
    let tilted = plane + friction;
    let reaction = weight / tilted.cos();
    reaction * tilted.sin()
}

proptest! {
    #[test]
    fn the_wedge_is_the_one_that_is_easiest_to_push_up(
        deep in 0.1..2.0_f64, wide in 0.1..3.0_f64, cubic_metre in 5e3..2e4_f64, friction in degrees(0.0, 44.0),
    ) {
        let force = holds(deep, wide, cubic_metre, friction);
        let most = FRAC_PI_2 - friction;
        let least = (1..2000)
            .map(|step| pushes_up(deep, wide, cubic_metre, friction, most * f64::from(step) / 2000.0))
            .fold(f64::INFINITY, f64::min);
        // The search looks at planes a twentieth of a degree apart: it stays above, and by little.
        prop_assert!(least >= force * (1.0 - 1e-12) && close(least, force, 1e-5, 0.0), "{least} {force}");
    }

    #[test]
    fn twice_as_deep_holds_four_times_and_twice_as_wide_twice(
        deep in 0.1..2.0_f64, wide in 0.1..3.0_f64, friction in degrees(0.0, 60.0), times in factor(),
    ) {
        let once = holds(deep, wide, 1e4, friction);
        prop_assert!(close(holds(deep * times, wide, 1e4, friction), once * times * times, 1e-12, 0.0));
        prop_assert!(close(holds(deep, wide * times, 1e4, friction), once * times, 1e-12, 0.0));
    }

    #[test]
    fn a_flatter_pull_holds_more_by_the_table_and_never_more_than_its_last_column(
        depth in 0.91..3.0_f64, run in 1.0..4.0_f64, flatter in 0.0..1.0_f64,
    ) {
        let at = |run| table(metres(depth), plain(run)).unwrap().value;
        let more = run + flatter * (4.0 - run);
        prop_assert!(at(run) <= at(more) * (1.0 + 1e-12) && at(run) >= 45e3 * (1.0 - 1e-12));
        prop_assert!(at(more) <= 72e3 * (1.0 + 1e-12));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn the_ground_before_a_face_gives_an_error_or_a_number_whatever_comes_in(
        one in any(), two in any(), three in any(), four in any(),
    ) {
        let answer = wedge(metres(one), metres(two), newtons(three), radians(four)).map(|force| force.value);
        let within = one >= 0.0 && two >= 0.0 && three >= 0.0 && (0.0..FRAC_PI_2).contains(&four);
        prop_assert!(is_lawful(answer, &[one, two, three, four], within, counts), "{answer:?}");
        let answer = table(metres(one), plain(two)).map(|pressure| pressure.value);
        let within = one >= 0.91 && (1.0..=4.0).contains(&two);
        prop_assert!(is_lawful(answer, &[one, two], within, counts), "{answer:?}");
    }
}
