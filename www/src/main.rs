//! Packs the page: builds the module, makes its glue, and writes one file that asks for nothing else; beside it, a
//! folder for a server with the same page in it.
//!
//! Run as `cargo page`. The steps are the lines of [`pack`], in their order. A page above its budget is written all the
//! same and told; with `cargo page -- --strict`, as `tests/run` has it, that is a failure too.

mod alike;
mod budget;
mod dense;
mod hosted;
mod icon;
mod inline;
mod module;
mod notices;
#[cfg(test)]
mod palette;
mod policy;
mod shell;

use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use rigging_core::published::{Checked, Row, check};

use crate::budget::Sizes;
use crate::inline::{Script, Style};
use crate::module::Module;

/// What a step of the packer hands on, or why it could not.
type Outcome<T> = Result<T, Box<dyn Error>>;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let strict = match arguments.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        [] => false,
        ["--strict"] => true,
        other => {
            eprintln!("cargo page takes no argument but --strict, got: {}", other.join(" "));
            return ExitCode::FAILURE;
        }
    };
    match pack(Path::new(env!("CARGO_MANIFEST_DIR"))) {
        Ok((file, sizes)) => {
            println!("{}", file.display());
            print!("{sizes}");
            let over = sizes.over_budget();
            if let Some(words) = &over {
                eprintln!("{}: the page was written, and is larger than it should be: {words}", told(strict));
            }
            if strict && over.is_some() { ExitCode::FAILURE } else { ExitCode::SUCCESS }
        }
        Err(error) => {
            eprintln!("The page was not packed: {error}");
            ExitCode::FAILURE
        }
    }
}

/// What a page above its budget is.
const fn told(strict: bool) -> &'static str {
    if strict { "error" } else { "warning" }
}

/// Packs the page whose parts lie in `folder`; gives the file written and its sizes.
fn pack(folder: &Path) -> Outcome<(PathBuf, Sizes)> {
    module::add_target()?;
    let Module { glue, wasm } = module::glue(&module::build(folder)?)?;
    let wasm = alike::alike(&wasm)?;

    let [style, screens] =
        ["style.css", "screens.css"].map(|name| Style::new(&inline::bare_style(&read(folder, name)?)?));
    let (style, screens) = (style?, screens?);
    let script = scripts(folder, &["unpack.js", "reach.js", "copies.js", "start.js"])?;
    // What needs the module comes packed with it: what is read before it starts is small.
    let within = scripts(folder, &["hands.js", "plans.js", "shell.js"])?;
    let within = Script::new(&(inline::bare_script(&instance(&glue)?)? + "\n" + within.text()))?;
    let outline = read(folder, "shell.html")?;
    let address = shell::Address::new(read(folder, "hosted-address.txt")?.trim())?;
    let (notices, licences) = notices::read(folder)?;
    let tables = rigging_web::still_tables(&checks(&folder.join("../tests/published"))?, &notices);
    let tables = inline::bare_html(&tables);
    let packed =
        dense::dense(&module::packed(&[screens.text().as_bytes(), b"\0", within.text().as_bytes(), &wasm].concat())?);
    let page = |copy: &str, policy: &str, links: &str| {
        let parts = [
            ("copy", copy),
            ("address", address.text()),
            ("policy", policy),
            ("links", links),
            ("style", style.text()),
            ("still", &inline::bare_html(&rigging_web::still_page())),
            ("tables", &tables),
            ("module", &packed),
            ("script", script.text()),
        ];
        shell::fill(&outline, &parts)
    };
    let policy = policy::policy(&[&script, &within], &[&style, &screens]);
    let single = page("file", &policy, "")?;
    // Among so many letters of data some look like the beginning of an address.
    shell::refuse_addresses(&single.replacen(&packed, within.text(), 1), &address)?;
    let hosted = page("hosted", &policy::hosted(&policy), hosted::LINKS)?;

    let sizes = Sizes::measure(&wasm, single.as_bytes())?;
    let dist = folder.join("dist");
    let file = dist.join("rigging-loads.html");
    fs::create_dir_all(&dist)?;
    fs::write(&file, single).map_err(|error| format!("{}: {error}", file.display()))?;
    fs::write(dist.join(hosted::LICENCES), &licences)?;
    hosted::write(&dist.join("hosted"), &hosted, &licences, &read(folder, "service-worker.js")?)?;
    Ok((file, sizes))
}

/// Some files of scripts as one.
fn scripts(folder: &Path, names: &[&str]) -> Outcome<Script> {
    let mut script = String::new();
    for name in names {
        script += &(read(folder, name)? + "\n");
    }
    Script::new(&inline::bare_script(&script)?)
}

/// Long names that the glue gives to what is its own, and that nothing else calls.
const OWN: [&str; 14] = [
    "passStringToWasm0",
    "getStringFromWasm0",
    "getUint8ArrayMemory0",
    "cachedUint8ArrayMemory0",
    "cachedTextDecoder",
    "cachedTextEncoder",
    "decodeText",
    "WASM_VECTOR_LEN",
    "wasmInstance",
    "wasmModule",
    "__wbg_get_imports",
    "__wbg_finalize_init",
    "__wbg_init_promise",
    "__wbg_init_once",
];

/// The glue as a function that makes a new instance of the module at each call: one that stopped is not used again.
/// Its own names are short, and begin with a sign that begins no other: a kilobyte of the file.
fn instance(glue: &str) -> Outcome<String> {
    if glue.contains('$') {
        return Err("the glue uses the sign that its short names begin with".into());
    }
    if let Some(name) = OWN.iter().find(|name| !glue.contains(**name)) {
        return Err(format!("the glue has nothing called {name} any more").into());
    }
    let short = |glue: String, (place, name): (usize, &&str)| glue.replace(name, &format!("${place}"));
    let glue = OWN.iter().enumerate().fold(glue.to_owned(), short);
    Ok(["function instance() {\n", &glue, "\nreturn wasm_bindgen;\n}"].concat())
}

/// The published answers that the tests read, each beside this library's own.
fn checks(folder: &Path) -> Outcome<Vec<(Row, Vec<Checked>)>> {
    let mut files = Vec::new();
    for file in fs::read_dir(folder)? {
        files.push(file?.path());
    }
    files.retain(|path| path.extension().is_some_and(|ending| ending == "json"));
    files.sort();
    let mut checks = Vec::new();
    for file in files {
        let rows: Vec<Row> = serde_json::from_str(&fs::read_to_string(&file)?)
            .map_err(|error| format!("{}: {error}", file.display()))?;
        for row in rows {
            let values = check(&row)?;
            checks.push((row, values));
        }
    }
    Ok(checks)
}

/// Reads one part of the page, with line ends as the browser will see them.
fn read(folder: &Path, name: &str) -> Outcome<String> {
    let path = folder.join(name);
    let text = fs::read_to_string(&path).map_err(|error| format!("{}: {error}", path.display()))?;
    Ok(text.replace("\r\n", "\n"))
}

#[cfg(test)]
mod tests {
    use super::{OWN, instance};

    #[test]
    fn names_of_the_glue_alone_are_short_and_stay_apart() {
        let glue = OWN.join(";");
        let short: Vec<String> = (0..OWN.len()).map(|place| format!("${place}")).collect();
        let made = instance(&glue).expect("it is made");
        assert!(made.contains(&short.join(";")), "{made}");
        assert!(instance(&(glue + "`${'name'}`")).is_err() && instance("").is_err());
    }
}
