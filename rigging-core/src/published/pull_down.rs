//! Ropes pulled down from below.

use super::{Answerer, Answers, Row, Unanswered};
use crate::law::pull_down::{Piece, pull};
use crate::quantity::{Angle, Ratio, metre, ratio};
use std::f64::consts::FRAC_PI_2;

pub(super) const ANSWERERS: &[Answerer] = &[("D11", d11), ("D12", d12)];

/// Pull with the row's edge, close below the ring, on the strand that rises or on the one that is pulled.
fn over(row: &Row, ring: Ratio, rising: bool, pulled: bool) -> Result<f64, Unanswered> {
    let of_a_metre = row.mass("mass_of_a_metre")? * row.gravity("gravity")?;
    let weight = of_a_metre * row.length("hanging")?.get::<metre>();
    let hanging = |rises: f64| Piece::Straight {
        weight,
        rises: Angle::new::<crate::quantity::radian>(rises),
        friction: Ratio::new::<ratio>(0.0),
    };
    let edge = Piece::Bend { friction: row.plain("edge_friction")?, turning_angle: row.angle("edge_turn")? };
    let ring = Piece::Bend { friction: ring, turning_angle: row.angle("ring_turn")? };
    let mut way = vec![hanging(FRAC_PI_2)];
    way.extend(rising.then_some(edge));
    way.push(ring);
    way.extend(pulled.then_some(edge));
    way.push(hanging(-FRAC_PI_2));
    Ok(pull(&way)?.value)
}

fn d11(row: &Row) -> Answers {
    let mut pulls = Vec::new();
    for (rising, pulled) in [(false, false), (false, true), (true, true)] {
        let rings = row.plains("ring_friction")?;
        pulls.push(rings.into_iter().map(|ring| over(row, ring, rising, pulled)).collect::<Result<_, _>>()?);
    }
    Ok(pulls)
}

fn d12(row: &Row) -> Answers {
    Ok(vec![vec![over(row, row.plain("ring_friction")?, true, true)?]])
}
