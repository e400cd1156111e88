//! The chain against products worked out by hand, what a change does to it, and what may never be said of it.

use super::super::answer::End;
use super::super::field::Takes;
use super::case::from_memory;
use super::*;
use crate::limit::Standing;
use crate::quantity::newton;
use approx::assert_relative_eq;

fn newtons(low: f64, high: f64) -> Band<Force> {
    Band::of(low, (low + high) / 2.0, high).map(Force::new::<newton>)
}

/// Known parts only, under forces taken from elsewhere.
fn known() -> WeakestPart {
    let mut question = WeakestPart {
        forces: Forces::Taken,
        anchor: newtons(500.0, 600.0),
        point: newtons(800.0, 900.0),
        rope: newtons(800.0, 900.0),
        ..WeakestPart::default()
    };
    question.parts[0] = part("bolt");
    question
}

#[test]
fn the_weakest_part_has_the_least_resistance_for_its_load() {
    let answer = known().solve().unwrap();
    // By hand: type B 18 kN, figure-eight 0.66, worn by abseils 0.55: 6.534 kN over 0.9 kN, the least of all.
    let weakest = &answer.findings[0];
    assert!(weakest.what.contains("low-stretch rope B") && weakest.end == End::Low, "{}", weakest.what);
    assert_relative_eq!(weakest.band.low(), 18_000.0 * 0.66 * 0.55, max_relative = 1e-12);
    let margins: Vec<f64> = answer
        .findings
        .iter()
        .filter(|finding| finding.kind == Kind::Ratio)
        .map(|finding| finding.band.low())
        .collect();
    assert_eq!(margins.len(), 7);
    assert_relative_eq!(margins.iter().copied().fold(f64::INFINITY, f64::min), 6534.0 / 900.0, max_relative = 1e-12);
}

#[test]
fn two_strands_say_on_what_they_count_twice() {
    let told = |loading: &str| {
        let mut question = known();
        question.parts[5].loading = named(LOADINGS, loading, |loading| loading.name);
        question.solve().unwrap().remarks.iter().any(|remark| remark.contains("twice only if both pull alike"))
    };
    assert!(told("two strands") && !told("straight"));
}

#[test]
fn another_knot_makes_another_part_the_weakest() {
    let mut question = known();
    question.anchor = newtons(3000.0, 4000.0);
    question.parts[2] = Slot { knot: named(KNOTS, "overhand sling", |knot| knot.name), ..part("sling HMPE") };
    // By hand: 22 kN × 0.46 = 10.12 kN over 4 kN is 2.5; the rope's 6.5 over 0.9 is 7.3.
    let answer = question.solve().unwrap();
    assert!(answer.findings[0].what.contains("sewn sling, HMPE"), "{}", answer.findings[0].what);
    assert_relative_eq!(answer.findings[0].band.low(), 10_120.0, max_relative = 1e-12);
    question.parts[2].knot = named(KNOTS, "none", |knot| knot.name);
    // Without it the bolt is: its range of directions begins at 60° from straight out.
    assert!(!question.solve().unwrap().findings[0].what.contains("sewn sling"));
    // What the change would do was told beforehand.
    let other = &answer.outcomes[0];
    let sewn = other.findings.iter().find(|finding| finding.what.starts_with("no knot")).unwrap();
    assert_eq!(sewn.band.low(), 22_000.0);
    assert!(other.findings.iter().all(|finding| !finding.what.contains("munter") && !finding.what.contains("water")));
    // A join is no other knot for the end of a rope.
    let outcomes = known().solve().unwrap().outcomes;
    let knots = outcomes.iter().find(|outcome| outcome.case.contains("another knot")).unwrap();
    assert!(knots.findings.iter().any(|finding| finding.what.contains("bowline")));
    assert!(knots.findings.iter().all(|finding| !finding.what.contains("join") && !finding.what.contains("water")));
}

#[test]
fn one_part_that_nobody_knows_keeps_the_whole_from_being_below_a_limit() {
    let standing = |question: &WeakestPart| question.solve().unwrap().comparisons[0].standing;
    assert_eq!(standing(&known()), Standing::BelowLimit);
    for name in ["bolt found", "natural", "people", "unseen", "ring found", "soft found", "rope dynamic"] {
        for place in 0..PLACES {
            let mut question = known();
            question.parts[place] = part(name);
            assert!(matches!(standing(&question), Standing::NotChecked(_)), "{name} {place}");
        }
    }
    // But what is too much stays too much.
    let mut question = known();
    question.parts[0] = part("natural");
    question.rope = newtons(30_000.0, 31_000.0);
    assert_eq!(standing(&question), Standing::AboveLimit);
}

#[test]
fn every_part_carries_what_its_place_gets() {
    let question = WeakestPart {
        forces: Forces::People,
        meets: RopeMeets::HeldBelow,
        share: Band::of(0.5, 0.6, 0.8).map(Ratio::new::<ratio>),
        state: State::Still,
        ..WeakestPart::default()
    };
    let [anchor, point, rope] = question.forces().unwrap();
    // The heaviest: 92 + 20 + 5 kg; on the other strand up to e^(μπ) of it, μ of a wet ring 1.3 times 0.30.
    let raised = (0.39 * std::f64::consts::PI).exp();
    assert_relative_eq!(rope.high(), 117.0 * 9.80665, max_relative = 1e-12);
    assert_relative_eq!(point.high(), (1.0 + raised) * rope.high(), max_relative = 1e-12);
    assert_relative_eq!(point.low(), (1.0 + 1.0 / raised) * rope.low(), max_relative = 1e-12);
    assert_relative_eq!(anchor.high(), 0.8 * point.high());
    assert_relative_eq!(anchor.low(), 0.5 * point.low());
    let chain = question.chain().unwrap();
    let loads: Vec<f64> = chain.links.iter().map(|link| link.load.high()).collect();
    // The rope and what is on it are pulled as hard as its other strand; the harness carries who hangs there.
    let pulled = raised * rope.high();
    let expected = [anchor.high(), anchor.high(), anchor.high(), point.high(), pulled, pulled, rope.high()];
    for (load, expected) in loads.into_iter().zip(expected) {
        assert_relative_eq!(load, expected, max_relative = 1e-12);
    }
    // What is said of it in words is that number.
    let said = format!("up to {raised:.1} times the load, the ring {:.1}:", 1.0 + raised);
    assert!(question.solve().unwrap().remarks.iter().any(|remark| remark.contains(&said)), "{said}");
    // Of three on the rope each hangs in a harness of their own.
    let three = WeakestPart { people: People { count: 3, ..question.people }, ..question };
    let chain = three.chain().unwrap();
    let [.., connector, harness] = chain.links.as_slice() else { panic!() };
    assert_relative_eq!(harness.load.high(), connector.load.high() / (3.0 * raised), max_relative = 1e-12);
}

#[test]
fn a_rule_for_people_at_work_counts_only_with_its_own_load() {
    let with =
        |name: &str| WeakestPart { factor: named(FACTORS, name, |factor| factor.name), ..WeakestPart::default() };
    // Rope access: 6 kN for each person, whatever they do. OSHA: 1,800 lbf = 8.007 kN.
    let [.., rope] = with("2.5 rope access").forces().unwrap();
    assert_eq!((rope.low(), rope.high()), (6000.0, 6000.0));
    let [.., rope] = with("2 designed").forces().unwrap();
    assert_relative_eq!(rope.high(), 8006.8, max_relative = 1e-4);
    // Ten times the weight hanging still, not of a slip.
    let [.., rope] = with("10 system").forces().unwrap();
    assert_relative_eq!(rope.high(), 117.0 * 9.80665, max_relative = 1e-12);
    // The load named is on each anchor, however many share; and the rules speak of anchors, or of rope, only.
    let [anchor, point, _] = with("2 designed").forces().unwrap();
    assert_eq!((anchor, point), (point, anchor));
    for (name, place) in [("2 designed", 5), ("2.5 rope access", 7), ("5 rescue", 6), ("15 fire", 1), ("15 fire", 7)] {
        let chain = with(name).chain().unwrap();
        let link = chain.links.iter().find(|link| link.place == place).unwrap();
        assert!(
            matches!(link.standing, Standing::NotChecked(why) if why.contains("rule")),
            "{name} {:?}",
            link.standing
        );
        assert_eq!(link.factor, None);
    }
    let asked = |question: &WeakestPart| {
        let fields = WeakestPart::fields();
        (fields.iter().find(|field| field.about.name == "state").unwrap().asked)(question)
    };
    assert!(asked(&with("5 fibre rope")) && !asked(&with("10 system")) && !asked(&with("2 designed")));
    let taken = WeakestPart { forces: Forces::Taken, ..with("10 system") };
    assert!(taken.solve().unwrap_err().to_string().contains("design factor"));
    let own = WeakestPart { whose: Whose::Own, ..taken };
    assert!(own.solve().is_ok());
}

#[test]
fn a_higher_factor_a_worse_knot_or_more_load_never_helps() {
    let margin = |question: &WeakestPart| {
        let answer = question.solve().unwrap();
        answer
            .comparisons
            .iter()
            .map(|compared| compared.limit.as_ref().map_or(f64::MAX, |limit| limit.band.low() / compared.load.high()))
            .fold(f64::MAX, f64::min)
    };
    let usual = margin(&known());
    let factor = WeakestPart { whose: Whose::Own, own_factor: Ratio::new::<ratio>(6.0), ..known() };
    assert!(margin(&factor) < usual);
    let mut worse = known();
    worse.parts[5].knot = named(KNOTS, "bowline", |knot| knot.name);
    assert!(margin(&worse) < usual);
    let heavy = WeakestPart { rope: newtons(1000.0, 1100.0), ..known() };
    assert!(margin(&heavy) < usual);
}

#[test]
fn what_the_trade_excludes_is_refused_and_named_with_its_place() {
    let mut question = known();
    question.parts[5].knot = named(KNOTS, "offset eight", |knot| knot.name);
    let error = question.solve().unwrap_err().to_string();
    assert!(error.contains("in the rope (1)") && error.contains("capsizes"), "{error}");
    // What is not asked of a part does not count: a knot left over from a sling.
    let mut question = known();
    question.parts[6] = Slot { knot: named(KNOTS, "munter", |knot| knot.name), ..part("connector") };
    assert!(question.solve().is_ok());
    // But its condition does: hardware that was found is not checked, whatever is printed on it.
    let mut question = known();
    question.parts[6].condition = named(CONDITIONS, "found", |condition| condition.name);
    assert!(matches!(question.solve().unwrap().comparisons[0].standing, Standing::NotChecked(_)));
    // One figure cannot be printed on two parts.
    question.parts[6] = part("stated");
    assert!(question.solve().is_ok());
    question.parts[3] = part("stated");
    assert!(question.solve().unwrap_err().to_string().contains("second part"));
    question.parts = [part("none"); PLACES];
    assert!(question.solve().unwrap_err().to_string().contains("number of parts"));
}

#[test]
fn a_block_is_measured_against_the_ring_or_said_not_to_be() {
    let said = |block: f64, ring: f64| {
        let question = WeakestPart { block: Length::new::<metre>(block), ring: Length::new::<metre>(ring), ..known() };
        question.solve().unwrap().remarks.remove(0)
    };
    assert!(said(0.0, 0.04).contains("not measured") && said(0.05, 0.0).contains("not measured"));
    assert!(said(0.05, 0.04).contains("50.0 mm against 40.0 mm, larger"));
    assert!(said(0.0404, 0.04).contains("40.4 mm against 40.0 mm, so near"));
    assert!(said(0.04, 0.04).contains("can pull through"));
}

#[test]
fn forces_of_another_question_come_with_what_holds_them() {
    use super::super::against::Holds;
    use super::super::carried::HeldBy;
    let force = Band::of(1000.0, 2000.0, 3000.0);
    let anchor = Band::of(4000.0, 5000.0, 6000.0);
    let carried = Carried { anchor, point: anchor, ..Carried::by_rope(force, 1, HeldBy::Said(Holds::KnownBolt)) };
    let question = WeakestPart::carrying(&carried);
    assert_eq!(question.forces().unwrap(), [anchor, anchor, force]);
    // A known bolt, but nobody said which way it is pulled: straight out is not left out.
    assert_eq!((question.parts[0].item.name, question.pull.low().value), ("bolt", 0.0));
    for (held, item) in [
        (HeldBy::Proud, "bolt found"),
        (HeldBy::Edge, "natural"),
        (HeldBy::People, "people"),
        (HeldBy::Said(Holds::Natural), "natural"),
        (HeldBy::Said(Holds::Unseen), "unseen"),
    ] {
        let question = WeakestPart::carrying(&Carried { held, ..carried });
        assert_eq!(question.parts[0].item.name, item);
        assert!(matches!(
            question.solve().unwrap().comparisons[0].standing,
            Standing::NotChecked(_) | Standing::AboveLimit | Standing::RangeCrosses
        ));
    }
    // A cow's tail takes the harness out of the line.
    let line = WeakestPart::carrying(&Carried { on: HangOn::Line, ..carried });
    assert!(line.parts.iter().all(|slot| slot.item.name != "harness"));
}

#[test]
fn every_number_can_be_followed_to_a_source() {
    let answer = known().solve().unwrap();
    let step = |words: &str| answer.working.iter().find(|step| step.what.contains(words)).unwrap();
    assert!(step("figure-eight").source.place.contains("ENSA") && from_memory(&step("figure-eight").source));
    assert!(answer.remarks.iter().any(|remark| remark.contains("from memory")));
    assert!(step("worn by").source.place.contains("knot takes its share"));
    assert!(step("Resistance").source.place.contains("EN 1891"));
    assert!(step("Limit of the weakest").source.place.contains("Cordage Institute"));
    assert_relative_eq!(step("Limit of the weakest").result.band.low(), 6534.0 / 5.0, max_relative = 1e-12);
}

#[test]
fn what_was_not_entered_is_not_below_a_limit() {
    let standing = |question: &WeakestPart| question.solve().unwrap().comparisons[0].standing;
    let without = |places: &[usize]| {
        let mut question = known();
        for place in places {
            question.parts[*place] = part("none");
        }
        standing(&question)
    };
    assert_eq!(without(&[]), Standing::BelowLimit);
    assert!(matches!(without(&[0, 1, 2]), Standing::NotChecked(why) if why.contains("anchor")));
    assert!(matches!(without(&[5, 6, 7]), Standing::NotChecked(why) if why.contains("rope")));
}

#[test]
fn a_factor_blesses_only_what_it_is_meant_for() {
    let with = |name: &str, forces| WeakestPart {
        factor: named(FACTORS, name, |factor| factor.name),
        forces,
        rope: newtons(10.0, 11.0),
        point: newtons(10.0, 11.0),
        anchor: newtons(10.0, 11.0),
        ..known()
    };
    let standings = |question: &WeakestPart| -> Vec<Standing> {
        question.chain().unwrap().links.iter().map(|link| link.standing).collect()
    };
    // A factor for mooring lines says nothing of people; what is too much stays too much.
    let mooring = standings(&with("3 mooring", Forces::Taken));
    assert!(mooring.iter().all(|standing| matches!(standing, Standing::NotChecked(_))), "{mooring:?}");
    let mut heavy = with("3 mooring", Forces::Taken);
    heavy.rope = newtons(40_000.0, 41_000.0);
    assert!(standings(&heavy).contains(&Standing::AboveLimit));
    // A rule that names its load is outdone by people who slip harder: 250 kg and 8 kN.
    let mut outdone = with("2 designed", Forces::People);
    outdone.pull = Band::exact(Angle::new::<degree>(90.0));
    outdone.share = Band::exact(Ratio::new::<ratio>(1.0));
    assert!(standings(&outdone).contains(&Standing::BelowLimit), "{:?}", standings(&outdone));
    outdone.people.body = Band::exact(crate::quantity::Mass::new::<crate::quantity::kilogram>(160.0));
    outdone.people.kit = Band::exact(crate::quantity::Mass::new::<crate::quantity::kilogram>(60.0));
    assert!(!standings(&outdone).contains(&Standing::BelowLimit), "{:?}", standings(&outdone));
}

#[test]
fn held_from_below_two_strands_do_not_halve_the_force() {
    let mut question = WeakestPart { meets: RopeMeets::HeldBelow, ..WeakestPart::default() };
    question.parts[5].loading = named(LOADINGS, "two strands", |loading| loading.name);
    assert!(question.solve().unwrap_err().to_string().contains("each strand has all"));
    question.meets = RopeMeets::Ends;
    assert!(question.solve().is_ok());
}

#[test]
fn the_state_stands_beside_what_decides() {
    let question = WeakestPart { state: State::Still, ..WeakestPart::default() };
    assert!(question.solve().unwrap().comparisons[0].what.contains("hanging still"));
}

#[test]
fn a_whole_that_is_not_checked_still_names_a_part_and_its_load() {
    let mut question = known();
    for place in 0..3 {
        question.parts[place] = part("none");
    }
    let whole = question.solve().unwrap().comparisons.remove(0);
    assert!(whole.what.contains("in the rope (1)") && whole.load.high() > 0.0, "{}", whole.what);
}

#[test]
fn a_basket_does_not_double_a_rope_held_from_below_and_each_part_stands_where_it_can() {
    let mut below = WeakestPart { meets: RopeMeets::HeldBelow, ..WeakestPart::default() };
    assert!(below.solve().is_ok());
    for loading in ["two strands", "basket 60", "basket 90"] {
        below.parts[5].loading = named(LOADINGS, loading, |loading| loading.name);
        assert!(
            matches!(below.solve(), Err(BadInput::Refused { why, .. }) if why.contains("choose straight")),
            "{loading}"
        );
    }
    for (place, name) in [(3, "bolt"), (5, "bolt"), (0, "harness"), (4, "harness")] {
        let mut chain = WeakestPart::default();
        chain.parts[place] = part(name);
        assert!(
            matches!(chain.solve(), Err(BadInput::Refused { why, .. }) if why.contains("enter it there")),
            "{name}"
        );
    }
    // Of six anchors one gets a sixth at least.
    let fields = WeakestPart::fields();
    let share = fields.iter().find(|field| field.about.name == "share").unwrap().about.takes;
    assert!(matches!(share, Takes::Range { least, .. } if least > 0.16 && least <= 1.0 / 6.0), "{share:?}");
}

#[test]
fn a_part_loaded_as_no_figure_holds_for_is_not_checked_and_asked_about() {
    let asked = |question: &WeakestPart| {
        let fields = WeakestPart::fields();
        (fields.iter().find(|field| field.about.name == "anchor_1_loaded").unwrap().asked)(question)
    };
    let with = |item: &str, loading: &str| {
        let mut question = known();
        question.parts[0] = Slot { loading: named(LOADINGS, loading, |loading| loading.name), ..part(item) };
        question
    };
    for item in ["stated", "bolt", "pulley", "descender", "rope clamp"] {
        assert_eq!(with(item, "straight").solve().unwrap().comparisons[1].standing, Standing::BelowLimit, "{item}");
        assert!(!asked(&with(item, "straight")), "{item}");
        for loading in LOADINGS.iter().skip(1).map(|loading| loading.name) {
            let question = with(item, loading);
            // Not refused: a page may still hold what was entered for another part, and shows the field again.
            let rows = question.solve().unwrap().comparisons;
            for row in &rows[..2] {
                assert!(
                    matches!(row.standing, Standing::NotChecked(why) if why.contains("loaded")),
                    "{item} {loading}"
                );
            }
            assert!(asked(&question), "{item} {loading}");
            // What is too much for it loaded straight is too much: none of them holds 1 MN.
            let heavy = WeakestPart { anchor: newtons(1e6, 1e6), ..question };
            assert_eq!(heavy.solve().unwrap().comparisons[1].standing, Standing::AboveLimit, "{item} {loading}");
        }
    }
    // Where nothing is, or nobody knows what it holds, it says nothing.
    for item in ["none", "natural"] {
        assert!(!asked(&with(item, "edge")), "{item}");
        assert_eq!(with(item, "edge").solve(), with(item, "straight").solve(), "{item}");
    }
}
