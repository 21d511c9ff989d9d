//! Values between a finer network and a coarser one: residuals down, corrections up.

use super::coarsen::Merge;
use super::network::Row;

impl Merge {
    /// Coarse sums of fine residuals: the transpose of [`Self::correct`].
    pub(super) fn restrict(&self, fine: &[f32], coarse: &mut [f32]) {
        for row in &self.rows {
            let coarse = &mut coarse[row.at..][..row.len];
            match self.axis {
                0 => self.restrict_in_row(row, fine, coarse),
                _ => self.restrict_rows(row, fine, coarse),
            }
        }
    }

    fn restrict_in_row(&self, row: &Row, fine: &[f32], coarse: &mut [f32]) {
        let given = |cell: usize| self.weight[cell] * fine[cell];
        for (sum, (first, last)) in coarse.iter_mut().zip(self.in_row(row)) {
            let own = match first == last {
                true => fine[first],
                false => fine[first] - given(first) + fine[last] - given(last),
            };
            *sum = own + given(first - 1) + given(last + 1);
        }
    }

    fn restrict_rows(&self, row: &Row, fine: &[f32], coarse: &mut [f32]) {
        let stride = self.fine.stride[self.axis];
        let (first, last) = self.fine_rows(row);
        let cut = |at: usize| fine[at..].iter().zip(&self.weight[at..]);
        let given = cut(first - stride).zip(cut(last + stride));
        for (sum, ((before, w), (after, v))) in coarse.iter_mut().zip(given) {
            *sum = *w * before + *v * after;
        }
        let mut add_own = |at: usize| {
            for (sum, (value, w)) in coarse.iter_mut().zip(cut(at)) {
                *sum += value - *w * value;
            }
        };
        add_own(first);
        if last != first {
            add_own(last);
        }
    }

    /// Sets fine values from coarse ones.
    pub(super) fn prolong(&self, coarse: &[f32], fine: &mut [f32]) {
        fine.fill(0.0);
        self.correct(coarse, fine);
    }

    /// Adds to fine values what coarse ones say.
    pub(super) fn correct(&self, coarse: &[f32], fine: &mut [f32]) {
        for row in &self.rows {
            match self.axis {
                0 => self.correct_in_row(row, coarse, fine),
                _ => self.correct_rows(row, coarse, fine),
            }
        }
    }

    fn correct_in_row(&self, row: &Row, coarse: &[f32], fine: &mut [f32]) {
        for (at, (first, last)) in (row.at..).zip(self.in_row(row)) {
            let (before, here, after) = (coarse[at - 1], coarse[at], coarse[at + 1]);
            fine[first] += here + self.weight[first] * (before - here);
            if last != first {
                fine[last] += here + self.weight[last] * (after - here);
            }
        }
    }

    fn correct_rows(&self, row: &Row, coarse: &[f32], fine: &mut [f32]) {
        let stride = self.coarse.stride[self.axis];
        let (first, last) = self.fine_rows(row);
        let here = &coarse[row.at..][..row.len];
        let mut add = |at: usize, other: usize| {
            let fine = fine[at..].iter_mut().zip(&self.weight[at..]);
            let values = here.iter().zip(&coarse[other..]);
            for ((fine, w), (here, other)) in fine.zip(values) {
                *fine += here + *w * (other - here);
            }
        };
        add(first, row.at - stride);
        if last != first {
            add(last, row.at + stride);
        }
    }

    /// The first and last fine cell of each coarse cell of a row, merged along it.
    fn in_row(&self, row: &Row) -> impl Iterator<Item = (usize, usize)> {
        let [x, y, z] = row.cell;
        let start = self.fine.at([0, y, z]);
        let ends = self.first[x..][..=row.len].windows(2);
        ends.map(move |pair| (start + pair[0], start + pair[1] - 1))
    }

    /// Where the first and the last fine row of a coarse row begin, merged across it.
    fn fine_rows(&self, row: &Row) -> (usize, usize) {
        let row_at = |position: usize| {
            let mut cell = row.cell;
            cell[self.axis] = position;
            self.fine.at(cell)
        };
        let position = row.cell[self.axis];
        (
            row_at(self.first[position]),
            row_at(self.first[position + 1] - 1),
        )
    }
}
