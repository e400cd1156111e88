//! A rig without weight as a second-order cone program, solved by the crate Clarabel.
//!
//! Minimise `Σ ½ k s² − f·x` over places `x`, stretches `s ≥ 0` and part lengths `p ≥ |d(x)|`, with
//! `Σ p − s ≤ L0` for every line. The multiplier of that row is the tension.

use clarabel::algebra::CscMatrix;
use clarabel::solver::SupportedConeT::{NonnegativeConeT, SecondOrderConeT};
use clarabel::solver::{DefaultSettings, DefaultSolver, IPSolver, SolverStatus, SupportedConeT};
use rigging_core::statics::Rig;

/// The cone program of a rig, scaled to unit loads.
pub struct Program {
    quadratic: CscMatrix<f64>,
    linear: Vec<f64>,
    rows: CscMatrix<f64>,
    right: Vec<f64>,
    cones: Vec<SupportedConeT<f64>>,
    first_stretch: usize,
    lines: usize,
    force: f64,
}

impl Program {
    pub fn new(rig: &Rig) -> Self {
        let points = rig.points();
        let force = points.iter().filter(|point| !point.is_held()).map(|point| point.load().norm()).fold(0.0, f64::max);
        let force = if force > 0.0 { force } else { 1.0 };
        let mut column = vec![None; points.len()];
        let mut free = 0;
        for (point, column) in points.iter().zip(&mut column) {
            if !point.is_held() {
                *column = Some(3 * free);
                free += 1;
            }
        }
        let lines = rig.lines().len();
        let first_stretch = 3 * free;
        let parts: usize = rig.lines().iter().map(|line| line.through().count() - 1).sum();
        let variables = first_stretch + lines + parts;
        let mut linear = vec![0.0; variables];
        for (point, column) in points.iter().zip(&column) {
            if let Some(column) = column {
                for axis in 0..3 {
                    linear[column + axis] = -point.load()[axis] / force;
                }
            }
        }
        let mut diagonal = vec![0.0; variables];
        for (number, line) in rig.lines().iter().enumerate() {
            diagonal[first_stretch + number] = line.stiffness() / line.length() / force;
        }
        let (mut row, mut col, mut value) = (Vec::new(), Vec::new(), Vec::new());
        let mut right = Vec::new();
        let mut entry = |r: usize, c: usize, v: f64| {
            row.push(r);
            col.push(c);
            value.push(v);
        };
        // Length rows, then the stretches themselves, then one cone for each part.
        let mut part = first_stretch + lines;
        for (number, line) in rig.lines().iter().enumerate() {
            for _ in 1..line.through().count() {
                entry(number, part, 1.0);
                part += 1;
            }
            entry(number, first_stretch + number, -1.0);
            right.push(line.length());
        }
        for number in 0..lines {
            entry(lines + number, first_stretch + number, -1.0);
            right.push(0.0);
        }
        let mut cones = vec![NonnegativeConeT(2 * lines)];
        part = first_stretch + lines;
        for line in rig.lines() {
            let ids: Vec<usize> = line.through().map(|id| index(rig, id)).collect();
            for pair in ids.windows(2) {
                entry(right.len(), part, -1.0);
                right.push(0.0);
                for axis in 0..3 {
                    let mut fixed = 0.0;
                    for (end, sign) in [(pair[1], 1.0), (pair[0], -1.0)] {
                        match column[end] {
                            Some(column) => entry(right.len(), column + axis, -sign),
                            None => fixed += sign * points[end].at()[axis],
                        }
                    }
                    right.push(fixed);
                }
                cones.push(SecondOrderConeT(4));
                part += 1;
            }
        }
        let rows = CscMatrix::new_from_triplets(right.len(), variables, row, col, value);
        let each: Vec<usize> = (0..variables).collect();
        let quadratic = CscMatrix::new_from_triplets(variables, variables, each.clone(), each, diagonal);
        Program { quadratic, linear, rows, right, cones, first_stretch, lines, force }
    }

    /// Tensions (N), if Clarabel says it has solved the program to `tolerance`.
    pub fn tensions(&self, tolerance: f64) -> Option<Vec<f64>> {
        let settings = DefaultSettings {
            verbose: false,
            tol_gap_abs: tolerance,
            tol_gap_rel: tolerance,
            tol_feas: tolerance,
            max_iter: 200,
            ..DefaultSettings::default()
        };
        let mut solver =
            DefaultSolver::new(&self.quadratic, &self.linear, &self.rows, &self.right, &self.cones, settings).ok()?;
        solver.solve();
        let range = self.first_stretch..self.first_stretch + self.lines;
        (solver.solution.status == SolverStatus::Solved)
            .then(|| solver.solution.z[..range.len()].iter().map(|tension| tension * self.force).collect())
    }
}

fn index(rig: &Rig, id: rigging_core::statics::PointId) -> usize {
    // Points are handed out in order, so the place in the list is the place by name.
    (0..rig.points().len())
        .find(|&place| rig.point_named(rig.points()[place].name()) == Some(id))
        .expect("every line runs through points of its own rig")
}
