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
