//! What must hold of a haul, worked out by hand.

mod lists;

use super::super::against::LimitChoice;
use super::super::bend::along;
use super::super::scene::size;
use super::case::{Held, LOAD, ROPE};
use super::list::{MOST, Thing};
use super::*;
use crate::limit::Standing;
use crate::quantity::{Mass, kilogram};
use crate::question::Holds;
use crate::strength::hardware::BOLT_AXIAL;
use approx::assert_relative_eq;

use Moves::{Stays, WithClamp, WithLoad};
use Over::{BallBearing, Connector, PolishedRock};

/// 95 kg with kit and water: 931.63 N.
const WEIGHT: f64 = 95.0 * 9.80665;

/// One person of 95 kg on a dry list.
fn over(rope_end: EndAt, list: &[(Moves, Over, f64)]) -> RaiseLower {
    let listed = |place: usize| {
        let (moves, over, degrees) = list.get(place).copied().unwrap_or((Stays, Connector, 180.0));
        Listed { moves, over, turn: Angle::new::<degree>(degrees) }
    };
    let exact = |mass| Band::exact(Mass::new::<kilogram>(mass));
    let people = People { count: 1, body: exact(80.0), kit: exact(10.0), water: Mass::new::<kilogram>(5.0) };
    RaiseLower {
        rope_end,
        bends: list.len() as u32,
        first: listed(0),
        second: listed(1),
        third: listed(2),
        fourth: listed(3),
        fifth: listed(4),
        sixth: listed(5),
        wet: Whether::No,
        state: State::Still,
        people,
        ..RaiseLower::default()
    }
}

const FIXED: (Moves, Over, f64) = (Stays, BallBearing, 180.0);
const TRAVELS: (Moves, Over, f64) = (WithClamp, BallBearing, 180.0);
/// Polished rock, a quarter turn to the left.
const EDGE: (Moves, Over, f64) = (Stays, PolishedRock, -90.0);

fn straight_pull() -> RaiseLower {
    over(EndAt::Load, &[])
}
fn over_one_connector() -> RaiseLower {
    over(EndAt::Load, &[(Stays, Connector, 180.0)])
}
fn two_parts() -> RaiseLower {
    over(EndAt::Anchor, &[(WithLoad, BallBearing, 180.0)])
}
fn three_parts() -> RaiseLower {
    over(EndAt::Load, &[FIXED, TRAVELS])
}
fn five_parts() -> RaiseLower {
    over(EndAt::Load, &[FIXED, TRAVELS, FIXED, TRAVELS])
}
fn three_on_three() -> RaiseLower {
    RaiseLower { takes_over: 2, ..five_parts() }
}

/// The hand's force while the rope runs so.
fn hand(haul: &RaiseLower, way: Way) -> Band {
    let list = haul.list().unwrap();
    haul.hand_at(&haul.ways(&list).unwrap(), way).unwrap()
}

/// Force on what holds the rope, the way being given, hanging still.
fn on(haul: &RaiseLower, way: Way, held: &Held) -> Band {
    let ways = haul.ways(&haul.list().unwrap()).unwrap();
    haul.loaded(ways.get(way).unwrap(), 3 + held.slot, State::Still).unwrap().band
}

fn holding(haul: &RaiseLower) -> Vec<Held> {
    haul.held(&haul.list().unwrap())
}

fn close(one: f64, other: f64) {
    assert_relative_eq!(one, other, max_relative = 1e-12);
}

fn found<'a>(answer: &'a Answer, words: &str) -> &'a Finding {
    answer.findings.iter().find(|finding| finding.what.contains(words)).unwrap_or_else(|| panic!("{words}"))
}

#[test]
fn hauls_over_ball_bearings_worked_by_hand() {
    // Efficiency 0.86 to 0.95 over a half turn. Newtons of load for one of the hand, raising:
    // 2 parts 1 + e; 3 parts 1 + e + e²; 5 parts 1 + e + e² + e³ + e⁴; 3 on 3 (1 + e + e²)².
    for (haul, worst, best, rope) in [
        (straight_pull(), 1.0, 1.0, 1.0),
        (two_parts(), 1.86, 1.95, 2.0),
        (three_parts(), 2.5996, 2.8525, 3.0),
        (five_parts(), 3.782_664_16, 4.524_381_25, 5.0),
        (three_on_three(), 6.757_920_16, 8.136_756_25, 9.0),
    ] {
        let raising = hand(&haul, Way::Raising);
        close(raising.high(), WEIGHT / worst);
        close(raising.low(), WEIGHT / best);
        assert_eq!(haul.rope_per_load(&haul.list().unwrap()).unwrap(), rope);
    }
    // Lowering, 1/e in place of e: 1 + 1/0.86 + 1/0.7396 = 3.514 88, 1 + 1/0.95 + 1/0.9025 = 3.160 66.
    let lowering = hand(&three_parts(), Way::Lowering);
    close(lowering.low(), WEIGHT / (1.0 + 1.0 / 0.86 + 1.0 / 0.7396));
    close(lowering.high(), WEIGHT / (1.0 + 1.0 / 0.95 + 1.0 / 0.9025));
    assert_relative_eq!(lowering.high(), WEIGHT / 3.160_66, max_relative = 1e-5);
}

#[test]
fn at_rest_the_hand_may_feel_anything_from_lowering_to_raising() {
    for haul in [three_parts(), three_on_three(), two_parts(), over_one_connector()] {
        let rest = hand(&haul, Way::Rest);
        close(rest.low(), hand(&haul, Way::Lowering).low());
        close(rest.high(), hand(&haul, Way::Raising).high());
        assert!(hand(&haul, Way::Lowering).high() < rest.typical() && rest.typical() < hand(&haul, Way::Raising).low());
    }
}

#[test]
fn anchors_get_the_sum_of_their_strands() {
    // One connector, a half turn, 0.13 to 0.29: both sides, as the ring held from below in the physics.
    let one = over_one_connector();
    let [anchor] = holding(&one)[..] else { panic!("one anchor") };
    close(on(&one, Way::Lowering, &anchor).high(), WEIGHT * (1.0 + (-0.13 * PI).exp()));
    close(on(&one, Way::Raising, &anchor).high(), WEIGHT * (1.0 + (0.29 * PI).exp()));
    // Three parts: the anchor holds what the hand and the anchor's strands leave of the load, W − H, plus nothing.
    // Raising, 0.86 each: of 2.5996 parts the anchor's are 0.86 + 0.7396.
    let three = three_parts();
    let [anchor] = holding(&three)[..] else { panic!("one anchor") };
    // All hand strands run up beside the load: anchor + hand = load, whatever the friction.
    let (low, high) = (hand(&three, Way::Raising).low(), hand(&three, Way::Raising).high());
    close(on(&three, Way::Raising, &anchor).high(), WEIGHT - low);
    close(on(&three, Way::Raising, &anchor).low(), WEIGHT - high);
    // Five parts on one anchor point, lowering, 0.95: four of five strands; on two anchors each its own two.
    let five = five_parts();
    let [anchor] = holding(&five)[..] else { panic!("one anchor") };
    close(on(&five, Way::Lowering, &anchor).low(), WEIGHT - hand(&five, Way::Lowering).high());
    let apart = RaiseLower { shared: Shared::Each, ..five_parts() };
    let [first, second] = holding(&apart)[..] else { panic!("two anchors") };
    let g = 1.0 / 0.86;
    let parts = 1.0 + g + g * g + g * g * g + g * g * g * g;
    close(on(&apart, Way::Lowering, &first).high(), WEIGHT * (g * g * g + g * g * g * g) / parts);
    assert!(on(&apart, Way::Lowering, &second).low() < on(&apart, Way::Lowering, &first).low());
    assert_eq!((first.name, second.name), ("bend 1", "bend 3"));
}

#[test]
fn the_end_of_a_rope_pulls_its_anchor() {
    let two = two_parts();
    let [anchor] = holding(&two)[..] else { panic!("one anchor") };
    // Raising, 0.86: 0.86 of 1.86 parts at the end.
    close(on(&two, Way::Raising, &anchor).low(), WEIGHT * 0.86 / 1.86);
    // A second rope tied to an anchor, its pulley on the first rope, which comes from below over a connector.
    let second = RaiseLower {
        takes_over: 1,
        second_end: SecondEnd::Anchor,
        shared: Shared::Each,
        ..over(EndAt::Load, &[(Stays, Connector, 180.0), TRAVELS])
    };
    let [connector, end] = holding(&second)[..] else { panic!("two anchors") };
    assert_eq!(end.name, "the anchor of the second rope's end");
    let first_rope = WEIGHT * (0.29 * PI).exp();
    close(hand(&second, Way::Raising).high(), first_rope / 1.86);
    close(on(&second, Way::Raising, &connector).high(), WEIGHT + first_rope);
    // The end is tighter, the better the pulley: 0.95 of 1.95 parts.
    close(on(&second, Way::Raising, &end).high(), first_rope * 0.95 / 1.95);
}

#[test]
fn a_clamp_grabs_beyond_the_edge_and_the_edge_is_first_not_counted() {
    // Polished rock 0.15 to 0.40 over a quarter turn, then three parts.
    let haul = over(EndAt::Load, &[EDGE, FIXED, TRAVELS]);
    close(hand(&haul, Way::Raising).high(), WEIGHT * (0.40 * PI / 2.0).exp() / 2.5996);
    close(hand(&haul, Way::LoweringBare).high(), hand(&three_parts(), Way::Lowering).high());
    close(hand(&haul, Way::Lowering).high(), hand(&three_parts(), Way::Lowering).high() * (-0.15 * PI / 2.0).exp());
    let answer = haul.solve().unwrap();
    assert_eq!(answer.findings[0].what, "for the hand while lowering, edges not counted, hanging still");
    assert_eq!(answer.findings[1].what, "for the hand while lowering, all friction counted, hanging still");
    // The edge turns the load's strand to the left: force from plumb −45° at rest without friction.
    let edge = found(&answer, "on the edge at bend 1");
    assert!(edge.pull.unwrap() < 0.0);
    // Without an edge there is nothing to leave out.
    assert!(three_parts().solve().unwrap().findings.iter().all(|finding| !finding.what.contains("edges not counted")));
}

#[test]
fn a_high_redirect_before_the_haul_is_passed_by_the_clamp_too() {
    let plain = over(EndAt::Load, &[(Stays, Connector, 90.0), FIXED, TRAVELS]);
    close(hand(&plain, Way::Raising).high(), WEIGHT * (0.29 * PI / 2.0).exp() / 2.5996);
}

#[test]
fn a_bend_on_the_load_turns_the_rope_back_to_it_past_an_edge_that_is_listed_again() {
    let back = over(EndAt::Load, &[EDGE, FIXED, (Stays, PolishedRock, 90.0), (WithLoad, BallBearing, 180.0)]);
    let list = back.list().unwrap();
    let turns: Vec<f64> = list
        .iter()
        .filter_map(|thing| if let Thing::Bend(bendy) = thing { Some(bendy.turn.to_degrees().round()) } else { None })
        .collect();
    assert_eq!(turns, [-90.0, 180.0, 90.0, -180.0]);
    // By hand, raising at the most: 1 + 0.86⁻¹… from the hand: 1, 0.86, 0.86 E, 0.86² E, 0.86² E², E = e^(−0.4 π/2).
    let e = (-0.40 * PI / 2.0).exp();
    close(hand(&back, Way::Raising).high(), WEIGHT / (1.0 + 0.86 + 0.7396 * e * e));
    let free = over(EndAt::Load, &[EDGE, FIXED, (WithLoad, BallBearing, 180.0)]);
    assert!(free.solve().unwrap().remarks.iter().any(|remark| remark.contains("list it again")));
}

#[test]
fn a_stuck_load_gets_all_that_the_hands_make() {
    // Three people, 500 N each; three parts with no friction at all, 2.5996 with the most.
    let three = three_parts();
    let jam = &three.solve().unwrap().outcomes[0];
    assert_eq!(jam.findings.len(), 4, "the load, the rope, the anchor, and a hitch there");
    close(jam.findings[3].band.high(), 1500.0 * 3.0);
    close(jam.findings[LOAD - 1].band.high(), 1500.0 * 3.0);
    close(jam.findings[LOAD - 1].band.low(), 1500.0 * 2.5996);
    close(jam.findings[2].band.high(), 1500.0 * 2.0);
    // The clamp divides the load's strand from the rope: the load's strand is the tightest.
    close(jam.findings[ROPE - 1].band.high(), 1500.0 * 3.0);
    // An edge between may take nothing from it.
    let edge = over(EndAt::Load, &[EDGE, FIXED, TRAVELS]).solve().unwrap();
    close(edge.outcomes[0].findings[0].band.high(), 1500.0 * 3.0);
    close(edge.outcomes[0].findings[0].band.low(), 1500.0 * 2.5996 * (-0.40 * PI / 2.0).exp());
}

#[test]
fn pullers_are_counted_at_the_adverse_end() {
    // Three parts: up to 358.4 N; 100 N each, two lose 9 %, eight 20 %: four give 4·100·(1 − 0.1267) = 349, five 427.
    let three = three_parts().solve().unwrap();
    assert_eq!(found(&three, "people needed").band.high(), 5.0);
    // At the other end 326.6 N: two of 300 N.
    assert_eq!(found(&three, "people needed").band.low(), 2.0);
    let swimmers = RaiseLower { pull_from: PullFrom::Swimming, ..three_parts() }.solve().unwrap();
    assert!(swimmers.findings.iter().all(|finding| !finding.what.contains("people needed")), "8 · 50 · 0.8 = 320 N");
    assert!(swimmers.remarks.iter().any(|remark| remark.contains("more than eight")));
}

#[test]
fn lowering_says_when_a_hand_does_not_hold_and_when_the_load_does_not_move() {
    let says = |haul: &RaiseLower, words: &str| haul.solve().unwrap().remarks.iter().any(|one| one.contains(words));
    // One connector leaves 375 to 619 N for one tired hand of 50 to 150 N.
    assert!(says(&over_one_connector(), "does not hold what reaches"));
    // Over two more connectors 61 to 411 N, rested 50 to 400.
    let three = over(EndAt::Load, &[(Stays, Connector, 180.0); 2]);
    assert!(says(&RaiseLower { hand: HandState::Rested, ..three }, "may not hold what reaches"));
    assert!(!says(&three, "may hold the lightest without any hand"));
    // Five half turns over connectors leave 931.6 e^(−5 · 0.29 π) = 10 N.
    assert!(says(&over(EndAt::Load, &[(Stays, Connector, 180.0); 5]), "may hold the lightest without any hand"));
    assert!(!says(&over(EndAt::Load, &[(Stays, Connector, 180.0); 6]), "does not hold what reaches"));
}

#[test]
fn what_cannot_be_rigged_is_refused_with_the_way_out() {
    let edge_that_travels = over(EndAt::Load, &[FIXED, (WithClamp, PolishedRock, 180.0)]);
    for (haul, words) in [
        (over(EndAt::Anchor, &[]), "nothing on it pulls"),
        (over(EndAt::Anchor, &[FIXED]), "nothing on it pulls"),
        (over(EndAt::Load, &[TRAVELS]), "list the fixed bend first"),
        (over(EndAt::Load, &[FIXED, TRAVELS, TRAVELS]), "list the fixed bend first"),
        (RaiseLower { takes_over: 1, ..three_parts() }, "list the fixed bend first"),
        (edge_that_travels, "let it stay"),
        (RaiseLower { takes_over: 3, ..three_parts() }, "beyond an earlier bend"),
        (RaiseLower { takes_over: 2, second_end: SecondEnd::Anchor, ..three_parts() }, "nothing on it pulls"),
        (
            RaiseLower { takes_over: 2, ..over(EndAt::Load, &[FIXED, TRAVELS, FIXED, (WithLoad, BallBearing, 180.0)]) },
            "travel with a clamp",
        ),
    ] {
        let error = haul.solve().unwrap_err().to_string();
        assert!(error.starts_with("refused") && error.contains(words), "{words}: {error}");
    }
}

#[test]
fn anchors_are_judged_on_the_state_and_the_way_that_hurt_most() {
    let slip = RaiseLower { state: State::Slip, ..three_parts() };
    let answer = slip.solve().unwrap();
    let anchor = found(&answer, "on the one anchor point");
    assert!(anchor.what.contains("while lowering") && anchor.what.contains("slip"), "{}", anchor.what);
    let highs: Vec<f64> = answer.states.iter().map(|state| state.band.high()).collect();
    assert!(highs.windows(2).all(|pair| pair[0] <= pair[1]), "{highs:?}");
    assert_eq!(highs[3], anchor.band.high());
    // Hanging still, raising over one connector: the worst of the three.
    let still = over_one_connector().solve().unwrap();
    let anchor = found(&still, "on the one anchor point");
    assert!(anchor.what.contains("while raising, hanging still"), "{}", anchor.what);
    close(anchor.band.high(), WEIGHT * (1.0 + (0.29 * PI).exp()));
    close(still.states[0].band.high(), anchor.band.high());
}

#[test]
fn only_a_known_anchor_can_be_below_a_limit_and_an_edge_never_is() {
    let against = Against { holds: Holds::KnownBolt, limit: LimitChoice::Published(&BOLT_AXIAL), ..Against::default() };
    let haul = RaiseLower { against, pullers: 2, ..over(EndAt::Load, &[EDGE, FIXED, TRAVELS]) };
    let answer = haul.solve().unwrap();
    let standing = |words: &str| {
        let compared = answer.comparisons.iter().find(|compared| compared.what.contains(words)).unwrap();
        compared.standing
    };
    // 15 kN over 5 is 3 kN; the anchor gets up to 1.6 kN at rest, 2 kN jammed (2 · 1000).
    assert_eq!(standing("on the one anchor point, "), Standing::BelowLimit);
    assert_eq!(standing("on the one anchor point, jammed"), Standing::BelowLimit);
    assert_eq!(standing("edge at bend 1"), Standing::NotChecked("an edge has no published strength"));
    let more = RaiseLower { pullers: 4, ..haul }.solve().unwrap();
    let jam = more.comparisons.iter().find(|compared| compared.what == "on the one anchor point, jammed").unwrap();
    // Four make 1.5996 to 2 times 2 kN.
    assert_eq!(jam.standing, Standing::AboveLimit);
}

#[test]
fn the_hand_that_lets_down_stands_beside_what_it_can_hold() {
    let answer = RaiseLower::default().solve().unwrap();
    let (first, holds) = (&answer.findings[0], HandState::Tired.holds().0);
    let compared = answer.comparisons.iter().find(|compared| compared.what == first.what).unwrap();
    assert_eq!((compared.load, compared.limit.as_ref().map(|limit| limit.band)), (first.band, Some(holds)));
    assert_eq!(compared.standing, Standing::RangeCrosses);
}

#[test]
fn the_mirror_image_needs_the_same() {
    let one = over(EndAt::Load, &[EDGE, FIXED, TRAVELS, (Stays, Connector, 120.0)]);
    let mut other = one;
    for listed in [&mut other.first, &mut other.second, &mut other.third, &mut other.fourth] {
        listed.turn = -listed.turn;
    }
    for way in [Way::LoweringBare, Way::Lowering, Way::Rest, Way::Raising] {
        close(hand(&one, way).high(), hand(&other, way).high());
        for held in &holding(&RaiseLower { shared: Shared::Each, ..one }) {
            let apart = |haul: &RaiseLower| on(&RaiseLower { shared: Shared::Each, ..*haul }, way, held).high();
            close(apart(&one), apart(&other));
        }
    }
}

#[test]
fn a_heavier_load_and_more_people_need_more_and_the_wet_widens() {
    let haul = over(EndAt::Load, &[EDGE, (Stays, Connector, 180.0), (WithClamp, Connector, 180.0)]);
    let two = RaiseLower { people: People { count: 2, ..haul.people }, ..haul };
    let wet = RaiseLower { wet: Whether::Yes, ..haul };
    for way in [Way::LoweringBare, Way::Lowering, Way::Rest, Way::Raising] {
        close(hand(&two, way).high(), 2.0 * hand(&haul, way).high());
        assert!(hand(&wet, way).high() > hand(&haul, way).high() && hand(&wet, way).low() < hand(&haul, way).low());
    }
}

#[test]
fn the_working_ends_at_the_number_that_is_shown() {
    for haul in [RaiseLower::default(), three_on_three(), two_parts(), straight_pull()] {
        let answer = haul.solve().unwrap();
        let shown = answer.findings[0].band.high();
        let hand = answer.working.iter().find(|step| step.formula == "H = W / n").unwrap();
        close(hand.result.band.high(), shown);
        if let Some(last) = answer.working.iter().rev().find(|step| step.formula == "R = |Σ T|, each along its strand")
        {
            let on = answer.findings.iter().find(|finding| finding.what.starts_with("on ")).unwrap();
            close(last.result.band.high(), on.band.high());
        }
    }
}

#[test]
fn a_redirect_is_judged_on_a_slip_without_its_friction_and_on_jerks_with_it() {
    let judged = |over_ring: Over| {
        let ring = over(EndAt::Load, &[(Stays, over_ring, 180.0)]);
        let slip = RaiseLower { state: State::Slip, ..ring };
        let answer = slip.solve().unwrap();
        let on = answer.findings.iter().find(|finding| finding.what.starts_with("on ")).unwrap().clone();
        for load in [answer.comparisons[0].load, answer.states[State::ALL.len() - 1].band] {
            assert!(load.high() <= on.band.high() * (1.0 + 1e-12));
        }
        close(answer.comparisons[0].load.high(), on.band.high());
        (on, slip, answer)
    };
    // Held from below it gets twice the load if friction is not counted; lowering, friction only lessens it.
    let (on, slip, _) = judged(Over::BallBearing);
    close(on.band.high(), 2.0 * slip.people.spread(State::Slip).unwrap().band.high());
    assert!(on.what.contains("friction not counted") && on.what.ends_with(State::Slip.words()), "{}", on.what);
    // A ring holds back so much that raising in jerks is worse: 3.2 W (1 + e^(μ π)).
    let (on, slip, answer) = judged(Over::Ring);
    let friction = Over::Ring.friction(slip.is_wet()).0.high();
    let jerks = slip.people.spread(State::Jerky).unwrap().band.high();
    close(on.band.high(), jerks * (1.0 + (friction * PI).exp()));
    assert!(on.what.ends_with("on a slip or raised in jerks, whichever pulls harder"), "{}", on.what);
    // The rope gets that much of it, and whoever is stuck what all together pull.
    let carried = answer.carried.unwrap();
    assert!(carried.rope.high() >= jerks * (friction * PI).exp() * (1.0 - 1e-12));
    let twelve = RaiseLower { pullers: 12, ..slip }.solve().unwrap();
    let jammed = twelve.outcomes[0].findings[0].band.high();
    assert!(jammed > slip.people.spread(State::Slip).unwrap().band.high());
    close(twelve.carried.unwrap().hung.high(), jammed);
}
