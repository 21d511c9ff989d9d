//! What the trade says in its own way: signed margins, R by the inch, amounts too small to show, pitch.

use super::print::tape;
use super::{ArealDensity, Conductivity, Currency, Dimension, Length, Pitch, Style};
use super::{Temperature, TemperatureDifference, UnitSystem, fixed, unit};

impl Style {
    /// A margin: always signed, `+6.1 °F` or `−10.2 °F`.
    #[must_use]
    pub fn margin(self, value: TemperatureDifference) -> String {
        let unit = Dimension::Difference.unit(self);
        format!("{} {unit}", self.margin_number(value))
    }

    /// A margin without its unit, for table columns.
    #[must_use]
    pub fn margin_number(self, value: TemperatureDifference) -> String {
        let value = self.value(value);
        let text = fixed(value.abs(), 1);
        match text.as_str() {
            "0.0" => text,
            _ if value < 0.0 => format!("−{text}"),
            _ => format!("+{text}"),
        }
    }

    /// A temperature's error bar in the reader's degrees, rounded up: never printed as nothing, and over
    /// one degree no finer than what it is a bar of.
    #[must_use]
    pub fn error_bar_number(self, kelvin: f64) -> String {
        let degrees = Dimension::Difference.value(kelvin, self);
        let (parts, digits) = if degrees > 1.0 { (10.0, 1) } else { (100.0, 2) };
        // What rounding adds must not add one more.
        fixed((degrees * parts - 1e-9).ceil().max(1.0) / parts, digits)
    }

    /// A temperature with its error bar: `48.3 ± 0.12 °F`, or `9.1 °C ± 0.07 K`.
    #[must_use]
    pub fn temperature_with_bar(self, value: Temperature, kelvin: f64) -> String {
        let (number, bar) = (self.number(value), self.error_bar_number(kelvin));
        self.pick(
            format!("{number} ± {bar} °F"),
            format!("{number} °C ± {bar} K"),
        )
    }

    /// A difference of temperatures with its error bar: `0.3 ± 1.21 °F`.
    #[must_use]
    pub fn difference_with_bar(self, value: TemperatureDifference, kelvin: f64) -> String {
        let unit = Dimension::Difference.unit(self);
        let (number, bar) = (self.number(value), self.error_bar_number(kelvin));
        format!("{number} ± {bar} {unit}")
    }

    /// A value with its error bar, SI: in the reader's unit, the other reader's behind it.
    ///
    /// ```
    /// # use dewmargin::quantity::{Dimension, Style, UnitSystem};
    /// let style = Style { units: UnitSystem::Imperial };
    /// assert_eq!(
    ///     style.with_bar(Dimension::LinearTransmittance, 1.0, 0.001),
    ///     "0.5778 ± 0.0006 Btu/h·ft·°F (1.0000 ± 0.0010 W/mK)"
    /// );
    /// ```
    #[must_use]
    pub fn with_bar(self, dimension: Dimension, si: f64, bar: f64) -> String {
        let one = |style: Style| {
            let number = dimension.number(si, style);
            format!("{number} ± {}", dimension.show_fine(bar, style))
        };
        format!("{} ({})", one(self), one(self.other()))
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
        let decimals = self.pick(2, 1);
        let steps = self.pick(100.0, 10.0);
        let up = (self.value(length) * steps - 1e-6).ceil() / steps;
        format!("{} {}", fixed(up, decimals), Dimension::Length.unit(self))
    }

    /// A measure of the house to be added up by hand: sixteenths of an inch where they fit, else
    /// thousandths; tenths of a millimeter.
    #[must_use]
    pub fn measure(self, length: Length) -> String {
        let value = self.value(length);
        let sixteenths = (value * 16.0).round() / 16.0;
        let on_tape = (value - sixteenths).abs() < 1e-6 && sixteenths >= 0.0625;
        match self.pick(on_tape, false) {
            true => self.show(length),
            false => {
                let number = fixed(value, self.pick(3, 1));
                format!("{number} {}", Dimension::Length.unit(self))
            }
        }
    }

    /// A length as a tape shows it: feet and inches to a sixteenth from one foot up, or whole
    /// millimeters. `to` rounds what lies between two marks: up for what is over a limit, down for
    /// what is left of it.
    ///
    /// ```
    /// # use dewmargin::quantity::{Length, Style, UnitSystem};
    /// let style = Style { units: UnitSystem::Imperial };
    /// assert_eq!(style.on_tape(Length::from_m(0.0254 * 140.75), f64::round), "11 ft 8-3/4 in");
    /// assert_eq!(style.on_tape(Length::from_m(0.0254 * 18.74), f64::floor), "1 ft 6-11/16 in");
    /// assert_eq!(style.other().on_tape(Length::from_m(0.00635), f64::floor), "6 mm");
    /// ```
    #[must_use]
    pub fn on_tape(self, length: Length, to: fn(f64) -> f64) -> String {
        // Sums of terms in meters are off by less than this part of a mark.
        let mark = |marks: f64| match (marks - marks.round()).abs() < 1e-3 {
            true => marks.round(),
            false => to(marks),
        };
        let value = self.value(length);
        let UnitSystem::Imperial = self.units else {
            let unit = Dimension::Length.unit(self);
            return format!("{} {unit}", fixed(mark(value), 0));
        };
        let sixteenths = mark(value * 16.0);
        let feet = (sixteenths / 192.0).floor();
        let rest = format!("{} in", tape(sixteenths / 16.0 - feet * 12.0));
        match (feet >= 1.0, sixteenths > feet * 192.0) {
            (false, _) => rest,
            (true, true) => format!("{} ft {rest}", fixed(feet, 0)),
            (true, false) => format!("{} ft", fixed(feet, 0)),
        }
    }

    /// A conductivity: `R 4.01 per inch`, or `0.0360 W/mK`.
    ///
    /// ```
    /// use dewmargin::quantity::{Conductivity, Style, UnitSystem};
    ///
    /// let wool = Conductivity::from_si(0.036);
    /// assert_eq!(Style { units: UnitSystem::Metric }.conductivity(wool), "0.0360 W/mK");
    /// assert_eq!(Style { units: UnitSystem::Imperial }.conductivity(wool), "R 4.01 per inch");
    /// ```
    #[must_use]
    pub fn conductivity(self, value: Conductivity) -> String {
        self.pick(
            format!("R {} per inch", r_per_inch(value.as_si())),
            self.show(value),
        )
    }

    /// Two conductivities as a range: `R 5.55 to 6.50 per inch`, the greater conductivity the less R.
    #[must_use]
    pub fn conductivity_range(self, si: [f64; 2]) -> String {
        let [low, high] = si.map(r_per_inch);
        self.pick(
            format!("R {high} to {low} per inch"),
            Dimension::Conductivity.range(si, self),
        )
    }

    /// Water held per area; an amount too small for the last decimal is `under` it.
    #[must_use]
    pub fn water(self, value: ArealDensity) -> String {
        let number = Dimension::Water.number(value.as_si(), self);
        let shows_nothing = number.bytes().all(|b| b == b'0' || b == b'.');
        match value.as_si() > 0.0 && shows_nothing {
            true => format!(
                "under {} {}",
                self.pick(0.01, 0.001),
                Dimension::Water.unit(self)
            ),
            false => Dimension::Water.show(value.as_si(), self),
        }
    }

    /// The same without its unit, for small places: `<0.01` of what is too small for the last decimal.
    #[must_use]
    pub fn water_number(self, value: ArealDensity) -> String {
        let number = Dimension::Water.number(value.as_si(), self);
        let shows_nothing = number.bytes().all(|b| b == b'0' || b == b'.');
        match value.as_si() > 0.0 && shows_nothing {
            true => format!("<{}", self.pick(0.01, 0.001)),
            false => number,
        }
    }

    /// A vapor flow given in kg/(m²·s) as water in 30 days.
    #[must_use]
    pub fn water_per_month(self, flow: f64) -> String {
        let water = self.water(ArealDensity::from_si(flow * 30.0 * 86_400.0));
        format!("{water} in 30 days")
    }

    /// The unit of prices per area, such as `USD/ft²`.
    #[must_use]
    pub fn price_per_area_unit(self, currency: Currency) -> String {
        format!("{}/{}", currency.code(), Dimension::Area.unit(self))
    }

    /// A price per m² in the reader's unit, two decimals.
    #[must_use]
    pub fn price_per_area_number(self, per_m2: f64) -> String {
        fixed(per_m2 / Dimension::Area.value(1.0, self), 2)
    }
}

/// R of one inch of a conductivity, W/(m·K); metals have more decimals, else they would show nothing.
fn r_per_inch(si: f64) -> String {
    let r = unit::BTU_INCH / si;
    fixed(r, if r < 0.1 { 4 } else { 2 })
}

/// A pitch as roofers say it, per 12 of run.
///
/// ```
/// use dewmargin::quantity::{Pitch, pitch_words};
/// assert_eq!(pitch_words(Pitch::from_ratio(0.125)), "1.5 in 12");
/// ```
#[must_use]
pub fn pitch_words(value: Pitch) -> String {
    let text = fixed(value.as_ratio() * 12.0, 2);
    let text = text.trim_end_matches('0').trim_end_matches('.');
    format!("{text} in 12")
}

/// A share as percent with one decimal.
///
/// ```
/// assert_eq!(dewmargin::quantity::percent(0.123), "12.3 %");
/// ```
#[must_use]
pub fn percent(share: f64) -> String {
    format!("{} %", fixed(share * 100.0, 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    const OURS: Style = Style {
        units: UnitSystem::Imperial,
    };

    fn both(say: impl Fn(Style) -> String) -> [String; 2] {
        [say(OURS), say(OURS.other())]
    }

    #[test]
    fn margins_have_a_sign() {
        let margin = |k| OURS.margin(TemperatureDifference::from_kelvin(k));
        assert_eq!(margin(10.0), "+18.0 °F");
        assert_eq!(margin(-10.0), "−18.0 °F");
        assert_eq!(margin(-0.01), "0.0 °F");
    }

    #[test]
    fn water_per_area() {
        let water = |si| both(|style| style.water(ArealDensity::from_si(si)));
        assert_eq!(water(0.1), ["0.33 oz/ft²", "0.100 kg/m²"]);
        assert_eq!(water(1.0), ["3.28 oz/ft²", "1.000 kg/m²"]);
        assert_eq!(water(0.0), ["0.00 oz/ft²", "0.000 kg/m²"]);
        assert_eq!(water(1e-5), ["under 0.01 oz/ft²", "under 0.001 kg/m²"]);
    }

    #[test]
    fn measures_that_are_added_up() {
        let measure = |inches: f64| both(|style| style.measure(Length::from_m(inches * 0.0254)));
        assert_eq!(measure(99.5), ["99-1/2 in", "2527.3 mm"]);
        assert_eq!(measure(0.0396), ["0.040 in", "1.0 mm"]);
    }

    // 1 W/m is 1.0400 Btu/(h·ft); 1 W/(m·K) is 0.57779 Btu/(h·ft·°F).
    #[test]
    fn error_bars() {
        assert_eq!(
            OURS.with_bar(Dimension::HeatFlowByLength, 100.0, 1.0),
            "104.00 ± 1.040 Btu/h·ft (100.00 ± 1.000 W/m)"
        );
        assert_eq!(OURS.error_bar_number(0.001), "0.01");
        assert_eq!(OURS.error_bar_number(0.1), "0.18");
        assert_eq!(OURS.error_bar_number(1.0), "1.8");
        assert_eq!(OURS.error_bar_number(1.01), "1.9");
    }

    // R per inch is 0.1442279 over W/(m·K): 0.144228 / 0.026 = 5.547, / 0.0222 = 6.497.
    #[test]
    fn a_range_of_conductivities_is_a_range_of_r() {
        assert_eq!(
            both(|style| style.conductivity_range([0.0222, 0.026])),
            ["R 5.55 to 6.50 per inch", "0.0222 to 0.0260 W/mK"]
        );
        // Carbon steel, 43 to 62 W/(m·K).
        assert_eq!(
            OURS.conductivity_range([43.0, 62.0]),
            "R 0.0023 to 0.0034 per inch"
        );
    }
}
