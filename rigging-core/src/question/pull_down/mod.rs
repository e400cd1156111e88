//! Will the rope come?

mod case;
mod scene;
#[cfg(test)]
mod tests;
mod told;

use case::Side;
use told::{CAUTIONS, FORMULAS, NOT_IN};

use super::answer::{Answer, Finding};
use super::field::{Field, choices, place, table};
use super::graph::{Axis, Graph, Mark};
use super::input::BadInput;
use super::pullers::PullFrom;
use super::{Ask, Over, Solve, Whether};
use crate::band::{Band, Spread};
use crate::law::OutOfDomain;
use crate::quantity::{Angle, Kind, Length, degree, metre, millimetre};
use crate::working::Source;
use std::f64::consts::{FRAC_PI_2, PI};

/// What is pulled from below.
/// ```
/// use rigging_core::question::{Ask, BadInput, PullDown, PulledBy};
///
/// // 18 m of a cord of 6 mm hang where a rope of 9 mm would, and help by so much less: 0.6456 g/m · (9² − 6²) · 18 m
/// // · g, wet up to half as heavy again.
/// let start = |pulled_by| -> Result<f64, BadInput> {
///     Ok(PullDown { pulled_by, ..PullDown::default() }.answer()?.findings[0].adverse())
/// };
/// let less = 1.5 * 0.6456e-3 * (81.0 - 36.0) * 18.0 * 9.806_65;
/// assert!((start(PulledBy::Cord)? - start(PulledBy::Rope)? - less).abs() < 1e-6);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum PulledBy {
    /// One strand of a rope that hangs doubled through the ring.
    #[default]
    Rope,
    /// A cord that is tied to the rope at the ring, behind a knot or a connector that blocks it.
    Cord,
}
choices!(PulledBy {
    Rope = "rope", "one strand of the doubled rope";
    Cord = "cord", "a pull cord, the rope blocked at the ring";
});

/// Which strands meet something.
/// ```
/// use rigging_core::question::{Ask, BadInput, EdgeMet, Met, PullDown};
///
/// // An edge close below the ring multiplies by e^(μφ), twice under both strands: polished rock, μ at most 0.40, 60°.
/// // 18 m of wet rope, 0.6456 g/m · 9² · 1.5 · 18 m · g, help the hand.
/// let start = |met| -> Result<f64, BadInput> {
///     let pull = PullDown::default();
///     Ok(PullDown { first: EdgeMet { met, ..pull.first }, ..pull }.answer()?.findings[0].adverse())
/// };
/// let (helps, edge) = (1.5 * 0.6456e-3 * 81.0 * 18.0 * 9.806_65, (0.40 * std::f64::consts::FRAC_PI_3).exp());
/// let before = start(Met::Neither)? + helps;
/// assert!((start(Met::Pulled)? + helps - before * edge).abs() < 1e-6);
/// assert!((start(Met::Both)? + helps - before * edge * edge).abs() < 1e-6);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Met {
    /// It is not there.
    #[default]
    Neither,
    /// The strand that is pulled.
    Pulled,
    /// The strand that rises.
    Rising,
    /// Both.
    Both,
}
choices!(Met {
    Neither = "neither", "no strand: it is not there";
    Pulled = "pulled", "the strand that is pulled";
    Rising = "rising", "the strand that rises";
    Both = "both", "both strands";
});

/// An edge below the ring.
/// ```
/// use rigging_core::quantity::{Length, metre};
/// use rigging_core::question::{Ask, BadInput, EdgeMet, PullDown};
///
/// // 10 m below the ring an edge costs less than close to it; below the end of 18 m there is no rope over it.
/// let start = |down| -> Result<f64, BadInput> {
///     let pull = PullDown::default();
///     let first = EdgeMet { down: Length::new::<metre>(down), ..pull.first };
///     Ok(PullDown { first, ..pull }.answer()?.findings[0].adverse())
/// };
/// assert!(start(10.0)? < start(0.0)? && start(20.0).is_err());
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct EdgeMet {
    /// Which strands run over it.
    pub met: Met,
    /// What it is.
    pub over: Over,
    /// How far the rope turns there.
    pub turn: Angle,
    /// Rope between the ring and it.
    pub down: Length,
}

/// Sloping rock that the rope lies on from the ring on.
/// ```
/// use rigging_core::quantity::{Angle, Length, degree, metre};
/// use rigging_core::question::{Ask, Met, PullDown, Slab};
///
/// // 4 m of slab that falls plumb are as 4 m more of rope that hangs on either side.
/// let pull = PullDown::default();
/// let (long, falls) = (Length::new::<metre>(4.0), Angle::new::<degree>(90.0));
/// let slab = Slab { met: Met::Both, length: long, falls, ..pull.slab };
/// let hangs = PullDown { height: pull.height + long, rising: pull.rising + long, ..pull.clone() };
/// let lies = PullDown { slab, ..pull };
/// assert!((lies.answer()?.findings[0].adverse() - hangs.answer()?.findings[0].adverse()).abs() < 1e-6);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Slab {
    /// Which strands lie on it.
    pub met: Met,
    /// What it is.
    pub over: Over,
    /// Rope on it.
    pub length: Length,
    /// How steeply it falls, from level.
    pub falls: Angle,
}

/// A rope is pulled down from the foot of a drop.
/// ```
/// use rigging_core::question::Question;
///
/// // 30 m of dry rope hang on each side and weigh G = 0.6456 g/m · 9² · 30 m · g; the ring makes e^(μπ) of what
/// // rises, μ at most 0.30: the hand pulls G (e^(0.30 π) − 1).
/// let pull: Question = serde_json::from_str(
///     r#"{"question": "pull-down", "height_m": 30, "rising_m": 30, "diameter_m": 0.009, "wet": "no",
///         "edge_1_on": "neither"}"#,
/// )?;
/// let weight = 0.6456e-3 * 81.0 * 30.0 * 9.806_65;
/// let start = &pull.answer()?.findings[0];
/// assert!((start.adverse() - weight * ((0.30 * std::f64::consts::PI).exp() - 1.0)).abs() < 1e-6);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PullDown {
    /// What is pulled.
    pub pulled_by: PulledBy,
    /// Height from the ring, or from the foot of the slab, to the hands that pull.
    pub height: Length,
    /// Rope that hangs on the other side, where it rises.
    pub rising: Length,
    /// Diameter of the rope.
    pub diameter: Length,
    /// Diameter of the cord that pulls it, if there is one.
    pub cord: Length,
    /// What the rope runs through.
    pub ring: Over,
    /// Sloping rock below it.
    pub slab: Slab,
    /// An edge.
    pub first: EdgeMet,
    /// Another edge.
    pub second: EdgeMet,
    /// Whether rope and rock are wet.
    pub wet: Whether,
    /// How many pull.
    pub pullers: u32,
    /// Where they are.
    pub pull_from: PullFrom,
    /// Rope carried beside the one that is pulled.
    pub spare: Length,
    /// The longest drop still below, 0 if there is none.
    pub next_drop: Length,
}

impl Default for PullDown {
    fn default() -> Self {
        let metres = Length::new::<metre>;
        let edge = |met, over, degrees| EdgeMet {
            met,
            over,
            turn: Angle::new::<degree>(degrees),
            down: Length::new::<metre>(0.0),
        };
        PullDown {
            pulled_by: PulledBy::Rope,
            height: metres(18.0),
            rising: metres(18.0),
            diameter: Length::new::<millimetre>(9.0),
            cord: Length::new::<millimetre>(6.0),
            ring: Over::Ring,
            slab: Slab {
                met: Met::Neither,
                over: Over::PolishedRock,
                length: metres(4.0),
                falls: Angle::new::<degree>(40.0),
            },
            first: edge(Met::Both, Over::PolishedRock, 60.0),
            second: edge(Met::Neither, Over::RoughRock, 30.0),
            wet: Whether::Yes,
            pullers: 1,
            pull_from: PullFrom::Swimming,
            spare: metres(20.0),
            next_drop: metres(25.0),
        }
    }
}

const INPUTS: [&str; 5] =
    ["friction at the ring", "friction of edge 1", "friction of edge 2", "friction of the slab", "water in the rope"];

const ON: &str = "an edge under a strand multiplies the pull; one under both strands does it twice";
const OVER: &str = "friction there is known only within a range";
const TURN: &str = "how far the rope changes direction there: 0 is straight on, 90° from level to plumb";
const DOWN: &str = "along the rope; close below the ring, 0, costs most";

/// Places of the curve.
const STEPS: u32 = 16;

const FROM_THE_RING: [&str; 2] = ["edge 1 from the ring", "edge 2 from the ring"];

impl PullDown {
    fn is_wet(&self) -> bool {
        self.wet == Whether::Yes
    }

    fn edges(&self) -> [&EdgeMet; 2] {
        [&self.first, &self.second]
    }

    /// What those who pull pull steadily, N.
    fn steady(&self) -> Result<Band, OutOfDomain> {
        self.pull_from.of_all(self.pullers)
    }

    /// Rope that reaches down a drop, as declared, a metre of knots and shrinkage counted; none for no drop.
    /// ```
    /// use rigging_core::quantity::{Length, metre};
    /// use rigging_core::question::PullDown;
    ///
    /// // 46 m down and 1 m for knots: of 50 m a wet rope may lose 6 %, which leaves 47 m.
    /// let spare = PullDown::spare_for(Length::new::<metre>(46.0));
    /// assert!((spare.value - 50.0).abs() < 1e-9);
    /// // After the last drop none is needed.
    /// assert_eq!(PullDown::spare_for(Length::new::<metre>(0.0)).value, 0.0);
    /// ```
    pub fn spare_for(drop: Length) -> Length {
        let metres = drop.value;
        Length::new::<metre>(if metres > 0.0 { (metres + 1.0) / (1.0 - MOST_SHRINKAGE) } else { 0.0 })
    }

    /// Spare rope that is missing for the longest drop still below, m.
    fn spare_missing(&self) -> f64 {
        (Self::spare_for(self.next_drop) - self.spare).value.max(0.0)
    }

    /// Edges lie on the strands that run over them.
    fn refused(&self) -> Result<(), OutOfDomain> {
        for (edge, what) in self.edges().into_iter().zip(FROM_THE_RING) {
            for side in [Side::Pulled, Side::Rising] {
                if edge.met.by(side) && edge.down.value >= self.long(side) {
                    let must = "less than the strand over it is long, slab and hanging rope together";
                    return Err(OutOfDomain { what, value: edge.down.value, must });
                }
            }
        }
        Ok(())
    }

    /// The pull against the rope that is pulled, from the start to the end.
    fn curve(&self) -> Result<Vec<Mark>, OutOfDomain> {
        let all = self.long(Side::Rising);
        (0..=STEPS)
            .map(|step| {
                let across = all * f64::from(step) / f64::from(STEPS);
                Ok(Mark { across, up: self.pull_at(across)? })
            })
            .collect()
    }
}

/// Most that makers declare a rope to shrink in water, from memory.
const MOST_SHRINKAGE: f64 = 0.06;

/// How far a strand may hang, m.
const DROP: std::ops::RangeInclusive<f64> = 1.0..=200.0;

impl Ask for PullDown {
    const NAME: &'static str = "pull-down";
    const WORDS: &'static str = "Will the rope come?";
    const ABOUT: &'static str =
        "Pull needed from below at the start, the middle and the end, beside what those who pull can give";
    const EXAMPLE: &'static str =
        "A wet 9 mm rope, doubled through a ring above a polished 60° edge, is pulled down 18 m by one swimmer.";

    fn fields() -> Vec<Field<Self>> {
        const ANY: std::ops::RangeInclusive<f64> = 0.0..=200.0;
        const THICK: std::ops::RangeInclusive<f64> = 0.004..=0.016;
        table![
            Field::choice('p', "pulled_by", PulledBy::CHOICES, place!(pulled_by)).says(
                "What is pulled",
                "with a cord the knot or block comes away from the ring and the rope follows through it; two ropes tied together count as rope and cord"
            ),
            Field::one('a', "height_m", Kind::Length, DROP, place!(height))
                .says("Down: ring to the hands that pull", "straight down; from the foot of the slab if this strand lies on it"),
            Field::one('b', "rising_m", Kind::Length, DROP, place!(rising)).says(
                "Hanging on the strand that rises",
                "from the ring, or the foot of the slab, to its end or the ground; rope that lies on the ground weighs nothing yet"
            ),
            Field::one('i', "diameter_m", Kind::Thickness, THICK, place!(diameter))
                .says("Rope diameter", "as declared; its weight is found from it"),
            Field::one('j', "cord_diameter_m", Kind::Thickness, THICK, place!(cord))
                .says("Diameter of the pull cord", "a thin cord helps less by its weight, and is hard to hold")
                .asked_if(|pull: &PullDown| pull.pulled_by == PulledBy::Cord),
            Field::choice('r', "ring", Over::CHOICES, place!(ring))
                .says("The rope runs through or around", "the rope turns back there; a tree: timber; a block: its edge"),
            Field::choice('c', "edge_1_on", Met::CHOICES, place!(first.met)).says("Edge 1 is under", ON),
            Field::choice('d', "edge_1_over", Over::CHOICES, place!(first.over))
                .says("Edge 1 is", OVER)
                .asked_if(|pull: &PullDown| pull.first.met != Met::Neither),
            Field::one('e', "edge_1_turn_rad", Kind::Angle, 0.0..=PI, place!(first.turn))
                .says("Turning angle at edge 1", TURN)
                .asked_if(|pull: &PullDown| pull.first.met != Met::Neither),
            Field::one('f', "edge_1_down_m", Kind::Length, ANY, place!(first.down))
                .says("Ring to edge 1", DOWN)
                .asked_if(|pull: &PullDown| pull.first.met != Met::Neither),
            Field::choice('g', "edge_2_on", Met::CHOICES, place!(second.met)).says("Edge 2 is under", ON),
            Field::choice('h', "edge_2_over", Over::CHOICES, place!(second.over))
                .says("Edge 2 is", OVER)
                .asked_if(|pull: &PullDown| pull.second.met != Met::Neither),
            Field::one('k', "edge_2_turn_rad", Kind::Angle, 0.0..=PI, place!(second.turn))
                .says("Turning angle at edge 2", TURN)
                .asked_if(|pull: &PullDown| pull.second.met != Met::Neither),
            Field::one('m', "edge_2_down_m", Kind::Length, ANY, place!(second.down))
                .says("Ring to edge 2", DOWN)
                .asked_if(|pull: &PullDown| pull.second.met != Met::Neither),
            Field::choice('s', "slab_on", Met::CHOICES, place!(slab.met))
                .says("Sloping rock from the ring on, under", "the rope lies on it; its lip is counted with it"),
            Field::choice('t', "slab_over", Over::CHOICES, place!(slab.over))
                .says("The slope is", OVER)
                .asked_if(|pull: &PullDown| pull.slab.met != Met::Neither),
            Field::one('u', "slab_m", Kind::Length, 0.1..=200.0, place!(slab.length))
                .says("Rope on the slope", "from the ring to its lip, along the slope")
                .asked_if(|pull: &PullDown| pull.slab.met != Met::Neither),
            Field::one('w', "slab_falls_rad", Kind::Angle, 0.0..=FRAC_PI_2, place!(slab.falls))
                .says("The slope falls, from level", "0 is level, 90° plumb")
                .asked_if(|pull: &PullDown| pull.slab.met != Met::Neither),
            Field::choice('v', "wet", Whether::CHOICES, place!(wet))
                .says("Wet", "the rope is heavier, and friction less certain"),
            Field::one('n', "pullers", Kind::Count, 1.0..=8.0, place!(pullers))
                .says("People who pull", "who can reach the rope at once"),
            Field::choice('z', "pull_from", PullFrom::CHOICES, place!(pull_from))
                .says("They pull", "a swimmer is not three standers")
                .from(Source::assumed("steady pull of one: 100 to 300 N standing dry, 50 to 100 N swimming")),
            Field::one('x', "spare_m", Kind::Length, 0.0..=400.0, place!(spare))
                .says("Spare rope", "in one piece, beside the rope that is pulled: it is left if that one is lost"),
            Field::one('A', "next_drop_m", Kind::Length, 0.0..=250.0, place!(next_drop))
                .says("Longest drop still below", "its set-back counted; 0 if this is the last"),
        ]
    }
}

impl Solve for PullDown {
    const KEY: &'static str = "pd";

    fn solve(&self) -> Result<Answer, BadInput> {
        self.refused()?;
        let [start, anchor] = self.spread(0.0)?;
        let [middle, _] = self.spread(0.5)?;
        let [end, _] = self.spread(1.0)?;
        let find = |what: &str, spread: &Spread<5>| Finding::load(what, spread.band).moved_by(spread, &INPUTS);
        let steady = self.steady()?;
        let findings = vec![
            find(told::AT_START, &start),
            find("to pull when half of what hangs has come", &middle),
            find("to pull at the end, the free end at the ring", &end),
            Finding::strength(self.steady_words(self.pullers), steady),
            find("on the anchor, pulled steadily at the start", &anchor),
            Finding::load("on the anchor if it sticks and all who pull, pull hard", self.stuck()?),
            Finding::load(
                "of spare rope missing for the longest drop still below, should this rope be lost",
                Band::exact(self.spare_missing()),
            )
            .measured_as(Kind::Length),
        ];
        let curve = self.curve()?;
        let outcomes = self.outcomes()?;
        Ok(Answer {
            findings,
            comparisons: self.compared(start.band, &curve, steady),
            remarks: self.remarks(start.band, &curve, &outcomes),
            scene: self.scene(&start.at_high)?,
            graphs: vec![Graph {
                title: "over the way of the rope: pull needed, from the least to the most friction".to_owned(),
                across: Axis { name: "rope pulled", kind: Kind::Length },
                up: Axis { name: "pull", kind: Kind::Force },
                here: curve.first().copied(),
                curve,
            }],
            working: self.working(&start.at_high)?,
            outcomes,
            formulas: FORMULAS.to_vec(),
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
            ..Answer::default()
        })
    }
}
