//! One line with weight against the textbook's forms of it and against its tension added up along it.

use super::*;

/// Ends and stretch of a line under a tension in its middle: `∫ T/|T| ds + ∫ T/EA ds` across and up, and
/// `L + ∫ |T|/EA ds`, by Simpson's rule.
fn added_up(line: Catenary, middle: Middle) -> (f64, f64, f64) {
    const PARTS: i32 = 20_000;
    let part = line.length / f64::from(PARTS);
    let (mut across, mut up, mut stretched) = (0.0, 0.0, line.length);
    for number in 0..=PARTS {
        let inner = if number % 2 == 1 { 4.0 } else { 2.0 };
        let share = part / 3.0 * if number == 0 || number == PARTS { 1.0 } else { inner };
        let rise = middle.vertical + line.weight * (f64::from(number) * part - 0.5 * line.length);
        let tension = middle.horizontal.hypot(rise);
        across += share * middle.horizontal * (1.0 / tension + line.compliance / line.length);
        up += share * rise * (1.0 / tension + line.compliance / line.length);
        stretched += share * tension * line.compliance / line.length;
    }
    (across, up, stretched)
}

/// Ends of a line as Irvine, *Cable Structures*, section 1.4 has them (from memory): a logarithm and a difference, which
/// lose digits where the weight is small.
fn textbook(line: Catenary, middle: Middle) -> (f64, f64) {
    let half = 0.5 * line.weight * line.length;
    let (low, high) = (middle.vertical - half, middle.vertical + half);
    let across = middle.horizontal / line.weight
        * ((high / middle.horizontal).asinh() - (low / middle.horizontal).asinh())
        + middle.horizontal * line.compliance;
    let up = (middle.horizontal.hypot(high) - middle.horizontal.hypot(low)) / line.weight
        + middle.vertical * line.compliance;
    (across, up)
}

/// A line, the tension in its middle, and how near to that the first guess comes, as a share of it: a worse guess is a
/// change for the worse.
#[derive(Clone, Copy)]
struct Case {
    line: Catenary,
    middle: Middle,
    guessed_within: f64,
}

impl Case {
    fn what(&self) -> String {
        format!("{:?} {:?}", self.line, self.middle)
    }
}

/// A rope of 20 m that weighs 8 N in all, soft and stiff: hung deep, with its low point at an end, taut, level, steep.
fn cases() -> Vec<Case> {
    let tensions = [
        (0.05, 0.0, 0.09),
        (0.05, 1.0, 0.01),
        (0.5, 0.0, 0.21),
        (1.0, 0.2, 0.11),
        (2.0, 0.7, 0.05),
        (3.0, 1.0, 0.03),
        (0.5, 3.9, 0.55),
        (0.5, 4.0, 0.53),
        (0.5, 4.1, 0.51),
        (2.0, -7.0, 0.12),
        (5.0, 1.0, 0.12),
        (7.0, 2.0, 0.06),
        (20.0, -90.0, 1e-3),
        (900.0, 0.0, 1e-3),
        (8000.0, 300.0, 1e-8),
        (7990.0, -500.0, 1e-8),
        (50_000.0, 7.0, 1e-11),
    ];
    let soft_and_stiff = [2e-3, 1e-6].map(|compliance| Catenary { length: 20.0, compliance, weight: 0.4 });
    let of = |line| {
        tensions.map(|(horizontal, vertical, guessed_within)| Case {
            line,
            middle: Middle { horizontal, vertical },
            guessed_within,
        })
    };
    soft_and_stiff.into_iter().flat_map(of).collect()
}

fn near(what: &str, got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{what}: {got:e}, expected {expected:e}");
}

#[test]
fn ends_and_stretch_are_the_tension_added_up_along_the_line() {
    for case in cases() {
        let (Case { line, middle, .. }, what) = (case, case.what());
        let (across, up, stretched) = added_up(line, middle);
        let trial = line.trial(middle);
        near(&what, trial.across, across, 2e-11 * line.length);
        near(&what, trial.up, up, 2e-11 * line.length);
        near(&what, line.stretched(middle), stretched, 2e-11 * line.length);
    }
}

#[test]
fn ends_are_those_of_the_textbook() {
    for case in cases().into_iter().filter(|case| case.middle.horizontal < 1000.0) {
        let (Case { line, middle, .. }, what) = (case, case.what());
        let (across, up) = textbook(line, middle);
        let trial = line.trial(middle);
        near(&what, trial.across, across, 1e-12 * line.length);
        near(&what, trial.up, up, 1e-12 * line.length);
    }
}

/// The sag takes up some ten-millionths of the line; what is lost of that, a stiff line makes tension of.
#[test]
fn a_stiff_taut_line_pulls_as_the_textbook_says_on_either_side_of_where_the_series_begins() {
    for (length, stiffness) in [(0.01, 1e9), (10.0, 1e12), (1000.0, 1e12)] {
        let line = Catenary { length, compliance: length / stiffness, weight: 1.0 };
        // It begins at 500 times the weight.
        for weights in [300.0, 490.0, 499.0, 501.0, 550.0, 700.0] {
            let horizontal = weights * length;
            let (across, _) = textbook(line, Middle { horizontal, vertical: 0.0 });
            let pull = line.pull(Vector::new(across, 0.0, 0.0), None).middle.horizontal;
            near(&format!("{line:?}"), pull, horizontal, 1e-8 * horizontal);
        }
    }
}

/// Both parts hang beside each other; the next to nothing that is level of the pull is all that keeps them apart.
#[test]
fn ends_close_together_are_pulled_as_the_textbook_says() {
    let line = Catenary { length: 100.0, compliance: 1e-3, weight: 1.0 };
    for horizontal in [3e-6, 4e-5, 1e-3] {
        let (across, _) = textbook(line, Middle { horizontal, vertical: 0.0 });
        assert!((1e-4..0.03).contains(&across));
        near("pull", line.pull(Vector::new(across, 0.0, 0.0), None).middle.horizontal, horizontal, 1e-9 * horizontal);
    }
}

/// Hooke, by hand: 50 N stretch 20 m of a line of 20 kN by 0.05 m.
#[test]
fn a_line_of_the_least_weight_there_is_is_a_cord_without_any() {
    let line = Catenary { length: 20.0, compliance: 1e-3, weight: 5e-324 };
    let trial = line.trial(Middle { horizontal: 30.0, vertical: 40.0 });
    near("across", trial.across, 0.6 * 20.05, 1e-14 * line.length);
    near("up", trial.up, 0.8 * 20.05, 1e-14 * line.length);
}

#[test]
fn the_change_of_the_ends_is_that_between_two_tensions() {
    for case in cases() {
        let (Case { line, middle, .. }, what) = (case, case.what());
        let step = 1e-5 * middle.horizontal.hypot(middle.vertical);
        let between = |horizontal, vertical| {
            let at = |sign: f64| middle.moved(sign * horizontal, sign * vertical, step);
            let (less, more) = (line.trial(at(-1.0)), line.trial(at(1.0)));
            ((more.across - less.across) / (2.0 * step), (more.up - less.up) / (2.0 * step))
        };
        let trial = line.trial(middle);
        let (across_by_horizontal, up_by_horizontal) = between(1.0, 0.0);
        let (across_by_vertical, up_by_vertical) = between(0.0, 1.0);
        let tolerance = 1e-5 * (trial.across_by_horizontal + trial.up_by_vertical);
        near(&what, trial.across_by_horizontal, across_by_horizontal, tolerance);
        near(&what, trial.across_by_vertical, across_by_vertical, tolerance);
        near(&what, trial.across_by_vertical, up_by_horizontal, tolerance);
        near(&what, trial.up_by_vertical, up_by_vertical, tolerance);
        near(&what, trial.softness * middle.horizontal, trial.across, 1e-12 * line.length);
    }
}

/// In a plane turned about the vertical, so that no axis is left out.
#[test]
fn the_pull_between_two_ends_is_the_tension_that_puts_them_there() {
    let (east, north) = (0.6, -0.8);
    for case in cases() {
        let (Case { line, middle, .. }, what) = (case, case.what());
        let (across, up, _) = added_up(line, middle);
        let pull = line.pull(Vector::new(east * across, north * across, up), None);
        let expected = Vector::new(east * middle.horizontal, north * middle.horizontal, middle.vertical);
        // What a hundredth of a nanometre of the ends changes.
        let tolerance = 1e-9 * expected.norm() + 1e-11 * pull.stiffness.norm();
        assert!((pull.force - expected).norm() <= tolerance, "{what}: {} for {expected}", pull.force);
        let reach = line.reach(pull.force);
        assert!((reach.span - Vector::new(east * across, north * across, up)).norm() <= 1e-10, "{what}");
        let unity = pull.stiffness * reach.softness;
        assert!((unity - Matrix::identity()).norm() < 1e-5, "{what}: {unity}");
    }
}

/// Newton's method is started here, and takes few steps from a place that is near.
#[test]
fn the_first_guess_is_near() {
    for case in cases() {
        let (across, up, _) = added_up(case.line, case.middle);
        let guess = case.line.first_guess(across, up);
        let miss = (guess.horizontal - case.middle.horizontal).hypot(guess.vertical - case.middle.vertical);
        let share = miss / case.middle.horizontal.hypot(case.middle.vertical);
        assert!(share <= case.guessed_within, "{}: {guess:?} misses by {share}", case.what());
    }
}

/// Folded up or stretched along the plumb line.
#[test]
fn a_line_whose_ends_are_above_one_another_pulls_along_the_plumb_line() {
    let line = Catenary { length: 20.0, compliance: 1e-6, weight: 0.4 };
    // A line too stiff to stretch hangs down (20 − 5)/2 m on one side and 5 m more on the other: halfway along it, 10 m
    // from the low end and 2.5 m above the fold, it carries what hangs there, 0.4 · 2.5 = 1 N.
    let guess = line.first_guess(0.0, 5.0);
    assert_eq!((guess.horizontal, guess.vertical), (0.0, 1.0));
    let pull = line.pull(Vector::new(0.0, 0.0, 5.0), None).force;
    assert!((pull - Vector::new(0.0, 0.0, 1.0)).norm() < 1e-5, "{pull}");
    // Hooke: 100 N above and 92 N below, 96 N in the middle, stretch it by 96 · 20/EA.
    let reach = line.reach(Vector::new(0.0, 0.0, 96.0));
    assert!((reach.span - Vector::new(0.0, 0.0, 20.0 + 96e-6)).norm() < 1e-12, "{}", reach.span);
    assert!(reach.softness.iter().all(|entry| entry.is_finite()));
}

#[test]
fn the_miss_is_the_larger_of_both() {
    let line = Catenary { length: 20.0, compliance: 1e-3, weight: 0.4 };
    let trial = line.trial(Middle { horizontal: 30.0, vertical: 10.0 });
    assert_eq!(trial.miss(trial.across - 4.0, trial.up + 0.5), trial.miss(trial.across + 4.0, trial.up));
    assert!((trial.miss(trial.across - 4.0, trial.up + 0.5) - 4.0).abs() < 1e-12);
    assert!((trial.miss(trial.across + 0.5, trial.up - 7.0) - 7.0).abs() < 1e-12);
    assert_eq!(trial.miss(trial.across, trial.up), 0.0);
}

#[test]
fn a_start_that_is_no_tension_is_not_used() {
    let line = Catenary { length: 20.0, compliance: 1e-3, weight: 0.4 };
    let span = Vector::new(12.0, 5.0, -3.0);
    let pull = line.pull(span, None);
    for (horizontal, vertical) in [(f64::NAN, 1.0), (2.0, f64::NAN), (f64::INFINITY, 0.0), (1.0, f64::NEG_INFINITY)] {
        assert_eq!(line.pull(span, Some(Middle { horizontal, vertical })).force, pull.force);
    }
    // Any other start leads there too.
    for (horizontal, vertical) in [(0.0, 0.0), (1e-3, 50.0), (1e4, -3e3), (5.0, 1e4)] {
        let from_there = line.pull(span, Some(Middle { horizontal, vertical })).force;
        assert!((from_there - pull.force).norm() <= 1e-11 * pull.force.norm(), "{horizontal} {vertical}");
    }
}

#[test]
fn the_cubic_of_a_shallow_line_is_solved_from_either_side() {
    for stretched in [-100.0, -3.0, -0.1, 0.0, 0.1, 3.0, 100.0] {
        for cube in [1e-6, 1.0, 1e6] {
            let tension = shallow_tension(stretched, cube);
            let root: f64 = tension * tension * (tension - stretched) / cube;
            // Three steps; what is left makes the tension wrong by less than half of it.
            assert!((0.999..1.05).contains(&root), "{stretched} {cube}: {root}");
        }
    }
    assert_eq!(shallow_tension(700.0, 0.0), 700.0);
    assert_eq!(shallow_tension(-700.0, 0.0), 0.0);
    assert_eq!(shallow_tension(0.0, 0.0), 0.0);
    // By hand: 3² · (3 − 1) = 18 and 2² · (2 + 1) = 12.
    assert!((shallow_tension(1.0, 18.0) - 3.0).abs() < 1e-3);
    assert!((shallow_tension(-1.0, 12.0) - 2.0).abs() < 1e-3);
}
