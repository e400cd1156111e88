//! One solved case of the legs, and the sweep over all of them.

use super::super::scene::{Place, Pull, size};
use super::{AnchorLegs, Rig};
use crate::band::{Band, Spread, sweep};
use crate::law::{OutOfDomain, sling, two_legs};
use crate::quantity::{Angle, Force, Length, Ratio, metre, newton, radian, ratio};

/// One solved case: where things are and what pulls.
pub(super) struct Case {
    pub(super) left: Place,
    pub(super) right: Place,
    pub(super) point: Place,
    pub(super) load: Pull,
    pub(super) tension_left: f64,
    pub(super) tension_right: f64,
    pub(super) on_left: Pull,
    pub(super) on_right: Pull,
    pub(super) included: f64,
    /// Angles of the legs from the load line, left and right (fixed legs).
    pub(super) from_load: (f64, f64),
}

pub(super) fn toward(from: Place, to: Place) -> (Pull, f64) {
    let ([x, y], [u, v]) = (from, to);
    let (dx, dy) = (u - x, v - y);
    let length = dx.hypot(dy);
    ([dx / length, dy / length], length)
}

pub(super) fn times(force: f64, [x, y]: Pull) -> Pull {
    [force * x, force * y]
}

pub(super) fn plus([x, y]: Pull, [u, v]: Pull) -> Pull {
    [x + u, y + v]
}

impl AnchorLegs {
    pub(super) fn spread(&self, factor: Band) -> Result<[Spread<7>; 5], OutOfDomain> {
        let [body, kit] = self.people.inputs();
        let swing = Band::of(-self.swing_left.value, 0.0, self.swing_right.value);
        let friction = if self.rig == Rig::SelfEqualising {
            // Either side may be the one that friction loads more.
            let most = self.ring_friction.high().value;
            Band::of(-most, 0.0, most)
        } else {
            Band::exact(0.0)
        };
        let lengths = |band: Band<Length>| band.map(|length| length.value);
        let inputs = [body, kit, factor, lengths(self.apart), lengths(self.down), swing, friction];
        sweep(inputs, |point| {
            let case = self.case(point)?;
            Ok([size(case.on_left), size(case.on_right), case.tension_left, case.tension_right, case.included])
        })
    }

    /// The rig at one point of the ranges: body, kit, factor, apart, down, swing, signed friction.
    pub(super) fn case(
        &self,
        &[body, kit, factor, apart, down, swing, friction]: &[f64; 7],
    ) -> Result<Case, OutOfDomain> {
        let weight = factor * self.people.weight_of_all(body, kit);
        let higher = self.right_higher.value;
        let across = ((apart - higher) * (apart + higher)).sqrt();
        if across.is_nan() || across <= 0.0 {
            let must = "less than the anchors are apart";
            return Err(OutOfDomain { what: "height of one anchor above the other", value: higher.abs(), must });
        }
        let (left, right) = ([-across / 2.0, -higher / 2.0], [across / 2.0, higher / 2.0]);
        let hung = [self.out.value, -down];
        let (sine, cosine) = swing.sin_cos();
        let direction = [sine, -cosine];
        let load = times(weight, direction);
        let (down_left, length_left) = toward(left, hung);
        let (down_right, length_right) = toward(right, hung);
        let force = Force::new::<newton>(weight);

        if self.rig == Rig::Fixed {
            let lean_left = down_left[0].atan2(-down_left[1]);
            let lean_right = (-down_right[0]).atan2(-down_right[1]);
            let (a, b) = (lean_left - swing, lean_right + swing);
            let legs = two_legs::tensions(force, Angle::new::<radian>(a), Angle::new::<radian>(b))?;
            let (tension_left, tension_right) = (legs.a.value, legs.b.value);
            // With one leg slack the other swings in line with the load.
            let point = if tension_right == 0.0 && tension_left > 0.0 {
                plus(left, times(length_left, direction))
            } else if tension_left == 0.0 && tension_right > 0.0 {
                plus(right, times(length_right, direction))
            } else {
                hung
            };
            let (on_left, on_right) = (toward(left, point).0, toward(right, point).0);
            return Ok(Case {
                left,
                right,
                point,
                load,
                tension_left,
                tension_right,
                on_left: times(tension_left, on_left),
                on_right: times(tension_right, on_right),
                included: a + b,
                from_load: (a, b),
            });
        }

        let (chord, _) = toward(left, right);
        let square = [chord[1], -chord[0]];
        let dot = |[x, y]: Pull, [u, v]: Pull| x * u + y * v;
        let pull = dot(direction, square).atan2(dot(direction, chord));
        let both = Length::new::<metre>(length_left + length_right);
        let held = sling::ring_held_back(
            Length::new::<metre>(apart),
            both,
            Angle::new::<radian>(pull),
            force,
            Ratio::new::<ratio>(friction),
        )?;
        let point = plus(times(held.ring.along.value, chord), times(held.ring.across.value, square));
        let (down_left, down_right) = (toward(left, point).0, toward(right, point).0);
        let (tension_left, tension_right) = (held.first.value, held.second.value);
        let mut on_left = times(tension_left, down_left);
        let mut on_right = times(tension_right, down_right);
        if self.rig == Rig::Triangle {
            on_left = plus(on_left, times(tension_left, chord));
            on_right = plus(on_right, times(tension_right, times(-1.0, chord)));
        }
        Ok(Case {
            left,
            right,
            point,
            load,
            tension_left,
            tension_right,
            on_left,
            on_right,
            included: held.ring.included_angle.value,
            from_load: (0.0, 0.0),
        })
    }
}
