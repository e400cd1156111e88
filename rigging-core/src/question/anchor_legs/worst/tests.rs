//! No place within the ranges is worse than what is told.

use super::super::tests::{metres, plain};
use super::super::*;
use super::*;
use approx::assert_relative_eq;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, RngSeed, TestRunner};

/// Two legs of fixed length whose load swings 5° to the left and 15° to the right.
fn swung(apart: f64, down: f64) -> AnchorLegs {
    let AnchorLegs { swing_left, swing_right, .. } = AnchorLegs::default();
    AnchorLegs { swing_left, swing_right, ..plain(Rig::Fixed, apart, down) }
}

/// The largest force that is told.
fn most(legs: &AnchorLegs) -> f64 {
    let answer = legs.solve().unwrap();
    let forces = answer.findings.iter().filter(|finding| finding.kind == Kind::Force);
    forces.map(|finding| finding.band.high()).fold(0.0, f64::max)
}

#[test]
fn two_narrow_legs_are_judged_on_the_heaviest_with_one_of_them_slack() {
    // 117 kg that slip half a metre onto 3 m of rope of 41 kN, all on one leg: 5.27 kN, by hand.
    let weight = 117.0_f64 * 9.806_65;
    let slip = weight * (1.0 + (1.0 + 2.0 * 41e3 / 6.0 / weight).sqrt());
    assert_relative_eq!(most(&plain(Rig::Fixed, 0.12, 0.6)), slip, max_relative = 1e-3);
}

#[test]
fn the_worst_pair_is_as_bad_as_the_same_two_anchors_asked_alone() {
    let mut three = swung(0.8, 0.8);
    three.anchors = 3;
    three.third = Spot { right: metres(0.2), above: metres(0.3), depth: metres(0.0) };
    three.material = LegMaterial::SevenMillimetreCord;
    three.out = metres(0.1);
    // The right anchor and anchor 3 alone, the same master point below them.
    let mut two = swung(0.45_f64.sqrt(), 0.95);
    two.right_higher = metres(-0.3);
    two.material = LegMaterial::SevenMillimetreCord;
    assert!(most(&three) >= 0.999 * most(&two), "{} and {}", most(&three), most(&two));
}

#[test]
fn what_is_worst_comes_first() {
    // Three flat legs to anchors around the master point: with one of them gone it would hang lower, and pull less.
    let spot = |right, depth| Spot { right: metres(right), above: metres(0.0), depth: metres(depth) };
    let legs =
        AnchorLegs { anchors: 3, third: spot(1.0, 1.7), point_depth: metres(0.58), ..plain(Rig::Fixed, 2.0, 0.25) };
    let answer = legs.solve().unwrap();
    assert!(answer.findings[0].what.contains("all legs sharing"), "{}", answer.findings[0].what);
    let pair = answer.findings.iter().find(|finding| finding.what.contains("if all hangs on it")).unwrap();
    let worst = answer.findings[0].band.high();
    assert!(worst > 1.1 * pair.band.high() && worst == most(&legs));
    assert_eq!(answer.comparisons[0].load.high(), worst);
    assert!(answer.carried.unwrap().anchor.high() >= worst);
    assert!(answer.states.last().unwrap().band.high() >= worst);
}

#[test]
fn an_anchor_that_is_slack_in_the_middle_of_the_ranges_is_found_where_it_pulls() {
    // At both far ends of the ranges anchor 3 gets 593 N, asked for them alone.
    let (apart, down) = (Band::of(0.75, 0.8, 0.85).map(metres), Band::of(0.495, 0.641, 0.787).map(metres));
    let [swing_left, swing_right] = [0.031, 0.375].map(Angle::new::<crate::quantity::radian>);
    let wide = AnchorLegs {
        anchors: 3,
        apart,
        down,
        right_higher: metres(0.174),
        right_depth: metres(-0.212),
        point_depth: metres(-0.29),
        third: Spot { right: metres(0.605), above: metres(0.054), ..AnchorLegs::default().third },
        swing_left,
        swing_right,
        scatter: metres(0.009),
        ..AnchorLegs::default()
    };
    let ends = AnchorLegs { apart: Band::exact(apart.high()), down: Band::exact(down.high()), ..wide };
    let on_third = |legs: &AnchorLegs| {
        let worst = legs.worst(There::All, legs.state).unwrap();
        worst.found[2].band.high()
    };
    assert!(
        on_third(&ends) > 300.0 && on_third(&wide) >= on_third(&ends) * (1.0 - SAME),
        "{} {}",
        on_third(&wide),
        on_third(&ends)
    );
}

/// Two to six anchors, wide and narrow, uneven, out of the middle, in one plane or not.
fn any_legs() -> impl Strategy<Value = AnchorLegs> {
    let spot = || (-0.2..1.2_f64, -0.1..0.5_f64, prop_oneof![Just(0.0), 0.0..1.0_f64]);
    (
        (2_u32..=6, 0.1..2.0_f64, 0.4..2.0_f64, -0.3..0.3_f64, -0.2..0.2_f64),
        [spot(), spot(), spot(), spot()],
        (0.0..15.0_f64, 0.0..15.0_f64, 0.0..0.02_f64, 0_usize..4, 0_usize..4),
    )
        .prop_map(|((anchors, apart, down, out, higher), spots, (left, right, scatter, material, state))| {
            let range = |low: f64| Band::of(low, low * 1.03, low * 1.06).map(metres);
            let [third, fourth, fifth, sixth] = spots.map(|(right, above, depth)| Spot {
                right: metres(right * apart),
                above: metres(above),
                depth: metres(depth),
            });
            let materials = [
                LegMaterial::HmpeLoop,
                LegMaterial::NylonLoop,
                LegMaterial::SixMillimetreCord,
                LegMaterial::SevenMillimetreCord,
            ];
            AnchorLegs {
                anchors,
                apart: range(apart),
                down: range(down),
                out: metres(out * apart),
                right_higher: metres(higher * apart),
                third,
                fourth,
                fifth,
                sixth,
                swing_left: Angle::new::<degree>(left),
                swing_right: Angle::new::<degree>(right),
                scatter: metres(scatter),
                material: materials[material],
                state: State::ALL[state],
                ..AnchorLegs::default()
            }
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn no_place_is_worse_than_the_one_found_and_each_state_is_that_of_its_own_question(
        legs in any_legs(), places in prop::collection::vec(prop::array::uniform14(0.0..1.0_f64), 100),
    ) {
        let Ok(answer) = legs.solve() else { return Ok(()) };
        let (told, all) = (most(&legs), legs.worst(There::All, legs.state).unwrap());
        let pairs = (0..legs.count()).flat_map(|one| (one + 1..legs.count()).map(move |other| There::Pair(one, other)));
        for there in pairs.chain([There::All]) {
            let mut worst = Worst::begin(&legs, there, legs.state).unwrap();
            for (number, shares) in places.iter().enumerate() {
                // Places inside, and corners at any swing.
                let at = |place: usize, band: Band| {
                    let share = if place == SWING || number % 4 == 0 { shares[place] } else { shares[place].round() };
                    band.low() + share * (band.high() - band.low())
                };
                let mut point = Point::default();
                for (place, band) in worst.bands.into_iter().enumerate() {
                    put(&mut point, place, at(place, band));
                }
                let case = worst.rigged.at(legs.state, &point).unwrap();
                let force = case.most().1;
                prop_assert!(force <= told * 1.001, "{force} above {told}, {there:?} at {point:?}");
                // Of each anchor by itself where all share.
                for (on, found) in case.on.iter().zip(&all.found).filter(|_| there == There::All) {
                    let (force, told) = (on.norm(), found.band.high());
                    prop_assert!(force <= told * 1.01 + 1.0, "{force} above {told} at {point:?}");
                }
            }
        }
        for (row, state) in answer.states.iter().zip(State::ALL) {
            let own = most(&AnchorLegs { state, ..legs });
            prop_assert!(row.band.high() >= own * 0.995, "{state:?}: {} for {own}", row.band.high());
        }
    }
}

/// The same legs seen from behind.
fn mirrored(legs: &AnchorLegs) -> AnchorLegs {
    AnchorLegs {
        out: -legs.out,
        right_higher: -legs.right_higher,
        swing_left: legs.swing_right,
        swing_right: legs.swing_left,
        ..*legs
    }
}

#[test]
fn a_swing_under_a_stiff_ring_is_found_on_either_side() {
    // A sling of 0.8 by 0.2 m swung 5° to one side, by the tensions of a ring on an ellipse with e^{μ(π − θ)} between them
    // at its stiffest: 5.5326 kN.
    let legs = AnchorLegs {
        rig: Rig::SelfEqualising,
        apart: Band::exact(metres(0.8)),
        down: Band::exact(metres(0.2)),
        right_higher: metres(0.0),
        swing_left: Angle::new::<degree>(5.0),
        swing_right: Angle::new::<degree>(0.0),
        material: LegMaterial::NylonLoop,
        ..AnchorLegs::default()
    };
    for legs in [&legs, &mirrored(&legs)] {
        let told = legs.solve().unwrap().comparisons[0].load.high();
        assert_relative_eq!(told, 5532.6, max_relative = 5e-4);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn two_legs_and_their_mirror_image_are_told_the_same(legs in any_legs(), rig in 0_usize..3) {
        let rig = [Rig::Fixed, Rig::SelfEqualising, Rig::Triangle][rig];
        let legs = AnchorLegs { anchors: 2, rig, ..legs };
        let (Ok(here), Ok(there)) = (legs.solve(), mirrored(&legs).solve()) else { return Ok(()) };
        for (here, there) in here.comparisons.iter().zip(&there.comparisons) {
            let (here, there) = (here.load.high(), there.load.high());
            prop_assert!((here / there - 1.0).abs() < 1e-3, "{here} and {there} of {legs:?}");
        }
    }
}

/// Three to six legs swung far: what the search leaves out of each single anchor, against 800 places under the heaviest
/// and a climb from the best. Of 1410 rigs, against 1500 places, seven have an anchor that gets over 2 % more than is told,
/// at most 20 %, none of these; before each anchor was looked at tied in every way there were 20, one of them 66 %, another
/// told as slack.
#[test]
fn few_single_anchors_of_many_legs_get_more_than_is_told() {
    let mut runner = TestRunner::new(Config { rng_seed: RngSeed::Fixed(7), ..Config::default() });
    let places = prop::collection::vec(prop::array::uniform14(0.0..1.0_f64), 800);
    let strategy = (any_legs(), prop::array::uniform2(0.0..60.0_f64), places);
    let (mut tried, mut missed) = (0, Vec::new());
    while tried < 200 {
        let (legs, swings, places) = strategy.new_tree(&mut runner).unwrap().current();
        let [swing_left, swing_right] = swings.map(Angle::new::<degree>);
        let legs = AnchorLegs { swing_left, swing_right, ..legs };
        let Some(all) = (legs.anchors > 2).then(|| legs.worst(There::All, legs.state).ok()).flatten() else { continue };
        tried += 1;
        let mut wild = Worst::begin(&legs, There::All, legs.state).unwrap();
        for (number, shares) in places.into_iter().enumerate() {
            let mut point = Point::default();
            for ((place, band), share) in wild.bands.into_iter().enumerate().zip(shares) {
                let share = if place == SWING || number % 4 == 0 { share } else { share.round() };
                put(&mut point, place, band.low() + share * (band.high() - band.low()));
            }
            wild.look(&loaded(point, wild.heavy)).unwrap();
        }
        for which in 0..legs.count() {
            wild.climb(which).unwrap();
            let (met, told) = (wild.found[which].band.high(), all.found[which].band.high());
            if met > 1.02 * told + 1.0 {
                missed.push((tried, which, met, told));
            }
        }
    }
    assert!(missed.is_empty(), "{missed:?}");
}
