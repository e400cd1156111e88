//! Falls, stops and swings, followed step by step.

use super::{Crowd, Ends, GRAVITY, answer, ends, found, friction, one_of, reach, same, three};
use crate::dice::Dice;
use serde_json::{Value, json};

/// How far the motion in steps may be off.
const NEAR: f64 = 1e-5;

/// Someone who hangs on a spring, or has just come onto it.
#[derive(Clone, Copy)]
struct Falls {
    /// N.
    weight: f64,
    /// N/m, of rope and anchor.
    spring: f64,
    /// m/s, downward.
    speed: f64,
    /// Of the spring when it begins, m.
    stretch: f64,
    /// Where a device lets rope run, N.
    runs_at: f64,
}

/// The hardest pull until it turns, N; the way down until then and the rope run through the device, m.
struct Caught {
    pull: f64,
    sank: f64,
    ran: f64,
}

impl Falls {
    fn followed(self) -> Caught {
        let mass = self.weight / GRAVITY;
        let step = 2e-3 * (mass / self.spring).sqrt();
        let (mut sank, mut ran, mut speed) = (0.0, 0.0, self.speed);
        let pull = |sank: f64, ran: f64| (self.spring * (self.stretch + sank - ran)).clamp(0.0, self.runs_at);
        let mut most = pull(0.0, 0.0);
        let mut acceleration = GRAVITY - most / mass;
        // Whoever comes onto a loose rope without speed starts to fall by themselves.
        while speed > 0.0 || sank == 0.0 {
            sank += speed * step + acceleration * step * step / 2.0;
            // Beyond its limit the device lets out what is too much.
            ran = f64::max(ran, self.stretch + sank - self.runs_at / self.spring);
            let force = pull(sank, ran);
            let next = GRAVITY - force / mass;
            speed += (acceleration + next) / 2.0 * step;
            acceleration = next;
            most = most.max(force);
            assert!(sank < 1e4, "it never turns");
        }
        Caught { pull: most, sank, ran }
    }

    /// The same from a rope that is loose so far (m) before it comes tight.
    fn after(weight: f64, spring: f64, falls: f64) -> Self {
        let speed = (2.0 * GRAVITY * falls).sqrt();
        Falls { weight, spring, speed, stretch: 0.0, runs_at: f64::INFINITY }
    }

    /// The same of someone who hangs on the rope and goes down at a speed.
    fn stopped(weight: f64, spring: f64, speed: f64) -> Self {
        Falls { stretch: weight / spring, speed, ..Falls::after(weight, spring, 0.0) }
    }
}

/// Stiffness of ropes in a fall, N: used canyon rope assumed; EN 1891 at most 5 % from 50 to 150 kg, and what was measured
/// (`tests/measured`); EN 892 10 % static elongation, 9 (declared) to 12 kN in the test fall; used or wet 1.3 times that, assumed.
pub(super) const ROPES: [(&str, Ends); 4] = [
    ("canyon", [20e3, 30e3, 49e3]),
    ("low-stretch", [19.6e3, 30e3, 68e3]),
    ("dynamic", [7.3e3, 24.1e3, 45.1e3]),
    ("used dynamic", [7.3e3, 31e3, 59e3]),
];

/// HMPE: one published drop test; nylon and cord assumed; dynamic rope as above.
const TAILS: [(&str, Ends); 4] = [
    ("hmpe", [130e3, 160e3, 250e3]),
    ("nylon", [40e3, 70e3, 150e3]),
    ("dynamic rope", [7.3e3, 24.1e3, 45.1e3]),
    ("cord", [14e3, 20e3, 28e3]),
];

pub(super) fn named(table: &[(&'static str, Ends)], dice: &mut Dice) -> (&'static str, Ends) {
    table[dice.between(0.0, table.len() as f64) as usize]
}

/// One value of everything uncertain.
#[derive(Clone, Copy)]
struct At {
    weight: f64,
    rope: f64,
    leg: f64,
    friction: f64,
    runs_at: f64,
    /// Whether a rope that was stretched counts as loose.
    loose: bool,
}

/// The ends of what is uncertain, and what is certain.
#[derive(Clone, Copy)]
struct Asked {
    what: &'static str,
    crowd: Crowd,
    rope: f64,
    stiffness: Ends,
    leg: Ends,
    slack: f64,
    speed: f64,
    edge: Ends,
    turn: f64,
    sling: f64,
    above: f64,
    drop: f64,
    runs_at: Ends,
    at_anchor: bool,
    gives: f64,
}

/// On the anchor, behind an edge, before it; stretch, fallen, run through the device.
type Outcome = [f64; 6];

impl Asked {
    fn falls(&self) -> f64 {
        match self.what {
            "cow's tail" => self.sling + self.above,
            "stopped" => 0.0,
            _ => self.slack,
        }
    }

    fn worked(&self, at: At) -> Outcome {
        let tail = self.what == "cow's tail";
        let (length, strands) = if tail { (self.sling, f64::from(self.crowd.count)) } else { (self.rope, 1.0) };
        // What the anchor gives is told under one person of 95 kg, and grows with the pull.
        let anchor = self.gives / (95.0 * GRAVITY);
        let rope = length / (strands * at.rope);
        if self.what == "anchor fails" {
            let leg = self.sling / at.leg;
            let spring = 1.0 / (rope + leg + anchor);
            // Let go, the rope draws in what it was stretched, so that the point is that much nearer to its end.
            let drawn_in = at.weight * rope;
            let left = self.drop - drawn_in;
            let (falls, before) = if at.loose {
                (Falls::after(at.weight, spring, self.drop), self.drop)
            } else if left >= 0.0 {
                (Falls::after(at.weight, spring, left), left)
            } else {
                // It comes tight while some of the stretch is still there.
                (Falls { stretch: -left, ..Falls::after(at.weight, spring, 0.0) }, 0.0)
            };
            let caught = falls.followed();
            return [caught.pull, 0.0, 0.0, caught.pull / spring, before + caught.sank, 0.0];
        }
        let spring = 1.0 / (rope + anchor);
        let holds_back = (at.friction * self.turn).exp();
        let on = |stiffer: f64, runs_at: f64| {
            let falls = match self.what {
                "stopped" => Falls::stopped(at.weight, spring * stiffer, self.speed),
                _ => Falls::after(at.weight, spring * stiffer, self.falls()),
            };
            Falls { runs_at, ..falls }.followed()
        };
        let slips = self.what == "device slips";
        let [runs_at, before_edge] = match (slips, self.at_anchor) {
            (false, _) => [f64::INFINITY; 2],
            (true, true) => [at.runs_at, at.runs_at * holds_back],
            (true, false) => [at.runs_at; 2],
        };
        let caught = on(1.0, runs_at);
        // With friction the rope behind the edge bears, and gives, that much less.
        let before = on(holds_back, before_edge).pull;
        [
            caught.pull,
            before / holds_back,
            before,
            caught.pull / spring,
            self.falls() + caught.sank,
            if slips { caught.ran } else { 0.0 },
        ]
    }

    /// Every outcome at every corner and at one place inside; and the typical one.
    fn all(&self, dice: &mut Dice) -> ([Vec<f64>; 6], Outcome) {
        let weights = self.crowd.weight();
        let mut all = [const { Vec::new() }; 6];
        let mut take = |at: At| {
            for (all, value) in all.iter_mut().zip(self.worked(at)) {
                all.push(value);
            }
        };
        for corner in super::corners(6) {
            let end = |place: usize, ends: Ends| ends[if corner[place] { 2 } else { 0 }];
            let at = At {
                weight: end(0, weights),
                rope: end(1, self.stiffness),
                leg: end(2, self.leg),
                friction: end(3, self.edge),
                runs_at: end(4, self.runs_at),
                loose: corner[5],
            };
            // What does not count here is taken once.
            let fails = self.what == "anchor fails";
            let counts = [true, true, fails, self.edge[2] > 0.0 && !fails, self.what == "device slips", fails];
            if corner.iter().zip(counts).all(|(high, counts)| counts || !high) {
                take(at);
            }
        }
        let mut inside = |ends: Ends| dice.between(ends[0], ends[2]);
        let at = At {
            weight: inside(weights),
            rope: inside(self.stiffness),
            leg: inside(self.leg),
            friction: inside(self.edge),
            runs_at: inside(self.runs_at),
            loose: false,
        };
        take(at);
        let usual = At {
            weight: weights[1],
            rope: self.stiffness[1],
            leg: self.leg[1],
            friction: self.edge[1],
            runs_at: self.runs_at[1],
            loose: false,
        };
        (all, self.worked(usual))
    }
}

/// A range that holds all values and is reached by them. What grows with one input and shrinks with another may have its
/// least or its most between the corners: it may be that much wider.
fn holds(told: Ends, values: &[f64], typical: f64, wider: f64, what: &str, asked: &Value) {
    let [low, high] = reach(values.iter().copied());
    let near = NEAR * high.abs().max(0.1);
    assert!(told[0] <= low + near && told[2] >= high - near, "{what}: {told:?} does not hold {low} {high}: {asked}");
    let wider = near + wider * (high - low);
    assert!(told[0] >= low - wider && told[2] <= high + wider, "{what}: {told:?} is not reached {low} {high}: {asked}");
    assert!((told[1] - typical).abs() <= near, "{what}: typical {}, not {typical}: {asked}", told[1]);
}

#[test]
fn a_fall_or_a_stop_pulls_and_goes_as_it_does_step_by_step() {
    let mut dice = Dice::new(20_261_130);
    let mut seen = std::collections::BTreeMap::new();
    for number in 0..300 {
        let what = ["slack rope", "cow's tail", "anchor fails", "device slips", "stopped"][number % 5];
        let (rope_is, stiffness) = named(&ROPES, &mut dice);
        let (tail_is, leg) = named(&TAILS, &mut dice);
        let own = dice.chance(0.2);
        let mut own_stiffness = three(&mut dice, 8e3, 80e3);
        if !own {
            own_stiffness = stiffness;
        }
        let edge_is = one_of(&mut dice, &["free", "polished rock", "rough rock", "roller", "timber"]);
        let has_edge = edge_is != "free" && ["slack rope", "device slips", "stopped"].contains(&what);
        let crowd = Crowd::random(&mut dice);
        let rope = dice.between(1.0, 40.0);
        let sling = dice.between(0.2, 3.0);
        let heaviest = crowd.weight()[2];
        let asked_of = Asked {
            what,
            rope,
            stiffness: if what == "cow's tail" { leg } else { own_stiffness },
            leg,
            slack: dice.between(0.0, f64::min(2.0 * rope, 5.0)),
            speed: dice.between(0.2, 8.0),
            edge: if has_edge { friction(edge_is, true) } else { [0.0; 3] },
            turn: dice.between(0.1, 3.0),
            sling,
            above: dice.between(-sling, sling),
            drop: dice.between(0.0, 2.0),
            runs_at: three(&mut dice, 1.2 * heaviest, 1.2 * heaviest + 8e3),
            at_anchor: dice.chance(0.5),
            gives: if dice.chance(0.5) { dice.between(0.0, 0.3) } else { 0.0 },
            crowd,
        };
        let clear = if dice.chance(0.5) { dice.between(0.5, 20.0) } else { 0.0 };
        let mut asked = json!({
            "question": "slip", "what": what, "rope_m": asked_of.rope, "rope": if own { "own" } else { rope_is },
            "stiffness_n": own_stiffness, "slack_m": asked_of.slack, "speed_m_per_s": asked_of.speed, "edge": edge_is,
            "edge_turn_rad": asked_of.turn, "sling": tail_is, "sling_m": sling, "above_m": asked_of.above,
            "drop_m": asked_of.drop, "slips_at_n": asked_of.runs_at, "clear_m": clear,
            "device_at": if asked_of.at_anchor { "anchor" } else { "person" }, "anchor_gives_m": asked_of.gives,
        });
        asked_of.crowd.write(&mut asked);
        let answer = answer(&asked);
        let (all, typical) = asked_of.all(&mut dice);
        let several = asked_of.crowd.count > 1;
        let on = match what {
            "cow's tail" if several => "on the anchor, all falling at once",
            _ if has_edge && several => "on the anchor, all on one rope, edge not counted",
            _ if has_edge => "on the anchor, edge not counted",
            _ if several => "on the anchor, all on one rope",
            _ => "on the anchor and on those who fall",
        };
        assert_eq!(answer.findings[0].what, on, "{asked}");
        let told = ends(&answer.findings[0]);
        holds(told, &all[0], typical[0], 0.0, on, &asked);
        let edge = ["on the anchor, friction of the edge counted", "on those who fall, before the edge"];
        for (what, (values, typical)) in edge.into_iter().zip(all[1..].iter().zip(&typical[1..])).filter(|_| has_edge) {
            holds(found(&answer, what, &asked), values, *typical, 0.02, what, &asked);
        }
        let stretch = "stretch of rope and anchor at the peak";
        holds(found(&answer, stretch, &asked), &all[3], typical[3], 0.02, stretch, &asked);
        let fallen = found(&answer, "fallen in all, stretch included", &asked);
        holds(fallen, &all[4], typical[4], 0.05, "fallen", &asked);
        if what == "device slips" {
            let ran = "of rope run through the device";
            // Where it just begins to run that hangs on a small difference of large numbers.
            let (told, near) = (found(&answer, ran, &asked), 1e-4);
            let [low, high] = reach(all[5].iter().copied());
            assert!(told[2] >= high - near, "{told:?} {low} {high}: {asked}");
            // Behind an edge the rope may stretch less than is followed here, and more runs through: that is told.
            if !has_edge {
                assert!(told[0] <= low + near && told[0] >= 0.95 * low - near, "{told:?} {low} {high}: {asked}");
                assert!(told[2] <= 1.05 * high + near, "{told:?} {low} {high}: {asked}");
                same(told[1], typical[5], near, ran, &asked);
            }
        }
        if several {
            // Of one rope or of as many tails, each gets an equal part.
            let each = found(&answer, "on the harness of each", &asked);
            let values = if has_edge { &all[2] } else { &all[0] };
            let [_, high] = reach(values.iter().copied());
            same(each[2], high / f64::from(asked_of.crowd.count), NEAR, "each", &asked);
        }
        if several && what != "cow's tail" {
            // On a rope each, the anchor gets what each gets alone, or more: on rope that does not carry, in a slip or a jerk.
            let apart = found(&answer, "on the anchor, each on a rope of their own", &asked);
            let count = f64::from(asked_of.crowd.count);
            let alone = Asked { crowd: Crowd { count: 1, ..asked_of.crowd }, ..asked_of };
            let (alone, _) = alone.all(&mut dice);
            let [low, high] = reach(alone[0].iter().map(|force| count * force));
            assert!(
                apart[2] >= high * (1.0 - NEAR) && apart[0] >= low * (1.0 - NEAR),
                "{apart:?} {low} {high}: {asked}"
            );
            if !["stopped", "anchor fails"].contains(&what) {
                same(apart[2], high, NEAR, "on a rope each", &asked);
            }
        }
        let factor = match what {
            "slack rope" | "device slips" => Some(asked_of.slack / rope),
            "cow's tail" => Some((sling + asked_of.above) / sling),
            _ => None,
        };
        if let Some(factor) = factor {
            same(found(&answer, "fall factor", &asked)[2], factor, 1e-9, "fall factor", &asked);
        }
        if clear > 0.0 {
            let left = found(&answer, "left above ledge", &asked);
            let [_, most] = reach(all[4].iter().copied());
            assert!((left[0] - (clear - most)).abs() <= 0.05 * most + NEAR, "{left:?} {most}: {asked}");
        }
        let slipped = what == "device slips" && all[5].iter().any(|ran| *ran > 0.0);
        *seen.entry((what, has_edge, slipped)).or_insert(0) += 1;
    }
    assert!(seen.len() >= 9 && seen.values().all(|times| *times >= 1), "{seen:?}");
}

/// A swing without slack, on a rope that stretches by its pull or on one that does not: the hardest pull and the most to
/// the side, each over the weight; the speed (m/s) where it passes plumb, and at a place (m) to the side of it.
struct Swung {
    pull: f64,
    sideways: f64,
    at_plumb: f64,
    at_place: f64,
}

const STEPS: f64 = 20_000.0;

/// On a rope that does not stretch: the angle is followed.
fn rigid(rope: f64, out: f64, place: f64) -> Swung {
    let begins = (out / rope).asin();
    let step = 2.0 * (rope / GRAVITY).sqrt() / STEPS;
    let (mut angle, mut turns) = (begins, 0.0);
    let mut swung = Swung { pull: 0.0, sideways: 0.0, at_plumb: 0.0, at_place: 0.0 };
    let note = |angle: f64, turns: f64, swung: &mut Swung| {
        let pull = angle.cos() + rope * turns * turns / GRAVITY;
        swung.pull = swung.pull.max(pull);
        swung.sideways = swung.sideways.max((pull * angle.sin()).abs());
    };
    note(angle, turns, &mut swung);
    while turns <= 0.0 {
        let before = (angle, turns);
        // Leapfrog.
        let half = turns - GRAVITY / rope * angle.sin() * step / 2.0;
        angle += half * step;
        turns = half - GRAVITY / rope * angle.sin() * step / 2.0;
        let crossed = |at: f64| {
            let share = (before.0 - at) / (before.0 - angle);
            (rope * (before.1 + share * (turns - before.1))).abs()
        };
        if before.0 > 0.0 && angle <= 0.0 {
            swung.at_plumb = crossed(0.0);
        }
        let meets = (place / rope).asin();
        if before.0 > meets && angle <= meets {
            swung.at_place = crossed(meets);
        }
        note(angle, turns, &mut swung);
    }
    swung
}

/// On a rope that is only just straight where it begins, and stretches: places in the plane are followed.
fn elastic(rope: f64, out: f64, strain: f64) -> [f64; 2] {
    let spring = GRAVITY / (rope * strain);
    let step = 5e-3 / spring.sqrt();
    let (mut at, mut speed) = ([out, -(rope * rope - out * out).sqrt()], [0.0; 2]);
    let (mut most, mut sideways) = (0.0_f64, 0.0_f64);
    let pull = |at: [f64; 2]| {
        let long = at[0].hypot(at[1]);
        let size = spring * (long - rope).max(0.0);
        [-size * at[0] / long, -size * at[1] / long]
    };
    // The first swing ends where it turns on the other side.
    loop {
        let before = pull(at);
        let half = [speed[0] + before[0] * step / 2.0, speed[1] + (before[1] - GRAVITY) * step / 2.0];
        at = [at[0] + half[0] * step, at[1] + half[1] * step];
        let after = pull(at);
        speed = [half[0] + after[0] * step / 2.0, half[1] + (after[1] - GRAVITY) * step / 2.0];
        most = most.max(after[0].hypot(after[1]) / GRAVITY);
        sideways = sideways.max(after[0].abs() / GRAVITY);
        if at[0] < 0.0 && speed[0] >= 0.0 {
            return [most, sideways];
        }
    }
}

#[test]
fn a_swing_goes_as_it_does_step_by_step() {
    let mut dice = Dice::new(20_261_131);
    let mut nearest = [0.0_f64; 2];
    for _ in 0..100 {
        let rope = dice.between(2.0, 40.0);
        let out = rope * dice.between(0.05, 0.99);
        let wall = dice.chance(0.5);
        let wall_out = dice.between(-out, out);
        let lip = dice.between(0.0, rope);
        let (rope_is, stiffness) = named(&ROPES, &mut dice);
        // More would stretch the softest of the ropes beyond half of its length, and is refused.
        let mut crowd = Crowd::random(&mut dice);
        crowd.count = crowd.count.min(2);
        let mut asked = json!({
            "question": "slip", "what": "swing", "rope_m": rope, "rope": rope_is, "out_m": out, "wall_out_m": wall_out,
            "obstacle": if wall { "wall" } else { "none" }, "lip_m": lip, "deviation_rope_m": 0, "clear_m": 0,
        });
        crowd.write(&mut asked);
        let answer = answer(&asked);
        let weight = crowd.weight();
        let swung = rigid(rope, out, wall_out);
        let bottom = found(&answer, "on the anchor at the bottom of the first swing", &asked);
        let aside = found(&answer, "on the anchor to the side", &asked);
        // Two of three ends are those of a rope that does not stretch.
        for (end, weight) in weight.iter().enumerate().take(2) {
            same(bottom[end], weight * swung.pull, NEAR, "bottom", &asked);
            same(aside[end], weight * swung.sideways, NEAR, "aside", &asked);
        }
        let most = elastic(rope, out, weight[2] / stiffness[0]);
        let other = elastic(rope, out, weight[2] / stiffness[2]);
        for (number, (told, size)) in [(bottom[2], "bottom"), (aside[2], "aside")].into_iter().enumerate() {
            let walked = weight[2] * most[number].max(other[number]).max([swung.pull, swung.sideways][number]);
            assert!(told >= walked * (1.0 - 1e-3), "{size}: {told} is no bound of {walked}: {asked}");
            nearest[number] = nearest[number].max(walked / told);
        }
        let fall = |speed: f64| speed * speed / (2.0 * GRAVITY);
        let plumb = found(&answer, "of free fall would give the speed at the bottom", &asked);
        same(plumb[0], fall(swung.at_plumb), NEAR, "as a fall", &asked);
        // A rope that stretches lets the person come lower, and no faster than by that.
        let stretch = found(&answer, "stretch of rope and anchor at the peak", &asked);
        for end in [0, 2] {
            same(stretch[end], bottom[end] / [stiffness[2], 0.0, stiffness[0]][end] * rope, 1e-9, "stretch", &asked);
        }
        same(plumb[2], plumb[0] + stretch[2], 1e-9, "as a fall at most", &asked);
        let down = found(&answer, "down from where it begins", &asked);
        let depth = rope - (rope * rope - out * out).sqrt();
        same(down[2], depth + stretch[2], 1e-9, "down", &asked);
        let across = found(&answer, "across to", &asked);
        let sawn_to = if wall {
            let met = found(&answer, "of free fall would give the speed at which the wall is met", &asked);
            same(met[0], fall(swung.at_place), NEAR, "at the wall", &asked);
            same(across[2], out - wall_out, 1e-9, "across", &asked);
            wall_out
        } else {
            same(across[0], 2.0 * out, 1e-9, "across", &asked);
            -out
        };
        // The straight rope meets the level of the lip there, or the person does who is above it.
        let crosses = |out: f64| {
            let down = (rope * rope - out * out).sqrt();
            let at_lip = (rope * rope - lip * lip).sqrt();
            if down > lip { out * lip / down } else { at_lip.copysign(out) }
        };
        let sawn = (crosses(out) - crosses(sawn_to)).abs();
        same(found(&answer, "of lip that the rope saws along", &asked)[2], sawn, 1e-9, "sawn", &asked);
    }
    assert!(nearest[0] > 0.99 && nearest[1] > 0.93, "the bounds are far off: {nearest:?}");
}
