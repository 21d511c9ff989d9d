//! Printing a house: areas, runs, weights, heat loss per degree, pitch.

use super::{
    Area, ArealDensity, Density, Length, LinearTransmittance, Mass, Pitch, PointTransmittance,
    Style, UnitSystem, fixed, unit,
};

impl Style {
    fn of<T>(self, imperial: T, metric: T) -> T {
        match self.units {
            UnitSystem::Imperial => imperial,
            UnitSystem::Metric => metric,
        }
    }

    /// The unit of areas: `ft²` or `m²`.
    #[must_use]
    pub fn area_unit(self) -> &'static str {
        self.of("ft²", "m²")
    }

    /// An area without its unit: a tenth of a ft², a hundredth of a m².
    #[must_use]
    pub fn area_number(self, value: Area) -> String {
        self.of(
            fixed(value.as_m2() / unit::SQUARE_FOOT, 1),
            fixed(value.as_m2(), 2),
        )
    }

    /// An area with its unit.
    #[must_use]
    pub fn area(self, value: Area) -> String {
        format!("{} {}", self.area_number(value), self.area_unit())
    }

    /// The unit of runs along an edge: `ft` or `m`.
    #[must_use]
    pub fn run_unit(self) -> &'static str {
        self.of("ft", "m")
    }

    /// A run along an edge without its unit, two decimals.
    #[must_use]
    pub fn run_number(self, value: Length) -> String {
        fixed(value.as_m() / self.of(unit::FOOT, 1.0), 2)
    }

    /// A run along an edge with its unit.
    #[must_use]
    pub fn run(self, value: Length) -> String {
        format!("{} {}", self.run_number(value), self.run_unit())
    }

    /// A measure of the house to be added up by hand: sixteenths of an inch where they fit, else
    /// thousandths; tenths of a millimeter.
    #[must_use]
    pub fn measure(self, value: Length) -> String {
        if self.units == UnitSystem::Metric {
            return format!("{} mm", fixed(value.as_m() * 1e3, 1));
        }
        let inches = value.as_m() / unit::INCH;
        let sixteenths = (inches * 16.0).round() / 16.0;
        match (inches - sixteenths).abs() < 1e-6 && sixteenths >= 0.0625 {
            true => super::inches(value),
            false => format!("{} in", fixed(inches, 3)),
        }
    }

    /// The unit of weights: `lb` or `kg`.
    #[must_use]
    pub fn mass_unit(self) -> &'static str {
        self.of("lb", "kg")
    }

    /// A weight without its unit: whole pounds, or tenths of a kilogram.
    #[must_use]
    pub fn mass_number(self, value: Mass) -> String {
        self.of(
            fixed(value.as_kg() / unit::POUND, 0),
            fixed(value.as_kg(), 1),
        )
    }

    /// A weight with its unit.
    #[must_use]
    pub fn mass(self, value: Mass) -> String {
        format!("{} {}", self.mass_number(value), self.mass_unit())
    }

    /// A weight without its unit to be added up by hand: tenths of a pound, hundredths of a kilogram.
    #[must_use]
    pub fn mass_fine(self, value: Mass) -> String {
        self.of(
            fixed(value.as_kg() / unit::POUND, 1),
            fixed(value.as_kg(), 2),
        )
    }

    /// A weight per area with two decimals more than in overviews: a membrane's isn't nothing.
    #[must_use]
    pub fn areal_density_fine(self, value: ArealDensity) -> String {
        self.of(
            format!(
                "{} lb/ft²",
                fixed(value.as_si() / unit::POUND_PER_SQUARE_FOOT, 3)
            ),
            format!("{} kg/m²", fixed(value.as_si(), 3)),
        )
    }

    /// The unit of densities: `lb/ft³` or `kg/m³`.
    #[must_use]
    pub fn density_unit(self) -> &'static str {
        self.of("lb/ft³", "kg/m³")
    }

    /// A density without its unit.
    #[must_use]
    pub fn density_number(self, value: Density) -> String {
        self.of(
            fixed(value.as_si() / unit::POUND_PER_CUBIC_FOOT, 2),
            fixed(value.as_si(), 1),
        )
    }

    /// The unit of heat loss per degree: `Btu/h·°F` or `W/K`.
    #[must_use]
    pub fn heat_loss_unit(self) -> &'static str {
        self.of("Btu/h·°F", "W/K")
    }

    /// Heat loss per degree, given in W/K, without its unit.
    #[must_use]
    pub fn heat_loss_number(self, watts: f64) -> String {
        self.of(fixed(watts / unit::BTU_PER_HOUR_DEGREE, 2), fixed(watts, 2))
    }

    /// Heat loss per degree, given in W/K, with its unit.
    #[must_use]
    pub fn heat_loss(self, watts: f64) -> String {
        format!("{} {}", self.heat_loss_number(watts), self.heat_loss_unit())
    }

    /// A linear thermal transmittance without its unit.
    #[must_use]
    pub fn linear_transmittance_number(self, value: LinearTransmittance) -> String {
        self.of(
            fixed(value.as_si() / unit::BTU_PER_FOOT, 4),
            fixed(value.as_si(), 4),
        )
    }

    /// The unit of a linear thermal transmittance.
    #[must_use]
    pub fn linear_transmittance_unit(self) -> &'static str {
        self.of("Btu/h·ft·°F", "W/mK")
    }

    /// A point thermal transmittance without its unit.
    #[must_use]
    pub fn point_transmittance_number(self, value: PointTransmittance) -> String {
        self.of(
            fixed(value.as_si() / unit::BTU_PER_HOUR_DEGREE, 5),
            fixed(value.as_si(), 5),
        )
    }

    /// A rate of heat as whole Btu/h, or whole watts.
    #[must_use]
    pub fn heat_rate(self, watts: f64) -> String {
        self.of(
            format!("{} Btu/h", fixed(watts / unit::BTU_PER_HOUR, 0)),
            format!("{} W", fixed(watts, 0)),
        )
    }
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

    #[test]
    fn both_units() {
        let area = Area::from_m2(16.350_935_04);
        assert_eq!(OURS.area(area), "176.0 ft²");
        assert_eq!(OURS.other().area(area), "16.35 m²");
        assert_eq!(OURS.mass(Mass::from_kg(4_535.923_7)), "10000 lb");
        assert_eq!(OURS.run(Length::from_m(6.7056)), "22.00 ft");
        assert_eq!(OURS.measure(Length::from_m(99.75 * 0.0254)), "99-3/4 in");
        assert_eq!(OURS.measure(Length::from_m(0.0396 * 0.0254)), "0.040 in");
        assert_eq!(OURS.heat_loss(0.527_527_926_4), "1.00 Btu/h·°F");
        assert_eq!(OURS.other().heat_loss(1.0), "1.00 W/K");
    }
}
