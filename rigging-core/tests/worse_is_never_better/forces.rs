//! Forces: at every place, in every state and in every way that a rig has.

use crate::{answer, gravest, rank, up_to, up_to_of};
use rigging_core::limit::Standing;
use rigging_core::question::{Bend, Question, WeakestPart};

#[test]
fn judged_on_a_slip_raising_in_jerks_is_judged_too() {
    let haul = |state: &str, limit: f64| {
        format!(
            r#"{{"question": "raise and lower", "bends": 1, "bend_1": "stays", "over_1": "connector",
                "turn_1_rad": 3.141592653589793, "state": "{state}", "anchor": "known", "limit": "own",
                "own_limit_n": {limit}, "hard_pull_n": 50}}"#
        )
    };
    let bend = |state: &str, limit: f64| {
        format!(
            r#"{{"question": "bend", "runs": "raising", "state": "{state}", "anchor": "known", "limit": "own",
                "own_limit_n": {limit}}}"#
        )
    };
    for limit in [5e3, 9.6e3, 11.5e3, 14e3, 20e3] {
        assert!(gravest(&haul("slip", limit)) >= gravest(&haul("jerky", limit)), "haul, {limit}");
        assert!(gravest(&bend("slip", limit)) >= gravest(&bend("jerky", limit)), "bend, {limit}");
    }
    // By hand: a connector at both ends of its range, raised in jerks of 3.2 times the weight of 117 kg: 3.2 W (1 + e^(μ π)).
    let most = answer(&haul("slip", 20e3)).comparisons[0].load.high();
    assert!((most - 15.67e3).abs() < 0.01e3, "{most}");
}

#[test]
fn what_is_left_of_two_bends_is_pulled_wherever_the_person_swings() {
    // To and fro by 90°: plumb below the second the rope would run straight through and pull at nothing. But bend 1 let
    // go with the person 3 m to the side and 0.5 m down; the rope comes tight far from plumb.
    let json = r#"{"question": "bend", "bends": 2, "over_1": "connector", "over_2": "connector", "turn_1_rad": -1.5707963,
        "turn_2_rad": 1.5707963, "rope_above_m": 3, "rope_below_m": 0.5, "state": "still", "anchor": "known",
        "limit": "own", "own_limit_n": 5000}"#;
    let answer = answer(json);
    let of = |words: &str| answer.findings.iter().find(|found| found.what.contains(words)).unwrap().band.high();
    let row = answer.comparisons.iter().find(|row| row.what.ends_with("once bend 1 has let go")).unwrap();
    // By hand: rope of 3.5 m, the person 3 m aside and 0.5 m below the second bend: 80.5° from plumb, as far as it swings.
    let by_hand = 2.0 * of("in the rope then") * (3.0_f64.atan2(0.5) / 2.0).sin();
    assert!((row.load.high() / by_hand - 1.0).abs() < 1e-7, "{} {by_hand}", row.load.high());
    assert_ne!(row.standing, Standing::BelowLimit);
}

#[test]
fn what_a_line_makes_of_its_parts_is_that_of_the_whole_crossing() {
    let line = |place: f64| format!(r#"{{"question": "line", "setting": "pre-tension", "place": {place}}}"#);
    // Near an anchor the line gives little: a slip there pulls nearly twice as hard at the harness as in the middle.
    let of = |place: f64| answer(&line(place)).carried.unwrap();
    let worst = [0.1, 0.2, 0.8, 0.9].map(of).map(|carried| carried.hung.high()).into_iter().fold(0.0, f64::max);
    for place in [0.1, 0.3, 0.5, 0.7] {
        let carried = of(place);
        assert!(carried.hung.high() >= worst * (1.0 - 1e-9), "{place}: {} of {worst}", carried.hung.high());
    }
    // Tied between: the bay in the middle carries more than any anchor gets.
    let tied = |place: f64| {
        format!(
            r#"{{"question": "line", "span_m": 18.2, "far_higher_m": 0.1, "intermediates": 2, "meets": "tied",
                "held": "running", "way": "sideways", "setting": "pre-tension", "drop_m": 0.3, "place": {place},
                "first_at": 0.41, "second_at": 0.56, "pre_tension_n": 1479.394, "stiffness_n": 30000}}"#
        )
    };
    let beside = up_to(&tied(0.5), "in the line beside the person");
    let told = answer(&tied(0.21));
    assert!(told.carried.unwrap().rope.high() >= beside * (1.0 - 1e-9));
    let row = told.comparisons.iter().find(|row| row.what == "in the line at the worst place of the crossing").unwrap();
    assert!(row.load.high() >= beside * (1.0 - 1e-9));
}

#[test]
fn a_rope_that_sticks_at_the_end_of_a_pull_weighs_what_has_followed() {
    let stuck = |by: &str| {
        let json = format!(
            r#"{{"question": "pull-down", "pulled_by": "{by}", "height_m": 100, "rising_m": 100, "diameter_m": 0.011,
                "cord_diameter_m": 0.005, "edge_1_on": "neither"}}"#
        );
        up_to(&json, "if it sticks")
    };
    // At its end all of the rope hangs below the ring, whichever it was pulled by.
    let [by_cord, by_rope] = ["cord", "rope"].map(stuck);
    assert!((by_cord / by_rope - 1.0).abs() < 1e-9, "{by_cord} {by_rope}");
}

#[test]
fn a_force_that_another_question_found_is_taken_over_whatever_it_is() {
    let found = answer(r#"{"question": "in the current", "flow": "faster"}"#).carried.unwrap();
    assert!(found.rope.high() > 100e3, "{}", found.rope.high());
    let taken = [Question::WeakestPart(WeakestPart::carrying(&found)), Question::Bend(Bend::carrying(&found))];
    for question in taken {
        let json = serde_json::to_string(&question).unwrap();
        assert_eq!(serde_json::from_str::<Question>(&json).unwrap(), question, "{json}");
    }
}

#[test]
fn a_hitch_at_the_anchor_carries_all_that_hands_let_go() {
    let haul = |limit: f64| {
        format!(
            r#"{{"question": "raise and lower", "state": "still", "anchor": "known", "limit": "own",
                "own_limit_n": {limit}, "bends": 2, "bend_1": "stays", "over_1": "ball bearing", "turn_1_rad": 3.1416,
                "bend_2": "with clamp", "over_2": "ball bearing", "turn_2_rad": 3.1416, "pullers": 1,
                "body_kg": [90, 92, 92], "kit_kg": 10, "suit_water_kg": 5, "wet": "no", "hard_pull_n": 300}}"#
        )
    };
    // By hand: while it is raised the anchor gets two strands of three; set down on a hitch, (92 + 10 + 5) g = 1049 N.
    let anchor = |limit: f64| {
        let rows = answer(&haul(limit)).comparisons.into_iter().filter(|row| !row.what.starts_with("for the hand"));
        rows.map(|row| rank(row.standing)).max()
    };
    assert!(anchor(1000.0) >= Some(rank(Standing::RangeCrosses)));
    assert_eq!(anchor(1060.0), Some(rank(Standing::BelowLimit)));
    let held = up_to(&haul(1000.0), "the load set down on a hitch");
    assert!((held - 107.0 * 9.80665).abs() < 1e-6, "{held}");
    assert!(answer(&haul(1000.0)).carried.unwrap().anchor.high() >= held);
    // Two strands hold the load; all is on one point, which gets the whole of it, or the hitch has an anchor of its own.
    let two = |fixed: &str| {
        let json = format!(
            r#"{{"question": "raise and lower", "state": "still", "rope_end": "anchor", "bends": 1, "bend_1": "with load",
                "over_1": "ball bearing", "fixed_on": "{fixed}", "body_kg": [90, 92, 92], "kit_kg": 10,
                "suit_water_kg": 5, "wet": "no"}}"#
        );
        up_to(&json, "the load set down on a hitch") / (107.0 * 9.80665)
    };
    assert!((two("one") - 1.0).abs() < 1e-6);
    // Stuck with everybody pulling, and then let go: three strands of what one hand of 300 N makes.
    let jammed = up_to_of(&answer(&haul(1000.0)).outcomes[0].findings, "the load set down on a hitch there, jammed");
    assert!((jammed - 900.0).abs() < 1.0, "{jammed}");
    let own = answer(&haul(1000.0).replace("\"bends\": 2", "\"bends\": 2, \"fixed_on\": \"each\""));
    assert!(own.findings.iter().any(|finding| finding.what.contains("hitch that the load is set down on")));
}

#[test]
fn what_is_above_a_limit_on_the_one_point_of_a_haul_stands_there_whatever_else_does() {
    // Jammed and pulled by five the point gets more than the limit at every end; what hangs there crosses it.
    let json = r#"{"question": "raise and lower", "bends": 1, "bend_1": "stays", "over_1": "ring", "turn_1_rad": 3.1416,
        "fixed_on": "one", "anchor": "known", "limit": "own", "own_limit_n": 3000, "design_factor": 1, "pullers": 5,
        "hard_pull_n": 500, "people": 1, "state": "still"}"#;
    let rows = answer(json).comparisons;
    let point = rows.iter().filter(|row| row.what.starts_with("on the one anchor point"));
    let standings: Vec<_> = point.map(|row| row.standing.words()).collect();
    assert_eq!(standings, ["range crosses limit", "above limit"]);
}

#[test]
fn a_line_that_leads_over_the_lip_says_so() {
    let across = |lip: f64| format!(r#"{{"question": "in the current", "tool": "diagonal", "to_hazard_m": {lip}}}"#);
    let leads =
        |lip: f64| answer(&across(lip)).remarks.iter().any(|remark| remark.starts_with("The line itself leads"));
    // Its far end is 8 m down, and legs reach 0.8 to 2 m farther.
    assert!(leads(0.0) && leads(5.0) && leads(9.9) && !leads(20.0));
    let left = |lip: f64| {
        let answer = answer(&across(lip));
        answer.findings.iter().find(|finding| finding.what.contains("water left")).unwrap().band.low()
    };
    assert_eq!(left(5.0), 0.0);
    // By hand: a straight line of √2 · 8 m, 5 % slack at most and a quarter of stretch (5 of 20 kN) or a little less, hangs
    // (8 + √(s² − 8²))/2 down.
    let bow = |longer: f64| (8.0 + (2.0 * 64.0 * longer.powi(2) - 64.0).sqrt()) / 2.0;
    let (least, most) = (20.0 - bow(1.05 * 1.25) - 2.0, 20.0 - bow(1.05 * 1.20) - 2.0);
    assert!(least < left(20.0) && left(20.0) < most, "{least} {} {most}", left(20.0));
    // A hand-line without a step down the banks hangs into a lip just below, both its ends holding.
    let hand_line = |lip: f64| {
        let json = format!(
            r#"{{"question": "in the current", "tool": "hand-line", "down_m": 0, "slack": [0.05, 0.1, 0.15], "to_hazard_m": {lip}}}"#
        );
        answer(&json).remarks.iter().any(|remark| remark.starts_with("The line itself leads"))
    };
    // By hand: half the root of 9.2² − 8² is 2.3 m, and legs reach 2 m.
    assert!(hand_line(4.0) && !hand_line(8.0));
    // Nobody is farther from the far bank than the near bank is.
    let far = up_to(r#"{"question": "in the current", "tool": "diagonal", "down_m": 0}"#, "from the far bank");
    assert!(far <= 8.0, "{far}");
}

/// A mass on two springs, followed from its fall to its first lowest place by velocity Verlet outside of this project:
/// 90 kg fall 0.6 m onto 8 m of line, 4 m higher at its far end, 2 % slack, EA 30 kN, a fifth of the way along: 6345 N.
#[test]
fn a_slip_on_a_sloping_line_pulls_as_the_fall_goes_and_not_as_it_hangs_later() {
    let line = |limit: f64| {
        format!(
            r#"{{"question": "line", "span_m": 8, "far_higher_m": 4, "place": 0.2, "setting": "slack", "slack": 0.02,
                "stiffness_n": 30000, "body_kg": 75, "kit_kg": 10, "suit_water_kg": 5, "wet": "no", "diameter_m": 0.006,
                "cows_tail_m": 0.6, "drop_m": 0, "anchor": "known", "limit": "own", "own_limit_n": {limit}}}"#
        )
    };
    let near = up_to(&line(5000.0), "on the near anchor, on a slip");
    assert!((near / 6345.0 - 1.0).abs() < 2e-3, "{near}");
    let at_the_place = answer(&line(5000.0)).comparisons[0].standing;
    assert_eq!(at_the_place, Standing::AboveLimit);
}

#[test]
fn a_longer_cows_tail_never_makes_a_crossing_easier() {
    let line = |tail: f64| {
        format!(
            r#"{{"question": "line", "span_m": 8, "setting": "slack", "slack": 0.02, "stiffness_n": 41000, "body_kg": 92,
                "kit_kg": 20, "anchor": "known", "limit": "own", "own_limit_n": 14000, "cows_tail_m": {tail}}}"#
        )
    };
    let worst = |tail: f64| {
        let answer = answer(&line(tail));
        let row = answer.comparisons.iter().find(|row| row.what.contains("worst place of the crossing")).unwrap();
        (row.load.high(), rank(row.standing))
    };
    for (short, long) in [(0.2, 0.6), (0.6, 1.0), (1.0, 1.5)] {
        assert!(worst(long).0 > worst(short).0 && worst(long).1 >= worst(short).1, "{short} {long}");
    }
    // The place that is told is the one the force belongs to.
    let near = answer(&line(0.6).replace("\"span_m\"", "\"place\": 0.03, \"span_m\""));
    assert!(near.comparisons.iter().any(|row| row.what.contains("worst place of the crossing, 0.03 of the span")));
}

#[test]
fn pulled_tight_the_looser_line_may_catch_harder_and_counts() {
    let told = answer(r#"{"question": "line", "span_m": 8, "place": 0.2}"#);
    let case = told.outcomes.iter().find(|outcome| outcome.case.contains("3:1 over carabiners")).unwrap();
    let [tension, force] = &case.findings[4..6] else { panic!("{:?}", case.findings) };
    for end in [tension.band.low(), tension.band.high()] {
        let json = format!(
            r#"{{"question": "line", "span_m": 8, "place": 0.2, "setting": "pre-tension", "pre_tension_n": {end}}}"#
        );
        let asked = up_to(&json, "on the anchor that is pulled hardest, on a slip");
        assert!(force.band.high() >= asked * (1.0 - 1e-6), "{} {asked}", force.band.high());
    }
}

/// A body with the water it carries along, on two springs, drag by the square of the speed past it, followed outside of
/// this project: 117 kg in a stroll of 1.4 m/s onto 4 m of line with 5 % slack, EA 41 kN: 2256 N. Held there: 1303 N.
#[test]
fn slow_water_sweeps_harder_into_a_line_than_it_holds_there() {
    let near = up_to(
        r#"{"question": "in the current", "tool": "hand-line", "across_m": 4, "down_m": 0, "drift": 0, "body_kg": 92,
            "kit_kg": 20, "suit_water_kg": 5, "pack": "no", "silt": "no", "stiffness_n": 41000, "slack": 0.05,
            "flow": "stroll"}"#,
        "on the near end of the line",
    );
    assert!((near / 2256.0 - 1.0).abs() < 2e-3, "{near}");
    // Slid past by steps on an elastic line, also outside: 1992 N on the far end, at 0.85 of the way.
    let far = up_to(
        r#"{"question": "in the current", "tool": "diagonal", "across_m": 4, "down_m": 12, "drift": 0, "body_kg": 92,
            "kit_kg": 20, "suit_water_kg": 5, "pack": "no", "silt": "no", "stiffness_n": 41000, "slack": 0.02,
            "flow": "walk", "slides_on": "connector"}"#,
        "on the far end of the line",
    );
    assert!((far / 1992.0 - 1.0).abs() < 0.005, "{far}");
}

/// By hand: s = [W (h + x) − T x/2]/(T − W) with W = 90 · 9.80665 N, T = 3000 N, h = 3 m, x = 4.5 m/e^(μφ): 0.45 m at
/// μ 0.40 and φ 70°.
#[test]
fn a_stiffer_or_a_straighter_line_that_may_be_catches_who_is_swept_into_it() {
    // Nearly along slow water: what the near end holds in the end is the drag, however stiff the line; what it catches
    // is not.
    let line = |across: f64, stiffness: &str, slack: &str| {
        format!(
            r#"{{"question": "in the current", "tool": "hand-line", "speed_by": "float", "float_m": 8.75,
                "float_s": 41, "across_m": {across}, "down_m": 22, "drift": 0, "stiffness_n": {stiffness},
                "slack": {slack}}}"#
        )
    };
    for across in [0.5, 3.0, 12.0] {
        for words in ["on the near end of the line, a person broadside", "on the near end, the person in line"] {
            let may_be = up_to(&line(across, "[15000, 30000, 45000]", "[0.018, 0.022, 0.025]"), words);
            for stiffness in [15e3, 30e3, 38e3, 45e3] {
                for slack in [0.018, 0.02, 0.022, 0.025] {
                    let is = up_to(&line(across, &stiffness.to_string(), &slack.to_string()), words);
                    assert!(may_be >= is * 0.995, "{words}, {across} m, {stiffness} N, {slack}: {may_be} {is}");
                }
            }
        }
    }
}

#[test]
fn an_edge_leaves_more_rope_to_the_device_that_slips() {
    let through = up_to(
        r#"{"question": "slip", "what": "device slips", "rope_m": 30, "rope": "own", "stiffness_n": 20000, "slack_m": 3,
            "slips_at_n": 3000, "device_at": "person", "edge": "polished rock", "edge_turn_rad": 1.2217, "body_kg": 75,
            "kit_kg": 10, "suit_water_kg": 5}"#,
        "run through the device",
    );
    assert!((through - 0.45).abs() < 0.005, "{through}");
}

#[test]
fn what_three_legs_or_more_catch_is_looked_for_between_the_ends_of_the_distances() {
    let three = r#""anchors": 3, "right_higher_m": 0.2, "anchor_3_right_m": 0.97, "anchor_3_above_m": 0.24"#;
    let four = r#""anchors": 4, "right_higher_m": -0.1, "anchor_3_right_m": 0.5, "anchor_3_above_m": 0.3,
        "anchor_4_right_m": 1.1, "anchor_4_above_m": 0.1"#;
    for rig in [three, four] {
        let legs = |apart: &str, down: &str| {
            format!(
                r#"{{"question": "anchor legs", "apart_m": {apart}, "down_m": {down}, "rope_m": 2, "state": "still",
                    "anchor": "known", "limit": "bolt axial", "design_factor": 4, {rig}}}"#
            )
        };
        let found = answer(&legs("[0.63, 0.97, 1.31]", "[0.37, 0.57, 0.77]"));
        if rig == three {
            // With the right anchor and the third side by side one of them takes all of the longest drop.
            assert_eq!(gravest(&legs("0.97", "0.43")), rank(Standing::RangeCrosses));
            assert!(found.comparisons.iter().any(|row| row.standing == Standing::RangeCrosses));
        }
        for place in 0..60_u32 {
            // Spread over both ranges, none of them on a grid.
            let [apart, down] = [0.618_034, 0.754_878].map(|step| (0.5 + f64::from(place) * step).fract());
            let inner = answer(&legs(&(0.63 + 0.68 * apart).to_string(), &(0.37 + 0.4 * down).to_string()));
            for (all, one) in found.outcomes.iter().zip(&inner.outcomes) {
                let [most, caught] = [all, one].map(|outcome| outcome.findings[0].band);
                assert!(most.high() >= 0.995 * caught.high(), "{rig} {apart} {down}: {most:?} {caught:?}");
            }
        }
    }
}
