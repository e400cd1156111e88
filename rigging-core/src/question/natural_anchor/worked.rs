//! The working: how the load and the lowest figure of the part came about.

use super::super::people::State;
use super::case::{Check, Inputs};
use super::told::{BEAM, LIFTS, SLIDES, TABLE, TOPPLES, WEDGE, WEIGHT, WINCHED};
use super::{Natural, NaturalAnchor};
use crate::band::Spread;
use crate::law::{OutOfDomain, log, tree};
use crate::quantity::{Kind, Length, metre};
use crate::working::{Given, Source, Step};

const WEIGHS: &str = "W = m g (1 − s · 1100 kg / m_c)";

impl NaturalAnchor {
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
            Natural::Tree => steps.extend(self.tree_worked(point)?),
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

    fn tree_worked(&self, point: &Inputs) -> Result<Vec<Step>, OutOfDomain> {
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
                source: Source::assumed("0.3 (stunted, on a ledge) to 1.2 of trees grown close together"),
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
                formula: "F = k s C m / max(h, 1 m)",
                given: vec![
                    plain("k", scatter),
                    plain("s", site),
                    plain("C", each),
                    Given::exact("m", stem.value, Kind::Mass),
                    sling.clone(),
                ],
                result: force("F", tips),
                source: WINCHED,
            });
        }
        if let Some(snaps) = snaps {
            steps.push(Step {
                what: "Pull at which its stem may break".to_owned(),
                formula: "F = 0.67 (π/32) f MOR D³ / max(h, 1 m)",
                given: vec![length("D", diameter), sling],
                result: force("F", snaps),
                source: WINCHED,
            });
        }
        Ok(steps)
    }

    fn weight_worked(&self, point: &Inputs, rises: Given) -> Result<Vec<Step>, OutOfDomain> {
        let &[girth, _, _, _, shape, cubic_metre, under_water, friction, strength, _, _, foot] = point;
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
        let (h_g, h) = (length("h_g", self.high.value / 2.0), length("h", self.sling.value));
        let (d, e) = (self.long.value * foot / 2.0, self.before_edge(foot).value);
        let topples = vec![length("d", d), h_g.clone(), h.clone(), length("e", e)];
        let lifts = vec![length("l", self.long.value), h_g, h];
        // A log tips nowhere: it is lifted.
        let lifted = if self.kind == Natural::Log {
            ("Is lifted at", three, "T = W cos β/sin(θ + β)", Vec::new(), WEIGHT)
        } else {
            ("Is lifted, or tips back, at", three, LIFTS, lifts, WEIGHT)
        };
        for (what, way, formula, more, source) in [
            ("Slides at", one, SLIDES, vec![friction], self.contact.friction().1),
            ("Topples at", two, TOPPLES, topples, WEIGHT),
            lifted,
        ] {
            if let Some(way) = way {
                let mut given = vec![force("W", weight), beta.clone(), rises.clone()];
                given.extend(more);
                steps.push(Step { what: what.to_owned(), formula, given, result: force("T", way), source });
            }
        }
        Ok(steps)
    }

    /// The lower bound first.
    fn ground_worked(&self, point: &Inputs, rises: Given) -> Result<Vec<Step>, OutOfDomain> {
        let &[girth, _, _, _, _, _, _, _, _, angle, cubic_metre, _] = point;
        let [wedge, table, _] = self.ways(point)?;
        let wide = length("b", self.wide.value);
        let (first, diameter) = self.diameter_step(girth)?;
        let thick = length("D", diameter);
        let mut steps = vec![first];
        if let Some(wedge) = wedge {
            steps.push(Step {
                what: "The wedge that it would push up; γ the weight of a cubic metre; K = tan²(45° + φ/2); D up to H"
                    .to_owned(),
                formula: "F = ½ K γ (H² − (H − D)²) b / cos θ, θ not above 0",
                given: vec![
                    Given::exact("φ", angle, Kind::Angle),
                    force("γ", cubic_metre),
                    length("H", self.high.value),
                    thick.clone(),
                    wide.clone(),
                    rises,
                ],
                result: force("F", wedge),
                source: WEDGE,
            });
        }
        if let (Some(table), Some(run), Some(share)) = (table, self.table_run(), self.ground.of_table()) {
            let step = Step {
                what: "By the table: 45, 62, 69, 72 kN/m² for a run of 1 to 4, on the face".to_owned(),
                formula: "F = share · p(run) · D b",
                given: vec![plain("share", share), plain("run", run), thick, wide],
                result: force("F", table),
                source: TABLE,
            };
            let is_lower = wedge.is_none_or(|wedge| table < wedge);
            steps.insert(if is_lower { 1 } else { steps.len() }, step);
        }
        Ok(steps)
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
