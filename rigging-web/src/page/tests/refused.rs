//! What is typed and cannot be used: whose number it is, and where it waits.

use super::{NOW, open, part};
use crate::page::{Event, Page, Update};
use rigging_core::question::Entry;

/// Types letter by letter, as a hand does.
fn typed(page: &mut Page, id: &str, text: &str) -> Update {
    let ends = (1..=text.len()).filter(|end| text.is_char_boundary(*end));
    ends.for_each(|end| drop(page.event(Event::Input, id, &text[..end], NOW)));
    page.event(Event::Leave, id, text, NOW)
}

#[test]
fn the_beginning_of_what_cannot_be_used_is_nobodys_number() {
    let mut page = open("#1/sl");
    page.event(Event::Press, "mine", "", NOW);
    typed(&mut page, "rope_m", "30");
    // Its bounds end at 200 m: the 25 on the way there is no number of anybody's.
    assert!(part(&typed(&mut page, "rope_m", "250"), "rope_m-message").contains("cannot be used"));
    let sheet = page.sheet.as_ref().unwrap();
    assert_eq!(sheet.field("rope_m").unwrap().entry, Entry::One(30.0));
    assert!(sheet.link().write().contains("b30") && sheet.answer().is_none());
    // One step more is one from what stood there before.
    page.event(Event::Press, "more:rope_m", "", NOW);
    assert!(
        matches!(page.sheet.as_ref().unwrap().field("rope_m").unwrap().entry, Entry::One(at) if (at - 30.1).abs() < 1e-9)
    );
    // What was said of what was typed before is said no more while something else is.
    typed(&mut page, "rope_m", "12 ft");
    let now = page.event(Event::Input, "rope_m", "x", NOW);
    assert_eq!(part(&now, "rope_m-message"), "");
}

#[test]
fn a_mass_that_cannot_be_used_is_no_other_number_in_the_next_question() {
    let mut page = open("#1/rl");
    page.event(Event::Press, "mine", "", NOW);
    page.go("#1/sl", "", NOW);
    page.event(Event::Press, "mine", "", NOW);
    typed(&mut page, "body_kg-high", "1300");
    let next = page.go("#1/rl", "", NOW);
    let sheet = page.sheet.as_ref().unwrap();
    assert!(sheet.answer().is_none() && sheet.wrong.get("body_kg").is_some());
    assert!(part(&next, "app").contains("value=\"1300\"") && part(&next, "app").contains("An entry cannot be used: "));
    // Mended here, it is mended there.
    typed(&mut page, "body_kg-high", "100");
    page.go("#1/sl", "", NOW);
    let sheet = page.sheet.as_ref().unwrap();
    assert!(sheet.wrong.is_empty() && sheet.answer().is_some());
    assert!(matches!(sheet.field("body_kg").unwrap().entry, Entry::Range(body) if body.high() == 100.0));
}

#[test]
fn what_stands_in_a_box_is_read_in_the_unit_beside_it() {
    let mut page = open("#1/sl");
    page.event(Event::Press, "mine", "", NOW);
    typed(&mut page, "rope_m", "250");
    typed(&mut page, "body_kg-high", "2400");
    page.event(Event::Input, "length-unit", "ft", NOW);
    page.event(Event::Input, "force-unit", "lbf", NOW);
    let sheet = page.sheet.as_ref().unwrap();
    // 250 ft are 76.2 m; 2400 lb are still too much.
    assert!(matches!(sheet.field("rope_m").unwrap().entry, Entry::One(rope) if (rope - 76.2).abs() < 1e-6));
    assert!(
        sheet.wrong.get("rope_m").is_none() && sheet.wrong.get("body_kg").is_some_and(|wrong| wrong.contains("lb"))
    );
}
