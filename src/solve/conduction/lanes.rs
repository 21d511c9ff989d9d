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
    by_lane(|k| {
        if k + 1 < LANES {
            here[(k + 1) % LANES]
        } else {
            next[0]
        }
    })
}

/// Every lane's left neighbor: the previous panel's last lane precedes the first.
#[inline(always)]
pub(super) fn from_left(here: &Row, previous: &Row) -> Row {
    by_lane(|k| {
        if k > 0 {
            here[(k + LANES - 1) % LANES]
        } else {
            previous[LANES - 1]
        }
    })
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

    /// Row `row` of a panel.
    #[inline(always)]
    pub(super) fn row_mut(&mut self, panel: usize, row: usize) -> &mut Row {
        &mut self.rows[panel * self.height + row + 1]
    }

    #[inline(always)]
    pub(super) fn row(&self, panel: usize, row: usize) -> &Row {
        &self.rows[panel * self.height + row + 1]
    }
}

/// Even and odd columns of a row's cells that fall into a panel; `pad` where there are none.
#[inline(always)]
pub(super) fn split(cells: &[f64], panel: usize, pad: f64) -> (Row, Row) {
    let cells = &cells[(2 * panel * LANES).min(cells.len())..];
    let (mut even, mut odd) = ([pad; LANES], [pad; LANES]);
    if let Some(whole) = cells.first_chunk::<{ 2 * LANES }>() {
        for lane in 0..LANES {
            (even[lane], odd[lane]) = (whole[2 * lane], whole[2 * lane + 1]);
        }
    } else {
        for (lane, pair) in cells.chunks(2).enumerate() {
            even[lane] = pair[0];
            odd[lane] = pair.get(1).copied().unwrap_or(pad);
        }
    }
    (even, odd)
}

/// Adds even and odd columns of a panel to the row's cells.
#[inline(always)]
pub(super) fn add_joined(cells: &mut [f64], panel: usize, even: &Row, odd: &Row) {
    let start = (2 * panel * LANES).min(cells.len());
    for (pair, (even, odd)) in cells[start..].chunks_mut(2).zip(even.iter().zip(odd)) {
        pair[0] += even;
        if let Some(cell) = pair.get_mut(1) {
            *cell += odd;
        }
    }
}
