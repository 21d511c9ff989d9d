//! Mold at a plane inside a build-up, year after year of the same months.
//!
//! Temperature and vapor pressure run straight from mid-month to mid-month; the humidity follows from
//! them every five days. The months change slowly, and against steps of an hour the index differs by
//! less than 0.02 (tested). Nothing is stored here: a spell shorter than a month isn't seen.

use super::year::{MONTH_DAYS, Year};
use crate::physics::moist_air::saturation_vapor_pressure;
use crate::physics::mold_index::{Climate, Mold, climate, critical_humidity};
use crate::quantity::{MoldClass, RelativeHumidity, Temperature};

/// Years that are followed at most.
pub const MOST_YEARS: usize = 20;
/// Days of a step: 73 make a year.
const STEP: f64 = 5.0;
/// Steps of a year.
const STEPS: usize = 73;
/// A year that ends this near to where it began is like the next one.
const STEADY: f64 = 1e-6;

/// How mold comes to stand at a plane.
#[derive(Clone, Debug, PartialEq)]
pub struct MoldYears {
    /// The greatest index of the first year, from a clean surface on 1 January.
    pub first: f64,
    /// The greatest index of the last year.
    pub last: f64,
    /// Years followed: until they are alike, at most [`MOST_YEARS`].
    pub years: usize,
    /// Whether it grows in a month, January first.
    pub grows: [bool; 12],
    /// Whether a month is below 0 °C there.
    pub frost: [bool; 12],
    /// The greatest humidity of the months, a fraction, and its month.
    pub dampest: (f64, usize),
}

/// The middles of the months in days from 1 January, and of the next January.
const MIDDLES: [f64; 13] = {
    let mut middles = [0.0; 13];
    let (mut before, mut month) = (0, 0);
    while month < 12 {
        middles[month] = before as f64 + 0.5 * MONTH_DAYS[month] as f64;
        before += MONTH_DAYS[month];
        month += 1;
    }
    middles[12] = 365.0 + middles[0];
    middles
};

/// A plane through the months.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlaneMonths {
    /// °C, January first.
    pub temperatures: [f64; 12],
    /// Vapor pressure, Pa.
    pub pressures: [f64; 12],
}

impl PlaneMonths {
    /// A plane of a year that was solved; `None` between two perfect barriers.
    #[must_use]
    pub fn of(year: &Year, plane: usize) -> Option<Self> {
        let mut pressures = [0.0; 12];
        for (pressure, month) in pressures.iter_mut().zip(&year.months) {
            *pressure = month.pressures[plane]?;
        }
        Some(Self {
            temperatures: std::array::from_fn(|month| year.months[month].temperatures[plane]),
            pressures,
        })
    }

    /// Relative humidity at mid-month as a fraction.
    #[must_use]
    pub fn humidity(&self, month: usize) -> f64 {
        let celsius = Temperature::from_celsius(self.temperatures[month]);
        self.pressures[month] / saturation_vapor_pressure(celsius).as_pa()
    }

    /// Temperature in °C and vapor pressure in Pa at a time of the year, in days from 1 January.
    fn at(&self, day: f64) -> (f64, f64) {
        let day = if day < MIDDLES[0] { day + 365.0 } else { day };
        let next = 1 + MIDDLES[1..12]
            .iter()
            .filter(|middle| **middle <= day)
            .count();
        let (from, to) = (MIDDLES[next - 1], MIDDLES[next]);
        let share = (day - from) / (to - from);
        let mix = |of: &[f64; 12]| of[next - 1] + share * (of[next % 12] - of[next - 1]);
        (mix(&self.temperatures), mix(&self.pressures))
    }

    /// Whether it stays too dry for any growth all year: between two months that lie straight in
    /// temperature and pressure, the humidity rises over both by less than a twentieth.
    fn is_dry(&self, class: MoldClass) -> bool {
        let warm = Temperature::from_celsius(20.0);
        let least = critical_humidity(warm, class).as_fraction();
        (0..12).all(|month| self.humidity(month) * 1.05 < least)
    }

    fn climate(&self, day: f64, class: MoldClass) -> Climate {
        let (celsius, pressure) = self.at(day);
        let temperature = Temperature::from_celsius(celsius);
        let humidity = pressure / saturation_vapor_pressure(temperature).as_pa();
        climate(
            temperature,
            RelativeHumidity::from_fraction(humidity),
            class,
        )
    }
}

/// Follows mold at a plane from a clean surface on, the same months every year.
///
/// # Example
/// Against a cold sheet behind a damp room's lining, January at 8 °C and 95 %:
/// ```
/// use dewmargin::quantity::MoldClass;
/// use dewmargin::solve::mold::{PlaneMonths, mold_years};
///
/// let winter = [8.0, 8.5, 10.0, 12.0, 15.0, 17.0, 19.0, 19.0, 16.0, 13.0, 10.0, 8.5];
/// let months = PlaneMonths { temperatures: winter, pressures: [1020.0; 12] };
/// let mold = mold_years(&months, MoldClass::VerySensitive, 0.25);
/// assert!(mold.first > 1.0 && mold.last >= mold.first && mold.grows[0] && !mold.grows[6]);
/// ```
#[must_use]
pub fn mold_years(months: &PlaneMonths, class: MoldClass, decline: f64) -> MoldYears {
    let middle = |step: usize| (step as f64 + 0.5) * STEP;
    let steps: Vec<Climate> = match months.is_dry(class) {
        true => vec![Climate::Dry; STEPS],
        false => (0..STEPS)
            .map(|step| months.climate(middle(step), class))
            .collect(),
    };
    let mut mold = Mold::new(class, decline);
    let (mut first, mut last, mut years) = (0.0, 0.0, 0);
    let can_grow = steps
        .iter()
        .any(|day| matches!(day, Climate::Growth { .. }));
    while years < MOST_YEARS {
        let start = mold.index;
        last = 0.0;
        for step in &steps {
            mold.pass(*step, 24.0 * STEP);
            last = f64::max(last, mold.index);
        }
        years += 1;
        if years == 1 {
            first = last;
        }
        if !can_grow || (mold.index - start).abs() < STEADY {
            break;
        }
    }
    let mut grows = [false; 12];
    for (n, step) in steps.iter().enumerate() {
        let after =
            |month: &usize| middle(n) >= MIDDLES[*month] - 0.5 * f64::from(MONTH_DAYS[*month]);
        if let (Climate::Growth { .. }, Some(month)) = (step, (0..12).rev().find(after)) {
            grows[month] = true;
        }
    }
    let dampest = (0..12).map(|month| (months.humidity(month), month));
    let dampest = dampest.max_by(|a, b| a.0.total_cmp(&b.0));
    MoldYears {
        first,
        last,
        years,
        grows,
        frost: months.temperatures.map(|celsius| celsius < 0.0),
        dampest: dampest.unwrap_or_default(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The last index by steps of that many hours.
    fn by_steps(months: &PlaneMonths, class: MoldClass, hours: usize) -> f64 {
        let mut mold = Mold::new(class, 0.25);
        let mut greatest = 0.0;
        for _ in 0..6 {
            greatest = 0.0;
            for step in 0..8760 / hours {
                let day = (step as f64 + 0.5) * hours as f64 / 24.0;
                mold.pass(months.climate(day, class), hours as f64);
                greatest = f64::max(greatest, mold.index);
            }
        }
        greatest
    }

    #[test]
    fn five_days_are_fine_enough() {
        let temperatures = [
            2.0, 3.0, 6.0, 9.0, 14.0, 18.0, 21.0, 22.0, 17.0, 12.0, 7.0, 3.0,
        ];
        for class in [MoldClass::VerySensitive, MoldClass::Sensitive] {
            for pressure in [1_500.0, 1_900.0, 2_300.0] {
                let months = PlaneMonths {
                    temperatures,
                    pressures: temperatures.map(|celsius| {
                        let at = saturation_vapor_pressure(Temperature::from_celsius(celsius));
                        f64::min(pressure, 0.96 * at.as_pa())
                    }),
                };
                let (steps, hours) = (by_steps(&months, class, 120), by_steps(&months, class, 1));
                assert!(hours > 0.5, "{hours}");
                assert!((steps - hours).abs() < 0.02, "{steps}, {hours}");
            }
        }
    }

    #[test]
    fn months_meet_in_their_middles() {
        let months = PlaneMonths {
            temperatures: std::array::from_fn(|month| month as f64),
            pressures: [1_000.0; 12],
        };
        assert_eq!(months.at(15.5).0, 0.0);
        assert_eq!(months.at(31.0 + 14.0).0, 1.0);
        assert!((months.at(0.0).0 - 11.0 * 0.5).abs() < 1e-12);
        assert!(months.at(364.9).0 > months.at(0.0).0);
    }
}
