//! The corner that an edge of floor or roof makes with itself: how its numbers came about.

use super::sheet::Sheet;
use crate::quantity::Length;
use crate::solve::detail::DetailResult;

/// How the corner was solved, and where its coldest place lies (distances from both outer faces and
/// height, m).
pub(super) fn place(sheet: &mut Sheet, result: &DetailResult, [x, y, z]: [f64; 3]) {
    sheet.note(
        "The cut makes an outside corner with itself, mitred: what lies at a place hangs on the smaller \
         distance from the two outer faces, and on height. In the solids ∇·(k ∇θ) = 0; where they meet \
         air −k ∂θ/∂n = (θ − θ_air) / R with the film R; no heat crosses the far ends of both edges. \
         Cell-centered finite volumes in three dimensions, every face of a material on a plane of the grid",
    );
    let corner = result.corner.as_ref().and_then(|one| one.as_ref().ok());
    for (n, cells) in corner
        .iter()
        .flat_map(|corner| corner.cells.iter().enumerate())
    {
        sheet.told(&format!("grid {}", n + 1), cells.to_string(), "cells");
    }
    let size = |meters: f64| sheet.style.show(Length::from_m(meters));
    sheet.note(format!(
        "The coldest place lies {} and {} from the two outer faces and {} above the bottom of the cut, at \
         a corner of a grid cell's face; it is extrapolated from the three grids with order 2, its bar \
         is what an order of 2/3 would leave",
        size(x),
        size(y),
        size(z),
    ));
}
