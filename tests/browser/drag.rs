//! A hand in the picture: mouse, finger, a second finger, keys. The page follows as the native page does.
//!
//! The mouse is that of the driver in all three engines, the finger too in Chromium and Firefox; WebKit's driver has
//! none, so that there pointer events of kind `touch` are handed out by a script, as are, everywhere, a cancelled
//! pointer and a second finger, for which no driver has a command.

use fantoccini::actions::PointerAction;
use fantoccini::key::Key;
use rigging_web::page::{Page, Update};
use serde_json::{Value, json};

use crate::browser::Browser;
use crate::engine::{Engine, Setup};
use crate::{Outcome, page, same, wait};

/// A time for the native page; what depends on it is not compared.
const NOW: &str = "2026-01-02 03:04";
/// The master point of the anchor legs' example.
const HANDLE: &str = "handle-0-1";
const BOXES: [&str; 3] = ["down_m-low", "down_m-high", "out_m"];

/// Notes every pointer event with its place in the picture, as the shell reckons it, and gives the middle of a handle.
const BEGIN: &str = r#"
    const handle = document.getElementById(arguments[0]);
    window.scrollBy(0, handle.getBoundingClientRect().top - window.innerHeight / 2);
    window.scale = handle.ownerSVGElement.getScreenCTM().inverse();
    window.pointers = [];
    const note = (event) => pointers.push({
        kind: event.type, type: event.pointerType, id: event.pointerId,
        left: event.clientX, top: event.clientY,
        x: scale.a * event.clientX + scale.c * event.clientY + scale.e,
        y: scale.b * event.clientX + scale.d * event.clientY + scale.f,
    });
    if (!window.noting) {
        window.noting = true;
        for (const kind of ["pointerdown", "pointermove", "pointerup", "pointercancel"]) {
            document.addEventListener(kind, note, true);
        }
    }
    const box = handle.querySelector(".reach").getBoundingClientRect();
    return [Math.round(box.x + box.width / 2), Math.round(box.y + box.height / 2)];"#;

/// Hands out a pointer event.
const POINTER: &str = r#"
    const [kind, x, y, id] = arguments;
    const target = kind === "pointerdown" ? document.elementFromPoint(x, y) : document.getElementById("picture");
    target.dispatchEvent(new PointerEvent(kind, {
        bubbles: true, cancelable: true, pointerType: "touch", pointerId: id, isPrimary: id === 7, button: 0,
        clientX: x, clientY: y,
    }));"#;

#[derive(Clone, Copy, PartialEq)]
enum Hand {
    Mouse,
    Finger,
}

fn point(browser: &Browser, handle: &str) -> Outcome<(f64, f64)> {
    Ok(serde_json::from_value(browser.run(BEGIN, &[json!(handle)])?)?)
}

/// Puts a hand down, moves it or takes it away; `true` where it stays down.
fn hand(browser: &Browser, engine: Engine, hand: Hand, way: &[(f64, f64)], begins: bool, stays: bool) -> Outcome {
    if hand == Hand::Finger && engine == Engine::WebKit {
        for (number, (x, y)) in way.iter().enumerate() {
            let kind = if begins && number == 0 { "pointerdown" } else { "pointermove" };
            browser.run(POINTER, &[json!(kind), json!(x), json!(y), json!(7)])?;
        }
        let (x, y) = way.last().copied().unwrap_or_default();
        return if stays {
            Ok(())
        } else {
            browser.run(POINTER, &[json!("pointerup"), json!(x), json!(y), json!(7)]).map(drop)
        };
    }
    let mut actions = Vec::new();
    for (number, (x, y)) in way.iter().enumerate() {
        actions.push(PointerAction::MoveTo { duration: None, x: *x, y: *y });
        if begins && number == 0 {
            actions.push(PointerAction::Down { button: 0 });
        }
    }
    if !stays {
        actions.push(PointerAction::Up { button: 0 });
    }
    browser.point(hand == Hand::Finger, actions)
}

/// The last noted place of the pointer.
fn last(browser: &Browser) -> Outcome<(f64, f64)> {
    let last: Value = browser.run("return pointers[pointers.length - 1] ?? null;", &[])?;
    let number =
        |name: &str| last.get(name).and_then(Value::as_f64).ok_or_else(|| format!("no pointer was seen: {last}"));
    Ok((number("x")?, number("y")?))
}

/// The place in the picture of a pointer that has come to a place of the screen.
fn arrived(browser: &Browser, x: f64, y: f64) -> Outcome<(f64, f64)> {
    let there = "const last = pointers[pointers.length - 1];
        return Math.hypot(last.left - arguments[0], last.top - arguments[1]) < 1.5;";
    let come =
        wait::until("the pointer is there", || Ok((browser.run(there, &[json!(x), json!(y)])? == true).then_some(())));
    if come.is_err() {
        let seen = browser.run("return pointers.map(({ kind, left, top }) => [kind, left, top].join(' '));", &[])?;
        return Err(format!("the pointer did not come to {x} {y}: {seen}").into());
    }
    last(browser)
}

/// Big number and boxes come to be those of a native update.
fn follows(browser: &Browser, what: &str, native: &Update) -> Outcome {
    let html = native.put.iter().find(|(place, _)| place == "answer").map(|(_, html)| html.as_str());
    let html = html.ok_or_else(|| format!("{what}: the native page does not follow"))?;
    let script = "const holder = document.createElement('div'); holder.innerHTML = arguments[0];
        return holder.querySelector('#headline').textContent;";
    let mut expected = vec![browser.run(script, &[json!(html)])?];
    for id in BOXES {
        let text = native.values.iter().find(|(input, _)| input == id).map(|(_, text)| text.as_str());
        expected.push(json!(text));
    }
    let shown = "return [document.querySelector('#headline').textContent]
        .concat(arguments[0].map((id) => document.getElementById(id).value));";
    let shown = || browser.run(shown, &[json!(BOXES)]);
    let expected = json!(expected);
    let come = wait::until(what, || Ok((shown()? == expected).then_some(())));
    come.or_else(|_| same(what, shown()?, expected))
}

const STATUS: &str = "return document.getElementById('status').textContent;";
const PICTURE: &str = "return document.getElementById('picture').innerHTML;";

pub(crate) fn mouse(engine: Engine) -> Outcome {
    drags(engine, Hand::Mouse)
}

pub(crate) fn finger(engine: Engine) -> Outcome {
    drags(engine, Hand::Finger)
}

fn drags(engine: Engine, kind: Hand) -> Outcome {
    let mut browser = Browser::open(engine)?;
    browser.go("1/al")?;
    let mut native = Page::default();
    native.go("1/al", "", NOW);
    let (x, y) = point(&browser, HANDLE)?;
    let quiet = browser.run(STATUS, &[])?;
    let mut at = (x + 10.0, y + 22.0);
    // A finger's first few pixels count as none in Chromium: two moves.
    hand(&browser, engine, kind, &[(x, y), (x + 30.0, y + 40.0), at], true, true)?;
    let began =
        "const first = pointers.find(({ kind }) => kind === 'pointerdown'); return [first.x, first.y, first.type];";
    let (from_x, from_y, of): (f64, f64, String) = serde_json::from_value(browser.run(began, &[])?)?;
    same("kind of pointer", of.as_str(), if kind == Hand::Mouse { "mouse" } else { "touch" })?;
    native.grip(HANDLE, from_x, from_y);
    // Chromium's driver forgets a finger's moves after the first command.
    let further: &[(f64, f64)] = match (engine, kind) {
        (Engine::Chromium, Hand::Finger) => &[],
        _ => &[(17.0, 31.0), (-12.0, 44.0)],
    };
    for step in std::iter::once(None).chain(further.iter().map(Some)) {
        if let Some((right, down)) = step {
            at = (x + right, y + down);
            hand(&browser, engine, kind, &[at], false, true)?;
        }
        let (right, down) = arrived(&browser, at.0, at.1)?;
        let update = native.pull(right, down, NOW);
        follows(&browser, &format!("at {at:?}"), &update)?;
        same("quiet while dragging", browser.run(STATUS, &[])?, quiet.clone())?;
        same("the address waits", browser.fragment()?, "1/al".to_owned())?;
    }
    if (engine, kind) == (Engine::Chromium, Hand::Finger) {
        // The driver has forgotten the finger, and lifts none.
        let id = browser.run("return pointers[0].id;", &[])?;
        browser.run(POINTER, &[json!("pointerup"), json!(at.0), json!(at.1), id])?;
    } else {
        hand(&browser, engine, kind, &[at], false, false)?;
    }
    let update = native.let_go();
    follows(&browser, "let go", &update)?;
    // The browser learns of a new address a little later than the page.
    let arrived = wait::until("the address follows", || Ok((browser.fragment()? == update.fragment).then_some(())));
    if arrived.is_err() {
        let seen = browser.run("return pointers.map(({ kind, left, top }) => [kind, left, top].join(' '));", &[])?;
        return Err(format!("the address is {}, not {}: {seen}", browser.fragment()?, update.fragment).into());
    }
    same("said once", browser.run(STATUS, &[])?, json!(update.said))?;
    // The drag is over: the pointer alone moves nothing.
    let picture = browser.run(PICTURE, &[])?;
    if kind == Hand::Mouse {
        hand(&browser, engine, kind, &[(x + 40.0, y)], false, true)?;
        same("after the drag", browser.run(PICTURE, &[])?, picture)?;
    }
    same("errors", browser.errors()?, vec![])
}

pub(crate) fn interrupted(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    browser.go("1/al")?;
    let before = (browser.run(PICTURE, &[])?, browser.text("#answer")?, browser.value("#down_m-low")?);
    let now = |browser: &Browser| -> Outcome<_> {
        Ok((browser.run(PICTURE, &[])?, browser.text("#answer")?, browser.value("#down_m-low")?))
    };
    let (x, y) = point(&browser, HANDLE)?;
    let event =
        |kind: &str, x: f64, y: f64, id: u32| browser.run(POINTER, &[json!(kind), json!(x), json!(y), json!(id)]);
    let moved =
        |value: &str| wait::until("the box follows", || Ok((browser.value("#down_m-low")? != value).then_some(())));
    event("pointerdown", x, y, 7)?;
    event("pointermove", x, y + 40.0, 7)?;
    moved(&before.2)?;
    // A second finger on another handle, and elsewhere.
    let during = now(&browser)?;
    event("pointerdown", x + 5.0, y + 40.0, 8)?;
    event("pointermove", x - 70.0, y - 50.0, 8)?;
    event("pointerup", x - 70.0, y - 50.0, 8)?;
    browser.run("document.getElementById('mine').click();", &[])?;
    browser.run_async(
        "const done = arguments[0]; requestAnimationFrame(() => requestAnimationFrame(() => done(0)));",
        &[],
    )?;
    same("a second finger changes nothing", now(&browser)?, during)?;
    event("pointercancel", x, y + 40.0, 7)?;
    same("a cancelled drag is taken back", now(&browser)?, before.clone())?;
    same("the address is as it was", browser.fragment()?, "1/al".to_owned())?;
    event("pointermove", x, y + 60.0, 7)?;
    browser.run_async(
        "const done = arguments[0]; requestAnimationFrame(() => requestAnimationFrame(() => done(0)));",
        &[],
    )?;
    same("and moves nothing any more", now(&browser)?, before)?;
    same("errors", browser.errors()?, vec![])
}

pub(crate) fn keys(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    browser.go("1/al")?;
    let mut native = Page::default();
    native.go("1/al", "", NOW);
    browser.run("document.getElementById(arguments[0]).focus();", &[json!(HANDLE)])?;
    for (key, name) in
        [(Key::Down, "ArrowDown"), (Key::Down, "ArrowDown"), (Key::Right, "ArrowRight"), (Key::Up, "ArrowUp")]
    {
        browser.press(&[key.into()])?;
        let update = native.nudge(HANDLE, name, NOW);
        follows(&browser, name, &update)?;
        same("fragment", browser.fragment()?, update.fragment)?;
        let focus = browser.run("return document.activeElement.id;", &[])?;
        same("the handle keeps the focus", focus, json!(HANDLE))?;
    }
    same("errors", browser.errors()?, vec![])
}

/// What of the words of the pictures covers another word, leaves its picture, or is wider than it is taken to be.
const WORDS: &str = r#"
    const wrong = [];
    for (const picture of document.querySelectorAll("svg.scene, svg.polygon, svg.graph")) {
        const room = picture.viewBox.baseVal;
        const words = Array.from(picture.querySelectorAll("text.words")).map((word) => [word.textContent, word.getBBox()]);
        words.forEach(([text, box], place) => {
            if (box.x < 0 || box.x + box.width > room.width || box.y < 0 || box.y + box.height > room.height + 1) {
                wrong.push("out of the picture: " + text);
            }
            if (box.width > 8 * text.length + 4) {
                wrong.push("wider than thought: " + text + " " + box.width / text.length);
            }
            for (const [other, at] of words.slice(place + 1)) {
                const across = Math.min(box.x + box.width, at.x + at.width) - Math.max(box.x, at.x);
                const down = Math.min(box.y + box.height, at.y + at.height) - Math.max(box.y, at.y);
                // A line of letters is drawn lower than its box is high: under 2 no letter touches another.
                if (across > 0 && down > 2) {
                    wrong.push("one over the other: " + text + " | " + other);
                }
            }
        });
        for (const reach of picture.querySelectorAll(".reach")) {
            const box = reach.getBoundingClientRect();
            if (box.width < 48 || box.height < 48) {
                wrong.push("small target: " + reach.parentNode.getAttribute("aria-label") + " " + box.width);
            }
        }
    }
    return wrong;"#;

pub(crate) fn words(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    for question in rigging_core::question::Question::all() {
        browser.go(&format!("1/{}", question.key()))?;
        // WebKit's window does not get narrower.
        for width in if engine == Engine::WebKit { vec![360] } else { vec![360, 320] } {
            browser.resize(width)?;
            same(&format!("{} at {width}", question.name()), browser.run(WORDS, &[])?, json!([]))?;
        }
    }
    Ok(())
}

/// Slides to so many places, and lets go.
const SLIDES: &str = r#"
    const [id, places] = arguments;
    const slider = document.getElementById(id);
    const [low, high] = [Number(slider.min), Number(slider.max)];
    for (let place = 1; place <= places; place += 1) {
        slider.value = low + 0.5 * (high - low) * place / places;
        slider.dispatchEvent(new InputEvent("input", { bubbles: true }));
    }
    slider.dispatchEvent(new Event("change", { bubbles: true }));"#;

/// However far a slider went, the page opened anew shows what it showed where the slider was let go of; browsers drop
/// addresses, or refuse them, where too many come at once.
pub(crate) fn slides(engine: Engine) -> Outcome {
    let mut browser = Browser::open_with(engine, Setup { hurried: false, ..Setup::default() }, &page::built()?)?;
    browser.go("1/al")?;
    browser.run(SLIDES, &[json!("slide:down_m"), json!(250)])?;
    same("errors while it slides", browser.errors()?, vec![])?;
    same("state", browser.state()?.as_deref(), Some("ready"))?;
    let shown =
        wait::until("the answer shows", || Ok(Some(browser.text("#answer")?).filter(|shown| !shown.is_empty())))?;
    browser.reload()?;
    same("after opening it anew", browser.text("#answer")?, shown)?;
    same("errors", browser.errors()?, vec![])
}

/// Drags through so many frames.
const FRAMES: &str = r#"
    const [id, frames, done] = arguments;
    const box = document.getElementById(id).querySelector(".reach").getBoundingClientRect();
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const send = (kind, x, y) => document.getElementById(kind === "pointerdown" ? id : "picture").dispatchEvent(
        new PointerEvent(kind, { bubbles: true, pointerType: "touch", pointerId: 7, button: 0, clientX: x, clientY: y }));
    send("pointerdown", x, y);
    let left = frames;
    const next = () => {
        left -= 1;
        if (left < 0) {
            send("pointercancel", x, y);
            done(null);
        } else {
            send("pointermove", x + 3 * (left % 7) - 9, y + 2 * (left % 5));
            requestAnimationFrame(next);
        }
    };
    requestAnimationFrame(next);"#;

/// Measures what a frame of a drag takes of the processor: the machine is shared, so that no clock on the wall will do.
/// Printed; the check fails only where it is far too slow.
pub(crate) fn frames(engine: Engine) -> Outcome {
    if engine != Engine::Chromium {
        // Only its driver tells.
        return Ok(());
    }
    const COUNT: u32 = 60;
    /// Of the processor for each frame, ms.
    const GOAL: f64 = 16.0;
    let mut browser = Browser::open(engine)?;
    let tell = |browser: &Browser, command: &str, params: Value| {
        browser.command("goog/cdp/execute", json!({ "cmd": command, "params": params }))
    };
    tell(&browser, "Performance.enable", json!({ "timeDomain": "threadTicks" }))?;
    let all = |browser: &Browser| -> Outcome<[f64; 4]> {
        let told = tell(browser, "Performance.getMetrics", json!({}))?;
        let of = |name: &str| {
            let metrics = told.get("metrics").and_then(Value::as_array).into_iter().flatten();
            metrics
                .filter(|metric| metric.get("name").is_some_and(|it| it == name))
                .filter_map(|metric| metric.get("value").and_then(Value::as_f64))
                .sum()
        };
        Ok(["TaskDuration", "ScriptDuration", "LayoutDuration", "RecalcStyleDuration"].map(of))
    };
    let pictures = [("1/al", "handle-0-1"), ("1/ln", "handle-0-0"), ("1/cu", "handle-0-1"), ("1/bd", "handle-0-1")];
    for (fragment, handle) in pictures {
        browser.go(fragment)?;
        let before = all(&browser)?;
        browser.run_async(FRAMES, &[json!(handle), json!(COUNT)])?;
        let after = all(&browser)?;
        let mut each = before;
        for (taken, after) in each.iter_mut().zip(after) {
            *taken = 1000.0 * (after - *taken) / f64::from(COUNT);
        }
        let [all, script, layout, style] = each;
        println!(
            "{fragment}: a drag frame takes {all:.1} ms, goal {GOAL} ms, ratio {:.2}: script {script:.1}, layout \
             {layout:.1}, style {style:.1}",
            all / GOAL
        );
        same(&format!("{fragment}: {all} ms a frame is far too slow"), all > 100.0, false)?;
        same("errors", browser.errors()?, vec![])?;
    }
    Ok(())
}
