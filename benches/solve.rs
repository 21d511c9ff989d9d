//! Speed of the solver: one path, a whole assembly, a project read from its text.
//!
//! `cargo bench --bench solve`. Target: a path of seven layers in under 2 µs. Speed is measured
//! here and never asserted in a test.

use divan::{Bencher, black_box};

use dewmargin::input::resolve_text;
use dewmargin::model::AirState;
use dewmargin::quantity::{RelativeHumidity, Temperature, ThermalResistance};
use dewmargin::solve::profile::{Boundary, Slab, SlabHeat, solve_path};
use dewmargin::solve::solve;

const WALL: &str = include_str!("../examples/cabin-wall.yaml");
const FLOOR: &str = include_str!("../examples/cabin-floor.yaml");

fn main() {
    divan::main();
}

/// Seven layers of round numbers: (m²·K/W, kg/(s·m²·Pa)).
const SEVEN: [(f64, f64); 7] = [
    (0.08, 4.0e-10),
    (0.16, 2.0e-9),
    (2.30, 1.9e-9),
    (0.11, 1.1e-10),
    (0.00, 4.0e-9),
    (0.18, 1.0e-8),
    (0.10, 2.0e-9),
];

fn seven_layers() -> Vec<Slab> {
    let slab = |(resistance, permeance): (f64, f64)| Slab {
        heat: SlabHeat::Fixed(ThermalResistance::from_si(resistance)),
        vapor_resistance: 1.0 / permeance,
        by_humidity: Vec::new(),
    };
    SEVEN.into_iter().map(slab).collect()
}

/// Room air at 20 °C against 5 °C and 82 % outdoors.
fn boundary(room_humidity: f64) -> Boundary {
    let air = |celsius, humidity| AirState {
        temperature: Temperature::from_celsius(celsius),
        humidity: RelativeHumidity::from_fraction(humidity),
    };
    Boundary {
        indoor: air(20.0, room_humidity),
        outdoor: air(5.0, 0.82),
        interior_film: ThermalResistance::from_si(0.13),
        exterior_film: ThermalResistance::from_si(0.04),
        interior_vapor_film: 0.0,
        exterior_vapor_film: 0.0,
    }
}

/// Nothing condenses: one pass through heat and vapor.
#[divan::bench]
fn path_of_seven_layers_dry(bencher: Bencher) {
    let (slabs, boundary) = (seven_layers(), boundary(0.35));
    assert_eq!(solve_path(&slabs, &boundary).condensing_total(), 0.0);
    bencher.bench(|| solve_path(black_box(&slabs), black_box(&boundary)));
}

/// Water at the sheathing: layers are split and the string is laid.
#[divan::bench]
fn path_of_seven_layers_condensing(bencher: Bencher) {
    let (slabs, boundary) = (seven_layers(), boundary(0.80));
    assert!(solve_path(&slabs, &boundary).condensing_total() > 0.0);
    bencher.bench(|| solve_path(black_box(&slabs), black_box(&boundary)));
}

/// The cabin's floor with its flange: three paths, two conditions, U-values.
#[divan::bench]
fn whole_floor(bencher: Bencher) {
    let project = resolve_text("cabin-floor.yaml", FLOOR).expect("the example is sound");
    let floor = &project.cases[0].assembly;
    bencher.bench(|| solve(black_box(floor), black_box(&project.stops[0].conditions)));
}

/// From text to a project: parsing, materials, validation.
#[divan::bench(args = ["cabin-wall.yaml", "cabin-floor.yaml"])]
fn read_project(bencher: Bencher, name: &str) {
    let text = if name == "cabin-wall.yaml" {
        WALL
    } else {
        FLOOR
    };
    bencher.bench(|| resolve_text(black_box(name), black_box(text)));
}
