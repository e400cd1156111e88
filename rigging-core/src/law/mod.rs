//! Single physical laws: one small file each, formula and source in its doc.
//!
//! Each law takes and gives quantities with units, says where it holds, and answers anything outside
//! with [`OutOfDomain`]: no law panics or returns a number that is not one. Beside what the errors of each law name, an
//! input that is no number and a result too large for one are errors of all. Only [`gravity::weight`] and
//! [`taut_line::chord`] refuse nothing: they are plain arithmetic and give what it gives; so do the degrees of a published
//! scale, such as [`flood::Danger::of`], which take what is no number for the worst.

pub mod bend;
pub mod bolt;
pub mod buried;
pub mod caught_on_line;
pub mod descender;
pub mod drag;
pub mod fall;
pub mod falling_water;
pub mod flood;
pub mod gravity;
pub mod ground;
pub mod haul;
pub mod leg_failure;
pub mod line_catch;
pub mod log;
pub mod pull_down;
pub mod pullers;
pub mod pulley;
mod root;
pub mod rope;
pub mod side_slope;
pub mod slanted_line;
pub mod sling;
pub mod standing;
pub mod swing;
pub mod taut_line;
pub mod tree;
pub mod triangle;
pub mod two_legs;

use crate::quantity::{Toward, figures, without_zeros};
use std::fmt;

/// A value outside the range in which a law holds, or a result too large for a number.
/// ```
/// use rigging_core::law::two_legs;
/// use rigging_core::quantity::{Angle, Force, degree, newton};
///
/// // Legs in one line hold nothing up. An angle is told in degrees.
/// let load = Force::new::<newton>(1000.0);
/// let refused = two_legs::equal(load, Angle::new::<degree>(180.0)).unwrap_err();
/// assert_eq!(refused.what, "included angle");
/// assert_eq!(refused.to_string(), "included angle is 180°: it must be from 0 to less than 180°");
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct OutOfDomain {
    /// The quantity, as the law's doc names it.
    pub what: &'static str,
    /// Its value in SI.
    pub value: f64,
    /// What it must be.
    pub must: &'static str,
}

impl fmt::Display for OutOfDomain {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Whatever must lie within degrees is an angle.
        let (value, degree) = if self.must.contains('°') { (self.value.to_degrees(), "°") } else { (self.value, "") };
        let figures = figures(value, 6, Toward::Nearest);
        write!(f, "{} is {}{degree}: it must be {}", self.what, without_zeros(&figures), self.must)
    }
}

impl std::error::Error for OutOfDomain {}

/// `value` if it lies where `within` says, else the error that names it.
fn check(what: &'static str, value: f64, within: bool, must: &'static str) -> Result<f64, OutOfDomain> {
    if within && value.is_finite() { Ok(value) } else { Err(OutOfDomain { what, value, must }) }
}

fn not_negative(what: &'static str, value: f64) -> Result<f64, OutOfDomain> {
    check(what, value, value >= 0.0, "0 or more")
}

fn positive(what: &'static str, value: f64) -> Result<f64, OutOfDomain> {
    check(what, value, value > 0.0, "above 0")
}

/// `value` if it is a number; a result too large for one is named instead of being given.
fn finite(what: &'static str, value: f64) -> Result<f64, OutOfDomain> {
    check(what, value, true, "a finite number")
}
