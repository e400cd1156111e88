//! Mass of a rope from its diameter; how much it stretches.

use super::{OutOfDomain, finite, positive};
use crate::quantity::{Force, Length, Mass, Ratio, kilogram, metre, newton};

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

/// Stiffness of a rope from how much longer a load makes it.
///
/// # Formula
/// `EA = F / ε` where `F` ≥ 0 is the load (N) and `ε` > 0 the elongation as a share of the length.
/// # Errors
/// [`OutOfDomain`] outside these ranges or if EA is too large for a number.
/// # References
/// Definition; standards of ropes print ε for a mass, EN 1891 from 50 to 150 kg.
pub fn stiffness_from_elongation(load: Force, elongation: Ratio) -> Result<Force, OutOfDomain> {
    let load = super::not_negative("load", load.value)?;
    finite("stiffness", load / positive("elongation", elongation.value)?).map(Force::new::<newton>)
}

/// How much longer a rope becomes under a load.
///
/// # Formula
/// `ΔL = F L / EA` where `F` ≥ 0 is the load (N), `L` ≥ 0 the length without it (m), `EA` > 0 the stiffness (N).
/// # Errors
/// [`OutOfDomain`] outside these ranges or if ΔL is too large for a number.
/// # References
/// Hooke's law.
pub fn stretch(load: Force, length: Length, stiffness: Force) -> Result<Length, OutOfDomain> {
    let load = super::not_negative("load", load.value)?;
    let length = super::not_negative("rope length", length.value)?;
    finite("stretch", load / positive("stiffness", stiffness.value)? * length).map(Length::new::<metre>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::millimetre;

    #[test]
    fn ropes_weigh_what_is_declared() {
        for (millimetres, grams) in [(8.0, 41.0), (9.0, 52.0), (10.0, 65.0), (11.0, 78.0)] {
            let mass = mass(Length::new::<millimetre>(millimetres), Length::new::<metre>(1.0)).unwrap();
            assert!((mass.value * 1000.0 - grams).abs() < 0.5, "{millimetres} mm: {mass:?}");
        }
    }
}
