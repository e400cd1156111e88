//! How the number of a field stands in its box: in the chosen unit, a long time in minutes, a time of day on the clock.

use crate::number::{self, Unread, plain};
use rigging_core::quantity::{Kind, Toward, Unit, Units, figures, with_unit};
use rigging_core::question::{About, Takes};

/// How a number is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Written {
    /// In a unit.
    In(Unit),
    /// In minutes.
    Minutes,
    /// In hours and minutes, `9:30`.
    Clock,
}

/// From this bound on (s), a time is written in minutes.
const LONG: f64 = 3600.0;

/// How the number of a field is written.
pub fn written(about: &About, units: Units) -> Written {
    match (about.kind, about.takes) {
        (Kind::Time, Takes::One { most, .. } | Takes::Range { most, .. }) if most >= LONG => {
            // Only these count from midnight, or are told as clocks are set.
            let is_clock = matches!(about.name, "start_s" | "own_last_light_s" | "ahead_of_utc_s");
            if is_clock { Written::Clock } else { Written::Minutes }
        }
        _ => Written::In(units.of(about.kind)),
    }
}

impl Written {
    /// What stands in the box.
    pub fn text(self, si: f64) -> String {
        match self {
            Written::In(unit) => plain(unit.from_si(si)),
            Written::Minutes => plain(si / 60.0),
            Written::Clock => {
                let minutes = (si / 60.0).round();
                let (sign, minutes) = (if minutes < 0.0 { "-" } else { "" }, minutes.abs() as u32);
                let zero = if minutes % 60 < 10 { "0" } else { "" };
                format!("{sign}{}:{zero}{}", minutes / 60, minutes % 60)
            }
        }
    }

    /// The symbol beside the box; empty for none.
    pub fn symbol(self) -> &'static str {
        match self {
            Written::In(unit) => unit.symbol(),
            Written::Minutes => "min",
            Written::Clock => "h:min",
        }
    }

    /// The number with its unit.
    pub fn with_unit(self, text: &str) -> String {
        match self {
            Written::In(unit) => with_unit(text, unit),
            Written::Minutes => format!("{text}\u{a0}min"),
            Written::Clock => text.to_owned(),
        }
    }

    /// A text with its unit, where it is a bare number.
    pub fn in_its_unit(self, text: &str, kind: Kind) -> String {
        match self {
            Written::In(unit)
                if matches!(self.read(text, kind), Ok((_, false)) | Err(Unread::TwoReadings(..)))
                    && !unit.symbol().is_empty() =>
            {
                [text.trim(), " ", unit.symbol()].concat()
            }
            _ => text.to_owned(),
        }
    }

    /// A value near `si` to write like.
    pub fn like(self, si: f64) -> String {
        match self {
            Written::In(unit) => figures(unit.from_si(si), 2, Toward::Nearest),
            other => other.text(si),
        }
    }

    /// The value that a text says (SI), and whether a unit was typed with it.
    ///
    /// # Errors
    /// [`Unread`] says what to ask.
    pub fn read(self, text: &str, kind: Kind) -> Result<(f64, bool), Unread> {
        let unit = match self {
            Written::In(unit) => return number::read(text, kind, unit).map(|typed| (typed.si, typed.unit.is_some())),
            Written::Minutes => 60.0,
            Written::Clock => LONG,
        };
        let text = text.trim();
        if let Some((hours, minutes)) = text.split_once(':') {
            let [hours, minutes] = [hours, minutes].map(|part| number::read(part, Kind::Count, Unit::One));
            let (hours, minutes) = (hours?.si, minutes?.si);
            let whole = hours.fract() == 0.0 && minutes.fract() == 0.0 && (0.0..60.0).contains(&minutes);
            let sign = if text.starts_with(['-', '\u{2212}', '\u{2013}']) { -1.0 } else { 1.0 };
            return if whole { Ok((LONG * hours + sign * 60.0 * minutes, false)) } else { Err(Unread::NotANumber) };
        }
        for (name, seconds) in [("min", 60.0), ("h", LONG), ("s", 1.0)] {
            if let Some(number) = text.strip_suffix(name) {
                return number::read(number, Kind::Count, Unit::One).map(|typed| (seconds * typed.si, true));
            }
        }
        // `10.30` is how some write half past ten: it is not read as a share of an hour.
        if self == Written::Clock && text.contains(['.', ',']) {
            return Err(Unread::NotANumber);
        }
        number::read(text, Kind::Count, Unit::One).map(|typed| (unit * typed.si, false))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_time_of_day_and_a_span_are_read_as_people_write_them() {
        let clock = |text: &str| Written::Clock.read(text, Kind::Time).map(|read| read.0);
        let span = |text: &str| Written::Minutes.read(text, Kind::Time).map(|read| read.0);
        assert_eq!(clock("9:30"), Ok(34_200.0));
        assert_eq!(clock("-3:30"), Ok(-12_600.0));
        for minus in ['\u{2212}', '\u{2013}'] {
            assert_eq!(clock(&format!("{minus}3:30")), Ok(-12_600.0));
        }
        assert_eq!(clock("2"), Ok(7200.0));
        assert_eq!(span("2,5"), Ok(150.0));
        assert_eq!(span("1:30"), Ok(5400.0));
        assert_eq!(span("90 s"), Ok(90.0));
        assert_eq!(span("1.5 h"), Ok(5400.0));
        assert!(clock("10.30").is_err() && clock("10,30").is_err(), "half past ten or 10.3 hours");
        assert_eq!(clock("10.5 h"), Ok(37_800.0));
        for wrong in ["9:75", "9:3x", ":", "9.5:10", "9:30:00", "-"] {
            assert!(clock(wrong).is_err() && span(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn what_stands_in_the_box_is_read_as_it_was() {
        for minutes in [-720, -210, -1, 0, 1, 59, 60, 845, 1440] {
            let si = 60.0 * f64::from(minutes);
            for written in [Written::Clock, Written::Minutes] {
                assert_eq!(written.read(&written.text(si), Kind::Time).map(|read| read.0), Ok(si));
            }
        }
    }
}
