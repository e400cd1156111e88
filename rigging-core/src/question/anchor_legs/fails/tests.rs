//! What an anchor that fails leaves to the others, by hand and at every way of tying.

use super::super::tests::{metres, plain};
use super::super::{Rig, Spot};
use super::*;
use crate::question::Solve as _;
use crate::question::anchor_legs::{Knots, LegMaterial};
use approx::assert_relative_eq;

#[test]
fn an_anchor_that_fails_lets_the_other_leg_hang_plumb() {
    let legs = AnchorLegs { scatter: metres(0.0), state: State::Still, ..plain(Rig::Fixed, 0.8, 0.6) };
    let outcome = |legs: &AnchorLegs| legs.fails().unwrap().remove(0);
    let find = |outcome: &Outcome, what: &str| {
        outcome.findings.iter().find(|finding| finding.what.contains(what)).unwrap().band
    };
    let fixed = outcome(&legs);
    assert_eq!(fixed.case, "If the left anchor fails");
    let leg = 0.4_f64.hypot(0.6);
    assert!((find(&fixed, "drop").typical() - (leg - 0.6)).abs() < 0.005);
    assert!((find(&fixed, "to the side").typical() - 0.4).abs() < 0.001);
    let weight = legs.people.weight_of_all(75.0, 10.0);
    assert_relative_eq!(find(&fixed, "still afterwards").typical(), weight, max_relative = 1e-6);
    assert!(find(&fixed, "catch").low() > weight && find(&fixed, "catch").high() > 2.0 * weight);

    // The whole sling runs through; a knot leaves its own length; half of a closed loop is left.
    let sling = AnchorLegs { rig: Rig::SelfEqualising, ..legs };
    let drop = |legs: &AnchorLegs| find(&outcome(legs), "drop").typical();
    assert!((drop(&sling) - (2.0 * leg - 0.6)).abs() < 0.01, "{}", drop(&sling));
    let knotted = AnchorLegs { knots: Knots::Limiter, ..sling };
    assert!((drop(&knotted) - (leg + 0.1 - 0.6)).abs() < 0.01, "{}", drop(&knotted));
    let closed = AnchorLegs { rig: Rig::Triangle, ..legs };
    assert!((drop(&closed) - (leg + 0.4 - 0.6)).abs() < 0.02, "{}", drop(&closed));
    let catch = |legs: &AnchorLegs| find(&outcome(legs), "catch").high();
    assert!(catch(&sling) > catch(&knotted) && catch(&knotted) > catch(&legs));
    // Less rope catches harder.
    assert!(catch(&AnchorLegs { rope: metres(1.0), ..legs }) > catch(&legs));
}

#[test]
fn an_anchor_that_fails_in_the_middle_of_a_slip_leaves_more_than_the_slip_to_the_other() {
    let legs = AnchorLegs { scatter: metres(0.0), ..plain(Rig::Fixed, 0.8, 0.55) };
    let answer = legs.solve().unwrap();
    let (slip, still) = (&answer.outcomes[0].findings[0], &answer.outcomes[0].findings[1]);
    assert!(
        slip.what.ends_with("in the middle of a slip or a jerk") && still.what.ends_with("hanging still before"),
        "{}",
        slip.what
    );
    let all = legs.people.spread(State::Slip).unwrap().band;
    assert!(slip.band.low() < all.low() && slip.band.high() > all.high());
    // However short or long the rope is, a slip adds to the drop.
    for rope in [0.2, 0.5, 1.0, 3.0, 20.0, 200.0] {
        let outcome = AnchorLegs { rope: metres(rope), ..legs }.fails().unwrap().remove(0);
        let [slip, still, ..] = &outcome.findings[..] else { panic!("{outcome:?}") };
        assert!(slip.band.high() > still.band.high(), "{rope}: {:?} and {:?}", slip.band, still.band);
    }
    // By hand on legs that give nothing, the heaviest: W (1 + √(1 + 2 k (f + e)/W)), EA 49 kN, f 0.5 m, e 0.13 m.
    let (weight, drop) = (117.0 * 9.806_65, 0.4_f64.hypot(0.55) - 0.55);
    let most = weight * (1.0 + (1.0 + 2.0 * 49e3 / 3.0 * (0.5 + drop) / weight).sqrt());
    assert!(slip.band.high() < most && slip.band.high() > 0.95 * most, "{} of {most}", slip.band.high());
    // It is the one that is compared, carried on, and missed where no slip is judged.
    assert!(answer.comparisons.iter().any(|row| row.load.high() == slip.band.high()));
    assert!(answer.carried.unwrap().anchor.high() >= slip.band.high());
    let missed =
        |legs: &AnchorLegs| legs.solve().unwrap().not_in.iter().any(|words| words.contains("middle of a slip"));
    assert!(!missed(&legs) && missed(&AnchorLegs { state: State::Jerky, ..legs }));
}

#[test]
fn an_anchor_that_fails_in_the_middle_of_a_jerk_leaves_all_of_it_and_the_drop_to_the_other() {
    // Long rope and little drop: by hand, 3.2 times the heaviest, 117 kg, and W [1 + √((3.2 − 1)² + 2 e/d)] at most.
    let legs =
        AnchorLegs { scatter: metres(0.0), rope: metres(12.0), state: State::Jerky, ..plain(Rig::Fixed, 0.8, 0.4) };
    let answer = legs.solve().unwrap();
    let [jerk, still, ..] = &answer.outcomes[0].findings[..] else { panic!("{:?}", answer.outcomes) };
    assert!(jerk.what.ends_with("in the middle of a jerk") && still.what.ends_with("hanging still before"));
    let weight = 117.0 * 9.806_65;
    // The rope gives W · 12 m/49 kN, the leg next to nothing.
    let drop = 0.4_f64.hypot(0.4) - 0.4;
    let most = weight * (1.0 + (2.2_f64.powi(2) + 2.0 * drop / (weight * 12.0 / 49e3)).sqrt());
    assert!(jerk.band.high() > 3.2 * weight && (jerk.band.high() / most - 1.0).abs() < 0.03, "{:?}, {most}", jerk.band);
    assert!(answer.comparisons.iter().any(|row| row.load.high() == jerk.band.high()));
}

#[test]
fn a_slip_falls_from_the_loose_point_and_is_judged_with_jerks() {
    let most = |legs: &AnchorLegs| legs.fails().unwrap().remove(0).findings.remove(0).band.high();
    // Flat legs of cord stretch far under two: loose the point is 0.05 m below the anchors, and hangs 1 m below one of
    // them then. By hand W (1 + √(1 + 2 (f + e)/d)), d = W (3 m/49 kN + 1 m/20 kN).
    let legs = AnchorLegs {
        material: LegMaterial::SixMillimetreCord,
        scatter: metres(0.0),
        rope: metres(3.0),
        ..plain(Rig::Fixed, 2.0, 0.05)
    };
    let (weight, leg) = (117.0 * 9.806_65, 1.0_f64.hypot(0.05));
    let gives = weight * (3.0 / 49e3 + leg / 20e3);
    let by_hand = weight * (1.0 + (1.0 + 2.0 * (0.5 + leg - 0.05) / gives).sqrt());
    // A thousandth of the weight, under which the loose point is looked for, sags the flat legs by a centimetre.
    assert!((most(&legs) / by_hand - 1.0).abs() < 3e-3, "{} {by_hand}", most(&legs));
    // Where half a metre is little beside what rope and legs give, jerks pull harder, and who may slip may jerk.
    let mut jerks = 0;
    for (apart, down, rope) in [(10.0, 0.5, 3.0), (30.0, 2.0, 0.2), (30.0, 4.0, 0.2), (0.8, 0.55, 60.0)] {
        let legs = AnchorLegs { rope: metres(rope), scatter: metres(0.0), ..plain(Rig::Fixed, apart, down) };
        let of = |state| most(&AnchorLegs { material: LegMaterial::SixMillimetreCord, state, ..legs });
        let (slip, jerk) = (of(State::Slip), of(State::Jerky));
        assert!(slip >= jerk, "{apart} {down} {rope}: {slip} {jerk}");
        jerks += u32::from(slip <= jerk * (1.0 + 1e-9));
    }
    assert!(jerks > 0, "no case in which jerks pull harder");
}

#[test]
fn a_leg_that_was_tied_short_drops_whom_it_held_as_far_as_the_others_are_long() {
    let mut legs = AnchorLegs { state: State::Still, ..plain(Rig::Fixed, 0.1, 0.6) };
    legs.rope = metres(0.3);
    let caught = |legs: &AnchorLegs| legs.solve().unwrap().outcomes[0].findings.clone();
    let drop = |legs: &AnchorLegs| caught(legs)[2].band.high();
    // One leg 2 cm short, the other 2 cm long, nearly side by side: from hanging on the one to hanging on the other.
    legs.scatter = metres(0.02);
    assert!((drop(&legs) - 0.04).abs() < 5e-4, "{}", drop(&legs));
    assert!(caught(&legs)[0].band.high() > 4000.0);
    // Two that are left, side by side: one of them may carry everything.
    legs.anchors = 3;
    legs.apart = Band::exact(metres(0.12));
    legs.third = Spot { right: metres(0.06), above: metres(0.15), depth: metres(0.0) };
    let heaviest = 117.0 * 9.806_65;
    let outcome = legs.solve().unwrap().outcomes.remove(2);
    let still = outcome.findings.iter().find(|finding| finding.what.ends_with("afterwards")).unwrap().band.high();
    assert!(still > 0.99 * heaviest, "{still} of {heaviest}");
}

#[test]
fn who_are_clipped_to_the_station_hang_on_a_rope_each() {
    let mut legs = plain(Rig::SelfEqualising, 0.8, 0.55);
    legs.rope = metres(0.6);
    let catch = |people| {
        let mut legs = legs;
        legs.people.count = people;
        legs.solve().unwrap().outcomes[0].findings[0].band.high()
    };
    // Each falls as far as one alone would and stretches no more than a rope of their own: only what the legs give
    // is shared.
    assert!(catch(4) > 2.9 * catch(1), "{} and {}", catch(4), catch(1));
}

#[test]
fn the_heaviest_drop_most_on_the_softest_legs() {
    // Two legs of 6 mm cord, EA 10 kN at the least, of which one fails: those who hung half way between, each leg
    // stretched, hang plumb below the other.
    let [body, kit, water] = [110.0, 30.0, AnchorLegs::default().people.water.value];
    let (weight, stiffness) = (2.0 * (body + kit + water) * 9.806_65, 10e3);
    let leg = 0.4_f64.hypot(0.55);
    let (mut low, mut high) = (0.55, 2.0);
    for _ in 0..60 {
        let down = f64::midpoint(low, high);
        let long = 0.4_f64.hypot(down);
        if 2.0 * stiffness * (long / leg - 1.0) * down / long < weight { low = down } else { high = down }
    }
    let drop = leg * (1.0 + weight / stiffness) - low;
    let mut legs = plain(Rig::Fixed, 0.8, 0.55);
    legs.material = LegMaterial::SixMillimetreCord;
    let kilograms = crate::quantity::Mass::new::<crate::quantity::kilogram>;
    legs.people.count = 2;
    legs.people.body = Band::of(58.0, 75.0, body).map(kilograms);
    legs.people.kit = Band::of(5.0, 10.0, kit).map(kilograms);
    legs.scatter = metres(0.0);
    let outcome = legs.solve().unwrap().outcomes.remove(0);
    let told = outcome.findings.iter().find(|finding| finding.what == "drop of the master point").unwrap();
    assert_relative_eq!(told.band.high(), drop, max_relative = 1e-3);
}

/// Nobody slips farther than the rope is long, nor onto more of it than there is.
#[test]
fn a_slip_falls_on_the_rope_that_was_entered() {
    let legs = AnchorLegs { scatter: metres(0.0), ..plain(Rig::Fixed, 0.8, 0.55) };
    let told = |rope: f64| AnchorLegs { rope: metres(rope), ..legs }.solve().unwrap();
    // The heaviest, 117 kg, EA 41 kN: W [1 + √(1 + 2 EA f/W)] with f = 0.5/3, 0.5/1, 0.5/0.5, 0.2/0.2; two legs of 36° each.
    let weight = 117.0 * 9.806_65_f64;
    let leg = 0.4_f64.hypot(0.55);
    let mut before = f64::INFINITY;
    for (rope, factor) in [(0.2, 1.0), (0.5, 1.0), (1.0, 0.5), (3.0, 0.5 / 3.0), (200.0, 0.5 / 3.0)] {
        let answer = told(rope);
        let slip = weight * (1.0 + (1.0 + 2.0 * 41e3 * factor / weight).sqrt());
        let on_each = slip * leg / (2.0 * 0.55);
        let most = answer.findings[0].band.high();
        // The legs stretch a little, which makes the angle between them narrower.
        assert!(most < on_each && most > 0.98 * on_each, "{rope}: {most} for {on_each}");
        assert_eq!(answer.states[3].band.high(), most);
        assert!(most <= before && answer.carried.unwrap().rope.high() >= slip);
        before = most;
        // The working comes to the same load from the stiffness and the fall factor that it shows.
        let step = answer.working.iter().find(|step| step.what.starts_with("Load: a slip")).unwrap();
        let given = |symbol: &str| step.given.iter().find(|given| given.symbol == symbol).unwrap().band.typical();
        let by_it = given("W₁") * (1.0 + (1.0 + 2.0 * given("EA") * given("f") / given("W₁")).sqrt());
        assert_relative_eq!(by_it, step.result.band.typical(), max_relative = 1e-9);
        assert!(given("EA") <= 41e3 + 1e-6 && (given("f") - factor).abs() < 1e-12);
    }
    // What does not slip is not jerked harder.
    let still = |rope: f64| told(rope).states[2].band.high();
    assert_relative_eq!(still(0.2), still(3.0), max_relative = 1e-9);
}

/// Flat pairs pull harder the shorter both are tied; of more legs any may be long or short.
#[test]
fn no_way_of_tying_leaves_more_than_is_told() {
    let spot = |right, above, depth| Spot { right: metres(right), above: metres(above), depth: metres(depth) };
    let flat = AnchorLegs { anchors: 3, third: spot(0.75, 0.3, 0.0), ..plain(Rig::Fixed, 1.5, 0.15) };
    let deep = AnchorLegs {
        anchors: 5,
        apart: Band::exact(metres(3.124)),
        down: Band::exact(metres(0.284)),
        out: metres(-0.17),
        right_higher: metres(-0.11),
        right_depth: metres(0.044),
        material: LegMaterial::NylonLoop,
        third: spot(0.084, 0.542, 0.0),
        fourth: spot(0.516, -0.151, 0.082),
        fifth: spot(1.086, 0.078, 0.0),
        ..flat
    };
    let four = AnchorLegs { anchors: 4, fourth: spot(0.5, 0.1, 0.3), ..flat };
    for legs in [flat, deep, four] {
        let [light, heavy] =
            legs.loads(State::Still).unwrap().map(|[body, kit, _]| legs.people.weight_of_all(body, kit));
        let tied = |stiffness: f64, short: u32| {
            let mut point = Point::default();
            let place = [0.0, 0.0, 0.0, stiffness, legs.apart.high().value, legs.down.high().value];
            point[..6].copy_from_slice(&place);
            legs.tied(point, short, legs.tied_long())
        };
        for (failed, outcome) in legs.fails().unwrap().iter().enumerate() {
            let told = |words: &str| outcome.findings.iter().find(|found| found.what.ends_with(words)).unwrap().band;
            let (still, drop) = (told("hanging still afterwards"), told("drop of the master point"));
            let rig = |there| Rigged::new(&legs, there).unwrap();
            let (mut all, mut left, mut pairs) =
                (rig(There::All), rig(There::Without(failed)), legs.pairs_left().unwrap());
            pairs.retain(|pair| pair.there.within(There::Without(failed)));
            for stiffness in [legs.material.stiffness().low(), legs.material.stiffness().high()] {
                for (short, weight) in (0..1_u32 << legs.count()).flat_map(|short| [(short, light), (short, heavy)]) {
                    let point = tied(stiffness, short);
                    let [before, after] = [&mut all, &mut left].map(|rig| rig.under(plumb(weight), &point).unwrap());
                    let (most, fallen) = (after.most().1, before.point.z - after.point.z);
                    assert!(most <= still.high() * 1.001, "{failed} {short:b}: {most} of {still:?}");
                    assert!(fallen <= drop.high() + 1e-4, "{failed} {short:b}: {fallen} of {drop:?}");
                    for pair in &mut pairs {
                        let most = pair.under(plumb(weight), &point).unwrap().most().1;
                        assert!(most <= still.high() * 1.001, "{failed} {:?} {short:b}: {most}", pair.there);
                    }
                }
            }
        }
    }
    // The same pair carries no less after a drop than without one.
    let answer = flat.solve().unwrap();
    let pair = answer.findings.iter().find(|found| found.what.contains("and the right anchor alone")).unwrap();
    let after = &answer.outcomes[2].findings[0];
    assert!(after.band.high() >= pair.band.high(), "{pair:?} {after:?}");
}

/// Of two legs side by side the one long drops far and the one short takes all: between them is a way of nearly both.
#[test]
fn between_short_and_long_no_catch_is_harder_than_told() {
    for (apart, down, third, rope) in [(0.1, 0.41, [0.014, -0.043], 0.2), (0.3, 0.8, [0.15, 0.1], 0.5)] {
        let third = Spot { right: metres(third[0]), above: metres(third[1]), depth: metres(0.0) };
        let legs =
            AnchorLegs { anchors: 3, third, rope: metres(rope), state: State::Still, ..plain(Rig::Fixed, apart, down) };
        let told = legs.fails().unwrap();
        for (failed, outcome) in told.iter().enumerate() {
            let rig = |there| Rigged::new(&legs, there).unwrap();
            let (all, left) = (rig(There::All), rig(There::Without(failed)));
            let mut failing = Failing { legs: &legs, failed, all, left, pairs: &mut [], found: None };
            let end = End { of: Band::high, legs: Band::high, ropes: 1, long: 0.0, short: 0, least: false, most: true };
            let mut before = failing.before(end, [apart, down]).unwrap();
            let mut most = 0.0_f64;
            for way in 0..15 * 15 {
                let between = |step: i32| 0.015 * f64::from(step - 7) / 7.0;
                let mut lengths = [between(way % 15), between(way / 15)].into_iter();
                for leg in 0..3 {
                    let long = if leg == failed { -0.015 } else { lengths.next().unwrap() };
                    put(&mut before.point, LENGTHS + leg, long);
                }
                before.hung = failing.all.under(plumb(before.weight), &before.point).unwrap().point;
                most = failing.shared(&before).unwrap().0[CATCH].max(most);
            }
            let caught = outcome.findings[0].band.high();
            assert!(most <= 1.001 * caught, "{failed}: {most} of {caught}");
        }
    }
}
