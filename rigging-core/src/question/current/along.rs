//! What the ends of a line from bank to bank get wherever on it a person is, and when the water sweeps one into it.

use super::case::{Bending, Bent};
use super::choice::Posture;
use super::{InTheCurrent, Tool};
use crate::law::OutOfDomain;
use crate::law::caught_on_line::{Moment, Part, held, swept};
use crate::law::slanted_line::{SlantedLine, passing};
use crate::quantity::{
    Angle, Force, Length, Mass, Ratio, Velocity, kilogram, metre, metre_per_second, newton, radian, ratio,
};

/// Parts of the line at whose ends it is looked at, and steps by which the stretch of the parts and their tension come to
/// agree: each leaves a third of what is left, or less.
const PLACES: u32 = 12;
const STEPS: u32 = 3;

/// A line from bank to bank.
#[derive(Debug, Clone, Copy)]
pub(super) struct Across {
    /// Straight between the ends, m, and its angle to the current, radians.
    pub(super) span: f64,
    pub(super) to_current: f64,
    /// Without stretch, as a share of the span.
    pub(super) slack: f64,
    pub(super) stiffness: f64,
    pub(super) friction: f64,
}

impl Across {
    /// The most that the near and the far part carry, the drag (N) acting wherever the person is held (or slides past),
    /// from what is known of the middle.
    pub(super) fn most(&self, tool: Tool, bent: &Bent) -> Result<[f64; 2], OutOfDomain> {
        let [near, far] = bent.middle;
        let mut most = [near.max(bent.across), far.max(bent.across)];
        let mut take = |[near, far]: [f64; 2]| most = [near.max(most[0]), far.max(most[1])];
        let slides = tool == Tool::Diagonal;
        // Where they are left; beside an end it holds all of the drag.
        take(if slides { bent.tensions } else { [bent.drag; 2] });
        if slides && self.to_current > std::f64::consts::FRAC_PI_2 {
            return Ok(most);
        }
        let [near_part, _] = bent.parts;
        let mut before = [[0.0; 2]; 2];
        for place in 1..PLACES {
            let share = f64::from(place) / f64::from(PLACES);
            let here = if slides { self.slides_past(bent, share * near_part)? } else { self.held(bent.drag, share)? };
            let [first, middle] = before;
            // Not over the corner where a part becomes slack.
            if place > 2 && [first, middle, here].as_flattened().iter().all(|pull| *pull > 0.0) {
                take([top(first[0], middle[0], here[0]), top(first[1], middle[1], here[1])]);
            }
            take(here);
            before = [middle, here];
        }
        Ok(most)
    }

    /// Tension of the parts, a person held at a share of the line.
    fn held(&self, drag: f64, share: f64) -> Result<[f64; 2], OutOfDomain> {
        let [near, far] = self.parts(share);
        let rest = held(&near, &far, Force::new::<newton>(drag))?;
        Ok([rest.near.value, rest.far.value])
    }

    /// The line on both sides of a person who is tied in at a share of it, seen with the current running down.
    fn parts(&self, share: f64) -> [Part; 2] {
        let (across, along) = self.to_current.sin_cos();
        let metres = Length::new::<metre>;
        let part = |from: f64, share: f64| Part {
            along: metres(from * self.span * across),
            above: metres(-from * self.span * along),
            beyond: metres(0.0),
            unstretched: metres(share * self.span * (1.0 + self.slack)),
            stiffness: Force::new::<newton>(self.stiffness),
        };
        [part(-share, share), part(1.0 - share, 1.0 - share)]
    }

    /// Tension of the parts where a person slides past who has come so far along the near part (m).
    fn slides_past(&self, bent: &Bent, near_part: f64) -> Result<[f64; 2], OutOfDomain> {
        let mut slack = bent.slack;
        let mut pulls = [0.0; 2];
        for _ in 0..STEPS {
            let line = SlantedLine {
                span: Length::new::<metre>(self.span),
                slack: Ratio::new::<ratio>(slack),
                to_current: Angle::new::<radian>(self.to_current),
                friction: Ratio::new::<ratio>(self.friction),
            };
            if slack <= 0.0 {
                // Straight along the current: nothing pulls across.
                return Ok([0.0; 2]);
            }
            // No part is shorter than half the slack.
            let (least, whole) = (self.span * slack / 2.0, self.span * (1.0 + slack));
            let at = near_part.max(least).min(least + self.span);
            let slider = passing(&line, Force::new::<newton>(bent.drag), Length::new::<metre>(at))?;
            pulls = [slider.near_tension.value, slider.far_tension.value];
            let stretch = (pulls[0] * at + pulls[1] * (whole - at)) / (whole * self.stiffness);
            slack += 2.0 / 3.0 * ((1.0 + self.slack) * (1.0 + stretch) - 1.0 - slack);
        }
        Ok(pulls)
    }
}

/// The top of a hill through three pulls an equal way apart, if it is between them.
fn top(first: f64, middle: f64, last: f64) -> f64 {
    let (rises, bends) = ((last - first) / 2.0, first + last - 2.0 * middle);
    if bends < -rises.abs() { middle - rises * rises / (2.0 * bends) } else { middle }
}

impl InTheCurrent {
    /// The most that the near and the far part, and those who hang, get when all of them drift with the water into the
    /// middle of the line, as fast as it may be, and take as much water along as a body in that posture may.
    pub(super) fn swept_in(&self, point: &Bending, posture: Posture) -> Result<[f64; 3], OutOfDomain> {
        let [near, far] = self.straight(point).parts(0.5);
        let [drag, ..] = *point;
        let [mass, speed] = self.sweeping(posture)?;
        let mut most = [0.0_f64; 3];
        let mut each = |moment: &Moment| {
            for (most, force) in most.iter_mut().zip([moment.near, moment.far, moment.both]) {
                *most = most.max(force.value);
            }
        };
        let (mass, speed) = (Mass::new::<kilogram>(mass), Velocity::new::<metre_per_second>(speed));
        swept(&near, &far, Force::new::<newton>(drag), mass, speed, &mut each)?;
        Ok(most)
    }

    /// The heaviest with the water they may take along (kg), and the fastest water (m/s).
    pub(super) fn sweeping(&self, posture: Posture) -> Result<[f64; 2], OutOfDomain> {
        let mass = self.mass().high() * (1.0 + Self::carries_along(posture).high());
        Ok([mass, self.speed()?.high() * self.surge().high()])
    }
}

#[cfg(test)]
impl Across {
    /// How far down the current from the near end a person rests who is held at a share of the line (m).
    pub(super) fn rests(&self, drag: f64, share: f64) -> Result<f64, OutOfDomain> {
        let [near, far] = self.parts(share);
        let rest = held(&near, &far, Force::new::<newton>(drag))?;
        Ok(share * self.span * self.to_current.cos() + rest.down.value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hill_is_as_high_as_the_parabola_through_it() {
        // 5 − (x − 1.5)² at 0, 1, 2, and one that only rises.
        assert_eq!(top(2.75, 4.75, 4.75), 5.0);
        assert_eq!(top(1.0, 2.0, 4.0), 2.0);
    }

    #[test]
    fn between_the_places_a_line_is_looked_at_no_pull_is_missed() {
        let line = Across { span: 9.0, to_current: 1.1, slack: 0.02, stiffness: 41e3, friction: 0.0 };
        let of = |share: f64| line.held(4000.0, share).unwrap()[0];
        let all = (1..1000).map(|place| of(f64::from(place) / 1000.0)).fold(0.0, f64::max);
        let places: Vec<f64> = (1..PLACES).map(|place| of(f64::from(place) / f64::from(PLACES))).collect();
        let coarse = places.iter().copied().fold(0.0, f64::max);
        let hills = places.windows(3).map(|three| top(three[0], three[1], three[2])).fold(coarse, f64::max);
        assert!((hills / all - 1.0).abs() < 2e-3 && hills > coarse, "{coarse} {hills} {all}");
    }
}
