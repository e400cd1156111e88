//! How long one waits on a phone: Chromium made four times as slow as the machine it runs on.
//!
//! The machine is shared and of no known speed, so that coming up fails only above twice its goal, and later by as much
//! as the machine takes longer over a fixed piece of work. What was measured is printed beside the goal.

use rigging_core::question::{Question, Takes};
use serde::Deserialize;
use serde_json::json;

use crate::Outcome;
use crate::browser::Browser;
use crate::engine::Engine;

const SLOWER: u32 = 4;
/// From the opening of the file until the first screen is painted, in milliseconds.
const READY: f64 = 1000.0;
/// From a change of an entry until everything is in place: half of them, and all.
const FRAME: f64 = 16.0;
const WORST_FRAME: f64 = 50.0;
/// Share of the window that moves by itself while the page comes up: the measure of "layout shift".
const SHIFT: f64 = 0.1;
/// What the neighbours of a shared machine may cost.
const NOISE: f64 = 2.0;
/// Openings of the page: the least disturbed counts, and who still misses the limit is given more of them.
const OPENINGS: usize = 3;
const MOST_OPENINGS: usize = 9;

/// A fixed piece of work; gives how long it took, in milliseconds, and what came out, so that it is not left out.
const YARDSTICK: &str = r#"
    const start = performance.now();
    let bits = 1;
    for (let turn = 0; turn < 2e7; turn += 1) { bits ^= bits << 13; bits ^= bits >>> 17; bits ^= bits << 5; }
    return [performance.now() - start, bits];"#;
/// What it takes, in milliseconds, on the quiet machine that the limits were set on.
const QUIET: f64 = 150.0;

/// Notes, from before the page's own script, when each part of coming up has ended.
const WATCH: &str = r#"
    window.times = { shift: 0 };
    const first = (name) => { window.times[name] ??= performance.now(); };
    const wrap = (holder, name, before, after) => {
        const work = holder[name];
        holder[name] = function (...all) {
            first(before);
            const result = work.apply(this, all);
            if (after) { Promise.resolve(result).then(() => first(after)); }
            return result;
        };
    };
    wrap(document, "getElementById", "read");
    wrap(WebAssembly, "instantiate", "unpacked", "compiled");
    new PerformanceObserver((list) => {
        for (const entry of list.getEntries()) { window.times.shift += entry.hadRecentInput ? 0 : entry.value; }
    }).observe({ type: "layout-shift", buffered: true });
    new MutationObserver((_, observer) => {
        if (document.documentElement?.dataset.state) {
            observer.disconnect();
            first("rendered");
            requestAnimationFrame(() => setTimeout(() => first("painted")));
        }
    }).observe(document, { subtree: true, attributes: true, attributeFilter: ["data-state"] });"#;

/// When each part of coming up had ended, in milliseconds from the start, and how much moved.
#[derive(Debug, Clone, Copy, Deserialize)]
struct Times {
    read: f64,
    unpacked: f64,
    compiled: f64,
    rendered: f64,
    painted: f64,
    shift: f64,
}

/// Changes an entry again and again, up and down by a hundredth as a hand that drags would, and lays the page out
/// each time; gives how long each took, and how much of it the module and the layout took.
const DRAG: &str = r#"
    const [id, least, most] = arguments;
    const entry = document.getElementById(id);
    const start = parseFloat(entry.value);
    const times = [];
    // The module has answered when the shell first looks for a place to put something.
    let answered = 0;
    const find = document.getElementById;
    document.getElementById = function (name) {
        answered ||= performance.now();
        return find.call(this, name);
    };
    for (let frame = 0; frame < 24; frame += 1) {
        const moved = start * (1 + 0.01 * ((frame % 5) - 2)) || 0.01 * frame;
        entry.value = Math.min(most, Math.max(least, moved)).toFixed(4);
        answered = 0;
        const before = performance.now();
        entry.dispatchEvent(new Event("input", { bubbles: true }));
        const put = performance.now();
        document.body.getBoundingClientRect();
        const after = performance.now();
        times.push([after - before, answered - before, after - put]);
    }
    document.getElementById = find;
    return times;"#;

pub(crate) fn within_budget(engine: Engine) -> Outcome {
    if engine != Engine::Chromium {
        // The others cannot be slowed down by their drivers.
        return Ok(());
    }
    let mut browser = Browser::open(engine)?;
    browser.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": WATCH }))?;
    browser.window(360, 640)?;
    browser.devtools("Emulation.setCPUThrottlingRate", json!({ "rate": SLOWER }))?;
    let mut missed = Vec::new();
    let mut tell = |what: &str, got: f64, goal: f64, fail: f64| {
        println!("{what}: {got:.2}, goal {goal}, ratio {:.2}", got / goal);
        if got > fail {
            missed.push(format!("{what}: {got:.2} is more than {fail}"));
        }
    };

    for fragment in ["", "1/ga"] {
        // Nothing is kept between two openings.
        let mut best: Option<Times> = None;
        let mut quietest = f64::INFINITY;
        let mut limit = NOISE * READY;
        for opening in 0..MOST_OPENINGS {
            if opening >= OPENINGS && best.is_some_and(|best| best.painted <= limit) {
                break;
            }
            browser.go(fragment)?;
            let ready = || Ok(serde_json::from_value::<Times>(browser.run("return window.times;", &[])?).ok());
            let times = crate::wait::until("the page is painted", ready)?;
            best = Some(best.filter(|best| best.painted <= times.painted).unwrap_or(times));
            let (took, _): (f64, f64) = serde_json::from_value(browser.run(YARDSTICK, &[])?)?;
            quietest = quietest.min(took);
            limit = NOISE * READY * (quietest / QUIET).max(1.0);
        }
        let best = best.ok_or("nothing was measured")?;
        println!("{fragment:?}: the yardstick took {quietest:.0} ms, {:.2} of a quiet machine's", quietest / QUIET);
        println!(
            "{fragment:?}: file read {:.0} ms, unpacked {:.0}, compiled {:.0}, rendered {:.0}, painted {:.0}",
            best.read,
            best.unpacked - best.read,
            best.compiled - best.unpacked,
            best.rendered - best.compiled,
            best.painted - best.rendered,
        );
        tell(&format!("ready {fragment:?} (ms)"), best.painted, READY, limit);
        tell(&format!("layout shift {fragment:?}"), best.shift, SHIFT, SHIFT);
    }

    for question in Question::all() {
        let fields = question.fields();
        let field = fields.iter().filter(|field| field.matters).map(|field| field.about);
        let Some(about) = field.clone().find(|about| !matches!(about.takes, Takes::Choice(_))) else { continue };
        let (low, least, most) = match about.takes {
            Takes::Range { least, most } => ("-low", least, most),
            Takes::One { least, most } => ("", least, most),
            Takes::Choice(_) => continue,
        };
        browser.go(&format!("1/{}", question.key()))?;
        let arguments = [json!(format!("{}{low}", about.name)), json!(least), json!(most)];
        let times: Vec<[f64; 3]> = serde_json::from_value(browser.run(DRAG, &arguments)?)?;
        let [frames, modules, layouts] = [0, 1, 2].map(|part| sorted(&times, part));
        let name = question.name();
        println!("{name}: module {:.1} ms, layout {:.1} of {:.1}", middle(&modules), middle(&layouts), middle(&frames));
        tell(&format!("{name}, frame (ms)"), middle(&frames), FRAME, f64::INFINITY);
        tell(
            &format!("{name}, worst frame (ms)"),
            frames.last().copied().unwrap_or(f64::NAN),
            WORST_FRAME,
            f64::INFINITY,
        );
    }
    if missed.is_empty() { Ok(()) } else { Err(missed.join("\n").into()) }
}

/// One part of some times, from the least to the most.
fn sorted(times: &[[f64; 3]], part: usize) -> Vec<f64> {
    let mut times: Vec<f64> = times.iter().filter_map(|time| time.get(part)).copied().collect();
    times.sort_by(f64::total_cmp);
    times
}

/// The median.
fn middle(sorted: &[f64]) -> f64 {
    sorted.get(sorted.len() / 2).copied().unwrap_or(f64::NAN)
}
