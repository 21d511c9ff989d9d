//! Details as a project file draws or generates them, before any air has a temperature.
//!
//! A [`DetailCase`] knows what its blocks are: which layer, wood or not, bonded or not. With the
//! temperatures of room and outdoor air it becomes a [`Detail`] that can be solved.

mod assumed;
mod boxes;
mod case;
mod cross_members;
mod drawing;
mod films;
mod floor_edge;
mod layers;
mod plan;
mod rail;
mod reference;
mod roof_edge;
mod settle;

pub use assumed::{AssumedEdge, STATED_RAIL_METAL, STATED_WALL, StatedLayer, UndrawnEdge};
pub use boxes::{BoxFace, BoxRegion, BoxesCase, CaseBox, as_in_a_cut};
pub use case::{
    AirSource, BlockFacts, CaseAir, CaseBlock, CaseContact, CaseFace, CaseRegion, DetailCase,
    DetailKind, Dimension, Part, Seal, Surface,
};
pub use cross_members::CrossMembers;
pub use drawing::{EdgeKey, EdgeProblem};
pub use films::{DetailFilms, FilmRole, StatedFilms};
pub use floor_edge::{EdgeSeal, FloorEdge, FoamReach, Plate, SealFrom, SealTo};
pub use layers::air_conductivity;
pub use plan::DetailPlan;
pub use rail::{Rail, RailShape};
pub use reference::{Reference, ReferenceLayer};
pub use roof_edge::{CornerPost, RoofEdge};

pub use super::detail::Detail;
