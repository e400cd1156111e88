//! Mass of a rope from its diameter, dry and wet; how much it stretches and shrinks; how much must be left to pay out.

use super::{OutOfDomain, finite, positive};
use crate::quantity::{Force, Length, Mass, Ratio, kilogram, metre, newton};

/// Mass of a dry rope for each metre and square millimetre of diameter squared, kg.
///
/// # References
/// Derived from declared masses of kernmantel ropes of 8 to 11 mm (41 to 78 g/m).
const MASS_PER_METRE_AND_SQUARE_MILLIMETRE: f64 = 0.645_6e-3;

/// Mass of a length of dry kernmantel rope.
///
/// # Formula
/// `m = 0.6456 g/m · d² · L` where `d` is the diameter in mm, > 0, and `L` the length in m, ≥ 0.
/// # Errors
/// [`OutOfDomain`] if d is not above 0 or L is negative.
/// # References
/// Derived from declared masses: 8 mm 41, 9 mm 52, 10 mm 65, 11 mm 78 g/m.
/// ```
/// use rigging_core::law::rope;
/// use rigging_core::quantity::{Length, metre, millimetre};
///
/// // Declared: 8 mm 41, 9 mm 52, 10 mm 65, 11 mm 78 g/m.
/// for (millimetres, grams) in [(8.0, 41.0), (9.0, 52.0), (10.0, 65.0), (11.0, 78.0)] {
///     let dry = rope::mass(Length::new::<millimetre>(millimetres), Length::new::<metre>(1.0))?;
///     assert!((dry.value * 1000.0 - grams).abs() < 0.5);
/// }
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn mass(diameter: Length, length: Length) -> Result<Mass, OutOfDomain> {
    let millimetres = positive("rope diameter", diameter.value)? * 1000.0;
    let length = super::not_negative("rope length", length.value)?;
    finite("rope mass", MASS_PER_METRE_AND_SQUARE_MILLIMETRE * millimetres * millimetres * length)
        .map(Mass::new::<kilogram>)
}

/// Stiffness of a rope from how much longer a load makes it.
///
/// # Formula
/// `EA = F / ε` where `F` ≥ 0 is the load (N) and `ε` > 0 the elongation as a share of the length.
/// # Errors
/// [`OutOfDomain`] outside these ranges or if EA is too large for a number.
/// # References
/// Definition; standards of ropes print ε for a mass, EN 1891 from 50 to 150 kg.
/// ```
/// use rigging_core::law::rope;
/// use rigging_core::quantity::{Force, Ratio, newton, ratio};
///
/// let stiffness = rope::stiffness_from_elongation(Force::new::<newton>(1000.0), Ratio::new::<ratio>(0.05))?;
/// assert!((stiffness.value - 20_000.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn stiffness_from_elongation(load: Force, elongation: Ratio) -> Result<Force, OutOfDomain> {
    let load = super::not_negative("load", load.value)?;
    finite("stiffness", load / positive("elongation", elongation.value)?).map(Force::new::<newton>)
}

/// How much longer a rope becomes under a load.
///
/// # Formula
/// `ΔL = F L / EA` where `F` ≥ 0 is the load (N), `L` ≥ 0 the length without it (m), `EA` > 0 the stiffness (N).
/// # Errors
/// [`OutOfDomain`] outside these ranges or if ΔL is too large for a number.
/// # References
/// Hooke's law.
/// ```
/// use rigging_core::law::rope;
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// let length = Length::new::<metre>(50.0);
/// let stretch = rope::stretch(Force::new::<newton>(1000.0), length, Force::new::<newton>(25_000.0))?;
/// assert_eq!(stretch.value, 2.0);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn stretch(load: Force, length: Length, stiffness: Force) -> Result<Length, OutOfDomain> {
    let load = super::not_negative("load", load.value)?;
    let length = super::not_negative("rope length", length.value)?;
    finite("stretch", load / positive("stiffness", stiffness.value)? * length).map(Length::new::<metre>)
}

/// How much longer a hanging rope becomes under its own weight and a load at its end.
///
/// # Formula
/// `ΔL = (F + G/2) L / EA` where `F` ≥ 0 is the load (N), `G` ≥ 0 the weight of the rope (N), `L` ≥ 0 its length
/// without load (m), `EA` > 0 its stiffness (N): the tension falls evenly from F + G at the top to F at the end.
/// # Errors
/// [`OutOfDomain`] outside these ranges or if ΔL is too large for a number.
/// # References
/// Hooke's law, summed along the rope; a bar under its own weight: Timoshenko, *Strength of Materials I* (from memory).
/// ```
/// use rigging_core::law::rope;
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // Half of its own weight stretches it too: (1000 + 100/2) · 50 / 25 000.
/// let (load, weight) = (Force::new::<newton>(1000.0), Force::new::<newton>(100.0));
/// let stiffness = Force::new::<newton>(25_000.0);
/// let stretch = rope::hanging_stretch(load, weight, Length::new::<metre>(50.0), stiffness)?;
/// assert!((stretch.value - 2.1).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn hanging_stretch(
    load: Force,
    rope_weight: Force,
    length: Length,
    stiffness: Force,
) -> Result<Length, OutOfDomain> {
    let load = super::not_negative("load", load.value)?;
    let half = super::not_negative("weight of the rope", rope_weight.value)? / 2.0;
    stretch(Force::new::<newton>(load + half), length, stiffness)
}

/// Length without load of a hanging rope that ends a distance below its top while a load hangs at its end.
///
/// # Formula
/// the root L of `L + (F + w L/2) L/EA = d`: `L = 2 d / (b + √(b² + 2 d w/EA))` with `b = 1 + F/EA`, where `d` ≥ 0 is
/// the distance (m), `F` ≥ 0 the load (N), `w` ≥ 0 the weight of one metre of unstretched rope (N), `EA` > 0 its
/// stiffness (N).
/// # Errors
/// [`OutOfDomain`] outside these ranges.
/// # References
/// [`hanging_stretch`], solved for the length.
/// ```
/// use rigging_core::law::rope;
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // The rope of `hanging_stretch` turned round: 50 m of 2 N/m become 52.1 m under 1000 N.
/// let (load, weight) = (Force::new::<newton>(1000.0), Force::new::<newton>(2.0));
/// let (reaches, stiffness) = (Length::new::<metre>(52.1), Force::new::<newton>(25_000.0));
/// let rope = rope::hanging_length(reaches, load, weight, stiffness)?;
/// assert!((rope.value - 50.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn hanging_length(
    distance: Length,
    load: Force,
    weight_of_a_metre: Force,
    stiffness: Force,
) -> Result<Length, OutOfDomain> {
    let distance = super::not_negative("distance", distance.value)?;
    let stiffness = positive("stiffness", stiffness.value)?;
    let strain = finite("strain", super::not_negative("load", load.value)? / stiffness)?;
    let weight = super::not_negative("weight of one metre", weight_of_a_metre.value)?;
    let weight = finite("weight of one metre over the stiffness", weight / stiffness)?;
    // The form that does not take a small difference of large numbers when the rope is light; nor squares large ones.
    let linear = 1.0 + strain;
    let root = linear.hypot(distance.sqrt() * (2.0 * weight).sqrt());
    finite("length of rope", distance / (0.5 * linear + 0.5 * root)).map(Length::new::<metre>)
}

/// Length of a rope after it has shrunk in water.
///
/// # Formula
/// `L = L₀ (1 − σ)` where `L₀` ≥ 0 is the length before (m) and `σ` the share by which it shrinks, 0 ≤ σ < 1.
/// # Errors
/// [`OutOfDomain`] outside these ranges.
/// # References
/// Definition of shrinkage.
/// ```
/// use rigging_core::law::rope;
/// use rigging_core::quantity::{Length, Ratio, metre, ratio};
///
/// let rope = rope::shrunk(Length::new::<metre>(50.0), Ratio::new::<ratio>(0.04))?;
/// assert!((rope.value - 48.0).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn shrunk(length: Length, shrinkage: Ratio) -> Result<Length, OutOfDomain> {
    let length = super::not_negative("rope length", length.value)?;
    let share = shrinkage.value;
    let share = super::check("shrinkage", share, (0.0..1.0).contains(&share), "from 0 to less than 1")?;
    Ok(Length::new::<metre>(length * (1.0 - share)))
}

/// Mass of a rope with the water it has taken up.
///
/// # Formula
/// `m = m₀ (1 + u)` where `m₀` ≥ 0 is the dry mass (kg) and `u` ≥ 0 the water as a share of it.
/// # Errors
/// [`OutOfDomain`] outside these ranges or if m is too large for a number.
/// # References
/// Definition of the water taken up as UIAA tests print it.
/// ```
/// use rigging_core::law::rope;
/// use rigging_core::quantity::{Mass, Ratio, kilogram, ratio};
///
/// let wet = rope::wet_mass(Mass::new::<kilogram>(3.0), Ratio::new::<ratio>(0.5))?;
/// assert!((wet.value - 4.5).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn wet_mass(dry: Mass, taken_up: Ratio) -> Result<Mass, OutOfDomain> {
    let dry = super::not_negative("rope mass", dry.value)?;
    finite("wet mass", dry * (1.0 + super::not_negative("water taken up", taken_up.value)?)).map(Mass::new::<kilogram>)
}

/// Rope left over in the hand when a person stands at the bottom, m.
const TO_STEP_OFF: f64 = 1.0;

/// Rope that must be left at the station so that a person who is stuck anywhere can be let down and step off.
///
/// # Formula
/// `R = h + s + ΔL + 1 m` where `h` ≥ 0 is the height still below the person, `s` ≥ 0 the set-back from station to
/// lip, `ΔL` ≥ 0 the stretch that comes back when the load goes off (m).
/// # Errors
/// [`OutOfDomain`] outside these ranges or if R is too large for a number.
/// # References
/// Common practice, no source. Each part is the most it can be at any place, so the sum is enough at every place: h is
/// the whole drop for a person at the lip, and s is still before a person who has not reached it.
/// ```
/// use rigging_core::law::rope;
/// use rigging_core::quantity::{Length, metre};
///
/// // By hand: 20 + 3 + 1.5 + 1 = 25.5.
/// let [below, set_back, stretch] = [20.0, 3.0, 1.5].map(Length::new::<metre>);
/// assert_eq!(rope::reserve(below, set_back, stretch)?.value, 25.5);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn reserve(below: Length, set_back: Length, stretch: Length) -> Result<Length, OutOfDomain> {
    let below = super::not_negative("height below the person", below.value)?;
    let set_back = super::not_negative("set-back", set_back.value)?;
    let stretch = super::not_negative("stretch", stretch.value)?;
    finite("reserve", below + set_back + stretch + TO_STEP_OFF).map(Length::new::<metre>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{millimetre, ratio};
    use approx::assert_relative_eq;

    fn newtons(si: f64) -> Force {
        Force::new::<newton>(si)
    }
    fn metres(si: f64) -> Length {
        Length::new::<metre>(si)
    }

    /// A hanging rope cut into short pieces, each stretched by what hangs below its middle.
    fn piece_by_piece(load: f64, weight_of_a_metre: f64, length: f64, stiffness: f64) -> f64 {
        let pieces = 2000;
        let piece = length / f64::from(pieces);
        (0..pieces)
            .map(|number| {
                let below = length - (f64::from(number) + 0.5) * piece;
                (load + weight_of_a_metre * below) / stiffness * piece
            })
            .sum()
    }

    #[test]
    fn the_stretch_of_a_hanging_rope_is_the_sum_over_its_pieces() {
        for (load, weight, length, stiffness) in
            [(800.0, 0.6, 40.0, 20e3), (0.0, 0.9, 100.0, 8e3), (1500.0, 0.0, 5.0, 40e3), (60.0, 1.1, 200.0, 30e3)]
        {
            let closed =
                hanging_stretch(newtons(load), newtons(weight * length), metres(length), newtons(stiffness)).unwrap();
            assert_relative_eq!(closed.value, piece_by_piece(load, weight, length, stiffness), max_relative = 1e-10);
        }
    }

    #[test]
    fn without_load_only_its_own_weight_stretches_it_and_a_stiff_rope_not_at_all() {
        let own = hanging_stretch(newtons(0.0), newtons(50.0), metres(100.0), newtons(25e3)).unwrap();
        assert_relative_eq!(own.value, 0.1, max_relative = 1e-15);
        let stiff = hanging_stretch(newtons(900.0), newtons(50.0), metres(100.0), newtons(1e15)).unwrap();
        assert!(stiff.value < 1e-9);
        let weightless = hanging_stretch(newtons(784.532), newtons(0.0), metres(50.0), newtons(19.6133e3)).unwrap();
        // Row D4 of the check values.
        assert_relative_eq!(weightless.value, 2.0, max_relative = 1e-12);
    }

    #[test]
    fn the_length_that_reaches_is_the_one_whose_stretched_end_is_there() {
        for (load, weight, distance, stiffness) in
            [(800.0, 0.6, 40.0, 20e3), (0.0, 0.9, 100.0, 8e3), (1500.0, 0.0, 5.0, 40e3), (0.0, 0.0, 7.0, 1e4)]
        {
            let length =
                hanging_length(metres(distance), newtons(load), newtons(weight), newtons(stiffness)).unwrap().value;
            let ends = length + piece_by_piece(load, weight, length, stiffness);
            assert_relative_eq!(ends, distance, max_relative = 1e-10);
            assert!(length <= distance);
        }
        let stiff = hanging_length(metres(30.0), newtons(900.0), newtons(1.0), newtons(1e15)).unwrap();
        assert_relative_eq!(stiff.value, 30.0, max_relative = 1e-11);
    }

    #[test]
    fn the_reserve_is_enough_for_a_person_stuck_at_any_place() {
        let (set_back, height, load, stiffness) = (3.0, 22.0, 1150.0, 20e3);
        let way = set_back + height;
        let all = load * way / stiffness;
        let reserve = reserve(metres(height), metres(set_back), metres(all)).unwrap().value;
        assert_relative_eq!(reserve, 22.0 + 3.0 + 1.4375 + 1.0, max_relative = 1e-12);
        let mut most = 0.0_f64;
        for step in 0..=100 {
            // Rope out, without load, to a person stuck there; to stand with a slack rope takes the whole way, unstretched.
            let place = way * f64::from(step) / 100.0;
            let out = place / (1.0 + load / stiffness);
            most = most.max(way - out + 1.0);
        }
        assert!(most <= reserve && most > reserve - all - 1e-9, "{most} of {reserve}");
    }

    #[test]
    fn water_adds_mass_and_takes_length() {
        let dry = mass(Length::new::<millimetre>(9.0), metres(60.0)).unwrap();
        // UIAA: an untreated rope took up half its mass in 15 minutes.
        assert_relative_eq!(
            wet_mass(dry, Ratio::new::<ratio>(0.5)).unwrap().value,
            1.5 * 60.0 * 0.6456e-3 * 81.0,
            max_relative = 1e-12
        );
        assert_relative_eq!(shrunk(metres(60.0), Ratio::new::<ratio>(0.06)).unwrap().value, 56.4, max_relative = 1e-12);
        assert_eq!(shrunk(metres(60.0), Ratio::new::<ratio>(0.0)).unwrap().value, 60.0);
    }

    #[test]
    fn what_no_rope_can_be_is_refused() {
        let none = newtons(0.0);
        assert!(hanging_stretch(newtons(-1.0), none, metres(1.0), newtons(1.0)).is_err());
        assert!(hanging_stretch(none, newtons(-1.0), metres(1.0), newtons(1.0)).is_err());
        assert!(hanging_stretch(none, none, metres(1.0), none).is_err());
        assert!(hanging_length(metres(-1.0), none, none, newtons(1.0)).is_err());
        assert!(hanging_length(metres(1.0), none, none, none).is_err());
        assert!(shrunk(metres(1.0), Ratio::new::<ratio>(1.0)).is_err());
        assert!(shrunk(metres(1.0), Ratio::new::<ratio>(-0.1)).is_err());
        assert!(wet_mass(Mass::new::<kilogram>(1.0), Ratio::new::<ratio>(-0.1)).is_err());
        assert!(reserve(metres(1.0), metres(f64::NAN), metres(0.0)).is_err());
    }

    #[test]
    fn ropes_weigh_what_is_declared() {
        for (millimetres, grams) in [(8.0, 41.0), (9.0, 52.0), (10.0, 65.0), (11.0, 78.0)] {
            let mass = mass(Length::new::<millimetre>(millimetres), Length::new::<metre>(1.0)).unwrap();
            assert!((mass.value * 1000.0 - grams).abs() < 0.5, "{millimetres} mm: {mass:?}");
        }
    }
}
