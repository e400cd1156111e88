//! What is told of the people who hold: remarks, working, scene, cautions.

use super::super::answer::{Caution, Gravity};
use super::super::scene::{Arc, Arrow, Dimension, Person, Pose, Role, Scene, Strand};
use super::case::{Hold, Way};
use super::{HumanAnchor, Stance, TRIAL_MASS, TRIALS};
use crate::band::Band;
use crate::quantity::Kind;
use crate::working::{Formula, Given, Source, Step};

impl HumanAnchor {
    pub(super) fn remarks(&self, worst: &Hold, still: f64, slip: f64) -> Vec<String> {
        let way = match worst.way {
            Way::Dragged if worst.force == 0.0 => "they slide toward the lip without any rope: the floor is too steep",
            Way::Dragged => "the first person is dragged toward the lip",
            Way::Topples => "the first person topples forward",
            Way::Lifted => "the first person is lifted off the ground",
            Way::Tires => "their strength; nobody held more than this in the stance trials",
        };
        let mut remarks = vec![format!("What gives way first: {way}.")];
        if slip < 1.0 {
            remarks.push(
                "At the adverse ends of the ranges a slip pulls harder than these people hold: they go over with it."
                    .to_owned(),
            );
        }
        if still < 1.0 {
            remarks.push("At the adverse ends they do not even hold the person hanging still.".to_owned());
        }
        remarks.push("That a group was held this way before changes nothing here.".to_owned());
        remarks
    }

    pub(super) fn working(
        &self,
        worst: &Hold,
        &[_, _, _, mass, friction, share, further, _]: &[f64; 8],
        all: f64,
    ) -> Vec<Step> {
        let directions = self.directions();
        let (_, friction_source) = self.seat.friction();
        let angle = |symbol, angle: f64| Given::exact(symbol, angle, Kind::Angle);
        let force = |symbol, force: f64| Given::exact(symbol, force, Kind::Force);
        let mut steps = vec![Step {
            what: "Weight of the first person, with kit".into(),
            formula: "W = m g",
            given: vec![Given::exact("m", mass, Kind::Mass)],
            result: force("W", worst.weight),
            source: Source::published("standard gravity 9.80665 m/s²"),
        }];
        steps.push(Step {
            what: "Most that a person of this mass holds in this stance, for minutes; scaling with mass assumed".into(),
            formula: "H = s · trial · m / reference mass",
            given: vec![
                Given::exact("s", share, Kind::Ratio),
                force("trial", worst.trial * TRIAL_MASS / (mass * share)),
                Given::exact("m", mass, Kind::Mass),
                Given::exact("reference mass", TRIAL_MASS, Kind::Mass),
            ],
            result: force("H", worst.trial),
            source: TRIALS,
        });
        if self.stance == Stance::SeatedBraced {
            steps.push(Step {
                what: "Push of the feet, for the minutes of a descent".into(),
                formula: "B = H − μ W, not below 0",
                given: vec![
                    force("H", worst.trial),
                    Given::exact("μ", self.seat.friction().0.typical(), Kind::Ratio),
                    force("W", worst.weight),
                ],
                result: force("B", worst.push),
                source: Source::derived("the trial is the whole hold; typical friction is taken off it"),
            });
        }
        let beta = angle("β", directions.slope.value);
        let theta = angle("θ", directions.rope.value);
        let ways = [
            (
                "Dragged at",
                worst.slides,
                "T = [W(μ cos β − sin β) + B] / (cos a + μ sin a), a = θ + β",
                vec![
                    force("W", worst.weight),
                    Given::exact("μ", friction, Kind::Ratio),
                    force("B", worst.push),
                    beta.clone(),
                    theta.clone(),
                ],
                friction_source,
            ),
            (
                "Topples at",
                worst.topples,
                "T = W d / [h cos θ + a_t sin θ]",
                vec![
                    force("W", worst.weight),
                    Given::exact("d", self.stance.geometry().weight_behind_feet, Kind::Length),
                    Given::exact("h", self.stance.geometry().rope_above_feet, Kind::Length),
                    Given::exact("a_t", self.stance.geometry().rope_behind_feet, Kind::Length),
                    theta.clone(),
                ],
                Source::assumed("reference geometry of the stance"),
            ),
            (
                "Lifted at",
                worst.lifts,
                "T = W cos β / sin a",
                vec![force("W", worst.weight), beta, theta],
                Source::derived("balance square to the ground"),
            ),
        ];
        for (what, limit, formula, given, source) in ways {
            if let Some(limit) = limit {
                let result = force("T", limit.value);
                steps.push(Step { what: what.to_owned(), formula, given, result, source });
            }
        }
        steps.push(Step {
            what: "All in line; each further person adds a share, or nothing".into(),
            formula: "T_all = T (1 + (n − 1) share)",
            given: vec![
                force("T", worst.force),
                Given::exact("n", f64::from(self.holders), Kind::Count),
                Given::exact("share", further, Kind::Ratio),
            ],
            result: force("T_all", all),
            source: Source::assumed("0 to 0.8 of their own hold, only if tied without slack"),
        });
        steps
    }

    pub(super) fn scene(&self, worst: &Hold, still: Band) -> Scene {
        let (to_lip, above) = (self.to_lip.value, self.above_lip.value);
        let body_at = [-to_lip, above];
        let lip = [0.0, 0.0];
        let geometry = self.stance.geometry();
        let feet = above - geometry.rope_above_feet;
        let slope = self.floor_falls.value;
        let floor = |x: f64| feet - slope * (x + to_lip);
        let rope = self.directions().rope.value;
        let pull = |force: f64| [force * rope.cos(), force * rope.sin()];
        let held = pull(worst.force);
        // The ground holds whatever weight and rope leave over.
        let ground = [-held[0], worst.weight - held[1]];
        let weight_at = [body_at[0] - 0.1, feet + 0.35];
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };
        let mut people = vec![Person { at: body_at, pose: self.stance.pose() }];
        for place in 1..self.holders {
            let back = body_at[0] - 1.1 * f64::from(place);
            people.push(Person { at: [back, floor(back) + geometry.rope_above_feet], pose: self.stance.pose() });
        }
        let last = body_at[0] - 1.1 * f64::from(self.holders.saturating_sub(1));
        let drop = 0.8 * to_lip.max(1.5);
        let hanging = [0.05 * drop, -drop];
        people.push(Person { at: hanging, pose: Pose::Hanging });
        let load = still.high();
        Scene {
            case: format!(
                "Drawn: the first person at the adverse end, about to be {}.",
                match worst.way {
                    Way::Topples => "toppled",
                    Way::Lifted => "lifted",
                    Way::Dragged => "dragged",
                    Way::Tires => "overcome",
                }
            ),
            rock: vec![vec![
                [last - 1.0, floor(last - 1.0)],
                [body_at[0], floor(body_at[0])],
                [-0.3, floor(-0.3).min(-0.02)],
                lip,
                [0.0, -1.7 * drop],
            ]],
            anchors: Vec::new(),
            lines: vec![
                Strand { from: body_at, to: lip, tension: worst.force },
                Strand { from: lip, to: hanging, tension: load },
            ],
            people,
            forces: vec![
                arrow(body_at, held, Role::Held, "rope"),
                arrow(weight_at, [0.0, -worst.weight], Role::Load, "weight"),
                arrow(hanging, [0.0, -load], Role::Load, "hanging still"),
            ],
            polygon: vec![
                arrow(weight_at, [0.0, -worst.weight], Role::Load, "weight"),
                arrow(body_at, held, Role::Held, "rope"),
                arrow(weight_at, ground, Role::OnAnchor, "ground holds"),
            ],
            angles: vec![Arc { at: body_at, from: rope, to: 0.0, name: "rope below level" }],
            lengths: vec![Dimension { from: [-to_lip, feet - 0.15], to: [0.0, feet - 0.15], name: "to the lip" }],
            ..Scene::default()
        }
    }
}

pub(super) const FORMULAS: [Formula; 6] = [
    Formula::new(
        "dragged: slope β, a the rope above the slope, B the push of the feet",
        "T = [W(μ cos β − sin β) + B] / (cos a + μ sin a)",
        Source::derived("friction on an incline"),
    ),
    Formula::new(
        "topples: d the weight behind the feet, h the rope above them, a_t behind them, θ above level",
        "T = W d / (h cos θ + a_t sin θ)",
        Source::derived("moments about the feet"),
    ),
    Formula::new("lifts off", "T = W cos β / sin a", Source::derived("balance square to the ground")),
    Formula::new(
        "tires: the trials held 350 lbf seated and braced, 200 standing, one foot forward; without a foothold, or the feet together, half of it; for minutes a share",
        "H = trial × share × m/80 kg; braced B = H − μ W, not below 0; else B = 0",
        Source::published("stance trials told in a mountaineering handbook; share and scaling assumed"),
    ),
    Formula::new(
        "further people in line, each 0 to 0.8 of the first",
        "all = first × (1 + further × share)",
        Source::assumed("tied without slack, each with a foothold"),
    ),
    Formula::new(
        "over an edge, its friction with the holders",
        "all × e^(+μ φ), the least μ",
        Source::published("Euler–Eytelwein; friction of edges: Delaney 2020, range assumed"),
    ),
];

pub(super) const CAUTIONS: [Caution; 5] = [
    Caution::new(
        Gravity::Danger,
        "People tied to a rope that pulls them to the lip",
        "Whoever is dragged goes over, and the one on the rope falls with them.",
        "Use a rock or tree anchor; if people must hold, have them releasable and far from the lip.",
    ),
    Caution::new(
        Gravity::Danger,
        "Holding in or beside moving water, tied in",
        "A person pulled off their feet is held under by the rope.",
        "Never hold tied in without a release at the person and at the station.",
    ),
    Caution::new(
        Gravity::Warning,
        "Minutes, not seconds",
        "Trials measured a pull of several seconds; muscles give out long before an abseil is over.",
        "Count on friction and footholds, not on strength.",
    ),
    Caution::new(
        Gravity::Warning,
        "A slip on a rope held by people",
        "It comes without notice and pulls several times the weight.",
        "No slack at the lip; the lightest go on people, the heaviest on the anchor.",
    ),
    Caution::new(
        Gravity::Caution,
        "No load-cell test of a human anchor in a canyon is known to this project",
        "The ranges here are built from stance trials on land and assumed friction.",
        "Let qualified instruction, local rules and a trial on flat ground decide.",
    ),
];

pub(super) const NOT_IN: [&str; 6] = [
    "a side slope, or a rope that pulls to one side",
    "slack between the people in line",
    "wet hands that slip on the rope, and the release",
    "fatigue beyond the share of strength assumed",
    "water that pushes on those who hold",
    "people who are not ready when the pull comes",
];
