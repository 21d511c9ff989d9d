//! Reading quantities the way the trade writes them: `5-1/2 in`, `R-13`, `0.7 perm`, `20 ga`.

use std::fmt;

use super::number::leading_number;
use super::scale::plain;
use super::{
    AirChanges, Area, ArealDensity, Conductivity, Density, Dimension, Length, LinearTransmittance,
    Mass, MassFlow, Measured, Permeability, Permeance, PointTransmittance, Power, RelativeHumidity,
    Share, SpecificHeat, Temperature, TemperatureDifference, ThermalResistance, Volume, VolumeFlow,
    unit,
};

/// Why a text isn't the quantity it should be.
#[derive(Clone, Debug, PartialEq)]
pub struct QuantityError {
    /// What is wrong, naming the text.
    pub message: String,
    /// What would be right, where that can be guessed.
    pub help: Option<String>,
    /// The number that was read, SI, where it lies beyond what is believed of any building.
    pub beyond: Option<f64>,
}

impl QuantityError {
    pub(super) fn new(message: String) -> Self {
        Self {
            message,
            help: None,
            beyond: None,
        }
    }

    pub(super) fn with_help(self, help: String) -> Self {
        Self {
            help: Some(help),
            ..self
        }
    }
}

impl fmt::Display for QuantityError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for QuantityError {}

/// A quantity that can be read from text with its unit.
pub trait Quantity: Sized + Copy {
    /// What is expected, with the units, for messages and the editor schema.
    const EXPECTED: &'static str;

    /// Whether a number without a unit may stand for it: a count has none.
    const BARE_NUMBER: bool = false;

    /// What the plausible range of a key is stated in; `None` of what is chosen from a list.
    const RANGED: Option<Dimension> = None;

    /// Its number, SI, where it has one: a sheet's gauge has none.
    fn number(self) -> Option<f64> {
        None
    }

    /// Reads the quantity.
    ///
    /// # Errors
    /// When the text has no number, no unit or the wrong one, or lies outside the range that
    /// makes sense for any building.
    fn read(text: &str) -> Result<Self, QuantityError>;
}

/// Reads a number and its unit as the row of the type's dimension says.
macro_rules! linear {
    ($($type:ident $from:ident),* $(,)?) => {
        $(impl Quantity for $type {
            const EXPECTED: &'static str = <Self as Measured>::DIMENSION.expected();
            const RANGED: Option<Dimension> = Some(<Self as Measured>::DIMENSION);

            fn number(self) -> Option<f64> {
                Some(self.si())
            }

            fn read(text: &str) -> Result<Self, QuantityError> {
                Self::DIMENSION.read(text).map(Self::$from)
            }
        })*
    };
}

linear!(
    Conductivity from_si,
    Permeance from_si,
    Permeability from_si,
    Density from_si,
    ArealDensity from_si,
    SpecificHeat from_si,
    RelativeHumidity from_fraction,
    Share from_fraction,
    TemperatureDifference from_kelvin,
    Area from_m2,
    Mass from_kg,
    LinearTransmittance from_si,
    PointTransmittance from_si,
    Volume from_m3,
    VolumeFlow from_m3_per_s,
    AirChanges from_per_hour,
    Power from_w,
    MassFlow from_kg_per_s,
);

impl Quantity for Temperature {
    const EXPECTED: &'static str = Self::DIMENSION.expected();

    const RANGED: Option<Dimension> = Some(Self::DIMENSION);

    fn number(self) -> Option<f64> {
        Some(self.si())
    }

    fn read(text: &str) -> Result<Self, QuantityError> {
        let scale = Self::DIMENSION.scale();
        let (number, unit) = leading_number(text).map_err(|error| scale.expecting(error))?;
        scale.factor(text, unit)?;
        let value = match plain(unit).ends_with('f') {
            true => Self::from_fahrenheit(number),
            false => Self::from_celsius(number),
        };
        scale.check(text, value.as_celsius())?;
        Ok(value)
    }
}

impl Quantity for ThermalResistance {
    const EXPECTED: &'static str = Self::DIMENSION.expected();

    const RANGED: Option<Dimension> = Some(Self::DIMENSION);

    fn number(self) -> Option<f64> {
        Some(self.si())
    }

    fn read(text: &str) -> Result<Self, QuantityError> {
        let scale = Self::DIMENSION.scale();
        let trimmed = text.trim();
        // In letters of one byte each: `ı` and `ſ` have capitals among them.
        let begins = |word: &str| {
            let front = trimmed.get(..word.len())?;
            let rest = trimmed.get(word.len()..)?;
            front.eq_ignore_ascii_case(word).then_some(rest)
        };
        let (factor, digits) = match (begins("RSI"), begins("R")) {
            (Some(digits), _) => (1.0, digits),
            (None, Some(digits)) => (unit::R_VALUE, digits),
            (None, None) => return scale.read(text).map(Self::from_si),
        };
        // The dash of `R-13` is a dash, not a minus sign.
        let digits = digits.trim_start();
        let digits = digits.strip_prefix('-').unwrap_or(digits);
        let (number, rest) = leading_number(digits).map_err(|error| scale.expecting(error))?;
        if !rest.is_empty() {
            let message = format!("`{rest}` in `{text}` isn't part of a resistance");
            return Err(scale.expecting(QuantityError::new(message)));
        }
        scale.check(text, number * factor).map(Self::from_si)
    }
}

impl Quantity for Length {
    const EXPECTED: &'static str = Self::DIMENSION.expected();

    const RANGED: Option<Dimension> = Some(Self::DIMENSION);

    fn number(self) -> Option<f64> {
        Some(self.si())
    }

    fn read(text: &str) -> Result<Self, QuantityError> {
        let scale = Self::DIMENSION.scale();
        let (number, rest) = leading_number(text).map_err(|error| scale.expecting(error))?;
        // Feet and inches: a second number stands behind the first unit.
        let Some(second) = rest.find(|c: char| c.is_ascii_digit()).filter(|at| *at > 0) else {
            let factor = scale.factor(text, rest)?;
            return scale.check(text, number * factor).map(Self::from_m);
        };
        let feet = scale.factor(text, rest[..second].trim_end_matches(['-', ' ']))?;
        let (inches, inch_unit) =
            leading_number(&rest[second..]).map_err(|error| scale.expecting(error))?;
        let inch = scale.factor(text, inch_unit)?;
        if feet != unit::FOOT || inch != unit::INCH {
            let message = format!("`{text}` mixes units other than feet and inches");
            return Err(scale.expecting(QuantityError::new(message)));
        }
        scale
            .check(text, number * feet + inches * inch)
            .map(Self::from_m)
    }
}

#[cfg(test)]
mod tests {
    use super::super::Thickness;
    use super::*;
    use approx::assert_relative_eq;
    use rstest::rstest;

    #[rstest]
    #[case("5.5 in", 0.1397)]
    #[case("5-1/2 in", 0.1397)]
    #[case("5 1/2\"", 0.1397)]
    #[case("3/4 in", 0.01905)]
    #[case("8 ft 2 in", 2.4892)]
    #[case("8' 2\"", 2.4892)]
    #[case("8'-2 1/2\"", 2.5019)]
    #[case("8 ft", 2.4384)]
    #[case("140 mm", 0.14)]
    #[case("6 mil", 0.000_152_4)]
    #[case("1.4e1 cm", 0.14)]
    fn lengths(#[case] text: &str, #[case] meters: f64) {
        assert_relative_eq!(
            Length::read(text).unwrap().as_m(),
            meters,
            max_relative = 1e-12
        );
    }

    #[rstest]
    #[case("R-13", 13.0 * 0.176_110_183_7)]
    #[case("R13", 13.0 * 0.176_110_183_7)]
    #[case("r 3.75", 3.75 * 0.176_110_183_7)]
    #[case("RSI 2.3", 2.3)]
    #[case("RSI-2.3", 2.3)]
    #[case("2.3 m²·K/W", 2.3)]
    #[case("R-568", 568.0 * 0.176_110_183_7)]
    #[case("13 h·ft²·°F/Btu", 13.0 * 0.176_110_183_7)]
    fn resistances(#[case] text: &str, #[case] si: f64) {
        assert_relative_eq!(
            ThermalResistance::read(text).unwrap().as_si(),
            si,
            max_relative = 1e-9
        );
    }

    #[rstest]
    #[case("68 F", 20.0)]
    #[case("68 °F", 20.0)]
    #[case("20 °C", 20.0)]
    #[case("20C", 20.0)]
    #[case("−4 °F", -20.0)]
    fn temperatures(#[case] text: &str, #[case] celsius: f64) {
        assert_relative_eq!(
            Temperature::read(text).unwrap().as_celsius(),
            celsius,
            epsilon = 1e-12
        );
    }

    #[rstest]
    #[case("0.7 perm", 0.7 * 5.721_35e-11)]
    #[case("29 ng/(s·m²·Pa)", 2.9e-11)]
    #[case("29 ng/(Pa·s·m2)", 2.9e-11)]
    #[case("0 perm", 0.0)]
    fn permeances(#[case] text: &str, #[case] si: f64) {
        assert_relative_eq!(
            Permeance::read(text).unwrap().as_si(),
            si,
            max_relative = 1e-6
        );
    }

    #[test]
    fn other_units() {
        let perm_inch = Permeability::read("2 perm-in").unwrap().as_si();
        assert_relative_eq!(perm_inch, 2.0 * 1.453_223e-12, max_relative = 1e-6);
        assert_relative_eq!(RelativeHumidity::read("60 %").unwrap().as_fraction(), 0.6);
        let k = Conductivity::read("0.2 Btu·in/(h·ft²·°F)").unwrap().as_si();
        assert_relative_eq!(k, 0.028_845_577_78, max_relative = 1e-9);
        assert_relative_eq!(TemperatureDifference::read("9 F").unwrap().as_kelvin(), 5.0);
    }

    #[rstest]
    #[case("5.5", "`5.5` has no unit: expected a length")]
    #[case("in", "`in` doesn't start with a number: expected a length")]
    #[case("5,5 in", "`5,5` has a comma in it: expected a length")]
    #[case("3/0 in", "`3/0` isn't a number: expected a length")]
    #[case("NaN in", "`NaN in` doesn't start with a number: expected a length")]
    #[case("inf", "`inf` doesn't start with a number")]
    #[case("1e300 m", "`1e300 m` is out of range: expected 0.001 mm")]
    #[case("1e400 mm", "`1e400` is too large a number")]
    #[case("0 in", "`0 in` is out of range: expected 0.001 mm")]
    #[case("1e-300 m", "`1e-300 m` is out of range: expected 0.001 mm")]
    #[case("-3 in", "`-3 in` is out of range: expected 0.001 mm")]
    #[case(
        "5 perm",
        "`perm` in `5 perm` isn't a unit for this: expected a length"
    )]
    fn refused_lengths(#[case] text: &str, #[case] message: &str) {
        let error = Length::read(text).unwrap_err();
        assert!(error.message.starts_with(message), "{}", error.message);
    }

    #[test]
    fn refused_others() {
        assert!(RelativeHumidity::read("160 %").is_err());
        assert!(RelativeHumidity::read("0.6").is_err());
        assert!(Temperature::read("300 F").is_err());
        assert!(Thickness::read("40 ga").is_err());
        assert!(ThermalResistance::read("R-13 in").is_err());
        assert!(Permeance::read("-1 perm").is_err());
    }

    proptest::proptest! {
        #[test]
        fn no_text_panics(text in "\\PC{0,20}") {
            let _ = Length::read(&text);
            let _ = Thickness::read(&text);
            let _ = ThermalResistance::read(&text);
            let _ = Temperature::read(&text);
        }
    }
}
