//! Trees, blocks, logs and buried faces.

use super::{Answerer, Answers, Row, Unanswered};
use crate::law::drag::CLEAN_WATER;
use crate::law::ground::{self, Directions};
use crate::law::tree::{self, Soil, Species};
use crate::law::{buried, log};
use crate::quantity::{Angle, Force, Mass, degree, kilogram, newton};

pub(super) const ANSWERERS: &[Answerer] = &[("N1", n1), ("N2", n2), ("N3", n3), ("N4", n4)];

/// A Norway spruce in gleyed soil; its height follows from its diameter.
fn n1(row: &Row) -> Answers {
    let (species, by, sling) =
        (Species::NorwaySpruce, [row.plain("scatter")?, row.plain("site")?], row.length("sling")?);
    let mut pulls = Vec::new();
    for diameter in row.lengths("diameter")? {
        let stem = tree::stem_mass(species, diameter, tree::usual_height(diameter)?)?;
        let over = tree::tips_over(species, Soil::Gleyed, stem)?;
        pulls.push(tree::pulls_at(over, tree::stem_breaks(species, diameter)?, by, sling)?.least().value);
    }
    Ok(vec![pulls])
}

/// A block on the flat, pulled level.
fn n2(row: &Row) -> Answers {
    let cubic_metre = row.mass("cubic_metre")?;
    let mass: Mass = ground::block_mass([row.length("side")?; 3], row.plain("share_of_box")?, cubic_metre)?;
    let clean = Mass::new::<kilogram>(CLEAN_WATER);
    let weight = ground::weight_in_water(mass, cubic_metre, row.plain("under_water")?, clean)?;
    let level = Angle::new::<degree>(0.0);
    let mut slides = Vec::new();
    for friction in row.plains("friction")? {
        let directions = Directions { slope: level, rope: level };
        let limit = ground::slides_at(weight, friction, Force::new::<newton>(0.0), directions)?;
        slides.push(limit.map(|force| force.value).ok_or(Unanswered::NoInput { name: "friction", must: "above 0" })?);
    }
    Ok(vec![slides])
}

fn n3(row: &Row) -> Answers {
    let (diameter, gap) = (row.length("diameter")?, row.length("gap")?);
    let mut breaks = Vec::new();
    for strength in row.pressures("strength")? {
        breaks.push(log::breaks_at(diameter, gap, strength)?.value);
    }
    Ok(vec![breaks])
}

fn n4(row: &Row) -> Answers {
    let (width, cubic_metre, angle) = (row.length("width")?, row.force("cubic_metre")?, row.angle("friction_angle")?);
    let mut wedges = Vec::new();
    for depth in row.lengths("depth")? {
        wedges.push(buried::wedge(depth, width, cubic_metre, angle)?.value);
    }
    Ok(vec![wedges])
}
