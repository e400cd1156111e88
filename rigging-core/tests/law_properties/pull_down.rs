use crate::numbers::{any, at_least, close, counts, degrees, is_lawful, newtons, often, plain, radians};
use proptest::prelude::*;
use rigging_core::law::pull_down::{Piece, beyond, pull, pull_with_bends_at_the_ring};
use std::f64::consts::{FRAC_PI_2, PI};

fn straight(weight: f64, rises: f64, friction: f64) -> Piece {
    Piece::Straight { weight: newtons(weight), rises: radians(rises), friction: plain(friction) }
}
fn bend(friction: f64, turning_angle: f64) -> Piece {
    Piece::Bend { friction: plain(friction), turning_angle: radians(turning_angle) }
}
fn hand(way: &[Piece]) -> f64 {
    pull(way).unwrap().value
}
fn closed(rising: f64, pulled: f64, sum: f64) -> f64 {
    pull_with_bends_at_the_ring(newtons(rising), newtons(pulled), plain(sum)).unwrap().value
}

fn a_straight() -> impl Strategy<Value = Piece> {
    (0.0..80.0_f64, degrees(-90.0, 90.0), 0.0..1.0_f64).prop_map(|(weight, rises, mu)| straight(weight, rises, mu))
}
fn a_bend() -> impl Strategy<Value = Piece> {
    (0.0..1.0_f64, degrees(0.0, 180.0)).prop_map(|(friction, angle)| bend(friction, angle))
}
fn a_way() -> impl Strategy<Value = Vec<Piece>> {
    prop::collection::vec(prop_oneof![a_straight(), a_bend()], 1..8)
}

/// The pull found by walking along the rope in short facets, each in balance: along a facet its weight and the friction
/// under it, at a corner the push square to the half angle and the friction it makes. Slack rope has no tension.
fn walked(way: &[Piece]) -> f64 {
    const FACETS: usize = 40_000;
    let mut tension = 0.0_f64;
    for piece in way {
        match piece {
            Piece::Straight { weight, rises, friction } => {
                let (weight, (up, level)) = (weight.value / FACETS as f64, rises.value.sin_cos());
                for _ in 0..FACETS {
                    let push = weight * level;
                    tension = (tension + weight * up + friction.value * push).max(0.0);
                }
            }
            Piece::Bend { friction, turning_angle } => {
                let (half_sine, half_cosine) = (turning_angle.value / FACETS as f64 / 2.0).sin_cos();
                for _ in 0..FACETS {
                    // (T₂ − T₁) cos(δ/2) = μ N, N = (T₁ + T₂) sin(δ/2).
                    let mu = friction.value;
                    tension *= (half_cosine + mu * half_sine) / (half_cosine - mu * half_sine);
                }
            }
        }
    }
    tension
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn a_rope_walked_facet_by_facet_needs_the_same_pull(way in a_way()) {
        let (law, walked) = (hand(&way), walked(&way));
        prop_assert!(close(law, walked, 1e-7, 1e-8), "{law} {walked} {way:?}");
    }
}

proptest! {
    #[test]
    fn a_piece_cut_in_two_is_the_same_piece(way in a_way(), place in 0_usize..8, share in 0.0..1.0_f64) {
        let place = place % way.len();
        let halves = match way[place] {
            Piece::Straight { weight, rises, friction } => [
                Piece::Straight { weight: weight * share, rises, friction },
                Piece::Straight { weight: weight * (1.0 - share), rises, friction },
            ],
            Piece::Bend { friction, turning_angle } => [
                Piece::Bend { friction, turning_angle: turning_angle * share },
                Piece::Bend { friction, turning_angle: turning_angle * (1.0 - share) },
            ],
        };
        let mut cut = way.clone();
        cut.splice(place..=place, halves);
        // What is left of a difference of weights is told to the last digits of the weights, times the bends beyond.
        let gain: f64 = way.iter().map(|piece| match piece {
            Piece::Bend { friction, turning_angle } => friction.value * turning_angle.value,
            Piece::Straight { .. } => 0.0,
        }).sum::<f64>().exp();
        prop_assert!(close(hand(&cut), hand(&way), 1e-12, 1e-12 * gain), "{} {}", hand(&cut), hand(&way));
    }

    #[test]
    fn more_friction_and_more_angle_never_make_it_easier(way in a_way(), place in 0_usize..8, more in 0.0..0.5_f64) {
        let place = place % way.len();
        let mut harder = way.clone();
        harder[place] = match way[place] {
            Piece::Straight { weight, rises, friction } => Piece::Straight { weight, rises, friction: friction + plain(more) },
            Piece::Bend { friction, turning_angle } => Piece::Bend { friction: friction + plain(more), turning_angle },
        };
        prop_assert!(at_least(hand(&harder), hand(&way)));
        if let Piece::Bend { friction, turning_angle } = way[place] {
            harder[place] = Piece::Bend { friction, turning_angle: turning_angle + radians(more) };
            prop_assert!(at_least(hand(&harder), hand(&way)));
        }
    }

    #[test]
    fn more_rope_that_rises_hinders_and_more_that_comes_down_helps(
        rising in 0.0..80.0_f64, pulled in 0.0..80.0_f64, ring in 0.0..0.5_f64, edge in 0.0..1.0_f64,
        turn in degrees(0.0, 180.0), more in 0.01..20.0_f64,
    ) {
        let at = |rising: f64, pulled: f64| {
            hand(&[straight(rising, FRAC_PI_2, 0.0), bend(edge, turn), bend(ring, PI), straight(pulled, -FRAC_PI_2, 0.0)])
        };
        prop_assert!(at_least(at(rising + more, pulled), at(rising, pulled)));
        prop_assert!(at_least(at(rising, pulled), at(rising, pulled + more)));
        // As long as it does not run by itself each newton that comes down is one newton of pull.
        if at(rising, pulled + more) > 0.0 {
            prop_assert!(close(at(rising, pulled) - at(rising, pulled + more), more, 1e-9, 1e-9 * at(rising, pulled)));
        }
    }

    #[test]
    fn edges_close_below_the_ring_need_the_most_pull(
        rising in 0.0..80.0_f64, pulled in 0.0..80.0_f64, ring in 0.0..0.5_f64, edges in [(0.0..1.0_f64, 0.0..PI), (0.0..1.0_f64, 0.0..PI)],
        down in [0.0..1.0_f64, 0.0..1.0_f64],
    ) {
        let [(one, one_turn), (other, other_turn)] = edges;
        let at = |[up, down]: [f64; 2]| hand(&[
            straight((1.0 - up) * rising, FRAC_PI_2, 0.0),
            bend(one, one_turn),
            straight(up * rising, FRAC_PI_2, 0.0),
            bend(ring, PI),
            straight(down * pulled, -FRAC_PI_2, 0.0),
            bend(other, other_turn),
            straight((1.0 - down) * pulled, -FRAC_PI_2, 0.0),
        ]);
        let most = closed(rising, pulled, ring * PI + one * one_turn + other * other_turn);
        prop_assert!(close(at([0.0, 0.0]), most, 1e-12, 1e-12 * (most + pulled)), "{} {most}", at([0.0, 0.0]));
        prop_assert!(at_least(most, at(down) * (1.0 - 1e-12) - 1e-12 * pulled), "{} {most}", at(down));
    }

    #[test]
    fn heavier_rope_needs_so_many_times_the_pull(way in a_way(), times in 0.01..50.0_f64) {
        let heavier: Vec<Piece> = way.iter().map(|piece| match *piece {
            Piece::Straight { weight, rises, friction } => Piece::Straight { weight: weight * times, rises, friction },
            bend @ Piece::Bend { .. } => bend,
        }).collect();
        prop_assert!(close(hand(&heavier), times * hand(&way), 1e-10, 1e-10 * times));
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn it_gives_an_error_or_a_number_whatever_comes_in(before in any(), weight in any(), angle in any(), friction in any()) {
        let answer = beyond(newtons(before), &straight(weight, angle, friction)).map(|force| force.value);
        let within = before >= 0.0 && weight >= 0.0 && friction >= 0.0 && angle.abs() <= FRAC_PI_2;
        prop_assert!(is_lawful(answer, &[before, weight, angle, friction], within, counts), "{answer:?}");
        let answer = beyond(newtons(before), &bend(friction, angle)).map(|force| force.value);
        let within = before >= 0.0 && friction >= 0.0 && angle >= 0.0;
        prop_assert!(is_lawful(answer, &[before, angle, friction], within, |force| counts(force) && force >= before), "{answer:?}");
        let answer = pull_with_bends_at_the_ring(newtons(before), newtons(weight), plain(friction)).map(|force| force.value);
        let within = before >= 0.0 && weight >= 0.0 && friction >= 0.0;
        prop_assert!(is_lawful(answer, &[before, weight, friction], within, counts), "{answer:?}");
    }
}

#[test]
fn at_the_limits_a_pull_is_what_anyone_can_see() {
    let (up, down) = (|weight| straight(weight, FRAC_PI_2, 0.9), |weight| straight(weight, -FRAC_PI_2, 0.9));
    assert_eq!(hand(&[]), 0.0, "no rope");
    assert_eq!(hand(&[up(30.0), bend(0.0, PI), down(12.0)]), 18.0, "no friction: the difference of the weights");
    assert_eq!(hand(&[up(0.0), bend(0.4, PI), down(0.0)]), 0.0, "no height");
    assert_eq!(hand(&[up(20.0), bend(0.0, PI), down(20.0)]), 0.0, "in balance");
    assert!(close(hand(&[straight(10.0, 0.0, 0.3)]), 3.0, 1e-15, 0.0), "drawn over level ground");
    // At the angle of repose rope that comes down neither drags nor helps.
    assert!(close(hand(&[up(5.0), straight(10.0, -0.3_f64.atan(), 0.3)]), 5.0, 1e-15, 0.0), "at the angle of repose");
}
