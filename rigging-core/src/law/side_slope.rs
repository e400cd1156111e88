//! A body that holds a rope by its weight where the ground also falls to one side.
//!
//! Slope `β`, rope and `a` as in [`ground`]. The side slope `γ` is that of the ground square to the rope:
//! the ground presses with `cos γ` of what lies in the rope's vertical plane, and `sin γ` of it pulls to the side.

use super::ground::{self, Directions};
use super::{OutOfDomain, check, finite, root};
use crate::quantity::{Angle, Force, Ratio, newton};
use std::f64::consts::FRAC_PI_2;

fn side(side_slope: Angle) -> Result<(f64, f64), OutOfDomain> {
    let angle = side_slope.value;
    Ok(check("side slope", angle, (0.0..FRAC_PI_2).contains(&angle), "from 0 to below 90°")?.sin_cos())
}

/// How far the rope runs to one side of straight against the feet.
fn beside(aside: Angle) -> Result<(f64, f64), OutOfDomain> {
    let angle = aside.value;
    Ok(check("angle between rope and feet", angle, (0.0..=FRAC_PI_2).contains(&angle), "from 0° to 90°")?.sin_cos())
}

/// What friction must hold of a pull along the rope and one to the side: the feet push as hard as serves best.
fn dragged(along: f64, across: f64, push: f64, (sin, cos): (f64, f64)) -> f64 {
    // Not `clamp`: its message would bring the formatting of floats into the page, 25 kB.
    let pushed = (along * cos - across * sin).max(0.0).min(push);
    (along - pushed * cos).max(0.0).hypot(across + pushed * sin)
}

/// Rope force at which a body slides.
///
/// # Formula
/// With weight `W`, friction `μ` and a push of the feet straight back, `b` from 0 to `B` ≥ 0 as serves best, the rope to one
/// side of straight by `ψ`, 0 to 90°, the side to which the ground falls:
/// - the rope upward from the ground, a > 0: the least `T` with
///   `√((T cos a + W sin β − b cos ψ)² + (W cos β sin γ + b sin ψ)²) = μ (W cos β cos γ − T sin a)`, the first bracket not
///   below 0. The rope takes weight off the ground but none of the pull to the side, so T is never above the lifting force;
/// - else the rope's pull goes to the side as well: `W cos β − T sin a` for `W cos β`; at ψ = 0 that is
///   [`ground::slides_at`] with `√((μ cos γ)² − sin² γ)` for μ.
///
/// 0 if the body slides without any rope, as it does where tan γ ≥ μ; no limit as there.
/// # Errors
/// [`OutOfDomain`] as there, if γ is not from 0 to below 90°, or ψ outside its range.
/// # References
/// Coulomb friction against the sum of two pulls; derived for this project.
/// ```
/// use rigging_core::law::{ground::Directions, side_slope};
/// use rigging_core::quantity::{Angle, Force, Ratio, degree, newton, ratio};
///
/// let level = Directions { slope: Angle::default(), rope: Angle::default() };
/// let (weight, friction) = (Force::new::<newton>(1000.0), Ratio::new::<ratio>(0.35));
/// let (degrees, newtons) = (Angle::new::<degree>, Force::new::<newton>);
/// let slides = |push, aside, side| {
///     side_slope::slides_at(weight, friction, newtons(push), degrees(aside), level, degrees(side))
/// };
/// // By hand at 10°: √((0.35 · 0.9848)² − 0.1736²) = 0.298 is left of a friction of 0.35.
/// assert!(slides(0.0, 0.0, 10.0)?.is_some_and(|force| (force.value - 298.0).abs() < 0.5));
/// // Beyond atan 0.35 = 19.3° the body slides to the side without any rope.
/// assert_eq!(slides(0.0, 0.0, 19.4)?, Some(Force::default()));
/// // Feet that push with all it takes leave friction the pull to one side: by hand 350/sin 30° = 700 N.
/// assert!(slides(5000.0, 30.0, 0.0)?.is_some_and(|force| (force.value - 700.0).abs() < 1e-6));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn slides_at(
    weight: Force,
    friction: Ratio,
    push: Force,
    aside: Angle,
    directions: Directions,
    side_slope: Angle,
) -> Result<Option<Force>, OutOfDomain> {
    let (sin, cos) = side(side_slope)?;
    let beside = beside(aside)?;
    let straight = ground::slides_at(weight, friction, push, directions)?;
    if sin == 0.0 && (aside.value == 0.0 || push.value == 0.0) {
        return Ok(straight);
    }
    let (slope, _, angle) = directions.checked()?;
    // In shares of the larger force, so that no square is too large for a number.
    let scale = weight.value.max(push.value);
    let (weight, push, friction) = (weight.value / scale, push.value / scale, friction.value);
    let square = weight * slope.cos();
    let (lifts, drags) = angle.sin_cos();
    let spare = |pull: f64| {
        let all = square - pull * lifts;
        let (presses, across) =
            if angle > 0.0 { (square * cos - pull * lifts, square * sin) } else { (all * cos, all * sin) };
        let along = pull * drags + weight * slope.sin();
        Ok::<_, OutOfDomain>(friction * presses - dragged(along, across, push, beside))
    };
    // Without any weight or push nothing holds.
    if scale == 0.0 || spare(0.0)? <= 0.0 {
        return Ok(Some(Force::new::<newton>(0.0)));
    }
    // What friction has over falls by so much for each newton of the rope at the least, once the feet push with all.
    let falls = if angle > 0.0 { drags + friction * lifts } else { drags.hypot(sin * lifts) + friction * cos * lifts };
    if falls <= 0.0 {
        return Ok(None);
    }
    let most = finite("sliding force", (friction * square + push + weight) / falls)?;
    let pull = root::between(0.0, most, &spare)?;
    finite("sliding force", pull * scale).map(|force| Some(Force::new::<newton>(force)))
}

/// What a body that slides without any rope pulls along the ground; 0 for one that stays.
///
/// # Formula
/// `√((W sin β − b cos ψ)² + (W cos β sin γ + b sin ψ)²) − μ W cos β cos γ`, the first bracket and the whole not below 0.
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
///     let (friction, straight) = (Ratio::new::<ratio>(friction), Angle::default());
///     side_slope::pulls_by_itself(weight, friction, Force::default(), straight, level, side)
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
    aside: Angle,
    directions: Directions,
    side_slope: Angle,
) -> Result<Force, OutOfDomain> {
    let (sin, cos) = side(side_slope)?;
    let beside = beside(aside)?;
    ground::slides_at(weight, friction, push, directions)?;
    let (slope, _, _) = directions.checked()?;
    let square = weight.value * slope.cos();
    let left = dragged(weight.value * slope.sin(), square * sin, push.value, beside);
    let pull = finite("pull along the ground", left)? - friction.value * square * cos;
    Ok(Force::new::<newton>(pull.max(0.0)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{degree, ratio};
    use approx::assert_relative_eq;

    fn slides(friction: f64, push: f64, slope: f64, rope: f64, side: f64) -> Option<f64> {
        let directions = Directions { slope: Angle::new::<degree>(slope), rope: Angle::new::<degree>(rope) };
        let (weight, push) = (Force::new::<newton>(1.0), Force::new::<newton>(push));
        let straight = Angle::default();
        slides_at(weight, Ratio::new::<ratio>(friction), push, straight, directions, Angle::new::<degree>(side))
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
    fn on_level_ground_feet_that_push_leave_friction_the_pull_to_one_side() {
        let slides = |push: f64| {
            let (newtons, degrees) = (Force::new::<newton>, Angle::new::<degree>);
            let level = Directions { slope: degrees(0.0), rope: degrees(0.0) };
            let friction = Ratio::new::<ratio>(0.35);
            slides_at(newtons(1000.0), friction, newtons(push), degrees(30.0), level, degrees(0.0))
                .unwrap()
                .unwrap()
                .value
        };
        // By hand: all that the feet can do is T cos 30°, and T sin 30° = 350 N.
        assert_relative_eq!(slides(5000.0), 700.0, max_relative = 1e-12);
        assert_relative_eq!(slides(0.0), 350.0, max_relative = 1e-12);
    }

    #[test]
    fn what_weighs_nothing_and_pushes_nothing_holds_nothing() {
        let nothing = Force::default();
        let level = Directions { slope: Angle::default(), rope: Angle::default() };
        let slides =
            slides_at(nothing, Ratio::new::<ratio>(0.5), nothing, Angle::default(), level, Angle::new::<degree>(9.0));
        assert_eq!(slides, Ok(Some(nothing)));
    }

    #[test]
    fn a_rope_along_the_ground_is_where_both_forms_meet() {
        let (level, up) = (slides(0.4, 0.3, 8.0, -8.0, 9.0).unwrap(), slides(0.4, 0.3, 8.0, -8.0 + 1e-9, 9.0).unwrap());
        assert_relative_eq!(level, up, max_relative = 1e-8);
    }
}
