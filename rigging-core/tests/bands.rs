//! Ranges through a calculation: what is inside them is never outside the answer.

use proptest::prelude::*;
use rigging_core::band::{Band, sweep};
use rigging_core::limit::Standing;
use rigging_core::quantity::{Kind, Toward, Units};

fn band() -> impl Strategy<Value = Band> {
    (-5.0..5.0_f64, 0.0..4.0_f64, 0.0..=1.0_f64)
        .prop_map(|(low, width, share)| Band::of(low, low + share * width, low + width))
}

/// Rises or falls with each input alone, whatever the others are: its ends are at corners.
fn by_turns([a, b, c]: &[f64; 3]) -> Result<[f64; 2], ()> {
    Ok([a * b - 2.0 * c * a + b, (a - c).exp()])
}

fn inside(band: Band, share: f64) -> f64 {
    band.low() + share * (band.high() - band.low())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_point_inside_has_its_result_inside(
        (a, b, c) in (band(), band(), band()),
        shares in prop::array::uniform3(0.0..=1.0_f64),
    ) {
        let spreads = sweep([a, b, c], by_turns).unwrap();
        let results = by_turns(&[inside(a, shares[0]), inside(b, shares[1]), inside(c, shares[2])]).unwrap();
        for (spread, result) in spreads.iter().zip(results) {
            let doubt = 1e-9 * result.abs().max(1.0);
            prop_assert!(spread.band.low() <= result + doubt && result <= spread.band.high() + doubt);
            // The ends are results themselves, at the inputs that are told.
            prop_assert!(by_turns(&spread.at_low).unwrap().contains(&spread.band.low()));
            prop_assert!(by_turns(&spread.at_high).unwrap().contains(&spread.band.high()));
        }
    }

    #[test]
    fn less_doubt_never_widens_the_answer(
        (a, b, c) in (band(), band(), band()),
        cuts in prop::array::uniform3((0.0..=1.0_f64, 0.0..=1.0_f64)),
    ) {
        let wide = sweep([a, b, c], by_turns).unwrap();
        let cut = |band: Band, (from, to): (f64, f64)| {
            let (low, high) = (inside(band, from.min(to)), inside(band, from.max(to)));
            Band::of(low, (low + high) / 2.0, high)
        };
        let narrow = sweep([cut(a, cuts[0]), cut(b, cuts[1]), cut(c, cuts[2])], by_turns).unwrap();
        for (wide, narrow) in wide.iter().zip(&narrow) {
            let doubt = 1e-9 * wide.band.high().abs().max(1.0);
            prop_assert!(narrow.band.low() >= wide.band.low() - doubt && narrow.band.high() <= wide.band.high() + doubt);
        }
    }

    #[test]
    fn a_peak_inside_the_box_is_seen(top in prop::array::uniform2(0.15..0.85_f64)) {
        let hill = |[a, b]: &[f64; 2]| Ok::<_, ()>([1.0 - (a - top[0]).powi(2) - (b - top[1]).powi(2)]);
        let unit = Band::of(0.0, 0.5, 1.0);
        let [spread] = sweep([unit, unit], hill).unwrap();
        prop_assert!(spread.band.high() > 0.97, "{:?}", spread.band);
        let corners = [[0.0, 0.0], [0.0, 1.0], [1.0, 0.0], [1.0, 1.0]].map(|corner| hill(&corner).unwrap()[0]);
        prop_assert!(spread.band.high() > corners.into_iter().fold(f64::MIN, f64::max));
    }
}

/// Where a sweep looks is said in its documentation: the typical point, each input alone at six places, every corner,
/// and 32 points inside, which are the first of the sequence of Halton (*Numerische Mathematik* 2, 1960, from memory).
#[test]
fn a_sweep_looks_where_it_says() {
    let unit = Band::of(0.0, 0.4, 1.0);
    let mut points = Vec::new();
    sweep([unit, Band::exact(7.0), unit], |point: &[f64; 3]| {
        points.push(*point);
        Ok::<_, ()>([point[0]])
    })
    .unwrap();
    assert!(points.iter().all(|point| point[1] == 7.0));
    let both: Vec<[f64; 2]> = points.iter().map(|point| [point[0], point[2]]).collect();
    let alone = |value: f64| [[value, 0.4], [0.4, value]];
    let mut expected = vec![[0.4, 0.4]];
    for side in 0..2 {
        expected.extend([0.0, 0.25, 0.5, 0.75, 0.4, 1.0].map(|value| alone(value)[side]));
    }
    expected.extend([[0.0, 0.0], [1.0, 0.0], [0.0, 1.0], [1.0, 1.0]]);
    let halton = [[1.0 / 2.0, 1.0 / 3.0], [1.0 / 4.0, 2.0 / 3.0], [3.0 / 4.0, 1.0 / 9.0], [1.0 / 8.0, 4.0 / 9.0]];
    expected.extend(halton);
    assert_eq!(both.len(), 1 + 2 * 6 + 4 + 32);
    for (found, expected) in both.iter().zip(&expected) {
        assert!((found[0] - expected[0]).abs() + (found[1] - expected[1]).abs() < 1e-15, "{found:?} {expected:?}");
    }
    assert!(both.iter().skip(17).all(|point| point.iter().all(|share| *share > 0.0 && *share < 1.0)));
}

#[test]
fn a_range_is_told_with_its_ends_apart() {
    let units = Units::default();
    let force = |low, typical, high| units.range(&Band::of(low, typical, high), Kind::Force, Toward::More);
    assert_eq!(force(931.0, 1200.0, 4612.0), "0.93\u{a0}kN to 4.7\u{a0}kN");
    // One value without a width is rounded against whoever reads it: a load up.
    assert_eq!(force(4612.0, 4612.0, 4612.0), "4.7\u{a0}kN");
    let length = |low, typical, high| units.measured_range(&Band::of(low, typical, high), Kind::Length);
    assert_eq!(length(36.96, 40.0, 50.02), "36.9\u{a0}m to 50.1\u{a0}m");
    assert_eq!(length(12.0, 12.0, 12.0), "12\u{a0}m");
    // What has no width is told once, rounded up; so is what reads the same at both ends.
    assert_eq!(length(12.04, 12.04, 12.04), "12.1\u{a0}m");
    assert_eq!(length(12.0, 12.0, 12.0 + 1e-13), "12\u{a0}m");
}

#[test]
fn one_place_without_a_number_leaves_no_range_to_compare() {
    // The corner where both are high, and a root beyond its domain: neither end of the range is known.
    let sides = [Band::of(1.0, 2.0, 3.0), Band::of(1.0, 2.0, 3.0)];
    let product = |[a, b]: &[f64; 2]| Ok::<_, ()>([if *a > 2.5 && *b > 2.5 { f64::NAN } else { a * b }]);
    let [area] = sweep(sides, product).unwrap();
    let [root] = sweep([Band::of(1.0, 2.0, 3.0)], |[a]| Ok::<_, ()>([(2.5 - a).sqrt()])).unwrap();
    for band in [area.band, root.band] {
        assert!(band.high().is_nan(), "{band:?}");
        assert!(matches!(Standing::of(band, Band::exact(7.0)), Standing::NotChecked(_)));
    }
}

#[test]
fn a_standing_is_a_matter_of_three_numbers() {
    proptest!(|(low in 0.0..10.0_f64, width in 0.0..10.0_f64, limit in 0.0..20.0_f64, doubt in 0.0..5.0_f64)| {
        let standing = Standing::of(Band::of(low, low, low + width), Band::of(limit, limit, limit + doubt));
        let expected = if low + width < limit { Standing::BelowLimit }
            else if low > limit + doubt { Standing::AboveLimit }
            else { Standing::RangeCrosses };
        prop_assert_eq!(standing, expected);
    });
    // Touching is crossing; what is not a number is not checked.
    assert_eq!(Standing::of(Band::exact(5.0), Band::exact(5.0)), Standing::RangeCrosses);
    for nothing in [f64::NAN, f64::INFINITY] {
        let load = Band::of(1.0, 1.0, nothing);
        assert_eq!(Standing::of(load, Band::exact(5.0)).words(), "not checked");
        assert_eq!(Standing::of(Band::exact(1.0), Band::exact(nothing)).words(), "not checked");
    }
}
