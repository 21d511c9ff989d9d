//! Matrices of the levels, and how a coarser one follows from a finer one.
//!
//! Every second column is kept (the even ones), the odd ones between are interpolated from their
//! two neighbors with weights that solve the odd line for constant neighbors (Schaffer 1998,
//! "A semicoarsening multigrid algorithm for symmetric linear systems", SIAM J. Sci. Comput. 20;
//! from memory). The coarse matrix is the Galerkin product; the weights act row by row, so it has
//! nine entries in a row however often it is repeated.

use super::assembly::Network;
use super::lanes::{Columns, LANES, Row, ZERO, add_product, from_left, negative, product, sum};
use super::line::{Lines, Side, SideRows, Tridiagonal};

/// A level's matrix, with the couplings between columns kept at the odd ones.
#[derive(Debug)]
pub(super) struct Stencil {
    pub(super) columns: usize,
    pub(super) ny: usize,
    pub(super) even: Tridiagonal,
    pub(super) odd: Tridiagonal,
    /// Of odd columns to their left neighbors.
    pub(super) left: Side,
    /// Of odd columns to their right neighbors.
    pub(super) right: Side,
}

impl Stencil {
    /// The finest level: five entries in a row.
    pub(super) fn of(network: &Network) -> Self {
        let (nx, ny) = (network.nx, network.ny);
        let kept = nx.div_ceil(2);
        let mut stencil = Self {
            columns: nx,
            ny,
            even: Tridiagonal::unit(kept, ny),
            odd: Tridiagonal::unit(kept, ny),
            left: Side::level_only(kept, ny),
            right: Side::level_only(kept, ny),
        };
        let diagonal = network.diagonal();
        for row in 0..ny {
            let cells = row * nx..(row + 1) * nx;
            let (diagonal, up) = (&diagonal[cells.clone()], &network.up[cells.clone()]);
            let right = &network.right[cells];
            for column in 0..nx {
                let (at, odd) = (column / 2, column % 2 == 1);
                let line = if odd {
                    &mut stencil.odd
                } else {
                    &mut stencil.even
                };
                *line.diagonal.at_mut(at, row) = diagonal[column];
                *line.up.at_mut(at, row) = -up[column];
                if odd {
                    *stencil.left.level.at_mut(at, row) = -right[column - 1];
                    *stencil.right.level.at_mut(at, row) = -right[column];
                }
            }
        }
        stencil
    }

    /// The matrix of the kept columns; `odd` are the factors of the odd lines.
    pub(super) fn coarsen<const NINE: bool>(&self, odd: &Lines) -> Self {
        let columns = self.columns.div_ceil(2);
        let kept = columns.div_ceil(2);
        let mut coarse = Self {
            columns,
            ny: self.ny,
            even: Tridiagonal::unit(kept, self.ny),
            odd: Tridiagonal::unit(kept, self.ny),
            left: Side::zero(kept, self.ny),
            right: Side::zero(kept, self.ny),
        };
        let height = self.ny + 2;
        let zero = vec![ZERO; height];
        let mut weights = Weights::zero(height);
        let mut before = Weights::zero(height);
        for panel in 0..self.even.diagonal.panels() {
            std::mem::swap(&mut weights, &mut before);
            weights.find::<NINE>(self, odd, panel);
            let around = Around {
                here: OddPanel::of::<NINE>(self, panel, &zero),
                before: OddPanel::before::<NINE>(self, panel, &zero),
                weights: &weights,
                weights_before: &before,
            };
            let even = &self.even;
            let even = (even.diagonal.panel(panel), even.up.panel(panel));
            for y in 1..=self.ny {
                coarse.put(panel, y, &around.galerkin::<NINE>(even, y));
            }
        }
        coarse
    }

    /// Files a row of sixteen coarse columns under even and odd ones.
    fn put(&mut self, panel: usize, y: usize, row: &CoarseRow) {
        let (to, half) = (panel / 2, panel % 2 * (LANES / 2));
        let ny = self.ny;
        let split = |values: &Row, even: &mut Columns, odd: &mut Columns, rows: (usize, usize)| {
            let pairs = values.chunks_exact(2);
            let even = &mut even.panel_mut(to)[rows.0][half..];
            let odd = &mut odd.panel_mut(to)[rows.1][half..];
            for ((pair, even), odd) in pairs.zip(even).zip(odd) {
                (*even, *odd) = (pair[0], pair[1]);
            }
        };
        split(
            &row.diagonal,
            &mut self.even.diagonal,
            &mut self.odd.diagonal,
            (y, y),
        );
        split(&row.up, &mut self.even.up, &mut self.odd.up, (y, y));
        // An even column's eastern coupling belongs to the odd one east of it, as its western.
        split(
            &row.east,
            &mut self.left.level,
            &mut self.right.level,
            (y, y),
        );
        if y < ny {
            split(
                &row.east_up,
                &mut self.left.lower,
                &mut self.right.upper,
                (y + 1, y),
            );
        }
        if y > 1 {
            split(
                &row.east_down,
                &mut self.left.upper,
                &mut self.right.lower,
                (y - 1, y),
            );
        }
    }
}

/// Entries of a coarse row.
struct CoarseRow {
    diagonal: Row,
    up: Row,
    east: Row,
    east_up: Row,
    east_down: Row,
}

/// Interpolation weights of one panel of odd columns.
struct Weights {
    left: Vec<Row>,
    right: Vec<Row>,
}

impl Weights {
    fn zero(height: usize) -> Self {
        Self {
            left: vec![ZERO; height],
            right: vec![ZERO; height],
        }
    }

    /// −T⁻¹ (row sums of the coupling to that side).
    fn find<const NINE: bool>(&mut self, stencil: &Stencil, odd: &Lines, panel: usize) {
        for (weights, side) in [
            (&mut self.left, &stencil.left),
            (&mut self.right, &stencil.right),
        ] {
            let level = side.level.panel(panel);
            if NINE {
                let (lower, upper) = (side.lower.panel(panel), side.upper.panel(panel));
                odd.solve(panel, weights, |y| {
                    negative(&sum(&level[y], &sum(&lower[y], &upper[y])))
                });
            } else {
                odd.solve(panel, weights, |y| negative(&level[y]));
            }
        }
    }
}

/// One panel of the odd columns' matrix.
struct OddPanel<'a> {
    diagonal: &'a [Row],
    up: &'a [Row],
    left: SideRows<'a>,
    right: SideRows<'a>,
}

impl<'a> OddPanel<'a> {
    fn of<const NINE: bool>(stencil: &'a Stencil, panel: usize, zero: &'a [Row]) -> Self {
        let side = |side: &'a Side| {
            if NINE {
                side.panel(panel)
            } else {
                SideRows {
                    lower: zero,
                    level: side.level.panel(panel),
                    upper: zero,
                }
            }
        };
        Self {
            diagonal: stencil.odd.diagonal.panel(panel),
            up: stencil.odd.up.panel(panel),
            left: side(&stencil.left),
            right: side(&stencil.right),
        }
    }

    fn before<const NINE: bool>(stencil: &'a Stencil, panel: usize, zero: &'a [Row]) -> Self {
        let nothing = SideRows {
            lower: zero,
            level: zero,
            upper: zero,
        };
        match panel.checked_sub(1) {
            Some(panel) => Self::of::<NINE>(stencil, panel, zero),
            None => Self {
                diagonal: zero,
                up: zero,
                left: nothing,
                right: nothing,
            },
        }
    }
}

/// What meets in a row of even columns: the odd ones right of them and those left of them.
struct Around<'a> {
    here: OddPanel<'a>,
    before: OddPanel<'a>,
    weights: &'a Weights,
    weights_before: &'a Weights,
}

impl Around<'_> {
    /// The row of Pᵀ A P, P interpolating each odd column from both its neighbors.
    #[inline(always)]
    fn galerkin<const NINE: bool>(&self, even: (&[Row], &[Row]), y: usize) -> CoarseRow {
        let (odd, weights) = (&self.here, self.weights);
        let west = |get: fn(&OddPanel<'_>, usize) -> Row, y: usize| {
            from_left(&get(odd, y), &get(&self.before, y))
        };
        let west_weight = |y: usize| from_left(&weights.right[y], &self.weights_before.right[y]);

        let (left, left_up) = (&weights.left[y], &weights.left[y + 1]);
        let (right, right_up) = (&weights.right[y], &weights.right[y + 1]);
        let (west_here, west_up) = (west_weight(y), west_weight(y + 1));
        let (level_left, level_right) = (&odd.left.level[y], &odd.right.level[y]);

        let own = |coupling: &Row, weight: &Row, diagonal: &Row, total: &Row| {
            let twice = sum(coupling, coupling);
            let total = add_product(total, &twice, weight);
            add_product(&total, &product(weight, weight), diagonal)
        };
        let diagonal = own(level_left, left, &odd.diagonal[y], &even.0[y]);
        let west_level = west(|odd, y| odd.right.level[y], y);
        let west_diagonal = west(|odd, y| odd.diagonal[y], y);
        let diagonal = own(&west_level, &west_here, &west_diagonal, &diagonal);

        let west_off = west(|odd, y| odd.up[y], y);
        let mut up = add_product(&even.1[y], &product(left, &odd.up[y]), left_up);
        up = add_product(&up, &product(&west_here, &west_off), &west_up);

        let mut east = product(level_left, right);
        east = add_product(&east, left, level_right);
        east = add_product(&east, &product(left, &odd.diagonal[y]), right);
        let mut east_up = product(&product(left, &odd.up[y]), right_up);
        let mut east_down = product(&product(left, &odd.up[y - 1]), &weights.right[y - 1]);
        if NINE {
            up = add_product(&up, &odd.left.lower[y + 1], left_up);
            up = add_product(&up, &odd.left.upper[y], left);
            up = add_product(&up, &west(|odd, y| odd.right.lower[y], y + 1), &west_up);
            up = add_product(&up, &west(|odd, y| odd.right.upper[y], y), &west_here);
            east_up = add_product(&east_up, &odd.left.lower[y + 1], right_up);
            east_up = add_product(&east_up, left, &odd.right.upper[y]);
            let right_down = &weights.right[y - 1];
            east_down = add_product(&east_down, &odd.left.upper[y - 1], right_down);
            east_down = add_product(&east_down, left, &odd.right.lower[y]);
        }
        CoarseRow {
            diagonal,
            up,
            east,
            east_up,
            east_down,
        }
    }
}
