//! Finite elements on the lines of a grid, beside the volumes in its cells: a bracket where four
//! materials meet in a corner.
//!
//! Where good and bad conductors meet crosswise the field goes with r^λ, λ near zero, and no grid that
//! can be computed shows what it tends to. But its two discretizations miss the corner on either side:
//! volumes touch there at a point and pass no heat through it, elements share a node there and pass too
//! much. Each cell is split into two right-angled triangles with linear temperatures, which couple
//! neighboring nodes only:
//!
//! ```text
//! along a cell's lower and upper side   g = k_x · height / (2 · width)      half of its conductance each
//! from a node to a boundary             g = half of the side / R            R the film
//! ```
//! A continuous field of temperature never passes less heat than the true one (Dirichlet's principle;
//! Strang and Fix 1973), and a film at a side's ends passes no less than along the side, so between two
//! temperatures the heat flow of the elements is an upper bound.
//!
//! *Check.* A checkerboard of two conductivities conducts as their geometric mean (J. B. Keller 1964,
//! "A theorem on the conductivity of a composite medium", J. Math. Phys. 5, from memory): in
//! `tests/published`.

use super::assembly::{Cells, Link, Network};
use super::grid::{Axis, Grid};
use super::solver::{SolveTolerance, Solver};
use crate::model::detail::{Detail, Facing};

/// The resistance that stands for none between a node and a held face, m²·K/W.
const HELD: f64 = 1e-8;
/// The share of the film in a link to a held face: there is none.
const HELD_SHARE: f64 = 0.0;

/// Temperatures at the crossings of a grid's lines.
#[derive(Clone, Debug)]
pub struct Elements {
    x: Axis,
    y: Axis,
    /// Row by row from the lowest, °C.
    nodes: Vec<f64>,
    /// Heat from each boundary into the solid, W/m.
    flows: Vec<f64>,
}

impl Elements {
    /// Solves a detail by elements on a grid's lines; `None` where faces held at two temperatures meet, so
    /// that no bound of the heat flow exists, and where the equations can't be met.
    #[must_use]
    pub(super) fn on(detail: &Detail, grid: &Grid, tolerance: &SolveTolerance) -> Option<Self> {
        let network = network(detail, grid);
        let temperatures: Vec<f64> = detail
            .boundaries()
            .iter()
            .map(|one| one.temperature)
            .collect();
        if is_torn(&network, &temperatures) {
            return None;
        }
        let mut solver = Solver::of(network);
        let (nodes, report) = solver.solve(&temperatures, tolerance);
        report.converged.then(|| Self {
            flows: solver.network.flows(&temperatures, &nodes),
            x: grid.x.clone(),
            y: grid.y.clone(),
            nodes,
        })
    }

    /// Heat from each boundary into the solid, W/m, in the order of the detail's boundaries.
    #[must_use]
    pub fn flows(&self) -> &[f64] {
        &self.flows
    }

    /// The temperature at a point of the solid, °C: bilinear between the nodes around it.
    #[must_use]
    pub fn at(&self, x: f64, y: f64) -> f64 {
        let (column, row) = (self.x.cell_at(x), self.y.cell_at(y));
        let right = ((x - self.x.lines[column]) / self.x.width(column)).clamp(0.0, 1.0);
        let up = ((y - self.y.lines[row]) / self.y.width(row)).clamp(0.0, 1.0);
        let node = |column: usize, row: usize| self.nodes[row * self.x.lines.len() + column];
        let along =
            |row: usize| node(column, row) + right * (node(column + 1, row) - node(column, row));
        along(row) + up * (along(row + 1) - along(row))
    }
}

/// Whether a node is held at two temperatures.
fn is_torn(network: &Network, temperatures: &[f64]) -> bool {
    let held = network
        .links
        .iter()
        .filter(|link| link.film_share == HELD_SHARE);
    let mut last: Option<(u32, f64)> = None;
    held.map(|link| (link.cell, temperatures[link.boundary as usize]))
        .any(|(node, temperature)| {
            let before = last.replace((node, temperature));
            before.is_some_and(|(other, t)| other == node && t != temperature)
        })
}

/// Nodes as the cells of a network.
fn network(detail: &Detail, grid: &Grid) -> Network {
    let (nx, ny) = (grid.x.lines.len(), grid.y.lines.len());
    let mut network = Network::bare(detail, nx, ny);
    let cells = Cells { detail, grid };
    for row in 0..ny - 1 {
        for column in 0..nx - 1 {
            let Some(block) = cells.block(column, row) else {
                continue;
            };
            let (width, height) = (grid.x.width(column), grid.y.width(row));
            let (along, upward) = (
                0.5 * block.conductivity.x * height / width,
                0.5 * block.conductivity.y * width / height,
            );
            let node = row * nx + column;
            network.right[node] += along;
            network.right[node + nx] += along;
            network.up[node] += upward;
            network.up[node + 1] += upward;
        }
    }
    cells.each_contact(|(column, row), _, facing, contact| {
        let (width, height) = (grid.x.width(column), grid.y.width(row));
        let node = row * nx + column;
        let (ends, side) = match facing {
            Facing::Left => ([node, node + nx], height),
            Facing::Right => ([node + 1, node + nx + 1], height),
            Facing::Down => ([node, node + 1], width),
            Facing::Up => ([node + nx, node + nx + 1], width),
        };
        network.links.extend(ends.map(|node| Link {
            cell: node as u32,
            boundary: contact.boundary as u32,
            facing,
            conductance: 0.5 * side / contact.film.max(HELD),
            film_share: match contact.film < HELD {
                true => HELD_SHARE,
                false => 1.0,
            },
        }));
    });
    network.links.sort_by_key(|link| link.cell);
    network
}
