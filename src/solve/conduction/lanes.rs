//! Sixteen columns side by side, and the layout built of them.
//!
//! Lines of a grid are solved along y, one unknown after the other; what runs in parallel is the
//! columns. A [`Columns`] holds them in panels of sixteen: all rows of the first sixteen columns,
//! then of the next. Every loop over [`LANES`] has a fixed length and becomes vector code.

/// Columns in a panel.
pub(super) const LANES: usize = 16;

/// One row of a panel.
pub(super) type Row = [f64; LANES];

pub(super) const ZERO: Row = [0.0; LANES];

#[inline(always)]
pub(super) fn by_lane(f: impl Fn(usize) -> f64) -> Row {
    let mut row = ZERO;
    for (lane, value) in row.iter_mut().enumerate() {
        *value = f(lane);
    }
    row
}

#[inline(always)]
pub(super) fn product(a: &Row, b: &Row) -> Row {
    by_lane(|k| a[k] * b[k])
}

#[inline(always)]
pub(super) fn sum(a: &Row, b: &Row) -> Row {
    by_lane(|k| a[k] + b[k])
}

/// `c + a b`.
#[inline(always)]
pub(super) fn add_product(c: &Row, a: &Row, b: &Row) -> Row {
    by_lane(|k| c[k] + a[k] * b[k])
}

/// `c − a b`.
#[inline(always)]
pub(super) fn sub_product(c: &Row, a: &Row, b: &Row) -> Row {
    by_lane(|k| c[k] - a[k] * b[k])
}

#[inline(always)]
pub(super) fn negative(a: &Row) -> Row {
    by_lane(|k| -a[k])
}

/// Every lane's right neighbor: the next panel's first lane follows the last.
#[inline(always)]
pub(super) fn from_right(here: &Row, next: &Row) -> Row {
    let mut row = ZERO;
    row[..LANES - 1].copy_from_slice(&here[1..]);
    row[LANES - 1] = next[0];
    row
}

/// Every lane's left neighbor: the previous panel's last lane precedes the first.
#[inline(always)]
pub(super) fn from_left(here: &Row, previous: &Row) -> Row {
    let mut row = ZERO;
    row[1..].copy_from_slice(&here[..LANES - 1]);
    row[0] = previous[LANES - 1];
    row
}

/// Values of some columns of a grid. Above and below its rows every panel has one more that
/// stays zero, so that neighbors need no test for the edge.
#[derive(Clone, Debug, Default)]
pub(super) struct Columns {
    rows: Vec<Row>,
    /// Rows of a panel, the two zero ones included.
    height: usize,
}

impl Columns {
    /// Zero everywhere, for that many columns of `ny` rows.
    pub(super) fn zero(columns: usize, ny: usize) -> Self {
        let height = ny + 2;
        Self {
            rows: vec![ZERO; columns.div_ceil(LANES).max(1) * height],
            height,
        }
    }

    /// One value in every row that counts.
    pub(super) fn filled(columns: usize, ny: usize, value: f64) -> Self {
        let mut all = Self::zero(columns, ny);
        for panel in all.rows.chunks_exact_mut(ny + 2) {
            panel[1..=ny].fill([value; LANES]);
        }
        all
    }

    pub(super) fn clear(&mut self) {
        self.rows.fill(ZERO);
    }

    pub(super) fn panels(&self) -> usize {
        self.rows.len() / self.height
    }

    #[inline(always)]
    pub(super) fn panel(&self, panel: usize) -> &[Row] {
        &self.rows[panel * self.height..][..self.height]
    }

    #[inline(always)]
    pub(super) fn panel_mut(&mut self, panel: usize) -> &mut [Row] {
        &mut self.rows[panel * self.height..][..self.height]
    }

    /// The panel to the right. The last one is its own neighbor: what reaches beyond it has
    /// coefficient zero, and any finite value will do.
    #[inline(always)]
    pub(super) fn panel_after(&self, panel: usize) -> &[Row] {
        self.panel((panel + 1).min(self.panels() - 1))
    }

    /// The panel to the left; of the first one, `zero`.
    #[inline(always)]
    pub(super) fn panel_before<'a>(&'a self, panel: usize, zero: &'a [Row]) -> &'a [Row] {
        match panel.checked_sub(1) {
            Some(before) => self.panel(before),
            None => zero,
        }
    }

    #[inline(always)]
    pub(super) fn at_mut(&mut self, column: usize, row: usize) -> &mut f64 {
        &mut self.rows[column / LANES * self.height + row + 1][column % LANES]
    }

    #[inline(always)]
    pub(super) fn at(&self, column: usize, row: usize) -> f64 {
        self.rows[column / LANES * self.height + row + 1][column % LANES]
    }
}
