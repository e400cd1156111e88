//! Connectors, rock anchors, harnesses and other hardware.

use super::Bound::{AtLeast, AtMost};
use super::{Strength, memory, published};
use crate::quantity::Unit::{Kilonewton, Megajoule, One, PoundForce};

const CONNECTORS_BY: &str = "EN 12275:2013 / UIAA 121";
const BOLT: &str = "EN 959:2018, in 200 mm of concrete";
const FIRE: &str = "NFPA 1983, now in 2500";

const fn connector(name: &'static str, part: &'static str, kilonewtons: f64) -> Strength {
    published(name, part, AtLeast, kilonewtons, Kilonewton, CONNECTORS_BY)
}
/// A basic connector along its length, its gate closed.
/// ```
/// use rigging_core::quantity::Unit;
/// use rigging_core::strength::hardware::CONNECTOR;
///
/// // EN 12275:2013 / UIAA 121, type B: 20 kN along.
/// assert_eq!((CONNECTOR.printed, CONNECTOR.unit), (20.0, Unit::Kilonewton));
/// ```
pub const CONNECTOR: Strength = connector("connector", "connector (type B), along, gate closed", 20.0);
/// The same with its gate open.
/// ```
/// use rigging_core::strength::hardware::{CONNECTOR, CONNECTOR_OPEN};
///
/// // EN 12275:2013 / UIAA 121, type B: an open gate leaves 7 of 20 kN.
/// assert_eq!((CONNECTOR_OPEN.printed, CONNECTOR_OPEN.force() / CONNECTOR.force()), (7.0, (7.0 / 20.0).into()));
/// ```
pub const CONNECTOR_OPEN: Strength = connector("connector open", "connector (type B), along, gate open", 7.0);
/// Connectors by type and direction. Gate-open figures do not hold for those that lock by themselves.
/// ```
/// use rigging_core::strength::hardware::CONNECTORS;
///
/// let printed = |name| CONNECTORS.iter().find(|row| row.name == name).map(|row| row.printed);
/// // EN 12275:2013 / UIAA 121. An oval one (X): 18 kN along, 5 gate open. A screw link (Q): 25 along, 10 across.
/// assert_eq!(["connector X", "connector X open"].map(printed), [Some(18.0), Some(5.0)]);
/// assert_eq!(["screw link", "screw link across"].map(printed), [Some(25.0), Some(10.0)]);
/// ```
pub const CONNECTORS: &[Strength] = &[
    CONNECTOR,
    CONNECTOR_OPEN,
    connector("connector across", "connector (type B), across", 7.0),
    connector("connector H", "connector (type H), along, gate closed", 20.0),
    connector("connector H open", "connector (type H), along, gate open", 6.0),
    connector("connector H across", "connector (type H), across", 7.0),
    connector("connector K", "connector (type K), along, gate closed", 25.0),
    connector("connector K open", "connector (type K), along, gate open", 8.0),
    connector("connector K across", "connector (type K), across", 7.0),
    connector("connector A", "connector (type A or D), along, gate closed", 20.0),
    connector("connector A open", "connector (type A or D), along, gate open", 7.0),
    connector("screw link", "screw link (type Q), along, closed", 25.0),
    connector("screw link across", "screw link (type Q), across", 10.0),
    connector("connector X", "connector (type X, oval), along, gate closed", 18.0),
    connector("connector X open", "connector (type X, oval), along, gate open", 5.0),
    connector("connector X across", "connector (type X, oval), across", 7.0),
    memory("work connector locked", "connector for work, along, locked", AtLeast, 20.0, Kilonewton, "EN 362"),
    memory("work connector unlocked", "connector for work, along, not locked", AtLeast, 15.0, Kilonewton, "EN 362"),
    memory("work connector across", "connector for work, across, where claimed", AtLeast, 7.0, Kilonewton, "EN 362"),
    published("general connector", "connector, general use, along, closed", AtLeast, 40.0, Kilonewton, FIRE),
    memory("general connector open", "connector, general use, along, open", AtLeast, 11.0, Kilonewton, FIRE),
    published("general connector across", "connector, general use, across", AtLeast, 11.0, Kilonewton, FIRE),
    published("technical connector", "connector, technical use, along, closed", AtLeast, 27.0, Kilonewton, FIRE),
    memory("technical connector open", "connector, technical use, along, open", AtLeast, 7.0, Kilonewton, FIRE),
    memory("technical connector across", "connector, technical use, across", AtLeast, 7.0, Kilonewton, FIRE),
];

/// A bolt in shear.
/// ```
/// use rigging_core::strength::hardware::BOLT_RADIAL;
///
/// // EN 959:2018, in 200 mm of concrete: 25 kN along the rock.
/// assert_eq!(BOLT_RADIAL.force().value, 25_000.0);
/// ```
pub const BOLT_RADIAL: Strength =
    published("bolt radial", "rock anchor, pulled along the rock", AtLeast, 25.0, Kilonewton, BOLT);
/// A bolt in tension.
/// ```
/// use rigging_core::law::bolt;
/// use rigging_core::quantity::{Angle, Force, degree, newton};
/// use rigging_core::strength::hardware::{BOLT_AXIAL, BOLT_RADIAL};
///
/// // EN 959:2018, in 200 mm of concrete: 15 kN straight out. Of 9 kN that way, by hand: 9/15 = 0.6.
/// let pull = bolt::parts(Force::new::<newton>(9000.0), Angle::new::<degree>(0.0))?;
/// let share = bolt::share_of_limit(pull, BOLT_AXIAL.force(), BOLT_RADIAL.force())?;
/// assert!((share.value - 0.6).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub const BOLT_AXIAL: Strength =
    published("bolt axial", "rock anchor, pulled straight out", AtLeast, 15.0, Kilonewton, BOLT);

const fn piton(name: &'static str, part: &'static str, kilonewtons: f64) -> Strength {
    memory(name, part, AtLeast, kilonewtons, Kilonewton, "EN 569, low confidence")
}
/// Anchors in rock. Canyon rock, soft or hollow, is in none of them.
/// ```
/// use rigging_core::strength::hardware::ANCHORS;
/// use rigging_core::working::Known;
///
/// // EN 569, from memory: the stronger kind of piton, along the rock, in reverse and sideways, kN.
/// let piton = |name| ANCHORS.iter().find(|row| row.name == name).map(|row| (row.printed, row.source.known));
/// let stronger = ["piton radial", "piton reverse", "piton sideways"].map(piton);
/// assert_eq!(stronger, [25.0, 10.0, 15.0].map(|kilonewtons| Some((kilonewtons, Known::Memory))));
/// ```
pub const ANCHORS: &[Strength] = &[
    BOLT_RADIAL,
    BOLT_AXIAL,
    published(
        "canyon bolt radial",
        "canyon anchor, pulled along the rock",
        AtLeast,
        25.0,
        Kilonewton,
        "a French departmental canyon specification",
    ),
    published(
        "canyon bolt axial",
        "canyon anchor, pulled straight out",
        AtLeast,
        15.0,
        Kilonewton,
        "a French departmental canyon specification",
    ),
    piton("piton radial", "piton of the stronger kind, pulled along the rock", 25.0),
    piton("piton reverse", "piton of the stronger kind, pulled in reverse", 10.0),
    piton("piton sideways", "piton of the stronger kind, pulled sideways", 15.0),
    piton("light piton radial", "piton of the lighter kind, pulled along the rock", 12.5),
    piton("light piton reverse", "piton of the lighter kind, pulled in reverse", 5.0),
    piton("light piton sideways", "piton of the lighter kind, pulled sideways", 7.5),
];

/// A sit harness.
/// ```
/// use rigging_core::strength::hardware::SIT_HARNESS;
///
/// // EN 12277, type C: 15 kN.
/// assert_eq!(SIT_HARNESS.force().value, 15_000.0);
/// ```
pub const SIT_HARNESS: Strength = harness("sit harness", "sit harness (type C)", 15.0);
const fn harness(name: &'static str, part: &'static str, kilonewtons: f64) -> Strength {
    published(name, part, AtLeast, kilonewtons, Kilonewton, "EN 12277")
}
/// Harnesses.
/// ```
/// use rigging_core::strength::hardware::HARNESSES;
///
/// // EN 12277, a full body harness (A): 15 kN head up and 10 head down.
/// let printed = |name| HARNESSES.iter().find(|row| row.name == name).map(|row| row.printed);
/// assert_eq!(["full harness up", "full harness down"].map(printed), [Some(15.0), Some(10.0)]);
/// ```
pub const HARNESSES: &[Strength] = &[
    SIT_HARNESS,
    harness("full harness up", "full body harness (type A), head up", 15.0),
    harness("full harness down", "full body harness (type A), head down", 10.0),
    harness("small harness up", "small body harness (type B), head up", 10.0),
    harness("small harness down", "small body harness (type B), head down", 7.0),
    harness("chest harness", "chest harness (type D)", 10.0),
    published("work sit harness", "sit harness for work", AtLeast, 15.0, Kilonewton, "EN 813"),
];

/// What else the rope runs through.
/// ```
/// use rigging_core::quantity::Unit;
/// use rigging_core::strength::hardware::DEVICES;
///
/// let printed = |name| DEVICES.iter().find(|row| row.name == name).map(|row| (row.printed, row.unit));
/// // EN 12841: a rope access device B holds 4 kN.
/// assert_eq!(printed("rope device B"), Some((4.0, Unit::Kilonewton)));
/// // Not every figure is a force. EN 341: a rescue descender of class A does 7.5 MJ of descents.
/// assert_eq!(printed("rescue descent A"), Some((7.5, Unit::Megajoule)));
/// ```
pub const DEVICES: &[Strength] = &[
    published("rope clamp", "rope clamp", AtLeast, 4.0, Kilonewton, "EN 567"),
    memory("pulley", "pulley", AtLeast, 12.0, Kilonewton, "EN 12278"),
    published("manual descender", "manual descender, rope fixed", AtLeast, 7.0, Kilonewton, "EN 15151-2"),
    published("rope device A", "rope access device A, static", AtLeast, 15.0, Kilonewton, "EN 12841"),
    published("rope device B", "rope access device B, static", AtLeast, 4.0, Kilonewton, "EN 12841"),
    published("rope device C", "rope access device C, static", AtLeast, 12.0, Kilonewton, "EN 12841"),
    published("rescue descent A", "rescue descender class A, work of descents", AtLeast, 7.5, Megajoule, "EN 341"),
    published("rescue descent B", "rescue descender class B, work of descents", AtLeast, 1.5, Megajoule, "EN 341"),
    published("rescue descent C", "rescue descender class C, work of descents", AtLeast, 0.5, Megajoule, "EN 341"),
    published("rescue descent D", "rescue descender class D, descents", AtLeast, 1.0, One, "EN 341"),
];

/// Most force on a person's harness in an arrest, US work at height.
/// ```
/// use rigging_core::strength::factor::{FACTORS, Of};
/// use rigging_core::strength::hardware::ARREST_US;
///
/// // OSHA 1910.140(c)(13): a designed anchor holds twice the 1,800 lbf. By hand: 2 · 1800 · 4.448222 = 16 013.6 N.
/// let designed = FACTORS.iter().find(|row| row.name == "2 designed").ok_or("no such factor")?;
/// assert_eq!(designed.of, Of::Named(ARREST_US));
/// assert!((designed.factor * ARREST_US.force().value - 16_013.6).abs() < 0.05);
/// # Ok::<(), &'static str>(())
/// ```
pub const ARREST_US: Strength = published(
    "arrest US",
    "force on a harness in an arrest, work at height in the US",
    AtMost,
    1800.0,
    PoundForce,
    "OSHA 1910.140",
);
/// Most force on a person's harness in an arrest, European work at height.
/// ```
/// use rigging_core::strength::hardware::{ARREST_EN, ARREST_US};
/// use rigging_core::working::Known;
///
/// // EN 355, from memory: 6 kN. It is less than is allowed in the US.
/// assert_eq!((ARREST_EN.force().value, ARREST_EN.source.known), (6000.0, Known::Memory));
/// assert!(ARREST_EN.force() < ARREST_US.force());
/// ```
pub const ARREST_EN: Strength = memory(
    "arrest EN",
    "force on a harness in an arrest, work at height in Europe",
    AtMost,
    6.0,
    Kilonewton,
    "EN 355; rope access counts with the same 6 kN",
);
/// Anchors of people at work: different rules for different purposes, never one number.
/// ```
/// use rigging_core::strength::hardware::AT_WORK;
///
/// let newtons = |name| AT_WORK.iter().find(|row| row.name == name).map(|row| row.force().value.round());
/// // EN 795:2012: 12 kN, and 18 where what bears the load is not of metal.
/// assert_eq!(["work anchor", "work anchor textile"].map(newtons), [Some(12_000.0), Some(18_000.0)]);
/// // OSHA 1910.140(c)(13), if not designed with a factor of 2: 5000 lbf. By hand: 5000 · 4.448222 = 22 241 N.
/// assert_eq!(newtons("work anchor US"), Some(22_241.0));
/// ```
pub const AT_WORK: &[Strength] = &[
    published(
        "work anchor US",
        "anchor at work for each person, if not designed with a factor of 2",
        AtLeast,
        5000.0,
        PoundForce,
        "OSHA 1910.27(b), 1910.140(c)(13)",
    ),
    ARREST_US,
    ARREST_EN,
    published("rescue anchor US", "anchor for rescue, or 5:1", AtLeast, 3100.0, PoundForce, "ANSI Z359.4"),
    published(
        "work anchor",
        "anchor device for one person at work, for 3 min",
        AtLeast,
        12.0,
        Kilonewton,
        "EN 795:2012",
    ),
    published(
        "work anchor textile",
        "anchor device for one person at work, load-bearing parts not of metal, for 3 min",
        AtLeast,
        18.0,
        Kilonewton,
        "EN 795:2012",
    ),
    published("rope access anchor", "anchor for rope access, 2.5 × 6 kN", AtLeast, 15.0, Kilonewton, "BS 7985, IRATA"),
];
