//! How is the load shared between two anchor points?

mod case;
mod told;

use case::Case;
use told::{CAUTIONS, NOT_IN};

use super::Ask;
use super::against::{self, Against, asks_limit};
use super::answer::{Answer, Finding};
use super::field::{Field, choices, place, table};
use super::input::BadInput;
use super::people::{self, People, State, asks_people};
use super::scene::{Pull, from_plumb};
use crate::band::{Band, Spread};
use crate::law::OutOfDomain;
use crate::quantity::{Angle, Kind, Length, Ratio, degree, metre, ratio};
use crate::working::Source;

/// How the legs are tied.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Rig {
    /// Two legs of fixed length.
    #[default]
    Fixed,
    /// One sling that slides through the ring.
    SelfEqualising,
    /// One closed loop through both anchors and the ring.
    Triangle,
}
choices!(Rig {
    Fixed = "fixed", "two separate legs of fixed length";
    SelfEqualising = "self-equalising", "one self-equalising sling that slides through the ring";
    Triangle = "triangle", "one closed loop through both anchors (triangle rig)";
});

/// Two anchors, a master point below, people hanging from it.
#[derive(Debug, Clone, PartialEq)]
pub struct AnchorLegs {
    /// How the legs are tied.
    pub rig: Rig,
    /// Straight distance between the anchors.
    pub apart: Band<Length>,
    /// How far the master point hangs below the middle between the anchors.
    pub down: Band<Length>,
    /// How far it hangs to the right of that middle.
    pub out: Length,
    /// How much higher the right anchor is than the left one.
    pub right_higher: Length,
    /// How far the load may swing to the left, from the fall line.
    pub swing_left: Angle,
    /// How far the load may swing to the right, from the fall line.
    pub swing_right: Angle,
    /// Friction of the ring on a self-equalising sling.
    pub ring_friction: Band<Ratio>,
    /// Who hangs.
    pub people: People,
    /// What they are doing, for the number that is shown big.
    pub state: State,
    /// What the force on an anchor is compared with.
    pub against: Against,
}

impl Default for AnchorLegs {
    fn default() -> Self {
        let metres = |low, typical, high| Band::of(low, typical, high).map(Length::new::<metre>);
        AnchorLegs {
            rig: Rig::Fixed,
            apart: metres(0.75, 0.8, 0.85),
            down: metres(0.5, 0.55, 0.6),
            out: Length::new::<metre>(0.0),
            right_higher: Length::new::<metre>(0.1),
            swing_left: Angle::new::<degree>(5.0),
            swing_right: Angle::new::<degree>(15.0),
            ring_friction: Band::of(0.13, 0.18, 0.29).map(Ratio::new::<ratio>),
            people: People::default(),
            state: State::Slip,
            against: Against::default(),
        }
    }
}

asks_people!(AnchorLegs);
asks_limit!(AnchorLegs);

const INPUTS: [&str; 7] = [
    people::LABELS[0],
    people::LABELS[1],
    "what the person does",
    "distance apart",
    "distance down",
    "swing",
    "friction of the ring",
];

impl Ask for AnchorLegs {
    const NAME: &'static str = "anchor legs";
    const KEY: &'static str = "al";
    const WORDS: &'static str = "How is the load shared between the anchor points?";
    const ABOUT: &'static str = "Force on each of two anchors, from the angle between the legs";
    const EXAMPLE: &'static str =
        "Two bolts found in place at a stance, one a hand higher than the other; one person of the group hangs below.";

    fn fields() -> Vec<Field<Self>> {
        let mut fields = table![
            Field::choice('r', "rig", Rig::CHOICES, place!(rig)).says(
                "How the legs are tied",
                "a leg of fixed length can go slack; a sliding sling drops if one anchor fails",
            ),
            Field::range('a', "apart_m", Kind::Length, 0.05..=30.0, place!(apart)).says(
                "Apart: anchor to anchor",
                "straight from one anchor to the other; a range if you can only guess",
            ),
            Field::range('d', "down_m", Kind::Length, 0.05..=30.0, place!(down))
                .says("Down: master point below the anchors", "straight down from the middle between the anchors"),
            Field::one('x', "out_m", Kind::Length, -30.0..=30.0, place!(out))
                .says("Out: master point to the right", "from the middle between the anchors; negative to the left"),
            Field::one('h', "right_higher_m", Kind::Length, -20.0..=20.0, place!(right_higher))
                .says("Right anchor higher by", "negative if it is lower than the left one"),
            Field::one('s', "swing_left_rad", Kind::Angle, 0.0..=80_f64.to_radians(), place!(swing_left))
                .says("Load may swing left, from the fall line", "how far the loaded rope can move to the left"),
            Field::one('t', "swing_right_rad", Kind::Angle, 0.0..=80_f64.to_radians(), place!(swing_right))
                .says("Load may swing right, from the fall line", "how far the loaded rope can move to the right"),
            Field::range('f', "ring_friction", Kind::Ratio, 0.0..=1.0, place!(ring_friction))
                .says(
                    "Friction of the ring on the sling",
                    "a connector on tape or cord; holds the ring back from sharing evenly",
                )
                .from(Source::assumed("connector, 0.66 to 0.40 efficiency over 180°"))
                .asked_if(|legs: &AnchorLegs| legs.rig == Rig::SelfEqualising),
        ];
        fields.extend(people::fields());
        fields.push(
            Field::choice('j', "state", State::CHOICES, place!(state))
                .says("Judge the anchors on", "anchors are judged on a slip unless you say otherwise")
                .from(Source::practice("anchors are judged on the worst of the four states")),
        );
        fields.extend(against::fields());
        fields
    }

    fn solve(&self) -> Result<Answer, BadInput> {
        let shape = self.shape()?;
        let spreads = self.loaded(&shape, self.state)?;
        let [on_left, on_right, in_left, in_right, included] = &spreads;
        let worst = if on_left.band.high() >= on_right.band.high() { on_left } else { on_right };
        let case = self.case(&worst.at_high)?;

        // The state stands beside each force: one judged hanging still must not be taken for one of a slip.
        let judged = |place: &str| format!("{place}, {}", self.state.words());
        let anchor = |spread: &Spread<7>, place, pull: fn(&Case) -> Pull| -> Result<Finding, OutOfDomain> {
            let mut finding = Finding::load(judged(place), spread.band).moved_by(spread, &INPUTS);
            finding.pull = from_plumb(pull(&self.case(&spread.at_high)?));
            Ok(finding)
        };
        let left = anchor(on_left, "on the left anchor", |case| case.on_left)?;
        let right = anchor(on_right, "on the right anchor", |case| case.on_right)?;
        let mut findings =
            if on_left.band.high() >= on_right.band.high() { vec![left, right] } else { vec![right, left] };
        if self.rig == Rig::Triangle {
            let tension = if in_left.band.high() >= in_right.band.high() { in_left } else { in_right };
            findings.push(Finding::load(judged("in the loop"), tension.band).moved_by(tension, &INPUTS));
        }
        findings.push(
            Finding::load("included angle between the legs", included.band)
                .measured_as(Kind::Angle)
                .moved_by(included, &INPUTS),
        );

        let states = State::ALL
            .iter()
            .map(|state| {
                let [left, right, ..] = self.loaded(&shape, *state)?;
                let band = if left.band.high() >= right.band.high() { left.band } else { right.band };
                Ok(Finding::load(state.words(), band))
            })
            .collect::<Result<_, OutOfDomain>>()?;

        // Of a closed loop both the anchor and the sling are compared: the figure chosen may be of either.
        let forces = findings.iter().filter(|finding| finding.kind == Kind::Force);
        let compared = forces.clone().take(1).chain(forces.skip(2));
        let comparisons: Vec<_> =
            compared.map(|finding| self.against.compare(finding.what.clone(), finding.band)).collect();
        let mut working = self.working(&worst.at_high, &case);
        working.extend(comparisons.first().and_then(|compared| compared.limit.as_ref()).map(|limit| limit.step()));
        Ok(Answer {
            remarks: self.remarks(&case)?,
            scene: self.scene(&case, &worst.at_high),
            findings,
            states,
            comparisons,
            working,
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
            ..Answer::default()
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::scene::size;
    use super::*;
    use crate::law::two_legs;
    use crate::quantity::{Force, newton, radian};
    use approx::assert_relative_eq;

    fn plain(rig: Rig, apart: f64, down: f64) -> AnchorLegs {
        let metres = |value| Band::exact(Length::new::<metre>(value));
        AnchorLegs {
            rig,
            apart: metres(apart),
            down: metres(down),
            right_higher: Length::new::<metre>(0.0),
            swing_left: Angle::new::<degree>(0.0),
            swing_right: Angle::new::<degree>(0.0),
            ring_friction: Band::exact(Ratio::new::<ratio>(0.0)),
            ..AnchorLegs::default()
        }
    }

    fn point(apart: f64, down: f64) -> [f64; 7] {
        [75.0, 10.0, 1.0, apart, down, 0.0, 0.0]
    }

    #[test]
    fn all_three_rigs_agree_with_the_textbook_formulas() {
        for (apart, down) in [(1.0, 0.5), (0.4, 1.2), (2.0, 0.3)] {
            let included = 2.0 * f64::atan2(apart / 2.0, down);
            let fixed = plain(Rig::Fixed, apart, down).case(&point(apart, down)).unwrap();
            let load = Force::new::<newton>(size(fixed.load));
            let angle = Angle::new::<radian>(included);
            let leg = two_legs::equal(load, angle).unwrap().value;
            assert_relative_eq!(size(fixed.on_left), leg, max_relative = 1e-12);
            let sliding = plain(Rig::SelfEqualising, apart, down).case(&point(apart, down)).unwrap();
            assert_relative_eq!(size(sliding.on_right), leg, max_relative = 1e-9);
            let closed = plain(Rig::Triangle, apart, down).case(&point(apart, down)).unwrap();
            let at_anchor = crate::law::triangle::anchor_force(load, angle).unwrap().value;
            assert_relative_eq!(size(closed.on_left), at_anchor, max_relative = 1e-9);
        }
    }

    #[test]
    fn seen_in_a_mirror_the_anchors_change_places() {
        for rig in [Rig::Fixed, Rig::SelfEqualising, Rig::Triangle] {
            let legs = AnchorLegs { rig, ..AnchorLegs::default() };
            let mirrored = AnchorLegs {
                rig,
                out: -legs.out,
                right_higher: -legs.right_higher,
                swing_left: legs.swing_right,
                swing_right: legs.swing_left,
                ..AnchorLegs::default()
            };
            let seen = legs.shape().unwrap();
            let turned = mirrored.shape().unwrap();
            assert_relative_eq!(seen[0].band.high(), turned[1].band.high(), max_relative = 1e-6);
            assert_relative_eq!(seen[1].band.low(), turned[0].band.low(), max_relative = 1e-2);
        }
    }

    #[test]
    fn the_state_stands_beside_the_force_and_a_loop_is_compared_too() {
        let still = AnchorLegs { rig: Rig::Triangle, state: State::Still, ..AnchorLegs::default() };
        let answer = still.solve().unwrap();
        for compared in &answer.comparisons {
            assert!(compared.what.ends_with(", hanging still"), "{}", compared.what);
        }
        let places: Vec<_> = answer.comparisons.iter().map(|compared| compared.what.split(',').next()).collect();
        assert!(places.contains(&Some("in the loop")) && places.len() == 2, "{places:?}");
        assert_eq!(AnchorLegs::default().solve().unwrap().comparisons.len(), 1);
    }

    #[test]
    fn a_load_that_swings_past_a_leg_hangs_on_one_anchor() {
        let legs = plain(Rig::Fixed, 0.6, 1.0);
        assert!((legs.slack_beyond().unwrap().0 - 0.3_f64.atan()).abs() < 1e-12);
        let mut swung = point(0.6, 1.0);
        swung[5] = 0.5;
        let case = legs.case(&swung).unwrap();
        assert_eq!(case.tension_right, 0.0);
        assert_relative_eq!(size(case.on_left), size(case.load), max_relative = 1e-12);
    }

    #[test]
    fn anchors_one_above_the_other_further_than_they_are_apart_are_refused() {
        let legs = AnchorLegs { right_higher: Length::new::<metre>(2.0), ..AnchorLegs::default() };
        assert!(legs.solve().unwrap_err().to_string().contains("height of one anchor above the other"));
    }
}
