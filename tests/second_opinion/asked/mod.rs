//! Whole questions, from their fields to their findings, against ways to the numbers that share nothing with them but
//! the types to ask and to read.

mod anchor_legs;
mod bend;
mod deviation;
mod guided_abseil;

mod human_anchor;
mod linear;
mod pull_down;
mod raise_lower;
mod slip;
mod weakest_part;

use crate::dice::Dice;
use rigging_core::question::{Answer, Finding, Question};
use serde_json::{Value, json};

/// Standard gravity, CGPM 1901.
const GRAVITY: f64 = 9.806_65;

/// Low, typical and high.
type Ends = [f64; 3];

fn question(asked: &Value) -> Question {
    serde_json::from_value(asked.clone()).unwrap_or_else(|error| panic!("{error}: {asked}"))
}

fn answer(asked: &Value) -> Answer {
    question(asked).answer().unwrap_or_else(|error| panic!("{error}: {asked}"))
}

fn ends(finding: &Finding) -> Ends {
    [finding.band.low(), finding.band.typical(), finding.band.high()]
}

/// The one finding whose words begin so.
fn found(answer: &Answer, what: &str, asked: &Value) -> Ends {
    let mut all = answer.findings.iter().filter(|finding| finding.what.starts_with(what));
    let one = all.next().unwrap_or_else(|| panic!("no {what} in {:?}: {asked}", answer.findings));
    assert!(all.next().is_none(), "two of {what}: {asked}");
    ends(one)
}

/// Two numbers alike but for a share, and a share of 1 below that.
fn same(found: f64, expected: f64, share: f64, what: &str, asked: &Value) {
    let apart = (found - expected).abs();
    assert!(apart <= share * expected.abs().max(1.0), "{what}: {found}, not {expected}: {asked}");
}

fn all_same(found: Ends, expected: Ends, share: f64, what: &str, asked: &Value) {
    for (found, expected) in found.into_iter().zip(expected) {
        same(found, expected, share, what, asked);
    }
}

fn one_of<'a>(dice: &mut Dice, names: &[&'a str]) -> &'a str {
    names[dice.between(0.0, names.len() as f64) as usize]
}

fn three(dice: &mut Dice, low: f64, high: f64) -> Ends {
    let mut three = [0.0; 3].map(|_| dice.between(low, high));
    three.sort_by(f64::total_cmp);
    three
}

/// The least and the most of a number of values.
fn reach(values: impl IntoIterator<Item = f64>) -> [f64; 2] {
    let wider = |[low, high]: [f64; 2], value| [f64::min(low, value), f64::max(high, value)];
    values.into_iter().fold([f64::INFINITY, f64::NEG_INFINITY], wider)
}

/// Where a condition that holds at `yes` and not at `no` ends, by halving.
fn last_that(holds: impl Fn(f64) -> bool, mut yes: f64, mut no: f64) -> f64 {
    for _ in 0..60 {
        let middle = f64::midpoint(yes, no);
        *(if holds(middle) { &mut yes } else { &mut no }) = middle;
    }
    yes
}

/// Friction of a rope on what it bends over: low, typical, high.
///
/// Assumed around Delaney, *Physics for Roping Technicians*, 2020; told dry but for polished rock, which is told wet.
/// Wet the others are 0.7 to 1.3 of it, for sources disagree whether water helps. Pulleys: efficiency over half a turn,
/// teaching texts.
fn friction(over: &str, wet: bool) -> Ends {
    let of_pulley = |efficiencies: Ends| efficiencies.map(|efficiency: f64| -efficiency.ln() / std::f64::consts::PI);
    let dry = match over {
        "free" => return [0.0; 3],
        "ball bearing" => return of_pulley([0.95, 0.90, 0.86]),
        "plain bush" => return of_pulley([0.80, 0.75, 0.70]),
        "polished rock" => return [0.15, 0.25, 0.40],
        "rough rock" => [0.30, 0.45, 0.75],
        "roller" => [0.05, 0.10, 0.20],
        "timber" => [0.20, 0.36, 0.50],
        "connector" => [0.13, 0.18, 0.29],
        "ring" => [0.19, 0.24, 0.30],
        other => panic!("friction of {other}"),
    };
    if wet { [0.7 * dry[0], dry[1], 1.3 * dry[2]] } else { dry }
}

const OVER: [&str; 8] =
    ["ring", "connector", "ball bearing", "plain bush", "polished rock", "rough rock", "roller", "timber"];

/// Whether it hangs on an anchor; rock, a roller or timber are what holds them.
fn has_anchor(over: &str) -> bool {
    ["ring", "connector", "ball bearing", "plain bush"].contains(&over)
}

/// People who hang: how many, body and kit of each, water in each suit, kg.
#[derive(Clone, Copy)]
struct Crowd {
    count: u32,
    body: Ends,
    kit: Ends,
    water: f64,
}

impl Crowd {
    fn random(dice: &mut Dice) -> Self {
        Crowd {
            count: dice.between(1.0, 4.0) as u32,
            body: three(dice, 35.0, 120.0),
            kit: three(dice, 0.0, 30.0),
            water: dice.between(0.0, 8.0),
        }
    }

    fn write(&self, asked: &mut Value) {
        asked["people"] = json!(self.count);
        asked["body_kg"] = json!(self.body);
        asked["kit_kg"] = json!(self.kit);
        asked["suit_water_kg"] = json!(self.water);
    }

    /// Weight of one of them, N.
    fn each(&self) -> Ends {
        [0, 1, 2].map(|end| (self.body[end] + self.kit[end] + self.water) * GRAVITY)
    }

    /// Weight of all, N.
    fn weight(&self) -> Ends {
        self.each().map(|weight| f64::from(self.count) * weight)
    }

    /// What all pull in a state, N.
    ///
    /// Steadily down up to 1.5 times the weight (HSE CRR 364/2001; typical 1.2: caving federation 2014), in jerks 2.0
    /// to 3.2 (the same two; 2.5 assumed). A slip: 0.5 m of slack on 3 m of used canyon rope of 20, 30, 41 kN (assumed).
    fn load(&self, state: &str) -> Ends {
        let times = match state {
            "still" => [1.0; 3],
            "descending" => [1.0, 1.2, 1.5],
            "jerky" => [2.0, 2.5, 3.2],
            "slip" => return self.slip([20e3, 30e3, 41e3]),
            other => panic!("state {other}"),
        };
        [0, 1, 2].map(|end| times[end] * self.weight()[end])
    }

    /// A slip of all of them on rope of a stiffness, N.
    fn slip(&self, stiffness: Ends) -> Ends {
        [0, 1, 2].map(|end| f64::from(self.count) * caught(self.each()[end], 0.5, stiffness[end] / 3.0))
    }
}

/// Pull of a spring (N/m) that has taken up all the work of a weight (N) let fall so far (m) onto it.
fn caught(weight: f64, falls: f64, spring: f64) -> f64 {
    let sinks = |stretch: f64| weight * (falls + stretch) > spring * stretch * stretch / 2.0;
    let mut far = weight / spring;
    while sinks(far) {
        far *= 2.0;
    }
    spring * last_that(sinks, weight / spring, far)
}

const STATES: [&str; 4] = ["still", "descending", "jerky", "slip"];

fn words(state: &str) -> &'static str {
    match state {
        "still" => "hanging still",
        "descending" => "descending steadily",
        "jerky" => "descending in jerks",
        _ => "a slip onto slack rope",
    }
}

/// Every choice of the lower or the higher of so many things.
fn corners(count: usize) -> impl Iterator<Item = Vec<bool>> {
    (0..1_usize << count).map(move |number| (0..count).map(|bit| number >> bit & 1 == 1).collect())
}

/// A direction in the plane, turned to the left by an angle.
fn turned([x, y]: [f64; 2], angle: f64) -> [f64; 2] {
    let (sine, cosine) = angle.sin_cos();
    [x * cosine - y * sine, x * sine + y * cosine]
}

/// The direction so far from plumb, to the right above 0.
fn from_plumb(angle: f64) -> [f64; 2] {
    [angle.sin(), -angle.cos()]
}

fn dot([x, y]: [f64; 2], [u, v]: [f64; 2]) -> f64 {
    x * u + y * v
}

fn cross([x, y]: [f64; 2], [u, v]: [f64; 2]) -> f64 {
    x * v - y * u
}
