//! A living tree that is pulled sideways: it tips over with its roots, or its stem breaks.
//!
//! Regressions of foresters who winched trees over, their slings metres up. One tree of a kind and a size is between
//! 0.58 (5 in 100) and 1.73 times (95 in 100) what they say ([`SCATTER`]). None of it is a strength: it is the most
//! that a sound tree on such ground was found to do.

use super::{OutOfDomain, check, finite, not_negative};
use crate::quantity::{Force, Length, Mass, Ratio, Torque, kilogram, metre, newton, newton_metre};
use std::f64::consts::PI;

/// A kind of tree that the regressions hold for.
/// ```
/// use rigging_core::law::tree::{Soil, Species, tips_over};
/// use rigging_core::quantity::{Mass, kilogram};
///
/// // Nicoll et al. 2006 and follow-ups: N·m for each kilogram of stem on draining soil.
/// let printed = [126.0, 153.0, 140.0, 198.0, 198.0];
/// for (species, moment) in Species::ALL.into_iter().zip(printed) {
///     assert_eq!(tips_over(species, Soil::Draining, Mass::new::<kilogram>(1.0))?.value, moment);
/// }
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Species {
    /// Norway spruce.
    NorwaySpruce,
    /// Sitka spruce.
    SitkaSpruce,
    /// Scots pine.
    ScotsPine,
    /// Beech.
    Beech,
    /// Oak.
    Oak,
}

/// What its roots grow in.
/// ```
/// use rigging_core::law::tree::{Soil, Species, tips_over};
/// use rigging_core::quantity::{Mass, kilogram};
///
/// // Wet or shallow ground holds every kind less.
/// let stem = Mass::new::<kilogram>(200.0);
/// for species in Species::ALL {
///     assert!(tips_over(species, Soil::Gleyed, stem)? < tips_over(species, Soil::Draining, stem)?);
/// }
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Soil {
    /// Deep soil from which water drains.
    Draining,
    /// Wet or shallow soil (gleyed).
    Gleyed,
}

impl Species {
    /// Every kind.
    /// ```
    /// use rigging_core::law::tree::{Species, stem_breaks};
    /// use rigging_core::quantity::{Length, metre};
    ///
    /// // Whoever does not know the kind takes the one that breaks first. By hand, 10 cm of Norway spruce:
    /// // π/32 · 0.90 · 36e6 · 0.1³ = 3180.9.
    /// let mut least = f64::INFINITY;
    /// for species in Species::ALL {
    ///     least = least.min(stem_breaks(species, Length::new::<metre>(0.1))?.value);
    /// }
    /// assert!((least - 3180.9).abs() < 0.05);
    /// # Ok::<(), rigging_core::law::OutOfDomain>(())
    /// ```
    pub const ALL: [Species; 5] =
        [Species::NorwaySpruce, Species::SitkaSpruce, Species::ScotsPine, Species::Beech, Species::Oak];

    /// Moment about the foot that tips it over, for each kilogram of green stem, N·m/kg.
    fn moment_of_a_kilogram(self, soil: Soil) -> f64 {
        let (draining, gleyed) = match self {
            Species::NorwaySpruce => (126.0, 112.0),
            Species::SitkaSpruce => (153.0, 136.0),
            Species::ScotsPine => (140.0, 124.0),
            Species::Beech | Species::Oak => (198.0, 176.0),
        };
        if soil == Soil::Draining { draining } else { gleyed }
    }

    /// Bending strength of green wood, Pa, and what knots leave of it.
    fn bending_strength(self) -> (f64, f64) {
        match self {
            Species::NorwaySpruce => (36e6, 0.90),
            Species::SitkaSpruce => (34e6, 1.0),
            Species::ScotsPine => (46e6, 0.85),
            Species::Beech => (65e6, 1.0),
            Species::Oak => (59e6, 1.0),
        }
    }

    /// Factor and powers of diameter (cm) and height (m) in the volume of the stem (m³); mass of a cubic metre, kg.
    fn stem(self) -> ([f64; 3], f64) {
        const SPRUCE: [f64; 3] = [6.8e-5, 1.827_421, 0.981_362];
        const PINE: [f64; 3] = [8.6e-5, 1.634_205, 1.079_539];
        match self {
            Species::NorwaySpruce | Species::SitkaSpruce => (SPRUCE, 850.0),
            Species::ScotsPine => (PINE, 850.0),
            Species::Beech | Species::Oak => (PINE, 1158.0),
        }
    }
}

/// How one tree scatters about the regressions: what 5 and 95 in 100 stay below, and the middle.
///
/// # References
/// Detter et al. 2023, worked out from their scatter.
/// ```
/// use rigging_core::law::tree::{SCATTER, pulls_at};
/// use rigging_core::quantity::{Length, Ratio, Torque, metre, newton_metre, ratio};
///
/// // By hand, 10 000 N m and a sling at 1 m: 5 in 100 such trees tip over below 5800 N, 95 in 100 below 17 300 N.
/// let moment = Torque::new::<newton_metre>(10_000.0);
/// for (scatter, pull) in SCATTER.into_iter().zip([5800.0, 10_000.0, 17_300.0]) {
///     let pulls = pulls_at(moment, moment, [scatter, 1.0].map(Ratio::new::<ratio>), Length::new::<metre>(1.0))?;
///     assert!((pulls.tips.value - pull).abs() < 1e-9);
/// }
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub const SCATTER: [f64; 3] = [0.58, 1.0, 1.73];

/// Least and largest diameter that is asked for: about that of the trees that were winched over (assumed).
/// ```
/// use rigging_core::law::tree::{DIAMETERS, usual_height};
/// use rigging_core::quantity::{Length, metre};
///
/// // Both ends belong to it, by hand 1 + 65 · 0.05 = 4.25 and 1 + 65 · 0.6 = 40; a tree a little thicker is refused.
/// let height = |diameter| usual_height(Length::new::<metre>(diameter));
/// let [least, most] = DIAMETERS;
/// assert!((height(least)?.value - 4.25).abs() < 1e-9 && (height(most)?.value - 40.0).abs() < 1e-9);
/// assert!(height(least - 0.001).is_err() && height(most + 0.001).is_err());
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub const DIAMETERS: [f64; 2] = [0.05, 0.60];
/// The tallest.
const TALLEST: f64 = 50.0;
/// The least height at which a sling counts: nobody winched a tree over by a lower one (assumed).
const LEAST_SLING: f64 = 1.0;
/// Share of the moment that breaks the stem which a pull may reach.
const OF_BREAKING: f64 = 0.67;

fn diameter_in_domain(diameter: Length) -> Result<f64, OutOfDomain> {
    let [least, most] = DIAMETERS;
    let value = diameter.get::<metre>();
    check("diameter of the stem", value, (least..=most).contains(&value), "from 0.05 to 0.60 m")
}

/// Height that a tree of a diameter usually has in a wood.
///
/// # Formula
/// `H = 1 m + 65 D`, `D` the diameter of the stem (m), 0.05 to 0.60 m.
/// # Errors
/// [`OutOfDomain`] if D is outside its range.
/// # References
/// Assumed: a straight line through trees grown close together. Trees in the open are shorter.
/// ```
/// use rigging_core::law::tree;
/// use rigging_core::quantity::{Length, metre};
///
/// // By hand: 1 + 65 · 0.2 = 14.
/// assert!((tree::usual_height(Length::new::<metre>(0.2))?.value - 14.0).abs() < 1e-12);
/// // Nobody winched thicker ones over.
/// assert_eq!(tree::usual_height(Length::new::<metre>(0.7)).unwrap_err().what, "diameter of the stem");
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn usual_height(diameter: Length) -> Result<Length, OutOfDomain> {
    Ok(Length::new::<metre>(1.0 + 65.0 * diameter_in_domain(diameter)?))
}

/// Mass of the green stem.
///
/// # Formula
/// `m = ρ a D^b H^c`: diameter at breast height `D` in cm, height `H` in m; spruce a 6.8e-5, b 1.827421, c 0.981362;
/// pine, beech and oak 8.6e-5, 1.634205, 1.079539; green density ρ 850, beech and oak 1158 kg/m³. D from 0.05 to
/// 0.60 m, 0 < H ≤ 50 m.
/// # Errors
/// [`OutOfDomain`] outside these ranges.
/// # References
/// Fonweban et al. 2012 (volume); Nicoll et al. 2006 and follow-ups (density).
/// ```
/// use rigging_core::law::tree::{Species, stem_mass};
/// use rigging_core::quantity::{Length, metre};
///
/// // By hand, Scots pine of 10 cm and 7.5 m: 850 · 8.6e-5 · 10^1.634205 · 7.5^1.079539 = 27.72.
/// let mass = stem_mass(Species::ScotsPine, Length::new::<metre>(0.1), Length::new::<metre>(7.5))?;
/// assert!((mass.value - 27.72).abs() < 0.005);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn stem_mass(species: Species, diameter: Length, height: Length) -> Result<Mass, OutOfDomain> {
    let diameter = diameter_in_domain(diameter)?;
    let height = height.get::<metre>();
    let height = check("height of the tree", height, height > 0.0 && height <= TALLEST, "above 0, up to 50 m")?;
    let ([factor, with_diameter, with_height], density) = species.stem();
    let volume = factor * (100.0 * diameter).powf(with_diameter) * height.powf(with_height);
    Ok(Mass::new::<kilogram>(density * volume))
}

/// Moment about its foot at which a tree tips over with its roots.
///
/// # Formula
/// `M = C m` where `m` ≥ 0 is the mass of the green stem (kg) and `C`, on draining and on gleyed soil, 126 and 112
/// (Norway spruce), 153 and 136 (Sitka spruce), 140 and 124 (Scots pine), 198 and 176 N·m/kg (beech, oak).
/// # Errors
/// [`OutOfDomain`] if m is negative or M too large for a number.
/// # References
/// Nicoll et al. 2006 and follow-ups: trees winched over.
/// ```
/// use rigging_core::law::tree::{Soil, Species, tips_over};
/// use rigging_core::quantity::{Mass, kilogram};
///
/// // By hand, Norway spruce on gleyed soil: 112 · 100 = 11 200.
/// let moment = tips_over(Species::NorwaySpruce, Soil::Gleyed, Mass::new::<kilogram>(100.0))?;
/// assert!((moment.value - 11_200.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn tips_over(species: Species, soil: Soil, stem: Mass) -> Result<Torque, OutOfDomain> {
    let stem = not_negative("mass of the stem", stem.value)?;
    finite("moment that tips it over", species.moment_of_a_kilogram(soil) * stem).map(Torque::new::<newton_metre>)
}

/// Moment at which the stem breaks at its foot.
///
/// # Formula
/// `M = π/32 f MOR D³`: diameter `D` from 0.05 to 0.60 m; green bending strength `MOR` and what knots leave of it `f`:
/// Norway spruce 36 MPa, 0.90; Sitka spruce 34, 1; Scots pine 46, 0.85; beech 65, 1; oak 59, 1.
/// # Errors
/// [`OutOfDomain`] if D is outside its range.
/// # References
/// Nicoll et al. 2006 and follow-ups; bending of a round bar.
/// ```
/// use rigging_core::law::tree::{Species, stem_breaks};
/// use rigging_core::quantity::{Length, metre};
///
/// // By hand, Scots pine of 10 cm: π/32 · 0.85 · 46e6 · 0.1³ = 3838.6. Twice as thick takes eight times that.
/// let breaks = |diameter| stem_breaks(Species::ScotsPine, Length::new::<metre>(diameter));
/// assert!((breaks(0.1)?.value - 3838.6).abs() < 0.05);
/// assert!((breaks(0.2)?.value - 8.0 * breaks(0.1)?.value).abs() < 1e-6);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn stem_breaks(species: Species, diameter: Length) -> Result<Torque, OutOfDomain> {
    let diameter = diameter_in_domain(diameter)?;
    let (strength, knots) = species.bending_strength();
    Ok(Torque::new::<newton_metre>(PI / 32.0 * knots * strength * diameter.powi(3)))
}

/// A level pull on a sling by which a tree reaches its moments.
/// ```
/// use rigging_core::law::tree::Pulls;
/// use rigging_core::quantity::{Force, newton};
///
/// let [less, more] = [2000.0, 3000.0].map(Force::new::<newton>);
/// // Whichever comes first.
/// assert_eq!(Pulls { tips: less, strains: more }.least(), less);
/// assert_eq!(Pulls { tips: more, strains: less }.least(), less);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pulls {
    /// It tips over with its roots.
    pub tips: Force,
    /// Its stem carries two thirds of the moment that breaks it.
    pub strains: Force,
}

impl Pulls {
    /// The lesser of the two.
    /// ```
    /// use rigging_core::law::tree::pulls_at;
    /// use rigging_core::quantity::{Length, Ratio, Torque, metre, newton_metre, ratio};
    ///
    /// // This stem counts less than its roots. By hand, a sling at 1 m: 0.67 · 3000 = 2010, not 10 000.
    /// let [over, breaks] = [10_000.0, 3000.0].map(Torque::new::<newton_metre>);
    /// let pulls = pulls_at(over, breaks, [1.0, 1.0].map(Ratio::new::<ratio>), Length::new::<metre>(1.0))?;
    /// assert!((pulls.least().value - 2010.0).abs() < 1e-9);
    /// # Ok::<(), rigging_core::law::OutOfDomain>(())
    /// ```
    pub fn least(self) -> Force {
        self.tips.min(self.strains)
    }
}

/// Level pulls on a sling at which a tree tips over, and at which its stem carries all that may be reckoned with.
///
/// # Formula
/// `k s M_over / max(h, 1 m)` and `0.67 M_break / max(h, 1 m)`: moments (N·m) ≥ 0, `k` the scatter of one tree ≥ 0, `s`
/// what the place leaves of the roots, 0 to 1, `h` ≥ 0 the height of the sling (m), counted at 1 m or higher.
/// # Errors
/// [`OutOfDomain`] if one of them is outside its range.
/// # References
/// Moments about the foot. The floor of 1 m is assumed: no test with a lower sling is known.
/// ```
/// use rigging_core::law::tree::pulls_at;
/// use rigging_core::quantity::{Length, Ratio, Torque, metre, newton_metre, ratio};
///
/// // By hand, a sling at 2 m: 0.58 · 0.5 · 10 000/2 = 1450, 0.67 · 10 000/2 = 3350. At 0.3 m it counts as at 1 m.
/// let (moment, by) = (Torque::new::<newton_metre>(10_000.0), [0.58, 0.5].map(Ratio::new::<ratio>));
/// let at = |height| pulls_at(moment, moment, by, Length::new::<metre>(height));
/// assert!((at(2.0)?.tips.value - 1450.0).abs() < 1e-9 && (at(2.0)?.strains.value - 3350.0).abs() < 1e-9);
/// assert_eq!(at(0.3)?, at(1.0)?);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn pulls_at(over: Torque, breaks: Torque, by: [Ratio; 2], sling: Length) -> Result<Pulls, OutOfDomain> {
    let [scatter, site] = by;
    let over = not_negative("moment that tips it over", over.value)?;
    let breaks = not_negative("moment that breaks it", breaks.value)?;
    let scatter = not_negative("scatter of one tree", scatter.value)?;
    let site = check("what the place leaves", site.value, (0.0..=1.0).contains(&site.value), "from 0 to 1")?;
    let sling = not_negative("height of the sling", sling.value)?;
    let by = |moment: f64| Force::new::<newton>(moment / sling.max(LEAST_SLING));
    Ok(Pulls { tips: by(finite("moment", scatter * site * over)?), strains: by(OF_BREAKING * breaks) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::ratio;

    fn pull(species: Species, soil: Soil, diameter: f64, scatter: f64, sling: f64) -> f64 {
        let stem = Length::new::<metre>(diameter);
        let mass = stem_mass(species, stem, usual_height(stem).unwrap()).unwrap();
        let (over, breaks) = (tips_over(species, soil, mass).unwrap(), stem_breaks(species, stem).unwrap());
        let by = [scatter, 1.0].map(Ratio::new::<ratio>);
        pulls_at(over, breaks, by, Length::new::<metre>(sling)).unwrap().least().value
    }

    #[test]
    fn a_sling_lower_than_a_metre_counts_as_one_at_a_metre() {
        let at = |sling| pull(Species::NorwaySpruce, Soil::Gleyed, 0.2, 1.0, sling);
        assert_eq!(at(0.0), at(1.0));
        assert!((at(2.0) / at(1.0) - 0.5).abs() < 1e-15);
    }

    #[test]
    fn a_thin_stem_breaks_before_a_lucky_tree_tips_over() {
        // By hand, Scots pine of 10 cm on draining soil: m = 850 × 8.6e-5 × 10^1.634205 × 7.5^1.079539 = 27.72 kg;
        // 1.73 × 140 × 27.72 = 6713 N·m; π/32 × 0.85 × 46e6 × 0.1³ = 3839 N·m, of it 0.67.
        let pine = pull(Species::ScotsPine, Soil::Draining, 0.1, 1.73, 1.0);
        assert!((pine - 0.67 * 3838.6).abs() < 1.0, "{pine}");
    }

    #[test]
    fn wet_ground_holds_every_kind_less() {
        for species in Species::ALL {
            assert!(pull(species, Soil::Gleyed, 0.2, 0.58, 1.0) < pull(species, Soil::Draining, 0.2, 0.58, 1.0));
        }
    }

    #[test]
    fn trees_that_nobody_winched_over_are_refused() {
        for diameter in [0.0, 0.049, 0.61, f64::NAN] {
            let stem = Length::new::<metre>(diameter);
            assert!(usual_height(stem).is_err() && stem_breaks(Species::Oak, stem).is_err());
        }
    }
}
