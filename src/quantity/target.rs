//! What targets are stated in beside quantities: a factor of one, a number of days.

use super::number::leading_number;
use super::scale::Scale;
use super::{Days, Factor, Quantity, QuantityError};

impl Quantity for Factor {
    const EXPECTED: &'static str = "a number between 0 and 1 such as `0.7`";
    const BARE_NUMBER: bool = true;

    fn read(text: &str) -> Result<Self, QuantityError> {
        let number = bare(text, &[""], Self::EXPECTED)?;
        if number > 0.0 && number < 1.0 {
            return Ok(Self::from_number(number));
        }
        let message = format!("`{text}` isn't between 0 and 1");
        Err(expecting(QuantityError::new(message), Self::EXPECTED))
    }
}

impl Quantity for Days {
    const EXPECTED: &'static str = "a number of days such as `200`, from 1 to 3650";
    const BARE_NUMBER: bool = true;

    fn read(text: &str) -> Result<Self, QuantityError> {
        let number = bare(text, &["", "days", "day", "d"], Self::EXPECTED)?;
        if (1.0..=3650.0).contains(&number) {
            return Ok(Self::from_number(number));
        }
        let message = format!("`{text}` isn't from 1 to 3650 days");
        Err(expecting(QuantityError::new(message), Self::EXPECTED))
    }
}

/// The number of a text with one of those units.
fn bare(text: &str, units: &[&str], expected: &'static str) -> Result<f64, QuantityError> {
    let (number, rest) = leading_number(text).map_err(|error| expecting(error, expected))?;
    let rest = rest.trim().to_lowercase();
    if units.contains(&rest.as_str()) {
        return Ok(number);
    }
    let error = QuantityError::new(format!("`{rest}` in `{text}` doesn't belong here"));
    let number = if rest == "%" { number / 100.0 } else { number };
    let help = format!("write the number alone: `{number}`");
    Err(expecting(error.with_help(help), expected))
}

fn expecting(error: QuantityError, expected: &'static str) -> QuantityError {
    let scale = Scale {
        units: &[],
        expected,
        range: (0.0, 0.0, ""),
    };
    scale.expecting(error)
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
