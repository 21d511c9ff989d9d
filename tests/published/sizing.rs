//! Least thicknesses that have a closed form: two layers in series, steady (ISO 6946).
//!
//! ```text
//! U           d = λ (1/U − R_si − R_1 − R_se)
//! factor      d = λ (R_si/(1 − f) − R_si − R_1 − R_se)
//! plane       d = λ ((R_si + R_1) f/(1 − f) − R_se),   f = (θ − θ_e)/(θ_i − θ_e)
//! ```
//! θ is the temperature wanted at the plane between the layers: the room's dew point (ISO 13788,
//! p_sat = 610.5 exp(17.269 θ/(237.3 + θ))) and the margin asked for. Derived by hand from the
//! series of resistances; λ, R_1 and the films are chosen.

use dewmargin::check::Status;
use dewmargin::check::sizing::size;
use dewmargin::input::resolve_text;
use rstest::rstest;

use super::{Tolerance, close};

const SEARCH: Tolerance = Tolerance {
    absolute: 2e-6,
    why: "the search stops within 1 µm of where the target is met",
};
/// ISO 6946, heat flowing sideways and to outdoors, m²·K/W.
const FILMS: (f64, f64) = (0.13, 0.04);
/// Of a 20 mm panel at 0.1 W/(m·K), m²·K/W.
const PANEL: f64 = 0.02 / 0.1;
/// Of the foam, W/(m·K).
const FOAM: f64 = 0.03;
/// Room and outdoor air, °C, and the room's humidity.
const AIR: (f64, f64) = (20.0, 5.0);
const HUMIDITY: f64 = 0.6;

fn project(targets: &str) -> String {
    format!(
        "indoor: {{heating: {} C, humidity: {} %}}
outdoor: {{winter-mean: {{temperature: {} C, humidity: 80 %}}}}
assemblies:
  wall:
    kind: wall
    layers:
      - {{name: panel, kind: panel, thickness: 20 mm, conductivity: 0.1 W/mK, permeability: 2 ng/(m·s·Pa)}}
      - {{name: foam, kind: foam, thickness: 1 in, conductivity: 0.03 W/mK, permeability: 2 ng/(m·s·Pa), bonded: true}}
size:
  foam: {{layer: foam, between: [1 mm, 320 mm], sold: [5 mm, 20 mm, 40 mm, 80 mm, 160 mm, 320 mm], targets: {{{targets}}}}}
",
        AIR.0,
        HUMIDITY * 100.0,
        AIR.1
    )
}

fn dew_point() -> f64 {
    let saturation = 610.5 * (17.269 * AIR.0 / (237.3 + AIR.0)).exp();
    let log = (HUMIDITY * saturation / 610.5).ln();
    237.3 * log / (17.269 - log)
}

fn for_u(u: f64) -> f64 {
    FOAM * (1.0 / u - FILMS.0 - PANEL - FILMS.1)
}

fn for_factor(f: f64) -> f64 {
    FOAM * (FILMS.0 / (1.0 - f) - FILMS.0 - PANEL - FILMS.1)
}

fn for_margin(kelvin: f64) -> f64 {
    let f = (dew_point() + kelvin - AIR.1) / (AIR.0 - AIR.1);
    FOAM * ((FILMS.0 + PANEL) * f / (1.0 - f) - FILMS.1)
}

#[rstest]
#[case::u("u-value: 0.25 W/m2K", for_u(0.25), 160.0)]
#[case::tighter_u("u-value: 0.12 W/m2K", for_u(0.12), 320.0)]
#[case::factor("temperature-factor: 0.95", for_factor(0.95), 80.0)]
#[case::plane("leak-margin: 0 K", for_margin(0.0), 20.0)]
#[case::plane_with_a_margin("leak-margin: 4 K", for_margin(4.0), 40.0)]
#[case::the_strictest_of_three(
    "leak-margin: 4 K, temperature-factor: 0.95, u-value: 0.25 W/m2K",
    for_u(0.25),
    160.0
)]
fn the_least_thickness_of_two_layers(
    #[case] targets: &str,
    #[case] meters: f64,
    #[case] board: f64,
) {
    let text = project(targets);
    let project = resolve_text("wall.yaml", &text).unwrap_or_else(|error| panic!("{error}"));
    let sized = size(&project.sizings[0], &project.stops);
    let least = sized.nominal.least.expect("a thickness that meets it");
    close((targets, "m"), least.as_m(), meters, SEARCH);
    // No range is known of these numbers: the worst case is the same.
    let worst = sized.worst.least.expect("a thickness that meets it");
    close((targets, "m"), worst.as_m(), meters, SEARCH);
    assert_eq!(sized.status, Status::Pass);
    let bought = sized.board.expect("a board").thickness.as_m() * 1e3;
    assert!((bought - board).abs() < 1e-9, "{bought} mm");
    let thinner = sized.thinner.expect("a thinner one");
    assert!(thinner.thickness.as_m() < meters && !thinner.meets());
}

#[test]
fn what_three_hundred_millimeters_do_not_meet() {
    // U 0.09 needs 0.322 m, more than is sold.
    assert!(for_u(0.09) > 0.32);
    let text = project("u-value: 0.09 W/m2K");
    let project = resolve_text("wall.yaml", &text).unwrap_or_else(|error| panic!("{error}"));
    let sized = size(&project.sizings[0], &project.stops);
    assert_eq!(sized.status, Status::Fail);
    assert!(sized.board.is_none() && sized.nominal.least.is_none());
    // The best it reaches, at 320 mm.
    let (thickness, best) = &sized.nominal.best[0];
    assert!((thickness.as_m() - 0.32).abs() < 1e-12);
    let by_hand = 1.0 / (FILMS.0 + PANEL + 0.32 / FOAM + FILMS.1);
    let exact = Tolerance {
        absolute: 1e-9,
        why: "the same sum of resistances",
    };
    close(
        ("U of 320 mm", "W/m²K"),
        best.as_ref().expect("a value").value,
        by_hand,
        exact,
    );
}
