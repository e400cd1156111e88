//! Which legs of fixed length go slack, and at what swing.

use super::super::input::BadInput;
use super::worst::{FRICTION, LENGTHS, Worst, put};
use super::{AnchorLegs, Rig};
use crate::statics::Vector;

/// Swings looked at on either side, and how often the place between two of them is halved.
const STEPS: u32 = 8;
const HALVINGS: u32 = 7;
/// Largest swing that can be asked about.
const FARTHEST: f64 = 80.0;

/// What is known of slack legs.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Slack {
    /// A leg and the swing (radians, right above 0) beyond which it is slack, legs tied as meant.
    pub(super) beyond: Vec<(usize, f64)>,
    /// Legs that can be slack somewhere within the ranges.
    pub(super) within: Vec<usize>,
}

impl AnchorLegs {
    /// Looked for where legs go slack first: as narrow as entered, as stiff as can be, under the least weight.
    pub(super) fn slack(&self, all: &mut Worst) -> Result<Slack, BadInput> {
        let mut slack = Slack::default();
        if self.rig != Rig::Fixed {
            return Ok(slack);
        }
        let count = self.count();
        slack.within =
            (0..count).filter(|leg| all.found.get(*leg).is_some_and(|spread| spread.band.low() <= 0.0)).collect();
        let mut point = self.bands(self.state).map(|band| band.low());
        for leg in 0..count {
            put(&mut point, LENGTHS + leg, 0.0);
        }
        put(&mut point, 3, self.material.stiffness().high());
        put(&mut point, FRICTION, 0.0);
        let weight = self.people.weight_of_all(self.people.body.low().value, self.people.kit.low().value);
        put(&mut point, 5, self.down.high().value);
        let mut pulls = |swing: f64| -> Result<Vec<bool>, BadInput> {
            let load = Vector::new(swing.sin(), 0.0, -swing.cos()) * weight;
            Ok(all.rigged.under(load, &point)?.tensions.iter().map(|tension| *tension > 0.0).collect())
        };
        let plumb = pulls(0.0)?;
        for side in [1.0, -1.0] {
            let mut last = plumb.clone();
            for step in 1..=STEPS {
                let far = side * FARTHEST.to_radians() * f64::from(step) / f64::from(STEPS);
                let near = side * FARTHEST.to_radians() * f64::from(step - 1) / f64::from(STEPS);
                let there = pulls(far)?;
                for leg in (0..count).filter(|leg| last.get(*leg) == Some(&true) && there.get(*leg) == Some(&false)) {
                    let (mut taut, mut loose) = (near, far);
                    for _ in 0..HALVINGS {
                        let middle = f64::midpoint(taut, loose);
                        if pulls(middle)?.get(leg) == Some(&true) {
                            taut = middle;
                        } else {
                            loose = middle;
                        }
                    }
                    slack.beyond.push((leg, taut));
                }
                last = there;
            }
        }
        Ok(slack)
    }
}
