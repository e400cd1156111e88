//! From the crate of screens to a WebAssembly module and the script that calls it.

use std::env;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use lzma_rust2::{LzmaOptions, LzmaWriter};
use wasm_bindgen_cli_support::Bindgen;

use crate::Outcome;

pub(crate) const TARGET: &str = "wasm32-unknown-unknown";
pub(crate) const PACKAGE: &str = "rigging-web";

/// The module and the classic script that defines `wasm_bindgen`, the function that starts it.
pub(crate) struct Module {
    /// The script.
    pub(crate) glue: String,
    /// The module.
    pub(crate) wasm: Vec<u8>,
}

/// Adds the wasm target to the toolchain unless it is there.
pub(crate) fn add_target() -> Outcome<()> {
    let libraries = output(Command::new("rustc").args(["--print", "target-libdir", "--target", TARGET]))?;
    if Path::new(libraries.trim()).is_dir() {
        return Ok(());
    }
    run(Command::new("rustup").args(["target", "add", TARGET]))
}

/// Asks Cargo something about the workspace that holds `folder`.
pub(crate) fn cargo(folder: &Path, arguments: &[&str]) -> Outcome<String> {
    let cargo = env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(cargo);
    output(command.current_dir(folder).env("CARGO_ENCODED_RUSTFLAGS", anonymous_paths(folder)).args(arguments))
}

/// Builds the module in the workspace that holds `folder`; gives the file that Cargo says it wrote.
pub(crate) fn build(folder: &Path) -> Outcome<PathBuf> {
    let build = ["build", "--quiet", "--release", "--locked", "--target", TARGET, "--package", PACKAGE];
    let messages = cargo(folder, &[build.as_slice(), &["--message-format", "json-render-diagnostics"]].concat())?;
    wasm_file(&messages).ok_or_else(|| format!("cargo built no .wasm file of {PACKAGE}").into())
}

/// Flags after which the module tells nothing of who built it, and where: panics name the files they stand in.
fn anonymous_paths(folder: &Path) -> String {
    // Parted by a sign that no path holds: with spaces between them a folder with a space in its name is two flags.
    let mut flags: Vec<_> = env::var("RUSTFLAGS").unwrap_or_default().split_whitespace().map(str::to_owned).collect();
    let mut hide = |path: &Path, name: &str| flags.push(format!("--remap-path-prefix={}={name}", path.display()));
    if let Some(home) = env::home_dir() {
        hide(&home, "home");
    }
    if let Some(cargo) = env::var_os("CARGO_HOME") {
        hide(Path::new(&cargo), "cargo");
    }
    hide(folder, "www");
    flags.join("\x1f")
}

/// Finds the module among the JSON lines that Cargo prints, so that any target folder will do.
fn wasm_file(messages: &str) -> Option<PathBuf> {
    messages
        .lines()
        .filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok())
        .filter(|message| message.pointer("/target/name").is_some_and(|name| *name == PACKAGE.replace('-', "_")))
        .find_map(|message| {
            let files = message.get("filenames")?.as_array()?;
            let file = files.iter().filter_map(|file| file.as_str()).find(|file| file.ends_with(".wasm"))?;
            Some(PathBuf::from(file))
        })
}

/// Makes the script that a page needs to call the module, and the module that fits it.
/// A module that asks for script files of its own is refused: a classic script cannot import them.
pub(crate) fn glue(file: &Path) -> Outcome<Module> {
    let mut output = Bindgen::new()
        .input_path(file)
        .no_modules(true)?
        .typescript(false)
        .omit_default_module_path(true)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate_output()?;
    Ok(Module { glue: lean(output.js())?, wasm: output.wasm_mut().emit_wasm() })
}

/// The glue without its other ways to start a module: this one has its bytes at hand, and asks for nothing. Nor is it given
/// back in parts: one that stops is dropped whole.
fn lean(glue: &str) -> Outcome<String> {
    let mut lean = glue.replacen("{ initSync }, ", "", 1);
    for (from, until, instead) in [
        ("let script_src;", "class Module", ""),
        ("function initSync(module) {", "let __wbg_init_promise;", ""),
        ("function expectedResponseType(type) {", "let __wbg_init_promise;", "}\n"),
        (
            "if (typeof Response === 'function'",
            "const instance = await WebAssembly.instantiate(module, imports);",
            "{ ",
        ),
        ("if (typeof module_or_path === 'string'", "const { instance, module } = await __wbg_load(", ""),
        (
            "if (module_or_path !== undefined) {",
            "const imports = __wbg_get_imports();",
            "({module_or_path} = module_or_path);\n",
        ),
        ("if (instance instanceof WebAssembly.Instance) {", "return instance;", "{ "),
        ("__destroy_into_raw() {", "go(fragment, memory, now) {", ""),
        ("ModuleFinalization.register(", "return this;", ""),
        ("if (Symbol.dispose) Module", "exports.Module = Module;", ""),
        ("const ModuleFinalization = ", "function getStringFromWasm0(", ""),
        (
            "arg, malloc, realloc) {",
            "let len = arg.length;",
            "arg) {\nconst malloc = wasm.__wbindgen_malloc, realloc = wasm.__wbindgen_realloc;\n",
        ),
        ("if (!('encodeInto' in cachedTextEncoder)) {", "let WASM_VECTOR_LEN", ""),
    ] {
        cut(&mut lean, from, until, instead)?;
    }
    while lean.contains("if (ptr") {
        cut(&mut lean, "if (ptr", "throw e;", "")?;
    }
    // What is given back at once needs no name.
    while let Some(at) = lean.find("const ret = ").filter(|_| lean.contains("return ret;")) {
        let (before, rest) = lean.split_at(at);
        let lines: Vec<&str> = rest.splitn(3, '\n').collect();
        match lines[..] {
            [first, next, rest] if next.trim() == "return ret;" => {
                lean = [before, &first.replacen("const ret =", "return", 1), "\n", rest].concat();
            }
            _ => lean = [before, "let ret = ", rest.trim_start_matches("const ret = ")].concat(),
        }
    }
    // What is caught is thrown on.
    while lean.contains("} catch") {
        cut(&mut lean, "try {", "ptr0 =", "")?;
        cut(&mut lean, "} catch", "return wasm", "")?;
    }
    // Every text is handed over in the same memory: said once, not by each that hands one over.
    lean = lean.replace(", wasm.__wbindgen_malloc, wasm.__wbindgen_realloc)", ")");
    Ok(lean)
}

/// Puts something in the place of what stands from one text up to the next.
fn cut(text: &mut String, from: &str, until: &str, instead: &str) -> Outcome<()> {
    let start = text.find(from).ok_or_else(|| format!("the glue has no {from:?}"))?;
    let length = text.get(start..).and_then(|rest| rest.find(until));
    let length = length.ok_or_else(|| format!("the glue has no {until:?} after {from:?}"))?;
    text.replace_range(start..start + length, instead);
    Ok(())
}

/// The module, with the scripts that need it before it, as an .lzma file, as small as it gets; `unpack.js` is the way back.
pub(crate) fn packed(wasm: &[u8]) -> Outcome<Vec<u8>> {
    // Code lies at any byte, so no place within four or eight bytes tells anything: what came just before tells more.
    let mut options = LzmaOptions { lc: 4, lp: 0, pb: 0, ..LzmaOptions::with_preset(9) };
    options.nice_len = LzmaOptions::NICE_LEN_MAX;
    let mut writer = LzmaWriter::new_use_header(Vec::new(), &options, Some(wasm.len() as u64))?;
    writer.write_all(wasm)?;
    Ok(writer.finish()?)
}

fn run(command: &mut Command) -> Outcome<()> {
    output(command.stderr(Stdio::inherit())).map(drop)
}

/// Runs a command to its end with its complaints shown, and gives what it wrote on standard output.
fn output(command: &mut Command) -> Outcome<String> {
    let name = command.get_program().to_string_lossy().into_owned();
    let output = command.stderr(Stdio::inherit()).output().map_err(|error| format!("could not run {name}: {error}"))?;
    if !output.status.success() {
        return Err(format!("{name} ended with {}", output.status).into());
    }
    Ok(String::from_utf8(output.stdout)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_module_is_the_wasm_file_of_our_package_and_no_other() {
        let messages = concat!(
            "not json\n",
            r#"{"reason":"compiler-artifact","target":{"name":"other"},"filenames":["/t/other.wasm"]}"#,
            "\n",
            r#"{"reason":"compiler-artifact","target":{"name":"rigging_web"},"filenames":["/t/librigging_web.rlib","/t/rigging_web.wasm"]}"#,
            "\n",
            r#"{"reason":"build-finished","success":true}"#,
        );
        assert_eq!(wasm_file(messages), Some(PathBuf::from("/t/rigging_web.wasm")));
    }

    #[test]
    fn a_build_without_a_module_finds_none() {
        assert_eq!(wasm_file(r#"{"target":{"name":"rigging_web"},"filenames":["/t/librigging_web.rlib"]}"#), None);
    }

    #[test]
    fn the_module_does_not_tell_where_it_was_built() {
        let flags = anonymous_paths(Path::new("/somewhere/www"));
        assert!(flags.ends_with("--remap-path-prefix=/somewhere/www=www"), "{flags}");
        let home = env::home_dir().expect("there is a home");
        assert!(flags.contains(&format!("--remap-path-prefix={}=home", home.display())), "{flags}");
    }

    #[test]
    fn a_command_that_fails_is_named() {
        let error = output(&mut Command::new("false")).expect_err("false fails");
        assert!(error.to_string().starts_with("false ended with"), "{error}");
    }

    #[test]
    fn a_command_that_is_missing_is_named() {
        let error = output(&mut Command::new("no-such-program")).expect_err("it is missing");
        assert!(error.to_string().starts_with("could not run no-such-program"), "{error}");
    }
}
