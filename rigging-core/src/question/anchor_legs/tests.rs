//! The legs against textbook formulas, other ways to the same number, and their own limits.

use super::rigged::{Case, Point, Rigged};
use super::*;
use crate::law::{sling, triangle, two_legs};
use crate::quantity::{Force, newton, radian};
use crate::statics::Vector;
use approx::assert_relative_eq;

pub(super) fn metres(value: f64) -> Length {
    Length::new::<metre>(value)
}

pub(super) fn plain(rig: Rig, apart: f64, down: f64) -> AnchorLegs {
    AnchorLegs {
        rig,
        apart: Band::exact(metres(apart)),
        down: Band::exact(metres(down)),
        right_higher: metres(0.0),
        swing_left: Angle::new::<degree>(0.0),
        swing_right: Angle::new::<degree>(0.0),
        ring_friction: Band::exact(Ratio::new::<ratio>(0.0)),
        ..AnchorLegs::default()
    }
}

/// A place within the ranges: 85 kg and 5 kg of water, swing and friction as given.
fn point(legs: &AnchorLegs, stiffness: f64, swing: f64, friction: f64) -> Point {
    let (apart, down) = (legs.apart.typical().value, legs.down.typical().value);
    [75.0, 10.0, 30_000.0, stiffness, apart, down, swing, friction, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0]
}

fn case(legs: &AnchorLegs, point: &Point) -> Case {
    Rigged::new(legs, There::All).unwrap().at(legs.state, point).unwrap()
}

const KINDS: [LegMaterial; 4] =
    [LegMaterial::HmpeLoop, LegMaterial::NylonLoop, LegMaterial::SixMillimetreCord, LegMaterial::SevenMillimetreCord];

#[test]
fn all_three_rigs_agree_with_the_textbook_formulas_at_the_solved_angle() {
    for (apart, down) in [(1.0, 0.5), (0.4, 1.2), (2.0, 0.3)] {
        for material in KINDS {
            let stiffness = material.stiffness().typical();
            let rig = |rig| AnchorLegs { material, ..plain(rig, apart, down) };
            let fixed = rig(Rig::Fixed);
            let solved = case(&fixed, &point(&fixed, stiffness, 0.0, 0.0));
            let load = Force::new::<newton>(solved.load.norm());
            let leg = two_legs::equal(load, Angle::new::<radian>(solved.included)).unwrap().value;
            assert_relative_eq!(solved.on[0].norm(), leg, max_relative = 1e-8);

            let closed = rig(Rig::Triangle);
            let solved = case(&closed, &point(&closed, stiffness, 0.0, 0.0));
            let at_anchor = triangle::anchor_force(load, Angle::new::<radian>(solved.included)).unwrap().value;
            assert_relative_eq!(solved.on[0].norm(), at_anchor, max_relative = 1e-8);
        }
    }
}

#[test]
fn two_unequal_legs_under_a_swung_load_keep_the_triangle_of_forces() {
    let legs = AnchorLegs { right_depth: metres(0.2), point_depth: metres(0.15), ..AnchorLegs::default() };
    for swing in [-0.4, -0.1, 0.0, 0.2, 0.4] {
        let solved = case(&legs, &point(&legs, 15e3, swing, 0.0));
        let (a, b) = solved.off_load(0, 1);
        let angle = Angle::new::<radian>;
        let load = Force::new::<newton>(solved.load.norm());
        let textbook = two_legs::tensions(load, angle(a), angle(b)).unwrap();
        assert!(solved.tensions[0] > 0.0 && solved.tensions[1] > 0.0);
        assert_relative_eq!(solved.tensions[0], textbook.a.value, max_relative = 1e-6);
        assert_relative_eq!(solved.tensions[1], textbook.b.value, max_relative = 1e-6);
    }
}

#[test]
fn a_ring_that_friction_does_not_hold_back_is_the_ring_of_the_engine() {
    let legs = AnchorLegs { rig: Rig::SelfEqualising, ..AnchorLegs::default() };
    for swing in [-0.3, 0.0, 0.5] {
        let free = case(&legs, &point(&legs, 40e3, swing, 0.0));
        let barely = case(&legs, &point(&legs, 40e3, swing, 1e-12));
        assert_relative_eq!(free.tensions[0], free.tensions[1]);
        assert_relative_eq!(free.tensions[0], barely.tensions[0], max_relative = 1e-6);
        assert!((free.point - barely.point).norm() < 1e-5, "{} {}", free.point, barely.point);
        assert_relative_eq!(free.included, barely.included, max_relative = 1e-5);
        let parts = sling::parts(
            Force::new::<newton>(free.load.norm()),
            Angle::new::<radian>(free.included),
            Ratio::new::<ratio>(0.0),
        );
        assert_relative_eq!(free.tensions[0], parts.unwrap().heavy.value, max_relative = 1e-6);
        let held = case(&legs, &point(&legs, 40e3, swing, 0.29));
        let sum: Vector = held.on.iter().sum();
        assert!((sum - held.load).norm() < 1e-6 * held.load.norm());
        assert!(held.tensions[0] > held.tensions[1]);
    }
}

#[test]
fn a_ring_held_back_on_a_loop_loads_one_anchor_more() {
    // By hand: 1 m apart, parts of 2 m together, friction 0.29. The ring is about to slide 0.191 m to the left of the
    // middle, 59.1° between the parts; they carry 0.735 and 0.399 F. With 0.735 F between the anchors too, 70.0° from
    // the left part, the left anchor gets 2 · 0.735 F · cos 35.0° = 1.204 F, the right one 1.034 F; without friction each F.
    let (apart, both) = (1.0, 2.0);
    let legs = plain(Rig::Triangle, apart, (both * both - apart * apart).sqrt() / 2.0);
    let free = case(&legs, &point(&legs, 1e9, 0.0, 0.0));
    let held = case(&legs, &point(&legs, 1e9, 0.0, 0.29));
    let load = free.load.norm();
    assert_relative_eq!(free.on[0].norm(), load, max_relative = 1e-3);
    let sum: Vector = held.on.iter().sum();
    assert!((sum - held.load).norm() < 1e-6 * load);
    assert_relative_eq!(held.included.to_degrees(), 59.09, epsilon = 0.01);
    assert_relative_eq!(held.on[0].norm() / load, 1.204, epsilon = 5e-4);
    assert_relative_eq!(held.on[1].norm() / load, 1.034, epsilon = 5e-4);
    let answer = AnchorLegs { ring_friction: AnchorLegs::default().ring_friction, ..legs }.solve().unwrap();
    let step = answer.working.iter().find(|step| step.result.symbol == "on the anchor").unwrap();
    let given = |symbol: &str| step.given.iter().find(|given| given.symbol == symbol).unwrap().band.typical();
    let (part, between, angle) = (given("T"), given("B"), given("γ"));
    let on = (part * part + between * between + 2.0 * part * between * angle.cos()).sqrt();
    assert_relative_eq!(on, step.result.band.typical(), max_relative = 1e-6);
    assert_relative_eq!(on, answer.findings[0].band.high(), max_relative = 1e-6);
}

#[test]
fn what_pulls_on_the_anchors_is_the_load_whatever_the_rig() {
    for rig in [Rig::Fixed, Rig::SelfEqualising, Rig::Triangle] {
        for knots in [Knots::None, Knots::Limiter] {
            let legs = AnchorLegs { rig, knots, point_depth: metres(0.2), ..AnchorLegs::default() };
            let solved = case(&legs, &point(&legs, 130e3, 0.7, 0.1));
            let sum: Vector = solved.on.iter().sum();
            assert!((sum - solved.load).norm() < 1e-6 * solved.load.norm(), "{rig:?} {knots:?}");
        }
    }
}

#[test]
fn a_knot_stops_the_ring_and_makes_two_legs_of_fixed_length() {
    let free = AnchorLegs { rig: Rig::SelfEqualising, ..AnchorLegs::default() };
    let knotted = AnchorLegs { knots: Knots::Limiter, knot: metres(0.05), ..free };
    let at = |legs: &AnchorLegs, swing| case(legs, &point(legs, 160e3, swing, 0.0));
    assert_relative_eq!(at(&free, 0.05).tensions[0], at(&knotted, 0.05).tensions[0], max_relative = 1e-9);
    let stopped = at(&knotted, 0.8);
    assert!(stopped.tensions[0] > 1.2 * stopped.tensions[1].max(1.0), "{:?}", stopped.tensions);
    let (places, hung) = knotted.places(0.8, 0.55).unwrap();
    let slid = (stopped.point - places[0]).norm() / (1.0 + stopped.tensions[0] / 160e3) - (hung - places[0]).norm();
    assert_relative_eq!(slid, 0.05, epsilon = 1e-6);
    let beyond = AnchorLegs { knot: metres(0.9), ..knotted };
    assert!(beyond.solve().unwrap_err().to_string().contains("knot from the ring"));
}

#[test]
fn seen_in_a_mirror_the_anchors_change_places() {
    for rig in [Rig::Fixed, Rig::SelfEqualising, Rig::Triangle] {
        let legs = AnchorLegs { rig, ..AnchorLegs::default() };
        let mirrored = AnchorLegs {
            rig,
            out: -legs.out,
            right_higher: -legs.right_higher,
            swing_left: legs.swing_right,
            swing_right: legs.swing_left,
            ..AnchorLegs::default()
        };
        let seen = legs.worst(There::All, legs.state).unwrap();
        let turned = mirrored.worst(There::All, mirrored.state).unwrap();
        assert_relative_eq!(seen.found[0].band.high(), turned.found[1].band.high(), max_relative = 1e-3);
        assert_relative_eq!(seen.found[1].band.low(), turned.found[0].band.low(), max_relative = 2e-2);
        let (one, other) = (legs.fails().unwrap(), mirrored.fails().unwrap());
        for (one, other) in one[0].findings.iter().zip(&other[1].findings) {
            assert_relative_eq!(one.band.high(), other.band.high(), max_relative = 1e-6);
        }
    }
}

#[test]
fn the_state_stands_beside_the_force_and_a_loop_and_the_hardest_catch_are_compared_too() {
    let still = AnchorLegs { rig: Rig::Triangle, state: State::Still, ..AnchorLegs::default() };
    let answer = still.solve().unwrap();
    let [anchor, in_loop, catch] = &answer.comparisons[..] else { panic!("{:?}", answer.comparisons) };
    assert!(anchor.what.starts_with("on the ") && anchor.what.ends_with(", hanging still"), "{}", anchor.what);
    assert_eq!(in_loop.what, "in the loop, hanging still");
    assert!(
        catch.what.starts_with("on the worst anchor left, at the catch, hanging still before, if the "),
        "{}",
        catch.what
    );
    let catches = answer.outcomes.iter().map(|outcome| outcome.findings[0].band.high());
    assert_eq!(catches.fold(0.0, f64::max), catch.load.high());
    assert!(catch.load.high() > anchor.load.high());
    assert_eq!(AnchorLegs::default().solve().unwrap().comparisons.len(), 2);
}

#[test]
fn a_load_that_swings_past_a_leg_hangs_on_one_anchor() {
    let legs = AnchorLegs { scatter: metres(0.0), ..plain(Rig::Fixed, 0.6, 1.0) };
    let mut all = legs.worst(There::All, legs.state).unwrap();
    let slack = legs.slack(&mut all).unwrap();
    assert!(slack.within.is_empty() && slack.beyond.len() == 2);
    for ((leg, swing), (other, way)) in slack.beyond.iter().zip([(1, 1.0), (0, -1.0)]) {
        // As drawn a leg leans by atan 0.3; loaded legs are a little longer and so a little steeper.
        assert_eq!(*leg, other);
        assert!((swing - way * 0.3_f64.atan()).abs() < 0.01, "{swing}");
    }
    let swung = case(&legs, &point(&legs, 160e3, 0.5, 0.0));
    assert_eq!(swung.tensions[1], 0.0);
    assert_relative_eq!(swung.on[0].norm(), swung.load.norm(), max_relative = 1e-9);
}

#[test]
fn no_anchor_carries_less_under_more_load() {
    for rig in [Rig::Fixed, Rig::SelfEqualising, Rig::Triangle] {
        for material in KINDS {
            let legs = AnchorLegs { rig, material, ..AnchorLegs::default() };
            let mut rigged = Rigged::new(&legs, There::All).unwrap();
            for swing in [-0.6_f64, 0.0, 0.3] {
                let place = point(&legs, material.stiffness().typical(), swing, 0.0);
                let mut least = 0.0;
                for load in [100.0, 500.0, 1000.0, 3000.0, 6000.0, 20_000.0] {
                    let most =
                        rigged.under(Vector::new(swing.sin(), 0.0, -swing.cos()) * load, &place).unwrap().most().1;
                    assert!(most > least, "{rig:?} {material:?} {swing} {load}");
                    least = most;
                }
            }
        }
    }
}

/// Three anchors 0.6 m apart in line, 1 m above the point, 3 kN (the middle one is the third).
fn three_in_line() -> AnchorLegs {
    let third = Spot { right: metres(0.6), above: metres(0.0), depth: metres(0.0) };
    AnchorLegs { anchors: 3, third, ..plain(Rig::Fixed, 1.2, 1.0) }
}

#[test]
fn the_middle_of_three_legs_takes_what_millimetres_give_it() {
    // Derived in the check values of the project: least and most share of the middle leg.
    for (stiffness, scatter, least, most) in
        [(30e3, 0.01, 0.31, 0.56), (30e3, 0.02, 0.19, 0.69), (100e3, 0.01, 0.03, 0.85), (100e3, 0.02, 0.0, 1.0)]
    {
        let legs = three_in_line();
        let mut rigged = Rigged::new(&legs, There::All).unwrap();
        let mut share = |middle: f64| {
            let mut place = point(&legs, stiffness, 0.0, 0.0);
            (place[8], place[9], place[10]) = (-middle, -middle, middle);
            rigged.under(Vector::new(0.0, 0.0, -3000.0), &place).unwrap().tensions[2] / 3000.0
        };
        assert!((share(scatter) - least).abs() < 0.006, "{stiffness} {scatter}: {}", share(scatter));
        assert!((share(-scatter) - most).abs() < 0.006, "{stiffness} {scatter}: {}", share(-scatter));
    }
}

#[test]
fn no_way_of_tying_is_worse_than_the_one_found() {
    for anchors in [3, 4, 5] {
        let legs = AnchorLegs { anchors, ..AnchorLegs::default() };
        let worst = legs.worst(There::All, legs.state).unwrap();
        let mut rigged = Rigged::new(&legs, There::All).unwrap();
        for swing in [-5.0_f64, 0.0, 8.0, 15.0] {
            for way in 0..1_u32 << anchors {
                let mut place = worst.found[0].at_high;
                (place[4], place[5], place[6]) = (0.8, 0.55, swing.to_radians());
                for leg in 0..anchors {
                    place[8 + leg as usize] = if way >> leg & 1 == 1 { 0.015 } else { -0.015 };
                }
                for (on, spread) in rigged.at(legs.state, &place).unwrap().on.iter().zip(&worst.found) {
                    assert!(on.norm() <= spread.band.high() * 1.005, "{anchors} {swing} {way}: {}", on.norm());
                }
            }
        }
    }
}

#[test]
fn more_than_two_legs_are_first_counted_as_one_pair() {
    let answer = three_in_line().solve().unwrap();
    let [pair, ..] = answer.findings.as_slice() else { panic!() };
    assert!(pair.what.contains("if all hangs on it and") && pair.what.contains("anchor 3"), "{}", pair.what);
    // Straight above the point the middle anchor carries the whole load.
    let load = answer.scene.polygon[0].pull;
    assert_relative_eq!(pair.band.high(), super::super::scene::size(load), max_relative = 2e-2);
    assert!(answer.findings[1..].iter().all(|finding| finding.band.high() <= pair.band.high() * 1.001));
    assert_eq!(answer.outcomes.len(), 3);
    assert!(answer.scene.lines.iter().any(|line| line.tension == 0.0));
}

#[test]
fn one_sling_through_more_than_two_anchors_is_refused_by_name() {
    for rig in [Rig::SelfEqualising, Rig::Triangle] {
        let legs = AnchorLegs { rig, anchors: 3, ..AnchorLegs::default() };
        let error = legs.solve().unwrap_err().to_string();
        assert!(error.contains("number of anchors") && error.contains("How the legs are tied"), "{error}");
    }
}

#[test]
fn an_anchor_that_fails_lets_the_other_leg_hang_plumb() {
    let legs = AnchorLegs { scatter: metres(0.0), state: State::Still, ..plain(Rig::Fixed, 0.8, 0.6) };
    let outcome = |legs: &AnchorLegs| legs.fails().unwrap().remove(0);
    let find = |outcome: &super::super::answer::Outcome, what: &str| {
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
fn a_sewn_sling_with_limiter_knots_is_not_below_its_figure_without_them() {
    let figure = |knots| {
        let mut legs =
            AnchorLegs { rig: Rig::SelfEqualising, knots, state: State::Still, ..plain(Rig::Fixed, 0.4, 1.0) };
        let sling = crate::strength::Strength::named("sewn sling").unwrap();
        legs.against.limit = against::LimitChoice::Published(sling);
        legs.against.holds = against::Holds::KnownBolt;
        legs.against.factor = Ratio::new::<ratio>(2.0);
        legs.solve().unwrap().comparisons.iter().map(|row| row.standing.words()).collect::<Vec<_>>()
    };
    assert!(figure(Knots::None).contains(&"below limit"));
    assert!(!figure(Knots::Limiter).contains(&"below limit"), "{:?}", figure(Knots::Limiter));
}

#[test]
fn a_state_that_is_not_chosen_has_the_range_that_it_has_when_it_is() {
    let legs = AnchorLegs { anchors: 3, ..AnchorLegs::default() };
    let states = legs.solve().unwrap().states;
    let lows: Vec<f64> = states.iter().map(|state| state.band.low()).collect();
    // Somebody who goes down steadily may pull no more than their weight.
    assert!(lows[1] <= lows[0] * (1.0 + 1e-6), "{lows:?}");
    for (told, state) in states.iter().zip(State::ALL) {
        let asked = AnchorLegs { state, ..legs }.solve().unwrap().findings.remove(0).band;
        assert!(told.band.low() <= asked.low() * 1.01, "{state:?}: {:?} and {asked:?}", told.band);
        assert_relative_eq!(told.band.high(), asked.high(), max_relative = 1e-3);
    }
}

#[test]
fn the_present_point_of_a_curve_is_the_big_number() {
    for rig in [Rig::Fixed, Rig::SelfEqualising, Rig::Triangle] {
        let answer = AnchorLegs { rig, ..AnchorLegs::default() }.solve().unwrap();
        assert_eq!(answer.graphs.len(), 2);
        for graph in &answer.graphs {
            let here = graph.here.unwrap();
            assert_relative_eq!(here.up.high(), answer.findings[0].band.high(), max_relative = 1e-9);
            assert!(graph.curve.windows(2).all(|pair| pair[0].across <= pair[1].across));
        }
    }
}

#[test]
fn depth_is_seen_from_the_side_and_every_polygon_closes() {
    let third = Spot { right: metres(0.4), above: metres(0.3), depth: metres(-0.2) };
    let legs =
        AnchorLegs { anchors: 3, third, right_depth: metres(0.1), point_depth: metres(0.3), ..AnchorLegs::default() };
    let answer = legs.solve().unwrap();
    for scene in [&answer.scene, answer.aside.as_ref().unwrap()] {
        let sum = scene.polygon.iter().fold([0.0, 0.0], |[x, y], arrow| [x + arrow.pull[0], y + arrow.pull[1]]);
        assert!(super::super::scene::size(sum) < 1e-5, "{sum:?}");
    }
    assert!(answer.aside.unwrap().anchors[1][0] > 0.0, "out from the rock lies to the right");
    assert!(AnchorLegs::default().solve().unwrap().aside.is_none());
}

#[test]
fn anchors_one_above_the_other_further_than_they_are_apart_are_refused() {
    let legs = AnchorLegs { right_higher: metres(2.0), ..AnchorLegs::default() };
    assert!(legs.solve().unwrap_err().to_string().contains("height of one anchor above the other"));
    let buried = AnchorLegs { out: metres(-0.02), scatter: metres(0.02), ..plain(Rig::Fixed, 0.06, 0.01) };
    assert!(buried.solve().unwrap_err().to_string().contains("length of a leg"));
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
