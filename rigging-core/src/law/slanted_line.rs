//! A person whom the current carries along a line slanted across it.
//!
//! The line runs from a *near* anchor, where the person starts, downstream to a *far* one. It does not stretch and is
//! somewhat longer than the straight way: the person hangs in its bend. Drag acts along the current.
//!
//! With `α` and `β` the angles that the near and the far part make with the straight line between the anchors,
//! `tan(α/2) tan(β/2) = s/(2 + s)`, `s` the slack as a share of the span: all places on the line, by one angle.

use super::{OutOfDomain, check, finite, not_negative, positive, root};
use crate::quantity::{Angle, Force, Length, Ratio, metre, newton, radian};
use std::f64::consts::{FRAC_PI_2, PI};

/// A line slanted to the current.
/// ```
/// use rigging_core::law::slanted_line::{SlantedLine, at_rest};
/// use rigging_core::quantity::{Angle, Force, Length, Ratio, degree, metre, newton, ratio};
///
/// // 10 m and 2 % of slack: wherever the person comes to rest, there are 10.2 m of line.
/// let (span, slack) = (Length::new::<metre>(10.0), Ratio::new::<ratio>(0.02));
/// let (to_current, friction) = (Angle::new::<degree>(60.0), Ratio::new::<ratio>(0.2));
/// let line = SlantedLine { span, slack, to_current, friction };
/// let person = at_rest(&line, Force::new::<newton>(300.0))?;
/// assert!(((person.near_part + person.far_part).value - 10.2).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlantedLine {
    /// Straight distance of the anchors, > 0.
    pub span: Length,
    /// How much longer the line is, as a share of the span, ≥ 0.
    pub slack: Ratio,
    /// Between the straight line, toward its far end, and the current at that place: 0 along the current, 90° across.
    pub to_current: Angle,
    /// Friction of the line where it bends at the person, ≥ 0.
    pub friction: Ratio,
}

/// A person on a slanted line.
/// ```
/// use rigging_core::law::slanted_line::{SlantedLine, at_rest};
/// use rigging_core::quantity::{Angle, Force, Length, Ratio, degree, metre, newton, ratio};
///
/// let (span, slack) = (Length::new::<metre>(10.0), Ratio::new::<ratio>(0.02));
/// let (to_current, friction) = (Angle::new::<degree>(60.0), Ratio::new::<ratio>(0.2));
/// let rest = at_rest(&SlantedLine { span, slack, to_current, friction }, Force::new::<newton>(300.0))?;
/// // At rest the two parts take up the drag along the current, and nothing is left across it.
/// let (near, far) = (rest.near_to_current.value, rest.far_to_current.value);
/// assert!(((rest.near_tension * near.cos() - rest.far_tension * far.cos()).value - 300.0).abs() < 1e-6);
/// assert!((rest.near_tension * near.sin() - rest.far_tension * far.sin()).value.abs() < 1e-6);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slider {
    /// Line between the near anchor and the person.
    pub near_part: Length,
    /// Line between the person and the far anchor.
    pub far_part: Length,
    /// Between the near part, toward the person, and the current; below 0 if the person is on the near side of it.
    pub near_to_current: Angle,
    /// Between the far part, toward its anchor, and the current; above 90° if the way on leads upstream.
    pub far_to_current: Angle,
    /// Tension of the near part.
    pub near_tension: Force,
    /// Tension of the far part.
    pub far_tension: Force,
}

/// Whether a straight tight line lets the current carry a person on.
///
/// # Formula
/// `tan γ < 1/μ`: `γ` between the line and the current, 0 to 90°, `μ` ≥ 0 the friction along the line. With slack the
/// angle is that of the part that lies ahead: see [`at_rest`].
/// # Errors
/// [`OutOfDomain`] outside these ranges.
/// # References
/// Drag along the line `F cos γ` against friction `μ F sin γ`.
/// ```
/// use rigging_core::law::slanted_line;
/// use rigging_core::quantity::{Angle, Ratio, degree, ratio};
///
/// // 1/tan 60° = 0.577.
/// let at_60_degrees = |friction| slanted_line::carries_on(Angle::new::<degree>(60.0), Ratio::new::<ratio>(friction));
/// assert!(at_60_degrees(0.57)? && !at_60_degrees(0.58)?);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn carries_on(to_current: Angle, friction: Ratio) -> Result<bool, OutOfDomain> {
    let (angle, friction) = (slant(to_current)?, not_negative("friction", friction.value)?);
    Ok(friction * angle.sin() < angle.cos())
}

/// Where the current leaves a person who starts at the near end of a slack line.
///
/// # Formula
/// `sin γ_far = sin γ_near e^{μ(γ_far − γ_near)}`, `γ` the angle of each part to the current; with their mean `m` and
/// half difference `δ` it is `tan δ = tan m tanh(μδ)`. The mean of the cotangent between the two angles is then `μ`;
/// it falls all the way along, so there is one such place, and up to it the current wins. Without slack: the far
/// anchor if [`carries_on`], else the near one, and the middle where friction just equals the current.
/// # Errors
/// [`OutOfDomain`] outside the ranges of [`SlantedLine`], if the drag is negative, or if a length or tension is too
/// large for a number (no slack, and friction just as large as the current can overcome).
/// # References
/// Balance of the person, with the tensions of the two parts as those of a rope that runs over a bend.
/// ```
/// use rigging_core::law::slanted_line::{SlantedLine, at_rest};
/// use rigging_core::quantity::{Angle, Force, Length, Ratio, degree, metre, newton, ratio};
///
/// // Straight across without friction: two parts of 5 m, each 4 m of the way and 3 m downstream. By hand:
/// // 300/(2 · 3/5) = 250 in each.
/// let (span, slack) = (Length::new::<metre>(8.0), Ratio::new::<ratio>(0.25));
/// let line = SlantedLine { span, slack, to_current: Angle::new::<degree>(90.0), friction: Ratio::new::<ratio>(0.0) };
/// let rest = at_rest(&line, Force::new::<newton>(300.0))?;
/// assert!((rest.far_part.value - 5.0).abs() < 1e-9);
/// assert!((rest.near_tension.value - 250.0).abs() < 1e-6 && (rest.far_tension.value - 250.0).abs() < 1e-6);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn at_rest(line: &SlantedLine, drag: Force) -> Result<Slider, OutOfDomain> {
    let line = Checked::of(line)?;
    let place = line.rest()?;
    line.slider(&place, drag)
}

/// A person who passes a place on the line: what the parts carry across the way, friction against the motion.
///
/// # Formula
/// `(T_near + T_far) sin δ = F sin m`, `T_near = T_far e^{2μδ}`; 0 where the current takes the person off the line
/// (`sin m` < 0). `m` and `δ` as in [`at_rest`], where this is all there is; elsewhere what is left over along the
/// line speeds the person up. A line that stretches carries less.
/// # Errors
/// As [`at_rest`]; also if the near part is not a place on the line, or the line has no slack there.
/// # References
/// Balance square to the way, which halves the angle between the parts.
/// ```
/// use rigging_core::law::slanted_line::{SlantedLine, passing};
/// use rigging_core::quantity::{Angle, Force, Length, Ratio, degree, metre, newton, ratio};
///
/// // The middle of a line at 30° to the current: two parts of 5 m, each 4 m along the straight way and 3 m off it.
/// // By hand: 300 sin 30°/(2 · 3/5) = 125 in each.
/// let (span, slack) = (Length::new::<metre>(8.0), Ratio::new::<ratio>(0.25));
/// let line = SlantedLine { span, slack, to_current: Angle::new::<degree>(30.0), friction: Ratio::new::<ratio>(0.0) };
/// let passes = passing(&line, Force::new::<newton>(300.0), Length::new::<metre>(5.0))?;
/// assert!((passes.near_tension.value - 125.0).abs() < 1e-9 && (passes.far_tension.value - 125.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn passing(line: &SlantedLine, drag: Force, near_part: Length) -> Result<Slider, OutOfDomain> {
    let line = Checked::of(line)?;
    let (least, near) = (line.spare, near_part.value);
    let near = check("near part of the line", near, near >= least && near <= least + line.span, "a place on the line")?;
    line.slider(&line.place(near - least), drag)
}

/// The place, from the near anchor to where the person comes to rest, at which the line is tightest.
///
/// # Formula
/// The greatest near tension of [`passing`]: 64 places, then the place between the neighbours of the best by thirds.
/// # Errors
/// As [`passing`]: a line without slack would have to stretch.
/// # References
/// As [`passing`].
/// ```
/// use rigging_core::law::slanted_line::{SlantedLine, passing, tightest};
/// use rigging_core::quantity::{Angle, Force, Length, Ratio, degree, metre, newton, ratio};
///
/// let (span, slack) = (Length::new::<metre>(8.0), Ratio::new::<ratio>(0.25));
/// let line = SlantedLine { span, slack, to_current: Angle::new::<degree>(30.0), friction: Ratio::new::<ratio>(0.0) };
/// let (drag, middle) = (Force::new::<newton>(300.0), Length::new::<metre>(5.0));
/// // Tighter than at its middle, and not at its middle: the current takes the person on.
/// let most = tightest(&line, drag)?;
/// assert!(most.near_tension > passing(&line, drag, middle)?.near_tension && most.near_part > middle);
/// // What it says is what passing that place says.
/// assert!((most.near_tension - passing(&line, drag, most.near_part)?.near_tension).value.abs() < 1e-6);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn tightest(line: &SlantedLine, drag: Force) -> Result<Slider, OutOfDomain> {
    const PLACES: u32 = 64;
    let line = Checked::of(line)?;
    let rest = line.rest()?;
    let mut best = line.slider(&rest, drag)?;
    let step = rest.from_start / f64::from(PLACES);
    let (mut low, mut high) = (rest.from_start - step, rest.from_start);
    let mut try_at = |from_start: f64| -> Result<(f64, bool), OutOfDomain> {
        let slider = line.slider(&line.place(from_start), drag)?;
        let better = slider.near_tension > best.near_tension;
        if better {
            best = slider;
        }
        Ok((slider.near_tension.value, better))
    };
    for number in 1..PLACES {
        let middle = step * f64::from(number);
        if try_at(middle)?.1 {
            (low, high) = (middle - step, middle + step);
        }
    }
    for _ in 0..40 {
        let third = (high - low) / 3.0;
        let (left, right) = (low + third, high - third);
        if try_at(left)?.0 < try_at(right)?.0 {
            low = left;
        } else {
            high = right;
        }
    }
    Ok(best)
}

fn slant(to_current: Angle) -> Result<f64, OutOfDomain> {
    let angle = to_current.value;
    check("angle to the current", angle, (0.0..=FRAC_PI_2).contains(&angle), "between 0 and 90°")
}

/// Checked numbers of a line, in SI.
struct Checked {
    span: f64,
    /// Half the slack (m): at its ends each part is still so long.
    spare: f64,
    /// `tan(α/2) tan(β/2)`.
    product: f64,
    to_current: f64,
    friction: f64,
}

/// A place on the line: where, and the angles of the parts to the straight line.
struct Place {
    /// Near part beyond the spare (m).
    from_start: f64,
    /// Far part beyond the spare (m).
    to_end: f64,
    near: f64,
    far: f64,
}

impl Checked {
    fn of(line: &SlantedLine) -> Result<Self, OutOfDomain> {
        let span = positive("span", line.span.value)?;
        // A zero has a sign, and an arc tangent heeds it.
        let slack = not_negative("slack", line.slack.value)?.abs();
        finite("length of the line", span + span * slack)?;
        Ok(Checked {
            span,
            spare: span * slack / 2.0,
            product: slack / (2.0 + slack),
            to_current: slant(line.to_current)?,
            friction: not_negative("friction", line.friction.value)?,
        })
    }

    /// The place at which the near part is so long beyond the spare.
    fn place(&self, from_start: f64) -> Place {
        let from_start = from_start.max(0.0).min(self.span);
        let to_end = self.span - from_start;
        let (root, start, end) = (self.product.sqrt(), from_start.sqrt(), to_end.sqrt());
        let angle = |across: f64, along: f64| 2.0 * (root * across).atan2(along);
        Place { from_start, to_end, near: angle(end, start), far: angle(start, end) }
    }

    /// The place at which one part makes an angle, the other what the slack leaves it.
    fn at_angle(&self, angle: f64, is_far: bool) -> Place {
        let half = (angle / 2.0).tan();
        let other = 2.0 * self.product.atan2(half);
        let little = self.span * self.product / (self.product + half * half);
        // Both are 0 only on a line without slack at its very middle, where no place is better.
        let little = if little.is_nan() { self.span / 2.0 } else { little };
        let rest = self.span - little;
        if is_far {
            Place { from_start: rest, to_end: little, near: other, far: angle }
        } else {
            Place { from_start: little, to_end: rest, near: angle, far: other }
        }
    }

    /// Mean of the two parts' angles to the current, and half their difference.
    fn directions(&self, place: &Place) -> (f64, f64) {
        (self.to_current + (place.far - place.near) / 2.0, (place.near + place.far) / 2.0)
    }

    /// Above 0 where the current carries the person on, below 0 where friction holds: `cos m − sin m tanh(μδ)/tan δ`.
    fn carried(&self, place: &Place) -> f64 {
        let (mean, half) = self.directions(place);
        let held = if half > 0.0 { (self.friction * half).tanh() / half.tan() } else { self.friction };
        mean.cos() - held.min(f64::MAX) * mean.sin()
    }

    fn rest(&self) -> Result<Place, OutOfDomain> {
        let middle = 2.0 * self.product.sqrt().atan();
        let is_far = self.carried(&self.at_angle(middle, true)) > 0.0;
        let angle = root::between(middle, PI, &|angle| Ok(self.carried(&self.at_angle(angle, is_far))))?;
        Ok(self.at_angle(angle, is_far))
    }

    fn slider(&self, place: &Place, drag: Force) -> Result<Slider, OutOfDomain> {
        let drag = not_negative("drag of the water", drag.value)?;
        let (mean, half) = self.directions(place);
        // Friction and angle first: without an angle no friction, however large, takes anything.
        let gives = (-2.0 * (self.friction * half)).exp();
        let near = if drag > 0.0 { drag * mean.sin().max(0.0) / half.sin() / (1.0 + gives) } else { 0.0 };
        let near = finite("tension of the line", near)?;
        Ok(Slider {
            near_part: Length::new::<metre>(place.from_start + self.spare),
            far_part: Length::new::<metre>(place.to_end + self.spare),
            near_to_current: Angle::new::<radian>(self.to_current - place.near),
            far_to_current: Angle::new::<radian>(self.to_current + place.far),
            near_tension: Force::new::<newton>(near),
            far_tension: Force::new::<newton>(near * gives),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{degree, ratio};

    fn line(slack: f64, degrees: f64, friction: f64) -> SlantedLine {
        SlantedLine {
            span: Length::new::<metre>(10.0),
            slack: Ratio::new::<ratio>(slack),
            to_current: Angle::new::<degree>(degrees),
            friction: Ratio::new::<ratio>(friction),
        }
    }
    fn far_part(slack: f64, degrees: f64, friction: f64) -> f64 {
        at_rest(&line(slack, degrees, friction), Force::new::<newton>(300.0)).unwrap().far_part.value
    }

    #[test]
    fn friction_without_end_takes_nothing_where_the_line_does_not_turn() {
        // Found by chance: 2 μ was more than a number, and nothing times that is none.
        let straight = line(0.0, 0.0, 1e308);
        for part in [0.0, 0.3, 1.0] {
            let slider = passing(&straight, Force::default(), Length::new::<metre>(part)).unwrap();
            assert_eq!((slider.near_tension.value, slider.far_tension.value), (0.0, 0.0));
        }
    }

    #[test]
    fn a_person_is_somewhere_on_the_line_and_nowhere_else() {
        // 2 % slack on 10 m: no part is shorter than 0.1 m or longer than 10.1 m.
        let slack = line(0.02, 45.0, 0.2);
        let at = |near: f64| passing(&slack, Force::default(), Length::new::<metre>(near * slack.span.value));
        assert!(at(0.0).is_err() && at(0.009).is_err() && at(1.0101).is_err() && at(-0.5).is_err());
        assert!(at(0.0101).is_ok() && at(0.5).is_ok() && at(1.0099).is_ok());
    }

    #[test]
    fn two_percent_of_slack_leave_so_much_of_ten_metres() {
        // Row W9 of the check values, derived.
        for (degrees, far) in [(45.0, 0.28), (60.0, 0.74), (75.0, 3.48), (90.0, 8.61)] {
            assert!((far_part(0.02, degrees, 0.2) - far).abs() < 0.005, "{degrees}");
        }
    }

    #[test]
    fn a_tight_line_carries_to_its_end_or_not_at_all() {
        // 1/tan 60° = 0.577.
        for friction in [0.0, 0.2, 0.57] {
            assert_eq!(far_part(0.0, 60.0, friction), 0.0);
            assert!(carries_on(Angle::new::<degree>(60.0), Ratio::new::<ratio>(friction)).unwrap());
        }
        for friction in [0.58, 2.0, 1e6] {
            assert!((far_part(0.0, 60.0, friction) - 10.0).abs() < 1e-12);
            assert!(!carries_on(Angle::new::<degree>(60.0), Ratio::new::<ratio>(friction)).unwrap());
        }
    }

    /// An angle to the current (rad) and the friction that is just its equal: `μ sin γ = cos γ` to the last digit.
    fn just_held() -> (f64, f64) {
        let angles = (1..90).map(|degrees| f64::from(degrees).to_radians());
        let mut at_their_friction = angles.map(|angle| (angle, angle.cos() / angle.sin()));
        at_their_friction.find(|(angle, friction)| friction * angle.sin() == angle.cos()).unwrap()
    }

    #[test]
    fn a_current_that_friction_just_equals_carries_nobody_on() {
        let (angle, friction) = just_held();
        let carries = |friction| carries_on(Angle::new::<radian>(angle), Ratio::new::<ratio>(friction)).unwrap();
        assert!(!carries(friction) && carries(friction * (1.0 - 1e-12)));
    }

    #[test]
    fn on_a_tight_line_where_friction_just_equals_the_current_the_person_is_in_the_middle() {
        let (angle, friction) = just_held();
        let tight = SlantedLine { to_current: Angle::new::<radian>(angle), ..line(0.0, 0.0, friction) };
        // All places are alike; half of 10 m is as far from either end.
        let slider = at_rest(&tight, Force::default()).unwrap();
        assert_eq!((slider.near_part.value, slider.far_part.value), (5.0, 5.0));
    }

    #[test]
    fn straight_across_without_friction_the_person_hangs_in_the_middle() {
        let slider = at_rest(&line(0.02, 90.0, 0.0), Force::new::<newton>(300.0)).unwrap();
        assert!((slider.far_part.value - 5.1).abs() < 1e-12);
        // T = F/(2 sin δ), cos δ = 5/5.1.
        let pull = 300.0 / (2.0 * (5.0_f64 / 5.1).acos().sin());
        assert!((slider.near_tension.value - pull).abs() < 1e-9 && (slider.far_tension.value - pull).abs() < 1e-9);
    }
}
