//! The coarsest network, solved outright: Cholesky factors of a banded matrix.
//!
//! Cells are numbered along the shortest side of the box first, which keeps the band narrow. Source:
//! Golub and Van Loan, "Matrix Computations", band Cholesky (from memory).

use super::network::{Network, dot};

/// Row i of the factor holds columns i − band ..= i.
#[derive(Debug)]
pub(super) struct Coarsest {
    /// The solid cells in the order of elimination.
    cells: Vec<usize>,
    band: usize,
    factor: Vec<f64>,
}

impl Coarsest {
    pub(super) fn of(network: &Network) -> Self {
        let cells = by_shortest_side(network);
        let mut number = vec![0; network.layout.len()];
        for (at, cell) in cells.iter().enumerate() {
            number[*cell] = at;
        }
        // The earlier neighbor along each axis, and the conductance to it.
        let before = |cell: usize, axis: usize| {
            let neighbor = cell - network.layout.stride[axis];
            let conductance = network.along[axis][neighbor];
            (conductance > 0.0).then(|| (number[neighbor], conductance))
        };
        let links = cells
            .iter()
            .enumerate()
            .flat_map(|(at, cell)| (0..3).filter_map(move |axis| Some((at, before(*cell, axis)?))));
        let links: Vec<(usize, (usize, f64))> = links.collect();
        let reach = links.iter().map(|(at, (other, _))| at - other);
        let band = reach.max().unwrap_or(0);
        let mut factor = vec![0.0; cells.len() * (band + 1)];
        for (at, cell) in cells.iter().enumerate() {
            factor[at * (band + 1) + band] = network.diagonal(*cell);
        }
        for (at, (other, conductance)) in links {
            factor[at * (band + 1) + band + other - at] = -conductance;
        }
        let mut coarsest = Self {
            cells,
            band,
            factor,
        };
        coarsest.factorize();
        coarsest
    }

    fn factorize(&mut self) {
        let (band, width) = (self.band, self.band + 1);
        for i in 0..self.cells.len() {
            let (above, row) = self.factor.split_at_mut(i * width);
            for j in i.saturating_sub(band)..=i {
                // What rows i and j share before column j.
                let from = i.saturating_sub(band);
                let (at, len) = (from + band - i, j - from);
                let entry = row[j + band - i];
                row[j + band - i] = if j == i {
                    let rest = entry - dot(&row[at..][..len], &row[at..][..len]);
                    rest.max(f64::MIN_POSITIVE).sqrt()
                } else {
                    let other = &above[j * width..][..width];
                    let rest = entry - dot(&row[at..][..len], &other[from + band - j..][..len]);
                    rest / other[band]
                };
            }
        }
    }

    /// x = A⁻¹ b in the solid cells.
    pub(super) fn solve(&self, b: &[f32], x: &mut [f32]) {
        let (band, width) = (self.band, self.band + 1);
        let row = |i: usize| {
            let row = &self.factor[i * width..][..width];
            let from = i.saturating_sub(band);
            (from, &row[from + band - i..band], row[band])
        };
        let mut y = vec![0.0; self.cells.len()];
        for i in 0..y.len() {
            let (from, before, pivot) = row(i);
            y[i] = (f64::from(b[self.cells[i]]) - dot(before, &y[from..i])) / pivot;
        }
        for i in (0..y.len()).rev() {
            let (from, before, pivot) = row(i);
            y[i] /= pivot;
            let value = y[i];
            for (y, entry) in y[from..i].iter_mut().zip(before) {
                *y -= entry * value;
            }
            x[self.cells[i]] = value as f32;
        }
    }
}

/// The solid cells, along the shortest side first and along the longest last.
fn by_shortest_side(network: &Network) -> Vec<usize> {
    let counts = network.layout.counts;
    let mut axes = [0, 1, 2];
    axes.sort_by_key(|axis| counts[*axis]);
    let [inner, middle, outer] = axes;
    let mut cells = Vec::new();
    for c in 0..counts[outer] {
        for b in 0..counts[middle] {
            for a in 0..counts[inner] {
                let mut cell = [0; 3];
                (cell[inner], cell[middle], cell[outer]) = (a, b, c);
                cells.push(network.layout.at(cell));
            }
        }
    }
    cells.retain(|cell| network.diagonal(*cell) > 0.0);
    cells
}
