//! The sheet of paper, printed by the browser to PDF and read by programs that are none of ours.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use rqrr::PreparedImage;
use serde_json::json;

use crate::browser::Browser;
use crate::engine::Engine;
use crate::leash::program;
use crate::{Outcome, same, wait};

/// ISO 216 and ANSI/ASME Y14.1: width and height in cm.
pub(crate) const PAPERS: [(&str, f64, f64); 2] = [("a4", 21.0, 29.7), ("letter", 21.59, 27.94)];

/// Each question as its example, and in the state in which one list and the counts give it most to say, in the longer
/// units; that one is confirmed as the user's own, so that every limit gives its reason.
const STATES: [(&str, &str); 26] = [
    ("anchor-legs", "1/al"),
    ("anchor-legs-most", "1/al/N6/l10/Upf"),
    ("natural-anchor", "1/na"),
    ("natural-anchor-most", "1/na/Upf"),
    ("bend", "1/bd"),
    ("bend-most", "1/bd/c3/l3/Upf"),
    ("line", "1/ln"),
    ("line-most", "1/ln/i3/l10/Upf"),
    ("rope", "1/rp"),
    ("rope-most", "1/rp/b3/Upf"),
    ("abseil", "1/ab"),
    ("abseil-most", "1/ab/g2/Upf"),
    ("guided-abseil", "1/ga"),
    ("guided-abseil-most", "1/ga/l10/Upf"),
    ("in-the-current", "1/cu"),
    ("in-the-current-most", "1/cu/a0/Upf"),
    ("human-anchor", "1/ha"),
    ("human-anchor-most", "1/ha/a6/s0/Upf"),
    ("slip", "1/sl"),
    ("slip-most", "1/sl/a5/Upf"),
    ("raise-lower", "1/rl"),
    ("raise-lower-most", "1/rl/b6/l10/Upf"),
    ("pull-down", "1/pd"),
    ("pull-down-most", "1/pd/s3/Upf"),
    ("weakest-part", "1/wp"),
    ("weakest-part-most", "1/wp/I34/Upf"),
];

/// A printed sheet.
pub(crate) struct Printed {
    file: PathBuf,
}

impl Printed {
    /// Prints what is open on a paper, and keeps it to be looked at.
    pub(crate) fn new(
        browser: &Browser,
        engine: Engine,
        name: &str,
        (paper, wide, high): (&str, f64, f64),
    ) -> Outcome<Printed> {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("screens");
        fs::create_dir_all(&folder)?;
        let file = folder.join(format!("{name}-{paper}-{}.pdf", engine.name()));
        fs::write(&file, browser.pdf(wide, high)?)?;
        Ok(Printed { file })
    }

    /// What a program of poppler writes to its output about the file.
    fn told(&self, tool: &str, options: &[&str], end: &[&str]) -> Outcome<Vec<u8>> {
        let output = Command::new(program(tool, "the Debian package poppler-utils")?)
            .args(options)
            .arg(&self.file)
            .args(end)
            .output()?;
        Ok(output.stdout)
    }

    pub(crate) fn pages(&self) -> Outcome<usize> {
        let text = String::from_utf8(self.told("pdfinfo", &[], &[])?)?;
        let pages = text.lines().find_map(|line| line.strip_prefix("Pages:")).unwrap_or_default();
        Ok(pages.trim().parse()?)
    }

    /// The words, apart by one space each.
    fn text(&self) -> Outcome<String> {
        Ok(tidy(&String::from_utf8(self.told("pdftotext", &[], &["-"])?)?))
    }

    /// Words nearer to an edge than most printers reach, 10 points; the number of the page stands in the margin.
    fn beyond(&self) -> Outcome<Vec<String>> {
        let text = String::from_utf8(self.told("pdftotext", &["-bbox"], &["-"])?)?;
        let number = |line: &str, name: &str| {
            let value = line.split_once(&format!("{name}=\"")).and_then(|(_, rest)| rest.split('"').next());
            value.and_then(|value| value.parse::<f64>().ok()).unwrap_or(f64::NAN)
        };
        let (mut wide, mut high, mut beyond) = (f64::NAN, f64::NAN, Vec::new());
        for line in text.lines().map(str::trim) {
            if line.starts_with("<page") {
                (wide, high) = (number(line, "width"), number(line, "height"));
            } else if line.starts_with("<word") {
                const EDGE: f64 = 10.0;
                let inside = number(line, "xMin") >= EDGE
                    && number(line, "xMax") <= wide - EDGE
                    && number(line, "yMin") >= EDGE
                    && number(line, "yMax") <= high - EDGE;
                if !inside {
                    beyond.push(line.to_owned());
                }
            }
        }
        Ok(beyond)
    }

    /// What the code on the last page says, read from a picture of the page as a camera would.
    fn code(&self) -> Outcome<String> {
        let last = self.pages()?.to_string();
        let picture = self.told("pdftoppm", &["-gray", "-r", "300", "-f", &last, "-l", &last], &[])?;
        // Portable graymap: "P5 width height 255" and the points.
        let mut parts = picture.splitn(4, u8::is_ascii_whitespace).skip(1);
        let mut size = || {
            let part = parts.next().and_then(|part| std::str::from_utf8(part).ok());
            part.and_then(|part| part.parse::<usize>().ok()).unwrap_or_default()
        };
        let (wide, high) = (size(), size());
        let points = parts.next().and_then(|rest| rest.get(4..)).unwrap_or_default();
        let grey = |x, y| points.get(y * wide + x).copied().unwrap_or_default();
        let mut picture = PreparedImage::prepare_from_greyscale(wide, high, grey);
        let read = picture.detect_grids().first().map(|grid| grid.decode().map(|(_, text)| text));
        Ok(read.ok_or("no code is on the last page")?.map_err(|error| error.to_string())?)
    }
}

fn tidy(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

pub(crate) fn prints(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    let mut wrong = Vec::new();
    for (name, fragment) in STATES {
        browser.go(fragment)?;
        let mine = name.ends_with("-most");
        if mine {
            browser.click("#mine")?;
        }
        let fragment = browser.fragment()?;
        let version = concat!("Version ", env!("CARGO_PKG_VERSION"));
        let [title, big, first] = ["h1", "#headline strong", ".entry:not([hidden]) label, .entry:not([hidden]) .label"]
            .map(|part| browser.text(part));
        let first = first?.split(" (").next().unwrap_or_default().to_owned();
        for paper in PAPERS {
            let printed = Printed::new(&browser, engine, name, paper)?;
            let (pages, text, beyond) = (printed.pages()?, printed.text()?, printed.beyond()?);
            if pages > 2 {
                wrong.push(format!("{name} takes {pages} pages of {}", paper.0));
            }
            if !beyond.is_empty() {
                wrong.push(format!("{name} is cut on {}: {beyond:?}", paper.0));
            }
            let whose = if mine { "MINE. Last touched 20" } else { "EXAMPLE, not your numbers" };
            let limit = if ["rp", "pd"].iter().any(|key| fragment.contains(key)) { "Also found" } else { "Limit: " };
            for words in [
                title.as_deref().unwrap_or_default(),
                whose,
                "Printed 20",
                version,
                "Date:",
                "Water at the mark:",
                "Seen by:",
                "Blank means: not valid.",
                &first,
                big.as_deref().unwrap_or_default(),
                limit,
                "What is not in these numbers",
                "Cautions",
                "Notes",
                &format!("#{fragment}"),
            ] {
                if words.is_empty() || !text.contains(&tidy(words)) {
                    wrong.push(format!("{name}: {words:?} is not on {}", paper.0));
                }
            }
        }
    }
    same("sheets", wrong, vec![])
}

pub(crate) fn code(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    for fragment in ["1/ln", "1/ln/a6_7/Upf", "1/al/N6/q0/l1/o90/Upf"] {
        browser.go(fragment)?;
        let fragment = browser.fragment()?;
        for paper in PAPERS {
            let printed = Printed::new(&browser, engine, "code", paper)?;
            same("code", printed.code()?, format!("#{fragment}"))?;
        }
    }
    Ok(())
}

/// Shows the sheet as it is printed.
const ON_SCREEN: &str = r#"
    for (const rule of Array.from(document.styleSheets).flatMap(({ cssRules }) => Array.from(cssRules))) {
        if (rule instanceof CSSMediaRule && rule.media.mediaText === "print") { rule.media.mediaText = "all"; }
    }
    dispatchEvent(new Event("beforeprint"));"#;

/// What reaches beyond the sheet. WebKit measures what is zoomed in its own, larger pixels.
const WIDE: &str = r#"
    const zoom = (element) => (element ? zoom(element.parentElement) * (parseFloat(getComputedStyle(element).zoom) || 1) : 1);
    const edge = document.getElementById("paper").getBoundingClientRect().right;
    return [edge, Array.from(document.querySelectorAll('#paper *'))
        .map((element) => [element, element.getBoundingClientRect().right * (arguments[0] ? zoom(element) : 1) - edge])
        .filter(([, over]) => over > 0.5)
        .map(([element, over]) => `${over.toFixed(1)} px: ${element.outerHTML.slice(0, 200)}`)];"#;

pub(crate) fn fits(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    for (name, fragment) in STATES {
        browser.go(fragment)?;
        browser.run(ON_SCREEN, &[])?;
        // A4 without its margins: 186 mm.
        browser.resize(703)?;
        let measure = || -> Outcome<(f64, Vec<String>)> {
            Ok(serde_json::from_value(browser.run(WIDE, &[json!(engine == Engine::WebKit)])?)?)
        };
        let (mut edge, mut wide) = measure()?;
        // A window on a starved machine takes its time to come to its size.
        for _ in 0..50 {
            if edge > 600.0 {
                break;
            }
            std::thread::sleep(std::time::Duration::from_millis(100));
            (edge, wide) = measure()?;
        }
        same(&format!("{name}: the sheet is there"), edge > 600.0, true)?;
        same(&format!("{name}: what is wider"), wide, vec![])?;
        same(
            "the screen",
            browser.run("return document.getElementById('app').checkVisibility();", &[])?,
            json!(false),
        )?;
    }
    Ok(())
}

pub(crate) fn asked_for(engine: Engine) -> Outcome {
    let mut browser = Browser::open(engine)?;
    browser.go("1/ln")?;
    browser.run("window.times = 0; window.print = () => { window.times += 1; };", &[])?;
    browser.click("#print")?;
    wait::until("it is printed", || Ok((browser.run("return window.times;", &[])? == 1).then_some(())))?;
    let sheet = || browser.run("return document.getElementById('paper').innerText;", &[]);
    same("sheet", sheet()?.to_string().contains("7.5"), true)?;
    // What was put there for this printing is not replaced by it.
    let before = "document.getElementById('paper').textContent = 'prepared'; dispatchEvent(new Event('beforeprint'));";
    browser.run(before, &[])?;
    same("prepared", sheet()?, json!("prepared"))?;
    browser.type_into("#span_m-low", "6.25")?;
    browser.run(before, &[])?;
    same("anew", sheet()?.to_string().contains("6.25"), true)?;
    same("errors", browser.errors()?, vec![])
}
