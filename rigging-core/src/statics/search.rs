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
        let secant = if high_slope.is_finite() && round % 3 != 2 {
            let straight = low - low_slope * (high - low) / (high_slope - low_slope);
            // A slope that turns steeply has its zero on the far side of the straight line.
            if high_slope > LOPSIDED * -low_slope { (straight * high).sqrt() } else { straight }
        } else {
            0.5 * (low + high)
        };
        let step = if secant > low && secant < high { secant } else { 0.5 * (low + high) };
        if !(step > low && step < high) || high - low < 1e-12 * high {
            break;
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
