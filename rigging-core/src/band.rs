//! A value known only within a range, and how ranges pass through a calculation.

mod sweep;

pub use sweep::{INSIDE, Spread, sweep, sweep_corners};

use crate::quantity::{Kind, Toward, Units};

/// A value known only within a range: low ≤ typical ≤ high, but for what is no number ([`Band::of`]).
///
/// A measured or chosen number without doubt is a band of no width ([`Band::exact`]).
/// ```
/// use rigging_core::band::Band;
///
/// let body = Band::of(92.0, 58.0, 75.0);
/// assert_eq!((body.low(), body.typical(), body.high()), (58.0, 75.0, 92.0));
/// // A falling change swaps the ends.
/// assert_eq!(body.map(|kg| 100.0 - kg), Band::of(8.0, 25.0, 42.0));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band<T = f64> {
    low: T,
    typical: T,
    high: T,
}

impl<T: Copy + PartialOrd> Band<T> {
    /// The band of three values in whatever order: the smallest becomes low, the largest high, and the one between them
    /// typical, whichever of the three it was given as.
    ///
    /// What cannot be compared is not sorted: with a NaN among them the three need not be in order, and the NaN may be
    /// any of them. Nothing here refuses it; questions refuse it at their fields, laws at their domains.
    /// ```
    /// use rigging_core::band::Band;
    ///
    /// // The same three values in any order are the same band.
    /// assert_eq!(Band::of(90.0, 60.0, 75.0), Band::of(60.0, 75.0, 90.0));
    /// assert_eq!(Band::of(75.0, 90.0, 60.0).low(), 60.0);
    /// // A typical value outside of its own ends becomes one of them.
    /// assert_eq!(Band::of(60.0, 99.0, 90.0).typical(), 90.0);
    /// // No number stays among them, and the others out of order.
    /// let unsorted = Band::of(90.0, f64::NAN, 60.0);
    /// assert!(unsorted.typical().is_nan() && unsorted.low() > unsorted.high());
    /// ```
    pub fn of(a: T, b: T, c: T) -> Self {
        let (a, b) = if b < a { (b, a) } else { (a, b) };
        let (b, c) = if c < b { (c, b) } else { (b, c) };
        let (a, b) = if b < a { (b, a) } else { (a, b) };
        Band { low: a, typical: b, high: c }
    }

    /// A value without doubt.
    /// ```
    /// use rigging_core::band::Band;
    ///
    /// let measured = Band::exact(12.0);
    /// assert_eq!((measured.low(), measured.typical(), measured.high()), (12.0, 12.0, 12.0));
    /// assert!(measured.is_exact() && !Band::of(11.0, 12.0, 12.0).is_exact());
    /// ```
    pub fn exact(value: T) -> Self {
        Band { low: value, typical: value, high: value }
    }

    /// The least the value may be.
    /// ```
    /// use rigging_core::band::Band;
    ///
    /// // Rope that is said to be 55 m: what must reach the ground is reckoned with the least it may be.
    /// assert_eq!(Band::of(60.0, 48.0, 55.0).low(), 48.0);
    /// ```
    pub fn low(&self) -> T {
        self.low
    }

    /// The value most often met; where nothing says which that is, the end that hurts.
    /// ```
    /// use rigging_core::band::Band;
    ///
    /// // The value between the other two, not the middle of the range.
    /// assert_eq!(Band::of(60.0, 48.0, 55.0).typical(), 55.0);
    /// ```
    pub fn typical(&self) -> T {
        self.typical
    }

    /// The most the value may be.
    /// ```
    /// use rigging_core::band::Band;
    ///
    /// // The most of what remains comes from the least that is taken away. By hand: 60 − 48 = 12.
    /// assert_eq!(Band::of(60.0, 48.0, 55.0).map(|used| 60.0 - used).high(), 12.0);
    /// ```
    pub fn high(&self) -> T {
        self.high
    }

    /// True if the band has no width.
    /// ```
    /// use rigging_core::band::Band;
    ///
    /// // Doubt to one side is enough for a width; what wipes out every difference leaves none.
    /// let doubtful = Band::of(12.0, 12.0, 12.5);
    /// assert!(!doubtful.is_exact());
    /// assert!(doubtful.map(|_| 3.0).is_exact());
    /// ```
    pub fn is_exact(&self) -> bool {
        self.low == self.high
    }

    /// The band after a **monotone** change of each of its values; the ends swap if it falls. Sorted as by [`Band::of`].
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::law::gravity;
    /// use rigging_core::quantity::{Mass, kilogram};
    ///
    /// // From masses to weights, by hand: 60 · 9.80665 = 588.399 and 100 · 9.80665 = 980.665.
    /// let weights = Band::of(60.0, 80.0, 100.0).map(|kg| gravity::weight(Mass::new::<kilogram>(kg)));
    /// assert!((weights.low().value - 588.399).abs() < 1e-9 && (weights.high().value - 980.665).abs() < 1e-9);
    /// ```
    pub fn map<U: Copy + PartialOrd>(self, change: impl Fn(T) -> U) -> Band<U> {
        Band::of(change(self.low), change(self.typical), change(self.high))
    }
}

impl Band {
    /// One of the places that part it evenly: 0 its low end, `of` its high one.
    pub(crate) fn across(self, number: u32, of: u32) -> f64 {
        self.low + (self.high - self.low) * f64::from(number) / f64::from(of.max(1))
    }
}

impl Units {
    /// A range, its ends rounded outward; one value without a width is rounded as told, a load up and a strength down.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::quantity::{Kind, Toward, Units};
    ///
    /// // The low end is rounded down and the high end up.
    /// let told = |band, exact| Units::default().range(&band, Kind::Force, exact);
    /// assert_eq!(told(Band::of(2370.0, 2500.0, 2910.0), Toward::More), "2.3\u{a0}kN to 3.0\u{a0}kN");
    /// assert_eq!(told(Band::exact(2512.0), Toward::More), "2.6\u{a0}kN");
    /// assert_eq!(told(Band::exact(2512.0), Toward::Less), "2.5\u{a0}kN");
    /// // Outward below zero too.
    /// assert_eq!(told(Band::of(-2370.0, -2000.0, -1110.0), Toward::More), "−2.4\u{a0}kN to −1.1\u{a0}kN");
    /// ```
    pub fn range(self, band: &Band, kind: Kind, exact: Toward) -> String {
        self.range_in(band, kind, 2, exact)
    }

    /// The same in some significant figures.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::quantity::{Kind, Toward, Units};
    ///
    /// let told = |digits| Units::default().range_in(&Band::of(2371.0, 2500.0, 2914.0), Kind::Force, digits, Toward::More);
    /// assert_eq!([2, 3].map(told), ["2.3\u{a0}kN to 3.0\u{a0}kN", "2.37\u{a0}kN to 2.92\u{a0}kN"]);
    /// ```
    pub fn range_in(self, band: &Band, kind: Kind, digits: i32, exact: Toward) -> String {
        let told = |value, toward| self.with_figures(value, kind, digits, toward);
        if band.is_exact() {
            return told(band.typical(), exact);
        }
        [told(band.low(), Toward::Less), " to ".to_owned(), told(band.high(), Toward::More)].concat()
    }

    /// A range of what is measured, as [`Units::measured`] tells it, its ends rounded outward; one value if both ends
    /// read the same.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::quantity::{Kind, Units};
    ///
    /// let told = |low, high| Units::default().measured_range(&Band::of(low, low, high), Kind::Length);
    /// assert_eq!(told(59.97, 60.03), "59.9\u{a0}m to 60.1\u{a0}m");
    /// assert_eq!(told(60.0, 60.0), "60\u{a0}m");
    /// ```
    pub fn measured_range(self, band: &Band, kind: Kind) -> String {
        let high = self.measured(band.high(), kind, Toward::More);
        let low = self.measured(band.low(), kind, Toward::Less);
        if band.is_exact() || low == high { high } else { [low, " to ".to_owned(), high].concat() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_band_sorts_its_ends() {
        let band = Band::of(3.0, 1.0, 2.0);
        assert_eq!((band.low(), band.typical(), band.high()), (1.0, 2.0, 3.0));
        assert_eq!(Band::of(1.0, 2.0, 3.0).map(|x| -x), Band::of(-3.0, -2.0, -1.0));
    }

    #[test]
    fn places_across_a_band_lie_evenly_from_end_to_end() {
        let band = Band::of(2.0, 3.0, 10.0);
        assert_eq!([0, 1, 2, 3, 4].map(|number| band.across(number, 4)), [2.0, 4.0, 6.0, 8.0, 10.0]);
        assert_eq!(band.across(0, 0), 2.0);
    }
}
