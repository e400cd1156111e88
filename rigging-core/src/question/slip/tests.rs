use super::super::against::{Holds, LimitChoice};
use super::super::people::State;
use super::case::Case;
use super::*;
use crate::limit::Standing;
use crate::quantity::{Mass, kilogram, newton};
use approx::assert_relative_eq;
use std::f64::consts::FRAC_PI_2;

const EVENTS: [SlipEvent; 6] =
    [SlipEvent::Slack, SlipEvent::Tail, SlipEvent::Fails, SlipEvent::Slips, SlipEvent::Stopped, SlipEvent::Swing];

fn metres(length: f64) -> Length {
    Length::new::<metre>(length)
}

/// One person of a mass, a rope of one stiffness, no edge.
fn plain(event: SlipEvent, mass: f64, stiffness: f64) -> Slip {
    let kilograms = |mass| Band::exact(Mass::new::<kilogram>(mass));
    Slip {
        event,
        catcher: Catcher::Own,
        own_stiffness: Band::exact(Force::new::<newton>(stiffness)),
        edge: Edge::Free,
        people: People { count: 1, body: kilograms(mass), kit: kilograms(0.0), water: Mass::new::<kilogram>(0.0) },
        ..Slip::default()
    }
}

fn fall(mass: f64, stiffness: f64, slack: f64, rope: f64) -> Slip {
    Slip { slack: metres(slack), rope: metres(rope), ..plain(SlipEvent::Slack, mass, stiffness) }
}

fn typical(slip: &Slip) -> Case {
    slip.case(&slip.inputs().map(|input| input.typical())).unwrap()
}

/// The finding whose words hold these.
fn found(answer: &Answer, words: &str) -> Band {
    answer.findings.iter().find(|finding| finding.what.contains(words)).unwrap_or_else(|| panic!("{words}")).band
}

#[test]
fn falls_worked_out_elsewhere_come_out() {
    // Row D1: 90.0 kg at g 9.80, 2.00 m, 1.40e4 N/m.
    let d1 = typical(&fall(90.0 * 9.80 / 9.80665, 2.0 * 1.40e4, 2.0, 2.0));
    assert!((d1.peak - 7965.0).abs() < 1.0 && (d1.stretch - 0.569).abs() < 0.0005, "{d1:?}");
    // Row D2: 80 kg on the rope of 24.08 kN, fall factors 1 and 0.
    assert_relative_eq!(typical(&fall(80.0, 24_080.0, 3.0, 3.0)).peak, 6980.0, max_relative = 5e-3);
    assert_relative_eq!(typical(&fall(80.0, 24_080.0, 0.0, 3.0)).peak, 1569.0, max_relative = 5e-3);
    // Row D3: 100 kg, factor 0.3, 41.18 kN gives the 6 kN of EN 1891.
    assert_relative_eq!(typical(&fall(100.0, 41_180.0, 0.6, 2.0)).peak, 6000.0, max_relative = 5e-3);
    // Row D10: 95 kg, 0.5 m of slack on 3 m.
    for (stiffness, peak) in [(20e3, 3600.0), (41e3, 4600.0)] {
        assert!((typical(&fall(95.0, stiffness, 0.5, 3.0)).peak - peak).abs() < 100.0);
    }
}

#[test]
fn a_failed_leg_is_that_of_the_simulation() {
    // Row D9: 80 kg, drop 0.05 m, rope 4.8 kN/m, legs 33 kN/m, of which the sling of 0.1 m is a small part.
    let soft = 9.80665 * 95.0 * (1.0 / 33e3 - 0.1 / 160e3);
    let slip = Slip {
        rope: metres(5.0),
        sling: metres(0.1),
        drop: metres(0.05),
        anchor_gives: metres(soft),
        ..plain(SlipEvent::Fails, 80.0, 24e3)
    };
    let at = |share: f64| slip.case(&[80.0, 0.0, 24e3, 160e3, 0.0, 0.0, share]).unwrap();
    assert_relative_eq!(at(0.0).peak, 1090.0, max_relative = 1e-2);
    assert_relative_eq!(at(1.0).peak, 1760.0, max_relative = 1e-2);
    // The way down by hand: the free part of the drop and what springs of 4.19 kN/m give at 1.09 kN.
    assert_relative_eq!(at(0.0).fallen, 0.05 - 784.5 / 4800.0 + 1090.0 / 4190.5, max_relative = 1e-2);
}

#[test]
fn swings_worked_out_elsewhere_come_out() {
    // Rows D6 and D7 at the low end, where the rope does not stretch.
    for (degrees, peak, aside) in [(30.0_f64, 1.268, 0.43), (60.0, 2.000, 0.84), (90.0, 3.000, 1.50)] {
        let slip = Slip {
            rope: metres(10.0),
            out: metres(10.0 * degrees.to_radians().sin()),
            ..plain(SlipEvent::Swing, 80.0, 30e3)
        };
        let answer = slip.solve().unwrap();
        let weight = 80.0 * 9.80665;
        let [pull, sideways] = ["bottom of the first swing", "to the side"].map(|words| found(&answer, words));
        assert!((pull.low() / weight - peak).abs() < 1e-3, "{degrees}");
        assert!((sideways.low() / weight - aside).abs() < 0.01, "{degrees}");
        let fall = found(&answer, "the wall is met");
        assert_relative_eq!(fall.low(), 10.0 * (1.0 - degrees.to_radians().cos()), max_relative = 1e-9);
        // The most, by hand: another cos θ₀ of the weight, carried along as a bounce.
        assert_relative_eq!(pull.high() / weight, 3.0 - degrees.to_radians().cos(), max_relative = 1e-9);
    }
}

#[test]
fn a_sewn_sling_pulls_more_than_15_kn_at_factor_1_and_less_below_the_anchor() {
    // The trade warns of more than 15 kN: common practice, and the one published drop test of HMPE.
    let tail = |made, above| Slip { event: SlipEvent::Tail, made, above: metres(above), ..Slip::default() };
    for made in [TailMade::Hmpe, TailMade::Nylon] {
        let answer = tail(made, 0.0).solve().unwrap();
        assert!(answer.findings[0].band.high() > 15e3, "{made:?}");
        for above in [0.0, -0.01] {
            let remarks = tail(made, above).solve().unwrap().remarks;
            assert!(remarks.iter().any(|remark| remark.contains("below the anchor")), "{made:?}");
        }
    }
    let below = tail(TailMade::Hmpe, -0.6).solve().unwrap();
    // Just straight and let go: twice the heaviest of 117 kg.
    assert_relative_eq!(below.findings[0].band.high(), 2.0 * 117.0 * 9.80665, max_relative = 1e-12);
    let two = Slip { people: People { count: 2, ..People::default() }, ..tail(TailMade::Hmpe, 0.0) };
    let (one, two) = (tail(TailMade::Hmpe, 0.0).solve().unwrap(), two.solve().unwrap());
    assert_relative_eq!(two.findings[0].band.high(), 2.0 * one.findings[0].band.high(), max_relative = 1e-12);
    assert_relative_eq!(two.carried.unwrap().rope.high(), one.carried.unwrap().rope.high(), max_relative = 1e-12);
}

#[test]
fn no_slack_doubles_the_weight_and_two_people_fall_as_one_of_twice_the_mass() {
    let weight = 80.0 * 9.80665;
    assert_relative_eq!(typical(&fall(80.0, 30e3, 0.0, 5.0)).peak, 2.0 * weight, max_relative = 1e-14);
    let mut two = fall(80.0, 30e3, 1.0, 5.0);
    two.people.count = 2;
    assert_relative_eq!(typical(&two).peak, typical(&fall(160.0, 30e3, 1.0, 5.0)).peak, max_relative = 1e-14);
    let answer = two.solve().unwrap();
    assert_relative_eq!(found(&answer, "harness of each").high() * 2.0, answer.findings[0].band.high());
}

#[test]
fn more_slack_never_pulls_less_and_longer_rope_at_the_same_fall_never_more() {
    for event in [SlipEvent::Slack, SlipEvent::Slips] {
        let at = |slack: f64, rope: f64| {
            let slip = Slip { event, slack: metres(slack), rope: metres(rope), ..Slip::default() };
            let spreads = slip.spread().unwrap();
            [spreads.peak.band.high(), spreads.before.band.high(), spreads.fallen.band.high()]
        };
        for step in 0..20 {
            let slack = 0.2 * f64::from(step);
            let (here, more, longer) = (at(slack, 4.0), at(slack + 0.2, 4.0), at(slack, 5.0));
            assert!(more.iter().zip(here).all(|(more, here)| *more >= here), "{event:?} {slack}");
            assert!(longer[0] <= here[0] && longer[1] <= here[1], "{event:?} {slack}");
        }
    }
    let on = |rope: f64| typical(&Slip { rope: metres(rope), ..plain(SlipEvent::Stopped, 80.0, 30e3) }).peak;
    let weight = 80.0 * 9.80665;
    // mg + v √(k m) by hand: 2 m/s on 10 m of 30 kN.
    assert_relative_eq!(on(10.0), weight + 2.0 * (3000.0_f64 * 80.0).sqrt(), max_relative = 1e-12);
    assert!(on(20.0) < on(10.0));
}

#[test]
fn the_same_fall_on_half_the_rope_is_the_one_asked_for_with_half_the_rope() {
    for event in [SlipEvent::Slack, SlipEvent::Slips, SlipEvent::Stopped, SlipEvent::Fails] {
        let slip = Slip { event, ..Slip::default() };
        let answer = slip.solve().unwrap();
        for (words, times) in [("half", 0.5), ("twice", 2.0)] {
            let outcome = answer.outcomes.iter().find(|outcome| outcome.case.contains(words)).unwrap();
            let asked = Slip { rope: slip.rope * times, ..slip }.solve().unwrap();
            assert_eq!(outcome.findings[0].band, asked.findings[0].band, "{event:?} {words}");
        }
        let lip = answer.outcomes.iter().find(|outcome| outcome.case.contains("0.5 m of slack")).unwrap();
        // The heaviest of 117 kg on 49 kN, f = 1/6, by the standard equation.
        let weight = 117.0_f64 * 9.80665;
        let peak: f64 = weight + (weight * weight + 2.0 * weight * 49e3 / 6.0).sqrt();
        assert_relative_eq!(lip.findings[0].band.high(), peak, max_relative = 1e-12);
    }
}

#[test]
fn a_device_holds_the_peak_at_its_force_and_the_edge_helps_one_at_the_anchor() {
    let slip = |slipping| Slip {
        slipping,
        slack: metres(3.0),
        edge_turn: Angle::new::<crate::quantity::radian>(FRAC_PI_2),
        ..Slip { event: SlipEvent::Slips, ..Slip::default() }
    };
    let [person, anchor] = [SlipsAt::Person, SlipsAt::Anchor].map(|at| slip(at).solve().unwrap());
    for answer in [&person, &anchor] {
        assert_eq!(answer.findings[0].band.high(), 4500.0);
        assert!(found(answer, "edge counted").high() <= 4500.0 * (1.0 + 1e-12));
        assert!(found(answer, "run through").high() > 0.5);
    }
    // Polished rock, 0.15 to 0.40, over 90°.
    let most = |answer: &Answer| found(answer, "before the edge").high();
    assert_eq!(most(&person), 4500.0);
    assert_relative_eq!(most(&anchor), 4500.0 * (0.40 * FRAC_PI_2).exp(), max_relative = 1e-12);
    assert_relative_eq!(found(&person, "edge counted").low(), 2000.0 * (-0.40 * FRAC_PI_2).exp(), max_relative = 1e-12);
    let weak = Slip { slips_at: Band::exact(Force::new::<newton>(900.0)), ..slip(SlipsAt::Person) };
    assert!(weak.solve().unwrap_err().to_string().contains("runs through"));
}

#[test]
fn an_edge_not_counted_comes_first_and_whoever_is_before_it_gets_more() {
    let answer = Slip::default().solve().unwrap();
    let [first, second, third, ..] = answer.findings.as_slice() else { panic!() };
    assert!(first.what.contains("not counted") && second.what.contains("counted") && third.what.contains("before"));
    assert!(second.band.high() < first.band.high() && third.band.high() > first.band.high());
    let free = Slip { edge: Edge::Free, ..Slip::default() }.solve().unwrap();
    assert_eq!(free.findings[0].band, first.band);
}

#[test]
fn where_it_ends_is_set_against_what_is_below() {
    let at = |clear: f64| Slip { clear: metres(clear), ..fall(80.0, 30e3, 1.0, 6.0) }.solve().unwrap();
    let fallen = found(&at(3.0), "fallen in all").high();
    assert_relative_eq!(found(&at(3.0), "left above").low(), 3.0 - fallen, max_relative = 1e-12);
    assert!(at(0.5).remarks[0].contains("free fall") && at(1.2).remarks[0].contains("adverse end"));
    assert!(at(0.0).findings.iter().all(|finding| !finding.what.contains("left above")));
}

#[test]
fn a_swing_into_a_wall_is_a_fall_from_the_same_height() {
    // 10 m of rope, 8 m out: 6 m below the anchor. A wall 6 m out is met 8 m below it, 2 m lower.
    let slip = Slip {
        rope: metres(10.0),
        out: metres(8.0),
        wall_out: metres(6.0),
        lip: metres(3.0),
        deviation_rope: metres(5.0),
        deviation_out: metres(3.0),
        ..plain(SlipEvent::Swing, 80.0, 30e3)
    };
    let answer = slip.solve().unwrap();
    assert_relative_eq!(found(&answer, "the wall is met").low(), 2.0, max_relative = 1e-12);
    assert_relative_eq!(found(&answer, "at the bottom, if").low(), 4.0, max_relative = 1e-12);
    // tan θ is 8/6 and 6/8: along a lip 3 m below the anchor.
    assert_relative_eq!(found(&answer, "saws along").high(), 3.0 * (8.0 / 6.0 - 0.75), max_relative = 1e-12);
    assert_relative_eq!(found(&answer, "across to the wall").high(), 2.0, max_relative = 1e-12);
    // The deviation is 4 m above the person, so 2 m below the anchor and 5 m aside; that swing falls 1 m.
    let deviated = answer.outcomes.last().unwrap();
    assert_relative_eq!(deviated.findings[2].band.low(), 1.0, max_relative = 1e-12);
    let weight = 80.0 * 9.80665;
    let pull = weight * (3.0 - 2.0 * 0.8);
    assert_relative_eq!(deviated.findings[0].band.low(), pull, max_relative = 1e-12);
    // All of 10 m over it: 5 m from the anchor to a deviation 5 m aside, level with it. The most is not at the bottom.
    let level = deviated.findings[1].band;
    assert!(level.low() > 2.0 * pull * (FRAC_PI_2 / 2.0).sin() && level.high() > level.low());
    assert!(deviated.case.contains("not computed") && !deviated.case.contains("follows"));
    let beyond = Slip { wall_out: metres(-8.5), ..slip };
    assert!(beyond.solve().unwrap_err().to_string().contains("place of the wall"));
}

#[test]
fn whatever_slips_nothing_unknown_is_below_a_limit_and_no_word_says_it_holds() {
    for event in EVENTS {
        for holds in [Holds::FoundInPlace, Holds::Natural, Holds::Unseen, Holds::KnownBolt] {
            let mut slip = Slip { event, clear: metres(0.0), ..Slip::default() };
            slip.against = Against {
                holds,
                limit: LimitChoice::Own,
                own: Force::new::<kilonewton>(100.0),
                factor: slip.against.factor,
            };
            let answer = slip.solve().unwrap();
            let below = answer.comparisons.iter().any(|row| row.standing == Standing::BelowLimit);
            assert_eq!(below, holds == Holds::KnownBolt, "{event:?} {holds:?}");
            assert!(answer.usual.iter().all(|row| row.standing != Standing::BelowLimit), "{event:?}");
            let said =
                answer.remarks.join(" ") + &answer.findings.iter().map(|found| found.what.clone()).collect::<String>();
            for word in ["safe", "secure", "fine", "approved", "OK"] {
                assert!(!said.contains(word), "{event:?}: {word}");
            }
        }
    }
}

/// Bolts that are known, compared with a limit.
fn known(slip: Slip, limit: LimitChoice, factor: f64) -> Slip {
    let own = Force::new::<kilonewton>(100.0);
    let factor = crate::quantity::Ratio::new::<crate::quantity::ratio>(factor);
    Slip { against: Against { holds: Holds::KnownBolt, limit, own, factor }, ..slip }
}

#[test]
fn a_figure_of_rope_is_set_against_what_the_rope_carries_before_the_edge() {
    let slip = Slip {
        edge: Edge::RoughRock,
        edge_turn: Angle::new::<crate::quantity::radian>(1.57),
        clear: metres(0.0),
        ..Slip::default()
    };
    for name in ["rope A tied", "rope B tied", "sewn sling", "connector", "screw link", "connector open"] {
        let Some(strength) = crate::strength::Strength::named(name) else { panic!("{name}") };
        // Between the pull on the anchor, 5068 N, and what the rope carries before the edge, 9288 N.
        let factor = strength.force().value / 6000.0;
        let answer = known(slip, LimitChoice::Published(strength), factor).solve().unwrap();
        let before = found(&answer, "before the edge").high();
        assert!(before > 9280.0 && answer.findings[0].band.high() < 5070.0);
        assert_eq!(answer.comparisons.len(), 1, "{name}");
        assert_eq!(answer.comparisons[0].load.high(), before, "{name}");
        assert_eq!(answer.comparisons[0].standing, Standing::RangeCrosses, "{name}");
        assert_eq!(answer.states.last().unwrap().band.high(), before);
    }
    let bolt = LimitChoice::Published(&crate::strength::hardware::BOLT_AXIAL);
    let answer = known(slip, bolt, 1.5).solve().unwrap();
    assert_eq!(answer.comparisons[0].load, answer.findings[0].band);
    let standings = [0, 1].map(|row: usize| answer.comparisons[row].standing.words());
    assert_eq!(standings, ["below limit", "not checked"]);
}

#[test]
fn a_link_at_the_anchor_gets_what_all_tails_pull_and_a_sling_what_one_does() {
    let kilograms = |mass| Band::exact(Mass::new::<kilogram>(mass));
    let water = Mass::new::<kilogram>(5.0);
    let slip = Slip {
        event: SlipEvent::Tail,
        made: TailMade::Nylon,
        clear: metres(0.0),
        people: People { count: 2, body: kilograms(92.0), kit: kilograms(10.0), water },
        ..Slip::default()
    };
    // Level with the anchor, the stiffest nylon tape: W (1 + √(1 + 2 · 150 kN / W)), W = 107 kg · 9.80665 m/s².
    let weight = 107.0_f64 * 9.80665;
    let one: f64 = weight * (1.0 + (1.0 + 2.0 * 150e3 / weight).sqrt());
    for name in ["connector", "connector open", "screw link", "sewn sling", "cord 7 mm", "rope B tied"] {
        let Some(strength) = crate::strength::Strength::named(name) else { panic!("{name}") };
        let soft = ["sewn sling", "cord 7 mm", "rope B tied"].contains(&name);
        // Between what one tail pulls and what both do.
        let factor = strength.force().value / (1.5 * one);
        let answer = known(slip, LimitChoice::Published(strength), factor).solve().unwrap();
        let loads: Vec<f64> = answer.comparisons.iter().map(|row| row.load.high()).collect();
        let expected: &[f64] = if soft { &[one] } else { &[2.0 * one, one] };
        assert_eq!(loads.len(), expected.len(), "{name}: {:?}", answer.comparisons);
        for (load, expected) in loads.iter().zip(expected) {
            assert_relative_eq!(*load, *expected, max_relative = 1e-12);
        }
        if !soft {
            assert_eq!(answer.comparisons[0].what, "on the anchor, all falling at once");
            assert_eq!(answer.comparisons[0].standing, Standing::RangeCrosses, "{name}");
        }
    }
}

#[test]
fn a_deviation_pulled_harder_than_the_anchor_is_compared_first_and_carried_on() {
    let slip = Slip {
        rope: metres(10.0),
        out: metres(9.0),
        deviation_rope: metres(3.0),
        deviation_out: metres(2.7),
        obstacle: InTheWay::None,
        lip: metres(0.0),
        clear: metres(0.0),
        ..plain(SlipEvent::Swing, 90.0, 30e3)
    };
    // The rope begins 64.16° from plumb on either side of the deviation, asin 0.9, W = 90 kg · 9.80665 m/s². The most of
    // 2 W (3 cos θ − cos 64.16°) (1 + 1.5 W/EA) sin((64.16° − θ)/2), searched by hand: at −23.6°, 2955 N.
    let weight = 90.0 * 9.80665;
    let begins = 0.9_f64.asin();
    let at = (-23.6_f64).to_radians();
    let most =
        2.0 * weight * (3.0 * at.cos() - begins.cos()) * (1.0 + 1.5 * weight / 30e3) * ((begins - at) / 2.0).sin();
    let own = |own: f64| {
        let asked = known(slip, LimitChoice::Own, 1.0);
        Slip { against: Against { own: Force::new::<newton>(own), ..asked.against }, ..asked }.solve().unwrap()
    };
    let answer = own(2500.0);
    let first = &answer.comparisons[0];
    assert!(first.what.starts_with("on the deviation"), "{}", first.what);
    assert!((first.load.high() / most - 1.0).abs() < 1e-4 && (most - 2955.0).abs() < 1.0, "{most} {first:?}");
    // The anchor gets 2263 N, W (3 − cos 64.16°), below the 2500; the deviation more.
    assert_eq!(first.standing, Standing::RangeCrosses);
    let anchor = &answer.comparisons[1];
    assert_relative_eq!(anchor.load.high(), weight * (3.0 - begins.cos()), max_relative = 1e-12);
    let carried = answer.carried.unwrap();
    assert_eq!((carried.anchor.high(), carried.point), (first.load.high(), anchor.load));
    let hardest = answer.usual.iter().find(|row| row.what == "on the anchor that is pulled hardest").unwrap();
    assert_eq!(hardest.load.high(), first.load.high());
    // A figure of rope says nothing of the deviation, one of a sling or a connector may.
    for (name, compared) in [("rope B tied", false), ("sewn sling", true), ("connector", true), ("bolt axial", true)] {
        let Some(strength) = crate::strength::Strength::named(name) else { panic!("{name}") };
        let rows = known(slip, LimitChoice::Published(strength), 5.0).solve().unwrap().comparisons;
        assert_eq!(rows.iter().any(|row| row.what.starts_with("on the deviation")), compared, "{name}");
    }
}

#[test]
fn a_swing_from_a_deviation_or_from_far_out_is_never_below_a_limit() {
    let swing = |out: f64| {
        let plain = plain(SlipEvent::Swing, 80.0, 41e3);
        Slip { rope: metres(10.0), out: metres(out), lip: metres(0.0), ..plain }
    };
    let standings = |slip: Slip| {
        let answer = known(slip, LimitChoice::Own, 5.0).solve().unwrap();
        answer.comparisons.iter().map(|row| row.standing.words()).collect::<Vec<_>>()
    };
    let steep = |out: f64| swing(out).solve().unwrap().remarks.iter().any(|remark| remark.contains("later swings"));
    assert_eq!(standings(swing(4.9)), ["below limit"; 2]);
    // A rope that saws along a lip may be cut; the anchor is not.
    assert_eq!(standings(Slip { lip: metres(1.0), ..swing(4.9) }), ["below limit", "not checked"]);
    assert_eq!(standings(swing(5.1)), ["not checked"; 2]);
    assert!(steep(5.1) && !steep(4.9));
    // On the deviation it begins farther from plumb than without: the anchor gets that pull.
    let deviated = Slip { deviation_rope: metres(5.0), deviation_out: metres(4.0), ..swing(4.0) };
    let answer = deviated.solve().unwrap();
    let there = answer.outcomes.last().unwrap().findings[0].band;
    assert!(there.high() > answer.findings[0].band.high());
    assert!(answer.comparisons[0].load.high() == there.high() && answer.carried.unwrap().anchor.high() == there.high());
    assert_eq!(standings(deviated), ["not checked"; 3]);
}

#[test]
fn a_deviation_is_pulled_most_on_the_way_and_not_at_the_bottom() {
    // Straight below the anchor, 8 m of rope and 5 m out, the heaviest of 117 kg: at the bottom nothing turns.
    let slip = Slip {
        rope: metres(10.0),
        out: metres(5.0),
        deviation_rope: metres(8.0),
        deviation_out: metres(5.0),
        obstacle: InTheWay::None,
        lip: metres(0.0),
        clear: metres(0.0),
        ..plain(SlipEvent::Swing, 117.0, 41e3)
    };
    let answer = slip.solve().unwrap();
    let on = answer.outcomes.last().unwrap().findings[1].band;
    // 622 N at 33° if the rope does not stretch: 2 W (3 cos θ − 2 cos θ₀) sin(θ/2), searched by hand.
    assert!((on.low() - 622.0).abs() < 0.5, "{on:?}");
    // Elastic: where it begins W cos θ₀ bounces by as much again, with θ₀ = asin(5/8).
    let begins = (5.0_f64 / 8.0).asin();
    let turn = 2.0 * 117.0 * 9.80665 * 2.0 * begins.cos() * (begins / 2.0).sin();
    assert!(on.high() >= turn && on.high() < 1.2 * turn, "{on:?}");
}

#[test]
fn every_case_has_its_picture_its_curve_and_what_is_carried() {
    for event in EVENTS {
        let answer = Slip { event, ..Slip::default() }.solve().unwrap();
        let [x, y] =
            answer.scene.polygon.iter().fold([0.0, 0.0], |[x, y], arrow| [x + arrow.pull[0], y + arrow.pull[1]]);
        assert!(x.hypot(y) < 1e-9 * answer.findings[0].band.high(), "{event:?}");
        assert!(answer.scene.people.len() == 2 && answer.graphs.len() == 1, "{event:?}");
        let graph = &answer.graphs[0];
        assert_relative_eq!(graph.here.unwrap().up.high(), answer.findings[0].band.high(), max_relative = 1e-12);
        assert!(graph.curve.windows(2).all(|pair| pair[0].across < pair[1].across), "{event:?}");
        let carried = answer.carried.unwrap();
        assert!(carried.anchor.high() >= answer.comparisons[0].load.high(), "{event:?}");
        assert_eq!(answer.states.len(), 4);
        // The last of the way down is told in the working as it is told big.
        let worked: Vec<f64> = answer.working.iter().map(|step| step.result.band.high()).collect();
        assert!(worked.contains(&answer.findings[0].band.high()), "{event:?}");
    }
}

#[test]
fn what_cannot_be_is_refused() {
    let must_fail = [
        Slip { slack: metres(20.0), ..Slip::default() },
        Slip { event: SlipEvent::Tail, above: metres(0.7), ..Slip::default() },
        Slip { event: SlipEvent::Swing, out: metres(9.0), ..Slip::default() },
        Slip { event: SlipEvent::Swing, lip: metres(9.0), ..Slip::default() },
        Slip { event: SlipEvent::Swing, deviation_out: metres(1.0), ..Slip::default() },
    ];
    for slip in must_fail {
        assert!(matches!(slip.solve(), Err(BadInput::Together(_))), "{slip:?}");
    }
}

#[test]
fn behind_an_edge_rope_and_anchor_give_less() {
    // All rope behind a rough edge of 90°, wet; the anchor gives 5 cm under one person. By hand with e = e^(μ π/2):
    // the give before the edge under W is (W L/EA + a)/e, the peak W (1 + √(1 + 2 s/give)).
    let slip = Slip { edge: Edge::RoughRock, anchor_gives: metres(0.05), ..fall(95.0, 20e3, 0.5, 3.0) };
    let (weight, mut point) = (95.0 * 9.80665, slip.inputs().map(|input| input.typical()));
    let friction = slip.edge.friction(true).0.high();
    point[4] = friction;
    let case = slip.case(&point).unwrap();
    let edge = (friction * slip.edge_turn.value).exp();
    let given = slip.anchor_gives(weight).value;
    let give = (weight * 3.0 / 20e3 + given) / edge;
    let peak = weight * (1.0 + (1.0 + 2.0 * 0.5 / give).sqrt());
    assert_relative_eq!(case.before, peak, max_relative = 1e-9);
    assert_relative_eq!(case.behind, peak / edge, max_relative = 1e-9);
}

#[test]
fn an_anchor_that_fails_as_somebody_moves_and_a_rope_that_is_loose_when_it_locks_are_compared_too() {
    let row = |slip: Slip, what: &str| {
        let mut slip = known(Slip { edge: Edge::Free, clear: metres(0.0), ..slip }, LimitChoice::Own, 1.0);
        slip.against.own = Force::new::<kilonewton>(6.0);
        let answer = slip.solve().unwrap();
        let row = answer.comparisons.iter().find(|row| row.what.contains(what)).unwrap();
        (row.load.high(), row.standing, answer.carried.unwrap().rope.high())
    };
    let weight = 117.0 * 9.806_65;
    // By hand: half a metre of slack and 0.3 m of drop on 3 m of rope, EA 49 kN, and the leg.
    let fails = Slip { event: SlipEvent::Fails, rope: metres(3.0), drop: metres(0.3), ..Slip::default() };
    let gives = weight * (3.0 / 49e3 + fails.sling.value / 250e3);
    let peak = weight * (1.0 + (1.0 + 2.0 * 0.8 / gives).sqrt());
    let (load, standing, carried) = row(fails, "in the middle of a slip or a jerk");
    assert_relative_eq!(load, peak, max_relative = 1e-9);
    assert_eq!((standing, carried), (Standing::RangeCrosses, load));
    // On long rope jerks pull harder: 3.2 times the weight at least.
    let long = Slip { rope: metres(60.0), drop: metres(0.05), ..fails };
    assert!(row(long, "in the middle of a slip or a jerk").0 > 3.2 * weight);
    // F = W + √(W² + k m v²) where the rope does not carry who goes down on it.
    let stopped = Slip { event: SlipEvent::Stopped, ..Slip::default() };
    let (spring, speed) = (49e3 / stopped.rope.value, stopped.speed.value);
    let loose = weight + (weight * weight + spring * 117.0 * speed * speed).sqrt();
    let (load, _, carried) = row(stopped, "the rope loose but straight");
    assert_relative_eq!(load, loose, max_relative = 1e-9);
    assert_eq!(carried, load);
    // Over an edge the rope before it is as much stiffer as the edge bears: by hand e^(μ φ) in the same law.
    let over = Slip { edge: Edge::RoughRock, edge_turn: Angle::new::<degree>(90.0), ..stopped };
    let stiffer = (over.edge.friction(true).0.high() * FRAC_PI_2).exp();
    let before = weight + (weight * weight + stiffer * spring * 117.0 * speed * speed).sqrt();
    let answer = known(Slip { clear: metres(0.0), ..over }, LimitChoice::Own, 1.0).solve().unwrap();
    let told = answer.outcomes.iter().flat_map(|outcome| &outcome.findings);
    let told: Vec<_> = told.filter(|told| told.what == "before the edge, the rope loose but straight").collect();
    assert_eq!(told.len(), 1);
    assert_relative_eq!(told[0].band.high(), before, max_relative = 1e-9);
    let carried = answer.carried.unwrap();
    assert_relative_eq!(carried.rope.high(), before, max_relative = 1e-9);
    assert_relative_eq!(carried.point.high(), loose, max_relative = 1e-9);
}

#[test]
fn several_on_a_rope_each_pull_as_one_alone_does_so_many_times() {
    for event in [SlipEvent::Slack, SlipEvent::Fails, SlipEvent::Stopped, SlipEvent::Slips] {
        let slips_at = Band::exact(Force::new::<kilonewton>(9.0));
        let slip = Slip { event, edge: Edge::Free, drop: metres(0.3), clear: metres(0.0), slips_at, ..Slip::default() };
        let of = |count: u32| Slip { people: People { count, ..slip.people }, ..slip };
        let most = |slip: Slip| known(slip, LimitChoice::Own, 1.0).solve().unwrap().carried.unwrap().anchor.high();
        for count in [2, 6] {
            let answer = known(of(count), LimitChoice::Own, 1.0).solve().unwrap();
            let apart = f64::from(count) * most(of(1));
            assert_relative_eq!(found(&answer, "each on a rope of their own").high(), apart, max_relative = 1e-12);
            assert!(answer.findings[0].what.contains(", all on one rope"), "{}", answer.findings[0].what);
            let carried = answer.carried.unwrap();
            assert_relative_eq!(carried.anchor.high(), apart, max_relative = 1e-12);
            assert_relative_eq!(carried.point.high(), apart, max_relative = 1e-12);
            let row = answer.comparisons.iter().find(|row| row.what.contains("each on a rope of their own")).unwrap();
            assert_relative_eq!(row.load.high(), apart, max_relative = 1e-12);
        }
    }
    // The slip that other questions count is that: half a metre of slack on 3 m of a rope as stiff as theirs.
    let slip = plain(SlipEvent::Slack, 80.0, 41e3);
    let two = Slip { slack: metres(0.5), rope: metres(3.0), people: People { count: 2, ..slip.people }, ..slip };
    let people = two.people.load_of_all(State::Slip, 80.0, 0.0, 41e3).unwrap();
    assert_relative_eq!(
        found(&two.solve().unwrap(), "each on a rope of their own").high(),
        people,
        max_relative = 1e-9
    );
}
