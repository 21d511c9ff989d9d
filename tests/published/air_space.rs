//! Air spaces and surface films.

use dewmargin::model::{AirSpace, Assembly, AssemblyKind, Content, Films, Layer};
use dewmargin::physics::heat::{
    Direction, air_space_resistance, exterior_film_handbook, exterior_surface_resistance,
    interior_film_handbook, interior_surface_resistance,
};
use dewmargin::quantity::Length;
use dewmargin::quantity::unit::R_VALUE;
use dewmargin::solve::solve;
use rstest::rstest;

use super::{Tolerance, close, printed};
use crate::build_up::{layer, ordinary_winter, wall};

const EXACT: Tolerance = Tolerance {
    absolute: 1e-12,
    why: "a table value read back: rounding",
};
const DIRECTIONS: [Direction; 3] = [Direction::Up, Direction::Horizontal, Direction::Down];

/// ISO 6946, unventilated air layers: thickness in mm, then up, horizontal, down in m²·K/W
/// (from memory).
const TABLE: [(f64, [f64; 3]); 9] = [
    (0.0, [0.00, 0.00, 0.00]),
    (5.0, [0.11, 0.11, 0.11]),
    (7.0, [0.13, 0.13, 0.13]),
    (10.0, [0.15, 0.15, 0.15]),
    (15.0, [0.16, 0.17, 0.17]),
    (25.0, [0.16, 0.18, 0.19]),
    (50.0, [0.16, 0.18, 0.21]),
    (100.0, [0.16, 0.18, 0.22]),
    (300.0, [0.16, 0.18, 0.23]),
];

fn resistance(millimeters: f64, direction: Direction) -> f64 {
    air_space_resistance(Length::from_m(millimeters / 1000.0), direction).as_si()
}

#[test]
fn air_spaces_are_the_table() {
    for (millimeters, row) in TABLE {
        for (direction, want) in DIRECTIONS.into_iter().zip(row) {
            let case = format!("air space of {millimeters} mm, {direction:?}, ISO 6946");
            close(
                (&case, "m²K/W"),
                resistance(millimeters, direction),
                want,
                EXACT,
            );
        }
    }
}

// ISO 6946 lets values between the rows be interpolated linearly (from memory).
#[test]
fn between_the_rows_straight_lines() {
    for pair in TABLE.windows(2) {
        let [(thin, low), (thick, high)] = [pair[0], pair[1]];
        for part in [0.25, 0.5, 0.9] {
            for (at, direction) in DIRECTIONS.into_iter().enumerate() {
                let millimeters = thin + part * (thick - thin);
                let want = (1.0 - part) * low[at] + part * high[at];
                let case = format!("air space of {millimeters} mm, {direction:?}, interpolated");
                close(
                    (&case, "m²K/W"),
                    resistance(millimeters, direction),
                    want,
                    EXACT,
                );
            }
        }
    }
}

// ISO 6946, surface resistances up, horizontal, down (from memory; 0.13 and 0.04 also seen).
// Its annex gives them as 1/(ε h_r0 + h_c) with ε 0.9, h_r0 5.7 W/(m²K) at 20 °C and 4.6 at 0 °C,
// h_c 5.0, 2.5, 0.7 inside and 4 + 4v at v = 4 m/s outside (from memory): a second way there.
#[rstest]
#[case(interior_surface_resistance(Direction::Up).as_si(), 0.10, 5.7, 5.0)]
#[case(interior_surface_resistance(Direction::Horizontal).as_si(), 0.13, 5.7, 2.5)]
#[case(interior_surface_resistance(Direction::Down).as_si(), 0.17, 5.7, 0.7)]
#[case(exterior_surface_resistance().as_si(), 0.04, 4.6, 20.0)]
fn surface_resistances(
    #[case] ours: f64,
    #[case] want: f64,
    #[case] radiative: f64,
    #[case] convective: f64,
) {
    close(("surface resistance, ISO 6946", "m²K/W"), ours, want, EXACT);
    let derived = 1.0 / (0.9 * radiative + convective);
    close(
        ("surface resistance, ISO 6946 annex", "m²K/W"),
        ours,
        derived,
        printed(2),
    );
}

// Inside ASHRAE Handbook—Fundamentals (from memory; 0.61 and outside 0.17 seen in ASHRAE
// 90.1-2016, appendix A), h·ft²·°F/Btu.
#[rstest]
#[case(interior_film_handbook(Direction::Up).as_si(), 0.61)]
#[case(interior_film_handbook(Direction::Horizontal).as_si(), 0.68)]
#[case(interior_film_handbook(Direction::Down).as_si(), 0.92)]
#[case(exterior_film_handbook().as_si(), 0.17)]
fn handbook_films(#[case] ours: f64, #[case] want: f64) {
    close(
        ("handbook film", "h·ft²·°F/Btu"),
        ours / R_VALUE,
        want,
        EXACT,
    );
}

fn gap(air: AirSpace) -> Layer {
    Layer {
        content: Content::Air(air),
        resistance: None,
        ..layer("gap", 0.0)
    }
}

// ISO 6946, well ventilated layers: what lies outside is left out and the outer film becomes that
// of still air (from memory).
#[rstest]
#[case::ventilated(AirSpace::Ventilated, 0.13 + 2.0 + 0.13)]
// The 100 mm gap of the same wall closed: 0.18, siding 0.10, outer film 0.04.
#[case::still(AirSpace::Still, 0.13 + 2.0 + 0.18 + 0.10 + 0.04)]
fn a_gap_behind_siding(#[case] air: AirSpace, #[case] want: f64) {
    let layers = vec![layer("insulation", 2.0), gap(air), layer("siding", 0.10)];
    let wall = Assembly {
        films: Films::default(),
        ..wall(layers, (0.0, 0.0))
    };
    let solved = solve(&wall, &ordinary_winter());
    let ours = solved.ends[0].paths[0].winter.total_resistance.as_si();
    close(("wall with a gap, ISO 6946", "m²K/W"), ours, want, EXACT);
}

// ISO 6946 films by direction of heat flow: a heated room loses heat down through its floor and up
// through its roof (from memory).
#[rstest]
#[case(AssemblyKind::Floor, 0.17)]
#[case(AssemblyKind::Wall, 0.13)]
#[case(AssemblyKind::Roof, 0.10)]
fn films_follow_the_assembly(#[case] kind: AssemblyKind, #[case] inside: f64) {
    let plain = wall(vec![layer("insulation", 2.0)], (0.0, 0.0));
    let assembly = Assembly {
        kind,
        films: Films::default(),
        ..plain
    };
    let solved = solve(&assembly, &ordinary_winter());
    let ours = solved.ends[0].paths[0].winter.total_resistance.as_si();
    close(
        ("total with standard films", "m²K/W"),
        ours,
        inside + 2.0 + 0.04,
        EXACT,
    );
}
