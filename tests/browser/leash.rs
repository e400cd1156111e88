//! Processes that end when we do, whichever way we end, and take their own children with them.

use std::env;
use std::fs::File;
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

use crate::Outcome;

/// The shell leads a process group, and waits on a pipe that closes when its owner drops it or dies.
const HOLD: &str = r#""$@" & cat >/dev/null; kill -KILL 0"#;

/// A running program, killed with all of its process group on drop.
pub(crate) struct Leash(Child);

impl Leash {
    /// Starts a program that writes its output to a file and keeps its files in a folder.
    pub(crate) fn start(
        program: &Path,
        args: &[String],
        env: &[(&str, String)],
        folder: &Path,
        output: &Path,
    ) -> Outcome<Leash> {
        let output = File::create(output)?;
        let child = Command::new("sh")
            .args(["-c", HOLD, "sh"])
            .arg(program)
            .args(args)
            .env("TMPDIR", folder)
            .env("HOME", folder)
            .envs(env.iter().map(|(name, value)| (name, value)))
            .stdin(Stdio::piped())
            .stdout(output.try_clone()?)
            .stderr(output)
            .process_group(0)
            .spawn()?;
        Ok(Leash(child))
    }
}

impl Drop for Leash {
    fn drop(&mut self) {
        drop(self.0.stdin.take());
        if let Err(error) = self.0.wait() {
            eprintln!("a process may be left over: {error}");
        }
    }
}

/// Finds a program on the path, or says which Debian package holds it.
pub(crate) fn program(name: &str, package: &str) -> Outcome<PathBuf> {
    let path = env::var_os("PATH").unwrap_or_default();
    env::split_paths(&path)
        .map(|folder| folder.join(name))
        .find(|file| file.is_file())
        .ok_or_else(|| format!("{name} is not on the path: run tests/run, or install {package}").into())
}
