//! Heat through bolts, screws and rods that cross a layer of insulation.

use crate::quantity::{Area, Conductivity, Length, PointTransmittance, ThermalResistance};

/// Least conductivity of a fastener that is corrected for, W/(m·K).
pub const LEAST_CONDUCTIVITY: f64 = 1.0;

/// What one fastener adds to the heat loss: ΔU_f of ISO 6946 for one piece, ΔU_f = n_f·χ.
///
/// ```text
/// χ = α λ_f A_f / d_1 · (R_1 / R_T)²
/// α = 0.8 all through the layer,  0.8 d_1/d_0 where the head is recessed
/// ```
/// λ_f conductivity and A_f section of the fastener, d_1 its length in the layer of insulation, d_0
/// that layer's thickness, R_1 the resistance of as much of the layer as it goes through, R_T the
/// total resistance without bridges; W/K.
///
/// Source: ISO 6946, annex on corrections, mechanical fasteners (from memory).
/// Valid: λ_f of 1 W/(m·K) or more, below that nothing is added; not where both ends touch metal
/// sheets: then only a calculation in three dimensions tells (`None` isn't returned for that, the
/// caller must know). `None` without a thickness, or with d_1 beyond d_0 or R_1 beyond R_T.
/// Departure: none. For a recessed fastener the 0.8 d_1/d_0 over d_1 leaves 0.8/d_0; were it d_1/d_0
/// over d_0, as it is sometimes recalled, the result would be smaller: this one is on the safe side.
///
/// # Example
/// ```
/// # use dewmargin::physics::fastener::fastener_transmittance;
/// # use dewmargin::quantity::{Area, Conductivity, Length, ThermalResistance};
/// // Steel of 4.8 mm through 100 mm of 0.035 W/mK; 5 of them on a m² add 0.0298 W/m²K.
/// let section = Area::from_m2(std::f64::consts::PI / 4.0 * 0.0048 * 0.0048);
/// let depth = Length::from_m(0.1);
/// let chi = fastener_transmittance(
///     Conductivity::from_si(50.0),
///     section,
///     (depth, depth),
///     (ThermalResistance::from_si(0.1 / 0.035), ThermalResistance::from_si(3.1471)),
/// );
/// assert!((5.0 * chi.unwrap().as_si() - 0.02983).abs() < 1e-5);
/// ```
#[must_use]
pub fn fastener_transmittance(
    conductivity: Conductivity,
    section: Area,
    (depth, thickness): (Length, Length),
    (penetrated, total): (ThermalResistance, ThermalResistance),
) -> Option<PointTransmittance> {
    let (depth, thickness) = (depth.as_m(), thickness.as_m());
    let (penetrated, total) = (penetrated.as_si(), total.as_si());
    let is_inside = depth > 0.0 && depth <= thickness * (1.0 + 1e-9);
    if !is_inside || total <= 0.0 || penetrated > total {
        return None;
    }
    if conductivity.as_si() < LEAST_CONDUCTIVITY {
        return Some(PointTransmittance::from_si(0.0));
    }
    let alpha = fastener_coefficient(depth, thickness);
    let share = penetrated / total;
    let along = alpha * conductivity.as_si() * section.as_m2() / depth;
    Some(PointTransmittance::from_si(along * share * share))
}

/// The coefficient α of [`fastener_transmittance`]; depth and thickness in m.
///
/// Source: ISO 6946, annex on corrections (from memory).
/// Valid: a depth of at most the thickness.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::fastener::fastener_coefficient;
/// assert_eq!(fastener_coefficient(0.1, 0.1), 0.8);
/// assert_eq!(fastener_coefficient(0.05, 0.1), 0.4);
/// ```
#[must_use]
pub fn fastener_coefficient(depth: f64, thickness: f64) -> f64 {
    0.8 * (depth / thickness).min(1.0)
}
