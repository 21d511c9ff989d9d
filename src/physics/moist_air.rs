//! Saturation pressure and dew point of moist air.

use crate::quantity::{Pressure, RelativeHumidity, Temperature};

/// Saturation pressure at 0 °C, Pa.
const P0: f64 = 610.5;
/// Coefficients over water: dimensionless, °C.
const WATER: (f64, f64) = (17.269, 237.3);
/// Coefficients over ice: dimensionless, °C.
const ICE: (f64, f64) = (21.875, 265.5);

/// Saturation vapor pressure of air over water, or over ice below 0 °C.
///
/// ```text
/// θ ≥ 0 °C   p_sat = 610.5 exp(17.269 θ / (237.3 + θ))
/// θ < 0 °C   p_sat = 610.5 exp(21.875 θ / (265.5 + θ))
/// ```
/// θ temperature in °C; p_sat in Pa.
///
/// Source: ISO 13788, annex on the relations of temperature and vapor pressure (from memory;
/// held against IAPWS and the ASHRAE formulas in `tests/published`).
/// Valid: −40 °C to +60 °C; within 0.2 % of IAPWS-95 from 0 to 40 °C, 1.1 % at −30 °C.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::{physics::moist_air::saturation_vapor_pressure, quantity::Temperature};
/// // 20 °C: 2336.95 Pa.
/// let p = saturation_vapor_pressure(Temperature::from_celsius(20.0));
/// assert!((p.as_pa() - 2336.95).abs() < 0.01);
/// ```
#[must_use]
pub fn saturation_vapor_pressure(temperature: Temperature) -> Pressure {
    let theta = temperature.as_celsius();
    let (a, b) = if theta < 0.0 { ICE } else { WATER };
    Pressure::from_pa(P0 * libm::exp(a * theta / (b + theta)))
}

/// Dew point (frost point below 0 °C) of air with a given vapor pressure.
///
/// ```text
/// L = ln(p / 610.5)
/// p ≥ 610.5 Pa   θ = 237.3 L / (17.269 − L)
/// p < 610.5 Pa   θ = 265.5 L / (21.875 − L)
/// ```
/// p vapor pressure in Pa; θ in °C.
///
/// Source: inverse of the ISO 13788 saturation formula (analytic).
/// Valid: 1 Pa to 20 kPa; pressures below 1 Pa are taken as 1 Pa, since dry air has no dew point.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::{physics::moist_air::dew_point, quantity::Pressure};
/// // 20 °C at 50 %: 1168.48 Pa, dew point 9.27 °C.
/// let theta = dew_point(Pressure::from_pa(1168.48));
/// assert!((theta.as_celsius() - 9.269).abs() < 0.001);
/// ```
#[must_use]
pub fn dew_point(vapor_pressure: Pressure) -> Temperature {
    let l = libm::log(vapor_pressure.as_pa().max(1.0) / P0);
    let (a, b) = if l < 0.0 { ICE } else { WATER };
    Temperature::from_celsius(b * l / (a - l))
}

/// Vapor pressure of air at a temperature and relative humidity.
///
/// ```text
/// p = φ p_sat(θ)
/// ```
/// φ relative humidity as a fraction; p in Pa.
///
/// Source: definition of relative humidity, ISO 13788.
/// Valid: 0 to 1; below 0 °C the humidity counts over ice.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::{physics::moist_air::vapor_pressure, quantity::{RelativeHumidity, Temperature}};
/// let p = vapor_pressure(Temperature::from_celsius(20.0), RelativeHumidity::from_fraction(0.5));
/// assert!((p.as_pa() - 1168.48).abs() < 0.01);
/// ```
#[must_use]
pub fn vapor_pressure(temperature: Temperature, humidity: RelativeHumidity) -> Pressure {
    let saturation = saturation_vapor_pressure(temperature);
    Pressure::from_pa(humidity.as_fraction() * saturation.as_pa())
}

/// Slope of the saturation curve where it passes through a pressure.
///
/// ```text
/// dp/dθ = p · a b / (b + θ)²      with a, b of the branch of the saturation formula
/// ```
/// p in Pa, θ its dew point in °C; slope in Pa/K.
///
/// Source: derivative of the ISO 13788 saturation formula (analytic).
/// Valid: −40 °C to +60 °C.
/// Departure: none; the slope jumps at 0 °C, where the two branches meet.
///
/// # Example
/// ```
/// # use dewmargin::physics::moist_air::saturation_slope;
/// # use dewmargin::quantity::{Pressure, Temperature};
/// let slope = saturation_slope(Temperature::from_celsius(20.0), Pressure::from_pa(2336.95));
/// assert!((slope - 144.65).abs() < 0.05);
/// ```
#[must_use]
pub fn saturation_slope(temperature: Temperature, saturation: Pressure) -> f64 {
    let theta = temperature.as_celsius();
    let (a, b) = if theta < 0.0 { ICE } else { WATER };
    saturation.as_pa() * a * b / ((b + theta) * (b + theta))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    #[test]
    fn dew_point_inverts_saturation_over_the_whole_range() {
        for step in -400..=600 {
            let theta = Temperature::from_celsius(f64::from(step) / 10.0);
            let back = dew_point(saturation_vapor_pressure(theta));
            assert_abs_diff_eq!(back.as_celsius(), theta.as_celsius(), epsilon = 1e-10);
        }
    }

    #[test]
    fn the_branches_meet_at_freezing() {
        let just_below = saturation_vapor_pressure(Temperature::from_celsius(-1e-9));
        assert_abs_diff_eq!(just_below.as_pa(), P0, epsilon = 1e-6);
    }
}
