//! Ropes that the group carries.

use super::record::{Record, Text, text};
use crate::quantity::{Kind, Length, millimetre};
use crate::question::field::{Field, choices, place, table};

/// What a rope is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum RopeKind {
    /// People hang on it.
    #[default]
    Rope,
    /// It only pulls a rope down.
    PullCord,
}
choices!(RopeKind { Rope = "rope", "a rope to hang on"; PullCord = "pull cord", "a cord only to pull with"; });

/// A rope in one piece.
#[derive(Debug, Clone, PartialEq)]
pub struct CarriedRope {
    /// What the group calls it.
    pub name: String,
    /// Declared length; 0 if it was not entered.
    pub length: Length,
    /// Declared diameter.
    pub diameter: Length,
    /// What it is for.
    pub kind: RopeKind,
}

impl Default for CarriedRope {
    fn default() -> Self {
        let (length, diameter) = (Length::default(), Length::new::<millimetre>(9.0));
        CarriedRope { name: String::new(), length, diameter, kind: RopeKind::default() }
    }
}

impl Record for CarriedRope {
    const NAME: &'static str = "rope carried";

    fn texts() -> Vec<Text<Self>> {
        vec![text!(name, 60, "Name", "colour or mark")]
    }

    fn fields() -> Vec<Field<Self>> {
        table![
            Field::one('l', "length_m", Kind::Length, 0.0..=300.0, place!(length))
                .says("Length", "in one piece, as declared or as measured dry; 0 if not entered"),
            Field::one('d', "diameter_m", Kind::Thickness, 0.004..=0.016, place!(diameter))
                .says("Diameter", "as declared"),
            Field::choice('k', "kind", RopeKind::CHOICES, place!(kind))
                .says("It is", "a pull cord counts as no spare rope"),
        ]
    }
}

/// The least length that counts as entered, m: the least that the question about the rope takes.
const LEAST: f64 = 5.0;

impl CarriedRope {
    /// The length of a rope that people can hang on, if it was entered, m.
    pub fn hangs(&self) -> Option<f64> {
        (self.kind == RopeKind::Rope && self.length.value >= LEAST).then_some(self.length.value)
    }
}
