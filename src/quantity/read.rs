//! Reading quantities the way the trade writes them: `5-1/2 in`, `R-13`, `0.7 perm`, `20 ga`.

use std::fmt;

use super::number::leading_number;
use super::scale::{Scale, Units, plain};
use super::{
    ArealDensity, Conductivity, Density, Length, Permeability, Permeance, RelativeHumidity, Share,
    SpecificHeat, Temperature, TemperatureDifference, ThermalResistance, unit,
};

/// Why a text isn't the quantity it should be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct QuantityError {
    /// What is wrong, naming the text.
    pub message: String,
    /// What would be right, where that can be guessed.
    pub help: Option<String>,
}

impl QuantityError {
    pub(super) fn new(message: String) -> Self {
        Self {
            message,
            help: None,
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

    /// Reads the quantity.
    ///
    /// # Errors
    /// When the text has no number, no unit or the wrong one, or lies outside the range that
    /// makes sense for any building.
    fn read(text: &str) -> Result<Self, QuantityError>;
}

macro_rules! linear {
    ($type:ident, $from:ident, $expected:literal, $range:expr, $units:expr) => {
        impl Quantity for $type {
            const EXPECTED: &'static str = $expected;
            fn read(text: &str) -> Result<Self, QuantityError> {
                Scale {
                    units: $units,
                    expected: $expected,
                    range: $range,
                }
                .read(text)
                .map(Self::$from)
            }
        }
    };
}
pub(super) use linear;

const PERMEANCE_UNITS: Units = &[
    (&["perm", "perms", "usperm", "usperms"], unit::PERM),
    (&["kg/sm2pa", "kg/m2spa", "kg/pasm2"], 1.0),
    (&["ng/sm2pa", "ng/m2spa", "ng/pasm2"], 1e-12),
];
const PERMEABILITY_UNITS: Units = &[
    (
        &["permin", "permsin", "perminch", "perminches", "permin."],
        unit::PERM_INCH,
    ),
    (&["kg/mspa", "kg/smpa", "kg/pasm"], 1.0),
    (&["ng/mspa", "ng/smpa", "ng/pasm"], 1e-12),
];

linear!(
    Conductivity,
    from_si,
    "a conductivity such as `0.029 W/mK` or `0.2 Btu·in/(h·ft²·°F)`",
    (1e-4, 1e4, "0.0001 to 10000 W/(m·K)"),
    &[
        (&["w/mk"], 1.0),
        (&["btuin/hft2f", "btuin/hrft2f"], unit::BTU_INCH),
        (&["btu/hftf", "btu/hrftf"], unit::BTU_PER_FOOT),
    ]
);
linear!(
    Permeance,
    from_si,
    "a permeance such as `0.7 perm` or `40 ng/(s·m²·Pa)`",
    (0.0, 1e-6, "0 to 17000 perm"),
    PERMEANCE_UNITS
);
linear!(
    Permeability,
    from_si,
    "a permeability such as `2 perm-in` or `2.9 ng/(m·s·Pa)`",
    (0.0, 1e-9, "0 to 680 perm-in"),
    PERMEABILITY_UNITS
);
linear!(
    Density,
    from_si,
    "a density such as `30 lb/ft3` or `480 kg/m3`",
    (0.1, 25_000.0, "0.1 to 25000 kg/m³"),
    &[
        (&["kg/m3"], 1.0),
        (&["lb/ft3", "pcf"], unit::POUND_PER_CUBIC_FOOT)
    ]
);
linear!(
    ArealDensity,
    from_si,
    "a weight per area such as `2 lb/ft2` or `10 kg/m2`",
    (0.0, 5_000.0, "0 to 5000 kg/m²"),
    &[
        (&["kg/m2"], 1.0),
        (&["lb/ft2", "psf"], unit::POUND_PER_SQUARE_FOOT),
        (&["g/m2"], 1e-3)
    ]
);
linear!(
    SpecificHeat,
    from_si,
    "a specific heat such as `0.39 Btu/(lb·°F)` or `1630 J/kgK`",
    (10.0, 10_000.0, "10 to 10000 J/(kg·K)"),
    &[
        (&["j/kgk"], 1.0),
        (&["kj/kgk"], 1e3),
        (&["btu/lbf"], unit::BTU_PER_POUND)
    ]
);
linear!(
    RelativeHumidity,
    from_fraction,
    "a relative humidity such as `60 %`",
    (0.0, 1.0, "0 % to 100 %"),
    &[(&["%", "%rh", "percent"], 0.01)]
);
linear!(
    Share,
    from_fraction,
    "a share of the area such as `25 %`",
    (0.0, 1.0, "0 % to 100 %"),
    &[(&["%", "percent"], 0.01)]
);
linear!(
    TemperatureDifference,
    from_kelvin,
    "a temperature difference such as `5 K` or `9 F`",
    (-200.0, 200.0, "-200 K to 200 K"),
    &[
        (&["k", "c", "degc"], 1.0),
        (&["f", "degf"], unit::FAHRENHEIT_DEGREE)
    ]
);

impl Quantity for Temperature {
    const EXPECTED: &'static str = "a temperature such as `68 F` or `20 °C`";

    fn read(text: &str) -> Result<Self, QuantityError> {
        // A first look with unit factor 1; the offset of °F can't be a factor.
        let scale = Scale {
            units: &[(&["f", "degf", "c", "degc"], 1.0)],
            expected: Self::EXPECTED,
            range: (-60.0, 70.0, "-76 °F to 158 °F (-60 °C to 70 °C)"),
        };
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
    const EXPECTED: &'static str = "a thermal resistance such as `R-13` or `RSI 2.3`";

    fn read(text: &str) -> Result<Self, QuantityError> {
        let scale = Scale {
            units: &[
                (&["m2k/w"], 1.0),
                (&["hft2f/btu", "hrft2f/btu"], unit::R_VALUE),
            ],
            expected: Self::EXPECTED,
            range: (0.0, 568.0 * unit::R_VALUE, "R-0 to R-568 (RSI 0 to 100)"),
        };
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
    const EXPECTED: &'static str = "a length such as `5.5 in`, `3/4 in`, `8 ft 2 in` or `140 mm`";

    fn read(text: &str) -> Result<Self, QuantityError> {
        let scale = Scale {
            units: &[
                (&["in", "inch", "inches", "\""], unit::INCH),
                (&["ft", "foot", "feet", "'"], unit::FOOT),
                (&["mil", "mils"], unit::INCH / 1000.0),
                (&["mm"], 1e-3),
                (&["cm"], 1e-2),
                (&["m"], 1.0),
            ],
            expected: Self::EXPECTED,
            range: (1e-6, 1_000.0, "0.001 mm (0.04 mil) to 1000 m"),
        };
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
