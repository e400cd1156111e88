//! Units against their exact definitions.

use super::{Answerer, Answers, Row};

pub(super) const ANSWERERS: &[Answerer] = &[("U1", u1)];

fn u1(row: &Row) -> Answers {
    let si = |forces: Vec<crate::quantity::Force>| forces.iter().map(|force| force.value).collect();
    Ok(vec![si(row.forces("pounds")?), si(row.forces("newtons")?)])
}
