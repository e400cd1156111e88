use super::case::Hold;
use super::*;
use crate::quantity::{Angle, degree};
use crate::question::{End, Entry, Question};
use crate::working::Known;
use approx::assert_relative_eq;

mod any;

const POUND: f64 = 4.448_221_615_260_5;

fn metres(value: f64) -> Length {
    Length::new::<metre>(value)
}
fn share(value: f64) -> Ratio {
    Ratio::new::<ratio>(value)
}
fn exactly(kilograms: f64) -> Band<Mass> {
    Band::exact(Mass::new::<kilogram>(kilograms))
}

fn flat() -> HumanAnchor {
    HumanAnchor { holders: 1, floor_falls: share(0.0), above_lip: metres(0.0), ..HumanAnchor::default() }
}

/// What the first holds who weighs 80 kg, at typical friction and some share of the trial.
fn first(line: &HumanAnchor, of_trial: f64) -> Hold {
    line.hold(&line.first(), 80.0, 0.0, of_trial).unwrap()
}

fn own(stands: Stands, kilograms: f64, falls: f64, side: f64) -> Further {
    let mass = Mass::new::<kilogram>(kilograms);
    Further { stands, mass, floor_falls: share(falls), side_falls: share(side) }
}

#[test]
fn a_rope_that_rises_to_one_side_drags_at_the_rise_it_has_and_topples_at_that_straight_on() {
    // By hand: μ W/(cos θ + μ sin θ) at the rise that it has, which is less than that of a steeper rope.
    let line = HumanAnchor {
        stance: Stance::FootForward,
        seat: Seat::SolesSlipperyRock,
        holder: exactly(80.0),
        to_lip: metres(0.7),
        to_side: metres(5.0),
        above_lip: metres(-2.0),
        ..flat()
    };
    let (weight, friction) = (80.0 * 9.806_65, Seat::SolesSlipperyRock.friction_at(-1.0));
    let rises = (2.0 / 0.7_f64.hypot(5.0)).atan();
    let dragged = friction * weight / (rises.cos() + friction * rises.sin());
    let hold = line.hold(&line.first(), 80.0, -1.0, 1.0).unwrap();
    assert_relative_eq!(hold.force, dragged, max_relative = 1e-9);
    let person = line.solve().unwrap().outcomes.into_iter().find(|one| one.case.starts_with("Person 1")).unwrap();
    let at = |what: &str| person.findings.iter().find(|finding| finding.what == what).unwrap().band.low();
    assert_relative_eq!(at("dragged at"), dragged, max_relative = 1e-9);
    let straight = HumanAnchor { to_side: metres(0.0), ..line };
    let lifted = straight.hold(&straight.first(), 80.0, -1.0, 1.0).unwrap().lifts.unwrap().value;
    assert!(at("lifted off at") <= lifted * (1.0 + 1e-9));
}

#[test]
fn seated_on_the_flat_a_level_rope_drags_at_friction_times_weight() {
    let hold = first(&flat(), 1.0);
    assert_relative_eq!(hold.force, 0.35 * 80.0 * 9.80665, max_relative = 1e-12);
    assert_eq!(hold.way, Way::Dragged);
}

#[test]
fn standing_with_feet_together_a_person_topples_first() {
    let hold = first(&HumanAnchor { stance: Stance::FeetTogether, seat: Seat::Gravel, ..flat() }, 1.0);
    // Row P3 of the check values.
    assert_relative_eq!(hold.force, 94.1, max_relative = 5e-3);
    assert_eq!(hold.way, Way::Topples);
}

#[test]
fn a_rope_lower_on_the_body_topples_later_and_feet_on_a_lower_floor_sooner() {
    let standing = HumanAnchor { stance: Stance::FeetTogether, seat: Seat::Gravel, ..flat() };
    let lower = HumanAnchor { raised: metres(-0.2), ..standing };
    assert_relative_eq!(first(&lower, 1.0).force, 80.0 * 9.80665 * 0.12 / 0.8, max_relative = 1e-12);
    let falling = HumanAnchor { floor_falls: share(0.25), ..standing };
    assert_relative_eq!(first(&falling, 1.0).force, 80.0 * 9.80665 * 0.12 / 1.03, max_relative = 1e-12);
}

#[test]
fn the_push_of_the_feet_is_what_the_trial_leaves() {
    let braced = HumanAnchor { stance: Stance::SeatedBraced, ..flat() };
    // Row P4 of the check values.
    assert_relative_eq!(first(&braced, 0.5).push, 503.0, max_relative = 1e-2);
    assert_relative_eq!(first(&braced, 1.0).push, 1282.0, max_relative = 1e-2);
}

#[test]
fn the_trial_leaves_no_more_to_the_feet_on_a_slipperier_seat() {
    let on = |stance, seat, falls, above| HumanAnchor {
        stance,
        seat,
        floor_falls: share(falls),
        above_lip: metres(above),
        ..flat()
    };
    for stance in [Stance::SeatedBraced, Stance::Seated] {
        for falls in [-0.5, 0.0, 0.05, 0.2, 0.5] {
            for above in [-0.5, 0.0, 0.5] {
                // From the least friction to the most.
                let seats = [Seat::SlipperyRock, Seat::Mud, Seat::CleanWetRock, Seat::Gravel];
                let held = seats.map(|seat| on(stance, seat, falls, above).found().unwrap().alone.band.low());
                assert!(held.is_sorted_by(|less, more| *less <= more + 1e-9), "{stance:?} {falls} {above} {held:?}");
            }
        }
    }
    // One friction for the trial, whatever is sat on; only a rougher seat takes more off it.
    let push = |seat| first(&on(Stance::SeatedBraced, seat, 0.0, 0.0), 1.0).push;
    assert_eq!(push(Seat::SlipperyRock), push(Seat::CleanWetRock));
    assert_relative_eq!(push(Seat::Gravel), 350.0 * POUND - 0.5 * 80.0 * 9.80665, max_relative = 1e-9);
}

#[test]
fn the_average_of_the_trials_is_told_where_there_was_a_trial_and_nowhere_else() {
    let seconds = |line: &HumanAnchor| {
        let outcomes = line.solve().unwrap().outcomes;
        outcomes.into_iter().find(|outcome| outcome.case.contains("For several seconds only"))
    };
    let braced = HumanAnchor { stance: Stance::SeatedBraced, holder: exactly(80.0), ..flat() };
    let standing = |stance| HumanAnchor { stance, seat: Seat::SolesWetRock, ..flat() };
    // Row P2 of the check values: 350 and 200 lbf. A mean is no least.
    for (line, newtons) in [(&braced, 1556.9), (&standing(Stance::FootForward), 889.6)] {
        let told = seconds(line).unwrap();
        let [mean] = told.findings.as_slice() else { panic!("{told:?}") };
        assert!(mean.what.contains("average") && mean.what.contains("half of them held less"), "{}", mean.what);
        assert_relative_eq!(mean.band.high(), newtons, epsilon = 0.05);
        assert_eq!(mean.end, End::High);
    }
    let aside = HumanAnchor { to_side: metres(2.5), ..braced };
    for line in [flat(), standing(Stance::FeetTogether), aside] {
        assert!(seconds(&line).is_none(), "{:?}", line.stance);
    }
    let minutes = 0.5 * 350.0 * POUND;
    for finding in &braced.solve().unwrap().findings {
        assert!(!finding.what.contains("held by all of them") || finding.band.high() <= minutes * (1.0 + 1e-9));
    }
    // Half without a foothold was no trial.
    let known = |line: &HumanAnchor| {
        let working = line.solve().unwrap().working;
        working.into_iter().find(|step| step.formula.starts_with("H =")).unwrap().source.known
    };
    assert_eq!([known(&braced), known(&flat())], [Known::Published, Known::Assumed]);
}

#[test]
fn feet_beyond_the_lip_are_refused() {
    let at = |stance: Stance, to_lip| {
        let seat = Seat::CleanWetRock.under(stance);
        HumanAnchor { stance, seat, to_lip: metres(to_lip), ..flat() }.solve()
    };
    for (stance, feet) in [(Stance::SeatedBraced, 0.65), (Stance::Seated, 0.65), (Stance::FootForward, 0.35)] {
        let told = at(stance, feet - 0.01).unwrap_err().to_string();
        assert!(told.contains("first person to the lip") && told.contains(&format!("{feet:.2} m")), "{told}");
        assert!(at(stance, feet).is_ok());
    }
    // Nor is it told what they held if they sat there.
    for (to_lip, sat) in [(0.5, false), (0.7, true)] {
        let outcomes = at(Stance::FeetTogether, to_lip).unwrap().outcomes;
        let mut told = outcomes.iter().flat_map(|outcome| &outcome.findings);
        assert_eq!(told.any(|finding| finding.what.contains("with all seated")), sat, "{to_lip}");
    }
}

#[test]
fn a_rope_that_runs_down_holds_no_better_than_one_along_the_floor() {
    for stance in [Stance::SeatedBraced, Stance::Seated, Stance::FootForward, Stance::FeetTogether] {
        for falls in [-0.2, 0.0, 0.2] {
            let held = |to_lip: f64, above: f64| {
                let seat = Seat::Mud;
                let line = HumanAnchor { stance, seat, floor_falls: share(falls), ..flat() };
                let line = HumanAnchor { to_lip: metres(to_lip), above_lip: metres(above), ..line };
                line.found().unwrap().alone.band
            };
            let along = held(2.5, 2.5 * falls);
            for (to_lip, above) in [(0.7, 0.2), (0.7, 0.7), (1.0, 2.0), (2.5, 1.0)] {
                let down = held(to_lip, above);
                let more = 1e-9 * along.high();
                assert!(down.low() <= along.low() + more && down.high() <= along.high() + more, "{stance:?} {falls}");
            }
        }
    }
}

#[test]
fn nobody_holds_more_than_people_held_in_the_trials_however_the_rope_runs() {
    for stance in [Stance::SeatedBraced, Stance::Seated, Stance::FootForward, Stance::FeetTogether] {
        for above in [0.0, 0.5, 1.0, 1.2, 2.0, 5.0] {
            for to_side in [0.0, 1.0] {
                let line = HumanAnchor {
                    stance,
                    seat: Seat::Gravel,
                    above_lip: metres(above),
                    to_lip: metres(1.0),
                    to_side: metres(to_side),
                    ..flat()
                };
                // Half of 350 or 200 lbf for minutes, at the mass of the heaviest, 95 kg; half of that to one side.
                let least = 0.5 * stance.trial() * POUND * 95.0 / 80.0 / (1.0 + to_side);
                let alone = line.found().unwrap().alone.band.high();
                assert!(alone <= least * (1.0 + 1e-9), "{stance:?} {above} {to_side}");
            }
        }
    }
}

#[test]
fn a_floor_steeper_than_its_friction_holds_nobody() {
    let answer = HumanAnchor { floor_falls: share(0.6), ..flat() }.solve().unwrap();
    assert_eq!(answer.findings[0].band.low(), 0.0);
    assert!(answer.remarks[0].contains("without any rope"), "{:?}", answer.remarks);
}

#[test]
fn a_side_slope_beyond_the_angle_of_friction_leaves_nothing() {
    // Friction 0.35: none left beyond atan 0.35, the level rope's friction is 0.30 at 10°.
    let on = |degrees: f64| {
        let falls = Angle::new::<degree>(degrees).value.tan();
        first(&HumanAnchor { side_falls: share(falls), ..flat() }, 1.0).force / (80.0 * 9.80665)
    };
    assert_relative_eq!(on(10.0), 0.30, epsilon = 5e-3);
    assert_eq!(on(0.35_f64.atan().to_degrees() + 0.1), 0.0);
}

#[test]
fn soles_are_stood_on_and_a_wet_suit_is_sat_on() {
    let seated = HumanAnchor { seat: Seat::SolesDryRock, ..flat() };
    assert!(seated.solve().unwrap_err().to_string().contains("seated on soles"));
    let standing = HumanAnchor { stance: Stance::FootForward, ..seated };
    assert!(standing.solve().is_ok());
    // Behind them somebody sits on the same rock: nothing is known of a wet suit on dry rock.
    assert_eq!(Seat::SolesDryRock.under(Stance::Seated), Seat::CleanWetRock);
    assert_eq!(Seat::SlipperyRock.under(Stance::FeetTogether), Seat::SolesSlipperyRock);
}

#[test]
fn the_first_carries_until_moved_and_others_add_a_share_of_their_own() {
    let mut line = HumanAnchor { holders: 3, holder: exactly(80.0), ..flat() };
    line.further[0] = own(Stands::FeetTogether, 60.0, 0.0, 0.0);
    let each = [0.35 * 80.0, 60.0 * 0.12, 0.35 * 80.0].map(|kilograms| kilograms * 9.80665);
    let found = line.found().unwrap();
    // By hand, typical values: half of what each further person holds; the one who sits behind one who stands pulls
    // up at a rope that is 0.8 m higher, 1.1 m away.
    let behind = {
        let up: f64 = (0.8_f64 / 1.1).atan();
        each[2] / (up.cos() + 0.35 * up.sin())
    };
    assert_relative_eq!(found.all.band.typical(), each[0] + 0.5 * (each[1] + behind), max_relative = 1e-9);
    assert_eq!(found.all.band.low(), found.alone.band.low());
    assert!(found.all.at_low[6] == 0.0);
}

#[test]
fn one_who_slides_without_a_rope_hangs_on_the_others() {
    let mut line = HumanAnchor { holders: 2, holder: exactly(80.0), ..flat() };
    line.further[0] = own(Stands::Seated, 70.0, 0.5, 0.0);
    let found = line.found().unwrap();
    let weight = 70.0 * 9.80665;
    let (sin, cos) = 0.5_f64.atan().sin_cos();
    let pulls = weight * (sin - 0.35 * cos);
    assert_relative_eq!(found.all.band.typical(), 0.35 * 80.0 * 9.80665 - pulls, max_relative = 1e-9);
    assert!(found.all.band.low() < found.alone.band.low());
    let told = line.each().unwrap();
    assert!(told[1].findings.iter().any(|finding| finding.what.contains("slides without any rope")));
}

#[test]
fn a_rope_that_runs_down_presses_nobody() {
    let steep = HumanAnchor { holders: 2, above_lip: metres(2.0), ..flat() };
    let held =
        steep.line().into_iter().map(|person| steep.hold(&person, 80.0, 0.0, 1.0).unwrap().slides.unwrap().value);
    // On the flat friction times weight, whatever the rope does at the lip.
    for force in held {
        assert_relative_eq!(force, 0.35 * 80.0 * 9.80665, max_relative = 1e-12);
    }
}

#[test]
fn said_as_the_first_or_by_the_same_numbers_is_the_same() {
    let line = HumanAnchor { holders: 3, holder: exactly(72.0), side_falls: share(0.08), ..HumanAnchor::default() };
    let mut said = line;
    said.further = [own(Stands::Seated, 72.0, 0.05, 0.08); 5];
    assert_eq!(line.found().unwrap().all.band, said.found().unwrap().all.band);
}

#[test]
fn each_is_told_with_the_way_that_comes_first() {
    let mut line = HumanAnchor { holders: 2, ..flat() };
    line.further[0] = own(Stands::FeetTogether, 80.0, 0.0, 0.0);
    let told = line.each().unwrap();
    assert_eq!(told.len(), 2);
    assert!(
        told[0].case.starts_with("Person 1, seated") && told[0].case.ends_with("dragged first"),
        "{}",
        told[0].case
    );
    assert!(
        told[1].case.starts_with("Person 2, standing") && told[1].case.ends_with("toppled first"),
        "{}",
        told[1].case
    );
    for outcome in &told {
        let low = outcome.findings.iter().map(|finding| finding.band.low()).fold(f64::INFINITY, f64::min);
        assert!(low > 0.0 && outcome.findings.iter().all(|finding| finding.band.high() <= 10_000.0));
    }
}

/// Least ratio at a slip of an example with some fields of its JSON set.
fn ratio_at_a_slip(json: &str) -> f64 {
    let question: Question = serde_json::from_str(&format!(r#"{{"question": "human anchor", {json}}}"#)).unwrap();
    let answer = question.answer().unwrap();
    answer.findings.iter().find(|finding| finding.what.starts_with("ratio at a slip")).unwrap().band.low()
}

#[test]
fn what_would_change_it_is_what_the_question_says_when_changed_the_largest_first() {
    let together =
        r#""stance": "feet together", "seat": "soles on slippery rock", "floor_falls": 0.05, "above_lip_m": 0.2"#;
    let question: Question = serde_json::from_str(&format!(r#"{{"question": "human anchor", {together}}}"#)).unwrap();
    let answer = question.answer().unwrap();
    let told = answer.outcomes.iter().find(|outcome| outcome.case.contains("What would change")).unwrap();
    let lows: Vec<f64> = told.findings.iter().map(|finding| finding.band.low()).collect();
    assert!(told.case.contains("arithmetic, no advice") && lows.len() <= 4);
    assert_eq!(told.findings[0].what, "as it stands");
    assert_relative_eq!(lows[0], ratio_at_a_slip(together), max_relative = 1e-12);
    assert!(lows[1] >= lows[2] && lows[1] > lows[0], "{lows:?}");
    let changed = |what: &str| told.findings.iter().find(|finding| finding.what.contains(what));
    let clean = together.replace("soles on slippery rock", "soles on wet rock");
    for (what, json) in [
        ("falls neither", together.replace(r#""floor_falls": 0.05"#, r#""floor_falls": 0"#)),
        ("clean rock", clean),
        ("lightest", format!(r#"{together}, "body_kg": 58"#)),
        ("seated", together.replace("feet together", "seated").replace("soles on slippery", "slippery")),
        ("foot well forward", together.replace("feet together", "foot forward")),
    ] {
        if let Some(finding) = changed(what) {
            assert_relative_eq!(finding.band.low(), ratio_at_a_slip(&json), max_relative = 1e-12);
        }
    }
    // Nothing that is not told would change it more.
    assert!(lows[3] >= ratio_at_a_slip(&format!(r#"{together}, "holders": 3"#)) * (1.0 - 1e-3));
}

#[test]
fn a_foothold_is_tried_and_one_more_person_changes_nothing_at_the_adverse_end() {
    let answer = HumanAnchor::default().solve().unwrap();
    let told = answer.outcomes.iter().find(|outcome| outcome.case.contains("What would change")).unwrap();
    let edge = told.findings.iter().find(|finding| finding.what.contains("edge for the feet")).unwrap();
    assert_relative_eq!(edge.band.low(), ratio_at_a_slip(r#""stance": "seated braced""#), max_relative = 1e-12);
    assert_eq!(ratio_at_a_slip(r#""holders": 6"#), ratio_at_a_slip(r#""holders": 1"#));
}

#[test]
fn forces_taken_from_elsewhere_count_instead_of_people() {
    let taken = HumanAnchor::carrying(Band::of(400.0, 500.0, 600.0), Band::of(900.0, 1000.0, 2000.0));
    let answer = taken.solve().unwrap();
    let found = |what: &str| answer.findings.iter().find(|finding| finding.what.contains(what)).unwrap().band;
    assert_eq!(found("pulled by the load at rest"), Band::of(400.0, 500.0, 600.0));
    assert_relative_eq!(
        found("ratio at a slip").low(),
        found("held by all of them").low() / 2000.0,
        max_relative = 1e-12
    );
    assert!(answer.carried.is_none() && answer.usual.is_empty() && answer.states.is_empty());
    let odd = HumanAnchor::carrying(Band::exact(600.0), Band::exact(500.0));
    assert!(matches!(odd.solve(), Err(BadInput::Refused { .. })));
}

#[test]
fn a_release_and_moving_water_are_remarked_on() {
    let told = |line: HumanAnchor| line.solve().unwrap().remarks.join(" ");
    assert!(told(flat()).contains("Nobody can let go"));
    assert!(told(HumanAnchor { released: Released::Both, ..flat() }).contains("tried under load"));
    assert!(!told(flat()).contains("moving water"));
    assert!(told(HumanAnchor { by_water: Whether::Yes, ..flat() }).contains("nobody may be tied in"));
    assert!(told(HumanAnchor { by_water: Whether::Yes, ..flat() }).contains("the weight that it carries"));
    assert!(told(flat()).contains("changes nothing"));
}

#[test]
fn what_the_project_does_not_know_is_said() {
    let answer = HumanAnchor::default().solve().unwrap();
    assert!(answer.cautions.iter().any(|caution| caution.hazard.contains("No load-cell test")));
    assert!(answer.formulas.iter().any(|formula| formula.what.contains("350 lbf")));
}

#[test]
fn no_caution_tells_them_to_go() {
    let answer = HumanAnchor::default().solve().unwrap();
    let told = answer.cautions.iter().map(|caution| caution.avoidance).collect::<Vec<_>>().join(" ");
    for words in ["another anchor", "release or not", "is assumed here"] {
        assert!(told.contains(words), "{words}");
    }
    for words in ["go on people", "without a release", "Count on"] {
        assert!(!told.contains(words), "{words}");
    }
    assert!(answer.not_in.iter().any(|words| words.contains("water") && words.contains("carries")));
}

#[test]
fn strength_is_told_as_assumed() {
    let standing = HumanAnchor { stance: Stance::FootForward, seat: Seat::SolesDryRock, ..flat() };
    let answer = HumanAnchor { raised: metres(-0.8), ..standing }.solve().unwrap();
    assert!(answer.remarks[0].contains("their strength, as assumed for minutes"), "{}", answer.remarks[0]);
}

#[test]
fn no_figure_of_a_bolt_is_set_beside_people() {
    let answer = HumanAnchor::default().solve().unwrap();
    assert_eq!(answer.usual.len(), 7);
    assert!(answer.usual.iter().all(|row| row.limit.as_ref().is_some_and(|limit| !limit.part.contains("rock"))));
}
