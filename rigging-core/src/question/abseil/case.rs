//! The sweep over all cases of the abseil.

use super::super::people::State;
use super::{Abseil, Strands, Tail, Whether};
use crate::band::{Band, Spread, sweep};
use crate::law::descender::{self, Use};
use crate::law::{OutOfDomain, bend, fall, gravity, rope};
use crate::quantity::{Force, Length, Ratio, newton, ratio};

impl Abseil {
    pub(super) fn strand_count(&self) -> f64 {
        if self.strands == Strands::Two { 2.0 } else { 1.0 }
    }

    pub(super) fn ratio(&self) -> Result<Band, OutOfDomain> {
        descender::friction_ratio(
            self.descender,
            &Use {
                diameter: self.diameter,
                two_strands: self.strands == Strands::Two,
                extra_carabiner: self.extra_carabiner == Whether::Yes,
                wet: self.wet == Whether::Yes,
            },
        )
    }

    /// Weight of a length of all strands, dry or soaked, N.
    pub(super) fn rope_weight(&self, length: Length, soaked: f64) -> Result<f64, OutOfDomain> {
        let dry = gravity::weight(rope::mass(self.diameter, length)?).value;
        Ok(self.strand_count() * dry * soaked)
    }

    pub(super) fn spread(&self) -> Result<[Spread<8>; 8], OutOfDomain> {
        let [body, kit] = self.people.inputs();
        let soaked = if self.wet == Whether::Yes { Band::of(1.0, 1.2, 1.5) } else { Band::exact(1.0) };
        let stiffness = self.stiffness.map(|stiffness| stiffness.value);
        let descending = State::Descending.factor().0;
        let jerky = State::Jerky.factor().0;
        let (friction, _) = self.edge.friction(self.wet == Whether::Yes);
        let inputs = [body, kit, self.ratio()?, soaked, stiffness, descending, jerky, friction];
        sweep(inputs, |&[body, kit, ratio_held, soaked, stiffness, smooth, jerks, friction]| {
            let weight = self.people.weight_of_all(body, kit);
            let force = Force::new::<newton>(weight);
            let device = Ratio::new::<ratio>(ratio_held.max(1.0));
            let rope = self.rope_weight(self.height, soaked)?;
            let none = Force::new::<newton>(0.0);
            let tail = if self.tail == Tail::Free { Force::new::<newton>(rope) } else { none };
            let slip =
                fall::peak(force, Force::new::<newton>(stiffness * self.strand_count()), self.slack, self.rope_out)?;
            let behind_edge = bend::slack_side(slip, Ratio::new::<ratio>(friction), self.edge_turn)?;
            Ok([
                descender::hand_force(force, none, device)?.value,
                descender::hand_force(force, tail, device)?.value,
                descender::held_back_by(force, tail, device)?.value,
                weight + rope,
                weight * smooth + rope,
                weight * jerks + rope,
                slip.value,
                behind_edge.value,
            ])
        })
    }
}
