//! The rigging plan: a whole descent, its drops, group, ropes, time and light.
//!
//! A [`Plan`] is rows that the user edits: a [`Day`], a [`Pace`], [`Person`]s, [`CarriedRope`]s and
//! [`PlannedDrop`]s. Each row says its texts and fields once ([`Record`]), in the table that questions use too:
//! names, words, units, bounds and sources are there. A drop holds questions, and what is said once for the whole
//! plan goes into them before they are asked ([`Plan::asked_today`]), so one change of a mass, a rope or the water
//! moves through all of it and each answer is the one of the question on its own screen.
//!
//! [`Plan::check`] puts what cannot wait first: what runs past last light, open decisions and reserve rope, then
//! the drops where a range is above or crosses a limit, that have no answer, or that rest on what nobody knows the
//! strength of, with the reason and what would change it. The order of the group is never worked out: [`TEACHINGS`]
//! has both teachings.
//!
//! The file ([`Plan::read`], [`Plan::write`]) has a version, and a damaged one opens as far as it can be read; what could
//! not be is an open decision of the plan.
//!
//! ```
//! use rigging_core::plan::{Answers, Plan};
//! use rigging_core::quantity::Units;
//!
//! let reading = Plan::read(&Plan::example().write())?;
//! assert!(reading.refused.is_empty());
//! let checked = reading.plan.check(&mut Answers::default(), Units::default());
//! assert!(!checked.first.is_empty() && reading.plan.text(&checked).contains("RESERVE ROPE"));
//! # Ok::<(), rigging_core::plan::NoPlan>(())
//! ```

mod answers;
mod carried;
mod check;
mod day;
mod example;
mod file;
mod group;
mod json;
mod light;
mod open;
mod planned_drop;
mod record;
mod rests;
mod ropes;
mod section;
mod shared;
mod text;
mod time;
mod wire;

pub use answers::{Answered, Answers};
pub use carried::{CarriedRope, RopeKind};
pub use check::{Checked, CheckedDrop, Open, Reason, Why};
pub use day::{Date, Day, LightBy, Pace, WaterToday};
pub use file::{FORMAT, MOST, NoPlan, Reading, Refused, VERSION};
pub use group::{Person, RopeSkill, TEACHINGS, Teaching, WaterSkill};
pub use light::{Daylight, NoLight, Sky, daylight};
pub use planned_drop::{DropAnchor, PlannedDrop};
pub use record::{Record, Row, Text, Words};
pub use rests::Unknown;
pub use ropes::{Parts, RopeNeed, Ropes, Spare};
pub use section::{About, Section};
pub use shared::AskedToday;
pub use time::{DropTime, Fades, Times, clock, span};
pub use wire::Said;

/// A plan: everything in it is the user's to edit.
/// ```
/// use rigging_core::plan::{Answers, Person, Plan, PlannedDrop};
/// use rigging_core::quantity::Units;
///
/// // A plan is its rows; what was not entered yet is an open decision.
/// let mut plan = Plan::default();
/// let open = |plan: &Plan, what: &str| {
///     plan.check(&mut Answers::default(), Units::default()).open.iter().any(|open| open.what.starts_with(what))
/// };
/// assert!(open(&plan, "nobody entered:") && open(&plan, "no drop entered"));
/// plan.group.push(Person::default());
/// plan.drops.push(PlannedDrop::default());
/// assert!(!open(&plan, "nobody entered:") && !open(&plan, "no drop entered"));
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plan {
    /// Where and when, and the water.
    pub day: Day,
    /// How fast the group is.
    pub pace: Pace,
    /// Who comes along, in the order in which they were entered.
    pub group: Vec<Person>,
    /// Ropes carried.
    pub ropes: Vec<CarriedRope>,
    /// The drops, from the first to the last.
    pub drops: Vec<PlannedDrop>,
    /// What of its file could not be read, line by line: no drop is below a limit while any is. No file or link has it.
    pub unread: Vec<String>,
}
