//! A bolt pulled out of the rock and along it at once.

use super::{OutOfDomain, check, finite, not_negative, positive};
use crate::quantity::{Angle, Force, Ratio, newton, ratio};
use std::f64::consts::PI;

/// What a pull on a bolt does: part straight out of the rock, part along it.
/// ```
/// use rigging_core::law::bolt::{self, Parts};
/// use rigging_core::quantity::{Angle, Force, degree, newton};
///
/// // A pull straight into the rock: no part of it is straight out, and none along it.
/// let inward = bolt::parts(Force::new::<newton>(4000.0), Angle::new::<degree>(180.0))?;
/// let Parts { out, along } = inward;
/// assert!(out.value == 0.0 && along.value < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parts {
    /// Tension: the part straight out; none where the pull presses into the rock.
    pub out: Force,
    /// Shear: the part along the rock.
    pub along: Force,
}

/// The parts of a pull on a bolt that lies flat on the rock.
///
/// # Formula
/// `N = max(0, F cos α)`, `V = F sin α` where `F` ≥ 0 is the pull (N) and `α` its angle from straight out
/// of the rock, 0 ≤ α ≤ π (beyond π/2 it presses into the rock).
/// # Errors
/// [`OutOfDomain`] if F is negative or α is outside its range.
/// # References
/// Components of a force.
/// ```
/// use rigging_core::law::bolt;
/// use rigging_core::quantity::{Angle, Force, newton, radian};
///
/// // The triangle of 3, 4 and 5: the pull leans 4 along the rock for 3 straight out of it.
/// let leans = Angle::new::<radian>((4.0_f64 / 3.0).atan());
/// let parts = bolt::parts(Force::new::<newton>(5000.0), leans)?;
/// assert!((parts.out.value - 3000.0).abs() < 1e-9 && (parts.along.value - 4000.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn parts(pull: Force, from_straight_out: Angle) -> Result<Parts, OutOfDomain> {
    let pull = not_negative("pull", pull.value)?;
    let angle = from_straight_out.value;
    let angle = check("angle from straight out of the rock", angle, (0.0..=PI).contains(&angle), "from 0 to 180°")?;
    let (sine, cosine) = angle.sin_cos();
    let newtons = |part: f64| Force::new::<newton>(pull * part.max(0.0));
    Ok(Parts { out: newtons(cosine), along: newtons(sine) })
}

/// Share of its limit that a bolt in tension and shear uses up: 1 at the limit.
///
/// Holds for a hanger flat on the rock. A bolt that stands proud bends besides, and reaches its limit
/// far earlier: nothing here speaks of it.
///
/// # Formula
/// `u = [(N/N_r)^{5/3} + (V/V_r)^{5/3}]^{3/5}`, `N`, `V` ≥ 0 the parts of the pull (N), `N_r`, `V_r` > 0
/// the limits straight out and along (N). `λ = 1/u` is the multiplier to the limit: the same pull λ
/// times as large reaches it.
/// # Errors
/// [`OutOfDomain`] outside these ranges or if u is too large for a number.
/// # References
/// ACI 318, commentary on the interaction of tension and shear of anchors (from memory).
/// ```
/// use rigging_core::law::bolt::{self, Parts};
/// use rigging_core::quantity::{Force, kilonewton};
///
/// let (none, out, along) = (Force::default(), Force::new::<kilonewton>(15.0), Force::new::<kilonewton>(25.0));
/// // Half of one limit is half of the way. Half of both at once is 2^{3/5}/2 = 0.758, by hand.
/// let one = bolt::share_of_limit(Parts { out: out / 2.0, along: none }, out, along)?;
/// let both = bolt::share_of_limit(Parts { out: out / 2.0, along: along / 2.0 }, out, along)?;
/// assert!((one.value - 0.5).abs() < 1e-12 && (both.value - 0.758).abs() < 5e-4);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn share_of_limit(parts: Parts, limit_out: Force, limit_along: Force) -> Result<Ratio, OutOfDomain> {
    let out = not_negative("pull straight out", parts.out.value)?;
    let along = not_negative("pull along the rock", parts.along.value)?;
    let out = finite("share of the limit", out / positive("limit straight out", limit_out.value)?)?;
    let along = finite("share of the limit", along / positive("limit along the rock", limit_along.value)?)?;
    let (more, less) = (out.max(along), out.min(along));
    if more == 0.0 {
        return Ok(Ratio::new::<ratio>(0.0));
    }
    // The larger share taken out of the sum, so that no power is too large or too small for a number; powers
    // by way of the logarithm, which a small module has already.
    let sum = 1.0 + (5.0 / 3.0 * (less / more).ln()).exp();
    let share = more * (3.0 / 5.0 * sum.ln()).exp();
    finite("share of the limit", share).map(Ratio::new::<ratio>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{degree, kilonewton};
    use approx::assert_relative_eq;

    fn used(out: f64, along: f64) -> f64 {
        let kilonewtons = Force::new::<kilonewton>;
        let parts = Parts { out: kilonewtons(out), along: kilonewtons(along) };
        share_of_limit(parts, kilonewtons(15.0), kilonewtons(25.0)).unwrap().value
    }

    #[test]
    fn alone_each_part_is_held_against_its_own_limit() {
        assert_relative_eq!(used(7.5, 0.0), 0.5, max_relative = 1e-14);
        assert_relative_eq!(used(0.0, 25.0), 1.0, max_relative = 1e-14);
        assert_eq!(used(0.0, 0.0), 0.0);
    }

    #[test]
    fn half_of_each_limit_at_once_is_three_quarters_of_the_way() {
        // 2^{3/5} / 2 by hand: 0.7579.
        assert_relative_eq!(used(7.5, 12.5), 0.7579, epsilon = 5e-5);
    }

    #[test]
    fn a_pull_into_the_rock_leaves_shear_alone() {
        let pull = Force::new::<kilonewton>(4.0);
        let pressed = parts(pull, Angle::new::<degree>(150.0)).unwrap();
        assert_eq!(pressed.out.value, 0.0);
        assert_relative_eq!(pressed.along.get::<kilonewton>(), 2.0, max_relative = 1e-14);
    }
}
