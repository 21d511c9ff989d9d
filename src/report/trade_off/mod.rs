//! The options of a project side by side, as text and as JSON: see [`crate::study::trade_off`].

mod json;
mod text;

pub use json::json;
pub(super) use text::cost;
pub use text::trade_off_text;
