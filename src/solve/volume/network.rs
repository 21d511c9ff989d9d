//! Conductances between the cells of a box, and the sums over them.

use std::ops::{Add, Mul, Sub};

/// Cells of rim before each row and after the last: zeros that a sweep of [`super::smooth`] may run
/// into.
pub(super) const RIM: usize = 4;

/// The cells of a row between which all its solid lies.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    /// Position of its first cell along x, y and z.
    pub(super) cell: [usize; 3],
    /// Index of that cell.
    pub(super) at: usize,
    /// Cells from there on.
    pub(super) len: usize,
}

/// Where the cells of a box stand in an array: x fastest, a rim on every side that neighboring rows
/// and planes share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Layout {
    /// Cells along x, y and z.
    pub(super) counts: [usize; 3],
    /// From a cell to the next one along x, y and z.
    pub(super) stride: [usize; 3],
}

impl Layout {
    pub(super) fn of(counts: [usize; 3]) -> Self {
        let row = counts[0] + RIM;
        let plane = row * (counts[1] + 1);
        Self {
            counts,
            stride: [1, row, plane],
        }
    }

    /// The length of an array.
    pub(super) fn len(&self) -> usize {
        self.stride[2] * (self.counts[2] + 2)
    }

    pub(super) fn at(&self, [x, y, z]: [usize; 3]) -> usize {
        RIM + x + self.stride[1] * (y + 1) + self.stride[2] * (z + 1)
    }

    /// Every row of the box, air or not.
    pub(super) fn every_row(&self) -> impl Iterator<Item = Row> {
        let (layout, [len, ny, nz]) = (*self, self.counts);
        let rows = (0..nz).flat_map(move |z| (0..ny).map(move |y| [0, y, z]));
        rows.map(move |cell| Row {
            cell,
            at: layout.at(cell),
            len,
        })
    }

    /// The row onward along an axis, itself along the first; `None` beyond the box.
    pub(super) fn next_row(&self, row: &Row, axis: usize) -> Option<Row> {
        let mut next = *row;
        if axis > 0 {
            next.cell[axis] += 1;
            next.at += self.stride[axis];
        }
        (next.cell[axis] < self.counts[axis]).then_some(next)
    }

    pub(super) fn zeros<T: Clone + Default>(&self) -> Vec<T> {
        vec![T::default(); self.len()]
    }
}

/// A number to compute with: double precision where the result hangs on it, single in the preconditioner.
pub(super) trait Real:
    Copy + Add<Output = Self> + Sub<Output = Self> + Mul<Output = Self>
{
}
impl Real for f32 {}
impl Real for f64 {}

/// A network of seven points: conductances from each cell to its neighbors and to its surroundings,
/// W/K. Cells of air, and the rim, have nothing but zeros.
#[derive(Clone, Debug)]
pub(super) struct Network<T = f64> {
    pub(super) layout: Layout,
    /// From each cell to the next one along x, y and z.
    pub(super) along: [Vec<T>; 3],
    /// From each cell to air and held faces.
    pub(super) sink: Vec<T>,
    /// The rows that hold solid.
    pub(super) rows: Vec<Row>,
}

impl Network {
    /// So many cells along x, y and z, none of them joined yet.
    pub(super) fn bare(counts: [usize; 3]) -> Self {
        let layout = Layout::of(counts);
        Self {
            along: [0, 1, 2].map(|_| layout.zeros()),
            sink: layout.zeros(),
            rows: Vec::new(),
            layout,
        }
    }

    /// Finds the rows that hold solid: what is joined to anything.
    pub(super) fn find_rows(&mut self) {
        let solid_of = |row: Row| {
            let is_solid = |x: &usize| self.is_joined(row.at + x);
            let first = (0..row.len).find(is_solid)?;
            let last = (0..row.len).rev().find(is_solid)?;
            let [_, y, z] = row.cell;
            Some(Row {
                cell: [first, y, z],
                at: row.at + first,
                len: last + 1 - first,
            })
        };
        self.rows = self.layout.every_row().filter_map(solid_of).collect();
    }

    fn is_joined(&self, cell: usize) -> bool {
        self.diagonal(cell) > 0.0
    }

    /// All conductances of a cell, W/K.
    pub(super) fn diagonal(&self, cell: usize) -> f64 {
        let axes = 0..3;
        let links = axes.map(|axis| self.both_ways(axis, cell));
        self.sink[cell] + links.sum::<f64>()
    }

    /// The conductances of a cell to both neighbors along an axis, W/K.
    pub(super) fn both_ways(&self, axis: usize, cell: usize) -> f64 {
        let along = &self.along[axis];
        along[cell] + along[cell - self.layout.stride[axis]]
    }

    /// The same in single precision.
    pub(super) fn in_single(&self) -> Network<f32> {
        let single = |values: &Vec<f64>| in_single(&self.rows, values);
        Network {
            layout: self.layout,
            along: self.along.each_ref().map(single),
            sink: single(&self.sink),
            rows: self.rows.clone(),
        }
    }

    /// y = A x, and x·y.
    pub(super) fn apply(&self, x: &[f64], y: &mut [f64]) -> f64 {
        let mut sum = 0.0;
        for row in &self.rows {
            let cells = row.at..row.at + row.len;
            self.outflow(row, x, &mut y[cells.clone()]);
            sum += dot(&x[cells.clone()], &y[cells]);
        }
        sum
    }

    /// a·b over the solid.
    pub(super) fn dot<T: Copy + Into<f64>>(&self, a: &[f64], b: &[T]) -> f64 {
        let of_row = |row: &Row| dot(&a[row.at..][..row.len], &b[row.at..][..row.len]);
        self.rows.iter().map(of_row).sum()
    }
}

impl<T: Real> Network<T> {
    /// The heat that leaves each cell of a row, W: by differences of neighbors, which rounding hurts
    /// far less than the matrix's rows would.
    fn outflow(&self, row: &Row, x: &[T], out: &mut [T]) {
        let [_, dy, dz] = self.layout.stride;
        let (at, n) = (row.at, row.len);
        let [gx, gy, gz] = &self.along;
        let here = &x[at..][..n];
        let (west, east) = (&x[at - 1..][..n], &x[at + 1..][..n]);
        let (front, back) = (&x[at - dy..][..n], &x[at + dy..][..n]);
        let (below, above) = (&x[at - dz..][..n], &x[at + dz..][..n]);
        let (to_west, to_east) = (&gx[at - 1..][..n], &gx[at..][..n]);
        let (to_front, to_back) = (&gy[at - dy..][..n], &gy[at..][..n]);
        let (to_below, to_above) = (&gz[at - dz..][..n], &gz[at..][..n]);
        let sink = &self.sink[at..][..n];
        let out = &mut out[..n];
        for i in 0..n {
            let t = here[i];
            out[i] = sink[i] * t
                + to_west[i] * (t - west[i])
                + to_east[i] * (t - east[i])
                + to_front[i] * (t - front[i])
                + to_back[i] * (t - back[i])
                + to_below[i] * (t - below[i])
                + to_above[i] * (t - above[i]);
        }
    }

    /// r = b − A x.
    pub(super) fn residual(&self, b: &[T], x: &[T], r: &mut [T]) {
        for row in &self.rows {
            let cells = row.at..row.at + row.len;
            let r = &mut r[cells.clone()];
            self.outflow(row, x, r);
            for (r, b) in r.iter_mut().zip(&b[cells]) {
                *r = *b - *r;
            }
        }
    }
}

/// Numbers of some rows in single precision, zero elsewhere: memory that nobody writes to isn't taken.
pub(super) fn in_single(rows: &[Row], values: &[f64]) -> Vec<f32> {
    let mut single = vec![0.0; values.len()];
    for row in rows {
        let cells = row.at..row.at + row.len;
        for (to, from) in single[cells.clone()].iter_mut().zip(&values[cells]) {
            *to = *from as f32;
        }
    }
    single
}

/// a·b in four sums at a time, in an order of its own that never changes.
pub(super) fn dot<T: Copy + Into<f64>>(a: &[f64], b: &[T]) -> f64 {
    let (fours_a, rest_a) = a.as_chunks::<4>();
    let (fours_b, rest_b) = b.as_chunks::<4>();
    let mut sums = [0.0; 4];
    for (a, b) in fours_a.iter().zip(fours_b) {
        for lane in 0..4 {
            sums[lane] += a[lane] * b[lane].into();
        }
    }
    let rest = rest_a.iter().zip(rest_b).map(|(a, b)| a * (*b).into());
    let rest: f64 = rest.sum();
    (sums[0] + sums[1]) + (sums[2] + sums[3]) + rest
}
