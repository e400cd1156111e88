//! Two legs that share a load at one point.

use super::{OutOfDomain, check, finite, not_negative};
use crate::quantity::{Angle, Force, newton};
use std::f64::consts::PI;

/// Tension in each of two equal legs that share a load on their bisector.
///
/// # Formula
/// `T = F / (2 cos(θ/2))` where `F` is the load (N) and `θ` the included angle, 0 ≤ θ < π.
/// # Errors
/// [`OutOfDomain`] if θ is outside its range or F is negative.
/// # References
/// Spellman & Whiting, *Mathematics and Statistics for the Environment*, example 11.3.
/// ```
/// use rigging_core::law::two_legs;
/// use rigging_core::quantity::{Angle, Force, degree, newton};
///
/// // 120° between two equal legs: each carries as much as hangs below.
/// let leg = two_legs::equal(Force::new::<newton>(1000.0), Angle::new::<degree>(120.0))?;
/// assert!((leg.value - 1000.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn equal(load: Force, included_angle: Angle) -> Result<Force, OutOfDomain> {
    let load = not_negative("load", load.value)?;
    let angle = included_angle.value;
    let angle = check("included angle", angle, (0.0..PI).contains(&angle), "from 0 to less than 180°")?;
    finite("tension", load / (2.0 * (angle / 2.0).cos())).map(Force::new::<newton>)
}

/// Tensions of two legs `a` and `b`, one on each side of the load line or both on one.
/// ```
/// use rigging_core::law::two_legs;
/// use rigging_core::quantity::{Angle, Force, degree, newton};
///
/// // By hand, legs square to each other: 1000 sin 60° = 866.0 and 1000 sin 30° = 500.
/// let (a, b) = (Angle::new::<degree>(30.0), Angle::new::<degree>(60.0));
/// let legs = two_legs::tensions(Force::new::<newton>(1000.0), a, b)?;
/// assert!((legs.a.value - 866.0).abs() < 0.05 && (legs.b.value - 500.0).abs() < 1e-9);
/// // Together they lift the load: 866.0 cos 30° + 500 cos 60°.
/// assert!(((legs.a * a.value.cos() + legs.b * b.value.cos()).value - 1000.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tensions {
    /// Tension of leg a; none while it is slack.
    pub a: Force,
    /// Tension of leg b; none while it is slack.
    pub b: Force,
}

/// Tensions of two legs of fixed length at any angles to the load.
///
/// Angles are measured from the load line, extended upward through the point that bears the load:
/// `a` toward one side, `b` toward the other. A negative angle means that the leg lies on the other
/// leg's side.
///
/// # Formula
/// `T_a = F sin b / sin(a + b)`, `T_b = F sin a / sin(a + b)`, 0 < a + b < π. If one angle is
/// negative both anchors lie on one side of the load line: the leg farther from it is slack, the
/// other swings in line with the load and carries `F`. If a + b is 0 the legs lie side by side and share
/// equally.
/// # Errors
/// [`OutOfDomain`] if F is negative, an angle is outside ±π, or a + b is not in [0, π).
/// # References
/// Triangle of forces (Lami's theorem); OpenStax *College Physics*, the traffic light of the chapter on
/// Newton's laws, is a case of it.
/// ```
/// use rigging_core::law::{gravity, two_legs};
/// use rigging_core::quantity::{Angle, Mass, degree, kilogram};
///
/// // OpenStax, College Physics: a traffic light of 15.0 kg on wires 30° and 45° above the level, 108 N and 132 N.
/// let weight = gravity::weight(Mass::new::<kilogram>(15.0));
/// let wires = two_legs::tensions(weight, Angle::new::<degree>(60.0), Angle::new::<degree>(45.0))?;
/// assert!((wires.a.value - 108.0).abs() < 0.5 && (wires.b.value - 132.0).abs() < 0.5);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn tensions(load: Force, a: Angle, b: Angle) -> Result<Tensions, OutOfDomain> {
    let load = not_negative("load", load.value)?;
    let a = check("angle of leg a", a.value, a.value.abs() < PI, "between −180° and 180°")?;
    let b = check("angle of leg b", b.value, b.value.abs() < PI, "between −180° and 180°")?;
    let apart = check("angle between the legs", a + b, (0.0..PI).contains(&(a + b)), "from 0 to less than 180°")?;
    let (a, b) = if apart == 0.0 {
        (load / 2.0, load / 2.0)
    } else if a < 0.0 {
        (load, 0.0)
    } else if b < 0.0 {
        (0.0, load)
    } else {
        (load * (b.sin() / apart.sin()), load * (a.sin() / apart.sin()))
    };
    finite("tension", a.max(b))?;
    Ok(Tensions { a: Force::new::<newton>(a), b: Force::new::<newton>(b) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::degree;
    use approx::assert_relative_eq;

    fn newtons(value: f64) -> Force {
        Force::new::<newton>(value)
    }
    fn degrees(value: f64) -> Angle {
        Angle::new::<degree>(value)
    }

    #[test]
    fn what_an_angle_must_be_is_told_of_one_below_nothing_too() {
        let refused = tensions(newtons(1000.0), degrees(-200.0), degrees(250.0)).unwrap_err();
        assert_eq!(refused.to_string(), "angle of leg a is −200°: it must be between −180° and 180°");
    }

    #[test]
    fn equal_legs_are_the_symmetric_case_of_any_legs() {
        for half in [0.0, 10.0, 45.0, 60.0, 80.0] {
            let each = equal(newtons(1000.0), degrees(2.0 * half)).unwrap();
            let both = tensions(newtons(1000.0), degrees(half), degrees(half)).unwrap();
            assert_relative_eq!(each.value, both.a.value, max_relative = 1e-14);
            assert_relative_eq!(each.value, both.b.value, max_relative = 1e-14);
        }
    }

    #[test]
    fn legs_in_line_with_nothing_to_push_against_have_no_tension() {
        assert_eq!(equal(newtons(1.0), degrees(180.0)).unwrap_err().what, "included angle");
        assert!(tensions(newtons(1.0), degrees(90.0), degrees(90.0)).is_err());
    }

    #[test]
    fn a_leg_on_the_wrong_side_of_the_load_goes_slack() {
        let legs = tensions(newtons(500.0), degrees(-10.0), degrees(40.0)).unwrap();
        assert_eq!((legs.a.value, legs.b.value), (500.0, 0.0));
        let mirrored = tensions(newtons(500.0), degrees(40.0), degrees(-10.0)).unwrap();
        assert_eq!((mirrored.a.value, mirrored.b.value), (0.0, 500.0));
    }

    #[test]
    fn the_tension_does_not_jump_as_a_leg_goes_slack() {
        let before = tensions(newtons(500.0), degrees(1e-9), degrees(40.0)).unwrap();
        assert_relative_eq!(before.a.value, 500.0, epsilon = 1e-5);
        assert!(before.b.value < 1e-5);
    }
}
