use super::super::Question;
use super::super::answer::{End, Finding, Gravity};
use super::super::carried::HeldBy;
use super::super::field::Entry;
use super::super::scene::size;
use super::choice::Posture;
use super::*;
use crate::quantity::newton;
use crate::working::Known;
use approx::assert_relative_eq;
use std::f64::consts::FRAC_PI_4;

pub(super) fn metres(value: f64) -> Length {
    Length::new::<metre>(value)
}

pub(super) fn with(tool: Tool) -> InTheCurrent {
    InTheCurrent { tool, ..InTheCurrent::default() }
}

/// A line of a span, slanted so many degrees to the current.
fn slanted(span: f64, degrees: f64) -> InTheCurrent {
    let (sine, cosine) = f64::to_radians(degrees).sin_cos();
    let down = if degrees == 90.0 { 0.0 } else { span * cosine };
    InTheCurrent { across: metres(span * sine), down: metres(down), ..InTheCurrent::default() }
}

pub(super) fn answer(current: &InTheCurrent) -> Answer {
    current.solve().unwrap()
}

pub(super) fn found<'a>(answer: &'a Answer, words: &str) -> &'a Finding {
    answer.findings.iter().find(|finding| finding.what.contains(words)).unwrap_or_else(|| panic!("{words}"))
}

#[test]
fn the_catch_of_the_check_values_comes_out() {
    // Row W10: 95 kg at 2 m/s, 8 m of line, EA 20 kN, C_d 1.2: 1.30 kN in line, 3.40 kN broadside.
    let tether = InTheCurrent { line: metres(8.0), pack: Whether::No, ..with(Tool::Tether) };
    for (posture, force) in [(Posture::InLine, 1300.0), (Posture::Broadside, 3400.0)] {
        let [drag, _] = tether.drags(&[2.0, 1.0, 1000.0, 1.2, 0.0, 0.0], posture).unwrap();
        let [reach, peak] = tether.caught(&[drag, 2.0, 20e3, 95.0, 1.5, 0.0]).unwrap();
        assert_relative_eq!(peak, force, epsilon = 10.0);
        // By hand: the line is longer by peak/EA of itself.
        assert_relative_eq!(reach, 8.0 + 8.0 * peak / 20e3 + 1.5, max_relative = 1e-12);
    }
}

#[test]
fn a_line_in_the_water_is_dragged_as_by_hand() {
    // 10 mm of line, 24 N for each metre across 2 m/s: 8 m, a half of it in the water.
    let straight = |low: f64, high: f64| InTheCurrent {
        drift: Band::of(low, low.midpoint(high), high).map(Ratio::new::<ratio>),
        ..with(Tool::Diagonal)
    };
    let on = |rig: &InTheCurrent, surge| rig.drags(&[2.0, surge, 1000.0, 1.2, 0.0, 0.5], Posture::InLine).unwrap()[1];
    let line = on(&straight(0.0, 0.0), 1.0);
    assert_relative_eq!(line, 24.0 * 4.0, max_relative = 1e-12);
    // Surges multiply the speed, and the force by their square.
    assert_relative_eq!(on(&straight(0.0, 0.0), 1.4), 1.96 * line, max_relative = 1e-12);
    // 45° aslant, the current may set across it: by 0.1 toward the near bank it turns √128 sin(45° + atan 0.1) to it, and
    // all of its length where it may be square to it.
    let turned = 128.0_f64.sqrt() * (FRAC_PI_4 + 0.1_f64.atan()).sin();
    assert_relative_eq!(on(&straight(-0.1, 0.3), 1.0), 12.0 * turned, max_relative = 1e-12);
    assert_relative_eq!(on(&straight(-1.5, 0.3), 1.0), 12.0 * 128.0_f64.sqrt(), max_relative = 1e-12);
}

#[test]
fn where_a_slider_is_left_is_that_of_the_check_values() {
    // Row W9: 10 m, 2 % of slack, μ 0.2, a line that does not stretch.
    for (degrees, left) in [(45.0, 0.28), (60.0, 0.74), (75.0, 3.48), (90.0, 8.61)] {
        let bent = slanted(10.0, degrees).bent(&[500.0, 0.02, 1e12, 0.0, 0.2]).unwrap();
        assert_relative_eq!(bent.parts[1], left, epsilon = 0.02);
    }
}

#[test]
fn the_parts_of_a_bent_line_balance_the_water_wherever_the_person_is() {
    for degrees in [20.0, 45.0, 70.0, 90.0] {
        for drift in [-0.1, 0.0, 0.2] {
            let rig = slanted(9.0, degrees);
            for slack in [0.0, 0.02, 0.1] {
                let Ok(bent) = rig.bent(&[800.0, slack, 25e3, drift, 0.25]) else { panic!("{degrees}") };
                if bent.to_current > std::f64::consts::FRAC_PI_2 || bent.middle[1] == 0.0 {
                    continue;
                }
                // Places from the lengths alone: the person is where both parts end.
                for (at_rest, near, heading, tensions) in [
                    (true, bent.parts[0], bent.angles[0], bent.tensions),
                    (false, 4.5 * (1.0 + bent.slack), bent.to_current - bent.dip, bent.middle),
                ] {
                    let [x, y] = bent.direction(heading).map(|part| near * part);
                    let (dx, dy) = (rig.across.value - x, -rig.down.value - y);
                    let far = dx.hypot(dy);
                    assert_relative_eq!(near + far, 9.0 * (1.0 + bent.slack), max_relative = 1e-6);
                    let water = bent.direction(0.0).map(|part| 800.0 * part);
                    let sum = [
                        water[0] - tensions[0] * x / near + tensions[1] * dx / far,
                        water[1] - tensions[0] * y / near + tensions[1] * dy / far,
                    ];
                    assert!(size(sum) < 1e-5 * tensions[0].max(800.0), "{degrees} {drift} {slack} {at_rest}: {sum:?}");
                }
            }
        }
    }
}

#[test]
fn straight_across_each_end_gets_half_the_water_over_the_sine() {
    // T = F/(2 sin δ), cos δ = 1/1.05 of a loose line that does not stretch.
    let line = InTheCurrent { down: metres(0.0), ..with(Tool::HandLine) };
    let bent = line.bent(&[600.0, 0.05, 1e12, 0.0, 0.0]).unwrap();
    let force = 600.0 / (2.0 * (1.0_f64 / 1.05).acos().sin());
    assert_relative_eq!(bent.middle[0], force, max_relative = 1e-6);
    assert_relative_eq!(bent.middle[1], force, max_relative = 1e-6);
}

#[test]
fn a_line_without_slack_is_held_by_its_stretch_alone() {
    // Small angles: T³ = EA F²/8.
    let line = InTheCurrent { down: metres(0.0), ..with(Tool::HandLine) };
    let bent = line.bent(&[50.0, 0.0, 30e3, 0.0, 0.0]).unwrap();
    assert_relative_eq!(bent.middle[0], (30e3 * 2500.0 / 8.0_f64).cbrt(), max_relative = 0.02);
}

#[test]
fn slack_eats_the_angle_and_so_does_friction() {
    let left = |slack, friction| slanted(10.0, 50.0).bent(&[500.0, slack, 30e3, 0.0, friction]).unwrap().left_across();
    assert!(left(0.01, 0.2) < left(0.03, 0.2) && left(0.03, 0.2) < left(0.10, 0.2));
    assert!(left(0.03, 0.05) < left(0.03, 0.2) && left(0.03, 0.2) < left(0.03, 0.4));
    // The adverse end is that of the most friction and slack: a wet connector, 1.3 · 0.29.
    let rig = InTheCurrent::default();
    let [rest, ..] = rig.bends(&rig.drag(Posture::Broadside).unwrap(), Posture::Broadside).unwrap();
    let [_, slack, _, drift, friction] = rest.spread.at_high;
    assert_relative_eq!(friction, 1.3 * 0.29, max_relative = 1e-12);
    // The angle is the one at that place: 45° by the banks, and the drift of the current to either side.
    let angle = found(&answer(&rig), "straight line and the current").band;
    assert_relative_eq!(angle.high(), 45_f64.to_radians() + 0.1_f64.atan(), max_relative = 1e-9);
    assert!(slack == 0.05 && drift == -0.1, "{:?}", rest.spread.at_high);
}

#[test]
fn a_line_slanted_upstream_carries_nobody() {
    let rig =
        InTheCurrent { down: metres(0.0), drift: Band::exact(Ratio::new::<ratio>(-0.5)), ..InTheCurrent::default() };
    let answer = answer(&rig);
    assert!(answer.findings[0].band.low() > 0.8 * 8.0 && answer.findings[0].what.contains("far bank"));
    assert!(answer.remarks.iter().any(|remark| remark.contains("not carry on")), "{:?}", answer.remarks);
}

#[test]
fn a_timed_float_goes_its_way_over_its_time_give_or_take() {
    let timed = |way, time| InTheCurrent {
        speed_by: SpeedBy::Float,
        float_way: metres(way),
        float_time: Time::new::<second>(time),
        ..InTheCurrent::default()
    };
    let speed = timed(10.0, 5.0).speed().unwrap();
    assert_relative_eq!(speed.low(), 1.4, max_relative = 1e-12);
    assert_relative_eq!(speed.high(), 2.6, max_relative = 1e-12);
    assert!(timed(100.0, 2.0).solve().unwrap_err().to_string().contains("float"));
}

/// Wide and narrow, stiff and soft, one person and twelve, water that stands and a torrent: no search runs out.
#[test]
fn every_line_across_every_water_has_an_answer() {
    for (across, float_s) in [2.0, 100.0].into_iter().flat_map(|across| [1.0, 4.0, 900.0].map(|time| (across, time))) {
        for (people, stiffness) in [1.0, 12.0].into_iter().flat_map(|people| [5e3, 2e5].map(|ea| (people, ea))) {
            let mut question = Question::named("in the current").unwrap();
            for (field, entry) in [
                ("tool", Entry::Choice("hand-line")),
                ("speed_by", Entry::Choice("float")),
                ("float_s", Entry::One(float_s)),
                ("across_m", Entry::One(across)),
                ("slack", Entry::Range(Band::of(0.05, 0.2, 0.3))),
                ("people", Entry::One(people)),
                ("stiffness_n", Entry::Range(Band::of(stiffness, stiffness, stiffness))),
            ] {
                question.set(field, &entry).unwrap();
            }
            let answer = question.answer();
            assert!(answer.is_ok(), "{across} m, {float_s} s, {people}, {stiffness} N: {:?}", answer.err());
        }
    }
}

#[test]
fn published_limits_of_standing_come_out_as_speeds() {
    // Rows W2, W3 and W8: 1.75 m, 75 kg in 0.5 m; Cox, Shand & Blacka 0.6, 0.8 and 1.2 m²/s.
    let rig = InTheCurrent { bed: Bed::CleanRock, ..with(Tool::HandLine) };
    let point = [0.5 / 1.75, 1.75, 75.0, 10.0, 0.5, 1.2, 1000.0, 55.0];
    let falls = rig.falls_at(&point).unwrap();
    for (place, speed) in [(0, 1.355 / 0.5), (2, 0.725 / 0.5), (4, 1.2), (5, 1.6), (6, 2.4), (7, 1.387), (8, 2.229)] {
        assert_relative_eq!(falls[place], speed, max_relative = 5e-3);
    }
    // By hand: W_a = 85 g − 1000 g V s − 55, V = 0.071188, s = 0.285714 (0.633 · 0.285714 + 0.367).
    let left = 9.80665 * (85.0 - 1000.0 * 0.071188 * 0.285714 * (0.633 * 0.285714 + 0.367)) - 55.0;
    assert_relative_eq!(falls[9], (2.0_f64 * 0.5 * left / (1000.0 * 1.2 * 0.4 * 0.5)).sqrt(), max_relative = 1e-4);
    assert_relative_eq!(falls[10], (4.0_f64 * 0.15 * left / (1000.0 * 1.2 * 0.4)).sqrt() / 0.5, max_relative = 1e-4);
    // Boulders halve what was published.
    let boulders = InTheCurrent { bed: Bed::Boulders, ..rig }.falls_at(&point).unwrap();
    for place in 0..9 {
        assert!(boulders[place] <= 0.5 * falls[place] + 1e-12 || falls[place] == 3.0, "{place}");
    }
}

#[test]
fn fast_water_is_above_limits_of_standing_and_slow_water_is_not_checked() {
    let told = |flow, depth| {
        let answer = answer(&InTheCurrent { flow, depth, ..with(Tool::HandLine) });
        let limits = &answer.outcomes[0];
        assert!(limits.case.contains("slimy rock"), "the bed is named: {}", limits.case);
        let above = limits.findings.iter().filter(|finding| finding.stands == Some("above limit")).count();
        let not = limits.findings.iter().filter(|finding| finding.stands == Some("not checked")).count();
        let adverse =
            limits.findings.iter().filter(|finding| finding.stands == Some("above limit at the adverse end")).count();
        assert_eq!(above + adverse + not, limits.findings.len());
        let told = [answer.remarks, answer.stands].concat().join(" ");
        assert!(
            told.contains(&format!(
                "above {} of 11 published limits of standing, above {above} at every end",
                above + adverse
            )),
            "{told}"
        );
        (above, told)
    };
    assert_eq!(told(Flow::AlmostStill, Depth::Knee).0, 0);
    assert_eq!(told(Flow::Faster, Depth::Waist).0, 11);
    let (some, remarks) = told(Flow::Walk, Depth::Waist);
    assert!(some > 0 && remarks.contains("above the knee") && remarks.contains("flood"), "{some} {remarks}");
}

#[test]
fn the_graph_leaves_nobody_farther_from_the_far_bank_than_the_water_is_wide() {
    let rig = InTheCurrent::default();
    let graph = &answer(&rig).graphs[0];
    assert_eq!(graph.up.name, "from the far bank");
    assert!(graph.curve.iter().all(|mark| mark.up.high() <= rig.across.value), "{:?}", graph.curve);
}

#[test]
fn a_thrown_line_is_drawn_from_a_thrower_who_may_not_hold_it() {
    let names = |tool| {
        let scene = answer(&with(tool)).scene;
        (scene.forces[1].name, scene.lengths[0].name)
    };
    assert_eq!(names(Tool::ThrowLine), ("thrower", "feet, if held"));
    assert_eq!(names(Tool::Tether), ("upper end", "feet at most"));
}

#[test]
fn a_tether_stops_a_person_before_the_lip_or_it_does_not() {
    let tether = |line, to_lip| {
        let rig =
            InTheCurrent { line: metres(line), to_hazard: metres(to_lip), across: metres(1.0), ..with(Tool::Tether) };
        let answer = answer(&rig);
        let left = found(&answer, "left between the feet and the lip").band;
        (left, found(&answer, "below the anchor").band, answer.remarks[0].clone())
    };
    let (left, reach, told) = tether(10.0, 30.0);
    assert_relative_eq!(left.low(), 30.0 - reach.high(), max_relative = 1e-12);
    assert!(reach.high() > 12.0 && told.contains("short of the lip"), "{told}");
    // Picture and working show the same farthest place as the big number.
    let rig = InTheCurrent { to_hazard: metres(30.0), ..with(Tool::Tether) };
    let whole = answer(&rig);
    let feet = whole.scene.lengths.iter().find(|length| length.name == "feet at most").unwrap();
    let worked = whole.working.iter().find(|step| step.result.symbol == "r").unwrap().result.band.high();
    let farthest = found(&whole, "below the anchor").band.high();
    assert_relative_eq!(feet.from[1] - feet.to[1], farthest, max_relative = 1e-9);
    assert_relative_eq!(worked, farthest, max_relative = 1e-9);
    // The line alone is shorter than the way to the lip; stretch and feet are not.
    let (left, reach, told) = tether(10.0, 12.0);
    assert!(left.low() == 0.0 && reach.high() > 12.0 && told.contains("beyond the lip"), "{told}");
    let (left, _, told) = tether(15.0, 12.0);
    assert!(left.high() == 0.0 && told.contains("At every end"), "{told}");
}

#[test]
fn a_swimmer_on_a_thrown_line_lands_within_its_circle_about_the_thrower() {
    let rig = InTheCurrent { to_hazard: metres(14.0), ..with(Tool::ThrowLine) };
    let answer = answer(&rig);
    let reach = found(&answer, "end of the swing").band;
    // No shorter than the line with the legs, no longer than it stretches at the catch.
    let peak = found(&answer, "comes tight, the swimmer broadside").band;
    assert!(reach.low() > 12.0 + 0.8);
    assert_relative_eq!(reach.high(), 12.0 * (1.0 + peak.high() / 20e3) + 2.0, max_relative = 0.01);
    assert!(answer.remarks[0].contains("hold this") && answer.remarks[1].contains("beyond the lip"));
    let held = found(&answer, "held for minutes").band;
    assert!(held.high() < 1557.0, "an average person held 350 lbf for seconds, {held:?}");
}

#[test]
fn a_line_that_does_not_reach_the_swimmer_is_refused() {
    let short = InTheCurrent { line: metres(5.0), across: metres(6.0), ..with(Tool::ThrowLine) };
    assert!(short.solve().unwrap_err().to_string().contains("distance across"));
}

#[test]
fn a_taut_line_ended_on_people_is_too_much_for_them() {
    let rig = InTheCurrent {
        flow: Flow::Run,
        down: metres(0.0),
        slack: Band::exact(Ratio::new::<ratio>(0.0)),
        ends_on: EndsOn::People,
        ..with(Tool::HandLine)
    };
    let answer = answer(&rig);
    assert_eq!(answer.comparisons[0].standing, Standing::AboveLimit);
    assert!(answer.remarks.iter().any(|remark| remark.contains("does not hold")), "{:?}", answer.remarks);
    assert_eq!(answer.carried.unwrap().held, HeldBy::People);
}

#[test]
fn what_lies_downstream_is_in_every_answer() {
    for tool in [Tool::HandLine, Tool::Diagonal, Tool::Tether, Tool::ThrowLine] {
        for choice in Downstream::CHOICES {
            let mut rig = with(tool);
            rig.downstream = super::super::field::Enters::from_entry(&Entry::Choice(choice.name)).unwrap();
            let answer = answer(&rig);
            assert!(answer.remarks.iter().any(|remark| remark.contains(choice.words)), "{:?}", answer.remarks);
            assert!(answer.states.is_empty() && answer.scene.case.contains("from above"));
            assert!(answer.cautions.iter().filter(|caution| caution.gravity == Gravity::Danger).count() >= 3);
            assert!(answer.not_in.iter().any(|what| what.contains("siphons")));
        }
    }
}

#[test]
fn each_tool_asks_only_for_what_matters_to_it() {
    let asked = |current: &InTheCurrent| -> Vec<&str> {
        InTheCurrent::fields().iter().filter(|field| (field.asked)(current)).map(|field| field.about.name).collect()
    };
    for (tool, yes, no) in [
        (Tool::HandLine, ["depth", "height_m", "slack"], ["line_m", "slides_on", "stance"]),
        (Tool::Diagonal, ["slack", "slides_on", "down_m"], ["line_m", "depth", "bed"]),
        (Tool::Tether, ["line_m", "ends_on", "anchor"], ["slack", "drift", "depth"]),
        (Tool::ThrowLine, ["line_m", "stance", "seat"], ["ends_on", "anchor", "limit"]),
    ] {
        let names = asked(&with(tool));
        assert!(yes.iter().all(|name| names.contains(name)), "{tool:?} {names:?}");
        assert!(!no.iter().any(|name| names.contains(name)), "{tool:?} {names:?}");
    }
    // What is not asked changes nothing.
    let changed = InTheCurrent {
        line: metres(50.0),
        depth: Depth::Chest,
        stance: Stance::FeetTogether,
        ..InTheCurrent::default()
    };
    assert_eq!(answer(&changed).findings, answer(&InTheCurrent::default()).findings);
}

#[test]
fn faster_water_is_never_better() {
    for tool in [Tool::HandLine, Tool::Diagonal, Tool::Tether, Tool::ThrowLine] {
        let flows = [Flow::AlmostStill, Flow::Stroll, Flow::Walk, Flow::Jog, Flow::Run, Flow::Faster];
        let answers = flows.map(|flow| answer(&InTheCurrent { flow, ..with(tool) }));
        for (slow, fast) in answers.iter().zip(answers.iter().skip(1)) {
            for (slow, fast) in slow.findings.iter().zip(&fast.findings) {
                assert_eq!(slow.what, fast.what);
                let better = match slow.end {
                    End::High => fast.band.high() < slow.band.high() * (1.0 - 1e-9),
                    End::Low => fast.band.low() > slow.band.low() * (1.0 + 1e-9),
                };
                assert!(!better, "{tool:?} {}: {:?} {:?}", slow.what, slow.band, fast.band);
            }
        }
    }
}

#[test]
fn a_limit_of_standing_is_too_much_where_its_low_end_is_below_the_fastest_water() {
    let mut between = 0;
    for flow in [Flow::AlmostStill, Flow::Stroll, Flow::Walk] {
        let rig = InTheCurrent { flow, depth: Depth::Knee, ..with(Tool::HandLine) };
        let fastest = rig.speed().unwrap().high();
        let limits = crate::band::sweep_corners(rig.stands().unwrap(), |point| rig.falls_at(point)).unwrap();
        let [adverse, _] = rig.limits_of_standing().unwrap().1;
        assert_eq!(adverse, limits.iter().filter(|limit| limit.band.low() < fastest).count(), "{flow:?}");
        between += limits.iter().filter(|limit| limit.band.low() < fastest && fastest < limit.band.high()).count();
    }
    assert!(between > 0, "none of these waters lies inside a limit's range");
}

#[test]
fn a_known_bolt_beside_a_great_limit_is_still_not_checked() {
    let mut rig = InTheCurrent::default();
    rig.against.holds = super::super::Holds::KnownBolt;
    rig.against.limit = LimitChoice::Own;
    rig.against.own = Force::new::<newton>(100_000.0);
    for row in answer(&rig).comparisons {
        assert!(matches!(row.standing, Standing::NotChecked(why) if why.contains("moving water")), "{}", row.what);
    }
    rig.against.own = Force::new::<newton>(10.0);
    assert!(answer(&rig).comparisons.iter().all(|row| row.standing == Standing::AboveLimit));
}

#[test]
fn what_is_common_practice_or_from_memory_says_so() {
    for tool in [Tool::HandLine, Tool::Diagonal, Tool::Tether, Tool::ThrowLine] {
        let answer = answer(&with(tool));
        let practice =
            answer.cautions.iter().filter(|caution| caution.avoidance.contains("common practice, no source"));
        assert!(practice.count() >= 3, "{tool:?}");
        assert!(answer.formulas.iter().any(|formula| formula.source.known == Known::Memory));
    }
}

#[test]
fn whoever_is_swept_into_a_line_hangs_on_it_by_what_the_catch_pulls() {
    // 1648 N, followed by a program of its own in steps of a hundredth of these; the drag alone is 951 N.
    let asked = r#"{"question": "in the current", "across_m": 4, "down_m": 1, "drift": 0, "slack": 0, "speed_by": "float",
        "float_m": 10, "float_s": 14, "speed_off": 0.3, "silt": "yes", "pack": "no", "body_kg": [58, 75, 100], "kit_kg": [5, 10, 25]}"#;
    let question: Question = serde_json::from_str(asked).unwrap();
    let carried = question.answer().unwrap().carried.unwrap();
    assert_relative_eq!(carried.hung.high(), 1648.0, max_relative = 5e-3);
}

#[test]
fn slow_water_sweeps_hardest_at_a_drift_that_pulls_less() {
    let rig = InTheCurrent {
        flow: Flow::AlmostStill,
        across: Length::new::<metre>(8.0),
        down: Length::new::<metre>(10.0),
        ..with(Tool::HandLine)
    };
    let near = |rig: &InTheCurrent| answer(rig).findings[0].band.high();
    let share = |drift: f64| Band::exact(Ratio::new::<crate::quantity::ratio>(drift));
    let InTheCurrent { drift, .. } = rig;
    for step in 0..=20 {
        let at = drift.low().value + (drift.high() - drift.low()).value * f64::from(step) / 20.0;
        let there = near(&InTheCurrent { drift: share(at), ..rig });
        assert!(near(&rig) >= 0.99 * there, "{there} at {at}, {} over all", near(&rig));
    }
}

#[test]
fn where_the_current_leaves_whoever_slides_covers_slacks_and_drifts_between_the_ends() {
    let shares = |low, typical, high| Band::of(low, typical, high).map(Ratio::new::<crate::quantity::ratio>);
    let rig = InTheCurrent {
        speed_by: SpeedBy::Float,
        float_way: metres(10.0),
        speed_spread: Ratio::new::<crate::quantity::ratio>(0.45),
        diameter: metres(0.014),
        slides_on: SlidesOn::Pulley,
        float_time: Time::new::<crate::quantity::second>(1.2),
        across: metres(30.0),
        down: metres(27.0),
        stiffness: Band::exact(Force::new::<newton>(9500.0)),
        drift: shares(0.14, 0.24, 0.44),
        slack: shares(0.03, 0.04, 0.043),
        ..with(Tool::Diagonal)
    };
    let left = |rig: &InTheCurrent| found(&answer(rig), "from the far bank").band.high();
    let told = left(&rig);
    for slack in [0.03, 0.033, 0.036, 0.039, 0.041, 0.042, 0.043] {
        let (slack, drift) = (shares(slack, slack, slack), shares(0.14, 0.14, 0.14));
        let there = left(&InTheCurrent { slack, drift, ..rig });
        assert!(there <= 1.005 * told + 0.02, "{there} at {slack:?}, {told} over all");
    }
}
