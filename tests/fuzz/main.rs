//! Inputs that nobody would type, at every door: question JSON, plan JSON, rig JSON, link, what a browser kept,
//! number entry.
//!
//! Each input is a good one (a seed) that was cut, mixed with another, or had its numbers and bytes changed. None may
//! panic, take a second, or give an answer that is no number. By itself this looks at the same inputs on every run;
//! `FUZZ_SECONDS=1800` makes each door go on for so long, and `FUZZ_SEED` looks elsewhere.

#![expect(
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a check that cannot go on has failed"
)]

mod doors;
mod mutate;

use mutate::Mutator;
use rigging_core::statics::{Rig, Settings, solve};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};

/// The most of a processor that one answer may take.
const LONGEST: Duration = Duration::from_secs(1);
/// The most memory that the process may ever have had, kB.
const MOST_MEMORY: u64 = 512 * 1024;

/// A door: good inputs, and what goes through it. True if an input was understood.
struct Door {
    name: &'static str,
    seeds: Vec<Vec<u8>>,
    open: fn(&[u8]) -> bool,
    /// How many changed inputs are tried when nobody says for how long.
    usually: usize,
}

fn number_from(variable: &str) -> Option<u64> {
    let text = std::env::var(variable).ok()?;
    Some(text.parse().unwrap_or_else(|_| panic!("{variable} is {text:?}: it must be a whole number")))
}

/// What this thread has had of a processor: what the neighbours take is not its fault. Wall time where the system
/// does not tell.
fn worked() -> Duration {
    std::thread_local!(static START: Instant = Instant::now());
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
    let nanoseconds = told.and_then(|text| text.split_whitespace().next()?.parse().ok());
    nanoseconds.map_or_else(|| START.with(Instant::elapsed), Duration::from_nanos)
}

/// The most memory the process has had, kB, where the system tells.
fn memory() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    line.split_whitespace().nth(1)?.parse().ok()
}

fn try_everything(door: &Door) {
    try_for(door, number_from("FUZZ_SECONDS").map(Duration::from_secs));
}

/// For so long; without a time as many inputs as the door usually takes.
fn try_for(door: &Door, seconds: Option<Duration>) {
    let mut mutator = Mutator::new(number_from("FUZZ_SEED").unwrap_or(20_261_126), &door.seeds);
    let start = Instant::now();
    let (mut tried, mut understood, mut longest) = (0, 0, Duration::ZERO);
    loop {
        let more = seconds.map_or(tried < door.seeds.len() + door.usually, |seconds| start.elapsed() < seconds);
        if !more {
            break;
        }
        // The seeds themselves come first: they must be understood.
        let seed = door.seeds.get(tried);
        let input = seed.cloned().unwrap_or_else(|| mutator.another());
        let shown = || String::from_utf8_lossy(&input).into_owned();
        let before = worked();
        let outcome = catch_unwind(AssertUnwindSafe(|| (door.open)(&input)));
        let took = worked() - before;
        let Ok(good) = outcome else { panic!("{}: panic at\n{}", door.name, shown()) };
        assert!(took < LONGEST, "{}: {took:?} at\n{}", door.name, shown());
        assert!(good || seed.is_none(), "{}: a seed was refused:\n{}", door.name, shown());
        tried += 1;
        understood += usize::from(good);
        longest = longest.max(took);
    }
    let memory = memory();
    println!(
        "{}: {tried} inputs, {understood} understood, the longest took {longest:?}, {} MB",
        door.name,
        memory.unwrap_or_default() / 1024
    );
    assert!(tried >= door.seeds.len() && understood > door.seeds.len(), "{}: nothing changed is understood", door.name);
    assert!(memory.is_none_or(|memory| memory < MOST_MEMORY), "{}: {memory:?} kB", door.name);
}

#[test]
fn no_question_breaks_what_answers_it() {
    try_everything(&doors::question());
}

#[test]
fn no_file_breaks_the_plan() {
    try_everything(&doors::plan());
}

#[test]
fn no_rig_breaks_the_engine() {
    try_everything(&doors::rig());
}

#[test]
fn no_link_breaks_the_page() {
    try_everything(&doors::link());
}

#[test]
fn nothing_kept_breaks_the_next_start() {
    try_everything(&doors::kept());
}

#[test]
fn no_entry_breaks_the_reading_of_numbers() {
    try_everything(&doors::entry());
}

/// Found by this: a first guess of 10¹² m and more was not converged, after a second of looking.
#[test]
fn a_first_guess_may_lie_anywhere() {
    for text in doors::rig().seeds {
        let rig: Rig = serde_json::from_slice(&text).unwrap();
        let tensions = |rig: &Rig| -> Option<Vec<f64>> {
            let solution = solve(rig, &Settings::default());
            Some(solution.balanced()?.lines.iter().map(|line| line.tension()).collect())
        };
        let near = tensions(&rig).unwrap();
        let largest = near.iter().copied().fold(0.0, f64::max);
        for away in [1e9, -1e12, 1e15, 1e300, -1e308] {
            let mut far = rig.clone();
            for point in rig.points().iter().filter(|point| !point.is_held()) {
                far.set_at(rig.point_named(point.name()).unwrap(), point.at().map(|number| number + away)).unwrap();
            }
            let found = tensions(&far).unwrap_or_default();
            let misses = near.iter().zip(&found).any(|(near, far)| (near - far).abs() > 1e-6 * largest);
            assert!(found.len() == near.len() && !misses, "{away:e}: {near:?} {found:?}");
        }
    }
}

/// A check that cannot fail is none.
#[test]
fn a_panic_a_delay_and_a_refused_seed_are_each_seen() {
    let seeds = || vec![b"12".to_vec()];
    let door = |open, usually| Door { name: "broken", seeds: seeds(), open, usually };
    let fails_in = |door: Door, time| catch_unwind(AssertUnwindSafe(|| try_for(&door, time))).is_err();
    // However long the doors above are tried for, and by the clock too.
    for time in [None, Some(Duration::from_millis(50))] {
        assert!(!fails_in(door(|_| true, 10), time));
        assert!(fails_in(door(|input| input.first().copied().unwrap() == b'1', 2000), time));
        assert!(fails_in(door(|_| false, 10), time));
    }
    let fails = |door: Door| fails_in(door, None);
    let slow = |_: &[u8]| {
        let start = worked();
        while worked() - start <= LONGEST {
            std::hint::black_box(1.0_f64.sin());
        }
        true
    };
    assert!(fails(door(slow, 1)));
}
