//! Indoor and outdoor air.

use crate::quantity::{RelativeHumidity, Temperature};

/// Air by temperature and relative humidity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirState {
    /// Air temperature.
    pub temperature: Temperature,
    /// Relative humidity; over ice where the temperature is below 0 °C.
    pub humidity: RelativeHumidity,
}

/// The conditions a project is judged under.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// Room air while heating.
    pub indoor: AirState,
    /// Mean of the three coldest months: decides pass or fail.
    pub winter_mean: AirState,
    /// The cold design value: alone it gives `depends`.
    pub design_night: Option<AirState>,
}
