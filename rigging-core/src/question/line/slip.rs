//! What has to be looked for: the length that gives a sag, and the most of a slip.

use super::super::input::BadInput;
use super::rigged::{Hung, Ready, Rigged};
use crate::law::OutOfDomain;
use crate::law::caught_on_line::{Moment, Part, dropped};
use crate::law::taut_line::{self, TautLine};
use crate::quantity::{Force, Length, metre, newton};
use crate::statics::Vector;

/// Share of the value at which a search stops; the step before was already so near that this one is exact.
const NEAR: f64 = 1e-6;

/// Peak of a slip in weights, where its search begins.
const USUAL: f64 = 4.0;

/// No line is set longer than this, as a share of the straight distance.
const LONGEST: f64 = 2.0;

/// Where a rising function above `least` is zero: secants from a guess, halving where they do not close in.
pub(super) fn rising_to_zero(
    guess: f64,
    least: f64,
    function: &mut dyn FnMut(f64) -> Result<f64, BadInput>,
) -> Result<f64, BadInput> {
    let (mut low, mut high) = (least, f64::INFINITY);
    let (mut at, mut before) = (guess.max(least), None);
    for step in 1..200 {
        let value = function(at)?;
        if value == 0.0 {
            return Ok(at);
        }
        if value < 0.0 {
            low = low.max(at);
        } else {
            high = high.min(at);
        }
        let secant = match before {
            Some((other, of_other)) if of_other != value => at - value * (at - other) / (value - of_other),
            _ => at * (1.0 - 1e-4 * value.signum()),
        };
        let next = if secant > low && secant < high && step % 8 != 0 {
            secant
        } else if high.is_finite() {
            0.5 * (low + high)
        } else {
            2.0 * low.max(at)
        };
        if (next - at).abs() <= NEAR * at || high - low <= NEAR * at {
            return Ok(next);
        }
        before = Some((at, value));
        at = next;
    }
    Ok(at)
}

impl Rigged {
    /// The loaded bay as a single line on which the load runs, held at its place along the span: what the length or
    /// the peak is near to. None if the other bays take up the whole line.
    pub(super) fn as_single(&self) -> TautLine {
        let chord = self.chord(self.bay);
        let straight = chord.norm();
        let whole: f64 = (0..self.anchors.len().saturating_sub(1)).map(|bay| self.chord(bay).norm()).sum();
        let others = if self.tied { 0.0 } else { whole - straight };
        // What a line that runs through has in the other bays is missing or left over in this one.
        let unstretched = (self.length * (straight + others) - others).max(0.05 * straight);
        let stiffness = self.stiffness * unstretched / (self.length * (straight + others));
        TautLine {
            span: Length::new::<metre>(chord.x),
            rise: Length::new::<metre>(-chord.dot(&self.toward)),
            at: Length::new::<metre>(chord.x * self.share),
            unstretched: Length::new::<metre>(unstretched),
            stiffness: Force::new::<newton>(stiffness),
        }
    }

    /// Sets the length so that the line sags this much (m) under a load.
    pub(super) fn set_by_sag(&mut self, load: f64, sag: f64) -> Result<(), BadInput> {
        let single = TautLine { stiffness: Force::new::<newton>(self.stiffness), ..self.as_single() };
        let straight = self.chord(self.bay).norm();
        let guess = taut_line::unstretched_for_sag(&single, Force::new::<newton>(load), Length::new::<metre>(sag))
            .map_or(straight, |length| length.value);
        let mut ready = self.clone().ready()?;
        self.length = rising_to_zero(guess / straight, 0.0, &mut |length| Ok(ready.sag_at(length, load)? - sag))?;
        if self.length > LONGEST {
            let must =
                "less for a place so near an anchor: the line would have to be more than twice as long as straight";
            return Err(OutOfDomain { what: "sag with the person on it", value: sag, must }.into());
        }
        Ok(())
    }

    /// Energy in the stretched parts while the line is straight, J.
    fn stored_straight(&self) -> f64 {
        let bays = if self.tied { self.bay..self.bay + 1 } else { 0..self.anchors.len().saturating_sub(1) };
        let straight: f64 = bays.map(|bay| self.chord(bay).norm()).sum();
        let stretch = straight * (1.0 - self.length).max(0.0);
        self.stiffness * stretch * stretch / (2.0 * self.length * straight)
    }
}

impl Ready {
    /// At rest at the lowest place of a slip: the load F ≥ W at which the line has stored what the weights gave on their way from the
    /// straight line, `Σ ½ EA/L₀ (⟨ℓ − L₀⟩² − ⟨ℓ₀ − L₀⟩²) = W (fall + drop) + w fall`.
    pub(super) fn slip(&mut self, weight: f64, drop: f64) -> Result<Hung, BadInput> {
        let (before, start) = (self.rigged.stored_straight(), self.rigged.start());
        let (toward, lump) = (self.rigged.toward, self.rigged.lump());
        let force = rising_to_zero(USUAL * weight, weight, &mut |force| {
            let hung = self.on_points(force)?;
            let gone = hung.at - start;
            Ok(hung.stored - before - weight * (gone.dot(&toward) + drop) + lump * gone.z)
        })?;
        self.on_points(force)
    }

    /// The most of a slip that comes to rest so at its lowest place. Who runs along the line gets no more than there,
    /// where it has stored most; who is tied to it comes down plumb, not where they hang later: followed in time, until
    /// the line has thrown them up again.
    pub(super) fn caught(&self, slip: &Hung, weight: f64, drop: f64) -> Result<Caught, BadInput> {
        let mut caught =
            Caught { on: slip.on.iter().map(|force| force.norm()).collect(), tension: slip.tension(), load: slip.load };
        let rigged = &self.rigged;
        if !rigged.clipped {
            return Ok(caught);
        }
        let (toward, start, chord) = (rigged.toward, rigged.start(), rigged.chord(rigged.bay));
        let along = (chord - toward * chord.dot(&toward)).normalize();
        let (first, last) = rigged.ends();
        let straight = |bays: std::ops::Range<usize>| bays.map(|bay| rigged.chord(bay).norm()).sum::<f64>();
        let part = |anchor: usize, share: f64, beyond: f64| {
            let to = rigged.anchor(anchor) - start;
            let metres = Length::new::<metre>;
            Part {
                along: metres(to.dot(&along)),
                above: metres(-to.dot(&toward)),
                beyond: metres(beyond),
                unstretched: metres(rigged.length * (beyond + share * chord.norm())),
                stiffness: Force::new::<newton>(rigged.stiffness),
            }
        };
        let near = part(rigged.bay, rigged.share, straight(first..rigged.bay));
        let far = part(rigged.bay + 1, 1.0 - rigged.share, straight(rigged.bay + 1..last));
        let besides: Vec<Vector> = self.idle.iter().zip(&self.put).map(|(idle, put)| idle + put).collect();
        let mut each = |moment: &Moment| {
            let at = start + along * moment.along.value + toward * moment.down.value;
            let (near, far) = (moment.near.value, moment.far.value);
            let mut forces = besides.clone();
            let mut load = Vector::zeros();
            for bay in first..last {
                let (from, to) = (rigged.anchor(bay), rigged.anchor(bay + 1));
                let mut pull = |anchor: usize, other: Vector, tension: f64| {
                    let pull = (other - rigged.anchor(anchor)).normalize() * tension;
                    if let Some(force) = forces.get_mut(anchor) {
                        *force += pull;
                    }
                    pull
                };
                if bay == rigged.bay {
                    load = pull(bay, at, near) + pull(bay + 1, at, far);
                } else {
                    let tension = if bay < rigged.bay { near } else { far };
                    pull(bay, to, tension);
                    pull(bay + 1, from, tension);
                }
            }
            for (most, force) in caught.on.iter_mut().zip(&forces) {
                *most = most.max(force.norm());
            }
            caught.load = caught.load.max(load.norm());
            caught.tension = caught.tension.max(near).max(far);
        };
        dropped(&near, &far, Force::new::<newton>(weight), Length::new::<metre>(drop), &mut each)?;
        Ok(caught)
    }
}

/// The most of a slip, N.
#[derive(Debug, Clone)]
pub(super) struct Caught {
    /// On each anchor.
    pub(super) on: Vec<f64>,
    /// In the line beside the load.
    pub(super) tension: f64,
    /// On the cow's tail.
    pub(super) load: f64,
}

impl Caught {
    /// On the anchor that is pulled hardest.
    pub(super) fn hardest(&self) -> f64 {
        self.on.iter().copied().fold(0.0, f64::max)
    }
}
