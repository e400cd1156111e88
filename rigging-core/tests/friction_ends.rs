//! Which end of the friction counts where: always the one that hurts, and first without any.
//!
//! No question picks an end by hand: friction goes in as a range with the way the rope runs, and both ends come out.
//! Held to the closed forms here (Euler–Eytelwein; sum of two forces), with the range of an aluminium tube, a wet
//! polished edge and a figure-eight as the questions take them.
#![expect(clippy::panic, clippy::unwrap_used, reason = "an answer that is missing stops the run")]

use rigging_core::question::{Answer, Question};

fn answer(json: &str) -> Answer {
    let question: Question = serde_json::from_str(json).unwrap();
    question.answer().unwrap()
}

/// Least and most of the finding whose words contain `words`.
fn found(answer: &Answer, words: &str) -> (f64, f64) {
    let finding =
        answer.findings.iter().find(|finding| finding.what.contains(words)).unwrap_or_else(|| panic!("{words}"));
    (finding.band.low(), finding.band.high())
}

fn near(one: f64, other: f64) {
    assert!((one / other - 1.0).abs() < 1e-6, "{one} {other}");
}

/// Wet polished rock.
const EDGE: (f64, f64) = (0.15, 0.40);

#[test]
fn an_anchor_behind_an_edge_first_without_friction_then_with_the_least() {
    let abseil = answer(
        r#"{"question": "abseil", "edge": "polished rock", "edge_turn_rad": 1.2, "wet": "yes", "tail": "carried",
            "body_kg": 92, "kit_kg": 20, "suit_water_kg": 5, "slack_m": 0.5, "rope_out_m": 3, "stiffness_n": 41000}"#,
    );
    // The rope behind the edge bears r of what is before it and gives r of what it would: energy of a linear spring.
    let peak = |r: f64| {
        let weight = 117.0 * 9.80665;
        weight + (weight * weight + 2.0 * weight * 41_000.0 / r * 0.5 / 3.0_f64).sqrt()
    };
    let (_, bare) = found(&abseil, "edge not counted");
    near(bare, peak(1.0));
    let least = (-EDGE.0 * 1.2_f64).exp();
    let (_, counted) = found(&abseil, "edge counted");
    near(counted, peak(least) * least);
    // Before the edge friction hurts: the most of it.
    let (_, before) = found(&abseil, "before the edge");
    near(before, peak((-EDGE.1 * 1.2_f64).exp()));
}

#[test]
fn a_brake_hand_with_the_least_friction_of_the_descender() {
    // 4.2 is the least of a figure-eight on one wet 9 mm strand, row F11 of the check values.
    let abseil =
        answer(r#"{"question": "abseil", "body_kg": 92, "kit_kg": 20, "suit_water_kg": 5, "tail": "carried"}"#);
    let (_, hand) = found(&abseil, "for the brake hand of the heaviest");
    near(hand, 117.0 * 9.80665 / 4.2);
}

#[test]
fn a_bend_first_without_friction_then_raising_with_the_most_and_lowering_with_the_least() {
    let bend = |runs: &str| {
        answer(&format!(
            r#"{{"question": "bend", "over_1": "polished rock", "turn_1_rad": 1.0, "wet": "yes", "pulls": "own", "rope_force_n": 1000, "runs": "{runs}"}}"#
        ))
    };
    let resultant = |other: f64| (1000.0_f64.powi(2) + other * other - 2000.0 * other * 1.0_f64.cos()).sqrt();
    let raising = bend("raising");
    near(found(&raising, "for the hand beyond the last bend, while raising").1, 1000.0 * EDGE.1.exp());
    near(found(&raising, "edge at bend 1, while raising").1, resultant(1000.0 * EDGE.1.exp()));
    near(found(&raising, "edge at bend 1, friction not counted").1, resultant(1000.0));
    let lowering = bend("lowering");
    near(found(&lowering, "for the hand beyond the last bend, while lowering").1, 1000.0 * (-EDGE.0).exp());
    // At rest after anything the hand's side lies between both ends.
    let rest = found(&lowering, "for the hand beyond the last bend, at rest");
    near(rest.0, 1000.0 * (-EDGE.1).exp());
    near(rest.1, 1000.0 * EDGE.1.exp());
}

#[test]
fn people_behind_an_edge_first_without_friction_then_with_the_least() {
    let people = answer(r#"{"question": "human anchor", "edge": "polished rock", "above_lip_m": 0}"#);
    let (bare, _) = found(&people, "held by all of them together, edge not counted");
    let (counted, _) = found(&people, "friction of the edge counted");
    near(counted, bare * (EDGE.0 * std::f64::consts::FRAC_PI_2).exp());
}

#[test]
fn a_rope_that_is_pulled_down_with_the_most_friction_of_every_bend() {
    // Wet: a steel ring 1.3 · 0.30, half a turn; 9 mm, 52.3 g/m, half as heavy again; row D12 has the formula.
    let pull = answer(
        r#"{"question": "pull-down", "height_m": 30, "rising_m": 30, "wet": "yes", "ring": "ring",
            "edge_1_on": "both", "edge_1_over": "polished rock", "edge_1_turn_rad": 1.5}"#,
    );
    let weight = 1.5 * 0.6456e-3 * 81.0 * 9.80665 * 30.0;
    let most = (0.39 * std::f64::consts::PI + 2.0 * EDGE.1 * 1.5).exp();
    near(found(&pull, "to pull at the start").1, weight * (most - 1.0));
}
