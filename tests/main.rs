//! What a user and a reviewer rely on, tested from outside the library.

mod build_up;
mod cli;
mod climate;
mod details;
mod explain;
mod figures;
mod hostile;
mod house;
mod input;
mod one_study;
mod packet;
mod plan_review;
mod properties;
mod published;
mod random;
mod rarer_rules;
mod remedy;
mod room_air;
mod support;
mod sweep;
mod trade_off;
mod water;
mod whole_house;
