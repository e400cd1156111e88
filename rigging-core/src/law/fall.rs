//! A body caught by a rope that had slack.

use super::{OutOfDomain, finite, not_negative, positive};
use crate::quantity::{Force, Length, Ratio, newton};

/// Peak force at the end of a fall onto a rope that was not under tension.
///
/// # Formula
/// `F = W + √(W² + 2 W EA f)`, `f = h / L`, where `W` is the weight (N), `EA` the stiffness of the rope
/// (N, tension for a strain of 1), `h` ≥ 0 the free fall not counting stretch (m) and `L` > 0 the rope
/// that catches (m). A linear rope without loss: an upper bound for a rope of that stiffness.
/// # Errors
/// [`OutOfDomain`] if W or h is negative or EA or L is not above 0.
/// # References
/// Energy balance of a linear spring; OpenStax *University Physics*, worked example of a fall on a
/// rope. Known in the trade as the standard equation of impact force.
pub fn peak(weight: Force, stiffness: Force, free_fall: Length, rope: Length) -> Result<Force, OutOfDomain> {
    let fall_factor = fall_factor(free_fall, rope)?.value;
    let weight = not_negative("weight", weight.value)?;
    let stiffness = positive("rope stiffness", stiffness.value)?;
    // A hypotenuse, so that the square of a small weight does not vanish.
    finite("peak force", weight + weight.hypot((2.0 * weight * stiffness * fall_factor).sqrt()))
        .map(Force::new::<newton>)
}

/// Fall factor: free fall for each metre of rope that catches it.
///
/// # Formula
/// `f = h / L`, h ≥ 0, L > 0.
/// # Errors
/// [`OutOfDomain`] outside these ranges.
/// # References
/// Definition.
pub fn fall_factor(free_fall: Length, rope: Length) -> Result<Ratio, OutOfDomain> {
    let fall = not_negative("free fall", free_fall.value)?;
    let rope = positive("rope length", rope.value)?;
    finite("fall factor", fall / rope).map(Ratio::new::<uom::si::ratio::ratio>)
}

/// Stiffness of a rope from the peak force it gave in a drop test.
///
/// # Formula
/// `EA = U (U − 2W) / (2 f W)`, the law of [`peak`] turned round; U > 2W, f > 0.
/// # Errors
/// [`OutOfDomain`] outside these ranges, or if the result is too large or too small for a number.
/// # References
/// Derived from the law of [`peak`].
pub fn stiffness_from_peak(peak: Force, weight: Force, fall_factor: Ratio) -> Result<Force, OutOfDomain> {
    let weight = positive("weight", weight.value)?;
    let factor = positive("fall factor", fall_factor.value)?;
    let peak = super::check("peak force", peak.value, peak.value > 2.0 * weight, "more than twice the weight")?;
    positive("rope stiffness", peak * (peak - 2.0 * weight) / (2.0 * factor * weight)).map(Force::new::<newton>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::metre;
    use approx::assert_relative_eq;

    #[test]
    fn let_go_without_slack_doubles_the_weight() {
        let peak = peak(
            Force::new::<newton>(784.5),
            Force::new::<newton>(2e4),
            Length::new::<metre>(0.0),
            Length::new::<metre>(3.0),
        );
        assert_eq!(peak.unwrap().value, 2.0 * 784.5);
    }

    #[test]
    fn stiffness_and_peak_undo_each_other() {
        let (weight, stiffness) = (Force::new::<newton>(900.0), Force::new::<newton>(30e3));
        let top = peak(weight, stiffness, Length::new::<metre>(0.8), Length::new::<metre>(2.0)).unwrap();
        let back = stiffness_from_peak(top, weight, Ratio::new::<uom::si::ratio::ratio>(0.4)).unwrap();
        assert_relative_eq!(back.value, 30e3, max_relative = 1e-12);
    }
}
