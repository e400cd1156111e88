//! Reference equilibria of 37 rigs: cone programs polished to an 80-bit residual, or closed-form
//! elastic catenaries at 30 digits (each answer names its reference).

use std::collections::BTreeMap;
use std::path::Path;

use rigging_core::statics::{Equilibrium, Rig, Settings, Vector, solve};
use serde_json::Value;

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect()
}

fn by_name(answer: &Value, field: &str) -> BTreeMap<String, Vec<f64>> {
    let Some(map) = answer.get(field) else {
        return BTreeMap::new();
    };
    let map = map.as_object().unwrap();
    map.iter().map(|(name, value)| (name.clone(), numbers(value))).collect()
}

/// Largest difference as a share of the largest expected number.
fn worst(expected: &BTreeMap<String, Vec<f64>>, found: impl Fn(&str) -> Vec<f64>) -> f64 {
    let (mut largest, mut difference) = (0.0_f64, 0.0_f64);
    for (name, values) in expected {
        let found = found(name);
        assert_eq!(values.len(), found.len(), "{name}");
        for (expected, found) in values.iter().zip(found) {
            largest = largest.max(expected.abs());
            difference = difference.max((expected - found).abs());
        }
    }
    if difference == 0.0 { 0.0 } else { difference / largest }
}

fn check(rig: &Rig, rest: &Equilibrium, answer: &Value, name: &str) {
    let tolerance = answer["relative_tolerance"].as_f64().unwrap();
    let vector = |vector: Vector| vec![vector.x, vector.y, vector.z];
    let point = |name: &str| *rest.point(rig.point_named(name).unwrap()).unwrap();
    let tensions = worst(&by_name(answer, "tension_n"), |name| {
        let id = rig.line_named(name).unwrap();
        let line = rest.line(id).unwrap();
        let heavy = rig.lines().iter().any(|line| line.name() == name && line.weight() > 0.0);
        if heavy { vec![line.tension_first, line.tension_last] } else { vec![line.tension_first] }
    });
    assert!(tensions <= tolerance, "{name}: tensions off by {tensions:e}");
    let places = worst(&by_name(answer, "at_m"), |name| vector(point(name).at));
    assert!(places <= tolerance, "{name}: places off by {places:e}");
    let reactions = worst(&by_name(answer, "reaction_n"), |name| vector(point(name).reaction.unwrap()));
    assert!(reactions <= tolerance, "{name}: reactions off by {reactions:e}");
    let mut slack: Vec<&str> = answer["slack"].as_array().unwrap().iter().map(|name| name.as_str().unwrap()).collect();
    slack.sort_unstable();
    let mut found: Vec<&str> =
        rig.lines().iter().zip(&rest.lines).filter(|(_, line)| line.slack).map(|(line, _)| line.name()).collect();
    found.sort_unstable();
    assert_eq!(slack, found, "{name}: slack lines");
    let note = answer.get("note").and_then(Value::as_str).unwrap_or("");
    let at_stop = rest.lines.iter().any(|line| !line.end_stops.is_empty());
    assert_eq!(note.contains("end stop"), at_stop, "{name}: end stops");
    let unsure = rest.points.iter().any(|point| !point.determined);
    assert_eq!(note.contains("not unique"), unsure, "{name}: places that are not unique");
}

#[test]
fn every_given_rig_comes_to_its_reference_equilibrium() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("rigs");
    let (mut count, mut steps) = (0, 0);
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        let Some(stem) = name.strip_suffix(".rig.json") else {
            continue;
        };
        let rig: Rig = serde_json::from_slice(&std::fs::read(&path).unwrap()).unwrap();
        let answer = path.with_file_name(format!("{stem}.answer.json"));
        let answer: Value = serde_json::from_slice(&std::fs::read(answer).unwrap()).unwrap();
        let solution = solve(&rig, &Settings::default());
        assert_eq!(answer["status"], "balanced");
        assert!(solution.imbalance <= 1e-9, "{stem}: imbalance {:e}", solution.imbalance);
        check(&rig, solution.balanced().unwrap(), &answer, stem);
        count += 1;
        steps += solution.iterations;
    }
    // An engine that finds the same with more of them is worse.
    assert!(steps <= 455, "{steps} steps");
    assert_eq!(count, 37);
}
