//! In class: a guess before every number, no standing before a limit, ten demonstrations by a presenter's keys.

use fantoccini::key::Key;
use rigging_core::quantity::Units;
use rigging_web::class::demo::Place;
use serde_json::json;

use crate::browser::Browser;
use crate::engine::Engine;
use crate::{Outcome, same, wait};

/// All that eyes, ears and a look into the page can find: elements with their attributes, what is said, the title.
const ALL: &str = "return ['first', 'app', 'paper', 'status'].map((id) => document.getElementById(id).outerHTML)
    .join(' ') + ' ' + document.title + ' ' + location.hash;";

fn everything(browser: &Browser) -> Outcome<String> {
    let all = browser.run(ALL, &[])?;
    Ok(all.as_str().unwrap_or_default().replace("&nbsp;", "\u{a0}"))
}

/// The number that is asked for at a place, as it is shown.
fn number(place: Place) -> Outcome<String> {
    let answer = place.question().ok_or("no question")?.answer()?;
    Ok(Units::default().adverse(place.found(&answer).ok_or("nothing is shown")?))
}

/// The last stop of every demonstration: the number is nowhere before the guess, and beside it afterwards.
pub(crate) fn guess_first(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    for place in Place::firsts().filter_map(|first| first.all().last()) {
        let address = place.write(Units::default());
        let number = number(place)?;
        browser.go(&address)?;
        same("asked", browser.text("#headline")?, "?".to_owned())?;
        let before = everything(&browser)?;
        for shown in [format!(">{number}"), format!(" {number}")] {
            same(&format!("{shown:?} at {address} before the guess"), before.contains(&shown), false)?;
        }
        browser.type_into("#guess", "1,5")?;
        browser.click("#guess-set")?;
        same("shown", browser.text("#headline")?.contains(&number.replace('\u{a0}', " ")), true)?;
        let told = browser.text("#answer")?;
        for words in ["Your guess 1.5", "computed", "Why:"] {
            same(&format!("{words:?} in {told:?}"), told.contains(words), true)?;
        }
        same("what is not in it", browser.text(".below")?.contains("What is not in these numbers"), true)?;
        // Looked up in the same way it is there, so that the search above can find it.
        same("found", everything(&browser)?.contains(&format!(">{number}")), true)?;
        same("errors", browser.errors()?, vec![])?;
    }
    Ok(())
}

/// No word of a standing in class before a limit is chosen; then an example is not checked.
pub(crate) fn no_standing(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    for address in ["1/al", "1/wp", "1/ha", "1/ln/l1/o90"] {
        browser.go(address)?;
        browser.click("#way-class")?;
        browser.click("#guess-show")?;
        let shown = everything(&browser)?;
        for words in ["below limit", "range crosses limit", "above limit", "class=\"standing", "class=\"against"] {
            same(&format!("{words:?} at {address}"), shown.contains(words), false)?;
        }
    }
    browser.go("1/al")?;
    browser.click("#way-class")?;
    browser.click("#guess-show")?;
    browser.click("#choose-limit")?;
    browser.choose("#limit", "screw link")?;
    same("an example stays", browser.text("#answer .standing")?.contains("not checked"), true)?;
    same("errors", browser.errors()?, vec![])
}

/// From the first stop of the first demonstration to the last of the tenth and a way back, by keys alone; a key in an
/// entry belongs to the entry.
pub(crate) fn walk(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    browser.go("demo/1/1")?;
    let arrive = |browser: &Browser, place: Place| {
        let address = place.write(Units::default());
        wait::until(&format!("{address} is shown"), || {
            let moved = browser.text("#stop")?.contains(&place.words(Units::default()).replace('\u{a0}', " "));
            Ok((browser.fragment()? == address && moved).then_some(()))
        })
    };
    let all: Vec<Place> = Place::firsts().flat_map(Place::all).collect();
    for (number, place) in all.iter().enumerate() {
        arrive(&browser, *place)?;
        // B shows the number, as the key of a remote that blanks the screen would.
        if number % 3 == 0 {
            browser.press(&['b'])?;
            wait::until("the number is shown", || Ok((browser.text("#headline")? != "?").then_some(())))?;
        }
        if number + 1 < all.len() {
            browser.press(&[if number % 2 == 0 { Key::PageDown } else { Key::Right }.into()])?;
        }
    }
    for (number, place) in all.iter().rev().skip(1).take(8).enumerate() {
        browser.press(&[if number % 2 == 0 { Key::PageUp } else { Key::Left }.into()])?;
        arrive(&browser, *place)?;
    }
    browser.go("demo/1/2")?;
    browser.click("#guess")?;
    browser.press(&[Key::Right.into()])?;
    browser.press(&[Key::PageDown.into()])?;
    browser.press(&['2'])?;
    browser.press(&[Key::Enter.into()])?;
    same("the guess is set", browser.text("#answer")?.contains("Your guess 2 kN"), true)?;
    same("still there", browser.fragment()?, "demo/1/2".to_owned())?;
    browser.reload()?;
    same("a reload asks again", browser.text("#headline")?, "?".to_owned())?;
    same("errors", browser.errors()?, vec![])
}

/// What must be in sight on a projector, and how low it ends.
const LOWEST: &str = "return ['#headline', '#stop', '.stops', '#next-stop', '.scene']
    .map((css) => [css, Math.ceil(document.querySelector(css).getBoundingClientRect().bottom)])
    .filter(([, bottom]) => bottom > window.innerHeight).map(String).join(' ');";

/// Number, picture and the input that moves are in sight at 1280 × 720 and 1920 × 1080, before and after the guess;
/// nothing is wider than the window, down to 320.
pub(crate) fn fits(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    for place in Place::firsts().filter_map(|first| first.all().last()) {
        let address = place.write(Units::default());
        browser.go(&address)?;
        browser.click("#read")?;
        for shown in [false, true] {
            if shown {
                browser.click("#guess-show")?;
            }
            for (width, height) in [(1280, 720), (1920, 1080)] {
                browser.window(width, height)?;
                browser.run("window.scrollTo(0, 0);", &[])?;
                let low = browser.run(LOWEST, &[])?;
                same(&format!("{address}: what is out of sight at {width} × {height}"), low, json!(""))?;
            }
            for width in [320, 1280] {
                browser.look(width, &format!("demo-{}-{shown}", place.number))?;
                let over = browser.run("return document.documentElement.scrollWidth - window.innerWidth;", &[])?;
                same(&format!("{address} is wider than {width}"), over.as_i64() > Some(0), false)?;
            }
        }
    }
    same("errors", browser.errors()?, vec![])
}

/// Each hand-out is one page of A4 and one of Letter, and the printer is asked once. Only Chromium says how many
/// pages there are in a way that can be read here.
pub(crate) fn hand_outs(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    for place in Place::firsts() {
        browser.go(&place.write(Units::default()))?;
        browser.run("window.prints = 0; window.print = () => { window.prints += 1; };", &[])?;
        for (number, id) in ["#handout-blank", "#handout-answers"].into_iter().enumerate() {
            browser.click(id)?;
            wait::until("it goes to the printer", || {
                Ok((browser.run("return window.prints;", &[])? == number + 1).then_some(()))
            })?;
            let shown = browser.run("return document.getElementById('paper').getBoundingClientRect().height;", &[])?;
            same("on the screen it takes no room", shown.as_f64(), Some(0.0))?;
            if engine != Engine::Chromium {
                continue;
            }
            for (width, height) in [(21.0, 29.7), (21.59, 27.94)] {
                let page = json!({ "page": { "width": width, "height": height } });
                let pdf = browser.command("print", page)?;
                let count = "return (atob(arguments[0]).match(/\\/Type\\s*\\/Page[^s]/g) || []).length;";
                same(
                    &format!("pages of {id} of {} on {height} cm", place.number),
                    browser.run(count, &[pdf])?,
                    json!(1),
                )?;
            }
        }
    }
    same("errors", browser.errors()?, vec![])
}
