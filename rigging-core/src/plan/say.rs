//! Numbers in words, for the plain text of a plan: rounded so that they never flatter.

use crate::band::Band;
use crate::quantity::{Kind, Unit, decimal};
use crate::question::{End, Finding};

/// A number rounded away from what flatters: up if `up`.
fn rounded(value: f64, places: u32, up: bool) -> String {
    let scale = 10_f64.powi(places as i32);
    // What differs only by how it was calculated is not rounded on.
    let scaled = value * scale;
    let whole = if up { (scaled - 1e-6).ceil() } else { (scaled + 1e-6).floor() };
    decimal(whole / scale, places)
}

/// An amount with its unit.
pub fn amount(value: f64, kind: Kind, up: bool) -> String {
    amount_beside(value, kind, up, value)
}

/// An amount in the unit that `other` is told in, so that nobody reads newtons beside kilonewtons.
fn amount_beside(value: f64, kind: Kind, up: bool, other: f64) -> String {
    let (unit, places) = match kind {
        Kind::Force if other.abs() < 1000.0 => (Unit::Newton, 0),
        Kind::Force => (Unit::Kilonewton, if value.abs() < 1000.0 { 2 } else { 1 }),
        Kind::Thickness => (Unit::Millimetre, 0),
        Kind::Length => (Unit::Metre, 1),
        Kind::Mass => (Unit::Kilogram, 1),
        Kind::Angle => (Unit::Degree, 0),
        Kind::Speed => (Unit::MetrePerSecond, 1),
        Kind::Time => (Unit::Second, 0),
        Kind::Ratio => (Unit::One, if value.abs() < 1.0 { 2 } else { 1 }),
        Kind::Count => (Unit::One, 0),
    };
    let number = rounded(unit.from_si(value), places, up);
    let number = if places > 0 && number.contains('.') {
        number.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        number
    };
    match unit {
        Unit::One => number,
        Unit::Degree => number + "°",
        _ => [&number, " ", unit.symbol()].concat(),
    }
}

/// A range, its ends rounded apart; one amount if it has no width.
pub fn range(band: &Band, kind: Kind) -> String {
    let (low, high) = (amount_beside(band.low(), kind, false, band.high()), amount(band.high(), kind, true));
    if band.is_exact() || low == high { high } else { [low, " to ".to_owned(), high].concat() }
}

/// A finding as the sentence that its `what` ends: "up to 2 kN on the left anchor".
pub fn finding(finding: &Finding) -> String {
    let up = finding.end == End::High;
    let said = match finding.end {
        End::High => "up to ",
        End::Low if finding.at_most => "at most ",
        End::Low => "at least ",
    };
    [said, &amount(finding.adverse(), finding.kind, up), " ", &finding.what].concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn loads_are_rounded_up_and_strengths_down() {
        assert_eq!(amount(5297.2, Kind::Force, true), "5.3 kN");
        assert_eq!(amount(5297.2, Kind::Force, false), "5.2 kN");
        assert_eq!(amount(4000.0, Kind::Force, true), "4 kN");
        assert_eq!(amount(273.2, Kind::Force, true), "274 N");
        assert_eq!(amount(0.0832, Kind::Ratio, false), "0.08");
        assert_eq!(amount(0.009, Kind::Thickness, true), "9 mm");
        assert_eq!(range(&Band::of(9.0, 10.0, 12.04), Kind::Length), "9 m to 12.1 m");
        assert_eq!(range(&Band::of(627.4, 900.0, 1180.0), Kind::Force), "0.62 kN to 1.2 kN");
        assert_eq!(range(&Band::of(36.0, 300.0, 775.0), Kind::Force), "36 N to 775 N");
        assert_eq!(range(&Band::exact(12.0), Kind::Length), "12 m");
    }
}
