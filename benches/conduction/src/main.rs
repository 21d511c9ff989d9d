//! Our conduction solver beside faer's sparse Cholesky: the same matrix, from the matrix to the
//! temperatures, one thread. `benches/conduction/run.sh` runs it and the Python peers.
//!
//! - `conduction-bench matrix CELLS FILE`: writes the reference edge's equations.
//! - `conduction-bench ours|faer|whole CELLS RUNS`: prints `name cells ms` for each run; `whole`
//!   is ours from the rectangles to the heat flow.

use std::error::Error;
use std::fs::File;
use std::io::{BufWriter, Write};
use std::time::Instant;

use dewmargin::model::detail::Detail;
use dewmargin::solve::conduction::{Equations, Grading, Grid, Solution, SolveTolerance, System};
use faer::prelude::*;
use faer::sparse::{SparseColMat, Triplet};

#[allow(dead_code)] // Made for tests, which use all of it.
#[path = "../../../tests/support/detail.rs"]
mod detail;

/// As the peers are run: residual 1e-8.
const TOLERANCE: SolveTolerance = SolveTolerance {
    residual: 1e-8,
    imbalance: f64::INFINITY,
};

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [kind, cells, last] = &arguments[..] else {
        return Err("expected: matrix CELLS FILE, or ours|faer|whole CELLS RUNS".into());
    };
    let cells: f64 = cells.parse()?;
    let detail = detail::sound(detail::reference_edge(0.0));
    let grading = grading(&detail, cells as usize);
    let grid = Grid::graded(&detail, &grading, 1)?;
    if kind == "matrix" {
        return write(&System::of(&detail, &grid).equations(), last);
    }
    faer::set_global_parallelism(faer::Par::Seq);
    let print = |milliseconds: f64| println!("{kind} {cells:e} {milliseconds:.4}");
    let runs = 0..last.parse::<usize>()?;
    if kind == "whole" {
        // Without the equations, so that the process's memory is the solver's.
        for _ in runs {
            print(whole(&detail, &grading)?);
        }
        return Ok(());
    }
    let system = System::of(&detail, &grid);
    let equations = system.equations();
    for _ in runs {
        print(match kind.as_str() {
            "ours" => ours(&system, &equations),
            _ => by_faer(&equations)?,
        });
    }
    Ok(())
}

/// The scale that gives at most so many cells, by bisection.
fn grading(detail: &Detail, most: usize) -> Grading {
    let with = |scale| Grading {
        at_edge: 4e-4,
        growth: 0.3,
        scale,
    };
    let (mut low, mut high) = (1e-3_f64, 50.0_f64);
    for _ in 0..60 {
        let middle = (low * high).sqrt();
        match Grid::graded(detail, &with(middle), 1) {
            Ok(grid) if grid.cells() <= most => high = middle,
            _ => low = middle,
        }
    }
    with(high)
}

fn since(start: Instant) -> f64 {
    start.elapsed().as_secs_f64() * 1e3
}

fn ours(system: &System, equations: &Equations) -> f64 {
    let system = system.clone();
    let start = Instant::now();
    let (temperature, report) = system.solve(&TOLERANCE);
    let time = since(start);
    // From the coldest boundary, as the equations count.
    let unknowns: Vec<f64> = equations
        .cells
        .iter()
        .map(|cell| temperature[*cell] + 10.0)
        .collect();
    eprintln!(
        "ours: {} iterations, residual {:.1e} by its own account, {:.1e} by the matrix",
        report.iterations,
        report.residual,
        residual(equations, &unknowns)
    );
    time
}

fn whole(detail: &Detail, grading: &Grading) -> Result<f64, Box<dyn Error>> {
    let start = Instant::now();
    let grid = Grid::graded(detail, grading, 1)?;
    let flow = Solution::on(detail, grid, &TOLERANCE).heat_flow();
    let time = since(start);
    eprintln!("whole: {flow} W/m");
    Ok(time)
}

fn by_faer(equations: &Equations) -> Result<f64, Box<dyn Error>> {
    let n = equations.cells.len();
    let entry = |&(row, column, value): &(usize, usize, f64)| {
        Triplet::new(row as u32, column as u32, value)
    };
    let entries: Vec<Triplet<u32, u32, f64>> = equations.entries.iter().map(entry).collect();
    let matrix = SparseColMat::<u32, f64>::try_new_from_triplets(n, n, &entries)
        .map_err(|error| format!("{error:?}"))?;
    let right = Mat::from_fn(n, 1, |row, _| equations.right_hand_side[row]);
    let start = Instant::now();
    let factors = matrix
        .sp_cholesky(faer::Side::Lower)
        .map_err(|error| format!("{error:?}"))?;
    let solution = factors.solve(&right);
    let time = since(start);
    let unknowns: Vec<f64> = (0..n).map(|row| solution[(row, 0)]).collect();
    eprintln!("faer: residual {:.1e}", residual(equations, &unknowns));
    Ok(time)
}

fn residual(equations: &Equations, unknowns: &[f64]) -> f64 {
    let mut left = equations.right_hand_side.clone();
    for &(row, column, value) in &equations.entries {
        left[row] -= value * unknowns[column];
    }
    let norm = |values: &[f64]| values.iter().map(|v| v * v).sum::<f64>().sqrt();
    norm(&left) / norm(&equations.right_hand_side)
}

/// Unknowns and entries as 8-byte numbers, then rows, columns, values, right-hand side.
fn write(equations: &Equations, file: &str) -> Result<(), Box<dyn Error>> {
    let mut out = BufWriter::new(File::create(file)?);
    let counts = [equations.cells.len(), equations.entries.len()];
    let rows = equations.entries.iter().map(|entry| entry.0);
    let columns = equations.entries.iter().map(|entry| entry.1);
    for number in counts.into_iter().chain(rows).chain(columns) {
        out.write_all(&(number as u64).to_le_bytes())?;
    }
    let values = equations.entries.iter().map(|entry| entry.2);
    for value in values.chain(equations.right_hand_side.iter().copied()) {
        out.write_all(&value.to_le_bytes())?;
    }
    Ok(out.flush()?)
}
