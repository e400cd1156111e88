//! How ranges pass through a calculation.

use super::Band;

/// What a calculation gives when its inputs are bands.
/// ```
/// use rigging_core::band::{Band, sweep};
///
/// // A sum of 1 to 3, 1 to 9 and 4, by hand: 6 to 16.
/// let [sum] = sweep([Band::of(1.0, 2.0, 3.0), Band::of(1.0, 5.0, 9.0), Band::exact(4.0)], |[a, b, c]| {
///     Ok::<_, ()>([a + b + c])
/// })?;
/// assert_eq!(sum.band, Band::of(6.0, 11.0, 16.0));
/// assert_eq!((sum.at_low, sum.at_high), ([1.0, 1.0, 4.0], [3.0, 9.0, 4.0]));
/// // Each input alone moves it by its own width.
/// assert_eq!(sum.moves, [2.0, 8.0, 0.0]);
/// # Ok::<(), ()>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
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

impl Band {
    /// Takes in a result; whether it is the new low end, and the new high end. One place without a number leaves no range:
    /// nothing is compared with it.
    fn widen(&mut self, result: f64) -> (bool, bool) {
        let (lower, higher) = (result < self.low, result > self.high);
        if result.is_nan() {
            *self = Band::exact(result);
        } else if lower {
            self.low = result;
        } else if higher {
            self.high = result;
        }
        (lower, higher)
    }
}

impl<const N: usize> Spread<N> {
    /// The input that moves the result most, or none if nothing moves it.
    /// ```
    /// use rigging_core::band::{Band, sweep};
    ///
    /// // The second is the less certain one; where all is certain nothing moves the result.
    /// let moved_by = |inputs| sweep(inputs, |[a, b]| Ok::<_, ()>([a + b])).map(|[sum]| sum.moved_most_by());
    /// assert_eq!(moved_by([Band::of(1.0, 2.0, 3.0), Band::of(1.0, 5.0, 9.0)])?, Some(1));
    /// assert_eq!(moved_by([Band::exact(2.0), Band::exact(5.0)])?, None);
    /// # Ok::<(), ()>(())
    /// ```
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
/// ```
/// use rigging_core::band::{Band, INSIDE, sweep, sweep_corners};
///
/// // A hill 1 high between the corners: along each side alone, by hand, 1 − 0.4² = 0.84 is found.
/// let sides = [Band::of(0.0, 0.1, 1.0); 2];
/// let mut looked = 0;
/// let [inside] = sweep(sides, |[a, b]| {
///     looked += 1;
///     Ok::<_, ()>([1.0 - (a - 0.5).powi(2) - (b - 0.5).powi(2)])
/// })?;
/// let [without] = sweep_corners(sides, |[a, b]| Ok::<_, ()>([1.0 - (a - 0.5).powi(2) - (b - 0.5).powi(2)]))?;
/// assert!(inside.band.high() > 0.98 && (without.band.high() - 0.84).abs() < 1e-12);
/// // The typical point, 6 places along each side, 4 corners, and those inside.
/// assert_eq!(looked, 1 + 2 * 6 + 4 + INSIDE);
/// # Ok::<(), ()>(())
/// ```
pub const INSIDE: usize = 32;

/// Runs a calculation of `K` results over the box that `N` bands span.
///
/// Looked at are: the typical point; each uncertain input alone at its low, typical and high value
/// and three places between; every corner of the uncertain inputs; and [`INSIDE`] points of a Halton
/// sequence, the same on every run. Inputs without width cost nothing.
///
/// ```
/// use rigging_core::band::{Band, sweep};
///
/// // An area of 2 to 3 m by 4 to 5 m, by hand: 8 to 15 m².
/// let [area] = sweep([Band::of(2.0, 2.5, 3.0), Band::of(4.0, 4.5, 5.0)], |[a, b]| Ok::<_, ()>([a * b]))?;
/// assert_eq!(area.band, Band::of(8.0, 11.25, 15.0));
/// assert_eq!(area.at_high, [3.0, 5.0]);
/// assert_eq!(area.moved_most_by(), Some(0));
///
/// // Sixteen inputs are the most: their corners are 65 536.
/// let [sum] = sweep([Band::exact(1.0); 16], |all| Ok::<_, ()>([all.iter().sum()]))?;
/// assert_eq!(sum.band, Band::exact(16.0));
/// # Ok::<(), ()>(())
/// ```
/// One more does not compile:
/// ```compile_fail,E0080
/// # use rigging_core::band::{Band, sweep};
/// let [sum] = sweep([Band::exact(1.0); 17], |all| Ok::<_, ()>([all.iter().sum()]))?;
/// # Ok::<(), ()>(())
/// ```
/// # Errors
/// The first error of the calculation: a band is given only if every point of the box has a result. A result that is
/// not a number at one of them makes a band that is none.
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
/// ```
/// use rigging_core::band::{Band, sweep_corners};
///
/// // An area of 2 to 3 m by 4 to 5 m. By hand: the typical point, 6 places along each side, 4 corners.
/// let mut looked = 0;
/// let [area] = sweep_corners([Band::of(2.0, 2.5, 3.0), Band::of(4.0, 4.5, 5.0)], |[a, b]| {
///     looked += 1;
///     Ok::<_, ()>([a * b])
/// })?;
/// assert_eq!((area.band, looked), (Band::of(8.0, 11.25, 15.0), 1 + 2 * 6 + 4));
/// # Ok::<(), ()>(())
/// ```
pub fn sweep_corners<const N: usize, const K: usize, E>(
    inputs: [Band; N],
    mut calculation: impl FnMut(&[f64; N]) -> Result<[f64; K], E>,
) -> Result<[Spread<N>; K], E> {
    sweep_any(inputs, 0, &mut calculation)
}

/// From values of the inputs to results, with the number of both in its type.
type Sized<'a, const N: usize, const K: usize, E> = dyn FnMut(&[f64; N]) -> Result<[f64; K], E> + 'a;

/// Turns a calculation with arrays into one without, so that the sweep itself is there once: a copy for every size is
/// a large part of a small module.
fn sweep_any<const N: usize, const K: usize, E>(
    inputs: [Band; N],
    inside: usize,
    calculation: &mut Sized<N, K, E>,
) -> Result<[Spread<N>; K], E> {
    const { assert!(N <= PRIMES.len(), "a sweep takes at most 16 inputs") };
    let typical = inputs.map(|input| input.typical);
    let first = calculation(&typical)?;
    let mut found = Found {
        results: first.to_vec(),
        spreads: first.iter().map(|&result| Loose::at(result, &typical)).collect(),
        inputs: inputs.to_vec(),
    };
    let mut failed = None;
    let mut point = typical;
    found.look_around(inside, &mut |at, results| {
        point.copy_from_slice(at);
        match calculation(&point) {
            Ok(values) => results.copy_from_slice(&values),
            Err(error) => failed = Some(error),
        }
        failed.is_none()
    });
    if let Some(error) = failed {
        return Err(error);
    }
    let mut spreads =
        first.map(|result| Spread { band: Band::exact(result), moves: [0.0; N], at_low: typical, at_high: typical });
    for (spread, loose) in spreads.iter_mut().zip(&found.spreads) {
        spread.band = loose.band;
        spread.moves.copy_from_slice(&loose.moves);
        spread.at_low.copy_from_slice(&loose.at_low);
        spread.at_high.copy_from_slice(&loose.at_high);
    }
    Ok(spreads)
}

/// From values of the inputs to results; false if there are none, and the sweep ends.
type Calculation<'a> = dyn FnMut(&[f64], &mut [f64]) -> bool + 'a;

/// A [`Spread`] whose number of inputs is not in its type.
struct Loose {
    band: Band,
    moves: Vec<f64>,
    at_low: Vec<f64>,
    at_high: Vec<f64>,
}

impl Loose {
    fn at(result: f64, typical: &[f64]) -> Self {
        let at = || typical.to_vec();
        Loose { band: Band::exact(result), moves: vec![0.0; typical.len()], at_low: at(), at_high: at() }
    }
}

/// What a sweep has found so far.
struct Found {
    inputs: Vec<Band>,
    results: Vec<f64>,
    spreads: Vec<Loose>,
}

impl Found {
    fn look(&mut self, point: &[f64], calculation: &mut Calculation) -> bool {
        if !calculation(point, &mut self.results) {
            return false;
        }
        for (spread, &result) in self.spreads.iter_mut().zip(&self.results) {
            let (lower, higher) = spread.band.widen(result);
            if lower {
                spread.at_low.copy_from_slice(point);
            }
            if higher {
                spread.at_high.copy_from_slice(point);
            }
        }
        true
    }

    /// Looks along each input, at the corners and inside; false as soon as a point has no result.
    fn look_around(&mut self, inside: usize, calculation: &mut Calculation) -> bool {
        let inputs = self.inputs.clone();
        let typical: Vec<f64> = inputs.iter().map(|input| input.typical).collect();
        let first = self.results.clone();
        for (place, input) in inputs.iter().enumerate().filter(|(_, input)| !input.is_exact()) {
            let mut reach: Vec<(f64, f64)> = first.iter().map(|&result| (result, result)).collect();
            for value in along(input) {
                let mut point = typical.clone();
                put(&mut point, place, value);
                if !self.look(&point, calculation) {
                    return false;
                }
                for (reach, &result) in reach.iter_mut().zip(&self.results) {
                    *reach = (reach.0.min(result), reach.1.max(result));
                }
            }
            for (spread, (least, most)) in self.spreads.iter_mut().zip(reach) {
                put(&mut spread.moves, place, most - least);
            }
        }

        let uncertain = inputs.iter().filter(|input| !input.is_exact()).count();
        if uncertain == 0 {
            return true;
        }
        let corners = 1_usize << uncertain;
        let mut point = typical;
        for number in 0..corners + inside {
            let mut bit = 0;
            let mut bases = PRIMES.iter().copied();
            for (value, input) in point.iter_mut().zip(&inputs) {
                if input.is_exact() {
                    continue;
                }
                let base = bases.next().unwrap_or(2);
                let share = if number < corners {
                    (number >> bit & 1) as f64
                } else {
                    radical_inverse(number - corners + 1, base)
                };
                bit += 1;
                // An end is itself, not what is left of it after a difference was added.
                *value = if share == 1.0 { input.high } else { within(input, share) };
            }
            if !self.look(&point, calculation) {
                return false;
            }
        }
        true
    }
}

const PRIMES: [usize; 16] = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53];

/// So far from the low to the high end. By halves, which changes no digit: their difference is no more than a float holds.
fn within(input: &Band, share: f64) -> f64 {
    2.0 * (0.5 * input.low + share * (0.5 * input.high - 0.5 * input.low))
}

fn along(input: &Band) -> [f64; 6] {
    let at = |share: f64| within(input, share);
    [input.low, at(0.25), at(0.5), at(0.75), input.typical, input.high]
}

fn put(point: &mut [f64], place: usize, value: f64) {
    if let Some(slot) = point.get_mut(place) {
        *slot = value;
    }
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
    /// ```
    /// use rigging_core::band::{Band, sweep};
    ///
    /// let of = |side| sweep([side], |[a]| Ok::<_, ()>([a * a])).map(|[square]| square);
    /// let mut square = of(Band::of(2.0, 3.0, 4.0))?;
    /// square.take_wider(&of(Band::of(1.0, 3.0, 3.5))?);
    /// // The low end is the other's and the high end its own: 1² and 4².
    /// assert_eq!(square.band, Band::of(1.0, 9.0, 16.0));
    /// assert_eq!((square.at_low, square.at_high), ([1.0], [4.0]));
    /// # Ok::<(), ()>(())
    /// ```
    pub fn take_wider(&mut self, other: &Self) {
        self.take_in(other.band.low, &other.at_low);
        self.take_in(other.band.high, &other.at_high);
    }

    /// Takes in a result and the inputs it was found at; typical and moves stay.
    /// ```
    /// use rigging_core::band::{Band, sweep};
    ///
    /// let [mut square] = sweep([Band::of(2.0, 3.0, 4.0)], |[a]| Ok::<_, ()>([a * a]))?;
    /// // 5² lies beyond what was found, 3.5² within.
    /// square.take_in(25.0, &[5.0]);
    /// square.take_in(12.25, &[3.5]);
    /// assert_eq!((square.band, square.at_high), (Band::of(4.0, 9.0, 25.0), [5.0]));
    /// # Ok::<(), ()>(())
    /// ```
    pub fn take_in(&mut self, result: f64, point: &[f64; N]) {
        let (lower, higher) = self.band.widen(result);
        if lower {
            self.at_low = *point;
        }
        if higher {
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
    fn what_is_taken_in_widens_the_end_that_it_lies_beyond() {
        let [mut spread] = sweep([Band::of(1.0, 2.0, 3.0)], |[a]| fine(*a)).unwrap();
        for (result, point, band, at_low, at_high) in [
            (2.5, [7.0], Band::of(1.0, 2.0, 3.0), [1.0], [3.0]),
            (0.5, [8.0], Band::of(0.5, 2.0, 3.0), [8.0], [3.0]),
            (4.0, [9.0], Band::of(0.5, 2.0, 4.0), [8.0], [9.0]),
        ] {
            spread.take_in(result, &point);
            assert_eq!((spread.band, spread.at_low, spread.at_high), (band, at_low, at_high));
        }
    }

    #[test]
    fn every_point_lies_in_the_box_even_one_as_large_as_floats_are() {
        for end in [1.0, 1e308, f64::MAX] {
            let boxed = [Band::of(-end, 0.0, end), Band::of(-end, -end, 0.5 * end)];
            sweep(boxed, |point| {
                for (value, side) in point.iter().zip(&boxed) {
                    assert!(side.low() <= *value && *value <= side.high(), "{value} in {side:?}");
                }
                fine(0.0)
            })
            .unwrap();
        }
        let band = Band::of(0.1, 0.2, 0.7);
        assert_eq!(along(&band)[1..4], [0.25, 0.5, 0.75].map(|share| 0.1 + share * (0.7 - 0.1)));
    }

    #[test]
    fn one_point_without_a_result_means_no_band() {
        let broken = sweep([Band::of(0.0, 1.0, 2.0)], |[a]| if *a > 1.5 { Err("beyond") } else { Ok([*a]) });
        assert_eq!(broken.unwrap_err(), "beyond");
    }
}
