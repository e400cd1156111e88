use super::*;
use rigging_core::band::Band;
use rigging_core::question::Entry;

mod drag;
mod hands;
mod kept;
mod plan;
mod refused;

const NOW: &str = "2026-03-04 10:30";

fn open(fragment: &str) -> Page {
    let mut page = Page::default();
    page.go(fragment, "", NOW);
    page
}

fn part<'a>(update: &'a Update, id: &str) -> &'a str {
    &update.put.iter().find(|(place, _)| place == id).unwrap_or_else(|| panic!("no {id} in {update:?}")).1
}

fn span(page: &Page) -> Band {
    match page.sheet.as_ref().unwrap().field("span_m").unwrap().entry {
        Entry::Range(band) => band,
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_can_be_read_is_taken_and_what_cannot_is_answered_with_a_dash_and_a_message() {
    for (typed, read) in [("6,5", Some(6.5)), ("6.5 m", Some(6.5)), ("21 ft", Some(6.4008)), ("-3", None), ("", None)]
        .into_iter()
        .chain([("abc", None), ("1e999", None), ("1,234", None), ("9999", None), ("6.5 kg", None)])
    {
        let mut page = open("#1/ln");
        let now = page.event(Event::Input, "span_m-low", typed, NOW);
        let left = page.event(Event::Leave, "span_m-low", typed, NOW);
        let message = part(&left, "span_m-message");
        match read {
            Some(low) => {
                assert!((span(&page).low() - low).abs() < 1e-9, "{typed}: {:?}", span(&page));
                assert!(part(&now, "answer").contains("kN"), "{typed}");
                assert!(!message.contains("cannot"), "{typed}: {message}");
            }
            None => {
                assert!(part(&now, "answer").contains(r#"<p class="big">—</p>"#), "{typed}");
                assert!(part(&now, "picture").contains('—'), "{typed}");
                assert!(message.contains("Span"), "{typed}: {message}");
                assert!(message.contains("for example") || message.contains("1.234 or 1234"), "{typed}: {message}");
                let whole = page.sheet.as_ref().unwrap().whole();
                let kept = typed.is_empty() || part(&whole, "app").contains(&format!("value=\"{typed}\""));
                assert!(kept, "{typed} is not kept");
            }
        }
    }
}

#[test]
fn a_unit_typed_with_the_number_is_echoed() {
    let mut page = open("#1/ln");
    page.event(Event::Input, "span_m-low", "21 ft", NOW);
    let left = page.event(Event::Leave, "span_m-low", "21 ft", NOW);
    assert!(part(&left, "span_m-message").contains("21 ft is read as 6.4008\u{a0}m"), "{left:?}");
}

#[test]
fn ends_the_wrong_way_round_are_said_to_be() {
    let mut page = open("#1/ln");
    page.event(Event::Input, "span_m-low", "20", NOW);
    let left = page.event(Event::Leave, "span_m-low", "20", NOW);
    assert!(part(&left, "span_m-message").contains("must not be above the second: 20 to "), "{left:?}");
    page.event(Event::Input, "span_m-high", "22", NOW);
    assert_eq!((span(&page).low(), span(&page).high()), (20.0, 22.0));
}

#[test]
fn only_numbers_confirmed_as_mine_are_compared() {
    let limit = "#1/al/q0/l1/o90";
    let mut page = Page::default();
    let linked = page.go(limit, "", NOW);
    assert!(part(&linked, "app").contains("FROM A LINK, NOT YOURS"));
    assert!(part(&linked, "app").contains("If the link was cut short, its last number may be wrong"));
    assert!(part(&linked, "app").contains("not confirmed as yours"));
    let mine = page.event(Event::Press, "mine", "", NOW);
    assert!(part(&mine, "app").contains("MINE"));
    assert!(part(&mine, "app").contains("standing below"), "{mine:?}");
    assert_eq!(mine.memory, NOW);

    let mut again = Page::default();
    assert!(
        part(&again.go(limit, NOW, "2026-03-04 18:00"), "app").contains("MINE</strong> Last touched 2026-03-04 10:30")
    );
    let mut tomorrow = Page::default();
    let earlier = tomorrow.go(limit, NOW, "2026-03-05 08:00");
    assert!(part(&earlier, "app").contains("MINE, FROM 2026-03-04 10:30"));
    assert!(part(&earlier, "app").contains("not confirmed as yours"));
}

#[test]
fn the_link_follows_what_is_typed_and_brings_the_same_page_back() {
    let mut page = open("#1/ab");
    page.event(Event::Input, "length-unit", "ft", NOW);
    page.event(Event::Input, "height_m", "45", NOW);
    page.event(Event::Input, "descender", "tube", NOW);
    let mine = page.event(Event::Press, "mine", "", NOW);
    assert_eq!(mine.fragment, "1/ab/a45/d4/Uf");
    let mut other = Page::default();
    let opened = other.go(&mine.fragment, &mine.memory, NOW);
    // All but the way back from changes.
    page.sheet.as_mut().unwrap().before.clear();
    assert_eq!(part(&opened, "app"), part(&page.sheet.as_ref().unwrap().whole(), "app"));
}

#[test]
fn going_home_and_back_loses_nothing() {
    let mut page = open("#1/ln");
    page.event(Event::Input, "span_m-low", "nonsense", NOW);
    page.event(Event::Input, "drop_m", "0.4", NOW);
    let home = page.go("", "", NOW);
    let link = "1/ln/d0.4";
    assert!(part(&home, "app").contains(&format!("href=\"#{link}\"")), "{home:?}");
    let back = page.go(link, "", NOW);
    assert!(part(&back, "app").contains("value=\"nonsense\""));
    assert!(part(&back, "app").contains("EXAMPLE, CHANGED"));
}

#[test]
fn a_broken_link_says_what_is_broken() {
    let mut page = Page::default();
    assert!(part(&page.go("#1/ln/a5_3", "", NOW), "app").contains("a5_3"));
    assert!(part(&page.go("#7/ln", "", NOW), "app").contains("another version"));
}

#[test]
fn a_field_that_no_longer_matters_is_hidden_and_its_error_does_not_count() {
    let mut page = open("#1/ln");
    page.event(Event::Input, "sag-low", "x", NOW);
    let update = page.event(Event::Input, "setting", "slack", NOW);
    assert!(update.hidden.contains(&("sag-entry".to_owned(), true)));
    assert!(update.hidden.contains(&("slack-entry".to_owned(), false)));
    assert!(part(&update, "answer").contains("kN"));
}

#[test]
fn an_event_of_nothing_known_changes_nothing() {
    let mut page = open("#1/ln");
    for event in [Event::Input, Event::Leave, Event::Press] {
        for id in ["", "-", "soup", "span_m", "span_m-low-low", "🧗-high"] {
            page.event(event, id, "5", NOW);
        }
    }
    assert!(page.sheet.as_ref().unwrap().question.is_example());
    assert_eq!(Page::default().event(Event::Input, "span_m-low", "5", NOW), Update::default());
}

#[test]
fn words_that_promise_are_on_no_screen() {
    let mut page = Page::default();
    let mut all = crate::still_page() + &crate::still_tables(&[], &[]) + part(&page.go("", "", NOW), "app");
    for question in Question::all() {
        page.go(&format!("1/{}", question.key()), "", NOW);
        all += part(&page.paper(NOW), "paper");
        // Each choice of each field once, the others as in the example.
        for field in question.fields() {
            let rigging_core::question::Takes::Choice(choices) = field.about.takes else { continue };
            for choice in choices {
                let mut question = question.clone();
                question.set(field.about.name, &rigging_core::question::Entry::Choice(choice.name)).unwrap();
                let link = Link { question, units: Units::default(), from: None };
                all += part(&page.go(&link.write(), "", NOW), "app");
            }
        }
    }
    let words: Vec<&str> = all.split(|letter: char| !letter.is_ascii_alphabetic()).collect();
    for word in
        ["safe", "safely", "secure", "OK", "pass", "passes", "fine", "approved", "certified", "guaranteed", "bombproof"]
    {
        assert!(!words.iter().any(|found| found.eq_ignore_ascii_case(word)), "{word}");
    }
}

#[test]
fn the_next_day_my_numbers_are_asked_about_wherever_they_were_kept() {
    let tomorrow = "2026-03-05 07:00";
    let mut page = open("#1/al/q0/l1/o90");
    page.event(Event::Press, "mine", "", NOW);
    let edited = page.event(Event::Input, "people", "2", tomorrow);
    assert!(part(&edited, "answer").contains("MINE, FROM 2026-03-04 10:30"), "{edited:?}");
    assert!(part(&edited, "answer").contains("not confirmed as yours"));
    assert_eq!(edited.memory, NOW);

    let mut page = open("#1/al/q0/l1/o90");
    page.event(Event::Press, "mine", "", NOW);
    assert_eq!(page.wake("2026-03-04 23:59"), Update::default());
    assert!(part(&page.wake(tomorrow), "app").contains("MINE, FROM 2026-03-04 10:30"));

    let mut page = open("#1/al/q0/l1/o90");
    page.event(Event::Press, "mine", "", NOW);
    page.go("", "", NOW);
    assert!(part(&page.go("1/al/q0/l1/o90", "", tomorrow), "app").contains("MINE, FROM 2026-03-04 10:30"));
}

#[test]
fn a_link_to_a_question_does_not_push_out_my_own_sheet() {
    let mut page = open("#1/ln");
    page.event(Event::Input, "drop_m", "0.4", NOW);
    page.event(Event::Press, "mine", "", NOW);
    page.go("1/ln/d1", "", NOW);
    let home = page.go("", "", NOW);
    assert!(part(&home, "app").contains("href=\"#1/ln/d0.4\""), "{home:?}");
    assert!(part(&page.go("1/ln/d0.4", "", NOW), "app").contains("MINE</strong>"));
}

#[test]
fn a_bound_read_in_pounds_can_be_typed_and_survives_its_link() {
    let mut page = open("#1/ln");
    page.event(Event::Input, "length-unit", "ft", NOW);
    page.event(Event::Input, "body_kg-high", "352.74", NOW);
    let left = page.event(Event::Leave, "body_kg-high", "352.74", NOW);
    assert!(!part(&left, "body_kg-message").contains("cannot"), "{left:?}");
    let fragment = page.event(Event::Input, "drop_m", "1", NOW).fragment;
    assert!(crate::link::Link::read(&fragment).is_ok(), "{fragment}");
    // What was entered in metres is what its link says once feet are chosen.
    let mut page = open("#1/ln/a7.77_8.88");
    let feet = page.event(Event::Input, "length-unit", "ft", NOW).fragment;
    let link = crate::link::Link::read(&feet).unwrap();
    assert_eq!(page.sheet.as_ref().unwrap().question, link.question);
}

#[test]
fn every_standing_has_its_range_its_limit_whose_it_is_and_what_is_not_in_it() {
    let mut page = open("#1/al/q0/l3/y7");
    let mine = page.event(Event::Press, "mine", "", NOW);
    let answer = part(&mine, "app");
    for words in [
        "Computed: ",
        "Limit: 2.1\u{a0}kN",
        "÷ design factor 7",
        "EN 959:2018, in 200 mm of concrete, published",
        "Not in it: the strength",
    ] {
        assert!(answer.contains(words), "{words}: {answer}");
    }
}

#[test]
fn what_stays_in_sight_says_whose_numbers_it_tells() {
    let mut page = open("#1/al");
    let strip = |update: &Update| part(update, "app").split("id=\"strip\"").nth(1).unwrap()[..120].to_owned();
    assert!(strip(&page.sheet.as_ref().unwrap().whole()).contains(">EXAMPLE, not your rig – up to "));
    assert!(strip(&open("#1/al/n2").sheet.unwrap().whole()).contains(">FROM A LINK, NOT YOURS – up to "));
    assert!(strip(&page.event(Event::Press, "mine", "", NOW)).contains(">MINE, last touched "));
}

#[test]
fn where_there_is_no_answer_the_entry_that_cannot_be_used_is_named() {
    let mut page = open("#1/ln");
    let update = page.event(Event::Input, "drop_m", "x", NOW);
    let label = page.sheet.as_ref().unwrap().field("drop_m").unwrap().about.label;
    assert!(part(&update, "answer").contains(&format!("An entry cannot be used: {label}.")), "{update:?}");
    // One that does not matter here is not to blame.
    page.event(Event::Input, "own_limit_n", "x", NOW);
    assert!(part(&page.event(Event::Input, "drop_m", "y", NOW), "answer").contains(label));
}

#[test]
fn a_whole_number_is_asked_for_with_one() {
    let mut page = open("#1/al");
    page.event(Event::Input, "people", "2.5", NOW);
    let update = format!("{:?}", page.event(Event::Leave, "people", "2.5", NOW));
    assert!(update.contains("It must be a whole number from 1 to 12, for example 2."), "{update}");
    assert!(!update.contains("for example 2.0"), "{update}");
}

#[test]
fn who_listens_is_told_that_there_is_no_answer() {
    let mut page = open("#1/ln");
    assert!(page.event(Event::Input, "drop_m", "x", NOW).said.starts_with("No answer"));
}

fn entry(page: &Page, name: &str) -> Entry {
    page.sheet.as_ref().unwrap().field(name).unwrap().entry
}

#[test]
fn the_masses_of_the_group_are_entered_once() {
    let heaviest = |page: &Page| match entry(page, "body_kg") {
        Entry::Range(band) => band.high(),
        other => panic!("{other:?}"),
    };
    let mut page = open("#1/ln");
    page.event(Event::Input, "body_kg-high", "110", NOW);
    let line = page.event(Event::Input, "suit_water_kg", "7", NOW);
    let abseil = page.go("#1/ab", "", NOW);
    assert_eq!((heaviest(&page), entry(&page, "suit_water_kg")), (110.0, Entry::One(7.0)));
    assert!(part(&abseil, "app").contains("EXAMPLE, CHANGED"), "the rest is still ours");
    assert!(abseil.fragment.contains("_110"), "a reload keeps them: {}", abseil.fragment);
    // Changed there, they are changed in the sheet put aside.
    page.event(Event::Input, "body_kg-high", "120", NOW);
    page.go(&line.fragment, "", NOW);
    assert_eq!(heaviest(&page), 120.0);
    // A stranger's link keeps its own, and gives them to nobody until it is confirmed.
    page.go("#1/bd/m40_50", "", NOW);
    assert_eq!(heaviest(&page), 50.0);
    page.go("#1/al", "", NOW);
    assert_eq!(heaviest(&page), 120.0);
    page.go("#1/bd/m40_50", "", NOW);
    page.event(Event::Press, "mine", "", NOW);
    page.go("#1/al", "", NOW);
    assert_eq!(heaviest(&page), 50.0);
    // After a reload the address alone gives them.
    let mut page = Page::default();
    page.go("#1/ab/m60_115", NOW, NOW);
    page.go("#1/ln", "", NOW);
    assert_eq!(heaviest(&page), 115.0);
}

#[test]
fn what_holds_is_not_drawn_as_a_load() {
    let bar = |link: &str| {
        let html = open(link).sheet.unwrap().whole();
        let html = part(&html, "app");
        let bar = html.split("class=\"bar\"").nth(1).unwrap().split("</svg>").next().unwrap().to_owned();
        (bar.contains("class=\"limit\""), bar.contains("class=\"range\""))
    };
    // What people hold at least, and what the anchor of two gets at most.
    assert_eq!((bar("#1/ha"), bar("#1/al")), ((true, false), (false, true)));
}

#[test]
fn forces_taken_to_another_question_say_where_they_came_from() {
    let mut page = open("#1/ab");
    let sheet = page.sheet.as_ref().unwrap();
    let answer = sheet.answer().unwrap().unwrap();
    let way = sheet.offers().remove(0);
    let taken = page.go(&way, "", NOW);
    let html = part(&taken, "app");
    assert!(html.contains("Forces taken from: Can the brake hand") && html.contains("EXAMPLE, CHANGED"));
    // The range is kept, to the eight figures of a link.
    let Entry::Range(rope) = entry(&page, "rope_n") else { panic!() };
    let hung = answer.carried.unwrap().rope;
    assert!((rope.low() / hung.low() - 1.0).abs() < 1e-7 && (rope.high() / hung.high() - 1.0).abs() < 1e-7);
    // What is typed was not taken.
    page.event(Event::Input, "rope_n-high", "9", NOW);
    assert!(!part(&page.sheet.as_ref().unwrap().whole(), "app").contains("Forces taken from"));
    // The same link opened elsewhere is a stranger's.
    let linked = open(&way).sheet.unwrap().whole();
    assert!(part(&linked, "app").contains("FROM A LINK") && part(&linked, "app").contains("Forces taken from"));
}

#[test]
fn where_nothing_is_compared_the_next_findings_stand_beside_the_first() {
    let page = open("#1/rp");
    let whole = page.sheet.as_ref().unwrap().whole();
    let html = part(&whole, "app");
    let answer = &html[html.find("id=\"answer\"").unwrap()..html.find("id=\"picture\"").unwrap()];
    assert!(answer.contains("the end of the rope with someone hanging at it") && answer.contains("at the station"));
    assert_eq!(html.matches("needed at the station, as declared, to let someone down").count(), 1, "told once");
}

/// What is printed, as text without its tags.
fn printed(page: &mut Page) -> String {
    let update = page.paper(NOW);
    let mut text = String::new();
    for piece in part(&update, "paper").split('<').skip(1) {
        text += " ";
        text += piece.split_once('>').unwrap().1;
    }
    let text = text.replace("&quot;", "\"").replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&");
    text.split([' ', '\n']).filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}

#[test]
fn a_sheet_of_paper_says_inputs_answer_limits_what_is_missing_and_when_it_stops_being_valid() {
    for question in Question::all() {
        let mut page = open(&format!("#1/{}", question.key()));
        let text = printed(&mut page);
        let answer = question.answer().unwrap();
        let mut from = 0;
        let mut next = |words: &str| {
            let at = text[from..].find(words).unwrap_or_else(|| panic!("{words:?} is not after {from} in {text}"));
            from += at;
        };
        next(question.words());
        next("EXAMPLE, not your numbers");
        next(NOW);
        next(concat!("Version ", env!("CARGO_PKG_VERSION")));
        for blank in ["Date:", "Water at the mark:", "Seen by:", "Blank means: not valid."] {
            next(blank);
        }
        for field in question.fields().iter().filter(|field| field.matters) {
            next(field.about.label);
        }
        next(&answer.scene.case);
        next("EXAMPLE");
        let first = answer.findings.first().unwrap();
        next(&Units::default().adverse(first));
        next(&first.what);
        for comparison in &answer.comparisons {
            next("not checked");
            next(&comparison.what);
            next("Limit: ");
        }
        for finding in &answer.findings[1..] {
            next(&finding.what);
        }
        for remark in &answer.remarks {
            next(remark);
        }
        for step in &answer.working {
            next(step.formula);
            next(step.source.place);
        }
        for missing in &answer.not_in {
            next(missing);
        }
        for caution in &answer.cautions {
            next(caution.hazard);
            next(caution.avoidance);
        }
        next("Notes");
        next(&format!("#1/{}", question.key()));
    }
}

#[test]
fn paper_tells_whose_numbers_they_are_as_the_screen_does() {
    let limit = "#1/al/q0/l1/o90";
    let mut page = open(limit);
    let linked = printed(&mut page);
    assert!(linked.contains("FROM A LINK, not yours") && !linked.contains("below limit"), "{linked}");
    page.event(Event::Press, "mine", "", NOW);
    let mine = printed(&mut page);
    assert!(mine.contains("MINE . Last touched 2026-03-04 10:30.") && mine.contains("below limit"), "{mine}");
    // The page stayed open over night: what is printed was not confirmed on that day.
    let next = page.paper("2026-03-05 07:00");
    assert!(part(&next, "paper").contains("MINE, FROM AN EARLIER DAY"), "{next:?}");
    assert!(!part(&next, "paper").contains("below limit"), "{next:?}");
}

#[test]
fn while_an_entry_is_unusable_paper_has_a_dash_for_it_and_for_the_answer_and_no_link() {
    let mut page = open("#1/ln");
    page.event(Event::Input, "span_m-low", "wide", NOW);
    let text = printed(&mut page);
    assert!(
        text.contains("Span: anchor to anchor, level — Span: anchor to anchor, level: “wide” cannot be used"),
        "{text}"
    );
    assert!(!text.contains("up to") && !text.contains("#1/ln"), "{text}");
    assert!(text.contains("No code and no link"), "{text}");
    // Whoever holds it is warned all the same.
    assert!(text.contains("People die on ropes that were worked out"), "{text}");
    assert!(!part(&page.paper(NOW), "paper").contains("class=\"qr\""));
}

#[test]
fn the_print_button_prints_the_sheet_and_home_has_none() {
    let mut page = open("#1/ln");
    let pressed = page.event(Event::Press, "print", "", NOW);
    assert!(pressed.print);
    assert_eq!(part(&pressed, "paper"), part(&page.paper(NOW), "paper"));
    page.go("", "", NOW);
    assert_eq!(part(&page.paper(NOW), "paper"), "");
}

#[test]
fn arrow_heads_on_paper_are_those_of_the_sheet() {
    let update = open("#1/ln").paper(NOW);
    let sheet = part(&update, "paper");
    for mark in sheet.split("url(#").skip(1) {
        let id = mark.split(')').next().unwrap();
        assert!(id.starts_with("paper-") && sheet.contains(&format!("id=\"{id}\"")), "{id}");
    }
    assert!(sheet.matches(" id=\"").count() == sheet.matches(" id=\"paper-").count());
}

#[test]
fn in_class_no_standing_is_printed() {
    let mut page = open("#1/al/q0/l1/o90");
    page.event(Event::Press, "mine", "", NOW);
    page.event(Event::Press, "way-class", "", NOW);
    let text = printed(&mut page);
    assert!(!text.contains("below limit") && !text.contains("not checked"), "{text}");
}
