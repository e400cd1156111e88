//! Human and block anchors of `law::ground` against contact forces found by a linear program.
//!
//! Where the two may differ, and are not compared:
//! - *Bodies that move before anyone pulls.* A body that slides or falls toward the load by itself holds 0 by the
//!   law, although a rope that presses it down could jam it: the law is the lower. One that moves away from the load
//!   by itself is outside the law; no anchor stands so.
//! - *Jamming.* A rope that presses the body down at more than the complement of the angle of friction holds without
//!   limit in both; both are cut off at the same large pull.
//! - *People lean and sink in.* Here they are as rigid as the law takes them. The rope leaves them no farther forward
//!   than their weight is and above the ground, so that they cannot tip back (blocks can: `block_tips_back_at`).

use crate::contacts::{Body, Place};
use crate::dice::Dice;
use rigging_core::law::ground::{
    Block, Directions, block_tips_back_at, block_topples_at, lifts_at, person_topples_at, slides_at,
};
use rigging_core::quantity::{Angle, Force, Length, Ratio, metre, newton, radian, ratio};

/// Pulls above so many weights are not told apart.
const MOST: f64 = 30.0;

fn newtons(value: f64) -> Force {
    Force::new::<newton>(value)
}
fn metres(value: f64) -> Length {
    Length::new::<metre>(value)
}

/// The least of several limits, and its place among them.
fn least(limits: &[Option<Force>], most: f64) -> (f64, Option<usize>) {
    limits.iter().enumerate().fold((most, None), |(least, which), (number, limit)| match limit {
        Some(limit) if limit.value < least => (limit.value, Some(number)),
        _ => (least, which),
    })
}

/// How the cases came out: by what gives way first.
#[derive(Debug, Default)]
struct Count {
    by_limit: [usize; 4],
    without_limit: usize,
    moves_by_itself: usize,
    worst: f64,
}

impl Count {
    /// Compares one body; `law` is the least of the limits.
    fn compare(&mut self, seed: u64, body: &Body, (law, which): (f64, Option<usize>)) {
        if !body.stands() {
            self.moves_by_itself += 1;
            // Toward the load: nothing is left. Away from it: nothing is said.
            assert!(law <= 1e-6 * body.weight || body.slope <= 0.0, "{seed}: {law}");
            return;
        }
        let found = body.holds(MOST * body.weight).expect("a body that stands holds some pull");
        let apart = (found - law).abs() / body.weight;
        assert!(apart < 1e-5 * (1.0 + law / body.weight), "{seed}: contacts {found}, law {law} by limit {which:?}");
        self.worst = self.worst.max(apart);
        match which {
            Some(number) => self.by_limit[number] += 1,
            None => self.without_limit += 1,
        }
    }
}

fn directions(slope: f64, rope: f64) -> Directions {
    Directions { slope: Angle::new::<radian>(slope), rope: Angle::new::<radian>(rope) }
}

#[test]
fn blocks_give_way_where_the_ground_can_no_longer_hold_them() {
    let mut count = Count::default();
    for seed in 0..2000 {
        let dice = &mut Dice::new(seed);
        let slope = dice.between(-0.6, 0.6);
        let rope = dice.between(-0.9, 1.5 - slope.max(0.0));
        let (weight, friction) = (dice.decades(100.0, 50_000.0), dice.between(0.1, 1.0));
        let (long, high) = (dice.between(0.2, 2.0), dice.between(0.2, 2.0));
        let (behind, above) = (long * dice.between(0.2, 0.8), high * dice.between(0.2, 0.7));
        // A sling lies on the block's front, its back or between.
        let (sling_behind, sling_above) = (long * dice.between(0.0, 1.0), high * dice.between(0.02, 1.0));
        let block = Block {
            centre_behind_edge: metres(behind),
            centre_height: metres(above),
            sling_height: metres(sling_above),
            sling_behind_edge: metres(sling_behind),
        };
        let at = directions(slope, rope);
        let limits = [
            slides_at(newtons(weight), Ratio::new::<ratio>(friction), newtons(0.0), at).unwrap(),
            block_topples_at(newtons(weight), &block, at).unwrap(),
            lifts_at(newtons(weight), at).unwrap(),
            block_tips_back_at(newtons(weight), &block, metres(long), at).unwrap(),
        ];
        let place = |behind: f64, above: f64| -> Place {
            [above * slope.sin() - behind * slope.cos(), above * slope.cos() + behind * slope.sin()]
        };
        let body = Body {
            weight,
            centre: place(behind, above),
            friction,
            push: 0.0,
            slope,
            rope,
            sling: place(sling_behind, sling_above),
            // Points between the edges change nothing: a rigid body stands on its edges.
            contacts: (0..=3).map(|part| place(long * f64::from(part) / 3.0, 0.0)).collect(),
        };
        count.compare(seed, &body, least(&limits, MOST * weight));
    }
    println!("blocks: {count:?}");
    let [slides, topples, _, back] = count.by_limit;
    assert!(slides > 300 && topples > 200 && back > 20 && count.without_limit > 30, "{count:?}");
}

#[test]
fn people_give_way_where_seat_and_feet_can_no_longer_hold_them() {
    let mut count = Count::default();
    for seed in 0..2000 {
        let dice = &mut Dice::new(seed ^ 0xFEE7);
        let slope = dice.between(-0.5, 0.5);
        let rope = dice.between(-0.9, 1.5 - slope.max(0.0));
        let (weight, friction) = (dice.between(400.0, 1200.0), dice.between(0.1, 1.0));
        let push = if dice.chance(0.5) { dice.between(0.0, 1500.0) } else { 0.0 };
        let behind = dice.between(0.05, 0.8);
        let back = behind + dice.between(0.0, 0.3);
        // Above the feet, and above the ground where it rises behind them.
        let above = (back * slope.tan()).max(0.0) + dice.between(0.05, 1.2);
        let at = directions(slope, rope);
        let limits = [
            slides_at(newtons(weight), Ratio::new::<ratio>(friction), newtons(push), at).unwrap(),
            person_topples_at(newtons(weight), metres(behind), metres(above), metres(back), at).unwrap(),
            lifts_at(newtons(weight), at).unwrap(),
        ];
        // The seat, behind the weight and behind the rope, on the ground through the feet.
        let seat = back + dice.between(0.05, 0.3);
        let body = Body {
            weight,
            centre: [-behind, 0.3],
            friction,
            push,
            slope,
            rope,
            sling: [-back, above],
            contacts: vec![[0.0, 0.0], [-seat, seat * slope.tan()]],
        };
        count.compare(seed, &body, least(&limits, MOST * weight));
    }
    println!("people: {count:?}");
    let [slides, topples, ..] = count.by_limit;
    assert!(slides > 300 && topples > 200 && count.without_limit > 30, "{count:?}");
}

#[test]
fn a_steep_pull_lifts_people_off_where_the_program_says() {
    // Only a rope that rises steeply lifts before it drags: with a good foothold, and the rope on the ground right
    // below the weight, where it does not turn the body.
    let mut lifted = 0;
    for seed in 0..1000 {
        let dice = &mut Dice::new(seed ^ 0x11F7);
        let slope = dice.between(-0.3, 0.3);
        let rope = dice.between(1.0, 1.2);
        let weight = dice.between(400.0, 1200.0);
        let back = dice.between(0.3, 0.8);
        let ground = |behind: f64| behind * slope.tan();
        let at = directions(slope, rope);
        let limits = [
            slides_at(newtons(weight), Ratio::new::<ratio>(0.5), newtons(1500.0), at).unwrap(),
            person_topples_at(newtons(weight), metres(back), metres(ground(back)), metres(back), at).unwrap(),
            lifts_at(newtons(weight), at).unwrap(),
        ];
        let body = Body {
            weight,
            centre: [-back, ground(back) + 0.3],
            friction: 0.5,
            push: 1500.0,
            slope,
            rope,
            sling: [-back, ground(back)],
            contacts: vec![[0.0, 0.0], [-back - 0.2, ground(back + 0.2)]],
        };
        let (law, _) = least(&limits, MOST * weight);
        let found = body.holds(MOST * weight).unwrap();
        assert!((found - law).abs() < 1e-5 * weight, "{seed}: contacts {found}, law {law}");
        lifted += usize::from(limits[2].is_some_and(|lift| lift.value <= law * (1.0 + 1e-12)));
    }
    assert!(lifted > 500, "{lifted}");
}
