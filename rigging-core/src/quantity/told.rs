//! Numbers as they are told: rounded so that they never flatter, in the units a person chose, one system at a time.

use super::{Kind, Unit, decimal, without_zeros};

/// Which way a number is rounded.
/// ```
/// use rigging_core::quantity::{Toward, figures};
///
/// let told = |toward| figures(2.34, 2, toward);
/// assert_eq!([Toward::Nearest, Toward::More, Toward::Less].map(told), ["2.3", "2.4", "2.3"]);
/// // Below zero too: what is told as up to so much is never more.
/// assert_eq!([Toward::More, Toward::Less].map(|toward| figures(-2.34, 2, toward)), ["−2.3", "−2.4"]);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Toward {
    /// To the nearest.
    Nearest,
    /// To the larger number, so that a load is never shown too small. What lies above a figure by less than a part in 10⁹
    /// of it and a thousandth of its last place is this figure, as for the other way.
    More,
    /// To the smaller number, so that a strength is never shown too large.
    Less,
}

/// Rounds to some significant figures; a dash for what is not a number or has more than eighteen digits, 0 for what is less
/// than 10⁻¹².
/// ```
/// use rigging_core::quantity::{Toward, figures};
///
/// // A load is never told too small, a strength never too large.
/// assert_eq!((figures(4.612, 2, Toward::More), figures(4.612, 2, Toward::Less)), ("4.7".into(), "4.6".into()));
/// ```
pub fn figures(value: f64, figures: i32, toward: Toward) -> String {
    if !value.is_finite() {
        return "—".to_owned();
    }
    let (shown, place) = shown(value, figures, toward);
    let sign = if value < 0.0 && shown != 0.0 { "−" } else { "" };
    format!("{sign}{}", decimal(shown, u32::try_from(place).unwrap_or(0)))
}

/// The size of a finite value rounded to some figures, and how many places it has behind the point. What is less than
/// 10⁻¹² is nothing.
fn shown(value: f64, figures: i32, toward: Toward) -> (f64, i32) {
    // A float has no more.
    let figures = figures.clamp(1, 17);
    let size = value.abs();
    if size < 1e-12 {
        return (0.0, 0);
    }
    let toward = match toward {
        Toward::More if value < 0.0 => Toward::Less,
        Toward::Less if value < 0.0 => Toward::More,
        same => same,
    };
    let mut place = figures - 1 - size.log10().floor() as i32;
    let mut scaled = rounded(size * 10_f64.powi(place), toward);
    if scaled >= 10_f64.powi(figures) {
        place -= 1;
        scaled = rounded(size * 10_f64.powi(place), toward);
    }
    (scaled / 10_f64.powi(place), place)
}

fn rounded(scaled: f64, toward: Toward) -> f64 {
    // What is above the figure by less than the error of the arithmetic is the figure: of the arithmetic before, and of
    // a float.
    let slack = (1e-9 * scaled).min(1e-3) + f64::EPSILON * scaled;
    match toward {
        Toward::Nearest => scaled.round(),
        Toward::More => (scaled - slack).ceil(),
        Toward::Less => (scaled + slack).floor(),
    }
}

/// The chosen units.
/// ```
/// use rigging_core::quantity::{Kind, Toward, Unit, Units};
///
/// let (metric, imperial) = (Units::default(), Units { force: Unit::PoundForce, length: Unit::Foot });
/// // 1 lbf = 4.448 N: 1000 lbf are 4448 N.
/// assert_eq!(metric.show(4448.0, Kind::Force, Toward::More), "4.5\u{a0}kN");
/// assert_eq!(imperial.show(4448.0, Kind::Force, Toward::More), "1000\u{a0}lbf");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Units {
    /// kN, lbf or kgf.
    pub force: Unit,
    /// m or ft; masses and thicknesses go with it: kg and mm, or lb and in.
    pub length: Unit,
}

impl Default for Units {
    fn default() -> Self {
        Units { force: Unit::Kilonewton, length: Unit::Metre }
    }
}

impl Units {
    /// The unit for a kind of quantity.
    /// ```
    /// use rigging_core::quantity::{Kind, Unit, Units};
    ///
    /// // Masses and thicknesses go with the unit of length.
    /// let feet = Units { force: Unit::Kilonewton, length: Unit::Foot };
    /// assert_eq!(feet.of(Kind::Mass), Unit::Pound);
    /// assert_eq!(feet.of(Kind::Thickness), Unit::Inch);
    /// assert_eq!(feet.of(Kind::Force), Unit::Kilonewton);
    /// ```
    pub fn of(self, kind: Kind) -> Unit {
        match (kind, self.length == Unit::Foot) {
            (Kind::Force, _) => self.force,
            (Kind::Length, _) => self.length,
            (Kind::Thickness, true) => Unit::Inch,
            (Kind::Thickness, false) => Unit::Millimetre,
            (Kind::Mass, true) => Unit::Pound,
            (Kind::Mass, false) => Unit::Kilogram,
            (Kind::Angle, _) => Unit::Degree,
            (Kind::Speed, true) => Unit::FootPerSecond,
            (Kind::Speed, false) => Unit::MetrePerSecond,
            (Kind::Time, _) => Unit::Second,
            (Kind::Ratio | Kind::Count, _) => Unit::One,
        }
    }

    /// A value of a kind with its unit, in two significant figures.
    /// ```
    /// use rigging_core::quantity::{Kind, Toward, Units};
    ///
    /// // A load is told no smaller, a strength no larger than it is.
    /// assert_eq!(Units::default().show(4612.0, Kind::Force, Toward::More), "4.7\u{a0}kN");
    /// assert_eq!(Units::default().show(4692.0, Kind::Force, Toward::Less), "4.6\u{a0}kN");
    /// ```
    pub fn show(self, si: f64, kind: Kind, toward: Toward) -> String {
        self.with_figures(si, kind, 2, toward)
    }

    /// In how many figures a load and a limit are told: in two, or in as many as it takes for a load below its limit to
    /// read so.
    /// ```
    /// use rigging_core::quantity::Units;
    ///
    /// // 4.23 and 4.28 kN would read 4.3 and 4.2 kN, 12.1 and 12.9 both 12 or 13.
    /// let told = |load, limit| Units::default().figures_beside(load, limit);
    /// assert_eq!((told(4230.0, 4280.0), told(4100.0, 4300.0), told(12_100.0, 12_900.0)), (3, 2, 3));
    /// // What is not below its limit is told as ever.
    /// assert_eq!(told(4280.0, 4230.0), 2);
    /// ```
    pub fn figures_beside(self, load: f64, limit: f64) -> i32 {
        let unit = self.of(Kind::Force);
        let told = |force, digits, toward| shown(unit.from_si(force), digits, toward).0;
        let reads = |&digits: &i32| told(load, digits, Toward::More) < told(limit, digits, Toward::Less);
        (2..10).find(reads).unwrap_or(2)
    }

    /// A value of a kind with its unit, in some significant figures.
    /// ```
    /// use rigging_core::quantity::{Kind, Toward, Units};
    ///
    /// let told = |digits| Units::default().with_figures(4612.0, Kind::Force, digits, Toward::Nearest);
    /// assert_eq!([1, 2, 3, 4].map(told), ["5\u{a0}kN", "4.6\u{a0}kN", "4.61\u{a0}kN", "4.612\u{a0}kN"]);
    /// ```
    pub fn with_figures(self, si: f64, kind: Kind, digits: i32, toward: Toward) -> String {
        let unit = self.of(kind);
        with_unit(&figures(unit.from_si(si), digits, toward), unit)
    }

    /// A value of a kind with its unit, in three significant figures without needless zeros: what was measured or
    /// entered, and what is set beside it.
    /// ```
    /// use rigging_core::quantity::{Kind, Toward, Unit, Units};
    ///
    /// let feet = Units { force: Unit::PoundForce, length: Unit::Foot };
    /// // 60 m are 196.85 ft: a rope is not made longer by telling its length.
    /// assert_eq!(feet.measured(60.0, Kind::Length, Toward::Less), "196\u{a0}ft");
    /// ```
    pub fn measured(self, si: f64, kind: Kind, toward: Toward) -> String {
        let unit = self.of(kind);
        with_unit(without_zeros(&figures(unit.from_si(si), 3, toward)), unit)
    }

    /// A value for the working: three figures, and for forces and lengths the other system beside it.
    /// ```
    /// use rigging_core::quantity::{Kind, Unit, Units};
    ///
    /// // 10 ft are 3.048 m, and 1000 lbf are 4448 N.
    /// let feet = Units { force: Unit::PoundForce, length: Unit::Foot };
    /// assert_eq!(feet.worked(3.048, Kind::Length), "10.0\u{a0}ft (3.05\u{a0}m)");
    /// assert_eq!(Units::default().worked(4448.0, Kind::Force), "4.45\u{a0}kN (1000\u{a0}lbf)");
    /// ```
    pub fn worked(self, si: f64, kind: Kind) -> String {
        let mine = self.with_figures(si, kind, 3, Toward::Nearest);
        let other = Units {
            force: if self.force == Unit::Kilonewton { Unit::PoundForce } else { Unit::Kilonewton },
            length: if self.length == Unit::Metre { Unit::Foot } else { Unit::Metre },
        };
        match kind {
            Kind::Force | Kind::Length | Kind::Mass => {
                format!("{mine} ({})", other.with_figures(si, kind, 3, Toward::Nearest))
            }
            Kind::Count => figures(si, 3, Toward::Nearest),
            _ => mine,
        }
    }
}

/// A number with its unit behind it.
/// ```
/// use rigging_core::quantity::{Unit, with_unit};
///
/// // A space that no line breaks at; none before a degree; a plain number stands alone.
/// assert_eq!(with_unit("60", Unit::Metre), "60\u{a0}m");
/// assert_eq!(with_unit("30", Unit::Degree), "30°");
/// assert_eq!(with_unit("3", Unit::One), "3");
/// ```
pub fn with_unit(number: &str, unit: Unit) -> String {
    match unit {
        Unit::One => number.to_owned(),
        Unit::Degree => format!("{number}°"),
        unit => format!("{number}\u{a0}{}", unit.symbol()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn loads_are_shown_no_smaller_and_strengths_no_larger_than_they_are() {
        assert_eq!(figures(4.612, 2, Toward::More), "4.7");
        assert_eq!(figures(4.612, 2, Toward::Less), "4.6");
        assert_eq!(figures(4.612, 2, Toward::Nearest), "4.6");
        assert_eq!(figures(9.96, 2, Toward::More), "10");
        assert_eq!(figures(2.000_000_000_000_1, 2, Toward::More), "2.0");
        assert_eq!(figures(0.093_2, 2, Toward::More), "0.094");
        assert_eq!(figures(1234.0, 2, Toward::More), "1300");
        assert_eq!(figures(-0.52, 2, Toward::Nearest), "−0.52");
        assert_eq!(figures(-7.039, 2, Toward::More), "−7.0");
        assert_eq!(figures(-7.039, 2, Toward::Less), "−7.1");
        assert_eq!(figures(0.0, 2, Toward::More), "0");
        assert_eq!(figures(f64::NAN, 2, Toward::More), "—");
        assert_eq!(figures(f64::INFINITY, 2, Toward::More), "—");
    }

    #[test]
    fn as_many_figures_as_a_float_has_are_rounded_the_right_way_too() {
        let told = |value, count, toward| figures(value, count, toward).parse::<f64>().unwrap();
        for step in 1..=400 {
            let value = 1.234_567_890_123_45_f64.powi(step % 50) * f64::from(step);
            for count in 6..=17 {
                let slack = (1e-9_f64).min(1e-3 / 10_f64.powi(count - 1)) + 3.0 * f64::EPSILON;
                let (more, less) = (told(value, count, Toward::More), told(value, count, Toward::Less));
                assert!(
                    more >= value * (1.0 - slack) && less <= value * (1.0 + slack),
                    "{value} {count}: {more} {less}"
                );
                // And by less than one of its last figure.
                let unit = 1.01 / 10_f64.powi(count - 1) + 3.0 * f64::EPSILON;
                assert!(more <= value * (1.0 + unit) && less >= value * (1.0 - unit), "{value} {count}: {more} {less}");
            }
        }
        assert_eq!(figures(1.234_567_890_123_45, 15, Toward::More), "1.23456789012345");
        assert_eq!(figures(1.234_567_890_12, 11, Toward::More), "1.2345678902");
        assert_eq!(figures(1e300, 3, Toward::Nearest), "—");
    }

    #[test]
    fn any_number_of_figures_and_places_ends_in_a_text() {
        use super::super::decimal;
        for count in [i32::MIN, -1, 0, 1, 17, 400, i32::MAX] {
            for value in [0.0, 1.5, -1e-300, 1e300, f64::MAX, f64::NAN] {
                for toward in [Toward::More, Toward::Less, Toward::Nearest] {
                    assert!(figures(value, count, toward).len() < 400);
                }
            }
        }
        for places in [0, 17, 400, 1 << 31, u32::MAX] {
            assert!(decimal(1.0, places).len() < 400);
        }
    }

    #[test]
    fn a_force_is_shown_in_one_system_and_worked_in_two() {
        let metric = Units::default();
        let imperial = Units { force: Unit::PoundForce, length: Unit::Foot };
        assert_eq!(metric.show(4612.0, Kind::Force, Toward::More), "4.7\u{a0}kN");
        assert_eq!(imperial.show(4448.0, Kind::Force, Toward::More), "1000\u{a0}lbf");
        assert_eq!(metric.worked(4_448.221_615, Kind::Force), "4.45\u{a0}kN (1000\u{a0}lbf)");
        assert_eq!(imperial.worked(3.048, Kind::Length), "10.0\u{a0}ft (3.05\u{a0}m)");
    }

    #[test]
    fn what_is_measured_has_three_figures_and_no_needless_zeros() {
        let (metric, feet) = (Units::default(), Units { force: Unit::PoundForce, length: Unit::Foot });
        assert_eq!(metric.measured(60.0, Kind::Length, Toward::Less), "60\u{a0}m");
        assert_eq!(metric.measured(12.04, Kind::Length, Toward::More), "12.1\u{a0}m");
        assert_eq!(metric.measured(104.0, Kind::Mass, Toward::More), "104\u{a0}kg");
        assert_eq!(metric.measured(0.009, Kind::Thickness, Toward::Less), "9\u{a0}mm");
        // 60.5 m are 198.49 ft: a rope is not made longer by telling its length.
        assert_eq!(feet.measured(60.5, Kind::Length, Toward::Less), "198\u{a0}ft");
        assert_eq!(feet.measured(60.5, Kind::Length, Toward::More), "199\u{a0}ft");
    }
}
