//! Which bend, which way of friction and which limit comes first.

use super::*;

/// A bend that an anchor holds, friction not counted and nothing else.
fn uncounted(bend: &Bend, place: usize) -> Judged {
    let row = (None, bend.shape(place, None).unwrap());
    Judged { place, anchored: true, rows: [row, row] }
}

#[test]
fn a_bolt_that_stands_proud_or_an_edge_is_never_below_a_limit() {
    let against =
        Against { holds: Holds::KnownBolt, limit: LimitChoice::Published(&BOLT_RADIAL), ..Against::default() };
    let flat = Bend { against, ..plain(Over::Ring, 90.0) };
    let standing = |bend: &Bend| bend.solve().unwrap().comparisons[0].standing;
    assert_eq!(standing(&flat), Standing::BelowLimit);
    assert_eq!(standing(&Bend { bolt: Bolt::Proud, ..flat }).words(), "not checked");
    assert_eq!(standing(&Bend { first: turn(Over::RoughRock, 90.0), ..flat }).words(), "not checked");
}

#[test]
fn against_a_bolt_tension_and_shear_count_together() {
    let limited = |limit| Bend {
        against: Against { holds: Holds::KnownBolt, limit: LimitChoice::Published(limit), ..Against::default() },
        ..plain(Over::Ring, 90.0)
    };
    let [radial, axial] = [&BOLT_RADIAL, &BOLT_AXIAL].map(|limit| {
        let bend = limited(limit);
        let comparison = bend.compare(&uncounted(&bend, 0), &[], &[]).unwrap().remove(0);
        // It is none of the pulls that are told beside it.
        assert!(comparison.what.starts_with("as an equal pull "), "{}", comparison.what);
        comparison.load.high() / comparison.limit.unwrap().figure
    });
    // The same share of the limit, whichever of the two figures it is told by.
    assert_relative_eq!(radial, axial, max_relative = 1e-13);
    // More than either part alone: 1000 N of 15 kN and of 25 kN.
    assert!(radial > 1.0 / 15.0 && radial < 1.0 / 15.0 + 1.0 / 25.0);
}

#[test]
fn hardware_is_judged_before_an_edge_that_carries_more() {
    let bend = Bend {
        bends: 2,
        first: turn(Over::RoughRock, 100.0),
        second: turn(Over::Ring, 20.0),
        ..plain(Over::Ring, 0.0)
    };
    let answer = bend.solve().unwrap();
    assert!(answer.findings[0].what.starts_with("on the anchor of bend 2"), "{}", answer.findings[0].what);
    assert!(answer.findings.iter().any(|finding| finding.what.starts_with("on the edge at bend 1")));
}

#[test]
fn the_states_side_by_side_are_those_of_the_question_asked_in_each() {
    for runs in WAYS {
        let bend = Bend { runs, bends: 2, ..Bend::default() };
        let answer = bend.solve().unwrap();
        for (state, found) in State::ALL.into_iter().zip(&answer.states) {
            let asked = Bend { state, ..bend }.solve().unwrap();
            // Judged on a slip what is raised is jerked; beside the other states a slip is one.
            let jerked = |found: &&Finding| state == State::Slip && found.what.ends_with("in jerks");
            let asked = asked.findings.iter().find(|found| !jerked(found)).unwrap().band;
            assert!(found.band.low() <= asked.low() * (1.0 + 1e-12));
            assert_relative_eq!(found.band.high(), asked.high(), max_relative = 1e-12);
        }
    }
}

#[test]
fn the_smaller_pull_straight_out_of_the_rock_is_compared_first_if_it_is_the_worse_one() {
    let known = |limit, factor: f64, own: f64, bend: Bend| Bend {
        bends: 2,
        against: Against {
            holds: Holds::KnownBolt,
            limit: LimitChoice::Published(limit),
            factor: Ratio::new::<ratio>(factor),
            ..Against::default()
        },
        wet: Whether::Yes,
        rope_force: Band::exact(Force::new::<newton>(own)),
        ..bend
    };
    // By hand, friction not counted: 2 · 3400 N sin 30° = 3400 N at 30° from straight out: N = 2944, V = 1700 N, of
    // 15 and 25 kN as much as 3237 N straight out; the other bend's larger pull is nearly along the rock.
    let bends = Bend {
        first: turn(Over::Connector, 60.0),
        second: turn(Over::Connector, 150.0),
        ..plain(Over::Connector, 0.0)
    };
    let bends = known(&BOLT_AXIAL, 5.0, 3400.0, bends);
    let compared = bends.compare(&uncounted(&bends, 1), &[uncounted(&bends, 0)], &[]).unwrap();
    let [first, second] = &compared[..] else { panic!("{compared:?}") };
    assert!(first.what.contains("bolt of bend 1") && second.what.contains("bolt of bend 2"), "{}", first.what);
    assert_relative_eq!(first.load.high(), 3237.0, max_relative = 1e-3);
    assert_ne!(first.standing, Standing::BelowLimit);
    // By hand: N = 18.2, V = 3.2 kN on the second bolt, as much as 30.8 kN along the rock.
    let bends = Bend {
        wall: Angle::new::<radian>(2.4),
        first: Turn { over: Over::Connector, angle: Angle::new::<radian>(PI) },
        second: Turn { over: Over::Connector, angle: Angle::new::<radian>(-2.0) },
        ..plain(Over::Connector, 0.0)
    };
    let bends = known(&BOLT_RADIAL, 1.0, 11_000.0, bends);
    let worst = bends.compare(&uncounted(&bends, 0), &[uncounted(&bends, 1)], &[]).unwrap().remove(0);
    let answer = bends.solve().unwrap();
    assert!(worst.what.contains("bolt of bend 2"), "{}", worst.what);
    assert_relative_eq!(worst.load.high(), 30_800.0, max_relative = 5e-3);
    let bolts = answer.findings.iter().filter(|finding| finding.what.contains("on the bolt of")).count();
    assert_eq!(bolts, 4);
}

#[test]
fn the_first_answer_is_the_one_that_hurts_more() {
    // Deep turns: friction takes load off while lowering, so it is not counted first.
    let answer = plain(Over::RoughRock, 120.0).solve().unwrap();
    assert!(answer.findings[0].what.ends_with("friction not counted"), "{}", answer.findings[0].what);
    assert!(answer.findings[1].what.ends_with("while lowering, friction counted"));
    // Raising, and on a shallow edge even lowering, friction adds to the force on the bend.
    for bend in [Bend { runs: Runs::Raising, ..plain(Over::Ring, 120.0) }, plain(Over::RoughRock, 15.0)] {
        let answer = bend.solve().unwrap();
        assert!(answer.findings[0].what.ends_with("friction counted"), "{}", answer.findings[0].what);
        assert!(answer.findings[1].what.ends_with("friction not counted"));
        assert!(answer.findings[0].band.high() > answer.findings[1].band.high());
    }
}

#[test]
fn nobody_slips_while_the_rope_is_raised_or_lies_still_but_what_is_raised_may_be_jerked() {
    // By hand: 117 kg; over a wet ring, 0.30 × 1.3, through 120°: √(1 + r² + r) W, r = e^(0.39 · 2π/3).
    let (weight, r) = (117.0 * 9.80665, (0.39_f64 * 120_f64.to_radians()).exp());
    let on_ring = weight * (1.0 + r * r + r).sqrt();
    let raising = |state| Bend { runs: Runs::Raising, state, ..Bend::default() }.solve().unwrap();
    // Judged descending: nobody descends while they are raised.
    let answer = raising(State::Descending);
    let raised = answer.findings.iter().find(|finding| finding.what.contains("while raising")).unwrap();
    assert!(raised.what.ends_with("hanging still"), "{}", raised.what);
    assert_relative_eq!(raised.band.high(), on_ring, max_relative = 1e-9);
    // Judged on a slip, the worst of the four: raised in jerks of 3.2 times the weight the ring gets more than from a slip.
    let answer = raising(State::Slip);
    let [first, not_counted, ..] = answer.findings.as_slice() else { panic!("two rows") };
    assert!(first.what.contains("while raising") && first.what.ends_with("in jerks"), "{}", first.what);
    assert_relative_eq!(first.band.high(), 3.2 * on_ring, max_relative = 1e-9);
    assert!(not_counted.what.ends_with("a slip onto slack rope") && not_counted.band.high() < first.band.high());
    for load in [answer.comparisons[0].load, answer.carried.unwrap().anchor] {
        assert_relative_eq!(load.high(), first.band.high(), max_relative = 1e-12);
    }
    // Side by side each state is what it says.
    let [.., jerky, slip] = answer.states.as_slice() else { panic!("four states") };
    assert_relative_eq!(jerky.band.high(), first.band.high(), max_relative = 1e-12);
    assert_relative_eq!(slip.band.high(), not_counted.band.high(), max_relative = 1e-12);
}

#[test]
fn what_is_left_once_bend_1_has_let_go_carries_what_the_rope_pulls_then() {
    // Down to a connector that turns the rope by 120°, up to one that turns it by 60° more: straight back. Without the
    // first the rope comes from plumb below and goes on as before: by hand it is turned by 120° + 60° = 180° either way.
    let bend =
        Bend { bends: 2, first: turn(Over::Connector, 120.0), second: turn(Over::Connector, 60.0), ..Bend::default() };
    let answer = bend.solve().unwrap();
    let find = |words: &str| answer.findings.iter().find(|finding| finding.what.contains(words)).unwrap().band.high();
    let pull = find("in the rope then");
    let most = find("bend 2, friction counted or not, once bend 1 has let go");
    assert_relative_eq!(most, 2.0 * pull, max_relative = 1e-12);
    let compared = answer.comparisons.iter().find(|row| row.what.contains("once bend 1 has let go")).unwrap();
    assert!(compared.what.contains("bend 2"));
    assert_relative_eq!(compared.load.high(), most, max_relative = 1e-12);
    assert!(answer.carried.unwrap().anchor.high() >= most);
    // Alone it leaves the anchor beyond it, of which nothing is known here but what the rope pulls.
    let alone = Bend { first: turn(Over::Connector, 17.0), ..Bend::default() }.solve().unwrap();
    let pull = alone.findings.iter().find(|finding| finding.what.contains("in the rope then")).unwrap().band.high();
    let carried = alone.carried.unwrap();
    assert!(alone.comparisons[0].load.high() < pull && carried.anchor.high() >= pull && carried.point.high() >= pull);
}

#[test]
fn whoever_lowers_also_stops() {
    let mut bend = Bend { state: State::Still, ..Bend::default() };
    bend.against =
        Against { holds: Holds::KnownBolt, limit: LimitChoice::Published(&BOLT_AXIAL), ..Against::default() };
    let answer = bend.solve().unwrap();
    let rest = answer.findings.iter().find(|finding| finding.what.contains("at rest")).unwrap();
    assert!(answer.comparisons[0].what.contains("at rest"), "{}", answer.comparisons[0].what);
    assert!(answer.carried.unwrap().anchor.high() >= rest.band.high());
}

#[test]
fn every_bend_that_an_anchor_holds_is_also_judged_at_rest() {
    // Two rings that turn the rope to and fro: stopped after lowering, the second may hold as much as after raising.
    let mut bends = Bend {
        bends: 3,
        first: turn(Over::Ring, 178.0),
        second: turn(Over::Ring, -172.0),
        third: turn(Over::Ring, 86.0),
        ..Bend::default()
    };
    bends.against = Against {
        holds: Holds::KnownBolt,
        limit: LimitChoice::Own,
        own: Force::new::<newton>(9000.0),
        ..Against::default()
    };
    let stopped = Bend { runs: Runs::Rest, ..bends };
    let most = |bend: &Bend, place: &str| {
        let rows = bend.solve().unwrap().comparisons;
        rows.iter().filter(|row| row.what.contains(place)).map(|row| row.load.high()).fold(0.0, f64::max)
    };
    for place in ["bend 1", "bend 2", "bend 3"] {
        assert!(most(&bends, place) >= most(&stopped, place) * (1.0 - 1e-12), "{place}");
    }
    let answer = bends.solve().unwrap();
    // Each bend is compared once, at its worst, and what is left once the first has let go.
    let [first, second, third, left @ ..] = answer.comparisons.as_slice() else { panic!("three bends") };
    assert!([first, second, third].iter().all(|row| !row.what.contains("once")));
    assert!(left.len() == 2 && left.iter().all(|row| row.what.ends_with("once bend 1 has let go")));
    let third = answer.comparisons.iter().find(|row| row.what.contains("bend 3") && row.what.contains("at rest"));
    assert_ne!(third.unwrap().standing, Standing::BelowLimit);
    assert!(answer.findings.iter().any(|row| row.what.contains("bend 3") && row.what.contains("at rest")));
    // What its bolt gets is no less.
    let bolt = answer.findings.iter().filter(|row| row.what.contains("on the bolt of bend 3"));
    let bolt = bolt.map(|row| row.band.high()).fold(0.0, f64::hypot);
    assert!(bolt >= third.unwrap().load.high(), "{bolt}");
    // The rope and every anchor that is asked about elsewhere carry the most of it too.
    let carried = answer.carried.unwrap();
    let most = answer.comparisons.iter().map(|row| row.load.high()).fold(0.0, f64::max);
    assert!(carried.anchor.high() >= most * (1.0 - 1e-12), "{} of {most}", carried.anchor.high());
    let hand = |row: &&Finding| row.what.contains("hand") && !row.what.contains("while raising");
    let hand = answer.findings.iter().filter(hand).map(|row| row.band.high());
    assert!(carried.rope.high() >= hand.fold(0.0, f64::max) * (1.0 - 1e-12));
}

#[test]
fn a_pull_into_the_rock_in_one_case_is_not_made_good_by_a_pull_out_of_it_in_another() {
    // By hand: at rest, without friction, the middle of the two strands lies 13.1° and 8.7° on the rock's side of its face.
    let told = |bend: &str| {
        let json = format!(
            r#"{{"question": "bend", "told": "directions", {bend}, "anchor": "known", "limit": "bolt axial", "pulls": "own", "rope_force_n": 1000}}"#
        );
        let question: crate::question::Question = serde_json::from_str(&json).unwrap();
        question.answer().unwrap().comparisons[0].standing
    };
    for into in [
        r#""load_runs_rad": 0, "hand_runs_rad": -1.0314, "over_1": "connector", "runs": "lowering", "passed": "yes", "wall_rad": 1.0728"#,
        r#""load_runs_rad": -0.4962, "hand_runs_rad": 1.2001, "over_1": "ring", "runs": "rest", "passed": "no", "wall_rad": -1.0688"#,
    ] {
        assert!(matches!(told(into), Standing::NotChecked(why) if why.contains("into the rock")), "{into}");
    }
}

#[test]
fn a_rope_that_is_lowered_is_not_said_to_be_compared_raised() {
    let asked = |runs: &str| {
        let json = format!(
            r#"{{"question": "bend", "runs": "{runs}", "anchor": "known", "limit": "rope B tied", "design_factor": 1,
                "bends": 2, "turn_1_rad": 2.0944, "over_2": "rough rock", "turn_2_rad": 1.2, "wet": "yes",
                "body_kg": 92, "kit_kg": 20, "suit_water_kg": 5, "rope_above_m": 3, "rope_below_m": 20}}"#
        );
        let question: crate::question::Question = serde_json::from_str(&json).unwrap();
        question.answer().unwrap()
    };
    // Euler–Eytelwein, a ring of 0.30 and rough rock of 0.75, wet 1.3 times that; W = 117 kg, in jerks 3.2 times that.
    let still = 117.0 * 9.80665 * (1.3 * (0.30 * 2.0944 + 0.75 * 1.2_f64)).exp();
    let raising_is_told =
        |answer: &Answer| answer.remarks.iter().any(|remark| remark.starts_with("Raising pulls harder"));
    for (runs, words, load) in [
        ("lowering", "in the rope where it carries most, lowering or at rest", still),
        ("rest", "in the rope where it carries most, at rest", still),
        ("raising", "in the rope where it carries most", 3.2 * still),
    ] {
        let answer = asked(runs);
        let [row] = answer.comparisons.as_slice() else { panic!("{:?}", answer.comparisons) };
        assert_eq!(row.what, words);
        assert_relative_eq!(row.load.high(), load, max_relative = 1e-12);
        assert_eq!(raising_is_told(&answer), runs != "raising", "{runs}");
    }
    // Where a slip pulls harder than raising, nothing more is to be told: a ring that hardly turns the rope.
    let slight = Bend { first: turn(Over::Ring, 5.0), ..Bend::default() };
    assert!(!raising_is_told(&slight.solve().unwrap()));
}
