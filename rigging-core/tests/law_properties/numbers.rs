//! The numbers that the properties are tried on.

use proptest::prelude::*;
use proptest::sample::select;
use rigging_core::law::OutOfDomain;
use rigging_core::quantity::{Angle, Force, Length, Mass, Ratio, kilogram, metre, newton, radian, ratio};
use std::f64::consts::PI;

pub fn newtons(value: f64) -> Force {
    Force::new::<newton>(value)
}
pub fn metres(value: f64) -> Length {
    Length::new::<metre>(value)
}
pub fn radians(value: f64) -> Angle {
    Angle::new::<radian>(value)
}
pub fn plain(value: f64) -> Ratio {
    Ratio::new::<ratio>(value)
}
pub fn kilograms(value: f64) -> Mass {
    Mass::new::<kilogram>(value)
}

const AWKWARD: [f64; 17] = [
    0.0,
    -0.0,
    1.0,
    -1.0,
    f64::MIN_POSITIVE,
    5e-324,
    -5e-324,
    1e-170,
    1e170,
    f64::EPSILON,
    f64::MAX,
    f64::MIN,
    1e308,
    f64::INFINITY,
    f64::NEG_INFINITY,
    f64::NAN,
    -f64::NAN,
];

/// Any number at all: every bit pattern, every size, the awkward ones and the corners of angles often.
pub fn any() -> BoxedStrategy<f64> {
    let corner = (-8_i32..=8, -2_i64..=2).prop_map(|(eighths, steps)| beside(f64::from(eighths) * PI / 4.0, steps));
    prop_oneof![
        2 => prop::num::f64::ANY,
        2 => select(AWKWARD.as_slice()),
        2 => (-323.0..308.0_f64).prop_map(|power| 10_f64.powf(power)),
        4 => (-4.0..4.0_f64).prop_map(|power| 10_f64.powf(power)),
        1 => -4.0..4.0_f64,
        2 => corner,
    ]
    .boxed()
}

/// The number so many steps of the last digit away.
fn beside(value: f64, steps: i64) -> f64 {
    if value == 0.0 { steps as f64 * 5e-324 } else { f64::from_bits((value.to_bits() as i64 + steps) as u64) }
}

/// A force that a rig may meet, from a gram to a hundred tonnes.
pub fn force() -> impl Strategy<Value = f64> + Clone {
    (-2.0..6.0_f64).prop_map(|power| 10_f64.powf(power))
}

/// A factor by which things are made larger or smaller.
pub fn factor() -> impl Strategy<Value = f64> + Clone {
    (-3.0..3.0_f64).prop_map(|power| 10_f64.powf(power))
}

/// Degrees to radians, as an angle between two bounds in degrees.
pub fn degrees(low: f64, high: f64) -> impl Strategy<Value = f64> + Clone {
    (low..high).prop_map(f64::to_radians)
}

/// True if two numbers agree but for the last few digits, or for something this small.
pub fn close(one: f64, other: f64, relative: f64, absolute: f64) -> bool {
    (one - other).abs() <= absolute + relative * one.abs().max(other.abs())
}

/// True if an answer to any numbers at all is one a law may give: an error that names the quantity
/// and the rule, and the input at fault if one is out of the law's range (or what grew without bound
/// before that was seen); or numbers, given only if the inputs were numbers within that range.
pub fn is_lawful<T: Copy>(
    answer: Result<T, OutOfDomain>,
    inputs: &[f64],
    within: bool,
    numbers_in_range: impl Fn(T) -> bool,
) -> bool {
    match answer {
        Err(error) => {
            let blamed = inputs.iter().any(|input| input.to_bits() == error.value.to_bits());
            !error.what.is_empty() && !error.must.is_empty() && (within || blamed || error.value.is_infinite())
        }
        Ok(result) => within && inputs.iter().all(|input| input.is_finite()) && numbers_in_range(result),
    }
}

/// True if a value is a number and not negative.
pub fn counts(value: f64) -> bool {
    value.is_finite() && value >= 0.0
}

/// True if a value is not below another, but for the last few digits and what is too small for them.
pub fn at_least(value: f64, bound: f64) -> bool {
    value >= bound - 1e-14 * bound.abs() - f64::MIN_POSITIVE
}

/// Many cases, for laws that must answer any numbers at all: most such numbers lie far outside them.
pub fn often() -> ProptestConfig {
    let usual = ProptestConfig::default();
    ProptestConfig { cases: 16 * usual.cases, ..usual }
}
