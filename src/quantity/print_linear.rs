//! Heat flow by length and linear thermal transmittance, each with its error bar, in both units.

use super::unit::{BTU_PER_HOUR, FOOT, INCH};
use super::{Length, Style, fixed};

impl Style {
    /// W/m and Btu/(h·ft), the reader's own first, both with the error bar.
    #[must_use]
    pub fn heat_flow_by_length(self, watts: f64, bar: f64) -> String {
        let factor = FOOT / BTU_PER_HOUR;
        let metric = format!("{} ± {} W/m", fixed(watts, 2), fixed(bar, 3));
        let imperial = format!(
            "{} ± {} Btu/h·ft",
            fixed(watts * factor, 2),
            fixed(bar * factor, 3)
        );
        self.own_first(imperial, metric)
    }

    /// W/(m·K) and Btu/(h·ft·°F), the reader's own first, both with the error bar.
    #[must_use]
    pub fn linear_transmittance(self, watts: f64, bar: f64) -> String {
        let factor = FOOT / BTU_PER_HOUR / 1.8;
        let metric = format!("{} ± {} W/mK", fixed(watts, 4), fixed(bar, 4));
        let imperial = format!(
            "{} ± {} Btu/h·ft·°F",
            fixed(watts * factor, 4),
            fixed(bar * factor, 4)
        );
        self.own_first(imperial, metric)
    }

    /// A temperature's error bar in the reader's degrees, rounded up: never printed as nothing.
    #[must_use]
    pub fn error_bar_number(self, kelvin: f64) -> String {
        let degrees = match self.temperature_unit() {
            "°F" => kelvin * 1.8,
            _ => kelvin,
        };
        // What rounding adds must not add a hundredth.
        fixed((degrees * 100.0 - 1e-9).ceil().max(1.0) / 100.0, 2)
    }

    /// A least thickness, rounded up so that it still does: to 0.01 in or 0.1 mm.
    ///
    /// ```
    /// # use dewmargin::quantity::{Length, Style, UnitSystem};
    /// let style = Style { units: UnitSystem::Imperial };
    /// assert_eq!(style.least_length(Length::from_m(0.0157)), "0.62 in");
    /// ```
    #[must_use]
    pub fn least_length(self, length: Length) -> String {
        let up = |value: f64, steps: f64| (value * steps - 1e-6).ceil() / steps;
        match self.temperature_unit() {
            "°F" => format!("{} in", fixed(up(length.as_m() / INCH, 100.0), 2)),
            _ => format!("{} mm", fixed(up(length.as_m() * 1e3, 10.0), 1)),
        }
    }

    fn own_first(self, imperial: String, metric: String) -> String {
        match self.temperature_unit() {
            "°F" => format!("{imperial} ({metric})"),
            _ => format!("{metric} ({imperial})"),
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::quantity::{Style, UnitSystem};

    // 1 W/m is 1.0400 Btu/(h·ft); 1 W/(m·K) is 0.57779 Btu/(h·ft·°F).
    #[test]
    fn both_units_agree() {
        let style = Style {
            units: UnitSystem::Imperial,
        };
        assert_eq!(
            style.heat_flow_by_length(100.0, 1.0),
            "104.00 ± 1.040 Btu/h·ft (100.00 ± 1.000 W/m)"
        );
        assert_eq!(style.error_bar_number(0.001), "0.01");
        assert_eq!(style.error_bar_number(0.1), "0.18");
        assert_eq!(
            style.linear_transmittance(1.0, 0.0),
            "0.5778 ± 0.0000 Btu/h·ft·°F (1.0000 ± 0.0000 W/mK)"
        );
    }
}
