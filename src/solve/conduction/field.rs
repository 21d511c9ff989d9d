//! The temperature between cell centers: at points, and along lines of equal temperature.
//!
//! Every solid cell is divided into four quarters. At its center stands the computed
//! temperature, in the middle of its sides what the heat crossing them makes it (so that a bend
//! at a material's edge stays a bend), at its corners the mean of what the solid cells around
//! give, weighted by conductivity: beside steel the steel knows best. Inside a quarter
//! temperature is bilinear.

use super::Axis;
use super::solution::Solution;
use crate::model::detail::Facing;

/// Temperatures on the lattice of cell centers, sides and corners.
#[derive(Clone, Debug)]
pub struct Field {
    /// Lines and centers in turn, m.
    pub(super) x: Vec<f64>,
    /// Lines and centers in turn, m.
    pub(super) y: Vec<f64>,
    /// Row by row, °C; NaN off the solid.
    values: Vec<f64>,
    /// By cell, row by row.
    is_solid: Vec<bool>,
}

/// What a solid cell knows of the plane it lies in: °C at its center and on its sides, and how well it
/// conducts, which weighs what it says of its corners.
#[derive(Clone, Copy)]
pub(in crate::solve) struct CellField {
    pub(in crate::solve) center: f64,
    /// Left and right, or whatever runs along the first axis.
    pub(in crate::solve) across: [f64; 2],
    /// Down and up.
    pub(in crate::solve) upward: [f64; 2],
    pub(in crate::solve) conductivity: f64,
}

impl Field {
    /// The field of a solution.
    #[must_use]
    pub fn of(solution: &Solution) -> Self {
        let grid = solution.grid();
        Self::on([&grid.x, &grid.y], |column, row| {
            let side = |facing| solution.side_temperature(column, row, facing);
            Some(CellField {
                center: solution.cell(column, row)?,
                across: [side(Facing::Left), side(Facing::Right)],
                upward: [side(Facing::Down), side(Facing::Up)],
                conductivity: solution.conductivity(column, row),
            })
        })
    }

    /// The field on a plane of cells; `None` of a cell is air.
    pub(in crate::solve) fn on(
        axes: [&Axis; 2],
        cell: impl Fn(usize, usize) -> Option<CellField>,
    ) -> Self {
        let positions = |axis: &Axis| -> Vec<f64> {
            let cells = (0..axis.cells()).flat_map(|cell| [axis.lines[cell], axis.center(cell)]);
            cells.chain(axis.lines.last().copied()).collect()
        };
        let [x, y] = axes.map(positions);
        let [columns, rows] = axes.map(Axis::cells);
        let mut field = Self {
            values: vec![f64::NAN; x.len() * y.len()],
            is_solid: vec![false; columns * rows],
            x,
            y,
        };
        field.fill([columns, rows], cell);
        field
    }

    fn fill(
        &mut self,
        [columns, rows]: [usize; 2],
        cell: impl Fn(usize, usize) -> Option<CellField>,
    ) {
        let width = self.x.len();
        // The conductivities of the cells that have said something about a corner.
        let mut told = vec![0.0; (columns + 1) * (rows + 1)];
        for row in 0..rows {
            for column in 0..columns {
                let Some(cell) = cell(column, row) else {
                    continue;
                };
                self.is_solid[row * columns + column] = true;
                let at = (2 * row + 1) * width + 2 * column + 1;
                let ([left, right], [down, up]) = (cell.across, cell.upward);
                self.values[at] = cell.center;
                self.values[at - 1] = left;
                self.values[at + 1] = right;
                self.values[at - width] = down;
                self.values[at + width] = up;
                let corners = [
                    (at - width - 1, (column, row), left + down),
                    (at - width + 1, (column + 1, row), right + down),
                    (at + width - 1, (column, row + 1), left + up),
                    (at + width + 1, (column + 1, row + 1), right + up),
                ];
                for (at, (column, row), sides) in corners {
                    let told = &mut told[row * (columns + 1) + column];
                    let value = sides - cell.center;
                    let mean = &mut self.values[at];
                    let earlier = if *told == 0.0 { value } else { *mean };
                    *told += cell.conductivity;
                    *mean = earlier + cell.conductivity / *told * (value - earlier);
                }
            }
        }
    }

    /// The temperature at a point, °C; `None` in air or off the cut. On a surface it is the
    /// solid's.
    #[must_use]
    pub fn at(&self, x: f64, y: f64) -> Option<f64> {
        let (columns, rows) = (intervals_at(&self.x, x)?, intervals_at(&self.y, y)?);
        let mut found = Vec::with_capacity(4);
        for row in rows {
            for column in columns.clone() {
                if self.is_solid_quarter(column, row) {
                    found.push(self.bilinear(column, row, x, y));
                }
            }
        }
        // On a line both sides say the same, but for rounding.
        let count = found.len() as f64;
        (count > 0.0).then(|| found.iter().sum::<f64>() / count)
    }

    fn bilinear(&self, column: usize, row: usize, x: f64, y: f64) -> f64 {
        let share = |lines: &[f64], at: usize, value: f64| {
            (value - lines[at]) / (lines[at + 1] - lines[at])
        };
        let (right, up) = (share(&self.x, column, x), share(&self.y, row, y));
        let value = |column, row| self.value(column, row);
        let low = value(column, row) + right * (value(column + 1, row) - value(column, row));
        let high =
            value(column, row + 1) + right * (value(column + 1, row + 1) - value(column, row + 1));
        low + up * (high - low)
    }

    pub(super) fn value(&self, column: usize, row: usize) -> f64 {
        self.values[row * self.x.len() + column]
    }

    /// Whether a quarter, counted along the lattice, is of a solid cell.
    pub(super) fn is_solid_quarter(&self, column: usize, row: usize) -> bool {
        let columns = (self.x.len() - 1) / 2;
        self.is_solid[row / 2 * columns + column / 2]
    }
}

/// The intervals between lines that a position lies in: two where it lies on a line.
pub(in crate::solve) fn intervals_at(
    lines: &[f64],
    position: f64,
) -> Option<std::ops::Range<usize>> {
    let last = lines.len() - 1;
    if !(lines[0]..=lines[last]).contains(&position) {
        return None;
    }
    let from = lines.partition_point(|line| *line < position);
    let to = lines.partition_point(|line| *line <= position);
    Some(from.saturating_sub(1)..to.min(last))
}
