//! How many instructions fixed work takes, counted by Valgrind: the same on a busy machine as on a quiet one.
//!
//! Each piece of work runs in a process of its own, under Callgrind, once for one round and once for three; half of the
//! difference is one round without its start. More than a quarter above what is pinned fails; a quarter below asks
//! to be pinned anew, with `UPDATE_COUNTS=1`, as after a deliberate change or with another compiler. What was pinned first
//! stays beside it and fails nothing: pins that are renewed a little higher each time do not show how far it has gone.

use std::collections::BTreeMap;
use std::env;
use std::error::Error;
use std::fs;
use std::hint::black_box;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};

use libtest_mimic::{Arguments, Failed, Trial};
use rigging_core::question::Question;
use rigging_core::statics::{Rig, Settings, solve};
use serde::{Deserialize, Serialize};

/// What is to be run in this process, and how often.
const WORK: &str = "COUNTED_WORK";
const ROUNDS: &str = "COUNTED_ROUNDS";
/// The goal of the issue: a quarter more is a regression.
const MOST: f64 = 1.25;

/// Rigs of `tests/rigs`, then examples of questions.
const RIGS: [&str; 6] = [
    "two-legs-120",
    "four-legs-00",
    "sliding-sling-00",
    "guide-line-00",
    "network-n0100-s0",
    "network-sliding-n0010-s0",
];
const QUESTIONS: [&str; 6] = ["anchor legs", "line", "abseil", "guided abseil", "in the current", "weakest part"];

/// Instructions of one round: as they were first pinned, and as they are held now.
#[derive(Debug, Clone, Copy, Deserialize, Serialize)]
struct Counts {
    first: f64,
    pinned: f64,
}

fn main() -> ExitCode {
    if let (Ok(work), Ok(rounds)) = (env::var(WORK), env::var(ROUNDS)) {
        return match run(&work, rounds.parse().unwrap_or(0)) {
            Ok(()) => ExitCode::SUCCESS,
            Err(error) => {
                eprintln!("{work}: {error}");
                ExitCode::FAILURE
            }
        };
    }
    let all = RIGS.into_iter().chain(QUESTIONS);
    if env::var_os("UPDATE_COUNTS").is_some() {
        return match pin(all) {
            Ok(()) => ExitCode::SUCCESS,
            Err(failed) => {
                eprintln!("{}", failed.message().unwrap_or_default());
                ExitCode::FAILURE
            }
        };
    }
    libtest_mimic::run(&Arguments::from_args(), all.map(|work| Trial::test(work, move || holds(work))).collect())
        .exit_code()
}

/// The work itself.
fn run(work: &str, rounds: u32) -> Result<(), Box<dyn Error>> {
    if RIGS.contains(&work) {
        let file = folder().join("../rigs").join(format!("{work}.rig.json"));
        let rig: Rig = serde_json::from_str(&fs::read_to_string(file)?)?;
        for _ in 0..rounds {
            if black_box(solve(black_box(&rig), &Settings::default())).balanced().is_none() {
                return Err("the rig did not come to rest".into());
            }
        }
    } else {
        let question = Question::named(work)?;
        for _ in 0..rounds {
            black_box(black_box(&question).answer()?);
        }
    }
    Ok(())
}

/// What is pinned, by name of the work.
fn pinned() -> Result<BTreeMap<String, Counts>, Failed> {
    Ok(serde_json::from_str(&fs::read_to_string(folder().join("counts.json"))?)?)
}

/// Pins anew; what was pinned first is kept, and is this count for work that is new.
fn pin(all: impl Iterator<Item = &'static str>) -> Result<(), Failed> {
    let before = pinned()?;
    let anew = |work| {
        let pinned = counted(work)?;
        Ok((work, Counts { first: before.get(work).map_or(pinned, |counts| counts.first), pinned }))
    };
    let counts: BTreeMap<&str, Counts> = all.map(anew).collect::<Result<_, Failed>>()?;
    Ok(fs::write(folder().join("counts.json"), serde_json::to_string_pretty(&counts)? + "\n")?)
}

/// Compares with what is pinned.
fn holds(work: &str) -> Result<(), Failed> {
    let (counted, pinned) = (counted(work)?, pinned()?);
    let Counts { first, pinned } = *pinned.get(work).ok_or("nothing is pinned: UPDATE_COUNTS=1 does it")?;
    let ratio = counted / pinned;
    println!(
        "{work}: {counted:.0} instructions, pinned {pinned:.0}, ratio {ratio:.3}; first {first:.0}, ratio {:.3}",
        counted / first
    );
    if ratio > MOST {
        Err(format!("{counted:.0} instructions are {ratio:.2} times the {pinned:.0} that are pinned").into())
    } else if ratio < 1.0 / MOST {
        Err(format!("{counted:.0} instructions are only {ratio:.2} times the {pinned:.0}: pin them anew").into())
    } else {
        Ok(())
    }
}

/// The instructions of one round.
fn counted(work: &str) -> Result<f64, Failed> {
    Ok((count(work, 3)? - count(work, 1)?) / 2.0)
}

/// The instructions of a process that does so many rounds of the work.
fn count(work: &str, rounds: u32) -> Result<f64, Failed> {
    let out = Command::new("valgrind")
        .args(["--tool=callgrind", "--callgrind-out-file=/dev/null"])
        .arg(env::current_exe()?)
        .env(WORK, work)
        .env(ROUNDS, rounds.to_string())
        .output()
        .map_err(|error| format!("valgrind, a package of Debian: {error}"))?;
    let told = String::from_utf8_lossy(&out.stderr);
    if !out.status.success() {
        return Err(told.into_owned().into());
    }
    let counted = told.lines().find_map(|line| line.split_once("Collected : "));
    let (_, counted) = counted.ok_or_else(|| format!("nothing was counted: {told}"))?;
    Ok(counted.trim().parse()?)
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("instructions")
}
