use super::super::answer::End;
use super::super::{Entry, Question, Takes, WeakestPart};
use super::*;
use crate::quantity::{Force, kilonewton};
use approx::assert_relative_eq;
use proptest::prelude::*;
use std::f64::consts::PI;

fn metres(value: f64) -> Length {
    Length::new::<metre>(value)
}
fn girth_of(diameter: f64) -> Band<Length> {
    Band::exact(metres(PI * diameter))
}
/// A part of a kind, pulled level.
fn level(kind: Natural) -> NaturalAnchor {
    NaturalAnchor { kind, down: metres(0.0), ..NaturalAnchor::default() }
}
fn tree(diameter: f64) -> NaturalAnchor {
    let tree_height = Band::exact(metres(1.0 + 65.0 * diameter));
    NaturalAnchor { girth: girth_of(diameter), stands: Rooted::Wet, tree_height, ..level(Natural::Tree) }
}
fn block() -> NaturalAnchor {
    NaturalAnchor { long: metres(1.0), wide: metres(1.0), high: metres(1.0), ..level(Natural::Block) }
}
fn at_most(anchor: &NaturalAnchor) -> Band {
    let answer = anchor.solve().unwrap();
    let first = &answer.findings[0];
    assert!(first.at_most && first.end == End::Low, "{first:?}");
    first.band
}
fn standings(anchor: &NaturalAnchor) -> Vec<&'static str> {
    anchor.solve().unwrap().comparisons.iter().map(|row| row.standing.words()).collect()
}
fn says(anchor: &NaturalAnchor, words: &str) -> bool {
    anchor.solve().unwrap().remarks.iter().any(|remark| remark.contains(words))
}

#[test]
fn a_tree_that_stands_in_wet_ground_is_that_of_the_check_values() {
    // Row N1: × 0.58, the sling counted at 1 m; on a ledge × 0.3 of it, here × 0.25 at the low end.
    for (diameter, kilonewtons) in [(0.10, 1.8), (0.15, 5.4), (0.20, 11.9), (0.30, 36.0)] {
        let low = at_most(&tree(diameter)).low();
        assert_relative_eq!(low, kilonewtons * 1e3, max_relative = 0.02);
        let ledge = at_most(&NaturalAnchor { stands: Rooted::Thin, ..tree(diameter) });
        assert_relative_eq!(ledge.low(), 0.25 * low, max_relative = 1e-9);
    }
    // By hand: a lucky tree is held back by its stem, 0.67 × π/32 × 0.9 × 36 N/mm² × (0.3 m)³.
    assert_relative_eq!(at_most(&tree(0.3)).high(), 57_542.0, max_relative = 1e-3);
}

#[test]
fn a_block_of_a_metre_is_that_of_the_check_values() {
    // Row N2, with 0.45 to 0.65 of its box and 2500 to 2700 kg/m³ about it.
    let band = at_most(&block());
    assert_relative_eq!(band.typical(), 5.3e3, max_relative = 0.01);
    assert_relative_eq!(band.low(), 0.25 * 0.45 * 2500.0 * 9.80665, max_relative = 1e-12);
    assert_relative_eq!(band.high(), 0.60 * 0.65 * 2700.0 * 9.80665, max_relative = 1e-12);
}

#[test]
fn logs_and_buried_faces_are_those_of_the_check_values() {
    // Row N3.
    let log = NaturalAnchor { girth: girth_of(0.15), wide: metres(2.0), ..level(Natural::Log) };
    let band = at_most(&log);
    assert_relative_eq!(band.low(), 10e3, max_relative = 0.02);
    assert_relative_eq!(band.high(), 23e3, max_relative = 0.02);
    // Row N4, its typical ground.
    for (deep, kilonewtons) in [(0.50, 3.0), (0.575, 4.0)] {
        let face = NaturalAnchor { wide: metres(0.8), high: metres(deep), ..level(Natural::Buried) };
        assert_relative_eq!(at_most(&face).typical(), kilonewtons * 1e3, max_relative = 0.02);
        assert!(says(&face, "Not checked by the military table"));
    }
}

#[test]
fn a_deep_face_in_loam_is_told_by_both_bounds_the_lower_first() {
    let face = NaturalAnchor {
        ground: Ground::Loam,
        out: metres(1.5),
        down: metres(-1.0),
        girth: girth_of(0.2),
        wide: metres(0.8),
        high: metres(1.1),
        ..level(Natural::Buried)
    };
    let answer = face.solve().unwrap();
    let each: Vec<_> = answer.findings.iter().filter(|finding| finding.at_most).collect();
    assert_eq!(each.len(), 3);
    // By hand: 53.5 kN/m² on 0.2 × 0.8 m; ½ × 3 × 10 kN/m³ × 1.1² × 0.8 m.
    assert!(each[1].what.contains("table") && each[2].what.contains("wedge"));
    assert_relative_eq!(each[1].band.typical(), 53.5e3 * 0.16, max_relative = 1e-9);
    assert_relative_eq!(each[2].band.typical(), 14.52e3, max_relative = 1e-9);
    assert_relative_eq!(answer.findings[0].band.low(), each[1].band.low(), max_relative = 1e-12);
    // What is surely too much is more than either of them.
    let limit = answer.comparisons[0].limit.as_ref().unwrap().band;
    assert_eq!((limit.low(), limit.high()), (each[1].band.low(), each[2].band.high()));
    assert_eq!(NaturalAnchor { down: metres(1.0), ..face.clone() }.table_run(), None);
    assert_eq!(NaturalAnchor { high: metres(1.0), ..face }.table_run(), None);
}

#[test]
fn what_is_refused_is_refused_by_name_and_has_no_figure() {
    let dead = |stands| NaturalAnchor { stands, ..tree(0.3) };
    for (anchor, name) in [
        (dead(Rooted::Dead), "dead tree"),
        (dead(Rooted::Rotten), "rotten tree"),
        (dead(Rooted::Loose), "loose tree"),
        (NaturalAnchor { tree_kind: TreeKind::Other, ..tree(0.3) }, "another kind"),
        (tree(0.7), "thicker"),
        (NaturalAnchor { down: metres(10.0), ..tree(0.3) }, "too steep"),
        (NaturalAnchor { shape: Shape::Round, ..block() }, "rolls"),
        (level(Natural::Chockstone), "chockstone"),
        (NaturalAnchor { down: metres(-10.0), ..level(Natural::Buried) }, "too steep"),
    ] {
        let answer = anchor.solve().unwrap();
        assert!(answer.findings.iter().all(|finding| !finding.at_most), "{name}");
        assert!(answer.findings[0].what.contains("slips"), "{name}");
        for row in &answer.comparisons {
            assert!(matches!(row.standing, Standing::NotChecked(reason) if reason.contains(name)), "{name}: {row:?}");
        }
        assert!(says(&anchor, name), "{name}");
    }
}

#[test]
fn a_steep_pull_at_its_face_tips_a_block_back_before_it_lifts() {
    // By hand, moments about the rear edge: half its weight at half a metre, the rope a metre and 0.1 m from it.
    let steep = NaturalAnchor { out: metres(1.0), down: metres(-3.0), sling: metres(0.1), ..block() };
    let angle = 3.0_f64.atan();
    let answer = steep.solve().unwrap();
    let tips = answer.findings.iter().find(|finding| finding.what.contains("tips back")).unwrap();
    let weight = 0.45 * 2500.0 * 9.80665;
    assert_relative_eq!(tips.band.low(), 0.5 * weight / (angle.sin() - 0.1 * angle.cos()), max_relative = 1e-9);
    assert!(at_most(&steep).high() < 0.65 * 2700.0 * 9.80665 / angle.sin());
}

#[test]
fn a_chockstone_drawn_out_of_its_taper_is_a_no() {
    for seating in [Seating::Into, Seating::Along] {
        let stone = NaturalAnchor { seating, ..level(Natural::Chockstone) };
        assert_eq!(standings(&stone), ["not checked"; 2]);
    }
    let out = NaturalAnchor { seating: Seating::Out, ..level(Natural::Chockstone) };
    assert_eq!(standings(&out), ["above limit"; 2]);
    assert!(says(&out, "No: chockstone"));
}

#[test]
fn what_cannot_hold_people_who_hang_still_is_told_no() {
    let small = NaturalAnchor { long: metres(0.4), wide: metres(0.4), high: metres(0.4), ..block() };
    assert_eq!(standings(&small), ["above limit"; 2]);
    assert!(says(&small, "No: even the least weight"));
    // A mean block holds people at rest and perhaps not in a slip; a large one is still no yes.
    assert_eq!(standings(&block()), ["range crosses limit", "not checked"]);
    let large = NaturalAnchor { long: metres(4.0), wide: metres(4.0), high: metres(4.0), ..block() };
    assert_eq!(standings(&large), ["not checked"; 2]);
    assert!(says(&large, "That is not a yes"));
}

#[test]
fn what_floats_or_slides_by_itself_holds_nothing() {
    let afloat = NaturalAnchor {
        seating: Seating::Along,
        under_water: Band::exact(Ratio::new::<ratio>(1.0)),
        long: metres(3.0),
        ..level(Natural::Log)
    };
    assert_eq!(at_most(&afloat).low(), 0.0);
    assert!(says(&afloat, "floats"));
    let steep = NaturalAnchor { falls: Ratio::new::<ratio>(0.7), ..block() };
    assert_eq!(at_most(&steep).high(), 0.0);
    assert_eq!(standings(&steep), ["above limit"; 2]);
    let covered = NaturalAnchor { under_water: Band::exact(Ratio::new::<ratio>(1.0)), ..block() };
    assert_relative_eq!(at_most(&covered).low() / at_most(&block()).low(), 1.5 / 2.5, max_relative = 1e-12);
}

#[test]
fn a_log_pressed_into_its_place_only_breaks_and_one_that_lies_there_slides() {
    let log = NaturalAnchor { long: metres(3.0), ..level(Natural::Log) };
    let lies = NaturalAnchor { seating: Seating::Along, ..log.clone() };
    assert_eq!(log.solve().unwrap().findings.iter().filter(|finding| finding.at_most).count(), 1);
    assert!(at_most(&lies).low() < at_most(&log).low());
    assert!(says(&lies, "What gives way first: it slides off."));
}

#[test]
fn a_sling_above_the_block_is_refused() {
    let high = NaturalAnchor { sling: metres(1.01), ..block() };
    assert!(high.solve().unwrap_err().to_string().contains("height of the sling"));
}

#[test]
fn only_what_matters_is_asked() {
    let asked = |kind: &'static str| -> Vec<&'static str> {
        let mut question = Question::named("natural anchor").unwrap();
        question.set("kind", &Entry::Choice(kind)).unwrap();
        let fields = question.fields().into_iter();
        fields.filter(|field| field.matters).map(|field| field.about.name).skip(3).collect()
    };
    let people = ["people", "body_kg", "kit_kg", "suit_water_kg"];
    let with_people = |own: &[&'static str]| [own, &people].concat();
    assert_eq!(asked("tree"), with_people(&["sling_m", "girth_m", "tree", "stands", "tree_height_m"]));
    assert_eq!(
        asked("block"),
        with_people(&[
            "sling_m",
            "long_m",
            "wide_m",
            "high_m",
            "shape",
            "cubic_metre_kg",
            "under_water",
            "contact",
            "falls"
        ])
    );
    assert_eq!(asked("log"), with_people(&["girth_m", "wide_m", "seating"]));
    assert_eq!(asked("chockstone"), with_people(&["seating"]));
    assert_eq!(asked("buried"), with_people(&["girth_m", "wide_m", "high_m", "ground"]));
}

#[test]
fn the_load_points_where_the_rope_runs() {
    let answer = NaturalAnchor { out: metres(1.0), down: metres(1.0), ..tree(0.3) }.solve().unwrap();
    let slip = answer.findings.iter().find(|finding| finding.what.contains("slips")).unwrap();
    // Out and down by the same length: 45° from plumb.
    assert_relative_eq!(slip.pull.unwrap(), PI / 4.0, max_relative = 1e-12);
    assert_eq!(answer.states[3].band, slip.band);
}

#[test]
fn a_rig_that_hangs_on_a_natural_part_is_never_below_a_limit() {
    let answer = NaturalAnchor::default().solve().unwrap();
    assert!(answer.usual.iter().all(|row| !row.what.contains("anchor")), "no figure of a bolt beside a tree");
    let parts = WeakestPart::carrying(&answer.carried.unwrap()).solve().unwrap();
    assert!(parts.comparisons.iter().any(|row| matches!(row.standing, Standing::NotChecked(_))));
    let whole = &parts.comparisons[0];
    assert_ne!(whole.standing, Standing::BelowLimit, "{whole:?}");
}

/// Whether ground that gives no pull back, and friction of at most so much, can keep a block at rest: forces and moments
/// in axes of gravity, about the lower edge toward the load.
fn stays(block: &NaturalAnchor, weight: f64, friction: f64, pull: f64) -> bool {
    let slope = block.falls.value.atan();
    let turn = |[along, square]: [f64; 2]| {
        [along * slope.cos() + square * slope.sin(), square * slope.cos() - along * slope.sin()]
    };
    let rope = -(block.down / block.out).value.atan();
    let force = [pull * rope.cos(), pull * rope.sin() - weight];
    let (along, square) = (turn([1.0, 0.0]), turn([0.0, 1.0]));
    let dot = |a: [f64; 2], b: [f64; 2]| a[0] * b[0] + a[1] * b[1];
    let (presses, drags) = (-dot(force, square), dot(force, along));
    let moment = |at: [f64; 2], force: [f64; 2]| at[0] * force[1] - at[1] * force[0];
    let centre = turn([-block.long.value / 2.0, block.high.value / 2.0]);
    let sling = turn([0.0, block.sling.value]);
    // Above 0: it turns back onto the ground behind the edge.
    let back = moment(centre, [0.0, -weight]) + moment(sling, [pull * rope.cos(), pull * rope.sin()]);
    presses >= 0.0 && drags <= friction * presses && back >= 0.0
}

proptest! {
    #[test]
    fn a_block_stays_until_the_pull_that_is_found_and_not_beyond(
        long in 0.3..3.0_f64, high in 0.3..3.0_f64, sling in 0.05..1.0_f64, falls in -0.5..0.3_f64,
        down in -2.0..2.0_f64, friction in 0.15..0.6_f64, share in 0.0..=1.0_f64,
    ) {
        let block = NaturalAnchor {
            long: metres(long),
            high: metres(high),
            sling: metres(sling * high),
            falls: Ratio::new::<ratio>(falls),
            out: metres(2.0),
            down: metres(down),
            ..block()
        };
        let mut point = block.inputs().map(|input| input.typical());
        (point[6], point[7]) = (share, friction);
        let weight = block.weight(&point).unwrap().value;
        let ways = block.ways(&point).unwrap();
        let least = ways.into_iter().flatten().fold(f64::INFINITY, f64::min);
        if least == 0.0 {
            prop_assert!(!stays(&block, weight, friction, 1e-9 * weight));
        } else if least < 1e6 * weight {
            prop_assert!(stays(&block, weight, friction, least * (1.0 - 1e-9)), "{least}");
            prop_assert!(!stays(&block, weight, friction, least * (1.0 + 1e-9)), "{least}");
        }
    }
}

/// A natural anchor of any kind with every field set to some place between its bounds.
fn any_anchor() -> impl Strategy<Value = Question> {
    prop::collection::vec((0.0..=1.0, 0.0..=1.0, 0_usize..60), 22).prop_map(|shares| {
        let mut question = Question::named("natural anchor").unwrap();
        for (field, (one, other, choice)) in question.fields().into_iter().zip(shares) {
            let at = |share: f64, least: f64, most: f64| {
                least + if choice % 2 == 0 { share } else { share.powi(6) } * (most - least)
            };
            let entry = match field.about.takes {
                Takes::One { least, most } => {
                    let value = at(one, least, most);
                    Entry::One(if field.about.kind == Kind::Count { value.round() } else { value })
                }
                Takes::Range { least, most } => {
                    let (a, b): (f64, f64) = (at(one, least, most), at(other, least, most));
                    Entry::Range(Band::of(a, f64::midpoint(a, b), b))
                }
                Takes::Choice(choices) => Entry::Choice(choices[choice % choices.len()].name),
            };
            question.set(field.about.name, &entry).unwrap();
        }
        question
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_natural_part_is_ever_below_a_limit(question in any_anchor()) {
        if let Ok(answer) = question.answer() {
            prop_assert_eq!(answer.comparisons.len(), 2);
            for row in answer.comparisons.iter().chain(&answer.usual) {
                prop_assert_ne!(row.standing, Standing::BelowLimit, "{:?}", row);
            }
            for finding in answer.findings.iter().filter(|finding| finding.end == End::Low) {
                prop_assert!(finding.at_most, "{}", finding.what);
            }
            // Surely no only where the least load is above the most that any check leaves.
            for row in &answer.comparisons {
                if row.standing == Standing::AboveLimit {
                    let limit = row.limit.as_ref().unwrap();
                    prop_assert!(row.load.low() > limit.band.high());
                }
            }
        }
    }
}

#[test]
fn no_tree_is_shown_as_a_strength() {
    let json = serde_json::to_string(&tree(0.3).solve().unwrap()).unwrap();
    assert!(json.contains("at_most_n") && !json.contains("at_least"), "{json}");
    assert!(Force::new::<kilonewton>(5.0).value < at_most(&tree(0.3)).low());
}
