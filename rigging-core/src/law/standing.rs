//! Whether a person can stand in a current: published limits, and the moments and friction behind them.
//!
//! The limits were measured on level beds or ramps without holes, with people who expected the water. They say when
//! people fell, not that they stood below it.

use super::gravity::STANDARD_GRAVITY;
use super::{OutOfDomain, check, finite, not_negative, positive};
use crate::quantity::{
    DepthTimesSpeed, Force, Length, Mass, MassDensity, Ratio, Velocity, Volume, cubic_metre, metre, metre_per_second,
    newton, ratio, square_metre_per_second,
};
use crate::working::Source;

/// Depth times speed at which people fell in a flume.
///
/// # Formula
/// `h v = 0.0929 (e^{0.001906 L m + 1.09})²` (m²/s): `L` > 0 the height (m), `m` > 0 the mass (kg). Another printed
/// set of numbers gives 8 % less.
/// # Errors
/// [`OutOfDomain`] outside these ranges or if the limit is too large for a number.
/// # References
/// Abt, Wittler, Taylor & Love, *Human stability in a high flood hazard zone*, Water Resources Bulletin 25, 1989.
/// ```
/// use rigging_core::law::standing;
/// use rigging_core::quantity::{Length, Mass, kilogram, metre};
///
/// // By hand, 1.75 m and 75 kg: 0.001906 · 131.25 + 1.09 = 1.3402, e^1.3402 = 3.820, 0.0929 · 3.820² = 1.355.
/// let limit = standing::abt_limit(Length::new::<metre>(1.75), Mass::new::<kilogram>(75.0))?;
/// assert!((limit.value - 1.355).abs() < 0.001);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn abt_limit(height: Length, mass: Mass) -> Result<DepthTimesSpeed, OutOfDomain> {
    let (height, mass) = body(height, mass)?;
    let root = (0.001906 * height * mass + 1.09).exp();
    product(0.0929 * root * root)
}

/// What people have under their feet and see, in Karvonen's words.
/// ```
/// use rigging_core::law::standing::{Conditions, karvonen_limit};
/// use rigging_core::quantity::{Length, Mass, kilogram, metre};
///
/// // From good to poor, by hand: 0.006 · 100 + 0.3 = 0.9, 0.004 · 100 + 0.2 = 0.6, 0.002 · 100 + 0.1 = 0.3.
/// let (height, mass) = (Length::new::<metre>(2.0), Mass::new::<kilogram>(50.0));
/// for (conditions, limit) in Conditions::ALL.into_iter().zip([0.9, 0.6, 0.3]) {
///     assert!((karvonen_limit(height, mass, conditions)?.value - limit).abs() < 1e-12);
/// }
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Conditions {
    /// An even bed, clear and warm water, a fit person with nothing to carry.
    Good,
    /// Neither.
    Ordinary,
    /// A slippery or uneven bed, debris, cold, poor light, a load to carry.
    Poor,
}

impl Conditions {
    /// All of them, from good to poor.
    /// ```
    /// use rigging_core::law::standing::{Conditions, karvonen_limit};
    /// use rigging_core::quantity::{Length, Mass, kilogram, metre};
    ///
    /// // By hand, 1.75 m and 75 kg: 1.0875, 0.725 and 0.3625 m²/s. In the last two, people fell at less than 0.8.
    /// let (height, mass) = (Length::new::<metre>(1.75), Mass::new::<kilogram>(75.0));
    /// let fell = |conditions| karvonen_limit(height, mass, conditions).is_ok_and(|limit| limit.value < 0.8);
    /// assert_eq!(Conditions::ALL.map(fell), [false, true, true]);
    /// ```
    pub const ALL: [Conditions; 3] = [Conditions::Good, Conditions::Ordinary, Conditions::Poor];

    /// How the limit for these conditions is known.
    /// ```
    /// use rigging_core::law::standing::Conditions;
    /// use rigging_core::working::Known;
    ///
    /// // Only the limit for ordinary conditions was read.
    /// let known = Conditions::ALL.map(|conditions| conditions.source().known);
    /// assert_eq!(known, [Known::Memory, Known::Published, Known::Memory]);
    /// ```
    pub const fn source(self) -> Source {
        match self {
            Conditions::Ordinary => Source::published("Karvonen and others 2000"),
            Conditions::Good | Conditions::Poor => Source::memory("Karvonen and others 2000"),
        }
    }
}

/// Depth times speed at which trained people fell in rescue trials.
///
/// # Formula
/// `h v = a L m + b` (m²/s): `L` > 0 the height (m), `m` > 0 the mass (kg); `a`, `b` 0.006, 0.3 in good conditions,
/// 0.004, 0.2 in ordinary and 0.002, 0.1 in poor ones.
/// # Errors
/// [`OutOfDomain`] outside these ranges or if the limit is too large for a number.
/// # References
/// Karvonen and others, *The use of physical models in dam-break flood analysis* (RESCDAM), 2000: ordinary; good and
/// poor from memory.
/// ```
/// use rigging_core::law::standing::{Conditions, karvonen_limit};
/// use rigging_core::quantity::{Length, Mass, kilogram, metre};
///
/// // By hand, 1.75 m and 75 kg: 0.004 · 131.25 + 0.2 = 0.725.
/// let (height, mass) = (Length::new::<metre>(1.75), Mass::new::<kilogram>(75.0));
/// assert!((karvonen_limit(height, mass, Conditions::Ordinary)?.value - 0.725).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn karvonen_limit(height: Length, mass: Mass, conditions: Conditions) -> Result<DepthTimesSpeed, OutOfDomain> {
    let (height, mass) = body(height, mass)?;
    let times = match conditions {
        Conditions::Good => 1.5,
        Conditions::Ordinary => 1.0,
        Conditions::Poor => 0.5,
    };
    product(times * (0.004 * height * mass + 0.2))
}

/// For whom a limit of Cox, Shand and Blacka is: AR&R project 10, 2010, read second-hand (CC BY 4.0).
/// ```
/// use rigging_core::law::standing::Wader;
///
/// // The most careful first: each may have more depth times speed than the one before.
/// let products = Wader::ALL.map(|wader| wader.limits().product.value);
/// assert_eq!(products, [0.4, 0.6, 0.8, 1.2]);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wader {
    /// Children: more is dangerous for them.
    Child,
    /// Adults, low hazard up to here.
    Adult,
    /// Trained people with equipment, the most to work in.
    Trained,
    /// Adults, extreme hazard from here.
    Extreme,
}

/// What the water may not exceed: one of the three is enough.
/// ```
/// use rigging_core::law::standing::Wader;
/// use rigging_core::quantity::{Length, Velocity, metre, metre_per_second};
///
/// // 0.7 m of water at 0.5 m/s: 0.35 m²/s is not too much for a child, but the depth is.
/// let (depth, speed) = (Length::new::<metre>(0.7), Velocity::new::<metre_per_second>(0.5));
/// let limits = Wader::Child.limits();
/// assert!(depth * speed < limits.product && speed < limits.speed && depth > limits.depth);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Depth times speed.
    pub product: DepthTimesSpeed,
    /// Depth.
    pub depth: Length,
    /// Speed.
    pub speed: Velocity,
}

impl Wader {
    /// All of them, the most careful first.
    /// ```
    /// use rigging_core::law::standing::Wader;
    /// use rigging_core::quantity::{Length, Velocity, metre, metre_per_second};
    ///
    /// // 0.7 m of water at 1 m/s is above two of the limits, 0.4 and 0.6 m²/s. None says that people stand below it.
    /// let (depth, speed) = (Length::new::<metre>(0.7), Velocity::new::<metre_per_second>(1.0));
    /// let above = Wader::ALL.into_iter().filter(|wader| depth * speed > wader.limits().product);
    /// assert_eq!(above.collect::<Vec<_>>(), [Wader::Child, Wader::Adult]);
    /// ```
    pub const ALL: [Wader; 4] = [Wader::Child, Wader::Adult, Wader::Trained, Wader::Extreme];

    /// The limits: depth times speed 0.4, 0.6, 0.8 and 1.2 m²/s, depth 1.2 m (children 0.5), speed 3 m/s.
    /// ```
    /// use rigging_core::law::standing::Wader;
    ///
    /// let (child, adult) = (Wader::Child.limits(), Wader::Adult.limits());
    /// assert_eq!((child.depth.value, adult.depth.value), (0.5, 1.2));
    /// assert_eq!((child.speed.value, adult.speed.value), (3.0, 3.0));
    /// ```
    pub fn limits(self) -> Limits {
        let (product, depth) = match self {
            Wader::Child => (0.4, 0.5),
            Wader::Adult => (0.6, 1.2),
            Wader::Trained => (0.8, 1.2),
            Wader::Extreme => (1.2, 1.2),
        };
        Limits {
            product: DepthTimesSpeed::new::<square_metre_per_second>(product),
            depth: Length::new::<metre>(depth),
            speed: Velocity::new::<metre_per_second>(3.0),
        }
    }
}

/// A body that stands in water as a board of even breadth, from the bed to the surface.
/// ```
/// use rigging_core::law::standing::{Board, topples_in_water};
/// use rigging_core::quantity::{Force, Length, MassDensity, Ratio, kilogram_per_cubic_metre, metre, newton, ratio};
///
/// let [breadth, depth, twice, arm] = [0.4, 0.5, 1.0, 0.15].map(Length::new::<metre>);
/// let (weight, coefficient) = (Force::new::<newton>(600.0), Ratio::new::<ratio>(1.2));
/// let density = MassDensity::new::<kilogram_per_cubic_metre>(1000.0);
/// let board = Board { weight, breadth, coefficient, density, depth };
/// // It is depth times speed that topples: at twice the depth half the speed is enough.
/// let (shallow, deep) = (topples_in_water(&board, arm)?, topples_in_water(&Board { depth: twice, ..board }, arm)?);
/// assert!((shallow / deep - Ratio::new::<ratio>(2.0)).value.abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Board {
    /// Weight on the bed, less what the water carries: see [`apparent_weight`]; ≥ 0.
    pub weight: Force,
    /// Breadth across the current, > 0.
    pub breadth: Length,
    /// Drag coefficient, > 0.
    pub coefficient: Ratio,
    /// Density of the water, > 0.
    pub density: MassDensity,
    /// Depth of the water, > 0.
    pub depth: Length,
}

impl Board {
    /// Weight over what a speed of 1 m/s does to a metre of depth.
    fn weight_to_drag(&self) -> Result<(f64, f64), OutOfDomain> {
        let weight = not_negative("apparent weight", self.weight.value)?;
        let breadth = positive("breadth", self.breadth.value)?;
        let coefficient = positive("drag coefficient", self.coefficient.value)?;
        let density = positive("density of the water", self.density.value)?;
        let depth = positive("depth of the water", self.depth.value)?;
        finite("weight over drag", weight / (density / 2.0 * coefficient * breadth)).map(|per_depth| (per_depth, depth))
    }
}

/// Speed at which the water pushes a person's feet away.
///
/// # Formula
/// `h v² = 2 μ W_a/(ρ C_d b)`, given as v: `μ` ≥ 0 the friction of the feet, the rest as in [`Board`].
/// # Errors
/// [`OutOfDomain`] outside these ranges or if the speed is too large for a number.
/// # References
/// Drag `½ ρ C_d b h v²` against friction `μ W_a`; form after Jonkman & Penning-Rowsell 2008 (from memory).
/// ```
/// use rigging_core::law::standing::{Board, slides_in_water};
/// use rigging_core::quantity::{Force, Length, MassDensity, Ratio, kilogram_per_cubic_metre, metre, newton, ratio};
///
/// // By hand: h v² = 2 · 0.5 · 500/(1000 · 1 · 0.5) = 1, so 2 m/s where it is 0.25 m deep.
/// let [breadth, depth] = [0.5, 0.25].map(Length::new::<metre>);
/// let (weight, coefficient) = (Force::new::<newton>(500.0), Ratio::new::<ratio>(1.0));
/// let density = MassDensity::new::<kilogram_per_cubic_metre>(1000.0);
/// let board = Board { weight, breadth, coefficient, density, depth };
/// assert!((slides_in_water(&board, Ratio::new::<ratio>(0.5))?.value - 2.0).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn slides_in_water(board: &Board, friction: Ratio) -> Result<Velocity, OutOfDomain> {
    let friction = not_negative("friction", friction.value)?;
    let (weight, depth) = board.weight_to_drag()?;
    finite("sliding speed", (friction * weight / depth).sqrt()).map(Velocity::new::<metre_per_second>)
}

/// Speed at which the water topples a person.
///
/// # Formula
/// `h v = √(4 d W_a/(ρ C_d b))`, given as v: `d` ≥ 0 the level distance from the weight to the downstream edge of the
/// feet (m), the rest as in [`Board`].
/// # Errors
/// [`OutOfDomain`] outside these ranges or if the speed is too large for a number.
/// # References
/// Moments about the downstream edge: drag at half the depth against `d W_a`; form after Jonkman & Penning-Rowsell
/// 2008 (from memory).
/// ```
/// use rigging_core::law::standing::{Board, topples_in_water};
/// use rigging_core::quantity::{Force, Length, MassDensity, Ratio, kilogram_per_cubic_metre, metre, newton, ratio};
///
/// // By hand: h v = √(4 · 0.125 · 250/(1000 · 1 · 0.5)) = 0.5, so 2 m/s where it is 0.25 m deep.
/// let [breadth, depth, arm] = [0.5, 0.25, 0.125].map(Length::new::<metre>);
/// let (weight, coefficient) = (Force::new::<newton>(250.0), Ratio::new::<ratio>(1.0));
/// let density = MassDensity::new::<kilogram_per_cubic_metre>(1000.0);
/// let board = Board { weight, breadth, coefficient, density, depth };
/// assert!((topples_in_water(&board, arm)?.value - 2.0).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn topples_in_water(board: &Board, weight_before_edge: Length) -> Result<Velocity, OutOfDomain> {
    let arm = not_negative("distance of the weight from the feet's edge", weight_before_edge.value)?;
    let (weight, depth) = board.weight_to_drag()?;
    finite("toppling speed", (2.0 * arm * weight).sqrt() / depth).map(Velocity::new::<metre_per_second>)
}

/// Which of Xia's two fits.
/// ```
/// use rigging_core::law::standing::{Curve, xia_topple_speed};
/// use rigging_core::quantity::{Length, Mass, kilogram, metre};
///
/// // By hand, high over low: 7.867/3.472 = 2.266 times x^(0.462 − 0.188): 1.206 at x = 1/10, 0.938 at x = 1/25.
/// let (height, mass) = (Length::new::<metre>(1.75), Mass::new::<kilogram>(75.0));
/// for (part, ratio) in [(10.0, 1.206), (25.0, 0.938)] {
///     let falls = |curve| xia_topple_speed(height / part, height, mass, curve);
///     assert!(((falls(Curve::High)? / falls(Curve::Low)?).value - ratio).abs() < 0.001);
/// }
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Curve {
    /// α 3.472, β 0.188: to people in a flume. The lower one from a twentieth of the height on.
    Low,
    /// α 7.867, β 0.462: to a scaled model of a body.
    High,
}

/// Speed at which the water topples a person, the body's own shape counted.
///
/// # Formula
/// `U = α (h/L)^β √(m/(ρ h²) − (0.633/L² + 0.367/(h L)) V)` (m/s), `V = 1.015e-3 m − 4.937e-3`: `h` the depth,
/// 0 < h ≤ `L`, `L` the height (m), `m` the mass (kg), ρ = 1000 kg/m³; α (√m/s) and β of the [`Curve`]. 0 where the
/// body floats.
/// # Errors
/// [`OutOfDomain`] outside these ranges, where V is not above 0, or if U is too large for a number.
/// # References
/// Xia, Falconer, Wang & Xiao, *New criterion for the stability of a human body in floodwaters*, Journal of Hydraulic
/// Research 52, 2014.
/// ```
/// use rigging_core::law::standing::{Curve, xia_topple_speed};
/// use rigging_core::quantity::{Length, Mass, kilogram, metre};
///
/// // By hand, 75 kg, so V = 0.071188, and x = 0.5/1.75: √(0.075/0.25 − (0.633/1.75² + 0.367/0.875) 0.071188) = 0.5054,
/// // 3.472 · x^0.188 · 0.5054 = 1.387.
/// let [depth, height] = [0.5, 1.75].map(Length::new::<metre>);
/// let falls = xia_topple_speed(depth, height, Mass::new::<kilogram>(75.0), Curve::Low)?;
/// assert!((falls.value - 1.387).abs() < 0.001);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn xia_topple_speed(depth: Length, height: Length, mass: Mass, curve: Curve) -> Result<Velocity, OutOfDomain> {
    const DENSITY: f64 = super::drag::CLEAN_WATER;
    let volume = body_volume(mass)?.value;
    let depth = positive("depth of the water", depth.value)?;
    let (height, mass) = body(height, mass)?;
    let share = submerged_share(Ratio::new::<ratio>(depth / height))?.value;
    let (alpha, beta) = match curve {
        Curve::Low => (3.472, 0.188),
        Curve::High => (7.867, 0.462),
    };
    // The bracket is (m/ρ − share · V)/h²: what the body weighs in the water. A power by logarithm is smaller.
    let left = (mass / DENSITY - share * volume).max(0.0).sqrt() / depth;
    let shape = ((depth / height).ln() * beta).exp();
    finite("toppling speed", alpha * shape * left).map(Velocity::new::<metre_per_second>)
}

/// Share of a person's volume that is under water.
///
/// # Formula
/// `0.633 x² + 0.367 x`, `x` the depth over the height, 0 to 1.
/// # Errors
/// [`OutOfDomain`] outside this range.
/// # References
/// Xia, Falconer, Wang & Xiao 2014, from measures of bodies.
/// ```
/// use rigging_core::law::standing;
/// use rigging_core::quantity::{Ratio, ratio};
///
/// // By hand, up to half the height: 0.633/4 + 0.367/2 = 0.34175. Up to the top all is under water.
/// assert!((standing::submerged_share(Ratio::new::<ratio>(0.5))?.value - 0.34175).abs() < 1e-12);
/// assert!((standing::submerged_share(Ratio::new::<ratio>(1.0))?.value - 1.0).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn submerged_share(depth_over_height: Ratio) -> Result<Ratio, OutOfDomain> {
    let x = depth_over_height.value;
    let x = check("depth over height", x, (0.0..=1.0).contains(&x), "from 0 to 1")?;
    Ok(Ratio::new::<ratio>(x * (0.633 * x + 0.367)))
}

/// Volume of a person.
///
/// # Formula
/// `V = 1.015e-3 m − 4.937e-3` (m³), `m` the mass (kg), so large that V is above 0.
/// # Errors
/// [`OutOfDomain`] outside this range.
/// # References
/// Xia, Falconer, Wang & Xiao 2014, from measures of bodies.
/// ```
/// use rigging_core::law::standing;
/// use rigging_core::quantity::{Mass, kilogram};
///
/// // 60 kg displace 56 litres.
/// let volume = standing::body_volume(Mass::new::<kilogram>(60.0))?;
/// assert!((volume.value - 0.056).abs() < 5e-5);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn body_volume(mass: Mass) -> Result<Volume, OutOfDomain> {
    let volume = finite("mass", mass.value)? * 1.015e-3 - 4.937e-3;
    check("mass", mass.value, volume > 0.0, "that of a person, above 4.864 kg")?;
    Ok(Volume::new::<cubic_metre>(volume))
}

/// What is left of a person's weight on the bed of the water.
///
/// # Formula
/// `W_a = W − ρ g V s − A`, not below 0: `W` ≥ 0 the weight with all that is worn (N), `ρ` > 0 the density of the
/// water (kg/m³), `V` ≥ 0 the body's volume (m³), `s` its share under water, `A` ≥ 0 the buoyancy of suit and aid (N).
/// # Errors
/// [`OutOfDomain`] outside these ranges or if the buoyancy is too large for a number.
/// # References
/// Archimedes.
/// ```
/// use rigging_core::law::standing::apparent_weight;
/// use rigging_core::quantity::{Force, MassDensity, Ratio, Volume};
/// use rigging_core::quantity::{cubic_metre, kilogram_per_cubic_metre, newton, ratio};
///
/// // By hand, half of 0.08 m³ under water, 50 N of suit: 800 − 1000 · 9.80665 · 0.04 − 50 = 357.734.
/// let (water, body) = (MassDensity::new::<kilogram_per_cubic_metre>(1000.0), Volume::new::<cubic_metre>(0.08));
/// let (weight, suit) = (Force::new::<newton>(800.0), Force::new::<newton>(50.0));
/// let left = |share| apparent_weight(weight, water, body, Ratio::new::<ratio>(share), suit);
/// assert!((left(0.5)?.value - 357.734).abs() < 1e-9);
/// // All under water it floats: 784.532 + 50 is more than 800.
/// assert_eq!(left(1.0)?.value, 0.0);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn apparent_weight(
    weight: Force,
    density: MassDensity,
    volume: Volume,
    share: Ratio,
    flotation: Force,
) -> Result<Force, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let density = positive("density of the water", density.value)?;
    let volume = not_negative("volume", volume.value)?;
    let share = check("share under water", share.value, (0.0..=1.0).contains(&share.value), "from 0 to 1")?;
    let flotation = not_negative("buoyancy of suit and aid", flotation.value)?;
    let carried = finite("buoyancy", density * STANDARD_GRAVITY * volume * share + flotation)?;
    Ok(Force::new::<newton>((weight - carried).max(0.0)))
}

/// Height (m) and mass (kg), both above 0.
fn body(height: Length, mass: Mass) -> Result<(f64, f64), OutOfDomain> {
    Ok((positive("height", height.value)?, positive("mass", mass.value)?))
}

fn product(value: f64) -> Result<DepthTimesSpeed, OutOfDomain> {
    finite("depth times speed", value).map(DepthTimesSpeed::new::<square_metre_per_second>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::kilogram;

    fn person() -> (Length, Mass) {
        (Length::new::<metre>(1.75), Mass::new::<kilogram>(75.0))
    }

    #[test]
    fn published_limits_come_out() {
        // Rows W2, W3, W8 of the check values.
        let (height, mass) = person();
        assert!((abt_limit(height, mass).unwrap().value - 1.355).abs() < 0.001);
        assert!((karvonen_limit(height, mass, Conditions::Ordinary).unwrap().value - 0.725).abs() < 1e-12);
        for (curve, speed) in [(Curve::Low, 1.387), (Curve::High, 2.229)] {
            let falls = xia_topple_speed(Length::new::<metre>(0.5), height, mass, curve).unwrap();
            assert!((falls.value - speed).abs() < 0.001, "{}", falls.value);
        }
    }

    #[test]
    fn karvonen_good_and_poor_are_as_recalled() {
        // 0.006 L m + 0.3 and 0.002 L m + 0.1 (Karvonen 2000, from memory).
        let (height, mass) = person();
        for (conditions, limit) in [(Conditions::Good, 1.0875), (Conditions::Poor, 0.3625)] {
            assert!((karvonen_limit(height, mass, conditions).unwrap().value - limit).abs() < 1e-12);
        }
    }

    #[test]
    fn the_mass_at_which_the_fit_leaves_no_volume_is_none_of_a_person() {
        // By hand: 4.937/1.015 = 4.864 kg, to the last digit.
        let edge = 4.937e-3 / 1.015e-3;
        assert_eq!(edge * 1.015e-3 - 4.937e-3, 0.0);
        let volume = |mass| body_volume(Mass::new::<kilogram>(mass));
        assert!(volume(edge).is_err() && volume(4.87).is_ok_and(|volume| volume.value > 0.0));
    }

    #[test]
    fn a_body_that_floats_is_toppled_by_any_current() {
        // The fitted volume of 10 t is larger than what 10 t displace; that of a person is not.
        let tall = Length::new::<metre>(1.9);
        let falls = |mass| xia_topple_speed(tall, tall, Mass::new::<kilogram>(mass), Curve::High).unwrap().value;
        assert!(falls(40.0) > 0.0);
        assert_eq!(falls(1e4), 0.0);
    }
}
