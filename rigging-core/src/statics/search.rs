//! How far to go along a direction in which a convex energy falls.
//!
//! Only the slope `p(a) = g(x + a d)·d` is looked at. It grows with `a` because the energy is
//! convex, so its zero can always be bracketed; energies themselves are never compared, because
//! their difference drowns in rounding long before the slope does.

/// What a search came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Search {
    /// The step accepted: the slope there is at most half the first one. It is the last step the
    /// slope was asked at.
    Step(f64),
    /// No step flattens the slope: rounding has the last word.
    Stuck,
}

/// Ratio of the slopes at both ends beyond which the slope is taken to bend.
const LOPSIDED: f64 = 3.0;

/// Finds `a > 0` with `|p(a)| ≤ ½ |p(0)|`, where `first = p(0) < 0`.
pub(super) fn slope_search(first: f64, mut slope_at: impl FnMut(f64) -> f64) -> Search {
    if !(first < 0.0) || !first.is_finite() {
        return Search::Stuck;
    }
    let enough = -0.5 * first;
    let (mut low, mut low_slope) = (0.0, first);
    let mut step = 1.0;
    // Walk out until the slope turns.
    let (mut high, mut high_slope) = loop {
        let slope = slope_at(step);
        if slope.abs() <= enough {
            return Search::Step(step);
        }
        if !(slope < 0.0) {
            break (step, slope);
        }
        low = step;
        low_slope = slope;
        step *= 4.0;
        if step > 1e12 {
            return Search::Stuck;
        }
    };
    // False position with the Illinois rule, and halving when it is slow.
    let mut last_side = 0;
    for round in 0..120 {
        if high - low < 1e-12 * high {
            break;
        }
        let mut step = 0.5 * (low + high);
        if high_slope.is_finite() && round % 3 != 2 {
            let straight = low - low_slope * (high - low) / (high_slope - low_slope);
            // A slope that turns steeply has its zero on the far side of the straight line.
            let secant = if high_slope > LOPSIDED * -low_slope { (straight * high).sqrt() } else { straight };
            if secant > low && secant < high {
                step = secant;
            }
        }
        let slope = slope_at(step);
        if slope.abs() <= enough {
            return Search::Step(step);
        }
        if slope < 0.0 {
            low = step;
            low_slope = slope;
            if last_side < 0 {
                high_slope *= 0.5;
            }
            last_side = -1;
        } else {
            high = step;
            high_slope = slope;
            if last_side > 0 {
                low_slope *= 0.5;
            }
            last_side = 1;
        }
    }
    Search::Stuck
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What a search along a slope comes to, and how often it looked.
    fn search(slope: impl Fn(f64) -> f64) -> (Search, usize) {
        let mut looked = 0;
        let found = slope_search(slope(0.0), |step| {
            looked += 1;
            slope(step)
        });
        (found, looked)
    }

    /// Slopes of convex energies whose lowest point is at `zero`: straight, turning up steeply, flattening, and with a
    /// corner as where a line goes taut.
    fn slopes(zero: f64) -> [Box<dyn Fn(f64) -> f64>; 5] {
        [
            Box::new(move |step| 3.0 * (step - zero)),
            Box::new(move |step| (step / zero).powi(15) - 1.0),
            Box::new(move |step| 1.0 - (zero / (step + 1e-3 * zero)).powi(3)),
            Box::new(
                move |step| if step < zero { 0.1 * (step / zero - 1.0) - 1e-6 } else { 1e9 * (step - zero) - 1e-6 },
            ),
            Box::new(move |step| (8.0 * (step / zero - 1.0)).exp_m1()),
        ]
    }

    #[test]
    fn the_slope_is_at_most_half_of_what_it_was() {
        let mut looked_in_all = 0;
        for zero in [1e-6, 0.02, 0.9, 1.0, 1.7, 40.0, 1e9] {
            for (number, slope) in slopes(zero).iter().enumerate() {
                let (found, looked) = search(slope);
                let Search::Step(step) = found else { panic!("slope {number} to {zero} is stuck") };
                assert!(step > 0.0 && slope(step).abs() <= 0.5 * slope(0.0).abs(), "slope {number} to {zero}: {step}");
                looked_in_all += looked;
            }
        }
        // A search that looks more often is worse.
        assert!(looked_in_all <= 230, "looked {looked_in_all} times");
    }

    #[test]
    fn a_place_so_near_that_its_square_is_no_number_is_found() {
        let slope = |step: f64| 3.0 * (step - 1e-180);
        let Search::Step(step) = search(slope).0 else { panic!("stuck") };
        assert!(step > 0.0 && slope(step).abs() <= 0.5 * slope(0.0).abs(), "{step}");
    }

    #[test]
    fn a_whole_step_that_is_good_enough_is_taken() {
        assert_eq!(search(|step| step - 1.0), (Search::Step(1.0), 1));
        assert_eq!(search(|step| 0.5 * step - 1.0), (Search::Step(1.0), 1));
        assert_eq!(search(|step| 1.5 * step - 1.0), (Search::Step(1.0), 1));
        // A hair beyond half is not, on either side.
        assert!(matches!(search(|step| 0.499 * step - 1.0), (Search::Step(_), 2..)));
        assert!(matches!(search(|step| 1.501 * step - 1.0), (Search::Step(_), 2..)));
    }

    #[test]
    fn what_has_no_such_step_is_stuck() {
        // It does not fall, or that is not known.
        for first in [0.0, 1.0, f64::NAN, f64::NEG_INFINITY] {
            assert_eq!(slope_search(first, |_| panic!("there is nothing to look for")), Search::Stuck);
        }
        // It falls for ever, or turns at once.
        let (found, looked) = search(|_| -1.0);
        assert_eq!((found, looked), (Search::Stuck, 20));
        let (found, looked) = search(|step| if step < 0.3 { -1.0 } else { 1.0 });
        assert_eq!(found, Search::Stuck);
        assert!(looked < 60, "looked {looked} times");
        // Beyond the place the slope is no number, as where lengths overflow: the place is found all the same.
        let (found, _) = search(|step| if step < 0.3 { step / 0.29 - 1.0 } else { f64::NAN });
        assert!(matches!(found, Search::Step(step) if step > 0.145 && step < 0.3), "{found:?}");
    }
}
