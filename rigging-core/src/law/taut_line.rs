//! A line between two anchors with one load on it: elastic, exact geometry.
//!
//! The line itself is taken as weightless and runs without friction through the load's connector, so
//! one tension rules from end to end; the load is held at its place along the span and moves up and
//! down only. At the lowest point of the line that is where it would come to rest by itself.

use super::{OutOfDomain, check, finite, not_negative, positive, root};
use crate::quantity::{Angle, Force, Length, metre, newton, radian};

/// A line between two anchors, and the place on it where the load is held.
/// ```
/// use rigging_core::law::taut_line::{TautLine, at_rest};
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // Anchors 8 m apart, one 6 m higher: 10 m straight. Pulled to 1000 N of 20 kN it was 10/1.05 m long before.
/// let [span, rise, at, unstretched] = [8.0, 6.0, 2.0, 10.0 / 1.05].map(Length::new::<metre>);
/// let line = TautLine { span, rise, at, unstretched, stiffness: Force::new::<newton>(20_000.0) };
/// // With no load on it that is all it carries, and it hangs nowhere below its straight way.
/// let idle = at_rest(&line, Force::new::<newton>(0.0))?;
/// assert!((idle.tension.value - 1000.0).abs() < 1e-6 && idle.sag.value < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TautLine {
    /// Horizontal distance of the anchors, > 0.
    pub span: Length,
    /// How much higher the far anchor is than the near one; negative if lower.
    pub rise: Length,
    /// Horizontal distance of the load from the near anchor, above 0 and below the span.
    pub at: Length,
    /// Length of the line without tension, > 0.
    pub unstretched: Length,
    /// Stiffness EA: tension for a strain of 1, > 0.
    pub stiffness: Force,
}

/// A line with a load on it, at rest or at the lowest point of a drop.
/// ```
/// use rigging_core::law::taut_line::{TautLine, at_rest};
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// let [span, rise, at, unstretched] = [8.0, 1.0, 3.0, 8.2].map(Length::new::<metre>);
/// let line = TautLine { span, rise, at, unstretched, stiffness: Force::new::<newton>(20_000.0) };
/// let hung = at_rest(&line, Force::new::<newton>(900.0))?;
/// // One tension at both ends: what the two parts lift is the load.
/// let lifts = hung.tension * (hung.near_below_level.value.sin() + hung.far_below_level.value.sin());
/// assert!((lifts.value - 900.0).abs() < 1e-6);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hung {
    /// Tension of the line, the same at both ends.
    pub tension: Force,
    /// How far the load is below the straight line between the anchors.
    pub sag: Length,
    /// Angle of the part to the near anchor, below the horizontal through the anchor.
    pub near_below_level: Angle,
    /// Angle of the part to the far anchor, below the horizontal through the anchor.
    pub far_below_level: Angle,
}

/// Straight distance of two anchors.
///
/// # Formula
/// `c = √(span² + rise²)`.
/// ```
/// use rigging_core::law::taut_line;
/// use rigging_core::quantity::{Length, metre};
///
/// // 4 m along and 3 m up, or down: 5 m straight.
/// let [span, up, down] = [4.0, 3.0, -3.0].map(Length::new::<metre>);
/// assert_eq!(taut_line::chord(span, up).value, 5.0);
/// assert_eq!(taut_line::chord(span, down).value, 5.0);
/// ```
pub fn chord(span: Length, rise: Length) -> Length {
    Length::new::<metre>(span.value.hypot(rise.value))
}

/// Unstretched length of a line that was pulled straight between its anchors to a tension.
///
/// # Formula
/// `L₀ = c / (1 + T₀/EA)`, `c` the straight distance of the anchors (m), `T₀` ≥ 0 the pre-tension (N).
/// # Errors
/// [`OutOfDomain`] if a length or stiffness is not above 0 or T₀ is negative.
/// # References
/// Definition of stiffness.
/// ```
/// use rigging_core::law::taut_line;
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // 500 N stretch a line of 25 kN by 2 %.
/// let (chord, pull) = (Length::new::<metre>(10.2), Force::new::<newton>(500.0));
/// let line = taut_line::unstretched_when_pulled_to(chord, pull, Force::new::<newton>(25_000.0))?;
/// assert!((line.value - 10.0).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn unstretched_when_pulled_to(chord: Length, pre_tension: Force, stiffness: Force) -> Result<Length, OutOfDomain> {
    let chord = positive("distance of the anchors", chord.value)?;
    let tension = not_negative("pre-tension", pre_tension.value)?;
    let stiffness = positive("line stiffness", stiffness.value)?;
    positive("unstretched length", chord / (1.0 + tension / stiffness)).map(Length::new::<metre>)
}

/// Unstretched length of a line that shows a given sag under a given load.
///
/// # Formula
/// `T = W / (sin δ₁ + sin δ₂)`, `L₀ = ℓ / (1 + T/EA)`: `δ` the angles of the two parts below the
/// horizontal, `ℓ` their length together (m), `W` the load (N).
/// # Errors
/// [`OutOfDomain`] if sag or stiffness is not above 0, nor `unstretched`, which counts for nothing else here, the load is
/// negative, the place is not within the span, or the sag is too small for the line to lift at all.
/// # References
/// Balance of vertical forces.
/// ```
/// use rigging_core::law::taut_line::{self, TautLine};
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // Two parts of 4 m along and 3 m down are 10 m. By hand: T = 1200/(2 · 3/5) = 1000, L₀ = 10/(1 + 1000/4000) = 8.
/// let [span, rise, at, unstretched, sag] = [8.0, 0.0, 4.0, 9.0, 3.0].map(Length::new::<metre>);
/// let line = TautLine { span, rise, at, unstretched, stiffness: Force::new::<newton>(4000.0) };
/// let length = taut_line::unstretched_for_sag(&line, Force::new::<newton>(1200.0), sag)?;
/// assert!((length.value - 8.0).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn unstretched_for_sag(line: &TautLine, load: Force, sag: Length) -> Result<Length, OutOfDomain> {
    let geometry = Geometry::of(line)?;
    let load = not_negative("load", load.value)?;
    let stiffness = positive("line stiffness", line.stiffness.value)?;
    let shape = geometry.at(positive("sag", sag.value)?);
    let tension = not_negative("tension", load / shape.lift)?;
    positive("unstretched length", shape.length / (1.0 + tension / stiffness)).map(Length::new::<metre>)
}

/// A load hanging still on a line.
///
/// # Formula
/// The sag `y` at which `T (sin δ₁ + sin δ₂) = W` with `T = EA (ℓ − L₀)/L₀`, or 0 while ℓ < L₀. At the
/// middle of a level span it is `T = W / (2 sin δ)`, tan δ = 2·sag/span. The left side grows with y, so
/// there is one such sag.
/// # Errors
/// [`OutOfDomain`] if the load is negative, a length or the stiffness is not above 0, or the place is
/// not within the span.
/// # References
/// Timoshenko, *Strength of Materials I*, page 10 problem 2, is a case of it; OpenStax *University
/// Physics*, the walker on a wire, another.
/// ```
/// use rigging_core::law::taut_line::{TautLine, at_rest};
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // A cord of 8 m becomes 10 m: two parts of 4 m along and 3 m down. By hand: T = 4000 (10 − 8)/8 = 1000, and
/// // 2 · 1000 · 3/5 lift 1200.
/// let [span, rise, at, unstretched] = [8.0, 0.0, 4.0, 8.0].map(Length::new::<metre>);
/// let cord = TautLine { span, rise, at, unstretched, stiffness: Force::new::<newton>(4000.0) };
/// let hung = at_rest(&cord, Force::new::<newton>(1200.0))?;
/// assert!((hung.sag.value - 3.0).abs() < 1e-9 && (hung.tension.value - 1000.0).abs() < 1e-6);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn at_rest(line: &TautLine, load: Force) -> Result<Hung, OutOfDomain> {
    let geometry = Geometry::of(line)?;
    let load = not_negative("load", load.value)?;
    let sag = rise_to_zero(0.0, geometry.span, &|sag| {
        let shape = geometry.at(sag);
        geometry.tension(shape.length) * shape.lift - load
    })?;
    geometry.hung(sag)
}

/// The lowest point of a load that is let go, or dropped, onto a line.
///
/// # Formula
/// The sag `y` at which the energy gained by the line equals the work of the weight:
/// `EA/(2L₀) (⟨ℓ(y) − L₀⟩² − ⟨ℓ(0) − L₀⟩²) = W (y + h)`, where `⟨·⟩` is 0 below 0, `h` ≥ 0 is the free
/// drop above the straight line (m). No energy is lost. An upper bound for this stiffness if the load runs along the
/// line, or hangs in the middle of a level one; one that is held elsewhere comes down where it does not hang later, and
/// [`caught_on_line`](super::caught_on_line) follows it.
/// # Errors
/// As [`at_rest`]; also if h is negative.
/// # References
/// Conservation of energy.
/// ```
/// use rigging_core::law::taut_line::{TautLine, at_lowest_point};
/// use rigging_core::quantity::{Force, Length, metre, newton};
///
/// // 200 N fall 2 m onto a cord of 8 m and on to 3 m below it, where the cord is 10 m. By hand:
/// // 4000/(2 · 8) · (10 − 8)² = 1000 J = 200 (3 + 2).
/// let [span, rise, at, unstretched, drop] = [8.0, 0.0, 4.0, 8.0, 2.0].map(Length::new::<metre>);
/// let cord = TautLine { span, rise, at, unstretched, stiffness: Force::new::<newton>(4000.0) };
/// let lowest = at_lowest_point(&cord, Force::new::<newton>(200.0), drop)?;
/// assert!((lowest.sag.value - 3.0).abs() < 1e-9 && (lowest.tension.value - 1000.0).abs() < 1e-6);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn at_lowest_point(line: &TautLine, load: Force, drop: Length) -> Result<Hung, OutOfDomain> {
    let geometry = Geometry::of(line)?;
    let drop = not_negative("drop", drop.value)?;
    let rest = at_rest(line, load)?.sag.value;
    let stored = |length: f64| {
        let stretch = (length - geometry.unstretched).max(0.0);
        geometry.stiffness / (2.0 * geometry.unstretched) * stretch * stretch
    };
    let before = stored(geometry.at(0.0).length);
    let sag =
        rise_to_zero(rest, geometry.span, &|sag| stored(geometry.at(sag).length) - before - load.value * (sag + drop))?;
    geometry.hung(sag)
}

/// Checked numbers of a line, in SI.
struct Geometry {
    span: f64,
    near: (f64, f64),
    far: (f64, f64),
    unstretched: f64,
    stiffness: f64,
}

/// The line with the load at some sag: its length, and the sum of the sines of its two parts.
struct Shape {
    length: f64,
    lift: f64,
}

impl Geometry {
    fn of(line: &TautLine) -> Result<Self, OutOfDomain> {
        let span = positive("span", line.span.value)?;
        let at = line.at.value;
        let at = check("place of the load", at, at > 0.0 && at < span, "between the anchors")?;
        let rise = finite("rise", line.rise.value)?;
        let share = at / span;
        Ok(Geometry {
            span,
            near: (at, -rise * share),
            far: (span - at, rise * (1.0 - share)),
            unstretched: positive("unstretched length", line.unstretched.value)?,
            stiffness: positive("line stiffness", line.stiffness.value)?,
        })
    }

    fn at(&self, sag: f64) -> Shape {
        let (near_down, far_down) = (self.near.1 + sag, self.far.1 + sag);
        let (near, far) = (self.near.0.hypot(near_down), self.far.0.hypot(far_down));
        Shape { length: near + far, lift: near_down / near + far_down / far }
    }

    fn tension(&self, length: f64) -> f64 {
        self.stiffness * ((length - self.unstretched) / self.unstretched).max(0.0)
    }

    fn hung(&self, sag: f64) -> Result<Hung, OutOfDomain> {
        let tension = finite("tension", self.tension(self.at(sag).length))?;
        let below_level = |(level, down): (f64, f64)| Angle::new::<radian>((down + sag).atan2(level));
        Ok(Hung {
            tension: Force::new::<newton>(tension),
            sag: Length::new::<metre>(sag),
            near_below_level: below_level(self.near),
            far_below_level: below_level(self.far),
        })
    }
}

/// The place at or above `low` where a function that rises there reaches 0.
fn rise_to_zero(low: f64, scale: f64, function: &dyn Fn(f64) -> f64) -> Result<f64, OutOfDomain> {
    let mut low = low;
    let mut high = low + scale;
    while finite("pull of the line less its load", function(high))? < 0.0 {
        low = high;
        high *= 2.0;
        finite("sag", high)?;
    }
    root::between(low, high, &|at| Ok(function(at)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn line(span: f64, rise: f64, at: f64, unstretched: f64, stiffness: f64) -> TautLine {
        TautLine {
            span: Length::new::<metre>(span),
            rise: Length::new::<metre>(rise),
            at: Length::new::<metre>(at),
            unstretched: Length::new::<metre>(unstretched),
            stiffness: Force::new::<newton>(stiffness),
        }
    }

    #[test]
    fn in_the_middle_it_is_the_textbook_formula_at_the_solved_angle() {
        let hung = at_rest(&line(12.0, 0.0, 6.0, 12.1, 30e3), Force::new::<newton>(900.0)).unwrap();
        let delta = (2.0 * hung.sag.value / 12.0).atan();
        assert_relative_eq!(hung.tension.value, 900.0 / (2.0 * delta.sin()), max_relative = 1e-12);
        assert_relative_eq!(hung.near_below_level.value, delta, max_relative = 1e-14);
    }

    #[test]
    fn at_rest_turned_round_gives_back_the_length() {
        let set = line(9.0, 1.5, 3.0, 9.2, 25e3);
        let load = Force::new::<newton>(1100.0);
        let hung = at_rest(&set, load).unwrap();
        assert_relative_eq!(unstretched_for_sag(&set, load, hung.sag).unwrap().value, 9.2, max_relative = 1e-13);
    }

    #[test]
    fn seen_from_the_other_end_the_line_is_the_same() {
        let load = Force::new::<newton>(1100.0);
        let seen = at_rest(&line(9.0, 1.5, 3.0, 9.2, 25e3), load).unwrap();
        let turned = at_rest(&line(9.0, -1.5, 6.0, 9.2, 25e3), load).unwrap();
        assert_relative_eq!(seen.tension.value, turned.tension.value, max_relative = 1e-11);
        assert_relative_eq!(seen.near_below_level.value, turned.far_below_level.value, max_relative = 1e-11);
    }

    #[test]
    fn without_a_load_only_the_pre_tension_is_left() {
        let chord = Length::new::<metre>(10.0);
        let (tension, stiffness) = (Force::new::<newton>(500.0), Force::new::<newton>(30e3));
        let unstretched = unstretched_when_pulled_to(chord, tension, stiffness).unwrap();
        let idle = line(10.0, 0.0, 5.0, unstretched.value, 30e3);
        assert_relative_eq!(
            at_rest(&idle, Force::new::<newton>(0.0)).unwrap().tension.value,
            500.0,
            max_relative = 1e-11
        );
    }

    #[test]
    fn a_slack_line_without_a_load_is_not_lowered() {
        // By hand: 30 m of line between anchors 10 m apart carry nothing in any place down to some 14 m; of these it is
        // told the highest.
        let hung = at_rest(&line(10.0, 0.0, 5.0, 30.0, 30e3), Force::new::<newton>(0.0)).unwrap();
        assert_eq!((hung.sag.value, hung.tension.value), (0.0, 0.0));
    }

    #[test]
    fn the_lowest_point_lies_below_the_resting_point_and_pulls_harder() {
        let set = line(20.0, 0.0, 10.0, 20.0, 30e3);
        let load = Force::new::<newton>(800.0);
        let (rest, low) =
            (at_rest(&set, load).unwrap(), at_lowest_point(&set, load, Length::new::<metre>(0.0)).unwrap());
        assert!(low.sag > rest.sag);
        // Row D8 of the check values, derived: 2.51 times the resting tension.
        assert_relative_eq!((low.tension / rest.tension).value, 2.51, epsilon = 0.01);
    }

    #[test]
    fn a_load_beyond_the_anchors_is_refused() {
        assert_eq!(
            at_rest(&line(10.0, 0.0, 10.0, 10.0, 30e3), Force::new::<newton>(1.0)).unwrap_err().what,
            "place of the load"
        );
    }
}
