//! A whole year by another method: small time steps, condensation as a complementarity condition.
//!
//! In every step and at every node, with w the water held and p the vapor pressure,
//!
//! ```text
//! w = w_before + Δt Σ c (p_neighbor − p)      w ≥ 0,   p ≤ p_sat,   w (p_sat − p) = 0
//! ```
//! solved by projected relaxation (Cryer 1971). The library instead pins a convex hull and jumps
//! from one drying to the next. Only the nodes are the same; no code is shared.

use dewmargin::quantity::unit::AIR_PERMEABILITY;
use dewmargin::solve::profile::{Boundary, Slab, SlabHeat};
use dewmargin::solve::year::{Year, solve_year};
use rstest::rstest;

use super::air_layer;
use crate::build_up::{air, boundary, slab};

const HOUR: f64 = 3600.0;
const DAYS: [f64; 12] = [
    31.0, 28.0, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0,
];

/// The nodes: planes and slices from surface to surface, and the resistances between them.
struct Nodes {
    steps: Vec<f64>,
    resistances: Vec<f64>,
    layer_of_step: Vec<usize>,
    /// Planes first, then the insides of layers.
    place: Vec<usize>,
}

fn nodes(slabs: &[Slab]) -> Nodes {
    let mut nodes = Nodes {
        steps: Vec::new(),
        resistances: Vec::new(),
        layer_of_step: Vec::new(),
        place: vec![0],
    };
    for (n, slab) in slabs.iter().enumerate() {
        let SlabHeat::Fixed(r) = &slab.heat else {
            panic!("fixed resistances only");
        };
        let r = r.as_si();
        let barrier = slab.vapor_resistance.is_infinite();
        let pieces = if barrier {
            1.0
        } else {
            (r / 0.25).ceil().max(1.0)
        };
        for piece in 1..=pieces as usize {
            nodes.steps.push(slab.vapor_resistance / pieces);
            nodes.resistances.push(r / pieces);
            nodes.layer_of_step.push(n);
            let at_plane = piece == pieces as usize;
            nodes
                .place
                .push(if at_plane { n + 1 } else { slabs.len() + 1 + n });
        }
    }
    nodes
}

/// ISO 13788's formula, written again.
fn saturation(celsius: f64) -> f64 {
    if celsius < 0.0 {
        610.5 * (21.875 * celsius / (265.5 + celsius)).exp()
    } else {
        610.5 * (17.269 * celsius / (237.3 + celsius)).exp()
    }
}

/// Conductance of each step; a layer with points follows its mean humidity.
fn conductances(slabs: &[Slab], nodes: &Nodes, p: &[f64], p_sat: &[f64]) -> Vec<f64> {
    let of_layer = |n: usize| {
        let steps: Vec<usize> = (0..nodes.steps.len())
            .filter(|s| nodes.layer_of_step[*s] == n)
            .collect();
        let points = &slabs[n].by_humidity;
        if points.is_empty() {
            return slabs[n].vapor_resistance / steps.len() as f64;
        }
        let mean = |s: usize| 0.5 * (p[s] / p_sat[s] + p[s + 1] / p_sat[s + 1]);
        let humidity = steps.iter().map(|s| mean(*s)).sum::<f64>() / steps.len() as f64;
        let mut z = points[0].1;
        for pair in points.windows(2) {
            let part = ((humidity - pair[0].0) / (pair[1].0 - pair[0].0)).clamp(0.0, 1.0);
            z *= (pair[1].1 / pair[0].1).powf(part);
        }
        z / steps.len() as f64
    };
    let layers: Vec<f64> = (0..slabs.len()).map(of_layer).collect();
    nodes
        .layer_of_step
        .iter()
        .map(|n| 1.0 / layers[*n])
        .collect()
}

/// One step's pressures, starting from the last ones.
fn relax(p: &mut [f64], p_sat: &[f64], c: &[f64], w: &[f64], dt: f64) {
    const OVERRELAXATION: f64 = 1.7;
    for _ in 0..200_000 {
        let mut moved = 0.0_f64;
        for k in 1..p.len() - 1 {
            let sum = c[k - 1] + c[k];
            if sum == 0.0 {
                continue;
            }
            let free = (c[k - 1] * p[k - 1] + c[k] * p[k + 1] + w[k] / dt) / sum;
            let next = (p[k] + OVERRELAXATION * (free - p[k])).min(p_sat[k]);
            moved = moved.max((next - p[k]).abs());
            p[k] = next;
        }
        if moved < 1e-9 {
            return;
        }
    }
    panic!("relaxation doesn't settle");
}

/// Change of the water at each place in each month of the last of some years from dry, kg/m².
fn stepped(slabs: &[Slab], months: &[Boundary; 12], start: usize, years: usize) -> Vec<[f64; 12]> {
    let nodes = nodes(slabs);
    let count = nodes.place.len();
    let mut w = vec![0.0; count];
    let mut p = vec![500.0; count];
    let mut changes = vec![[0.0; 12]; 2 * slabs.len() + 1];
    let (dt, fine) = (HOUR, 24.0);
    for n in 0..12 * years {
        let month = (start + n) % 12;
        let air = &months[month];
        let (ti, te) = (
            air.indoor.temperature.as_celsius(),
            air.outdoor.temperature.as_celsius(),
        );
        let film = air.interior_film.as_si();
        let total = film + nodes.resistances.iter().sum::<f64>() + air.exterior_film.as_si();
        let celsius: Vec<f64> = (0..count)
            .map(|k| ti - (ti - te) * (film + nodes.resistances[..k].iter().sum::<f64>()) / total)
            .collect();
        let p_sat: Vec<f64> = celsius.iter().map(|t| saturation(*t)).collect();
        p[0] = p_sat[0].min(air.indoor.humidity.as_fraction() * saturation(ti));
        p[count - 1] = p_sat[count - 1].min(air.outdoor.humidity.as_fraction() * saturation(te));
        for k in 1..count - 1 {
            p[k] = p[k].min(p_sat[k]);
        }
        let before = w.clone();
        for _ in 0..(DAYS[month] * fine) as usize {
            let c = conductances(slabs, &nodes, &p, &p_sat);
            relax(&mut p, &p_sat, &c, &w, dt);
            for k in 1..count - 1 {
                let net = c[k - 1] * (p[k - 1] - p[k]) + c[k] * (p[k + 1] - p[k]);
                w[k] = (w[k] + dt * net).max(0.0);
            }
        }
        changes.iter_mut().for_each(|change| change[month] = 0.0);
        for k in 0..count {
            changes[nodes.place[k]][month] += w[k] - before[k];
        }
    }
    changes
}

/// A cold and wet year: mean outdoor temperatures and humidities.
const OUTDOORS: [(f64, f64); 12] = [
    (-7.0, 0.80),
    (-5.0, 0.78),
    (0.0, 0.75),
    (7.0, 0.70),
    (13.0, 0.68),
    (18.0, 0.68),
    (21.0, 0.70),
    (20.0, 0.72),
    (15.0, 0.75),
    (8.0, 0.78),
    (2.0, 0.82),
    (-4.0, 0.82),
];

fn months(room_humidity: f64) -> [Boundary; 12] {
    OUTDOORS.map(|(celsius, humidity)| {
        boundary(
            air(20.0, room_humidity),
            air(celsius, humidity),
            (0.13, 0.04),
        )
    })
}

fn wood_wall() -> Vec<Slab> {
    vec![
        air_layer(0.08, 0.6),
        air_layer(2.3, 0.14),
        air_layer(0.11, 4.0),
        air_layer(0.1, 0.5),
    ]
}

fn two_sheets() -> Vec<Slab> {
    vec![
        air_layer(0.08, 0.4),
        air_layer(1.2, 0.1),
        air_layer(0.05, 2.0),
        air_layer(1.0, 0.1),
        air_layer(0.05, 6.0),
    ]
}

/// Wool between plywood and a steel pan, which lets nothing through.
fn pan_floor(plywood_sd: f64) -> Vec<Slab> {
    vec![
        air_layer(0.15, plywood_sd),
        air_layer(3.0, 0.15),
        slab(0.0, f64::INFINITY),
    ]
}

/// Plywood that opens 34 times from dry to damp.
fn living_plywood() -> Vec<Slab> {
    let mut slabs = wood_wall();
    let z = |sd: f64| sd / AIR_PERMEABILITY;
    slabs[2].by_humidity = vec![(0.25, z(6.8)), (0.6, z(1.8)), (0.85, z(0.2))];
    slabs[0].by_humidity = vec![(0.3, z(0.9)), (0.85, z(0.3))];
    slabs
}

/// A milligram per m²: what small steps make of nothing, kg/m².
const SPECK: f64 = 1e-6;

fn total(places: &[[f64; 12]], month: usize) -> f64 {
    places.iter().map(|place| place[month]).sum()
}

/// The library's changes by place, in the order of the stepped ones.
fn changes(year: &Year) -> Vec<[f64; 12]> {
    let places = year.planes.iter().chain(&year.inside);
    places.map(|water| water.change).collect()
}

// The 1 % is this project's own goal; time steps of an hour come nearer than that.
#[rstest]
#[case::one_plane(wood_wall(), 0.5, 1)]
#[case::two_sheets(two_sheets(), 0.55, 3)]
#[case::perfect_barrier(pan_floor(2.0), 0.5, 2)]
#[case::gains_every_year(pan_floor(8.0), 0.7, 2)]
#[case::follows_humidity(living_plywood(), 0.6, 1)]
fn a_year_in_small_steps(
    #[case] slabs: Vec<Slab>,
    #[case] room_humidity: f64,
    #[case] wet_planes: usize,
) {
    let months = months(room_humidity);
    let year = solve_year(&slabs, &months);
    assert!(year.settled && year.converged, "{year:?}");
    let wet = year.planes.iter().filter(|water| water.peak > 0.01).count();
    let peaks: Vec<f64> = year.planes.iter().map(|water| water.peak).collect();
    eprintln!(
        "{:?} to {} cycles, peaks {peaks:.3?}",
        year.start, year.cycles
    );
    assert_eq!(wet, wet_planes, "{peaks:?}");
    let start = year.start.expect("a wet year");
    let (ours, stepped) = (changes(&year), stepped(&slabs, &months, start, year.cycles));
    for month in 0..12 {
        let (ours, want) = (total(&ours, month), total(&stepped, month));
        eprintln!("month {month}: {ours:+.6} kg/m² against {want:+.6} in small steps");
        assert!(
            (ours - want).abs() <= (0.01 * want.abs()).max(SPECK),
            "month {month}: {ours} against {want} kg/m²"
        );
    }
    for (place, (ours, want)) in ours.iter().zip(&stepped).enumerate() {
        for month in 0..12 {
            let allowed = 0.01 * total(&stepped, month).abs();
            assert!(
                (ours[month] - want[month]).abs() <= allowed.max(SPECK),
                "place {place}, month {month}: {} against {} kg/m²",
                ours[month],
                want[month]
            );
        }
    }
}
