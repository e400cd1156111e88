//! Will people hold it, for as long as it takes?

mod case;
mod change;
mod drawn;
mod list;
mod stance;
#[cfg(test)]
mod tests;
mod told;

pub use list::{Further, Stands};
pub use stance::{Seat, Stance};

use case::{Found, Way};
use told::{CAUTIONS, FORMULAS, NOT_IN};

use super::against::Against;
use super::answer::{Answer, ChosenLimit, Comparison, Finding};
use super::carried::{Carried, HeldBy};
use super::edge::Edge;
use super::field::{Enters, Field, choices, place, put, table};
use super::input::BadInput;
use super::people::{self, People, State, asks_people};
use super::{Ask, Forces, Solve, Whether};
use crate::band::{Band, Spread, sweep};
use crate::law::OutOfDomain;
use crate::limit::Standing;
use crate::quantity::{Force, Kind, Length, Mass, Ratio, kilogram, kilonewton, metre, newton, ratio};
use crate::working::Source;

/// Whether anybody can let go while the rope is loaded.
/// ```
/// use rigging_core::question::{Ask, BadInput, HumanAnchor, Released};
///
/// // A rope that can be let out helps whoever is stuck below, not those who are dragged.
/// let said = |released, words: &str| {
///     let remarks = HumanAnchor { released, ..HumanAnchor::default() }.answer()?.remarks;
///     Ok::<_, BadInput>(remarks.iter().any(|remark| remark.contains(words)))
/// };
/// assert!(said(Released::No, "whoever is stuck below stays there")?);
/// assert!(!said(Released::AtStation, "whoever is stuck below stays there")?);
/// assert!(said(Released::AtStation, "whoever is dragged cannot leave it")?);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Released {
    /// Nobody can.
    #[default]
    No,
    /// Each person can leave the rope.
    AtPerson,
    /// The rope can be let out.
    AtStation,
    /// Both.
    Both,
}
choices!(Released {
    No = "no", "not under load";
    AtPerson = "person", "at each person";
    AtStation = "station", "at the station: rope can be let out";
    Both = "both", "at each person and at the station";
});

/// People hold a rope by their weight.
/// ```
/// use rigging_core::question::Question;
///
/// // One person of 80 kg sits on flat wet rock, the rope level: a wet suit holds at least 0.20 of the weight.
/// let holders: Question = serde_json::from_str(
///     r#"{"question": "human anchor", "holders": 1, "holder_kg": 80, "floor_falls": 0, "above_lip_m": 0}"#,
/// )?;
/// let held = &holders.answer()?.findings[0];
/// assert!(held.what.starts_with("held by") && (held.adverse() - 0.20 * 80.0 * 9.806_65).abs() < 1e-6);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HumanAnchor {
    /// How many hold.
    pub holders: u32,
    /// Mass of each who holds, with kit.
    pub holder: Band<Mass>,
    /// How the first holds, and whoever is as the first.
    pub stance: Stance,
    /// What they are on.
    pub seat: Seat,
    /// How far the floor falls toward the drop for each metre forward.
    pub floor_falls: Ratio,
    /// How far the floor falls to one side for each metre across.
    pub side_falls: Ratio,
    /// Those behind the first, from the second on.
    pub further: [Further; list::MOST - 1],
    /// Distance from the first person to the lip.
    pub to_lip: Length,
    /// How far to one side of straight on the rope meets the lip.
    pub to_side: Length,
    /// How far the rope at the body is above the lip.
    pub above_lip: Length,
    /// How far the rope is above its usual place on the body.
    pub raised: Length,
    /// What the rope runs over at the lip.
    pub edge: Edge,
    /// Whether anybody can let go under load.
    pub released: Released,
    /// Whether they are in or beside moving water.
    pub by_water: Whether,
    /// Where the forces come from.
    pub forces: Forces,
    /// Force in the rope at rest, if it is taken from elsewhere.
    pub still: Band<Force>,
    /// Force in the rope at a slip or catch, if it is taken from elsewhere.
    pub caught: Band<Force>,
    /// Who hangs on the rope.
    pub people: People,
}

impl Default for HumanAnchor {
    fn default() -> Self {
        let kilonewtons = |low, typical, high| Band::of(low, typical, high).map(Force::new::<kilonewton>);
        HumanAnchor {
            holders: 2,
            holder: Band::of(65.0, 80.0, 95.0).map(Mass::new::<kilogram>),
            stance: Stance::Seated,
            seat: Seat::CleanWetRock,
            floor_falls: Ratio::new::<ratio>(0.05),
            side_falls: Ratio::new::<ratio>(0.0),
            further: [Further::default(); list::MOST - 1],
            to_lip: Length::new::<metre>(2.5),
            to_side: Length::new::<metre>(0.0),
            above_lip: Length::new::<metre>(0.2),
            raised: Length::new::<metre>(0.0),
            edge: Edge::PolishedRock,
            released: Released::No,
            by_water: Whether::No,
            forces: Forces::People,
            still: kilonewtons(0.6, 0.9, 1.2),
            caught: kilonewtons(1.0, 2.0, 4.0),
            people: People::default(),
        }
    }
}

asks_people!(HumanAnchor);

/// The body mass the trial value is scaled from, kg (assumed).
const TRIAL_MASS: f64 = 80.0;

/// The four fields of a further person.
macro_rules! further {
    ($at:literal, $number:literal, $stands:literal $mass:literal $falls:literal $side:literal) => {
        table![
            Field::choice($stands, concat!("stance_", $number), Stands::CHOICES, further!(@place $at, stands))
                .says(concat!("Person ", $number), "counted from the lip, tied to the one before without slack")
                .asked_if(|line: &HumanAnchor| line.holders >= $number),
            Field::one($mass, concat!("holder_", $number, "_kg"), Kind::Mass, 30.0..=200.0, further!(@place $at, mass))
                .says(concat!("Mass of person ", $number), "with kit")
                .asked_if(|line: &HumanAnchor| line.is_own($at)),
            Field::one($falls, concat!("floor_falls_", $number), Kind::Ratio, -1.0..=1.0, further!(@place $at, floor_falls))
                .says(concat!("Floor under person ", $number, " falls toward the drop"), FALLS)
                .asked_if(|line: &HumanAnchor| line.is_own($at)),
            Field::one($side, concat!("side_falls_", $number), Kind::Ratio, 0.0..=1.0, further!(@place $at, side_falls))
                .says(concat!("Floor under person ", $number, " falls to one side"), SIDE)
                .asked_if(|line: &HumanAnchor| line.is_own($at)),
        ]
    };
    (@place $at:literal, $field:ident) => {
        (
            |line: &HumanAnchor| Enters::to_entry(&line.further[$at].$field),
            |line: &mut HumanAnchor, entry| put(&mut line.further[$at].$field, entry),
        )
    };
}
const FALLS: &str = "0.10: a tenth of the distance; negative if it rises toward the drop";
const SIDE: &str = "0.10: a tenth of the way across; the worse side is taken";

impl Ask for HumanAnchor {
    const NAME: &'static str = "human anchor";
    const WORDS: &'static str = "Will people hold it, for as long as it takes?";
    const ABOUT: &'static str = "Whether people who hold a rope by their weight are dragged, topple, lift or tire";
    const EXAMPLE: &'static str = "Two people sit one behind the other on wet rock, nothing for the feet, and hold the rope for one who goes over the lip.";

    fn fields() -> Vec<Field<Self>> {
        let mut fields = table![
            Field::one('a', "holders", Kind::Count, 1.0..=6.0, place!(holders))
                .says("People who hold", "in line, tied without slack; the first is nearest the lip"),
            Field::range('b', "holder_kg", Kind::Mass, 30.0..=200.0, place!(holder))
                .says("Mass of each, with kit", "the lightest and the heaviest of those who hold"),
            Field::choice('s', "stance", Stance::CHOICES, place!(stance))
                .says("How they hold", "braced means an edge or a block in front of both feet"),
            Field::choice('g', "seat", Seat::CHOICES, place!(seat))
                .says("What they are on", "the friction that keeps them from being dragged")
                .from(Source::assumed("no test of a wet suit on rock is known")),
            Field::one('f', "floor_falls", Kind::Ratio, -1.0..=1.0, place!(floor_falls))
                .says("Floor falls toward the drop, as a share of the way forward", FALLS),
            Field::one('t', "side_falls", Kind::Ratio, 0.0..=1.0, place!(side_falls))
                .says("Floor falls to one side, as a share of the way across", SIDE),
        ];
        fields.extend(further!(0, 2, 'A' 'B' 'C' 'D'));
        fields.extend(further!(1, 3, 'E' 'F' 'G' 'H'));
        fields.extend(further!(2, 4, 'I' 'J' 'K' 'L'));
        fields.extend(further!(3, 5, 'M' 'N' 'O' 'P'));
        fields.extend(further!(4, 6, 'Q' 'R' 'S' 'T'));
        fields.extend(table![
            Field::one('d', "to_lip_m", Kind::Length, 0.2..=50.0, place!(to_lip)).says(
                "Out: first person to the lip",
                "level distance from the rope at the body, farther than the feet reach"
            ),
            Field::one('u', "to_side_m", Kind::Length, 0.0..=50.0, place!(to_side))
                .says("Rope meets the lip to one side by", "level distance from straight in front of the first person"),
            Field::one('h', "above_lip_m", Kind::Length, -10.0..=10.0, place!(above_lip)).says(
                "Rope at the body above the lip by",
                "the rope then runs down to the lip, not counted as a help; negative if the lip is higher",
            ),
            Field::one('v', "raised_m", Kind::Length, -0.8..=0.6, place!(raised))
                .says("Rope on the body above its usual place by", "usual: 0.2 m above the feet seated, 1.0 m standing")
                .from(Source::assumed("a rope tied in at the harness")),
            Field::choice('e', "edge", Edge::CHOICES, place!(edge))
                .says("What the rope runs over at the lip", "friction there helps them to hold; counted only second"),
            Field::choice('r', "released", Released::CHOICES, place!(released))
                .says("They can let go", "while the rope is loaded, and tried under load"),
            Field::choice('x', "by_water", Whether::CHOICES, place!(by_water))
                .says("They are in or beside moving water", "where a person who is dragged would end"),
            Field::choice('p', "forces", Forces::CHOICES, place!(forces))
                .says("Where the load comes from", "another question finds it for an abseil or a person in a current"),
            Field::range('i', "still_n", Kind::Force, 10.0..=1_000_000.0, place!(still))
                .says("Force in the rope at rest", "on the load's side of the lip")
                .asked_if(|line: &HumanAnchor| !line.is_hung()),
            Field::range('j', "caught_n", Kind::Force, 10.0..=1_000_000.0, place!(caught))
                .says("Force in the rope at a slip or catch", "on the load's side of the lip")
                .asked_if(|line: &HumanAnchor| !line.is_hung()),
        ]);
        fields.extend(people::fields().map(|field| field.asked_if(Self::is_hung)));
        fields
    }
}

impl Solve for HumanAnchor {
    const KEY: &'static str = "ha";

    fn solve(&self) -> Result<Answer, BadInput> {
        self.refuse_seat()?;
        if !self.is_hung() && self.caught.high() < self.still.high() {
            let what = "a slip or catch that pulls less than the load at rest";
            return Err(BadInput::Refused { what, why: "enter the force at rest first, then the larger one" });
        }
        let found = self.found()?;
        let labels = self.labels();
        let strength = |what: &str, spread: &Spread<8>| Finding::strength(what, spread.band).moved_by(spread, &labels);
        let load = |what: &str, spread: &Spread<8>| Finding::load(what, spread.band).moved_by(spread, &labels);
        let [at_rest, at_slip] = self.load_words();
        let mut findings = vec![
            strength("held by all of them together, edge not counted", &found.all),
            load(at_rest, &found.still),
            load(at_slip, &found.slip),
            strength("held by the first person alone", &found.alone),
            strength("ratio at rest: what they hold ÷ pull at rest", &found.ratio_still).measured_as(Kind::Ratio),
            strength("ratio at a slip: what they hold ÷ pull of the slip", &found.ratio_slip).measured_as(Kind::Ratio),
            Finding::strength("from the first person to the lip", Band::exact(self.to_lip.value))
                .measured_as(Kind::Length),
        ];
        if self.edge != Edge::Free {
            findings.push(strength("held by all, friction of the edge counted", &found.counted));
        }
        findings.extend(self.protected()?);

        let worst = self.worst(&found)?;
        let source = match (worst.way, self.stance) {
            (Way::Tires, stance) | (_, stance @ Stance::SeatedBraced) => stance.trial_source(),
            (Way::Dragged, _) => Source::derived("the weight of those who hold and their friction, assumed"),
            (Way::Topples | Way::Lifted, _) => Source::derived("the weight and the assumed stance"),
        };
        let compare = |what: &str, load: Band| Comparison {
            what: what.to_owned(),
            load,
            limit: Some(ChosenLimit {
                band: found.all.band,
                figure: found.all.band.low(),
                factor: 1.0,
                part: "what these people hold in this model".into(),
                source,
            }),
            standing: Standing::of(load, found.all.band).of_unknown_part("people hold: no limit holds for a person"),
        };
        let carried = self.is_hung().then(|| Carried::by_rope(found.slip.band, self.people.count, HeldBy::People));
        let mut outcomes: Vec<_> = self.seconds().into_iter().collect();
        outcomes.extend(self.changes(&found)?);
        outcomes.extend(self.each()?);
        Ok(Answer {
            usual: carried.as_ref().map(|carried| carried.compare(&Against::default())).unwrap_or_default(),
            carried,
            remarks: self.remarks(&worst, &found),
            scene: self.scene(&worst, found.still.band),
            working: self.working(&worst, &found.all.at_low, found.all.band.low())?,
            comparisons: vec![compare(at_slip, found.slip.band), compare(at_rest, found.still.band)],
            findings,
            states: self.states()?,
            outcomes,
            formulas: [FORMULAS.as_slice(), if self.is_hung() { &people::FORMULAS } else { &[] }].concat(),
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
            ..Answer::default()
        })
    }
}

impl HumanAnchor {
    /// The people of the example under forces that another question found in the rope.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::question::{Forces, HumanAnchor};
    ///
    /// // What was found elsewhere goes in unchanged.
    /// let (still, caught) = (Band::exact(900.0), Band::of(1000.0, 2000.0, 4000.0));
    /// let line = HumanAnchor::carrying(still, caught);
    /// assert_eq!(line.forces, Forces::Taken);
    /// assert_eq!((line.still.map(|force| force.value), line.caught.map(|force| force.value)), (still, caught));
    /// ```
    pub fn carrying(still: Band, caught: Band) -> HumanAnchor {
        let force = |band: Band| band.map(|newtons| Force::new::<newton>(newtons.max(10.0)));
        HumanAnchor { forces: Forces::Taken, still: force(still), caught: force(caught), ..HumanAnchor::default() }
    }

    /// What the first of them holds alone for minutes, N.
    pub(super) fn held_alone(&self) -> Result<Band, BadInput> {
        self.refuse_seat()?;
        Ok(self.found()?.alone.band)
    }

    fn refuse_seat(&self) -> Result<(), BadInput> {
        if self.seat.fits(self.stance) {
            return Ok(());
        }
        Err(if self.stance.is_seated() {
            BadInput::Refused {
                what: "stance and seat together, seated on soles",
                why: "a wet suit is sat on: choose a wet suit on rock, gravel or mud, or a stance that stands",
            }
        } else {
            BadInput::Refused {
                what: "stance and seat together, standing on a wet suit",
                why: "soles are stood on: choose soles on rock, gravel or mud, or a stance that is seated",
            }
        })
    }

    fn is_hung(&self) -> bool {
        self.forces == Forces::People
    }

    /// Whether the further person at a place is there and not as the first.
    fn is_own(&self, at: usize) -> bool {
        self.holders as usize > at + 1 && self.further.get(at).is_some_and(|one| one.stands != Stands::AsFirst)
    }

    fn states(&self) -> Result<Vec<Finding>, OutOfDomain> {
        let mut states = Vec::new();
        for state in State::ALL.into_iter().filter(|_| self.is_hung()) {
            let [body, kit] = self.people.inputs();
            let inputs = [body, kit, state.uncertain().0];
            let [spread] = sweep(inputs, |&[body, kit, at]| Ok([self.people.load_of_all(state, body, kit, at)?]))?;
            states.push(Finding::load(state.of("in the rope"), spread.band));
        }
        Ok(states)
    }

    fn worst(&self, found: &Found) -> Result<case::Hold, OutOfDomain> {
        let [_, _, _, mass, place, share, _, _] = found.all.at_low;
        self.hold(&self.first(), mass, place, share)
    }
}
