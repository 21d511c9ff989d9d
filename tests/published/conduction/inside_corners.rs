//! The coldest place in an inside corner, and whether its error bar reaches the truth.
//!
//! Source: own independent solution (computed, by a throw-away program): bilinear finite elements on a
//! graded grid of their own, 2 µm at every edge, some 250,000 nodes; a grid five times as coarse there
//! differs by at most 0.0009 K and 0.0001 W/m. With the bars of the last difference alone the first
//! case printed ± 0.003 K where 0.012 K was true.

use dewmargin::input::resolve_text;
use dewmargin::solve::conduction::Precision;
use dewmargin::solve::detail::solve_detail_case;
use rstest::rstest;

use super::super::{Tolerance, close};

/// What the finite elements leave open, K and W/m.
const OPEN: (f64, f64) = (1e-3, 2e-4);

/// Rectangles by left, bottom, right and top in mm and their conductivity: two walls that meet, seen
/// from the room in the upper right; 20 and −5 °C.
type Rectangles = &'static [(f64, f64, f64, f64, f64)];

const FOAM: Rectangles = &[
    (50.0, 50.0, 600.0, 200.0, 0.04),
    (50.0, 50.0, 200.0, 600.0, 0.04),
];
const LINED: Rectangles = &[
    (50.0, 50.0, 600.0, 200.0, 0.04),
    (50.0, 50.0, 200.0, 600.0, 0.04),
    (187.0, 187.0, 600.0, 200.0, 0.25),
    (187.0, 187.0, 200.0, 600.0, 0.25),
];
const STEEL: Rectangles = &[
    (50.0, 50.0, 600.0, 200.0, 0.03),
    (50.0, 50.0, 200.0, 600.0, 0.13),
    (50.0, 120.0, 600.0, 124.0, 50.0),
];

fn text(rectangles: Rectangles) -> String {
    let line =
        |(n, (left, bottom, right, top, conductivity)): (usize, &(f64, f64, f64, f64, f64))| {
            format!(
                "      - {{name: r{n}, conductivity: {conductivity} W/mK, covers: true, \
             from: [{left} mm, {bottom} mm], to: [{right} mm, {top} mm]}}\n"
            )
        };
    let lines: String = rectangles.iter().enumerate().map(line).collect();
    format!(
        "indoor: {{heating: 20 C, humidity: 50 %}}
outdoor: {{winter-mean: {{temperature: -5 C, humidity: 80 %}}}}
assemblies:
  board: {{kind: wall, layers: [{{name: board, material: XPS, thickness: 1 in}}]}}
details:
  corner:
    cut: {{width: 600 mm, height: 600 mm}}
    rectangles:
{lines}    air:
      - {{name: room, from: [200 mm, 200 mm], to: [600 mm, 600 mm]}}
      - {{name: outdoors, from: [0, 0], to: [600 mm, 50 mm]}}
      - {{name: outdoors, from: [0, 50 mm], to: [50 mm, 600 mm]}}
"
    )
}

// The coldest place with the usual films and with 0.25 m²K/W, °C, and the heat flow, W/m.
#[rstest]
#[case::two_walls_of_foam(FOAM, 17.1359, 16.0227, 5.57646)]
#[case::lined(LINED, 17.5774, 16.5619, 6.07564)]
#[case::steel_runs_into_it(STEEL, 13.5737, 11.4687, 11.54154)]
fn the_bars_reach_the_truth(
    #[case] rectangles: Rectangles,
    #[case] usual: f64,
    #[case] damp: f64,
    #[case] heat: f64,
) {
    let project = resolve_text("corner.yaml", &text(rectangles)).expect("a sound file");
    let conditions = &project.stops[0].conditions;
    let result = solve_detail_case(&project.details[0], conditions, &Precision::default());
    let result = result.expect("few cells");
    assert!(result.settled());
    let surface = &result.surfaces[0];
    for (name, coldest, want) in [
        ("usual film", surface.usual, usual),
        ("0.25 m²K/W", surface.damp, damp),
    ] {
        let both = Tolerance {
            absolute: coldest.bar + OPEN.0,
            why: "our error bar and theirs",
        };
        close((name, "°C"), coldest.point.temperature, want, both);
        assert!(coldest.bar < 0.1, "{}", coldest.bar);
    }
    let flow = result.conduction.heat_flow;
    let both = Tolerance {
        absolute: flow.bar + OPEN.1,
        why: "our error bar and theirs",
    };
    close(("heat flow", "W/m"), flow.value, heat, both);
}
