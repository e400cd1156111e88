//! One solved case: what the water does, how the line hangs, where the person ends.

use super::super::Whether;
use super::super::people::LABELS;
use super::along::Across;
use super::choice::Posture;
use super::{InTheCurrent, SpeedBy, Tool};
use crate::band::{Band, Spread, sweep_corners};
use crate::law::drag::{CLEAN_WATER, LADEN_WATER, drag};
use crate::law::slanted_line::{self, SlantedLine};
use crate::law::taut_line::{self, TautLine};
use crate::law::{OutOfDomain, line_catch};
use crate::quantity::{
    Angle, Area, Force, Length, Mass, MassDensity, Ratio, Velocity, kilogram, kilogram_per_cubic_metre, metre,
    metre_per_second, newton, radian, ratio, square_metre,
};
use std::f64::consts::FRAC_PI_2;

/// What makes the drag uncertain: speed (m/s), surge, density (kg/m³), drag coefficient, pack (m²), how much of the
/// line lies in the water.
pub(super) type Wet = [f64; 6];
const WET: [&str; 6] = [
    "speed of the water",
    "surges",
    "silt in the water",
    "shape of the body",
    "pack",
    "how much of the line lies in the water",
];

/// What makes the bend of a line uncertain: drag (N), slack, stiffness (N), drift, friction.
pub(super) type Bending = [f64; 5];
pub(super) const BENDING: [&str; 5] =
    [WET[0], "slack of the line", "stiffness of the line", "drift of the current", "friction on the line"];

/// What makes a swing about an end uncertain: drag (N), slack, stiffness (N), how far along the line they hang, legs (m).
pub(super) type Swinging = [f64; 5];
const SWINGING: [&str; 5] = [WET[0], "slack of the line", "stiffness of the line", "where they hang on the line", LEGS];

/// What makes a catch uncertain: drag (N), speed (m/s), stiffness (N), mass (kg), legs (m), water carried along as a
/// share of the mass.
pub(super) type Catching = [f64; 6];
const CATCHING: [&str; 6] =
    [WET[0], WET[0], "stiffness of the line", LABELS[0], LEGS, "water that the body carries along"];
const LEGS: &str = "how far the legs reach";

/// Drag coefficient of a line across the current.
pub(super) const LINE_COEFFICIENT: f64 = 1.2;
/// Faster than any float that was timed well, m/s.
const FASTEST: f64 = 12.0;

/// A spread whose first input is a drag, told by what moves that most.
pub(super) struct Found<const N: usize> {
    pub(super) spread: Spread<N>,
    pub(super) moved_most_by: Option<&'static str>,
}

pub(super) fn found<const N: usize>(spread: Spread<N>, labels: &[&'static str; N], drag: &Spread<6>) -> Found<N> {
    let moved_most_by = match spread.moved_most_by() {
        Some(0) => drag.moved_most_by().and_then(|place| WET.get(place).copied()),
        place => place.and_then(|place| labels.get(place).copied()),
    };
    Found { spread, moved_most_by }
}

/// A person in the bend of a line.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bent {
    /// Of the current on the person and the line, N.
    pub(super) drag: f64,
    /// Straight between the ends, m, and its angle to the current, radians.
    pub(super) span: f64,
    pub(super) to_current: f64,
    /// 1 if the line's far end lies on the far side of the current, else −1.
    pub(super) side: f64,
    /// Of the current from the way down the banks, toward the far bank, radians.
    pub(super) drift: f64,
    /// Held at the middle: angle of both parts to the straight line, tension across it, and of the near and far part.
    pub(super) dip: f64,
    pub(super) across: f64,
    pub(super) middle: [f64; 2],
    /// Slack with the stretch.
    pub(super) slack: f64,
    /// Left at rest: near and far part, m, their angles to the current, and their tensions.
    pub(super) parts: [f64; 2],
    pub(super) angles: [f64; 2],
    pub(super) tensions: [f64; 2],
    /// The most that each part carries wherever on the line the person is.
    pub(super) most: [f64; 2],
}

impl Bent {
    /// The direction so far from the current toward the far bank: across, and up the stream.
    pub(super) fn direction(&self, from_current: f64) -> [f64; 2] {
        let from_down = self.drift + self.side * from_current;
        [from_down.sin(), -from_down.cos()]
    }

    /// From the far bank to where the person is left, m.
    pub(super) fn left_across(&self) -> f64 {
        let [_, far] = self.angles;
        let [across, _] = self.direction(far);
        (self.parts[1] * across).max(0.0)
    }
}

impl InTheCurrent {
    /// Speed of the water, m/s.
    pub(super) fn speed(&self) -> Result<Band, OutOfDomain> {
        if self.speed_by == SpeedBy::Look {
            return Ok(self.flow.speed());
        }
        let (timed, off) = (self.float_way.value / self.float_time.value, self.speed_spread.value);
        if timed > FASTEST {
            let must = "at most 12 m/s: let it float farther, and time it again";
            return Err(OutOfDomain { what: "way of the float over its time", value: timed, must });
        }
        Ok(Band::of((1.0 - off) * timed, timed, (1.0 + off) * timed))
    }

    pub(super) fn surge(&self) -> Band {
        Band::of(1.0, 1.2, 1.4)
    }

    pub(super) fn wet(&self) -> Result<[Band; 6], OutOfDomain> {
        let is = |whether| whether == Whether::Yes;
        let density = if is(self.silt) { LADEN_WATER } else { CLEAN_WATER };
        let pack = if is(self.pack) { Band::of(0.10, 0.125, 0.15) } else { Band::exact(0.0) };
        Ok([
            self.speed()?,
            self.surge(),
            Band::of(CLEAN_WATER, f64::midpoint(CLEAN_WATER, density), density),
            Band::of(1.1, 1.2, 1.5),
            pack,
            Band::of(0.0, 0.5, 1.0),
        ])
    }

    /// Length of the line that is turned to the current, m: from bank to bank, or more where the current may set across
    /// it.
    pub(super) fn line_turned(&self) -> f64 {
        let (across, down) = (self.across.value, self.down.value);
        if !self.is_bent() {
            return across;
        }
        let [low, high] = [self.drift.low(), self.drift.high()].map(|drift| across.atan2(down) - drift.value.atan());
        // From the higher drift to the lower one the line turns; square to the current it can be nowhere more.
        let most = if high < FRAC_PI_2 && FRAC_PI_2 < low { 1.0 } else { low.sin().abs().max(high.sin().abs()) };
        across.max(across.hypot(down) * most)
    }

    /// Area that the line turns to the current where all of it lies in the water, m².
    pub(super) fn line_area(&self) -> f64 {
        self.diameter.value * self.line_turned()
    }

    /// Drag on those who are in the water in some posture, and on the line, N.
    pub(super) fn drags(&self, point: &Wet, posture: Posture) -> Result<[f64; 2], OutOfDomain> {
        let &[speed, surge, density, coefficient, pack, wet] = point;
        let speed = Velocity::new::<metre_per_second>(speed * surge);
        let density = MassDensity::new::<kilogram_per_cubic_metre>(density);
        let on = |coefficient, area| {
            let (coefficient, area) = (Ratio::new::<ratio>(coefficient), Area::new::<square_metre>(area));
            Ok::<_, OutOfDomain>(drag(density, coefficient, area, speed)?.value)
        };
        // Who stands has no line to hold.
        let line = if matches!(posture, Posture::Standing(_)) { 0.0 } else { wet * self.line_area() };
        let one = on(coefficient, posture.area() + pack)?;
        Ok([f64::from(self.people.count) * one, on(LINE_COEFFICIENT, line)?])
    }

    pub(super) fn drag(&self, posture: Posture) -> Result<Spread<6>, OutOfDomain> {
        let [drag] = sweep_corners(self.wet()?, |point| {
            let [people, line] = self.drags(point, posture)?;
            Ok::<_, OutOfDomain>([people + line])
        })?;
        Ok(drag)
    }

    /// The drag with what moves it most; who stands is alone and without a line.
    pub(super) fn standing(&self) -> Result<Found<6>, OutOfDomain> {
        let alone = InTheCurrent { people: super::People { count: 1, ..self.people }, ..*self };
        let spread = alone.drag(Posture::Standing(self.depth))?;
        Ok(found(spread, &WET, &spread))
    }

    fn friction(&self) -> Band {
        if self.tool == Tool::Diagonal { self.slides_on.friction().0 } else { Band::exact(0.0) }
    }

    /// The line between its ends, at one point of the ranges.
    pub(super) fn straight(&self, &[_, slack, stiffness, drift, friction]: &Bending) -> Across {
        let (across, down) = (self.across.value, self.down.value);
        let to_current = (across.atan2(down) - drift.atan()).abs();
        Across { span: across.hypot(down), to_current, slack, stiffness, friction }
    }

    /// The line with a person in its bend.
    pub(super) fn bent(&self, point: &Bending) -> Result<Bent, OutOfDomain> {
        let &[drag, slack, stiffness, drift, friction] = point;
        let straight = self.straight(point);
        let (Across { span, to_current, .. }, drift) = (straight, drift.atan());
        let side = (self.across.value.atan2(self.down.value) - drift).signum();
        let metres = Length::new::<metre>;
        let line = TautLine {
            span: metres(span),
            rise: metres(0.0),
            at: metres(span / 2.0),
            unstretched: metres(span * (1.0 + slack)),
            stiffness: Force::new::<newton>(stiffness),
        };
        // What pulls across the straight line bends it; what pulls along it goes to one end.
        let hung = taut_line::at_rest(&line, Force::new::<newton>(drag * to_current.sin()))?;
        let (tension, dip) = (hung.tension.value, hung.near_below_level.value);
        let along = drag * to_current.cos() / (2.0 * dip.cos());
        let middle = match (tension + along, tension - along) {
            // One part is slack: all hang on the other, along the current.
            (_, far) if far < 0.0 => [drag, 0.0],
            (near, _) if near < 0.0 => [0.0, drag],
            (near, far) => [near, far],
        };
        let slack = (1.0 + slack) * (1.0 + tension / stiffness) - 1.0;
        let mut bent = Bent {
            drag,
            span,
            to_current,
            side,
            drift,
            dip,
            across: tension,
            middle,
            slack,
            parts: [span * slack / 2.0, span * (1.0 + slack / 2.0)],
            angles: [to_current, to_current],
            tensions: [drag, 0.0],
            most: [0.0; 2],
        };
        // Slanted upstream it carries nobody: they are left where they began.
        if to_current <= FRAC_PI_2 {
            let slanted = SlantedLine {
                span: metres(span),
                slack: Ratio::new::<ratio>(slack),
                to_current: Angle::new::<radian>(to_current),
                friction: Ratio::new::<ratio>(friction),
            };
            let slider = slanted_line::at_rest(&slanted, Force::new::<newton>(drag))?;
            bent.parts = [slider.near_part.value, slider.far_part.value];
            bent.angles = [slider.near_to_current.value, slider.far_to_current.value];
            bent.tensions = [slider.near_tension.value, slider.far_tension.value];
        }
        bent.most = straight.most(self.tool, &bent)?;
        Ok(bent)
    }

    /// How far below its near end the line lets a person get who may be anywhere on it, feet not counted, m: the lowest
    /// place of the ellipse about its ends, whose two parts make up the line, both stretched by the most that one of them
    /// carries. No lower than that can anybody rest.
    pub(super) fn leads(&self, bent: &Bent, &[_, slack, stiffness, ..]: &Bending) -> f64 {
        let [near, far] = bent.most;
        let (across, line) = (self.across.value, bent.span * (1.0 + slack) * (1.0 + near.max(far) / stiffness));
        f64::midpoint(self.down.value, (line * line - across * across).max(0.0).sqrt())
    }

    pub(super) fn bending(&self, drag: &Spread<6>) -> [Band; 5] {
        [
            drag.band,
            self.slack.map(|slack| slack.value),
            self.stiffness.map(|stiffness| stiffness.value),
            self.drift.map(|drift| drift.value),
            self.friction(),
        ]
    }

    /// Over the ranges: how far below the near end a person gets (m) who swings about the near, and the far end.
    pub(super) fn swings(&self, drag: &Spread<6>) -> Result<[Found<5>; 2], OutOfDomain> {
        let [drag_band, slack, stiffness, ..] = self.bending(drag);
        let inputs = [drag_band, slack, stiffness, Band::of(0.5, 0.75, 1.0), self.legs()];
        let (down, span) = (self.down.value, self.across.value.hypot(self.down.value));
        let spreads = sweep_corners(inputs, |&[drag, slack, stiffness, share, legs]: &Swinging| {
            let line = share * span * (1.0 + slack) * (1.0 + drag / stiffness);
            Ok::<_, OutOfDomain>([line + legs, down + line + legs])
        })?;
        Ok(spreads.map(|spread| found(spread, &SWINGING, drag)))
    }

    /// How far the feet are beyond the hands or the tie, m (assumed).
    fn legs(&self) -> Band {
        Band::of(0.8, 1.2, 2.0)
    }

    /// How far down the feet get of those who hang on the line there (m).
    pub(super) fn feet_at(&self, hung: Band) -> Band {
        let legs = self.legs();
        Band::of(hung.low() + legs.low(), hung.typical() + legs.typical(), hung.high() + legs.high())
    }

    pub(super) fn mass(&self) -> Band {
        let [body, kit] = self.people.inputs();
        let of = |body, kit| f64::from(self.people.count) * (body + kit + self.people.water.value);
        Band::of(of(body.low(), kit.low()), of(body.typical(), kit.typical()), of(body.high(), kit.high()))
    }

    /// What a line does that catches someone: how far below its upper end the feet get (m), and its force (N).
    pub(super) fn caught(&self, point: &Catching) -> Result<[f64; 2], OutOfDomain> {
        let &[drag, speed, stiffness, mass, legs, along] = point;
        let peak = line_catch::peak(
            Force::new::<newton>(drag),
            Force::new::<newton>(stiffness),
            self.line,
            Mass::new::<kilogram>(mass * (1.0 + along)),
            Velocity::new::<metre_per_second>(speed),
        )?
        .value;
        Ok([self.line.value * (1.0 + peak / stiffness) + legs, peak])
    }

    /// Water that a body carries along, as a share of its mass (from memory): up to all of it broadside, in line
    /// almost none.
    pub(super) fn carries_along(posture: Posture) -> Band {
        if posture == Posture::Broadside { Band::of(0.0, 0.5, 1.0) } else { Band::exact(0.0) }
    }

    pub(super) fn catching(&self, drag: &Spread<6>, posture: Posture) -> Result<[Band; 6], OutOfDomain> {
        let (speed, surge) = (self.speed()?, self.surge());
        let fast = Band::of(speed.low() * surge.low(), speed.typical() * surge.typical(), speed.high() * surge.high());
        Ok([
            drag.band,
            fast,
            self.stiffness.map(|stiffness| stiffness.value),
            self.mass(),
            self.legs(),
            Self::carries_along(posture),
        ])
    }

    /// Over the ranges: how far below the upper end the feet get (m), the catch (N), what is held afterwards (N).
    pub(super) fn catches(&self, drag: &Spread<6>, posture: Posture) -> Result<[Found<6>; 3], OutOfDomain> {
        let spreads = sweep_corners(self.catching(drag, posture)?, |point: &Catching| {
            let [reach, peak] = self.caught(point)?;
            let &[held, ..] = point;
            Ok::<_, OutOfDomain>([reach, peak, held])
        })?;
        Ok(spreads.map(|spread| found(spread, &CATCHING, drag)))
    }
}
