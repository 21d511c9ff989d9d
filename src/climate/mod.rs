//! Climates: twelve monthly means, a design night, the zone of the building code they lie in.
//!
//! A climate is built in ([`Climate::built_in`], invented and saying so), read from a CSV file
//! ([`read_csv`]), or written out month by month. Months combine as vapor pressure, never as
//! averaged relative humidity: warm hours carry more water than cold ones at the same percentage.

mod built_in;
mod csv;
mod zone;

use crate::physics::moist_air::{saturation_vapor_pressure, vapor_pressure};
use crate::quantity::{Pressure, RelativeHumidity, Temperature};

pub use built_in::BUILT_IN;
pub use csv::{MOST_BYTES, read_csv, read_csv_from};
pub use zone::Zone;

/// The outdoor air of a place through an average year.
#[derive(Clone, Debug, PartialEq)]
pub struct Climate {
    /// What it is called: a built-in name, a file's, or the user's own.
    pub name: String,
    /// Where the numbers come from, such as `invented, built in` or `coast.csv: monthly means`.
    pub origin: String,
    /// The zone of the building code it lies in or resembles; `None` where nobody said.
    pub zone: Option<Zone>,
    /// The monthly means, January first.
    pub months: [MonthlyMean; 12],
    /// The cold design condition; `None` where it isn't known.
    pub design_night: Option<NightAir>,
    /// What a reader should know about the data: rows skipped, gaps, pressures capped.
    pub notes: Vec<String>,
}

/// One month's mean outdoor air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthlyMean {
    /// Mean temperature.
    pub temperature: Temperature,
    /// Mean vapor pressure.
    pub vapor_pressure: Pressure,
}

impl MonthlyMean {
    /// A month from its mean temperature and the relative humidity at it, over ice below 0 °C.
    ///
    /// ```
    /// # use dewmargin::climate::MonthlyMean;
    /// # use dewmargin::quantity::{RelativeHumidity, Temperature};
    /// let (temperature, humidity) = (Temperature::from_celsius(20.0), 0.5);
    /// let month = MonthlyMean::new(temperature, RelativeHumidity::from_fraction(humidity));
    /// assert!((month.vapor_pressure.as_pa() - 1168.48).abs() < 0.01);
    /// ```
    #[must_use]
    pub fn new(temperature: Temperature, humidity: RelativeHumidity) -> Self {
        Self {
            temperature,
            vapor_pressure: vapor_pressure(temperature, humidity),
        }
    }

    /// The relative humidity at the mean temperature, over ice below 0 °C.
    #[must_use]
    pub fn humidity(&self) -> RelativeHumidity {
        humidity(self.temperature, self.vapor_pressure)
    }
}

/// Outdoor air on a cold night.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NightAir {
    /// Its temperature.
    pub temperature: Temperature,
    /// Its relative humidity, over ice below 0 °C.
    pub humidity: RelativeHumidity,
}

fn humidity(temperature: Temperature, vapor_pressure: Pressure) -> RelativeHumidity {
    let saturation = saturation_vapor_pressure(temperature);
    RelativeHumidity::from_fraction(vapor_pressure.as_pa() / saturation.as_pa())
}

/// How many months make the winter.
const WINTER_MONTHS: usize = 3;

impl Climate {
    /// A climate from months alone; zone, design night and notes can be set afterward.
    ///
    /// ```
    /// # use dewmargin::climate::{Climate, MonthlyMean};
    /// # use dewmargin::quantity::{RelativeHumidity, Temperature};
    /// let mild = MonthlyMean::new(
    ///     Temperature::from_celsius(10.0),
    ///     RelativeHumidity::from_fraction(0.8),
    /// );
    /// let climate = Climate::from_months("island", "given in this file", [mild; 12]);
    /// assert_eq!(climate.winter_mean().0, mild.temperature);
    /// ```
    #[must_use]
    pub fn from_months(name: &str, origin: &str, months: [MonthlyMean; 12]) -> Self {
        Self {
            name: name.into(),
            origin: origin.into(),
            zone: None,
            months,
            design_night: None,
            notes: Vec::new(),
        }
    }

    /// The three months with the lowest mean temperature, as indices (0 is January) in the order
    /// of the calendar; of months equally cold the earlier ones.
    #[must_use]
    pub fn winter_months(&self) -> [usize; WINTER_MONTHS] {
        let mut order: Vec<usize> = (0..12).collect();
        order.sort_by(|a, b| {
            let celsius = |month: &usize| self.months[*month].temperature.as_celsius();
            celsius(a).total_cmp(&celsius(b))
        });
        let mut winter = [order[0], order[1], order[2]];
        winter.sort_unstable();
        winter
    }

    /// The winter mean: temperature and vapor pressure, each averaged over the three months with
    /// the lowest mean temperature. Never above saturation at the mean temperature.
    #[must_use]
    pub fn winter_mean(&self) -> (Temperature, Pressure) {
        let winter = self.winter_months().map(|month| self.months[month]);
        let mean = |value: fn(&MonthlyMean) -> f64| {
            winter.iter().map(value).sum::<f64>() / winter.len() as f64
        };
        let temperature = Temperature::from_celsius(mean(|m| m.temperature.as_celsius()));
        // The saturation curve bends upward but for its kink at 0 °C, where the mean of three
        // saturated months may lie a hair above it.
        let saturation = saturation_vapor_pressure(temperature).as_pa();
        let vapor = mean(|m| m.vapor_pressure.as_pa()).min(saturation);
        (temperature, Pressure::from_pa(vapor))
    }

    /// The winter mean as temperature and relative humidity, over ice below 0 °C.
    #[must_use]
    pub fn winter_air(&self) -> NightAir {
        let (temperature, vapor_pressure) = self.winter_mean();
        NightAir {
            temperature,
            humidity: humidity(temperature, vapor_pressure),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn month(celsius: f64, percent: f64) -> MonthlyMean {
        let humidity = RelativeHumidity::from_fraction(percent / 100.0);
        MonthlyMean::new(Temperature::from_celsius(celsius), humidity)
    }

    #[test]
    fn the_winter_is_found_on_either_half_of_the_globe() {
        let mut months = [month(15.0, 70.0); 12];
        for (index, celsius) in [(5, 4.0), (6, 2.0), (7, 6.0)] {
            months[index] = month(celsius, 80.0);
        }
        let climate = Climate::from_months("south", "given in this file", months);
        assert_eq!(climate.winter_months(), [5, 6, 7]);
        let (temperature, pressure) = climate.winter_mean();
        assert_relative_eq!(temperature.as_celsius(), 4.0, max_relative = 1e-12);
        let by_hand = [5, 6, 7].map(|n| months[n].vapor_pressure.as_pa());
        assert_relative_eq!(
            pressure.as_pa(),
            by_hand.iter().sum::<f64>() / 3.0,
            max_relative = 1e-12
        );
    }

    #[test]
    fn pressures_are_averaged_not_humidities() {
        let mut months = [month(25.0, 50.0); 12];
        (months[0], months[1], months[2]) =
            (month(20.0, 30.0), month(0.0, 100.0), month(0.0, 100.0));
        let air = Climate::from_months("odd", "given in this file", months).winter_air();
        assert!(air.humidity.as_fraction() < 0.766, "{air:?}"); // the mean of humidities is 0.767
    }

    #[test]
    fn a_month_keeps_its_humidity_above_and_below_freezing() {
        for celsius in [-20.0, -0.1, 0.0, 5.0, 30.0] {
            let back = month(celsius, 73.0).humidity().as_fraction();
            assert_relative_eq!(back, 0.73, max_relative = 1e-12);
        }
    }
}
