//! An anchor leg fails, the point below drops, and the legs that are left catch who hangs there.

use super::{OutOfDomain, check, finite, positive};
use crate::quantity::{Force, Length, newton};

/// Peak force on the point below the legs, as computed and at most.
/// ```
/// use rigging_core::law::leg_failure;
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // No drop, legs that do not give: the person goes on hanging. At most it is as let go: twice the weight.
/// let (weight, none) = (Force::new::<newton>(800.0), Length::default());
/// let catch = leg_failure::peak(weight, none, none, Length::new::<metre>(0.2))?;
/// assert!((catch.computed.value - 800.0).abs() < 1e-9);
/// assert!((catch.most.value - 1600.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Catch {
    /// The rope between point and person keeps part of the pull while the point drops.
    pub computed: Force,
    /// The person falls freely as far as the point drops.
    pub most: Force,
}

/// Peak force when a person who hangs at rest is caught after the point above has dropped.
///
/// # Formula
/// With `W` the weight (N), `e` the drop of the point (m), and the stiffness told as what gives under the weight:
/// `a = W / k_legs`, `r = W / k_rope` (m), so that `1/k = 1/k_legs + 1/k_rope = (a + r)/W`. With `s = e − r`:
/// `F = W + √(W² + 2 W k s)` for s ≥ 0, `F = 2 W + k s` for s < 0; at most `W + √(W² + 2 W k e)`.
/// W > 0, e ≥ 0, a ≥ 0, r ≥ 0, a + r > 0. Straight springs without loss.
/// # Errors
/// [`OutOfDomain`] outside these ranges, or if the result is too large for a number.
/// # References
/// Derived from the energy of two springs in a row; held against a time simulation (row D9 of the check values).
/// ```
/// use rigging_core::law::leg_failure;
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// let (weight, metres) = (Force::new::<newton>(800.0), Length::new::<metre>);
/// // Legs and rope give 0.05 m each under the weight, the point drops 0.2 m. By hand:
/// // s = 0.2 − 0.05 = 0.15, 800 (1 + √(1 + 2 · 0.15/0.1)) = 2400 N; at most 800 (1 + √(1 + 2 · 0.2/0.1)) = 2589 N.
/// let catch = leg_failure::peak(weight, metres(0.2), metres(0.05), metres(0.05))?;
/// assert!((catch.computed.value - 2400.0).abs() < 1e-6 && (catch.most.value - 2589.0).abs() < 0.5);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn peak(weight: Force, drop: Length, legs_give: Length, rope_gives: Length) -> Result<Catch, OutOfDomain> {
    let weight = positive("weight", weight.value)?;
    let drop = super::not_negative("drop", drop.value)?;
    let legs = super::not_negative("give of the legs", legs_give.value)?;
    let rope = super::not_negative("give of the rope", rope_gives.value)?;
    let give = check("give of legs and rope", legs + rope, legs + rope > 0.0, "above 0")?;
    let caught = |fall: f64| {
        let share = fall / give;
        weight * if share >= 0.0 { 1.0 + (1.0 + 2.0 * share).sqrt() } else { 2.0 + share }
    };
    let most = finite("peak force", caught(drop))?;
    Ok(Catch { computed: Force::new::<newton>(caught(drop - rope)), most: Force::new::<newton>(most) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::metre;
    use approx::assert_relative_eq;

    fn at(weight: f64, drop: f64, k_legs: f64, k_rope: f64) -> Catch {
        let metres = Length::new::<metre>;
        peak(Force::new::<newton>(weight), metres(drop), metres(weight / k_legs), metres(weight / k_rope)).unwrap()
    }

    #[test]
    fn either_of_legs_and_rope_may_give_nothing_but_not_both() {
        let metres = Length::new::<metre>;
        let catch = |legs: f64, rope: f64| peak(Force::new::<newton>(800.0), metres(0.1), metres(legs), metres(rope));
        // All of the give in one of them, with no more lost to the rope than it gives: W (1 + √(1 + 2 · 0.1/0.05)).
        assert_relative_eq!(
            catch(0.05, 0.0).unwrap().computed.value,
            800.0 * (1.0 + 5.0_f64.sqrt()),
            max_relative = 1e-14
        );
        assert_relative_eq!(catch(0.0, 0.05).unwrap().most.value, 800.0 * (1.0 + 5.0_f64.sqrt()), max_relative = 1e-14);
        assert_eq!(catch(0.0, 0.0).unwrap_err().what, "give of legs and rope");
    }

    #[test]
    fn a_long_drop_is_a_fall_and_no_drop_no_more_than_letting_go() {
        // Far beyond what the rope gives: the standard equation of a fall on a spring.
        let (weight, drop, k) = (800.0_f64, 3.0, 1.0 / (1.0 / 33e3 + 1.0 / 4.8e3));
        let fallen = drop - weight / 4.8e3;
        let spring = weight + (weight * weight + 2.0 * weight * k * fallen).sqrt();
        assert_relative_eq!(at(weight, drop, 33e3, 4.8e3).computed.value, spring, max_relative = 1e-12);
        // Stiff legs under a soft rope that do not drop: what hung there goes on hanging.
        assert_relative_eq!(at(weight, 0.0, 1e12, 4.8e3).computed.value, weight, max_relative = 1e-6);
        assert_relative_eq!(at(weight, 0.0, 33e3, 4.8e3).most.value, 2.0 * weight, max_relative = 1e-12);
    }

    #[test]
    fn the_peak_does_not_jump_where_the_rope_goes_slack() {
        let drop = 800.0 / 4.8e3;
        let (before, after) = (at(800.0, drop - 1e-9, 33e3, 4.8e3), at(800.0, drop + 1e-9, 33e3, 4.8e3));
        assert_relative_eq!(before.computed.value, after.computed.value, max_relative = 1e-6);
        assert!(before.most > before.computed);
    }

    #[test]
    fn nothing_that_gives_is_refused() {
        let none = Length::new::<metre>(0.0);
        assert!(peak(Force::new::<newton>(800.0), none, none, none).is_err());
    }
}
