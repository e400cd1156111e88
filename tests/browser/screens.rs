//! The screens of the questions: what stands there is what the library works out natively, whatever is typed.

use fantoccini::key::Key;
use rigging_core::quantity::{Units, decimal};
use rigging_core::question::{Asked, End, Entry, Question, Takes};
use rigging_web::link::Link;
use rigging_web::page::{Event, Page};
use serde_json::json;

use crate::browser::Browser;
use crate::engine::Engine;
use crate::{Outcome, same};

/// A time for the native page; what depends on it is not compared.
const NOW: &str = "2026-01-02 03:04";

/// The regions of a screen whose words are compared.
const REGIONS: [&str; 6] = ["answer", "picture", "more", "working", "cautions", "not-in"];

/// Every example: each word and number on the screen is the native page's, and the big number is the core's.
pub(crate) fn examples(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    for question in Question::all() {
        let fragment = format!("1/{}", question.key());
        browser.go(&fragment)?;
        let native = Page::default().go(&fragment, "", NOW);
        let (_, html) = native.put.first().ok_or("the native page shows nothing")?;
        same(question.name(), words_of(&browser, "#app")?, words_in(&browser, html)?)?;
        big_number_is_the_cores(&browser, &question)?;
        same("errors", browser.errors()?, vec![])?;
    }
    Ok(())
}

/// Numbers typed into a line: the whole screen follows as the native page does.
pub(crate) fn typing(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    browser.go("1/ln")?;
    let mut native = Page::default();
    native.go("1/ln", "", NOW);
    let mut question = Question::named("line")?;
    for (id, typed) in [("span_m-low", "6,5"), ("span_m-high", "7.25 m"), ("drop_m", "0.3"), ("people", "2")] {
        browser.type_into(&format!("#{id}"), typed)?;
        let update = native.event(Event::Input, id, typed, NOW);
        for region in REGIONS {
            let html = update.put.iter().find(|(place, _)| place == region).map(|(_, html)| html.as_str());
            let html = html.ok_or_else(|| format!("{region} is not updated"))?;
            same(
                &format!("{region} after {typed}"),
                words_of(&browser, &format!("#{region}"))?,
                words_in(&browser, html)?,
            )?;
        }
        same("fragment", browser.fragment()?, update.fragment)?;
    }
    question.set("span_m", &Entry::Range(rigging_core::band::Band::of(6.5, 6.875, 7.25)))?;
    question.set("drop_m", &Entry::One(0.3))?;
    question.set("people", &Entry::One(2.0))?;
    big_number_is_the_cores(&browser, &question)?;
    same("errors", browser.errors()?, vec![])
}

/// What can be read is read, what cannot gets a dash and a message, and either way stays as typed.
pub(crate) fn entries(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    // The text, and either the value it must be read as (m) or words that the message must have.
    let cases: [(&str, Result<f64, &str>); 9] = [
        ("1,5", Ok(1.5)),
        ("1.5 m", Ok(1.5)),
        ("5 ft", Ok(1.524)),
        ("", Err("nothing is entered")),
        ("abc", Err("cannot be used")),
        ("-3", Err("cannot be used")),
        ("1e999", Err("cannot be used")),
        ("1,234", Err("Write 1.234 or 1234")),
        ("2 kg", Err("does not measure this")),
    ];
    for (typed, expected) in cases {
        browser.go("1/ha")?;
        browser.type_into("#to_lip_m", typed)?;
        same("kept as typed", browser.value("#to_lip_m")?, typed.to_owned())?;
        let message = browser.text("#to_lip_m-message")?;
        let marked =
            browser.run("return document.querySelector('#to_lip_m').getAttribute('aria-invalid') === 'true'", &[])?;
        same(&format!("marked after {typed:?}"), marked.as_bool(), Some(expected.is_err()))?;
        match expected {
            Ok(metres) => {
                let mut question = Question::named("human anchor")?;
                question.set("to_lip_m", &Entry::One(metres))?;
                big_number_is_the_cores(&browser, &question)?;
                same(&format!("a complaint about {typed}"), message.contains("must be"), false)?;
            }
            Err(words) => {
                for part in [words, "Out: first person to the lip"] {
                    same(&format!("{typed:?}: {message:?} has {part:?}"), message.contains(part), true)?;
                }
                for region in ["#answer", "#picture"] {
                    same(&format!("{region} for {typed:?} has a dash"), browser.text(region)?.contains('—'), true)?;
                    same(&format!("{region} for {typed:?} has a force"), browser.text(region)?.contains("kN"), false)?;
                }
            }
        }
        same("errors", browser.errors()?, vec![])?;
    }
    Ok(())
}

/// A reload, and the link opened elsewhere, give the same numbers; only the first are still the user's own.
pub(crate) fn links(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    browser.go("1/ab")?;
    browser.choose("#length-unit", "ft")?;
    browser.type_into("#height_m", "45")?;
    browser.choose("#descender", "tube")?;
    browser.click("#mine")?;
    let fragment = browser.fragment()?;
    same("fragment", fragment.as_str(), "1/ab/a45/d4/Uf")?;
    // All but the way back from changes, which a reload forgets.
    let whole = |browser: &Browser| -> Outcome<Vec<String>> {
        REGIONS.iter().map(|region| words_of(browser, &format!("#{region}"))).collect()
    };
    let shown = whole(&browser)?;
    same("mine", browser.text("#answer")?.contains("MINE"), true)?;
    browser.reload()?;
    same("page after a reload", whole(&browser)?, shown)?;
    same("fragment after a reload", browser.fragment()?, fragment.clone())?;

    let headline = browser.text("#headline")?;
    let mut elsewhere = Browser::open(engine)?;
    elsewhere.go(&fragment)?;
    same("big number elsewhere", elsewhere.text("#headline")?, headline)?;
    same("value elsewhere", elsewhere.value("#height_m")?, "45".to_owned())?;
    let answer = elsewhere.text("#answer")?;
    same("not mine elsewhere", answer.contains("FROM A LINK, NOT YOURS") && answer.contains("not checked"), true)?;
    same("errors", elsewhere.errors()?, vec![])
}

/// A part is changed and another becomes the weakest; the forces of another question come along; what the file holds
/// without calculating is there.
pub(crate) fn weakest(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    browser.go("1/wp")?;
    let told = |browser: &Browser, words: &str| -> Outcome {
        let answer = browser.text("#answer")?;
        same(&format!("{words} in {answer}"), answer.contains(words), true)
    };
    // By hand: 18 kN × 0.66 × 0.55 = 6.5 kN, over the slip far less than any other part.
    told(&browser, "at least 6.5 kN")?;
    told(&browser, "low-stretch rope B")?;
    browser.choose("#rope_1", "rope A nylon")?;
    browser.choose("#rope_1_condition", "new")?;
    browser.choose("#anchor_3_knot", "overhand sling")?;
    // 22 kN × 0.46 = 10.1 kN on 0.8 of the slip, against 22 kN × 0.66 on all of it.
    told(&browser, "at least 10 kN")?;
    told(&browser, "weakest of the known parts, at one anchor (3): sewn sling, HMPE")?;
    // From a number to its formula; what is unfolded stays so while numbers change.
    browser.click(".formulas")?;
    let unfolded = || browser.run("return document.getElementById('formulas').open;", &[]);
    same("formulas are shown", unfolded()?, json!(true))?;
    same("with their sources", browser.text("#working")?.contains("Cordage Institute"), true)?;
    browser.choose("#rope_2", "connector H")?;
    same("formulas stay", unfolded()?, json!(true))?;
    // What the trade excludes is refused, and no number is left.
    browser.choose("#rope_1_knot", "offset eight")?;
    told(&browser, "capsizes")?;
    same("no number", browser.text("#answer")?.contains("kN"), false)?;

    browser.go("1/al")?;
    browser.click(".on a")?;
    crate::wait::until("the parts are shown", || Ok(browser.fragment()?.starts_with("1/wp/F1").then_some(())))?;
    // The way on from a sheet of this screen is not a stranger's, and says where the forces are from.
    told(&browser, "EXAMPLE, CHANGED")?;
    told(&browser, "Forces taken from: How is the load shared")?;
    let tables = browser.run("return document.querySelector('.tables').textContent;", &[])?.to_string();
    for words in ["rock anchor, pulled straight out", "F4", "455.938", "Cordage Institute"] {
        same(&format!("{words} in the tables"), tables.contains(words), true)?;
    }
    same("errors", browser.errors()?, vec![])
}

/// The questions about rope and going down.
pub(crate) fn extremes_of_rope(engine: Engine) -> Outcome {
    extremes(engine, &["1/rp", "1/ab", "1/rl", "1/pd"])
}

/// The questions about water, people, slips and natural anchors; a tether and a swing ask for other things.
pub(crate) fn extremes_of_water(engine: Engine) -> Outcome {
    extremes(engine, &["1/cu", "1/cu/a2", "1/ha", "1/sl", "1/sl/a5", "1/na"])
}

/// The first numbers of some screens (the rest is asked natively, in `rigging-core/tests/any_question`): nonsense gets
/// a message and a dash, the ends of its bounds get a number or a reason, and the screen stays that of the native page.
fn extremes(engine: Engine, fragments: &[&str]) -> Outcome {
    let mut browser = Browser::open(engine)?;
    for fragment in fragments {
        let question = question(fragment)?;
        let name = question.name();
        browser.go(fragment)?;
        let mut native = Page::default();
        native.go(fragment, "", NOW);
        // The module is the same everywhere; what another engine may do differently is the box.
        let number = |field: &&Asked| field.matters && !matches!(field.about.takes, Takes::Choice(_));
        let count = if engine == Engine::Chromium { 6 } else { 2 };
        for field in question.fields().iter().filter(number).take(count) {
            let (id, least, most) = match field.about.takes {
                Takes::Choice(_) => continue,
                Takes::One { least, most } => (field.about.name.to_owned(), least, most),
                Takes::Range { least, most } => (format!("{}-high", field.about.name), least, most),
            };
            let before = browser.value(&format!("#{id}"))?;
            let unit = Units::default().of(field.about.kind);
            let ends = [least, most].map(|end| decimal(unit.from_si(end), 6));
            for typed in ["abc".to_owned()].into_iter().chain(ends).chain([before]) {
                browser.type_into(&format!("#{id}"), &typed)?;
                native.event(Event::Input, &id, &typed, NOW);
                let update = native.event(Event::Leave, &id, &typed, NOW);
                let message = update.put.first().map(|(_, html)| html.as_str()).unwrap_or_default();
                let shown = words_of(&browser, &format!("#{}-message", field.about.name))?;
                same(&format!("{name}, {id}: message for {typed}"), shown, words_in(&browser, message)?)?;
                let (_, html) = native.event(Event::Input, &id, &typed, NOW).put.swap_remove(0);
                let what = format!("{name}, {id}: answer for {typed}");
                same(&what, words_of(&browser, "#answer")?, words_in(&browser, &html)?)?;
                let dash = html.contains("—");
                same(&format!("{what} is a dash"), dash, dash && html.contains("message") || typed == "abc")?;
            }
        }
        same("errors", browser.errors()?, vec![])?;
    }
    Ok(())
}

/// From home to a confirmed answer with the keyboard alone, through the first number of a question.
pub(crate) fn keyboard(engine: Engine) -> Outcome {
    let keys = ["ln", "ab", "cu", "rp", "ha", "sl", "rl", "pd", "na"];
    for key in keys.into_iter().take(if engine == Engine::Chromium { keys.len() } else { 3 }) {
        let question = question(&format!("1/{key}"))?;
        let fields = question.fields();
        let about = fields.iter().map(|field| field.about).find(|about| !matches!(about.takes, Takes::Choice(_)));
        let about = about.ok_or("no number is asked for")?;
        let low = if matches!(about.takes, Takes::Range { .. }) { "-low" } else { "" };
        by_keys(engine, question.key(), &format!("{}{low}", about.name))?;
    }
    Ok(())
}

fn by_keys(engine: Engine, key: &str, field: &str) -> Outcome {
    let typed = "2";
    let mut browser = Browser::open(engine)?;
    let focused = "return document.activeElement.id || document.activeElement.getAttribute('href') || '';";
    let by = |browser: &Browser, keys: &[char], wanted: &str| -> Outcome {
        for _ in 0..60 {
            if browser.run(focused, &[])? == wanted {
                return Ok(());
            }
            browser.press(keys)?;
        }
        Err(format!("the keyboard does not reach {wanted}").into())
    };
    let tab_to = |browser: &Browser, wanted: &str| by(browser, &[Key::Tab.into()], wanted);
    let home = format!("1/{key}");
    tab_to(&browser, &format!("#{home}"))?;
    browser.press(&[Key::Enter.into()])?;
    crate::wait::until("the question is shown", || Ok((browser.fragment()? == home).then_some(())))?;
    tab_to(&browser, field)?;
    browser.press(&[Key::Control.into(), 'a'])?;
    for letter in typed.chars() {
        browser.press(&[letter])?;
    }
    same("focus stays while typing", browser.run(focused, &[])?, json!(field))?;
    let mut native = Page::default();
    native.go(&home, "", NOW);
    same("fragment", browser.fragment()?, native.event(Event::Input, field, typed, NOW).fragment)?;
    // The button stands before the entries.
    by(&browser, &[Key::Shift.into(), Key::Tab.into()], "mine")?;
    browser.press(&[Key::Enter.into()])?;
    same("mine", browser.text("#answer")?.contains("MINE"), true)?;
    same("focus after confirming", browser.run(focused, &[])?, json!("answer"))?;
    same("errors", browser.errors()?, vec![])
}

/// The question that a link asks.
fn question(fragment: &str) -> Outcome<Question> {
    Ok(Link::read(fragment).map_err(|broken| format!("{fragment}: {broken:?}"))?.question)
}

/// The words of what is on the screen, however it is laid out.
fn words_of(browser: &Browser, css: &str) -> Outcome<String> {
    let script = "return document.querySelector(arguments[0]).textContent.replace(/\\s+/g, ' ').trim();";
    Ok(browser.run(script, &[json!(css)])?.as_str().unwrap_or_default().to_owned())
}

/// The words of HTML that was made natively, read by the same browser.
fn words_in(browser: &Browser, html: &str) -> Outcome<String> {
    let script = "const holder = document.createElement('div'); holder.innerHTML = arguments[0];
        return holder.textContent.replace(/\\s+/g, ' ').trim();";
    Ok(browser.run(script, &[json!(html)])?.as_str().unwrap_or_default().to_owned())
}

/// The big number on the screen is the adverse end of the core's first finding, rounded against the reader by
/// less than a unit of its second figure.
fn big_number_is_the_cores(browser: &Browser, question: &Question) -> Outcome {
    let answer = question.answer()?;
    let finding = answer.findings.first().ok_or("the core found nothing")?;
    let text = browser.text("#headline")?;
    let number = text.split_whitespace().filter_map(|word| word.parse::<f64>().ok()).next();
    let unit = Units::default().of(finding.kind);
    let shown = unit.to_si(number.ok_or_else(|| format!("no number in {text:?}"))?);
    let exact = finding.adverse();
    let (word, apart) = match finding.end {
        End::High => ("up to", shown - exact),
        End::Low => (if finding.at_most { "at most" } else { "at least" }, exact - shown),
    };
    same(&format!("{text:?} begins with {word:?}"), text.starts_with(word) && text.ends_with(unit.symbol()), true)?;
    let near = (-1e-6 * exact..0.1 * exact).contains(&apart);
    if near { Ok(()) } else { Err(format!("{}: {text:?} for {exact} N", question.name()).into()) }
}
