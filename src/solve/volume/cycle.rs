//! The preconditioner: one multigrid V-cycle, smoothed once on the way down and once on the way up.
//!
//! It works in single precision, which halves what has to be moved and changes no result: conjugate gradients
//! with the network in double precision stop by the true residual.

use super::coarsen::{Merge, Spacing};
use super::coarsest::Coarsest;
use super::network::Network;
use super::smooth::Smoother;

/// So many cells are solved outright: the factors of more of them cost more than another level.
const FEW: usize = 1_000;

/// Networks from the finest to the coarsest.
#[derive(Debug)]
pub(super) struct Multigrid {
    network: Network,
    right: Vec<f32>,
    levels: Vec<Level>,
    coarsest: Coarsest,
}

#[derive(Debug)]
struct Level {
    network: Network<f32>,
    smoother: Smoother,
    /// The way to the next level, one axis at a time.
    merges: Vec<Merge>,
    /// Coarse values on the way, behind each merge.
    between: Vec<Vec<f32>>,
    solution: Vec<f32>,
    residual: Vec<f32>,
}

impl Level {
    /// Takes a network and makes the next one of it.
    fn of(network: &Network, spacing: &mut Spacing) -> (Self, Option<Network>) {
        let few = network.layout.counts.iter().product::<usize>() <= FEW;
        let planned = if few { Vec::new() } else { spacing.coarsen() };
        let (mut merges, mut next) = (Vec::new(), None);
        for (axis, first) in planned {
            let (coarser, merge) = Merge::of(next.as_ref().unwrap_or(network), axis, first);
            next = Some(coarser);
            merges.push(merge);
        }
        let level = Self {
            smoother: Smoother::of(network),
            between: merges
                .iter()
                .map(|one| vec![0.0; one.coarse_len()])
                .collect(),
            solution: network.layout.zeros(),
            residual: network.layout.zeros(),
            merges,
            network: network.in_single(),
        };
        (level, next)
    }

    /// Restricts the residual to the next level.
    fn restrict(&mut self) {
        let mut fine = &self.residual;
        for (merge, coarse) in self.merges.iter().zip(&mut self.between) {
            // The way up leaves corrections in cells of air, and a pair may be half of air.
            coarse.fill(0.0);
            merge.restrict(fine, coarse);
            fine = coarse;
        }
    }

    /// Adds what stands behind the last merge, the next level's solution.
    fn correct(&mut self) {
        for (at, merge) in self.merges.iter().enumerate().rev() {
            let (before, behind) = self.between.split_at_mut(at);
            match before.last_mut() {
                Some(fine) => merge.prolong(&behind[0], fine),
                None => merge.correct(&behind[0], &mut self.solution),
            }
        }
    }

    /// The solution from zero by the smoother alone.
    fn smooth(&mut self, right: &[f32]) {
        let solution = &mut self.solution;
        self.smoother.solve(&self.network, right, solution);
    }

    /// Adds what the smoother makes of the residual.
    fn smooth_again(&mut self) {
        let residual = &mut self.residual;
        self.smoother.solve_in_place(&self.network, residual);
        for row in &self.network.rows {
            let cells = row.at..row.at + row.len;
            let changes = self.residual[cells.clone()].iter();
            for (value, change) in self.solution[cells].iter_mut().zip(changes) {
                *value += change;
            }
        }
    }

    /// residual = right − A solution.
    fn update_residual(&mut self, right: &[f32]) {
        let (solution, residual) = (&self.solution, &mut self.residual);
        self.network.residual(right, solution, residual);
    }
}

impl Multigrid {
    pub(super) fn of(network: Network, mut spacing: Spacing) -> Self {
        let (level, mut next) = Level::of(&network, &mut spacing);
        let mut levels = vec![level];
        let mut last = None;
        while let Some(coarser) = next {
            let (level, after) = Level::of(&coarser, &mut spacing);
            levels.push(level);
            (last, next) = (Some(coarser), after);
        }
        Self {
            coarsest: Coarsest::of(last.as_ref().unwrap_or(&network)),
            right: network.layout.zeros(),
            levels,
            network,
        }
    }

    /// The network it was made for.
    pub(super) fn network(&self) -> &Network {
        &self.network
    }

    /// Finds about A⁻¹ `right` / `norm`, by one cycle from zero; with the right-hand side's norm no number
    /// of it is too small for single precision.
    pub(super) fn precondition(&mut self, right: &[f64], norm: f64) {
        for row in &self.network.rows {
            let cells = row.at..row.at + row.len;
            for (single, value) in self.right[cells.clone()].iter_mut().zip(&right[cells]) {
                *single = (value / norm) as f32;
            }
        }
        cycle(&mut self.levels, &self.coarsest, &self.right);
    }

    /// What the last cycle found.
    pub(super) fn solution(&self) -> &[f32] {
        &self.levels[0].solution
    }
}

/// The solution of the first level for a right-hand side.
fn cycle(levels: &mut [Level], coarsest: &Coarsest, right: &[f32]) {
    let Some((level, rest)) = levels.split_first_mut() else {
        return;
    };
    if rest.is_empty() {
        coarsest.solve(right, &mut level.solution);
        return;
    }
    level.smooth(right);
    level.update_residual(right);
    level.restrict();
    let Some(mut behind) = level.between.pop() else {
        return;
    };
    cycle(rest, coarsest, &behind);
    std::mem::swap(&mut behind, &mut rest[0].solution);
    level.between.push(behind);
    level.correct();
    level.update_residual(right);
    level.smooth_again();
}
