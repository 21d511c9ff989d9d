//! Thickness: a length, or the gauge of a sheet.

use super::number::leading_number;
use super::scale::plain;
use super::{Dimension, Length, Quantity, QuantityError, SheetMetal, sheet_thickness};

/// A layer's thickness: a length, or a sheet gauge that only the metal turns into one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Thickness {
    /// Measured.
    Length(Length),
    /// By gauge.
    Gauge(u8),
}

impl Thickness {
    /// The thickness in a sheet of that metal; `None` where the chart lacks the gauge.
    #[must_use]
    pub fn of(self, metal: SheetMetal) -> Option<Length> {
        match self {
            Self::Length(length) => Some(length),
            Self::Gauge(gauge) => sheet_thickness(gauge, metal),
        }
    }
}

impl Quantity for Thickness {
    const EXPECTED: &'static str =
        "a thickness such as `5.5 in`, `3/4 in`, `140 mm` or a sheet gauge such as `20 ga`";

    const RANGED: Option<Dimension> = Some(Dimension::Length);

    fn number(self) -> Option<f64> {
        match self {
            Self::Length(length) => length.number(),
            Self::Gauge(_) => None,
        }
    }

    fn read(text: &str) -> Result<Self, QuantityError> {
        if let Ok((number, unit)) = leading_number(text)
            && matches!(plain(unit).as_str(), "ga" | "gauge" | "gage")
        {
            let known = (10.0..=31.0).contains(&number)
                && sheet_thickness(number as u8, SheetMetal::Steel).is_some()
                && number.fract() == 0.0;
            return if known {
                Ok(Self::Gauge(number as u8))
            } else {
                Err(QuantityError::new(format!(
                    "`{text}` isn't in the gauge chart: expected a whole gauge from 10 to 31"
                )))
            };
        }
        Length::read(text)
            .map(Self::Length)
            .map_err(|error| QuantityError {
                message: error.message.replace(Length::EXPECTED, Self::EXPECTED),
                ..error
            })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use rstest::rstest;

    // Gauges differ by metal: sheet metal gauge chart, seen.
    #[rstest]
    #[case("20 ga", SheetMetal::Steel, 0.0359)]
    #[case("20 ga", SheetMetal::Galvanized, 0.0396)]
    #[case("22 gauge", SheetMetal::Galvanized, 0.0336)]
    #[case("20 ga", SheetMetal::Aluminum, 0.0320)]
    #[case("1/4 in", SheetMetal::Steel, 0.25)]
    fn thicknesses(#[case] text: &str, #[case] metal: SheetMetal, #[case] inches: f64) {
        let length = Thickness::read(text).unwrap().of(metal).unwrap();
        assert_relative_eq!(length.as_m(), inches * 0.0254, max_relative = 1e-12);
    }
}
