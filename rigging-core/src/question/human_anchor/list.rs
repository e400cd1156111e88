//! The people in line, from the one nearest the lip: how each stands, on what, and how the rope leaves them.

use super::super::field::choices;
use super::{HumanAnchor, Stance};
use crate::law::ground::Directions;
use crate::quantity::{Angle, Mass, Ratio, kilogram, radian, ratio};
use std::f64::consts::{FRAC_PI_2, PI};

/// Most that may hold.
pub(super) const MOST: usize = 6;

/// From one person in line to the next, m (assumed).
pub(super) const APART: f64 = 1.1;

/// The least height of a rope on a body, m.
const LOWEST: f64 = 0.05;

/// A rope farther to one side than this runs outside the feet (assumed).
const BETWEEN_THE_FEET: f64 = 0.26;

/// How a further person holds.
/// ```
/// use rigging_core::question::{Ask, BadInput, Further, HumanAnchor, Stands};
///
/// // The second of two who hold sits as the first does, or braces the feet on a real edge.
/// let second = |stands| {
///     let mut line = HumanAnchor { holders: 2, ..HumanAnchor::default() };
///     line.further[0] = Further { stands, ..Further::default() };
///     let cases = line.answer()?.outcomes.into_iter().map(|outcome| outcome.case);
///     Ok::<_, BadInput>(cases.filter(|case| case.starts_with("Person 2")).collect::<String>())
/// };
/// assert!(second(Stands::AsFirst)?.starts_with("Person 2, seated, nothing to push against"));
/// assert!(second(Stands::SeatedBraced)?.starts_with("Person 2, seated, feet against a real edge"));
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Stands {
    /// All as the first: stance, mass, floor.
    #[default]
    AsFirst,
    /// As [`Stance::SeatedBraced`].
    SeatedBraced,
    /// As [`Stance::Seated`].
    Seated,
    /// As [`Stance::FootForward`].
    FootForward,
    /// As [`Stance::FeetTogether`].
    FeetTogether,
}
choices!(Stands {
    AsFirst = "as the first", "in all as the first";
    SeatedBraced = "seated braced", "seated, feet against a real edge";
    Seated = "seated", "seated, nothing to push against";
    FootForward = "foot forward", "standing, one foot well forward";
    FeetTogether = "feet together", "standing, feet together";
});

impl Stands {
    /// The stance, if it is not that of the first.
    pub(super) fn own(self) -> Option<Stance> {
        match self {
            Stands::AsFirst => None,
            Stands::SeatedBraced => Some(Stance::SeatedBraced),
            Stands::Seated => Some(Stance::Seated),
            Stands::FootForward => Some(Stance::FootForward),
            Stands::FeetTogether => Some(Stance::FeetTogether),
        }
    }
}

/// A further person in line.
/// ```
/// use rigging_core::quantity::{Mass, kilogram};
/// use rigging_core::question::{Ask, BadInput, Further, HumanAnchor, Stands};
///
/// // A second person of 120 kg counts only once it is said that they are not as the first.
/// let held = |stands, mass| {
///     let mut line = HumanAnchor { holders: 2, ..HumanAnchor::default() };
///     line.further[0] = Further { stands, mass: Mass::new::<kilogram>(mass), ..Further::default() };
///     Ok::<_, BadInput>(line.answer()?.findings[0].band.typical())
/// };
/// assert!(held(Stands::Seated, 120.0)? > held(Stands::Seated, 80.0)?);
/// assert_eq!(held(Stands::AsFirst, 120.0)?, held(Stands::AsFirst, 80.0)?);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Further {
    /// How this person holds; the rest counts only if not as the first.
    pub stands: Stands,
    /// Mass, with kit.
    pub mass: Mass,
    /// How far the floor falls toward the drop for each metre forward.
    pub floor_falls: Ratio,
    /// How far it falls to one side for each metre across.
    pub side_falls: Ratio,
}

impl Default for Further {
    fn default() -> Self {
        Further {
            stands: Stands::AsFirst,
            mass: Mass::new::<kilogram>(80.0),
            floor_falls: Ratio::new::<ratio>(0.05),
            side_falls: Ratio::new::<ratio>(0.0),
        }
    }
}

/// A person where the rope pulls.
#[derive(Debug, Clone, Copy)]
pub(super) struct Placed {
    pub(super) stance: Stance,
    /// Own mass, kg; none for that of the first.
    pub(super) mass: Option<f64>,
    /// Slope of the floor straight toward the drop, as drawn.
    pub(super) falls: f64,
    /// Slope of the floor along the rope.
    pub(super) along: f64,
    /// Slope across the rope.
    pub(super) across: f64,
    /// Rise of the rope for each metre from the body.
    pub(super) rope_rises: f64,
    /// Height of the rope above the feet.
    pub(super) height: f64,
    /// That height as it counts for toppling.
    pub(super) lever: f64,
    /// How far the rope pulls to one side.
    pub(super) aside: f64,
}

/// A person twice: as the rope pulls, and as if it ran straight down a floor without a side slope. The one that holds
/// less counts: nothing to one side ever helps.
pub(super) type Person = [Placed; 2];

impl Placed {
    pub(super) fn directions(&self) -> Directions {
        let angle = |rise: f64| Angle::new::<radian>(rise.atan());
        Directions { slope: angle(self.along), rope: angle(self.rope_rises) }
    }

    /// The side slope, square to a line along the floor in the rope's vertical plane.
    pub(super) fn side_slope(&self) -> Angle {
        Angle::new::<radian>((self.across * self.along.atan().cos()).atan())
    }

    /// Whether the rope runs between the feet, as in the trials.
    pub(super) fn is_straight(&self) -> bool {
        self.aside <= BETWEEN_THE_FEET
    }
}

impl HumanAnchor {
    /// How far the rope runs to one side of straight to the drop.
    fn aside(&self) -> f64 {
        (self.to_side / self.to_lip).value.atan()
    }

    /// How far the rope turns over the lip to hang plumb: of the ways straight and to one side that which turns it less.
    pub(super) fn turn(&self) -> Angle {
        let ways = [self.to_lip.value, self.to_lip.value.hypot(self.to_side.value)];
        let turns = ways.map(|way| FRAC_PI_2 - (self.above_lip.value / way).atan());
        Angle::new::<radian>(turns.into_iter().fold(PI, f64::min).max(0.0))
    }

    /// One person, on a rope that lies along the level. What is not said of a side counts as the worse one: the floor
    /// falls to the side to which the rope pulls, and a rope to one side finds it no less steep than straight on.
    fn place(&self, straight: bool, stance: Stance, mass: Option<f64>, [falls, side]: [Ratio; 2]) -> Placed {
        let (aside, side) = if straight { (0.0, 0.0) } else { (self.aside(), side.value) };
        let falls = falls.value;
        let along = (falls * aside.cos() + side * aside.sin()).max(falls);
        let across = side * aside.cos() + falls.abs() * aside.sin();
        let height = (stance.geometry().rope_above_feet + self.raised.value).max(LOWEST);
        Placed { stance, mass, falls, along, across, rope_rises: 0.0, height, lever: height, aside }
    }

    /// Over a longer way to one side a rope rises or falls less; one that rises drags people most not where it is steepest,
    /// but where it rises as friction has it.
    fn nearest(&self, straight: bool) -> Placed {
        let aside = if straight { 0.0 } else { self.to_side.value };
        let nearest = self.place(straight, self.stance, None, [self.floor_falls, self.side_falls]);
        let rises = -self.above_lip.value / self.to_lip.value.hypot(aside);
        // It counts no better than one along the floor: how hard it presses them down hangs on heights and distances
        // at the lip that nobody knows well, and would grow the nearer they are to it.
        Placed { rope_rises: rises.max(-nearest.along), ..nearest }
    }

    /// The person nearest the lip.
    pub(super) fn first(&self) -> Person {
        [false, true].map(|straight| self.nearest(straight))
    }

    /// Everybody, from the person nearest the lip.
    pub(super) fn line(&self) -> Vec<Person> {
        let mut before = self.nearest(true).height;
        let mut line = vec![self.first()];
        for further in self.further.iter().take((self.holders as usize).saturating_sub(1)) {
            let mut height = 0.0;
            line.push([false, true].map(|straight| {
                let one = match further.stands.own() {
                    None => self.place(straight, self.stance, None, [self.floor_falls, self.side_falls]),
                    Some(stance) => {
                        let falls = [further.floor_falls, further.side_falls];
                        self.place(straight, stance, Some(further.mass.value), falls)
                    }
                };
                height = one.height;
                // Along the floor to the one before, and up to a rope that is higher there; a lower one is not counted,
                // nor that a rope along a floor that falls is nearer to the feet than its height.
                let rope_rises = (before - one.height).max(0.0) / APART - one.along;
                Placed { rope_rises, lever: one.height * one.along.max(0.0).hypot(1.0), ..one }
            }));
            before = height;
        }
        line
    }
}
