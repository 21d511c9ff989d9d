//! Edges and corners of walls, and the corner of a floor edge.

use dewmargin::model::detail::FaceFilms;
use dewmargin::model::volume::VolumeParts;
use dewmargin::solve::conduction::{Precision, solve_detail};
use dewmargin::solve::volume::Faces;

use super::super::{Tolerance, close, rows};
use super::solved;
use crate::support::{detail, volume};

/// Three equal walls, computed by throw-away solvers outside this project; its head tells how, and what
/// they leave open.
const THREE_WALLS: &str = include_str!("three_walls.csv");

/// A row's case: conductivity, thickness (m) and films, as [`volume::walls`] wants them, inside legs of
/// three thicknesses.
fn of_row(meeting: usize, row: &[f64]) -> VolumeParts {
    let [conductivity, thickness, inside, outside] = [row[0], row[1], row[2], row[3]];
    let thickness = 1e3 * thickness;
    let sizes = (conductivity, thickness, 3.0 * thickness);
    volume::walls(meeting, sizes, (inside, outside))
}

#[test]
fn the_edge_of_two_walls_is_as_cold_as_in_two_dimensions() {
    for row in rows(THREE_WALLS) {
        let (thickness, clear, psi, factor) = (row[1], row[4], row[5], row[10]);
        let result = solved(of_row(2, &row), 25_000);
        // The prism is as long as it is thick.
        let flow = result.heat_flow.scaled(1.0 / thickness);
        let expected = clear * 6.0 * thickness + psi;
        let tolerance = Tolerance {
            absolute: flow.bar + 0.0002,
            why: "our error bar and theirs, 0.0002 W/(m·K)",
        };
        close(
            ("edge of two walls", "W/(m·K)"),
            flow.value,
            expected,
            tolerance,
        );
        assert!(flow.bar < 0.01 * expected, "{flow:?}");
        let coldest = result.coldest(Faces::Surface(1), None);
        let coldest = coldest.expect("a surface").temperature;
        let tolerance = Tolerance {
            absolute: coldest.bar + 0.0001,
            why: "our error bar and theirs, 0.0001",
        };
        close(("edge of two walls", "f"), coldest.value, factor, tolerance);
        assert!(coldest.bar < 0.01, "{coldest:?}");
    }
}

#[test]
fn the_corner_of_three_walls() {
    for row in rows(THREE_WALLS) {
        let (thickness, clear, psi, chi, factor) = (row[1], row[4], row[5], row[6], row[11]);
        let result = solved(of_row(3, &row), 60_000);
        let leg = 3.0 * thickness;
        let flow = result.heat_flow;
        let expected = 3.0 * leg * leg * clear + 3.0 * leg * psi + chi;
        let tolerance = Tolerance {
            absolute: flow.bar + 3.0 * leg * 0.0002 + 0.0005,
            why: "our error bar and theirs, 0.0002 W/(m·K) an edge and 0.0005 W/K the corner",
        };
        close(
            ("corner of three walls", "W/K"),
            flow.value,
            expected,
            tolerance,
        );
        assert!(flow.bar < 0.02 * expected, "{flow:?}");
        let coldest = result.coldest(Faces::Surface(1), None);
        let coldest = coldest.expect("a surface").temperature;
        let tolerance = Tolerance {
            absolute: coldest.bar + 0.003,
            why: "our error bar and theirs, 0.003",
        };
        close(
            ("corner of three walls", "f"),
            coldest.value,
            factor,
            tolerance,
        );
        // An even grid of 36 cells a thickness is off by 0.04 and 0.05.
        assert!((coldest.value - factor).abs() < 0.01, "{coldest:?}");
    }
}

// The project's own solver in two dimensions, on a prism of an L of steel and foam.
#[test]
fn a_prism_gives_what_two_dimensions_give() {
    let rectangles = [
        ("foam", 0.04, [50.0, 50.0, 600.0, 200.0]),
        ("more foam", 0.04, [50.0, 50.0, 200.0, 600.0]),
        ("steel", 50.0, [50.0, 120.0, 600.0, 124.0]),
    ];
    let (mut cut, mut parts) = (
        detail::cut(600.0, 600.0),
        volume::empty([600.0, 600.0, 80.0]),
    );
    for (name, k, [left, bottom, right, top]) in rectangles {
        detail::block(&mut cut, name, k, detail::mm(left, right, bottom, top));
        let extent = volume::mm([left, bottom, 0.0], [right, top, 80.0]);
        volume::block(&mut parts, name, k, extent);
    }
    let airs = [
        ("room", 20.0, 0.13, [200.0, 200.0, 600.0, 600.0]),
        ("outdoors", -5.0, 0.04, [0.0, 0.0, 600.0, 50.0]),
        ("gap", -5.0, 0.13, [0.0, 50.0, 50.0, 600.0]),
    ];
    for (name, temperature, film, [left, bottom, right, top]) in airs {
        let films = FaceFilms::all(film);
        let air = detail::air(&mut cut, name, temperature);
        detail::region(&mut cut, air, films, detail::mm(left, right, bottom, top));
        let air = volume::air(&mut parts, name, temperature);
        let extent = volume::mm([left, bottom, 0.0], [right, top, 80.0]);
        volume::region(&mut parts, air, films, extent);
    }
    let flat = solve_detail(&detail::sound(cut), &Precision::quick()).expect("few cells");
    let deep = solved(parts, 40_000);
    let (two, three) = (flat.heat_flow, deep.heat_flow.scaled(1.0 / 0.08));
    let tolerance = Tolerance {
        absolute: two.bar + three.bar,
        why: "both error bars",
    };
    close(
        ("prism, heat flow", "W/m"),
        three.value,
        two.value,
        tolerance,
    );
    assert!(three.bar < 0.03 * three.value, "{three:?}");
    let two = flat.coldest[0].expect("a surface of the room");
    let three = deep
        .coldest(Faces::Surface(0), None)
        .expect("the same")
        .temperature;
    let tolerance = Tolerance {
        absolute: two.bar + three.bar,
        why: "both error bars",
    };
    let case = ("prism, coldest surface", "°C");
    close(case, three.value, two.point.temperature, tolerance);
}

// An independent solver (computed, a throw-away program, 4 million cells, the same geometry on a grid of
// its own, extrapolated; from 20 to 5 °C): 5.111 W, wood on the bare flange 5.4998 °C, floor 12.40 °C.
#[test]
fn the_corner_of_a_floor_edge_on_a_bare_flange() {
    let parts = volume::floor_edge_corner(6.35, 0.0);
    let block = |name: &str| parts.blocks.iter().position(|block| block.name == name);
    let names = ["subfloor along x", "flange along x"];
    let [subfloor, flange] = names.map(|name| block(name).expect("a part of the corner"));
    let result = solved(parts, 140_000);
    let within = |bar: f64| Tolerance {
        absolute: bar,
        why: "our error bar",
    };
    let flow = result.heat_flow;
    close(
        ("floor corner, heat flow", "W"),
        flow.value,
        5.111,
        within(flow.bar),
    );
    let wood = result.coldest(Faces::Between(subfloor, flange), None);
    let wood = wood.expect("wood on steel").temperature;
    close(
        ("floor corner, wood on steel", "°C"),
        wood.value,
        5.4998,
        within(wood.bar),
    );
    assert!(wood.bar < 0.2, "{wood:?}");
    let floor = result
        .coldest(Faces::Surface(1), None)
        .expect("a floor")
        .temperature;
    close(
        ("floor corner, surface", "°C"),
        floor.value,
        12.40,
        within(floor.bar),
    );
}
