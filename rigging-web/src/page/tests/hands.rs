use super::*;
use rigging_core::question::{Question, Takes};

fn boxed(update: &Update, id: &str) -> String {
    update.values.iter().find(|(place, _)| place == id).unwrap_or_else(|| panic!("no {id}")).1.clone()
}

#[test]
fn a_step_goes_to_the_next_whole_step_and_stays_within_the_bounds() {
    let mut page = open("#1/ln/a6.53_7.25");
    let up = page.event(Event::Press, "more:span_m-low", "", NOW);
    assert_eq!(boxed(&up, "span_m-low"), "6.6");
    let down = page.event(Event::Press, "less:span_m-low", "", NOW);
    assert_eq!(boxed(&down, "span_m-low"), "6.5");
    // An end that meets the other takes it along.
    for _ in 0..10 {
        page.event(Event::Press, "more:span_m-low", "", NOW);
    }
    assert_eq!((span(&page).low(), span(&page).high()), (7.5, 7.5));
    for _ in 0..20 {
        page.event(Event::Press, "more:people", "", NOW);
    }
    let people = page.sheet.as_ref().unwrap().field("people").unwrap();
    assert_eq!(people.entry, Entry::One(12.0));
}

#[test]
fn every_number_can_be_stepped_and_undone_back_to_where_it_began() {
    for question in Question::all() {
        let mut page = open(&format!("#1/{}", question.key()));
        for field in question.fields().iter().filter(|field| field.matters) {
            let name = field.about.name;
            let inputs = match field.about.takes {
                Takes::One { .. } => vec![name.to_owned()],
                Takes::Range { .. } => vec![format!("{name}-low"), format!("{name}-high")],
                Takes::Choice(_) => continue,
            };
            for input in inputs {
                let before = page.sheet.as_ref().unwrap().link().write();
                let more = page.event(Event::Press, &format!("more:{input}"), "", NOW);
                let less = page.event(Event::Press, &format!("less:{input}"), "", NOW);
                assert!(more.fragment != before || less.fragment != before, "{input} of {} stays", question.name());
                page.event(Event::Press, "undo", "", NOW);
                let back = page.event(Event::Press, "undo", "", NOW);
                assert_eq!(back.fragment, before, "{input} of {}", question.name());
            }
        }
        let end = page.event(Event::Press, "undo", "", NOW);
        assert!(!part(&end, "app").contains(r#"id="undo""#), "{}", question.name());
        assert!(part(&end, "app").contains(&format!(r#"id="{}""#, end.focus)), "{}", question.name());
    }
}

#[test]
fn the_letters_of_one_entry_are_undone_together_and_what_undo_does_is_said() {
    let mut page = open("#1/ln");
    for typed in ["7", "7.", "7.2"] {
        page.event(Event::Input, "drop_m", typed, NOW);
    }
    page.event(Event::Leave, "drop_m", "7.2", NOW);
    let changed = page.event(Event::Input, "people", "2", NOW);
    assert!(part(&changed, "undo-place").contains("Undo: People hanging at once back to 1"), "{changed:?}");
    page.event(Event::Press, "undo", "", NOW);
    let back = page.event(Event::Press, "undo", "", NOW);
    assert_eq!(back.fragment, "1/ln");
}

#[test]
fn what_cannot_be_used_is_brought_back_by_undo_as_it_was_typed() {
    let mut page = open("#1/ln");
    page.event(Event::Input, "span_m-low", "abc", NOW);
    page.event(Event::Press, "more:span_m-low", "", NOW);
    let back = page.event(Event::Press, "undo", "", NOW);
    assert!(part(&back, "app").contains(r#"value="abc""#));
}

#[test]
fn back_to_the_example_is_asked_twice_and_can_be_undone() {
    let mut page = open("#1/ln");
    let mine = page.event(Event::Input, "people", "2", NOW).fragment;
    page.event(Event::Press, "mine", "", NOW);
    let asked = page.event(Event::Press, "reset", "", NOW);
    assert_eq!(asked.fragment, mine, "one touch changes nothing");
    assert!(part(&page.event(Event::Press, "not-sure", "", NOW), "app").contains(r#"id="reset""#));
    page.event(Event::Press, "reset", "", NOW);
    let reset = page.event(Event::Press, "reset-sure", "", NOW);
    assert_eq!(reset.fragment, "1/ln");
    assert!(part(&reset, "app").contains("<strong>EXAMPLE</strong>"));
    assert_eq!(page.event(Event::Press, "undo", "", NOW).fragment, mine);
}

#[test]
fn at_the_lip_one_touch_neither_makes_numbers_mine_nor_changes_an_entry() {
    let mut page = open("#1/ln/a6_7");
    let lip = page.event(Event::Press, "way-lip", "", NOW);
    let html = part(&lip, "app");
    // Every box and every step lies in an entry that has to be opened first.
    for (place, _) in html.match_indices("id=\"more:").chain(html.match_indices("<select id=\"")) {
        let before = &html[..place];
        let folded = before.rfind("<details") > before.rfind("</details>");
        assert!(folded, "{}", &html[place..place + 40]);
    }
    let asked = page.event(Event::Press, "mine", "", NOW);
    assert!(part(&asked, "app").contains("FROM A LINK, NOT YOURS") && part(&asked, "app").contains("mine-sure"));
    assert!(part(&page.event(Event::Press, "mine-sure", "", NOW), "app").contains("MINE"));
}

#[test]
fn a_range_slides_with_its_width_and_an_end_never_passes_a_bound() {
    let mut page = open("#1/ln/a6_8");
    page.event(Event::Input, "slide:span_m", "20", NOW);
    assert_eq!((span(&page).low(), span(&page).high()), (19.0, 21.0));
    page.event(Event::Input, "slide:span_m", "-500", NOW);
    assert!(
        span(&page).low() > 0.0 && (span(&page).high() - span(&page).low() - 2.0).abs() < 1e-9,
        "{:?}",
        span(&page)
    );
    let back = page.event(Event::Press, "undo", "", NOW);
    assert_eq!(back.fragment, "1/ln/a6_8");
}

#[test]
fn what_a_handle_moves_has_a_slider_that_follows_it_except_at_the_lip() {
    let mut page = open("#1/ln/a6_8");
    let shown = part(&page.event(Event::Press, "way-desk", "", NOW), "app").to_owned();
    let slide = &shown[shown.find("id=\"span_m-slide\"").unwrap()..];
    assert!(!slide[..slide.find('>').unwrap()].contains("hidden"));
    let update = page.event(Event::Press, "more:span_m", "", NOW);
    let value = |id: &str| update.values.iter().find(|(at, _)| at == id).map(|(_, value)| value.clone());
    assert_eq!(value("slide:span_m"), Some("7.05".to_owned()), "{:?}", update.values);
    assert!(update.hidden.contains(&("span_m-slide".to_owned(), false)));
    let lip = part(&page.event(Event::Press, "way-lip", "", NOW), "app").to_owned();
    assert!(!lip.contains("type=\"range\""));
}
