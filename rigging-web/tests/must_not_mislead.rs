//! Rules that stand against ways in which someone could get hurt by reading the page, each a check on every screen:
//! each question as its example, and with each choice of each of its lists.
#![expect(
    clippy::indexing_slicing,
    clippy::unwrap_used,
    clippy::panic,
    reason = "a check that cannot go on has failed"
)]

use rigging_core::limit::Standing;
use rigging_core::quantity::{Kind, Unit, Units};
use rigging_core::question::{Answer, End, Entry, Question, Takes};
use rigging_web::link::Link;
use rigging_web::number::read;
use rigging_web::page::{Event, Page, Update};
use std::sync::LazyLock;

const NOW: &str = "2026-03-04 10:30";
/// The parts of a screen that show what was worked out.
const RESULTS: [&str; 4] = ["answer", "picture", "more", "working"];

/// A question, its answer if it has one, and its screen as the user's own.
struct Shown {
    question: Question,
    answer: Option<Answer>,
    screen: String,
}

/// Each question, with each choice of each list in turn.
static SHOWN: LazyLock<Vec<Shown>> = LazyLock::new(|| {
    let show = |question: Question| {
        let (_, own) = mine(&question);
        Shown { answer: question.answer().ok(), screen: part(&own, "app").to_owned(), question }
    };
    variants().into_iter().map(show).collect()
});

fn variants() -> Vec<Question> {
    let mut variants = Vec::new();
    for example in Question::all() {
        variants.push(example.clone());
        for field in example.fields() {
            let Takes::Choice(choices) = field.about.takes else { continue };
            for choice in choices {
                let mut variant = example.clone();
                variant.set(field.about.name, &Entry::Choice(choice.name)).unwrap();
                if variant != example {
                    variants.push(variant);
                }
            }
        }
    }
    assert!(variants.len() > 150, "{}", variants.len());
    variants
}

fn link(question: &Question) -> String {
    Link { question: question.clone(), units: Units::default(), from: None }.write()
}

/// The page at a question whose numbers are the user's own; an example stays one until it is confirmed.
fn mine(question: &Question) -> (Page, Update) {
    let mut page = Page::default();
    page.go(&link(question), NOW, NOW);
    let update = page.event(Event::Press, "mine", "", NOW);
    (page, update)
}

fn part<'a>(update: &'a Update, id: &str) -> &'a str {
    &update.put.iter().find(|(place, _)| place == id).unwrap_or_else(|| panic!("no {id}")).1
}

/// The text between an element with this id and the next section.
fn section<'a>(html: &'a str, id: &str) -> &'a str {
    let from = html.find(&format!("id=\"{id}\"")).unwrap_or_else(|| panic!("no {id}"));
    let until = html[from..].find("</section>").map_or(html.len(), |end| from + end);
    &html[from..until]
}

/// HTML without its tags.
fn words(html: &str) -> String {
    let mut words = String::new();
    let mut inside = false;
    for letter in html.chars() {
        match letter {
            '<' => inside = true,
            '>' => {
                inside = false;
                words.push(' ');
            }
            _ if !inside => words.push(letter),
            _ => {}
        }
    }
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Standings that say something, as the page words them.
fn compared(html: &str) -> bool {
    ["below limit", "above limit", "range crosses limit"].iter().any(|word| html.contains(word))
}

#[test]
fn rule_1_an_example_is_marked_inside_its_box_and_compared_with_nothing_and_mine_has_its_time() {
    for question in Question::all() {
        let name = question.name();
        let mut page = Page::default();
        let example = page.go(&link(&question), "", NOW);
        let html = part(&example, "app").to_owned();
        assert!(html.contains(r#"<div class="box example"><p class="tag"><strong>EXAMPLE</strong>"#), "{name}");
        assert!(!compared(&html), "{name}");
        let confirmed = page.event(Event::Press, "mine", "", NOW);
        let own = part(&confirmed, "app");
        assert!(own.contains("<strong>MINE</strong> Last touched 2026-03-04 10:30"), "{name}");
        assert!(own.contains(r#"<div class="box mine">"#) && !own.contains("box example"), "{name}");
        // On the next day the same numbers are asked about and compared with nothing until then.
        let woken = page.wake("2026-03-05 07:00");
        assert!(part(&woken, "app").contains("MINE, FROM 2026-03-04 10:30"), "{name}");
        assert!(!compared(part(&woken, "app")), "{name}");
    }
    // Nor is a stranger's, whatever is chosen in it; on paper neither.
    for Shown { question, .. } in SHOWN.iter() {
        let mut page = Page::default();
        let linked = page.go(&link(question), "", NOW);
        assert!(!compared(part(&linked, "app")), "{}", link(question));
        assert!(!compared(part(&page.paper(NOW), "paper")), "{}", link(question));
    }
}

#[test]
fn rule_2_what_is_natural_human_or_unseen_and_people_in_water_are_never_below_a_limit() {
    for Shown { question, answer, screen } in SHOWN.iter() {
        let Some(answer) = answer else { continue };
        let html = words(section(screen, "answer"));
        let natural = ["natural anchor", "in the current"].contains(&question.name());
        assert!(!natural || !html.contains("below limit"), "{}", link(question));
        for field in question.fields() {
            let Entry::Choice(chosen) = field.entry else { continue };
            let unknown = ["natural", "human", "people", "found", "in place", "not seen", "unseen"];
            if field.about.name == "anchor" && unknown.iter().any(|word| chosen.contains(word)) {
                let first = answer.comparisons.first();
                assert!(!first.is_some_and(|first| first.standing == Standing::BelowLimit), "{}", link(question));
            }
        }
        let all = RESULTS.map(|region| words(section(screen, region))).join(" ").to_lowercase();
        let all = format!(" {all} ");
        // No answer says what to do, and none says that something holds.
        for word in [
            " good to go",
            " go ahead",
            " safe",
            "secure",
            " ok ",
            "approved",
            "certified",
            "guaranteed",
            "bombproof",
            "✓",
            "✔",
        ] {
            assert!(!all.contains(word), "{word:?}: {}", link(question));
        }
    }
}

#[test]
fn rule_3_the_big_figure_is_the_end_that_hurts_and_the_other_end_stands_small_beside_it() {
    for Shown { question, answer, screen } in SHOWN.iter() {
        let Some(answer) = answer else { continue };
        let finding = answer.findings.first().unwrap();
        let units = Units::default();
        let html = section(screen, "answer");
        let big = html.split_once("id=\"headline\">").unwrap().1.split_once("</p>").unwrap().0;
        let word = match finding.end {
            End::High => "up to",
            End::Low if finding.at_most => "at most",
            End::Low => "at least",
        };
        assert_eq!(words(big), words(&format!("{word} <b>{}</b>", units.adverse(finding))), "{}", link(question));
        assert!(html.contains(&format!("Other end of the range: {}", units.friendly(finding))), "{}", link(question));
        // Rounded against the reader.
        let shown = read(&units.adverse(finding), finding.kind, units.of(finding.kind)).unwrap().si;
        let hurts = match finding.end {
            End::High => shown >= finding.adverse() * (1.0 - 1e-9),
            End::Low => shown <= finding.adverse() * (1.0 + 1e-9),
        };
        assert!(hurts, "{shown} for {} of {}", finding.adverse(), link(question));
    }
}

/// Each number that stands before a unit of force in some text, as it is written.
fn forces(text: &str, unit: &str) -> Vec<String> {
    let text = text.replace('\u{a0}', " ");
    let letters: Vec<&str> = text.split(' ').collect();
    letters
        .windows(2)
        .filter(|pair| pair[1].trim_end_matches([',', '.', ';', ':', ')']) == unit)
        .map(|pair| pair[0].to_owned())
        .collect()
}

fn significant(number: &str) -> usize {
    let digits: String = number.chars().filter(char::is_ascii_digit).collect();
    let digits = digits.trim_start_matches('0');
    // Zeros before the point are places, not figures.
    if number.contains('.') { digits.len() } else { digits.trim_end_matches('0').len() }
}

#[test]
fn rule_4_forces_have_two_figures_and_a_unit_and_are_told_as_people_and_on_one_fixed_bar() {
    for question in Question::all() {
        let answer = question.answer().unwrap();
        let finding = answer.findings.first().unwrap();
        let (mut page, own) = mine(&question);
        let html = section(part(&own, "app"), "answer").to_owned();
        for number in forces(&words(&html), "kN") {
            assert!(
                significant(&number) <= 2 || html.contains(&format!("Limit: {number}")),
                "{number}: {}",
                question.name()
            );
        }
        if finding.kind == Kind::Force {
            // 0.93 kN each, common practice: a person with kit of 95 kg; rounded up where a load hurts.
            let people = (finding.adverse() / 930.0).ceil();
            if finding.end == End::High && people > 1.0 {
                assert!(
                    html.contains(&format!("About {people} people hanging still")),
                    "{people}: {}",
                    question.name()
                );
            }
            // Beside what a part takes they would read as people whom it holds.
            let people = html.contains("person hanging still") || html.contains("people hanging still");
            assert_eq!(people, finding.end == End::High, "{}", question.name());
            assert!(html.contains("on a scale from 0 to 25\u{a0}kN"), "{}", question.name());
        }
        // One system at a time, and never kilograms for a force.
        let pounds = page.event(Event::Input, "force-unit", "lbf", NOW);
        let shown = words(section(part(&pounds, "app"), "answer"));
        assert!(forces(&shown, "kN").is_empty(), "{}: {shown}", question.name());
        assert!(forces(&shown, "kg").is_empty(), "{}: {shown}", question.name());
        // A person weighs 30 to 160 kg.
        for (name, typed) in [("body_kg-low", "29"), ("body_kg-high", "161")] {
            if question.fields().iter().any(|field| field.about.name == "body_kg") {
                let (mut page, _) = mine(&question);
                let refused = page.event(Event::Input, name, typed, NOW);
                assert!(part(&refused, "answer").contains(r#"<p class="big">—</p>"#), "{typed}: {}", question.name());
            }
        }
    }
}

#[test]
fn rule_5_lengths_are_asked_first_and_every_angle_in_a_picture_has_its_name_and_its_arc() {
    let mut arcs = 0;
    for Shown { question, answer, screen } in SHOWN.iter() {
        let measured: Vec<Kind> = question
            .fields()
            .iter()
            .filter(|field| field.matters && !matches!(field.about.takes, Takes::Choice(_)))
            .map(|field| field.about.kind)
            .filter(|kind| matches!(kind, Kind::Length | Kind::Angle))
            .collect();
        // What bends a rope is seen as an angle, whichever lengths follow.
        if measured.contains(&Kind::Length) && question.name() != "bend" {
            assert_eq!(measured[0], Kind::Length, "{}", link(question));
        }
        for field in question.fields().iter().filter(|field| field.about.kind == Kind::Angle) {
            let said = format!("{} {}", field.about.label, field.about.note);
            let refers = ["from ", "between", "changes direction", "straight on", "slope", "level", "plumb", "swing"];
            let matters = !matches!(field.about.takes, Takes::Choice(_));
            assert!(!matters || refers.iter().any(|word| said.contains(word)), "{said}");
        }
        let Some(answer) = answer else { continue };
        for arc in answer.scene.angles.iter().chain(answer.aside.iter().flat_map(|aside| &aside.angles)) {
            assert!(!arc.name.is_empty(), "{}", link(question));
            assert!(screen.contains(&format!(">{} ", arc.name)), "{}: {}", arc.name, link(question));
            arcs += 1;
        }
    }
    assert!(arcs > 100, "{arcs}");
}

/// Where words stand in all that was found, first to last.
fn found(answer: &Answer, with: &str) -> Option<usize> {
    let all = answer.findings.iter().map(|finding| finding.what.as_str());
    let mut all = all.chain(answer.comparisons.iter().map(|compared| compared.what.as_str()));
    all.position(|what| what.contains(with))
}

#[test]
fn rule_6_friction_is_never_counted_as_strength_raising_lowering_and_rest_stand_apart() {
    for Shown { question, answer, .. } in SHOWN.iter() {
        let Some(answer) = answer else { continue };
        let (without, with) = (found(answer, "edge not counted"), found(answer, "edge counted"));
        if let Some(with) = with {
            assert!(without.is_some_and(|without| without < with), "{}: {without:?} {with}", link(question));
        }
        if ["raise and lower", "bend"].contains(&question.name()) {
            let all: Vec<&str> = answer
                .findings
                .iter()
                .chain(answer.outcomes.iter().flat_map(|outcome| &outcome.findings))
                .chain(&answer.states)
                .map(|finding| finding.what.as_str())
                .chain(answer.outcomes.iter().map(|outcome| outcome.case.as_str()))
                .collect();
            for state in ["rais", "lower", "rest"] {
                assert!(all.iter().any(|what| what.contains(state)), "{state} of {}: {all:?}", link(question));
            }
        }
    }
}

#[test]
fn rule_7_where_someone_hangs_the_slip_stands_next_to_hanging_still() {
    let mut hanging = 0;
    for question in Question::all() {
        let answer = question.answer().unwrap();
        let told = |what: &str| answer.states.iter().find(|state| state.what.contains(what));
        let Some(still) = told("hanging still") else { continue };
        let slip = told("slip").or(told("this case")).unwrap_or_else(|| panic!("no slip: {}", question.name()));
        assert!(slip.band.high() > still.band.high(), "{}", question.name());
        let (_, own) = mine(&question);
        let states = section(part(&own, "app"), "answer").split_once("ul class=\"states\"").unwrap().1;
        assert!(states.matches("class=\"bar\"").count() >= answer.states.len(), "{}", question.name());
        hanging += 1;
    }
    assert!(hanging >= 4, "{hanging}");
}

#[test]
fn rule_8_classes_of_floods_stand_in_words_and_never_as_a_bare_code() {
    for Shown { question, screen, .. } in SHOWN.iter() {
        let text = words(screen);
        for word in text.split(|letter: char| !letter.is_alphanumeric()) {
            let letters: Vec<char> = word.chars().collect();
            // Letters and digits that are a grade of a canyon, or a class of danger: a1 … c6, v3, H1 … H6.
            let coded = matches!(letters.as_slice(), ['a' | 'A' | 'c' | 'C' | 'v' | 'V' | 'H', digit] if digit.is_ascii_digit());
            assert!(!coded, "{word}: {}", link(question));
        }
        for code in ["class 1", "class 2", "Class I", " grade "] {
            assert!(!text.contains(code), "{code}: {}", link(question));
        }
    }
}

#[test]
fn rule_9_while_an_entry_cannot_be_used_a_dash_stands_in_place_of_every_number() {
    for question in Question::all() {
        for field in question.fields().iter().filter(|field| field.matters) {
            let id = match field.about.takes {
                Takes::One { .. } => field.about.name.to_owned(),
                Takes::Range { .. } => format!("{}-high", field.about.name),
                Takes::Choice(_) => continue,
            };
            let (mut page, _) = mine(&question);
            let update = page.event(Event::Input, &id, "abc", NOW);
            for region in RESULTS {
                let text = words(part(&update, region));
                for unit in ["kN", "kg", "m", "°"] {
                    assert!(forces(&text, unit).is_empty(), "{region} after {id} of {}: {text}", question.name());
                }
            }
            assert!(part(&update, "answer").contains('—') && part(&update, "picture").contains('—'));
            assert!(update.said.starts_with("No answer"), "{}", update.said);
        }
    }
    let mut page = Page::default();
    let opened = page.go("1/ln/n2", "", NOW);
    assert!(part(&opened, "app").contains("FROM A LINK, NOT YOURS"));
    assert!(part(&opened, "app").contains(concat!("Version ", env!("CARGO_PKG_VERSION"))));
}

#[test]
fn rule_10_nothing_can_be_entered_that_says_that_it_held_before() {
    for question in Question::all() {
        for field in question.fields() {
            let mut said = vec![field.about.label, field.about.note];
            if let Takes::Choice(choices) = field.about.takes {
                said.extend(choices.iter().map(|choice| choice.words));
            }
            for words in said {
                let words = words.to_lowercase();
                for history in ["held before", "it held", "has held", "already held", "last time", "never failed"] {
                    assert!(!words.contains(history), "{words:?} of {}", question.name());
                }
            }
        }
    }
    // Whatever else is chosen, a part that nobody knows gets no strength.
    for question in variants() {
        let mut unknown = question.clone();
        for field in question.fields() {
            let Takes::Choice(choices) = field.about.takes else { continue };
            let choice =
                choices.iter().find(|choice| choice.words.contains("found") || choice.words.contains("not seen"));
            let Some(choice) = choice.filter(|_| field.about.name.contains("anchor")) else { continue };
            unknown.set(field.about.name, &Entry::Choice(choice.name)).unwrap();
            let Ok(answer) = unknown.answer() else { continue };
            let first = answer.comparisons.first().unwrap();
            assert!(!matches!(first.standing, Standing::BelowLimit), "{}", link(&unknown));
        }
    }
}

#[test]
fn rule_11_a_sheet_has_its_date_and_water_to_fill_in_by_hand_and_says_what_a_blank_means() {
    for Shown { question, .. } in SHOWN.iter() {
        let (mut page, _) = mine(question);
        for sheet in [page.paper(NOW), page.event(Event::Press, "print", "", NOW)] {
            let html = part(&sheet, "paper");
            let fill = &html[html.find("class=\"fill\"").unwrap()..];
            for (at, blank) in ["Date:", "Water at the mark:"].into_iter().enumerate() {
                let entry = fill.split("class=\"blank\"").nth(at).unwrap();
                assert!(entry.contains(blank), "{blank} {}", link(question));
            }
            assert!(words(fill).contains("Blank means: not valid."), "{}", link(question));
            assert!(html.find("Blank means") < html.find("class=\"box"), "it stands before the answer");
        }
    }
}

#[test]
fn rule_12_in_class_nothing_is_compared_until_a_limit_is_chosen_there() {
    for Shown { question, .. } in SHOWN.iter() {
        let (mut page, _) = mine(question);
        page.event(Event::Press, "way-class", "", NOW);
        let shown = page.event(Event::Press, "guess-show", "", NOW);
        for place in RESULTS {
            let html = shown.put.iter().find(|(at, _)| at == place).map_or("", |(_, html)| html);
            assert!(!compared(html) && !html.contains("not checked</strong>"), "{place} {} {html}", link(question));
        }
        assert!(!compared(&shown.said), "{}", link(question));
        assert!(!compared(part(&page.paper(NOW), "paper")), "{}", link(question));
    }
    // A limit chosen aloud is compared with.
    let (mut page, _) = mine(&Link::read("1/al/q0/l1/o90").unwrap().question);
    for button in ["way-class", "guess-show", "choose-limit"] {
        assert!(page.event(Event::Press, button, "", NOW).put.iter().all(|(_, html)| !compared(html)), "{button}");
    }
    page.event(Event::Input, "own_limit_n", "80", NOW);
    assert!(compared(part(&page.event(Event::Input, "limit", "own", NOW), "answer")));
}

/// A question against a limit of one's own, on sound bolts.
fn limited(name: &str, limit: f64) -> Question {
    let mut question = Question::named(name).unwrap();
    for (field, entry) in
        [("anchor", Entry::Choice("known")), ("limit", Entry::Choice("own")), ("own_limit_n", Entry::One(limit))]
    {
        question.set(field, &entry).unwrap();
    }
    question
}

#[test]
fn rule_13_the_worst_standing_is_in_the_frame_first_on_paper_and_in_sight_at_the_lip() {
    // The anchor stays below 6 kN, the brake hand does not below what it holds.
    let (mut page, own) = mine(&limited("abseil", 6000.0));
    let screen = words(part(&own, "app"));
    let framed = "range crosses limit . Computed: 0.032 kN to 0.28 kN for the brake hand";
    assert!(screen.find(framed) < screen.find("below limit") && screen.contains(framed), "{screen}");
    assert_eq!(screen.matches("for the brake hand. ").count(), 1, "framed and listed again");
    let sheet = words(part(&page.paper(NOW), "paper"));
    assert!(sheet.find("range crosses limit").unwrap() < sheet.find("below limit").unwrap(), "{sheet}");
    let lip = page.event(Event::Press, "way-lip", "", NOW);
    let lip = words(part(&lip, "app"));
    // What stays in sight while entries change.
    let lip = lip.split("What you measure").next().unwrap();
    assert!(lip.contains("range crosses limit : up to 0.28 kN for the brake hand. Limit: 0.050 kN to"), "{lip}");
    assert!(!lip.contains("below limit"), "{lip}");
    // Whose limit it is stands in full further down: the answer has to leave half of the window.
    assert!(!lip.contains("one hand"), "{lip}");
}

#[test]
fn rule_14_a_load_below_its_limit_reads_so() {
    let high = limited("anchor legs", 1000.0).answer().unwrap().comparisons[0].load.high();
    for unit in [Unit::Kilonewton, Unit::PoundForce, Unit::KilogramForce] {
        let units = Units { force: unit, ..Units::default() };
        for times in [1.00001, 1.0001, 1.001, 1.01, 1.05, 1.2] {
            let answer = limited("anchor legs", high * times).answer().unwrap();
            let [load, limit] = units.compared(&answer.comparisons[0]).map(|told| {
                let last = told.rsplit(" to ").next().unwrap();
                last.split('\u{a0}').next().unwrap().parse::<f64>().unwrap()
            });
            assert_eq!(answer.comparisons[0].standing, Standing::BelowLimit);
            assert!(load < limit, "{load} and {limit} {unit:?}");
        }
    }
}

#[test]
fn the_figures_of_a_number_are_counted_as_people_do() {
    for (number, figures) in [("4.3", 2), ("0.94", 2), ("0.080", 2), ("12", 2), ("1200", 2), ("3.95", 3)] {
        assert_eq!(significant(number), figures, "{number}");
    }
    assert_eq!(forces("up to 4.3\u{a0}kN, limit 12 kN.", Unit::Kilonewton.symbol()), ["4.3", "12"]);
}
