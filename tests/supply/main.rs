//! What this project rests on: licences, where crates come from, what runs while they are built, and what ships.
//!
//! Looked at is everything that is built here: for this machine and for the page (`cargo metadata`).

#![expect(clippy::indexing_slicing, clippy::unwrap_used, reason = "a check that cannot go on has failed")]

mod licence;

use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;

/// The registry that all crates from outside come from.
const REGISTRY: &str = "registry+https://github.com/rust-lang/crates.io-index";

/// The targets that something is built for here.
const TARGETS: [&str; 2] = ["x86_64-unknown-linux-gnu", "wasm32-unknown-unknown"];

/// Licences that ask for no more than a notice.
const PERMISSIVE: [&str; 10] = [
    "MIT",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "ISC",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
    "0BSD",
];

/// Crates under another licence, and why they may be here.
const EXCEPTIONS: [(&str, &str); 1] =
    [("webdriver", "MPL-2.0, by way of fantoccini: drives browsers in tests, ships in nothing, is not changed")];

/// Crates that run a program while they are built, and what it does. None downloads anything: see the test.
const ASKS_THE_COMPILER: &str = "asks the compiler for its version or what it can";
const SAYS_WHAT_IS_SET: &str = "passes on features, target and variables";
const BUILD_SCRIPTS: [(&str, &str); 32] = [
    ("anyhow", ASKS_THE_COMPILER),
    ("clarabel", SAYS_WHAT_IS_SET),
    ("cookie", ASKS_THE_COMPILER),
    ("crc32fast", ASKS_THE_COMPILER),
    ("crossbeam-deque", SAYS_WHAT_IS_SET),
    ("crossbeam-epoch", SAYS_WHAT_IS_SET),
    ("crossbeam-utils", SAYS_WHAT_IS_SET),
    ("getrandom", SAYS_WHAT_IS_SET),
    ("httparse", ASKS_THE_COMPILER),
    ("icu_normalizer_data", SAYS_WHAT_IS_SET),
    ("icu_properties_data", SAYS_WHAT_IS_SET),
    ("icu_segmenter_data", SAYS_WHAT_IS_SET),
    ("libc", "asks the compiler, and FreeBSD, for their versions"),
    ("libm", SAYS_WHAT_IS_SET),
    ("matrixmultiply", ASKS_THE_COMPILER),
    ("mime_guess", "writes its table of types into its own output"),
    ("num-traits", ASKS_THE_COMPILER),
    ("proc-macro2", ASKS_THE_COMPILER),
    ("proc-macro2-diagnostics", ASKS_THE_COMPILER),
    ("quote", ASKS_THE_COMPILER),
    ("rayon-core", SAYS_WHAT_IS_SET),
    ("rustix", ASKS_THE_COMPILER),
    ("rustversion", ASKS_THE_COMPILER),
    ("serde", ASKS_THE_COMPILER),
    ("serde_core", ASKS_THE_COMPILER),
    ("serde_json", SAYS_WHAT_IS_SET),
    ("syn", ASKS_THE_COMPILER),
    ("thiserror", ASKS_THE_COMPILER),
    ("wasm-bindgen", SAYS_WHAT_IS_SET),
    ("wasm-bindgen-shared", "asks git for its own revision, and hashes its own source"),
    ("zerocopy", ASKS_THE_COMPILER),
    ("zmij", ASKS_THE_COMPILER),
];

/// Words that a program which fetches something would hardly do without.
const FETCHES: [&str; 10] =
    ["TcpStream", "UdpSocket", "reqwest", "ureq", "hyper", "curl", "wget", "download", "git clone", "git fetch"];

/// The crates inside the module that the page ships, besides the two of this project. To add one is a decision.
const SHIPPED: [&str; 30] = [
    "approx",
    "bytemuck",
    "cfg-if",
    "futures-core",
    "futures-task",
    "futures-util",
    "itoa",
    "js-sys",
    "matrixmultiply",
    "maud",
    "nalgebra",
    "num-complex",
    "num-integer",
    "num-rational",
    "num-traits",
    "pin-project-lite",
    "qrcodegen",
    "rawpointer",
    "serde",
    "serde-wasm-bindgen",
    "serde_core",
    "simba",
    "slab",
    "solar-positioning",
    "typenum",
    "unicode-ident",
    "uom",
    "wasm-bindgen",
    "wasm-bindgen-shared",
    "wide",
];

fn cargo(arguments: &[&str]) -> String {
    let mut command = Command::new(env!("CARGO"));
    let output = command.args(arguments).current_dir(env!("CARGO_MANIFEST_DIR")).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// Every package that is built for any of the targets, by its id.
fn packages() -> BTreeMap<String, Value> {
    let mut found = BTreeMap::new();
    for target in TARGETS {
        let text = cargo(&["metadata", "--locked", "--format-version", "1", "--filter-platform", target]);
        let told: Value = serde_json::from_str(&text).unwrap();
        let nodes = told["resolve"]["nodes"].as_array().unwrap().iter();
        let built: BTreeSet<&str> = nodes.map(|node| node["id"].as_str().unwrap()).collect();
        for package in told["packages"].as_array().unwrap() {
            let id = package["id"].as_str().unwrap();
            if built.contains(id) {
                found.insert(id.to_owned(), package.clone());
            }
        }
    }
    assert!(found.len() > 200, "{} packages only", found.len());
    found
}

fn name(package: &Value) -> &str {
    package["name"].as_str().unwrap()
}

#[test]
fn every_licence_asks_for_no_more_than_a_notice() {
    for package in packages().values() {
        let licence = package["license"].as_str().unwrap_or("none told");
        let excepted = EXCEPTIONS.iter().any(|(excepted, _)| *excepted == name(package));
        let free = licence::is_met(licence, &PERMISSIVE);
        assert!(free != excepted, "{} is under {licence}", name(package));
    }
}

#[test]
fn every_crate_comes_from_the_one_registry_or_from_this_folder() {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/..");
    let root = std::fs::canonicalize(root).unwrap();
    for package in packages().values() {
        match package["source"].as_str() {
            Some(source) => assert_eq!(source, REGISTRY, "{}", name(package)),
            None => {
                let at = std::fs::canonicalize(package["manifest_path"].as_str().unwrap()).unwrap();
                assert!(at.starts_with(&root), "{} lies outside: {}", name(package), at.display());
            }
        }
    }
    // What the lock holds has a checksum each.
    let lock = std::fs::read_to_string(root.join("Cargo.lock")).unwrap();
    assert_eq!(lock.matches("\nsource = ").count(), lock.matches("\nchecksum = ").count());
}

#[test]
fn the_forge_runs_actions_by_their_commit_and_not_by_a_tag_that_can_be_moved() {
    let workflow =
        std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../.github/workflows/page.yml")).unwrap();
    let actions: Vec<&str> = workflow.lines().filter_map(|line| line.split_once("uses: ").map(|(_, of)| of)).collect();
    assert!(!actions.is_empty());
    for action in actions {
        let (name, version) = action.split_once(" # v").unwrap_or_else(|| panic!("{action} does not say its version"));
        let commit = name.strip_prefix("actions/").and_then(|name| name.split_once('@')).unwrap().1;
        assert!(commit.len() == 40 && commit.bytes().all(|byte| byte.is_ascii_hexdigit()), "{action}");
        assert!(version.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.'), "{action}");
    }
}

#[test]
fn what_runs_while_crates_are_built_is_known_and_fetches_nothing() {
    let packages = packages();
    for (known, _) in BUILD_SCRIPTS {
        assert!(packages.values().any(|package| name(package) == known), "{known} is not built any more");
    }
    for package in packages.values() {
        let targets = package["targets"].as_array().unwrap().iter();
        let scripts = targets.filter(|target| target["kind"][0] == "custom-build");
        for script in scripts {
            let known = BUILD_SCRIPTS.iter().any(|(known, _)| *known == name(package));
            assert!(known, "{} runs a program while it is built: read it, then list it", name(package));
            let text = std::fs::read_to_string(script["src_path"].as_str().unwrap()).unwrap();
            for word in FETCHES {
                assert!(!text.contains(word), "the build script of {} says {word}", name(package));
            }
        }
    }
}

#[test]
fn the_page_ships_these_crates_and_no_others() {
    let whose = ["tree", "--locked", "--package", "rigging-web", "--target", "wasm32-unknown-unknown"];
    let what = ["--edges", "normal,no-proc-macro", "--prefix", "none", "--format", "{p}"];
    let text = cargo(&[whose, what].concat());
    let names: BTreeSet<&str> = text.lines().filter_map(|line| line.split_whitespace().next()).collect();
    let others: BTreeSet<&str> = names.into_iter().filter(|name| !name.starts_with("rigging-")).collect();
    assert_eq!(others, BTreeSet::from(SHIPPED));
}
