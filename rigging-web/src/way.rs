//! The situation in which the page is used: it decides how large things are, and what a touch may set off.

use maud::{Markup, html};

/// Where the page is used.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Way {
    /// With time and two hands: everything is shown.
    #[default]
    Desk,
    /// In a cold wet hand: the answer stays in sight, each entry is opened before it can be changed.
    Lip,
    /// On a projector: large, a guess before the number, no standing until a limit was chosen.
    Class,
}

impl Way {
    /// All of them, in the order of their buttons.
    pub const ALL: [Way; 3] = [Way::Desk, Way::Lip, Way::Class];

    /// Its name in ids, in the style sheet and in what the browser keeps.
    pub const fn name(self) -> &'static str {
        match self {
            Way::Desk => "desk",
            Way::Lip => "lip",
            Way::Class => "class",
        }
    }

    /// The way of a name.
    pub fn named(name: &str) -> Option<Way> {
        Way::ALL.into_iter().find(|way| way.name() == name)
    }

    const fn words(self) -> &'static str {
        match self {
            Way::Desk => "Planning",
            Way::Lip => "At the lip",
            Way::Class => "In class",
        }
    }
}

/// The buttons that choose a way; their ids are `way-` and the name.
pub fn buttons(chosen: Way) -> Markup {
    html! {
        div.ways role="group" aria-label="Where the page is used" {
            @for way in Way::ALL {
                button id={ "way-" (way.name()) } type="button" aria-pressed=(way == chosen) { (way.words()) }
            }
        }
    }
}
