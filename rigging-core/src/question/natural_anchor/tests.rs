use super::super::answer::End;
use super::super::{Entry, Question, WeakestPart};
use super::*;
use crate::quantity::{Force, kilonewton};
use approx::assert_relative_eq;
use std::f64::consts::PI;

fn metres(value: f64) -> Length {
    Length::new::<metre>(value)
}
fn girth_of(diameter: f64) -> Band<Length> {
    Band::exact(metres(PI * diameter))
}
/// A part of a kind, pulled level.
fn level(kind: Natural) -> NaturalAnchor {
    NaturalAnchor { kind, down: metres(0.0), ..NaturalAnchor::default() }
}
fn tree(diameter: f64) -> NaturalAnchor {
    let tree_height = Band::exact(metres(1.0 + 65.0 * diameter));
    NaturalAnchor { girth: girth_of(diameter), stands: Rooted::Wet, tree_height, ..level(Natural::Tree) }
}
fn block() -> NaturalAnchor {
    NaturalAnchor { long: metres(1.0), wide: metres(1.0), high: metres(1.0), ..level(Natural::Block) }
}
fn at_most(anchor: &NaturalAnchor) -> Band {
    let answer = anchor.solve().unwrap();
    let first = &answer.findings[0];
    assert!(first.at_most && first.end == End::Low, "{first:?}");
    first.band
}
fn standings(anchor: &NaturalAnchor) -> Vec<&'static str> {
    anchor.solve().unwrap().comparisons.iter().map(|row| row.standing.words()).collect()
}
fn says(anchor: &NaturalAnchor, words: &str) -> bool {
    anchor.solve().unwrap().remarks.iter().any(|remark| remark.contains(words))
}

#[test]
fn a_tree_that_stands_in_wet_ground_is_that_of_the_check_values() {
    // Row N1: × 0.58, the sling counted at 1 m; on a ledge × 0.3 of it, here × 0.25 at the low end.
    for (diameter, kilonewtons) in [(0.10, 1.8), (0.15, 5.4), (0.20, 11.9), (0.30, 36.0)] {
        let low = at_most(&tree(diameter)).low();
        assert_relative_eq!(low, kilonewtons * 1e3, max_relative = 0.02);
        let ledge = at_most(&NaturalAnchor { stands: Rooted::Thin, ..tree(diameter) });
        assert_relative_eq!(ledge.low(), 0.25 * low, max_relative = 1e-9);
    }
    // By hand: a lucky tree is held back by its stem, 0.67 × π/32 × 0.9 × 36 N/mm² × (0.3 m)³.
    assert_relative_eq!(at_most(&tree(0.3)).high(), 57_542.0, max_relative = 1e-3);
}

#[test]
fn a_block_of_a_metre_is_that_of_the_check_values() {
    // Row N2, with 0.45 to 0.65 of its box and 2500 to 2700 kg/m³ about it.
    let band = at_most(&block());
    assert_relative_eq!(band.typical(), 5.3e3, max_relative = 0.01);
    assert_relative_eq!(band.low(), 0.25 * 0.45 * 2500.0 * 9.80665, max_relative = 1e-12);
    assert_relative_eq!(band.high(), 0.60 * 0.65 * 2700.0 * 9.80665, max_relative = 1e-12);
}

#[test]
fn logs_and_buried_faces_are_those_of_the_check_values() {
    // Row N3.
    let log = NaturalAnchor { girth: girth_of(0.15), long: metres(3.0), wide: metres(2.0), ..level(Natural::Log) };
    let band = at_most(&log);
    assert_relative_eq!(band.low(), 10e3, max_relative = 0.02);
    assert_relative_eq!(band.high(), 23e3, max_relative = 0.02);
    // Row N4, its typical ground, the face reaching the surface.
    for (deep, kilonewtons) in [(0.50, 3.0), (0.575, 4.0)] {
        let face = NaturalAnchor { girth: girth_of(deep), ..face(deep) };
        assert_relative_eq!(at_most(&face).typical(), kilonewtons * 1e3, max_relative = 0.02);
        assert!(says(&face, "Not checked by the military table"));
    }
}

/// A face 0.8 m wide in gravel, pulled level.
fn face(deep: f64) -> NaturalAnchor {
    NaturalAnchor { wide: metres(0.8), high: metres(deep), ..level(Natural::Buried) }
}

#[test]
fn only_the_ground_before_a_face_is_counted_and_not_that_above_it() {
    // By strips: the pressure is 3 × 10 kN/m³ × depth, on the face from 0.3 to 0.5 m.
    let thick = NaturalAnchor { girth: girth_of(0.2), ..face(0.5) };
    let strips: f64 = (0..1000).map(|strip| 3.0 * 10e3 * (0.3 + 0.2 * (f64::from(strip) + 0.5) / 1e3)).sum();
    assert_relative_eq!(at_most(&thick).typical(), strips / 1e3 * 0.2 * 0.8, max_relative = 1e-9);
    // A log that stands out of the ground is held by no more than what is buried of it.
    let whole = |thick| at_most(&NaturalAnchor { girth: girth_of(thick), ..face(0.5) });
    assert_eq!(whole(0.5), whole(0.8));
}

#[test]
fn a_face_that_a_pull_may_lift_has_a_figure_only_where_the_table_tested_it() {
    let rising = NaturalAnchor { out: metres(2.0), down: metres(-1.0), ..face(0.6) };
    assert!(says(&rising, "the pull rises"));
    // It does no more than pulled level: what is too much for that is too much, and nothing is below a limit.
    let level = NaturalAnchor { down: metres(0.0), ..rising };
    assert_eq!(standings(&rising), standings(&level));
    assert_eq!(standings(&level), ["range crosses limit", "not checked"]);
    let shallow = |down: f64| standings(&NaturalAnchor { out: metres(2.0), down: metres(down), ..face(0.2) });
    assert_eq!([shallow(0.0), shallow(-0.01), shallow(-1.0)], [["above limit"; 2]; 3]);
    assert!(says(&NaturalAnchor { out: metres(10.0), ..rising }, "the pull rises"));
    let deep = NaturalAnchor { high: metres(1.2), ground: Ground::Loam, ..rising };
    assert!(at_most(&deep).low() > 0.0);
    assert!(says(&NaturalAnchor { ground: Ground::Gravel, ..deep }, "the pull rises"));
}

#[test]
fn a_deep_face_in_loam_is_told_by_both_bounds_the_lower_first() {
    let face = NaturalAnchor {
        ground: Ground::Loam,
        out: metres(1.5),
        down: metres(-1.0),
        girth: girth_of(0.2),
        wide: metres(0.8),
        high: metres(1.1),
        ..level(Natural::Buried)
    };
    let answer = face.solve().unwrap();
    let each: Vec<_> = answer.findings.iter().filter(|finding| finding.at_most).collect();
    assert_eq!(each.len(), 3);
    // By hand: 53.5 kN/m² on 0.2 × 0.8 m; ½ × 3 × 10 kN/m³ × (1.1² − 0.9²) × 0.8 m.
    assert!(each[1].what.contains("wedge") && each[2].what.contains("table"));
    assert_relative_eq!(each[1].band.typical(), 4.8e3, max_relative = 1e-9);
    assert_relative_eq!(each[2].band.typical(), 53.5e3 * 0.16, max_relative = 1e-9);
    assert_relative_eq!(answer.findings[0].band.low(), each[1].band.low(), max_relative = 1e-12);
    // What is surely too much is more than either of them.
    let limit = answer.comparisons[0].limit.as_ref().unwrap().band;
    assert_eq!((limit.low(), limit.high()), (each[1].band.low(), each[2].band.high()));
    // In wet sand the table gives half, 4.28 kN, and the wedge at 1.5 m at least 4.97 kN: then the table comes first.
    let sand = NaturalAnchor { ground: Ground::Sand, high: metres(1.5), ..face }.solve().unwrap();
    let each: Vec<_> = sand.findings.iter().filter(|finding| finding.at_most).collect();
    assert!(each[1].what.contains("table") && each[2].what.contains("wedge"));
    for (answer, first, other) in [(&answer, "wedge", "table"), (&sand, "table", "wedge")] {
        let place = |word| answer.working.iter().position(|step| step.what.contains(word)).unwrap();
        assert!(place(first) < place(other));
    }
    assert_eq!(NaturalAnchor { down: metres(1.0), ..face }.table_run(), None);
    assert_eq!(NaturalAnchor { high: metres(1.0), ..face }.table_run(), None);
}

#[test]
fn what_is_refused_is_refused_by_name_and_has_no_figure() {
    let dead = |stands| NaturalAnchor { stands, ..tree(0.3) };
    for (anchor, name) in [
        (dead(Rooted::Dead), "dead tree"),
        (dead(Rooted::Rotten), "rotten tree"),
        (NaturalAnchor { tree_kind: TreeKind::Other, ..tree(0.3) }, "another kind"),
        (tree(0.7), "thicker"),
        (NaturalAnchor { down: metres(10.0), ..tree(0.3) }, "more steeply than any"),
        (NaturalAnchor { down: metres(-10.0), ..tree(0.3) }, "more steeply than any"),
        (level(Natural::Chockstone), "only the direction in which it could hold"),
        (NaturalAnchor { down: metres(10.0), ..level(Natural::Buried) }, "more steeply than its check"),
    ] {
        let answer = anchor.solve().unwrap();
        assert!(answer.findings.iter().all(|finding| !finding.at_most), "{name}");
        assert!(answer.findings[0].what.contains("slips"), "{name}");
        for row in &answer.comparisons {
            assert!(matches!(row.standing, Standing::NotChecked(reason) if reason.contains(name)), "{name}: {row:?}");
        }
        assert!(says(&anchor, name), "{name}");
    }
}

#[test]
fn a_steep_pull_at_its_face_tips_a_block_back_before_it_lifts() {
    // By hand, moments about the rear edge: half its weight at half a metre, the rope a metre and 0.1 m from it.
    let steep = NaturalAnchor { out: metres(1.0), down: metres(-3.0), sling: metres(0.1), ..block() };
    let angle = 3.0_f64.atan();
    let answer = steep.solve().unwrap();
    let tips = answer.findings.iter().find(|finding| finding.what.contains("tips back")).unwrap();
    let weight = 0.45 * 2500.0 * 9.80665;
    // On a foot of 0.6 m in its middle: 0.3 m to its centre, 0.8 m from the face to the rear edge.
    assert_relative_eq!(tips.band.low(), 0.3 * weight / (0.8 * angle.sin() - 0.1 * angle.cos()), max_relative = 1e-9);
    assert!(at_most(&steep).high() < 0.65 * 2700.0 * 9.80665 / angle.sin());
}

#[test]
fn what_nothing_holds_is_a_no() {
    let stone = |seating| NaturalAnchor { seating, ..level(Natural::Chockstone) };
    assert_eq!(standings(&stone(Seating::Into)), ["not checked"; 2]);
    for (none, words) in [
        (stone(Seating::Out), "No: chockstone: the pull draws it out"),
        (stone(Seating::Along), "No: chockstone: nothing presses it"),
        (NaturalAnchor { shape: Shape::Round, ..block() }, "No: round block: it rolls"),
        (NaturalAnchor { stands: Rooted::Loose, ..tree(0.3) }, "No: loose tree"),
    ] {
        assert_eq!(standings(&none), ["above limit"; 2], "{words}");
        assert!(says(&none, words), "{words}");
    }
}

#[test]
fn a_log_that_lies_loose_is_said_to_roll_and_one_pulled_up_to_be_held_by_rock_above_it_alone() {
    let log = |seating, down| NaturalAnchor { seating, down: metres(down), ..level(Natural::Log) };
    let told =
        |anchor: &NaturalAnchor| [says(anchor, "rolls before it slides"), says(anchor, "only where rock lies above")];
    assert_eq!(told(&log(Seating::Along, 0.3)), [true, false]);
    assert_eq!(told(&log(Seating::Out, -0.3)), [true, false]);
    assert_eq!(told(&log(Seating::Into, 0.3)), [false, false]);
    assert_eq!(told(&log(Seating::Into, -0.3)), [false, true]);
}

#[test]
fn what_is_too_much_for_a_living_tree_is_too_much_for_a_dead_one() {
    let mut standing = Vec::new();
    for diameter in [0.06, 0.08, 0.10, 0.12, 0.3] {
        for stands in [Rooted::Dead, Rooted::Rotten] {
            let dead = NaturalAnchor { stands, ..tree(diameter) };
            standing.push(standings(&dead)[0]);
            assert!(dead.solve().unwrap().findings.iter().all(|finding| !finding.at_most));
            let living = at_most(&NaturalAnchor { stands: Rooted::Deep, ..tree(diameter) });
            let thin = at_most(&NaturalAnchor { stands: Rooted::Thin, ..tree(diameter) });
            for row in dead.solve().unwrap().comparisons {
                assert_eq!(row.standing == Standing::AboveLimit, row.load.low() > living.high());
                // In the poorest soil a living one may hold as little.
                assert_eq!(matches!(row.standing, Standing::NotChecked(_)), row.load.high() < thin.low());
            }
            assert_eq!(says(&dead, "living tree"), standings(&dead)[0] == "above limit");
        }
    }
    assert_eq!((standing[0], standing[9]), ("above limit", "not checked"));
    // What a girth that is hardly known may leave is counted at its most.
    let girth = Band::of(0.06 * PI, 0.1 * PI, 0.3 * PI).map(metres);
    assert_eq!(standings(&NaturalAnchor { girth, stands: Rooted::Dead, ..tree(0.3) }), ["range crosses limit"; 2]);
}

#[test]
fn a_steep_pull_is_credited_to_a_tree_with_no_more_than_a_level_one() {
    let straight = at_most(&tree(0.2));
    for down in [-4.0, -1.0, 1.0, 4.0] {
        let steep = NaturalAnchor { down: metres(down), ..tree(0.2) };
        assert_eq!(at_most(&steep), straight);
        assert!(says(&steep, "no more than a level one"));
    }
}

#[test]
fn a_tree_that_was_not_measured_may_be_stunted() {
    let unmeasured = NaturalAnchor { tree_height: Band::exact(metres(0.0)), ..tree(0.2) };
    let stunted = NaturalAnchor { tree_height: Band::exact(metres(0.3 * 14.0)), ..tree(0.2) };
    assert_relative_eq!(at_most(&unmeasured).low(), at_most(&stunted).low(), max_relative = 1e-12);
}

#[test]
fn a_block_that_has_a_limit_at_its_low_end_has_a_figure() {
    let metres_of = [0.5, 0.4, 0.4].map(metres);
    let [long, wide, high] = metres_of;
    let (contact, sling, down) = (Contact::CleanRock, metres(0.0), metres(2.15));
    let steep = NaturalAnchor { long, wide, high, contact, sling, out: metres(1.0), down, ..block() };
    // By hand at μ 0.35: 0.45 × 2500 kg/m³ × 0.08 m³ × g = 882.6 N; × 0.35 / (cos 65.06° − 0.35 sin 65.06°).
    let slides = steep.solve().unwrap().findings.into_iter().find(|finding| finding.what.contains("slides")).unwrap();
    assert_relative_eq!(slides.band.low(), 2957.0, max_relative = 1e-3);
    // Pulled down at its face, it topples over a foot of 0.3 m before that: 0.15 m behind the edge, 0.1 m before it.
    assert_relative_eq!(
        at_most(&steep).low(),
        882.6 * 0.15 / (0.1 * 65.06_f64.to_radians().sin()),
        max_relative = 1e-3
    );
    assert_eq!(at_most(&steep).high(), WITHOUT_LIMIT);
    assert!(says(&steep, "go by the low end"));
    assert_ne!(standings(&steep)[0], "not checked");
}

#[test]
fn a_block_with_a_short_foot_topples_earlier() {
    // By hand: 0.6 of its length under it, half of that behind the edge, the sling as high as the block.
    let tall = NaturalAnchor { high: metres(2.0), sling: metres(2.0), contact: Contact::Gravel, ..block() };
    let weight = 0.45 * 2500.0 * 2.0 * 9.80665;
    assert_relative_eq!(at_most(&tall).low(), weight * 0.3 / 2.0, max_relative = 1e-9);
}

#[test]
fn a_log_that_the_water_may_float_is_lifted_out_of_its_place() {
    let log = |under_water: f64| NaturalAnchor {
        girth: girth_of(0.15),
        long: metres(3.0),
        under_water: Band::exact(Ratio::new::<ratio>(under_water)),
        ..level(Natural::Log)
    };
    // The lightest wood has 500 kg a cubic metre, water laden with silt 1100 (from memory): 500/1100 = 0.4545.
    assert!(at_most(&log(0.454)).low() > 0.0);
    assert_eq!(at_most(&log(0.455)).low(), 0.0);
    assert!(says(&log(0.455), "it floats") && !says(&log(0.454), "it floats"));
}

#[test]
fn what_cannot_hold_people_who_hang_still_is_told_no() {
    let small = NaturalAnchor { long: metres(0.4), wide: metres(0.4), high: metres(0.4), ..block() };
    assert_eq!(standings(&small), ["above limit"; 2]);
    assert!(says(&small, "No: even the least weight"));
    // A mean block holds people at rest and perhaps not in a slip; a large one is still no yes.
    assert_eq!(standings(&block()), ["range crosses limit", "not checked"]);
    let large = NaturalAnchor { long: metres(4.0), wide: metres(4.0), high: metres(4.0), ..block() };
    assert_eq!(standings(&large), ["not checked"; 2]);
    assert!(says(&large, "That is not a yes"));
}

#[test]
fn what_floats_or_slides_by_itself_holds_nothing() {
    let afloat = NaturalAnchor {
        seating: Seating::Along,
        under_water: Band::exact(Ratio::new::<ratio>(1.0)),
        long: metres(3.0),
        ..level(Natural::Log)
    };
    assert_eq!(at_most(&afloat).low(), 0.0);
    assert!(says(&afloat, "floats"));
    let steep = NaturalAnchor { falls: Ratio::new::<ratio>(0.7), ..block() };
    assert_eq!(at_most(&steep).high(), 0.0);
    assert_eq!(standings(&steep), ["above limit"; 2]);
    // On slime that rises toward the load by one in two it slides away, and a slender one tips back.
    let slime = Contact::Slime;
    let behind = NaturalAnchor { falls: Ratio::new::<ratio>(-0.5), sling: metres(0.3), contact: slime, ..block() };
    assert_eq!(at_most(&behind).high(), 0.0);
    let slender = NaturalAnchor { high: metres(3.0), contact: Contact::Gravel, ..behind };
    assert_eq!(at_most(&slender).low(), 0.0);
    assert!(at_most(&NaturalAnchor { contact: Contact::CleanRock, ..behind }).high() > 0.0);
    let covered = NaturalAnchor { under_water: Band::exact(Ratio::new::<ratio>(1.0)), ..block() };
    assert_relative_eq!(at_most(&covered).low() / at_most(&block()).low(), (2.5 - 1.1) / 2.5, max_relative = 1e-12);
}

#[test]
fn a_log_pressed_into_its_place_only_breaks_and_one_that_lies_there_slides() {
    let log = NaturalAnchor { long: metres(3.0), ..level(Natural::Log) };
    let lies = NaturalAnchor { seating: Seating::Along, ..log };
    assert_eq!(log.solve().unwrap().findings.iter().filter(|finding| finding.at_most).count(), 1);
    assert!(at_most(&lies).low() < at_most(&log).low());
    assert!(says(&lies, "What gives way first: it slides off."));
}

#[test]
fn lengths_that_cannot_be_together_are_refused_by_name() {
    let refused = |anchor: &NaturalAnchor, name| anchor.solve().unwrap_err().to_string().contains(name);
    assert!(refused(&NaturalAnchor { sling: metres(1.01), ..block() }, "height of the sling"));
    let low = NaturalAnchor { tree_height: Band::exact(metres(2.0)), sling: metres(2.01), ..tree(0.1) };
    assert!(refused(&low, "height of the sling"));
    assert!(NaturalAnchor { sling: metres(2.0), ..low }.solve().is_ok());
    let short = NaturalAnchor { seating: Seating::Along, long: metres(1.0), wide: metres(1.0), ..level(Natural::Log) };
    assert!(refused(&short, "length of the log"));
    // One that is wedged in its place is as long as the gap: its length is not asked.
    assert!(NaturalAnchor { seating: Seating::Into, ..short }.solve().is_ok());
}

#[test]
fn only_what_matters_is_asked() {
    let asked = |kind: &'static str| -> Vec<&'static str> {
        let mut question = Question::named("natural anchor").unwrap();
        question.set("kind", &Entry::Choice(kind)).unwrap();
        let fields = question.fields().into_iter();
        fields.filter(|field| field.matters).map(|field| field.about.name).skip(3).collect()
    };
    let people = ["people", "body_kg", "kit_kg", "suit_water_kg"];
    let with_people = |own: &[&'static str]| [own, &people].concat();
    assert_eq!(asked("tree"), with_people(&["sling_m", "girth_m", "tree", "stands", "tree_height_m"]));
    assert_eq!(
        asked("block"),
        with_people(&[
            "sling_m",
            "long_m",
            "wide_m",
            "high_m",
            "shape",
            "cubic_metre_kg",
            "under_water",
            "contact",
            "falls"
        ])
    );
    assert_eq!(asked("log"), with_people(&["girth_m", "wide_m", "under_water", "seating"]));
    assert_eq!(asked("chockstone"), with_people(&["seating"]));
    assert_eq!(asked("buried"), with_people(&["girth_m", "wide_m", "high_m", "ground"]));
}

#[test]
fn the_load_points_where_the_rope_runs() {
    let answer = NaturalAnchor { out: metres(1.0), down: metres(1.0), ..tree(0.3) }.solve().unwrap();
    let slip = answer.findings.iter().find(|finding| finding.what.contains("slips")).unwrap();
    // Out and down by the same length: 45° from plumb.
    assert_relative_eq!(slip.pull.unwrap(), PI / 4.0, max_relative = 1e-12);
    assert_eq!(answer.states[3].band, slip.band);
}

#[test]
fn a_rig_that_hangs_on_a_natural_part_is_never_below_a_limit() {
    let answer = NaturalAnchor::default().solve().unwrap();
    assert!(answer.usual.iter().all(|row| !row.what.contains("anchor")), "no figure of a bolt beside a tree");
    let parts = WeakestPart::carrying(&answer.carried.unwrap()).solve().unwrap();
    assert!(parts.comparisons.iter().any(|row| matches!(row.standing, Standing::NotChecked(_))));
    let whole = &parts.comparisons[0];
    assert_ne!(whole.standing, Standing::BelowLimit, "{whole:?}");
}

#[test]
fn no_tree_is_shown_as_a_strength() {
    let json = serde_json::to_string(&tree(0.3).solve().unwrap()).unwrap();
    assert!(json.contains("at_most_n") && !json.contains("at_least"), "{json}");
    assert!(Force::new::<kilonewton>(5.0).value < at_most(&tree(0.3)).low());
}

/// Less is known of a lower tree, and not more: what is too much for one of 1.5 m is too much for it.
#[test]
fn a_tree_lower_than_a_person_does_no_more_than_one_as_high() {
    let tree = |low: f64, high: f64| {
        let height = Band::of(low, f64::midpoint(low, high), high).map(metres);
        NaturalAnchor { tree_height: height, ..NaturalAnchor::default() }
    };
    let crosses = |tree: &NaturalAnchor| [0, 1].map(|row| standings(tree)[row] != "not checked");
    for high in [1.5, 5.0, 10.0] {
        let [person, lower] = [tree(1.5, high), tree(1.2, high)];
        assert_eq!(crosses(&person), crosses(&lower), "{high}");
        assert!(says(&lower, "lower than a person") && crosses(&lower)[0], "{high}");
    }
    assert_eq!(standings(&tree(1.0, 1.4))[0], "above limit");
}

/// The military table lets a deep face in loam do more than a level pull by the wedge: that is no bound there.
#[test]
fn a_rising_pull_is_bounded_by_whatever_may_hold_more() {
    let face = |down: f64| NaturalAnchor {
        ground: Ground::Loam,
        girth: Band::exact(metres(0.9)),
        wide: metres(0.45),
        high: metres(1.1),
        out: metres(5.0),
        down: metres(down),
        ..level(Natural::Buried)
    };
    let most = |down: f64| match face(down).check().unwrap() {
        Check::Less(.., most) => most.high(),
        figure => face(down).capacity(&figure).unwrap().high(),
    };
    assert!(most(-1.2) >= most(-2.0) && most(-1.2) >= most(-5.0), "{} {}", most(-1.2), most(-2.0));
}

#[test]
fn the_working_of_a_log_is_that_of_its_number() {
    let log = NaturalAnchor { out: metres(3.0), down: metres(-50.0), seating: Seating::Along, ..level(Natural::Log) };
    let working = log.solve().unwrap().working;
    let step = working.iter().find(|step| step.what.starts_with("Is lifted"));
    let step = step.unwrap_or_else(|| panic!("{working:?}"));
    let given = |symbol: &str| step.given.iter().find(|given| given.symbol == symbol).unwrap().band.typical();
    let told = given("W") * given("β").cos() / (given("θ") + given("β")).sin();
    assert_relative_eq!(told, step.result.band.typical(), max_relative = 1e-9);
    assert!(step.given.iter().all(|given| given.symbol != "h_g"));
}
