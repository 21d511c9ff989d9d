//! What targets are stated in beside quantities: a factor of one, a number of days.

use super::number::leading_number;
use super::scale::Scale;
use super::{Days, Dimension, Factor, Measured, Quantity, QuantityError};

impl Quantity for Factor {
    const EXPECTED: &'static str = Self::DIMENSION.expected();
    const BARE_NUMBER: bool = true;

    const RANGED: Option<Dimension> = Some(Self::DIMENSION);

    fn number(self) -> Option<f64> {
        Some(self.si())
    }

    fn read(text: &str) -> Result<Self, QuantityError> {
        bare(text, Self::DIMENSION.scale()).map(Self::from_number)
    }
}

impl Quantity for Days {
    const EXPECTED: &'static str = Self::DIMENSION.expected();
    const BARE_NUMBER: bool = true;

    const RANGED: Option<Dimension> = Some(Self::DIMENSION);

    fn number(self) -> Option<f64> {
        Some(self.si())
    }

    fn read(text: &str) -> Result<Self, QuantityError> {
        bare(text, Self::DIMENSION.scale()).map(Self::from_number)
    }
}

/// A number that may stand without a unit.
fn bare(text: &str, scale: &Scale) -> Result<f64, QuantityError> {
    let (number, rest) = leading_number(text).map_err(|error| scale.expecting(error))?;
    let rest = rest.trim().to_lowercase();
    if scale
        .units
        .iter()
        .any(|(names, _)| names.contains(&rest.as_str()))
    {
        return scale.check(text, number);
    }
    let error = QuantityError::new(format!("`{rest}` in `{text}` doesn't belong here"));
    let number = if rest == "%" { number / 100.0 } else { number };
    let help = format!("write the number alone: `{number}`");
    Err(scale.expecting(error.with_help(help)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("0.7", Some(0.7))]
    #[case("0", None)]
    #[case("1", None)]
    #[case("70 %", None)]
    #[case("much", None)]
    fn factors(#[case] text: &str, #[case] expected: Option<f64>) {
        assert_eq!(Factor::read(text).ok().map(Factor::as_number), expected);
    }

    #[rstest]
    #[case("200", Some(200.0))]
    #[case("1 day", Some(1.0))]
    #[case("200 days", Some(200.0))]
    #[case("0", None)]
    #[case("-5", None)]
    #[case("4000", None)]
    #[case("3 weeks", None)]
    fn days(#[case] text: &str, #[case] expected: Option<f64>) {
        assert_eq!(Days::read(text).ok().map(Days::as_number), expected);
    }
}
