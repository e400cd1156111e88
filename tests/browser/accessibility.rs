//! Every screen in the eyes of axe-core, which knows the success criteria of WCAG that a program can judge.

use std::env;
use std::fs;
use std::path::{Path, PathBuf};

use serde::Deserialize;
use serde_json::json;

use crate::Outcome;
use crate::browser::Browser;
use crate::engine::Engine;
use crate::tour::{all_or_few, themes, visit};

/// The narrowest screen that WCAG asks for (1.4.10), and a projector.
const WIDTHS: [u32; 2] = [320, 1280];

/// Levels A and AA of WCAG 2.0, 2.1 and 2.2; 2.2 adds no rule at level A.
const TAGS: [&str; 5] = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

/// What axe-core may leave undecided: the rule, how the element begins, and why it is right all the same.
const LEFT_TO_US: [(&str, &str, &str); 6] = [
    (
        "color-contrast",
        "<text class=\"words",
        "Words of a picture stand on paper, in an outline of paper; www/src/palette.rs works out their contrast.",
    ),
    ("color-contrast", "<th rowspan=", "A cell over several rows lies on boxes of rows that have no background."),
    ("color-contrast", "<p>→ <strong>", "The arrow before a result is in the ink of the words around it."),
    (
        "label-content-name-mismatch",
        "<button class=\"step\"",
        "A − or + is a sign, not words that are said another way.",
    ),
    ("color-contrast", "<button class=\"step\"", "The − of a button is in ink on paper, like its +, which is judged."),
    ("color-contrast", "<td rowspan=", "As before; ink on paper."),
];

const UNFOLD: &str = "for (const details of document.querySelectorAll('details')) { details.open = true; }";

const RUN: &str = r#"
    const [tags, done] = arguments;
    const tell = (results) => results.flatMap(({ id, nodes }) => nodes.map((node) => ({
        rule: id,
        place: node.target.join(" "),
        html: node.html.slice(0, 160),
        why: node.any.concat(node.all, node.none).map(({ message }) => message).join("; ").slice(0, 300),
    })));
    axe.run(document, { runOnly: { type: "tag", values: tags }, resultTypes: ["violations", "incomplete"] }).then(
        ({ violations, incomplete, passes }) => done([tell(violations), tell(incomplete), passes.length]),
        (error) => done([[{ rule: "axe", place: "", html: "", why: String(error) }], [], 1]),
    );"#;

/// One place that a rule speaks of.
#[derive(Debug, Deserialize)]
struct Found {
    rule: String,
    place: String,
    html: String,
    why: String,
}

pub(crate) fn axe(engine: Engine) -> Outcome {
    let screens = all_or_few(engine);
    let axe = fs::read_to_string(axe_core()?)?;
    themes(engine, |browser, _| {
        browser.run(&format!("{axe}\nwindow.axe = axe;"), &[])?;
        // The tables are the same below every screen, and take three times as long to judge as what is above them.
        for width in WIDTHS {
            browser.resize(width)?;
            browser.run(UNFOLD, &[])?;
            judge(browser).map_err(|failed| format!("tables: {}", failed.message().unwrap_or_default()))?;
        }
        browser.run("document.querySelector('.tables').remove();", &[])?;
        for width in WIDTHS {
            browser.resize(width)?;
            visit(browser, &screens, |browser, _| {
                browser.run(UNFOLD, &[])?;
                judge(browser).map_err(|failed| format!("{width} px: {}", failed.message().unwrap_or_default()).into())
            })?;
        }
        Ok(())
    })
}

/// A picture without words, pale words and an entry without a name are each noticed.
pub(crate) fn axe_notices(engine: Engine) -> Outcome {
    const BREAK: &str = r#"
        document.querySelector("svg[role=img]").removeAttribute("aria-label");
        document.querySelector(".about").style.color = "rgb(180, 180, 180)";
        document.querySelector(".entry label").removeAttribute("for");"#;
    let mut browser = Browser::open(engine)?;
    browser.go("1/al")?;
    browser.run(&format!("{}\nwindow.axe = axe;", fs::read_to_string(axe_core()?)?), &[])?;
    judge(&browser)?;
    browser.run(BREAK, &[])?;
    let failed = judge(&browser).err().ok_or("nothing was noticed")?;
    let words = failed.message().unwrap_or_default();
    match ["svg-img-alt", "color-contrast", "select-name"].iter().find(|rule| !words.contains(**rule)) {
        Some(rule) => Err(format!("{rule} is not in {words}").into()),
        None => Ok(()),
    }
}

/// No violation, and nothing undecided but what is [`LEFT_TO_US`].
fn judge(browser: &Browser) -> Outcome {
    let found = browser.run_async(RUN, &[json!(TAGS)])?;
    let (violations, incomplete, passed): (Vec<Found>, Vec<Found>, usize) = serde_json::from_value(found)?;
    let left = |found: &Found| {
        LEFT_TO_US.iter().any(|(rule, begins, _)| found.rule == *rule && found.html.starts_with(begins))
    };
    let undecided = incomplete.into_iter().filter(|found| !left(found));
    let wrong: Vec<String> = violations
        .into_iter()
        .chain(undecided)
        .map(|found| format!("{}: {} {} {}", found.rule, found.place, found.html, found.why))
        .collect();
    match (wrong.first(), passed) {
        (None, 1..) => Ok(()),
        (None, 0) => Err("axe-core judged nothing".into()),
        (Some(_), _) => Err(format!("{} places\n{}", wrong.len(), wrong.join("\n")).into()),
    }
}

/// Where `tests/run` puts axe-core.
fn axe_core() -> Outcome<PathBuf> {
    let target = Path::new(env!("CARGO_MANIFEST_DIR")).join("../target");
    let target = env::var_os("CARGO_TARGET_DIR").map_or(target, PathBuf::from);
    let file = target.join("tools/axe-core/axe.min.js");
    file.canonicalize().map_err(|error| format!("{}: {error}: run tests/run first", file.display()).into())
}
