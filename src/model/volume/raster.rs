//! The volume divided by every edge that occurs in it: what lies at each place.

use super::problem::VolumeProblem;
use super::{Extent, Facing, MOST_PLACES, Place, VolumeParts};
use crate::model::detail::{edges, index_of};

/// Places by x, y and z, x fastest.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Raster {
    pub(super) edges: [Vec<f64>; 3],
    places: Vec<Place>,
}

impl Raster {
    /// Edges and places of sound parts.
    pub(super) fn of(parts: &VolumeParts) -> Result<Self, VolumeProblem> {
        let blocks = parts.blocks.iter().map(|block| &block.extent);
        let regions = parts.regions.iter().map(|region| &region.extent);
        let faces = parts.faces.iter().map(|face| &face.extent);
        let extents: Vec<&Extent> = blocks.chain(regions).chain(faces).collect();
        let edges = [0, 1, 2].map(|axis| {
            let ends = |extent: &&Extent| [extent.from[axis], extent.to[axis]];
            edges(parts.size[axis], extents.iter().flat_map(ends))
        });
        let mut raster = Self {
            edges,
            places: Vec::new(),
        };
        let counts = raster.counts();
        if counts.iter().product::<usize>() > MOST_PLACES {
            return Err(VolumeProblem::TooManyEdges { counts });
        }
        let regions = parts.regions.iter().enumerate();
        let regions = regions.map(|(n, region)| (Place::Air(n as u32), &region.extent));
        let blocks = parts.blocks.iter().enumerate();
        let blocks = blocks.map(|(n, block)| (Place::Block(n as u32), &block.extent));
        raster.places = raster.painted(regions.chain(blocks));
        Ok(raster)
    }

    /// What is seen of boxes, later ones over earlier.
    pub(super) fn painted<'a>(
        &self,
        boxes: impl Iterator<Item = (Place, &'a Extent)>,
    ) -> Vec<Place> {
        let counts = self.counts();
        let mut places = vec![Place::Nothing; counts.iter().product()];
        for (place, extent) in boxes {
            let [x, y, z] = [0, 1, 2].map(|axis| self.range(extent, axis));
            for z in z {
                for y in y.clone() {
                    let row = (z * counts[1] + y) * counts[0];
                    places[row + x.start..row + x.end].fill(place);
                }
            }
        }
        places
    }

    fn range(&self, extent: &Extent, axis: usize) -> std::ops::Range<usize> {
        let at = |position| index_of(&self.edges[axis], position);
        at(extent.from[axis])..at(extent.to[axis])
    }

    /// Places along x, y and z.
    pub(super) fn counts(&self) -> [usize; 3] {
        [0, 1, 2].map(|axis| self.edges[axis].len() - 1)
    }

    /// All places with what lies there, x fastest.
    pub(super) fn places(&self) -> &[Place] {
        &self.places
    }

    /// Where in [`Self::places`] a place stands.
    pub(super) fn index(&self, [x, y, z]: [usize; 3]) -> usize {
        let [columns, rows, _] = self.counts();
        (z * rows + y) * columns + x
    }

    /// The place that stands there in [`Self::places`].
    pub(super) fn at(&self, index: usize) -> [usize; 3] {
        let [columns, rows, _] = self.counts();
        let row = index / columns;
        [index % columns, row % rows, row / rows]
    }

    pub(super) fn place(&self, place: [usize; 3]) -> Place {
        self.places[self.index(place)]
    }

    /// The bounds of a place.
    pub(super) fn extent(&self, place: [usize; 3]) -> Extent {
        let edge = |axis: usize, after: usize| self.edges[axis][place[axis] + after];
        Extent {
            from: [0, 1, 2].map(|axis| edge(axis, 0)),
            to: [0, 1, 2].map(|axis| edge(axis, 1)),
        }
    }

    /// The place beyond a side of a place; `None` beyond the volume.
    pub(super) fn beside(&self, mut place: [usize; 3], facing: Facing) -> Option<[usize; 3]> {
        let axis = facing.axis();
        place[axis] = match facing.is_onward() {
            true => place[axis] + 1,
            false => place[axis].checked_sub(1)?,
        };
        (place[axis] < self.counts()[axis]).then_some(place)
    }

    /// The places and sides that a flat extent lies on: `None` where it doesn't lie on the surface of
    /// a solid.
    pub(super) fn sides(&self, flat: &Extent) -> Option<Vec<([usize; 3], Facing)>> {
        let mut ranges = [0, 1, 2].map(|axis| self.range(flat, axis));
        let across = ranges.iter().position(std::ops::Range::is_empty)?;
        ranges[across] = ranges[across].start..ranges[across].start + 1;
        let [x, y, z] = ranges;
        let mut sides = Vec::new();
        for z in z {
            for y in y.clone() {
                for x in x.clone() {
                    sides.push(self.solid_side([x, y, z], across)?);
                }
            }
        }
        Some(sides)
    }

    /// Of the places on both sides of a place's lower face across an axis, the one that is solid, if
    /// only one is. The place itself may lie just beyond the volume.
    fn solid_side(&self, after: [usize; 3], axis: usize) -> Option<([usize; 3], Facing)> {
        let solid = |place: [usize; 3]| {
            let inside = place[axis] < self.counts()[axis];
            (inside && matches!(self.place(place), Place::Block(_))).then_some(place)
        };
        let mut before = after;
        let before = after[axis].checked_sub(1).and_then(|position| {
            before[axis] = position;
            solid(before)
        });
        match (before, solid(after)) {
            (Some(place), None) => Some((place, Facing::along(axis, true))),
            (None, Some(place)) => Some((place, Facing::along(axis, false))),
            _ => None,
        }
    }
}
