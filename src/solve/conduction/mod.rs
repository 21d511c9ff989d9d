//! Steady heat conduction in two dimensions.

mod assembly;
mod cycle;
mod direct;
mod field;
mod grid;
mod isotherm;
mod lanes;
mod line;
mod reduced;
mod solution;
mod solver;
mod stencil;

pub use field::Field;
pub use grid::{Axis, Grading, Grid, MOST_CELLS};
pub use isotherm::{Polyline, isotherms};
pub use solution::{Solution, SurfacePoint, coldest, mean_temperature};
pub use solver::{Method, SolveReport, SolveTolerance};

/// Why a detail couldn't be solved.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum ConductionError {
    /// The grid would have more cells than [`MOST_CELLS`].
    TooManyCells {
        /// How many, as far as they can be counted.
        cells: usize,
    },
}
