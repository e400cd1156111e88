//! The worst case within the ranges, with few solves: scanned roughly, then climbed to from there.

use super::super::input::BadInput;
use super::super::people::{ROPE_OUT, SLACK};
use super::rigged::{MOST, Point, Rigged, There};
use super::{AnchorLegs, Rig, State};
use crate::band::{Band, Spread};
use crate::law::OutOfDomain;

mod search;
#[cfg(test)]
mod tests;

/// What an input is called in "most of the range comes from".
pub(super) const INPUTS: [&str; 8 + MOST] = [
    super::people::LABELS[0],
    super::people::LABELS[1],
    "what the person does",
    "material of the legs",
    "distance apart",
    "distance down",
    "swing",
    "friction of the ring",
    SCATTER,
    SCATTER,
    SCATTER,
    SCATTER,
    SCATTER,
    SCATTER,
];
const SCATTER: &str = "length of the legs as tied";

/// Places of inputs in a point.
const LOAD: [usize; 3] = [0, 1, 2];
const STIFFNESS: usize = 3;
pub(super) const SWING: usize = 6;
pub(super) const FRICTION: usize = 7;
pub(super) const LENGTHS: usize = 8;

/// Forces this near each other (as a share) differ by rounding.
const SAME: f64 = 1e-9;

/// Swings looked at across the range.
const SWINGS: u32 = 8;

/// What was found of one rig: the force on each anchor, then the largest tension, then the widest included angle.
pub(super) struct Worst<'a> {
    pub(super) rigged: Rigged<'a>,
    state: State,
    bands: [Band; 8 + MOST],
    pub(super) found: Vec<Spread<{ 8 + MOST }>>,
    /// Where each was highest in the scans: a climb to another leads away from there.
    scanned: Vec<Point>,
    light: [f64; 3],
    heavy: [f64; 3],
}

/// Sets one input.
pub(super) fn put(point: &mut Point, place: usize, value: f64) {
    if let Some(slot) = point.get_mut(place) {
        *slot = value;
    }
}

/// Whom a scan hangs there.
#[derive(Clone, Copy)]
enum Load {
    Light,
    Heavy,
}

fn loaded(mut point: Point, load: [f64; 3]) -> Point {
    for (place, value) in LOAD.into_iter().zip(load) {
        put(&mut point, place, value);
    }
    point
}

impl AnchorLegs {
    /// The inputs as ranges.
    pub(super) fn bands(&self, state: State) -> [Band; 8 + MOST] {
        let [body, kit] = self.people.inputs();
        let friction = if self.rig == Rig::Fixed { 0.0 } else { self.ring_friction.high().value };
        let long = self.tied_long();
        let mut bands = [Band::of(-long, 0.0, long); 8 + MOST];
        let first = [
            body,
            kit,
            self.uncertain(state),
            self.material.stiffness(),
            self.apart.map(|length| length.value),
            self.down.map(|length| length.value),
            Band::of(-self.swing_left.value, 0.0, self.swing_right.value),
            // Either side may be the one that friction loads more.
            Band::of(-friction, 0.0, friction),
        ];
        for (place, band) in bands.iter_mut().zip(first) {
            *place = band;
        }
        for place in bands.iter_mut().skip(LENGTHS + self.count()) {
            *place = Band::exact(0.0);
        }
        bands
    }

    /// What is uncertain about a state: a slip onto less rope than usual is one onto a rope that is as much stiffer.
    pub(super) fn uncertain(&self, state: State) -> Band {
        let uncertain = state.uncertain().0;
        if state == State::Slip { uncertain.map(|stiffness| self.harder() * stiffness) } else { uncertain }
    }

    /// Slack of a slip and rope that catches it (m): nobody slips farther than the rope is long, nor onto more of it than
    /// there is.
    pub(super) fn slip(&self) -> [f64; 2] {
        let long = self.rope.value.min(ROPE_OUT);
        [long.min(SLACK), long]
    }

    /// How much harder than on the usual rope a slip is caught, as if the rope were so much stiffer.
    pub(super) fn harder(&self) -> f64 {
        let [slack, long] = self.slip();
        slack / long / (SLACK / ROPE_OUT)
    }

    /// How much longer or shorter than meant a leg may be tied (m).
    pub(super) fn tied_long(&self) -> f64 {
        if self.rig == Rig::Fixed { self.scatter.value } else { 0.0 }
    }

    /// The inputs at which the load of a state is least, and most.
    pub(super) fn loads(&self, state: State) -> Result<[[f64; 3]; 2], OutOfDomain> {
        let load = self.people.spread_over(state, self.uncertain(state))?;
        Ok([load.at_low, load.at_high])
    }

    /// All that can be found of some of the legs in a state.
    pub(super) fn worst(&self, there: There, state: State) -> Result<Worst<'_>, BadInput> {
        let mut worst = Worst::begin(self, there, state)?;
        worst.each_alone()?;
        worst.scan(SWINGS, Load::Light)?;
        worst.scan_heaviest(SWINGS)?;
        for which in 0..worst.found.len() {
            let (anchor, tension) = (which < self.count(), which == self.count());
            if anchor && there.leg(which) || tension && self.rig == Rig::Triangle || which > self.count() {
                worst.rise(which)?;
            }
            if anchor {
                worst.lower(which)?;
            }
        }
        Ok(worst)
    }

    /// The range of the force on the anchor loaded most in another state: looked for anew, since legs stiff under
    /// little load share otherwise, but also where it was found in the chosen one.
    pub(super) fn in_state(&self, chosen: &Worst, state: State) -> Result<Band, BadInput> {
        if state == self.state {
            return Ok(chosen.most().1);
        }
        let mut worst = Worst::begin(self, chosen.rigged.there, state)?;
        for spread in chosen.found.iter().take(self.count()) {
            worst.look(&loaded(spread.at_low, worst.light))?;
            worst.look(&loaded(spread.at_high, worst.heavy))?;
        }
        worst.scan_heaviest(SWINGS / 2)?;
        let high = worst.most().1.high();
        for which in 0..self.count() {
            if worst.found.get(which).is_some_and(|spread| spread.band.high() > 0.8 * high) {
                worst.rise(which)?;
            }
        }
        Ok(worst.most().1)
    }

    /// The pair of anchors that is worst off in a state if everything hangs on it, and the force on its worst anchor under
    /// the heaviest. One leg can take everything in many a pair: of those that come to the same the usually worst.
    fn first_pair(&self, state: State) -> Result<(There, Band), BadInput> {
        let mut first = (There::All, Band::exact(0.0));
        for one in 0..self.count() {
            for other in one + 1..self.count() {
                let mut pair = Worst::begin(self, There::Pair(one, other), state)?;
                pair.corners(SWINGS / 4)?;
                pair.climb(pair.most().0)?;
                let force = pair.most().1;
                if is_worse(force, first.1) {
                    first = (pair.rigged.there, force);
                }
            }
        }
        Ok(first)
    }

    /// The pair of anchors that is worst off if everything hangs on it, and all that can be found of it.
    pub(super) fn worst_pair(&self) -> Result<Worst<'_>, BadInput> {
        self.worst(self.first_pair(self.state)?.0, self.state)
    }

    /// The range of the force on the worst anchor of the worst pair in another state: of the pair that was worst in the
    /// chosen one; its high end also of the pair that is worst in this one, which is looked at under the heaviest alone.
    pub(super) fn pair_in_state(&self, chosen: &Worst, state: State) -> Result<Band, BadInput> {
        let band = self.in_state(chosen, state)?;
        if state == self.state {
            return Ok(band);
        }
        Ok(Band::of(band.low(), band.typical(), band.high().max(self.first_pair(state)?.1.high())))
    }
}

/// Whether a force is worse than another; of two that differ by rounding, the one that usually is.
fn is_worse(force: Band, than: Band) -> bool {
    let same = (force.high() - than.high()).abs() <= SAME * than.high();
    if same { force.typical() > than.typical() } else { force.high() > than.high() }
}
