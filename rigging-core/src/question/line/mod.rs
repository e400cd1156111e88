//! How tight does a line get when someone hangs on it, and where does a slip leave them?

mod case;
mod choice;
mod graphs;
mod pulled;
mod rigged;
mod scene;
mod slip;
#[cfg(test)]
mod tests;
mod told;

use case::found;
pub use choice::{Between, Meets, OnLine, Setting, Way};
use told::{CAUTIONS, FORMULAS, NOT_IN, hardest};

use super::against::{self, Against, asks_limit};
use super::answer::{Answer, Comparison, Finding, Outcome};
use super::carried::{Carried, HangOn, HeldBy, larger};
use super::field::{Field, place};
use super::figure_of::Through;
use super::input::BadInput;
use super::people::{self, People, State, asks_people};
use super::scene::from_plumb;
use super::{Ask, Solve, Whether};
use crate::band::{Band, Spread};
use crate::quantity::{Force, Kind, Length, Ratio, decimal, kilonewton, metre, millimetre, ratio};
use crate::working::Source;
use rigged::Hung;

/// A line between two anchors or along several, one load on it.
/// ```
/// use rigging_core::question::Question;
///
/// // OpenStax, University Physics, the walker on a wire: T = W/(2 sin δ). At a sag of a tenth tan δ = 0.2, so that
/// // T = W √1.04/0.4 = 2.55 W, here of 100 kg. The thinnest rope, dry, adds little by its own weight.
/// let line: Question = serde_json::from_str(
///     r#"{"question": "line", "span_m": 8, "far_higher_m": 0, "sag": 0.1, "diameter_m": 0.006, "wet": "no",
///         "body_kg": 80, "kit_kg": 15, "suit_water_kg": 5}"#,
/// )?;
/// let still = &line.answer()?.findings[1];
/// assert!(still.what.ends_with("hanging still") && (still.band.high() / 980.665 - 2.55).abs() < 0.01);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Horizontal distance of the ends.
    pub span: Band<Length>,
    /// How much higher the far anchor is than the near one.
    pub far_higher: Length,
    /// How many anchors there are between the ends.
    pub intermediates: u32,
    /// The first of them.
    pub first: Between,
    /// The second.
    pub second: Between,
    /// The third.
    pub third: Between,
    /// How the line meets them.
    pub meets: Meets,
    /// Where the load is, as a share of the span from the near anchor.
    pub place: Ratio,
    /// How the person is on the line.
    pub held: OnLine,
    /// Which way the load pulls.
    pub way: Way,
    /// Length of the cow's tail.
    pub tail: Length,
    /// How the line is set.
    pub setting: Setting,
    /// Sag with the load hanging still, as a share of the span of the loaded bay.
    pub sag: Band<Ratio>,
    /// Tension before anyone is on the line.
    pub pre_tension: Band<Force>,
    /// Slack: extra length, as a share of the straight distance.
    pub slack: Band<Ratio>,
    /// Stiffness of the rope: tension for a strain of 1.
    pub stiffness: Band<Force>,
    /// Diameter of the rope.
    pub diameter: Length,
    /// Whether the rope is wet.
    pub wet: Whether,
    /// How far above the straight line the harness is when a slip begins.
    pub drop: Length,
    /// Who hangs.
    pub people: People,
    /// What the tension is compared with.
    pub against: Against,
}

impl Default for Line {
    fn default() -> Self {
        let ratios = |low, typical, high| Band::of(low, typical, high).map(Ratio::new::<ratio>);
        let kilonewtons = |low, typical, high| Band::of(low, typical, high).map(Force::new::<kilonewton>);
        let between = |at| Between { at: Ratio::new::<ratio>(at), above: Length::new::<metre>(0.0) };
        Line {
            span: Band::of(7.5, 8.0, 8.5).map(Length::new::<metre>),
            far_higher: Length::new::<metre>(0.5),
            intermediates: 0,
            first: between(0.33),
            second: between(0.67),
            third: between(0.85),
            meets: Meets::default(),
            place: Ratio::new::<ratio>(0.5),
            held: OnLine::default(),
            way: Way::default(),
            tail: Length::new::<metre>(0.6),
            setting: Setting::Sag,
            sag: ratios(0.08, 0.10, 0.12),
            pre_tension: kilonewtons(0.2, 0.5, 1.0),
            slack: ratios(0.01, 0.02, 0.03),
            stiffness: kilonewtons(20.0, 30.0, 41.0),
            diameter: Length::new::<millimetre>(9.0),
            wet: Whether::Yes,
            drop: Length::new::<metre>(0.0),
            people: People::default(),
            against: Against::default(),
        }
    }
}

asks_people!(Line);
asks_limit!(Line);

const INPUTS: [&str; 4] = ["weight of who hangs", "span", "how tight the line is set", "stiffness of the rope"];

impl Ask for Line {
    const NAME: &'static str = "line";
    const WORDS: &'static str = "How tight does a line get, and where does a slip leave me?";
    const ABOUT: &'static str =
        "Pull on every anchor of a traverse line or hand-line, hanging still and on a slip, and where the person ends";
    const EXAMPLE: &'static str = "A line along a ledge to the next stance, set so that it sags a tenth of its span under the person clipped to it.";

    fn fields() -> Vec<Field<Self>> {
        let mut fields = vec![
            Field::range('a', "span_m", Kind::Length, 0.5..=200.0, place!(span))
                .says("Span: anchor to anchor, level", "horizontal distance; a range if you can only guess"),
            Field::one('h', "far_higher_m", Kind::Length, -50.0..=50.0, place!(far_higher))
                .says("Far anchor higher by", "negative if it is lower than the near one"),
            Field::one('i', "intermediates", Kind::Count, 0.0..=3.0, place!(intermediates))
                .says("Anchors between the ends", "0 to 3, counted from the near end"),
        ];
        let at = |key, name, at, label| {
            Field::one(key, name, Kind::Ratio, 0.03..=0.97, at).says(label, "share of the span, from the near anchor")
        };
        let above = |key, name, above, label| {
            Field::one(key, name, Kind::Length, -10.0..=10.0, above)
                .says(label, "from the straight line between the ends; negative if below it")
        };
        fields.extend([
            at('A', "first_at", place!(first.at), "Anchor 1: place").asked_if(|line: &Line| line.intermediates > 0),
            above('D', "first_above_m", place!(first.above), "Anchor 1: higher by")
                .asked_if(|line: &Line| line.intermediates > 0),
            at('B', "second_at", place!(second.at), "Anchor 2: place").asked_if(|line: &Line| line.intermediates > 1),
            above('E', "second_above_m", place!(second.above), "Anchor 2: higher by")
                .asked_if(|line: &Line| line.intermediates > 1),
            at('C', "third_at", place!(third.at), "Anchor 3: place").asked_if(|line: &Line| line.intermediates > 2),
            above('F', "third_above_m", place!(third.above), "Anchor 3: higher by")
                .asked_if(|line: &Line| line.intermediates > 2),
            Field::choice('r', "meets", Meets::CHOICES, place!(meets))
                .says("The line at these anchors", "a line that runs through gives its slack to the bay with the load")
                .asked_if(|line: &Line| line.intermediates > 0),
            Field::one('x', "place", Kind::Ratio, 0.02..=0.98, place!(place)).says(
                "Where the person is, as a share of the span",
                "0.5 is the middle; measured from the near anchor",
            ),
            Field::choice('c', "held", OnLine::CHOICES, place!(held))
                .says("The person on the line", "running freely, the place above only says where a slip begins"),
            Field::choice('v', "way", Way::CHOICES, place!(way))
                .says("The load pulls", "as strong as the weight either way"),
            Field::one('j', "cows_tail_m", Kind::Length, 0.0..=2.0, place!(tail))
                .says("Cow's tail", "from harness to line: in a slip they fall this far before it is tight")
                .from(Source::assumed("an arm's length, within reach of the hand")),
            Field::choice('t', "setting", Setting::CHOICES, place!(setting))
                .says("How the line is set", "by what you can see or feel; alike in every bay"),
            Field::range('s', "sag", Kind::Ratio, 0.005..=0.6, place!(sag))
                .says(
                    "Sag with the person on it, as a share of the span",
                    "0.10: a tenth of the span, of the person's bay if there are several; below 0.05 the tension runs away",
                )
                .from(Source::practice("a sag of a tenth of the span"))
                .asked_if(|line: &Line| line.setting == Setting::Sag),
            Field::range('p', "pre_tension_n", Kind::Force, 0.0..=20_000.0, place!(pre_tension))
                .says("Tension before anyone is on it", "one person pulling straight reaches less than half of a body weight")
                .from(Source::assumed("one or two people pulling straight"))
                .asked_if(|line: &Line| line.setting == Setting::PreTension),
            Field::range('z', "slack", Kind::Ratio, 0.0..=0.5, place!(slack))
                .says(
                    "Slack, as a share of the straight distance",
                    "0.02: a line 2 % longer than the straight distance",
                )
                .asked_if(|line: &Line| line.setting == Setting::Slack),
            Field::range('e', "stiffness_n", Kind::Force, 1000.0..=1_000_000.0, place!(stiffness))
                .says(
                    "Stiffness of the rope (EA)",
                    "tension that would double its length if it stayed straight; the range shown first is for a used canyon rope",
                )
                .from(Source::assumed("used canyon rope; EN 1891 type A lies at its low end")),
            Field::one('g', "diameter_m", Kind::Thickness, 0.006..=0.016, place!(diameter))
                .says("Rope diameter", "as declared; for the weight of the line"),
            Field::choice('u', "wet", Whether::CHOICES, place!(wet))
                .says("Wet line", "a wet line is counted half again as heavy, the most measured")
                .from(Source::published("uptake after 15 min in water about half, UIAA")),
            Field::one('d', "drop_m", Kind::Length, -2.0..=5.0, place!(drop)).says(
                "In a slip, harness above the straight line by",
                "0: at the height of the line; negative if below it: with the cow's tail already tight, minus its length",
            ),
        ]);
        fields.extend(people::fields());
        fields.extend(against::fields());
        fields
    }
}

impl Solve for Line {
    const KEY: &'static str = "ln";

    fn solve(&self) -> Result<Answer, BadInput> {
        self.check()?;
        let spreads = self.spread()?;
        let [slip, still, moving, jerks_most, ..] = &spreads;
        // Where the hardest jerks pull least the mildest do too; a usual factor pulls between the two.
        let under = |point: &case::Inputs, factor: f64| {
            Ok::<_, BadInput>(self.rigged(point)?.ready()?.at_rest(factor * point[0])?.hardest())
        };
        let typical = self.inputs().map(|input| input.typical());
        let [moves, jerks] = [State::Descending, State::Jerky].map(|state| state.uncertain().0);
        let moving = Band::of(still.band.low(), under(&typical, moves.typical())?, moving.band.high());
        let mildest = under(&jerks_most.at_low, jerks.low())?;
        let jerky = Band::of(mildest, under(&typical, jerks.typical())?, jerks_most.band.high());
        // Which of the two pulls harder depends on how tight the line is set.
        let jerks = jerky.high() > slip.band.high();
        let worst = if jerks { jerks_most } else { slip };
        // Both happen: none is milder than the milder end of either.
        let worst_band = larger(jerky, slip.band);
        let state = match worst_band {
            both if both == slip.band => "on a slip",
            both if both == jerky => "moving in jerks",
            _ => "on a slip or in jerks, whichever pulls harder",
        };
        let what = format!("on the anchor that is pulled hardest, {state}");
        let case = self.case(&worst.at_high)?;
        let mut findings = vec![
            Finding::load(what.clone(), worst_band).moved_by(worst, &INPUTS),
            Finding::load("on the anchor that is pulled hardest, hanging still", still.band).moved_by(still, &INPUTS),
        ];
        findings.extend(self.on_ends(&spreads)?);
        // An anchor between the ends gets what both parts leave of each other: less than the line carries.
        let line = spreads.get(found::LINE).filter(|_| self.intermediates > 0);
        let in_the_line = "in the line beside the person, in the hardest of the states";
        findings.extend(line.map(|line| Finding::load(in_the_line, line.band).moved_by(line, &INPUTS)));
        let sideways = self.way == Way::Sideways;
        let lengths = if sideways { told::SIDEWAYS } else { told::DOWN };
        for (what, place) in lengths.into_iter().zip([found::SAG_SLIP, found::SAG, found::BELOW, found::ALONG]) {
            if let Some(spread) = spreads.get(place) {
                // Up where a far anchor that is higher holds the person above the near one.
                let above = spread.band.high() < 0.0;
                let (what, band) =
                    if above { (told::ABOVE, spread.band.map(|below| -below)) } else { (what, spread.band) };
                findings.push(Finding::load(what, band).measured_as(Kind::Length).moved_by(spread, &INPUTS));
            }
        }
        let states = vec![
            Finding::load(State::Still.words(), still.band),
            Finding::load("moving steadily", moving),
            Finding::load("moving in jerks", jerky),
            Finding::load("a slip onto the line", slip.band),
        ];
        let here = format!("{what}, at the place entered");
        let mut comparisons = vec![self.against.compare_any_way(here, worst_band)];
        comparisons.extend(line.map(|line| self.against.compare_rope(in_the_line, line.band)));
        let shown = if jerks {
            let [weight, ..] = worst.at_high;
            case.rigged.clone().ready()?.at_rest(State::Jerky.uncertain().0.high() * weight)?
        } else {
            case.slip.clone()
        };
        let mut working = self.working(&worst.at_high, &case, &shown, jerks);
        let limit = comparisons.first().and_then(|compared| compared.limit.clone());
        working.extend(limit.as_ref().map(|limit| limit.step()));
        let limit = limit.map(|limit| limit.band.low());
        let (crossing, whole) = self.crossing(&case, &slip.at_high)?;
        let (against_sag, kept) = self.against_sag(&slip.at_high, limit)?;
        let at_place = |found: usize| spreads.get(found).map_or(worst_band, |spread| spread.band);
        let (mut anchor, mut tension, mut tail) = (worst_band, at_place(found::LINE), at_place(found::TAIL));
        // Who crosses passes the worst place too: a limit kept at the place entered alone says nothing of that.
        let mut crossed_at = None;
        if let Some(worst) = hardest(&crossing) {
            let crossed = self.crossing_in_any_set(worst);
            crossed_at = Some((crossed.anchor.across, crossed.anchor.up.high() / worst_band.high() - 1.0));
            let up_to = |band: &mut Band, most: f64| {
                let most = most.max(band.high());
                *band = Band::of(band.low(), most, most);
            };
            up_to(&mut anchor, crossed.anchor.up.high());
            up_to(&mut tension, crossed.line);
            up_to(&mut tail, crossed.tail);
            let here = worst_band.high() >= crossed.anchor.up.high();
            let what = format!(
                "on the anchor that is pulled hardest at the worst place of the crossing, {} of the span",
                decimal(if here { self.place.value } else { crossed.anchor.across }, 2)
            );
            let one_set = |compared: Comparison| {
                if self.is_set_one_way() { compared } else { compared.of_unknown_part(ONE_SET) }
            };
            comparisons.push(one_set(self.against.compare_any_way(what, anchor)));
            if line.is_some() {
                let what = "in the line at the worst place of the crossing";
                comparisons.push(one_set(self.against.compare_rope(what, tension)));
            }
        }
        let not_of = self.against.not_of(Through::rope(self.diameter));
        let comparisons = comparisons.into_iter().map(|row| row.unless(not_of)).collect();
        let held = HeldBy::Said(self.against.holds);
        tension = larger(tension, anchor);
        let carried = Carried {
            on: HangOn::Line,
            rope: tension,
            point: larger(tension, anchor),
            anchor,
            ..Carried::by_rope(tail, self.people.count, held)
        };
        // One of several may slip alone. The line gives less then: on a spring, or one that stiffens, no more than the root
        // of their number says.
        let several = f64::from(self.people.count).sqrt();
        let carried = carried.or_one_alone(Some(tail.map(|pull| pull / several)));
        let tightest = self.case(&still.at_high)?;
        let mut remarks = self.remarks(&tightest, crossed_at, whole);
        remarks.extend(kept);
        let mut outcomes = self.on_intermediates(&spreads)?;
        let (pulled, warning) = self.pulled()?;
        outcomes.extend(pulled);
        remarks.extend(warning);
        Ok(Answer {
            remarks,
            scene: self.scene(&case, &shown, state)?,
            still: Some(self.scene(&tightest, &tightest.rest, "hanging still")?),
            findings,
            states,
            outcomes,
            comparisons,
            usual: carried.compare(&self.against),
            carried: Some(carried),
            graphs: vec![crossing, against_sag],
            working,
            formulas: FORMULAS.to_vec(),
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
            ..Answer::default()
        })
    }
}

/// Why a crossing is not below a limit while the line may be set in more ways than one.
const ONE_SET: &str = "all of the crossing is looked at for one way only in which the line may be set: enter one span, set and stiffness to check it";

impl Line {
    /// Force on one anchor, with its direction where it is worst.
    fn on_anchor(&self, what: String, spread: &Spread<4>, anchor: usize, slips: bool) -> Result<Finding, BadInput> {
        let case = self.case(&spread.at_high)?;
        let hung: &Hung = if slips { &case.slip } else { &case.rest };
        let force = hung.on.get(anchor).copied().unwrap_or_default();
        let pull = if self.way == Way::Down { from_plumb(super::scene::front(&force)) } else { None };
        Ok(Finding { pull, ..Finding::load(what, spread.band).moved_by(spread, &INPUTS) })
    }

    fn on_ends(&self, spreads: &[Spread<4>; found::COUNT]) -> Result<Vec<Finding>, BadInput> {
        let last = self.stops().len() - 1;
        let ends = [
            ("on the near anchor, on a slip", found::NEAR_SLIP, 0, true),
            ("on the far anchor, on a slip", found::FAR_SLIP, last, true),
            ("on the near anchor, hanging still", found::NEAR, 0, false),
            ("on the far anchor, hanging still", found::FAR, last, false),
        ];
        let found = |(what, place, anchor, slips): (&str, usize, usize, bool)| {
            let spread = spreads.get(place)?;
            Some(self.on_anchor(what.to_owned(), spread, anchor, slips))
        };
        ends.into_iter().filter_map(found).collect()
    }

    fn on_intermediates(&self, spreads: &[Spread<4>; found::COUNT]) -> Result<Vec<Outcome>, BadInput> {
        let mut outcomes = Vec::new();
        for number in 1..self.stops().len() - 1 {
            let mut findings = Vec::new();
            for (what, place, slips) in
                [("on a slip", found::BETWEEN_SLIP, true), ("hanging still", found::BETWEEN, false)]
            {
                if let Some(spread) = spreads.get(place + number - 1) {
                    findings.push(self.on_anchor(what.to_owned(), spread, number, slips)?);
                }
            }
            outcomes.push(Outcome { case: format!("On anchor {number} between the ends"), findings });
        }
        Ok(outcomes)
    }
}
