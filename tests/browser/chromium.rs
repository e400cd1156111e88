//! Chromium: its driver, and its log.

use std::path::Path;

use serde::Deserialize;
use serde_json::json;

use crate::Outcome;
use crate::browser::Browser;
use crate::engine::{Driver, Setup};
use crate::leash::program;

/// See [`Engine::driver`](crate::engine::Engine::driver).
pub(crate) fn driver(setup: Setup, port: u16, folder: &Path) -> Outcome<Driver> {
    let mut args = [
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--disable-dev-shm-usage",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--no-first-run",
    ]
    .map(str::to_owned)
    .to_vec();
    args.push(format!("--user-data-dir={}", folder.join("profile").display()));
    args.push(format!("--blink-settings=preferredColorScheme={}", if setup.dark { 0 } else { 1 }));
    if setup.hurried {
        // Else it drops what comes after two hundred addresses in ten seconds, and a quick machine goes through more.
        args.push("--disable-ipc-flooding-protection".to_owned());
    }
    if !setup.wasm {
        // The engine without its compiler has no WebAssembly either, as in a lockdown mode.
        args.push("--js-flags=--jitless".to_owned());
    }
    // 1 allows and 2 blocks.
    let scripts = if setup.scripts { 1 } else { 2 };
    let options = json!({
        "binary": program("chromium", "the Debian package chromium")?,
        "args": args,
        "prefs": { "profile.managed_default_content_settings.javascript": scripts },
    });
    Ok(Driver {
        program: program("chromedriver", "the Debian package chromium-driver")?,
        args: vec![format!("--port={port}")],
        env: Vec::new(),
        capabilities: [
            ("browserName".to_owned(), json!("chrome")),
            ("goog:loggingPrefs".to_owned(), json!({ "browser": "ALL" })),
            ("goog:chromeOptions".to_owned(), options),
        ]
        .into_iter()
        .collect(),
    })
}

/// See [`Engine::errors`](crate::engine::Engine::errors).
pub(crate) fn errors(browser: &mut Browser) -> Outcome<Vec<String>> {
    let log: Vec<Entry> = serde_json::from_value(browser.command("se/log", json!({ "type": "browser" }))?)?;
    let serious = log.into_iter().filter(|entry| ["SEVERE", "WARNING"].contains(&entry.level.as_str()));
    Ok(serious.map(|entry| entry.message).collect())
}

/// A line of the log.
#[derive(Deserialize)]
struct Entry {
    level: String,
    message: String,
}
