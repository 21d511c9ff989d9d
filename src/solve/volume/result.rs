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
//! goes with r^(2/3); Strang and Fix 1973, from memory), whatever better order was observed. An order
//! beyond 0.5 … 2.2 is none: then the finest value stands, with three last differences for a bar. Where
//! the last difference is by chance less than a quarter of the one before it, that quarter counts.
//!
//! The coldest and the warmest place of a face are found at the corners of its cells, and graded grids
//! approach them faster the finer they are: orders of 0.5 to 4 are seen, 2 in the end. They are
//! extrapolated with 2, whatever order of the three grids is observed, and have the same bars. On 28
//! coldest places of corners of floor edges, a twentieth of the cells that the truth was taken from
//! (4.4 million), the bar covered every error; the greatest error was 0.04 K, the median bar 0.3 K.

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
/// The same of coldest and warmest places.
const BELIEVED_OF_EXTREMES: RangeInclusive<f64> = 0.5..=4.0;
/// The bar where no order is believed, in last steps.
const UNORDERED: f64 = 3.0;

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
    /// The piece of the finest grid that it is a corner of.
    pub piece: FacePoint,
    /// Where, m.
    pub at: [f64; 3],
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
    let estimate = |of: &dyn Fn(&Solution) -> f64| estimate(solutions.each_ref().map(of));
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
        Some(estimate([first?, second?, third?]))
    }

    /// The coldest place of some faces, within a box if one is given; `None` where there are none.
    #[must_use]
    pub fn coldest(&self, faces: Faces, within: Option<&Extent>) -> Option<Extreme> {
        self.extreme(faces, 1.0, |piece| is_within(piece, within))
    }

    /// The coldest place of those pieces of some faces that count; `None` where there are none.
    #[must_use]
    pub fn coldest_among(
        &self,
        faces: Faces,
        counts: impl Fn(&FacePoint) -> bool,
    ) -> Option<Extreme> {
        self.extreme(faces, 1.0, counts)
    }

    /// The warmest place of some faces, within a box if one is given; `None` where there are none.
    #[must_use]
    pub fn warmest(&self, faces: Faces, within: Option<&Extent>) -> Option<Extreme> {
        self.extreme(faces, -1.0, |piece| is_within(piece, within))
    }

    /// The least of the temperatures times a sign.
    fn extreme(
        &self,
        faces: Faces,
        sign: f64,
        counts: impl Fn(&FacePoint) -> bool,
    ) -> Option<Extreme> {
        let of = |solution: &Solution| solution.extreme(faces, sign, &counts);
        let [first, second, third] = self.solutions.each_ref().map(of);
        let finest = third?;
        let values = [first?, second?, finest].map(|corner| corner.temperature);
        Some(Extreme {
            piece: finest.piece,
            at: finest.at,
            temperature: estimate_of_extreme(values),
        })
    }
}

fn is_within(piece: &FacePoint, within: Option<&Extent>) -> bool {
    within.is_none_or(|within| within.holds(piece.at))
}

impl Solution {
    /// Solves a volume on one grid of at most so many cells, or as few as it takes two to an interval: for
    /// searches. How far it is off isn't known.
    ///
    /// # Errors
    /// [`VolumeError::TooManyCells`] where that grid doesn't fit.
    pub fn of_few_cells(volume: &Volume, cells: usize) -> Result<Self, VolumeError> {
        let grading = Grid::grading_for(volume, cells, 2);
        let grid = Grid::graded(volume, &grading, 2)?;
        Ok(Self::on(volume, grid, &SolveTolerance::default()))
    }

    /// The coldest place of those pieces of some faces that count, on this grid; its bar is infinite.
    #[must_use]
    pub fn coldest_among(
        &self,
        faces: Faces,
        counts: impl Fn(&FacePoint) -> bool,
    ) -> Option<Extreme> {
        let found = self.extreme(faces, 1.0, counts)?;
        Some(Extreme {
            piece: found.piece,
            at: found.at,
            temperature: Estimate {
                value: found.temperature,
                bar: f64::INFINITY,
                order: None,
            },
        })
    }
}

/// What heat flows and values at given points tend to on three nested grids, coarsest first.
fn estimate(values: [f64; 3]) -> Estimate {
    let steps = Steps::of(values);
    match BELIEVED.contains(&steps.order) {
        true => steps.extrapolated(steps.order.clamp(LEAST_ORDER, GREATEST_ORDER)),
        false => steps.finest(),
    }
}

/// What the coldest or the warmest place of a face tends to.
fn estimate_of_extreme(values: [f64; 3]) -> Estimate {
    let steps = Steps::of(values);
    match BELIEVED_OF_EXTREMES.contains(&steps.order) {
        true => steps.extrapolated(GREATEST_ORDER),
        false => steps.finest(),
    }
}

/// The steps between values on three nested grids.
struct Steps {
    finest: f64,
    last: f64,
    /// The last step, or a quarter of the one before it where that is more.
    greatest: f64,
    order: f64,
}

impl Steps {
    fn of([first, second, third]: [f64; 3]) -> Self {
        let (before, last) = (second - first, third - second);
        Self {
            finest: third,
            last,
            greatest: last.abs().max(0.25 * before.abs()),
            order: libm::log2(before / last),
        }
    }

    fn extrapolated(&self, order: f64) -> Estimate {
        let left_by = |order: f64| 1.0 / (libm::exp2(order) - 1.0);
        Estimate {
            value: self.finest + self.last * left_by(order),
            bar: self.greatest * left_by(LEAST_ORDER),
            order: Some(self.order),
        }
    }

    fn finest(&self) -> Estimate {
        Estimate {
            value: self.finest,
            bar: self.greatest * UNORDERED,
            order: self.order.is_finite().then_some(self.order),
        }
    }
}
