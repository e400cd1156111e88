//! Each way of rigging worked by hand, limits, and what is told of which bottom.

use super::super::answer::{Answer, End, Finding};
use super::super::{BadInput, Solve};
use super::{Bottom, Hung, RopeEnd, StretchBy, Water};
use crate::band::Band;
use crate::quantity::{Force, Length, Mass, Ratio, kilogram, kilonewton, metre, ratio};
use approx::assert_relative_eq;

fn metres(si: f64) -> Length {
    Length::new::<metre>(si)
}

/// A drop of exactly 20 m, 3 m behind the lip; one person of 75 + 15 + 5 kg, 931.63175 N, on dry rope of EA 20 kN and
/// 9 mm, which weighs 0.6456 g × 81 × 9.80665 = 0.5128252 N for each metre.
fn by_hand() -> RopeEnd {
    let mut rope = RopeEnd {
        height: Band::exact(metres(20.0)),
        let_out: metres(22.0),
        stiffness: Band::exact(Force::new::<kilonewton>(20.0)),
        water: Water::Dry,
        ..RopeEnd::default()
    };
    rope.people.body = Band::exact(Mass::new::<kilogram>(75.0));
    rope.people.kit = Band::exact(Mass::new::<kilogram>(15.0));
    rope
}

fn answer(rope: &RopeEnd) -> Answer {
    rope.solve().unwrap_or_else(|error| panic!("{error}"))
}

fn found(answer: &Answer, words: &str) -> Finding {
    let mut findings = answer.findings.iter();
    findings.find(|finding| finding.what.contains(words)).unwrap_or_else(|| panic!("{words}: {answer:?}")).clone()
}

fn near(value: f64, expected: f64) {
    assert!((value - expected).abs() < 1e-4, "{value}, not {expected}");
}

#[test]
fn releasable_by_hand() {
    let answer = answer(&by_hand());
    // 19 m below the lip weigh 9.7437 N. Own stretch (9.7437·3 + 9.7437·9.5)/20000 = 0.00609 m; under the person
    // 931.63175·22/20000 = 1.02479 m more.
    near(found(&answer, "unloaded").adverse(), 23.0 - 22.0 - 0.00609);
    let end = &answer.findings[0];
    assert!(end.what.starts_with("below the water") && end.end == End::Low, "{end:?}");
    near(end.adverse(), 1.02479 + 0.00609 - 1.0);
    // The whole way: 10.2565 N below the lip, own stretch (10.2565·3 + 10.2565·10)/20000 = 0.00667 m, under the person
    // 931.63175·23/20000 = 1.07138 m.
    let reserve = 20.0 + 3.0 + 1.07138 + 0.00667 + 1.0;
    near(found(&answer, "needed at the station").adverse(), reserve);
    // 50 m, 1 m in knots, 22 m let out: 27 m are left.
    near(found(&answer, "left at the station").adverse(), 27.0 - reserve);
    near(found(&answer, "to carry, dry").adverse(), 50.0 * 0.052_293_6);
    assert!(answer.carried.is_none() && answer.comparisons.is_empty() && answer.usual.is_empty());
}

#[test]
fn fixed_at_the_middle_by_hand() {
    let answer = answer(&RopeEnd { hung: Hung::Fixed, ..by_hand() });
    // (50 − 1)/2 = 24.5 m; 1.5 m of it lie at the bottom, and the person hangs there: 1.07805 m of stretch.
    near(found(&answer, "someone hanging at it").adverse(), 24.5 - 23.0 + 1.07805);
    near(found(&answer, "unloaded").adverse(), 1.5 + 0.00667);
    // The other half is pulled: 3 + 20 + 1 m of it reach a hand.
    near(found(&answer, "strand or cord to pull left").adverse(), 24.5 - 24.0);
    near(found(&answer, "both halves").adverse(), 2.0 * 24.0 + 1.0);
    assert!(answer.remarks[0].starts_with("Cannot be paid out: nothing to lower a stuck person with."));
    assert!(!answer.findings.iter().any(|finding| finding.what.contains("at the station")), "{:?}", answer.findings);
}

#[test]
fn doubled_through_the_ring_by_hand() {
    let doubled = RopeEnd { hung: Hung::Doubled, ..by_hand() };
    let one = answer(&doubled);
    // Each strand bears half: 465.815875·23/20000 = 0.53569 m, and 0.00667 m of its own.
    near(found(&one, "someone hanging at it").adverse(), 24.5 - 23.0 + 0.53569 + 0.00667);
    assert!(one.remarks[0].starts_with("Cannot be paid out"));
    // The end at the water: L + 465.815875 L/20000 + own stretch = 23, less than the 24 m that a hand pulls by.
    let strand = (23.0 - 0.0064) / (1.0 + 465.815_875 / 20_000.0);
    assert!((found(&one, "for each strand").adverse() - strand).abs() < 1e-3);
    near(found(&one, "both strands").adverse(), 2.0 * 24.0 + 1.0);
    // 3 m farther down it is more: two of them and 1 m in knots.
    let deep = answer(&RopeEnd { end_above: metres(-3.0), ..doubled });
    // Below the bottom nothing hangs that gives.
    near(found(&deep, "both strands").adverse(), 2.0 * (26.0 - 0.53569 - 0.00667) + 1.0);
    // With 24 m joined to it the shorter strand counts, and both are carried.
    let two = answer(&RopeEnd { second: metres(24.0), ..doubled });
    near(found(&two, "unloaded").adverse(), 24.0 - 0.5 - 23.0 + 0.00667);
    near(found(&two, "strand or cord to pull missing").adverse(), 24.0 - 23.5);
    // In moving water the end of the longer one is told, and still the shorter one may be the one to pull.
    let moving = answer(&RopeEnd { second: metres(24.0), bottom: Bottom::Moving, ..doubled });
    near(found(&moving, "strand or cord to pull missing").adverse(), 24.0 - 23.5);
    near(found(&two, "to carry, dry").adverse(), 74.0 * 0.052_293_6);
}

#[test]
fn the_strand_to_pull_bears_nobody_and_has_to_reach_a_hand_all_the_same() {
    // A soft rope that ends below the ground under a person may hang out of reach afterwards: of 118 m each half is
    // 59 m, and a hand needs 3 + 60 + 1 m of it.
    let soft = RopeEnd {
        height: Band::exact(metres(60.0)),
        rope: metres(118.0),
        knots: metres(0.0),
        bottom: Bottom::Stand,
        stiffness: Band::exact(Force::new::<kilonewton>(8.0)),
        ..by_hand()
    };
    for (hung, halves) in [(Hung::Fixed, "both halves"), (Hung::Doubled, "both strands")] {
        let told = answer(&RopeEnd { hung, ..soft });
        near(found(&told, "strand or cord to pull missing").adverse(), 64.0 - 59.0);
        near(found(&told, halves).adverse(), 128.0);
        assert!(told.remarks.iter().any(|remark| remark.contains("two strands of 64.0 m")), "{:?}", told.remarks);
    }
    assert!(found(&answer(&RopeEnd { hung: Hung::Fixed, ..soft }), "someone hanging at it").what.starts_with("below"));
}

#[test]
fn pull_cord_by_hand() {
    let answer = answer(&RopeEnd { hung: Hung::PullCord, ..by_hand() });
    // From the ring over the lip to a hand at the bottom: 3 + 20 + 1 m of a cord of 30 m.
    near(found(&answer, "of pull cord needed").adverse(), 24.0);
    near(found(&answer, "cord to pull left").adverse(), 6.0);
    near(found(&answer, "someone hanging at it").adverse(), 0.03088);
    let strand = found(&answer, "to let out").adverse();
    near(found(&answer, "without the cord").adverse(), strand + 1.0);
    assert!(answer.remarks[0].starts_with("Cannot be paid out"));
    // Wet, a cord shrinks as the rope does: 24 m of it are 24/0.94 m as declared.
    let shrinkage = Band::exact(Ratio::new::<ratio>(0.06));
    let wet = RopeEnd { hung: Hung::PullCord, water: Water::Untreated, shrinkage, let_out: metres(24.0), ..by_hand() };
    let told = wet.solve().unwrap();
    near(found(&told, "cord to pull left").adverse(), 30.0 - 24.0 / 0.94);
    near(found(&told, "of pull cord needed").adverse(), 24.0 / 0.94);
    let short = answer_with_cord(20.0);
    near(found(&short, "cord to pull missing").adverse(), 4.0);
}

fn answer_with_cord(cord: f64) -> Answer {
    answer(&RopeEnd { hung: Hung::PullCord, cord: metres(cord), ..by_hand() })
}

#[test]
fn twice_the_drop_falls_out_with_what_it_forgets() {
    for (set_back, height) in [(0.0, 10.0), (3.0, 20.0), (8.0, 60.0)] {
        let stiff = RopeEnd {
            set_back: metres(set_back),
            height: Band::exact(metres(height)),
            let_out: metres(set_back + 1.0),
            rope: metres(200.0),
            stiffness: Band::exact(Force::new::<kilonewton>(1000.0)),
            ..by_hand()
        };
        // Without stretch: down once, once more to let somebody down, each with the set-back, 1 m, and 1 m of knots.
        let total = |rope: &RopeEnd| found(&answer(rope), "of rope needed").adverse();
        assert_relative_eq!(total(&stiff), 2.0 * height + 2.0 * set_back + 2.0, epsilon = 0.01);
        assert!(answer(&stiff).remarks.iter().any(|remark| remark.contains("twice the drop")));
        // Stretch is gained on the strand let out and needed again at the station: nearly nothing in all.
        let soft = RopeEnd { stiffness: by_hand().stiffness, ..stiff };
        assert!((total(&soft) - total(&stiff)).abs() < 0.06 * (height + set_back) * 931.6 / 20_000.0);
        // Doubled it is twice the drop and twice the set-back, and a metre on each strand for the hand that pulls.
        let doubled = RopeEnd { hung: Hung::Doubled, ..stiff };
        assert_relative_eq!(total(&doubled), 2.0 * height + 2.0 * set_back + 3.0, epsilon = 1e-9);
    }
}

#[test]
fn rope_let_out_as_told_ends_where_it_is_wanted() {
    for wanted in [-4.0, -0.5, 0.0, 0.01, 3.0, 15.0] {
        for hung in [Hung::Releasable, Hung::Doubled] {
            for water in [Water::Dry, Water::Untreated] {
                let rope = RopeEnd {
                    end_above: metres(wanted),
                    water,
                    shrinkage: Band::exact(Ratio::new::<ratio>(0.05)),
                    ..by_hand()
                };
                let point = [20.0, 75.0, 15.0, 20_000.0, if water == Water::Dry { 0.0 } else { 0.05 }, 0.5];
                let needed = rope.case(hung, None, &point).unwrap().needed;
                let [_, end] = rope.case(hung, Some(needed), &point).unwrap().end;
                assert!((end - wanted).abs() < 1e-9, "{hung:?} {wanted}: {end}");
            }
        }
    }
}

#[test]
fn each_input_moves_the_end_its_own_way() {
    let rope = RopeEnd::default();
    let usual = [20.0, 75.0, 10.0, 30_000.0, 0.03, 0.5];
    let at = |place: usize, value: f64| {
        let mut point = usual;
        point[place] = value;
        rope.case(Hung::Releasable, Some(24.0), &point).unwrap()
    };
    // A higher drop, a stiffer rope and more shrinkage lift the end; weight and water lower it.
    for (place, less, more, lifts) in [
        (0, 18.0, 23.0, true),
        (1, 50.0, 100.0, false),
        (2, 5.0, 20.0, false),
        (3, 20_000.0, 41_000.0, true),
        (4, 0.0, 0.06, true),
        (5, 0.5, 0.58, false),
    ] {
        let (one, other) = (at(place, less), at(place, more));
        assert_eq!(other.end[1] > one.end[1], lifts, "{place}");
        assert_eq!(other.needed > one.needed, lifts, "{place}");
    }
    // Without weight or stretch what is left is geometry.
    let plain = rope.case(Hung::Releasable, Some(24.0), &[20.0, 0.0, 0.0, 1e15, 0.0, 0.0]).unwrap();
    assert!((plain.end[0] + 1.0).abs() < 1e-9 && (plain.end[1] + 1.0).abs() < 1e-9);
    assert!((plain.needed - 23.0).abs() < 1e-9 && (plain.reserve - 24.0).abs() < 1e-9);
}

#[test]
fn too_long_leads_in_moving_water_and_too_short_everywhere_else() {
    for bottom in [Bottom::Stand, Bottom::Still, Bottom::Moving, Bottom::NotSeen] {
        let answer = answer(&RopeEnd { bottom, ..RopeEnd::default() });
        let (side, told) = if bottom == Bottom::Moving { ("below", "heaviest") } else { ("above", "lightest") };
        assert!(answer.findings[0].what.starts_with(side), "{bottom:?}: {}", answer.findings[0].what);
        assert_eq!(answer.findings[0].end, End::High);
        assert!(answer.scene.case.contains(told), "{}", answer.scene.case);
        // The other danger stands second where it is one.
        let other = if side == "below" { "above" } else { "below" };
        let both = matches!(bottom, Bottom::Moving | Bottom::NotSeen);
        assert_eq!(answer.findings[1].what.starts_with(other), both, "{bottom:?}");
        // Both teachings of the knot, whatever the bottom.
        assert!(answer.remarks.iter().any(|remark| {
            remark.starts_with("Contested")
                && remark.contains("running off")
                && remark.contains("holds a person in the flow")
        }));
    }
}

#[test]
fn the_adverse_end_is_the_lightest_too_short_and_the_heaviest_too_long() {
    let outcome = |answer: &Answer, who: &str| {
        let case = format!("If the {who} hangs at the end");
        answer.outcomes.iter().find(|outcome| outcome.case == case).unwrap().findings[0].clone()
    };
    let short = answer(&RopeEnd::default());
    assert_relative_eq!(short.findings[0].adverse(), outcome(&short, "lightest").adverse(), max_relative = 1e-12);
    assert_relative_eq!(short.findings[0].friendly(), outcome(&short, "heaviest").friendly(), max_relative = 1e-12);
    let long = answer(&RopeEnd { bottom: Bottom::Moving, ..RopeEnd::default() });
    assert_relative_eq!(long.findings[0].adverse(), outcome(&long, "heaviest").adverse(), max_relative = 1e-12);
}

#[test]
fn the_other_ways_of_rigging_say_what_they_would_say_themselves() {
    let rope = by_hand();
    let told = answer(&rope);
    assert_eq!(told.outcomes.len(), 5);
    for hung in [Hung::Fixed, Hung::Doubled] {
        let itself = answer(&RopeEnd { hung, ..rope });
        let outcome = told.outcomes.iter().find(|outcome| outcome.case.ends_with(hung.words())).unwrap();
        for finding in &outcome.findings {
            assert!(itself.findings.contains(finding), "{finding:?}");
        }
    }
    // Half of this rope does not reach over the lip: what it would need is still said.
    let far = answer(&RopeEnd { set_back: metres(28.0), let_out: metres(45.0), ..rope });
    assert_eq!(far.outcomes.last().unwrap().findings.len(), 2);
    assert_eq!(far.outcomes[2].findings.len(), 1);
}

#[test]
fn water_shrinks_the_rope_and_makes_it_heavy() {
    let wet = RopeEnd {
        water: Water::Untreated,
        shrinkage: Band::exact(Ratio::new::<ratio>(0.06)),
        let_out: metres(24.0),
        ..by_hand()
    };
    let answer = answer(&wet);
    // 24 m become 22.56 m.
    assert_relative_eq!(found(&answer, "unloaded").adverse(), 23.0 - 22.56, epsilon = 0.02);
    let (dry, soaked) = (found(&answer, "carry, dry").adverse(), found(&answer, "carry, wet").band);
    assert_relative_eq!(soaked.high(), 1.58 * dry, max_relative = 1e-12);
    assert_relative_eq!(soaked.low(), 1.5 * dry, max_relative = 1e-12);
    // What has to stay shrinks too; as declared 50 − 1 − 24 = 25 m are left.
    let reserve = found(&answer, "needed at the station").adverse();
    assert_relative_eq!(found(&answer, "missing at the station").adverse(), reserve - 25.0, max_relative = 1e-12);
    assert!(answer.remarks[0].contains("too short at the station"), "{:?}", answer.remarks);
}

#[test]
fn a_declared_elongation_becomes_a_stiffness() {
    let declared = |stretch_by, elongation| {
        let rope =
            RopeEnd { stretch_by, elongation: Band::exact(Ratio::new::<ratio>(elongation)), ..RopeEnd::default() };
        rope.stiffness().unwrap().typical()
    };
    // Row D4 of the check values; dynamic single rope at the limit of its standard: 7.3 kN.
    assert!((declared(StretchBy::LowStretch, 0.05) - 19_613.3).abs() < 0.05);
    assert!((declared(StretchBy::Dynamic, 0.10) - 7_355.0).abs() < 0.05);
    let answer = answer(&RopeEnd { stretch_by: StretchBy::Dynamic, ..RopeEnd::default() });
    assert!(answer.working.iter().any(|step| step.formula.starts_with("EA = m g")));
}

#[test]
fn the_graph_falls_through_the_present_point_and_the_wanted_end() {
    let rope = by_hand();
    let told = answer(&rope);
    let graph = &told.graphs[0];
    assert!(
        graph
            .curve
            .iter()
            .zip(graph.curve.iter().skip(1))
            .all(|(one, next)| { next.across > one.across && next.up.high() < one.up.high() })
    );
    let here = graph.here.unwrap();
    near(here.across, 22.0);
    near(here.up.high(), -0.03088);
    let at = RopeEnd { let_out: metres(found(&told, "to let out").adverse()), ..rope };
    assert!(answer(&at).graphs[0].here.unwrap().up.high().abs() < 1e-9);
}

#[test]
fn what_cannot_be_rigged_is_refused_by_name() {
    let refused = |rope: RopeEnd| match rope.solve() {
        Err(BadInput::Together(error)) => error.to_string(),
        other => panic!("{other:?}"),
    };
    let base = by_hand;
    assert!(refused(RopeEnd { let_out: metres(49.5), ..base() }).starts_with("rope let out is 49.5"));
    assert!(refused(RopeEnd { let_out: metres(2.5), ..base() }).contains("over the lip"));
    let short = RopeEnd { hung: Hung::Fixed, set_back: metres(30.0), ..base() };
    assert!(refused(short).starts_with("strand that hangs, half of the rope"));
    assert!(refused(RopeEnd { end_above: metres(20.0), ..base() }).starts_with("height of the end above the bottom"));
    let mut crowd = RopeEnd { stiffness: Band::exact(Force::new::<kilonewton>(5.0)), ..base() };
    crowd.people.count = 12;
    assert!(refused(crowd).starts_with("stretch of the rope as a share"));
}

#[test]
fn rope_that_is_missing_is_told_as_it_is_bought() {
    // A rope longer by what is missing has nothing missing, however much it shrinks.
    let rope = RopeEnd::default();
    let missing = |rope: &RopeEnd| {
        let answer = answer(rope);
        let finding =
            answer.findings.iter().find(|finding| finding.what.starts_with("missing at the station")).cloned();
        finding.map_or(0.0, |finding| finding.band.high())
    };
    let short = missing(&rope);
    assert!(short > 1.0);
    let longer = RopeEnd { rope: rope.rope + metres(short), ..rope };
    assert!(missing(&longer).abs() < 1e-9, "{}", missing(&longer));
}

#[test]
fn of_two_unlike_strands_the_one_that_hurts_is_told() {
    let doubled = |bottom| RopeEnd {
        bottom,
        hung: Hung::Doubled,
        rope: metres(60.0),
        second: metres(26.0),
        knots: metres(0.0),
        ..RopeEnd::default()
    };
    let moving = answer(&doubled(Bottom::Moving));
    assert!(moving.findings[0].what.starts_with("below") && moving.findings[0].adverse() > 30.0);
    assert!(moving.remarks.iter().any(|remark| remark.contains("34.0 m lower") && remark.contains("the longer")));
    let ground = answer(&doubled(Bottom::Stand));
    assert!(ground.findings[0].adverse() < 5.0 && ground.remarks.iter().any(|remark| remark.contains("the shorter")));
}

/// The formula that is told gives the number that is told: what shrinks has to be longer before.
#[test]
fn the_working_of_the_reserve_is_that_of_its_number() {
    let answer = RopeEnd::default().solve().unwrap();
    let step = answer.working.iter().find(|step| step.formula.starts_with("R = ")).unwrap();
    let given = |symbol: &str| step.given.iter().find(|given| given.symbol == symbol).unwrap().band.typical();
    let long = given("h") + given("s") + given("ΔL") + 1.0;
    assert!((long / (1.0 - given("σ")) - step.result.band.typical()).abs() < 1e-9);
    assert!(given("σ") > 0.0);
}
