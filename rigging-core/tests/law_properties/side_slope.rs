use crate::by_hand::last_true;
use crate::numbers::{any, close, counts, degrees, factor, force, is_lawful, newtons, often, plain, radians};
use proptest::prelude::*;
use rigging_core::law::ground::{self, Directions};
use rigging_core::law::side_slope::{pulls_by_itself, slides_at};
use std::f64::consts::FRAC_PI_2;

fn directions(slope: f64, rope: f64) -> Directions {
    Directions { slope: radians(slope), rope: radians(rope) }
}
fn slides(weight: f64, friction: f64, push: f64, at: [f64; 3]) -> Option<f64> {
    slides_aslant(weight, friction, [push, 0.0], at)
}
fn slides_aslant(weight: f64, friction: f64, [push, aside]: [f64; 2], [slope, rope, side]: [f64; 3]) -> Option<f64> {
    let (push, aside) = (newtons(push), radians(aside));
    slides_at(newtons(weight), plain(friction), push, aside, directions(slope, rope), radians(side))
        .unwrap()
        .map(|force| force.value)
}
fn alone(weight: f64, friction: f64, push: f64, at: [f64; 3]) -> f64 {
    alone_aslant(weight, friction, [push, 0.0], at)
}
fn alone_aslant(weight: f64, friction: f64, [push, aside]: [f64; 2], [slope, rope, side]: [f64; 3]) -> f64 {
    let (push, aside) = (newtons(push), radians(aside));
    pulls_by_itself(newtons(weight), plain(friction), push, aside, directions(slope, rope), radians(side))
        .unwrap()
        .value
}

type Space = [f64; 3];
fn dot(a: Space, b: Space) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
fn cross(a: Space, b: Space) -> Space {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

/// Weight and a pull in the vertical plane of the rope, in space: along the ground with the rope, across it, and
/// pressing on it. The ground is spanned by a line in the rope's plane and by one that falls to the side.
fn on_the_ground(weight: f64, pull: f64, [slope, rope, side]: [f64; 3]) -> Space {
    let along = [slope.cos(), 0.0, -slope.sin()];
    // Square to that line, falling by the side slope.
    let aside = [-slope.sin() * side.sin(), side.cos(), -slope.cos() * side.sin()];
    let up = cross(along, aside);
    let all = [pull * rope.cos(), 0.0, pull * rope.sin() - weight];
    [dot(all, along), dot(all, aside), -dot(all, up)]
}

proptest! {
    #[test]
    fn a_rope_that_runs_down_drags_where_all_pulls_in_space_overcome_friction(
        weight in 10.0..5000.0_f64, friction in 0.1..1.0_f64, push in 0.0..2000.0_f64,
        slope in degrees(-30.0, 30.0), below in degrees(0.0, 50.0), side in degrees(0.0, 40.0),
    ) {
        let at = [slope, -slope - below, side];
        let stays = |pull: f64| {
            let [along, across, pressing] = on_the_ground(weight, pull, at);
            (along - push).max(0.0).hypot(across) <= friction * pressing
        };
        match slides(weight, friction, push, at) {
            Some(0.0) => prop_assert!(!stays(1e-7 * weight)),
            Some(pull) => prop_assert!(close(last_true(0.0, 2.0 * pull, stays), pull, 1e-7, 1e-7 * weight)),
            None => prop_assert!(stays(1e6 * weight)),
        }
    }

    #[test]
    fn a_rope_that_runs_up_drags_where_the_two_pulls_overcome_friction_and_no_later_than_in_space(
        weight in 10.0..5000.0_f64, friction in 0.1..1.0_f64, push in 0.0..2000.0_f64,
        slope in degrees(-30.0, 30.0), above in degrees(0.5, 55.0), side in degrees(0.5, 40.0),
    ) {
        let at = [slope, above - slope, side];
        let grip = |pull: f64| friction * (weight * slope.cos() * side.cos() - pull * above.sin());
        let along = |pull: f64| (pull * above.cos() + weight * slope.sin() - push).max(0.0);
        let stays = |pull: f64| along(pull).hypot(weight * slope.cos() * side.sin()) <= grip(pull);
        let pull = slides(weight, friction, push, at).unwrap();
        if pull == 0.0 {
            prop_assert!(!stays(1e-9 * weight));
        } else {
            prop_assert!(close(last_true(0.0, 2.0 * pull, stays), pull, 1e-9, 1e-9 * weight));
            let [along, across, pressing] = on_the_ground(weight, pull, at);
            prop_assert!((along - push).max(0.0).hypot(across) <= friction * pressing * (1.0 + 1e-9) + 1e-9 * weight);
        }
    }

    /// The feet push straight back, as hard as serves best: all of 4000 pushes tried.
    #[test]
    fn a_rope_to_one_side_of_feet_that_push_drags_where_no_push_helps(
        weight in 10.0..5000.0_f64, friction in 0.1..1.0_f64, push in 1.0..2000.0_f64, aside in degrees(0.5, 90.0),
        slope in degrees(-30.0, 30.0), rises in degrees(-50.0, 50.0), side in degrees(0.0, 40.0),
    ) {
        let at = [slope, rises - slope, side];
        let dragged = |along: f64, across: f64| {
            let pushed = |part: u32| push * f64::from(part) / 4000.0;
            let left = |part| (along - pushed(part) * aside.cos()).max(0.0).hypot(across + pushed(part) * aside.sin());
            (0..=4000).map(left).fold(f64::INFINITY, f64::min)
        };
        let stays = |pull: f64| {
            let [along, across, pressing] = if rises <= 0.0 {
                on_the_ground(weight, pull, at)
            } else {
                let [along, across, pressing] = on_the_ground(weight, 0.0, at);
                [along + pull * rises.cos(), across, pressing - pull * rises.sin()]
            };
            dragged(along, across) <= friction * pressing
        };
        let slack = 1e-6 * (weight + push);
        match slides_aslant(weight, friction, [push, aside], at) {
            Some(0.0) => {
                prop_assert!(!stays(slack));
                let [along, across, pressing] = on_the_ground(weight, 0.0, at);
                let pulls = alone_aslant(weight, friction, [push, aside], at);
                let lacks = dragged(along, across) - friction * pressing;
                prop_assert!(close(pulls, lacks.max(0.0), 1e-3, 1e-3 * (weight + push)), "{pulls} {lacks}");
            }
            Some(pull) => {
                prop_assert!(close(last_true(0.0, 2.0 * pull, stays), pull, 2e-3, 1e-3 * (weight + push)), "{pull}");
                prop_assert!(pull <= slides(weight, friction, push, at).unwrap_or(f64::INFINITY) + slack);
            }
            None => prop_assert!(stays(1e5 * weight)),
        }
    }

    #[test]
    fn a_side_slope_never_helps_and_a_steeper_one_less(
        weight in 10.0..5000.0_f64, friction in 0.1..1.0_f64, push in 0.0..2000.0_f64,
        slope in degrees(-40.0, 40.0), rope in degrees(-45.0, 45.0), side in degrees(0.0, 40.0),
    ) {
        let without = ground::slides_at(newtons(weight), plain(friction), newtons(push), directions(slope, rope)).unwrap();
        let limit = |force: Option<f64>| force.unwrap_or(f64::INFINITY);
        let here = limit(slides(weight, friction, push, [slope, rope, side]));
        let slack = 1e-9 * (weight + push);
        prop_assert!(here <= limit(without.map(|force| force.value)) + slack);
        prop_assert!(limit(slides(weight, friction, push, [slope, rope, side + 0.05])) <= here + slack);
    }

    #[test]
    fn what_slides_by_itself_holds_nothing_and_pulls_what_friction_lacks(
        weight in 10.0..5000.0_f64, friction in 0.05..1.0_f64, push in 0.0..500.0_f64,
        slope in degrees(-40.0, 40.0), side in degrees(0.0, 40.0),
    ) {
        let at = [slope, -slope, side];
        let [along, across, pressing] = on_the_ground(weight, 0.0, at);
        let lacks = ((along - push).max(0.0).hypot(across) - friction * pressing).max(0.0);
        let pulls = alone(weight, friction, push, at);
        prop_assert!(close(pulls, lacks, 1e-9, 1e-9 * weight), "{pulls} {lacks}");
        prop_assert!(pulls <= 1e-9 * weight || slides(weight, friction, push, at) == Some(0.0));
    }

    #[test]
    fn forces_grow_together(
        weight in force(), share in 0.0..2.0_f64, times in factor(), friction in 0.05..1.0_f64,
        slope in degrees(-40.0, 40.0), rope in degrees(-40.0, 40.0), side in degrees(0.0, 30.0),
    ) {
        let at = [slope, rope, side];
        let by = |by: f64| (slides(weight * by, friction, share * weight * by, at), alone(weight * by, friction, share * weight * by, at));
        let ((once, pulls), (more, pull_more)) = (by(1.0), by(times));
        prop_assert!(close(pulls * times, pull_more, 1e-11, 1e-13 * weight * times));
        match (once, more) {
            (Some(once), Some(more)) => prop_assert!(close(once * times, more, 1e-11, 1e-13 * weight * times)),
            (once, more) => prop_assert_eq!(once, more),
        }
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_side_slope_gives_an_error_or_a_number_whatever_comes_in(
        weight in any(), friction in any(), push in any(), aside in any(), slope in any(), rope in any(), side in any(),
    ) {
        let tilted = |angle: f64| angle.abs() < FRAC_PI_2;
        let within = tilted(slope) && tilted(rope) && tilted(slope + rope) && (0.0..FRAC_PI_2).contains(&side)
            && weight >= 0.0 && friction >= 0.0 && push >= 0.0 && (0.0..=FRAC_PI_2).contains(&aside);
        let inputs = [weight, friction, push, aside, slope, rope, slope + rope, side];
        let (weight, friction, push, aside) = (newtons(weight), plain(friction), newtons(push), radians(aside));
        let answer = slides_at(weight, friction, push, aside, directions(slope, rope), radians(side));
        prop_assert!(is_lawful(answer, &inputs, within, |force| force.is_none_or(|force| counts(force.value))), "{answer:?}");
        let answer = pulls_by_itself(weight, friction, push, aside, directions(slope, rope), radians(side));
        prop_assert!(is_lawful(answer, &inputs, within, |force| counts(force.value)), "{answer:?}");
    }
}
