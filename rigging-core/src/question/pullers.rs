//! People who pull on a rope by hand, and what they pull together.

use super::field::choices;
use crate::band::Band;
use crate::law::{OutOfDomain, pullers};
use crate::working::Source;

/// Where those who pull are.
/// ```
/// use rigging_core::question::{Ask, BadInput, PullDown, PullFrom};
///
/// // What those who pull a rope down give is a finding: of one who stands 100 N at the least (assumed), of one who
/// // swims half of that.
/// let gives = |pull_from| -> Result<f64, BadInput> {
///     Ok(PullDown { pull_from, pullers: 1, ..PullDown::default() }.answer()?.findings[3].adverse())
/// };
/// assert_eq!((gives(PullFrom::Standing)?, gives(PullFrom::Swimming)?), (100.0, 50.0));
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum PullFrom {
    /// On their feet, on dry ground that gives a hold.
    #[default]
    Standing,
    /// In the water, without ground under their feet.
    Swimming,
}
choices!(PullFrom {
    Standing = "standing", "standing dry, with a foothold";
    Swimming = "swimming", "swimming";
});

impl PullFrom {
    /// What one person pulls for as long as it takes, N, and how it is known.
    /// ```
    /// use rigging_core::question::PullFrom;
    ///
    /// // Whoever swims pulls at most what is the least of one who stands.
    /// assert_eq!(PullFrom::Swimming.of_one().0.high(), PullFrom::Standing.of_one().0.low());
    /// ```
    pub fn of_one(self) -> (Band, Source) {
        match self {
            PullFrom::Standing => (Band::of(100.0, 200.0, 300.0), SUSTAINED),
            PullFrom::Swimming => {
                (Band::of(50.0, 75.0, 100.0), Source::assumed("no test of a swimmer's pull is known"))
            }
        }
    }

    /// What so many pull together, N.
    ///
    /// # Errors
    /// As [`pullers::loss`].
    /// ```
    /// use rigging_core::question::PullFrom;
    ///
    /// // Two lose 9 % of what they pull alone (tug-of-war study, 2022).
    /// let one = PullFrom::Standing.of_one().0;
    /// let two = PullFrom::Standing.of_all(2)?;
    /// assert!((two.high() - 2.0 * 0.91 * one.high()).abs() < 1e-9);
    /// # Ok::<(), rigging_core::law::OutOfDomain>(())
    /// ```
    pub fn of_all(self, count: u32) -> Result<Band, OutOfDomain> {
        let share = f64::from(count) * (1.0 - pullers::loss(count)?.value);
        Ok(self.of_one().0.map(|one| share * one))
    }
}

/// How the pull of one who stands is known.
pub const SUSTAINED: Source =
    Source::assumed("sustained; below published two-handed pulls of 400 N (men) and 244 N (women), standing");

/// Where the loss of pulling together was read.
pub const TOGETHER: Source =
    Source::published("tug-of-war study 2022: 9 % lost by two, 20 % by eight; between them in a straight line");

/// What one person pulls once, hard, when a rope is stuck, N (assumed).
pub const HARD: f64 = 500.0;
