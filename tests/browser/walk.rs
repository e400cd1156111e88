//! The keyboard alone, through every screen from its first to its last place.

use fantoccini::key::Key;
use serde_json::json;

use crate::browser::Browser;
use crate::engine::Engine;
use crate::tour::{all_or_few, visit};
use crate::{Outcome, same, wait};

/// Notes the order in which places get the focus, and what shows it; gives how many there are in the document.
const LISTEN: &str = r#"
    const places = Array.from(document.querySelectorAll("a[href], button, input, select, summary, textarea, [tabindex]"))
        .filter((element) => element.tabIndex >= 0 && !element.disabled && element.checkVisibility());
    window.walked = [];
    window.walking?.abort();
    window.walking = new AbortController();
    document.activeElement.blur();
    getSelection().removeAllRanges();
    // The start of the page, wherever the focus was before.
    document.body.tabIndex = -1;
    document.body.focus({ preventScroll: true });
    document.body.removeAttribute("tabindex");
    addEventListener("keyup", () => {
        const place = document.activeElement;
        const style = getComputedStyle(place);
        const shown = !document.hasFocus() || style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
        window.walked.push([places.indexOf(place), shown, place.outerHTML.slice(0, 120)]);
    }, { signal: window.walking.signal });
    return places.length;"#;

/// Which places lie under something else, or outside the window, when they have the focus.
const COVERED: &str = r#"
    window.walking.abort();
    const covered = [];
    for (const element of document.querySelectorAll("a[href], button, input, select, summary, textarea, [tabindex]")) {
        if (element.tabIndex < 0 || element.disabled || !element.checkVisibility()) {
            continue;
        }
        element.focus();
        // WebKit scrolls there later; Firefox, asked to, takes what is in a picture for the whole picture.
        if (element.getBoundingClientRect().bottom > innerHeight || element.getBoundingClientRect().top < 0) {
            element.scrollIntoView({ block: "nearest" });
        }
        const box = element.getBoundingClientRect();
        const [inset, across] = [Math.min(6, box.height / 3), [0.1, 0.5, 0.9].map((share) => box.left + share * box.width)];
        const high = Math.min(box.height, innerHeight / 2);
        const down = [box.top + inset, box.top + high - inset];
        const seen = across.flatMap((x) => down.map((y) => document.elementFromPoint(x, y)))
            .filter((there) => there && (element.contains(there) || there.contains(element) && there.closest("a, button, label, summary, svg")));
        if (seen.length < 3) {
            covered.push(`${seen.length} of 6 points of ${element.outerHTML.slice(0, 90)} at ${box.top.toFixed(0)} of ${innerHeight}, under ` +
                document.elementFromPoint(across[1], down[0])?.outerHTML.slice(0, 90));
        }
    }
    return covered;"#;

/// Every place is reached by Tab in the order of the document, shows that it has the focus, lets it go again, and is
/// not hidden behind anything, on a phone held either way.
pub(crate) fn keys_reach_everything(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    browser.window(360, 640)?;
    visit(&browser, &all_or_few(engine), |browser, _| walk(browser, engine))?;
    browser.window(640, 360)?;
    visit(&browser, &all_or_few(engine), |browser, _| nothing_is_covered(browser))
}

fn walk(browser: &Browser, engine: Engine) -> Outcome {
    // Without a window manager WebKit's window is never the active one, and nothing in it looks as if it had the focus.
    let active = browser.run("return document.hasFocus();", &[])?;
    same("the window is active", active, json!(engine != Engine::WebKit))?;
    let places = browser.run(LISTEN, &[])?;
    let count = usize::try_from(places.as_u64().ok_or("no count")?)?;
    browser.press_often(Key::Tab.into(), count)?;
    let mut walked: Vec<(i64, bool, String)> = Vec::new();
    wait::until("every place has had the focus", || {
        walked = serde_json::from_value(browser.run("return window.walked;", &[])?)?;
        Ok((walked.len() >= count).then_some(()))
    })
    .map_err(|failed| {
        let last = walked.last().map(|(_, _, html)| html.as_str()).unwrap_or("nothing");
        format!("{} of {count} places, the last {last}: {}", walked.len(), failed.message().unwrap_or_default())
    })?;
    for (expected, (place, shown, html)) in (0..).zip(&walked) {
        if *place != expected {
            return Err(format!("place {expected} should have the focus, not {place}: {html}").into());
        }
        if !shown {
            return Err(format!("nothing shows the focus of {html}").into());
        }
    }
    nothing_is_covered(browser)
}

fn nothing_is_covered(browser: &Browser) -> Outcome {
    browser.run("window.walking ??= new AbortController();", &[])?;
    let covered: Vec<String> = serde_json::from_value(browser.run(COVERED, &[json!(null)])?)?;
    if covered.is_empty() { Ok(()) } else { Err(covered.join("\n").into()) }
}
