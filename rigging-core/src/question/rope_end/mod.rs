//! Where does the rope end, and can more be paid out?

mod case;
mod drawn;
#[cfg(test)]
mod tests;
mod told;
mod worked;

pub use told::LetOut;
use told::{CAUTIONS, NOT_IN};
use worked::FORMULAS;

use super::answer::Answer;
use super::field::{Field, choices, place, table};
use super::input::BadInput;
use super::people::{self, People, asks_people};
use super::{Ask, Solve};
use crate::band::Band;
use crate::law::{OutOfDomain, gravity, rope};
use crate::quantity::{Force, Kind, Length, Mass, Ratio, kilogram, kilonewton, metre, millimetre, ratio};
use crate::working::Source;

/// What is where the rope should end.
/// ```
/// use rigging_core::question::{Ask, BadInput, Bottom, RopeEnd};
///
/// // In still water a rope that ends too high hurts, in moving water one that ends too low: that is told first.
/// let first = |bottom| -> Result<String, BadInput> {
///     Ok(RopeEnd { bottom, ..RopeEnd::default() }.answer()?.findings.swap_remove(0).what)
/// };
/// assert!(first(Bottom::Still)?.starts_with("above the water"));
/// assert!(first(Bottom::Moving)?.starts_with("below the water"));
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Bottom {
    /// Ground to stand on.
    Stand,
    /// Water too deep to stand in, without current.
    #[default]
    Still,
    /// Water too deep to stand in, with current.
    Moving,
    /// Nobody has seen it.
    NotSeen,
}
choices!(Bottom {
    Stand = "stand", "ground to stand on";
    Still = "swim in still water", "still water, too deep to stand";
    Moving = "swim in moving water", "moving water, too deep to stand";
    NotSeen = "not seen", "not seen from here";
});

/// How the rope hangs from the station.
/// ```
/// use rigging_core::question::{Ask, BadInput, Hung, RopeEnd};
///
/// // Only what can be released can be paid out to someone who is stuck; of the others the answer says so.
/// let pays_out = |hung| -> Result<bool, BadInput> {
///     let remarks = RopeEnd { hung, ..RopeEnd::default() }.answer()?.remarks;
///     Ok(!remarks.iter().any(|remark| remark.starts_with("Cannot be paid out")))
/// };
/// assert!(pays_out(Hung::Releasable)?);
/// assert!(!pays_out(Hung::Fixed)? && !pays_out(Hung::Doubled)? && !pays_out(Hung::PullCord)?);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Hung {
    /// One strand from a device that can be released under load, the rest at the station.
    #[default]
    Releasable,
    /// Tied to the station by a knot at its middle; people go down one half.
    Fixed,
    /// Through the ring, both strands loaded.
    Doubled,
    /// One strand blocked at the ring; a cord pulls it down afterwards.
    PullCord,
}
choices!(Hung {
    Releasable = "releasable", "single strand, releasable at the station";
    Fixed = "fixed", "single strand, tied at its middle";
    Doubled = "doubled", "doubled through the ring";
    PullCord = "pull cord", "single strand, blocked, with a pull cord";
});

impl Hung {
    const ALL: [Hung; 4] = [Hung::Releasable, Hung::Fixed, Hung::Doubled, Hung::PullCord];

    /// How many strands share the load.
    fn strands(self) -> f64 {
        if self == Hung::Doubled { 2.0 } else { 1.0 }
    }

    /// Whether the leader chooses how much of the rope hangs.
    fn is_let_out(self) -> bool {
        matches!(self, Hung::Releasable | Hung::PullCord)
    }
}

/// How the stretch of the rope is known.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::quantity::{Force, Ratio, newton, percent};
/// use rigging_core::question::{Ask, BadInput, RopeEnd, StretchBy};
///
/// // EN 1891 adds 100 kg, EN 892 (from memory) 75 kg: a rope that is 5 % longer by them has EA = 100 kg · g / 0.05,
/// // or 75 kg · g / 0.05.
/// let elongation = Band::exact(Ratio::new::<percent>(5.0));
/// for (stretch_by, added) in [(StretchBy::LowStretch, 100.0), (StretchBy::Dynamic, 75.0)] {
///     let stiffness = Band::exact(Force::new::<newton>(added * 9.806_65 / 0.05));
///     let end = |stretch_by| -> Result<f64, BadInput> {
///         Ok(RopeEnd { stretch_by, stiffness, elongation, ..RopeEnd::default() }.answer()?.findings[0].adverse())
///     };
///     assert!((end(stretch_by)? - end(StretchBy::Stiffness)?).abs() < 1e-9);
/// }
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum StretchBy {
    /// By its stiffness.
    #[default]
    Stiffness,
    /// By the elongation declared for a low-stretch rope.
    LowStretch,
    /// By the static elongation declared for a dynamic rope.
    Dynamic,
}
choices!(StretchBy {
    Stiffness = "stiffness", "its stiffness EA";
    LowStretch = "low-stretch elongation", "elongation, low-stretch rope (EN 1891)";
    Dynamic = "dynamic elongation", "static elongation, dynamic rope (EN 892)";
});

impl StretchBy {
    /// The mass that the standard adds for its elongation, and how that is known; none for a stiffness.
    fn mass(self) -> Option<(Mass, Source)> {
        let (kilograms, source) = match self {
            StretchBy::Stiffness => return None,
            StretchBy::LowStretch => {
                (100.0, Source::published("EN 1891: from 50 to 150 kg, at most 5 %; the quotient is worked out"))
            }
            StretchBy::Dynamic => {
                (75.0, Source::memory("EN 892: from 5 to 80 kg, single rope at most 10 %; the quotient is worked out"))
            }
        };
        Some((Mass::new::<kilogram>(kilograms), source))
    }
}

/// Water, and whether the rope repels it.
/// ```
/// use rigging_core::question::{Ask, RopeEnd, Water};
///
/// // UIAA: after four hours a rope that is not treated weighs 58 % more. One that stays dry has no wet weight.
/// let carried = |water, words: &str| {
///     let found = RopeEnd { water, ..RopeEnd::default() }.answer().ok()?.findings;
///     found.iter().find(|finding| finding.what == words).map(|finding| finding.adverse())
/// };
/// let both = carried(Water::Untreated, "to carry, wet").zip(carried(Water::Untreated, "to carry, dry"));
/// assert!(both.is_some_and(|(wet, dry)| (wet / dry - 1.58).abs() < 1e-9));
/// assert_eq!(carried(Water::Dry, "to carry, wet"), None);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Water {
    /// It stays dry.
    Dry,
    /// It gets wet; treated against water.
    Treated,
    /// It gets wet; not treated.
    #[default]
    Untreated,
}
choices!(Water {
    Dry = "dry", "stays dry";
    Treated = "wet, treated", "gets wet; treated against water";
    Untreated = "wet, untreated", "gets wet; not treated, or treatment worn";
});

impl Water {
    /// Water taken up as a share of the dry mass, and how it is known.
    /// ```
    /// use rigging_core::question::Water;
    ///
    /// // UIAA: about half of its mass in 15 minutes, 58 % after four hours; a dry rope takes up none.
    /// let (share, _) = Water::Untreated.taken_up();
    /// assert_eq!((share.low(), share.high(), Water::Dry.taken_up().0.high()), (0.50, 0.58, 0.0));
    /// ```
    pub fn taken_up(self) -> (Band, Source) {
        match self {
            Water::Dry => (Band::exact(0.0), Source::derived("a dry rope")),
            Water::Treated => (
                Band::of(0.0, 0.30, 0.45),
                Source::published(
                    "UIAA: at most 5 % in 15 minutes if all of it is treated, 20 to 40 % if partly; 45 % after four hours",
                ),
            ),
            Water::Untreated => (
                Band::of(0.50, 0.54, 0.58),
                Source::published(
                    "UIAA: about 50 % in 15 minutes, 58 % after four hours; the text can be read in two ways",
                ),
            ),
        }
    }
}

/// A rope hangs down a drop.
/// ```
/// use rigging_core::question::Question;
///
/// // From the ring 3 m to the lip, 20 m down, 1 m more for a hand at the bottom: of a dry cord of 30 m 6 m are left.
/// let rope: Question = serde_json::from_str(
///     r#"{"question": "rope", "rigged": "pull cord", "set_back_m": 3, "height_m": 20, "cord_m": 30, "water": "dry"}"#,
/// )?;
/// let found = rope.answer()?.findings;
/// let of = |words: &str| found.iter().find(|finding| finding.what.contains(words)).map(|found| found.adverse());
/// assert_eq!((of("of pull cord needed"), of("cord to pull left")), (Some(24.0), Some(6.0)));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RopeEnd {
    /// Height from the lip to the bottom, an estimate.
    pub height: Band<Length>,
    /// Rope between the station and the lip.
    pub set_back: Length,
    /// What is at the bottom.
    pub bottom: Bottom,
    /// How the rope is rigged.
    pub hung: Hung,
    /// Declared length of the rope.
    pub rope: Length,
    /// Declared length of a second rope joined to it at the ring; 0 if there is none.
    pub second: Length,
    /// Declared length of the pull cord.
    pub cord: Length,
    /// Rope let out from the station, measured along it as declared.
    pub let_out: Length,
    /// How far above the bottom the end is wanted while someone hangs at it; negative is below.
    pub end_above: Length,
    /// Rope that knots take at the station.
    pub knots: Length,
    /// Diameter of the rope.
    pub diameter: Length,
    /// How its stretch is known.
    pub stretch_by: StretchBy,
    /// Tension for a strain of 1.
    pub stiffness: Band<Force>,
    /// Elongation declared by its standard, as a share of the length.
    pub elongation: Band<Ratio>,
    /// Water, and whether the rope repels it.
    pub water: Water,
    /// How much of its length it loses in water.
    pub shrinkage: Band<Ratio>,
    /// Who hangs at the end.
    pub people: People,
}

impl Default for RopeEnd {
    fn default() -> Self {
        let metres = Length::new::<metre>;
        RopeEnd {
            height: Band::of(18.0, 20.0, 23.0).map(metres),
            set_back: metres(3.0),
            bottom: Bottom::Still,
            hung: Hung::Releasable,
            rope: metres(50.0),
            second: metres(0.0),
            cord: metres(30.0),
            let_out: metres(24.0),
            end_above: metres(0.0),
            knots: metres(1.0),
            diameter: Length::new::<millimetre>(9.0),
            stretch_by: StretchBy::Stiffness,
            stiffness: Band::of(20.0, 30.0, 41.0).map(Force::new::<kilonewton>),
            elongation: Band::of(0.02, 0.035, 0.05).map(Ratio::new::<ratio>),
            water: Water::Untreated,
            shrinkage: Band::of(0.0, 0.03, 0.06).map(Ratio::new::<ratio>),
            people: People::default(),
        }
    }
}

asks_people!(RopeEnd);

const INPUTS: [&str; 6] = [
    "height of the drop",
    people::LABELS[0],
    people::LABELS[1],
    "stiffness of the rope",
    "shrinkage in water",
    "water in the rope",
];

impl RopeEnd {
    /// Stiffness of one strand, N.
    fn stiffness(&self) -> Result<Band, OutOfDomain> {
        let Some((mass, _)) = self.stretch_by.mass() else { return Ok(self.stiffness.map(|force| force.value)) };
        let at = |share| Ok(rope::stiffness_from_elongation(gravity::weight(mass), share)?.value);
        let elongation = &self.elongation;
        Ok(Band::of(at(elongation.low())?, at(elongation.typical())?, at(elongation.high())?))
    }

    /// Declared length of the strand that hangs, the one that hurts if they differ, m.
    fn strand(&self, hung: Hung) -> f64 {
        let (rope, knots, second) = (self.rope.value, self.knots.value, self.second.value);
        match hung {
            Hung::Releasable | Hung::PullCord => self.let_out.value,
            // The longer strand is the danger where the end must not be too low.
            Hung::Doubled if second > 0.0 && self.bottom == Bottom::Moving => rope.max(second) - knots / 2.0,
            Hung::Doubled if second > 0.0 => rope.min(second) - knots / 2.0,
            Hung::Fixed | Hung::Doubled => (rope - knots) / 2.0,
        }
    }

    /// Declared length of what is pulled from the bottom afterwards, m: of unlike strands the shorter one may be.
    fn pulled(&self, hung: Hung) -> f64 {
        if hung == Hung::PullCord {
            return self.cord.value;
        }
        RopeEnd { bottom: Bottom::Stand, ..*self }.strand(hung)
    }

    /// Most that the rope shrinks; nothing if it stays dry.
    fn most_shrinkage(&self) -> f64 {
        if self.water == Water::Dry { 0.0 } else { self.shrinkage.high().value }
    }

    /// Whether the strand hangs over the lip however much it shrinks.
    fn hangs(&self, hung: Hung) -> bool {
        self.strand(hung) * (1.0 - self.most_shrinkage()) > self.set_back.value
    }

    fn refuse(&self) -> Result<(), OutOfDomain> {
        let refused = |what, value, must| Err(OutOfDomain { what, value, must });
        let strand = self.strand(self.hung);
        let what = if self.hung.is_let_out() { "rope let out" } else { "strand that hangs, half of the rope" };
        if self.hung.is_let_out() && strand > self.rope.value - self.knots.value {
            return refused(what, strand, "not more than the rope, less what the knots take");
        }
        if !self.hangs(self.hung) {
            return refused(what, strand, "more than the set-back, shrunk or not: it has to hang over the lip");
        }
        if self.end_above >= self.height.low() {
            return refused("height of the end above the bottom", self.end_above.value, "less than the drop");
        }
        Ok(())
    }
}

impl Ask for RopeEnd {
    const NAME: &'static str = "rope";
    const WORDS: &'static str = "Where does it end, and can I pay out more?";
    const ABOUT: &'static str =
        "Where the rope ends with someone on it, how much to let out, and how much must stay at the station";
    const EXAMPLE: &'static str = "24 m of a wet 50 m rope let out, releasable, down a drop of 18 to 23 m into a still pool, the station 3 m behind the lip.";

    fn fields() -> Vec<Field<Self>> {
        let mut fields = table![
            Field::range('a', "height_m", Kind::Length, 1.0..=200.0, place!(height))
                .says("Down: lip to the bottom", "an estimate from above is uncertain: give the least and the most"),
            Field::one('s', "set_back_m", Kind::Length, 0.0..=50.0, place!(set_back))
                .says("Set-back: station to the lip", "along the rope"),
            Field::choice('b', "bottom", Bottom::CHOICES, place!(bottom))
                .says("At the bottom", "says which end of the range hurts: too short, or too long"),
            Field::choice('r', "rigged", Hung::CHOICES, place!(hung))
                .says("How the rope is rigged", "only what can be released under load can be paid out"),
            Field::one('c', "rope_m", Kind::Length, 5.0..=300.0, place!(rope))
                .says("Length of the rope", "as declared, or as measured dry"),
            Field::one('d', "second_m", Kind::Length, 0.0..=300.0, place!(second))
                .says("Second rope, joined at the ring", "0 if the middle of the one rope is at the ring")
                .asked_if(|rope: &RopeEnd| rope.hung == Hung::Doubled),
            Field::one('j', "cord_m", Kind::Length, 0.0..=300.0, place!(cord))
                .says("Length of the pull cord", "it has to reach a hand at the bottom")
                .asked_if(|rope: &RopeEnd| rope.hung == Hung::PullCord),
            Field::one('u', "let_out_m", Kind::Length, 1.0..=300.0, place!(let_out))
                .says("Rope let out from the station", "along the rope, by its marks or arm by arm before it is wet")
                .asked_if(|rope: &RopeEnd| rope.hung.is_let_out()),
            Field::one('e', "end_above_m", Kind::Length, -20.0..=50.0, place!(end_above)).says(
                "End wanted above the bottom, with someone on it",
                "0 is at the ground or the level of the water; negative is below",
            ),
            Field::one('t', "knots_m", Kind::Length, 0.0..=10.0, place!(knots))
                .says(
                    "Rope in the knots at the station",
                    "what knots, device and tails take; 0 if the ring alone holds a doubled rope"
                )
                .from(Source::assumed("a knot, a device and a tail")),
            Field::one('i', "diameter_m", Kind::Thickness, 0.006..=0.016, place!(diameter))
                .says("Rope diameter", "as declared; its mass follows from it"),
            Field::choice('g', "stretch_by", StretchBy::CHOICES, place!(stretch_by))
                .says("How its stretch is known", "a used or wet rope stretches more than declared"),
            Field::range('f', "stiffness_n", Kind::Force, 5000.0..=1_000_000.0, place!(stiffness))
                .says(
                    "Stiffness of one strand (EA)",
                    "tension that would double its length; the range shown first is for a used canyon rope",
                )
                .from(Source::assumed("used canyon rope; EN 1891 type A lies at its low end"))
                .asked_if(|rope: &RopeEnd| rope.stretch_by == StretchBy::Stiffness),
            Field::range('x', "elongation", Kind::Ratio, 0.005..=0.4, place!(elongation))
                .says("Declared elongation", "a share of the length: 0.05 is 5 %")
                .from(Source::published("low-stretch ropes declare 2 to 4 %; EN 1891 allows 5 %"))
                .asked_if(|rope: &RopeEnd| rope.stretch_by != StretchBy::Stiffness),
            Field::choice('v', "water", Water::CHOICES, place!(water))
                .says("Water", "a wet rope is heavier and shorter; hours in water wear down any treatment"),
            Field::range('z', "shrinkage", Kind::Ratio, 0.0..=0.15, place!(shrinkage))
                .says(
                    "Shrinkage after it was measured",
                    "a share of the length; 0 if it shrank before. One low-grade report has 0.10 for wet dynamic rope",
                )
                .from(Source::memory("makers declare 1.5 to 6 %"))
                .asked_if(|rope: &RopeEnd| rope.water != Water::Dry),
        ];
        fields.extend(people::fields());
        fields
    }
}

impl Solve for RopeEnd {
    const KEY: &'static str = "rp";

    fn solve(&self) -> Result<Answer, BadInput> {
        self.refuse()?;
        let spreads = self.spread(self.hung, Some(self.strand(self.hung)), &self.people)?;
        let point = if self.adverse_is_short() { &spreads.end.at_high } else { &spreads.end.at_low };
        Ok(Answer {
            findings: self.findings(&spreads),
            outcomes: self.outcomes()?,
            remarks: self.remarks(&spreads)?,
            scene: self.scene(point)?,
            graphs: vec![self.graph(&spreads)?],
            working: self.working(point)?,
            formulas: FORMULAS.to_vec(),
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
            ..Answer::default()
        })
    }
}
