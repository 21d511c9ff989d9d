//! Room air: set points, and where its humidity comes from.

use super::condition::{AirState, Conditions, MonthState};
use crate::climate::Climate;
use crate::physics::indoor::{
    coldest_surface_saturation, humidity_class_excess, open_window_share, ventilation_excess,
    ventilation_for,
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

/// The most humid that a cooler leaves the room's air where the file doesn't state it: it dries what
/// it cools (common practice).
const COOLED: RelativeHumidity = RelativeHumidity::from_fraction(0.60);
/// How far the sun, the stove and those who live there keep a small insulated house over the outdoor
/// mean without heating, K: houses are heated below about 60 °F outdoors (common practice).
const FREE_WARMTH: f64 = 5.0;

/// Room air through the year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Indoor {
    /// Set point while heating.
    pub heating: Temperature,
    /// Set point while cooling; `None`: not cooled.
    pub cooling: Option<Temperature>,
    /// The most humid the room is while cooled, as the file states it.
    pub cooled_humidity: Option<RelativeHumidity>,
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
    /// Whether it is lived in with windows open: nothing cools it, and it would pass the heating set
    /// point by itself.
    pub windows_open: bool,
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

    /// Whether the house is cooled at that outdoor mean.
    #[must_use]
    pub fn is_cooled(&self, outdoor: Temperature) -> bool {
        self.cooling.is_some_and(|cooling| outdoor > cooling)
    }

    /// The most humid the room is while cooled: as stated, or 60 % where its humidity follows the
    /// outdoors; a humidity stated for all year holds while cooled too.
    #[must_use]
    pub fn cooled_at_most(&self) -> Option<RelativeHumidity> {
        match self.vapor {
            RoomVapor::Humidity(_) => self.cooled_humidity,
            _ => Some(self.cooled_humidity.unwrap_or(COOLED)),
        }
    }

    /// The room in a month of that outdoor temperature and vapor pressure. While cooled, the cooler
    /// dries it. Where nothing cools and the house would be warm by itself, windows stand open: the
    /// room follows the outdoors, with what is left of its excess.
    #[must_use]
    pub fn room(&self, outdoor: Temperature, outdoor_vapor: Pressure) -> RoomMonth {
        let temperature = self.temperature(outdoor);
        let cooled = self.is_cooled(outdoor);
        let by_itself = outdoor.as_celsius() + FREE_WARMTH;
        let windows_open = !cooled && by_itself >= self.heating.as_celsius();
        let saturation = saturation_vapor_pressure(temperature).as_pa();
        let humidity = |pa: f64| RelativeHumidity::from_fraction(pa / saturation);
        let dried = self.cooled_at_most().filter(|_| cooled);
        let dried = dried.map_or(f64::INFINITY, |most| most.as_fraction() * saturation);
        let month = |pressure: f64, cap: f64| RoomMonth {
            air: AirState {
                temperature,
                humidity: humidity(pressure.min(cap).min(dried)),
            },
            cooled,
            windows_open,
            uncapped: (pressure > cap && cap < dried).then(|| humidity(pressure)),
        };
        match self.vapor {
            RoomVapor::Humidity(stated) => month(stated.as_fraction() * saturation, saturation),
            RoomVapor::Class(class) => {
                let excess = humidity_class_excess(class, outdoor).as_pa();
                month(outdoor_vapor.as_pa() + excess, saturation)
            }
            RoomVapor::Balance(household) => {
                let shut = household.pressure(temperature, outdoor_vapor).as_pa();
                let outdoors = outdoor_vapor.as_pa();
                let pressure = match (windows_open, open_window_share(outdoor)) {
                    (true, 0.0) => outdoors,
                    (true, share) => outdoors + share * (shut - outdoors),
                    (false, _) => shut,
                };
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
