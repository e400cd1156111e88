//! The engine against things outside it.

mod conic;
mod given;
mod invariance;
mod random;
mod second_opinion;
mod slackening;
mod stress;
mod textbook;
