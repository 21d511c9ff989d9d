//! Worked examples from print: the explained steps show the intermediate values printed there.

use dewmargin::model::{Assembly, Project};
use dewmargin::quantity::unit::R_VALUE;
use dewmargin::quantity::{Style, UnitSystem};
use dewmargin::report::explain::{Derivation, entries};
use dewmargin::study::Study;

use super::calculator::number;
use crate::build_up::{air, framed, layer, measured, wall};

/// A project of nothing but that wall, between 20 or so °C inside and 0 °C outside.
fn project(assembly: Assembly, celsius: f64, humidity: f64) -> Project {
    let text = "indoor: {heating: 20 °C, humidity: 50 %}\n\
                outdoor: {winter-mean: {temperature: 0 °C, humidity: 80 %}}\n\
                assemblies:\n  wall:\n    kind: wall\n    layers:\n      \
                - {name: board, r-value: RSI 2, permeance: 100 ng/(s·m²·Pa)}\n";
    let mut project = dewmargin::input::resolve_text("wall.yaml", text).expect("a wall");
    project.cases[0].assembly = assembly;
    project.stops[0].conditions.indoor = air(celsius, humidity);
    project
}

fn derive(project: &Project, place: &str, units: UnitSystem) -> Derivation {
    let judged = Study::of(project).assemblies;
    let all = entries(&judged, &[]);
    let entry = all.iter().find(|entry| entry.place == place);
    entry.expect(place).derive(Style { units })
}

/// The printed step of a symbol, rounded as the source rounds it.
fn shows(derivation: &Derivation, symbol: &str, source: f64, decimals: usize) {
    let step = derivation.steps.iter().find(|step| step.symbol == symbol);
    let step = step.unwrap_or_else(|| panic!("no {symbol}"));
    let value = number(&step.result.number).expect("a number");
    let half = 0.5 * 10_f64.powi(-i32::try_from(decimals).expect("few"));
    assert!(
        (value - source).abs() <= half * 1.001,
        "{symbol}: {value}, printed {source}"
    );
}

// Approved Document L1 2002, appendix B style (from memory, reproduced), as in
// tests/published/transmittance.rs, worked example B: section totals 4.272 and 1.665, limits 3.46
// and 3.29, total 3.375 m²K/W, U 0.296 W/m²K before the correction for air gaps.
#[test]
fn the_combined_method_shows_the_printed_intermediates() {
    let layers = vec![
        measured("plasterboard", 0.0125, 0.25),
        framed(measured("mineral wool", 0.140, 0.038), 0.140 / 0.13, 0.15),
        measured("plywood", 0.019, 0.13),
        layer("air space", 0.090),
        layer("brick", 0.132),
    ];
    let project = project(wall(layers, (0.13, 0.04)), 20.0, 0.4);
    let u = derive(&project, "wall / U", UnitSystem::Metric);
    shows(&u, "R1", 0.050, 3);
    shows(&u, "R2", 3.684, 3);
    shows(&u, "R_a", 4.272, 3);
    shows(&u, "R_b", 1.665, 3);
    shows(&u, "R'", 3.46, 2);
    shows(&u, "R''", 3.29, 2);
    shows(&u, "U", 0.296, 3);
}

// Trade journal note on dew points in walls (seen), as in tests/published/condensation.rs: 70 °F at
// 50 %, 32 °F outdoors, R-11 inside of R-7 foam; 47 °F at the foam's inner face read there, 46.78 by
// hand from R-values alone, dew point 50.5 °F (ISO 13788 formula, computed).
#[test]
fn a_plane_shows_the_temperature_and_dew_point_of_the_note() {
    let layers = vec![
        layer("cavity", 11.0 * R_VALUE),
        layer("foam", 7.0 * R_VALUE),
    ];
    let project = project(wall(layers, (1e-9, 1e-9)), (70.0 - 32.0) / 1.8, 0.5);
    let plane = derive(
        &project,
        "wall / cavity / cavity / foam",
        UnitSystem::Imperial,
    );
    shows(&plane, "R1", 11.0, 2);
    shows(&plane, "R_T", 18.0, 2);
    shows(&plane, "θ_1", 46.78, 2);
    shows(&plane, "θ_d,i", 50.5, 1);
    shows(&plane, "Δθ_leak", 46.78 - 50.5, 1);
}
