//! Force, length, mass and angle with their units in the types.
//!
//! The quantities are those of [`uom`]; every conversion goes through it. A [`Kind`] names what an SI value
//! measures where that is known only while the program runs: in a table of fields, a step of a working or on
//! a screen.
//!
//! A length is not a force, and the compiler knows it:
//! ```
//! use rigging_core::quantity::{Force, Length, metre};
//! let right: Length = Length::new::<metre>(1.0);
//! ```
//! ```compile_fail,E0308
//! use rigging_core::quantity::{Force, Length, metre};
//! let wrong: Force = Length::new::<metre>(1.0);
//! ```

pub use exact::{pound, pound_force};
pub use told::{Toward, Units, figures, with_unit};
pub use uom::si::acceleration::meter_per_second_squared as metre_per_second_squared;
pub use uom::si::angle::{degree, radian};
pub use uom::si::area::square_meter as square_metre;
pub use uom::si::diffusion_coefficient::square_meter_per_second as square_metre_per_second;
pub use uom::si::energy::{joule, megajoule};
/// Depth times speed of water: what a current is judged by where people stand in it.
pub use uom::si::f64::DiffusionCoefficient as DepthTimesSpeed;
pub use uom::si::f64::{
    Acceleration, Angle, Area, Energy, Force, Length, Mass, MassDensity, Pressure, Ratio, SpecificHeatCapacity,
    TemperatureInterval, Time, Torque, Velocity, Volume, VolumeRate,
};
pub use uom::si::force::{kilogram_force, kilonewton, newton};
pub use uom::si::length::{foot, inch, meter as metre, millimeter as millimetre};
pub use uom::si::mass::kilogram;
pub use uom::si::mass_density::kilogram_per_cubic_meter as kilogram_per_cubic_metre;
pub use uom::si::pressure::{kilopascal, megapascal, pascal};
pub use uom::si::ratio::{percent, ratio};
pub use uom::si::specific_heat_capacity::joule_per_kilogram_kelvin;
pub use uom::si::temperature_interval::kelvin;
pub use uom::si::time::second;
pub use uom::si::torque::newton_meter as newton_metre;
pub use uom::si::velocity::{foot_per_second, meter_per_second as metre_per_second};
pub use uom::si::volume::cubic_meter as cubic_metre;
pub use uom::si::volume_rate::liter_per_second as litre_per_second;

mod told;

/// Units that [`uom`] rounds to seven digits, with their exact factors.
///
/// # References
/// NIST Special Publication 811 (2008), appendix B.8: exact by definition of the pound.
mod exact {
    #![allow(missing_docs, reason = "uom's macro writes the units and their docs")]
    pub use force::pound_force;
    pub use mass::pound;

    mod force {
        unit! {
            system: uom::si;
            quantity: uom::si::force;
            @pound_force: 4.448_221_615_260_5; "lbf", "pound-force", "pounds-force";
        }
    }
    mod mass {
        unit! {
            system: uom::si;
            quantity: uom::si::mass;
            @pound: 0.453_592_37; "lb", "pound", "pounds";
        }
    }
}

/// What a value measures.
/// ```
/// use rigging_core::quantity::{Kind, Unit, Units};
///
/// // A thickness is a length on the wire and is told in another unit.
/// assert_eq!(Kind::Thickness.suffix(), Kind::Length.suffix());
/// assert_eq!(Units::default().of(Kind::Length), Unit::Metre);
/// assert_eq!(Units::default().of(Kind::Thickness), Unit::Millimetre);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Kind {
    /// A force; N on the wire.
    Force,
    /// A length; m on the wire.
    Length,
    /// A thickness, told in mm or inches; m on the wire.
    Thickness,
    /// A mass; kg on the wire.
    Mass,
    /// An angle; rad on the wire.
    Angle,
    /// A speed; m/s on the wire.
    Speed,
    /// A time; s on the wire.
    Time,
    /// A number without a unit.
    Ratio,
    /// A whole number of things.
    Count,
}

impl Kind {
    /// The symbol of its SI unit; empty for what has none.
    /// ```
    /// use rigging_core::quantity::Kind;
    ///
    /// assert_eq!([Kind::Force, Kind::Thickness, Kind::Speed, Kind::Ratio].map(Kind::si), ["N", "m", "m/s", ""]);
    /// ```
    pub const fn si(self) -> &'static str {
        match self {
            Kind::Force => "N",
            Kind::Length | Kind::Thickness => "m",
            Kind::Mass => "kg",
            Kind::Angle => "rad",
            Kind::Speed => "m/s",
            Kind::Time => "s",
            Kind::Ratio | Kind::Count => "",
        }
    }

    /// The ending that a field of this kind carries on the wire: its SI unit.
    /// ```
    /// use rigging_core::quantity::Kind;
    ///
    /// assert_eq!(["span", Kind::Length.suffix()].concat(), "span_m");
    /// assert_eq!(["speed", Kind::Speed.suffix()].concat(), "speed_m_per_s");
    /// // A number of things has no unit.
    /// assert_eq!(Kind::Count.suffix(), "");
    /// ```
    pub const fn suffix(self) -> &'static str {
        match self {
            Kind::Force => "_n",
            Kind::Length | Kind::Thickness => "_m",
            Kind::Mass => "_kg",
            Kind::Angle => "_rad",
            Kind::Speed => "_m_per_s",
            Kind::Time => "_s",
            Kind::Ratio | Kind::Count => "",
        }
    }
}

/// A unit in which a person reads or types a number.
/// ```
/// use rigging_core::quantity::Unit;
///
/// // NIST Special Publication 811 (2008), appendix B.8.
/// assert_eq!(Unit::KilogramForce.to_si(1.0), 9.80665);
/// assert_eq!(Unit::Foot.to_si(1.0), 0.3048);
/// assert_eq!(Unit::Kilonewton.from_si(2500.0), 2.5);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Unit {
    /// kN
    Kilonewton,
    /// N
    Newton,
    /// lbf
    PoundForce,
    /// kgf
    KilogramForce,
    /// m
    Metre,
    /// ft
    Foot,
    /// mm
    Millimetre,
    /// in
    Inch,
    /// kg
    Kilogram,
    /// lb
    Pound,
    /// °
    Degree,
    /// %
    Percent,
    /// MJ
    Megajoule,
    /// m/s
    MetrePerSecond,
    /// ft/s
    FootPerSecond,
    /// s
    Second,
    /// a plain number
    One,
}

impl Unit {
    /// The symbol as it is printed; empty for a plain number.
    /// ```
    /// use rigging_core::quantity::Unit;
    ///
    /// assert_eq!(Unit::Kilonewton.symbol(), "kN");
    /// assert_eq!(Unit::Degree.symbol(), "°");
    /// assert_eq!(Unit::One.symbol(), "");
    /// ```
    pub const fn symbol(self) -> &'static str {
        match self {
            Unit::Kilonewton => "kN",
            Unit::Newton => "N",
            Unit::PoundForce => "lbf",
            Unit::KilogramForce => "kgf",
            Unit::Metre => "m",
            Unit::Foot => "ft",
            Unit::Millimetre => "mm",
            Unit::Inch => "in",
            Unit::Kilogram => "kg",
            Unit::Pound => "lb",
            Unit::Degree => "°",
            Unit::Percent => "%",
            Unit::Megajoule => "MJ",
            Unit::MetrePerSecond => "m/s",
            Unit::FootPerSecond => "ft/s",
            Unit::Second => "s",
            Unit::One => "",
        }
    }

    /// `value` in this unit, in SI.
    /// ```
    /// use rigging_core::quantity::Unit;
    ///
    /// // NIST Special Publication 811 (2008), appendix B.8: 1 lb = 0.453 592 37 kg.
    /// assert_eq!(Unit::Pound.to_si(100.0), 45.359_237);
    /// assert!((Unit::Degree.to_si(180.0) - std::f64::consts::PI).abs() < 1e-15);
    /// assert_eq!(Unit::Percent.to_si(50.0), 0.5);
    /// ```
    pub fn to_si(self, value: f64) -> f64 {
        match self {
            Unit::Kilonewton => Force::new::<kilonewton>(value).value,
            Unit::Newton => Force::new::<newton>(value).value,
            Unit::PoundForce => Force::new::<pound_force>(value).value,
            Unit::KilogramForce => Force::new::<kilogram_force>(value).value,
            Unit::Metre => Length::new::<metre>(value).value,
            Unit::Foot => Length::new::<foot>(value).value,
            Unit::Millimetre => Length::new::<millimetre>(value).value,
            Unit::Inch => Length::new::<inch>(value).value,
            Unit::Kilogram => Mass::new::<kilogram>(value).value,
            Unit::Pound => Mass::new::<pound>(value).value,
            Unit::Degree => Angle::new::<degree>(value).value,
            Unit::Percent => Ratio::new::<percent>(value).value,
            Unit::Megajoule => Energy::new::<megajoule>(value).value,
            Unit::FootPerSecond => Velocity::new::<foot_per_second>(value).value,
            Unit::MetrePerSecond | Unit::Second | Unit::One => value,
        }
    }

    /// An SI value, read in this unit.
    /// ```
    /// use rigging_core::quantity::Unit;
    ///
    /// // An inch is 25.4 mm, and 12 of them are a foot.
    /// let inch = Unit::Inch.to_si(1.0);
    /// assert!((Unit::Millimetre.from_si(inch) - 25.4).abs() < 1e-12);
    /// assert!((Unit::Foot.from_si(12.0 * inch) - 1.0).abs() < 1e-12);
    /// ```
    pub fn from_si(self, si: f64) -> f64 {
        match self {
            Unit::Kilonewton => Force::new::<newton>(si).get::<kilonewton>(),
            Unit::Newton => si,
            Unit::PoundForce => Force::new::<newton>(si).get::<pound_force>(),
            Unit::KilogramForce => Force::new::<newton>(si).get::<kilogram_force>(),
            Unit::Metre => si,
            Unit::Foot => Length::new::<metre>(si).get::<foot>(),
            Unit::Millimetre => Length::new::<metre>(si).get::<millimetre>(),
            Unit::Inch => Length::new::<metre>(si).get::<inch>(),
            Unit::Kilogram => si,
            Unit::Pound => Mass::new::<kilogram>(si).get::<pound>(),
            Unit::Degree => Angle::new::<radian>(si).get::<degree>(),
            Unit::Percent => Ratio::new::<ratio>(si).get::<percent>(),
            Unit::Megajoule => si / Unit::Megajoule.to_si(1.0),
            Unit::FootPerSecond => Velocity::new::<metre_per_second>(si).get::<foot_per_second>(),
            Unit::MetrePerSecond | Unit::Second | Unit::One => si,
        }
    }
}

/// The most places that a number is told with: any float that is not 0 shows a figure within them, or none at all.
const MOST_PLACES: u32 = 330;

/// A number in decimal digits, rounded to some places, 330 at most; a dash for what is not a number or has more than
/// eighteen digits.
///
/// Made from whole numbers, so that the general formatting of floats, a tenth of a small module, is not
/// needed to print a result.
/// ```
/// use rigging_core::quantity::decimal;
///
/// assert_eq!(decimal(1146.6, 0), "1147");
/// assert_eq!(decimal(-0.25, 2), "-0.25");
/// assert_eq!(decimal(f64::NAN, 2), "—");
/// ```
pub fn decimal(value: f64, places: u32) -> String {
    let places = places.min(MOST_PLACES);
    let scaled = (value.abs() * 10_f64.powi(places as i32)).round();
    if scaled.is_nan() || scaled >= 1e18 {
        return "—".to_owned();
    }
    let mut digits = (scaled as u64).to_string();
    let places = places as usize;
    while digits.len() <= places {
        digits.insert(0, '0');
    }
    if places > 0 {
        digits.insert(digits.len() - places, '.');
    }
    if value < 0.0 && scaled > 0.0 {
        digits.insert(0, '-');
    }
    digits
}

/// A number with at most fifteen figures: as many as come back the same from every text.
pub(crate) fn digits(value: f64) -> String {
    let mut whole = value.abs();
    let mut places = 14;
    while whole >= 10.0 && places > 0 {
        whole /= 10.0;
        places -= 1;
    }
    while whole < 1.0 && whole > 0.0 && places < 22 {
        whole *= 10.0;
        places += 1;
    }
    without_zeros(&decimal(value, places)).to_owned()
}

/// A number in digits without the zeros that end it behind the point.
/// ```
/// use rigging_core::quantity::without_zeros;
///
/// assert_eq!(["1.50", "2.0", "300"].map(without_zeros), ["1.5", "2", "300"]);
/// ```
pub fn without_zeros(text: &str) -> &str {
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { text }
}

/// The number that a text of decimal digits means: a sign, digits, a point, an exponent; or none. What is larger than any
/// float is infinite, as the standard library reads it.
///
/// Exact up to fifteen digits and 10^±22, to a few parts in 10^16 beyond. The counterpart of [`decimal`]:
/// the standard library's reader brings tables that are a twentieth of a small module.
/// ```
/// use rigging_core::quantity::number;
///
/// assert_eq!(number("-1.25e3"), Some(-1250.0));
/// assert_eq!(number("1,25"), None);
/// ```
pub fn number(text: &str) -> Option<f64> {
    let (text, exponent) = match text.split_once(['e', 'E']) {
        Some((digits, exponent)) => (digits, exponent.parse::<i32>().ok()?),
        None => (text, 0),
    };
    let (digits, sign) = match text.strip_prefix('-') {
        Some(digits) => (digits, -1.0),
        None => (text.strip_prefix('+').unwrap_or(text), 1.0),
    };
    let (whole, fraction) = digits.split_once('.').unwrap_or((digits, ""));
    let (mut mantissa, mut scale, mut any) = (0_u64, exponent, false);
    for (place, digit) in whole.bytes().map(|digit| (0, digit)).chain(fraction.bytes().map(|digit| (1, digit))) {
        if !digit.is_ascii_digit() {
            return None;
        }
        any = true;
        // Digits that no float can hold only move the point.
        if mantissa < 1_000_000_000_000_000_000 {
            mantissa = mantissa * 10 + u64::from(digit - b'0');
            scale = scale.saturating_sub(place);
        } else {
            scale = scale.saturating_add(1 - place);
        }
    }
    let size = mantissa as f64;
    let power = |scale: i32| 10_f64.powi(scale.min(308));
    let value = match scale {
        _ if mantissa == 0 => 0.0,
        0.. => size * power(scale),
        -308.. => size / power(-scale),
        _ => size / power(308) / power(scale.saturating_neg() - 308),
    };
    any.then_some(sign * if scale > 308 { f64::INFINITY.min(value * power(scale - 308)) } else { value })
}

#[cfg(test)]
mod tests {
    use super::*;

    const UNITS: [Unit; 17] = [
        Unit::Kilonewton,
        Unit::Newton,
        Unit::PoundForce,
        Unit::KilogramForce,
        Unit::Metre,
        Unit::Foot,
        Unit::Millimetre,
        Unit::Inch,
        Unit::Kilogram,
        Unit::Pound,
        Unit::Degree,
        Unit::Percent,
        Unit::Megajoule,
        Unit::MetrePerSecond,
        Unit::FootPerSecond,
        Unit::Second,
        Unit::One,
    ];

    #[test]
    fn every_unit_reads_back_what_it_wrote() {
        for unit in UNITS {
            approx::assert_relative_eq!(unit.from_si(unit.to_si(3.7)), 3.7, max_relative = 1e-14);
        }
    }

    #[test]
    fn decimals_are_those_of_the_standard_library() {
        for value in [0.0, 0.04, 0.05, -0.04, 0.96, 1.25, -3.7, 12_345.678, 1e15, -0.5] {
            for places in 0..3 {
                // Halves go away from zero here and to even there: none is among these.
                let expected = format!("{:.*}", places, value + f64::signum(value) * 1e-9);
                let expected = if expected.trim_start_matches(['-', '0', '.']).is_empty() {
                    expected.replace('-', "")
                } else {
                    expected
                };
                assert_eq!(decimal(value, places as u32), expected, "{value} {places}");
            }
        }
        assert_eq!(decimal(f64::NAN, 1), "—");
        assert_eq!(decimal(f64::NEG_INFINITY, 1), "—");
    }

    #[test]
    fn numbers_are_those_of_the_standard_library() {
        for text in
            ["0", "-0", "1.5", "+2.25", ".5", "5.", "0.1", "123456789.012345", "1e3", "2.5E-3", "-7.25e+2", "9e22"]
        {
            assert_eq!(number(text), text.parse().ok(), "{text}");
        }
        for text in
            ["1e-300", "3.14159265358979323846", "1e300", "12345678901234567890123", "4.9e-310", "0.000000001e-5"]
        {
            let expected: f64 = text.parse().unwrap();
            approx::assert_relative_eq!(number(text).unwrap(), expected, max_relative = 2e-14);
        }
        assert_eq!(number("1e999"), Some(f64::INFINITY));
        assert_eq!(number("-1e999"), Some(f64::NEG_INFINITY));
        assert_eq!(number("1e-999"), Some(0.0));
        for text in [
            "",
            "-",
            ".",
            "e5",
            "1e",
            "1.2.3",
            "1,5",
            "abc",
            "--1",
            "+-1",
            "1e2.5",
            "NaN",
            "inf",
            "1e99999999999",
            "１",
        ] {
            assert_eq!(number(text), None, "{text}");
        }
    }

    #[test]
    fn units_have_their_exact_factors() {
        // NIST Special Publication 811 (2008), appendix B.8: exact definitions.
        assert_eq!(Unit::PoundForce.to_si(1.0), 4.448_221_615_260_5);
        assert_eq!(Unit::KilogramForce.to_si(1.0), 9.806_65);
        assert_eq!(Unit::Foot.to_si(1.0), 0.3048);
        assert_eq!(Unit::Pound.to_si(1.0), 0.453_592_37);
    }
}
