//! The hourly reader against monthly means computed with another program.

use dewmargin::climate::{Climate, read_csv};

use crate::published::{Tolerance, close, printed};
use crate::support::repository;

const MEANS: &str = include_str!("monthly-from-packages.csv");

fn station(file: &str) -> Climate {
    let path = repository().join("tests/climate").join(file);
    read_csv(&path, &mut |_, _| {}).unwrap_or_else(|error| panic!("{error}"))
}

/// Month, mean temperature in °C and mean vapor pressure in Pa, as printed there.
fn means(name: &str) -> Vec<(usize, f64, f64)> {
    let rows = MEANS.lines().filter(|line| line.starts_with(name));
    rows.map(|row| {
        let cells: Vec<&str> = row.split(',').collect();
        let number = |cell: usize| cells[cell].parse::<f64>().expect("a number");
        (number(1) as usize - 1, number(3), number(5))
    })
    .collect()
}

/// Source of each row: `monthly-from-packages.csv` (computed in Python from the whole files).
#[rstest::rstest]
#[case("sand-point-tmy3.csv", "Sand Point")]
#[case("greensboro-tmy3.csv", "Greensboro")]
fn months_agree_to_the_printed_digits(#[case] file: &str, #[case] name: &str) {
    let climate = station(file);
    assert_eq!(climate.origin, format!("{file}: 8760 hours averaged"));
    assert_eq!(climate.notes, Vec::<String>::new());
    let means = means(name);
    assert_eq!(means.len(), 12);
    for (month, temperature, pressure) in means {
        let ours = climate.months[month];
        let case = format!("{name} month {}", month + 1);
        close(
            (&case, "K"),
            ours.temperature.as_celsius(),
            temperature,
            printed(3),
        );
        close(
            (&case, "Pa"),
            ours.vapor_pressure.as_pa(),
            pressure,
            printed(2),
        );
    }
}

/// Computed in Python from the whole files: the 36th lowest of 8760 temperatures, and the mean
/// vapor pressure of the hours at or below it over saturation there.
#[rstest::rstest]
#[case("sand-point-tmy3.csv", -8.9, 0.572_519_683_8)]
#[case("greensboro-tmy3.csv", -11.1, 0.665_196_254_5)]
fn design_nights(#[case] file: &str, #[case] celsius: f64, #[case] humidity: f64) {
    let night = station(file).design_night.expect("a design night");
    let rounding = Tolerance {
        absolute: 1e-6,
        why: "digits kept from the other program",
    };
    close(
        (file, "K"),
        night.temperature.as_celsius(),
        celsius,
        rounding,
    );
    close(
        (file, "RH"),
        night.humidity.as_fraction(),
        humidity,
        rounding,
    );
}
