//! The grid a detail is solved on: graded, rectilinear, every material edge on a line.
//!
//! ```text
//! spacing = s (h0 + g d),   d the distance to the nearer edge of the interval
//! ```
//! Corners where materials meet are singular; a grid this fine at every edge keeps the order of
//! convergence near two where an even one falls to about 1.2. The spacing is realised by a map,
//! and a refined grid takes twice the steps of the same map: its lines include the coarser
//! grid's, and its errors fall evenly.

use super::ConductionError;
use crate::model::detail::{Detail, Place};

/// The most cells of a grid.
pub const MOST_CELLS: usize = 4_000_000;

/// How a grid's spacing grows away from material edges.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grading {
    /// Spacing at an edge before scaling, h0, m.
    pub at_edge: f64,
    /// Growth of the spacing per distance from the edge, g.
    pub growth: f64,
    /// Scale of all spacings, s.
    pub scale: f64,
}

impl Default for Grading {
    /// 0.1 mm at the edge, growth 0.35, for a first grid of some thousand cells.
    fn default() -> Self {
        Self {
            at_edge: 1e-4,
            growth: 0.35,
            scale: 3.6,
        }
    }
}

/// Lines of a grid along one axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// Positions from 0 to the size of the cut, m.
    pub lines: Vec<f64>,
    /// For each cell, the number of the detail's column or row it lies in.
    pub place: Vec<u32>,
}

impl Axis {
    /// Cells along it.
    #[must_use]
    pub fn cells(&self) -> usize {
        self.place.len()
    }

    /// The width of a cell, m.
    #[must_use]
    pub fn width(&self, cell: usize) -> f64 {
        self.lines[cell + 1] - self.lines[cell]
    }

    /// The middle of a cell, m.
    #[must_use]
    pub fn center(&self, cell: usize) -> f64 {
        0.5 * (self.lines[cell] + self.lines[cell + 1])
    }

    /// The cell a position lies in; the lower one where it lies on a line.
    #[must_use]
    pub fn cell_at(&self, position: f64) -> usize {
        let above = self.lines.partition_point(|line| *line < position);
        above.saturating_sub(1).min(self.cells() - 1)
    }
}

/// A rectilinear grid over a detail.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    /// Along x.
    pub x: Axis,
    /// Along y.
    pub y: Axis,
}

impl Grid {
    /// A graded grid with every interval of the grading split into `splits` (1, 2, 4 …).
    ///
    /// # Errors
    /// [`ConductionError::TooManyCells`] beyond [`MOST_CELLS`], before anything of that size is
    /// allocated.
    pub fn graded(
        detail: &Detail,
        grading: &Grading,
        splits: usize,
    ) -> Result<Self, ConductionError> {
        let (columns, rows) = (detail.columns(), detail.rows());
        let solid = |column, row| matches!(detail.place(column, row), Place::Block(_));
        let in_column = |column| (0..rows.len() - 1).any(|row| solid(column, row));
        let in_row = |row| (0..columns.len() - 1).any(|column| solid(column, row));
        let x = steps(columns, in_column, grading, splits);
        let y = steps(rows, in_row, grading, splits);
        Self::bounded(&x, &y)?;
        Ok(Self {
            x: axis(columns, &x, grading),
            y: axis(rows, &y, grading),
        })
    }

    /// A grid with cells of even width, at most `size` wide, m.
    ///
    /// # Errors
    /// As [`Self::graded`].
    pub fn even(detail: &Detail, size: f64) -> Result<Self, ConductionError> {
        // Without growth the map is a straight line.
        let grading = Grading {
            at_edge: size,
            growth: 0.0,
            scale: 1.0,
        };
        Self::graded(detail, &grading, 1)
    }

    fn bounded(x: &[usize], y: &[usize]) -> Result<(), ConductionError> {
        let sum = |steps: &[usize]| steps.iter().fold(0_usize, |all, n| all.saturating_add(*n));
        let cells = sum(x).saturating_mul(sum(y));
        if cells > MOST_CELLS {
            return Err(ConductionError::TooManyCells { cells });
        }
        Ok(())
    }

    /// Cells, air included.
    #[must_use]
    pub fn cells(&self) -> usize {
        self.x.cells() * self.y.cells()
    }
}

/// The map's length of an interval in steps of the unsplit grid: twice that of its half.
fn map_length(length: f64, grading: &Grading) -> f64 {
    2.0 * steps_from_edge(0.5 * length, grading)
}

/// Steps of the unsplit grid from a material edge to a distance from it, m: ∫ dx / spacing.
pub(in crate::solve) fn steps_from_edge(distance: f64, grading: &Grading) -> f64 {
    let Grading {
        at_edge,
        growth,
        scale,
    } = *grading;
    if growth == 0.0 {
        return distance / (at_edge * scale);
    }
    libm::log1p(growth * distance / at_edge) / (growth * scale)
}

/// How far from a material edge a fraction of those steps ends, m.
pub(in crate::solve) fn distance_from_edge(fraction: f64, reach: f64, grading: &Grading) -> f64 {
    let Grading {
        at_edge, growth, ..
    } = *grading;
    if growth == 0.0 {
        return fraction * reach;
    }
    at_edge / growth * libm::expm1(fraction * libm::log1p(growth * reach / at_edge))
}

/// Cells of each interval between edges.
fn steps(
    edges: &[f64],
    holds_solid: impl Fn(usize) -> bool,
    grading: &Grading,
    splits: usize,
) -> Vec<usize> {
    let step = |(place, pair): (usize, &[f64])| {
        if !holds_solid(place) {
            return 1;
        }
        // A cast of a great number saturates, and a saturated one is refused.
        let steps = map_length(pair[1] - pair[0], grading).ceil().max(1.0) as usize;
        steps.saturating_mul(splits)
    };
    edges.windows(2).enumerate().map(step).collect()
}

fn axis(edges: &[f64], steps: &[usize], grading: &Grading) -> Axis {
    let mut lines = vec![edges[0]];
    let mut place = Vec::new();
    for (number, (pair, &steps)) in edges.windows(2).zip(steps).enumerate() {
        let (start, end) = (pair[0], pair[1]);
        for step in 1..steps {
            lines.push(position(start, end, step as f64 / steps as f64, grading));
        }
        lines.push(end);
        place.extend(std::iter::repeat_n(number as u32, steps));
    }
    Axis { lines, place }
}

/// Where a fraction of the map's length lies, measured from the nearer end.
fn position(start: f64, end: f64, fraction: f64, grading: &Grading) -> f64 {
    if grading.growth == 0.0 {
        return start + fraction * (end - start);
    }
    let from_end = |fraction| distance_from_edge(2.0 * fraction, 0.5 * (end - start), grading);
    if fraction <= 0.5 {
        start + from_end(fraction)
    } else {
        end - from_end(1.0 - fraction)
    }
}
