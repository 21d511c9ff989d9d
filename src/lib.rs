//! draft
pub mod document;
pub mod check;
pub mod error;
pub mod input;
pub mod material;
pub mod model;
pub mod physics;
pub mod quantity;
pub mod solve;
