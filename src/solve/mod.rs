//! The steady one-dimensional solution of an assembly: algorithms on the model, no judgement.
//!
//! An assembly becomes *paths*: the cavity, its framing, each metal strip ([`path`]). Every path
//! is a chain of resistances to heat and to vapor, solved for temperatures ([`profile`]) and for
//! vapor pressures with and without condensation ([`string`]). [`transmittance`] puts the paths
//! together into U-values by the parallel path, by isothermal planes and by the combined method;
//! [`assembly`] runs it all for the winter mean and the design night.

mod again;
pub mod assembly;
mod chain;
pub mod conduction;
pub mod detail;
pub mod house;
pub mod mold;
pub mod path;
mod piece;
pub mod profile;
pub mod reach;
mod setting;
pub mod shown;
pub mod sizing;
pub mod string;
pub mod transmittance;
pub mod volume;
pub mod wetting;
pub mod year;

pub use again::Again;
pub use assembly::{
    AssemblyResult, EndResult, Extent, PathResult, solve, solve_shown, solve_to, solve_with,
};
pub use path::{Path, PathKind};
pub use piece::{HeatSource, Piece};
pub use profile::{Boundary, PlaneState, Profile, Slab, SlabHeat};
pub use reach::{PlaneRole, WaterWay, bodies};
pub use setting::heat_direction;
pub use shown::StripFactors;
pub use transmittance::Transmittance;
pub use wetting::Drying;
