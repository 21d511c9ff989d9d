//! The study's floor edge against finite elements: another method, another program.

use dewmargin::solve::conduction::Precision;
use rstest::rstest;

use super::super::{Tolerance, close, rows};
use super::settled;
use crate::support::detail::{reference_clear, reference_edge, sound};

/// scikit-fem, quadratic triangles (computed); the script is benches/conduction/finite_elements.py.
const TABLE: &str = include_str!("finite_elements.csv");

#[rstest]
#[case(0.0)]
#[case(25.4)]
fn both_methods_agree_within_their_bars(#[case] foam: f64) {
    let result = settled(&sound(reference_edge(foam)), &Precision::default());
    let rows: Vec<Vec<f64>> = rows(TABLE)
        .into_iter()
        .filter(|row| row[0] == foam)
        .collect();
    assert_eq!(rows.len(), 11);
    for row in rows {
        let [_, x, y, want, bar] = row[..] else {
            panic!("five columns: {row:?}");
        };
        let got = if x < 0.0 {
            result.heat_flow
        } else {
            result.temperatures_at(&[(x * 1e-3, y * 1e-3)])[0].expect("on the solid")
        };
        let both = Tolerance {
            absolute: got.bar + bar,
            why: "the two error bars",
        };
        close(
            (
                &format!("edge with {foam} mm of foam at {x}, {y}"),
                "W/m or K",
            ),
            got.value,
            want,
            both,
        );
    }
}

// An earlier study's finite volumes (computed, scipy): psi extrapolated from 1.3 million cells,
// its last digit uncertain by about one; coldest floor points to a tenth.
#[rstest]
#[case(0.0, 0.23201, 5.9)]
#[case(25.4, 0.09919, 13.5)]
fn psi_and_coldest_floor_of_the_study(#[case] foam: f64, #[case] psi: f64, #[case] floor: f64) {
    let precision = Precision {
        heat_flow: 5e-4,
        most_cells: 120_000,
        ..Precision::default()
    };
    let detail = sound(reference_edge(foam));
    let result = settled(&detail, &precision);
    let ours = result.psi(reference_clear(foam)).expect("two temperatures");
    let bar = Tolerance {
        absolute: ours.bar + 1e-5,
        why: "our error bar and the last digit",
    };
    close(("psi of the edge", "W/mK"), ours.value, psi, bar);
    let tenth = Tolerance {
        absolute: 1e-3 * psi,
        why: "the study's goal: 0.1 %",
    };
    close(("psi of the edge", "W/mK"), ours.value, psi, tenth);
    let room = detail.boundary("room").expect("a room");
    let coldest = result.coldest[room].expect("a surface");
    let printed = Tolerance {
        absolute: coldest.bar + 0.05,
        why: "our error bar and half a printed digit",
    };
    close(
        ("coldest floor of the edge", "K"),
        coldest.point.temperature,
        floor,
        printed,
    );
    let most = result.grids.iter().map(|grid| grid.report.iterations).max();
    assert!(most <= Some(12), "{most:?} iterations to 1e-10");
}
