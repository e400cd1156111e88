//! How is the load shared between two anchor points?

use super::Ask;
use super::against::{self, Against, HasLimit};
use super::answer::{Answer, Caution, Finding, Gravity};
use super::field::{Field, choices, place};
use super::people::{self, HasPeople, People, State};
use super::scene::{Arc, Arrow, Dimension, Person, Place, Pose, Pull, Role, Scene, Strand, from_plumb, size};
use crate::band::{Band, Spread, sweep};
use crate::law::{OutOfDomain, sling, two_legs};
use crate::quantity::{Angle, Force, Kind, Length, Ratio, decimal, degree, metre, newton, radian, ratio};
use crate::working::{Given, Source, Step};

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

impl HasPeople for AnchorLegs {
    fn people(&self) -> &People {
        &self.people
    }
    fn people_mut(&mut self) -> &mut People {
        &mut self.people
    }
}

impl HasLimit for AnchorLegs {
    fn against(&self) -> &Against {
        &self.against
    }
    fn against_mut(&mut self) -> &mut Against {
        &mut self.against
    }
}

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
        let mut fields = vec![
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
            Field::one('s', "swing_left_rad", Kind::Angle, 0.0..=1.4, place!(swing_left))
                .says("Load may swing left, from the fall line", "how far the loaded rope can move to the left"),
            Field::one('t', "swing_right_rad", Kind::Angle, 0.0..=1.4, place!(swing_right))
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

    fn solve(&self) -> Result<Answer, OutOfDomain> {
        let (factor, _) = self.state.factor();
        let spreads = self.spread(factor)?;
        let [on_left, on_right, in_left, in_right, included] = &spreads;
        let worst = if on_left.band.high() >= on_right.band.high() { on_left } else { on_right };
        let case = self.case(&worst.at_high)?;

        let anchor = |spread: &Spread<7>, what, pull: fn(&Case) -> Pull| -> Result<Finding, OutOfDomain> {
            let mut finding = Finding::load(what, spread.band).moved_by(spread, &INPUTS);
            finding.pull = from_plumb(pull(&self.case(&spread.at_high)?));
            Ok(finding)
        };
        let left = anchor(on_left, "on the left anchor", |case| case.on_left)?;
        let right = anchor(on_right, "on the right anchor", |case| case.on_right)?;
        let mut findings =
            if on_left.band.high() >= on_right.band.high() { vec![left, right] } else { vec![right, left] };
        if self.rig == Rig::Triangle {
            let tension = if in_left.band.high() >= in_right.band.high() { in_left } else { in_right };
            findings.push(Finding::load("in the loop", tension.band).moved_by(tension, &INPUTS));
        }
        findings.push(
            Finding::load("included angle between the legs", included.band)
                .measured_as(Kind::Angle)
                .moved_by(included, &INPUTS),
        );

        let states = State::ALL
            .iter()
            .map(|state| {
                let [left, right, ..] = self.spread(state.factor().0)?;
                let band = if left.band.high() >= right.band.high() { left.band } else { right.band };
                Ok(Finding::load(state.words(), band))
            })
            .collect::<Result<_, OutOfDomain>>()?;

        let comparison = self.against.compare(findings.first().map_or("", |finding| &finding.what), worst.band);
        let mut working = self.working(&worst.at_high, &case);
        working.extend(comparison.limit.as_ref().map(|limit| limit.step()));
        Ok(Answer {
            remarks: self.remarks(&case),
            scene: self.scene(&case, &worst.at_high),
            findings,
            states,
            comparisons: vec![comparison],
            working,
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
        })
    }
}

/// One solved case: where things are and what pulls.
struct Case {
    left: Place,
    right: Place,
    point: Place,
    load: Pull,
    tension_left: f64,
    tension_right: f64,
    on_left: Pull,
    on_right: Pull,
    included: f64,
    /// Angles of the legs from the load line, left and right (fixed legs).
    from_load: (f64, f64),
}

fn toward(from: Place, to: Place) -> (Pull, f64) {
    let ([x, y], [u, v]) = (from, to);
    let (dx, dy) = (u - x, v - y);
    let length = dx.hypot(dy);
    ([dx / length, dy / length], length)
}

fn times(force: f64, [x, y]: Pull) -> Pull {
    [force * x, force * y]
}

fn plus([x, y]: Pull, [u, v]: Pull) -> Pull {
    [x + u, y + v]
}

impl AnchorLegs {
    fn spread(&self, factor: Band) -> Result<[Spread<7>; 5], OutOfDomain> {
        let [body, kit] = self.people.inputs();
        let swing = Band::of(-self.swing_left.value, 0.0, self.swing_right.value);
        let friction = if self.rig == Rig::SelfEqualising {
            // Either side may be the one that friction loads more.
            let most = self.ring_friction.high().value;
            Band::of(-most, 0.0, most)
        } else {
            Band::exact(0.0)
        };
        let lengths = |band: Band<Length>| band.map(|length| length.value);
        let inputs = [body, kit, factor, lengths(self.apart), lengths(self.down), swing, friction];
        sweep(inputs, |point| {
            let case = self.case(point)?;
            Ok([size(case.on_left), size(case.on_right), case.tension_left, case.tension_right, case.included])
        })
    }

    /// The rig at one point of the ranges: body, kit, factor, apart, down, swing, signed friction.
    fn case(&self, &[body, kit, factor, apart, down, swing, friction]: &[f64; 7]) -> Result<Case, OutOfDomain> {
        let weight = factor * self.people.weight_of_all(body, kit);
        let higher = self.right_higher.value;
        let across = ((apart - higher) * (apart + higher)).sqrt();
        if across.is_nan() || across <= 0.0 {
            let must = "less than the anchors are apart";
            return Err(OutOfDomain { what: "height of one anchor above the other", value: higher.abs(), must });
        }
        let (left, right) = ([-across / 2.0, -higher / 2.0], [across / 2.0, higher / 2.0]);
        let hung = [self.out.value, -down];
        let (sine, cosine) = swing.sin_cos();
        let direction = [sine, -cosine];
        let load = times(weight, direction);
        let (down_left, length_left) = toward(left, hung);
        let (down_right, length_right) = toward(right, hung);
        let force = Force::new::<newton>(weight);

        if self.rig == Rig::Fixed {
            let lean_left = down_left[0].atan2(-down_left[1]);
            let lean_right = (-down_right[0]).atan2(-down_right[1]);
            let (a, b) = (lean_left - swing, lean_right + swing);
            let legs = two_legs::tensions(force, Angle::new::<radian>(a), Angle::new::<radian>(b))?;
            let (tension_left, tension_right) = (legs.a.value, legs.b.value);
            // With one leg slack the other swings in line with the load.
            let point = if tension_right == 0.0 && tension_left > 0.0 {
                plus(left, times(length_left, direction))
            } else if tension_left == 0.0 && tension_right > 0.0 {
                plus(right, times(length_right, direction))
            } else {
                hung
            };
            let (on_left, on_right) = (toward(left, point).0, toward(right, point).0);
            return Ok(Case {
                left,
                right,
                point,
                load,
                tension_left,
                tension_right,
                on_left: times(tension_left, on_left),
                on_right: times(tension_right, on_right),
                included: a + b,
                from_load: (a, b),
            });
        }

        let (chord, _) = toward(left, right);
        let square = [chord[1], -chord[0]];
        let dot = |[x, y]: Pull, [u, v]: Pull| x * u + y * v;
        let pull = dot(direction, square).atan2(dot(direction, chord));
        let both = Length::new::<metre>(length_left + length_right);
        let held = sling::ring_held_back(
            Length::new::<metre>(apart),
            both,
            Angle::new::<radian>(pull),
            force,
            Ratio::new::<ratio>(friction),
        )?;
        let point = plus(times(held.ring.along.value, chord), times(held.ring.across.value, square));
        let (down_left, down_right) = (toward(left, point).0, toward(right, point).0);
        let (tension_left, tension_right) = (held.first.value, held.second.value);
        let mut on_left = times(tension_left, down_left);
        let mut on_right = times(tension_right, down_right);
        if self.rig == Rig::Triangle {
            on_left = plus(on_left, times(tension_left, chord));
            on_right = plus(on_right, times(tension_right, times(-1.0, chord)));
        }
        Ok(Case {
            left,
            right,
            point,
            load,
            tension_left,
            tension_right,
            on_left,
            on_right,
            included: held.ring.included_angle.value,
            from_load: (0.0, 0.0),
        })
    }

    fn remarks(&self, case: &Case) -> Vec<String> {
        let mut remarks = Vec::new();
        let apart_to_leg = {
            let (_, left) = toward(case.left, case.point);
            let (_, right) = toward(case.right, case.point);
            toward(case.left, case.right).1 / ((left + right) / 2.0)
        };
        remarks.push(format!(
            "Rule for the hand: anchors apart ÷ length of a leg = {}. At 1.0 the included angle is 60°, at 1.4 90°, at 1.7 120°.",
            decimal(apart_to_leg, 1)
        ));
        if self.rig == Rig::Fixed {
            if case.tension_left == 0.0 || case.tension_right == 0.0 {
                remarks.push(
                    "At this end of the range one leg hangs slack: a single anchor carries the whole load.".to_owned(),
                );
            } else {
                let (a, b) = case.from_load;
                let (side, most) = if a < b { ("left", a) } else { ("right", b) };
                let other = if side == "left" { "right" } else { "left" };
                remarks.push(format!(
                    "A swing of another {}° to the {other} would leave the {other} leg slack and the {side} anchor alone.",
                    decimal(most.to_degrees(), 0)
                ));
            }
        }
        if self.rig == Rig::SelfEqualising {
            remarks.push(
                "If one anchor fails the whole sling runs through: the load drops by up to the length of a leg."
                    .to_owned(),
            );
        }
        if self.rig == Rig::Triangle {
            remarks.push("The strand between the anchors pulls each of them inward, sideways to the load.".to_owned());
        }
        remarks
    }

    fn working(&self, &[body, kit, factor, ..]: &[f64; 7], case: &Case) -> Vec<Step> {
        let load = size(case.load);
        let (_, source) = self.state.factor();
        let mut steps = vec![
            self.people.step(body, kit),
            Step {
                what: format!("Load with {}", self.state.words()),
                formula: "F = factor · W",
                given: vec![
                    Given::exact("factor", factor, Kind::Ratio),
                    Given::exact("W", self.people.weight_of_all(body, kit), Kind::Force),
                ],
                result: Given::exact("F", load, Kind::Force),
                source,
            },
        ];
        let angle = Given::exact("θ", case.included, Kind::Angle);
        let load = Given::exact("F", load, Kind::Force);
        let heavier = case.tension_left.max(case.tension_right);
        let (what, formula, given, source) = match self.rig {
            Rig::Fixed => {
                let (a, b) = case.from_load;
                let (near, far) = if case.tension_left >= case.tension_right { (a, b) } else { (b, a) };
                (
                    "Tension of the leg that carries more; its angle from the load line is a, the other's b",
                    if a < 0.0 || b < 0.0 {
                        "T = F, the other leg slack: both anchors lie on one side of the load line"
                    } else {
                        "T = F sin b / sin(a + b)"
                    },
                    vec![load, Given::exact("a", near, Kind::Angle), Given::exact("b", far, Kind::Angle)],
                    Source::published("triangle of forces; OpenStax College Physics, Newton's laws"),
                )
            }
            Rig::SelfEqualising => (
                "Tension of the part that carries more; r from the friction of the ring",
                "T = F r / √(1 + r² + 2 r cos θ)",
                vec![load, angle, Given::exact("r", heavier / case.tension_left.min(case.tension_right), Kind::Ratio)],
                Source::derived("capstan equation and triangle of forces"),
            ),
            Rig::Triangle => (
                "Tension of the loop; friction not counted",
                "T = F / (2 cos(θ/2))",
                vec![load, angle],
                Source::published("Spellman & Whiting, Mathematics and Statistics for the Environment, example 11.3"),
            ),
        };
        steps.push(Step {
            what: what.to_owned(),
            formula,
            given,
            result: Given::exact("T", heavier, Kind::Force),
            source,
        });
        if self.rig == Rig::Triangle {
            let worst = if size(case.on_left) >= size(case.on_right) {
                (case.left, case.right)
            } else {
                (case.right, case.left)
            };
            let (strand, other) = (toward(worst.0, case.point).0, toward(worst.0, worst.1).0);
            let between = (strand[0] * other[0] + strand[1] * other[1]).clamp(-1.0, 1.0).acos();
            steps.push(Step {
                what: "Force on the anchor; γ is the angle between its two strands".into(),
                formula: "2 T cos(γ/2)",
                given: vec![Given::exact("T", heavier, Kind::Force), Given::exact("γ", between, Kind::Angle)],
                result: Given::exact("on the anchor", size(case.on_left).max(size(case.on_right)), Kind::Force),
                source: Source::derived("sum of two equal forces"),
            });
        }
        steps
    }

    fn scene(&self, case: &Case, &[_, _, factor, .., swing, _]: &[f64; 7]) -> Scene {
        let strand = |from, to, tension| Strand { from, to, tension };
        let mut lines =
            vec![strand(case.left, case.point, case.tension_left), strand(case.right, case.point, case.tension_right)];
        if self.rig == Rig::Triangle {
            lines.push(strand(case.left, case.right, case.tension_left));
        }
        let (direction, reach) = (times(1.0 / size(case.load), case.load), toward(case.left, case.right).1 * 0.9);
        let person = plus(case.point, times(reach, direction));
        lines.push(strand(case.point, person, size(case.load)));
        let up = |anchor: Place| {
            let [x, y] = toward(case.point, anchor).0;
            y.atan2(x)
        };
        let middle = times(0.5, plus(case.left, case.right));
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };
        let [wide_left, wide_right] = [case.left[0] - reach, case.right[0] + reach];
        Scene {
            case: format!(
                "Drawn: the case of the big number, {} × the weight of the heaviest with most kit, swung {}° {}.",
                trimmed(factor),
                decimal(swing.abs().to_degrees(), 0),
                if swing < 0.0 { "left" } else { "right" }
            ),
            rock: vec![vec![[wide_right, case.right[1]], case.right, case.left, [wide_left, case.left[1]]]],
            anchors: vec![case.left, case.right],
            lines,
            people: vec![Person { at: person, pose: Pose::Hanging }],
            forces: vec![
                arrow(case.point, case.load, Role::Load, "load"),
                arrow(case.left, case.on_left, Role::OnAnchor, "left anchor"),
                arrow(case.right, case.on_right, Role::OnAnchor, "right anchor"),
            ],
            polygon: vec![
                arrow(case.point, case.load, Role::Load, "load"),
                arrow(case.left, times(-1.0, case.on_left), Role::OnAnchor, "left holds"),
                arrow(case.right, times(-1.0, case.on_right), Role::OnAnchor, "right holds"),
            ],
            angles: vec![Arc { at: case.point, from: up(case.right), to: up(case.left), name: "included angle" }],
            lengths: vec![
                Dimension { from: case.left, to: case.right, name: "apart" },
                Dimension { from: middle, to: [middle[0], case.point[1]], name: "down" },
            ],
        }
    }
}

fn trimmed(number: f64) -> String {
    decimal(number, 1).trim_end_matches(".0").to_owned()
}

const CAUTIONS: [Caution; 4] = [
    Caution::new(
        Gravity::Danger,
        "An anchor that fails",
        "The other takes the whole load at once, after a drop, and everyone on it falls.",
        "Look at and test each anchor by itself before anyone hangs; two poor anchors are not one good one.",
    ),
    Caution::new(
        Gravity::Warning,
        "A wide angle between the legs",
        "Beyond 120° each leg carries more than the whole load; near 180° far more.",
        "Lengthen the legs or bring the master point lower; keep the included angle under 60° where you can.",
    ),
    Caution::new(
        Gravity::Warning,
        "Legs of fixed length and a load that moves sideways",
        "One leg goes slack and a single anchor holds everything.",
        "Set the legs for the direction of the load at its worst moment, not for the moment of rigging.",
    ),
    Caution::new(
        Gravity::Caution,
        "A number from a page",
        "It knows nothing of rust, rock, wear, or a bolt you cannot see into.",
        "Let qualified instruction, local rules and your own eyes decide.",
    ),
];

const NOT_IN: [&str; 6] = [
    "the strength of the rock, the bolt or what holds it",
    "what happens when one anchor fails: drop, swing and the catch",
    "stretch of the legs, and that a leg tied a little short carries more",
    "knots, wear and water in slings and rope",
    "pull out of the plane of the picture",
    "friction of a closed loop at its bends",
];

#[cfg(test)]
mod tests {
    use super::*;
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
            let seen = legs.spread(Band::exact(1.0)).unwrap();
            let turned = mirrored.spread(Band::exact(1.0)).unwrap();
            assert_relative_eq!(seen[0].band.high(), turned[1].band.high(), max_relative = 1e-9);
            assert_relative_eq!(seen[1].band.low(), turned[0].band.low(), max_relative = 1e-9);
        }
    }

    #[test]
    fn a_load_that_swings_past_a_leg_hangs_on_one_anchor() {
        let legs = plain(Rig::Fixed, 0.6, 1.0);
        let mut swung = point(0.6, 1.0);
        swung[5] = 0.5;
        let case = legs.case(&swung).unwrap();
        assert_eq!(case.tension_right, 0.0);
        assert_relative_eq!(size(case.on_left), size(case.load), max_relative = 1e-12);
    }

    #[test]
    fn anchors_one_above_the_other_further_than_they_are_apart_are_refused() {
        let legs = AnchorLegs { right_higher: Length::new::<metre>(2.0), ..AnchorLegs::default() };
        assert_eq!(legs.solve().unwrap_err().what, "height of one anchor above the other");
    }
}
