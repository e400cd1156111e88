//! Rope needed, in reserve and to spare; slings, connectors and links to bring.

use super::Plan;
use super::check::{CheckedDrop, Reason, Why};
use crate::band::Band;
use crate::quantity::{Kind, Length, Toward, Units, metre};
use crate::question::{Ask, Bottom, Hung, LetOut, Natural, PullDown, Question, RopeEnd};

/// Rope that one drop needs, m.
/// ```
/// use rigging_core::plan::{Answers, Plan};
/// use rigging_core::quantity::Units;
///
/// // Only a drop with a question about its rope says how much it needs.
/// let plan = Plan::example();
/// for need in plan.check(&mut Answers::default(), Units::default()).ropes.needs {
///     let asked = &plan.drops[need.drop].questions;
///     assert!(asked.iter().any(|held| held.question.name() == "rope"));
///     // What is there is one of the ropes carried.
///     assert!(plan.ropes.iter().any(|rope| rope.length.value == need.there));
/// }
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct RopeNeed {
    /// The drop.
    pub drop: usize,
    /// Needed in all, as declared; with what is let out, where that is more than has to be.
    pub needed: Band,
    /// What there is of it: the rope carried for it, else the rope of the question; a second one joined counted.
    pub there: f64,
    /// Whether that is a rope of the list, and not only of the question.
    pub carried: bool,
    /// Pull cord needed, as declared, and what there is of it; if one is used.
    pub cord: Option<(Band, f64)>,
    /// What is missing of a strand of the rope that is to be pulled, to reach a hand at the bottom; below 0 it is left over.
    pub strand: Option<Band>,
    /// Which of the ropes carried is joined to it or pulls it.
    pub beside: Option<usize>,
    /// What hangs, and what would have to; none where nobody asked, and what is needed is the least that any rigging takes:
    /// a single strand.
    pub end: Option<LetOut>,
}

/// Rope that must be left if the rope of a drop is lost, m.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::plan::{Answers, CarriedRope, DropAnchor, Plan, PlannedDrop, RopeKind};
/// use rigging_core::quantity::{Length, Units, metre};
///
/// let rope = |length, kind| CarriedRope { length: Length::new::<metre>(length), kind, ..CarriedRope::default() };
/// let drop = |height| {
///     let height = Band::exact(Length::new::<metre>(height));
///     PlannedDrop { height, anchor: DropAnchor::Known, ..PlannedDrop::default() }
/// };
/// let ropes = vec![rope(100.0, RopeKind::Rope), rope(40.0, RopeKind::Rope)];
/// let plan = Plan { ropes, drops: vec![drop(18.0), drop(46.0)], ..Plan::default() };
/// // Lost at the first drop, the long rope is missing below: 46 m and 1 m for knots are 50 m less the 6 % that a wet
/// // rope may shrink, and 40 m are left.
/// let spare = plan.check(&mut Answers::default(), Units::default()).ropes.spare.ok_or("no drop below")?;
/// assert_eq!((spare.lost_at, spare.below, spare.there), (0, 46.0, 40.0));
/// assert!((spare.needed - 50.0).abs() < 1e-9);
/// # Ok::<(), &str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Spare {
    /// The drop whose rope is lost.
    pub lost_at: usize,
    /// The drop still below that takes the longest rope from its station to its bottom.
    pub down: usize,
    /// How long that is, its set-back counted.
    pub below: f64,
    /// Rope in one piece that reaches down it, knots and shrinkage counted.
    pub needed: f64,
    /// The longest rope left.
    pub there: f64,
}

/// Ropes over the whole descent.
/// ```
/// use rigging_core::plan::{Answers, Plan};
/// use rigging_core::quantity::Units;
///
/// let ropes = Plan::example().check(&mut Answers::default(), Units::default()).ropes;
/// // The drop where least is left dictates the rope: what there is, less what is needed.
/// let need = &ropes.needs[ropes.dictated_by.ok_or("no rope")?];
/// let least = need.there - need.needed.high();
/// assert!(ropes.needs.iter().all(|other| other.there - other.needed.high() >= least));
/// assert!(ropes.reserve.is_some_and(|left| left.low() == need.there - need.needed.high()));
/// # Ok::<(), &str>(())
/// ```
#[derive(Debug, Clone, Default, PartialEq)]
#[non_exhaustive]
pub struct Ropes {
    /// What each drop needs that has a question about its rope, and one whose rope does not even reach down it.
    pub needs: Vec<RopeNeed>,
    /// The drop that dictates the rope, as a place in `needs`.
    pub dictated_by: Option<usize>,
    /// Rope left of that drop's, m: below 0 it is too short.
    pub reserve: Option<Band>,
    /// Drops with a question about the rope that has no answer, however long the rope.
    pub unanswered: Vec<usize>,
    /// Drops where a rope is used and no answer says how much: they may need more than any other.
    pub unsaid: Vec<usize>,
    /// Where losing the rope hurts most.
    pub spare: Option<Spare>,
}

/// Parts to bring. What is used again is counted where most is used at once, what stays is added up.
/// ```
/// use rigging_core::plan::{Answers, Plan, PlannedDrop};
/// use rigging_core::quantity::Units;
/// use rigging_core::question::{Held, Question};
///
/// // Legs to two anchors: two slings, a connector for each and one at the master point. The link that the rope is
/// // pulled from stays.
/// let questions = vec![Held::new(Question::named("anchor legs")?), Held::new(Question::named("pull-down")?)];
/// let plan = Plan { drops: vec![PlannedDrop { questions, ..PlannedDrop::default() }], ..Plan::default() };
/// let parts = plan.check(&mut Answers::default(), Units::default()).parts;
/// assert_eq!((parts.slings, parts.connectors), ((2, 0), (3, 0)));
/// assert_eq!((parts.links_left, parts.slings_left), (1, 0));
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
#[non_exhaustive]
pub struct Parts {
    /// Slings used at once, and the drop.
    pub slings: (u32, usize),
    /// Connectors used at once, and the drop.
    pub connectors: (u32, usize),
    /// Links that stay.
    pub links_left: u32,
    /// Slings that stay, at natural anchors that the rope is pulled from.
    pub slings_left: u32,
}

impl Plan {
    pub(super) fn ropes_for(&self, drops: &[CheckedDrop]) -> Ropes {
        let (mut needs, mut unanswered, mut unsaid) = (Vec::<RopeNeed>::new(), Vec::new(), Vec::new());
        for (place, drop) in drops.iter().enumerate() {
            for (asked, answered) in drop.asked.iter().zip(&drop.answers) {
                let Question::RopeEnd(rope) = &asked.question else { continue };
                // Where the rope is too short for any answer, as much is needed as with one that is not.
                let longer = answered.is_err().then(|| rope.of_any_length().answer().ok()).flatten();
                let Some(answer) = answered.as_ref().as_ref().ok().or(longer.as_ref()) else {
                    if unanswered.last() != Some(&place) {
                        unanswered.push(place);
                    }
                    continue;
                };
                let Some(needed) = rope.needed(answer).filter(|_| asked.missing.is_empty()) else { continue };
                // Of two unlike ropes the shorter strand counts.
                let both = rope.hung == Hung::Doubled && rope.second.value > 0.0;
                let there = if both { 2.0 * rope.rope.min(rope.second).value } else { rope.rope.value };
                let strand =
                    RopeEnd::pulled_missing(answer).filter(|_| rope.hung != Hung::PullCord && longer.is_none());
                let cord = RopeEnd::cord_needed(answer).map(|cord| (cord, rope.cord.value));
                let end = rope.let_out_needed(answer);
                let planned = self.drops.get(place);
                let beside = self.beside(planned.and_then(|drop| self.rope_of(drop)), &asked.question);
                let carried = planned.is_some_and(|drop| self.rope_of(drop).is_some());
                needs.push(RopeNeed { drop: place, needed, there, carried, cord, strand, beside, end });
            }
            let says = needs.iter().any(|need| need.drop == place);
            let Some(planned) = self.drops.get(place).filter(|drop| drop.uses_rope() && !says) else { continue };
            unsaid.push(place);
            let Some(rope) = self.rope_of(planned).and_then(|rope| self.ropes.get(rope)) else { continue };
            // Whatever the rigging, a strand goes from the station to the bottom.
            let (way, there) = (planned.way(), rope.length.value);
            let behind = way - planned.height.high();
            let down = |height: Length| (height + behind).value;
            let (low, typical) = (down(planned.height.low()), down(planned.height.typical()));
            let needed = Band::of(low, typical, PullDown::spare_for(way).value);
            if needed.high() > there {
                let (cord, strand, beside, end) = (None, None, None, None);
                needs.push(RopeNeed { drop: place, needed, there, carried: true, cord, strand, beside, end });
            }
        }
        // Each drop may have a rope of its own: most is needed where least is left.
        let dictated_by = largest(needs.iter().map(|need| need.end.map(|_| need.needed.high() - need.there)));
        let reserve = dictated_by.and_then(|place| needs.get(place)).map(|need| {
            let left = need.needed.map(|needed| need.there - needed);
            Band::of(left.low(), left.typical(), left.high())
        });
        Ropes { dictated_by, reserve, spare: self.spare(), needs, unanswered, unsaid }
    }

    /// Where too little is left if the rope is lost, by most; where all reaches, the least is left over.
    fn spare(&self) -> Option<Spare> {
        let mut spares = Vec::new();
        for (place, drop) in self.drops.iter().enumerate().filter(|(_, drop)| drop.uses_rope()) {
            if let Some((down, below)) = self.longest_after(place) {
                let there = self.longest_but(&self.at(self.rope_of(drop), drop)).and_then(|rope| self.ropes.get(rope));
                let there = there.map_or(0.0, |rope| rope.length.value);
                let needed = PullDown::spare_for(Length::new::<metre>(below)).value;
                spares.push(Spare { lost_at: place, down, below, needed, there });
            }
        }
        largest(spares.iter().map(|spare| Some(spare.needed - spare.there)))
            .and_then(|place| spares.get(place).copied())
    }

    pub(super) fn parts(&self, drops: &[CheckedDrop]) -> Parts {
        let mut parts = Parts::default();
        let mut at = Vec::new();
        for (place, (drop, checked)) in self.drops.iter().zip(drops).enumerate() {
            let (mut slings, mut connectors, mut links) = (drop.slings, drop.connectors, drop.links);
            let questions = || checked.asked.iter().map(|asked| &asked.question);
            // The rope is pulled from a link that stays, whatever was asked about it.
            let pull_downs = questions().filter(|question| matches!(question, Question::PullDown(_))).count();
            // People take theirs along.
            let pulled = pull_downs > 0 || drop.uses_rope() && drop.anchor != super::DropAnchor::People;
            links = links.saturating_add(if pulled { pull_downs.max(1) as u32 } else { 0 });
            for question in questions() {
                match question {
                    // A leg and a connector for each anchor, one connector at the master point.
                    Question::AnchorLegs(legs) => {
                        slings = slings.saturating_add(if legs.rig == crate::question::Rig::Fixed {
                            legs.anchors
                        } else {
                            1
                        });
                        connectors = connectors.saturating_add(legs.anchors).saturating_add(1);
                    }
                    Question::NaturalAnchor(natural) => {
                        connectors = connectors.saturating_add(1);
                        if pulled && natural.kind != Natural::Buried {
                            parts.slings_left = parts.slings_left.saturating_add(1);
                        } else {
                            slings = slings.saturating_add(1);
                        }
                    }
                    Question::GuidedAbseil(_) => connectors = connectors.saturating_add(3),
                    Question::Line(_) => connectors = connectors.saturating_add(2),
                    _ => {}
                }
            }
            parts.links_left = parts.links_left.saturating_add(links);
            at.push((slings, connectors, place));
        }
        // What is rigged ahead is in use while the drop above still is.
        let alone = at.clone();
        for ahead in self.second_rope().into_iter().flatten() {
            if let (Some(above), Some(drop)) = (alone.get(ahead.above), at.get_mut(ahead.place)) {
                (drop.0, drop.1) = (drop.0.saturating_add(above.0), drop.1.saturating_add(above.1));
            }
        }
        for (slings, connectors, place) in at {
            if slings > parts.slings.0 {
                parts.slings = (slings, place);
            }
            if connectors > parts.connectors.0 {
                parts.connectors = (connectors, place);
            }
        }
        parts
    }
}

/// What is needed and what there is of it, in words.
pub(super) fn needed_and_there(units: Units, needed: &Band, there: f64, carried: bool) -> String {
    let (needed, there) =
        (units.measured_range(needed, Kind::Length), units.measured(there, Kind::Length, Toward::Less));
    let whose = if carried { " there" } else { " in its question, none in the list" };
    [&needed, " needed, ", &there, whose].concat()
}

/// The place of the largest there is, the first of those that are equal.
fn largest(values: impl Iterator<Item = Option<f64>>) -> Option<usize> {
    let mut best: Option<(usize, f64)> = None;
    for (place, value) in values.enumerate() {
        if let Some(value) = value.filter(|value| best.is_none_or(|best| *value > best.1)) {
            best = Some((place, value));
        }
    }
    best.map(|(place, _)| place)
}

impl Ropes {
    fn of(&self, drop: usize) -> impl Iterator<Item = &RopeNeed> {
        self.needs.iter().filter(move |need| need.drop == drop)
    }

    /// What of the rope puts a drop first.
    pub(super) fn reasons(&self, drop: usize, units: Units) -> Vec<Reason> {
        let mut reasons = Vec::new();
        let mut push = |is_sure: bool, what: String, change: &str| {
            let why = if is_sure { Why::Above } else { Why::Crosses };
            reasons.push(Reason { why, what, change: change.to_owned(), question: None });
        };
        let length = |metres| units.measured(metres, Kind::Length, Toward::Nearest);
        for need in self.of(drop) {
            let mut add = |what: &str, needed: &Band, there: f64, carried: bool, change: &str| {
                if needed.high() > there {
                    let what = [what, ": ", &needed_and_there(units, needed, there, carried)].concat();
                    push(needed.low() > there, what, change);
                }
            };
            let longer = "a longer rope, or another way of rigging it";
            match need.end.filter(|end| end.released && end.there > end.needed.high()) {
                Some(end) => {
                    let out = length(end.there);
                    // Of a rope that a cord pulls nothing is kept to let anyone down.
                    let left = if need.cord.is_none() { " and enough left to let someone down" } else { "" };
                    let what = ["rope, with ", &out, " let out", left].concat();
                    add(&what, &need.needed, need.there, need.carried, "less rope let out, or a longer one");
                }
                None => {
                    let one = need.end.is_none();
                    let (what, change) =
                        if one { ("rope, in a single strand", "a longer rope") } else { ("rope", longer) };
                    add(what, &need.needed, need.there, need.carried, change);
                }
            }
            if let Some((cord, there)) = &need.cord {
                add("pull cord", cord, *there, need.beside.is_some(), "a longer cord, or another way of rigging it");
            }
            let moving = need.end.is_some_and(|end| end.bottom == Bottom::Moving);
            if let Some(missing) = need.strand.filter(|missing| missing.high() > 0.0) {
                let missing = units.measured(missing.high(), Kind::Length, Toward::More);
                let what = ["strand to pull: up to ", &missing, " missing to a hand at the bottom"].concat();
                // Where it may not be longer either, no rope is sure to be wrong.
                push(
                    need.strand.is_some_and(|missing| missing.low() > 0.0) && !moving,
                    what,
                    "a longer rope, or a pull cord",
                );
            }
            let Some(LetOut { needed, there, bottom, released }) = &need.end else { continue };
            let is_short = needed.high() > *there;
            // Moving water holds whoever hangs on more than is needed; so may what nobody has seen.
            let is_long = needed.low() < *there && matches!(bottom, Bottom::Moving | Bottom::NotSeen);
            if !is_short && !is_long {
                continue;
            }
            let is_sure = needed.low() > *there || needed.high() < *there && *bottom == Bottom::Moving;
            let (hangs, change) = match (released, is_short, is_long) {
                (false, ..) => ("in each strand", "another rope, or another way of rigging it"),
                (true, _, false) => ("let out", "more rope let out"),
                (true, false, true) if *bottom == Bottom::Moving => ("let out", "less rope let out"),
                _ => ("let out", "seeing where it ends"),
            };
            let what = [
                if is_sure { "rope: it ends too " } else { "rope: it may end too " },
                if is_short { "high" } else { "low" },
                if is_short && is_long { " or too low: " } else { ": " },
                &units.measured_range(needed, Kind::Length),
                " for its end to be where it is wanted, ",
                &length(*there),
                " ",
                hangs,
            ];
            push(is_sure, what.concat(), change);
        }
        reasons
    }
}
