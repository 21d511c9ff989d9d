//! Cell-centered finite volumes: a grid becomes a network of conductances.
//!
//! ```text
//! between cells        g = A / (d1/2k1 + d2/2k2)                    harmonic mean
//! cell to a boundary   g = A / (d/2k + R)                           film R, or 0 where held
//! in every cell        Σ g (T_neighbor − T) + Σ g (T_boundary − T) = 0
//! ```
//! A area per meter of length (m), d cell width, k conductivity. Heat that leaves one cell
//! enters the next, so the balance closes whatever the grid. All conductances are W/(m·K).

use super::grid::Grid;
use crate::model::detail::{Block, Contact, Detail, Facing, Place};

/// Where a cell meets air or a held face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Link {
    /// Row by row from the lowest.
    pub(super) cell: u32,
    /// Which of the detail's boundaries.
    pub(super) boundary: u32,
    /// The side of the cell.
    pub(super) facing: Facing,
    /// From the cell's center to the boundary, W/(m·K).
    pub(super) conductance: f64,
    /// Share of the film in that resistance: what lies between surface and boundary.
    pub(super) film_share: f64,
}

/// The network: a symmetric matrix with five entries in a row.
#[derive(Clone, Debug)]
pub(super) struct Network {
    pub(super) nx: usize,
    pub(super) ny: usize,
    /// To the right neighbor; 0 in the last column.
    pub(super) right: Vec<f64>,
    /// To the upper neighbor; 0 in the uppermost row.
    pub(super) up: Vec<f64>,
    /// In the order of their cells.
    pub(super) links: Vec<Link>,
    /// On the diagonal of cells that hold air: they have no neighbors, and a great number there
    /// would leak into the coarse operators.
    pub(super) void: f64,
}

/// The half resistances of a cell of each column or row, by block.
pub(super) struct Cells<'a> {
    pub(super) detail: &'a Detail,
    pub(super) grid: &'a Grid,
}

impl<'a> Cells<'a> {
    pub(super) fn block(&self, column: usize, row: usize) -> Option<&'a Block> {
        let (column, row) = self.place(column, row);
        match self.detail.place(column, row) {
            Place::Block(block) => Some(&self.detail.parts().blocks[block as usize]),
            _ => None,
        }
    }

    fn place(&self, column: usize, row: usize) -> (usize, usize) {
        let (x, y) = (&self.grid.x.place, &self.grid.y.place);
        (x[column] as usize, y[row] as usize)
    }

    /// Visits every side of a solid cell that meets a boundary, in the order of the cells.
    pub(super) fn each_contact(
        &self,
        mut visit: impl FnMut((usize, usize), &Block, Facing, Contact),
    ) {
        for row in 0..self.grid.y.cells() {
            for column in 0..self.grid.x.cells() {
                let Some(block) = self.block(column, row) else {
                    continue;
                };
                let (place_x, place_y) = self.place(column, row);
                for facing in Facing::ALL {
                    if !self.is_last_of_place((column, row), facing) {
                        continue;
                    }
                    if let Some(contact) = self.detail.contact(place_x, place_y, facing) {
                        visit((column, row), block, facing, contact);
                    }
                }
            }
        }
    }

    /// Whether the cell's side is one of its place's.
    fn is_last_of_place(&self, (column, row): (usize, usize), facing: Facing) -> bool {
        let (x, y) = (&self.grid.x.place, &self.grid.y.place);
        match facing {
            Facing::Left => column == 0 || x[column - 1] != x[column],
            Facing::Right => x.get(column + 1) != Some(&x[column]),
            Facing::Down => row == 0 || y[row - 1] != y[row],
            Facing::Up => y.get(row + 1) != Some(&y[row]),
        }
    }
}

impl Network {
    /// So many unknowns each way, none of them joined yet.
    pub(super) fn bare(detail: &Detail, nx: usize, ny: usize) -> Self {
        Self {
            nx,
            ny,
            right: vec![0.0; nx * ny],
            up: vec![0.0; nx * ny],
            links: Vec::new(),
            void: void_diagonal(detail),
        }
    }

    pub(super) fn of(detail: &Detail, grid: &Grid) -> Self {
        let mut network = Self::bare(detail, grid.x.cells(), grid.y.cells());
        let cells = Cells { detail, grid };
        network.join(&cells);
        network.link(&cells);
        network
    }

    /// Conductances between neighbors.
    fn join(&mut self, cells: &Cells<'_>) {
        let (nx, ny) = (self.nx, self.ny);
        let (x, y) = (&cells.grid.x, &cells.grid.y);
        // Resistances of half a cell to the right and upward, times the area: d / 2k.
        let (mut along, mut across) = (vec![f64::INFINITY; nx], vec![f64::INFINITY; nx]);
        for row in 0..ny {
            let height = y.width(row);
            let below = row * nx;
            for column in 0..nx {
                let block = cells.block(column, row);
                let half = |width: f64, conductivity: fn(&Block) -> f64| {
                    block.map_or(f64::INFINITY, |block| 0.5 * width / conductivity(block))
                };
                along[column] = half(x.width(column), |block| block.conductivity.x);
                let upward = half(height, |block| block.conductivity.y);
                if row > 0 {
                    self.up[below + column - nx] = x.width(column) / (across[column] + upward);
                }
                across[column] = upward;
            }
            for (column, pair) in along.windows(2).enumerate() {
                self.right[below + column] = height / (pair[0] + pair[1]);
            }
        }
    }

    /// Conductances to boundaries.
    fn link(&mut self, cells: &Cells<'_>) {
        let nx = self.nx;
        cells.each_contact(|(column, row), block, facing, contact| {
            let size = (cells.grid.x.width(column), cells.grid.y.width(row));
            let cell = (row * nx + column) as u32;
            self.links.push(link(cell, block, size, facing, contact));
        });
    }

    /// The diagonal of the matrix, row by row of the grid from the lowest.
    pub(super) fn diagonals(&self, mut visit: impl FnMut(usize, &[f64])) {
        let nx = self.nx;
        let mut diagonal = vec![0.0; nx];
        let mut links = self.links.iter().peekable();
        for row in 0..self.ny {
            let cells = row * nx..(row + 1) * nx;
            let (right, up) = (&self.right[cells.clone()], &self.up[cells.clone()]);
            diagonal[0] = right[0] + up[0];
            for column in 1..nx {
                diagonal[column] = right[column - 1] + right[column] + up[column];
            }
            if row > 0 {
                let below = &self.up[cells.start - nx..cells.start];
                for (entry, below) in diagonal.iter_mut().zip(below) {
                    *entry += below;
                }
            }
            while let Some(link) = links.next_if(|link| cells.contains(&(link.cell as usize))) {
                diagonal[link.cell as usize - cells.start] += link.conductance;
            }
            for entry in &mut diagonal {
                *entry = if *entry == 0.0 { self.void } else { *entry };
            }
            visit(row, &diagonal);
        }
    }

    /// The same at once.
    pub(super) fn diagonal(&self) -> Vec<f64> {
        let mut all = Vec::with_capacity(self.nx * self.ny);
        self.diagonals(|_, row| all.extend_from_slice(row));
        all
    }

    /// Adds the heat fed into each cell by boundaries of those temperatures, W/m.
    pub(super) fn add_source(&self, boundary_temperatures: &[f64], sums: &mut [f64]) {
        for link in &self.links {
            sums[link.cell as usize] +=
                link.conductance * boundary_temperatures[link.boundary as usize];
        }
    }

    /// Heat from each boundary into the solid, W/m.
    pub(super) fn flows(&self, boundary_temperatures: &[f64], temperature: &[f64]) -> Vec<f64> {
        let mut flows = vec![0.0; boundary_temperatures.len()];
        for link in &self.links {
            let boundary = link.boundary as usize;
            let difference = boundary_temperatures[boundary] - temperature[link.cell as usize];
            flows[boundary] += link.conductance * difference;
        }
        flows
    }

    /// Takes from `residual` the heat that leaves each cell at these temperatures, W/m. By
    /// differences of neighbors, which rounding hurts far less than the matrix's rows would.
    pub(super) fn subtract_outflow(&self, temperature: &[f64], residual: &mut [f64]) {
        let nx = self.nx;
        for row in 0..self.ny {
            let at = row * nx;
            let (here, right) = (&temperature[at..at + nx], &self.right[at..at + nx]);
            let sums = &mut residual[at..at + nx];
            for column in 0..nx - 1 {
                let flow = right[column] * (here[column] - here[column + 1]);
                sums[column] -= flow;
                sums[column + 1] += flow;
            }
            if row + 1 < self.ny {
                let (lower, upper) = residual[at..at + 2 * nx].split_at_mut(nx);
                let above = &temperature[at + nx..at + 2 * nx];
                let up = &self.up[at..at + nx];
                for column in 0..nx {
                    let flow = up[column] * (here[column] - above[column]);
                    lower[column] -= flow;
                    upper[column] += flow;
                }
            }
        }
        for link in &self.links {
            let cell = link.cell as usize;
            residual[cell] -= link.conductance * temperature[cell];
        }
    }
}

/// Small against every conductance between cells.
fn void_diagonal(detail: &Detail) -> f64 {
    let blocks = detail.parts().blocks.iter();
    let least = blocks.map(|block| block.conductivity.x.min(block.conductivity.y));
    1e-8 * least.fold(f64::INFINITY, f64::min)
}

fn link(
    cell: u32,
    block: &Block,
    (width, height): (f64, f64),
    facing: Facing,
    contact: Contact,
) -> Link {
    let (half, area) = match facing {
        Facing::Left | Facing::Right => (0.5 * width / block.conductivity.x, height),
        Facing::Down | Facing::Up => (0.5 * height / block.conductivity.y, width),
    };
    let resistance = half + contact.film;
    Link {
        cell,
        boundary: contact.boundary as u32,
        facing,
        conductance: area / resistance,
        film_share: contact.film / resistance,
    }
}
