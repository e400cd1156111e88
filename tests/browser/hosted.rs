//! The hosted copy: it stays when the network goes, and a new version takes over whole or not at all.

use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::{self, JoinHandle};

use serde_json::json;
use sha2::{Digest, Sha256};
use tempfile::TempDir;

use crate::browser::Browser;
use crate::engine::{Engine, Setup};
use crate::{Outcome, page, same, wait};

/// A host with the folder in it, in a place of its own as on a shared one.
struct Host {
    folder: TempDir,
    address: SocketAddr,
    stop: Arc<AtomicBool>,
    thread: Option<JoinHandle<()>>,
}

impl Host {
    /// Serves a copy of the built folder.
    fn start() -> Outcome<Host> {
        let folder = tempfile::tempdir()?;
        for file in fs::read_dir(built()?)? {
            let file = file?;
            fs::copy(file.path(), folder.path().join(file.file_name()))?;
        }
        let listener = TcpListener::bind(("127.0.0.1", 0))?;
        let mut host = Host { address: listener.local_addr()?, folder, stop: Arc::default(), thread: None };
        host.listen(listener);
        Ok(host)
    }

    fn listen(&mut self, listener: TcpListener) {
        let (stop, folder) = (Arc::clone(&self.stop), self.folder.path().to_owned());
        self.thread = Some(thread::spawn(move || {
            for stream in listener.incoming() {
                if stop.load(Ordering::Relaxed) {
                    break;
                }
                if let Ok(stream) = stream {
                    let folder = folder.clone();
                    thread::spawn(move || answer(stream, &folder));
                }
            }
        }));
    }

    /// The network is cut: nothing listens any more.
    fn cut(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
        let _ = TcpStream::connect(self.address);
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }

    fn page(&self) -> String {
        format!("http://{}/loads/", self.address)
    }

    /// Puts a new version in the folder: the page with a mark in it, and the worker that asks for these very bytes.
    fn publish(&self, mark: &str) -> Outcome {
        let built = built()?;
        let page = fs::read_to_string(built.join("index.html"))?;
        let worker = fs::read_to_string(built.join("service-worker.js"))?;
        let new = page.replace("<div id=\"news\"", &format!("<p id=\"mark\">{mark}</p><div id=\"news\""));
        let worker = worker.replace(&sum(&page), &sum(&new)).replace("VERSION = \"", &format!("VERSION = \"{mark}"));
        fs::write(self.folder.path().join("index.html"), new)?;
        Ok(fs::write(self.folder.path().join("service-worker.js"), worker)?)
    }
}

impl Drop for Host {
    fn drop(&mut self) {
        self.cut();
    }
}

/// The folder that `cargo page` writes.
fn built() -> Outcome<PathBuf> {
    Ok(page::built()?.with_file_name("hosted"))
}

fn sum(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().fold(String::new(), |sum, byte| sum + &format!("{byte:02x}"))
}

/// Answers with the file of the folder, and lets the browser keep nothing by itself.
fn answer(mut stream: TcpStream, folder: &Path) {
    let mut line = String::new();
    let mut reader = BufReader::new(&stream);
    let _ = reader.read_line(&mut line);
    let mut header = String::new();
    while reader.read_line(&mut header).is_ok_and(|read| read > 2) {
        header.clear();
    }
    let path = line.split(' ').nth(1).unwrap_or_default().split('?').next().unwrap_or_default();
    let name = path.strip_prefix("/loads/").unwrap_or("nothing");
    let name = if name.is_empty() { "index.html" } else { name };
    let kind = match name.rsplit('.').next() {
        Some("html") => "text/html",
        Some("js") => "text/javascript",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        _ => "application/manifest+json",
    };
    let (status, bytes) = match fs::read(folder.join(name)) {
        Ok(bytes) => ("200 OK", bytes),
        Err(_) => ("404 Not Found", Vec::new()),
    };
    let head = format!(
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\nCache-Control: no-store\r\nConnection: close\r\n\r\n",
        bytes.len()
    );
    let _ = stream.write_all(head.as_bytes()).and_then(|()| stream.write_all(&bytes));
}

/// Opens the host's page and waits until it is kept on the device and answered from there.
fn kept(engine: Engine, host: &Host) -> Outcome<Browser> {
    const KEPT: &str = "const done = arguments[0];
        navigator.serviceWorker.ready.then((registration) => done(registration.active.state), done);";
    let mut browser = Browser::open_at(engine, Setup::default(), &host.page())?;
    same("state", browser.state()?.as_deref(), Some("ready"))?;
    wait::until("the page is kept", || Ok((browser.run_async(KEPT, &[])? == "activated").then_some(())))?;
    browser.go("")?;
    let answered = browser.run("return navigator.serviceWorker.controller !== null;", &[])?;
    same("answered from the device", answered, json!(true))?;
    Ok(browser)
}

/// Loads the page anew as a user does: Firefox's driver would go past what is kept.
fn reload(browser: &Browser) -> Outcome {
    browser.run("window.old = true; setTimeout(() => location.reload());", &[])?;
    let come = "return window.old ? null : document.documentElement.dataset.state ?? null;";
    wait::until("the page has come up anew", || {
        // In the middle of the change there may be no page to ask.
        Ok(browser.run(come, &[]).is_ok_and(|state| state == "ready").then_some(()))
    })
}

fn mark(browser: &Browser) -> Outcome<String> {
    let mark = browser.run("return document.getElementById('mark')?.textContent ?? 'first';", &[])?;
    Ok(mark.as_str().unwrap_or_default().to_owned())
}

fn offered(browser: &Browser) -> Outcome<bool> {
    Ok(browser.run("return !document.getElementById('news').hidden;", &[])? == true)
}

/// Asks for a new version, as a page does that is looked at again; tells how that ended.
fn look(browser: &Browser) -> Outcome<String> {
    const LOOK: &str = "const done = arguments[0];
        navigator.serviceWorker.getRegistration().then((registration) => registration.update())
            .then((registration) => {
                const next = registration.installing;
                if (!next) { done(registration.waiting ? 'installed' : 'nothing new'); return; }
                next.addEventListener('statechange', () => done(next.state));
            }, () => done('refused'));";
    Ok(browser.run_async(LOOK, &[])?.as_str().unwrap_or_default().to_owned())
}

pub(crate) fn survives_the_network(engine: Engine) -> Outcome {
    let mut host = Host::start()?;
    let mut browser = kept(engine, &host)?;
    host.cut();
    browser.go("1/ln/a6_7")?;
    same("state without a network", browser.state()?.as_deref(), Some("ready"))?;
    let answer = browser.text("#answer")?;
    reload(&browser)?;
    same("answer after a reload", browser.text("#answer")?, answer)?;
    let asked = browser
        .run_async("const done = arguments[0]; fetch('other').then(() => done('came'), () => done('cut'));", &[])?;
    same("anything else", asked, json!("cut"))
}

pub(crate) fn updates_when_told(engine: Engine) -> Outcome {
    let host = Host::start()?;
    let mut browser = kept(engine, &host)?;
    browser.go("1/ln/a6_7")?;
    browser.click("#mine")?;
    let (fragment, answer) = (browser.fragment()?, browser.text("#answer")?);

    host.publish("second")?;
    same("the new version", look(&browser)?, "installed".to_owned())?;
    wait::until("it is offered", || Ok(offered(&browser)?.then_some(())))?;
    // Until it is told to, the old one answers, and nothing is reloaded.
    same("answer meanwhile", browser.text("#answer")?, answer.clone())?;
    reload(&browser)?;
    same("version after a reload", mark(&browser)?, "first".to_owned())?;
    wait::until("it is offered again", || Ok(offered(&browser)?.then_some(())))?;
    browser.click("#use-new")?;
    wait::until("the new version is there", || {
        // In the middle of the change there may be no page to ask.
        Ok((mark(&browser).is_ok_and(|mark| mark == "second") && browser.state()?.is_some()).then_some(()))
    })?;
    same("fragment", browser.fragment()?, fragment)?;
    same("answer", browser.text("#answer")?, answer)?;
    same("offered still", offered(&browser)?, false)
}

pub(crate) fn half_a_version_changes_nothing(engine: Engine) -> Outcome {
    let mut host = Host::start()?;
    let browser = kept(engine, &host)?;
    host.publish("second")?;
    let page = host.folder.path().join("index.html");
    let whole = fs::read(&page)?;
    // The upload broke in the middle of the page; then a picture was missing.
    fs::write(&page, whole.get(..whole.len() / 2).unwrap_or_default())?;
    same("half a page", look(&browser)?, "redundant".to_owned())?;
    fs::write(&page, whole)?;
    fs::remove_file(host.folder.path().join("icon-192.png"))?;
    same("a file short", look(&browser)?, "redundant".to_owned())?;
    same("offered", offered(&browser)?, false)?;
    host.cut();
    reload(&browser)?;
    same("state", browser.state()?.as_deref(), Some("ready"))?;
    same("version", mark(&browser)?, "first".to_owned())
}

pub(crate) fn asks_for_its_own_folder_only(engine: Engine) -> Outcome {
    let host = Host::start()?;
    let mut browser = Browser::open_at(engine, Setup::default(), &host.page())?;
    same("state", browser.state()?.as_deref(), Some("ready"))?;
    // The others need that part of the policy to be let in; WebKit does not know it, and says so.
    let unknown = |error: &String| engine == Engine::WebKit && error.ends_with("directive 'manifest-src'.");
    let errors: Vec<_> = browser.errors()?.into_iter().filter(|error| !unknown(error)).collect();
    same("errors", errors, vec![])?;
    const PLACES: &str = "return Array.from(document.querySelectorAll('[href], [src]'))
        .map((element) => element.getAttribute('href') ?? element.getAttribute('src'))
        .filter((place) => !place.startsWith('#'));";
    let places = browser.run(PLACES, &[])?;
    same("places", places, json!(["manifest.webmanifest", "icon.svg", "icon-180.png"]))?;
    let size = "const done = arguments[0]; const icon = new Image(); icon.onload = () => done(icon.naturalWidth);
        icon.onerror = () => done(0); icon.src = 'icon-180.png';";
    same("the picture is one", browser.run_async(size, &[])?, json!(180))
}
