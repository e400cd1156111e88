//! A self-equalising sling: one sling, a ring that slides along it, two anchors.

use super::{OutOfDomain, check, finite, not_negative, positive, root};
use crate::quantity::{Angle, Force, Length, Ratio, metre, newton};
use std::f64::consts::PI;

/// Tensions of the two parts of a sling on a ring about to slide.
/// ```
/// use rigging_core::law::sling;
/// use rigging_core::quantity::{Angle, Force, Ratio, degree, newton, ratio};
///
/// // The sling turns by 90° over the ring, with friction 0.2: e^(0.2 π/2) = 1.369 between its parts.
/// let (load, square) = (Force::new::<newton>(1000.0), Angle::new::<degree>(90.0));
/// let parts = sling::parts(load, square, Ratio::new::<ratio>(0.2))?;
/// assert!(((parts.heavy / parts.light).value - 1.369).abs() < 5e-4);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parts {
    /// The part that carries more.
    pub heavy: Force,
    /// The part that carries less.
    pub light: Force,
}

/// Tensions of the two parts of a sling whose ring is held back by friction as far as it can.
///
/// # Formula
/// `r = e^{μ(π−θ)}`, `T_heavy = F r / √(1 + r² + 2 r cos θ)`, `T_light = T_heavy / r`, where `F` is the
/// load (N), `θ` the included angle, 0 ≤ θ < π, and `μ` ≥ 0 the friction of the ring on the sling. The
/// two tensions add up to the load as vectors. Without friction both are `F / (2 cos(θ/2))`.
/// # Errors
/// [`OutOfDomain`] if F or μ is negative or θ is outside its range.
/// # References
/// Derived from the capstan equation ([`super::bend::tight_to_slack`]) and the triangle of forces.
/// ```
/// use rigging_core::law::sling;
/// use rigging_core::quantity::{Angle, Force, Ratio, degree, newton, ratio};
///
/// let (load, square) = (Force::new::<newton>(1000.0), Angle::new::<degree>(90.0));
/// // Square to each other they add up to the load as Pythagoras has it, however much the ring is held back.
/// let parts = sling::parts(load, square, Ratio::new::<ratio>(0.3))?;
/// assert!((parts.heavy.value.hypot(parts.light.value) - 1000.0).abs() < 1e-9 && parts.heavy > parts.light);
/// // Free, both carry the same: 1000/√2 = 707.1.
/// let parts = sling::parts(load, square, Ratio::new::<ratio>(0.0))?;
/// assert!((parts.heavy.value - 707.1).abs() < 0.05 && parts.heavy == parts.light);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn parts(load: Force, included_angle: Angle, friction: Ratio) -> Result<Parts, OutOfDomain> {
    let load = not_negative("load", load.value)?;
    let friction = not_negative("friction", friction.value)?;
    let angle = included_angle.value;
    let angle = check("included angle", angle, (0.0..PI).contains(&angle), "from 0 to less than 180°")?;
    // Divided through by r, so that a huge ratio stays a number.
    let inverse = (-friction * (PI - angle)).exp();
    // |1 + s·e^{iθ}|² with nothing left to cancel as θ nears π.
    let root = ((1.0 - inverse).powi(2) + 4.0 * inverse * (angle / 2.0).cos().powi(2)).sqrt();
    let heavy = finite("tension", load / root)?;
    Ok(Parts { heavy: Force::new::<newton>(heavy), light: Force::new::<newton>(heavy * inverse) })
}

/// Where a ring without friction comes to rest on its sling.
/// ```
/// use rigging_core::law::sling;
/// use rigging_core::quantity::{Angle, Length, degree, metre};
///
/// // Pulled along the line of the anchors the ring runs beyond the second: 8 m from one, 2 m from the other, and the
/// // parts lie side by side.
/// let (apart, both_parts) = (Length::new::<metre>(6.0), Length::new::<metre>(10.0));
/// let ring = sling::ring_at_rest(apart, both_parts, Angle::new::<degree>(0.0))?;
/// assert_eq!((ring.along.value, ring.across.value, ring.included_angle.value), (5.0, 0.0, 0.0));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ring {
    /// From the middle between the anchors, along the line from the first to the second.
    pub along: Length,
    /// From that line, on the side to which the load pulls.
    pub across: Length,
    /// The angle between the two parts of the sling.
    pub included_angle: Angle,
}

/// Rest position of a ring that runs freely on a sling of fixed length between two anchors.
///
/// # Formula
/// The ring lies on an ellipse with the anchors as its foci, where the load's direction is square to
/// it: `(x, y) = (a² n_x, b² n_y) / √(a² n_x² + b² n_y²)` with `a` half the length of the two parts
/// together, `b² = a² − c²`, `c` half the distance of the anchors and `n` the direction of the load, at
/// `pull` from the line between the anchors, 0 ≤ pull ≤ π (π/2: square to it).
/// # Errors
/// [`OutOfDomain`] if the two parts together are not longer than the anchors are apart, or the pull is
/// outside its range.
/// # References
/// Derived: support point of an ellipse; equal tensions bisect the angle (reflection property).
/// ```
/// use rigging_core::law::sling;
/// use rigging_core::quantity::{Angle, Length, degree, metre};
///
/// // Pulled square to it the ring hangs in the middle: 5 m to each anchor, of them 3 m along, so 4 m across.
/// let (apart, both_parts) = (Length::new::<metre>(6.0), Length::new::<metre>(10.0));
/// let ring = sling::ring_at_rest(apart, both_parts, Angle::new::<degree>(90.0))?;
/// assert!((ring.across.value - 4.0).abs() < 1e-12 && ring.along.value.abs() < 1e-12);
/// assert!(((ring.included_angle.value / 2.0).tan() - 3.0 / 4.0).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn ring_at_rest(anchors_apart: Length, both_parts: Length, pull: Angle) -> Result<Ring, OutOfDomain> {
    let c = positive("distance of the anchors", anchors_apart.value)? / 2.0;
    let both_parts = both_parts.value;
    let a = check("length of both parts", both_parts, both_parts / 2.0 > c, "more than the anchors are apart")? / 2.0;
    let direction = pull.value;
    let direction = check("direction of the load", direction, (0.0..=PI).contains(&direction), "from 0 to 180°")?;
    let b = (a - c).sqrt() * (a + c).sqrt();
    let (across, along) = direction.sin_cos();
    let (u, v) = (a * along, b * across);
    let reach = u.hypot(v);
    // Divided first, so that no product of lengths is too large or too small for a number.
    let (x, y) = (a * (u / reach), b * (v / reach));
    let angle = y.atan2(-c - x) - y.atan2(c - x);
    finite("ring position", x + y)?;
    Ok(Ring {
        along: Length::new::<metre>(x),
        across: Length::new::<metre>(y),
        included_angle: Angle::new::<crate::quantity::radian>(angle.abs()),
    })
}

/// A ring that friction holds back, and the tensions of the two parts of its sling.
/// ```
/// use rigging_core::law::sling::ring_held_back;
/// use rigging_core::quantity::{Angle, Force, Length, Ratio, degree, metre, newton, ratio};
///
/// // A load square to the line: held back the other way, the rig is its own mirror image.
/// let (apart, both, pull) = (Length::new::<metre>(6.0), Length::new::<metre>(10.0), Angle::new::<degree>(90.0));
/// let load = Force::new::<newton>(1000.0);
/// let held = |friction| ring_held_back(apart, both, pull, load, Ratio::new::<ratio>(friction));
/// let (one, other) = (held(0.2)?, held(-0.2)?);
/// assert!((one.first - other.second).value.abs() < 1e-6 && (one.ring.along + other.ring.along).value.abs() < 1e-6);
/// assert!(one.first > one.second);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeldRing {
    /// Where the ring is.
    pub ring: Ring,
    /// Tension of the part to the first anchor.
    pub first: Force,
    /// Tension of the part to the second anchor.
    pub second: Force,
}

/// Where a ring about to slide comes to rest, and what the two parts of its sling carry.
///
/// # Formula
/// The place on the ellipse of [`ring_at_rest`] where the two tensions of [`parts`] add up to a force
/// in line with the load. `friction` above 0: the part to the first anchor carries
/// more; below 0: the part to the second; 0: both the same. On a flat sling the ring is held back where the parts hang
/// less flat, so that less friction can load both more: look between the ends.
/// # Errors
/// As [`ring_at_rest`] and [`parts`]; friction may be negative here.
/// # References
/// Derived from the two laws named.
/// ```
/// use rigging_core::law::sling::ring_held_back;
/// use rigging_core::quantity::{Angle, Force, Length, Ratio, degree, metre, newton, ratio};
///
/// // Without friction, 5 m to each anchor and 4 m of them across, by hand: 1000/(2 · 4/5) = 625 in each part.
/// let (apart, both, pull) = (Length::new::<metre>(6.0), Length::new::<metre>(10.0), Angle::new::<degree>(90.0));
/// let held = ring_held_back(apart, both, pull, Force::new::<newton>(1000.0), Ratio::new::<ratio>(0.0))?;
/// assert!((held.first.value - 625.0).abs() < 1e-6 && (held.second.value - 625.0).abs() < 1e-6);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn ring_held_back(
    anchors_apart: Length,
    both_parts: Length,
    pull: Angle,
    load: Force,
    friction: Ratio,
) -> Result<HeldRing, OutOfDomain> {
    let load = not_negative("load", load.value)?;
    let wanted = pull.value;
    check("direction of the load", wanted, (0.0..=PI).contains(&wanted), "from 0 to 180°")?;
    let unit = Force::new::<newton>(1.0);
    let at = |bisector: f64| -> Result<(Ring, Parts, f64), OutOfDomain> {
        let bisector = Angle::new::<crate::quantity::radian>(bisector);
        let ring = ring_at_rest(anchors_apart, both_parts, bisector)?;
        let parts = parts(unit, ring.included_angle, friction.abs())?;
        let (heavy, light) = (parts.heavy.value, parts.light.value);
        // The first anchor lies toward π: a first part that carries more turns the pull away from it.
        let half = ring.included_angle.value / 2.0;
        let turned = ((heavy - light) * half.sin()).atan2((heavy + light) * half.cos());
        Ok((ring, parts, bisector.value - turned * friction.value.signum()))
    };
    let bisector = if friction.value == 0.0 {
        wanted
    } else {
        root::between(0.0, PI, &|bisector| at(bisector).map(|(.., direction)| direction - wanted))?
    };
    let (ring, parts, _) = at(bisector)?;
    let heavy = finite("tension", load * parts.heavy.value)?;
    let (heavy, light) = (Force::new::<newton>(heavy), Force::new::<newton>(load * parts.light.value));
    let (first, second) = if friction.value >= 0.0 { (heavy, light) } else { (light, heavy) };
    Ok(HeldRing { ring, first, second })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::two_legs;
    use crate::quantity::{degree, ratio};
    use approx::assert_relative_eq;

    #[test]
    fn without_friction_the_parts_are_equal_legs() {
        for angle in [0.0, 60.0, 120.0, 175.0] {
            let (load, angle) = (Force::new::<newton>(2000.0), Angle::new::<degree>(angle));
            let parts = parts(load, angle, Ratio::new::<ratio>(0.0)).unwrap();
            assert_relative_eq!(parts.heavy.value, two_legs::equal(load, angle).unwrap().value, max_relative = 1e-12);
            assert_eq!(parts.heavy, parts.light);
        }
    }

    #[test]
    fn the_parts_add_up_to_the_load() {
        let (load, angle) = (Force::new::<newton>(2000.0), Angle::new::<degree>(75.0));
        let Parts { heavy, light } = parts(load, angle, Ratio::new::<ratio>(0.24)).unwrap();
        let turning = Angle::new::<degree>(180.0) - angle;
        assert_relative_eq!(
            crate::law::bend::resultant(heavy, light, turning).unwrap().value,
            2000.0,
            max_relative = 1e-13
        );
        assert_relative_eq!((heavy / light).value, (0.24 * turning.value).exp(), max_relative = 1e-13);
    }

    #[test]
    fn the_ring_keeps_the_length_and_bisects_the_angle() {
        let (apart, both) = (Length::new::<metre>(1.2), Length::new::<metre>(2.0));
        for degrees in [10.0_f64, 50.0, 90.0, 130.0] {
            let ring = ring_at_rest(apart, both, Angle::new::<degree>(degrees)).unwrap();
            let (x, y) = (ring.along.value, ring.across.value);
            let (left, right) = ((x + 0.6).hypot(y), (x - 0.6).hypot(y));
            assert_relative_eq!(left + right, 2.0, max_relative = 1e-14);
            // Pulls of equal size along both parts add up to the direction of the load, reversed.
            let (sum_x, sum_y) = ((-0.6 - x) / left + (0.6 - x) / right, -y / left - y / right);
            let pull = degrees.to_radians();
            assert_relative_eq!(sum_x * pull.sin() - sum_y * pull.cos(), 0.0, epsilon = 1e-14);
            let cosine = ((x + 0.6) * (x - 0.6) + y * y) / (left * right);
            assert_relative_eq!(ring.included_angle.value, cosine.acos(), max_relative = 1e-12);
        }
    }

    #[test]
    fn a_ring_held_back_pulls_in_line_with_the_load() {
        let (apart, both) = (Length::new::<metre>(1.2), Length::new::<metre>(1.5));
        for friction in [-0.29, -0.1, 0.0, 0.1, 0.29] {
            for degrees in [30.0_f64, 80.0, 90.0, 120.0] {
                let (load, mu) = (Force::new::<newton>(900.0), Ratio::new::<ratio>(friction));
                let held = ring_held_back(apart, both, Angle::new::<degree>(degrees), load, mu).unwrap();
                let (x, y) = (held.ring.along.value, held.ring.across.value);
                let (left, right) = ((x + 0.6).hypot(y), (x - 0.6).hypot(y));
                let (first, second) = (held.first.value, held.second.value);
                let sum =
                    (first * (x + 0.6) / left + second * (x - 0.6) / right, first * y / left + second * y / right);
                let pull = degrees.to_radians();
                assert_relative_eq!(sum.0, 900.0 * pull.cos(), epsilon = 1e-6);
                assert_relative_eq!(sum.1, 900.0 * pull.sin(), epsilon = 1e-6);
                assert_eq!(first > second, friction > 0.0);
            }
        }
    }
}
