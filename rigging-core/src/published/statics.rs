//! Legs, loops and lines at rest.

use super::{Answerer, Answers, Row};
use crate::law::taut_line::{self, TautLine};
use crate::law::{triangle, two_legs};
use crate::quantity::{Angle, Force, Length, degree, metre};

pub(super) const ANSWERERS: &[Answerer] =
    &[("S1", s1), ("S2", s2), ("S3", s3), ("S4", s4), ("S5", s5), ("S9", s9), ("S10", s10), ("S23", s23)];

fn from_plumb(from_level: Angle) -> Angle {
    Angle::new::<degree>(90.0) - from_level
}

fn s1(row: &Row) -> Answers {
    let (a, b) = (row.angle("leg_a_from_level")?, row.angle("leg_b_from_level")?);
    let legs = two_legs::tensions(row.weight()?, from_plumb(a), from_plumb(b))?;
    Ok(vec![vec![legs.a.value, legs.b.value]])
}

/// Tension of each of two equal legs for each angle from the level.
fn by_angle_from_level(row: &Row, load: Force) -> Result<Vec<Force>, super::Unanswered> {
    let mut legs = Vec::new();
    for angle in row.angles("from_level")? {
        legs.push(two_legs::equal(load, 2.0 * from_plumb(angle))?);
    }
    Ok(legs)
}

fn s2(row: &Row) -> Answers {
    let legs = by_angle_from_level(row, row.force("load")?)?;
    Ok(vec![legs.iter().map(|leg| leg.value).collect()])
}

fn s3(row: &Row) -> Answers {
    let load = row.force("load")?;
    let legs = by_angle_from_level(row, load)?;
    Ok(vec![legs.iter().map(|leg| (*leg / (load / 2.0)).value).collect()])
}

fn s4(row: &Row) -> Answers {
    let load = row.force("load")?;
    let mut shares = Vec::new();
    for angle in row.angles("included_angle")? {
        shares.push((two_legs::equal(load, angle)? / load).value);
    }
    Ok(vec![shares])
}

fn s5(row: &Row) -> Answers {
    let load = row.force("load")?;
    let mut shares = Vec::new();
    for angle in row.angles("included_angle")? {
        shares.push((triangle::anchor_force(load, angle)? / load).value);
    }
    Ok(vec![shares])
}

fn s9(row: &Row) -> Answers {
    let legs = by_angle_from_level(row, row.weight()?)?;
    Ok(vec![legs.iter().map(|leg| leg.value).collect()])
}

fn s10(row: &Row) -> Answers {
    let (bar, area, load) = (row.length("bar")?, row.area("area")?, row.force("load")?);
    let below_level = row.angle("bars_below_level")?;
    let as_built = two_legs::equal(load, 2.0 * from_plumb(below_level))? / area;
    let span = 2.0 * bar * below_level.value.cos();
    let bars = TautLine {
        span,
        rise: Length::new::<metre>(0.0),
        at: span / 2.0,
        unstretched: 2.0 * bar,
        stiffness: row.pressure("modulus")? * area,
    };
    let hung = taut_line::at_rest(&bars, load)?;
    let deflection = (hung.sag - bar * below_level.value.sin()).value;
    Ok(vec![vec![as_built.value], vec![deflection], vec![(hung.tension / area).value], vec![deflection]])
}

fn s23(row: &Row) -> Answers {
    let legs = two_legs::tensions(row.force("load")?, row.angle("leg_a")?, row.angle("leg_b")?)?;
    Ok(vec![vec![legs.a.value, legs.b.value]])
}
