//! Published strengths and limits, each with its standard and how it is known; knots; condition; the
//! resistance of a part.
//!
//! The figures are for new, dry, conditioned specimens, one standard beside the other; they are not what
//! hangs in a canyon. What a part resists is a figure times its knot, its condition and the way it is
//! loaded, each a range: [`resistance`].

pub mod condition;
pub mod factor;
pub mod hardware;
pub mod item;
pub mod knot;
pub mod resistance;
pub mod rope;

use crate::quantity::{Force, Unit, newton};
use crate::working::Source;
use hardware::{BOLT_AXIAL, BOLT_RADIAL};

/// Which way a figure binds.
/// ```
/// use rigging_core::strength::{Bound, hardware, rope};
///
/// // What a part holds is at least its figure; what a person may get is at most.
/// assert_eq!(rope::SEWN_SLING.bound, Bound::AtLeast);
/// assert_eq!(hardware::ARREST_US.bound, Bound::AtMost);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// At least this.
    AtLeast,
    /// At most this.
    AtMost,
    /// About this.
    Typical,
}

/// One published figure.
/// ```
/// use rigging_core::quantity::Unit;
/// use rigging_core::strength::Strength;
/// use rigging_core::working::Source;
///
/// // EN 566: a sewn sling holds at least 22 kN.
/// let sling = Strength::named("sewn sling").ok_or("no such figure")?;
/// assert_eq!((sling.printed, sling.unit, sling.source), (22.0, Unit::Kilonewton, Source::published("EN 566")));
/// # Ok::<(), &'static str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Strength {
    /// Short name, as it stands in JSON.
    pub name: &'static str,
    /// The part and how it is loaded.
    pub part: &'static str,
    /// Which way it binds.
    pub bound: Bound,
    /// The figure as it is printed.
    pub printed: f64,
    /// The unit in which it is printed.
    pub unit: Unit,
    /// The standard with its edition, where in it, and how it is known.
    pub source: Source,
}

impl Strength {
    /// The figure as a force; of no meaning if it measures something else.
    /// ```
    /// use rigging_core::strength::hardware::ARREST_US;
    ///
    /// // OSHA 1910.140 prints 1,800 lbf. By hand: 1800 · 4.4482216152605 = 8006.799.
    /// assert_eq!(ARREST_US.printed, 1800.0);
    /// assert!((ARREST_US.force().value - 8006.799).abs() < 0.001);
    /// ```
    pub fn force(&self) -> Force {
        Force::new::<newton>(self.unit.to_si(self.printed))
    }

    /// The figure with this name that a load can be compared with.
    /// ```
    /// use rigging_core::strength::Strength;
    ///
    /// let link = Strength::named("screw link").ok_or("no such figure")?;
    /// assert_eq!(link.force().value, 25_000.0);
    /// // A limit of the force on a person is in the tables, but no load on a part is compared with it.
    /// assert_eq!(Strength::named("arrest US"), None);
    /// # Ok::<(), &'static str>(())
    /// ```
    pub fn named(name: &str) -> Option<&'static Strength> {
        STRENGTHS.iter().find(|strength| strength.name == name)
    }
}

const fn published(
    name: &'static str,
    part: &'static str,
    bound: Bound,
    printed: f64,
    unit: Unit,
    place: &'static str,
) -> Strength {
    Strength { name, part, bound, printed, unit, source: Source::published(place) }
}

const fn memory(
    name: &'static str,
    part: &'static str,
    bound: Bound,
    printed: f64,
    unit: Unit,
    place: &'static str,
) -> Strength {
    Strength { name, part, bound, printed, unit, source: Source::memory(place) }
}

/// The table of this name that a figure stands in.
/// ```
/// use rigging_core::strength::TABLES;
///
/// let cord = TABLES.iter().find(|table| table.words == "Cord").ok_or("no such table")?;
/// assert_eq!(cord.rows.len(), 5);
/// // EN 564: 0.2 d² kN, d from 4 to 8 mm.
/// for (row, diameter) in cord.rows.iter().zip([4.0, 5.0, 6.0, 7.0, 8.0_f64]) {
///     assert!((row.printed - 0.2 * diameter * diameter).abs() < 1e-12);
/// }
/// # Ok::<(), &'static str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Table {
    /// What is in it.
    pub words: &'static str,
    /// Its figures.
    pub rows: &'static [Strength],
}

/// Every figure there is.
/// ```
/// use rigging_core::strength::{Strength, TABLES};
///
/// // MIL-C-5040H: parachute cord type III, 550 lbf. It is told, but no load is compared with it.
/// let mut rows = TABLES.iter().flat_map(|table| table.rows);
/// assert_eq!(rows.find(|row| row.name == "parachute III").map(|row| row.printed), Some(550.0));
/// assert_eq!(Strength::named("parachute III"), None);
/// ```
pub const TABLES: &[Table] = &[
    Table { words: "Dynamic ropes", rows: rope::DYNAMIC_ROPES },
    Table { words: "Low-stretch ropes", rows: rope::LOW_STRETCH_ROPES },
    Table { words: "Cord", rows: rope::CORDS },
    Table { words: "Tape and slings", rows: rope::TAPES },
    Table { words: "Connectors", rows: hardware::CONNECTORS },
    Table { words: "Anchors in rock", rows: hardware::ANCHORS },
    Table { words: "Harnesses", rows: hardware::HARNESSES },
    Table { words: "Other hardware", rows: hardware::DEVICES },
    Table { words: "People at work: different rules, never one number", rows: hardware::AT_WORK },
];

/// The figures that a load can be compared with, by their places in a link: only ever added to at the end. All
/// are strengths of parts that a load goes through; a limit of the force on a person is not among them, since it
/// must not be compared with the force on an anchor.
/// ```
/// use rigging_core::strength::{Bound, STRENGTHS, hardware};
///
/// // All are the least that a part holds; what a harness may give a person at most is not offered.
/// assert!(STRENGTHS.iter().all(|row| row.bound == Bound::AtLeast));
/// assert!(!STRENGTHS.contains(&hardware::ARREST_EN) && STRENGTHS.contains(&hardware::BOLT_AXIAL));
/// ```
pub const STRENGTHS: &[Strength] = &[
    BOLT_RADIAL,
    BOLT_AXIAL,
    row(hardware::CONNECTORS, "screw link"),
    row(hardware::CONNECTORS, "connector"),
    row(hardware::CONNECTORS, "connector open"),
    rope::SEWN_SLING,
    row(rope::CORDS, "cord 6 mm"),
    row(rope::CORDS, "cord 7 mm"),
    row(rope::LOW_STRETCH_ROPES, "rope A tied"),
    row(rope::LOW_STRETCH_ROPES, "rope B tied"),
    row(hardware::AT_WORK, "work anchor"),
];

/// The row of this name; it does not compile without.
#[expect(clippy::indexing_slicing, clippy::panic, reason = "runs in the compiler")]
pub(crate) const fn row(rows: &[Strength], name: &str) -> Strength {
    let mut place = 0;
    while place < rows.len() {
        if same(rows[place].name.as_bytes(), name.as_bytes()) {
            return rows[place];
        }
        place += 1;
    }
    panic!("there is no row of this name")
}

#[expect(clippy::indexing_slicing, reason = "runs in the compiler")]
const fn same(one: &[u8], other: &[u8]) -> bool {
    let mut place = 0;
    while place < one.len() && place < other.len() && one[place] == other[place] {
        place += 1;
    }
    one.len() == other.len() && place == one.len()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::working::Known;
    use std::collections::HashSet;

    #[test]
    fn every_figure_has_a_source_and_a_name_of_its_own() {
        let rows: Vec<_> = TABLES.iter().flat_map(|table| table.rows).collect();
        let names: HashSet<_> = rows.iter().map(|row| row.name).collect();
        assert_eq!(names.len(), rows.len());
        for row in rows {
            assert!(!row.source.place.is_empty() && row.printed > 0.0, "{}", row.name);
            assert!(matches!(row.source.known, Known::Published | Known::Memory), "{}", row.name);
        }
        for strength in STRENGTHS {
            assert_eq!(Strength::named(strength.name), Some(strength));
        }
    }
}
