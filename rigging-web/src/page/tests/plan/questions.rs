//! Questions that go into the drops of a plan and come back from their own screens.

use super::super::{NOW, part};
use super::{enter, mine, press, press_in_plan};
use crate::page::{Event, Page, Update};
use crate::plan::link;
use rigging_core::plan::{MOST, Plan, PlannedDrop};
use rigging_core::question::{Entry, Held, Question};

#[test]
fn a_question_goes_into_the_plan_and_comes_back_from_its_own_screen() {
    let mut page = mine();
    page.go("1/ic", "", NOW);
    let key = rigging_core::question::Question::named("in the current").unwrap().key();
    page.go(&format!("1/{key}"), "", NOW);
    // An example counts for nothing.
    page.event(Event::Input, "into-drop", "1", NOW);
    let put = press(&mut page, "into-plan");
    assert!(part(&put, "app").contains("Put into drop 2. drop of 18."), "{put:?}");
    assert!(part(&page.go("plan/2", "", NOW), "app").contains("an example still"));
    // Mine does, with the water of today.
    page.go("plan/2/1", "", NOW);
    press(&mut page, "mine");
    page.event(Event::Input, "flow", "stroll", NOW);
    // Where it came from stands before the answer.
    let html = page.sheet.as_ref().unwrap().whole();
    let before = part(&html, "app").split("id=\"answer\"").next().unwrap().to_owned();
    assert!(before.contains("It stands in drop 2. drop of 18") && before.contains("href=\"#plan/2\""), "{before}");
    let back = page.go("plan/2", "", NOW);
    assert_eq!(back.said, "Taken back into drop 2. drop of 18.");
    assert!(!part(&back, "app").contains("an example still"));
    page.go("plan", "", NOW);
    page.event(Event::Input, "day.water", "higher", NOW);
    let sheet = page.go("plan/2/1", "", NOW);
    assert!(part(&sheet, "app").contains("value=\"walk\" selected"), "{}", part(&sheet, "app"));
    assert!(part(&sheet, "app").contains("MINE"));
    // Left unchanged nothing is taken back, and with a change of something else the step is not taken twice.
    assert_eq!(page.go("plan/2/1", "", NOW).said, "");
    page.event(Event::Input, "across_m", "7", NOW);
    let again = page.go("plan/2/1", "", NOW);
    assert!(part(&again, "app").contains("value=\"walk\" selected") && part(&again, "app").contains("value=\"7\""));
    // What cannot be used stays out, and that is said; undoing brings back what stood before.
    page.event(Event::Input, "across_m", "wide", NOW);
    page.event(Event::Input, "flow", "run", NOW);
    let back = page.go("plan/2", "", NOW);
    assert!(back.said.ends_with("Not all of it: an entry cannot be used."), "{}", back.said);
    // It is seen on the drop, and waits where it was typed.
    let told = part(&back, "app").split("class=\"refused\"").nth(1).unwrap().split("</ul>").next().unwrap();
    assert!(told.contains("in the current, ") && told.contains("what was typed cannot be used"), "{told}");
    // Not over a change of units with a number that was never in them.
    let waits = page.go("plan/2/1", "", NOW);
    assert!(
        part(&waits, "app").contains("value=\"wide\"") && part(&waits, "app").contains("An entry cannot be used: ")
    );
    page.event(Event::Input, "across_m", "7", NOW);
    assert!(!part(&page.go("plan/2", "", NOW), "app").contains("cannot be used"));
    press(&mut page, "undo");
    press(&mut page, "undo");
    let before = page.go("plan/2/1", "", NOW);
    assert!(
        !part(&before, "app")
            .contains("id=\"across_m\" type=\"text\" inputmode=\"decimal\" autocomplete=\"off\" value=\"7\"")
    );
    // A new drop is made for it if wanted, and it is taken out again.
    page.event(Event::Input, "into-drop", "3", NOW);
    press(&mut page, "into-plan");
    assert!(part(&page.go("plan/4", "", NOW), "app").contains("unput:drop-4.0"));
    press(&mut page, "unput:drop-4.0");
    assert!(!part(&page.go("plan/4", "", NOW), "app").contains("unput:drop-4.0"));
}

#[test]
fn a_question_of_a_drop_does_not_push_out_my_own_sheet() {
    let mut page = mine();
    let key = Question::named("in the current").unwrap().key();
    page.go(&format!("1/{key}"), "", NOW);
    press(&mut page, "mine");
    page.event(Event::Input, "across_m", "7", NOW);
    let own = page.sheet.as_ref().unwrap().link().write();
    page.go(&format!("plan/2/{key}"), "", NOW);
    press(&mut page, "into-plan");
    page.go("plan/2/1", "", NOW);
    page.event(Event::Input, "across_m", "6", NOW);
    let of_the_drop = page.sheet.as_ref().unwrap().link().write();
    let home = page.go("", "", NOW);
    let offered = |link: &str| part(&home, "app").contains(&format!("href=\"#{link}\""));
    assert!(own != of_the_drop && offered(&own), "{own}, {of_the_drop}: {}", part(&home, "app"));
    // In the plan too it stays mine, and so does a copy looked at there.
    page.go(&own, "", NOW);
    press(&mut page, "into-plan");
    page.go("plan/1/1", "", NOW);
    page.go("plan/2/1", "", NOW);
    let home = page.go("", "", NOW);
    assert!(part(&home, "app").contains(&format!("href=\"#{own}\"")), "{}", part(&home, "app"));
}

#[test]
fn a_question_asked_of_a_drop_begins_with_what_the_plan_says_and_with_the_water_as_entered() {
    let mut page = mine();
    enter(&mut page, "day.water", "higher");
    press(&mut page, "add:person");
    enter(&mut page, "person-1.body_kg", "77");
    let abseil = page.go("plan/2/ab", "", NOW);
    let html = part(&abseil, "app");
    let value = |id: &str, value: &str| {
        let entry = html.split(&format!("id=\"{id}\"")).nth(1).and_then(|rest| rest.split('>').next());
        assert!(entry.is_some_and(|entry| entry.contains(&format!("value=\"{value}\""))), "{id}: {entry:?}");
    };
    value("height_m", "18");
    value("body_kg-low", "77");
    assert!(html.contains("EXAMPLE") && html.contains("id=\"plan-fold\" open"), "{html}");
    let top = html.split("id=\"answer\"").next().unwrap();
    assert!(top.contains("Not yet in drop 2. drop of 18.") && top.contains("data-opens=\"plan-fold\""), "{top}");
    let put = press(&mut page, "into-plan");
    assert!(part(&put, "app").contains("It stands in drop 2. drop of 18"), "{put:?}");
    press_in_plan(&mut page, "undo");
    // Put in as it stands, its water is raised once.
    let current = Question::named("in the current").unwrap();
    let flow = current.fields().into_iter().find(|field| field.about.name == "flow").unwrap();
    page.go(&format!("plan/2/{}", current.key()), "", NOW);
    press(&mut page, "mine");
    press(&mut page, "into-plan");
    let file = press_in_plan(&mut page, "plan-save").save;
    let Entry::Choice(flow) = flow.entry else { panic!("the flow is chosen from a list") };
    assert!(file.contains(&format!("\"flow\": \"{flow}\"")), "{file}");
}

#[test]
fn a_question_asked_of_a_drop_hangs_on_what_the_drop_hangs_on() {
    let mut page = mine();
    let chosen = |page: &mut Page, anchor: &str| {
        page.go("plan/2", "", NOW);
        enter(page, "drop-2.anchor", anchor);
        page.go("plan/2/ab", "", NOW);
        let fields = page.sheet.as_ref().unwrap().question.fields();
        fields.into_iter().find(|field| field.about.name == "anchor").unwrap().entry
    };
    assert_eq!(chosen(&mut page, "natural"), Entry::Choice("natural"));
    assert_eq!(chosen(&mut page, "unseen"), Entry::Choice("unseen"));
    // A kind that it does not know leaves it as it was.
    assert_eq!(chosen(&mut page, "people"), Entry::Choice("found"));
}

#[test]
fn what_the_plan_says_itself_is_told_in_a_question_and_again_if_it_was_changed_there() {
    let mut page = mine();
    press(&mut page, "add:person");
    enter(&mut page, "person-1.body_kg", "77");
    page.go("plan/2/rp", "", NOW);
    press(&mut page, "mine");
    press(&mut page, "into-plan");
    let opened = page.go("plan/2/1", "", NOW);
    let told = part(&opened, "app").split("but not what the plan says itself").nth(1).unwrap().to_owned();
    let told = told.split("</p>").next().unwrap();
    assert!(told.contains("Body mass") && told.contains("lip to the bottom") && !told.contains("Knots"), "{told}");
    page.event(Event::Input, "height_m-high", "25", NOW);
    page.event(Event::Input, "knots_m", "2", NOW);
    let back = page.go("plan/2", "", NOW);
    let html = part(&back, "app");
    let refused = html.split("Not taken:").nth(1).unwrap().split("</ul>").next().unwrap();
    assert!(refused.contains("the plan says it itself") && !refused.contains("Body mass"), "{refused}");
    assert!(back.said.contains("Not taken:"), "{}", back.said);
    // Until something is changed in the plan.
    assert!(part(&enter_update(&mut page, "drop-2.height_m-high", "25"), "plan-offer").is_empty());
}

/// What typing changes on the screen.
fn enter_update(page: &mut Page, id: &str, value: &str) -> Update {
    page.event(Event::Input, id, value, NOW)
}

/// The questions of the first drop, from the text of the file.
fn questions(page: &mut Page) -> Vec<&'static str> {
    page.go("plan", "", NOW);
    let file = press(page, "plan-save").save;
    Plan::read(&file).unwrap().plan.drops[0].questions.iter().map(|held| held.question.name()).collect()
}

fn put_in_the_first_drop(page: &mut Page, key: &str) {
    page.go(&format!("plan/1/{key}"), "", NOW);
    press(page, "mine");
    press(page, "into-plan");
}

#[test]
fn a_question_looked_at_again_takes_the_place_of_no_other() {
    let mut page = mine();
    for key in ["ab", "ln", "rp"] {
        put_in_the_first_drop(&mut page, key);
    }
    let link = page.go("plan/1/2", "", NOW).fragment;
    page.go("plan/1", "", NOW);
    press(&mut page, "unput:drop-1.0");
    page.go("", "", NOW);
    page.go(&link, "", NOW);
    assert_eq!(questions(&mut page), ["line", "rope"]);
}

#[test]
fn a_question_of_one_plan_stays_out_of_another() {
    let mut page = Page::default();
    page.go("plan", "", NOW);
    let link = page.go("plan/1/1", "", NOW).fragment;
    assert!(link.starts_with("1/"), "{link}");
    page.go("plan", "", NOW);
    press(&mut page, "plan-new");
    press(&mut page, "add:drop");
    put_in_the_first_drop(&mut page, "pd");
    page.go("", "", NOW);
    page.go(&link, "", NOW);
    assert_eq!(questions(&mut page), ["pull-down"]);
}

#[test]
fn a_plan_takes_no_more_questions_at_any_door_than_can_be_checked_at_once() {
    let held = || Held::new(Question::named("bend").unwrap());
    let full = vec![held(); MOST[1]];
    let mut drops = vec![PlannedDrop { questions: full, ..PlannedDrop::default() }; MOST[2] / MOST[1]];
    // By a link and by a file, up to the last.
    let plan = Plan { drops: drops.clone(), ..Plan::default() };
    assert_eq!(link::read(&link::write(&plan)).map(|plan| plan.questions()), Some(MOST[2]));
    drops.push(PlannedDrop { questions: vec![held()], ..PlannedDrop::default() });
    let more = Plan { drops: drops.clone(), ..Plan::default() };
    assert_eq!(link::read(&link::write(&more)), None);
    let reading = Plan::read(&more.write()).unwrap();
    assert_eq!((reading.plan.questions(), reading.refused.len()), (MOST[2], 1));
    assert_eq!(reading.plan.drops.len(), drops.len());
    assert!(reading.refused[0].what.contains("500 questions in all"), "{}", reading.refused[0]);
    // Put into it, or copied within it.
    let mut page = mine();
    page.event(Event::Input, "plan-opened", &plan.write(), NOW);
    press(&mut page, "plan-take");
    assert_eq!(press(&mut page, "copy:drop-1").focus, "plan-offer");
    press(&mut page, "add:drop");
    page.go("1/ln", "", NOW);
    press(&mut page, "mine");
    page.event(Event::Input, "into-drop", &drops.len().to_string(), NOW);
    assert_eq!(press(&mut page, "into-plan").said, "The plan holds as many questions as it can.");
}

/// Two questions of drop 2, in each an entry that cannot be used.
fn refused_twice() -> Page {
    let mut page = Page::default();
    page.go("plan", "", NOW);
    press(&mut page, "plan-mine");
    for (address, id, text) in [("plan/2/2", "let_out_m", "9999"), ("plan/2/3", "body_kg-high", "1300")] {
        page.go(address, "", NOW);
        page.event(Event::Input, "height_m-high", "14", NOW);
        page.event(Event::Input, id, text, NOW);
        page.go("plan/2", "", NOW);
    }
    page
}

fn waits(page: &mut Page, address: &str, text: &str) -> bool {
    let html = page.go(address, "", NOW);
    let waits = part(&html, "app").contains(&format!("value=\"{text}\""));
    page.go("plan/2", "", NOW);
    waits
}

#[test]
fn what_cannot_be_used_waits_in_its_own_question_and_nowhere_else() {
    let mut page = refused_twice();
    assert!(waits(&mut page, "plan/2/2", "9999 m") && waits(&mut page, "plan/2/3", "1300 kg"));
    let told = page.go("plan/2", "", NOW);
    let told = part(&told, "app").split("class=\"refused\"").nth(1).unwrap().split("</ul>").next().unwrap();
    assert!(told.contains("rope, ") && told.contains("abseil, "), "{told}");
    // Only what cannot be used: the rest is the plan's.
    let html = page.go("plan/2/2", "", NOW);
    assert!(!part(&html, "app").contains("value=\"14\""), "{}", part(&html, "app"));
    // In feet it is the same, and the message says so in feet.
    page.event(Event::Input, "length-unit", "ft", NOW);
    let html = page.go("plan/2/2", "", NOW);
    assert!(part(&html, "app").contains("value=\"9999 m\"") && part(&html, "app").contains("cannot be used"));
    // Neither another plan nor another question has it.
    let mut page = refused_twice();
    page.go("plan/2/2", "", NOW);
    page.event(Event::Input, "body_kg-high", "1400", NOW);
    page.go("plan/2", "", NOW);
    press(&mut page, "unput:drop-2.1");
    assert!(!waits(&mut page, "plan/2/2", "1400 kg"));
    assert!(!part(&page.go("plan/2", "", NOW), "app").contains("cannot be used"));
    let mut page = refused_twice();
    page.go("plan", "", NOW);
    press(&mut page, "plan-new");
    press(&mut page, "plan-take");
    assert!(!part(&page.go("plan", "", NOW), "app").contains("cannot be used"));
}

#[test]
fn the_number_of_an_example_is_nobodys_where_another_was_meant() {
    let mut page = Page::default();
    page.go("plan", "", NOW);
    press(&mut page, "plan-new");
    press(&mut page, "plan-take");
    press(&mut page, "plan-mine");
    press(&mut page, "add:drop");
    page.go("plan/1/rp", "", NOW);
    press(&mut page, "into-plan");
    page.go("plan/1/1", "", NOW);
    page.event(Event::Input, "let_out_m", "9999", NOW);
    press(&mut page, "mine");
    let drop = page.go("plan/1", "", NOW);
    assert!(part(&drop, "app").contains("an example still, not compared"), "{}", part(&drop, "app"));
    page.go("plan/1/1", "", NOW);
    page.event(Event::Input, "let_out_m", "16", NOW);
    press(&mut page, "mine");
    assert!(!part(&page.go("plan/1", "", NOW), "app").contains("an example still"));
}

/// The same page after a reload: what was kept, and the address with what the browser keeps beside it.
fn reloaded(page: &Page, at: &Update) -> (Page, Update) {
    let mut again = Page::default();
    again.recall(&page.kept());
    let shown = again.go(&at.fragment, &at.memory, NOW);
    (again, shown)
}

fn knots(page: &mut Page) -> String {
    page.go("plan", "", NOW);
    let file = press(page, "plan-save").save;
    let knots = file.split("\"knots_m\": ").nth(1).unwrap();
    knots.split([',', '}', '\n']).next().unwrap().to_owned()
}

#[test]
fn a_reload_cuts_no_question_loose_from_its_drop() {
    let mut page = mine();
    put_in_the_first_drop(&mut page, "rp");
    page.go("plan/1/1", "", NOW);
    // What was typed and said just before it goes back too, by whatever way the question is left.
    let typed = page.event(Event::Input, "knots_m", "2", NOW);
    let (mut page, shown) = reloaded(&page, &typed);
    let top = |update: &Update| part(update, "app").split("id=\"answer\"").next().unwrap().to_owned();
    assert!(top(&shown).contains("It stands in drop 1. drop of 12") && top(&shown).contains("Back to the drop"));
    assert_eq!(page.go("1/al", "", NOW).said, "Taken back into drop 1. drop of 12.");
    assert_eq!(knots(&mut page), "2");
    // Come back to, it still stands there, and over another reload.
    assert!(top(&page.go(&shown.fragment, &shown.memory, NOW)).contains("It stands in drop 1."));
    let typed = page.event(Event::Input, "knots_m", "3", NOW);
    page.go("1/al", "", NOW);
    let (mut page, shown) = reloaded(&page, &typed);
    assert!(top(&shown).contains("It stands in drop 1.") && shown.fragment == typed.fragment);
    page.event(Event::Input, "knots_m", "4", NOW);
    assert_eq!(knots(&mut page), "4");
    // What was said to be mine is so in the drop.
    page.go("plan/1/al", "", NOW);
    press(&mut page, "into-plan");
    page.go("plan/1/2", "", NOW);
    page.event(Event::Input, "people", "2", NOW);
    let said = press(&mut page, "mine");
    let (mut page, _) = reloaded(&page, &said);
    assert!(!part(&page.go("plan/1", "", NOW), "app").contains("an example still"));
}

#[test]
fn what_the_plan_says_of_a_question_follows_it_to_its_own_screen() {
    let mut page = mine();
    put_in_the_first_drop(&mut page, "rp");
    let first = page.go("plan/1/1", "", NOW);
    page.go("plan/1", "", NOW);
    enter(&mut page, "drop-1.height_m-high", "14");
    let back = page.go(&first.fragment, &first.memory, NOW);
    let html = part(&back, "app");
    assert!(
        html.contains("It stands in drop 1.") && html.contains("id=\"height_m-high\"") && html.contains("value=\"14\"")
    );
    page.event(Event::Input, "knots_m", "2", NOW);
    assert_eq!(knots(&mut page), "2");
    assert!(part(&page.go("plan/1", "", NOW), "app").contains("value=\"14\""));
}

#[test]
fn what_stands_in_the_plan_no_longer_says_so_and_takes_the_place_of_nothing() {
    let mut page = mine();
    put_in_the_first_drop(&mut page, "rp");
    let first = page.go("plan/1/1", "", NOW);
    // The question has another number now.
    page.go("plan/1/1", "", NOW);
    page.event(Event::Input, "knots_m", "5", NOW);
    page.go("plan/1", "", NOW);
    let loose = |update: &Update| {
        let top = part(update, "app").split("id=\"answer\"").next().unwrap();
        top.contains("does not go there") && !top.contains("Back to the drop")
    };
    assert!(loose(&page.go(&first.fragment, &first.memory, NOW)));
    let typed = page.event(Event::Input, "knots_m", "9", NOW);
    let (mut page, shown) = reloaded(&page, &typed);
    assert!(loose(&shown));
    assert_eq!(page.go("plan", "", NOW).said, "");
    assert_ne!(knots(&mut page), "9");
    // Where the browser kept the question and not its plan.
    let opened = page.go("plan/1/1", "", NOW);
    let kept = page.kept();
    let mut page = Page::default();
    page.recall(kept.split("\nplan\t").next().unwrap());
    assert!(loose(&page.go(&opened.fragment, &opened.memory, NOW)));
}

#[test]
fn a_plan_of_yesterday_is_not_of_today_because_a_question_of_it_is() {
    let tomorrow = "2026-03-05 07:00";
    let mut page = mine();
    put_in_the_first_drop(&mut page, "rp");
    let opened = page.go("plan/1/1", "", NOW);
    let mut next = Page::default();
    next.recall(&page.kept());
    next.go(&opened.fragment, &opened.memory, tomorrow);
    next.event(Event::Input, "knots_m", "2", tomorrow);
    next.event(Event::Press, "mine", "", tomorrow);
    assert!(part(&next.go("plan", "", tomorrow), "app").contains("MINE, FROM 2026-03-04 10:30"));
}

#[test]
fn numbers_of_an_example_are_named_as_their_boxes_are() {
    let mut page = mine();
    page.go("plan/1/ab", "", NOW);
    press(&mut page, "into-plan");
    let html = part(&page.go("plan", "", NOW), "app").to_owned();
    let told = html.split("numbers of an example stand for ").nth(1).unwrap().split('<').next().unwrap();
    let fields = Question::named("abseil").unwrap().fields();
    let labelled = fields.iter().filter(|field| told.contains(field.about.label)).count();
    assert!(labelled > 3 && !told.contains('_'), "{told}");
}
