//! The rigging plan: a whole descent, its drops, group, ropes, time and light.

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
mod say;
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
pub use planned_drop::{DropAnchor, Held, PlannedDrop};
pub use record::{Record, Text};
pub use rests::Unknown;
pub use ropes::{Parts, RopeNeed, Ropes, Spare};
pub use shared::AskedToday;
pub use time::{DropTime, Fades, Times, clock, span};
pub use wire::Said;

/// A plan: everything in it is the user's to edit.
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
}
