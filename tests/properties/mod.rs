//! What physics demands of every build-up, whatever its numbers: the seed is fixed, so that the
//! same cases run every time.

mod conduction;
mod corners;
mod diffusion;
mod heat;
mod sizing;
mod split;
mod verdict;
mod volume;
mod year;

use dewmargin::model::Assembly;
use dewmargin::solve::profile::{Boundary, Slab};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use crate::build_up::{air, boundary, framed, layer, slab, wall};

/// Cases per property, always the same ones.
fn config(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        rng_seed: RngSeed::Fixed(0x5eed),
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

/// Evenly spread over powers of ten.
fn decades(low: f64, high: f64) -> impl Strategy<Value = f64> {
    (low.log10()..high.log10()).prop_map(|exponent| 10_f64.powf(exponent))
}

/// A thermal resistance from a metal sheet to a thick layer of insulation, m²·K/W.
fn resistance() -> impl Strategy<Value = f64> {
    decades(1e-4, 8.0)
}

/// Layers from housewrap to polyethylene.
fn slabs() -> impl Strategy<Value = Vec<Slab>> {
    let one = (resistance(), decades(1e8, 1e13));
    prop::collection::vec(one.prop_map(|(r, z)| slab(r, z)), 1..8)
}

/// Layers of which some let no vapor through.
fn slabs_with_barriers() -> impl Strategy<Value = Vec<Slab>> {
    let z = prop_oneof![4 => decades(1e8, 1e13), 1 => Just(f64::INFINITY)];
    prop::collection::vec((resistance(), z).prop_map(|(r, z)| slab(r, z)), 1..8)
}

/// Air from a cold night to a damp summer day on either side, vapor films or none.
fn climates() -> impl Strategy<Value = Boundary> {
    let indoor = (15.0..30.0, 0.1..1.0);
    let outdoor = (-40.0..35.0, 0.1..1.0);
    let films = (0.05..0.25, 0.02..0.2);
    let vapor_films = prop_oneof![Just((0.0, 0.0)), (decades(1e7, 1e9), decades(1e7, 1e9))];
    (indoor, outdoor, films, vapor_films).prop_map(|(indoor, outdoor, films, vapor)| Boundary {
        interior_vapor_film: vapor.0,
        exterior_vapor_film: vapor.1,
        ..boundary(air(indoor.0, indoor.1), air(outdoor.0, outdoor.1), films)
    })
}

/// Walls of one to five layers, some of them framed.
fn walls() -> impl Strategy<Value = Assembly> {
    let framing = prop::option::of((resistance(), 0.01..0.4));
    let one = (resistance(), framing);
    let films = (0.05..0.25, 0.02..0.2);
    (prop::collection::vec(one, 1..6), films).prop_map(|(layers, films)| {
        let build = |(n, (r, framing)): (usize, (f64, Option<(f64, f64)>))| {
            let plain = layer(&format!("layer {n}"), r);
            framing.map_or_else(
                || plain.clone(),
                |(member, share)| framed(plain.clone(), member, share),
            )
        };
        wall(layers.into_iter().enumerate().map(build).collect(), films)
    })
}

/// Whether two numbers agree to a fraction of the larger one.
fn agree(a: f64, b: f64, part: f64) -> bool {
    (a - b).abs() <= part * a.abs().max(b.abs())
}
