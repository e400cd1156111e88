//! The engine: where does this rig come to rest, and what does every line carry?
//!
//! # The problem
//! A rig is a set of points and lines. Find the places `x` of its free points that minimise the
//! potential energy
//!
//! ```text
//! Π(x) = Σ_lines  EA/(2 L0) · max(0, ℓ(x) − L0)²   −   Σ_points  f·x
//! ```
//!
//! | symbol | unit | meaning |
//! |---|---|---|
//! | `x` | m | places of the free points; anchors do not move |
//! | `f` | N | load on a free point |
//! | `ℓ(x)` | m | length of a line's path through its points, `Σ |d|` over its parts `d` |
//! | `L0` | m | unstretched length of the line |
//! | `EA` | N | stiffness of the line: tension per unit of relative stretch |
//! | `k` | N/m | `EA/L0` |
//! | `t` | N | tension, `k · max(0, ℓ − L0)`: lines pull and never push |
//! | `u` | 1 | direction of a part, `d/|d|` |
//! | `g` | N | gradient of `Π`: minus the force left over at each free point |
//! | `H` | N/m | curvature of `Π`: `k A Aᵀ + t Σ (I − u uᵀ)/|d|` per taut line, `A = ∂ℓ/∂x` |
//! | `w` | N/m | weight of a line per unstretched metre; the line is then an elastic catenary between exactly two points |
//!
//! A line is tied at its two ends and runs freely through every point between them. Each term of
//! `Π` is convex, so there is one equilibrium and no local trap: tensions are unique even where
//! places are not. Gravity pulls along −z; everything is SI and plain `f64`.
//!
//! # The answer
//! [`solve`] never fails: bad input is refused while the [`Rig`] is built ([`RigError`]), and what is
//! not a solution is a [`Status`]. Numbers exist only in [`Status::Balanced`].
//!
//! ```
//! use rigging_core::statics::{Rig, Settings, solve};
//!
//! let mut rig = Rig::new();
//! let left = rig.add_held("left bolt", [-0.5, 0.0, 0.0])?;
//! let right = rig.add_held("right bolt", [0.5, 0.0, 0.0])?;
//! let master = rig.add_free("master point", [0.0, 0.0, -0.8], [0.0, 0.0, -785.0])?;
//! let leg = rig.add_line("left leg", &[left, master], 0.94, 30_000.0)?;
//! rig.add_line("right leg", &[right, master], 0.94, 30_000.0)?;
//!
//! let solution = solve(&rig, &Settings::default());
//! let tension = solution.balanced().and_then(|rest| rest.line(leg)).map(|leg| leg.tension());
//! assert!(tension.is_some_and(|newton| (newton - 460.8).abs() < 0.1));
//! # Ok::<(), rigging_core::statics::RigError>(())
//! ```
//!
//! # What is deliberately absent
//! Friction at a bend is not part of `Π`; it is a band found from the force balance at both extremes.
//! Weight on a line that runs through a point is refused, because that energy is not convex.

#![expect(clippy::neg_cmp_op_on_partial_ord, reason = "`!(a > b)` puts a NaN on the side that refuses")]

mod answer;
mod catenary;
mod determined;
mod energy;
mod held;
mod line;
mod model;
mod newton;
#[cfg(test)]
mod numbers;
mod order;
mod proof;
mod rig;
mod rig_error;
mod rig_file;
mod rig_parts;
mod search;
mod solution;
mod solve;
mod space;
mod sparse;
mod stiff;
mod stops;

pub use answer::Answer;
pub use line::{LineAtWork, LoadOnLine, LoadedLine};
pub use rig::Rig;
pub use rig_error::{Owner, RigError};
pub use rig_parts::{Line, LineId, Point, PointId};
pub use solution::{Equilibrium, LineAtRest, PointAtRest, Settings, Solution, Status};
pub use solve::{Solver, solve};

/// A place (m) or a force (N) in space, z upward.
/// ```
/// use rigging_core::statics::{Rig, Vector};
///
/// // Three numbers are taken for one wherever a place or a force is asked for; told is a vector.
/// let mut rig = Rig::new();
/// rig.add_held("bolt", [3.0, 4.0, 0.0])?;
/// rig.add_held("ring", Vector::new(3.0, 4.0, 2.0))?;
/// let up: Vector = rig.points()[1].at() - rig.points()[0].at();
/// assert_eq!((up.z, up.norm(), rig.points()[0].at().norm()), (2.0, 2.0, 5.0));
/// # Ok::<(), rigging_core::statics::RigError>(())
/// ```
pub type Vector = nalgebra::Vector3<f64>;

/// A block of the stiffness matrix (N/m).
type Matrix = nalgebra::Matrix3<f64>;
