//! A wetting that isn't the weather's (rain while building, a leak): can it dry, to which side?

use super::YearSolver;
use super::block::amounts;
use super::record::places;
use super::seconds_of;
use crate::solve::profile::{Boundary, Slab};

/// No drying is followed longer than this: a hundred years.
const MOST_DAYS: f64 = 36_500.0;

/// Where water counts as not gone yet.
#[derive(Clone, Copy, Debug)]
pub struct Watched<'a> {
    /// By plane.
    pub planes: &'a [bool],
    /// By layer: the slices inside it.
    pub inside: &'a [bool],
    /// By layer: whether it touches the wet plane or goes on from one that does, and keeps its damp
    /// permeance as long as that plane is wet.
    pub damp: &'a [bool],
}

/// How a wet plane dried.
#[derive(Clone, Debug, PartialEq)]
pub struct DryOut {
    /// Days until no watched place holds water; `None` if that takes longer than was run.
    pub gone_after_days: Option<f64>,
    /// The month in which that is, January 0.
    pub gone_in_month: Option<usize>,
    /// Net vapor to the room until then or until the end, kg/m².
    pub to_room: f64,
    /// Net vapor to outdoors, kg/m².
    pub to_outdoors: f64,
    /// Water at each plane at that moment, kg/m².
    pub moved: Vec<f64>,
    /// Water at the slices inside each layer, together, kg/m².
    pub inside: Vec<f64>,
    /// Water at the watched places, kg/m².
    pub left: f64,
    /// Whether humidity-dependent permeances fitted the humidity in every step.
    pub converged: bool,
}

/// Wets one plane with `water` kg/m² at the start of a month and runs the months around the year
/// until every watched place is dry, at most `most_days`. The wet plane is watched in any case.
///
/// The layers that `watched` calls damp keep their damp permeance (the last point of
/// `by_humidity`) as long as the plane is wet; everything else is as in the year. A surface can't hold
/// water: there it is gone at once.
///
/// Source: ISO 13788 from a given amount of water; the damp permeance is the project's convention.
#[must_use]
pub fn dry_out(
    slabs: &[Slab],
    months: &[Boundary; 12],
    (plane, water): (usize, f64),
    start_month: usize,
    watched: Watched<'_>,
    most_days: f64,
) -> DryOut {
    let mut solver = YearSolver::default();
    let wetting = (plane, water);
    dry_out_with(
        &mut solver,
        slabs,
        months,
        wetting,
        start_month,
        watched,
        most_days,
    )
}

/// As [`dry_out`], in the memory of a solver.
pub(in crate::solve) fn dry_out_with(
    solver: &mut YearSolver,
    slabs: &[Slab],
    months: &[Boundary; 12],
    (plane, water): (usize, f64),
    start_month: usize,
    watched: Watched<'_>,
    most_days: f64,
) -> DryOut {
    let engine = &mut solver.engine;
    engine.prepare(&dampened(slabs, watched.damp), months);
    let place_of = places(engine);
    let planes = engine.nodes.planes.clone();
    let is_watched = |place: usize| {
        place == plane
            || if place < planes.len() {
                watched.planes.get(place).copied().unwrap_or(false)
            } else {
                let layer = place - planes.len();
                watched.inside.get(layer).copied().unwrap_or(false)
            }
    };
    let counts: Vec<bool> = place_of
        .iter()
        .map(|place| place.is_some_and(is_watched))
        .collect();
    let on_watched = |water: &[f64]| -> f64 {
        let pairs = water.iter().zip(&counts);
        pairs.filter(|(_, counts)| **counts).map(|(w, _)| w).sum()
    };
    if let Some(node) = planes.get(plane)
        && engine.holding(start_month % 12).contains(node)
    {
        engine.water[*node] = water.max(0.0);
    }
    let (mut to_room, mut to_outdoors, mut passed) = (0.0, 0.0, 0.0);
    let mut gone = (on_watched(&engine.water) <= 0.0).then_some((0.0, start_month % 12));
    let most = most_days.min(MOST_DAYS) * 86_400.0;
    let mut month = start_month % 12;
    let mut month_ends = seconds_of(month);
    let wet_node = planes.get(plane).copied();
    let mut damp = true;
    // Less than a moment left over is rounding.
    while gone.is_none() && most - passed > 1.0 {
        let stretch = month_ends.min(most) - passed;
        engine.month(month, stretch, false, |phase| {
            passed += phase.seconds;
            to_room -= phase.flows.0 * phase.seconds;
            to_outdoors += phase.flows.1 * phase.seconds;
            if on_watched(phase.water) <= 0.0 {
                gone = Some((passed, month));
            }
            let dried = wet_node.is_some_and(|node| phase.water[node] <= 0.0);
            gone.is_none() && !(damp && dried)
        });
        if damp && wet_node.is_some_and(|node| engine.water[node] <= 0.0) {
            // The plane is dry: its layers follow their humidity again.
            let water = std::mem::take(&mut engine.water);
            let consistent = engine.consistent;
            engine.prepare(slabs, months);
            engine.water = water;
            engine.consistent &= consistent;
            damp = false;
        }
        if month_ends - passed <= 1.0 {
            month = (month + 1) % 12;
            month_ends += seconds_of(month);
        }
    }
    let (moved, inside) = amounts(&place_of, &engine.water, planes.len());
    DryOut {
        gone_after_days: gone.map(|(seconds, _)| seconds / 86_400.0),
        gone_in_month: gone.map(|(_, month)| month),
        to_room,
        to_outdoors,
        moved,
        inside,
        left: on_watched(&engine.water),
        converged: engine.consistent,
    }
}

/// The slabs with those that are damp at their damp value.
fn dampened(slabs: &[Slab], is_damp: &[bool]) -> Vec<Slab> {
    let touches = |n: usize| is_damp.get(n).copied().unwrap_or(false);
    let damp = |(n, slab): (usize, &Slab)| match slab.by_humidity.last() {
        Some(&(_, vapor_resistance)) if touches(n) && slab.vapor_resistance.is_finite() => Slab {
            heat: slab.heat.clone(),
            vapor_resistance,
            by_humidity: Vec::new(),
        },
        _ => slab.clone(),
    };
    slabs.iter().enumerate().map(damp).collect()
}
