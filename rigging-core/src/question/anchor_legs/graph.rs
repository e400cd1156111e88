//! Curves about the worst case: the included angle, and the swing.

use super::super::graph::{Axis, Graph, Mark};
use super::super::input::BadInput;
use super::AnchorLegs;
use super::rigged::{Case, Point, Rigged};
use super::worst::{SWING, Worst, put};
use crate::band::Band;
use crate::quantity::Kind;
use crate::statics::Vector;

/// Places of the distance down among the inputs.
const DOWN: usize = 5;
/// How many places of a curve are solved.
const MARKS: u32 = 16;

impl AnchorLegs {
    /// The curves through the worst case of an anchor.
    pub(super) fn graphs(&self, worst: &mut Worst) -> Result<Vec<Graph>, BadInput> {
        let (most, _) = worst.most();
        let Some(at) = worst.found.get(most).map(|spread| spread.at_high) else { return Ok(Vec::new()) };
        let loads = self.three_loads()?;
        let [_, _, _, _, apart, _, swing, ..] = at;
        let on = |case: &Case| case.most().1;
        let mut graphs = Vec::new();
        if self.count() == 2 {
            let mut curve = Vec::new();
            for number in 0..=MARKS {
                // Legs drawn from 10° to 150° apart.
                let half = (5.0 + 70.0 * f64::from(number) / f64::from(MARKS)).to_radians();
                let mut point = at;
                put(&mut point, DOWN, apart / 2.0 / half.tan());
                // Near an anchor there is nothing to tie.
                if let Ok(mark) = mark(&mut worst.rigged, &point, loads, &on)
                    && curve.last().is_none_or(|last: &Mark| last.across < mark.across)
                {
                    curve.push(mark);
                }
            }
            graphs.push(Graph {
                title: "force on whichever anchor carries most, against the angle between the legs".to_owned(),
                across: Axis { name: "included angle", kind: Kind::Angle },
                up: Axis { name: "force on the anchor", kind: Kind::Force },
                curve,
                here: Some(mark(&mut worst.rigged, &at, loads, &on)?),
            });
        }
        let (left, right) = (-self.swing_left.value, self.swing_right.value);
        if right > left {
            let mut curve = Vec::new();
            let mut at_swing = |swing: f64| -> Result<Mark, BadInput> {
                let mut point = at;
                put(&mut point, SWING, swing);
                Ok(Mark { across: swing, ..mark(&mut worst.rigged, &point, loads, &on)? })
            };
            for number in 0..=MARKS {
                curve.push(at_swing(left + (right - left) * f64::from(number) / f64::from(MARKS))?);
            }
            graphs.push(Graph {
                title: format!(
                    "force on whichever anchor carries most{}, as the load swings",
                    if self.count() > 2 { ", all legs sharing" } else { "" }
                ),
                across: Axis { name: "swing from the fall line, right above 0", kind: Kind::Angle },
                up: Axis { name: "force on the anchor", kind: Kind::Force },
                curve,
                here: Some(at_swing(swing)?),
            });
        }
        Ok(graphs)
    }

    /// The least, a typical and the most load in the chosen state, N.
    fn three_loads(&self) -> Result<[f64; 3], BadInput> {
        let [light, heavy] = self.loads(self.state)?;
        let [body, kit] = self.people.inputs();
        let typical = [body.typical(), kit.typical(), self.uncertain(self.state).typical()];
        let mut loads = [0.0; 3];
        for (load, [body, kit, at]) in loads.iter_mut().zip([light, typical, heavy]) {
            *load = self.people.load_of_all(self.state, body, kit, at)?;
        }
        Ok(loads)
    }
}

/// The force at one place, from the least to the most load.
fn mark(rigged: &mut Rigged, point: &Point, loads: [f64; 3], on: &dyn Fn(&Case) -> f64) -> Result<Mark, BadInput> {
    let [_, _, _, _, _, _, swing, ..] = *point;
    let (mut up, mut across) = ([0.0; 3], 0.0);
    for (up, load) in up.iter_mut().zip(loads) {
        let case = rigged.under(Vector::new(swing.sin(), 0.0, -swing.cos()) * load, point)?;
        *up = on(&case);
        across = case.included;
    }
    let [low, typical, high] = up;
    Ok(Mark { across, up: Band::of(low, typical, high) })
}
