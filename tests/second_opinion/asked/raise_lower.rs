//! Hauls, as linear equations: the tension of every strand is an unknown, every bend and every body a row.

use super::linear::solve;
use super::{
    Crowd, Ends, OVER, STATES, corners, cross, dot, ends, found, friction, has_anchor, one_of, question, reach, same,
    turned,
};
use crate::dice::Dice;
use rigging_core::question::{Answer, BadInput};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::f64::consts::PI;

#[derive(Clone, Copy)]
struct Bend {
    moves: &'static str,
    over: &'static str,
    turn: f64,
}

struct Haul {
    end_at_load: bool,
    bends: Vec<Bend>,
    /// Where a second rope begins, and whether its end is at an anchor.
    second: Option<(usize, bool)>,
    wet: bool,
    shared: bool,
}

/// A bend on the strands before and after it, and how the rope comes and leaves.
struct Met {
    place: usize,
    strands: [usize; 2],
    ways: [[f64; 2]; 2],
    turn: f64,
}

/// The strands from the load's end to the hand, and what each body is pulled by.
struct Strands {
    count: usize,
    met: Vec<Met>,
    /// Strands that pull the load.
    on_load: Vec<usize>,
    /// A strand that is held by those beyond: by the rope that goes on or a rope tied to it, and by what travels.
    junctions: Vec<(usize, Vec<usize>)>,
    /// Strands that end at an anchor, with their way from it.
    anchored: Vec<(usize, [f64; 2])>,
}

impl Haul {
    /// The bends of one rope, put in their places; gives the way beyond the last.
    fn thread(
        &self,
        strands: &mut Strands,
        bends: std::ops::Range<usize>,
        mut way: [f64; 2],
        anchored: bool,
    ) -> [f64; 2] {
        let travels = |place: usize| bends.contains(&place) && self.bends[place].moves != "stays";
        let hauled = if anchored { way.map(|part| -part) } else { way };
        let first = bends.clone().find(|place| travels(*place));
        let clamps = !anchored && bends.clone().any(|place| self.bends[place].moves == "with clamp");
        // What travels with a clamp pulls the strand that the clamp grabs: the one that runs into the fixed bend before
        // the first that travels. Without one it pulls what the rope is to haul.
        let mut clamped_way = hauled;
        let mut last = strands.count - 1;
        let mut clamp: Option<usize> = None;
        for place in bends.clone() {
            let bend = self.bends[place];
            if clamps && first == Some(place + 1) {
                // The clamp parts the strand.
                strands.count += 1;
                strands.junctions.push((last, vec![strands.count - 1]));
                clamp = Some(strands.junctions.len() - 1);
                last = strands.count - 1;
                clamped_way = way;
            }
            let beyond = if travels(place) {
                way.map(|part| -part)
            } else if travels(place + 1) {
                let pulled = if self.bends[place + 1].moves == "with load" { hauled } else { clamped_way };
                pulled.map(|part| -part)
            } else {
                turned(way, -bend.turn)
            };
            let turn = if travels(place) {
                PI
            } else if travels(place + 1) {
                cross(way, beyond).abs().atan2(dot(way, beyond))
            } else {
                bend.turn.abs()
            };
            strands.count += 1;
            let next = strands.count - 1;
            strands.met.push(Met { place, strands: [last, next], ways: [way, beyond], turn });
            if travels(place) {
                let both = [last, next];
                match (bend.moves, clamp) {
                    ("with clamp", Some(clamp)) => strands.junctions[clamp].1.extend(both),
                    // On a second rope tied to an anchor it pulls the end of the first.
                    ("with clamp", None) if self.second.is_some_and(|(from, _)| place >= from) => {
                        strands.junctions.last_mut().unwrap().1.extend(both);
                    }
                    _ => strands.on_load.extend(both),
                }
            }
            (last, way) = (next, beyond);
        }
        way
    }

    fn strands(&self) -> Strands {
        let up = [0.0, 1.0];
        let mut strands = Strands { count: 1, met: vec![], on_load: vec![], junctions: vec![], anchored: vec![] };
        let split = self.second.map_or(self.bends.len(), |(from, _)| from);
        let start = if self.end_at_load { up } else { up.map(|part| -part) };
        if self.end_at_load {
            strands.on_load.push(0);
        } else {
            strands.anchored.push((0, start));
        }
        let mut way = self.thread(&mut strands, 0..split, start, !self.end_at_load);
        if let Some((from, anchored)) = self.second {
            let hauled = strands.count - 1;
            strands.count += 1;
            let begins = strands.count - 1;
            if anchored {
                way = way.map(|part| -part);
                strands.anchored.push((begins, way));
            }
            strands.junctions.push((hauled, if anchored { vec![] } else { vec![begins] }));
            self.thread(&mut strands, from..self.bends.len(), way, anchored);
        }
        strands
    }

    /// The tension of every strand for 1 N of the load, or in a jam of the hand; the load's pull stands last.
    fn tensions(&self, strands: &Strands, frictions: &[f64], jam: bool) -> Vec<f64> {
        let unknowns = strands.count + 1;
        let mut rows = vec![];
        let mut row = |parts: &[(usize, f64)], sum: f64| {
            let mut row = vec![0.0; unknowns + 1];
            for (place, share) in parts {
                row[*place] += share;
            }
            row[unknowns] = sum;
            rows.push(row);
        };
        for met in &strands.met {
            // The rope grows tighter toward the hand as it slides there, or less tight the other way.
            row(&[(met.strands[1], 1.0), (met.strands[0], -(frictions[met.place] * met.turn).exp())], 0.0);
        }
        for (held, by) in &strands.junctions {
            let pulls: Vec<_> = by.iter().map(|strand| (*strand, -1.0)).chain([(*held, 1.0)]).collect();
            row(&pulls, 0.0);
        }
        let on_load: Vec<_> =
            strands.on_load.iter().map(|strand| (*strand, -1.0)).chain([(strands.count, 1.0)]).collect();
        row(&on_load, 0.0);
        row(&[(if jam { strands.count - 1 } else { strands.count }, 1.0)], 1.0);
        solve(rows).unwrap_or_else(|| panic!("{} strands are not settled", strands.count))
    }

    fn frictions(&self, way: &str) -> Vec<Ends> {
        let of = |bend: &Bend| {
            let [low, typical, high] = friction(bend.over, self.wet);
            match way {
                "raising" => [low, typical, high],
                "rest" => [-high, 0.0, high],
                // Where everybody pulls nobody counts on friction.
                "jam" => [0.0, typical, high],
                "bare" => [0.0; 3],
                "edges bare" if !has_anchor(bend.over) => [0.0; 3],
                _ => [-high, -typical, -low],
            }
        };
        self.bends.iter().map(of).collect()
    }

    /// What holds the rope by the words of its findings, and the pull of each strand at it.
    fn holding(&self, strands: &Strands) -> BTreeMap<String, Vec<(usize, [f64; 2])>> {
        let mut holding: BTreeMap<String, Vec<(usize, [f64; 2])>> = BTreeMap::new();
        let mut add = |name: String, pulls: &[(usize, [f64; 2])]| holding.entry(name).or_default().extend(pulls);
        let one = || "on the one anchor point".to_owned();
        for (number, (strand, way)) in strands.anchored.iter().enumerate() {
            let first = number == 0 && !self.end_at_load;
            let own = if first { "on the anchor of the rope's end" } else { "on the anchor of the second rope's end" };
            add(if self.shared { one() } else { own.to_owned() }, &[(*strand, *way)]);
        }
        for met in strands.met.iter().filter(|met| self.bends[met.place].moves == "stays") {
            let number = met.place + 1;
            let name = match (has_anchor(self.bends[met.place].over), self.shared) {
                (false, _) => format!("on the edge at bend {number}"),
                (true, true) => one(),
                (true, false) => format!("on bend {number}"),
            };
            let [before, beyond] = met.ways;
            add(name, &[(met.strands[0], before.map(|part| -part)), (met.strands[1], beyond)]);
        }
        holding
    }

    /// For each way: the hand, the load, the strand that is pulled hardest and each holding point: least, typical, most.
    fn shapes(&self, strands: &Strands, holding: &BTreeMap<String, Vec<(usize, [f64; 2])>>, way: &str) -> Vec<Ends> {
        let frictions = self.frictions(way);
        let at = |frictions: &[f64]| -> Vec<f64> {
            let tensions = self.tensions(strands, frictions, way == "jam");
            let (load, ropes) = (tensions[strands.count], &tensions[..strands.count]);
            let mut all = vec![ropes[strands.count - 1], load, ropes.iter().copied().fold(0.0, f64::max)];
            for pulls in holding.values() {
                let sum =
                    [0, 1].map(|part| pulls.iter().map(|(strand, way)| tensions[*strand] * way[part]).sum::<f64>());
                all.push(dot(sum, sum).sqrt());
            }
            all
        };
        let usual: Vec<f64> = frictions.iter().map(|ends| ends[1]).collect();
        let usual = at(&usual);
        let open: Vec<usize> =
            (0..frictions.len()).filter(|place| frictions[*place][0] < frictions[*place][2]).collect();
        let mut values: Vec<Vec<f64>> = usual.iter().map(|value| vec![*value]).collect();
        for corner in corners(open.len()) {
            let mut point: Vec<f64> = frictions.iter().map(|ends| ends[1]).collect();
            for (place, high) in open.iter().zip(corner) {
                point[*place] = frictions[*place][if high { 2 } else { 0 }];
            }
            for (values, value) in values.iter_mut().zip(at(&point)) {
                values.push(value);
            }
        }
        let range = |values: &Vec<f64>| {
            let [low, high] = reach(values.iter().copied());
            [low, values[0], high]
        };
        values.iter().map(range).collect()
    }
}

fn random(dice: &mut Dice) -> Haul {
    let count = dice.between(0.0, 7.0) as usize;
    let end_at_load = dice.chance(0.6);
    let mut travels = end_at_load;
    let mut bends = vec![];
    for _ in 0..count {
        // Nothing travels right behind what travels.
        let may = !travels && dice.chance(0.6);
        travels = may;
        let moves = match may {
            true => one_of(dice, &["with load", "with clamp"]),
            false => "stays",
        };
        let over =
            if may { one_of(dice, &["connector", "ball bearing", "plain bush", "ring"]) } else { one_of(dice, &OVER) };
        bends.push(Bend { moves, over, turn: dice.between(-PI, PI) });
    }
    let second = (count > 1 && dice.chance(0.4)).then(|| {
        let from = 1 + dice.between(0.0, (count - 1) as f64) as usize;
        (from, dice.chance(0.5))
    });
    if let Some((from, _)) = second {
        for bend in &mut bends[from..] {
            if bend.moves == "with load" {
                bend.moves = "with clamp";
            }
        }
    }
    Haul { end_at_load, bends, second, wet: dice.chance(0.5), shared: dice.chance(0.5) }
}

fn asked_of(haul: &Haul) -> Value {
    let mut asked = json!({
        "question": "raise and lower", "rope_end": if haul.end_at_load { "load" } else { "anchor" },
        "bends": haul.bends.len(), "takes_over": haul.second.map_or(0, |(from, _)| from),
        "second_end": if haul.second.is_some_and(|(_, anchored)| anchored) { "anchor" } else { "first rope" },
        "fixed_on": if haul.shared { "one" } else { "each" }, "wet": if haul.wet { "yes" } else { "no" },
    });
    for (place, bend) in haul.bends.iter().enumerate() {
        let number = place + 1;
        asked[format!("bend_{number}")] = json!(bend.moves);
        asked[format!("over_{number}")] = json!(bend.over);
        asked[format!("turn_{number}_rad")] = json!(bend.turn);
    }
    asked
}

/// What people do while the rope runs so: who lies still or is raised neither slips nor descends.
fn does(way: &str, state: &'static str) -> &'static str {
    match (way, state) {
        ("rest", _) | ("raising", "slip" | "descending") => "still",
        _ => state,
    }
}

/// The fewest who pull so much together, of eight at most: two lose 9 %, eight 20 % (tug-of-war study, 2022).
fn people(force: f64, each: f64) -> Option<f64> {
    let together =
        |people: f64| people * each * (1.0 - if people < 2.0 { 0.0 } else { 0.09 + 0.11 * (people - 2.0) / 6.0 });
    (1..=8).map(f64::from).find(|people| together(*people) >= force)
}

const WAYS: [&str; 5] = ["edges bare", "bare", "lowering", "rest", "raising"];

#[test]
fn a_haul_is_what_its_equations_give() {
    let mut dice = Dice::new(20_261_134);
    let (mut refused, mut second, mut clamped) = (0, 0, 0);
    let mut number = 0;
    while number < 300 {
        let haul = random(&mut dice);
        let mut asked = asked_of(&haul);
        let crowd = Crowd::random(&mut dice);
        let state = one_of(&mut dice, &STATES);
        let (pullers, hard) = (dice.between(1.0, 13.0) as u32, dice.between(50.0, 900.0));
        let swim = dice.chance(0.5);
        crowd.write(&mut asked);
        asked["state"] = json!(state);
        asked["pullers"] = json!(pullers);
        asked["hard_pull_n"] = json!(hard);
        asked["pull_from"] = json!(if swim { "swimming" } else { "standing" });
        let answer = match question(&asked).answer() {
            Ok(answer) => answer,
            Err(BadInput::Refused { .. }) => {
                refused += 1;
                assert!(refused < 600, "hardly anything can be rigged");
                continue;
            }
            Err(error) => panic!("{error}: {asked}"),
        };
        number += 1;
        second += u32::from(haul.second.is_some());
        let strands = haul.strands();
        clamped += u32::from(!strands.junctions.is_empty());
        let holding = haul.holding(&strands);
        let edges = haul.bends.iter().any(|bend| !has_anchor(bend.over));
        let ways: BTreeMap<&str, Vec<Ends>> = (WAYS.into_iter().chain(["jam"]))
            .filter(|way| edges || *way != "edges bare")
            .map(|way| (way, haul.shapes(&strands, &holding, way)))
            .collect();
        let part = |way: &str, part: usize, state: &'static str| -> Ends {
            let load = crowd.load(does(way, state));
            [0, 1, 2].map(|end| ways[way][part][end] * load[end])
        };

        let hands = [
            ("edges bare", "for the hand while lowering, edges not counted"),
            ("lowering", "for the hand while lowering, all friction counted"),
            ("rest", "for the hand at rest"),
            ("raising", "for the hand while raising"),
        ];
        for (way, what) in hands.into_iter().filter(|(way, _)| ways.contains_key(way)) {
            super::all_same(found(&answer, what, &asked), part(way, 0, "still"), 1e-9, what, &asked);
        }
        check_held(&answer, &holding, &ways, &crowd, state, &asked);

        // A slip stands for the worst of all, and what is raised may be jerked.
        let judged: &[&'static str] = if state == "slip" { &["slip", "jerky"] } else { &[state] };
        let hitch = if haul.shared {
            ("on the one anchor point, the load set down", 1)
        } else {
            ("on the anchor of a hitch", 2)
        };
        if holding.keys().any(|name| !name.contains("edge")) {
            let most = judged.iter().map(|state| part("bare", hitch.1, state)[2]).fold(0.0, f64::max);
            same(found(&answer, hitch.0, &asked)[2], most, 1e-9, hitch.0, &asked);
        }
        let raising = part("raising", 0, "still");
        let one = if swim { [50.0, 75.0, 100.0] } else { [100.0, 200.0, 300.0] };
        let needed = [0, 1, 2].map(|end| people(raising[end], one[2 - end]));
        let told = answer.findings.iter().find(|finding| finding.what.starts_with("people needed"));
        match needed {
            [Some(few), Some(usual), Some(many)] => assert_eq!(ends(told.unwrap()), [few, usual, many], "{asked}"),
            _ => assert!(told.is_none(), "{asked}"),
        }
        // Without friction no work is lost: as much rope as the load is times the hand's pull.
        let through = found(&answer, "times the way of the load", &asked)[2];
        same(through, 1.0 / ways["bare"][0][1], 1e-9, "rope", &asked);

        let total = f64::from(pullers) * hard;
        let jam = &answer.outcomes[0].findings;
        let names = ["on the load".to_owned(), "in the rope where it is pulled hardest".to_owned()].into_iter();
        for (shape, name) in ways["jam"][1..].iter().zip(names.chain(holding.keys().cloned())) {
            let name = format!("{}, jammed", name.replace("the edge at ", ""));
            let told = jam.iter().find(|finding| finding.what == name);
            let told = told.unwrap_or_else(|| panic!("no {name} in {jam:?}: {asked}"));
            checked(ends(told), shape.map(|shape| total * shape), &name, &asked);
        }
    }
    assert!(second > 40 && clamped > 80, "{second} with a second rope, {clamped} clamped, {refused} refused");
}

/// The high end is that of the corners; a sum of pulls may be least between them.
fn checked(found: Ends, expected: Ends, what: &str, asked: &Value) {
    same(found[2], expected[2], 1e-9, what, asked);
    same(found[1], expected[1], 1e-9, what, asked);
    assert!(found[0] <= expected[0] + 1e-6, "{what}: {found:?} {expected:?}: {asked}");
}

/// What each holding point gets at most while the load is lowered, lies still and is raised.
fn check_held(
    answer: &Answer,
    holding: &BTreeMap<String, Vec<(usize, [f64; 2])>>,
    ways: &BTreeMap<&str, Vec<Ends>>,
    crowd: &Crowd,
    state: &'static str,
    asked: &Value,
) {
    let most = |place: usize, states: &[&'static str]| {
        let all = states.iter().flat_map(|state| {
            let of = |way: &&str| ways.get(way).map(|shapes| shapes[3 + place][2] * crowd.load(does(way, state))[2]);
            WAYS.iter().filter_map(of).collect::<Vec<_>>()
        });
        all.fold(0.0, f64::max)
    };
    let judged: &[&'static str] = if state == "slip" { &["slip", "jerky"] } else { &[state] };
    for (place, name) in holding.keys().enumerate() {
        let with_state = |finding: &&rigging_core::question::Finding| {
            finding.what.starts_with(&format!("{name}, ")) && !finding.what.contains("set down")
        };
        let told = answer.findings.iter().find(with_state).unwrap_or_else(|| panic!("no {name}: {asked}"));
        same(told.band.high(), most(place, judged), 1e-9, &told.what, asked);
    }
    // The first of them is an anchor, if there is one, and of all anchors the one that gets most.
    let is_edge = |place: usize| holding.keys().nth(place).unwrap().contains("edge");
    let rank = |place: &usize| (!is_edge(*place), most(*place, judged));
    let first = (0..holding.len()).max_by(|a, b| rank(a).partial_cmp(&rank(b)).unwrap());
    if let Some(first) = first {
        for (told, state) in answer.states.iter().zip(STATES) {
            same(told.band.high(), most(first, &[state]), 1e-9, &told.what, asked);
        }
    }
}
