//! Matrices of the levels, and how a coarser one follows from a finer one.
//!
//! Every second column is kept (the even ones), the odd ones between are interpolated from their
//! two neighbors with weights that solve the odd line for constant neighbors (Schaffer 1998,
//! "A semicoarsening multigrid algorithm for symmetric linear systems", SIAM J. Sci. Comput. 20;
//! from memory). The coarse matrix is the Galerkin product; the weights act row by row, so it has
//! nine entries in a row however often it is repeated.

use super::assembly::Network;
use super::lanes::{
    Columns, LANES, Row, ZERO, add_product, from_left, negative, product, split, sum,
};
use super::line::{Side, SideRows, Tridiagonal};

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
        network.diagonals(|row, diagonal| stencil.fill(network, row, diagonal));
        stencil
    }

    fn fill(&mut self, network: &Network, row: usize, diagonal: &[f64]) {
        let cells = row * self.columns..(row + 1) * self.columns;
        let (right, up) = (&network.right[cells.clone()], &network.up[cells]);
        for panel in 0..self.even.diagonal.panels() {
            let (even, odd) = split(diagonal, panel, 1.0);
            *self.even.diagonal.row_mut(panel, row) = even;
            *self.odd.diagonal.row_mut(panel, row) = odd;
            let (even, odd) = split(up, panel, 0.0);
            *self.even.up.row_mut(panel, row) = negative(&even);
            *self.odd.up.row_mut(panel, row) = negative(&odd);
            // What an even column gives to its right is what the odd one there gives to its left.
            let (even, odd) = split(right, panel, 0.0);
            *self.left.level.row_mut(panel, row) = negative(&even);
            *self.right.level.row_mut(panel, row) = negative(&odd);
        }
    }

    /// Factors the odd lines in their place, and gives the matrix of the kept columns.
    pub(super) fn coarsen<const NINE: bool>(&mut self) -> Self {
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
        let (mut here, mut before) = (OddPanel::zero(height), OddPanel::zero(height));
        for panel in 0..self.even.diagonal.panels() {
            std::mem::swap(&mut here, &mut before);
            here.take::<NINE>(self, panel);
            let around = Around {
                left: self.left.rows::<NINE>(panel, &zero),
                right: self.right.rows::<NINE>(panel, &zero),
                right_before: match panel.checked_sub(1) {
                    Some(west) => self.right.rows::<NINE>(west, &zero),
                    None => SideRows::all(&zero),
                },
                here: &here,
                before: &before,
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
        let file = |values: &Row, even: &mut Columns, odd: &mut Columns, rows: (usize, usize)| {
            let pairs = values.chunks_exact(2);
            let even = &mut even.panel_mut(to)[rows.0][half..];
            let odd = &mut odd.panel_mut(to)[rows.1][half..];
            for ((pair, even), odd) in pairs.zip(even).zip(odd) {
                (*even, *odd) = (pair[0], pair[1]);
            }
        };
        file(
            &row.diagonal,
            &mut self.even.diagonal,
            &mut self.odd.diagonal,
            (y, y),
        );
        file(&row.up, &mut self.even.up, &mut self.odd.up, (y, y));
        // An even column's eastern coupling belongs to the odd one east of it, as its western.
        file(
            &row.east,
            &mut self.left.level,
            &mut self.right.level,
            (y, y),
        );
        if y < ny {
            file(
                &row.east_up,
                &mut self.left.lower,
                &mut self.right.upper,
                (y + 1, y),
            );
        }
        if y > 1 {
            file(
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

/// One panel of odd columns: their lines before factoring, and the weights that interpolate them.
struct OddPanel {
    diagonal: Vec<Row>,
    up: Vec<Row>,
    to_left: Vec<Row>,
    to_right: Vec<Row>,
}

impl OddPanel {
    fn zero(height: usize) -> Self {
        let zero = || vec![ZERO; height];
        Self {
            diagonal: zero(),
            up: zero(),
            to_left: zero(),
            to_right: zero(),
        }
    }

    /// Keeps a panel's lines, factors them in their place, and solves for the weights:
    /// −T⁻¹ (row sums of the coupling to either side).
    fn take<const NINE: bool>(&mut self, stencil: &mut Stencil, panel: usize) {
        let odd = &mut stencil.odd;
        self.diagonal.copy_from_slice(odd.diagonal.panel(panel));
        self.up.copy_from_slice(odd.up.panel(panel));
        odd.factor_panel(panel);
        for (weights, side) in [
            (&mut self.to_left, &stencil.left),
            (&mut self.to_right, &stencil.right),
        ] {
            let level = side.level.panel(panel);
            if NINE {
                let (lower, upper) = (side.lower.panel(panel), side.upper.panel(panel));
                odd.solve_factored(panel, weights, |y| {
                    negative(&sum(&level[y], &sum(&lower[y], &upper[y])))
                });
            } else {
                odd.solve_factored(panel, weights, |y| negative(&level[y]));
            }
        }
    }
}

/// What meets in a row of even columns: the odd ones right of them and those left of them.
struct Around<'a> {
    left: SideRows<'a>,
    right: SideRows<'a>,
    right_before: SideRows<'a>,
    here: &'a OddPanel,
    before: &'a OddPanel,
}

impl Around<'_> {
    /// The row of Pᵀ A P, P interpolating each odd column from both its neighbors.
    #[inline(always)]
    fn galerkin<const NINE: bool>(&self, even: (&[Row], &[Row]), y: usize) -> CoarseRow {
        let (odd, west) = (self.here, self.before);
        let (side_left, side_right) = (&self.left, &self.right);
        let west_weight = |y: usize| from_left(&odd.to_right[y], &west.to_right[y]);
        let west_side = |rows: fn(&SideRows<'_>, usize) -> Row, y: usize| {
            from_left(&rows(side_right, y), &rows(&self.right_before, y))
        };

        let (left, left_up) = (&odd.to_left[y], &odd.to_left[y + 1]);
        let (right, right_up) = (&odd.to_right[y], &odd.to_right[y + 1]);
        let (west_here, west_up) = (west_weight(y), west_weight(y + 1));
        let (level_left, level_right) = (&side_left.level[y], &side_right.level[y]);

        let own = |coupling: &Row, weight: &Row, diagonal: &Row, total: &Row| {
            let twice = sum(coupling, coupling);
            let total = add_product(total, &twice, weight);
            add_product(&total, &product(weight, weight), diagonal)
        };
        let diagonal = own(level_left, left, &odd.diagonal[y], &even.0[y]);
        let west_level = west_side(|rows, y| rows.level[y], y);
        let west_diagonal = from_left(&odd.diagonal[y], &west.diagonal[y]);
        let diagonal = own(&west_level, &west_here, &west_diagonal, &diagonal);

        let west_off = from_left(&odd.up[y], &west.up[y]);
        let mut up = add_product(&even.1[y], &product(left, &odd.up[y]), left_up);
        up = add_product(&up, &product(&west_here, &west_off), &west_up);

        let mut east = product(level_left, right);
        east = add_product(&east, left, level_right);
        east = add_product(&east, &product(left, &odd.diagonal[y]), right);
        let mut east_up = product(&product(left, &odd.up[y]), right_up);
        let mut east_down = product(&product(left, &odd.up[y - 1]), &odd.to_right[y - 1]);
        if NINE {
            up = add_product(&up, &side_left.lower[y + 1], left_up);
            up = add_product(&up, &side_left.upper[y], left);
            up = add_product(&up, &west_side(|rows, y| rows.lower[y], y + 1), &west_up);
            up = add_product(&up, &west_side(|rows, y| rows.upper[y], y), &west_here);
            east_up = add_product(&east_up, &side_left.lower[y + 1], right_up);
            east_up = add_product(&east_up, left, &side_right.upper[y]);
            let right_down = &odd.to_right[y - 1];
            east_down = add_product(&east_down, &side_left.upper[y - 1], right_down);
            east_down = add_product(&east_down, left, &side_right.lower[y]);
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
