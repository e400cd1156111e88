use crate::numbers::{any, close, counts, is_lawful, kilograms, metres, often, plain};
use proptest::prelude::*;
use proptest::sample::select;
use rigging_core::law::tree::{Soil, Species, pulls_at, stem_breaks, stem_mass, tips_over, usual_height};
use rigging_core::quantity::{Torque, newton_metre};

fn torque(value: f64) -> Torque {
    Torque::new::<newton_metre>(value)
}

/// The printed tables again, another way round: kind; moment for a kilogram on draining and on gleyed soil (N·m); green
/// bending strength less knots (N/mm²); natural logarithm of the volume (m³) of a stem of 1 cm and 1 m, its powers;
/// tonnes to a cubic metre. Nicoll et al. 2006 and follow-ups; Fonweban et al. 2012.
type Row = (Species, f64, f64, f64, [f64; 3], f64);
const ROWS: [Row; 5] = [
    (Species::NorwaySpruce, 126.0, 112.0, 32.4, [-9.596_003, 1.827_421, 0.981_362], 0.850),
    (Species::SitkaSpruce, 153.0, 136.0, 34.0, [-9.596_003, 1.827_421, 0.981_362], 0.850),
    (Species::ScotsPine, 140.0, 124.0, 39.1, [-9.361_163, 1.634_205, 1.079_539], 0.850),
    (Species::Beech, 198.0, 176.0, 65.0, [-9.361_163, 1.634_205, 1.079_539], 1.158),
    (Species::Oak, 198.0, 176.0, 59.0, [-9.361_163, 1.634_205, 1.079_539], 1.158),
];

proptest! {
    #[test]
    fn a_tree_tips_over_or_breaks_as_the_tables_say_by_logarithms_and_strips(
        row in select(ROWS.as_slice()), wet in select(&[true, false][..]), thick in 0.05..0.6_f64, tall in 2.0..50.0_f64,
        scatter in 0.58..1.73_f64, site in 0.25..1.0_f64, sling in 0.0..4.0_f64,
    ) {
        let (species, draining, gleyed, strength, [ln_one, with_thick, with_tall], tonnes) = row;
        let soil = if wet { Soil::Gleyed } else { Soil::Draining };
        let stem = stem_mass(species, metres(thick), metres(tall)).unwrap();
        let ln_volume = ln_one + with_thick * (100.0 * thick).ln() + with_tall * tall.ln();
        let mass = 1000.0 * tonnes * ln_volume.exp();
        prop_assert!(close(stem.value, mass, 1e-5, 0.0), "{} {mass}", stem.value);
        let over = if wet { gleyed } else { draining } * mass;
        // Stress grows evenly from the middle of the section to the strength at its edge.
        const STRIPS: usize = 4000;
        let strip = thick / STRIPS as f64;
        let section: f64 = (0..STRIPS).map(|number| {
            let up = (number as f64 + 0.5) * strip - thick / 2.0;
            2.0 * up * up * (thick * thick / 4.0 - up * up).sqrt() * strip / (thick / 2.0)
        }).sum();
        let snaps = 1e6 * strength * section;
        let by_law = pulls_at(
            tips_over(species, soil, stem).unwrap(),
            stem_breaks(species, metres(thick)).unwrap(),
            [plain(scatter), plain(site)],
            metres(sling),
        ).unwrap().least().value;
        let arm = if sling < 1.0 { 1.0 } else { sling };
        let least = (over * scatter * site).min(0.67 * snaps) / arm;
        prop_assert!(close(by_law, least, 1e-4, 0.0), "{by_law} {least}");
    }

    #[test]
    fn a_higher_sling_a_thinner_and_a_shorter_tree_never_hold_more(
        row in select(ROWS.as_slice()), thick in 0.06..0.6_f64, tall in 3.0..50.0_f64, less in 0.8..1.0_f64,
        sling in 0.0..4.0_f64,
    ) {
        let at = |thick: f64, tall: f64, sling| {
            let stem = stem_mass(row.0, metres(thick), metres(tall)).unwrap();
            let over = tips_over(row.0, Soil::Gleyed, stem).unwrap();
            let breaks = stem_breaks(row.0, metres(thick)).unwrap();
            pulls_at(over, breaks, [plain(1.0), plain(1.0)], metres(sling)).unwrap().least().value
        };
        let here = at(thick, tall, sling) * (1.0 + 1e-12);
        prop_assert!(at((thick * less).max(0.05), tall, sling) <= here);
        prop_assert!(at(thick, tall * less, sling) <= here && at(thick, tall, sling / less) <= here);
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_tree_gives_an_error_or_a_number_whatever_comes_in(
        row in select(ROWS.as_slice()), one in any(), two in any(), three in any(), four in any(), five in any(),
    ) {
        let thick = (0.05..=0.60).contains(&one);
        let answer = usual_height(metres(one)).map(|height| height.value);
        prop_assert!(is_lawful(answer, &[one], thick, counts), "{answer:?}");
        let answer = stem_mass(row.0, metres(one), metres(two)).map(|mass| mass.value);
        prop_assert!(is_lawful(answer, &[one, two], thick && two > 0.0 && two <= 50.0, counts), "{answer:?}");
        let answer = tips_over(row.0, Soil::Draining, kilograms(one)).map(|moment| moment.value);
        prop_assert!(is_lawful(answer, &[one], one >= 0.0, counts), "{answer:?}");
        let answer = stem_breaks(row.0, metres(one)).map(|moment| moment.value);
        prop_assert!(is_lawful(answer, &[one], thick, counts), "{answer:?}");
        let answer = pulls_at(torque(one), torque(two), [plain(three), plain(four)], metres(five)).map(|pulls| pulls.least().value);
        let within = [one, two, three, five].iter().all(|value| *value >= 0.0) && (0.0..=1.0).contains(&four);
        prop_assert!(is_lawful(answer, &[one, two, three, four, five], within, counts), "{answer:?}");
    }
}
