//! The weakest part, by trying every part that is there with the figures as they are printed.

use super::{Crowd, Ends, STATES, all_same, ends, found, one_of, question, reach, three};
use crate::dice::Dice;
use rigging_core::limit::Standing;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::f64::consts::FRAC_PI_2;

/// What is known of a part.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Known {
    /// N.
    Holds(Ends),
    /// Nobody knows.
    No,
    /// Not as the trade rigs it.
    Refused,
}
use Known::{Holds, No, Refused};

/// Metal: straight; with its gate open; across; kN. EN 12275:2013; EN 12278 (memory); EN 15151-2; EN 567; EN 12277.
const METAL: [(&str, [Option<f64>; 3]); 11] = [
    ("connector", [Some(20.0), Some(7.0), Some(7.0)]),
    // What locks by itself has no figure with its gate open.
    ("connector locking", [Some(20.0), None, Some(7.0)]),
    ("connector H", [Some(20.0), Some(6.0), Some(7.0)]),
    ("connector K", [Some(25.0), Some(8.0), Some(7.0)]),
    ("connector A", [Some(20.0), Some(7.0), None]),
    ("connector X", [Some(18.0), Some(5.0), Some(7.0)]),
    ("screw link", [Some(25.0), None, Some(10.0)]),
    ("pulley", [Some(12.0), None, None]),
    ("descender", [Some(7.0), None, None]),
    ("rope clamp", [Some(4.0), None, None]),
    ("harness", [Some(15.0), None, None]),
];

/// Rope, cord, tape and slings: material, form, kN. EN 566; EN 565:2017; MIL-W-5625K 4000 lbf; EN 564 0.2 d²; EN 1891.
const SOFT: [(&str, &str, &str, f64); 13] = [
    ("sling nylon", "nylon", "sling", 22.0),
    ("sling HMPE", "hmpe", "sling", 22.0),
    ("tape", "nylon", "tape", 10.0),
    ("tubular 1", "nylon", "tape", 17.792_886_461_042),
    ("cord 4 mm", "nylon", "cord", 3.2),
    ("cord 5 mm", "nylon", "cord", 5.0),
    ("cord 6 mm", "nylon", "cord", 7.2),
    ("cord 7 mm", "nylon", "cord", 9.8),
    ("cord 8 mm", "nylon", "cord", 12.8),
    ("rope A nylon", "nylon", "rope", 22.0),
    ("rope A polyester", "polyester", "rope", 22.0),
    ("rope B nylon", "nylon", "rope", 18.0),
    ("rope B polyester", "polyester", "rope", 18.0),
];

const UNKNOWN: [&str; 7] = ["bolt found", "natural", "people", "unseen", "ring found", "rope dynamic", "soft found"];

/// What knots keep of rope and cord, in hundredths: pull tests; the middle between two ends is assumed.
const CORDAGE_KNOTS: [(&str, Ends); 10] = [
    ("figure-eight", [66.0, 73.0, 80.0]),
    ("figure-nine", [68.0, 76.0, 84.0]),
    ("bowline", [55.0, 65.0, 75.0]),
    ("overhand", [58.0, 63.0, 68.0]),
    ("barrel", [60.0, 61.8, 77.0]),
    ("butterfly", [61.0, 68.0, 75.0]),
    ("double fisherman", [65.0, 67.5, 70.0]),
    ("clove", [60.0, 62.5, 65.0]),
    ("round turn", [60.0, 67.5, 75.0]),
    ("tensionless", [100.0; 3]),
];
/// What they keep of slings: nylon, one figure each and 10 below it (assumed); HMPE.
const SLING_KNOTS: [(&str, Ends, Ends); 4] = [
    ("none", [100.0; 3], [100.0; 3]),
    ("girth sling", [69.0, 79.0, 79.0], [45.0, 55.0, 65.0]),
    ("girth pin", [57.0, 67.0, 67.0], [74.0, 81.0, 88.0]),
    ("overhand sling", [54.0, 64.0, 64.0], [46.0, 51.5, 57.0]),
];
const KNOTS: [&str; 18] = [
    "none",
    "figure-eight",
    "figure-nine",
    "bowline",
    "overhand",
    "barrel",
    "butterfly",
    "double fisherman",
    "water",
    "clove",
    "round turn",
    "girth sling",
    "girth pin",
    "overhand sling",
    "tensionless",
    "munter",
    "offset overhand",
    "offset eight",
];

fn knot(knot: &str, material: &str, form: &str) -> Known {
    let share = |percent: Ends| Holds(percent.map(|percent| percent / 100.0));
    // A munter is friction, an offset figure-eight capsizes, a water knot slips in HMPE.
    match (knot, material) {
        ("munter" | "offset eight", _) | ("water", "hmpe") => return Refused,
        _ => {}
    }
    if form == "sling" {
        let kept = SLING_KNOTS.iter().find(|(name, ..)| *name == knot);
        return kept.map_or(No, |(_, nylon, hmpe)| share(if material == "hmpe" { *hmpe } else { *nylon }));
    }
    if knot == "water" {
        return if form == "tape" { share([60.0, 65.0, 70.0]) } else { No };
    }
    let kept = CORDAGE_KNOTS.iter().find(|(name, _)| *name == knot && form != "tape");
    kept.map_or(No, |(_, kept)| share(*kept))
}

const CONDITIONS: [&str; 10] = [
    "new",
    "wet nylon",
    "wet polyester",
    "worn rope",
    "used polyester rope",
    "outdoors 6 months",
    "outdoors 36 months",
    "found",
    "frozen",
    "worn wet rope",
];

/// What is left of what was measured on such a part: UFC 4-159-03; a 10 mm rope after 400 abseils; used canyon rope, 10
/// below it assumed; nylon webbing outdoors.
fn condition(condition: &str, material: &str, form: &str) -> Known {
    let nylon_rope = (material, form) == ("nylon", "rope");
    let webbing = material == "nylon" && (form == "tape" || form == "sling");
    let (measured, kept) = match condition {
        "new" => (true, [1.0; 3]),
        "found" | "frozen" => return No,
        "wet nylon" => (material == "nylon", [0.75, 0.85, 0.95]),
        "wet polyester" => (material == "polyester", [1.0; 3]),
        "worn rope" => (nylon_rope, [0.55, 0.69, 0.88]),
        "worn wet rope" => (nylon_rope, [0.55 * 0.75, 0.69 * 0.85, 0.88 * 0.95]),
        "used polyester rope" => ((material, form) == ("polyester", "rope"), [0.57, 0.67, 0.67]),
        "outdoors 6 months" => (webbing, [0.70, 0.75, 0.80]),
        "outdoors 36 months" => (webbing, [0.40, 0.45, 0.50]),
        other => panic!("condition {other}"),
    };
    if measured { Holds(kept) } else { Refused }
}

const LOADINGS: [&str; 9] =
    ["straight", "two strands", "choked", "basket 60", "basket 90", "basket 120", "edge", "gate open", "across"];

/// ASME B30.9 (memory): at most 0.8 choked, the least girth hitch measured 0.45; a basket 2 cos of half its angle.
fn loading(loading: &str, form: &str) -> Known {
    match (loading, form) {
        // The figure of a sewn sling is that of its loop; a connector's ways are no rope's.
        ("two strands", "sling") | ("gate open" | "across", _) => Refused,
        ("straight", _) => Holds([1.0; 3]),
        ("two strands", _) => Holds([2.0; 3]),
        ("choked", _) => Holds([0.45, 0.75, 0.8]),
        ("basket 60", _) => Holds([1.732, 1.732, 2.0]),
        ("basket 90", _) => Holds([1.414, 1.414, 1.732]),
        ("basket 120", _) => Holds([1.0, 1.0, 1.414]),
        // No factor of an edge is known.
        _ => No,
    }
}

/// A part in its place, as it is entered.
struct Entered {
    part: &'static str,
    knot: &'static str,
    loaded: &'static str,
    condition: &'static str,
}

/// A bolt takes 15 kN straight out and 25 along the rock (EN 959:2018); both together fill a curve of power 5/3 (ACI
/// 318, memory). Looked at direction by direction.
fn bolt(pull: Ends) -> Ends {
    let holds = |angle: f64| {
        let reached =
            |force: f64| (force * angle.cos() / 15e3).powf(5.0 / 3.0) + (force * angle.sin() / 25e3).powf(5.0 / 3.0);
        super::last_that(|force| reached(force) < 1.0, 0.0, 1e5)
    };
    let places = (0..=400).map(|place| holds(pull[0] + (pull[2] - pull[0]) * f64::from(place) / 400.0));
    let [low, high] = reach(places);
    [low, holds(pull[1]), high]
}

impl Entered {
    fn random(dice: &mut Dice, there: f64) -> Self {
        let all: Vec<&str> = (METAL.iter().map(|(name, _)| *name))
            .chain(SOFT.iter().map(|(name, ..)| *name))
            .chain(UNKNOWN)
            .chain(["bolt", "stated", "cord other"])
            .collect();
        let part = match dice.chance(there) {
            false => "none",
            true if dice.chance(0.3) => one_of(dice, &SOFT.map(|(name, ..)| name)),
            true => one_of(dice, &all),
        };
        let mostly = |dice: &mut Dice, usual: &'static str, all: &[&'static str]| {
            if dice.chance(0.85) { usual } else { one_of(dice, all) }
        };
        let form = SOFT.iter().find(|(name, ..)| *name == part).map(|(_, _, form, _)| *form);
        let usual = match form {
            Some("rope" | "cord") => one_of(dice, &CORDAGE_KNOTS.map(|(name, _)| name)),
            Some("sling") => one_of(dice, &SLING_KNOTS.map(|(name, ..)| name)),
            Some(_) => "water",
            None => "none",
        };
        Entered {
            part,
            knot: mostly(dice, usual, &KNOTS),
            loaded: mostly(dice, "straight", &LOADINGS),
            condition: mostly(dice, "new", &CONDITIONS),
        }
    }

    fn known(&self, pull: Ends, stated: f64) -> Known {
        if UNKNOWN.contains(&self.part) {
            return No;
        }
        if let Some((_, material, form, figure)) = SOFT.iter().find(|(name, ..)| *name == self.part) {
            let shares = [
                knot(self.knot, material, form),
                loading(self.loaded, form),
                condition(self.condition, material, form),
            ];
            if shares.contains(&Refused) {
                return Refused;
            }
            let mut holds = [1e3 * figure; 3];
            for share in shares {
                let Holds(share) = share else { return No };
                holds = [0, 1, 2].map(|end| holds[end] * share[end]);
            }
            return Holds(holds);
        }
        // EN 564 speaks of 4 to 8 mm.
        if self.part == "cord other" {
            return Refused;
        }
        let connector = self.part.starts_with("connector") || self.part == "screw link";
        let figure = METAL.iter().find(|(name, _)| *name == self.part).map(|(_, figures)| {
            let way = match self.loaded {
                _ if !connector => Some(0),
                "straight" => Some(0),
                "gate open" => Some(1),
                "across" => Some(2),
                _ => None,
            };
            way.and_then(|way| figures[way])
        });
        if figure == Some(None) {
            return Refused;
        }
        // What was found or is frozen nobody knows; what was measured on soft parts says nothing of metal.
        match self.condition {
            "new" => {}
            "found" | "frozen" => return No,
            _ => return Refused,
        }
        // What is no connector and not soft has a figure for the way it is made to be loaded, and for no other.
        if !connector && self.loaded != "straight" {
            return No;
        }
        match self.part {
            "bolt" => Holds(bolt(pull)),
            "stated" => Holds([stated; 3]),
            _ => figure.flatten().map_or(No, |figure| Holds([1e3 * figure; 3])),
        }
    }
}

const PLACES: [(&str, &str); 8] = [
    ("anchor_1", "at one anchor (1)"),
    ("anchor_2", "at one anchor (2)"),
    ("anchor_3", "at one anchor (3)"),
    ("point_1", "at the master point (1)"),
    ("point_2", "at the master point (2)"),
    ("rope_1", "in the rope (1)"),
    ("rope_2", "in the rope (2)"),
    ("rope_3", "in the rope (3)"),
];

/// Factors that multiply any load: Cordage Institute 5 to 12; ASME B30.9 (memory); EN 1492.
const OF_ANY_LOAD: [(&str, f64); 4] =
    [("5 fibre rope", 5.0), ("12 fibre rope", 12.0), ("5 slings", 5.0), ("7 slings", 7.0)];
/// Ten times the weight that hangs still: practice.
const OF_WEIGHT: (&str, f64) = ("10 system", 10.0);
/// Rules for anchors, each with its own load: BS 7985, IRATA 2.5 on 6 kN; OSHA 1910.140(c)(13) 2 on 1,800 lbf.
const OF_ITS_OWN: [(&str, f64, f64); 2] = [("2.5 rope access", 2.5, 6000.0), ("2 designed", 2.0, 8_006.798_907_288_9)];

/// How a load stands against a limit, both ranges.
fn stands(load: Ends, limit: Ends) -> &'static str {
    if load[2] < limit[0] {
        "below limit"
    } else if load[0] > limit[2] {
        "above limit"
    } else {
        "range crosses limit"
    }
}

#[test]
fn the_weakest_part_has_the_least_of_the_printed_figures_over_its_load() {
    let mut dice = Dice::new(20_261_135);
    let (mut refused, mut told, mut unknown) = (0, 0, 0);
    let mut decided: BTreeMap<&str, u32> = BTreeMap::new();
    for _ in 0..1500 {
        let hung = dice.chance(0.5);
        let crowd = Crowd::random(&mut dice);
        let state = one_of(&mut dice, &STATES);
        let below = dice.chance(0.3);
        // What the strand that is held pulls, of the one with the load: Euler–Eytelwein over half a turn, a wet ring.
        let held = [-1.0, 0.0, 1.0].map(|way: f64| (way * 0.39 * std::f64::consts::PI).exp());
        let share = three(&mut dice, 0.3, 1.5);
        let small = dice.decades(0.03, 1.0);
        let taken = [(); 3].map(|()| three(&mut dice, 400.0 * small, 9000.0 * small));
        let pull = three(&mut dice, 0.0, FRAC_PI_2);
        let stated = dice.between(3e3, 3e4);
        let mut asked = json!({
            "question": "weakest part", "forces": if hung { "people" } else { "taken" }, "state": state,
            "meets": if below { "held below" } else { "ends" }, "share": share, "rope_n": taken[0], "point_n": taken[1],
            "anchor_n": taken[2], "pull_rad": pull, "stated_n": stated,
        });
        crowd.write(&mut asked);
        // The factor, and what it is a factor of.
        let kind = dice.between(0.0, if hung { 4.0 } else { 2.0 }) as u32;
        let (factor, rope) = match kind {
            0 => {
                let own = dice.between(1.0, 8.0);
                asked["whose_factor"] = json!("own");
                asked["design_factor"] = json!(own);
                (own, crowd.load(state))
            }
            1 => {
                let (name, factor) = OF_ANY_LOAD[dice.between(0.0, 4.0) as usize];
                asked["factor"] = json!(name);
                (factor, crowd.load(state))
            }
            2 => {
                asked["factor"] = json!(OF_WEIGHT.0);
                (OF_WEIGHT.1, crowd.load("still"))
            }
            _ => {
                let (name, factor, load) = OF_ITS_OWN[dice.between(0.0, 2.0) as usize];
                asked["factor"] = json!(name);
                (factor, [f64::from(crowd.count) * load; 3])
            }
        };
        let named = kind == 3;
        let [rope, point, anchor] = if hung {
            let point = if below { [0, 1, 2].map(|end| rope[end] * (1.0 + held[end])) } else { rope };
            // A rule for anchors counts all of its load on each.
            let share = share.map(|share| if named { f64::max(share, 1.0) } else { share });
            [rope, point, [0, 1, 2].map(|end| point[end] * share[end])]
        } else {
            taken
        };
        let mut known = vec![];
        let there = if dice.chance(0.5) { 0.2 } else { 0.8 };
        for (name, words) in PLACES {
            let mut entered = Entered::random(&mut dice, there);
            // Often enough something that holds in the rock.
            if name == "anchor_1" && dice.chance(0.3) {
                entered = Entered { part: "bolt", knot: "none", loaded: "straight", condition: "new" };
            }
            asked[name] = json!(entered.part);
            asked[format!("{name}_knot")] = json!(entered.knot);
            asked[format!("{name}_loaded")] = json!(entered.loaded);
            asked[format!("{name}_condition")] = json!(entered.condition);
            if entered.part == "none" {
                continue;
            }
            let load = if name.starts_with("anchor") {
                anchor
            } else if name.starts_with("point") {
                point
            } else if hung && entered.part == "harness" {
                rope.map(|rope| rope / f64::from(crowd.count))
            } else if hung && below {
                [0, 1, 2].map(|end| rope[end] * held[end].max(1.0))
            } else {
                rope
            };
            let soft = SOFT.iter().any(|(name, ..)| *name == entered.part);
            // Held from below each strand has all of the force: none is doubled.
            let several = entered.loaded == "two strands" || entered.loaded.starts_with("basket");
            let doubled = name.starts_with("rope") && soft && several && hung && below;
            // A bolt holds in the rock, a harness a person.
            let misplaced = entered.part == "bolt" && !name.starts_with("anchor")
                || entered.part == "harness" && !name.starts_with("rope");
            let holds = if doubled || misplaced { Refused } else { entered.known(pull, stated) };
            known.push((words, load, holds, entered.part == "stated"));
        }
        let several_stated = known.iter().filter(|(.., stated)| *stated).count() > 1;
        let answer = question(&asked).answer();
        if known.is_empty() || several_stated || known.iter().any(|(_, _, holds, _)| *holds == Refused) {
            assert!(answer.is_err(), "not refused: {asked}");
            refused += 1;
            continue;
        }
        let answer = answer.unwrap_or_else(|error| panic!("{error}: {asked}"));
        told += 1;

        let mut weakest: Option<(f64, &str, Ends, Ends)> = None;
        for (words, load, holds, _) in &known {
            let Holds(holds) = *holds else { continue };
            let margin = [holds[0] / load[2], holds[1] / load[1], holds[2] / load[0]];
            let what = format!("{words}: ");
            let of_part = |finding: &&rigging_core::question::Finding| {
                finding.what.starts_with(&what) && finding.what.ends_with("resistance ÷ load")
            };
            let finding = answer.findings.iter().find(of_part).unwrap_or_else(|| panic!("no {what}: {asked}"));
            all_same(ends(finding), margin, 1e-4, &what, &asked);
            if weakest.is_none_or(|(least, ..)| margin[0] < least) {
                weakest = Some((margin[0], words, holds, *load));
            }
        }
        match weakest {
            Some((_, words, holds, load)) => {
                let first = &answer.findings[0];
                assert!(
                    first.what.contains(&format!("known parts, {words}: ")),
                    "{}, not {words}: {asked}",
                    first.what
                );
                all_same(ends(first), holds, 1e-4, words, &asked);
                all_same(found(&answer, "on that part", &asked), load, 1e-9, "its load", &asked);
            }
            None => {
                unknown += 1;
                all_same(found(&answer, "in the rope", &asked), rope, 1e-9, "no part is known", &asked);
            }
        }
        check_standings(&answer.comparisons, &known, factor, named, &asked, &mut decided);
    }
    assert!(
        refused > 200 && told > 200 && unknown > 5,
        "{refused} refused, {told} told, {unknown} of unknown parts only"
    );
    assert!(decided.len() == 4 && decided.values().all(|times| *times > 10), "{decided:?}");
}

type Part = (&'static str, Ends, Known, bool);

/// Each part against its limit; of the whole, one that is above tells, then one that may be, then one nobody knows.
fn check_standings(
    comparisons: &[rigging_core::question::Comparison],
    known: &[Part],
    factor: f64,
    named: bool,
    asked: &Value,
    decided: &mut BTreeMap<&'static str, u32>,
) {
    let mut all = vec![];
    for (words, load, holds, _) in known {
        let of_part =
            |row: &&rigging_core::question::Comparison| row.what.starts_with(&format!("on the part {words}: "));
        let row = comparisons.iter().find(of_part).unwrap_or_else(|| panic!("no {words}: {asked}"));
        let expected = match holds {
            Holds(holds) => {
                let expected = stands(*load, holds.map(|holds| holds / factor));
                // A rule with a load of its own is one for anchors only, and says no more than it where people may pull
                // harder: that is not checked here.
                if named && (words.contains("in the rope") || expected == "below limit") {
                    continue;
                }
                // The other end of what is wrapped has a knot of its own.
                let wraps = row.limit.as_ref().is_some_and(|limit| limit.part.contains("tensionless"));
                if wraps && expected == "below limit" { "not checked" } else { expected }
            }
            // Of what nobody knows it can only be said that it would be too weak new: it is counted at best.
            _ => {
                assert_ne!(row.standing.words(), "below limit", "{}: {asked}", row.what);
                row.standing.words()
            }
        };
        assert_eq!(row.standing.words(), expected, "{}: {asked}", row.what);
        all.push(expected);
    }
    if named {
        return;
    }
    let worst = ["above limit", "range crosses limit", "not checked", "below limit"];
    let whole = worst.into_iter().find(|standing| all.contains(standing)).unwrap();
    let told = &comparisons[0].standing;
    // Below a limit is only a chain that is whole, from what holds in the rock to a rope, with what a rope held from below
    // runs through: asked in `worse_is_never_better`.
    let whole = if whole == "below limit" && matches!(told, Standing::NotChecked(_)) { "not checked" } else { whole };
    assert_eq!(told.words(), whole, "{told:?}: {asked}");
    assert_eq!(matches!(told, Standing::NotChecked(_)), whole == "not checked");
    *decided.entry(whole).or_insert(0) += 1;
}
