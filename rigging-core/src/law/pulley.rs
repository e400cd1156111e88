//! A pulley: what it takes from a rope, told as the friction of a bend.

use super::{OutOfDomain, check, finite};
use crate::quantity::{Ratio, ratio};
use std::f64::consts::PI;

/// Coefficient of friction of a fixed bend that takes as much from a rope as a pulley does.
///
/// A pulley's efficiency is told for a half turn. At the turning angle φ it is `η^{φ/π}`, which is
/// `e^{−μφ}` with this μ: from here on a pulley is a bend like any other (see [`super::bend`]).
///
/// # Formula
/// `μ = −ln(η)/π` where `η` is the efficiency over a half turn, 0 < η ≤ 1.
/// # Errors
/// [`OutOfDomain`] if η is outside its range.
/// # References
/// Derived from `η^{φ/180°} = e^{−μφ}`.
/// ```
/// use rigging_core::law::pulley;
/// use rigging_core::quantity::{Ratio, ratio};
///
/// assert_eq!(pulley::friction(Ratio::new::<ratio>(1.0))?.value, 0.0);
/// // 90 % over half a turn: e^(−μπ) = 0.9.
/// let friction = pulley::friction(Ratio::new::<ratio>(0.9))?;
/// assert!((friction.value - 0.0335).abs() < 5e-5);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn friction(half_turn_efficiency: Ratio) -> Result<Ratio, OutOfDomain> {
    let efficiency = half_turn_efficiency.value;
    let within = efficiency > 0.0 && efficiency <= 1.0;
    let efficiency = check("efficiency of the pulley", efficiency, within, "above 0, at most 1")?;
    // Adding 0 turns the −0 of a pulley without loss into 0.
    finite("friction", -efficiency.ln() / PI + 0.0).map(Ratio::new::<ratio>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::bend;
    use crate::quantity::{Angle, Force, degree, newton};
    use approx::assert_relative_eq;

    #[test]
    fn a_pulley_that_passes_nothing_on_is_none() {
        assert_eq!(friction(Ratio::new::<ratio>(0.0)).unwrap_err().what, "efficiency of the pulley");
    }

    #[test]
    fn a_pulley_passes_on_its_efficiency_to_the_power_of_its_share_of_a_half_turn() {
        for efficiency in [0.70_f64, 0.80, 0.90, 1.0] {
            let mu = friction(Ratio::new::<ratio>(efficiency)).unwrap();
            for degrees in [0.0, 45.0, 90.0, 180.0] {
                let passed = bend::slack_side(Force::new::<newton>(1.0), mu, Angle::new::<degree>(degrees)).unwrap();
                assert_relative_eq!(passed.value, efficiency.powf(degrees / 180.0), max_relative = 1e-14);
            }
        }
    }

    #[test]
    fn connectors_told_as_efficiency_and_as_friction_agree() {
        // Teaching texts print 0.66 to 0.40 for a connector over a half turn; its friction is told as 0.13 to 0.29.
        for (efficiency, mu) in [(0.66, 0.13), (0.40, 0.29)] {
            assert_relative_eq!(friction(Ratio::new::<ratio>(efficiency)).unwrap().value, mu, epsilon = 5e-3);
        }
    }
}
