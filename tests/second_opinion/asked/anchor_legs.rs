//! An anchor that fails in the middle of a slip, followed step by step.

use super::{GRAVITY, answer};
use crate::dice::Dice;
use serde_json::json;

/// Two level anchors, a leg each to a small mass, below it rope and somebody: in the plane of the legs.
struct Slips {
    /// Rope between point and person, and how much of it hangs loose, m.
    long: f64,
    loose: f64,
    apart: f64,
    leg: f64,
    /// EA of the legs and of the rope, N.
    legs: f64,
    rope: f64,
    /// kg.
    mass: f64,
}

/// A slip as every question counts it: slack and rope out, m, of a shorter rope as much as there is.
const SLACK: f64 = 0.5;
const ROPE: f64 = 3.0;
/// How often the point that the legs meet in, which weighs nothing, is moved toward where it rests in each step.
const MOVES: u32 = 40;

impl Slips {
    /// The hardest pull of the right leg when the left one lets go at this pull.
    fn followed(&self, lets_go: f64) -> f64 {
        let (mut at, mut body) = ([0.0, -self.down()], [0.0, -self.down() - self.long + self.loose]);
        let (mut speed, mut holds, mut most, step) = ([0.0; 2], true, 0.0_f64, 1e-4);
        let pull = |from: [f64; 2], to: [f64; 2], long: f64, stiff: f64| -> ([f64; 2], f64) {
            let (x, y) = (to[0] - from[0], to[1] - from[1]);
            let now = x.hypot(y);
            let force = (stiff * (now / long - 1.0)).max(0.0);
            ([force * x / now, force * y / now], force)
        };
        let stiff = 2.0 * self.legs / self.leg + self.rope / self.long;
        for _ in 0..8_000 {
            let mut forces = [0.0; 2];
            let mut hung = [0.0; 2];
            for _ in 0..MOVES {
                let (left, in_left) = pull(at, [-self.apart / 2.0, 0.0], self.leg, self.legs);
                let (right, in_right) = pull(at, [self.apart / 2.0, 0.0], self.leg, self.legs);
                (hung, _) = pull(at, body, self.long, self.rope);
                forces = [in_left, in_right];
                for axis in 0..2 {
                    at[axis] += (right[axis] + if holds { left[axis] } else { 0.0 } + hung[axis]) / stiff;
                }
            }
            holds &= forces[0] < lets_go;
            most = most.max(forces[1]);
            for axis in 0..2 {
                let weight = if axis == 1 { -GRAVITY } else { 0.0 };
                speed[axis] += (weight - hung[axis] / self.mass) * step;
                body[axis] += speed[axis] * step;
            }
        }
        most
    }

    fn down(&self) -> f64 {
        (self.leg.powi(2) - self.apart.powi(2) / 4.0).sqrt()
    }
}

#[test]
fn what_an_anchor_that_fails_in_the_middle_of_a_slip_leaves_to_the_other_is_within_what_is_told() {
    let mut dice = Dice::new(20_261_129);
    let (mut out_of_range, mut closest) = (0, 0.0_f64);
    for long in [0.6, 1.0, 2.0, 3.0, 3.0, 5.0] {
        let (apart, down) = (dice.between(0.3, 1.2), dice.between(0.4, 1.2));
        // One mass of all, legs of nylon: EA 40 to 110 kN; the rope of a slip 20 to 41 kN, of the hardest fall 49 kN.
        let body = dice.between(50.0, 110.0);
        let asked = json!({
            "question": "anchor legs", "apart_m": apart, "down_m": down, "right_higher_m": 0, "swing_left_rad": 0,
            "swing_right_rad": 0, "length_scatter_m": 0, "leg_material": "nylon loop", "body_kg": body, "kit_kg": 8,
            "suit_water_kg": 0, "rope_m": long,
        });
        let answer = answer(&asked);
        let told = answer.outcomes[0].findings[0].clone();
        let on_one = answer.findings.iter().find(|found| found.what.starts_with("on the right anchor")).unwrap().band;
        assert!(told.what.ends_with("in the middle of a slip or a jerk"), "{}", told.what);
        let long = f64::min(long, ROPE);
        let mut hardest = 0.0_f64;
        for (legs, rope) in [(110e3, 49e3), (110e3, 41e3), (40e3, 20e3)] {
            let leg = (apart / 2.0).hypot(down);
            let slips = Slips { long, loose: long.min(SLACK) - 0.01, apart, leg, legs, rope, mass: body + 8.0 };
            // Up to what the left leg gets when nothing fails.
            let peak = slips.followed(f64::INFINITY);
            // What nothing fails in is a slip onto the rope of a slip; legs that give something catch it softer.
            if rope <= 41e3 {
                assert!(peak <= on_one.high() * 1.005, "{peak} of {on_one:?}: {asked}");
                closest = closest.max(peak / on_one.high());
            }
            for share in [0.1, 0.3, 0.6, 0.9, 0.99] {
                let most = slips.followed(share * peak);
                assert!(most <= told.band.high() * 1.005, "{most} of {:?}, at {share}: {asked}", told.band);
                assert!(most >= told.band.low(), "{most} of {:?}, at {share}: {asked}", told.band);
                hardest = hardest.max(most);
            }
        }
        out_of_range += u32::from(hardest < 0.65 * told.band.high());
    }
    assert_eq!(out_of_range, 0, "told far more than is ever reached");
    assert!(closest > 0.8, "{closest} of what is told, nothing failing");
}
