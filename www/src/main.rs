//! Packs the page: builds the module, makes its glue, and writes one file that asks for nothing else.
//!
//! Run as `cargo page`. The steps are the lines of [`pack`], in their order.

mod budget;
mod dense;
mod inline;
mod module;
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
    match pack(Path::new(env!("CARGO_MANIFEST_DIR"))) {
        Ok((file, sizes)) => {
            println!("{}", file.display());
            print!("{sizes}");
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("The page was not packed: {error}");
            ExitCode::FAILURE
        }
    }
}

/// Packs the page whose parts lie in `folder`; gives the file written and its sizes.
fn pack(folder: &Path) -> Outcome<(PathBuf, Sizes)> {
    module::add_target()?;
    let Module { glue, wasm } = module::glue(&module::build(folder)?)?;

    let style = Style::new(&read(folder, "style.css")?)?;
    let script = Script::new(&[instance(&glue), read(folder, "unpack.js")?, read(folder, "shell.js")?].join("\n"))?;
    let packed = dense::dense(&module::packed(&wasm)?);
    let page = shell::fill(
        &read(folder, "shell.html")?,
        &[
            ("policy", &policy::policy(&script, &style)),
            ("style", style.text()),
            ("still", &rigging_web::still_page()),
            ("tables", &rigging_web::still_tables(&checks(&folder.join("../tests/published"))?)),
            ("module", &packed),
            ("script", script.text()),
        ],
    )?;
    // Among so many letters of data some look like the beginning of an address.
    shell::refuse_addresses(&page.replacen(&packed, "", 1))?;

    let sizes = Sizes::measure(&wasm, page.as_bytes())?;
    let file = folder.join("dist").join("rigging-loads.html");
    fs::create_dir_all(folder.join("dist"))?;
    fs::write(&file, page).map_err(|error| format!("{}: {error}", file.display()))?;
    sizes.keep_to_budget()?;
    Ok((file, sizes))
}

/// The glue as a function that makes a new instance of the module at each call: one that stopped is not used again.
fn instance(glue: &str) -> String {
    ["function instance() {\n", glue, "\nreturn wasm_bindgen;\n}"].concat()
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
