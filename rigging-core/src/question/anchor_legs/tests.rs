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
