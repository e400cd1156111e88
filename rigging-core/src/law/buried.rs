//! A buried log or block whose face presses on the ground in front of it. Two bounds that do not agree.

use super::{OutOfDomain, check, finite, not_negative};
use crate::quantity::{Angle, Force, Length, Pressure, Ratio, kilopascal, newton};
use std::f64::consts::FRAC_PI_2;

/// The most that the ground in front of a face holds: the weight and friction of the wedge that it would push up.
///
/// # Formula
/// `F = ½ K γ H² b`, `K = tan²(45° + φ/2)`: depth of the lower edge of the face `H` ≥ 0, its width `b` ≥ 0 (m), the
/// face reaching up to the surface; `γ` ≥ 0 the weight of a cubic metre of ground, less that of the water it displaces
/// where it is wet (N); friction angle of the ground `φ`, 0 ≤ φ < 90°. Level ground, level pull, no cohesion.
/// # Errors
/// [`OutOfDomain`] outside these ranges or if F is too large for a number.
/// # References
/// Passive earth pressure of a wedge (Coulomb, Rankine). What the ground beside a narrow face adds is not in it.
/// ```
/// use rigging_core::law::buried;
/// use rigging_core::quantity::{Angle, Force, Length, degree, metre, newton};
///
/// // By hand: K = tan² 60° = 3, so ½ · 3 · 10 000 · 0.5² · 0.8 = 3000 N.
/// let (depth, width) = (Length::new::<metre>(0.5), Length::new::<metre>(0.8));
/// let wet_gravel = Force::new::<newton>(10_000.0);
/// let most = buried::wedge(depth, width, wet_gravel, Angle::new::<degree>(30.0))?;
/// assert!((most.value - 3000.0).abs() < 1e-6);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn wedge(depth: Length, width: Length, cubic_metre: Force, friction_angle: Angle) -> Result<Force, OutOfDomain> {
    let depth = not_negative("depth of the face", depth.value)?;
    let width = not_negative("width of the face", width.value)?;
    let cubic_metre = not_negative("weight of a cubic metre of ground", cubic_metre.value)?;
    let angle = friction_angle.value;
    let within = (0.0..FRAC_PI_2).contains(&angle);
    let angle = check("friction angle of the ground", angle, within, "from 0° to less than 90°")?;
    let passive = (FRAC_PI_2 / 2.0 + angle / 2.0).tan().powi(2);
    finite("force of the wedge", 0.5 * passive * cubic_metre * depth * depth * width).map(Force::new::<newton>)
}

/// Mean depth that the table begins at, m (3 ft).
/// ```
/// use rigging_core::law::buried;
/// use rigging_core::quantity::{Length, Ratio, foot, metre, ratio};
///
/// // TM 5-5420-278-10: the row of 3 ft. A face less deep has no figure.
/// assert!((Length::new::<metre>(buried::TABLE_FROM).get::<foot>() - 3.0).abs() < 0.02);
/// let at = |feet| buried::table(Length::new::<foot>(feet), Ratio::new::<ratio>(2.0));
/// assert!(at(3.0).is_ok() && at(2.9).is_err());
/// ```
pub const TABLE_FROM: f64 = 0.91;

/// Pressure on its face that a deadman holds, by a military table.
///
/// # Formula
/// 45, 62, 69 and 72 kPa where the pull runs 1, 2, 3 and 4 metres level for each metre that it rises, in a straight line
/// between; loam; mean depth of the face 0.91 m and more (the row of 0.91 m: deeper ones hold more). `run` is that ratio.
/// # Errors
/// [`OutOfDomain`] if the mean depth is less than 0.91 m or the run is not from 1 to 4.
/// # References
/// TM 5-5420-278-10; half as much in wet sand or fine soil.
/// ```
/// use rigging_core::law::buried;
/// use rigging_core::quantity::{Length, Ratio, kilopascal, metre, ratio};
///
/// // A pull that runs 2 along for 1 up: 62 kPa.
/// let pressure = buried::table(Length::new::<metre>(1.0), Ratio::new::<ratio>(2.0))?;
/// assert!((pressure.get::<kilopascal>() - 62.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn table(mean_depth: Length, run: Ratio) -> Result<Pressure, OutOfDomain> {
    let depth = mean_depth.value;
    check("mean depth of the face", depth, depth >= TABLE_FROM, "0.91 m or more")?;
    let run = check("run of the pull", run.value, (1.0..=4.0).contains(&run.value), "from 1 to 4")?;
    let (from, low, high) = match run {
        run if run < 2.0 => (1.0, 45.0, 62.0),
        run if run < 3.0 => (2.0, 62.0, 69.0),
        _ => (3.0, 69.0, 72.0),
    };
    Ok(Pressure::new::<kilopascal>(low + (run - from) * (high - low)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{degree, metre, pascal, ratio};
    use approx::assert_relative_eq;

    fn metres(value: f64) -> Length {
        Length::new::<metre>(value)
    }

    #[test]
    fn the_table_is_met_at_its_runs_and_straight_between_them() {
        // TM 5-5420-278-10: 45, 62, 69, 72 kPa at runs of 1, 2, 3, 4.
        for (run, kilopascals) in
            [(1.0, 45.0), (1.5, 53.5), (2.0, 62.0), (2.5, 65.5), (3.0, 69.0), (3.5, 70.5), (4.0, 72.0)]
        {
            let found = table(metres(1.0), Ratio::new::<ratio>(run)).unwrap();
            assert_relative_eq!(found.get::<kilopascal>(), kilopascals, max_relative = 1e-12);
        }
    }

    #[test]
    fn without_friction_the_ground_holds_as_a_heavy_liquid_would() {
        let force = wedge(metres(0.8), metres(0.5), Force::new::<newton>(10e3), Angle::new::<degree>(0.0)).unwrap();
        assert_relative_eq!(force.value, 0.5 * 10e3 * 0.8 * 0.8 * 0.5, max_relative = 1e-15);
    }

    #[test]
    fn the_table_holds_only_for_its_depths_and_pulls() {
        let at = |depth, run| table(metres(depth), Ratio::new::<ratio>(run));
        // TM 5-5420-278-10, the row of 3 ft.
        for (run, kilopascals) in [(1.0, 45.0), (2.0, 62.0), (3.0, 69.0), (4.0, 72.0)] {
            assert_relative_eq!(at(0.91, run).unwrap().get::<pascal>(), kilopascals * 1e3, max_relative = 1e-15);
        }
        assert!(at(0.90, 2.0).is_err() && at(2.0, 0.99).is_err() && at(2.0, 4.01).is_err());
    }
}
