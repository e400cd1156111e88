//! One solved case of the legs, and the sweep over all of them.

use super::super::people::{State, under};
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

/// What is swept for every newton of load: apart, down, swing, signed friction.
type Shape = [Spread<4>; 5];

/// How many swings are looked at across the range, and then about the worst of them.
const SWINGS: u32 = 24;
const CLOSER: u32 = 8;

impl AnchorLegs {
    /// Force on either anchor, tension of either leg, included angle, for a load of 1 N.
    ///
    /// The load swings through the fall line, and the worst swing may lie anywhere between its ends: swings
    /// are looked at one by one, then closer about the worst of each anchor.
    pub(super) fn shape(&self) -> Result<Shape, OutOfDomain> {
        let friction = if self.rig == Rig::SelfEqualising {
            // Either side may be the one that friction loads more.
            let most = self.ring_friction.high().value;
            Band::of(-most, 0.0, most)
        } else {
            Band::exact(0.0)
        };
        let lengths = |band: Band<Length>| band.map(|length| length.value);
        let (apart, down) = (lengths(self.apart), lengths(self.down));
        let at = |swing: f64| {
            sweep([apart, down, Band::exact(swing), friction], |point| {
                let case = self.rigged(1.0, point)?;
                Ok([size(case.on_left), size(case.on_right), case.tension_left, case.tension_right, case.included])
            })
        };
        let mut shape = at(0.0)?;
        let typical = shape.map(|spread| spread.band.typical());
        let mut reach = typical.map(|value| (value, value));
        let mut look = |shape: &mut Shape, swing: f64| -> Result<(), OutOfDomain> {
            let there = at(swing)?;
            for ((spread, reach), other) in shape.iter_mut().zip(&mut reach).zip(&there) {
                spread.take_wider(other);
                let value = other.band.typical();
                *reach = (reach.0.min(value), reach.1.max(value));
            }
            Ok(())
        };
        let (left, right) = (-self.swing_left.value, self.swing_right.value);
        let step = (right - left) / f64::from(SWINGS);
        if step > 0.0 {
            for number in 0..=SWINGS {
                look(&mut shape, left + step * f64::from(number))?;
            }
            let [on_left, on_right, ..] = &shape;
            for [_, _, worst, _] in [on_left.at_high, on_right.at_high] {
                for number in 1..CLOSER {
                    let swing = worst - step + 2.0 * step * f64::from(number) / f64::from(CLOSER);
                    look(&mut shape, swing.max(left).min(right))?;
                }
            }
        }
        for (spread, (least, most)) in shape.iter_mut().zip(reach) {
            let [apart, down, _, friction] = spread.moves;
            spread.moves = [apart, down, most - least, friction];
        }
        Ok(shape)
    }

    /// What was found for 1 N, under the load of a state: forces grow with it, the angle does not.
    pub(super) fn loaded(&self, shape: &Shape, state: State) -> Result<[Spread<7>; 5], OutOfDomain> {
        let load = self.people.spread(state)?;
        let unmoved = Spread { band: Band::exact(1.0), moves: [0.0; 3], ..load };
        let [on_left, on_right, in_left, in_right, included] = shape;
        Ok([
            under(on_left, &load),
            under(on_right, &load),
            under(in_left, &load),
            under(in_right, &load),
            under(included, &unmoved),
        ])
    }

    /// The least angles from the fall line at which a load that swings right, or left, leaves a leg of fixed
    /// length slack.
    pub(super) fn slack_beyond(&self) -> Result<(f64, f64), OutOfDomain> {
        let lengths = |band: Band<Length>| band.map(|length| length.value);
        let [right, left] = sweep([lengths(self.apart), lengths(self.down)], |&[apart, down]| {
            let (left, right) = self.rigged(1.0, &[apart, down, 0.0, 0.0])?.from_load;
            Ok::<_, OutOfDomain>([left, right])
        })?;
        Ok((right.band.low(), left.band.low()))
    }

    /// The rig at one point of the ranges: body, kit, what is uncertain about the state, apart, down, swing,
    /// signed friction.
    pub(super) fn case(&self, &[body, kit, at, apart, down, swing, friction]: &[f64; 7]) -> Result<Case, OutOfDomain> {
        let weight = self.people.load_of_all(self.state, body, kit, at)?;
        self.rigged(weight, &[apart, down, swing, friction])
    }

    /// The rig under some load (N): apart, down, swing, signed friction.
    fn rigged(&self, weight: f64, &[apart, down, swing, friction]: &[f64; 4]) -> Result<Case, OutOfDomain> {
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
            let must = "less than 180°: set Down larger, or Apart or the height difference smaller";
            let legs = two_legs::tensions(force, Angle::new::<radian>(a), Angle::new::<radian>(b))
                .map_err(|error| OutOfDomain { must, ..error })?;
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
        )
        .map_err(|error| OutOfDomain {
            must: "between 0 and 180° from the line of the anchors: set the swing or the height difference smaller",
            ..error
        })?;
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
