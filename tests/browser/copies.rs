//! Copies of the page that a user makes: with the button, and with the browser's own "save as".

use std::fs;

use serde_json::json;

use crate::browser::Browser;
use crate::engine::{Engine, Setup};
use crate::{Outcome, page, same, wait};

/// Presses the button, and keeps what it would hand out instead of a file on the disk.
const KEEP: &str = r#"
    const done = arguments[0];
    const make = URL.createObjectURL;
    URL.createObjectURL = (blob) => { blob.text().then(done); return make.call(URL, blob); };
    addEventListener("click", (event) => {
        if (event.target.tagName === "A") { event.preventDefault(); window.asked = event.target.download; }
    }, true);
    document.getElementById("keep").click();"#;

/// The file that the page hands out.
fn handed_out(browser: &Browser) -> Outcome<String> {
    Ok(browser.run_async(KEEP, &[])?.as_str().unwrap_or_default().to_owned())
}

pub(crate) fn button_gives_the_file(engine: Engine) -> Outcome {
    let built = fs::read_to_string(page::built()?)?;
    let mut browser = Browser::open(engine)?;
    // What was done before leaves no trace in it.
    browser.go("1/ln/a6_7")?;
    browser.click("#mine")?;
    browser.click("a.home")?;
    let home = browser.text(".questions")?;
    let kept = handed_out(&browser)?;
    same("errors", browser.errors()?, vec![])?;
    for part in ["<script", "<style>", "http-equiv"] {
        let line =
            |text: &str| text.split_once(part).map(|(_, rest)| rest.split("</").next().unwrap_or_default().len());
        same(part, line(&kept), line(&built))?;
    }
    let still =
        |text: &str| text.split_once("<div id=\"app\" tabindex=\"-1\">").map(|(_, rest)| rest.starts_with("</div>"));
    same("the place of the screen is empty", still(&kept), Some(true))?;

    let folder = tempfile::tempdir()?;
    let file = folder.path().join("kept.html");
    fs::write(&file, &kept)?;
    let mut again = Browser::open_with(engine, Setup::default(), &file)?;
    same("state", again.state()?.as_deref(), Some("ready"))?;
    same("home", again.text(".questions")?, home.replace(" Your numbers are kept.", ""))?;
    same("what it hands out", handed_out(&again)? == kept, true)?;
    same("errors", again.errors()?, vec![])
}

pub(crate) fn saved_copy_is_the_same_page(engine: Engine) -> Outcome {
    const SAVED: &str = "return '<!doctype html>' + document.documentElement.outerHTML;";
    let folder = tempfile::tempdir()?;
    let mut file = page::built()?;
    let mut first = None;
    for time in ["saved once", "saved twice"] {
        let mut browser = Browser::open_with(engine, Setup::default(), &file)?;
        browser.go("1/ln/a6_7")?;
        same("state", browser.state()?.as_deref(), Some("ready"))?;
        let shown = browser.text("body")?;
        same(time, shown == *first.get_or_insert_with(|| shown.clone()), true)?;
        // Those of the file, and those that come packed with the module.
        same(time, browser.run("return document.querySelectorAll('style, script').length;", &[])?, json!(5))?;
        same("errors", browser.errors()?, vec![])?;
        file = folder.path().join(format!("{time}.html"));
        fs::write(&file, browser.run(SAVED, &[])?.as_str().unwrap_or_default())?;
    }
    let mut browser = Browser::open_with(engine, Setup::default(), &file)?;
    browser.go("1/ln/a6_7")?;
    same("saved twice", Some(browser.text("body")?), first)?;
    // Before it has come up anew, nothing of the old run is on it.
    let old = Browser::open_with(engine, Setup { scripts: false, ..Setup::default() }, &file)?;
    same(
        "old numbers where no script runs",
        old.run("return document.querySelector('#app').checkVisibility();", &[])?,
        json!(false),
    )?;
    wait::until("the tables are there", || Ok(old.text("#still")?.contains("120°").then_some(())))
}
