//! Moving water: what it does to bodies and lines, who can stand in it.

use super::{Answerer, Answers, Row, Unanswered};
use crate::law::flood::{self, Danger};
use crate::law::slanted_line::{self, SlantedLine};
use crate::law::standing::{self, Conditions, Curve};
use crate::law::{drag, falling_water, line_catch};
use crate::quantity::{Force, MassDensity, Ratio, kilogram_per_cubic_metre, newton, ratio};

pub(super) const ANSWERERS: &[Answerer] = &[
    ("W1", w1),
    ("W2", w2),
    ("W3", w3),
    ("W4", w4),
    ("W5", w5),
    ("W6", w6),
    ("W7", w7),
    ("W8", w8),
    ("W9", w9),
    ("W10", w10),
];

fn clean_water() -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_metre>(drag::CLEAN_WATER)
}

fn w1(row: &Row) -> Answers {
    let one = Ratio::new::<ratio>(1.0);
    let mut lists = Vec::new();
    for area in row.areas("coefficient_times_area")? {
        let mut forces = Vec::new();
        for speed in row.speeds("speed")? {
            forces.push(drag::drag(clean_water(), one, area, speed)?.value);
        }
        lists.push(forces);
    }
    Ok(lists)
}

fn w2(row: &Row) -> Answers {
    Ok(vec![vec![standing::abt_limit(row.length("height")?, row.mass("mass")?)?.value]])
}

fn w3(row: &Row) -> Answers {
    let limit = standing::karvonen_limit(row.length("height")?, row.mass("mass")?, Conditions::Ordinary)?;
    Ok(vec![vec![limit.value]])
}

fn w4(row: &Row) -> Answers {
    let mut classes = Vec::new();
    for (depth, speed) in row.lengths("depth")?.into_iter().zip(row.speeds("speed")?) {
        classes.push(f64::from(flood::class(depth, speed)? as u8) + 1.0);
    }
    Ok(vec![classes])
}

fn w5(row: &Row) -> Answers {
    let (depth, speed) = (row.length("depth")?, row.speed("speed")?);
    let rating = flood::hazard_rating(depth, speed, flood::debris(depth, speed)?)?;
    let degree = [Danger::Low, Danger::Some, Danger::Most, Danger::All].iter().position(|&of| of == Danger::of(rating));
    let degree = degree.ok_or(Unanswered::NoInput { name: "speed", must: "one that is rated" })?;
    Ok(vec![vec![rating.value], vec![degree as f64]])
}

fn w6(row: &Row) -> Answers {
    let share = standing::submerged_share(row.plain("depth_over_height")?)?;
    Ok(vec![vec![share.value], vec![standing::body_volume(row.mass("mass")?)?.value]])
}

fn w7(row: &Row) -> Answers {
    let speed = falling_water::speed_after(row.length("height")?)?;
    Ok(vec![vec![falling_water::push(row.flow("flow")?, speed)?.value]])
}

fn w8(row: &Row) -> Answers {
    let (depth, height, mass) = (row.length("depth")?, row.length("height")?, row.mass("mass")?);
    let falls = |curve| standing::xia_topple_speed(depth, height, mass, curve).map(|speed| speed.value);
    Ok(vec![vec![falls(Curve::Low)?, falls(Curve::High)?]])
}

fn w9(row: &Row) -> Answers {
    let mut left = Vec::new();
    for to_current in row.angles("to_current")? {
        let line = SlantedLine {
            span: row.length("span")?,
            slack: row.plain("slack_share")?,
            to_current,
            friction: row.plain("friction")?,
        };
        left.push(slanted_line::at_rest(&line, Force::new::<newton>(1.0))?.far_part.value);
    }
    Ok(vec![left])
}

fn w10(row: &Row) -> Answers {
    let (line, stiffness, mass) = (row.length("line")?, row.force("stiffness")?, row.mass("mass")?);
    let speed = row.speed("speed")?;
    let mut peaks = Vec::new();
    for area in row.areas("area")? {
        let held = drag::drag(clean_water(), row.plain("drag_coefficient")?, area, speed)?;
        peaks.push(line_catch::peak(held, stiffness, line, mass, speed)?.value);
    }
    Ok(vec![peaks])
}
