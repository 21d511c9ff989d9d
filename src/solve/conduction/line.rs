//! Tridiagonal lines along y, sixteen at a time.

use super::lanes::{
    Columns, LANES, Row, ZERO, add_product, by_lane, from_left, product, sub_product,
};

/// Symmetric tridiagonal matrices of some columns.
#[derive(Debug)]
pub(super) struct Tridiagonal {
    pub(super) diagonal: Columns,
    /// Between a row and the one above it.
    pub(super) up: Columns,
}

impl Tridiagonal {
    /// The unit matrix, so that columns which pad a panel can be solved too.
    pub(super) fn unit(columns: usize, ny: usize) -> Self {
        Self {
            diagonal: Columns::filled(columns, ny, 1.0),
            up: Columns::zero(columns, ny),
        }
    }
}

impl Tridiagonal {
    /// Puts the factors L D Lᵀ of a panel's lines in their place: 1/D, and what a row gives to
    /// the one above it.
    pub(super) fn factor_panel(&mut self, panel: usize) {
        let (diagonal, up) = (self.diagonal.panel_mut(panel), self.up.panel_mut(panel));
        let (mut below, mut multiplier) = (ZERO, ZERO);
        let last = diagonal.len() - 1;
        for (pivot, off) in diagonal[1..last].iter_mut().zip(&mut up[1..last]) {
            let reduced = sub_product(pivot, &multiplier, &below);
            let inverse = by_lane(|k| 1.0 / reduced[k]);
            below = *off;
            multiplier = product(&below, &inverse);
            *pivot = inverse;
            *off = multiplier;
        }
    }

    /// Solves a panel whose lines are factored; `right_hand_side` gives its rows by index.
    #[inline(always)]
    pub(super) fn solve_factored(
        &self,
        panel: usize,
        x: &mut [Row],
        mut right_hand_side: impl FnMut(usize) -> Row,
    ) {
        let rows = x.len();
        let multiplier = &self.up.panel(panel)[..rows];
        let inverse = &self.diagonal.panel(panel)[..rows];
        let (mut below, mut factor) = (ZERO, ZERO);
        for y in 1..rows - 1 {
            below = sub_product(&right_hand_side(y), &factor, &below);
            factor = multiplier[y];
            x[y] = below;
        }
        let mut above = ZERO;
        for y in (1..rows - 1).rev() {
            above = sub_product(&product(&x[y], &inverse[y]), &multiplier[y], &above);
            x[y] = above;
        }
    }
}

/// Factored lines.
#[derive(Debug)]
pub(super) struct Lines(Tridiagonal);

impl Lines {
    /// Of lines that are factored in their place already.
    pub(super) fn factored(lines: Tridiagonal) -> Self {
        Self(lines)
    }

    /// Factors lines in their place.
    pub(super) fn factor(mut lines: Tridiagonal) -> Self {
        (0..lines.diagonal.panels()).for_each(|panel| lines.factor_panel(panel));
        Self(lines)
    }

    /// Solves one panel; `right_hand_side` gives its rows by index, from the lowest.
    #[inline(always)]
    pub(super) fn solve(
        &self,
        panel: usize,
        x: &mut [Row],
        right_hand_side: impl FnMut(usize) -> Row,
    ) {
        self.0.solve_factored(panel, x, right_hand_side);
    }
}

/// Couplings of odd columns to the even column on one side: to the row below, level, above.
#[derive(Debug, Default)]
pub(super) struct Side {
    pub(super) lower: Columns,
    pub(super) level: Columns,
    pub(super) upper: Columns,
}

impl Side {
    /// Of a five-point matrix: level couplings only.
    pub(super) fn level_only(columns: usize, ny: usize) -> Self {
        Self {
            level: Columns::zero(columns, ny),
            ..Self::default()
        }
    }

    pub(super) fn zero(columns: usize, ny: usize) -> Self {
        Self {
            lower: Columns::zero(columns, ny),
            level: Columns::zero(columns, ny),
            upper: Columns::zero(columns, ny),
        }
    }

    /// A panel's rows; of a five-point matrix `zero` stands for what it lacks.
    pub(super) fn rows<'a, const NINE: bool>(
        &'a self,
        panel: usize,
        zero: &'a [Row],
    ) -> SideRows<'a> {
        SideRows {
            level: self.level.panel(panel),
            ..if NINE {
                self.panel(panel)
            } else {
                SideRows::all(zero)
            }
        }
    }

    pub(super) fn panel(&self, panel: usize) -> SideRows<'_> {
        SideRows {
            lower: self.lower.panel(panel),
            level: self.level.panel(panel),
            upper: self.upper.panel(panel),
        }
    }

    pub(super) fn panel_before<'a>(&'a self, panel: usize, zero: &'a [Row]) -> SideRows<'a> {
        SideRows {
            lower: self.lower.panel_before(panel, zero),
            level: self.level.panel_before(panel, zero),
            upper: self.upper.panel_before(panel, zero),
        }
    }
}

/// One panel of a [`Side`].
#[derive(Clone, Copy)]
pub(super) struct SideRows<'a> {
    pub(super) lower: &'a [Row],
    pub(super) level: &'a [Row],
    pub(super) upper: &'a [Row],
}

impl<'a> SideRows<'a> {
    /// The same rows for all three.
    pub(super) fn all(rows: &'a [Row]) -> Self {
        Self {
            lower: rows,
            level: rows,
            upper: rows,
        }
    }

    /// The same rows, no longer than `rows`: lets the compiler see that no index is outside.
    #[inline(always)]
    pub(super) fn cut(&self, rows: usize) -> Self {
        Self {
            lower: &self.lower[..rows],
            level: &self.level[..rows],
            upper: &self.upper[..rows],
        }
    }

    /// What the even column's values weigh in a row of the odd one.
    #[inline(always)]
    pub(super) fn weigh_odd(&self, y: usize, even: [&Row; 3]) -> Row {
        let sum = product(&self.level[y], even[1]);
        let sum = add_product(&sum, &self.lower[y], even[0]);
        add_product(&sum, &self.upper[y], even[2])
    }

    /// What an odd column's values weigh in a row of the even one: the transposed.
    #[inline(always)]
    pub(super) fn weigh_even(&self, y: usize, odd: &[Row]) -> Row {
        let sum = product(&self.level[y], &odd[y]);
        let sum = add_product(&sum, &self.lower[y + 1], &odd[y + 1]);
        add_product(&sum, &self.upper[y - 1], &odd[y - 1])
    }
}

/// Adds both sides' weight of odd columns in a row of even ones.
#[inline(always)]
pub(super) fn gather_even(
    (left, odd): (SideRows<'_>, &[Row]),
    (right_before, right, odd_before): (SideRows<'_>, SideRows<'_>, &[Row]),
    y: usize,
) -> Row {
    let from_east = left.weigh_even(y, odd);
    // Shift the product rather than its factors: one shuffle instead of six.
    let here = right.weigh_even(y, odd);
    let mut west = ZERO;
    let before = LANES - 1;
    west[before] = right_before.level[y][before] * odd_before[y][before]
        + right_before.lower[y + 1][before] * odd_before[y + 1][before]
        + right_before.upper[y - 1][before] * odd_before[y - 1][before];
    let from_west = from_left(&here, &west);
    by_lane(|k| from_east[k] + from_west[k])
}

/// What odd columns weigh in the even ones of a panel, of a five-point matrix.
pub(super) struct EvenWeights<'a> {
    left: &'a [Row],
    right: &'a [Row],
    right_before: &'a [Row],
    odd: &'a [Row],
    odd_before: &'a [Row],
}

impl<'a> EvenWeights<'a> {
    pub(super) fn of(
        (left, right): (&'a Columns, &'a Columns),
        odd: &'a Columns,
        panel: usize,
        zero: &'a [Row],
    ) -> Self {
        let rows = zero.len();
        Self {
            left: &left.panel(panel)[..rows],
            right: &right.panel(panel)[..rows],
            right_before: &right.panel_before(panel, zero)[..rows],
            odd: &odd.panel(panel)[..rows],
            odd_before: &odd.panel_before(panel, zero)[..rows],
        }
    }

    #[inline(always)]
    pub(super) fn row(&self, y: usize) -> Row {
        let here = product(&self.right[y], &self.odd[y]);
        let mut west = ZERO;
        west[LANES - 1] = self.right_before[y][LANES - 1] * self.odd_before[y][LANES - 1];
        add_product(&from_left(&here, &west), &self.left[y], &self.odd[y])
    }
}
