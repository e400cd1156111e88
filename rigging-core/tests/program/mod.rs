//! The examples as a script calls them.

use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Stdio};

/// Where Cargo puts the example when it builds the tests of this package.
fn program(example: &str) -> PathBuf {
    let test = std::env::current_exe().unwrap();
    test.parent().unwrap().parent().unwrap().join("examples").join(example)
}

/// Exit status, standard output, standard error.
pub fn run(example: &str, arguments: &[&str], input: &[u8]) -> (i32, String, String) {
    let mut child = Command::new(program(example))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // The program may end before it has read everything.
    let _ = child.stdin.take().unwrap().write_all(input);
    let output = child.wait_with_output().unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (output.status.code().unwrap(), text(output.stdout), text(output.stderr))
}
