//! Units against their exact definitions, and work told in them.

use super::{Answerer, Answers, Row};

pub(super) const ANSWERERS: &[Answerer] = &[("P2", p2), ("T1", t1), ("U1", u1)];

fn u1(row: &Row) -> Answers {
    let si = |forces: Vec<crate::quantity::Force>| forces.iter().map(|force| force.value).collect();
    Ok(vec![si(row.forces("pounds")?), si(row.forces("newtons")?)])
}

fn p2(row: &Row) -> Answers {
    Ok(vec![row.forces("hold")?.iter().map(|force| force.value).collect()])
}

fn t1(row: &Row) -> Answers {
    let work = row.weight()? * row.length("height")?;
    Ok(vec![vec![work.value * row.plain("descents")?.value]])
}
