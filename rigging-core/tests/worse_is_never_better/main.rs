//! What is worse is never told better: no standing improves when a load grows, a part weakens, or more is known against
//! it. Each pair here once was told the wrong way round.

#![expect(clippy::panic, clippy::unwrap_used, reason = "a check that cannot go on has failed")]

mod forces;
mod parts;
mod people;

use rigging_core::limit::Standing;
use rigging_core::question::{Answer, Finding, Question};

fn answer(json: &str) -> Answer {
    let question: Question = serde_json::from_str(json).unwrap_or_else(|error| panic!("{json}: {error}"));
    question.answer().unwrap_or_else(|error| panic!("{json}: {error:?}"))
}

fn rank(standing: Standing) -> u8 {
    match standing {
        Standing::BelowLimit => 0,
        Standing::NotChecked(_) => 1,
        Standing::RangeCrosses => 2,
        Standing::AboveLimit => 3,
    }
}

/// The gravest of what is compared.
fn gravest(json: &str) -> u8 {
    answer(json).comparisons.iter().map(|row| rank(row.standing)).max().unwrap()
}

/// Of this finding the adverse end, N.
fn up_to(json: &str, words: &str) -> f64 {
    up_to_of(&answer(json).findings, words)
}

fn up_to_of(findings: &[Finding], words: &str) -> f64 {
    findings.iter().find(|finding| finding.what.contains(words)).unwrap().band.high()
}
