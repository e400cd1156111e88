//! A body tied into a line between two points: held there, or followed in time as it is dropped onto the line or swept
//! into it by the water.
//!
//! Each part of the line is a spring without mass that cannot push. Where a line lies level and the body in its middle,
//! what energy alone gives is all there is; on a line that slopes, or near an end, the body comes down where it does not
//! hang later, and one part gets most of it.

use super::gravity::STANDARD_GRAVITY;
use super::{OutOfDomain, check, finite, not_negative, positive};
use crate::quantity::{Force, Length, Mass, Velocity, metre, newton};

/// Step in time, as a share of what the line takes for a radian of its fastest swing.
const STEP: f64 = 0.08;
/// More steps than any catch takes, but one by water that hardly moves; each radian takes a dozen.
const STEPS: u32 = 100_000;
/// Steps to where a body is held, and halves of one; how near to balance is near enough, as a share of the pull, and how
/// many times that where no step leads any nearer; what keeps a step within reach where nothing holds; below what share of
/// all pulls, over the whole reach, the digits of the energy say nothing of a step any more.
const NEWTON: u32 = 1000;
const HALVES: u32 = 40;
const NEAR: f64 = 1e-10;
const ROUGHLY: f64 = 1000.0;
const RIDGE: f64 = 1e-6;
const DIGITS: f64 = 4.0 * f64::EPSILON;
/// How much more the water holds back than mass and line swing, from where on a body only creeps to where it rests.
const CREEPS: f64 = 2.0;
/// Share of the energy of motion at which a body that only slows down has come to rest.
const AT_REST: f64 = 1e-4;

/// A part of the line, from where the body is tied into the straight line.
/// ```
/// use rigging_core::law::caught_on_line::{Moment, Part, dropped};
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // A level line of 8 m that is 8.2 m long, in two equal parts.
/// let [along, above, beyond, unstretched] = [4.0, 0.0, 0.0, 4.1].map(Length::new::<metre>);
/// let near = Part { along: -along, above, beyond, unstretched, stiffness: Force::new::<newton>(30e3) };
/// let mut apart = 0.0_f64;
/// let mut each = |moment: &Moment| apart = apart.max((moment.near - moment.far).value.abs());
/// dropped(&near, &Part { along, ..near }, Force::new::<newton>(900.0), Length::new::<metre>(0.6), &mut each)?;
/// assert!(apart < 1e-6);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// Level, or across the current, to the point that holds it; one part's below 0.
    pub along: Length,
    /// How far that point is above, or up the current; below 0 if it is below.
    pub above: Length,
    /// Straight line that runs on beyond that point to where this part ends, ≥ 0.
    pub beyond: Length,
    /// Of the whole part without tension, > 0.
    pub unstretched: Length,
    /// Tension for a strain of 1, > 0.
    pub stiffness: Force,
}

/// The body at a moment.
/// ```
/// use rigging_core::law::caught_on_line::{Moment, Part, dropped};
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // Onto the middle of a level line: straight down, and both parts pull alike.
/// let [along, above, beyond, unstretched] = [4.0, 0.0, 0.0, 4.1].map(Length::new::<metre>);
/// let near = Part { along: -along, above, beyond, unstretched, stiffness: Force::new::<newton>(30e3) };
/// let mut moments: Vec<Moment> = Vec::new();
/// let (weight, drop) = (Force::new::<newton>(900.0), Length::new::<metre>(0.6));
/// dropped(&near, &Part { along, ..near }, weight, drop, &mut |moment| moments.push(*moment))?;
/// assert!(moments.iter().all(|moment| moment.along.value.abs() < 1e-9 && moment.down.value > 0.0));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// Level, or across the current, from where it began.
    pub along: Length,
    /// Down, or down the current, from there.
    pub down: Length,
    /// Tension of one part.
    pub near: Force,
    /// Tension of the other.
    pub far: Force,
    /// What both pull at the body together.
    pub both: Force,
}

/// A body that falls onto a straight line, to its lowest place and until it is no longer thrown up.
///
/// # Formula
/// `m a = W + T₁ + T₂`, `T = EA (ℓ − L₀)/L₀` along each part or 0 while ℓ < L₀, `m = W/g`, in steps of Runge and Kutta;
/// the body begins with the speed of a free fall by `drop` ≥ 0 (m), plumb. `W` > 0 its weight (N). Nothing is lost:
/// higher than a rope pulls that takes up work. What comes after the first catch is left out, since little of the energy
/// is left by then. `each` is told every step; the greatest of them is within a thousandth of the peak.
/// # Errors
/// [`OutOfDomain`] outside these ranges and those of [`Part`], or if the catch does not end.
/// # References
/// Newton's second law; Runge–Kutta of order 4.
/// ```
/// use rigging_core::law::caught_on_line::{Moment, Part, dropped};
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // One part hangs plumb above, 8 m, the other is too long to matter: a fall onto a spring of 20 000/8 N/m. By hand:
/// // 1000 (1 + √(1 + 2 · 1.6 · 2500/1000)) = 4000 N.
/// let [along, above, beyond, unstretched, loose] = [0.0, 8.0, 0.0, 8.0, 99.0].map(Length::new::<metre>);
/// let near = Part { along, above, beyond, unstretched, stiffness: Force::new::<newton>(20e3) };
/// let far = Part { unstretched: loose, ..near };
/// let mut peak = 0.0_f64;
/// let (weight, drop) = (Force::new::<newton>(1000.0), Length::new::<metre>(1.6));
/// dropped(&near, &far, weight, drop, &mut |moment| peak = peak.max(moment.near.value))?;
/// assert!((peak - 4000.0).abs() < 2.0);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn dropped(
    near: &Part,
    far: &Part,
    weight: Force,
    drop: Length,
    each: &mut dyn FnMut(&Moment),
) -> Result<(), OutOfDomain> {
    let weight = positive("weight", weight.value)?;
    let drop = not_negative("drop", drop.value)?;
    let (springs, free) = both(near, far)?;
    let speed = (2.0 * STANDARD_GRAVITY * (drop + free)).sqrt();
    let body = Body { springs, mass: weight / STANDARD_GRAVITY, drive: &|_| [0.0, -weight] };
    let over = body.follow([0.0, -free, 0.0, -speed], each)?;
    check("steps until the catch is over", f64::from(STEPS), over, "fewer").map(|_| ())
}

/// A body that drifts with the water into a straight line, until the line no longer throws it back.
///
/// # Formula
/// `m a = F |v − u| (v − u)/v² + T₁ + T₂`, `v` > 0 the speed of the water (m/s), `u` that of the body, which begins with
/// the water, `F` ≥ 0 the drag on it held still at that speed (N), `m` > 0 its mass with the water that it takes along
/// (kg); the parts as in [`dropped`]. A body lighter than `(F/2v)²/Σ(EA/L₀)` counts as that heavy: it creeps to where it
/// rests without swinging past, whatever it weighs, and is told there last. One that has drifted for 8000 radians of its
/// fastest swing is followed no further: water so slow makes less than a thousandth of the greater EA.
/// # Errors
/// As [`dropped`].
/// # References
/// As [`dropped`]; drag goes with the square of the speed past the body.
/// ```
/// use rigging_core::law::caught_on_line::{Moment, Part, swept};
/// use rigging_core::quantity::{Force, Length, Mass, Velocity, kilogram, metre, metre_per_second, newton};
///
/// // One part straight up the current, 8 m, the other too long to matter, and no drag: a spring of 20 000/8 N/m takes
/// // up all the motion. By hand: √(2500 · 64) · 1 = 400 N.
/// let [along, above, beyond, unstretched, loose] = [0.0, 8.0, 0.0, 8.0, 99.0].map(Length::new::<metre>);
/// let near = Part { along, above, beyond, unstretched, stiffness: Force::new::<newton>(20e3) };
/// let far = Part { unstretched: loose, ..near };
/// let (mass, speed) = (Mass::new::<kilogram>(64.0), Velocity::new::<metre_per_second>(1.0));
/// let mut peak = 0.0_f64;
/// swept(&near, &far, Force::default(), mass, speed, &mut |moment| peak = peak.max(moment.near.value))?;
/// assert!((peak - 400.0).abs() < 0.4);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn swept(
    near: &Part,
    far: &Part,
    drag: Force,
    mass: Mass,
    speed: Velocity,
    each: &mut dyn FnMut(&Moment),
) -> Result<(), OutOfDomain> {
    let drag = not_negative("drag of the water", drag.value)?;
    let mass = positive("mass", mass.value)?;
    let speed = positive("speed", speed.value)?;
    let (springs, free) = both(near, far)?;
    let past = move |[across, along]: [f64; 2]| {
        let [across, along] = [-across / speed, -1.0 - along / speed];
        let fast = drag * (across * across + along * along).sqrt();
        [fast * across, fast * along]
    };
    let light = (drag / (CREEPS * speed)).powi(2) / springs.iter().map(|spring| spring.gain).sum::<f64>();
    Body { springs, mass: mass.max(light), drive: &past }.follow([0.0, -free, 0.0, -speed], each)?;
    if mass < light {
        each(&held(near, far, Force::new::<newton>(drag))?);
    }
    Ok(())
}

/// A body that is held there by a steady pull, straight down or down the current.
///
/// # Formula
/// Where `½ EA/L₀ (⟨ℓ₁ − L₀₁⟩² + ⟨ℓ₂ − L₀₂⟩²) − F y` is least, `y` the way down and `F` > 0 the pull (N): Newton's steps
/// from where the parts hang unstretched, halved until they lose nothing. It has one valley; at its bottom the parts and
/// the pull are in balance to 10⁻⁹ of F, or as near as the digits of a number reach.
/// # Errors
/// As [`dropped`], or if the search does not end.
/// # References
/// Least energy of elastic lines. In the middle of a level line it is [`at_rest`](super::taut_line::at_rest).
/// ```
/// use rigging_core::law::caught_on_line::{Part, held};
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // Each half of the line, 4 m, becomes 5 m long, 4 along and 3 down. By hand: 4000 · 1/4 = 1000 N in each, and
/// // 2 · 1000 · 3/5 hold 1200 N.
/// let [along, above, beyond, unstretched] = [4.0, 0.0, 0.0, 4.0].map(Length::new::<metre>);
/// let near = Part { along: -along, above, beyond, unstretched, stiffness: Force::new::<newton>(4000.0) };
/// let rest = held(&near, &Part { along, ..near }, Force::new::<newton>(1200.0))?;
/// assert!((rest.down.value - 3.0).abs() < 1e-9 && (rest.far.value - 1000.0).abs() < 1e-6);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn held(near: &Part, far: &Part, pull: Force) -> Result<Moment, OutOfDomain> {
    let pull = positive("pull", pull.value)?;
    let (springs, _) = both(near, far)?;
    let energy = |at: [f64; 2]| springs.iter().map(|spring| spring.stored(at)).sum::<f64>() + pull * at[1];
    let reach = springs.iter().map(|spring| spring.rest.abs()).sum::<f64>();
    let size = |[x, y]: [f64; 2]| (x * x + y * y).sqrt();
    let gain = springs.iter().map(|spring| spring.gain).sum::<f64>();
    let mut at = lowest(&springs);
    for _ in 0..NEWTON {
        // Along a part it holds by its stretch, across it by its tension; where all is slack, as good as nothing does.
        let ridge = RIDGE * pull / reach;
        let (mut pulls, mut force, [mut xx, mut xy, mut yy]) = (pull, [0.0, -pull], [ridge, 0.0, ridge]);
        for spring in &springs {
            let (tension, [x, y], both) = spring.pull(at);
            if tension > 0.0 {
                let (u, v, across) = (x / tension, y / tension, both - spring.gain);
                let along = spring.gain - across;
                (pulls, force) = (pulls + tension, [force[0] + x, force[1] + y]);
                (xx, xy, yy) = (xx + across + along * u * u, xy + along * u * v, yy + across + along * v * v);
            }
        }
        let whole = xx * yy - xy * xy;
        let step = [(yy * force[0] - xy * force[1]) / whole, (xx * force[1] - xy * force[0]) / whole];
        let digits = DIGITS * (reach + size(at));
        if size(force) <= NEAR * pull + gain * digits {
            return moment(&springs, at);
        }
        let most = energy(at) + pulls * digits;
        let mut share = (reach / size(step)).min(1.0);
        let next = (0..HALVES).find_map(|_| {
            let next = [at[0] + share * step[0], at[1] + share * step[1]];
            share *= 0.5;
            (energy(next) <= most).then_some(next)
        });
        match next {
            Some(next) => at = next,
            // Nothing that the digits could tell is gained any more.
            None => {
                let near = ROUGHLY * (NEAR * pull + gain * digits);
                check("force left over where the body is held", size(force), size(force) <= near, "less")?;
                return moment(&springs, at);
            }
        }
    }
    Err(OutOfDomain { what: "steps until the body is held", value: f64::from(NEWTON), must: "fewer" })
}

/// What the parts pull at a place.
fn moment(springs: &[Spring; 2], at: [f64; 2]) -> Result<Moment, OutOfDomain> {
    let [(near, [a, b], _), (far, [c, d], _)] = springs.each_ref().map(|spring| spring.pull(at));
    let both = ((a + c) * (a + c) + (b + d) * (b + d)).sqrt();
    for tension in [near, far, both] {
        finite("tension of the line", tension)?;
    }
    let [along, down] = [at[0], -at[1]].map(Length::new::<metre>);
    let [near, far, both] = [near, far, both].map(Force::new::<newton>);
    Ok(Moment { along, down, near, far, both })
}

/// A part as a spring: the place of its point, the distance at which it begins to pull, N/m.
struct Spring {
    at: [f64; 2],
    rest: f64,
    gain: f64,
}

/// Both parts, and how far straight down the body gets before one pulls.
fn both(near: &Part, far: &Part) -> Result<([Spring; 2], f64), OutOfDomain> {
    let (near, far) = (Spring::of(near)?, Spring::of(far)?);
    let free = near.free().min(far.free());
    Ok(([near, far], free))
}

impl Spring {
    fn of(part: &Part) -> Result<Self, OutOfDomain> {
        let unstretched = positive("unstretched length", part.unstretched.value)?;
        let stiffness = positive("line stiffness", part.stiffness.value)?;
        let beyond = not_negative("line beyond the point", part.beyond.value)?;
        Ok(Spring {
            at: [finite("place of the point", part.along.value)?, finite("height of the point", part.above.value)?],
            rest: unstretched - beyond,
            gain: stiffness / unstretched,
        })
    }

    /// How far straight down the body gets before this part pulls.
    fn free(&self) -> f64 {
        let [along, above] = self.at;
        let (tension, ..) = self.pull([0.0, 0.0]);
        if tension > 0.0 { 0.0 } else { ((self.rest * self.rest - along * along).max(0.0).sqrt() - above).max(0.0) }
    }

    /// What is stored in it, J.
    fn stored(&self, at: [f64; 2]) -> f64 {
        let (tension, ..) = self.pull(at);
        tension * tension / (2.0 * self.gain)
    }

    /// Tension on a body at a place, the same as a force along the part, and how stiffly it holds there.
    fn pull(&self, [x, y]: [f64; 2]) -> (f64, [f64; 2], f64) {
        let [x, y] = [self.at[0] - x, self.at[1] - y];
        let length = (x * x + y * y).sqrt().max(f64::MIN_POSITIVE);
        let tension = self.gain * (length - self.rest).max(0.0);
        (tension, [tension * x / length, tension * y / length], self.gain + tension / length)
    }
}

/// Place and velocity.
type State = [f64; 4];

struct Body<'a> {
    springs: [Spring; 2],
    mass: f64,
    /// What else pulls at some velocity, N.
    drive: &'a dyn Fn([f64; 2]) -> [f64; 2],
}

impl Body<'_> {
    /// How place and velocity change.
    fn change(&self, &[x, y, u, v]: &State) -> State {
        let [a, b] = (self.drive)([u, v]);
        let [(_, one, _), (_, other, _)] = self.springs.each_ref().map(|spring| spring.pull([x, y]));
        [u, v, (a + one[0] + other[0]) / self.mass, (b + one[1] + other[1]) / self.mass]
    }

    /// Whether the catch is over within so many steps.
    fn follow(&self, start: State, each: &mut dyn FnMut(&Moment)) -> Result<bool, OutOfDomain> {
        let mut at = start;
        let mut fastest = 0.0_f64;
        // Down, then up again.
        let (mut fallen, mut thrown) = (false, false);
        for _ in 0..STEPS {
            let [x, y, u, v] = at;
            let now = moment(&self.springs, [x, y])?;
            each(&now);
            let motion = u * u + v * v;
            fastest = fastest.max(motion);
            fallen |= v < 0.0;
            thrown |= fallen && v > 0.0;
            let caught = now.near.value.max(now.far.value) > 0.0;
            if thrown && (v <= 0.0 || !caught) || fallen && caught && motion < AT_REST * fastest {
                return Ok(true);
            }
            let stiff: f64 = self.springs.iter().map(|spring| spring.pull([x, y]).2).sum();
            let time = STEP * (self.mass / stiff).sqrt();
            let first = self.change(&at);
            let second = self.change(&ahead(&at, &first, time / 2.0));
            let third = self.change(&ahead(&at, &second, time / 2.0));
            let fourth = self.change(&ahead(&at, &third, time));
            at = ahead(&at, &first, time / 6.0);
            at = ahead(&at, &second, time / 3.0);
            at = ahead(&at, &third, time / 3.0);
            at = ahead(&at, &fourth, time / 6.0);
        }
        Ok(false)
    }
}

fn ahead([x, y, u, v]: &State, [by_x, by_y, by_u, by_v]: &State, time: f64) -> State {
    [x + time * by_x, y + time * by_y, u + time * by_u, v + time * by_v]
}

/// The lowest place that the parts reach unstretched: below the point of one of them, or where both are straight.
fn lowest([near, far]: &[Spring; 2]) -> [f64; 2] {
    let way = |one: &Spring, to: [f64; 2]| [to[0] - one.at[0], to[1] - one.at[1]];
    for (one, other) in [(near, far), (far, near)] {
        let below = [one.at[0], one.at[1] - one.rest];
        let [x, y] = way(other, below);
        // Not `hypot`, whose last digit is another elsewhere.
        if (x * x + y * y).sqrt() <= other.rest {
            return below;
        }
    }
    let [x, y] = way(near, far.at);
    let apart = (x * x + y * y).sqrt().max(f64::MIN_POSITIVE);
    let along = (apart + (near.rest - far.rest) * (near.rest + far.rest) / apart) / 2.0;
    let across = ((near.rest - along) * (near.rest + along)).max(0.0).sqrt() * if x < 0.0 { -1.0 } else { 1.0 };
    [near.at[0] + (along * x + across * y) / apart, near.at[1] + (along * y - across * x) / apart]
}
