//! The ten demonstrations: what moves in them, which way, and how far.

use super::super::demo::{Drawn, Place};
use super::super::handout;
use super::{NOW, answer, everywhere, told};
use crate::page::Page;
use rigging_core::law::{bend, triangle, two_legs};
use rigging_core::quantity::{Angle, Force, Kind, Unit, Units, degree, newton};
use rigging_core::question::Entry;
use rigging_core::question::scene::size;

/// 101.9 kg at standard gravity, by hand: 101.9 × 9.80665.
const W: f64 = 999.298;

fn number(place: Place) -> f64 {
    let answer = answer(place);
    place.found(&answer).unwrap_or_else(|| panic!("nothing is shown at {place:?}")).adverse()
}

fn at(number: usize, at: usize) -> Place {
    Place::of(number, at).unwrap()
}

#[test]
fn there_are_ten_and_every_stop_has_a_number_a_picture_and_what_is_not_in_it() {
    assert_eq!(Place::firsts().count(), 10);
    for place in everywhere() {
        let answer = answer(place);
        assert!(place.found(&answer).is_some_and(|finding| finding.band.high().is_finite()), "{place:?}");
        assert!(!answer.scene.anchors.is_empty() || !answer.scene.lines.is_empty(), "{place:?}");
        assert!(!answer.not_in.is_empty() && !answer.cautions.is_empty(), "{place:?}");
        assert!(!place.words(Units::default()).is_empty() && !place.run.why.is_empty(), "{place:?}");
    }
    for place in Place::firsts() {
        let last = place.all().last().unwrap();
        let answer = answer(last);
        let formulas = handout::formulas(last, &answer);
        assert!(!formulas.is_empty(), "{}", place.demo.title);
        assert!(formulas.iter().all(|(_, formula, source)| !formula.is_empty() && !source.place.is_empty()));
    }
}

#[test]
fn only_one_quantity_moves_in_each_part() {
    for place in everywhere() {
        let (fields, first) = (place.question().unwrap().fields(), place.all().find(|first| first.same_run(place)));
        let first = first.unwrap().question().unwrap().fields();
        for (field, first) in fields.iter().zip(&first) {
            assert!(field.entry == first.entry || field.about.name == place.run.moves, "{place:?}: {field:?}");
            assert!(field.matters || field.about.name != place.run.moves, "{place:?}: {field:?} does not matter");
        }
    }
}

#[test]
fn the_number_moves_as_the_sentence_says() {
    // Demonstration, its first and last stop of the part, and how the end goes beside the beginning.
    let cases = [
        (1, 1, 5, "grows"),
        (2, 1, 2, "grows"),
        (2, 3, 4, "grows"),
        (3, 1, 5, "grows"),
        (3, 6, 10, "stays"),
        (4, 1, 4, "grows"),
        (5, 1, 2, "falls"),
        (6, 1, 7, "grows"),
        (6, 8, 10, "grows"),
        (7, 1, 5, "grows"),
        (8, 1, 4, "grows"),
        (8, 5, 8, "grows"),
        (9, 1, 3, "grows"),
        (9, 4, 7, "falls"),
        (10, 1, 3, "grows"),
        (10, 4, 6, "grows"),
    ];
    let stops: usize = cases.iter().map(|(_, first, last, _)| last + 1 - first).sum();
    assert_eq!(stops, everywhere().count(), "every part is looked at");
    for (demo, first, last, goes) in cases {
        assert!(at(demo, first).same_run(at(demo, last)));
        let numbers: Vec<f64> = (first..=last).map(|stop| number(at(demo, stop))).collect();
        let (start, end) = (numbers[0], numbers[numbers.len() - 1]);
        for pair in numbers.windows(2) {
            match goes {
                "grows" => assert!(pair[1] > 0.999 * pair[0], "{demo}: {numbers:?}"),
                "falls" => assert!(pair[1] < 1.001 * pair[0], "{demo}: {numbers:?}"),
                _ => assert!((pair[1] / pair[0] - 1.0).abs() < 0.02, "{demo}: {numbers:?}"),
            }
        }
        match goes {
            "grows" => assert!(end > 1.2 * start, "{demo}: {numbers:?}"),
            "falls" => assert!(end < 0.8 * start, "{demo}: {numbers:?}"),
            _ => {}
        }
    }
}

#[test]
fn the_words_of_a_stop_say_its_value() {
    let value = |place: Place| {
        let fields = place.question().unwrap().fields();
        match fields.iter().find(|field| field.about.name == place.run.moves).unwrap().entry {
            Entry::One(si) => si,
            Entry::Range(band) => band.typical(),
            Entry::Choice(_) => f64::NAN,
        }
    };
    let said = |place: Place| place.stop.words.trim_end_matches(['°', '%', ' ']).parse::<f64>().unwrap();
    // Anchors 1 m apart: half of that over the depth is the tangent of half the angle.
    for place in at(1, 1).all() {
        assert!((2.0 * (0.5 / value(place)).atan().to_degrees() - said(place)).abs() < 0.05, "{place:?}");
    }
    for (place, shares) in at(7, 1).all().zip([0.2, 0.15, 0.1, 0.05, 0.02]) {
        assert_eq!((value(place), said(place) / 100.0), (shares, shares));
    }
    for place in at(9, 4).all().skip(3) {
        assert!((value(place).atan().to_degrees() - said(place)).abs() < 0.01, "{place:?}");
    }
    // Long by half on one side, short by half on the other.
    assert_eq!(at(4, 1).all().map(|place| 200.0 * value(place)).collect::<Vec<_>>(), [0.0, 0.5, 1.0, 2.0]);
    assert_eq!(at(10, 1).words(Units { force: Unit::PoundForce, length: Unit::Foot }), "52.4934\u{a0}ft");
}

#[test]
fn forces_that_are_drawn_are_those_of_the_number() {
    for place in everywhere() {
        let (answer, scene) = (answer(place), place.scene(&answer(place)));
        let largest = scene.forces.iter().map(|arrow| size(arrow.pull)).fold(0.0, f64::max);
        if place.run.drawn != Drawn::Lines && place.found(&answer).unwrap().kind == Kind::Force {
            let number = number(place);
            let drawn = scene.forces.iter().any(|arrow| (size(arrow.pull) - number).abs() < 0.01 * largest.max(1.0));
            assert!(drawn, "{number} at {place:?}: {:?}", scene.forces);
        }
    }
}

/// The closed forms are held to sources in tests/published.
#[test]
fn the_numbers_are_those_of_the_closed_forms() {
    let load = Force::new::<newton>(W);
    let near = |got: f64, expected: f64, off: f64| assert!((got / expected - 1.0).abs() < off, "{got} for {expected}");
    // Two equal legs: at 120° each carries the whole load, as every sling table says. Legs stretch a little.
    for (place, angle) in at(1, 1).all().zip([30.0, 60.0, 90.0, 120.0, 150.0]) {
        let law = two_legs::equal(load, Angle::new::<degree>(angle)).unwrap().value;
        near(number(place), law, if angle > 140.0 { 0.09 } else { 0.015 });
    }
    near(number(at(1, 4)), W, 0.015);
    // A closed loop: the law leaves friction out, the range does not.
    for (stop, angle) in [(2, 60.0), (4, 120.0)] {
        let law = triangle::anchor_force(load, Angle::new::<degree>(angle)).unwrap().value;
        let answer = answer(at(2, stop));
        let band = at(2, stop).found(&answer).unwrap().band;
        assert!(band.low() < 1.001 * law && band.high() > 0.97 * law, "{band:?} for {law}");
    }
    // Load along one of two legs 60° apart: that leg has it all.
    near(number(at(3, 4)), W, 0.005);
    // A rope turned by φ: 2 T sin(φ/2), at 180° twice the load.
    for (place, turned) in at(6, 1).all().zip([0.0_f64, 30.0, 60.0, 90.0, 120.0, 150.0, 180.0]) {
        let law = bend::resultant(load, load, Angle::new::<degree>(turned)).unwrap().value;
        assert!((number(place) - law).abs() < 1e-3 * W, "{place:?}");
        assert!((law - 2.0 * W * (turned / 2.0).to_radians().sin()).abs() < 1e-6 * W);
    }
    // A load in the middle of a line that sags by s of the span: W / (2 sin δ), tan δ = 2 s; the line weighs a little.
    for (place, sag) in at(7, 1).all().zip([0.2_f64, 0.15, 0.1, 0.05, 0.02]) {
        near(number(place), W / (2.0 * (2.0 * sag).atan().sin()), 0.005);
    }
    // The stiffest used canyon rope, EA 49 kN: W + √(W² + 2 W EA h/L).
    for (place, rope, fall) in
        [(1, 16.0, 1.0), (2, 8.0, 1.0), (3, 4.0, 1.0), (4, 8.0, 0.0), (5, 8.0, 0.5), (6, 8.0, 1.0)]
    {
        near(number(at(10, place)), W + f64::sqrt(W * W + 2.0 * W * 49_000.0 * fall / rope), 0.005);
    }
}

#[test]
fn an_address_leads_to_its_stop_and_no_other_does() {
    let feet = Units { force: Unit::PoundForce, length: Unit::Foot };
    for place in everywhere() {
        for units in [Units::default(), feet] {
            assert_eq!(Place::read(&place.write(units)), Some((place, units)));
        }
    }
    assert_eq!(Place::read("demo/3"), Place::read("demo/3/1"));
    for address in [
        "",
        "demo",
        "demo/",
        "demo/0/1",
        "demo/11/1",
        "demo/1/0",
        "demo/1/6",
        "demo/-1/1",
        "demo/1/1/Ux",
        "demo/1/1/Up/x",
        "1/al",
    ] {
        assert_eq!(Place::read(address), None, "{address}");
    }
    let mut page = Page::default();
    assert!(told(&page.go("#demo/99/1", "", NOW)).contains("Choose a question"), "a broken address is answered");
    let opened = page.go("#demo/3/2/Upf", "", NOW);
    assert_eq!((opened.fragment.as_str(), opened.way), ("demo/3/2/Upf", "class"));
}

#[test]
fn next_walks_through_all_stops_of_all_demonstrations_and_back() {
    let walked: Vec<Place> = std::iter::successors(Place::of(1, 1), |place| place.next()).collect();
    assert_eq!(walked, everywhere().collect::<Vec<_>>());
    let mut back: Vec<Place> = std::iter::successors(walked.last().copied(), |place| place.previous()).collect();
    back.reverse();
    assert_eq!(back, walked);
}
