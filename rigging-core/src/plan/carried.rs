//! Ropes that the group carries.

use super::record::{Record, Text, text};
use crate::quantity::{Kind, Length, millimetre};
use crate::question::field::{Field, choices, place, table};

/// What a rope is for.
/// ```
/// use rigging_core::plan::{Answers, CarriedRope, Plan, PlannedDrop, RopeKind};
/// use rigging_core::quantity::{Length, Units, metre};
///
/// // With nothing but a cord the reserve is not checked, and that is an open decision.
/// let open = |kind| {
///     let ropes = vec![CarriedRope { length: Length::new::<metre>(60.0), kind, ..CarriedRope::default() }];
///     let plan = Plan { ropes, drops: vec![PlannedDrop::default()], ..Plan::default() };
///     let open = plan.check(&mut Answers::default(), Units::default()).open;
///     open.iter().any(|open| open.what.starts_with("no rope entered that people can hang on"))
/// };
/// assert!(open(RopeKind::PullCord) && !open(RopeKind::Rope));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum RopeKind {
    /// People hang on it.
    #[default]
    Rope,
    /// It only pulls a rope down.
    PullCord,
}
choices!(RopeKind { Rope = "rope", "a rope to hang on"; PullCord = "pull cord", "a cord only to pull with"; });

/// A rope in one piece.
/// ```
/// use rigging_core::plan::{CarriedRope, Row};
/// use rigging_core::question::Entry;
///
/// let mut rope = CarriedRope::default();
/// rope.say("name", "orange")?;
/// rope.set("length_m", &Entry::One(60.0))?;
/// assert_eq!((rope.name.as_str(), rope.length.value), ("orange", 60.0));
/// // As declared: 9 mm until somebody says otherwise.
/// assert!((rope.diameter.value - 0.009).abs() < 1e-12);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
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
    /// Whether its diameter is another than the one assumed.
    pub(super) fn is_another(&self) -> bool {
        // As near as a file holds it.
        (self.diameter - CarriedRope::default().diameter).value.abs() > 1e-9
    }

    /// The length of a rope that people can hang on, if it was entered, m.
    /// ```
    /// use rigging_core::plan::{CarriedRope, RopeKind};
    /// use rigging_core::quantity::{Length, metre};
    ///
    /// let rope = |length, kind| CarriedRope { length: Length::new::<metre>(length), kind, ..CarriedRope::default() };
    /// assert_eq!(rope(60.0, RopeKind::Rope).hangs(), Some(60.0));
    /// // Nobody hangs on a pull cord, or on a rope of no length.
    /// assert_eq!((rope(60.0, RopeKind::PullCord).hangs(), rope(0.0, RopeKind::Rope).hangs()), (None, None));
    /// ```
    pub fn hangs(&self) -> Option<f64> {
        (self.kind == RopeKind::Rope && self.length.value >= LEAST).then_some(self.length.value)
    }
}
