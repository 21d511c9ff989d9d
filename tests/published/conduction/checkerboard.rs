//! Corners where good and bad conductors meet crosswise: the bracket of volumes and elements holds.
//!
//! Source: a checkerboard of two conductivities conducts as a uniform body of their geometric mean,
//! J. B. Keller 1964, "A theorem on the conductivity of a composite medium", J. Math. Phys. 5 (from
//! memory; Dykhne 1970 the same). The lines through the squares' centers are lines of symmetry, so a cell
//! of four quarters, held at two temperatures left and right and adiabatic above and below, has it
//! exactly: L2D = √(k₁ k₂).

use approx::assert_relative_eq;
use dewmargin::model::detail::{
    Air, Area, Block, Detail, DetailParts, Face, FaceContact, PlaneConductivity,
};
use dewmargin::solve::conduction::{Precision, solve_detail};
use rstest::rstest;

/// Quarters of 50 mm; left and right held at 1 and 0 °C.
fn checkerboard(good: f64, bad: f64) -> Detail {
    let quarter = |name: &str, left: f64, bottom: f64, conductivity| Block {
        name: name.into(),
        label: name.into(),
        area: Area::new(left, left + 0.05, bottom, bottom + 0.05),
        conductivity: PlaneConductivity::isotropic(conductivity),
        covers: false,
    };
    let held = |name: &str, x, air| Face {
        name: name.into(),
        line: Area::new(x, x, 0.0, 0.1),
        contact: FaceContact::Air { air, film: 1e-9 },
    };
    let air = |name: &str, celsius| Air {
        name: name.into(),
        temperature: celsius,
    };
    Detail::new(DetailParts {
        width: 0.1,
        height: 0.1,
        blocks: vec![
            quarter("a", 0.0, 0.0, good),
            quarter("b", 0.05, 0.05, good),
            quarter("c", 0.05, 0.0, bad),
            quarter("d", 0.0, 0.05, bad),
        ],
        airs: vec![air("warm", 1.0), air("cold", 0.0)],
        regions: vec![],
        faces: vec![held("left", 0.0, 0), held("right", 0.1, 1)],
    })
    .expect("a sound detail")
}

// Pairs from wood on foam to steel on foam.
#[rstest]
#[case::alike(0.13, 0.1)]
#[case::wood_and_foam(0.13, 0.029)]
#[case::concrete_and_foam(1.7, 0.029)]
#[case::steel_and_wood(50.0, 0.13)]
#[case::steel_and_foam(50.0, 0.029)]
fn the_bar_reaches_the_geometric_mean(#[case] good: f64, #[case] bad: f64) {
    let result = solve_detail(&checkerboard(good, bad), &Precision::default()).expect("few cells");
    let coupling = result.coupling.expect("two temperatures");
    let exact = (good * bad).sqrt();
    assert!(result.settled);
    assert!(
        (coupling.value - exact).abs() <= coupling.bar,
        "{coupling:?} against {exact}"
    );
    // By elements alone it is an upper bound, and the volumes lie below.
    if let Some(bracket) = &result.bracket {
        assert!(bracket.flows()[0] >= exact, "{bracket:?}");
        assert!(result.solution.heat_flow() <= exact);
    }
}

/// Where nothing is singular the elements find what the volumes do.
#[test]
fn elements_and_volumes_agree_on_a_plane_wall() {
    // Nothing is this precise, so the bracket is asked for.
    let precision = Precision {
        heat_flow: -1.0,
        most_cells: 20_000,
        ..Precision::default()
    };
    let result = solve_detail(&checkerboard(0.5, 0.5), &precision).expect("few cells");
    let bracket = result.bracket.as_ref().expect("a bracket");
    assert_relative_eq!(bracket.flows()[0], 0.5, max_relative = 1e-6);
    assert_relative_eq!(result.heat_flow.value, 0.5, max_relative = 1e-6);
    assert_relative_eq!(bracket.at(0.025, 0.07), 0.75, epsilon = 1e-6);
}
