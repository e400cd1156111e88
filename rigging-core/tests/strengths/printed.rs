//! Every row of the tables and every factor, typed in again beside its source.

use rigging_core::quantity::{Force, Unit, kilonewton, newton, pound_force};
use rigging_core::strength::condition::CONDITIONS;
use rigging_core::strength::factor::{FACTORS, Of, On};
use rigging_core::strength::item::Figure;
use rigging_core::strength::knot::KNOTS;
use rigging_core::strength::resistance::LOADINGS;
use rigging_core::strength::{Bound, Strength, TABLES};
use rigging_core::working::{Known, Source};

use crate::{found, item};

/// Name, figure, unit, which way it binds, how it is known, a word of its source.
pub(crate) type Printed = (&'static str, f64, Unit, Bound, Known, &'static str);

use Bound::{AtLeast, AtMost, Typical};
use Known::{Memory, Published};
use Unit::{Kilonewton as KN, Megajoule as MJ, Millimetre as Mm, One, Percent, PoundForce as Lbf};

/// As printed in summaries of the standards named; "memory" where they were recalled.
pub(crate) const PRINTED: &[Printed] = &[
    // EN 892 / UIAA 101: single 80 kg, half 55 kg, twin 80 kg on both strands.
    ("single peak", 12.0, KN, AtMost, Published, "EN 892"),
    ("half peak", 8.0, KN, AtMost, Published, "EN 892"),
    ("twin peak", 12.0, KN, AtMost, Published, "EN 892"),
    ("single drops", 5.0, One, AtLeast, Published, "EN 892"),
    ("half drops", 5.0, One, AtLeast, Published, "EN 892"),
    ("twin drops", 12.0, One, AtLeast, Published, "EN 892"),
    ("single static elongation", 10.0, Percent, AtMost, Published, "EN 892"),
    ("half static elongation", 12.0, Percent, AtMost, Published, "EN 892"),
    ("twin static elongation", 10.0, Percent, AtMost, Published, "EN 892"),
    ("dynamic elongation", 40.0, Percent, AtMost, Published, "EN 892"),
    ("drop test fall factor", 1.77, One, Typical, Published, "EN 892"),
    // EN 1891 / UIAA 107, types A and B.
    ("rope A", 22.0, KN, AtLeast, Published, "EN 1891"),
    ("rope B", 18.0, KN, AtLeast, Published, "EN 1891"),
    ("rope A tied", 15.0, KN, AtLeast, Published, "EN 1891"),
    ("rope B tied", 12.0, KN, AtLeast, Published, "EN 1891"),
    ("low-stretch elongation", 5.0, Percent, AtMost, Published, "EN 1891"),
    ("rope A peak", 6.0, KN, AtMost, Published, "EN 1891"),
    ("rope B peak", 6.0, KN, AtMost, Published, "EN 1891"),
    ("rope A falls", 5.0, One, AtLeast, Published, "EN 1891"),
    ("rope B falls", 5.0, One, AtLeast, Published, "EN 1891"),
    ("thinnest low-stretch", 8.5, Mm, AtLeast, Published, "EN 1891"),
    ("thickest low-stretch", 16.0, Mm, AtMost, Published, "EN 1891"),
    // (4D − 4)/D² of 10 mm.
    ("sheath share", 36.0, Percent, AtLeast, Published, "EN 1891"),
    ("escape rope", 13.5, KN, AtLeast, Published, "NFPA 1983"),
    ("technical rope", 20.0, KN, AtLeast, Memory, "NFPA 1983"),
    ("general rope", 40.0, KN, AtLeast, Published, "NFPA 1983"),
    ("fire least elongation", 1.0, Percent, AtLeast, Published, "NFPA 1983"),
    ("fire most elongation", 10.0, Percent, AtMost, Published, "NFPA 1983"),
    ("static elongation", 6.0, Percent, AtMost, Published, "CI 1801"),
    ("low-stretch least elongation", 6.0, Percent, AtLeast, Published, "3 standard deviations"),
    ("low-stretch most elongation", 10.0, Percent, AtMost, Published, "CI 1801"),
    // EN 564, EN 565:2017, EN 566.
    ("cord 4 mm", 3.2, KN, AtLeast, Published, "EN 564"),
    ("cord 5 mm", 5.0, KN, AtLeast, Published, "EN 564"),
    ("cord 6 mm", 7.2, KN, AtLeast, Published, "EN 564"),
    ("cord 7 mm", 9.8, KN, AtLeast, Published, "EN 564"),
    ("cord 8 mm", 12.8, KN, AtLeast, Published, "EN 564"),
    ("tape", 10.0, KN, AtLeast, Published, "EN 565"),
    ("tape thread", 5.0, KN, AtLeast, Memory, "EN 565"),
    ("sewn sling", 22.0, KN, AtLeast, Published, "EN 566"),
    // MIL-W-5625K, MIL-C-5040H.
    ("tubular 3/8", 950.0, Lbf, AtLeast, Published, "MIL-W-5625K"),
    ("tubular 1/2", 1000.0, Lbf, AtLeast, Published, "MIL-W-5625K"),
    ("tubular 9/16", 1500.0, Lbf, AtLeast, Published, "MIL-W-5625K"),
    ("tubular 5/8", 2250.0, Lbf, AtLeast, Published, "MIL-W-5625K"),
    ("tubular 3/4", 2300.0, Lbf, AtLeast, Published, "MIL-W-5625K"),
    ("tubular 7/8", 3100.0, Lbf, AtLeast, Published, "MIL-W-5625K"),
    ("tubular 1", 4000.0, Lbf, AtLeast, Published, "MIL-W-5625K"),
    ("parachute I", 95.0, Lbf, AtLeast, Published, "MIL-C-5040H"),
    ("parachute IA", 100.0, Lbf, AtLeast, Published, "MIL-C-5040H"),
    ("parachute II", 400.0, Lbf, AtLeast, Published, "MIL-C-5040H"),
    ("parachute IIA", 225.0, Lbf, AtLeast, Published, "MIL-C-5040H"),
    ("parachute III", 550.0, Lbf, AtLeast, Published, "MIL-C-5040H"),
    // EN 12275:2013 / UIAA 121, along closed, along open, across.
    ("connector", 20.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("connector open", 7.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("connector across", 7.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("connector H", 20.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("connector H open", 6.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("connector H across", 7.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("connector K", 25.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("connector K open", 8.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("connector K across", 7.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("connector A", 20.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("connector A open", 7.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("screw link", 25.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("screw link across", 10.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("connector X", 18.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("connector X open", 5.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("connector X across", 7.0, KN, AtLeast, Published, "EN 12275:2013"),
    ("work connector locked", 20.0, KN, AtLeast, Memory, "EN 362"),
    ("work connector unlocked", 15.0, KN, AtLeast, Memory, "EN 362"),
    ("work connector across", 7.0, KN, AtLeast, Memory, "EN 362"),
    ("general connector", 40.0, KN, AtLeast, Published, "NFPA 1983"),
    ("general connector open", 11.0, KN, AtLeast, Memory, "NFPA 1983"),
    ("general connector across", 11.0, KN, AtLeast, Published, "NFPA 1983"),
    ("technical connector", 27.0, KN, AtLeast, Published, "NFPA 1983"),
    ("technical connector open", 7.0, KN, AtLeast, Memory, "NFPA 1983"),
    ("technical connector across", 7.0, KN, AtLeast, Memory, "NFPA 1983"),
    // EN 959:2018, EN 569.
    ("bolt radial", 25.0, KN, AtLeast, Published, "EN 959:2018"),
    ("bolt axial", 15.0, KN, AtLeast, Published, "EN 959:2018"),
    ("canyon bolt radial", 25.0, KN, AtLeast, Published, "French departmental"),
    ("canyon bolt axial", 15.0, KN, AtLeast, Published, "French departmental"),
    ("piton radial", 25.0, KN, AtLeast, Memory, "EN 569"),
    ("piton reverse", 10.0, KN, AtLeast, Memory, "EN 569"),
    ("piton sideways", 15.0, KN, AtLeast, Memory, "EN 569"),
    ("light piton radial", 12.5, KN, AtLeast, Memory, "EN 569"),
    ("light piton reverse", 5.0, KN, AtLeast, Memory, "EN 569"),
    ("light piton sideways", 7.5, KN, AtLeast, Memory, "EN 569"),
    // EN 12277 types A, B, C, D; EN 813.
    ("full harness up", 15.0, KN, AtLeast, Published, "EN 12277"),
    ("full harness down", 10.0, KN, AtLeast, Published, "EN 12277"),
    ("small harness up", 10.0, KN, AtLeast, Published, "EN 12277"),
    ("small harness down", 7.0, KN, AtLeast, Published, "EN 12277"),
    ("sit harness", 15.0, KN, AtLeast, Published, "EN 12277"),
    ("chest harness", 10.0, KN, AtLeast, Published, "EN 12277"),
    ("work sit harness", 15.0, KN, AtLeast, Published, "EN 813"),
    // EN 567, EN 12278, EN 15151-2, EN 12841, EN 341.
    ("rope clamp", 4.0, KN, AtLeast, Published, "EN 567"),
    ("pulley", 12.0, KN, AtLeast, Memory, "EN 12278"),
    ("manual descender", 7.0, KN, AtLeast, Published, "EN 15151-2"),
    ("rope device A", 15.0, KN, AtLeast, Published, "EN 12841"),
    ("rope device B", 4.0, KN, AtLeast, Published, "EN 12841"),
    ("rope device C", 12.0, KN, AtLeast, Published, "EN 12841"),
    ("rescue descent A", 7.5, MJ, AtLeast, Published, "EN 341"),
    ("rescue descent B", 1.5, MJ, AtLeast, Published, "EN 341"),
    ("rescue descent C", 0.5, MJ, AtLeast, Published, "EN 341"),
    ("rescue descent D", 1.0, One, AtLeast, Published, "EN 341"),
    // OSHA 1910.27(b), 1910.140(c)(13); ANSI Z359.4; EN 795:2012; BS 7985 and IRATA; EN 355.
    ("work anchor US", 5000.0, Lbf, AtLeast, Published, "OSHA 1910.27(b)"),
    ("arrest US", 1800.0, Lbf, AtMost, Published, "OSHA"),
    ("arrest EN", 6.0, KN, AtMost, Memory, "EN 355"),
    ("rescue anchor US", 3100.0, Lbf, AtLeast, Published, "ANSI Z359.4"),
    ("work anchor", 12.0, KN, AtLeast, Published, "EN 795:2012"),
    ("work anchor textile", 18.0, KN, AtLeast, Published, "EN 795:2012"),
    ("rope access anchor", 15.0, KN, AtLeast, Published, "BS 7985"),
];

fn rows() -> Vec<&'static Strength> {
    TABLES.iter().flat_map(|table| table.rows).collect()
}

#[test]
fn every_figure_is_the_printed_one() {
    for (name, printed, unit, bound, known, place) in PRINTED {
        let row = rows().into_iter().find(|row| row.name == *name).unwrap_or_else(|| panic!("{name} is missing"));
        assert_eq!((row.printed, row.unit, row.bound, row.source.known), (*printed, *unit, *bound, *known), "{name}");
        assert!(row.source.place.contains(place), "{name}: {}", row.source.place);
    }
    assert_eq!(rows().len(), PRINTED.len(), "a row of the tables is not checked here");
}

/// Every source there is, with the name of what rests on it.
fn sources() -> Vec<(&'static str, Source)> {
    let rows = rows().into_iter().map(|row| (row.name, row.source));
    let knots = KNOTS.iter().map(|knot| (knot.name, knot.source));
    let conditions = CONDITIONS.iter().map(|condition| (condition.name, condition.source));
    let factors = FACTORS.iter().map(|factor| (factor.name, factor.source));
    let loadings = LOADINGS.iter().map(|loading| (loading.name, loading.source));
    rows.chain(knots).chain(conditions).chain(factors).chain(loadings).collect()
}

#[test]
fn every_row_has_a_source_and_none_is_a_company() {
    // Bodies that write standards, public authorities, schools and journals; anything else has to be argued for here.
    let bodies = [
        "EN ",
        "UIAA",
        "NFPA",
        "CI 1801",
        "MIL-",
        "OSHA",
        "ANSI",
        "BS 7985",
        "IRATA",
        "UFC",
        "ASME",
        "Cordage Institute",
        "ENSA",
        "Sáez",
        "departmental canyon specification",
        "ACI",
    ];
    let tests =
        ["pull tests", "weathering of nylon webbing", "slings found in place", "10 mm rope", "accident reports"];
    let own = ["no knot", "as tested", "two equal strands", "worn × wet"];
    for (name, source) in sources() {
        let place = source.place;
        assert!(!place.trim().is_empty(), "{name} has no source");
        let known = bodies.iter().chain(&tests).any(|body| place.contains(body));
        let practice = source.known == Known::Practice;
        let derived = source.known == Known::Derived && own.iter().any(|own| place.contains(own));
        assert!(known || practice || derived, "{name}: {place}");
        let company = ["GmbH", "Inc", "Ltd", "S.A.", " AG", "Corp", "®", "™"].iter().any(|mark| place.contains(mark));
        assert!(!company, "{name}: {place}");
    }
}

#[test]
fn factors_are_those_printed_and_rules_for_work_keep_their_own_load() {
    let factor = |name| found(FACTORS, name, |factor| factor.name);
    for (name, printed) in [
        ("5 fibre rope", 5.0),
        ("12 fibre rope", 12.0),
        ("10 system", 10.0),
        ("15 fire", 15.0),
        ("5 slings", 5.0),
        ("7 slings", 7.0),
        ("3 mooring", 3.0),
        ("5 rescue", 5.0),
        ("2.5 rope access", 2.5),
        ("2 designed", 2.0),
    ] {
        assert_eq!(factor(name).factor, printed, "{name}");
    }
    assert_eq!(FACTORS.len(), 10);
    // Rope access 15 kN = 2.5 × 6; OSHA 1,800 lbf; each with its own load, never with that of the rig.
    let Of::Named(arrest) = factor("2.5 rope access").of else { panic!() };
    assert_eq!(arrest.force().get::<kilonewton>() * 2.5, 15.0);
    let Of::Named(arrest) = factor("2 designed").of else { panic!() };
    assert_eq!(arrest.force().get::<pound_force>(), 1800.0);
    // Rules of anchors and of rope speak of nothing else.
    assert_eq!((factor("2 designed").on, factor("2.5 rope access").on), (On::Anchor, On::Anchor));
    assert_eq!((factor("5 rescue").on, factor("15 fire").on), (On::Anchor, On::Rope));
    // The first is the default: not below 5 for anything soft.
    assert!(FACTORS[0].factor >= 5.0);
}

#[test]
fn printed_units_are_those_of_the_standards() {
    // EN 1891: sheath share of 10 mm (4 · 10 − 4)/10² = 36 %.
    assert_eq!(100.0 * (4.0 * 10.0 - 4.0) / 100.0, 36.0);
    // 15 × 300 lbf and 15 × 600 lbf round to 20 and 40 kN; 1 in tape 17.79 kN; type III cord 2.447 kN.
    let newtons = |pounds: f64| Force::new::<pound_force>(pounds).get::<newton>();
    assert!((newtons(15.0 * 300.0) - 20_020.0).abs() < 5.0 && (newtons(15.0 * 600.0) - 40_030.0).abs() < 5.0);
    let row = |name: &str| rows().into_iter().find(|row| row.name == name).unwrap().force().get::<kilonewton>();
    assert!((row("tubular 1") - 17.79).abs() < 0.005 && (row("parachute III") - 2.447).abs() < 0.0005);
}

#[test]
fn cord_follows_the_rule_of_its_standard() {
    // EN 564: strength in kN = 0.2 d², d in mm.
    for millimetres in 4..=8 {
        let Some(Figure::Soft(cord, _)) = item(&format!("cord {millimetres} mm")).figure else { panic!() };
        approx::assert_relative_eq!(cord.printed, 0.2 * f64::from(millimetres).powi(2), epsilon = 1e-9);
    }
}
