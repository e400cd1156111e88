//! Tests of what the ends get, who holds them, and what is told where nobody may.

use super::tests::{answer, found, metres, with};
use super::*;
use crate::quantity::newton;
use approx::assert_relative_eq;

fn share(low: f64, typical: f64, high: f64) -> Band<Ratio> {
    Band::of(low, typical, high).map(Ratio::new::<ratio>)
}

fn line(tool: Tool, across: f64, down: f64, slack: f64, drift: Band<Ratio>) -> InTheCurrent {
    let slack = share(slack, slack, slack);
    InTheCurrent { across: metres(across), down: metres(down), slack, drift, ..with(tool) }
}

#[test]
fn nobody_is_told_to_stop_short_on_a_line_that_people_may_not_hold() {
    let thrown = with(Tool::ThrowLine);
    let tied = InTheCurrent { ends_on: EndsOn::People, line: metres(4.0), ..with(Tool::Tether) };
    for rig in [thrown, InTheCurrent { across: metres(2.0), ..tied }] {
        let answer = answer(&rig);
        assert_eq!(answer.findings[0].band.low(), 0.0, "{}", answer.findings[0].what);
        assert!(answer.remarks[0].contains("One person at an end"), "{:?}", answer.remarks);
        for remark in answer.remarks.iter().filter(|remark| remark.contains("short of")) {
            assert!(remark.contains("Only if whoever holds does hold"), "{remark}");
        }
    }
}

#[test]
fn the_stretch_of_the_part_that_carries_most_counts_toward_the_lip() {
    // 3 m across and 20 down, the lip 23 m down: at 0.9 of the line, 5 % of slack, EA 20 kN, a body rests 22.1 m down.
    let rig = |across: f64, down: f64, lip: f64| InTheCurrent {
        across: metres(across),
        down: metres(down),
        drift: share(0.0, 0.0, 0.0),
        to_hazard: metres(lip),
        ..with(Tool::HandLine)
    };
    let over = answer(&rig(3.0, 20.0, 23.0));
    assert_eq!(found(&over, "of water left between the feet at the lowest").band.low(), 0.0);
    assert!(over.remarks.iter().any(|remark| remark.starts_with("The line itself leads")), "{:?}", over.remarks);
    // Nowhere does anybody rest lower than is told: 19 places of the line, the current as strong as it may be.
    for (across, down) in [(3.0, 20.0), (8.0, 8.0), (6.0, 18.0), (12.0, 0.0), (5.0, -2.0), (2.0, 1.0)] {
        let rig = rig(across, down, 200.0);
        let answer = answer(&rig);
        let told = 200.0 - found(&answer, "of water left between the feet at the lowest").band.low();
        let drag = rig.drag(choice::Posture::Broadside).unwrap().band.high();
        let lowest = (1..20)
            .map(|place| rig.straight(&[drag, 0.05, 20e3, 0.0, 0.0]).rests(drag, f64::from(place) / 20.0).unwrap())
            .fold(f64::NEG_INFINITY, f64::max);
        assert!(lowest + 2.0 <= told && told < 1.1 * (lowest + 2.0) + 0.5, "{across} {down}: {lowest} {told}");
    }
}

#[test]
fn the_slack_at_which_a_sweep_pulls_hardest_may_lie_between_its_ends() {
    let far = |slack: Band<Ratio>| {
        let rig =
            InTheCurrent { flow: Flow::Stroll, slack, ..line(Tool::HandLine, 4.0, 3.0, 0.0, share(-0.2, 0.0, 0.2)) };
        found(&answer(&rig), "on the far end, the person in line").band.high()
    };
    assert!(far(share(0.05, 0.175, 0.3)) > far(share(0.081, 0.081, 0.081)));
}

#[test]
fn a_thicker_line_and_browner_water_are_never_better_for_the_far_end() {
    let far = |millimetres: f64, silt: Whether| {
        let rig = InTheCurrent {
            flow: Flow::Stroll,
            pack: Whether::No,
            silt,
            diameter: metres(millimetres / 1000.0),
            stiffness: Band::exact(Force::new::<newton>(41e3)),
            ..line(Tool::HandLine, 3.0, 9.0, 0.0, share(0.0, 0.0, 0.0))
        };
        found(&answer(&rig), "on the far end, the person in line").band.high()
    };
    let (thin, thick) = (far(4.0, Whether::Yes), far(16.0, Whether::Yes));
    assert!(thick >= thin && thin >= far(4.0, Whether::No), "{thin} {thick}");
}

#[test]
fn an_end_let_go_leaves_a_slider_to_the_water() {
    for tool in [Tool::Diagonal, Tool::HandLine] {
        let answer = answer(&with(tool));
        assert!(answer.remarks.iter().all(|remark| !remark.contains("short of")), "{:?}", answer.remarks);
        assert!(answer.remarks.iter().any(|remark| remark.contains("nothing holds the person then")));
        assert!(answer.not_in.iter().any(|what| what.contains("hands that let go")));
        let swings = answer.findings.iter().any(|finding| finding.what.contains("swing about"));
        assert_eq!(swings, tool == Tool::HandLine);
    }
}

#[test]
fn an_end_whose_other_part_is_slack_holds_the_whole_drag() {
    let rig = line(Tool::HandLine, 2.0, 20.0, 0.2, share(0.0, 0.0, 0.0));
    let bent = rig.bent(&[4275.0, 0.2, 20e3, 0.0, 0.0]).unwrap();
    assert_eq!(bent.middle, [4275.0, 0.0]);
    let answer = answer(&rig);
    // By hand: ½ · 1100 · 1.5 · 0.8 (1.4 · 1.8)² on the person, 24 N/m at 2 m/s and 1000 kg/m³ on 2 m of line.
    let drag = 0.5 * 1100.0 * (1.5 * 0.8 + 1.2 * 0.01 * 2.0) * (1.4_f64 * 1.8).powi(2);
    assert_relative_eq!(found(&answer, "on the near end").band.high(), drag, max_relative = 1e-9);
    let step = answer.working.iter().find(|step| step.result.symbol == "T_near").unwrap();
    assert_relative_eq!(step.result.band.high(), drag, max_relative = 1e-9);
}

#[test]
fn both_ends_of_a_hand_line_hold_at_least_the_drag_and_the_larger_is_compared() {
    for (across, down) in [(8.0, 8.0), (8.0, 0.0), (2.0, 20.0)] {
        let rig = line(Tool::HandLine, across, down, 0.3, share(-0.2, 0.0, 0.2));
        let answer = answer(&rig);
        let drag = rig.drag(choice::Posture::Broadside).unwrap().band.high();
        let (near, far) = (found(&answer, "on the near end").band.high(), found(&answer, "on the far end").band.high());
        assert!(near >= drag && far >= drag, "{near} {far} {drag}");
        assert_eq!(answer.comparisons[0].load.high(), near.max(far));
        assert_eq!(answer.carried.unwrap().anchor.high(), near.max(far));
    }
    // Slanted upstream of the current the far end gets more.
    let far = answer(&line(Tool::Diagonal, 8.0, 0.0, 0.02, share(-0.6, -0.5, -0.4)));
    assert_eq!(far.comparisons[0].load.high(), found(&far, "on the far end").band.high());
    assert!(far.comparisons[0].load.high() > found(&far, "on the near end").band.high());
}

#[test]
fn a_drift_between_its_ends_that_pulls_harder_is_found() {
    for (across, down, slack, most, tool) in [
        (8.0, 8.0, 0.0, 1.0, Tool::Diagonal),
        (4.0, 4.0, 0.02, 0.6, Tool::Diagonal),
        (8.0, 0.0, 0.02, 1.0, Tool::Diagonal),
        (8.0, 0.0, 0.02, 1.0, Tool::HandLine),
        (2.0, 20.0, 0.3, 1.0, Tool::HandLine),
    ] {
        let told = answer(&line(tool, across, down, slack, share(-most, 0.0, most)));
        for step in 0..=40 {
            let drift = most * (f64::from(step) / 20.0 - 1.0);
            let there = answer(&line(tool, across, down, slack, share(drift, drift, drift)));
            for end in ["on the near end of", "on the far end of"] {
                let (all, one) = (found(&told, end).band.high(), found(&there, end).band.high());
                // Between two of the places of a line some thousandths are missed.
                assert!(all > one * (1.0 - 3e-3), "{across} {down} {drift} {end}: {all} {one}");
            }
        }
    }
}

/// Most force of a line that catches a body which takes its own mass of water along, integrated in time.
fn integrated(resistance: f64, water: f64, stiffness: f64, mass: f64) -> f64 {
    let (mut stretch, mut speed, mut most) = (0.0, water, 0.0_f64);
    let step = 1e-5;
    for _ in 0..200_000 {
        let past: f64 = water - speed;
        let force = stiffness * stretch;
        most = most.max(force);
        speed += step * (resistance * past * past.abs() - force) / (2.0 * mass);
        stretch += step * speed;
    }
    most
}

#[test]
fn a_catch_in_slow_water_is_no_less_than_one_integrated_with_the_water_carried_along() {
    for (flow, length) in [(Flow::AlmostStill, 1.0), (Flow::Stroll, 2.0), (Flow::Walk, 12.0)] {
        let rig = InTheCurrent { flow, line: metres(length), across: metres(0.5), ..with(Tool::Tether) };
        let told = found(&answer(&rig), "tether comes tight").band.high();
        let water = 1.4 * flow.speed().high();
        let resistance = rig.drag(choice::Posture::Broadside).unwrap().band.high() / (water * water);
        // Body 92 kg, kit 20 kg, water in the suit 5 kg; EA 41 kN.
        let force = integrated(resistance, water, 41e3 / length, 117.0);
        assert!(told >= force, "{flow:?} {told} {force}");
        assert!(told < 2.5 * force, "{flow:?} {told} {force}");
    }
}

#[test]
fn who_holds_is_of_the_people_asked_for() {
    let held = |body: f64, kit: f64| {
        let mut rig = with(Tool::ThrowLine);
        rig.people.body = Band::exact(crate::quantity::Mass::new::<kilogram>(body));
        rig.people.kit = Band::exact(crate::quantity::Mass::new::<kilogram>(kit));
        found(&answer(&rig), "level ground").band
    };
    // The weight holds by friction and the trial is scaled by the mass: twice the mass, twice the force.
    let (light, heavy) = (held(45.0, 5.0), held(90.0, 10.0));
    assert_relative_eq!(heavy.low(), 2.0 * light.low(), max_relative = 1e-9);
    assert_relative_eq!(heavy.high(), 2.0 * light.high(), max_relative = 1e-9);
    let wrong = InTheCurrent { stance: Stance::FeetTogether, ..with(Tool::ThrowLine) };
    let told = wrong.solve().unwrap_err().to_string();
    assert!(told.contains("stance and seat") && told.contains("standing on a wet suit"), "{told}");
}

#[test]
fn a_current_that_sets_past_the_line_is_said_to() {
    let past = line(Tool::Diagonal, 2.0, 20.0, 0.02, share(0.5, 0.8, 1.0));
    // By hand: atan(2/20) = 5.7°, the current 45° from the banks: 39.3° past the line.
    let told = past.remark_on_angle();
    assert!(told.contains("up to 40°") && told.contains("past the line"), "{told}");
    assert!(!with(Tool::Diagonal).remark_on_angle().contains("past the line"));
}

#[test]
fn a_limit_that_is_not_asked_changes_nothing() {
    let rig = InTheCurrent { ends_on: EndsOn::People, ..with(Tool::Diagonal) };
    let mut other = rig;
    other.against.limit = LimitChoice::Own;
    other.against.own = Force::new::<newton>(10.0);
    let rows = |rig: &InTheCurrent| {
        let answer = answer(rig);
        let all = answer.comparisons.iter().chain(&answer.usual);
        all.map(|row| (row.what.clone(), row.standing)).collect::<Vec<_>>()
    };
    assert_eq!(rows(&rig), rows(&other));
    assert!(rows(&rig).iter().all(|(what, _)| what != "in the line"));
}

/// One of several may be swept in alone, and a line catches one as hard as it does.
#[test]
fn more_people_take_nothing_off_the_harness_of_one_in_the_current() {
    let harness = |tool: Tool, count: u32| {
        let rig = with(tool);
        let rig = InTheCurrent { people: People { count, ..rig.people }, ..rig };
        let usual = answer(&rig).usual;
        usual.iter().find(|row| row.what.starts_with("on the harness")).unwrap().load.high()
    };
    for tool in [Tool::Tether, Tool::Diagonal, Tool::HandLine] {
        let one = harness(tool, 1);
        assert!(harness(tool, 2) >= one && harness(tool, 6) >= one, "{tool:?}: {one}");
    }
}
