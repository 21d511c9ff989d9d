//! Building physics: pure functions, one cited equation each.

pub mod heat;
pub mod moist_air;
pub mod vapor;
