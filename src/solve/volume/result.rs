//! A volume solved with error bars: on three nested grids.
//!
//! Each grid has every interval of the one before split by two. Values f1, f2, f3 (coarsest first) are
//! extrapolated with their observed order p (Richardson):
//!
//! ```text
//! p = log2((f2 − f1)/(f3 − f2)), held to 2/3 … 2     f = f3 + (f3 − f2)/(2^p − 1)
//! bar = |f3 − f2| / (2^(2/3) − 1)
//! ```
//! The bar is what an order of 2/3 leaves, that of an even grid at a re-entrant edge (the field there
//! goes with r^(2/3); Strang and Fix 1973, from memory), whatever better order was observed. The
//! coldest and the warmest place of a face lie in such edges and in corners themselves, where the
//! field goes with less: their bar is what an order of 0.35 leaves, as in two dimensions
//! ([`conduction`](crate::solve::conduction)). An order beyond 0.5 … 2.2 is none: then the finest
//! value stands, with three last differences for a bar, five at a coldest or warmest place. Where the
//! last difference is by chance less than a quarter of the one before it, that quarter counts.

use std::ops::RangeInclusive;

use super::VolumeError;
use super::grid::{Grid, MOST_CELLS};
use super::solution::{FacePoint, Faces, Solution};
use crate::model::volume::{Extent, Volume};
use crate::solve::conduction::{Estimate, SolveReport, SolveTolerance};

/// The order of convergence at the edge of an inside corner, on an even grid.
const LEAST_ORDER: f64 = 2.0 / 3.0;
/// That of the method.
const GREATEST_ORDER: f64 = 2.0;
/// Observed orders that are believed.
const BELIEVED: RangeInclusive<f64> = 0.5..=2.2;

/// What is asked of a result.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Precision {
    /// Cells of the finest of the three grids, air included, at most; at most [`MOST_CELLS`]. A volume
    /// of many parts may need more, four to an interval between faces: it gets them.
    pub cells: usize,
    /// Of each solution.
    pub solve: SolveTolerance,
}

impl Default for Precision {
    /// A million cells: about a second.
    fn default() -> Self {
        Self {
            cells: 1_000_000,
            solve: SolveTolerance::default(),
        }
    }
}

/// The coldest or the warmest place of some faces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extreme {
    /// Where, and how warm on the finest grid.
    pub point: FacePoint,
    /// The temperature there, °C.
    pub temperature: Estimate,
}

/// What one grid gave.
#[derive(Clone, Debug, PartialEq)]
pub struct GridRecord {
    /// Cells, air included.
    pub cells: usize,
    /// Heat from warmer to colder boundaries, W.
    pub heat_flow: f64,
    /// How well the equations are met.
    pub report: SolveReport,
}

/// A volume solved with error bars.
#[derive(Clone, Debug)]
pub struct VolumeResult {
    /// Heat from each boundary into the solid, W, in the order of the volume's boundaries.
    pub flows: Vec<Estimate>,
    /// Heat from warmer to colder boundaries, W.
    pub heat_flow: Estimate,
    /// The solutions, coarsest first.
    solutions: [Solution; 3],
}

/// Solves a volume on three nested grids.
///
/// Source: ISO 10211, three-dimensional steady heat flow (from memory; its case 4 in
/// `tests/published`).
///
/// # Errors
/// [`VolumeError::TooManyCells`] where three grids don't fit.
///
/// # Example
/// A cube with one face at 6 °C and five at 0 °C has 1 °C in its middle: six such cubes, one for each
/// face, add up to a cube with all faces at 6 °C.
/// ```
/// use dewmargin::model::detail::FaceContact;
/// use dewmargin::model::volume::{Block, Extent, Face, Volume, VolumeParts};
/// use dewmargin::solve::volume::{Precision, solve_volume};
///
/// let side = |axis: usize, position: f64, celsius| {
///     let (mut from, mut to) = ([0.0; 3], [1.0; 3]);
///     (from[axis], to[axis]) = (position, position);
///     Face {
///         name: format!("{axis} at {position}"),
///         extent: Extent::new(from, to),
///         contact: FaceContact::Held(celsius),
///     }
/// };
/// let sides = [(0, 0.0, 0.0), (0, 1.0, 0.0), (1, 0.0, 0.0), (1, 1.0, 0.0), (2, 0.0, 0.0), (2, 1.0, 6.0)];
/// let volume = Volume::new(VolumeParts {
///     size: [1.0; 3],
///     blocks: vec![Block {
///         name: "cube".into(),
///         extent: Extent::new([0.0; 3], [1.0; 3]),
///         conductivity: 1.0,
///         covers: false,
///     }],
///     faces: sides.map(|(axis, position, celsius)| side(axis, position, celsius)).into(),
///     ..VolumeParts::default()
/// })
/// .expect("a sound volume");
/// let few = Precision { cells: 10_000, ..Precision::default() };
/// let result = solve_volume(&volume, &few).expect("few cells");
/// let middle = result.at([0.5; 3]).expect("a point inside");
/// assert!((middle.value - 1.0).abs() < 1e-8);
/// ```
pub fn solve_volume(volume: &Volume, precision: &Precision) -> Result<VolumeResult, VolumeError> {
    let grading = Grid::grading_for(volume, precision.cells.min(MOST_CELLS), 4);
    // The finest first: if it fits, the others do.
    let finest = Grid::graded(volume, &grading, 4)?;
    let coarsest = Grid::graded(volume, &grading, 1)?;
    let coarse = Grid::graded(volume, &grading, 2)?;
    let solutions =
        [coarsest, coarse, finest].map(|grid| Solution::on(volume, grid, &precision.solve));
    let estimate =
        |of: &dyn Fn(&Solution) -> f64| estimate(solutions.each_ref().map(of), OF_VALUES);
    let boundaries = 0..volume.boundaries().len();
    let flow = |boundary: usize| estimate(&|solution: &Solution| solution.flows()[boundary]);
    Ok(VolumeResult {
        flows: boundaries.map(flow).collect(),
        heat_flow: estimate(&Solution::heat_flow),
        solutions,
    })
}

impl VolumeResult {
    /// The solution on the finest grid.
    #[must_use]
    pub fn solution(&self) -> &Solution {
        &self.solutions[2]
    }

    /// All grids, coarsest first.
    #[must_use]
    pub fn grids(&self) -> [GridRecord; 3] {
        self.solutions.each_ref().map(|solution| GridRecord {
            cells: solution.grid().cells(),
            heat_flow: solution.heat_flow(),
            report: *solution.report(),
        })
    }

    /// Whether every system was solved as well as asked. A result that wasn't may not be trusted.
    #[must_use]
    pub fn converged(&self) -> bool {
        let mut solutions = self.solutions.iter();
        solutions.all(|solution| solution.report().converged)
    }

    /// The temperature at a point (x, y, z in m), °C; `None` in air or beyond the volume.
    #[must_use]
    pub fn at(&self, point: [f64; 3]) -> Option<Estimate> {
        let [first, second, third] = self.solutions.each_ref().map(|one| one.at(point));
        Some(estimate([first?, second?, third?], OF_VALUES))
    }

    /// The coldest place of some faces, within a box if one is given; `None` where there are none.
    #[must_use]
    pub fn coldest(&self, faces: Faces, within: Option<&Extent>) -> Option<Extreme> {
        self.extreme(faces, within, 1.0)
    }

    /// The warmest place of some faces, within a box if one is given; `None` where there are none.
    #[must_use]
    pub fn warmest(&self, faces: Faces, within: Option<&Extent>) -> Option<Extreme> {
        self.extreme(faces, within, -1.0)
    }

    /// The least of the temperatures times a sign.
    fn extreme(&self, faces: Faces, within: Option<&Extent>, sign: f64) -> Option<Extreme> {
        let of = |solution: &Solution| -> Option<FacePoint> {
            let points = solution.points(faces, within);
            let order = |a: &FacePoint, b: &FacePoint| {
                f64::total_cmp(&(sign * a.temperature), &(sign * b.temperature))
            };
            points.into_iter().min_by(order)
        };
        let [first, second, third] = self.solutions.each_ref().map(of);
        let point = third?;
        let values = [first?, second?, point].map(|point| point.temperature);
        Some(Extreme {
            point,
            temperature: estimate(values, OF_EXTREMES),
        })
    }
}

/// How wide a bar is: what is left where an order is seen, and where none is, in last differences.
#[derive(Clone, Copy)]
struct Rest {
    least_order: f64,
    unordered: f64,
}

/// Of heat flows and of given points.
const OF_VALUES: Rest = Rest {
    least_order: LEAST_ORDER,
    unordered: 3.0,
};
/// Of the coldest and warmest place of a face: it lies in an edge or a corner, where the field goes
/// with a lesser power still.
const OF_EXTREMES: Rest = Rest {
    least_order: 0.35,
    unordered: 5.0,
};

/// What values on three nested grids tend to, coarsest first.
fn estimate([first, second, third]: [f64; 3], rest: Rest) -> Estimate {
    let (before, last) = (second - first, third - second);
    let left_by = |order: f64| 1.0 / (libm::exp2(order) - 1.0);
    let order = libm::log2(before / last);
    let (correction, left) = match BELIEVED.contains(&order) {
        true => {
            let order = order.clamp(LEAST_ORDER, GREATEST_ORDER);
            (last * left_by(order), left_by(rest.least_order))
        }
        false => (0.0, rest.unordered),
    };
    Estimate {
        value: third + correction,
        bar: left * last.abs().max(0.25 * before.abs()),
        order: order.is_finite().then_some(order),
    }
}
