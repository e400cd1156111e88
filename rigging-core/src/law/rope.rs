//! Mass of a rope from its diameter.

use super::{OutOfDomain, finite, positive};
use crate::quantity::{Length, Mass, kilogram};

/// Mass of a dry rope for each metre and square millimetre of diameter squared, kg.
///
/// # References
/// Derived from declared masses of kernmantel ropes of 8 to 11 mm (41 to 78 g/m).
const MASS_PER_METRE_AND_SQUARE_MILLIMETRE: f64 = 0.645_6e-3;

/// Mass of a length of dry kernmantel rope.
///
/// # Formula
/// `m = 0.6456 g/m · d² · L` where `d` is the diameter in mm, > 0, and `L` the length in m, ≥ 0.
/// # Errors
/// [`OutOfDomain`] if d is not above 0 or L is negative.
/// # References
/// Derived from declared masses: 8 mm 41, 9 mm 52, 10 mm 65, 11 mm 78 g/m.
pub fn mass(diameter: Length, length: Length) -> Result<Mass, OutOfDomain> {
    let millimetres = positive("rope diameter", diameter.value)? * 1000.0;
    let length = super::not_negative("rope length", length.value)?;
    finite("rope mass", MASS_PER_METRE_AND_SQUARE_MILLIMETRE * millimetres * millimetres * length)
        .map(Mass::new::<kilogram>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{metre, millimetre};

    #[test]
    fn ropes_weigh_what_is_declared() {
        for (millimetres, grams) in [(8.0, 41.0), (9.0, 52.0), (10.0, 65.0), (11.0, 78.0)] {
            let mass = mass(Length::new::<millimetre>(millimetres), Length::new::<metre>(1.0)).unwrap();
            assert!((mass.value * 1000.0 - grams).abs() < 0.5, "{millimetres} mm: {mass:?}");
        }
    }
}
