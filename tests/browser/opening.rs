//! The page comes up, alone, or says why it does not.

use serde_json::json;

use crate::browser::Browser;
use crate::engine::{Engine, Setup};
use crate::{Outcome, page, same, wait};

pub(crate) fn ready(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    same("state", browser.state()?.as_deref(), Some("ready"))?;
    same("errors", browser.errors()?, vec![])
}

pub(crate) fn errors_are_noticed(engine: Engine) -> Outcome {
    let folder = tempfile::tempdir()?;
    let broken = r#"<script>console.error("written while opening"); throw new Error("thrown while opening");</script>"#;
    let file = page::copy(folder.path(), &page::policy()?, broken)?;
    let opening = ["written while opening", "thrown while opening"];
    wait::until("the errors of opening have come", || {
        // On a busy machine WebKit may not come so far in the time that it is given.
        let errors = Browser::open_with(engine, Setup::default(), &file)?.errors()?;
        Ok(contains(&errors, &opening).ok())
    })?;

    let mut browser = Browser::open(engine)?;
    browser.run(
        r#"setTimeout(() => { throw new Error("thrown later"); });
        Promise.reject(new Error("rejected later"));
        console.error("written later");
        const style = document.createElement("style");
        style.textContent = "p { color: red }";
        document.head.append(style);"#,
        &[],
    )?;
    let mut errors = Vec::new();
    // WebKit hides the words of an error that a driver's script throws.
    let thrown = if engine == Engine::WebKit { "Script error" } else { "thrown later" };
    let later = [thrown, "rejected later", "written later", "style-src"];
    let come = wait::until("the errors have come", || {
        errors.extend(browser.errors()?);
        Ok(contains(&errors, &later).ok())
    });
    come.or_else(|_| contains(&errors, &later))
}

/// Each text is in one of the errors.
fn contains(errors: &[String], texts: &[&str]) -> Outcome {
    match texts.iter().find(|text| !errors.iter().any(|error| error.contains(**text))) {
        Some(text) => Err(format!("{text:?} is not among {errors:?}").into()),
        None => Ok(()),
    }
}

pub(crate) fn without_scripts(engine: Engine) -> Outcome {
    let browser = Browser::open_with(engine, Setup { scripts: false, ..Setup::default() }, &page::built()?)?;
    same("state", browser.state()?, None)?;
    still_content_is_shown(&browser)
}

pub(crate) fn without_wasm(engine: Engine) -> Outcome {
    let mut browser = Browser::open_with(engine, Setup { wasm: false, ..Setup::default() }, &page::built()?)?;
    same("state", browser.state()?.as_deref(), Some("no-wasm"))?;
    same("says so", browser.text("#status")?.contains("WebAssembly"), true)?;
    still_content_is_shown(&browser)?;
    same("errors", browser.errors()?, vec![])
}

/// The scripts that come with the module are no others than those that the policy names.
pub(crate) fn changed_scripts(engine: Engine) -> Outcome {
    let folder = tempfile::tempdir()?;
    let policy = page::policy()?;
    let packed = policy.split(' ').filter(|word| word.starts_with("'sha256-")).nth(1).ok_or("one script is named")?;
    let file = page::copy(folder.path(), &format!("{packed} "), "")?;
    let mut browser = Browser::open_with(engine, Setup::default(), &file)?;
    wait::until("it says so", || Ok((browser.state()?.as_deref() == Some("failed")).then_some(())))?;
    same("says so", browser.text("#status")?.contains("could not start"), true)?;
    still_content_is_shown(&browser)?;
    same("an error", browser.errors()?.is_empty(), false)
}

pub(crate) fn old_browser(engine: Engine) -> Outcome {
    let folder = tempfile::tempdir()?;
    let file = page::copy(folder.path(), &page::policy()?, "<script>delete window.DecompressionStream;</script>")?;
    let mut browser = Browser::open_with(engine, Setup::default(), &file)?;
    same("state", browser.state()?.as_deref(), Some("ready"))?;
    same("errors", browser.errors()?, vec![])
}

/// A module that stops inside WebAssembly is said to have stopped, and another one goes on with what was typed; a second
/// stop leaves no number in sight.
pub(crate) fn stopped_module(engine: Engine) -> Outcome {
    let folder = tempfile::tempdir()?;
    // As it stands among the packed scripts, without the spaces that only a reader needs.
    let call = "take(page.input(target.id,target.value,now()));";
    // The page of the module is said to lie beyond all of its memory: the first look at it is a trap.
    let stops = format!(
        "if (target.value === '13') {{ target.value = '3'; page.__wbg_ptr = -16; }}
        try {{ {call} }} catch (error) {{ window.trapped = error instanceof WebAssembly.RuntimeError; throw error; }}"
    );
    let trapped = |browser: &Browser| {
        let inside = browser.run("return [window.trapped, window.trapped = null];", &[])?;
        same("it stopped inside WebAssembly", inside, json!([true, null]))
    };
    let unpacked = "decode(bytes.subarray(0,end))";
    let swapped = format!("{unpacked}.replace({}, function () {{ return {}; }})", json!(call), json!(stops));
    let file = page::copy(folder.path(), unpacked, &swapped)?;
    let text = std::fs::read_to_string(&file)?;
    std::fs::write(&file, text.replace(&page::policy()?, ""))?;
    let mut browser = Browser::open_with(engine, Setup::default(), &file)?;
    browser.go("1/ln")?;
    browser.type_into("#drop_m", "abc")?;
    browser.type_into("#span_m-low", "7")?;
    let answer = browser.text("#entries")?;
    same("an entry cannot be used", answer.contains("cannot be used"), true)?;
    browser.type_into("#span_m-high", "13")?;
    wait::until(
        "the module is started again",
        || Ok((browser.state()?.as_deref() == Some("restarted")).then_some(())),
    )?;
    trapped(&browser)?;
    same("says so", browser.text("#status")?.contains("was started again"), true)?;
    for (entry, typed) in [("#drop_m", "abc"), ("#span_m-low", "7"), ("#span_m-high", "3")] {
        same(entry, browser.value(entry)?, typed.to_owned())?;
    }
    same("dash", browser.text("#answer")?.contains('—'), true)?;
    browser.type_into("#drop_m", "0.2")?;
    browser.type_into("#span_m-high", "8")?;
    same("goes on", browser.text("#headline")?.contains("kN"), true)?;
    browser.errors()?;
    browser.type_into("#span_m-high", "13")?;
    wait::until("it has stopped", || Ok((browser.state()?.as_deref() == Some("failed")).then_some(())))?;
    trapped(&browser)?;
    same("says so", browser.text("#status")?.contains("The calculator stopped"), true)?;
    let hidden = "return !document.getElementById('answer').checkVisibility();";
    same("no number in sight", browser.run(hidden, &[])?, json!(true))?;
    same("still typed", browser.value("#span_m-low")?, "7".to_owned())?;
    browser.errors()?;

    // The plan comes back too, and what cannot be used in it.
    browser.go("plan/2")?;
    browser.type_into("[id='drop-2.height_m-high']", "twelve")?;
    browser.type_into("[id='drop-2.name']", "mine")?;
    browser.type_into("[id='drop-2.set_back_m']", "13")?;
    wait::until(
        "the module is started again",
        || Ok((browser.state()?.as_deref() == Some("restarted")).then_some(())),
    )?;
    trapped(&browser)?;
    let typed = [("height_m-high", "twelve"), ("name", "mine"), ("set_back_m", "3")];
    for (name, text) in typed {
        same(name, browser.value(&format!("[id='drop-2.{name}']"))?, text.to_owned())?;
    }
    browser.errors()?;
    browser.reload()?;
    for (name, text) in typed {
        same("after a reload", browser.value(&format!("[id='drop-2.{name}']"))?, text.to_owned())?;
    }
    same("says so", browser.text("#entries")?.contains("“twelve” cannot be used"), true)?;
    browser.errors().map(drop)
}

/// The element that holds the still content has all of its words, and has them in sight.
fn still_content_is_shown(browser: &Browser) -> Outcome {
    const WORDS: &str = r#"
        const holder = document.createElement("div");
        holder.innerHTML = arguments[0];
        const app = document.getElementById("still");
        const tidy = (element) => element.textContent.trim().replace(/\s+/g, " ");
        return [tidy(holder), tidy(app), app.checkVisibility()];"#;
    let words = browser.run(WORDS, &[json!(rigging_web::still_page())])?;
    let (expected, got, visible): (String, String, bool) = serde_json::from_value(words)?;
    same("is there any still content", expected.is_empty(), false)?;
    same("still content", got, expected)?;
    same("visible", visible, true)
}

pub(crate) fn link(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    same("fragment at home", browser.fragment()?, String::new())?;
    let home = browser.text("body")?;
    browser.reload()?;
    same("state", browser.state()?.as_deref(), Some("ready"))?;
    same("page after a reload", browser.text("body")?, home)
}
