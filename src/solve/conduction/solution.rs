//! The temperatures of a detail on one grid, and what follows from them.

use super::assembly::{Link, Network};
use super::grid::Grid;
use super::result::through;
use super::solver::{SolveReport, SolveTolerance, Solver};
use crate::model::detail::{Block, Contact, Detail, Facing, Place};

/// A piece of a surface, one cell wide.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SurfacePoint {
    /// Its middle, m.
    pub x: f64,
    /// Its middle, m.
    pub y: f64,
    /// The way it looks, from the solid outward.
    pub facing: Facing,
    /// Its length, m.
    pub length: f64,
    /// At the surface, °C.
    pub temperature: f64,
    /// Density of heat flow into the solid it belongs to, W/m².
    pub heat_flux: f64,
}

/// A detail solved on one grid.
#[derive(Clone, Debug)]
pub struct Solution {
    detail: Detail,
    grid: Grid,
    temperature: Vec<f64>,
    boundary_temperatures: Vec<f64>,
    flows: Vec<f64>,
    links: Vec<Link>,
    report: SolveReport,
}

impl Solution {
    /// Solves a detail on a grid of its own.
    #[must_use]
    pub fn on(detail: &Detail, grid: Grid, tolerance: &SolveTolerance) -> Self {
        let mut solver = Solver::of(Network::of(detail, &grid));
        let boundaries = detail.boundaries().iter();
        let temperatures: Vec<f64> = boundaries.map(|boundary| boundary.temperature).collect();
        Self::with(detail, grid, &mut solver, temperatures, tolerance)
    }

    /// Solves it with other temperatures at its boundaries than its own.
    pub(super) fn with(
        detail: &Detail,
        grid: Grid,
        solver: &mut Solver,
        boundary_temperatures: Vec<f64>,
        tolerance: &SolveTolerance,
    ) -> Self {
        let (temperature, report) = solver.solve(&boundary_temperatures, tolerance);
        Self {
            detail: detail.clone(),
            grid,
            flows: solver.network.flows(&boundary_temperatures, &temperature),
            links: solver.network.links.clone(),
            temperature,
            boundary_temperatures,
            report,
        }
    }

    /// What was solved.
    #[must_use]
    pub fn detail(&self) -> &Detail {
        &self.detail
    }

    /// What it was solved on.
    #[must_use]
    pub fn grid(&self) -> &Grid {
        &self.grid
    }

    /// How well the equations are met.
    #[must_use]
    pub fn report(&self) -> &SolveReport {
        &self.report
    }

    /// Heat from each boundary into the solid, W/m, in the order of the detail's boundaries.
    #[must_use]
    pub fn flows(&self) -> &[f64] {
        &self.flows
    }

    /// Heat that passes from the warmer boundaries to the colder ones, W/m.
    #[must_use]
    pub fn heat_flow(&self) -> f64 {
        through(&self.flows)
    }

    /// The temperature of a cell, °C; `None` in air.
    #[must_use]
    pub fn cell(&self, column: usize, row: usize) -> Option<f64> {
        self.block_at(column, row)
            .map(|_| self.temperature[row * self.grid.x.cells() + column])
    }

    /// The mean temperature of a block's area as far as nothing covers it, °C; `None` where none of it
    /// is to be seen.
    #[must_use]
    pub fn mean_inside(&self, block: usize) -> Option<f64> {
        let (mut sum, mut area) = (0.0, 0.0);
        for row in 0..self.grid.y.cells() {
            for column in 0..self.grid.x.cells() {
                if self.block_number(column, row) == Some(block) {
                    let cell = self.grid.x.width(column) * self.grid.y.width(row);
                    sum += cell * self.temperature[row * self.grid.x.cells() + column];
                    area += cell;
                }
            }
        }
        (area > 0.0).then(|| sum / area)
    }

    /// The surface that meets a boundary, by the way it looks, then along it.
    #[must_use]
    pub fn surface(&self, boundary: usize) -> Vec<SurfacePoint> {
        let links = self.links.iter();
        let links = links.filter(|link| link.boundary as usize == boundary);
        in_order(links.map(|link| self.surface_point(link)).collect())
    }

    fn surface_point(&self, link: &Link) -> SurfacePoint {
        let nx = self.grid.x.cells();
        let (column, row) = (link.cell as usize % nx, link.cell as usize / nx);
        let boundary = self.boundary_temperatures[link.boundary as usize];
        let difference = boundary - self.temperature[link.cell as usize];
        let (x, y, length) = self.side(column, row, link.facing);
        SurfacePoint {
            x,
            y,
            facing: link.facing,
            length,
            temperature: boundary - link.film_share * difference,
            heat_flux: link.conductance * difference / length,
        }
    }

    /// The outline of a block as far as it is to be seen, against air and other solids.
    #[must_use]
    pub fn outline(&self, block: usize) -> Vec<SurfacePoint> {
        let Some(area) = self
            .detail
            .parts()
            .blocks
            .get(block)
            .map(|block| block.area)
        else {
            return Vec::new();
        };
        let cells = |axis: &super::Axis, from: f64, to: f64| axis.cell_at(from)..=axis.cell_at(to);
        let mut points = Vec::new();
        for row in cells(&self.grid.y, area.bottom, area.top) {
            for column in cells(&self.grid.x, area.left, area.right) {
                if self.block_number(column, row) != Some(block) {
                    continue;
                }
                let outer = Facing::ALL.into_iter().filter(|facing| {
                    let beside = self.beside(column, row, *facing);
                    beside.and_then(|(column, row)| self.block_number(column, row)) != Some(block)
                });
                points.extend(outer.map(|facing| self.side_point(column, row, facing)));
            }
        }
        in_order(points)
    }

    fn side_point(&self, column: usize, row: usize, facing: Facing) -> SurfacePoint {
        let (x, y, length) = self.side(column, row, facing);
        let temperature = self.side_temperature(column, row, facing);
        let center = self.temperature[row * self.grid.x.cells() + column];
        SurfacePoint {
            x,
            y,
            facing,
            length,
            temperature,
            heat_flux: (temperature - center) / self.half_resistance(column, row, facing),
        }
    }

    /// The middle of a cell's side, and its length, m.
    fn side(&self, column: usize, row: usize, facing: Facing) -> (f64, f64, f64) {
        let (x, y) = (&self.grid.x, &self.grid.y);
        match facing {
            Facing::Left => (x.lines[column], y.center(row), y.width(row)),
            Facing::Right => (x.lines[column + 1], y.center(row), y.width(row)),
            Facing::Down => (x.center(column), y.lines[row], x.width(column)),
            Facing::Up => (x.center(column), y.lines[row + 1], x.width(column)),
        }
    }

    /// The temperature in the middle of a solid cell's side, °C: where the heat that crosses it
    /// puts it.
    pub(super) fn side_temperature(&self, column: usize, row: usize, facing: Facing) -> f64 {
        let nx = self.grid.x.cells();
        let own = self.temperature[row * nx + column];
        let half = self.half_resistance(column, row, facing);
        if let Some(contact) = self.contact(column, row, facing) {
            let boundary = self.boundary_temperatures[contact.boundary];
            return boundary - contact.film / (contact.film + half) * (boundary - own);
        }
        match self.beside(column, row, facing) {
            Some((column, row)) if self.block_at(column, row).is_some() => {
                let other = self.half_resistance(column, row, facing);
                let neighbor = self.temperature[row * nx + column];
                own + half / (half + other) * (neighbor - own)
            }
            _ => own,
        }
    }

    /// From the center of a solid cell to its side, m²·K/W.
    fn half_resistance(&self, column: usize, row: usize, facing: Facing) -> f64 {
        let Some(block) = self.block_at(column, row) else {
            return f64::INFINITY;
        };
        match facing {
            Facing::Left | Facing::Right => 0.5 * self.grid.x.width(column) / block.conductivity.x,
            Facing::Down | Facing::Up => 0.5 * self.grid.y.width(row) / block.conductivity.y,
        }
    }

    /// The mean of both directions in a cell, W/(m·K); 0 in air.
    pub(super) fn conductivity(&self, column: usize, row: usize) -> f64 {
        let mean = |block: &Block| 0.5 * (block.conductivity.x + block.conductivity.y);
        self.block_at(column, row).map_or(0.0, mean)
    }

    /// What a cell's side meets, if it is one of its place's.
    fn contact(&self, column: usize, row: usize, facing: Facing) -> Option<Contact> {
        let place = self.place(column, row);
        let beside = self.beside(column, row, facing);
        if beside.is_some_and(|(column, row)| self.place(column, row) == place) {
            return None;
        }
        self.detail.contact(place.0, place.1, facing)
    }

    pub(super) fn beside(
        &self,
        column: usize,
        row: usize,
        facing: Facing,
    ) -> Option<(usize, usize)> {
        let (columns, rows) = (self.grid.x.cells(), self.grid.y.cells());
        match facing {
            Facing::Left => column.checked_sub(1).map(|column| (column, row)),
            Facing::Right => (column + 1 < columns).then_some((column + 1, row)),
            Facing::Down => row.checked_sub(1).map(|row| (column, row)),
            Facing::Up => (row + 1 < rows).then_some((column, row + 1)),
        }
    }

    fn place(&self, column: usize, row: usize) -> (usize, usize) {
        (
            self.grid.x.place[column] as usize,
            self.grid.y.place[row] as usize,
        )
    }

    fn block_number(&self, column: usize, row: usize) -> Option<usize> {
        let (column, row) = self.place(column, row);
        match self.detail.place(column, row) {
            Place::Block(block) => Some(block as usize),
            _ => None,
        }
    }

    fn block_at(&self, column: usize, row: usize) -> Option<&Block> {
        self.block_number(column, row)
            .map(|block| &self.detail.parts().blocks[block])
    }
}

/// Left faces first, then right, down, up; each line of faces from its lower end.
fn in_order(mut points: Vec<SurfacePoint>) -> Vec<SurfacePoint> {
    points.sort_by(|a, b| {
        let upright = matches!(a.facing, Facing::Left | Facing::Right);
        let key = |p: &SurfacePoint| if upright { (p.x, p.y) } else { (p.y, p.x) };
        let (a_key, b_key) = (key(a), key(b));
        a.facing
            .cmp(&b.facing)
            .then(a_key.0.total_cmp(&b_key.0))
            .then(a_key.1.total_cmp(&b_key.1))
    });
    points
}

/// The coldest piece of a surface; of equal ones the first.
#[must_use]
pub fn coldest(surface: &[SurfacePoint]) -> Option<SurfacePoint> {
    let colder = |a: &&SurfacePoint, b: &&SurfacePoint| a.temperature.total_cmp(&b.temperature);
    surface.iter().min_by(colder).copied()
}

/// The mean temperature of a surface by length, °C; `None` of none.
#[must_use]
pub fn mean_temperature(surface: &[SurfacePoint]) -> Option<f64> {
    let length: f64 = surface.iter().map(|point| point.length).sum();
    let weighted = surface.iter().map(|point| point.length * point.temperature);
    (length > 0.0).then(|| weighted.sum::<f64>() / length)
}
