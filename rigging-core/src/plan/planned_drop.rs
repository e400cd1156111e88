//! One drop of the descent, and the questions that were put to it.

use super::day::minutes;
use super::record::{Record, Text, text};
use crate::band::Band;
use crate::quantity::{Kind, Length, Time};
use crate::question::field::{Field, choices, place, table};
use crate::question::{Bottom, Held, Whether};
use crate::working::Source;

/// What the rope hangs on at a drop.
/// ```
/// use rigging_core::limit::Standing;
/// use rigging_core::plan::{Answers, DropAnchor, Plan, PlannedDrop};
/// use rigging_core::quantity::Units;
///
/// // What nobody knows the strength of puts its drop first; a known one alone puts it below no limit.
/// let check = |anchor| {
///     let drops = vec![PlannedDrop { anchor, ..PlannedDrop::default() }];
///     Plan { drops, ..Plan::default() }.check(&mut Answers::default(), Units::default())
/// };
/// assert_eq!((check(DropAnchor::Known).first, check(DropAnchor::Found).first), (vec![], vec![0]));
/// assert!(matches!(check(DropAnchor::Known).drops[0].standing, Standing::NotChecked(_)));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum DropAnchor {
    /// Bolts whose standard and placing are known.
    Known,
    /// Hardware or slings found in place.
    Found,
    /// A tree, log, block or chockstone.
    Natural,
    /// People.
    People,
    /// Not seen yet.
    #[default]
    Unseen,
    /// Nothing: the drop is jumped, slid or climbed.
    NoRope,
}
choices!(DropAnchor {
    Known = "known", "bolts whose standard and placing I know";
    Found = "found", "found in place";
    Natural = "natural", "tree, log, block or chockstone";
    People = "people", "people";
    Unseen = "unseen", "not seen yet";
    NoRope = "no rope", "nothing: nobody goes down a rope here";
});

/// One drop.
/// ```
/// use rigging_core::plan::{DropAnchor, PlannedDrop, Row};
/// use rigging_core::question::Entry;
///
/// let mut drop = PlannedDrop::default();
/// drop.set("height_m", &Entry::One(12.0))?;
/// drop.set("anchor", &Entry::Choice("natural"))?;
/// assert_eq!((drop.height.typical().value, drop.anchor), (12.0, DropAnchor::Natural));
/// // One that is jumped uses no rope.
/// drop.set("anchor", &Entry::Choice("no rope"))?;
/// assert!(!drop.uses_rope());
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedDrop {
    /// Its name.
    pub name: String,
    /// Notes.
    pub notes: String,
    /// From the lip to the bottom; 0 if it was not entered.
    pub height: Band<Length>,
    /// Rope from the station to the lip.
    pub set_back: Length,
    /// What is at the bottom.
    pub bottom: Bottom,
    /// What the rope hangs on.
    pub anchor: DropAnchor,
    /// Which of the ropes carried, counted from 1; 0 for the longest.
    pub rope: u32,
    /// Slings used beyond those of the questions.
    pub slings: u32,
    /// Connectors used beyond those of the questions.
    pub connectors: u32,
    /// Links that stay, beyond those of the questions.
    pub links: u32,
    /// Time beyond what the pace says: hand-lines, people sent ahead, waiting.
    pub extra: Band<Time>,
    /// Walking and swimming to the next drop.
    pub to_next: Band<Time>,
    /// Whether there is a way out before it.
    pub way_out: Whether,
    /// What was asked of it.
    pub questions: Vec<Held>,
}

impl Default for PlannedDrop {
    fn default() -> Self {
        PlannedDrop {
            name: String::new(),
            notes: String::new(),
            height: Band::exact(Length::default()),
            set_back: Length::default(),
            bottom: Bottom::NotSeen,
            anchor: DropAnchor::Unseen,
            rope: 0,
            slings: 0,
            connectors: 0,
            links: 0,
            extra: minutes(0.0, 0.0, 0.0),
            to_next: minutes(0.0, 2.0, 5.0),
            way_out: Whether::No,
            questions: Vec::new(),
        }
    }
}

impl Record for PlannedDrop {
    const NAME: &'static str = "drop";

    fn texts() -> Vec<Text<Self>> {
        vec![
            text!(name, 80, "Name", "yours"),
            text!(notes, 2000, "Notes", "what is not a number: signals, where to stand, what not to touch"),
        ]
    }

    fn fields() -> Vec<Field<Self>> {
        table![
            Field::range('a', "height_m", Kind::Length, 0.0..=200.0, place!(height))
                .says("Down: lip to the bottom", "goes into its questions about rope and abseil; 0 if not entered"),
            Field::one('s', "set_back_m", Kind::Length, 0.0..=50.0, place!(set_back))
                .says("Set-back: station to the lip", "along the rope; 0 leaves it to its questions"),
            Field::choice('b', "bottom", Bottom::CHOICES, place!(bottom))
                .says("At the bottom", "for the rope's end and for the time"),
            Field::choice('h', "anchor", DropAnchor::CHOICES, place!(anchor))
                .says("The rope hangs on", "what you know of it today"),
            Field::one('r', "rope", Kind::Count, 0.0..=400.0, place!(rope))
                .says("Rope, of those carried", "1 is the first of the list; 0 takes the longest"),
            Field::one('g', "slings", Kind::Count, 0.0..=20.0, place!(slings))
                .says("Slings besides", "beyond those of its questions"),
            Field::one('c', "connectors", Kind::Count, 0.0..=40.0, place!(connectors))
                .says("Connectors besides", "beyond those of its questions"),
            Field::one('l', "links", Kind::Count, 0.0..=20.0, place!(links))
                .says("Links that stay besides", "beyond those of its questions"),
            Field::range('x', "extra_s", Kind::Time, 0.0..=86_400.0, place!(extra))
                .says("Time besides", "hand-lines, someone sent ahead to look, waiting"),
            Field::range('n', "to_next_s", Kind::Time, 0.0..=86_400.0, place!(to_next))
                .says("To the next drop", "walking and swimming")
                .from(Source::assumed("the next drop follows close")),
            Field::choice('o', "way_out", Whether::CHOICES, place!(way_out))
                .says("A way out before it", "that the group could take"),
        ]
    }
}
