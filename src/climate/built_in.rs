//! The climates inside the binary: invented, to be plausible, and copied from no station.
//!
//! They were made up from what such places have in common (which months are coldest, how far
//! summer and winter lie apart, how humid they are) and looked at beside published station means
//! of the same zones. A house is designed with the data of its own place.

use super::{Climate, MonthlyMean, NightAir, Zone};
use crate::error::did_you_mean;
use crate::quantity::{RelativeHumidity, Temperature};

/// The names of the built-in climates.
pub const BUILT_IN: [&str; 4] = ["wet-coast", "cold-continental", "mixed-humid", "hot-humid"];

/// One built-in climate: months as °C and % (over ice below 0 °C), the night as °F and %.
struct Invented {
    name: &'static str,
    zone: (u8, Option<char>),
    months: [(f64, f64); 12],
    night: (f64, f64),
}

const INVENTED: [Invented; 4] = [
    Invented {
        name: BUILT_IN[0],
        zone: (4, Some('C')),
        months: [
            (4.7, 83.0),
            (5.4, 79.0),
            (7.1, 77.0),
            (9.4, 73.0),
            (12.6, 71.0),
            (15.3, 70.0),
            (17.6, 68.0),
            (17.8, 70.0),
            (15.2, 75.0),
            (10.9, 81.0),
            (7.2, 83.0),
            (4.9, 84.0),
        ],
        night: (25.0, 80.0),
    },
    Invented {
        name: BUILT_IN[1],
        zone: (6, None),
        months: [
            (-11.5, 75.0),
            (-8.6, 73.0),
            (-1.9, 70.0),
            (6.4, 62.0),
            (13.2, 61.0),
            (18.4, 66.0),
            (21.3, 68.0),
            (20.0, 71.0),
            (15.1, 72.0),
            (8.1, 70.0),
            (0.2, 76.0),
            (-7.9, 78.0),
        ],
        night: (-12.0, 76.0),
    },
    Invented {
        name: BUILT_IN[2],
        zone: (4, Some('A')),
        months: [
            (1.6, 67.0),
            (3.2, 64.0),
            (8.1, 62.0),
            (13.9, 60.0),
            (18.7, 67.0),
            (23.4, 70.0),
            (25.8, 71.0),
            (25.1, 73.0),
            (21.3, 73.0),
            (14.9, 70.0),
            (9.0, 67.0),
            (3.4, 68.0),
        ],
        night: (16.0, 70.0),
    },
    Invented {
        name: BUILT_IN[3],
        zone: (2, Some('A')),
        months: [
            (11.4, 74.0),
            (13.3, 73.0),
            (17.0, 72.0),
            (20.9, 73.0),
            (24.6, 75.0),
            (27.4, 77.0),
            (28.5, 77.0),
            (28.4, 77.0),
            (26.5, 77.0),
            (21.8, 75.0),
            (16.7, 75.0),
            (12.6, 75.0),
        ],
        night: (30.0, 75.0),
    },
];

impl Climate {
    /// A built-in climate by its name; letter case, blanks and hyphens don't matter.
    ///
    /// ```
    /// # use dewmargin::climate::Climate;
    /// let coast = Climate::built_in("Wet Coast").unwrap();
    /// assert_eq!(coast.origin, "invented, built in");
    /// assert!((coast.winter_mean().0.as_fahrenheit() - 41.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn built_in(name: &str) -> Option<Self> {
        let plain = |text: &str| text.trim().to_lowercase().replace([' ', '-', '_'], "");
        let found = INVENTED
            .iter()
            .find(|invented| plain(invented.name) == plain(name))?;
        let percent = |value: f64| RelativeHumidity::from_fraction(value / 100.0);
        let months = found.months.map(|(celsius, humidity)| {
            MonthlyMean::new(Temperature::from_celsius(celsius), percent(humidity))
        });
        let (fahrenheit, humidity) = found.night;
        let (number, letter) = found.zone;
        Some(Self {
            zone: Zone::new(number, letter),
            design_night: Some(NightAir {
                temperature: Temperature::from_fahrenheit(fahrenheit),
                humidity: percent(humidity),
            }),
            ..Self::from_months(found.name, "invented, built in", months)
        })
    }

    /// The built-in name nearest to one that isn't there.
    #[must_use]
    pub fn nearest_built_in(name: &str) -> Option<&'static str> {
        did_you_mean(name, BUILT_IN)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::moist_air::dew_point;
    use crate::quantity::Pressure;

    fn get(name: &str) -> Climate {
        Climate::built_in(name).unwrap()
    }

    #[test]
    fn every_name_has_a_climate_and_says_it_is_invented() {
        for name in BUILT_IN {
            let climate = get(name);
            assert_eq!(
                (climate.name.as_str(), climate.zone.is_some()),
                (name, true)
            );
            assert!(climate.origin.contains("invented"));
            let night = climate.design_night.unwrap();
            let coldest = climate
                .winter_months()
                .map(|n| climate.months[n].temperature);
            assert!(coldest.iter().all(|mean| night.temperature < *mean));
        }
        assert_eq!(Climate::built_in("wet coats"), None);
        assert_eq!(Climate::nearest_built_in("wet coats"), Some("wet-coast"));
    }

    #[test]
    fn the_wet_coast_has_the_winter_of_the_demo() {
        let air = get("wet-coast").winter_air();
        assert!((air.temperature.as_fahrenheit() - 41.0).abs() < 1e-9);
        assert!((air.humidity.as_fraction() - 0.82).abs() < 0.005, "{air:?}");
        assert_eq!(get("wet-coast").zone.unwrap().to_string(), "marine zone 4");
    }

    #[test]
    fn the_hot_summer_is_damper_than_a_cooled_room() {
        let climate = get("hot-humid");
        let dew = |month: usize| dew_point(climate.months[month].vapor_pressure).as_celsius();
        for month in [5, 6, 7] {
            assert!(
                (22.9..25.0).contains(&dew(month)),
                "{month}: {}",
                dew(month)
            );
        }
    }

    /// Published station means of the same kind of place (check-values §14, seen): the invented
    /// year stays near one, and copies none.
    #[test]
    fn the_invented_years_are_plausible_and_nobodys() {
        let vancouver = [
            3.3, 4.8, 6.6, 9.2, 12.5, 15.2, 17.5, 17.6, 14.6, 10.1, 6.0, 3.5,
        ];
        let new_york = [
            0.3, 1.8, 5.8, 11.7, 16.9, 21.9, 24.7, 24.0, 20.0, 13.8, 8.7, 3.1,
        ];
        let houston = [
            10.2, 12.2, 15.9, 20.2, 23.6, 26.9, 28.1, 27.9, 25.7, 20.9, 16.1, 11.9,
        ];
        let cases = [
            ("wet-coast", vancouver, 2.5),
            ("mixed-humid", new_york, 2.5),
            ("hot-humid", houston, 2.5),
        ];
        for (name, station, most) in cases {
            let means = get(name).months.map(|month| month.temperature.as_celsius());
            let apart = means.iter().zip(station).map(|(a, b)| (a - b).abs());
            assert!(apart.clone().all(|d| d < most), "{name}");
            assert!(apart.filter(|d| *d > 0.05).count() >= 10, "{name}");
        }
        // Zone 6 is milder than Duluth in zone 7.
        let duluth = [
            -13.9, -10.9, -4.2, 3.7, 10.4, 15.4, 18.9, 17.6, 12.3, 6.5, -2.0, -10.7,
        ];
        let means = get("cold-continental").months;
        let apart = means.iter().zip(duluth);
        assert!(
            apart
                .clone()
                .all(|(mean, d)| { (0.0..4.5).contains(&(mean.temperature.as_celsius() - d)) })
        );
    }

    #[test]
    fn no_month_is_over_saturation() {
        for month in BUILT_IN.iter().flat_map(|name| get(name).months) {
            assert!((0.3..0.95).contains(&month.humidity().as_fraction()));
            assert!(month.vapor_pressure > Pressure::from_pa(100.0));
        }
    }
}
