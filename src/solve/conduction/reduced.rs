//! Conjugate gradients on the odd columns alone, preconditioned by the V-cycle.
//!
//! In a five-point matrix even columns couple to odd ones only, so the even ones can be
//! eliminated line by line: with E, O the lines and B the coupling of odd to even,
//!
//! ```text
//! S x_O = r_O,   S = O − B E⁻¹ Bᵀ,   x_E = E⁻¹ (r_E − Bᵀ x_O)
//! ```
//! The residual at the even columns stays zero. Then a V-cycle starts with an odd solve only,
//! and its last two steps hold S z already: with z_O the cycle's result, e the coarse
//! correction and d = −E⁻¹ Bᵀ z_O − e,
//!
//! ```text
//! S z_O = r_O + B d
//! ```
//! so no iteration multiplies by the matrix. All vectors live on half the cells. The two inner
//! products are taken in one pass (Chronopoulos and Gear 1989, "s-step iterative methods for
//! symmetric linear systems", J. Comput. Appl. Math. 25; from memory).

use super::assembly::Network;
use super::cycle::{self, Level};
use super::lanes::{
    Columns, LANES, Row, ZERO, add_joined, add_product, by_lane, from_right, product, split,
    sub_product, sum,
};
use super::line::{EvenWeights, Lines};
use super::stencil::Stencil;

/// How a run of iterations ended.
#[derive(Clone, Copy, Debug)]
pub(super) struct Run {
    pub(super) iterations: usize,
    /// Of the residual by recurrence.
    pub(super) norm: f64,
}

/// The preconditioned system of one network.
#[derive(Debug)]
pub(super) struct Reduced {
    nx: usize,
    ny: usize,
    even: Lines,
    odd: Lines,
    /// Of odd columns to their left and right neighbors.
    left: Columns,
    right: Columns,
    coarse: Vec<Level>,
    vectors: Vectors,
    zero: Vec<Row>,
    /// Whether vectors hold anything yet.
    is_used: bool,
}

/// Residual, solution and directions at the odd columns; the rest at the even ones.
#[derive(Debug)]
struct Vectors {
    residual: Columns,
    solution: Columns,
    direction: Columns,
    /// S times the direction.
    image: Columns,
    /// z, the preconditioned residual.
    conditioned: Columns,
    /// S z − r.
    excess: Columns,
    /// Right-hand side of the even columns; during iterations their last change, d.
    even_side: Columns,
    even: Columns,
}

impl Vectors {
    fn zero(columns: usize, ny: usize) -> Self {
        let zero = || Columns::zero(columns, ny);
        Self {
            residual: zero(),
            solution: zero(),
            direction: zero(),
            image: zero(),
            conditioned: zero(),
            excess: zero(),
            even_side: zero(),
            even: zero(),
        }
    }

    /// Those that a new run expects to be zero.
    fn clear(&mut self) {
        self.solution.clear();
        self.direction.clear();
        self.image.clear();
        self.conditioned.clear();
        self.excess.clear();
    }
}

/// Step lengths of the conjugate gradients.
#[derive(Clone, Copy, Debug, Default)]
struct Step {
    along: f64,
    keep: f64,
    conditioned_residual: f64,
}

impl Step {
    /// The next step from rᵀz and zᵀSz.
    fn next(&self, conditioned_residual: f64, energy: f64) -> Self {
        if self.along == 0.0 {
            return Self {
                along: conditioned_residual / energy,
                keep: 0.0,
                conditioned_residual,
            };
        }
        let keep = conditioned_residual / self.conditioned_residual;
        Self {
            along: conditioned_residual / (energy - keep * conditioned_residual / self.along),
            keep,
            conditioned_residual,
        }
    }
}

/// Lets the allocator keep what one grid's solution takes for the next one's. Many blocks of
/// middling size go back to the system when they are freed, and fetching them again page by page
/// costs up to a third of a solution (measured at 1e4 and 1e5 cells); a great one that was freed
/// tells common allocators that such sizes come and go. It is never touched, so it costs nothing.
fn keep_memory(cells: usize) {
    const BYTES_OF_A_CELL: usize = 200;
    const MOST: usize = 30 << 20;
    let size = (cells * BYTES_OF_A_CELL).clamp(1 << 20, MOST);
    drop(std::hint::black_box(Vec::<u8>::with_capacity(size)));
}

impl Reduced {
    pub(super) fn of(network: &Network) -> Self {
        let (nx, ny) = (network.nx, network.ny);
        keep_memory(nx * ny);
        let mut stencil = Stencil::of(network);
        let coarse = cycle::levels(stencil.coarsen::<false>());
        let Stencil {
            even,
            odd,
            left,
            right,
            ..
        } = stencil;
        Self {
            nx,
            ny,
            even: Lines::factor(even),
            odd: Lines::factored(odd),
            left: left.level,
            right: right.level,
            coarse,
            vectors: Vectors::zero(nx.div_ceil(2), ny),
            zero: vec![ZERO; ny + 2],
            is_used: false,
        }
    }

    /// Solves A x = `residual` until the norm of what is left is at most `target`, and adds x.
    pub(super) fn correct(
        &mut self,
        residual: &[f64],
        target: f64,
        most_iterations: usize,
        solution: &mut [f64],
    ) -> Run {
        self.start(residual);
        let mut step = Step::default();
        let mut run = Run {
            iterations: 0,
            norm: f64::INFINITY,
        };
        loop {
            let square = self.descend(&step);
            run.norm = square.sqrt();
            // A norm that isn't a number ends it too.
            let unsolved = run.norm > target;
            if !unsolved || run.iterations == most_iterations {
                break;
            }
            cycle::cycle(&mut self.coarse);
            let (conditioned_residual, energy) = self.ascend();
            if !(conditioned_residual > 0.0 && energy.is_finite()) {
                break;
            }
            step = step.next(conditioned_residual, energy);
            run.iterations += 1;
        }
        self.finish(residual, solution);
        run
    }

    fn panels(&self) -> usize {
        self.left.panels()
    }

    /// Eliminates the even columns from a residual given row by row.
    fn start(&mut self, residual: &[f64]) {
        let v = &mut self.vectors;
        if std::mem::replace(&mut self.is_used, true) {
            v.clear();
        }
        for (row, values) in residual.chunks_exact(self.nx).enumerate() {
            for panel in 0..self.left.panels() {
                let (even, odd) = split(values, panel, 0.0);
                *v.even_side.row_mut(panel, row) = even;
                *v.residual.row_mut(panel, row) = odd;
            }
        }
        for panel in 0..self.left.panels() {
            let x = v.even.panel_mut(panel);
            let rhs = &v.even_side.panel(panel)[..x.len()];
            self.even.solve(panel, x, |y| rhs[y]);
        }
        for panel in 0..self.left.panels() {
            let residual = v.residual.panel_mut(panel);
            let rows = residual.len();
            let (left, right) = (
                &self.left.panel(panel)[..rows],
                &self.right.panel(panel)[..rows],
            );
            let even = &v.even.panel(panel)[..rows];
            let next = &v.even.panel_after(panel)[..rows];
            for y in 1..rows - 1 {
                let rest = sub_product(&residual[y], &left[y], &even[y]);
                residual[y] = sub_product(&rest, &right[y], &from_right(&even[y], &next[y]));
            }
        }
    }

    /// Takes the step, then goes down: odd lines, and what they leave for the coarse levels.
    /// Gives the square of the residual's norm.
    fn descend(&mut self, step: &Step) -> f64 {
        let mut squares = ZERO;
        for panel in 0..self.panels() {
            self.advance(panel, step, &mut squares);
            let z = self.vectors.conditioned.panel_mut(panel);
            let residual = &self.vectors.residual.panel(panel)[..z.len()];
            self.odd.solve(panel, z, |y| residual[y]);
            self.restrict(panel);
        }
        squares.iter().sum()
    }

    fn advance(&mut self, panel: usize, step: &Step, squares: &mut Row) {
        let v = &mut self.vectors;
        let residual = v.residual.panel_mut(panel);
        let rows = residual.len();
        let solution = &mut v.solution.panel_mut(panel)[..rows];
        let direction = &mut v.direction.panel_mut(panel)[..rows];
        let image = &mut v.image.panel_mut(panel)[..rows];
        let conditioned = &v.conditioned.panel(panel)[..rows];
        let excess = &v.excess.panel(panel)[..rows];
        let (along, keep) = ([step.along; LANES], [step.keep; LANES]);
        for y in 1..rows - 1 {
            direction[y] = add_product(&conditioned[y], &keep, &direction[y]);
            let z_image = sum(&residual[y], &excess[y]);
            image[y] = add_product(&z_image, &keep, &image[y]);
            solution[y] = add_product(&solution[y], &along, &direction[y]);
            residual[y] = sub_product(&residual[y], &along, &image[y]);
            *squares = add_product(squares, &residual[y], &residual[y]);
        }
    }

    fn restrict(&mut self, panel: usize) {
        let Some(next) = self.coarse.first_mut() else {
            return;
        };
        let weights = EvenWeights::of(
            (&self.left, &self.right),
            &self.vectors.conditioned,
            panel,
            &self.zero,
        );
        next.take(panel, |y| weights.row(y));
    }

    /// Goes up again: corrections, odd lines, even lines. Gives rᵀz and zᵀSz.
    fn ascend(&mut self) -> (f64, f64) {
        let panels = self.panels();
        let (mut conditioned_residual, mut excess_energy) = (ZERO, ZERO);
        self.prolong(0);
        for panel in 0..panels {
            if panel + 1 < panels {
                self.prolong(panel + 1);
            }
            self.solve_odd(panel);
            self.solve_even_change(panel);
            if let Some(done) = panel.checked_sub(1) {
                self.image_of(done, &mut conditioned_residual, &mut excess_energy);
            }
        }
        self.image_of(panels - 1, &mut conditioned_residual, &mut excess_energy);
        let product: f64 = conditioned_residual.iter().sum();
        (product, product + excess_energy.iter().sum::<f64>())
    }

    fn prolong(&mut self, panel: usize) {
        let even = self.vectors.even.panel_mut(panel);
        self.coarse[0].give(panel, |y, correction| even[y] = correction);
    }

    fn solve_odd(&mut self, panel: usize) {
        let v = &mut self.vectors;
        let z = v.conditioned.panel_mut(panel);
        let rows = z.len();
        let residual = &v.residual.panel(panel)[..rows];
        let (left, right) = (
            &self.left.panel(panel)[..rows],
            &self.right.panel(panel)[..rows],
        );
        let even = &v.even.panel(panel)[..rows];
        let next = &v.even.panel_after(panel)[..rows];
        self.odd.solve(panel, z, |y| {
            let rest = sub_product(&residual[y], &left[y], &even[y]);
            sub_product(&rest, &right[y], &from_right(&even[y], &next[y]))
        });
    }

    /// d: what the last even solve changes.
    fn solve_even_change(&mut self, panel: usize) {
        let v = &mut self.vectors;
        let weights = EvenWeights::of((&self.left, &self.right), &v.conditioned, panel, &self.zero);
        let change = v.even_side.panel_mut(panel);
        self.even.solve(panel, change, |y| {
            let weight = weights.row(y);
            by_lane(|k| -weight[k])
        });
        let even = &v.even.panel(panel)[..change.len()];
        for (change, even) in change.iter_mut().zip(even) {
            *change = by_lane(|k| change[k] - even[k]);
        }
    }

    /// S z − r = B d, with the inner products of the panel.
    fn image_of(&mut self, panel: usize, conditioned_residual: &mut Row, energy: &mut Row) {
        let v = &mut self.vectors;
        let excess = v.excess.panel_mut(panel);
        let rows = excess.len();
        let (left, right) = (
            &self.left.panel(panel)[..rows],
            &self.right.panel(panel)[..rows],
        );
        let change = &v.even_side.panel(panel)[..rows];
        let next = &v.even_side.panel_after(panel)[..rows];
        let residual = &v.residual.panel(panel)[..rows];
        let z = &v.conditioned.panel(panel)[..rows];
        for y in 1..rows - 1 {
            let weight = product(&left[y], &change[y]);
            let weight = add_product(&weight, &right[y], &from_right(&change[y], &next[y]));
            excess[y] = weight;
            *conditioned_residual = add_product(conditioned_residual, &residual[y], &z[y]);
            *energy = add_product(energy, &weight, &z[y]);
        }
    }

    /// Recovers the even columns and adds everything to a solution given row by row.
    fn finish(&mut self, residual: &[f64], solution: &mut [f64]) {
        let v = &mut self.vectors;
        for (row, values) in residual.chunks_exact(self.nx).enumerate() {
            for panel in 0..self.left.panels() {
                *v.even_side.row_mut(panel, row) = split(values, panel, 0.0).0;
            }
        }
        for panel in 0..self.left.panels() {
            let weights =
                EvenWeights::of((&self.left, &self.right), &v.solution, panel, &self.zero);
            let x = v.even.panel_mut(panel);
            let rhs = &v.even_side.panel(panel)[..x.len()];
            self.even.solve(panel, x, |y| {
                let weight = weights.row(y);
                by_lane(|k| rhs[y][k] - weight[k])
            });
        }
        debug_assert_eq!(residual.len(), self.nx * self.ny);
        for (row, values) in solution.chunks_exact_mut(self.nx).enumerate() {
            for panel in 0..self.left.panels() {
                let (even, odd) = (v.even.row(panel, row), v.solution.row(panel, row));
                add_joined(values, panel, even, odd);
            }
        }
    }
}
