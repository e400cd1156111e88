//! What a current does to a body, or to a line, that is held in it.

use super::{OutOfDomain, finite, not_negative, positive};
use crate::quantity::{Area, Force, MassDensity, Ratio, Velocity, newton};

/// Density of clean water, kg/m³ (convention).
/// ```
/// use rigging_core::law::drag::{self, CLEAN_WATER};
/// use rigging_core::quantity::{Area, MassDensity, Ratio, Velocity, kilogram_per_cubic_metre};
/// use rigging_core::quantity::{metre_per_second, ratio, square_metre};
///
/// // By hand, a metre of a line of 10 mm at 2 m/s: ½ · 1000 · 1.2 · 0.01 · 2² = 24 N.
/// let (density, coefficient) = (MassDensity::new::<kilogram_per_cubic_metre>(CLEAN_WATER), Ratio::new::<ratio>(1.2));
/// let area = Area::new::<square_metre>(0.01);
/// let force = drag::drag(density, coefficient, area, Velocity::new::<metre_per_second>(2.0))?;
/// assert!((force.value - 24.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub const CLEAN_WATER: f64 = 1000.0;

/// Density of water that carries sediment, kg/m³ (assumed).
/// ```
/// use rigging_core::law::drag::{self, LADEN_WATER};
/// use rigging_core::quantity::{Area, MassDensity, Ratio, Velocity, kilogram_per_cubic_metre};
/// use rigging_core::quantity::{metre_per_second, ratio, square_metre};
///
/// // By hand, a metre of a line of 10 mm at 2 m/s: ½ · 1100 · 1.2 · 0.01 · 2² = 26.4 N, a tenth more than clean.
/// let (density, coefficient) = (MassDensity::new::<kilogram_per_cubic_metre>(LADEN_WATER), Ratio::new::<ratio>(1.2));
/// let area = Area::new::<square_metre>(0.01);
/// let force = drag::drag(density, coefficient, area, Velocity::new::<metre_per_second>(2.0))?;
/// assert!((force.value - 26.4).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub const LADEN_WATER: f64 = 1100.0;

/// Drag of a current on what is held still in it.
///
/// # Formula
/// `F = ½ ρ C_d A v²`: `ρ` > 0 the density of the water (kg/m³), `C_d` ≥ 0 the drag coefficient, `A` ≥ 0 the area
/// under water that faces the current (m²), `v` ≥ 0 the speed of the water (m/s). Of a line across the current the area
/// is its diameter times its length in the water.
/// # Errors
/// [`OutOfDomain`] outside these ranges or if F is too large for a number.
/// # References
/// Definition of the drag coefficient. Keller & Mitsch 1993 and Jonkman & Penning-Rowsell 2008 take it for people who
/// stand in water (from memory).
/// ```
/// use rigging_core::law::drag;
/// use rigging_core::quantity::{Area, MassDensity, Ratio, Velocity, kilogram_per_cubic_metre, metre_per_second, ratio, square_metre};
///
/// let water = MassDensity::new::<kilogram_per_cubic_metre>(1000.0);
/// let (coefficient, area) = (Ratio::new::<ratio>(1.0), Area::new::<square_metre>(0.5));
/// let force = drag::drag(water, coefficient, area, Velocity::new::<metre_per_second>(2.0))?;
/// assert_eq!(force.value, 1000.0);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn drag(density: MassDensity, coefficient: Ratio, area: Area, speed: Velocity) -> Result<Force, OutOfDomain> {
    let density = positive("density of the water", density.value)?;
    let coefficient = not_negative("drag coefficient", coefficient.value)?;
    let area = not_negative("area in the current", area.value)?;
    let speed = not_negative("speed of the water", speed.value)?;
    finite("drag of the water", density / 2.0 * coefficient * area * speed * speed).map(Force::new::<newton>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{kilogram_per_cubic_metre, metre_per_second, ratio, square_metre};

    #[test]
    fn ten_millimetres_of_line_are_dragged_by_24_newtons_a_metre_at_two_metres_a_second() {
        // By hand: ½ · 1000 · 1.2 · 0.01 · 2² = 24.
        let (density, coefficient) =
            (MassDensity::new::<kilogram_per_cubic_metre>(CLEAN_WATER), Ratio::new::<ratio>(1.2));
        let dragged =
            drag(density, coefficient, Area::new::<square_metre>(0.01), Velocity::new::<metre_per_second>(2.0));
        assert_eq!(dragged.unwrap().value, 24.0);
    }
}
