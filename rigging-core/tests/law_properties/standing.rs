use crate::numbers::{any, close, counts, is_lawful, kilograms, metres, newtons, often, plain};
use proptest::prelude::*;
use rigging_core::law::OutOfDomain;
use rigging_core::law::standing::{
    Board, Conditions, Curve, Wader, abt_limit, apparent_weight, body_volume, karvonen_limit, slides_in_water,
    submerged_share, topples_in_water, xia_topple_speed,
};
use rigging_core::quantity::{MassDensity, Volume, cubic_metre, kilogram_per_cubic_metre};

fn density(value: f64) -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_metre>(value)
}
fn board([weight, breadth, coefficient, water, depth]: [f64; 5]) -> Board {
    Board {
        weight: newtons(weight),
        breadth: metres(breadth),
        coefficient: plain(coefficient),
        density: density(water),
        depth: metres(depth),
    }
}
fn slides(sizes: [f64; 5], friction: f64) -> Result<f64, OutOfDomain> {
    slides_in_water(&board(sizes), plain(friction)).map(|speed| speed.value)
}
fn topples(sizes: [f64; 5], arm: f64) -> Result<f64, OutOfDomain> {
    topples_in_water(&board(sizes), metres(arm)).map(|speed| speed.value)
}
fn xia(depth: f64, height: f64, mass: f64, curve: Curve) -> Result<f64, OutOfDomain> {
    xia_topple_speed(metres(depth), metres(height), kilograms(mass), curve).map(|speed| speed.value)
}
fn left_of(weight: f64, water: f64, volume: f64, share: f64, flotation: f64) -> Result<f64, OutOfDomain> {
    let volume = Volume::new::<cubic_metre>(volume);
    apparent_weight(newtons(weight), density(water), volume, plain(share), newtons(flotation)).map(|force| force.value)
}

proptest! {
    #[test]
    fn taller_and_heavier_people_have_no_lower_published_limit(
        height in 1.0..2.2_f64, mass in 20.0..150.0_f64, more in 1.0..1.5_f64,
    ) {
        let all = |height, mass| {
            let (height, mass) = (metres(height), kilograms(mass));
            let mut limits = vec![abt_limit(height, mass).unwrap()];
            limits.extend(Conditions::ALL.map(|conditions| karvonen_limit(height, mass, conditions).unwrap()));
            limits
        };
        let here = all(height, mass);
        prop_assert!(here[1] > here[2] && here[2] > here[3], "good, ordinary, poor");
        prop_assert!(here.iter().zip(all(height * more, mass)).all(|(here, taller)| taller >= *here));
        prop_assert!(here.iter().zip(all(height, mass * more)).all(|(here, heavier)| heavier >= *here));
    }

    #[test]
    fn karvonen_is_a_straight_line_in_height_times_mass(
        height in 1.0..2.2_f64, mass in 20.0..150.0_f64,
    ) {
        // Karvonen 2000: ordinary as published, good and poor from memory.
        for (conditions, slope, start) in
            [(Conditions::Good, 0.006, 0.3), (Conditions::Ordinary, 0.004, 0.2), (Conditions::Poor, 0.002, 0.1)]
        {
            let limit = karvonen_limit(metres(height), kilograms(mass), conditions).unwrap().value;
            prop_assert!(close(limit, slope * height * mass + start, 1e-14, 0.0));
        }
    }

    #[test]
    fn the_water_pushes_as_hard_as_friction_and_weight_hold(
        weight in 50.0..1200.0_f64, breadth in 0.2..0.7_f64, coefficient in 1.0..1.5_f64, water in 1000.0..1100.0_f64,
        depth in 0.1..1.6_f64, friction in 0.05..1.0_f64, arm in 0.05..0.5_f64,
    ) {
        let sizes = [weight, breadth, coefficient, water, depth];
        // Drag on a thin slice of the board, at its height, added up from the bed to the surface.
        let (mut force, mut moment) = (0.0, 0.0);
        const SLICES: usize = 1000;
        let slice = depth / SLICES as f64;
        for number in 0..SLICES {
            let push = water / 2.0 * coefficient * breadth * slice;
            force += push;
            moment += push * slice * (number as f64 + 0.5);
        }
        let (slide, topple) = (slides(sizes, friction).unwrap(), topples(sizes, arm).unwrap());
        prop_assert!(close(force * slide * slide, friction * weight, 1e-11, 0.0));
        prop_assert!(close(moment * topple * topple, weight * arm, 1e-11, 0.0));
    }

    #[test]
    fn deeper_broader_and_lighter_is_swept_away_sooner(
        weight in 50.0..1200.0_f64, breadth in 0.2..0.7_f64, depth in 0.1..1.6_f64, more in 1.0..3.0_f64,
    ) {
        let both = |weight, breadth, depth| {
            let sizes = [weight, breadth, 1.2, 1000.0, depth];
            (slides(sizes, 0.4).unwrap() * (1.0 + 1e-14), topples(sizes, 0.15).unwrap() * (1.0 + 1e-14))
        };
        let here = both(weight, breadth, depth);
        for worse in [both(weight / more, breadth, depth), both(weight, breadth * more, depth), both(weight, breadth, depth * more)] {
            prop_assert!(worse.0 <= here.0 * (1.0 + 1e-14) && worse.1 <= here.1 * (1.0 + 1e-14));
        }
    }

    #[test]
    fn xia_is_the_formula_as_printed(
        share in 0.05..1.0_f64, height in 1.0..2.2_f64, mass in 20.0..150.0_f64,
    ) {
        // Xia and others 2014, in the order in which they print it.
        let depth = share * height;
        let inside = mass / (1000.0 * depth * depth)
            - (0.633 / (height * height) + 0.367 / (depth * height)) * (1.015e-3 * mass - 4.937e-3);
        for (curve, alpha, beta) in [(Curve::Low, 3.472, 0.188), (Curve::High, 7.867, 0.462)] {
            let printed = alpha * share.powf(beta) * inside.max(0.0).sqrt();
            prop_assert!(close(xia(depth, height, mass, curve).unwrap(), printed, 1e-9, 1e-6));
        }
        let (low, high) = (xia(depth, height, mass, Curve::Low).unwrap(), xia(depth, height, mass, Curve::High).unwrap());
        prop_assert!(low <= high || share < 0.0507);
    }

    #[test]
    fn water_carries_a_body_by_what_it_displaces(
        mass in 20.0..150.0_f64, share in 0.0..1.0_f64, flotation in 0.0..100.0_f64, water in 1000.0..1100.0_f64,
    ) {
        let (weight, volume) = (mass * 9.806_65, body_volume(kilograms(mass)).unwrap().value);
        prop_assert!((0.75..1.03).contains(&(volume / mass * 1000.0)), "about as dense as water");
        let left = left_of(weight, water, volume, share, flotation).unwrap();
        prop_assert!(close(left, (weight - water * volume * share * 9.806_65 - flotation).max(0.0), 1e-11, 1e-11 * weight));
        prop_assert!(left_of(weight, water, volume, share, flotation + 1.0).unwrap() <= left);
        prop_assert!(submerged_share(plain(share)).unwrap().value <= share);
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn standing_is_an_error_or_a_number_whatever_comes_in(
        a in any(), b in any(), c in any(), d in any(), e in any(), f in any(),
    ) {
        let body = a > 0.0 && b > 0.0;
        prop_assert!(is_lawful(abt_limit(metres(a), kilograms(b)).map(|l| l.value), &[a, b], body, counts));
        for conditions in Conditions::ALL {
            let limit = karvonen_limit(metres(a), kilograms(b), conditions).map(|limit| limit.value);
            prop_assert!(is_lawful(limit, &[a, b], body, counts));
        }
        let inputs = [a, b, c, d, e, f];
        let is_board = a >= 0.0 && b > 0.0 && c > 0.0 && d > 0.0 && e > 0.0 && f >= 0.0;
        prop_assert!(is_lawful(slides([a, b, c, d, e], f), &inputs, is_board, counts));
        prop_assert!(is_lawful(topples([a, b, c, d, e], f), &inputs, is_board, counts));
        let share = |x: f64| (0.0..=1.0).contains(&x);
        prop_assert!(is_lawful(submerged_share(plain(a)).map(|s| s.value), &[a], share(a), share));
        let has_volume = a * 1.015e-3 - 4.937e-3 > 0.0;
        prop_assert!(is_lawful(body_volume(kilograms(a)).map(|v| v.value), &[a], has_volume, counts));
        let within = a >= 0.0 && b > 0.0 && c >= 0.0 && share(d) && e >= 0.0;
        prop_assert!(is_lawful(left_of(a, b, c, d, e), &inputs[..5], within, |left| counts(left) && left <= a));
        let within = a > 0.0 && b > 0.0 && a / b <= 1.0 && c * 1.015e-3 - 4.937e-3 > 0.0;
        for curve in [Curve::Low, Curve::High] {
            prop_assert!(is_lawful(xia(a, b, c, curve), &[a, b, c, a / b], within, counts));
        }
    }
}

#[test]
fn limits_for_trained_people_are_no_lower_than_for_others() {
    let products = Wader::ALL.map(|wader| wader.limits().product.value);
    assert_eq!(products, [0.4, 0.6, 0.8, 1.2], "Cox, Shand & Blacka 2010");
    for wader in Wader::ALL {
        let limits = wader.limits();
        let deepest = if wader == Wader::Child { 0.5 } else { 1.2 };
        assert_eq!((limits.depth.value, limits.speed.value), (deepest, 3.0));
    }
}
