//! An anchor that fails in the middle of a slip, followed step by step.

use super::{GRAVITY, answer};
use crate::dice::Dice;
use serde_json::json;

/// Two level anchors, a leg each to a small mass, below it rope and somebody: in the plane of the legs.
struct Slips {
    apart: f64,
    leg: f64,
    /// EA of the legs and of the rope, N.
    legs: f64,
    rope: f64,
    /// kg.
    mass: f64,
}

/// A slip as every question counts it: slack and rope out, m.
const SLACK: f64 = 0.5;
const ROPE: f64 = 3.0;
/// Of the point that the legs meet in, kg; and how its swinging dies out, N s/m.
const POINT: f64 = 0.3;
const DAMPS: f64 = 60.0;

impl Slips {
    /// The hardest pull of the right leg when the left one lets go at this pull.
    fn followed(&self, lets_go: f64) -> f64 {
        let (mut at, mut body) = ([0.0, -self.down()], [0.0, -self.down() - ROPE + SLACK]);
        let (mut speed, mut body_speed) = ([0.0; 2], [0.0; 2]);
        let (mut holds, mut most, step) = (true, 0.0_f64, 1e-5);
        let pull = |from: [f64; 2], to: [f64; 2], long: f64, stiff: f64| -> ([f64; 2], f64) {
            let (x, y) = (to[0] - from[0], to[1] - from[1]);
            let now = x.hypot(y);
            let force = (stiff * (now / long - 1.0)).max(0.0);
            ([force * x / now, force * y / now], force)
        };
        for _ in 0..80_000 {
            let (left, in_left) = pull(at, [-self.apart / 2.0, 0.0], self.leg, self.legs);
            let (right, in_right) = pull(at, [self.apart / 2.0, 0.0], self.leg, self.legs);
            let (rope, _) = pull(at, body, ROPE, self.rope);
            holds &= in_left < lets_go;
            most = most.max(in_right);
            for axis in 0..2 {
                let weight = if axis == 1 { -GRAVITY } else { 0.0 };
                let legs = right[axis] + if holds { left[axis] } else { 0.0 };
                speed[axis] += ((legs + rope[axis] - DAMPS * speed[axis]) / POINT + weight) * step;
                body_speed[axis] += (weight - rope[axis] / self.mass) * step;
                at[axis] += speed[axis] * step;
                body[axis] += body_speed[axis] * step;
            }
        }
        assert!(!holds, "it never let go");
        most
    }

    fn down(&self) -> f64 {
        (self.leg.powi(2) - self.apart.powi(2) / 4.0).sqrt()
    }
}

#[test]
fn an_anchor_that_fails_in_the_middle_of_a_slip_pulls_no_harder_than_told() {
    let mut dice = Dice::new(20_261_129);
    for _ in 0..6 {
        let (apart, down) = (dice.between(0.3, 1.2), dice.between(0.4, 1.2));
        // One mass of all, legs of nylon: EA at most 110 kN; the rope of a slip at most 41 kN.
        let body = dice.between(50.0, 110.0);
        let asked = json!({
            "question": "anchor legs", "apart_m": apart, "down_m": down, "right_higher_m": 0, "swing_left_rad": 0,
            "swing_right_rad": 0, "length_scatter_m": 0, "leg_material": "nylon loop", "body_kg": body, "kit_kg": 8,
            "suit_water_kg": 0,
        });
        let told = answer(&asked).outcomes[0].findings[0].clone();
        assert!(told.what.ends_with("in the middle of a slip"), "{}", told.what);
        let slips = Slips { apart, leg: (apart / 2.0).hypot(down), legs: 110e3, rope: 41e3, mass: body + 8.0 };
        let hardest = slips.followed(1e3);
        let mut most = hardest;
        for lets_go in [300.0, 600.0, 1500.0] {
            most = most.max(slips.followed(lets_go));
        }
        assert!(most <= told.band.high() * 1.005, "{most} of {:?}: {asked}", told.band);
        assert!(most >= 0.75 * told.band.high(), "{most} of {:?}: {asked}", told.band);
    }
}
