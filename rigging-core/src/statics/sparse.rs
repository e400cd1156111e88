//! Factors `A = L D Lᵀ` of a symmetric positive definite matrix made of 3 × 3 blocks, one row of
//! blocks for each free point.
//!
//! One routine serves every size: for a handful of points it is a dense factorisation, for
//! thousands it touches only the couplings that exist or arise.
//!
//! # References
//! Davis, *Algorithm 849: a concise sparse Cholesky factorization package*, ACM TOMS 31, 2005
//! (up-looking rows along the elimination tree; method from memory).

use super::order::{elimination_order, put_in_order};
use super::space::{add_scaled, image, image_of_transpose, inverse, product, subtract_product, transpose};
use super::{Matrix, Vector};

const NONE: u32 = u32::MAX;

/// Work for a point or a coupling of a step beside the factorisation, in products of blocks.
const BESIDE: u64 = 8;

/// Where a block of the matrix is kept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Slot {
    pub index: u32,
    /// The block is kept as its transpose.
    pub turned: bool,
}

/// The matrix, its pattern and its factors.
#[derive(Clone, Debug, Default)]
pub(super) struct BlockMatrix {
    /// Place of each point in the order of elimination.
    place: Vec<u32>,
    /// Rows of the strict lower triangle: `columns[row_start[k]..row_start[k + 1]]`.
    row_start: Vec<u32>,
    columns: Vec<u32>,
    pub diagonal: Vec<Matrix>,
    pub lower: Vec<Matrix>,
    parent: Vec<u32>,
    column_start: Vec<u32>,
    factor_rows: Vec<u32>,
    factor: Vec<Matrix>,
    pivot_inverse: Vec<Matrix>,
    smallest_pivot: f64,
    filled: Vec<u32>,
    work: Vec<Matrix>,
    visited: Vec<u32>,
    stack: Vec<u32>,
    path: Vec<u32>,
    solution: Vec<Vector>,
    /// Work of one step with this pattern: products of two blocks, or what takes as long.
    pub cost: u64,
}

#[expect(clippy::indexing_slicing, reason = "every index comes from the pattern, which `lay_out` built for this size")]
impl BlockMatrix {
    /// Makes it an empty matrix for `count` points and the couplings `pairs`, which it puts in order.
    pub(super) fn lay_out(&mut self, count: usize, pairs: &mut Vec<(u32, u32)>) {
        put_in_order(pairs, count);
        elimination_order(count, pairs, &mut self.place);
        for pair in pairs.iter_mut() {
            *pair = (self.place[pair.0 as usize], self.place[pair.1 as usize]);
        }
        put_in_order(pairs, count);
        renew(&mut self.row_start, count + 1, 0);
        for &(row, _) in pairs.iter() {
            self.row_start[row as usize + 1] += 1;
        }
        for row in 0..count {
            self.row_start[row + 1] += self.row_start[row];
        }
        self.columns.clear();
        self.columns.extend(pairs.iter().map(|&(_, column)| column));
        // Elimination tree and the length of every factor column.
        renew(&mut self.parent, count, NONE);
        renew(&mut self.visited, count, NONE);
        renew(&mut self.column_start, count + 1, 0);
        for row in 0..count {
            self.visited[row] = row as u32;
            for &column in &self.columns[self.row_start[row] as usize..self.row_start[row + 1] as usize] {
                let mut at = column;
                while self.visited[at as usize] != row as u32 {
                    if self.parent[at as usize] == NONE {
                        self.parent[at as usize] = row as u32;
                    }
                    self.column_start[at as usize + 1] += 1;
                    self.visited[at as usize] = row as u32;
                    at = self.parent[at as usize];
                }
            }
        }
        self.cost = BESIDE * (count + self.columns.len()) as u64;
        for column in 0..count {
            self.cost += u64::from(self.column_start[column + 1]).pow(2) / 2;
            // More than can be counted costs more than is allowed.
            self.column_start[column + 1] = self.column_start[column + 1].wrapping_add(self.column_start[column]);
        }
        renew(&mut self.diagonal, count, Matrix::zeros());
        renew(&mut self.lower, self.columns.len(), Matrix::zeros());
        self.factor_rows.clear();
        self.factor.clear();
        renew(&mut self.pivot_inverse, count, Matrix::zeros());
        renew(&mut self.filled, count, 0);
        renew(&mut self.work, count, Matrix::zeros());
        renew(&mut self.stack, count, 0);
        renew(&mut self.path, count, 0);
        renew(&mut self.solution, count, Vector::zeros());
        self.smallest_pivot = 0.0;
    }

    /// Index into `diagonal` of a point.
    pub(super) fn diagonal_slot(&self, point: u32) -> u32 {
        self.place[point as usize]
    }

    /// Where the block (row `a`, column `b`) is kept, for a coupling given to `lay_out`.
    pub(super) fn slot(&self, a: u32, b: u32) -> Slot {
        let (row, column) = (self.place[a as usize], self.place[b as usize]);
        let turned = row < column;
        let (row, column) = (row.max(column), row.min(column));
        let start = self.row_start[row as usize] as usize;
        let end = self.row_start[row as usize + 1] as usize;
        let offset = self.columns[start..end].partition_point(|&other| other < column);
        Slot { index: (start + offset) as u32, turned }
    }

    pub(super) fn clear(&mut self) {
        self.diagonal.fill(Matrix::zeros());
        self.lower.fill(Matrix::zeros());
    }

    /// Largest diagonal entry.
    pub(super) fn largest(&self) -> f64 {
        self.diagonal.iter().map(|block| block.m11.max(block.m22).max(block.m33)).fold(0.0, f64::max)
    }

    /// Smallest diagonal entry.
    pub(super) fn least(&self) -> f64 {
        self.diagonal.iter().map(|block| block.m11.min(block.m22).min(block.m33)).fold(f64::INFINITY, f64::min)
    }

    /// Factors `A + shift I + relative diag(A)`; false if that is not positive definite in
    /// floating point.
    pub(super) fn factorise(&mut self, shift: f64, relative: f64) -> bool {
        let count = self.diagonal.len();
        // Room is made here: a pattern whose factors nobody could hold costs too much to come so far.
        let fill = self.column_start[count] as usize;
        if self.factor.len() != fill {
            renew(&mut self.factor_rows, fill, 0);
            renew(&mut self.factor, fill, Matrix::zeros());
        }
        self.smallest_pivot = f64::INFINITY;
        self.visited.fill(NONE);
        for k in 0..count {
            // Columns the row touches, in topological order, at the end of `stack`.
            let mut top = count;
            self.visited[k] = k as u32;
            for entry in self.row_start[k] as usize..self.row_start[k + 1] as usize {
                let column = self.columns[entry];
                self.work[column as usize] = transpose(&self.lower[entry]);
                let mut at = column;
                let mut length = 0;
                while self.visited[at as usize] != k as u32 {
                    self.path[length] = at;
                    length += 1;
                    self.visited[at as usize] = k as u32;
                    at = self.parent[at as usize];
                }
                while length > 0 {
                    length -= 1;
                    top -= 1;
                    self.stack[top] = self.path[length];
                }
            }
            let own = self.diagonal[k];
            let mut pivot = own;
            pivot.m11 += shift + relative * own.m11;
            pivot.m22 += shift + relative * own.m22;
            pivot.m33 += shift + relative * own.m33;
            for &column in &self.stack[top..count] {
                let j = column as usize;
                let value = std::mem::replace(&mut self.work[j], Matrix::zeros());
                let start = self.column_start[j] as usize;
                let end = start + self.filled[j] as usize;
                for (&row, block) in self.factor_rows[start..end].iter().zip(&self.factor[start..end]) {
                    subtract_product(&mut self.work[row as usize], block, &value);
                }
                let row = product(&transpose(&value), &self.pivot_inverse[j]);
                subtract_product(&mut pivot, &row, &value);
                self.factor_rows[end] = k as u32;
                self.factor[end] = row;
                self.filled[j] += 1;
            }
            self.filled[k] = 0;
            match inverse(&pivot, &own, shift) {
                Some((inverse, smallest)) => {
                    self.pivot_inverse[k] = inverse;
                    self.smallest_pivot = self.smallest_pivot.min(smallest);
                }
                None => {
                    for block in &mut self.work {
                        *block = Matrix::zeros();
                    }
                    return false;
                }
            }
        }
        true
    }

    /// Smallest pivot of the last factorisation, relative to the diagonal it came from.
    pub(super) fn smallest_pivot(&self) -> f64 {
        self.smallest_pivot
    }

    /// Replaces `right` (one vector per point) by the solution of `A x = right`.
    pub(super) fn solve(&mut self, right: &mut [Vector]) {
        let x = &mut self.solution;
        for (point, value) in right.iter().enumerate() {
            x[self.place[point] as usize] = *value;
        }
        let count = x.len();
        for column in 0..count {
            let value = x[column];
            let range = self.column_start[column] as usize..self.column_start[column + 1] as usize;
            for (&row, block) in self.factor_rows[range.clone()].iter().zip(&self.factor[range]) {
                add_scaled(&mut x[row as usize], &image(block, &value), -1.0);
            }
        }
        for column in (0..count).rev() {
            let mut value = image(&self.pivot_inverse[column], &x[column]);
            let range = self.column_start[column] as usize..self.column_start[column + 1] as usize;
            for (&row, block) in self.factor_rows[range.clone()].iter().zip(&self.factor[range]) {
                add_scaled(&mut value, &image_of_transpose(block, &x[row as usize]), -1.0);
            }
            x[column] = value;
        }
        for (point, value) in right.iter_mut().enumerate() {
            *value = x[self.place[point] as usize];
        }
    }
}

/// Makes a list `count` times the same value, in the memory it has.
pub(super) fn renew<T: Clone>(list: &mut Vec<T>, count: usize, value: T) {
    list.clear();
    list.resize(count, value);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::statics::numbers::Numbers;
    use nalgebra::{DMatrix, DVector};

    const COUNT: usize = 24;

    /// The same matrix in blocks and written out: a chain, some chords, and a little on the diagonal.
    fn both(numbers: &mut Numbers, matrix: &mut BlockMatrix) -> DMatrix<f64> {
        let chain = (1..COUNT as u32).map(|point| (point, point - 1));
        let chords = (0..COUNT as u32 / 2).map(|point| (point, (point * point + 5) % COUNT as u32));
        let mut pairs: Vec<(u32, u32)> = chain.chain(chords).collect();
        let mut couplings = pairs.clone();
        put_in_order(&mut couplings, COUNT);
        matrix.lay_out(COUNT, &mut pairs);
        matrix.clear();
        let mut whole = DMatrix::zeros(3 * COUNT, 3 * COUNT);
        let mut add = |row: u32, column: u32, block: &Matrix| {
            let (row, column) = (3 * row as usize, 3 * column as usize);
            for (place, value) in block.as_slice().iter().enumerate() {
                whole[(row + place % 3, column + place / 3)] += value;
            }
        };
        for (a, b) in couplings {
            let coupling = outer_of(numbers.place(), numbers.place());
            let slot = matrix.slot(a, b);
            matrix.lower[slot.index as usize] += if slot.turned { coupling.transpose() } else { coupling };
            add(a, b, &coupling);
            add(b, a, &coupling.transpose());
        }
        for point in 0..COUNT as u32 {
            let own = Matrix::identity() * (6.0 + numbers.next()) + {
                let along = numbers.place();
                outer_of(along, along)
            };
            let slot = matrix.diagonal_slot(point) as usize;
            matrix.diagonal[slot] += own;
            add(point, point, &own);
        }
        whole
    }

    fn outer_of(a: Vector, b: Vector) -> Matrix {
        a * b.transpose()
    }

    #[test]
    fn solutions_are_those_of_the_whole_matrix() {
        let mut numbers = Numbers(0.3);
        let mut matrix = BlockMatrix::default();
        // One after the other in the same memory.
        for (shift, relative) in [(0.0, 0.0), (0.5, 0.0), (0.0, 0.25), (0.125, 1e-3)] {
            let mut whole = both(&mut numbers, &mut matrix);
            let largest = whole.diagonal().max();
            assert_eq!(matrix.largest(), largest);
            let own = whole.diagonal();
            for at in 0..3 * COUNT {
                whole[(at, at)] += shift + relative * own[at];
            }
            assert!(matrix.factorise(shift, relative));
            let right: Vec<Vector> = (0..COUNT).map(|_| numbers.place()).collect();
            let mut solved = right.clone();
            matrix.solve(&mut solved);
            let flat = |list: &[Vector]| DVector::from_iterator(3 * COUNT, list.iter().flat_map(|v| [v.x, v.y, v.z]));
            let expected = whole.clone().cholesky().unwrap().solve(&flat(&right));
            assert!((flat(&solved) - &expected).norm() < 1e-13 * expected.norm());

            // The smallest pivot, by the same elimination of the whole matrix in the same order.
            let point_at = |place: usize| (0..COUNT).find(|&point| matrix.place[point] as usize == place).unwrap();
            let order: Vec<usize> = (0..COUNT)
                .flat_map(|place| (0..3).map(move |at| (place, at)))
                .map(|(place, at)| 3 * point_at(place) + at)
                .collect();
            let ordered = DMatrix::from_fn(3 * COUNT, 3 * COUNT, |row, column| whole[(order[row], order[column])]);
            let factor = ordered.cholesky().unwrap().l();
            let shares = (0..3 * COUNT).map(|at| factor[(at, at)].powi(2) / (own[order[at]] + shift));
            let smallest = shares.fold(f64::INFINITY, f64::min);
            assert!(
                (matrix.smallest_pivot() - smallest).abs() < 1e-13 * smallest,
                "{} {smallest}",
                matrix.smallest_pivot()
            );
        }
    }

    #[test]
    fn what_is_not_positive_definite_is_refused_and_leaves_nothing_behind() {
        let mut numbers = Numbers(0.7);
        let mut matrix = BlockMatrix::default();
        let whole = both(&mut numbers, &mut matrix);
        assert!(matrix.factorise(0.0, 0.0));
        let smallest = matrix.smallest_pivot();
        // Lowered far enough it falls along some direction; the refusal comes after half of the work.
        let last = matrix.diagonal.len() - 1;
        let own = matrix.diagonal[last];
        matrix.diagonal[last] -= Matrix::identity() * 20.0;
        assert!(!matrix.factorise(0.0, 0.0));
        matrix.diagonal[last] = own;
        assert!(matrix.factorise(0.0, 0.0));
        assert_eq!(matrix.smallest_pivot(), smallest);
        let mut solved = vec![Vector::repeat(1.0); COUNT];
        matrix.solve(&mut solved);
        let expected = whole.cholesky().unwrap().solve(&DVector::repeat(3 * COUNT, 1.0));
        assert!(solved.iter().enumerate().all(|(point, v)| (v.x - expected[3 * point]).abs() < 1e-13));
    }
}
