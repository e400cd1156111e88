//! The units a person chose to read and type in: one system at a time.

use crate::number::{Toward, figures};
use rigging_core::band::Band;
use rigging_core::quantity::{Kind, Unit};
use rigging_core::question::{End, Finding};

/// The chosen units.
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

/// The forces to choose from.
pub const FORCES: [Unit; 3] = [Unit::Kilonewton, Unit::PoundForce, Unit::KilogramForce];
/// The lengths to choose from.
pub const LENGTHS: [Unit; 2] = [Unit::Metre, Unit::Foot];

impl Units {
    /// The unit for a kind of quantity.
    pub fn of(self, kind: Kind) -> Unit {
        let feet = self.length == Unit::Foot;
        match kind {
            Kind::Force => self.force,
            Kind::Length => self.length,
            Kind::Thickness => {
                if feet {
                    Unit::Inch
                } else {
                    Unit::Millimetre
                }
            }
            Kind::Mass => {
                if feet {
                    Unit::Pound
                } else {
                    Unit::Kilogram
                }
            }
            Kind::Angle => Unit::Degree,
            Kind::Speed => {
                if feet {
                    Unit::FootPerSecond
                } else {
                    Unit::MetrePerSecond
                }
            }
            Kind::Time => Unit::Second,
            Kind::Ratio | Kind::Count => Unit::One,
        }
    }

    /// A value of a kind with its unit, in two significant figures.
    pub fn show(self, si: f64, kind: Kind, toward: Toward) -> String {
        self.with_figures(si, kind, 2, toward)
    }

    /// A value of a kind with its unit, in some significant figures.
    pub fn with_figures(self, si: f64, kind: Kind, digits: i32, toward: Toward) -> String {
        let unit = self.of(kind);
        with_unit(&figures(unit.from_si(si), digits, toward), unit)
    }

    /// The end of a finding that hurts, as it is shown big.
    pub fn adverse(self, finding: &Finding) -> String {
        self.show(finding.adverse(), finding.kind, toward(finding.end))
    }

    /// The other end of a finding: rounded away from the adverse end, so that the range shown holds all
    /// of the range found.
    pub fn friendly(self, finding: &Finding) -> String {
        let away = match finding.end {
            End::High => Toward::Less,
            End::Low => Toward::More,
        };
        self.show(finding.friendly(), finding.kind, away)
    }

    /// A range, its ends rounded outward.
    pub fn range(self, band: &Band, kind: Kind) -> String {
        let (low, high) = (self.show(band.low(), kind, Toward::Less), self.show(band.high(), kind, Toward::More));
        if band.is_exact() { self.show(band.typical(), kind, Toward::Nearest) } else { format!("{low} to {high}") }
    }

    /// A value for the working: three figures, and for forces and lengths the other system beside it.
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

    /// The letters of these units in a link: nothing for kN and m.
    pub fn letters(self) -> String {
        let force = match self.force {
            Unit::PoundForce => "p",
            Unit::KilogramForce => "k",
            _ => "",
        };
        let length = if self.length == Unit::Foot { "f" } else { "" };
        format!("{force}{length}")
    }

    /// The units of these letters.
    pub fn from_letters(letters: &str) -> Option<Self> {
        let mut units = Units::default();
        for letter in letters.chars() {
            match letter {
                'p' => units.force = Unit::PoundForce,
                'k' => units.force = Unit::KilogramForce,
                'f' => units.length = Unit::Foot,
                _ => return None,
            }
        }
        Some(units)
    }
}

/// How the adverse end is rounded.
pub fn toward(end: End) -> Toward {
    match end {
        End::High => Toward::More,
        End::Low => Toward::Less,
    }
}

/// A number with its unit behind it.
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
    fn a_force_is_shown_in_one_system_and_worked_in_two() {
        let metric = Units::default();
        let imperial = Units { force: Unit::PoundForce, length: Unit::Foot };
        assert_eq!(metric.show(4612.0, Kind::Force, Toward::More), "4.7\u{a0}kN");
        assert_eq!(imperial.show(4448.0, Kind::Force, Toward::More), "1000\u{a0}lbf");
        assert_eq!(metric.worked(4_448.221_615, Kind::Force), "4.45\u{a0}kN (1000\u{a0}lbf)");
        assert_eq!(imperial.worked(3.048, Kind::Length), "10.0\u{a0}ft (3.05\u{a0}m)");
    }

    #[test]
    fn letters_survive_a_link() {
        for force in FORCES {
            for length in LENGTHS {
                let units = Units { force, length };
                assert_eq!(Units::from_letters(&units.letters()), Some(units));
            }
        }
        assert_eq!(Units::from_letters("x"), None);
    }

    #[test]
    fn the_range_shown_holds_the_range_found() {
        let finding = Finding::load("", Band::of(933.7, 2048.8, 4612.5));
        assert_eq!(
            (Units::default().adverse(&finding), Units::default().friendly(&finding)),
            ("4.7\u{a0}kN".into(), "0.93\u{a0}kN".into())
        );
        let strength = Finding::strength("", Band::of(933.7, 2048.8, 4612.5));
        assert_eq!(
            (Units::default().adverse(&strength), Units::default().friendly(&strength)),
            ("0.93\u{a0}kN".into(), "4.7\u{a0}kN".into())
        );
    }
}
