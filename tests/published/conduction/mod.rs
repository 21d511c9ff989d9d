//! Two-dimensional conduction against published cases, closed forms and another method.

mod checkerboard;
mod closed_form;
mod convergence;
mod finite_elements;
mod inside_corners;
mod standard;

use dewmargin::model::detail::Detail;
use dewmargin::solve::conduction::{Conduction, Grading, Precision, solve_detail};

/// A result that claims to be as precise as asked.
fn settled(detail: &Detail, precision: &Precision) -> Conduction {
    let result = solve_detail(detail, precision).expect("few cells");
    assert!(result.settled, "{:?}", result.grids);
    result
}

/// A first grid so coarse that tests, which run unoptimized, stay quick.
fn quick() -> Precision {
    Precision {
        grading: Grading {
            scale: 6.0,
            ..Grading::default()
        },
        most_cells: 60_000,
        ..Precision::default()
    }
}
