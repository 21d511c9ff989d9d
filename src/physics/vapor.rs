//! Vapor diffusion through layers.

use crate::quantity::{Length, Permeability, Permeance, unit};

/// Resistance of a layer to vapor.
///
/// ```text
/// Z = d / δ
/// ```
/// d thickness in m; δ permeability in kg/(m·s·Pa); Z in m²·s·Pa/kg, infinite for δ = 0.
///
/// Source: Fick's law for a plane layer, as in ISO 13788.
/// Valid: d > 0.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::vapor::layer_vapor_resistance;
/// # use dewmargin::quantity::{Length, Permeability};
/// let z = layer_vapor_resistance(Length::from_m(0.012), Permeability::from_si(1.44e-12));
/// assert!((1.0 / z - 1.2e-10).abs() < 1e-16); // 120 ng/(s·m²·Pa), plywood at 50 %
/// ```
#[must_use]
pub fn layer_vapor_resistance(thickness: Length, permeability: Permeability) -> f64 {
    thickness.as_m() / permeability.as_si()
}

/// Resistance of a sheet or film to vapor.
///
/// ```text
/// Z = 1 / W
/// ```
/// W permeance in kg/(s·m²·Pa); Z in m²·s·Pa/kg, infinite for W = 0.
///
/// Source: definition of permeance, ASTM E96.
/// Valid: W ≥ 0.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::vapor::sheet_vapor_resistance;
/// # use dewmargin::quantity::Permeance;
/// assert!(sheet_vapor_resistance(Permeance::from_si(0.0)).is_infinite());
/// ```
#[must_use]
pub fn sheet_vapor_resistance(permeance: Permeance) -> f64 {
    1.0 / permeance.as_si()
}

/// Equivalent air layer thickness of a vapor resistance.
///
/// ```text
/// s_d = δ₀ Z        δ₀ = 2·10⁻¹⁰ kg/(m·s·Pa)
/// ```
/// Z in m²·s·Pa/kg; s_d in m.
///
/// Source: ISO 13788 (δ₀ from memory).
/// Valid: Z ≥ 0.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::vapor::sd_value;
/// # use dewmargin::quantity::unit::PERM;
/// assert!((sd_value(1.0 / PERM) - 3.4957).abs() < 1e-4); // one perm
/// ```
#[must_use]
pub fn sd_value(vapor_resistance: f64) -> f64 {
    unit::AIR_PERMEABILITY * vapor_resistance
}

/// Density of vapor flow between two planes.
///
/// ```text
/// g = (p₁ − p₂) / Z
/// ```
/// p in Pa; Z in m²·s·Pa/kg; g in kg/(m²·s), zero through a perfect barrier.
///
/// Source: ISO 13788, vapor flow rate.
/// Valid: Z > 0.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::vapor::vapor_flux;
/// // 200 Pa over an s_d of 1 m.
/// assert!((vapor_flux(500.0, 300.0, 1.0 / 2.0e-10) - 4.0e-8).abs() < 1e-20);
/// assert_eq!(vapor_flux(500.0, 300.0, f64::INFINITY), 0.0);
/// ```
#[must_use]
pub fn vapor_flux(from_pressure: f64, to_pressure: f64, vapor_resistance: f64) -> f64 {
    (from_pressure - to_pressure) / vapor_resistance
}

/// Resistance to vapor of a layer whose permeance follows its humidity.
///
/// ```text
/// ln Z(φ) = ln Z₁ + (ln Z₂ − ln Z₁)(φ − φ₁)/(φ₂ − φ₁)
/// ```
/// φ mean relative humidity of the layer as a fraction; Z in m²·s·Pa/kg. The logarithm runs
/// straight between the points because the measured permeance of wood-based panels grows about
/// exponentially with humidity (dry, mid and damp cups lie near a line on a logarithmic scale).
/// Outside the points the nearest value is kept: nobody measured there, and an exponential
/// carried on grows without limit.
///
/// Source: exponential interpolation between dry, mid and damp cup values (common practice).
/// Valid: at least one point, rising in humidity, resistances positive and finite.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::vapor::resistance_at;
/// let plywood = [(0.25, 1.0e11), (0.75, 1.0e10)];
/// assert!((resistance_at(&plywood, 0.5) / 1.0e21_f64.sqrt() - 1.0).abs() < 1e-12);
/// assert!((resistance_at(&plywood, 0.95) / 1.0e10 - 1.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn resistance_at(points: &[(f64, f64)], humidity: f64) -> f64 {
    libm::exp(straight(points, humidity, libm::log))
}

/// The same with the logarithms taken beforehand: for solvers that ask often.
///
/// ```text
/// ln Z(φ), straight between the points (φ, ln Z)
/// ```
/// φ a fraction; Z in m²·s·Pa/kg.
///
/// Source: as [`resistance_at`].
/// Valid: at least one point, rising in humidity.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::vapor::log_resistance_at;
/// assert_eq!(log_resistance_at(&[(0.25, 26.0), (0.75, 24.0)], 0.5), 25.0);
/// ```
#[must_use]
pub fn log_resistance_at(points: &[(f64, f64)], humidity: f64) -> f64 {
    straight(points, humidity, |log| log)
}

/// A straight line between the points that enclose `humidity`, of `log` of their values.
fn straight(points: &[(f64, f64)], humidity: f64, log: impl Fn(f64) -> f64) -> f64 {
    let above = points.iter().position(|(at, _)| *at >= humidity);
    match above {
        None => points.last().map_or(f64::NAN, |(_, z)| log(*z)),
        Some(0) => log(points[0].1),
        Some(upper) => {
            let ((low, z1), (high, z2)) = (points[upper - 1], points[upper]);
            let (z1, z2) = (log(z1), log(z2));
            z1 + (z2 - z1) * (humidity - low) / (high - low)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use rstest::rstest;

    /// Straight from point to point, by hand: ln Z falls by 2 from 0.2 to 0.5, then by 4 to 0.8.
    #[rstest]
    #[case::below_all(0.1, 27.0)]
    #[case::at_the_first(0.2, 27.0)]
    #[case::in_the_first_stretch(0.35, 26.0)]
    #[case::at_the_bend(0.5, 25.0)]
    #[case::in_the_second_stretch(0.65, 23.0)]
    #[case::above_all(0.9, 21.0)]
    fn a_bent_curve_is_straight_between_its_points(#[case] humidity: f64, #[case] log: f64) {
        let points = [(0.2, 27.0), (0.5, 25.0), (0.8, 21.0)];
        assert_relative_eq!(log_resistance_at(&points, humidity), log, epsilon = 1e-12);
        let plain = points.map(|(at, log)| (at, libm::exp(log)));
        let resistance = resistance_at(&plain, humidity);
        assert_relative_eq!(resistance, libm::exp(log), max_relative = 1e-12);
    }
}
