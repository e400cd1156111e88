//! The rigging plan: from an empty one to paper, a file, and the next start.

use rigging_core::question::{Entry, Question};
use serde_json::json;

use crate::browser::Browser;
use crate::engine::Engine;
use crate::{Outcome, same, wait};

/// The way inside the page, as a link on it leads.
fn lead(browser: &Browser, fragment: &str) -> Outcome {
    browser.run("location.hash = arguments[0];", &[json!(fragment)])?;
    wait::until("the screen has changed", || {
        let there = if fragment == "plan" { "#plan-head" } else { "#plan-drop, #answer" };
        let found = browser.run("return document.querySelector(arguments[0]) !== null;", &[json!(there)])?;
        Ok((found == true).then_some(()))
    })
}

fn has(browser: &Browser, place: &str, words: &str, is: bool) -> Outcome {
    let text = browser.run("return document.querySelector(arguments[0]).textContent;", &[json!(place)])?;
    let text = text.as_str().unwrap_or_default();
    same(&format!("{words:?} in {place}: {text:?}"), text.contains(words), is)
}

/// The load on the end of a hand-line in some current, as the library works it out.
fn load(flow: &'static str) -> Outcome<rigging_core::band::Band> {
    let mut line = Question::named("in the current")?;
    for (field, choice) in [("flow", flow), ("anchor", "known"), ("limit", "own")] {
        line.set(field, &Entry::Choice(choice))?;
    }
    let answer = line.answer()?;
    Ok(answer.comparisons.first().ok_or("nothing is compared")?.load)
}

/// A new plan, three drops, the water changed, the drop that crosses its limit, paper, a file, a reload.
pub(crate) fn whole_path(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    browser.click("a[href='#plan']")?;
    has(&browser, "#plan-head", "EXAMPLE, INVENTED", true)?;
    has(&browser, "#app", "crosses limit", false)?;
    browser.click("#plan-new")?;
    has(&browser, "#plan-head", "MINE", true)?;
    for (number, height) in [(1, "12"), (2, "18"), (3, "9")] {
        lead(&browser, "plan")?;
        browser.click("[id='add:drop']")?;
        browser.type_into(&format!("[id='drop-{number}.height_m-high']"), height)?;
        browser.type_into(&format!("[id='drop-{number}.height_m-low']"), height)?;
        browser.type_into(&format!("[id='drop-{number}.name']"), &format!("invented {height}"))?;
    }
    // A limit of one's own above what the line carries today, and below what it carries in higher water.
    let (low, high) = (load("walk")?.high(), load("jog")?.high());
    same("water makes it heavier", high > low * 1.2, true)?;
    lead(&browser, &format!("plan/2/{}", Question::named("in the current")?.key()))?;
    for (field, choice) in [("flow", "walk"), ("anchor", "known"), ("limit", "own")] {
        browser.choose(&format!("#{field}"), choice)?;
    }
    browser.type_into("#own_limit_n", &format!("{} N", ((low + high) / 2.0).round()))?;
    browser.click("#mine")?;
    // Asked of a drop, it stands open what puts it there.
    same("the drop is chosen", browser.value("#into-drop")?, "1".to_owned())?;
    browser.click("#into-plan")?;
    has(&browser, "#plan-side", "Put into drop 2. invented 18", true)?;
    lead(&browser, "plan")?;
    has(&browser, "#plan-drops", "crosses limit", false)?;
    browser.choose("[id='day.water']", "higher")?;
    has(&browser, "#plan-head", "Look at these drops first", true)?;
    has(&browser, "#plan-drops details:nth-of-type(2)", "range crosses limit", true)?;
    has(&browser, "#plan-drops details:nth-of-type(1)", "range crosses limit", false)?;

    // Paper holds what is said first, and every drop.
    browser.run("window.dispatchEvent(new Event('beforeprint'));", &[])?;
    for words in ["Blank means: not valid.", "Water at the mark", "invented 12", "invented 18", "range crosses limit"] {
        has(&browser, "#paper", words, true)?;
    }

    // The file holds the plan; nothing is asked for over a network.
    browser.run(
        "const make = URL.createObjectURL; URL.createObjectURL = (blob) => { blob.text().then((text) => { window.saved = text; }); return make.call(URL, blob); };
         HTMLAnchorElement.prototype.click = () => {};",
        &[],
    )?;
    browser.click("#plan-save")?;
    let saved = wait::until("the file is saved", || {
        Ok(browser.run("return window.saved ?? null;", &[])?.as_str().map(str::to_owned))
    })?;
    let plan = rigging_core::plan::Plan::read(&saved)?;
    same("refused", plan.refused.len(), 0)?;
    same("drops", plan.plan.drops.len(), 3)?;
    same("questions", plan.plan.drops.iter().map(|drop| drop.questions.len()).collect::<Vec<_>>(), vec![0, 1, 0])?;

    browser.reload()?;
    has(&browser, "#plan-head", "MINE", true)?;
    has(&browser, "#plan-drops details:nth-of-type(2)", "range crosses limit", true)?;
    same("water after a reload", browser.value("[id='day.water']")?, "higher".to_owned())?;

    // A file is asked about before it takes the place of what is there.
    browser.run(
        "const files = new DataTransfer(); files.items.add(new File([arguments[0]], 'plan.json'));
         const entry = document.getElementById('plan-file'); entry.files = files.files;
         entry.dispatchEvent(new Event('change', { bubbles: true }));",
        &[json!("{\"format\": \"rigging plan\", \"version\": 1,\n\"drops\": [{\"name\": \"torn\", \"moon\": 1}")],
    )?;
    wait::until("the file was read", || {
        let offered = browser.run("return document.getElementById('plan-take') !== null;", &[])?;
        Ok((offered == true).then_some(()))
    })?;
    has(&browser, "#plan-offer", "line 2", true)?;
    has(&browser, "#plan-drops", "invented 18", true)?;
    browser.click("#plan-take")?;
    has(&browser, "#plan-drops", "torn", true)?;
    has(&browser, "#plan-head", "NOT YOURS", true)?;
    browser.click("#undo")?;
    has(&browser, "#plan-drops", "invented 18", true)?;
    same("errors", browser.errors()?, vec![])
}

/// Two hundred drops and twelve people follow one keystroke.
pub(crate) fn large(engine: Engine) -> Outcome {
    let mut plan = rigging_core::plan::Plan::example();
    let (drops, group) = (plan.drops.clone(), plan.group.clone());
    plan.drops = (0..200).filter_map(|place| drops.get(place % drops.len()).cloned()).collect();
    plan.group = (0..12).filter_map(|place| group.get(place % group.len()).cloned()).collect();
    let mut browser = Browser::open(engine)?;
    lead(&browser, "plan")?;
    browser.run(
        "const files = new DataTransfer(); files.items.add(new File([arguments[0]], 'plan.json'));
         const entry = document.getElementById('plan-file'); entry.files = files.files;
         entry.dispatchEvent(new Event('change', { bubbles: true }));",
        &[json!(plan.write())],
    )?;
    wait::until("the file was read", || {
        let drops = browser.run("return document.querySelectorAll('#plan-drops details').length;", &[])?;
        Ok((drops == 200).then_some(()))
    })?;
    let times = browser.run(
        "const entry = document.getElementById('person-3.body_kg'); const times = [];
         for (let mass = 90; mass < 97; mass += 1) {
           entry.value = String(mass); const start = performance.now();
           entry.dispatchEvent(new Event('input', { bubbles: true })); times.push(performance.now() - start);
         }
         return times;",
        &[],
    )?;
    println!("{}: ms for one keystroke of a mass, 200 drops, 12 people: {times}", engine.name());
    same("errors", browser.errors()?, vec![])
}
