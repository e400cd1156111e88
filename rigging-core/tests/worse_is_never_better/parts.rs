//! Parts and their figures: what is weaker, worn, of other stuff or not known clears nothing.

use crate::{answer, gravest, rank, up_to};
use rigging_core::limit::Standing;

/// A figure of rope is none of what a bend carries, which may be far less than the rope.
#[test]
fn a_figure_of_rope_stands_beside_the_rope_where_it_carries_most() {
    for json in [
        r#"{"question": "bend", "anchor": "known", "limit": "rope A tied", "design_factor": 4, "turn_1_rad": 0.5236}"#,
        r#"{"question": "raise and lower", "anchor": "known", "limit": "rope A tied", "design_factor": 8,
            "state": "still", "fixed_on": "each", "bends": 2, "bend_1": "stays", "over_1": "connector",
            "turn_1_rad": 0.9, "bend_2": "stays", "over_2": "connector", "turn_2_rad": 0.9}"#,
    ] {
        let answer = answer(json);
        // A hand is none of rope.
        let rows: Vec<_> = answer.comparisons.iter().filter(|row| !row.what.starts_with("for the hand")).collect();
        let [row] = rows[..] else { panic!("{rows:?}") };
        assert_eq!((row.load, row.standing), (answer.carried.unwrap().rope, Standing::RangeCrosses), "{json}");
    }
}

#[test]
fn a_thinner_tree_holds_no_more() {
    // Row by row, the thinnest that was tested just within and just not: its low end is not known then.
    let rows = |least: f64| {
        answer(&format!(r#"{{"question": "natural anchor", "kind": "tree", "girth_m": [{least}, 0.2, 0.22]}}"#))
            .comparisons
    };
    for (tested, thinner) in rows(0.16).iter().zip(&rows(0.15)) {
        assert!(rank(thinner.standing) >= rank(tested.standing), "{}: {:?}", thinner.what, thinner.standing);
        let part = &thinner.limit.as_ref().unwrap().part;
        assert!(part.contains("a tree of the thickest girth entered"), "{part}");
    }
    let tree =
        |girth: f64| gravest(&format!(r#"{{"question": "natural anchor", "kind": "tree", "girth_m": {girth}}}"#));
    // The thinnest that was tested has a girth of 0.15 m and a little.
    let grave: Vec<u8> = [0.10, 0.12, 0.15, 0.16, 0.17].map(tree).to_vec();
    assert!(grave.iter().all(|rank| *rank == grave[3]) && grave[3] == rank(Standing::AboveLimit), "{grave:?}");
    let stem = r#"{"question": "natural anchor", "kind": "tree", "girth_m": 0.1}"#;
    let answer = answer(stem);
    assert!(answer.comparisons.iter().any(|row| {
        row.limit.as_ref().is_some_and(|limit| limit.part.contains("the thinnest tree that was tested"))
    }));
}

#[test]
fn a_block_that_may_pull_through_its_ring_is_not_below_a_limit() {
    let chain = |block: f64, ring: f64| {
        answer(&format!(
            r#"{{"question": "weakest part", "anchor_1": "bolt", "whose_factor": "own", "design_factor": 1,
                "block_m": {block}, "ring_m": {ring}}}"#
        ))
        .comparisons[0]
            .standing
    };
    assert_eq!(chain(0.05, 0.04), Standing::BelowLimit);
    assert_eq!(chain(0.0, 0.04), Standing::BelowLimit, "not measured, which is said");
    for block in [0.02, 0.04, 0.047] {
        assert_eq!(chain(block, 0.04), Standing::NotChecked("the block may pull through its ring"), "{block}");
    }
}

#[test]
fn a_strand_of_a_closed_loop_is_half_a_sling_and_holds_the_catch_too() {
    let triangle = |with: &str| {
        format!(
            r#"{{"question": "anchor legs", "rig": "triangle", "right_higher_m": 0, "state": "still", "anchor": "known", {with}}}"#
        )
    };
    let nylon = triangle(
        r#""leg_material": "nylon loop", "apart_m": 0.6, "down_m": 0.3, "people": 3, "limit": "sewn sling",
            "rope_m": 30, "design_factor": 5"#,
    );
    // 22 kN is what both strands hold together: 11 kN over 5 is less than the 2.8 kN of one strand.
    let told = answer(&nylon);
    let row = told.comparisons.iter().find(|row| row.what.contains("in the loop")).unwrap();
    assert!((row.load.high() / (2.0 * up_to(&nylon, "in the loop")) - 1.0).abs() < 1e-9);
    assert_eq!(row.standing, Standing::RangeCrosses);
    // The catch on the one anchor that is left comes through two strands.
    let cord =
        answer(&triangle(r#""leg_material": "6 mm cord", "apart_m": 0.5, "down_m": 0.4, "people": 1, "rope_m": 5"#));
    let caught = cord.carried.unwrap().anchor.high();
    let row = cord.usual.iter().find(|row| row.what.contains("in the loop")).unwrap();
    assert!(row.load.high() >= caught / 2.0 - 1e-6, "{} {caught}", row.load.high());
}

#[test]
fn a_figure_of_other_stuff_clears_nothing() {
    let tail = |made: &str| {
        format!(
            r#"{{"question": "slip", "what": "cow's tail", "sling": "{made}", "above_m": 0, "anchor": "known",
                "limit": "sewn sling", "design_factor": 1}}"#
        )
    };
    let legs = |made: &str| {
        format!(
            r#"{{"question": "anchor legs", "leg_material": "{made}", "anchor": "known", "limit": "sewn sling",
                "design_factor": 2}}"#
        )
    };
    let rope = |question: &str, with: &str| {
        format!(
            r#"{{"question": "{question}", {with}, "anchor": "known", "limit": "rope A tied", "design_factor": 1}}"#
        )
    };
    let thin = |question: &str, millimetres: f64| {
        let with = format!(r#""setting": "sag", "diameter_m": {}"#, millimetres / 1000.0);
        let with = if question == "line" { with } else { with.replace(r#""setting": "sag", "#, "") };
        rope(question, &with)
    };
    let clears = |json: &str| answer(json).comparisons.iter().any(|row| row.standing == Standing::BelowLimit);
    // What each figure is of, and something else: EN 1891 begins at 8.5 mm.
    for (of, other) in [
        (tail("nylon"), tail("cord")),
        (tail("nylon"), tail("dynamic rope")),
        (legs("nylon loop"), legs("6 mm cord")),
        (thin("abseil", 8.5), thin("abseil", 8.4)),
        (thin("line", 8.5), thin("line", 8.4)),
        (rope("slip", r#""rope": "canyon", "clear_m": 0"#), rope("slip", r#""rope": "used dynamic", "clear_m": 0"#)),
        (thin("abseil", 9.0), thin("abseil", 9.0).replace("rope A tied", "sewn sling")),
        (
            rope("slip", r#""what": "anchor fails", "sling": "cord", "clear_m": 0"#),
            rope("slip", r#""what": "anchor fails", "sling": "nylon", "clear_m": 0"#)
                .replace("rope A tied", "sewn sling"),
        ),
    ] {
        assert!(clears(&of), "{of}");
        assert!(!clears(&other), "{other}");
    }
    // Cord of 6 mm holds 7.2 kN by EN 564, without a knot: half of that is passed, whatever else is asked.
    let usual = answer(&legs("6 mm cord")).usual;
    let leg = usual.iter().find(|row| row.what == "in the leg that is pulled hardest").unwrap();
    assert_eq!((leg.limit.as_ref().unwrap().figure, leg.standing), (7200.0, Standing::RangeCrosses));
}

#[test]
fn who_strikes_the_ground_first_is_not_below_a_limit() {
    let fall = |clear: f64| {
        format!(
            r#"{{"question": "slip", "what": "anchor fails", "drop_m": 2, "clear_m": {clear}, "anchor": "known",
                "limit": "own", "own_limit_n": 40000}}"#
        )
    };
    assert_eq!(gravest(&fall(0.0)), rank(Standing::BelowLimit));
    assert_eq!(gravest(&fall(20.0)), rank(Standing::BelowLimit));
    assert_eq!(gravest(&fall(1.9)), rank(Standing::NotChecked("")));
}

/// By hand: of rock of 2500 kg/m³ water with silt, 1100 kg/m³, leaves 1400/2500.
#[test]
fn a_block_is_not_held_down_by_what_brown_water_carries() {
    let block = |under: f64| {
        format!(
            r#"{{"question": "natural anchor", "kind": "block", "long_m": 1.2, "wide_m": 1, "high_m": 0.8,
                "cubic_metre_kg": 2500, "under_water": {under}}}"#
        )
    };
    let holds = |under: f64| answer(&block(under)).findings.iter().map(|found| found.band.low()).next().unwrap();
    assert!((holds(1.0) / holds(0.0) - 1400.0 / 2500.0).abs() < 1e-9, "{} {}", holds(1.0), holds(0.0));
}

#[test]
fn a_part_that_is_too_weak_while_new_is_no_better_made_worse() {
    let parts = |with: &str| {
        format!(
            r#"{{"question": "weakest part", "anchor_1": "bolt", "rope_1": "rope A nylon", "rope_1_knot": "figure-eight",
                "rope_1_condition": "new", "state": "still", "factor": "12 fibre rope", "anchor_3": "cord 4 mm",
                "anchor_3_knot": "double fisherman"{with}}}"#
        )
    };
    assert_eq!(gravest(&parts("")), rank(Standing::AboveLimit));
    for worse in [r#""condition": "frozen""#, r#""condition": "found""#, r#""loaded": "edge""#] {
        let answer = answer(&parts(&format!(", {}", worse.replacen('"', "\"anchor_3_", 1))));
        assert_eq!(answer.comparisons[0].standing, Standing::AboveLimit, "{worse}");
        let row = answer.comparisons.iter().find(|row| row.what.contains("one anchor (3)")).unwrap();
        assert!(row.limit.as_ref().unwrap().part.ends_with("counted at best"), "{row:?}");
        assert!(answer.remarks.iter().any(|remark| remark.starts_with("Not known: at one anchor (3)")));
    }
    let joined = parts("").replace("double fisherman", "offset overhand");
    assert_eq!(gravest(&joined), rank(Standing::AboveLimit));
    // What would be little for the part while new is not known of it.
    let strong = parts(r#", "anchor_3_condition": "frozen""#).replace("cord 4 mm", "rope A nylon");
    let row = answer(&strong).comparisons.into_iter().find(|row| row.what.contains("one anchor (3)")).unwrap();
    assert!(matches!(row.standing, Standing::NotChecked(why) if why.starts_with("frozen")) && row.limit.is_none());
}

/// One person who hangs still, with this part at the one anchor and this one as the rope.
fn json_with(anchor: &str, rope: &str) -> String {
    format!(
        r#"{{"question": "weakest part", "anchor_1": "{anchor}", "anchor_2": "none", "anchor_3": "none",
            "rope_1": "{rope}", "rope_1_knot": "figure-eight", "rope_2": "none", "rope_1_condition": "new", "stated_n": 40000, "state": "still",
            "whose_factor": "own", "design_factor": 1, "people": 1}}"#
    )
}

#[test]
fn a_chain_without_its_rope_or_what_the_rope_runs_through_is_not_below_a_limit() {
    let whole = |with: &str| {
        let json = format!(
            r#"{{"question": "weakest part", "anchor_1": "bolt", "anchor_2": "none", "anchor_3": "none", "rope_2": "none",
                "rope_1_condition": "new", "state": "still", {with}}}"#
        );
        answer(&json).comparisons[0].standing
    };
    let not_entered = |standing, what: &str| matches!(standing, Standing::NotChecked(why) if why.contains(what));
    assert_eq!(whole(r#""people": 1"#), Standing::BelowLimit);
    assert!(not_entered(whole(r#""rope_1": "none""#), "no rope was entered"));
    let below = r#""meets": "held below", "whose_factor": "own", "design_factor": 1.5"#;
    assert!(not_entered(whole(&format!(r#"{below}, "point_1": "none""#)), "runs through"));
    assert_eq!(whole(below), Standing::BelowLimit);
    // A link at the anchor holds in nothing, nor is a part of metal a rope, whatever is printed on it.
    for part in ["screw link", "connector locking", "stated"] {
        let link = json_with(part, "rope A nylon");
        assert!(not_entered(answer(&link).comparisons[0].standing, "in the rock"), "{part}");
    }
    assert!(not_entered(answer(&json_with("bolt", "stated")).comparisons[0].standing, "no rope was entered"));
    assert_eq!(answer(&json_with("bolt", "rope A nylon")).comparisons[0].standing, Standing::BelowLimit);
    assert_eq!(whole(r#""point_1": "none""#), Standing::BelowLimit);
}

#[test]
fn a_dead_tree_crosses_where_a_living_one_does() {
    let tree = |stands: &str, girth: f64| {
        gravest(&format!(
            r#"{{"question": "natural anchor", "kind": "tree", "girth_m": {girth}, "stands": "{stands}"}}"#
        ))
    };
    for girth in [0.2, 0.25, 0.3, 0.4, 0.5, 0.7, 1.0, 1.5] {
        let most = ["deep", "wet", "thin"].map(|stands| tree(stands, girth)).into_iter().max().unwrap();
        assert!(["dead", "rotten"].iter().all(|stands| tree(stands, girth) >= most), "{girth}");
    }
    let crosses =
        |stands: &str| [0.3, 0.4, 0.5].iter().any(|girth| tree(stands, *girth) == rank(Standing::RangeCrosses));
    assert!(crosses("deep") && crosses("dead"));
}

#[test]
fn a_rope_that_saws_along_a_lip_is_not_below_a_limit() {
    let swing = |lip: f64, factor: f64| {
        answer(&format!(
            r#"{{"question": "slip", "what": "swing", "anchor": "known", "limit": "rope A tied", "clear_m": 0,
                "design_factor": {factor}, "lip_m": {lip}}}"#
        ))
    };
    let stands = |lip, factor| swing(lip, factor).comparisons[0].standing;
    assert!(matches!(stands(1.0, 5.0), Standing::NotChecked(why) if why.contains("saws")));
    assert_eq!(stands(0.0, 5.0), Standing::BelowLimit);
    assert_eq!(stands(1.0, 20.0), stands(0.0, 20.0));
    // The wall it swings to does not hide the lip.
    let says = |what: &str| swing(1.0, 5.0).remarks.iter().any(|remark| remark.contains(what));
    assert!(says("saws along the lip") && says("The wall is met"));
}

#[test]
fn a_rope_that_is_divided_by_little_says_so() {
    let says = |question: &str, limit: &str, factor: f64| {
        let json = format!(
            r#"{{"question": "{question}", "anchor": "known", "limit": "{limit}", "design_factor": {factor}}}"#
        );
        answer(&json).remarks.iter().any(|remark| remark.contains("below 5 is little for rope"))
    };
    for question in ["abseil", "anchor legs", "bend", "line", "guided abseil", "slip", "raise and lower"] {
        for limit in ["rope A tied", "rope B tied", "sewn sling", "cord 6 mm", "cord 7 mm"] {
            assert!(says(question, limit, 4.9) && !says(question, limit, 5.0), "{question} {limit}");
        }
        assert!(!says(question, "bolt axial", 2.0), "{question}");
    }
}
