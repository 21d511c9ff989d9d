//! Numbers of a calculation: digits enough to redo it, one unit for a quantity and a reader.

use super::{Dimension, Unit};
use crate::quantity::{Style, fixed};

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

impl Dimension {
    /// The unit a reader has it in where a formula is redone.
    #[must_use]
    pub fn formula_unit(self, style: Style) -> &'static str {
        self.in_formula(style).name
    }

    /// A value given in SI, in that unit.
    #[must_use]
    pub fn formula_value(self, si: f64, style: Style) -> f64 {
        self.in_formula(style).value(si)
    }

    fn in_formula(self, style: Style) -> Unit {
        let [imperial, metric] = self.row().in_formulas;
        style.pick(imperial, metric)
    }

    /// The most decimals worth printing of a value in the reader's unit.
    #[must_use]
    pub fn most_decimals(self, value: f64) -> usize {
        match self {
            Self::Temperature | Self::Celsius | Self::Difference | Self::Kelvin => 4,
            Self::Pascal => 3,
            _ => significant(value, SIGNIFICANT),
        }
    }

    /// The decimals a result is wanted with.
    #[must_use]
    pub fn result_decimals(self, value: f64) -> usize {
        match self {
            Self::Temperature | Self::Celsius | Self::Difference | Self::Kelvin => 2,
            Self::Pascal => 1,
            _ => significant(value, 4),
        }
    }

    /// A value in the reader's unit at its most decimals, without trailing zeros.
    #[must_use]
    pub fn given(self, si: f64, style: Style) -> Printed {
        let value = self.formula_value(si, style);
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
        let value = self.formula_value(si, style);
        self.with_decimals(value, self.result_decimals(value), style)
    }

    /// A value that already is in the reader's unit, with that many decimals.
    ///
    /// ```
    /// # use dewmargin::quantity::{Dimension, Style};
    /// let printed = Dimension::Temperature.with_decimals(-3.456, 1, Style::SI);
    /// assert_eq!((printed.number.as_str(), printed.unit), ("−3.5", "°C"));
    /// assert!((printed.value + 3.5).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn with_decimals(self, value: f64, decimals: usize, style: Style) -> Printed {
        let digits = fixed(value, decimals);
        Printed {
            value: digits.parse().unwrap_or(value),
            number: digits.replace('-', "−"),
            unit: self.formula_unit(style),
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
    use crate::quantity::{UnitSystem, unit};

    const OURS: Style = Style {
        units: UnitSystem::Imperial,
    };

    #[test]
    fn given_values_keep_their_digits_and_no_more() {
        let print = |dimension: Dimension, si: f64| {
            [OURS, OURS.other()].map(|style| dimension.given(si, style).number)
        };
        assert_eq!(print(Dimension::Temperature, 20.0), ["68", "20"]);
        assert_eq!(print(Dimension::Length, 0.1397), ["5.5", "0.1397"]);
        // 0.17 / (0.09290304 · 5/9 · 3600 / 1055.05585262): square foot, degree, hour, Btu.
        assert_eq!(print(Dimension::Resistance, 0.17), ["0.9653048", "0.17"]);
        assert_eq!(print(Dimension::Temperature, -20.5), ["−4.9", "−20.5"]);
        assert_eq!(print(Dimension::Ratio, 0.0), ["0", "0"]);
        assert_eq!(print(Dimension::Length, 3.048), ["120", "3.048"]);
    }

    // One perm at one inch of mercury passes a grain per hour and square foot, by definition.
    #[test]
    fn a_perm_passes_a_grain() {
        let flow = unit::PERM * unit::INCH_OF_MERCURY;
        assert!((Dimension::VaporFlow.formula_value(flow, OURS) - 1.0).abs() < 1e-12);
        // 57.2135 ng/(s·m²·Pa) at 3386.39 Pa for an hour.
        let metric = Dimension::VaporFlow.formula_value(flow, OURS.other());
        assert!((metric - 57.2135e-9 * 3386.389 * 3.6e3).abs() < 1e-5);
    }
}
