//! Judging what was solved: one check per file, its doc comment its manual page.
//!
//! Limits live only here. Every check prints its result, also when it passes: silence isn't
//! evidence. A poor wall is a finding, not an error.

pub mod air_gap;
pub mod air_leak;
pub mod barrier;
mod build_up;
mod caution;
mod corner;
pub mod detail;
pub mod diffusion;
pub mod drying;
mod fact;
mod finding;
pub mod flip;
pub mod frame;
pub mod group;
pub mod house;
pub mod insulation_table;
pub mod inward_leak;
mod kind;
mod memo;
pub mod mold;
mod mover;
pub mod on;
pub mod outboard;
mod overview;
pub mod plan_review;
pub mod range;
pub mod retarder;
pub mod room_air;
pub mod room_surface;
pub mod sheathing;
pub mod sizing;
pub mod steel_wood;
pub mod sweep;
#[cfg(test)]
mod table_tests;
#[cfg(test)]
pub(crate) mod tests;
pub mod times;
pub mod trade_off;
pub mod unseen;
pub mod unvented_roof;
mod verdict;
pub mod words;
pub mod year;

pub use caution::cautions;
pub use fact::{
    Detail, DryingDetail, MoldDetail, MoldIndexDetail, SealedSpot, SheathingDetail,
    StripAloneDetail, UnseenDetail, YearDetail,
};
pub use finding::{Finding, Place, Status};
pub use house::{
    HOUSE_CHECKS, HouseCheck, HouseFinding, HouseVerdict, Shave, judge_house, judge_on_road,
};
pub use kind::{ALL, Check, Column};
pub use on::On;
pub use overview::{Overview, overview};
pub(crate) use range::Asked;
pub use times::{Times, When};
pub use trade_off::{Better, Bracket, dominated_by};
pub use verdict::{Verdict, judge, judge_detail, judge_nominal, path_status, worst};
pub(crate) use verdict::{judge_again, weighed};
