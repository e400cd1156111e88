//! Loads on rope rigging, as honest ranges with their sources.
//!
//! A [`Question`](question::Question) goes in at the top, falls through one floor at a time, and an
//! [`Answer`](question::Answer) comes back up the same stairs:
//!
//! | floor | what stands there |
//! |---|---|
//! | [`published`] | answers published elsewhere, and this library's own beside them |
//! | [`plan`] | the rigging plan of a whole descent: drops, group, ropes, time, light |
//! | [`question`] | one folder per question a leader asks: input → answer, working, cautions |
//! | [`limit`] | a load band against a limit → one of four standings |
//! | [`strength`] | published strengths and limits with their sources |
//! | [`statics`] | the engine: where a rig comes to rest and what every line carries |
//! | [`law`] | single physical laws, formula and source in the doc |
//! | [`working`] | the steps of an answer, and where each number comes from |
//! | [`band`] | a value known only within a range, and how ranges pass through a calculation |
//! | [`mod@quantity`] | force, length, mass, angle with units in the types |
//!
//! Nothing on a lower floor knows a name above it. The crate is pure: no clock, no files, no
//! randomness, no network; it does not panic on any input.
//!
//! ```
//! use rigging_core::law::two_legs;
//! use rigging_core::quantity::{Angle, Force, degree, kilonewton, newton};
//!
//! let load = Force::new::<kilonewton>(2.0);
//! let leg = two_legs::equal(load, Angle::new::<degree>(120.0))?;
//! assert!((leg.get::<newton>() - 2000.0).abs() < 1e-9);
//! # Ok::<(), rigging_core::law::OutOfDomain>(())
//! ```
//!
//! What it computes is a load, never a permission: it does not replace qualified instruction, local
//! codes or looking at the anchor.

// The unit macro calls its own helpers by bare name.
#[macro_use]
extern crate uom;

pub mod band;
pub mod law;
pub mod limit;
pub mod plan;
pub mod published;
pub mod quantity;
pub mod question;
pub mod statics;
pub mod strength;
pub mod working;
