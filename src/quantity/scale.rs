//! A scale of units: the number in front, the unit behind it, the range that makes sense.

use super::QuantityError;
use super::number::leading_number;

/// Unit names (as [`plain`] leaves them) with their SI value.
pub(super) type Units = &'static [(&'static [&'static str], f64)];

/// What a linear unit scale needs to be read.
pub(super) struct Scale {
    pub(super) units: Units,
    pub(super) expected: &'static str,
    /// Least and greatest SI value that make sense, and how to say so.
    pub(super) range: (f64, f64, &'static str),
}

impl Scale {
    pub(super) fn read(&self, text: &str) -> Result<f64, QuantityError> {
        let (number, unit) = leading_number(text).map_err(|error| self.expecting(error))?;
        let factor = self.factor(text, unit)?;
        self.check(text, number * factor)
    }

    pub(super) fn factor(&self, text: &str, unit: &str) -> Result<f64, QuantityError> {
        if unit.is_empty() {
            let error = QuantityError::new(format!("`{text}` has no unit"));
            let error = match (self.units[0].0[0], leading_number(text)) {
                ("%", Ok((share, _))) if (0.0..=1.0).contains(&share) => {
                    error.with_help(format!("did you mean `{} %`?", (share * 1e4).round() / 1e2))
                }
                ("%", Ok((percent, _))) if (1.0..=100.0).contains(&percent) => {
                    error.with_help(format!("did you mean `{percent} %`?"))
                }
                _ => error,
            };
            return Err(self.expecting(error));
        }
        let name = plain(unit);
        let found = self
            .units
            .iter()
            .find(|(names, _)| names.contains(&name.as_str()));
        found.map(|(_, factor)| *factor).ok_or_else(|| {
            self.expecting(QuantityError::new(format!(
                "`{unit}` in `{text}` isn't a unit for this"
            )))
        })
    }

    pub(super) fn check(&self, text: &str, value: f64) -> Result<f64, QuantityError> {
        let (least, greatest, words) = self.range;
        if value.is_finite() && (least..=greatest).contains(&value) {
            Ok(value)
        } else {
            let error = QuantityError::new(format!("`{text}` is out of range: expected {words}"));
            Err(QuantityError {
                beyond: Some(value),
                ..error
            })
        }
    }

    pub(super) fn expecting(&self, error: QuantityError) -> QuantityError {
        QuantityError {
            message: format!("{}: expected {}", error.message, self.expected),
            ..error
        }
    }
}

/// A unit's name without blanks, dots, brackets and case, so that `W/(m·K)` reads as `w/mk`.
pub(super) fn plain(unit: &str) -> String {
    unit.chars()
        .filter_map(|c| match c {
            ' ' | '·' | '*' | '.' | '(' | ')' | '^' | '°' | '-' | '\u{2011}' => None,
            '²' => Some('2'),
            '³' => Some('3'),
            '″' | '”' => Some('"'),
            '′' | '’' => Some('\''),
            other => Some(other),
        })
        .flat_map(char::to_lowercase)
        .collect()
}
