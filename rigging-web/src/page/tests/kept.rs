use super::*;

fn again(page: &Page) -> Page {
    let mut again = Page::default();
    again.recall(&page.kept());
    again
}

#[test]
fn the_next_start_has_the_way_the_numbers_and_their_day() {
    let mut page = open("#1/ln");
    page.event(Event::Input, "people", "2", NOW);
    page.event(Event::Press, "mine", "", NOW);
    page.event(Event::Press, "way-lip", "", NOW);
    page.go("#1/ab/a40", "", NOW);
    page.go("#1/ha", "", NOW);
    page.event(Event::Input, "to_lip_m", "3", NOW);

    let mut next = again(&page);
    let home = next.go("", "", "2026-03-05 08:00");
    assert_eq!(home.way, "lip");
    // The last of one's own, not the stranger's link.
    assert!(part(&home, "app").contains("Go on with: Will people hold it"), "{home:?}");
    let line = next.go("#1/ln/n2", "", "2026-03-05 08:00");
    assert!(part(&line, "app").contains("MINE, FROM 2026-03-04 10:30"));
    let abseil = next.go("#1/ab/a40", "", "2026-03-05 08:00");
    assert!(part(&abseil, "app").contains("FROM A LINK, NOT YOURS"));
    let people = next.go(&page.sheet.as_ref().unwrap().link().write(), "", "2026-03-05 08:00");
    assert!(part(&people, "app").contains("EXAMPLE, CHANGED"));
}

#[test]
fn what_another_window_kept_of_a_question_counts_when_it_is_taken_up() {
    let mut page = open("#1/ln");
    page.event(Event::Input, "drop_m", "0.7", NOW);
    page.event(Event::Press, "mine", "", NOW);
    page.go("#1/ln/d0.9", "", NOW);
    let take_up = |page: &Page, memory: &str, fragment: &str| {
        let shown = again(page).go(fragment, memory, NOW);
        (shown.fragment, shown.memory)
    };
    let mine = ("1/ln/d0.7".to_owned(), NOW.to_owned());
    for memory in ["*", "example*", "2026-03-03 08:00*"] {
        assert_eq!(take_up(&page, memory, "1/ln/d0.4"), mine, "{memory}");
    }
    // Of another question nothing is: the address is as it was.
    assert_eq!(take_up(&page, "2026-03-04 08:00*", "1/al/n2"), ("1/al/n2".to_owned(), "2026-03-04 08:00".to_owned()));
    assert_eq!(take_up(&page, "2026-03-04 08:00", "1/ln/d0.4").0, "1/ln/d0.4");
    // One that stands in the plan is taken up from there.
    page.go("plan/1/ln", "", NOW);
    page.event(Event::Press, "into-plan", "", NOW);
    page.event(Event::Input, "drop_m", "0.3", NOW);
    page.go("plan", "", NOW);
    assert!(take_up(&page, "*", "1/ln/d0.4").0.starts_with("1/ln/d0.7/"));
}

#[test]
fn the_units_last_chosen_are_those_of_the_next_time() {
    let mut page = open("#1/ln");
    page.event(Event::Input, "length-unit", "ft", NOW);
    assert!(part(&again(&page).go("#1/ab", "", NOW), "app").contains("<option value=\"ft\" selected>"));
}

#[test]
fn the_masses_of_the_group_are_there_the_next_time() {
    let mut page = open("#1/ln");
    page.event(Event::Input, "body_kg-low", "61", NOW);
    let mut next = again(&page);
    let abseil = next.go("#1/ab", "", NOW);
    assert!(part(&abseil, "app").contains(r#"value="61""#));
}

#[test]
fn what_cannot_be_used_stands_in_its_box_the_next_time_too() {
    let mut page = open("#1/ln");
    page.event(Event::Input, "drop_m", "a little", NOW);
    page.event(Event::Input, "span_m-low", "9", NOW);
    let address = page.event(Event::Input, "span_m-high", "2", NOW).fragment;
    page.event(Event::Press, "way-desk", "", NOW);
    let line = again(&page).go(&address, "", NOW);
    let html = part(&line, "app");
    for words in [r#"value="a little""#, r#"value="9""#, r#"value="2""#, "cannot be used", "must not be above"] {
        assert!(html.contains(words), "{words} in {html}");
    }

    page.go("plan/2", "", NOW);
    page.event(Event::Input, "drop-2.height_m-high", "twelve\tm", NOW);
    let html = part(&again(&page).go("plan/2", "", NOW), "app").to_owned();
    assert!(html.contains(r#"value="twelve m""#) && html.contains("“twelve m” cannot be used"), "{html}");
    // What could be used now is not taken unasked, and not shown as typed and worked out as something else.
    let kept = page.kept().replace("twelve m", "12");
    let mut next = Page::default();
    next.recall(&kept);
    let html = part(&next.go("plan/2", "", NOW), "app").to_owned();
    assert!(html.contains(r#"value="13""#) && html.contains("11\u{a0}m to 13\u{a0}m"), "{html}");
}

#[test]
fn what_cannot_be_used_in_a_plan_is_taken_up_in_its_own_units_and_texts_too() {
    let mut page = open("plan/1");
    page.event(Event::Input, "length-unit", "ft", NOW);
    // 50 m are the most; told in feet, and read so.
    page.event(Event::Input, "drop-1.set_back_m", "170", NOW);
    page.go("plan", "", NOW);
    page.event(Event::Input, "person-1.body_kg", "50", NOW);
    page.event(Event::Input, "day.date", "tomorrow", NOW);
    let here = page.go("plan", "", NOW);
    let again = again(&page).go("plan", "", NOW);
    for words in [r#"value="50""#, "30", r#"value="tomorrow""#] {
        assert!(part(&here, "app").contains(words), "{words}");
    }
    // 50 lb are no person, 50 kg would be one: all stands as it stood, the messages too.
    let but_undo = |update: &Update| {
        let (before, rest) = part(update, "app").split_once("id=\"undo-place\">").unwrap();
        [before, rest.split_once("</div>").unwrap().1].concat()
    };
    assert_eq!(but_undo(&again), but_undo(&here));
}

#[test]
fn what_cannot_be_read_is_left_out_and_nothing_is_made_up() {
    for kept in [
        "",
        "2\nway\tlip",
        "nonsense",
        "1\nway\tnowhere\nsheet\t\t1/zz\nsheet\t2026-03-04 10:30\nunits\tx\nread\tx\n\t\t\t",
    ] {
        let mut page = Page::default();
        page.recall(kept);
        assert_eq!(page.kept(), "1\nway\tdesk\nunits\t", "{kept}");
        assert!(part(&page.go("", "", NOW), "first").contains("I have read this"));
    }
}

#[test]
fn the_first_notice_is_shown_until_it_was_read_and_never_again() {
    let mut page = Page::default();
    assert!(part(&page.go("#1/al", "", NOW), "first").contains("never says that a rig holds"));
    assert_eq!(part(&page.event(Event::Press, "read", "", NOW), "first"), "");
    assert_eq!(part(&page.go("", "", NOW), "first"), "");
    assert_eq!(part(&again(&page).go("#1/ab", "", NOW), "first"), "");
}

#[test]
fn no_more_is_kept_than_a_browser_takes() {
    let mut page = Page::default();
    for number in 1..200 {
        page.go(&format!("#1/ln/n2/a{number}"), NOW, NOW);
    }
    assert!(page.kept().len() < 10_000, "{}", page.kept().len());
}

/// The masses of somebody's example are nobody's, whatever the browser kept last.
#[test]
fn masses_of_an_example_of_the_plan_are_not_those_of_the_group_the_next_time() {
    let mut page = open("#1/ln");
    page.event(Event::Press, "mine", "", NOW);
    page.event(Event::Input, "body_kg-high", "120", NOW);
    assert!(part(&page.go("plan/1/1", "", NOW), "app").contains("EXAMPLE"));
    let shown = again(&page).go("#1/ab", "", NOW);
    assert!(part(&shown, "app").contains("value=\"120\""), "{shown:?}");
}
