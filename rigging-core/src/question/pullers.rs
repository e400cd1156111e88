//! People who pull on a rope by hand, and what they pull together.

use super::field::choices;
use crate::band::Band;
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
            PullFrom::Standing => (
                Band::of(100.0, 200.0, 300.0),
                Source::assumed(
                    "sustained; below published two-handed pulls of 400 N (men) and 244 N (women), standing",
                ),
            ),
            PullFrom::Swimming => {
                (Band::of(50.0, 75.0, 100.0), Source::assumed("no test of a swimmer's pull is known"))
            }
        }
    }

    /// What so many pull together, N.
    pub fn of_all(self, count: u32) -> Band {
        self.of_one().0.map(|one| f64::from(count) * (1.0 - lost_together(count)) * one)
    }
}

/// Most people whose pull together was measured.
pub const MOST: u32 = 8;

/// Where the loss of pulling together was read.
pub const TOGETHER: Source =
    Source::published("tug-of-war study 2022: 9 % lost by two, 20 % by eight; between them in a straight line");

/// Share of the sum of their pulls that people lose when they pull together.
pub fn lost_together(count: u32) -> f64 {
    match count {
        0 | 1 => 0.0,
        _ => 0.09 + (0.20 - 0.09) * f64::from(count.min(MOST) - 2) / 6.0,
    }
}

/// What one person pulls once, hard, when a rope is stuck, N (assumed).
pub const HARD: f64 = 500.0;

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn two_lose_nine_percent_and_eight_a_fifth() {
        // Published: the tug-of-war study of 2022.
        let swimmers = |count| PullFrom::Swimming.of_all(count).high();
        assert_eq!(swimmers(1), 100.0);
        assert_relative_eq!(swimmers(2), 182.0, max_relative = 1e-14);
        assert_relative_eq!(swimmers(8), 640.0, max_relative = 1e-14);
    }

    #[test]
    fn one_person_more_always_pulls_more() {
        for count in 1..MOST {
            for from in [PullFrom::Standing, PullFrom::Swimming] {
                let (before, after) = (from.of_all(count), from.of_all(count + 1));
                assert!(before.low() < after.low() && before.high() < after.high(), "{count}");
            }
        }
    }
}
