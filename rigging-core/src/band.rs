//! A value known only within a range, and how ranges pass through a calculation.

/// A value known only within a range: low ≤ typical ≤ high.
///
/// A measured or chosen number without doubt is a band of no width ([`Band::exact`]).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band<T = f64> {
    low: T,
    typical: T,
    high: T,
}

impl<T: Copy + PartialOrd> Band<T> {
    /// The band of three values in whatever order: the smallest becomes low, the largest high.
    pub fn of(a: T, b: T, c: T) -> Self {
        let (a, b) = if b < a { (b, a) } else { (a, b) };
        let (b, c) = if c < b { (c, b) } else { (b, c) };
        let (a, b) = if b < a { (b, a) } else { (a, b) };
        Band { low: a, typical: b, high: c }
    }

    /// A value without doubt.
    pub fn exact(value: T) -> Self {
        Band { low: value, typical: value, high: value }
    }

    /// The least the value may be.
    pub fn low(&self) -> T {
        self.low
    }

    /// The value most often met.
    pub fn typical(&self) -> T {
        self.typical
    }

    /// The most the value may be.
    pub fn high(&self) -> T {
        self.high
    }

    /// True if the band has no width.
    pub fn is_exact(&self) -> bool {
        self.low == self.high
    }

    /// The band after a **monotone** change of each of its values; the ends swap if it falls.
    pub fn map<U: Copy + PartialOrd>(self, change: impl Fn(T) -> U) -> Band<U> {
        Band::of(change(self.low), change(self.typical), change(self.high))
    }
}

/// What a calculation gives when its inputs are bands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread<const N: usize> {
    /// The result: typical at the typical inputs, low and high the extremes found.
    pub band: Band,
    /// How far each input alone moves the result, the others typical (same unit as the result).
    pub moves: [f64; N],
    /// The inputs at which the result was lowest.
    pub at_low: [f64; N],
    /// The inputs at which the result was highest.
    pub at_high: [f64; N],
}

impl<const N: usize> Spread<N> {
    /// The input that moves the result most, or none if nothing moves it.
    pub fn moved_most_by(&self) -> Option<usize> {
        let mut most = None;
        let mut reach = 0.0;
        for (input, &moves) in self.moves.iter().enumerate() {
            if moves > reach {
                most = Some(input);
                reach = moves;
            }
        }
        most
    }
}

/// How many points inside the box are looked at besides its corners, so that a peak between the
/// corners is not missed.
pub const INSIDE: usize = 32;

/// Runs a calculation of `K` results over the box that `N` bands span.
///
/// Looked at are: the typical point; each uncertain input alone at its low, typical and high value
/// and three places between; every corner of the uncertain inputs; and [`INSIDE`] points of a Halton
/// sequence, the same on every run. Inputs without width cost nothing.
///
/// # Errors
/// The first error of the calculation: a band is given only if every point of the box has a result.
/// # References
/// Halton, *On the efficiency of certain quasi-random sequences of points*, Numerische Mathematik 2
/// (1960) 84–90 (from memory).
pub fn sweep<const N: usize, const K: usize, E>(
    inputs: [Band; N],
    mut calculation: impl FnMut(&[f64; N]) -> Result<[f64; K], E>,
) -> Result<[Spread<N>; K], E> {
    sweep_any(inputs, INSIDE, &mut calculation)
}

/// As [`sweep`], but without points inside the box: for a calculation that only rises or only falls with each input.
///
/// # Errors
/// As [`sweep`].
pub fn sweep_corners<const N: usize, const K: usize, E>(
    inputs: [Band; N],
    mut calculation: impl FnMut(&[f64; N]) -> Result<[f64; K], E>,
) -> Result<[Spread<N>; K], E> {
    sweep_any(inputs, 0, &mut calculation)
}

/// From values of the inputs to results.
type Calculation<'a, const N: usize, const K: usize, E> = dyn FnMut(&[f64; N]) -> Result<[f64; K], E> + 'a;

/// One copy for every calculation of the same size: the sweep is the same, and a copy of it is large.
fn sweep_any<const N: usize, const K: usize, E>(
    inputs: [Band; N],
    inside: usize,
    calculation: &mut Calculation<N, K, E>,
) -> Result<[Spread<N>; K], E> {
    let typical = inputs.map(|input| input.typical);
    let first = calculation(&typical)?;
    let mut spreads =
        first.map(|result| Spread { band: Band::exact(result), moves: [0.0; N], at_low: typical, at_high: typical });

    for (place, input) in inputs.iter().enumerate().filter(|(_, input)| !input.is_exact()) {
        let mut reach = first.map(|result| (result, result));
        for value in along(input) {
            let mut point = typical;
            put(&mut point, place, value);
            let results = calculation(&point)?;
            for ((spread, reach), &result) in spreads.iter_mut().zip(&mut reach).zip(&results) {
                spread.take_in(result, &point);
                *reach = (reach.0.min(result), reach.1.max(result));
            }
        }
        for (spread, (least, most)) in spreads.iter_mut().zip(reach) {
            put(&mut spread.moves, place, most - least);
        }
    }

    let uncertain = inputs.iter().filter(|input| !input.is_exact()).count();
    if uncertain > 1 {
        for corner in 0..(1_usize << uncertain.min(16)) {
            let mut bit = 0;
            let point = inputs.map(|input| {
                if input.is_exact() {
                    return input.typical;
                }
                let high = corner >> bit & 1 == 1;
                bit += 1;
                if high { input.high } else { input.low }
            });
            look(&point, calculation, &mut spreads)?;
        }
        for number in 1..=inside {
            let mut bases = PRIMES.iter().copied();
            let point = inputs.map(|input| {
                if input.is_exact() {
                    return input.typical;
                }
                let share = radical_inverse(number, bases.next().unwrap_or(2));
                input.low + share * (input.high - input.low)
            });
            look(&point, calculation, &mut spreads)?;
        }
    }
    Ok(spreads)
}

const PRIMES: [usize; 16] = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53];

fn along(input: &Band) -> [f64; 6] {
    let at = |share: f64| input.low + share * (input.high - input.low);
    [input.low, at(0.25), at(0.5), at(0.75), input.typical, input.high]
}

fn put<const N: usize>(point: &mut [f64; N], place: usize, value: f64) {
    if let Some(slot) = point.get_mut(place) {
        *slot = value;
    }
}

fn look<const N: usize, const K: usize, E>(
    point: &[f64; N],
    calculation: &mut Calculation<N, K, E>,
    spreads: &mut [Spread<N>; K],
) -> Result<(), E> {
    let results = calculation(point)?;
    for (spread, &result) in spreads.iter_mut().zip(&results) {
        spread.take_in(result, point);
    }
    Ok(())
}

fn radical_inverse(mut number: usize, base: usize) -> f64 {
    let (mut inverse, mut digit) = (0.0, 1.0 / base as f64);
    while number > 0 {
        inverse += (number % base) as f64 * digit;
        number /= base;
        digit /= base as f64;
    }
    inverse
}

impl<const N: usize> Spread<N> {
    /// Takes in the extremes of the same calculation looked at elsewhere; typical and moves stay.
    pub fn take_wider(&mut self, other: &Self) {
        self.take_in(other.band.low, &other.at_low);
        self.take_in(other.band.high, &other.at_high);
    }

    /// Takes in a result and the inputs it was found at; typical and moves stay.
    pub fn take_in(&mut self, result: f64, point: &[f64; N]) {
        if result < self.band.low {
            self.band.low = result;
            self.at_low = *point;
        }
        if result > self.band.high {
            self.band.high = result;
            self.at_high = *point;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fine(value: f64) -> Result<[f64; 1], ()> {
        Ok([value])
    }

    #[test]
    fn a_band_sorts_its_ends() {
        let band = Band::of(3.0, 1.0, 2.0);
        assert_eq!((band.low(), band.typical(), band.high()), (1.0, 2.0, 3.0));
        assert_eq!(Band::of(1.0, 2.0, 3.0).map(|x| -x), Band::of(-3.0, -2.0, -1.0));
    }

    #[test]
    fn corners_bound_a_monotone_product() {
        let [spread] = sweep([Band::of(1.0, 2.0, 3.0), Band::of(10.0, 20.0, 40.0)], |[a, b]| fine(a * b)).unwrap();
        assert_eq!(spread.band, Band::of(10.0, 40.0, 120.0));
        assert_eq!((spread.at_low, spread.at_high), ([1.0, 10.0], [3.0, 40.0]));
    }

    #[test]
    fn a_peak_between_the_corners_is_found() {
        let hill = |[a, b]: &[f64; 2]| fine(1.0 - (a - 0.5).powi(2) - (b - 0.5).powi(2));
        let [spread] = sweep([Band::of(0.0, 0.1, 1.0), Band::of(0.0, 0.1, 1.0)], hill).unwrap();
        assert!(spread.band.high() > 0.98, "{:?}", spread.band);
    }

    #[test]
    fn the_input_that_moves_most_is_named() {
        let [spread] =
            sweep([Band::of(1.0, 2.0, 3.0), Band::of(1.0, 5.0, 9.0), Band::exact(4.0)], |[a, b, c]| fine(a + b + c))
                .unwrap();
        assert_eq!(spread.moves, [2.0, 8.0, 0.0]);
        assert_eq!(spread.moved_most_by(), Some(1));
        let [still] = sweep([Band::exact(1.0)], |[a]| fine(*a)).unwrap();
        assert_eq!(still.moved_most_by(), None);
    }

    #[test]
    fn one_point_without_a_result_means_no_band() {
        let broken = sweep([Band::of(0.0, 1.0, 2.0)], |[a]| if *a > 1.5 { Err("beyond") } else { Ok([*a]) });
        assert_eq!(broken.unwrap_err(), "beyond");
    }
}
