//! The page fits its window; with `SCREENS=1` pictures of it are kept in `tests/screens`, to be looked at.

use crate::browser::Browser;
use crate::engine::{Engine, Setup};
use crate::{Outcome, page, same};

/// A narrow phone and a projector, in CSS pixels.
const WIDTHS: [u32; 2] = [360, 1280];

/// The screens by name and link.
const SCREENS: [(&str, &str); 18] = [
    ("home", ""),
    ("anchor-legs", "1/al"),
    ("six-anchors", "1/al/N6"),
    ("natural-anchor", "1/na"),
    ("block", "1/na/a1"),
    ("bend", "1/bd"),
    ("line", "1/ln"),
    ("rope", "1/rp"),
    ("abseil", "1/ab"),
    ("guided-abseil", "1/ga"),
    ("in-the-current", "1/cu"),
    ("tether", "1/cu/a2"),
    ("human-anchor", "1/ha"),
    ("slip", "1/sl"),
    ("swing", "1/sl/a5"),
    ("raise-lower", "1/rl"),
    ("pull-down", "1/pd"),
    ("weakest-part", "1/wp"),
];

/// What reaches beyond the window, innermost first.
const WIDE: &str = r#"
    return Array.from(document.querySelectorAll("body *"))
        .filter((element) => element.getBoundingClientRect().right > window.innerWidth + 0.5)
        .reverse()
        .slice(0, 3)
        .map((element) => element.outerHTML.slice(0, 200));"#;

pub(crate) fn fits(engine: Engine) -> Outcome {
    for dark in [false, true] {
        let mut browser = Browser::open_with(engine, Setup { dark, ..Setup::default() }, &page::built()?)?;
        let asked = browser.run("return matchMedia('(prefers-color-scheme: dark)').matches;", &[])?;
        same("dark is asked for", asked.as_bool(), Some(dark))?;
        // The document is the same; every third shows how another engine lays it out.
        for (name, fragment) in SCREENS.into_iter().step_by(if engine == Engine::Chromium { 1 } else { 3 }) {
            browser.go(fragment)?;
            for width in WIDTHS {
                browser.look(width, name)?;
                let over = browser.run("return document.documentElement.scrollWidth - window.innerWidth;", &[])?;
                let wide = if over.as_i64() > Some(0) { browser.run(WIDE, &[])?.to_string() } else { String::new() };
                same(&format!("{name}: what is wider than {width} by {over}"), wide, String::new())?;
            }
        }
    }
    Ok(())
}
