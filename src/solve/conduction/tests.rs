//! The solver itself, on networks no detail would give.

use super::assembly::{Link, Network};
use super::direct::Direct;
use super::solver::{Method, SolveTolerance, Solver};
use crate::model::detail::Facing;

/// Evenly spread numbers below 1, by a linear congruential formula.
struct Numbers(u32);

impl Numbers {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        f64::from(self.0 >> 8) / f64::from(1_u32 << 24)
    }
}

/// Square cells of those conductivities, 0 for a void; films at the left and right ends.
fn network(nx: usize, ny: usize, conductivity: &[f64]) -> Network {
    let mut network = Network {
        nx,
        ny,
        right: vec![0.0; nx * ny],
        up: vec![0.0; nx * ny],
        links: Vec::new(),
        void: 1e-10,
    };
    let between = |a: f64, b: f64| {
        if a * b > 0.0 {
            2.0 * a * b / (a + b)
        } else {
            0.0
        }
    };
    for cell in 0..nx * ny {
        let (column, row) = (cell % nx, cell / nx);
        if column + 1 < nx {
            network.right[cell] = between(conductivity[cell], conductivity[cell + 1]);
        }
        if row + 1 < ny {
            network.up[cell] = between(conductivity[cell], conductivity[cell + nx]);
        }
        for (at_end, boundary) in [(column == 0, 0), (column + 1 == nx, 1)] {
            if at_end && conductivity[cell] > 0.0 {
                network.links.push(Link {
                    cell: cell as u32,
                    boundary,
                    facing: Facing::Left,
                    conductance: 0.1,
                    film_share: 0.5,
                });
            }
        }
    }
    network
}

/// Blocks of so many cells, of one conductivity or of another 2000 times as high.
fn blocks(size: usize, n: usize, numbers: &mut Numbers) -> Vec<f64> {
    let across = n.div_ceil(size);
    let kinds: Vec<f64> = (0..across * across)
        .map(|_| if numbers.next() < 0.5 { 0.025 } else { 50.0 })
        .collect();
    (0..n * n)
        .map(|cell| kinds[cell / n / size * across + cell % n / size])
        .collect()
}

fn solve(network: Network) -> (Vec<f64>, super::SolveReport) {
    Solver::of(network).solve(&[-10.0, 20.0], &SolveTolerance::default())
}

#[test]
fn every_shape_of_grid_is_solved() {
    for (nx, ny) in [
        (1, 1),
        (1, 9),
        (9, 1),
        (2, 3),
        (3, 2),
        (31, 4),
        (32, 5),
        (33, 5),
        (65, 7),
        (130, 3),
    ] {
        let (temperature, report) = solve(network(nx, ny, &vec![1.0; nx * ny]));
        assert!(
            report.converged && report.method == Method::Iterative,
            "{nx} x {ny}: {report:?}"
        );
        // One-dimensional: two films of 10 and the cells' widths between their centers.
        let resistance = 20.0 + (nx - 1) as f64;
        for (cell, got) in temperature.iter().enumerate() {
            let want = -10.0 + 30.0 * (10.0 + (cell % nx) as f64) / resistance;
            assert!(
                (got - want).abs() < 1e-7,
                "{nx} x {ny}, cell {cell}: {got}, want {want}"
            );
        }
    }
}

/// Seen: 59 iterations and more on such patchworks; a round is 40.
#[test]
fn hard_patchworks_are_solved_by_iteration() {
    let mut numbers = Numbers(7);
    let conductivity = blocks(4, 96, &mut numbers);
    let (_, report) = solve(network(96, 96, &conductivity));
    assert!(report.converged, "{report:?}");
}

/// A patchwork full of voids: the iterations may stagnate, the answer may not.
#[test]
fn what_iterations_cannot_do_is_factored() {
    let mut numbers = Numbers(1);
    let n = 96;
    let mut conductivity = blocks(3, n, &mut numbers);
    for value in &mut conductivity {
        if numbers.next() < 0.25 {
            *value = 0.0;
        }
    }
    let reached = reached(n, &conductivity);
    for (value, reached) in conductivity.iter_mut().zip(reached) {
        *value = if reached { *value } else { 0.0 };
    }
    let perforated = network(n, n, &conductivity);
    let (temperature, report) = solve(perforated.clone());
    assert!(report.converged, "{report:?}");
    assert_eq!(report.method, Method::Direct, "{report:?}");
    // Factored from the start: the same temperatures.
    let direct = Direct::of(&perforated).expect("small and sound");
    let mut other = vec![0.0; n * n];
    let mut source = vec![0.0; n * n];
    perforated.add_source(&[0.0, 30.0], &mut source);
    direct.correct(&source, &mut other);
    for (cell, (got, want)) in temperature.iter().zip(&other).enumerate() {
        assert!(
            (got + 10.0 - want).abs() < 1e-4,
            "cell {cell}: {got} {want}"
        );
    }
}

/// Which cells hang together with the left or right end.
fn reached(n: usize, conductivity: &[f64]) -> Vec<bool> {
    let mut reached = vec![false; n * n];
    let at_end = |cell: &usize| [0, n - 1].contains(&(cell % n));
    let mut open: Vec<usize> = (0..n * n).filter(at_end).collect();
    while let Some(cell) = open.pop() {
        if conductivity[cell] == 0.0 || std::mem::replace(&mut reached[cell], true) {
            continue;
        }
        let (column, row) = (cell % n, cell / n);
        open.extend((column > 0).then(|| cell - 1));
        open.extend((column + 1 < n).then_some(cell + 1));
        open.extend((row > 0).then(|| cell - n));
        open.extend((row + 1 < n).then_some(cell + n));
    }
    reached
}
