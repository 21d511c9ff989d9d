//! The mold index under constant air, hourly steps, against values computed outside the project.
//!
//! Source: mold-index-worked.csv of the project's shared data (computed, by a throw-away program of
//! its own), after Hukka and Viitanen 1999 and Ojanen et al. 2010, whose coefficients were seen in two
//! open transcriptions.

use approx::assert_abs_diff_eq;
use dewmargin::physics::mold_index::{Climate, Mold, climate, critical_humidity};
use dewmargin::quantity::MoldClass::{self, MediumResistant, Resistant, Sensitive, VerySensitive};
use dewmargin::quantity::{RelativeHumidity, Temperature};
use rstest::rstest;

/// Printed to four digits after the point.
const LAST_DIGIT: f64 = 0.5e-4;

fn air(celsius: f64, percent: f64) -> (Temperature, RelativeHumidity) {
    (
        Temperature::from_celsius(celsius),
        RelativeHumidity::from_fraction(percent / 100.0),
    )
}

/// The index at the end of each hour of a year, from a clean surface.
fn year(class: MoldClass, celsius: f64, percent: f64) -> Vec<f64> {
    let (temperature, humidity) = air(celsius, percent);
    let there = climate(temperature, humidity, class);
    let mut mold = Mold::new(class, 1.0);
    let hours = 0..52 * 168;
    hours
        .map(|_| {
            mold.pass(there, 1.0);
            mold.index
        })
        .collect()
}

// Class, °C, %, critical %, greatest index, weeks to 1 and to 3 (first hour at or over it), index after
// 4, 12, 26 and 52 weeks.
#[rstest]
#[case(VerySensitive, (22.0, 90.0), 80.0, 4.0, [Some(3.94), Some(7.97)], [1.0304, 3.9665, 4.0, 4.0])]
#[case(VerySensitive, (22.0, 85.0), 80.0, 2.625, [Some(8.80), None], [0.4570, 1.6906, 2.6230, 2.6250])]
#[case(VerySensitive, (10.0, 95.0), 82.03, 5.0104, [Some(3.18), Some(6.36)], [1.5184, 4.9984, 5.0104, 5.0104])]
#[case(Sensitive, (22.0, 90.0), 80.0, 3.05, [Some(6.84), Some(37.05)], [0.5859, 1.4976, 2.6568, 3.0482])]
#[case(Sensitive, (22.0, 85.0), 80.0, 1.7375, [Some(16.29), None], [0.2586, 0.7558, 1.3129, 1.6893])]
#[case(Sensitive, (10.0, 95.0), 82.03, 4.1096, [Some(5.50), Some(22.23)], [0.7280, 1.7894, 3.3991, 4.1084])]
#[case(MediumResistant, (22.0, 90.0), 85.0, 1.5, [None, None], [0.0706, 0.2104, 0.4488, 0.8533])]
#[case(MediumResistant, (22.0, 85.0), 85.0, 0.0, [None, None], [0.0, 0.0, 0.0, 0.0])]
#[case(MediumResistant, (10.0, 95.0), 85.0, 2.6667, [Some(44.48), None], [0.0905, 0.2713, 0.5869, 1.2233])]
#[case(Resistant, (22.0, 90.0), 85.0, 0.8889, [None, None], [0.0290, 0.0861, 0.1827, 0.3481])]
#[case(Resistant, (22.0, 85.0), 85.0, 0.0, [None, None], [0.0, 0.0, 0.0, 0.0])]
#[case(Resistant, (10.0, 95.0), 85.0, 1.5556, [None, None], [0.0404, 0.1207, 0.2599, 0.5115])]
fn growth_under_constant_air(
    #[case] class: MoldClass,
    #[case] (celsius, percent): (f64, f64),
    #[case] critical: f64,
    #[case] greatest: f64,
    #[case] to: [Option<f64>; 2],
    #[case] after: [f64; 4],
) {
    let (temperature, humidity) = air(celsius, percent);
    let there = critical_humidity(temperature, class).as_fraction() * 100.0;
    assert_abs_diff_eq!(there, critical, epsilon = 0.5e-3);
    let Climate::Growth { greatest: most, .. } = climate(temperature, humidity, class) else {
        panic!("it is at the critical humidity");
    };
    assert_abs_diff_eq!(most, greatest, epsilon = LAST_DIGIT);
    let index = year(class, celsius, percent);
    for (week, want) in [4, 12, 26, 52].into_iter().zip(after) {
        assert_abs_diff_eq!(index[week * 168 - 1], want, epsilon = LAST_DIGIT);
    }
    for (level, want) in [1.0, 3.0].into_iter().zip(to) {
        let hour = index.iter().position(|index| *index >= level);
        let weeks = hour.map(|hour| (hour + 1) as f64 / 168.0);
        assert_eq!(weeks.is_some(), want.is_some(), "{level}: {weeks:?}");
        if let (Some(weeks), Some(want)) = (weeks, want) {
            assert_abs_diff_eq!(weeks, want, epsilon = 0.01);
        }
    }
}

// Thirty days at 20 °C and 50 % from an index of 3.
#[rstest]
#[case(0.25, 2.8819)]
#[case(1.0, 2.5278)]
fn decline_in_dry_air(#[case] decline: f64, #[case] want: f64) {
    let (temperature, humidity) = air(20.0, 50.0);
    let there = climate(temperature, humidity, Sensitive);
    assert_eq!(there, Climate::Dry);
    let mut mold = Mold::new(Sensitive, decline);
    mold.index = 3.0;
    for _ in 0..30 * 24 {
        mold.pass(there, 1.0);
    }
    assert_abs_diff_eq!(mold.index, want, epsilon = LAST_DIGIT);
}

#[test]
fn frost_stands_still() {
    let (temperature, humidity) = air(-0.5, 100.0);
    let mut mold = Mold::new(VerySensitive, 1.0);
    mold.index = 2.0;
    mold.pass(climate(temperature, humidity, VerySensitive), 1000.0);
    assert_abs_diff_eq!(mold.index, 2.0);
}
