//! The smoother: incomplete Cholesky factors without fill, IC(0), in the natural order of the cells.
//!
//! ```text
//! A ≈ (D + L) D⁻¹ (D + Lᵀ)     L what of A lies below its diagonal
//! d = a − gx²/dx − gy²/dy − gz²/dz     pivots, over the neighbors before each cell
//! ```
//! Source: Meijerink and van der Vorst 1977, "An iterative solution method for linear systems of which
//! the coefficient matrix is a symmetric M-matrix", Math. Comp. 31 (from memory). For the network's
//! matrix, an M-matrix, the pivots stay positive.
//!
//! A sweep along a row waits for each cell before the next. Four rows are swept at once, each one
//! cell behind the row before it: four chains run side by side, and a row finds its neighbor's value
//! just computed. Whatever they run into at a row's ends is rim, where the inverse pivot is zero.

use super::network::{Network, in_single};

/// Rows swept together; one less than the rim is wide.
const ABREAST: usize = 4;

/// Some rows of one plane, one after the other along y, that are swept together.
#[derive(Clone, Copy, Debug)]
struct Band {
    /// Index of the first cell of the first row.
    at: usize,
    /// Cells of each row from there on, enough for the solid of all.
    len: usize,
    /// How many: one, or [`ABREAST`].
    rows: usize,
}

impl Band {
    /// The index of the first cell of each row.
    fn rows(&self, stride: usize) -> impl Iterator<Item = usize> {
        let at = self.at;
        (0..self.rows).map(move |row| at + row * stride)
    }
}

/// The factors of a network.
#[derive(Debug)]
pub(super) struct Smoother {
    /// 1/d; zero in air.
    inverse: Vec<f32>,
    bands: Vec<Band>,
}

impl Smoother {
    /// Pivots are differences: they are found in double precision.
    pub(super) fn of(network: &Network) -> Self {
        let [_, dy, dz] = network.layout.stride;
        let [gx, gy, gz] = &network.along;
        let mut inverse: Vec<f64> = network.layout.zeros();
        for row in &network.rows {
            for cell in row.at..row.at + row.len {
                let before = gx[cell - 1] * gx[cell - 1] * inverse[cell - 1]
                    + gy[cell - dy] * gy[cell - dy] * inverse[cell - dy]
                    + gz[cell - dz] * gz[cell - dz] * inverse[cell - dz];
                let pivot = network.diagonal(cell) - before;
                inverse[cell] = if pivot > 0.0 { 1.0 / pivot } else { 0.0 };
            }
        }
        Self {
            inverse: in_single(&network.rows, &inverse),
            bands: bands(network),
        }
    }

    /// Solves (D + L) D⁻¹ (D + Lᵀ) z = r.
    pub(super) fn solve(&self, network: &Network<f32>, r: &[f32], z: &mut [f32]) {
        self.sweep(network, Some(r), z);
    }

    /// The same, the right-hand side given in z.
    pub(super) fn solve_in_place(&self, network: &Network<f32>, z: &mut [f32]) {
        self.sweep(network, None, z);
    }

    fn sweep(&self, network: &Network<f32>, r: Option<&[f32]>, z: &mut [f32]) {
        let [_, dy, dz] = network.layout.stride;
        let gz = &network.along[2];
        for band in &self.bands {
            for at in band.rows(dy) {
                let (done, here) = z.split_at_mut(at);
                if let Some(r) = r {
                    here[..band.len].copy_from_slice(&r[at..][..band.len]);
                }
                let (below, gz) = (&done[at - dz..][..band.len], &gz[at - dz..][..band.len]);
                for (z, (below, g)) in here.iter_mut().zip(below.iter().zip(gz)) {
                    *z += g * below;
                }
            }
            match band.rows {
                ABREAST => self.forward::<ABREAST>(network, band, z),
                _ => self.forward::<1>(network, band, z),
            }
        }
        for band in self.bands.iter().rev() {
            for at in band.rows(dy) {
                let (here, above) = z[at..].split_at_mut(dz);
                let (above, gz) = (&above[..band.len], &gz[at..][..band.len]);
                let given = self.inverse[at..].iter().zip(above.iter().zip(gz));
                for (z, (inverse, (above, g))) in here.iter_mut().zip(given) {
                    *z += inverse * (g * above);
                }
            }
            match band.rows {
                ABREAST => self.backward::<ABREAST>(network, band, z),
                _ => self.backward::<1>(network, band, z),
            }
        }
    }

    /// z ← D⁻¹ (z + what comes from the cells before along x and y).
    fn forward<const N: usize>(&self, network: &Network<f32>, band: &Band, z: &mut [f32]) {
        let stride = network.layout.stride[1];
        let (at, len) = (band.at, band.len + N - 1);
        let (done, here) = z.split_at_mut(at);
        let front = &done[at - stride..][..len];
        let inverse = lanes::<N>(&self.inverse, at, stride, len);
        let gx = lanes::<N>(&network.along[0], at - 1, stride, len);
        let gy = lanes::<N>(&network.along[1], at - stride, stride, len);
        let z = lanes_mut::<N>(here, stride, len);
        let mut value = [0.0; N];
        for i in 0..len {
            for lane in (0..N).rev() {
                let before = if lane == 0 { front[i] } else { value[lane - 1] };
                let sum = z[lane][i] + gy[lane][i] * before + gx[lane][i] * value[lane];
                value[lane] = inverse[lane][i] * sum;
                z[lane][i] = value[lane];
            }
        }
    }

    /// z ← z + D⁻¹ (what comes from the cells after along x and y).
    fn backward<const N: usize>(&self, network: &Network<f32>, band: &Band, z: &mut [f32]) {
        let stride = network.layout.stride[1];
        let (at, len) = (band.at, band.len + N - 1);
        // The row after the last, as its lane would begin.
        let next = at + N * (stride - 1) + 1;
        let (here, later) = z.split_at_mut(next);
        let back = &later[..len];
        let inverse = lanes::<N>(&self.inverse, at, stride, len);
        let gx = lanes::<N>(&network.along[0], at, stride, len);
        let gy = lanes::<N>(&network.along[1], at, stride, len);
        let z = lanes_mut::<N>(&mut here[at..], stride, len);
        let mut value = [0.0; N];
        for i in (0..len).rev() {
            for lane in 0..N {
                let after = if lane + 1 == N {
                    back[i]
                } else {
                    value[lane + 1]
                };
                let sum = gy[lane][i] * after + gx[lane][i] * value[lane];
                value[lane] = z[lane][i] + inverse[lane][i] * sum;
                z[lane][i] = value[lane];
            }
        }
    }
}

/// Slices of successive rows, each beginning one cell before the one above it: at the same place of
/// each stand cells that are swept at the same time.
fn lanes<const N: usize>(values: &[f32], at: usize, stride: usize, len: usize) -> [&[f32]; N] {
    std::array::from_fn(|lane| &values[at + lane * (stride - 1)..][..len])
}

/// The same, to be written; `values` begin at the first row.
fn lanes_mut<const N: usize>(values: &mut [f32], stride: usize, len: usize) -> [&mut [f32]; N] {
    let mut rows = values.chunks_mut(stride - 1);
    std::array::from_fn(|_| rows.next().map_or(&mut [][..], |row| &mut row[..len]))
}

/// Rows that hold solid, four by four where so many lie side by side.
fn bands(network: &Network) -> Vec<Band> {
    let mut bands = Vec::new();
    let mut rest = &network.rows[..];
    while let Some(first) = rest.first() {
        let beside = |n: usize| {
            rest.get(n)
                .is_some_and(|row| row.cell[2] == first.cell[2] && row.cell[1] == first.cell[1] + n)
        };
        let rows = if (1..ABREAST).all(beside) { ABREAST } else { 1 };
        let (band, after) = rest.split_at(rows);
        let start = band.iter().map(|row| row.cell[0]).min().unwrap_or(0);
        let end = band.iter().map(|row| row.cell[0] + row.len).max();
        bands.push(Band {
            at: first.at - first.cell[0] + start,
            len: end.unwrap_or(start) - start,
            rows,
        });
        rest = after;
    }
    bands
}
