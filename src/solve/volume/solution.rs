//! The temperatures of a volume on one grid, and what follows from them.

use super::assembly::{Cells, Side, each_cell_at};
use super::grid::{Grid, places};
use super::network::Layout;
use super::solver;
use super::symmetry::Symmetry;
use crate::model::detail::Place;
use crate::model::volume::{Extent, Facing, Volume};
use crate::solve::conduction::{SolveReport, SolveTolerance, intervals_at, through};

/// A piece of a face, one cell wide each way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FacePoint {
    /// Its middle, m.
    pub at: [f64; 3],
    /// The way it looks, out of the solid it was asked of.
    pub facing: Facing,
    /// m².
    pub area: f64,
    /// At the face itself, °C.
    pub temperature: f64,
}

/// A corner of a piece of a face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct PieceCorner {
    pub(super) piece: FacePoint,
    /// m.
    pub(super) at: [f64; 3],
    /// °C.
    pub(super) temperature: f64,
}

/// Faces of a volume that have a coldest and a warmest place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Faces {
    /// Where solid meets a boundary, by its number.
    Surface(usize),
    /// Where two blocks touch, by their numbers.
    Between(usize, usize),
    /// All around a block, by its number, as far as nothing covers it.
    Around(usize),
}

/// A volume solved on one grid.
#[derive(Clone, Debug)]
pub struct Solution {
    volume: Volume,
    grid: Grid,
    cells: Cells,
    symmetry: Symmetry,
    layout: Layout,
    /// The temperature of the coldest boundary, °C.
    coldest: f64,
    /// Over that, by the network's cells, K.
    excess: Vec<f64>,
    flows: Vec<f64>,
    report: SolveReport,
}

impl Solution {
    /// Solves a volume on a grid of its own.
    #[must_use]
    pub fn on(volume: &Volume, grid: Grid, tolerance: &SolveTolerance) -> Self {
        let cells = Cells::of(volume, &grid);
        let symmetry = Symmetry::of(volume, &grid);
        let network = cells.network(volume, &grid, symmetry);
        let layout = network.layout;
        // Measured from the coldest boundary, so that the result is the same in any scale.
        let boundaries = || volume.boundaries().iter().map(|one| one.temperature);
        let coldest = boundaries().fold(f64::INFINITY, f64::min);
        let excess: Vec<f64> = boundaries().map(|t| t - coldest).collect();
        let mut source = layout.zeros();
        cells.each_contact(volume, &grid, |side| {
            if symmetry.keeps(side.cell) {
                let cell = symmetry.stand(side.cell);
                let conductance = symmetry.share(cell) * side.conductance();
                source[layout.at(cell)] += conductance * excess[side.contact.boundary];
            }
        });
        let flows = |temperature: &[f64]| {
            let mut flows = vec![0.0; excess.len()];
            cells.each_contact(volume, &grid, |side| {
                let boundary = side.contact.boundary;
                let difference =
                    excess[boundary] - temperature[layout.at(symmetry.stand(side.cell))];
                flows[boundary] += side.conductance() * difference;
            });
            flows
        };
        let imbalance = |temperature: &[f64]| imbalance(&flows(temperature));
        let spacing = cells.spacing(&grid, symmetry);
        let (excess_of_cells, report) =
            solver::solve(network, spacing, source, tolerance, imbalance);
        let flows = flows(&excess_of_cells);
        Self {
            volume: volume.clone(),
            grid,
            cells,
            symmetry,
            layout,
            coldest,
            excess: excess_of_cells,
            flows,
            report,
        }
    }

    /// What was solved.
    #[must_use]
    pub fn volume(&self) -> &Volume {
        &self.volume
    }

    /// What it was solved on.
    #[must_use]
    pub fn grid(&self) -> &Grid {
        &self.grid
    }

    /// How well the equations are met.
    #[must_use]
    pub fn report(&self) -> &SolveReport {
        &self.report
    }

    /// Heat from each boundary into the solid, W, in the order of the volume's boundaries.
    #[must_use]
    pub fn flows(&self) -> &[f64] {
        &self.flows
    }

    /// Heat that passes from the warmer boundaries to the colder ones, W.
    #[must_use]
    pub fn heat_flow(&self) -> f64 {
        through(&self.flows)
    }

    /// The temperature of a cell, by its position along x, y and z, °C; `None` in air.
    #[must_use]
    pub fn cell(&self, cell: [usize; 3]) -> Option<f64> {
        let counts = self.grid.counts();
        let inside = (0..3).all(|axis| cell[axis] < counts[axis]);
        let place = inside.then(|| self.volume.place(self.grid.place(cell)));
        let is_solid = matches!(place, Some(Place::Block(_)));
        is_solid.then(|| self.center(cell))
    }

    /// The mean temperature of each block as far as it is seen, °C; `None` of one that isn't.
    #[must_use]
    pub fn means(&self) -> Vec<Option<f64>> {
        let mut sums = vec![(0.0, 0.0); self.volume.parts().blocks.len()];
        let [columns, rows, layers] = self.grid.counts();
        for z in 0..layers {
            for y in 0..rows {
                for x in 0..columns {
                    let cell = [x, y, z];
                    if let Place::Block(block) = self.volume.place(self.grid.place(cell)) {
                        let size = (0..3).map(|axis| self.grid.axes[axis].width(cell[axis]));
                        let size: f64 = size.product();
                        let (sum, all) = &mut sums[block as usize];
                        *sum += size * self.center(cell);
                        *all += size;
                    }
                }
            }
        }
        let mean = |(sum, all): &(f64, f64)| (*all > 0.0).then(|| sum / all);
        sums.iter().map(mean).collect()
    }

    fn center(&self, cell: [usize; 3]) -> f64 {
        self.coldest + self.excess[self.layout.at(self.symmetry.stand(cell))]
    }

    /// The temperature at the side of a solid cell, from the conductances of both its halves, °C.
    pub(super) fn side(&self, cell: [usize; 3], facing: Facing) -> f64 {
        let axis = facing.axis();
        let half = |cell| self.cells.half(&self.grid, cell, axis);
        let here = self.center(cell);
        if let Some(next) = self.beside(cell, facing)
            && half(next).is_finite()
        {
            let (own, other) = (half(cell), half(next));
            return here + own / (own + other) * (self.center(next) - here);
        }
        let place = self.grid.place(cell);
        let Some(contact) = self.volume.contact(place, facing) else {
            return here;
        };
        let side = Side {
            cell,
            contact,
            area: self.cells.area(cell, axis),
            half: half(cell),
        };
        side.surface(here, self.volume.boundaries()[contact.boundary].temperature)
    }

    fn beside(&self, mut cell: [usize; 3], facing: Facing) -> Option<[usize; 3]> {
        let axis = facing.axis();
        cell[axis] = match facing.is_onward() {
            true => cell[axis] + 1,
            false => cell[axis].checked_sub(1)?,
        };
        (cell[axis] < self.grid.axes[axis].cells()).then_some(cell)
    }

    /// The temperature at a point (x, y, z in m), °C; `None` in air or beyond the volume. On a face it
    /// is the solid's; where solids meet, their mean by conductivity: beside steel the steel knows
    /// best.
    ///
    /// From a cell's middle the temperature runs straight to each side; what the three axes give is
    /// added up.
    #[must_use]
    pub fn at(&self, point: [f64; 3]) -> Option<f64> {
        let [x, y, z] =
            [0, 1, 2].map(|axis| intervals_at(&self.grid.axes[axis].lines, point[axis]));
        let (mut sum, mut weights) = (0.0, 0.0);
        for z in z? {
            for y in y.clone()? {
                for x in x.clone()? {
                    let cell = [x, y, z];
                    if let Place::Block(block) = self.volume.place(self.grid.place(cell)) {
                        let weight = self.volume.parts().blocks[block as usize].conductivity;
                        sum += weight * self.in_cell(cell, point);
                        weights += weight;
                    }
                }
            }
        }
        (weights > 0.0).then(|| sum / weights)
    }

    fn in_cell(&self, cell: [usize; 3], point: [f64; 3]) -> f64 {
        let (middle, here) = (self.grid.center(cell), self.center(cell));
        let change = |axis: usize| {
            let offset = point[axis] - middle[axis];
            let facing = Facing::along(axis, offset > 0.0);
            let share = offset.abs() / (0.5 * self.grid.axes[axis].width(cell[axis]));
            share * (self.side(cell, facing) - here)
        };
        here + (0..3).map(change).sum::<f64>()
    }

    /// The points of some faces, those within a box if one is given (its sides included).
    #[must_use]
    pub fn points(&self, faces: Faces, within: Option<&Extent>) -> Vec<FacePoint> {
        let mut points = Vec::new();
        self.each_piece(faces, |cell, facing| {
            points.push(self.face_point(cell, facing));
        });
        if let Some(within) = within {
            points.retain(|point| within.holds(point.at));
        }
        points
    }

    /// The piece that holds the least temperature times `sign`, among those pieces of some faces that count.
    /// It is looked for at the pieces' corners: a coldest place lies in an edge or a corner, half a cell
    /// away from every middle.
    pub(super) fn extreme(
        &self,
        faces: Faces,
        sign: f64,
        counts: impl Fn(&FacePoint) -> bool,
    ) -> Option<PieceCorner> {
        let mut least: Option<PieceCorner> = None;
        self.each_piece(faces, |cell, facing| {
            let piece = self.face_point(cell, facing);
            if !counts(&piece) {
                return;
            }
            let there = self.extreme_corner(cell, sign, piece);
            if least.is_none_or(|kept| sign * there.temperature < sign * kept.temperature) {
                least = Some(there);
            }
        });
        least
    }

    /// The corner of a piece that is coldest times `sign`: along both of its axes on from the middle, to
    /// the sides of its cell.
    fn extreme_corner(&self, cell: [usize; 3], sign: f64, piece: FacePoint) -> PieceCorner {
        let here = self.center(cell);
        let middle = PieceCorner {
            piece,
            at: piece.at,
            temperature: piece.temperature,
        };
        let across = (0..3).filter(|axis| *axis != piece.facing.axis());
        across.fold(middle, |mut corner, axis| {
            let change = [false, true].map(|on| self.side(cell, Facing::along(axis, on)) - here);
            let onward = sign * change[1] < sign * change[0];
            corner.temperature += change[usize::from(onward)];
            corner.at[axis] = self.grid.axes[axis].lines[cell[axis] + usize::from(onward)];
            corner
        })
    }

    /// The pieces of some faces: a cell and its side.
    fn each_piece(&self, faces: Faces, mut piece: impl FnMut([usize; 3], Facing)) {
        for place in places(&self.volume) {
            let Place::Block(block) = self.volume.place(place) else {
                continue;
            };
            for facing in Facing::ALL {
                if self.has_face(faces, (place, block as usize), facing) {
                    each_cell_at(&self.grid, place, facing, |cell| piece(cell, facing));
                }
            }
        }
    }

    fn has_face(&self, faces: Faces, (place, block): ([usize; 3], usize), facing: Facing) -> bool {
        let beyond = match self.volume.beside(place, facing) {
            Some(Place::Block(other)) => Some(other as usize),
            _ => None,
        };
        match faces {
            Faces::Surface(boundary) => {
                let contact = self.volume.contact(place, facing);
                contact.is_some_and(|contact| contact.boundary == boundary)
            }
            // Once, seen from the first.
            Faces::Between(one, other) => block == one && beyond == Some(other),
            Faces::Around(one) => block == one && beyond != Some(one),
        }
    }

    fn face_point(&self, cell: [usize; 3], facing: Facing) -> FacePoint {
        let axis = facing.axis();
        let mut at = self.grid.center(cell);
        let line = cell[axis] + usize::from(facing.is_onward());
        at[axis] = self.grid.axes[axis].lines[line];
        FacePoint {
            at,
            facing,
            area: self.cells.area(cell, axis),
            temperature: self.side(cell, facing),
        }
    }
}

/// What comes in less what goes out, relative to what comes in.
fn imbalance(flows: &[f64]) -> f64 {
    let inflow: f64 = flows.iter().filter(|flow| **flow > 0.0).sum();
    match inflow > 0.0 {
        true => flows.iter().sum::<f64>().abs() / inflow,
        false => 0.0,
    }
}
