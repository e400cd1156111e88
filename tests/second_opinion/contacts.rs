//! A rigid body on the ground in the vertical plane of a rope: the largest pull for which there are contact forces.
//!
//! At each contact the ground presses (`n ≥ 0`) and rubs (`|f| ≤ μ n`); the feet may push along the ground at the first
//! contact (`0 ≤ b ≤ B`). Forces and moments add up to nothing. That is a linear program in the pull and the contact
//! forces; the crate Clarabel solves it.

use clarabel::algebra::CscMatrix;
use clarabel::solver::SupportedConeT::{NonnegativeConeT, ZeroConeT};
use clarabel::solver::{DefaultSettings, DefaultSolver, IPSolver, SolverStatus};

/// A place or a direction: level toward the load, up.
pub type Place = [f64; 2];

pub struct Body {
    pub weight: f64,
    pub centre: Place,
    pub friction: f64,
    /// Most that the feet push, at the first contact.
    pub push: f64,
    /// The ground falls so steeply toward the load (radians).
    pub slope: f64,
    /// The rope rises so steeply toward the load (radians).
    pub rope: f64,
    pub sling: Place,
    pub contacts: Vec<Place>,
}

fn moment(at: Place, force: Place) -> f64 {
    at[0] * force[1] - at[1] * force[0]
}

impl Body {
    /// The largest pull from 0 to `most` that the ground can hold, or none if it cannot hold any of them.
    pub fn holds(&self, most: f64) -> Option<f64> {
        let toward = [self.slope.cos(), -self.slope.sin()];
        let away = [self.slope.sin(), self.slope.cos()];
        // Variables in units of the weight: pull, push, then press and rub of each contact.
        let mut acts: Vec<(Place, Place)> =
            vec![(self.sling, [self.rope.cos(), self.rope.sin()]), (self.contacts[0], [-toward[0], -toward[1]])];
        for &contact in &self.contacts {
            acts.push((contact, away));
            acts.push((contact, toward));
        }
        let (mut rows, mut columns, mut values) = (Vec::new(), Vec::new(), Vec::new());
        let mut entry = |row: usize, column: usize, value: f64| {
            rows.push(row);
            columns.push(column);
            values.push(value);
        };
        for (column, &(at, force)) in acts.iter().enumerate() {
            entry(0, column, force[0]);
            entry(1, column, force[1]);
            entry(2, column, moment(at, force));
        }
        // What the weight leaves to be held.
        let mut right = vec![0.0, 1.0, -moment(self.centre, [0.0, -1.0])];
        for (column, top) in [(0, most / self.weight), (1, self.push / self.weight)] {
            entry(right.len(), column, -1.0);
            right.push(0.0);
            entry(right.len(), column, 1.0);
            right.push(top);
        }
        for column in (2..acts.len()).step_by(2) {
            entry(right.len(), column, -1.0);
            right.push(0.0);
            for sign in [1.0, -1.0] {
                entry(right.len(), column, -self.friction);
                entry(right.len(), column + 1, sign);
                right.push(0.0);
            }
        }
        let mut costs = vec![0.0; acts.len()];
        costs[0] = -1.0;
        let matrix = CscMatrix::new_from_triplets(right.len(), acts.len(), rows, columns, values);
        let cones = [ZeroConeT(3), NonnegativeConeT(right.len() - 3)];
        let settings = DefaultSettings {
            verbose: false,
            tol_gap_abs: 1e-10,
            tol_gap_rel: 1e-10,
            tol_feas: 1e-10,
            max_iter: 300,
            ..DefaultSettings::default()
        };
        let none = CscMatrix::zeros((acts.len(), acts.len()));
        let mut solver = DefaultSolver::new(&none, &costs, &matrix, &right, &cones, settings).unwrap();
        solver.solve();
        match solver.solution.status {
            SolverStatus::Solved | SolverStatus::AlmostSolved => Some(solver.solution.x[0] * self.weight),
            SolverStatus::PrimalInfeasible | SolverStatus::AlmostPrimalInfeasible => None,
            other => panic!("the linear program ended as {other:?}"),
        }
    }

    /// Whether the body stays where it is without a rope.
    pub fn stands(&self) -> bool {
        self.holds(0.0).is_some()
    }
}

/// A crate of one kilonewton, a metre long, pulled level at its middle: by hand.
#[test]
fn a_crate_slides_or_tips_as_everyone_knows() {
    let crate_of = |friction, sling| Body {
        weight: 1000.0,
        centre: [-0.5, 0.5],
        friction,
        push: 0.0,
        slope: 0.0,
        rope: 0.0,
        sling: [0.0, sling],
        contacts: vec![[0.0, 0.0], [-1.0, 0.0]],
    };
    assert!((crate_of(0.4, 0.5).holds(1e5).unwrap() - 400.0).abs() < 1e-3, "friction");
    assert!((crate_of(0.9, 1.0).holds(1e5).unwrap() - 500.0).abs() < 1e-3, "half its length over its height");
    let steep = Body { slope: 0.5, ..crate_of(0.4, 0.5) };
    assert!(!steep.stands(), "27° is more than the angle of friction");
}
