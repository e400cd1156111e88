//! Slack that runs out: falls, slips, loads stepped onto a line.

use super::{Answerer, Answers, Row};
use crate::law::taut_line::{self, TautLine};
use crate::law::{OutOfDomain, fall, leg_failure, rope, swing};
use crate::quantity::{Force, Length, Ratio, metre, newton, ratio};

pub(super) const ANSWERERS: &[Answerer] = &[
    ("D1", d1),
    ("D2", d2),
    ("D3", d3),
    ("D4", d4),
    ("D5", d5),
    ("D6", d6),
    ("D7", d7),
    ("D8", d8),
    ("D9", d9),
    ("D10", d10),
    ("D13", d13),
];

fn d1(row: &Row) -> Answers {
    let rope = row.length("rope")?;
    // The stiffness of the whole rope is given, per metre of stretch; the law takes it per strain.
    let stiffness = row.force("pull_for_a_metre")? / Length::new::<metre>(1.0) * rope;
    let peak = fall::peak(row.weight()?, stiffness, row.length("free_fall")?, rope)?;
    Ok(vec![vec![(peak / stiffness * rope).value], vec![peak.value]])
}

fn d2(row: &Row) -> Answers {
    let (weight, rope) = (row.weight()?, row.length("rope")?);
    let stiffness = fall::stiffness_from_peak(row.force("test_peak")?, weight, row.plain("test_fall_factor")?)?;
    let mut peaks = Vec::new();
    for factor in row.plains("fall_factor")? {
        peaks.push(fall::peak(weight, stiffness, rope * factor, rope)?.value);
    }
    Ok(vec![vec![stiffness.value], peaks])
}

fn d3(row: &Row) -> Answers {
    let stiffness = fall::stiffness_from_peak(row.force("test_peak")?, row.weight()?, row.plain("test_fall_factor")?)?;
    Ok(vec![vec![stiffness.value]])
}

fn d4(row: &Row) -> Answers {
    let stiffness = rope::stiffness_from_elongation(row.weight()?, row.plain("elongation")?)?;
    let hung = row.mass("hung_mass")? * row.gravity("gravity")?;
    Ok(vec![vec![stiffness.value], vec![rope::stretch(hung, row.length("rope")?, stiffness)?.value]])
}

fn d5(row: &Row) -> Answers {
    let diameter = row.length("diameter")?;
    let section = std::f64::consts::FRAC_PI_4 * diameter * diameter;
    let stiffness = row.pressure("modulus")? * section;
    let (weight, none) = (row.weight()?, Force::new::<newton>(0.0));
    Ok(vec![vec![rope::hanging_stretch(weight, none, row.length("rope")?, stiffness)?.value]])
}

fn d6(row: &Row) -> Answers {
    let weight = row.force("weight")?;
    let mut peaks = Vec::new();
    for angle in row.angles("from_plumb")? {
        peaks.push((swing::peak(weight, angle)? / weight).value);
    }
    Ok(vec![peaks])
}

fn d7(row: &Row) -> Answers {
    let weight = row.force("weight")?;
    let mut pulls = Vec::new();
    for angle in row.angles("from_plumb")? {
        pulls.push((swing::sideways(weight, angle)?.pull / weight).value);
    }
    Ok(vec![pulls])
}

/// A level line loaded in the middle.
fn level(span: Length, unstretched: Length, stiffness: Force) -> TautLine {
    TautLine { span, rise: Length::new::<metre>(0.0), at: span / 2.0, unstretched, stiffness }
}

/// Tension at the lowest point for a load let go from the straight line, over the tension at rest.
fn let_go(line: &TautLine, load: Force) -> Result<f64, OutOfDomain> {
    let lowest = taut_line::at_lowest_point(line, load, Length::new::<metre>(0.0))?;
    Ok((lowest.tension / taut_line::at_rest(line, load)?.tension).value)
}

fn d8(row: &Row) -> Answers {
    let (span, stiffness) = (row.length("span")?, row.force("stiffness")?);
    let mut ratios = Vec::new();
    for tension in row.forces("pre_tension")? {
        let unstretched = taut_line::unstretched_when_pulled_to(span, tension, stiffness)?;
        ratios.push(let_go(&level(span, unstretched, stiffness), row.force("load")?)?);
    }
    Ok(vec![ratios])
}

fn d9(row: &Row) -> Answers {
    let weight = row.weight()?;
    // Stiffness is given as the pull for a metre; the law takes what gives under the weight.
    let gives = |pull: Force| Length::new::<metre>(1.0) * (weight / pull);
    let (legs, rope) = (gives(row.force("pull_of_legs_for_a_metre")?), gives(row.force("pull_of_rope_for_a_metre")?));
    let caught = leg_failure::peak(weight, row.length("drop")?, legs, rope)?;
    Ok(vec![vec![caught.computed.value], vec![caught.most.value]])
}

fn d10(row: &Row) -> Answers {
    let (weight, slack, rope) = (row.weight()?, row.length("slack")?, row.length("rope")?);
    let mut peaks = Vec::new();
    for stiffness in row.forces("stiffness")? {
        peaks.push(fall::peak(weight, stiffness, slack, rope)?.value);
    }
    Ok(vec![peaks])
}

fn d13(row: &Row) -> Answers {
    let span = row.length("span")?;
    let longer: Ratio = Ratio::new::<ratio>(1.0) + row.plain("slack_share")?;
    let line = level(span, span * longer, row.force("stiffness")?);
    Ok(vec![vec![let_go(&line, row.force("load")?)?]])
}
