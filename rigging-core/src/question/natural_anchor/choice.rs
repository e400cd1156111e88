//! What a natural anchor can be, and what is known of each kind.

use super::super::field::choices;
use crate::band::Band;
use crate::law::tree::{Soil, Species};
use crate::working::Source;

/// What holds the sling.
/// ```
/// use rigging_core::question::{Ask, BadInput, Natural, NaturalAnchor};
///
/// // Of a chockstone there is no figure, of the others the most that such a part can do.
/// let has_figure = |kind| -> Result<bool, BadInput> {
///     let found = NaturalAnchor { kind, ..NaturalAnchor::default() }.answer()?.findings;
///     Ok(found.iter().any(|finding| finding.at_most))
/// };
/// for kind in [Natural::Tree, Natural::Block, Natural::Log, Natural::Buried] {
///     assert!(has_figure(kind)?);
/// }
/// assert!(!has_figure(Natural::Chockstone)?);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Natural {
    /// A tree.
    #[default]
    Tree,
    /// A block that stands by its weight.
    Block,
    /// A log across a gap.
    Log,
    /// A stone jammed between walls.
    Chockstone,
    /// A buried log or block.
    Buried,
}
choices!(Natural {
    Tree = "tree", "a tree";
    Block = "block", "a boulder or block";
    Log = "log", "a log across a gap";
    Chockstone = "chockstone", "a chockstone";
    Buried = "buried", "a buried log or block";
});

/// The kind of tree.
/// ```
/// use rigging_core::question::{Ask, NaturalAnchor, TreeKind};
///
/// // Of one girth, stems break as their green wood does: beech at 65 N/mm², oak at 59 N/mm². Of any other kind no
/// // test is known here, and there is no figure.
/// let breaks = |tree_kind| {
///     let found = NaturalAnchor { tree_kind, ..NaturalAnchor::default() }.answer().ok()?.findings;
///     found.iter().find(|finding| finding.what == "before its stem breaks").map(|finding| finding.adverse())
/// };
/// let (beech, oak) = breaks(TreeKind::Beech).zip(breaks(TreeKind::Oak)).ok_or("no figure")?;
/// assert!((beech / oak - 65.0 / 59.0).abs() < 1e-9);
/// assert_eq!(breaks(TreeKind::Other), None);
/// # Ok::<(), &str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum TreeKind {
    /// Norway spruce.
    #[default]
    NorwaySpruce,
    /// Sitka spruce.
    SitkaSpruce,
    /// Scots pine.
    ScotsPine,
    /// Beech.
    Beech,
    /// Oak.
    Oak,
    /// Any other, or not known.
    Other,
}
choices!(TreeKind {
    NorwaySpruce = "norway spruce", "Norway spruce";
    SitkaSpruce = "sitka spruce", "Sitka spruce";
    ScotsPine = "scots pine", "Scots pine";
    Beech = "beech", "beech";
    Oak = "oak", "oak";
    Other = "other", "birch, any other, or not known";
});

impl TreeKind {
    /// The regressions that hold for it, if any do.
    pub(super) fn species(self) -> Option<Species> {
        match self {
            TreeKind::NorwaySpruce => Some(Species::NorwaySpruce),
            TreeKind::SitkaSpruce => Some(Species::SitkaSpruce),
            TreeKind::ScotsPine => Some(Species::ScotsPine),
            TreeKind::Beech => Some(Species::Beech),
            TreeKind::Oak => Some(Species::Oak),
            TreeKind::Other => None,
        }
    }
}

/// How the tree stands.
/// ```
/// use rigging_core::limit::Standing;
/// use rigging_core::question::{Ask, BadInput, NaturalAnchor, Rooted};
///
/// // Thin soil leaves a quarter of what roots in open ground hold, at the least (assumed).
/// let answer = |stands| NaturalAnchor { stands, ..NaturalAnchor::default() }.answer();
/// let (thin, wet) = (answer(Rooted::Thin)?, answer(Rooted::Wet)?);
/// assert!((thin.findings[0].adverse() / wet.findings[0].adverse() - 0.25).abs() < 1e-9);
/// // Loose roots are a no; nobody knows what a dead tree holds, but that what may be too much for a living one is.
/// assert_eq!(answer(Rooted::Loose)?.comparisons[0].standing, Standing::AboveLimit);
/// assert_eq!(answer(Rooted::Dead)?.comparisons[0].standing, Standing::RangeCrosses);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Rooted {
    /// Alive, in deep soil that drains.
    Deep,
    /// Alive, in wet or shallow soil.
    #[default]
    Wet,
    /// Alive, in thin soil on rock, on a ledge or undercut.
    Thin,
    /// Dead.
    Dead,
    /// Rotten, hollow or cracked.
    Rotten,
    /// Loose: roots torn or bare, or the ground moves with it.
    Loose,
}
choices!(Rooted {
    Deep = "deep", "alive, deep soil that drains";
    Wet = "wet", "alive, wet or shallow soil";
    Thin = "thin", "alive, thin soil on rock, ledge, undercut";
    Dead = "dead", "dead";
    Rotten = "rotten", "rotten, hollow or cracked";
    Loose = "loose", "loose: roots torn, the ground moves with it";
});

impl Rooted {
    pub(super) fn soil(self) -> Soil {
        if self == Rooted::Deep { Soil::Draining } else { Soil::Gleyed }
    }

    /// Share that the place leaves of what roots in open ground hold.
    pub(super) fn site(self) -> Band {
        if self == Rooted::Thin { Band::of(0.25, 0.3, 0.5) } else { Band::exact(1.0) }
    }

    /// Why nothing is computed for it, if nothing is. A loose tree is a no and not asked for here.
    pub(super) fn refused(self) -> Option<&'static str> {
        match self {
            Rooted::Deep | Rooted::Wet | Rooted::Thin | Rooted::Loose => None,
            Rooted::Dead => Some("dead tree: nothing is computed for it"),
            Rooted::Rotten => Some("rotten tree: nothing is computed for it"),
        }
    }
}

/// The shape of a block.
/// ```
/// use rigging_core::limit::Standing;
/// use rigging_core::question::{Ask, BadInput, Natural, NaturalAnchor, Shape};
///
/// // A round block is a no, however heavy: it is counted as nothing.
/// let still = |shape| -> Result<Standing, BadInput> {
///     let block = NaturalAnchor { kind: Natural::Block, shape, ..NaturalAnchor::default() };
///     Ok(block.answer()?.comparisons[1].standing)
/// };
/// assert_eq!(still(Shape::Round)?, Standing::AboveLimit);
/// assert!(matches!(still(Shape::Angular)?, Standing::NotChecked(_)));
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Shape {
    /// It has faces and stands on one.
    #[default]
    Angular,
    /// Round: it rolls.
    Round,
}
choices!(Shape {
    Angular = "angular", "has faces and stands flat on one";
    Round = "round", "round, or stands on an edge or a point";
});

/// What a block or a log rests on.
/// ```
/// use rigging_core::quantity::{Length, metre};
/// use rigging_core::question::{Ask, BadInput, Contact, Natural, NaturalAnchor};
///
/// // Pulled level, a block slides at μ times its weight: at the least 0.15 of it on slime, 0.25 on sandy rock.
/// let slides = |contact| -> Result<f64, BadInput> {
///     let down = Length::new::<metre>(0.0);
///     let block = NaturalAnchor { kind: Natural::Block, down, contact, ..NaturalAnchor::default() };
///     Ok(block.answer()?.findings[0].adverse())
/// };
/// assert!((slides(Contact::Slime)? / slides(Contact::SandyRock)? - 0.15 / 0.25).abs() < 1e-9);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Contact {
    /// Clean wet rock.
    #[default]
    CleanRock,
    /// Rounded, sandy or silty rock.
    SandyRock,
    /// Polished or slimy rock.
    Slime,
    /// Gravel or sand.
    Gravel,
    /// Mud.
    Mud,
}
choices!(Contact {
    CleanRock = "clean rock", "clean wet rock";
    SandyRock = "sandy rock", "rounded, sandy or silty rock";
    Slime = "slime", "polished or slimy rock";
    Gravel = "gravel", "gravel or sand";
    Mud = "mud", "mud";
});

impl Contact {
    /// Coefficient of friction, and how it is known.
    /// ```
    /// use rigging_core::question::Contact;
    ///
    /// // NAVFAC DM-7.02 prints 0.55 to 0.60 on gravel: no more than the least of it is counted.
    /// assert_eq!(Contact::Gravel.friction().0.high(), 0.55);
    /// // The best of slime is no better than the least of clean rock.
    /// assert!(Contact::Slime.friction().0.high() <= Contact::CleanRock.friction().0.low());
    /// ```
    pub fn friction(self) -> (Band, Source) {
        const ASSUMED: Source = Source::assumed("no test of such a contact is known");
        match self {
            Contact::CleanRock => (
                Band::of(0.35, 0.50, 0.60),
                Source::assumed("about basic friction of wet limestone, granite, gneiss: Barton & Choubey 1977"),
            ),
            Contact::SandyRock => (Band::of(0.25, 0.40, 0.60), ASSUMED),
            Contact::Slime => (Band::of(0.15, 0.25, 0.35), ASSUMED),
            Contact::Gravel => {
                (Band::of(0.40, 0.50, 0.55), Source::assumed("NAVFAC DM-7.02 prints 0.55 to 0.60 on gravel"))
            }
            Contact::Mud => (Band::of(0.20, 0.30, 0.40), ASSUMED),
        }
    }
}

/// How the pull runs against what keeps a log or a chockstone in its place.
/// ```
/// use rigging_core::limit::Standing;
/// use rigging_core::question::{Ask, BadInput, Natural, NaturalAnchor, Seating};
///
/// // A chockstone that the pull draws out, or does not press into its taper, is a no; of one that it presses in
/// // nothing can be said.
/// let still = |seating| -> Result<Standing, BadInput> {
///     let stone = NaturalAnchor { kind: Natural::Chockstone, seating, ..NaturalAnchor::default() };
///     Ok(stone.answer()?.comparisons[1].standing)
/// };
/// assert_eq!((still(Seating::Out)?, still(Seating::Along)?), (Standing::AboveLimit, Standing::AboveLimit));
/// assert!(matches!(still(Seating::Into)?, Standing::NotChecked(_)));
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Seating {
    /// It presses the part into its place.
    #[default]
    Into,
    /// It runs along: nothing but weight and friction keeps the part.
    Along,
    /// It draws the part out.
    Out,
}
choices!(Seating {
    Into = "into", "presses it against rock or into its taper";
    Along = "along", "runs along: it lies there by its weight";
    Out = "out", "draws it out of its place or its taper";
});

/// The ground before a buried face.
/// ```
/// use rigging_core::quantity::{Length, metre};
/// use rigging_core::question::{Ask, Ground, Natural, NaturalAnchor};
///
/// // A deep face, the pull rising: the military table gives wet sand half of loam and knows no gravel.
/// let [down, high] = [-1.0, 1.2].map(Length::new::<metre>);
/// let face = NaturalAnchor { kind: Natural::Buried, down, high, ..NaturalAnchor::default() };
/// let by_table = |ground| {
///     let found = NaturalAnchor { ground, ..face.clone() }.answer().ok()?.findings;
///     found.iter().find(|finding| finding.what == "by the military table").map(|finding| finding.adverse())
/// };
/// let (sand, loam) = by_table(Ground::Sand).zip(by_table(Ground::Loam)).ok_or("no figure")?;
/// assert!((sand / loam - 0.5).abs() < 1e-9 && by_table(Ground::Gravel).is_none());
/// # Ok::<(), &str>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Ground {
    /// Wet gravel.
    #[default]
    Gravel,
    /// Wet sand or silt.
    Sand,
    /// Loam that is not wet.
    Loam,
}
choices!(Ground {
    Gravel = "gravel", "wet gravel";
    Sand = "sand", "wet sand or silt";
    Loam = "loam", "loam, not wet";
});

impl Ground {
    /// Share of the table's pressure that holds in it, if the table knows it.
    pub(super) fn of_table(self) -> Option<f64> {
        match self {
            Ground::Gravel => None,
            Ground::Sand => Some(0.5),
            Ground::Loam => Some(1.0),
        }
    }
}
