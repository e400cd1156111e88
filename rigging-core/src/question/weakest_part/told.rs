//! What is told of the parts: findings, comparisons, what a change would do, working, picture.

use super::super::answer::{Answer, Caution, ChosenLimit, Comparison, End, Finding, Gravity, Outcome};
use super::super::figure_of::{LEAST_FACTOR, LITTLE_FACTOR};
use super::super::people;
use super::super::scene::{Arrow, Person, Pose, Role, Scene, Strand};
use super::case::{Chain, Link, from_memory, other_strand};
use super::{Forces, WeakestPart};
use crate::band::Band;
use crate::limit::Standing;
use crate::quantity::{Kind, Unit, decimal};
use crate::strength::condition::CONDITIONS;
use crate::strength::factor::{FACTORS, Of, On};
use crate::strength::knot::KNOTS;
use crate::strength::resistance::{Part, Way};
use crate::working::{Formula, Given, Source, Step};

impl WeakestPart {
    pub(super) fn told(&self, chain: &Chain) -> Answer {
        let mut findings = Vec::new();
        let mut outcomes = Vec::new();
        let mut working = self.load_steps(chain);
        if let Some(weakest) = chain.weakest() {
            let band = weakest.resistance.band.unwrap_or(Band::exact(0.0));
            let moved = widest(weakest);
            let unknown: Vec<_> =
                chain.links.iter().filter(|link| link.resistance.band.is_none()).map(|link| link.place()).collect();
            let but = if unknown.is_empty() { "" } else { "; not known: what holds " };
            let what =
                format!("resisted by the weakest of the known parts, {}{but}{}", weakest.name(), unknown.join(", "));
            findings.push(Finding { moved_most_by: moved, ..Finding::strength(what, band) });
            findings.push(Finding::load(format!("on that part, {}", self.load_words()), weakest.load));
            outcomes = self.changed(weakest);
            working.extend(weakest.resistance.steps.iter().cloned());
            working.extend(weakest.factor.map(|factor| factor_step(band, factor, chain)));
        } else {
            findings.push(Finding::load(
                format!("in the rope, {}; no part has a known strength", self.load_words()),
                chain.forces[2],
            ));
        }
        for link in &chain.links {
            if let Some(band) = link.resistance.band {
                let margin = Band::of(
                    band.low() / link.load.high(),
                    band.typical() / link.load.typical(),
                    band.high() / link.load.low(),
                );
                findings.push(Finding {
                    end: End::Low,
                    kind: Kind::Ratio,
                    ..Finding::load(format!("{}: resistance ÷ load", link.name()), margin)
                });
            }
        }
        let mut comparisons = vec![self.whole(chain)];
        comparisons.extend(chain.links.iter().map(compared));
        Answer {
            findings,
            outcomes,
            comparisons,
            remarks: self.remarks(chain),
            scene: self.scene(chain),
            working,
            formulas: [FORMULAS.as_slice(), &people::FORMULAS].concat(),
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
            ..Answer::default()
        }
    }

    fn load_words(&self) -> &'static str {
        match (self.forces, self.factor.of, self.whose) {
            (Forces::Taken, ..) => "as taken from elsewhere",
            (_, Of::Weight, super::Whose::Listed) => "people hanging still, as this factor counts",
            (_, Of::Named(_), super::Whose::Listed) => "the load that this factor names, for each person",
            _ => self.state.words(),
        }
    }

    /// The whole by its worst part: one part that nobody knows keeps it from being below a limit.
    fn whole(&self, chain: &Chain) -> Comparison {
        let decisive = chain.links.iter().find(|link| link.standing == chain.whole);
        let unknown = matches!(chain.whole, Standing::NotChecked(_));
        let weakest = chain.weakest().filter(|link| !unknown && link.standing == chain.whole);
        // Where nothing that was entered decides, the least of what is known is shown.
        let shown = weakest.or(decisive).or(chain.weakest());
        match shown {
            Some(link) => Comparison {
                what: format!("of all parts, {}, what decides is {}", self.load_words(), link.name()),
                standing: chain.whole,
                ..compared(link)
            },
            None => Comparison { what: String::new(), load: Band::exact(0.0), limit: None, standing: chain.whole },
        }
    }

    /// What another knot, condition or factor would change at the weakest part.
    fn changed(&self, weakest: &Link) -> Vec<Outcome> {
        let mut outcomes = Vec::new();
        if weakest.part.item.made().is_some() {
            let mut with = |case: &str, parts: Vec<(&'static str, Part)>| {
                let findings: Vec<_> = parts
                    .into_iter()
                    .filter(|(_, part)| *part != weakest.part)
                    .filter_map(|(words, part)| Some((words, part.resistance().ok()?.band?)))
                    .map(|(words, band)| Finding::strength(words, band))
                    .collect();
                if !findings.is_empty() {
                    outcomes.push(Outcome { case: case.to_owned(), findings });
                }
            };
            let part = weakest.part;
            with(
                "The weakest part with another knot",
                KNOTS
                    .iter()
                    .filter(|knot| knot.joins == part.knot.joins)
                    .map(|knot| (knot.words, Part { knot, ..part }))
                    .collect(),
            );
            let conditions = CONDITIONS.iter().map(|condition| (condition.words, Part { condition, ..part }));
            with("The weakest part in another condition", conditions.collect());
        }
        if let Some(band) = weakest.resistance.band.filter(|_| self.rule().is_none()) {
            let others = FACTORS
                .iter()
                .filter(|other| other.of == Of::Load && other.on == On::Every && Some(other.factor) != weakest.factor);
            let findings =
                others.map(|other| Finding::strength(other.words, band.map(|force| force / other.factor))).collect();
            outcomes.push(Outcome { case: "Its limit by another design factor".to_owned(), findings });
        }
        outcomes
    }

    fn load_steps(&self, chain: &Chain) -> Vec<Step> {
        let [anchor, point, rope] = chain.forces;
        let mut steps = Vec::new();
        if self.forces == Forces::People {
            let [body, kit] = self.people.inputs().map(|input| input.high());
            steps.push(self.people.step(body, kit));
            if self.load_words() == self.state.words() {
                let at = self.state.uncertain().0.high();
                if let Ok(load) = self.people.load_of_all(self.state, body, kit, at) {
                    steps.push(self.people.load_step(self.state, body, kit, at, load));
                }
            }
            let mut step = Step {
                what: "Force on the master point".into(),
                formula: "P = F",
                given: vec![Given::new("F", rope, Kind::Force)],
                result: Given::new("P", point, Kind::Force),
                source: Source::derived("sum of the forces at the ring"),
            };
            if let (true, Ok(strand)) = (self.is_held_below(), other_strand()) {
                step.formula = "P = F (1 + s), the other strand with s times the force, from e^(−μπ) to e^(μπ)";
                step.given.push(Given::new("s", strand, Kind::Ratio));
            }
            steps.push(step);
            steps.push(Step {
                what: "Force on the anchor that carries most".into(),
                formula: "A = P × share",
                given: vec![
                    Given::new("P", point, Kind::Force),
                    Given::new("share", self.counted_share(), Kind::Ratio),
                ],
                result: Given::new("A", anchor, Kind::Force),
                source: Source::assumed("the share entered; the question about legs works it out"),
            });
        }
        steps
    }

    fn remarks(&self, chain: &Chain) -> Vec<String> {
        let mut remarks = Vec::new();
        let millimetres = |length: f64| decimal(Unit::Millimetre.from_si(length), 1);
        let (block, ring) = (self.block.value, self.ring.value);
        remarks.push(if block == 0.0 || ring == 0.0 {
            "Block against ring: not measured.".to_owned()
        } else {
            let told = if block <= ring {
                "it can pull through"
            } else if self.block_may_pass() {
                "so near that it can tip, deform and pull through"
            } else {
                "larger, while neither deforms nor tips"
            };
            format!("Block against ring: {} mm against {} mm, {told}.", millimetres(block), millimetres(ring))
        });
        if self.counted_share() != self.share.map(|share| share.value) {
            remarks.push("This rule counts all of its load on each anchor: a share below 1 is not used.".to_owned());
        }
        for link in &chain.links {
            if !link.resistance.unknown.is_empty() {
                let said = if link.counted().band.is_none() { "checked" } else { "known" };
                remarks.push(format!("Not {said}: {}, {}.", link.place(), link.resistance.unknown));
            }
            if matches!(link.part.loading.way, Way::TwoStrands) {
                remarks.push(format!("Two strands {} count twice only if both pull alike.", link.place()));
            }
            if link.part.knot.name == "water" {
                remarks.push(
                    "Water knots creep under repeated body weight: tails of 75 mm or more, and a look every time."
                        .to_owned(),
                );
            }
        }
        if chain.links.iter().flat_map(|link| &link.resistance.steps).any(|step| from_memory(&step.source)) {
            remarks.push(
                "A strength or share here is from memory: check it against its source before you lean on it."
                    .to_owned(),
            );
        }
        if self.is_held_below() {
            remarks.push(
                "Held from below and raised over a wet ring, the strand that is pulled gets up to 3.4 times the load, the ring 4.4: see the question about bends."
                    .to_owned(),
            );
        }
        if self.whose == super::Whose::Listed && ["fibre rope", "slings"].iter().any(|of| self.factor.name.contains(of))
        {
            remarks.push(
                "The factor chosen is one of rope or slings: for bolts, connectors and harness it is borrowed."
                    .to_owned(),
            );
        }
        if chain.links.iter().any(|link| link.part.item.made().is_some()) && chain.factor.0 < LEAST_FACTOR {
            remarks.push(LITTLE_FACTOR.to_owned());
        }
        remarks
            .push("Knots may keep only half of a well-used, wet, all-nylon rope (2022 review, published).".to_owned());
        remarks
    }

    fn scene(&self, chain: &Chain) -> Scene {
        let [anchor, _, rope] = chain.forces.map(|force| force.high());
        let (top, ring, person) = ([0.0, 0.0], [0.0, -0.6], [0.0, -2.0]);
        Scene {
            case: "Drawn: the chain at the high end of its forces: above the master point the anchor that carries most, below it the rope.".to_owned(),
            rock: vec![vec![[-0.7, 0.0], [0.7, 0.0]]],
            anchors: vec![top],
            lines: vec![Strand { from: top, to: ring, tension: anchor }, Strand { from: ring, to: person, tension: rope }],
            people: vec![Person { at: person, pose: Pose::Hanging }],
            forces: vec![
                Arrow { at: ring, pull: [0.0, -rope], role: Role::Load, name: "in the rope" },
                Arrow { at: top, pull: [0.0, -anchor], role: Role::OnAnchor, name: "on one anchor" },
            ],
            polygon: vec![
                Arrow { at: ring, pull: [0.0, -rope], role: Role::Load, name: "in the rope" },
                Arrow { at: ring, pull: [0.0, rope], role: Role::OnAnchor, name: "held above" },
            ],
            ..Scene::default()
        }
    }
}

/// A part against its resistance over the design factor.
fn compared(link: &Link) -> Comparison {
    let counted = link.counted();
    let at_best = if link.resistance.band.is_none() { ", counted at best" } else { "" };
    let limit = counted.band.zip(link.factor).map(|(band, factor)| ChosenLimit {
        band: band.map(|force| force / factor),
        figure: band.low(),
        factor,
        part: told_part(&link.part) + at_best,
        source: counted.figure.map_or(Source::YOURS, |figure| figure.source),
    });
    Comparison { what: format!("on the part {}", link.name()), load: link.load, limit, standing: link.standing }
}

/// "low-stretch rope B, nylon; figure-eight loop; worn …".
fn told_part(part: &Part) -> String {
    let mut words = vec![part.item.words];
    if part.item.made().is_some() {
        words.extend([part.knot.words, part.condition.words]);
    }
    if part.loading.name != "straight" {
        words.push(part.loading.words);
    }
    words.join("; ")
}

fn factor_step(band: Band, factor: f64, chain: &Chain) -> Step {
    let (_, words, source) = chain.factor;
    Step {
        what: format!("Limit of the weakest part; design factor: {words}"),
        formula: "limit = R / design factor",
        given: vec![Given::new("R", band, Kind::Force), Given::exact("design factor", factor, Kind::Ratio)],
        result: Given::new("limit", band.map(|force| force / factor), Kind::Force),
        source,
    }
}

/// What is least known about a resistance.
fn widest(link: &Link) -> Option<&'static str> {
    let step = link.resistance.steps.last()?;
    let mut widest = None;
    let mut most = 1.0;
    for given in &step.given {
        let ratio = given.band.high() / given.band.low();
        if ratio > most {
            (widest, most) = (Some(given.symbol), ratio);
        }
    }
    widest
}

const FORMULAS: [Formula; 6] = [
    Formula::new(
        "on the master point, from the force F in the rope",
        "P = F; held from below P = F (1 + s), s from e^(−μπ) to e^(μπ)",
        Source::derived("sum of the forces at the ring; friction of a wet ring"),
    ),
    Formula::new(
        "on the anchor that carries most; rules for anchors that name their load count a share of 1 or more",
        "A = P × share",
        Source::derived("definition; factors on the weight or on a load of their own take the place of F"),
    ),
    Formula::new(
        "resistance of rope, cord, tape or sling; each share a range",
        "R = figure × knot × condition × loading",
        Source::published("each figure and share from the source beside it, in the tables below"),
    ),
    Formula::new(
        "resistance of a bolt, α from straight out of the rock",
        "R = [(cos α/N_r)^(5/3) + (sin α/V_r)^(5/3)]^(−3/5)",
        Source::memory("ACI 318, commentary; limits EN 959:2018"),
    ),
    Formula::new("times its load: the least resistance over the most load", "R / F", Source::derived("definition")),
    Formula::new(
        "limit of a part",
        "R / design factor",
        Source::published("design factors with whose they are, in the tables below"),
    ),
];

const CAUTIONS: [Caution; 4] = [
    Caution::new(
        Gravity::Danger,
        "A part that nobody knows",
        "Old bolts, old slings, trees and blocks fail without warning, and everything below falls.",
        "Replace it, back it up with a second anchor, or do not hang on it.",
    ),
    Caution::new(
        Gravity::Warning,
        "A figure printed on a new part",
        "Knots, wear, water, sun and edges leave a half of it or less.",
        "Count knot and condition, and look at every metre of rope and sling.",
    ),
    Caution::new(
        Gravity::Warning,
        "A connector loaded across or with its gate open",
        "It keeps a quarter to two fifths of its strength.",
        "Lock it, look along it, keep it off edges.",
    ),
    Caution::OF_EVERY_NUMBER,
];

const NOT_IN: [&str; 6] = [
    "the strength of the rock, and of what a bolt sits in",
    "edges, rockfall and a second fall on the same parts",
    "chemicals, sun, heat, rust and ageing, but for the condition chosen",
    "how well the knot was tied, dressed and set",
    "parts that were not entered",
    "a load that shifts from one anchor to another as something fails",
];
