//! Conjugate gradients on a network, stopped by the true residual.
//!
//! Iterations run in rounds. After each the residual is computed anew from the temperatures, and the
//! next round solves for what is left.

use super::coarsen::Spacing;
use super::cycle::Multigrid;
use super::network::{Network, Row};
use crate::solve::conduction::{SolveReport, SolveTolerance};

/// The most iterations; ten are usual.
const MOST_ITERATIONS: usize = 400;
/// The most rounds.
const MOST_ROUNDS: usize = 8;
/// A round that leaves more of the true residual than this part has stagnated.
const LEAST_GAIN: f64 = 0.5;
/// Aimed at by recurrence, against what is asked: room for rounding between recurrence and truth.
const AIM: f64 = 0.3;

/// Solves a network for temperatures over that of its coldest boundary, K. `source` is the heat fed
/// into each cell while all cells are that cold, W; `imbalance` tells of temperatures what comes in
/// less what goes out, relative to what comes in.
pub(super) fn solve(
    network: Network,
    spacing: Spacing,
    source: Vec<f64>,
    tolerance: &SolveTolerance,
    imbalance: impl Fn(&[f64]) -> f64,
) -> (Vec<f64>, SolveReport) {
    let mut x = network.layout.zeros();
    let whole = network.dot(&source, &source).sqrt();
    let mut report = SolveReport::without_heat();
    if whole == 0.0 {
        return (x, report);
    }
    let mut multigrid = Multigrid::of(network, spacing);
    let mut search = Search::from_zero(multigrid.network(), &source, whole);
    let by_residual = tolerance.residual * whole;
    let mut target = by_residual;
    for _ in 0..MOST_ROUNDS {
        let before = search.norm;
        report.iterations += search.round(&mut multigrid, &mut x, AIM * target);
        search.renew(multigrid.network(), &source, &x);
        report.residual = search.norm / whole;
        report.imbalance = imbalance(&x);
        let is_small = report.residual <= tolerance.residual
            || search.norm <= rounding(multigrid.network(), &x);
        report.converged = is_small && report.imbalance <= tolerance.imbalance;
        // A residual that isn't a number counts as stagnation too.
        let gained = search.norm <= LEAST_GAIN * before;
        if report.converged || !gained || report.iterations >= MOST_ITERATIONS {
            break;
        }
        target = by_residual.min(search.norm * tolerance.imbalance / report.imbalance);
    }
    (x, report)
}

/// The residual that rounding of the temperatures alone leaves, W: none can be smaller.
fn rounding(network: &Network, x: &[f64]) -> f64 {
    let of_row = |row: &Row| -> f64 {
        let cells = row.at..row.at + row.len;
        let terms = cells.map(|cell| network.diagonal(cell) * x[cell]);
        terms.map(|term| term * term).sum()
    };
    f64::EPSILON * network.rows.iter().map(of_row).sum::<f64>().sqrt()
}

/// The vectors of the conjugate gradients.
struct Search {
    residual: Vec<f64>,
    norm: f64,
    direction: Vec<f64>,
    /// A times the direction.
    image: Vec<f64>,
}

impl Search {
    fn from_zero(network: &Network, source: &[f64], norm: f64) -> Self {
        let mut residual = vec![0.0; source.len()];
        for (to, from) in rows(network, &mut residual, source) {
            to.copy_from_slice(from);
        }
        Self {
            residual,
            norm,
            direction: vec![0.0; source.len()],
            image: vec![0.0; source.len()],
        }
    }

    /// Improves x until the residual's norm, by recurrence, is down to the aim: so many iterations.
    fn round(&mut self, multigrid: &mut Multigrid, x: &mut [f64], aim: f64) -> usize {
        let mut energy = f64::INFINITY;
        for iteration in 0..MOST_ITERATIONS {
            if self.norm <= aim {
                return iteration;
            }
            multigrid.precondition(&self.residual, self.norm);
            let (network, change) = (multigrid.network(), multigrid.solution());
            let last = energy;
            energy = self.norm * network.dot(&self.residual, change);
            // At first energy / ∞ = 0: down the preconditioned residual.
            let kept = energy / last;
            for (to, from) in rows(network, &mut self.direction, change) {
                for (to, from) in to.iter_mut().zip(from) {
                    *to = self.norm * f64::from(*from) + kept * *to;
                }
            }
            let curvature = network.apply(&self.direction, &mut self.image);
            let step = energy / curvature;
            if !step.is_finite() {
                return iteration;
            }
            add(network, step, &self.direction, x);
            add(network, -step, &self.image, &mut self.residual);
            self.norm = network.dot(&self.residual, &self.residual).sqrt();
        }
        MOST_ITERATIONS
    }

    /// The residual as the temperatures have it.
    fn renew(&mut self, network: &Network, source: &[f64], x: &[f64]) {
        network.residual(source, x, &mut self.residual);
        self.norm = network.dot(&self.residual, &self.residual).sqrt();
    }
}

/// The solid rows of two arrays side by side.
fn rows<'a, T>(
    network: &'a Network,
    mut to: &'a mut [f64],
    from: &'a [T],
) -> impl Iterator<Item = (&'a mut [f64], &'a [T])> {
    let mut done = 0;
    network.rows.iter().map(move |row| {
        let rest = std::mem::take(&mut to);
        let (row_of_to, after) = rest[row.at - done..].split_at_mut(row.len);
        to = after;
        done = row.at + row.len;
        (row_of_to, &from[row.at..][..row.len])
    })
}

/// to += factor · from over the solid.
fn add(network: &Network, factor: f64, from: &[f64], to: &mut [f64]) {
    for (to, from) in rows(network, to, from) {
        for (to, from) in to.iter_mut().zip(from) {
            *to += factor * from;
        }
    }
}
