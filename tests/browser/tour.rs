//! Every screen, and the way from one to the next without opening the page anew.

use rigging_core::question::Question;
use rigging_web::way::Way;
use serde_json::json;

use crate::browser::Browser;
use crate::engine::{Engine, Setup};
use crate::{Outcome, page, same};

/// A screen: the address that opens it, and where the page is used.
#[derive(Debug, Clone)]
pub(crate) struct Screen {
    pub(crate) name: String,
    pub(crate) fragment: String,
    pub(crate) way: Way,
}

/// Screens that differ from their question's example in what is on them.
const VARIANTS: [(&str, &str); 5] = [
    ("six anchors", "1/al/N6"),
    ("block", "1/na/a1"),
    ("tether", "1/cu/a2"),
    ("swing", "1/sl/a5"),
    ("broken link", "1/nothing"),
];

/// The rigging plan: the whole of it, a drop, and a question of a drop on its own screen. It is no part of a class.
const PLAN: [(&str, &str); 3] = [("plan", "plan"), ("drop of the plan", "plan/2"), ("question of a drop", "plan/2/1")];

/// Every screen there is, each way of using the page for itself. What is built later is added here, and every check
/// that goes round sees it.
pub(crate) fn screens() -> Vec<Screen> {
    let questions = Question::all();
    let examples = questions.iter().map(|question| (question.name(), format!("1/{}", question.key())));
    let variants = VARIANTS.iter().map(|(name, fragment)| (*name, (*fragment).to_owned()));
    let all: Vec<_> = [("home", String::new())].into_iter().chain(examples).collect();
    let screen =
        |(name, fragment): (&str, String), way: Way| Screen { name: format!("{name}, {}", way.name()), fragment, way };
    let ways = Way::ALL.into_iter().flat_map(|way| all.iter().map(move |one| screen(one.clone(), way)));
    let plan = PLAN
        .iter()
        .flat_map(|(name, fragment)| [Way::Desk, Way::Lip].map(|way| screen((*name, (*fragment).to_owned()), way)));
    let lesson = screen(("demonstration", "demo/1/2".to_owned()), Way::Class);
    ways.chain(variants.map(|one| screen(one, Way::Desk))).chain(plan).chain([lesson]).collect()
}

/// All screens in Chromium and one of each kind in the others: the document is the same, only its layout and its keys
/// differ a little, and an hour of tests is not run often.
pub(crate) fn all_or_few(engine: Engine) -> Vec<Screen> {
    if engine == Engine::Chromium { screens() } else { few() }
}

/// One screen of each kind, in each way: home, a question with ranges, one about water, one with many parts, a
/// demonstration; the plan and one of its drops.
pub(crate) fn few() -> Vec<Screen> {
    let kinds = ["", "1/al", "1/cu", "1/wp", "demo/1/2", "plan", "plan/2"];
    screens().into_iter().filter(|screen| kinds.contains(&screen.fragment.as_str())).collect()
}

/// Goes to each of some screens in the page that is open, and does something there; tells of several that failed,
/// since what is wrong with one is seldom wrong with that one alone.
pub(crate) fn visit(
    browser: &Browser,
    screens: &[Screen],
    mut there: impl FnMut(&Browser, &Screen) -> Outcome,
) -> Outcome {
    let mut failed = Vec::new();
    for screen in screens {
        hop(browser, screen)?;
        if let Err(why) = there(browser, screen) {
            failed.push(format!("{}: {}", screen.name, why.message().unwrap_or_default()));
        }
    }
    match failed.as_slice() {
        [] => Ok(()),
        [first, rest @ ..] => {
            let others = rest.iter().take(4).cloned().collect::<Vec<_>>().join("\n");
            Err(format!("{} screens of {}\n{first}\n{others}", failed.len(), screens.len()).into())
        }
    }
}

/// Opens the page in light and in dark.
pub(crate) fn themes(engine: Engine, mut check: impl FnMut(&mut Browser, &str) -> Outcome) -> Outcome {
    for (dark, name) in [(false, "light"), (true, "dark")] {
        let mut browser = Browser::open_with(engine, Setup { dark, ..Setup::default() }, &page::built()?)?;
        check(&mut browser, name).map_err(|failed| format!("{name}: {}", failed.message().unwrap_or_default()))?;
        same("errors", browser.errors()?, vec![])?;
    }
    Ok(())
}

/// Follows a link on the page, in a twentieth of the time that opening it takes.
fn hop(browser: &Browser, screen: &Screen) -> Outcome {
    const HOP: &str = r##"
        const [fragment, way, done] = arguments;
        const arrived = () => setTimeout(() => {
            const button = document.getElementById(`way-${way}`);
            if (document.documentElement.dataset.way !== way && button) {
                button.click();
                document.activeElement.blur();
            }
            scrollTo(0, 0);
            done(document.documentElement.dataset.way ?? "");
        });
        if (location.hash.slice(1) === fragment) {
            arrived();
        } else {
            addEventListener("hashchange", arrived, { once: true });
            location.hash = fragment;
        }"##;
    let way = browser.run_async(HOP, &[json!(screen.fragment), json!(screen.way.name())])?;
    same(&format!("{}: way", screen.name), way, json!(screen.way.name()))
}
