//! Saturation pressure, dew point, and the surface temperature at which mold may grow.

use dewmargin::check::room_surface::mold_limit;
use dewmargin::physics::heat::temperature_factor;
use dewmargin::physics::moist_air::{dew_point, saturation_vapor_pressure, vapor_pressure};
use dewmargin::quantity::{Pressure, RelativeHumidity, Temperature};
use rstest::rstest;

use super::{Tolerance, close, printed, rows};

const SATURATION: &str = include_str!("psat_table.csv");
const DEW_POINTS: &str = include_str!("dewpoint_grid.csv");

fn saturation(celsius: f64) -> f64 {
    saturation_vapor_pressure(Temperature::from_celsius(celsius)).as_pa()
}

fn dew_point_of(celsius: f64, percent: f64) -> f64 {
    let humidity = RelativeHumidity::from_fraction(percent / 100.0);
    dew_point(vapor_pressure(Temperature::from_celsius(celsius), humidity)).as_celsius()
}

/// How far the ISO 13788 formula may lie from the reference equations, as a fraction of the
/// pressure: 0.2 % from 0 to 40 °C and 1.1 % at −30 °C as the library's documentation states it,
/// on a straight line between and below.
fn stated_accuracy(celsius: f64) -> f64 {
    0.002 + 0.009 * (-celsius / 30.0).max(0.0)
}

fn stated(absolute: f64) -> Tolerance {
    Tolerance {
        absolute,
        why: "accuracy stated for the formula: 0.2 % above 0 °C, 1.1 % at −30 °C",
    }
}

#[test]
fn saturation_pressure_against_two_libraries() {
    let table = rows(SATURATION);
    assert_eq!(table.len(), 15);
    for row in table {
        let (celsius, ours) = (row[0], saturation(row[0]));
        let columns = [("CoolProp 8.0.0", row[1]), ("psychrolib 2.5.0", row[2])];
        for (library, want) in columns {
            let case = format!("saturation at {celsius} °C, {library}");
            close(
                (&case, "Pa"),
                ours,
                want,
                stated(want * stated_accuracy(celsius)),
            );
        }
    }
}

// The formula itself (ISO 13788, from memory), evaluated outside this project.
#[test]
fn saturation_pressure_is_the_formula_to_its_printed_digits() {
    for row in rows(SATURATION) {
        let case = format!("saturation at {} °C, ISO 13788 formula", row[0]);
        close((&case, "Pa"), saturation(row[0]), row[3], printed(4));
    }
}

// SBi 224, annex A tables (seen).
#[rstest]
#[case(-20.0, 103.5)]
#[case(-19.0, 113.9)]
#[case(-18.0, 125.2)]
#[case(31.0, 4492.0)]
#[case(32.0, 4755.0)]
fn saturation_pressure_in_a_guideline(#[case] celsius: f64, #[case] want: f64) {
    let case = format!("saturation at {celsius} °C, SBi 224 annex A");
    close(
        (&case, "Pa"),
        saturation(celsius),
        want,
        stated(want * stated_accuracy(celsius)),
    );
}

// Conditions of the block method of DIN 4108-3, pressures as an article on it prints them (seen).
#[rstest]
#[case(20.0, 0.50, 1168.0)]
#[case(-5.0, 0.80, 321.0)]
fn vapor_pressure_of_the_block_method(
    #[case] celsius: f64,
    #[case] humidity: f64,
    #[case] want: f64,
) {
    let humidity = RelativeHumidity::from_fraction(humidity);
    let ours = vapor_pressure(Temperature::from_celsius(celsius), humidity).as_pa();
    close(
        ("vapor pressure, DIN 4108-3 block method", "Pa"),
        ours,
        want,
        printed(0),
    );
}

// 126 pairs of temperature and humidity (computed: psychrolib 2.5.0, CoolProp 8.0.0).
#[test]
fn dew_points_against_two_libraries() {
    let table = rows(DEW_POINTS);
    assert_eq!(table.len(), 126);
    for row in table {
        let ours = dew_point_of(row[0], row[1]);
        for (library, want) in [("psychrolib 2.5.0", row[3]), ("CoolProp 8.0.0", row[4])] {
            // The stated accuracy of the pressure over the slope d(ln p)/dθ of the formula.
            let (a, b) = if want < 0.0 {
                (21.875, 265.5)
            } else {
                (17.269, 237.3)
            };
            let slope = a * b / ((b + want) * (b + want));
            let tolerance = stated(stated_accuracy(want) / slope);
            let case = format!("dew point of {} °C at {} %, {library}", row[0], row[1]);
            close((&case, "°C"), ours, want, tolerance);
        }
    }
}

// The formula's inverse (analytic), evaluated outside this project.
#[test]
fn dew_points_are_the_inverse_formula_to_its_printed_digits() {
    for row in rows(DEW_POINTS) {
        let case = format!(
            "dew point of {} °C at {} %, ISO 13788 formula",
            row[0], row[1]
        );
        close(
            (&case, "°C"),
            dew_point_of(row[0], row[1]),
            row[2],
            printed(4),
        );
    }
}

// Computed by psychrolib 2.5.0 and CoolProp 8.0.0; both round to the want within 0.003 K.
#[rstest]
#[case(20.0, 30.0, 1.914, 1.917)]
#[case(20.0, 50.0, 9.272, 9.274)]
#[case(21.0, 40.0, 6.899, 6.902)]
#[case(21.0, 50.0, 10.191, 10.194)]
#[case(25.0, 60.0, 16.701, 16.704)]
fn dew_points_of_rooms(
    #[case] celsius: f64,
    #[case] percent: f64,
    #[case] psychrolib: f64,
    #[case] coolprop: f64,
) {
    let tolerance = Tolerance {
        absolute: 0.03,
        why: "0.2 % of the pressure, at 0.065 per K",
    };
    let case = format!("room of {celsius} °C at {percent} %");
    for want in [psychrolib, coolprop] {
        close(
            (&case, "°C"),
            dew_point_of(celsius, percent),
            want,
            tolerance,
        );
    }
}

#[test]
fn a_dew_point_needs_some_vapor() {
    // Dry air is taken as 1 Pa, so that nothing downstream meets an infinity.
    let least = dew_point(Pressure::from_pa(0.0));
    assert_eq!(least, dew_point(Pressure::from_pa(1.0)));
    assert!(least.as_celsius() < -55.0);
}

// Indoor °C, outdoor °C, humidity; surface at 80 % and temperature factor computed from the ISO
// 13788 formula outside this project.
#[rstest]
#[case(20.0, -5.0, 0.50, 12.625, 0.7050)]
#[case(20.0, 0.0, 0.50, 12.625, 0.6312)]
#[case(20.0, 5.0, 0.60, 15.435, 0.6957)]
#[case(21.0, -10.0, 0.40, 10.187, 0.6512)]
#[case(20.0, -15.0, 0.35, 7.304, 0.6373)]
fn mold_limit_and_temperature_factor(
    #[case] indoor: f64,
    #[case] outdoor: f64,
    #[case] humidity: f64,
    #[case] surface: f64,
    #[case] factor: f64,
) {
    let limit = mold_limit(Temperature::from_celsius(dew_point_of(
        indoor,
        100.0 * humidity,
    )));
    close(
        (&format!("surface at 80 %, room {indoor} °C"), "°C"),
        limit.as_celsius(),
        surface,
        printed(3),
    );
    let [outdoor, indoor] = [outdoor, indoor].map(Temperature::from_celsius);
    let ours = temperature_factor(limit, outdoor, indoor).unwrap();
    close(
        ("temperature factor at 80 %", "1"),
        ours,
        factor,
        printed(4),
    );
}

// DIN 4108-2 prints 12.6 °C and at least 0.70 for 20 °C, 50 %, −5 °C (from memory).
#[test]
fn the_standard_room_of_din_4108_2() {
    let limit = mold_limit(Temperature::from_celsius(dew_point_of(20.0, 50.0)));
    close(
        ("surface, DIN 4108-2", "°C"),
        limit.as_celsius(),
        12.6,
        printed(1),
    );
    let [outdoor, indoor] = [-5.0, 20.0].map(Temperature::from_celsius);
    let factor = temperature_factor(limit, outdoor, indoor).unwrap();
    let cut = Tolerance {
        absolute: 0.01,
        why: "printed as a bound, cut to two digits",
    };
    close(("temperature factor, DIN 4108-2", "1"), factor, 0.70, cut);
}
