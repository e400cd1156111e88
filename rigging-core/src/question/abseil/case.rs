//! The sweep over all cases of the abseil.

use super::super::carried::larger;
use super::super::people::State;
use super::{Abseil, FallingWater, Strands, Tail, Whether};
use crate::band::{Band, Spread, sweep};
use crate::law::descender::{self, Descender, Use};
use crate::law::{OutOfDomain, bend, fall, falling_water, gravity, rope};
use crate::quantity::{Force, Length, Ratio, newton, ratio};

/// Skin friction of water along a rope (assumed).
pub(super) fn skin_friction() -> Band {
    Band::of(0.005, 0.01, 0.02)
}

impl Abseil {
    pub(super) fn strand_count(&self) -> f64 {
        if self.strands == Strands::Two { 2.0 } else { 1.0 }
    }

    /// Friction ratio of a device on this rope.
    pub(super) fn ratio_of(&self, device: Descender, strands: Strands, extra: Whether) -> Result<Band, OutOfDomain> {
        let in_use = Use {
            diameter: self.diameter,
            two_strands: strands == Strands::Two,
            extra_carabiner: extra == Whether::Yes,
            wet: self.wet == Whether::Yes,
        };
        descender::friction_ratio(device, &in_use)
    }

    pub(super) fn ratio(&self) -> Result<Band, OutOfDomain> {
        self.ratio_of(self.descender, self.strands, self.extra_carabiner)
    }

    /// Weight of a length of all strands, dry or soaked, N.
    pub(super) fn rope_weight(&self, length: Length, soaked: f64) -> Result<f64, OutOfDomain> {
        let dry = gravity::weight(rope::mass(self.diameter, length)?).value;
        Ok(self.strand_count() * dry * soaked)
    }

    fn soaked(&self) -> Band {
        if self.wet == Whether::Yes { Band::of(1.0, 1.2, 1.5) } else { Band::exact(1.0) }
    }

    /// What the falling water presses on a person near the bottom, from none of it to all, N.
    pub(super) fn pressed(&self) -> Result<Band, OutOfDomain> {
        let (flow, speed) = (self.water.flow(), falling_water::speed_after(self.height)?);
        let half = falling_water::push(flow.typical() * 0.5, speed)?.value;
        Ok(Band::of(0.0, half, falling_water::push(flow.high(), speed)?.value))
    }

    /// What the falling water drags at all of the rope, N: from none where it may hang beside the fall.
    pub(super) fn dragged(&self) -> Result<Band, OutOfDomain> {
        if self.water == FallingWater::None {
            return Ok(Band::exact(0.0));
        }
        let (flow, skin) = (self.water.flow(), skin_friction());
        // The water runs around all strands together.
        let around = self.diameter * self.strand_count();
        let drag = |flow, skin| {
            let skin = Ratio::new::<ratio>(skin);
            let speed = falling_water::speed_along(flow, around, self.height, skin)?;
            Ok(falling_water::drag(around, self.height, speed, skin)?.value)
        };
        let all = drag(flow.typical(), skin.typical())?;
        // Near the bottom all of the rope is above the person, who is in the water, wherever its tail was.
        let [low, typical] =
            if self.tail == Tail::InFall { [drag(flow.low(), skin.low())?, all] } else { [0.0, 0.5 * all] };
        Ok(Band::of(low, typical, drag(flow.high(), skin.high())?))
    }

    /// In the rope where it carries most, in jerks or on a slip.
    pub(super) fn in_rope(spreads: &[Spread<11>; 14]) -> Band {
        let [_, _, _, _, _, _, jerky, _, _, slip, _, _, before_edge, _] = spreads;
        larger(larger(jerky.band, slip.band), before_edge.band)
    }

    pub(super) fn spread(&self) -> Result<[Spread<11>; 14], OutOfDomain> {
        let [body, kit] = self.people.inputs();
        let stiffness = self.stiffness.map(|stiffness| stiffness.value);
        let descending = State::Descending.uncertain().0;
        let jerky = State::Jerky.uncertain().0;
        let (friction, _) = self.edge.friction(self.wet == Whether::Yes);
        let (pressed, dragged) = (self.pressed()?, self.dragged()?);
        let station = match self.release.device() {
            Some(device) => self.ratio_of(device, self.strands, Whether::No)?,
            None => Band::exact(1.0),
        };
        let (device, soaked) = (self.ratio()?, self.soaked());
        let inputs = [body, kit, device, soaked, stiffness, descending, jerky, friction, pressed, dragged, station];
        sweep(inputs, |&[body, kit, device, soaked, stiffness, smooth, jerks, friction, pressed, dragged, station]| {
            let weight = self.people.weight_of_all(body, kit);
            let force = Force::new::<newton>(weight);
            // Whether someone moves is a matter of one person alone.
            let one = Force::new::<newton>(self.people.weight_of_one(body, kit));
            let [device, station] = [device, station].map(|held| Ratio::new::<ratio>(held.max(1.0)));
            let rope = self.rope_weight(self.height, soaked)?;
            let none = Force::new::<newton>(0.0);
            let if_so = |hangs: bool, pull: f64| if hangs { Force::new::<newton>(pull) } else { none };
            // The hand counts on the least that brakes; who is to move, on the most.
            let least_tail = if_so(self.tail.surely_hangs(), rope);
            let on_tail = if_so(self.tail == Tail::InFall, dragged);
            let tail = if_so(self.tail.may_hang(), rope) + on_tail;
            // Whoever slips at the lip has all of a free tail hanging from the device: it falls and is caught too.
            let caught = |stiffer: f64| {
                let stiffness = Force::new::<newton>(stiffness * self.strand_count() * stiffer);
                let falls = force + if_so(self.tail.may_hang(), rope);
                Ok::<_, OutOfDomain>(fall::peak(falls, stiffness, self.slack, self.rope_out)? + on_tail)
            };
            let slip = caught(1.0)?;
            // Where the rope behind the edge bears e^(μφ) times less it gives as much less: the rope is as much stiffer.
            let before_edge = caught((friction * self.edge_turn.value).exp())?;
            let above = rope + pressed + dragged;
            let jerk = Force::new::<newton>(weight * jerks + above);
            let lowered = Force::new::<newton>(weight + above);
            let behind_edge = |force| bend::slack_side(force, Ratio::new::<ratio>(friction), self.edge_turn);
            let start = if tail > none { descender::start_ratio(one, tail, device)?.value } else { 0.0 };
            Ok([
                descender::hand_force(Force::new::<newton>(weight + pressed), none, device)?.value,
                descender::hand_force(force, least_tail, device)?.value,
                descender::held_back_by(one, tail, device)?.value,
                start,
                lowered.value,
                weight * smooth + above,
                jerk.value,
                descender::hand_force(lowered, none, station)?.value,
                descender::hand_force(behind_edge(lowered)?, none, station)?.value,
                slip.value,
                behind_edge(jerk)?.value,
                behind_edge(before_edge)?.value,
                before_edge.value,
                // Least at the lip, where neither rope nor water helps yet.
                descender::hand_force(behind_edge(one)?, none, station)?.value,
            ])
        })
    }
}
