//! WebKitGTK: its driver, the screen that it needs, and two ways to its errors.

use std::fs;
use std::path::PathBuf;
use std::sync::OnceLock;
use std::thread::sleep;
use std::time::Duration;

use serde_json::json;

use crate::browser::Browser;
use crate::engine::{Driver, Setup};
use crate::leash::{Leash, program};
use crate::{Outcome, wait};

const PACKAGE: &str = "the Debian package webkit2gtk-driver";

/// Its window cannot be narrower (334 CSS pixels were measured).
pub(crate) const NARROWEST: u32 = 340;

/// See [`Engine::driver`](crate::engine::Engine::driver).
pub(crate) fn driver(setup: Setup, port: u16) -> Outcome<Driver> {
    // Full screen has no tool bar, which would keep the window from being narrow.
    let mut args = vec!["--automation", "--full-screen"];
    if !setup.scripts {
        args.push("--enable-javascript=false");
    }
    if setup.dark {
        args.push("--dark-mode");
    }
    let mut env = environment()?;
    if !setup.wasm {
        env.push(("JSC_useWasm", "0".to_owned()));
    }
    Ok(Driver {
        program: program("WebKitWebDriver", PACKAGE)?,
        args: vec![format!("--port={port}")],
        env,
        capabilities: [("webkitgtk:browserOptions".to_owned(), json!({ "binary": mini_browser()?, "args": args }))]
            .into_iter()
            .collect(),
    })
}

/// The small browser that comes with the engine, in a folder that no path names.
fn mini_browser() -> Outcome<PathBuf> {
    for architecture in fs::read_dir("/usr/lib")?.flatten() {
        for engine in ["webkit2gtk-4.1", "webkit2gtk-4.0", "webkitgtk-6.0"] {
            let file = architecture.path().join(engine).join("MiniBrowser");
            if file.is_file() {
                return Ok(file);
            }
        }
    }
    Err(format!("MiniBrowser is not there: run tests/run, or install {PACKAGE}").into())
}

/// A screen without glass, larger than any page that is photographed, for as long as the tests run.
struct Screen {
    display: String,
    _server: Leash,
}

fn environment() -> Outcome<Vec<(&'static str, String)>> {
    static SCREEN: OnceLock<Result<Screen, String>> = OnceLock::new();
    let screen = SCREEN.get_or_init(|| screen().map_err(|error| error.message().unwrap_or_default().to_owned()));
    match screen {
        // Its compositor crashed once in the software renderer (swrast_dri.so), and no page here needs one.
        Ok(screen) => Ok(vec![
            ("DISPLAY", screen.display.clone()),
            ("GDK_BACKEND", "x11".to_owned()),
            ("WEBKIT_DISABLE_COMPOSITING_MODE", "1".to_owned()),
        ]),
        Err(error) => Err(error.into()),
    }
}

fn screen() -> Outcome<Screen> {
    // What lives as long as the process is never dropped, so the folder must not stay with the screen.
    let folder = tempfile::tempdir()?;
    let output = folder.path().join("output");
    let args = ["-displayfd", "1", "-screen", "0", "1400x8000x24", "-nolisten", "tcp"].map(str::to_owned);
    let server = Leash::start(&program("Xvfb", "the Debian package xvfb")?, &args, &[], folder.path(), &output)?;
    let number = wait::until("the screen has a number", || {
        let text = fs::read_to_string(&output)?;
        Ok(text.lines().find(|line| !line.is_empty() && line.bytes().all(|b| b.is_ascii_digit())).map(str::to_owned))
    })?;
    Ok(Screen { display: format!(":{number}"), _server: server })
}

/// Notes what goes wrong in the page from now on.
pub(crate) const NOTE_ERRORS: &str = r#"
    window.noted = [];
    const note = (text) => window.noted.push(String(text));
    addEventListener("error", (event) => note(event.message));
    addEventListener("unhandledrejection", (event) => note(event.reason));
    addEventListener("securitypolicyviolation", (event) => note(`policy: ${event.violatedDirective}`));
    for (const level of ["error", "warn"]) {
        console[level] = (...words) => note(words.join(" "));
    }
"#;

/// See [`Engine::errors`](crate::engine::Engine::errors). A browser that is driven keeps its console to itself, so
/// each address it has been sent to is opened once more in one that is not.
pub(crate) fn errors(browser: &mut Browser) -> Outcome<Vec<String>> {
    let mut errors = Vec::new();
    for address in browser.visited() {
        errors.extend(errors_while_opening(&address)?);
    }
    let noted = browser.run("return window.noted.splice(0);", &[])?;
    errors.extend(serde_json::from_value::<Vec<String>>(noted)?);
    Ok(errors)
}

/// How long a page is given to open; nothing tells from outside that it has.
const OPENING: Duration = Duration::from_secs(3);

fn errors_while_opening(address: &str) -> Outcome<Vec<String>> {
    let folder = tempfile::tempdir()?;
    let output = folder.path().join("output");
    let args = ["--enable-write-console-messages-to-stdout=true".to_owned(), address.to_owned()];
    let browser = Leash::start(&mini_browser()?, &args, &environment()?, folder.path(), &output)?;
    sleep(OPENING);
    drop(browser);
    let text = fs::read_to_string(output)?;
    Ok(text
        .lines()
        .filter(|line| line.contains("CONSOLE") && !line.contains("CONSOLE LOG"))
        .map(str::to_owned)
        .collect())
}
