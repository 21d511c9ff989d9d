//! Room air: set points, and where its humidity comes from.

use super::condition::{AirState, Conditions, MonthState};
use crate::climate::Climate;
use crate::physics::indoor::{
    coldest_surface_saturation, humidity_class_excess, ventilation_excess, ventilation_for,
};
use crate::physics::moist_air::{saturation_vapor_pressure, vapor_pressure};
use crate::quantity::{
    HumidityClass, MassFlow, Pressure, RelativeHumidity, Share, Temperature, Volume, VolumeFlow,
};

/// What a household does to the room's air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Household {
    /// How many people.
    pub people: f64,
    /// Water given off by everything.
    pub water: MassFlow,
    /// Whether an unvented heater burns in the room.
    pub unvented_heater: bool,
    /// Outdoor air brought in.
    pub ventilation: VolumeFlow,
    /// The room's volume, where it is given.
    pub volume: Option<Volume>,
    /// Temperature factor of the coldest surface, whose condensation caps the humidity.
    pub coldest_surface: Share,
    /// A humidity to hold, for which the ventilation is asked.
    pub target: Option<RelativeHumidity>,
}

/// Where the room's humidity comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RoomVapor {
    /// Stated, the same all year.
    Humidity(RelativeHumidity),
    /// By a humidity class of ISO 13788.
    Class(HumidityClass),
    /// By the household's moisture balance.
    Balance(Household),
}

/// Room air through the year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Indoor {
    /// Set point while heating.
    pub heating: Temperature,
    /// Set point while cooling; `None`: not cooled.
    pub cooling: Option<Temperature>,
    /// Where the humidity comes from.
    pub vapor: RoomVapor,
    /// The household behind a stated humidity, to see whether that is likely.
    pub household: Option<Household>,
}

/// The room in one month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoomMonth {
    /// The air.
    pub air: AirState,
    /// Whether the house is cooled.
    pub cooled: bool,
    /// The humidity there would be if nothing condensed, where condensation caps it.
    pub uncapped: Option<RelativeHumidity>,
}

impl Indoor {
    /// The room's temperature at a monthly outdoor mean: heated up to the one set point, cooled
    /// down to the other, following the outdoors between them.
    #[must_use]
    pub fn temperature(&self, outdoor: Temperature) -> Temperature {
        let at_least = |a: Temperature, b: Temperature| if a < b { b } else { a };
        match self.cooling {
            Some(cooling) if outdoor > cooling => at_least(cooling, self.heating),
            _ => at_least(self.heating, outdoor),
        }
    }

    /// The room in a month of that outdoor temperature and vapor pressure.
    #[must_use]
    pub fn room(&self, outdoor: Temperature, outdoor_vapor: Pressure) -> RoomMonth {
        let temperature = self.temperature(outdoor);
        let cooled = self.cooling.is_some_and(|cooling| outdoor > cooling);
        let saturation = saturation_vapor_pressure(temperature).as_pa();
        let humidity = |pa: f64| RelativeHumidity::from_fraction(pa / saturation);
        let month = |pressure: f64, cap: f64| RoomMonth {
            air: AirState {
                temperature,
                humidity: humidity(pressure.min(cap)),
            },
            cooled,
            uncapped: (pressure > cap).then(|| humidity(pressure)),
        };
        match self.vapor {
            RoomVapor::Humidity(stated) => month(stated.as_fraction() * saturation, saturation),
            RoomVapor::Class(class) => {
                let excess = humidity_class_excess(class, outdoor).as_pa();
                month(outdoor_vapor.as_pa() + excess, saturation)
            }
            RoomVapor::Balance(household) => {
                let pressure = household.pressure(temperature, outdoor_vapor).as_pa();
                let cap = household.cap(temperature, outdoor).as_pa();
                month(pressure, cap)
            }
        }
    }
}

impl Household {
    /// Vapor pressure of the room if nothing condenses; infinite without ventilation.
    #[must_use]
    pub fn pressure(&self, room: Temperature, outdoor_vapor: Pressure) -> Pressure {
        let excess = ventilation_excess(self.water, self.ventilation, room).as_pa();
        Pressure::from_pa(outdoor_vapor.as_pa() + excess)
    }

    /// The most the room can hold: saturation at its coldest surface.
    #[must_use]
    pub fn cap(&self, room: Temperature, outdoor: Temperature) -> Pressure {
        coldest_surface_saturation(room, outdoor, self.coldest_surface.as_fraction())
    }

    /// The ventilation that holds a humidity; `None` where outdoor air is as wet.
    #[must_use]
    pub fn ventilation_to_hold(
        &self,
        humidity: RelativeHumidity,
        room: Temperature,
        outdoor_vapor: Pressure,
    ) -> Option<VolumeFlow> {
        ventilation_for(
            self.water,
            vapor_pressure(room, humidity),
            outdoor_vapor,
            room,
        )
    }
}

impl Conditions {
    /// The conditions of a house in a climate. The winter mean and the design night have the room
    /// air of the climate's three coldest months together.
    #[must_use]
    pub fn in_climate(indoor: &Indoor, climate: &Climate) -> Self {
        let winter = climate.winter_air();
        let winter_vapor = climate.winter_mean().1;
        let year = climate.months.map(|outdoor| {
            let room = indoor.room(outdoor.temperature, outdoor.vapor_pressure);
            MonthState {
                indoor: room.air,
                outdoor: AirState {
                    temperature: outdoor.temperature,
                    humidity: outdoor.humidity(),
                },
                cooled: room.cooled,
            }
        });
        Self {
            indoor: indoor.room(winter.temperature, winter_vapor).air,
            winter_mean: AirState {
                temperature: winter.temperature,
                humidity: winter.humidity,
            },
            design_night: climate.design_night.map(|night| AirState {
                temperature: night.temperature,
                humidity: night.humidity,
            }),
            year: Some(year),
        }
    }

    /// The conditions of a house of which only a winter mean is known.
    #[must_use]
    pub fn on_winter_mean(
        indoor: &Indoor,
        winter_mean: AirState,
        design_night: Option<AirState>,
    ) -> Self {
        let vapor = vapor_pressure(winter_mean.temperature, winter_mean.humidity);
        let room = indoor.room(winter_mean.temperature, vapor);
        Self {
            indoor: AirState {
                temperature: indoor.heating,
                humidity: room.air.humidity,
            },
            winter_mean,
            design_night,
            year: None,
        }
    }
}
