//! The sheet of the plan: every button, bad input, files, links, and what the browser keeps.

mod questions;

use super::{NOW, part};
use crate::page::{Event, Page, Update};
use crate::plan::link;
use rigging_core::plan::{Answers, MOST, Plan};
use rigging_core::quantity::Units;

fn press(page: &mut Page, id: &str) -> Update {
    page.event(Event::Press, id, "", NOW)
}

fn enter(page: &mut Page, id: &str, value: &str) -> Update {
    page.event(Event::Input, id, value, NOW);
    page.event(Event::Leave, id, value, NOW)
}

/// A plan of mine with three drops, each with a height.
fn mine() -> Page {
    let mut page = Page::default();
    page.go("plan", "", NOW);
    press(&mut page, "plan-new");
    for (place, height) in ["12", "18", "9"].into_iter().enumerate() {
        page.go("plan", "", NOW);
        press(&mut page, "add:drop");
        let key = place + 1;
        enter(&mut page, &format!("drop-{key}.height_m-high"), height);
        enter(&mut page, &format!("drop-{key}.height_m-low"), height);
        enter(&mut page, &format!("drop-{key}.name"), &format!("drop of {height}"));
    }
    page.go("plan", "", NOW);
    page
}

/// The heights in their order, from the text of the file.
fn names(page: &mut Page) -> Vec<String> {
    let file = press(page, "plan-save").save;
    let names = file.split("\"name\"").skip(2).filter_map(|part| part.split('"').nth(1));
    names.filter(|name| name.starts_with("drop of")).map(str::to_owned).collect()
}

fn shown(page: &mut Page) -> String {
    part(&page.go("plan", "", NOW), "app").to_owned()
}

#[test]
fn the_plan_opens_as_an_example_that_says_so_and_compares_nothing() {
    let mut page = Page::default();
    let html = shown(&mut page);
    assert!(html.contains("EXAMPLE, INVENTED"), "{html}");
    for word in ["below limit", "range crosses limit", "above limit"] {
        assert!(!html.contains(word), "{word}");
    }
    assert!(html.contains("not checked, not confirmed as yours"));
    let sent = press(&mut page, "plan-send");
    assert!(!part(&sent, "plan-sent").contains("crosses limit"));
    let confirmed = press(&mut page, "plan-mine");
    let html = part(&confirmed, "app");
    assert!(html.contains("MINE") && html.contains("above limit"), "{html}");
    assert!(!html.contains("INVENTED"));
}

#[test]
fn rows_are_added_copied_moved_removed_and_brought_back() {
    let mut page = mine();
    let all = ["drop of 12", "drop of 18", "drop of 9"];
    assert_eq!(names(&mut page), all);
    let up = press(&mut page, "up:drop-3");
    assert_eq!(up.focus, "up:drop-3");
    assert_eq!(names(&mut page), ["drop of 12", "drop of 9", "drop of 18"]);
    press(&mut page, "down:drop-3");
    assert_eq!(names(&mut page), all);
    // At the ends nothing moves, and there is nothing to undo of it.
    press(&mut page, "up:drop-1");
    press(&mut page, "down:drop-3");
    assert_eq!(names(&mut page), all);
    press(&mut page, "copy:drop-1");
    assert_eq!(names(&mut page), ["drop of 12", "drop of 12", "drop of 18", "drop of 9"]);
    press(&mut page, "undo");
    press(&mut page, "remove:drop-2");
    assert_eq!(names(&mut page), ["drop of 12", "drop of 9"]);
    let back = press(&mut page, "undo");
    assert_eq!(back.focus, "undo");
    assert_eq!(names(&mut page), all);
    // The keyboard has a place after the last of it too, be the drop it was in still there or not.
    for (address, id) in [("plan/1", "less:drop-1.height_m-low"), ("plan", "down:drop-1"), ("plan", "add:drop")] {
        let mut other = Page::default();
        other.go(address, "", NOW);
        press(&mut other, id);
        let last = press(&mut other, "undo");
        assert!(part(&last, "app").contains(&format!("id=\"{}\"", last.focus)), "{id}: {}", last.focus);
    }
    for list in ["person", "rope"] {
        let added = press(&mut page, &format!("add:{list}"));
        assert_eq!(added.focus, format!("{list}-1.name"));
        assert!(part(&added, "app").contains(&format!("id=\"{list}-1.name\"")));
        press(&mut page, &format!("copy:{list}-1"));
        press(&mut page, &format!("remove:{list}-1"));
        assert!(shown(&mut page).contains(&format!("id=\"{list}-2.name\"")));
    }
}

#[test]
fn what_is_typed_stays_with_its_row_while_rows_move() {
    let mut page = mine();
    enter(&mut page, "drop-2.height_m-high", "no number");
    press(&mut page, "up:drop-2");
    let html = part(&page.go("plan/1", "", NOW), "app").to_owned();
    assert!(html.contains("value=\"no number\"") && html.contains("cannot be used"), "{html}");
    // The copy of a row is of what was taken, and nothing is compared meanwhile.
    assert!(html.contains("An entry cannot be used"));
    assert!(!part(&page.go("plan/2", "", NOW), "app").contains("value=\"no number\""));
}

#[test]
fn a_bad_entry_stays_as_typed_and_its_message_names_the_field() {
    let mut page = mine();
    for (id, typed, words) in [
        ("drop-1.height_m-low", "", "Down: lip to the bottom"),
        ("drop-1.height_m-low", "999", "Down: lip to the bottom"),
        ("drop-1.height_m-low", "1,234", "two ways"),
        ("drop-1.height_m-low", "80 kg", "does not measure this"),
        ("drop-1.rope", "1.5", "whole number"),
        ("day.start_s", "9:75", "hours and minutes"),
        ("day.walk_in_s-high", "soon", "Walk to the first drop"),
        ("day.date", "tomorrow", "Date: it is no day"),
    ] {
        let left = enter(&mut page, id, typed);
        let (row, name) = id.trim_end_matches("-low").trim_end_matches("-high").split_once('.').unwrap();
        assert!(part(&left, &format!("{row}.{name}-message")).contains(words), "{id} {typed}: {left:?}");
        let whole = if row == "day" { shown(&mut page) } else { part(&page.go("plan/1", "", NOW), "app").to_owned() };
        assert!(typed.is_empty() || whole.contains(&format!("value=\"{typed}\"")), "{typed}");
        assert!(shown(&mut page).contains("An entry cannot be used"));
        press(&mut page, "undo");
        assert!(!shown(&mut page).contains("An entry cannot be used"), "{id}");
    }
    // Ids that lead nowhere change nothing.
    for id in ["drop-9.height_m", "drop-x.name", "cave-1.name", ".", "drop-1.", "less:drop-1.name", "up:", "copy:day-1"]
    {
        let before = page.kept();
        page.event(Event::Input, id, "5", NOW);
        page.event(Event::Leave, id, "5", NOW);
        press(&mut page, id);
        assert_eq!(page.kept(), before, "{id}");
    }
}

#[test]
fn buttons_step_numbers_and_times() {
    let mut page = mine();
    let stepped = press(&mut page, "more:drop-1.height_m-high");
    assert!(stepped.values.contains(&("drop-1.height_m-high".to_owned(), "12.1".to_owned())), "{stepped:?}");
    let stepped = press(&mut page, "less:day.start_s");
    assert!(stepped.values.contains(&("day.start_s".to_owned(), "8:45".to_owned())), "{stepped:?}");
    let stepped = press(&mut page, "more:day.walk_in_s-high");
    assert!(stepped.values.contains(&("day.walk_in_s-high".to_owned(), "1".to_owned())), "{stepped:?}");
}

#[test]
fn a_question_of_a_drop_shows_its_gravest_comparison_with_its_own_load() {
    let mut page = Page::default();
    page.go("plan", "", NOW);
    press(&mut page, "plan-mine");
    let drop = part(&page.go("plan/2", "", NOW), "app").to_owned();
    let abseil = drop.split("Can the brake hand hold").nth(1).unwrap();
    let shown = abseil.split("Limit: ").next().unwrap();
    // Its first comparison is that of the anchor, which lies below its limit.
    assert!(shown.contains("range crosses limit") && shown.contains("Computed: 0.030"), "{shown}");
    assert!(shown.contains("for the brake hand"), "{shown}");
}

/// How often a unit stands behind a number.
fn told_in(html: &str, unit: &str) -> usize {
    let unit = format!("\u{a0}{unit}");
    html.match_indices(&unit).filter(|(at, _)| !html[at + unit.len()..].starts_with(char::is_alphabetic)).count()
}

#[test]
fn the_plan_is_told_and_read_in_feet_and_pounds_when_these_are_chosen() {
    let mut page = Page::default();
    page.go("plan", "", NOW);
    press(&mut page, "plan-mine");
    enter(&mut page, "drop-1.height_m-high", "twelve");
    page.event(Event::Input, "force-unit", "lbf", NOW);
    let feet = page.event(Event::Input, "length-unit", "ft", NOW);
    assert_eq!(feet.focus, "length-unit");
    let whole = part(&feet, "app").to_owned();
    let drop = part(&page.go("plan/2", "", NOW), "app").to_owned();
    let paper = part(&page.paper(NOW), "paper").to_owned();
    let sent = part(&press(&mut page, "plan-send"), "plan-sent").to_owned();
    for html in [&whole, &drop, &paper, &sent] {
        for (mine, other) in [("ft", "m"), ("lbf", "kN"), ("lb", "kg")] {
            assert_eq!(told_in(html, other), 0, "{other} in {html}");
            assert!(told_in(html, mine) > 0 || mine == "lb", "no {mine} in {html}");
        }
    }
    assert!(told_in(&paper, "lb") > 0);
    // What cannot be used stays as typed; what is typed is in feet from now on, and in the questions of a drop too.
    assert!(part(&page.go("plan/1", "", NOW), "app").contains("value=\"twelve\""));
    enter(&mut page, "drop-1.height_m-high", "30");
    let saved = press(&mut page, "plan-save").save;
    assert!(saved.contains("9.144"), "{saved}");
    let question = part(&page.go("plan/2/1", "", NOW), "app").to_owned();
    assert!(told_in(&question, "ft") > 0 && told_in(&question, "m") == 0, "{question}");
    // The next start has them too.
    let mut next = Page::default();
    next.recall(&page.kept());
    let again = part(&next.go("plan", "", NOW), "app").to_owned();
    assert!(told_in(&again, "lbf") > 0 && told_in(&again, "kN") == 0);
}

#[test]
fn undo_after_other_units_were_chosen_shows_no_number_in_the_units_before() {
    let mut page = mine();
    page.go("plan/1", "", NOW);
    enter(&mut page, "drop-1.set_back_m", "3");
    enter(&mut page, "drop-1.name", "changed next");
    page.event(Event::Input, "length-unit", "ft", NOW);
    let back = press(&mut page, "undo");
    // 3 m are 9.84252 ft.
    assert!(part(&back, "app").contains(r#"id="drop-1.set_back_m""#) && part(&back, "app").contains("9.84252"));
    assert!(!part(&back, "app").contains(r#"value="3""#), "{back:?}");
}

fn press_in_plan(page: &mut Page, id: &str) -> Update {
    page.go("plan", "", NOW);
    press(page, id)
}

#[test]
fn a_change_of_the_water_moves_through_the_whole_plan() {
    let mut page = Page::default();
    page.go("plan", "", NOW);
    press(&mut page, "plan-mine");
    let head =
        |page: &mut Page, water: &str| part(&page.event(Event::Input, "day.water", water, NOW), "plan-head").to_owned();
    let low = head(&mut page, "as entered");
    let high = head(&mut page, "much higher");
    assert_ne!(low, high);
    assert!(high.contains("higher water: bottoms") && !low.contains("higher water: bottoms"));
}

#[test]
fn another_plan_never_takes_the_place_of_mine_without_asking() {
    let mut page = mine();
    let file = rigging_core::plan::Plan::example().write();
    let asked = page.event(Event::Input, "plan-opened", &file, NOW);
    assert!(part(&asked, "app").contains("A plan from a file") && asked.focus == "plan-leave");
    assert_eq!(names(&mut page), ["drop of 12", "drop of 18", "drop of 9"]);
    press(&mut page, "plan-leave");
    assert!(!shown(&mut page).contains("A plan from a file"));
    page.event(Event::Input, "plan-opened", &file, NOW);
    let taken = press(&mut page, "plan-take");
    assert!(part(&taken, "app").contains("FROM ELSEWHERE, NOT YOURS"), "{taken:?}");
    assert!(part(&taken, "app").contains("Fall behind the pillar"));
    press(&mut page, "undo");
    assert_eq!(names(&mut page), ["drop of 12", "drop of 18", "drop of 9"]);
    let empty = press(&mut page, "plan-new");
    assert!(part(&empty, "app").contains("An empty plan"));
    assert_eq!(names(&mut page), ["drop of 12", "drop of 18", "drop of 9"]);
}

#[test]
fn a_damaged_file_opens_as_far_as_it_can_be_read_and_lists_what_was_refused() {
    let mut page = Page::default();
    page.go("plan", "", NOW);
    let file = "{\"format\": \"rigging plan\", \"version\": 1,\n \"day\": {\"name\": \"Half\", \"moon\": 3},\n \"drops\": [{\"name\": \"only one\", \"height_m\": 999},\n";
    let opened = page.event(Event::Input, "plan-opened", file, NOW);
    let html = part(&opened, "app");
    for words in ["only one", "Half", "Not taken", "line 2", "moon", "line 3", "height_m"] {
        assert!(html.contains(words), "{words}: {html}");
    }
    // Who gets the sheet or the text is told too.
    let torn = |html: &str| html.contains("could not be read: line 2") && html.contains("could not be read: line 3");
    let sheet = part(&page.paper(NOW), "paper").to_owned();
    let sent = part(&press(&mut page, "plan-send"), "plan-sent").to_owned();
    assert!(torn(&sheet) && torn(&sent), "{sheet}\n{sent}");
    // A link and a file hold only what could be read.
    assert!(!sent.contains("plan-copy-link") && sent.contains("No link"), "{sent}");
    assert_eq!(press(&mut page, "plan-save").said, "Saved to a file, without what cannot be used.");
    // It is kept with the plan, as long as that is there, and until somebody says that it was entered.
    let mut again = Page::default();
    again.recall(&page.kept());
    again.go("plan", "", NOW);
    assert!(torn(part(&again.paper(NOW), "paper")));
    press(&mut again, "plan-entered");
    assert!(!torn(part(&again.paper(NOW), "paper")));
    press(&mut again, "undo");
    assert!(torn(part(&again.paper(NOW), "paper")));
    for id in ["plan-new", "plan-leave", "plan-new"] {
        press(&mut page, id);
        assert!(torn(part(&page.paper(NOW), "paper")), "{id}");
    }
    press(&mut page, "plan-take");
    assert!(!torn(part(&page.paper(NOW), "paper")));
    press(&mut page, "undo");
    assert!(torn(part(&page.paper(NOW), "paper")));
    press(&mut page, "plan-new");
    press(&mut page, "plan-take");
    // What is no plan leaves everything as it was.
    let kept = page.kept();
    for text in ["", "nonsense", "[1, 2", "{\"format\": \"recipe\"}", "\u{0}"] {
        let opened = page.event(Event::Input, "plan-opened", text, NOW);
        assert!(part(&opened, "app").contains("this is no rigging plan"), "{text}");
        assert_eq!(page.kept(), kept);
    }
}

#[test]
fn what_the_browser_keeps_brings_the_same_plan_back() {
    let mut page = mine();
    press(&mut page, "copy:drop-1");
    press(&mut page, "remove:drop-2");
    let saved = press(&mut page, "plan-save").save;
    let mut again = Page::default();
    again.recall(&page.kept());
    let html = shown(&mut again);
    assert!(html.contains("MINE"), "{html}");
    assert_eq!(press(&mut again, "plan-save").save, saved);
    // The ids too: what a shell typed back goes into the same rows.
    assert!(html.contains("drop-3-row") && !html.contains("drop-2-row"), "{html}");
    // On another day it is asked about.
    let mut later = Page::default();
    later.recall(&page.kept());
    let html = part(&later.go("plan", "", "2026-03-05 08:00"), "app").to_owned();
    assert!(html.contains("MINE, FROM 2026-03-04 10:30") && html.contains("They hold today"), "{html}");
    // Half of it, or nonsense, stops nothing.
    let kept = page.kept();
    for end in (0..kept.len()).filter(|end| kept.is_char_boundary(*end)) {
        let mut half = Page::default();
        half.recall(&kept[..end]);
        half.go("plan", "", NOW);
    }
}

#[test]
fn a_small_plan_has_a_link_that_is_not_mine_elsewhere_and_a_large_one_says_why_not() {
    let mut page = mine();
    let sent = press(&mut page, "plan-send");
    let html = part(&sent, "plan-sent");
    assert!(html.contains("RIGGING PLAN"), "{html}");
    let link = html.split("#plan~").nth(1).unwrap().split('<').next().unwrap();
    let mut elsewhere = Page::default();
    let opened = elsewhere.go(&format!("#plan~{link}"), "", NOW);
    assert!(part(&opened, "app").contains("FROM ELSEWHERE, NOT YOURS"), "{opened:?}");
    assert_eq!(names(&mut elsewhere), ["drop of 12", "drop of 18", "drop of 9"]);
    // At home it leads to what is here.
    assert!(part(&page.go(&format!("plan~{link}"), "", NOW), "app").contains("MINE"));
    let cut = elsewhere.go("plan~1~d/'9", "", NOW);
    assert!(part(&cut, "app").contains("cut short"), "{cut:?}");
    for _ in 0..120 {
        press(&mut page, "copy:drop-1");
    }
    page.go("plan", "", NOW);
    let sent = press(&mut page, "plan-send");
    assert!(part(&sent, "plan-sent").contains("Send the file instead"), "{sent:?}");
}

#[test]
fn at_the_lip_a_row_goes_only_in_two_touches() {
    let mut page = mine();
    press(&mut page, "way-lip");
    let asked = press(&mut page, "remove:drop-2");
    assert!(part(&asked, "app").contains("remove-sure:drop-2") && asked.focus == "not-sure");
    assert_eq!(names(&mut page).len(), 3);
    press(&mut page, "remove:drop-2");
    press(&mut page, "not-sure");
    assert_eq!(names(&mut page).len(), 3);
    press(&mut page, "remove:drop-2");
    press(&mut page, "remove-sure:drop-2");
    assert_eq!(names(&mut page), ["drop of 12", "drop of 9"]);
}

#[test]
fn the_paper_has_a_cover_and_four_drops_to_a_page_and_lines_to_fill_in() {
    let mut page = mine();
    for _ in 0..3 {
        press(&mut page, "copy:drop-1");
    }
    page.go("plan", "", NOW);
    let paper = page.paper(NOW);
    let paper = part(&paper, "paper");
    assert_eq!(paper.matches("plan-four").count(), 2);
    assert_eq!(paper.matches("class=\"plan-drop\"").count(), 6);
    for words in ["Blank means: not valid.", "Water at the mark", "Reserve rope", "Open decisions", "MINE"] {
        assert!(paper.contains(words), "{words}: {paper}");
    }
    assert!(part(&page.paper(NOW), "paper").contains("People die on ropes that were worked out and not looked at."));
    page.go("1/ln", "", NOW);
    assert!(!part(&page.paper(NOW), "paper").contains("plan-cover"));
}

#[test]
fn whose_numbers_these_are_stands_on_every_sheet_of_the_plan() {
    let mut page = Page::default();
    page.go("plan", "", NOW);
    let paper = part(&page.paper(NOW), "paper").to_owned();
    let drops = paper.matches("class=\"plan-drop\"").count();
    // At the head, after what may stand on a second sheet, and in every drop.
    let after = |head: &str| paper.split_once(head).map(|(_, rest)| rest.split("<h2>").next().unwrap_or_default());
    let heads = ["<h2>Look at these drops first", "<h2>Time and light", "<h2>Order", "<h2>Bring", "<h2>Notes"];
    for head in heads {
        assert!(after(head).unwrap().contains("EXAMPLE, not your numbers"), "{head}: {paper}");
    }
    assert_eq!(paper.matches("EXAMPLE, not your numbers").count(), 1 + heads.len() + drops, "{paper}");
    // What is simply one's own says so once; not so where not all of what was typed counts.
    press(&mut page, "plan-mine");
    assert_eq!(part(&page.paper(NOW), "paper").matches("MINE").count(), 1);
    enter(&mut page, "drop-1.height_m-high", "twelve");
    let paper = part(&page.paper(NOW), "paper").to_owned();
    assert_eq!(paper.matches("MINE; NOT ALL OF WHAT WAS TYPED").count(), 1 + heads.len() + drops, "{paper}");
}

#[test]
fn a_drop_stays_on_its_rope_while_ropes_come_go_and_move() {
    let mut page = mine();
    for (place, length) in ["40", "60", "100"].into_iter().enumerate() {
        press(&mut page, "add:rope");
        enter(&mut page, &format!("rope-{}.length_m", place + 1), length);
    }
    enter(&mut page, "drop-1.rope", "2");
    let mut ropes = |button: &str| {
        press(&mut page, button);
        let plan = Plan::read(&press(&mut page, "plan-save").save).unwrap().plan;
        let rope = plan.drops[0].rope;
        let html = part(&page.go("plan/1", "", NOW), "app").to_owned();
        let boxed = html.split("<input id=\"drop-1.rope\"").nth(1).unwrap().split("value=\"").nth(1).unwrap();
        page.go("plan", "", NOW);
        (rope, plan.ropes[rope as usize - 1].length.value, boxed.split('"').next().unwrap().to_owned())
    };
    assert_eq!(ropes("remove:rope-1"), (1, 60.0, "1".to_owned()));
    assert_eq!(ropes("down:rope-2"), (2, 60.0, "2".to_owned()));
    assert_eq!(ropes("copy:rope-3"), (3, 60.0, "3".to_owned()));
    assert_eq!(ropes("undo"), (2, 60.0, "2".to_owned()));
    // Its own rope left at home: the number of none, which is open.
    press(&mut page, "remove:rope-2");
    let plan = Plan::read(&press(&mut page, "plan-save").save).unwrap().plan;
    assert_eq!(plan.drops[0].rope as usize, plan.ropes.len() + 1);
    assert!(
        plan.text(&plan.check(&mut Answers::default(), Units::default())).contains("is none that people can hang on")
    );
}

#[test]
fn what_came_torn_from_elsewhere_is_not_said_of_my_own_plan() {
    for torn in ["plan~1~d~p~o/'0To", "a wrong file"] {
        let mut page = mine();
        if torn.starts_with("plan") {
            assert!(part(&page.go(torn, "", NOW), "app").contains("cut short"), "{torn}");
        } else {
            assert!(!part(&page.event(Event::Input, "plan-opened", torn, NOW), "app").is_empty());
        }
        assert!(!part(&page.paper(NOW), "paper").contains("could not be read"), "{torn}");
        let sent = press(&mut page, "plan-send");
        assert!(!part(&sent, "plan-sent").contains("could not be read"), "{torn}");
    }
}

#[test]
fn undo_takes_back_what_was_said_of_a_file_too() {
    let mut page = mine();
    let file = press_in_plan(&mut page, "plan-save").save.replace("\"bottom\": \"", "\"bottom\": \"no ");
    page.event(Event::Input, "plan-opened", &file, NOW);
    assert!(part(&press(&mut page, "plan-take"), "app").contains("Not taken:"));
    assert!(part(&press(&mut page, "plan-send"), "plan-sent").contains("could not be read"));
    assert!(!part(&press(&mut page, "undo"), "app").contains("Not taken:"));
    assert!(!part(&press(&mut page, "plan-send"), "plan-sent").contains("could not be read"));
    // A file that is none is said where it is seen.
    assert_eq!(page.event(Event::Input, "plan-opened", "no plan", NOW).focus, "plan-offer");
}

#[test]
fn a_plan_takes_no_more_drops_at_any_door_than_a_file_holds() {
    let mut page = mine();
    for _ in 3..MOST[0] {
        press(&mut page, "add:drop");
    }
    page.go("1/ln", "", NOW);
    press(&mut page, "mine");
    page.event(Event::Input, "into-drop", &MOST[0].to_string(), NOW);
    assert_eq!(press(&mut page, "into-plan").said, "The plan holds as many drops as it can.");
    let drops = |count: usize| ["plan~1~d~p", &"~o".repeat(count), "~z"].concat();
    assert!(link::read(&drops(MOST[0])).is_some());
    assert_eq!(link::read(&drops(MOST[0] + 1)), None);
    let full = press_in_plan(&mut page, "add:drop");
    assert!(part(&full, "app").contains("the plan holds as many rows") && full.focus == "plan-offer");
    assert_eq!(
        part(&full, "app").matches("id=\"drop-").count(),
        part(&press_in_plan(&mut page, "copy:drop-1"), "app").matches("id=\"drop-").count()
    );
}

#[test]
fn a_mass_steps_over_what_nobody_weighs() {
    let mut page = mine();
    press(&mut page, "add:person");
    for (button, kilograms) in [("more", "30"), ("more", "31"), ("less", "30"), ("less", "0")] {
        let stepped = press(&mut page, &format!("{button}:person-1.body_kg"));
        assert_eq!(stepped.values, [("person-1.body_kg".to_owned(), kilograms.to_owned())]);
    }
}
