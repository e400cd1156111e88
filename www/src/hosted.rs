//! The folder to put on a server: the same page, and what lets a phone keep it on its home screen.

use std::fs;
use std::path::Path;

use serde_json::json;
use sha2::{Digest, Sha256};

use crate::{Outcome, icon, shell};

/// What only the hosted copy has in its head.
pub(crate) const LINKS: &str = r#"<link rel="manifest" href="manifest.webmanifest">
<link rel="icon" href="icon.svg">
<link rel="apple-touch-icon" href="icon-180.png">
"#;

/// The texts of the licences of what is inside.
pub(crate) const LICENCES: &str = "licences.txt";

/// A file of the folder.
struct File {
    name: &'static str,
    kind: &'static str,
    bytes: Vec<u8>,
}

impl File {
    fn new(name: &'static str, kind: &'static str, bytes: impl Into<Vec<u8>>) -> File {
        File { name, kind, bytes: bytes.into() }
    }
}

/// Writes the folder anew: the page, its pictures, the manifest, the licences, and the worker made from its outline.
pub(crate) fn write(folder: &Path, page: &str, licences: &str, worker: &str) -> Outcome<()> {
    let files = [
        File::new("index.html", "text/html; charset=utf-8", page),
        File::new("manifest.webmanifest", "application/manifest+json", manifest()),
        File::new("icon.svg", "image/svg+xml", icon::svg()),
        File::new("icon-180.png", "image/png", icon::png(180)?),
        File::new("icon-192.png", "image/png", icon::png(192)?),
        File::new("icon-512.png", "image/png", icon::png(512)?),
        File::new(LICENCES, "text/plain; charset=utf-8", licences),
    ];
    // What an earlier version wrote there is no part of this one.
    if folder.exists() {
        fs::remove_dir_all(folder)?;
    }
    fs::create_dir_all(folder)?;
    for file in &files {
        fs::write(folder.join(file.name), &file.bytes)?;
    }
    Ok(fs::write(folder.join("service-worker.js"), kept(worker, &files)?)?)
}

/// The worker that keeps these files.
fn kept(outline: &str, files: &[File]) -> Outcome<String> {
    let rows = files.iter().map(|file| json!({ "name": file.name, "type": file.kind, "sum": sum(&file.bytes) }));
    let files = serde_json::to_string_pretty(&rows.collect::<Vec<_>>())?;
    shell::fill(outline, &[("version", &sum([outline, &files].concat().as_bytes())), ("files", &files)])
}

/// SHA-256 in hexadecimal: FIPS 180-4.
fn sum(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().fold(String::new(), |text, byte| text + &format!("{byte:02x}"))
}

/// W3C, *Web Application Manifest*. Every place is relative, so that any folder of any host will do.
fn manifest() -> String {
    let icon = |name, sizes, kind| json!({ "src": name, "sizes": sizes, "type": kind, "purpose": "any maskable" });
    let manifest = json!({
        "name": "Rigging loads",
        "short_name": "Rigging loads",
        "id": "./",
        "start_url": "./",
        "scope": "./",
        "display": "standalone",
        "background_color": "#ffffff",
        "icons": [
            icon("icon-192.png", "192x192", "image/png"),
            icon("icon-512.png", "512x512", "image/png"),
            icon("icon.svg", "any", "image/svg+xml"),
        ],
    });
    format!("{manifest:#}\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_byte_in_any_file_or_in_the_worker_is_another_version() {
        let version = |outline, bytes: &str| {
            let worker = kept(outline, &[File::new("a", "text/plain", bytes)]).expect("it is filled");
            worker.split(' ').next().expect("it starts with the version").to_owned()
        };
        let first = version("{{version}} {{files}}", "abc");
        assert_eq!(first, version("{{version}} {{files}}", "abc"));
        assert_ne!(first, version("{{version}} {{files}}", "abd"));
        assert_ne!(first, version("{{version}} {{files}} ", "abc"));
    }

    /// FIPS 180-4: the digest of "abc".
    #[test]
    fn the_worker_names_each_file_with_its_sum() {
        let worker = kept("{{version}} {{files}}", &[File::new("a", "text/plain", "abc")]).expect("it is filled");
        assert!(worker.contains("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"), "{worker}");
    }

    #[test]
    fn the_manifest_points_into_its_own_folder_only() {
        let manifest: serde_json::Value = serde_json::from_str(&manifest()).expect("it is JSON");
        for place in ["id", "start_url", "scope"] {
            assert_eq!(manifest[place], "./");
        }
        assert!(!manifest.to_string().contains("//"));
    }
}
