//! What a user and a reviewer rely on, tested from outside the library.

mod build_up;
mod figures;
mod input;
mod properties;
mod published;
mod support;
