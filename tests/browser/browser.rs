//! One browser with the page open, as a user would drive it.

use std::fs;
use std::net::{TcpListener, TcpStream};
use std::path::Path;
use std::time::{Duration, Instant};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use fantoccini::actions::{InputSource, KeyAction, KeyActions, MouseActions, PointerAction, TouchActions};
use fantoccini::elements::Element;
use fantoccini::error::CmdError;
use fantoccini::key::Key;
use fantoccini::wd::{WebDriverCompatibleCommand, WindowHandle};
use fantoccini::{Client, ClientBuilder, Locator};
use http::Method;
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};
use tempfile::TempDir;
use tokio::runtime::{Builder, Runtime};
use tokio::time::timeout;
use url::{ParseError, Url};

use crate::engine::{Engine, Setup};
use crate::leash::Leash;
use crate::{Outcome, firefox, page, wait, webkit};

/// A browser of its own, with a fresh profile; it ends, and its files go, on drop.
pub(crate) struct Browser {
    engine: Engine,
    setup: Setup,
    page: String,
    visited: Vec<String>,
    client: Client,
    runtime: Runtime,
    _driver: Leash,
    _folder: TempDir,
}

impl Browser {
    /// Opens the built file.
    pub(crate) fn open(engine: Engine) -> Outcome<Browser> {
        Browser::open_with(engine, Setup::default(), &page::built()?)
    }

    /// Opens a file in a browser that is set up otherwise.
    pub(crate) fn open_with(engine: Engine, setup: Setup, file: &Path) -> Outcome<Browser> {
        Browser::open_at(engine, setup, &format!("file://{}", file.display()))
    }

    /// Opens an address.
    pub(crate) fn open_at(engine: Engine, setup: Setup, page: &str) -> Outcome<Browser> {
        let folder = tempfile::tempdir()?;
        let output = folder.path().join("driver-output");
        let port = TcpListener::bind(("127.0.0.1", 0))?.local_addr()?.port();
        let driver = engine.driver(setup, port, folder.path())?;
        let leash = Leash::start(&driver.program, &driver.args, &driver.env, folder.path(), &output)?;
        wait::until("the driver listens", || Ok(TcpStream::connect(("127.0.0.1", port)).ok()))?;

        let runtime = Builder::new_current_thread().enable_all().build()?;
        let address = format!("http://127.0.0.1:{port}");
        let mut builder = ClientBuilder::new(HttpConnector::new());
        let client =
            runtime.block_on(builder.capabilities(driver.capabilities).connect(&address)).map_err(|error| {
                let said = fs::read_to_string(&output).unwrap_or_default();
                format!("{} did not start: {error}\n{said}", engine.name())
            })?;
        let page = page.to_owned();
        let visited = Vec::new();
        let mut browser = Browser { engine, setup, page, visited, client, runtime, _driver: leash, _folder: folder };
        browser.go("")?;
        Ok(browser)
    }

    /// Opens the page as for the first time at a fragment (without its `#`) and waits until it has come up.
    pub(crate) fn go(&mut self, fragment: &str) -> Outcome {
        let hash = if fragment.is_empty() { "" } else { "#" };
        let address = format!("{}{hash}{fragment}", self.page);
        self.run("try { localStorage.clear(); } catch (error) { /* nothing is kept */ }", &[])?;
        // Between two fragments of one page a browser would stay on it.
        self.runtime.block_on(self.client.goto("about:blank"))?;
        self.runtime.block_on(self.client.goto(&address))?;
        self.come_up()
    }

    /// Opens the page anew as it is.
    pub(crate) fn reload(&mut self) -> Outcome {
        self.runtime.block_on(self.client.refresh())?;
        self.come_up()
    }

    /// Opens another window beside this one and works in that; by what is given back it goes back to this one.
    pub(crate) fn another_window(&mut self) -> Outcome<WindowHandle> {
        let first = self.runtime.block_on(async {
            let first = self.client.window().await?;
            let window = self.client.new_window(false).await?;
            self.client.switch_to_window(window.handle).await?;
            self.client.goto(&self.page).await.map(|()| first)
        })?;
        self.come_up()?;
        Ok(first)
    }

    pub(crate) fn switch_to(&self, window: WindowHandle) -> Outcome {
        Ok(self.runtime.block_on(self.client.switch_to_window(window))?)
    }

    fn come_up(&mut self) -> Outcome {
        if self.engine == Engine::WebKit {
            self.visited.push(self.address()?);
            self.run(webkit::NOTE_ERRORS, &[])?;
        }
        if self.setup.scripts
            && let Err(failed) = wait::until("the page has come up", || Ok(self.state()?.map(drop)))
        {
            let failed = failed.message().unwrap_or_default();
            return Err(format!("{failed}; errors: {:?}", self.errors()?).into());
        }
        Ok(())
    }

    /// What the page says of itself: `ready`, `no-wasm` or `failed`, or nothing yet.
    pub(crate) fn state(&self) -> Outcome<Option<String>> {
        let state = self.run("return document.documentElement.dataset.state ?? null;", &[])?;
        Ok(state.as_str().map(str::to_owned))
    }

    /// The whole address.
    pub(crate) fn address(&self) -> Outcome<String> {
        Ok(self.runtime.block_on(self.client.current_url())?.to_string())
    }

    /// The fragment of the address, without its `#`.
    pub(crate) fn fragment(&self) -> Outcome<String> {
        Ok(self.address()?.split_once('#').map(|(_, fragment)| fragment.to_owned()).unwrap_or_default())
    }

    /// The text of an element as the user sees it; nothing that is hidden.
    pub(crate) fn text(&self, css: &str) -> Outcome<String> {
        self.at(css, async |element| element.text().await)
    }

    /// What stands in an entry or is chosen in a list.
    pub(crate) fn value(&self, css: &str) -> Outcome<String> {
        Ok(self.at(css, async |element| element.prop("value").await)?.unwrap_or_default())
    }

    /// Puts a text in the place of what stands in an entry, as with a keyboard, and leaves the entry.
    pub(crate) fn type_into(&self, css: &str, text: &str) -> Outcome {
        // On a busy machine WebKit now and then loses a click, as a hand would: look before typing, so that no key
        // goes into another entry.
        let focused = "return document.activeElement === document.querySelector(arguments[0]);";
        wait::until("the entry has the focus", || {
            self.click(css)?;
            Ok((self.run(focused, &[json!(css)])? == true).then_some(()))
        })?;
        // In one go, not by keys: where WebKit loses what was selected before a key arrives, one character would go, and
        // what is left be read.
        let erase = "document.querySelector(arguments[0]).select(); document.execCommand('delete');";
        wait::until("the entry is empty", || {
            self.run(erase, &[json!(css)])?;
            Ok(self.value(css)?.is_empty().then_some(()))
        })?;
        for key in text.chars().chain([Key::Tab.into()]) {
            self.press(&[key])?;
        }
        Ok(())
    }

    /// Presses keys one after the other, then lets them all go, wherever the focus is.
    pub(crate) fn press(&self, keys: &[char]) -> Outcome {
        let down = keys.iter().map(|&value| KeyAction::Down { value });
        let up = keys.iter().rev().map(|&value| KeyAction::Up { value });
        let actions = down.chain(up).fold(KeyActions::new("keyboard".to_owned()), KeyActions::then);
        Ok(self.runtime.block_on(self.client.perform_actions(actions))?)
    }

    /// Moves the mouse or a finger; what is down stays down.
    pub(crate) fn point(&self, finger: bool, actions: Vec<PointerAction>) -> Outcome {
        let done = if finger {
            let finger = actions.into_iter().fold(TouchActions::new("finger".to_owned()), TouchActions::then);
            self.runtime.block_on(self.client.perform_actions(finger))
        } else {
            let mouse = actions.into_iter().fold(MouseActions::new("mouse".to_owned()), MouseActions::then);
            self.runtime.block_on(self.client.perform_actions(mouse))
        };
        Ok(done?)
    }

    /// Presses and lets go one key so many times.
    pub(crate) fn press_often(&self, key: char, times: usize) -> Outcome {
        let press = [KeyAction::Down { value: key }, KeyAction::Up { value: key }];
        let actions = press.into_iter().cycle().take(2 * times);
        let actions = actions.fold(KeyActions::new("keyboard".to_owned()), KeyActions::then);
        Ok(self.runtime.block_on(self.client.perform_actions(actions))?)
    }

    /// Clicks the middle of an element, brought to the middle of the screen: some stand above it at its edge.
    pub(crate) fn click(&self, css: &str) -> Outcome {
        let bring = "document.querySelector(arguments[0])?.scrollIntoView({ block: 'center' });";
        self.run(bring, &[json!(css)])?;
        self.at(css, async |element| element.click().await)
    }

    /// Chooses from a list by value.
    pub(crate) fn choose(&self, css: &str, value: &str) -> Outcome {
        self.at(css, async |element| element.select_by_value(value).await)
    }

    /// What went wrong since the last call; see [`Engine::errors`].
    pub(crate) fn errors(&mut self) -> Outcome<Vec<String>> {
        self.engine.errors(self)
    }

    /// The addresses opened since the last call.
    pub(crate) fn visited(&mut self) -> Vec<String> {
        std::mem::take(&mut self.visited)
    }

    /// Makes the page so many CSS pixels wide; with `SCREENS=1` keeps a picture of all of it, to be looked at.
    pub(crate) fn look(&mut self, width: u32, name: &str) -> Outcome {
        if std::env::var_os("SCREENS").is_none() {
            return self.window(width, 640);
        }
        self.resize(width)?;
        self.painted()?;
        let picture = self.runtime.block_on(self.client.screenshot())?;
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("screens");
        let theme = if self.setup.dark { "dark" } else { "light" };
        fs::create_dir_all(&folder)?;
        Ok(fs::write(folder.join(format!("{name}-{width}-{theme}-{}.png", self.engine.name())), picture)?)
    }

    /// Prints what is open to a PDF of this width and height in cm.
    pub(crate) fn pdf(&self, wide: f64, high: f64) -> Outcome<Vec<u8>> {
        let page = json!({ "page": { "width": wide, "height": high }, "shrinkToFit": false });
        let text = self.command("print", page)?;
        Ok(STANDARD.decode(text.as_str().unwrap_or_default())?)
    }

    /// Waits until what is there now has been painted: WebKit hands out the picture before.
    fn painted(&self) -> Outcome {
        const FRAMES: &str = "const done = arguments[0]; let left = 5;
            const next = () => { left -= 1; left > 0 ? requestAnimationFrame(next) : setTimeout(done, 300, null); };
            next();";
        self.run_async(FRAMES, &[]).map(drop)
    }

    /// Makes what is seen of the page so many CSS pixels wide and high.
    pub(crate) fn window(&mut self, width: u32, height: u32) -> Outcome {
        if self.engine == Engine::Firefox {
            firefox::narrow(self, width)?;
        }
        let width = if self.engine == Engine::WebKit { width.max(webkit::NARROWEST) } else { width };
        let size = "return [window.innerWidth, window.innerHeight];";
        // Windows far higher than any screen come out lower in Firefox.
        let arrived = |size: &Value| size[0] == width && (size[1] == height || height > 2000);
        let (mut got, mut asked) = (Value::Null, None::<Instant>);
        wait::until("the page has its size", || {
            // The frame may have been measured while the window before it was still settling: then it is asked again.
            if asked.is_none_or(|asked| asked.elapsed() > Duration::from_secs(3)) {
                let frame = self.run("return window.outerHeight - window.innerHeight;", &[])?.as_u64();
                let high = height + frame.unwrap_or_default() as u32;
                self.runtime.block_on(self.client.set_window_size(width, high))?;
                asked = Some(Instant::now());
            }
            got = self.run(size, &[])?;
            Ok(arrived(&got).then_some(()))
        })
        .map_err(|failed| {
            format!("{}: {got} in place of {width} × {height}", failed.message().unwrap_or_default()).into()
        })
    }

    /// Makes the page so many CSS pixels wide and as high as what is on it.
    pub(crate) fn resize(&mut self, width: u32) -> Outcome {
        // The first size settles how high the page is at this width.
        self.window(width, 640)?;
        let height = self.run("return document.documentElement.scrollHeight;", &[])?;
        self.window(width, serde_json::from_value(height)?)
    }

    /// Runs a script in the page, as the body of a function.
    pub(crate) fn run(&self, script: &str, arguments: &[Value]) -> Outcome<Value> {
        let run = || self.runtime.block_on(self.client.execute(script, arguments.to_vec()));
        let outcome = run();
        // On a starved machine WebKit's driver now and then loses what a script gave.
        let lost = |error: &CmdError| error.to_string().contains("Could not parse script result");
        Ok(if self.engine == Engine::WebKit && outcome.as_ref().is_err_and(lost) { run()? } else { outcome? })
    }

    /// Runs a script in the page that calls its last argument with what it gives.
    pub(crate) fn run_async(&self, script: &str, arguments: &[Value]) -> Outcome<Value> {
        Ok(self.runtime.block_on(self.client.execute_async(script, arguments.to_vec()))?)
    }

    /// Sends the driver a command of its own, with the path after the session.
    pub(crate) fn command(&self, path: &'static str, body: Value) -> Outcome<Value> {
        Ok(self.runtime.block_on(self.client.issue_cmd(Post { path, body }))?)
    }

    /// Asks Chromium for what only its developer tools can do.
    pub(crate) fn devtools(&self, command: &str, params: Value) -> Outcome {
        self.command("goog/cdp/execute", json!({ "cmd": command, "params": params })).map(drop)
    }

    /// Finds an element and asks it something; finds it again where the page laid it out anew between the two.
    fn at<T>(&self, css: &str, ask: impl AsyncFn(Element) -> Result<T, CmdError>) -> Outcome<T> {
        wait::until(&format!("{css} stays to be asked"), || {
            let asked = async { ask(self.client.find(Locator::Css(css)).await?).await };
            match self.runtime.block_on(asked) {
                Err(error) if error.is_stale_element_reference() => Ok(None),
                asked => Ok(Some(asked.map_err(|error| format!("{css}: {error}"))?)),
            }
        })
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        let close = async { timeout(Duration::from_secs(10), self.client.clone().close()).await };
        if !matches!(self.runtime.block_on(close), Ok(Ok(()))) {
            eprintln!("{} did not close by itself", self.engine.name());
        }
    }
}

/// A command that is not in the standard.
#[derive(Debug)]
struct Post {
    path: &'static str,
    body: Value,
}

impl WebDriverCompatibleCommand for Post {
    fn endpoint(&self, base: &Url, session: Option<&str>) -> Result<Url, ParseError> {
        base.join(&format!("session/{}/{}", session.unwrap_or_default(), self.path))
    }

    fn method_and_body(&self, _: &Url) -> (Method, Option<String>) {
        (Method::POST, Some(self.body.to_string()))
    }
}
