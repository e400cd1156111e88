//! A body that holds a rope by its weight on the ground: a person or a block.
//!
//! Angles: the slope `β` is measured in the vertical plane of the rope and is above 0 where the ground
//! falls toward the load; the rope leaves the body at `θ` above the horizontal (negative: it runs
//! down). `a = θ + β` is the rope's angle above the ground. All three lie within ±90°.
//!
//! Each law gives the rope force at which the body gives way, or `None` where that way of failing has
//! no limit. The body holds the least of them.

use super::gravity::weight;
use super::{OutOfDomain, check, finite, not_negative, positive};
use crate::quantity::{Angle, Force, Length, Mass, Ratio, kilogram, newton};
use std::f64::consts::FRAC_PI_2;

/// Directions of the ground and the rope.
/// ```
/// use rigging_core::law::ground::{self, Directions};
/// use rigging_core::quantity::{Angle, Force, Ratio, degree, newton, ratio};
///
/// // A rope along the ground, whose slope falls 30° to the load: it leaves the body 30° below the horizontal.
/// let (slope, rope) = (Angle::new::<degree>(30.0), Angle::new::<degree>(-30.0));
/// let (weight, friction) = (Force::new::<newton>(1000.0), Ratio::new::<ratio>(1.0));
/// let slides = ground::slides_at(weight, friction, Force::default(), Directions { slope, rope })?;
/// // By hand: friction gives 1000 cos 30° = 866 N, the weight takes 1000 sin 30° = 500 N of it.
/// assert!(slides.is_some_and(|force| (force.value - 366.0).abs() < 0.05));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Directions {
    /// Slope of the ground, above 0 where it falls toward the load.
    pub slope: Angle,
    /// Elevation of the rope where it leaves the body, above the horizontal.
    pub rope: Angle,
}

impl Directions {
    /// Slope, rope and the rope's angle above the ground, in radians.
    pub(super) fn checked(self) -> Result<(f64, f64, f64), OutOfDomain> {
        let within = |what, angle: f64| check(what, angle, angle.abs() < FRAC_PI_2, "between −90° and 90°");
        let slope = within("slope", self.slope.value)?;
        let rope = within("elevation of the rope", self.rope.value)?;
        Ok((slope, rope, within("angle between rope and ground", slope + rope)?))
    }
}

/// Rope force at which a body slides along the ground toward the load.
///
/// # Formula
/// With weight `W`, friction `μ` and a push `B` of the feet parallel to the ground:
/// 1. if `W(μ cos β − sin β) + B ≤ 0` the body slides without any rope: 0;
/// 2. if `a ≤ −(90° − atan μ)` the rope presses it into the ground: no limit;
/// 3. else `[W(μ cos β − sin β) + B] / (cos a + μ sin a)`.
/// # Errors
/// [`OutOfDomain`] if W, μ or B is negative or an angle outside ±90°.
/// # References
/// Coulomb friction on an incline; derived twice for this project.
/// ```
/// use rigging_core::law::ground::{self, Directions};
/// use rigging_core::quantity::{Angle, Force, Ratio, degree, newton, ratio};
///
/// let level = Directions { slope: Angle::default(), rope: Angle::default() };
/// let (weight, friction) = (Force::new::<newton>(800.0), Ratio::new::<ratio>(0.5));
/// // By hand, all level: 0.5 · 800 = 400 N, and a push of the feet of 700 N on top.
/// let slides = ground::slides_at(weight, friction, Force::new::<newton>(700.0), level)?;
/// assert!(slides.is_some_and(|force| (force.value - 1100.0).abs() < 1e-9));
/// // A rope that runs down at 80° presses the body to the ground: atan 0.5 is 26.6°, so from 63.4° on nothing slides.
/// let steep = Directions { rope: Angle::new::<degree>(-80.0), ..level };
/// assert_eq!(ground::slides_at(weight, friction, Force::default(), steep)?, None);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn slides_at(
    weight: Force,
    friction: Ratio,
    push: Force,
    directions: Directions,
) -> Result<Option<Force>, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let friction = not_negative("friction", friction.value)?;
    let push = not_negative("push of the feet", push.value)?;
    let (slope, _, angle) = directions.checked()?;
    let grip = weight * (friction * slope.cos() - slope.sin()) + push;
    if grip <= 0.0 {
        return Ok(Some(Force::new::<newton>(0.0)));
    }
    let drag = angle.cos() + friction * angle.sin();
    if drag <= 0.0 {
        return Ok(None);
    }
    finite("sliding force", grip / drag).map(|force| Some(Force::new::<newton>(force)))
}

/// Push of the feet of a braced person, from all that such a person held in a trial.
///
/// # Formula
/// `B = H − μ W`, not below 0, where `H` is the rope force held on level ground with a level rope (N),
/// `μ` the friction of the seat and `W` the weight (N): what friction gives is taken off the whole.
/// # Errors
/// [`OutOfDomain`] if H, W or μ is negative.
/// # References
/// Derived: the law of [`slides_at`] on the flat, solved for B.
/// ```
/// use rigging_core::law::ground::{self, Directions};
/// use rigging_core::quantity::{Angle, Force, Ratio, newton, ratio};
///
/// // A person of 800 N held 1500 N. By hand: 0.35 · 800 = 280 N of that are friction, 1220 N are the feet.
/// let (hold, weight) = (Force::new::<newton>(1500.0), Force::new::<newton>(800.0));
/// let friction = Ratio::new::<ratio>(0.35);
/// let push = ground::push_of_feet(hold, weight, friction)?;
/// assert!((push.value - 1220.0).abs() < 1e-9);
/// // On the flat that push gives back what was held.
/// let level = Directions { slope: Angle::default(), rope: Angle::default() };
/// let held = ground::slides_at(weight, friction, push, level)?;
/// assert!(held.is_some_and(|force| (force - hold).value.abs() < 1e-9));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn push_of_feet(hold: Force, weight: Force, friction: Ratio) -> Result<Force, OutOfDomain> {
    let hold = not_negative("hold", hold.value)?;
    let weight = not_negative("weight", weight.value)?;
    let friction = not_negative("friction", friction.value)?;
    Ok(Force::new::<newton>((hold - friction * weight).max(0.0)))
}

/// Rope force at which a person topples toward the load.
///
/// # Formula
/// `W d / [(h − h_f) cos θ + a_t sin θ]`, gravity axes: `d` the level distance from the feet to the
/// person's weight, `h` the height of the rope on the body, `h_f` that of the feet's contact, `a_t` the
/// level distance from the feet to where the rope leaves the body (m). No limit where the denominator
/// is not above 0.
/// # Errors
/// [`OutOfDomain`] if W or d is negative or an angle outside ±90°.
/// # References
/// Moments about the feet; a push of the feet acts at the pivot and does not enter.
/// ```
/// use rigging_core::law::ground::{self, Directions};
/// use rigging_core::quantity::{Angle, Force, Length, metre, newton};
///
/// // By hand: the weight 0.12 m behind the feet, a level rope 1 m above them: 800 · 0.12/1 = 96 N.
/// let level = Directions { slope: Angle::default(), rope: Angle::default() };
/// let (behind, high) = (Length::new::<metre>(0.12), Length::new::<metre>(1.0));
/// let topples = ground::person_topples_at(Force::new::<newton>(800.0), behind, high, behind, level)?;
/// assert!(topples.is_some_and(|force| (force.value - 96.0).abs() < 1e-9));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn person_topples_at(
    weight: Force,
    weight_behind_feet: Length,
    rope_above_feet: Length,
    rope_behind_feet: Length,
    directions: Directions,
) -> Result<Option<Force>, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let behind = not_negative("distance of the weight from the feet", weight_behind_feet.value)?;
    let (_, rope, _) = directions.checked()?;
    let arm = finite("lever arm", rope_above_feet.value * rope.cos() + rope_behind_feet.value * rope.sin())?;
    if arm <= 0.0 {
        return Ok(None);
    }
    finite("toppling force", weight * behind / arm).map(|force| Some(Force::new::<newton>(force)))
}

/// Where a block stands and where its sling runs, along and square to the ground.
/// ```
/// use rigging_core::law::ground::{self, Block, Directions};
/// use rigging_core::quantity::{Angle, Force, Length, degree, metre, newton};
///
/// // A slab on edge: three times as high as its centre stands behind the edge leans over at atan(1/3) = 18.4°.
/// let (near, high) = (Length::new::<metre>(0.2), Length::new::<metre>(0.6));
/// let slab = Block { centre_behind_edge: near, centre_height: high, sling_height: near, sling_behind_edge: near };
/// let leans = Directions { slope: Angle::new::<degree>(20.0), rope: Angle::default() };
/// let topples = ground::block_topples_at(Force::new::<newton>(5000.0), &slab, leans)?;
/// assert_eq!(topples, Some(Force::default()));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Block {
    /// From the tipping edge to the centre of mass, along the ground, > 0.
    pub centre_behind_edge: Length,
    /// Height of the centre of mass above the ground, > 0.
    pub centre_height: Length,
    /// Height at which the sling pulls.
    pub sling_height: Length,
    /// From the tipping edge to where the sling pulls, along the ground.
    pub sling_behind_edge: Length,
}

/// Rope force at which a block topples toward the load.
///
/// # Formula
/// `W (d cos β − h_g sin β) / (h cos a + a_t sin a)`: `d`, `h_g` place of the centre of mass, `h`, `a_t`
/// of the sling, from the tipping edge along and square to the ground (m). 0 if the block topples by
/// itself; no limit where the denominator is not above 0.
/// # Errors
/// [`OutOfDomain`] if W is negative, a distance of the centre is not above 0, or an angle outside ±90°.
/// # References
/// Moments about the tipping edge.
/// ```
/// use rigging_core::law::ground::{self, Block, Directions};
/// use rigging_core::quantity::{Angle, Force, Length, metre, newton};
///
/// // By hand, all level: the weight at 0.3 m against the sling at 0.5 m, 5000 · 0.3/0.5 = 3000 N.
/// let (back, high) = (Length::new::<metre>(0.3), Length::new::<metre>(0.5));
/// let block = Block { centre_behind_edge: back, centre_height: high, sling_height: high, sling_behind_edge: back };
/// let level = Directions { slope: Angle::default(), rope: Angle::default() };
/// let topples = ground::block_topples_at(Force::new::<newton>(5000.0), &block, level)?;
/// assert!(topples.is_some_and(|force| (force.value - 3000.0).abs() < 1e-9));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn block_topples_at(weight: Force, block: &Block, directions: Directions) -> Result<Option<Force>, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let behind = positive("distance of the centre from the edge", block.centre_behind_edge.value)?;
    let height = positive("height of the centre", block.centre_height.value)?;
    let (slope, _, angle) = directions.checked()?;
    let arm =
        finite("lever arm", block.sling_height.value * angle.cos() + block.sling_behind_edge.value * angle.sin())?;
    let steady = weight * (behind * slope.cos() - height * slope.sin());
    if steady <= 0.0 {
        return Ok(Some(Force::new::<newton>(0.0)));
    }
    if arm <= 0.0 {
        return Ok(None);
    }
    finite("toppling force", steady / arm).map(|force| Some(Force::new::<newton>(force)))
}

/// Rope force at which a block tips back over its rear edge: a steep rope lifts its front before the whole of it.
///
/// # Formula
/// `W ((r − d) cos β + h_g sin β) / ((r − a_t) sin a − h cos a)`, `r` > 0 the length of the ground under the block,
/// from the tipping edge to the rear one (m), the rest as in [`block_topples_at`]. 0 if the block tips back by itself;
/// no limit where the denominator is not above 0. Without it [`lifts_at`] is too high for a sling in front of the
/// centre of mass.
/// # Errors
/// [`OutOfDomain`] if W is negative, r or a distance of the centre is not above 0, or an angle outside ±90°.
/// # References
/// Moments about the rear edge.
/// ```
/// use rigging_core::law::ground::{self, Block, Directions};
/// use rigging_core::quantity::{Angle, Force, Length, degree, metre, newton};
///
/// let metres = Length::new::<metre>;
/// let (centre_behind_edge, centre_height) = (metres(0.6), metres(0.4));
/// let block = Block { centre_behind_edge, centre_height, sling_height: metres(0.3), sling_behind_edge: metres(0.2) };
/// let up = Directions { slope: Angle::default(), rope: Angle::new::<degree>(45.0) };
/// // By hand: 5000 (1 − 0.6)/[(1 − 0.2 − 0.3) sin 45°] = 5657 N. The whole block lifts at 5000/sin 45° = 7071 N only.
/// let tips = ground::block_tips_back_at(Force::new::<newton>(5000.0), &block, metres(1.0), up)?;
/// assert!(tips.is_some_and(|force| (force.value - 5657.0).abs() < 0.5));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn block_tips_back_at(
    weight: Force,
    block: &Block,
    length: Length,
    directions: Directions,
) -> Result<Option<Force>, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let length = positive("length of the ground under the block", length.value)?;
    let behind = positive("distance of the centre from the edge", block.centre_behind_edge.value)?;
    let height = positive("height of the centre", block.centre_height.value)?;
    let (slope, _, angle) = directions.checked()?;
    let (sling, back) = (block.sling_height.value, length - block.sling_behind_edge.value);
    let arm = finite("lever arm", back * angle.sin() - sling * angle.cos())?;
    let steady = weight * ((length - behind) * slope.cos() + height * slope.sin());
    if steady <= 0.0 {
        return Ok(Some(Force::new::<newton>(0.0)));
    }
    if arm <= 0.0 {
        return Ok(None);
    }
    // As with lifting: a force too large for a number is no limit.
    let force = finite("moment of the weight", steady)? / arm;
    Ok(force.is_finite().then(|| Force::new::<newton>(force)))
}

/// Mass of a block, from the three lengths of the box around it.
///
/// # Formula
/// `m = ρ s a b c`: the lengths `a`, `b`, `c` ≥ 0 (m), `s` ≥ 0 the share of the box that is rock, `ρ` ≥ 0 the mass of a
/// cubic metre (kg).
/// # Errors
/// [`OutOfDomain`] if one of them is negative or m is too large for a number.
/// # References
/// A box; blocks fill 0.45 to 0.65 of theirs (assumed).
/// ```
/// use rigging_core::law::ground;
/// use rigging_core::quantity::{Length, Mass, Ratio, kilogram, metre, ratio};
///
/// // About half of the box around a rounded block is rock.
/// let side = Length::new::<metre>(1.0);
/// let mass = ground::block_mass([side; 3], Ratio::new::<ratio>(0.5), Mass::new::<kilogram>(2600.0))?;
/// assert_eq!(mass.value, 1300.0);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn block_mass(lengths: [Length; 3], share_of_box: Ratio, cubic_metre: Mass) -> Result<Mass, OutOfDomain> {
    let mut volume = not_negative("share of the box", share_of_box.value)?;
    for length in lengths {
        volume *= not_negative("length of the block", length.value)?;
    }
    let cubic_metre = not_negative("mass of a cubic metre", cubic_metre.value)?;
    finite("mass of the block", cubic_metre * volume).map(Mass::new::<kilogram>)
}

/// Weight that is left of a body partly under water.
///
/// # Formula
/// `W = m g (1 − s ρ_w/ρ)`, not below 0: mass `m` ≥ 0 (kg), share of its volume under water `s`, 0 to 1, mass of a cubic
/// metre of it `ρ` > 0 (kg), of the water `ρ_w` ≥ 0. At 0 it floats. Water that carries silt carries more: see
/// [`LADEN_WATER`](super::drag::LADEN_WATER).
/// # Errors
/// [`OutOfDomain`] outside these ranges.
/// # References
/// Archimedes; still water.
/// ```
/// use rigging_core::law::ground;
/// use rigging_core::quantity::{Mass, Ratio, kilogram, ratio};
///
/// // Rock of 2500 kg/m³, all under clean water, weighs three fifths.
/// let [rock, cubic_metre, of_water] = [1000.0, 2500.0, 1000.0].map(Mass::new::<kilogram>);
/// let weight = ground::weight_in_water(rock, cubic_metre, Ratio::new::<ratio>(1.0), of_water)?;
/// assert!((weight.value - 600.0 * 9.806_65).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn weight_in_water(
    mass: Mass,
    cubic_metre: Mass,
    under_water: Ratio,
    of_water: Mass,
) -> Result<Force, OutOfDomain> {
    let mass = not_negative("mass", mass.value)?;
    let cubic_metre = positive("mass of a cubic metre", cubic_metre.value)?;
    let share = under_water.value;
    let share = check("share under water", share, (0.0..=1.0).contains(&share), "from 0 to 1")?;
    let water = not_negative("mass of a cubic metre of water", of_water.value)?;
    let left = (1.0 - share * water / cubic_metre).max(0.0);
    finite("weight", weight(Mass::new::<kilogram>(mass)).value * left).map(Force::new::<newton>)
}

/// Rope force at which a body is lifted off the ground.
///
/// # Formula
/// `W cos β / sin a` for a > 0; no limit for a ≤ 0.
/// # Errors
/// [`OutOfDomain`] if W is negative or an angle outside ±90°.
/// # References
/// Balance square to the ground.
/// ```
/// use rigging_core::law::ground::{self, Directions};
/// use rigging_core::quantity::{Angle, Force, degree, newton};
///
/// let weight = Force::new::<newton>(800.0);
/// let rope = |up| Directions { slope: Angle::default(), rope: Angle::new::<degree>(up) };
/// // By hand: 800/sin 30° = 1600 N. A level rope lifts nobody.
/// let lifts = ground::lifts_at(weight, rope(30.0))?;
/// assert!(lifts.is_some_and(|force| (force.value - 1600.0).abs() < 1e-9));
/// assert_eq!(ground::lifts_at(weight, rope(0.0))?, None);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn lifts_at(weight: Force, directions: Directions) -> Result<Option<Force>, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let (slope, _, angle) = directions.checked()?;
    if angle <= 0.0 {
        return Ok(None);
    }
    // A rope almost along the ground lifts only at a force too large for a number: no limit.
    let force = weight * slope.cos() / angle.sin();
    Ok(force.is_finite().then(|| Force::new::<newton>(force)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{degree, metre, ratio};
    use approx::assert_relative_eq;

    fn directions(slope: f64, rope: f64) -> Directions {
        Directions { slope: Angle::new::<degree>(slope), rope: Angle::new::<degree>(rope) }
    }
    fn newtons(value: f64) -> Force {
        Force::new::<newton>(value)
    }
    fn mu(value: f64) -> Ratio {
        Ratio::new::<ratio>(value)
    }

    #[test]
    fn on_the_flat_a_level_rope_moves_a_body_at_friction_times_weight() {
        let slides = slides_at(newtons(800.0), mu(0.4), newtons(0.0), directions(0.0, 0.0)).unwrap().unwrap();
        assert_relative_eq!(slides.value, 320.0, max_relative = 1e-15);
        assert_eq!(lifts_at(newtons(800.0), directions(0.0, 0.0)).unwrap(), None);
    }

    #[test]
    fn beyond_the_angle_of_friction_a_body_holds_nothing() {
        let slides = slides_at(newtons(800.0), mu(0.3), newtons(0.0), directions(17.0, 0.0)).unwrap();
        assert_eq!(slides.unwrap().value, 0.0);
    }

    #[test]
    fn a_rope_that_presses_the_body_down_steeply_cannot_drag_it() {
        let steep = 90.0 - 0.5_f64.atan().to_degrees();
        let at = |rope| slides_at(newtons(800.0), mu(0.5), newtons(0.0), directions(0.0, rope)).unwrap();
        assert_eq!(at(-steep - 0.01), None);
        assert!(at(-steep + 0.01).unwrap().value > 1e6);
    }

    #[test]
    fn at_the_pull_that_slides_it_the_forces_on_a_body_balance() {
        let (weight, friction, push) = (785.0, 0.35, 200.0);
        for (slope, rope) in [(0.0, 0.0), (10.0, -20.0), (-8.0, 30.0)] {
            let pull = slides_at(newtons(weight), mu(friction), newtons(push), directions(slope, rope)).unwrap();
            let pull = pull.unwrap().value;
            let (b, a) = (f64::to_radians(slope), f64::to_radians(slope + rope));
            let pressing = weight * b.cos() - pull * a.sin();
            assert_relative_eq!(pull * a.cos() + weight * b.sin(), friction * pressing + push, max_relative = 1e-12);
        }
    }

    #[test]
    fn a_block_that_leans_too_far_needs_no_rope() {
        let metres = Length::new::<metre>;
        let block = Block {
            centre_behind_edge: metres(0.2),
            centre_height: metres(0.6),
            sling_height: metres(0.3),
            sling_behind_edge: metres(0.1),
        };
        let fall = block_topples_at(newtons(5000.0), &block, directions(20.0, 0.0)).unwrap();
        assert_eq!(fall.unwrap().value, 0.0);
        let flat = block_topples_at(newtons(5000.0), &block, directions(0.0, 0.0)).unwrap().unwrap();
        assert_relative_eq!(flat.value, 5000.0 * 0.2 / 0.3, max_relative = 1e-14);
    }
}
