//! Volumes whose heat flow or temperature is known in closed form.

use dewmargin::model::volume::VolumeParts;
use rstest::rstest;

use super::super::{Tolerance, close};
use super::solved;
use crate::support::volume::{air, block, empty, held, mm, open, walls};

/// A cube of 1 m; each of its six sides held at that temperature.
fn cube(sides: [f64; 6]) -> VolumeParts {
    let mut parts = empty([1000.0; 3]);
    block(&mut parts, "cube", 0.7, mm([0.0; 3], [1000.0; 3]));
    for (side, temperature) in sides.into_iter().enumerate() {
        let (mut from, mut to) = ([0.0; 3], [1000.0; 3]);
        let (axis, position) = (side / 2, 1000.0 * (side % 2) as f64);
        (from[axis], to[axis]) = (position, position);
        held(
            &mut parts,
            &format!("side {side}"),
            temperature,
            mm(from, to),
        );
    }
    parts
}

// Analytic: six cubes, each with another face at 1, add up to a cube at 1.
#[rstest]
fn a_cube_with_one_hot_face_has_a_sixth_in_its_middle(#[values(0, 1, 2, 3, 4, 5)] hot: usize) {
    let mut sides = [0.0; 6];
    sides[hot] = 1.0;
    let middle = solved(cube(sides), 8_000).at([0.5; 3]);
    let tolerance = Tolerance {
        absolute: 1e-8,
        why: "analytic; what the solver's residual leaves",
    };
    let middle = middle.expect("a point inside").value;
    close(("middle of the cube", "K"), middle, 1.0 / 6.0, tolerance);
}

// Analytic: a fin of even section in air, with its own tip (Incropera and DeWitt, chapter 3, from
// memory; for a long one √(h P k A)). A square rod of 10 mm, a quarter of it.
#[test]
fn a_rod_out_of_a_wall_into_air() {
    let (h, k, side, length) = (7.7, 50.0, 0.010_f64, 0.600_f64);
    let mut parts = empty([600.0, 5.0, 5.0]);
    block(&mut parts, "rod", k, mm([0.0; 3], [600.0, 5.0, 5.0]));
    let room = air(&mut parts, "room", 20.0);
    held(&mut parts, "wall", 0.0, mm([0.0; 3], [0.0, 5.0, 5.0]));
    let film = 1.0 / h;
    open(
        &mut parts,
        "side",
        room,
        film,
        mm([0.0; 3], [600.0, 0.0, 5.0]),
    );
    open(
        &mut parts,
        "below",
        room,
        film,
        mm([0.0; 3], [600.0, 5.0, 0.0]),
    );
    open(
        &mut parts,
        "tip",
        room,
        film,
        mm([600.0, 0.0, 0.0], [600.0, 5.0, 5.0]),
    );
    let flow = solved(parts, 12_000).heat_flow.scaled(4.0 / 20.0);
    let (perimeter, area) = (4.0 * side, side * side);
    let m = (h * perimeter / (k * area)).sqrt();
    let (tip, sinh, cosh) = (h / (m * k), (m * length).sinh(), (m * length).cosh());
    let long = (h * perimeter * k * area).sqrt();
    let expected = long * (sinh + tip * cosh) / (cosh + tip * sinh);
    let biot = h * 0.5 * side / k;
    let tolerance = Tolerance {
        absolute: biot * expected,
        why: "the closed form neglects the section's Biot number, 0.0008",
    };
    close(("rod into air", "W/K"), flow.value, expected, tolerance);
    let long_rod = Tolerance {
        absolute: (biot + 2.0 * (-2.0 * m * length).exp()) * long,
        why: "the same, and what a rod of 0.6 m lacks of a long one",
    };
    close(("long rod into air", "W/K"), flow.value, long, long_rod);
}

/// The shape factor of a square edge between isothermal faces, per length (analytic).
const EDGE: f64 = 0.558_728_8;

/// Walls of 100 mm and 1 W/(m·K), 200 mm inside, that meet between isothermal faces.
fn isothermal(meeting: usize) -> VolumeParts {
    walls(meeting, (1.0, 100.0, 200.0), (0.0, 0.0))
}

// Analytic: 0.5587288 for the edge; what is lost where the legs end is below e^(−2π).
#[test]
fn an_edge_between_isothermal_faces() {
    let flow = solved(isothermal(2), 20_000).heat_flow.scaled(1.0 / 0.1);
    let tolerance = Tolerance {
        absolute: flow.bar,
        why: "our error bar",
    };
    let expected = 2.0 * 2.0 + EDGE;
    close(
        ("isothermal edge", "W/(m·K)"),
        flow.value,
        expected,
        tolerance,
    );
    assert!(flow.bar < 0.02 * EDGE, "{flow:?}");
}

// The three edges analytic, the corner 0.107 ± 0.002 thicknesses (computed, own throw-away solvers, even
// grids); a textbook's pair of 0.54 and 0.15 (seen) gives 0.02 less over three edges this long.
#[test]
fn a_corner_between_isothermal_faces() {
    let flow = solved(isothermal(3), 40_000).heat_flow.scaled(1.0 / 0.1);
    let tolerance = Tolerance {
        absolute: flow.bar + 0.002,
        why: "our error bar and theirs",
    };
    let expected = 3.0 * 2.0 * 2.0 + 3.0 * 2.0 * EDGE + 0.107;
    close(
        ("isothermal corner", "W/K per thickness"),
        flow.value,
        expected,
        tolerance,
    );
    assert!(flow.bar < 0.02 * expected, "{flow:?}");
}
