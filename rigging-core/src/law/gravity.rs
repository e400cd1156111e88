//! Weight of a mass.

use crate::quantity::{Acceleration, Force, Mass};
use uom::si::acceleration::meter_per_second_squared;

/// Standard acceleration of free fall, m/s².
///
/// # References
/// 3rd General Conference on Weights and Measures (1901), declaration; exact by definition.
/// ```
/// use rigging_core::law::gravity::STANDARD_GRAVITY;
///
/// // As the conference declared it, in centimetres: 980.665 cm/s².
/// assert!((100.0 * STANDARD_GRAVITY - 980.665).abs() < 1e-9);
/// ```
pub const STANDARD_GRAVITY: f64 = 9.806_65;

/// Weight of a mass at standard gravity.
///
/// # Formula
/// `W = m g` where `m` is the mass (kg) and `g` = 9.80665 m/s².
/// ```
/// use rigging_core::law::gravity;
/// use rigging_core::quantity::{Mass, kilogram};
///
/// // By hand: 80 · 9.80665 = 784.532 N.
/// let weight = gravity::weight(Mass::new::<kilogram>(80.0));
/// assert!((weight.value - 784.532).abs() < 1e-9);
/// ```
pub fn weight(mass: Mass) -> Force {
    mass * Acceleration::new::<meter_per_second_squared>(STANDARD_GRAVITY)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{kilogram, newton};

    #[test]
    fn eighty_kilograms_weigh_784_5_newtons() {
        assert_eq!(weight(Mass::new::<kilogram>(80.0)).get::<newton>(), 80.0 * 9.806_65);
    }
}
