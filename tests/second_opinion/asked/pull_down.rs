//! Ropes pulled down, from the hand back: what is left of its pull at each piece of the way.

use super::{Ends, GRAVITY, OVER, all_same, answer, ends, found, friction, last_that, one_of, same};
use crate::dice::Dice;
use serde_json::{Value, json};
use std::f64::consts::{FRAC_PI_2, PI};

const MET: [&str; 4] = ["neither", "pulled", "rising", "both"];

struct Edge {
    met: &'static str,
    over: &'static str,
    turn: f64,
    down: f64,
}

impl Edge {
    fn is_under(&self, strand: &str) -> bool {
        self.met == strand || self.met == "both"
    }
}

struct Rigged {
    cord: bool,
    height: f64,
    rising: f64,
    diameters: [f64; 2],
    ring: &'static str,
    edges: Vec<Edge>,
    /// Turn is how steeply it falls, down how long it is.
    slab: Edge,
    wet: bool,
}

/// What the rope meets on its way.
enum Met {
    /// So much of the tension beyond is left before it.
    Bend(f64),
    /// The rope weighs so much more beyond it, N; below 0 where its weight helps.
    Weight(f64),
}

impl Rigged {
    fn long(&self, strand: &str) -> f64 {
        let hangs = if strand == "pulled" { self.height } else { self.rising };
        if self.slab.is_under(strand) { hangs + self.slab.down } else { hangs }
    }

    /// All that a strand meets from the ring to its end, at one end of what is uncertain, so many metres pulled.
    fn strand(&self, strand: &str, out: f64, end: usize) -> Vec<Met> {
        self.below(0.0, strand, out, end)
    }

    /// The same from so far below the ring on.
    fn below(&self, above: f64, strand: &str, out: f64, end: usize) -> Vec<Met> {
        let rises = strand == "rising";
        let long = if rises { self.long(strand) - out } else { self.long(strand) };
        let rubs = |over: &str| friction(over, self.wet)[end];
        // UIAA: wet, untreated rope takes up half of its mass; typical a fifth (assumed).
        let soaked = if self.wet { [1.0, 1.2, 1.5][end] } else { 1.0 };
        let of_a_metre = |diameter: f64| GRAVITY * 0.645_6e-3 * (1e3 * diameter).powi(2) * soaked;
        // The joint of rope and cord comes down as it is pulled.
        let joint = if self.cord && !rises { out } else { long };
        let slab = if self.slab.is_under(strand) { self.slab.down } else { 0.0 };
        let mut stops = vec![above, joint, slab, long];
        stops.extend(self.edges.iter().map(|edge| edge.down));
        stops.retain(|stop| *stop >= above && *stop <= long);
        stops.sort_by(f64::total_cmp);
        stops.dedup();
        let mut way = vec![];
        for (place, from) in stops.iter().enumerate() {
            if *from < long {
                let here = self.edges.iter().filter(|edge| edge.is_under(strand) && edge.down == *from);
                way.extend(here.map(|edge| Met::Bend((-rubs(edge.over) * edge.turn).exp())));
                if slab > above && slab == *from {
                    way.push(Met::Bend((-rubs(self.slab.over) * (FRAC_PI_2 - self.slab.turn)).exp()));
                }
            }
            let Some(to) = stops.get(place + 1) else { break };
            let weight = (to - from) * of_a_metre(self.diameters[usize::from(*from >= joint)]);
            let (sine, cosine) = self.slab.turn.sin_cos();
            let lies = *from < slab;
            let up = if lies { sine } else { 1.0 } * if rises { 1.0 } else { -1.0 };
            let rubbed = if lies { rubs(self.slab.over) * cosine } else { 0.0 };
            way.push(Met::Weight(weight * (up + rubbed)));
        }
        way
    }

    /// The least pull beyond a way that leaves no piece of it pushed: a rope does not push.
    fn least<'a>(way: impl Iterator<Item = &'a Met> + Clone) -> f64 {
        let enough = |pull: f64| {
            let mut left = pull;
            for met in way.clone() {
                left = match met {
                    Met::Bend(keeps) => left * keeps,
                    Met::Weight(more) => left - more,
                };
                if left < 0.0 {
                    return false;
                }
            }
            true
        };
        let mut far = 1.0;
        while !enough(far) {
            far *= 2.0;
        }
        if enough(0.0) { 0.0 } else { last_that(enough, far, 0.0) }
    }

    /// Pull at the hand at the start with the ring at the lip of the slab: all that is below it stays as it is. Nothing
    /// without a slab, nor where a strand beside it has an edge: how far that then is from the ring nobody knows.
    fn pulled_from_the_lip(&self) -> Option<Ends> {
        let beside = |strand| self.edges.iter().any(|edge| edge.is_under(strand)) && !self.slab.is_under(strand);
        if self.slab.met == "neither" || beside("pulled") || beside("rising") {
            return None;
        }
        // A ring less than a metre above the hands, or below them, is none.
        if self.slab.met == "rising" && self.height - self.slab.down * self.slab.turn.sin() < 1.0 {
            return None;
        }
        // Beside the slab the strand that is pulled is shorter by as much as the ring is lower; the other one is left as
        // it hangs, for it may hang lower than the hands.
        let above = |strand, lower| if self.slab.is_under(strand) { self.slab.down } else { lower };
        let above = [above("pulled", self.slab.down * self.slab.turn.sin()), above("rising", 0.0)];
        Some([0, 1, 2].map(|end| {
            let [pulled, rising] =
                [("pulled", above[0]), ("rising", above[1])].map(|(strand, above)| self.below(above, strand, 0.0, end));
            let ring = Met::Bend((-friction(self.ring, self.wet)[end] * PI).exp());
            Self::least(pulled.iter().rev().chain([&ring]).chain(&rising))
        }))
    }

    /// Pull at the hand and force on the ring.
    fn pulled(&self, out: f64, end: usize) -> [f64; 2] {
        let (rising, pulled) = (self.strand("rising", out, end), self.strand("pulled", out, end));
        let ring = Met::Bend((-friction(self.ring, self.wet)[end] * PI).exp());
        let back = pulled.iter().rev().chain([&ring]).chain(&rising);
        let at_ring = Self::least(rising.iter());
        let beyond = Self::least([&ring].into_iter().chain(&rising));
        [Self::least(back), at_ring + beyond]
    }

    /// What the pulled strand weighs on the ring, friction not counted, N: of what lies on the slab its part down it.
    fn hangs(&self, out: f64, end: usize) -> f64 {
        let long = self.long("pulled");
        let lies = if self.slab.is_under("pulled") { self.slab.down } else { 0.0 };
        let joint = if self.cord { out.min(long) } else { long };
        let soaked = if self.wet { [1.0, 1.2, 1.5][end] } else { 1.0 };
        let weighs = |from: f64, to: f64, diameter: f64| {
            let slab = (to.min(lies) - from.min(lies)).max(0.0);
            let plumb = to - from - slab;
            GRAVITY * 0.645_6e-3 * (1e3 * diameter).powi(2) * soaked * (slab * self.slab.turn.sin() + plumb)
        };
        weighs(0.0, joint, self.diameters[0]) + weighs(joint, long, self.diameters[1])
    }
}

/// What so many pull together, N: two lose 9 %, eight 20 % (tug-of-war study, 2022), in a straight line between.
fn together(each: f64, people: u32) -> f64 {
    let loss = match people {
        1 => 0.0,
        _ => 9.0 + 11.0 * f64::from(people - 2) / 6.0,
    };
    f64::from(people) * each * (1.0 - loss / 100.0)
}

fn random(dice: &mut Dice) -> Rigged {
    let edge = |dice: &mut Dice, down: f64| Edge {
        met: one_of(dice, &MET),
        over: one_of(dice, &OVER),
        turn: dice.between(0.0, PI),
        down,
    };
    let [height, rising] = [dice.between(1.0, 60.0), dice.between(1.0, 60.0)];
    let long = dice.between(0.1, 20.0);
    let slab = Edge { turn: dice.between(0.0, FRAC_PI_2), ..edge(dice, long) };
    let mut rigged = Rigged {
        cord: dice.chance(0.4),
        height,
        rising,
        diameters: [dice.between(0.008, 0.011), dice.between(0.004, 0.008)],
        ring: one_of(dice, &OVER),
        edges: vec![],
        slab,
        wet: dice.chance(0.5),
    };
    let shortest = f64::min(rigged.long("pulled"), rigged.long("rising"));
    for _ in 0..2 {
        let close = dice.chance(0.4);
        let down = if close { 0.0 } else { dice.between(0.0, shortest) };
        let edge = edge(dice, down);
        rigged.edges.push(edge);
    }
    rigged
}

fn asked_of(rigged: &Rigged) -> Value {
    let mut asked = json!({
        "question": "pull-down", "pulled_by": if rigged.cord { "cord" } else { "rope" }, "height_m": rigged.height,
        "rising_m": rigged.rising, "diameter_m": rigged.diameters[0], "cord_diameter_m": rigged.diameters[1],
        "ring": rigged.ring, "slab_on": rigged.slab.met, "slab_over": rigged.slab.over, "slab_m": rigged.slab.down,
        "slab_falls_rad": rigged.slab.turn, "wet": if rigged.wet { "yes" } else { "no" },
    });
    for (place, edge) in rigged.edges.iter().enumerate() {
        let name = |of: &str| format!("edge_{}_{of}", place + 1);
        asked[name("on")] = json!(edge.met);
        asked[name("over")] = json!(edge.over);
        asked[name("turn_rad")] = json!(edge.turn);
        asked[name("down_m")] = json!(edge.down);
    }
    asked
}

#[test]
fn a_rope_comes_by_what_is_left_of_the_pull_at_its_free_end() {
    let mut dice = Dice::new(20_261_132);
    let (mut by_itself, mut needed, mut lips) = (0, 0, 0);
    for _ in 0..400 {
        let rigged = random(&mut dice);
        let mut asked = asked_of(&rigged);
        let pullers = dice.between(1.0, 9.0) as u32;
        let swim = dice.chance(0.5);
        let (spare, next) = (dice.between(0.0, 60.0), dice.between(0.0, 60.0));
        asked["pullers"] = json!(pullers);
        asked["pull_from"] = json!(if swim { "swimming" } else { "standing" });
        asked["spare_m"] = json!(spare);
        asked["next_drop_m"] = json!(next);
        let answer = answer(&asked);
        let all = rigged.long("rising");
        for (what, share) in [
            ("to pull at the start", 0.0),
            ("to pull when half of what hangs has come", 0.5),
            ("to pull at the end", 1.0),
        ] {
            let expected: Ends = [0, 1, 2].map(|end| rigged.pulled(share * all, end)[0]);
            all_same(found(&answer, what, &asked), expected, 1e-9, what, &asked);
            if expected[2] > 0.0 { needed += 1 } else { by_itself += 1 }
        }
        let on_ring = [0, 1, 2].map(|end| rigged.pulled(0.0, end)[1]);
        all_same(found(&answer, "on the anchor, pulled steadily", &asked), on_ring, 1e-9, "on the ring", &asked);

        let at_the_lip = answer.outcomes.iter().find(|outcome| outcome.case.contains("at the lip of the slope"));
        match (at_the_lip, rigged.pulled_from_the_lip()) {
            (Some(told), Some(expected)) => {
                all_same(ends(&told.findings[0]), expected, 1e-9, "at the lip", &asked);
                lips += 1;
            }
            (told, expected) => assert!(told.is_none() && expected.is_none(), "{told:?} {expected:?} {asked}"),
        }

        // Assumed: steadily one pulls 100 to 300 N standing, 50 to 100 N swimming; once, hard, 500 N.
        let one = if swim { [50.0, 75.0, 100.0] } else { [100.0, 200.0, 300.0] };
        let steady = found(&answer, "pulled steadily by", &asked);
        all_same(steady, one.map(|one| together(one, pullers)), 1e-12, "steadily", &asked);
        let hard = 500.0 * f64::from(pullers);
        let hangs = |end: usize| [rigged.hangs(0.0, end), rigged.hangs(all, end)];
        let stuck = found(&answer, "on the anchor if it sticks", &asked);
        let [at_start, at_end] = hangs(0);
        same(stuck[0], hard + at_start.min(at_end), 1e-9, "stuck, least", &asked);
        // Typically it is held just beyond the ring, which keeps some of the pull from the other side.
        let [at_start, at_end] = hangs(1);
        let keeps = (-friction(rigged.ring, rigged.wet)[1] * PI).exp();
        same(stuck[1], (hard + at_start.max(at_end)) * (1.0 + keeps), 1e-9, "stuck, typical", &asked);
        let [at_start, at_end] = hangs(2);
        same(stuck[2], 2.0 * (hard + at_start.max(at_end)), 1e-9, "stuck, most", &asked);

        // A metre for knots, and the 6 % that ropes are declared to shrink at most (memory).
        let missing = if next > 0.0 { ((next + 1.0) / 0.94 - spare).max(0.0) } else { 0.0 };
        same(found(&answer, "of spare rope missing", &asked)[2], missing, 1e-9, "spare", &asked);
    }
    assert!(lips > 100, "{lips} with the ring at the lip of the slab");
    assert!(by_itself > 200 && needed > 200, "{by_itself} come by themselves, {needed} are pulled");
}
