use crate::numbers::{any, close, counts, degrees, force, is_lawful, metres, newtons, often, radians};
use proptest::prelude::*;
use rigging_core::law::swing::{
    OnElastic, Sideways, drawn_along_lip, equal_fall, from_plumb, on_elastic, peak, sideways,
};
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

/// What a swing on an elastic rope does until it turns on the other side; rope, mass and gravity are 1.
#[derive(Default)]
struct Swung {
    peak: f64,
    sideways: f64,
    lowest: f64,
    farthest: f64,
    /// The most speed squared over 2 that was met past each tenth of the way out.
    falls: [f64; 10],
}

/// In small steps (Runge–Kutta) of length and angle; `loaded` is the share of the weight's part along the rope that
/// the rope bears at the start.
fn swung(strain: f64, begins: f64, loaded: f64) -> Swung {
    type State = [f64; 4];
    let rate = |[r, angle, out, turning]: State| -> State {
        let pull = ((r - 1.0) / strain).max(0.0);
        let falling = r * turning * turning + angle.cos() - pull;
        [out, turning, falling, (-angle.sin() - 2.0 * out * turning) / r]
    };
    let add = |state: State, rate: State, step: f64| -> State {
        std::array::from_fn(|place| state[place] + step * rate[place])
    };
    let step = (0.03 * strain.sqrt()).min(0.003);
    let mut state = [1.0 + loaded * strain * begins.cos(), begins, 0.0, 0.0];
    let mut found = Swung::default();
    let mut time = 0.0;
    while time < 4.0 {
        let [r, angle, out, turning] = state;
        let pull = ((r - 1.0) / strain).max(0.0);
        found.peak = found.peak.max(pull);
        found.sideways = found.sideways.max(pull * angle.sin());
        found.lowest = found.lowest.max(r * angle.cos());
        found.farthest = found.farthest.max(-r * angle.sin());
        let fall = (out * out + r * r * turning * turning) / 2.0;
        let tenth = (10.0 * r * angle.sin() / begins.sin()).ceil();
        if (0.0..10.0).contains(&tenth) {
            let place = &mut found.falls[tenth as usize];
            *place = place.max(fall);
        }
        let one = rate(state);
        let two = rate(add(state, one, step / 2.0));
        let three = rate(add(state, two, step / 2.0));
        let four = rate(add(state, three, step));
        for (place, value) in state.iter_mut().enumerate() {
            *value += step / 6.0 * (one[place] + 2.0 * two[place] + 2.0 * three[place] + four[place]);
        }
        time += step;
        if angle < 0.0 && turning > 0.0 {
            break;
        }
    }
    found
}

proptest! {
    #[test]
    fn an_elastic_swing_followed_step_by_step_stays_within_the_bound(
        strain in 0.003..0.5_f64, start in degrees(1.0, 90.0), loaded in 0.0..=1.0_f64,
    ) {
        let found = swung(strain, start, loaded);
        let most = on_elastic(newtons(1.0), newtons(1.0 / strain), radians(start)).unwrap();
        prop_assert!(found.peak <= most.peak.value * (1.0 + 3e-4), "{} {most:?}", found.peak);
        prop_assert!(found.sideways <= most.sideways.value, "{} {most:?}", found.sideways);
        let stretch = most.stretch.value;
        prop_assert!(found.lowest <= 1.0 + stretch * (1.0 + 1e-3), "{} {most:?}", found.lowest);
        prop_assert!(found.farthest <= start.sin() + stretch, "{} {most:?}", found.farthest);
        // Nowhere faster than after a free fall to where a rope so long would reach.
        for (tenth, fall) in found.falls.iter().enumerate() {
            let aside = (tenth as f64 - 1.0).max(0.0) / 10.0 * start.sin();
            let reach = ((1.0 + stretch).powi(2) - aside * aside).sqrt() - start.cos();
            prop_assert!(*fall <= reach, "{fall} {reach} past {aside}");
        }
    }

    #[test]
    fn a_stiff_rope_loaded_beforehand_swings_as_one_that_does_not_stretch(start in degrees(5.0, 85.0)) {
        let found = swung(0.0004, start, 1.0);
        let rigid = peak(newtons(1.0), radians(start)).unwrap().value;
        prop_assert!(close(found.peak, rigid, 3e-3, 0.0), "{} {rigid}", found.peak);
        let aside = sideways(newtons(1.0), radians(start)).unwrap().pull.value;
        prop_assert!(close(found.sideways, aside, 5e-3, 0.0), "{} {aside}", found.sideways);
    }

    #[test]
    fn what_is_let_go_steeper_pulls_more_every_way(weight in force(), start in degrees(0.0, 89.0), more in 0.001..0.01_f64) {
        let at = |angle: f64| {
            let most = on_elastic(newtons(weight), newtons(weight * 30.0), radians(angle)).unwrap();
            let aside = sideways(newtons(weight), radians(angle)).unwrap().pull;
            [peak(newtons(weight), radians(angle)).unwrap(), aside, most.peak, most.sideways]
        };
        for (one, other) in at(start).into_iter().zip(at(start + more)) {
            prop_assert!(other > one);
        }
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn swings_give_an_error_or_a_number_whatever_comes_in(one in any(), two in any(), three in any(), four in any()) {
        let answer = sideways(newtons(one), radians(two));
        let within = one >= 0.0 && (0.0..=FRAC_PI_2).contains(&two);
        let numbers = |most: Sideways| counts(most.pull.value) && most.at.value <= two;
        prop_assert!(is_lawful(answer, &[one, two], within, numbers), "{answer:?}");
        let answer = on_elastic(newtons(one), newtons(two), radians(three));
        let within = one >= 0.0 && two > 0.0 && one / two <= 0.5 && (0.0..=FRAC_PI_2).contains(&three);
        let numbers = |most: OnElastic| most.peak.value.is_finite() && counts(most.sideways.value);
        prop_assert!(is_lawful(answer, &[one, two, three, one / two], within, numbers), "{answer:?}");
        let answer = from_plumb(metres(one), metres(two)).map(|angle| angle.value);
        let within = two > 0.0 && one.abs() <= two;
        prop_assert!(is_lawful(answer, &[one, two], within, |angle| angle.abs() <= FRAC_PI_2), "{answer:?}");
        let answer = equal_fall(metres(one), radians(two), radians(three)).map(|fall| fall.value);
        let within = one >= 0.0 && (0.0..=FRAC_PI_2).contains(&two) && three.abs() <= two;
        prop_assert!(is_lawful(answer, &[one, two, three], within, counts), "{answer:?}");
        let answer = drawn_along_lip(metres(one), metres(two), radians(three), radians(four)).map(|way| way.value);
        let angles = three.abs() <= FRAC_PI_2 && four.abs() <= FRAC_PI_2;
        let within = one >= 0.0 && two > 0.0 && one <= two && angles;
        prop_assert!(is_lawful(answer, &[one, two, three, four], within, counts), "{answer:?}");
    }
}
