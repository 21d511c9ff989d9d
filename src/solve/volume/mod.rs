//! Steady heat conduction in three dimensions: for the corner of a floor edge, where two flanges
//! meet and the house's coldest wood lies.
//!
//! Problem: temperatures in a [`Volume`](crate::model::volume::Volume), boxes of solid between air and
//! faces of given temperatures.
//!
//! ```text
//! ∇·(k ∇T) = 0                   in the solid
//! −k ∂T/∂n = (T − T_air) / R     where it meets air, R the film
//! T = T_face                     on held faces
//! ∂T/∂n = 0                      at all other sides of the volume
//! ```
//! Discretization: cell-centered finite volumes with harmonic-mean conductances on a graded
//! rectilinear grid, every material face on a plane (`assembly`, [`Grid`]). Conserved: heat, to the
//! residual of the system, which is computed anew from the temperatures and reported together with
//! the balance. Temperatures of faces are found at the faces, from the conductances of the cells on
//! both sides, not in the middle of a cell. Order of accuracy: two where the solution is smooth; at
//! re-entrant edges and corners it is singular, and only a grid as strongly graded as [`Grid`] makes
//! it keeps the order near two. It is observed on three nested grids, not assumed ([`solve_volume`]).
//!
//! The system is solved by conjugate gradients (`solver`), preconditioned by a multigrid cycle
//! (`cycle`) that merges cells by their width and never across a material face before it must
//! (`coarsen`, `transfer`), with incomplete Cholesky factors for a smoother (`smooth`) and a banded Cholesky at
//! the bottom (`coarsest`).
//!
//! Reference: ISO 10211 for the problem and its results. Limits: steady, fixed conductivities, the
//! same in every direction, and fixed films; no radiation between surfaces, no air movement.

mod assembly;
mod coarsen;
mod coarsest;
mod cycle;
mod grid;
mod network;
mod result;
mod slice;
mod smooth;
mod solution;
mod solver;
mod symmetry;
mod transfer;

pub use grid::{Grid, MOST_CELLS};
pub use result::{Extreme, GridRecord, Precision, VolumeResult, solve_volume};
pub use solution::{FacePoint, Faces, Solution};

use std::fmt::{self, Display, Formatter};

/// Why a volume couldn't be solved.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum VolumeError {
    /// The grid would have more cells than [`MOST_CELLS`].
    TooManyCells {
        /// How many, as far as they can be counted.
        cells: usize,
    },
}

impl Display for VolumeError {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooManyCells { cells } => write!(
                f,
                "the grid for this volume would have {cells} cells: at most {MOST_CELLS} can be handled; draw fewer or larger parts"
            ),
        }
    }
}

impl std::error::Error for VolumeError {}

#[cfg(test)]
mod tests;
