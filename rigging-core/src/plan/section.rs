//! The parts of which the text of a plan is made.

use crate::quantity::Units;

/// What a section of the text is about.
/// ```
/// use rigging_core::plan::{About, Answers, Day, LightBy, Plan};
/// use rigging_core::quantity::{Time, Units};
///
/// // What runs past last light has a section only if something does, and it stands before what is open.
/// let about = |light_by| {
///     let day = Day { light_by, own_last_light: Time::default(), ..Day::default() };
///     let plan = Plan { day, ..Plan::default() };
///     let sections = plan.sections(&plan.check(&mut Answers::default(), Units::default()));
///     sections.into_iter().map(|section| section.about).take(3).collect::<Vec<_>>()
/// };
/// assert_eq!(about(LightBy::Own), [About::Title, About::Late, About::Open]);
/// assert_eq!(about(LightBy::NotEntered), [About::Title, About::Open, About::Reserve]);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// Name, date, water, and what is filled in by hand.
    Title,
    /// What runs past last light.
    Late,
    /// Open decisions.
    Open,
    /// Reserve rope.
    Reserve,
    /// Drops to look at first.
    First,
    /// Time and light.
    Light,
    /// The drop at this place.
    Drop(usize),
    /// Order of the group.
    Order,
    /// Ropes and parts to bring.
    Bring,
    /// Notes.
    Notes,
    /// What the plan does not know.
    End,
}

/// A part of the text of a plan.
/// ```
/// use rigging_core::plan::{About, Answers, Plan};
/// use rigging_core::quantity::Units;
///
/// // From the title to what the plan does not know; each drop has a part of its own.
/// let plan = Plan::example();
/// let sections = plan.sections(&plan.check(&mut Answers::default(), Units::default()));
/// assert_eq!((sections[0].about, sections[sections.len() - 1].about), (About::Title, About::End));
/// let drops = sections.iter().filter(|section| matches!(section.about, About::Drop(_))).count();
/// assert_eq!(drops, plan.drops.len());
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Section {
    /// What it is about.
    pub about: About,
    /// Its head; empty for none.
    pub head: String,
    /// Its lines; one that begins with a space belongs to the one before.
    pub lines: Vec<String>,
}

/// The sections as they are written, in some units.
pub(super) struct Lines {
    pub(super) sections: Vec<Section>,
    pub(super) units: Units,
}

impl Lines {
    /// One more line of the section that was begun last.
    pub(super) fn say(&mut self, line: impl Into<String>) {
        if let Some(section) = self.sections.last_mut() {
            section.lines.push(in_one_line(&line.into()));
        }
    }

    /// A line if there is one.
    pub(super) fn say_if(&mut self, line: Option<String>) {
        if let Some(line) = line {
            self.say(line);
        }
    }

    /// Begins a section.
    pub(super) fn head(&mut self, about: About, head: impl Into<String>) {
        self.sections.push(Section { about, head: in_one_line(&head.into()), lines: Vec::new() });
    }
}

/// What was entered over several lines or turns the line round, so that none of it is taken for the plan's own.
fn in_one_line(text: &str) -> String {
    let breaks = |letter: char| {
        letter.is_control()
            || matches!(letter, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200e}' | '\u{200f}' | '\u{61c}')
    };
    let mut line = String::new();
    for letter in text.chars() {
        if !breaks(letter) {
            line.push(letter);
        } else if !line.ends_with(" / ") {
            line += " / ";
        }
    }
    line
}
