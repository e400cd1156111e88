//! The guided abseil against the balance of forces, textbook formulas and a search that knows no engine.

use super::case::{Case, Load};
use super::told::{at_the_person, included};
use super::*;
use crate::law::two_legs;
use crate::quantity::{Angle, newton, radian};
use crate::statics::Vector;
use approx::assert_relative_eq;

fn case(abseil: &GuidedAbseil, load: f64, set: f64) -> Case {
    abseil.case(&[load, 9.0, set, 30e3]).unwrap()
}

fn slack() -> GuidedAbseil {
    GuidedAbseil { guide: Guide::Slack, ..GuidedAbseil::default() }
}

#[test]
fn the_three_anchors_together_carry_the_load() {
    for (abseil, set) in [(GuidedAbseil::default(), 600.0), (slack(), 0.02)] {
        for step in case(&abseil, 900.0, set).way {
            let sum: Vector = On::ALL.iter().map(|on| step.on(*on)).sum();
            assert_relative_eq!(sum, Vector::new(0.0, 0.0, -900.0), epsilon = 1e-4);
        }
    }
}

#[test]
fn the_textbook_formulas_at_the_solved_angles_agree() {
    // Triangle of forces, OpenStax College Physics; Spellman & Whiting, example 11.3.
    let mut looked_at = 0;
    for set in [0.0, 300.0, 2000.0] {
        let solved = case(&GuidedAbseil::default(), 900.0, set);
        for step in &solved.way {
            if let Some((a, b)) = at_the_person(step) {
                let angle = Angle::new::<radian>;
                let legs = two_legs::tensions(Force::new::<newton>(900.0), angle(a), angle(b)).unwrap();
                assert_relative_eq!(step.rope, legs.a.value, max_relative = 1e-6);
                assert_relative_eq!(step.tail, legs.b.value, max_relative = 1e-6);
                let theta = included(&solved, step);
                assert_relative_eq!(step.guide, step.tail / (2.0 * (theta / 2.0).cos()), max_relative = 1e-6);
                looked_at += 1;
            }
        }
    }
    assert!(looked_at > 20, "{looked_at}");
}

#[test]
fn on_a_guide_too_slack_to_pull_the_person_hangs_plumb() {
    let solved = case(&slack(), 900.0, 0.3);
    let step = solved.way[4];
    assert!(step.guide < 1e-6, "{step:?}");
    assert!(step.person.x.abs() < 1e-6);
    assert_relative_eq!(step.rope, 900.0, max_relative = 1e-9);
}

#[test]
fn a_tighter_guide_carries_farther_out_and_pulls_harder() {
    let abseil = GuidedAbseil::default();
    let [loose, tight] = [200.0, 2000.0].map(|set| case(&abseil, 900.0, set));
    assert!(tight.way[4].person.x > loose.way[4].person.x);
    let guide = |case: &Case| case.hardest(On::Bottom).on(On::Bottom).norm();
    assert!(guide(&tight) > guide(&loose));
}

#[test]
fn the_bottom_anchor_is_pulled_up_and_back_to_the_wall() {
    let force = case(&GuidedAbseil::default(), 900.0, 600.0).hardest(On::Bottom).on(On::Bottom);
    assert!(force.x < 0.0 && force.z > 0.0, "{force:?}");
}

#[test]
fn the_scale_of_length_changes_no_force() {
    let small = GuidedAbseil::default();
    // The waist stays where it is, so the way is compared by its shape: rope paid out in the same share.
    let big = GuidedAbseil {
        height: small.height * 3.0,
        bottom_up: small.bottom_up * 3.0,
        top_out: small.top_out * 3.0,
        top_up: small.top_up * 3.0,
        tail: small.tail * 3.0,
        ..small
    };
    let set = 600.0;
    let [one, other] = [small.case(&[900.0, 9.0, set, 30e3]), big.case(&[900.0, 27.0, set, 30e3])].map(Result::unwrap);
    let at = |case: &Case, share: f64, scale: f64| {
        let line: Vec<(f64, f64)> = case.way.iter().map(|step| (step.paid_out / scale, step.guide)).collect();
        let after = line.windows(2).find(|pair| pair[1].0 >= share).unwrap().to_vec();
        after[0].1 + (after[1].1 - after[0].1) * (share - after[0].0) / (after[1].0 - after[0].0)
    };
    for share in [4.0, 7.0, 10.0] {
        assert_relative_eq!(at(&one, share, 1.0), at(&other, share, 3.0), max_relative = 0.02);
    }
}

/// The least energy of rope, guide and cow's tail over places of person and ring, looked for on a grid that
/// becomes finer: no engine, no gradient.
fn by_search(abseil: &GuidedAbseil, solved: &Case, step: &super::case::Step, load: f64) -> [f64; 4] {
    let stored = |length: f64, without: f64| {
        let stretch = (length - without).max(0.0);
        30e3 / (2.0 * without) * stretch * stretch
    };
    let energy = |[px, pz, rx, rz]: [f64; 4]| {
        let (p, r) = (Vector::new(px, 0.0, pz), Vector::new(rx, 0.0, rz));
        let guide = (r - solved.top).norm() + (solved.bottom - r).norm();
        stored(p.norm(), step.paid_out)
            + stored(guide, solved.guide)
            + stored((p - r).norm(), abseil.tail.value)
            + load * pz
    };
    let mut at = [step.person.x + 0.4, step.person.z - 0.3, step.ring.x - 0.3, step.ring.z + 0.4];
    let mut reach = 0.5;
    while reach > 1e-7 {
        let mut best = (energy(at), at);
        for number in 0..81_usize {
            let moved = [1, 3, 9, 27].map(|base| (number / base % 3) as f64 - 1.0);
            let tried = std::array::from_fn(|axis| at[axis] + reach * moved[axis]);
            let found = energy(tried);
            if found < best.0 {
                best = (found, tried);
            }
        }
        if best.1 == at {
            reach *= 0.7;
        }
        at = best.1;
    }
    at
}

#[test]
fn a_search_for_the_least_energy_comes_to_the_same_places() {
    let abseil = GuidedAbseil::default();
    let solved = case(&abseil, 900.0, 600.0);
    for step in [&solved.way[2], &solved.way[5]] {
        let [px, pz, rx, rz] = by_search(&abseil, &solved, step, 900.0);
        let (person, ring) = (Vector::new(px, 0.0, pz), Vector::new(rx, 0.0, rz));
        assert!((person - step.person).norm() < 5e-3, "{person:?} {:?}", step.person);
        assert!((ring - step.ring).norm() < 5e-3, "{ring:?} {:?}", step.ring);
    }
}

#[test]
fn a_bottom_anchor_behind_the_top_one_or_above_the_stance_is_refused() {
    let behind = GuidedAbseil { top_out: Length::new::<metre>(12.0), ..GuidedAbseil::default() };
    assert!(behind.solve().unwrap_err().to_string().contains("bottom anchor of the guide"));
    let above = GuidedAbseil { bottom_up: Length::new::<metre>(14.0), ..GuidedAbseil::default() };
    assert!(above.solve().unwrap_err().to_string().contains("bottom anchor"));
}

#[test]
fn each_anchor_is_told_in_the_state_it_was_judged_in_and_compared() {
    let answer = GuidedAbseil::default().solve().unwrap();
    assert_eq!(answer.comparisons.len(), 3);
    assert!(answer.findings[..3].iter().all(|finding| finding.what.ends_with("a slip onto slack rope")));
    assert!(answer.findings[0].band.high() >= answer.findings[1].band.high());
    assert_eq!(answer.states[3].band, answer.findings[0].band);
}

fn metres(value: f64) -> Length {
    Length::new::<metre>(value)
}

fn range(low: f64, high: f64) -> Band<Length> {
    Band::of(low, f64::midpoint(low, high), high).map(metres)
}

fn finding<'a>(answer: &'a Answer, words: &str) -> &'a Finding {
    answer.findings.iter().find(|finding| finding.what.contains(words)).unwrap()
}

// The values below were found by another program, which knows no engine: least energy of tension-only springs by a
// damped Newton search, 24 to 900 places on the way.

#[test]
fn a_person_left_hanging_on_the_guide_is_told_of_in_whatever_state_the_anchors_are_judged() {
    let high = GuidedAbseil { bottom_up: metres(2.5), ..GuidedAbseil::default() };
    for state in State::ALL {
        let answer = GuidedAbseil { state, ..high }.solve().unwrap();
        // Hanging still the waist stays at 1.88 to 2.09 m, in place of 1 m.
        let above = finding(&answer, "too high for the person to be down").band;
        assert!((above.low() - 0.88).abs() < 0.03 && (above.high() - 1.09).abs() < 0.03, "{above:?}");
        assert!(answer.remarks.iter().any(|remark| remark.contains("Everywhere in the ranges the rope goes slack")));
        assert!(answer.findings.iter().all(|finding| !finding.what.contains("at the foot")));
    }
    let low = GuidedAbseil::default().solve().unwrap();
    assert!(low.findings.iter().all(|finding| !finding.what.contains("too high")));
}

#[test]
fn a_bottom_anchor_that_is_pulled_up_is_told_of_whichever_anchor_is_pulled_hardest() {
    let up = |abseil: GuidedAbseil| {
        abseil.solve().unwrap().remarks.iter().any(|remark| remark.starts_with("The bottom anchor is pulled up"))
    };
    let kilonewtons = |low, typical, high| Band::of(low, typical, high).map(Force::new::<kilonewton>);
    assert!(up(GuidedAbseil {
        bottom_out: range(2.0, 4.0),
        height: metres(40.0),
        pre_tension: kilonewtons(2.0, 3.0, 4.0),
        bottom_up: metres(1.5),
        ..GuidedAbseil::default()
    }));
    assert!(up(GuidedAbseil { bottom_up: metres(2.5), ..GuidedAbseil::default() }));
    assert!(!up(GuidedAbseil { bottom_up: metres(13.0), ..GuidedAbseil::default() }));
}

#[test]
fn how_deep_the_way_is_inside_the_falling_water_does_not_depend_on_the_places_looked_at() {
    let at = |abseil: GuidedAbseil| finding(&abseil.solve().unwrap(), "clear of the falling water").band.high();
    let usual = GuidedAbseil::default();
    for (height, out, reach, deep) in [(100.0, range(20.0, 30.0), 6.0, 61.76), (60.0, range(15.0, 25.0), 3.0, 28.86)] {
        let abseil = GuidedAbseil { height: metres(height), bottom_out: out, fall_out: metres(reach), ..usual };
        // The other program told the last of 900 places inside: a ninth of a metre apart.
        assert!((0.0..0.12).contains(&(at(abseil) - deep)), "{}", at(abseil));
    }
    assert_relative_eq!(at(GuidedAbseil { tail: metres(2.0), ..usual }), 8.35, epsilon = 0.02);
    let never = GuidedAbseil { fall_out: metres(8.0), bottom_out: Band::exact(metres(2.0)), ..usual };
    assert!(
        never
            .solve()
            .unwrap()
            .remarks
            .iter()
            .any(|remark| remark.ends_with("falling water at all.") && !remark.contains("one end"))
    );
}

#[test]
fn a_peak_between_the_places_of_the_way_is_found() {
    let hardest = |abseil: GuidedAbseil, on: &str| finding(&abseil.solve().unwrap(), on).band.high();
    assert_relative_eq!(hardest(GuidedAbseil::default(), "on its top anchor"), 3154.0, max_relative = 1e-3);
    let far = GuidedAbseil { bottom_out: range(9.0, 12.0), ..GuidedAbseil::default() };
    assert_relative_eq!(hardest(far, "on its top anchor"), 3597.0, max_relative = 1e-3);
}

#[test]
fn where_friction_of_the_ring_makes_most_it_stands_first_and_counts_in_every_state() {
    let tight = GuidedAbseil {
        bottom_out: range(13.5, 14.5),
        pre_tension: Band::of(2000.0, 2500.0, 3000.0).map(Force::new::<newton>),
        ..GuidedAbseil::default()
    };
    let answer = tight.solve().unwrap();
    let first = &answer.findings[0];
    assert!(first.what.starts_with("with friction of the ring"), "{}", first.what);
    assert_eq!(answer.comparisons[0].what, first.what);
    assert!(answer.findings[1..4].iter().all(|finding| finding.band.high() <= first.band.high()));
    for (state, found) in State::ALL.into_iter().zip(&answer.states) {
        let asked = GuidedAbseil { state, ..tight }.solve().unwrap();
        let most = asked.findings[..4].iter().map(|finding| finding.band.high()).fold(0.0, f64::max);
        assert_relative_eq!(found.band.high(), most, max_relative = 5e-3);
    }
}

#[test]
fn the_states_hold_the_least_and_the_most_of_the_anchor_pulled_hardest() {
    let answer = GuidedAbseil::default().solve().unwrap();
    // Hanging still, the lightest, 9 m out, 300 N, EA 20 kN: no anchor gets more than 689 N.
    assert!(answer.states[0].band.low() < 690.0, "{:?}", answer.states[0].band);
    for (state, found) in State::ALL.into_iter().zip(&answer.states) {
        let asked = GuidedAbseil { state, ..GuidedAbseil::default() }.solve().unwrap();
        let most = asked.findings[..3].iter().map(|finding| finding.band.high()).fold(0.0, f64::max);
        assert_relative_eq!(found.band.high(), most, max_relative = 2e-3);
    }
}

#[test]
fn a_pull_that_may_come_out_of_the_rock_is_not_below_the_limit_of_one_along_it() {
    let mut abseil = GuidedAbseil { bottom_up: metres(13.0), ..GuidedAbseil::default() };
    abseil.against.holds = super::super::Holds::KnownBolt;
    abseil.against.limit = super::super::LimitChoice::Published(&crate::strength::hardware::BOLT_RADIAL);
    abseil.against.factor = Ratio::new::<ratio>(2.5);
    let top =
        abseil.solve().unwrap().comparisons.into_iter().find(|compared| compared.what.contains("top anchor")).unwrap();
    assert!(top.load.high() < 10_000.0 && matches!(top.standing, crate::limit::Standing::NotChecked(_)), "{top:?}");
}

#[test]
fn the_top_anchor_gets_the_tension_of_the_guide_and_the_abseil_anchor_that_of_the_rope() {
    for step in case(&GuidedAbseil::default(), 900.0, 600.0).way {
        assert_relative_eq!(step.on(On::Top).norm(), step.guide, max_relative = 1e-9);
        assert_relative_eq!(step.on(On::Abseil).norm(), step.rope, max_relative = 1e-9);
    }
}

#[test]
fn the_top_anchor_is_compared_with_the_friction_of_a_ring_that_slides_down() {
    let mut abseil =
        GuidedAbseil { guide: Guide::Slack, slack: Band::exact(Ratio::new::<ratio>(0.02)), ..GuidedAbseil::default() };
    abseil.bottom_out = Band::exact(metres(9.0));
    abseil.stiffness = Band::exact(Force::new::<newton>(30e3));
    abseil.against.holds = super::super::Holds::KnownBolt;
    abseil.against.limit = super::super::LimitChoice::Own;
    let answer = abseil.solve().unwrap();
    let [without, with] = ["in the guide line", "with friction of the ring, in the guide line"].map(|words| {
        let found = answer.findings.iter().find(|finding| finding.what.starts_with(words)).unwrap();
        (found.band, found.what.clone())
    });
    assert!(with.0.low() == without.0.low() && with.0.typical() > without.0.typical());
    // A wet ring, 1.3 · 0.30, and how far the guide turns at it: Euler–Eytelwein, at each place of the way.
    let load = Load::of(&abseil, abseil.state).unwrap().band.high();
    let solved = case(&abseil, load, 0.02);
    let most = solved
        .way
        .iter()
        .map(|step| step.guide * (1.3 * 0.30 * (std::f64::consts::PI - included(&solved, step))).exp());
    assert_relative_eq!(with.0.high(), most.fold(0.0, f64::max), max_relative = 0.02);
    assert!(with.0.high() > 1.25 * without.0.high(), "{with:?} {without:?}");
    // A limit between the two is not kept.
    abseil.against.own = Force::new::<newton>(f64::midpoint(without.0.high(), with.0.high()));
    let compared = abseil.solve().unwrap().comparisons;
    let row = compared.iter().find(|row| row.what.contains("top anchor")).unwrap();
    assert_eq!((row.what.as_str(), row.standing), (with.1.as_str(), crate::limit::Standing::RangeCrosses));
    assert!(answer.carried.unwrap().anchor.high() >= with.0.high());
}

#[test]
fn a_slip_is_one_on_the_rope_that_was_entered() {
    // 117 kg, half a metre onto 3 m of rope, by hand: W [1 + √(1 + 2 EA/(6 W))].
    let weight = 117.0_f64 * 9.806_65;
    let mut before = 0.0;
    for stiffness in [41e3, 60e3, 300e3] {
        let rope = Band::of(20e3, 30e3, stiffness).map(Force::new::<newton>);
        let slip = Load::of(&GuidedAbseil { stiffness: rope, ..GuidedAbseil::default() }, State::Slip).unwrap();
        let by_hand = weight * (1.0 + (1.0 + stiffness / 3.0 / weight).sqrt());
        assert_relative_eq!(slip.band.high(), by_hand, max_relative = 1e-12);
        assert!(slip.band.high() > before);
        before = slip.band.high();
        // Nobody is jerked harder by a stiff rope.
        let jerky = Load::of(&GuidedAbseil { stiffness: rope, ..GuidedAbseil::default() }, State::Jerky).unwrap();
        assert_relative_eq!(jerky.band.high(), 3.2 * weight, max_relative = 1e-12);
    }
}

/// A guide out of which a corner of the ranges makes the ring rub hardest just before the end of the way.
#[test]
fn the_peak_of_a_ring_that_rubs_is_not_missed_between_the_places_of_the_way() {
    let exact = |length: f64| Band::exact(metres(length));
    let abseil = GuidedAbseil {
        height: metres(40.0),
        bottom_out: exact(22.7),
        bottom_up: metres(4.3),
        top_out: metres(1.0),
        top_up: metres(0.5),
        pre_tension: Band::exact(Force::new::<newton>(1210.0)),
        stiffness: Band::exact(Force::new::<newton>(41e3)),
        ..GuidedAbseil::default()
    };
    let load = Load::of(&abseil, State::Slip).unwrap().band;
    let told = abseil.found(load).unwrap().rubbed().band.high();
    let mut case = abseil.case(&[load.high(), 22.7, 1210.0, 41e3]).unwrap();
    case.look_at(600).unwrap();
    let most = case.rubs_most(abseil.parted(&[load.high(), 22.7, 1210.0, 41e3]).unwrap());
    assert!(told > 0.998 * most && told < 1.002 * most, "{told} {most}");
}

#[test]
fn each_state_is_told_the_same_whichever_is_judged() {
    let ends = |low: f64, typical: f64, high: f64| Band::of(low, typical, high);
    let metres_of = |band: Band| band.map(metres);
    let newtons = |band: Band| band.map(Force::new::<newton>);
    let near = GuidedAbseil {
        height: metres(28.29),
        bottom_out: metres_of(ends(1.0, 1.05, 1.1)),
        bottom_up: metres(7.77),
        top_out: metres(0.42),
        top_up: metres(0.8),
        pre_tension: newtons(ends(329.0, 1403.0, 1850.0)),
        ..GuidedAbseil::default()
    };
    // Nothing of it is uncertain, and the ring rubs hardest at a sharp place of the way.
    let sharp = GuidedAbseil {
        height: metres(27.8),
        bottom_out: metres_of(Band::exact(16.0)),
        bottom_up: metres(1.3),
        top_out: metres(2.03),
        top_up: metres(0.18),
        tail: metres(0.22),
        pre_tension: newtons(Band::exact(7400.0)),
        stiffness: newtons(Band::exact(41e3)),
        ..GuidedAbseil::default()
    };
    // The most slack pulls least.
    let slack = GuidedAbseil {
        height: metres(9.2),
        bottom_up: metres(0.5),
        top_out: metres(0.13),
        top_up: metres(0.7),
        tail: metres(0.35),
        guide: Guide::Slack,
        stiffness: newtons(ends(523e3, 655e3, 818e3)),
        ..GuidedAbseil::default()
    };
    for abseil in [near, sharp, slack] {
        let rows = State::ALL.map(|state| GuidedAbseil { state, ..abseil }.solve().unwrap().states);
        for (place, _) in State::ALL.iter().enumerate() {
            let told = rows.each_ref().map(|states| states[place].band.high());
            let most = told.into_iter().fold(0.0, f64::max);
            assert!(told.into_iter().all(|force| force > 0.999 * most), "{place} {told:?}");
        }
    }
    let still = State::ALL.map(|state| GuidedAbseil { state, ..slack }.solve().unwrap().states[0].band.low());
    assert!(still.into_iter().all(|least| (least / still[0] - 1.0).abs() < 1e-3), "{still:?}");
}

/// Where the bottom is farthest in what is told at once is a little lower than elsewhere, and the force is not.
#[test]
fn the_end_of_a_range_is_in_what_is_told_of_the_range() {
    let with_friction = |out: Band| {
        let abseil = GuidedAbseil {
            top_out: metres(2.1),
            top_up: metres(0.25),
            bottom_out: out.map(metres),
            pre_tension: Band::of(500.0, 1000.0, 8000.0).map(Force::new::<newton>),
            state: State::Still,
            ..GuidedAbseil::default()
        };
        abseil.solve().unwrap().findings[0].band.high()
    };
    let (told, at_the_end) = (with_friction(Band::of(8.5, 9.0, 9.5)), with_friction(Band::exact(8.5)));
    assert!(at_the_end > 8550.0 && told >= at_the_end, "{told} {at_the_end}");
}

/// The guide pulls the rope as hard under one as under several: each of them is not told to get a share of that.
#[test]
fn more_people_take_nothing_off_the_harness_of_one() {
    let harness = |count: u32| {
        let stiffness = Band::exact(Force::new::<newton>(45e3));
        let abseil = GuidedAbseil {
            height: metres(20.0),
            bottom_out: Band::exact(metres(12.9)),
            top_out: metres(4.6),
            pre_tension: Band::exact(Force::new::<newton>(5000.0)),
            stiffness,
            people: People { count, ..People::default() },
            ..GuidedAbseil::default()
        };
        let usual = abseil.solve().unwrap().usual;
        usual.iter().find(|row| row.what.starts_with("on the harness")).unwrap().load.high()
    };
    let one = harness(1);
    assert!(one > 6000.0 && harness(2) >= one && harness(4) >= one, "{one}");
}

/// A guide that swings the person out of the fall first and lets them hang back into it.
#[test]
fn whoever_comes_back_into_the_fall_is_not_out_of_it() {
    let abseil = GuidedAbseil {
        height: metres(7.4),
        bottom_out: Band::exact(metres(1.8)),
        bottom_up: metres(0.0),
        top_out: metres(1.7),
        top_up: metres(-3.0),
        tail: metres(2.0),
        fall_out: metres(0.2),
        pool_to: metres(0.0),
        guide: Guide::Slack,
        slack: Band::exact(Ratio::new::<ratio>(0.01)),
        stiffness: Band::exact(Force::new::<newton>(30e3)),
        ..GuidedAbseil::default()
    };
    let found = abseil.solve().unwrap().findings;
    let inside = found.iter().find(|found| found.what.contains("clear of the falling water")).unwrap();
    // Plumb under the stance to the end, a metre above the foot.
    assert!(inside.band.low() > 6.3 && inside.band.high() < 6.5, "{inside:?}");
}
