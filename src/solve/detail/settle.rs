//! Conductivities at the mean temperatures of a detail's rectangles or boxes.

use super::gate::with_cells;
use super::{Between, BoxesFailure, DetailFailure};
use crate::model::drawn::{BoxesCase, DetailCase, DetailFilms};
use crate::quantity::Temperature;
use crate::solve::conduction::{Grid, Precision, Solution};
use crate::solve::volume;

/// Conductivities that change by less than this part of themselves have settled.
const SETTLED: f64 = 1e-4;
/// Solutions at most until they have.
const ROUNDS: usize = 12;
/// Cells of the grid on which the mean temperatures of boxes are found.
const CELLS: usize = 30_000;

/// The detail with its conductivities at the mean temperatures between two airs, and whether they
/// settled. Mean temperatures hang little on the grid: the first one of the precision does.
pub(super) fn settled(
    case: &DetailCase,
    air: (Temperature, Temperature),
    precision: &Precision,
) -> Result<(DetailCase, bool), DetailFailure> {
    let mut now = case.clone();
    if case.conducts_alike() {
        return Ok((now, true));
    }
    now.references = case.references.iter().map(|one| one.settled(air)).collect();
    for _ in 0..ROUNDS {
        let detail = now
            .detail_at(air.0, air.1, &DetailFilms::default())
            .map_err(DetailFailure::Parts)?;
        let grid =
            Grid::graded(&detail, &precision.grading, 1).map_err(DetailFailure::Conduction)?;
        let solution = Solution::on(&detail, grid, &precision.solve);
        let means: Vec<Option<f64>> = (0..now.blocks.len())
            .map(|block| solution.mean_inside(block))
            .collect();
        if now.conduct_at(&means) < SETTLED {
            return Ok((now, true));
        }
    }
    Ok((now, false))
}

/// The same of a detail in three dimensions.
pub(super) fn settled_boxes(
    case: &BoxesCase,
    between: &Between,
) -> Result<(BoxesCase, bool), BoxesFailure> {
    let mut now = case.clone();
    if case.conducts_alike() {
        return Ok((now, true));
    }
    for _ in 0..ROUNDS {
        let volume = now
            .volume_at(between.indoor, between.outdoor, &DetailFilms::default())
            .map_err(BoxesFailure::Parts)?;
        let solution = with_cells(CELLS, || volume::Solution::of_few_cells(&volume, CELLS));
        let means = solution.map_err(BoxesFailure::Volume)?.means();
        if now.conduct_at(&means) < SETTLED {
            return Ok((now, true));
        }
    }
    Ok((now, false))
}
