//! Waiting for something outside this process to come true.

use std::thread::sleep;
use std::time::{Duration, Instant};

use crate::Outcome;

/// Long enough for a browser on a busy machine; what takes longer has failed.
const PATIENCE: Duration = Duration::from_secs(60);

/// Asks again and again until there is an answer.
pub(crate) fn until<T>(what: &str, mut ask: impl FnMut() -> Outcome<Option<T>>) -> Outcome<T> {
    let start = Instant::now();
    loop {
        if let Some(answer) = ask()? {
            return Ok(answer);
        }
        if start.elapsed() > PATIENCE {
            return Err(format!("waited {} s in vain until {what}", PATIENCE.as_secs()).into());
        }
        sleep(Duration::from_millis(30));
    }
}
