use crate::by_hand::{Plane, last_true, least, lowest_point};
use crate::numbers::{any, close, factor, force, is_lawful, metres, newtons, often};
use proptest::prelude::*;
use rigging_core::law::taut_line::{
    Hung, TautLine, at_lowest_point, at_rest, chord, unstretched_for_sag, unstretched_when_pulled_to,
};
use std::f64::consts::FRAC_PI_2;

/// A line as a handful of numbers, told apart from the law's own type so that nothing of it is used.
#[derive(Debug, Clone, Copy)]
struct Line {
    span: f64,
    rise: f64,
    at: f64,
    unstretched: f64,
    stiffness: f64,
}

impl Line {
    fn law(self) -> TautLine {
        TautLine {
            span: metres(self.span),
            rise: metres(self.rise),
            at: metres(self.at),
            unstretched: metres(self.unstretched),
            stiffness: newtons(self.stiffness),
        }
    }
    fn numbers(self) -> [f64; 5] {
        [self.span, self.rise, self.at, self.unstretched, self.stiffness]
    }
    fn within(self) -> bool {
        self.span > 0.0 && self.at > 0.0 && self.at < self.span && self.unstretched > 0.0 && self.stiffness > 0.0
    }
    fn larger(self, times: f64) -> Self {
        let Line { span, rise, at, unstretched, stiffness } = self;
        Line { span: span * times, rise: rise * times, at: at * times, unstretched: unstretched * times, stiffness }
    }
    /// From the load to the near and to the far anchor.
    fn parts(self, sag: f64) -> (Plane, Plane) {
        let load = Plane(self.at, self.rise * (self.at / self.span) - sag);
        (Plane(0.0, 0.0).minus(load), Plane(self.span, self.rise).minus(load))
    }
    fn length(self, sag: f64) -> f64 {
        let (near, far) = self.parts(sag);
        near.size() + far.size()
    }
    /// How hard the line pulls the load upward at a sag.
    fn lift(self, sag: f64) -> f64 {
        let (near, far) = self.parts(sag);
        near.unit().plus(far.unit()).1 * self.tension(sag)
    }
    fn tension(self, sag: f64) -> f64 {
        (self.stiffness * (self.length(sag) / self.unstretched - 1.0)).max(0.0)
    }
    fn stored(self, sag: f64) -> f64 {
        let stretch = (self.length(sag) - self.unstretched).max(0.0);
        self.stiffness * stretch * stretch / (2.0 * self.unstretched)
    }
}

fn rest(line: Line, load: f64) -> Hung {
    at_rest(&line.law(), newtons(load)).unwrap()
}
fn lowest(line: Line, load: f64, drop: f64) -> Hung {
    at_lowest_point(&line.law(), newtons(load), metres(drop)).unwrap()
}

/// Lines as they are strung: from tight to a fifth too long, up and down, any place along.
fn strung() -> impl Strategy<Value = Line> + Clone {
    (1.0..100.0_f64, -0.7..0.7_f64, 0.1..0.9_f64, 0.95..1.2_f64, 5e3..2e5_f64).prop_map(
        |(span, rise, share, longer, stiffness)| {
            let unstretched = span * rise.hypot(1.0) * longer;
            Line { span, rise: rise * span, at: share * span, unstretched, stiffness }
        },
    )
}

proptest! {
    #[test]
    fn at_rest_the_line_lifts_just_the_load(line in strung(), load in 50.0..5000.0_f64) {
        let hung = rest(line, load);
        let sag = hung.sag.value;
        // One last digit of the length is worth this much tension.
        let digit = 1e-15 * line.stiffness;
        prop_assert!(close(line.lift(sag), load, 1e-12, digit));
        prop_assert!(close(line.tension(sag), hung.tension.value, 1e-12, digit));
        let (near, far) = line.parts(sag);
        prop_assert!(close(near.1.atan2(-near.0), hung.near_below_level.value, 0.0, 1e-14));
        prop_assert!(close(far.1.atan2(far.0), hung.far_below_level.value, 0.0, 1e-14));
        let pull = hung.near_below_level.value.sin() + hung.far_below_level.value.sin();
        prop_assert!(close(hung.tension.value * pull, load, 1e-12, digit));
    }

    #[test]
    fn at_rest_the_energy_is_least(line in strung(), load in 50.0..5000.0_f64) {
        let sag = rest(line, load).sag.value;
        let tried = least(0.0, 4.0 * sag + line.span, |sag| line.stored(sag) - load * sag);
        prop_assert!(close(sag, tried, 1e-5, 1e-6 * line.span), "{sag} {tried}");
    }

    #[test]
    fn the_lowest_point_is_where_the_load_followed_step_by_step_turns(
        line in strung(), mass in 40.0..200.0_f64, drop in 0.0..1.0_f64,
    ) {
        let gravity = 9.81;
        let swing = (mass * line.unstretched / line.stiffness).sqrt();
        let step = swing.min((line.span / gravity).sqrt()) / 2000.0;
        let start = (2.0 * gravity * drop).sqrt();
        let sag = lowest_point(start, step, |sag| gravity - line.lift(sag) / mass);
        let hung = lowest(line, mass * gravity, drop);
        prop_assert!(close(hung.sag.value, sag, 1e-5, 1e-6), "{:?} {sag}", hung.sag);
    }

    #[test]
    fn at_the_lowest_point_the_line_has_taken_up_what_the_load_lost(
        line in strung(), load in 50.0..5000.0_f64, drop in 0.0..5.0_f64,
    ) {
        let hung = lowest(line, load, drop);
        let sag = hung.sag.value;
        let gained = line.stored(sag) - line.stored(0.0);
        prop_assert!(close(gained, load * (sag + drop), 1e-11, 1e-14 * line.stored(0.0)));
        prop_assert!(hung.sag >= rest(line, load).sag);
    }

    #[test]
    fn seen_from_the_other_bank_the_line_is_the_same(line in strung(), load in 50.0..5000.0_f64, drop in 0.0..2.0_f64) {
        let turned = Line { rise: -line.rise, at: line.span - line.at, ..line };
        let digit = 1e-14 * line.stiffness;
        for (seen, mirrored) in [
            (rest(line, load), rest(turned, load)),
            (lowest(line, load, drop), lowest(turned, load, drop)),
        ] {
            prop_assert!(close(seen.tension.value, mirrored.tension.value, 1e-10, digit));
            prop_assert!(close(seen.near_below_level.value, mirrored.far_below_level.value, 0.0, 1e-9));
        }
    }

    #[test]
    fn forces_on_a_line_grow_together_and_its_shape_stays(
        line in strung(), load in 50.0..5000.0_f64, drop in 0.0..2.0_f64, times in factor(),
    ) {
        let stronger = Line { stiffness: line.stiffness * times, ..line };
        let digit = 1e-14 * stronger.stiffness;
        for (once, more) in [
            (rest(line, load), rest(stronger, load * times)),
            (lowest(line, load, drop), lowest(stronger, load * times, drop)),
        ] {
            prop_assert!(close(once.tension.value * times, more.tension.value, 1e-10, digit));
            prop_assert!(close(once.sag.value, more.sag.value, 1e-10, 1e-10));
        }
    }

    #[test]
    fn a_larger_line_is_the_same_line(line in strung(), load in 50.0..5000.0_f64, drop in 0.0..2.0_f64, times in factor()) {
        let digit = 1e-14 * line.stiffness;
        for (once, larger) in [
            (rest(line, load), rest(line.larger(times), load)),
            (lowest(line, load, drop), lowest(line.larger(times), load, drop * times)),
        ] {
            prop_assert!(close(once.tension.value, larger.tension.value, 1e-10, digit));
            prop_assert!(close(once.sag.value * times, larger.sag.value, 1e-10, 1e-10 * times));
        }
    }

    #[test]
    fn load_stiffness_tightness_and_drop_pull_harder(
        line in strung(), load in 50.0..5000.0_f64, drop in 0.0..2.0_f64, more in 1.01..3.0_f64,
    ) {
        let stiffer = Line { stiffness: line.stiffness * more, ..line };
        let shorter = Line { unstretched: line.unstretched * (1.0 - 0.01 * more), ..line };
        let (here, low) = (rest(line, load), lowest(line, load, drop));
        prop_assert!(rest(line, load * more).tension > here.tension && rest(line, load * more).sag > here.sag);
        prop_assert!(rest(stiffer, load).tension > here.tension && rest(stiffer, load).sag < here.sag);
        prop_assert!(rest(shorter, load).tension > here.tension && rest(shorter, load).sag < here.sag);
        prop_assert!(lowest(line, load, drop + 0.1 * more).tension > low.tension);
        prop_assert!(low.tension >= here.tension);
    }

    #[test]
    fn a_line_that_does_not_stretch_hangs_by_its_length_alone(line in strung(), load in 50.0..5000.0_f64) {
        let straight = line.length(0.0);
        let line = Line { unstretched: straight.max(line.unstretched) * 1.01, stiffness: 1e11, ..line };
        let hung = rest(line, load);
        let sag = last_true(0.0, line.unstretched, |sag| line.length(sag) <= line.unstretched);
        prop_assert!(close(hung.sag.value, sag, 1e-4, 0.0));
        let (near, far) = line.parts(sag);
        prop_assert!(close(hung.tension.value, load / near.unit().plus(far.unit()).1, 1e-3, 0.0));
    }

    #[test]
    fn a_line_that_hardly_resists_hangs_straight_down(line in strung(), load in 50.0..5000.0_f64) {
        let soft = Line { stiffness: load * 1e-5, ..line };
        prop_assert!(close(rest(soft, load).tension.value, load / 2.0, 1e-6, 0.0));
    }

    #[test]
    fn an_unloaded_line_keeps_what_it_was_pulled_to(line in strung(), share in 0.0..0.1_f64) {
        let pulled = share * line.stiffness;
        let straight = chord(metres(line.span), metres(line.rise));
        prop_assert!(close(straight.value, line.length(0.0), 1e-14, 0.0));
        let unstretched = unstretched_when_pulled_to(straight, newtons(pulled), newtons(line.stiffness)).unwrap();
        let line = Line { unstretched: unstretched.value, ..line };
        prop_assert!(close(line.tension(0.0), pulled, 0.0, 1e-14 * line.stiffness));
        prop_assert!(close(rest(line, 0.0).tension.value, pulled, 1e-12, 1e-14 * line.stiffness));
    }

    #[test]
    fn a_sag_seen_under_a_load_tells_the_length(line in strung(), load in 50.0..5000.0_f64, share in 0.01..0.5_f64) {
        let sag = share * line.span;
        let told = unstretched_for_sag(&line.law(), newtons(load), metres(sag)).unwrap().value;
        let set = Line { unstretched: told, ..line };
        prop_assert!(close(set.lift(sag), load, 1e-11, 1e-14 * line.stiffness));
    }

    #[test]
    fn a_light_load_on_a_tight_line_still_hangs_right(line in strung(), load in force(), pulled in 0.001..0.05_f64) {
        // For a small sag the line lifts as two straight parts at the tension it was pulled to.
        let straight = line.length(0.0);
        let line = Line { unstretched: straight / (1.0 + pulled), ..line };
        let load = load.min(1e-6 * pulled * line.stiffness);
        let (near, far) = (line.at, line.span - line.at);
        let level = line.span / straight;
        let sag = load / (pulled * line.stiffness * level.powi(3) * (1.0 / near + 1.0 / far));
        prop_assert!(close(rest(line, load).sag.value, sag, 1e-4, 1e-12 * line.span), "{sag}");
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_line_gives_an_error_or_numbers_whatever_comes_in(
        span in any(), rise in any(), at in any(), share in any(), unstretched in any(), stiffness in any(),
        load in any(), length in any(),
    ) {
        let place = if share.abs() < 1.0 { share.abs() * span } else { at };
        let line = Line { span, rise, at: place, unstretched, stiffness };
        let [a, b, c, d, e] = line.numbers();
        let hangs = |hung: Hung| {
            let quarter = -FRAC_PI_2..=FRAC_PI_2;
            hung.tension.value.is_finite() && hung.tension.value >= 0.0 && hung.sag.value.is_finite()
                && hung.sag.value >= 0.0 && quarter.contains(&hung.near_below_level.value)
                && quarter.contains(&hung.far_below_level.value)
        };
        let longer_than_none = |length: f64| length.is_finite() && length > 0.0;
        let answer = at_rest(&line.law(), newtons(load));
        prop_assert!(is_lawful(answer, &[a, b, c, d, e, load], line.within() && load >= 0.0, hangs), "{answer:?}");
        let answer = at_lowest_point(&line.law(), newtons(load), metres(length));
        let within = line.within() && load >= 0.0 && length >= 0.0;
        prop_assert!(is_lawful(answer, &[a, b, c, d, e, load, length], within, hangs), "{answer:?}");
        let answer = unstretched_for_sag(&line.law(), newtons(load), metres(length)).map(|told| told.value);
        let within = line.within() && load >= 0.0 && length > 0.0;
        prop_assert!(is_lawful(answer, &[a, b, c, d, e, load, length], within, longer_than_none), "{answer:?}");
        let answer = unstretched_when_pulled_to(metres(span), newtons(load), newtons(stiffness)).map(|told| told.value);
        let within = span > 0.0 && load >= 0.0 && stiffness > 0.0;
        prop_assert!(is_lawful(answer, &[span, load, stiffness], within, |told| {
            longer_than_none(told) && told <= span
        }), "{answer:?}");
    }
}

#[test]
fn at_the_limits_a_line_is_what_anyone_can_see() {
    let slack = Line { span: 10.0, rise: 2.0, at: 4.0, unstretched: 12.0, stiffness: 3e4 };
    assert_eq!(rest(slack, 0.0).tension.value, 0.0, "slack and unloaded");
    assert!(rest(slack, 0.0).sag.value < 1e-12, "the least sag at which nothing pulls");
    assert_eq!(lowest(slack, 0.0, 1.0).tension.value, 0.0, "nothing dropped");
    let beyond = Line { at: 10.0, ..slack };
    assert!(at_rest(&beyond.law(), newtons(1.0)).is_err(), "a load at the anchor is not on the line");
}
