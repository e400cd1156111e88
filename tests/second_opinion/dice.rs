//! Random numbers, the same ones in every run.

pub use checks::Dice;
