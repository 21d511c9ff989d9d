//! Printing numbers for people: digits, minus signs, fractions of an inch.

use super::{Length, unit};

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
/// assert_eq!(inches(Length::from_m(0.0)), "0 in");
/// ```
#[must_use]
pub fn inches(length: Length) -> String {
    format!("{} in", tape(length.as_m() / unit::INCH))
}

/// A value with its unit, rounded to three digits: for the ends of a range, which may lie far apart.
#[must_use]
pub fn three_digits(dimension: super::Dimension, si: f64, style: Style) -> String {
    // Long ones in feet or meters.
    let dimension = match dimension {
        super::Dimension::Length if si.abs() >= 2.0 => super::Dimension::Run,
        other => other,
    };
    let rounded = format!("{:.2e}", dimension.value(si, style));
    let rounded = rounded.parse::<f64>().unwrap_or(f64::NAN);
    match dimension.unit(style) {
        "R" => format!("R-{rounded}"),
        unit => format!("{rounded} {unit}"),
    }
}

/// The number of inches without the unit.
pub(super) fn tape(inches: f64) -> String {
    if inches == 0.0 {
        return fixed(inches, 0);
    }
    let sixteenths = (inches * 16.0).round();
    if sixteenths < 1.0 || (inches - sixteenths / 16.0).abs() > 0.002 {
        return fixed(inches, if inches < 0.1 { 4 } else { 2 });
    }
    let (whole, part) = ((sixteenths / 16.0).floor(), (sixteenths % 16.0) as u32);
    let (numerator, denominator) = match part {
        0 => return fixed(whole, 0),
        p if p % 8 == 0 => (p / 8, 2),
        p if p % 4 == 0 => (p / 4, 4),
        p if p % 2 == 0 => (p / 2, 8),
        p => (p, 16),
    };
    match whole {
        0.0 => format!("{numerator}/{denominator}"),
        _ => format!("{}-{numerator}/{denominator}", fixed(whole, 0)),
    }
}

/// A number with at most that many significant digits and no more than ten decimals, without
/// trailing zeros, a minus sign that programs read; [`NO_NUMBER`] for what is infinite or undefined.
///
/// ```
/// # use dewmargin::quantity::plain;
/// let mut told = String::new();
/// for value in [1.5, -0.25, 1.0 / 3.0, 1825.0, -1e-15] {
///     plain(&mut told, value, 5);
///     told.push(' ');
/// }
/// assert_eq!(told, "1.5 -0.25 0.33333 1825 0 ");
/// ```
pub fn plain(told: &mut String, value: f64, digits: usize) {
    use std::fmt::Write;
    if !value.is_finite() {
        told.push(NO_NUMBER);
        return;
    }
    let size = value.abs();
    let (mut before, mut power) = (0_usize, 1.0);
    while size >= power && before < 20 {
        (before, power) = (before + 1, power * 10.0);
    }
    // Zeros right behind the point aren't significant.
    let (mut zeros, mut power) = (0_usize, 0.1);
    while before == 0 && size < power && zeros < 10 {
        (zeros, power) = (zeros + 1, power / 10.0);
    }
    let decimals = digits.saturating_sub(before).saturating_add(zeros).min(10);
    let start = told.len();
    // Writing into a string can't fail.
    let _ = write!(told, "{value:.decimals$}");
    if told[start..].contains('.') {
        let kept = told.trim_end_matches('0').trim_end_matches('.').len();
        told.truncate(kept.max(start));
    }
    if &told[start..] == "-0" {
        told.remove(start);
    }
}

/// Which units a report speaks; quantities print themselves in it.
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

    /// The same quantities in the other system, for the second figure in brackets.
    #[must_use]
    pub fn other(self) -> Self {
        Self {
            units: self.pick(UnitSystem::Metric, UnitSystem::Imperial),
        }
    }

    /// One of two by the reader's units.
    pub fn pick<T>(self, imperial: T, metric: T) -> T {
        match self.units {
            UnitSystem::Imperial => imperial,
            UnitSystem::Metric => metric,
        }
    }
}
