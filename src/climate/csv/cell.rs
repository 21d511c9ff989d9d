//! Numbers in cells, their units, and the air they describe.

use std::io::Read;

use super::header::{Columns, Moisture};
use super::line::Lines;
use crate::error::Problem;
use crate::physics::moist_air::saturation_vapor_pressure;
use crate::quantity::{Temperature, unit};

/// Units that a column may have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Unit {
    Celsius,
    Fahrenheit,
    Kelvin,
    Percent,
    Fraction,
    Pascal,
    Hectopascal,
    Kilopascal,
    InchOfMercury,
}

impl Unit {
    /// The unit of that name; case, dots, blanks and the degree sign don't matter.
    pub(super) fn named(text: &str) -> Option<Self> {
        let plain: String = text
            .chars()
            .filter(|c| c.is_ascii_alphanumeric() || *c == '%')
            .flat_map(char::to_lowercase)
            .collect();
        Some(match plain.as_str() {
            "c" | "degc" | "celsius" | "degreesc" | "degreescelsius" => Self::Celsius,
            "f" | "degf" | "fahrenheit" | "degreesf" | "degreesfahrenheit" => Self::Fahrenheit,
            "k" | "kelvin" => Self::Kelvin,
            "%" | "percent" | "pct" | "%rh" => Self::Percent,
            "fraction" => Self::Fraction,
            "pa" => Self::Pascal,
            "hpa" | "mbar" | "mb" => Self::Hectopascal,
            "kpa" => Self::Kilopascal,
            "inhg" => Self::InchOfMercury,
            _ => return None,
        })
    }

    pub(super) fn is_temperature(self) -> bool {
        matches!(self, Self::Celsius | Self::Fahrenheit | Self::Kelvin)
    }

    pub(super) fn is_humidity(self) -> bool {
        matches!(self, Self::Percent | Self::Fraction)
    }

    pub(super) fn is_pressure(self) -> bool {
        !self.is_temperature() && !self.is_humidity()
    }

    /// A number in °C, as a fraction or in Pa.
    fn to_si(self, value: f64) -> f64 {
        match self {
            Self::Celsius | Self::Fraction | Self::Pascal => value,
            Self::Fahrenheit => Temperature::from_fahrenheit(value).as_celsius(),
            Self::Kelvin => value - 273.15,
            Self::Percent => value / 100.0,
            Self::Hectopascal => value * 100.0,
            Self::Kilopascal => value * 1_000.0,
            Self::InchOfMercury => value * unit::INCH_OF_MERCURY,
        }
    }
}

/// What a row says about the air.
#[derive(Clone, Copy, Debug)]
pub(super) struct Air {
    /// °C.
    pub(super) temperature: f64,
    /// Pa.
    pub(super) vapor_pressure: f64,
    /// Fraction, over ice below 0 °C.
    pub(super) humidity: f64,
}

/// Temperatures that can be weather, °C.
const WEATHER: (f64, f64) = (-90.0, 60.0);
const WEATHER_WORDS: &str = "expected −130 °F to 140 °F (−90 °C to 60 °C)";
/// How far a dew point may lie above the temperature by rounding of the printed numbers, K.
const ROUNDING: f64 = 0.06;

impl Air {
    /// The air of the row the lines stand at.
    pub(super) fn of_row<R: Read>(
        lines: &Lines<R>,
        columns: &Columns,
    ) -> Result<Self, Box<Problem>> {
        // A decimal comma makes two cells of one number.
        let beyond = (columns.width..lines.count()).find(|n| !lines.cell(*n).trim().is_empty());
        if let Some(cell) = beyond {
            let problem = lines.problem(cell, "this row has more cells than the header".to_owned());
            let help = "a decimal comma? write `47.3`, or separate the columns by semicolons";
            return Err(problem
                .expected(format!("expected {} cells", columns.width))
                .help(help)
                .into());
        }
        let temperature = temperature(lines, columns.temperature, columns.temperature_unit)?;
        let saturation = saturation_vapor_pressure(Temperature::from_celsius(temperature)).as_pa();
        let cell = columns.moisture;
        let written = lines.cell(cell);
        let value = || number(lines, cell, columns.moisture_unit);
        let vapor_pressure = match columns.moisture_kind {
            Moisture::Humidity => {
                let humidity = value()?;
                if !(0.0..=1.0 + 1e-9).contains(&humidity) {
                    let side = match humidity < 0.0 {
                        true => "below 0",
                        false => "over 100",
                    };
                    let message = format!("a relative humidity of `{written}` is {side} %");
                    let problem = lines.problem(cell, message);
                    return Err(problem.expected("expected 0 to 100 %").into());
                }
                humidity.min(1.0) * saturation
            }
            Moisture::DewPoint => {
                let dew_point = self::temperature(lines, cell, columns.moisture_unit)?;
                if dew_point > temperature + ROUNDING {
                    let air = lines.cell(columns.temperature);
                    let message =
                        format!("a dew point of `{written}` lies above the temperature of `{air}`");
                    let problem = lines.problem(cell, message);
                    return Err(problem.expected("expected at most the temperature").into());
                }
                saturation_vapor_pressure(Temperature::from_celsius(dew_point.min(temperature)))
                    .as_pa()
            }
            Moisture::Pressure => {
                let pressure = value()?;
                if !(0.0..=saturation * 1.005).contains(&pressure) {
                    let message = format!("a vapor pressure of `{written}` can't be");
                    let most =
                        format!("expected 0 to {saturation:.0} Pa, saturation at that temperature");
                    return Err(lines.problem(cell, message).expected(most).into());
                }
                pressure.min(saturation)
            }
        };
        Ok(Self {
            temperature,
            vapor_pressure,
            humidity: vapor_pressure / saturation,
        })
    }
}

fn temperature<R: Read>(
    lines: &Lines<R>,
    cell: usize,
    unit: Option<Unit>,
) -> Result<f64, Box<Problem>> {
    let celsius = number(lines, cell, unit)?;
    if (WEATHER.0..=WEATHER.1).contains(&celsius) {
        return Ok(celsius);
    }
    let written = lines.cell(cell);
    let message = match celsius >= 100.0 {
        true => format!("`{written}` is hotter than boiling water"),
        false => format!("`{written}` is no temperature of outdoor air"),
    };
    let problem = lines.problem(cell, message).expected(WEATHER_WORDS);
    let problem = match unit {
        Some(Unit::Celsius) if (WEATHER.1..=130.0).contains(&celsius) => {
            problem.help("is the column in °F? write `temperature (F)` in the header")
        }
        _ => problem,
    };
    Err(problem.into())
}

/// The number in a cell, in SI; a unit behind it goes before the column's.
fn number<R: Read>(
    lines: &Lines<R>,
    cell: usize,
    column: Option<Unit>,
) -> Result<f64, Box<Problem>> {
    let text = lines.cell(cell);
    let refuse =
        |message: String| Box::new(lines.problem(cell, message).expected("expected a number"));
    if text.is_empty() {
        return Err(refuse("nothing is written here".into()));
    }
    let (digits, behind) = split_number(&text);
    let own = match behind {
        "" => None,
        _ if digits.is_empty() => return Err(refuse(format!("`{text}` isn't a number"))),
        _ => match Unit::named(behind) {
            Some(own) if column.is_none_or(|column| own.is_like(column)) => Some(own),
            _ => return Err(refuse(format!("`{text}` isn't a number"))),
        },
    };
    let Some(unit) = own.or(column) else {
        return Err(lines
            .problem(cell, format!("`{text}` has no unit"))
            .expected("expected a unit in the header, such as `temperature (F)`")
            .into());
    };
    let digits = digits.replace('\u{2212}', "-");
    let value = match lines.may_have_decimal_commas() {
        true => digits.replace(',', ".").parse::<f64>(),
        false => digits.parse(),
    };
    match value {
        Ok(value) if value.is_finite() => Ok(unit.to_si(value)),
        _ => Err(refuse(format!("`{text}` isn't a number"))),
    }
}

impl Unit {
    fn is_like(self, other: Self) -> bool {
        (self.is_temperature(), self.is_humidity()) == (other.is_temperature(), other.is_humidity())
    }
}

/// Parts `41 °F` into `41` and `°F`; words such as `NaN` are all unit.
pub(super) fn split_number(text: &str) -> (&str, &str) {
    let is_part = |(at, c): (usize, char)| {
        let exponent = matches!(c, 'e' | 'E')
            && text[at + 1..].starts_with(|c: char| c.is_ascii_digit() || c == '-' || c == '+');
        c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | '\u{2212}') || exponent
    };
    let end = text.char_indices().find(|item| !is_part(*item));
    let (number, unit) = text.split_at(end.map_or(text.len(), |(at, _)| at));
    (number.trim(), unit.trim())
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("41", "41", "")]
    #[case("-4.5 °F", "-4.5", "°F")]
    #[case("1e2", "1e2", "")]
    #[case("82%", "82", "%")]
    #[case("NaN", "", "NaN")]
    #[case("1e400", "1e400", "")]
    fn numbers_and_units(#[case] text: &str, #[case] number: &str, #[case] unit: &str) {
        assert_eq!(split_number(text), (number, unit));
    }

    #[rstest]
    #[case("°F", Some(Unit::Fahrenheit))]
    #[case("deg C", Some(Unit::Celsius))]
    #[case("\u{fffd}C", Some(Unit::Celsius))]
    #[case("hPa", Some(Unit::Hectopascal))]
    #[case("Q", None)]
    #[case("", None)]
    fn units(#[case] text: &str, #[case] unit: Option<Unit>) {
        assert_eq!(Unit::named(text), unit);
    }
}
