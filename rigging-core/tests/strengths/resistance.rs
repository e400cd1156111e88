//! What the library makes of a part, its knot, its condition and the way it is loaded.

use rigging_core::band::Band;
use rigging_core::quantity::Unit::{Kilonewton as KN, PoundForce as Lbf};
use rigging_core::strength::Strength;
use rigging_core::strength::condition::CONDITIONS;
use rigging_core::strength::item::{Figure, ITEMS, Material};
use rigging_core::strength::knot::KNOTS;
use rigging_core::strength::resistance::{LOADINGS, Part, Refused, Resistance};
use rigging_core::working::Known::{self, Memory, Published};

use crate::printed::PRINTED;
use crate::shares::{KEPT, LOADED, WEATHERED};
use crate::{found, item};

fn resistance(name: &str, knot: &str, condition: &str, loading: &str) -> Result<Resistance, Refused> {
    Part {
        item: item(name),
        knot: found(KNOTS, knot, |knot| knot.name),
        condition: found(CONDITIONS, condition, |condition| condition.name),
        loading: found(LOADINGS, loading, |loading| loading.name),
        pull: Band::exact(90_f64.to_radians()),
        stated: 12_000.0,
    }
    .resistance()
}

fn holds(name: &str, knot: &str, condition: &str, loading: &str) -> Band {
    let resistance = resistance(name, knot, condition, loading).unwrap();
    resistance.band.unwrap_or_else(|| panic!("{name}: {}", resistance.unknown))
}

#[test]
fn a_worn_knotted_rope_keeps_both_shares() {
    // A published wear test: 24 kN × 0.708 (knot, another 10 mm rope) × 0.553 (worn ÷ new, knotted) = 9.4 kN.
    let worn = found(CONDITIONS, "worn rope", |condition| condition.name).share().unwrap();
    assert_eq!((worn.low(), worn.typical(), worn.high()), (0.55, 0.69, 0.88));
    assert!((24.0 * 0.708 * 0.553 - 9.4_f64).abs() < 0.05);
    // The same product here, from the figure of the standard in place of 24 kN.
    let rope = holds("rope A nylon", "figure-eight", "worn rope", "straight");
    assert!((rope.low() - 22_000.0 * 0.66 * 0.55).abs() < 1e-6 && (rope.high() - 22_000.0 * 0.80 * 0.88).abs() < 1e-6);
}

#[test]
fn two_strands_are_two_and_a_basket_is_twice_the_cosine() {
    let one = holds("cord 7 mm", "double fisherman", "new", "straight");
    let two = holds("cord 7 mm", "double fisherman", "new", "two strands");
    assert_eq!(two.low(), 2.0 * one.low());
    // ASME B30.9, from memory: 2 cos(half the included angle).
    for (name, most) in [("basket 60", 60_f64), ("basket 90", 90.0), ("basket 120", 120.0)] {
        let basket = holds("sling nylon", "none", "new", name);
        assert!((basket.low() / 22_000.0 - 2.0 * (most / 2.0).to_radians().cos()).abs() < 5e-4, "{name}");
    }
}

#[test]
fn a_bolt_resists_along_the_rock_more_than_out_of_it_and_together_less() {
    let pulled = |low: f64, high: f64| {
        let bolt = Part {
            item: item("bolt"),
            knot: &KNOTS[0],
            condition: &CONDITIONS[0],
            loading: &LOADINGS[0],
            pull: Band::of(low.to_radians(), high.to_radians(), high.to_radians()),
            stated: 0.0,
        };
        bolt.resistance()
    };
    let at = |low: f64, high: f64| pulled(low, high).unwrap().band.unwrap();
    assert!((at(90.0, 90.0).low() - 25_000.0).abs() < 1e-6 && (at(0.0, 0.0).low() - 15_000.0).abs() < 1e-6);
    // By hand: (cos 45°/15)^(5/3) + (sin 45°/25)^(5/3) to the power −3/5 = 17.1 kN.
    assert!((at(45.0, 45.0).low() - 17_130.0).abs() < 20.0, "{:?}", at(45.0, 45.0));
    // Just off straight out it is least.
    assert!(at(0.0, 90.0).low() < 15_000.0 && at(0.0, 90.0).high() <= 25_000.1);
    // No direction is told as such, not as a bolt that holds nothing.
    for (low, high) in [(-1.0, 45.0), (45.0, 181.0)] {
        assert!(pulled(low, high).unwrap_err().why.contains("0 to 180°"), "{low}° to {high}°");
    }
}

#[test]
fn a_bolt_is_never_told_to_resist_more_than_in_its_weakest_direction() {
    // ACI 318, commentary, written out; EN 959: 15 kN out of the rock and 25 kN along it.
    let by_hand = |angle: f64| {
        let (out, along) = (angle.cos().max(0.0) / 15_000.0, angle.sin() / 25_000.0);
        (out.powf(5.0 / 3.0) + along.powf(5.0 / 3.0)).powf(-3.0 / 5.0)
    };
    for (low, high) in [(0.0, 179.0), (0.0, 90.0), (0.0, 3.0), (4.0, 5.0), (5.0, 60.0), (80.0, 130.0), (20.0, 20.0)] {
        let [low, high] = [low, high].map(f64::to_radians);
        let pull = Band::of(low, low, high);
        let bolt = Part {
            item: item("bolt"),
            knot: &KNOTS[0],
            condition: &CONDITIONS[0],
            loading: &LOADINGS[0],
            pull,
            stated: 0.0,
        };
        let band = bolt.resistance().unwrap().band.unwrap();
        let scan = (0..=20_000).map(|step| by_hand(low + (high - low) * f64::from(step) / 20_000.0));
        let (least, most) = scan.fold((f64::INFINITY, 0.0_f64), |(least, most), at| (least.min(at), most.max(at)));
        assert!(band.low() <= least * (1.0 + 1e-12) && band.low() > least * (1.0 - 1e-6), "{least} {band:?}");
        assert!((band.high() / most - 1.0).abs() < 1e-12, "{most} {band:?}");
    }
    // By hand: tan α = (15/25)^5 = 0.0778, α = 4.45°, and there 14.991 kN.
    assert!((by_hand(0.6_f64.powi(5).atan()) - 14_991.0).abs() < 1.0);
}

#[test]
fn the_figure_printed_on_a_part_is_told_as_it_stands_there() {
    let stated = |stated: f64| {
        let (knot, condition, loading) = (&KNOTS[0], &CONDITIONS[0], &LOADINGS[0]);
        Part { item: item("stated"), knot, condition, loading, pull: Band::exact(0.0), stated }.resistance()
    };
    let told = stated(12_000.0).unwrap();
    assert_eq!((told.figure.unwrap().force().value, told.band.unwrap()), (12_000.0, Band::exact(12_000.0)));
    for wrong in [0.0, -0.0, -5.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert!(stated(wrong).unwrap_err().why.contains("above 0"), "{wrong}");
    }
}

#[test]
fn a_factor_of_ropes_is_for_what_has_the_figure_of_a_rope() {
    let ropes: Vec<_> = ITEMS.iter().filter(|item| item.is_rope()).map(|item| item.name).collect();
    assert_eq!(ropes, ["rope A nylon", "rope A polyester", "rope B nylon", "rope B polyester"]);
}

#[test]
fn the_last_step_says_where_the_figure_is_from() {
    // What is printed on the part is the user's; how a bolt resists a slanted pull is from memory, so all of it is.
    for (name, known) in [
        ("stated", Known::Yours),
        ("bolt", Memory),
        ("connector", Published),
        ("pulley", Memory),
        ("harness", Published),
    ] {
        let told = resistance(name, "none", "new", "straight").unwrap();
        assert_eq!(told.steps.last().unwrap().source.known, known, "{name}");
    }
}

#[test]
fn what_the_trade_excludes_is_refused_with_the_reason() {
    let why = |name, knot, condition, loading| resistance(name, knot, condition, loading).unwrap_err().why;
    assert!(why("sling HMPE", "water", "new", "straight").contains("slips in HMPE"));
    assert!(why("rope A nylon", "munter", "new", "straight").contains("not a termination"));
    assert!(why("rope A nylon", "offset eight", "new", "straight").contains("capsizes"));
    // EN 564 speaks of 4 to 8 mm only.
    assert!(why("cord other", "none", "new", "straight").contains("4 to 8 mm"));
    assert!(why("connector A", "none", "new", "across").contains("no figure across"));
    assert!(why("connector locking", "none", "new", "gate open").contains("locks by itself"));
    assert!(why("connector", "bowline", "new", "straight").contains("a knot is tied in"));
    assert!(why("sling nylon", "none", "new", "two strands").contains("that of its loop"));
    assert!(why("rope A nylon", "none", "new", "gate open").contains("connectors"));
    assert!(why("rope A polyester", "figure-eight", "worn rope", "straight").contains("another material"));
    assert!(why("harness", "none", "wet nylon", "straight").contains("rope, cord or tape"));
    assert!(why("cord 6 mm", "figure-eight", "worn rope", "straight").contains("another material or form"));
}

#[test]
fn what_nobody_knows_has_no_figure_but_a_reason() {
    let unknown = |name, knot, condition, loading| {
        let resistance = resistance(name, knot, condition, loading).unwrap();
        assert_eq!(resistance.band, None, "{name}");
        resistance.unknown
    };
    for name in ["bolt found", "natural", "people", "unseen", "soft found", "ring found", "rope dynamic"] {
        assert!(!unknown(name, "none", "new", "straight").is_empty());
    }
    assert!(unknown("rope A nylon", "offset overhand", "new", "straight").contains("no percentage"));
    assert!(unknown("sling HMPE", "bowline", "new", "straight").contains("slips"));
    assert!(unknown("sling nylon", "none", "new", "edge").contains("pad it"));
    for (name, loading) in [("harness", "choked"), ("stated", "across"), ("stated", "gate open"), ("bolt", "edge")] {
        assert!(unknown(name, "none", "new", loading).contains("loaded so"), "{name} {loading}");
    }
    assert!(unknown("sling nylon", "none", "found", "straight").contains("cut it away"));
    assert!(unknown("rope A nylon", "figure-eight", "frozen", "straight").contains("halved"));
    // Rope, cord and tape end in a knot; a loop tied of two strands too.
    for name in ["rope A nylon", "cord 6 mm", "tape"] {
        for loading in ["straight", "two strands", "choked", "basket 60"] {
            assert!(unknown(name, "none", "new", loading).contains("without its knot"), "{name} {loading}");
        }
    }
    // No figure is stretched to a form in which the knot was not measured.
    for (name, knot) in [
        ("rope A nylon", "overhand sling"),
        ("rope A nylon", "girth sling"),
        ("rope A nylon", "girth pin"),
        ("cord 6 mm", "girth pin"),
        ("rope A nylon", "water"),
        ("cord 7 mm", "water"),
        ("sling nylon", "figure-eight"),
        ("sling nylon", "tensionless"),
        ("tape", "bowline"),
    ] {
        assert!(unknown(name, knot, "new", "straight").contains("not measured"), "{name} {knot}");
    }
    assert!(unknown("connector", "none", "found", "straight").contains("found in place"));
}

/// What a part holds by the tables here and nothing else, N: a figure, and what the knot, the condition and the way it
/// is loaded leave of it.
fn by_the_tables(part: &Part, figure: &Strength) -> [f64; 2] {
    if part.item.name == "stated" {
        return [part.stated; 2];
    }
    let (_, printed, unit, ..) = PRINTED.iter().find(|(name, ..)| *name == figure.name).unwrap();
    let figure = match unit {
        KN => 1000.0 * printed,
        // 0.453 592 37 kg × 9.806 65 m/s².
        Lbf => 4.448_221_615_260_5 * printed,
        _ => panic!("{} is no force", figure.name),
    };
    let Some(made) = part.item.made() else { return [figure; 2] };
    let knots = KEPT.iter().filter(|(name, material, ..)| {
        *name == part.knot.name && (*material == Material::Hmpe) == (made.material == Material::Hmpe)
    });
    // Without a knot all is kept.
    let knot = knots.map(|(.., low, high)| [*low, *high]).next().unwrap_or([100.0; 2]);
    let of = |table: &[(&str, f64, f64)], name: &str| {
        let (_, low, high) = table.iter().find(|row| row.0 == name).unwrap_or_else(|| panic!("{name}"));
        [*low, *high]
    };
    let shares = [knot, of(WEATHERED, part.condition.name), of(LOADED, part.loading.name)];
    shares.iter().fold([figure; 2], |held, share| [held[0] * share[0] / 100.0, held[1] * share[1] / 100.0])
}

#[test]
fn every_combination_is_the_product_of_the_tables_or_unknown_or_refused() {
    let mut told = 0;
    for item in ITEMS {
        for knot in KNOTS {
            for condition in CONDITIONS {
                for loading in LOADINGS {
                    let part = Part { item, knot, condition, loading, pull: Band::of(0.0, 1.0, 1.5), stated: 9000.0 };
                    match part.resistance() {
                        Ok(Resistance { band: Some(band), steps, figure: Some(figure), .. }) => {
                            told += 1;
                            assert!(!steps.is_empty() && band.high() <= 60_000.0, "{part:?} {band:?}");
                            let [low, high] = by_the_tables(&part, &figure);
                            let near = |one: f64, other: f64| (one / other - 1.0).abs() < 1e-12;
                            // A bolt, by the direction of the pull, has a test of its own.
                            let bolt = matches!(item.figure, Some(Figure::Bolt(..)));
                            assert!(bolt || near(band.low(), low) && near(band.high(), high), "{part:?} {band:?}");
                        }
                        Ok(resistance) => assert!(!resistance.unknown.is_empty()),
                        Err(refused) => assert!(refused.why.len() > 20),
                    }
                }
            }
        }
    }
    assert!(told > 1000, "{told}");
}
