//! The built file, and copies of it with something changed on purpose.

use std::fs;
use std::path::{Path, PathBuf};

use crate::Outcome;

/// The file that `cargo page` writes.
pub(crate) fn built() -> Outcome<PathBuf> {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../www/dist/rigging-loads.html");
    file.canonicalize().map_err(|error| format!("{}: {error}: run cargo page first", file.display()).into())
}

/// Writes a copy of the built file in which one piece of text, there exactly once, stands replaced.
pub(crate) fn copy(folder: &Path, old: &str, new: &str) -> Outcome<PathBuf> {
    let text = fs::read_to_string(built()?)?;
    if text.matches(old).count() != 1 {
        return Err(format!("the built file should contain {old:?} once").into());
    }
    let file = folder.join("copy.html");
    fs::write(&file, text.replace(old, new))?;
    Ok(file)
}

/// The content policy of the built file, as the element that carries it.
pub(crate) fn policy() -> Outcome<String> {
    let text = fs::read_to_string(built()?)?;
    let start = text.find("<meta http-equiv=\"Content-Security-Policy\"").ok_or("the built file has no policy")?;
    let element = text.get(start..).and_then(|rest| rest.split_inclusive('>').next());
    Ok(element.ok_or("the policy does not end")?.to_owned())
}
