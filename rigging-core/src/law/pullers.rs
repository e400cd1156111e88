//! People who pull on one rope together: each adds less than the one before.

use super::{OutOfDomain, check, finite, not_negative, positive};
use crate::quantity::{Force, Ratio, newton, ratio};

/// The largest team that was measured.
/// ```
/// use rigging_core::law::pullers::{self, MOST};
/// use rigging_core::quantity::percent;
///
/// // Tug-of-war study, 2022: eight lose 20 %. Of nine nothing is said.
/// assert_eq!(MOST, 8);
/// assert!((pullers::loss(8)?.get::<percent>() - 20.0).abs() < 1e-9 && pullers::loss(9).is_err());
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub const MOST: u32 = 8;

/// Share of their own pull that people lose by pulling together.
///
/// # Formula
/// 0 for one; 9 % for two to 20 % for eight, in a straight line between (assumed).
/// # Errors
/// [`OutOfDomain`] if there are none or more than [`MOST`].
/// # References
/// Tug-of-war study, 2022: 9 % for two, 20 % for eight.
/// ```
/// use rigging_core::law::pullers;
/// use rigging_core::quantity::percent;
///
/// // Tug-of-war study, 2022: two lose 9 %, eight 20 %. One alone loses nothing.
/// for (people, lost) in [(1, 0.0), (2, 9.0), (8, 20.0)] {
///     assert!((pullers::loss(people)?.get::<percent>() - lost).abs() < 1e-9);
/// }
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn loss(people: u32) -> Result<Ratio, OutOfDomain> {
    let number = f64::from(people);
    check("number of people who pull", number, (1..=MOST).contains(&people), "from 1 to 8")?;
    let share = if people < 2 { 0.0 } else { 0.09 + (number - 2.0) * (0.20 - 0.09) / (f64::from(MOST) - 2.0) };
    Ok(Ratio::new::<ratio>(share))
}

/// Pull of several people together.
///
/// # Formula
/// `n P (1 − loss)` where `P` is the pull of one alone (N); see [`loss`].
/// # Errors
/// [`OutOfDomain`] if P is negative or n outside the range of [`loss`].
/// # References
/// As [`loss`].
/// ```
/// use rigging_core::law::pullers;
/// use rigging_core::quantity::{Force, newton};
///
/// // By hand: eight of 200 N would be 1600 N and lose a fifth, 320 N.
/// let pull = pullers::together(Force::new::<newton>(200.0), 8)?;
/// assert!((pull.value - 1280.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn together(each: Force, people: u32) -> Result<Force, OutOfDomain> {
    let each = not_negative("pull of one person", each.value)?;
    let share = 1.0 - loss(people)?.value;
    finite("pull", f64::from(people) * each * share).map(Force::new::<newton>)
}

/// The fewest people whose pull together reaches a force, if [`MOST`] of them do.
///
/// # Formula
/// The least n with `n P (1 − loss) ≥ F`; see [`together`].
/// # Errors
/// [`OutOfDomain`] if F is negative or P not above 0.
/// # References
/// As [`loss`].
/// ```
/// use rigging_core::law::pullers;
/// use rigging_core::quantity::{Force, newton};
///
/// // By hand: two of 200 N pull 400 · 0.91 = 364 N, eight 1600 · 0.8 = 1280 N.
/// let needed = |force| pullers::needed(Force::new::<newton>(force), Force::new::<newton>(200.0));
/// assert_eq!((needed(363.0)?, needed(365.0)?), (Some(2), Some(3)));
/// // More than eight have not been measured.
/// assert_eq!(needed(1300.0)?, None);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn needed(force: Force, each: Force) -> Result<Option<u32>, OutOfDomain> {
    let force = not_negative("force", force.value)?;
    positive("pull of one person", each.value)?;
    for people in 1..=MOST {
        if together(each, people)?.value >= force {
            return Ok(Some(people));
        }
    }
    Ok(None)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn newtons(value: f64) -> Force {
        Force::new::<newton>(value)
    }

    #[test]
    fn two_lose_nine_hundredths_and_eight_a_fifth() {
        // Tug-of-war study 2022.
        for (people, pull) in [(1, 200.0), (2, 364.0), (8, 1280.0)] {
            assert_relative_eq!(together(newtons(200.0), people).unwrap().value, pull, max_relative = 1e-15);
        }
        for people in 1..MOST {
            assert!(together(newtons(1.0), people).unwrap() < together(newtons(1.0), people + 1).unwrap());
        }
    }

    #[test]
    fn the_fewest_are_enough_and_one_fewer_are_not() {
        // By hand: 2 give 364 N, so 365 N need a third, whose loss is 9 + 11/6 %.
        assert_eq!(needed(newtons(364.0), newtons(200.0)).unwrap(), Some(2));
        assert_eq!(needed(newtons(365.0), newtons(200.0)).unwrap(), Some(3));
        assert_relative_eq!(together(newtons(200.0), 3).unwrap().value, 535.0, epsilon = 1e-9);
        assert_eq!(needed(newtons(1281.0), newtons(200.0)).unwrap(), None);
        assert_eq!(needed(newtons(0.0), newtons(200.0)).unwrap(), Some(1));
    }

    #[test]
    fn nobody_and_more_than_were_measured_are_refused() {
        assert!(loss(0).is_err() && loss(9).is_err() && together(newtons(-1.0), 2).is_err());
        assert!(needed(newtons(1.0), newtons(0.0)).is_err());
    }
}
