//! Ropes, cord, tape and slings, new and dry.

use super::Bound::{AtLeast, AtMost};
use super::{Strength, memory, published};
use crate::quantity::Unit::{Kilonewton, Millimetre, One, Percent, PoundForce};

const DYNAMIC: &str = "EN 892 / UIAA 101";
const LOW_STRETCH: &str = "EN 1891 / UIAA 107";
const CORD: &str = "EN 564, strength = 0.2 d²";
const TAPE: &str = "MIL-W-5625K";
const PARACHUTE: &str = "MIL-C-5040H";
const CORDAGE: &str = "CI 1801; strengths there are the mean less 3 standard deviations";
const FIRE: &str = "NFPA 1983, now in 2500";

/// Dynamic ropes: what the force of their first test fall may be, and what else their standard asks.
/// ```
/// use rigging_core::strength::Bound;
/// use rigging_core::strength::rope::DYNAMIC_ROPES;
///
/// // EN 892 / UIAA 101: in the first drop at most 12 kN in a single rope, 8 in a half rope, 12 in twin ropes.
/// let peak = |name| DYNAMIC_ROPES.iter().find(|row| row.name == name).map(|row| (row.bound, row.printed));
/// let peaks = ["single peak", "half peak", "twin peak"].map(peak);
/// assert_eq!(peaks, [12.0, 8.0, 12.0].map(|kilonewtons| Some((Bound::AtMost, kilonewtons))));
/// ```
pub const DYNAMIC_ROPES: &[Strength] = &[
    SINGLE_PEAK,
    published("half peak", "half rope, peak force of the first drop, 55 kg", AtMost, 8.0, Kilonewton, DYNAMIC),
    published("twin peak", "twin ropes, both strands, first drop, 80 kg", AtMost, 12.0, Kilonewton, DYNAMIC),
    published("single drops", "single rope, drops held", AtLeast, 5.0, One, DYNAMIC),
    published("half drops", "half rope, drops held", AtLeast, 5.0, One, DYNAMIC),
    published("twin drops", "twin ropes, drops held", AtLeast, 12.0, One, DYNAMIC),
    published("single static elongation", "single rope, static elongation", AtMost, 10.0, Percent, DYNAMIC),
    published("half static elongation", "half rope, static elongation", AtMost, 12.0, Percent, DYNAMIC),
    published("twin static elongation", "twin ropes, static elongation", AtMost, 10.0, Percent, DYNAMIC),
    published(
        "dynamic elongation",
        "single, half or twin, elongation in the first drop",
        AtMost,
        40.0,
        Percent,
        DYNAMIC,
    ),
    Strength {
        bound: super::Bound::Typical,
        ..published("drop test fall factor", "fall factor of the drop test, a label", AtMost, 1.77, One, DYNAMIC)
    },
];

/// Low-stretch ropes.
/// ```
/// use rigging_core::strength::rope::LOW_STRETCH_ROPES;
///
/// let printed = |name| LOW_STRETCH_ROPES.iter().find(|row| row.name == name).map(|row| row.printed);
/// // EN 1891 / UIAA 107: with figure-eight loops type A holds 15 kN and type B 12.
/// assert_eq!(["rope A tied", "rope B tied"].map(printed), [Some(15.0), Some(12.0)]);
/// // Its rule for the sheath, for 10 mm by hand: (4 · 10 − 4)/10² = 36 %.
/// assert_eq!(printed("sheath share"), Some(36.0));
/// ```
pub const LOW_STRETCH_ROPES: &[Strength] = &[
    ROPE_A,
    ROPE_B,
    published(
        "rope A tied",
        "low-stretch rope type A with figure-eight loops, for 3 min",
        AtLeast,
        15.0,
        Kilonewton,
        LOW_STRETCH,
    ),
    ROPE_B_TIED,
    published("low-stretch elongation", "type A or B, elongation from 50 to 150 kg", AtMost, 5.0, Percent, LOW_STRETCH),
    ROPE_A_PEAK,
    published("rope B peak", "type B, peak force at fall factor 0.3, 80 kg", AtMost, 6.0, Kilonewton, LOW_STRETCH),
    published("rope A falls", "type A, factor-1 falls held, 100 kg", AtLeast, 5.0, One, LOW_STRETCH),
    published("rope B falls", "type B, factor-1 falls held, 80 kg", AtLeast, 5.0, One, LOW_STRETCH),
    published(
        "thinnest low-stretch",
        "type A or B, diameter",
        AtLeast,
        8.5,
        Millimetre,
        "EN 1891 / UIAA 107; summaries differ",
    ),
    published(
        "thickest low-stretch",
        "type A or B, diameter",
        AtMost,
        16.0,
        Millimetre,
        "EN 1891 / UIAA 107; summaries differ",
    ),
    published(
        "sheath share",
        "type A or B, sheath share of the mass, (4D − 4)/D², here for 10 mm",
        AtLeast,
        36.0,
        Percent,
        LOW_STRETCH,
    ),
    published("escape rope", "rope for escape", AtLeast, 13.5, Kilonewton, FIRE),
    memory(
        "technical rope",
        "rope for technical use, 15 × 300 lbf",
        AtLeast,
        20.0,
        Kilonewton,
        "NFPA 1983, now in 2500; the product is 20.02, derived",
    ),
    published(
        "general rope",
        "rope for general use, 15 × 600 lbf",
        AtLeast,
        40.0,
        Kilonewton,
        "NFPA 1983, now in 2500; the product is 40.03, derived",
    ),
    published("fire least elongation", "fire service rope, at 10 % of its strength", AtLeast, 1.0, Percent, FIRE),
    published("fire most elongation", "fire service rope, at 10 % of its strength", AtMost, 10.0, Percent, FIRE),
    published("static elongation", "static rope, at 10 % of its strength", AtMost, 6.0, Percent, CORDAGE),
    published(
        "low-stretch least elongation",
        "low-stretch rope, at 10 % of its strength, more than",
        AtLeast,
        6.0,
        Percent,
        CORDAGE,
    ),
    published(
        "low-stretch most elongation",
        "low-stretch rope, at 10 % of its strength",
        AtMost,
        10.0,
        Percent,
        CORDAGE,
    ),
];
/// Most force in a single dynamic rope in the first drop of its test.
/// ```
/// use rigging_core::strength::Bound;
/// use rigging_core::strength::rope::SINGLE_PEAK;
///
/// // EN 892 / UIAA 101: 12 kN with 80 kg. It is a limit of the force, not a strength of the rope.
/// assert_eq!((SINGLE_PEAK.force().value, SINGLE_PEAK.bound), (12_000.0, Bound::AtMost));
/// ```
pub const SINGLE_PEAK: Strength =
    published("single peak", "single rope, peak force of the first drop, 80 kg", AtMost, 12.0, Kilonewton, DYNAMIC);
/// Most force in a low-stretch rope in the small fall of its test.
/// ```
/// use rigging_core::strength::Bound;
/// use rigging_core::strength::rope::ROPE_A_PEAK;
///
/// // EN 1891 / UIAA 107: 6 kN with 100 kg at fall factor 0.3, a limit of the force.
/// assert_eq!((ROPE_A_PEAK.force().value, ROPE_A_PEAK.bound), (6000.0, Bound::AtMost));
/// ```
pub const ROPE_A_PEAK: Strength =
    published("rope A peak", "type A, peak force at fall factor 0.3, 100 kg", AtMost, 6.0, Kilonewton, LOW_STRETCH);
/// Low-stretch rope type B with its terminations.
/// ```
/// use rigging_core::strength::rope::{ROPE_B, ROPE_B_TIED};
///
/// // EN 1891 / UIAA 107: 12 kN for 3 min with figure-eight loops, two thirds of the 18 without.
/// assert_eq!((ROPE_B_TIED.printed, 3.0 * ROPE_B_TIED.printed), (12.0, 2.0 * ROPE_B.printed));
/// ```
pub const ROPE_B_TIED: Strength = published(
    "rope B tied",
    "low-stretch rope type B with figure-eight loops, for 3 min",
    AtLeast,
    12.0,
    Kilonewton,
    LOW_STRETCH,
);
/// Low-stretch rope type A without terminations.
/// ```
/// use rigging_core::strength::rope::ROPE_A;
///
/// // EN 1891 / UIAA 107: 22 kN.
/// assert_eq!(ROPE_A.force().value, 22_000.0);
/// ```
pub const ROPE_A: Strength =
    published("rope A", "low-stretch rope type A, without terminations", AtLeast, 22.0, Kilonewton, LOW_STRETCH);
/// Low-stretch rope type B without terminations.
/// ```
/// use rigging_core::strength::rope::{ROPE_A, ROPE_B};
///
/// // EN 1891 / UIAA 107: 18 kN, less than type A.
/// assert_eq!(ROPE_B.force().value, 18_000.0);
/// assert!(ROPE_B.force() < ROPE_A.force());
/// ```
pub const ROPE_B: Strength =
    published("rope B", "low-stretch rope type B, without terminations", AtLeast, 18.0, Kilonewton, LOW_STRETCH);

const fn cord(name: &'static str, part: &'static str, kilonewtons: f64) -> Strength {
    published(name, part, AtLeast, kilonewtons, Kilonewton, CORD)
}
/// Cord by the rule of its standard, which speaks of 4 to 8 mm only.
/// ```
/// use rigging_core::strength::rope::CORDS;
///
/// let printed = |name| CORDS.iter().find(|row| row.name == name).map(|row| row.printed);
/// // EN 564 for 7 mm, by hand: 0.2 · 7² = 9.8 kN. Of 3 and 9 mm it says nothing.
/// assert_eq!(printed("cord 7 mm"), Some(9.8));
/// assert_eq!(["cord 3 mm", "cord 9 mm"].map(printed), [None, None]);
/// ```
pub const CORDS: &[Strength] = &[
    cord("cord 4 mm", "cord 4 mm, one strand, no knot", 3.2),
    cord("cord 5 mm", "cord 5 mm, one strand, no knot", 5.0),
    cord("cord 6 mm", "cord 6 mm, one strand, no knot", 7.2),
    cord("cord 7 mm", "cord 7 mm, one strand, no knot", 9.8),
    cord("cord 8 mm", "cord 8 mm, one strand, no knot", 12.8),
];

const fn tubular(name: &'static str, part: &'static str, pounds: f64) -> Strength {
    published(name, part, AtLeast, pounds, PoundForce, TAPE)
}
const fn parachute(name: &'static str, part: &'static str, pounds: f64) -> Strength {
    published(name, part, AtLeast, pounds, PoundForce, PARACHUTE)
}
/// Tape, slings and thin cord.
/// ```
/// use rigging_core::strength::rope::TAPES;
///
/// // MIL-W-5625K prints 2250 lbf for tubular tape of 5/8 in. By hand: 2250 · 4.448222 = 10 008.5 N.
/// let tape = TAPES.iter().find(|row| row.name == "tubular 5/8").ok_or("no such tape")?;
/// assert!((tape.force().value - 10_008.5).abs() < 0.05);
/// # Ok::<(), &'static str>(())
/// ```
pub const TAPES: &[Strength] = &[
    SEWN_SLING,
    TAPE_NEW,
    memory("tape thread", "older tape, for each tracer thread", AtLeast, 5.0, Kilonewton, "EN 565"),
    tubular("tubular 3/8", "tubular nylon tape 3/8 in", 950.0),
    tubular("tubular 1/2", "tubular nylon tape 1/2 in", 1000.0),
    tubular("tubular 9/16", "tubular nylon tape 9/16 in", 1500.0),
    tubular("tubular 5/8", "tubular nylon tape 5/8 in", 2250.0),
    tubular("tubular 3/4", "tubular nylon tape 3/4 in", 2300.0),
    tubular("tubular 7/8", "tubular nylon tape 7/8 in", 3100.0),
    TUBULAR_INCH,
    parachute("parachute I", "parachute cord type I", 95.0),
    parachute("parachute IA", "parachute cord type IA", 100.0),
    parachute("parachute II", "parachute cord type II", 400.0),
    parachute("parachute IIA", "parachute cord type IIA", 225.0),
    parachute("parachute III", "parachute cord type III", 550.0),
];
/// A sewn sling, whatever it is made of.
/// ```
/// use rigging_core::strength::item::{Figure, ITEMS};
/// use rigging_core::strength::rope::SEWN_SLING;
///
/// // EN 566: 22 kN, in nylon and in HMPE.
/// let figure = |name| ITEMS.iter().find(|row| row.name == name).and_then(|row| row.figure);
/// for name in ["sling nylon", "sling HMPE"] {
///     assert!(matches!(figure(name), Some(Figure::Soft(strength, _)) if strength == SEWN_SLING));
/// }
/// assert_eq!(SEWN_SLING.force().value, 22_000.0);
/// ```
pub const SEWN_SLING: Strength = published("sewn sling", "sewn sling", AtLeast, 22.0, Kilonewton, "EN 566");
/// Tape by its standard of today.
/// ```
/// use rigging_core::strength::rope::{SEWN_SLING, TAPE_NEW};
///
/// // EN 565:2017: 10 kN for one strand. Two of them without a knot would be 20, less than the 22 of a sewn sling.
/// assert_eq!(TAPE_NEW.force().value, 10_000.0);
/// assert!(2.0 * TAPE_NEW.force() < SEWN_SLING.force());
/// ```
pub const TAPE_NEW: Strength = published("tape", "tape, one strand, no knot", AtLeast, 10.0, Kilonewton, "EN 565:2017");
/// Tubular nylon tape of one inch.
/// ```
/// use rigging_core::strength::rope::TUBULAR_INCH;
///
/// // MIL-W-5625K prints 4000 lbf. By hand: 4000 · 4.448222 = 17 792.9 N.
/// assert_eq!(TUBULAR_INCH.printed, 4000.0);
/// assert!((TUBULAR_INCH.force().value - 17_792.9).abs() < 0.05);
/// ```
pub const TUBULAR_INCH: Strength = tubular("tubular 1", "tubular nylon tape 1 in, one strand, no knot", 4000.0);
