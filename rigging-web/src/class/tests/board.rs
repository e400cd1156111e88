//! What a class sees, and when.

use super::super::demo::Place;
use super::{NOW, answer, everywhere, in_class, press, told};
use crate::link::Link;
use crate::page::{Event, Page, Update};
use rigging_core::quantity::{Kind, Unit, Units};
use rigging_core::question::{Answer, Finding, Question};

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
