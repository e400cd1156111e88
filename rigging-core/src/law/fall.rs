//! A body caught by a rope that had slack.

use super::gravity::STANDARD_GRAVITY;
use super::{OutOfDomain, check, finite, not_negative, positive};
use crate::quantity::{Force, Length, Ratio, Velocity, metre, newton};

/// Peak force at the end of a fall onto a rope that was not under tension.
///
/// # Formula
/// `F = W + √(W² + 2 W EA f)`, `f = h / L`, where `W` is the weight (N), `EA` the stiffness of the rope
/// (N, tension for a strain of 1), `h` ≥ 0 the free fall not counting stretch (m) and `L` > 0 the rope
/// that catches (m). A linear rope without loss: an upper bound for a rope of that stiffness, and none with
/// a stiffness from gentler falls, for ropes are stiffer the harder they catch: drop tests of heavy loads gave up to 30 %
/// more (C. Weber, *Analysis of Impact Force Equations*, ITRS 2002).
/// # Errors
/// [`OutOfDomain`] if W or h is negative or EA or L is not above 0.
/// # References
/// Energy balance of a linear spring; OpenStax *University Physics*, worked example of a fall on a
/// rope. Known in the trade as the standard equation of impact force.
/// ```
/// use rigging_core::law::fall;
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // Let go on a rope that is just tight: twice the weight, whatever the rope.
/// let (none, rope) = (Length::new::<metre>(0.0), Length::new::<metre>(3.0));
/// let peak = fall::peak(Force::new::<newton>(800.0), Force::new::<newton>(20_000.0), none, rope)?;
/// assert!((peak.value - 1600.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
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
/// ```
/// use rigging_core::law::fall;
/// use rigging_core::quantity::{Length, metre};
///
/// let factor = fall::fall_factor(Length::new::<metre>(2.0), Length::new::<metre>(4.0))?;
/// assert_eq!(factor.value, 0.5);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn fall_factor(free_fall: Length, rope: Length) -> Result<Ratio, OutOfDomain> {
    let fall = not_negative("free fall", free_fall.value)?;
    let rope = positive("rope length", rope.value)?;
    finite("fall factor", fall / rope).map(Ratio::new::<uom::si::ratio::ratio>)
}

/// Peak force on a rope over a bend that lets go: from then on it runs straight from what holds it beyond.
///
/// # Formula
/// `F = W + √(W² + 2 W k (L₀ − y) + T²)`, `L₀ = Σ L/(1 + P/EA)` over the lengths of rope beyond the bend and below, each
/// `L` > 0 as it was stretched by its pull `P` ≥ 0 until then, `k = EA/L₀`, `T = k (d − L₀)`, not below 0: what is left of
/// the pull at once. `W` ≥ 0 the weight (N), `EA` > 0, `d` ≥ 0 how far straight from what holds beyond (m), `y` how much
/// of that is down, from −d to d. All that sinks and all that is left of the stretch stopped by the rope plumb below: a
/// linear rope without loss, and an upper bound wherever the body swings.
/// # Errors
/// [`OutOfDomain`] outside these ranges, or if the peak is too large for a number.
/// # References
/// Conservation of energy; without pull before it is [`peak`] of a fall by L − y.
/// ```
/// use rigging_core::law::fall;
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // 2 · 5 m plumb, 2000 N in them: by hand L₀ = 10/1.1 m, k = 2200 N/m, T = 2000 N, and
/// // 1000 + √(1000² − 2 · 1000 · 2000 + 2000²) = 2000 N: the bend was none, and all goes on as it was.
/// let (metres, newtons) = (Length::new::<metre>, Force::new::<newton>);
/// let rope = [(metres(5.0), newtons(2000.0)); 2];
/// let peak = fall::let_go(newtons(1000.0), newtons(20e3), rope, metres(10.0), metres(10.0))?;
/// assert!((peak.value - 2000.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn let_go(
    weight: Force,
    stiffness: Force,
    rope: [(Length, Force); 2],
    straight: Length,
    down: Length,
) -> Result<Force, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let stiffness = positive("rope stiffness", stiffness.value)?;
    let straight = not_negative("way to what holds the rope beyond", straight.value)?;
    let below = down.value.abs() <= straight;
    let down = check("height of what holds the rope beyond", down.value, below, "at most the way to it, up or down")?;
    let mut unstretched = 0.0;
    for (length, pull) in rope {
        let pull = not_negative("pull before", pull.value)?;
        unstretched += positive("rope length", length.value)? / (1.0 + pull / stiffness);
    }
    let unstretched = positive("rope length without its stretch", unstretched)?;
    let spring = stiffness / unstretched;
    let left = finite("pull at once", spring * (straight - unstretched).max(0.0))?;
    let stored = weight * weight + 2.0 * weight * spring * (unstretched - down) + left * left;
    finite("peak force", weight + stored.max(0.0).sqrt()).map(Force::new::<newton>)
}

/// Peak force on someone who moves in jerks when what they hang on drops in the middle of one.
///
/// # Formula
/// `F = W [1 + √((p − 1)² + 2 e/d)]`, W ≥ 0 the weight (N), p ≥ 1 how many times the weight the jerks pull at their
/// hardest, e ≥ 0 the drop and d > 0 what rope and anchor give under the weight (m).
/// # Errors
/// [`OutOfDomain`] outside these ranges, or if the peak is too large for a number.
/// # References
/// Conservation of energy of a bounce on a spring, nothing lost: who bounces to 2 W was let go, and [`peak`] of a fall as
/// far as the drop is what comes.
/// ```
/// use rigging_core::law::fall;
/// use rigging_core::quantity::{Force, Length, Ratio, metre, newton, ratio};
///
/// // Without a drop the jerks go on. By hand, 3.2 W, 0.1 m of drop, 0.1 m of give: 1000 (1 + √(2.2² + 2)) = 3615 N.
/// let (weight, metres) = (Force::new::<newton>(1000.0), Length::new::<metre>);
/// let peak = |drop| fall::in_a_jerk(weight, Ratio::new::<ratio>(3.2), metres(0.1), metres(drop));
/// assert!((peak(0.0)?.value - 3200.0).abs() < 1e-9 && (peak(0.1)?.value - 3615.3).abs() < 0.1);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn in_a_jerk(weight: Force, times: Ratio, gives: Length, drop: Length) -> Result<Force, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let times = check("times the weight in a jerk", times.value, times.value >= 1.0, "1 or more")?;
    let gives = positive("give of rope and anchor", gives.value)?;
    let drop = not_negative("drop", drop.value)?;
    let beyond = (times - 1.0).hypot((2.0 * drop / gives).sqrt());
    finite("peak force", weight * (1.0 + beyond)).map(Force::new::<newton>)
}

/// Stiffness of a rope from the peak force it gave in a drop test.
///
/// # Formula
/// `EA = U (U − 2W) / (2 f W)`, the law of [`peak`] turned round; U > 2W, f > 0.
/// # Errors
/// [`OutOfDomain`] outside these ranges, or if the result is too large or too small for a number.
/// # References
/// Derived from the law of [`peak`].
/// ```
/// use rigging_core::law::fall;
/// use rigging_core::quantity::{Force, Length, Ratio, metre, newton, ratio};
///
/// // What a peak says of a rope gives that peak back.
/// let (weight, rope) = (Force::new::<newton>(784.5), Length::new::<metre>(2.8));
/// let stiffness = fall::stiffness_from_peak(Force::new::<newton>(9000.0), weight, Ratio::new::<ratio>(1.77))?;
/// let peak = fall::peak(weight, stiffness, rope * 1.77, rope)?;
/// assert!((peak.value - 9000.0).abs() < 1e-6);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn stiffness_from_peak(peak: Force, weight: Force, fall_factor: Ratio) -> Result<Force, OutOfDomain> {
    let weight = positive("weight", weight.value)?;
    let factor = positive("fall factor", fall_factor.value)?;
    let peak = super::check("peak force", peak.value, peak.value > 2.0 * weight, "more than twice the weight")?;
    positive("rope stiffness", peak * (peak - 2.0 * weight) / (2.0 * factor * weight)).map(Force::new::<newton>)
}

/// How far rope and anchor together give under a weight that hangs still.
///
/// # Formula
/// `d = W L/EA + a`, that is `1/k = L/EA + 1/k_anchor` with `k = W/d`: `W` ≥ 0 the weight (N), `EA` > 0 the stiffness of
/// the rope (N), `L` > 0 its length (m), `a` ≥ 0 what the anchor gives under W (m).
/// # Errors
/// [`OutOfDomain`] outside these ranges, or if d is too large for a number.
/// # References
/// Two springs in a row.
/// ```
/// use rigging_core::law::fall;
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// let (weight, stiffness) = (Force::new::<newton>(800.0), Force::new::<newton>(20_000.0));
/// let gives = fall::gives(weight, stiffness, Length::new::<metre>(5.0), Length::new::<metre>(0.1))?;
/// assert!((gives.value - 0.3).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn gives(weight: Force, stiffness: Force, rope: Length, anchor_gives: Length) -> Result<Length, OutOfDomain> {
    let strain = not_negative("weight", weight.value)? / positive("rope stiffness", stiffness.value)?;
    let rope = positive("rope length", rope.value)?;
    let anchor = not_negative("give of the anchor", anchor_gives.value)?;
    finite("give", strain * rope + anchor).map(Length::new::<metre>)
}

/// Peak force on someone who falls onto a loose rope and had a speed when the fall began.
///
/// # Formula
/// `F = W + √(W² + k m v² + 2 W k h) = W [1 + √(1 + (v²/g + 2 h)/d)]` with `k = W/d` and `m = W/g`: `W` ≥ 0 the weight
/// (N), `d` > 0 what gives under it as [`gives`] tells (m), `h` ≥ 0 the free fall (m), `v` ≥ 0 the speed downwards where
/// it begins (m/s). A speed known where the rope comes tight goes with h = 0. A linear rope without loss.
/// # Errors
/// [`OutOfDomain`] outside these ranges, or if the peak is too large for a number.
/// # References
/// Energy balance of a linear spring, as for [`peak`].
/// ```
/// use rigging_core::law::{fall, gravity::STANDARD_GRAVITY};
/// use rigging_core::quantity::{Force, Length, Velocity, metre, metre_per_second, newton};
///
/// // 0.4 m of fall, or the speed at its end, √(2 · g · 0.4). By hand: 800 [1 + √(1 + 2 · 0.4/0.1)] = 3200 N.
/// let (weight, gives) = (Force::new::<newton>(800.0), Length::new::<metre>(0.1));
/// let speed = Velocity::new::<metre_per_second>((2.0 * STANDARD_GRAVITY * 0.4).sqrt());
/// let by_height = fall::caught(weight, gives, Length::new::<metre>(0.4), Velocity::default())?;
/// let by_speed = fall::caught(weight, gives, Length::default(), speed)?;
/// assert!((by_height.value - 3200.0).abs() < 1e-9 && (by_speed.value - 3200.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn caught(weight: Force, gives: Length, free_fall: Length, speed: Velocity) -> Result<Force, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let gives = positive("give", gives.value)?;
    let fall = not_negative("free fall", free_fall.value)?;
    let speed = not_negative("speed", speed.value)? / STANDARD_GRAVITY.sqrt();
    let root = 1_f64.hypot(speed / gives.sqrt()).hypot((2.0 * (fall / gives)).sqrt());
    finite("peak force", weight + weight * finite("peak force over weight", root)?).map(Force::new::<newton>)
}

/// Peak force on someone who goes down a rope at a speed, hanging on it, and is stopped at once.
///
/// # Formula
/// `F = W + v √(k m) = W [1 + v/√(g d)]`: `W` ≥ 0 the weight (N), `d` > 0 what gives under it as [`gives`] tells (m),
/// `v` ≥ 0 the speed (m/s). A linear rope without loss, stretched by the weight when the stop begins.
/// # Errors
/// [`OutOfDomain`] outside these ranges, or if the peak is too large for a number.
/// # References
/// A body that passes the rest of its spring at a speed.
/// ```
/// use rigging_core::law::fall;
/// use rigging_core::quantity::{Force, Length, Velocity, metre, metre_per_second, newton};
///
/// let (weight, gives) = (Force::new::<newton>(800.0), Length::new::<metre>(0.1));
/// let stopped = |speed| fall::stopped(weight, gives, Velocity::new::<metre_per_second>(speed));
/// // Who hangs still goes on hanging. At 0.99 m/s, by hand: 0.99² = 0.980 and g d = 0.981, so twice the weight.
/// assert_eq!(stopped(0.0)?, weight);
/// assert!((stopped(0.99)?.value - 1600.0).abs() < 1.0);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn stopped(weight: Force, gives: Length, speed: Velocity) -> Result<Force, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let gives = positive("give", gives.value)?;
    let speed = not_negative("speed", speed.value)? / STANDARD_GRAVITY.sqrt();
    let times = finite("peak force over weight", speed / gives.sqrt())?;
    finite("peak force", weight + weight * times).map(Force::new::<newton>)
}

/// How a fall ends on a device that slips.
/// ```
/// use rigging_core::law::fall::{self, Braked};
/// use rigging_core::quantity::{Force, Length, Velocity, metre, newton};
///
/// // A device that slips only above the peak does not slip: it is the fall on a knot.
/// let (weight, gives, fall) = (Force::new::<newton>(800.0), Length::new::<metre>(0.1), Length::new::<metre>(0.4));
/// let peak = fall::caught(weight, gives, fall, Velocity::default())?;
/// let braked = fall::braked(weight, gives, fall, peak * 1.01)?;
/// assert_eq!(braked, Braked { peak, travel: Length::default() });
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Braked {
    /// Largest pull of the rope.
    pub peak: Force,
    /// Rope that runs through the device before it holds.
    pub travel: Length,
}

/// A fall onto a loose rope whose device slips at a force.
///
/// # Formula
/// The peak is the least of [`caught`] and `T`. If it is T, the rope runs `s = [W (h + x) − T x/2]/(T − W)` through the
/// device, `x = d T/W` the stretch at T: energy of the fall = energy of the stretch + T s. `W` > 0 the weight (N), `d` > 0
/// what gives under it as [`gives`] tells (m), `h` ≥ 0 the free fall (m), `T` > W the force at which it slips (N), the
/// same while it slips.
/// # Errors
/// [`OutOfDomain`] outside these ranges, or if a result is too large for a number: at a force not above the weight a
/// device never stops who falls.
/// # References
/// Work and energy.
/// ```
/// use rigging_core::law::fall;
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // By hand: at 1600 N what gives 0.1 m under 800 N gives 0.2 m; [800 (1 + 0.2) − 1600 · 0.2/2]/(1600 − 800) = 1 m.
/// let (weight, gives) = (Force::new::<newton>(800.0), Length::new::<metre>(0.1));
/// let braked = fall::braked(weight, gives, Length::new::<metre>(1.0), Force::new::<newton>(1600.0))?;
/// assert_eq!(braked.peak.value, 1600.0);
/// assert!((braked.travel.value - 1.0).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn braked(weight: Force, gives: Length, free_fall: Length, slips_at: Force) -> Result<Braked, OutOfDomain> {
    let rigid = caught(weight, gives, free_fall, Velocity::default())?;
    let weight = positive("weight", weight.value)?;
    let must = "more than the weight of all on the rope: else the rope runs through and nobody is stopped";
    let slips = check("force at which the device slips", slips_at.value, slips_at.value > weight, must)?;
    if rigid.value <= slips {
        return Ok(Braked { peak: rigid, travel: Length::new::<metre>(0.0) });
    }
    let times = finite("force at which the device slips over the weight", slips / weight)?;
    let stretch = gives.value * times;
    let left = (free_fall.value + stretch * (1.0 - 0.5 * times)).max(0.0);
    let travel = finite("way through the device", left / (times - 1.0))?;
    Ok(Braked { peak: slips_at, travel: Length::new::<metre>(travel) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::metre;
    use approx::assert_relative_eq;

    #[test]
    fn what_is_outside_is_named_at_its_very_edge() {
        let (newtons, metres) = (Force::new::<newton>, Length::new::<metre>);
        let edge = stiffness_from_peak(newtons(1600.0), newtons(800.0), Ratio::new::<crate::quantity::ratio>(1.0));
        assert_eq!(edge.unwrap_err().what, "peak force");
        let edge = braked(newtons(800.0), metres(0.1), metres(1.0), newtons(800.0));
        assert_eq!(edge.unwrap_err().what, "force at which the device slips");
    }

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

    #[test]
    fn speed_and_height_are_the_same_fall() {
        let (weight, rope) = (Force::new::<newton>(900.0), Length::new::<metre>(5.0));
        let stiffness = Force::new::<newton>(25e3);
        let gives = gives(weight, stiffness, rope, Length::default()).unwrap();
        let fall = Length::new::<metre>(0.7);
        let still = caught(weight, gives, fall, Velocity::default()).unwrap();
        assert_relative_eq!(still.value, peak(weight, stiffness, fall, rope).unwrap().value, max_relative = 1e-14);
        let speed = Velocity::new::<uom::si::velocity::meter_per_second>((2.0 * STANDARD_GRAVITY * 0.7).sqrt());
        let fast = caught(weight, gives, Length::default(), speed).unwrap();
        assert_relative_eq!(still.value, fast.value, max_relative = 1e-14);
        assert!(stopped(weight, gives, speed).unwrap() < fast, "who hangs already is caught more gently");
        assert_eq!(stopped(weight, gives, Velocity::default()).unwrap(), weight);
    }

    #[test]
    fn a_device_that_slips_holds_the_peak_down_and_pays_with_way() {
        let (weight, gives, fall) = (Force::new::<newton>(900.0), Length::new::<metre>(0.1), Length::new::<metre>(2.0));
        let at = |force: f64| braked(weight, gives, fall, Force::new::<newton>(force)).unwrap();
        let caught = caught(weight, gives, fall, Velocity::default()).unwrap();
        assert_eq!(at(1e6), Braked { peak: caught, travel: Length::default() });
        assert_eq!(at(2000.0).peak.value, 2000.0);
        // By hand: x = 0.2222 m; 900 (2 + 0.2222) − 2000 · 0.1111 = 1777.8 J; over 1100 N 1.616 m.
        assert_relative_eq!(at(2000.0).travel.value, 1.6162, max_relative = 1e-4);
        assert!(braked(weight, gives, fall, weight).is_err());
    }
}
