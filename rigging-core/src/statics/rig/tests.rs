//! What no rig takes, and the words for it.

use super::*;
use crate::statics::{Settings, solve};

#[test]
fn what_is_no_number_is_refused_wherever_it_stands() {
    for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        for at in [[value, 0.0, 0.0], [0.0, value, 0.0], [0.0, 0.0, value]] {
            let mut rig = Rig::new();
            let told = |refused: Option<RigError>| refused.unwrap().to_string();
            let (place, load) = ("point \"point\": \"at_m\" is ", "point \"point\": \"load_n\" is ");
            assert!(told(rig.add_held("point", at).err()).starts_with(place));
            assert!(told(rig.add_free("point", at, [0.0; 3]).err()).starts_with(place));
            assert!(told(rig.add_free("point", [0.0; 3], at).err()).starts_with(load));
            let point = rig.add_free("point", [0.0; 3], [0.0; 3]).unwrap();
            assert!(told(rig.set_at(point, at).err()).starts_with(place));
            assert!(told(rig.set_load(point, at).err()).starts_with(load));
        }
        let mut rig = Rig::new();
        let (a, b) = (rig.add_held("a", [0.0; 3]).unwrap(), rig.add_held("b", [1.0; 3]).unwrap());
        assert!(rig.add_line("line", &[a, b], value, 1.0).is_err());
        assert!(rig.add_line("line", &[a, b], 1.0, value).is_err());
        assert!(rig.add_heavy_line("line", &[a, b], 1.0, 1.0, value).is_err());
    }
}

#[test]
fn what_is_not_there_is_named_by_its_number() {
    let mut rig = Rig::new();
    let a = rig.add_held("a", [0.0; 3]).unwrap();
    let stranger = PointId(1);
    let unknown = RigError::UnknownPoint { line: "line".to_owned(), point: "number 2".to_owned() };
    assert_eq!(rig.add_line("line", &[a, stranger], 1.0, 1.0), Err(unknown));
    assert_eq!(rig.set_load(stranger, [0.0; 3]), Err(RigError::OfAnotherRig));
    assert_eq!(rig.set_at(stranger, [0.0; 3]), Err(RigError::OfAnotherRig));
    assert_eq!(rig.set_length(LineId(0), 1.0), Err(RigError::OfAnotherRig));
    assert_eq!(rig.set_stiffness(LineId(0), 1.0), Err(RigError::OfAnotherRig));
    let b = rig.add_held("b", [1.0; 3]).unwrap();
    rig.add_line("line", &[a, b], 1.0, 1.0).unwrap();
    assert_eq!(rig.add_line("", &[a, b], 1.0, 1.0), Err(RigError::LineWithoutName { number: 2 }));
    assert_eq!(rig.add_held("", [0.0; 3]), Err(RigError::PointWithoutName { number: 3 }));
    // As many points as a line may have, and one more.
    let most: Vec<PointId> = [a, b].into_iter().cycle().take(MOST_POINTS).collect();
    rig.add_line("most", &most, 1.0, 1.0).unwrap();
    let more: Vec<PointId> = [a, b].into_iter().cycle().take(MOST_POINTS + 1).collect();
    let count = MOST_POINTS + 1;
    let refused = RigError::TooManyPoints { line: "more".to_owned(), count, most: MOST_POINTS };
    assert_eq!(rig.add_line("more", &more, 1.0, 1.0), Err(refused));
}

#[test]
fn lines_through_many_points_are_few() {
    let mut rig = Rig::new();
    let a = rig.add_held("a", [0.0; 3]).unwrap();
    let b = rig.add_held("b", [1.0; 3]).unwrap();
    let through: Vec<PointId> = [a, b].into_iter().cycle().take(MOST_POINTS).collect();
    // 256 · 255 / 2 = 32 640 pairs each: six are 195 840.
    for number in 1..=6 {
        rig.add_line(format!("line {number}"), &through, 1.0, 1.0).unwrap();
    }
    let refused = RigError::TooManyCouplings { line: "line 7".to_owned(), most: 200_000 };
    assert_eq!(rig.add_line("line 7", &through, 1.0, 1.0), Err(refused));
    // 91 · 90 / 2 = 4095, 11 · 10 / 2 = 55 and 5 · 4 / 2 = 10 pairs are just what is left. Between two points there is
    // always room.
    for (number, count) in [(7, 91), (8, 11), (9, 5)] {
        rig.add_line(format!("line {number}"), &through[..count], 1.0, 1.0).unwrap();
    }
    assert!(rig.add_line("line 10", &through[..3], 1.0, 1.0).is_err());
    assert!((10..200).all(|number| rig.add_line(format!("line {number}"), &[a, b], 1.0, 1.0).is_ok()));
}

#[test]
fn an_anchor_that_was_moved_stays_where_it_was_put_when_a_rest_is_the_start() {
    let mut rig = Rig::new();
    let bolt = rig.add_held("bolt", [0.0; 3]).unwrap();
    let load = rig.add_free("load", [0.0, 0.0, -9.0], [0.0, 0.0, -900.0]).unwrap();
    rig.add_line("rope", &[bolt, load], 10.0, 20e3).unwrap();
    let rest = solve(&rig, &Settings::default()).balanced().unwrap().clone();
    rig.set_at(bolt, [1.0, 0.0, 0.0]).unwrap();
    rig.start_from(&rest);
    assert_eq!(rig.points()[bolt.0].at(), Vector::new(1.0, 0.0, 0.0));
    assert_eq!(rig.points()[load.0].at(), rest.point(load).unwrap().at);
}
