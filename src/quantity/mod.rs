//! Physical quantities at the edges of the program: reading them from text,
//! naming their units, printing them for people.
//!
//! Inside, every quantity is an SI `f64`; the newtypes here say which unit that
//! is wherever a number crosses a boundary. Temperature and temperature
//! difference are different types, since 10 °C is 50 °F as a temperature and
//! 18 °F as a difference.

mod building;
mod date;
mod dimension;
mod gauge;
mod humidity_class;
mod mold;
mod month;
mod number;
mod offset;
mod price;
mod print;
mod read;
mod room;
mod saying;
mod scale;
mod target;
mod thickness;
pub mod unit;

pub use building::Pitch;
pub use date::Date;
pub use dimension::{Dimension, Measured, Printed};
pub use gauge::{SheetMetal, sheet_thickness};
pub use humidity_class::HumidityClass;
pub use mold::MoldClass;
pub use month::{MONTHS, month_in, month_name, month_short};
pub use offset::Offset;
pub use price::{Currency, Price, PriceBasis};
pub use print::{NO_NUMBER, Style, UnitSystem, fixed, inches, plain, three_digits};
pub use read::{Quantity, QuantityError};
pub use room::Ventilation;
pub use saying::{percent, pitch_words};
pub use thickness::Thickness;

/// Defines a newtype over an SI number, with a constructor and a reader named by unit.
macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $from:ident, $get:ident, $unit:literal, $dimension:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            #[doc = concat!("From a number in ", $unit, ".")]
            #[must_use]
            pub const fn $from(value: f64) -> Self {
                Self(value)
            }

            #[doc = concat!("The number in ", $unit, ".")]
            #[must_use]
            pub const fn $get(self) -> f64 {
                self.0
            }
        }

        impl Measured for $name {
            const DIMENSION: Dimension = Dimension::$dimension;

            fn si(self) -> f64 {
                self.0
            }
        }
    };
}

quantity!(
    /// A length: layer thickness, member width, spacing.
    Length, from_m, as_m, "m", Length
);
quantity!(
    /// A temperature. Kept in degrees Celsius, the unit of the moist-air formulas.
    Temperature, from_celsius, as_celsius, "°C", Temperature
);
quantity!(
    /// A difference of two temperatures, such as a margin over a dew point.
    TemperatureDifference, from_kelvin, as_kelvin, "K", Difference
);
quantity!(
    /// A vapor pressure.
    Pressure, from_pa, as_pa, "Pa", Pressure
);
quantity!(
    /// Relative humidity as a fraction: 0.6 is 60 %.
    RelativeHumidity, from_fraction, as_fraction, "fraction of 1", Humidity
);
quantity!(
    /// A share of an area as a fraction: 0.25 is 25 %.
    Share, from_fraction, as_fraction, "fraction of 1", Share
);
quantity!(
    /// Thermal resistance of a layer, a film or a whole assembly.
    ThermalResistance, from_si, as_si, "m²·K/W", Resistance
);
quantity!(
    /// Thermal conductivity.
    Conductivity, from_si, as_si, "W/(m·K)", Conductivity
);
quantity!(
    /// Water vapor permeance of a sheet, a layer or a film.
    Permeance, from_si, as_si, "kg/(s·m²·Pa)", Permeance
);
quantity!(
    /// Water vapor permeability of a material.
    Permeability, from_si, as_si, "kg/(m·s·Pa)", Permeability
);
quantity!(
    /// Mass per volume.
    Density, from_si, as_si, "kg/m³", Density
);
quantity!(
    /// Mass per area.
    ArealDensity, from_si, as_si, "kg/m²", ArealDensity
);
quantity!(
    /// Specific heat capacity.
    SpecificHeat, from_si, as_si, "J/(kg·K)", SpecificHeat
);
quantity!(
    /// A room's volume.
    Volume, from_m3, as_m3, "m³", Volume
);
quantity!(
    /// A flow of air by volume.
    VolumeFlow, from_m3_per_s, as_m3_per_s, "m³/s", AirFlow
);
quantity!(
    /// How many times an hour outdoor air replaces a room's air.
    AirChanges, from_per_hour, as_per_hour, "1/h", AirChanges
);
quantity!(
    /// A flow of water by mass.
    MassFlow, from_kg_per_s, as_kg_per_s, "kg/s", WaterFlow
);
quantity!(
    /// A rate of heat, such as a heater's.
    Power, from_w, as_w, "W", Power
);
quantity!(
    /// How many of something there are, part ones allowed: people at home on average, loads of
    /// laundry a week.
    Count, from_number, as_number, "pieces", Count
);

quantity!(
    /// A factor between 0 and 1, such as a temperature factor.
    Factor, from_number, as_number, "parts of 1", Factor
);
quantity!(
    /// A span of time in days.
    Days, from_number, as_number, "days", Days
);
quantity!(
    /// An area of the building.
    Area, from_m2, as_m2, "m²", Area
);
quantity!(
    /// A weight, as a mass.
    Mass, from_kg, as_kg, "kg", Mass
);
quantity!(
    /// Thermal transmittance of a window or a door.
    ThermalTransmittance, from_si, as_si, "W/(m²·K)", Transmittance
);
quantity!(
    /// Linear thermal transmittance of an edge.
    LinearTransmittance, from_si, as_si, "W/(m·K)", LinearTransmittance
);
quantity!(
    /// Point thermal transmittance of a bolt.
    PointTransmittance, from_si, as_si, "W/K", PointTransmittance
);

impl Temperature {
    /// Degrees Fahrenheit to a temperature.
    ///
    /// ```
    /// # use dewmargin::quantity::Temperature;
    /// assert!((Temperature::from_fahrenheit(68.0).as_celsius() - 20.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn from_fahrenheit(value: f64) -> Self {
        Self((value - 32.0) / 1.8)
    }

    /// The temperature in degrees Fahrenheit.
    #[must_use]
    pub fn as_fahrenheit(self) -> f64 {
        self.0 * 1.8 + 32.0
    }
}

impl TemperatureDifference {
    /// The difference in Fahrenheit degrees.
    #[must_use]
    pub fn as_fahrenheit_degrees(self) -> f64 {
        self.0 * 1.8
    }
}

impl std::ops::Sub for Temperature {
    type Output = TemperatureDifference;
    fn sub(self, other: Self) -> TemperatureDifference {
        TemperatureDifference(self.0 - other.0)
    }
}

impl std::ops::Add<TemperatureDifference> for Temperature {
    type Output = Self;
    fn add(self, difference: TemperatureDifference) -> Self {
        Self(self.0 + difference.0)
    }
}

impl std::ops::Sub<TemperatureDifference> for Temperature {
    type Output = Self;
    fn sub(self, difference: TemperatureDifference) -> Self {
        Self(self.0 - difference.0)
    }
}

impl std::ops::Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

/// Resistances in series add.
impl std::ops::Add for ThermalResistance {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

/// Sources of water add.
impl std::ops::Add for MassFlow {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

/// Pressures add: an excess over the outdoor vapor pressure.
impl std::ops::Add for Pressure {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl std::ops::Sub for Pressure {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}
