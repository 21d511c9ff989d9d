//! Heat: surface films, air spaces, conductivity, the temperature factor.

use crate::quantity::{Conductivity, Length, Temperature, ThermalResistance};

/// Which way heat flows through a layer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direction {
    /// Upward: roofs in winter, floors in summer.
    Up,
    /// Sideways: walls.
    Horizontal,
    /// Downward: floors in winter, roofs in summer.
    Down,
}

/// Surface resistance at a room's surface.
///
/// ```text
/// up 0.10    horizontal 0.13    down 0.17    m²·K/W
/// ```
/// Source: ISO 6946, table of surface resistances (from memory; horizontal also seen).
/// Valid: plane surfaces of ordinary emittance in still air.
/// Departure: none. It also stands outside of a well ventilated air space, whose air is still
/// at the inner leaf.
///
/// # Example
/// ```
/// # use dewmargin::physics::heat::{Direction, interior_surface_resistance};
/// assert_eq!(interior_surface_resistance(Direction::Down).as_si(), 0.17);
/// ```
#[must_use]
pub fn interior_surface_resistance(direction: Direction) -> ThermalResistance {
    ThermalResistance::from_si(match direction {
        Direction::Up => 0.10,
        Direction::Horizontal => 0.13,
        Direction::Down => 0.17,
    })
}

/// Surface resistance at an outer surface: 0.04 m²·K/W in every direction.
///
/// Source: ISO 6946, table of surface resistances (from memory; also seen).
/// Valid: about 4 m/s of wind.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::heat::exterior_surface_resistance;
/// assert_eq!(exterior_surface_resistance().as_si(), 0.04);
/// ```
#[must_use]
pub fn exterior_surface_resistance() -> ThermalResistance {
    ThermalResistance::from_si(0.04)
}

/// Interior film by the handbook's table.
///
/// ```text
/// up R-0.61    horizontal R-0.68    down R-0.92    h·ft²·°F/Btu
/// ```
/// Source: ASHRAE Handbook—Fundamentals, surface films, still air (from memory; 0.61 seen in
/// ASHRAE 90.1-2016, appendix A).
/// Valid: non-reflective surfaces.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::heat::{Direction, interior_film_handbook};
/// assert!((interior_film_handbook(Direction::Horizontal).as_si() - 0.11975).abs() < 1e-4);
/// ```
#[must_use]
pub fn interior_film_handbook(direction: Direction) -> ThermalResistance {
    let r = match direction {
        Direction::Up => 0.61,
        Direction::Horizontal => 0.68,
        Direction::Down => 0.92,
    };
    ThermalResistance::from_si(r * crate::quantity::unit::R_VALUE)
}

/// Exterior film by the handbook's table, winter wind of 15 mph: R-0.17.
///
/// Source: ASHRAE Handbook—Fundamentals, surface films, and ASHRAE 90.1-2016, appendix A (seen).
/// Valid: winter; the summer value is R-0.25.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::heat::exterior_film_handbook;
/// assert!((exterior_film_handbook().as_si() - 0.02994).abs() < 1e-4);
/// ```
#[must_use]
pub fn exterior_film_handbook() -> ThermalResistance {
    ThermalResistance::from_si(0.17 * crate::quantity::unit::R_VALUE)
}

/// Thickness in m, then resistance up, horizontal, down in m²·K/W.
const AIR_SPACES: [(f64, f64, f64, f64); 9] = [
    (0.000, 0.00, 0.00, 0.00),
    (0.005, 0.11, 0.11, 0.11),
    (0.007, 0.13, 0.13, 0.13),
    (0.010, 0.15, 0.15, 0.15),
    (0.015, 0.16, 0.17, 0.17),
    (0.025, 0.16, 0.18, 0.19),
    (0.050, 0.16, 0.18, 0.21),
    (0.100, 0.16, 0.18, 0.22),
    (0.300, 0.16, 0.18, 0.23),
];

/// Thermal resistance of an unventilated air space of ordinary emittance.
///
/// ```text
/// d mm        0     5     7     10    15    25    50    100   300
/// up          0     0.11  0.13  0.15  0.16  0.16  0.16  0.16  0.16
/// horizontal  0     0.11  0.13  0.15  0.17  0.18  0.18  0.18  0.18
/// down        0     0.11  0.13  0.15  0.17  0.19  0.21  0.22  0.23   m²·K/W
/// ```
/// Source: ISO 6946, table for unventilated air layers; straight lines between (from memory).
/// Valid: 0 to 300 mm, both faces of high emittance.
/// Departure: beyond 300 mm the last value is kept; the standard then asks for a heat balance.
///
/// # Example
/// ```
/// # use dewmargin::physics::heat::{Direction, air_space_resistance};
/// # use dewmargin::quantity::Length;
/// let gap = air_space_resistance(Length::from_m(0.020), Direction::Horizontal);
/// assert!((gap.as_si() - 0.175).abs() < 1e-12); // halfway between 15 and 25 mm
/// ```
#[must_use]
pub fn air_space_resistance(thickness: Length, direction: Direction) -> ThermalResistance {
    let value = |row: &(f64, f64, f64, f64)| match direction {
        Direction::Up => row.1,
        Direction::Horizontal => row.2,
        Direction::Down => row.3,
    };
    let d = thickness.as_m();
    let upper = AIR_SPACES
        .iter()
        .position(|row| row.0 >= d)
        .unwrap_or(AIR_SPACES.len() - 1);
    if upper == 0 {
        return ThermalResistance::from_si(0.0);
    }
    let (low, high) = (&AIR_SPACES[upper - 1], &AIR_SPACES[upper]);
    let part = ((d - low.0) / (high.0 - low.0)).min(1.0);
    ThermalResistance::from_si(value(low) + part * (value(high) - value(low)))
}

/// Resistance of a plane layer.
///
/// ```text
/// R = d / λ
/// ```
/// d thickness in m; λ conductivity in W/(m·K); R in m²·K/W.
///
/// Source: ISO 6946, thermal resistance of homogeneous layers.
/// Valid: λ > 0.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::heat::layer_resistance;
/// # use dewmargin::quantity::{Conductivity, Length};
/// let r = layer_resistance(Length::from_m(0.14), Conductivity::from_si(0.038));
/// assert!((r.as_si() - 3.684).abs() < 5e-4);
/// ```
#[must_use]
pub fn layer_resistance(thickness: Length, conductivity: Conductivity) -> ThermalResistance {
    ThermalResistance::from_si(thickness.as_m() / conductivity.as_si())
}

/// Conductivity at a mean temperature, by straight lines between published points.
///
/// ```text
/// λ(θ) = λ₁ + (λ₂ − λ₁)(θ − θ₁)/(θ₂ − θ₁)
/// ```
/// θ mean temperature of the layer; λ in W/(m·K). Outside the published range the nearest
/// published value is kept.
///
/// Source: linear interpolation; the points carry their own sources in `materials/`.
/// Valid: a curve with at least one point, rising in temperature.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::heat::conductivity_at;
/// # use dewmargin::quantity::{Conductivity, Temperature};
/// let curve = [(4.0, 0.0346), (24.0, 0.0375)]
///     .map(|(t, k)| (Temperature::from_celsius(t), Conductivity::from_si(k)));
/// let k = conductivity_at(&curve, Temperature::from_celsius(14.0));
/// assert!((k.as_si() - 0.03605).abs() < 1e-12);
/// ```
#[must_use]
pub fn conductivity_at(curve: &[(Temperature, Conductivity)], mean: Temperature) -> Conductivity {
    let above = curve
        .iter()
        .position(|(temperature, _)| *temperature >= mean);
    match above {
        None => curve.last().map_or(Conductivity::from_si(0.0), |(_, k)| *k),
        Some(0) => curve[0].1,
        Some(upper) => {
            let ((t1, k1), (t2, k2)) = (curve[upper - 1], curve[upper]);
            let part = (mean - t1).as_kelvin() / (t2 - t1).as_kelvin();
            Conductivity::from_si(k1.as_si() + part * (k2.as_si() - k1.as_si()))
        }
    }
}

/// Temperature factor of an interior surface.
///
/// ```text
/// f_Rsi = (θ_si − θ_e) / (θ_i − θ_e)
/// ```
/// θ_si surface, θ_e outdoor, θ_i indoor temperature; dimensionless, 1 is as warm as the room.
///
/// Source: ISO 13788, definition of the temperature factor.
/// Valid: θ_i ≠ θ_e; `None` otherwise.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::heat::temperature_factor;
/// # use dewmargin::quantity::Temperature;
/// let [surface, outdoor, indoor] = [12.625, -5.0, 20.0].map(Temperature::from_celsius);
/// let f = temperature_factor(surface, outdoor, indoor).unwrap();
/// assert!((f - 0.705).abs() < 1e-12);
/// ```
#[must_use]
pub fn temperature_factor(
    surface: Temperature,
    outdoor: Temperature,
    indoor: Temperature,
) -> Option<f64> {
    let span = (indoor - outdoor).as_kelvin();
    (span.abs() > 1e-9).then(|| (surface - outdoor).as_kelvin() / span)
}
