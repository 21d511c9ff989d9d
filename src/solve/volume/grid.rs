//! The grid a volume is solved on: graded, rectilinear, every material face on a plane.
//!
//! The spacing is that of the two-dimensional grids, `s (h0 + g d)` with d the distance to the nearer
//! face ([`Grading`]), but for the sides of the volume that nothing passes: they need no fine cells,
//! and along an axis on which nothing changes one cell is enough. A refined grid takes twice the
//! steps of the same map, so that its errors fall evenly.

use super::VolumeError;
use crate::model::detail::Place;
use crate::model::volume::{Facing, Volume};
use crate::solve::conduction::{Axis, Grading, distance_from_edge, steps_from_edge};

/// The most cells of a grid, air included: 1.3 GB.
pub const MOST_CELLS: usize = 4_500_000;

/// The volume's longest side over h0: with growth 1 the scale then is the growth, and a grid of a million
/// cells has cells at faces of about a ten-thousandth of that side, a thousandth of a common part.
const FINENESS: f64 = 2_000.0;

/// A rectilinear grid over a volume.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    /// Along x, y and z; `place` tells the interval between the volume's edges.
    pub axes: [Axis; 3],
}

/// An interval between two edges: how it is to be divided.
#[derive(Clone, Copy)]
struct Interval {
    start: f64,
    end: f64,
    holds_solid: bool,
    /// Whether cells are to be fine at its start and at its end.
    fine: [bool; 2],
}

impl Grid {
    /// A graded grid with every interval of the grading split into `splits` (1, 2, 4 …).
    ///
    /// # Errors
    /// [`VolumeError::TooManyCells`] beyond [`MOST_CELLS`], before anything of that size is allocated.
    pub fn graded(volume: &Volume, grading: &Grading, splits: usize) -> Result<Self, VolumeError> {
        let intervals = [0, 1, 2].map(|axis| intervals(volume, axis));
        let cells = count(&intervals, grading, splits);
        if cells > MOST_CELLS {
            return Err(VolumeError::TooManyCells { cells });
        }
        let axes = intervals.map(|intervals| axis(&intervals, grading, splits));
        Ok(Self { axes })
    }

    /// The grading whose grid has at most so many cells, `splits` to an interval, and hardly fewer;
    /// where even the coarsest has more, that one. In proportion to the volume's size.
    #[must_use]
    pub fn grading_for(volume: &Volume, cells: usize, splits: usize) -> Grading {
        let intervals = [0, 1, 2].map(|axis| intervals(volume, axis));
        let longest = volume.parts().size.into_iter().fold(0.0, f64::max);
        let grading = |scale| Grading {
            at_edge: longest / FINENESS,
            growth: 1.0,
            scale,
        };
        let (mut finer, mut coarser) = (1e-3_f64, 1e3_f64);
        for _ in 0..40 {
            let middle = (finer * coarser).sqrt();
            if count(&intervals, &grading(middle), splits) > cells {
                finer = middle;
            } else {
                coarser = middle;
            }
        }
        grading(coarser)
    }

    /// Cells along x, y and z.
    #[must_use]
    pub fn counts(&self) -> [usize; 3] {
        self.axes.each_ref().map(Axis::cells)
    }

    /// Cells, air included.
    #[must_use]
    pub fn cells(&self) -> usize {
        self.counts().iter().product()
    }

    /// Widths of the cells along an axis, m.
    pub(super) fn widths(&self, axis: usize) -> Vec<f64> {
        let axis = &self.axes[axis];
        (0..axis.cells()).map(|cell| axis.width(cell)).collect()
    }

    /// The middle of a cell, m.
    pub(super) fn center(&self, cell: [usize; 3]) -> [f64; 3] {
        [0, 1, 2].map(|axis| self.axes[axis].center(cell[axis]))
    }

    /// The place a cell lies in.
    pub(super) fn place(&self, cell: [usize; 3]) -> [usize; 3] {
        [0, 1, 2].map(|axis| self.axes[axis].place[cell[axis]] as usize)
    }

    /// The cells of a place along an axis.
    pub(super) fn cells_of(&self, axis: usize, place: usize) -> std::ops::Range<usize> {
        let places = &self.axes[axis].place;
        let first_of = |place: usize| places.partition_point(|&one| (one as usize) < place);
        first_of(place)..first_of(place + 1)
    }
}

fn intervals(volume: &Volume, axis: usize) -> Vec<Interval> {
    let edges = &volume.edges()[axis];
    let mut intervals: Vec<Interval> = edges
        .windows(2)
        .map(|pair| Interval {
            start: pair[0],
            end: pair[1],
            holds_solid: false,
            fine: [true; 2],
        })
        .collect();
    let last = intervals.len() - 1;
    (intervals[0].fine[0], intervals[last].fine[1]) = (false, false);
    for place in places(volume) {
        if !matches!(volume.place(place), Place::Block(_)) {
            continue;
        }
        intervals[place[axis]].holds_solid = true;
        for facing in Facing::ALL.into_iter().filter(|one| one.axis() == axis) {
            let outermost = if facing.is_onward() { last } else { 0 };
            if place[axis] == outermost && volume.contact(place, facing).is_some() {
                intervals[outermost].fine[usize::from(facing.is_onward())] = true;
            }
        }
    }
    intervals
}

/// All places of a volume, x fastest.
pub(super) fn places(volume: &Volume) -> impl Iterator<Item = [usize; 3]> {
    let [nx, ny, nz] = volume.edges().each_ref().map(|edges| edges.len() - 1);
    let rows = (0..nz).flat_map(move |z| (0..ny).map(move |y| (y, z)));
    rows.flat_map(move |(y, z)| (0..nx).map(move |x| [x, y, z]))
}

fn count(intervals: &[Vec<Interval>; 3], grading: &Grading, splits: usize) -> usize {
    let along = |intervals: &Vec<Interval>| {
        let steps = intervals.iter().map(|one| one.steps(grading, splits));
        steps.fold(0_usize, usize::saturating_add)
    };
    let counts = intervals.iter().map(along);
    counts.fold(1, usize::saturating_mul)
}

fn axis(intervals: &[Interval], grading: &Grading, splits: usize) -> Axis {
    let mut lines = vec![intervals[0].start];
    let mut place = Vec::new();
    for (number, interval) in intervals.iter().enumerate() {
        let steps = interval.steps(grading, splits);
        let inner = (1..steps).map(|step| step as f64 / steps as f64);
        lines.extend(inner.map(|fraction| interval.position(fraction, grading)));
        lines.push(interval.end);
        place.extend(std::iter::repeat_n(number as u32, steps));
    }
    Axis { lines, place }
}

impl Interval {
    /// How many halves or wholes, and how long each is, m: one from each fine end.
    fn reach(&self) -> (f64, f64) {
        let length = self.end - self.start;
        match self.fine {
            [true, true] => (2.0, 0.5 * length),
            [false, false] => (0.0, length),
            _ => (1.0, length),
        }
    }

    fn steps(&self, grading: &Grading, splits: usize) -> usize {
        if !self.holds_solid {
            return 1;
        }
        let (parts, reach) = self.reach();
        // A cast of a great number saturates, and a saturated one is refused.
        let steps = (parts * steps_from_edge(reach, grading)).ceil().max(1.0) as usize;
        steps.saturating_mul(splits)
    }

    /// Where a fraction of the steps ends, measured from a fine end.
    fn position(&self, fraction: f64, grading: &Grading) -> f64 {
        let (parts, reach) = self.reach();
        let from_start = |fraction| self.start + distance_from_edge(fraction, reach, grading);
        let from_end = |fraction| self.end - distance_from_edge(fraction, reach, grading);
        match self.fine {
            [true, true] if fraction <= 0.5 => from_start(parts * fraction),
            [true, true] => from_end(parts * (1.0 - fraction)),
            [true, false] => from_start(fraction),
            [false, true] => from_end(1.0 - fraction),
            [false, false] => self.start + fraction * reach,
        }
    }
}
