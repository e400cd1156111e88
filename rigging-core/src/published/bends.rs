//! Ropes over bends, and friction devices.

use super::{Answerer, Answers, Row};
use crate::law::bend;
use crate::law::descender::{Descender, Use, friction_ratio};
use crate::law::haul::{self, Begins, Part};
use crate::quantity::{Angle, Ratio, degree};

pub(super) const ANSWERERS: &[Answerer] = &[
    ("F1", f1),
    ("F2", f2),
    ("F3", f3),
    ("F4", f4),
    ("F5", f5),
    ("F6", f6),
    ("F7", f7),
    ("F8", f8),
    ("F9", f9),
    ("F10", f10),
    ("F11", f11),
];

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

/// A haul in three parts: the rope's end at the load, a fixed bend, a bend that travels nearest the hand.
fn three_parts(fixed: Ratio, travelling: Ratio) -> Result<Ratio, crate::law::OutOfDomain> {
    let parts = [Part::Stays(fixed), Part::Travels(travelling)];
    Ok(haul::follow(Begins::AtLoad, &parts)?.load)
}

fn f8(row: &Row) -> Answers {
    let mut raising = Vec::new();
    for (fixed, travelling) in row.plains("fixed_raising")?.into_iter().zip(row.plains("travelling_raising")?) {
        raising.push(three_parts(fixed.recip(), travelling.recip())?.value);
    }
    let lowering = three_parts(row.plain("fixed_lowering")?, row.plain("travelling_lowering")?)?;
    Ok(vec![raising, vec![lowering.value]])
}

fn f9(row: &Row) -> Answers {
    let (sheaves, share) = (row.plain("sheaves")?, row.plain("share_of_load_for_each")?);
    Ok(vec![vec![haul::by_share_of_load(row.force("load")?, sheaves, share, row.plain("parts")?)?.value]])
}

fn f10(row: &Row) -> Answers {
    let efficiency = row.plain("efficiency")?;
    Ok(vec![vec![(row.force("load")? / three_parts(efficiency, efficiency)?).value]])
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
