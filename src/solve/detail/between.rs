//! The two airs a piece of a building lies between, and what a temperature found in it means at any time.

use crate::model::Conditions;
use crate::physics::moist_air::{dew_point, vapor_pressure};
use crate::quantity::Temperature;

/// Room and outdoor air that something was solved for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Between {
    /// Temperature of the room.
    pub indoor: Temperature,
    /// Temperature outdoors.
    pub outdoor: Temperature,
    /// Dew point of the room air.
    pub room_dew_point: Temperature,
    /// Whether nothing has a temperature of its own beside those two.
    pub alone: bool,
}

impl Between {
    /// On the winter mean.
    pub(super) fn on_winter_mean(conditions: &Conditions, alone: bool) -> Self {
        let indoor = conditions.indoor;
        Self {
            indoor: indoor.temperature,
            outdoor: conditions.winter_mean.temperature,
            room_dew_point: dew_point(vapor_pressure(indoor.temperature, indoor.humidity)),
            alone,
        }
    }

    /// Temperature factor of a temperature in °C; `None` where indoors is as warm as outdoors, or where
    /// something has a temperature of its own.
    #[must_use]
    pub fn factor(&self, celsius: f64) -> Option<f64> {
        let (indoor, outdoor) = (self.indoor.as_celsius(), self.outdoor.as_celsius());
        let span = indoor - outdoor;
        let holds = self.alone && span.abs() > 1e-9;
        holds.then(|| (celsius - outdoor) / span)
    }
}
