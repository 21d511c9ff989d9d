//! The fallback: a sparse Cholesky factorization, ordered by nested dissection of the grid.

use nalgebra::DVector;
use nalgebra_sparse::factorization::CscCholesky;
use nalgebra_sparse::{CooMatrix, CscMatrix};

use super::assembly::Network;

/// The most solid cells it is used for: some seconds and half a gigabyte.
pub(super) const MOST_DIRECT: usize = 250_000;

/// The factors of a network's matrix.
#[derive(Debug)]
pub(super) struct Direct {
    /// Cells in the order of elimination.
    order: Vec<usize>,
    factors: CscCholesky<f64>,
}

impl Direct {
    /// `None` where the matrix is too large or not positive definite.
    pub(super) fn of(network: &Network) -> Option<Self> {
        let diagonal = network.diagonal();
        let is_solid: Vec<bool> = diagonal.iter().map(|d| *d != network.void).collect();
        if is_solid.iter().filter(|solid| **solid).count() > MOST_DIRECT {
            return None;
        }
        let order = dissection(network.nx, network.ny, &is_solid);
        let mut number = vec![usize::MAX; diagonal.len()];
        for (at, cell) in order.iter().enumerate() {
            number[*cell] = at;
        }
        let mut matrix = CooMatrix::new(order.len(), order.len());
        for (at, &cell) in order.iter().enumerate() {
            matrix.push(at, at, diagonal[cell]);
            let neighbors = [
                (network.right[cell], cell + 1),
                (network.up[cell], cell + network.nx),
            ];
            for (conductance, neighbor) in neighbors {
                if conductance > 0.0 {
                    matrix.push(at, number[neighbor], -conductance);
                    matrix.push(number[neighbor], at, -conductance);
                }
            }
        }
        let factors = CscCholesky::factor(&CscMatrix::from(&matrix)).ok()?;
        Some(Self { order, factors })
    }

    /// Solves A x = `residual` and adds x.
    pub(super) fn correct(&self, residual: &[f64], solution: &mut [f64]) {
        let rhs = self.order.iter().map(|cell| residual[*cell]);
        let rhs = DVector::from_iterator(self.order.len(), rhs);
        let change = self.factors.solve(&rhs);
        for (cell, change) in self.order.iter().zip(change.iter()) {
            solution[*cell] += change;
        }
    }
}

/// Cells of a box in the order that keeps the factors sparse: halves first, then the line of
/// cells between them (George 1973, "Nested dissection of a regular finite element mesh",
/// SIAM J. Numer. Anal. 10; from memory).
fn dissection(nx: usize, ny: usize, is_solid: &[bool]) -> Vec<usize> {
    let mut order = Vec::new();
    dissect((0, nx), (0, ny), &mut |column, row| {
        let cell = row * nx + column;
        if is_solid[cell] {
            order.push(cell);
        }
    });
    order
}

fn dissect(x: (usize, usize), y: (usize, usize), visit: &mut impl FnMut(usize, usize)) {
    let (width, height) = (x.1 - x.0, y.1 - y.0);
    if width == 0 || height == 0 {
        return;
    }
    if width.max(height) <= 2 {
        (y.0..y.1).for_each(|row| (x.0..x.1).for_each(|column| visit(column, row)));
    } else if width >= height {
        let middle = x.0 + width / 2;
        dissect((x.0, middle), y, visit);
        dissect((middle + 1, x.1), y, visit);
        (y.0..y.1).for_each(|row| visit(middle, row));
    } else {
        let middle = y.0 + height / 2;
        dissect(x, (y.0, middle), visit);
        dissect(x, (middle + 1, y.1), visit);
        (x.0..x.1).for_each(|column| visit(column, middle));
    }
}
