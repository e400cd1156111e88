//! Pulling a rope down from below: tension along its path, from the free end that rises to the hand that pulls.

use super::{OutOfDomain, bend, check, finite, not_negative};
use crate::quantity::{Angle, Force, Ratio, newton};
use std::f64::consts::FRAC_PI_2;

/// A piece of the way of a rope that is pulled.
/// ```
/// use rigging_core::law::pull_down::{self, Piece};
/// use rigging_core::quantity::{Angle, Force, Ratio, degree, newton, ratio};
///
/// // 20 N of rope that rises 30° on rock, μ 0.5. By hand: 20 (sin 30° + 0.5 cos 30°) = 18.66 N.
/// let (weight, rises) = (Force::new::<newton>(20.0), Angle::new::<degree>(30.0));
/// let slab = Piece::Straight { weight, rises, friction: Ratio::new::<ratio>(0.5) };
/// assert!((pull_down::beyond(Force::default(), &slab)?.value - 18.66).abs() < 0.005);
/// // An edge that turns the rope by nothing changes nothing.
/// let edge = Piece::Bend { friction: Ratio::new::<ratio>(0.5), turning_angle: Angle::default() };
/// assert_eq!(pull_down::beyond(weight, &edge)?, weight);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Piece {
    /// Rope that runs straight: hanging, or lying on rock.
    Straight {
        /// Weight of the rope on it.
        weight: Force,
        /// How steeply the rope moves up along it, −π/2 to π/2: π/2 hanging and rising, −π/2 hanging and coming down.
        rises: Angle,
        /// Friction on what the rope lies on; without meaning where it hangs.
        friction: Ratio,
    },
    /// Rope that turns over something: the ring, an edge.
    Bend {
        /// Friction there.
        friction: Ratio,
        /// The turning angle.
        turning_angle: Angle,
    },
}

/// Tension of a rope on the move beyond a piece of its way, the tension before it known.
///
/// # Formula
/// Straight: `T + W (sin β + μ cos β)`, not below 0 (a rope cannot push: it then runs by itself and hangs slack), with
/// `T` ≥ 0 the tension before (N), `W` ≥ 0 the weight of the piece (N), `β` how steeply the rope moves up, −π/2 ≤ β ≤
/// π/2, `μ` ≥ 0 the friction. Hanging: `T ± W`. Bend: `T e^{μφ}`, see [`bend::tight_side`].
/// # Errors
/// [`OutOfDomain`] outside these ranges or if the tension is too large for a number.
/// # References
/// Balance of forces along an incline with Coulomb friction; Euler–Eytelwein.
/// ```
/// use rigging_core::law::pull_down::{self, Piece};
/// use rigging_core::quantity::{Angle, Force, Ratio, degree, newton};
///
/// let (newtons, degrees) = (Force::new::<newton>, Angle::new::<degree>);
/// let hangs = |up| Piece::Straight { weight: newtons(25.0), rises: degrees(up), friction: Ratio::default() };
/// // Rope that hangs adds its weight where it rises and takes it off where it comes down, but it never pushes.
/// assert_eq!(pull_down::beyond(newtons(40.0), &hangs(90.0))?, newtons(65.0));
/// assert_eq!(pull_down::beyond(newtons(40.0), &hangs(-90.0))?, newtons(15.0));
/// assert_eq!(pull_down::beyond(newtons(10.0), &hangs(-90.0))?, newtons(0.0));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn beyond(before: Force, piece: &Piece) -> Result<Force, OutOfDomain> {
    match *piece {
        Piece::Bend { friction, turning_angle } => bend::tight_side(before, friction, turning_angle),
        Piece::Straight { weight, rises, friction } => {
            let before = not_negative("tension", before.value)?;
            let weight = not_negative("rope weight", weight.value)?;
            let friction = not_negative("friction", friction.value)?;
            let rises = rises.value;
            let rises =
                check("slope of the rope", rises, (-FRAC_PI_2..=FRAC_PI_2).contains(&rises), "from −90 to 90°")?;
            // Nothing lies on a wall, whatever is left of a right angle after rounding.
            let pressed = if rises.abs() == FRAC_PI_2 { 0.0 } else { rises.cos() };
            let tension = before + weight * (rises.sin() + friction * pressed);
            finite("tension", tension).map(|tension| Force::new::<newton>(tension.max(0.0)))
        }
    }
}

/// Pull needed at the hand to keep a rope moving steadily along its way; 0 where it runs by itself.
///
/// # Formula
/// [`beyond`] from piece to piece, from the free end of the strand that rises, where the tension is 0, over every bend
/// of both strands, to the hand.
/// # Errors
/// As [`beyond`].
/// # References
/// As [`beyond`].
/// ```
/// use rigging_core::law::pull_down::{self, Piece};
/// use rigging_core::quantity::{Angle, Force, Ratio, degree, newton, ratio};
///
/// let (weight, degrees) = (Force::new::<newton>(21.57), Angle::new::<degree>);
/// let hangs = |up| Piece::Straight { weight, rises: degrees(up), friction: Ratio::default() };
/// let ring = Piece::Bend { friction: Ratio::new::<ratio>(0.2), turning_angle: degrees(180.0) };
/// // 40 m of 55 g/m on each side. By hand: e^{0.2 π} = 1.8745, and 21.57 · 1.8745 − 21.57 = 18.9 N.
/// let pull = pull_down::pull(&[hangs(90.0), ring, hangs(-90.0)])?;
/// assert!((pull.value - 18.9).abs() < 0.05);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn pull(way: &[Piece]) -> Result<Force, OutOfDomain> {
    let mut tension = Force::new::<newton>(0.0);
    for piece in way {
        tension = beyond(tension, piece)?;
    }
    Ok(tension)
}

/// The same if every bend of both strands lies close below the ring.
///
/// For strands that hang this is the most that [`pull`] can be: an edge farther down has less weight to hold on the
/// strand that rises, and more weight that helps on the strand that is pulled.
///
/// # Formula
/// `P = W₂ e^{Σμφ} − W₁`, not below 0, where `W₁` ≥ 0 is the weight of the strand that is pulled (N), `W₂` ≥ 0 that of
/// the strand that rises, and Σμφ ≥ 0 is taken over every bend of both strands, each with its own μ.
/// # Errors
/// [`OutOfDomain`] outside these ranges or if the pull is too large for a number.
/// # References
/// Euler–Eytelwein; weight of a rope that hangs.
/// ```
/// use rigging_core::law::pull_down;
/// use rigging_core::quantity::{Force, Ratio, newton, ratio};
///
/// let newtons = Force::new::<newton>;
/// // Bends over which two thirds are lost, e^{Σμφ} = 3. By hand: 20 · 3 − 18 = 42 N.
/// let sum = Ratio::new::<ratio>(3_f64.ln());
/// let pull = pull_down::pull_with_bends_at_the_ring(newtons(20.0), newtons(18.0), sum)?;
/// assert!((pull.value - 42.0).abs() < 1e-9);
/// // Towards the end little hangs on the strand that rises: the rope runs by itself.
/// assert_eq!(pull_down::pull_with_bends_at_the_ring(newtons(5.0), newtons(18.0), sum)?, newtons(0.0));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn pull_with_bends_at_the_ring(rising: Force, pulled: Force, sum: Ratio) -> Result<Force, OutOfDomain> {
    let rising = not_negative("weight of the strand that rises", rising.value)?;
    let pulled = not_negative("weight of the strand that is pulled", pulled.value)?;
    let sum = not_negative("sum of friction times angle", sum.value)?;
    finite("tension", rising * sum.exp() - pulled).map(|pull| Force::new::<newton>(pull.max(0.0)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{degree, ratio};
    use approx::assert_relative_eq;

    fn hanging(newtons: f64, degrees: f64) -> Piece {
        Piece::Straight {
            weight: Force::new::<newton>(newtons),
            rises: Angle::new::<degree>(degrees),
            friction: Ratio::new::<ratio>(0.6),
        }
    }
    fn turn(friction: f64, degrees: f64) -> Piece {
        Piece::Bend { friction: Ratio::new::<ratio>(friction), turning_angle: Angle::new::<degree>(degrees) }
    }

    #[test]
    fn without_friction_the_pull_is_the_difference_of_the_weights() {
        let way = [hanging(25.0, 90.0), turn(0.0, 180.0), hanging(10.0, -90.0)];
        assert_relative_eq!(pull(&way).unwrap().value, 15.0, max_relative = 1e-15);
    }

    #[test]
    fn bends_close_below_the_ring_give_the_closed_formula() {
        let way = [hanging(20.0, 90.0), turn(0.4, 70.0), turn(0.25, 180.0), turn(0.6, 35.0), hanging(18.0, -90.0)];
        let sum = 0.4 * 70_f64.to_radians() + 0.25 * std::f64::consts::PI + 0.6 * 35_f64.to_radians();
        let (rising, pulled) = (Force::new::<newton>(20.0), Force::new::<newton>(18.0));
        let closed = pull_with_bends_at_the_ring(rising, pulled, Ratio::new::<ratio>(sum)).unwrap();
        assert_relative_eq!(pull(&way).unwrap().value, closed.value, max_relative = 1e-14);
    }

    #[test]
    fn a_rope_that_is_heavier_on_the_pulled_side_runs_by_itself() {
        assert_eq!(pull(&[hanging(5.0, 90.0), turn(0.2, 180.0), hanging(40.0, -90.0)]).unwrap().value, 0.0);
        // Slack above an edge is slack, not a push through it.
        let way = [hanging(5.0, 90.0), hanging(40.0, -90.0), turn(0.5, 90.0), hanging(3.0, 30.0)];
        let last = 3.0 * (30_f64.to_radians().sin() + 0.6 * 30_f64.to_radians().cos());
        assert_relative_eq!(pull(&way).unwrap().value, last, max_relative = 1e-14);
    }

    #[test]
    fn what_it_cannot_take_is_named() {
        assert_eq!(pull(&[hanging(-1.0, 90.0)]).unwrap_err().what, "rope weight");
        assert_eq!(pull(&[hanging(1.0, 91.0)]).unwrap_err().what, "slope of the rope");
        assert_eq!(pull(&[hanging(1.0, 90.0), turn(-0.1, 90.0)]).unwrap_err().what, "friction");
        assert_eq!(pull(&[hanging(1.0, 90.0), turn(9e9, 90.0)]).unwrap_err().what, "ratio of tensions");
    }
}
