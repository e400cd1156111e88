//! Reads a rig as JSON from standard input and writes its equilibrium as JSON to standard output.
//!
//! A rig that cannot be read ends with exit status 1 and one line on standard error that names the
//! point or line and the rule. Units are in the names of the fields.

use std::io::{Read, Write};
use std::process::ExitCode;

use rigging_core::statics::{Answer, Rig, Settings, solve};

fn main() -> ExitCode {
    match answer() {
        Ok(()) => ExitCode::SUCCESS,
        Err(fault) => {
            eprintln!("{fault}");
            ExitCode::FAILURE
        }
    }
}

fn answer() -> Result<(), Box<dyn std::error::Error>> {
    let mut text = Vec::new();
    std::io::stdin().lock().read_to_end(&mut text)?;
    if text.iter().all(u8::is_ascii_whitespace) {
        return Err("the input is empty: a rig with \"points\" and \"lines\" is expected".into());
    }
    let rig: Rig = serde_json::from_slice(&text)?;
    let solution = solve(&rig, &Settings::default());
    let mut text = serde_json::to_vec(&Answer::new(&rig, &solution))?;
    text.push(b'\n');
    std::io::stdout().lock().write_all(&text)?;
    Ok(())
}
