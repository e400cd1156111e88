//! People who hold, by the contact under each of them and by the work of a body that tips.

use super::{Crowd, Ends, GRAVITY, all_same, answer, corners, found, friction, last_that, one_of, reach, same, three};
use crate::dice::Dice;
use serde_json::{Value, json};
use std::f64::consts::FRAC_PI_2;

type Arrow = [f64; 3];

fn along(one: Arrow, other: Arrow) -> f64 {
    one.iter().zip(other).map(|(one, other)| one * other).sum()
}

fn sum(of: &[(f64, Arrow)]) -> Arrow {
    [0, 1, 2].map(|part| of.iter().map(|(size, arrow)| size * arrow[part]).sum())
}

fn unit(arrow: Arrow) -> Arrow {
    let size = along(arrow, arrow).sqrt();
    arrow.map(|part| part / size)
}

/// How a stance was tried and what it is in numbers, assumed: pounds held on average for several seconds (stance trials
/// told in a mountaineering handbook; half of that where not tried, or where fewer than half held it); the weight and
/// the rope behind the feet, the rope above them, and half the width of what bears the body, m.
struct Stance {
    pounds: f64,
    weight_behind: f64,
    rope_behind: f64,
    rope_above: f64,
    half_width: f64,
}

fn stance(name: &str) -> Stance {
    let [pounds, behind, rope_above, half_width] = match name {
        "seated braced" => [350.0, 0.65, 0.20, 0.20],
        "seated" => [175.0, 0.65, 0.20, 0.20],
        "foot forward" => [200.0, 0.35, 1.0, 0.15],
        "feet together" => [100.0, 0.12, 1.0, 0.12],
        other => panic!("stance {other}"),
    };
    Stance { pounds, weight_behind: behind, rope_behind: behind, rope_above, half_width }
}

/// Friction of what they are on: wet suits assumed, soles and loose ground from memory.
fn seat(name: &str) -> Ends {
    match name {
        "clean wet rock" => [0.20, 0.35, 0.50],
        "slippery rock" => [0.10, 0.25, 0.45],
        "soles on wet rock" => [0.4, 0.55, 0.7],
        "soles on dry rock" => [0.7, 0.85, 1.0],
        "gravel" => [0.4, 0.5, 0.6],
        "mud" => [0.15, 0.25, 0.35],
        "soles on slippery rock" => [0.10, 0.20, 0.30],
        other => panic!("seat {other}"),
    }
}

const SEATED: [&str; 2] = ["seated braced", "seated"];
const STANDING: [&str; 2] = ["foot forward", "feet together"];

/// The same ground under somebody else's stance: nobody sits on soles or stands on a wet suit.
fn seat_of(seat: &str, seated: bool) -> &str {
    match (seat, seated) {
        ("soles on wet rock" | "soles on dry rock", true) => "clean wet rock",
        ("soles on slippery rock", true) => "slippery rock",
        ("clean wet rock", false) => "soles on wet rock",
        ("slippery rock", false) => "soles on slippery rock",
        _ => seat,
    }
}

/// Someone in line, seen along the rope.
#[derive(Clone, Copy)]
struct Held {
    stance: &'static str,
    seat: &'static str,
    mass: f64,
    /// How far the ground falls for each metre along the rope, and across it.
    falls: f64,
    across: f64,
    /// How far the rope rises for each metre along the level.
    rises: f64,
    /// The rope above the feet, m.
    height: f64,
    /// To one side of straight ahead, rad.
    aside: f64,
}

/// What is not known of everybody: the place in the range of friction from −1 to 1, and what of the trial is left for
/// minutes.
#[derive(Clone, Copy)]
struct Strength {
    place: f64,
    minutes: f64,
}

/// What one holds, and what they pull who slide by themselves, N.
struct Hold {
    holds: f64,
    pulls: f64,
}

impl Held {
    fn holds(&self, strength: Strength) -> Hold {
        let weight = self.mass * GRAVITY;
        let [low, typical, high] = seat(self.seat);
        let end = if strength.place < 0.0 { low } else { high };
        let rubs = typical + strength.place.abs() * (end - typical);
        let Stance { pounds, weight_behind, rope_behind, half_width, .. } = stance(self.stance);
        // Outside the feet, half of it was held in the trials; the trials are scaled from 80 kg (assumed).
        let outside = if self.aside > 0.26 { 0.5 } else { 1.0 };
        let trial = pounds * 4.448_221_615_260_5 * self.mass / 80.0 * strength.minutes * outside;
        // What the feet push is what the trial left over the friction of a seat on clean wet rock, or of this one.
        let push = match self.stance {
            "seated braced" => (trial - f64::max(0.35, typical) * weight).max(0.0),
            _ => 0.0,
        };

        // The ground, and the rope in the upright plane along it.
        let normal = unit([self.falls, self.across, 1.0]);
        let down = unit([1.0, 0.0, -self.falls]);
        let square = unit([self.falls, 0.0, 1.0]);
        let rope = unit([1.0, 0.0, self.rises]);
        let (pulls_along, lifts) = (along(rope, down), along(rope, square));
        // A rope that lifts takes weight off the ground, but is not counted to take off what pulls to the side.
        let lift_on = if lifts > 0.0 { normal } else { square };
        let contact = |pull: f64| {
            let force = sum(&[(weight, [0.0, 0.0, -1.0]), (pull * pulls_along, down), (pull * lifts, lift_on)]);
            let presses = -along(force, normal);
            let ahead = along(force, down);
            let across = sum(&[(1.0, force), (presses, normal), (-ahead, down)]);
            // Feet push straight back, as hard as serves best, and so to the side if the rope runs to one: tried by thirds.
            let across = along(across, across).sqrt();
            let left =
                |pushed: f64| (ahead - pushed * self.aside.cos()).max(0.0).hypot(across + pushed * self.aside.sin());
            let (mut none, mut all) = (0.0, push);
            for _ in 0..80 {
                let third = (all - none) / 3.0;
                if left(none + third) <= left(all - third) {
                    all -= third;
                } else {
                    none += third;
                }
            }
            (presses, left(none).min(left(all)))
        };
        let stays = |pull: f64| {
            let (presses, drags) = contact(pull);
            presses >= 0.0 && drags <= rubs * presses
        };
        // However the rope runs, nobody holds more than the trial.
        let dragged = match (stays(0.0), stays(trial)) {
            (false, _) => 0.0,
            (true, true) => trial,
            (true, false) => last_that(stays, 0.0, trial),
        };
        let (presses, drags) = contact(0.0);
        let pulls = (drags - rubs * presses).max(0.0);

        // Tipped a little over its edge a body lifts its weight and gives way to the rope: work against work. Feet on
        // ground that falls are lower than the body.
        let tips = |weight_at: f64, [out, up]: [f64; 2]| {
            const LITTLE: f64 = 1e-5;
            let moved = |angle: f64| {
                // Over the edge at the origin, forward.
                let [x, y] = super::turned([-out, up], -angle);
                (x + self.rises * y) / self.rises.hypot(1.0)
            };
            let way = (moved(LITTLE) - moved(-LITTLE)) / (2.0 * LITTLE);
            let lifted = (super::turned([-weight_at, 1.0], -LITTLE)[1] - super::turned([-weight_at, 1.0], LITTLE)[1])
                / (2.0 * LITTLE);
            if way > 0.0 { weight * lifted / way } else { f64::INFINITY }
        };
        let up = self.height + rope_behind * self.falls.max(0.0);
        let forward = tips(weight_behind, [rope_behind, up]);
        let to_side = tips(half_width, [half_width, self.height * self.aside.sin()]);
        Hold { holds: dragged.min(forward).min(to_side), pulls }
    }
}

struct Person {
    /// None if in all as the first.
    stance: Option<&'static str>,
    mass: f64,
    falls: [f64; 2],
}

struct Line {
    first: &'static str,
    seat: &'static str,
    falls: [f64; 2],
    mass: Ends,
    further: Vec<Person>,
    to_lip: f64,
    to_side: f64,
    above_lip: f64,
    raised: f64,
}

impl Line {
    /// Someone as the rope pulls, and as if it ran straight down ground that does not fall to a side: the one that
    /// holds least counts.
    fn least<const N: usize>(ways: [Held; N], strength: Strength) -> Hold {
        let holds = ways.map(|held| held.holds(strength));
        let least = holds.iter().map(|hold| hold.holds).fold(f64::INFINITY, f64::min);
        Hold { holds: least, pulls: holds.iter().map(|hold| hold.pulls).fold(0.0, f64::max) }
    }

    fn height(&self, stance_is: &str) -> f64 {
        (stance(stance_is).rope_above + self.raised).max(0.05)
    }

    /// Someone on ground that falls ahead and to the worse side, the rope level.
    fn on(&self, straight: bool, stance: &'static str, mass: f64, [falls, side]: [f64; 2]) -> Held {
        let aside = (self.to_side / self.to_lip).atan();
        let (aside, side) = if straight { (0.0, 0.0) } else { (aside, side) };
        let (sine, cosine) = aside.sin_cos();
        Held {
            stance,
            seat: seat_of(self.seat, SEATED.contains(&stance)),
            mass,
            falls: f64::max(falls, falls * cosine + side * sine),
            across: side * cosine + falls.abs() * sine,
            rises: 0.0,
            height: self.height(stance),
            aside,
        }
    }

    /// What the first holds, and all together.
    fn together(&self, mass: f64, strength: Strength, share: f64) -> [f64; 2] {
        let first = |straight: bool, way: f64| {
            let one = self.on(straight, self.first, mass, self.falls);
            // A rope that runs down is not counted to press harder than one along the ground.
            Held { rises: f64::max(-self.above_lip / way, -one.falls), ..one }
        };
        let first = [first(false, self.to_lip.hypot(self.to_side)), first(true, self.to_lip)];
        let first = Self::least(first, strength);
        let mut all = first.holds - first.pulls;
        let mut before = self.height(self.first);
        for person in &self.further {
            let (stance, mass, falls) = match person.stance {
                None => (self.first, mass, self.falls),
                Some(stance) => (stance, person.mass, person.falls),
            };
            let one = |straight: bool| {
                let one = self.on(straight, stance, mass, falls);
                // Along the ground to the one before, 1.1 m ahead (assumed), up to a rope that is higher there; a rope
                // along ground that falls is no nearer to the feet than over level ground.
                let rises = (before - one.height).max(0.0) / 1.1 - one.falls;
                Held { rises, height: one.height * one.falls.max(0.0).hypot(1.0), ..one }
            };
            let hold = Self::least([one(false), one(true)], strength);
            all += share * hold.holds - hold.pulls;
            before = self.height(stance);
        }
        [first.holds, all.max(0.0)]
    }
}

fn random(dice: &mut Dice) -> Line {
    let seated = dice.chance(0.5);
    let (stances, seats) = if seated {
        (SEATED, ["clean wet rock", "slippery rock", "gravel", "mud"])
    } else {
        (STANDING, ["soles on wet rock", "soles on dry rock", "gravel", "soles on slippery rock"])
    };
    let falls = |dice: &mut Dice| {
        let side = if dice.chance(0.5) { 0.0 } else { dice.between(0.0, 0.4) };
        [dice.between(-0.3, 0.4), side]
    };
    let first = one_of(dice, &stances);
    let further = (0..dice.between(0.0, 6.0) as usize)
        .map(|_| Person {
            stance: dice.chance(0.6).then(|| one_of(dice, &[SEATED, STANDING].concat())),
            mass: dice.between(45.0, 130.0),
            falls: falls(dice),
        })
        .collect();
    let to_lip = dice.between(0.8, 8.0);
    // Straight on, anywhere, or about where the rope runs outside the feet.
    let to_side = match dice.between(0.0, 4.0) as u32 {
        0 => dice.between(0.0, 4.0),
        1 => to_lip * dice.between(0.20, 0.32),
        _ => 0.0,
    };
    Line {
        first,
        seat: one_of(dice, &seats),
        falls: falls(dice),
        mass: three(dice, 45.0, 130.0),
        further,
        to_lip,
        to_side,
        above_lip: dice.between(-1.0, 1.0),
        raised: if dice.chance(0.5) { 0.0 } else { dice.between(-0.3, 0.5) },
    }
}

fn asked_of(line: &Line) -> Value {
    let mut asked = json!({
        "question": "human anchor", "holders": line.further.len() + 1, "holder_kg": line.mass, "stance": line.first,
        "seat": line.seat, "floor_falls": line.falls[0], "side_falls": line.falls[1], "to_lip_m": line.to_lip,
        "to_side_m": line.to_side, "above_lip_m": line.above_lip, "raised_m": line.raised,
    });
    for (place, person) in line.further.iter().enumerate() {
        let number = place + 2;
        asked[format!("stance_{number}")] = json!(person.stance.unwrap_or("as the first"));
        asked[format!("holder_{number}_kg")] = json!(person.mass);
        asked[format!("floor_falls_{number}")] = json!(person.falls[0]);
        asked[format!("side_falls_{number}")] = json!(person.falls[1]);
    }
    asked
}

#[test]
fn people_hold_what_the_contact_and_the_work_of_tipping_allow() {
    let mut dice = Dice::new(20_261_133);
    let (mut nothing, mut some) = (0, 0);
    for _ in 0..300 {
        let line = random(&mut dice);
        let mut asked = asked_of(&line);
        let crowd = Crowd::random(&mut dice);
        let hung = dice.chance(0.5);
        let edge = one_of(&mut dice, &["free", "polished rock", "rough rock", "roller", "timber"]);
        let rest = three(&mut dice, 100.0, 2000.0);
        let slip = three(&mut dice, 2000.0, 8000.0);
        crowd.write(&mut asked);
        asked["edge"] = json!(edge);
        asked["forces"] = json!(if hung { "people" } else { "taken" });
        asked["still_n"] = json!(rest);
        asked["caught_n"] = json!(slip);
        let answer = answer(&asked);

        // Muscles at half force last about a minute: a quarter to a half of the trial (assumed). Each further person
        // adds none to 0.8 of their own hold (assumed).
        let (minutes, shares) = ([0.25, 0.38, 0.50], [0.0, 0.5, 0.8]);
        let strength = |place, minutes| Strength { place, minutes };
        let usual = line.together(line.mass[1], strength(0.0, minutes[1]), shares[1]);
        let (mut alone, mut all) = (vec![usual[0]], vec![usual[1]]);
        for corner in corners(4) {
            let end = |place: usize, ends: Ends| ends[if corner[place] { 2 } else { 0 }];
            let at = strength(end(0, [-1.0, 0.0, 1.0]), end(1, minutes));
            let [first, together] = line.together(end(2, line.mass), at, end(3, shares));
            alone.push(first);
            all.push(together);
        }
        let expected = |values: &[f64], typical: f64| {
            let [low, high] = reach(values.iter().copied());
            [low, typical, high]
        };
        let (alone, all) = (expected(&alone, usual[0]), expected(&all, usual[1]));
        let told = found(&answer, "held by all of them together", &asked);
        all_same(told, all, 1e-6, "all", &asked);
        all_same(found(&answer, "held by the first person alone", &asked), alone, 1e-6, "alone", &asked);
        for _ in 0..3 {
            let at = strength(dice.between(-1.0, 1.0), dice.between(0.25, 0.5));
            let mass = dice.between(line.mass[0], line.mass[2]);
            let [_, inside] = line.together(mass, at, dice.between(0.0, 0.8));
            assert!(told[0] - 1e-6 <= inside && inside <= told[2] + 1e-6, "{inside} {told:?}: {asked}");
        }
        if all[0] == 0.0 {
            nothing += 1
        } else {
            some += 1
        }

        let (rest, slip) = if hung { (crowd.load("still"), crowd.load("slip")) } else { (rest, slip) };
        let ratio = |pull: Ends| [all[0] / pull[2], all[1] / pull[1], all[2] / pull[0]];
        all_same(found(&answer, "ratio at rest", &asked), ratio(rest), 1e-6, "at rest", &asked);
        all_same(found(&answer, "ratio at a slip", &asked), ratio(slip), 1e-6, "at a slip", &asked);
        same(found(&answer, "from the first person to the lip", &asked)[0], line.to_lip, 1e-12, "to the lip", &asked);
        // From its way to the lip the rope turns to hang plumb; straight on is the shorter way.
        // Straight to the lip or to one side of it: the way that turns less.
        let turns = [line.to_lip, line.to_lip.hypot(line.to_side)].map(|way| FRAC_PI_2 - (line.above_lip / way).atan());
        let turns = turns[0].min(turns[1]).max(0.0);
        let counted = |edge: &str| {
            let helps = friction(edge, true).map(|friction| (friction * turns).exp());
            [0, 1, 2].map(|end| all[end] * helps[end])
        };
        if edge != "free" {
            let told = found(&answer, "held by all, friction of the edge counted", &asked);
            all_same(told, counted(edge), 1e-6, "counted", &asked);
            if edge != "roller" {
                let told = found(&answer, "held by all with a roller", &asked);
                all_same(told, counted("roller"), 1e-6, "on a roller", &asked);
            }
        }
    }
    assert!(nothing > 20 && some > 150, "{nothing} lines hold nothing at the adverse end, {some} do");
}
