//! What is told of the legs: remarks, working, cautions.

use super::super::answer::{Caution, Gravity};
use super::super::people::State;
use super::rigged::{Case, NAMES, Point, There};
use super::slack::Slack;
use super::{AnchorLegs, Knots, Rig, called};
use crate::quantity::{Kind, decimal};
use crate::working::{Formula, Given, Source, Step};

/// Names in a row: "the left anchor and anchor 3".
fn listed(numbers: &[usize]) -> String {
    let names: Vec<String> = numbers.iter().filter_map(|number| NAMES.get(*number)).map(|name| called(name)).collect();
    match names.as_slice() {
        [names @ .., last] if !names.is_empty() => format!("{} and {last}", names.join(", ")),
        names => names.join(""),
    }
}

impl AnchorLegs {
    pub(super) fn remarks(&self, case: &Case, slack: &Slack) -> Vec<String> {
        let mut remarks = Vec::new();
        let count = self.count();
        if count > 2 {
            remarks.push(
                "More than two legs of fixed length never share evenly: millimetres of length decide. Count on one pair; a four-leg sling under about 700 kgf was measured to carry 348, 303, 23 and 18 kgf (published, one load cell in each leg). Of three legs or more an anchor may get more than is found here: over 2 % in one of 200 trials, up to 20 %."
                    .to_owned(),
            );
        }
        let level = self.out.value == 0.0 && self.right_higher.value == 0.0 && !self.is_deep();
        if let (true, Rig::Fixed, [left, right]) = (level, self.rig, case.anchors.as_slice()) {
            remarks.push(format!(
                "Formula for the hand, legs of equal length: anchors apart ÷ length of a leg = {}. At 1.0 the included angle is 60°, at 1.4 90°, at 1.7 120°.",
                decimal((right - left).norm() / (case.point - left).norm(), 1)
            ));
        }
        match self.rig {
            Rig::Fixed => {
                remarks.push("A leg of fixed length carries the same force as its anchor, and pulls it along itself.".to_owned());
                self.tell_slack(slack, &mut remarks);
            }
            Rig::SelfEqualising if self.knots == Knots::Limiter => remarks.push(
                "The ring shares only until it meets a knot; a load that swings farther is held as by legs of fixed length.".to_owned(),
            ),
            Rig::SelfEqualising => remarks.push(
                "Without limiter knots the whole sling runs through if one anchor fails, and the one leg left is as long as both were.".to_owned(),
            ),
            Rig::Triangle => remarks
                .push("The strand between the anchors pulls each of them inward, sideways to the load.".to_owned()),
        }
        if self.is_deep() {
            for (on, name) in case.on.iter().zip(NAMES).filter(|(on, _)| on.norm() > 0.0) {
                let out = (-on.y / on.norm()).clamp(-1.0, 1.0).asin().to_degrees();
                let way = if out < 0.0 { "in toward the rock" } else { "out from the rock" };
                remarks.push(format!("In the case drawn {} is pulled {}° {way}.", called(name), decimal(out.abs(), 0)));
            }
        }
        remarks
    }

    fn tell_slack(&self, slack: &Slack, remarks: &mut Vec<String>) {
        if !slack.within.is_empty() {
            remarks.push(format!(
                "Within the ranges and the swing entered {} of {} can hang slack: then the other{} the whole load.",
                if slack.within.len() == 1 { "the leg" } else { "each of the legs" },
                listed(&slack.within),
                if self.count() == 2 { " carries" } else { "s carry" }
            ));
        }
        let mut beyond = Vec::new();
        for (leg, swing) in &slack.beyond {
            let side = if *swing < 0.0 { "left" } else { "right" };
            let degrees = decimal(swing.abs().to_degrees().floor(), 0);
            beyond.push(format!("beyond {degrees}° to the {side} the leg of {}", listed(&[*leg])));
        }
        if !beyond.is_empty() {
            remarks.push(format!(
                "Slack, the load swinging from the fall line and the legs tied as meant: {}.",
                beyond.join(", ")
            ));
        }
    }

    pub(super) fn working(&self, point: &Point, case: &Case, there: There, worst: usize) -> Vec<Step> {
        let [body, kit, at, stiffness, ..] = *point;
        let size = case.load.norm();
        let [slack, rope] = self.slip();
        let (at, factor) = if self.state == State::Slip { (at / self.harder(), slack / rope) } else { (at, 0.0) };
        let mut hangs = self.people.load_step_on(self.state, body, kit, at, factor, size);
        if factor > 0.0 && self.harder() > 1.0 {
            hangs.source = Source::assumed(
                "0.5 m of slack, or all the rope there is, on the rope entered, EA 20 to 41 kN; energy of a linear spring",
            );
        }
        let mut steps = vec![self.people.step(body, kit), hangs];
        let load = Given::exact("F", size, Kind::Force);
        let angle = Given::exact("θ", case.included, Kind::Angle);
        steps.push(Step {
            what: "Where the master point comes to rest: least energy of stretched legs and load".into(),
            formula: "Σ EA (ℓ − L₀)² / (2 L₀) − F · x is least",
            given: vec![load.clone(), Given::exact("EA", stiffness, Kind::Force)],
            result: angle.clone(),
            source: Source::derived("equilibrium of elastic legs as drawn; forces balanced to one part in 10⁹"),
        });
        let tension = |number: usize| case.tensions.get(number).copied().unwrap_or_default();
        let other = (0..self.count()).find(|number| *number != worst && there.leg(*number)).unwrap_or(worst);
        let (near, far) = case.off_load(worst, other);
        let heavier = tension(worst);
        let (what, formula, given, source) = match (self.rig, self.knots) {
            (Rig::Triangle, _) | (Rig::SelfEqualising, Knots::None) => (
                "Tension of the part at the worst anchor; r, its share of the other's, from the friction of the ring",
                "T = F r / √(1 + r² + 2 r cos θ)",
                vec![load, angle, Given::exact("r", heavier / tension(other).max(f64::MIN_POSITIVE), Kind::Ratio)],
                Source::derived("capstan equation and triangle of forces"),
            ),
            // With a knot against the ring the two parts are legs of fixed length.
            _ => (
                "Tension of the leg that carries more; its angle from the load line is a, the other's b",
                if tension(other) > 0.0 {
                    "T = F sin b / sin(a + b)"
                } else {
                    "T = F, the other leg slack: both anchors lie on one side of the load line"
                },
                vec![load, Given::exact("a", near, Kind::Angle), Given::exact("b", far, Kind::Angle)],
                Source::published("triangle of forces; OpenStax College Physics, Newton's laws"),
            ),
        };
        steps.push(Step {
            what: what.to_owned(),
            formula,
            given,
            result: Given::exact("T", heavier, Kind::Force),
            source,
        });
        if let (Rig::Triangle, Some(at), Some(far), Some(on)) =
            (self.rig, case.anchors.get(worst), case.anchors.get(other), case.on.get(worst))
        {
            let between = (case.point - at).angle(&(far - at));
            steps.push(Step {
                what: "Force on the anchor; B is the tension between the anchors, at most that of the harder pulled part; γ the angle between the two strands".into(),
                formula: "√(T² + B² + 2 T B cos γ)",
                given: vec![
                    Given::exact("T", heavier, Kind::Force),
                    Given::exact("B", heavier.max(tension(other)), Kind::Force),
                    Given::exact("γ", between, Kind::Angle),
                ],
                result: Given::exact("on the anchor", on.norm(), Kind::Force),
                source: Source::derived("triangle of forces"),
            });
        }
        steps
    }
}

pub(super) const FORMULAS: [Formula; 6] = [
    Formula::new(
        "each anchor, each state, every place within the ranges: legs pull by their stretch, and where everything rests the energy is least",
        "T = EA (ℓ − L₀)/L₀, none where slack; Σ EA (ℓ − L₀)²/(2 L₀) − F · x is least",
        Source::derived("convex energy of elastic lines; forces balanced to one part in 10⁹"),
    ),
    Formula::new(
        "a ring about to slide, θ between its two parts; the strand between the anchors of a loop pulls as the harder of them",
        "T = F r / √(1 + r² + 2 r cos θ), r = e^(μ(π − θ))",
        Source::derived("capstan equation and triangle of forces"),
    ),
    Formula::new("included angle between two legs a and b", "cos θ = a · b / (|a| |b|)", Source::derived("definition")),
    Formula::new(
        "drop and swing of the master point if an anchor fails",
        "place at rest without it − place at rest with it",
        Source::derived("the same rest, one leg less"),
    ),
    Formula::new(
        "catch after it: e the drop, r what the rope gives under the weight W, k of legs and rope in a row, s = e − r",
        "F = W + √(W² + 2 W k s) for s ≥ 0, 2 W + k s for s < 0; at most W + √(W² + 2 W k e)",
        Source::derived("energy of two springs in a row; held to a time simulation"),
    ),
    Formula::new(
        "an anchor that fails in the middle of a slip, or of a jerk of p times the weight; f the slack of 0.5 m, e from the loose point, 3 m of rope, or less where it is shorter, and the legs left in a row",
        "F = W + √(W² + 2 W k (f + e)), or W + √((p − 1)² W² + 2 W k e), at most",
        Source::derived("energy of a fall through slack and drop, nothing lost to the leg that fails"),
    ),
];

/// In place of what is said of legs of fixed length.
const CLOSED_LOOP: Caution = Caution::new(
    Gravity::Danger,
    "A closed loop between two anchors",
    "Each anchor gets more than with two legs, 1.31 times the load against 0.71 at 90°, and one cut strand frees everything.",
    "Tie two legs instead.",
);

impl AnchorLegs {
    pub(super) fn cautions(&self) -> Vec<Caution> {
        let mut cautions = CAUTIONS.to_vec();
        if self.rig != Rig::Fixed {
            cautions.retain(|caution| caution.hazard != FIXED);
        }
        if self.rig == Rig::Triangle {
            cautions.insert(0, CLOSED_LOOP);
        }
        cautions
    }
}

const FIXED: &str = "Legs of fixed length and a load that moves sideways";

const CAUTIONS: [Caution; 4] = [
    Caution::new(
        Gravity::Danger,
        "An anchor that fails",
        "The others take the whole load at once, after a drop, and everyone on it falls.",
        "Look at and test each anchor by itself before anyone hangs; poor anchors do not add up to a good one.",
    ),
    Caution::new(
        Gravity::Warning,
        "A wide angle between the legs",
        "Beyond 120° each leg carries more than the whole load; near 180° far more.",
        "Lengthen the legs or bring the master point lower; keep the included angle under 60° where you can.",
    ),
    Caution::new(
        Gravity::Warning,
        FIXED,
        "One leg goes slack and a single anchor holds everything.",
        "Set the legs for the direction of the load at its worst moment, not for the moment of rigging.",
    ),
    Caution::OF_EVERY_NUMBER,
];

/// What is not counted: an anchor that fails in a slip or a jerk while these are not judged.
pub(super) fn not_in(state: State) -> Vec<&'static str> {
    let moving = match state {
        State::Slip => None,
        State::Jerky => Some("an anchor that fails in the middle of a slip: judge a slip for that"),
        State::Still | State::Descending => {
            Some("an anchor that fails in the middle of a slip or a jerk: judge one of these for that")
        }
    };
    NOT_IN.into_iter().chain(moving).collect()
}

const NOT_IN: [&str; 7] = [
    "the strength of the rock, the bolt or what holds it",
    "the swing of the person after an anchor fails, and rock in the way",
    "a second anchor that fails at the catch",
    "the snap of connectors at the master point that are thrown into the legs that are left",
    "a leg that yields, slips or breaks; knots that pull tight; wear and water in slings",
    "swing of the load out from the rock or in toward it",
    "friction of a closed loop on the anchors: the strand between them may carry less",
];
