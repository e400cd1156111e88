//! What must hold of every law whatever the numbers, found again by another way than the law takes:
//! sums of forces, moments, energy, motion step by step.
//!
//! Each law has its file. In each stand: what mirrors, scales and turns; what grows with what; the
//! limits; the balance; and that any number at all gives an error or a number in range.
#![cfg(not(target_arch = "wasm32"))]

#[cfg(test)]
mod bend;
#[cfg(test)]
mod bolt;
#[cfg(test)]
mod buried;
#[cfg(test)]
mod by_hand;
#[cfg(test)]
mod caught_on_line;
#[cfg(test)]
mod descender;
#[cfg(test)]
mod drag;
#[cfg(test)]
mod fall;
#[cfg(test)]
mod falling_water;
#[cfg(test)]
mod flood;
#[cfg(test)]
mod ground;
#[cfg(test)]
mod haul;
#[cfg(test)]
mod leg_failure;
#[cfg(test)]
mod line_catch;
#[cfg(test)]
mod log;
#[cfg(test)]
mod mass;
#[cfg(test)]
mod numbers;
#[cfg(test)]
mod pull_down;
#[cfg(test)]
mod pulley;
#[cfg(test)]
mod rope;
#[cfg(test)]
mod side_slope;
#[cfg(test)]
mod slanted_line;
#[cfg(test)]
mod sling;
#[cfg(test)]
mod standing;
#[cfg(test)]
mod swing;
#[cfg(test)]
mod taut_line;
#[cfg(test)]
mod tree;
#[cfg(test)]
mod triangle;
#[cfg(test)]
mod two_legs;
