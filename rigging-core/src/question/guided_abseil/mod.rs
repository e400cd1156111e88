//! Where does a guide line carry a person on an abseil, and what does it cost?

mod case;
mod rubs;
#[cfg(test)]
mod tests;
mod told;

use case::{Load, On};
use told::{CAUTIONS, FORMULAS, NOT_IN};

use super::against::{self, Against, asks_limit};
use super::answer::{Answer, Finding};
use super::carried::{Carried, HeldBy, larger};
use super::field::{Field, choices, place, table};
use super::figure_of::Through;
use super::input::BadInput;
use super::people::{self, People, State, asks_people};
use super::scene::{from_plumb, front};
use super::{Ask, Solve};
use crate::band::{Band, Spread};
use crate::quantity::{Force, Kind, Length, Ratio, kilonewton, metre, ratio};
use crate::working::Source;

/// How the guide line is set.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::quantity::{Force, kilonewton};
/// use rigging_core::question::{Ask, BadInput, Guide, GuidedAbseil};
///
/// // Pulled to 2 kN beforehand it pulls harder on its top anchor than left 1 to 3 % long.
/// let pre_tension = Band::exact(Force::new::<kilonewton>(2.0));
/// let on_top = |guide| {
///     let found = GuidedAbseil { guide, pre_tension, ..GuidedAbseil::default() }.answer()?.findings;
///     let top = found.iter().find(|finding| finding.what.starts_with("in the guide line and on its top anchor"));
///     Ok::<_, BadInput>(top.map_or(0.0, |finding| finding.adverse()))
/// };
/// assert!(on_top(Guide::PreTension)? > on_top(Guide::Slack)? && on_top(Guide::Slack)? > 0.0);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Guide {
    /// Pulled straight to a tension before anyone is on it.
    #[default]
    PreTension,
    /// Longer than the straight distance.
    Slack,
}
choices!(Guide {
    PreTension = "pre-tension", "pulled straight to a tension beforehand";
    Slack = "slack", "left longer than the straight distance";
});

/// An abseil rope, and a guide line on which the person's cow's tail runs. Places are measured from the
/// abseil anchor, outward from the wall and up.
/// ```
/// use rigging_core::question::Question;
///
/// // A guide line that is far too slack to pull: all 100 kg hang on the abseil anchor.
/// let guided: Question = serde_json::from_str(
///     r#"{"question": "guided abseil", "guide": "slack", "slack": 0.3, "bottom_out_m": 0.5, "fall_out_m": 0,
///         "pool_to_m": 0, "state": "still", "body_kg": 80, "kit_kg": 15, "suit_water_kg": 5}"#,
/// )?;
/// let found = guided.answer()?.findings;
/// assert!(found[0].what.starts_with("in the abseil rope and on its anchor"));
/// assert!((found[0].band.high() - 980.665).abs() < 1e-3);
/// assert!(found[1].band.high() < 1e-3 && found[2].band.high() < 1e-3);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GuidedAbseil {
    /// Abseil anchor to the ground or water at the foot.
    pub height: Length,
    /// How far the guide's bottom anchor is out.
    pub bottom_out: Band<Length>,
    /// How far it is above the ground or water.
    pub bottom_up: Length,
    /// How far the guide's top anchor is out.
    pub top_out: Length,
    /// How far it is above the abseil anchor.
    pub top_up: Length,
    /// How far out the falling water reaches.
    pub fall_out: Length,
    /// How far out the pool reaches.
    pub pool_to: Length,
    /// How the guide line is set.
    pub guide: Guide,
    /// Its tension before anyone is on it.
    pub pre_tension: Band<Force>,
    /// Its slack: extra length, as a share of the straight distance.
    pub slack: Band<Ratio>,
    /// Stiffness of both ropes: tension for a strain of 1.
    pub stiffness: Band<Force>,
    /// Cow's tail from the person to the guide line.
    pub tail: Length,
    /// Who hangs.
    pub people: People,
    /// What they are doing, for the number that is shown big.
    pub state: State,
    /// What the force on an anchor is compared with.
    pub against: Against,
}

impl Default for GuidedAbseil {
    fn default() -> Self {
        let metres = Length::new::<metre>;
        let kilonewtons = |low, typical, high| Band::of(low, typical, high).map(Force::new::<kilonewton>);
        GuidedAbseil {
            height: metres(14.0),
            bottom_out: Band::of(8.5, 9.0, 9.5).map(metres),
            bottom_up: metres(0.5),
            top_out: metres(0.3),
            top_up: metres(0.6),
            fall_out: metres(1.5),
            pool_to: metres(7.0),
            guide: Guide::PreTension,
            pre_tension: kilonewtons(0.3, 0.6, 1.0),
            slack: Band::of(0.01, 0.02, 0.03).map(Ratio::new::<ratio>),
            stiffness: kilonewtons(20.0, 30.0, 41.0),
            tail: metres(0.4),
            people: People::default(),
            state: State::Slip,
            against: Against::default(),
        }
    }
}

asks_people!(GuidedAbseil);
asks_limit!(GuidedAbseil);

const INPUTS: [&str; 4] = [
    "weight and what the person does",
    "where the bottom anchor is",
    "how tight the guide is set",
    "stiffness of the ropes",
];

impl Ask for GuidedAbseil {
    const NAME: &'static str = "guided abseil";
    const WORDS: &'static str = "Where does the guide line carry me, and what does it cost?";
    const ABOUT: &'static str =
        "The way of a person on a guided abseil, how far from fall and pool, and the pull on all three anchors";
    const EXAMPLE: &'static str =
        "A drop into a pool that nobody should swim in: a guide line from the stance to a boulder on its far side.";

    fn fields() -> Vec<Field<Self>> {
        let mut fields = table![
            Field::one('a', "height_m", Kind::Length, 4.0..=150.0, place!(height))
                .says("Down: abseil anchor to the ground or water", "straight down"),
            Field::range('b', "bottom_out_m", Kind::Length, 0.5..=150.0, place!(bottom_out)).says(
                "Out: abseil anchor to the guide's bottom anchor",
                "level, outward from the wall; a range if you can only guess",
            ),
            Field::one('c', "bottom_up_m", Kind::Length, 0.0..=50.0, place!(bottom_up))
                .says("Bottom anchor above the ground or water", "a bolt or sling on a boulder, or a person's height"),
            Field::one('d', "top_out_m", Kind::Length, -5.0..=20.0, place!(top_out))
                .says("Guide's top anchor farther out by", "than the abseil anchor; negative if it is farther back"),
            Field::one('e', "top_up_m", Kind::Length, -5.0..=20.0, place!(top_up))
                .says("Guide's top anchor higher by", "than the abseil anchor; negative if it is lower"),
            Field::one('f', "fall_out_m", Kind::Length, 0.0..=50.0, place!(fall_out))
                .says("Falling water reaches out", "from below the abseil anchor; 0 if there is none"),
            Field::one('h', "pool_to_m", Kind::Length, 0.0..=100.0, place!(pool_to))
                .says("Far edge of the pool, out", "from below the abseil anchor; 0 if there is none"),
            Field::choice('t', "guide", Guide::CHOICES, place!(guide))
                .says("How the guide line is set", "with nobody on it"),
            Field::range('p', "pre_tension_n", Kind::Force, 0.0..=20_000.0, place!(pre_tension))
                .says(
                    "Tension of the guide before anyone is on it",
                    "a person pulling straight reaches 0.1 to 0.3 kN, more with pulleys"
                )
                .from(Source::assumed("two or three people pulling straight"))
                .asked_if(|abseil: &GuidedAbseil| abseil.guide == Guide::PreTension),
            Field::range('s', "slack", Kind::Ratio, 0.0..=0.3, place!(slack))
                .says(
                    "Slack of the guide, as a share of the straight distance",
                    "0.02: 2 % longer than the straight distance"
                )
                .asked_if(|abseil: &GuidedAbseil| abseil.guide == Guide::Slack),
            Field::range('x', "stiffness_n", Kind::Force, 1000.0..=1_000_000.0, place!(stiffness))
                .says(
                    "Stiffness of both ropes (EA)",
                    "tension that would double their length; the range shown first is for used canyon ropes",
                )
                .from(Source::assumed("used canyon rope; EN 1891 type A lies at its low end")),
            Field::one('g', "tail_m", Kind::Length, 0.05..=2.0, place!(tail))
                .says("Cow's tail from the person to the guide", "length from the harness to the ring or pulley")
                .from(Source::assumed("a short cow's tail")),
        ];
        fields.extend(people::fields());
        fields.push(const { people::judged_state(place!(state)) });
        fields.extend(against::fields());
        fields
    }
}

impl Solve for GuidedAbseil {
    const KEY: &'static str = "ga";

    fn solve(&self) -> Result<Answer, BadInput> {
        self.check()?;
        let load = Load::of(self, self.state)?;
        let found = self.found(load.band)?;
        let high = |on: On| found.on(on).band.high();
        let harder = |one: On, other: On| if high(other) > high(one) { other } else { one };
        let hardest = On::ALL.into_iter().fold(On::Abseil, harder);
        let others = On::ALL.into_iter().filter(|on| *on != hardest);
        let judged = |place: &str| format!("{place}, {}", self.state.words());

        let rubs = found.rubbed();
        let what = format!("{RUBBED}, {}", judged(On::Top.words()));
        let rubbed = Finding::load(what, rubs.band).moved_by(&rubs, &INPUTS);
        let mut findings = Vec::new();
        let mut comparisons = Vec::new();
        for on in [hardest].into_iter().chain(others) {
            let spread = found.on(on);
            let case = self.closely(&spread.at_high, on)?;
            let mut finding = Finding::load(judged(on.words()), spread.band).moved_by(spread, &INPUTS);
            finding.pull = from_plumb(front(&case.hardest(on).on(on)));
            // The last person hangs on the abseil anchor without the guide; what is at the foot is not asked.
            let compared = match on {
                On::Abseil => {
                    let what = finding.what.clone() + ", or without a guide";
                    self.against.compare_any_way(what, larger(finding.band, load.band))
                }
                On::Top => self.against.compare_any_way(&rubbed.what, rubbed.band),
                On::Bottom => {
                    self.against.compare_any_way(finding.what.clone(), finding.band).of_unknown_part(AT_THE_FOOT)
                }
            };
            comparisons.push(compared.unless(self.against.not_of(Through::Rope)));
            findings.push(finding);
        }
        // The most that any anchor gets stands first.
        let rubs_most = rubs.band.high() > high(hardest);
        if rubs_most {
            findings.insert(0, rubbed);
            if let Some(top) = comparisons.iter().position(|compared| compared.what.starts_with(RUBBED)) {
                comparisons.swap(0, top);
            }
        } else {
            findings.push(rubbed);
        }
        // The way is that of a person who hangs still: no state makes the path.
        let [inside, beyond, above, _] = &found.way;
        if self.fall_out.value > 0.0 {
            let what = "below the stance before the way is clear of the falling water";
            findings.push(Finding::load(what, inside.band).measured_as(Kind::Length).moved_by(inside, &INPUTS));
        }
        if self.pool_to.value > 0.0 {
            findings.push(landing(beyond, above.band.high() > 0.0).moved_by(beyond, &INPUTS));
        }
        if above.band.high() > 0.0 {
            let what = "too high for the person to be down, where the rope goes slack, hanging still";
            findings.push(Finding::load(what, above.band).measured_as(Kind::Length).moved_by(above, &INPUTS));
        }
        let worst = found.on(hardest);
        let case = self.closely(&worst.at_high, hardest)?;
        let mut states = Vec::new();
        for state in State::ALL {
            let load = Load::of(self, state)?.band;
            let worst = if rubs_most { larger(worst.band, rubs.band) } else { worst.band };
            let band = if state == self.state { worst } else { self.hardest_under(load, &found)? };
            states.push(Finding::load(state.of("on the anchor pulled hardest"), band));
        }
        // The guide pulls the abseil rope beyond the weight, and its own part above the ring beyond both.
        let most = larger(larger(load.band, worst.band), rubs.band);
        let held = HeldBy::Said(self.against.holds);
        let carried = Carried {
            rope: most,
            anchor: most,
            ..Carried::by_rope(larger(load.band, found.on(On::Abseil).band), self.people.count, held)
        };
        let alone = match self.people.alone() {
            Some(people) => Some(GuidedAbseil { people, ..*self }.in_rope()?),
            None => None,
        };
        let carried = carried.or_one_alone(alone);
        let mut working = self.working(&worst.at_high, &load, &case, hardest);
        working.extend(comparisons.first().and_then(|compared| compared.limit.as_ref()).map(|limit| limit.step()));
        let (scene, aside) = self.scenes(&case, hardest);
        Ok(Answer {
            remarks: self.remarks(&found, &case)?,
            stands: Vec::new(),
            outcomes: vec![self.unguided(load.band)],
            scene,
            aside,
            still: None,
            graphs: vec![self.on_the_way(hardest, worst)?, self.against_set(hardest, worst)?],
            findings,
            states,
            comparisons,
            usual: carried.compare(&self.against),
            carried: Some(carried),
            working,
            formulas: [FORMULAS.as_slice(), &people::FORMULAS].concat(),
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
        })
    }
}

const RUBBED: &str = "with friction of the ring";
const AT_THE_FOOT: &str = "the bottom anchor is often a boulder or a person: what it is is not asked here";

/// Where the person comes down: told as what is missing where anything may be missing.
fn landing(beyond: &Spread<4>, hangs: bool) -> Finding {
    let band = beyond.band;
    let place = if hangs { "where the way ends" } else { "at the foot" };
    if band.low() > 0.0 {
        Finding::strength(format!("beyond the far edge of the pool, {place}"), band).measured_as(Kind::Length)
    } else {
        let short = band.map(|beyond| (-beyond).max(0.0));
        Finding::load(format!("short of the far edge of the pool, {place}"), short).measured_as(Kind::Length)
    }
}
