//! Sums and products of vectors and blocks, spelt out.
//!
//! The page is built for size, and then the general operators of nalgebra become calls and loops that
//! take more than half of a small solve. These stay in place at any setting.

use super::{Matrix, Vector};

/// `to − from`.
#[inline(always)]
pub(super) fn between(from: &Vector, to: &Vector) -> Vector {
    Vector::new(to.x - from.x, to.y - from.y, to.z - from.z)
}

#[inline(always)]
pub(super) fn dot(a: &Vector, b: &Vector) -> f64 {
    a.x * b.x + a.y * b.y + a.z * b.z
}

/// `target += vector · share`.
#[inline(always)]
pub(super) fn add_scaled(target: &mut Vector, vector: &Vector, share: f64) {
    target.x += vector.x * share;
    target.y += vector.y * share;
    target.z += vector.z * share;
}

/// `vector · share`.
#[inline(always)]
pub(super) fn scaled(vector: &Vector, share: f64) -> Vector {
    Vector::new(vector.x * share, vector.y * share, vector.z * share)
}

/// `a bᵀ`.
#[inline(always)]
pub(super) fn outer(a: &Vector, b: &Vector) -> Matrix {
    Matrix::new(a.x * b.x, a.x * b.y, a.x * b.z, a.y * b.x, a.y * b.y, a.y * b.z, a.z * b.x, a.z * b.y, a.z * b.z)
}

/// `a b`.
#[inline(always)]
pub(super) fn image(a: &Matrix, b: &Vector) -> Vector {
    Vector::new(
        a.m11 * b.x + a.m12 * b.y + a.m13 * b.z,
        a.m21 * b.x + a.m22 * b.y + a.m23 * b.z,
        a.m31 * b.x + a.m32 * b.y + a.m33 * b.z,
    )
}

/// `aᵀ b`.
#[inline(always)]
pub(super) fn image_of_transpose(a: &Matrix, b: &Vector) -> Vector {
    Vector::new(
        a.m11 * b.x + a.m21 * b.y + a.m31 * b.z,
        a.m12 * b.x + a.m22 * b.y + a.m32 * b.z,
        a.m13 * b.x + a.m23 * b.y + a.m33 * b.z,
    )
}

#[inline(always)]
pub(super) fn transpose(a: &Matrix) -> Matrix {
    Matrix::new(a.m11, a.m21, a.m31, a.m12, a.m22, a.m32, a.m13, a.m23, a.m33)
}

/// `target += a`.
#[inline(always)]
pub(super) fn add(target: &mut Matrix, a: &Matrix) {
    for (target, a) in target.as_mut_slice().iter_mut().zip(a.as_slice()) {
        *target += a;
    }
}

/// `a b`.
#[inline(always)]
pub(super) fn product(a: &Matrix, b: &Matrix) -> Matrix {
    let column = |x, y, z| image(a, &Vector::new(x, y, z));
    let (first, second, third) =
        (column(b.m11, b.m21, b.m31), column(b.m12, b.m22, b.m32), column(b.m13, b.m23, b.m33));
    Matrix::new(first.x, second.x, third.x, first.y, second.y, third.y, first.z, second.z, third.z)
}

/// `target −= a b`: the heart of the factorisation.
#[inline(always)]
pub(super) fn subtract_product(target: &mut Matrix, a: &Matrix, b: &Matrix) {
    let product = product(a, b);
    for (target, product) in target.as_mut_slice().iter_mut().zip(product.as_slice()) {
        *target -= product;
    }
}

/// Inverse of a pivot by its Cholesky factor, and its smallest pivot relative to the diagonal of
/// the matrix before elimination.
pub(super) fn inverse(pivot: &Matrix, own: &Matrix, shift: f64) -> Option<(Matrix, f64)> {
    let d1 = pivot.m11;
    if !(d1 > 0.0) {
        return None;
    }
    let l21 = pivot.m21 / d1;
    let l31 = pivot.m31 / d1;
    let d2 = pivot.m22 - l21 * pivot.m21;
    if !(d2 > 0.0) {
        return None;
    }
    let rest = pivot.m32 - l31 * pivot.m21;
    let l32 = rest / d2;
    let d3 = pivot.m33 - l31 * pivot.m31 - l32 * rest;
    if !(d3 > 0.0) || !d3.is_finite() {
        return None;
    }
    // Inverse of the unit lower factor.
    let m31 = l21 * l32 - l31;
    let (i1, i2, i3) = (1.0 / d1, 1.0 / d2, 1.0 / d3);
    let a33 = i3;
    let a32 = -l32 * i3;
    let a31 = m31 * i3;
    let a22 = i2 + l32 * l32 * i3;
    let a21 = -l21 * i2 - l32 * m31 * i3;
    let a11 = i1 + l21 * l21 * i2 + m31 * m31 * i3;
    let smallest = (d1 / (own.m11 + shift)).min(d2 / (own.m22 + shift)).min(d3 / (own.m33 + shift));
    let matrix = Matrix::new(a11, a21, a31, a21, a22, a32, a31, a32, a33);
    matrix.as_slice().iter().all(|entry| entry.is_finite()).then_some((matrix, smallest))
}

#[cfg(test)]
mod tests {
    use super::*;

    const A: Vector = Vector::new(1.5, -2.0, 0.25);
    const B: Vector = Vector::new(-3.0, 0.5, 7.0);

    fn matrices() -> (Matrix, Matrix) {
        (
            Matrix::new(2.0, -1.0, 0.5, 3.0, 7.0, -4.0, 0.125, 6.0, 5.0),
            Matrix::new(-1.0, 4.0, 9.0, 0.5, 2.0, -3.0, 8.0, 0.25, 11.0),
        )
    }

    /// Sums and products of few binary digits: exact, so both ways give the same to the last.
    #[test]
    fn what_is_spelt_out_is_what_nalgebra_gives() {
        let (m, n) = matrices();
        assert_eq!(between(&A, &B), B - A);
        assert_eq!(dot(&A, &B), A.dot(&B));
        assert_eq!(scaled(&A, -0.75), A * -0.75);
        assert_eq!(outer(&A, &B), A * B.transpose());
        assert_eq!(image(&m, &A), m * A);
        assert_eq!(image_of_transpose(&m, &A), m.transpose() * A);
        assert_eq!(transpose(&m), m.transpose());
        assert_eq!(product(&m, &n), m * n);
        let mut target = B;
        add_scaled(&mut target, &A, 4.0);
        assert_eq!(target, B + A * 4.0);
        let mut target = m;
        add(&mut target, &n);
        assert_eq!(target, m + n);
        subtract_product(&mut target, &n, &m);
        assert_eq!(target, m + n - n * m);
    }

    #[test]
    fn the_inverse_of_a_pivot_and_the_smallest_share_that_elimination_leaves() {
        let (m, n) = matrices();
        for base in [m, n] {
            let pivot = base.transpose() * base + Matrix::identity() * 0.5;
            let own = pivot + Matrix::from_diagonal(&Vector::new(40.0, 3.0, 90.0));
            let shift = 2.0;
            let (inverse, smallest) = inverse(&pivot, &own, shift).unwrap();
            assert!((inverse * pivot - Matrix::identity()).norm() < 1e-12);
            assert_eq!(inverse, inverse.transpose());
            let factor = pivot.cholesky().unwrap().l();
            let shares = (0..3).map(|at| factor[(at, at)].powi(2) / (own[(at, at)] + shift));
            let expected = shares.fold(f64::INFINITY, f64::min);
            assert!((smallest - expected).abs() < 1e-14 * expected, "{smallest} {expected}");
        }
        // The smallest share may be the first, the second or the third.
        for (place, share) in [(0, 1.0 / 8.0), (1, 1.0 / 4.0), (2, 1.0 / 16.0)] {
            let mut own = Matrix::identity();
            own[(place, place)] = 1.0 / share - 1.0;
            assert_eq!(inverse(&Matrix::identity(), &own, 1.0).unwrap().1, share);
        }
    }

    #[test]
    fn what_is_not_positive_definite_has_no_inverse_here() {
        let own = Matrix::identity();
        for at in 0..3 {
            for entry in [0.0, -1.0, f64::NAN] {
                let mut pivot = own;
                pivot[(at, at)] = entry;
                assert_eq!(inverse(&pivot, &own, 0.0), None, "{at} {entry}");
            }
        }
        // Each diagonal entry is above 0, and yet it falls along some direction.
        assert_eq!(inverse(&Matrix::new(1.0, 2.0, 0.0, 2.0, 1.0, 0.0, 0.0, 0.0, 1.0), &own, 0.0), None);
        assert_eq!(inverse(&Matrix::new(1.0, 0.0, 2.0, 0.0, 1.0, 0.0, 2.0, 0.0, 1.0), &own, 0.0), None);
        // A pivot without bounds, and one whose inverse is beyond all numbers.
        assert_eq!(inverse(&(own * f64::INFINITY), &own, 0.0), None);
        assert_eq!(inverse(&(own * 1e-310), &own, 0.0), None);
    }
}
