//! What a hand and keys do to the picture.

use super::*;
use rigging_core::question::scene::Grip;

/// Takes hold of a handle at the middle of the picture and pulls it so far to the right and up, in units of it.
fn drag(page: &mut Page, id: &str, right: f64, up: f64) -> Update {
    page.grip(id, 180.0, 160.0);
    page.pull(180.0 + right, 160.0 - up, NOW)
}

fn middle(page: &Page, name: &str) -> f64 {
    page.sheet.as_ref().unwrap().field(name).unwrap().entry.middle()
}

/// The number of the handle that moves a field.
fn handle(page: &Page, field: &str) -> String {
    let answer = page.sheet.as_ref().unwrap().answer().unwrap().unwrap();
    let moves = |grips: &[Grip]| grips.iter().any(|grip| grip.field() == field);
    let number = answer.scene.handles.iter().position(|handle| moves(&handle.grips)).unwrap();
    format!("handle-0-{number}")
}

#[test]
fn a_dragged_range_keeps_its_width_and_is_shown_in_its_boxes_and_its_link() {
    let mut page = open("#1/al");
    let id = handle(&page, "down_m");
    let update = drag(&mut page, &id, 0.0, -40.0);
    let Entry::Range(down) = entry(&page, "down_m") else { panic!() };
    assert!(down.high() > 0.62 && (down.high() - down.low() - 0.1).abs() < 1e-9, "{down:?}");
    let box_of = |id: &str| update.values.iter().find(|(input, _)| input == id).unwrap().1.clone();
    assert_eq!(box_of("down_m-low").parse::<f64>().unwrap(), down.low());
    assert_eq!(box_of("down_m-high").parse::<f64>().unwrap(), down.high());
    for place in ["answer", "picture", "working"] {
        assert!(part(&update, place).contains("kN"), "{place} does not follow");
    }
    assert!(part(&update, "answer").contains("EXAMPLE, CHANGED"));
    let last = page.let_go();
    assert_eq!(crate::link::Link::read(&last.fragment).unwrap().question, page.sheet.as_ref().unwrap().question);
}

#[test]
fn while_a_hand_drags_the_page_is_quiet_and_says_the_answer_once_when_it_lets_go() {
    let mut page = open("#1/ln");
    let id = handle(&page, "sag");
    for far in [5.0, 10.0, 15.0] {
        let update = drag(&mut page, &id, 0.0, -far);
        assert!(update.said.is_empty() && update.fragment.is_empty(), "{update:?}");
    }
    let last = page.let_go();
    assert!(last.said.contains("kN") && !last.fragment.is_empty(), "{last:?}");
    assert_eq!(page.let_go(), Update::default());
}

#[test]
fn the_scale_stands_still_while_a_hand_drags() {
    let mut page = open("#1/ln");
    // The near anchor is drawn at the origin; it must not move while the far one is pulled out of the picture.
    let anchor = |update: &Update| {
        let html = part(update, "picture");
        let start = html.find("<circle class=\"anchor\"").unwrap();
        html[start..start + 60].to_owned()
    };
    let id = handle(&page, "span_m");
    page.grip(&id, 300.0, 100.0);
    let first = page.pull(301.0, 100.0, NOW);
    let far = page.pull(420.0, 100.0, NOW);
    assert_eq!(anchor(&first), anchor(&far));
    assert!(middle(&page, "span_m") > 10.0);
    assert_ne!(anchor(&far), anchor(&page.let_go()), "then it fits itself anew");
}

#[test]
fn what_a_cancelled_drag_did_is_taken_back() {
    let mut page = open("#1/al");
    page.event(Event::Input, "rope_m", "4", NOW);
    let was = page.sheet.as_ref().unwrap().whole();
    let id = handle(&page, "down_m");
    drag(&mut page, &id, 10.0, -40.0);
    let back = page.take_back();
    assert!(back.said.is_empty());
    assert_eq!(page.sheet.as_ref().unwrap().whole(), was);
    assert_eq!(page.pull(300.0, 300.0, NOW), Update::default(), "nothing is held any more");
    assert_eq!(back.fragment, was.fragment);
}

#[test]
fn one_drag_is_one_change_to_take_back() {
    let mut page = open("#1/al");
    let was = page.sheet.as_ref().unwrap().question.clone();
    let id = handle(&page, "down_m");
    page.grip(&id, 0.0, 0.0);
    for far in 1..30 {
        page.pull(0.0, f64::from(far), NOW);
    }
    page.let_go();
    assert_ne!(page.sheet.as_ref().unwrap().question, was);
    page.event(Event::Press, "undo", "", NOW);
    assert_eq!(page.sheet.as_ref().unwrap().question, was);
}

#[test]
fn a_handle_that_is_only_touched_changes_nothing() {
    let mut page = open("#1/al/a0.77777_0.81111");
    let was = page.sheet.as_ref().unwrap().question.clone();
    let id = handle(&page, "apart_m");
    assert_eq!(drag(&mut page, &id, 0.0, 0.0), Update::default());
    page.let_go();
    assert_eq!(page.sheet.as_ref().unwrap().question, was);
}

#[test]
fn a_drag_stops_at_the_bounds_and_where_nothing_can_be_rigged() {
    let mut page = open("#1/al");
    let id = handle(&page, "down_m");
    drag(&mut page, &id, 0.0, 1000.0);
    let Entry::Range(down) = entry(&page, "down_m") else { panic!() };
    assert_eq!(down.low(), 0.05);
    page.let_go();
    // One anchor cannot be higher than the other by more than they are apart: the last rig that can be stays.
    let id = handle(&page, "right_higher_m");
    page.grip(&id, 0.0, 0.0);
    for far in 0..400 {
        page.pull(-f64::from(far), -f64::from(far), NOW);
        assert!(matches!(page.sheet.as_ref().unwrap().answer(), Some(Ok(_))), "{far}");
    }
}

#[test]
fn at_the_lip_nothing_in_the_picture_can_be_moved() {
    let mut page = open("#1/al");
    let desk = page.sheet.as_ref().unwrap().whole();
    assert!(part(&desk, "app").contains("role=\"slider\""));
    let lip = page.event(Event::Press, "way-lip", "", NOW);
    assert!(!part(&lip, "app").contains("role=\"slider\""));
    let id = handle(&page, "down_m");
    assert_eq!(drag(&mut page, &id, 0.0, 30.0), Update::default());
    assert_eq!(page.nudge(&id, "ArrowDown", NOW), Update::default());
    let class = page.event(Event::Press, "way-class", "", NOW);
    assert!(part(&class, "app").contains("role=\"slider\""));
}

#[test]
fn arrow_keys_move_a_handle_the_way_they_point() {
    let mut page = open("#1/al");
    let id = handle(&page, "down_m");
    let (down, out) = (middle(&page, "down_m"), middle(&page, "out_m"));
    let update = page.nudge(&id, "ArrowDown", NOW);
    assert!(middle(&page, "down_m") > down && update.said.contains("kN"), "{}", update.said);
    page.nudge(&id, "ArrowLeft", NOW);
    assert!(middle(&page, "out_m") < out);
    page.nudge(&id, "ArrowRight", NOW);
    assert!((middle(&page, "out_m") - out).abs() < 1e-9, "there and back");
    assert_eq!(page.nudge(&id, "Enter", NOW), Update::default());
}

#[test]
fn a_hand_on_a_sheet_that_is_left_lets_go() {
    let mut page = open("#1/al");
    let id = handle(&page, "down_m");
    drag(&mut page, &id, 0.0, -30.0);
    page.go("#1/ln", "", NOW);
    assert_eq!(page.pull(10.0, 10.0, NOW), Update::default());
    page.go("#1/al", "", NOW);
    assert!(page.sheet.as_ref().unwrap().question.is_example(), "a drag that never ended changed nothing");
}

#[test]
fn no_movement_breaks_a_sheet() {
    for (fragment, handles) in [("#1/al/N3", 4), ("#1/ln/i3", 5), ("#1/bd/c3", 4), ("#1/cu", 2), ("#1/sl/a5", 1)] {
        let mut page = open(fragment);
        for number in 0..handles {
            for (right, up) in [(1e9, 1.0), (-40.0, 1e9), (f64::NAN, 0.0), (f64::INFINITY, 3.0), (17.3, -12.9)] {
                drag(&mut page, &format!("handle-0-{number}"), right, up);
                page.let_go();
                let fragment = page.sheet.as_ref().unwrap().link().write();
                assert!(crate::link::Link::read(&fragment).is_ok(), "{fragment}");
            }
        }
    }
    for id in ["", "handle-", "handle-0-99", "handle-9-0", "handle--1-0", "handle-0-0-0"] {
        let mut page = open("#1/al");
        assert_eq!(drag(&mut page, id, 1.0, 1.0), Update::default(), "{id}");
    }
}
