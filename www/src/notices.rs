//! Who wrote the crates inside the module, and under which licences they let others use them.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use rigging_web::Notice;
use serde_json::Value;

use crate::Outcome;
use crate::module::{PACKAGE, TARGET, cargo};

/// A notice for each crate inside the module but our own, and the texts of all their licences, each once.
pub(crate) fn read(folder: &Path) -> Outcome<(Vec<Notice>, String)> {
    let tree = ["tree", "--locked", "--package", PACKAGE, "--target", TARGET];
    let plain = ["--edges", "normal,no-proc-macro", "--prefix", "none", "--format", "{p}"];
    let inside = cargo(folder, &[tree.as_slice(), &plain].concat())?;
    let metadata = ["metadata", "--locked", "--format-version", "1", "--filter-platform", TARGET];
    let told: Value = serde_json::from_str(&cargo(folder, &metadata)?)?;
    let (mut notices, mut texts) = (Vec::new(), BTreeSet::new());
    let list = |of: &Value, key: &str| of.get(key).and_then(Value::as_array).cloned().unwrap_or_default();
    for package in list(&told, "packages") {
        let text = |key: &str| package.get(key).and_then(Value::as_str).unwrap_or_default();
        let line = format!("{} v{}", text("name"), text("version"));
        let is_inside = inside
            .lines()
            .any(|one| one.strip_prefix(&line).is_some_and(|rest| rest.is_empty() || rest.starts_with(' ')));
        // Our own have no source.
        if !is_inside || text("source").is_empty() {
            continue;
        }
        let files = licences(Path::new(text("manifest_path")))?;
        let mut holders = holders(&files);
        if holders.is_empty() {
            let authors = list(&package, "authors");
            let named = authors.iter().filter_map(|author| author.as_str()?.split(" <").next());
            holders.extend(named.map(str::to_owned));
        }
        // Some name nobody.
        if holders.is_empty() {
            holders.insert("its authors".to_owned());
        }
        // Of several to choose from, that of this project.
        let licence = text("license");
        let licence = if licence.contains("MIT") && !licence.contains("AND") { "MIT" } else { licence };
        notices.push(Notice {
            name: text("name").to_owned(),
            licence: licence.to_owned(),
            holders: holders.into_iter().collect::<Vec<_>>().join(", "),
        });
        texts.extend(files);
    }
    notices.sort_by(|one, other| one.name.cmp(&other.name));
    Ok((notices, texts.into_iter().collect::<Vec<_>>().join("\n\n----\n\n")))
}

/// The texts that lie beside a manifest under the names that licences have.
fn licences(manifest: &Path) -> Outcome<Vec<String>> {
    let mut texts = Vec::new();
    for file in fs::read_dir(manifest.parent().ok_or("a manifest lies in a folder")?)? {
        let file = file?.path();
        let name = file.file_name().unwrap_or_default().to_string_lossy().to_ascii_uppercase();
        if file.is_file() && ["LICENSE", "LICENCE", "COPYING", "NOTICE"].iter().any(|start| name.starts_with(start)) {
            texts.push(fs::read_to_string(&file)?.replace("\r\n", "\n").trim().to_owned());
        }
    }
    Ok(texts)
}

/// Whom the texts name: "Copyright (c) 2014 A. Person". The blanks of a licence's own example name nobody.
fn holders(texts: &[String]) -> BTreeSet<String> {
    let lines = texts.iter().flat_map(|text| text.lines()).map(str::trim);
    let named = lines.filter_map(|line| line.strip_prefix("Copyright "));
    let named = named.filter(|line| line.contains(|letter: char| letter.is_ascii_digit()));
    named
        .map(|line| line.trim_start_matches("(c) ").trim_start_matches("© ").trim_end_matches('.').to_owned())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn holders_are_those_whom_a_text_names() {
        let text = "MIT\n\nCopyright (c) 2014 A. Person\n   Copyright 2020 B\nCopyright [yyyy] [name of copyright owner]\n\
                    The above copyright notice";
        assert_eq!(holders(&[text.to_owned()]), BTreeSet::from(["2014 A. Person".to_owned(), "2020 B".to_owned()]));
    }

    #[test]
    fn each_crate_in_the_module_has_a_licence_and_somebody_who_wrote_it() {
        let (notices, texts) = read(Path::new(env!("CARGO_MANIFEST_DIR"))).expect("cargo knows its crates");
        assert!(notices.len() >= 25, "{}", notices.len());
        for Notice { name, licence, holders } in &notices {
            assert!(!licence.is_empty() && holders.len() > 3, "{name}: {licence:?}, {holders:?}");
        }
        assert!(notices.iter().any(|notice| notice.name == "nalgebra" && notice.licence == "Apache-2.0"));
        assert!(texts.contains("Apache License") && texts.contains("Permission is hereby granted"));
    }
}
