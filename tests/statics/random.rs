//! Random rigs, the same ones in every run.

use checks::Dice;
use rigging_core::statics::{PointId, Rig, Vector};

/// The same seed gives the same rigs everywhere; neighbours are far apart in the sequence of numbers.
pub fn dice(seed: u64) -> Dice {
    Dice::new(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0x5DEE_CE66)
}

fn place(dice: &mut Dice, size: f64) -> Vector {
    Vector::new(dice.between(-size, size), dice.between(-size, size), dice.between(-size, size))
}

fn load(dice: &mut Dice) -> Vector {
    if dice.chance(0.1) {
        return Vector::zeros();
    }
    let size = dice.decades(1.0, 10_000.0);
    if dice.chance(0.5) { Vector::new(0.0, 0.0, -size) } else { place(dice, size) }
}

/// What a random rig may contain.
#[derive(Clone, Copy)]
pub struct Kind {
    /// Lines with weight.
    pub heavy: bool,
    /// Largest stiffness (N).
    pub stiffest: f64,
}

/// Legs from anchors to one point; also nearly straight ones, and ones too short or too long.
pub fn legs(dice: &mut Dice, kind: Kind) -> Rig {
    let mut rig = Rig::new();
    let flat = dice.chance(0.3);
    let spread = if dice.chance(0.2) { 0.01 } else { 1.0 };
    let anchors: Vec<(PointId, Vector)> = (0..dice.count(2, 6))
        .map(|number| {
            let mut at = place(dice, 1.0);
            at.z *= spread;
            if flat {
                at.y = 0.0;
            }
            (rig.add_held(format!("anchor {number}"), at).unwrap(), at)
        })
        .collect();
    let guess = first_guess(dice, &anchors);
    let load = load(dice);
    let master = rig.add_free("master point", guess, load).unwrap();
    for (number, &(anchor, at)) in anchors.iter().enumerate() {
        let drawn = (guess - at).norm().max(0.05);
        let length = drawn * dice.between(0.8, 1.2);
        let stiffness = dice.decades(5e3, kind.stiffest);
        let weight = if kind.heavy && dice.chance(0.5) { dice.decades(1e-3, 10.0) } else { 0.0 };
        rig.add_heavy_line(format!("leg {number}"), &[anchor, master], length, stiffness, weight).unwrap();
    }
    rig
}

/// A closed sling that runs through every anchor and the point between them.
pub fn sling(dice: &mut Dice, kind: Kind) -> Rig {
    let mut rig = Rig::new();
    let anchors: Vec<(PointId, Vector)> = (0..dice.count(2, 4))
        .map(|number| {
            let at = place(dice, 1.0);
            (rig.add_held(format!("anchor {number}"), at).unwrap(), at)
        })
        .collect();
    let guess = first_guess(dice, &anchors);
    let load = load(dice);
    let master = rig.add_free("master point", guess, load).unwrap();
    let every_time = dice.chance(0.5);
    let mut through = vec![master];
    let mut drawn = 0.0;
    let mut last = guess;
    for &(anchor, at) in &anchors {
        through.push(anchor);
        drawn += (at - last).norm();
        last = at;
        if every_time {
            through.push(master);
            drawn += (at - guess).norm();
            last = guess;
        }
    }
    if !every_time {
        through.push(master);
        drawn += (last - guess).norm();
    }
    let length = drawn.max(0.1) * dice.between(0.9, 1.2);
    let stiffness = dice.decades(5e3, kind.stiffest);
    rig.add_line("sling", &through, length, stiffness).unwrap();
    rig
}

/// A ring on a guide line with a load below it and a line that holds it back.
pub fn guide(dice: &mut Dice, kind: Kind) -> Rig {
    let mut rig = Rig::new();
    let down = Vector::new(dice.between(5.0, 20.0), dice.between(-3.0, 3.0), dice.between(-25.0, 2.0));
    let top = rig.add_held("top", [0.0, 0.0, 0.0]).unwrap();
    let foot = rig.add_held("foot", down).unwrap();
    let side = rig.add_held("side", place(dice, 0.5)).unwrap();
    let share = dice.between(0.0, 1.0);
    let ring = rig.add_free("ring", down * share, Vector::zeros()).unwrap();
    let below = down * share - Vector::new(0.0, 0.0, 0.5);
    let load = load(dice);
    let person = rig.add_free("person", below, load).unwrap();
    let stiffness = dice.decades(5e3, kind.stiffest);
    rig.add_line("guide line", &[top, ring, foot], down.norm() * dice.between(0.97, 1.1), stiffness).unwrap();
    rig.add_line("lanyard", &[ring, person], 0.5, 50_000.0).unwrap();
    let back = below.norm().max(0.3) * dice.between(0.7, 1.3);
    let weight = if kind.heavy { dice.decades(0.1, 1.0) } else { 0.0 };
    rig.add_heavy_line("hand line", &[side, person], back, dice.decades(5e3, kind.stiffest), weight).unwrap();
    rig
}

/// Points and lines without a plan: lines through several points, through one point twice, between
/// coincident points, points that only a slack line reaches.
pub fn net(dice: &mut Dice, kind: Kind) -> Rig {
    let mut rig = Rig::new();
    let mut all: Vec<(PointId, Vector)> = Vec::new();
    for number in 0..dice.count(1, 4) {
        let at = place(dice, 2.0);
        all.push((rig.add_held(format!("anchor {number}"), at).unwrap(), at));
    }
    for number in 0..dice.count(1, 6) {
        let at = first_guess(dice, &all);
        let load = load(dice);
        let id = rig.add_free(format!("point {number}"), at, load).unwrap();
        // Every point hangs on something: a load is always held.
        let &(other, there) = &all[dice.count(0, all.len() - 1)];
        let length = (at - there).norm().max(0.05) * dice.between(0.8, 1.3);
        let weight = if kind.heavy && dice.chance(0.3) { dice.decades(1e-3, 10.0) } else { 0.0 };
        let stiffness = dice.decades(5e3, kind.stiffest);
        rig.add_heavy_line(format!("own {number}"), &[other, id], length, stiffness, weight).unwrap();
        all.push((id, at));
    }
    for number in 0..dice.count(0, 6) {
        let stops: Vec<(PointId, Vector)> = (0..dice.count(2, 5)).map(|_| all[dice.count(0, all.len() - 1)]).collect();
        let drawn: f64 = stops.windows(2).map(|pair| (pair[1].1 - pair[0].1).norm()).sum();
        let through: Vec<PointId> = stops.iter().map(|stop| stop.0).collect();
        let stiffness = dice.decades(5e3, kind.stiffest);
        let length = drawn.max(0.05) * dice.between(0.8, 1.3);
        rig.add_line(format!("line {number}"), &through, length, stiffness).unwrap();
    }
    rig
}

/// A chain of short lines between two anchors, with loads on its points.
pub fn chain(dice: &mut Dice, kind: Kind) -> Rig {
    let mut rig = Rig::new();
    let bays = dice.count(2, 9);
    let far = Vector::new(dice.between(1.0, 20.0), 0.0, dice.between(-5.0, 5.0));
    let mut last = rig.add_held("near", [0.0, 0.0, 0.0]).unwrap();
    let end = rig.add_held("far", far).unwrap();
    let bay = far.norm() / bays as f64 * dice.between(0.98, 1.1);
    let stiffness = dice.decades(5e3, kind.stiffest);
    for number in 0..bays {
        let next = if number + 1 == bays {
            end
        } else {
            let load = load(dice);
            rig.add_free(format!("point {number}"), far * ((number + 1) as f64 / bays as f64), load).unwrap()
        };
        let weight = if kind.heavy { dice.decades(1e-3, 10.0) } else { 0.0 };
        rig.add_heavy_line(format!("bay {number}"), &[last, next], bay, stiffness, weight).unwrap();
        last = next;
    }
    rig
}

/// Any of the above.
pub fn any(dice: &mut Dice, kind: Kind) -> Rig {
    match dice.count(0, 4) {
        0 => legs(dice, kind),
        1 => sling(dice, kind),
        2 => guide(dice, kind),
        3 => net(dice, kind),
        _ => chain(dice, kind),
    }
}

/// Somewhere, now and then exactly on a point that is already there.
fn first_guess(dice: &mut Dice, others: &[(PointId, Vector)]) -> Vector {
    if dice.chance(0.15) { others[dice.count(0, others.len() - 1)].1 } else { place(dice, 1.5) }
}
