//! Conductivities at the mean temperatures of a detail's rectangles.

use super::DetailFailure;
use crate::model::drawn::{DetailCase, DetailFilms};
use crate::quantity::Temperature;
use crate::solve::conduction::{Grid, Precision, Solution};

/// Conductivities that change by less than this part of themselves have settled.
const SETTLED: f64 = 1e-4;
/// Solutions at most until they have.
const ROUNDS: usize = 12;

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
