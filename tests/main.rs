//! What a user and a reviewer rely on, tested from outside the library.

mod build_up;
mod properties;
mod published;
