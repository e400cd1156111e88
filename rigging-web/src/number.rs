//! Numbers as people write and read them.

use rigging_core::quantity::{self, Kind, Toward, Unit, figures, without_zeros};

/// What was typed, understood.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Typed {
    /// The value in SI.
    pub si: f64,
    /// The unit that was typed with it, if one was.
    pub unit: Option<Unit>,
}

/// Why something typed is not a number of the kind asked for.
#[derive(Debug, Clone, PartialEq)]
pub enum Unread {
    /// Nothing is there.
    Nothing,
    /// It is not a number.
    NotANumber,
    /// A comma that could part thousands or decimals: the two readings, with the unit if one was typed.
    TwoReadings(String, String),
    /// Too large for any number.
    TooLarge,
    /// A unit that does not measure this.
    WrongUnit(String),
}

/// Reads a number of `kind`, in `unit` unless another unit of that kind is typed with it.
///
/// A comma and a point both part the decimals. `1,234` has two readings and is asked about.
///
/// # Errors
/// [`Unread`] says what to ask.
pub fn read(text: &str, kind: Kind, unit: Unit) -> Result<Typed, Unread> {
    let text = text.trim().replace(['\u{2212}', '\u{2013}'], "-").replace(['\u{a0}', '\u{202f}'], " ");
    if text.is_empty() {
        return Err(Unread::Nothing);
    }
    let end = number_end(&text);
    let (digits, rest) = text.split_at_checked(end).ok_or(Unread::NotANumber)?;
    // Asked about in the unit that was typed with it, which may not be the one beside it.
    let digits = with_a_point(digits).map_err(|unread| match unread {
        Unread::TwoReadings(point, whole) => Unread::TwoReadings(point + rest, whole + rest),
        other => other,
    })?;
    let value = quantity::number(&digits).ok_or(Unread::NotANumber)?;
    if !value.is_finite() {
        return Err(Unread::TooLarge);
    }
    let rest = rest.trim();
    if rest.is_empty() {
        return finite(Typed { si: unit.to_si(value), unit: None });
    }
    if rest == "%" && kind == Kind::Ratio {
        return finite(Typed { si: value / 100.0, unit: None });
    }
    if let Some(feet) = feet_and_inches(value, rest).filter(|_| kind == Kind::Length) {
        return finite(Typed { si: Unit::Foot.to_si(feet), unit: Some(Unit::Foot) });
    }
    if rest.contains(|letter: char| letter.is_ascii_digit() || ".,;:-+".contains(letter)) {
        return Err(Unread::NotANumber);
    }
    if let Some(named) = unit_named(rest) {
        if units_of(kind).contains(&named) {
            return finite(Typed { si: named.to_si(value), unit: Some(named) });
        }
    } else if let Some(per_metre) = centimetres(rest, kind) {
        return finite(Typed { si: value * per_metre, unit: Some(Unit::Metre) });
    }
    Err(Unread::WrongUnit(rest.to_owned()))
}

/// Feet and the inches behind them, as in 5'6" and 5 ft 6 in, in feet.
fn feet_and_inches(feet: f64, rest: &str) -> Option<f64> {
    let (foot, inches) = rest.split_at_checked(rest.find(|letter: char| letter.is_ascii_digit())?)?;
    let (digits, inch) = inches.split_at_checked(number_end(inches))?;
    let inches = quantity::number(digits)?;
    let named = unit_named(foot.trim()) == Some(Unit::Foot)
        && (inch.trim().is_empty() || unit_named(inch.trim()) == Some(Unit::Inch));
    (named && feet.is_sign_positive() && (0.0..12.0).contains(&inches)).then_some(feet + inches / 12.0)
}

fn finite(typed: Typed) -> Result<Typed, Unread> {
    if typed.si.is_finite() { Ok(typed) } else { Err(Unread::TooLarge) }
}

fn centimetres(name: &str, kind: Kind) -> Option<f64> {
    (name.eq_ignore_ascii_case("cm") && matches!(kind, Kind::Length | Kind::Thickness)).then_some(0.01)
}

/// Where the number ends: digits, separators, a sign in front, an exponent behind.
fn number_end(text: &str) -> usize {
    let mut end = 0;
    let mut before = ' ';
    let mut letters = text.char_indices().peekable();
    while let Some((place, letter)) = letters.next() {
        let exponent = matches!(letter, 'e' | 'E')
            && end > 0
            && letters.peek().is_some_and(|(_, next)| next.is_ascii_digit() || matches!(next, '-' | '+'));
        let sign = matches!(letter, '-' | '+') && matches!(before, ' ' | 'e' | 'E');
        if letter.is_ascii_digit() || matches!(letter, '.' | ',') || exponent || sign {
            end = place + letter.len_utf8();
        } else {
            break;
        }
        before = letter;
    }
    end
}

/// The number with a point for its decimals.
fn with_a_point(digits: &str) -> Result<String, Unread> {
    let separators = digits.matches(['.', ',']).count();
    if separators > 1 {
        return Err(Unread::NotANumber);
    }
    if let Some((whole, decimals)) = digits.split_once(',') {
        let leading = whole.trim_start_matches(['-', '+']);
        let thousands = decimals.len() == 3 && (1..=3).contains(&leading.len()) && !leading.starts_with('0');
        if thousands {
            return Err(Unread::TwoReadings(format!("{whole}.{decimals}"), format!("{whole}{decimals}")));
        }
    }
    Ok(digits.replace(',', "."))
}

fn unit_named(name: &str) -> Option<Unit> {
    Some(match name.to_ascii_lowercase().as_str() {
        "kn" => Unit::Kilonewton,
        "n" => Unit::Newton,
        "lbf" => Unit::PoundForce,
        "kgf" => Unit::KilogramForce,
        "m" | "metre" | "metres" | "meter" | "meters" => Unit::Metre,
        "ft" | "foot" | "feet" | "'" | "′" => Unit::Foot,
        "mm" => Unit::Millimetre,
        "in" | "inch" | "inches" | "\"" | "″" => Unit::Inch,
        "kg" => Unit::Kilogram,
        "lb" | "lbs" => Unit::Pound,
        "°" | "deg" | "degrees" => Unit::Degree,
        "s" | "sec" | "seconds" => Unit::Second,
        "m/s" => Unit::MetrePerSecond,
        "ft/s" => Unit::FootPerSecond,
        _ => return None,
    })
}

fn units_of(kind: Kind) -> &'static [Unit] {
    match kind {
        Kind::Force => &[Unit::Kilonewton, Unit::Newton, Unit::PoundForce, Unit::KilogramForce],
        Kind::Length | Kind::Thickness => &[Unit::Metre, Unit::Foot, Unit::Millimetre, Unit::Inch],
        Kind::Mass => &[Unit::Kilogram, Unit::Pound],
        Kind::Angle => &[Unit::Degree],
        Kind::Speed => &[Unit::MetrePerSecond, Unit::FootPerSecond],
        Kind::Time => &[Unit::Second],
        _ => &[],
    }
}

/// A number for a box: what was meant, without the dust of a change of units.
pub fn plain(value: f64) -> String {
    short(value, 6)
}

/// A number to so many figures, without zeros at its end.
pub fn short(value: f64, digits: i32) -> String {
    without_zeros(&figures(value, digits, Toward::Nearest)).replace('−', "-")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn metres(text: &str) -> Result<f64, Unread> {
        read(text, Kind::Length, Unit::Metre).map(|typed| typed.si)
    }

    #[test]
    fn comma_and_point_both_part_the_decimals() {
        assert_eq!(metres("1,5"), Ok(1.5));
        assert_eq!(metres(" 1.5 "), Ok(1.5));
        assert_eq!(metres("0,234"), Ok(0.234));
        assert_eq!(metres("1,2345"), Ok(1.2345));
        assert_eq!(metres(".5"), Ok(0.5));
        assert_eq!(metres("−3"), Ok(-3.0));
        assert_eq!(metres("2e1"), Ok(20.0));
    }

    #[test]
    fn a_comma_with_two_readings_is_asked_about() {
        assert_eq!(metres("1,234"), Err(Unread::TwoReadings("1.234".into(), "1234".into())));
        assert_eq!(metres("-12,000"), Err(Unread::TwoReadings("-12.000".into(), "-12000".into())));
    }

    #[test]
    fn a_typed_unit_is_understood() {
        assert_eq!(metres("1.5 m"), Ok(1.5));
        assert_eq!(metres("150cm"), Ok(1.5));
        assert_eq!(metres("10 ft"), Ok(3.048));
        assert_eq!(metres("10'"), Ok(3.048));
        assert_eq!(read("5", Kind::Length, Unit::Foot).unwrap().si, 1.524);
        assert_eq!(read("10 %", Kind::Ratio, Unit::One).unwrap().si, 0.1);
        assert_eq!(read("2 kN", Kind::Force, Unit::PoundForce).unwrap().si, 2000.0);
    }

    #[test]
    fn feet_are_told_with_their_inches() {
        for text in ["5'6\"", "5' 6", "5 ft 6 in", "5′ 6″", "5ft6in", "5 feet 6 inches"] {
            let read = read(text, Kind::Length, Unit::Metre).unwrap();
            assert!((read.si - 1.6764).abs() < 1e-12 && read.unit == Some(Unit::Foot), "{text}: {read:?}");
        }
        for text in ["5'12\"", "-5'6\"", "5 m 6 in", "5'6 m", "5'6\"7", "5'-6\"", "-0'6\""] {
            assert!(metres(text).is_err(), "{text}");
        }
        assert!(read("5'6\"", Kind::Thickness, Unit::Millimetre).is_err());
    }

    #[test]
    fn a_mass_is_not_a_force_and_a_length_is_not_a_mass() {
        assert_eq!(read("80 kg", Kind::Force, Unit::Kilonewton), Err(Unread::WrongUnit("kg".into())));
        assert_eq!(read("80 m", Kind::Mass, Unit::Kilogram), Err(Unread::WrongUnit("m".into())));
        assert_eq!(metres("3 parsec"), Err(Unread::WrongUnit("parsec".into())));
    }

    #[test]
    fn what_is_no_number_is_said_to_be_none() {
        assert_eq!(metres(""), Err(Unread::Nothing));
        assert_eq!(metres("   "), Err(Unread::Nothing));
        assert_eq!(metres("1e999"), Err(Unread::TooLarge));
        for text in ["abc", "1.2.3", "1,2,3", "--1", "1 2", "NaN", "inf", "e5", ",", "-", "1;2", "🧗"] {
            assert!(
                matches!(metres(text), Err(Unread::NotANumber | Unread::WrongUnit(_))),
                "{text}: {:?}",
                metres(text)
            );
        }
    }

    #[test]
    fn a_box_shows_what_was_meant() {
        assert_eq!(plain(1.5), "1.5");
        assert_eq!(plain(Unit::Pound.from_si(Unit::Pound.to_si(180.0))), "180");
        assert_eq!(plain(Unit::Degree.from_si(Unit::Degree.to_si(15.0))), "15");
        assert_eq!(plain(0.0), "0");
        assert_eq!(plain(-0.25), "-0.25");
        assert_eq!(plain(1_000_000.0), "1000000");
    }
}
