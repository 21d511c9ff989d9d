//! A two-dimensional cut through a building: what heat conduction is solved on.
//!
//! Blocks of solid lie in drawing order, later ones on top; air lies beneath them all. x runs to
//! the right and y upward from the cut's lower left corner, in meters. Where a block meets air
//! heat passes a surface film; a face may instead be held at a temperature; every other edge of
//! the cut is adiabatic.
//!
//! A [`Detail`] exists only if it can be solved: everything finite and inside the cut, no gaps, no
//! overlap that wasn't meant, no solid that touches neither air nor a held face. (With no gaps, that
//! can only be the whole of it.)

mod boundary;
mod problem;
mod raster;
mod survey;

pub use boundary::{Air, AirRegion, Boundary, Contact, Face, FaceContact, FaceFilms};
pub use problem::DetailProblem;
pub use raster::{Facing, Place};
pub(super) use raster::{edges, index_of};

use boundary::Contacts;
use raster::Raster;

/// The most rectangles of a detail, blocks, air regions and faces together.
pub const MOST_RECTANGLES: usize = 20_000;
/// The most air and held faces of a detail.
pub const MOST_BOUNDARIES: usize = 1_000;
/// The most places the edges of a detail may divide its cut into.
pub const MOST_PLACES: usize = 4_000_000;
/// Edges nearer than this are one edge, and nothing may be thinner, m.
pub const LEAST_SIZE: f64 = 1e-9;
/// The widest and highest cut, m.
pub const GREATEST_SIZE: f64 = 10_000.0;

/// A rectangle in the plane of the cut, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Left edge, x.
    pub left: f64,
    /// Right edge, x.
    pub right: f64,
    /// Lower edge, y.
    pub bottom: f64,
    /// Upper edge, y.
    pub top: f64,
}

impl Area {
    /// A rectangle from its edges, m.
    #[must_use]
    pub const fn new(left: f64, right: f64, bottom: f64, top: f64) -> Self {
        Self {
            left,
            right,
            bottom,
            top,
        }
    }

    pub(super) fn is_finite(&self) -> bool {
        [self.left, self.right, self.bottom, self.top]
            .iter()
            .all(|edge| edge.is_finite())
    }

    /// The part two rectangles share, if it has a size.
    #[must_use]
    pub fn shared(&self, other: &Self) -> Option<Self> {
        let shared = Self {
            left: self.left.max(other.left),
            right: self.right.min(other.right),
            bottom: self.bottom.max(other.bottom),
            top: self.top.min(other.top),
        };
        let has_size =
            shared.right - shared.left > LEAST_SIZE && shared.top - shared.bottom > LEAST_SIZE;
        has_size.then_some(shared)
    }
}

/// Thermal conductivity in the plane of the cut, W/(m·K).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlaneConductivity {
    /// Along x.
    pub x: f64,
    /// Along y.
    pub y: f64,
}

impl PlaneConductivity {
    /// The same in both directions, W/(m·K).
    #[must_use]
    pub const fn isotropic(conductivity: f64) -> Self {
        Self {
            x: conductivity,
            y: conductivity,
        }
    }
}

/// A rectangle of one solid, or of a closed air cavity by its equivalent conductivity.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// What results call it; once in a detail.
    pub name: String,
    /// What it is made of, for drawings and sentences.
    pub label: String,
    /// Where it lies.
    pub area: Area,
    /// How it conducts; between 1e-6 and 1e6 W/(m·K).
    pub conductivity: PlaneConductivity,
    /// Whether it is meant to cover parts of earlier blocks.
    pub covers: bool,
}

/// What a detail is made from, not yet checked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DetailParts {
    /// Width of the cut, m.
    pub width: f64,
    /// Height of the cut, m.
    pub height: f64,
    /// Solids in drawing order.
    pub blocks: Vec<Block>,
    /// Room air, outdoor air and so on.
    pub airs: Vec<Air>,
    /// Where air lies, beneath the blocks.
    pub regions: Vec<AirRegion>,
    /// Faces held at a temperature, or edges of the cut that lie open to air.
    pub faces: Vec<Face>,
}

/// A cut that can be solved.
///
/// # Example
/// A plane wall of 100 mm between room air and outdoor air, 1 m high:
/// ```
/// use dewmargin::model::detail::{
///     Air, AirRegion, Area, Block, Detail, DetailParts, FaceFilms, PlaneConductivity,
/// };
/// let air = |name: &str, celsius| Air { name: name.into(), temperature: celsius };
/// let films = |resistance| FaceFilms::all(resistance);
/// let detail = Detail::new(DetailParts {
///     width: 0.3,
///     height: 1.0,
///     blocks: vec![Block {
///         name: "wall".into(),
///         label: "foam".into(),
///         area: Area::new(0.1, 0.2, 0.0, 1.0),
///         conductivity: PlaneConductivity::isotropic(0.025),
///         covers: false,
///     }],
///     airs: vec![air("outdoors", -10.0), air("room", 20.0)],
///     regions: vec![
///         AirRegion { air: 0, area: Area::new(0.0, 0.1, 0.0, 1.0), films: films(0.04) },
///         AirRegion { air: 1, area: Area::new(0.2, 0.3, 0.0, 1.0), films: films(0.13) },
///     ],
///     faces: vec![],
/// })
/// .expect("a sound detail");
/// assert_eq!(detail.boundaries()[1].temperature, 20.0);
///
/// let mut hollow = detail.parts().clone();
/// hollow.regions.pop();
/// let problems = Detail::new(hollow).expect_err("nothing fills the right-hand side");
/// assert!(problems[0].to_string().contains("neither a solid nor air"));
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Detail {
    parts: DetailParts,
    raster: Raster,
    contacts: Contacts,
    boundaries: Vec<Boundary>,
}

impl Detail {
    /// Checks the parts and puts them together.
    ///
    /// # Errors
    /// Every problem found, each with its place; at most about fifty. Parts that aren't finite
    /// or lie outside the cut are reported before anything that depends on where they lie.
    pub fn new(parts: DetailParts) -> Result<Self, Vec<DetailProblem>> {
        problem::none_of(survey::parts(&parts))?;
        let raster = Raster::of(&parts).map_err(|problem| vec![problem])?;
        problem::none_of(survey::places(&parts, &raster))?;
        let (contacts, wrong_faces) = Contacts::of(&parts, &raster);
        problem::none_of(wrong_faces)?;
        problem::none_of(survey::boundary(&parts, &raster, &contacts))?;
        let boundaries = Boundary::of(&parts);
        Ok(Self {
            parts,
            raster,
            contacts,
            boundaries,
        })
    }

    /// What it was made from.
    #[must_use]
    pub fn parts(&self) -> &DetailParts {
        &self.parts
    }

    /// Air first, in its order, then the faces held at a temperature, in theirs.
    #[must_use]
    pub fn boundaries(&self) -> &[Boundary] {
        &self.boundaries
    }

    /// The x of every edge, from 0 to the width, m.
    #[must_use]
    pub fn columns(&self) -> &[f64] {
        &self.raster.x
    }

    /// The y of every edge, from 0 to the height, m.
    #[must_use]
    pub fn rows(&self) -> &[f64] {
        &self.raster.y
    }

    /// What lies between two neighboring edges in x and two in y.
    #[must_use]
    pub fn place(&self, column: usize, row: usize) -> Place {
        self.raster.place(column, row)
    }

    /// What the solid at a place meets on a side, where that isn't more solid: `None` for an
    /// adiabatic edge of the cut.
    #[must_use]
    pub fn contact(&self, column: usize, row: usize, facing: Facing) -> Option<Contact> {
        self.contacts
            .at(&self.parts, &self.raster, (column, row), facing)
    }

    /// The block of that name.
    #[must_use]
    pub fn block(&self, name: &str) -> Option<usize> {
        self.parts
            .blocks
            .iter()
            .position(|block| block.name == name)
    }

    /// The air or held face of that name.
    #[must_use]
    pub fn boundary(&self, name: &str) -> Option<usize> {
        self.boundaries
            .iter()
            .position(|boundary| boundary.name == name)
    }
}

#[cfg(test)]
mod tests;
