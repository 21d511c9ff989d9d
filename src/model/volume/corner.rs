//! The outside corner of a cut: where two like edges of the building meet at a right angle, mitred.

use super::{AirRegion, Block, Extent, Face, VolumeParts};
use crate::model::detail::{Area, DetailParts, LEAST_SIZE};

/// What the second of the two edges is called by: `subfloor, around the corner`.
const AROUND: &str = ", around the corner";

impl VolumeParts {
    /// The corner that a cut makes with itself: what lies at a place hangs on the smaller distance from
    /// the two outer faces, and on height. The cut's left edge is outermost; its right edge, the far end
    /// of both edges, stays adiabatic. What is left of the corner's diagonal keeps its name, what is
    /// right of it is called `…, around the corner`.
    ///
    /// `None` where a block conducts differently along x and y: around a corner its x has two directions.
    ///
    /// # Example
    /// ```
    /// use dewmargin::model::detail::{Area, Block, DetailParts, PlaneConductivity};
    /// use dewmargin::model::volume::VolumeParts;
    ///
    /// let wall = Block {
    ///     name: "wall".into(),
    ///     label: "wood".into(),
    ///     area: Area::new(0.0, 0.1, 0.0, 2.0),
    ///     conductivity: PlaneConductivity::isotropic(0.12),
    ///     covers: false,
    /// };
    /// let cut = DetailParts { width: 0.5, height: 2.0, blocks: vec![wall], ..DetailParts::default() };
    /// let corner = VolumeParts::around_corner(&cut).expect("alike in every direction");
    /// assert_eq!(corner.size, [0.5, 0.5, 2.0]);
    /// assert_eq!(corner.blocks[0].extent.to, [0.1, 0.5, 2.0]);
    /// assert_eq!(corner.blocks[1].extent.from, [0.1, 0.0, 0.0]);
    /// assert_eq!(corner.blocks[1].name, "wall, around the corner");
    /// ```
    #[must_use]
    pub fn around_corner(cut: &DetailParts) -> Option<Self> {
        let is_alike = |k: crate::model::detail::PlaneConductivity| k.x == k.y;
        if !cut.blocks.iter().all(|block| is_alike(block.conductivity)) {
            return None;
        }
        let end = cut.width;
        let blocks = cut.blocks.iter().flat_map(|block| {
            named(&block.name, strips(&block.area, end)).map(|(name, extent)| Block {
                name,
                extent,
                conductivity: block.conductivity.x,
                covers: block.covers,
            })
        });
        let regions = cut.regions.iter().flat_map(|region| {
            let strips = strips(&region.area, end).into_iter().flatten();
            strips.map(|extent| AirRegion {
                air: region.air,
                extent,
                films: region.films,
            })
        });
        let faces = cut.faces.iter().flat_map(|face| {
            named(&face.name, sides(&face.line, end)).map(|(name, extent)| Face {
                name,
                extent,
                contact: face.contact,
            })
        });
        Some(Self {
            size: [end, end, cut.height],
            blocks: blocks.collect(),
            airs: cut.airs.clone(),
            regions: regions.collect(),
            faces: faces.collect(),
        })
    }
}

/// Both parts of what turns the corner, with their names.
fn named(name: &str, parts: [Option<Extent>; 2]) -> impl Iterator<Item = (String, Extent)> {
    let names = [name.to_owned(), format!("{name}{AROUND}")];
    let both = names.into_iter().zip(parts);
    both.filter_map(|(name, extent)| Some((name, extent?)))
}

/// An L in plan as two boxes that don't overlap: along the one outer face, and from there on along the
/// other, as far as the building goes on.
fn strips(area: &Area, end: f64) -> [Option<Extent>; 2] {
    let (from, to) = (area.left, area.right.min(end));
    let first = Extent::new([from, from, area.bottom], [to, end, area.top]);
    let second = Extent::new([to, from, area.bottom], [end, to, area.top]);
    [Some(first), (end - to > LEAST_SIZE).then_some(second)]
}

/// A face of the cut on both sides of the corner. An upright one at the far end is no face: there lie
/// the cuts through both edges.
fn sides(line: &Area, end: f64) -> [Option<Extent>; 2] {
    if line.right - line.left > LEAST_SIZE {
        return strips(line, end);
    }
    let at = line.left;
    let first = Extent::new([at, at, line.bottom], [at, end, line.top]);
    let second = Extent::new([at, at, line.bottom], [end, at, line.top]);
    let goes_on = end - at > LEAST_SIZE;
    [first, second].map(|side| goes_on.then_some(side))
}
