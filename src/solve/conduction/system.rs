//! The bare linear system, for comparison with other solvers.

use super::assembly::Network;
use super::grid::Grid;
use super::solver::{SolveReport, SolveTolerance, Solver};
use crate::model::detail::Detail;

/// The finite-volume system of a detail on a grid.
#[derive(Clone, Debug)]
pub struct System {
    network: Network,
    boundary_temperatures: Vec<f64>,
}

/// A symmetric matrix and a right-hand side, of the solid cells only.
#[derive(Clone, Debug, PartialEq)]
pub struct Equations {
    /// For each unknown, its cell: row by row from the lowest.
    pub cells: Vec<usize>,
    /// Row, column and value of each entry, W/(m·K); both halves.
    pub entries: Vec<(usize, usize, f64)>,
    /// Temperatures count from the coldest boundary, W/m.
    pub right_hand_side: Vec<f64>,
}

impl System {
    /// The system of a detail.
    #[must_use]
    pub fn of(detail: &Detail, grid: &Grid) -> Self {
        let temperatures = detail.boundaries().iter().map(|one| one.temperature);
        Self {
            network: Network::of(detail, grid),
            boundary_temperatures: temperatures.collect(),
        }
    }

    /// The equations as another solver would want them.
    #[must_use]
    pub fn equations(&self) -> Equations {
        let diagonal = self.network.diagonal();
        let is_solid = |cell: &usize| diagonal[*cell] != self.network.void;
        let cells: Vec<usize> = (0..diagonal.len()).filter(is_solid).collect();
        let mut number = vec![usize::MAX; diagonal.len()];
        for (unknown, cell) in cells.iter().enumerate() {
            number[*cell] = unknown;
        }
        let mut entries = Vec::new();
        for (unknown, &cell) in cells.iter().enumerate() {
            entries.push((unknown, unknown, diagonal[cell]));
            let (right, up) = (self.network.right[cell], self.network.up[cell]);
            for (conductance, neighbor) in [(right, cell + 1), (up, cell + self.network.nx)] {
                if conductance > 0.0 {
                    entries.push((unknown, number[neighbor], -conductance));
                    entries.push((number[neighbor], unknown, -conductance));
                }
            }
        }
        let mut source = vec![0.0; diagonal.len()];
        self.network.add_source(&self.excess(), &mut source);
        Equations {
            right_hand_side: cells.iter().map(|cell| source[*cell]).collect(),
            cells,
            entries,
        }
    }

    /// Solves it from the conductances on: temperatures of all cells, °C.
    #[must_use]
    pub fn solve(self, tolerance: &SolveTolerance) -> (Vec<f64>, SolveReport) {
        Solver::of(self.network).solve(&self.boundary_temperatures, tolerance)
    }

    fn excess(&self) -> Vec<f64> {
        let temperatures = self.boundary_temperatures.iter().copied();
        let coldest = temperatures.clone().fold(f64::INFINITY, f64::min);
        temperatures.map(|t| t - coldest).collect()
    }
}
