//! What does the current do to the person on the line, and where do they end?
//!
//! Four tools that are never mixed: [`Tool`] says which.

mod along;
mod answered;
mod bends;
mod case;
mod choice;
#[cfg(test)]
mod held;
mod scene;
mod standing;
#[cfg(test)]
mod tests;
mod told;
mod worked;

pub use choice::{Bed, Depth, Downstream, EndsOn, Flow, SlidesOn, SpeedBy, Tool};

use super::against::{self, Against, LimitChoice, asks_limit};
use super::answer::{Answer, ChosenLimit, Comparison};
use super::field::{Field, place, table};
use super::human_anchor::{HumanAnchor, Seat, Stance};
use super::input::BadInput;
use super::people::{self, People, asks_people};
use super::{Ask, Solve, Whether};
use crate::band::Band;
use crate::law::OutOfDomain;
use crate::limit::Standing;
use crate::quantity::{Force, Kind, Length, Mass, Ratio, Time, kilogram, kilonewton, metre, millimetre, ratio, second};
use crate::working::Source;

/// A person and a line in moving water.
/// ```
/// use rigging_core::question::Question;
///
/// // 8 m across and 8 m down, in a current that runs along the banks: the line lies 45° to it.
/// let current: Question = serde_json::from_str(
///     r#"{"question": "in the current", "tool": "diagonal", "across_m": 8, "down_m": 8, "drift": 0}"#,
/// )?;
/// let found = current.answer()?.findings;
/// let words = "between the straight line and the current";
/// let angle = found.iter().find(|finding| finding.what.contains(words)).ok_or("not found")?;
/// assert!((angle.band.high().to_degrees() - 45.0).abs() < 1e-9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InTheCurrent {
    /// Which tool.
    pub tool: Tool,
    /// How the speed is known.
    pub speed_by: SpeedBy,
    /// How fast the water looks.
    pub flow: Flow,
    /// Way of the float.
    pub float_way: Length,
    /// Time it took.
    pub float_time: Time,
    /// How far the timed speed may be off, as a share of it.
    pub speed_spread: Ratio,
    /// Whether the water carries silt.
    pub silt: Whether,
    /// What lies downstream.
    pub downstream: Downstream,
    /// How far it is, along the current, below the upper end of the line.
    pub to_hazard: Length,
    /// How deep a wader stands.
    pub depth: Depth,
    /// How tall those who wade are.
    pub height: Band<Length>,
    /// What they stand on.
    pub bed: Bed,
    /// Whether they wear packs.
    pub pack: Whether,
    /// Distance across the current that the line spans.
    pub across: Length,
    /// How far its far end is downstream of its near end.
    pub down: Length,
    /// How far the current moves toward the far bank for each metre downstream.
    pub drift: Band<Ratio>,
    /// Line beyond the straight distance, as a share of it.
    pub slack: Band<Ratio>,
    /// What they slide on.
    pub slides_on: SlidesOn,
    /// Length of a line that ends on the person.
    pub line: Length,
    /// Diameter of the line.
    pub diameter: Length,
    /// Stiffness EA of the line.
    pub stiffness: Band<Force>,
    /// What holds the line.
    pub ends_on: EndsOn,
    /// How each who holds stands or sits.
    pub stance: Stance,
    /// What they are on.
    pub seat: Seat,
    /// Who is in the water.
    pub people: People,
    /// What the force on an anchor is compared with.
    pub against: Against,
}

impl Default for InTheCurrent {
    fn default() -> Self {
        let metres = Length::new::<metre>;
        let share = |low, typical, high| Band::of(low, typical, high).map(Ratio::new::<ratio>);
        InTheCurrent {
            tool: Tool::Diagonal,
            speed_by: SpeedBy::Look,
            flow: Flow::Walk,
            float_way: metres(10.0),
            float_time: Time::new::<second>(7.0),
            speed_spread: Ratio::new::<ratio>(0.3),
            silt: Whether::Yes,
            downstream: Downstream::Lip,
            to_hazard: metres(25.0),
            depth: Depth::MidThigh,
            height: Band::of(1.60, 1.75, 1.90).map(metres),
            bed: Bed::SlimyRock,
            pack: Whether::Yes,
            across: metres(8.0),
            down: metres(8.0),
            drift: share(-0.1, 0.0, 0.1),
            slack: share(0.01, 0.02, 0.05),
            slides_on: SlidesOn::Connector,
            line: metres(12.0),
            diameter: Length::new::<millimetre>(10.0),
            stiffness: Band::of(20.0, 30.0, 41.0).map(Force::new::<kilonewton>),
            ends_on: EndsOn::Anchors,
            stance: Stance::Seated,
            seat: Seat::CleanWetRock,
            people: People::default(),
            against: Against::default(),
        }
    }
}

asks_people!(InTheCurrent);
asks_limit!(InTheCurrent);

const PEOPLE_HOLD: &str = "people hold, beside moving water: no limit holds for a person";
const IN_WATER: &str = "moving water: what is not in the number may be more than what is";

impl InTheCurrent {
    /// Whether the line runs from bank to bank, with the person in its bend.
    pub(super) fn is_bent(&self) -> bool {
        matches!(self.tool, Tool::HandLine | Tool::Diagonal)
    }

    fn on_people(&self) -> bool {
        self.tool == Tool::ThrowLine || self.ends_on == EndsOn::People
    }

    /// What one person at an end holds for minutes, N, if people hold: one of those asked for, on level ground.
    fn held_by_one(&self) -> Result<Option<Band>, BadInput> {
        if !self.on_people() {
            return Ok(None);
        }
        let [body, kit] = self.people.inputs();
        let kilograms = |body: f64, kit: f64| Mass::new::<kilogram>(body + kit);
        let holder = HumanAnchor {
            holders: 1,
            holder: Band::of(
                kilograms(body.low(), kit.low()),
                kilograms(body.typical(), kit.typical()),
                kilograms(body.high(), kit.high()),
            ),
            stance: self.stance,
            seat: self.seat,
            floor_falls: Ratio::new::<ratio>(0.0),
            above_lip: Length::new::<metre>(0.0),
            ..HumanAnchor::default()
        };
        holder.held_alone().map(Some)
    }

    /// A force on an end of the line beside what holds it.
    fn compare(&self, what: &str, load: Band, hold: Option<Band>) -> Comparison {
        let Some(hold) = hold else {
            return self.against.compare_any_way(what, load).of_unknown_part(IN_WATER);
        };
        let limit = ChosenLimit {
            band: hold,
            figure: hold.low(),
            factor: 1.0,
            part: "what one person holds for minutes, see people who hold".to_owned(),
            source: Source::derived("stance trials on land, weight and friction"),
        };
        // Of a person only what is or may be too much is told.
        let standing = Standing::of(load, hold).of_unknown_part(PEOPLE_HOLD);
        Comparison { what: what.to_owned(), load, limit: Some(limit), standing }
    }

    fn refused(&self) -> Result<(), OutOfDomain> {
        if !self.is_bent() && self.line < self.across {
            let must = "at least the distance across the current";
            return Err(OutOfDomain { what: "line from its upper end to the person", value: self.line.value, must });
        }
        Ok(())
    }
}

const ANY_WAY: &str = "hand-line and diagonal: between the two ends; tether: from the anchor to the person's way; throw line: from the thrower to the swimmer's way";

impl Ask for InTheCurrent {
    const NAME: &'static str = "in the current";
    const WORDS: &'static str = "What does the current do to the person on the line?";
    const ABOUT: &'static str = "Hand-line, diagonal, tether or throw line: forces, and where the person ends";
    const EXAMPLE: &'static str = "One person slides along a line slanted 45° across 8 m of water at walking pace, its ends on anchors found in place; the lip of a drop is 25 m below.";

    fn fields() -> Vec<Field<Self>> {
        const WAY: std::ops::RangeInclusive<f64> = 0.5..=100.0;
        let mut fields = table![
            Field::choice('a', "tool", Tool::CHOICES, place!(tool))
                .says("Tool", "one at a time: each asks for other things, and holds in another way"),
            Field::choice('h', "downstream", Downstream::CHOICES, place!(downstream))
                .says("What lies downstream", "go and look: there is no usual answer"),
            Field::one('i', "to_hazard_m", Kind::Length, 0.0..=500.0, place!(to_hazard))
                .says(
                    "Down: upper end of the line to it",
                    "along the current, from the near end, the anchor or the thrower"
                )
                .asked_if(|current: &Self| current.downstream.has_place()),
            Field::choice('b', "speed_by", SpeedBy::CHOICES, place!(speed_by))
                .says("Speed of the water", "timing a stick over a measured way is better than looking"),
            Field::choice('c', "flow", Flow::CHOICES, place!(flow))
                .says("It goes at", "where the person is, which is faster than at the bank")
                .from(Source::assumed("each about 30 % to either side"))
                .asked_if(|current: &Self| current.speed_by == SpeedBy::Look),
            Field::one('d', "float_m", Kind::Length, 1.0..=200.0, place!(float_way))
                .says("A float went", "where the current is fastest")
                .asked_if(|current: &Self| current.speed_by == SpeedBy::Float),
            Field::one('e', "float_s", Kind::Time, 0.5..=1000.0, place!(float_time))
                .says("in", "the shortest of three times")
                .asked_if(|current: &Self| current.speed_by == SpeedBy::Float),
            Field::one('f', "speed_off", Kind::Ratio, 0.1..=0.6, place!(speed_spread))
                .says("It may be off by a share of", "0.30: by 30 % either way")
                .from(Source::assumed("30 % either way"))
                .asked_if(|current: &Self| current.speed_by == SpeedBy::Float),
            Field::choice('g', "silt", Whether::CHOICES, place!(silt))
                .says("Brown, or carries sand", "heavier by up to a tenth")
                .from(Source::assumed("1000 to 1100 kg/m³")),
            Field::choice('j', "depth", Depth::CHOICES, place!(depth))
                .says("Water to the", "where it is deepest on the way")
                .from(Source::assumed("areas 0.11, 0.20, 0.29 and 0.45 m²"))
                .asked_if(|current: &Self| current.tool == Tool::HandLine),
            Field::range('r', "height_m", Kind::Length, 1.2..=2.2, place!(height))
                .says("Height of those who wade", "the shortest and the tallest")
                .asked_if(|current: &Self| current.tool == Tool::HandLine),
            Field::choice('s', "bed", Bed::CHOICES, place!(bed))
                .says("They stand on", "limits were measured on even beds; boulders halve them")
                .from(Source::memory("friction of soles"))
                .asked_if(|current: &Self| current.tool == Tool::HandLine),
            Field::choice('p', "pack", Whether::CHOICES, place!(pack))
                .says("Packs in the water", "0.10 to 0.15 m² more")
                .from(Source::assumed("0.10 to 0.15 m²")),
            Field::one('A', "across_m", Kind::Length, WAY, place!(across)).says("Across the current", ANY_WAY),
            Field::one('B', "down_m", Kind::Length, 0.0..=100.0, place!(down))
                .says("Down: far end below the near end", "along the banks; 0 is straight across")
                .asked_if(Self::is_bent),
            Field::range('C', "drift", Kind::Ratio, -1.0..=1.0, place!(drift))
                .says(
                    "The current sets toward the far bank by",
                    "metres for each metre down; below 0 toward the near bank. most in bends"
                )
                .asked_if(Self::is_bent),
            Field::range('D', "slack", Kind::Ratio, 0.0..=0.5, place!(slack))
                .says(
                    "Slack, as a share of the straight distance",
                    "0.02: 2 cm on each metre; a line without any still stretches"
                )
                .asked_if(Self::is_bent),
            Field::choice('E', "slides_on", SlidesOn::CHOICES, place!(slides_on))
                .says("They slide on", "a wet connector brakes more")
                .asked_if(|current: &Self| current.tool == Tool::Diagonal),
            Field::one('H', "line_m", Kind::Length, WAY, place!(line))
                .says("Line from its upper end to the person", "as tied or as held, without stretch")
                .asked_if(|current: &Self| !current.is_bent()),
            Field::one('F', "diameter_m", Kind::Thickness, 0.004..=0.016, place!(diameter))
                .says("Diameter of the line", "for the drag on the line itself"),
            Field::range('G', "stiffness_n", Kind::Force, 5000.0..=200_000.0, place!(stiffness))
                .says(
                    "Stiffness EA of the line",
                    "force that would double its length; low-stretch rope, used and wet, 20 to 41 kN"
                )
                .from(Source::assumed("used canyon rope")),
            Field::choice('I', "ends_on", EndsOn::CHOICES, place!(ends_on))
                .says("What holds the line", "each end of it")
                .asked_if(|current: &Self| current.tool != Tool::ThrowLine),
            Field::choice('J', "stance", Stance::CHOICES, place!(stance))
                .says("Who holds is", "braced means an edge or a block in front of both feet")
                .asked_if(Self::on_people),
            Field::choice('K', "seat", Seat::CHOICES, place!(seat))
                .says("On", "a wet suit is sat on, soles are stood on")
                .asked_if(Self::on_people),
        ];
        fields.extend(people::fields());
        let [holds, limit, own, factor] = against::fields::<Self>();
        fields.extend([
            holds.asked_if(|current| !current.on_people()),
            limit.asked_if(|current| !current.on_people()),
            own.asked_if(|current| !current.on_people() && current.against.limit == LimitChoice::Own),
            factor
                .asked_if(|current| !current.on_people() && matches!(current.against.limit, LimitChoice::Published(_))),
        ]);
        fields
    }
}

impl Solve for InTheCurrent {
    const KEY: &'static str = "cu";

    fn solve(&self) -> Result<Answer, BadInput> {
        self.refused()?;
        if self.is_bent() { self.answer_of_a_bend() } else { self.answer_of_a_catch() }
    }
}
