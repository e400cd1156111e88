//! Will people hold it, for as long as it takes?

use super::Ask;
use super::answer::{Answer, Caution, ChosenLimit, Comparison, Finding, Gravity};
use super::edge::Edge;
use super::field::{Field, choices, place};
use super::people::{self, HasPeople, People, State};
use super::scene::{Arc, Arrow, Dimension, Person, Pose, Role, Scene, Strand};
use crate::band::{Band, Spread, sweep};
use crate::law::ground::{self, Directions};
use crate::law::{OutOfDomain, bend, gravity};
use crate::limit::Standing;
use crate::quantity::{Angle, Force, Kind, Length, Mass, Ratio, kilogram, metre, newton, pound_force, radian, ratio};
use crate::working::{Given, Source, Step};
use std::f64::consts::FRAC_PI_2;

/// How each person holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Stance {
    /// Seated, both feet against a real edge, the rope between them.
    SeatedBraced,
    /// Seated, nothing for the feet to push against.
    #[default]
    Seated,
    /// Standing, one foot well forward.
    FootForward,
    /// Standing, feet together.
    FeetTogether,
}
choices!(Stance {
    SeatedBraced = "seated braced", "seated, feet against a real edge";
    Seated = "seated", "seated, nothing to push against";
    FootForward = "foot forward", "standing, one foot well forward";
    FeetTogether = "feet together", "standing, feet together";
});

/// What a stance is in numbers: where the weight is, and where the rope leaves the body.
struct Geometry {
    weight_behind_feet: f64,
    rope_above_feet: f64,
    rope_behind_feet: f64,
}

impl Stance {
    fn geometry(self) -> Geometry {
        let (weight_behind_feet, rope_above_feet, rope_behind_feet) = match self {
            Stance::SeatedBraced | Stance::Seated => (0.65, 0.20, 0.65),
            Stance::FootForward => (0.35, 1.0, 0.35),
            Stance::FeetTogether => (0.12, 1.0, 0.12),
        };
        Geometry { weight_behind_feet, rope_above_feet, rope_behind_feet }
    }

    fn pose(self) -> Pose {
        match self {
            Stance::SeatedBraced | Stance::Seated => Pose::Seated,
            Stance::FootForward | Stance::FeetTogether => Pose::Standing,
        }
    }
}

/// What they sit or stand on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Seat {
    /// Wet neoprene on clean wet rock.
    #[default]
    CleanWetRock,
    /// Wet neoprene on green, silty or polished rock.
    SlipperyRock,
    /// Rubber soles on clean wet rock.
    SolesWetRock,
    /// Rubber soles on dry rock.
    SolesDryRock,
    /// On gravel.
    Gravel,
    /// On mud.
    Mud,
}
choices!(Seat {
    CleanWetRock = "clean wet rock", "wet suit on clean wet rock";
    SlipperyRock = "slippery rock", "wet suit on green, silty or polished rock";
    SolesWetRock = "soles on wet rock", "rubber soles on clean wet rock";
    SolesDryRock = "soles on dry rock", "rubber soles on dry rock";
    Gravel = "gravel", "gravel";
    Mud = "mud", "mud";
});

impl Seat {
    /// Coefficient of friction, and how it is known.
    pub fn friction(self) -> (Band, Source) {
        const RECALLED: Source = Source::memory("soles and loose ground");
        const ASSUMED: Source = Source::assumed("no test of a wet suit on rock is known");
        match self {
            Seat::CleanWetRock => (Band::of(0.20, 0.35, 0.50), ASSUMED),
            Seat::SlipperyRock => (Band::of(0.10, 0.25, 0.45), ASSUMED),
            Seat::SolesWetRock => (Band::of(0.4, 0.55, 0.7), RECALLED),
            Seat::SolesDryRock => (Band::of(0.7, 0.85, 1.0), RECALLED),
            Seat::Gravel => (Band::of(0.4, 0.5, 0.6), RECALLED),
            Seat::Mud => (Band::of(0.15, 0.25, 0.35), RECALLED),
        }
    }
}

/// People hold a rope by their weight.
#[derive(Debug, Clone, PartialEq)]
pub struct HumanAnchor {
    /// How many hold.
    pub holders: u32,
    /// Mass of each who holds, with kit.
    pub holder: Band<Mass>,
    /// How they hold.
    pub stance: Stance,
    /// What they are on.
    pub seat: Seat,
    /// How far the floor falls toward the drop for each metre forward.
    pub floor_falls: Ratio,
    /// Distance from the first person to the lip.
    pub to_lip: Length,
    /// How far the rope at the body is above the lip.
    pub above_lip: Length,
    /// What the rope runs over at the lip.
    pub edge: Edge,
    /// Who hangs on the rope.
    pub people: People,
}

impl Default for HumanAnchor {
    fn default() -> Self {
        HumanAnchor {
            holders: 2,
            holder: Band::of(65.0, 80.0, 95.0).map(Mass::new::<kilogram>),
            stance: Stance::Seated,
            seat: Seat::CleanWetRock,
            floor_falls: Ratio::new::<ratio>(0.05),
            to_lip: Length::new::<metre>(2.5),
            above_lip: Length::new::<metre>(0.2),
            edge: Edge::PolishedRock,
            people: People::default(),
        }
    }
}

impl HasPeople for HumanAnchor {
    fn people(&self) -> &People {
        &self.people
    }
    fn people_mut(&mut self) -> &mut People {
        &mut self.people
    }
}

const INPUTS: [&str; 8] = [
    people::LABELS[0],
    people::LABELS[1],
    "how hard the slip is",
    "mass of those who hold",
    "friction of the seat",
    "push of the feet",
    "what each further person adds",
    "friction of the edge",
];

/// Rope force an average person held seated and braced in the stance trials.
const TRIAL_POUNDS: f64 = 350.0;
/// The body mass the trial value is scaled from, kg (assumed).
const TRIAL_MASS: f64 = 80.0;
const TRIALS: Source =
    Source::published("stance trials told in a mountaineering handbook: 350 lbf for several seconds");

impl Ask for HumanAnchor {
    const NAME: &'static str = "human anchor";
    const KEY: &'static str = "ha";
    const WORDS: &'static str = "Will people hold it, for as long as it takes?";
    const ABOUT: &'static str = "Whether people who hold a rope by their weight are dragged, topple or lift";
    const EXAMPLE: &'static str = "Two people sit one behind the other on wet rock, nothing for the feet, and hold the rope for one who goes over the lip.";

    fn fields() -> Vec<Field<Self>> {
        let mut fields = vec![
            Field::one('a', "holders", Kind::Count, 1.0..=6.0, place!(holders))
                .says("People who hold", "in line, tied without slack; the first is nearest the lip"),
            Field::range('b', "holder_kg", Kind::Mass, 30.0..=200.0, place!(holder))
                .says("Mass of each, with kit", "the lightest and the heaviest of those who hold"),
            Field::choice('s', "stance", Stance::CHOICES, place!(stance))
                .says("How they hold", "braced means an edge or a block in front of both feet"),
            Field::choice('g', "seat", Seat::CHOICES, place!(seat))
                .says("What they are on", "the friction that keeps them from being dragged")
                .from(Source::assumed("no test of a wet suit on rock is known")),
            Field::one('f', "floor_falls", Kind::Ratio, -1.0..=1.0, place!(floor_falls)).says(
                "Floor falls toward the drop, for each metre forward",
                "0.10: 10 cm in a metre; negative if it rises toward the drop",
            ),
            Field::one('d', "to_lip_m", Kind::Length, 0.2..=50.0, place!(to_lip))
                .says("Out: first person to the lip", "level distance"),
            Field::one('h', "above_lip_m", Kind::Length, -10.0..=10.0, place!(above_lip)).says(
                "Rope at the body above the lip by",
                "the rope then runs down to the lip; negative if the lip is higher",
            ),
            Field::choice('e', "edge", Edge::CHOICES, place!(edge))
                .says("What the rope runs over at the lip", "friction there helps them to hold; counted only second"),
        ];
        fields.extend(people::fields());
        fields
    }

    fn solve(&self) -> Result<Answer, OutOfDomain> {
        let spreads = self.spread()?;
        let [all, alone, still, slip, ratio_still, ratio_slip, counted] = &spreads;
        let worst = self.hold(&all.at_low)?;
        let strength = |what: &str, spread: &Spread<8>| Finding::strength(what, spread.band).moved_by(spread, &INPUTS);
        let load = |what: &str, spread: &Spread<8>| Finding::load(what, spread.band).moved_by(spread, &INPUTS);
        let mut findings = vec![
            strength("held by all of them together, edge not counted", all),
            load("pulled by the person who hangs still", still),
            load("pulled by the person who slips", slip),
            strength("held by the first person alone", alone),
            strength("ratio at rest: what they hold ÷ weight hanging still", ratio_still).measured_as(Kind::Ratio),
            strength("ratio at a slip: what they hold ÷ pull of the slip", ratio_slip).measured_as(Kind::Ratio),
        ];
        if self.edge != Edge::Free {
            findings.push(strength("held by all, friction of the edge counted", counted));
        }
        let states = State::ALL
            .iter()
            .map(|state| {
                let [body, kit] = self.people.inputs();
                let inputs = [body, kit, state.factor().0];
                let [spread] = sweep(inputs, |&[body, kit, factor]| {
                    Ok::<_, OutOfDomain>([factor * self.people.weight_of_all(body, kit)])
                })?;
                Ok(Finding::load(state.words(), spread.band))
            })
            .collect::<Result<_, OutOfDomain>>()?;
        let compare = |what: &str, load: Band| Comparison {
            what: what.to_owned(),
            load,
            limit: Some(ChosenLimit {
                band: all.band,
                figure: all.band.low(),
                factor: 1.0,
                part: "what these people hold in this model".into(),
                source: TRIALS,
            }),
            standing: Standing::of(load, all.band).of_unknown_part("people hold: no limit holds for a person"),
        };
        Ok(Answer {
            remarks: self.remarks(&worst, ratio_still.band.low(), ratio_slip.band.low()),
            scene: self.scene(&worst, still.band),
            working: self.working(&worst, &all.at_low, all.band.low()),
            comparisons: vec![
                compare("pulled by the person who slips", slip.band),
                compare("pulled by the person who hangs still", still.band),
            ],
            findings,
            states,
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
        })
    }
}

/// How a person gives way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Way {
    Dragged,
    Topples,
    Lifted,
    BeyondModel,
}

/// What one person holds, and how that person gives way first.
struct Hold {
    force: f64,
    way: Way,
    weight: f64,
    push: f64,
    slides: Option<Force>,
    topples: Option<Force>,
    lifts: Option<Force>,
}

impl HumanAnchor {
    fn directions(&self) -> Directions {
        Directions {
            slope: Angle::new::<radian>(self.floor_falls.value.atan()),
            rope: Angle::new::<radian>(-(self.above_lip / self.to_lip).value.atan()),
        }
    }

    fn spread(&self) -> Result<[Spread<8>; 7], OutOfDomain> {
        let [body, kit] = self.people.inputs();
        let slip = State::Slip.factor().0;
        let holder = self.holder.map(|mass| mass.value);
        let push = if self.stance == Stance::SeatedBraced { Band::of(0.25, 0.38, 0.50) } else { Band::exact(0.0) };
        let further = if self.holders > 1 { Band::of(0.0, 0.5, 0.8) } else { Band::exact(0.0) };
        let edge = self.edge.friction(true).0;
        let inputs = [body, kit, slip, holder, self.seat.friction().0, push, further, edge];
        let turn = Angle::new::<radian>((FRAC_PI_2 + self.directions().rope.value).max(0.0));
        sweep(inputs, |point| {
            let &[body, kit, factor, _, _, _, further, edge] = point;
            let alone = self.hold(point)?.force;
            let all = alone * (1.0 + f64::from(self.holders - 1) * further);
            let counted = bend::tight_side(Force::new::<newton>(all), Ratio::new::<ratio>(edge), turn)?.value;
            let still = self.people.weight_of_all(body, kit);
            Ok([all, alone, still, factor * still, all / still, all / (factor * still), counted])
        })
    }

    /// What the first person holds at one point of the ranges.
    fn hold(&self, &[_, _, _, mass, friction, share, _, _]: &[f64; 8]) -> Result<Hold, OutOfDomain> {
        let weight = gravity::weight(Mass::new::<kilogram>(mass));
        let directions = self.directions();
        let trial = Force::new::<pound_force>(TRIAL_POUNDS) * (mass / TRIAL_MASS);
        let push =
            ground::push_of_feet(trial * share, weight, self.seat.friction().0.map(Ratio::new::<ratio>).typical())?;
        let geometry = self.stance.geometry();
        let metres = Length::new::<metre>;
        let slides = ground::slides_at(weight, Ratio::new::<ratio>(friction), push, directions)?;
        let topples = ground::person_topples_at(
            weight,
            metres(geometry.weight_behind_feet),
            metres(geometry.rope_above_feet),
            metres(geometry.rope_behind_feet),
            directions,
        )?;
        let lifts = ground::lifts_at(weight, directions)?;
        let ways = [(slides, Way::Dragged), (topples, Way::Topples), (lifts, Way::Lifted)];
        // Where nothing in the model gives way the trial value stands, for a person has other limits.
        let beyond = trial.value * share.max(0.25);
        let (mut force, mut way) = (f64::INFINITY, Way::BeyondModel);
        for (limit, how) in ways {
            if let Some(limit) = limit.filter(|limit| limit.value < force) {
                (force, way) = (limit.value, how);
            }
        }
        if slides.is_none() && beyond < force {
            (force, way) = (beyond, Way::BeyondModel);
        }
        Ok(Hold { force, way, weight: weight.value, push: push.value, slides, topples, lifts })
    }

    fn remarks(&self, worst: &Hold, still: f64, slip: f64) -> Vec<String> {
        let way = match worst.way {
            Way::Dragged => "the first person is dragged toward the lip",
            Way::Topples => "the first person topples forward",
            Way::Lifted => "the first person is lifted off the ground",
            Way::BeyondModel => "the pull is outside this model; the trial value is used",
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

    fn working(&self, worst: &Hold, &[_, _, _, mass, friction, share, further, _]: &[f64; 8], all: f64) -> Vec<Step> {
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
        if self.stance == Stance::SeatedBraced {
            steps.push(Step {
                what: "Push of the feet, for the minutes of a descent".into(),
                formula: "B = s · 350 lbf · m/80 kg − μ W, not below 0",
                given: vec![Given::exact("s", share, Kind::Ratio), Given::exact("m", mass, Kind::Mass)],
                result: force("B", worst.push),
                source: TRIALS,
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

    fn scene(&self, worst: &Hold, still: Band) -> Scene {
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
        let last = body_at[0] - 1.1 * f64::from(self.holders - 1);
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
                    Way::Dragged | Way::BeyondModel => "dragged",
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
                arrow(body_at, held, Role::Load, "rope"),
                arrow(weight_at, [0.0, -worst.weight], Role::Load, "weight"),
                arrow(hanging, [0.0, -load], Role::Load, "hanging still"),
            ],
            polygon: vec![
                arrow(weight_at, [0.0, -worst.weight], Role::Load, "weight"),
                arrow(body_at, held, Role::Load, "rope"),
                arrow(weight_at, ground, Role::OnAnchor, "ground holds"),
            ],
            angles: vec![Arc { at: body_at, from: rope, to: 0.0, name: "rope below level" }],
            lengths: vec![Dimension { from: [-to_lip, feet - 0.15], to: [0.0, feet - 0.15], name: "to the lip" }],
        }
    }
}

const CAUTIONS: [Caution; 5] = [
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

const NOT_IN: [&str; 6] = [
    "a side slope, or a rope that pulls to one side",
    "slack between the people in line",
    "wet hands that slip on the rope, and the release",
    "fatigue beyond the share of strength assumed",
    "water that pushes on those who hold",
    "people who are not ready when the pull comes",
];

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn flat() -> HumanAnchor {
        HumanAnchor {
            holders: 1,
            floor_falls: Ratio::new::<ratio>(0.0),
            above_lip: Length::new::<metre>(0.0),
            ..HumanAnchor::default()
        }
    }

    #[test]
    fn seated_on_the_flat_a_level_rope_drags_at_friction_times_weight() {
        let hold = flat().hold(&[75.0, 10.0, 4.0, 80.0, 0.35, 0.0, 0.0, 0.0]).unwrap();
        assert_relative_eq!(hold.force, 0.35 * 80.0 * 9.80665, max_relative = 1e-12);
        assert_eq!(hold.way, Way::Dragged);
    }

    #[test]
    fn standing_with_feet_together_a_person_topples_first() {
        let standing = HumanAnchor { stance: Stance::FeetTogether, ..flat() };
        let hold = standing.hold(&[75.0, 10.0, 4.0, 80.0, 0.35, 0.0, 0.0, 0.0]).unwrap();
        // Row P3 of the check values.
        assert_relative_eq!(hold.force, 94.1, max_relative = 5e-3);
        assert_eq!(hold.way, Way::Topples);
    }

    #[test]
    fn the_push_of_the_feet_is_what_the_trial_leaves() {
        let braced = HumanAnchor { stance: Stance::SeatedBraced, ..flat() };
        // Row P4 of the check values.
        let hold = |share| braced.hold(&[75.0, 10.0, 4.0, 80.0, 0.35, share, 0.0, 0.0]).unwrap().push;
        assert_relative_eq!(hold(0.5), 503.0, max_relative = 1e-2);
        assert_relative_eq!(hold(1.0), 1282.0, max_relative = 1e-2);
    }

    #[test]
    fn people_are_never_below_a_limit() {
        let many = HumanAnchor {
            holders: 6,
            stance: Stance::SeatedBraced,
            seat: Seat::SolesDryRock,
            floor_falls: Ratio::new::<ratio>(-0.5),
            ..flat()
        };
        for comparison in many.solve().unwrap().comparisons {
            assert_ne!(comparison.standing, Standing::BelowLimit);
        }
    }
}
