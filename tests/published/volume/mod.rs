//! Three-dimensional conduction against a published case, closed forms, other calculations and the
//! project's own two-dimensional solver.

mod by_elements;
mod closed_form;
mod corners;
mod drawn_edge;
mod standard;

use dewmargin::model::volume::VolumeParts;
use dewmargin::solve::volume::{Precision, VolumeResult, solve_volume};

use crate::support::volume::sound;

/// Solved on three grids, the finest of so many cells.
fn solved(parts: VolumeParts, cells: usize) -> VolumeResult {
    let precision = Precision {
        cells,
        ..Precision::default()
    };
    let result = solve_volume(&sound(parts), &precision).expect("few cells");
    assert!(result.converged(), "{:?}", result.grids());
    result
}
