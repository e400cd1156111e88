use crate::by_hand::{Plane, last_true, round_a_bend};
use crate::numbers::{
    any, at_least, close, counts, degrees, factor, force, is_lawful, metres, newtons, often, plain, radians,
};
use proptest::prelude::*;
use rigging_core::law::slanted_line::{SlantedLine, Slider, at_rest, carries_on, passing, tightest};
use std::f64::consts::{FRAC_PI_2, PI};

fn line([span, slack, angle, friction]: [f64; 4]) -> SlantedLine {
    SlantedLine { span: metres(span), slack: plain(slack), to_current: radians(angle), friction: plain(friction) }
}
fn rests(of: [f64; 4], drag: f64) -> Slider {
    at_rest(&line(of), newtons(drag)).unwrap()
}
fn far(of: [f64; 4]) -> f64 {
    rests(of, 100.0).far_part.value
}
fn angles(slider: &Slider) -> (f64, f64) {
    (slider.near_to_current.value, slider.far_to_current.value)
}

fn slack() -> impl Strategy<Value = f64> + Clone {
    (-4.0..0.0_f64).prop_map(|power| 10_f64.powf(power))
}
fn slant() -> impl Strategy<Value = f64> + Clone {
    degrees(0.5, 90.0)
}

/// Where on the line the person is, seen from the near anchor with the current along the first axis, for a near part of
/// some length: where two circles meet, on the downstream side of the straight line.
fn meeting([span, slack, angle, _]: [f64; 4], near: f64) -> (Plane, Plane) {
    let far = span * (1.0 + slack) - near;
    let along = (near * near - far * far + span * span) / (2.0 * span);
    let across = (near * near - along * along).max(0.0).sqrt();
    let (chord, downstream) = (Plane::at(angle), Plane::at(angle - FRAC_PI_2));
    (chord.times(along).plus(downstream.times(across)), chord.times(span))
}

proptest! {
    #[test]
    fn the_parts_lead_from_one_anchor_to_the_other_and_hold_the_drag(
        span in 1.0..60.0_f64, slack in slack(), angle in slant(), friction in 0.0..1.0_f64, drag in force(),
    ) {
        let slider = rests([span, slack, angle, friction], drag);
        let (near, far) = angles(&slider);
        let way = Plane::at(near).times(slider.near_part.value).plus(Plane::at(far).times(slider.far_part.value));
        prop_assert!(way.minus(Plane::at(angle).times(span)).size() <= 1e-12 * span * (1.0 + slack));
        prop_assert!(close((slider.near_part + slider.far_part).value, span * (1.0 + slack), 1e-14, 0.0));
        let (near_pull, far_pull) = (slider.near_tension.value, slider.far_tension.value);
        let left_over = Plane::at(far).times(far_pull).minus(Plane::at(near).times(near_pull)).plus(Plane(drag, 0.0));
        prop_assert!(left_over.size() <= 1e-9 * (drag + near_pull), "{left_over:?} {slider:?}");
        prop_assert!(close(round_a_bend(far_pull, friction, far - near), near_pull, 1e-9, 0.0));
        prop_assert!(near > -1e-12 && far < PI + 1e-12);
    }

    #[test]
    fn the_person_stops_where_friction_first_holds_the_current(
        span in 1.0..60.0_f64, slack in (-3.0..-0.3_f64).prop_map(|power| 10_f64.powf(power)), angle in degrees(2.0, 90.0),
        friction in 0.0..0.8_f64,
    ) {
        let of = [span, slack, angle, friction];
        // Directions from places alone; the two tensions that hold the drag by Cramer's rule; then the bend.
        let slides_on = |near: f64| {
            let (person, anchor) = meeting(of, near);
            let (back, on) = (Plane(0.0, 0.0).minus(person).unit(), anchor.minus(person).unit());
            let turn = back.moment(on);
            let (near_pull, far_pull) = (-Plane(1.0, 0.0).moment(on) / turn, Plane(1.0, 0.0).moment(back) / turn);
            let bend = PI - back.dot(on).clamp(-1.0, 1.0).acos();
            far_pull <= 0.0 || near_pull > far_pull * (friction * bend).exp()
        };
        let spare = span * slack / 2.0;
        // Walked in steps, so that the first such place is found and not any.
        let (start, end) = (spare * (1.0 + 1e-9), spare + span * (1.0 - 1e-9));
        let step = (end - start) / 2000.0;
        let first = (0..2000).map(|number| start + step * f64::from(number)).find(|&near| !slides_on(near)).unwrap_or(end);
        let found = last_true((first - step).max(start), first, slides_on);
        let law = rests(of, 1.0).near_part.value;
        prop_assert!(close(found, law, 1e-6, 1e-6 * span), "walked {found}, law {law}");
    }

    #[test]
    fn rougher_lines_and_steeper_slants_leave_more_of_the_way(
        span in 1.0..60.0_f64, slack in slack(), one in slant(), other in slant(), smooth in 0.0..1.0_f64, more in 0.0..1.0_f64,
    ) {
        let digits = 1e-9 * span;
        let (flat, steep) = (one.min(other), one.max(other));
        prop_assert!(far([span, slack, steep, smooth]) >= far([span, slack, flat, smooth]) - digits);
        prop_assert!(far([span, slack, one, smooth + more]) >= far([span, slack, one, smooth]) - digits);
    }

    #[test]
    fn size_and_drag_do_not_move_the_place(
        span in 1.0..60.0_f64, slack in slack(), angle in slant(), friction in 0.0..1.0_f64, drag in force(), times in factor(),
    ) {
        let (once, larger) = (rests([span, slack, angle, friction], drag), rests([span * times, slack, angle, friction], drag * times));
        prop_assert!(close(once.far_part.value * times, larger.far_part.value, 1e-9, 1e-11 * span * times));
        prop_assert!(close(once.near_tension.value * times, larger.near_tension.value, 1e-9, 0.0));
    }

    #[test]
    fn without_friction_both_parts_lean_alike_against_the_current_and_pull_alike(
        span in 1.0..60.0_f64, slack in slack(), angle in slant(), drag in force(),
    ) {
        let slider = rests([span, slack, angle, 0.0], drag);
        let (near, far) = angles(&slider);
        prop_assert!(close(near.cos(), -far.cos(), 0.0, 1e-10), "mirrored in the current");
        prop_assert!(close(slider.near_tension.value, slider.far_tension.value, 1e-13, 0.0));
        // Straight across it is the mirror image of itself.
        let across = rests([span, slack, FRAC_PI_2, 0.0], drag);
        prop_assert!(close(across.near_part.value, across.far_part.value, 1e-9, 0.0));
    }

    #[test]
    fn the_less_slack_the_nearer_it_comes_to_the_tight_line(
        angle in degrees(1.0, 90.0), friction in 0.0..1.5_f64,
    ) {
        prop_assume!((angle.cos() - friction * angle.sin()).abs() > 0.02);
        let on = carries_on(radians(angle), plain(friction)).unwrap();
        let end = if on { 0.0 } else { 10.0 };
        for slack in [0.0, 1e-300, 1e-15, 1e-9] {
            let left = far([10.0, slack, angle, friction]);
            prop_assert!((left - end).abs() < 1e-3, "{slack}: {left}");
        }
        prop_assert_eq!(on, angle.tan() * friction < 1.0);
    }

    #[test]
    fn the_tightest_place_is_no_looser_than_any_on_the_way(
        span in 1.0..60.0_f64, slack in slack(), angle in slant(), friction in 0.0..1.0_f64, drag in force(), share in 0.0..1.0_f64,
    ) {
        let of = [span, slack, angle, friction];
        let rest = rests(of, drag);
        let most = tightest(&line(of), newtons(drag)).unwrap();
        let spare = span * slack / 2.0;
        let near = spare + share * (rest.near_part.value - spare);
        let here = passing(&line(of), newtons(drag), metres(near)).unwrap();
        prop_assert!(at_least(most.near_tension.value, here.near_tension.value * (1.0 - 1e-9)));
        prop_assert!(at_least(most.near_tension.value, rest.near_tension.value));
        prop_assert!(most.near_part.value <= rest.near_part.value * (1.0 + 1e-12));
        // Bent least in the middle, and pulled at most square to the way.
        let bend = 2.0 * (slack / (2.0 + slack)).sqrt().atan();
        let bound = drag / bend.sin() / (1.0 + (-friction * PI).exp());
        prop_assert!(most.near_tension.value <= bound * 1.000_001);
    }

    #[test]
    fn passing_balances_across_the_way(
        span in 1.0..60.0_f64, slack in slack(), angle in slant(), friction in 0.0..1.0_f64, drag in force(), share in 0.01..0.99_f64,
    ) {
        let of = [span, slack, angle, friction];
        let near = span * (slack / 2.0 + share);
        let slider = passing(&line(of), newtons(drag), metres(near)).unwrap();
        let (person, anchor) = meeting(of, near);
        let (back, on) = (Plane(0.0, 0.0).minus(person).unit(), anchor.minus(person).unit());
        let across = back.plus(on).unit();
        let pulls = back.times(slider.near_tension.value).plus(on.times(slider.far_tension.value)).dot(across);
        prop_assert!(close(pulls, (-across.0 * drag).max(0.0), 1e-4, 1e-6 * drag), "{pulls} {}", -across.0 * drag);
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_slanted_line_gives_an_error_or_numbers_whatever_comes_in(
        a in any(), b in any(), c in any(), d in any(), e in any(), f in any(),
    ) {
        let slant = |angle: f64| (0.0..=FRAC_PI_2).contains(&angle);
        let within = a > 0.0 && b >= 0.0 && slant(c) && d >= 0.0 && e >= 0.0;
        let of = line([a, b, c, d]);
        let is_place = |slider: Slider| {
            let parts = [slider.near_part.value, slider.far_part.value];
            let pulls = [slider.near_tension.value, slider.far_tension.value];
            let (near, far) = angles(&slider);
            parts.iter().chain(&pulls).all(|&value| counts(value)) && near.is_finite() && far.is_finite()
        };
        let inputs = [a, b, c, d, e];
        for answer in [at_rest(&of, newtons(e)), tightest(&of, newtons(e))] {
            prop_assert!(is_lawful(answer, &inputs, within, is_place), "{answer:?}");
        }
        let answer = passing(&of, newtons(e), metres(f));
        prop_assert!(is_lawful(answer, &[a, b, c, d, e, f], within && f >= 0.0, is_place), "{answer:?}");
        let answer = carries_on(radians(c), plain(d));
        prop_assert!(is_lawful(answer, &[c, d], slant(c) && d >= 0.0, |_| true));
    }
}

#[test]
fn along_the_current_the_person_hangs_below_the_far_anchor() {
    for friction in [0.0, 0.3, 1.0] {
        let slider = rests([10.0, 0.04, 0.0, friction], 200.0);
        assert!(close(slider.far_part.value, 0.2, 1e-9, 0.0), "{slider:?}");
        assert!(close((slider.near_tension + slider.far_tension).value, 200.0, 1e-9, 0.0), "{slider:?}");
    }
}
