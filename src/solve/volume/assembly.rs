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
use super::network::{Network, Row};
use super::symmetry::Symmetry;
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

    /// The conductances of a volume on a grid that has a symmetry.
    pub(super) fn network(&self, volume: &Volume, grid: &Grid, symmetry: Symmetry) -> Network {
        let axes = symmetry.axes();
        let counts = grid.counts();
        let mut network = Network::bare(axes.map(|axis| counts[axis]));
        let layout = network.layout;
        let lines = self.resistivity_lines(grid, axes);
        let line = |[_, y, z]: [usize; 3]| lines.of([y, z]);
        let kept = |row: &Row| symmetry.keeps_row(row);
        for row in layout.every_row().filter(kept) {
            for axis in 0..3 {
                let Some(next) = layout.next_row(&row, axis).filter(kept) else {
                    continue;
                };
                // Links along a row may be their own images.
                let share = if axis == 0 {
                    symmetry.share(row.cell)
                } else {
                    1.0
                };
                let offset = usize::from(axis == 0);
                let width = |axis: usize, at: usize| self.width[axes[axis]][at];
                let across = [(axis + 1) % 3, (axis + 2) % 3];
                let along = &mut network.along[axis][row.at..];
                let (here, beyond) = (line(row.cell), &line(next.cell)[offset..]);
                for (x, (here, beyond)) in here.iter().zip(beyond).enumerate() {
                    let cell = [x, row.cell[1], row.cell[2]];
                    let own = width(axis, cell[axis]);
                    let other = width(axis, cell[axis] + 1);
                    let area =
                        width(across[0], cell[across[0]]) * width(across[1], cell[across[1]]);
                    along[x] = share * area / (0.5 * (own * here + other * beyond));
                }
            }
        }
        self.each_contact(volume, grid, |side| {
            if symmetry.keeps(side.cell) {
                let cell = symmetry.stand(side.cell);
                network.sink[layout.at(cell)] += symmetry.share(cell) * side.conductance();
            }
        });
        network.find_rows();
        network
    }

    /// The resistivity of every cell along the first of some axes, for each place in the others.
    fn resistivity_lines(&self, grid: &Grid, axes: [usize; 3]) -> Lines {
        let [along, across, beyond] = axes;
        let [columns, rows, _] = self.places;
        let line = |second: usize, third: usize| {
            let cells = grid.axes[along].place.iter();
            let of_cell = |first: &u32| {
                let mut place = [0; 3];
                place[along] = *first as usize;
                (place[across], place[beyond]) = (second, third);
                self.resistivity[(place[2] * rows + place[1]) * columns + place[0]]
            };
            cells.map(of_cell).collect()
        };
        let thirds = 0..self.places[beyond];
        let lines =
            thirds.flat_map(|third| (0..self.places[across]).map(move |second| (second, third)));
        Lines {
            lines: lines.map(|(second, third)| line(second, third)).collect(),
            place: [across, beyond].map(|axis| grid.axes[axis].place.clone()),
            across: self.places[across],
        }
    }

    /// Widths and the intervals between the volume's edges, for coarsening.
    pub(super) fn spacing(&self, grid: &Grid, symmetry: Symmetry) -> Spacing {
        let axes = symmetry.axes();
        Spacing {
            width: axes.map(|axis| self.width[axis].clone()),
            interval: axes.map(|axis| grid.axes[axis].place.clone()),
        }
    }
}

/// Resistivities along one axis, m·K/W, by the places along the two others.
struct Lines {
    lines: Vec<Vec<f64>>,
    /// The places of cells along the two others.
    place: [Vec<u32>; 2],
    /// How many places the first of them has.
    across: usize,
}

impl Lines {
    fn of(&self, cell: [usize; 2]) -> &[f64] {
        let [second, third] = [0, 1].map(|axis| self.place[axis][cell[axis]] as usize);
        &self.lines[third * self.across + second]
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
