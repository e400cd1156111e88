//! What is touched is large enough for a cold thumb, and far enough from its neighbour.

use rigging_web::way::Way;
use serde_json::json;

use crate::Outcome;
use crate::browser::Browser;
use crate::engine::Engine;
use crate::tour::{all_or_few, visit};

/// A small phone, a usual one, a projector, in CSS pixels.
const WIDTHS: [u32; 3] = [320, 360, 1280];

/// Least side of a target, of one used at the lip, and least room between two.
const SIDE: u32 = 48;
const SIDE_AT_THE_LIP: u32 = 56;
const APART: u32 = 8;

/// What is too small or too near. A link inside a sentence is left out, as in WCAG 2.2, 2.5.8 ("inline"): its size is
/// that of the words around it, and each such link is also reached from the list of questions. Handles inside a
/// picture lie where the rig puts them, and have twins.
const MEASURE: &str = r#"
    const [side, apart] = arguments;
    const inSentence = (element) => element.matches("a") && getComputedStyle(element).display === "inline" &&
        Array.from(element.parentNode.childNodes)
            .some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim().length > 1);
    const targets = Array.from(document.querySelectorAll("a, button, input, select, summary, textarea"))
        .filter((element) => element.checkVisibility() && !inSentence(element) && !element.closest("svg"))
        .map((element) => [element, element.getBoundingClientRect()]);
    const name = (element) => element.outerHTML.slice(0, 120);
    const wrong = [];
    targets.forEach(([one, a], at) => {
        if (Math.min(a.width, a.height) < side - 0.1) {
            wrong.push(`${a.width.toFixed(1)} × ${a.height.toFixed(1)}: ${name(one)}`);
        }
        targets.slice(at + 1).forEach(([other, b]) => {
            const across = Math.max(b.left - a.right, a.left - b.right);
            const down = Math.max(b.top - a.bottom, a.top - b.bottom);
            if (Math.max(across, down) < apart - 0.1) {
                wrong.push(`${Math.max(across, down).toFixed(1)} apart: ${name(one)} and ${name(other)}`);
            }
        });
    });
    return [targets.length, wrong];"#;

pub(crate) fn large_and_apart(engine: Engine) -> Outcome {
    let screens = all_or_few(engine);
    let mut browser = Browser::open(engine)?;
    for width in WIDTHS {
        browser.resize(width)?;
        visit(&browser, &screens, |browser, screen| {
            let side = if screen.way == Way::Lip { SIDE_AT_THE_LIP } else { SIDE };
            let measured = browser.run(MEASURE, &[json!(side), json!(APART)])?;
            let (count, wrong): (usize, Vec<String>) = serde_json::from_value(measured)?;
            match (count, wrong.first()) {
                (3.., None) => Ok(()),
                (_, None) => Err(format!("only {count} targets at {width} px").into()),
                (_, Some(_)) => Err(format!("{width} px:\n{}", wrong.join("\n")).into()),
            }
        })?;
    }
    Ok(())
}

/// A picture is told in a sentence, and a number is part of it; what has no words is hidden from those who listen.
const UNTOLD: &str = r#"
    const bad = Array.from(document.querySelectorAll("svg:not([role=group]), [role=img]")).filter((svg) => {
        const words = svg.getAttribute("aria-label") ?? "";
        const sentence = /^[A-Z0-9“].*\d.*\.$/s.test(words);
        // Before the guess of a class its numbers are hidden on purpose.
        const hidden = words.endsWith("without forces.");
        return svg.getAttribute("role") === "img" ? !sentence && !hidden : svg.getAttribute("aria-hidden") !== "true";
    });
    return bad.map((svg) => `${svg.getAttribute("class")}: ${svg.getAttribute("aria-label")}`);"#;

pub(crate) fn pictures_are_told(engine: Engine) -> Outcome {
    let browser = Browser::open(engine)?;
    visit(&browser, &all_or_few(engine), |browser, _| {
        let untold: Vec<String> = serde_json::from_value(browser.run(UNTOLD, &[])?)?;
        if untold.is_empty() { Ok(()) } else { Err(untold.join("\n").into()) }
    })
}
