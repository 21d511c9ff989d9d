//! Volumes that are their own image in the plane x = y, as the corner of an edge with itself is: half of
//! their cells are solved for.
//!
//! The temperatures make Σ g ΔT² least. With ΔT alike on a link and on its image, half of that sum
//! stands on the cells with x ≥ y: links between them whole, and half of what is its own image, the
//! upward links and the contacts of cells on the plane. So the half is a network of seven points too.
//! Its rows run upward, so that of each it has the whole or nothing.

use super::grid::{Grid, places};
use super::network::Row;
use crate::model::detail::{Contact, Place};
use crate::model::volume::{Facing, Volume};

/// The symmetry that a volume and its grid have: where a cell stands in the network.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Symmetry {
    None,
    /// Each cell (x, y, z) has an image (y, x, z).
    Diagonal,
}

impl Symmetry {
    pub(super) fn of(volume: &Volume, grid: &Grid) -> Self {
        let conductivity = |place| match volume.place(place) {
            Place::Block(block) => Some(volume.parts().blocks[block as usize].conductivity),
            _ => None,
        };
        let met = |place, facing| -> Option<Contact> {
            conductivity(place).and_then(|_| volume.contact(place, facing))
        };
        let is_alike = |place: [usize; 3]| {
            let there = image(place);
            let mut sides = Facing::ALL.into_iter();
            let meets_alike = |facing| met(place, facing) == met(there, across(facing));
            conductivity(place) == conductivity(there) && sides.all(meets_alike)
        };
        let mut half = places(volume).filter(|[x, y, _]| x >= y);
        match grid.axes[0] == grid.axes[1] && half.all(is_alike) {
            true => Self::Diagonal,
            false => Self::None,
        }
    }

    /// The volume's axes in the order of the network's.
    pub(super) fn axes(self) -> [usize; 3] {
        match self {
            Self::None => [0, 1, 2],
            Self::Diagonal => [2, 0, 1],
        }
    }

    /// The cell of the network that a cell of the grid, or its image, is.
    pub(super) fn stand(self, cell: [usize; 3]) -> [usize; 3] {
        let [x, y, z] = cell;
        match self {
            Self::None => cell,
            Self::Diagonal => [z, x.max(y), x.min(y)],
        }
    }

    /// Whether it is that cell itself that stands there, not its image.
    pub(super) fn keeps(self, [x, y, _]: [usize; 3]) -> bool {
        self == Self::None || x >= y
    }

    /// Whether the network has a row.
    pub(super) fn keeps_row(self, row: &Row) -> bool {
        let [_, x, y] = row.cell;
        self == Self::None || x >= y
    }

    /// How much of what is its own image stands in a row of the network: of links along it, and of contacts.
    pub(super) fn share(self, [_, x, y]: [usize; 3]) -> f64 {
        match self == Self::Diagonal && x == y {
            true => 0.5,
            false => 1.0,
        }
    }
}

/// The image of a place or a cell in the plane x = y.
fn image([x, y, z]: [usize; 3]) -> [usize; 3] {
    [y, x, z]
}

/// The way an image looks.
fn across(facing: Facing) -> Facing {
    match facing {
        Facing::Left => Facing::Front,
        Facing::Front => Facing::Left,
        Facing::Right => Facing::Back,
        Facing::Back => Facing::Right,
        Facing::Down | Facing::Up => facing,
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;

    use super::*;
    use crate::model::detail::{Air, FaceContact, FaceFilms};
    use crate::model::volume::{AirRegion, Block, Extent, Face, VolumeParts};
    use crate::solve::conduction::SolveTolerance;
    use crate::solve::volume::Solution;
    use crate::solve::volume::assembly::Cells;
    use crate::solve::volume::cycle::Multigrid;
    use crate::solve::volume::tests::{SINGLE, grid, scattered};

    /// A post of steel in the corner of a slab, its axes put in another order, m.
    fn post(order: [usize; 3]) -> Volume {
        let put = |[x, y, z]: [f64; 3]| order.map(|axis| [x, y, z][axis]);
        let block = |name: &str, from, to, conductivity| Block {
            name: name.into(),
            extent: Extent::new(put(from), put(to)),
            conductivity,
            covers: true,
        };
        let air = |name: &str, temperature| Air {
            name: name.into(),
            temperature,
        };
        let region = |air, from, to| AirRegion {
            air,
            extent: Extent::new(put([0.0, 0.0, from]), put([0.3, 0.3, to])),
            films: FaceFilms::all(0.1),
        };
        Volume::new(VolumeParts {
            size: put([0.3, 0.3, 0.5]),
            blocks: vec![
                block("slab", [0.0, 0.0, 0.1], [0.3, 0.3, 0.25], 0.04),
                block("post", [0.02, 0.02, 0.1], [0.07, 0.07, 0.4], 50.0),
            ],
            airs: vec![air("outdoors", -10.0), air("room", 20.0)],
            regions: vec![region(0, 0.0, 0.1), region(1, 0.25, 0.5)],
            faces: vec![],
        })
        .expect("sound")
    }

    #[test]
    fn half_of_a_volume_is_solved_where_it_is_its_own_image() {
        let tolerance = SolveTolerance::default();
        let solved = |volume: &Volume| Solution::on(volume, grid(volume, 30_000), &tolerance);
        let (halved, whole) = (post([0, 1, 2]), post([2, 0, 1]));
        let symmetry = |volume: &Volume| Symmetry::of(volume, &grid(volume, 30_000));
        assert_eq!(symmetry(&halved), Symmetry::Diagonal);
        assert_eq!(symmetry(&whole), Symmetry::None);
        let (halved, whole) = (solved(&halved), solved(&whole));
        assert!(halved.report().converged && whole.report().converged);
        assert_relative_eq!(halved.heat_flow(), whole.heat_flow(), max_relative = 1e-9);
        for [x, y, z] in [
            [0.05, 0.06, 0.3],
            [0.2, 0.03, 0.12],
            [0.03, 0.2, 0.12],
            [0.1, 0.1, 0.2],
        ] {
            let one = halved.at([x, y, z]).expect("solid");
            let other = whole.at([z, x, y]).expect("solid");
            assert_relative_eq!(one, other, epsilon = 1e-7);
        }
    }

    #[test]
    fn a_volume_with_a_face_or_a_part_on_one_side_alone_is_not_its_own_image() {
        let mut parts = post([0, 1, 2]).parts().clone();
        parts.faces.push(Face {
            name: "held".into(),
            extent: Extent::new([0.0, 0.0, 0.1], [0.0, 0.3, 0.25]),
            contact: FaceContact::Held(5.0),
        });
        let held = Volume::new(parts.clone()).expect("sound");
        assert_eq!(Symmetry::of(&held, &grid(&held, 5_000)), Symmetry::None);
        parts.faces.clear();
        parts.blocks[1].extent = Extent::new([0.02, 0.02, 0.1], [0.07, 0.06, 0.4]);
        let part = Volume::new(parts).expect("sound");
        assert_eq!(Symmetry::of(&part, &grid(&part, 5_000)), Symmetry::None);
    }

    #[test]
    fn a_pair_that_is_half_of_air_keeps_the_cycle_symmetric() {
        let volume = post([0, 1, 2]);
        let grid = grid(&volume, 9_000);
        let cells = Cells::of(&volume, &grid);
        let symmetry = Symmetry::of(&volume, &grid);
        let network = cells.network(&volume, &grid, symmetry);
        let (a, b) = (scattered(&network, 7), scattered(&network, 8));
        let mut multigrid = Multigrid::of(network, cells.spacing(&grid, symmetry));
        let mut applied = |right: &[f64]| {
            multigrid.precondition(right, 1.0);
            multigrid.solution().to_vec()
        };
        // Twice, as the second cycle finds what the first has left.
        applied(&a);
        let (of_a, of_b) = (applied(&a), applied(&b));
        let network = multigrid.network();
        let (one, other) = (network.dot(&b, &of_a), network.dot(&a, &of_b));
        assert_relative_eq!(one, other, max_relative = SINGLE);
    }
}
