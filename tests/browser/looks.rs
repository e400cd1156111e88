//! The page fits its window; pictures of it are kept to be looked at.

use crate::browser::Browser;
use crate::engine::{Engine, Setup};
use crate::{Outcome, page, same};

/// A narrow phone and a projector, in CSS pixels.
const WIDTHS: [u32; 2] = [360, 1280];

/// The screens by name and link.
const SCREENS: [(&str, &str); 5] =
    [("home", ""), ("anchor-legs", "1/al"), ("line", "1/ln"), ("abseil", "1/ab"), ("human-anchor", "1/ha")];

pub(crate) fn fits(engine: Engine) -> Outcome {
    for dark in [false, true] {
        let mut browser = Browser::open_with(engine, Setup { dark, ..Setup::default() }, &page::built()?)?;
        let asked = browser.run("return matchMedia('(prefers-color-scheme: dark)').matches;", &[])?;
        same("dark is asked for", asked.as_bool(), Some(dark))?;
        for (name, fragment) in SCREENS {
            browser.go(fragment)?;
            for width in WIDTHS {
                browser.screenshot(width, name)?;
                let over = browser.run("return document.documentElement.scrollWidth - window.innerWidth;", &[])?;
                same(&format!("{name}: wider than {width} by"), over.as_i64().filter(|&over| over > 0), None)?;
            }
        }
    }
    Ok(())
}
