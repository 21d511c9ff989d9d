//! What a user does: the program on files.

mod input;
mod support;
