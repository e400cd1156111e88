//! A closed loop through two anchors and the load: the triangle rig.

use super::{OutOfDomain, check, finite, not_negative, two_legs};
use crate::quantity::{Angle, Force, newton};
use std::f64::consts::{FRAC_PI_4, PI};

/// Force on each anchor of a closed loop, friction not counted.
///
/// # Formula
/// Tension of the loop `T = F / (2 cos(θ/2))`; force on each anchor `2 T cos(π/4 − θ/4)`, where `F` is
/// the load (N) and `θ` the included angle at it, 0 ≤ θ < π. Holds for level anchors and a load square
/// to the line between them.
/// # Errors
/// [`OutOfDomain`] if θ is outside its range or F is negative.
/// # References
/// Derived: two strands of equal tension meet at the anchor at the angle π/2 − θ/2.
/// ```
/// use rigging_core::law::triangle;
/// use rigging_core::quantity::{Angle, Force, degree, newton};
///
/// // At 60° each anchor of a closed loop gets all of the load; at 120° nearly twice.
/// let load = Force::new::<newton>(1000.0);
/// let anchor = |degrees: f64| triangle::anchor_force(load, Angle::new::<degree>(degrees));
/// assert!((anchor(60.0)?.value - 1000.0).abs() < 1e-9 && (anchor(120.0)?.value - 1931.9).abs() < 0.05);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn anchor_force(load: Force, included_angle: Angle) -> Result<Force, OutOfDomain> {
    let loop_tension = two_legs::equal(load, included_angle)?.value;
    let at_anchor = 2.0 * loop_tension * (FRAC_PI_4 - included_angle.value / 4.0).cos();
    finite("anchor force", at_anchor).map(Force::new::<newton>)
}

/// Force on an anchor where two strands of one frictionless loop meet.
///
/// # Formula
/// `2 T cos(γ/2)` where `T` is the tension of the loop (N) and `γ` the angle between the two strands at
/// that anchor, 0 ≤ γ ≤ π.
/// # Errors
/// [`OutOfDomain`] if γ is outside its range, T is negative or the result is too large for a number.
/// # References
/// Sum of two equal forces; the same as [`super::bend::resultant`] of equal tensions.
/// ```
/// use rigging_core::law::triangle;
/// use rigging_core::quantity::{Angle, Force, degree, newton};
///
/// // Strands side by side pull twice, at 120° once, in one line not at all.
/// let pull = Force::new::<newton>(500.0);
/// let strands = |degrees| triangle::strands_at_anchor(pull, Angle::new::<degree>(degrees));
/// assert_eq!(strands(0.0)?.value, 1000.0);
/// assert!((strands(120.0)?.value - 500.0).abs() < 1e-9 && strands(180.0)?.value < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn strands_at_anchor(loop_tension: Force, between_strands: Angle) -> Result<Force, OutOfDomain> {
    let tension = not_negative("loop tension", loop_tension.value)?;
    let angle = between_strands.value;
    let angle = check("angle between strands", angle, (0.0..=PI).contains(&angle), "from 0 to 180°")?;
    finite("anchor force", 2.0 * tension * (angle / 2.0).cos()).map(Force::new::<newton>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::degree;
    use approx::assert_relative_eq;

    #[test]
    fn the_level_case_is_the_general_one() {
        for angle in [0.0, 30.0, 60.0, 120.0, 170.0] {
            let load = Force::new::<newton>(700.0);
            let included = Angle::new::<degree>(angle);
            let tension = two_legs::equal(load, included).unwrap();
            let strands = strands_at_anchor(tension, Angle::new::<degree>((180.0 - angle) / 2.0)).unwrap();
            assert_relative_eq!(anchor_force(load, included).unwrap().value, strands.value, max_relative = 1e-13);
        }
    }

    #[test]
    fn a_loop_always_loads_its_anchors_more_than_separate_legs() {
        for angle in 0..179 {
            let (load, angle) = (Force::new::<newton>(1.0), Angle::new::<degree>(f64::from(angle)));
            assert!(anchor_force(load, angle).unwrap() > two_legs::equal(load, angle).unwrap());
        }
    }
}
