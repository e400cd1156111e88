//! The page asks for nothing: its policy refuses every kind of request, and nothing on it points elsewhere.

use std::collections::BTreeSet;
use std::thread::sleep;
use std::time::Duration;

use serde_json::json;

use crate::browser::Browser;
use crate::engine::{Engine, Setup};
use crate::server::Server;
use crate::{Outcome, page, same, wait};

/// Makes the page ask the server for each path in its own way, and goes on when each has arrived or been refused.
const ASK: &str = r#"
    const [address, done] = arguments;
    const element = (name, source, path, more) => new Promise((settle) => {
        const asking = document.createElement(name);
        asking.onload = asking.onerror = settle;
        Object.assign(asking, more)[source] = `http://${address}/${path}`;
        document.body.append(asking);
        // A frame that is refused tells nobody in some engines.
        setTimeout(settle, 3000);
    });
    Promise.all([
        fetch(`http://${address}/fetch`).catch(() => {}),
        element("img", "src", "picture"),
        element("script", "src", "script"),
        element("link", "href", "style", { rel: "stylesheet" }),
        element("iframe", "src", "frame"),
        new Promise((settle) => {
            const socket = new WebSocket(`ws://${address}/socket`);
            socket.onopen = socket.onerror = socket.onclose = settle;
        }).catch(() => {}),
    ]).then(() => done(null));
"#;

/// The paths that [`ASK`] asks for.
const PATHS: [&str; 6] = ["/fetch", "/frame", "/picture", "/script", "/socket", "/style"];

pub(crate) fn refuses_requests(engine: Engine) -> Outcome {
    let server = Server::start()?;
    let browser = Browser::open(engine)?;
    browser.run_async(ASK, &[json!(server.address())])?;
    // What was let through by mistake may still be on its way.
    sleep(Duration::from_millis(500));
    same("asked", server.asked(), BTreeSet::new())
}

pub(crate) fn requests_arrive_without_policy(engine: Engine) -> Outcome {
    let server = Server::start()?;
    let folder = tempfile::tempdir()?;
    let file = page::copy(folder.path(), &page::policy()?, "")?;
    let browser = Browser::open_with(engine, Setup::default(), &file)?;
    same("state", browser.state()?.as_deref(), Some("ready"))?;
    browser.run_async(ASK, &[json!(server.address())])?;
    let expected = PATHS.map(str::to_owned).into();
    wait::until("all have arrived", || Ok((server.asked().is_superset(&expected)).then_some(())))
        .map_err(|_| format!("arrived: {:?}", server.asked()).into())
}

pub(crate) fn points_nowhere(engine: Engine) -> Outcome {
    const OUTWARD: &str = r#"
        return Array.from(document.querySelectorAll("[href], [src], [srcset], [action], [data], [poster]"))
            .filter((element) => !(element.getAttribute("href") ?? "").startsWith('#'))
            .map((element) => element.outerHTML);"#;
    let browser = Browser::open(engine)?;
    let outward: Vec<String> = serde_json::from_value(browser.run(OUTWARD, &[])?)?;
    same("elements that point elsewhere", outward, vec![])
}
