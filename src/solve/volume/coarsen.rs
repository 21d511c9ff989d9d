//! Coarser networks: pairs of narrow cells along one axis become one.
//!
//! A grid with its planes at given positions is anisotropic only by its spacing, and spacing is known
//! along each axis: merging nothing but cells narrower than a width that doubles from level to level
//! merges strong couplings only, along all three axes at once. Pairs never reach across a material
//! face while any interval between faces still has two cells.
//!
//! ```text
//! along the axis   1/G = 1/(2 g₀) + 1/g + 1/(2 g₁)     g₀, g₁ inside the pairs, g between them
//! across it        G = Σ g,   sinks alike
//! interpolation    x = X + w (X' − X),   w = G/(2 g₀)   linear in resistance to the next pair X'
//! ```
//! Seven points stay seven. A cell that followed a neighbor of far less conductance sideways would be
//! stiffer in truth than in the coarse network: w is held to √(0.3 · sideways of the neighbor / own).

use super::network::{Layout, Network, Row};

/// A level has at most this part of the cells of the one before.
const MOST_LEFT: f64 = 0.7;
/// What interpolation may add to the energy of the neighbor's sideways differences.
const MOST_FOLLOWED: f64 = 0.3;

/// Widths of the cells along each axis, m, and the interval between material faces they lie in.
#[derive(Clone, Debug)]
pub(super) struct Spacing {
    pub(super) width: [Vec<f64>; 3],
    pub(super) interval: [Vec<u32>; 3],
}

impl Spacing {
    pub(super) fn cells(&self) -> f64 {
        let counts = self.width.iter().map(|widths| widths.len() as f64);
        counts.product()
    }

    fn extremes(&self) -> (f64, f64) {
        let widths = || self.width.iter().flatten().copied();
        let narrowest = widths().fold(f64::INFINITY, f64::min);
        (narrowest, widths().fold(0.0, f64::max))
    }

    /// Whether every interval is down to one cell.
    fn is_bare(&self) -> bool {
        let bare = |intervals: &Vec<u32>| intervals.windows(2).all(|pair| pair[0] != pair[1]);
        self.interval.iter().all(bare)
    }

    /// The merges along single axes that lead to the next level, each with the first of the cells that
    /// become one; the spacing is then that level's.
    pub(super) fn coarsen(&mut self) -> Vec<(usize, Vec<usize>)> {
        let before = self.cells();
        let across_faces = self.is_bare();
        let (narrowest, widest) = self.extremes();
        let mut most = 2.0 * narrowest;
        let mut merges = Vec::new();
        // Within intervals all that can be merged is merged at eight times the widest; across faces
        // pairs grow until one is left.
        let greatest = if across_faces { 1e9 } else { 8.0 } * widest;
        while self.cells() > MOST_LEFT * before && most < greatest {
            for axis in 0..3 {
                let first = self.pairs(axis, most, across_faces);
                if first.len() <= self.width[axis].len() {
                    self.merge(axis, &first);
                    merges.push((axis, first));
                }
            }
            most *= 2.0;
        }
        merges
    }

    /// The first cell of each pair or single one, and the end.
    fn pairs(&self, axis: usize, most: f64, across_faces: bool) -> Vec<usize> {
        let (width, interval) = (&self.width[axis], &self.interval[axis]);
        let (mut first, mut at) = (Vec::new(), 0);
        while at < width.len() {
            first.push(at);
            let fit = at + 1 < width.len()
                && width[at] + width[at + 1] <= most
                && (across_faces || interval[at] == interval[at + 1]);
            at += if fit { 2 } else { 1 };
        }
        first.push(at);
        first
    }

    fn merge(&mut self, axis: usize, first: &[usize]) {
        let (width, interval) = (&self.width[axis], &self.interval[axis]);
        let sum = |pair: &[usize]| width[pair[0]..pair[1]].iter().sum();
        let widths = first.windows(2).map(sum).collect();
        let intervals = first.windows(2).map(|pair| interval[pair[0]]).collect();
        (self.width[axis], self.interval[axis]) = (widths, intervals);
    }
}

/// A merge along one axis, between a finer network and a coarser.
#[derive(Debug)]
pub(super) struct Merge {
    pub(super) axis: usize,
    pub(super) fine: Layout,
    pub(super) coarse: Layout,
    /// The rows of the coarse network.
    pub(super) rows: Vec<Row>,
    /// The first fine cell of each coarse one along the axis, and the end.
    pub(super) first: Vec<usize>,
    /// Weight of the next pair in each fine cell; zero in single cells.
    pub(super) weight: Vec<f32>,
}

/// A coarse cell and the fine ones it is made of, by their indices.
#[derive(Clone, Copy)]
struct Made {
    coarse: usize,
    first: usize,
    last: usize,
}

impl Made {
    fn is_pair(&self) -> bool {
        self.first != self.last
    }

    /// A sum over the fine cells.
    #[inline]
    fn sum(&self, of: impl Fn(usize) -> f64) -> f64 {
        of(self.first) + if self.is_pair() { of(self.last) } else { 0.0 }
    }
}

/// What joins a coarse cell to the next one.
struct Joint {
    conductance: f64,
    /// Weight of the next cell in the last fine cell of this one.
    forward: f64,
    /// Weight of this cell in the first fine cell of the next one.
    backward: f64,
}

impl Merge {
    /// The coarser network, and the way to it.
    pub(super) fn of(finer: &Network, axis: usize, first: Vec<usize>) -> (Network, Self) {
        let fine = finer.layout;
        let mut counts = fine.counts;
        counts[axis] = first.len() - 1;
        let mut coarser = Network::bare(counts);
        coarser.rows = merged(&finer.rows, axis, &first, &coarser.layout);
        let merge = Self {
            axis,
            fine,
            coarse: coarser.layout,
            rows: coarser.rows.clone(),
            first,
            weight: Vec::new(),
        };
        let mut weight = vec![0.0; fine.len()];
        let across = [(axis + 1) % 3, (axis + 2) % 3];
        for row in &merge.rows {
            merge.each(row, |made, next| {
                coarser.sink[made.coarse] = made.sum(|cell| finer.sink[cell]);
                for axis in across {
                    let along = &finer.along[axis];
                    coarser.along[axis][made.coarse] = made.sum(|cell| along[cell]);
                }
                if let Some(joint) = joint(finer, axis, made, next) {
                    coarser.along[axis][made.coarse] = joint.conductance;
                    if made.is_pair() {
                        weight[made.last] = joint.forward as f32;
                    }
                    if next.is_pair() {
                        weight[next.first] = joint.backward as f32;
                    }
                }
            });
        }
        (coarser, Self { weight, ..merge })
    }

    /// The length of an array over the coarse cells.
    pub(super) fn coarse_len(&self) -> usize {
        self.coarse.len()
    }

    /// Visits the coarse cells of a row, each with the one that follows it along the axis. Where none
    /// does, that one lies in the rim.
    #[inline(always)]
    fn each(&self, row: &Row, mut visit: impl FnMut(Made, Made)) {
        let (fine, coarse) = (self.fine.stride[self.axis], self.coarse.stride[self.axis]);
        let position = row.cell[self.axis];
        let mut cell = row.cell;
        // Of a coarse cell, where its first and last fine cells lie from the first one's row on.
        let reach = |position: usize| match self.first[position..] {
            [first, end, ..] => (first * fine, (end - 1) * fine),
            // The rim.
            [end] => (end * fine, end * fine),
            [] => (0, 0),
        };
        cell[self.axis] = 0;
        let made = |coarse, base: usize, (first, last): (usize, usize)| Made {
            coarse,
            first: base + first,
            last: base + last,
        };
        let base = self.fine.at(cell);
        if self.axis == 0 {
            for x in 0..row.len {
                let (here, next) = (reach(position + x), reach(position + x + 1));
                let at = row.at + x;
                visit(made(at, base, here), made(at + coarse, base, next));
            }
        } else {
            let (here, next) = (reach(position), reach(position + 1));
            for x in 0..row.len {
                let at = row.at + x;
                visit(made(at, base + x, here), made(at + coarse, base + x, next));
            }
        }
    }
}

/// The coarse rows that the solid of fine ones lies in.
fn merged(fine: &[Row], axis: usize, first: &[usize], coarse: &Layout) -> Vec<Row> {
    let place = |position: usize| first.partition_point(|start| *start <= position) - 1;
    let [_, rows, planes] = coarse.counts;
    // The first cell of each row's solid, and the end; none where the end comes first.
    let mut solid = vec![(usize::MAX, 0); rows * planes];
    for row in fine {
        let (mut start, mut end) = (row.cell, row.cell[0] + row.len);
        start[axis] = place(start[axis]);
        if axis == 0 {
            end = place(end - 1) + 1;
        }
        let [x, y, z] = start;
        let (from, to) = &mut solid[z * rows + y];
        (*from, *to) = (x.min(*from), end.max(*to));
    }
    let of_row = |(number, (from, to)): (usize, &(usize, usize))| {
        let cell = [*from, number % rows, number / rows];
        Some(Row {
            cell,
            len: to.checked_sub(*from)?,
            at: coarse.at(cell),
        })
    };
    solid.iter().enumerate().filter_map(of_row).collect()
}

/// `None` where nothing passes from one to the other.
fn joint(finer: &Network, axis: usize, made: Made, next: Made) -> Option<Joint> {
    let along = &finer.along[axis];
    let between = along[made.last];
    if between == 0.0 {
        return None;
    }
    let half = |pair: &Made| match pair.is_pair() && along[pair.first] > 0.0 {
        true => 0.5 / along[pair.first],
        false => 0.0,
    };
    let (before, after) = (half(&made), half(&next));
    let conductance = 1.0 / (before + 1.0 / between + after);
    let across = [(axis + 1) % 3, (axis + 2) % 3];
    let sideways = |cell: usize| -> f64 {
        let each = across.iter().map(|axis| finer.both_ways(*axis, cell));
        each.sum()
    };
    let held = |weight: f64, other: &Made, own: usize| {
        if weight == 0.0 {
            return 0.0;
        }
        let most = MOST_FOLLOWED * other.sum(sideways);
        let own = sideways(own);
        match weight * weight * own > most {
            true => (most / own).sqrt(),
            false => weight,
        }
    };
    Some(Joint {
        conductance,
        forward: held(before * conductance, &next, made.last),
        backward: held(after * conductance, &made, next.first),
    })
}
