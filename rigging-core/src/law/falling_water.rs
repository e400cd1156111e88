//! Water that falls on a person, and along a rope.

use super::gravity::STANDARD_GRAVITY;
use super::{OutOfDomain, finite, not_negative, positive};
use crate::quantity::{Force, Length, Ratio, Velocity, VolumeRate, metre_per_second, newton};
use std::f64::consts::PI;

/// Density of clean water, kg/m³ (convention; water that carries sediment is a tenth denser).
const DENSITY: f64 = 1000.0;

/// Speed of water that has fallen from rest.
///
/// # Formula
/// `v = √(2 g h)`, `h` ≥ 0 the height it fell (m). Rock and air slow it; water that comes to the lip with a speed of
/// its own falls faster.
/// # Errors
/// [`OutOfDomain`] if h is negative or too large for a number.
/// # References
/// Free fall.
/// ```
/// use rigging_core::law::falling_water;
/// use rigging_core::quantity::{Length, metre};
///
/// let speed = falling_water::speed_after(Length::new::<metre>(10.0))?;
/// assert!((speed.value - 14.0).abs() < 0.05);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn speed_after(height: Length) -> Result<Velocity, OutOfDomain> {
    let height = not_negative("height of the fall", height.value)?;
    finite("speed of the water", (2.0 * STANDARD_GRAVITY * height).sqrt()).map(Velocity::new::<metre_per_second>)
}

/// Push of a stream of water on a body that stops it.
///
/// # Formula
/// `P = ρ Q v`, ρ = 1000 kg/m³, `Q` ≥ 0 the flow (m³/s), `v` ≥ 0 its speed (m/s). All of the stream hits
/// and runs off to the sides; thrown back the way it came it pushes twice as hard.
/// # Errors
/// [`OutOfDomain`] if Q or v is negative or P too large for a number.
/// # References
/// Momentum of a stream.
/// ```
/// use rigging_core::law::falling_water;
/// use rigging_core::quantity::{Velocity, VolumeRate, litre_per_second, metre_per_second};
///
/// // 10 litres a second at 14 m/s.
/// let flow = VolumeRate::new::<litre_per_second>(10.0);
/// let push = falling_water::push(flow, Velocity::new::<metre_per_second>(14.0))?;
/// assert!((push.value - 140.0).abs() < 0.5);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn push(flow: VolumeRate, speed: Velocity) -> Result<Force, OutOfDomain> {
    let flow = not_negative("flow", flow.value)?;
    let speed = not_negative("speed of the water", speed.value)?;
    finite("push of the water", DENSITY * flow * speed).map(Force::new::<newton>)
}

/// Drag of water that runs along a rope.
///
/// # Formula
/// `D = ½ ρ c_f π d L v²`, ρ = 1000 kg/m³, `c_f` ≥ 0 the coefficient of skin friction, `d` > 0 the diameter of the
/// rope (m), `L` ≥ 0 its length in the water (m), `v` ≥ 0 the speed of the water along it (m/s), all around it.
/// # Errors
/// [`OutOfDomain`] outside these ranges or if D is too large for a number.
/// # References
/// Skin friction on a cylinder along the flow.
/// ```
/// use rigging_core::law::falling_water;
/// use rigging_core::quantity::{Length, Ratio, Velocity, metre, metre_per_second, millimetre, ratio};
///
/// // By hand: ½ · 1000 · 0.005 · π · 0.009 · 10 · 6² = 25.4 N.
/// let (diameter, length) = (Length::new::<millimetre>(9.0), Length::new::<metre>(10.0));
/// let speed = Velocity::new::<metre_per_second>(6.0);
/// let drag = falling_water::drag(diameter, length, speed, Ratio::new::<ratio>(0.005))?;
/// assert!((drag.value - 25.4).abs() < 0.05);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn drag(diameter: Length, length: Length, speed: Velocity, friction: Ratio) -> Result<Force, OutOfDomain> {
    let around = PI * positive("rope diameter", diameter.value)?;
    let length = not_negative("rope length", length.value)?;
    let speed = not_negative("speed of the water", speed.value)?;
    let friction = not_negative("friction of the water", friction.value)?;
    finite("drag of the water", DENSITY / 2.0 * friction * around * length * speed * speed).map(Force::new::<newton>)
}

/// The most that the speed of falling water along a rope counts for: in [`drag`] it gives at least what the water does
/// to all of the rope while it speeds up.
///
/// # Formula
/// The less of `√(g L)`, the root of the mean square of free fall along `L` ≥ 0 (m) of rope, and `∛(2 g Q/(c_f π d))`,
/// at which the rope holds the whole weight of the water: `Q` ≥ 0 the flow along the rope (m³/s), `c_f` > 0 the
/// coefficient of skin friction, `d` > 0 the diameter (m).
/// # Errors
/// [`OutOfDomain`] outside these ranges or if the speed is too large for a number.
/// # References
/// Balance of momentum of the water: `ρ Q v′ = ρ Q g/v − ½ ρ c_f π d v²`.
/// ```
/// use rigging_core::law::falling_water;
/// use rigging_core::quantity::{Length, Ratio, VolumeRate, litre_per_second, metre, millimetre, ratio};
///
/// // A trickle of 2 l/s on a long rope comes to a steady speed: a metre of rope then holds a metre of water.
/// let (diameter, friction) = (Length::new::<millimetre>(9.0), Ratio::new::<ratio>(0.02));
/// let flow = VolumeRate::new::<litre_per_second>(2.0);
/// let speed = falling_water::speed_along(flow, diameter, Length::new::<metre>(50.0), friction)?;
/// let held = falling_water::drag(diameter, Length::new::<metre>(1.0), speed, friction)?;
/// // The water on a metre weighs ρ g Q/v: 1000 · 9.80665 · 0.002 N over the speed.
/// assert!((held.value - 1000.0 * 9.80665 * 0.002 / speed.value).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn speed_along(
    flow: VolumeRate,
    diameter: Length,
    length: Length,
    friction: Ratio,
) -> Result<Velocity, OutOfDomain> {
    let flow = not_negative("flow", flow.value)?;
    let around = PI * positive("rope diameter", diameter.value)?;
    let length = not_negative("rope length", length.value)?;
    let friction = positive("friction of the water", friction.value)?;
    // A cube root by logarithm: a general power is 2 kB of the module.
    let held = ((2.0 * STANDARD_GRAVITY * flow / friction / around).ln() / 3.0).exp();
    let speed = (STANDARD_GRAVITY * length).sqrt().min(held);
    finite("speed of the water", speed).map(Velocity::new::<metre_per_second>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{litre_per_second, metre, millimetre, ratio};

    #[test]
    fn water_from_ten_metres_pushes_as_worked_out() {
        // Row W7 of the check values: 10 l/s from 10 m with g 9.81 are 140.1 N; 50 l/s 700 N.
        let speed = speed_after(Length::new::<metre>(10.0)).unwrap();
        let pushed = |litres| push(VolumeRate::new::<litre_per_second>(litres), speed).unwrap().value;
        assert!((pushed(10.0) - 140.1).abs() < 0.002 * 140.1, "{}", pushed(10.0));
        assert!((pushed(50.0) - 700.0).abs() < 1.0, "{}", pushed(50.0));
    }

    #[test]
    fn ten_metres_of_rope_at_six_metres_a_second_are_dragged_as_by_hand() {
        let dragged = |friction| {
            let (diameter, length) = (Length::new::<millimetre>(9.0), Length::new::<metre>(10.0));
            let speed = Velocity::new::<metre_per_second>(6.0);
            drag(diameter, length, speed, Ratio::new::<ratio>(friction)).unwrap().value
        };
        // ½ · 1000 · 36 · π · 0.009 · 10 = 5089.4 N, times the coefficient; told as 25 to 100 N.
        assert!((dragged(0.005) - 25.447).abs() < 0.001 && (dragged(0.02) - 101.788).abs() < 0.001);
    }

    #[test]
    fn a_trickle_is_slowed_by_the_rope_and_a_full_pipe_only_by_its_height() {
        let speed = |litres, metres| {
            let (diameter, friction) = (Length::new::<millimetre>(9.0), Ratio::new::<ratio>(0.02));
            let flow = VolumeRate::new::<litre_per_second>(litres);
            speed_along(flow, diameter, Length::new::<metre>(metres), friction).unwrap().value
        };
        // By hand: (2 · 9.80665 · 0.002 / (0.02 π 0.009))^⅓ and √(9.80665 · 12).
        assert!((speed(2.0, 12.0) - 4.109).abs() < 0.001, "{}", speed(2.0, 12.0));
        assert!((speed(100.0, 12.0) - 10.848).abs() < 0.001, "{}", speed(100.0, 12.0));
        assert_eq!(speed(0.0, 12.0), 0.0);
    }
}
