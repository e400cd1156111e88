//! What is told of the part: remarks, working, formulas, cautions, what is not in it.

use super::super::answer::{Caution, Gravity};
use super::case::{Check, WITHOUT_LIMIT};
use super::{Natural, NaturalAnchor, Rooted, Seating};
use crate::band::Band;
use crate::working::{Formula, Source};

pub(super) const WINCHED: Source =
    Source::published("Nicoll et al. 2006 and follow-ups; Detter et al. 2023: trees winched over");
pub(super) const BEAM: Source =
    Source::derived("a round beam on two supports; green bending strength less knots, assumed");
pub(super) const WEIGHT: Source = Source::derived("weight, friction and moments; friction and shape assumed");
pub(super) const WEDGE: Source = Source::derived("passive wedge; wet ground, friction angle 25 to 35°, assumed");
pub(super) const TABLE: Source = Source::published("TM 5-5420-278-10, from 0.91 m of mean depth");
pub(super) const SLIDES: &str = "T = W(μ cos β − sin β) / (cos a + μ sin a), a = θ + β";
pub(super) const TOPPLES: &str = "T = W (d cos β − h_g sin β) / (h cos a − e sin a)";
pub(super) const LIFTS: &str = "T = least of W cos β / sin a and W (l cos β / 2 + h_g sin β) / (l sin a − h cos a)";

impl NaturalAnchor {
    /// How each way of giving way ends the sentence "at most 2 kN …".
    pub(super) fn ways_words(&self) -> [&'static str; 3] {
        match self.kind {
            Natural::Tree => ["before it tips over with its roots", "before its stem breaks", ""],
            Natural::Block => ["before it slides", "before it topples", "before it is lifted or tips back"],
            Natural::Log => ["before it breaks", "before it slides off", "before it is lifted"],
            Natural::Chockstone => [""; 3],
            Natural::Buried => ["by the wedge of ground that it would push up", "by the military table", ""],
        }
    }

    pub(super) fn known(&self) -> Source {
        match self.kind {
            Natural::Tree => WINCHED,
            Natural::Block => WEIGHT,
            Natural::Log if self.lies() => WEIGHT,
            Natural::Log => BEAM,
            Natural::Chockstone => Source::assumed("only friction is left"),
            Natural::Buried => WEDGE,
        }
    }

    pub(super) fn remarks(&self, check: &Check, still: Band, slip: Band) -> Vec<String> {
        let mut remarks = Vec::new();
        let mut say = |words: &str| remarks.push(words.to_owned());
        match check {
            Check::None(reason) => say(&["No figure: ", reason, "."].concat()),
            Check::Less(reason, tree, most) => {
                say(&["No figure: ", reason, "."].concat());
                if slip.low() > most.high() {
                    say(&["No: even the mildest slip pulls harder than ", tree, " could hold at the very most."]
                        .concat());
                }
            }
            Check::Nothing(reason) => say(&["No: ", reason, "."].concat()),
            Check::Figure(spreads) => {
                let [_, ways @ ..] = spreads.as_ref();
                let most = self.capacity(check).unwrap_or(Band::exact(0.0));
                say(if still.low() > most.high() {
                    "No: even the least weight that hangs on it is more than it can do at the very most."
                } else if slip.low() > most.high() {
                    "No: even the mildest slip pulls harder than it can do at the very most."
                } else if still.high() >= most.low() {
                    "At the adverse ends it may give way under people who only hang on it."
                } else if slip.high() >= most.low() {
                    "At the adverse ends it may give way when someone slips."
                } else {
                    "This check does not say no. That is not a yes: what is not computed decides."
                });
                if most.high() >= WITHOUT_LIMIT {
                    say(
                        "At its other end the pull presses it down so steeply that this check finds no end: go by the low end.",
                    );
                }
                let mut first: Option<(&str, f64)> = None;
                for (way, words) in ways.iter().zip(self.ways_words()) {
                    if way.band.low() < first.map_or(f64::INFINITY, |(_, low)| low) {
                        first = Some((words, way.band.low()));
                    }
                }
                if let Some((words, _)) = first.filter(|_| self.kind != Natural::Buried) {
                    say(&["What gives way first: ", words.trim_start_matches("before "), "."].concat());
                }
                if most.low() == 0.0 {
                    say("It may move without any pull: the ground is too steep for it, or it floats.");
                }
            }
        }
        if matches!(check, Check::Figure(_)) {
            match self.kind {
                Natural::Tree => {
                    if self.sling.value < 1.0 {
                        say("The sling counts as if it were at 1 m: no tree was winched over by a lower one.");
                    }
                    if self.down.value != 0.0 {
                        say(
                            "A pull that rises or runs down is credited with no more than a level one: no test is known.",
                        );
                    }
                    if self.stands == Rooted::Thin {
                        say(
                            "Thin soil, ledge or undercut: a quarter to a half of what roots in open ground hold is counted, which nobody has measured.",
                        );
                    }
                }
                Natural::Log => {
                    if self.seating == Seating::Out {
                        say("The pull draws it out of its place: only its weight and friction are counted.");
                    }
                    if self.lies() {
                        say(
                            "Pulled across its length a log rolls before it slides, at a small part of this: no figure is known here.",
                        );
                    } else if self.rises() > 0.0 {
                        say(
                            "The pull rises: it presses the log against rock only where rock lies above it. Else its weight is all that holds it down.",
                        );
                    }
                }
                Natural::Buried if self.table_run().is_some() => {
                    say("Wedge and table rest on different tests and do not agree; the lower one stands first.");
                }
                Natural::Buried => say(
                    "Not checked by the military table: it begins at a mean depth of 0.91 m, in loam, sand or silt, for pulls that rise 1 in 1 to 1 in 4.",
                ),
                _ => {}
            }
        }
        say(match self.kind {
            Natural::Tree => {
                "Look at: leaves, bark and fungus; cracks in the ground behind it; roots on the side away from the pull; what the last flood took from the bank."
            }
            Natural::Block => {
                "Look at: whether it rocks, what it stands on and leans against, whether water reaches it, edges under the sling."
            }
            Natural::Log => {
                "Look at: both ends and what they bear on, cracks and soft wood, a dull sound when it is knocked, the flood mark."
            }
            Natural::Chockstone => {
                "Look at: how both sides touch, which way the walls close, whether it moves by hand, loose stones behind it."
            }
            Natural::Buried => {
                "Look at: undisturbed ground before the face, a trench that leaves it whole, water that washes it out, rot."
            }
        });
        say(
            "Common practice, no source: sling it low; take what lives or is bedded deep; tie it back to a second point; look again after each person.",
        );
        remarks
    }

    pub(super) fn not_in(&self) -> Vec<&'static str> {
        let own: &[&str] = match self.kind {
            Natural::Tree => &[
                "a dead, rotten, hollow, cracked or loose tree",
                "roots on bare rock, and a bank that a flood has undercut",
                "roots that loosen a little with each pull",
                "a sling that slides up, and bark that gives way under it",
                "weight of crown and stem once it leans, wind and ice",
            ],
            Natural::Block => &[
                "a block that is jammed, undercut, or leans on another",
                "ground that washes out or gives way under its edge",
                "moving water that pushes it, and water higher than entered",
                "a pull to the side that turns it",
                "a rear foot that is shorter than the block, for a pull that rises",
                "a little that it creeps with each pull",
            ],
            Natural::Log => &[
                "rot, cracks, and knots beyond those assumed",
                "rolling",
                "ends that are jammed, clamped, or bear on loose stones",
                "water that rises and floats it off, and drift that hits it",
                "its own weight in bending, and a sling away from the middle",
                "a little that it works loose with each pull",
            ],
            Natural::Chockstone => &[
                "how it is jammed, and the rock that it bears on",
                "a pull that changes its direction",
                "shaking, frost and moving water",
                "a little that it turns or creeps with each pull",
            ],
            Natural::Buried => &[
                "ground that was dug up, and ground that washes out",
                "ground beside a narrow face, which adds, and a trench that takes away",
                "lifting of the face, but for what the table tested",
                "a face less high than the girth over π, as that of a square block",
                "rot and bending of what is buried",
                "a little that it creeps with each pull",
            ],
        };
        let of_all = [
            "a rope through it that is held from below, a redirect, a haul, a line across: they pull several times as hard",
            "the sling, its knot, and sharp edges under it",
            "several people who slip one after the other",
        ];
        [own, &of_all].concat()
    }
}

/// What the numbers of a kind rest on.
pub(super) fn formulas(kind: Natural) -> &'static [Formula] {
    static ALL: [Formula; 8] = [
        Formula::new(
            "tree tips over: m the green stem, C by kind and soil, k 0.58 to 1.73, s the place",
            "M = k s C m",
            WINCHED,
        ),
        Formula::new("tree: its stem breaks, of which two thirds may be reached", "M = π/32 f MOR D³", WINCHED),
        Formula::new("slides: slope β, pull θ above the level, a = θ + β", SLIDES, WEIGHT),
        Formula::new(
            "topples: centre d behind the edge, h_g high; sling h high, e before the edge if the pull runs down",
            TOPPLES,
            WEIGHT,
        ),
        Formula::new("is lifted, or tips back over its rear edge, each where what divides is above 0", LIFTS, WEIGHT),
        Formula::new("log across a gap L, σ 15 to 35 N/mm²", "F = σ π D³ / (8 L)", BEAM),
        Formula::new(
            "buried face: lower edge H deep, D high (H if it reaches the surface), b wide",
            "F = ½ tan²(45° + φ/2) γ (H² − (H − D)²) b",
            WEDGE,
        ),
        Formula::new("buried face by the table, p 45 to 72 kN/m²", "F = share · p · D b", TABLE),
    ];
    let (from, to) = match kind {
        Natural::Tree => (0, 2),
        Natural::Block => (2, 5),
        Natural::Chockstone => (0, 0),
        Natural::Log => (2, 6),
        Natural::Buried => (6, 8),
    };
    ALL.get(from..to).unwrap_or_default()
}

pub(super) const CAUTIONS: [Caution; 5] = [
    Caution::new(
        Gravity::Danger,
        "A natural part as the only anchor",
        "If it goes, everybody on it falls, and the part falls on them.",
        "Tie it back to a second point that does not depend on it.",
    ),
    Caution::new(
        Gravity::Danger,
        "A number taken for a strength",
        "It is the most that sound parts did or could do; yours may do nothing at all.",
        "Use it only to turn a part down.",
    ),
    Caution::new(
        Gravity::Warning,
        "It held the first of the group",
        "Roots, stones and ground loosen a little with each pull and give way under a later one.",
        "Look at it, and at the ground round it, after each person.",
    ),
    Caution::new(
        Gravity::Warning,
        "Water that has changed since it was slung",
        "It lifts blocks and logs, washes out ground, and leaves drift that looks solid.",
        "Take what stands above the flood mark.",
    ),
    Caution::OF_EVERY_NUMBER,
];
