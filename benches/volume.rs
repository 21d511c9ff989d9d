//! Speed and memory of the solver in three dimensions, on the outside corner of a floor edge.
//!
//! `cargo bench --bench volume -- CELLS [RUNS]` prints a line; `benches/volume.sh` prints the table.
//! Timed is all from the boxes to a true residual of 10⁻⁸, on one thread: wall clock and, where Linux
//! tells it, the thread's own time, which other work on the machine disturbs less. Memory is the
//! process's peak over what it held before.

use std::time::Instant;

use dewmargin::solve::conduction::SolveTolerance;
use dewmargin::solve::volume::{Grid, Solution};

#[allow(dead_code)] // Made for tests, which use all of it.
#[path = "../tests/support/volume.rs"]
mod volume;

/// As the study's candidates were run.
const TOLERANCE: SolveTolerance = SolveTolerance {
    residual: 1e-8,
    imbalance: f64::INFINITY,
};

fn main() {
    // `cargo bench` hands over a `--bench` of its own.
    let numbers = std::env::args().filter_map(|argument| argument.parse::<f64>().ok());
    let numbers: Vec<f64> = numbers.collect();
    let cells = numbers.first().map_or(100_000, |cells| *cells as usize);
    let runs = numbers.get(1).map_or(3, |runs| *runs as usize).max(1);
    let corner = volume::sound(volume::floor_edge_corner(6.35, 25.4));
    let grading = Grid::grading_for(&corner, cells, 1);
    let held_before = peak_bytes();
    let (mut wall, mut own) = (f64::INFINITY, f64::INFINITY);
    for _ in 0..runs {
        let (start, own_start) = (Instant::now(), own_seconds());
        let grid = Grid::graded(&corner, &grading, 1).expect("a grid that fits");
        let solution = Solution::on(&corner, grid, &TOLERANCE);
        wall = wall.min(start.elapsed().as_secs_f64());
        own = own.min(own_seconds() - own_start);
        print_line(&solution, (wall, own), peak_bytes() - held_before);
    }
}

/// The best times so far, s, and the memory held at most, bytes.
#[allow(clippy::print_stdout)] // What it is for.
fn print_line(solution: &Solution, (wall, own): (f64, f64), bytes: f64) {
    let (cells, report) = (solution.grid().cells() as f64, solution.report());
    println!(
        "{cells:>9} cells {:>3} iterations, residual {:.1e}: {wall:.3} s, own time {own:.3} s ({:.0} ns a cell), {:.0} bytes a cell, {:.5} W",
        report.iterations,
        report.residual,
        1e9 * own / cells,
        bytes / cells,
        solution.heat_flow(),
    );
}

/// What the thread has run so far, s; 0 where the system doesn't tell.
fn own_seconds() -> f64 {
    let status = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    let nanoseconds = status.split_whitespace().next();
    1e-9 * nanoseconds
        .and_then(|one| one.parse::<f64>().ok())
        .unwrap_or(0.0)
}

/// The most memory the process has held, bytes; 0 where the system doesn't tell.
fn peak_bytes() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let number = line.and_then(|line| line.split_whitespace().next()?.parse::<f64>().ok());
    1024.0 * number.unwrap_or(0.0)
}
