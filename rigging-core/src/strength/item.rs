//! Parts between the rock and a person, and the figures that hold for them.

use super::hardware::{BOLT_AXIAL, BOLT_RADIAL, CONNECTORS, DEVICES, SIT_HARNESS};
use super::rope::{CORDS, ROPE_A, ROPE_B, SEWN_SLING, TAPE_NEW, TUBULAR_INCH};
use super::{Strength, row};

/// What a soft part is made of.
/// ```
/// use rigging_core::strength::item::Material;
/// use rigging_core::strength::knot::{KNOTS, Kept};
///
/// // A water knot holds in nylon and slips in HMPE.
/// let water = KNOTS.iter().find(|row| row.name == "water").ok_or("no such knot")?;
/// assert!(matches!(water.measured(Material::Nylon), Kept::Share(..)));
/// assert!(matches!(water.measured(Material::Hmpe), Kept::Refused(_)));
/// # Ok::<(), &'static str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Material {
    /// Polyamide.
    Nylon,
    /// Polyester.
    Polyester,
    /// High-modulus polyethylene.
    Hmpe,
}

/// The form of a soft part.
/// ```
/// use rigging_core::strength::item::{Form, ITEMS};
///
/// // A part has one form; only what was measured may hold for any.
/// let forms: Vec<Form> = ITEMS.iter().filter_map(|item| item.made()).map(|made| made.form).collect();
/// assert!(!forms.contains(&Form::Any));
/// assert!([Form::Rope, Form::Cord, Form::Tape, Form::Sling].iter().all(|form| forms.contains(form)));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Form {
    /// Rope.
    Rope,
    /// Cord.
    Cord,
    /// Flat or tubular tape.
    Tape,
    /// A sling sewn to a loop; its figure is that of the loop.
    Sling,
    /// Any of them.
    Any,
}

/// Material and form of a soft part.
/// ```
/// use rigging_core::strength::item::{Form, ITEMS, Made, Material};
///
/// let nylon_rope = Made { material: Material::Nylon, form: Form::Rope };
/// let made_so = ITEMS.iter().filter(|item| item.made() == Some(nylon_rope)).map(|item| item.name);
/// // The two types of EN 1891.
/// assert_eq!(made_so.collect::<Vec<_>>(), ["rope A nylon", "rope B nylon"]);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Made {
    /// Of what.
    pub material: Material,
    /// In what form.
    pub form: Form,
}

/// What is known of a part's strength.
/// ```
/// use rigging_core::strength::item::{Figure, ITEMS};
///
/// let basic = ITEMS.iter().find(|row| row.name == "connector").ok_or("no such part")?;
/// let Some(Figure::Connector { along, open, across }) = basic.figure else { return Err("not a connector") };
/// // EN 12275, type B: 20 kN along, 7 with its gate open, 7 across.
/// assert_eq!((along.printed, open?.printed, across?.printed), (20.0, 7.0, 7.0));
/// # Ok::<(), &'static str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Figure {
    /// One strand of something soft, or the loop of a sewn sling.
    Soft(Strength, Made),
    /// A connector: along with the gate closed, along with it open, across.
    Connector {
        /// Along, closed.
        along: Strength,
        /// Along, gate open; or why there is no such figure.
        open: Result<Strength, &'static str>,
        /// Across; or why there is no such figure.
        across: Result<Strength, &'static str>,
    },
    /// A bolt, flat on the rock: straight out and along.
    Bolt(Strength, Strength),
    /// One figure, however it is loaded.
    Plain(Strength),
    /// A figure that the user reads off the part.
    Stated,
    /// Nobody knows: the reason.
    Unknown(&'static str),
    /// No rule speaks of it, and none is stretched to it: the reason.
    Excluded(&'static str),
}

/// A kind of part.
/// ```
/// use rigging_core::strength::item::{Figure, ITEMS};
///
/// let figure = |name| ITEMS.iter().find(|item| item.name == name).and_then(|item| item.figure);
/// // Nothing there has no figure; a tree is there, and nobody knows its strength.
/// assert_eq!(figure("none"), None);
/// assert!(matches!(figure("natural"), Some(Figure::Unknown(_))));
/// // EN 564 speaks of cord from 4 to 8 mm only.
/// assert!(matches!(figure("cord other"), Some(Figure::Excluded(_))));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Item {
    /// Its name in JSON.
    pub name: &'static str,
    /// What it says on the page.
    pub words: &'static str,
    /// What is known of its strength; nothing is there if none.
    pub figure: Option<Figure>,
}

impl Item {
    /// Whether its figure is that of a rope: what has no figure is none.
    /// ```
    /// use rigging_core::strength::item::ITEMS;
    ///
    /// let is_rope = |name| ITEMS.iter().find(|item| item.name == name).map(|item| item.is_rope());
    /// assert_eq!(is_rope("rope A nylon"), Some(true));
    /// // Cord is none, however thick.
    /// assert_eq!(is_rope("cord 8 mm"), Some(false));
    /// ```
    pub const fn is_rope(&self) -> bool {
        matches!(self.made(), Some(Made { form: Form::Rope, .. }))
    }

    /// Material and form, if it is soft.
    /// ```
    /// use rigging_core::strength::item::{Form, ITEMS, Made, Material};
    ///
    /// let made = |name| ITEMS.iter().find(|item| item.name == name).and_then(|item| item.made());
    /// assert_eq!(made("sling HMPE"), Some(Made { material: Material::Hmpe, form: Form::Sling }));
    /// // A bolt is not soft.
    /// assert_eq!(made("bolt"), None);
    /// ```
    pub const fn made(&self) -> Option<Made> {
        match self.figure {
            Some(Figure::Soft(_, made)) => Some(made),
            _ => None,
        }
    }
}

const fn item(name: &'static str, words: &'static str, figure: Figure) -> Item {
    Item { name, words, figure: Some(figure) }
}
const fn soft(name: &'static str, words: &'static str, strength: Strength, material: Material, form: Form) -> Item {
    item(name, words, Figure::Soft(strength, Made { material, form }))
}
const fn unknown(name: &'static str, words: &'static str, why: &'static str) -> Item {
    item(name, words, Figure::Unknown(why))
}
const fn connector(
    name: &'static str,
    words: &'static str,
    along: &str,
    open: Result<&str, &'static str>,
    across: Result<&str, &'static str>,
) -> Item {
    let open = match open {
        Ok(open) => Ok(row(CONNECTORS, open)),
        Err(why) => Err(why),
    };
    let across = match across {
        Ok(across) => Ok(row(CONNECTORS, across)),
        Err(why) => Err(why),
    };
    item(name, words, Figure::Connector { along: row(CONNECTORS, along), open, across })
}
const LOCKS: Result<&str, &str> = Err("no gate-open figure holds for a connector that locks by itself");
const SCREW: Result<&str, &str> = Err("a screw link is closed before it is loaded: an open one has no figure");
const NO_CROSS: Result<&str, &str> = Err("no figure across is stated for this type of connector");

/// The kinds of parts there are, by their places in a link: only ever added to at the end.
/// ```
/// use rigging_core::strength::item::{Figure, ITEMS};
///
/// let figure = |name| ITEMS.iter().find(|row| row.name == name).and_then(|row| row.figure);
/// // The gate of one that locks by itself has no figure open, only a reason.
/// assert!(matches!(figure("connector"), Some(Figure::Connector { open: Ok(open), .. }) if open.printed == 7.0));
/// assert!(matches!(figure("connector locking"), Some(Figure::Connector { open: Err(_), .. })));
/// // EN 564 for 8 mm, by hand: 0.2 · 8² = 12.8 kN.
/// assert!(matches!(figure("cord 8 mm"), Some(Figure::Soft(cord, _)) if cord.printed == 12.8));
/// ```
pub const ITEMS: &[Item] = &[
    Item { name: "none", words: "nothing here", figure: None },
    item("bolt", "bolt: its standard and placing known", Figure::Bolt(BOLT_AXIAL, BOLT_RADIAL)),
    unknown("bolt found", "bolt or piton found in place", "found in place: nobody knows its strength"),
    unknown("natural", "tree, log, block or chockstone", "natural anchor: no published strength holds for it"),
    unknown("people", "people as anchor", "people as anchor: no strength holds for them"),
    unknown("unseen", "anchor not seen yet", "not seen yet"),
    connector("connector", "connector, basic (B)", "connector", Ok("connector open"), Ok("connector across")),
    connector("connector locking", "connector, locks by itself (B)", "connector", LOCKS, Ok("connector across")),
    connector("connector H", "connector, pear (H)", "connector H", Ok("connector H open"), Ok("connector H across")),
    connector(
        "connector K",
        "connector, klettersteig (K)",
        "connector K",
        Ok("connector K open"),
        Ok("connector K across"),
    ),
    connector("connector A", "connector, directional (A, D)", "connector A", Ok("connector A open"), NO_CROSS),
    connector("connector X", "connector, oval (X)", "connector X", Ok("connector X open"), Ok("connector X across")),
    connector("screw link", "screw link (Q)", "screw link", SCREW, Ok("screw link across")),
    unknown("ring found", "ring, link or hanger found in place", "found in place: nobody knows its strength or wear"),
    soft("sling nylon", "sewn sling, nylon", SEWN_SLING, Material::Nylon, Form::Sling),
    soft("sling HMPE", "sewn sling, HMPE", SEWN_SLING, Material::Hmpe, Form::Sling),
    soft("tape", "nylon tape by today's standard", TAPE_NEW, Material::Nylon, Form::Tape),
    soft("tubular 1", "tubular nylon tape 1 in", TUBULAR_INCH, Material::Nylon, Form::Tape),
    soft("cord 4 mm", "nylon cord 4 mm", row(CORDS, "cord 4 mm"), Material::Nylon, Form::Cord),
    soft("cord 5 mm", "nylon cord 5 mm", row(CORDS, "cord 5 mm"), Material::Nylon, Form::Cord),
    soft("cord 6 mm", "nylon cord 6 mm", row(CORDS, "cord 6 mm"), Material::Nylon, Form::Cord),
    soft("cord 7 mm", "nylon cord 7 mm", row(CORDS, "cord 7 mm"), Material::Nylon, Form::Cord),
    soft("cord 8 mm", "nylon cord 8 mm", row(CORDS, "cord 8 mm"), Material::Nylon, Form::Cord),
    item(
        "cord other",
        "cord thinner than 4 or thicker than 8 mm",
        Figure::Excluded("the rule of EN 564, 0.2 d², speaks of cord from 4 to 8 mm only"),
    ),
    soft("rope A nylon", "low-stretch rope A, nylon", ROPE_A, Material::Nylon, Form::Rope),
    soft("rope A polyester", "low-stretch rope A, polyester", ROPE_A, Material::Polyester, Form::Rope),
    soft("rope B nylon", "low-stretch rope B, nylon", ROPE_B, Material::Nylon, Form::Rope),
    soft("rope B polyester", "low-stretch rope B, polyester", ROPE_B, Material::Polyester, Form::Rope),
    unknown("rope dynamic", "dynamic rope", "its standard names no strength, but falls held and a peak force"),
    unknown(
        "soft found",
        "rope, cord or sling found in place",
        "found in place: four slings tested held 3.8 to 6.3 kN, weaker ones exist; cut it away and use your own",
    ),
    item("pulley", "pulley", Figure::Plain(row(DEVICES, "pulley"))),
    item("descender", "manual descender, rope fixed to it", Figure::Plain(row(DEVICES, "manual descender"))),
    item("rope clamp", "rope clamp", Figure::Plain(row(DEVICES, "rope clamp"))),
    item("harness", "sit harness (C)", Figure::Plain(SIT_HARNESS)),
    item("stated", "part of metal, pulled the way its printed figure holds", Figure::Stated),
];
