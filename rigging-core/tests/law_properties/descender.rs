use crate::numbers::{
    any, at_least, close, counts, factor, force, is_lawful, kilograms, metres, newtons, often, plain,
};
use proptest::prelude::*;
use proptest::sample::select;
use rigging_core::band::Band;
use rigging_core::law::descender::{Descender, Use, friction_ratio, hand_force, held_back_by, start_ratio, warming};
use rigging_core::quantity::{Energy, SpecificHeatCapacity, joule, joule_per_kilogram_kelvin};

const DEVICES: [Descender; 6] = Descender::ALL;

fn ratios(device: Descender, millimetres: f64, two_strands: bool, extra_carabiner: bool, wet: bool) -> [f64; 3] {
    let diameter = metres(millimetres / 1000.0);
    ends(friction_ratio(device, &Use { diameter, two_strands, extra_carabiner, wet }).unwrap())
}
fn ends(band: Band) -> [f64; 3] {
    [band.low(), band.typical(), band.high()]
}
fn hand(weight: f64, tail: f64, ratio: f64) -> f64 {
    hand_force(newtons(weight), newtons(tail), plain(ratio)).unwrap().value
}
fn held(weight: f64, tail: f64, ratio: f64) -> f64 {
    held_back_by(newtons(weight), newtons(tail), plain(ratio)).unwrap().value
}

proptest! {
    #[test]
    fn each_correction_multiplies_whatever_the_others_are(
        device in select(DEVICES.as_slice()), millimetres in 7.0..13.0_f64, two: bool, extra: bool, wet: bool,
    ) {
        let all = ratios(device, millimetres, two, extra, wet);
        let plain = ratios(device, 11.0, false, false, false);
        let alone = [
            ratios(device, millimetres, false, false, false),
            ratios(device, 11.0, two, false, false),
            ratios(device, 11.0, false, extra, false),
            ratios(device, 11.0, false, false, wet),
        ];
        for end in 0..3 {
            let product = alone.iter().fold(plain[end], |so_far, one| so_far * one[end] / plain[end]);
            prop_assert!(close(all[end], product, 1e-14, 0.0));
        }
        prop_assert!(all[0] > 0.0 && all[0] <= all[1] && all[1] <= all[2]);
    }

    #[test]
    fn a_thicker_rope_never_brakes_less(
        device in select(DEVICES.as_slice()), one in 6.0..13.0_f64, other in 6.0..13.0_f64,
    ) {
        let (thin, thick) = (one.min(other), one.max(other));
        let (thin, thick) = (ratios(device, thin, false, false, false), ratios(device, thick, false, false, false));
        prop_assert!((0..3).all(|end| thin[end] <= thick[end]));
    }

    #[test]
    fn wet_may_go_either_way_and_the_rest_only_up(device in select(DEVICES.as_slice()), millimetres in 7.0..13.0_f64) {
        let dry = ratios(device, millimetres, false, false, false);
        let wet = ratios(device, millimetres, false, false, true);
        prop_assert!(wet[0] < dry[0] && wet[2] > dry[2] && close(wet[1], dry[1], 1e-14, 0.0));
        for more in [ratios(device, millimetres, true, false, false), ratios(device, millimetres, false, true, false)] {
            prop_assert!((0..3).all(|end| more[end] >= dry[end]));
        }
    }

    #[test]
    fn above_the_device_the_rope_carries_the_ratio_times_what_pulls_below(
        weight in force(), tail in force(), ratio in 1.0..60.0_f64,
    ) {
        let (hand, held) = (hand(weight, tail, ratio), held(weight, tail, ratio));
        prop_assert!(hand == 0.0 || held == 0.0);
        // Below: the hand and the tail, less what the tail pulls too much. Above: body and tail.
        let (below, above) = (hand + tail - held, weight + tail);
        prop_assert!(close(ratio * below, above, 1e-14, 1e-15 * ratio * above));
    }

    #[test]
    fn hand_and_body_grow_together(weight in force(), tail in force(), ratio in 1.0..60.0_f64, times in factor()) {
        let digits = 1e-15 * (weight + tail) * times;
        prop_assert!(close(hand(weight, tail, ratio) * times, hand(weight * times, tail * times, ratio), 0.0, digits));
        prop_assert!(close(held(weight, tail, ratio) * times, held(weight * times, tail * times, ratio), 0.0, digits));
    }

    #[test]
    fn more_weight_needs_more_hand_and_more_friction_or_tail_less(
        weight in force(), tail in force(), ratio in 1.0..60.0_f64, more in 1.0..3.0_f64,
    ) {
        let here = hand(weight, tail, ratio);
        let digits = 1e-15 * (weight + 3.0 * tail);
        prop_assert!(hand(weight * more, tail, ratio) >= here - digits);
        prop_assert!(hand(weight, tail, ratio * more) <= here + digits);
        prop_assert!(hand(weight, tail * more, ratio) <= here + digits);
        prop_assert!(held(weight, tail * more, ratio) >= held(weight, tail, ratio) - digits);
    }
}

fn start(weight: f64, tail: f64, ratio: f64) -> f64 {
    start_ratio(newtons(weight), newtons(tail), plain(ratio)).unwrap().value
}
fn warmer(work: f64, share: f64, mass: f64, heat: f64) -> Result<f64, rigging_core::law::OutOfDomain> {
    let heat = SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(heat);
    Ok(warming(Energy::new::<joule>(work), plain(share), kilograms(mass), heat)?.value)
}

proptest! {
    #[test]
    fn below_a_ratio_of_one_and_only_there_the_tail_holds(
        weight in force(), tail in force(), ratio in 1.0..60.0_f64,
    ) {
        let start = start(weight, tail, ratio);
        prop_assume!((start - 1.0).abs() > 1e-12);
        prop_assert_eq!(start < 1.0, held(weight, tail, ratio) > 0.0);
        prop_assert_eq!(start > 1.0, hand(weight, tail, ratio) > 0.0);
    }

    #[test]
    fn weight_helps_to_start_and_tail_and_friction_hinder(
        weight in force(), tail in force(), ratio in 1.0..60.0_f64, more in 1.01..3.0_f64,
    ) {
        let here = start(weight, tail, ratio);
        prop_assert!(start(weight * more, tail, ratio) >= here && start(weight, tail * more, ratio) <= here);
        prop_assert!(close(start(weight, tail, ratio * more), here / more, 1e-14, 0.0));
        prop_assert!(close(start(weight * more, tail * more, ratio), here, 1e-14, 0.0));
    }

    #[test]
    fn heat_goes_into_the_metal_and_none_is_lost(
        work in 1.0..1e6_f64, share in 0.0..1.0_f64, mass in 0.05..2.0_f64, heat in 400.0..1000.0_f64,
    ) {
        prop_assert!(close(warmer(work, share, mass, heat).unwrap() * mass * heat, share * work, 1e-13, 0.0));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn starting_and_warming_give_an_error_or_numbers_whatever_comes_in(a in any(), b in any(), c in any(), d in any()) {
        let answer = start_ratio(newtons(a), newtons(b), plain(c)).map(|ratio| ratio.value);
        prop_assert!(is_lawful(answer, &[a, b, c], a >= 0.0 && b > 0.0 && c >= 1.0, counts), "{answer:?}");
        let answer = warmer(a, b, c, d);
        let within = a >= 0.0 && b >= 0.0 && c > 0.0 && d > 0.0;
        prop_assert!(is_lawful(answer, &[a, b, c, d], within, counts), "{answer:?}");
    }

    #[test]
    fn a_descender_gives_an_error_or_numbers_whatever_comes_in(
        device in select(DEVICES.as_slice()), one in any(), other in any(), ratio in any(), two: bool, extra: bool, wet: bool,
    ) {
        let in_use = Use { diameter: metres(one), two_strands: two, extra_carabiner: extra, wet };
        let answer = friction_ratio(device, &in_use).map(ends);
        prop_assert!(is_lawful(answer, &[one], one > 0.0, |[low, typical, high]| {
            (1.0..200.0).contains(&low) && low <= typical && typical <= high && high < 200.0
        }), "{answer:?}");
        let within = one >= 0.0 && other >= 0.0 && ratio >= 1.0;
        for law in [hand_force, held_back_by] {
            let answer = law(newtons(one), newtons(other), plain(ratio)).map(|force| force.value);
            prop_assert!(is_lawful(answer, &[one, other, ratio], within, |force| {
                counts(force) && at_least(one.max(other), force)
            }), "{answer:?}");
        }
    }
}

#[test]
fn at_the_limits_a_descender_is_what_anyone_can_see() {
    assert_eq!((hand(800.0, 0.0, 1.0), held(800.0, 0.0, 1.0)), (800.0, 0.0), "no friction");
    assert_eq!((hand(800.0, 30.0, 1.0), held(800.0, 30.0, 1.0)), (800.0, 0.0), "no friction, with a tail");
    assert_eq!((hand(0.0, 30.0, 10.0), held(0.0, 30.0, 10.0)), (0.0, 27.0), "nobody on the rope");
    assert!(hand(800.0, 0.0, 1e12) < 1e-9, "a device that locks");
    assert_eq!(start(0.0, 30.0, 1.0), 1.0, "nobody on the rope, no friction");
    assert_eq!(warmer(0.0, 0.5, 0.1, 900.0), Ok(0.0), "no way down");
}
