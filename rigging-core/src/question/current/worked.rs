//! How the numbers of a current came about, and how the first of them moves with an input.

use super::super::graph::{Axis, Graph, Mark};
use super::case::{Bending, Bent, LINE_COEFFICIENT, Wet};
use super::choice::Posture;
use super::{InTheCurrent, SpeedBy, Tool};
use crate::band::{Band, Spread};
use crate::law::OutOfDomain;
use crate::quantity::{Kind, Length, metre};
use crate::working::{Given, Source, Step};

/// Places of a curve.
const STEPS: u32 = 16;

impl InTheCurrent {
    /// The first finding of a bend against the angle between line and current; the places where it was best and worst.
    pub(super) fn graph_of_angle(
        &self,
        spread: &Spread<5>,
        drag: &Spread<6>,
        slides: bool,
    ) -> Result<Graph, OutOfDomain> {
        let at = |rig: &InTheCurrent, point: &Bending| {
            let bent = rig.bent(point)?;
            Ok::<_, OutOfDomain>(if slides { bent.left_across().min(self.across.value) } else { bent.most[0] })
        };
        let typical = self.bending(drag).map(|input| input.typical());
        let mut curve = Vec::new();
        for step in 0..=STEPS {
            let across = (15.0 + 75.0 * f64::from(step) / f64::from(STEPS)).to_radians();
            let down = (self.across.value / across.tan()).max(0.0);
            let rig = InTheCurrent { down: Length::new::<metre>(down), ..*self };
            let mut most = at(&rig, &spread.at_high)?;
            if !slides {
                let [near, ..] = rig.swept_in(&spread.at_high, Posture::Broadside)?;
                most = most.max(near);
            }
            let up = Band::of(at(&rig, &spread.at_low)?, at(&rig, &typical)?, most);
            curve.push(Mark { across, up });
        }
        let title = if slides { "where the person is left" } else { "force on the near end" };
        Ok(Graph {
            title: format!("{title}, against the angle of the straight line to the current; worst and best case"),
            across: Axis { name: "angle to the current", kind: Kind::Angle },
            up: if slides {
                Axis { name: "from the far bank", kind: Kind::Length }
            } else {
                Axis { name: "near end", kind: Kind::Force }
            },
            here: Some(Mark { across: self.across.value.atan2(self.down.value), up: spread.band }),
            curve,
        })
    }

    /// The catch against the length of the line.
    pub(super) fn graph_of_length(&self, spread: &Spread<6>) -> Result<Graph, OutOfDomain> {
        let most = (2.0 * self.line.value).max(20.0);
        let at = |length: f64, point| {
            let rig = InTheCurrent { line: Length::new::<metre>(length), ..*self };
            Ok::<_, OutOfDomain>(rig.caught(point)?[1])
        };
        let mark = |across| {
            let (low, high) = (at(across, &spread.at_low)?, at(across, &spread.at_high)?);
            Ok::<_, OutOfDomain>(Mark { across, up: Band::of(low, f64::midpoint(low, high), high) })
        };
        let curve = (1..=STEPS).map(|step| mark(most * f64::from(step) / f64::from(STEPS)));
        Ok(Graph {
            title: "the catch against the length of the line: a short line jerks, a long one reaches farther"
                .to_owned(),
            across: Axis { name: "line", kind: Kind::Length },
            up: Axis { name: "catch", kind: Kind::Force },
            curve: curve.collect::<Result<_, _>>()?,
            here: Some(Mark { across: self.line.value, up: spread.band }),
        })
    }

    pub(super) fn drag_steps(&self, point: &Wet) -> Result<Vec<Step>, OutOfDomain> {
        let &[speed, surge, density, coefficient, pack, wet] = point;
        let [people, line] = self.drags(point, Posture::Broadside)?;
        let plain = |symbol, number| Given::exact(symbol, number, Kind::Ratio);
        let fast = |symbol, speed| Given::exact(symbol, speed, Kind::Speed);
        let mut steps = Vec::new();
        if self.speed_by == SpeedBy::Float {
            steps.push(Step {
                what: "Speed of the water, by the float".into(),
                formula: "v = way / time · (1 + off)",
                given: vec![
                    Given::exact("way", self.float_way.value, Kind::Length),
                    Given::exact("time", self.float_time.value, Kind::Time),
                    plain("off", speed * self.float_time.value / self.float_way.value - 1.0),
                ],
                result: fast("v", speed),
                source: Source::YOURS,
            });
        }
        steps.push(Step {
            what: "Drag on those who are in the water broadside, each 0.65 m² and a pack; areas assumed".into(),
            formula: "F = n · ½ ρ C_d A (s v)²",
            given: vec![
                Given::exact("n", f64::from(self.people.count), Kind::Count),
                plain("ρ (kg/m³)", density),
                plain("C_d", coefficient),
                plain("A (m²)", Posture::Broadside.area() + pack),
                plain("s", surge),
                fast("v", speed),
            ],
            result: Given::exact("F", people, Kind::Force),
            source: Source::memory("C_d 1.1 to 1.5: Jonkman & Penning-Rowsell 2008, Keller & Mitsch 1993"),
        });
        steps.push(Step {
            what: "Drag on the line, as if it pulled at the person; b: the most of it that the current may cross"
                .into(),
            formula: "F_line = ½ ρ C_d d b w (s v)²",
            given: vec![
                plain("C_d", LINE_COEFFICIENT),
                Given::exact("d", self.diameter.value, Kind::Thickness),
                Given::exact("b", self.line_turned(), Kind::Length),
                plain("w", wet),
            ],
            result: Given::exact("F_line", line, Kind::Force),
            source: Source::assumed("a cylinder across the current; w of it lies in the water"),
        });
        Ok(steps)
    }

    /// Of the near end; `swept` is what it gets of who is swept in (N).
    pub(super) fn bend_steps(
        &self,
        &[drag, slack, stiffness, _, friction]: &Bending,
        bent: &Bent,
        swept: f64,
    ) -> Result<Vec<Step>, OutOfDomain> {
        let force = |symbol, force| Given::exact(symbol, force, Kind::Force);
        let angle = |symbol, angle| Given::exact(symbol, angle, Kind::Angle);
        let plain = |symbol, number| Given::exact(symbol, number, Kind::Ratio);
        let length = |symbol, length| Given::exact(symbol, length, Kind::Length);
        let [near, _] = bent.middle;
        let slack_part = match bent.middle {
            [_, far] if far <= 0.0 => {
                Some(("Near end: the far part hangs slack, all is held here", "T_near = F", drag))
            }
            [near, _] if near <= 0.0 => {
                Some(("Near end: the near part hangs slack, the far end holds F", "T_near = 0", 0.0))
            }
            _ => None,
        };
        let mut steps = vec![
            Step {
                what: "The person in the middle: tension across, δ from the straight line by slack and stretch".into(),
                formula: "T = F sin γ / (2 sin δ)",
                given: vec![
                    force("F", drag),
                    angle("γ", bent.to_current),
                    angle("δ", bent.dip),
                    plain("slack", slack),
                    force("EA", stiffness),
                ],
                result: force("T", bent.across),
                source: Source::derived("balance across the straight line; elastic line"),
            },
            slack_part.map_or_else(
                || Step {
                    what: "Near end, the person held there".into(),
                    formula: "T_near = T + F cos γ / (2 cos δ)",
                    given: vec![
                        force("T", bent.across),
                        force("F", drag),
                        angle("γ", bent.to_current),
                        angle("δ", bent.dip),
                    ],
                    result: force("T_near", near),
                    source: Source::derived("balance along the straight line"),
                },
                |(what, formula, result)| Step {
                    what: what.into(),
                    formula,
                    given: vec![force("F", drag)],
                    result: force("T_near", result),
                    source: Source::derived("balance of the person"),
                },
            ),
        ];
        let [most, _] = bent.most;
        if most.max(swept) > near {
            let mut given =
                vec![force("F", drag), angle("γ", bent.to_current), plain("slack", slack), force("EA", stiffness)];
            let (what, formula) = if swept > most {
                let [mass, speed] = self.sweeping(Posture::Broadside)?;
                given.extend([Given::exact("(1 + a) m", mass, Kind::Mass), Given::exact("u", speed, Kind::Speed)]);
                (
                    "Near end, swept into the middle, followed in time",
                    "(1 + a) m dv/dt = F |u − v| (u − v)/u² + T₁ + T₂",
                )
            } else {
                (
                    "Near end, the most of all places of the line; beside it, all of F",
                    "T_near = F sin(γ + β) / sin(α + β), α, β of the parts at rest",
                )
            };
            steps.push(Step {
                what: what.into(),
                formula,
                given,
                result: force("P", most.max(swept)),
                source: Source::derived("balance of the person"),
            });
        }
        if self.tool == Tool::Diagonal {
            let [near, far] = bent.angles;
            steps.push(Step {
                what:
                    "Where the current leaves the person: angle of the line ahead; slack with its stretch at the middle"
                        .into(),
                formula: "sin γ_far = sin γ_near e^(μ (γ_far − γ_near))",
                given: vec![
                    angle("γ_near", near),
                    plain("μ", friction),
                    length("span", bent.span),
                    plain("slack", bent.slack),
                ],
                result: angle("γ_far", far),
                source: Source::derived("balance of the slider, Euler–Eytelwein at it"),
            });
            steps.push(Step {
                what: "From there to the far bank, straight across".into(),
                formula: "b = far part · sin(γ_far + drift)",
                given: vec![length("far part", bent.parts[1]), angle("γ_far", far), angle("drift", bent.drift)],
                result: length("b", bent.left_across()),
                source: Source::derived("geometry"),
            });
        }
        Ok(steps)
    }

    pub(super) fn catch_steps(&self, most: &Spread<6>, farthest: &Spread<6>) -> Result<Vec<Step>, OutOfDomain> {
        let [drag, speed, stiffness, mass, _, along] = most.at_high;
        let [_, peak] = self.caught(&most.at_high)?;
        let [_, _, soft, _, legs, _] = farthest.at_high;
        let [reach, soft_peak] = self.caught(&farthest.at_high)?;
        let force = |symbol, force| Given::exact(symbol, force, Kind::Force);
        let length = |symbol, length| Given::exact(symbol, length, Kind::Length);
        Ok(vec![
            Step {
                what: "Catch: the person drifts with the surge, the line comes tight, drag held from the start".into(),
                formula: "P = F + √(F² + (EA/L) (1 + a) m v²)",
                given: vec![
                    force("F", drag),
                    force("EA", stiffness),
                    length("L", self.line.value),
                    Given::exact("m", mass, Kind::Mass),
                    Given::exact("a", along, Kind::Ratio),
                    Given::exact("v", speed, Kind::Speed),
                ],
                result: force("P", peak),
                source: Source::derived("energy of a linear spring; a: water carried along, 0 to 1, from memory"),
            },
            Step {
                what: "How far the feet get below the upper end, on the softest line".into(),
                formula: "r = L (1 + P/EA) + legs",
                given: vec![
                    length("L", self.line.value),
                    force("P", soft_peak),
                    force("EA", soft),
                    length("legs", legs),
                ],
                result: length("r", reach),
                source: Source::assumed("legs 0.8 to 2 m beyond the tie"),
            },
        ])
    }
}
