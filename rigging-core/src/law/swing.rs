//! A body that swings on a rope.

use super::{OutOfDomain, check, finite, not_negative, positive};
use crate::quantity::{Angle, Force, Length, Ratio, metre, newton, radian, ratio};
use std::f64::consts::FRAC_PI_2;

/// Largest pull of a taut rope on which a body swings from rest: at the bottom.
///
/// # Formula
/// `F = W (3 − 2 cos θ₀)` where `W` ≥ 0 is the weight (N) and `θ₀` the angle of the rope from plumb where
/// the body lets go, 0 ≤ θ₀ ≤ π/2. The rope does not stretch and nothing is lost.
/// # Errors
/// [`OutOfDomain`] if W is negative or θ₀ outside its range.
/// # References
/// Pendulum: energy kept, and the pull that bends its way.
/// ```
/// use rigging_core::law::swing;
/// use rigging_core::quantity::{Angle, Force, degree, newton};
///
/// // Let go with the rope level: three times the weight at the bottom.
/// let peak = swing::peak(Force::new::<newton>(1000.0), Angle::new::<degree>(90.0))?;
/// assert!((peak.value - 3000.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn peak(weight: Force, from_plumb: Angle) -> Result<Force, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let angle = within(from_plumb)?;
    finite("pull of the swing", weight * (3.0 - 2.0 * angle.cos())).map(Force::new::<newton>)
}

fn within(from_plumb: Angle) -> Result<f64, OutOfDomain> {
    let angle = from_plumb.value;
    check("angle from plumb", angle, (0.0..=FRAC_PI_2).contains(&angle), "from 0 to 90°")
}

/// Angle from plumb of a straight rope whose end is out to the side.
///
/// # Formula
/// `θ = asin(a / L)`, `a` the level distance from plumb below the anchor, −L ≤ a ≤ L, `L` > 0 the rope (m).
/// # Errors
/// [`OutOfDomain`] outside these ranges.
/// # References
/// A right triangle.
/// ```
/// use rigging_core::law::swing;
/// use rigging_core::quantity::{Length, degree, metre};
///
/// let away = swing::from_plumb(Length::new::<metre>(3.0), Length::new::<metre>(6.0))?;
/// assert!((away.get::<degree>() - 30.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn from_plumb(out: Length, rope: Length) -> Result<Angle, OutOfDomain> {
    let rope = positive("rope length", rope.value)?;
    let out = check(
        "way out from plumb",
        out.value,
        out.value.abs() <= rope,
        "not more than the rope is long, to either side",
    )?;
    Ok(Angle::new::<radian>((out / rope).asin()))
}

/// Free fall that gives the speed of a swing at a place of its way.
///
/// # Formula
/// `h = L (cos θ − cos θ₀)`: `L` ≥ 0 the rope (m), `θ₀` where the swing begins from rest, 0 ≤ θ₀ ≤ π/2, `θ` the place,
/// −θ₀ ≤ θ ≤ θ₀. Its speed there is √(2 g h). The rope does not stretch and nothing is lost.
/// # Errors
/// [`OutOfDomain`] outside these ranges.
/// # References
/// Energy kept.
/// ```
/// use rigging_core::law::swing;
/// use rigging_core::quantity::{Angle, Length, degree, metre};
///
/// // On 10 m of rope, let go at 60°, by hand: 10 (cos 0° − cos 60°) = 5 m down to plumb; none where it begins.
/// let (rope, begins) = (Length::new::<metre>(10.0), Angle::new::<degree>(60.0));
/// let fall = swing::equal_fall(rope, begins, Angle::new::<degree>(0.0))?;
/// assert!((fall.value - 5.0).abs() < 1e-9);
/// assert_eq!(swing::equal_fall(rope, begins, begins)?.value, 0.0);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn equal_fall(rope: Length, begins: Angle, at: Angle) -> Result<Length, OutOfDomain> {
    let rope = not_negative("rope length", rope.value)?;
    let begins = within(begins)?;
    let at = check(
        "angle at the place",
        at.value,
        at.value.abs() <= begins,
        "not beyond where the swing begins, 90° at most, to either side",
    )?;
    // cos θ − cos θ₀ as a product, so that nothing cancels in a small swing.
    let fallen = 2.0 * ((begins + at) / 2.0).sin() * ((begins - at) / 2.0).sin();
    Ok(Length::new::<metre>(rope * fallen))
}

/// The largest sideways pull of a swing, and where it pulls so.
/// ```
/// use rigging_core::law::swing;
/// use rigging_core::quantity::{Angle, Force, degree, newton};
///
/// // Let go at 20° it pulls most where it begins, by hand: 1000 cos 20° sin 20° = 321.4.
/// let begins = Angle::new::<degree>(20.0);
/// let most = swing::sideways(Force::new::<newton>(1000.0), begins)?;
/// assert_eq!(most.at, begins);
/// assert!((most.pull.value - 321.4).abs() < 0.05);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sideways {
    /// The pull to the side.
    pub pull: Force,
    /// Angle of the rope from plumb then.
    pub at: Angle,
}

/// Largest level part of the pull on the anchor while a body swings from rest.
///
/// # Formula
/// the most of `W (3 cos θ − 2 cos θ₀) sin θ` for 0 ≤ θ ≤ θ₀: at `cos θ = [cos θ₀ + √(cos² θ₀ + 18)]/6`, or at θ₀ itself
/// if that lies beyond it (θ₀ ≤ 30°). `W` ≥ 0 the weight (N), 0 ≤ θ₀ ≤ π/2. The rope does not stretch.
/// # Errors
/// [`OutOfDomain`] outside these ranges.
/// # References
/// Pendulum, as [`peak`]; its derivative set to 0.
/// ```
/// use rigging_core::law::swing;
/// use rigging_core::quantity::{Angle, Force, degree, newton};
///
/// // From level, by hand: cos θ = √18/6, so 45°, and 1000 · 3 cos 45° sin 45° = 1500.
/// let most = swing::sideways(Force::new::<newton>(1000.0), Angle::new::<degree>(90.0))?;
/// assert!((most.at.get::<degree>() - 45.0).abs() < 1e-9);
/// assert!((most.pull.value - 1500.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn sideways(weight: Force, from_plumb: Angle) -> Result<Sideways, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let begins = within(from_plumb)?;
    let (share, at) = most_sideways(begins, 2.0 * begins.cos());
    let pull = finite("sideways pull", weight * share).map(Force::new::<newton>)?;
    Ok(Sideways { pull, at: Angle::new::<radian>(at) })
}

/// The most of (3 cos θ − a) sin θ for 0 ≤ θ ≤ θ₀, and its θ.
fn most_sideways(begins: f64, a: f64) -> (f64, f64) {
    let cosine = (a + (a * a + 72.0).sqrt()) / 12.0;
    let at = cosine.min(1.0).acos().min(begins);
    ((3.0 * at.cos() - a) * at.sin(), at)
}

/// What a rope that stretches makes of the first pass of a swing, at most.
/// ```
/// use rigging_core::law::swing;
/// use rigging_core::quantity::{Angle, Force, degree, newton};
///
/// // Let go plumb below the anchor, nothing swings: twice the weight, as for a fall of no height.
/// let (weight, stiffness) = (Force::new::<newton>(1000.0), Force::new::<newton>(20_000.0));
/// let pass = swing::on_elastic(weight, stiffness, Angle::new::<degree>(0.0))?;
/// assert_eq!((pass.peak.value, pass.sideways.value, pass.stretch.value), (2000.0, 0.0, 0.1));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnElastic {
    /// Largest pull of the rope.
    pub peak: Force,
    /// Largest level part of it.
    pub sideways: Force,
    /// Stretch at the peak as a share of the rope: the body passes so much lower.
    pub stretch: Ratio,
}

/// A swing from rest on a rope that stretches, loaded beforehand or only just straight: not more than this until it turns
/// on the other side. From more than 30° later swings may pull harder, as the swing feeds the bounce or the rope goes slack.
///
/// # Formula
/// `F = W (3 − cos θ₀)`, sideways `(1 + 1.5 W/EA) W · most of (3 cos θ − cos θ₀) sin θ`, stretch `F/EA`: `W` ≥ 0 the weight
/// (N), `EA` ≥ 2 W the stiffness (N), 0 ≤ θ₀ ≤ π/2. What is let go on a rope that does not yet bear W cos θ₀ bounces by as
/// much again, and the bounce is carried along.
/// # Errors
/// [`OutOfDomain`] outside these ranges.
/// # References
/// Derived; held against the motion in small steps for W/EA from 0.003 to 0.5, θ₀ from 1 to 90°, the rope unloaded to
/// fully loaded where it begins: the peak was exceeded by 2 parts in 10 000 at most.
/// ```
/// use rigging_core::law::swing;
/// use rigging_core::quantity::{Angle, Force, degree, newton};
///
/// // From level, by hand: 1000 (3 − 0) = 3000, and 3000/20 000 = 0.15 of the rope; to the side
/// // (1 + 1.5/20) 1000 · 3 cos 45° sin 45° = 1612.5.
/// let (weight, stiffness) = (Force::new::<newton>(1000.0), Force::new::<newton>(20_000.0));
/// let pass = swing::on_elastic(weight, stiffness, Angle::new::<degree>(90.0))?;
/// assert!((pass.peak.value - 3000.0).abs() < 1e-9 && (pass.stretch.value - 0.15).abs() < 1e-12);
/// assert!((pass.sideways.value - 1612.5).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn on_elastic(weight: Force, stiffness: Force, from_plumb: Angle) -> Result<OnElastic, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let strain = weight / positive("rope stiffness", stiffness.value)?;
    let must = "half of its length at most: no rope does more";
    let strain = check("stretch of the rope as a share", strain, strain <= 0.5, must)?;
    let begins = within(from_plumb)?;
    let times = 3.0 - begins.cos();
    let (aside, _) = most_sideways(begins, begins.cos());
    Ok(OnElastic {
        peak: finite("pull of the swing", weight * times).map(Force::new::<newton>)?,
        sideways: finite("sideways pull", weight * aside * (1.0 + 1.5 * strain)).map(Force::new::<newton>)?,
        stretch: Ratio::new::<ratio>(strain * times),
    })
}

/// Length of a lip that a swinging rope is drawn along, from one place of the swing to another.
///
/// # Formula
/// `s = |t(θ₀) − t(θ₁)|` with `t(θ) = a tan θ`, at most `√(L² − a²)` to either side, where the body itself is at the lip:
/// `a` the distance of a level lip below the anchor, 0 ≤ a ≤ L, `L` > 0 the rope (m), both angles from −π/2 to π/2.
/// # Errors
/// [`OutOfDomain`] outside these ranges.
/// # References
/// Where a straight rope crosses a level line.
/// ```
/// use rigging_core::law::swing;
/// use rigging_core::quantity::{Angle, Length, degree, metre};
///
/// // A lip 2 m below the anchor, from 45° on one side to 45° on the other: 2 m to each side of plumb.
/// let (lip, rope) = (Length::new::<metre>(2.0), Length::new::<metre>(10.0));
/// let drawn = swing::drawn_along_lip(lip, rope, Angle::new::<degree>(45.0), Angle::new::<degree>(-45.0))?;
/// assert!((drawn.value - 4.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn drawn_along_lip(lip_below: Length, rope: Length, begins: Angle, ends: Angle) -> Result<Length, OutOfDomain> {
    let rope = positive("rope length", rope.value)?;
    let lip = not_negative("rope from the anchor to the lip", lip_below.value)?;
    let lip = check("rope from the anchor to the lip", lip, lip <= rope, "not more than the rope")?;
    let most = ((rope - lip).sqrt() * (rope + lip).sqrt()).min(rope);
    let crosses = |angle: f64| {
        let angle = check("angle from plumb", angle, angle.abs() <= FRAC_PI_2, "from −90° to 90°")?;
        Ok((lip * angle.tan()).max(-most).min(most))
    };
    let (begins, ends): (f64, f64) = (crosses(begins.value)?, crosses(ends.value)?);
    finite("way along the lip", (begins - ends).abs()).map(Length::new::<metre>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::degree;
    use approx::assert_relative_eq;

    #[test]
    fn at_rest_a_swing_pulls_its_weight_and_from_level_three_times_that() {
        let pull = |degrees| peak(Force::new::<newton>(800.0), Angle::new::<degree>(degrees)).unwrap().value;
        assert_eq!(pull(0.0), 800.0);
        assert_relative_eq!(pull(90.0), 2400.0, max_relative = 1e-14);
    }

    #[test]
    fn the_sideways_pull_is_largest_where_a_search_finds_it() {
        for degrees in [0.0, 5.0, 29.0, 30.0, 31.0, 45.0, 60.0, 75.0, 90.0_f64] {
            let begins = degrees.to_radians();
            let found = sideways(Force::new::<newton>(1.0), Angle::new::<radian>(begins)).unwrap();
            let at = |angle: f64| (3.0 * angle.cos() - 2.0 * begins.cos()) * angle.sin();
            let most = (0..=20_000).map(|step| at(begins * f64::from(step) / 20_000.0)).fold(0.0, f64::max);
            assert_relative_eq!(found.pull.value, most, max_relative = 1e-8);
            assert_relative_eq!(at(found.at.value), most, max_relative = 1e-8);
        }
    }

    #[test]
    fn lengths_give_the_angle_and_the_fall() {
        let (rope, degrees) = (Length::new::<metre>(10.0), Angle::new::<degree>);
        let begins = from_plumb(Length::new::<metre>(5.0), rope).unwrap();
        assert_relative_eq!(begins.value, degrees(30.0).value, max_relative = 1e-14);
        assert_relative_eq!(equal_fall(rope, degrees(60.0), degrees(0.0)).unwrap().value, 5.0, max_relative = 1e-12);
        assert_relative_eq!(equal_fall(rope, degrees(90.0), degrees(-60.0)).unwrap().value, 5.0, max_relative = 1e-12);
        let words = equal_fall(rope, degrees(30.0), degrees(-31.0)).unwrap_err().to_string();
        assert!(words.ends_with(" is −31°: it must be not beyond where the swing begins, 90° at most, to either side"));
        assert!(from_plumb(Length::new::<metre>(10.1), rope).is_err());
        let words = from_plumb(Length::new::<metre>(-10.1), rope).unwrap_err().to_string();
        assert!(words.ends_with(" is −10.1: it must be not more than the rope is long, to either side"), "{words}");
        let drawn = |begins, ends| {
            drawn_along_lip(Length::new::<metre>(2.0), rope, degrees(begins), degrees(ends)).unwrap().value
        };
        assert_relative_eq!(drawn(45.0, -45.0), 4.0, max_relative = 1e-12);
        assert_relative_eq!(drawn(90.0, 0.0), 96_f64.sqrt(), max_relative = 1e-12);
    }
}
