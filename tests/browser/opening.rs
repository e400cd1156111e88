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

pub(crate) fn old_browser(engine: Engine) -> Outcome {
    let folder = tempfile::tempdir()?;
    let file = page::copy(folder.path(), &page::policy()?, "<script>delete window.DecompressionStream;</script>")?;
    let mut browser = Browser::open_with(engine, Setup::default(), &file)?;
    same("state", browser.state()?.as_deref(), Some("ready"))?;
    same("errors", browser.errors()?, vec![])
}

/// The element that holds the still content has all of its words, and has them in sight.
fn still_content_is_shown(browser: &Browser) -> Outcome {
    const WORDS: &str = r#"
        const holder = document.createElement("div");
        holder.innerHTML = arguments[0];
        const app = document.getElementById("app");
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
