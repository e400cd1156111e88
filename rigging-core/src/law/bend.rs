//! A rope that turns over something: friction and the force on the bend.
//!
//! Angles are **turning** angles: 0 where the rope runs straight on, π where it comes back. The angle
//! between the two parts of the rope is π less the turning angle.

use super::{OutOfDomain, check, finite, not_negative, positive};
use crate::quantity::{Angle, Force, Ratio, newton, ratio};
use std::f64::consts::PI;

/// Ratio of the tighter to the slacker side of a rope about to slide over a bend.
///
/// # Formula
/// `T_tight / T_slack = e^{μφ}` where `μ` ≥ 0 is the coefficient of friction and `φ` ≥ 0 the turning
/// angle in radians; the angles of several bends of one μ add, whole turns included.
/// # Errors
/// [`OutOfDomain`] if μ or φ is negative or the ratio is too large for a number.
/// # References
/// Euler–Eytelwein; Baker & Haynes, *Engineering Statics*, chapter 9.
/// ```
/// use rigging_core::law::bend;
/// use rigging_core::quantity::{Angle, Ratio, degree, ratio};
///
/// // Half a turn with friction 0.25: e^(0.25 π) = 2.193.
/// let grows = bend::tight_to_slack(Ratio::new::<ratio>(0.25), Angle::new::<degree>(180.0))?;
/// assert!((grows.value - 2.193).abs() < 5e-4);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn tight_to_slack(friction: Ratio, turning_angle: Angle) -> Result<Ratio, OutOfDomain> {
    let friction = not_negative("friction", friction.value)?;
    let angle = check("turning angle", turning_angle.value, turning_angle.value >= 0.0, "0° or more")?;
    finite("ratio of tensions", (friction * angle).exp()).map(Ratio::new::<ratio>)
}

/// Tension on the slack side of a bend, the tight side known.
///
/// # Formula
/// `T e^{−μφ}`; see [`tight_to_slack`].
/// # Errors
/// [`OutOfDomain`] if T, μ or φ is negative.
/// # References
/// As [`tight_to_slack`].
/// ```
/// use rigging_core::law::bend;
/// use rigging_core::quantity::{Angle, Force, Ratio, degree, newton, ratio};
///
/// // Tayal, Engineering Mechanics: 1000 N over half a turn with friction 0.25 leave 455.9 N.
/// let (half_a_turn, friction) = (Angle::new::<degree>(180.0), Ratio::new::<ratio>(0.25));
/// let held = bend::slack_side(Force::new::<newton>(1000.0), friction, half_a_turn)?;
/// assert!((held.value - 455.9).abs() < 0.05);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn slack_side(tight: Force, friction: Ratio, turning_angle: Angle) -> Result<Force, OutOfDomain> {
    let tight = not_negative("tension", tight.value)?;
    let friction = not_negative("friction", friction.value)?;
    let angle = check("turning angle", turning_angle.value, turning_angle.value >= 0.0, "0° or more")?;
    Ok(Force::new::<newton>(tight * (-friction * angle).exp()))
}

/// Tension on the tight side of a bend, the slack side known.
///
/// # Formula
/// `T e^{+μφ}`; see [`tight_to_slack`].
/// # Errors
/// [`OutOfDomain`] if T, μ or φ is negative or the result is too large for a number.
/// # References
/// As [`tight_to_slack`].
/// ```
/// use rigging_core::law::bend;
/// use rigging_core::quantity::{Angle, Force, Ratio, degree, newton, ratio};
///
/// let (half_a_turn, friction) = (Angle::new::<degree>(180.0), Ratio::new::<ratio>(0.25));
/// let raises = bend::tight_side(Force::new::<newton>(1000.0), friction, half_a_turn)?;
/// assert!((raises.value - 2193.3).abs() < 0.05);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn tight_side(slack: Force, friction: Ratio, turning_angle: Angle) -> Result<Force, OutOfDomain> {
    let slack = not_negative("tension", slack.value)?;
    let gain = tight_to_slack(friction, turning_angle)?.value;
    finite("tension", slack * gain).map(Force::new::<newton>)
}

/// Coefficient of friction from a load raised and lowered over the same bend.
///
/// # Formula
/// `μ = ln(T_raise / T_lower) / (2φ)`, T_raise ≥ T_lower > 0, φ > 0.
/// # Errors
/// [`OutOfDomain`] outside these ranges.
/// # References
/// Delaney, *Physics for Roping Technicians*, 2020.
/// ```
/// use rigging_core::law::bend;
/// use rigging_core::quantity::{Angle, Force, degree, newton};
///
/// // An edge of 90° that doubles the force to raise halves that to lower: ln 2 / (π/2).
/// let (raising, lowering) = (Force::new::<newton>(2000.0), Force::new::<newton>(500.0));
/// let friction = bend::friction_from_pair(raising, lowering, Angle::new::<degree>(90.0))?;
/// assert!((friction.value - 0.4413).abs() < 5e-5);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn friction_from_pair(raising: Force, lowering: Force, turning_angle: Angle) -> Result<Ratio, OutOfDomain> {
    let lowering = positive("lowering force", lowering.value)?;
    let raising = check("raising force", raising.value, raising.value >= lowering, "not less than the lowering force")?;
    let angle = check("turning angle", turning_angle.value, turning_angle.value > 0.0, "above 0°")?;
    finite("friction", (raising / lowering).ln() / (2.0 * angle)).map(Ratio::new::<ratio>)
}

/// Force of a rope on what it bends over.
///
/// # Formula
/// `√(T₁² + T₂² − 2 T₁ T₂ cos φ)` where `T₁`, `T₂` are the tensions on the two sides (N) and `φ` the
/// turning angle, 0 ≤ φ ≤ π. For equal tensions it is `2 T sin(φ/2)`.
/// # Errors
/// [`OutOfDomain`] if a tension is negative or φ is outside its range.
/// # References
/// Sum of two forces; the printed block-angle tables give `2 cos` of half the angle between the parts.
/// ```
/// use rigging_core::law::bend;
/// use rigging_core::quantity::{Angle, Force, degree, newton};
///
/// // Turned right round, the bend carries both sides; turned by 90°, √2 times one of them.
/// let side = Force::new::<newton>(1000.0);
/// let turned = |degrees: f64| bend::resultant(side, side, Angle::new::<degree>(degrees));
/// assert!((turned(180.0)?.value - 2000.0).abs() < 1e-9 && (turned(90.0)?.value - 1414.2).abs() < 0.05);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn resultant(one_side: Force, other_side: Force, turning_angle: Angle) -> Result<Force, OutOfDomain> {
    let one = not_negative("tension", one_side.value)?;
    let other = not_negative("tension", other_side.value)?;
    let angle = turning_angle.value;
    let angle = check("turning angle", angle, (0.0..=PI).contains(&angle), "from 0 to 180°")?;
    // As a sum of squares, so that nothing cancels when the rope runs nearly straight; a root of each,
    // so that no product is too large or too small for a number.
    let (along, across) = (one - other, 2.0 * (angle / 2.0).sin() * (one.sqrt() * other.sqrt()));
    finite("resultant", along.hypot(across)).map(Force::new::<newton>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::degree;
    use approx::assert_relative_eq;

    fn newtons(value: f64) -> Force {
        Force::new::<newton>(value)
    }

    #[test]
    fn the_two_sides_of_a_bend_undo_each_other() {
        let (mu, angle) = (Ratio::new::<ratio>(0.3), Angle::new::<degree>(110.0));
        let tight = tight_side(newtons(250.0), mu, angle).unwrap();
        assert_relative_eq!(slack_side(tight, mu, angle).unwrap().value, 250.0, max_relative = 1e-14);
        let lowering = slack_side(newtons(250.0), mu, angle).unwrap();
        assert_relative_eq!(friction_from_pair(tight, lowering, angle).unwrap().value, 0.3, max_relative = 1e-13);
    }

    #[test]
    fn a_rope_that_runs_straight_on_loads_nothing() {
        assert_eq!(resultant(newtons(900.0), newtons(900.0), Angle::new::<degree>(0.0)).unwrap().value, 0.0);
    }

    #[test]
    fn a_rope_that_comes_back_loads_the_bend_with_both_sides() {
        let back = resultant(newtons(900.0), newtons(400.0), Angle::new::<degree>(180.0)).unwrap();
        assert_relative_eq!(back.value, 1300.0, max_relative = 1e-14);
    }

    #[test]
    fn friction_too_large_for_a_number_is_named() {
        let error = tight_to_slack(Ratio::new::<ratio>(1e9), Angle::new::<degree>(360.0)).unwrap_err();
        assert_eq!(error.what, "ratio of tensions");
    }
}
