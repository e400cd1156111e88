//! What a drop rests on that nobody knows the strength of.

use super::planned_drop::{DropAnchor, PlannedDrop};
use super::shared::AskedToday;
use crate::question::{Asked, Entry, Takes};

/// A part of unknown strength.
/// ```
/// use rigging_core::plan::{Answers, DropAnchor, Plan, PlannedDrop, Unknown, Why};
/// use rigging_core::quantity::Units;
///
/// // A natural anchor puts its drop among the first, with what would change it.
/// let drop = PlannedDrop { anchor: DropAnchor::Natural, ..PlannedDrop::default() };
/// let checked = Plan { drops: vec![drop], ..Plan::default() }.check(&mut Answers::default(), Units::default());
/// let reason = &checked.drops[0].reasons[0];
/// assert_eq!(reason.why, Why::RestsOn(Unknown::Natural));
/// assert_eq!((reason.what.as_str(), reason.change.as_str()), (Unknown::Natural.words(), Unknown::Natural.change()));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Unknown {
    /// Found in place.
    Found,
    /// A tree, log, block or chockstone.
    Natural,
    /// People.
    People,
    /// Not seen yet.
    Unseen,
}

impl Unknown {
    /// What it is.
    /// ```
    /// use rigging_core::plan::{Answers, DropAnchor, Plan, PlannedDrop, Unknown};
    /// use rigging_core::quantity::Units;
    ///
    /// // In the text of a plan it ends the sentence.
    /// let drop = PlannedDrop { anchor: DropAnchor::Found, ..PlannedDrop::default() };
    /// let plan = Plan { drops: vec![drop], ..Plan::default() };
    /// let text = plan.text(&plan.check(&mut Answers::default(), Units::default()));
    /// assert!(text.contains("- rests on a part found in place: nobody knows its strength\n"));
    /// assert_eq!(Unknown::Found.words(), "a part found in place");
    /// ```
    pub const fn words(self) -> &'static str {
        match self {
            Unknown::Found => "a part found in place",
            Unknown::Natural => "a natural anchor",
            Unknown::People => "people",
            Unknown::Unseen => "what nobody has seen yet",
        }
    }

    /// What would change it (common practice, no source).
    /// ```
    /// use rigging_core::plan::{Answers, Plan, PlannedDrop, Unknown};
    /// use rigging_core::quantity::Units;
    /// use rigging_core::question::{Held, Question};
    ///
    /// // Of people it comes first, before what their question found would change most.
    /// let questions = vec![Held::new(Question::named("human anchor")?)];
    /// let drop = PlannedDrop { questions, ..PlannedDrop::default() };
    /// let checked = Plan { drops: vec![drop], ..Plan::default() }.check(&mut Answers::default(), Units::default());
    /// let of_people = checked.drops[0].reasons.iter().find(|reason| reason.what == "people");
    /// let rest = of_people.and_then(|reason| reason.change.strip_prefix(Unknown::People.change()));
    /// assert!(rest.is_some_and(|rest| rest.starts_with("; of the changes worked out, most: ")));
    /// assert!(Unknown::People.change().starts_with("an anchor that is not people"));
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub const fn change(self) -> &'static str {
        match self {
            Unknown::Found => "parts of your own whose standard and placing you know, or a second anchor behind it",
            Unknown::Natural => "a second point behind it, or bolts whose standard and placing you know",
            Unknown::People => "an anchor that is not people; else a foothold for each and a rope that can be let go",
            Unknown::Unseen => "seeing it; until then, what you carry and place yourself",
        }
    }
}

fn named(name: &str) -> Option<Unknown> {
    match name {
        "found" | "bolt found" | "ring found" | "soft found" => Some(Unknown::Found),
        "natural" => Some(Unknown::Natural),
        "people" => Some(Unknown::People),
        "unseen" => Some(Unknown::Unseen),
        _ => None,
    }
}

/// What a field says that something rests on.
fn said(field: &Asked) -> Option<Unknown> {
    let (Takes::Choice(choices), Entry::Choice(name)) = (field.about.takes, field.entry) else { return None };
    // A sling, a tree or a block in place of a bolt; else anchors, what a line ends on, parts and their conditions.
    if (field.about.name, name) == ("bolt", "none") {
        return Some(Unknown::Natural).filter(|_| field.matters);
    }
    let is_part = choices.iter().any(|choice| choice.name == "bolt found");
    let says = is_part || ["anchor", "ends_on"].contains(&field.about.name) || field.about.name.ends_with("_condition");
    named(name).filter(|_| field.matters && says)
}

/// What a drop and its questions rest on, each kind once, and the question that says so; none if the drop does.
pub fn rests_on(drop: &PlannedDrop, asked: &[AskedToday]) -> Vec<(Unknown, Option<usize>)> {
    let mut found: Vec<(Unknown, Option<usize>)> = Vec::new();
    let mut add = |unknown: Option<Unknown>, place: Option<usize>| {
        let Some(unknown) = unknown else { return };
        match found.iter_mut().find(|(other, _)| *other == unknown) {
            Some((_, of)) => *of = of.or(place),
            None => found.push((unknown, place)),
        }
    };
    let own = match drop.anchor {
        DropAnchor::Known | DropAnchor::NoRope => None,
        DropAnchor::Found => Some(Unknown::Found),
        DropAnchor::Natural => Some(Unknown::Natural),
        DropAnchor::People => Some(Unknown::People),
        DropAnchor::Unseen => Some(Unknown::Unseen),
    };
    add(own, None);
    for (place, today) in asked.iter().enumerate() {
        match today.question.name() {
            "natural anchor" => add(Some(Unknown::Natural), Some(place)),
            "human anchor" => add(Some(Unknown::People), Some(place)),
            _ => {}
        }
        for field in &today.fields {
            add(said(field), Some(place));
        }
    }
    found
}
