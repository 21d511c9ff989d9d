//! Vapor: never above saturation, balanced, and the same by another method.

use dewmargin::physics::moist_air::{dew_point, saturation_vapor_pressure, vapor_pressure};
use dewmargin::quantity::Temperature;
use dewmargin::solve::Profile;
use dewmargin::solve::profile::{Slab, solve_path};
use dewmargin::solve::string::vapor_string;
use proptest::prelude::*;

use super::heat::resistance_of;
use super::{agree, climates, config, decades, slabs, slabs_with_barriers};
use crate::build_up::slab;

/// Pressures by projected relaxation of the obstacle problem: every node takes the balance of its
/// neighbors unless that lies above saturation. An independent method: the library looks for a
/// convex hull instead. `None` between two perfect barriers, which nothing feeds.
fn relaxed(steps: &[f64], saturation: &[f64], first: f64, last: f64) -> Vec<Option<f64>> {
    const OVERRELAXATION: f64 = 1.6;
    let end = saturation.len() - 1;
    let conductance: Vec<f64> = steps.iter().map(|z| 1.0 / z).collect();
    let mut p: Vec<f64> = saturation.iter().map(|s| s.min(first.max(last))).collect();
    (p[0], p[end]) = (first, last);
    for _ in 0..2_000_000 {
        let mut moved = 0.0_f64;
        for n in 1..end {
            let (before, after) = (conductance[n - 1], conductance[n]);
            if before + after == 0.0 {
                continue;
            }
            let balance = (before * p[n - 1] + after * p[n + 1]) / (before + after);
            let next = (p[n] + OVERRELAXATION * (balance - p[n])).min(saturation[n]);
            moved = moved.max((next - p[n]).abs() / next.abs());
            p[n] = next;
        }
        if moved < 1e-14 {
            break;
        }
    }
    let barrier = |z: &f64| z.is_infinite();
    let near = steps.iter().position(barrier).unwrap_or(end);
    let far = steps.iter().rposition(barrier).unwrap_or(0);
    p.into_iter()
        .enumerate()
        .map(|(n, p)| (n <= near || n > far).then_some(p))
        .collect()
}

/// Water condensing at a node of relaxed pressures, kg/(m²·s).
fn gathered(steps: &[f64], p: &[Option<f64>], node: usize) -> f64 {
    let flow = |from: usize, to: usize, z: f64| match (p[from], p[to]) {
        (Some(from), Some(to)) if z.is_finite() => (from - to) / z,
        _ => 0.0,
    };
    flow(node - 1, node, steps[node - 1]) + flow(node + 1, node, steps[node])
}

/// Steps, saturation at the inner nodes, and both air pressures.
fn strings() -> impl Strategy<Value = (Vec<f64>, Vec<f64>, f64, f64)> {
    let step = prop_oneof![6 => decades(1e9, 1e12), 1 => Just(f64::INFINITY)];
    let inner = prop::collection::vec((step, 100.0..2500.0), 1..9);
    (inner, decades(1e9, 1e12), 100.0..2500.0, 100.0..2500.0).prop_map(
        |(inner, closing, first, last)| {
            let (mut steps, mut saturation): (Vec<f64>, Vec<f64>) = inner.into_iter().unzip();
            steps.push(closing);
            saturation.insert(0, f64::INFINITY);
            saturation.push(f64::INFINITY);
            (steps, saturation, first, last)
        },
    )
}

fn largest_flow(solved: &Profile) -> f64 {
    solved.vapor_in.abs().max(solved.vapor_out.abs())
}

proptest! {
    #![proptest_config(config(256))]

    #[test]
    fn dew_point_inverts_saturation(celsius in -40.0..60.0) {
        let back = dew_point(saturation_vapor_pressure(Temperature::from_celsius(celsius)));
        prop_assert!((back.as_celsius() - celsius).abs() < 1e-9);
    }

    #[test]
    fn vapor_never_passes_saturation(slabs in slabs_with_barriers(), boundary in climates()) {
        let solved = solve_path(&slabs, &boundary);
        for plane in &solved.planes {
            if let Some(pressure) = plane.corrected_pressure {
                let (p, saturation) = (pressure.as_pa(), plane.saturation.as_pa());
                prop_assert!(p <= saturation * (1.0 + 1e-12), "{p} over {saturation} Pa");
                prop_assert!(p > 0.0);
            }
            prop_assert!(plane.condensing_flow >= 0.0);
        }
        prop_assert!(solved.condensing_inside.iter().all(|flow| *flow >= 0.0));
    }

    #[test]
    fn where_water_gathers_the_air_is_saturated(slabs in slabs_with_barriers(), boundary in climates()) {
        for plane in solve_path(&slabs, &boundary).planes {
            if plane.condensing_flow > 0.0 {
                let p = plane.corrected_pressure.unwrap().as_pa();
                prop_assert!(agree(p, plane.saturation.as_pa(), 1e-12));
            }
        }
    }

    #[test]
    fn vapor_in_less_vapor_out_is_what_condenses(slabs in slabs_with_barriers(), boundary in climates()) {
        let solved = solve_path(&slabs, &boundary);
        let gathered = solved.vapor_in - solved.vapor_out;
        let scale = largest_flow(&solved);
        prop_assert!(
            (gathered - solved.condensing_total()).abs() <= 1e-9 * scale,
            "{gathered} against {}", solved.condensing_total(),
        );
    }

    // ISO 13788 splits insulation at 0.25 m²·K/W (from memory); so split by hand, the same follows.
    #[test]
    fn layers_are_split_at_a_quarter(slabs in slabs(), boundary in climates()) {
        let by_hand: Vec<Slab> = slabs
            .iter()
            .flat_map(|whole| {
                let r = resistance_of(whole);
                let pieces = (r / 0.25).ceil();
                vec![slab(r / pieces, whole.vapor_resistance / pieces); pieces as usize]
            })
            .collect();
        let (whole, split) = (solve_path(&slabs, &boundary), solve_path(&by_hand, &boundary));
        prop_assert!(agree(whole.vapor_in, split.vapor_in, 1e-9));
        prop_assert!(agree(whole.vapor_out, split.vapor_out, 1e-9));
        let scale = largest_flow(&whole);
        let difference = whole.condensing_total() - split.condensing_total();
        prop_assert!(difference.abs() <= 1e-9 * scale, "{difference} of {scale} kg/m²s");
    }

    #[test]
    fn without_condensation_the_straight_line_stands(slabs in slabs(), boundary in climates()) {
        let solved = solve_path(&slabs, &boundary);
        if solved.condensing_total() == 0.0 {
            prop_assert!(agree(solved.vapor_in, solved.vapor_out, 1e-9));
        }
    }

    #[test]
    fn a_vanishing_permeance_tends_to_a_perfect_barrier(
        slabs in slabs(), at in any::<prop::sample::Index>(), boundary in climates(),
    ) {
        let at = at.index(slabs.len());
        let with = |z: f64| {
            let mut slabs = slabs.clone();
            slabs[at].vapor_resistance = z;
            solve_path(&slabs, &boundary)
        };
        let perfect = with(f64::INFINITY);
        let air = [boundary.indoor, boundary.outdoor];
        let highest = air.map(|a| vapor_pressure(a.temperature, a.humidity).as_pa());
        let highest = highest[0].max(highest[1]);
        let films = boundary.interior_vapor_film + boundary.exterior_vapor_film;
        let others: f64 = films + slabs.iter().map(|slab| slab.vapor_resistance).sum::<f64>();
        for z in [1e14, 1e15, 1e16] {
            let tight = with(z);
            // At most this gets into the layer, whose 8 m²·K/W are split into 32 pieces of which
            // the first may hold water, and it drops the pressure of the others by at most that.
            let leak = 32.0 * highest / z;
            for (a, b) in tight.planes.iter().zip(&perfect.planes) {
                let [a, b] = [a, b].map(|plane| plane.corrected_pressure.unwrap().as_pa());
                prop_assert!((a - b).abs() <= leak * others + 1e-9 * b, "{a} against {b} Pa");
            }
            let [a, b] = [&tight, &perfect].map(Profile::condensing_total);
            // Summing resistances in double precision leaves 1e-16·z of the smallest piece.
            prop_assert!((a - b).abs() <= leak + 1e-6 * a.max(b), "{a} against {b} kg/m²s");
        }
    }
}

proptest! {
    #![proptest_config(config(256))]

    #[test]
    fn projected_relaxation_finds_the_same_string((steps, saturation, first, last) in strings()) {
        let solved = vapor_string(&steps, &saturation, first, last);
        let independent = relaxed(&steps, &saturation, first, last);
        for (node, (ours, want)) in solved.pressures.iter().zip(&independent).enumerate() {
            match (ours, want) {
                (Some(ours), Some(want)) => {
                    prop_assert!(agree(*ours, *want, 1e-6), "node {node}: {ours} against {want}");
                }
                (ours, want) => prop_assert_eq!(ours, want, "node {}", node),
            }
        }
        let scale = first.max(last) / steps.iter().copied().fold(f64::INFINITY, f64::min);
        for node in 1..saturation.len() - 1 {
            let (ours, want) = (solved.condensing[node], gathered(&steps, &independent, node));
            prop_assert!((ours - want).abs() <= 1e-6 * scale, "node {node}: {ours} against {want}");
        }
    }
}

// Sheets so open that they hardly resist vapor still give finite flows.
#[test]
fn layers_without_vapor_resistance_stay_finite() {
    let boundary = crate::build_up::boundary(
        crate::build_up::air(20.0, 0.3),
        crate::build_up::air(10.0, 0.5),
        (0.13, 0.04),
    );
    let open: [Slab; 2] = [slab(0.1, 0.0), slab(2.0, 0.0)];
    let solved = solve_path(&open, &boundary);
    assert!(
        solved.vapor_in.is_finite() && solved.vapor_out.is_finite(),
        "{solved:?}"
    );
    for plane in &solved.planes {
        assert!(plane.vapor_pressure.unwrap().as_pa().is_finite());
    }
}
