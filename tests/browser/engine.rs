//! The three browser engines, and what sets them apart.

use std::path::{Path, PathBuf};

use fantoccini::wd::Capabilities;

use crate::browser::Browser;
use crate::{Outcome, chromium, firefox, webkit};

/// A browser engine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Engine {
    /// Chromium.
    Chromium,
    /// Firefox, extended support release.
    Firefox,
    /// WebKitGTK.
    WebKit,
}

/// What a browser is opened with.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Setup {
    /// Whether pages may run scripts.
    pub(crate) scripts: bool,
    /// Whether there is WebAssembly.
    pub(crate) wasm: bool,
    /// Whether the user asks for dark pages.
    pub(crate) dark: bool,
    /// Whether addresses may follow one another faster than a user's do, where that can be chosen.
    pub(crate) hurried: bool,
}

impl Default for Setup {
    fn default() -> Setup {
        Setup { scripts: true, wasm: true, dark: false, hurried: true }
    }
}

/// How to start an engine's driver, and what to ask it for.
pub(crate) struct Driver {
    pub(crate) program: PathBuf,
    pub(crate) args: Vec<String>,
    pub(crate) env: Vec<(&'static str, String)>,
    pub(crate) capabilities: Capabilities,
}

impl Engine {
    /// Every engine.
    pub(crate) const ALL: [Engine; 3] = [Engine::Chromium, Engine::Firefox, Engine::WebKit];

    /// Its name in the names of checks and pictures.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Engine::Chromium => "chromium",
            Engine::Firefox => "firefox",
            Engine::WebKit => "webkit",
        }
    }

    /// Its driver, to listen on a port and to keep its files in a folder.
    pub(crate) fn driver(self, setup: Setup, port: u16, folder: &Path) -> Outcome<Driver> {
        match self {
            Engine::Chromium => chromium::driver(setup, port, folder),
            Engine::Firefox => firefox::driver(setup, port),
            Engine::WebKit => webkit::driver(setup, port),
        }
    }

    /// What went wrong in the page since the last call: errors and warnings of the console, errors that nothing
    /// caught, breaches of the policy.
    pub(crate) fn errors(self, browser: &mut Browser) -> Outcome<Vec<String>> {
        match self {
            Engine::Chromium => chromium::errors(browser),
            Engine::Firefox => firefox::errors(browser),
            Engine::WebKit => webkit::errors(browser),
        }
    }
}
