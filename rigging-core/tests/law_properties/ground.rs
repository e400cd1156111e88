use crate::by_hand::{Plane, last_true};
use crate::numbers::{
    any, close, counts, degrees, factor, force, is_lawful, kilograms, metres, newtons, often, plain, radians,
};
use proptest::prelude::*;
use rigging_core::law::ground::{
    Block, Directions, block_mass, block_tips_back_at, block_topples_at, lifts_at, person_topples_at, push_of_feet,
    slides_at, weight_in_water,
};
use std::f64::consts::FRAC_PI_2;

fn directions(slope: f64, rope: f64) -> Directions {
    Directions { slope: radians(slope), rope: radians(rope) }
}
fn slides(weight: f64, friction: f64, push: f64, slope: f64, rope: f64) -> Option<f64> {
    slides_at(newtons(weight), plain(friction), newtons(push), directions(slope, rope))
        .unwrap()
        .map(|force| force.value)
}
fn lifts(weight: f64, slope: f64, rope: f64) -> Option<f64> {
    lifts_at(newtons(weight), directions(slope, rope)).unwrap().map(|force| force.value)
}
fn person_topples(weight: f64, [behind, height, back]: [f64; 3], rope: f64) -> Option<f64> {
    person_topples_at(newtons(weight), metres(behind), metres(height), metres(back), directions(0.0, rope))
        .unwrap()
        .map(|force| force.value)
}
fn block([behind, height, sling_height, sling_behind]: [f64; 4]) -> Block {
    Block {
        centre_behind_edge: metres(behind),
        centre_height: metres(height),
        sling_height: metres(sling_height),
        sling_behind_edge: metres(sling_behind),
    }
}
fn block_topples(weight: f64, sizes: [f64; 4], slope: f64, rope: f64) -> Option<f64> {
    block_topples_at(newtons(weight), &block(sizes), directions(slope, rope)).unwrap().map(|force| force.value)
}

/// Along the ground toward the load and square to it, in a picture with gravity straight down.
fn ground(slope: f64) -> (Plane, Plane) {
    (Plane::at(-slope), Plane::at(FRAC_PI_2 - slope))
}

proptest! {
    #[test]
    fn a_body_slides_where_friction_and_feet_no_longer_hold_it(
        weight in 10.0..5000.0_f64, friction in 0.05..1.0_f64, push in 0.0..2000.0_f64,
        slope in degrees(-40.0, 40.0), rope in degrees(-40.0, 40.0),
    ) {
        let (along, square) = ground(slope);
        let stays = |pull: f64| {
            let applied = Plane(0.0, -weight).plus(Plane::at(rope).times(pull));
            applied.dot(along) <= friction * -applied.dot(square) + push
        };
        match slides(weight, friction, push, slope, rope) {
            Some(0.0) => prop_assert!(!stays(1e-9 * weight)),
            Some(pull) => prop_assert!(close(last_true(0.0, 2.0 * pull, stays), pull, 1e-9, 1e-9 * weight)),
            None => prop_assert!(stays(1e9 * weight)),
        }
    }

    #[test]
    fn feet_and_friction_together_hold_what_the_trial_held(
        hold in force(), weight in 10.0..5000.0_f64, friction in 0.05..1.0_f64, times in factor(),
    ) {
        let push = |by: f64| push_of_feet(newtons(hold * by), newtons(weight * by), plain(friction)).unwrap().value;
        // With nothing for the feet to do, friction alone holds as much or more.
        let whole = slides(weight, friction, push(1.0), 0.0, 0.0).unwrap();
        prop_assert!(close(whole, hold, 1e-12, 0.0) || (push(1.0) == 0.0 && whole > hold), "{whole} {hold}");
        prop_assert!(close(push(1.0) * times, push(times), 0.0, 1e-14 * (hold + weight) * times));
    }

    #[test]
    fn a_body_is_lifted_where_the_ground_no_longer_presses(
        weight in 10.0..5000.0_f64, slope in degrees(-40.0, 40.0), rope in degrees(-40.0, 40.0),
    ) {
        let (_, square) = ground(slope);
        let pressed = |pull: f64| Plane(0.0, -weight).plus(Plane::at(rope).times(pull)).dot(square) < 0.0;
        match lifts(weight, slope, rope) {
            Some(pull) => {
                // One last digit of the angle is worth more the flatter the rope.
                let digit = 1e-15 / (slope + rope);
                prop_assert!(pressed(pull * (1.0 - 1e-12 - digit)) && !pressed(pull * (1.0 + 1e-12 + digit)));
            }
            None => prop_assert!(pressed(1e9 * weight)),
        }
    }

    #[test]
    fn a_person_topples_where_the_moments_about_the_feet_balance(
        weight in 10.0..2000.0_f64, behind in 0.01..0.8_f64, height in 0.05..1.5_f64, back in 0.0..0.8_f64,
        rope in degrees(-80.0, 80.0),
    ) {
        // Feet at the origin, the person behind them, the load in front.
        let weight_moment = Plane(-behind, 0.8).moment(Plane(0.0, -weight));
        let pull_moment = Plane(-back, height).moment(Plane::at(rope));
        match person_topples(weight, [behind, height, back], rope) {
            Some(pull) => prop_assert!(close(weight_moment, -pull * pull_moment, 1e-13, 0.0)),
            None => prop_assert!(pull_moment >= 0.0),
        }
    }

    #[test]
    fn a_block_topples_where_the_moments_about_its_edge_balance_on_any_slope(
        weight in 10.0..50_000.0_f64, behind in 0.05..1.0_f64, height in 0.05..1.0_f64, sling in 0.05..1.0_f64,
        back in 0.0..1.0_f64, slope in degrees(-40.0, 40.0), rope in degrees(-45.0, 45.0),
    ) {
        let (along, square) = ground(slope);
        let place = |behind: f64, above: f64| along.times(-behind).plus(square.times(above));
        let steady = place(behind, height).moment(Plane(0.0, -weight));
        let pull_moment = place(back, sling).moment(Plane::at(rope));
        match block_topples(weight, [behind, height, sling, back], slope, rope) {
            Some(0.0) => prop_assert!(steady <= 0.0),
            // Where the pull has hardly any moment it is large, and so is what rounding leaves of it.
            Some(pull) => prop_assert!(close(steady, -pull * pull_moment, 1e-12, 1e-12 * weight + 1e-14 * pull)),
            None => prop_assert!(pull_moment >= -1e-14 && steady > 0.0),
        }
    }

    #[test]
    fn a_block_tips_back_where_the_moments_about_its_rear_edge_balance_on_any_slope(
        weight in 10.0..50_000.0_f64, behind in 0.05..1.0_f64, height in 0.05..1.0_f64, sling in 0.05..1.0_f64,
        back in 0.0..1.0_f64, more in 0.01..1.0_f64, slope in degrees(-40.0, 40.0), rope in degrees(-45.0, 45.0),
    ) {
        let (along, square) = ground(slope);
        let length = behind + more;
        let place = |behind: f64, above: f64| along.times(length - behind).plus(square.times(above));
        let steady = place(behind, height).moment(Plane(0.0, -weight));
        let pull_moment = place(back, sling).moment(Plane::at(rope));
        let sizes = block([behind, height, sling, back]);
        let force = block_tips_back_at(newtons(weight), &sizes, metres(length), directions(slope, rope)).unwrap();
        match force.map(|force| force.value) {
            Some(0.0) => prop_assert!(steady >= 0.0),
            Some(pull) => prop_assert!(close(steady, -pull * pull_moment, 1e-12, 1e-12 * weight + 1e-14 * pull)),
            None => prop_assert!(pull_moment <= 1e-14 && steady < 0.0),
        }
    }

    #[test]
    fn forces_on_the_ground_grow_together(
        weight in force(), push in force(), times in factor(), friction in 0.05..1.0_f64,
        slope in degrees(-40.0, 40.0), rope in degrees(-40.0, 40.0),
    ) {
        let grows = |law: &dyn Fn(f64) -> Option<f64>| match (law(1.0), law(times)) {
            (Some(once), Some(more)) => close(once * times, more, 1e-12, 1e-14 * (weight + push) * times),
            (once, more) => once == more,
        };
        prop_assert!(grows(&|by| slides(weight * by, friction, push * by, slope, rope)));
        prop_assert!(grows(&|by| lifts(weight * by, slope, rope)));
        prop_assert!(grows(&|by| person_topples(weight * by, [0.3, 1.0, 0.2], rope)));
        prop_assert!(grows(&|by| block_topples(weight * by, [0.3, 0.4, 0.5, 0.2], slope, rope)));
    }

    #[test]
    fn the_size_of_a_body_does_not_matter_only_its_shape(
        weight in force(), times in factor(), slope in degrees(-40.0, 40.0), rope in degrees(-40.0, 40.0),
        behind in 0.1..1.0_f64, height in 0.1..1.0_f64, sling in 0.6..1.0_f64, back in 0.0..0.5_f64,
    ) {
        let same = |law: &dyn Fn(f64) -> Option<f64>| match (law(1.0), law(times)) {
            (Some(once), Some(larger)) => close(once, larger, 1e-12, 1e-12 * weight),
            (once, larger) => once == larger,
        };
        prop_assert!(same(&|by| person_topples(weight, [behind * by, sling * by, back * by], rope)));
        prop_assert!(same(&|by| block_topples(weight, [behind * by, height * by, sling * by, back * by], slope, rope)));
    }

    #[test]
    fn weight_friction_and_feet_hold_more_and_a_steeper_slope_less(
        weight in 10.0..5000.0_f64, friction in 0.05..0.9_f64, push in 0.0..2000.0_f64,
        slope in degrees(-30.0, 20.0), more in 1.0..1.1_f64,
    ) {
        // A rope along the ground, so that its pull neither presses nor lifts.
        let at = |weight, friction, push, slope: f64| slides(weight, friction, push, slope, -slope).unwrap();
        let here = at(weight, friction, push, slope);
        let less = here - 1e-12 * (weight + push);
        prop_assert!(at(weight, friction * more, push, slope) >= less);
        prop_assert!(at(weight, friction, push * more, slope) >= less);
        prop_assert!(here == 0.0 || at(weight, friction, push, slope + 0.1) <= here);
        prop_assert!(here <= push || at(weight * more, friction, push, slope) >= less);
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn the_ground_gives_an_error_or_a_number_whatever_comes_in(
        weight in any(), friction in any(), push in any(), slope in any(), rope in any(), length in any(), other in any(),
    ) {
        let tilted = |angle: f64| angle.abs() < FRAC_PI_2;
        let (at, turned) = (directions(slope, rope), tilted(slope) && tilted(rope) && tilted(slope + rope));
        let holds = |force: Option<rigging_core::quantity::Force>| force.is_none_or(|force| counts(force.value));
        let answer = slides_at(newtons(weight), plain(friction), newtons(push), at);
        let within = turned && weight >= 0.0 && friction >= 0.0 && push >= 0.0;
        prop_assert!(is_lawful(answer, &[weight, friction, push, slope, rope, slope + rope], within, holds), "{answer:?}");
        let answer = push_of_feet(newtons(weight), newtons(push), plain(friction)).map(|force| force.value);
        let within = weight >= 0.0 && friction >= 0.0 && push >= 0.0;
        prop_assert!(is_lawful(answer, &[weight, friction, push], within, |force| {
            counts(force) && force <= weight
        }), "{answer:?}");
        let answer = lifts_at(newtons(weight), at);
        prop_assert!(is_lawful(answer, &[weight, slope, rope, slope + rope], turned && weight >= 0.0, holds), "{answer:?}");
        let answer = person_topples_at(newtons(weight), metres(length), metres(friction), metres(other), at);
        let within = turned && weight >= 0.0 && length >= 0.0;
        prop_assert!(is_lawful(answer, &[weight, length, friction, other, slope, rope, slope + rope], within, holds), "{answer:?}");
        let answer = block_tips_back_at(newtons(weight), &block([length, other, friction, push]), metres(push), at);
        let within = turned && weight >= 0.0 && length > 0.0 && other > 0.0 && push > 0.0;
        prop_assert!(is_lawful(answer, &[weight, length, other, push, slope, rope, slope + rope], within, holds), "{answer:?}");
        // A block that falls by itself needs no sling, so the sling's place may then be anything.
        let answer = block_topples_at(newtons(weight), &block([length, other, friction, push]), at);
        let within = turned && weight >= 0.0 && length > 0.0 && other > 0.0;
        prop_assert!(is_lawful(answer, &[weight, length, other, slope, rope, slope + rope], within, holds), "{answer:?}");
    }
}

#[test]
fn at_the_limits_a_body_is_what_anyone_can_see() {
    assert_eq!(slides(800.0, 0.0, 0.0, 0.0, 0.0), Some(0.0), "on ice");
    assert_eq!(slides(800.0, 0.0, 300.0, 0.0, 0.0), Some(300.0), "on ice, against a foothold");
    assert_eq!(slides(0.0, 0.5, 0.0, 0.0, 0.3), Some(0.0), "without weight");
    assert_eq!(lifts(0.0, 0.0, 0.3), Some(0.0), "without weight");
    assert_eq!(lifts(800.0, 0.0, 0.0), None, "a level rope never lifts");
    assert!(close(lifts(800.0, 0.0, FRAC_PI_2 - 1e-9).unwrap(), 800.0, 1e-15, 0.0), "straight up it takes the weight");
    assert_eq!(person_topples(800.0, [0.0, 1.0, 0.1], 0.0), Some(0.0), "weight over the feet");
    assert_eq!(person_topples(800.0, [0.3, 0.0, 0.1], 0.0), None, "the rope runs through the feet");
    assert!(slides_at(newtons(800.0), plain(0.5), newtons(0.0), directions(0.0, FRAC_PI_2)).is_err());
}

proptest! {
    #[test]
    fn a_body_weighs_less_by_what_the_water_it_displaces_weighs(
        sides in prop::array::uniform3(0.1..3.0_f64), fills in 0.3..1.0_f64, density in 300.0..3000.0_f64, share in 0.0..=1.0_f64,
        water in 1000.0..1100.0_f64,
    ) {
        let mass = block_mass(sides.map(metres), plain(fills), kilograms(density)).unwrap();
        let volume = sides.iter().product::<f64>() * fills;
        let left = weight_in_water(mass, kilograms(density), plain(share), kilograms(water)).unwrap().value;
        let sinks = 9.80665 * (volume * density - volume * share * water);
        prop_assert!(close(left, sinks.max(0.0), 1e-12, 1e-10 * volume * density), "{left} {sinks}");
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_block_and_what_water_leaves_of_it_give_an_error_or_a_number_whatever_comes_in(
        one in any(), two in any(), three in any(), four in any(), five in any(),
    ) {
        let answer = block_mass([one, two, three].map(metres), plain(four), kilograms(five)).map(|mass| mass.value);
        let within = [one, two, three, four, five].iter().all(|value| *value >= 0.0);
        prop_assert!(is_lawful(answer, &[one, two, three, four, five], within, counts), "{answer:?}");
        let answer = weight_in_water(kilograms(one), kilograms(two), plain(three), kilograms(four)).map(|force| force.value);
        let within = one >= 0.0 && two > 0.0 && (0.0..=1.0).contains(&three) && four >= 0.0;
        prop_assert!(is_lawful(answer, &[one, two, three, four], within, counts), "{answer:?}");
    }
}
