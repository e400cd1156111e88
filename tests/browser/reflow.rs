//! The page keeps its words in sight: narrow, enlarged, on its side, in forced colours, without motion.

use serde_json::{Value, json};

use crate::browser::Browser;
use crate::engine::Engine;
use crate::tour::{all_or_few, few, visit};
use crate::{Outcome, same};

/// What is wider than the window, and what cuts its own words off; [`looks`](crate::looks) has pictures of the rest.
const WIDE: &str = r#"
    const over = document.documentElement.scrollWidth - innerWidth;
    const wide = Array.from(document.querySelectorAll("body *"))
        .filter((element) => element.getBoundingClientRect().right > innerWidth + 0.5)
        .reverse();
    // One pixel is how those who only listen are told.
    const cut = Array.from(document.querySelectorAll("body *:not(select, input, svg *)"))
        .filter((element) => element.clientWidth > 1 && getComputedStyle(element).overflowX !== "visible" &&
            element.scrollWidth > element.clientWidth + 1);
    return (over > 0 ? wide : []).concat(cut).slice(0, 3).map((element) => element.outerHTML.slice(0, 200));"#;

/// What stays in sight while the page moves must leave most of it to be seen.
const STAYS: &str = r#"
    const staying = Array.from(document.querySelectorAll("body *"))
        .filter((element) => ["sticky", "fixed"].includes(getComputedStyle(element).position) && element.checkVisibility())
        .map((element) => element.getBoundingClientRect())
        // What stands beside the rest takes nothing from it.
        .filter((box) => box.width > innerWidth / 2)
        .map((box) => box.height);
    return staying.reduce((sum, height) => sum + height, 0) / innerHeight;"#;

/// Sizes in CSS pixels, and how much larger the letters are: WCAG 2.2, 1.4.10 (320 wide is 1280 at 400 %) and 1.4.4
/// (200 %); a phone on its side.
const SIZES: [(u32, u32, u32); 5] =
    [(320, 256, 100), (320, 640, 100), (640, 360, 100), (640, 800, 200), (1280, 800, 200)];

pub(crate) fn nothing_is_cut_off(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    // As when the letters of every page are set larger: all measures of the sheet that follow letters follow.
    for (width, height, letters) in SIZES {
        browser.window(width, height)?;
        browser.run("document.documentElement.style.fontSize = `${arguments[0]}%`;", &[json!(letters)])?;
        visit(&browser, &all_or_few(engine), |browser, _| {
            browser.run("for (const details of document.querySelectorAll('details')) { details.open = true; }", &[])?;
            let wide: Vec<String> = serde_json::from_value(browser.run(WIDE, &[])?)?;
            let stays = browser.run(STAYS, &[])?.as_f64().unwrap_or(f64::NAN);
            match wide.first() {
                Some(_) => Err(format!("{width} px, letters {letters} %: {}", wide.join("\n")).into()),
                None if stays <= 0.5 => Ok(()),
                None => Err(format!("{width} × {height}, letters {letters} %: {stays} of it stays").into()),
            }
        })?;
    }
    // Nor is the name of a drop, in one word.
    browser.window(360, 640)?;
    browser.run("document.documentElement.style.fontSize = '';", &[])?;
    browser.go("plan/1")?;
    browser.type_into("[id='drop-1.name']", &"Wasserfall".repeat(8))?;
    for address in ["plan", "plan/1", "plan/1/1", "plan/1/al"] {
        let before = browser.text("h1")?;
        browser.run("location.hash = arguments[0];", &[json!(address)])?;
        crate::wait::until(address, || Ok((browser.text("h1")? != before).then_some(())))?;
        browser.run("for (const details of document.querySelectorAll('details')) { details.open = true; }", &[])?;
        same(address, browser.run(WIDE, &[])?, json!([]))?;
    }
    Ok(())
}

/// What is drawn and said stands out from the ground in colours that the user has chosen: at least 3:1 and 4.5:1
/// (WCAG 2.2, 1.4.11 and 1.4.3, luminance as defined there). Grey for what is out of reach is the user's own choice.
const FORCED: &str = r##"
    if (!matchMedia("(forced-colors: active)").matches) {
        return ["colours are not forced"];
    }
    const parts = (colour) => (colour.match(/[\d.]+/g) ?? []).map(Number);
    const luminance = (colour) => {
        const [r, g, b] = parts(colour).map((part) => part / 255)
            .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
        return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const contrast = (one, other) => {
        const [a, b] = [luminance(one), luminance(other)];
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    };
    const ground = getComputedStyle(document.body).backgroundColor;
    const weak = [];
    const hold = (element, what, colour, least) => {
        const ratio = contrast(colour, ground);
        if (colour !== "none" && !(ratio >= least)) {
            weak.push(`${what} ${colour} on ${ground}: ${ratio.toFixed(2)} ${element.outerHTML.slice(0, 120)}`);
        }
    };
    for (const element of document.querySelectorAll("svg line, svg path, svg circle, svg rect, svg polygon")) {
        const style = getComputedStyle(element);
        // A stroke under its fill only keeps the fill off what it lies on.
        const drawn = style.paintOrder.startsWith("stroke") ? "fill" : "stroke";
        if (element.checkVisibility() && !element.closest("marker")) {
            hold(element, drawn, style[drawn], 3);
        }
    }
    for (const element of document.querySelectorAll("svg text")) {
        hold(element, "words", getComputedStyle(element).fill, 4.5);
    }
    const buttons = Array.from(document.querySelectorAll("[aria-pressed]"));
    const look = (pressed) => buttons.filter((button) => button.getAttribute("aria-pressed") === pressed)
        .map((button) => getComputedStyle(button)).map(({ backgroundColor, color }) => backgroundColor + color);
    if (look("true").some((one) => look("false").includes(one))) {
        weak.push("the button that is pressed looks like the others");
    }
    return weak.slice(0, 5);"##;

/// Where something moves by itself.
const MOVES: &str = r#"
    if (!matchMedia("(prefers-reduced-motion: reduce)").matches) {
        return ["less motion is not asked for"];
    }
    return Array.from(document.querySelectorAll("*")).flatMap((element) => ["", "::before", "::after"].map((part) => {
        const style = getComputedStyle(element, part || null);
        const still = style.animationName === "none" && style.scrollBehavior !== "smooth" &&
            style.transitionDuration.split(", ").every((time) => parseFloat(time) === 0);
        return still ? "" : element.outerHTML.slice(0, 120) + part;
    })).filter(Boolean).slice(0, 5);"#;

/// Only Chromium can be told by its driver what its user asks of every page; the style sheets are the same for all.
pub(crate) fn follows_what_is_asked_of_every_page(engine: Engine) -> Outcome {
    let browser = Browser::open(engine)?;
    if engine != Engine::Chromium {
        // The others are held to the rules themselves being read: a rule that an engine cannot read it drops.
        const RULES: &str = r#"
            return Array.from(document.styleSheets).flatMap(({ cssRules }) => Array.from(cssRules))
                .map(({ media }) => media?.mediaText ?? "")
                .filter((media) => /forced-colors|prefers-reduced-motion/.test(media)).sort();"#;
        // One for each sheet.
        const FORCED_COLOURS: &str = "(forced-colors: active)";
        let rules = browser.run(RULES, &[])?;
        return same("rules", rules, json!([FORCED_COLOURS, FORCED_COLOURS, "(prefers-reduced-motion: reduce)"]));
    }
    for theme in ["light", "dark"] {
        let features =
            [("forced-colors", "active"), ("prefers-reduced-motion", "reduce"), ("prefers-color-scheme", theme)];
        let features: Vec<Value> =
            features.iter().map(|(name, value)| json!({ "name": name, "value": value })).collect();
        browser.devtools("Emulation.setEmulatedMedia", json!({ "features": features }))?;
        visit(&browser, &few(), |browser, _| {
            for script in [FORCED, MOVES] {
                let wrong: Vec<String> = serde_json::from_value(browser.run(script, &[])?)?;
                if !wrong.is_empty() {
                    return Err(wrong.join("\n").into());
                }
            }
            Ok(())
        })?;
    }
    Ok(())
}
