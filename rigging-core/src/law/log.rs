//! A log that lies across a gap and is pulled in its middle.

use super::{OutOfDomain, finite, not_negative, positive};
use crate::quantity::{Force, Length, Mass, Pressure, kilogram, metre, newton};
use std::f64::consts::PI;

/// Diameter of something round, from the sling that goes once round it.
///
/// # Formula
/// `d = u / π`, `u` ≥ 0 the girth (m).
/// # Errors
/// [`OutOfDomain`] if u is negative.
/// # References
/// A circle; of all shapes of one girth it is the one with the largest section.
/// ```
/// use rigging_core::law::log;
/// use rigging_core::quantity::{Length, metre};
///
/// let diameter = log::diameter(Length::new::<metre>(0.471))?;
/// assert!((diameter.value - 0.15).abs() < 5e-4);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn diameter(girth: Length) -> Result<Length, OutOfDomain> {
    Ok(Length::new::<metre>(not_negative("girth", girth.value)? / PI))
}

/// Force in the middle at which a round log across a gap breaks, its ends free to turn.
///
/// # Formula
/// `F = σ π d³ / (8 L)`: bending strength `σ` ≥ 0 (Pa), diameter `d` ≥ 0 and gap `L` > 0 (m). From `F L/4 = σ π d³/32`.
/// # Errors
/// [`OutOfDomain`] outside these ranges or if F is too large for a number.
/// # References
/// Bending of a simply supported beam under one load. Ends that are clamped would carry up to twice as much.
/// ```
/// use rigging_core::law::log;
/// use rigging_core::quantity::{Length, Pressure, megapascal, metre};
///
/// // 15 cm across 2 m, pulled in the middle, bending strength 15 MPa: π d³ f / (8 L).
/// let (thick, gap) = (Length::new::<metre>(0.15), Length::new::<metre>(2.0));
/// let force = log::breaks_at(thick, gap, Pressure::new::<megapascal>(15.0))?;
/// assert!((force.value - 9940.0).abs() < 1.0);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn breaks_at(diameter: Length, gap: Length, strength: Pressure) -> Result<Force, OutOfDomain> {
    let diameter = not_negative("diameter of the log", diameter.value)?;
    let gap = positive("gap", gap.value)?;
    let strength = not_negative("bending strength", strength.value)?;
    finite("breaking force", strength * PI * diameter.powi(3) / (8.0 * gap)).map(Force::new::<newton>)
}

/// Mass of a log.
///
/// # Formula
/// `m = ρ π d² l / 4`: mass of a cubic metre `ρ` ≥ 0 (kg), diameter `d` ≥ 0 and length `l` ≥ 0 (m).
/// # Errors
/// [`OutOfDomain`] outside these ranges or if m is too large for a number.
/// # References
/// Volume of a cylinder.
/// ```
/// use rigging_core::law::log;
/// use rigging_core::quantity::{Length, Mass, kilogram, metre};
///
/// let (thick, long) = (Length::new::<metre>(0.2), Length::new::<metre>(2.0));
/// let mass = log::mass(thick, long, Mass::new::<kilogram>(800.0))?;
/// assert!((mass.value - 50.27).abs() < 5e-3);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn mass(diameter: Length, length: Length, cubic_metre: Mass) -> Result<Mass, OutOfDomain> {
    let diameter = not_negative("diameter of the log", diameter.value)?;
    let length = not_negative("length of the log", length.value)?;
    let cubic_metre = not_negative("mass of a cubic metre", cubic_metre.value)?;
    finite("mass of the log", cubic_metre * (PI / 4.0 * diameter * diameter * length)).map(Mass::new::<kilogram>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::pascal;
    use approx::assert_relative_eq;

    #[test]
    fn twice_as_thick_carries_eight_times_and_twice_the_gap_half() {
        let at = |diameter, gap| {
            breaks_at(Length::new::<metre>(diameter), Length::new::<metre>(gap), Pressure::new::<pascal>(25e6))
                .unwrap()
                .value
        };
        assert_relative_eq!(at(0.3, 2.0), 8.0 * at(0.15, 2.0), max_relative = 1e-14);
        assert_relative_eq!(at(0.15, 4.0), 0.5 * at(0.15, 2.0), max_relative = 1e-14);
    }

    #[test]
    fn a_metre_of_a_log_of_a_girth_weighs_what_its_cylinder_does() {
        // By hand: 0.628 m round is 0.2 m thick; 0.0314 m³ of it at 800 kg.
        let thick = diameter(Length::new::<metre>(0.2 * PI)).unwrap();
        assert_relative_eq!(thick.value, 0.2, max_relative = 1e-15);
        let one = mass(thick, Length::new::<metre>(1.0), Mass::new::<kilogram>(800.0)).unwrap();
        assert_relative_eq!(one.value, 25.13, max_relative = 1e-3);
    }
}
