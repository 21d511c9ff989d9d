//! Indoor and outdoor air.

use crate::physics::moist_air::{dew_point, vapor_pressure};
use crate::quantity::{Pressure, RelativeHumidity, Temperature};

/// Air by temperature and relative humidity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirState {
    /// Air temperature.
    pub temperature: Temperature,
    /// Relative humidity; over ice where the temperature is below 0 °C.
    pub humidity: RelativeHumidity,
}

impl AirState {
    /// Its vapor pressure.
    ///
    /// ```
    /// use dewmargin::model::AirState;
    /// use dewmargin::quantity::{RelativeHumidity, Temperature};
    ///
    /// let room = AirState {
    ///     temperature: Temperature::from_celsius(20.0),
    ///     humidity: RelativeHumidity::from_fraction(0.5),
    /// };
    /// assert!((room.vapor_pressure().as_pa() - 1168.48).abs() < 0.01);
    /// ```
    #[must_use]
    pub fn vapor_pressure(self) -> Pressure {
        vapor_pressure(self.temperature, self.humidity)
    }

    /// Its dew point; below 0 °C over ice.
    ///
    /// ```
    /// use dewmargin::model::AirState;
    /// use dewmargin::quantity::{RelativeHumidity, Temperature};
    ///
    /// let room = AirState {
    ///     temperature: Temperature::from_celsius(20.0),
    ///     humidity: RelativeHumidity::from_fraction(0.5),
    /// };
    /// assert!((room.dew_point().as_celsius() - 9.27).abs() < 0.01);
    /// ```
    #[must_use]
    pub fn dew_point(self) -> Temperature {
        dew_point(self.vapor_pressure())
    }
}

/// One month, indoors and out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthState {
    /// Room air.
    pub indoor: AirState,
    /// Outdoor air.
    pub outdoor: AirState,
    /// Whether the house is cooled: the outdoor mean lies above the cooling set point.
    pub cooled: bool,
}

/// Where a stop's outdoor air comes from, as a plan reviewer asks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ClimateSource {
    /// A built-in climate: invented, for trying out.
    Invented,
    /// The user's own numbers, and the file doesn't say where they come from.
    NotStated,
    /// The user's own numbers with their source, in the file's words.
    Stated(String),
}

/// The conditions a project is judged under.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// Room air on the winter mean and on the design night.
    pub indoor: AirState,
    /// Mean of the three coldest months: decides pass or fail.
    pub winter_mean: AirState,
    /// The cold design value: alone it gives `depends`.
    pub design_night: Option<AirState>,
    /// The months, January first; `None` where the file gives no climate.
    pub year: Option<[MonthState; 12]>,
}

impl Conditions {
    /// The month with the coldest outdoor air, 0 is January; `None` without a climate.
    #[must_use]
    pub fn coldest_month(&self) -> Option<usize> {
        let outdoor = |month: &MonthState| month.outdoor.temperature.as_celsius();
        let months = self.year.as_ref()?.iter().enumerate();
        let coldest = months.min_by(|a, b| outdoor(a.1).total_cmp(&outdoor(b.1)));
        coldest.map(|(month, _)| month)
    }
}
