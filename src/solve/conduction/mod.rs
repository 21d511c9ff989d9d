//! Steady heat conduction in two dimensions: the cold steel and all that touches it.
//!
//! Problem: temperatures in a [`Detail`](crate::model::detail::Detail), a cut made of rectangles
//! of solid between air and faces of given temperatures.
//!
//! ```text
//! ∂/∂x (k_x ∂T/∂x) + ∂/∂y (k_y ∂T/∂y) = 0                in the solid
//! −k ∂T/∂n = (T − T_air) / R                             where it meets air, R the film
//! T = T_face                                             on held faces
//! ∂T/∂n = 0                                              at all other edges of the cut
//! ```
//! Discretization: cell-centered finite volumes with harmonic-mean conductances on a graded
//! rectilinear grid, every material edge on a line (`assembly`, [`Grid`]). Conserved: heat, to the
//! residual of the system, which is computed anew from the temperatures and reported together
//! with the balance ([`SolveReport`]). Order of accuracy: two where the solution is smooth; at
//! corners where materials meet it is singular and the order lies between one and two, near two
//! on a strongly graded grid. It is observed, not assumed (`refine`). Where a corner itself is
//! asked for, no grid gives it: the coldest surface is that of a cell's middle.
//!
//! The system is solved by conjugate gradients on half of the unknowns (`reduced`), preconditioned
//! by a multigrid cycle that coarsens across lines and solves along them (`stencil`, `cycle`);
//! iterations that stagnate give way to a sparse factorization (`direct`).
//!
//! Reference: ISO 10211 for the problem and its results. Limits: steady, two-dimensional, fixed
//! conductivities and films; no radiation between surfaces, no air movement.

mod assembly;
mod cycle;
mod direct;
mod elements;
mod field;
mod grid;
mod isotherm;
mod lanes;
mod line;
mod reduced;
mod refine;
mod result;
mod solution;
mod solver;
mod stencil;
mod system;

pub use elements::Elements;
pub(in crate::solve) use field::CellField;
pub use field::Field;
pub(in crate::solve) use field::intervals_at;
pub use grid::{Axis, Grading, Grid, MOST_CELLS};
pub(in crate::solve) use grid::{distance_from_edge, steps_from_edge};
pub use isotherm::{Polyline, isotherms};
pub use refine::{Estimate, Precision};
pub(in crate::solve) use result::through;
pub use result::{
    Coldest, Conduction, Couplings, GridRecord, MOST_COUPLED, couplings, solve_detail,
};
pub use solution::{Solution, SurfacePoint, coldest, mean_temperature};
pub use solver::{Method, SolveReport, SolveTolerance};
pub use system::{Equations, System};

use std::fmt::{self, Display, Formatter};

/// Why a detail couldn't be solved.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum ConductionError {
    /// The grid would have more cells than [`MOST_CELLS`].
    TooManyCells {
        /// How many, as far as they can be counted.
        cells: usize,
    },
    /// More boundaries than [`MOST_COUPLED`].
    TooManyBoundaries {
        /// How many.
        count: usize,
    },
}

impl Display for ConductionError {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooManyCells { cells } => write!(
                f,
                "the grid for this detail would have {cells} cells: at most {MOST_CELLS} can be handled; draw fewer or larger parts"
            ),
            Self::TooManyBoundaries { count } => write!(
                f,
                "the couplings of {count} airs and held faces: at most {MOST_COUPLED} can be handled"
            ),
        }
    }
}

impl std::error::Error for ConductionError {}

#[cfg(test)]
mod tests;
