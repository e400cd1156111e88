//! Will people hold it, for as long as it takes?

mod case;
mod told;

use case::Way;
use told::{CAUTIONS, FORMULAS, NOT_IN};

use super::Ask;
use super::against::Against;
use super::answer::{Answer, ChosenLimit, Comparison, Finding};
use super::carried::{Carried, HeldBy};
use super::edge::Edge;
use super::field::{Field, choices, place, table};
use super::input::BadInput;
use super::people::{self, People, State, asks_people};
use super::scene::Pose;
use crate::band::{Band, Spread, sweep};
use crate::law::OutOfDomain;
use crate::limit::Standing;
use crate::quantity::{Kind, Length, Mass, Ratio, kilogram, metre, ratio};
use crate::working::Source;

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

    /// Rope force an average person held for several seconds in the stance trials, lbf.
    fn trial(self) -> f64 {
        match self {
            Stance::SeatedBraced => 350.0,
            Stance::Seated => 350.0 / 2.0,
            Stance::FootForward => 200.0,
            Stance::FeetTogether => 200.0 / 2.0,
        }
    }

    fn is_seated(self) -> bool {
        self.pose() == Pose::Seated
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
    /// Whether someone in this stance can be on it: a wet suit is sat on, soles are stood on.
    fn fits(self, stance: Stance) -> bool {
        match self {
            Seat::CleanWetRock | Seat::SlipperyRock => stance.is_seated(),
            Seat::SolesWetRock | Seat::SolesDryRock => !stance.is_seated(),
            Seat::Gravel | Seat::Mud => true,
        }
    }

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

asks_people!(HumanAnchor);

const INPUTS: [&str; 8] = [
    people::LABELS[0],
    people::LABELS[1],
    "how hard the slip is",
    "mass of those who hold",
    "friction of the seat",
    "strength over the minutes",
    "what each further person adds",
    "friction of the edge",
];

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
        let mut fields = table![
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
                "Floor falls toward the drop, as a share of the way forward",
                "0.10: a tenth of the distance; negative if it rises toward the drop",
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

    fn solve(&self) -> Result<Answer, BadInput> {
        if !self.seat.fits(self.stance) {
            let must = "that of a wet suit, gravel or mud if seated, of soles, gravel or mud if standing";
            return Err(OutOfDomain {
                what: "friction of what they are on",
                value: self.seat.friction().0.typical(),
                must,
            }
            .into());
        }
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
                let inputs = [body, kit, state.uncertain().0];
                let [spread] =
                    sweep(inputs, |&[body, kit, at]| Ok([self.people.load_of_all(*state, body, kit, at)?]))?;
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
                source: match (worst.way, self.stance) {
                    (Way::Tires, _) | (_, Stance::SeatedBraced) => TRIALS,
                    (Way::Dragged, _) => Source::derived("the weight of those who hold and their friction, assumed"),
                    (Way::Topples | Way::Lifted, _) => Source::derived("the weight and the assumed stance"),
                },
            }),
            standing: Standing::of(load, all.band).of_unknown_part("people hold: no limit holds for a person"),
        };
        let carried = Carried::by_rope(slip.band, self.people.count, HeldBy::People);
        Ok(Answer {
            usual: carried.compare(&Against::default()),
            carried: Some(carried),
            remarks: self.remarks(&worst, ratio_still.band.low(), ratio_slip.band.low()),
            scene: self.scene(&worst, still.band),
            working: self.working(&worst, &all.at_low, all.band.low()),
            comparisons: vec![
                compare("pulled by the person who slips", slip.band),
                compare("pulled by the person who hangs still", still.band),
            ],
            findings,
            states,
            formulas: [FORMULAS.as_slice(), &people::FORMULAS].concat(),
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
            ..Answer::default()
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::limit::Standing;
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
        let hold = flat().hold(&[75.0, 10.0, 4.0, 80.0, 0.35, 1.0, 0.0, 0.0]).unwrap();
        assert_relative_eq!(hold.force, 0.35 * 80.0 * 9.80665, max_relative = 1e-12);
        assert_eq!(hold.way, Way::Dragged);
    }

    #[test]
    fn standing_with_feet_together_a_person_topples_first() {
        let standing = HumanAnchor { stance: Stance::FeetTogether, ..flat() };
        let hold = standing.hold(&[75.0, 10.0, 4.0, 80.0, 0.35, 1.0, 0.0, 0.0]).unwrap();
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
    fn nobody_holds_more_than_people_held_in_the_trials_however_the_rope_runs() {
        for stance in [Stance::SeatedBraced, Stance::Seated, Stance::FootForward, Stance::FeetTogether] {
            for above in [0.0, 0.5, 1.0, 1.2, 2.0, 5.0] {
                let holder = HumanAnchor {
                    stance,
                    seat: Seat::Gravel,
                    above_lip: Length::new::<metre>(above),
                    to_lip: Length::new::<metre>(1.0),
                    ..flat()
                };
                let [_, alone, ..] = holder.spread().unwrap();
                // Half of 350 or 200 lbf for minutes, at the mass of the heaviest, 95 kg.
                assert!(alone.band.high() <= 0.5 * stance.trial() * 4.449 * 95.0 / 80.0, "{stance:?} {above}");
            }
        }
    }

    #[test]
    fn a_floor_steeper_than_its_friction_holds_nobody() {
        let steep = HumanAnchor { floor_falls: Ratio::new::<ratio>(0.6), ..flat() };
        let answer = steep.solve().unwrap();
        assert_eq!(answer.findings[0].band.low(), 0.0);
        assert!(answer.remarks[0].contains("without any rope"), "{:?}", answer.remarks);
    }

    #[test]
    fn soles_are_stood_on_and_a_wet_suit_is_sat_on() {
        let seated = HumanAnchor { seat: Seat::SolesDryRock, ..flat() };
        assert!(seated.solve().unwrap_err().to_string().contains("friction of what they are on"));
        let standing = HumanAnchor { stance: Stance::FootForward, ..seated };
        assert!(standing.solve().is_ok());
    }

    #[test]
    fn people_are_never_below_a_limit() {
        let many = HumanAnchor {
            holders: 6,
            stance: Stance::SeatedBraced,
            seat: Seat::Gravel,
            floor_falls: Ratio::new::<ratio>(-0.5),
            ..flat()
        };
        for comparison in many.solve().unwrap().comparisons {
            assert_ne!(comparison.standing, Standing::BelowLimit);
        }
    }

    #[test]
    fn no_figure_of_a_bolt_is_set_beside_people() {
        let answer = HumanAnchor::default().solve().unwrap();
        assert_eq!(answer.usual.len(), 7);
        assert!(answer.usual.iter().all(|row| row.limit.as_ref().is_some_and(|limit| !limit.part.contains("rock"))));
    }
}
