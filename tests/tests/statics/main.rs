//! The engine against things outside it.

mod random;
mod stress;
