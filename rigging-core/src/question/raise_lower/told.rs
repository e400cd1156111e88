//! What is told of a haul: words, remarks, working, cautions.

use super::super::answer::{Caution, Gravity};
use super::super::people::{SLIP_OR_RAISED, State};
use super::super::pullers::TOGETHER;
use super::super::scene::size;
use super::case::{Case, Held, Way, Ways, Worst, name};
use super::list::Thing;
use super::{EndAt, Moves, RaiseLower};
use crate::band::Band;
use crate::law::OutOfDomain;
use crate::quantity::Kind;
use crate::working::{Formula, Given, Source, Step};

/// Below this a rope may lie still by itself, N: what some metres of it weigh, or a touch (assumed).
const A_TOUCH: f64 = 20.0;

impl RaiseLower {
    pub(super) fn way_words(&self, way: Way) -> &'static str {
        match way {
            Way::LoweringBare => "while lowering, edges not counted",
            Way::Bare => "while lowering, friction not counted",
            Way::Lowering => "while lowering, all friction counted",
            Way::Rest => "at rest, friction holding either way",
            Way::Raising => "while raising",
            Way::Jam => "jammed",
        }
    }

    pub(super) fn hand_words(&self, way: Way) -> String {
        format!("for the hand {}, hanging still", self.way_words(way))
    }

    pub(super) fn held_words(&self, held: &Held) -> String {
        [if held.edge { "on the edge at " } else { "on " }, held.name].concat()
    }

    /// The state stands beside each force: one judged hanging still must not be taken for one of a slip.
    pub(super) fn on_words(&self, worst: &Worst) -> String {
        if worst.both {
            return self.held_words(&worst.held) + SLIP_OR_RAISED;
        }
        let state = match (worst.way, worst.state) {
            (Way::Raising, State::Jerky) => "in jerks",
            (_, state) => state.words(),
        };
        format!("{}, {}, {state}", self.held_words(&worst.held), self.way_words(worst.way))
    }

    pub(super) fn remarks(&self, list: &[Thing], ways: &Ways, needed: Option<u32>) -> Result<Vec<String>, OutOfDomain> {
        let mut remarks = Vec::new();
        let (lowering, hand) = (self.hand_at(ways, Way::LoweringBare)?, self.hand.holds().0);
        if lowering.high() > hand.low() {
            let never = lowering.low() > hand.high();
            remarks.push(format!(
                "Lowering, {} {} hold what reaches the hand: put a friction device or a hitch that can be let out under load between load and hand before the load comes onto the rope.",
                self.hand.words(),
                if never { "does not" } else { "may not" }
            ));
        }
        if self.hand_at(ways, Way::Lowering)?.low() < A_TOUCH {
            remarks.push(
                "Friction may hold the lightest without any hand: they then do not go down by themselves. Rope must be fed, friction taken out, or the load pulled from below."
                    .to_owned(),
            );
        }
        match needed {
            None => remarks.push(
                "At the adverse end more than eight people would have to pull to raise the load: more were never measured. Take out friction at edges first, or let one more bend travel."
                    .to_owned(),
            ),
            Some(needed) if needed > self.pullers => remarks.push(
                "At the adverse end those who can pull do not raise the load. Take out friction at edges first, or let one more bend travel."
                    .to_owned(),
            ),
            Some(_) => {}
        }
        let bends = list.iter().filter_map(|thing| if let Thing::Bend(bendy) = thing { Some(bendy) } else { None });
        let mut edge = false;
        for bendy in bends {
            edge |= !bendy.over.has_anchor();
            if edge && bendy.moves == Moves::WithLoad && self.rope_end == EndAt::Load {
                remarks.push(format!(
                    "The strands to {}, which travels with the load, are taken to run free of the edge: where they touch it, list it again.",
                    name(bendy.place)
                ));
                break;
            }
        }
        remarks.push(
            "Between lowering and raising the hand feels any force from the least to the most while the load does not move: the hand cannot tell a load that hangs from one that is stuck."
                .to_owned(),
        );
        Ok(remarks)
    }

    /// Tensions from the load to the hand.
    fn follow_steps(&self, case: &Case, steps: &mut Vec<Step>) {
        let force = |symbol, force: f64| Given::exact(symbol, force, Kind::Force);
        let plain = |symbol, number: f64| Given::exact(symbol, number, Kind::Ratio);
        steps.push(Step {
            what: format!(
                "Hand {}; n: what 1 N of it pulls at the load, back over every bend",
                self.way_words(case.way)
            ),
            formula: "H = W / n",
            given: vec![force("W", case.load), plain("n", case.load / case.hand)],
            result: force("H", case.hand),
            source: Source::derived("sum of the strands that pull each body"),
        });
        for (thing, [before, after]) in &case.things {
            let (before, after) = (*before, *after);
            match thing {
                Thing::Bend(bendy) => {
                    let friction = case.frictions.get(bendy.place).copied().unwrap_or_default();
                    if friction == 0.0 {
                        continue;
                    }
                    let source = bendy.over.friction(self.is_wet()).1;
                    let (name, over) = (name(bendy.place), bendy.over.words());
                    steps.push(Step {
                        what: format!(
                            "Force in the rope beyond {name}, {over}; μ {}: {}",
                            source.known.word(),
                            source.place
                        ),
                        formula: if friction > 0.0 { "T₂ = T₁ e^(μφ)" } else { "T₂ = T₁ e^(−μφ)" },
                        given: vec![
                            force("T₁", before),
                            plain("μ", friction.abs()),
                            Given::exact("φ", bendy.turn.abs(), Kind::Angle),
                        ],
                        result: force("T₂", after),
                        source: Source::published("Euler–Eytelwein; Baker & Haynes, Engineering Statics, chapter 9"),
                    });
                }
                Thing::Clamp | Thing::Tied => steps.push(Step {
                    what: "Where the rope is clamped: it goes on, and bends that travel pull the clamp".into(),
                    formula: "T = T₁ + Σ t",
                    given: vec![force("T₁", after), force("Σ t", before - after)],
                    result: force("T", before),
                    source: Source::derived("sum of the strands"),
                }),
                Thing::Anchored(_) => steps.push(Step {
                    what: "The first rope, pulled by both strands of each bend that travels on the second".into(),
                    formula: "T = Σ t",
                    given: vec![force("Σ t", before)],
                    result: force("T", before),
                    source: Source::derived("sum of the strands"),
                }),
            }
        }
        let end = if self.rope_end == EndAt::Load { case.end } else { 0.0 };
        let travelling = case.load - end;
        if travelling > 1e-9 * case.load {
            steps.push(Step {
                what: "All strands that pull the load: they make up its weight".into(),
                formula: "W = T₀ + Σ t",
                given: vec![force("T₀", end), force("Σ t", travelling)],
                result: force("W", case.load),
                source: Source::derived("sum of the strands"),
            });
        }
    }

    pub(super) fn working(&self, lowering: &Case, raised: &Case, most: f64, needed: Option<u32>) -> Vec<Step> {
        let [body, kit, at] = lowering.at;
        let mut steps =
            vec![self.people.step(body, kit), self.people.load_step(State::Still, body, kit, at, lowering.load)];
        self.follow_steps(lowering, &mut steps);
        self.follow_steps(raised, &mut steps);
        if let Some(needed) = needed {
            let (pull, source) = self.pull_from.of_one();
            steps.push(Step {
                what: format!("Fewest people who raise it; pull of each {}: {}", source.known.word(), source.place),
                formula: "n P (1 − loss) ≥ H",
                given: vec![Given::exact("H", most, Kind::Force), Given::exact("P", pull.low(), Kind::Force)],
                result: Given::exact("n", f64::from(needed), Kind::Count),
                source: TOGETHER,
            });
        }
        steps
    }

    pub(super) fn anchor_step(&self, worst: &Worst, case: &Case) -> Step {
        const SYMBOLS: [&str; 12] = ["T₁", "T₂", "T₃", "T₄", "T₅", "T₆", "T₇", "T₈", "T₉", "T₁₀", "T₁₁", "T₁₂"];
        let strands = case.strands(worst.held.slot);
        let given = SYMBOLS.iter().zip(&strands);
        Step {
            what: format!("Sum of the strands {}", self.on_words(worst)),
            formula: "R = |Σ T|, each along its strand",
            given: given.map(|(symbol, pull)| Given::exact(symbol, size(*pull), Kind::Force)).collect(),
            result: Given::new("R", Band::exact(size(case.on(worst.held.slot))), Kind::Force),
            source: Source::derived("sum of forces, with the directions drawn"),
        }
    }
}

pub(super) const FORMULAS: [Formula; 6] = [
    Formula::new(
        "force in the rope beyond a bend, φ its turning angle: with + while raising, with − while lowering, either while at rest",
        "T₂ = T₁ e^(± μ φ)",
        Source::published("Euler–Eytelwein; Baker & Haynes, Engineering Statics, chapter 9"),
    ),
    Formula::new(
        "a pulley's efficiency η over 180° told as friction: this page multiplies it from bend to bend, never adds",
        "μ = −ln(η) / π",
        Source::derived("the two ways to tell a loss"),
    ),
    Formula::new(
        "another convention for the same loss, not used here: each of s sheaves adds a tenth of the load, p parts pull it. 1000 lb, 4 sheaves, 4 parts: 350 lb; multiplied from sheave to sheave 315 to 323 lb",
        "H = (W + 0.1 s W) / p",
        Source::published("US Navy, Steelworker, vol. 2"),
    ),
    Formula::new(
        "force on the load, and on a rope or clamp that bends travel with: sum of the strands that pull it",
        "W = T₀ + Σ t",
        Source::published("sum of the strands; Delaney, Physics for Roping Technicians, 2020"),
    ),
    Formula::new(
        "rope through the hands for each metre of the load: without friction no work is lost",
        "rope / way = W / H without friction",
        Source::derived("conservation of energy"),
    ),
    Formula::new(
        "pull of n people together: the loss is 0.09 for two, 0.20 for eight, in a straight line between (assumed)",
        "n P (1 − loss)",
        TOGETHER,
    ),
];

pub(super) const CAUTIONS: [Caution; 6] = [
    Caution::new(
        Gravity::Danger,
        "A load that jams while several people pull",
        "Anchors, rope and the person get several times what raising needs, and nobody who pulls can feel it.",
        "Let one person watch the load and call; one more puller is a reason to stop and look.",
    ),
    Caution::new(
        Gravity::Danger,
        "A haul that cannot be let down",
        "A clamp or hitch that only grips must be pulled up before it lets go: a person stuck under water cannot be lowered.",
        "Rig what can be let out under load before the load comes onto the rope, and try it first.",
    ),
    Caution::new(
        Gravity::Danger,
        "The rope let go or lost at a change of hands",
        "Nothing but friction then holds the load: it runs down and takes the hands with it.",
        "Back the rope up with a hitch that grips by itself, and tie it off before anything is changed.",
    ),
    Caution::new(
        Gravity::Warning,
        "A clamp with teeth under a hard pull",
        "It tears the sheath, then cuts the rope, at a few kilonewtons (from memory).",
        "Use hitches of cord or clamps that slip, and few pullers.",
    ),
    Caution::new(
        Gravity::Warning,
        "Pulling beside a lip",
        "If a clamp slips or the rope gives, those who pull fall over or into the rope.",
        "Tie in everyone who pulls; pull away from the lip, outside the angles of the rope.",
    ),
    Caution::OF_EVERY_NUMBER,
];

pub(super) const NOT_IN: [&str; 10] = [
    "a slip or jerks in the hand: it then gets as many times more as the load does",
    "the strength of the rock, the anchors, slings, clamps and the rope",
    "a descender, or a hitch that brakes: what reaches the hand behind one is told by the abseil",
    "how far clamps slip, how often the haul must be set anew, and what stretch takes from each heave",
    "jerks of those who pull, and a load that is let down in jerks after it was raised",
    "friction of the person against rock, a ledge or lip that the person catches on, and water that pushes on the person",
    "strands that do not run side by side at a bend that travels, and pull out of the plane of the picture",
    "ropes that rub on each other, twist round each other, or run over an edge that is not listed",
    "the weight of rope and pulleys",
    "the footing of those who pull",
];
