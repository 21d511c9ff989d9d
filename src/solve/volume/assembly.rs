//! Cell-centered finite volumes: a grid becomes a network of conductances.
//!
//! ```text
//! between cells        g = A / (d1/2k1 + d2/2k2)                    harmonic mean
//! cell to a boundary   g = A / (d/2k + R)                           film R, or 0 where held
//! in every cell        Σ g (T_neighbor − T) + Σ g (T_boundary − T) = 0
//! ```
//! A area (m²), d cell width, k conductivity; conductances are W/K. Heat that leaves one cell enters
//! the next, so the balance closes whatever the grid.

use super::coarsen::Spacing;
use super::grid::{Grid, places};
use super::network::Network;
use crate::model::detail::{Contact, Place};
use crate::model::volume::{Facing, Volume};

/// The cells of a volume on a grid.
#[derive(Clone, Debug)]
pub(super) struct Cells {
    width: [Vec<f64>; 3],
    /// Resistivity of each place, x fastest, m·K/W; infinite in air.
    resistivity: Vec<f64>,
    places: [usize; 3],
}

/// A side of a cell that meets a boundary.
#[derive(Clone, Copy, Debug)]
pub(super) struct Side {
    pub(super) cell: [usize; 3],
    pub(super) contact: Contact,
    /// m².
    pub(super) area: f64,
    /// From the cell's middle to its side, m²·K/W.
    pub(super) half: f64,
}

impl Side {
    /// From the cell's middle to the boundary, W/K.
    pub(super) fn conductance(&self) -> f64 {
        self.area / (self.half + self.contact.film)
    }

    /// At the surface, between a cell and a boundary of given temperatures, °C.
    pub(super) fn surface(&self, cell: f64, boundary: f64) -> f64 {
        let film_share = self.contact.film / (self.half + self.contact.film);
        boundary + film_share * (cell - boundary)
    }
}

impl Cells {
    pub(super) fn of(volume: &Volume, grid: &Grid) -> Self {
        let blocks = &volume.parts().blocks;
        let resistivity = places(volume).map(|place| match volume.place(place) {
            Place::Block(block) => 1.0 / blocks[block as usize].conductivity,
            _ => f64::INFINITY,
        });
        Self {
            width: [0, 1, 2].map(|axis| grid.widths(axis)),
            resistivity: resistivity.collect(),
            places: volume.edges().each_ref().map(|edges| edges.len() - 1),
        }
    }

    /// From a cell's middle to its side along an axis, m²·K/W; infinite in air.
    pub(super) fn half(&self, grid: &Grid, cell: [usize; 3], axis: usize) -> f64 {
        let [x, y, z] = grid.place(cell);
        let [columns, rows, _] = self.places;
        let place = (z * rows + y) * columns + x;
        0.5 * self.width[axis][cell[axis]] * self.resistivity[place]
    }

    /// Of a cell's sides across an axis, m².
    pub(super) fn area(&self, cell: [usize; 3], axis: usize) -> f64 {
        let across = [(axis + 1) % 3, (axis + 2) % 3];
        let widths = across.map(|axis| self.width[axis][cell[axis]]);
        widths[0] * widths[1]
    }

    /// Visits every side of a solid cell that meets a boundary, place by place.
    pub(super) fn each_contact(&self, volume: &Volume, grid: &Grid, mut visit: impl FnMut(Side)) {
        for place in places(volume) {
            if !matches!(volume.place(place), Place::Block(_)) {
                continue;
            }
            for facing in Facing::ALL {
                if let Some(contact) = volume.contact(place, facing) {
                    each_cell_at(grid, place, facing, |cell| {
                        let axis = facing.axis();
                        visit(Side {
                            cell,
                            contact,
                            area: self.area(cell, axis),
                            half: self.half(grid, cell, axis),
                        });
                    });
                }
            }
        }
    }

    /// The conductances of a volume on a grid.
    pub(super) fn network(&self, volume: &Volume, grid: &Grid) -> Network {
        let mut network = Network::bare(grid.counts());
        let layout = network.layout;
        let lines = self.resistivity_lines(grid);
        let line = |cell: [usize; 3]| {
            let [_, y, z] = grid.place(cell);
            &lines[z * self.places[1] + y][..]
        };
        for row in layout.every_row() {
            for axis in 0..3 {
                let mut next = row.cell;
                next[axis] += 1;
                if next[axis] < layout.counts[axis] {
                    let (here, beyond) = (line(row.cell), &line(next)[next[0]..]);
                    let along = &mut network.along[axis][row.at..];
                    for (x, (along, (here, beyond))) in
                        along.iter_mut().zip(here.iter().zip(beyond)).enumerate()
                    {
                        let offset = if axis == 0 { x } else { 0 };
                        let width = |cell: [usize; 3]| self.width[axis][cell[axis] + offset];
                        let [_, y, z] = row.cell;
                        let halves = 0.5 * (width(row.cell) * here + width(next) * beyond);
                        *along = self.area([x, y, z], axis) / halves;
                    }
                }
            }
        }
        self.each_contact(volume, grid, |side| {
            network.sink[layout.at(side.cell)] += side.conductance();
        });
        network.find_rows();
        network
    }

    /// The resistivity of every cell along x, m·K/W, for each place in y and z, y first.
    fn resistivity_lines(&self, grid: &Grid) -> Vec<Vec<f64>> {
        let of_places = self.resistivity.chunks(self.places[0]);
        let of_cells = of_places.map(|places| {
            let cells = grid.axes[0].place.iter();
            cells.map(|place| places[*place as usize]).collect()
        });
        of_cells.collect()
    }

    /// Widths and the intervals between the volume's edges, for coarsening.
    pub(super) fn spacing(&self, grid: &Grid) -> Spacing {
        Spacing {
            width: self.width.clone(),
            interval: grid.axes.each_ref().map(|axis| axis.place.clone()),
        }
    }
}

/// Visits the cells of a place that lie at one of its sides.
pub(super) fn each_cell_at(
    grid: &Grid,
    place: [usize; 3],
    facing: Facing,
    mut visit: impl FnMut([usize; 3]),
) {
    let mut ranges = [0, 1, 2].map(|axis| grid.cells_of(axis, place[axis]));
    let across = &mut ranges[facing.axis()];
    *across = match facing.is_onward() {
        true => across.end - 1..across.end,
        false => across.start..across.start + 1,
    };
    let [x, y, z] = ranges;
    for z in z {
        for y in y.clone() {
            for x in x.clone() {
                visit([x, y, z]);
            }
        }
    }
}
