//! Stretches of any length under steady air, one after another: block climates, a single month.

use super::engine::Engine;
use super::record::places;
use crate::solve::profile::{Boundary, Slab};

/// What stands at the end of a stretch.
#[derive(Clone, Debug, PartialEq)]
pub struct BlockEnd {
    /// Water held at each plane, kg/m².
    pub planes: Vec<f64>,
    /// Water held at the slices inside each layer, together, kg/m².
    pub inside: Vec<f64>,
    /// Vapor past the room's surface in this stretch, kg/m².
    pub vapor_in: f64,
    /// Vapor to the outer surface in this stretch, kg/m².
    pub vapor_out: f64,
    /// Seconds into the stretch at which the last water went; `None` while any is left, and where
    /// there was none.
    pub dry_after: Option<f64>,
    /// Whether humidity-dependent permeances fitted the humidity.
    pub converged: bool,
}

/// Runs stretches of seconds, each under its own air, with the method of the year. The path starts
/// with `water` at its planes, kg/m²; planes beyond the list start dry, and a surface holds none.
///
/// Source: ISO 13788 with stretches in place of months; DIN 4108-3 calls two of them a block
/// climate.
///
/// # Example
/// A plane at saturation for 1700 Pa between air of 1200 Pa, at s_d 1 and 2 m (analytic):
/// ```
/// use dewmargin::model::AirState;
/// use dewmargin::physics::moist_air::dew_point;
/// use dewmargin::quantity::{Pressure, RelativeHumidity, ThermalResistance};
/// use dewmargin::solve::profile::{Boundary, Slab, SlabHeat};
/// use dewmargin::solve::year::solve_blocks;
///
/// let air = AirState {
///     temperature: dew_point(Pressure::from_pa(1700.0)),
///     humidity: RelativeHumidity::from_fraction(1200.0 / 1700.0),
/// };
/// let film = ThermalResistance::from_si(0.1);
/// let boundary = Boundary {
///     indoor: air, outdoor: air, interior_film: film, exterior_film: film,
///     interior_vapor_film: 0.0, exterior_vapor_film: 0.0,
/// };
/// let slab = |sd: f64| Slab {
///     heat: SlabHeat::Fixed(film), vapor_resistance: sd / 2.0e-10, by_humidity: Vec::new(),
/// };
/// let ends = solve_blocks(&[slab(1.0), slab(2.0)], &[(boundary, 1e6)], &[0.0, 0.1]);
/// assert!((ends[0].dry_after.unwrap() - 666_667.0).abs() < 1.0); // 7.7 days
/// ```
#[must_use]
pub fn solve_blocks(slabs: &[Slab], blocks: &[(Boundary, f64)], water: &[f64]) -> Vec<BlockEnd> {
    let boundaries: Vec<Boundary> = blocks.iter().map(|(boundary, _)| *boundary).collect();
    let mut engine = Engine::default();
    engine.prepare(slabs, &boundaries);
    let place_of = places(&engine);
    let planes = engine.nodes.planes.clone();
    if !blocks.is_empty() {
        let holding = engine.holding(0);
        for (node, water) in planes.iter().zip(water) {
            if holding.contains(node) {
                engine.water[*node] = water.max(0.0);
            }
        }
    }
    let run = |(block, (_, seconds)): (usize, &(Boundary, f64))| {
        let (mut vapor_in, mut vapor_out, mut passed) = (0.0, 0.0, 0.0);
        let mut wet = engine.water.iter().any(|water| *water > 0.0);
        let mut dry_after = None;
        engine.month(block, *seconds, false, |phase| {
            passed += phase.seconds;
            vapor_in += phase.flows.0 * phase.seconds;
            vapor_out += phase.flows.1 * phase.seconds;
            let was_wet = std::mem::replace(&mut wet, phase.water.iter().any(|w| *w > 0.0));
            if wet {
                dry_after = None;
            } else if was_wet {
                dry_after = Some(passed);
            }
            true
        });
        let (at_planes, inside) = amounts(&place_of, &engine.water, planes.len());
        BlockEnd {
            planes: at_planes,
            inside,
            vapor_in,
            vapor_out,
            dry_after,
            converged: engine.consistent,
        }
    };
    blocks.iter().enumerate().map(run).collect()
}

/// Water by plane and inside each layer.
pub(super) fn amounts(
    place_of: &[Option<usize>],
    water: &[f64],
    planes: usize,
) -> (Vec<f64>, Vec<f64>) {
    let mut all = vec![0.0; (2 * planes).saturating_sub(1)];
    for (place, water) in place_of.iter().zip(water) {
        if let Some(place) = place {
            all[*place] += water;
        }
    }
    let inside = all.split_off(planes);
    (all, inside)
}
