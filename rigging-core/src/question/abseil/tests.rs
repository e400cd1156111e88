use super::*;
use crate::limit::Standing;
use approx::assert_relative_eq;

#[test]
fn the_hand_needs_the_weight_of_the_heaviest_over_the_least_friction() {
    let [hand, ..] = Abseil::default().spread().unwrap();
    // Row F11 of the check values: 4.2 is the low friction of a figure-eight on wet 9 mm.
    assert_relative_eq!(hand.band.high(), (92.0 + 20.0 + 5.0) * 9.80665 / 4.2, max_relative = 1e-9);
}

#[test]
fn an_edge_can_only_take_load_off_the_anchor() {
    let [.., slip, _, behind, _, _] = Abseil::default().spread().unwrap();
    assert!(behind.band.high() < slip.band.high());
    let free = Abseil { edge: Edge::Free, ..Abseil::default() };
    let [.., slip, _, behind, _, _] = free.spread().unwrap();
    assert_eq!(slip.band, behind.band);
}

#[test]
fn without_slack_the_anchor_is_judged_on_the_jerks() {
    let mut abseil = Abseil { slack: Length::new::<metre>(0.0), ..Abseil::default() };
    abseil.against.holds = super::super::Holds::KnownBolt;
    abseil.against.limit = super::super::LimitChoice::Own;
    abseil.against.own = Force::new::<kilonewton>(3.0);
    let answer = abseil.solve().unwrap();
    let worst = answer.states.iter().map(|state| state.band.high()).fold(0.0, f64::max);
    assert_eq!(answer.findings[1].band.high(), worst);
    assert_ne!(answer.comparisons[0].standing, Standing::BelowLimit);
}

#[test]
fn a_brake_hand_is_never_below_a_limit() {
    let strong = Abseil { descender: Descender::BarRack, hand: HandState::Rested, ..Abseil::default() };
    let answer = strong.solve().unwrap();
    assert_ne!(answer.comparisons[1].standing, Standing::BelowLimit);
}

/// A 12 m drop in a full pipe, the tail hanging in it.
fn in_the_fall() -> Abseil {
    Abseil { tail: Tail::InFall, water: FallingWater::FullPipe, ..Abseil::default() }
}

fn found<'a>(answer: &'a Answer, words: &str) -> &'a Finding {
    let outcomes = answer.outcomes.iter().flat_map(|outcome| &outcome.findings);
    answer.findings.iter().chain(outcomes).find(|finding| finding.what.contains(words)).unwrap()
}

fn says(answer: &Answer, words: &str) -> bool {
    answer.remarks.iter().any(|remark| remark.contains(words))
}

#[test]
fn a_tail_in_a_full_pipe_can_hold_the_lightest() {
    let answer = in_the_fall().solve().unwrap();
    // By hand: v² = 9.80665 · 12; ½ · 1000 · 0.02 · π · 0.009 · 12 · v² = 399.30 N.
    assert_relative_eq!(found(&answer, "dragged at all").band.high(), 399.30, max_relative = 1e-4);
    // Lightest 68 kg, tail 399.30 + 9.2306 N (12 m at 52.29 g/m, half as heavy again when wet), R 20.8.
    let tail: f64 = 399.30 + 9.2306;
    let start = (68.0 * 9.80665 + tail) / (20.8 * tail);
    assert_relative_eq!(found(&answer, "for the lightest to start").band.low(), start, max_relative = 1e-4);
    assert!(start < 1.0 && says(&answer, "may not move at the start"));
    // The same tail hanging clear of the water holds nobody.
    let clear = Abseil { tail: Tail::Free, ..in_the_fall() }.solve().unwrap();
    assert!(found(&clear, "for the lightest to start").band.low() > 1.0 && says(&clear, "Even the lightest moves"));
}

#[test]
fn a_tail_in_the_fall_without_water_is_refused_rather_than_taken_as_dry() {
    let dry = Abseil { water: FallingWater::None, ..in_the_fall() };
    assert!(dry.solve().unwrap_err().to_string().contains("choose how much water falls"));
}

#[test]
fn more_water_drags_and_presses_more() {
    let waters = [FallingWater::None, FallingWater::Trickle, FallingWater::Shower, FallingWater::FullPipe];
    let cases = waters.map(|water| Abseil { water, ..in_the_fall() });
    for pair in cases.windows(2) {
        assert!(pair[0].dragged().unwrap().high() < pair[1].dragged().unwrap().high());
        assert!(pair[0].pressed().unwrap().high() < pair[1].pressed().unwrap().high());
    }
    assert_eq!(cases[0].spread().unwrap().map(|spread| spread.band), {
        Abseil::default().spread().unwrap().map(|spread| spread.band)
    });
}

#[test]
fn falling_water_comes_on_top_of_the_person_and_of_the_anchor() {
    let dry = Abseil::default().spread().unwrap();
    let wet = Abseil { water: FallingWater::Shower, ..Abseil::default() }.spread().unwrap();
    // By hand: 10 kg/s at √(2 · 9.80665 · 12) = 15.341 m/s press; at ∛(2 · 9.80665 · 0.01/(0.02 π 0.009)) = 7.0260 m/s
    // they drag ½ · 1000 · 0.02 · π · 0.009 · 12 · 7.0260² N at all of the rope.
    let (pressed, dragged) = (153.41, 167.49);
    assert_relative_eq!(wet[0].band.high(), dry[0].band.high() + pressed / 4.2, max_relative = 1e-5);
    for state in [4, 5, 6] {
        assert_relative_eq!(wet[state].band.high(), dry[state].band.high() + pressed + dragged, max_relative = 1e-5);
        assert_eq!(wet[state].band.low(), dry[state].band.low());
    }
    // At the lip nothing has fallen yet.
    assert_eq!(wet[9].band, dry[9].band);
}

#[test]
fn near_the_bottom_the_rope_may_hang_in_the_fall_wherever_its_tail_was() {
    let water = FallingWater::FullPipe;
    let of = |tail| Abseil { tail, water, height: Length::new::<metre>(60.0), ..Abseil::default() };
    // By hand: v = ∛(2 · 9.80665 · 0.1/(0.02 π 0.009)) = 15.137 m/s, less than √(9.80665 · 60); ½ · 1000 · 0.02 · π ·
    // 0.009 · 60 · v² = 3887.1 N.
    let in_fall = of(Tail::InFall).spread().unwrap();
    for tail in [Tail::Free, Tail::Floating, Tail::Carried] {
        let (beside, dry) = (of(tail), Abseil { water: FallingWater::None, ..of(tail) }.spread().unwrap());
        assert_relative_eq!(beside.dragged().unwrap().high(), 3887.1, max_relative = 1e-4);
        let spreads = beside.spread().unwrap();
        for state in [4, 5, 6, 7, 8] {
            assert_eq!(spreads[state].band.high(), in_fall[state].band.high(), "{tail:?} {state}");
            assert_eq!(
                spreads[state].band.low(),
                dry[state].band.low(),
                "it may hang beside the fall: {tail:?} {state}"
            );
        }
        // A tail beside the fall neither brakes by it nor brings it to a slip.
        for unmoved in [1, 2, 3, 9, 12] {
            assert_eq!(spreads[unmoved].band, dry[unmoved].band, "{tail:?} {unmoved}");
        }
    }
}

#[test]
fn each_force_of_the_water_in_a_step_is_worked_out_before_it() {
    for (slack, tail) in [(0.0, Tail::Carried), (0.5, Tail::Carried), (0.5, Tail::InFall)] {
        let abseil =
            Abseil { slack: Length::new::<metre>(slack), tail, water: FallingWater::Trickle, ..Abseil::default() };
        let working = abseil.solve().unwrap().working;
        let of = |symbol: &str| working.iter().find(|step| step.result.symbol == symbol).unwrap().result.band;
        let anchor = working.iter().find(|step| step.result.symbol == "F").unwrap();
        assert_eq!(anchor.given.iter().any(|given| given.symbol == "D"), slack == 0.0 || tail == Tail::InFall);
        for given in anchor.given.iter().filter(|given| ["P", "D"].contains(&given.symbol)) {
            assert_eq!(given.band, of(given.symbol), "{tail:?}");
        }
    }
}

#[test]
fn rope_that_floats_counts_only_where_it_hurts() {
    let of = |tail| Abseil { tail, ..Abseil::default() }.spread().unwrap();
    let [free, floating, carried] = [Tail::Free, Tail::Floating, Tail::Carried].map(of);
    // The hand cannot count on it, ...
    assert_eq!(floating[1].band, carried[1].band);
    assert!(free[1].band.high() < carried[1].band.high());
    // ... but it may hang from whoever is to start, and from the anchor.
    assert_eq!(floating[3].band, free[3].band);
    assert_eq!(floating[9].band, free[9].band);
    assert!(carried[9].band.high() < free[9].band.high());
    let answer = Abseil { tail: Tail::Carried, ..Abseil::default() }.solve().unwrap();
    assert!(answer.findings.iter().all(|finding| !finding.what.contains("lightest")));
}

#[test]
fn missing_friction_is_supplied_by_each_change_as_by_hand() {
    let abseil = Abseil { descender: Descender::Tube, ..Abseil::default() };
    let answer = abseil.solve().unwrap();
    // A tube on wet 9 mm holds at least 4 · 0.6 · 0.7 = 1.68 newtons for one of the hand.
    let needed = 117.0 * 9.80665 / 1.68;
    assert_relative_eq!(answer.findings[0].band.high(), needed, max_relative = 1e-9);
    let times = found(&answer, "times as much friction");
    assert_eq!(times.kind, Kind::Ratio);
    assert_relative_eq!(times.band.high(), needed / 50.0, max_relative = 1e-9);
    for (words, high) in [
        ("one more carabiner", needed / 1.2),
        // Two strands may add nothing.
        ("second strand", needed),
        // The figure-eight has 10 where the tube has 4.
        ("figure-eight descender", needed * 4.0 / 10.0),
    ] {
        assert_relative_eq!(found(&answer, words).band.high(), high, max_relative = 1e-9);
    }
    assert_eq!(found(&answer, "two such hands").band, Band::of(80.0, 160.0, 240.0));
    // The friendly ends: 58 + 5 + 5 kg, R 8 · 0.8 · 1.3, and a carabiner of 1.4.
    let least = 68.0 * 9.80665 / (8.0 * 0.8 * 1.3 * 1.4);
    assert_relative_eq!(found(&answer, "one more carabiner").band.low(), least, max_relative = 1e-9);
}

#[test]
fn a_change_leaves_what_the_changed_question_finds() {
    for descender in Descender::ALL {
        let abseil = Abseil { descender, water: FallingWater::Shower, ..Abseil::default() };
        let answer = abseil.solve().unwrap();
        let hand = |changed: Abseil| changed.solve().unwrap().findings[0].band;
        for (words, changed) in [
            ("one more carabiner", Abseil { extra_carabiner: Whether::Yes, ..abseil }),
            ("second strand", Abseil { strands: Strands::Two, ..abseil }),
        ] {
            let (one, other) = (found(&answer, words).band, hand(changed));
            assert_relative_eq!(one.low(), other.low(), max_relative = 1e-9);
            assert_relative_eq!(one.typical(), other.typical(), max_relative = 1e-9);
            assert_relative_eq!(one.high(), other.high(), max_relative = 1e-9);
        }
    }
}

#[test]
fn where_the_hand_holds_nothing_is_missing() {
    let mut abseil = Abseil { hand: HandState::BothTired, wet: Whether::No, ..Abseil::default() };
    abseil.diameter = Length::new::<millimetre>(11.0);
    abseil.people.body = Band::exact(crate::quantity::Mass::new::<crate::quantity::kilogram>(50.0));
    // At most 75 kg: 735.5 N over 10 is less than 80 N.
    let answer = abseil.solve().unwrap();
    assert!(answer.outcomes.is_empty() && !says(&answer, "short by a factor"));
}

#[test]
fn lowering_takes_the_weight_the_rope_and_the_friction_there() {
    let abseil = Abseil { release: Release::ItalianHitch, ..Abseil::default() };
    let answer = abseil.solve().unwrap();
    // By hand: 117 kg and 12 m of wet rope, 9.2306 N, over 8 · 0.6 · 0.7; polished rock, 70°, least friction 0.15.
    let hand = (117.0 * 9.80665 + 9.2306) / (8.0 * 0.6 * 0.7);
    assert_relative_eq!(found(&answer, "hand at the station").band.high(), hand, max_relative = 1e-5);
    let counted = hand * (-0.15 * 70_f64.to_radians()).exp();
    assert_relative_eq!(found(&answer, "same hand, edge counted").band.high(), counted, max_relative = 1e-5);
    // The lightest at the lip: 68 kg, most friction of the edge 0.40 and of the hitch 12 · 0.8 · 1.3.
    let least = 68.0 * 9.80665 / (12.0 * 0.8 * 1.3) * (-0.40 * 70_f64.to_radians()).exp();
    assert_relative_eq!(found(&answer, "by the lightest").band.low(), least, max_relative = 1e-5);
    assert!(says(&answer, "even the lightest draws"));
    let compared = answer.comparisons.iter().find(|compared| compared.what.contains("station")).unwrap();
    assert_ne!(compared.standing, Standing::BelowLimit);
    assert_eq!(compared.load, found(&answer, "hand at the station").band);
}

#[test]
fn a_rough_edge_may_keep_the_lightest_from_being_let_down() {
    let abseil = Abseil {
        release: Release::FigureEight,
        edge: Edge::RoughRock,
        edge_turn: Angle::new::<degree>(90.0),
        ..Abseil::default()
    };
    assert!(says(&abseil.solve().unwrap(), "may still not move"));
}

#[test]
fn whether_the_lightest_is_let_down_is_asked_at_the_lip_where_no_rope_helps_yet() {
    let at_a_rough_lip = |height, tail, water| Abseil {
        height: Length::new::<metre>(height),
        release: Release::ItalianHitch,
        edge: Edge::RoughRock,
        edge_turn: Angle::new::<degree>(120.0),
        tail,
        water,
        ..Abseil::default()
    };
    // By hand: 68 kg over 12 · 0.8 · 1.3, and the most friction of wet rough rock, 1.3 · 0.75, over 120°.
    let least = 68.0 * 9.80665 / (12.0 * 0.8 * 1.3) * (-1.3 * 0.75 * 120_f64.to_radians()).exp();
    for height in [3.0, 200.0] {
        for (tail, water) in [(Tail::Carried, FallingWater::None), (Tail::InFall, FallingWater::FullPipe)] {
            let answer = at_a_rough_lip(height, tail, water).solve().unwrap();
            assert_relative_eq!(found(&answer, "by the lightest").band.low(), least, max_relative = 1e-9);
            assert!(least < 10.0 && says(&answer, "may still not move"), "{height} m: {least}");
        }
    }
}

#[test]
fn a_rope_tied_off_is_said_to_let_nobody_down() {
    let answer = Abseil::default().solve().unwrap();
    assert!(says(&answer, "tied off: nobody at the station can let it out"));
    assert!(answer.findings.iter().all(|finding| !finding.what.contains("station")));
}

#[test]
fn every_back_up_says_what_it_does_in_falling_water() {
    for back_up in [BackUp::Below, BackUp::TopRope, BackUp::FrictionHitch] {
        let answer = Abseil { back_up, ..Abseil::default() }.solve().unwrap();
        assert!(says(&answer, "In falling water") || says(&answer, "in falling water"), "{back_up:?}");
        assert!(says(&answer, "can drown"), "{back_up:?}");
    }
    assert!(says(&Abseil::default().solve().unwrap(), "No back-up"));
}

#[test]
fn heat_stands_only_in_the_working() {
    let answer = Abseil::default().solve().unwrap();
    let heat = answer.working.last().unwrap();
    // By hand: half of 117 kg · 9.80665 · 12 m in 0.1 kg of aluminium.
    assert_relative_eq!(heat.result.band.high(), 0.5 * 117.0 * 9.80665 * 12.0 / 90.0, max_relative = 1e-9);
    assert!(answer.findings.iter().all(|finding| !finding.what.contains("heat")));
}

/// A rope from the anchor over a lip without friction to the person, at rest on the engine: pull on the anchor and
/// push on the lip (across, up), N.
fn over_the_lip(abseil: &Abseil, load: f64) -> [[f64; 2]; 2] {
    let mut rig = crate::statics::Rig::new();
    let [x, y] = abseil.scene(1.0, "").anchors[0];
    let anchor = rig.add_held("anchor", [x, 0.0, y]).unwrap();
    let lip = rig.add_held("lip", [0.0, 0.0, 0.0]).unwrap();
    let person = rig.add_free("person", [0.3, 0.0, -2.0], [0.0, 0.0, -load]).unwrap();
    let through = if abseil.edge == Edge::Free { vec![anchor, person] } else { vec![anchor, lip, person] };
    let stiffness = abseil.stiffness.typical().value * abseil.strand_count();
    rig.add_line("rope", &through, x.hypot(y) + 0.5 * abseil.height.value, stiffness).unwrap();
    let rest = super::super::rest::at_rest(&rig).unwrap();
    [anchor, lip].map(|point| {
        let reaction = rest.point(point).unwrap().reaction.unwrap_or_default();
        [reaction.x, reaction.z]
    })
}

#[test]
fn the_anchor_behind_a_lip_without_friction_gets_what_the_engine_finds() {
    for turn in [0.0, 20.0, 70.0, 90.0, 130.0] {
        for strands in [Strands::One, Strands::Two] {
            let abseil = Abseil { edge_turn: Angle::new::<degree>(turn), strands, ..Abseil::default() };
            let still = abseil.spread().unwrap()[4];
            let [body, kit, _, soaked, ..] = still.at_high;
            let load = abseil.people.weight_of_all(body, kit) + abseil.rope_weight(abseil.height, soaked).unwrap();
            let [anchor, lip] = over_the_lip(&abseil, load);
            assert_relative_eq!(anchor[0].hypot(anchor[1]), still.band.high(), max_relative = 1e-6);
            let scene = abseil.scene(still.band.high(), "");
            let drawn = scene.forces.iter().find(|arrow| arrow.name == "anchor").unwrap().pull;
            for axis in [0, 1] {
                assert!((anchor[axis] - drawn[axis]).abs() < 1e-4 * load, "{turn}: {anchor:?} {drawn:?}");
            }
            if let Some(pushed) = scene.polygon.iter().find(|arrow| arrow.name == "edge pushes") {
                for axis in [0, 1] {
                    assert!((lip[axis] + pushed.pull[axis]).abs() < 1e-4 * load, "{turn}: {lip:?} {pushed:?}");
                }
            }
        }
    }
}

#[test]
fn a_rope_that_hangs_free_brings_its_own_weight_to_the_anchor_on_the_engine() {
    let abseil = Abseil { edge: Edge::Free, ..Abseil::default() };
    let still = abseil.spread().unwrap()[4];
    let [body, kit, _, soaked, ..] = still.at_high;
    let (weight, height) = (abseil.people.weight_of_all(body, kit), abseil.height.value);
    let mut rig = crate::statics::Rig::new();
    let anchor = rig.add_held("anchor", [0.0, 0.0, 0.0]).unwrap();
    let person = rig.add_free("person", [0.0, 0.0, -height], [0.0, 0.0, -weight]).unwrap();
    let for_each_metre = abseil.rope_weight(Length::new::<metre>(1.0), soaked).unwrap();
    rig.add_heavy_line("rope", &[anchor, person], height, 30_000.0, for_each_metre).unwrap();
    let rest = super::super::rest::at_rest(&rig).unwrap();
    let pulled = rest.point(anchor).unwrap().reaction.unwrap_or_default();
    assert_relative_eq!(-pulled.z, still.band.high(), max_relative = 1e-9);
}

#[test]
fn friction_at_the_edge_makes_a_slip_harder_before_it_and_milder_behind_it() {
    // By hand, 3 m all behind the edge: r = e^(-0.40 · 70°) = 0.6134; W = 117 kg · g = 1147.4 N, EA 41 kN / r, f 1/6:
    // W + √(W² + 2 W EA f / r) = 6.32 kN, and the tail that hangs; behind the edge r of it.
    let abseil = Abseil { tail: Tail::Carried, ..Abseil::default() };
    let found = |words: &str, abseil: &Abseil| {
        let answer = abseil.solve().unwrap();
        answer.findings.into_iter().find(|finding| finding.what.contains(words)).map(|finding| finding.band)
    };
    let before = found("before the edge", &abseil).unwrap();
    let (weight, r) = (117.0 * 9.80665, (-0.40 * 70_f64.to_radians()).exp());
    let by_hand = weight + (weight * weight + 2.0 * weight * 41_000.0 / 6.0 / r).sqrt();
    assert_relative_eq!(before.high(), by_hand, max_relative = 1e-9);
    assert!((by_hand - 6320.0).abs() < 15.0, "{by_hand}");
    let bare = found("edge not counted", &abseil).unwrap();
    let behind = found("edge counted", &abseil).unwrap();
    assert!(before.high() > bare.high() && behind.high() <= bare.high() && before.low() >= bare.low());
    assert!(abseil.solve().unwrap().carried.unwrap().hung.high() >= before.high());
    assert_eq!(found("before the edge", &Abseil { edge: Edge::Free, ..abseil }), None);
}

#[test]
fn whether_someone_moves_is_a_matter_of_one_person() {
    let start = |count| {
        let mut abseil = Abseil { height: Length::new::<metre>(50.0), ..Abseil::default() };
        abseil.people.count = count;
        let answer = abseil.solve().unwrap();
        let ratio =
            answer.findings.into_iter().find(|finding| finding.what.contains("ratio for the lightest")).unwrap();
        (ratio.band.low(), answer.remarks.iter().any(|remark| remark.contains("under water")))
    };
    assert_eq!(start(1), start(4));
    assert!(start(4).0 < 1.0 && start(4).1);
}

#[test]
fn where_water_falls_nothing_is_dry() {
    let abseil = Abseil { wet: Whether::No, water: FallingWater::FullPipe, ..Abseil::default() };
    assert!(abseil.solve().unwrap_err().to_string().contains("choose wet"));
}

#[test]
fn a_figure_of_a_rope_is_set_beside_what_the_rope_carries_before_the_edge() {
    let mut abseil = Abseil::default();
    abseil.against.holds = super::super::Holds::KnownBolt;
    let limit = |name| super::super::LimitChoice::Published(crate::strength::Strength::named(name).unwrap());
    abseil.against.limit = limit("connector");
    let answer = abseil.solve().unwrap();
    let before = answer.findings.iter().find(|row| row.what.contains("before the edge")).unwrap().band.high();
    let compared = &answer.comparisons[0];
    assert!(compared.what.contains("in the rope") && compared.load.high() >= before, "{}", compared.what);
    abseil.against.limit = limit("bolt axial");
    let answer = abseil.solve().unwrap();
    assert!(answer.comparisons[0].what.contains("anchor") && answer.comparisons[0].load.high() < before);
}

#[test]
fn of_a_rope_thinner_than_any_that_friction_was_told_for_less_friction_is_said() {
    let thin = |millimetres| {
        let diameter = Length::new::<millimetre>(millimetres);
        let answer = Abseil { diameter, ..Abseil::default() }.solve().unwrap();
        answer.remarks.iter().any(|remark| remark.contains("thinner than 9 mm"))
    };
    assert!(thin(8.0) && thin(8.99) && !thin(9.0) && !thin(10.5));
}

#[test]
fn what_supplies_friction_is_not_there_already() {
    let supplies = |abseil: &Abseil| {
        let answer = abseil.solve().unwrap();
        let said = answer.remarks.iter().find(|remark| remark.contains("What supplies it")).unwrap();
        let sentence = said.split("What supplies it: ").nth(1).unwrap().split('.').next().unwrap().to_owned();
        (sentence, answer.outcomes.iter().any(|outcome| outcome.case.starts_with("More friction")))
    };
    let least = Abseil { people: People { count: 2, ..People::default() }, ..Abseil::default() };
    let (some, shown) = supplies(&least);
    assert!(shown && some.starts_with("one more carabiner, a second strand, a thicker rope, "), "{some}");
    let all = Abseil {
        hand: HandState::BothTired,
        strands: Strands::Two,
        extra_carabiner: Whether::Yes,
        diameter: Length::new::<millimetre>(11.0),
        ..least
    };
    let device =
        Descender::ALL.into_iter().find(|device| Abseil { descender: *device, ..all }.stronger_device().is_none());
    let (left, shown) = supplies(&Abseil { descender: device.unwrap(), ..all });
    assert_eq!((left.as_str(), shown), ("someone who brakes from below, or lowering from above", false));
}

/// The formula that is told gives the number that is told: on a slip all that hangs below falls too.
#[test]
fn the_working_of_a_slip_is_that_of_its_number() {
    let answer = Abseil { slack: Length::new::<metre>(0.5), ..Abseil::default() }.solve().unwrap();
    let step = answer.working.iter().find(|step| step.formula.contains("V = W + w")).unwrap();
    let given = |symbol: &str| step.given.iter().find(|given| given.symbol == symbol).unwrap().band.typical();
    let load = given("W") + given("w");
    let peak = load + (load * load + 2.0 * load * given("EA") * given("f")).sqrt();
    assert_relative_eq!(peak, step.result.band.typical(), max_relative = 1e-9);
}
