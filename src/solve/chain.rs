//! Temperatures along a chain of resistances; conductivities that depend on temperature are
//! iterated until no plane moves any more.

use super::profile::{Boundary, Slab, SlabHeat};
use crate::physics::heat::{conductivity_at, layer_resistance};
use crate::quantity::{Temperature, ThermalResistance};

/// Iterations allowed for temperature-dependent conductivity; convergence takes three to six.
const MAX_ITERATIONS: usize = 50;
/// Largest move of a plane between iterations that counts as converged, K.
const CONVERGED: f64 = 1e-9;

/// What the heat solution hands on: everything but vapor.
pub(super) struct Heat {
    pub(super) temperatures: Vec<f64>,
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
    let mut heat = Heat {
        temperatures: Vec::with_capacity(slabs.len() + 1),
        resistances: slabs.iter().map(|slab| resistance(slab, halfway)).collect(),
        total: 0.0,
        flux: 0.0,
        converged: true,
    };
    heat.chain(boundary);
    let varies = |slab: &Slab| matches!(slab.heat, SlabHeat::Curve(..));
    if !slabs.iter().any(varies) {
        return heat;
    }
    let mut before = Vec::with_capacity(slabs.len() + 1);
    for _ in 0..MAX_ITERATIONS {
        std::mem::swap(&mut before, &mut heat.temperatures);
        for (n, slab) in slabs.iter().enumerate().filter(|(_, slab)| varies(slab)) {
            let mean = Temperature::from_celsius(0.5 * (before[n] + before[n + 1]));
            heat.resistances[n] = resistance(slab, mean);
        }
        heat.chain(boundary);
        let moves = heat.temperatures.iter().zip(&before);
        let most = moves.fold(0.0, |most: f64, (now, before)| {
            most.max((now - before).abs())
        });
        if most < CONVERGED {
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

impl Heat {
    /// Temperatures from the resistances: all heat that enters leaves.
    fn chain(&mut self, boundary: &Boundary) {
        let indoor = boundary.indoor.temperature.as_celsius();
        let outdoor = boundary.outdoor.temperature.as_celsius();
        let film = boundary.interior_film.as_si();
        let within = self.resistances.iter();
        let to_outer = within.fold(film, |sum, resistance| sum + resistance.as_si());
        self.total = to_outer + boundary.exterior_film.as_si();
        self.flux = (indoor - outdoor) / self.total;
        let flux = self.flux;
        let mut sum = film;
        self.temperatures.clear();
        self.temperatures.push(-flux * sum + indoor);
        let planes = self.resistances.iter().map(|resistance| {
            sum += resistance.as_si();
            -flux * sum + indoor
        });
        self.temperatures.extend(planes);
    }
}
