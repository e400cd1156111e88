//! A ring that rubs on the guide: what its friction adds to the pull of the guide's top anchor.

use super::super::Over;
use super::super::input::BadInput;
use super::super::rest::at_rest_again;
use super::GuidedAbseil;
use super::case::{Case, Inputs, On, SLACK, Step};
use super::told::included;
use crate::statics::{LineId, PointId, Rig, Solver, Vector};
use std::f64::consts::PI;

impl Case {
    /// Much what the guide's top anchor gets there with the most friction of the ring, N: a ring that slides down holds the
    /// part above it, and the one below is taken to pull as it does without friction, but no more than so that both parts
    /// hold the load alone. It pulls harder where the ring stays behind ([`Parted::rubbed`]), by less than a tenth.
    pub(super) fn rubbed(&self, step: &Step) -> f64 {
        let top = step.on(On::Top).norm();
        let turn = PI - included(self, step);
        let left = (-Over::Ring.friction(true).0.high() * turn).exp();
        let alone = self.load.max(step.tail) / (1.0 + left * (left - 2.0 * turn.cos())).sqrt();
        (top / left).min(alone).max(top)
    }

    /// The same at the place where that is most, N, the ring where it then is.
    fn rubs_at_its_hardest(&self, mut parted: Parted) -> f64 {
        let none = (0.0, None);
        let told = self.way.iter().map(|step| (self.rubbed(step), Some(step)));
        let (told, hardest) = told.fold(none, |most, here| if here.0 > most.0 { here } else { most });
        hardest.and_then(|step| parted.rubbed(self, step).ok()).unwrap_or(0.0).max(told)
    }

    /// The most that the guide's top anchor gets with the most friction of the ring, N, the ring where it then is.
    pub(super) fn rubs_most(&self, mut parted: Parted) -> f64 {
        let most = self.way.iter().map(|step| self.rubbed(step)).fold(0.0, f64::max);
        let mut pulls = most;
        for step in self.way.iter().filter(|step| self.rubbed(step) >= NEARLY * most) {
            pulls = parted.rubbed(self, step).unwrap_or(0.0).max(pulls);
        }
        pulls
    }
}

/// Share of the hardest pull of a ring that rubs from which on a place is solved anew: that it is a tenth too low is not
/// missed.
const NEARLY: f64 = 0.9;

/// Share of the hardest pull in the places of a way from which on a case is looked at closely.
const CLOSELY: f64 = 0.96;

/// How often the places of a way are looked at closer, each time twice as close.
const CLOSER: u32 = 3;

/// How close, as a share, the pulls above and below a ring are to what friction holds.
const CLOSE: f64 = 1e-3;

/// The guide in two parts, parted at the ring: so much of it is above as friction keeps there.
pub(super) struct Parted {
    rig: Rig,
    solver: Solver,
    person: PointId,
    ring: PointId,
    rope: LineId,
    parts: [LineId; 2],
    stiffness: f64,
}

impl Parted {
    /// Pull above a ring that slides down the guide, N: as many times that below as friction holds around the turn.
    ///
    /// # Errors
    /// No balance; none is asked for where the guide is slack or the ring at an anchor of it.
    fn rubbed(&mut self, case: &Case, step: &Step) -> Result<f64, BadInput> {
        let most = Over::Ring.friction(true).0.high();
        let stretched = 1.0 + step.guide / self.stiffness;
        let length = (case.top - step.ring).norm() / stretched;
        // At an anchor of the guide no ring slides.
        let ends = length < 0.005 * case.guide || case.guide - length < 0.02 * case.guide;
        if step.guide <= SLACK * case.load || ends {
            return Ok(0.0);
        }
        self.rig.set_length(self.rope, step.paid_out)?;
        // Pulls above, and how far it is from what friction holds; less of the guide above is more pull there.
        let mut at = |above: f64| -> Result<[f64; 2], BadInput> {
            let lengths = [above, case.guide - above];
            for (part, length) in self.parts.iter().zip(lengths) {
                self.rig.set_length(*part, length)?;
            }
            let rest = at_rest_again(&mut self.solver, &self.rig)?;
            self.rig.start_from(&rest);
            let [up, down] = self.parts.map(|part| rest.line(part).map_or(0.0, |line| line.tension()));
            let place = |id| rest.point(id).map_or(Vector::zeros(), |point| point.at);
            let there = Step { person: place(self.person), ring: place(self.ring), ..*step };
            let turn = PI - included(case, &there);
            Ok([up, (up / down.max(SLACK * case.load)).ln() - most * turn])
        };
        let (mut slides, mut holds) = ((length, at(length)?[1]), None::<(f64, f64)>);
        let (mut pull, mut less, mut slid) = (0.0, 0.02 * length, false);
        for _ in 0..40 {
            // By chords that keep it between them (Illinois).
            let next = holds.map_or((slides.0 - less).max(0.5 * slides.0), |(above, over)| {
                slides.0 + (above - slides.0) * slides.1 / (slides.1 - over)
            });
            let [up, over] = at(next)?;
            if over < 0.0 {
                (slides, less) = ((next, over), 2.0 * less);
                holds = holds.map(|(above, over)| (above, if slid { 0.5 * over } else { over }));
            } else {
                (holds, pull) = (Some((next, over)), up);
                slides.1 *= if slid { 1.0 } else { 0.5 };
            }
            slid = over < 0.0;
            if over.abs() < CLOSE || next < 1e-3 * length {
                pull = up;
                break;
            }
        }
        Ok(pull)
    }
}

impl GuidedAbseil {
    /// The most that the guide's top anchor gets with the most friction of the ring, N, and where: each case is solved where
    /// it seems to pull hardest; those that come near the hardest are then looked at closely.
    pub(super) fn rubs_most_of(&self, cases: Vec<(Inputs, Case)>) -> Result<(f64, Inputs), BadInput> {
        let seems = cases.iter().map(|(_, case)| case.most()[3]).fold(0.0, f64::max);
        let (mut solved, mut hardest) = (Vec::new(), 0.0);
        for (point, case) in &cases {
            let mut pulls = 0.0;
            // Too low by less than a tenth in a place, and as much between places.
            if case.most()[3] >= NEARLY * NEARLY * seems {
                pulls = case.rubs_at_its_hardest(self.parted(point)?);
            }
            solved.push(pulls);
            hardest = pulls.max(hardest);
        }
        let mut most = (0.0, Inputs::default());
        for ((point, mut case), pulls) in cases.into_iter().zip(solved) {
            if pulls >= CLOSELY * hardest {
                for _ in 0..CLOSER {
                    case.look_closer(&Case::rubbed)?;
                }
                let pulls = case.rubs_most(self.parted(&point)?);
                if pulls > most.0 {
                    most = (pulls, point);
                }
            }
        }
        Ok(most)
    }

    /// The same rig with the guide in two parts.
    pub(super) fn parted(&self, &[load, bottom_out, set, stiffness]: &Inputs) -> Result<Parted, BadInput> {
        let ([top, bottom], guide) = self.guide_line(bottom_out, set, stiffness);
        let mut rig = Rig::new();
        let [abseil, top_id, bottom_id] = [
            rig.add_held("abseil anchor", [0.0, 0.0, 0.0])?,
            rig.add_held("top of the guide", top)?,
            rig.add_held("bottom of the guide", bottom)?,
        ];
        let ring = rig.add_free("ring", 0.7 * top + 0.3 * bottom, [0.0, 0.0, 0.0])?;
        let person = rig.add_free("person", 0.7 * top + 0.3 * bottom - Vector::z(), [0.0, 0.0, -load])?;
        let rope = rig.add_line("abseil rope", &[abseil, person], 1.0, stiffness)?;
        let parts = [
            rig.add_line("guide above the ring", &[top_id, ring], guide / 2.0, stiffness)?,
            rig.add_line("guide below the ring", &[ring, bottom_id], guide / 2.0, stiffness)?,
        ];
        rig.add_line("cow's tail", &[person, ring], self.tail.value, stiffness)?;
        Ok(Parted { rig, solver: Solver::default(), person, ring, rope, parts, stiffness })
    }
}
