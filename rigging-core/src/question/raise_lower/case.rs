//! One solved case of the list, and the sweep over the friction of all its bends.

use super::super::answer::{Comparison, Finding};
use super::super::bend::{Over, along};
use super::super::carried::larger;
use super::super::people;
use super::super::scene::{Pull, size};
use super::list::{Bendy, MOST, Thing};
use super::{EndAt, Moves, RaiseLower, Shared, State, Whether};
use crate::band::{Band, Spread, sweep};
use crate::law::OutOfDomain;
use std::f64::consts::FRAC_PI_2;

/// What the rope does, and so which way friction works.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    /// The load goes down; edges of rock are not counted.
    LoweringBare,
    /// The load goes down; friction is not counted anywhere.
    Bare,
    /// The load goes down.
    Lowering,
    /// It lies still, whichever way it moved before.
    Rest,
    /// The load goes up.
    Raising,
    /// The load is stuck and the hand pulls.
    Jam,
}

impl Way {
    /// Friction of a bend: above 0 where it adds tension toward the hand.
    fn friction(self, over: Over, wet: bool) -> Band {
        let (friction, edge) = (over.friction(wet).0, !over.has_anchor());
        match self {
            Way::Bare => Band::exact(0.0),
            Way::LoweringBare if edge => Band::exact(0.0),
            Way::LoweringBare | Way::Lowering => friction.map(|friction| -friction),
            Way::Rest => Band::of(-friction.high(), 0.0, friction.high()),
            // Nobody counts on friction where everybody pulls.
            Way::Jam => Band::of(0.0, friction.typical(), friction.high()),
            Way::Raising => friction,
        }
    }

    /// What the person is taken to do. A slip or a descent drives the rope toward the load: neither happens while it
    /// is raised or lies still.
    fn state(self, state: State) -> State {
        match (self, state) {
            (Way::Rest, _) | (Way::Raising, State::Slip | State::Descending) => State::Still,
            _ => state,
        }
    }
}

/// Forces on anchors and edges: one for each bend, then the rope's end (or the one anchor of all), then the second
/// rope's end.
const SLOTS: usize = MOST + 2;
pub(super) const END: usize = MOST;
const SECOND_END: usize = MOST + 1;

/// The hand, the load, the rope where it is pulled hardest, then the slots: for 1 N of the load, in a jam for 1 N of
/// the hand. Swept are the frictions.
type Shape = [Spread<MOST>; SLOT + SLOTS];
pub(super) const HAND: usize = 0;
pub(super) const LOAD: usize = 1;
pub(super) const ROPE: usize = 2;
/// The first of the slots.
pub(super) const SLOT: usize = 3;

/// What was found for each way that there is.
pub(super) struct Ways(Vec<(Way, Shape)>);

impl Ways {
    pub(super) fn get(&self, way: Way) -> Option<(Way, &Shape)> {
        self.0.iter().find(|(found, _)| *found == way).map(|(way, shape)| (*way, shape))
    }

    /// A way that there always is.
    pub(super) fn one(&self, way: Way) -> Result<(Way, &Shape), OutOfDomain> {
        self.get(way).ok_or(OutOfDomain { what: "ways", value: 0.0, must: "there" })
    }

    /// The same, or where edges are not there to be left out, with all of them.
    fn or_lowering(&self, way: Way) -> Result<(Way, &Shape), OutOfDomain> {
        self.get(way).map_or_else(|| self.one(Way::Lowering), Ok)
    }
}

/// Something that holds the rope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Held {
    pub(super) slot: usize,
    /// True if it is rock, a roller or timber: no anchor to judge.
    pub(super) edge: bool,
    pub(super) name: &'static str,
}

/// A force of the shape under the load.
#[derive(Debug, Clone, Copy)]
pub(super) struct Loaded {
    pub(super) band: Band,
    moved_most_by: Option<&'static str>,
    /// What it was highest at: body mass, kit, what is uncertain about the state; frictions.
    at: [f64; 3],
    frictions: [f64; MOST],
}

impl Loaded {
    pub(super) fn finding(&self, what: String) -> Finding {
        Finding { moved_most_by: self.moved_most_by, ..Finding::load(what, self.band) }
    }
}

/// The most that something which holds the rope gets while the load is raised, rests and is lowered.
pub(super) struct Worst {
    pub(super) held: Held,
    pub(super) way: Way,
    pub(super) state: State,
    pub(super) loaded: Loaded,
    /// Both a slip and jerks make its range.
    pub(super) both: bool,
}

impl Worst {
    pub(super) fn high(&self) -> f64 {
        self.loaded.band.high()
    }
}

/// One solved case, N.
pub(super) struct Case {
    pub(super) way: Way,
    pub(super) at: [f64; 3],
    pub(super) load: f64,
    pub(super) hand: f64,
    /// Tension where the rope begins.
    pub(super) end: f64,
    /// Each thing with the tensions on its load's side and on its hand's side.
    pub(super) things: Vec<(Thing, [f64; 2])>,
    pub(super) frictions: [f64; MOST],
    anchored: bool,
    shared: bool,
}

const INPUTS: [&str; 3 + MOST] = [
    people::LABELS[0],
    people::LABELS[1],
    "what the person does",
    "friction of bend 1",
    "friction of bend 2",
    "friction of bend 3",
    "friction of bend 4",
    "friction of bend 5",
    "friction of bend 6",
];

impl Case {
    /// Each strand that pulls at a slot.
    pub(super) fn strands(&self, slot: usize) -> Vec<Pull> {
        let mut strands = Vec::new();
        if self.anchored && slot == END {
            strands.push(along(-FRAC_PI_2, self.end));
        }
        for (thing, [before, after]) in &self.things {
            match thing {
                Thing::Bend(bendy) if bendy.moves == Moves::Stays && self.slot(bendy) == slot => {
                    strands.push(along(bendy.heading, -before));
                    strands.push(along(bendy.heading - bendy.turn, *after));
                }
                Thing::Anchored(heading) if slot == if self.shared { END } else { SECOND_END } => {
                    strands.push(along(*heading, *after));
                }
                _ => {}
            }
        }
        strands
    }

    /// Pull at a slot.
    pub(super) fn on(&self, slot: usize) -> Pull {
        self.strands(slot).iter().fold([0.0, 0.0], |[x, y], [u, v]| [x + u, y + v])
    }

    fn slot(&self, bendy: &Bendy) -> usize {
        if self.shared && bendy.over.has_anchor() { END } else { bendy.place }
    }

    /// Tension of the rope where it is pulled hardest.
    fn in_rope(&self) -> f64 {
        let sides = self.things.iter().flat_map(|(_, sides)| *sides);
        sides.fold(self.hand.max(self.end), f64::max)
    }
}

const NAMES: [&str; MOST] = ["bend 1", "bend 2", "bend 3", "bend 4", "bend 5", "bend 6"];

pub(super) fn name(place: usize) -> &'static str {
    NAMES.get(place).copied().unwrap_or_default()
}

impl RaiseLower {
    pub(super) fn is_wet(&self) -> bool {
        self.wet == Whether::Yes
    }

    /// The list at some frictions; the hand pulls with `hand`, or else the load with `load`.
    pub(super) fn case(
        &self,
        list: &[Thing],
        way: Way,
        frictions: &[f64; MOST],
        load: Option<f64>,
    ) -> Result<Case, OutOfDomain> {
        let haul = self.follow(list, frictions)?;
        let hand = load.map_or(1.0, |load| load / haul.load.value);
        let things = list.iter().zip(&haul.sides);
        Ok(Case {
            way,
            at: [0.0; 3],
            load: hand * haul.load.value,
            hand,
            end: hand * haul.end.value,
            things: things.map(|(thing, at)| (*thing, [hand * at.load.value, hand * at.hand.value])).collect(),
            frictions: *frictions,
            anchored: self.rope_end == EndAt::Anchor,
            shared: self.shared == Shared::One,
        })
    }

    /// Everything that holds the rope.
    pub(super) fn held(&self, list: &[Thing]) -> Vec<Held> {
        let shared = self.shared == Shared::One;
        let mut held = Vec::new();
        let mut add = |slot, edge, name| {
            if !held.iter().any(|held: &Held| held.slot == slot) {
                held.push(Held { slot, edge, name });
            }
        };
        let all = "the one anchor point";
        if self.rope_end == EndAt::Anchor {
            add(END, false, if shared { all } else { "the anchor of the rope's end" });
        }
        for thing in list {
            match thing {
                Thing::Bend(bendy) if bendy.moves == Moves::Stays => match bendy.over.has_anchor() {
                    true if shared => add(END, false, all),
                    anchor => add(bendy.place, !anchor, name(bendy.place)),
                },
                Thing::Anchored(_) if shared => add(END, false, all),
                Thing::Anchored(_) => add(SECOND_END, false, "the anchor of the second rope's end"),
                _ => {}
            }
        }
        held
    }

    /// The shape for each way that there is.
    pub(super) fn ways(&self, list: &[Thing]) -> Result<Ways, OutOfDomain> {
        let bends = || list.iter().filter_map(|thing| if let Thing::Bend(bendy) = thing { Some(bendy) } else { None });
        let edges = bends().any(|bendy| !bendy.over.has_anchor());
        let mut ways = Vec::new();
        for way in [Way::LoweringBare, Way::Bare, Way::Lowering, Way::Rest, Way::Raising, Way::Jam] {
            if way == Way::LoweringBare && !edges {
                continue;
            }
            let mut frictions = [Band::exact(0.0); MOST];
            for bendy in bends() {
                if let Some(friction) = frictions.get_mut(bendy.place) {
                    *friction = way.friction(bendy.over, self.is_wet());
                }
            }
            let load = if way == Way::Jam { None } else { Some(1.0) };
            let shape = sweep(frictions, |frictions| {
                let case = self.case(list, way, frictions, load)?;
                let mut found = [0.0; SLOT + SLOTS];
                let first = [case.hand, case.load, case.in_rope()].into_iter();
                let values = first.chain((0..SLOTS).map(|slot| size(case.on(slot))));
                for (found, value) in found.iter_mut().zip(values) {
                    *found = value;
                }
                Ok::<_, OutOfDomain>(found)
            })?;
            ways.push((way, shape));
        }
        Ok(Ways(ways))
    }

    /// A part of a shape under the load in a state, as far as the way allows that state.
    pub(super) fn loaded(&self, (way, shape): (Way, &Shape), part: usize, state: State) -> Result<Loaded, OutOfDomain> {
        let load = self.people.spread(way.state(state))?;
        let Some(shape) = shape.get(part) else { return Err(OutOfDomain { what: "slot", value: 0.0, must: "there" }) };
        let (usual, force) = (shape.band.typical(), load.band.typical());
        let moves = load.moves.iter().map(|moves| moves * usual).chain(shape.moves.iter().map(|moves| moves * force));
        let mut most = (0.0, None);
        for (moves, input) in moves.zip(INPUTS) {
            if moves > most.0 {
                most = (moves, Some(input));
            }
        }
        Ok(Loaded {
            band: Band::of(shape.band.low() * load.band.low(), usual * force, shape.band.high() * load.band.high()),
            moved_most_by: most.1,
            at: load.at_high,
            frictions: shape.at_high,
        })
    }

    /// The most that one of the holding points gets, and how.
    pub(super) fn worst(&self, ways: &Ways, held: &Held, state: State) -> Result<Worst, OutOfDomain> {
        let mut worst: Option<Worst> = None;
        // The ways in this order: of two that pull alike the plainer one is named.
        for way in [Way::Raising, Way::Rest, Way::Lowering, Way::LoweringBare, Way::Bare] {
            let Some(found) = ways.get(way) else { continue };
            let loaded = self.loaded(found, SLOT + held.slot, state)?;
            if worst.as_ref().is_none_or(|worst| loaded.band.high() > worst.high()) {
                worst = Some(Worst { held: *held, way, state: way.state(state), loaded, both: false });
            }
        }
        worst.ok_or(OutOfDomain { what: "ways", value: 0.0, must: "there" })
    }

    /// The same in the state that is judged, and in jerks if what is raised may be jerked harder.
    pub(super) fn worst_judged(&self, ways: &Ways, held: &Held) -> Result<Worst, OutOfDomain> {
        let mut worst = self.worst(ways, held, self.state)?;
        if let Some(raised) = self.state.while_raised() {
            let jerked = self.worst(ways, held, raised)?;
            let band = larger(worst.loaded.band, jerked.loaded.band);
            if jerked.high() > worst.high() {
                worst = jerked;
            }
            worst.both = worst.loaded.band != band;
            worst.loaded.band = band;
        }
        Ok(worst)
    }

    /// The most that a part of the shape gets in some of the ways, in the state that is judged.
    pub(super) fn judged(&self, ways: &Ways, of: impl Fn(Way) -> bool, part: usize) -> Result<Band, OutOfDomain> {
        let mut most = Band::exact(0.0);
        for (way, shape) in ways.0.iter().filter(|(way, _)| of(*way)) {
            for state in [Some(self.state), self.state.while_raised()].into_iter().flatten() {
                most = larger(most, self.loaded((*way, shape), part, state)?.band);
            }
        }
        Ok(most)
    }

    /// The band of the hand's force with people hanging still.
    pub(super) fn hand_at(&self, ways: &Ways, way: Way) -> Result<Band, OutOfDomain> {
        Ok(self.loaded(ways.or_lowering(way)?, HAND, State::Still)?.band)
    }

    /// The case at which something was highest.
    fn case_at(&self, list: &[Thing], way: Way, state: State, loaded: &Loaded) -> Result<Case, OutOfDomain> {
        let [body, kit, at] = loaded.at;
        let load = self.people.load_of_all(way.state(state), body, kit, at)?;
        Ok(Case { at: loaded.at, ..self.case(list, way, &loaded.frictions, Some(load))? })
    }

    /// The case in which a holding point gets most.
    pub(super) fn case_of(&self, list: &[Thing], worst: &Worst) -> Result<Case, OutOfDomain> {
        self.case_at(list, worst.way, worst.state, &worst.loaded)
    }

    /// The case in which the hand needs most while the rope runs so, people hanging still.
    pub(super) fn drawn_case(&self, list: &[Thing], ways: &Ways, way: Way) -> Result<Case, OutOfDomain> {
        let found = ways.or_lowering(way)?;
        self.case_at(list, found.0, State::Still, &self.loaded(found, HAND, State::Still)?)
    }

    /// How a holding point stands against the limit.
    pub(super) fn compare(&self, held: &Held, what: String, band: Band) -> Comparison {
        let mut comparison = self.against.compare_any_way(what, band);
        if held.edge {
            comparison.standing = comparison.standing.of_unknown_part("an edge has no published strength");
        }
        comparison
    }
}
