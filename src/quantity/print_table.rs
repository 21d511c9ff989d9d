//! Numbers in tables for other programs: plain digits, one unit for a column.

use super::{Style, UnitSystem, unit};

/// What a column of a table holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    /// A length: SI m, read in inches or mm.
    Length,
    /// A relative humidity: SI a fraction, read in percent.
    Humidity,
    /// A flow of air: SI m³/s, read in cfm or m³/h.
    AirFlow,
    /// A difference of temperatures: SI K.
    Difference,
    /// Water per area: SI kg/m².
    Water,
    /// A thermal transmittance: SI W/(m²·K).
    Transmittance,
    /// A weight per area: SI kg/m².
    Weight,
    /// Days.
    Days,
}

impl Column {
    /// The unit it is read in.
    #[must_use]
    pub fn unit(self, style: Style) -> &'static str {
        let (imperial, metric) = match self {
            Self::Length => ("in", "mm"),
            Self::Humidity => ("%", "%"),
            Self::AirFlow => ("cfm", "m³/h"),
            Self::Difference => ("°F", "K"),
            Self::Water => ("oz/ft²", "kg/m²"),
            Self::Transmittance => ("Btu/h·ft²·°F", "W/m²K"),
            Self::Weight => ("lb/ft²", "kg/m²"),
            Self::Days => ("days", "days"),
        };
        match style.units {
            UnitSystem::Imperial => imperial,
            UnitSystem::Metric => metric,
        }
    }

    /// The number in that unit.
    #[must_use]
    pub fn in_units(self, si: f64, style: Style) -> f64 {
        let (imperial, metric) = match self {
            Self::Length => (si / unit::INCH, si * 1e3),
            Self::Humidity => (si * 100.0, si * 100.0),
            Self::AirFlow => (si / unit::CFM, si * 3_600.0),
            Self::Difference => (si / unit::FAHRENHEIT_DEGREE, si),
            Self::Water => (si / unit::OUNCE_PER_SQUARE_FOOT, si),
            Self::Transmittance => (si / unit::U_VALUE, si),
            Self::Weight => (si / unit::POUND_PER_SQUARE_FOOT, si),
            Self::Days => (si, si),
        };
        match style.units {
            UnitSystem::Imperial => imperial,
            UnitSystem::Metric => metric,
        }
    }

    /// How the SI unit ends a key in JSON.
    #[must_use]
    pub fn si_key(self) -> &'static str {
        match self {
            Self::Length => "_m",
            Self::Humidity => "_fraction",
            Self::AirFlow => "_m3_per_s",
            Self::Difference => "_k",
            Self::Water | Self::Weight => "_kg_per_m2",
            Self::Transmittance => "_w_per_m2k",
            Self::Days => "_days",
        }
    }
}

/// A number with at most that many significant digits and no more than ten decimals, without
/// trailing zeros, a minus sign that programs read.
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
