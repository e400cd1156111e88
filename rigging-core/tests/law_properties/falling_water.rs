use crate::numbers::{any, at_least, close, counts, is_lawful, metres, often, plain};
use proptest::prelude::*;
use rigging_core::law::falling_water::{drag, push, speed_after, speed_along};
use rigging_core::quantity::{Velocity, VolumeRate, litre_per_second, metre_per_second};

const GRAVITY: f64 = 9.806_65;

fn litres(value: f64) -> VolumeRate {
    VolumeRate::new::<litre_per_second>(value)
}
fn speed(value: f64) -> Velocity {
    Velocity::new::<metre_per_second>(value)
}
fn fallen(height: f64) -> f64 {
    speed_after(metres(height)).unwrap().value
}
fn pushed(flow: f64, at: f64) -> f64 {
    push(litres(flow), speed(at)).unwrap().value
}
fn dragged(diameter: f64, length: f64, at: f64, friction: f64) -> f64 {
    drag(metres(diameter), metres(length), speed(at), plain(friction)).unwrap().value
}
fn along(flow: f64, diameter: f64, length: f64, friction: f64) -> f64 {
    speed_along(litres(flow), metres(diameter), metres(length), plain(friction)).unwrap().value
}

/// What the water does to the rope, walked down it in small steps: the water falls, the rope slows it.
/// Integrated in the square of the speed, `u = v²`: `u′ = 2 (g − ½ c_f π d v³/Q)`.
fn walked_down(flow: f64, diameter: f64, length: f64, friction: f64) -> (f64, f64) {
    const STEPS: usize = 20_000;
    let step = length / STEPS as f64;
    let skin = 0.5 * friction * std::f64::consts::PI * diameter;
    let slope = |square: f64| 2.0 * (GRAVITY - skin * square.max(0.0).powf(1.5) / (flow / 1000.0));
    let (mut square, mut force) = (0.0, 0.0);
    for _ in 0..STEPS {
        let middle: f64 = square + step / 2.0 * slope(square);
        force += 1000.0 * skin * middle.max(0.0) * step;
        square = (square + step * slope(middle)).max(0.0);
    }
    (force, square.sqrt())
}

fn flow() -> impl Strategy<Value = f64> + Clone {
    0.5..100.0_f64
}
fn thickness() -> impl Strategy<Value = f64> + Clone {
    0.006..0.032_f64
}
fn skin() -> impl Strategy<Value = f64> + Clone {
    0.005..0.02_f64
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn the_rope_is_dragged_no_less_than_by_water_walked_down_it(
        flow in flow(), diameter in thickness(), length in 1.0..60.0_f64, friction in skin(),
    ) {
        let bound = dragged(diameter, length, along(flow, diameter, length, friction), friction);
        let (force, end) = walked_down(flow, diameter, length, friction);
        prop_assert!(force <= bound * (1.0 + 1e-3), "{force} {bound}");
        // The bound is not idle, and no water is faster than in free fall.
        prop_assert!(bound <= 1.61 * force, "{force} {bound}");
        prop_assert!(end <= fallen(length) * (1.0 + 1e-9));
    }
}

proptest! {
    #[test]
    fn energy_of_the_fall_becomes_speed(height in 0.1..200.0_f64) {
        prop_assert!(close(fallen(height).powi(2) / 2.0, GRAVITY * height, 1e-14, 0.0));
    }

    #[test]
    fn a_stream_pushes_with_flow_and_speed_and_drag_with_its_square(
        flow in flow(), at in 0.1..40.0_f64, diameter in thickness(), length in 1.0..60.0_f64, friction in skin(),
        times in 1.0..5.0_f64,
    ) {
        prop_assert!(close(pushed(flow * times, at), times * pushed(flow, at), 1e-14, 0.0));
        prop_assert!(close(pushed(flow, at * times), times * pushed(flow, at), 1e-14, 0.0));
        let here = dragged(diameter, length, at, friction);
        prop_assert!(close(dragged(diameter, length, at * times, friction), times * times * here, 1e-14, 0.0));
        for more in [
            dragged(diameter * times, length, at, friction),
            dragged(diameter, length * times, at, friction),
            dragged(diameter, length, at, friction * times),
        ] {
            prop_assert!(close(more, times * here, 1e-14, 0.0));
        }
    }

    #[test]
    fn more_water_rope_or_friction_never_drags_less(
        flow in flow(), diameter in thickness(), length in 1.0..60.0_f64, friction in skin(), times in 1.0..5.0_f64,
    ) {
        let of = |flow, diameter, length, friction| {
            dragged(diameter, length, along(flow, diameter, length, friction), friction)
        };
        let here = of(flow, diameter, length, friction) * (1.0 - 1e-12);
        prop_assert!(of(flow * times, diameter, length, friction) >= here);
        prop_assert!(of(flow, diameter * times, length, friction) >= here);
        prop_assert!(of(flow, diameter, length * times, friction) >= here);
        prop_assert!(of(flow, diameter, length, friction * times) >= here);
    }

    #[test]
    fn where_the_rope_is_long_it_holds_the_weight_of_the_water(
        flow in flow(), diameter in thickness(), friction in skin(),
    ) {
        // So long that the speed is the one at which both are equal: on each metre ρ Q g/v.
        let at = along(flow, diameter, 1e6, friction);
        prop_assert!(close(dragged(diameter, 1.0, at, friction), flow * GRAVITY / at, 1e-12, 0.0));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn falling_water_gives_an_error_or_numbers_whatever_comes_in(a in any(), b in any(), c in any(), d in any()) {
        let flow = VolumeRate::new::<uom::si::volume_rate::cubic_meter_per_second>(a);
        let is = |answer: Result<f64, _>, inputs: &[f64], within: bool| is_lawful(answer, inputs, within, counts);
        prop_assert!(is(speed_after(metres(a)).map(|speed| speed.value), &[a], a >= 0.0));
        prop_assert!(is(push(flow, speed(b)).map(|force| force.value), &[a, b], a >= 0.0 && b >= 0.0));
        let within = b > 0.0 && a >= 0.0 && c >= 0.0;
        let answer = drag(metres(b), metres(a), speed(c), plain(d)).map(|force| force.value);
        prop_assert!(is(answer, &[a, b, c, d], within && d >= 0.0));
        let answer = speed_along(flow, metres(b), metres(c), plain(d)).map(|speed| speed.value);
        let slow = |speed| counts(speed) && at_least((GRAVITY * c).sqrt(), speed);
        prop_assert!(is_lawful(answer, &[a, b, c, d], within && d > 0.0, slow), "{answer:?}");
    }
}
