//! What the ends of a line from bank to bank get wherever on it a person is, and when the water sweeps one into it.

use super::case::{Bending, Bent};
use super::choice::Posture;
use super::{InTheCurrent, Tool};
use crate::law::OutOfDomain;
use crate::law::caught_on_line::{Moment, Part, swept};
use crate::law::slanted_line::{SlantedLine, passing};
use crate::quantity::{
    Angle, Force, Length, Mass, Ratio, Velocity, kilogram, metre, metre_per_second, newton, radian, ratio,
};

/// Places on the line that are looked at.
const PLACES: u32 = 12;
/// Steps by which the stretch of the parts and their tension come to agree; each takes half of what is left.
const STEPS: u32 = 8;

/// A line from bank to bank.
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
        match tool {
            Tool::Diagonal if self.to_current <= std::f64::consts::FRAC_PI_2 => {
                take(bent.tensions);
                let [near_part, _] = bent.parts;
                for place in 1..PLACES {
                    take(self.slides_past(bent, near_part * f64::from(place) / f64::from(PLACES))?);
                }
            }
            Tool::Diagonal => take(bent.tensions),
            _ => {
                // Beside an end it holds all of the drag.
                take([bent.drag, bent.drag]);
                for place in 1..PLACES {
                    take(self.held(bent, f64::from(place) / f64::from(PLACES)));
                }
            }
        }
        Ok(most)
    }

    /// Tension of the parts, a person held at a share of the line: Lami's theorem, with the parts as they stretch.
    fn held(&self, bent: &Bent, share: f64) -> [f64; 2] {
        let line = self.span * (1.0 + self.slack);
        let mut pulls = [bent.across; 2];
        for _ in 0..STEPS {
            let [near, far] = pulls;
            let near_part = share * line * (1.0 + near / self.stiffness);
            let far_part = (1.0 - share) * line * (1.0 + far / self.stiffness);
            let beside = |one: f64, other: f64| {
                let cosine = (self.span * self.span + one * one - other * other) / (2.0 * self.span * one);
                cosine.clamp(-1.0, 1.0).acos()
            };
            let (alpha, beta) = (beside(near_part, far_part), beside(far_part, near_part));
            let bend = (alpha + beta).sin();
            if bend <= 0.0 {
                return pulls;
            }
            let now = [(self.to_current + beta).sin(), (self.to_current - alpha).sin()].map(|sine| bent.drag * sine / bend);
            pulls = match now {
                // One part is slack: all hang on the other.
                [_, far] if far < 0.0 => [bent.drag, 0.0],
                [near, _] if near < 0.0 => [0.0, bent.drag],
                [now_near, now_far] => [f64::midpoint(near, now_near), f64::midpoint(far, now_far)],
            };
        }
        pulls
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
            // No part is shorter than half the slack.
            let (least, whole) = (self.span * slack / 2.0, self.span * (1.0 + slack));
            let at = near_part.max(least).min(least + self.span);
            let slider = passing(&line, Force::new::<newton>(bent.drag), Length::new::<metre>(at))?;
            pulls = [slider.near_tension.value, slider.far_tension.value];
            let stretch = (pulls[0] * at + pulls[1] * (whole - at)) / (whole * self.stiffness);
            slack = f64::midpoint(slack, (1.0 + self.slack) * (1.0 + stretch) - 1.0);
        }
        Ok(pulls)
    }
}

impl InTheCurrent {
    /// The most that the near and the far part carry when all who hang drift with the water into the middle of the line,
    /// as fast as it may be, and take as much water along as a body in that posture may.
    pub(super) fn swept_in(&self, point: &Bending, posture: Posture) -> Result<[f64; 2], OutOfDomain> {
        let &[drag, slack, stiffness, ..] = point;
        let Bent { span, to_current, .. } = self.bent(point)?;
        let [across, above] = [to_current.sin(), to_current.cos()].map(|part| Length::new::<metre>(part * span / 2.0));
        let near = Part {
            along: -across,
            above,
            beyond: Length::default(),
            unstretched: Length::new::<metre>(span * (1.0 + slack) / 2.0),
            stiffness: Force::new::<newton>(stiffness),
        };
        let far = Part { along: across, above: -above, ..near };
        let mass = self.mass().high() * (1.0 + Self::carries_along(posture).high());
        let speed = self.speed()?.high() * self.surge().high();
        let mut most = [0.0_f64; 2];
        let mut each = |moment: &Moment| most = [most[0].max(moment.near.value), most[1].max(moment.far.value)];
        let (mass, speed) = (Mass::new::<kilogram>(mass), Velocity::new::<metre_per_second>(speed));
        swept(&near, &far, Force::new::<newton>(drag), mass, speed, &mut each)?;
        Ok(most)
    }
}
