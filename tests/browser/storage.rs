//! What a browser keeps: in two windows at once, and where it keeps nothing and says so by throwing.

use serde_json::json;

use crate::browser::Browser;
use crate::engine::{Engine, Setup};
use crate::{Outcome, page, same};

/// As in a browser that blocks site data, counting how often the page tried; in the place of the policy, which would
/// not let this script run.
const THROWS: &str = r#"<script>
    window.tried = 0;
    for (const name of ["localStorage", "sessionStorage", "indexedDB", "caches"]) {
        Object.defineProperty(window, name, {
            get() {
                window.tried += 1;
                throw new DOMException("The operation is insecure.", "SecurityError");
            },
        });
    }
    for (const name of ["replaceState", "pushState"]) {
        history[name] = () => {
            window.tried += 1;
            throw new DOMException("The operation is insecure.", "SecurityError");
        };
    }
</script>"#;

/// The page comes up, takes numbers, goes from question to question and changes its way without being able to keep
/// anything.
pub(crate) fn that_throws(engine: Engine) -> Outcome {
    let folder = tempfile::tempdir()?;
    let file = page::copy(folder.path(), &page::policy()?, THROWS)?;
    let mut browser = Browser::open_with(engine, Setup::default(), &file)?;
    same("state", browser.state()?.as_deref(), Some("ready"))?;
    for fragment in ["1/ha", "1/ab"] {
        browser.go(fragment)?;
        same("state of a question", browser.state()?.as_deref(), Some("ready"))?;
    }
    let before = browser.text("#headline")?;
    browser.type_into("#body_kg-high", "150")?;
    same("another number after another mass", browser.text("#headline")? == before, false)?;
    // The script's hand: on a busy machine a click of WebKit's driver may be lost, and the hands have a check.
    browser.run("document.getElementById('mine').click();", &[])?;
    same("mine", browser.text("#answer")?.contains("MINE"), true)?;
    for way in ["lip", "class", "desk"] {
        // At the lip the buttons are folded away.
        browser.run("document.getElementById(`way-${arguments[0]}`).click();", &[json!(way)])?;
        let shown = browser.run("return document.documentElement.dataset.way;", &[])?;
        same("way", shown, json!(way))?;
    }
    browser.click("a.home")?;
    crate::wait::until("home is shown", || Ok((browser.text("h1")? == "Rigging loads").then_some(())))?;
    // The link of a question holds its numbers; a plan is lost, and its reader is told before.
    browser.go("plan")?;
    let told = browser.run("return getComputedStyle(document.querySelector('.plan'), '::before').content;", &[])?;
    same("told", told, json!("\"This browser keeps nothing. Save the plan to a file before you leave.\""))?;
    let tried = browser.run("return window.tried;", &[])?;
    same("the page tried to keep something", tried.as_u64() > Some(0), true)?;
    same("state at the end", browser.state()?.as_deref(), Some("ready"))?;
    same("errors", browser.errors()?, vec![])
}

/// What another window has kept since is told before it is written over, and can be taken up; of one's own nothing is.
pub(crate) fn two_windows(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    let keyed = |words: &str| format!("[id='{words}']");
    let plan = |browser: &Browser| {
        browser.run("location.hash = 'plan';", &[])?;
        crate::wait::until("the plan is shown", || {
            Ok((browser.run("return document.getElementById('plan-head') !== null;", &[])? == true).then_some(()))
        })
    };
    // The driver lets a window say that it is worked in as it likes.
    let told = |browser: &Browser| {
        let looked = "window.dispatchEvent(new Event('focus')); return !document.getElementById('other').hidden;";
        browser.run(looked, &[])
    };
    plan(&browser)?;
    browser.click("#plan-new")?;
    browser.click(&keyed("add:drop"))?;
    same("its own is nobody else's", told(&browser)?, json!(false))?;
    let first = browser.another_window()?;
    plan(&browser)?;
    same("what was there at the start is known", told(&browser)?, json!(false))?;
    browser.click(&keyed("add:drop"))?;
    browser.type_into(&keyed("drop-2.name"), "added there")?;
    browser.switch_to(first)?;
    crate::wait::until("it is told", || Ok((told(&browser)? == true).then_some(())))?;
    // Taken up, and gone on with.
    browser.click("#take-other")?;
    crate::wait::until("the other window's drop is here", || {
        let html = browser.run("return document.getElementById('app').textContent;", &[])?;
        Ok(html.as_str().is_some_and(|html| html.contains("added there")).then_some(()))
    })?;
    same("it is told no more", told(&browser)?, json!(false))?;
    browser.click(&keyed("add:drop"))?;
    browser.type_into(&keyed("drop-3.name"), "added here")?;
    browser.reload()?;
    let kept = browser.run("return localStorage.getItem('rigging-loads');", &[])?;
    let kept = kept.as_str().unwrap_or_default();
    same("both are kept", ["added there", "added here"].map(|of| kept.contains(of)), [true; 2])?;
    // Of a question too what is kept counts, not the address.
    let line = |browser: &Browser| {
        browser.run("location.hash = '1/ln';", &[])?;
        let shown = "return document.getElementById('drop_m') !== null;";
        crate::wait::until("the line is shown", || Ok((browser.run(shown, &[])? == true).then_some(())))
    };
    line(&browser)?;
    browser.type_into("#drop_m", "0.4")?;
    let first = browser.another_window()?;
    line(&browser)?;
    browser.type_into("#drop_m", "0.7")?;
    browser.switch_to(first)?;
    crate::wait::until("it is told", || Ok((told(&browser)? == true).then_some(())))?;
    browser.click("#take-other")?;
    crate::wait::until("the other window's number is here", || {
        let hash = browser.run("return location.hash;", &[])?;
        Ok((hash == "#1/ln/d0.7").then_some(()))
    })?;
    browser.reload()?;
    same("it stays", browser.run("return document.getElementById('drop_m').value;", &[])?, json!("0.7"))?;
    same("errors", browser.errors()?, vec![])
}
