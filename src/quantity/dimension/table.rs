//! The table: every dimension, its SI key, and the units and digits each reader has it in.

use super::reading::*;
use super::{Digits, Row, Unit};
use crate::quantity::unit::*;

/// Lists the dimensions once: the name, what it says, its row.
macro_rules! dimensions {
    ($($(#[$doc:meta])* $name:ident = $row:expr;)*) => {
        /// What a number measures: with it come its units for each reader, the digits, how it is
        /// read, and the end of its key in JSON.
        ///
        /// Some have two rows, since a formula wants another unit than a reader: temperatures in
        /// °C, pressures in Pa.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Dimension {
            $($(#[$doc])* $name,)*
        }

        impl Dimension {
            /// Every dimension, in the order of the table.
            pub const ALL: &[Self] = &[$(Self::$name,)*];

            pub(super) const fn row(self) -> &'static Row {
                match self {
                    $(Self::$name => const { &$row },)*
                }
            }
        }
    };
}

const HOUR: f64 = 1.0 / 3_600.0;
const DAY: f64 = 1.0 / 86_400.0;
const PERCENT: Unit = Unit::new("%", 0.01, 0);
const CELSIUS: Unit = Unit::new("°C", 1.0, 1);
const KELVIN: Unit = Unit::new("K", 1.0, 1);
const METERS: Unit = Unit::new("m", 1.0, 2);
const PASCALS: Unit = Unit::new("Pa", 1.0, 0);
const GRAIN_RATE: f64 = PERM * INCH_OF_MERCURY;

dimensions! {
    /// A temperature, °C.
    Temperature = Row::new("_c", Unit::new("°F", FAHRENHEIT_DEGREE, 1).zero_at(32.0), CELSIUS)
        .reads(&TEMPERATURE);
    /// A temperature in °C for every reader, as the saturation formula wants it.
    Celsius = Row::only("_c", CELSIUS);
    /// An absolute temperature in K for every reader.
    Kelvin = Row::only("_k", KELVIN);
    /// A difference of temperatures, K.
    Difference = Row::new("_k", Unit::new("°F", FAHRENHEIT_DEGREE, 1), KELVIN).reads(&DIFFERENCE);
    /// A thickness or width, m.
    Length = Row::new(
        "_m",
        Unit::new("in", INCH, 2).digits(Digits::Tape),
        Unit::new("mm", 1e-3, 0).digits(Digits::Falling(&[(1.0, 2), (100.0, 1)])),
    )
    .in_formulas(Unit::new("in", INCH, 2), METERS)
    .reads(&LENGTH);
    /// A run along an edge or a cut, m.
    Run = Row::new("_m", Unit::new("ft", FOOT, 2), METERS).reads(&LENGTH);
    /// How steeply something falls off along a length, 1/m.
    PerLength = Row::new("_per_m", Unit::new("1/ft", 1.0 / FOOT, 2), Unit::new("1/m", 1.0, 2));
    /// An area, m².
    Area = Row::new("_m2", Unit::new("ft²", SQUARE_FOOT, 1), Unit::new("m²", 1.0, 2)).reads(&AREA);
    /// A volume, m³.
    Volume = Row::new("_m3", Unit::new("ft³", CUBIC_FOOT, 0), Unit::new("m³", 1.0, 1)).reads(&VOLUME);
    /// A weight, kg.
    Mass = Row::new("_kg", Unit::new("lb", POUND, 0).fine(1), Unit::new("kg", 1.0, 1).fine(2))
        .reads(&MASS);
    /// Mass per volume, kg/m³.
    Density = Row::new(
        "_kg_per_m3",
        Unit::new("lb/ft³", POUND_PER_CUBIC_FOOT, 1).fine(2),
        Unit::new("kg/m³", 1.0, 0).fine(1),
    )
    .reads(&DENSITY);
    /// Weight per area, kg/m².
    ArealDensity = Row::new(
        "_kg_per_m2",
        Unit::new("lb/ft²", POUND_PER_SQUARE_FOOT, 1).fine(3),
        Unit::new("kg/m²", 1.0, 1).fine(3),
    )
    .reads(&AREAL_DENSITY);
    /// Water held per area, kg/m²: ounces, since what condenses in a year is a few of them.
    Water = Row::new(
        "_kg_per_m2",
        Unit::new("oz/ft²", OUNCE_PER_SQUARE_FOOT, 2),
        Unit::new("kg/m²", 1.0, 3),
    );
    /// Specific heat capacity, J/(kg·K).
    SpecificHeat = Row::new(
        "_j_per_kgk",
        Unit::new("Btu/lb·°F", BTU_PER_POUND, 2),
        Unit::new("J/kgK", 1.0, 0),
    )
    .reads(&SPECIFIC_HEAT);
    /// A conductivity, W/(m·K).
    Conductivity = Row::new(
        "_w_per_mk",
        Unit::new("Btu·in/h·ft²·°F", BTU_INCH, 4),
        Unit::new("W/mK", 1.0, 0).digits(Digits::Falling(&[(10.0, 4)])),
    )
    .reads(&CONDUCTIVITY);
    /// A thermal resistance, m²·K/W.
    Resistance = Row::new("_m2k_per_w", Unit::new("R", R_VALUE, 2), Unit::new("m²K/W", 1.0, 3))
        .in_formulas(Unit::new("h·ft²·°F/Btu", R_VALUE, 2), Unit::new("m²K/W", 1.0, 3))
        .reads(&RESISTANCE);
    /// A thermal transmittance, W/(m²·K).
    Transmittance = Row::new(
        "_w_per_m2k",
        Unit::new("Btu/h·ft²·°F", U_VALUE, 4),
        Unit::new("W/m²K", 1.0, 3),
    )
    .reads(&TRANSMITTANCE);
    /// A linear thermal transmittance, W/(m·K).
    LinearTransmittance = Row::new(
        "_w_per_mk",
        Unit::new("Btu/h·ft·°F", BTU_PER_FOOT, 4),
        Unit::new("W/mK", 1.0, 4),
    )
    .reads(&LINEAR_TRANSMITTANCE);
    /// A point thermal transmittance, W/K.
    PointTransmittance = Row::new(
        "_w_per_k",
        Unit::new("Btu/h·°F", BTU_PER_HOUR_DEGREE, 5),
        Unit::new("W/K", 1.0, 5),
    )
    .reads(&POINT_TRANSMITTANCE);
    /// Heat loss of a part or a house by degree, W/K.
    HeatLoss = Row::new(
        "_w_per_k",
        Unit::new("Btu/h·°F", BTU_PER_HOUR_DEGREE, 2),
        Unit::new("W/K", 1.0, 2),
    );
    /// A heat flow by length, W/m.
    HeatFlowByLength = Row::new(
        "_w_per_m",
        Unit::new("Btu/h·ft", BTU_PER_HOUR / FOOT, 2).fine(3),
        Unit::new("W/m", 1.0, 2).fine(3),
    );
    /// A heat flow through a piece of a building, W.
    HeatFlow = Row::new(
        "_w",
        Unit::new("Btu/h", BTU_PER_HOUR, 2).fine(3),
        Unit::new("W", 1.0, 3).fine(4),
    );
    /// A rate of heat of a house, W.
    HeatRate = Row::new("_w", Unit::new("Btu/h", BTU_PER_HOUR, 0), Unit::new("W", 1.0, 0));
    /// What a heater gives, W.
    Power = Row::new("_w", Unit::new("Btu/h", BTU_PER_HOUR, 0), Unit::new("kW", 1e3, 2))
        .reads(&POWER);
    /// A vapor pressure, Pa.
    Pressure = Row::new("_pa", Unit::new("inHg", INCH_OF_MERCURY, 3), PASCALS);
    /// A vapor pressure in Pa for every reader, as the saturation formula gives it.
    Pascal = Row::only("_pa", PASCALS);
    /// A permeance, kg/(s·m²·Pa).
    Permeance = Row::new(
        "_kg_per_sm2pa",
        Unit::new("perm", PERM, 0).digits(Digits::Falling(&[(10.0, 2)])),
        Unit::new("ng/(s·m²·Pa)", 1e-12, 0).digits(Digits::Falling(&[(100.0, 1)])),
    )
    // A bracket in a formula is the formula's.
    .in_formulas(Unit::new("perm", PERM, 2), Unit::new("ng/s·m²·Pa", 1e-12, 1))
    .reads(&PERMEANCE);
    /// A permeability, kg/(m·s·Pa).
    Permeability = Row::new(
        "_kg_per_mspa",
        Unit::new("perm-in", PERM_INCH, 0).digits(Digits::Falling(&[(10.0, 2)])),
        Unit::new("ng/(m·s·Pa)", 1e-12, 0).digits(Digits::Falling(&[(1.0, 4), (100.0, 2)])),
    )
    .in_formulas(Unit::new("perm-in", PERM_INCH, 2), Unit::new("ng/m·s·Pa", 1e-12, 1))
    .reads(&PERMEABILITY);
    /// A vapor resistance, m²·s·Pa/kg: 1/perm, or the still air as thick, s_d.
    VaporResistance = Row::new(
        "_m2spa_per_kg",
        Unit::new("1/perm", 1.0 / PERM, 2),
        Unit::new("m", 1.0 / AIR_PERMEABILITY, 2),
    );
    /// A flow of vapor by area, kg/(m²·s).
    VaporFlow = Row::new(
        "_kg_per_m2s",
        Unit::new("grain/h·ft²", GRAIN_RATE, 2),
        Unit::new("g/h·m²", 1e-3 * HOUR, 2),
    );
    /// Water by time, kg/s.
    WaterFlow = Row::new(
        "_kg_per_s",
        Unit::new("pints/day", PINT_OF_WATER * DAY, 1),
        Unit::new("kg/day", DAY, 2),
    )
    .in_formulas(Unit::new("kg/h", HOUR, 2), Unit::new("kg/h", HOUR, 2))
    .reads(&MASS_FLOW);
    /// A flow of air, m³/s.
    AirFlow = Row::new(
        "_m3_per_s",
        Unit::new("cfm", CFM, 0).digits(Digits::Falling(&[(9.95, 1)])),
        Unit::new("m³/h", HOUR, 0).digits(Digits::Falling(&[(9.95, 1)])),
    )
    .reads(&AIR_FLOW);
    /// A flow of air in m³/h for every reader, as the balance of a room's air wants it.
    AirFlowMetric = Row::only("_m3_per_s", Unit::new("m³/h", HOUR, 0));
    /// A flow of air by area in m/h for every reader.
    Leakage = Row::only("_m_per_s", Unit::new("m/h", HOUR, 2));
    /// Air changes, 1/h.
    AirChanges = Row::only("_per_h", Unit::new("ach", 1.0, 2)).reads(&AIR_CHANGES);
    /// A relative humidity, a fraction.
    Humidity = Row::only("_fraction", PERCENT).reads(&HUMIDITY);
    /// A share of an area, a fraction.
    Share = Row::only("_fraction", PERCENT.fine(1)).reads(&SHARE);
    /// A number without a unit: a ratio, a factor, a humidity in a formula.
    Ratio = Row::only("", Unit::new("", 1.0, 2));
    /// A factor between 0 and 1, such as a temperature factor.
    Factor = Row::only("", Unit::new("", 1.0, 2)).reads(&FACTOR);
    /// How many of something there are.
    Count = Row::only("", Unit::new("", 1.0, 1)).reads(&COUNT);
    /// Days.
    Days = Row::only("_days", Unit::new("days", 1.0, 0)).reads(&DAYS);
}
