//! At the lip, on a narrow phone: the answer stays in sight, and one touch anywhere changes no number.

use serde_json::json;

use crate::browser::Browser;
use crate::engine::Engine;
use crate::{Outcome, same};

/// Opens a question at the lip on a phone of 360 × 640.
fn at_the_lip(browser: &mut Browser, key: &str) -> Outcome {
    browser.go(&format!("1/{key}"))?;
    browser.click("#read")?;
    browser.click("#way-lip")?;
    same("way", browser.run("return document.documentElement.dataset.way;", &[])?, json!("lip"))
}

/// Whatever entry is open, the big number is in sight, and the entry is not behind it.
pub(crate) fn answer_in_sight(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    for question in rigging_core::question::Question::all() {
        at_the_lip(&mut browser, question.key())?;
        browser.window(360, 640)?;
        const OPENED: &str = "const wrong = [];
            for (const entry of document.querySelectorAll('details.entry:not([hidden])')) {
                entry.firstElementChild.click();
                if (!entry.open) { wrong.push(entry.id + ' does not open'); }
                entry.firstElementChild.focus();
                entry.scrollIntoView();
                const number = document.getElementById('headline').getBoundingClientRect();
                const box = document.querySelector('#answer > div').getBoundingClientRect();
                const summary = entry.firstElementChild.getBoundingClientRect();
                const inside = number.top >= 0 && number.bottom <= innerHeight;
                if (!inside) { wrong.push(entry.id + ' hides the number'); }
                if (summary.top < box.bottom - 1 && summary.bottom > box.top) { wrong.push(entry.id + ' is behind it'); }
                if (box.height > 0.45 * innerHeight) { wrong.push('the answer takes ' + box.height); }
            }
            return wrong;";
        let wrong: Vec<String> = serde_json::from_value(browser.run(OPENED, &[])?)?;
        same(question.name(), wrong, vec![])?;
    }
    same("errors", browser.errors()?, vec![])
}

/// Each thing that can be touched is touched once: no number changes, and nothing becomes the user's own.
pub(crate) fn one_touch_changes_nothing(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    for key in ["ln", "cu", "ha", "al"] {
        at_the_lip(&mut browser, key)?;
        let count = "return document.querySelectorAll('button, summary, a[href], select, input').length;";
        let count = browser.run(count, &[])?.as_u64().ok_or("nothing to touch")?;
        same("there is much to touch", count > 30, true)?;
        let before = browser.fragment()?;
        for place in 0..count {
            // What lies folded cannot be touched by a drop, and where a link leads the numbers are kept.
            const TOUCH: &str = "const all = document.querySelectorAll('button, summary, a[href], select, input');
                const one = all[arguments[0]];
                if (!one || !one.checkVisibility() || one.tagName === 'A') { return null; }
                one.click();
                const answer = document.getElementById('answer').textContent;
                const opened = one.tagName === 'SUMMARY' ? one.parentElement : null;
                const told = [one.id || one.textContent, answer];
                if (opened) { opened.open = false; }
                const no = document.getElementById('not-sure');
                if (no) { no.click(); }
                return told;";
            let told = browser.run(TOUCH, &[json!(place)])?;
            let Ok((what, answer)) = serde_json::from_value::<(String, String)>(told) else { continue };
            same(&format!("numbers after {what}"), browser.fragment()?, before.clone())?;
            same(&format!("an example after {what}"), answer.contains("EXAMPLE, not your rig"), true)?;
        }
    }
    same("errors", browser.errors()?, vec![])
}
