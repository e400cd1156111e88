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

/// Parts of the line at whose ends it is looked at, and steps by which the stretch of the parts and their tension come to
/// agree: each leaves a third of what is left, or less.
const PLACES: u32 = 12;
const STEPS: u32 = 3;
/// Steps to where a person rests who is held, and halves of one; how near to rest is near enough, as a share of the drag.
const NEWTON: u32 = 60;
const HALVES: u32 = 40;
const NEAR: f64 = 1e-10;

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
            let here = if slides { self.slides_past(bent, share * near_part)? } else { self.held(bent.drag, share) };
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

    /// Tension of the parts, a person held at a share of the line: where the stored energy less the work of the drag is
    /// least, by Newton's steps. It has one valley.
    fn held(&self, drag: f64, share: f64) -> [f64; 2] {
        let line = self.span * (1.0 + self.slack);
        let parts = [(0.0, share * line), (self.span, (1.0 - share) * line)];
        let [along, across] = [self.to_current.cos(), self.to_current.sin()].map(|part| drag * part);
        // Direction to the end of a part and how far that is; its tension, and how stiffly it holds.
        let pull = |[x, y]: [f64; 2], (end, length): (f64, f64)| {
            let (to, away) = (end - x, ((end - x) * (end - x) + y * y).sqrt().max(f64::MIN_POSITIVE));
            let stretch = (away - length).max(0.0);
            let gain = if stretch > 0.0 { self.stiffness / length } else { 0.0 };
            (to / away, -y / away, away, gain * stretch, gain)
        };
        let energy = |at: [f64; 2]| {
            let stored = parts.map(|part| {
                let (.., tension, gain) = pull(at, part);
                if gain > 0.0 { tension * tension / (2.0 * gain) } else { 0.0 }
            });
            stored[0] + stored[1] - along * at[0] - across * at[1]
        };
        let mut at = [share * self.span, 0.0];
        for _ in 0..NEWTON {
            let ridge = 1e-9 * self.stiffness / line;
            let (mut force, mut holds) = ([along, across], [ridge, 0.0, ridge]);
            for part in parts {
                let (x, y, away, tension, gain) = pull(at, part);
                force = [force[0] + tension * x, force[1] + tension * y];
                let (turned, drawn) = (tension / away, gain - tension / away);
                holds =
                    [holds[0] + turned + drawn * x * x, holds[1] + drawn * x * y, holds[2] + turned + drawn * y * y];
            }
            if force[0].hypot(force[1]) <= NEAR * drag {
                break;
            }
            let [xx, xy, yy] = holds;
            let whole = (xx * yy - xy * xy).max(f64::MIN_POSITIVE);
            let step = [(yy * force[0] - xy * force[1]) / whole, (xx * force[1] - xy * force[0]) / whole];
            // No farther than the line is long, and as far as it leads down.
            let mut share_of_step = (line / step[0].hypot(step[1]).max(f64::MIN_POSITIVE)).min(1.0);
            let before = energy(at);
            let gained = force[0] * step[0] + force[1] * step[1];
            for _ in 0..HALVES {
                let next = [at[0] + share_of_step * step[0], at[1] + share_of_step * step[1]];
                if energy(next) <= before - 1e-4 * share_of_step * gained {
                    at = next;
                    break;
                }
                share_of_step *= 0.5;
            }
        }
        parts.map(|part| pull(at, part).3)
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
