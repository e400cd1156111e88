//! The engine against things outside it.
#![expect(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::unwrap_used,
    reason = "a check that cannot go on has failed"
)]

mod conic;
mod given;
mod invariance;
mod random;
mod second_opinion;
mod slackening;
mod stress;
mod textbook;
