//! Printing numbers of a calculation: digits enough to redo it, one unit per quantity and reader.

use super::{Style, UnitSystem, fixed, unit};

/// What a number of a calculation measures; it sets the unit and the digits.
///
/// Vapor pressures are in Pa for every reader, since the saturation formula is written in Pa.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// A temperature, given in °C.
    Temperature,
    /// A temperature in °C for every reader, as the saturation formula wants it.
    Celsius,
    /// A difference of temperatures, given in K.
    Difference,
    /// A thickness or width, given in m.
    Length,
    /// A length along a cut, given in m: ft or m.
    Span,
    /// How steeply something falls off along a length, given in 1/m.
    PerLength,
    /// A conductivity, given in W/(m·K).
    Conductivity,
    /// A thermal resistance, given in m²·K/W.
    Resistance,
    /// A thermal transmittance, given in W/(m²·K).
    Transmittance,
    /// A linear thermal transmittance, given in W/(m·K).
    LinearTransmittance,
    /// A heat flow by length, given in W/m.
    HeatFlowByLength,
    /// A vapor pressure, given in Pa.
    Pressure,
    /// A vapor pressure, given in Pa: inHg or Pa.
    VaporPressure,
    /// A permeance, given in kg/(s·m²·Pa).
    Permeance,
    /// A permeability, given in kg/(m·s·Pa).
    Permeability,
    /// A vapor resistance, given in m²·s·Pa/kg: 1/perm, or s_d in m.
    VaporResistance,
    /// A flow of vapor by area, given in kg/(m²·s).
    VaporFlow,
    /// Water by area, given in kg/m².
    Water,
    /// Water by time, given in kg/s: kg/h for every reader.
    WaterFlow,
    /// A flow of air, given in m³/s: m³/h for every reader.
    AirFlow,
    /// A flow of air, given in m³/s: cfm or m³/h.
    Ventilation,
    /// A flow of air by area, given in m³/s for each m²: m/h for every reader.
    Leakage,
    /// An absolute temperature, given in K: K for every reader.
    Kelvin,
    /// A number without a unit: a share, a ratio, a humidity as a fraction.
    Ratio,
}

/// A number as it is printed, with what it is then worth.
#[derive(Clone, Debug, PartialEq)]
pub struct Printed {
    /// The digits, with the true minus sign.
    pub number: String,
    /// The unit; empty for a number without one.
    pub unit: &'static str,
    /// What the digits say: the value rounded, in that unit.
    pub value: f64,
}

/// Significant digits of a given number that has no fixed decimals; results have fewer.
const SIGNIFICANT: i32 = 7;

impl Measure {
    /// The unit a reader has it in.
    #[must_use]
    pub fn unit(self, style: Style) -> &'static str {
        let (imperial, metric) = self.units();
        match style.units {
            UnitSystem::Imperial => imperial,
            UnitSystem::Metric => metric,
        }
    }

    fn units(self) -> (&'static str, &'static str) {
        match self {
            Self::Temperature => ("°F", "°C"),
            Self::Celsius => ("°C", "°C"),
            Self::Difference => ("°F", "K"),
            Self::Length => ("in", "m"),
            Self::Span => ("ft", "m"),
            Self::PerLength => ("1/ft", "1/m"),
            Self::Conductivity => ("Btu·in/h·ft²·°F", "W/mK"),
            Self::Resistance => ("h·ft²·°F/Btu", "m²K/W"),
            Self::Transmittance => ("Btu/h·ft²·°F", "W/m²K"),
            Self::LinearTransmittance => ("Btu/h·ft·°F", "W/mK"),
            Self::HeatFlowByLength => ("Btu/h·ft", "W/m"),
            Self::Pressure => ("Pa", "Pa"),
            Self::VaporPressure => ("inHg", "Pa"),
            Self::Permeance => ("perm", "ng/s·m²·Pa"),
            Self::Permeability => ("perm-in", "ng/m·s·Pa"),
            Self::VaporResistance => ("1/perm", "m"),
            Self::VaporFlow => ("grain/h·ft²", "g/h·m²"),
            Self::Water => ("oz/ft²", "kg/m²"),
            Self::WaterFlow => ("kg/h", "kg/h"),
            Self::AirFlow => ("m³/h", "m³/h"),
            Self::Ventilation => ("cfm", "m³/h"),
            Self::Leakage => ("m/h", "m/h"),
            Self::Kelvin => ("K", "K"),
            Self::Ratio => ("", ""),
        }
    }

    /// A value given in SI, in the reader's unit.
    #[must_use]
    pub fn in_units(self, si: f64, style: Style) -> f64 {
        let (imperial, metric) = match self {
            Self::Temperature => (si * 1.8 + 32.0, si),
            Self::Celsius | Self::Pressure | Self::Ratio | Self::Kelvin => (si, si),
            Self::Difference => (si / unit::FAHRENHEIT_DEGREE, si),
            Self::Length => (si / unit::INCH, si),
            Self::Span => (si / unit::FOOT, si),
            Self::PerLength => (si * unit::FOOT, si),
            Self::Conductivity => (si / unit::BTU_INCH, si),
            Self::Resistance => (si / unit::R_VALUE, si),
            Self::Transmittance => (si / unit::U_VALUE, si),
            Self::LinearTransmittance => (si / unit::BTU_PER_FOOT, si),
            Self::HeatFlowByLength => (si * unit::FOOT / unit::BTU_PER_HOUR, si),
            Self::VaporPressure => (si / unit::INCH_OF_MERCURY, si),
            Self::Permeance => (si / unit::PERM, si * 1e12),
            Self::Permeability => (si / unit::PERM_INCH, si * 1e12),
            Self::VaporResistance => (si * unit::PERM, si * unit::AIR_PERMEABILITY),
            Self::VaporFlow => (si / unit::PERM / unit::INCH_OF_MERCURY, si * 1e3 * 3_600.0),
            Self::Water => (si / unit::OUNCE_PER_SQUARE_FOOT, si),
            Self::WaterFlow | Self::AirFlow | Self::Leakage => (si * 3_600.0, si * 3_600.0),
            Self::Ventilation => (si / unit::CFM, si * 3_600.0),
        };
        match style.units {
            UnitSystem::Imperial => imperial,
            UnitSystem::Metric => metric,
        }
    }

    /// The most decimals worth printing of a value in the reader's unit.
    #[must_use]
    pub fn most_decimals(self, value: f64) -> usize {
        match self {
            Self::Temperature | Self::Celsius | Self::Difference | Self::Kelvin => 4,
            Self::Pressure => 3,
            _ => significant(value, SIGNIFICANT),
        }
    }

    /// The decimals a result is wanted with.
    #[must_use]
    pub fn result_decimals(self, value: f64) -> usize {
        match self {
            Self::Temperature | Self::Celsius | Self::Difference | Self::Kelvin => 2,
            Self::Pressure => 1,
            _ => significant(value, 4),
        }
    }

    /// A value in the reader's unit at its most decimals, without trailing zeros.
    #[must_use]
    pub fn given(self, si: f64, style: Style) -> Printed {
        let value = self.in_units(si, style);
        let printed = self.with_decimals(value, self.most_decimals(value), style);
        let number = match printed.number.contains('.') {
            true => printed.number.trim_end_matches('0').trim_end_matches('.'),
            false => &printed.number,
        };
        Printed {
            number: number.to_owned(),
            ..printed
        }
    }

    /// A value, SI, to the digits worth telling: a solver's, which no formula reproduces.
    #[must_use]
    pub fn told(self, si: f64, style: Style) -> Printed {
        let value = self.in_units(si, style);
        self.with_decimals(value, self.result_decimals(value), style)
    }

    /// A value that already is in the reader's unit, with that many decimals.
    ///
    /// ```
    /// # use dewmargin::quantity::{Measure, Style, UnitSystem};
    /// let style = Style { units: UnitSystem::Metric };
    /// let printed = Measure::Temperature.with_decimals(-3.456, 1, style);
    /// assert_eq!((printed.number.as_str(), printed.unit), ("−3.5", "°C"));
    /// assert!((printed.value + 3.5).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn with_decimals(self, value: f64, decimals: usize, style: Style) -> Printed {
        let digits = fixed(value, decimals);
        Printed {
            value: digits.parse().unwrap_or(value),
            number: digits.replace('-', "−"),
            unit: self.unit(style),
        }
    }
}

/// Decimals that show so many significant digits.
fn significant(value: f64, digits: i32) -> usize {
    let magnitude = match value.abs() {
        zero if zero < 1e-12 => 0,
        size => libm::floor(libm::log10(size)) as i32,
    };
    (digits - 1 - magnitude).clamp(0, 12) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    const OURS: Style = Style {
        units: UnitSystem::Imperial,
    };

    #[test]
    fn given_values_keep_their_digits_and_no_more() {
        let print = |measure: Measure, si: f64| {
            [OURS, OURS.other()].map(|style| measure.given(si, style).number)
        };
        assert_eq!(print(Measure::Temperature, 20.0), ["68", "20"]);
        assert_eq!(print(Measure::Length, 0.1397), ["5.5", "0.1397"]);
        // 0.17 / (0.09290304 · 5/9 · 3600 / 1055.05585262): square foot, degree, hour, Btu.
        assert_eq!(print(Measure::Resistance, 0.17), ["0.9653048", "0.17"]);
        assert_eq!(print(Measure::Temperature, -20.5), ["−4.9", "−20.5"]);
        assert_eq!(print(Measure::Ratio, 0.0), ["0", "0"]);
        assert_eq!(print(Measure::Length, 3.048), ["120", "3.048"]);
    }

    // One perm at one inch of mercury passes a grain per hour and square foot, by definition.
    #[test]
    fn a_perm_passes_a_grain() {
        let flow = unit::PERM * unit::INCH_OF_MERCURY;
        assert!((Measure::VaporFlow.in_units(flow, OURS) - 1.0).abs() < 1e-12);
        // 57.2135 ng/(s·m²·Pa) at 3386.39 Pa for an hour.
        let metric = Measure::VaporFlow.in_units(flow, OURS.other());
        assert!((metric - 57.2135e-9 * 3386.389 * 3.6e3).abs() < 1e-5);
    }
}
