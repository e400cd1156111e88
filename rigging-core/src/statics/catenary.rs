//! A line with its own weight: one elastic catenary between two points.
//!
//! # Formula
//! The tension vector along the line is `T(s) = G + w (s − L/2) e_z` for `0 ≤ s ≤ L`, with `G`
//! the tension in the middle (N), `w` the weight per unstretched metre (N/m), `L` the unstretched
//! length (m), `EA` the stiffness (N). `G` is the minimum of the convex complementary energy
//! `Ψ(G) = ∫ (|T| + |T|²/(2 EA)) ds − G·span`, whose gradient is (end − first end) − span.
//!
//! With `H`, `v` the horizontal and vertical part of `G`, `T₁`, `T₂` the tensions at the ends,
//! `S = T₁ + T₂`, `q = w L/S`, `M = 2 L/S`, `e = L/EA`:
//! - horizontal span `= H (M·atanh(q)/q + e)`,
//! - vertical span `= v (M + e)`.
//!
//! Both stay accurate as `w → 0`, where the line becomes a straight elastic cord.
//!
//! # References
//! Irvine, *Cable Structures*, 1981, section 1.4 (the elastic catenary; from memory). The forms
//! above follow from it by `T = H cosh a`, `v = H sinh a` and
//! `tanh((a₂ − a₁)/2) = (v₂ − v₁)/(T₁ + T₂)`.

use super::search::{Search, slope_search};
use super::{Matrix, Vector};

/// A line with weight, apart from where its ends are.
#[derive(Clone, Copy, Debug)]
pub(super) struct Catenary {
    /// Unstretched length (m).
    pub length: f64,
    /// `L/EA` (m/N).
    pub compliance: f64,
    /// Weight per unstretched metre (N/m), above 0.
    pub weight: f64,
}

/// The tension in the middle of a catenary (N): horizontal part, and vertical part upward from
/// the first end to the last.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Middle {
    pub horizontal: f64,
    pub vertical: f64,
}

/// What a catenary does to its two ends.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pull {
    /// Tension vector in the middle (N), from the first end toward the last.
    pub force: Vector,
    /// Its change with the span (N/m): symmetric, positive semidefinite.
    pub stiffness: Matrix,
    pub middle: Middle,
}

/// Spans and their derivatives at one trial tension.
struct Trial {
    across: f64,
    up: f64,
    across_by_horizontal: f64,
    across_by_vertical: f64,
    up_by_vertical: f64,
    /// Horizontal span per horizontal tension.
    softness: f64,
}

impl Catenary {
    fn end_tensions(&self, middle: Middle) -> (f64, f64) {
        let half = 0.5 * self.weight * self.length;
        let square = middle.horizontal * middle.horizontal;
        let (low, high) = (middle.vertical - half, middle.vertical + half);
        ((square + low * low).sqrt(), (square + high * high).sqrt())
    }

    fn trial(&self, middle: Middle) -> Trial {
        let total = self.weight * self.length;
        // A line folded back on itself has no horizontal tension and no bend radius: the floor
        // keeps its logarithm finite.
        let horizontal = middle.horizontal.max(1e-40 * total);
        let vertical = middle.vertical;
        let square = horizontal * horizontal;
        let low = vertical - 0.5 * total;
        let high = vertical + 0.5 * total;
        let first = (square + low * low).sqrt();
        let last = (square + high * high).sqrt();
        let sum = first + last;
        // sum − total, without the cancellation of a deep sag.
        let spare = if low < 0.0 { square / (first - low) } else { first + low }
            + if high > 0.0 { square / (last + high) } else { last - high };
        let q = total / sum;
        let ratio = if q < 1e-3 {
            1.0 + q * q / 3.0 * (1.0 + 0.6 * q * q)
        } else if q < 0.5 {
            0.5 * (2.0 * q / (1.0 - q)).ln_1p() / q
        } else {
            0.5 * ((sum + total) / spare).ln() / q
        };
        let mean = 2.0 * self.length / sum;
        let straight = mean * ratio;
        let product = first * last;
        let across_bend = square * mean * sum * sum / (spare * (sum + total) * product);
        Trial {
            across: middle.horizontal * (straight + self.compliance),
            up: vertical * (mean + self.compliance),
            across_by_horizontal: (straight - across_bend).max(0.0) + self.compliance,
            across_by_vertical: -horizontal * vertical * mean / product,
            up_by_vertical: across_bend + self.compliance,
            softness: straight + self.compliance,
        }
    }

    /// Tension in the middle of a line whose ends lie `span` apart (m), with its derivative.
    /// `near` is a tension to start from, if it is one.
    pub(super) fn pull(&self, span: Vector, near: Option<Middle>) -> Pull {
        let across = (span.x * span.x + span.y * span.y).sqrt();
        let mut middle = near.filter(Middle::is_finite).unwrap_or_else(|| self.first_guess(across, span.z));
        let reach = self.length + across + span.z.abs();
        let mut trial = self.trial(middle);
        let mut miss = trial.miss(across, span.z);
        for _ in 0..100 {
            if miss <= 1e-15 * reach || !miss.is_finite() {
                break;
            }
            let start = middle;
            let (miss_across, miss_up) = (trial.across - across, trial.up - span.z);
            let (step_h, step_v) = trial.solve(-miss_across, -miss_up);
            middle = start.moved(step_h, step_v, 1.0);
            let whole = self.trial(middle);
            let whole_miss = whole.miss(across, span.z);
            if whole_miss < 0.5 * miss {
                trial = whole;
                miss = whole_miss;
                continue;
            }
            if miss < 1e-11 * reach {
                // The last digits: a step no longer helps.
                middle = start;
                break;
            }
            let slope = miss_across * step_h + miss_up * step_v;
            let found = slope_search(slope, |along| {
                middle = start.moved(step_h, step_v, along);
                // Reflected through the vertical, the energy is the same.
                let sign = 1.0_f64.copysign(start.horizontal + along * step_h);
                trial = self.trial(middle);
                (sign * trial.across - across) * step_h + (trial.up - span.z) * step_v
            });
            miss = trial.miss(across, span.z);
            if found == Search::Stuck {
                break;
            }
        }
        let direction = if across > 0.0 { Vector::new(span.x / across, span.y / across, 0.0) } else { Vector::zeros() };
        let force = direction * middle.horizontal + Vector::new(0.0, 0.0, middle.vertical);
        Pull { force, stiffness: trial.stiffness(direction), middle }
    }

    /// A start close enough for full Newton steps: a shallow parabola, or a deep chain.
    fn first_guess(&self, across: f64, up: f64) -> Middle {
        let chord = (across * across + up * up).sqrt();
        let length = self.length;
        if chord < 0.9 * length {
            if across <= 0.0 {
                return Middle { horizontal: 0.0, vertical: 0.5 * self.weight * up };
            }
            // sinh λ/λ = excess gives the exact inextensible chain; λ is approximated.
            let excess = (length * length - up * up).sqrt() / across;
            let lambda = if excess < 2.6 {
                (6.0 * (excess - 1.0)).sqrt()
            } else {
                let double = 2.0 * excess;
                double.ln() + double.ln().ln()
            };
            return Middle {
                horizontal: 0.5 * self.weight * across / lambda,
                vertical: 0.5 * self.weight * up / lambda.tanh(),
            };
        }
        // Shallow: T² (T − strain tension) = EA (weight across the chord)²/24.
        let crosswise = self.weight * length * across / chord;
        let stretched = (chord - length) / self.compliance;
        let cube = crosswise * crosswise * length / (24.0 * self.compliance);
        let tension = shallow_tension(stretched, cube);
        Middle { horizontal: tension * across / chord, vertical: tension * up / chord }
    }

    /// Tension at the first and at the last end (N).
    pub(super) fn ends(&self, middle: Middle) -> (f64, f64) {
        self.end_tensions(middle)
    }

    /// Stretched length (m): `L + (1/EA) ∫|T| ds`.
    pub(super) fn stretched(&self, middle: Middle) -> f64 {
        let (first, last) = self.end_tensions(middle);
        let sum = first + last;
        let trial = self.trial(middle);
        let straight = trial.softness - self.compliance;
        let horizontal = middle.horizontal;
        let vertical = middle.vertical;
        let mean = 2.0 * self.length / sum;
        let integral =
            0.5 * (0.5 * self.length * sum + vertical * vertical * mean + horizontal * horizontal * straight);
        self.length + integral * self.compliance / self.length
    }
}

/// Nearly the `T` > 0 with `T² (T − stretched) = cube`: the tension (N) of a line that would carry `stretched` (N, below
/// 0 if slack) without a load across it, and sags under one.
pub(super) fn shallow_tension(stretched: f64, cube: f64) -> f64 {
    // From above, so that no step of Newton's goes too far.
    let mut tension =
        if stretched < 0.0 { (cube / -stretched).sqrt().min(cube.cbrt()) } else { stretched + cube.cbrt() };
    for _ in 0..3 {
        let value = tension * tension * (tension - stretched) - cube;
        let slope = tension * (3.0 * tension - 2.0 * stretched);
        if slope > 0.0 {
            tension -= value / slope;
        }
    }
    tension
}

/// What a stretch of line does under one tension: where its end lies from its beginning (m), and
/// how that changes with the tension (m/N).
pub(super) struct Reach {
    pub span: Vector,
    pub softness: Matrix,
}

impl Catenary {
    /// Span under a tension in the middle (N), with its derivative: symmetric, positive definite.
    pub(super) fn reach(&self, tension: Vector) -> Reach {
        let horizontal = (tension.x * tension.x + tension.y * tension.y).sqrt();
        let trial = self.trial(Middle { horizontal, vertical: tension.z });
        let (x, y) = if horizontal > 0.0 { (tension.x / horizontal, tension.y / horizontal) } else { (0.0, 0.0) };
        let along = trial.across_by_horizontal - trial.softness;
        let cross = trial.across_by_vertical;
        let (xy, xz, yz) = (x * y * along, x * cross, y * cross);
        Reach {
            span: Vector::new(x * trial.across, y * trial.across, trial.up),
            softness: Matrix::new(
                trial.softness + x * x * along,
                xy,
                xz,
                xy,
                trial.softness + y * y * along,
                yz,
                xz,
                yz,
                trial.up_by_vertical,
            ),
        }
    }
}

impl Middle {
    fn is_finite(&self) -> bool {
        self.horizontal.is_finite() && self.vertical.is_finite()
    }

    fn moved(self, horizontal: f64, vertical: f64, along: f64) -> Self {
        Middle { horizontal: (self.horizontal + along * horizontal).abs(), vertical: self.vertical + along * vertical }
    }
}

impl Trial {
    fn miss(&self, across: f64, up: f64) -> f64 {
        (self.across - across).abs().max((self.up - up).abs())
    }

    fn determinant(&self) -> f64 {
        self.across_by_horizontal * self.up_by_vertical - self.across_by_vertical * self.across_by_vertical
    }

    fn solve(&self, across: f64, up: f64) -> (f64, f64) {
        let determinant = self.determinant();
        (
            (self.up_by_vertical * across - self.across_by_vertical * up) / determinant,
            (self.across_by_horizontal * up - self.across_by_vertical * across) / determinant,
        )
    }

    /// The inverse of the change of span with tension, in the axes of the rig.
    fn stiffness(&self, direction: Vector) -> Matrix {
        let determinant = self.determinant();
        let sideways = 1.0 / self.softness;
        let vertical = Vector::z();
        let along = self.up_by_vertical / determinant - sideways;
        let cross = -self.across_by_vertical / determinant;
        let mut matrix = direction * direction.transpose() * along;
        matrix += (direction * vertical.transpose() + vertical * direction.transpose()) * cross;
        matrix.m11 += sideways;
        matrix.m22 += sideways;
        matrix.m33 += self.across_by_horizontal / determinant;
        matrix
    }
}

#[cfg(test)]
mod tests;
