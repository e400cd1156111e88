//! What each part carries and resists, and which is the weakest.

use super::super::bend::Over;
use super::super::input::BadInput;
use super::super::people::State;
use super::parts::{CARRIES, Carries, PLACES, first};
use super::{Forces, WeakestPart, Whose};
use crate::band::Band;
use crate::law::{OutOfDomain, bend};
use crate::limit::Standing;
use crate::quantity::{Angle, Ratio, radian, ratio};
use crate::strength::condition::CONDITIONS;
use crate::strength::factor::{Factor, Of, On};
use crate::strength::item::Figure;
use crate::strength::knot::KNOTS;
use crate::strength::resistance::{LOADINGS, Part, Refused, Resistance, Way};
use crate::working::{Known, Source};
use std::f64::consts::PI;

/// What places of the chain are called.
pub(super) const NAMES: [&str; PLACES] = [
    "at one anchor (1)",
    "at one anchor (2)",
    "at one anchor (3)",
    "at the master point (1)",
    "at the master point (2)",
    "in the rope (1)",
    "in the rope (2)",
    "in the rope (3)",
];

/// Why nothing is below a limit for its wraps.
const OTHER_END: &str = "the wraps keep one end whole: enter the knot at the other";

/// A part, what it carries and what it resists.
pub(super) struct Link {
    pub(super) place: usize,
    pub(super) part: Part,
    pub(super) load: Band,
    pub(super) resistance: Resistance,
    /// What it would resist at best, if nobody knows what it does.
    pub(super) at_best: Option<Resistance>,
    /// What its resistance is divided by; nothing if the factor chosen says nothing of it.
    pub(super) factor: Option<f64>,
    pub(super) standing: Standing,
}

impl Link {
    /// Least resistance over most load: how many times its load it resists; none if nobody knows.
    pub(super) fn margin(&self) -> Option<f64> {
        self.resistance.band.map(|band| band.low() / self.load.high())
    }

    /// What its standing was found by, if by anything.
    pub(super) fn counted(&self) -> &Resistance {
        match (&self.at_best, self.standing) {
            (Some(best), Standing::AboveLimit | Standing::RangeCrosses) => best,
            _ => &self.resistance,
        }
    }

    /// "in the rope (1)".
    pub(super) fn place(&self) -> &'static str {
        NAMES.get(self.place).copied().unwrap_or_default()
    }

    /// "in the rope (1): low-stretch rope B, nylon".
    pub(super) fn name(&self) -> String {
        format!("{}: {}", self.place(), self.part.item.words)
    }
}

/// All parts, and the forces they were given.
pub(super) struct Chain {
    pub(super) links: Vec<Link>,
    pub(super) forces: [Band; 3],
    pub(super) factor: (f64, &'static str, Source),
    /// The link that has the least margin of those that have one.
    pub(super) weakest: Option<usize>,
    /// How the whole stands.
    pub(super) whole: Standing,
}

impl Chain {
    pub(super) fn weakest(&self) -> Option<&Link> {
        self.weakest.and_then(|place| self.links.get(place))
    }
}

/// What the strand that is held pulls, of the one with the load: friction of a wet ring over half a turn helps who holds,
/// or holds back who pulls.
pub(super) fn other_strand() -> Result<Band, OutOfDomain> {
    let friction = Ratio::new::<ratio>(Over::Ring.friction(true).0.high());
    let most = bend::tight_to_slack(friction, Angle::new::<radian>(PI))?.value;
    Ok(Band::of(1.0 / most, 1.0, most))
}

/// The lows multiplied, the typicals, the highs; all above 0.
fn times(one: Band, other: Band) -> Band {
    Band::of(one.low() * other.low(), one.typical() * other.typical(), one.high() * other.high())
}

impl WeakestPart {
    /// The design factor, its words, whose it is.
    pub(super) fn chosen_factor(&self) -> (f64, &'static str, Source) {
        match self.whose {
            Whose::Listed => (self.factor.factor, self.factor.words, self.factor.source),
            Whose::Own => (self.own_factor.value, "a factor of your own", Source::YOURS),
        }
    }

    /// The rule that names its own load, if one is chosen.
    pub(super) fn rule(&self) -> Option<&'static Factor> {
        (self.whose == Whose::Listed && self.factor.of != Of::Load).then_some(self.factor)
    }

    /// Forces on the anchor that carries most, on the master point, in the rope, N.
    pub(super) fn forces(&self) -> Result<[Band; 3], BadInput> {
        if self.forces == Forces::Taken {
            if self.rule().is_some() {
                let must = "one that multiplies any load: this one counts only on people who hang, hanging still, or on a load of its own";
                return Err(OutOfDomain { what: "design factor", value: self.factor.factor, must }.into());
            }
            return Ok([self.anchor, self.point, self.rope].map(|force| force.map(|force| force.value)));
        }
        let rope = match self.rule().map(|rule| rule.of) {
            Some(Of::Named(force)) => Band::exact(f64::from(self.people.count) * force.force().value),
            Some(Of::Weight) => self.people.spread(State::Still)?.band,
            _ => self.people.spread(self.state)?.band,
        };
        let point = if self.is_held_below() { times(rope, other_strand()?.map(|times| 1.0 + times)) } else { rope };
        Ok([times(point, self.counted_share()), point, rope])
    }

    /// What a part gets, of the forces on an anchor, on the master point and in the rope.
    fn load(&self, part: &Part, carries: Carries, [anchor, point, rope]: [Band; 3]) -> Result<Band, OutOfDomain> {
        Ok(match carries {
            Carries::Anchor => anchor,
            Carries::Point => point,
            // Each hangs in a harness of their own.
            Carries::Rope if part.item.name == HARNESS && self.is_hung() => {
                rope.map(|force| force / f64::from(self.people.count))
            }
            // Of its two strands, and of what is on them, the one that is pulled.
            Carries::Rope if self.is_held_below() => times(rope, other_strand()?.map(|times| times.max(1.0))),
            Carries::Rope => rope,
        })
    }

    fn names_its_load(&self) -> bool {
        self.rule().is_some_and(|rule| matches!(rule.of, Of::Named(_)))
    }

    /// Whether the people here may pull harder than the load that the rule names.
    fn is_outdone(&self, rope: Band) -> Result<bool, OutOfDomain> {
        Ok(self.names_its_load() && self.people.spread(State::Slip)?.band.high() > rope.high())
    }

    /// What one anchor gets of the load on all: all of it at least, if a rule for anchors names the load.
    pub(super) fn counted_share(&self) -> Band {
        let named = self.names_its_load();
        self.share.map(|share| if named { share.value.max(1.0) } else { share.value })
    }

    /// Why the factor chosen says nothing of a part, if it does not.
    fn not_meant_for(&self, part: &Part, carries: Carries) -> Option<&'static str> {
        match (self.whose, self.factor.on) {
            (Whose::Listed, On::Nobody) => Some("the factor chosen is not meant for people"),
            (Whose::Listed, On::Anchor) if carries == Carries::Rope => {
                Some("the factor chosen is a rule for anchors: choose another for the rope and what is in it")
            }
            (Whose::Listed, On::Rope) if !part.item.is_rope() => {
                Some("the factor chosen is a rule for rope: choose another for this part")
            }
            _ => None,
        }
    }

    /// Every part that is there, with what it carries and resists.
    pub(super) fn chain(&self) -> Result<Chain, BadInput> {
        let forces = self.forces()?;
        let [.., rope] = forces;
        let outdone = self.is_outdone(rope)?;
        let factor = self.chosen_factor();
        let pull = self.pull.map(|angle| angle.value);
        if self.parts.iter().filter(|slot| matches!(slot.item.figure, Some(Figure::Stated))).count() > 1 {
            let why = "there is one figure to read off: enter the other part by its kind";
            return Err(BadInput::Refused { what: "a second part with a figure printed on it", why });
        }
        let mut links = Vec::new();
        for (place, (slot, carries)) in self.parts.iter().zip(CARRIES).enumerate() {
            if slot.item.figure.is_none() {
                continue;
            }
            let part = slot.part(pull, self.stated.value);
            let name = NAMES.get(place).copied().unwrap_or_default();
            let is_misplaced = match part.item.figure {
                Some(Figure::Bolt(..)) => carries != Carries::Anchor,
                _ => part.item.name == HARNESS && carries != Carries::Rope,
            };
            if is_misplaced {
                let why =
                    "a bolt holds in the rock, at an anchor, and a harness holds a person, in the rope: enter it there";
                return Err(BadInput::Refused { what: name, why });
            }
            let is_doubled = match part.loading.way {
                Way::TwoStrands => true,
                Way::Share(_, _, most) => most > 1.0,
                _ => false,
            };
            if is_doubled && carries == Carries::Rope && self.is_held_below() {
                let why = "held from below, each strand has all of the force: choose straight";
                return Err(BadInput::Refused { what: name, why });
            }
            let resistance = part.resistance().map_err(|Refused { why }| BadInput::Refused { what: name, why })?;
            let load = self.load(&part, carries, forces)?;
            let not_meant = self.not_meant_for(&part, carries);
            let factor = if not_meant.is_some() { None } else { Some(factor.0) };
            let at_best = if resistance.band.is_none() { at_best(&part) } else { None };
            let standing = match (resistance.band.or(at_best.as_ref().and_then(|best| best.band)), not_meant) {
                (None, _) => Standing::NotChecked(resistance.unknown),
                // The load is not that of this rig.
                (_, Some(why)) if self.names_its_load() => Standing::NotChecked(why),
                (Some(band), Some(why)) => Standing::of(load, band).of_unknown_part(why),
                (Some(band), None) => {
                    let standing = Standing::of(load, band.map(|force| force / factor.unwrap_or(1.0)));
                    if outdone { standing.of_unknown_part(OUTDONE) } else { standing }
                }
            };
            let standing = match standing {
                Standing::AboveLimit | Standing::RangeCrosses => standing,
                _ if resistance.band.is_none() => Standing::NotChecked(resistance.unknown),
                Standing::BelowLimit if part.knot.name == "tensionless" => Standing::NotChecked(OTHER_END),
                _ => standing,
            };
            links.push(Link { place, part, load, resistance, at_best, factor, standing });
        }
        if links.is_empty() {
            let must = "one or more: choose what is there between rock and person";
            return Err(OutOfDomain { what: "number of parts", value: 0.0, must }.into());
        }
        let mut weakest: Option<(usize, f64)> = None;
        for (place, link) in links.iter().enumerate() {
            if let Some(margin) = link.margin()
                && weakest.is_none_or(|(_, least)| margin < least)
            {
                weakest = Some((place, margin));
            }
        }
        let weakest = weakest.map(|(place, _)| place);
        let whole = match whole(&links) {
            Standing::BelowLimit if !self.is_held() => {
                Standing::NotChecked("nothing that holds in the rock was entered at an anchor")
            }
            Standing::BelowLimit if !self.is_roped() => Standing::NotChecked("no rope was entered"),
            Standing::BelowLimit if self.runs_through_what() => {
                Standing::NotChecked("held from below, and what the rope runs through was not entered")
            }
            Standing::BelowLimit if self.block_may_pass() => {
                Standing::NotChecked("the block may pull through its ring")
            }
            whole => whole,
        };
        Ok(Chain { links, forces, factor, weakest, whole })
    }
}

/// Of a part of which nobody knows what is left: the same new and loaded straight, tied with its knot or with the best
/// that was measured in its stead. What is or may be too much for that is so for the part.
fn at_best(part: &Part) -> Option<Resistance> {
    let is_measured = match part.item.figure {
        Some(Figure::Soft(..)) => !matches!(part.loading.way, Way::NotMeasured(_)),
        figure => matches!(figure, Some(Figure::Connector { .. })),
    };
    let loading = if is_measured { part.loading } else { first(LOADINGS) };
    let tied = |knot| {
        let new = Part { condition: first(CONDITIONS), loading, knot, ..*part };
        new.resistance().ok().filter(|resistance| resistance.band.is_some())
    };
    let best = |joins: Option<bool>| {
        let knots = KNOTS.iter().filter(|knot| joins.is_none_or(|joins| knot.joins == joins));
        let low = |resistance: &Resistance| resistance.band.map_or(0.0, |band| band.low());
        knots.filter_map(tied).reduce(|one, other| if low(&other) > low(&one) { other } else { one })
    };
    tied(part.knot).or_else(|| best(Some(part.knot.joins))).or_else(|| best(None))
}

const HARNESS: &str = "harness";

const OUTDONE: &str = "a slip here pulls harder than the load that this rule counts with";

/// The worst of all: above, then crossing; below only if every part is known and below.
fn whole(links: &[Link]) -> Standing {
    let any = |standing: Standing| links.iter().any(|link| link.standing == standing);
    if any(Standing::AboveLimit) {
        return Standing::AboveLimit;
    }
    if any(Standing::RangeCrosses) {
        return Standing::RangeCrosses;
    }
    links
        .iter()
        .map(|link| link.standing)
        .find(|standing| *standing != Standing::BelowLimit)
        .unwrap_or(Standing::BelowLimit)
}

/// Whether a source is one that was recalled.
pub(super) fn from_memory(source: &Source) -> bool {
    source.known == Known::Memory
}
