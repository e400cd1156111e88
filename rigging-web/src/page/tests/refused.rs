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
    assert!(
        part(&next, "app").contains("value=\"1300 kg\"") && part(&next, "app").contains("An entry cannot be used: ")
    );
    // Mended here, it is mended there.
    typed(&mut page, "body_kg-high", "100");
    page.go("#1/sl", "", NOW);
    let sheet = page.sheet.as_ref().unwrap();
    assert!(sheet.wrong.is_empty() && sheet.answer().is_some());
    assert!(matches!(sheet.field("body_kg").unwrap().entry, Entry::Range(body) if body.high() == 100.0));
}

#[test]
fn what_cannot_be_used_keeps_the_unit_that_stood_beside_it() {
    let mut page = open("#1/sl");
    page.event(Event::Press, "mine", "", NOW);
    typed(&mut page, "rope_m", "250");
    typed(&mut page, "body_kg-high", "2400");
    page.event(Event::Input, "length-unit", "ft", NOW);
    let told = page.event(Event::Input, "force-unit", "lbf", NOW);
    // 250 ft would be a rope: nobody typed feet.
    for words in ["value=\"250 m\"", "value=\"2400 kg\"", "“250 m” cannot be used"] {
        assert!(part(&told, "app").contains(words), "{words}: {told:?}");
    }
    let sheet = page.sheet.as_ref().unwrap();
    assert!(sheet.answer().is_none() && sheet.wrong.get("body_kg").is_some_and(|wrong| wrong.contains("lb")));
    // What has its unit keeps it.
    page.event(Event::Input, "length-unit", "m", NOW);
    typed(&mut page, "rope_m", "900 ft");
    let told = page.event(Event::Input, "length-unit", "ft", NOW);
    assert!(part(&told, "app").contains("value=\"900 ft\""), "{told:?}");
}

#[test]
fn what_cannot_be_used_in_a_plan_keeps_the_unit_that_stood_beside_it() {
    let mut page = open("plan/2");
    page.event(Event::Input, "length-unit", "ft", NOW);
    // 200 ft back from the edge are too far, 20 m would not be.
    typed(&mut page, "drop-2.set_back_m", "200");
    // Chosen in a question, they hold in the plan too, and over a reload.
    page.go("#1/ln", "", NOW);
    page.event(Event::Input, "length-unit", "m", NOW);
    let mut again = Page::default();
    again.recall(&page.kept());
    for page in [&mut page, &mut again] {
        let told = page.go("plan/2", "", NOW);
        for words in ["value=\"200 ft\"", "“200 ft” cannot be used. It must be a number from 0\u{a0}m to 50\u{a0}m"]
        {
            assert!(part(&told, "app").contains(words), "{words}: {told:?}");
        }
    }
}

#[test]
fn the_plan_names_the_row_and_the_whole_text_of_what_cannot_be_used_and_gives_no_link_of_it() {
    let mut page = open("plan/2");
    page.event(Event::Press, "plan-mine", "", NOW);
    let sent = |page: &mut Page| part(&page.event(Event::Press, "plan-send", "", NOW), "plan-sent").to_owned();
    assert!(sent(&mut page).contains("id=\"plan-link\""));
    typed(&mut page, "drop-2.height_m-high", "2o");
    typed(&mut page, "person-3.body_kg", "heavy");
    let told = page.go("plan", "", NOW);
    let head = part(&told, "app").split("An entry cannot be used. ").nth(1).unwrap().split("</p>").next().unwrap();
    let name = crate::plan::name_of(&rigging_core::plan::Plan::example(), 1);
    for words in [
        format!("In drop {name}: Down: lip to the bottom"),
        "“2o” cannot be used: “o” does not measure this. It must be a number from ".to_owned(),
        "In person 3: Body mass".to_owned(),
    ] {
        assert!(head.contains(&words), "{words}: {head}");
    }
    let html = sent(&mut page);
    assert!(!html.contains("plan-link") && html.contains("No link: not all of it can be used."), "{html}");
    assert!(html.contains("SOME ENTRIES COULD NOT BE USED"), "{html}");
    // Nor while one cannot be used in a question of a drop.
    for _ in 0..2 {
        page.event(Event::Press, "undo", "", NOW);
    }
    assert!(sent(&mut page).contains("id=\"plan-link\""));
    page.go("plan/2/2", "", NOW);
    typed(&mut page, "let_out_m", "9999");
    page.go("plan", "", NOW);
    assert!(!sent(&mut page).contains("plan-link"));
}

#[test]
fn what_undoing_brings_back_is_in_the_unit_in_which_it_was_typed() {
    let mut page = open("plan/2");
    page.event(Event::Press, "plan-mine", "", NOW);
    page.go("plan/2", "", NOW);
    let height = "drop-2.height_m-high";
    typed(&mut page, height, "400");
    typed(&mut page, "drop-2.set_back_m", "4");
    page.event(Event::Input, "length-unit", "ft", NOW);
    // The set-back in feet is undone with the rest of what was typed before.
    let undone = page.event(Event::Press, "undo", "", NOW);
    assert!(part(&undone, "app").contains("value=\"400 m\""), "{undone:?}");
    // Touched, it is what it was: 400 m, no 400 ft.
    page.event(Event::Input, height, "400 m ", NOW);
    let told = page.event(Event::Leave, height, "400 m ", NOW);
    assert!(format!("{told:?}").contains("cannot be used"), "{told:?}");
}

/// Whoever does as is said writes the number in the unit in which it was meant.
#[test]
fn what_can_be_read_in_two_ways_is_asked_about_in_its_own_unit() {
    let mut page = open("#1/rp");
    typed(&mut page, "rope_m", "1,500");
    let asked = |page: &mut Page| format!("{:?}", page.event(Event::Input, "length-unit", "ft", NOW));
    let told = asked(&mut page);
    assert!(told.contains("1,500 m") && told.contains("Write 1.500 m or 1500 m."), "{told}");
}
