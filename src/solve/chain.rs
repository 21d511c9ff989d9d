//! Temperatures along a chain of resistances; conductivities that depend on temperature are
//! iterated until no plane moves any more.

use nalgebra::DVector;

use super::profile::{Boundary, Slab, SlabHeat};
use crate::physics::heat::{conductivity_at, layer_resistance};
use crate::quantity::{Temperature, ThermalResistance};

/// Iterations allowed for temperature-dependent conductivity; convergence takes three to six.
const MAX_ITERATIONS: usize = 50;
/// Largest move of a plane between iterations that counts as converged, K.
const CONVERGED: f64 = 1e-9;

/// What the heat solution hands on: everything but vapor.
pub(super) struct Heat {
    pub(super) temperatures: DVector<f64>,
    pub(super) resistances: Vec<ThermalResistance>,
    pub(super) total: f64,
    pub(super) flux: f64,
    pub(super) converged: bool,
}

/// Plane temperatures, flux and resistances of a path.
pub(super) fn solve_heat(slabs: &[Slab], boundary: &Boundary) -> Heat {
    let (indoor, outdoor) = (boundary.indoor.temperature, boundary.outdoor.temperature);
    let halfway = Temperature::from_celsius(0.5 * (indoor.as_celsius() + outdoor.as_celsius()));
    let resistance = |slab: &Slab, mean: Temperature| match &slab.heat {
        SlabHeat::Fixed(r) => *r,
        SlabHeat::Curve(thickness, curve) => {
            layer_resistance(*thickness, conductivity_at(curve, mean))
        }
    };
    let mut resistances: Vec<_> = slabs.iter().map(|slab| resistance(slab, halfway)).collect();
    let mut heat = chain(resistances, boundary);
    let varies = slabs
        .iter()
        .any(|slab| matches!(slab.heat, SlabHeat::Curve(..)));
    if !varies {
        return heat;
    }
    for _ in 0..MAX_ITERATIONS {
        let before = heat.temperatures;
        let mean = |n: usize| Temperature::from_celsius(0.5 * (before[n] + before[n + 1]));
        resistances = slabs
            .iter()
            .enumerate()
            .map(|(n, slab)| resistance(slab, mean(n)))
            .collect();
        heat = chain(resistances, boundary);
        if (&heat.temperatures - &before).amax() < CONVERGED {
            return heat;
        }
    }
    Heat {
        converged: false,
        ..heat
    }
}

/// Plane temperatures alone, room surface first.
pub(super) fn plane_temperatures(slabs: &[Slab], boundary: &Boundary) -> Vec<Temperature> {
    let heat = solve_heat(slabs, boundary);
    let celsius = heat.temperatures.iter().copied();
    celsius.map(Temperature::from_celsius).collect()
}

/// θ = θ_i·1 − q·c for known resistances.
fn chain(resistances: Vec<ThermalResistance>, boundary: &Boundary) -> Heat {
    let indoor = boundary.indoor.temperature.as_celsius();
    let outdoor = boundary.outdoor.temperature.as_celsius();
    let mut sum = boundary.interior_film.as_si();
    let planes = resistances.len() + 1;
    let summed = DVector::from_iterator(
        planes,
        (0..planes).map(|n| {
            sum += if n == 0 {
                0.0
            } else {
                resistances[n - 1].as_si()
            };
            sum
        }),
    );
    let total = sum + boundary.exterior_film.as_si();
    let flux = (indoor - outdoor) / total;
    let mut temperatures = DVector::repeat(planes, indoor);
    temperatures.axpy(-flux, &summed, 1.0);
    Heat {
        temperatures,
        resistances,
        total,
        flux,
        converged: true,
    }
}
