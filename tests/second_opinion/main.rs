//! Laws of the ground and of moving water against programs that share nothing with them: contact forces found by a
//! linear program, the engine, motion step by step. And whole questions against other ways to their numbers.
#![expect(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a check that cannot go on has failed"
)]

mod asked;
mod catch;
mod contacts;
mod dice;
mod ground;
mod on_a_line;
mod questions;
mod rope_end;
mod slider;
mod standing;
