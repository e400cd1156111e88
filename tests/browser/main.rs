//! The built page, opened from `file://` in three browsers.
//!
//! Needs `cargo page` first, and the browsers and drivers that `tests/run` installs; what is missing is a failure
//! with its name, never a check left out. Each check runs in each engine in a browser of its own.
//! `cargo test -p checks --test browser -- firefox` runs those whose name contains `firefox`.

mod accessibility;
mod browser;
mod chromium;
mod class;
mod copies;
mod drag;
mod engine;
mod evening;
mod firefox;
mod hands;
mod hosted;
mod leash;
mod lip;
mod looks;
mod offline;
mod opening;
mod page;
mod paper;
mod plan;
mod reflow;
mod screens;
mod server;
mod speed;
mod storage;
mod targets;
mod tour;
mod wait;
mod walk;
mod webkit;

use std::process::ExitCode;
use std::time::Instant;

use libtest_mimic::{Arguments, Failed, Trial};

use crate::engine::Engine;

/// What a check ends with, and whatever it needs on its way.
type Outcome<T = ()> = Result<T, Failed>;

/// A check of one engine.
type Check = fn(Engine) -> Outcome;

/// Every check with its name.
const CHECKS: [(&str, Check); 55] = [
    ("the page comes up ready and the console stays empty", opening::ready),
    ("an error while opening, an error later and a breach of the policy are each noticed", opening::errors_are_noticed),
    ("without scripts the still content is shown", opening::without_scripts),
    ("without WebAssembly the page says so and keeps the still content", opening::without_wasm),
    ("scripts that the policy does not name are not run, and the page says so", opening::changed_scripts),
    ("a browser that unpacks nothing by itself starts all the same", opening::old_browser),
    ("a module that stops is started again with what was typed", opening::stopped_module),
    ("the link names the page and survives a reload", opening::link),
    ("nothing on the page points elsewhere", offline::points_nowhere),
    ("the policy refuses every kind of request", offline::refuses_requests),
    ("without the policy every kind of request arrives", offline::requests_arrive_without_policy),
    ("keys and pointer arrive as a user's would", hands::arrive),
    ("every example shows what the library works out natively", screens::examples),
    ("the screen follows what is typed as the native page does", screens::typing),
    ("what is typed is read, or answered with a dash and a message, and kept", screens::entries),
    ("the link gives the same page back, and is not yours elsewhere", screens::links),
    ("another part changes which is the weakest, and forces come along from another question", screens::weakest),
    ("questions about rope take nonsense and extremes", screens::extremes_of_rope),
    ("questions about water, people and slips take nonsense and extremes", screens::extremes_of_water),
    ("the keyboard alone leads from home to a confirmed answer", screens::keyboard),
    ("at the lip the answer stays in sight of every entry", lip::answer_in_sight),
    ("at the lip one touch changes no number", lip::one_touch_changes_nothing),
    ("a mouse drags in the picture, and the page follows in numbers, boxes and link", drag::mouse),
    ("a finger drags in the picture, and the page follows in numbers, boxes and link", drag::finger),
    ("a second finger changes nothing, and a cancelled drag is taken back", drag::interrupted),
    ("arrow keys move a handle, which keeps the focus", drag::keys),
    ("where a slider is let go of, the page is opened anew", drag::slides),
    ("words in pictures keep apart, and handles are large enough, on narrow screens", drag::words),
    ("a frame of a drag is measured", drag::frames),
    ("in class a number is nowhere before the guess, and beside it afterwards", class::guess_first),
    ("in class no standing is shown before a limit is chosen", class::no_standing),
    ("the ten demonstrations are walked by a presenter's keys", class::walk),
    ("demonstrations fit a projector and a narrow phone", class::fits),
    ("each hand-out is one page", class::hand_outs),
    ("nothing of a sheet is wider than the narrower paper", paper::fits),
    ("the button prints the sheet as it is, and printing by other ways makes it anew", paper::asked_for),
    ("the button hands out the single file", copies::button_gives_the_file),
    ("a copy saved by the browser is the same page, however often", copies::saved_copy_is_the_same_page),
    ("the hosted copy comes up and asks for its own folder only", hosted::asks_for_its_own_folder_only),
    ("the hosted copy stays when the network goes", hosted::survives_the_network),
    (
        "a new version is offered when it is whole, and used when told to, without losing numbers",
        hosted::updates_when_told,
    ),
    ("half a new version changes nothing", hosted::half_a_version_changes_nothing),
    ("a plan goes from empty to paper, file and the next start", plan::whole_path),
    ("a plan of two hundred drops follows one keystroke", plan::large),
    ("the page fits narrow and wide screens, light and dark", looks::fits),
    ("every screen keeps to WCAG 2.2 as far as a program can tell", accessibility::axe),
    ("a breach of WCAG is noticed", accessibility::axe_notices),
    ("what is touched is large, and apart from its neighbour", targets::large_and_apart),
    ("every picture is told in a sentence with numbers", targets::pictures_are_told),
    ("Tab reaches every place in order, shows it, and leads on", walk::keys_reach_everything),
    ("nothing is cut off on narrow screens, on its side, or in large letters", reflow::nothing_is_cut_off),
    ("forced colours and less motion are followed", reflow::follows_what_is_asked_of_every_page),
    ("storage that throws stops nothing", storage::that_throws),
    ("what another window has kept is told before it is written over", storage::two_windows),
    (ALONE, speed::within_budget),
];

/// What needs a browser that its driver can make print; WebKit's cannot. It is shown the sheet on the screen.
const PRINTED: [(&str, Check); 3] = [
    ("every question prints on two pages of either paper, with nothing left out", paper::prints),
    ("the evening before takes ten minutes and a cover of one page", evening::fits),
    ("the code on paper leads back to the numbers on it", paper::code),
];

/// What goes by the clock runs first, with nobody beside it.
const ALONE: &str = "a slow phone shows the page in time, and follows the hand";

fn main() -> ExitCode {
    let trials = Engine::ALL.into_iter().flat_map(|engine| {
        let printed = if engine == Engine::WebKit { &[][..] } else { &PRINTED };
        let trial = move |(name, check): &'static (&str, Check)| {
            let check = *check;
            Trial::test(format!("{}: {name}", engine.name()), move || timed(engine, name, check))
        };
        CHECKS.iter().chain(printed).map(trial)
    });
    let (alone, together): (Vec<_>, Vec<_>) = trials.partition(|trial| trial.name().ends_with(ALONE));
    let arguments = Arguments::from_args();
    let [alone, together] = [alone, together].map(|trials| libtest_mimic::run(&arguments, trials));
    if alone.has_failed() { alone.exit_code() } else { together.exit_code() }
}

/// Tells of a check that takes long: all of them together must stay well under an hour.
fn timed(engine: Engine, name: &str, check: Check) -> Outcome {
    let start = Instant::now();
    let outcome = check(engine);
    let seconds = start.elapsed().as_secs();
    if seconds >= 20 {
        println!("{}: {name}: {seconds} s", engine.name());
    }
    outcome
}

/// Fails unless two things are the same, and shows both.
fn same<T: PartialEq + std::fmt::Debug>(what: &str, got: T, expected: T) -> Outcome {
    if got == expected { Ok(()) } else { Err(format!("{what}: got {got:?}, expected {expected:?}").into()) }
}
