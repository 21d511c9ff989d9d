//! The preconditioner: one multigrid V-cycle, smoothed once on the way down and once on the way up.

use super::coarsen::{Merge, Spacing};
use super::coarsest::Coarsest;
use super::network::Network;
use super::smooth::Smoother;

/// So many cells are solved outright: enough for a volume whose every interval is one cell.
const FEW: usize = 4_000;

/// Networks from the finest to the coarsest.
#[derive(Debug)]
pub(super) struct Multigrid {
    levels: Vec<Level>,
    coarsest: Coarsest,
}

#[derive(Debug)]
struct Level {
    network: Network,
    smoother: Smoother,
    /// The way to the next level, one axis at a time.
    merges: Vec<Merge>,
    /// Coarse values on the way, behind each merge.
    between: Vec<Vec<f64>>,
    solution: Vec<f64>,
    residual: Vec<f64>,
}

impl Level {
    /// Takes a network and makes the next one of it.
    fn of(network: Network, spacing: &mut Spacing) -> (Self, Option<Network>) {
        let few = network.layout.counts.iter().product::<usize>() <= FEW;
        let planned = if few { Vec::new() } else { spacing.coarsen() };
        let (mut merges, mut next) = (Vec::new(), None);
        for (axis, first) in planned {
            let (coarser, merge) = Merge::of(next.as_ref().unwrap_or(&network), axis, first);
            next = Some(coarser);
            merges.push(merge);
        }
        let level = Self {
            smoother: Smoother::of(&network),
            between: merges
                .iter()
                .map(|one| vec![0.0; one.coarse_len()])
                .collect(),
            solution: network.layout.zeros(),
            residual: network.layout.zeros(),
            merges,
            network,
        };
        (level, next)
    }

    /// Restricts the residual to the next level.
    fn restrict(&mut self) {
        let mut fine = &self.residual;
        for (merge, coarse) in self.merges.iter().zip(&mut self.between) {
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
    fn smooth(&mut self, right: &[f64]) {
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
    fn update_residual(&mut self, right: &[f64]) {
        let (solution, residual) = (&self.solution, &mut self.residual);
        self.network.residual(right, solution, residual);
    }
}

impl Multigrid {
    pub(super) fn of(network: Network, mut spacing: Spacing) -> Self {
        let (level, mut next) = Level::of(network, &mut spacing);
        let mut last = level;
        let mut levels = Vec::new();
        while let Some(network) = next {
            levels.push(last);
            (last, next) = Level::of(network, &mut spacing);
        }
        let coarsest = Coarsest::of(&last.network);
        levels.push(last);
        Self { levels, coarsest }
    }

    /// The network it was made for.
    pub(super) fn network(&self) -> &Network {
        &self.levels[0].network
    }

    /// Finds about A⁻¹ `right`, by one cycle from zero.
    pub(super) fn precondition(&mut self, right: &[f64]) {
        cycle(&mut self.levels, &self.coarsest, right);
    }

    /// What the last cycle found.
    pub(super) fn solution(&self) -> &[f64] {
        &self.levels[0].solution
    }
}

/// The solution of the first level for a right-hand side.
fn cycle(levels: &mut [Level], coarsest: &Coarsest, right: &[f64]) {
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
