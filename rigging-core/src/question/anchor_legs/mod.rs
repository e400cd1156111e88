//! How is the load shared between anchor points?

mod drawn;
mod fails;
mod graph;
mod parts;
mod rigged;
mod slack;
mod told;
mod worst;

#[cfg(test)]
mod tests;

pub use parts::{Knots, LegMaterial, Rig, Spot};

use told::FORMULAS;
use worst::{INPUTS, Worst};

use super::against::{self, Against, asks_limit};
use super::answer::{Answer, Finding, Outcome};
use super::carried::{Carried, HeldBy, USUAL, larger, usual_row};
use super::field::{Field, place, table};
use super::input::BadInput;
use super::people::{self, People, State, asks_people};
use super::scene::{from_plumb, front};
use super::{Ask, Solve};
use crate::band::Band;
use crate::law::OutOfDomain;
use crate::quantity::{Angle, Kind, Length, Ratio, degree, metre, ratio};
use crate::working::Source;
use rigged::{NAMES, There};

/// Two to six anchors, a master point below, people hanging from it.
/// ```
/// use rigging_core::question::Question;
///
/// // Two equal legs that hang almost side by side: 200 kg in all, so each anchor gets 100 kg, 980.665 N.
/// let legs: Question = serde_json::from_str(
///     r#"{"question": "anchor legs", "rig": "fixed", "apart_m": 0.05, "down_m": 30, "right_higher_m": 0,
///         "swing_left_rad": 0, "swing_right_rad": 0, "length_scatter_m": 0, "state": "still",
///         "people": 2, "body_kg": 80, "kit_kg": 15, "suit_water_kg": 5}"#,
/// )?;
/// let on_one = &legs.answer()?.findings[0];
/// assert!(on_one.what.ends_with("anchor, hanging still") && (on_one.band.high() - 980.665).abs() < 0.01);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AnchorLegs {
    /// How the legs are tied.
    pub rig: Rig,
    /// How many anchors there are.
    pub anchors: u32,
    /// Straight distance between the left and the right anchor.
    pub apart: Band<Length>,
    /// How far the master point hangs below the middle between them.
    pub down: Band<Length>,
    /// How far it hangs to the right of that middle.
    pub out: Length,
    /// How much higher the right anchor is than the left one.
    pub right_higher: Length,
    /// How far the right anchor is out from the rock, from the left one.
    pub right_depth: Length,
    /// How far the master point is out from the rock, from the left anchor.
    pub point_depth: Length,
    /// Where anchor 3 is.
    pub third: Spot,
    /// Where anchor 4 is.
    pub fourth: Spot,
    /// Where anchor 5 is.
    pub fifth: Spot,
    /// Where anchor 6 is.
    pub sixth: Spot,
    /// How far the load may swing to the left, from the fall line.
    pub swing_left: Angle,
    /// How far the load may swing to the right, from the fall line.
    pub swing_right: Angle,
    /// Friction of the ring on a self-equalising sling or a loop.
    pub ring_friction: Band<Ratio>,
    /// Whether a self-equalising sling has limiter knots.
    pub knots: Knots,
    /// How far each limiter knot is from the ring.
    pub knot: Length,
    /// What the legs are made of.
    pub material: LegMaterial,
    /// How much longer or shorter than meant each leg of fixed length may be tied.
    pub scatter: Length,
    /// Rope between the master point and the person.
    pub rope: Length,
    /// Who hangs.
    pub people: People,
    /// What they are doing, for the number that is shown big.
    pub state: State,
    /// What the force on an anchor is compared with.
    pub against: Against,
}

impl Default for AnchorLegs {
    fn default() -> Self {
        let metres = |low, typical, high| Band::of(low, typical, high).map(Length::new::<metre>);
        let one = Length::new::<metre>;
        let spot = |right, above| Spot { right: one(right), above: one(above), depth: one(0.0) };
        AnchorLegs {
            rig: Rig::Fixed,
            anchors: 2,
            apart: metres(0.75, 0.8, 0.85),
            down: metres(0.5, 0.55, 0.6),
            out: one(0.0),
            right_higher: one(0.1),
            right_depth: one(0.0),
            point_depth: one(0.0),
            third: spot(0.4, 0.15),
            fourth: spot(0.2, 0.3),
            fifth: spot(0.6, 0.3),
            sixth: spot(0.4, 0.5),
            swing_left: Angle::new::<degree>(5.0),
            swing_right: Angle::new::<degree>(15.0),
            ring_friction: Band::of(0.13, 0.18, 0.29).map(Ratio::new::<ratio>),
            knots: Knots::None,
            knot: one(0.1),
            material: LegMaterial::HmpeLoop,
            scatter: one(0.015),
            rope: one(3.0),
            people: People::default(),
            state: State::Slip,
            against: Against::default(),
        }
    }
}

asks_people!(AnchorLegs);
asks_limit!(AnchorLegs);

/// The three lengths of a further anchor.
macro_rules! spot {
    ($spot:ident, $least:literal, $name:literal, $right:literal $above:literal $depth:literal) => {
        table![
            Field::one($right, concat!("anchor_", $least, "_right_m"), Kind::Length, -30.0..=30.0, place!($spot.right))
                .says(concat!($name, ": right of the left anchor"), "level; negative to the left of it")
                .asked_if(|legs: &AnchorLegs| legs.anchors >= $least),
            Field::one($above, concat!("anchor_", $least, "_above_m"), Kind::Length, -30.0..=30.0, place!($spot.above))
                .says(concat!($name, ": above the left anchor"), "plumb; negative below it")
                .asked_if(|legs: &AnchorLegs| legs.anchors >= $least),
            Field::one($depth, concat!("anchor_", $least, "_depth_m"), Kind::Length, -30.0..=30.0, place!($spot.depth))
                .says(concat!($name, ": out from the rock"), DEPTH)
                .asked_if(|legs: &AnchorLegs| legs.anchors >= $least),
        ]
    };
}
const DEPTH: &str = "from a level line along the rock through the left anchor; negative if it lies deeper";

impl Ask for AnchorLegs {
    const NAME: &'static str = "anchor legs";
    const WORDS: &'static str = "How is the load shared between the anchor points?";
    const ABOUT: &'static str = "Force on each anchor, and what happens if one fails";
    const EXAMPLE: &'static str =
        "Two bolts found in place at a stance, one a hand higher than the other; one person of the group hangs below.";

    fn fields() -> Vec<Field<Self>> {
        let mut fields = table![
            Field::choice('r', "rig", Rig::CHOICES, place!(rig)).says(
                "How the legs are tied",
                "a leg of fixed length can go slack; a sliding sling drops if one anchor fails",
            ),
            Field::one('N', "anchors", Kind::Count, 2.0..=6.0, place!(anchors))
                .says("Anchors", "more than two only with legs of fixed length"),
            Field::range('a', "apart_m", Kind::Length, 0.05..=30.0, place!(apart)).says(
                "Apart: anchor to anchor",
                "straight from the left anchor to the right one; a range if you can only guess",
            ),
            Field::range('d', "down_m", Kind::Length, 0.05..=30.0, place!(down)).says(
                "Down: master point below the anchors",
                "straight down from the middle between the left and the right anchor, before anyone hangs",
            ),
            Field::one('x', "out_m", Kind::Length, -30.0..=30.0, place!(out))
                .says("Out: master point to the right", "from the middle between the anchors; negative to the left"),
            Field::one('h', "right_higher_m", Kind::Length, -20.0..=20.0, place!(right_higher))
                .says("Right anchor higher by", "negative if it is lower than the left one"),
            Field::one('R', "right_depth_m", Kind::Length, -20.0..=20.0, place!(right_depth))
                .says("Right anchor: out from the rock", DEPTH),
            Field::one('P', "point_depth_m", Kind::Length, -30.0..=30.0, place!(point_depth))
                .says("Master point: out from the rock", DEPTH),
        ];
        fields.extend(spot!(third, 3, "Anchor 3", 'A' 'B' 'C'));
        fields.extend(spot!(fourth, 4, "Anchor 4", 'D' 'E' 'F'));
        fields.extend(spot!(fifth, 5, "Anchor 5", 'G' 'H' 'I'));
        fields.extend(spot!(sixth, 6, "Anchor 6", 'J' 'K' 'L'));
        fields.extend(table![
            Field::one('s', "swing_left_rad", Kind::Angle, 0.0..=80_f64.to_radians(), place!(swing_left))
                .says("Load may swing left, from the fall line", "how far the loaded rope can move to the left"),
            Field::one('t', "swing_right_rad", Kind::Angle, 0.0..=80_f64.to_radians(), place!(swing_right))
                .says("Load may swing right, from the fall line", "how far the loaded rope can move to the right"),
            Field::range('f', "ring_friction", Kind::Ratio, 0.0..=1.0, place!(ring_friction))
                .says(
                    "Friction of the ring on the sling",
                    "a connector on tape or cord; holds the ring back from sharing evenly",
                )
                .from(Source::assumed("connector, 0.66 to 0.40 efficiency over 180°"))
                .asked_if(|legs: &AnchorLegs| legs.rig != Rig::Fixed),
            Field::choice('T', "knots", Knots::CHOICES, place!(knots))
                .says("Limiter knots", "they keep the sling from running through if an anchor fails")
                .asked_if(|legs: &AnchorLegs| legs.rig == Rig::SelfEqualising),
            Field::one('V', "knot_from_ring_m", Kind::Length, 0.0..=5.0, place!(knot))
                .says("Each knot from the ring", "along the sling; the ring slides no farther than this")
                .asked_if(|legs: &AnchorLegs| legs.rig == Rig::SelfEqualising && legs.knots == Knots::Limiter),
            Field::choice('M', "leg_material", LegMaterial::CHOICES, place!(material))
                .says("Legs are made of", "a side of a closed loop counts as one strand of its sling")
                .from(Source::assumed(
                    "stiffness EA: HMPE loop 130 to 250 kN (one drop test), nylon loop 40 to 110, cord 6 mm 10 to 20, 7 mm 14 to 28",
                )),
            Field::one('S', "length_scatter_m", Kind::Thickness, 0.0..=0.02, place!(scatter))
                .says("Each leg may be tied long or short by", "10 to 20 mm is usual; three and more legs share by it")
                .from(Source::assumed("± 15 mm: knots set, holes are not where they seem"))
                .asked_if(|legs: &AnchorLegs| legs.rig == Rig::Fixed),
            Field::one('W', "rope_m", Kind::Length, 0.2..=200.0, place!(rope))
                .says("Rope from master point to person", "a slip falls on up to 3 m of it; all of it catches with the legs if an anchor fails, a rope for each of several; short is worse")
                .from(Source::assumed("used canyon rope, EA 20 to 49 kN")),
        ]);
        fields.extend(people::fields());
        fields.push(const { people::judged_state(place!(state)) });
        fields.extend(against::fields());
        fields
    }
}

impl Solve for AnchorLegs {
    const KEY: &'static str = "al";

    fn solve(&self) -> Result<Answer, BadInput> {
        let count = self.count();
        if count > 2 && self.rig != Rig::Fixed {
            let must = "2 with one sling or loop: set How the legs are tied to separate legs, or Anchors to 2";
            return Err(OutOfDomain { what: "number of anchors", value: count as f64, must }.into());
        }
        let mut all = self.worst(There::All, self.state)?;
        let mut findings = self.shared(&mut all)?;
        let mut pair = if count > 2 { Some(self.worst_pair()?) } else { None };
        if let Some(pair) = &mut pair {
            findings.insert(0, self.on_one_pair(pair)?);
        }
        let graphs = self.graphs(&mut all)?;
        let slack = self.slack(&mut all)?;
        // Usually one pair alone is worse than all sharing; where it is not, what is worse comes first.
        let mut hardest = 0;
        for (place, finding) in findings.iter().enumerate() {
            let most = findings.get(hardest).map_or(0.0, |finding| finding.band.high());
            if finding.kind == Kind::Force && count > 2 && finding.band.high() > most * NEARLY {
                hardest = place;
            }
        }
        findings.get_mut(..=hardest).unwrap_or_default().rotate_right(1);
        let mut states = Vec::new();
        for state in State::ALL {
            let band = self.in_state(&all, state)?;
            let band = match &pair {
                Some(pair) => larger(band, self.pair_in_state(pair, state)?),
                None => band,
            };
            states.push(Finding::load(state.words(), band));
        }
        let first = match &mut pair {
            Some(pair) if hardest == 0 => pair,
            _ => &mut all,
        };
        let (worst, at) = self.worst_place(first);
        let case = first.rigged.at(self.state, &at)?;
        let there = first.rigged.there;
        // Of a closed loop both the anchor and the sling are compared: the figure chosen may be of either.
        let forces = findings.iter().filter(|finding| finding.kind == Kind::Force);
        let in_loop = forces.clone().nth(2).filter(|_| self.rig == Rig::Triangle);
        let mut comparisons: Vec<_> = forces
            .take(1)
            .map(|finding| self.against.compare_any_way(finding.what.clone(), finding.band))
            .chain(
                in_loop
                    .map(|finding| Self::of_a_figure(finding, self.material.is_loop() && self.against.is_of_sling()))
                    .map(|(what, pull)| self.against.compare_rope(what, pull)),
            )
            .collect();
        let outcomes = self.fails()?;
        let catch = hardest_catch(&outcomes, self.catches());
        let caught = catch.as_ref().map(|(.., band)| *band);
        // Legs give less under one of several, who may be alone there: in the failure that is hardest for all.
        let alone = match (&catch, self.people.alone()) {
            (Some((failed, ..)), Some(people)) => Some(AnchorLegs { people, ..*self }.catch(*failed)?),
            _ => None,
        };
        comparisons.extend(catch.map(|(_, what, band)| self.against.compare_any_way(what, band)));
        let (through, figure) = self.material.figure();
        let is_knotted = self.rig == Rig::SelfEqualising && self.knots == Knots::Limiter && self.against.is_of_sling();
        let knotted = is_knotted.then_some("limiter knots leave a sewn sling about half of its figure");
        let not_of = self.against.not_of(through).or(knotted);
        let comparisons: Vec<_> = comparisons.into_iter().map(|row| row.unless(not_of)).collect();
        let mut working = self.working(&at, &case, there, worst);
        working.extend(comparisons.first().and_then(|compared| compared.limit.as_ref()).map(|limit| limit.step()));
        let load = self.people.spread_over(self.state, self.uncertain(self.state))?.band;
        let anchor = findings.first().map_or(load, |finding| finding.band);
        // The catch after a failure comes through rope and harness too.
        let anchor = caught.map_or(anchor, |caught| larger(anchor, caught));
        let load = caught.map_or(load, |caught| larger(load, caught));
        let held = HeldBy::Said(self.against.holds);
        let carried = Carried { anchor, ..Carried::by_rope(load, self.people.count, held) }.or_one_alone(alone);
        let mut usual = carried.compare(&self.against);
        let (what, in_leg) = match in_loop.map(|finding| Self::of_a_figure(finding, self.material.is_loop())) {
            None => ("in the leg that is pulled hardest".to_owned(), anchor),
            // After a failure the one anchor that is left holds both strands.
            Some((what, pull)) => {
                let strands = if self.material.is_loop() { 1.0 } else { 2.0 };
                match caught.map(|caught| caught.map(|caught| caught / strands)) {
                    Some(caught) if caught.high() > pull.high() => {
                        (what + ", or at the catch after a failure", larger(pull, caught))
                    }
                    _ => (what, pull),
                }
            }
        };
        usual.push(usual_row(&what, in_leg, figure, self.against.factor_in_use(), USUAL));
        let ghost = self.ghost(&case, &at, worst)?;
        let scene = |seen| self.scene(&case, &ghost, there, &at, seen);
        Ok(Answer {
            remarks: self.remarks(&case, &slack),
            stands: Vec::new(),
            scene: scene(false),
            aside: self.is_deep().then(|| scene(true)),
            still: None,
            findings,
            states,
            outcomes,
            comparisons,
            usual,
            carried: Some(carried),
            graphs,
            working,
            formulas: [FORMULAS.as_slice(), &people::FORMULAS].concat(),
            cautions: self.cautions(),
            not_in: told::not_in(self.state),
        })
    }
}

impl AnchorLegs {
    /// The tension of a closed loop as a figure counts it: that of a sling is of both its strands.
    fn of_a_figure(in_loop: &Finding, of_sling: bool) -> (String, Band) {
        if of_sling {
            (in_loop.what.clone() + ", both strands of a sling taken together", in_loop.band.map(|one| 2.0 * one))
        } else {
            (in_loop.what.clone(), in_loop.band)
        }
    }

    /// The state stands beside each force: one judged hanging still must not be taken for one of a slip.
    fn judged(&self, place: &str) -> String {
        format!("{place}, {}", self.state.words())
    }

    /// What all legs together put on each anchor, the worst first.
    fn shared(&self, all: &mut Worst) -> Result<Vec<Finding>, BadInput> {
        let count = self.count();
        let sharing = if count > 2 { ", all legs sharing" } else { "" };
        let mut findings = Vec::new();
        for (number, spread) in all.found.clone().iter().enumerate() {
            if let Some(name) = NAMES.get(number).filter(|_| number < count) {
                let what = self.judged(&format!("on {}{sharing}", called(name)));
                let case = all.rigged.at(self.state, &spread.at_high)?;
                let pull = case.on.get(number).and_then(|on| from_plumb(front(on)));
                findings.push(Finding { pull, ..Finding::load(what, spread.band).moved_by(spread, &INPUTS) });
            } else if number > count {
                let first = findings.remove(all.most().0);
                findings.insert(0, first);
                if let Some(tension) = all.found.get(count).filter(|_| self.rig == Rig::Triangle) {
                    findings.push(Finding::load(self.judged("in the loop"), tension.band).moved_by(tension, &INPUTS));
                }
                let what = if count > 2 { "widest angle between two legs" } else { "included angle between the legs" };
                findings.push(Finding::load(what, spread.band).measured_as(Kind::Angle).moved_by(spread, &INPUTS));
            }
        }
        Ok(findings)
    }

    /// What the worst pair puts on its worst anchor, if everything hangs on that pair.
    fn on_one_pair(&self, pair: &mut Worst) -> Result<Finding, BadInput> {
        let (most, at) = self.worst_place(pair);
        let other = (0..self.count()).find(|number| *number != most && pair.rigged.there.leg(*number));
        let name = |number: usize| NAMES.get(number).map_or(String::new(), |name| called(name));
        let what = format!("on {}, if all hangs on it and {} alone", name(most), name(other.unwrap_or(most)));
        let case = pair.rigged.at(self.state, &at)?;
        let pull = case.on.get(most).and_then(|on| from_plumb(front(on)));
        let finding = Finding::load(self.judged(&what), Band::exact(0.0));
        Ok(match pair.found.get(most) {
            Some(spread) => Finding { pull, band: spread.band, ..finding.moved_by(spread, &INPUTS) },
            None => finding,
        })
    }

    /// The anchor that is loaded most, and where within the ranges.
    fn worst_place(&self, worst: &Worst) -> (usize, rigged::Point) {
        let (most, _) = worst.most();
        (
            most,
            worst
                .found
                .get(most)
                .map_or_else(|| self.bands(self.state).map(|band| band.typical()), |spread| spread.at_high),
        )
    }

    /// Whether not everything lies in one upright plane.
    fn is_deep(&self) -> bool {
        let spots = [self.third, self.fourth, self.fifth, self.sixth];
        let further = spots.iter().take(self.count().saturating_sub(2)).map(|spot| spot.depth);
        [self.right_depth, self.point_depth].into_iter().chain(further).any(|depth| depth.value != 0.0)
    }
}

/// The failure whose catch pulls hardest on what is left, with its words: of the first so many findings of each.
fn hardest_catch(outcomes: &[Outcome], catches: usize) -> Option<(usize, String, Band)> {
    let catches = outcomes
        .iter()
        .enumerate()
        .flat_map(|(failed, outcome)| outcome.findings.iter().take(catches).map(move |catch| (failed, outcome, catch)));
    let (failed, outcome, catch) =
        catches.reduce(|most, catch| if catch.2.band.high() > most.2.band.high() { catch } else { most })?;
    Some((failed, format!("{}, {}", catch.what, outcome.case.replacen("If", "if", 1)), catch.band))
}

/// Forces this near each other are one and the same: straight above the load one anchor carries all of it either way.
const NEARLY: f64 = 1.001;

/// "the left anchor", "anchor 3".
fn called(name: &str) -> String {
    if name.starts_with("anchor") { name.to_owned() } else { format!("the {name}") }
}
