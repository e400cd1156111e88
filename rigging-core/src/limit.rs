//! A load against a limit: one of four standings.

use crate::band::Band;

/// How a load stands against a limit. Touching is crossing.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::limit::Standing;
///
/// // A limit may be a range too: only what lies beyond its far end is above it.
/// let limit = Band::of(4000.0, 5000.0, 6000.0);
/// let words = |load| Standing::of(Band::exact(load), limit).words();
/// assert_eq!([3999.0, 4000.0, 6000.0, 6001.0].map(words), [
///     "below limit", "range crosses limit", "range crosses limit", "above limit",
/// ]);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// The whole range lies below the limit.
    BelowLimit,
    /// The range and the limit overlap or touch.
    RangeCrosses,
    /// The whole range lies above the limit.
    AboveLimit,
    /// There is nothing to compare with, or no limit holds for the part: the reason.
    NotChecked(&'static str),
}

/// Ends this close touch: they differ only by how they were calculated.
const ROUNDING: f64 = 1e-9;

impl Standing {
    /// How a load in `load` stands against a limit known as `limit` (same unit).
    ///
    /// Never [`Standing::BelowLimit`] for anything that is not a number.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::limit::Standing;
    ///
    /// let limit = Band::exact(5000.0);
    /// assert_eq!(Standing::of(Band::of(2000.0, 3000.0, 4900.0), limit), Standing::BelowLimit);
    /// assert_eq!(Standing::of(Band::of(2000.0, 3000.0, 5000.0), limit), Standing::RangeCrosses);
    /// assert_eq!(Standing::of(Band::of(6000.0, 7000.0, 8000.0), limit), Standing::AboveLimit);
    /// // What is no number has no place in an order either.
    /// for load in [Band::exact(f64::NAN), Band::of(6000.0, f64::NAN, 0.0), Band::of(1000.0, f64::NAN, 2000.0)] {
    ///     assert!(matches!(Standing::of(load, limit), Standing::NotChecked(_)));
    ///     assert!(matches!(Standing::of(limit, load), Standing::NotChecked(_)));
    /// }
    /// ```
    pub fn of(load: Band, limit: Band) -> Self {
        let is_range = |band: Band| {
            let (low, high) = (band.low(), band.high());
            low.is_finite() && high.is_finite() && (low..=high).contains(&band.typical())
        };
        if !is_range(load) || !is_range(limit) {
            Standing::NotChecked("no number to compare")
        } else if load.high() < limit.low() * (1.0 - ROUNDING.copysign(limit.low())) {
            Standing::BelowLimit
        } else if load.low() > limit.high() * (1.0 + ROUNDING.copysign(limit.high())) {
            Standing::AboveLimit
        } else {
            Standing::RangeCrosses
        }
    }

    /// The same standing for a part whose strength nobody knows: it can be said to be too much, but
    /// never to be below a limit.
    /// ```
    /// use rigging_core::limit::Standing;
    ///
    /// let why = "nobody knows its strength";
    /// assert_eq!(Standing::BelowLimit.of_unknown_part(why), Standing::NotChecked(why));
    /// assert_eq!(Standing::AboveLimit.of_unknown_part(why), Standing::AboveLimit);
    /// ```
    pub fn of_unknown_part(self, reason: &'static str) -> Self {
        match self {
            Standing::BelowLimit => Standing::NotChecked(reason),
            other => other,
        }
    }

    /// The words of the standing.
    /// ```
    /// use rigging_core::limit::Standing;
    ///
    /// assert_eq!(Standing::AboveLimit.words(), "above limit");
    /// // The reason stands beside these words, not in them.
    /// assert_eq!(Standing::NotChecked("no number to compare").words(), "not checked");
    /// ```
    pub const fn words(self) -> &'static str {
        match self {
            Standing::BelowLimit => "below limit",
            Standing::RangeCrosses => "range crosses limit",
            Standing::AboveLimit => "above limit",
            Standing::NotChecked(_) => "not checked",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn load(low: f64, high: f64) -> Band {
        Band::of(low, low, high)
    }

    #[test]
    fn a_limit_below_zero_is_touched_too() {
        // A reserve of nothing less than −5.
        assert_eq!(Standing::of(Band::exact(-5.0), Band::exact(-5.0)), Standing::RangeCrosses);
        assert_eq!(Standing::of(Band::exact(-5.1), Band::exact(-5.0)), Standing::BelowLimit);
        assert_eq!(Standing::of(Band::exact(-4.9), Band::exact(-5.0)), Standing::AboveLimit);
    }

    #[test]
    fn what_misses_a_limit_by_no_more_than_the_arithmetic_touches_it() {
        let limit = Band::exact(5000.0);
        for touching in [5000.0 * (1.0 - 1e-9), 5000.0, 5000.0 * (1.0 + 1e-9)] {
            assert_eq!(Standing::of(Band::exact(touching), limit), Standing::RangeCrosses, "{touching}");
        }
        assert_eq!(Standing::of(Band::exact(4999.99), limit), Standing::BelowLimit);
        assert_eq!(Standing::of(Band::exact(5000.01), limit), Standing::AboveLimit);
    }

    #[test]
    fn touching_is_crossing() {
        let limit = Band::exact(5.0);
        assert_eq!(Standing::of(load(1.0, 4.999), limit), Standing::BelowLimit);
        assert_eq!(Standing::of(load(1.0, 5.0), limit), Standing::RangeCrosses);
        assert_eq!(Standing::of(load(5.0, 9.0), limit), Standing::RangeCrosses);
        assert_eq!(Standing::of(load(5.000_000_000_1, 9.0), limit), Standing::RangeCrosses);
        assert_eq!(Standing::of(load(1.0, 4.999_999_999_9), limit), Standing::RangeCrosses);
        assert_eq!(Standing::of(load(5.001, 9.0), limit), Standing::AboveLimit);
        assert_eq!(Standing::of(load(1.0, 4.0), Band::of(3.0, 5.0, 6.0)), Standing::RangeCrosses);
    }

    #[test]
    fn what_is_not_a_number_is_not_checked() {
        for odd in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert_eq!(Standing::of(load(1.0, odd), Band::exact(5.0)).words(), "not checked");
            assert_eq!(Standing::of(load(1.0, 2.0), Band::exact(odd)).words(), "not checked");
        }
    }

    #[test]
    fn an_unknown_part_is_never_below_a_limit() {
        let below = Standing::of(load(1.0, 2.0), Band::exact(5.0));
        assert_eq!(below.of_unknown_part("alder"), Standing::NotChecked("alder"));
        let above = Standing::of(load(6.0, 7.0), Band::exact(5.0));
        assert_eq!(above.of_unknown_part("alder"), Standing::AboveLimit);
    }
}
