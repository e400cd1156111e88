//! The rigging plan on the page: what is said first, the day, the group, the ropes and the drops.
//!
//! | fragment | shows |
//! |---|---|
//! | `plan` | the whole plan |
//! | `plan/3` | drop 3 |
//! | `plan/3/2` | question 2 of drop 3, on its own screen |
//! | `plan~1~…` | a plan that came with a link; see [`link`] |
//!
//! What is found is the text of the core, in the units chosen.

mod drop;
pub mod link;
pub mod paper;
pub mod rows;
mod said;
mod screen;
mod side;

pub use drop::page as drop_page;
pub use screen::{page, parts};
pub use side::{Side, origin, side};

use crate::entry::Boxes;
use crate::page::{Typed, Whose, Wrong};
use crate::way::Way;
use rigging_core::plan::{Checked, Plan, Section};
use rigging_core::quantity::Units;

/// What is added, copied, moved and removed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum List {
    /// People.
    Group,
    /// Ropes.
    Ropes,
    /// Drops.
    Drops,
}

impl List {
    /// All of them.
    pub const ALL: [List; 3] = [List::Group, List::Ropes, List::Drops];

    /// One row of it, in ids and in words.
    pub const fn row(self) -> &'static str {
        match self {
            List::Group => "person",
            List::Ropes => "rope",
            List::Drops => "drop",
        }
    }
}

/// A list and the number of a row in an id like `drop-3`.
pub fn row_of(id: &str) -> Option<(List, u32)> {
    let (name, key) = id.split_once('-')?;
    let list = List::ALL.into_iter().find(|list| list.row() == name)?;
    Some((list, key.parse().ok()?))
}

/// The number of the row of a drop, and the place of a question in it, in an id like `drop-3.0`.
pub fn question_at(id: &str) -> Option<(u32, usize)> {
    let (row, place) = id.split_once('.')?;
    Some((row_of(row)?.1, place.parse().ok()?))
}

/// What is offered in the place of the plan on the screen, and is asked about first.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// The plan, as far as it could be read.
    pub plan: Plan,
    /// Where it came from.
    pub from: &'static str,
    /// Whose numbers it would be.
    pub whose: Whose,
}

/// What the screens of a plan are made from.
#[derive(Debug, Clone, Copy)]
pub struct PlanView<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// What its check found.
    pub checked: &'a Checked,
    /// The same in words.
    pub sections: &'a [Section],
    /// Whose numbers these are.
    pub whose: &'a Whose,
    /// Numbers that stay with the rows of each list, in the order of [`List::ALL`].
    pub keys: &'a [Vec<u32>; 3],
    /// What stands in the boxes as typed.
    pub typed: &'a Typed,
    /// What is wrong.
    pub wrong: &'a Wrong,
    /// Where the page is used.
    pub way: Way,
    /// The units everything is told in.
    pub units: Units,
    /// What undoing would bring back.
    pub undoes: Option<&'a str>,
    /// The button that wants to be pressed again.
    pub asking: &'a str,
    /// What is offered in its place.
    pub offer: Option<&'a Offer>,
    /// Why a file or a link was not taken at all.
    pub turned_away: &'a [String],
}

impl<'a> PlanView<'a> {
    /// What the entries of a row are shown with.
    pub fn boxes(&self, prefix: &'a str) -> Boxes<'a> {
        Boxes { prefix, units: self.units, way: self.way, typed: self.typed, wrong: self.wrong }
    }

    /// The numbers of the rows of a list.
    pub fn keys_of(&self, list: List) -> &'a [u32] {
        self.keys.get(list as usize).map_or(&[], Vec::as_slice)
    }

    /// The sections about something.
    pub fn about(&self, about: rigging_core::plan::About) -> impl Iterator<Item = &'a Section> {
        self.sections.iter().filter(move |section| section.about == about)
    }
}

/// A drop as it is called: its number and its name.
pub fn name_of(plan: &Plan, place: usize) -> String {
    let name = plan.drops.get(place).map(|drop| drop.name.as_str()).unwrap_or_default();
    let number = (place + 1).to_string();
    if name.is_empty() { number } else { [&number, ". ", name].concat() }
}
