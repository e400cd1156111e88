//! What must not change an answer.

use rigging_core::statics::{PointId, Rig, Settings, Solver, Vector, solve};

use crate::random::{Kind, any, dice};

/// A rig written anew, with every place, load, length and so on passed through a change.
struct Change {
    place: fn(Vector) -> Vector,
    load: fn(Vector) -> Vector,
    length: f64,
    stiffness: f64,
    weight: f64,
    reversed: bool,
    prefix: &'static str,
}

const SAME: Change = Change {
    place: |place| place,
    load: |load| load,
    length: 1.0,
    stiffness: 1.0,
    weight: 1.0,
    reversed: false,
    prefix: "",
};

fn written_anew(rig: &Rig, change: &Change) -> Rig {
    let mut new = Rig::new();
    let mut ids: Vec<PointId> = Vec::new();
    for point in rig.points() {
        let name = format!("{}{}", change.prefix, point.name());
        let (at, load) = ((change.place)(point.at()), (change.load)(point.load()));
        ids.push(if point.is_held() { new.add_held(name, at).unwrap() } else { new.add_free(name, at, load).unwrap() });
    }
    for line in rig.lines() {
        let mut through: Vec<PointId> = line
            .through()
            .map(|id| ids[rig.points().iter().position(|point| rig.point_named(point.name()) == Some(id)).unwrap()])
            .collect();
        if change.reversed {
            through.reverse();
        }
        new.add_heavy_line(
            format!("{}{}", change.prefix, line.name()),
            &through,
            line.length() * change.length,
            line.stiffness() * change.stiffness,
            line.weight() * change.weight,
        )
        .unwrap();
    }
    new
}

/// Tensions of the changed rig, divided by `force`, are those of the rig itself.
fn same_tensions(kind: Kind, change: &Change, force: f64) {
    let mut compared = 0;
    for seed in 0..400 {
        let rig = any(&mut dice(seed), kind);
        let new = written_anew(&rig, change);
        let (old, new) = (solve(&rig, &Settings::default()), solve(&new, &Settings::default()));
        let (Some(old), Some(new)) = (old.balanced(), new.balanced()) else {
            continue;
        };
        compared += 1;
        let largest = old.lines.iter().map(|line| line.tension()).fold(1e-6, f64::max);
        for (old, new) in old.lines.iter().zip(&new.lines) {
            let (first, last) = if change.reversed {
                (new.tension_last, new.tension_first)
            } else {
                (new.tension_first, new.tension_last)
            };
            let difference = (old.tension_first - first / force).abs().max((old.tension_last - last / force).abs());
            assert!(difference <= 1e-6 * largest, "seed {seed}: {} and {}", old.tension_first, first / force);
        }
    }
    assert!(compared >= 396, "only {compared} compared");
}

const ROPE: Kind = Kind { heavy: false, stiffest: 3e5 };
const HEAVY: Kind = Kind { heavy: true, stiffest: 3e5 };

#[test]
fn turning_a_rig_without_weight_any_way_changes_no_tension() {
    // 0.6² + 0.8² = 1: a turn about x, then about z.
    fn turn(v: Vector) -> Vector {
        let v = Vector::new(v.x, 0.6 * v.y - 0.8 * v.z, 0.8 * v.y + 0.6 * v.z);
        Vector::new(0.8 * v.x - 0.6 * v.y, 0.6 * v.x + 0.8 * v.y, v.z)
    }
    same_tensions(ROPE, &Change { place: turn, load: turn, ..SAME }, 1.0);
}

#[test]
fn turning_a_rig_with_weight_about_the_vertical_changes_no_tension() {
    fn turn(v: Vector) -> Vector {
        Vector::new(0.8 * v.x - 0.6 * v.y, 0.6 * v.x + 0.8 * v.y, v.z)
    }
    same_tensions(HEAVY, &Change { place: turn, load: turn, ..SAME }, 1.0);
}

#[test]
fn moving_a_rig_changes_no_tension() {
    same_tensions(HEAVY, &Change { place: |v| v + Vector::new(1000.0, -500.0, 300.0), ..SAME }, 1.0);
}

#[test]
fn the_scale_of_length_changes_no_tension() {
    same_tensions(HEAVY, &Change { place: |v| v * 1000.0, length: 1000.0, weight: 1e-3, ..SAME }, 1.0);
}

#[test]
fn the_scale_of_force_scales_every_tension() {
    same_tensions(HEAVY, &Change { load: |v| v * 1000.0, stiffness: 1000.0, weight: 1000.0, ..SAME }, 1000.0);
}

#[test]
fn names_change_no_tension() {
    same_tensions(HEAVY, &Change { prefix: "another ", ..SAME }, 1.0);
}

#[test]
fn reversing_every_line_changes_no_tension() {
    same_tensions(HEAVY, &Change { reversed: true, ..SAME }, 1.0);
}

#[test]
fn splitting_a_line_in_two_changes_no_tension() {
    for weight in [0.0, 0.7, 5.0] {
        for load in [0.0, 800.0] {
            let mut whole = Rig::new();
            let mut split = Rig::new();
            for rig in [&mut whole, &mut split] {
                rig.add_held("near", [0.0, 0.0, 0.0]).unwrap();
                rig.add_held("far", [9.0, 2.0, -1.5]).unwrap();
                rig.add_free("person", [4.0, 0.0, -1.0], [0.0, 0.0, -load]).unwrap();
            }
            let named = |rig: &Rig, name: &str| rig.point_named(name).unwrap();
            let ends = [named(&whole, "near"), named(&whole, "person"), named(&whole, "far")];
            whole.add_heavy_line("left", &ends[..2], 5.0, 25_000.0, weight).unwrap();
            whole.add_heavy_line("right", &ends[1..], 4.6, 25_000.0, weight).unwrap();
            let knot = split.add_free("knot", [1.0, 1.0, -2.0], [0.0, 0.0, 0.0]).unwrap();
            split.add_heavy_line("left, first half", &[ends[0], knot], 2.0, 25_000.0, weight).unwrap();
            split.add_heavy_line("left, second half", &[knot, ends[1]], 3.0, 25_000.0, weight).unwrap();
            split.add_heavy_line("right", &ends[1..], 4.6, 25_000.0, weight).unwrap();
            let (whole, split) = (solve(&whole, &Settings::default()), solve(&split, &Settings::default()));
            let (whole, split) = (whole.balanced().unwrap(), split.balanced().unwrap());
            let close = |a: f64, b: f64| assert!((a - b).abs() <= 1e-8 * (1.0 + a.abs()), "{a} and {b}");
            close(whole.lines[0].tension_first, split.lines[0].tension_first);
            close(whole.lines[0].tension_last, split.lines[1].tension_last);
            // The path of a slack line is anybody's guess.
            if weight + load > 0.0 {
                close(whole.lines[0].length, split.lines[0].length + split.lines[1].length);
            }
            close(whole.lines[1].tension_first, split.lines[2].tension_first);
        }
    }
}

#[test]
fn what_was_solved_before_does_not_matter() {
    let mut solver = Solver::default();
    for seed in 0..1000 {
        let kind = Kind { heavy: seed % 3 == 0, stiffest: 3e5 };
        let rig = any(&mut dice(seed), kind);
        assert_eq!(solver.solve(&rig, &Settings::default()), solve(&rig, &Settings::default()), "rig {seed}");
    }
}

#[test]
fn a_rig_that_starts_at_rest_comes_to_rest_there() {
    let (mut steps, mut again) = (0, 0);
    for seed in 0..1000 {
        let kind = Kind { heavy: seed % 3 == 0, stiffest: 3e5 };
        let mut rig = any(&mut dice(seed), kind);
        let first = solve(&rig, &Settings::default());
        let rest = first.balanced().unwrap();
        rig.start_from(rest);
        let second = solve(&rig, &Settings::default());
        let largest = rest.lines.iter().map(|line| line.tension()).fold(1.0, f64::max);
        for (one, other) in rest.lines.iter().zip(&second.balanced().unwrap().lines) {
            assert!((one.tension() - other.tension()).abs() <= 1e-6 * largest, "rig {seed}: {one:?}, {other:?}");
        }
        steps += first.iterations;
        again += second.iterations;
    }
    assert!(again < steps / 4, "{again} steps from rest, {steps} from anywhere");
}
