//! Showing what was found: text, JSON, figures. Nothing is computed here.

mod boxes_text;
pub mod comparison;
mod detail_comparison;
mod detail_text;
mod edge_yaml;
pub mod explain;
pub mod figure;
pub mod house;
pub mod json;
mod json_boxes;
mod json_detail;
pub mod json_sizing;
mod json_tables;
mod json_year;
mod leaf;
pub mod packet;
mod path_table;
mod places;
pub mod plan_review;
mod range;
pub mod remedy;
mod route;
pub mod screen;
mod sentence;
mod sentence_detail;
mod short;
pub mod sizing;
mod sizing_table;
pub mod summary;
pub mod sweep;
mod table;
mod text;
pub mod trade_off;
mod year_table;

pub use edge_yaml::edge_yaml;
pub use text::Text;
