//! Building physics: pure functions, one cited equation each.

pub mod fastener;
pub mod heat;
pub mod indoor;
pub mod moist_air;
pub mod moisture_source;
pub mod mold_index;
pub mod vapor;
