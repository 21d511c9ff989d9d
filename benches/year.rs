//! Speed of the yearly balance.
//!
//! - `cargo bench --bench year`: single years, timed by divan.
//! - `cargo bench --bench year -- batch 20000`: many variants of the benchmark case, on one core
//!   and on all, in µs per variant, with checksums.
//! - `cargo bench --bench year -- table 400`: peak and year-end water of each variant, to be read
//!   by `benches/year_batch.py compare`.
//!
//! The benchmark case: 7 layers, 16 slices, fixed permeance, nominal values, two yearly cycles.
//! Nearly all variants condense, the worst case for speed. They come from a formula that stands here and in `year_batch.py`. Speed is measured
//! here and never asserted in a test.

#![allow(clippy::print_stdout)] // It prints its times.

use std::time::Instant;

use divan::{Bencher, black_box};
use rayon::prelude::*;

use dewmargin::model::AirState;
use dewmargin::quantity::{RelativeHumidity, Temperature, ThermalResistance};
use dewmargin::solve::profile::{Boundary, Slab, SlabHeat};
use dewmargin::solve::year::YearSolver;

type Variant = (Vec<Slab>, [Boundary; 12]);

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let count = arguments.get(1).and_then(|n| n.parse().ok());
    match (arguments.first().map(String::as_str), count) {
        (Some("batch"), Some(count)) => batch(count),
        (Some("table"), Some(count)) => table(count),
        _ => divan::main(),
    }
}

/// Least and greatest m²·K/W, least and greatest s_d in m: 1 + 1 + 6 + 1 + 4 + 1 + 2 slices.
const LAYERS: [(f64, f64, f64, f64); 7] = [
    (0.05, 0.15, 0.05, 0.6),
    (0.10, 0.20, 0.02, 0.5),
    (1.26, 1.49, 0.05, 0.3),
    (0.06, 0.20, 0.5, 8.0),
    (0.76, 0.99, 0.1, 5.0),
    (0.15, 0.22, 0.01, 0.05),
    (0.26, 0.49, 0.2, 2.0),
];
/// The year's swing around its mean.
const SWING: [f64; 12] = [
    -1.0, -0.9, -0.5, 0.0, 0.5, 0.9, 1.0, 0.9, 0.5, 0.0, -0.5, -0.9,
];

/// Evenly spread numbers between 0 and 1, by a linear congruential formula.
struct Numbers(u32);

impl Numbers {
    fn of(variant: usize) -> Self {
        let mut numbers = Self((variant as u32 + 1).wrapping_mul(2_654_435_761));
        numbers.between(0.0, 1.0);
        numbers.between(0.0, 1.0);
        numbers
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        low + (high - low) * (f64::from(self.0) / 4_294_967_296.0)
    }
}

fn variant(number: usize) -> Variant {
    let mut numbers = Numbers::of(number);
    let slabs = LAYERS.map(|(r_low, r_high, sd_low, sd_high)| {
        let resistance = numbers.between(r_low, r_high);
        let sd = numbers.between(sd_low, sd_high);
        Slab {
            heat: SlabHeat::Fixed(ThermalResistance::from_si(resistance)),
            vapor_resistance: sd / 2e-10,
            by_humidity: Vec::new(),
        }
    });
    let (mean, swing) = (numbers.between(-2.0, 8.0), numbers.between(6.0, 16.0));
    let (room, outdoors) = (numbers.between(0.40, 0.65), numbers.between(0.70, 0.95));
    let air = |celsius, humidity| AirState {
        temperature: Temperature::from_celsius(celsius),
        humidity: RelativeHumidity::from_fraction(humidity),
    };
    let months = SWING.map(|part| Boundary {
        indoor: air(20.0, room),
        outdoor: air(mean + swing * part, outdoors),
        interior_film: ThermalResistance::from_si(0.13),
        exterior_film: ThermalResistance::from_si(0.04),
        interior_vapor_film: 0.0,
        exterior_vapor_film: 0.0,
    });
    (slabs.to_vec(), months)
}

/// Water of all nodes at the months' ends: the most, and at the end of the reckoned year.
fn peak_and_end(
    solver: &mut YearSolver,
    held: &mut Vec<f64>,
    (slabs, months): &Variant,
) -> (f64, f64) {
    let Some(start) = solver.held_after(slabs, months, 2, held) else {
        return (0.0, 0.0);
    };
    let nodes = held.len() / 12;
    let total = |month: usize| held[month * nodes..][..nodes].iter().sum::<f64>();
    let peak = (0..12).map(total).fold(0.0, f64::max);
    (peak, total((start + 11) % 12))
}

fn table(count: usize) {
    let (mut solver, mut held) = (YearSolver::default(), Vec::new());
    for number in 0..count {
        let (peak, end) = peak_and_end(&mut solver, &mut held, &variant(number));
        println!("{peak:.17e},{end:.17e}");
    }
}

fn batch(count: usize) {
    let variants: Vec<Variant> = (0..count).map(variant).collect();
    let sum = |a: (f64, f64), b: (f64, f64)| (a.0 + b.0, a.1 + b.1);
    let one = || {
        let (mut solver, mut held) = (YearSolver::default(), Vec::new());
        let each = |variant| peak_and_end(&mut solver, &mut held, variant);
        variants.iter().map(each).fold((0.0, 0.0), sum)
    };
    let all = || {
        let fresh = || (YearSolver::default(), Vec::new());
        let each = |room: &mut (YearSolver, Vec<f64>), variant| {
            peak_and_end(&mut room.0, &mut room.1, variant)
        };
        let found: Vec<(f64, f64)> = variants.par_iter().map_init(fresh, each).collect();
        found.into_iter().fold((0.0, 0.0), sum)
    };
    time("one core", count, one);
    time(
        &format!("{} cores", rayon::current_num_threads()),
        count,
        all,
    );
}

fn time(what: &str, count: usize, run: impl Fn() -> (f64, f64)) {
    let mut times = Vec::new();
    let mut sums = (0.0, 0.0);
    for _ in 0..7 {
        let start = Instant::now();
        sums = black_box(run());
        times.push(start.elapsed().as_secs_f64() * 1e6 / count as f64);
    }
    times.sort_by(f64::total_cmp);
    println!(
        "{what}: least {:.3}, median {:.3} µs per variant; peaks {:.6}, year ends {:.6} kg/m²",
        times[0], times[3], sums.0, sums.1
    );
}

/// The benchmark case, a hundred variants in turn: time per hundred.
#[divan::bench]
fn a_hundred_years_of_two_cycles(bencher: Bencher) {
    let variants: Vec<Variant> = (0..100).map(variant).collect();
    let (mut solver, mut held) = (YearSolver::default(), Vec::new());
    bencher.bench_local(|| {
        for variant in &variants {
            black_box(peak_and_end(&mut solver, &mut held, variant));
        }
    });
}

/// With its tables, to the steady cycle.
#[divan::bench]
fn a_whole_year(bencher: Bencher) {
    let (slabs, months) = variant(3);
    let mut solver = YearSolver::default();
    bencher.bench_local(|| solver.solve(black_box(&slabs), black_box(&months)));
}

/// Plywood and gypsum that follow their humidity, to the steady cycle.
#[divan::bench(args = [0, 1, 2, 3, 4, 5])]
fn a_whole_year_that_follows_humidity(bencher: Bencher, number: usize) {
    let (mut slabs, months) = variant(number);
    for n in [0, 3] {
        let z = slabs[n].vapor_resistance;
        slabs[n].by_humidity = vec![(0.25, 2.0 * z), (0.6, z), (0.85, z / 10.0)];
    }
    let mut solver = YearSolver::default();
    bencher.bench_local(|| solver.solve(black_box(&slabs), black_box(&months)));
}
