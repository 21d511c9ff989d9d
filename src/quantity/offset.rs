//! A place along an axis, or how far one thing lies beyond another.

use super::{Dimension, Length, Quantity, QuantityError};

/// A signed length, m: zero needs no unit, and a minus sign points the other way.
///
/// ```
/// use dewmargin::quantity::{Offset, Quantity};
///
/// assert_eq!(Offset::read("0").unwrap().as_m(), 0.0);
/// assert_eq!(Offset::read("-1/2 in").unwrap().as_m(), -0.0127);
/// assert!(Offset::read("3").is_err());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Offset(f64);

impl Offset {
    /// From a number in m.
    #[must_use]
    pub const fn from_m(value: f64) -> Self {
        Self(value)
    }

    /// The number in m.
    #[must_use]
    pub const fn as_m(self) -> f64 {
        self.0
    }
}

impl Quantity for Offset {
    const EXPECTED: &'static str = "a place such as `0`, `5.5 in`, `-1/2 in` or `140 mm`";
    // Zero has none.
    const BARE_NUMBER: bool = true;

    const RANGED: Option<Dimension> = Some(Dimension::Length);

    fn number(self) -> Option<f64> {
        Some(self.0)
    }

    fn read(text: &str) -> Result<Self, QuantityError> {
        let trimmed = text.trim();
        let (sign, digits) = match trimmed.strip_prefix(['-', '−']) {
            Some(rest) => (-1.0, rest.trim_start()),
            None => (1.0, trimmed),
        };
        if is_zero(digits) {
            return Ok(Self(0.0));
        }
        match Length::read(digits) {
            Ok(length) => Ok(Self(sign * length.as_m())),
            Err(error) => Err(QuantityError {
                message: error.message.replace(Length::EXPECTED, Self::EXPECTED),
                ..error
            }),
        }
    }
}

/// `0`, `0.0` or `0 in`: nothing is nothing in every unit.
fn is_zero(text: &str) -> bool {
    let digits = text.trim_end_matches(|c: char| !c.is_ascii_digit());
    let unit = text[digits.len()..].trim();
    let is_unit = unit.is_empty() || Length::read(&format!("1 {unit}")).is_ok();
    is_unit && !digits.is_empty() && digits.bytes().all(|c| b"0.".contains(&c))
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("0", Some(0.0))]
    #[case("0 mm", Some(0.0))]
    #[case("0.0 in", Some(0.0))]
    #[case("0 feet", Some(0.0))]
    #[case("0\"", Some(0.0))]
    #[case("-0", Some(0.0))]
    #[case("10 in", Some(0.254))]
    #[case("−20 mm", Some(-0.02))]
    #[case("1 ft 6 in", Some(0.4572))]
    #[case("0 pounds", None)]
    #[case("--1 in", None)]
    #[case("5", None)]
    #[case("-", None)]
    #[case("", None)]
    #[case("nan", None)]
    fn places_have_a_sign_and_zero_no_unit(#[case] text: &str, #[case] meters: Option<f64>) {
        let read = Offset::read(text).ok().map(Offset::as_m);
        match (read, meters) {
            (Some(read), Some(meters)) => {
                approx::assert_abs_diff_eq!(read, meters, epsilon = 1e-12)
            }
            (read, meters) => assert_eq!(read, meters),
        }
    }
}
