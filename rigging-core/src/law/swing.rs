//! A body that swings on a rope.

use super::{OutOfDomain, check, finite, not_negative};
use crate::quantity::{Angle, Force, newton};
use std::f64::consts::FRAC_PI_2;

/// Largest pull of a taut rope on which a body swings from rest: at the bottom.
///
/// # Formula
/// `F = W (3 − 2 cos θ₀)` where `W` ≥ 0 is the weight (N) and `θ₀` the angle of the rope from plumb where
/// the body lets go, 0 ≤ θ₀ ≤ π/2. The rope does not stretch and nothing is lost.
/// # Errors
/// [`OutOfDomain`] if W is negative or θ₀ outside its range.
/// # References
/// Pendulum: energy kept, and the pull that bends its way.
pub fn peak(weight: Force, from_plumb: Angle) -> Result<Force, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let angle = from_plumb.value;
    let angle = check("angle from plumb", angle, (0.0..=FRAC_PI_2).contains(&angle), "from 0 to 90°")?;
    finite("pull of the swing", weight * (3.0 - 2.0 * angle.cos())).map(Force::new::<newton>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::degree;
    use approx::assert_relative_eq;

    #[test]
    fn at_rest_a_swing_pulls_its_weight_and_from_level_three_times_that() {
        let pull = |degrees| peak(Force::new::<newton>(800.0), Angle::new::<degree>(degrees)).unwrap().value;
        assert_eq!(pull(0.0), 800.0);
        assert_relative_eq!(pull(90.0), 2400.0, max_relative = 1e-14);
    }
}
