//! Heat: symmetric, monotone, balanced, and the same by another method.

use dewmargin::quantity::ThermalResistance;
use dewmargin::solve::profile::{Boundary, Slab, solve_path};
use nalgebra::{DMatrix, DVector};
use proptest::prelude::*;

use super::{agree, climates, config, slabs, walls};
use crate::build_up::{slab, transmittance};
use dewmargin::solve::profile::SlabHeat;

pub(super) fn resistance_of(slab: &Slab) -> f64 {
    match &slab.heat {
        SlabHeat::Fixed(r) => r.as_si(),
        SlabHeat::Curve(..) => unreachable!("the strategies make fixed resistances only"),
    }
}

/// Plane temperatures by a balance of heat at every plane, dense, solved by LU: an independent
/// method, since the library sums resistances instead.
fn nodal_temperatures(slabs: &[Slab], boundary: &Boundary) -> DVector<f64> {
    let nodes = slabs.len() + 1;
    let mut conductance = DMatrix::<f64>::zeros(nodes, nodes);
    let mut source = DVector::<f64>::zeros(nodes);
    for (n, slab) in slabs.iter().enumerate() {
        let g = 1.0 / resistance_of(slab);
        conductance[(n, n)] += g;
        conductance[(n + 1, n + 1)] += g;
        conductance[(n, n + 1)] -= g;
        conductance[(n + 1, n)] -= g;
    }
    let ends = [
        (0, boundary.interior_film, boundary.indoor),
        (nodes - 1, boundary.exterior_film, boundary.outdoor),
    ];
    for (n, film, air) in ends {
        conductance[(n, n)] += 1.0 / film.as_si();
        source[n] += air.temperature.as_celsius() / film.as_si();
    }
    conductance
        .lu()
        .solve(&source)
        .expect("films tie every plane to the air")
}

proptest! {
    #![proptest_config(config(256))]

    #[test]
    fn reversing_the_layers_leaves_u_alone(wall in walls()) {
        let mut reversed = wall.clone();
        reversed.layers.reverse();
        let (one, other) = (transmittance(&wall), transmittance(&reversed));
        prop_assert!(agree(one.parallel_path, other.parallel_path, 1e-12));
        prop_assert!(agree(one.isothermal_planes, other.isothermal_planes, 1e-12));
    }

    #[test]
    fn more_insulation_never_raises_u(wall in walls(), at in any::<prop::sample::Index>(), more in 0.0..3.0) {
        let mut better = wall.clone();
        let at = at.index(better.layers.len());
        let r = better.layers[at].resistance.map_or(0.0, ThermalResistance::as_si);
        better.layers[at].resistance = Some(ThermalResistance::from_si(r + more));
        let (before, after) = (transmittance(&wall), transmittance(&better));
        let rounding = 1.0 + 1e-12;
        prop_assert!(after.parallel_path <= before.parallel_path * rounding);
        prop_assert!(after.isothermal_planes <= before.isothermal_planes * rounding);
        if let (Some(before), Some(after)) = (before.combined, after.combined) {
            prop_assert!(after <= before * rounding);
        }
    }

    #[test]
    fn the_parallel_path_is_the_low_end_of_the_bracket(wall in walls()) {
        let u = transmittance(&wall);
        prop_assert!(u.parallel_path <= u.isothermal_planes * (1.0 + 1e-12));
        if let Some(combined) = u.combined {
            prop_assert!(combined >= u.parallel_path * (1.0 - 1e-12));
            prop_assert!(combined <= u.isothermal_planes * (1.0 + 1e-12));
        }
    }

    #[test]
    fn the_same_heat_flows_through_every_layer(slabs in slabs(), boundary in climates()) {
        let solved = solve_path(&slabs, &boundary);
        let [indoor, outdoor] = [boundary.indoor, boundary.outdoor].map(|a| a.temperature.as_celsius());
        let q = solved.heat_flux;
        let scale = (indoor - outdoor).abs().max(1.0);
        let planes: Vec<f64> = solved.planes.iter().map(|p| p.temperature.as_celsius()).collect();
        // Temperature steps against flux times resistance: flux itself would divide by thin metal.
        let films = [
            (indoor - planes[0], boundary.interior_film.as_si()),
            (planes[planes.len() - 1] - outdoor, boundary.exterior_film.as_si()),
        ];
        let layers = slabs.iter().enumerate().map(|(n, slab)| {
            (planes[n] - planes[n + 1], resistance_of(slab))
        });
        for (step, r) in films.into_iter().chain(layers) {
            prop_assert!((step - q * r).abs() <= 1e-9 * scale, "{step} K over {r}, q {q}");
        }
    }

    #[test]
    fn a_nodal_balance_gives_the_same_temperatures(slabs in slabs(), boundary in climates()) {
        let solved = solve_path(&slabs, &boundary);
        let independent = nodal_temperatures(&slabs, &boundary);
        for (plane, want) in solved.planes.iter().zip(independent.iter()) {
            let ours = plane.temperature.as_celsius();
            prop_assert!((ours - want).abs() < 1e-8, "{ours} against {want} °C");
        }
    }

    #[test]
    fn scaling_every_resistance_scales_the_heat_flow(
        slabs in slabs(), boundary in climates(), factor in 0.1..10.0_f64,
    ) {
        let scaled: Vec<Slab> =
            slabs.iter().map(|s| slab(resistance_of(s) * factor, s.vapor_resistance)).collect();
        let film = |r: ThermalResistance| ThermalResistance::from_si(r.as_si() * factor);
        let films = Boundary {
            interior_film: film(boundary.interior_film),
            exterior_film: film(boundary.exterior_film),
            ..boundary
        };
        let (one, other) = (solve_path(&slabs, &boundary), solve_path(&scaled, &films));
        prop_assert!(agree(one.heat_flux, other.heat_flux * factor, 1e-12));
        for (a, b) in one.planes.iter().zip(&other.planes) {
            prop_assert!((a.temperature.as_celsius() - b.temperature.as_celsius()).abs() < 1e-9);
        }
    }
}
