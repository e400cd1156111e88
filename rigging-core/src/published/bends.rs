//! Ropes over bends, and friction devices.

use super::{Answerer, Answers, Row};
use crate::law::bend;
use crate::law::descender::{Descender, Use, friction_ratio};
use crate::quantity::{Angle, degree};

pub(super) const ANSWERERS: &[Answerer] =
    &[("F1", f1), ("F2", f2), ("F3", f3), ("F4", f4), ("F5", f5), ("F6", f6), ("F7", f7), ("F11", f11)];

fn f1(row: &Row) -> Answers {
    let tension = row.force("tension")?;
    let mut factors = Vec::new();
    for between in row.angles("between_parts")? {
        let turning = Angle::new::<degree>(180.0) - between;
        factors.push((bend::resultant(tension, tension, turning)? / tension).value);
    }
    Ok(vec![factors])
}

fn f2(row: &Row) -> Answers {
    let slack = bend::slack_side(row.force("tight")?, row.plain("friction")?, row.angle("turning_angle")?)?;
    Ok(vec![vec![slack.value]])
}

fn f3(row: &Row) -> Answers {
    let slack = bend::slack_side(row.weight()?, row.plain("friction")?, row.angle("turning_angle")?)?;
    Ok(vec![vec![slack.value]])
}

fn f4(row: &Row) -> Answers {
    f2(row)
}

fn f5(row: &Row) -> Answers {
    let friction = row.plain("friction")?;
    let mut ratios = Vec::new();
    for angle in row.angles("turning_angle")? {
        ratios.push(bend::tight_to_slack(friction, angle)?.value);
    }
    Ok(vec![ratios])
}

fn f6(row: &Row) -> Answers {
    let (raising, lowering) = (row.forces("raising")?, row.forces("lowering")?);
    let mut frictions = Vec::new();
    for ((raising, lowering), angle) in raising.iter().zip(lowering).zip(row.angles("turning_angle")?) {
        frictions.push(bend::friction_from_pair(*raising, lowering, angle)?.value);
    }
    Ok(vec![frictions])
}

fn f7(row: &Row) -> Answers {
    f6(row)
}

fn f11(row: &Row) -> Answers {
    let in_use = Use {
        diameter: row.length("diameter")?,
        two_strands: row.flag("two_strands")?,
        extra_carabiner: row.flag("extra_carabiner")?,
        wet: row.flag("wet")?,
    };
    let ratio = friction_ratio(Descender::FigureEight, &in_use)?;
    Ok(vec![vec![ratio.low(), ratio.typical(), ratio.high()]])
}
