//! A body that holds a rope by its weight where the ground also falls to one side.
//!
//! Slope `β`, rope and `a` as in [`ground`]. The side slope `γ` is that of the ground square to the rope:
//! the ground presses with `cos γ` of what lies in the rope's vertical plane, and `sin γ` of it pulls to the side.

use super::ground::{self, Directions};
use super::{OutOfDomain, check, finite, root};
use crate::quantity::{Angle, Force, Ratio, newton, ratio};
use std::f64::consts::FRAC_PI_2;

fn side(side_slope: Angle) -> Result<(f64, f64), OutOfDomain> {
    let angle = side_slope.value;
    Ok(check("side slope", angle, (0.0..FRAC_PI_2).contains(&angle), "from 0 to below 90°")?.sin_cos())
}

/// Rope force at which a body slides.
///
/// # Formula
/// With weight `W`, friction `μ` and a push `B` of the feet against the rope:
/// - the rope upward from the ground, a > 0: the least `T` with
///   `√((T cos a + W sin β − B)² + (W cos β sin γ)²) = μ (W cos β cos γ − T sin a)`, the first bracket not below 0. The
///   rope takes weight off the ground but none of the pull to the side, so T is never above the lifting force;
/// - else the rope's pull goes to the side as well: as [`ground::slides_at`] with `√((μ cos γ)² − sin² γ)` for μ.
///
/// 0 if the body slides without any rope, as it does where tan γ ≥ μ; no limit as there.
/// # Errors
/// [`OutOfDomain`] as there, or if γ is not from 0 to below 90°.
/// # References
/// Coulomb friction against the sum of two pulls; derived for this project.
/// ```
/// use rigging_core::law::{ground::Directions, side_slope};
/// use rigging_core::quantity::{Angle, Force, Ratio, degree, newton, ratio};
///
/// let level = Directions { slope: Angle::default(), rope: Angle::default() };
/// let (weight, friction) = (Force::new::<newton>(1000.0), Ratio::new::<ratio>(0.35));
/// let slides = |side| side_slope::slides_at(weight, friction, Force::default(), level, Angle::new::<degree>(side));
/// // By hand at 10°: √((0.35 · 0.9848)² − 0.1736²) = 0.298 is left of a friction of 0.35.
/// assert!(slides(10.0)?.is_some_and(|force| (force.value - 298.0).abs() < 0.5));
/// // Beyond atan 0.35 = 19.3° the body slides to the side without any rope.
/// assert_eq!(slides(19.4)?, Some(Force::default()));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn slides_at(
    weight: Force,
    friction: Ratio,
    push: Force,
    directions: Directions,
    side_slope: Angle,
) -> Result<Option<Force>, OutOfDomain> {
    let (sin, cos) = side(side_slope)?;
    let without = ground::slides_at(weight, friction, push, directions)?;
    if sin == 0.0 || without.is_some_and(|force| force.value == 0.0) {
        return Ok(without);
    }
    let nothing = Ok(Some(Force::new::<newton>(0.0)));
    let (slope, _, angle) = directions.checked()?;
    let (Some(most), true) = (without, angle > 0.0) else {
        let left = (friction.value * cos).powi(2) - sin * sin;
        if left <= 0.0 {
            return nothing;
        }
        return ground::slides_at(weight, Ratio::new::<ratio>(left.sqrt()), push, directions);
    };
    // In shares of the larger force, so that no square is too large for a number.
    let scale = weight.value.max(push.value);
    let (weight, push) = (weight.value / scale, push.value / scale);
    let across = weight * slope.cos() * sin;
    let spare = |pull: f64| {
        let along = (pull * angle.cos() + weight * slope.sin() - push).max(0.0);
        let grip = friction.value * (weight * slope.cos() * cos - pull * angle.sin());
        Ok::<_, OutOfDomain>(grip - along.hypot(across))
    };
    if spare(0.0)? <= 0.0 {
        return nothing;
    }
    let pull = root::between(0.0, most.value / scale, &spare)?;
    finite("sliding force", pull * scale).map(|force| Some(Force::new::<newton>(force)))
}

/// What a body that slides without any rope pulls along the ground; 0 for one that stays.
///
/// # Formula
/// `√((W sin β − B)² + (W cos β sin γ)²) − μ W cos β cos γ`, the bracket and the whole not below 0.
/// # Errors
/// [`OutOfDomain`] as [`slides_at`].
/// # References
/// As [`slides_at`], with no rope.
/// ```
/// use rigging_core::law::{ground::Directions, side_slope};
/// use rigging_core::quantity::{Angle, Force, Ratio, degree, newton, ratio};
///
/// let level = Directions { slope: Angle::default(), rope: Angle::default() };
/// let pulls = |friction| {
///     let (weight, side) = (Force::new::<newton>(1000.0), Angle::new::<degree>(30.0));
///     side_slope::pulls_by_itself(weight, Ratio::new::<ratio>(friction), Force::default(), level, side)
/// };
/// // By hand at 30° to the side: on ice 1000 sin 30° = 500 N; friction of more than tan 30° = 0.577 holds the body.
/// assert!((pulls(0.0)?.value - 500.0).abs() < 1e-9);
/// assert_eq!(pulls(0.6)?.value, 0.0);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn pulls_by_itself(
    weight: Force,
    friction: Ratio,
    push: Force,
    directions: Directions,
    side_slope: Angle,
) -> Result<Force, OutOfDomain> {
    let (sin, cos) = side(side_slope)?;
    ground::slides_at(weight, friction, push, directions)?;
    let (slope, _, _) = directions.checked()?;
    let square = weight.value * slope.cos();
    let along = (weight.value * slope.sin() - push.value).max(0.0);
    let pull = finite("pull along the ground", along.hypot(square * sin))? - friction.value * square * cos;
    Ok(Force::new::<newton>(pull.max(0.0)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::degree;
    use approx::assert_relative_eq;

    fn slides(friction: f64, push: f64, slope: f64, rope: f64, side: f64) -> Option<f64> {
        let directions = Directions { slope: Angle::new::<degree>(slope), rope: Angle::new::<degree>(rope) };
        let (weight, push) = (Force::new::<newton>(1.0), Force::new::<newton>(push));
        slides_at(weight, Ratio::new::<ratio>(friction), push, directions, Angle::new::<degree>(side))
            .unwrap()
            .map(|force| force.value)
    }

    #[test]
    fn what_friction_is_left_for_a_level_rope_on_a_side_slope() {
        // 0.35 becomes 0.30 at 10° and 0.22 at 15°; derived, told with two figures.
        assert_relative_eq!(slides(0.35, 0.0, 0.0, 0.0, 10.0).unwrap(), 0.30, epsilon = 5e-3);
        assert_relative_eq!(slides(0.35, 0.0, 0.0, 0.0, 15.0).unwrap(), 0.22, epsilon = 5e-3);
    }

    #[test]
    fn beyond_the_angle_of_friction_nothing_is_left_wherever_the_rope_goes() {
        let beyond = 0.35_f64.atan().to_degrees() + 0.01;
        for rope in [-80.0, -30.0, 0.0, 30.0, 80.0] {
            assert_eq!(slides(0.35, 0.0, 0.0, rope, beyond), Some(0.0), "{rope}");
            assert_eq!(slides(0.35, 2.0, 0.0, rope, beyond), Some(0.0), "{rope}: feet push forward, not sideways");
        }
    }

    #[test]
    fn on_ground_that_does_not_fall_to_a_side_the_feet_hold_without_friction_too() {
        // By hand: level, without friction, the rope must overcome the push and nothing else.
        assert_eq!(slides(0.0, 0.875, 0.0, 0.0, 0.0), Some(0.875));
    }

    #[test]
    fn a_rope_along_the_ground_is_where_both_forms_meet() {
        let (level, up) = (slides(0.4, 0.3, 8.0, -8.0, 9.0).unwrap(), slides(0.4, 0.3, 8.0, -8.0 + 1e-9, 9.0).unwrap());
        assert_relative_eq!(level, up, max_relative = 1e-8);
    }
}
