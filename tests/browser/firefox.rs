//! Firefox: its driver, its two logs, and its way to a narrow page.

use serde_json::json;

use crate::Outcome;
use crate::browser::Browser;
use crate::engine::{Driver, Setup};
use crate::leash::program;

/// See [`Engine::driver`](crate::engine::Engine::driver).
pub(crate) fn driver(setup: Setup, port: u16) -> Outcome<Driver> {
    let options = json!({
        "binary": program("firefox-esr", "the Debian package firefox-esr")?,
        "args": ["-headless"],
        "prefs": {
            "javascript.enabled": setup.scripts,
            "javascript.options.wasm": setup.wasm,
            // On its way to another page it now and then ends the listener that hears of it, and calls that an error of
            // the page: "terminated by timeout", however little time it took.
            "dom.ipc.processHangMonitor": false,
            // 0 is dark and 1 is light.
            "layout.css.prefers-color-scheme.content-override": if setup.dark { 0 } else { 1 },
        },
    });
    Ok(Driver {
        program: program("geckodriver", "the crate geckodriver with cargo")?,
        // Its logs are open to the browser's own scripts only.
        args: vec![format!("--port={port}"), "--allow-system-access".to_owned()],
        env: Vec::new(),
        capabilities: [("browserName".to_owned(), json!("firefox")), ("moz:firefoxOptions".to_owned(), options)]
            .into_iter()
            .collect(),
    })
}

/// Errors that nothing caught and breaches of the policy lie in one log; what pages write to the console lies in
/// another, in the process of the page.
const ERRORS: &str = r#"
    const done = arguments[arguments.length - 1];
    const uncaught = Services.console
        .getMessageArray()
        .filter((message) => message instanceof Ci.nsIScriptError && message.sourceName.startsWith("file:"))
        .map((message) => message.errorMessage);
    Services.console.reset();
    const manager = gBrowser.selectedBrowser.messageManager;
    manager.addMessageListener("page-console", function answer({ data }) {
        manager.removeMessageListener("page-console", answer);
        done(uncaught.concat(data));
    });
    const read = () => {
        const log = Cc["@mozilla.org/consoleAPI-storage;1"].getService(Ci.nsIConsoleAPIStorage);
        const written = log
            .getEvents()
            .filter((event) => ["error", "warn"].includes(event.level) && event.filename.startsWith("file:"))
            .map((event) => Array.from(event.arguments, String).join(" "));
        log.clearEvents();
        sendAsyncMessage("page-console", written);
    };
    manager.loadFrameScript("data:," + encodeURIComponent(`(${read})()`), false);
"#;

/// See [`Engine::errors`](crate::engine::Engine::errors).
pub(crate) fn errors(browser: &mut Browser) -> Outcome<Vec<String>> {
    let errors = as_browser(browser, |browser| browser.run_async(ERRORS, &[]))?;
    Ok(serde_json::from_value(errors)?)
}

/// The window cannot be narrower than its tool bar, but the page in it can.
pub(crate) fn narrow(browser: &mut Browser, width: u32) -> Outcome {
    const NARROW: &str = "gBrowser.selectedBrowser.style.maxWidth = `${arguments[0]}px`;";
    as_browser(browser, |browser| browser.run(NARROW, &[json!(width)])).map(drop)
}

/// Does something with the rights of the browser itself.
fn as_browser<T>(browser: &mut Browser, act: impl FnOnce(&mut Browser) -> Outcome<T>) -> Outcome<T> {
    browser.command("moz/context", json!({ "context": "chrome" }))?;
    let outcome = act(browser);
    browser.command("moz/context", json!({ "context": "content" }))?;
    outcome
}
