//! What must hold of a haul for every list of bends that can be made.

use super::*;

/// Every list of up to four bends of each kind, on one rope and on two, that is not refused.
fn every_list(mut check: impl FnMut(&RaiseLower, &[Thing], usize)) -> usize {
    let kinds = [
        (Stays, BallBearing, 180.0),
        (Stays, Connector, -70.0),
        (Stays, PolishedRock, 50.0),
        (WithLoad, Connector, 180.0),
        (WithClamp, BallBearing, 180.0),
    ];
    let mut seen = 0;
    for bends in 0..=5_u32 {
        for number in 0..kinds.len().pow(bends) {
            let list: Vec<_> = (0..bends).map(|place| kinds[number / kinds.len().pow(place) % kinds.len()]).collect();
            for rope_end in [EndAt::Load, EndAt::Anchor] {
                for takes_over in 0..=bends {
                    for second_end in [SecondEnd::FirstRope, SecondEnd::Anchor] {
                        let haul = RaiseLower { takes_over, second_end, ..over(rope_end, &list) };
                        if let Ok(list) = haul.list() {
                            seen += 1;
                            check(&haul, &list, seen);
                        }
                    }
                }
            }
        }
    }
    seen
}

/// Frictions that differ from bend to bend and from list to list, some pulling the other way.
fn some_frictions(seed: usize) -> [f64; MOST] {
    std::array::from_fn(|place| ((seed * 7919 + place * 104_729) % 1000) as f64 / 1000.0 - 0.4)
}

#[test]
fn of_every_list_all_forces_on_the_whole_rig_balance() {
    // Anchors and edges together hold exactly the load and the hand, as vectors: the directions are those drawn.
    let seen = every_list(|haul, list, seen| {
        let case = haul.case(list, Way::Rest, &some_frictions(seen), Some(1000.0)).unwrap();
        let mut sum = [0.0, -case.load];
        let mut add = |[x, y]: [f64; 2]| sum = [sum[0] + x, sum[1] + y];
        let heading =
            list.iter().fold(if haul.rope_end == EndAt::Load { PI / 2.0 } else { -PI / 2.0 }, |heading, thing| {
                match thing {
                    Thing::Bend(bendy) => bendy.heading - bendy.turn,
                    Thing::Anchored(heading) => *heading,
                    _ => heading,
                }
            });
        add(along(heading, case.hand));
        for held in haul.held(list) {
            let [x, y] = case.on(held.slot);
            add([-x, -y]);
        }
        assert!(size(sum) < 1e-9 * (case.load + case.hand), "{sum:?} {haul:?}");
        close(case.load, 1000.0);
    });
    assert!(seen > 3000, "{seen}");
}

#[test]
fn of_every_list_the_rope_through_the_hand_does_the_work_of_the_load() {
    // The load rises at 1 m/s: how fast each strand of the rope then runs, by the bends alone.
    every_list(|haul, list, _| {
        let (mut speed, mut clamp) = (if haul.rope_end == EndAt::Load { 1.0 } else { 0.0 }, 1.0);
        for thing in list {
            match thing {
                Thing::Bend(bendy) => match bendy.moves {
                    Stays => {}
                    WithLoad => speed += 2.0,
                    WithClamp => speed += 2.0 * clamp,
                },
                Thing::Clamp | Thing::Tied => clamp = speed,
                Thing::Anchored(_) => (clamp, speed) = (speed, 0.0),
            }
        }
        let case = haul.case(list, Way::Rest, &[0.0; MOST], Some(1000.0)).unwrap();
        close(case.hand * speed, 1000.0);
        close(haul.rope_per_load(list).unwrap(), speed);
    });
}

#[test]
fn of_every_list_lowering_needs_less_than_raising_and_friction_makes_both_worse() {
    every_list(|haul, list, seen| {
        let hand = |frictions: &[f64; MOST]| haul.case(list, Way::Rest, frictions, Some(1000.0)).unwrap().hand;
        let up = some_frictions(seen).map(f64::abs);
        let free = hand(&[0.0; MOST]);
        let (raising, lowering) = (hand(&up), hand(&up.map(|friction| -friction)));
        assert!(lowering <= free * (1.0 + 1e-12) && free <= raising * (1.0 + 1e-12), "{haul:?}");
        assert!(raising * lowering <= free * free * (1.0 + 1e-12), "{haul:?}");
        let more = up.map(|friction| 1.3 * friction);
        assert!(hand(&more) >= raising * (1.0 - 1e-12) && hand(&more.map(|one| -one)) <= lowering * (1.0 + 1e-12));
    });
}

#[test]
fn every_list_has_an_answer_whose_polygons_close() {
    every_list(|haul, _, seen| {
        if seen % 97 != 0 {
            return;
        }
        let answer = haul.solve().unwrap();
        for scene in [Some(&answer.scene), answer.aside.as_ref()].into_iter().flatten() {
            let sum = scene.polygon.iter().fold([0.0, 0.0], |[x, y], arrow| [x + arrow.pull[0], y + arrow.pull[1]]);
            assert!(size(sum) < 1e-9 * WEIGHT, "{haul:?}");
            assert!(scene.lines.iter().all(|line| line.tension >= 0.0 && line.tension.is_finite()));
        }
        assert!(answer.working.len() > 3 && !answer.findings.is_empty());
    });
}
