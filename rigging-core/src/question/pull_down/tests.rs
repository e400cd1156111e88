use super::super::answer::End;
use super::case::Inputs;
use super::*;
use crate::law::pull_down::{Piece, pull};
use crate::limit::Standing;
use crate::question::Question;
use crate::question::scene::size;
use approx::assert_relative_eq;

fn metres(value: f64) -> Length {
    Length::new::<metre>(value)
}

fn degrees(value: f64) -> Angle {
    Angle::new::<degree>(value)
}

/// Pull at one point of the ranges once so many metres are pulled.
fn at(question: &PullDown, out: f64, point: &Inputs) -> f64 {
    let way: Vec<Piece> = question.way(out, point).unwrap().parts().map(|part| part.piece).collect();
    pull(&way).unwrap().value
}

/// Doubled, hanging free, so far down.
fn free(height: f64, millimetres: f64) -> PullDown {
    PullDown {
        height: metres(height),
        rising: metres(height),
        diameter: Length::new::<millimetre>(millimetres),
        first: EdgeMet::default(),
        ..PullDown::default()
    }
}

fn edge(met: Met, degrees_turned: f64, down: f64) -> EdgeMet {
    EdgeMet { met, over: Over::RoughRock, turn: degrees(degrees_turned), down: metres(down) }
}

/// Weight of a metre of rope: 0.6456 g/m for each mm² of diameter squared.
fn of_a_metre(millimetres: f64) -> f64 {
    0.6456e-3 * millimetres * millimetres * 9.80665
}

#[test]
fn the_example_of_the_check_values_comes_out() {
    // Row D12: 30 m of 9 mm, ring 0.30, a 90° edge of 0.45 on both strands, 147 N.
    let question = PullDown { first: edge(Met::Both, 90.0, 0.0), ..free(30.0, 9.0) };
    assert_relative_eq!(at(&question, 0.0, &[0.30, 0.45, 0.0, 0.0, 1.0]), 147.0, epsilon = 0.5);
}

#[test]
fn the_edges_of_the_check_values_come_out() {
    // Row D11: 40 m a side of a rope of 55 g/m, ring 0.20 and 0.27, edge 0.5.
    let millimetres = (55.0_f64 / 0.6456).sqrt();
    let rows = [(Met::Neither, [19.0, 29.0]), (Met::Pulled, [67.0, 89.0]), (Met::Both, [173.0, 221.0])];
    for (met, pulls) in rows {
        for (ring, expected) in [0.20, 0.27].into_iter().zip(pulls) {
            let question = PullDown { first: edge(met, 90.0, 0.0), ..free(40.0, millimetres) };
            assert_relative_eq!(at(&question, 0.0, &[ring, 0.5, 0.0, 0.0, 1.0]), expected, epsilon = 0.5);
        }
    }
}

#[test]
fn behind_a_cord_rope_follows_through_the_ring() {
    let question = PullDown { pulled_by: PulledBy::Cord, cord: Length::new::<millimetre>(5.0), ..free(30.0, 9.0) };
    let (rope, cord, gain) = (of_a_metre(9.0), of_a_metre(5.0), (0.24 * PI).exp());
    // By hand: what still rises, times the ring, less rope that came over, less cord below the knot.
    for (out, rises) in [(0.0, 30.0), (4.0, 26.0), (7.5, 22.5)] {
        let expected = rope * rises * gain - rope * out - cord * (30.0 - out);
        assert_relative_eq!(at(&question, out, &[0.24, 0.0, 0.0, 0.0, 1.0]), expected, max_relative = 1e-9);
    }
    // A light cord helps less than the rope's own other strand.
    let doubled = PullDown { pulled_by: PulledBy::Rope, ..question };
    assert!(doubled.pull_at(0.0).unwrap().high() < question.pull_at(0.0).unwrap().high());
}

#[test]
fn on_a_slope_weight_and_friction_go_each_its_way_and_the_lip_is_a_bend() {
    let question = PullDown {
        slab: Slab { met: Met::Both, over: Over::RoughRock, length: metres(6.0), falls: degrees(40.0) },
        ..free(20.0, 9.0)
    };
    let (ring, slab) = (0.24_f64, 0.5_f64);
    let (sine, cosine) = 40_f64.to_radians().sin_cos();
    let (weight, lip) = (of_a_metre(9.0), (slab * 50_f64.to_radians()).exp());
    let above = (weight * 20.0 * lip + weight * 6.0 * (sine + slab * cosine)) * (ring * PI).exp();
    let expected = (above - weight * 6.0 * (sine - slab * cosine)) * lip - weight * 20.0;
    assert_relative_eq!(at(&question, 0.0, &[ring, 0.0, 0.0, slab, 1.0]), expected, max_relative = 1e-9);
    // With the free end on the slope its lip turns nothing any more: 2 m are left on it.
    let above = weight * 2.0 * (sine + slab * cosine) * (ring * PI).exp();
    let expected = ((above - weight * 6.0 * (sine - slab * cosine)) * lip - weight * 20.0).max(0.0);
    assert_relative_eq!(at(&question, 24.0, &[ring, 0.0, 0.0, slab, 1.0]), expected, max_relative = 1e-9);
}

#[test]
fn an_edge_farther_down_has_less_to_hold() {
    let question = PullDown { first: edge(Met::Both, 70.0, 5.0), ..free(25.0, 9.0) };
    let (weight, bend, ring) = (of_a_metre(9.0), (0.4 * 70_f64.to_radians()).exp(), (0.24 * PI).exp());
    let expected = ((weight * 20.0 * bend + weight * 5.0) * ring - weight * 5.0) * bend - weight * 20.0;
    assert_relative_eq!(at(&question, 0.0, &[0.24, 0.4, 0.0, 0.0, 1.0]), expected, max_relative = 1e-9);
    // Once the free end is above it, only the strand that comes down turns there.
    let expected = ((weight * 3.0 * ring - weight * 5.0) * bend - weight * 20.0).max(0.0);
    assert_eq!(at(&question, 22.0, &[0.24, 0.4, 0.0, 0.0, 1.0]), expected);
    let close = PullDown { first: edge(Met::Both, 70.0, 0.0), ..question };
    assert!(close.pull_at(0.0).unwrap().high() > question.pull_at(0.0).unwrap().high());
}

#[test]
fn no_moment_of_the_pull_is_harder_than_the_start() {
    for pulled_by in [PulledBy::Rope, PulledBy::Cord] {
        for edge_met in [Met::Neither, Met::Pulled, Met::Rising, Met::Both] {
            for slab_met in [Met::Neither, Met::Pulled, Met::Rising, Met::Both] {
                for (falls, length) in [(0.0, 40.0), (30.0, 5.0)] {
                    let question = PullDown {
                        pulled_by,
                        first: edge(edge_met, 90.0, 3.0),
                        second: edge(edge_met, 40.0, 9.0),
                        slab: Slab {
                            met: slab_met,
                            over: Over::RoughRock,
                            length: metres(length),
                            falls: degrees(falls),
                        },
                        ..free(15.0, 10.0)
                    };
                    let curve = question.curve().unwrap();
                    for (one, next) in curve.iter().zip(curve.iter().skip(1)) {
                        assert!(next.up.high() <= one.up.high() + 1e-9, "{question:?} {next:?}");
                        assert!(next.up.low() <= one.up.low() + 1e-9, "{question:?} {next:?}");
                    }
                }
            }
        }
    }
}

#[test]
fn all_friction_at_its_ends_is_all_there_is() {
    let question = PullDown {
        first: edge(Met::Both, 90.0, 3.0),
        second: edge(Met::Pulled, 40.0, 9.0),
        slab: Slab { met: Met::Rising, over: Over::PolishedRock, length: metres(4.0), falls: degrees(20.0) },
        ..free(15.0, 10.0)
    };
    for share in [0.0, 0.3, 0.5, 0.8, 1.0] {
        let [swept, _] = question.spread(share).unwrap();
        let ends = question.pull_at(share * question.long(Side::Rising)).unwrap();
        assert_relative_eq!(swept.band.high(), ends.high(), max_relative = 1e-12);
        assert_relative_eq!(swept.band.low(), ends.low(), max_relative = 1e-12);
        // Nor does a point inside lie outside.
        let [inside, _] = crate::band::sweep(question.inputs(), |point| {
            Ok::<_, ()>([at(&question, share * question.long(Side::Rising), point), 0.0])
        })
        .unwrap();
        assert!(inside.band.high() <= ends.high() * (1.0 + 1e-12) && inside.band.low() >= ends.low() * (1.0 - 1e-12));
    }
}

#[test]
fn it_is_told_from_where_on_the_rope_runs_by_itself() {
    // Free and dry, the two strands balance where (h − x) e^(μπ) = h: 0.30 and 0.19 of a ring, 20 m.
    let question = PullDown { wet: Whether::No, ..free(20.0, 9.0) };
    let balance = |friction: f64| 20.0 * (1.0 - (-friction * PI).exp());
    let (early, late) = (balance(0.19), balance(0.30));
    let answer = question.solve().unwrap();
    let words = answer.remarks.iter().find(|remark| remark.contains("by itself")).unwrap();
    let told: Vec<f64> = words.split(' ').filter_map(|word| word.parse().ok()).collect();
    assert!(told[0] <= early && told[0] > early - 2.5 && told[1] >= late && told[1] < late + 2.5, "{words}");
    assert_eq!(answer.findings[2].band, Band::exact(0.0), "at the end the strand that comes down does the work");
}

#[test]
fn a_rope_runs_by_itself_for_certain_only_if_it_does_wherever_it_is() {
    let words = |question: &str| {
        let question: Question = serde_json::from_str(question).unwrap();
        let remarks = question.answer().unwrap().remarks;
        remarks.into_iter().find(|remark| remark.contains("by itself")).unwrap()
    };
    let all = r#"{"question":"pull-down","height_m":150,"rising_m":30,"edge_1_on":"neither","diameter_m":0.01}"#;
    assert!(words(all).starts_with("It runs by itself from the start on"), "{}", words(all));
    // A thick cord on a slab: it runs, stops, and has to be pulled on.
    let stops = r#"{"question":"pull-down","pulled_by":"cord","height_m":10.26,"rising_m":3.33,"ring":"ball bearing",
        "edge_1_on":"neither","edge_2_on":"neither","slab_on":"rising","slab_m":39.2,"slab_falls_rad":0.1435,
        "cord_diameter_m":0.016}"#;
    assert!(!words(stops).starts_with("It runs by itself"), "{}", words(stops));
}

#[test]
fn a_rope_is_never_said_to_come() {
    for pullers in [1, 2, 8] {
        for pull_from in [PullFrom::Standing, PullFrom::Swimming] {
            for height in [2.0, 20.0, 200.0] {
                let question = PullDown { pullers, pull_from, ..free(height, 9.0) };
                for comparison in question.solve().unwrap().comparisons {
                    assert_ne!(comparison.standing, Standing::BelowLimit);
                }
            }
        }
    }
}

#[test]
fn a_swimmer_is_not_three_standers() {
    let question = PullDown {
        first: edge(Met::Both, 90.0, 0.0),
        second: edge(Met::Pulled, 45.0, 0.0),
        wet: Whether::No,
        ..free(50.0, 9.0)
    };
    let standing = |pullers, pull_from| {
        let answer = PullDown { pullers, pull_from, ..question }.solve().unwrap();
        answer.comparisons[0].standing
    };
    assert_eq!(standing(1, PullFrom::Swimming), Standing::AboveLimit);
    assert_eq!(standing(3, PullFrom::Standing), Standing::RangeCrosses);
}

#[test]
fn what_would_change_it_is_computed() {
    let question = PullDown {
        ring: Over::Timber,
        first: edge(Met::Pulled, 90.0, 0.0),
        second: edge(Met::Both, 30.0, 0.0),
        ..free(20.0, 9.0)
    };
    let answer = question.solve().unwrap();
    let pull = |words: &str| {
        let outcome = answer.outcomes.iter().find(|outcome| outcome.case.contains(words)).unwrap();
        outcome.findings[0].band.high()
    };
    // Wet: timber 1.3 · 0.50, ring 1.3 · 0.30, rough rock 1.3 · 0.75, water 1.5; each by the closed formula.
    let closed = |sum: f64| 1.5 * of_a_metre(9.0) * 20.0 * (sum.exp() - 1.0);
    let (tree, ring, turn) = (0.65 * PI, 0.39 * PI, |degrees: f64| 0.975 * degrees.to_radians());
    assert_relative_eq!(answer.findings[0].band.high(), closed(tree + turn(150.0)), max_relative = 1e-9);
    assert_relative_eq!(pull("edge 1"), closed(tree + turn(60.0)), max_relative = 1e-9);
    assert_relative_eq!(pull("edge 2"), closed(tree + turn(90.0)), max_relative = 1e-9);
    assert_relative_eq!(pull("all of them"), closed(tree), max_relative = 1e-9);
    assert_relative_eq!(pull("ring or quick link"), closed(ring + turn(150.0)), max_relative = 1e-9);
    // Close below the ring it does not matter which strand turns: each bend is passed once.
    assert_relative_eq!(pull("other strand"), closed(tree + turn(150.0)), max_relative = 1e-9);
    assert!(answer.remarks[0].contains("beyond all of them"), "{:?}", answer.remarks);
    let more = answer.outcomes.last().unwrap();
    assert_eq!(more.findings[0].end, End::Low);
    assert_relative_eq!(more.findings[0].band.low(), 2.0 * 50.0 * 0.91, max_relative = 1e-12);
}

/// What an outcome of this case says of the pull at the start, if it is told.
fn told_if(question: &PullDown, words: &str) -> Option<Band> {
    let outcomes = question.solve().unwrap().outcomes;
    outcomes.into_iter().find(|outcome| outcome.case.contains(words)).map(|outcome| outcome.findings[0].band)
}

fn near(told: Option<Band>, expected: Band) {
    let told = told.unwrap();
    assert_relative_eq!(told.low(), expected.low(), max_relative = 1e-9);
    assert_relative_eq!(told.typical(), expected.typical(), max_relative = 1e-9);
    assert_relative_eq!(told.high(), expected.high(), max_relative = 1e-9);
}

#[test]
fn with_the_ring_at_the_lip_of_the_slope_an_edge_is_as_much_nearer_to_it() {
    let slab = Slab { met: Met::Both, over: Over::PolishedRock, length: metres(8.0), falls: degrees(30.0) };
    let slope = |first, second| PullDown { slab, first, second, ..free(18.0, 9.0) };
    let none = EdgeMet::default();
    for met in [Met::Pulled, Met::Rising, Met::Both] {
        for below in [0.0, 6.0, 17.0] {
            let question = slope(edge(met, 90.0, 8.0 + below), none);
            let there = PullDown { slab: Slab::default(), first: edge(met, 90.0, below), ..question };
            near(told_if(&question, "of the slope"), there.pull_at(0.0).unwrap());
        }
    }
    // By hand, wet: an edge of rough rock, 1.3 · 0.75, met by both strands 10 m below the ring of 1.3 · 0.30.
    let (weight, bend, ring) = (1.5 * of_a_metre(9.0), (1.3 * 0.75 * FRAC_PI_2).exp(), (1.3 * 0.30 * PI).exp());
    let pull = ((8.0 * bend + 10.0) * ring - 10.0) * bend - 8.0;
    let told = told_if(&slope(edge(Met::Both, 90.0, 18.0), none), "of the slope").unwrap();
    assert_relative_eq!(told.high(), weight * pull, max_relative = 1e-9);
    // An edge on the slope goes with it.
    let question = slope(edge(Met::Both, 90.0, 18.0), edge(Met::Both, 60.0, 7.9));
    near(told_if(&question, "of the slope"), told);
    let bare = PullDown { slab: Slab::default(), first: none, second: none, ..question };
    near(told_if(&question, "all of them"), bare.pull_at(0.0).unwrap());
}

#[test]
fn at_the_lip_of_a_slope_that_one_strand_lies_on_the_other_hangs_as_much_shorter() {
    let slab = Slab { met: Met::Rising, over: Over::PolishedRock, length: metres(10.0), falls: degrees(30.0) };
    let question = PullDown { slab, ..free(18.0, 9.0) };
    // The ring comes down by 10 m · sin 30°, from where the strand that is pulled was measured.
    let there = PullDown { slab: Slab::default(), height: metres(13.0), ..question };
    near(told_if(&question, "of the slope"), there.pull_at(0.0).unwrap());
    near(
        told_if(&PullDown { first: edge(Met::Pulled, 90.0, 2.0), ..question }, "all of them"),
        there.pull_at(0.0).unwrap(),
    );
    // Pulled instead, that strand hangs from the foot of the slope on.
    let other = PullDown { slab: Slab { met: Met::Pulled, ..slab }, ..there };
    near(told_if(&question, "other strand"), other.pull_at(0.0).unwrap());
    // How far its edge would be from the ring is not known.
    for (met, told) in [(Met::Rising, true), (Met::Pulled, false), (Met::Both, false)] {
        let edged = PullDown { first: edge(met, 90.0, 12.0), ..question };
        assert_eq!(told_if(&edged, "lip of the slope").is_some(), told, "{met:?}");
    }
    let on_the_other = PullDown { slab: Slab { met: Met::Pulled, ..slab }, ..question };
    near(told_if(&on_the_other, "of the slope"), free(18.0, 9.0).pull_at(0.0).unwrap());
}

#[test]
fn only_the_cord_of_a_blocked_rope_can_be_pulled() {
    let question = PullDown { first: edge(Met::Pulled, 90.0, 0.0), ..free(20.0, 9.0) };
    let other = |question: &PullDown| {
        question.solve().unwrap().outcomes.iter().any(|outcome| outcome.case.contains("other strand"))
    };
    assert!(other(&question));
    assert!(!other(&PullDown { pulled_by: PulledBy::Cord, ..question }));
    assert!(!other(&PullDown { rising: metres(15.0), ..question }), "the other end hangs out of reach");
    assert!(!other(&PullDown { first: edge(Met::Both, 90.0, 0.0), ..question }), "both are the same");
}

#[test]
fn a_stuck_rope_pulls_on_the_ring_with_one_strand_or_with_both() {
    let question = PullDown { pullers: 3, wet: Whether::No, ..free(20.0, 9.0) };
    let one = 3.0 * 500.0 + of_a_metre(9.0) * 20.0;
    let stuck = question.stuck().unwrap();
    assert_relative_eq!(stuck.low(), one, max_relative = 1e-9);
    assert_relative_eq!(stuck.typical(), one * (1.0 + (-0.24 * PI).exp()), max_relative = 1e-9);
    assert_relative_eq!(stuck.high(), 2.0 * one, max_relative = 1e-9);
}

#[test]
fn spare_rope_that_does_not_reach_is_told() {
    let missing = |spare: f64, drop: f64| {
        let answer = PullDown { spare: metres(spare), next_drop: metres(drop), ..PullDown::default() }.solve().unwrap();
        let told = answer.remarks.iter().any(|remark| remark.contains("without a rope"));
        (answer.findings.last().unwrap().band.high(), told)
    };
    // 25 m and a metre of knots, of rope that shrinks by 6 %: 26/0.94 = 27.66 m.
    let (short, told) = missing(20.0, 25.0);
    assert!((short - 7.6596).abs() < 1e-4 && told);
    assert!(missing(25.0, 25.0).1 && missing(27.6, 25.0).1);
    assert_eq!(missing(27.7, 25.0), (0.0, false));
    assert_eq!(missing(0.0, 0.0), (0.0, false));
}

#[test]
fn an_edge_below_the_end_of_its_strand_is_refused() {
    let refused = |first: EdgeMet| PullDown { first, ..free(20.0, 9.0) }.solve().map_err(|error| error.to_string());
    assert!(refused(edge(Met::Both, 90.0, 19.0)).is_ok());
    let error = refused(edge(Met::Rising, 90.0, 20.0)).unwrap_err();
    assert!(error.contains("edge 1") && error.contains("20") && error.contains("less than"), "{error}");
    assert!(refused(edge(Met::Neither, 90.0, 30.0)).is_ok(), "what is not there is not refused");
}

#[test]
fn the_picture_shows_the_force_on_the_anchor_at_the_start() {
    let question = PullDown {
        first: edge(Met::Both, 90.0, 0.0),
        second: edge(Met::Pulled, 40.0, 9.0),
        slab: Slab { met: Met::Rising, over: Over::PolishedRock, length: metres(4.0), falls: degrees(20.0) },
        ..free(15.0, 10.0)
    };
    let answer = question.solve().unwrap();
    let [start, anchor] = question.spread(0.0).unwrap();
    let arrow = |name: &str| answer.scene.forces.iter().find(|arrow| arrow.name == name).unwrap();
    assert_relative_eq!(size(arrow("anchor").pull), anchor.band.high(), max_relative = 1e-9);
    assert_relative_eq!(size(arrow("pull").pull), start.band.high(), max_relative = 1e-9);
    // Both strands end plumb: the last piece of each runs straight down.
    let last: Vec<_> = answer.scene.lines.iter().filter(|line| (line.from[0] - line.to[0]).abs() < 1e-9).collect();
    assert!(last.len() >= 2 && last.iter().all(|line| line.to[1] < line.from[1]), "{last:?}");
}

/// A cord that is heavier than the rope pulls hardest at the start by its own weight, and less the more of it is down.
#[test]
fn what_comes_later_and_harder_than_the_start_is_compared_too() {
    let cord = |diameter: f64| PullDown {
        pulled_by: PulledBy::Cord,
        cord: metres(diameter),
        ring: Over::PlainBush,
        rising: metres(60.0),
        ..free(25.0, 6.0)
    };
    let rows = |pull: &PullDown| {
        let answer = pull.solve().unwrap();
        let runs = answer.remarks.iter().find(|remark| remark.contains("by itself")).cloned().unwrap();
        (answer.comparisons, answer.graphs[0].curve.clone(), runs)
    };
    let (thick, curve, runs) = rows(&cord(0.011));
    let most = curve.iter().map(|mark| mark.up.high()).fold(0.0, f64::max);
    assert_eq!(thick.len(), 2);
    assert!(thick[1].what.contains("later on the way") && thick[1].load.high() == most, "{thick:?}");
    // It may run at the start, has to be pulled then, and runs again.
    assert!(most > thick[0].load.high() && curve[0].up.low() <= 0.0, "{curve:?}");
    let again = "on a part of its way, and has to be pulled again. It may run by itself once 37 m of what hangs are pulled, at the latest from 45 m on";
    assert!(runs.contains(again), "{runs}");
    // Down a long slab the cord's own weight at the ring gives out before it is all down.
    let falls = degrees(2.5);
    let slab = Slab { met: Met::Pulled, over: Over::PolishedRock, length: metres(37.7), falls };
    let (_, _, runs) =
        rows(&PullDown { slab, height: metres(4.8), rising: metres(44.0), ring: Over::Ring, ..cord(0.016) });
    let until = "on a part of its way, and has to be pulled again. Then it has to be pulled until the free end";
    assert!(runs.contains(until), "{runs}");
    // Of one rope the start is the hardest.
    let (usual, curve, _) = rows(&PullDown::default());
    assert_eq!(usual.len(), 1);
    assert!(curve.iter().all(|mark| mark.up.high() <= usual[0].load.high()));
}
