//! A leg that goes slack.

use rigging_core::statics::{Rig, Settings, solve};

/// Three legs in a plane to one point; the middle one has the length given.
fn three_legs(middle: f64) -> Rig {
    let mut rig = Rig::new();
    let anchors = [[-0.6, 0.0, 0.0], [0.0, 0.0, 0.0], [0.6, 0.0, 0.1]];
    let master = rig.add_free("master point", [0.1, 0.0, -1.0], [0.0, 0.0, -3000.0]).unwrap();
    for (number, at) in anchors.into_iter().enumerate() {
        let anchor = rig.add_held(format!("anchor {number}"), at).unwrap();
        let length = if number == 1 { middle } else { 1.2 };
        rig.add_line(format!("leg {number}"), &[anchor, master], length, 30_000.0).unwrap();
    }
    rig
}

#[test]
fn tensions_change_no_faster_than_stiffness_allows_while_a_leg_goes_slack() {
    // Lengthening one line by δ changes tensions by Σ ΔT²/k ≤ |ΔT of that line| δ (convexity of the
    // energy), so by at most √(k k_line) δ each.
    let step = 1e-4;
    let mut last: Option<Vec<f64>> = None;
    let (mut taut, mut slack) = (0, 0);
    for number in 0..4000 {
        let middle = 0.9 + step * f64::from(number);
        let solution = solve(&three_legs(middle), &Settings::default());
        let rest = solution.balanced().unwrap();
        if rest.lines[1].slack {
            slack += 1;
            assert_eq!(rest.lines[1].tension(), 0.0);
        } else {
            taut += 1;
        }
        let tensions: Vec<f64> = rest.lines.iter().map(|line| line.tension()).collect();
        if let Some(last) = last {
            for (now, before) in tensions.iter().zip(last) {
                let spring = 30_000.0 / 0.9;
                assert!((now - before).abs() <= spring * step * (1.0 + 1e-6), "{before} to {now} at {middle}");
            }
        }
        last = Some(tensions);
    }
    assert!(taut > 100 && slack > 100, "{taut} taut, {slack} slack");
}
