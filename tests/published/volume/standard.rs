//! The three-dimensional case 4 of ISO 10211, annex on validation.

use dewmargin::input::resolve_text;
use dewmargin::model::detail::FaceFilms;
use dewmargin::solve::detail::solve_boxes;
use dewmargin::solve::volume::Faces;

use super::super::{Tolerance, close};
use super::solved;
use crate::support::volume::{air, block, empty, mm, region};

const WATTS: Tolerance = Tolerance {
    absolute: 0.0054,
    why: "the standard's 1 % (from memory)",
};
const KELVIN: Tolerance = Tolerance {
    absolute: 0.005,
    why: "the standard's (from memory)",
};

// Case 4, an iron bar through an insulation layer: geometry seen, values 0.540 W and 0.805 °C and the
// standard's tolerances of 1 % and 0.005 K from memory. A quarter of it: its two planes of symmetry are
// adiabatic.
#[test]
fn case_4_iron_bar_through_insulation() {
    let mut parts = empty([500.0, 500.0, 800.0]);
    let layer = mm([0.0, 0.0, 100.0], [500.0, 500.0, 300.0]);
    let bar = mm([450.0, 475.0, 100.0], [500.0, 500.0, 700.0]);
    block(&mut parts, "layer", 0.1, layer);
    block(&mut parts, "bar", 50.0, bar);
    let cold = air(&mut parts, "cold", 0.0);
    let warm = air(&mut parts, "warm", 1.0);
    let films = FaceFilms::all(0.10);
    let below = mm([0.0; 3], [500.0, 500.0, 100.0]);
    let above = mm([0.0, 0.0, 300.0], [500.0, 500.0, 800.0]);
    region(&mut parts, cold, films, below);
    region(&mut parts, warm, films, above);
    let result = solved(parts, 60_000);
    let flow = result.heat_flow.scaled(4.0);
    close(("case 4, heat flow", "W"), flow.value, 0.540, WATTS);
    assert!((flow.value - 0.540).abs() <= flow.bar + 0.0005, "{flow:?}");
    let warmest = result.warmest(Faces::Surface(cold), None);
    let warmest = warmest.expect("a cold surface").temperature;
    let case = ("case 4, warmest external surface", "°C");
    close(case, warmest.value, 0.805, KELVIN);
    let reach = warmest.bar + 0.0005;
    assert!((warmest.value - 0.805).abs() <= reach, "{warmest:?}");
}

/// The same as a file says it.
#[test]
fn case_4_from_a_file() {
    let text = "
indoor: {heating: 20 C, humidity: 50 %}
outdoor: {winter-mean: {temperature: 0 C, humidity: 80 %}}
assemblies: {layer: {kind: wall, layers: [{name: layer, material: XPS, thickness: 200 mm}]}}
details:
  bar:
    cut: {width: 500 mm, depth: 500 mm, height: 800 mm}
    boxes:
      - {name: layer, conductivity: 0.1 W/mK, from: [0, 0, 100 mm], to: [500 mm, 500 mm, 300 mm]}
      - {name: bar, conductivity: 50 W/mK, covers: true,
         from: [450 mm, 475 mm, 100 mm], to: [500 mm, 500 mm, 700 mm]}
    air:
      - {name: cold, temperature: 0 C, films: {up: 0.1 m2K/W, sideways: 0.1 m2K/W, down: 0.1 m2K/W},
         from: [0, 0, 0], to: [500 mm, 500 mm, 100 mm]}
      - {name: warm, temperature: 1 C, films: {up: 0.1 m2K/W, sideways: 0.1 m2K/W, down: 0.1 m2K/W},
         from: [0, 0, 300 mm], to: [500 mm, 500 mm, 800 mm]}
";
    let project = resolve_text("case-4.yaml", text).unwrap_or_else(|error| panic!("{error}"));
    let result = solve_boxes(&project.volumes[0], &project.stops[0].conditions);
    let result = result.expect("a piece that can be solved");
    let flow = result.heat_flow.scaled(4.0);
    close(
        ("case 4 from a file, heat flow", "W"),
        flow.value,
        0.540,
        WATTS,
    );
    let warmest = result.surfaces[0].warmest.temperature;
    let case = ("case 4 from a file, warmest external surface", "°C");
    close(case, warmest.value, 0.805, KELVIN);
}
