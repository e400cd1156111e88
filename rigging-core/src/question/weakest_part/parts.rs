//! The parts in their places, and what each place carries.

use super::super::field::{Choice, Enters, Entry};
use crate::band::Band;
use crate::strength::condition::{CONDITIONS, Condition};
use crate::strength::factor::{FACTORS, Factor};
use crate::strength::item::{Figure, ITEMS, Item};
use crate::strength::knot::{KNOTS, Knot};
use crate::strength::resistance::{LOADINGS, Loading, Part, Way};

/// How many parts there can be.
pub const PLACES: usize = 8;

/// What a place carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Carries {
    /// What the anchor gets that carries most.
    Anchor,
    /// All of it, where the legs come together.
    Point,
    /// What is in the rope.
    Rope,
}

/// The places, from the rock to the person, and what each carries.
pub const CARRIES: [Carries; PLACES] = [
    Carries::Anchor,
    Carries::Anchor,
    Carries::Anchor,
    Carries::Point,
    Carries::Point,
    Carries::Rope,
    Carries::Rope,
    Carries::Rope,
];

/// One part in its place.
/// ```
/// use rigging_core::question::WeakestPart;
///
/// // Of the example: a bolt found in place, which nobody knows, a locking connector and a rope.
/// let [found, connector, .., rope, _, _] = WeakestPart::default().parts;
/// assert!(!found.is_known() && connector.is_known() && rope.is_known());
/// // Only what is soft has a knot; a connector can be loaded in more than one way too.
/// assert!(!connector.is_soft() && rope.is_soft() && connector.has_ways() && !found.has_ways());
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slot {
    /// What is there.
    pub item: &'static Item,
    /// The knot in it, if it is soft.
    pub knot: &'static Knot,
    /// How it is loaded; other than straight, nothing is known of a part that is neither soft nor a connector.
    pub loading: &'static Loading,
    /// Its condition, if its strength is known.
    pub condition: &'static Condition,
}

impl Slot {
    /// Whether it is rope, cord, tape or a sling.
    /// ```
    /// use rigging_core::question::WeakestPart;
    ///
    /// // A sewn sling and a rope are, a harness is told by one figure.
    /// let [_, _, sling, .., rope, _, harness] = WeakestPart::default().parts;
    /// assert!(sling.is_soft() && rope.is_soft() && !harness.is_soft());
    /// ```
    pub fn is_soft(&self) -> bool {
        self.item.made().is_some()
    }

    /// Whether a figure holds for it while it is new.
    /// ```
    /// use rigging_core::question::WeakestPart;
    ///
    /// // Where nothing was entered nothing is known, as of what was found in place.
    /// let [found, .., none, rope, _, _] = WeakestPart::default().parts;
    /// assert_eq!((none.item.name, none.is_known()), ("none", false));
    /// assert!(!found.is_known() && rope.is_known());
    /// ```
    pub fn is_known(&self) -> bool {
        !matches!(self.item.figure, None | Some(Figure::Unknown(_) | Figure::Excluded(_)))
    }

    /// Whether it can be loaded in more than one way, or is said to be loaded in another than its figure holds for:
    /// what was said does not go unheard, and can be taken back.
    /// ```
    /// use rigging_core::question::{Slot, WeakestPart};
    /// use rigging_core::strength::resistance::LOADINGS;
    ///
    /// // A sling goes straight, doubled or round; a harness is loaded in the one way it is made for.
    /// let [_, _, sling, .., harness] = WeakestPart::default().parts;
    /// assert!(sling.has_ways() && !harness.has_ways());
    /// // Said to lie over an edge it is asked.
    /// assert!(Slot { loading: &LOADINGS[6], ..harness }.has_ways());
    /// ```
    pub fn has_ways(&self) -> bool {
        let many = matches!(self.item.figure, Some(Figure::Soft(..) | Figure::Connector { .. }));
        many || self.is_known() && self.loading.way != Way::Plain
    }

    /// The part as it is rigged: what is not asked of it does not count.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::question::{Slot, WeakestPart};
    ///
    /// // The knot of a connector does not count, that of a rope does.
    /// let [_, connector, .., rope, _, _] = WeakestPart::default().parts;
    /// let level = Band::exact(0.0);
    /// assert_eq!(Slot { knot: rope.knot, ..connector }.part(level, 0.0), connector.part(level, 0.0));
    /// assert_ne!(Slot { knot: connector.knot, ..rope }.part(level, 0.0), rope.part(level, 0.0));
    /// ```
    pub fn part(&self, pull: Band, stated: f64) -> Part {
        let Slot { item, .. } = *self;
        Part {
            item,
            knot: if self.is_soft() { self.knot } else { first(KNOTS) },
            loading: if self.has_ways() { self.loading } else { first(LOADINGS) },
            condition: if self.is_known() { self.condition } else { first(CONDITIONS) },
            pull,
            stated,
        }
    }
}

/// The first row of a table: what is usual.
#[expect(clippy::indexing_slicing, reason = "the tables have rows")]
pub fn first<T>(rows: &'static [T]) -> &'static T {
    &rows[0]
}

/// Lets a field choose a row of a table.
macro_rules! rows {
    ($row:ident in $rows:ident as $choices:ident) => {
        #[expect(clippy::indexing_slicing, reason = "runs in the compiler, which refuses a place out of bounds")]
        pub(super) const $choices: &[Choice] = &{
            let mut choices = [Choice { name: "", words: "" }; $rows.len()];
            let mut place = 0;
            while place < $rows.len() {
                choices[place] = Choice { name: $rows[place].name, words: $rows[place].words };
                place += 1;
            }
            choices
        };
        impl Enters for &'static $row {
            fn to_entry(&self) -> Entry {
                Entry::Choice(self.name)
            }
            fn from_entry(entry: &Entry) -> Option<Self> {
                match entry {
                    Entry::Choice(name) => $rows.iter().find(|row| row.name == *name),
                    _ => None,
                }
            }
        }
    };
}
rows!(Item in ITEMS as ITEM_CHOICES);
rows!(Knot in KNOTS as KNOT_CHOICES);
rows!(Loading in LOADINGS as LOADING_CHOICES);
rows!(Condition in CONDITIONS as CONDITION_CHOICES);
rows!(Factor in FACTORS as FACTOR_CHOICES);

/// The row of this name in a table, or its first.
pub fn named<T>(rows: &'static [T], name: &str, of: fn(&T) -> &'static str) -> &'static T {
    rows.iter().find(|row| of(row) == name).unwrap_or(first(rows))
}
