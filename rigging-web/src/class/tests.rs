use super::demo::Place;
use super::handout;
use crate::link::Link;
use crate::page::{Event, Page, Update};
use crate::units::Units;
use rigging_core::law::{bend, triangle, two_legs};
use rigging_core::quantity::{Angle, Force, Kind, Unit, degree, newton};
use rigging_core::question::{Answer, Finding, Question};

const NOW: &str = "2026-03-04 10:30";
/// 101.9 kg at standard gravity, by hand: 101.9 × 9.80665.
const W: f64 = 999.298;

fn everywhere() -> impl Iterator<Item = Place> {
    Place::firsts().flat_map(Place::all)
}

fn answer(place: Place) -> Answer {
    let question = place.question().unwrap_or_else(|| panic!("{place:?} sets what is not there"));
    question.answer().unwrap_or_else(|error| panic!("{} {}: {error}", place.demo.title, place.at))
}

fn number(place: Place) -> f64 {
    let answer = answer(place);
    place.found(&answer).unwrap_or_else(|| panic!("nothing is shown at {place:?}")).adverse()
}

fn at(number: usize, at: usize) -> Place {
    Place::of(number, at).unwrap()
}

/// Everything that the update brings before eyes and ears.
fn told(update: &Update) -> String {
    let put: Vec<&str> = update.put.iter().map(|(_, html)| html.as_str()).collect();
    [put.concat(), update.said.clone(), update.title.clone(), update.fragment.clone()].concat()
}

fn press(page: &mut Page, id: &str) -> Update {
    page.event(Event::Press, id, "", NOW)
}

fn in_class() -> Page {
    let mut page = Page::default();
    page.go("", "", NOW);
    press(&mut page, "way-class");
    page
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
            rigging_core::question::Entry::One(si) => si,
            rigging_core::question::Entry::Range(band) => band.typical(),
            rigging_core::question::Entry::Choice(_) => f64::NAN,
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
        let largest =
            scene.forces.iter().map(|arrow| rigging_core::question::scene::size(arrow.pull)).fold(0.0, f64::max);
        if place.run.drawn != super::demo::Drawn::Lines && place.found(&answer).unwrap().kind == Kind::Force {
            let number = number(place);
            let drawn = scene.forces.iter().any(|arrow| {
                (rigging_core::question::scene::size(arrow.pull) - number).abs() < 0.01 * largest.max(1.0)
            });
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
    // The stiffest used canyon rope, EA 41 kN: W + √(W² + 2 W EA h/L).
    for (place, rope, fall) in
        [(1, 16.0, 1.0), (2, 8.0, 1.0), (3, 4.0, 1.0), (4, 8.0, 0.0), (5, 8.0, 0.5), (6, 8.0, 1.0)]
    {
        near(number(at(10, place)), W + f64::sqrt(W * W + 2.0 * W * 41_000.0 * fall / rope), 0.005);
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

/// What of an answer would give it away: every value that was found, as it is shown anywhere.
fn found(answer: &Answer, units: Units) -> Vec<String> {
    let all = answer.findings.iter().chain(&answer.states);
    let all: Vec<&Finding> = all.chain(answer.outcomes.iter().flat_map(|outcome| &outcome.findings)).collect();
    let forces = all.iter().filter(|finding| finding.kind == Kind::Force && finding.adverse() > 0.0);
    forces.flat_map(|finding| [units.adverse(finding), units.friendly(finding)]).collect()
}

#[test]
fn every_number_that_was_found_is_hidden_until_there_is_a_guess() {
    for units in [Units::default(), Units { force: Unit::PoundForce, length: Unit::Metre }] {
        let mut page = Page::default();
        for place in everywhere() {
            let answer = answer(place);
            let shown = units.adverse(place.found(&answer).unwrap());
            let before = told(&page.go(&place.write(units), "", NOW));
            for value in found(&answer, units).into_iter().chain([shown.clone()]).filter(|value| value != "0") {
                // What is entered may be the same length by chance.
                assert!(
                    !before.contains(&format!(">{value}<")) && !before.contains(&format!(" {value}")),
                    "{value} at {place:?}: {before}"
                );
            }
            assert!(
                before.contains("<strong>?</strong>")
                    && !before.contains("class=\"force")
                    && !before.contains(place.run.why)
            );
            page.event(Event::Input, "guess", "1.5", NOW);
            let after = told(&press(&mut page, "guess-set"));
            for words in
                [&shown, "Your guess <strong>1.5", place.run.why, "What is not in these numbers", answer.not_in[0]]
            {
                assert!(after.contains(words), "{words} at {place:?}: {after}");
            }
        }
    }
}

#[test]
fn the_same_holds_of_every_question_in_class() {
    for question in Question::all() {
        let answer = question.answer().unwrap();
        let units = Units::default();
        let mut page = in_class();
        let before = told(&page.go(&format!("1/{}", question.key()), "", NOW));
        for value in found(&answer, units) {
            assert!(
                !before.contains(&format!(">{value}<")) && !before.contains(&format!(" {value}<")),
                "{value}: {before}"
            );
        }
        assert!(before.contains("<strong>?</strong>") && !before.contains("class=\"force"), "{}", question.name());
        assert!(!before.contains("class=\"graph") && !before.contains("<li><p><strong>"), "{}", question.name());
        let after = press(&mut page, "guess-show");
        assert!(told(&after).contains(&units.adverse(&answer.findings[0])), "{after:?}");
        assert!(after.said.contains(&units.adverse(&answer.findings[0])), "{after:?}");
        // Out of class nothing is hidden.
        assert!(told(&press(&mut page, "way-desk")).contains(&units.adverse(&answer.findings[0])));
    }
}

#[test]
fn a_change_in_class_is_guessed_anew_with_the_last_picture_behind() {
    let mut page = in_class();
    page.go("1/ln", "", NOW);
    let typed = page.event(Event::Input, "drop_m", "0.4", NOW);
    assert!(!told(&typed).contains("class=\"ghost"), "nothing was shown yet");
    assert!(typed.said.starts_with("Guess first"), "{typed:?}");
    press(&mut page, "guess-show");
    let changed = page.event(Event::Input, "sag-high", "0.2", NOW);
    assert!(told(&changed).contains("<strong>?</strong>") && told(&changed).contains("class=\"ghost\""), "{changed:?}");
    assert!(told(&changed).contains("Faint behind it, the lines of the position before"));
    // Leaving the entry, a bad guess and typing a guess change nothing that is hidden.
    page.event(Event::Leave, "sag-high", "0.2", NOW);
    let wrong = press(&mut page, "guess-set");
    assert!(told(&wrong).contains("it must be a number not below 0") && told(&wrong).contains("<strong>?</strong>"));
    assert_eq!(page.event(Event::Input, "guess", "3", NOW), Update::default());
    assert!(told(&press(&mut page, "guess-set")).contains("Your guess <strong>3\u{a0}kN"));
}

#[test]
fn a_step_leaves_the_last_position_faint_behind_and_going_back_asks_nothing_twice() {
    let mut page = Page::default();
    let first = page.go("demo/1/2", "", NOW);
    assert!(!told(&first).contains("class=\"ghost\"") && first.focus.is_empty());
    press(&mut page, "guess-show");
    let next = page.go("demo/1/3", "", NOW);
    assert!(told(&next).contains("class=\"ghost\"") && told(&next).contains("included angle 60°."), "{next:?}");
    assert_eq!(next.focus, "stop");
    assert!(told(&press(&mut page, "guess-more")).contains("Your guess <strong>more than before"));
    assert!(!told(&page.go("demo/1/2", "", NOW)).contains("<strong>?</strong>"), "it was guessed already");
    assert!(!told(&page.go("demo/2/1", "", NOW)).contains("class=\"ghost\""), "another rig");
    assert!(!told(&page.go("demo/1/2", "", NOW)).contains("class=\"ghost\""), "another rig");
}

const STANDINGS: [&str; 5] =
    ["below limit", "range crosses limit", "above limit", "class=\"standing", "class=\"against"];

#[test]
fn nothing_is_compared_in_class_until_a_limit_is_chosen() {
    for question in Question::all() {
        let mut page = in_class();
        page.go(&format!("1/{}", question.key()), "", NOW);
        let shown = told(&press(&mut page, "guess-show"));
        assert!(shown.contains("headline"), "{}: the number is shown", question.name());
        for words in STANDINGS.into_iter().chain(["not checked:", "not checked</strong>"]) {
            assert!(!shown.contains(words), "{words}: {}: {shown}", question.name());
        }
        assert!(!shown.contains("Compare with a limit") && !shown.contains("id=\"limit\""));
    }
    for place in everywhere() {
        let mut page = Page::default();
        page.go(&place.write(Units::default()), "", NOW);
        let shown = told(&press(&mut page, "guess-show"));
        assert!(STANDINGS.into_iter().chain(["not checked"]).all(|words| !shown.contains(words)), "{place:?}: {shown}");
    }
}

#[test]
fn a_limit_chosen_aloud_is_compared_with_and_an_example_stays_not_checked() {
    let mut page = in_class();
    // A limit that comes with the link was not chosen by this class.
    page.go("1/al/q0/l1/o90", "", NOW);
    press(&mut page, "guess-show");
    let asked = press(&mut page, "choose-limit");
    assert!(told(&asked).contains("Compare with a limit") && asked.focus == "limit", "{asked:?}");
    assert!(STANDINGS.iter().all(|words| !told(&asked).contains(words)));
    let none = page.event(Event::Input, "own_limit_n", "80", NOW);
    assert!(STANDINGS.iter().all(|words| !told(&none).contains(words)), "{none:?}");
    let chosen = page.event(Event::Input, "limit", "own", NOW);
    assert!(told(&chosen).contains("not checked</strong>: not confirmed as yours"), "{chosen:?}");
    assert!(!told(&chosen).contains("<strong>?</strong>"), "the number is the same: no new guess");
    assert!(told(&press(&mut page, "mine")).contains("below limit"));
    let none = page.event(Event::Input, "limit", "none", NOW);
    assert!(STANDINGS.iter().all(|words| !told(&none).contains(words)), "{none:?}");
    assert!(told(&press(&mut page, "way-desk")).contains("class=\"standing"), "out of class as always");
}

#[test]
fn in_class_the_first_screen_begins_with_the_demonstrations() {
    let mut page = Page::default();
    assert!(!told(&page.go("", "", NOW)).contains("demo/"));
    let home = told(&press(&mut page, "way-class"));
    let mut last = 0;
    for place in Place::firsts() {
        let found = home.find(&format!("href=\"#demo/{}/1\"", place.number)).unwrap();
        assert!(found > last && home.contains(place.demo.title));
        last = found;
    }
    assert!(home.find("1/al").unwrap() > last);
}

#[test]
fn units_are_changed_in_a_demonstration_and_other_ways_lead_to_its_question() {
    let mut page = Page::default();
    page.go("demo/1/4", "", NOW);
    press(&mut page, "guess-show");
    let pounds = page.event(Event::Input, "force-unit", "lbf", NOW);
    assert_eq!((pounds.fragment.as_str(), pounds.focus.as_str()), ("demo/1/4/Up", "force-unit"));
    assert!(told(&pounds).contains("lbf") && !told(&pounds).contains("kN</strong>"));
    let desk = press(&mut page, "way-desk");
    assert!(desk.way == "desk" && Link::read(&desk.fragment).is_ok(), "{desk:?}");
    assert!(told(&desk).contains("NOT YOURS"), "the demonstration's numbers are nobody's");
    // And they are not given to the questions as the masses of a group.
    assert!(told(&page.go("1/ln", "", NOW)).contains("EXAMPLE</strong>"));
}

#[test]
fn hand_outs_have_blanks_or_answers_and_go_to_the_printer() {
    for place in Place::firsts() {
        let mut page = Page::default();
        page.go(&place.write(Units::default()), "", NOW);
        let blank = press(&mut page, "handout-blank");
        let full = press(&mut page, "handout-answers");
        assert!(blank.print && full.print && blank.put.len() == 1 && blank.put[0].0 == "paper");
        let (blank, full) = (told(&blank), told(&full));
        for stop in place.all() {
            let answer = answer(stop);
            let value = Units::default().adverse(stop.found(&answer).unwrap());
            assert!(full.contains(&format!(" {value}")) && full.contains(stop.run.why), "{value}: {full}");
            assert!(blank.contains(&stop.words(Units::default())) && !blank.contains(stop.run.why));
            assert!(!blank.contains(&format!(" {value}")) || value == "0", "{value}: {blank}");
        }
        assert!(full.contains("Not in it: ") && blank.contains("Why?") && blank.contains("EXAMPLE"), "{blank}");
        assert!(!blank.contains("class=\"force"), "{blank}");
        // Words in the picture have no numbers.
        for words in blank.split("class=\"words").skip(1).filter_map(|rest| rest.split_once('>')) {
            let words = words.1.split('<').next().unwrap();
            assert!(!words.contains(|letter: char| letter.is_ascii_digit()), "{words}");
        }
    }
}

#[test]
fn no_word_of_a_demonstration_promises_anything() {
    let mut all = String::new();
    for place in everywhere() {
        let mut page = Page::default();
        page.go(&place.write(Units::default()), "", NOW);
        all += &told(&press(&mut page, "guess-show"));
        if place.at == 1 {
            all += &told(&press(&mut page, "handout-answers"));
        }
    }
    let words: Vec<&str> = all.split(|letter: char| !letter.is_ascii_alphabetic()).collect();
    for word in ["safe", "safely", "secure", "OK", "pass", "passes", "fine", "approved", "certified", "guaranteed"] {
        assert!(!words.iter().any(|found| found.eq_ignore_ascii_case(word)), "{word}");
    }
}

#[test]
fn nothing_else_that_happens_moves_a_class() {
    let mut page = Page::default();
    page.go("demo/1/1", "", NOW);
    let read = press(&mut page, "read");
    assert_eq!(read.put, [("first".to_owned(), String::new())], "the first notice can be read in class too");
    for event in [Event::Input, Event::Leave, Event::Press] {
        for id in ["", "-", "soup", "span_m-low", "mine", "way-", "choose-limit", "🧗"] {
            assert_eq!(page.event(event, id, "5", NOW), Update::default(), "{event:?} {id}");
        }
    }
}
