//! Does every part hold?

mod case;
mod parts;
#[cfg(test)]
mod tests;
mod told;

use parts::Carries;
pub use parts::Slot;

use parts::{
    CARRIES, CONDITION_CHOICES, FACTOR_CHOICES, ITEM_CHOICES, KNOT_CHOICES, LOADING_CHOICES, PLACES, first, named,
};

use super::answer::{Answer, Finding};
use super::carried::{Carried, HangOn};
use super::field::{Field, choices, place, table};
use super::input::BadInput;
use super::people::{self, People, State, asks_people};
use super::{Ask, Solve};
use crate::band::Band;
use crate::quantity::{Angle, Force, Kind, Length, Ratio, degree, kilonewton, metre, newton, ratio};
use crate::strength::condition::CONDITIONS;
use crate::strength::factor::{FACTORS, Factor};
use crate::strength::item::{Figure, ITEMS};
use crate::strength::knot::KNOTS;
use crate::strength::resistance::LOADINGS;
use crate::working::Source;

/// Where the forces come from.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::quantity::{Force, kilonewton};
/// use rigging_core::question::{Ask, Forces, WeakestPart};
///
/// // A force that was measured loads the weakest part, the rope, as it was entered, whoever hangs.
/// let rope = Band::exact(Force::new::<kilonewton>(3.0));
/// let measured = WeakestPart { forces: Forces::Taken, rope, ..WeakestPart::default() };
/// assert_eq!(measured.answer()?.findings[1].adverse(), 3000.0);
/// assert_ne!(WeakestPart { forces: Forces::People, ..measured }.answer()?.findings[1].adverse(), 3000.0);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Forces {
    /// From people who hang here.
    #[default]
    People,
    /// From another question, or measured.
    Taken,
}
choices!(Forces {
    People = "people", "from the people who hang";
    Taken = "taken", "from another question, or measured";
});

/// How the rope meets the master point.
/// ```
/// use rigging_core::question::{Ask, RopeMeets, WeakestPart};
///
/// // Held from below, both strands pull at the master point, the one that is pulled e^(μπ) times as much: a wet ring.
/// let on_point = |meets| {
///     let rows = WeakestPart { meets, ..WeakestPart::default() }.answer().ok()?.comparisons;
///     rows.iter().find(|row| row.what.starts_with("on the part at the master point")).map(|row| row.load.high())
/// };
/// let (ends, held) = on_point(RopeMeets::Ends).zip(on_point(RopeMeets::HeldBelow)).ok_or("no such part")?;
/// assert!((held - ends * (1.0 + (0.39 * std::f64::consts::PI).exp())).abs() < 1e-6);
/// # Ok::<(), &str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum RopeMeets {
    /// It ends there.
    #[default]
    Ends,
    /// It runs through and is held from below.
    HeldBelow,
}
choices!(RopeMeets {
    Ends = "ends", "it ends there, or both strands carry";
    HeldBelow = "held below", "it runs through, held from below";
});

/// Whose design factor.
/// ```
/// use rigging_core::quantity::{Ratio, ratio};
/// use rigging_core::question::{Ask, WeakestPart, Whose};
///
/// // The rope of the example resists 6534 N at the least: over 5, the first of the list, or over 2, one's own.
/// let limit = |whose| {
///     let parts = WeakestPart { whose, own_factor: Ratio::new::<ratio>(2.0), ..WeakestPart::default() };
///     let rows = parts.answer().ok()?.comparisons;
///     let rope = rows.into_iter().find(|row| row.what.starts_with("on the part in the rope (1)"))?;
///     rope.limit.map(|limit| limit.band.low())
/// };
/// let (listed, own) = limit(Whose::Listed).zip(limit(Whose::Own)).ok_or("no limit")?;
/// assert!((listed - 6534.0 / 5.0).abs() < 1e-6 && (own - 6534.0 / 2.0).abs() < 1e-6);
/// # Ok::<(), &str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Whose {
    /// One of the list.
    #[default]
    Listed,
    /// The user's own.
    Own,
}
choices!(Whose {
    Listed = "listed", "one that people use";
    Own = "own", "a factor of my own";
});

/// The parts between rock and person, and what they carry.
/// ```
/// use rigging_core::question::{Ask, WeakestPart};
///
/// // The example: its rope is the weakest of the known parts. Type B, 18 kN; the figure-eight leaves 0.66 of it,
/// // wear by abseils 0.55.
/// let weakest = &WeakestPart::default().answer()?.findings[0];
/// assert!(weakest.what.contains("low-stretch rope B"));
/// assert!((weakest.adverse() - 18_000.0 * 0.66 * 0.55).abs() < 1e-6);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeakestPart {
    /// Where the forces come from.
    pub forces: Forces,
    /// What the people do, if they come from people.
    pub state: State,
    /// Who hangs.
    pub people: People,
    /// How the rope meets the master point.
    pub meets: RopeMeets,
    /// Most on one anchor, as a share of what is on the master point.
    pub share: Band<Ratio>,
    /// Force in the rope, if it is taken from elsewhere.
    pub rope: Band<Force>,
    /// Force on the master point, if it is taken from elsewhere.
    pub point: Band<Force>,
    /// Force on the anchor that carries most, if it is taken from elsewhere.
    pub anchor: Band<Force>,
    /// Direction of the pull on a bolt, from straight out of the rock.
    pub pull: Band<Angle>,
    /// The figure printed on a part that has one.
    pub stated: Force,
    /// Whose design factor.
    pub whose: Whose,
    /// The factor of the list.
    pub factor: &'static Factor,
    /// The user's own factor.
    pub own_factor: Ratio,
    /// Smallest size of a block or knot that must not pull through a ring; 0 if not measured.
    pub block: Length,
    /// Inside of that ring; 0 if not measured.
    pub ring: Length,
    /// The parts, from the rock to the person.
    pub parts: [Slot; PLACES],
}

/// A part in its usual condition.
fn part(name: &str) -> Slot {
    Slot {
        item: named(ITEMS, name, |item| item.name),
        knot: first(KNOTS),
        loading: first(LOADINGS),
        condition: first(CONDITIONS),
    }
}

impl Default for WeakestPart {
    fn default() -> Self {
        let kilonewtons = |low, typical, high| Band::of(low, typical, high).map(Force::new::<kilonewton>);
        let mut rope = part("rope B nylon");
        rope.knot = named(KNOTS, "figure-eight", |knot| knot.name);
        rope.condition = named(CONDITIONS, "worn rope", |condition| condition.name);
        WeakestPart {
            forces: Forces::People,
            state: State::Slip,
            people: People::default(),
            meets: RopeMeets::Ends,
            share: Band::of(0.5, 0.6, 0.8).map(Ratio::new::<ratio>),
            rope: kilonewtons(1.0, 2.0, 4.0),
            point: kilonewtons(1.0, 2.0, 4.0),
            anchor: kilonewtons(0.6, 1.2, 3.0),
            pull: Band::of(0.0, 45.0, 90.0).map(Angle::new::<degree>),
            stated: Force::new::<kilonewton>(22.0),
            whose: Whose::Listed,
            factor: first(FACTORS),
            own_factor: Ratio::new::<ratio>(5.0),
            block: Length::new::<metre>(0.0),
            ring: Length::new::<metre>(0.0),
            parts: [
                part("bolt found"),
                part("connector locking"),
                part("sling HMPE"),
                part("screw link"),
                part("none"),
                rope,
                part("connector locking"),
                part("harness"),
            ],
        }
    }
}

asks_people!(WeakestPart);

/// Times the ring below which a block can tip and deform through it.
const NEAR: f64 = 1.2;

/// The four fields of a part.
macro_rules! slot {
    ($at:literal, $name:literal, $where:literal, $item:literal $knot:literal $loading:literal $condition:literal) => {
        table![
            Field::choice($item, $name, ITEM_CHOICES, slot!(@place $at, item)).says(concat!($where, ": part"), PART),
            Field::choice($knot, concat!($name, "_knot"), KNOT_CHOICES, slot!(@place $at, knot))
                .says(concat!($where, ": knot"), "store the material with the sling: knots cost HMPE far more than nylon")
                .asked_if(|question: &WeakestPart| question.parts[$at].is_soft()),
            Field::choice($loading, concat!($name, "_loaded"), LOADING_CHOICES, slot!(@place $at, loading))
                .says(concat!($where, ": loaded"), "how the force goes through it")
                .asked_if(|question: &WeakestPart| question.parts[$at].has_ways()),
            Field::choice($condition, concat!($name, "_condition"), CONDITION_CHOICES, slot!(@place $at, condition))
                .says(concat!($where, ": condition"), "each figure holds for what it was measured on")
                .asked_if(|question: &WeakestPart| question.parts[$at].is_known()),
        ]
    };
    (@place $at:literal, $field:ident) => {
        (
            |question: &Self| super::field::Enters::to_entry(&question.parts[$at].$field),
            |question: &mut Self, entry| super::field::put(&mut question.parts[$at].$field, entry),
        )
    };
}
const PART: &str = "published figures for new, dry parts; nothing here if there is none";

/// Of six anchors one gets a sixth of all at least.
const LEAST_SHARE: f64 = 1.0 / 6.0;

impl Ask for WeakestPart {
    const NAME: &'static str = "weakest part";
    const WORDS: &'static str = "Does every part hold?";
    const ABOUT: &'static str = "Each part between rock and person against its load, and which is the weakest";
    const EXAMPLE: &'static str =
        "One of two bolts found in place, own link and sling, a thin rope worn by many abseils; one person slips.";

    fn fields() -> Vec<Field<Self>> {
        let mut fields = table![
            Field::choice('F', "forces", Forces::CHOICES, place!(forces))
                .says("Where the forces come from", "another question works them out for legs, lines and bends"),
            Field::choice('r', "meets", RopeMeets::CHOICES, place!(meets))
                .says(
                    "The rope at the master point",
                    "held from below both strands pull there; friction lets one pull up to 3.4 times as hard"
                )
                .asked_if(Self::is_hung),
            Field::range('s', "share", Kind::Ratio, LEAST_SHARE..=6.0, place!(share))
                .says("On one anchor, as a share of all", "1 for one anchor alone; see the question about legs")
                .from(Source::assumed("two legs up to 60° apart, 0.5 to 0.58, and a load that swings"))
                .asked_if(Self::is_hung),
            Field::range('c', "anchor_n", Kind::Force, 10.0..=1_000_000.0, place!(anchor))
                .says("Force on the anchor that carries most", "from the question about legs or the line")
                .asked_if(Self::is_taken),
            Field::range('b', "point_n", Kind::Force, 10.0..=1_000_000.0, place!(point))
                .says("Force on the master point", "from the question about the redirect, or that of the rope")
                .asked_if(Self::is_taken),
            Field::range('a', "rope_n", Kind::Force, 10.0..=1_000_000.0, place!(rope))
                .says("Force in the rope", "from the question about the abseil")
                .asked_if(Self::is_taken),
        ];
        fields.extend(slot!(0, "anchor_1", "At one anchor, 1", 'd' 'e' 'g' 'h'));
        fields.extend(slot!(1, "anchor_2", "At one anchor, 2", 'i' 'q' 't' 'u'));
        fields.extend(slot!(2, "anchor_3", "At one anchor, 3", 'v' 'A' 'B' 'C'));
        fields.extend(slot!(3, "point_1", "At the master point, 1", 'D' 'E' 'G' 'H'));
        fields.extend(slot!(4, "point_2", "At the master point, 2", 'I' 'J' 'K' 'L'));
        fields.extend(slot!(5, "rope_1", "In the rope, 1", 'M' 'N' 'O' 'P'));
        fields.extend(slot!(6, "rope_2", "In the rope, 2", 'Q' 'R' 'S' 'T'));
        fields.extend(slot!(7, "rope_3", "In the rope, 3", 'V' 'W' 'X' 'Y'));
        fields.extend(table![
            Field::range('p', "pull_rad", Kind::Angle, 0.0..=std::f64::consts::FRAC_PI_2, place!(pull))
                .says("Pull on the bolt, from straight out", "90° is along the rock; only for a hanger flat on it")
                .asked_if(|question: &Self| question.has(|figure| matches!(figure, Figure::Bolt(..)))),
            Field::one('o', "stated_n", Kind::Force, 100.0..=200_000.0, place!(stated))
                .says("Figure printed on the part", "as it stands on it, before any factor")
                .asked_if(|question: &Self| question.has(|figure| matches!(figure, Figure::Stated))),
            Field::one('x', "block_m", Kind::Thickness, 0.0..=0.5, place!(block))
                .says("Smallest size of the block or knot", "what must not pull through the ring; 0 if not measured"),
            Field::one('z', "ring_m", Kind::Thickness, 0.0..=0.5, place!(ring))
                .says("Inside of the ring", "its widest opening; 0 if not measured"),
        ]);
        fields.extend(people::fields().map(|field| field.asked_if(Self::is_hung)));
        fields.push(
            Field::choice('j', "state", State::CHOICES, place!(state))
                .says("What they do", "parts are judged on a slip unless you say otherwise")
                .from(Source::practice("judged on the worst of the four states"))
                .asked_if(|question: &Self| question.is_hung() && question.rule().is_none()),
        );
        fields.extend(table![
            Field::choice('l', "whose_factor", Whose::CHOICES, place!(whose))
                .says("Design factor", "each strength is divided by it"),
            Field::choice('f', "factor", FACTOR_CHOICES, place!(factor))
                .says("Whose factor", "a rule for people at work counts only with its own load")
                .from(Source::published("5 to 12 for fibre rope, Cordage Institute"))
                .asked_if(|question: &Self| question.whose == Whose::Listed),
            Field::one('y', "design_factor", Kind::Ratio, 1.0..=20.0, place!(own_factor))
                .says("My own factor", "below 5 is little for anything soft")
                .asked_if(|question: &Self| question.whose == Whose::Own),
        ]);
        fields
    }
}

impl Solve for WeakestPart {
    const KEY: &'static str = "wp";

    fn solve(&self) -> Result<Answer, BadInput> {
        let chain = self.chain()?;
        let mut states = Vec::new();
        for state in State::ALL.into_iter().filter(|_| self.is_hung()) {
            let what = if self.is_held_below() { "in the strand with the load" } else { "in the rope" };
            states.push(Finding::load(state.of(what), self.people.spread(state)?.band));
        }
        Ok(Answer { states, ..self.told(&chain) })
    }
}

impl WeakestPart {
    fn is_hung(&self) -> bool {
        self.forces == Forces::People
    }

    fn is_taken(&self) -> bool {
        self.forces == Forces::Taken
    }

    /// Whether something that holds in the rock was entered, and known: a link or a connector holds in nothing.
    fn is_held(&self) -> bool {
        self.at(Carries::Anchor).any(|slot| matches!(slot.item.figure, Some(Figure::Bolt(..))))
    }

    /// Whether rope, or what may take its place, was entered: a harness or a part of metal holds nobody by itself.
    fn is_roped(&self) -> bool {
        self.at(Carries::Rope).any(Slot::is_soft)
    }

    /// Whether the rope runs through the master point and its other strand is held.
    fn is_held_below(&self) -> bool {
        self.is_hung() && self.meets == RopeMeets::HeldBelow
    }

    /// Whether the rope runs through something that was not entered, which gets the force of both strands.
    fn runs_through_what(&self) -> bool {
        self.is_held_below() && !self.has_at(Carries::Point)
    }

    fn has_at(&self, carries: Carries) -> bool {
        self.at(carries).any(|slot| slot.item.figure.is_some())
    }

    fn at(&self, carries: Carries) -> impl Iterator<Item = &Slot> {
        self.parts.iter().zip(CARRIES).filter(move |(_, at)| *at == carries).map(|(slot, _)| slot)
    }

    /// Whether the block or knot and its ring were measured, and it may pull through.
    fn block_may_pass(&self) -> bool {
        let (block, ring) = (self.block.value, self.ring.value);
        block > 0.0 && ring > 0.0 && block < NEAR * ring
    }

    /// Whether a part with such a figure is among the parts.
    fn has(&self, such: fn(&Figure) -> bool) -> bool {
        self.parts.iter().any(|slot| slot.item.figure.as_ref().is_some_and(such))
    }

    /// The parts of the example under forces that another question found.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::question::{Carried, Forces, HeldBy, Holds, WeakestPart};
    ///
    /// // What was found elsewhere goes in unchanged.
    /// let found = Carried::by_rope(Band::of(900.0, 2000.0, 4000.0), 1, HeldBy::Said(Holds::KnownBolt));
    /// let parts = WeakestPart::carrying(&found);
    /// assert_eq!(parts.forces, Forces::Taken);
    /// assert_eq!(parts.rope.map(|force| force.value), found.rope);
    /// assert_eq!(parts.parts[0].item.name, "bolt");
    /// ```
    pub fn carrying(carried: &Carried) -> WeakestPart {
        let force = |band: Band| band.map(|newtons| Force::new::<newton>(newtons.max(10.0)));
        let mut parts = WeakestPart::default().parts;
        let [first, .., last] = &mut parts;
        *first = part(carried.held.item());
        if carried.on == HangOn::Line {
            // Nobody's harness is in the line.
            *last = part("none");
        }
        WeakestPart {
            forces: Forces::Taken,
            anchor: force(carried.anchor),
            point: force(carried.point),
            rope: force(carried.rope),
            parts,
            ..WeakestPart::default()
        }
    }
}
