//! The path of a strip that a detail shows, at the detail's temperatures.
//!
//! The strip alone is a hand-check: heat runs along steel, and no path across the floor sees that.
//! Where a detail shows the strip, its temperature factors of the room's surface and of the wood at
//! the steel stand on the path instead, so that the year, the drying and the margins there are those
//! of the detail. Between those two places, and from the wood outward, the temperature falls in
//! proportion to the layers' own resistances:
//!
//! ```text
//! R_si' = (1 − f_s) R      R_k' = R_k (f_s − f_w) R / ΣR    room surface to wood
//!                          R_k' = R_k f_w R / ΣR            wood to outdoor air, film included
//! ```
//! f_s and f_w the detail's factors, R the path's own total, so that heat flows as much as before.
//! Source: θ = θ_e + f (θ_i − θ_e), the definition of the temperature factor (ISO 10211).

use super::profile::{Boundary, Profile, Slab, SlabHeat};
use crate::quantity::ThermalResistance;

/// Factors this close together would leave a layer without resistance.
const LEAST: f64 = 1e-6;

/// Temperature factors that a detail has over a strip: 1 at the room's air, 0 at outdoor air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StripFactors {
    /// Of the room's coldest surface there.
    pub surface: f64,
    /// Of the coldest face of the wood at the steel.
    pub wood: f64,
}

/// A path's layers and films with the resistances that give a detail's temperatures.
pub(super) struct Shown {
    /// The layers.
    pub(super) slabs: Vec<Slab>,
    interior_film: ThermalResistance,
    exterior_film: ThermalResistance,
}

impl Shown {
    /// The air of a boundary between the films of the detail.
    pub(super) fn within(&self, boundary: Boundary) -> Boundary {
        Boundary {
            interior_film: self.interior_film,
            exterior_film: self.exterior_film,
            ..boundary
        }
    }
}

/// A path as a detail shows it; `wood` is the plane of the wood at the steel, the room's surface
/// where there is none.
pub(super) fn as_shown(
    slabs: &[Slab],
    own: &Profile,
    exterior_film: ThermalResistance,
    wood: Option<usize>,
    factors: StripFactors,
) -> Shown {
    let total = own.total_resistance.as_si();
    let resistance = |n: usize| own.resistances[n].as_si();
    let layers = |range: std::ops::Range<usize>| range.map(resistance).sum::<f64>();
    // Sheets without resistance over the wood leave it at the surface's temperature.
    let wood = wood.filter(|wood| layers(0..*wood) > 0.0).unwrap_or(0);
    let surface = factors.surface.clamp(2.0 * LEAST, 1.0 - LEAST);
    let at_wood = match wood {
        0 => surface,
        _ => factors.wood.clamp(LEAST, surface - LEAST),
    };
    let inner = match wood {
        0 => 0.0,
        _ => (surface - at_wood) * total / layers(0..wood),
    };
    let film = exterior_film.as_si();
    let outer = at_wood * total / (layers(wood..slabs.len()) + film);
    let scaled = |(n, slab): (usize, &Slab)| Slab {
        heat: SlabHeat::Fixed(ThermalResistance::from_si(
            resistance(n) * if n < wood { inner } else { outer },
        )),
        ..slab.clone()
    };
    Shown {
        slabs: slabs.iter().enumerate().map(scaled).collect(),
        interior_film: ThermalResistance::from_si((1.0 - surface) * total),
        exterior_film: ThermalResistance::from_si(film * outer),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::AirState;
    use crate::quantity::{RelativeHumidity, Temperature};
    use crate::solve::profile::solve_path;
    use approx::assert_abs_diff_eq;
    use rstest::rstest;

    fn slab(resistance: f64) -> Slab {
        Slab {
            heat: SlabHeat::Fixed(ThermalResistance::from_si(resistance)),
            vapor_resistance: 1e10,
            by_humidity: Vec::new(),
        }
    }

    fn boundary(celsius: f64) -> Boundary {
        let air = |celsius, humidity| AirState {
            temperature: Temperature::from_celsius(celsius),
            humidity: RelativeHumidity::from_fraction(humidity),
        };
        Boundary {
            indoor: air(20.0, 0.5),
            outdoor: air(celsius, 0.8),
            interior_film: ThermalResistance::from_si(0.17),
            exterior_film: ThermalResistance::from_si(0.04),
            interior_vapor_film: 0.0,
            exterior_vapor_film: 0.0,
        }
    }

    // θ = θ_e + f (θ_i − θ_e), by hand: 5 + 0.8 · 15 = 17 °C and 5 + 0.4 · 15 = 11 °C; at −9 °C
    // outdoors −9 + 0.8 · 29 = 14.2 °C and −9 + 0.4 · 29 = 2.6 °C.
    #[rstest]
    #[case(5.0, 17.0, 11.0)]
    #[case(-9.0, 14.2, 2.6)]
    fn surface_and_wood_have_the_details_temperatures(
        #[case] outdoor: f64,
        #[case] surface: f64,
        #[case] wood: f64,
    ) {
        let slabs = [slab(0.1), slab(0.15), slab(0.7), slab(0.0)];
        let own = solve_path(&slabs, &boundary(5.0));
        let factors = StripFactors {
            surface: 0.8,
            wood: 0.4,
        };
        let film = boundary(5.0).exterior_film;
        let shown = as_shown(&slabs, &own, film, Some(2), factors);
        let profile = solve_path(&shown.slabs, &shown.within(boundary(outdoor)));
        let at = |plane: usize| profile.planes[plane].temperature.as_celsius();
        assert_abs_diff_eq!(at(0), surface, epsilon = 1e-9);
        assert_abs_diff_eq!(at(2), wood, epsilon = 1e-9);
        // In proportion between them: 0.1 of 0.25.
        assert_abs_diff_eq!(at(1), surface - 0.4 * (surface - wood), epsilon = 1e-9);
        assert_abs_diff_eq!(
            profile.total_resistance.as_si(),
            own.total_resistance.as_si(),
            epsilon = 1e-12
        );
    }

    #[test]
    fn sheets_without_resistance_divide_by_nothing() {
        let slabs = [slab(0.0), slab(0.5)];
        let own = solve_path(&slabs, &boundary(5.0));
        let factors = StripFactors {
            surface: 0.0,
            wood: 1.0,
        };
        let shown = as_shown(&slabs, &own, boundary(5.0).exterior_film, Some(1), factors);
        let profile = solve_path(&shown.slabs, &shown.within(boundary(5.0)));
        let finite = |plane: &crate::solve::PlaneState| plane.temperature.as_celsius().is_finite();
        assert!(profile.planes.iter().all(finite));
    }
}
