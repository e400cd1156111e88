//! What the part can do at most, in one case and over all of them.

use super::{Natural, NaturalAnchor, Rooted, Seating, Shape};
use crate::band::{Band, Spread, sweep_corners};
use crate::law::drag::LADEN_WATER;
use crate::law::ground::{self, Block, Directions};
use crate::law::{OutOfDomain, buried, log, tree};
use crate::quantity::{Angle, Force, Length, Mass, Pressure, Ratio, kilogram, metre, newton, pascal, radian, ratio};
use std::f64::consts::{FRAC_PI_3, FRAC_PI_4, PI};

/// What is uncertain: girth, height of the tree (if it was not measured, a share of the usual one), scatter of one
/// tree, what its place leaves, share of the box, mass of a cubic metre, share under water, friction, bending strength,
/// friction angle and weight of a cubic metre of the ground, share of its length that a block stands on.
pub(super) type Inputs = [f64; 12];

pub(super) const INPUTS: [&str; 12] = [
    "girth",
    "height of the tree",
    "how one tree differs from the next",
    "what the place leaves of the roots",
    "share of the box that is rock",
    "mass of a cubic metre",
    "share under water",
    "friction of what it rests on",
    "bending strength of the log",
    "friction angle of the ground",
    "weight of the ground",
    "share of its length that it stands on",
];

/// The check of a part.
pub(super) enum Check {
    /// What it can do at most, by all ways and by each; those that have no limit reach [`WITHOUT_LIMIT`].
    Figure(Box<[Spread<12>; 4]>),
    /// It does nothing that can be counted on: the reason.
    Nothing(&'static str),
    /// There is no figure: the reason.
    None(&'static str),
    /// There is no figure: the reason, and a tree that could do more, with what it could do at most.
    Less(&'static str, &'static str, Band),
}

/// Stands for a pull without limit, N: more than any part that can be entered weighs.
pub(super) const WITHOUT_LIMIT: f64 = 1e9;

/// Density of a log, from dry to soaked, and its bending strength.
const LOG_CUBIC_METRE: [f64; 3] = [500.0, 800.0, 1100.0];
const LOG_STRENGTH: [f64; 3] = [15e6, 25e6, 35e6];
/// Friction angle of ground (degrees) and weight of a cubic metre of it in water, N.
const GROUND_ANGLE: [f64; 3] = [25.0, 30.0, 35.0];
const GROUND_WEIGHT: [f64; 3] = [9e3, 10e3, 11e3];
/// Share of its length that a block stands on, about its middle.
const FOOT: [f64; 3] = [0.6, 0.8, 1.0];

fn band([low, typical, high]: [f64; 3]) -> Band {
    Band::of(low, typical, high)
}

/// What a pull at a block must be.
const STEEP: &str = "between −90° and 90°: set the pull less steep, or the fall of the ground smaller";

impl NaturalAnchor {
    /// Elevation of the pull above the level.
    pub(super) fn rises(&self) -> f64 {
        -(self.down / self.out).value.atan()
    }

    pub(super) fn directions(&self) -> Directions {
        let rope = Angle::new::<radian>(self.rises());
        let slope = if self.kind == Natural::Block { self.falls.value.atan() } else { 0.0 };
        Directions { slope: Angle::new::<radian>(slope), rope }
    }

    /// Whether the height of the tree was left out.
    pub(super) fn height_unknown(&self) -> bool {
        self.tree_height.high().value == 0.0
    }

    /// Whether a log lies only by its weight.
    pub(super) fn lies(&self) -> bool {
        self.seating != Seating::Into
    }

    /// Run of the pull for each metre that it rises, if the military table holds for it and for the depth.
    pub(super) fn table_run(&self) -> Option<f64> {
        self.ground.of_table()?;
        let thick = self.girth.high().value / PI;
        let run = -(self.out / self.down).value;
        ((1.0..=4.0).contains(&run) && self.high.value - thick / 2.0 >= buried::TABLE_FROM).then_some(run)
    }

    /// Why nothing can be counted on, if nothing can.
    fn nothing(&self) -> Option<&'static str> {
        match self.kind {
            Natural::Tree => (self.stands == Rooted::Loose).then_some("loose tree: it comes out with its roots"),
            Natural::Block => (self.shape == Shape::Round).then_some("round block: it rolls"),
            Natural::Chockstone => match self.seating {
                Seating::Into => None,
                Seating::Along => Some("chockstone: nothing presses it into its taper"),
                Seating::Out => Some("chockstone: the pull draws it out of its taper"),
            },
            Natural::Log | Natural::Buried => None,
        }
    }

    /// Why there is no figure, if there is none.
    fn refused(&self) -> Option<&'static str> {
        match self.kind {
            Natural::Tree => {
                let [_, thickest] = tree::DIAMETERS.map(|diameter| diameter * PI);
                if self.tree_kind.species().is_none() {
                    Some("tree of another kind: no tests of it are known here")
                } else if self.girth.high().value > thickest {
                    Some("tree: thicker than those in the tests")
                } else {
                    (self.rises().abs() > FRAC_PI_3).then_some("tree: pulled more steeply than any that was tested")
                }
            }
            Natural::Block | Natural::Log => None,
            Natural::Chockstone => Some("chockstone: this is only the direction in which it could hold"),
            Natural::Buried => {
                (self.rises() < -FRAC_PI_4).then_some("buried face: pulled down more steeply than its check reaches")
            }
        }
    }

    pub(super) fn inputs(&self) -> [Band; 12] {
        let kind = self.kind;
        let only = |when: bool, values: Band| if when { values } else { Band::exact(values.typical()) };
        let height =
            if self.height_unknown() { Band::of(0.3, 1.0, 1.2) } else { self.tree_height.map(|height| height.value) };
        let (tree, block, log, ground) =
            (kind == Natural::Tree, kind == Natural::Block, kind == Natural::Log, kind == Natural::Buried);
        let rests = block || log && self.lies();
        let floats = block || log;
        [
            only(!block, self.girth.map(|girth| girth.value)),
            only(tree, height),
            only(tree, band(tree::SCATTER)),
            only(tree, self.stands.site()),
            only(block, Band::of(0.45, 0.52, 0.65)),
            only(floats, if log { band(LOG_CUBIC_METRE) } else { self.cubic_metre.map(|mass| mass.value) }),
            only(floats, self.under_water.map(|share| share.value)),
            only(rests, self.contact.friction().0),
            only(log, band(LOG_STRENGTH)),
            only(ground, band(GROUND_ANGLE).map(f64::to_radians)),
            only(ground, band(GROUND_WEIGHT)),
            only(block, band(FOOT)),
        ]
    }

    /// The check, over all that is uncertain. Each way rises or falls with each input alone: the ends lie at the corners.
    pub(super) fn check(&self) -> Result<Check, OutOfDomain> {
        if let Some(reason) = self.nothing() {
            return Ok(Check::Nothing(reason));
        }
        if let Some(reason) = self.stands.refused().filter(|_| self.kind == Natural::Tree) {
            // In which soil it is dead is not asked.
            let living = |stands| NaturalAnchor { stands, ..*self }.less_than(reason, "a living tree of its size");
            return Ok(match (living(Rooted::Thin)?, living(Rooted::Deep)?) {
                (Check::Less(.., least), Check::Less(reason, what, most)) => {
                    Check::Less(reason, what, Band::of(least.low(), most.typical(), most.high()))
                }
                (_, check) => check,
            });
        }
        if let Some(reason) = self.refused() {
            return Ok(Check::None(reason));
        }
        // A pull that rises lifts it besides.
        if self.kind == Natural::Buried && self.rises() > 0.0 && self.table_run().is_none() {
            let reason = "buried face: the pull rises, and no check here knows whether it lifts it";
            let level = NaturalAnchor { down: Length::default(), ..*self }.less_than(reason, "it, pulled level,")?;
            let Check::Less(reason, what, most) = level else { return Ok(level) };
            // The table may let it do more.
            let mut high = most.high();
            for run in [1.0, 4.0] {
                let steep = NaturalAnchor { down: -self.out / run, ..*self };
                if steep.table_run().is_some() {
                    high = steep.capacity(&steep.check()?).map_or(high, |band| band.high().max(high));
                }
            }
            return Ok(Check::Less(reason, what, Band::of(most.low(), most.typical(), high)));
        }
        // A lower tree has less of a stem and of roots.
        let person = Length::new::<metre>(1.5);
        if self.kind == Natural::Tree && !self.height_unknown() && self.tree_height.low() < person {
            let higher = self.tree_height.map(|height| if height < person { person } else { height });
            let what = if self.tree_height.high() > person { "the highest tree entered" } else { "a tree of 1.5 m" };
            return NaturalAnchor { tree_height: higher, ..*self }.less_than("tree: lower than a person", what);
        }
        // One thinner than all that were tested holds no more than the thinnest of them.
        let [thinnest, _] = tree::DIAMETERS.map(|diameter| Length::new::<metre>(diameter * PI));
        if self.kind == Natural::Tree && self.girth.low() < thinnest {
            let tested = self.girth.map(|girth| if girth < thinnest { thinnest } else { girth });
            let what = if self.girth.high() > thinnest {
                "a tree of the thickest girth entered"
            } else {
                "the thinnest tree that was tested"
            };
            return NaturalAnchor { girth: tested, ..*self }.less_than("tree: thinner than those in the tests", what);
        }
        let spreads = sweep_corners(self.inputs(), |point| {
            let [one, two, three] = self.ways(point)?.map(|way| way.unwrap_or(WITHOUT_LIMIT).min(WITHOUT_LIMIT));
            Ok::<_, OutOfDomain>([one.min(two).min(three), one, two, three])
        })?;
        // A part that is pressed down may have no limit at its other end, which is cut; the adverse end decides.
        Ok(Check::Figure(Box::new(spreads)))
    }

    /// That there is no figure, and the most that this tree could do instead, if there is a figure of it.
    fn less_than(&self, reason: &'static str, what: &'static str) -> Result<Check, OutOfDomain> {
        Ok(match self.check()? {
            Check::Figure(spreads) => {
                let [most, ..] = spreads.as_ref();
                Check::Less(reason, what, most.band)
            }
            Check::Less(.., most) => Check::Less(reason, what, most),
            _ => Check::None(reason),
        })
    }

    /// Pull at which the part gives way in each of its ways, at one point of the ranges; none where there is no limit.
    pub(super) fn ways(&self, point: &Inputs) -> Result<[Option<f64>; 3], OutOfDomain> {
        match self.kind {
            Natural::Tree => self.tree(point),
            Natural::Block => self.block(point),
            Natural::Log => self.log(point),
            Natural::Chockstone => Ok([None; 3]),
            Natural::Buried => self.buried(point),
        }
    }

    pub(super) fn height_of_tree(&self, point: &Inputs) -> Result<Length, OutOfDomain> {
        let &[girth, height, ..] = point;
        if self.height_unknown() {
            Ok(tree::usual_height(log::diameter(Length::new::<metre>(girth))?)? * height)
        } else {
            Ok(Length::new::<metre>(height))
        }
    }

    /// Mass of the stem of the tree.
    pub(super) fn stem(&self, point: &Inputs) -> Result<Mass, OutOfDomain> {
        let &[girth, ..] = point;
        let Some(species) = self.tree_kind.species() else { return Ok(Mass::new::<kilogram>(0.0)) };
        tree::stem_mass(species, log::diameter(Length::new::<metre>(girth))?, self.height_of_tree(point)?)
    }

    fn tree(&self, point: &Inputs) -> Result<[Option<f64>; 3], OutOfDomain> {
        let &[girth, _, scatter, site, ..] = point;
        let Some(species) = self.tree_kind.species() else { return Ok([None; 3]) };
        let over = tree::tips_over(species, self.stands.soil(), self.stem(point)?)?;
        let breaks = tree::stem_breaks(species, log::diameter(Length::new::<metre>(girth))?)?;
        let by = [scatter, site].map(Ratio::new::<ratio>);
        let tree::Pulls { tips, strains } = tree::pulls_at(over, breaks, by, self.sling)?;
        // Moments about the foot would credit a steep pull with more than a level one: no test is behind it.
        Ok([Some(tips.value), Some(strains.value), None])
    }

    /// Weight of a block or a log, less what water carries of it that is laden with silt: it carries most.
    pub(super) fn weight(&self, point: &Inputs) -> Result<Force, OutOfDomain> {
        let &[girth, _, _, _, shape, cubic_metre, under_water, ..] = point;
        let cubic_metre = Mass::new::<kilogram>(cubic_metre);
        let mass = if self.kind == Natural::Log {
            log::mass(log::diameter(Length::new::<metre>(girth))?, self.long, cubic_metre)?
        } else {
            ground::block_mass([self.long, self.wide, self.high], Ratio::new::<ratio>(shape), cubic_metre)?
        };
        let laden = Mass::new::<kilogram>(LADEN_WATER);
        ground::weight_in_water(mass, cubic_metre, Ratio::new::<ratio>(under_water), laden)
    }

    /// How far before the edge that a block topples over the sling pulls: it leaves the block at its face. A pull that
    /// rises would gain by it: none is counted.
    pub(super) fn before_edge(&self, foot: f64) -> Length {
        let Directions { slope, rope } = self.directions();
        self.long * if (rope + slope).value < 0.0 { (1.0 - foot) / 2.0 } else { 0.0 }
    }

    fn block(&self, point: &Inputs) -> Result<[Option<f64>; 3], OutOfDomain> {
        let &[_, _, _, _, _, _, _, friction, _, _, _, foot] = point;
        let (weight, directions) = (self.weight(point)?, self.directions());
        let before = self.before_edge(foot);
        let block = |share: f64, before: Length| Block {
            centre_behind_edge: self.long * (share / 2.0),
            centre_height: self.high / 2.0,
            sling_height: self.sling,
            sling_behind_edge: -before,
        };
        let mut slides =
            ground::slides_at(weight, Ratio::new::<ratio>(friction), Force::new::<newton>(0.0), directions)
                .map_err(|error| OutOfDomain { must: STEEP, ..error })?;
        // On ground that rises toward the load more steeply than its friction it slides away by itself.
        if -self.falls.value > friction {
            slides = Some(Force::new::<newton>(0.0));
        }
        let topples = ground::block_topples_at(weight, &block(foot, before), directions)?;
        // A steep rope at its face raises the front of a block before the whole of it, the sooner the shorter its foot.
        let face = self.long * ((1.0 - foot) / 2.0);
        let back = ground::block_tips_back_at(weight, &block(foot, face), self.long * foot, directions)?;
        let lifts = [ground::lifts_at(weight, directions)?, back].into_iter().flatten();
        let lifts = lifts.reduce(|one, other| if other < one { other } else { one });
        Ok([slides, topples, lifts].map(|force| force.map(|force| force.value)))
    }

    fn log(&self, point: &Inputs) -> Result<[Option<f64>; 3], OutOfDomain> {
        let &[girth, _, _, _, _, _, _, friction, strength, ..] = point;
        let diameter = log::diameter(Length::new::<metre>(girth))?;
        let breaks = log::breaks_at(diameter, self.wide, Pressure::new::<pascal>(strength))?.value;
        let (weight, directions) = (self.weight(point)?, self.directions());
        if !self.lies() {
            // Water that floats it lifts it out of its place.
            return Ok([Some(breaks), None, (weight.value <= 0.0).then_some(0.0)]);
        }
        let slides = ground::slides_at(weight, Ratio::new::<ratio>(friction), Force::new::<newton>(0.0), directions)?;
        let lifts = ground::lifts_at(weight, directions)?;
        Ok([Some(breaks), slides.map(|force| force.value), lifts.map(|force| force.value)])
    }

    fn buried(&self, point: &Inputs) -> Result<[Option<f64>; 3], OutOfDomain> {
        let &[girth, _, _, _, _, _, _, _, _, angle, cubic_metre, _] = point;
        let thick = log::diameter(Length::new::<metre>(girth))?;
        let to = |depth: Length| {
            let cubic_metre = Force::new::<newton>(cubic_metre);
            buried::wedge(depth, self.wide, cubic_metre, Angle::new::<radian>(angle)).map(|force| force.value)
        };
        // The ground presses on the strip between the edges of the face: all that is above it is taken off.
        let over = (self.high - thick).value.max(0.0);
        let strip = to(self.high)? - to(Length::new::<metre>(over))?;
        // A pull that runs down loads the wedge with its level part only; one that rises is no better than a level one.
        let wedge = strip / self.rises().min(0.0).cos();
        let table = match (self.table_run(), self.ground.of_table()) {
            (Some(run), Some(share)) => {
                let pressure = buried::table(self.high - thick / 2.0, Ratio::new::<ratio>(run))?;
                Some(share * (pressure * self.wide * thick).value)
            }
            _ => None,
        };
        Ok([Some(wedge), table, None])
    }
}
