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

/// Saturation vapor pressures of many temperatures at once, the same formula as
/// [`saturation_vapor_pressure`].
///
/// ```text
/// θ ≥ 0 °C   p_sat = 610.5 exp(17.269 θ / (237.3 + θ))
/// θ < 0 °C   p_sat = 610.5 exp(21.875 θ / (265.5 + θ))
/// ```
/// θ in °C, p_sat in Pa. The loop holds no branch and no call, so that it runs on several numbers
/// per instruction: a year needs some hundreds of these, and little else costs as much.
///
/// Source: ISO 13788, as [`saturation_vapor_pressure`]; exponential: range reduction by ln 2 in
/// two parts and the rational approximation of Moshier, Methods and Programs for Mathematical
/// Functions (1989) (coefficients from memory; held against `libm` to 1e-14).
/// Valid: −200 °C to +1000 °C; both slices of one length, the shorter one counts.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::moist_air::saturation_vapor_pressures;
/// let mut p = [0.0; 2];
/// saturation_vapor_pressures(&[20.0, -10.0], &mut p);
/// assert!((p[0] - 2336.95).abs() < 0.01 && (p[1] - 259.33).abs() < 0.01);
/// ```
pub fn saturation_vapor_pressures(celsius: &[f64], pressures: &mut [f64]) {
    for (theta, pressure) in celsius.iter().zip(pressures) {
        let frost = *theta < 0.0;
        let a = if frost { ICE.0 } else { WATER.0 };
        let b = if frost { ICE.1 } else { WATER.1 };
        *pressure = P0 * exponential(a * theta / (b + theta));
    }
}

/// e^x without branches, for |x| < 700.
#[inline(always)]
fn exponential(x: f64) -> f64 {
    // 1.5·2^52: adding it leaves the nearest whole number in the last bits of the sum.
    const ROUND: f64 = 6_755_399_441_055_744.0;
    // ln 2 in two parts, the first exact in a few bits.
    const LN2_HIGH: f64 = 6.931_457_519_531_25e-1;
    const LN2_LOW: f64 = 1.428_606_820_309_417_2e-6;
    let shifted = x * std::f64::consts::LOG2_E + ROUND;
    let whole = shifted - ROUND;
    let r = x - whole * LN2_HIGH - whole * LN2_LOW;
    // e^r = 1 + 2 r P(r²) / (Q(r²) − r P(r²))
    let square = r * r;
    let p = r * ((1.261_771_930_748_105_9e-4 * square + 3.029_944_077_074_419_6e-2) * square + 1.0);
    let q = ((3.001_985_051_386_644_6e-6 * square + 2.524_483_403_496_841e-3) * square
        + 2.272_655_482_081_550_3e-1)
        * square
        + 2.0;
    let power = f64::from_bits((shifted.to_bits().wrapping_add(1023)) << 52);
    (1.0 + 2.0 * p / (q - p)) * power
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
    fn many_at_once_agree_with_one_at_a_time() {
        let celsius: Vec<f64> = (-4000..=10_000)
            .map(|n| f64::from(n) / 50.0 + 1e-3)
            .collect();
        let mut many = vec![0.0; celsius.len()];
        saturation_vapor_pressures(&celsius, &mut many);
        for (theta, many) in celsius.iter().zip(many) {
            let one = saturation_vapor_pressure(Temperature::from_celsius(*theta)).as_pa();
            assert!(
                (many / one - 1.0).abs() < 1e-14,
                "{theta} °C: {many} and {one}"
            );
        }
    }

    // A few units in the last place over all the range it claims.
    #[test]
    fn the_exponential_agrees_with_libm() {
        for n in -69_900..=69_900 {
            let x = f64::from(n) / 100.0;
            let part = exponential(x) / libm::exp(x) - 1.0;
            assert!(part.abs() < 1e-15, "{x}: off by {part:e}");
        }
    }

    #[test]
    fn the_branches_meet_at_freezing() {
        let just_below = saturation_vapor_pressure(Temperature::from_celsius(-1e-9));
        assert_abs_diff_eq!(just_below.as_pa(), P0, epsilon = 1e-6);
    }
}
