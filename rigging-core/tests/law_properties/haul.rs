use crate::numbers::{any, close, counts, factor, is_lawful, often, plain};
use proptest::prelude::*;
use rigging_core::law::haul::{Begins, Haul, Part, follow};

/// A part by number, of some gain.
fn part(kind: usize, gain: f64) -> Part {
    match kind {
        0 | 1 => Part::Stays(plain(gain)),
        2 => Part::AtLoad(plain(gain)),
        3 | 4 => Part::Travels(plain(gain)),
        5 => Part::Clamp,
        _ => Part::NewRope,
    }
}

fn gain_of(part: &Part) -> Option<f64> {
    match part {
        Part::Stays(gain) | Part::AtLoad(gain) | Part::Travels(gain) => Some(gain.value),
        Part::Clamp | Part::NewRope => None,
    }
}

/// The same list with other gains.
fn with_gains(parts: &[Part], change: impl Fn(usize, f64) -> f64) -> Vec<Part> {
    let change = |(place, part): (usize, &Part)| match part {
        Part::Stays(gain) => Part::Stays(plain(change(place, gain.value))),
        Part::AtLoad(gain) => Part::AtLoad(plain(change(place, gain.value))),
        Part::Travels(gain) => Part::Travels(plain(change(place, gain.value))),
        other => *other,
    };
    parts.iter().enumerate().map(change).collect()
}

/// Any list that pulls the load, on a rope whose gains are those of bends that hold back what is raised.
fn haul() -> impl Strategy<Value = (Begins, Vec<Part>)> {
    let parts = prop::collection::vec((0_usize..7, 1.0..3.0_f64), 0..8);
    let list = (prop::bool::ANY, parts).prop_map(|(at_load, parts)| {
        let begins = if at_load { Begins::AtLoad } else { Begins::AtAnchor };
        (begins, parts.into_iter().map(|(kind, gain)| part(kind, gain)).collect::<Vec<_>>())
    });
    list.prop_filter("pulls the load", |(begins, parts)| follow(*begins, parts).is_ok())
}

/// How the rope moves while the load rises at 1 m/s, from the load's end to the hand, by what each thing does to it
/// and without any force: speed at the hand, and speed of the rope over each bend.
fn motion(begins: Begins, parts: &[Part]) -> (f64, Vec<f64>) {
    let mut speed = if begins == Begins::AtLoad { 1.0 } else { 0.0 };
    let mut pulled = 1.0;
    let mut over = Vec::new();
    for part in parts {
        match part {
            Part::Stays(_) => over.push(speed),
            // Seen from a bend that comes toward it the rope runs faster, and leaves it by as much again.
            Part::AtLoad(_) | Part::Travels(_) => {
                let bend = if matches!(part, Part::AtLoad(_)) { 1.0 } else { pulled };
                over.push(speed + bend);
                speed += 2.0 * bend;
            }
            Part::Clamp => {
                pulled = speed;
                over.push(0.0);
            }
            Part::NewRope => {
                (pulled, speed) = (speed, 0.0);
                over.push(0.0);
            }
        }
    }
    (speed, over)
}

fn of((begins, parts): &(Begins, Vec<Part>)) -> Haul {
    follow(*begins, parts).unwrap()
}

proptest! {
    #[test]
    fn without_loss_the_rope_through_the_hand_does_the_work_of_the_load((begins, parts) in haul()) {
        let free = follow(begins, &with_gains(&parts, |_, _| 1.0)).unwrap();
        prop_assert!(close(free.load.value, motion(begins, &parts).0, 1e-12, 0.0), "{parts:?}");
    }

    #[test]
    fn the_work_of_the_hand_is_that_of_the_load_and_of_every_bend((begins, parts) in haul()) {
        let haul = of(&(begins, parts.clone()));
        let (hand, over) = motion(begins, &parts);
        let lost = parts.iter().zip(&haul.sides).zip(over);
        let lost = lost.filter(|((part, _), _)| gain_of(part).is_some());
        let lost: f64 = lost.map(|((_, sides), speed)| (sides.hand.value - sides.load.value) * speed).sum();
        prop_assert!(close(hand, haul.load.value + lost, 1e-12, 0.0), "{hand} {} {lost} {parts:?}", haul.load.value);
    }

    #[test]
    fn raising_and_lowering_multiply_to_no_more_than_without_loss_squared((begins, parts) in haul()) {
        // Each strand of the load per newton of the hand is a product of gains, so that the load is a sum of positive
        // terms x with raising x and lowering 1/x: Σx · Σ1/x is not less than their number squared (Cauchy, Schwarz).
        let raising = of(&(begins, parts.clone())).load.value;
        let lowering = follow(begins, &with_gains(&parts, |_, gain| 1.0 / gain)).unwrap().load.value;
        let free = follow(begins, &with_gains(&parts, |_, _| 1.0)).unwrap().load.value;
        prop_assert!(raising <= free * (1.0 + 1e-12) && lowering >= free * (1.0 - 1e-12), "{parts:?}");
        prop_assert!(raising * lowering >= free * free * (1.0 - 1e-12), "{parts:?}");
    }

    #[test]
    fn lowering_is_raising_over_the_same_bends_the_other_way_round(gains in prop::collection::vec(1.0..3.0_f64, 1..4)) {
        // Every strand of one rope pulls the load, so that turned about the hand's end is the load's: by hand
        // 1 + 1/e₂ + 1/(e₁e₂) = (1 + e₁ + e₁e₂) / (e₁e₂).
        let gains: Vec<f64> = gains.iter().flat_map(|gain| [*gain, 1.0 + gain / 7.0]).collect();
        let load = |gains: &[f64]| {
            let part = |(place, gain): (usize, &f64)| part(if place % 2 == 0 { 0 } else { 3 }, *gain);
            follow(Begins::AtLoad, &gains.iter().enumerate().map(part).collect::<Vec<_>>()).unwrap().load.value
        };
        let turned: Vec<f64> = gains.iter().rev().copied().collect();
        let lowering: Vec<f64> = gains.iter().map(|gain| 1.0 / gain).collect();
        let all: f64 = gains.iter().product();
        prop_assert!(close(load(&lowering), all * load(&turned), 1e-12, 0.0));
    }

    #[test]
    fn more_friction_at_any_bend_takes_from_the_load((begins, parts) in haul(), which in 0_usize..8, more in 1.001..2.0_f64) {
        let worse = with_gains(&parts, |place, gain| if place == which { gain * more } else { gain });
        let (before, after) = (of(&(begins, parts.clone())).load.value, follow(begins, &worse).unwrap().load.value);
        let bend = parts.get(which).and_then(gain_of).is_some();
        let on_anchor_only = close(before, after, 1e-14, 0.0);
        prop_assert!(after <= before * (1.0 + 1e-13), "{parts:?} {which}");
        // What lies between an anchored end and the first bend that travels pulls only that anchor.
        prop_assert!(bend || on_anchor_only, "{parts:?}");
    }

    #[test]
    fn the_strands_at_the_hand_and_between_parts_agree((begins, parts) in haul()) {
        let haul = of(&(begins, parts.clone()));
        let mut before = haul.end.value;
        for (part, sides) in parts.iter().zip(&haul.sides) {
            prop_assert_eq!(sides.load.value.to_bits(), before.to_bits());
            if let Some(gain) = gain_of(part) {
                prop_assert!(close(sides.hand.value, gain * sides.load.value, 1e-14, 0.0));
            }
            before = sides.hand.value;
        }
        prop_assert_eq!(before, 1.0);
    }
}

proptest! {
    #![proptest_config(often())]

    #[test]
    fn a_haul_gives_an_error_or_numbers_whatever_comes_in(
        parts in prop::collection::vec((0_usize..7, any()), 0..6), at_load in prop::bool::ANY, times in factor()
    ) {
        let begins = if at_load { Begins::AtLoad } else { Begins::AtAnchor };
        let parts: Vec<Part> = parts.into_iter().map(|(kind, gain)| part(kind, gain * times)).collect();
        match follow(begins, &parts) {
            Err(error) => prop_assert!(!error.what.is_empty() && !error.must.is_empty()),
            Ok(haul) => {
                let gains: Vec<f64> = parts.iter().filter_map(gain_of).collect();
                let within = gains.iter().all(|gain| *gain > 0.0);
                let lawful = is_lawful(Ok((haul.load.value, haul.end.value)), &gains, within, |(load, end)| counts(load) && counts(end));
                prop_assert!(lawful, "{parts:?}");
            }
        }
    }
}
