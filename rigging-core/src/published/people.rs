//! People who hold a rope by their weight.

use super::{Answerer, Answers, Row, Unanswered};
use crate::law::ground::{self, Directions};
use crate::law::side_slope;
use crate::quantity::{Angle, Force};

pub(super) const ANSWERERS: &[Answerer] = &[("P1", p1), ("P3", p3), ("P4", p4), ("P5", p5), ("P6", p6)];

/// A force that a way of failing must have for the row to make sense.
fn limit(force: Option<Force>) -> Result<f64, Unanswered> {
    force.map(|force| force.value).ok_or(Unanswered::NoInput { name: "rope", must: "such that the body gives way" })
}

fn p1(row: &Row) -> Answers {
    let (weight, friction) = (row.force("weight")?, row.plain("friction")?);
    let (slopes, ropes, pushes) = (row.angles("slope")?, row.angles("rope_above_level")?, row.forces("push")?);
    let mut slides = Vec::new();
    for ((slope, rope), push) in slopes.into_iter().zip(ropes).zip(pushes) {
        slides.push(limit(ground::slides_at(weight, friction, push, Directions { slope, rope })?)?);
    }
    Ok(vec![slides])
}

fn p3(row: &Row) -> Answers {
    let directions = Directions { slope: row.angle("slope")?, rope: row.angle("rope_above_level")? };
    let tips = ground::person_topples_at(
        row.force("weight")?,
        row.length("weight_behind_feet")?,
        row.length("rope_above_feet")?,
        row.length("rope_behind_feet")?,
        directions,
    )?;
    Ok(vec![vec![limit(tips)?]])
}

fn p4(row: &Row) -> Answers {
    let by_mass = row.mass("mass")? / row.mass("trial_mass")?;
    let mut pushes = Vec::new();
    for share in row.plains("share_of_trial")? {
        let hold = row.force("trial")? * share * by_mass;
        pushes.push(ground::push_of_feet(hold, row.weight()?, row.plain("friction")?)?.value);
    }
    Ok(vec![pushes])
}

fn p5(row: &Row) -> Answers {
    let directions = Directions { slope: row.angle("slope")?, rope: row.angle("rope_above_level")? };
    let weight = row.force("weight")?;
    let slides = ground::slides_at(weight, row.plain("friction")?, row.force("push")?, directions)?;
    let lifts = ground::lifts_at(weight, directions)?;
    Ok(vec![vec![limit(slides)?, limit(lifts)?]])
}

fn p6(row: &Row) -> Answers {
    let directions = Directions { slope: row.angle("slope")?, rope: row.angle("rope_above_level")? };
    let (weight, friction, push) = (row.force("weight")?, row.plain("friction")?, row.force("push")?);
    let mut slides = Vec::new();
    for side in row.angles("side_slope")? {
        slides.push(limit(side_slope::slides_at(weight, friction, push, Angle::default(), directions, side)?)?);
    }
    Ok(vec![slides])
}
