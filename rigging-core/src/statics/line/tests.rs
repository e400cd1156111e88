//! One line with loads on it: against the same rig of points, by hand, and where there may be no rest.

use super::*;
use crate::statics::numbers::Numbers;
use crate::statics::{Rig, Settings, solve};

/// The line at rest, held against the engine: forces on the anchors and places of the loads, each as a share.
fn agrees(line: &LoadedLine, within: f64) -> LineAtWork {
    let work = line.at_rest().unwrap_or_else(|| panic!("no balance of {line:?}"));
    let stiffness = line.length / line.compliance;
    let mut rig = Rig::new();
    let near = rig.add_held("near", [0.0, 0.0, 0.0]).unwrap();
    let far = rig.add_held("far", line.span).unwrap();
    let (mut from, mut along, mut loads) = (near, 0.0, Vec::new());
    for load in &line.loads {
        let guess = line.span * (load.along / line.length);
        let tied = rig.add_free(format!("load {}", loads.len()), guess, load.force).unwrap();
        rig.add_heavy_line(format!("to {}", loads.len()), &[from, tied], load.along - along, stiffness, line.weight)
            .unwrap();
        (from, along) = (tied, load.along);
        loads.push(tied);
    }
    rig.add_heavy_line("last", &[from, far], line.length - along, stiffness, line.weight).unwrap();
    let solution = solve(&rig, &Settings::default());
    let rest = solution.balanced().unwrap_or_else(|| panic!("the engine has no balance of {line:?}"));
    let on = |anchor| rest.point(anchor).unwrap().reaction.unwrap();
    let (first, last) = (on(near), on(far));
    let size = first.norm().max(last.norm());
    assert!((work.first - first).norm() <= within * size, "{} for {first}: {line:?}", work.first);
    assert!((work.last + last).norm() <= within * size, "{} for {last}: {line:?}", work.last);
    for (place, &load) in line.places(&work).iter().zip(&loads) {
        let at = rest.point(load).unwrap().at;
        assert!((place - at).norm() <= within * line.length, "{place} for {at}: {line:?}");
    }
    work
}

#[test]
fn a_loaded_line_agrees_with_the_same_rig_of_points() {
    let mut numbers = Numbers(0.3);
    let mut next = || numbers.next();
    let mut steps = 0;
    for _ in 0..500 {
        let span = Vector::new(1.0 + 20.0 * next(), 4.0 * next(), 10.0 * next() - 5.0);
        let length = span.norm() * (0.97 + 0.3 * next());
        let (stiffness, weight) = (1e4 + 1e5 * next(), 0.1 + next());
        let along = length * (0.05 + 0.9 * next());
        let force = Vector::new(200.0 * next(), 500.0 * next(), -1000.0 * next());
        let line = LoadedLine::new(span, length, stiffness, weight, vec![LoadOnLine { along, force }]).unwrap();
        let work = agrees(&line, 1e-8);
        steps += work.iterations;
        assert!(work.gap <= 1e-12 * (length + span.norm()));
    }
    // An engine that finds the same with more of them is worse.
    assert!((500..=2570).contains(&steps), "{steps} steps");
}

/// Level, plumb up and down, with both ends in one place or next to it; light and heavy, soft and stiff: where a stretch
/// hangs slack beside loads, the last digits of their tension move its end.
#[test]
fn a_line_of_any_shape_agrees_with_the_same_rig_of_points() {
    let mut numbers = Numbers(0.7);
    let mut next = || numbers.next();
    for number in 0..600 {
        let length = 10_f64.powf(3.0 * next() - 1.0);
        let (stiffness, weight) = (10_f64.powf(3.0 + 4.0 * next()), 10_f64.powf(3.0 * next() - 2.0));
        let span = match number % 5 {
            0 => Vector::x() * next(),
            1 => Vector::z() * next(),
            2 => -Vector::z() * next(),
            3 => Vector::zeros(),
            _ => Vector::x() * 1e-6 * next(),
        } * length;
        let steep = |along: f64, pull: f64| LoadOnLine { along, force: Vector::new(0.0, 0.0, -1000.0 * pull) };
        let loads = (0..number % 4).map(|_| steep(length * next(), next())).collect();
        agrees(&LoadedLine::new(span, length, stiffness, weight, loads).unwrap(), 1e-7);
    }
    // One of a rope's measures.
    let loads = [(0.007_960_36, -621.424_014_6), (0.020_289_63, -2_105.682_100_8)]
        .map(|(along, pull)| LoadOnLine { along, force: Vector::new(0.0, 0.0, pull) });
    let span = Vector::new(0.889_141_93, 0.0, 0.0);
    agrees(&LoadedLine::new(span, 1.445_767_23, 13_370.25, 0.342_420_43, loads.to_vec()).unwrap(), 1e-7);
}

#[test]
fn only_of_a_line_that_weighs_next_to_nothing_beside_its_loads_there_may_be_no_rest() {
    let mut numbers = Numbers(0.1);
    for number in 0..20_000 {
        let mut power = |least: f64, most: f64| 10_f64.powf(least + (most - least) * numbers.next());
        let (length, stiffness, weight) = (power(-1.0, 2.0), power(3.0, 8.0), power(-6.0, 1.0));
        let mut place = || numbers.place();
        let span = place() * if number % 3 == 0 { 0.0 } else { length };
        let load =
            |at: Vector| LoadOnLine { along: length * at.x.abs(), force: Vector::new(at.y, at.y, at.z) * 1000.0 };
        let loads: Vec<_> = (0..number % 4).map(|_| load(place())).collect();
        let pull: f64 = loads.iter().map(|load| load.force.norm()).sum();
        if LoadedLine::new(span, length, stiffness, weight, loads).unwrap().at_rest().is_none() {
            assert!(weight * length < 1e-6 * pull, "{length} m, {weight} N/m, {pull} N");
        }
    }
}

#[test]
fn a_load_at_an_end_of_the_line_goes_to_the_anchor() {
    let span = Vector::new(10.0, 0.0, 0.0);
    let bare = LoadedLine::new(span, 10.2, 3e4, 0.6, Vec::new()).unwrap().at_rest().unwrap();
    let force = Vector::new(0.0, 0.0, -800.0);
    for along in [0.0, 10.2] {
        let line = LoadedLine::new(span, 10.2, 3e4, 0.6, vec![LoadOnLine { along, force }]).unwrap();
        let work = line.at_rest().unwrap();
        let (first, last) = if along == 0.0 { (force, bare.last) } else { (Vector::zeros(), bare.last - force) };
        assert!((work.first - bare.first - first).norm() < 1e-6);
        assert!((work.last - last).norm() < 1e-6);
    }
    for along in [10.3, -0.1, f64::NAN] {
        let refused = LoadedLine::new(span, 10.2, 3e4, 0.6, vec![LoadOnLine { along, force }]).unwrap_err();
        assert!(refused.to_string().ends_with("it must be from 0 to the length of the line, 10.2"), "{refused}");
    }
}

#[test]
fn a_line_with_both_ends_in_one_place_hangs_folded() {
    let folded = |loads| LoadedLine::new(Vector::zeros(), 10.0, 3e4, 0.5, loads).unwrap().at_rest().unwrap();
    // By hand: 10 m of 0.5 N are 5 N, half of them on either end.
    let bare = folded(Vec::new());
    assert!((bare.first - Vector::new(0.0, 0.0, -2.5)).norm() < 1e-9, "{}", bare.first);
    // By hand: 100 N stretch 3 m by 0.01 m. Of the 7 m beyond, (7 − 3.01)/2 = 1.995 m hang on the load, and with the
    // 3 m and the load on the first end: 100 + 0.5 · 4.995 N.
    let loaded = folded(vec![LoadOnLine { along: 3.0, force: Vector::new(0.0, 0.0, -100.0) }]);
    assert!((loaded.first - Vector::new(0.0, 0.0, -102.4975)).norm() < 1e-6, "{}", loaded.first);
    assert!((loaded.last - Vector::new(0.0, 0.0, 2.5025)).norm() < 1e-6, "{}", loaded.last);
}

/// Beyond the load the line bears next to nothing, 1e-14 of what it bears before: too little to find. It ended 3.5 cm
/// from its anchor.
#[test]
fn a_line_that_does_not_reach_its_anchor_is_not_told_as_one_at_rest() {
    let load = LoadOnLine { along: 0.0591, force: Vector::new(-35.74, 0.0, -9179.3) };
    let line = LoadedLine::new(Vector::new(0.0205, 0.0, -1.0524), 2.10527, 49350.0, 9.03e-11, vec![load]).unwrap();
    if let Some(work) = line.at_rest() {
        let (end, _) = line.end(work.first);
        assert!((end - line.span).norm() < 1e-11, "{end}");
    }
}
