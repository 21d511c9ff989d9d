//! The whole house: fit on the road, weight, heat loss.

pub(in crate::report) mod heat;
mod json;
pub(in crate::report) mod sentence;
pub(in crate::report) mod table;
mod text;
pub(in crate::report) mod words;

pub use json::json;
pub(in crate::report) use text::headlines;
pub use text::house_text;
