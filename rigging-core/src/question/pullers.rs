//! People who pull on a rope by hand, and what they pull together.

use super::field::choices;
use crate::band::Band;
use crate::law::{OutOfDomain, pullers};
use crate::working::Source;

/// Where those who pull are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
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
