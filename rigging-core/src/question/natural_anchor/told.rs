//! What is told of the part: remarks, working, formulas, cautions, what is not in it.

use super::super::answer::{Caution, Gravity};
use super::super::people::State;
use super::case::{Check, Inputs};
use super::{Natural, NaturalAnchor, Seating, Stands};
use crate::band::{Band, Spread};
use crate::law::{OutOfDomain, log, tree};
use crate::quantity::{Kind, Length, metre};
use crate::working::{Formula, Given, Source, Step};

const WINCHED: Source = Source::published("Nicoll et al. 2006 and follow-ups; Detter et al. 2023: trees winched over");
const BEAM: Source = Source::derived("a round beam on two supports; green bending strength less knots, assumed");
const WEIGHT: Source = Source::derived("weight, friction and moments; friction and shape assumed");
const WEDGE: Source = Source::derived("passive wedge; wet ground, friction angle 25 to 35°, assumed");
const TABLE: Source = Source::published("TM 5-5420-278-10, from 0.91 m of mean depth");
const SLIDES: &str = "T = W(μ cos β − sin β) / (cos a + μ sin a), a = θ + β";
const TOPPLES: &str = "T = W (d cos β − h_g sin β) / (h cos a)";
const LIFTS: &str = "T = W cos β / sin a";
const WEIGHS: &str = "W = m g (1 − s · 1000 kg / m_c)";

impl NaturalAnchor {
    /// How each way of giving way ends the sentence "at most 2 kN …".
    pub(super) fn ways_words(&self) -> [&'static str; 3] {
        match self.kind {
            Natural::Tree => ["before it tips over with its roots", "before its stem breaks", ""],
            Natural::Block => ["before it slides", "before it topples", "before it is lifted"],
            Natural::Log => ["before it breaks", "before it slides off", "before it is lifted"],
            Natural::Chockstone => [""; 3],
            Natural::Buried => ["by the wedge of ground that it would push up", "by the military table", ""],
        }
    }

    pub(super) fn known(&self) -> Source {
        match self.kind {
            Natural::Tree => WINCHED,
            Natural::Block => WEIGHT,
            Natural::Log if self.lies() => WEIGHT,
            Natural::Log => BEAM,
            Natural::Chockstone => Source::assumed("only friction is left"),
            Natural::Buried => WEDGE,
        }
    }

    pub(super) fn remarks(&self, check: &Check, still: Band, slip: Band) -> Result<Vec<String>, OutOfDomain> {
        let mut remarks = Vec::new();
        let mut say = |words: &str| remarks.push(words.to_owned());
        match check {
            Check::None(reason) => say(&["No figure: ", reason, "."].concat()),
            Check::Nothing(reason) => say(&["No: ", reason, ". Nothing but friction is left."].concat()),
            Check::Figure(spreads) => {
                let [_, ways @ ..] = spreads.as_ref();
                let most = self.capacity(check).unwrap_or(Band::exact(0.0));
                say(if still.low() > most.high() {
                    "No: even the least weight that hangs on it is more than it can do at the very most."
                } else if slip.low() > most.high() {
                    "No: even the mildest slip pulls harder than it can do at the very most."
                } else if still.high() >= most.low() {
                    "At the adverse ends it may give way under people who only hang on it."
                } else if slip.high() >= most.low() {
                    "At the adverse ends it may give way when someone slips."
                } else {
                    "This check does not say no. That is not a yes: what is not computed decides."
                });
                let mut first: Option<(&str, f64)> = None;
                for (way, words) in ways.iter().zip(self.ways_words()) {
                    if way.band.low() < first.map_or(f64::INFINITY, |(_, low)| low) {
                        first = Some((words, way.band.low()));
                    }
                }
                if let Some((words, _)) = first.filter(|_| self.kind != Natural::Buried) {
                    say(&["What gives way first: ", words.trim_start_matches("before "), "."].concat());
                }
                if most.low() == 0.0 {
                    say("It may move without any pull: the ground is too steep for its friction, or it floats.");
                }
            }
        }
        if matches!(check, Check::Figure(_)) {
            match self.kind {
                Natural::Tree => {
                    if self.sling.value < 1.0 {
                        say("The sling counts as if it were at 1 m: no tree was winched over by a lower one.");
                    }
                    if self.stands == Stands::Thin {
                        say(
                            "Thin soil, ledge or undercut: a quarter to a half of what roots in open ground hold is counted, which nobody has measured.",
                        );
                    }
                }
                Natural::Log if self.seating == Seating::Out => {
                    say("The pull draws it out of its place: only its weight and friction are counted.");
                }
                Natural::Buried if self.table_run().is_some() => {
                    say("Wedge and table rest on different tests and do not agree; the lower one stands first.");
                }
                Natural::Buried => say(
                    "Not checked by the military table: it begins at a mean depth of 0.91 m, in loam, sand or fine soil, for pulls that rise 1 m in 1 to 4 m.",
                ),
                _ => {}
            }
        }
        say(match self.kind {
            Natural::Tree => {
                "Look at: leaves, bark and fungus; cracks in the ground behind it; roots on the side away from the pull; what the last flood took from the bank."
            }
            Natural::Block => {
                "Look at: whether it rocks, what it stands on and leans against, whether water reaches it, edges under the sling."
            }
            Natural::Log => {
                "Look at: both ends and what they bear on, cracks and soft wood, a dull sound when it is knocked, the flood mark."
            }
            Natural::Chockstone => {
                "Look at: how both sides touch, which way the walls close, whether it moves by hand, loose stones behind it."
            }
            Natural::Buried => {
                "Look at: undisturbed ground before the face, a trench that leaves it whole, water that washes it out, rot."
            }
        });
        say(
            "Common practice, no source: sling it low; take what lives or is bedded deep; tie it back to a second point; look again after each person.",
        );
        Ok(remarks)
    }

    pub(super) fn working(&self, check: &Check, point: &Inputs, slip: &Spread<3>) -> Result<Vec<Step>, OutOfDomain> {
        let &[body, kit, stiffness] = &slip.at_high;
        let rises = Given::exact("θ", self.rises(), Kind::Angle);
        let mut steps = vec![
            self.people.step(body, kit),
            self.people.load_step(State::Slip, body, kit, stiffness, slip.band.high()),
            Step {
                what: "Direction of the pull, above the level; below 0 it runs down".to_owned(),
                formula: "θ = −atan(down / out)",
                given: vec![length("down", self.down.value), length("out", self.out.value)],
                result: rises.clone(),
                source: Source::derived("a straight rope"),
            },
        ];
        if !matches!(check, Check::Figure(_)) {
            return Ok(steps);
        }
        match self.kind {
            Natural::Tree => steps.extend(self.tree_worked(point, rises)?),
            Natural::Block | Natural::Log => steps.extend(self.weight_worked(point, rises)?),
            Natural::Buried => steps.extend(self.ground_worked(point, rises)?),
            Natural::Chockstone => {}
        }
        Ok(steps)
    }

    fn diameter_step(&self, girth: f64) -> Result<(Step, f64), OutOfDomain> {
        let diameter = log::diameter(Length::new::<metre>(girth))?.value;
        let step = Step {
            what: "Diameter, from the girth".to_owned(),
            formula: "D = u / π",
            given: vec![length("u", girth)],
            result: length("D", diameter),
            source: Source::derived("a circle"),
        };
        Ok((step, diameter))
    }

    fn tree_worked(&self, point: &Inputs, rises: Given) -> Result<Vec<Step>, OutOfDomain> {
        let &[girth, times, scatter, site, ..] = point;
        let (first, diameter) = self.diameter_step(girth)?;
        let height = self.height_of_tree(point)?.value;
        let stem = self.stem(point)?;
        let mut steps = vec![first];
        if self.height_unknown() {
            steps.push(Step {
                what: "Height, not measured: a share of the usual one".to_owned(),
                formula: "H = share · (1 m + 65 D)",
                given: vec![plain("share", times), length("D", diameter)],
                result: length("H", height),
                source: Source::assumed("0.6 to 1.2 of trees grown close together"),
            });
        }
        steps.push(Step {
            what: "Green mass of the stem".to_owned(),
            formula: "m = ρ a D^b H^c, D in cm, H in m",
            given: vec![length("D", diameter), length("H", height)],
            result: Given::exact("m", stem.value, Kind::Mass),
            source: Source::published("Fonweban et al. 2012"),
        });
        let [tips, snaps, _] = self.ways(point)?;
        let sling = length("h", self.sling.value);
        if let (Some(tips), Some(species)) = (tips, self.tree_kind.species()) {
            let each = tree::tips_over(species, self.stands.soil(), stem)?.value / stem.value.max(f64::MIN_POSITIVE);
            steps.push(Step {
                what: "Pull at which it tips over with its roots; C the moment for each kg of stem".to_owned(),
                formula: "F = k s C m / (max(h, 1 m) cos θ)",
                given: vec![
                    plain("k", scatter),
                    plain("s", site),
                    plain("C", each),
                    Given::exact("m", stem.value, Kind::Mass),
                    sling.clone(),
                    rises.clone(),
                ],
                result: force("F", tips),
                source: WINCHED,
            });
        }
        if let Some(snaps) = snaps {
            steps.push(Step {
                what: "Pull at which its stem may break".to_owned(),
                formula: "F = 0.67 (π/32) f MOR D³ / (max(h, 1 m) cos θ)",
                given: vec![length("D", diameter), sling, rises],
                result: force("F", snaps),
                source: WINCHED,
            });
        }
        Ok(steps)
    }

    fn weight_worked(&self, point: &Inputs, rises: Given) -> Result<Vec<Step>, OutOfDomain> {
        let &[girth, _, _, _, shape, cubic_metre, under_water, friction, strength, ..] = point;
        let mut steps = Vec::new();
        let [mut one, mut two, mut three] = self.ways(point)?;
        if self.kind == Natural::Log {
            let (first, diameter) = self.diameter_step(girth)?;
            steps.push(first);
            if let Some(breaks) = one {
                steps.push(Step {
                    what: "Pull in the middle at which it breaks, the ends free; σ in N/mm²".to_owned(),
                    formula: "F = σ π D³ / (8 L)",
                    given: vec![plain("σ", strength / 1e6), length("D", diameter), length("L", self.wide.value)],
                    result: force("F", breaks),
                    source: BEAM,
                });
            }
            if !self.lies() {
                return Ok(steps);
            }
            (one, two, three) = (two, None, three);
        }
        let weight = self.weight(point)?.value;
        let mass = Given::exact("m_c", cubic_metre, Kind::Mass);
        let mut given = vec![mass, plain("s", under_water), length("long", self.long.value)];
        if self.kind == Natural::Block {
            given.extend([length("wide", self.wide.value), length("high", self.high.value), plain("share", shape)]);
        }
        steps.push(Step {
            what: if self.kind == Natural::Block {
                "Weight of the block, m = m_c · share · long · wide · high, less what water carries"
            } else {
                "Weight of the log, m = m_c · long · π D²/4, less what water carries"
            }
            .to_owned(),
            formula: WEIGHS,
            given,
            result: force("W", weight),
            source: WEIGHT,
        });
        let beta = Given::exact("β", self.directions().slope.value, Kind::Angle);
        let friction = plain("μ", friction);
        let sizes = vec![
            length("d", self.long.value / 2.0),
            length("h_g", self.high.value / 2.0),
            length("h", self.sling.value),
        ];
        for (what, way, formula, more, source) in [
            ("Slides at", one, SLIDES, vec![friction], self.contact.friction().1),
            ("Topples at", two, TOPPLES, sizes, WEIGHT),
            ("Is lifted at", three, LIFTS, Vec::new(), WEIGHT),
        ] {
            if let Some(way) = way {
                let mut given = vec![force("W", weight), beta.clone(), rises.clone()];
                given.extend(more);
                steps.push(Step { what: what.to_owned(), formula, given, result: force("T", way), source });
            }
        }
        Ok(steps)
    }

    fn ground_worked(&self, point: &Inputs, rises: Given) -> Result<Vec<Step>, OutOfDomain> {
        let &[girth, _, _, _, _, _, _, _, _, angle, cubic_metre] = point;
        let [wedge, table, _] = self.ways(point)?;
        let wide = length("b", self.wide.value);
        let mut steps = Vec::new();
        if let Some(wedge) = wedge {
            steps.push(Step {
                what: "The wedge that it would push up; γ the weight of a cubic metre; K = tan²(45° + φ/2)".to_owned(),
                formula: "F = ½ K γ H² b / cos θ, θ not above 0",
                given: vec![
                    Given::exact("φ", angle, Kind::Angle),
                    force("γ", cubic_metre),
                    length("H", self.high.value),
                    wide.clone(),
                    rises,
                ],
                result: force("F", wedge),
                source: WEDGE,
            });
        }
        if let (Some(table), Some(run), Some(share)) = (table, self.table_run(), self.ground.of_table()) {
            let (first, diameter) = self.diameter_step(girth)?;
            steps.push(first);
            steps.push(Step {
                what: "By the table: 45, 62, 69, 72 kN/m² for a run of 1 to 4, on the face".to_owned(),
                formula: "F = share · p(run) · D b",
                given: vec![plain("share", share), plain("run", run), length("D", diameter), wide],
                result: force("F", table),
                source: TABLE,
            });
        }
        Ok(steps)
    }

    pub(super) fn not_in(&self) -> Vec<&'static str> {
        let own: &[&str] = match self.kind {
            Natural::Tree => &[
                "a dead, rotten, hollow, cracked or loose tree",
                "roots on bare rock, and a bank that a flood has undercut",
                "roots that loosen a little with each pull",
                "a sling that slides up, and bark that gives way under it",
                "weight of crown and stem once it leans, wind and ice",
            ],
            Natural::Block => &[
                "a block that is jammed, undercut, or leans on another",
                "ground that washes out or gives way under its edge",
                "moving water that pushes it, and water higher than entered",
                "a pull to the side that turns it",
                "a little that it creeps with each pull",
            ],
            Natural::Log => &[
                "rot, cracks, and knots beyond those assumed",
                "ends that are jammed, clamped, or bear on loose stones",
                "water that rises and floats it off, and drift that hits it",
                "its own weight in bending, and a sling away from the middle",
                "a little that it works loose with each pull",
            ],
            Natural::Chockstone => &[
                "how it is jammed, and the rock that it bears on",
                "a pull that changes its direction",
                "shaking, frost and moving water",
                "a little that it turns or creeps with each pull",
            ],
            Natural::Buried => &[
                "ground that was dug up, and ground that washes out",
                "ground beside a narrow face, which adds, and a trench that takes away",
                "lifting of the face by a pull that rises",
                "rot and bending of what is buried",
                "a little that it creeps with each pull",
            ],
        };
        [own, &["the sling, its knot, and sharp edges under it", "several people who slip one after the other"]]
            .concat()
    }
}

fn length(symbol: &'static str, metres: f64) -> Given {
    Given::exact(symbol, metres, Kind::Length)
}
fn force(symbol: &'static str, newtons: f64) -> Given {
    Given::exact(symbol, newtons, Kind::Force)
}
fn plain(symbol: &'static str, number: f64) -> Given {
    Given::exact(symbol, number, Kind::Ratio)
}

/// What the numbers of a kind rest on.
pub(super) fn formulas(kind: Natural) -> &'static [Formula] {
    static ALL: [Formula; 8] = [
        Formula::new(
            "tree tips over: m the green stem, C by kind and soil, k 0.58 to 1.73, s the place",
            "M = k s C m",
            WINCHED,
        ),
        Formula::new("tree: its stem breaks, of which two thirds may be reached", "M = π/32 f MOR D³", WINCHED),
        Formula::new("slides: slope β, pull θ above the level, a = θ + β", SLIDES, WEIGHT),
        Formula::new("topples: centre d behind the edge and h_g high, sling h high", TOPPLES, WEIGHT),
        Formula::new("is lifted, a above 0", LIFTS, WEIGHT),
        Formula::new("log across a gap L, σ 15 to 35 N/mm²", "F = σ π D³ / (8 L)", BEAM),
        Formula::new("buried face: H deep, b wide", "F = ½ tan²(45° + φ/2) γ H² b", WEDGE),
        Formula::new("buried face by the table, p 45 to 72 kN/m²", "F = share · p · D b", TABLE),
    ];
    let (from, to) = match kind {
        Natural::Tree => (0, 2),
        Natural::Block => (2, 5),
        Natural::Chockstone => (0, 0),
        Natural::Log => (2, 6),
        Natural::Buried => (6, 8),
    };
    ALL.get(from..to).unwrap_or_default()
}

pub(super) const CAUTIONS: [Caution; 5] = [
    Caution::new(
        Gravity::Danger,
        "A natural part as the only anchor",
        "If it goes, everybody on it falls, and the part falls on them.",
        "Tie it back to a second point that does not depend on it.",
    ),
    Caution::new(
        Gravity::Danger,
        "A number taken for a strength",
        "It is the most that sound parts did or could do; yours may do nothing at all.",
        "Use it only to turn a part down.",
    ),
    Caution::new(
        Gravity::Warning,
        "It held the first of the group",
        "Roots, stones and ground loosen a little with each pull and give way under a later one.",
        "Look at it, and at the ground round it, after each person.",
    ),
    Caution::new(
        Gravity::Warning,
        "Water that has changed since it was slung",
        "It lifts blocks and logs, washes out ground, and leaves drift that looks solid.",
        "Take what stands above the flood mark.",
    ),
    Caution::OF_EVERY_NUMBER,
];
