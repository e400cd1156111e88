//! Checks a rigging plan: its file on standard input, the checked plan on standard output.
//!
//! ```text
//! plan < plan.json          the checked plan as plain text, in kN and m
//! plan --feet < plan.json   the same in lbf and ft
//! plan --json < plan.json   the same as JSON, with every answer
//! plan --example            a plan of our own invention, to begin with
//! ```
//!
//! What cannot be read of the file is listed on standard error with its line, and the exit status is 1; what
//! could be read is checked and printed all the same.

use rigging_core::plan::{Answers, Plan, Said};
use rigging_core::quantity::{Unit, Units};
use std::error::Error;
use std::io::{Read, Write};
use std::process::ExitCode;

/// More than any plan needs; the rest of the input is not read.
const LONGEST: u64 = 20_000_000;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let outcome = match arguments.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        [] => check(false, Units::default()),
        ["--feet"] => check(false, Units { force: Unit::PoundForce, length: Unit::Foot }),
        ["--json"] => check(true, Units::default()),
        ["--example"] => say(&Plan::example().write()).map(|()| true),
        _ => Err("usage: plan [--feet | --json] < plan.json, or plan --example".into()),
    };
    match outcome {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(error) => {
            eprintln!("plan: {error}");
            ExitCode::FAILURE
        }
    }
}

/// Whether all of the file could be read.
fn check(json: bool, units: Units) -> Result<bool, Box<dyn Error>> {
    let mut bytes = Vec::new();
    std::io::stdin().take(LONGEST).read_to_end(&mut bytes)?;
    if bytes.trim_ascii().is_empty() {
        return Err("nothing came in: give a plan as JSON; plan --example prints one".into());
    }
    // A damaged byte spoils its text, not the file.
    let reading = Plan::read(&String::from_utf8_lossy(&bytes))?;
    for refused in &reading.refused {
        eprintln!("plan: {refused}");
    }
    let checked = reading.plan.check(&mut Answers::default(), units);
    if json {
        say(&(serde_json::to_string_pretty(&Said { plan: &reading.plan, checked: &checked })? + "\n"))?;
    } else {
        say(&reading.plan.text(&checked))?;
    }
    Ok(reading.refused.is_empty())
}

/// Who reads may stop reading.
fn say(text: &str) -> Result<(), Box<dyn Error>> {
    Ok(std::io::stdout().write_all(text.as_bytes())?)
}
