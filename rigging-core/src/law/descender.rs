//! A friction device on a rope: what the hand must hold.

use super::{OutOfDomain, finite, not_negative, positive};
use crate::band::Band;
use crate::quantity::{
    Energy, Force, Length, Mass, Ratio, SpecificHeatCapacity, TemperatureInterval, joule_per_kilogram_kelvin, kilogram,
    newton, ratio,
};
use crate::working::Source;

/// Kinds of descender by how they make friction.
/// ```
/// use rigging_core::law::descender::Descender;
///
/// // Bars are put in and taken out while a rack is used: of all devices it has the widest range.
/// let width = |device: Descender| {
///     let (band, _) = device.baseline();
///     band.high() / band.low()
/// };
/// assert!(Descender::ALL.into_iter().all(|device| width(device) <= width(Descender::BarRack)));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Descender {
    /// Figure-eight descender.
    FigureEight,
    /// Rescue eight, with ears.
    RescueEight,
    /// Rack of brake bars.
    BarRack,
    /// Italian (munter) hitch on a connector.
    ItalianHitch,
    /// Tube or plate.
    Tube,
    /// Brake made of crossed carabiners.
    CarabinerBrake,
}

impl Descender {
    /// All of them.
    /// ```
    /// use rigging_core::law::descender::Descender;
    ///
    /// // By hand: 700 N on the rope over the least that each makes of a newton of the hand, 10, 5, 4, 8, 4 and 5.
    /// let hands = Descender::ALL.map(|device| 700.0 / device.baseline().0.low());
    /// assert_eq!(hands, [70.0, 140.0, 175.0, 87.5, 175.0, 140.0]);
    /// ```
    pub const ALL: [Descender; 6] = [
        Descender::FigureEight,
        Descender::RescueEight,
        Descender::BarRack,
        Descender::ItalianHitch,
        Descender::Tube,
        Descender::CarabinerBrake,
    ];

    /// Mass of a light one and the heat that its metal takes, and how they are known: a rack of steel, the others of
    /// aluminium; of the italian hitch its connector.
    /// ```
    /// use rigging_core::law::descender::Descender;
    /// use rigging_core::working::Known;
    ///
    /// // By hand: 0.1 kg of aluminium, 900 J/(kg K), takes 90 J for each degree.
    /// let (mass, heat, source) = Descender::FigureEight.metal();
    /// assert!((mass.value * heat.value - 90.0).abs() < 1e-9);
    /// assert_eq!(source.known, Known::Assumed);
    /// ```
    pub fn metal(self) -> (Mass, SpecificHeatCapacity, Source) {
        let (mass, heat) = match self {
            Descender::FigureEight => (0.10, 900.0),
            Descender::RescueEight => (0.25, 900.0),
            Descender::BarRack => (0.90, 480.0),
            Descender::ItalianHitch => (0.08, 900.0),
            Descender::Tube => (0.07, 900.0),
            Descender::CarabinerBrake => (0.30, 900.0),
        };
        (
            Mass::new::<kilogram>(mass),
            SpecificHeatCapacity::new::<joule_per_kilogram_kelvin>(heat),
            Source::assumed("mass of a light device; half of the heat in it at most, none of it lost"),
        )
    }

    /// Load on the rope for each newton of the brake hand: sliding steadily, one dry strand of 10.5 to
    /// 11 mm, and how it is known.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::law::descender::Descender;
    /// use rigging_core::working::Known;
    ///
    /// // Teaching range of a figure-eight: 10 to 20 N on the rope for each newton of the hand, mostly 14.
    /// let (ratio, source) = Descender::FigureEight.baseline();
    /// assert_eq!((ratio, source.known), (Band::of(10.0, 14.0, 20.0), Known::Published));
    /// ```
    pub fn baseline(self) -> (Band, Source) {
        const TEACHING: Source = Source::published("teaching ranges of rope rescue courses");
        const RECALLED: Source = Source::memory("teaching ranges of rope rescue courses");
        match self {
            Descender::FigureEight => (Band::of(10.0, 14.0, 20.0), TEACHING),
            Descender::RescueEight => (Band::of(5.0, 10.0, 20.0), TEACHING),
            Descender::BarRack => (Band::of(4.0, 15.0, 50.0), TEACHING),
            Descender::ItalianHitch => (Band::of(8.0, 10.0, 12.0), RECALLED),
            Descender::Tube => (Band::of(4.0, 6.0, 8.0), RECALLED),
            Descender::CarabinerBrake => (Band::of(5.0, 6.5, 8.0), RECALLED),
        }
    }
}

/// How a descender is used, as far as it changes its friction.
/// ```
/// use rigging_core::law::descender::{Descender, Use, friction_ratio};
/// use rigging_core::quantity::{Length, millimetre};
///
/// // A thick dry strand is what the baseline was told for: nothing is corrected.
/// let diameter = Length::new::<millimetre>(10.5);
/// let dry = Use { diameter, two_strands: false, extra_carabiner: false, wet: false };
/// assert_eq!(friction_ratio(Descender::Tube, &dry)?, Descender::Tube.baseline().0);
/// // Wet it may hold less, and it may hold more.
/// let wet = friction_ratio(Descender::Tube, &Use { wet: true, ..dry })?;
/// assert!(wet.low() < Descender::Tube.baseline().0.low() && wet.high() > Descender::Tube.baseline().0.high());
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Use {
    /// Diameter of the rope.
    pub diameter: Length,
    /// Two strands run through the device, not one.
    pub two_strands: bool,
    /// One more carabiner adds friction.
    pub extra_carabiner: bool,
    /// Rope and device are wet.
    pub wet: bool,
}

/// Load on the rope, all strands together, for each newton of the brake hand.
///
/// # Formula
/// The baseline band of the device times a band for each correction, low with low, typical with mean,
/// high with high: rope of 9 mm or less × 0.6–0.8 (none from 10.5 mm, linear between), two strands
/// × 1.0–1.3, one more carabiner × 1.2–1.4, wet × 0.7–1.3. Below 9 mm the friction falls further, by how much is not
/// known here: the band is then more than there is.
/// # Errors
/// [`OutOfDomain`] if the diameter is not above 0.
/// # References
/// Baselines: [`Descender::baseline`]. Thin rope and extra carabiner from memory; two strands and wet
/// assumed.
/// ```
/// use rigging_core::law::descender::{Descender, Use, friction_ratio};
/// use rigging_core::quantity::{Length, millimetre};
///
/// // A figure-eight, 10/14/20, on one wet strand of 9 mm. By hand:
/// // 10 · 0.6 · 0.7 = 4.2, 14 · 0.7 · 1.0 = 9.8, 20 · 0.8 · 1.3 = 20.8.
/// let diameter = Length::new::<millimetre>(9.0);
/// let wet = Use { diameter, two_strands: false, extra_carabiner: false, wet: true };
/// let ratio = friction_ratio(Descender::FigureEight, &wet)?;
/// assert!((ratio.low() - 4.2).abs() < 1e-9 && (ratio.typical() - 9.8).abs() < 1e-9);
/// assert!((ratio.high() - 20.8).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn friction_ratio(device: Descender, in_use: &Use) -> Result<Band, OutOfDomain> {
    let millimetres = positive("rope diameter", in_use.diameter.value)? * 1000.0;
    let thin = ((10.5 - millimetres) / 1.5).clamp(0.0, 1.0);
    let mut corrections = vec![(1.0 - 0.4 * thin, 1.0 - 0.2 * thin)];
    if in_use.two_strands {
        corrections.push((1.0, 1.3));
    }
    if in_use.extra_carabiner {
        corrections.push((1.2, 1.4));
    }
    if in_use.wet {
        corrections.push((0.7, 1.3));
    }
    let (device, _) = device.baseline();
    let (mut low, mut typical, mut high) = (device.low(), device.typical(), device.high());
    for (least, most) in corrections {
        low *= least;
        typical *= (least + most) / 2.0;
        high *= most;
    }
    Ok(Band::of(low, typical, high))
}

/// Force the brake hand must give so that a hanging person slides steadily or stops.
///
/// # Formula
/// `(W + w h)/R − w h`, not below 0: `W` the weight on the device (N), `R` ≥ 1 the friction ratio, `w h`
/// ≥ 0 the pull of the rope below the device: its weight if it hangs free (N).
/// # Errors
/// [`OutOfDomain`] if a force is negative or R is less than 1.
/// # References
/// Definition of R; the tail's weight acts as a hand does.
/// ```
/// use rigging_core::law::descender;
/// use rigging_core::quantity::{Force, Ratio, newton, ratio};
///
/// let (person, friction) = (Force::new::<newton>(700.0), Ratio::new::<ratio>(14.0));
/// // By hand: 700/14 = 50 N; with 14 N of rope hanging below the device 714/14 − 14 = 37 N.
/// let bare = descender::hand_force(person, Force::default(), friction)?;
/// let with_tail = descender::hand_force(person, Force::new::<newton>(14.0), friction)?;
/// assert!((bare.value - 50.0).abs() < 1e-9 && (with_tail.value - 37.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn hand_force(weight: Force, tail: Force, friction_ratio: Ratio) -> Result<Force, OutOfDomain> {
    let left = balance(weight, tail, friction_ratio)?;
    Ok(Force::new::<newton>(left.max(0.0)))
}

/// Pull of the rope below the device beyond what stops a person there with no hand at all.
///
/// # Formula
/// `w h − (W + w h)/R`, not below 0; terms as in [`hand_force`]. Above 0 the person does not move.
/// # Errors
/// As [`hand_force`].
/// # References
/// As [`hand_force`].
/// ```
/// use rigging_core::law::descender;
/// use rigging_core::quantity::{Force, Ratio, newton, ratio};
///
/// // By hand: (600 + 100)/10 = 70 N would hold there, and 100 N of rope hang below: 30 N to spare, none for the hand.
/// let (person, tail) = (Force::new::<newton>(600.0), Force::new::<newton>(100.0));
/// let friction = Ratio::new::<ratio>(10.0);
/// assert!((descender::held_back_by(person, tail, friction)?.value - 30.0).abs() < 1e-9);
/// assert_eq!(descender::hand_force(person, tail, friction)?.value, 0.0);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn held_back_by(weight: Force, tail: Force, friction_ratio: Ratio) -> Result<Force, OutOfDomain> {
    let left = balance(weight, tail, friction_ratio)?;
    Ok(Force::new::<newton>((-left).max(0.0)))
}

/// How far someone is from being held by the rope below the device: above 1 they start to slide.
///
/// # Formula
/// `(W + w h)/(R w h)`: the pull above the device over what would hold there with no hand; `W` ≥ 0 (N), `w h` > 0 (N),
/// `R` ≥ 1 as in [`hand_force`].
/// # Errors
/// [`OutOfDomain`] outside these ranges or if the ratio is too large for a number.
/// # References
/// As [`hand_force`].
/// ```
/// use rigging_core::law::descender;
/// use rigging_core::quantity::{Force, Ratio, newton, ratio};
///
/// // By hand: with R = 14, 30 N of rope hold 14 · 30 − 30 = 390 N of a person and no more.
/// let (person, tail) = (Force::new::<newton>(390.0), Force::new::<newton>(30.0));
/// let start = descender::start_ratio(person, tail, Ratio::new::<ratio>(14.0))?;
/// assert!((start.value - 1.0).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn start_ratio(weight: Force, tail: Force, friction_ratio: Ratio) -> Result<Ratio, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let tail = positive("pull of the rope below", tail.value)?;
    let value = friction_ratio.value;
    let friction = super::check("friction ratio", value, value >= 1.0, "1 or more")?;
    finite("ratio to start", (weight / tail + 1.0) / friction).map(Ratio::new::<ratio>)
}

/// How much warmer a device becomes by the work of a descent.
///
/// # Formula
/// `ΔT = η E/(m c)`: `E` ≥ 0 the work, weight times height (J), `η` ≥ 0 the share of it that goes into the device,
/// `m` > 0 its mass (kg), `c` > 0 the heat its metal takes (J/(kg K)). An upper bound: no heat is lost on the way.
/// # Errors
/// [`OutOfDomain`] outside these ranges or if ΔT is too large for a number.
/// # References
/// Heat balance.
/// ```
/// use rigging_core::law::descender::{self, Descender};
/// use rigging_core::quantity::{Energy, Ratio, joule, percent};
///
/// // By hand: 1000 N go down 9 m, and half of that heats 0.1 kg of aluminium: 4500/(0.1 · 900) = 50 K.
/// let (mass, heat, _) = Descender::FigureEight.metal();
/// let work = Energy::new::<joule>(9000.0);
/// let warmer = descender::warming(work, Ratio::new::<percent>(50.0), mass, heat)?;
/// assert!((warmer.value - 50.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn warming(
    work: Energy,
    share: Ratio,
    device: Mass,
    heat: SpecificHeatCapacity,
) -> Result<TemperatureInterval, OutOfDomain> {
    let work = not_negative("work", work.value)?;
    let share = not_negative("share of the heat", share.value)?;
    let mass = positive("mass of the device", device.value)?;
    let heat = positive("heat of its metal", heat.value)?;
    let warmer = finite("rise of temperature", share * work / mass / heat)?;
    Ok(TemperatureInterval::new::<uom::si::temperature_interval::kelvin>(warmer))
}

fn balance(weight: Force, tail: Force, friction_ratio: Ratio) -> Result<f64, OutOfDomain> {
    let weight = not_negative("weight", weight.value)?;
    let tail = not_negative("pull of the rope below", tail.value)?;
    let value = friction_ratio.value;
    let friction = super::check("friction ratio", value, value >= 1.0, "1 or more")?;
    finite("hand force", (weight + tail) / friction - tail)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{joule, millimetre};
    use approx::assert_relative_eq;

    fn dry(millimetres: f64) -> Use {
        let diameter = Length::new::<millimetre>(millimetres);
        Use { diameter, two_strands: false, extra_carabiner: false, wet: false }
    }

    #[test]
    fn a_dry_thick_rope_keeps_the_baseline() {
        for device in [Descender::FigureEight, Descender::BarRack, Descender::Tube] {
            assert_eq!(friction_ratio(device, &dry(10.5)).unwrap(), device.baseline().0);
        }
    }

    #[test]
    fn half_way_between_thin_and_thick_the_correction_is_half() {
        let band = friction_ratio(Descender::FigureEight, &dry(9.75)).unwrap();
        assert_relative_eq!(band.low(), 8.0, max_relative = 1e-12);
        assert_relative_eq!(band.high(), 18.0, max_relative = 1e-12);
    }

    #[test]
    fn a_long_tail_brakes_until_nobody_moves() {
        let at = |tail| {
            let tail = Force::new::<newton>(tail);
            let weight = Force::new::<newton>(700.0);
            let friction = Ratio::new::<ratio>(14.0);
            (hand_force(weight, tail, friction).unwrap().value, held_back_by(weight, tail, friction).unwrap().value)
        };
        assert_eq!(at(0.0), (50.0, 0.0));
        assert!(at(30.0).0 < 50.0);
        assert_eq!(at(60.0).0, 0.0);
        assert!(at(60.0).1 > 0.0);
    }

    #[test]
    fn a_ratio_of_one_to_start_is_where_the_tail_takes_over() {
        let (tail, friction) = (Force::new::<newton>(30.0), Ratio::new::<ratio>(14.0));
        let start = |weight| start_ratio(Force::new::<newton>(weight), tail, friction).unwrap().value;
        // By hand: 14 · 30 − 30 = 390 N.
        assert_relative_eq!(start(390.0), 1.0, max_relative = 1e-14);
        assert_relative_eq!(start(810.0), 2.0, max_relative = 1e-14);
    }

    #[test]
    fn a_descent_warms_a_light_device() {
        // By hand: half of 1000 N · 9 m in 0.1 kg of aluminium.
        let (mass, heat, _) = Descender::FigureEight.metal();
        let warmer = warming(Energy::new::<joule>(9000.0), Ratio::new::<ratio>(0.5), mass, heat).unwrap();
        assert_relative_eq!(warmer.value, 50.0, max_relative = 1e-14);
    }
}
