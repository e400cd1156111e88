//! What a check does with keys and pointer arrives as a user's would.

use std::fs;

use fantoccini::key::Key;
use serde_json::json;

use crate::browser::Browser;
use crate::engine::{Engine, Setup};
use crate::{Outcome, same};

/// Two entries, a list and a button that write down what happens to them.
const PAGE: &str = r#"<!doctype html><html lang="en" data-state="ready"><meta charset="utf-8"><title>Hands</title>
<input id="span_m" inputmode="decimal" value="12.5"><input id="sag_m">
<select id="unit"><option value="kN">kN</option><option value="lbf">lbf</option></select>
<button id="mine">Mine</button><p id="said">before</p>
<script>
    window.happened = [];
    for (const kind of ["change", "click"]) {
        addEventListener(kind, ({ target }) => happened.push(`${kind} ${target.id} ${target.value}`));
    }
    addEventListener("keydown", ({ key }) => { if (key === "Enter") location.hash = '#1/pressed'; });
</script></html>"#;

pub(crate) fn arrive(engine: Engine) -> Outcome {
    let folder = tempfile::tempdir()?;
    let file = folder.path().join("hands.html");
    fs::write(&file, PAGE)?;
    let browser = Browser::open_with(engine, Setup::default(), &file)?;

    browser.type_into("#span_m", "1,5 m")?;
    same("typed", browser.value("#span_m")?, "1,5 m".to_owned())?;
    browser.press(&[Key::Shift.into(), Key::Tab.into()])?;
    browser.type_into("#span_m", "")?;
    same("emptied", browser.value("#span_m")?, String::new())?;
    browser.choose("#unit", "lbf")?;
    same("chosen", browser.value("#unit")?, "lbf".to_owned())?;
    browser.click("#mine")?;
    same("read", browser.text("#said")?, "before".to_owned())?;
    browser.press(&[Key::Enter.into()])?;
    same("fragment", browser.fragment()?, "1/pressed".to_owned())?;

    let happened = browser.run("return happened.filter((line) => !line.startsWith('click unit'));", &[])?;
    let expected = [
        "click span_m 12.5",
        "change span_m 1,5 m",
        "click span_m 1,5 m",
        "change span_m ",
        "change unit lbf",
        "click mine ",
        "click mine ",
    ];
    same("events", happened, json!(expected))
}
