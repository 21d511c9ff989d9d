//! From a network to temperatures that are as good as claimed.
//!
//! Iterations run in rounds. After each the residual is computed anew from the temperatures; the
//! next round solves for what is left. A round that gains too little is stagnation: then the
//! matrix is factored instead.

use super::assembly::Network;
use super::direct::Direct;
use super::reduced::Reduced;

/// Iterations of a round.
const ROUND: usize = 40;
/// The most rounds.
const MOST_ROUNDS: usize = 8;
/// A round that neither reaches its aim nor brings the residual below this part of the last one
/// has stagnated: factoring is cheaper than some two hundred iterations.
const LEAST_GAIN: f64 = 0.01;
/// So has one that reaches its aim by recurrence and not even this part in truth.
const LEAST_TRUE_GAIN: f64 = 0.5;
/// Aimed at, against what is asked: room for rounding between recurrence and truth.
const AIM: f64 = 0.3;

/// How a system is solved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// Conjugate gradients with the semi-coarsening cycle.
    Iterative,
    /// Sparse Cholesky, after the iterations had stagnated.
    Direct,
}

/// How well a system is solved; both numbers are computed from the temperatures themselves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SolveReport {
    /// ‖b − A x‖ / ‖b‖.
    pub residual: f64,
    /// Heat that comes in less heat that goes out, relative to what comes in.
    pub imbalance: f64,
    /// Of the conjugate gradients, over all rounds.
    pub iterations: usize,
    /// What gave the result.
    pub method: Method,
    /// Whether both numbers are as small as asked for. A result that isn't may not be trusted.
    pub converged: bool,
}

impl SolveReport {
    /// Of a system in which no heat flows: solved before it is begun.
    pub(in crate::solve) const fn without_heat() -> Self {
        Self {
            residual: 0.0,
            imbalance: 0.0,
            iterations: 0,
            method: Method::Iterative,
            converged: true,
        }
    }
}

/// What is asked of a solution.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SolveTolerance {
    /// Of ‖b − A x‖ / ‖b‖, unless rounding alone leaves more: ε ‖D x‖ with the matrix's diagonal D.
    pub residual: f64,
    /// Of the heat balance, relative to the heat that comes in.
    pub imbalance: f64,
}

impl Default for SolveTolerance {
    fn default() -> Self {
        Self {
            residual: 1e-10,
            imbalance: 1e-8,
        }
    }
}

/// A network made ready for any temperatures at its boundaries.
#[derive(Debug)]
pub(super) struct Solver {
    pub(super) network: Network,
    reduced: Reduced,
    direct: Option<Direct>,
}

/// What is left of the equations, computed from the temperatures.
struct Left {
    residual: Vec<f64>,
    norm: f64,
    imbalance: f64,
}

impl Solver {
    pub(super) fn of(network: Network) -> Self {
        Self {
            reduced: Reduced::of(&network),
            network,
            direct: None,
        }
    }

    /// Temperatures of all cells, °C; in air, that of the coldest boundary.
    pub(super) fn solve(
        &mut self,
        boundary_temperatures: &[f64],
        tolerance: &SolveTolerance,
    ) -> (Vec<f64>, SolveReport) {
        // Measured from the coldest boundary, so that the result is the same in any scale.
        let coldest = boundary_temperatures.iter().copied();
        let coldest = coldest.fold(f64::INFINITY, f64::min);
        let excess: Vec<f64> = boundary_temperatures.iter().map(|t| t - coldest).collect();
        let (mut temperature, report) = self.solve_excess(&excess, tolerance);
        for value in &mut temperature {
            *value += coldest;
        }
        (temperature, report)
    }

    fn solve_excess(
        &mut self,
        excess: &[f64],
        tolerance: &SolveTolerance,
    ) -> (Vec<f64>, SolveReport) {
        let cells = self.network.nx * self.network.ny;
        let mut temperature = vec![0.0; cells];
        let mut residual = vec![0.0; cells];
        self.network.add_source(excess, &mut residual);
        let whole = norm(&residual);
        let mut report = SolveReport::without_heat();
        if whole == 0.0 {
            return (temperature, report);
        }
        let mut left = Left {
            residual,
            norm: whole,
            imbalance: 1.0,
        };
        for _ in 0..MOST_ROUNDS {
            let last = left.norm;
            let reached = self.improve(&left, whole, tolerance, &mut report, &mut temperature);
            self.renew(&mut left, excess, &temperature);
            report.residual = left.norm / whole;
            report.imbalance = left.imbalance;
            let is_small = report.residual <= tolerance.residual
                || report.imbalance <= tolerance.imbalance
                    && left.norm <= self.rounding(&temperature);
            report.converged = is_small && report.imbalance <= tolerance.imbalance;
            if report.converged {
                break;
            }
            let least = if reached { LEAST_TRUE_GAIN } else { LEAST_GAIN };
            // A residual that isn't a number counts as stagnation too.
            let gained = left.norm <= least * last;
            if !gained && !self.turn_to_factors(&mut report) {
                break;
            }
        }
        (temperature, report)
    }

    /// The residual that rounding of the temperatures alone leaves, W/m: none can be smaller, and where steel
    /// meets foam it is more than a share of the heat that foam lets in.
    fn rounding(&self, temperature: &[f64]) -> f64 {
        let mut sum = 0.0;
        self.network.diagonals(|row, diagonal| {
            let here = &temperature[row * self.network.nx..];
            let terms = diagonal.iter().zip(here).map(|(entry, t)| entry * t);
            sum += terms.map(|term| term * term).sum::<f64>();
        });
        f64::EPSILON * sum.sqrt()
    }

    /// Whether there are factors to go on with, and there were none before.
    fn turn_to_factors(&mut self, report: &mut SolveReport) -> bool {
        if report.method == Method::Direct {
            return false;
        }
        self.direct = self.direct.take().or_else(|| Direct::of(&self.network));
        report.method = Method::Direct;
        self.direct.is_some()
    }

    /// One round: whether it reached what it aimed at.
    fn improve(
        &mut self,
        left: &Left,
        whole: f64,
        tolerance: &SolveTolerance,
        report: &mut SolveReport,
        temperature: &mut [f64],
    ) -> bool {
        if let (Method::Direct, Some(direct)) = (report.method, &self.direct) {
            direct.correct(&left.residual, temperature);
            return true;
        }
        let by_residual = tolerance.residual * whole;
        let by_balance = left.norm * tolerance.imbalance / left.imbalance;
        // The balance says nothing before there is a first solution.
        let target = if report.iterations == 0 {
            by_residual
        } else {
            by_residual.min(by_balance)
        };
        let run = self
            .reduced
            .correct(&left.residual, AIM * target, ROUND, temperature);
        report.iterations += run.iterations;
        run.norm <= AIM * target
    }

    fn renew(&self, left: &mut Left, excess: &[f64], temperature: &[f64]) {
        left.residual.fill(0.0);
        self.network.add_source(excess, &mut left.residual);
        self.network
            .subtract_outflow(temperature, &mut left.residual);
        left.norm = norm(&left.residual);
        let (mut sum, mut inflow) = (0.0, 0.0);
        for flow in self.network.flows(excess, temperature) {
            sum += flow;
            inflow += f64::max(flow, 0.0);
        }
        left.imbalance = if inflow == 0.0 {
            0.0
        } else {
            f64::abs(sum) / inflow
        };
    }
}

fn norm(vector: &[f64]) -> f64 {
    vector.iter().map(|value| value * value).sum::<f64>().sqrt()
}
