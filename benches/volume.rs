//! Speed and memory of the solver in three dimensions, on the outside corner of a floor edge.
//!
//! `cargo bench --bench volume -- CELLS [RUNS]` prints a line; `benches/volume.sh` prints the table.
//! Assembly counts, from boxes and grid to the true residual of 10⁻⁸; one thread. Memory is the
//! process's peak over what it held before, and Linux's account of it.

use std::time::Instant;

use dewmargin::model::volume::Volume;
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

pub fn main() {
    // `cargo bench` hands over a `--bench` of its own.
    let numbers = std::env::args().filter_map(|argument| argument.parse::<f64>().ok());
    let numbers: Vec<f64> = numbers.collect();
    let cells = numbers.first().map_or(100_000, |cells| *cells as usize);
    let runs = numbers.get(1).map_or(3, |runs| *runs as usize).max(1);
    let corner = volume::sound(volume::floor_edge_corner(6.35, 25.4));
    let grading = Grid::grading_for(&corner, cells, 1);
    let before = peak_bytes();
    let mut times: Vec<f64> = Vec::new();
    let mut last = None;
    for _ in 0..runs {
        last = None;
        let start = Instant::now();
        let grid = Grid::graded(&corner, &grading, 1).expect("a grid that fits");
        let solution = Solution::on(&corner, grid, &TOLERANCE);
        times.push(start.elapsed().as_secs_f64());
        last.replace(solution);
    }
    let Some(solution) = last else { return };
    print_line(&corner, &solution, &mut times, peak_bytes() - before);
}

fn print_line(corner: &Volume, solution: &Solution, times: &mut [f64], bytes: f64) {
    times.sort_by(f64::total_cmp);
    let (cells, report) = (solution.grid().cells(), solution.report());
    let subfloor = corner.block("subfloor along x").unwrap_or(0);
    let _ = subfloor;
    println!(
        "{cells:>9} {:>15} {:>4} {:>8.1e} {:>8.3} {:>8.3} {:>8.0} {:>6.0} {:>9.5}",
        format!("{:?}", solution.grid().counts()),
        report.iterations,
        report.residual,
        times[0],
        times[times.len() / 2],
        1e9 * times[0] / cells as f64,
        bytes / cells as f64,
        solution.heat_flow(),
    );
}

/// The most memory the process has held, bytes; 0 where the system doesn't tell.
fn peak_bytes() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let number = line.and_then(|line| line.split_whitespace().next()?.parse::<f64>().ok());
    1024.0 * number.unwrap_or(0.0)
}
