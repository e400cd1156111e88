//! One published answer: what goes in, what should come out, how near, and where it was read.

use crate::law::OutOfDomain;
use crate::quantity::{Angle, Force, Length, Mass, Ratio, Velocity, VolumeRate};
use crate::quantity::{
    degree, foot, inch, kilogram, kilonewton, litre_per_second, metre, metre_per_second, millimetre, newton,
    pound_force, ratio, square_metre,
};
use crate::working::Known;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::fmt;
use uom::si::acceleration::meter_per_second_squared;
use uom::si::angle::revolution;
use uom::si::area::square_inch;
use uom::si::energy::{joule, megajoule};
use uom::si::f64::{Acceleration, Area, Energy, Pressure};
use uom::si::length::centimeter;
use uom::si::pressure::{megapascal, pascal, psi};
use uom::si::velocity::mile_per_hour;

/// A published answer and what it was the answer to.
/// ```
/// use rigging_core::published::{Input, Row};
/// use rigging_core::working::Known;
///
/// let row: Row = serde_json::from_str(
///     r#"{"id": "F10", "what": "600 lb on a single luff, friction not counted",
///         "inputs": {"load_lbf": 600, "efficiency": 1},
///         "expected": [{"what": "pull", "unit": "lbf", "values": [200], "within": {"relative": 1e-12}}],
///         "source": {"title": "US Navy, Builder", "place": "single luff, 600 lb", "known": "published"}}"#,
/// )?;
/// assert_eq!((row.inputs.get("load_lbf"), row.inputs.get("load_n")), (Some(&Input::Number(600.0)), None));
/// assert_eq!((row.expected[0].values[0], row.source.known), (200.0, Known::Published));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// Its id: a letter for the topic and a number.
    pub id: String,
    /// The case, in a sentence.
    pub what: String,
    /// What goes in; each name ends in its unit (`load_lbf`, `slope_deg`).
    pub inputs: BTreeMap<String, Input>,
    /// What should come out.
    pub expected: Vec<Expected>,
    /// Where the answer was read.
    pub source: WrittenIn,
}

/// One input of a row.
/// ```
/// use rigging_core::published::Input;
///
/// let read = |json: &str| serde_json::from_str::<Input>(json);
/// assert_eq!(read("true")?, Input::Flag(true));
/// assert_eq!((read("9.8")?, read("[30, 45]")?), (Input::Number(9.8), Input::Numbers(vec![30.0, 45.0])));
/// # Ok::<(), serde_json::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(untagged)]
pub enum Input {
    /// Yes or no.
    Flag(bool),
    /// One number.
    Number(f64),
    /// Several cases in a row.
    Numbers(Vec<f64>),
}

/// A list of answers of one kind.
/// ```
/// use rigging_core::published::Expected;
///
/// // One unit for all of its values, and how near they must be met has to be said.
/// let read = |json: &str| serde_json::from_str::<Expected>(json);
/// let pulls = read(r#"{"what": "pull", "unit": "lbf", "values": [200, 300], "within": {"absolute": 0.5}}"#)?;
/// assert_eq!((pulls.unit.as_str(), pulls.values), ("lbf", vec![200.0, 300.0]));
/// assert!(read(r#"{"what": "pull", "unit": "lbf", "values": [200, 300]}"#).is_err());
/// # Ok::<(), serde_json::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Expected {
    /// What they are.
    pub what: String,
    /// The unit in which they are printed; empty for plain numbers.
    pub unit: String,
    /// The answers as printed.
    pub values: Vec<f64>,
    /// How near they must be met.
    pub within: Within,
}

/// How near an answer must be met.
/// ```
/// use rigging_core::published::Within;
///
/// let read = |json: &str| serde_json::from_str::<Within>(json);
/// assert_eq!(read(r#"{"absolute": 0.05}"#)?, Within::Absolute(0.05));
/// assert_eq!(read(r#"{"relative": 0.01}"#)?, Within::Relative(0.01));
/// # Ok::<(), serde_json::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Within {
    /// So much, in the unit of the answer.
    Absolute(f64),
    /// So large a share of the answer.
    Relative(f64),
}

/// The work a published answer stands in.
/// ```
/// use rigging_core::published::WrittenIn;
///
/// // What was only recalled says so, and how a work is known has to be said.
/// let read = |json: &str| serde_json::from_str::<WrittenIn>(json);
/// let recalled = read(r#"{"title": "A course", "place": "table 2", "known": "memory"}"#)?;
/// assert_eq!(recalled.known.word(), "from memory");
/// assert!(read(r#"{"title": "A course", "place": "table 2"}"#).is_err());
/// # Ok::<(), serde_json::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WrittenIn {
    /// The work; for what was worked out here, from what.
    pub title: String,
    /// Where in it.
    pub place: String,
    /// How it is known.
    pub known: Known,
}

/// An expected value beside this library's own.
/// ```
/// use rigging_core::published::Checked;
///
/// // 2 of 3 N that it may be off; and exactly met, however little is allowed.
/// let off = Checked { what: "pull".into(), unit: "N".into(), expected: 100.0, got: 102.0, tolerance: 3.0 };
/// assert!((off.misses_by() - 2.0 / 3.0).abs() < 1e-12);
/// assert_eq!(Checked { got: 100.0, tolerance: 0.0, ..off }.misses_by(), 0.0);
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Checked {
    /// What it is.
    pub what: String,
    /// The unit of the two values.
    pub unit: String,
    /// As published.
    pub expected: f64,
    /// As worked out here.
    pub got: f64,
    /// How far they may be apart.
    pub tolerance: f64,
}

impl Checked {
    /// The difference as a share of what is allowed: more than 1 is a miss.
    /// ```
    /// use rigging_core::published::Checked;
    ///
    /// // Too little misses as too much does: 2 N off where 1 N is allowed. What is no number is never near enough.
    /// let checked = |got| Checked { what: "pull".into(), unit: "N".into(), expected: 100.0, got, tolerance: 1.0 };
    /// assert_eq!((checked(98.0).misses_by(), checked(102.0).misses_by()), (2.0, 2.0));
    /// assert!(!(checked(f64::NAN).misses_by() <= 1.0));
    /// ```
    pub fn misses_by(&self) -> f64 {
        let difference = (self.got - self.expected).abs();
        if difference == 0.0 { 0.0 } else { difference / self.tolerance }
    }
}

/// Why a row has no answer.
/// ```
/// use rigging_core::published::{Row, Unanswered, check};
///
/// let mut row: Row = serde_json::from_str(
///     r#"{"id": "F10", "what": "600 lb on a single luff, friction not counted",
///         "inputs": {"load_lbf": 600, "efficiency": 1},
///         "expected": [{"what": "pull", "unit": "lbf", "values": [200], "within": {"relative": 1e-12}}],
///         "source": {"title": "US Navy, Builder", "place": "single luff, 600 lb", "known": "published"}}"#,
/// )?;
/// // Without its load there is no answer, and to an id that nobody knows neither.
/// row.inputs.remove("load_lbf");
/// assert!(matches!(check(&row), Err(Unanswered::NoInput { name: "load", .. })));
/// row.id = "X1".to_owned();
/// assert_eq!(check(&row), Err(Unanswered::NoFunction { id: "X1".to_owned() }));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Unanswered {
    /// No function has this id.
    NoFunction {
        /// The id.
        id: String,
    },
    /// The row lacks an input, or it is not of the kind that is needed.
    NoInput {
        /// The name without its unit.
        name: &'static str,
        /// What it must be.
        must: &'static str,
    },
    /// A unit that is not known here.
    NoUnit {
        /// The unit as the row has it.
        unit: String,
    },
    /// More or fewer answers than the row expects.
    WrongCount {
        /// How many the row expects, list by list.
        expected: Vec<usize>,
        /// How many there are.
        got: Vec<usize>,
    },
    /// A law refused an input.
    Refused(OutOfDomain),
}

impl fmt::Display for Unanswered {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Unanswered::NoFunction { id } => write!(f, "no function answers {id}"),
            Unanswered::NoInput { name, must } => write!(f, "there is no input {name}: it must be {must}"),
            Unanswered::NoUnit { unit } => write!(f, "{unit} is not a unit known here"),
            Unanswered::WrongCount { expected, got } => write!(f, "{expected:?} values are expected, {got:?} came out"),
            Unanswered::Refused(error) => write!(f, "{error}"),
        }
    }
}

impl std::error::Error for Unanswered {}

impl From<OutOfDomain> for Unanswered {
    fn from(error: OutOfDomain) -> Self {
        Unanswered::Refused(error)
    }
}

/// Makes the two readers of a quantity: one value, several values; the ending of the name is the unit.
macro_rules! reads {
    ($one:ident, $several:ident, $quantity:ident, $($ending:literal => $unit:ident),+) => {
        pub(super) fn $several(&self, name: &'static str) -> Result<Vec<$quantity>, Unanswered> {
            $(if let Some(input) = self.inputs.get(&format!("{name}{}", $ending)) {
                let numbers = match input {
                    Input::Number(number) => std::slice::from_ref(number),
                    Input::Numbers(numbers) => numbers,
                    Input::Flag(_) => &[],
                };
                return Ok(numbers.iter().map(|&number| $quantity::new::<$unit>(number)).collect());
            })+
            Err(Unanswered::NoInput { name, must: concat!("numbers, named with", $(" ", $ending),+) })
        }
        pub(super) fn $one(&self, name: &'static str) -> Result<$quantity, Unanswered> {
            match self.$several(name)?.as_slice() {
                [value] => Ok(*value),
                _ => Err(Unanswered::NoInput { name, must: "one number" }),
            }
        }
    };
}

impl Row {
    reads!(force, forces, Force, "_n" => newton, "_kn" => kilonewton, "_lbf" => pound_force);
    reads!(length, lengths, Length, "_m" => metre, "_mm" => millimetre, "_ft" => foot);
    reads!(angle, angles, Angle, "_deg" => degree, "_turns" => revolution);
    reads!(mass, masses, Mass, "_kg" => kilogram);
    reads!(plain, plains, Ratio, "" => ratio);
    reads!(gravity, gravities, Acceleration, "_m_per_s2" => meter_per_second_squared);
    reads!(area, areas, Area, "_in2" => square_inch, "_m2" => square_metre);
    reads!(pressure, pressures, Pressure, "_psi" => psi, "_pa" => pascal, "_mpa" => megapascal);
    reads!(speed, speeds, Velocity, "_m_per_s" => metre_per_second, "_mph" => mile_per_hour);
    reads!(flow, flows, VolumeRate, "_l_per_s" => litre_per_second);

    pub(super) fn flag(&self, name: &'static str) -> Result<bool, Unanswered> {
        match self.inputs.get(name) {
            Some(Input::Flag(flag)) => Ok(*flag),
            _ => Err(Unanswered::NoInput { name, must: "true or false" }),
        }
    }

    /// The weight of the row's mass at the row's gravity.
    pub(super) fn weight(&self) -> Result<Force, Unanswered> {
        Ok(self.mass("mass")? * self.gravity("gravity")?)
    }

    /// The row's expected values beside answers in SI.
    pub(super) fn beside(&self, answers: &[Vec<f64>]) -> Result<Vec<Checked>, Unanswered> {
        let expected: Vec<usize> = self.expected.iter().map(|list| list.values.len()).collect();
        let got: Vec<usize> = answers.iter().map(Vec::len).collect();
        if expected != got {
            return Err(Unanswered::WrongCount { expected, got });
        }
        let mut checked = Vec::new();
        for (list, answers) in self.expected.iter().zip(answers) {
            for (&expected, &si) in list.values.iter().zip(answers) {
                let tolerance = match list.within {
                    Within::Absolute(tolerance) => tolerance,
                    Within::Relative(share) => share * expected.abs(),
                };
                let (what, unit) = (list.what.clone(), list.unit.clone());
                checked.push(Checked { got: in_unit(si, &unit)?, what, unit, expected, tolerance });
            }
        }
        Ok(checked)
    }
}

fn in_unit(si: f64, unit: &str) -> Result<f64, Unanswered> {
    Ok(match unit {
        "" => si,
        "N" | "m/s" | "m²/s" | "m³" => si,
        "kN" => Force::new::<newton>(si).get::<kilonewton>(),
        "lbf" => Force::new::<newton>(si).get::<pound_force>(),
        "cm" => Length::new::<metre>(si).get::<centimeter>(),
        "m" => si,
        "MJ" => Energy::new::<joule>(si).get::<megajoule>(),
        "in" => Length::new::<metre>(si).get::<inch>(),
        "psi" => Pressure::new::<pascal>(si).get::<psi>(),
        unit => return Err(Unanswered::NoUnit { unit: unit.to_owned() }),
    })
}
