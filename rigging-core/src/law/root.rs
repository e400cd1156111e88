//! The zero of a function of one number, between two places where its signs differ.

/// Where `function` is zero between `low` and `high`, to the last few digits.
///
/// Inverse quadratic interpolation where the points allow it, halving where they do not: it never takes
/// more than a few times the steps of halving, and mostly about ten. An end where the function is zero
/// is the answer; if both ends have the same sign it is the end nearer to zero.
///
/// # Errors
/// The first error of the function.
/// # References
/// Chandrupatla, *A new hybrid quadratic/bisection algorithm for finding the zero of a nonlinear function
/// without using derivatives*, Advances in Engineering Software 28 (1997) 145–149 (from memory).
pub(super) fn between<E>(low: f64, high: f64, function: &dyn Fn(f64) -> Result<f64, E>) -> Result<f64, E> {
    let (mut a, mut b) = (high, low);
    let (mut at_a, mut at_b) = (function(a)?, function(b)?);
    let mut share: f64 = 0.5;
    for _ in 0..200 {
        let near = if at_a.abs() < at_b.abs() { a } else { b };
        let digits = 2.0 * f64::EPSILON * near.abs() + f64::MIN_POSITIVE;
        let least = digits / (b - a).abs();
        if at_a == 0.0 || at_b == 0.0 || least > 0.5 || at_a.is_sign_positive() == at_b.is_sign_positive() {
            return Ok(near);
        }
        let at = a + share.max(least).min(1.0 - least) * (b - a);
        let value = function(at)?;
        // (a, b) stays a pair of different signs; c is the point before.
        let (c, at_c) = if value.is_sign_positive() == at_a.is_sign_positive() {
            (a, at_a)
        } else {
            let before = (b, at_b);
            (b, at_b) = (a, at_a);
            before
        };
        (a, at_a) = (at, value);
        let (x, y) = ((a - b) / (c - b), (at_a - at_b) / (at_c - at_b));
        let fits = 1.0 - (1.0 - x).sqrt() < y && y < x.sqrt();
        share = if fits {
            at_a / (at_b - at_a) * at_c / (at_b - at_c)
                + (c - a) / (b - a) * at_a / (at_c - at_a) * at_b / (at_c - at_b)
        } else {
            0.5
        };
    }
    Ok(if at_a.abs() < at_b.abs() { a } else { b })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    fn root(low: f64, high: f64, function: impl Fn(f64) -> f64) -> (f64, u32) {
        let calls = Cell::new(0);
        let found = between::<()>(low, high, &|x| {
            calls.set(calls.get() + 1);
            Ok(function(x))
        });
        (found.unwrap(), calls.get())
    }

    #[test]
    fn an_end_where_it_is_zero_is_the_answer_at_once() {
        assert_eq!(root(0.0, 1.0, |x| x - 1.0), (1.0, 2));
        assert_eq!(root(0.0, 1.0, |x| -x), (0.0, 2));
    }

    #[test]
    fn known_zeros_are_found_to_the_last_digits_in_few_steps() {
        for (low, high, function, zero) in [
            (0.0, 2.0, (|x| x * x - 2.0) as fn(f64) -> f64, std::f64::consts::SQRT_2),
            (0.0, 3.0, |x| x.cos(), std::f64::consts::FRAC_PI_2),
            (0.0, 10.0, |x| x.exp() - 1000.0, 1000_f64.ln()),
            (0.0, 100.0, |x| (x - 1.0).max(0.0).powi(2) - 1e-6, 1.001),
        ] {
            let (found, calls) = root(low, high, function);
            assert!((found - zero).abs() < 1e-13 * zero.max(1.0) * 10.0, "{found} {zero}");
            assert!(calls < 30, "{calls} calls for {zero}");
        }
    }

    #[test]
    fn a_step_is_found_by_halving() {
        let (found, calls) = root(0.0, 1.0, |x| if x < 0.3 { -1.0 } else { 1.0 });
        assert!((found - 0.3).abs() < 1e-15 && calls < 120, "{found} {calls}");
    }

    #[test]
    fn an_end_that_is_zero_is_the_answer() {
        assert_eq!(root(0.0, 1.0, |x| x).0, 0.0);
        assert_eq!(root(-1.0, 0.0, |x| x).0, 0.0);
    }
}
