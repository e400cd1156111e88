//! Whole questions against another way to their numbers: the fall at an abseil and the water along its rope followed step
//! by step, a chain of parts asked part by part.

use crate::dice::Dice;
use approx::assert_relative_eq;
use rigging_core::question::{Answer, Question};
use serde_json::{Value, json};

fn answer(question: &Value) -> Answer {
    let question: Question = serde_json::from_value(question.clone()).unwrap();
    question.answer().unwrap()
}

fn band(answer: &Answer, what: &str) -> [f64; 2] {
    let found = answer.findings.iter().chain(&answer.states).find(|finding| finding.what.contains(what));
    let band = found.unwrap_or_else(|| panic!("no {what} among {:?}", answer.findings)).band;
    [band.low(), band.high()]
}

/// The largest pull of a rope (N) on a body (kg) that falls so far (m) before the rope, of a pull for each metre (N/m),
/// comes tight: velocity Verlet until it turns, each step a thousandth of a radian of the swing.
fn followed(mass: f64, falls: f64, pull_for_a_metre: f64) -> f64 {
    const GRAVITY: f64 = 9.806_65;
    let step = 1e-3 * (mass / pull_for_a_metre).sqrt();
    let pull = |stretch: f64| pull_for_a_metre * f64::max(stretch, 0.0);
    let (mut stretch, mut speed) = (0.0, (2.0 * GRAVITY * falls).sqrt());
    let mut acceleration = GRAVITY - pull(stretch) / mass;
    let mut most = 0.0;
    loop {
        stretch += speed * step + acceleration * step * step / 2.0;
        let next = GRAVITY - pull(stretch) / mass;
        speed += (acceleration + next) / 2.0 * step;
        acceleration = next;
        most = f64::max(most, pull(stretch));
        if speed <= 0.0 {
            return most;
        }
    }
}

#[test]
fn an_abseil_and_a_slip_at_its_lip_are_those_of_scales_and_of_the_motion_step_by_step() {
    let mut dice = Dice::new(20_261_126);
    for _ in 0..100 {
        let light = dice.between(40.0, 80.0);
        let heavy = light + dice.between(0.0, 60.0);
        let kit = [dice.between(0.0, 10.0), dice.between(10.0, 20.0)];
        let soft = dice.decades(5e3, 5e4);
        let stiff = soft * dice.between(1.0, 3.0);
        let rope = dice.between(1.0, 20.0);
        let slack = dice.between(0.0, 1.9_f64.min(2.0 * rope));
        let answer = answer(&json!({
            "question": "abseil", "wet": "no", "edge": "free", "tail": "carried", "diameter_m": 0.009,
            "descender": "figure-eight", "strands": "one", "height_m": 0.5 + dice.between(0.5, 60.0), "people": 1,
            "body_kg": [light, (light + heavy) / 2.0, heavy], "kit_kg": [kit[0], (kit[0] + kit[1]) / 2.0, kit[1]],
            "suit_water_kg": 0, "slack_m": slack, "rope_out_m": rope,
            "stiffness_n": [soft, (soft + stiff) / 2.0, stiff],
        }));
        let masses = [light + kit[0], heavy + kit[1]];
        // Teaching ranges of rope rescue courses: a figure-eight takes a tenth to a twentieth; on 9 mm, 0.6 to 0.8 of
        // that friction is left.
        let hand = band(&answer, "for the brake hand of the heaviest");
        assert_relative_eq!(hand[0], masses[0] * 9.806_65 / (20.0 * 0.8), max_relative = 1e-12);
        assert_relative_eq!(hand[1], masses[1] * 9.806_65 / (10.0 * 0.6), max_relative = 1e-12);
        let slip = band(&answer, "a slip onto slack rope");
        // The largest pull is missed by less than a step: its cosine is 5e-7.
        assert_relative_eq!(slip[0], followed(masses[0], slack, soft / rope), max_relative = 2e-6);
        assert_relative_eq!(slip[1], followed(masses[1], slack, stiff / rope), max_relative = 2e-6);
    }
}

/// What water that starts from rest drags at a rope it runs along (N), and that by its bounds: free fall, and the speed at
/// which the rope bears the weight of the water. Flow (m³/s), skin friction, way around the rope and down it (m).
fn dragged([flow, skin, around, height]: [f64; 4]) -> [f64; 2] {
    const STEPS: u32 = 20_000;
    let step = height / f64::from(STEPS);
    // Of each metre the rope takes skin · 1000/2 · around · speed²; what is left of the weight speeds the water up.
    let of_a_metre = |square: f64| 500.0 * skin * around * square;
    let gains = |square: f64| 2.0 * (9.806_65 - of_a_metre(square) * square.sqrt() / (1000.0 * flow));
    let (mut square, mut sum) = (0.0_f64, 0.0);
    for _ in 0..STEPS {
        let middle = square + gains(square) * step / 2.0;
        sum += of_a_metre(middle) * step;
        square += gains(middle) * step;
    }
    let steady = (1000.0 * flow * 9.806_65 / (500.0 * skin * around)).cbrt();
    [sum, of_a_metre(f64::min(9.806_65 * height, steady * steady)) * height]
}

#[test]
fn an_anchor_above_falling_water_holds_what_presses_on_the_person_and_drags_at_the_rope() {
    let mut dice = Dice::new(20_261_129);
    for number in 0..80 {
        let tail = ["free", "carried", "floating", "in the fall"][number % 4];
        let (water, flows) = [("shower", [5e-3, 10e-3]), ("full pipe", [30e-3, 100e-3])][number / 4 % 2];
        let (height, diameter) = (dice.between(1.0, 120.0), dice.between(0.008, 0.012));
        let (strands, count) = [("one", 1.0), ("two", 2.0)][number / 8 % 2];
        let light = dice.between(40.0, 80.0);
        let heavy = light + dice.between(0.0, 60.0);
        let answer = answer(&json!({
            "question": "abseil", "wet": "yes", "tail": tail, "falling_water": water, "diameter_m": diameter,
            "height_m": height, "strands": strands, "people": 1, "body_kg": [light, (light + heavy) / 2.0, heavy],
            "kit_kg": [0, 0, 0], "suit_water_kg": 0,
        }));
        let around = std::f64::consts::PI * diameter * count;
        let [followed, drags] = dragged([flows[1], 0.02, around, height]);
        // The told one is a bound; nowhere is it twice what is followed.
        assert!(followed <= drags * (1.0 + 1e-6) && followed > drags / 2.0, "{followed} of {drags}");
        let presses = 1000.0 * flows[1] * (2.0 * 9.806_65 * height).sqrt();
        let rope = 9.806_65 * 0.645_6e-3 * (1e3 * diameter).powi(2) * height * count;
        let still = band(&answer, "hanging still");
        // All of the rope is above the person near the bottom; soaked, half as heavy again.
        assert_relative_eq!(still[1], 9.806_65 * heavy + 1.5 * rope + presses + drags, max_relative = 1e-9);
        // Where it may hang beside the fall nothing drags; the least flow and friction do where it hangs there.
        let least = if tail == "in the fall" { dragged([flows[0], 0.005, around, height])[1] } else { 0.0 };
        assert_relative_eq!(still[0], 9.806_65 * light + rope + least, max_relative = 1e-9);
    }
}

const PLACES: [&str; 8] = ["anchor_1", "anchor_2", "anchor_3", "point_1", "point_2", "rope_1", "rope_2", "rope_3"];
/// Parts whose strength standards name, each with a way to spoil it.
const PARTS: [[&str; 3]; 7] = [
    ["bolt", "none", "straight"],
    ["connector", "none", "gate open"],
    ["sling HMPE", "girth sling", "straight"],
    ["sling nylon", "none", "choked"],
    ["screw link", "none", "straight"],
    ["rope B nylon", "figure-eight", "straight"],
    ["rope B nylon", "double fisherman", "straight"],
];

#[test]
fn the_weakest_of_a_chain_is_the_weakest_of_its_parts_asked_one_by_one() {
    let mut dice = Dice::new(20_261_127);
    let mut named = std::collections::BTreeSet::new();
    for _ in 0..200 {
        let (rope, point) = (dice.decades(500.0, 8e3), dice.decades(500.0, 1.6e4));
        let share = dice.between(0.5, 1.0);
        let mut chain = json!({"question": "weakest part", "forces": "taken", "whose_factor": "own",
            "design_factor": 1, "rope_n": rope, "point_n": point, "anchor_n": point * share});
        let empty = |chain: &mut Value| {
            for place in PLACES {
                for (ending, value) in [("", "none"), ("_knot", "none"), ("_loaded", "straight"), ("_condition", "new")]
                {
                    chain[format!("{place}{ending}")] = json!(value);
                }
            }
        };
        empty(&mut chain);
        let mut worst: Option<(f64, [f64; 2])> = None;
        let mut count = 0;
        for place in PLACES {
            if dice.chance(0.4) {
                continue;
            }
            let [part, knot, loaded] = PARTS[dice.between(0.0, PARTS.len() as f64) as usize];
            // A bolt holds in the rock, a harness a person: elsewhere they are refused.
            if part == "bolt" && !place.starts_with("anchor") || part == "harness" && !place.starts_with("rope") {
                continue;
            }
            count += 1;
            let mut alone = chain.clone();
            empty(&mut alone);
            for chain in [&mut chain, &mut alone] {
                chain[place] = json!(part);
                chain[format!("{place}_knot")] = json!(knot);
                chain[format!("{place}_loaded")] = json!(loaded);
            }
            let resists = band(&answer(&alone), "resisted by");
            let load = match place {
                place if place.starts_with("anchor") => point * share,
                place if place.starts_with("point") => point,
                _ => rope,
            };
            if worst.is_none_or(|(margin, _)| resists[0] / load < margin) {
                worst = Some((resists[0] / load, resists));
            }
        }
        if count == 0 {
            continue;
        }
        let (_, resists) = worst.unwrap();
        let found = answer(&chain);
        assert_eq!(band(&found, "resisted by"), resists, "{chain}");
        named.insert(found.findings[0].what.clone());
    }
    assert!(named.len() > 10, "much the same part is always the weakest: {named:?}");
}
