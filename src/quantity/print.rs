//! Printing numbers for people: one place decides the digits.

use super::{
    ArealDensity, Length, Permeance, Pressure, RelativeHumidity, Temperature,
    TemperatureDifference, ThermalResistance, unit,
};

/// Which units a report speaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum UnitSystem {
    /// Inches, °F, R-values, perms.
    Imperial,
    /// Millimeters, °C, m²·K/W, ng/(s·m²·Pa).
    Metric,
}

/// Stands in a text where a number was to be printed that isn't one. No name can hold it (see
/// [`crate::error::is_hidden`]), and no text that holds it is written.
///
/// Source: a noncharacter that the Unicode standard keeps for a program's own use.
pub const NO_NUMBER: char = '\u{FDD0}';

/// A number with fixed decimals, without `-0`; [`NO_NUMBER`] for what is infinite or undefined.
///
/// ```
/// # use dewmargin::quantity::fixed;
/// assert_eq!(fixed(-0.04, 1), "0.0");
/// ```
#[must_use]
pub fn fixed(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return NO_NUMBER.to_string();
    }
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(digits) if digits.bytes().all(|b| b == b'0' || b == b'.') => digits.to_owned(),
        _ => text,
    }
}

/// Inches as a builder writes them: a fraction where one fits to within 1/500 in, else a decimal.
///
/// ```
/// # use dewmargin::quantity::{inches, Length};
/// assert_eq!(inches(Length::from_m(0.1397)), "5-1/2 in");
/// assert_eq!(inches(Length::from_m(0.0396 * 0.0254)), "0.0396 in");
/// ```
#[must_use]
pub fn inches(length: Length) -> String {
    let inches = length.as_m() / unit::INCH;
    let sixteenths = (inches * 16.0).round();
    if sixteenths < 1.0 || (inches - sixteenths / 16.0).abs() > 0.002 {
        let decimals = if inches < 0.1 { 4 } else { 2 };
        return format!("{} in", fixed(inches, decimals));
    }
    let (whole, part) = ((sixteenths / 16.0).floor(), (sixteenths % 16.0) as u32);
    let (numerator, denominator) = match part {
        0 => return format!("{} in", fixed(whole, 0)),
        p if p % 8 == 0 => (p / 8, 2),
        p if p % 4 == 0 => (p / 4, 4),
        p if p % 2 == 0 => (p / 2, 8),
        p => (p, 16),
    };
    match whole {
        0.0 => format!("{numerator}/{denominator} in"),
        _ => format!("{}-{numerator}/{denominator} in", fixed(whole, 0)),
    }
}

/// Prints quantities in one unit system.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Style {
    /// The reader's units.
    pub units: UnitSystem,
}

impl Style {
    /// For words in a machine's report, whose numbers are SI.
    pub const SI: Self = Self {
        units: UnitSystem::Metric,
    };

    fn is_imperial(self) -> bool {
        self.units == UnitSystem::Imperial
    }

    /// The same quantities in the other system, for the second figure in brackets.
    #[must_use]
    pub fn other(self) -> Self {
        let units = if self.is_imperial() {
            UnitSystem::Metric
        } else {
            UnitSystem::Imperial
        };
        Self { units }
    }

    /// The temperature unit: `°F` or `°C`.
    #[must_use]
    pub fn temperature_unit(self) -> &'static str {
        if self.is_imperial() { "°F" } else { "°C" }
    }

    /// A temperature's number in the reader's unit.
    #[must_use]
    pub fn degrees(self, value: Temperature) -> f64 {
        if self.is_imperial() {
            value.as_fahrenheit()
        } else {
            value.as_celsius()
        }
    }

    /// A temperature with one decimal and its unit.
    #[must_use]
    pub fn temperature(self, value: Temperature) -> String {
        format!(
            "{} {}",
            self.temperature_number(value),
            self.temperature_unit()
        )
    }

    /// A temperature with one decimal, without its unit, for table columns.
    #[must_use]
    pub fn temperature_number(self, value: Temperature) -> String {
        fixed(self.degrees(value), 1).replace('-', "−")
    }

    /// A difference's number in the reader's degrees.
    #[must_use]
    pub fn difference_number(self, value: TemperatureDifference) -> f64 {
        if self.is_imperial() {
            value.as_fahrenheit_degrees()
        } else {
            value.as_kelvin()
        }
    }

    /// A difference with its unit, without a sign for positive ones.
    #[must_use]
    pub fn difference(self, value: TemperatureDifference) -> String {
        let unit = if self.is_imperial() { "°F" } else { "K" };
        format!("{} {unit}", fixed(self.difference_number(value), 1))
    }

    /// A margin: always signed, `+6.1 °F` or `−10.2 °F`.
    #[must_use]
    pub fn margin(self, value: TemperatureDifference) -> String {
        let unit = if self.is_imperial() { "°F" } else { "K" };
        format!("{} {unit}", signed(self.difference_number(value)))
    }

    /// A margin without its unit, for table columns.
    #[must_use]
    pub fn margin_number(self, value: TemperatureDifference) -> String {
        signed(self.difference_number(value))
    }

    /// A relative humidity as whole percent.
    #[must_use]
    pub fn humidity(self, value: RelativeHumidity) -> String {
        format!("{} %", fixed(value.as_fraction() * 100.0, 0))
    }

    /// A length: fractions of an inch, or millimeters.
    #[must_use]
    pub fn length(self, value: Length) -> String {
        if self.is_imperial() {
            return inches(value);
        }
        let mm = value.as_m() * 1e3;
        let decimals = if mm < 1.0 {
            2
        } else if mm < 100.0 {
            1
        } else {
            0
        };
        format!("{} mm", fixed(mm, decimals))
    }

    /// A thermal resistance: `R 5.0` or `0.880 m²K/W`.
    #[must_use]
    pub fn resistance(self, value: ThermalResistance) -> String {
        if self.is_imperial() {
            format!("R {}", fixed(value.as_si() / unit::R_VALUE, 2))
        } else {
            format!("{} m²K/W", fixed(value.as_si(), 3))
        }
    }

    /// A thermal transmittance given in W/(m²·K), with its unit.
    #[must_use]
    pub fn transmittance(self, watts: f64) -> String {
        format!(
            "{} {}",
            self.transmittance_number(watts),
            self.transmittance_unit()
        )
    }

    /// A thermal transmittance given in W/(m²·K), the number alone.
    #[must_use]
    pub fn transmittance_number(self, watts: f64) -> String {
        if self.is_imperial() {
            fixed(watts / unit::U_VALUE, 4)
        } else {
            fixed(watts, 3)
        }
    }

    /// The unit of a thermal transmittance.
    #[must_use]
    pub fn transmittance_unit(self) -> &'static str {
        if self.is_imperial() {
            "Btu/h·ft²·°F"
        } else {
            "W/m²K"
        }
    }

    /// A permeance: perms, or ng/(s·m²·Pa).
    #[must_use]
    pub fn permeance(self, value: Permeance) -> String {
        if self.is_imperial() {
            let perms = value.as_si() / unit::PERM;
            format!("{} perm", fixed(perms, if perms < 10.0 { 2 } else { 0 }))
        } else {
            let nano = value.as_si() * 1e12;
            format!(
                "{} ng/(s·m²·Pa)",
                fixed(nano, if nano < 100.0 { 1 } else { 0 })
            )
        }
    }

    /// A vapor pressure in inHg or Pa.
    #[must_use]
    pub fn pressure(self, value: Pressure) -> String {
        if self.is_imperial() {
            format!("{} inHg", fixed(value.as_pa() / unit::INCH_OF_MERCURY, 3))
        } else {
            format!("{} Pa", fixed(value.as_pa(), 0))
        }
    }

    /// A weight per area.
    #[must_use]
    pub fn areal_density(self, value: ArealDensity) -> String {
        if self.is_imperial() {
            format!(
                "{} lb/ft²",
                fixed(value.as_si() / unit::POUND_PER_SQUARE_FOOT, 1)
            )
        } else {
            format!("{} kg/m²", fixed(value.as_si(), 1))
        }
    }

    /// A vapor flow given in kg/(m²·s) as water per 30 days.
    #[must_use]
    pub fn water_per_month(self, flow: f64) -> String {
        let water = self.water(ArealDensity::from_si(flow * 30.0 * 86_400.0));
        format!("{water} in 30 days")
    }
}

/// One decimal, always with a sign, with the true minus sign.
fn signed(value: f64) -> String {
    let text = fixed(value.abs(), 1);
    match text.as_str() {
        "0.0" => text,
        _ if value < 0.0 => format!("−{text}"),
        _ => format!("+{text}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn temperature_and_difference_convert_differently() {
        let style = Style {
            units: UnitSystem::Imperial,
        };
        assert_eq!(
            style.temperature(Temperature::from_celsius(10.0)),
            "50.0 °F"
        );
        assert_eq!(
            style.margin(TemperatureDifference::from_kelvin(10.0)),
            "+18.0 °F"
        );
        assert_eq!(
            style.margin(TemperatureDifference::from_kelvin(-0.01)),
            "0.0 °F"
        );
    }

    #[test]
    fn lengths_as_builders_write_them() {
        let style = Style {
            units: UnitSystem::Imperial,
        };
        assert_eq!(style.length(Length::from_m(0.01905)), "3/4 in");
        assert_eq!(style.length(Length::from_m(2.4384)), "96 in");
        assert_eq!(style.other().length(Length::from_m(0.01905)), "19.1 mm");
    }
}
