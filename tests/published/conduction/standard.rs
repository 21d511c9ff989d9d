//! The two-dimensional cases of ISO 10211, annex on validation.

use dewmargin::solve::conduction::{Precision, solve_detail};

use super::super::{Tolerance, close, rows};
use super::{quick, settled};
use crate::support::detail::{air, block, cut, held, mm, open, sound};

/// Kelvin at the points of case 1: layout from memory, values from the analytic series.
const SERIES: &str = include_str!("case_1_series.csv");

const POINT: Tolerance = Tolerance {
    absolute: 0.01,
    why: "ours; the standard asks for 0.1 K (from memory)",
};

// Case 1, half a square column: layout from memory; T = 20 Σ 4/(nπ) sin(nπx) sinh(nπy)/sinh(nπ)
// over odd n (analytic). Rounded, the series gives the standard's printed table (from memory).
#[test]
fn case_1_half_square_column() {
    let mut parts = cut(500.0, 1000.0);
    block(&mut parts, "column", 1.0, mm(0.0, 500.0, 0.0, 1000.0));
    held(&mut parts, "hot", 20.0, mm(0.0, 500.0, 1000.0, 1000.0));
    held(&mut parts, "side", 0.0, mm(0.0, 0.0, 0.0, 1000.0));
    held(&mut parts, "foot", 0.0, mm(0.0, 500.0, 0.0, 0.0));
    // The heat flow is infinite at the corner of 20 and 0 °C: it settles on no grid.
    let precision = Precision {
        most_cells: 10_000,
        ..quick()
    };
    let result = solve_detail(&sound(parts), &precision).expect("few cells");
    assert!(!result.settled);
    for row in rows(SERIES) {
        let y = 1.0 - row[0];
        for (column, want) in row[1..].iter().enumerate() {
            let x = (column + 1) as f64 / 8.0;
            let got = result.temperatures_at(&[(x, y)])[0].expect("a point inside");
            close(
                (&format!("case 1 at {x}, {y}"), "K"),
                got.value,
                *want,
                POINT,
            );
            assert!(
                (got.value - want).abs() < 10.0 * got.bar + 1e-3,
                "{got:?} {want}"
            );
        }
    }
}

// Case 2: recalled geometry and values (from memory; an independent finite-volume calculation
// gave the nine temperatures and the flow; the insulation's thickness was chosen between two
// readings by that match).
#[test]
fn case_2_aluminum_wood_and_insulation() {
    let mut parts = cut(500.0, 47.5);
    block(&mut parts, "insulation", 0.029, mm(0.0, 500.0, 0.0, 47.5));
    block(&mut parts, "plate", 230.0, mm(0.0, 500.0, 0.0, 1.5));
    block(&mut parts, "web", 230.0, mm(0.0, 1.5, 1.5, 35.0));
    block(&mut parts, "flange", 230.0, mm(0.0, 15.0, 35.0, 36.5));
    block(&mut parts, "wood", 0.12, mm(0.0, 15.0, 36.5, 41.5));
    block(&mut parts, "concrete", 1.15, mm(0.0, 500.0, 41.5, 47.5));
    let outdoors = air(&mut parts, "outdoors", 0.0);
    let room = air(&mut parts, "room", 20.0);
    open(
        &mut parts,
        "top",
        outdoors,
        0.06,
        mm(0.0, 500.0, 47.5, 47.5),
    );
    open(&mut parts, "bottom", room, 0.11, mm(0.0, 500.0, 0.0, 0.0));
    let result = settled(&sound(parts), &quick());
    let kelvin = Tolerance {
        absolute: 0.1,
        why: "the standard's (from memory)",
    };
    let watts = Tolerance {
        absolute: 0.1,
        why: "the standard's (from memory)",
    };
    close(
        ("case 2, heat flow", "W/m"),
        result.heat_flow.value,
        9.5,
        watts,
    );
    let printed = [
        ("A", 0.0, 47.5, 7.1, 7.064),
        ("B", 500.0, 47.5, 0.8, 0.761),
        ("C", 0.0, 41.5, 7.9, 7.897),
        ("D", 15.0, 41.5, 6.3, 6.272),
        ("E", 500.0, 41.5, 0.8, 0.827),
        ("F", 0.0, 36.5, 16.4, 16.408),
        ("G", 15.0, 36.5, 16.3, 16.333),
        ("H", 0.0, 0.0, 16.8, 16.767),
        ("I", 500.0, 0.0, 18.3, 18.334),
    ];
    let independent = Tolerance {
        absolute: 0.03,
        why: "the independent calculation's even grid of 0.125 mm, read beside corners",
    };
    for (name, x, y, want, computed) in printed {
        let got = result.temperatures_at(&[(x * 1e-3, y * 1e-3)])[0].expect("on the solid");
        close((&format!("case 2, {name}"), "K"), got.value, want, kelvin);
        close(
            (&format!("case 2, {name}, finite volumes in scipy"), "K"),
            got.value,
            computed,
            independent,
        );
    }
}
