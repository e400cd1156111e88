//! A body that drifts with the water and is caught by a line.

use super::{OutOfDomain, finite, not_negative, positive};
use crate::quantity::{Force, Length, Mass, Velocity, newton};

/// Most that a line carries when it catches a drifting body.
///
/// # Formula
/// `F = F_d + √(F_d² + k m v²)`, `k = EA/L`: `F_d` ≥ 0 the drag on the body held still (N), `EA` > 0 the stiffness of
/// the line (N, tension for a strain of 1), `L` > 0 its length (m), `m` ≥ 0 the mass (kg), `v` ≥ 0 the speed at which
/// the line comes straight (m/s), along it. An upper bound for a line of that stiffness: the whole drag is held from
/// the start, while a body that still drifts feels less. Water that the body takes along belongs to `m`: almost none
/// for a body in line, up to its own mass for one broadside (from memory); without it a short stiff line in slow water
/// can carry up to √2 times as much.
/// # Errors
/// [`OutOfDomain`] outside these ranges or if F is too large for a number.
/// # References
/// Energy: `F²/(2k) = m v²/2 + F_d F/k`, solved for F.
/// ```
/// use rigging_core::law::line_catch;
/// use rigging_core::quantity::{Force, Length, Mass, Velocity, kilogram, metre, metre_per_second, newton};
///
/// // By hand: k = 20 000/8 = 2500 N/m; k m v² = 2500 · 64 · 1² = 400²; 300 + √(300² + 400²) = 800 N.
/// let (drag, stiffness) = (Force::new::<newton>(300.0), Force::new::<newton>(20_000.0));
/// let (line, body) = (Length::new::<metre>(8.0), Mass::new::<kilogram>(64.0));
/// let peak = line_catch::peak(drag, stiffness, line, body, Velocity::new::<metre_per_second>(1.0))?;
/// assert!((peak.value - 800.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn peak(drag: Force, stiffness: Force, line: Length, mass: Mass, speed: Velocity) -> Result<Force, OutOfDomain> {
    let drag = not_negative("drag of the water", drag.value)?;
    let stiffness = positive("line stiffness", stiffness.value)?;
    let line = positive("line length", line.value)?;
    let mass = not_negative("mass", mass.value)?;
    let speed = not_negative("speed", speed.value)?;
    // A hypotenuse and roots apart, so that squares neither vanish nor overflow.
    let sudden = (stiffness / line).sqrt() * mass.sqrt() * speed;
    finite("catch force", drag + drag.hypot(sudden)).map(Force::new::<newton>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{kilogram, metre, metre_per_second};

    fn caught(drag: f64, speed: f64) -> f64 {
        peak(
            Force::new::<newton>(drag),
            Force::new::<newton>(20e3),
            Length::new::<metre>(8.0),
            Mass::new::<kilogram>(95.0),
            Velocity::new::<metre_per_second>(speed),
        )
        .unwrap()
        .value
    }

    #[test]
    fn without_speed_it_is_twice_the_drag_and_without_drag_the_plain_spring() {
        assert_eq!(caught(300.0, 0.0), 600.0);
        assert!((caught(0.0, 2.0) - 2.0 * (2500.0 * 95.0_f64).sqrt()).abs() < 1e-9);
    }
}
