//! Tree, log, boulder, chockstone, buried log: what can it say no to?

#[cfg(test)]
mod balance;
mod case;
mod choice;
mod scene;
#[cfg(test)]
mod tests;
mod told;
mod worked;

pub use choice::{Contact, Ground, Natural, Rooted, Seating, Shape, TreeKind};

use case::{Check, INPUTS, Inputs, WITHOUT_LIMIT};
use told::{CAUTIONS, formulas};

use super::against::{Against, Holds};
use super::answer::{Answer, ChosenLimit, Comparison, Finding};
use super::carried::{Carried, HeldBy};
use super::field::{Field, place, table};
use super::input::BadInput;
use super::people::{self, People, State, asks_people};
use super::scene::from_plumb;
use super::{Ask, Solve};
use crate::band::{Band, Spread};
use crate::law::OutOfDomain;
use crate::limit::Standing;
use crate::quantity::{Kind, Length, Mass, Ratio, kilogram, metre, ratio};
use crate::working::Source;

/// A tree, a block, a log, a chockstone or a buried face with a sling on it.
/// ```
/// use rigging_core::question::Question;
///
/// // A block of a metre, pulled level, slides at the latest at its friction times its weight: rock fills at least
/// // 0.45 of the box around it and has at least 2500 kg/m³, friction on sandy rock is at least 0.25.
/// let block: Question = serde_json::from_str(
///     r#"{"question": "natural anchor", "kind": "block", "long_m": 1, "wide_m": 1, "high_m": 1, "down_m": 0,
///         "contact": "sandy rock"}"#,
/// )?;
/// let at_most = &block.answer()?.findings[0];
/// assert!(at_most.at_most && (at_most.adverse() - 0.25 * 0.45 * 2500.0 * 9.806_65).abs() < 1e-6);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NaturalAnchor {
    /// What it is.
    pub kind: Natural,
    /// Level distance from the sling to where the rope bends or hangs.
    pub out: Length,
    /// How far that place is below the sling.
    pub down: Length,
    /// Height of the sling above the foot of a tree or a block.
    pub sling: Length,
    /// Girth of a tree, a log or a buried log.
    pub girth: Band<Length>,
    /// The kind of tree.
    pub tree_kind: TreeKind,
    /// How it stands.
    pub stands: Rooted,
    /// Its height; 0 if it was not measured.
    pub tree_height: Band<Length>,
    /// Length of a block along the pull, or of a log.
    pub long: Length,
    /// Width of a block across the pull, gap under a log, width of a buried face.
    pub wide: Length,
    /// Height of a block, or depth of the lower edge of a buried face.
    pub high: Length,
    /// The shape of a block.
    pub shape: Shape,
    /// Mass of a cubic metre of rock.
    pub cubic_metre: Band<Mass>,
    /// Share of a block or a log that is under water.
    pub under_water: Band<Ratio>,
    /// What a block or a log rests on.
    pub contact: Contact,
    /// How far the ground under a block falls toward the load for each metre.
    pub falls: Ratio,
    /// How the pull runs against what keeps a log or a chockstone in its place.
    pub seating: Seating,
    /// The ground before a buried face.
    pub ground: Ground,
    /// Who hangs on it.
    pub people: People,
}

impl Default for NaturalAnchor {
    fn default() -> Self {
        let metres = Length::new::<metre>;
        NaturalAnchor {
            kind: Natural::Tree,
            out: metres(3.0),
            down: metres(0.6),
            sling: metres(0.3),
            girth: Band::of(0.57, 0.60, 0.63).map(metres),
            tree_kind: TreeKind::NorwaySpruce,
            stands: Rooted::Thin,
            tree_height: Band::exact(metres(0.0)),
            long: metres(1.2),
            wide: metres(1.0),
            high: metres(0.8),
            shape: Shape::Angular,
            cubic_metre: Band::of(2500.0, 2600.0, 2700.0).map(Mass::new::<kilogram>),
            under_water: Band::of(0.0, 0.0, 0.0).map(Ratio::new::<ratio>),
            contact: Contact::SandyRock,
            falls: Ratio::new::<ratio>(0.0),
            seating: Seating::Into,
            ground: Ground::Gravel,
            people: People::default(),
        }
    }
}

asks_people!(NaturalAnchor);

impl NaturalAnchor {
    fn is(&self, kinds: &[Natural]) -> bool {
        kinds.contains(&self.kind)
    }

    /// Whether a block or a log rests only on what is under it.
    fn rests(&self) -> bool {
        self.kind == Natural::Block || self.kind == Natural::Log && self.lies()
    }

    fn noun(&self) -> &'static str {
        match self.kind {
            Natural::Tree => "tree",
            Natural::Block => "block",
            Natural::Log => "log",
            Natural::Chockstone => "chockstone",
            Natural::Buried => "buried face",
        }
    }
}

impl Ask for NaturalAnchor {
    const NAME: &'static str = "natural anchor";
    const WORDS: &'static str = "Tree, log, boulder, chockstone, buried log: what can it say no to?";
    const ABOUT: &'static str = "What a tree, a block, a log or a buried face can do at the very most";
    const EXAMPLE: &'static str =
        "A spruce of 0.6 m girth in thin soil on rock, slung low, three metres behind the lip.";

    fn fields() -> Vec<Field<Self>> {
        let mut fields = table![
            Field::choice('a', "kind", Natural::CHOICES, place!(kind)).says("What holds the sling", "one natural part"),
            Field::one('b', "out_m", Kind::Length, 0.1..=100.0, place!(out))
                .says("Out: sling to where the rope bends or hangs", "level distance, to the lip"),
            Field::one('c', "down_m", Kind::Length, -50.0..=50.0, place!(down))
                .says("Down: that place below the sling", "negative if the rope rises from the sling"),
            Field::one('d', "sling_m", Kind::Length, 0.0..=5.0, place!(sling))
                .says("Sling above the foot", "of the tree or block; low is better")
                .asked_if(|question| question.is(&[Natural::Tree, Natural::Block])),
            Field::range('e', "girth_m", Kind::Length, 0.1..=6.0, place!(girth))
                .says("Girth", "once round with a sling: tree at the chest, log at its thinnest")
                .asked_if(|question| question.is(&[Natural::Tree, Natural::Log, Natural::Buried])),
            Field::choice('f', "tree", TreeKind::CHOICES, place!(tree_kind))
                .says("Kind of tree", "only these have been winched over for tests known here")
                .asked_if(|question| question.kind == Natural::Tree),
            Field::choice('g', "stands", Rooted::CHOICES, place!(stands))
                .says("How it stands", "if in doubt the worse")
                .asked_if(|question| question.kind == Natural::Tree),
            Field::range('h', "tree_height_m", Kind::Length, 0.0..=50.0, place!(tree_height))
                .says("Height of the tree", "0: not measured, 0.3 to 1.2 times a usual one for the girth")
                .from(Source::assumed("1 m and 0.65 m for each cm of diameter"))
                .asked_if(|question| question.kind == Natural::Tree),
            Field::one('i', "long_m", Kind::Length, 0.05..=30.0, place!(long))
                .says("Length", "of the block along the pull; of the whole log")
                .asked_if(NaturalAnchor::rests),
            Field::one('j', "wide_m", Kind::Length, 0.05..=20.0, place!(wide))
                .says("Width", "of the block across the pull; of the gap under the log; of the buried face")
                .asked_if(|question| question.is(&[Natural::Block, Natural::Log, Natural::Buried])),
            Field::one('p', "high_m", Kind::Length, 0.05..=10.0, place!(high))
                .says("Height or depth", "of the block; of the lower edge of the buried face below the surface")
                .asked_if(|question| question.is(&[Natural::Block, Natural::Buried])),
            Field::choice('r', "shape", Shape::CHOICES, place!(shape))
                .says("Shape of the block", "what is round rolls")
                .asked_if(|question| question.kind == Natural::Block),
            Field::range('s', "cubic_metre_kg", Kind::Mass, 1000.0..=3500.0, place!(cubic_metre))
                .says("Mass of a cubic metre of the rock", "most rock 2500 to 2700 kg; tuff and chalk far less")
                .from(Source::assumed("limestone, granite, gneiss"))
                .asked_if(|question| question.kind == Natural::Block),
            Field::range('t', "under_water", Kind::Ratio, 0.0..=1.0, place!(under_water))
                .says("Share of it under water", "0 dry, 1 covered, as the water may rise; taken to be laden with silt")
                .asked_if(|question| question.is(&[Natural::Block, Natural::Log])),
            Field::choice('u', "contact", Contact::CHOICES, place!(contact))
                .says("What it rests on", "the friction that keeps it from sliding")
                .from(Source::assumed("no test of such a contact is known"))
                .asked_if(NaturalAnchor::rests),
            Field::one('v', "falls", Kind::Ratio, -1.0..=1.0, place!(falls))
                .says(
                    "Ground falls toward the load, as a share of the way",
                    "0.10: a tenth of the distance; negative if it rises",
                )
                .asked_if(|question| question.kind == Natural::Block),
            Field::choice('x', "seating", Seating::CHOICES, place!(seating))
                .says("The pull against its place", "what keeps a log or a chockstone where it is")
                .asked_if(|question| question.is(&[Natural::Log, Natural::Chockstone])),
            Field::choice('z', "ground", Ground::CHOICES, place!(ground))
                .says("Ground before the face", "the military table knows no gravel")
                .asked_if(|question| question.kind == Natural::Buried),
        ];
        fields.extend(people::fields());
        fields
    }
}

impl Solve for NaturalAnchor {
    const KEY: &'static str = "na";

    fn solve(&self) -> Result<Answer, BadInput> {
        self.fits()?;
        let check = self.check()?;
        let (slip, still) = (self.people.spread(State::Slip)?, self.people.spread(State::Still)?);
        let pull = from_plumb(self.along(1.0));
        let load = |doing: &str, spread: &Spread<3>| {
            const LOAD: [&str; 3] = [people::LABELS[0], people::LABELS[1], "how hard the slip is"];
            let what = format!("on the {} {doing}", self.noun());
            Finding { pull, ..Finding::load(what, spread.band).moved_by(spread, &LOAD) }
        };
        let mut findings = self.found(&check);
        let capacity = findings.len().min(1);
        findings.splice(capacity..capacity, [load("when someone slips", &slip), load("hanging still", &still)]);
        let mut states = Vec::new();
        for state in State::ALL {
            states.push(Finding::load(state.of("in the rope"), self.people.spread(state)?.band));
        }
        let compare = |doing: &str, load: Band| self.compared(&check, format!("on the {} {doing}", self.noun()), load);
        let comparisons = vec![compare("when someone slips", slip.band), compare("hanging still", still.band)];
        let carried = Carried::by_rope(slip.band, self.people.count, HeldBy::Said(Holds::Natural));
        let mut usual = carried.compare(&Against::default());
        // No figure of a bolt is set beside a natural part.
        usual.retain(|row| !row.what.contains("anchor"));
        let worst = self.worst(&check);
        Ok(Answer {
            findings,
            states,
            comparisons,
            carried: Some(carried),
            usual,
            remarks: self.remarks(&check, still.band, slip.band),
            scene: self.scene(&check, &worst, slip.band.high())?,
            working: self.working(&check, &worst, &slip)?,
            formulas: [formulas(self.kind), &people::FORMULAS].concat(),
            cautions: CAUTIONS.to_vec(),
            not_in: self.not_in(),
            ..Answer::default()
        })
    }
}

impl NaturalAnchor {
    /// Refuses lengths that cannot be together.
    fn fits(&self) -> Result<(), OutOfDomain> {
        let (what, value, must) = match self.kind {
            Natural::Block if self.sling > self.high => {
                ("height of the sling", self.sling, "not above the block: set it lower or the block higher")
            }
            Natural::Tree if !self.height_unknown() && self.sling > self.tree_height.high() => {
                ("height of the sling", self.sling, "not above the tree: set it lower or the tree higher")
            }
            Natural::Log if self.lies() && self.long <= self.wide => {
                ("length of the log", self.long, "more than the gap: set it longer or the gap narrower")
            }
            _ => return Ok(()),
        };
        Err(OutOfDomain { what, value: value.value, must })
    }

    /// What the part can do at most: by all ways, then by each.
    fn found(&self, check: &Check) -> Vec<Finding> {
        let Check::Figure(spreads) = check else { return Vec::new() };
        let [least, ways @ ..] = spreads.as_ref();
        let what = format!("from this {}, by the one check that can say no", self.noun());
        let mut findings = vec![Finding::at_most(what, least.band).moved_by(least, &INPUTS)];
        let mut each: Vec<Finding> = ways
            .iter()
            .zip(self.ways_words())
            // From nothing to no limit says nothing of a way; that it may move by itself stands in a remark.
            .filter(|(way, _)| way.band.low() < WITHOUT_LIMIT)
            .filter(|(way, _)| way.band.low() > 0.0 || way.band.high() < WITHOUT_LIMIT)
            .map(|(way, words)| Finding::at_most(words, way.band).moved_by(way, &INPUTS))
            .collect();
        // The lower bound first.
        if let [one, other] = each.as_mut_slice()
            && other.band.low() < one.band.low()
        {
            std::mem::swap(one, other);
        }
        if each.len() > 1 {
            findings.append(&mut each);
        }
        findings
    }

    /// The range of what the part can do at most. Two bounds of one thing that do not agree reach from one to the other.
    fn capacity(&self, check: &Check) -> Option<Band> {
        match check {
            Check::Figure(spreads) => {
                let [least, wedge, table, _] = spreads.as_ref();
                let mut high = least.band.high();
                if self.kind == Natural::Buried {
                    high = wedge.band.high();
                    if table.band.high() < WITHOUT_LIMIT {
                        high = high.max(table.band.high());
                    }
                }
                Some(Band::of(least.band.low(), least.band.typical(), high))
            }
            Check::Nothing(_) => Some(Band::exact(0.0)),
            Check::None(_) | Check::Less(..) => None,
        }
    }

    /// Too much can be said, never that it is little enough.
    fn compared(&self, check: &Check, what: String, load: Band) -> Comparison {
        let reason = match check {
            Check::None(reason) | Check::Nothing(reason) | Check::Less(reason, ..) => *reason,
            Check::Figure(_) => match self.kind {
                Natural::Tree => "tree: what it can do at most is no strength",
                Natural::Block => "block: what it can do at most is no strength",
                Natural::Log => "log: what it can do at most is no strength",
                Natural::Chockstone => "chockstone: no figure holds for it",
                Natural::Buried => "buried face: what it can do at most is no strength",
            },
        };
        // What is or may be too much for a living tree is so for a dead one.
        let less = match check {
            Check::Less(.., most) => Some(*most),
            _ => None,
        };
        let less = less.filter(|&most| Standing::of(load, most) != Standing::BelowLimit);
        let Some(band) = self.capacity(check).or(less) else {
            return Comparison { what, load, limit: None, standing: Standing::NotChecked(reason) };
        };
        let part = match check {
            Check::Nothing(reason) => format!("{reason}, counted as nothing"),
            Check::Less(_, tree, _) => ["the most that ", tree, " could do, never a strength"].concat(),
            _ => format!("the most that this {} can do by this check, never a strength", self.noun()),
        };
        let limit = ChosenLimit { band, figure: band.low(), factor: 1.0, part, source: self.known() };
        Comparison { what, load, limit: Some(limit), standing: Standing::of(load, band).of_unknown_part(reason) }
    }

    /// The case in which the part can do least.
    fn worst(&self, check: &Check) -> Inputs {
        match check {
            Check::Figure(spreads) => {
                let [least, ..] = spreads.as_ref();
                least.at_low
            }
            _ => self.inputs().map(|input| input.typical()),
        }
    }

    /// A pull of a size, as it leaves the sling.
    fn along(&self, force: f64) -> [f64; 2] {
        let rises = self.rises();
        [force * rises.cos(), force * rises.sin()]
    }
}
