//! How a bent line pulls at the most, and where it leads, over all that is uncertain.

use super::case::{BENDING, Bending, Found, found};
use super::choice::Posture;
use super::{InTheCurrent, Tool};
use crate::band::{Band, Spread, sweep, sweep_corners};
use crate::law::OutOfDomain;

/// Steps over the slack and over the drift at which a sweep is followed; steps over the slack where it was worst.
const SLACKS: u32 = 2;
const DRIFTS: u32 = 6;
const FINE: u32 = 8;

/// Steps across each input where the current may leave a person who slides along the line.
const STEPS: u32 = 7;

impl InTheCurrent {
    /// Over the ranges: from the far bank (m), on the near and the far end and on all who hang (N), the straight line to the
    /// current, and how far below the near end the line leads (m).
    pub(super) fn bends(&self, drag: &Spread<6>, posture: Posture) -> Result<[Found<5>; 6], OutOfDomain> {
        let inputs = self.bending(drag);
        let mut spreads = sweep(inputs, |point| self.all_of(point))?;
        let [drag_band, slack, stiffness, drift, friction] = inputs;
        // Twice: where the drift is worst, another stiffness may be.
        for which in [1, 2, 1, 2, 5] {
            if drift.is_exact() {
                break;
            }
            let worst = self.worst_drift(which, &spreads)?;
            let pinned = sweep_corners([drag_band, slack, stiffness, worst, friction], |point| self.all_of(point))?;
            for (spread, other) in spreads.iter_mut().zip(&pinned) {
                spread.take_wider(other);
            }
        }
        if self.tool == Tool::Diagonal {
            self.slide(&mut spreads, inputs)?;
        }
        self.sweep_in(&mut spreads, inputs, posture)?;
        Ok(spreads.map(|spread| found(spread, &BENDING, drag)))
    }

    /// What is looked for, at one point.
    fn all_of(&self, point: &Bending) -> Result<[f64; 6], OutOfDomain> {
        let bent = self.bent(point)?;
        let [near, far] = bent.most;
        let left = bent.left_across().min(self.across.value);
        Ok([left, near, far, bent.drag, bent.to_current, self.leads(&bent, point)])
    }

    /// Where the current leaves the person hangs on drag, slack and stretch together, and is highest at no corner: looked for
    /// over the drag at each of the others, and from the best on one input after the other.
    fn slide(&self, spreads: &mut [Spread<5>; 6], inputs: [Band; 5]) -> Result<(), OutOfDomain> {
        let look = |spreads: &mut [Spread<5>; 6], point: Bending| {
            for (spread, result) in spreads.iter_mut().zip(self.all_of(&point)?) {
                spread.take_in(result, &point);
            }
            Ok::<_, OutOfDomain>(())
        };
        let [drag, slack, stiffness, drift, friction] = inputs;
        for corner in 0..8_u32 {
            let end = |bit: u32, band: Band| if corner >> bit & 1 == 1 { band.high() } else { band.low() };
            for drag in (0..=STEPS).map(|step| drag.across(step, STEPS)) {
                look(spreads, [drag, end(0, slack), end(1, stiffness), end(2, drift), friction.high()])?;
            }
        }
        // Then closely, between the steps taken.
        for wide in [1.0, 1.0 / f64::from(STEPS)] {
            for (input, range) in inputs.iter().enumerate() {
                let [best, ..] = spreads.each_ref().map(|spread| spread.at_high);
                let reach = wide * (range.high() - range.low());
                let now = best.get(input).copied().unwrap_or_default();
                let near = Band::of(range.low().max(now - reach), now, range.high().min(now + reach));
                for step in 0..=STEPS {
                    let mut point = best;
                    if let Some(value) = point.get_mut(input) {
                        *value = near.across(step, STEPS);
                    }
                    look(spreads, point)?;
                }
            }
        }
        Ok(())
    }

    /// Takes in what sweeping does to both ends and to those who hang. Slow water pulls little and sweeps hard; how hard,
    /// hangs on when each part comes tight, and the far part comes the tighter the less the water pulls.
    fn sweep_in(&self, spreads: &mut [Spread<5>; 6], inputs: [Band; 5], posture: Posture) -> Result<(), OutOfDomain> {
        let [_, near, far, hung, ..] = spreads;
        let [drag, slack, stiffness, drift, friction] = inputs;
        let mut drifts = Vec::new();
        let grid = (0..=DRIFTS).map(|step| drift.across(step, DRIFTS));
        for drift in [near.at_high[3], far.at_high[3]].into_iter().chain(grid) {
            if !drifts.contains(&drift) {
                drifts.push(drift);
            }
        }
        // What each gets at the most: force, drag and drift.
        let mut hardest = [[0.0, drag.high(), drift.typical()]; 3];
        let mut follow = |hardest: &mut [[f64; 3]; 3], ways: &[[f64; 4]]| {
            for &[drag, drift, stiffness, slack] in ways {
                let point = [drag, slack, stiffness, drift, friction.high()];
                let swept = self.swept_in(&point, posture)?;
                for ((spread, force), most) in
                    [&mut *near, &mut *far, &mut *hung].into_iter().zip(swept).zip(&mut *hardest)
                {
                    spread.take_in(force, &point);
                    if force > most[0] {
                        *most = [force, drag, drift];
                    }
                }
            }
            Ok::<_, OutOfDomain>(())
        };
        let slacks = if slack.is_exact() { 0 } else { SLACKS };
        let (least, most) = (self.least_of_the_fastest(posture)?, drag.high());
        let mut ways = Vec::new();
        for drag in [most, least] {
            for drift in &drifts {
                ways.extend((0..=slacks).map(|step| [drag, *drift, stiffness.high(), slack.across(step, SLACKS)]));
            }
        }
        follow(&mut hardest, &ways)?;
        ways.clear();
        for (place, [_, drag, drift]) in hardest.into_iter().enumerate() {
            if hardest.iter().take(place).any(|[_, other, before]| (*other, *before) == (drag, drift)) {
                continue;
            }
            // Between the steps taken.
            let between = (0..FINE).filter(|step| slacks > 0 && step % (FINE / SLACKS) > 0);
            ways.extend(between.map(|step| [drag, drift, stiffness.high(), slack.across(step, FINE)]));
            for slack in (0..=slacks).map(|step| slack.across(step, SLACKS)) {
                ways.push([drag, drift, stiffness.typical(), slack]);
                ways.push([least.midpoint(most), drift, stiffness.high(), slack]);
            }
        }
        follow(&mut hardest, &ways)
    }

    /// Least drag of water as fast as it may be, N.
    fn least_of_the_fastest(&self, posture: Posture) -> Result<f64, OutOfDomain> {
        let [speed, surge, other @ ..] = self.wet()?;
        let [density, coefficient, pack, wet] = other.map(|band| band.low());
        let [people, line] = self.drags(&[speed.high(), surge.high(), density, coefficient, pack, wet], posture)?;
        Ok(people + line)
    }

    /// The drift at which a spread (each end, or how far the line leads) is highest, all else as where it is highest now.
    /// The force rises with the angle to the current up to near 90°, less or more by what the line dips, and falls beyond:
    /// that may lie between the ends of the range.
    fn worst_drift(&self, which: usize, spreads: &[Spread<5>; 6]) -> Result<Band, OutOfDomain> {
        let drift = self.drift.map(|drift| drift.value);
        let Some(Spread { at_high: [drag, slack, stiffness, _, friction], .. }) = spreads.get(which) else {
            return Ok(drift);
        };
        // Up to where the current sets along the line: beyond it the angle grows again.
        let along = self.across.value / self.down.value.max(f64::MIN_POSITIVE);
        let (mut low, mut high) = (drift.low(), drift.high().min(along).max(drift.low()));
        let at = |drift| {
            let point = [*drag, *slack, *stiffness, drift, *friction];
            let bent = self.bent(&point)?;
            let [near, far] = bent.most;
            Ok::<_, OutOfDomain>(match which {
                1 => near,
                2 => far,
                _ => self.leads(&bent, &point),
            })
        };
        for _ in 0..16 {
            let third = (high - low) / 3.0;
            if at(low + third)? < at(high - third)? {
                low += third;
            } else {
                high -= third;
            }
        }
        Ok(Band::exact(f64::midpoint(low, high)))
    }
}
