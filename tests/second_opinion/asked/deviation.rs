//! A swing over a deviation, followed step by step.

use super::slip::{ROPES, named};
use super::{Crowd, GRAVITY, answer, ends, same};
use crate::dice::Dice;
use serde_json::json;

/// A rope from an anchor at the origin that runs without friction over a deviation, and what hangs on it.
#[derive(Clone, Copy)]
struct Over {
    /// Places of the deviation and of the person where it begins, m.
    deviation: [f64; 2],
    begins: [f64; 2],
}

impl Over {
    /// The rope is straight from the anchor to the person, or over the deviation; none if it does not reach it.
    fn both(rope: f64, out: f64, lower: f64, lower_out: f64) -> [Option<Self>; 2] {
        let below = |long: f64, aside: f64| -(long * long - aside * aside).sqrt();
        let aside = out - lower_out;
        let from = |height: f64| Over { deviation: [aside, height], begins: [out, height + below(lower, lower_out)] };
        let straight = from(below(rope, out) - below(lower, lower_out));
        let over = from(below(rope - lower, aside));
        [Some(straight), Some(over).filter(|over| rope > lower && over.deviation[1].is_finite())]
    }

    /// Length of the rope to a place, and the way along it from there to the deviation.
    fn to(&self, at: [f64; 2]) -> (f64, [f64; 2]) {
        let [x, y] = [0, 1].map(|part| self.deviation[part] - at[part]);
        let long = x.hypot(y);
        (self.deviation[0].hypot(self.deviation[1]) + long, [x / long, y / long])
    }

    /// Force on the deviation where both strands pull so hard.
    fn presses(&self, pull: f64, up: [f64; 2]) -> f64 {
        let [x, y] = self.deviation;
        let far = x.hypot(y);
        pull * (-x / far - up[0]).hypot(-y / far - up[1])
    }

    /// The most on the deviation for each newton that hangs, on a rope that does not stretch: the speed is that of the
    /// height lost, and the pull bends the way and bears its part of the weight.
    fn rigid(&self) -> f64 {
        let lower = [0, 1].map(|part| self.begins[part] - self.deviation[part]);
        let (long, begins) = (lower[0].hypot(lower[1]), lower[0].atan2(-lower[1]));
        let places = (-10_000..=10_000).map(|place| begins * f64::from(place) / 10_000.0);
        let at = |angle: f64| {
            let at = [self.deviation[0] + long * angle.sin(), self.deviation[1] - long * angle.cos()];
            let (_, up) = self.to(at);
            self.presses(up[1] + 2.0 * (self.begins[1] - at[1]) / long, up)
        };
        places.map(at).fold(0.0, f64::max)
    }

    /// The same on one that stretches by a share under the weight, just straight where it begins, step by step until
    /// it turns on the other side. All of the rope stretches, on both sides of the deviation.
    fn elastic(&self, strain: f64) -> f64 {
        let (natural, _) = self.to(self.begins);
        let spring = GRAVITY / (natural * strain);
        let step = 5e-3 / spring.sqrt();
        let (mut at, mut speed, mut most) = (self.begins, [0.0; 2], 0.0_f64);
        let pull = |at: [f64; 2]| {
            let (long, up) = self.to(at);
            (spring * (long - natural).max(0.0), up)
        };
        let faster = |speed: [f64; 2], (size, up): (f64, [f64; 2])| {
            [speed[0] + size * up[0] * step / 2.0, speed[1] + (size * up[1] - GRAVITY) * step / 2.0]
        };
        loop {
            let half = faster(speed, pull(at));
            at = [at[0] + half[0] * step, at[1] + half[1] * step];
            let (size, up) = pull(at);
            speed = faster(half, (size, up));
            most = most.max(self.presses(size / GRAVITY, up));
            if at[0] < self.deviation[0] && speed[0] >= 0.0 {
                return most;
            }
        }
    }
}

#[test]
fn a_deviation_gets_what_the_rope_over_it_presses_step_by_step() {
    let mut dice = Dice::new(20_261_141);
    let (mut nearest, mut harder, mut over) = (0.0_f64, 0, 0);
    for _ in 0..150 {
        let rope = dice.between(2.0, 40.0);
        let out = rope * dice.between(0.05, 0.98);
        let lower = rope * dice.between(0.1, 1.2);
        let lower_out = lower * dice.between(0.05, 0.98);
        let (rope_is, stiffness) = named(&ROPES, &mut dice);
        let mut crowd = Crowd::random(&mut dice);
        crowd.count = crowd.count.min(2);
        let mut asked = json!({
            "question": "slip", "what": "swing", "rope_m": rope, "rope": rope_is, "out_m": out, "obstacle": "none",
            "lip_m": 0, "deviation_rope_m": lower, "deviation_out_m": lower_out, "clear_m": 0, "anchor": "known",
            "limit": "own", "own_limit_n": 100_000,
        });
        crowd.write(&mut asked);
        let answer = answer(&asked);
        let is_on = |what: &str| what.starts_with("on the deviation, at most on the way");
        let told = answer.outcomes.iter().flat_map(|outcome| &outcome.findings).find(|found| is_on(&found.what));
        let told = ends(told.unwrap());
        let weight = crowd.weight();
        let ways = || Over::both(rope, out, lower, lower_out).into_iter().flatten();
        over += ways().count() - 1;
        // Two of three ends are those of a rope that does not stretch.
        let rigid = ways().map(|way| way.rigid()).fold(0.0, f64::max);
        for end in [0, 1] {
            same(told[end], weight[end] * rigid, 1e-4, "on the deviation", &asked);
        }
        let strains = [weight[2] / stiffness[0], weight[2] / stiffness[2]];
        let walked = ways().flat_map(|way| strains.map(|strain| way.elastic(strain))).fold(rigid, f64::max) * weight[2];
        assert!(told[2] >= walked * (1.0 - 1e-3), "{told:?} is no bound of {walked}: {asked}");
        nearest = nearest.max(walked / told[2]);
        // It is compared, and the anchor that is asked about elsewhere gets no less.
        let row = answer.comparisons.iter().find(|row| is_on(&row.what)).unwrap_or_else(|| panic!("no row: {asked}"));
        assert_eq!((row.load.low(), row.load.high()), (told[0], told[2]), "{asked}");
        let most = answer.comparisons.iter().map(|row| row.load.high()).fold(0.0, f64::max);
        assert_eq!(answer.comparisons[0].load.high(), most, "the hardest comes first: {asked}");
        assert!(answer.carried.unwrap().anchor.high() >= most, "{asked}");
        harder += i32::from(told[2] > answer.findings[0].band.high());
    }
    assert!(nearest > 0.93 && harder > 20 && over > 20, "{nearest} {harder} {over}");
}
