//! Where a rope ends, how much to let out and what has to stay, against pieces of the rope added up one by one.

use crate::dice::Dice;
use approx::assert_relative_eq;
use rigging_core::question::{Answer, Question};
use serde_json::{Value, json};

/// What is rigged: everything of it certain.
#[derive(Clone, Copy)]
struct Rigged {
    set_back: f64,
    knots: f64,
    rope: f64,
    diameter: f64,
    wanted: f64,
    strands: f64,
}

/// One value of everything uncertain: height (m), mass of body and kit (kg), stiffness (N), shrinkage, water taken up.
#[derive(Clone, Copy)]
struct Case {
    height: f64,
    mass: [f64; 2],
    stiffness: f64,
    shrinkage: f64,
    water: f64,
}

/// Standard gravity, CGPM 1901.
const GRAVITY: f64 = 9.806_65;
/// Pieces of what hangs over the lip; the pull grows evenly along each, so that its middle stands for all of it.
const PIECES: u32 = 50;

impl Rigged {
    /// Weight of the people on one strand, N.
    fn load(&self, case: &Case) -> f64 {
        GRAVITY * (case.mass[0] + case.mass[1]) / self.strands
    }

    /// The reach of so much rope as declared (m) under a load (N) at its end, and the part of it that is stretch. What
    /// is longer than the way down lies there without a pull.
    fn reach(&self, declared: f64, load: f64, case: &Case) -> [f64; 2] {
        let shrunk = declared * (1.0 - case.shrinkage);
        let hangs = f64::min(shrunk, self.set_back + case.height) - self.set_back;
        // Declared masses of kernmantel rope, 41 g for each metre at 8 mm to 78 at 11: 0.6456 g times the square of the
        // diameter. A shrunk metre is as heavy as the longer one that it was.
        let dry = 0.645_6e-3 * (1e3 * self.diameter).powi(2);
        let weight = GRAVITY * dry * (1.0 + case.water) / (1.0 - case.shrinkage) * hangs / f64::from(PIECES);
        let stretched = |length: f64, pull: f64| length * pull / case.stiffness;
        let mut stretch = 0.0;
        for piece in 0..PIECES {
            stretch += stretched(hangs / f64::from(PIECES), load + weight * (f64::from(piece) + 0.5));
        }
        stretch += stretched(self.set_back, load + weight * f64::from(PIECES));
        [shrunk + stretch, stretch]
    }

    /// Height of its end above the bottom, m.
    fn end(&self, declared: f64, load: f64, case: &Case) -> f64 {
        self.set_back + case.height - self.reach(declared, load, case)[0]
    }

    /// Declared length whose end is where it is wanted, by halving, m.
    fn needed(&self, case: &Case) -> f64 {
        let load = self.load(case);
        let (mut short, mut long) = (self.set_back / (1.0 - case.shrinkage), 400.0);
        for _ in 0..60 {
            let middle = f64::midpoint(short, long);
            if self.end(middle, load, case) > self.wanted { short = middle } else { long = middle }
        }
        short
    }

    /// Declared length that lets a person down from the lip to step off: to the lip, down, what comes back of the
    /// stretch when the rope gets free, and a metre in hand.
    fn reserve(&self, case: &Case) -> f64 {
        let way = (self.set_back + case.height) / (1.0 - case.shrinkage);
        (self.set_back + case.height + self.reach(way, self.load(case), case)[1] + 1.0) / (1.0 - case.shrinkage)
    }
}

/// A finding, counted the other way where it is told so.
fn found(answer: &Answer, what: &str, turned: &str) -> [f64; 2] {
    let mut findings = answer.findings.iter();
    let finding = findings.find(|finding| finding.what.contains(what));
    let finding = finding.unwrap_or_else(|| panic!("no {what} among {:?}", answer.findings));
    let [low, high] = [finding.band.low(), finding.band.high()];
    if finding.what.starts_with(turned) { [-high, -low] } else { [low, high] }
}

fn near([low, high]: [f64; 2], [lowest, highest]: [f64; 2], what: &str, asked: &Value) {
    assert!(
        (low - lowest).abs() < 1e-9 && (high - highest).abs() < 1e-9,
        "{what}: {low} {high}, not {lowest} {highest}: {asked}"
    );
}

#[test]
fn any_rope_ends_where_its_pieces_add_up_to() {
    let mut dice = Dice::new(20_261_128);
    let (mut above, mut below) = (0, 0);
    for number in 0..120 {
        let wet = dice.chance(0.5);
        let (way, strands) = [("releasable", 1.0), ("fixed", 1.0), ("doubled", 2.0)][number % 3];
        let mut pair = |low: f64, high: f64| {
            let one = dice.between(low, high);
            [one, dice.between(one, high)]
        };
        let heights = pair(4.0, 40.0);
        let (body, kit) = (pair(35.0, 110.0), pair(0.0, 25.0));
        let stiffness = pair(8e3, 6e4);
        let shrinkage = if wet { pair(0.0, 0.12) } else { [0.0; 2] };
        // UIAA: a rope without treatment takes up 50 % of its mass in 15 minutes, 58 % after four hours.
        let water = if wet { [0.5, 0.58] } else { [0.0; 2] };
        let rigged = Rigged {
            set_back: dice.between(0.0, 6.0),
            knots: dice.between(0.0, 2.0),
            rope: dice.between(110.0, 200.0),
            diameter: dice.between(0.008, 0.011),
            wanted: dice.between(-3.0, 2.0),
            strands,
        };
        let let_out = dice.between(rigged.set_back / 0.88 + 1.0, 50.0);
        let strand = if way == "releasable" { let_out } else { (rigged.rope - rigged.knots) / 2.0 };
        let band = |[low, high]: [f64; 2]| json!([low, f64::midpoint(low, high), high]);
        let moving = dice.chance(0.3);
        let bottom = if moving { "swim in moving water" } else { "stand" };
        let asked = json!({
            "question": "rope", "rigged": way, "bottom": bottom, "height_m": band(heights),
            "set_back_m": rigged.set_back, "rope_m": rigged.rope, "second_m": 0, "let_out_m": let_out,
            "end_above_m": rigged.wanted, "knots_m": rigged.knots, "diameter_m": rigged.diameter,
            "stretch_by": "stiffness", "stiffness_n": band(stiffness), "people": 1, "body_kg": band(body),
            "kit_kg": band(kit), "suit_water_kg": 0, "water": if wet { "wet, untreated" } else { "dry" },
            "shrinkage": band(shrinkage),
        });
        let question: Question = serde_json::from_value(asked.clone()).unwrap();
        let answer = question.answer().unwrap_or_else(|error| panic!("{error}: {asked}"));

        // Every corner of what is uncertain, and one place inside.
        let mut cases = vec![];
        for corner in 0..65_usize {
            let mut place = 0;
            let mut at = |[low, high]: [f64; 2]| {
                place += 1;
                match (corner, corner >> (place - 1) & 1) {
                    (64, _) => dice.between(low, high),
                    (_, 0) => low,
                    _ => high,
                }
            };
            let mass = [at(body), at(kit)];
            cases.push(Case {
                height: at(heights),
                mass,
                stiffness: at(stiffness),
                shrinkage: at(shrinkage),
                water: at(water),
            });
        }
        let range = |of: &dyn Fn(&Case) -> f64| {
            let values = cases.iter().map(of);
            values.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], value| [low.min(value), high.max(value)])
        };
        let ends = range(&|case| rigged.end(strand, rigged.load(case), case));
        above += u32::from(ends[1] > 0.0);
        below += u32::from(ends[0] < 0.0);
        near(found(&answer, "someone hanging at it", "below"), ends, "the end", &asked);
        near(found(&answer, "unloaded", "below"), range(&|case| rigged.end(strand, 0.0, case)), "unloaded", &asked);
        let needed = if way == "releasable" { "to let out" } else { "for each strand" };
        near(found(&answer, needed, "-"), range(&|case| rigged.needed(case)), needed, &asked);
        // From the ring to a hand at the bottom and a metre in it, of a strand that bears nobody any more: shrunk, but
        // not stretched.
        let hand = |case: &Case| (rigged.set_back + case.height + 1.0) / (1.0 - case.shrinkage);
        let total = |case: &Case| {
            let needed = rigged.needed(case);
            rigged.knots
                + match (way, moving) {
                    ("releasable", _) => needed + rigged.reserve(case),
                    // There a strand long enough to pull would hold whoever hangs on it.
                    (_, true) => 2.0 * needed,
                    (_, false) => 2.0 * f64::max(needed, hand(case)),
                }
        };
        near(found(&answer, "of rope needed", "-"), range(&total), "in all", &asked);
        if way == "releasable" {
            let spare = range(&|case| rigged.rope - rigged.knots - let_out - rigged.reserve(case));
            near(found(&answer, "at the station, as declared", "missing"), spare, "at the station", &asked);
        } else {
            let spare = range(&|case| strand - hand(case));
            near(
                found(&answer, "strand or cord to pull", "of the strand or cord to pull missing"),
                spare,
                "to pull",
                &asked,
            );
        }
        let carried = found(&answer, "to carry, dry", "-")[1];
        assert_relative_eq!(carried, rigged.rope * 0.645_6e-3 * (1e3 * rigged.diameter).powi(2), max_relative = 1e-12);
    }
    assert!(above > 20 && below > 20, "{above} end above the bottom, {below} below");
}
