//! The design night of hourly data, in a memory that doesn't grow with the hours.

use super::cell::Air;
use crate::climate::NightAir;
use crate::physics::moist_air::saturation_vapor_pressure;
use crate::quantity::{RelativeHumidity, Temperature};

/// The share of the hours that is colder than the design night, or as cold.
///
/// Source: the 99.6 % heating design temperature of handbook station tables (common practice).
const COLDEST_SHARE: f64 = 0.004;
/// The coldest temperature counted, °C, and bins for each kelvin up to 60 °C.
const COLDEST: f64 = -90.0;
const BINS_PER_KELVIN: f64 = 100.0;
const BINS: usize = 15_001;

#[derive(Clone, Copy, Default)]
struct Bin {
    hours: u64,
    temperature: f64,
    vapor_pressure: f64,
}

/// Hours by temperature.
pub(super) struct Nights {
    bins: Vec<Bin>,
}

impl Nights {
    pub(super) fn new() -> Self {
        Self {
            bins: vec![Bin::default(); BINS],
        }
    }

    pub(super) fn add(&mut self, air: &Air) {
        let bin = ((air.temperature - COLDEST) * BINS_PER_KELVIN).round();
        let bin = &mut self.bins[(bin.max(0.0) as usize).min(BINS - 1)];
        bin.hours += 1;
        bin.temperature += air.temperature;
        bin.vapor_pressure += air.vapor_pressure;
    }

    /// The lowest temperature that 0.4 % of the hours don't exceed, to 0.01 K, and the mean vapor
    /// pressure of the hours at or below it; `None` without hours.
    pub(super) fn design_night(&self) -> Option<NightAir> {
        let hours: u64 = self.bins.iter().map(|bin| bin.hours).sum();
        let wanted = (hours as f64 * COLDEST_SHARE).ceil().max(1.0) as u64;
        let mut coldest = Bin::default();
        for bin in self.bins.iter().filter(|bin| bin.hours > 0) {
            coldest.hours += bin.hours;
            coldest.vapor_pressure += bin.vapor_pressure;
            if coldest.hours >= wanted {
                let temperature = Temperature::from_celsius(bin.temperature / bin.hours as f64);
                let saturation = saturation_vapor_pressure(temperature).as_pa();
                let vapor_pressure = coldest.vapor_pressure / coldest.hours as f64;
                let humidity = (vapor_pressure / saturation).min(1.0);
                return Some(NightAir {
                    temperature,
                    humidity: RelativeHumidity::from_fraction(humidity),
                });
            }
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn air(temperature: f64, humidity: f64) -> Air {
        let saturation = saturation_vapor_pressure(Temperature::from_celsius(temperature)).as_pa();
        Air {
            temperature,
            vapor_pressure: humidity * saturation,
            humidity,
        }
    }

    #[test]
    fn four_hours_in_a_thousand_are_as_cold_or_colder() {
        let mut nights = Nights::new();
        for hour in 0..1_000 {
            nights.add(&air(f64::from(hour) * 0.05 - 20.0, 0.8));
        }
        let night = nights.design_night().unwrap();
        assert_relative_eq!(night.temperature.as_celsius(), -19.85, max_relative = 1e-12);
        let mean = [-20.0, -19.95, -19.9, -19.85].map(|t| air(t, 0.8).vapor_pressure);
        let saturation = air(-19.85, 1.0).vapor_pressure;
        assert_relative_eq!(
            night.humidity.as_fraction(),
            mean.iter().sum::<f64>() / 4.0 / saturation,
            max_relative = 1e-12
        );
    }

    #[test]
    fn no_hours_no_night_and_extremes_stay_inside() {
        let mut nights = Nights::new();
        assert_eq!(nights.design_night(), None);
        nights.add(&air(60.0, 0.1));
        nights.add(&air(-90.0, 1.0));
        assert_eq!(
            nights.design_night().unwrap().temperature.as_celsius(),
            -90.0
        );
    }
}
