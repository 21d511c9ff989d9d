//! Details whose solution is known in closed form.

use approx::assert_relative_eq;
use dewmargin::model::detail::{DetailParts, Face, FaceContact};
use dewmargin::solve::conduction::{Grid, Precision, Solution, SolveTolerance};
use rstest::rstest;

use super::super::{Tolerance, close};
use super::{quick, settled};
use crate::support::detail::{air, block, cut, held, mm, open, sound};

// A wall of layers conducts 1/(R_si + Σ d/k + R_se) (analytic), on every grid.
#[test]
fn a_plane_wall_is_one_dimensional() {
    let layers = [(12.0, 0.13), (89.0, 0.025), (0.8, 50.0), (18.0, 0.08)];
    let width: f64 = layers.iter().map(|(thickness, _)| thickness).sum();
    let mut parts = cut(width, 400.0);
    let (mut x, mut resistance) = (0.0, 0.13);
    for (n, (thickness, k)) in layers.into_iter().enumerate() {
        block(
            &mut parts,
            &format!("layer {n}"),
            k,
            mm(x, x + thickness, 0.0, 400.0),
        );
        x += thickness;
        resistance += thickness * 1e-3 / k;
    }
    let room = air(&mut parts, "room", 20.0);
    let outdoors = air(&mut parts, "outdoors", -10.0);
    open(&mut parts, "inner", room, 0.13, mm(0.0, 0.0, 0.0, 400.0));
    open(
        &mut parts,
        "outer",
        outdoors,
        0.04,
        mm(width, width, 0.0, 400.0),
    );
    let u = 1.0 / (resistance + 0.04);
    let detail = sound(parts);
    let result = settled(&detail, &Precision::default());
    let coupling = result.coupling.expect("two temperatures").value;
    assert_relative_eq!(coupling, 0.4 * u, max_relative = 1e-8);
    assert_relative_eq!(result.psi(0.4 * u).expect("L2D").value, 0.0, epsilon = 1e-8);
    // Surface and planes.
    let plane = |resistance: f64| 20.0 - 30.0 * u * resistance;
    let points = [
        (0.0, 0.13),
        (12.0, 0.13 + 0.012 / 0.13),
        (width, resistance),
    ];
    for (x, resistance) in points {
        let got = result.temperatures_at(&[(x * 1e-3, 0.123)])[0].expect("inside");
        assert_relative_eq!(got.value, plane(resistance), epsilon = 30.0 * 1e-8);
    }
}

// A corner of two equally thick walls between isothermal faces: with inner lengths a and b the
// shape factor is (a + b)/t + 1 − (2 ln 2)/π (analytic), so ψ by inside lengths is 0.5587288 k.
#[test]
fn the_square_corner() {
    let (wall, length, k) = (100.0, 400.0, 0.7);
    let size = wall + length;
    let mut parts = cut(size, size);
    block(&mut parts, "upright", k, mm(0.0, wall, 0.0, size));
    block(&mut parts, "level", k, mm(wall, size, 0.0, wall));
    let room = air(&mut parts, "room", 1.0);
    let films = dewmargin::model::detail::FaceFilms::all(0.0);
    crate::support::detail::region(&mut parts, room, films, mm(wall, size, wall, size));
    held(&mut parts, "left", 0.0, mm(0.0, 0.0, 0.0, size));
    held(&mut parts, "below", 0.0, mm(0.0, size, 0.0, 0.0));
    let result = settled(&sound(parts), &quick());
    let psi = result
        .psi(k * 2.0 * length / wall)
        .expect("two temperatures");
    let bar = Tolerance {
        absolute: psi.bar,
        why: "the result's own error bar, which this checks",
    };
    close(
        ("square corner, psi", "W/mK"),
        psi.value,
        0.558_728_8 * k,
        bar,
    );
    let tight = Tolerance {
        absolute: 1e-3 * k,
        why: "ours: 0.2 % of ψ",
    };
    close(
        ("square corner, psi", "W/mK"),
        psi.value,
        0.558_728_8 * k,
        tight,
    );
}

// A thin strip in two zones (fin equations solved in closed form; analytic, worked in the
// project's check values): zone 1 between two resistances, zone 2 exposed on both faces.
// a = b = 0.1 m, t = 6.35 mm, k = 50, R_in = 2, R_out = 0.5 m²K/W, h = 25 W/m²K, 20/−10 °C.
#[test]
fn the_two_zone_flange() {
    let mut parts = cut(200.0, 6.35);
    block(&mut parts, "flange", 50.0, mm(0.0, 200.0, 0.0, 6.35));
    let room = air(&mut parts, "room", 20.0);
    let outdoors = air(&mut parts, "outdoors", -10.0);
    open(
        &mut parts,
        "over zone 1",
        room,
        2.0,
        mm(0.0, 100.0, 6.35, 6.35),
    );
    open(
        &mut parts,
        "under zone 1",
        outdoors,
        0.5,
        mm(0.0, 100.0, 0.0, 0.0),
    );
    open(
        &mut parts,
        "over zone 2",
        outdoors,
        0.04,
        mm(100.0, 200.0, 6.35, 6.35),
    );
    open(
        &mut parts,
        "under zone 2",
        outdoors,
        0.04,
        mm(100.0, 200.0, 0.0, 0.0),
    );
    let result = settled(&sound(parts), &quick());
    let mid = 3.175e-3;
    let at = |x: f64| {
        result.temperatures_at(&[(x, mid)])[0]
            .expect("inside")
            .value
    };
    let thin = Tolerance {
        absolute: 2e-3,
        why: "one-dimensional fin: ours, its Biot number h t/k = 0.003 times the 0.5 K of range",
    };
    close(("two-zone flange, far end", "K"), at(0.0), -9.383_82, thin);
    close(("two-zone flange, junction", "K"), at(0.1), -9.597_18, thin);
    close(("two-zone flange, tip", "K"), at(0.2), -9.787_58, thin);
    let flow = Tolerance {
        absolute: 1.363_69 * 2e-3,
        why: "the same, 0.2 % of the flow",
    };
    close(
        ("two-zone flange, flow", "W/m"),
        result.flows[room].value,
        1.363_69,
        flow,
    );
}

// Straight fin with both faces exposed, adiabatic tip, held at its root: Q/ΔT = η 2 h L with
// η = tanh(mL)/(mL), m = √(2h/kt) (analytic); t = 6.35 mm, k = 50 W/mK.
#[rstest]
#[case(50.0, 7.69, 0.739_39)]
#[case(100.0, 7.69, 1.329_89)]
#[case(50.0, 25.0, 2.216_48)]
#[case(100.0, 25.0, 3.385_32)]
fn the_fin(#[case] length: f64, #[case] h: f64, #[case] want: f64) {
    let mut parts = cut(length, 6.35);
    block(&mut parts, "fin", 50.0, mm(0.0, length, 0.0, 6.35));
    let outdoors = air(&mut parts, "outdoors", 0.0);
    held(&mut parts, "root", 1.0, mm(0.0, 0.0, 0.0, 6.35));
    open(
        &mut parts,
        "upper",
        outdoors,
        1.0 / h,
        mm(0.0, length, 6.35, 6.35),
    );
    open(
        &mut parts,
        "lower",
        outdoors,
        1.0 / h,
        mm(0.0, length, 0.0, 0.0),
    );
    let result = settled(&sound(parts), &quick());
    let flow = Tolerance {
        absolute: 3e-3 * want,
        why: "one-dimensional fin: ours, its Biot number h t/k is up to 0.003",
    };
    close(
        (&format!("fin of {length} mm at {h}"), "W/mK"),
        result.heat_flow.value,
        want,
        flow,
    );
}

/// Two steady directions: a face at 1 °C against one at 0 °C across a block of unequal
/// conductivities.
#[test]
fn each_direction_has_its_own_conductivity() {
    let across = |upright: bool| {
        let mut parts = cut(300.0, 200.0);
        block(&mut parts, "wood", 0.1, mm(0.0, 300.0, 0.0, 200.0));
        parts.blocks[0].conductivity.y = 0.25;
        let lines = if upright {
            [mm(0.0, 300.0, 0.0, 0.0), mm(0.0, 300.0, 200.0, 200.0)]
        } else {
            [mm(0.0, 0.0, 0.0, 200.0), mm(300.0, 300.0, 0.0, 200.0)]
        };
        held_pair(&mut parts, lines);
        let detail = sound(parts);
        let grid = Grid::even(&detail, 0.02).expect("few cells");
        Solution::on(&detail, grid, &SolveTolerance::default()).heat_flow()
    };
    assert_relative_eq!(across(false), 0.1 * 200.0 / 300.0, max_relative = 1e-8);
    assert_relative_eq!(across(true), 0.25 * 300.0 / 200.0, max_relative = 1e-8);
}

fn held_pair(parts: &mut DetailParts, lines: [dewmargin::model::detail::Area; 2]) {
    for (temperature, line) in [0.0, 1.0].into_iter().zip(lines) {
        parts.faces.push(Face {
            name: format!("at {temperature}"),
            line,
            contact: FaceContact::Held(temperature),
        });
    }
}
