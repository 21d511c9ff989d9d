//! A piece of a building in three dimensions: what heat conduction is solved on where a cut says
//! too little, as at the corner of a floor edge, where two flanges meet.
//!
//! Boxes of solid lie in drawing order, later ones over earlier; air lies beneath them all. x runs
//! to the right, y to the back and z upward from the volume's left, front, lower corner, in meters.
//! Where solid meets air heat passes a surface film; a face may instead be held at a temperature;
//! every other side of the volume is adiabatic. The words are those of
//! [`detail`](super::detail).
//!
//! A [`Volume`] exists only if it can be solved: everything finite and inside it, no gaps, no overlap
//! that wasn't meant, no air that touches nothing, no solid that touches neither air nor a held face.
//! (With no gaps, that can only be the whole of it.)

mod contact;
mod corner;
mod problem;
mod raster;
mod survey;

pub use contact::{Face, Facing};
pub use problem::VolumeProblem;

use super::detail::{Air, Boundary, Contact, FaceFilms, LEAST_SIZE, Place};
use contact::Contacts;
use raster::Raster;

/// The most boxes of a volume, blocks, air regions and faces together.
pub const MOST_BOXES: usize = 1_000;
/// The most places the edges of a volume's boxes may divide it into.
pub const MOST_PLACES: usize = 100_000;
/// The greatest side of a volume, m.
pub const GREATEST_SIDE: f64 = 1_000.0;

/// A box with its sides along the axes, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// The corner of least x, y and z.
    pub from: [f64; 3],
    /// The corner of greatest x, y and z.
    pub to: [f64; 3],
}

impl Extent {
    /// A box from two opposite corners, m.
    #[must_use]
    pub const fn new(from: [f64; 3], to: [f64; 3]) -> Self {
        Self { from, to }
    }

    /// Its length along x, y and z, m.
    #[must_use]
    pub fn size(&self) -> [f64; 3] {
        [0, 1, 2].map(|axis| self.to[axis] - self.from[axis])
    }

    /// The part two boxes share, if it has a size.
    #[must_use]
    pub fn shared(&self, other: &Self) -> Option<Self> {
        let axes = [0, 1, 2];
        let shared = Self {
            from: axes.map(|axis| self.from[axis].max(other.from[axis])),
            to: axes.map(|axis| self.to[axis].min(other.to[axis])),
        };
        let has_size = shared.size().iter().all(|side| *side > LEAST_SIZE);
        has_size.then_some(shared)
    }

    /// Whether a point (x, y, z in m) lies in it or on its sides, to a nanometer.
    #[must_use]
    pub fn holds(&self, point: [f64; 3]) -> bool {
        let within = |axis: usize| {
            self.from[axis] - LEAST_SIZE <= point[axis] && point[axis] <= self.to[axis] + LEAST_SIZE
        };
        (0..3).all(within)
    }
}

/// A box of one solid, or of a closed air cavity by its equivalent conductivity.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// What results call it; once in a volume.
    pub name: String,
    /// Where it lies.
    pub extent: Extent,
    /// Thermal conductivity, 1e-6 to 1e6 W/(m·K), the same in every direction.
    pub conductivity: f64,
    /// Whether it is meant to cover parts of earlier blocks.
    pub covers: bool,
}

/// A box filled with air, as far as no block lies over it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirRegion {
    /// Which of the volume's airs.
    pub air: usize,
    /// Where.
    pub extent: Extent,
    /// Films of the faces that meet this region; those that look along x or y look sideways.
    pub films: FaceFilms,
}

/// What a volume is made from, not yet checked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct VolumeParts {
    /// Its length along x, y and z, m.
    pub size: [f64; 3],
    /// Solids in drawing order.
    pub blocks: Vec<Block>,
    /// Room air, outdoor air and so on.
    pub airs: Vec<Air>,
    /// Where air lies, beneath the blocks.
    pub regions: Vec<AirRegion>,
    /// Faces held at a temperature, or sides of the volume that lie open to air.
    pub faces: Vec<Face>,
}

/// A volume that can be solved.
///
/// # Example
/// A rod through an insulated wall into the air of a room:
/// ```
/// use dewmargin::model::detail::{Air, FaceFilms};
/// use dewmargin::model::volume::{AirRegion, Block, Extent, Volume, VolumeParts};
/// let air = |name: &str, celsius| Air { name: name.into(), temperature: celsius };
/// let block = |name: &str, from, to, conductivity, covers| Block {
///     name: name.into(),
///     extent: Extent::new(from, to),
///     conductivity,
///     covers,
/// };
/// let region = |air, from, to, film| AirRegion {
///     air,
///     extent: Extent::new(from, to),
///     films: FaceFilms::all(film),
/// };
/// let parts = VolumeParts {
///     size: [0.5, 0.2, 0.2],
///     blocks: vec![
///         block("insulation", [0.1, 0.0, 0.0], [0.2, 0.2, 0.2], 0.04, false),
///         block("rod", [0.1, 0.09, 0.09], [0.4, 0.11, 0.11], 50.0, true),
///     ],
///     airs: vec![air("outdoors", -10.0), air("room", 20.0)],
///     regions: vec![
///         region(0, [0.0, 0.0, 0.0], [0.1, 0.2, 0.2], 0.04),
///         region(1, [0.2, 0.0, 0.0], [0.5, 0.2, 0.2], 0.13),
///     ],
///     faces: vec![],
/// };
/// let volume = Volume::new(parts.clone()).expect("a sound volume");
/// assert_eq!(volume.boundaries()[1].temperature, 20.0);
///
/// let mut careless = parts;
/// careless.blocks[1].covers = false;
/// let problems = Volume::new(careless).expect_err("the rod lies in the insulation");
/// assert!(problems[0].to_string().contains("`rod` lies over `insulation`"));
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Volume {
    parts: VolumeParts,
    raster: Raster,
    contacts: Contacts,
    boundaries: Vec<Boundary>,
}

impl Volume {
    /// Checks the parts and puts them together.
    ///
    /// # Errors
    /// Every problem found, each with its place; at most about fifty. Parts that aren't finite or lie
    /// outside the volume are reported before anything that depends on where they lie.
    pub fn new(parts: VolumeParts) -> Result<Self, Vec<VolumeProblem>> {
        problem::none_of(survey::parts(&parts))?;
        let raster = Raster::of(&parts).map_err(|problem| vec![problem])?;
        problem::none_of(survey::places(&parts, &raster))?;
        let (contacts, wrong_faces) = Contacts::of(&parts, &raster);
        problem::none_of(wrong_faces)?;
        problem::none_of(survey::boundaries(&parts, &raster, &contacts))?;
        let boundaries = contact::boundaries(&parts);
        Ok(Self {
            parts,
            raster,
            contacts,
            boundaries,
        })
    }

    /// What it was made from.
    #[must_use]
    pub fn parts(&self) -> &VolumeParts {
        &self.parts
    }

    /// Air first, in its order, then the faces held at a temperature, in theirs.
    #[must_use]
    pub fn boundaries(&self) -> &[Boundary] {
        &self.boundaries
    }

    /// The positions of every edge along x, y and z, from 0 to the volume's length, m.
    #[must_use]
    pub fn edges(&self) -> &[Vec<f64>; 3] {
        &self.raster.edges
    }

    /// What lies between neighboring edges in x, y and z.
    #[must_use]
    pub fn place(&self, place: [usize; 3]) -> Place {
        self.raster.place(place)
    }

    /// What the solid at a place meets on a side, where that isn't more solid: `None` for an adiabatic
    /// side of the volume.
    #[must_use]
    pub fn contact(&self, place: [usize; 3], facing: Facing) -> Option<Contact> {
        self.contacts.at(&self.parts, &self.raster, place, facing)
    }

    /// What lies beyond a side of a place; `None` beyond the volume.
    #[must_use]
    pub fn beside(&self, place: [usize; 3], facing: Facing) -> Option<Place> {
        let place = self.raster.beside(place, facing)?;
        Some(self.raster.place(place))
    }

    /// What lies just beyond a point (x, y, z in m) of a face, on the side it looks to; `None` beyond the
    /// volume.
    #[must_use]
    pub fn beyond(&self, mut point: [f64; 3], facing: Facing) -> Option<Place> {
        let hair = if facing.is_onward() { 2.0 } else { -2.0 } * LEAST_SIZE;
        point[facing.axis()] += hair;
        let mut place = [0; 3];
        for axis in 0..3 {
            let edges = &self.raster.edges[axis];
            let after = edges.partition_point(|edge| *edge <= point[axis]);
            place[axis] = after.checked_sub(1).filter(|_| after < edges.len())?;
        }
        Some(self.raster.place(place))
    }

    /// The block of that name.
    #[must_use]
    pub fn block(&self, name: &str) -> Option<usize> {
        let mut blocks = self.parts.blocks.iter();
        blocks.position(|block| block.name == name)
    }

    /// The air or held face of that name.
    #[must_use]
    pub fn boundary(&self, name: &str) -> Option<usize> {
        let mut boundaries = self.boundaries.iter();
        boundaries.position(|boundary| boundary.name == name)
    }
}

#[cfg(test)]
mod tests;
